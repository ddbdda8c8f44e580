//! Rules of the lockout part: who locks, groups, shift change, contractors.

use crate::finding::{Findings, Place};

/// Rules of who may lock.
impl Findings {
    /// A role that steps ask for and nobody holds on that day.
    pub fn nobody_holds_role(&mut self, at: &Place, role: &str) {
        let message = format!("nobody holds the role `{role}` on this day, and steps ask for it");
        let way_out = "give somebody the role in people.yaml, or plan the job for another day";
        self.error("role-held-by-nobody", at, message, way_out.to_owned());
    }

    /// A step of the lockout is done by a role that may not lock.
    pub fn role_not_authorised(
        &mut self,
        at: &Place,
        step: &str,
        role: Option<&str>,
        authorised: &[String],
    ) {
        let message = match role {
            Some(role) => format!("`{step}` is done by the role `{role}`, which may not lock out"),
            None => format!("`{step}` is part of the lockout, and nobody signs that it was done"),
        };
        let roles = authorised.join("` or `");
        let way_out = format!(
            "write `performed: {}`: `{roles}` may lock out, as `authorised` in plant.yaml says \
             (29 CFR 1910.147(d)(4)(i))",
            authorised.first().map_or("", String::as_str)
        );
        self.error("role-not-authorised", at, message, way_out);
    }

    /// A plant with energy sources names nobody who may lock.
    pub fn nobody_authorised(&mut self, at: &Place) {
        let message = "the plant does not say which roles may lock out".to_owned();
        let way_out = "add `authorised: [technician]`, with the roles of people who are trained and \
                       authorised (29 CFR 1910.147(d)(4)(i) and (b))";
        self.error("nobody-authorised", at, message, way_out.to_owned());
    }

    /// An electrical zero is measured and nobody is named who is qualified for it.
    pub fn no_electrical_role(&mut self, at: &Place) {
        let message = "the plant does not say which role measures electrical zero".to_owned();
        let way_out = "add `electrical: electrician`, with the role of the electrically qualified \
                       people (29 CFR 1910.333(b)(2)(iv)(B), from memory)";
        self.error("no-electrical-role", at, message, way_out.to_owned());
    }

    /// Who measures zero works under the locks as well.
    pub fn electrical_not_authorised(&mut self, at: &Place, role: &str) {
        let message = format!("the role `{role}` measures zero and may not lock out");
        let way_out = format!(
            "add `{role}` to `authorised`: zero is proved by authorised people \
             (29 CFR 1910.147(d)(6))"
        );
        self.error("electrical-not-authorised", at, message, way_out);
    }
}

/// Rules of groups, shift changes and contractors.
impl Findings {
    /// Nobody holds primary responsibility for a crew.
    pub fn primary_missing(&mut self, at: &Place) {
        let message = "nobody holds primary responsibility for this crew".to_owned();
        let way_out = "add `primary: <person>` with an authorised person \
                       (29 CFR 1910.147(f)(3)(ii)(A))";
        self.error("primary-missing", at, message, way_out.to_owned());
    }

    /// Several crafts or firms, and nobody coordinates them.
    pub fn coordinator_missing(&mut self, at: &Place) {
        let message = "several crafts or firms work here, and nobody coordinates them".to_owned();
        let way_out = "add `coordinator: <person>` with one authorised person for the whole job \
                       (29 CFR 1910.147(f)(3)(ii)(C))";
        self.error("coordinator-missing", at, message, way_out.to_owned());
    }

    /// Somebody works under the locks and may not lock on that day.
    pub fn person_not_authorised(&mut self, at: &Place, name: &str, roles: &[String], day: &str) {
        let message = format!("{name} has no role that may lock out on {day}");
        let way_out = format!(
            "name a person who is `{}` on that day (29 CFR 1910.147(f)(3)(ii), (d)(4)(i))",
            roles.join("` or `")
        );
        self.error("person-not-authorised", at, message, way_out);
    }

    /// A group of one person.
    pub fn group_of_one(&mut self, at: &Place) {
        let message = "a crew of one person is no group".to_owned();
        let way_out = "name everybody who works inside, or leave `crew` out: one person locks each \
                       device with a lock of this person (29 CFR 1910.147(f)(3))";
        self.error("group-of-one", at, message, way_out.to_owned());
    }

    /// A firm that nobody spoke to.
    pub fn contractor_not_told(&mut self, at: &Place, firm: &str, key: &str) {
        let message = format!("`{firm}` works here, and `{key}` is not said");
        let way_out = format!(
            "add `{key}`: host and contractor inform each other of their lockout rules \
             (29 CFR 1910.147(f)(2), from memory)"
        );
        self.error("contractor-not-told", at, message, way_out);
    }

    /// A change of people at a place where the machine is not locked, or at none.
    pub fn shift_change_misplaced(&mut self, at: &Place, before: &str, why: &str) {
        let message = format!("the crew cannot change before `{before}`: it {why}");
        let way_out = "name a procedure of the work inside the guards (29 CFR 1910.147(f)(4))";
        self.error("shift-change-misplaced", at, message, way_out.to_owned());
    }

    /// A handover with a moment without protection.
    pub fn shift_change_gap(&mut self, at: &Place, why: &str) {
        let message = format!("the procedure `shift-change` leaves a gap: {why}");
        let way_out = "in this order: a step with `repeat: arriving`, one with `repeat: leaving`, one \
                       with `stage: verify` (29 CFR 1910.147(f)(4) and (d)(6))";
        self.error("shift-change-gap", at, message, way_out.to_owned());
    }

    /// A crew, and procedures without their personal locks.
    pub fn no_personal_locks(&mut self, at: &Place, machine: &str) {
        let message = format!(
            "a crew is named, and the changeover of `{machine}` has no steps in which each puts a \
             personal lock on and takes it off"
        );
        let way_out = "add steps with `when: { job: crew }` and `repeat: crew`: one between locking and \
                       the first work inside, one between clearing the people and unlocking \
                       (29 CFR 1910.147(f)(3)(ii)(D))";
        self.error("no-personal-locks", at, message, way_out.to_owned());
    }

    /// Locks of sources come off for a test while the crew's personal locks stay on the box.
    pub fn crew_in_test_block(&mut self, at: &Place, machine: &str) {
        let message = format!(
            "a crew works under one lockout, and the changeover of `{machine}` has a test block: \
             power would come while personal locks are on the box"
        );
        let way_out = "split the job in two, or leave the block out of `changeover`: everybody takes \
                       the own lock off before power comes (29 CFR 1910.147(f)(1)(ii), (f)(3))";
        self.error("crew-in-test-block", at, message, way_out.to_owned());
    }

    /// Contractors, and no step in which rules are exchanged with them.
    pub fn contractors_not_met(&mut self, at: &Place, machine: &str) {
        let message = format!(
            "contractors are named, and the changeover of `{machine}` has no step in which lockout \
             rules are exchanged with them"
        );
        let way_out = "add a step with `when: { job: contractors }` before the locks go on \
                       (29 CFR 1910.147(f)(2), from memory)";
        self.error("contractors-not-met", at, message, way_out.to_owned());
    }

    /// A shift ends while the machine is locked.
    pub fn shift_ends_under_locks(&mut self, at: &Place, shift: &str, ends: &str) {
        let message =
            format!("the shift `{shift}` ends at {ends}, while the machine is locked out");
        let way_out = "add `shift_change` to `lockout` of the job, or start earlier \
                       (29 CFR 1910.147(f)(4))";
        self.warning("shift-ends-under-locks", at, message, way_out.to_owned());
    }

    /// A time of day that nobody can read.
    pub fn bad_clock(&mut self, at: &Place, text: &str) {
        let message = format!("`{text}` is not a time of day");
        self.error("bad-clock", at, message, "write it like \"06:00\" or \"14:30\"".to_owned());
    }
}
