//! The history: what the records say of past changeovers, for a plant, a machine and its readings.
//!
//! Three kinds of pages: all machines; a machine with its changeovers; and the charts of its readings,
//! which stand on the machine's page while they are few, and else on pages of their own by procedure.
//! Numbers are those of the engine, rounded for print. Must never judge: which rules fired and which
//! questions are asked comes from [`crate::history`].

use serde::Serialize;

use super::{Fact, Frame, Link, Page};
use crate::page::paths;

/// All machines.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct HistoryView {
    /// Frame.
    pub frame: Frame,
    /// Counts over all machines.
    pub facts: Vec<Fact>,
    /// Machines that have a record.
    pub machines: Vec<HistoryLine>,
    /// Series on which a rule fired, the most first.
    pub fired: Vec<SeriesLine>,
    /// How many more there are.
    pub more_fired: usize,
    /// Settings that a person may want to change in a recipe.
    pub proposals: Vec<ProposalView>,
    /// How many more there are.
    pub more_proposals: usize,
    /// What the counts ask.
    pub questions: Questions,
    /// Records that do not count, with the reason.
    pub left_out: Vec<Fact>,
    /// How many more there are.
    pub more_left_out: usize,
}

/// A machine in the list; each number is worded already.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct HistoryLine {
    /// Name and page.
    pub link: Link,
    /// Changeovers.
    pub changeovers: String,
    /// Minutes of the middle one of those that were released, and the least and the most.
    pub minutes: String,
    /// Minutes and planned minutes on average.
    pub average: String,
    /// Blanks that were within their limits at the first reading, of all.
    pub first_pass: String,
    /// Series on which a rule fired.
    pub fired: usize,
    /// Proposals.
    pub proposals: usize,
    /// Questions.
    pub questions: usize,
}

/// The history of a machine, or some of its charts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct MachineHistoryView {
    /// Frame.
    pub frame: Frame,
    /// Title of the page.
    pub title: String,
    /// The machine.
    pub machine: Link,
    /// The machine's own page of history, on pages of charts; else empty.
    pub whole: Link,
    /// Counts.
    pub facts: Vec<Fact>,
    /// Changeovers, the latest first.
    pub changeovers: Vec<ChangeoverLine>,
    /// How many earlier ones there are.
    pub more_changeovers: usize,
    /// Proposals.
    pub proposals: Vec<ProposalView>,
    /// Every series, those on which a rule fired first.
    pub series: Vec<SeriesLine>,
    /// How many more series there are.
    pub more_series: usize,
    /// The charts on this page.
    pub charts: Vec<SeriesView>,
    /// The rules that charts use: short name, and what it is.
    pub rules: Vec<Fact>,
    /// What the counts ask.
    pub questions: Questions,
}

/// A changeover in a list; each number is worded already.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ChangeoverLine {
    /// The day on which it began.
    pub day: String,
    /// Its record.
    pub record: Link,
    /// Recipe before.
    pub from: String,
    /// Recipe after.
    pub to: String,
    /// Minutes, and planned minutes.
    pub minutes: [String; 2],
    /// Minutes of the stop, and planned minutes of it.
    pub stop: [String; 2],
    /// Blanks that were within their limits at the first reading, of all.
    pub first_pass: String,
    /// Readings that were corrected.
    pub corrections: String,
    /// Steps with a deviation, each with how many.
    pub deviations: Vec<String>,
}

/// A series in a list.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SeriesLine {
    /// What is measured, with the chart.
    pub link: Link,
    /// Machine, where the list is of several machines; else empty.
    pub machine: String,
    /// The procedure.
    pub procedure: String,
    /// How many values.
    pub count: String,
    /// Blanks that were within their limits at the first reading, of all.
    pub first_pass: String,
    /// Least distance of the mean from a limit in three sigma, within; may be empty.
    pub cpk: String,
    /// Rules that fired, each with how often.
    pub fired: Vec<String>,
}

/// A series with its chart.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SeriesView {
    /// Identifier on the page.
    pub anchor: String,
    /// What is measured.
    pub label: String,
    /// The step, with its procedure's page.
    pub step: Link,
    /// What the values are: the reading, or how far it is from the target.
    pub of: String,
    /// The drawing as SVG; empty when it cannot be drawn.
    pub svg: String,
    /// Rules that fired, each with how often; a sentence when none did.
    pub fired: Vec<String>,
    /// Mean, standard deviation and the like.
    pub facts: Vec<Fact>,
    /// A row for each sigma: its name, then sigma, Cp, Cpu, Cpl, Cpk, k, Cpm.
    pub capability: Vec<[String; 8]>,
    /// What the figures are of, or why there are none.
    pub capability_note: String,
    /// The latest points, as drawn.
    pub points: Vec<PointLine>,
    /// How many came before them.
    pub earlier: usize,
}

/// A point of a series as a row.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PointLine {
    /// Its number.
    pub number: u64,
    /// The day.
    pub day: String,
    /// Its record, at the entry.
    pub record: Link,
    /// The recipe.
    pub recipe: String,
    /// The reading, and what was read first where that was corrected.
    pub reading: String,
    /// The target; may be empty.
    pub target: String,
    /// The value that is drawn.
    pub value: String,
    /// Distance from the value before; empty for the first.
    pub range: String,
    /// Rules that fired, in short.
    pub fired: String,
}

/// A setting that always ends beside its target.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ProposalView {
    /// In one sentence.
    pub words: String,
    /// What it rests on, a sentence each.
    pub because: Vec<String>,
    /// The lines a person would write.
    pub edit: String,
    /// The readings: each with its record at the entry.
    pub evidence: Vec<Link>,
}

/// What the counts ask.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Questions {
    /// The questions.
    pub list: Vec<QuestionView>,
    /// How many more there are.
    pub more: usize,
}

/// A question to the writer and the auditor.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct QuestionView {
    /// Step, procedure and revision, with the procedure's page.
    pub place: Link,
    /// What was counted, and the question.
    pub words: String,
    /// What it may mean.
    pub means: String,
}

/// The history of all machines, for [`paths::HISTORY`].
pub fn history_html(view: &HistoryView) -> String {
    let title = view.frame.language.word("charts-history");
    Page::new(&view.frame, view, title, paths::RECORDS).under("frame-records").html("history.html")
}

/// The history of a machine, for [`paths::history`], or some of its charts, for
/// [`paths::history_charts`].
pub fn machine_history_html(view: &MachineHistoryView) -> String {
    Page::new(&view.frame, view, &view.title, paths::HISTORY)
        .under("charts-history")
        .html("history-machine.html")
}
