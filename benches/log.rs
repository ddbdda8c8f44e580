//! Appends and proofs of a log at 1,000 and at 1,000,000 leaves.
//!
//! `append` is all that signing one more entry costs a log: opening it, its lock, the intent, a line,
//! its hashes. `yardstick` writes and syncs as many bytes into as many files and does nothing else.
//! `proof` proves that a checkpoint that was kept halfway still holds, and counts the hashes it reads.
//! Run with `cargo bench --bench log`; without `--bench` it runs small, once, as a test.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::fs::{File, OpenOptions};
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

use witnessmark::audit::log::{Held, holds};
use witnessmark::durable;
use witnessmark::log::checkpoint::{Kept, short};
use witnessmark::log::line::Line;
use witnessmark::log::store::{Log, Writer};
use witnessmark::log::tree::{kept_hashes, leaf};
use witnessmark::record::compose::Signed;
use witnessmark::record::entry;

/// An entry in the only form that is read.
const ENTRY: &str = r#"{"at":"2026-11-26T22:12:00+01:00","by":"a.doer@plant.example","job":"J-2041","kind":"reading","machine":"pouch-6","meaning":"I read this value at the machine.","name":"Ada Doer","packet":"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad","prev":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855","reading":{"blank":"lockout.prove/zero-1","high":"0","instrument":"voltage-tester","unit":"V","value":"0","verdict":"within"},"role":"technician","seq":3,"step":"lockout.prove","v":2}
"#;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let (sizes, rounds) = if full { ([1_000, 1_000_000], 200) } else { ([10, 1_000], 3) };
    for leaves in sizes {
        let plant = tempfile::tempdir().unwrap();
        fill(plant.path(), leaves);
        let (append, yardstick) = appends(plant.path(), rounds);
        let over = append.saturating_sub(yardstick);
        println!(
            "{leaves:>9} leaves  append {} us, yardstick {} us, over it {} us",
            append.as_micros(),
            yardstick.as_micros(),
            over.as_micros()
        );
        let (proof, reads) = proof(plant.path(), rounds);
        println!("{leaves:>9} leaves  proof {} us, {reads} hashes read", proof.as_micros());
    }
}

fn fill(plant: &Path, leaves: u64) {
    let mut log = Writer::open(plant, "pouch-6").unwrap();
    for first in (0..leaves).step_by(10_000) {
        let numbers = first..leaves.min(first + 10_000);
        let line = |n: u64| Line {
            hash: leaf(&[&n.to_be_bytes()]),
            entry: n % 900 + 1,
            record: format!("J-{}", n / 900),
        };
        log.adopt(&numbers.map(line).collect::<Vec<_>>()).unwrap();
    }
}

/// The middle of each: an append, and the same bytes without a log.
fn appends(plant: &Path, rounds: usize) -> (Duration, Duration) {
    let signature = vec![b'x'; 320];
    let signed = Signed {
        entry: entry::parse(ENTRY.as_bytes()).unwrap(),
        json: ENTRY.as_bytes().to_vec(),
        signature,
    };
    let other = plant.join("yardstick");
    std::fs::create_dir(&other).unwrap();
    let (mut appends, mut yardsticks) = (Vec::new(), Vec::new());
    for _ in 0..rounds {
        let begin = Instant::now();
        let mut log = Writer::open(plant, "pouch-6").unwrap();
        let before = log.log().leaves();
        log.intend("J-9999999", std::slice::from_ref(&signed)).unwrap();
        log.commit().unwrap();
        appends.push(begin.elapsed());
        let hashes = kept_hashes(before + 1) - kept_hashes(before);
        let begin = Instant::now();
        write_alone(&other, usize::try_from(hashes).unwrap() * 32);
        yardsticks.push(begin.elapsed());
    }
    (middle(appends), middle(yardsticks))
}

fn write_alone(folder: &Path, hashes: usize) {
    let line = [b'x'; 82];
    durable::replace(&folder.join("intent"), &line).unwrap();
    for (name, bytes) in [("leaves", line.as_slice()), ("hashes", &vec![b'x'; hashes])] {
        let path = folder.join(name);
        let mut file: File = OpenOptions::new().create(true).append(true).open(path).unwrap();
        file.write_all(bytes).and_then(|()| file.sync_data()).unwrap();
    }
    std::fs::remove_file(folder.join("intent")).unwrap();
}

/// The middle time of a proof, and how many hashes it reads.
fn proof(plant: &Path, rounds: usize) -> (Duration, usize) {
    let leaves = Log::open(plant, "pouch-6").unwrap().unwrap().leaves();
    let half = leaves / 2 + 1;
    let root = Log::open(plant, "pouch-6").unwrap().unwrap().root(half).unwrap();
    let kept = Kept::parse(short("pouch-6", half, &root).as_bytes(), "plant.example").unwrap();
    let (mut times, mut reads) = (Vec::new(), 0);
    for _ in 0..rounds {
        reads = 0;
        let begin = Instant::now();
        let log = Log::open(plant, "pouch-6").unwrap().unwrap();
        let held = holds(&kept, log.leaves(), |place| {
            reads += 1;
            log.hash(place)
        });
        assert_eq!(held.unwrap(), Held::Holds);
        times.push(begin.elapsed());
    }
    (middle(times), reads)
}

fn middle(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}
