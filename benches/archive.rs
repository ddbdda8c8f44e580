//! Memory of an audit in the length of an archive: what lives at once, and for each record more.
//!
//! An archive of N records is the demo's records over and over, read from their folders, judged block
//! by block, counted and let go. Run with `cargo bench --bench archive` for 10,000 and 1,000,000
//! entries; without `--bench` it runs small, once, as a test. Counts are the same on every machine.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::disallowed_methods, reason = "a bench reads the demo's records")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use witnessmark::audit::sheet::Summary;
use witnessmark::audit::{Report, Subject, audit_each, audit_record};
use witnessmark::record::people::{People, Person, Term};
use witnessmark::record::{TrustList, entry, store};

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let sizes: [usize; 2] = if full { [10_000, 1_000_000] } else { [500, 2_000] };
    let archive = Archive::of_demo();
    // In one thread, because the counter counts one thread.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let [few, many] = sizes.map(|entries| pool.install(|| archive.measure(entries)));
    for (entries, peak) in sizes.into_iter().zip([few, many]) {
        println!("archive/{entries:<8} at most {:>6} kB at once", peak / 1000);
    }
    assert!(many < few + few / 50, "memory grows with the archive: {few} and {many} bytes");
}

struct Archive {
    folder: PathBuf,
    record: &'static str,
    trust: TrustList,
    people: People,
}

impl Archive {
    fn of_demo() -> Archive {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
        let signers = std::fs::read(demo.join("allowed_signers")).unwrap();
        let (folder, record) = (demo.join("records/SM-1041"), "SM-1041");
        let people = people(&folder);
        Archive { folder, record, trust: TrustList::parse(&signers).0, people }
    }

    /// The most bytes that live at once while so many entries are audited.
    fn measure(&self, entries: usize) -> u64 {
        let each = self.judge().count;
        let names = vec![self.record.to_owned(); entries.div_ceil(each)];
        let mut summary = Summary::default();
        let used = allocation_counter::measure(|| {
            let judge = |_: &str| Ok::<_, ()>(self.judge().without_entries());
            audit_each(&names, judge, |report: Report| summary.add(&report)).unwrap();
        });
        assert_eq!((summary.entries, summary.bad), (names.len() * each, 0), "{summary:?}");
        used.bytes_max
    }

    fn judge(&self) -> Report {
        let raw = store::read(&self.folder).unwrap();
        audit_record(&Subject {
            job: self.record,
            raw: &raw,
            trust: &self.trust,
            people: &self.people,
            domain: "saltmarsh.example",
            now: None,
            current_packet: None,
        })
    }
}

/// The people that the record names, in their roles.
fn people(folder: &Path) -> People {
    let mut people: BTreeMap<String, Person> = BTreeMap::new();
    for raw in store::read(folder).unwrap().entries {
        let entry = entry::parse(&raw.json).unwrap();
        let person = people.entry(entry.by.clone()).or_insert_with(|| Person {
            id: entry.by.clone(),
            name: entry.name.clone(),
            roles: Vec::new(),
        });
        let from = "2020-01-01".parse().unwrap();
        if person.roles.iter().all(|term| term.role != entry.role) {
            person.roles.push(Term { role: entry.role, from, until: None });
        }
    }
    people.into_values().collect()
}
