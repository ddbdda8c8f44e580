//! A whole audit against bare signature checks, on one thread.
//!
//! `audit/N/us` audits N signed entries of several records from raw bytes: packet, canonical form,
//! chain, armour, signature, person, role, order. `bare/N/dalek` verifies N equal signatures with
//! decoded keys and nothing else. `disk/N/us` reads the same records from their folders first. `demo/us`
//! is a record of the demo, whose packet is thirty times as long, from memory.
//! Time is that of the thread: a busy machine spoils it less. Run with `cargo bench --bench audit`; without `--bench` it runs small, once, as a test.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::collections::BTreeMap;
use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use ed25519_dalek::Signer;
use witnessmark::audit::{Severity, Subject, audit_record};
use witnessmark::canonical::sha256_hex;
use witnessmark::packet::Packet;
use witnessmark::record::compose::{Desk, Past, Request, Value, compose, seal_all};
use witnessmark::record::people::{People, Person, Term};
use witnessmark::record::signature::SigningKey;
use witnessmark::record::store::{self, Locked, RawEntry, RawRecord};
use witnessmark::record::{TrustList, entry, time};

const PACKET: &[u8] = include_bytes!("../src/record/fixture_packet.json");
const SECRET: [u8; 32] = [7; 32];
const DOMAIN: &str = "plant.example";
const BY: &str = "a.doer@plant.example";

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let (records, corrections, rounds) = if full { (20, 95, 15) } else { (2, 3, 1) };
    let plant = Plant::new(records, corrections);
    let entries = plant.records.iter().map(|raw| raw.entries.len()).sum::<usize>();
    let folder = plant.on_disk();
    let demo = Demo::read();
    let again = entries.div_ceil(demo.raw.entries.len());
    // They take turns, so that a busy machine slows all of them.
    let runs: [&dyn Fn(); 4] = [
        &|| plant.verify_bare(entries),
        &|| plant.audit(&plant.records),
        &|| plant.audit(&plant.read_back(folder.path())),
        &|| (0..again).for_each(|_| demo.audit()),
    ];
    let mut best = [Duration::MAX; 4];
    for _ in 0..rounds {
        for (best, run) in best.iter_mut().zip(runs) {
            *best = timed(run).min(*best);
        }
    }
    let own = again * demo.raw.entries.len();
    let sizes = [entries, entries, entries, own].map(|size| size as u128);
    println!("{records} records, {entries} entries, one thread, best of {rounds}");
    let bare = best[0].as_nanos() / sizes[0];
    for (index, name) in ["bare/dalek", "audit/us", "disk/us", "demo/us"].into_iter().enumerate() {
        let each = best[index].as_nanos() / sizes[index];
        let percent = each * 100 / bare;
        println!("{name:<12} {each:>8} ns an entry  {}.{:02} x", percent / 100, percent % 100);
    }
}

/// A record of the demo, with those who signed it.
struct Demo {
    raw: RawRecord,
    people: People,
    trust: TrustList,
}

impl Demo {
    #[allow(clippy::disallowed_methods, reason = "a bench reads the demo's records")]
    fn read() -> Demo {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
        let raw = store::read(&demo.join("records/SM-1041")).unwrap();
        let signers = std::fs::read(demo.join("allowed_signers")).unwrap();
        let mut people: BTreeMap<String, Person> = BTreeMap::new();
        for raw in &raw.entries {
            let entry = entry::parse(&raw.json).unwrap();
            let (id, name, roles) = (entry.by.clone(), entry.name, Vec::new());
            let person = people.entry(entry.by).or_insert(Person { id, name, roles });
            let from = "2020-01-01".parse().unwrap();
            if person.roles.iter().all(|term| term.role != entry.role) {
                person.roles.push(Term { role: entry.role, from, until: None });
            }
        }
        let people = people.into_values().collect();
        Demo { raw, people, trust: TrustList::parse(&signers).0 }
    }

    fn audit(&self) {
        let report = audit_record(black_box(&Subject {
            job: "SM-1041",
            raw: &self.raw,
            trust: &self.trust,
            people: &self.people,
            domain: "saltmarsh.example",
            now: None,
            current_packet: None,
        }));
        assert!(report.is_clean(), "{:?}", report.findings);
    }
}

fn timed(run: &dyn Fn()) -> Duration {
    let start = cpu();
    run();
    cpu().saturating_sub(start)
}

/// What this thread has had of a core.
fn cpu() -> Duration {
    let now = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    Duration::try_from(now).unwrap()
}

struct Plant {
    packet: Packet,
    people: People,
    trust: TrustList,
    records: Vec<RawRecord>,
}

impl Plant {
    /// Records of a lockout, one reading, and many corrections of it.
    fn new(records: usize, corrections: usize) -> Self {
        let key = SigningKey::from_secret(&SECRET);
        let line = format!(
            "{BY} namespaces=\"signoff@{DOMAIN}\",valid-after=\"20260101Z\",valid-before=\"20270101Z\" {}\n",
            key.public().to_openssh().unwrap()
        );
        let (trust, errors) = TrustList::parse(line.as_bytes());
        assert!(errors.is_empty());
        let role = |role: &str| Term {
            role: role.to_owned(),
            from: "2026-01-01".parse().unwrap(),
            until: None,
        };
        let roles = vec![role("technician")];
        let person = Person { id: BY.to_owned(), name: "Ada Doer".to_owned(), roles };
        let people: People = [person].into_iter().collect();
        let packet: Packet = serde_json::from_slice(PACKET).unwrap();
        let mut plant = Plant { packet, people, trust, records: Vec::new() };
        plant.records = (0..records).map(|n| plant.record(&key, n, corrections)).collect();
        plant
    }

    fn record(&self, key: &SigningKey, number: usize, corrections: usize) -> RawRecord {
        let mut past: Vec<Past> = Vec::new();
        let mut raw = RawRecord { packet: Some(PACKET.to_vec()), ..RawRecord::default() };
        let mut requests = vec![
            done("lockout.tell"),
            done("lockout.isolate"),
            measured("lockout.prove/zero-1", "0", None),
            done("lockout.prove"),
            measured("knives.set/position-1", "-84.0", None),
        ];
        for n in 0..corrections as u64 {
            let text = format!("-84.{}", (n + number as u64) % 6);
            requests.push(measured("knives.set/position-1", &text, Some(n + 5)));
        }
        for request in requests {
            let at = time::parse("2026-11-26T22:10:00+01:00").unwrap();
            let at = at + chrono::Duration::seconds(past.len() as i64 * 20);
            let digest = sha256_hex(PACKET);
            let (packet, people) = (&self.packet, &self.people);
            let desk = Desk { packet, digest: &digest, past: &past, people, by: BY, key: "", at };
            let entries = compose(&desk, &request).unwrap();
            for signed in seal_all(entries, &raw.next().1, key, DOMAIN).unwrap() {
                past.push(Past { entry: signed.entry, key: String::new() });
                let (name, signature) = (format!("{:06}", past.len()), Some(signed.signature));
                raw.entries.push(RawEntry { name, json: signed.json, signature });
            }
        }
        raw
    }

    /// One audit a record, one after the other, each without a finding above a note.
    fn audit(&self, records: &[RawRecord]) {
        for raw in records {
            let report = audit_record(black_box(&Subject {
                job: "J-2041",
                raw,
                trust: &self.trust,
                people: &self.people,
                domain: DOMAIN,
                now: None,
                current_packet: None,
            }));
            assert_eq!(report.worst(), Some(Severity::Note), "{:?}", report.findings);
            assert!(report.entries.iter().all(|entry| entry.sound && entry.signer_ok));
        }
    }

    /// Signatures over as many bytes as SSHSIG signs: 6 + 4 × 4 + 21 + 6 + 64.
    fn verify_bare(&self, count: usize) {
        let key = ed25519_dalek::SigningKey::from_bytes(&SECRET);
        let message = [42; 113];
        let signature = key.sign(&message);
        let public = key.verifying_key();
        for _ in 0..count {
            public.verify_strict(black_box(&message), black_box(&signature)).unwrap();
        }
    }

    fn on_disk(&self) -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        for (number, raw) in self.records.iter().enumerate() {
            let record = folder.path().join(number.to_string());
            store::create(&record, PACKET).unwrap();
            for entry in &raw.entries {
                let json = record.join(format!("{}.json", entry.name));
                witnessmark::durable::create(&json, &entry.json).unwrap();
                let signature = record.join(format!("{}.json.sig", entry.name));
                let bytes = entry.signature.as_ref().unwrap();
                witnessmark::durable::create(&signature, bytes).unwrap();
            }
            assert_eq!(&store::read(&record).unwrap(), raw);
            Locked::open(&record, "").unwrap();
        }
        folder
    }

    fn read_back(&self, folder: &std::path::Path) -> Vec<RawRecord> {
        let read = |n: usize| store::read(&folder.join(n.to_string())).unwrap();
        (0..self.records.len()).map(read).collect()
    }
}

fn done(step: &str) -> Request {
    Request { performed: vec![step.to_owned()], ..Request::default() }
}

fn measured(blank: &str, text: &str, corrects: Option<u64>) -> Request {
    let note = corrects.map(|_| "read again".to_owned());
    let (blank, text) = (blank.to_owned(), text.to_owned());
    let value = Value { blank, text, instrument: None, corrects, note };
    Request { readings: vec![value], ..Request::default() }
}
