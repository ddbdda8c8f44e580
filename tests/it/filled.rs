//! `signoff --from`: files that pages saved, good ones and every kind of bad one.

use chrono::{DateTime, Duration, FixedOffset, Local};
use serde_json::{Value as Json, json};
use sha2::{Digest, Sha256};
use ssh_key::private::{Ed25519Keypair, Ed25519PrivateKey, KeypairData};
use witnessmark::canonical;
use witnessmark::finding::Findings;
use witnessmark::packet::model::{Meaning, Packet};
use witnessmark::packet::{self, assemble};
use witnessmark::plant::load;
use witnessmark::record::compose::{self, Past, Request, Signed, Value};
use witnessmark::record::entry::NO_PREVIOUS;
use witnessmark::record::{Entry, People, SigningKey, filled, namespace, time};

use crate::dice::Dice;
use crate::plant::{Plant, Run, files_of};

const TECHNICIAN: &str = "t.one@plant.example";
const LEAD: &str = "l.two@plant.example";
const QUALITY: &str = "q.three@plant.example";
const DOMAIN: &str = "plant.example";

/// A small plant and a page of its job, with keys that everybody could make.
struct Tablet {
    plant: Plant,
    packet: Packet,
    digest: String,
    people: People,
}

fn seed(person: &str) -> [u8; 32] {
    Sha256::digest(format!("a key of {person} for tests")).into()
}

fn key(person: &str) -> SigningKey {
    SigningKey::from_secret(&seed(person))
}

/// A line of the signers, counting from 2026 to an end.
fn line(person: &str, key_of: &str, until: &str) -> String {
    let public = key(key_of).public().to_openssh().unwrap();
    format!(
        "{person} namespaces=\"signoff@{DOMAIN}\",valid-after=\"20260101000000Z\",\
         valid-before=\"{until}\" {public}\n"
    )
}

const FAR: &str = "20990101000000Z";

fn now() -> DateTime<FixedOffset> {
    Local::now().fixed_offset()
}

impl Tablet {
    fn new() -> Tablet {
        let plant = Plant::small();
        let machine = plant.read("machines/line-1.yaml").replace("2027-06-30", "2098-12-31");
        plant.write("machines/line-1.yaml", machine);
        let mut signers = String::new();
        for person in [TECHNICIAN, LEAD, QUALITY] {
            signers += &line(person, person, FAR);
            let data = KeypairData::Ed25519(Ed25519Keypair::from(Ed25519PrivateKey::from_bytes(
                &seed(person),
            )));
            let private = ssh_key::PrivateKey::new(data, person).unwrap();
            let text = private.to_openssh(ssh_key::LineEnding::LF).unwrap();
            std::fs::write(plant.beside(person), text.as_bytes()).unwrap();
        }
        plant.write("allowed_signers", signers);
        let reading = load::load(&plant.folder()).unwrap();
        let loaded = reading.plant.unwrap();
        let mut findings = Findings::default();
        let prepared = packet::prepare(&mut findings, &loaded);
        let packet = assemble(&mut findings, &prepared, "J-1").unwrap();
        let digest = packet::digest(&packet).unwrap();
        let people = prepared.people.clone();
        Tablet { plant, packet, digest, people }
    }

    /// The entries that somebody may sign next, not signed yet.
    fn entries(
        &self,
        past: &[Past],
        by: &str,
        request: &Request,
        at: DateTime<FixedOffset>,
    ) -> Vec<Entry> {
        let key = key(by).public().fingerprint();
        let (packet, digest, people) = (&self.packet, &self.digest, &self.people);
        let desk = compose::Desk { packet, digest, past, people, by, key: &key, at };
        compose::compose(&desk, request).unwrap()
    }

    /// The first entries of the job, signed as the sheet asks: the technician, the lead.
    fn signed(&self, count: usize) -> Vec<Signed> {
        let (mut signed, mut past): (Vec<Signed>, Vec<Past>) = (Vec::new(), Vec::new());
        for step in &self.packet.steps {
            for by in [TECHNICIAN, LEAD] {
                let meaning = if by == LEAD { Meaning::Verified } else { Meaning::Performed };
                if !step.signs.iter().any(|sign| sign.meaning == meaning) {
                    continue;
                }
                let mut request = Request::default();
                match meaning {
                    Meaning::Verified => request.verified.push(step.id.clone()),
                    _ => {
                        request.performed.push(step.id.clone());
                        request.readings.extend(step.readings.iter().map(|blank| Value {
                            blank: blank.id.clone(),
                            text: blank.target.clone().unwrap_or_else(|| "0".to_owned()),
                            ..Value::default()
                        }));
                    }
                }
                let at = now() - Duration::seconds(60);
                let entries = self.entries(&past, by, &request, at);
                signed.extend(seal(entries, &signed, by));
                past = signed
                    .iter()
                    .map(|one| Past {
                        entry: one.entry.clone(),
                        key: key(&one.entry.by).public().fingerprint(),
                    })
                    .collect();
                if signed.len() >= count {
                    signed.truncate(count);
                    return signed;
                }
            }
        }
        panic!("the job has fewer than {count} entries")
    }

    /// The file of a page.
    fn file(&self, typed: &[Json], signed: &[Signed]) -> Json {
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
        let pair =
            |one: &Signed| json!({ "entry": text(&one.json), "signature": text(&one.signature) });
        json!({
            "filled": 1, "job": "J-1", "packet": self.digest, "saved": time::write(now()), "clock": "ok",
            "typed": typed, "signed": signed.iter().map(pair).collect::<Vec<_>>(),
        })
    }

    /// Takes a file in; with a person, what that person typed.
    fn take(&self, file: &Json, by: Option<&str>, more: &[&str]) -> Run {
        std::fs::write(self.plant.beside("filled.json"), file.to_string()).unwrap();
        let mut words = vec!["signoff", "PLANT", "J-1", "--from", "filled.json"];
        if let Some(by) = by {
            words.extend(["--by", by, "--key", by]);
        }
        words.extend(more);
        self.plant.run(&words)
    }

    fn record(&self) -> std::collections::BTreeMap<String, Vec<u8>> {
        let mut files = files_of(&self.plant.folder().join("records/J-1"));
        files.remove(".lock");
        files
    }

    /// Wants the record to be exactly these entries, byte for byte, and to hold.
    #[track_caller]
    fn holds(&self, signed: &[Signed]) {
        let mut expected = std::collections::BTreeMap::new();
        expected.insert("packet.json".to_owned(), canonical::line(&self.packet).unwrap());
        for one in signed {
            let name = format!("{:06}.json", one.entry.seq);
            expected.insert(format!("{name}.sig"), one.signature.clone());
            expected.insert(name, one.json.clone());
        }
        assert!(self.record() == expected, "{:?}", self.record().keys());
        self.plant.run(&["audit", "PLANT"]).ends(0);
    }
}

/// Signs entries after those that are signed.
fn seal(entries: Vec<Entry>, before: &[Signed], by: &str) -> Vec<Signed> {
    let last = before.last().map(|last| compose::chained(&last.json, &last.signature));
    compose::seal_all(entries, last.as_deref().unwrap_or(NO_PREVIOUS), &key(by), DOMAIN).unwrap()
}

fn typed(is: &str, step: &str, by: &str, more: Json) -> Json {
    let mut item = json!({ "is": is, "step": step, "by": by, "at": time::write(now()) });
    item.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    item
}

fn reading(blank: &str, value: &str, by: &str) -> Json {
    let step = blank.split('/').next().unwrap();
    typed("reading", step, by, json!({ "blank": blank, "value": value }))
}

#[test]
fn what_was_signed_on_the_page_goes_on_record_byte_for_byte() {
    let tablet = Tablet::new();
    let all = tablet.signed(24);
    let run = tablet.take(&tablet.file(&[], &all[..6]), None, &[]).ends(0);
    assert_eq!(run.stdout.lines().filter(|line| line.starts_with("ok ")).count(), 6);
    tablet.holds(&all[..6]);
    // The same file again adds nothing and says so; one that goes on adds the rest.
    let again = tablet.take(&tablet.file(&[], &all[..6]), None, &[]).ends(0);
    again.says("on record already: 6 entries signed on the page").says("nothing was added");
    tablet.holds(&all[..6]);
    tablet.take(&tablet.file(&[], &all), None, &[]).ends(0).says("on record already: 6 entries");
    tablet.holds(&all);
    let said = tablet.take(&tablet.file(&[], &all), None, &["--json"]).ends(0).json();
    assert_eq!(said["on_record"][0], "24 entries signed on the page");
}

#[test]
fn a_writing_that_was_cut_short_is_finished_by_the_same_file() {
    let tablet = Tablet::new();
    let all = tablet.signed(5);
    tablet.take(&tablet.file(&[], &all[..2]), None, &[]).ends(0);
    // The power went after the third signature, before its entry.
    let third = tablet.plant.folder().join("records/J-1/000003.json.sig");
    std::fs::write(&third, &all[2].signature).unwrap();
    // A signature of the next entry is what a stopped writer leaves: it is set aside, and the work goes on.
    tablet.take(&tablet.file(&[], &all), None, &[]).ends(0).says("on record already: 2 entries");
    assert_eq!(tablet.record()["000005.json"], all[4].json);
    let aside = std::fs::read(third.with_extension("sig.aside-1")).unwrap();
    assert_eq!(aside, all[2].signature);
}

/// Wants a file with these signed entries to be refused with these rules, and nothing to be left behind.
#[track_caller]
fn refused(tablet: &Tablet, file: &Json, expected: &[&str]) {
    let before = tablet.record();
    let run = tablet.take(file, None, &["--json"]).ends(1).json();
    let codes: Vec<&str> =
        run.as_array().unwrap().iter().map(|one| one["code"].as_str().unwrap()).collect();
    assert_eq!(codes, expected, "{run:#}");
    for one in run.as_array().unwrap() {
        assert!(!one["way_out"].as_str().unwrap().is_empty(), "{one}");
    }
    tablet.take(file, None, &[]).ends(1).says("nothing was added");
    assert_eq!(tablet.record(), before);
}

/// The first three entries, the third of them changed and signed anew.
fn changed(tablet: &Tablet, by: &str, change: impl FnOnce(&mut Entry)) -> Vec<Signed> {
    let mut all = tablet.signed(3);
    let mut third = all.pop().unwrap().entry;
    change(&mut third);
    let sealed = seal(vec![third], &all, by);
    all.extend(sealed);
    all
}

#[test]
fn an_entry_that_does_not_hold_is_refused_with_all_of_the_file() {
    let tablet = Tablet::new();
    let of = |signed: &[Signed]| tablet.file(&[], signed);
    let three = tablet.signed(3);

    let mut file = of(&three);
    let text = file["signed"][1]["entry"].as_str().unwrap().replace("\"seq\":2", "\"seq\":2 ");
    file["signed"][1]["entry"] = json!(text);
    refused(&tablet, &file, &["not-canonical"]);
    let flipped = |signed: &mut Signed| {
        let last = signed.json.iter().rposition(|byte| *byte == b't').unwrap();
        signed.json[last] = b'u';
    };
    let mut bad = three.clone();
    flipped(&mut bad[2]);
    refused(&tablet, &of(&bad), &["signature-bad", "step-unknown"]);
    let mut bad = three.clone();
    bad[2].signature = three[1].signature.clone();
    refused(&tablet, &of(&bad), &["signature-bad"]);
    bad[2].signature = b"nothing".to_vec();
    refused(&tablet, &of(&bad), &["signature-form"]);
    bad[2].signature = key(TECHNICIAN).sign("file", &three[2].json).unwrap().into_bytes();
    refused(&tablet, &of(&bad), &["signature-namespace"]);
    bad[2].signature =
        key("a.stranger").sign(&namespace(DOMAIN), &three[2].json).unwrap().into_bytes();
    refused(&tablet, &of(&bad), &["signer-unlisted"]);
    refused(&tablet, &of(&changed(&tablet, LEAD, |_| ())), &["signer-differs"]);

    let at = |time: DateTime<FixedOffset>| move |entry: &mut Entry| entry.at = time::write(time);
    let soon = now() + Duration::hours(2);
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, at(soon))), &["time-future"]);
    let early = now() - Duration::hours(1);
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, at(early))), &["time-backwards"]);
    let issued = DateTime::parse_from_rfc3339(&tablet.packet.job.issued).unwrap();
    let before = changed(&tablet, TECHNICIAN, at(issued - Duration::days(1)));
    refused(&tablet, &of(&before), &["time-backwards", "before-packet"]);
    let other_name = |entry: &mut Entry| entry.name = "Technician Uno".to_owned();
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, other_name)), &["name-differs"]);
    let other_role = |entry: &mut Entry| entry.role = "lead".to_owned();
    let codes = ["role-not-held", "role-not-asked"];
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, other_role)), &codes);
    let too_soon = |entry: &mut Entry| entry.step = tablet.packet.steps[13].id.clone();
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, too_soon)), &["step-order"]);
    let twice = |entry: &mut Entry| entry.step = tablet.packet.steps[0].id.clone();
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, twice)), &["signed-twice"]);
    let other_packet = |entry: &mut Entry| entry.packet = "0".repeat(64);
    refused(&tablet, &of(&changed(&tablet, TECHNICIAN, other_packet)), &["packet-differs"]);

    refused(&tablet, &of(&three[1..]), &["entries-missing"]);
    refused(
        &tablet,
        &of(&[three[0].clone(), three[2].clone()]),
        &["number-differs", "chain-broken"],
    );
    let mut file = of(&three);
    file["packet"] = json!("0".repeat(64));
    refused(&tablet, &file, &["packet-differs"]);
    file["job"] = json!("J-2");
    refused(&tablet, &file, &["job-differs"]);
    assert!(
        !tablet.plant.folder().join("records").exists(),
        "nothing refused leaves a packet behind"
    );
    tablet.take(&of(&three), None, &[]).ends(0);
    tablet.holds(&three);
}

#[test]
fn a_key_that_does_not_count_signs_nothing() {
    let tablet = Tablet::new();
    let three = tablet.signed(3);
    let file = tablet.file(&[], &three);
    let signers = |until: &str| {
        let others = line(LEAD, LEAD, FAR) + &line(QUALITY, QUALITY, FAR);
        tablet.plant.write("allowed_signers", line(TECHNICIAN, TECHNICIAN, until) + &others);
    };
    tablet.plant.write("allowed_signers", line(LEAD, LEAD, FAR));
    refused(&tablet, &file, &["signer-unlisted"; 3]);
    signers("20260102000000Z");
    refused(&tablet, &file, &["key-expired"; 3]);
    // It counted when the entries say that they were signed, and was ended since: somebody else may
    // have found it, and set the clock back.
    let ended = (now() - Duration::seconds(20)).to_utc().format("%Y%m%d%H%M%SZ").to_string();
    signers(&ended);
    refused(&tablet, &file, &["key-expired"; 3]);
    signers(FAR);
    tablet.take(&file, None, &[]).ends(0);
}

#[test]
fn a_clock_a_little_ahead_is_borne() {
    let tablet = Tablet::new();
    let ahead = changed(&tablet, TECHNICIAN, |entry| {
        entry.at = time::write(now() + Duration::seconds(60));
    });
    tablet.take(&tablet.file(&[], &ahead), None, &[]).ends(0).says("ok ");
}

#[test]
fn a_release_and_an_acceptance_are_no_work_for_a_page() {
    let tablet = Tablet::new();
    let release = changed(&tablet, TECHNICIAN, |entry| {
        entry.kind = witnessmark::record::entry::Kind::Released;
        entry.meaning = entry.kind.meaning().to_owned();
    });
    let file = tablet.file(&[], &release);
    let run = tablet.take(&file, None, &["--json"]).ends(1).json();
    assert_eq!(run[0]["code"], "made-at-the-desk");
}

#[test]
fn a_reading_that_nobody_could_type_is_refused_signed_too() {
    let tablet = Tablet::new();
    let all = tablet.signed(24);
    let at = all.iter().position(|one| one.entry.reading.is_some()).unwrap();
    let mut before = all[..at].to_vec();
    let mut entry = all[at].entry.clone();
    entry.reading.as_mut().unwrap().value = "0.00000".to_owned();
    let sealed = seal(vec![entry], &before, TECHNICIAN);
    before.extend(sealed);
    refused(&tablet, &tablet.file(&[], &before), &["value-finer"]);
}

#[test]
fn a_record_that_moved_on_since_the_page_was_made_says_so() {
    let tablet = Tablet::new();
    let three = tablet.signed(3);
    let digest = &tablet.digest[..12];
    let words = ["--by", TECHNICIAN, "--key", TECHNICIAN, "--sheet", digest, "--performed", "1"];
    tablet.plant.run(&[&["signoff", "PLANT", "J-1"], &words[..]].concat()).ends(0);
    refused(&tablet, &tablet.file(&[], &three), &["record-moved-on"]);
    // What was typed is in the file still, and signed at the desk.
    let steps: Vec<Json> = three
        .iter()
        .map(|one| typed("performed", &one.entry.step, TECHNICIAN, json!({})))
        .collect();
    let run = tablet.take(&tablet.file(&steps, &three), Some(TECHNICIAN), &[]).ends(0);
    run.says("on record already: prepare.compare-the-packet-with-the-order performed (entry 1)");
    assert_eq!(tablet.record().len(), 1 + 2 * 3);
}

#[test]
fn what_one_person_typed_is_signed_at_the_desk_and_the_rest_is_left() {
    let tablet = Tablet::new();
    let step = |number: usize| tablet.packet.steps[number - 1].id.clone();
    let mut items: Vec<Json> =
        (1..=4).map(|n| typed("performed", &step(n), TECHNICIAN, json!({}))).collect();
    items.push(typed("tick", &step(1), TECHNICIAN, json!({ "check": 0, "on": true })));
    items.push(typed("verified", &step(4), LEAD, json!({})));
    items.push(typed("performed", &step(5), "initials:XY", json!({})));
    let mut file = tablet.file(&items, &[]);
    tablet.take(&file, None, &[]).ends(1).says("4 signatures of t.one@plant.example");
    assert!(!tablet.plant.folder().join("records").exists());

    file["clock"] = json!("doubtful");
    let run = tablet.take(&file, Some(TECHNICIAN), &[]).ends(0);
    let run = run.says("left: 1 signature of l.two@plant.example; sign with");
    let run = run.says("of initials:XY; name the person on the page").says("doubtful");
    assert_eq!(run.stdout.lines().filter(|line| line.starts_with("ok ")).count(), 4);
    tablet.take(&file, Some(TECHNICIAN), &[]).ends(0).says("nothing was added");
    tablet.take(&file, Some(QUALITY), &[]).ends(1).says("nothing was added");
    let said = tablet.take(&file, Some(LEAD), &["--json"]).ends(0).json();
    assert_eq!(said["left"], json!([{ "by": "initials:XY", "readings": 0, "signatures": 1 }]));
    assert_eq!(said["entries"].as_array().unwrap().len(), 1);
    tablet.plant.run(&["audit", "PLANT"]).ends(0).says("5 entries");
}

#[test]
fn readings_go_through_the_rules_of_the_desk() {
    let tablet = Tablet::new();
    let all = tablet.signed(24);
    let at = all.iter().position(|one| one.entry.reading.is_some()).unwrap();
    tablet.take(&tablet.file(&[], &all[..at]), None, &[]).ends(0);
    let zero = |value: &str| {
        let blank = "stored-energy.prove-zero-at-each-source/air";
        tablet.file(&[reading(blank, value, TECHNICIAN)], &[])
    };
    let by = Some(TECHNICIAN);
    tablet.take(&zero("0,0"), by, &[]).ends(1).says("refused[decimal-form]");
    let mut both = zero("0.0");
    both["typed"].as_array_mut().unwrap().extend([
        typed("performed", &tablet.packet.steps[15].id, TECHNICIAN, json!({})),
        typed("performed", &tablet.packet.steps[8].id, TECHNICIAN, json!({})),
    ]);
    let run = tablet.take(&both, by, &["--json"]).ends(1).json();
    let codes: Vec<&Json> = run.as_array().unwrap().iter().map(|one| &one["code"]).collect();
    assert_eq!(codes, ["row-missing"], "{run:#}");
    tablet.take(&zero("0.4"), by, &[]).ends(0).says("(outside)");
    tablet.take(&zero("0.40"), by, &[]).ends(0).says("nothing was added");
    tablet.take(&zero("0.0"), by, &[]).ends(1).says("refused[reading-differs]").says("--correct");
    let why = "Read before the drain was open.";
    let correct = ["--correct", "12/air=0.0", "--reason", why];
    tablet.take(&zero("0.0"), by, &correct).ends(0).says("(within)");
    tablet.take(&zero("0.0"), by, &[]).ends(0).says("nothing was added");
    tablet.plant.run(&["audit", "PLANT"]).ends(0);
}

#[test]
fn what_was_signed_on_the_page_comes_before_what_is_signed_here() {
    let tablet = Tablet::new();
    let three = tablet.signed(3);
    let four = typed("performed", &tablet.packet.steps[3].id, TECHNICIAN, json!({}));
    let file = tablet.file(&[four], &three);
    tablet.take(&file, Some(TECHNICIAN), &[]).ends(1).says("refused[signed-first]");
    assert!(tablet.record().is_empty());
    tablet.take(&file, None, &[]).ends(0).says("left: 1 signature");
    tablet.take(&file, Some(TECHNICIAN), &[]).ends(0);
    assert_eq!(tablet.record().len(), 1 + 2 * 4);
}

#[test]
fn the_file_stands_for_the_sheet_only_with_its_whole_digest() {
    let tablet = Tablet::new();
    let one = typed("performed", &tablet.packet.steps[0].id, TECHNICIAN, json!({}));
    let mut file = tablet.file(&[one], &[]);
    let other = ["--sheet", "000000000000"];
    tablet.take(&file, Some(TECHNICIAN), &other).ends(1).says("is not the packet of J-1");
    file["packet"] = json!(format!(
        "{}{}",
        &tablet.digest[..63],
        if tablet.digest.ends_with('0') { '1' } else { '0' }
    ));
    let run = tablet.take(&file, Some(TECHNICIAN), &[]).ends(1).says("refused[packet-differs]");
    run.says(&tablet.digest).says("print or open the new one");
    file["packet"] = json!(tablet.digest);
    tablet.take(&file, Some(TECHNICIAN), &[]).ends(0);
}

#[test]
fn a_file_of_another_form_is_named_with_the_place() {
    let tablet = Tablet::new();
    let mut file = tablet.file(&[reading("a/b", "1", TECHNICIAN)], &[]);
    file["typed"][0]["colour"] = json!("red");
    let run = tablet.take(&file, None, &[]).ends(1);
    run.says("refused[file-form]: filled.json: typed[0].colour: unknown field");
    let words = ["signoff", "PLANT", "J-1", "--from", "none.json"];
    tablet.plant.run(&words).ends(2).complains("none.json");
    std::fs::write(tablet.plant.beside("long.json"), vec![b' '; filled::MOST_BYTES + 9]).unwrap();
    let words = ["signoff", "PLANT", "J-1", "--from", "long.json", "--json"];
    let said = tablet.plant.run(&words).ends(1).json();
    assert_eq!(said[0]["code"], "file-form");
}

/// Good files, broken at random: read or refused, never a panic, and a fault always has its words.
#[test]
fn no_bytes_make_it_panic() {
    let tablet = Tablet::new();
    let items = [
        reading("a.b/c", "2 7/32", TECHNICIAN),
        typed("tick", "a", TECHNICIAN, json!({ "check": 0, "on": true })),
        typed("taken-back", "a", "initials:Ä", json!({ "what": "performed", "row": "mains" })),
    ];
    let good = tablet.file(&items, &tablet.signed(2)).to_string().into_bytes();
    let pieces: [&[u8]; 14] = [
        b"{",
        b"}",
        b"[",
        b"]",
        b"\"",
        b",",
        b":",
        b"null",
        b"-1",
        b"1e999",
        b"\\u0000",
        b"\xff",
        b"[[[[[[[[",
        b"\"typed\":[],",
    ];
    let mut dice = Dice::new(7);
    let mut read = 0;
    for _ in 0..20_000 {
        let mut bytes = good.clone();
        for _ in 0..=dice.below(3) {
            let at = dice.below(bytes.len());
            match dice.below(4) {
                0 => bytes.truncate(at.max(1)),
                1 => bytes[at] = u8::try_from(dice.below(256)).unwrap(),
                2 => drop(bytes.splice(at..at, dice.pick(&pieces).iter().copied())),
                _ => drop(bytes.remove(at)),
            }
            if bytes.is_empty() {
                bytes.push(b'{');
            }
        }
        match filled::read(&bytes) {
            Ok(file) => {
                read += 1;
                let _ = filled::share(&file, &tablet.packet, &[], TECHNICIAN, &[]);
            }
            Err(faults) => {
                assert!(
                    !faults.is_empty() && faults.iter().all(|f| !f.words.to_string().is_empty())
                );
            }
        }
    }
    assert!(read > 20, "{read} files stayed good, in texts that nobody reads");
}

/// What was signed in a browser becomes leaves; the keys are elsewhere, so the checkpoint stays the
/// older one until somebody signs at the desk.
#[test]
fn entries_of_a_browser_are_leaves_without_a_new_checkpoint() {
    let tablet = Tablet::new();
    let three = tablet.signed(3);
    tablet.take(&tablet.file(&[], &three), None, &[]).ends(0);
    assert_eq!(tablet.plant.read("logs/line-1/leaves").lines().count(), 3);
    assert!(!tablet.plant.folder().join("logs/line-1/checkpoint").exists());
    let heads = tablet.plant.run(&["checkpoint", "PLANT", "--json"]).ends(0).json();
    assert_eq!((&heads[0]["entries"], &heads[0]["after"]), (&json!(3), &json!(3)));
    tablet.plant.run(&["checkpoint", "PLANT"]).ends(0).says("no signed checkpoint yet");
    // The same file again adds nothing.
    tablet.take(&tablet.file(&[], &three), None, &[]).ends(0);
    assert_eq!(tablet.plant.read("logs/line-1/leaves").lines().count(), 3);
}
