//! A small plant, packet and good record for the tests of records and audits.
//!
//! Four people: one does, one leads, one judges quality, one left. Keys: the secrets of RFC 8032
//! §7.1 tests 1 to 3, and a fourth of ones.

use chrono::{DateTime, Duration, FixedOffset};

use super::compose::{Acceptance, Desk, Past, Request, Signed, Value, compose, seal_all};
use super::entry::{Entry, NO_PREVIOUS, Verdict};
use super::people::{People, Person, Term};
use super::signature::SigningKey;
use super::store::{RawEntry, RawRecord};
use super::time;
use crate::canonical;
use crate::packet::Packet;
use crate::packet::model::{Guard, Meaning, Row, Sign, Table};

pub(crate) const PACKET: &[u8] = include_bytes!("fixture_packet.json");
pub(crate) const DOMAIN: &str = "plant.example";
pub(crate) const VERIFY_READING: &str = "lockout.prove/zero-1";

pub(crate) const SIGNERS: &str = r#"# who signs here
a.doer@plant.example namespaces="signoff@plant.example",valid-after="20260101Z",valid-before="20270101Z" ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea
b.checker@plant.example namespaces="signoff@plant.example",valid-after="20260101Z",valid-before="20270101Z" ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAID1AF8PoQ4lakrcKp00bfrycmCzPLsSWjMDNVfEq9GYM
c.quality@plant.example namespaces="signoff@plant.example",valid-after="20260101Z",valid-before="20270101Z" ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIPxRzY5iGKGjjaR+0AIw8FgIFu0TujMDrF3rkRVIkIAl
"#;

/// Who signs, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Crew {
    Doer,
    Lead,
    Quality,
    /// Was a technician last year.
    Former,
    /// Holds the roles of the doer and of the lead.
    Both,
    /// The lead, who got hold of the doer's key.
    LeadWithDoersKey,
    /// The doer at a station whose clock is days behind.
    Early,
    Nobody,
}

impl Crew {
    fn id(self) -> &'static str {
        match self {
            Crew::Doer | Crew::Early => "a.doer@plant.example",
            Crew::Lead | Crew::LeadWithDoersKey => "b.checker@plant.example",
            Crew::Quality => "c.quality@plant.example",
            Crew::Former => "d.former@plant.example",
            Crew::Both => "e.both@plant.example",
            Crew::Nobody => "n.obody@plant.example",
        }
    }

    pub(crate) fn key(self) -> &'static str {
        match self {
            Crew::Doer | Crew::Early | Crew::LeadWithDoersKey => "key of the doer",
            Crew::Lead => "key of the lead",
            _ => "another key",
        }
    }
}

pub(crate) const SECRETS: [&str; 3] = [
    "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
    "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
    "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
];

/// Bytes of hex text.
pub(crate) fn unhex(text: &str) -> Vec<u8> {
    let nibble = |b: u8| char::from(b).to_digit(16).unwrap() as u8;
    text.as_bytes().chunks(2).map(|pair| nibble(pair[0]) * 16 + nibble(pair[1])).collect()
}

pub(crate) fn key_of(by: &str) -> SigningKey {
    let index = ["a.doer", "b.checker", "c.quality"].iter().position(|n| by.starts_with(n));
    let secret = index.map_or([1; 32], |index| unhex(SECRETS[index]).try_into().unwrap());
    SigningKey::from_secret(&secret)
}

pub(crate) fn packet() -> Packet {
    serde_json::from_slice(PACKET).unwrap()
}

/// A guard band of 0.3 mm about 27.5 to 28.5 mm, the limits of the third knife.
pub(crate) fn guard() -> Guard {
    let some = |text: &str| Some(text.to_owned());
    let uncertainty = "0.3".to_owned();
    let (low, high, outer_low, outer_high) =
        (some("27.8"), some("28.2"), some("27.2"), some("28.8"));
    Guard { uncertainty, low, high, outer_low, outer_high }
}

pub(crate) fn digest() -> String {
    canonical::sha256_hex(PACKET)
}

pub(crate) fn people() -> People {
    let person = |id: &str, name: &str, roles: &[(&str, Option<&str>)]| Person {
        id: id.to_owned(),
        name: name.to_owned(),
        roles: (roles.iter())
            .map(|(role, until)| Term {
                role: (*role).to_owned(),
                from: "2025-01-01".parse().unwrap(),
                until: until.map(|day| day.parse().unwrap()),
            })
            .collect(),
    };
    let technician = ("technician", None);
    [
        person("a.doer@plant.example", "Ada Doer", &[technician]),
        person("b.checker@plant.example", "Bo Checker", &[("lead", None)]),
        person("c.quality@plant.example", "Cy Quality", &[("quality", None)]),
        person("d.former@plant.example", "Di Former", &[("technician", Some("2025-12-31"))]),
        person("e.both@plant.example", "Ed Both", &[technician, ("lead", None)]),
    ]
    .into_iter()
    .collect()
}

pub(crate) fn start() -> DateTime<FixedOffset> {
    time::parse("2026-11-26T22:10:00+01:00").unwrap()
}

pub(crate) fn desk<'a>(
    packet: &'a Packet,
    digest: &'a str,
    people: &'a People,
    past: &'a [Past],
    who: Crew,
) -> Desk<'a> {
    let minutes = i64::try_from(past.len()).unwrap();
    let at = match who {
        Crew::Early => {
            start() - Duration::days(5) + Duration::days(if past.is_empty() { 0 } else { 4 })
        }
        _ => start() + Duration::minutes(minutes),
    };
    Desk { packet, digest, past, people, by: who.id(), key: who.key(), at }
}

/// The packet with two sources that are isolated and proved row by row, and a lock of one person.
pub(crate) fn by_row() -> Packet {
    let mut packet = packet();
    let row = |id: &str, blank: Option<&str>| Row {
        id: id.to_owned(),
        cells: vec![id.to_owned()],
        readings: blank.map(str::to_owned).into_iter().collect(),
    };
    let sign = |meaning, role: &str, row: &str, by: Option<&str>| Sign {
        meaning,
        role: role.to_owned(),
        row: Some(row.to_owned()),
        by: by.map(str::to_owned),
    };
    let mut rows = |step: &str, rows: Vec<Row>, signs: Vec<Sign>| {
        let step = packet.steps.iter_mut().find(|own| own.id == step).unwrap();
        step.table = Some(Table { columns: vec!["Source".to_owned()], rows });
        step.signs = signs;
    };
    let (done, seen) = (Meaning::Performed, Meaning::Verified);
    rows(
        "lockout.tell",
        vec![row("a.doer@plant.example", None), row("e.both@plant.example", None)],
        vec![
            sign(done, "technician", "a.doer@plant.example", Some("a.doer@plant.example")),
            sign(done, "technician", "e.both@plant.example", Some("e.both@plant.example")),
        ],
    );
    rows(
        "lockout.isolate",
        vec![row("mains", None), row("air", None)],
        vec![sign(done, "technician", "mains", None), sign(done, "technician", "air", None)],
    );
    rows(
        "lockout.prove",
        vec![row("mains", Some(VERIFY_READING)), row("air", None)],
        vec![
            sign(done, "lead", "mains", None),
            sign(done, "technician", "air", None),
            sign(seen, "quality", "mains", None),
            sign(seen, "quality", "air", None),
        ],
    );
    packet
}

/// The thirteen requests of the good record, one entry each; entry 7 lies outside its limits.
fn requests() -> Vec<(Crew, Request)> {
    let value = |blank: &str, text: &str| {
        let value = Value { blank: blank.to_owned(), text: text.to_owned(), ..Value::default() };
        (Crew::Doer, Request { readings: vec![value], ..Request::default() })
    };
    let done = |step: &str| {
        (Crew::Doer, Request { performed: vec![step.to_owned()], ..Request::default() })
    };
    let acceptance = Acceptance { seq: 7, reason: "Test strip holds at this width.".to_owned() };
    vec![
        done("lockout.tell"),
        done("lockout.isolate"),
        value(VERIFY_READING, "0 V"),
        done("lockout.prove"),
        value("knives.set/position-1", "-84.0"),
        value("knives.set/position-2", "-28.5"),
        value("knives.set/position-3", "28.75"),
        done("knives.set"),
        (Crew::Lead, Request { verified: vec!["knives.set".to_owned()], ..Request::default() }),
        (Crew::Quality, Request { accept: vec![acceptance], ..Request::default() }),
        done("release.unlock"),
        done("production.hand-over"),
        (Crew::Lead, Request { release: true, ..Request::default() }),
    ]
}

/// The first entries of the good record.
pub(crate) fn past(most: u64) -> Vec<Past> {
    let (packet, digest, people) = (packet(), digest(), people());
    let most = usize::try_from(most).unwrap_or(usize::MAX);
    let mut past: Vec<Past> = Vec::new();
    for (who, request) in requests().into_iter().take(most) {
        let entries = compose(&desk(&packet, &digest, &people, &past, who), &request).unwrap();
        let key = who.key().to_owned();
        past.extend(entries.into_iter().map(|entry| Past { entry, key: key.clone() }));
    }
    past
}

/// Signs entries, each with the key of who it is by.
pub(crate) fn seal(entries: impl IntoIterator<Item = Entry>) -> Vec<Signed> {
    let mut prev = NO_PREVIOUS.to_owned();
    let mut sealed = Vec::new();
    for entry in entries {
        let key = key_of(&entry.by);
        let signed = seal_all(vec![entry], &prev, &key, DOMAIN).unwrap().remove(0);
        prev = super::compose::chained(&signed.json, &signed.signature);
        sealed.push(signed);
    }
    sealed
}

/// The good record, released with an accepted deviation.
pub(crate) fn signed() -> Vec<Signed> {
    seal(past(u64::MAX).into_iter().map(|past| past.entry))
}

pub(crate) fn raw_of(signed: Vec<Signed>) -> RawRecord {
    let entries = signed.into_iter().enumerate().map(|(index, signed)| RawEntry {
        name: format!("{:06}", index + 1),
        json: signed.json,
        signature: Some(signed.signature),
    });
    RawRecord { packet: Some(PACKET.to_vec()), entries: entries.collect(), strays: Vec::new() }
}

pub(crate) fn raw() -> RawRecord {
    raw_of(signed())
}

/// A reading as the first entry of a record, for tests of one entry's bytes.
pub(crate) fn reading_entry() -> Entry {
    let mut entry = past(3).pop().unwrap().entry;
    entry.seq = 1;
    let taken = entry.reading.as_mut().unwrap();
    (taken.value, taken.unit) = ("56.2".to_owned(), "mm".to_owned());
    entry.at = "2026-11-26T22:10:00+01:00".to_owned();
    entry
}

/// The good record under a packet whose third knife is judged with a guard band.
pub(crate) fn guarded() -> RawRecord {
    let mut packet = packet();
    let step = packet.steps.iter_mut().find(|step| step.id == "knives.set").unwrap();
    step.readings[2].guard = Some(guard());
    let bytes = canonical::line(&packet).unwrap();
    let mut entries: Vec<Entry> = past(u64::MAX).into_iter().map(|past| past.entry).collect();
    entries.iter_mut().for_each(|entry| entry.packet = canonical::sha256_hex(&bytes));
    entries[6].reading.as_mut().unwrap().verdict = Verdict::TooClose;
    RawRecord { packet: Some(bytes), ..raw_of(seal(entries)) }
}
