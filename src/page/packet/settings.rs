//! Settings on the page: what to set, what is no longer set, and how each was worked out.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{Change, Dropped, Setting, Working};
use crate::page::words;

/// A setting as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SettingView {
    /// Name.
    pub name: String,
    /// Where it is set; empty when it is only computed.
    pub place: String,
    /// Old value with unit; empty when the old recipe has none.
    pub was: String,
    /// Which way and how far, with unit: `down by 8.0 mm`; may be empty.
    pub by: String,
    /// Value to set, with unit; a fraction where the instrument is marked in fractions.
    pub target: String,
    /// The same in the plant's other units; may be empty.
    pub also: String,
    /// Limits in words; may be empty.
    pub limits: String,
    /// The limits in the plant's other units; may be empty.
    pub also_limits: String,
    /// Instrument's name; may be empty.
    pub instrument: String,
    /// `stays`, `changes`, `new`.
    pub change: String,
    /// Whether somebody has to set it anew: it changes, and has a place where it is set.
    pub changes: bool,
    /// How it was worked out.
    pub working: WorkingView,
    /// What the reader must know about the number.
    pub notes: Vec<String>,
}

/// A setting that only the old recipe has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DroppedView {
    /// Name.
    pub name: String,
    /// What it was, with unit.
    pub was: String,
    /// Where it is set; may be empty.
    pub place: String,
}

/// A derivation as shown: nothing in it is said twice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WorkingView {
    /// The formula as written.
    pub formula: String,
    /// The formula with numbers; empty when it says the same as the formula or the result.
    pub numbers: String,
    /// The result, before it is rounded to the instrument; empty when it is said already.
    pub result: String,
    /// Each operation with its result; empty when the line of numbers says it all.
    pub steps: Vec<String>,
    /// Where the formula comes from; may be empty.
    pub source: String,
}

/// Words a setting.
pub(super) fn view(
    setting: &Setting,
    instruments: &BTreeMap<String, String>,
    language: Language,
) -> SettingView {
    let unit = &setting.unit;
    let quantity = |value: &str| match value {
        "" => String::new(),
        value => words::quantity(language, value, unit),
    };
    let shown = if setting.fraction.is_empty() { &setting.target } else { &setting.fraction };
    SettingView {
        name: setting.name.clone(),
        place: setting.place.clone(),
        was: quantity(setting.was.as_deref().unwrap_or("")),
        by: quantity(&setting.by),
        target: words::quantity(language, &words::unbroken(shown), unit),
        also: words::numbers(language, &setting.also),
        limits: words::limits(language, setting.low.as_deref(), setting.high.as_deref(), unit),
        also_limits: words::numbers(language, &setting.also_limits),
        instrument: super::name_of(setting.instrument.as_deref(), instruments),
        change: words::change(language, setting.change).to_owned(),
        changes: setting.change != Change::Keep && !setting.place.is_empty(),
        working: working(&setting.working, &setting.source, language),
        notes: setting.notes.iter().map(|note| words::bound(note)).collect(),
    }
}

/// Words a setting that is no longer set.
pub(super) fn dropped(dropped: &Dropped, language: Language) -> DroppedView {
    DroppedView {
        name: dropped.name.clone(),
        was: words::numbers(language, &dropped.was),
        place: dropped.place.clone(),
    }
}

/// Leaves out of a derivation what it would say twice.
pub(super) fn working(working: &Working, source: &str, language: Language) -> WorkingView {
    let repeats = working.numbers == working.formula || working.numbers == working.result;
    let said = working.result == working.formula;
    let line = |text: &str| words::working(language, text);
    WorkingView {
        formula: working.formula.clone(),
        numbers: if repeats { String::new() } else { line(&working.numbers) },
        result: if said { String::new() } else { line(&working.result) },
        steps: working.steps.iter().map(|step| line(step)).collect(),
        source: source.to_owned(),
    }
}
