//! The working of a formula, one line for each operation.
//!
//! Must show only what counts: operations on the side of an `if`, `and` or `or` that does not
//! count are left out.

use std::borrow::Cow;

use super::evaluate::{Outcome, Value, WORKING_PLACES, shown};
use super::parse::{Function, Node, What};
use super::token::Operator;
use crate::quantity::Measure;

/// Most characters of all lines.
const MOST: usize = 4000;

/// Stands for what is left out.
const LEFT_OUT: &str = "…";

/// The lines of a formula that has a value, whose operations came to `done`.
pub(super) fn steps(nodes: &[Node], done: &[Outcome]) -> Vec<String> {
    if nodes.iter().filter(|node| is_operation(node)).count() < 2 {
        return Vec::new();
    }
    let counts = counting(nodes, done);
    let said = (0..nodes.len())
        .map(|place| {
            // A value that does not count and would need a line itself is left out.
            let is_shown = counts[place] || !is_operation(&nodes[place]);
            done[place].as_ref().ok().filter(|_| is_shown).map(Said::of)
        })
        .collect();
    let working = Working { nodes, said };
    let lines = (0..nodes.len()).filter(|place| counts[*place] && is_operation(&nodes[*place]));
    bounded(lines.map(|place| working.line(place)))
}

fn is_operation(node: &Node) -> bool {
    !matches!(node.what, What::Measure(_) | What::Name(_))
}

/// Lines until there are too many characters.
fn bounded(lines: impl Iterator<Item = String>) -> Vec<String> {
    let (mut kept, mut left) = (Vec::new(), MOST);
    for line in lines {
        let Some(rest) = left.checked_sub(line.chars().count()) else {
            kept.push(LEFT_OUT.to_owned());
            break;
        };
        left = rest;
        kept.push(line);
    }
    kept
}

/// For each operation, whether the result depends on it: what uses others stands after them.
fn counting(nodes: &[Node], done: &[Outcome]) -> Vec<bool> {
    let mut counts = vec![false; nodes.len()];
    if let Some(last) = counts.last_mut() {
        *last = true;
    }
    for (place, node) in nodes.iter().enumerate().rev() {
        if counts[place] {
            let skipped = skipped(&node.what, done);
            let operands = node.what.operands().iter().filter(|operand| Some(**operand) != skipped);
            operands.for_each(|operand| counts[*operand] = true);
        }
    }
    counts
}

/// The operand of an operation that its result does not depend on.
fn skipped(what: &What, done: &[Outcome]) -> Option<usize> {
    let is = |place: usize, truth: bool| done[place] == Ok(Value::Truth(truth));
    match what {
        What::Pair(Operator::And, [left, right]) if is(*left, false) => Some(*right),
        What::Pair(Operator::Or, [left, right]) if is(*left, true) => Some(*right),
        What::Call(Function::If, arguments) => match arguments.as_slice() {
            [condition, _, no] if is(*condition, true) => Some(*no),
            [_, yes, _] => Some(*yes),
            _ => None,
        },
        _ => None,
    }
}

/// A value as it stands in every line that has it.
struct Said {
    text: String,
    /// Whether the text is all of the number.
    exact: bool,
    truth: bool,
}

impl Said {
    fn of(value: &Value) -> Said {
        let (exact, truth) = match value {
            Value::Measure(measure) => (is_shown_exactly(*measure), false),
            Value::Truth(_) => (true, true),
        };
        Said { text: shown(value), exact, truth }
    }
}

/// A formula that was worked out.
struct Working<'a> {
    nodes: &'a [Node],
    /// What is said of each operation; nothing of those that do not count.
    said: Vec<Option<Said>>,
}

impl Working<'_> {
    /// `2 * 23 mm = 46 mm`.
    fn line(&self, place: usize) -> String {
        let what = &self.nodes[place].what;
        let result = self.said[place].as_ref();
        let operands = what.operands().iter().filter_map(|place| self.said[*place].as_ref());
        let rounded = operands.chain(result).any(|said| !said.exact);
        let sign = match (result.is_some_and(|said| said.truth), rounded) {
            (true, true) => " (shown rounded):",
            (true, false) => ":",
            (false, true) => " ≈",
            (false, false) => " =",
        };
        format!("{}{sign} {}", self.operation(what), self.text(place))
    }

    fn operation(&self, what: &What) -> String {
        match what {
            What::Measure(_) | What::Name(_) => String::new(),
            What::Negate(inner) => match self.beside(inner) {
                text if text.starts_with('(') => format!("-{text}"),
                text => format!("-({text})"),
            },
            What::Not(inner) => format!("not {}", self.beside(inner)),
            What::Pair(operator, [left, right]) => {
                format!("{} {} {}", self.beside(left), operator.symbol(), self.beside(right))
            }
            What::Call(function, arguments) => self.called(function.name(), arguments),
            What::Table(name, arguments) => self.called(name, arguments),
        }
    }

    fn called(&self, name: &str, arguments: &[usize]) -> String {
        let arguments: Vec<&str> = arguments.iter().map(|place| self.text(*place)).collect();
        format!("{name}({})", arguments.join(", "))
    }

    fn text(&self, place: usize) -> &str {
        self.said[place].as_ref().map_or(LEFT_OUT, |said| said.text.as_str())
    }

    /// An operand beside an operator; negative ones in parentheses.
    fn beside(&self, place: &usize) -> Cow<'_, str> {
        match self.text(*place) {
            text if text.starts_with('-') => Cow::Owned(format!("({text})")),
            text => Cow::Borrowed(text),
        }
    }
}

fn is_shown_exactly(measure: Measure) -> bool {
    let number = measure.quantity.in_unit(measure.shown_unit());
    number.unwrap_or(measure.quantity.amount).exact_places(WORKING_PLACES).is_some()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use crate::formula::{Formula, Reads, Table, Value};
    use crate::quantity::Measure;

    /// Values written `name = 23 mm`, separated by semicolons, and a table `dwell`.
    #[track_caller]
    fn check(text: &str, given: &str, expected: &[&str]) {
        let measure = |text: &str| Measure::parse(text).unwrap();
        let given = given.split(';').filter_map(|pair| pair.split_once('='));
        let values =
            given.map(|(name, text)| (name.trim().to_owned(), Value::Measure(measure(text))));
        let rows = [("20 µm", "0.2 s"), ("30 µm", "0.4 s")].map(|(x, y)| (measure(x), measure(y)));
        let dwell = Table::new(Reads::Between, rows.to_vec()).unwrap();
        let tables = BTreeMap::from([("dwell".to_owned(), dwell)]);
        let formula = Formula::parse(text).unwrap();
        assert_eq!(formula.evaluate(&values.collect(), &tables).unwrap().steps, expected);
    }

    #[test]
    fn each_operation_is_a_line() {
        let given = "flat = 23 mm; fin = 5 mm; film = 25 µm; n = 3";
        check(
            "2 * flat + 2 * fin",
            given,
            &["2 * 23 mm = 46 mm", "2 * 5 mm = 10 mm", "46 mm + 10 mm = 56 mm"],
        );
        check(
            "max(fin, 3 mm) / (n - 1)",
            given,
            &["max(5 mm, 3 mm) = 5 mm", "3 - 1 = 2", "5 mm / 2 = 2.5 mm"],
        );
        check("2 * dwell(film)", given, &["dwell(25 µm) = 0.3 s", "2 * 0.3 s = 0.6 s"]);
        check(
            "round_up(flat, 2 mm) - flat",
            given,
            &["round_up(23 mm, 2 mm) = 24 mm", "24 mm - 23 mm = 1 mm"],
        );
        check("not n > 2", given, &["3 > 2: yes", "not yes: no"]);
        check(
            "n > 2 and fin != flat",
            given,
            &["3 > 2: yes", "5 mm != 23 mm: yes", "yes and yes: yes"],
        );
    }

    /// As shown, 0.61811 in would be less than 15.7 mm, which it is equal to.
    #[test]
    fn a_comparison_of_numbers_shown_rounded_says_so() {
        check(
            "if(0.5 in + 3 mm < 15.7 mm, 1, 2)",
            "",
            &[
                "0.5 in + 3 mm ≈ 0.61811 in",
                "0.61811 in < 15.7 mm (shown rounded): no",
                "if(no, 1, 2) = 2",
            ],
        );
    }

    #[test]
    fn one_operation_or_none_needs_no_lines() {
        check("a", "a = 1 mm", &[]);
        check("(-5 °C)", "", &[]);
        check("2 * (a)", "a = 1 mm", &[]);
        check("dwell(a)", "a = 20 µm", &[]);
    }

    #[test]
    fn negative_operands_stand_in_parentheses() {
        check(
            "a - b * 2",
            "a = 1 mm; b = -3 mm",
            &["(-3 mm) * 2 = -6 mm", "1 mm - (-6 mm) = 7 mm"],
        );
        check(
            "-a + -b",
            "a = 1 mm; b = -3 mm",
            &["-(1 mm) = -1 mm", "-(-3 mm) = 3 mm", "(-1 mm) + 3 mm = 2 mm"],
        );
        check("abs(a - b)", "a = 1; b = 3", &["1 - 3 = -2", "abs(-2) = 2"]);
    }

    #[test]
    fn a_number_that_is_rounded_to_be_shown_is_marked() {
        check("a / 3 * 3", "a = 1 mm", &["1 mm / 3 ≈ 0.333333 mm", "0.333333 mm * 3 ≈ 1 mm"]);
        check("a / 2 * 3", "a = 1 mm", &["1 mm / 2 = 0.5 mm", "0.5 mm * 3 = 1.5 mm"]);
        check("2 * sqrt(2)", "", &["sqrt(2) ≈ 1.414214", "2 * 1.414214 ≈ 2.828427"]);
        check(
            "2 * pi * a",
            "a = 1 mm",
            &["2 * 3.141593 ≈ 6.283185", "6.283185 * 1 mm ≈ 6.283185 mm"],
        );
    }

    #[test]
    fn a_side_that_does_not_count_is_left_out() {
        let given = "a = 46 mm; b = 10 mm; n = 1";
        check("if(n > 0, a, b)", given, &["1 > 0: yes", "if(yes, 46 mm, 10 mm) = 46 mm"]);
        check("if(n > 1, b / (n - 1), b)", given, &["1 > 1: no", "if(no, …, 10 mm) = 10 mm"]);
        check(
            "if(n > 0, a + b, a - b)",
            given,
            &["1 > 0: yes", "46 mm + 10 mm = 56 mm", "if(yes, 56 mm, …) = 56 mm"],
        );
        check("n > 1 and b / (n - 1) > a", given, &["1 > 1: no", "no and …: no"]);
        check("n = 1 or b / (n - 1) > a", given, &["1 = 1: yes", "yes or …: yes"]);
        check("n = 2 or n > 0", given, &["1 = 2: no", "1 > 0: yes", "no or yes: yes"]);
    }

    #[test]
    fn the_last_line_ends_in_the_unit_of_the_result() {
        check(
            "sqrt(a * b)",
            "a = 1 in; b = 4 in",
            &["1 in * 4 in = 2580.64 mm²", "sqrt(2580.64 mm²) = 2 in"],
        );
        check(
            "a * 352 mm * 50 g/m²",
            "a = 1 m",
            &["1 m * 352 mm = 352000 mm²", "352000 mm² * 50 g/m² = 0.0176 kg"],
        );
    }

    #[test]
    fn too_many_lines_end_in_an_ellipsis() {
        let a =
            BTreeMap::from([("a".to_owned(), Value::Measure(Measure::parse("1000 mm").unwrap()))]);
        let steps = |text: &str| {
            Formula::parse(text).unwrap().evaluate(&a, &BTreeMap::new()).unwrap().steps
        };
        let lines = steps(&("1+".repeat(999) + "1"));
        assert_eq!(lines.last().unwrap(), "…");
        assert!((3980..=4001).contains(&lines.concat().chars().count()));
        assert_eq!(steps(&format!("2 * max({}a)", "a,".repeat(900))), ["…"]);
    }
}
