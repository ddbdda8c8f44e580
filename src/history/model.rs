//! The history as data: what a page, a table or a program is told of past changeovers.
//!
//! Everything in here is counted and judged already; numbers are exact where they can be, and else as
//! exact as [`Number`] is. In JSON each of them is text. Nothing in here computes:
//! [`super::gather`] makes it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::capability::Capability;
use super::chart::{Lines, NoLines};
use super::rules::Rule;
use crate::quantity::Number;
use crate::record::entry::Verdict;
use crate::record::state::State;

/// What the records of a plant, or a part of them, say of its changeovers.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct History {
    /// Each machine, in the order of identifiers.
    pub machines: Vec<Machine>,
    /// Each blank that was read, by machine, then in the order of identifiers.
    pub series: Vec<Series>,
    /// Of each machine the latest changeovers, [`super::gather::MOST_CHANGEOVERS`] at most, in the order in
    /// which they began.
    pub changeovers: Vec<Changeover>,
    /// What a person may want to change in a recipe.
    pub proposals: Vec<Proposal>,
    /// What does not count, and why.
    pub left_out: Vec<LeftOut>,
}

/// So many of so many.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Share {
    /// How many are good.
    pub good: u64,
    /// Of how many.
    pub all: u64,
}

/// Minutes of several changeovers: of those whose records say them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Spent {
    /// How many changeovers.
    pub changeovers: u64,
    /// Minutes of all of them.
    pub minutes: u64,
    /// Planned minutes of all of them.
    pub planned: u64,
}

/// A machine, all its changeovers together.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Machine {
    /// Identifier.
    pub id: String,
    /// Name for people, as its newest record has it.
    pub name: String,
    /// How many changeovers there are.
    pub changeovers: u64,
    /// The time they took.
    pub time: Spent,
    /// The time of their stops.
    pub stop: Spent,
    /// How many readings were signed, corrected ones too.
    pub readings: u64,
    /// Blanks whose first reading was within its limits, of all that were read.
    pub first_pass: Share,
    /// How many readings correct an earlier one.
    pub corrections: u64,
    /// How many deviations were raised or accepted.
    pub deviations: u64,
}

/// What the values of a series are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Of {
    /// Reading less target: recipes with other targets share one chart.
    Deviation,
    /// The reading itself: the blank has no target.
    Reading,
}

/// The readings of one blank on one machine, one after the other in time; of each changeover the last
/// one, which is the one that counts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Series {
    /// Identifier of the machine.
    pub machine: String,
    /// Identifier of the blank, `<step>/<what>`.
    pub blank: String,
    /// Identifier of the step.
    pub step: String,
    /// Identifier of its procedure.
    pub procedure: String,
    /// What is measured, for people, as the newest record has it.
    pub label: String,
    /// Unit symbol; empty for a count.
    pub unit: String,
    /// What the values are.
    pub of: Of,
    /// Name of the instrument, as the newest record has it.
    pub instrument: Option<String>,
    /// How many values count.
    pub count: u64,
    /// Changeovers whose first reading of the blank was within its limits.
    pub first_pass: Share,
    /// How many readings correct an earlier one.
    pub corrections: u64,
    /// Mean of all values.
    pub mean: Option<Number>,
    /// Standard deviation of all values (n − 1), to 15 digits; none for fewer than two.
    pub deviation: Option<Number>,
    /// Lag-1 autocorrelation of all values: near zero when one changeover does not follow from the one
    /// before. None when all are equal.
    pub autocorrelation: Option<Number>,
    /// Centre line and limits.
    pub lines: Option<Lines>,
    /// Why there are none.
    pub no_lines: Option<NoLines>,
    /// How often each rule fired, on all values.
    pub signals: BTreeMap<Rule, u64>,
    /// How often a moving range lay above its limit.
    pub range_signals: u64,
    /// Whether the limits asked for are kept with room to spare.
    pub capability: Capability,
    /// The latest points, [`super::track::MOST_POINTS`] at most.
    pub points: Vec<Point>,
}

/// One value of a series.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Point {
    /// Its number in the series, from 1.
    pub number: u64,
    /// Name of the record.
    pub record: String,
    /// Number of the entry in it.
    pub entry: u64,
    /// When it was read, as signed: RFC 3339 with offset.
    pub at: String,
    /// Identifier of the recipe that was set up.
    pub recipe: String,
    /// The reading, as signed.
    pub reading: String,
    /// The first reading of the blank in this changeover, where another came after it.
    pub first: Option<String>,
    /// The target, as in the packet.
    pub target: Option<String>,
    /// The value: see [`Series::of`].
    pub value: Number,
    /// Distance from the value before; none for the first.
    pub range: Option<Number>,
    /// The judgement, as signed.
    pub verdict: Word,
    /// Rules that fire here.
    pub fired: Vec<Rule>,
    /// Whether the moving range lies above its limit.
    pub range_fired: bool,
}

/// A verdict as programs read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word(pub Verdict);

impl Serialize for Word {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.0.word())
    }
}

/// One changeover.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Changeover {
    /// Name of its record.
    pub record: String,
    /// Identifier of the job.
    pub job: String,
    /// Identifier of the machine.
    pub machine: String,
    /// Identifier of the recipe that was on the machine.
    pub from: String,
    /// Identifier of the recipe that was set up.
    pub to: String,
    /// How far it has come.
    pub state: Option<State>,
    /// When the first step was signed as done, RFC 3339 with offset.
    pub began: Option<String>,
    /// When the machine was handed over.
    pub released: Option<String>,
    /// Minutes between the two, begun ones counted as whole ones.
    pub minutes: Option<u32>,
    /// Planned minutes of all steps that were done, one after the other.
    pub planned: u32,
    /// Minutes of the stop: from the first signature on a step that shuts down (where there is none, on
    /// a step that needs the line stopped) to the first on the step with which the line runs.
    pub stop: Option<u32>,
    /// Planned minutes of the steps in it that need the line stopped.
    pub planned_stop: u32,
    /// Blanks whose first reading was within its limits, of all that were read.
    pub first_pass: Share,
    /// Deviations raised or accepted, by step.
    pub deviations: BTreeMap<String, u32>,
    /// Readings that correct an earlier one, by step.
    pub corrections: BTreeMap<String, u32>,
}

/// A setting that always ends beside its target, and what would bring the two together.
///
/// Only a person changes a recipe, by a new revision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Proposal {
    /// Identifier of the machine.
    pub machine: String,
    /// Identifier of the recipe.
    pub recipe: String,
    /// Its revision in the newest record.
    pub revision: String,
    /// Identifier of the setting.
    pub setting: String,
    /// Its name for people.
    pub name: String,
    /// Unit symbol; empty for a count.
    pub unit: String,
    /// What the packets say to set.
    pub target: String,
    /// Where it ends: the target and the offset.
    pub ends_at: String,
    /// What would be added, with its sign, in whole steps of the instrument: `+0.4`.
    pub offset: String,
    /// How many changeovers in a row ended on this side of this target.
    pub count: u64,
    /// Mean deviation of their last readings from the target.
    pub mean: Number,
    /// Lower end of the 95 % interval of that mean.
    pub least: Number,
    /// Upper end of it.
    pub most: Number,
    /// The smallest step the instrument shows.
    pub resolution: Number,
    /// The formula of the setting as it stands in the recipe.
    pub formula: String,
    /// The lines a person would write in a new revision of the recipe (YAML).
    pub edit: String,
    /// The latest readings it rests on.
    pub evidence: Vec<Evidence>,
}

/// A reading that a proposal rests on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Evidence {
    /// Name of the record.
    pub record: String,
    /// Number of the entry.
    pub entry: u64,
    /// When, as signed.
    pub at: String,
    /// The reading, as signed.
    pub reading: String,
}

/// A record, or entries of it, that do not count. A record may stand here twice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// Name of the record.
    pub record: String,
    /// How many of its entries; none for the record as a whole.
    pub entries: Option<u64>,
    /// Short names of what the audit found, or `superseded`, or `too-many-digits` for readings that no
    /// instrument shows.
    pub why: Vec<&'static str>,
}
