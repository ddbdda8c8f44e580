//! One flipped bit in each byte of a demo record: each is found, or changes nothing that was signed.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use rayon::prelude::*;
use witnessmark::audit::{Report, Severity, Subject, audit_record};
use witnessmark::record::people::People;
use witnessmark::record::store::{self, RawRecord};
use witnessmark::record::trust::TrustList;

use crate::plant::root;

const JOB: &str = "SM-1043";

fn demo() -> (RawRecord, Vec<u8>) {
    let plant = root().join("demo-data");
    let raw = store::read(&Path::new(&plant).join("records").join(JOB)).unwrap();
    (raw, std::fs::read(plant.join("allowed_signers")).unwrap())
}

fn audit(raw: &RawRecord, trust: &TrustList) -> Report {
    audit_record(&Subject {
        job: JOB,
        raw,
        trust,
        people: &People::default(),
        domain: "saltmarsh.example",
        now: None,
        current_packet: None,
    })
}

/// What errors there are, without the records of people, which are not at hand here.
fn errors(report: &Report) -> BTreeSet<(&'static str, Option<u64>)> {
    let errors = report.findings.iter().filter(|finding| finding.severity == Severity::Error);
    errors.map(|finding| (finding.code, finding.entry)).collect()
}

/// The bit that is flipped is chosen by the place.
fn flipped(bytes: &[u8], at: usize) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    bytes[at] ^= 1 << (at % 8);
    bytes
}

/// Each byte of each entry and of each signature. An entry is judged by itself: what its neighbours
/// would say of the broken chain is not even needed.
#[test]
fn each_flip_in_entries_and_signatures_is_found() {
    let (raw, list) = demo();
    let (trust, _) = TrustList::parse(&list);
    let flips: usize = (raw.entries.par_iter())
        .map(|entry| {
            let alone = |json: Vec<u8>, signature: Vec<u8>| {
                let (name, signature) = (entry.name.clone(), Some(signature));
                let entries = vec![store::RawEntry { name, json, signature }];
                RawRecord { packet: None, entries, strays: Vec::new() }
            };
            let signature = entry.signature.clone().unwrap();
            let good = audit(&alone(entry.json.clone(), signature.clone()), &trust);
            assert!(good.entries[0].signer_ok, "entry {}", entry.name);
            for at in 0..entry.json.len() {
                let report = audit(&alone(flipped(&entry.json, at), signature.clone()), &trust);
                assert!(!report.entries[0].signer_ok, "entry {}, byte {at}", entry.name);
            }
            for at in 0..signature.len() {
                let report = audit(&alone(entry.json.clone(), flipped(&signature, at)), &trust);
                assert!(!report.entries[0].signer_ok, "signature {}, byte {at}", entry.name);
            }
            entry.json.len() + signature.len()
        })
        .sum();
    println!("{flips} flips in {} entries and their signatures, all found", raw.entries.len());
    assert!(flips > 50_000, "{flips}");
}

/// Bytes of the packet, one in forty-one: each audit reads all of it. `src/audit/tests.rs` flips every
/// byte of a small packet.
#[test]
fn flips_in_the_packet_are_found() {
    let (raw, list) = demo();
    let (trust, _) = TrustList::parse(&list);
    let first = RawRecord { entries: raw.entries[..1].to_vec(), ..raw.clone() };
    let packet = raw.packet.unwrap();
    let good = errors(&audit(&first, &trust));
    let places: Vec<usize> = (0..packet.len()).step_by(41).collect();
    places.par_iter().for_each(|at| {
        let other = RawRecord { packet: Some(flipped(&packet, *at)), ..first.clone() };
        let found = errors(&audit(&other, &trust));
        assert!(found.difference(&good).next().is_some(), "byte {at}");
    });
    println!("{} flips in the packet, all found", places.len());
    assert!(places.len() > 1000);
}

/// Each byte of each line of who signed. What a list with one other bit still lets through is a key that
/// counts on other days, or for other things than records: that shows only in the digest of the list,
/// which checkpoints carry.
#[test]
fn flips_in_the_list_of_signers_are_found_or_change_only_days() {
    let (raw, list) = demo();
    let (trust, _) = TrustList::parse(&list);
    // The first entry of each person stands for all.
    let mut firsts = BTreeMap::new();
    for (entry, audited) in raw.entries.iter().zip(audit(&raw, &trust).entries) {
        firsts.entry(audited.says.unwrap().by).or_insert_with(|| entry.clone());
    }
    let names: Vec<String> = firsts.keys().cloned().collect();
    let short =
        RawRecord { packet: None, entries: firsts.into_values().collect(), strays: Vec::new() };
    let holds =
        |trust: &TrustList| audit(&short, trust).entries.iter().all(|entry| entry.signer_ok);
    assert!(holds(&trust));
    let text = String::from_utf8(list.clone()).unwrap();
    let (mut flips, mut start, mut dates) = (0, 0, Vec::new());
    for line in text.split_inclusive('\n') {
        if names.iter().any(|name| line.starts_with(name.as_str())) {
            for at in start..start + line.len() - 1 {
                let (other, faults) = TrustList::parse(&flipped(&list, at));
                flips += 1;
                if faults.is_empty() && holds(&other) {
                    assert_ne!(other.digest(), trust.digest());
                    dates.push((at - start, line));
                }
            }
        }
        start += line.len();
    }
    println!(
        "{flips} flips in {} lines; {} of them change only days, or another purpose",
        names.len(),
        dates.len()
    );
    // Two times of fourteen digits a line, and the purposes after that of records.
    assert!(flips > 800 && dates.len() < flips / 4, "{flips} flips, {} dates", dates.len());
    for (at, line) in dates {
        let before = &line[..at];
        let after_purpose = before.contains("\"signoff@saltmarsh.example");
        assert!(after_purpose && !before.contains(" ssh-"), "byte {at} of {line}");
    }
}
