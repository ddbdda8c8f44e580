//! Who is there for a job: the people that the job names, or those of its shift.
//!
//! Must never guess a person: who is unknown is reported, and a plan without names says so.

use std::collections::BTreeSet;

use super::model::Present;
use super::prepare::Prepared;
use crate::finding::{Findings, Place};
use crate::plant::load::{Loaded, Plant};
use crate::plant::machine::day_of;
use crate::plant::shape::{JobFile, ShiftEntry};

/// The people of a job with the roles they hold on its day; none when nobody says.
pub(super) fn people(
    findings: &mut Findings,
    prepared: &Prepared,
    job: &Loaded<JobFile>,
) -> Vec<Present> {
    let own = &job.body.people;
    known(findings, prepared.plant, &job.place.at("people"), own);
    let shift = prepared.plant.facts.body.shifts.get(&job.body.shift);
    let ids = match shift {
        Some(shift) if own.is_empty() => &shift.people,
        _ => own,
    };
    let mut present: Vec<Present> = Vec::new();
    for id in ids {
        let twice = present.iter().any(|one| one.id == *id);
        present.extend(there(prepared, job, id).filter(|_| !twice));
    }
    idle(findings, prepared, job);
    under_locks(findings, job, ids, &present);
    // Who takes over under the locks comes with the next shift.
    let lockout = job.body.lockout.iter().filter(|_| !present.is_empty());
    let change = lockout.filter_map(|lockout| lockout.shift_change.as_ref());
    let arriving: Vec<&String> = change.flat_map(|change| &change.crew).collect();
    for id in arriving {
        let twice = present.iter().any(|one| one.id == *id);
        present.extend(there(prepared, job, id).filter(|_| !twice));
    }
    present
}

/// A person with the roles held on the day of the job; none without one.
fn there(prepared: &Prepared, job: &Loaded<JobFile>, id: &str) -> Option<Present> {
    let person = prepared.people.get(id)?;
    let day = day_of(&job.body.date)?;
    let held = person.roles.iter().filter(|term| term.covers(day));
    let roles: BTreeSet<String> = held.map(|term| term.role.clone()).collect();
    let (id, name) = (person.id.clone(), person.name.clone());
    (!roles.is_empty()).then_some(Present { id, name, roles })
}

/// Who is named by the job itself has a role on its day. A shift is named once for all days: who
/// has none on one of them is only not counted on.
fn idle(findings: &mut Findings, prepared: &Prepared, job: &Loaded<JobFile>) {
    if day_of(&job.body.date).is_none() {
        return;
    }
    for (index, id) in job.body.people.iter().enumerate() {
        let person = prepared.people.get(id);
        if let Some(person) = person.filter(|_| there(prepared, job, id).is_none()) {
            let at = job.place.at("people").item(index);
            findings.person_without_role(&at, &person.name, &job.body.date);
        }
    }
}

/// Everybody who works under the lockout from its beginning is among the people, where they are
/// stated. Who takes over comes with the next shift.
fn under_locks(
    findings: &mut Findings,
    job: &Loaded<JobFile>,
    stated: &[String],
    present: &[Present],
) {
    let Some(lockout) = job.body.lockout.as_ref().filter(|_| !present.is_empty()) else { return };
    for (index, id) in lockout.crew.iter().enumerate() {
        if !stated.contains(id) {
            findings.crew_not_there(&job.place.at("lockout").at("crew").item(index), id);
        }
    }
}

/// Each person of a shift is known, and named once.
pub(super) fn of_shift(findings: &mut Findings, plant: &Plant, name: &str, shift: &ShiftEntry) {
    let at = plant.facts.place.at("shifts").at(name).at("people");
    known(findings, plant, &at, &shift.people);
}

fn known(findings: &mut Findings, plant: &Plant, at: &Place, ids: &[String]) {
    let people = &plant.people.body.people;
    let mut seen = BTreeSet::new();
    for (index, id) in ids.iter().enumerate() {
        let at = at.item(index);
        if !people.iter().any(|person| person.id == *id) {
            let known: Vec<&String> = people.iter().map(|person| &person.id).collect();
            findings.unknown_person(&at, id, &known);
        } else if !seen.insert(id) {
            findings.person_twice(&at, id);
        }
    }
}
