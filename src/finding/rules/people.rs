//! Rules of who is there for a job.

use crate::finding::{Findings, Place};

impl Findings {
    /// Somebody who may do nothing on that day.
    pub fn person_without_role(&mut self, at: &Place, name: &str, day: &str) {
        self.error("person-without-role", at, &[("name", name.into()), ("day", day.into())]);
    }

    /// Somebody under the locks whom the plan does not count on.
    pub fn crew_not_there(&mut self, at: &Place, id: &str) {
        self.error("crew-not-there", at, &[("id", id.into())]);
    }
}
