//! Rules of the order of jobs: when each is due.

use crate::finding::{Findings, Place};

impl Findings {
    /// A due time that nobody can read.
    pub fn bad_due(&mut self, at: &Place, text: &str) {
        self.error("bad-due", at, &[("text", text.into())]);
    }

    /// A job that is due before anybody begins with it.
    pub fn due_before_start(&mut self, at: &Place, due: &str, starts: &str) {
        self.warning("due-before-start", at, &[("due", due.into()), ("starts", starts.into())]);
    }
}
