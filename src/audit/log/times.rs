//! What the stated times of entries tell against the checkpoints around them.
//!
//! What a checkpoint holds was signed before it, and what came later after it. A clock that is wrong, a
//! copy whose entries were taken in later, and an entry that was dated back all stray from that: each
//! finding says where a person should ask. Against what was kept elsewhere it is a warning, against the
//! plant's own newest checkpoint a note. Must never read a clock.

use chrono::{DateTime, Duration, FixedOffset};

use super::leaf_parts;
use crate::audit::checks::finding;
use crate::audit::{AuditFinding, Severity};
use crate::language::{Part, Words};
use crate::log::checkpoint::Kept;
use crate::log::line::Line;
use crate::record::time;

/// By how much the clocks of two stations may differ before somebody should ask.
const TOLERANCE: Duration = Duration::minutes(2);

/// A checkpoint that says when it was signed, and the entries that stray from it.
pub(super) struct Anchor {
    pub(super) kept: Kept,
    at: DateTime<FixedOffset>,
    weight: Severity,
    /// Entries that it holds and that say a later time.
    later: Strayed,
    /// Entries that came after it and say an earlier time.
    earlier: Strayed,
}

/// Entries that stray in one direction.
#[derive(Default)]
struct Strayed {
    count: usize,
    first: Option<(u64, Line)>,
    most: Duration,
}

impl Anchor {
    pub(super) fn new(kept: Kept, weight: Severity) -> Option<Anchor> {
        let at = kept.at?;
        let (later, earlier) = (Strayed::default(), Strayed::default());
        Some(Anchor { kept, at, weight, later, earlier })
    }

    /// Takes the next leaf with the time that its entry states.
    pub(super) fn take(&mut self, leaf: u64, line: &Line, at: DateTime<FixedOffset>) {
        match leaf <= self.kept.leaves {
            true => self.later.take(leaf, line, at - self.at),
            false => self.earlier.take(leaf, line, self.at - at),
        }
    }

    pub(super) fn findings(&self) -> impl Iterator<Item = AuditFinding> {
        let strayed = [("log-time-later", &self.later), ("log-time-earlier", &self.earlier)];
        strayed.into_iter().filter_map(|(key, strayed)| self.finding(key, strayed))
    }

    fn finding(&self, key: &'static str, strayed: &Strayed) -> Option<AuditFinding> {
        let (leaf, line) = strayed.first.as_ref()?;
        let own: [(&'static str, Part); 4] = [
            ("count", strayed.count.into()),
            ("leaves", self.kept.leaves.to_string().into()),
            ("at", time::write(self.at).into()),
            ("seconds", strayed.most.num_seconds().to_string().into()),
        ];
        let parts = [&own[..], &leaf_parts(*leaf, line)].concat();
        Some(finding(self.weight, Words::new(key, &parts)))
    }
}

impl Strayed {
    fn take(&mut self, leaf: u64, line: &Line, by: Duration) {
        if by > TOLERANCE {
            self.count += 1;
            self.first.get_or_insert_with(|| (leaf, line.clone()));
            self.most = self.most.max(by);
        }
    }
}
