//! Rules of the lockout part: who locks, groups, shift change, contractors.

use super::one_of;
use crate::finding::{Findings, Place};
use crate::language::Words;

/// Rules of who may lock.
impl Findings {
    /// A role that steps ask for and nobody holds on that day.
    pub fn nobody_holds_role(&mut self, at: &Place, role: &str) {
        self.error("role-held-by-nobody", at, &[("role", role.into())]);
    }

    /// A step of the lockout is done by a role that may not lock.
    pub fn role_not_authorised(
        &mut self,
        at: &Place,
        step: &str,
        role: Option<&str>,
        authorised: &[String],
    ) {
        let why = match role {
            Some(role) => Words::new("role-may-not-lock", &[("role", role.into())]),
            None => Words::of("role-is-nobody"),
        };
        let roles = one_of(authorised);
        let first = authorised.first().map_or("", String::as_str);
        let parts = [
            ("step", step.into()),
            ("why", why.into()),
            ("first", first.into()),
            ("roles", roles.into()),
        ];
        self.error("role-not-authorised", at, &parts);
    }

    /// A plant with energy sources names nobody who may lock.
    pub fn nobody_authorised(&mut self, at: &Place) {
        self.error("nobody-authorised", at, &[]);
    }

    /// An electrical zero is measured and nobody is named who is qualified for it.
    pub fn no_electrical_role(&mut self, at: &Place) {
        self.error("no-electrical-role", at, &[]);
    }

    /// Who measures zero works under the locks as well.
    pub fn electrical_not_authorised(&mut self, at: &Place, role: &str) {
        self.error("electrical-not-authorised", at, &[("role", role.into())]);
    }
}

/// Rules of groups, shift changes and contractors.
impl Findings {
    /// Nobody holds primary responsibility for a crew.
    pub fn primary_missing(&mut self, at: &Place) {
        self.error("primary-missing", at, &[]);
    }

    /// Several crafts or firms, and nobody coordinates them.
    pub fn coordinator_missing(&mut self, at: &Place) {
        self.error("coordinator-missing", at, &[]);
    }

    /// Somebody works under the locks and may not lock on that day.
    pub fn person_not_authorised(&mut self, at: &Place, name: &str, roles: &[String], day: &str) {
        self.error(
            "person-not-authorised",
            at,
            &[("name", name.into()), ("day", day.into()), ("roles", one_of(roles).into())],
        );
    }

    /// A group of one person.
    pub fn group_of_one(&mut self, at: &Place) {
        self.error("group-of-one", at, &[]);
    }

    /// A firm that nobody spoke to.
    pub fn contractor_not_told(&mut self, at: &Place, firm: &str, key: &str) {
        self.error("contractor-not-told", at, &[("firm", firm.into()), ("key", key.into())]);
    }

    /// A change of people at a place where the machine is not locked, or at none.
    pub fn shift_change_misplaced(&mut self, at: &Place, before: &str, why: &Words) {
        self.error("shift-change-misplaced", at, &[("before", before.into()), ("why", why.into())]);
    }

    /// A handover with a moment without protection.
    pub fn shift_change_gap(&mut self, at: &Place, why: &Words) {
        self.error("shift-change-gap", at, &[("why", why.into())]);
    }

    /// A crew, and procedures without their personal locks.
    pub fn no_personal_locks(&mut self, at: &Place, machine: &str) {
        self.error("no-personal-locks", at, &[("machine", machine.into())]);
    }

    /// Locks of sources come off for a test while the crew's personal locks stay on the box.
    pub fn crew_in_test_block(&mut self, at: &Place, machine: &str) {
        self.error("crew-in-test-block", at, &[("machine", machine.into())]);
    }

    /// Contractors, and no step in which rules are exchanged with them.
    pub fn contractors_not_met(&mut self, at: &Place, machine: &str) {
        self.error("contractors-not-met", at, &[("machine", machine.into())]);
    }

    /// A shift ends while the machine is locked.
    pub fn shift_ends_under_locks(&mut self, at: &Place, shift: &str, ends: &str) {
        self.warning(
            "shift-ends-under-locks",
            at,
            &[("shift", shift.into()), ("ends", ends.into())],
        );
    }

    /// A time of day that nobody can read.
    pub fn bad_clock(&mut self, at: &Place, text: &str) {
        self.error("bad-clock", at, &[("text", text.into())]);
    }
}
