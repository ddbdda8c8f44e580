//! A good record in an exported folder, and what a tamperer can do to it.
//!
//! Thirteen entries, one reading outside its limits and accepted, released. The packet is the one of
//! the record's own tests; keys are the secrets of RFC 8032 §7.1, tests 1 to 3.

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use chrono::{DateTime, Duration, FixedOffset};
use serde_json::{Value as Json, json};
use witnessmark::canonical::{line, sha256_hex, sha256_hex_of};
use witnessmark::export::folder;
use witnessmark::packet::Packet;
use witnessmark::record::compose::{Acceptance, Desk, Past, Request, Value, compose};
use witnessmark::record::people::{People, Person, Term};
use witnessmark::record::signature::SigningKey;

pub const DOER: &str = "a.doer@plant.example";
pub const LEAD: &str = "b.checker@plant.example";
pub const QUALITY: &str = "c.quality@plant.example";
pub const NAMESPACE: &str = "signoff@plant.example";

const PACKET: &str = include_str!("../../../src/record/fixture_packet.json");

const SECRETS: [(&str, [u8; 32]); 3] = [
    (DOER, hex(b"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")),
    (LEAD, hex(b"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")),
    (QUALITY, hex(b"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7")),
];

const fn hex(text: &[u8; 64]) -> [u8; 32] {
    const fn digit(byte: u8) -> u8 {
        if byte.is_ascii_digit() { byte - b'0' } else { byte - b'a' + 10 }
    }
    let (mut bytes, mut at) = ([0; 32], 0);
    while at < 32 {
        bytes[at] = digit(text[2 * at]) * 16 + digit(text[2 * at + 1]);
        at += 1;
    }
    bytes
}

/// The key of a person; of anybody else a key that nobody listed.
pub fn key_of(by: &str) -> SigningKey {
    let known = SECRETS.iter().find(|(id, _)| *id == by);
    SigningKey::from_secret(&known.map_or([9; 32], |(_, secret)| *secret))
}

/// A line of the list of signers.
pub fn signer(by: &str, key: &SigningKey) -> String {
    let key = key.public().to_openssh().unwrap();
    format!(
        "{by} namespaces=\"{NAMESPACE}\",valid-after=\"20260101Z\",valid-before=\"21000101Z\" {key}\n"
    )
}

/// The packet, issued the day before.
fn packet() -> Packet {
    let mut packet: Packet = serde_json::from_str(PACKET).unwrap();
    packet.job.issued = "2026-03-01T14:10:00+01:00".to_owned();
    packet
}

fn people() -> People {
    let person = |id: &str, name: &str, role: &str| Person {
        id: id.to_owned(),
        name: name.to_owned(),
        roles: vec![Term {
            role: role.to_owned(),
            from: "2025-01-01".parse().unwrap(),
            until: None,
        }],
    };
    [
        person(DOER, "Ada Doer", "technician"),
        person(LEAD, "Bo Checker", "lead"),
        person(QUALITY, "Cy Quality", "quality"),
    ]
    .into_iter()
    .collect()
}

fn requests() -> Vec<(&'static str, Request)> {
    let value = |blank: &str, text: &str| {
        let value = Value { blank: blank.to_owned(), text: text.to_owned(), ..Value::default() };
        (DOER, Request { readings: vec![value], ..Request::default() })
    };
    let done =
        |step: &str| (DOER, Request { performed: vec![step.to_owned()], ..Request::default() });
    let reason = "Test strip holds at this width.".to_owned();
    vec![
        done("lockout.tell"),
        done("lockout.isolate"),
        value("lockout.prove/zero-1", "0 V"),
        done("lockout.prove"),
        value("knives.set/position-1", "-84.0"),
        value("knives.set/position-2", "-28.5"),
        value("knives.set/position-3", "28.75"),
        done("knives.set"),
        (LEAD, Request { verified: vec!["knives.set".to_owned()], ..Request::default() }),
        (QUALITY, Request { accept: vec![Acceptance { seq: 7, reason }], ..Request::default() }),
        done("release.unlock"),
        done("production.hand-over"),
        (LEAD, Request { release: true, ..Request::default() }),
    ]
}

fn start() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-03-02T22:10:00+01:00").unwrap()
}

/// The entries of the good record, as the program composes them.
fn entries(packet: &Packet, digest: &str) -> Vec<Json> {
    let (people, mut past) = (people(), Vec::<Past>::new());
    for (by, request) in requests() {
        let key = key_of(by).public().fingerprint();
        let at = start() + Duration::minutes(i64::try_from(past.len()).unwrap());
        let desk = Desk { packet, digest, past: &past, people: &people, by, key: &key, at };
        let entries = compose(&desk, &request).unwrap();
        past.extend(entries.into_iter().map(|entry| Past { entry, key: key.clone() }));
    }
    past.into_iter().map(|past| serde_json::to_value(past.entry).unwrap()).collect()
}

/// An exported folder on disk.
pub struct Exported {
    scratch: tempfile::TempDir,
}

impl Exported {
    /// A good record.
    pub fn good() -> Exported {
        static GOOD: LazyLock<Exported> = LazyLock::new(Exported::made);
        let exported = Exported { scratch: tempfile::tempdir().unwrap() };
        crate::plant::copy_folder(GOOD.path(), exported.path());
        exported
    }

    fn made() -> Exported {
        let exported = Exported { scratch: tempfile::tempdir().unwrap() };
        std::fs::create_dir(exported.file(folder::RECORD)).unwrap();
        let packet = line(&packet()).unwrap();
        let own: Packet = serde_json::from_slice(&packet).unwrap();
        exported.write("record/packet.json", &packet);
        exported.seal(entries(&own, &sha256_hex(&packet)));
        let signers = SECRETS.map(|(by, _)| signer(by, &key_of(by))).concat();
        exported.write("allowed_signers", signers);
        let people: serde_json::Map<String, Json> = people()
            .iter()
            .map(|person| {
                let role = json!({ "from": "2025-01-01", "role": person.roles[0].role });
                (person.id.clone(), json!({ "name": person.name, "roles": [role] }))
            })
            .collect();
        exported.write_json("people.json", &json!({ "people": people, "revoked": [], "v": 1 }));
        exported.write("record.html", "<!DOCTYPE html>\n");
        exported.sum();
        exported
    }

    pub fn path(&self) -> &Path {
        self.scratch.path()
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.path().join(name)
    }

    pub fn read(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.file(name)).unwrap()
    }

    pub fn text(&self, name: &str) -> String {
        String::from_utf8(self.read(name)).unwrap()
    }

    pub fn json(&self, name: &str) -> Json {
        serde_json::from_slice(&self.read(name)).unwrap()
    }

    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.file(name), bytes).unwrap();
    }

    pub fn write_json(&self, name: &str, value: &Json) {
        self.write(name, line(value).unwrap());
    }

    pub fn remove(&self, name: &str) {
        std::fs::remove_file(self.file(name)).unwrap();
    }

    /// Replaces text that is in a file.
    #[track_caller]
    pub fn edit(&self, name: &str, old: &str, new: &str) {
        let text = self.text(name);
        assert!(text.contains(old), "`{old}` is not in {name}");
        self.write(name, text.replacen(old, new, 1));
    }

    /// Names of entry and signature.
    pub fn names(number: usize) -> [String; 2] {
        let name = format!("record/{number:06}.json");
        [name.clone(), name + ".sig"]
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        (1..).take_while(|number| self.file(&Exported::names(*number)[0]).exists()).count()
    }

    /// Takes both files of an entry away.
    pub fn drop(&self, number: usize) -> [Vec<u8>; 2] {
        Exported::names(number).map(|name| {
            let bytes = self.read(&name);
            self.remove(&name);
            bytes
        })
    }

    pub fn put(&self, number: usize, bytes: &[Vec<u8>; 2]) {
        for (name, bytes) in Exported::names(number).iter().zip(bytes) {
            self.write(name, bytes);
        }
    }

    /// Chains and signs these entries, in the place of those that are there.
    pub fn seal(&self, entries: Vec<Json>) {
        self.seal_by(entries, key_of);
    }

    pub fn seal_by(&self, entries: Vec<Json>, key: impl Fn(&str) -> SigningKey) {
        (1..=self.len()).for_each(|number| drop(self.drop(number)));
        let mut prev = "0".repeat(64);
        for (index, mut entry) in entries.into_iter().enumerate() {
            entry["prev"] = prev.into();
            let json = line(&entry).unwrap();
            let key = key(entry["by"].as_str().unwrap());
            let signature = key.sign(NAMESPACE, &json).unwrap().into_bytes();
            prev = sha256_hex_of(&[&json, &signature]);
            self.put(index + 1, &[json, signature]);
        }
    }

    pub fn entries(&self) -> Vec<Json> {
        (1..=self.len()).map(|number| self.json(&Exported::names(number)[0])).collect()
    }

    /// Changes the entries, then chains and signs all of them again with the keys of the people named.
    pub fn resealed(&self, change: impl FnOnce(&mut Vec<Json>)) {
        let mut entries = self.entries();
        change(&mut entries);
        self.seal(entries);
    }

    /// The same, and numbers them anew.
    pub fn renumbered(&self, change: impl FnOnce(&mut Vec<Json>)) {
        self.resealed(|entries| {
            change(entries);
            for (index, entry) in entries.iter_mut().enumerate() {
                entry["seq"] = (index + 1).into();
            }
        });
    }

    /// Changes the packet, and has everybody sign for the changed one.
    pub fn repacketed(&self, old: &str, new: &str) {
        self.edit("record/packet.json", old, new);
        let digest = sha256_hex(&self.read("record/packet.json"));
        self.resealed(|entries| entries.iter_mut().for_each(|e| e["packet"] = (&*digest).into()));
    }

    /// Other bytes in the place of the last entry, rightly signed by whom it was signed by.
    pub fn last_as(&self, change: impl FnOnce(String) -> String) {
        let [name, signature] = Exported::names(self.len());
        let json = change(self.text(&name));
        self.write(&signature, key_of(LEAD).sign(NAMESPACE, json.as_bytes()).unwrap());
        self.write(&name, json);
    }

    /// Changes the file of a signature.
    pub fn signature(&self, number: usize, change: impl FnOnce(String) -> String) {
        let [_, name] = Exported::names(number);
        self.write(&name, change(self.text(&name)));
    }

    /// Writes the digests of all files anew, as every tamperer would.
    pub fn sum(&self) {
        let mut files = folder::Files::new();
        for (name, bytes) in crate::plant::files_of(self.path()) {
            if name != folder::SUMS {
                files.insert(name, bytes);
            }
        }
        self.write(folder::SUMS, folder::sums(&files));
    }
}
