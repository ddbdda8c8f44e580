//! The records of the demo plant, made with demo keys that anybody can make: they prove nothing.
//!
//! `SNAPSHOTS=overwrite cargo test demo_records` writes them anew; otherwise the files in the
//! repository must be byte for byte what is made here.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, Duration, FixedOffset};
use sha2::{Digest, Sha256};
use ssh_key::private::{Ed25519Keypair, Ed25519PrivateKey, KeypairData};
use witnessmark::canonical;
use witnessmark::finding::Findings;
use witnessmark::log::line::Line;
use witnessmark::log::store::{self, Pen};
use witnessmark::log::tree;
use witnessmark::packet::model::{Meaning, Packet, Reading, Step};
use witnessmark::packet::{self, Prepared};
use witnessmark::plant::load;
use witnessmark::quantity::Number;
use witnessmark::record::compose::{self, Acceptance, Past, Raise, Request, Value};
use witnessmark::record::entry::{self, Verdict};
use witnessmark::record::people::People;
use witnessmark::record::{SigningKey, TrustList};

use crate::plant::{files_of, root};
use crate::{demo_register, demo_year};

/// Files made here, by path inside the plant.
type Files = BTreeMap<String, Vec<u8>>;

#[test]
fn demo_records_are_the_ones_made_here() {
    let plant = root().join("demo-data");
    let made = make();
    demo_year::shows(&made);
    if std::env::var("SNAPSHOTS").is_ok_and(|word| word == "overwrite") {
        let _ = std::fs::remove_dir_all(plant.join("records"));
        let _ = std::fs::remove_dir_all(plant.join("demo-keys"));
        let _ = std::fs::remove_dir_all(plant.join("register"));
        let _ = std::fs::remove_dir_all(plant.join("logs"));
        for (path, bytes) in &made {
            let file = plant.join(path);
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(file, bytes).unwrap();
        }
    }
    let is_made = |path: &str| {
        let folders = ["records/", "demo-keys/", "register/", "logs/"];
        folders.iter().any(|folder| path.starts_with(folder)) || path == "allowed_signers"
    };
    let kept: Files = files_of(&plant)
        .into_iter()
        .filter(|(path, _)| is_made(path) && !path.ends_with("/.lock"))
        .collect();
    let names = |files: &Files| files.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&kept), names(&made));
    for (path, bytes) in &made {
        assert!(kept[path] == *bytes, "{path} differs: SNAPSHOTS=overwrite renews it");
    }
}

fn make() -> Files {
    let folder = root().join("demo-data");
    let reading = load::load(&folder).unwrap();
    let mut plant = reading.plant.unwrap();
    let people = packet::prepare(&mut Findings::default(), &plant).people;
    let mut files = keys(&people, &plant.facts.body.domain);
    // What is on disk may be older than what is made here.
    let signers = files["allowed_signers"].clone();
    let text = String::from_utf8(signers.clone()).unwrap();
    plant.allowed_signers = Some(("allowed_signers".into(), text.into()));
    files.extend(demo_register::make(&mut plant, &signers, seed));
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    for (job, plan) in [
        ("SM-1041", Plan { start: "2026-11-23T06:05:00+01:00", ..Plan::default() }),
        (
            "SM-1042",
            Plan {
                start: "2026-11-24T14:10:00+01:00",
                outside: Some(("first-piece", "strip-lane-3")),
                ..Plan::default()
            },
        ),
        (
            "SM-1043",
            Plan {
                start: "2026-11-24T06:20:00+01:00",
                stop_before: Some("values"),
                ..Plan::default()
            },
        ),
    ] {
        files.extend(record(&prepared, job, &plan));
    }
    files.extend(demo_year::make(&plant));
    assert!(!findings.has_errors());
    files.extend(logs(&files, &plant.facts.body.domain));
    files
}

/// The log of each machine that has records, with a checkpoint that the lead signed in the evening.
fn logs(files: &Files, domain: &str) -> Files {
    let mut leaves: BTreeMap<String, Vec<(DateTime<FixedOffset>, Line)>> = BTreeMap::new();
    for (path, json) in files.iter().filter(|(path, _)| path.starts_with("records/")) {
        let Some(entry) = entry::read(json).entry.filter(|_| path.ends_with(".json")) else {
            continue;
        };
        let hash = tree::leaf(&[json, &files[&format!("{path}.sig")]]);
        let at = DateTime::parse_from_rfc3339(&entry.at).unwrap();
        let line = Line { hash, entry: entry.seq, record: entry.job };
        leaves.entry(entry.machine).or_default().push((at, line));
    }
    let plant = tempfile::tempdir().unwrap();
    let by = "e.whitcombe@saltmarsh.example";
    let (trust, _) = TrustList::parse(&files["allowed_signers"]);
    for (machine, mut lines) in leaves {
        lines.sort_by(|(at, one), (than, other)| {
            (at, &one.record, one.entry).cmp(&(than, &other.record, other.entry))
        });
        let lines: Vec<Line> = lines.into_iter().map(|(_, line)| line).collect();
        let mut log = store::Writer::open(plant.path(), &machine).unwrap();
        log.adopt(&lines).unwrap();
        let pen = Pen {
            origin: &format!("{domain}/{machine}"),
            by,
            key: &SigningKey::from_secret(&seed(by)),
            at: DateTime::parse_from_rfc3339("2026-11-24T21:55:00+01:00").unwrap(),
            signers: trust.digest(),
        };
        log.sign(&pen).unwrap().unwrap();
    }
    let kept = files_of(plant.path()).into_iter();
    kept.filter(|(path, _)| !path.ends_with("/.lock")).collect()
}

/// How a demo record goes.
#[derive(Default)]
struct Plan {
    /// Time of the first signature.
    start: &'static str,
    /// Procedure and end of a blank's name whose reading is outside and accepted.
    outside: Option<(&'static str, &'static str)>,
    /// The procedure before which nobody has signed yet.
    stop_before: Option<&'static str>,
}

fn seed(person: &str) -> [u8; 32] {
    Sha256::digest(format!("witnessmark demo key of {person}, known to everybody")).into()
}

/// A private key for each person, and the list of allowed signers.
fn keys(people: &People, domain: &str) -> Files {
    let mut files = Files::new();
    let mut signers =
        "# Demo keys: their private halves lie in demo-keys/. They prove nothing.\n".to_owned();
    for person in people.iter() {
        let private = Ed25519PrivateKey::from_bytes(&seed(&person.id));
        let data = KeypairData::Ed25519(Ed25519Keypair::from(private));
        let comment = format!("{} DEMO KEY, known to everybody", person.id);
        let key = ssh_key::PrivateKey::new(data, comment).unwrap();
        let public = key.public_key().to_openssh().unwrap();
        let public = public.split(' ').take(2).collect::<Vec<_>>().join(" ");
        signers += &format!(
            "{} namespaces=\"signoff@{domain},register@{domain}\",valid-after=\"20251001000000Z\",valid-before=\"20271001000000Z\" {public}\n",
            person.id
        );
        let name = person.id.split('@').next().unwrap();
        let text = key.to_openssh(ssh_key::LineEnding::LF).unwrap();
        files.insert(format!("demo-keys/{name}"), text.as_bytes().to_vec());
    }
    files.insert("allowed_signers".to_owned(), signers.into_bytes());
    let note = "These keys are for the demo only. Everybody has them, so they prove nothing.\n";
    files.insert("demo-keys/README".to_owned(), note.as_bytes().to_vec());
    files
}

/// Who signs: the one who does, and the one who checks.
fn signer(meaning: Meaning, role: &str) -> &'static str {
    match (role, meaning) {
        ("technician" | "electrician", Meaning::Performed) => "b.tanaka@saltmarsh.example",
        ("technician" | "electrician", _) => "r.osei@saltmarsh.example",
        ("lead", Meaning::Performed) => "e.whitcombe@saltmarsh.example",
        ("lead", _) => "f.benali@saltmarsh.example",
        ("quality", Meaning::Performed) => "s.varga@saltmarsh.example",
        _ => "p.raman@saltmarsh.example",
    }
}

/// A record that is being written, entry by entry.
pub struct Writer<'a> {
    prepared: &'a Prepared<'a>,
    packet: &'a Packet,
    digest: String,
    folder: String,
    /// The entries so far.
    pub past: Vec<Past>,
    prev: String,
    /// The time of the next signature.
    pub at: DateTime<FixedOffset>,
    /// The files so far.
    pub files: Files,
}

fn record(prepared: &Prepared, job: &str, plan: &Plan) -> Files {
    let mut findings = Findings::default();
    let packet = packet::assemble(&mut findings, prepared, job).unwrap();
    let start = DateTime::parse_from_rfc3339(plan.start).unwrap();
    let mut writer = Writer::new(prepared, &packet, start);
    for (index, step) in packet.steps.iter().enumerate() {
        if Some(step.procedure.as_str()) == plan.stop_before {
            break;
        }
        if step.stays.is_none() {
            writer.step(index, step, plan);
        }
    }
    writer.files
}

impl<'a> Writer<'a> {
    /// A record without an entry.
    pub fn new(
        prepared: &'a Prepared<'a>,
        packet: &'a Packet,
        at: DateTime<FixedOffset>,
    ) -> Writer<'a> {
        let bytes = canonical::line(packet).unwrap();
        let folder = format!("records/{}", packet.job.id);
        Writer {
            prepared,
            packet,
            digest: canonical::sha256_hex(&bytes),
            past: Vec::new(),
            prev: "0".repeat(64),
            at,
            files: Files::from([(format!("{folder}/packet.json"), bytes)]),
            folder,
        }
    }

    fn step(&mut self, index: usize, step: &Step, plan: &Plan) {
        self.at += Duration::minutes(i64::from(step.minutes.unwrap_or(1)));
        let performed = step.signs.iter().find(|sign| sign.meaning == Meaning::Performed).unwrap();
        let by = signer(Meaning::Performed, &performed.role);
        let is_outside = |reading: &&Reading| {
            plan.outside.is_some_and(|(procedure, end)| {
                step.procedure == procedure && reading.id.ends_with(end)
            })
        };
        let outside = step.readings.iter().find(is_outside).map(|reading| reading.id.clone());
        let readings = step
            .readings
            .iter()
            .enumerate()
            .map(|(row, reading)| Value {
                blank: reading.id.clone(),
                text: match outside.as_ref() == Some(&reading.id) {
                    true => above(reading),
                    false => value(reading, index + row),
                },
                ..Value::default()
            })
            .collect();
        let performed = vec![step.id.clone()];
        let mut request = Request { readings, performed, ..Request::default() };
        if outside.is_some() {
            request.note = Some("Lane 3 runs wide; measured twice, same value.".to_owned());
        }
        self.sign(by, &request);
        if let Some(blank) = outside {
            self.raise(by, &blank);
            self.accept();
        }
        // One request signs every row of a step.
        let verified = step.signs.iter().filter(|sign| sign.meaning == Meaning::Verified);
        let roles: BTreeSet<&String> = verified.map(|sign| &sign.role).collect();
        for role in roles {
            self.at += Duration::seconds(40);
            let request = Request { verified: vec![step.id.clone()], ..Request::default() };
            self.sign(signer(Meaning::Verified, role), &request);
        }
        for sign in step.signs.iter().filter(|sign| sign.meaning == Meaning::Released) {
            self.at += Duration::minutes(2);
            self.sign(
                signer(Meaning::Performed, &sign.role),
                &Request { release: true, ..Request::default() },
            );
        }
    }

    /// Who read it reports it, so that the line is not released over it.
    fn raise(&mut self, by: &str, blank: &str) {
        self.at += Duration::minutes(1);
        let reason = "Lane 3 stays wide with the knife on its mark: the tip of knife 4 looks worn.";
        let raise = vec![Raise { what: blank.to_owned(), reason: reason.to_owned() }];
        self.sign(by, &Request { raise, ..Request::default() });
    }

    /// The role for it accepts the last reading that is outside.
    fn accept(&mut self) {
        let is_outside = |past: &&Past| {
            past.entry.reading.as_ref().is_some_and(|taken| taken.verdict == Verdict::Outside)
        };
        let seq = self.past.iter().rev().find(is_outside).unwrap().entry.seq;
        self.at += Duration::minutes(9);
        let reason = "Seal checked on 20 sticks of lane 3: whole width, no leak. Accepted for this order only; knife 4 to be looked at before the next job.";
        let accept = vec![Acceptance { seq, reason: reason.to_owned() }];
        let by = signer(Meaning::Verified, &self.packet.accepts_deviation);
        self.sign(by, &Request { accept, ..Request::default() });
    }

    /// Signs what somebody asks for with this person's demo key.
    pub fn sign(&mut self, by: &str, request: &Request) {
        let key = SigningKey::from_secret(&seed(by));
        let fingerprint = key.public().fingerprint();
        let desk = compose::Desk {
            packet: self.packet,
            digest: &self.digest,
            past: &self.past,
            people: &self.prepared.people,
            by,
            key: &fingerprint,
            at: self.at,
        };
        let entries = compose::compose(&desk, request)
            .unwrap_or_else(|refusals| panic!("{} {request:?}: {refusals:#?}", self.folder));
        let domain = &self.packet.plant.domain;
        for signed in compose::seal_all(entries, &self.prev, &key, domain).unwrap() {
            self.prev = compose::chained(&signed.json, &signed.signature);
            let name = format!("{}/{:06}.json", self.folder, signed.entry.seq);
            self.files.insert(name.clone(), signed.json);
            self.files.insert(format!("{name}.sig"), signed.signature);
            self.past.push(Past { entry: signed.entry, key: fingerprint.clone() });
        }
    }
}

fn places(text: &str) -> u32 {
    text.split_once('.').map_or(0, |(_, fraction)| fraction.len() as u32)
}

/// A value within the limits: the target, or one digit beside it.
pub fn value(reading: &Reading, index: usize) -> String {
    let number = |text: &Option<String>| text.as_ref().map(|text| Number::parse(text).unwrap());
    let (low, high) = (number(&reading.low), number(&reading.high));
    let Some(target) = &reading.target else {
        return match (&reading.low, &reading.high) {
            (None, Some(high)) if high != "0" => number(&Some(high.clone()))
                .unwrap()
                .sub(Number::from(7_i64))
                .unwrap()
                .decimal(places(high)),
            (_, Some(high)) => high.clone(),
            (Some(low), None) => low.clone(),
            (None, None) => "0".to_owned(),
        };
    };
    let places = places(target);
    let step = Number::last_place(places).unwrap();
    let target = Number::parse(target).unwrap();
    let beside = match index % 3 {
        0 => target,
        1 => target.add(step).unwrap(),
        _ => target.sub(step).unwrap(),
    };
    let fits = low.is_none_or(|low| low <= beside) && high.is_none_or(|high| beside <= high);
    if fits { beside } else { target }.decimal(places)
}

/// A value just above the limit.
fn above(reading: &Reading) -> String {
    let high = reading.high.as_ref().unwrap();
    let step = Number::last_place(places(high)).unwrap();
    Number::parse(high).unwrap().add(step).unwrap().decimal(places(high))
}
