//! The values of a procedure's parameters, put into its steps before anything looks at them.
//!
//! A step that is bound is a step like any other: the safety walk, the rows and the record never see a
//! parameter. Must never change what a step says beyond the names of its parameters.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::text::StepText;
use super::values::rename;
use crate::plant::shape::{ParameterKind, StepEntry, WhenEntry};

/// Values by parameter.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Bound {
    values: BTreeMap<String, Value>,
}

/// The value of a parameter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Value {
    /// What it is.
    pub kind: ParameterKind,
    /// The name of a rail, zone, setting or instrument; a quantity or a text as written.
    pub written: String,
    /// The same for people.
    pub shown: String,
}

impl Bound {
    /// Adds a value.
    pub fn put(&mut self, parameter: &str, value: Value) {
        self.values.insert(parameter.to_owned(), value);
    }

    /// The value of a parameter.
    pub fn get(&self, parameter: &str) -> Option<&Value> {
        self.values.get(parameter)
    }

    /// Parameters and what they are, for people.
    pub fn shown(&self) -> BTreeMap<String, String> {
        self.values.iter().map(|(name, value)| (name.clone(), value.shown.clone())).collect()
    }

    /// What text may name by a parameter alone: a zone, an instrument, a quantity, words. A rail or a
    /// setting has names of its own, `{{ rail.name }}` and `{{ setting.limits }}`.
    pub fn texts(&self) -> impl Iterator<Item = (&String, &String)> {
        let has_names =
            |value: &&Value| matches!(value.kind, ParameterKind::Rail | ParameterKind::Setting);
        let values = self.values.iter();
        values.filter(move |(_, value)| !has_names(value)).map(|(name, value)| (name, &value.shown))
    }

    /// A name in the facts of a step: `rail` is `knife_rail`, `rail.moves` is `knife_rail.moves`.
    pub fn name(&self, name: &str) -> String {
        let (first, rest) = name.split_once('.').map_or((name, None), |(a, b)| (a, Some(b)));
        match (self.values.get(first), rest) {
            (Some(value), Some(rest)) => format!("{}.{rest}", value.written),
            (Some(value), None) => value.written.clone(),
            (None, _) => name.to_owned(),
        }
    }

    /// A name between the braces of a text.
    fn name_in_text(&self, name: &str) -> String {
        let first = name.split('.').next().unwrap_or(name);
        match self.values.get(first).map(|value| value.kind) {
            Some(ParameterKind::Rail | ParameterKind::Setting) => self.name(name),
            _ => name.to_owned(),
        }
    }

    fn text(&self, text: &str) -> String {
        rename(text, |name| self.name_in_text(name))
    }

    /// A step with its values; the step itself where it has no parameters.
    pub fn step<'s>(&self, step: &'s StepText) -> Cow<'s, StepText> {
        if self.values.is_empty() {
            return Cow::Borrowed(step);
        }
        let mut step = step.clone();
        step.text = self.text(&step.text);
        for (name, _) in &mut step.names {
            *name = self.name_in_text(name);
        }
        self.facts(&mut step.facts);
        Cow::Owned(step)
    }

    fn facts(&self, facts: &mut StepEntry) {
        let texts = facts.tools.iter_mut().chain(&mut facts.checks).chain(&mut facts.outside);
        texts.for_each(|text| *text = self.text(text));
        let names = facts.zone.iter_mut().chain(&mut facts.repeat);
        names.for_each(|name| *name = self.name(name));
        if let Some(reading) = &mut facts.reading {
            let names = reading.of.iter_mut().chain(&mut reading.instrument);
            names.for_each(|name| *name = self.name(name));
        }
        self.conditions(&mut facts.when);
    }

    /// Puts the values into conditions.
    pub fn conditions(&self, when: &mut WhenEntry) {
        let WhenEntry { rails, zones, instruments, facts, changes, .. } = when;
        let lists = [rails, zones, instruments, facts, changes];
        let names = lists.into_iter().flatten();
        names.for_each(|name| *name = self.name(name));
    }
}

#[cfg(test)]
mod tests {
    use super::{Bound, Value};
    use crate::plant::shape::ParameterKind;

    fn bound() -> Bound {
        let mut bound = Bound::default();
        let mut put = |name: &str, kind, written: &str, shown: &str| {
            let (written, shown) = (written.to_owned(), shown.to_owned());
            bound.put(name, Value { kind, written, shown });
        };
        put("rail", ParameterKind::Rail, "rear_rail", "Rear rail");
        put("gauge", ParameterKind::Instrument, "steel_rule", "Steel rule");
        bound
    }

    #[test]
    fn a_rail_is_named_in_facts_and_texts() {
        let check = |name: &str, expected: &str| assert_eq!(bound().name(name), expected);
        check("rail", "rear_rail");
        check("rail.moves", "rear_rail.moves");
        check("rails.moves", "rails.moves");
        check("gauge", "steel_rule");
        assert_eq!(bound().text("Look at {{ rail.name }}"), "Look at {{ rear_rail.name }}");
    }

    #[test]
    fn an_instrument_shows_its_name_in_texts() {
        assert_eq!(bound().text("Take the {{ gauge }}"), "Take the {{ gauge }}");
        let bound = bound();
        let texts: Vec<_> = bound.texts().map(|(name, text)| format!("{name} {text}")).collect();
        assert_eq!(texts, ["gauge Steel rule"]);
    }
}
