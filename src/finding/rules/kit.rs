//! Rules of the kit: what the plant says of its tools, and whether there are enough of them for a shift.

use crate::finding::{Findings, Place};
use crate::language::Words;

impl Findings {
    /// A tool of the stock that stands there already.
    pub fn tool_twice(&mut self, at: &Place, item: &str) {
        self.error("tool-twice", at, &[("item", item.into())]);
    }

    /// Jobs of one shift need more of a thing at the same time than there are; `when` says how sure
    /// that is.
    pub fn too_few_at_once(
        &mut self,
        at: &Place,
        (item, count): (&str, u32),
        needed: (u32, &str),
        when: Words,
    ) {
        let (wanted, jobs) = needed;
        let parts = [
            ("item", item.into()),
            ("count", count.to_string().into()),
            ("wanted", wanted.to_string().into()),
            ("jobs", jobs.into()),
            ("when", when.into()),
        ];
        self.warning("too-few-at-once", at, &parts);
    }
}
