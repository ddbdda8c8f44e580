//! What writers say about doing things beside each other: whether the line may run, how many people, what
//! a procedure waits for.
//!
//! Judges the files alone, once for all jobs. What follows for one packet is worked out in
//! [`crate::plan::tasks`], which keeps what protects people whatever stands here.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::packet::model::{EnergyState, Mark, Stage};
use crate::plant::load::Plant;
use crate::plant::shape::{LineWord, StepEntry};
use crate::procedure::{Procedure, StepText};

/// The most people, or steps in one zone, that a plan counts with.
const MOST: u32 = 6;

/// Judges every procedure and every zone of a plant.
pub(super) fn beside(findings: &mut Findings, plant: &Plant) {
    for procedure in plant.procedures.values() {
        for step in &procedure.steps {
            of_step(findings, procedure, step);
        }
    }
    for machine in plant.machines.values() {
        for (id, zone) in machine.body.zones.iter() {
            let at = machine.place.at("zones").at(id);
            one_to_six(findings, &at, "at_once", zone.at_once);
        }
    }
    after(findings, plant);
}

fn of_step(findings: &mut Findings, procedure: &Procedure, step: &StepText) {
    let at = Place::block(&procedure.file, step.block.clone());
    one_to_six(findings, &at, "people", step.facts.people);
    let is_running = step.facts.line == LineWord::Running;
    if let Some(why) = stands_for(&step.facts).filter(|_| is_running) {
        findings.line_cannot_run(&at.at("line"), &step.title, &why);
    }
}

fn one_to_six(findings: &mut Findings, at: &Place, key: &str, count: u32) {
    if !(1..=MOST).contains(&count) {
        findings.not_one_to_six(&at.at(key), key, count);
    }
}

/// Why the line has to stand for a step; none when nothing in it says so.
fn stands_for(step: &StepEntry) -> Option<Words> {
    let decides = |mark: &Mark| *mark != Mark::LabelChecked;
    Some(Words::of(match step {
        StepEntry { needs: EnergyState::Isolated, .. } => "stop-needs-isolated",
        StepEntry { block: Some(_), .. } => "stop-is-block",
        StepEntry { needs: EnergyState::Test, .. } => "stop-needs-test",
        StepEntry { zone: Some(_), .. } => "stop-reaches-in",
        step if step.stage != Stage::Work => "stop-is-lockout",
        step if step.marks.iter().any(decides) => "stop-has-mark",
        _ => return None,
    }))
}

/// What procedures wait for: others that there are, that come before them, in no circle.
fn after(findings: &mut Findings, plant: &Plant) {
    let known: Vec<&String> = plant.procedures.keys().collect();
    let mut waits: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (id, procedure) in &plant.procedures {
        let names = waits.entry(id).or_default();
        for (index, name) in procedure.front.after.iter().flatten().enumerate() {
            match plant.procedures.get_key_value(name) {
                Some((name, _)) => names.push(name),
                None if plant.broken.contains(&format!("instructions/{name}")) => {}
                None => findings.unknown_procedure(&place(procedure, index), name, &known),
            }
        }
    }
    let stuck = stuck(&waits);
    if let Some(circle) = circle(&waits, &stuck)
        && let Some(first) = circle.first().and_then(|id| plant.procedures.get(*id))
    {
        let next = circle.get(1).copied().unwrap_or_default();
        let mut names = first.front.after.iter().flatten();
        let index = names.position(|name| name == next).unwrap_or_default();
        findings.after_circle(&place(first, index), &circle);
    }
    for machine in plant.machines.values() {
        let order = machine.body.changeover.iter().map(|entry| entry.used.procedure.as_str());
        later(findings, plant, &order.collect::<Vec<_>>(), &machine.body.name, &stuck);
    }
}

/// Where a procedure names another that it waits for.
fn place(procedure: &Procedure, index: usize) -> Place {
    let front = Place::block(&procedure.file, procedure.front_range.clone());
    front.at("after").item(index)
}

/// A procedure that waits for one which the machine does later. What waits in a circle was said.
fn later(
    findings: &mut Findings,
    plant: &Plant,
    order: &[&str],
    machine: &str,
    stuck: &BTreeSet<&str>,
) {
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    for (place, id) in order.iter().enumerate() {
        first.entry(id).or_insert(place);
    }
    for (id, own) in &first {
        let Some(procedure) = plant.procedures.get(*id) else { continue };
        for (index, name) in procedure.front.after.iter().flatten().enumerate() {
            let is_later = first.get(name.as_str()).is_some_and(|other| other > own);
            if is_later && !(stuck.contains(id) && stuck.contains(name.as_str())) {
                findings.after_later(&place(procedure, index), id, name, machine);
            }
        }
    }
}

/// Procedures that could never begin: they wait in a circle, or for one that does.
fn stuck<'p>(waits: &BTreeMap<&'p str, Vec<&'p str>>) -> BTreeSet<&'p str> {
    let mut waited: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (id, names) in waits {
        for name in names {
            waited.entry(name).or_default().push(id);
        }
    }
    let mut open: BTreeMap<&str, usize> =
        waits.iter().map(|(id, names)| (*id, names.len())).collect();
    let mut free: Vec<&str> =
        waits.keys().filter(|id| open.get(**id) == Some(&0)).copied().collect();
    while let Some(id) = free.pop() {
        open.remove(id);
        for later in waited.get(id).into_iter().flatten() {
            if let Some(count) = open.get_mut(later) {
                *count -= 1;
                if *count == 0 {
                    free.push(later);
                }
            }
        }
    }
    open.into_keys().collect()
}

/// One circle among what is stuck, its first name at both ends.
fn circle<'p>(
    waits: &BTreeMap<&'p str, Vec<&'p str>>,
    stuck: &BTreeSet<&'p str>,
) -> Option<Vec<&'p str>> {
    let next = |id: &&'p str| waits.get(id)?.iter().copied().find(|name| stuck.contains(name));
    let mut seen = BTreeMap::new();
    let mut way = Vec::new();
    for id in std::iter::successors(stuck.first().copied(), next) {
        if let Some(begins) = seen.insert(id, way.len()) {
            return Some(way.drain(begins..).chain([id]).collect());
        }
        way.push(id);
    }
    None
}
