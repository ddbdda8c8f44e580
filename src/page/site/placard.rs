//! The placard of a machine: one sheet that hangs at it, with what is isolated where and in which
//! order.
//!
//! Its revision is the digest of the machine's file, never a date of printing: the same file gives the
//! same sheet. Must never say that the machine is safe.

use serde::Serialize;

use super::{Fact, Frame, Link, Page};
use crate::language::Language;
use crate::packet::model::{EnergySource, Inspection, Stage};
use crate::page::paths;

/// The placard of a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PlacardView {
    /// Frame.
    pub frame: Frame,
    /// The machine's page.
    pub machine: Link,
    /// Identifier.
    pub id: String,
    /// Kind.
    pub kind: String,
    /// Place.
    pub location: String,
    /// Sources, in the order of isolation.
    pub sources: Vec<EnergySource>,
    /// Guarded zones.
    pub zones: Vec<PlacardZone>,
    /// Isolating devices: so many locks for each person.
    pub locks: usize,
    /// What else the lockout procedure states: stop position, intended use, who enforces it.
    pub facts: Vec<Fact>,
    /// The last inspection; who walked the machine.
    pub inspection: Option<Inspection>,
    /// First digits of the SHA-256 of the machine's file.
    pub revision: String,
}

/// A guarded zone as it stands on a placard.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PlacardZone {
    /// Name.
    pub name: String,
    /// Guard that closes it.
    pub guard: String,
    /// Numbers of the sources that reach in, as they stand in the list of sources.
    pub sources: Vec<usize>,
}

impl PlacardView {
    /// How many locks one person needs.
    pub fn locks(sources: &[EnergySource]) -> usize {
        super::tags::devices(sources).len()
    }
}

/// A stage of the lockout, in words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
struct StageLine {
    stage: Stage,
    /// The key of the words; in words once the language is known.
    what: &'static str,
    paragraph: &'static str,
}

const fn line(stage: Stage, what: &'static str, paragraph: &'static str) -> StageLine {
    StageLine { stage, what, paragraph }
}

impl StageLine {
    fn worded(self, language: Language) -> StageLine {
        StageLine { what: language.word(self.what), ..self }
    }
}

/// Taking energy away.
///
/// Source: 29 CFR 1910.147(c)(9), from memory; (d)(1)-(6); Appendix A for the try-out.
const BEFORE: [StageLine; 8] = [
    line(Stage::Notify, "placard-notify", "(c)(9)"),
    line(Stage::Prepare, "placard-prepare", "(d)(1)"),
    line(Stage::Shutdown, "placard-shutdown", "(d)(2)"),
    line(Stage::Isolate, "placard-isolate-each", "(d)(3)"),
    line(Stage::Lock, "placard-lock", "(d)(4)"),
    line(Stage::Relieve, "placard-relieve", "(d)(5)"),
    line(Stage::TryOut, "placard-try-out", "(d)(6), App. A"),
    line(Stage::Verify, "placard-verify", "(d)(6)"),
];

/// Giving energy back.
///
/// Source: 29 CFR 1910.147(e)(1)-(3), in the order in which it happens.
const AFTER: [StageLine; 5] = [
    line(Stage::Inspect, "placard-inspect", "(e)(1)"),
    line(Stage::ClearPeople, "placard-clear-people", "(e)(2)(i)"),
    line(Stage::Unlock, "placard-unlock", "(e)(3)"),
    line(Stage::NotifyAfter, "placard-notify-after", "(e)(2)(ii)"),
    line(Stage::Restart, "placard-restart", "(e)"),
];

/// The stages of a placard.
#[derive(Serialize)]
struct Stages {
    before: Vec<StageLine>,
    after: Vec<StageLine>,
}

/// The placard of a machine, for [`paths::placard`].
pub fn placard_html(view: &PlacardView) -> String {
    let language = view.frame.language;
    let title = language.text("placard-title", &[("machine", (&view.machine.text).into())]);
    let worded = |lines: &[StageLine]| lines.iter().map(|line| line.worded(language)).collect();
    Page::new(&view.frame, view, &title, paths::MACHINES)
        .under("frame-machines")
        .with(Stages { before: worded(&BEFORE), after: worded(&AFTER) })
        .html("placard.html")
}

#[cfg(test)]
mod tests {
    use super::{AFTER, BEFORE};
    use crate::packet::model::Stage;

    #[test]
    fn the_stages_stand_in_their_order_and_only_work_is_missing() {
        let stages = |lines: &[super::StageLine]| -> Vec<Stage> {
            lines.iter().map(|line| line.stage).collect()
        };
        let (before, after) = (stages(&BEFORE), stages(&AFTER));
        assert!(before.is_sorted() && after.is_sorted());
        assert!(before.last() < Some(&Stage::Work) && after.first() > Some(&Stage::Work));
        let mut all = [before, after].concat();
        all.dedup();
        assert_eq!(all.len(), 13);
    }
}
