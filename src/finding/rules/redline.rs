//! Rules of revisions: what a changed text must not leave as it was. Raised where two states of a plant
//! are compared, never by the check of one.

use crate::finding::{Findings, Place};

impl Findings {
    /// A text that says something else under the revision it had.
    pub fn revision_unchanged(&mut self, at: &Place, text: &str, revision: &str) {
        let parts = [("text", text.into()), ("revision", revision.into())];
        self.error("revision-unchanged", at, &parts);
    }

    /// A revision before the one it follows.
    pub fn revision_goes_back(&mut self, at: &Place, text: &str, before: &str, now: &str) {
        let parts = [("text", text.into()), ("before", before.into()), ("now", now.into())];
        self.error("revision-goes-back", at, &parts);
    }

    /// A date before that of the revision it follows.
    pub fn revision_date_goes_back(&mut self, at: &Place, text: &str, before: &str, now: &str) {
        let parts = [("text", text.into()), ("before", before.into()), ("now", now.into())];
        self.error("revision-date-goes-back", at, &parts);
    }

    /// A new revision with the reason of the one before.
    pub fn reason_unchanged(&mut self, at: &Place, text: &str, before: &str) {
        let parts = [("text", text.into()), ("before", before.into())];
        self.error("reason-unchanged", at, &parts);
    }
}
