//! Short forms of what a step says: hazards by name, blanks with their limits, numbers of steps.

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{Reading, Step};
use crate::page::packet::{BlankView, HazardView, StepView};
use crate::page::words;

/// The hazards of one signal word, by name; those in another language have it in theirs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Signalled {
    /// Name of its look in the style sheet.
    pub(super) class: String,
    /// Signal word.
    pub(super) word: String,
    /// BCP 47 tag of word and names; empty when they are in the packet's language.
    pub(super) lang: String,
    /// Whether the alert symbol stands beside the word.
    pub(super) alert: bool,
    /// The hazards.
    pub(super) names: Vec<String>,
}

/// Every hazard of some steps once, one line a signal word, the gravest first.
pub(super) fn hazards<'a>(steps: impl IntoIterator<Item = &'a StepView>) -> Vec<Signalled> {
    const GRAVEST_FIRST: [&str; 4] = ["danger", "warning", "caution", "notice"];
    let mut lines: Vec<Signalled> = Vec::new();
    for hazard in steps.into_iter().flat_map(|step| &step.hazards) {
        let is_same =
            |line: &&mut Signalled| (&line.class, &line.lang) == (&hazard.class, &hazard.lang);
        match lines.iter_mut().find(is_same) {
            Some(line) => line.add(hazard),
            None => lines.push(Signalled::of(hazard)),
        }
    }
    lines.sort_by_key(|line| GRAVEST_FIRST.iter().position(|class| *class == line.class));
    lines
}

impl Signalled {
    fn of(hazard: &HazardView) -> Signalled {
        Signalled {
            class: hazard.class.clone(),
            word: hazard.word.clone(),
            lang: hazard.lang.clone(),
            alert: hazard.alert,
            names: vec![name(hazard)],
        }
    }

    fn add(&mut self, hazard: &HazardView) {
        let name = name(hazard);
        if !self.names.contains(&name) {
            self.names.push(name);
        }
    }
}

fn name(hazard: &HazardView) -> String {
    hazard.hazard.trim_end_matches('.').to_owned()
}

/// Blanks that differ in the number at the end of their name only: `Strip width, lane` 1, 2, 3.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub(super) struct BlankSet {
    /// What they have in common; empty for a blank that stands alone.
    pub(super) head: String,
    /// Unit of all; may be empty.
    pub(super) unit: String,
    /// Limits of all; empty when they differ.
    pub(super) limits: String,
    /// The blanks.
    pub(super) blanks: Vec<ShortBlank>,
}

/// A blank with its limits in short form.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct ShortBlank {
    /// What is measured, or the number at the end of it.
    pub(super) label: String,
    /// Limits without the unit; empty where the set says them or there are none.
    pub(super) limits: String,
    /// Where a reading is sure; may be empty.
    pub(super) guard: String,
}

/// The blanks of a step, like ones together.
pub(super) fn blank_sets(language: Language, step: &Step, view: &StepView) -> Vec<BlankSet> {
    let alike = |one: &Reading, two: &Reading| {
        let (head, _) = split(&one.label);
        one.unit == two.unit && !head.is_empty() && head == split(&two.label).0
    };
    step.readings.chunk_by(alike).map(|set| blank_set(language, step, view, set)).collect()
}

fn blank_set(language: Language, step: &Step, view: &StepView, set: &[Reading]) -> BlankSet {
    let limits = |reading: &Reading| limits(language, reading);
    let [first, others @ ..] = set else { return BlankSet::default() };
    let shared = !others.is_empty() && others.iter().all(|one| limits(one) == limits(first));
    let blank = |reading: &Reading| ShortBlank {
        label: if others.is_empty() { &reading.label } else { split(&reading.label).1 }.to_owned(),
        limits: if shared { String::new() } else { limits(reading) },
        guard: find(view, &step.short_name(&reading.id))
            .map_or("", |blank| &blank.guard)
            .to_owned(),
    };
    BlankSet {
        head: if others.is_empty() { "" } else { split(&first.label).0 }.to_owned(),
        unit: first.unit.clone(),
        limits: if shared { limits(first) } else { String::new() },
        blanks: set.iter().map(blank).collect(),
    }
}

/// Limits without their unit: it stands beside the blank already.
pub(super) fn limits(language: Language, reading: &Reading) -> String {
    words::limits(language, reading.low.as_deref(), reading.high.as_deref(), "")
}

/// The blank of a step by its name on the sheet.
pub(super) fn find<'a>(step: &'a StepView, code: &str) -> Option<&'a BlankView> {
    let rows = step.tables.iter().flat_map(|table| &table.rows);
    rows.flat_map(|row| &row.blanks).chain(&step.blanks).find(|blank| blank.code == code)
}

/// A label without the number at its end, and that number: a lane's or a holder's.
fn split(label: &str) -> (&str, &str) {
    match label.rsplit_once(' ') {
        Some((head, tail)) if tail.bytes().all(|byte| byte.is_ascii_digit()) => (head, tail),
        _ => ("", label),
    }
}

/// `18–19, 21`.
pub(in crate::page) fn ranges(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|one, two| one + 1 == *two);
    let worded = runs.filter_map(|run| match (run.first()?, run.last()?) {
        (one, last) if one == last => Some(one.to_string()),
        (first, last) => Some(format!("{first}\u{2013}{last}")),
    });
    worded.collect::<Vec<String>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::{ranges, split};

    #[test]
    fn numbers_in_a_row_are_a_range() {
        for (numbers, expected) in
            [(&[][..], ""), (&[4], "4"), (&[4, 5, 6, 8], "4\u{2013}6, 8"), (&[1, 3], "1, 3")]
        {
            assert_eq!(ranges(numbers), expected);
        }
    }

    #[test]
    fn a_label_ends_in_a_number_or_stands_whole() {
        assert_eq!(split("Strip width, lane 12"), ("Strip width, lane", "12"));
        assert_eq!(split("Film speed"), ("", "Film speed"));
        assert_eq!(split("Tension"), ("", "Tension"));
    }
}
