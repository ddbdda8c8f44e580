//! The lockout in every published packet, against 29 CFR 1910.147 paragraph by paragraph.

use std::collections::BTreeMap;

use witnessmark::finding::Findings;
use witnessmark::packet::model::{Packet, SHIFT_CHANGE, Stage, Step};
use witnessmark::packet::{self};
use witnessmark::plant::load;
use witnessmark::procedure::protect;

use crate::plant::{Plant, files_of, root};

/// What must come before what, where both are there, and the paragraph that says so.
///
/// Source: 29 CFR 1910.147, by paragraph; (c)(9) is quoted from memory.
const ORDER: [(Stage, Stage, &str); 15] = [
    (Stage::Notify, Stage::Isolate, "(c)(9): told before controls are applied"),
    (Stage::Prepare, Stage::Shutdown, "(d)(1): type, magnitude, means known before shutdown"),
    (Stage::Shutdown, Stage::Isolate, "(d)(2): orderly shutdown"),
    (Stage::Isolate, Stage::Lock, "(d)(3): isolating devices operated"),
    (Stage::Lock, Stage::Relieve, "(d)(4), (d)(5)(i): stored energy after the locks"),
    (Stage::Relieve, Stage::Verify, "(d)(5), (d)(6)"),
    (Stage::Relieve, Stage::TryOut, "(d)(6), Appendix A: tried when nothing is stored any more"),
    (Stage::TryOut, Stage::Inspect, "(d)(6), Appendix A: tried before work"),
    (Stage::Verify, Stage::Inspect, "(d)(6): verified before work, work before release"),
    (Stage::Inspect, Stage::ClearPeople, "(e)(1), (e)(2)(i)"),
    (Stage::ClearPeople, Stage::Unlock, "(e)(2)(i): everybody clear before locks come off"),
    (Stage::Inspect, Stage::Unlock, "(e)(1): inspected before locks come off"),
    (Stage::Unlock, Stage::NotifyAfter, "(e)(3), (e)(2)(ii): told after removal"),
    (Stage::NotifyAfter, Stage::Restart, "(e)(2)(ii): told before the start"),
    (Stage::Unlock, Stage::Restart, "(e)(3)"),
];

/// Every packet of the demo plant, by job.
pub fn packets() -> BTreeMap<String, Packet> {
    let reading = load::load(&root().join("demo-data")).unwrap();
    let plant = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    plant
        .jobs
        .keys()
        .map(|job| (job.clone(), packet::assemble(&mut findings, &prepared, job).unwrap()))
        .collect()
}

fn places(steps: &[Step], stage: Stage) -> Vec<usize> {
    steps.iter().enumerate().filter(|(_, step)| step.stage == stage).map(|(at, _)| at).collect()
}

#[test]
fn every_packet_keeps_the_order_of_the_rule() {
    for (job, packet) in packets() {
        for (first, then, paragraph) in ORDER {
            let (first, then) = (places(&packet.steps, first), places(&packet.steps, then));
            assert!(
                !first.is_empty() && !then.is_empty(),
                "{job}: a stage is missing, {paragraph}"
            );
            assert!(first.iter().max() < then.iter().min(), "{job}: {paragraph}");
        }
    }
}

#[test]
fn every_stage_acts_on_every_source() {
    for (job, packet) in packets() {
        let sources: Vec<&String> = packet.energy.iter().map(|source| &source.id).collect();
        for stage in [Stage::Isolate, Stage::Lock, Stage::Relieve, Stage::Verify, Stage::Unlock] {
            let step = packet.steps.iter().find(|step| step.stage == stage).unwrap();
            let acted: Vec<&String> = step.sources.iter().collect();
            assert_eq!(acted, sources, "{job}: {stage:?}");
            let rows = &step.table.as_ref().unwrap().rows;
            assert_eq!(rows.len(), sources.len(), "{job}: {stage:?}");
        }
    }
}

#[test]
fn work_inside_a_guard_lies_between_proof_of_zero_and_release() {
    for (job, packet) in packets() {
        let verified = places(&packet.steps, Stage::Verify)[0];
        let inspected = places(&packet.steps, Stage::Inspect)[0];
        let inside: Vec<usize> = packet
            .steps
            .iter()
            .enumerate()
            .filter(|(_, step)| step.zone.is_some() && step.stays.is_none())
            .map(|(at, _)| at)
            .collect();
        assert!(!inside.is_empty(), "{job} has work inside a guard");
        assert!(
            inside.iter().all(|at| (verified..inspected).contains(at)),
            "{job}: (d)(6), (e)(1)"
        );
    }
}

/// Drops each step of the lockout and the release in turn, and swaps each with its neighbour.
#[test]
fn a_packet_without_one_of_the_stages_is_refused() {
    let mut refused = 0;
    for (job, packet) in packets() {
        assert_eq!(protect::walk(&packet.steps, &packet.energy, &packet.zones), []);
        for (at, step) in packet.steps.iter().enumerate() {
            // An arriving crew proves again what is proved already.
            let again = step.procedure == SHIFT_CHANGE;
            if again || matches!(step.stage, Stage::Work | Stage::Restart) {
                continue;
            }
            let mut steps = packet.steps.clone();
            steps.remove(at);
            let found = protect::walk(&steps, &packet.energy, &packet.zones);
            assert_ne!(found, [], "{job} without `{}`", step.title);
            refused += 1;
        }
    }
    assert!(refused >= 11 * 7, "{refused} mutants");
}

/// The page a shift lead prints shows the steps in the order of the packet, in two kinds of place:
/// the sequence itself and each hazard message before the step it protects.
#[test]
fn published_packets_show_the_steps_in_this_order() {
    let plant = Plant::demo();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let files = files_of(&plant.beside("site"));
    for (job, packet) in packets() {
        let html = String::from_utf8(files[&format!("packets/{job}.html")].clone()).unwrap();
        let steps = &html[html.find("id=\"steps\"").unwrap()..];
        let mut at = 0;
        for step in &packet.steps {
            let heading = format!("</span> {}", step.title);
            let found = steps[at..].find(&heading);
            at += found.unwrap_or_else(|| panic!("{job}: `{}` is not in its place", step.title));
        }
    }
}
