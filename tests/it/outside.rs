//! Our answers to many random questions, for a second implementation to check.
//!
//! Written to `target/outside/cases.jsonl`, one question and answer a line, numbers as exact
//! fractions. `tests/outside/recompute.py` answers the same questions in another language, with other
//! libraries and, where there is one, in another way; `tests/run` runs it.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use witnessmark::quantity::{Measure, Number, Quantity, Unit};

use crate::dice::Dice;
use crate::plant::root;

mod fittings;
mod history;
mod measures;
mod moves;
mod plans;
mod rails;
mod webs;

/// Least number of questions of a kind.
const LEAST: usize = 100;

/// Questions and answers so far.
struct Cases {
    dice: Dice,
    lines: Vec<String>,
    counts: BTreeMap<String, usize>,
}

impl Cases {
    fn new(seed: u64) -> Cases {
        Cases { dice: Dice::new(seed), lines: Vec::new(), counts: BTreeMap::new() }
    }

    fn add(&mut self, kind: &str, given: &Value, answer: &Value) {
        let line = json!({ "kind": kind, "given": given, "answer": answer });
        self.lines.push(line.to_string());
        *self.counts.entry(kind.to_owned()).or_default() += 1;
    }
}

/// A number with every digit: `-7/4`.
fn exact(number: Number) -> String {
    format!("{number:?}")
}

fn all_exact(numbers: &[Number]) -> Vec<String> {
    numbers.iter().copied().map(exact).collect()
}

/// So many of a unit, exactly.
fn exact_in(quantity: Quantity, unit: &str) -> String {
    exact(quantity.in_unit(Unit::find(unit)).unwrap())
}

/// A quantity as written.
fn quantity(text: &str) -> Quantity {
    Measure::parse(text).unwrap().quantity
}

fn all() -> Cases {
    let mut cases = Cases::new(20_260_105);
    measures::ask(&mut cases);
    rails::ask(&mut cases);
    moves::ask(&mut cases);
    webs::ask(&mut cases);
    fittings::ask(&mut cases);
    history::ask(&mut cases);
    plans::ask(&mut cases);
    cases
}

#[test]
fn our_answers_are_written_for_a_second_implementation() {
    let cases = all();
    for (kind, count) in &cases.counts {
        assert!(*count >= LEAST, "{kind}: {count} questions");
    }
    assert_eq!(all().lines, cases.lines, "every run asks the same");
    let folder = root().join("target/outside");
    std::fs::create_dir_all(&folder).unwrap();
    let lines = cases.lines.join("\n") + "\n";
    std::fs::write(folder.join("cases.jsonl"), lines).unwrap();
}
