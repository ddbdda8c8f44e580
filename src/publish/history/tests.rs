use super::{MOST_CHARTS, place, short};
use crate::history::capability::{Capability, Refused};
use crate::history::chart::Lines;
use crate::history::model::{Of, Series, Share};
use crate::history::rules::Rule;
use crate::quantity::Number;

fn series(procedure: &str, is_drawn: bool) -> Series {
    let zero = Number::ZERO;
    let lines = Lines {
        base: 8,
        is_provisional: true,
        centre: zero,
        sigma: zero,
        lower: zero,
        upper: zero,
        mean_range: zero,
        upper_range: zero,
    };
    Series {
        machine: "m".to_owned(),
        blank: String::new(),
        step: String::new(),
        procedure: procedure.to_owned(),
        label: String::new(),
        unit: String::new(),
        of: Of::Reading,
        instrument: None,
        count: 1,
        first_pass: Share::default(),
        corrections: 0,
        mean: None,
        deviation: None,
        autocorrelation: None,
        lines: is_drawn.then_some(lines),
        no_lines: None,
        signals: Default::default(),
        range_signals: 0,
        capability: Capability::Refused(Refused::NoLimits),
        points: Vec::new(),
    }
}

/// The pages on which so many drawn series of each procedure stand, each page once.
#[track_caller]
fn check(counts: &[(&str, usize)], expected: &[&str]) {
    let many = |(procedure, count): &(&str, usize)| {
        (0..*count).map(|_| series(procedure, true)).collect::<Vec<_>>()
    };
    let mut all: Vec<Series> = counts.iter().flat_map(many).collect();
    all.push(series("few", false));
    let placed = place("m", all.iter().collect());
    assert_eq!(placed.last().map(|one| one.path.as_str()), Some(""));
    let mut pages: Vec<String> = placed.iter().map(|one| one.path.clone()).collect();
    pages.dedup();
    pages.pop();
    assert_eq!(pages, expected);
    let anchors: std::collections::BTreeSet<_> = placed.iter().map(|one| &one.anchor).collect();
    assert_eq!(anchors.len(), all.len(), "no two charts share an anchor");
}

#[test]
fn few_charts_stand_with_the_machine_and_many_by_procedure() {
    check(&[("a", 4), ("b", 8)], &["history/m.html"]);
    check(&[("a", 4), ("b", 9)], &["history/m.a.html", "history/m.b.html"]);
    let pages = ["history/m.a.html", "history/m.a.2.html", "history/m.a.3.html"];
    check(&[("a", 2 * MOST_CHARTS + 1)], &pages);
}

#[test]
fn every_rule_has_a_short_name_of_its_own() {
    let names: std::collections::BTreeSet<String> = Rule::ALL.into_iter().map(short).collect();
    assert_eq!(names.len(), Rule::ALL.len());
    assert!(names.contains("N1") && names.contains("W4"));
}
