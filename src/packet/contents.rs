//! What a label promises, and what follows for single packs and for their average.
//!
//! Must never soften a limit: the rules give the least, a plant's own tolerance may only be tighter.

use super::compute::Computer;
use super::model::{Figure, Working};
use crate::formula::Evaluated;
use crate::language::Words;
use crate::plant::shape::{ContentsEntry, RulesWord};
use crate::quantity::{Dimension, Limits, Number, Quantity, Unit, inward};
use crate::trade::contents::{NoContents, Rules, net_contents};

/// The name of the label's formula on the sheet.
pub(super) const LABEL: &str = "net_contents.label";

/// Net contents worked out.
#[derive(Debug, Clone)]
pub struct Contents {
    /// The setting they belong to.
    pub of: String,
    /// What the label promises; the least average.
    pub label: Quantity,
    /// The least a single pack may hold.
    pub least: Quantity,
    /// The figures as printed.
    pub figures: Vec<Figure>,
}

/// Works out net contents; none when something is wrong with them, which is reported.
pub(super) fn contents(
    computer: &mut Computer,
    entry: &ContentsEntry,
    label: &Evaluated,
) -> Option<Contents> {
    let at = computer.at.at("net_contents");
    let label = computer.quantity(&at.at("label"), label)?;
    // Grams for a mass, millilitres for a volume: the rules count both alike.
    let unit = match label.dimension {
        Dimension::MASS => Unit::find("g"),
        Dimension::VOLUME => Unit::find("ml"),
        found => {
            computer.findings.wrong_dimension(&at.at("label"), found, Dimension::MASS);
            return None;
        }
    };
    let number = label.in_unit(unit).ok()?;
    let language = computer.house.language;
    let (rules, source) = match entry.rules {
        RulesWord::Eu => (Rules::Eu, language.word("web-rules-eu")),
        RulesWord::Us => (Rules::Us, language.word("web-rules-us")),
    };
    if rules == Rules::Us && label.dimension == Dimension::VOLUME {
        computer.findings.no_rule_for_label(&at.at("rules"), &Words::of("contents-by-weight"));
        return None;
    }
    let worked = match net_contents(number, rules) {
        Ok(worked) => worked,
        Err(NoContents::Number(_)) => return None,
        Err(other) => {
            computer.findings.no_rule_for_label(&at.at("label"), &other.words());
            return None;
        }
    };
    let (error, least) = (worked.tolerable_error, worked.least);
    let show = |number: Number| {
        unit.map_or(String::new(), |unit| format!("{} {unit}", number.shortest(6)))
    };
    let figure =
        |id: &str, name: &str, number: Number, formula: &str, numbers: String, source: &str| {
            Figure {
                id: format!("net_contents.{id}"),
                name: name.to_owned(),
                value: show(number),
                working: Working {
                    formula: formula.to_owned(),
                    numbers,
                    result: show(number),
                    steps: Vec::new(),
                },
                source: source.to_owned(),
            }
        };
    let mut figures = vec![
        figure(
            "label",
            language.word("web-label"),
            number,
            &entry.label,
            show(number),
            language.word("web-label-source"),
        ),
        figure(
            "tolerable",
            language.word("web-tolerable"),
            error,
            language.word("web-tolerable-formula"),
            language
                .text("web-tolerable-for", &[("label", language.decimals(&show(number)).into())]),
            source,
        ),
        figure(
            "least",
            language.word("web-least"),
            least,
            language.word("web-least-formula"),
            format!("{} - {}", show(number), show(error)),
            source,
        ),
    ];
    if let Some(never) = worked.never {
        figures.push(figure(
            "never",
            language.word("web-never"),
            never,
            language.word("web-never-formula"),
            format!("{} - 2 * {}", show(number), show(error)),
            source,
        ));
    }
    let least = Quantity::of(least, unit).ok()?;
    Some(Contents { of: entry.of.clone(), label, least, figures })
}

impl Contents {
    /// The label in the unit of a setting with so many decimals: rounded up, never softened.
    pub fn label_in(&self, unit: Option<&Unit>, places: u32) -> Option<String> {
        let least = Limits { low: Some(self.label), high: None };
        inward(&least, unit, places).ok()?.low
    }
}

#[cfg(test)]
mod tests {
    use super::Contents;
    use crate::quantity::{Measure, Unit};

    #[test]
    fn a_label_between_two_decimals_is_never_softened() {
        let quantity = |text: &str| Measure::parse(text).unwrap().quantity;
        let contents = Contents {
            of: "fill".to_owned(),
            label: quantity("12.25 g"),
            least: quantity("11.15 g"),
            figures: Vec::new(),
        };
        let label = |places| contents.label_in(Unit::find("g"), places).unwrap();
        assert_eq!([label(2), label(1), label(0)], ["12.25", "12.3", "13"]);
    }
}
