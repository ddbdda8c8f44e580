//! Rules of what is done beside what: the line running or not, people, zones, what waits for what.

use crate::finding::{Findings, Place};
use crate::language::Words;

impl Findings {
    /// A step that nobody may do while the line runs.
    pub fn line_cannot_run(&mut self, at: &Place, step: &str, why: &Words) {
        self.error("line-cannot-run", at, &[("step", step.into()), ("why", why.into())]);
    }

    /// A number of people, or of steps in a zone, that no crew has.
    pub fn not_one_to_six(&mut self, at: &Place, key: &str, count: u32) {
        self.error("not-one-to-six", at, &[("key", key.into()), ("count", count.into())]);
    }

    /// A procedure that waits for one that comes later.
    pub fn after_later(&mut self, at: &Place, id: &str, other: &str, machine: &str) {
        let parts = [("id", id.into()), ("other", other.into()), ("machine", machine.into())];
        self.error("after-later", at, &parts);
    }

    /// Procedures none of which could ever begin.
    pub fn after_circle(&mut self, at: &Place, circle: &[&str]) {
        self.error("after-circle", at, &[("circle", circle.join(", ").into())]);
    }
}
