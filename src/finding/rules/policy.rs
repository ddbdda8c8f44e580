//! Rules of the plant's own policy: warnings made errors, justified exceptions.

use super::{did_you_mean, one_of};
use crate::finding::{Findings, Place};
use crate::language::Words;

/// Every rule that warns; a plant may treat each as an error.
pub const WARNINGS: [&str; 45] = [
    "allow-unused",
    "allow-without-reason",
    "avoidance-is-a-step",
    "coarse-instrument",
    "condition-last",
    "figure-by-hand",
    "gloves-forbidden",
    "hard-to-read",
    "harm-too-low",
    "hazard-softened",
    "hazard-without-zone",
    "heading-without-command",
    "inching-too-far",
    "indirect-command",
    "inspection-missing",
    "inspection-over",
    "instruction-in-note",
    "justification-unused",
    "key-valid-too-long",
    "no-signers",
    "no-warning-sign",
    "not-hold-to-run",
    "not-what-was-left",
    "noun-cluster",
    "order-unmarked",
    "procedure-not-translated",
    "revoked-unlisted",
    "register-entry",
    "register-nobody-can-sign",
    "run-not-last",
    "run-without-first-piece",
    "same-name",
    "sentence-too-long",
    "shift-ends-under-locks",
    "source-sign-missing",
    "stop-position-missing",
    "stray-file",
    "text-not-translated",
    "too-few-at-once",
    "translation-is-old",
    "two-instructions",
    "uncertain-instrument",
    "unknown-abbreviation",
    "vague-words",
    "warning-in-note",
];

/// Errors a plant may answer for, and why each can be a matter of judgement.
///
/// The packet can still be made, and nobody reaches in with live energy because of it. Nothing else is
/// here: a text that cannot be read, an unknown name or a wrong number has one right answer, and that a
/// person is inside while a source is live, or power comes before people are clear, is never justified.
pub const JUSTIFIABLE: [(&str, &str); 7] = [
    ("stage-missing", "the maker's procedure may do without a stage, or do it elsewhere"),
    ("source-not-held", "the maker may ask for another order; reaching in is judged by itself"),
    ("second-person-missing", "a crew of one may be checked in another way"),
    ("locks-left", "the next crew may go on under the same locks"),
    ("zero-not-measured", "a zero other than a voltage may be seen where nothing shows a number"),
    ("source-in-no-zone", "a source may be listed that reaches nobody"),
    ("block-after-valve", "a part may have to be lowered before it is held"),
];

impl Findings {
    /// A rule that does not warn cannot be raised.
    pub fn cannot_be_raised(&mut self, at: &Place, rule: &str) {
        self.error(
            "cannot-be-raised",
            at,
            &[("rule", rule.into()), ("nearest", did_you_mean(rule, &WARNINGS).into())],
        );
    }

    /// An error that nobody can answer for.
    pub fn cannot_be_justified(&mut self, at: &Place, rule: &str) {
        let nearest = did_you_mean(rule, &JUSTIFIABLE.map(|(rule, _)| rule));
        self.error(
            "cannot-be-justified",
            at,
            &[("rule", rule.into()), ("nearest", nearest.into())],
        );
    }

    /// A justification for a step that is not there.
    pub fn unknown_step<S: AsRef<str>>(&mut self, at: &Place, step: &str, known: &[S]) {
        let nearest = match known {
            [] => Words::of("nearest-no-step"),
            known => did_you_mean(step, known),
        };
        self.error("unknown-step", at, &[("step", step.into()), ("nearest", nearest.into())]);
    }

    /// Somebody answers who has no role for it.
    pub fn may_not_justify(&mut self, at: &Place, name: &str, roles: &[String], day: &str) {
        let roles = one_of(roles);
        self.error(
            "may-not-justify",
            at,
            &[("name", name.into()), ("roles", roles.into()), ("day", day.into())],
        );
    }

    /// A job on a day before anybody answered.
    pub fn justification_later(&mut self, at: &Place, rule: &str, job: &str, day: &str) {
        self.error(
            "justification-later",
            at,
            &[("job", job.into()), ("day", day.into()), ("rule", rule.into())],
        );
    }

    /// A job on a day when nobody answers any more.
    pub fn justification_over(&mut self, at: &Place, rule: &str, job: &str, day: &str) {
        self.error(
            "justification-over",
            at,
            &[("job", job.into()), ("day", day.into()), ("rule", rule.into())],
        );
    }

    /// A justification for something that is not wrong.
    pub fn justification_unused(&mut self, at: &Place, rule: &str) {
        self.warning("justification-unused", at, &[("rule", rule.into())]);
    }
}
