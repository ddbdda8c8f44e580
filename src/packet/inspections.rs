//! Which lockout has to be inspected on which machine, when it was, and when the next time is due.
//!
//! Source: 29 CFR 1910.147(c)(6)(i): each energy control procedure, at least once a year. Must never ask
//! what day it is: whether one is overdue is asked with a day.

use chrono::{Months, NaiveDate};

use super::prepare::Prepared;
use crate::finding::Findings;
use crate::plant::load::Plant;
use crate::plant::machine::Machine;
use crate::procedure::Procedure;
use crate::register::state::Held;
use crate::register::state::due;

/// A lockout procedure on a machine.
#[derive(Debug, Clone)]
pub struct Due<'p> {
    /// The machine.
    pub machine: &'p Machine<'p>,
    /// The procedure.
    pub procedure: &'p Procedure,
    /// The last inspection in the register.
    pub signed: Option<&'p Held>,
    /// The last day for the next one; none when it was never inspected.
    pub due: Option<NaiveDate>,
}

impl Due<'_> {
    /// Whether the inspection was due before a day, or never done.
    pub fn is_over(&self, day: NaiveDate) -> bool {
        self.due.is_none_or(|due| due < day)
    }
}

/// Every lockout procedure on each machine that goes by it.
pub fn inspections<'p>(prepared: &'p Prepared<'p>) -> Vec<Due<'p>> {
    prepared.machines.values().flat_map(|machine| of_machine(prepared, machine)).collect()
}

/// Every lockout procedure of one machine.
pub(super) fn of_machine<'p>(
    prepared: &'p Prepared<'p>,
    machine: &'p Machine<'p>,
) -> impl Iterator<Item = Due<'p>> {
    // What the machine's own file says of its last inspection counts while nobody has signed one.
    let written = machine.inspection.as_ref().and_then(|own| own.date.parse::<NaiveDate>().ok());
    let written = written.and_then(|day| day.checked_add_months(Months::new(12)));
    lockouts(prepared.plant, machine).map(move |procedure| {
        let register = &prepared.register.register;
        let signed = register.inspection(&procedure.front.id, &machine.file.body.id);
        let due = signed.and_then(|held| due(&held.entry)).or(written);
        Due { machine, procedure, signed, due }
    })
}

/// Warns of each machine with something to lock whose inspection is named neither in its own file nor,
/// for each of its lockout procedures, in the register.
pub(super) fn missing(findings: &mut Findings, prepared: &Prepared) {
    for machine in prepared.machines.values() {
        let body = &machine.file.body;
        let mut own = of_machine(prepared, machine).peekable();
        let is_signed = own.peek().is_some() && own.all(|due| due.signed.is_some());
        let is_known = body.lockout_inspection.is_some() || is_signed;
        if body.energy.iter().next().is_some() && !is_known {
            findings.inspection_missing(&machine.file.place.at("id"));
        }
    }
}

/// The procedures of a machine's changeover by which energy is taken away or comes back.
pub fn lockouts<'p>(plant: &'p Plant, machine: &'p Machine) -> impl Iterator<Item = &'p Procedure> {
    let own = plant.procedures_of(&machine.file.body);
    own.into_iter().filter(|own| own.steps.iter().any(|step| step.facts.stage.is_for_authorised()))
}
