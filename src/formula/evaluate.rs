//! Working a formula out with the values of its names, and writing the working down.
//!
//! Operations are worked out once each, in the order in which they stand, without recursion. An
//! operation that fails hands its error on; `if`, `and` and `or` pass over a failure on the side
//! that does not count, as long as only its numbers are at fault and not its kinds.

use std::collections::BTreeMap;
use std::fmt;

use super::parse::{Formula, Function, Node, What};
use super::steps::steps;
use super::table::Table;
use super::token::{Operator, wrong};
use super::unknown::{unknown_function, unknown_name};
use super::wrong::{FormulaError, Wrong};
use crate::quantity::{Dimension, Measure, NoQuantity, Quantity, Rounding, Unit};

/// Decimals of the numbers in a working.
pub(super) const WORKING_PLACES: u32 = 6;

/// What a formula comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value {
    /// A quantity.
    Measure(Measure),
    /// Yes or no.
    Truth(bool),
}

/// A value and how it was worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Evaluated {
    /// The result.
    pub value: Value,
    /// The formula with each name replaced by its value: `2 * 23 mm + 2 * 5 mm`.
    pub numbers: String,
    /// Each operation in the order in which it was worked out, with the values it was given:
    /// `2 * 23 mm = 46 mm`, `max(3 mm, 5 mm) = 5 mm`, `3 > 2: yes`.
    ///
    /// Empty when the formula has fewer than two operations: `numbers` says it all. `≈` stands for
    /// `=` where a number of the line is rounded to be shown, `…` for a side that does not count.
    /// At most 4000 characters; a last line `…` then stands for the rest.
    pub steps: Vec<String>,
}

impl Evaluated {
    /// The result when it is a quantity.
    pub fn measure(&self) -> Option<Measure> {
        match self.value {
            Value::Measure(measure) => Some(measure),
            Value::Truth(_) => None,
        }
    }
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Value::Measure(measure) => measure.fmt(f),
            Value::Truth(true) => f.write_str("yes"),
            Value::Truth(false) => f.write_str("no"),
        }
    }
}

/// What an operation came to, or the error of the operation that is wrong.
pub(super) type Outcome = Result<Value, FormulaError>;

impl Formula {
    /// Works it out.
    ///
    /// The result is shown in the unit of the first operand of the same kind.
    ///
    /// # Errors
    /// [`FormulaError`] with the operation that has no answer.
    pub fn evaluate(
        &self,
        values: &BTreeMap<String, Value>,
        tables: &BTreeMap<String, Table>,
    ) -> Result<Evaluated, FormulaError> {
        self.evaluate_in(values, tables, None)
    }

    /// Works it out and shows the result in this unit, when it measures the same kind of thing.
    ///
    /// # Errors
    /// As [`Formula::evaluate`].
    pub fn evaluate_in(
        &self,
        values: &BTreeMap<String, Value>,
        tables: &BTreeMap<String, Table>,
        unit: Option<&'static Unit>,
    ) -> Result<Evaluated, FormulaError> {
        let mut done: Vec<Outcome> = Vec::with_capacity(self.nodes().len());
        for node in self.nodes() {
            let outcome = match &node.what {
                What::Measure(measure) => Ok(Ok(Value::Measure(*measure))),
                What::Name(name) => match values.get(name) {
                    Some(value) => Ok(Ok(*value)),
                    None => Err(unknown_name(name, values.keys(), tables)),
                },
                What::Table(name, arguments) => look_up(node, name, arguments, tables, &done),
                operation => operate(operation, &done),
            };
            done.push(outcome.unwrap_or_else(|reason| Err(wrong(node.range.clone(), reason))));
        }
        let value = match (self.in_a_written_unit(&done)?, unit) {
            (Value::Measure(measure), Some(_)) if measure.quantity.in_unit(unit).is_ok() => {
                Value::Measure(Measure { unit, ..measure })
            }
            (value, _) => value,
        };
        if let Some(last) = done.last_mut() {
            *last = Ok(value);
        }
        let steps = steps(self.nodes(), &done);
        Ok(Evaluated { value, numbers: self.with_numbers(values), steps })
    }

    /// The last value, in the unit of a number, name or table of its kind when it has no unit yet.
    fn in_a_written_unit(&self, done: &[Outcome]) -> Outcome {
        let last = done.last().cloned().unwrap_or_else(|| Err(wrong(0..0, Wrong::Empty)))?;
        let Value::Measure(mut measure) = last else { return Ok(last) };
        if measure.unit.is_none() && !measure.quantity.dimension.is_none() {
            let written = self.nodes().iter().zip(done).filter_map(|(node, outcome)| {
                match (&node.what, outcome) {
                    (
                        What::Measure(_) | What::Name(_) | What::Table(..),
                        Ok(Value::Measure(leaf)),
                    ) => leaf.unit,
                    _ => None,
                }
            });
            measure.unit = first_that_shows(measure.quantity, written.map(Some));
        }
        Ok(Value::Measure(measure))
    }

    fn with_numbers(&self, values: &BTreeMap<String, Value>) -> String {
        let (mut text, mut end) = (String::new(), 0);
        for (name, range) in self.names() {
            text.push_str(&self.text()[end..range.start]);
            match values.get(name) {
                Some(value) => text.push_str(&in_working(value)),
                None => text.push_str(name),
            }
            end = range.end;
        }
        text.push_str(&self.text()[end..]);
        text.trim().to_owned()
    }
}

/// A value as it stands in a working.
pub(super) fn shown(value: &Value) -> String {
    match value {
        Value::Measure(measure) => measure.shortest(WORKING_PLACES),
        Value::Truth(_) => value.to_string(),
    }
}

/// A value beside operators; negative ones in parentheses.
pub(super) fn in_working(value: &Value) -> String {
    let text = shown(value);
    if text.starts_with('-') { format!("({text})") } else { text }
}

/// The value of a table; when there is none of this name, only the name is wrong.
fn look_up(
    node: &Node,
    name: &str,
    arguments: &[usize],
    tables: &BTreeMap<String, Table>,
    done: &[Outcome],
) -> Result<Outcome, Wrong> {
    let Some(table) = tables.get(name) else {
        return Ok(Err(wrong(node.called(name), unknown_function(name, tables))));
    };
    if arguments.len() != 1 {
        return Err(Wrong::TableArguments { table: name.to_owned(), given: arguments.len() });
    }
    over(arguments, done, |values| table.at(name, measure(values[0])?).map(Value::Measure))
}

/// The value of an operation: the outer error is its own, the inner one of an operand.
fn operate(operation: &What, done: &[Outcome]) -> Result<Outcome, Wrong> {
    match operation {
        What::Pair(Operator::And, [left, right]) => {
            either_counts(&done[*left], &done[*right], false)
        }
        What::Pair(Operator::Or, [left, right]) => either_counts(&done[*left], &done[*right], true),
        What::Call(Function::If, arguments) => match arguments.as_slice() {
            [condition, yes, no] => choose(&done[*condition], &done[*yes], &done[*no]),
            _ => Err(Wrong::NoValue),
        },
        What::Not(inner) => over(&[*inner], done, |values| Ok(Value::Truth(!truth(values[0])?))),
        What::Negate(inner) => over(&[*inner], done, |values| negate(measure(values[0])?)),
        What::Pair(operator, both) => {
            over(both, done, |values| pair(*operator, measure(values[0])?, measure(values[1])?))
        }
        What::Call(function, arguments) => over(arguments, done, |values| {
            let measures: Result<Vec<Measure>, Wrong> =
                values.iter().copied().map(measure).collect();
            call(*function, &measures?).map(Value::Measure)
        }),
        What::Measure(_) | What::Name(_) | What::Table(..) => Err(Wrong::NoValue),
    }
}

/// An operation on the values of its operands, or the first error among them.
fn over(
    operands: &[usize],
    done: &[Outcome],
    operation: impl FnOnce(&[Value]) -> Result<Value, Wrong>,
) -> Result<Outcome, Wrong> {
    let values: Result<Vec<Value>, FormulaError> =
        operands.iter().map(|index| done[*index].clone()).collect();
    match values {
        Ok(values) => operation(&values).map(Ok),
        Err(error) => Ok(Err(error)),
    }
}

/// `and`, `or`: the left side decides when it is `deciding`.
fn either_counts(left: &Outcome, right: &Outcome, deciding: bool) -> Result<Outcome, Wrong> {
    let left = match left {
        Ok(left) => truth(*left)?,
        Err(error) => return Ok(Err(error.clone())),
    };
    match right {
        Ok(right) => Ok(Ok(Value::Truth(if left == deciding { left } else { truth(*right)? }))),
        Err(error) if left == deciding && error.wrong.depends_on_values() => {
            Ok(Ok(Value::Truth(left)))
        }
        Err(error) => Ok(Err(error.clone())),
    }
}

/// `if`: the chosen side, as long as both are of one kind.
fn choose(condition: &Outcome, yes: &Outcome, no: &Outcome) -> Result<Outcome, Wrong> {
    let condition = match condition {
        Ok(condition) => truth(*condition)?,
        Err(error) => return Ok(Err(error.clone())),
    };
    if let (Ok(yes), Ok(no)) = (yes, no) {
        same_kind(*yes, *no)?;
    }
    let (chosen, other) = if condition { (yes, no) } else { (no, yes) };
    match other {
        Err(error) if !error.wrong.depends_on_values() && chosen.is_ok() => Ok(Err(error.clone())),
        _ => Ok(chosen.clone()),
    }
}

fn same_kind(yes: Value, no: Value) -> Result<(), Wrong> {
    match (yes, no) {
        (Value::Truth(_), Value::Truth(_)) => Ok(()),
        (Value::Measure(yes), Value::Measure(no)) => alike(yes, no, "chosen between"),
        _ => Err(Wrong::Truth),
    }
}

fn truth(value: Value) -> Result<bool, Wrong> {
    match value {
        Value::Truth(truth) => Ok(truth),
        Value::Measure(_) => Err(Wrong::NoTruth),
    }
}

fn measure(value: Value) -> Result<Measure, Wrong> {
    match value {
        Value::Measure(measure) => Ok(measure),
        Value::Truth(_) => Err(Wrong::Truth),
    }
}

fn negate(operand: Measure) -> Result<Value, Wrong> {
    let quantity = operand.quantity.neg().map_err(Wrong::Quantity)?;
    Ok(Value::Measure(Measure { quantity, ..operand }))
}

fn pair(operator: Operator, left: Measure, right: Measure) -> Result<Value, Wrong> {
    let (a, b) = (left.quantity, right.quantity);
    let result = match operator {
        Operator::Add => a.add(b).map_err(|no| said(no, "formula-added")),
        Operator::Sub => a.sub(b).map_err(|no| said(no, "formula-subtracted")),
        Operator::Mul => a.mul(b).map_err(Wrong::Quantity),
        Operator::Div => a.div(b).map_err(Wrong::Quantity),
        comparison => return compare(comparison, left, right).map(Value::Truth),
    }?;
    let plain = result.dimension.is_none();
    let unit = match operator {
        Operator::Add | Operator::Sub if plain => left.unit,
        _ if plain => None,
        _ => first_that_shows(result, [left.unit, right.unit].into_iter()),
    };
    Ok(Value::Measure(Measure { quantity: result, unit }))
}

fn compare(operator: Operator, left: Measure, right: Measure) -> Result<bool, Wrong> {
    let order = left.quantity.compare(right.quantity).map_err(|no| said(no, "formula-compared"))?;
    Ok(match operator {
        Operator::Less => order.is_lt(),
        Operator::LessOrEqual => order.is_le(),
        Operator::Greater => order.is_gt(),
        Operator::GreaterOrEqual => order.is_ge(),
        Operator::NotEqual => order.is_ne(),
        _ => order.is_eq(),
    })
}

fn call(function: Function, arguments: &[Measure]) -> Result<Measure, Wrong> {
    match (function, arguments) {
        (Function::Min, [first, rest @ ..]) => extreme(*first, rest, std::cmp::Ordering::Less),
        (Function::Max, [first, rest @ ..]) => extreme(*first, rest, std::cmp::Ordering::Greater),
        (Function::Abs, [x]) => {
            let quantity = x.quantity.abs().map_err(Wrong::Quantity)?;
            Ok(Measure { quantity, ..*x })
        }
        (Function::Round(rounding), [x, step]) => round(*x, *step, rounding),
        (Function::Sqrt, [x]) => {
            let quantity = x.quantity.sqrt().map_err(Wrong::Quantity)?;
            Ok(Measure { quantity, unit: None })
        }
        _ => Err(Wrong::NoValue),
    }
}

fn extreme(first: Measure, rest: &[Measure], wanted: std::cmp::Ordering) -> Result<Measure, Wrong> {
    let mut best = first;
    for next in rest {
        let order = best.quantity.compare(next.quantity);
        if order.map_err(|no| said(no, "formula-compared"))? == wanted.reverse() {
            best = *next;
        }
    }
    Ok(best)
}

/// The multiple of the step that is asked for; of a temperature on its own scale.
fn round(x: Measure, step: Measure, rounding: Rounding) -> Result<Measure, Wrong> {
    const DONE: &str = "formula-rounded";
    let point = x.quantity.dimension.is_point();
    let fits = if point { Dimension::TEMPERATURE_DIFFERENCE } else { x.quantity.dimension };
    if step.quantity.dimension != fits {
        return Err(unlike(x, step, DONE));
    }
    if step.quantity.amount.is_zero() || step.quantity.amount.is_negative() {
        return Err(Wrong::NoStep);
    }
    let quantity = match point {
        true => round_on_scale(x, step.quantity, rounding),
        false => round_amount(x, step, rounding),
    };
    Ok(Measure { quantity: quantity.map_err(|no| said(no, DONE))?, ..x })
}

fn round_amount(x: Measure, step: Measure, rounding: Rounding) -> Result<Quantity, NoQuantity> {
    let amount = x.quantity.amount.round_to_step(step.quantity.amount, rounding)?;
    Ok(Quantity { amount, ..x.quantity })
}

/// Multiples of the step are counted from the zero of the unit the temperature is shown in.
fn round_on_scale(x: Measure, step: Quantity, rounding: Rounding) -> Result<Quantity, NoQuantity> {
    let unit = x.shown_unit();
    let number = x.quantity.in_unit(unit)?;
    let rounded = number.round_to_step(step.in_unit(unit)?, rounding)?;
    Ok(Quantity::of(rounded, unit)?)
}

fn alike(left: Measure, right: Measure, done: &'static str) -> Result<(), Wrong> {
    let same = left.quantity.dimension == right.quantity.dimension;
    if same { Ok(()) } else { Err(unlike(left, right, done)) }
}

fn unlike(left: Measure, right: Measure, done: &'static str) -> Wrong {
    Wrong::Unlike { done, left: left.quantity.dimension, right: right.quantity.dimension }
}

/// What cannot be done, with the word for it.
fn said(no: NoQuantity, done: &'static str) -> Wrong {
    match no {
        NoQuantity::Mismatch { left, right } => Wrong::Unlike { done, left, right },
        NoQuantity::TemperaturePoint => {
            let left = Dimension::TEMPERATURE;
            Wrong::Unlike { done, left, right: left }
        }
        other => Wrong::Quantity(other),
    }
}

/// The first of the units in which the quantity can be shown.
fn first_that_shows(
    quantity: Quantity,
    mut units: impl Iterator<Item = Option<&'static Unit>>,
) -> Option<&'static Unit> {
    units.find(|unit| unit.is_some() && quantity.in_unit(*unit).is_ok()).flatten()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::{Formula, Value, shown};
    use crate::formula::{Reads, Table};
    use crate::quantity::{Measure, Number, Quantity, Unit};

    /// Values of names, written `name = 23 mm` and separated by semicolons.
    fn values(text: &str) -> BTreeMap<String, Value> {
        let pairs = text.split(';').filter_map(|pair| pair.split_once('='));
        pairs
            .map(|(name, value)| {
                let measure = Measure::parse(value).unwrap();
                (name.trim().to_owned(), Value::Measure(measure))
            })
            .collect()
    }

    /// Invented: dwell by film, a drive of two speeds, a gap by a count, a grade of a number.
    fn tables() -> BTreeMap<String, Table> {
        let table = |reads, rows: &[(&str, &str)]| {
            let measure = |text: &str| Measure::parse(text).unwrap();
            let rows = rows.iter().map(|(x, y)| (measure(x), measure(y)));
            Table::new(reads, rows.collect()).unwrap()
        };
        let dwell = [("20 µm", "0.3 s"), ("25 µm", "0.4 s"), ("30 µm", "0.7 s")];
        let gear = [("1", "30 1/min"), ("2", "90 1/min")];
        let gap = [("0", "2 mm"), ("1", "1/8 in"), ("3", "5 mm")];
        let grade = [("-1000", "1"), ("0", "0.5"), ("1000", "3")];
        BTreeMap::from([
            ("dwell".to_owned(), table(Reads::Between, &dwell)),
            ("gap".to_owned(), table(Reads::NextDown, &gap)),
            ("gear".to_owned(), table(Reads::Exactly, &gear)),
            ("grade".to_owned(), table(Reads::Between, &grade)),
        ])
    }

    #[track_caller]
    fn check(text: &str, given: &str, expected: &str) {
        let evaluated = Formula::parse(text).unwrap().evaluate(&values(given), &tables()).unwrap();
        assert_eq!(evaluated.value.to_string(), expected);
    }

    /// Common practice, no source: strip of a stick pack, web of ten lanes.
    #[test]
    fn a_strip_of_two_flats_and_two_fins() {
        let given = "flat = 23 mm; fin = 5 mm; lanes = 10; strip = 56 mm";
        check("2 * flat + 2 * fin", given, "56 mm");
        check("lanes * strip", given, "560 mm");
        check("lanes * strip + 2 * 6 mm", given, "572 mm");
    }

    #[test]
    fn the_result_keeps_the_unit_of_the_first_operand_of_its_kind() {
        check("a + b", "a = 1 in; b = 25.4 mm", "2 in");
        check("2 * a", "a = 1 in", "2 in");
        check("a / 2 + 1 mm", "a = 2 cm", "1.1 cm");
        check("a * b", "a = 2 mm; b = 3 mm", "6 mm²");
        check("sqrt(a * b)", "a = 1 in; b = 4 in", "2 in");
        check("a / b", "a = 1 in; b = 25.4 mm", "1");
        check("a * 60 s", "a = 2 m/s", "120 m");
        check("a * b", "a = 100 N; b = 2 m", "200 N·m");
        check("5 % * a", "a = 200 g", "10 g");
        check("5 % + 1 %", "", "6 %");
        check("2 * 5 %", "", "0.1");
        check("a / b", "a = 90 m/min; b = 0.1 m", "900 1/min");
    }

    #[test]
    fn functions_work_on_quantities() {
        check("min(a, b, 3 cm)", "a = 1 m; b = 2 in", "3 cm");
        check("max(a, b)", "a = 1 m; b = 2 in", "1 m");
        check("abs(a - b)", "a = 1 mm; b = 3 mm", "2 mm");
        check("round(a, 0.5 mm)", "a = 56.25 mm", "56 mm");
        check("round(a, 1/16 * 1 in)", "a = 56 mm", "55.5625 mm");
        check("round(a, 1)", "a = 2.5", "2");
        check("sqrt(2.25)", "", "1.5");
        check("2 * pi * a", "a = 1 mm", "6.28318530718 mm");
        check("-a + -(b)", "a = 1 mm; b = 3 mm", "-4 mm");
    }

    #[test]
    fn rounding_up_and_down_goes_to_a_multiple_of_the_step() {
        check("round_up(a, 0.5 mm)", "a = 56.01 mm", "56.5 mm");
        check("round_down(a, 0.5 mm)", "a = 56.49 mm", "56 mm");
        check("round_up(a, 0.5 mm) - round_down(a, 0.5 mm)", "a = 56.5 mm", "0 mm");
        check("round_up(a, 2)", "a = -3", "-2");
        check("round_down(a, 2)", "a = -3", "-4");
        check("round_up(a, 5 K)", "a = 121 °C", "125 °C");
        check("round_down(a, 5 K)", "a = -1 °C", "-5 °C");
        check("round_up(length / piece, 1)", "length = 10 m; piece = 3 m", "4");
    }

    #[test]
    fn tables_are_used_like_functions_of_one_value() {
        check("dwell(film)", "film = 22 µm", "0.34 s");
        check("2 * dwell(film / 2)", "film = 50 µm", "0.8 s");
        check("dwell(film) * gear(n)", "film = 25 µm; n = 2", "0.6");
        check("sqrt(dwell(film) * dwell(film))", "film = 25 µm", "0.4 s");
        check("dwell(max(film, 20 µm))", "film = 12 µm", "0.3 s");
    }

    #[test]
    fn comparisons_and_truths_choose() {
        check("if(lanes > 1, a, b)", "lanes = 2; a = 1 mm; b = 3 mm", "1 mm");
        check("if(not lanes > 1, a, b)", "lanes = 2; a = 1 mm; b = 3 mm", "3 mm");
        check("a = 2.54 cm and a != 1 mm", "a = 1 in", "yes");
        check("a <= 25.4 mm and a >= 25.4 mm", "a = 1 in", "yes");
        check("a < 25.4 mm or a > 25.4 mm", "a = 1 in", "no");
    }

    #[test]
    fn a_failure_on_the_side_that_does_not_count_is_passed_over() {
        check("if(lanes > 1, 6 mm / (lanes - 1), 0 mm)", "lanes = 1", "0 mm");
        check("if(lanes > 1, 6 mm / (lanes - 1), 0 mm)", "lanes = 4", "2 mm");
        check("if(film <= 30 µm, dwell(film), 1 s)", "film = 35 µm", "1 s");
        check("if(n < 3, gear(n), 120 1/min)", "n = 3", "120 1/min");
        check("lanes > 1 and 6 / (lanes - 1) > 2", "lanes = 1", "no");
        check("lanes = 1 or 6 / (lanes - 1) > 2", "lanes = 1", "yes");
    }

    /// NIST SP 811 B.8: 1 °F of difference is 5/9 K, and only points take the offset.
    #[test]
    fn temperatures_are_points_and_differences() {
        check("base + 5 K", "base = 120 °C", "125 °C");
        check("base + 9 K", "base = 248 °F", "264.2 °F");
        check("hot - cold", "hot = 150 °C; cold = 20 °C", "130 °C");
        check("cold + (hot - cold) / 2", "hot = 150 °C; cold = 20 °C", "85 °C");
        check("max(hot, cold)", "hot = 150 °C; cold = 302 °F", "150 °C");
        check("hot = cold", "hot = 150 °C; cold = 302 °F", "yes");
        check("round(hot, 5 K)", "hot = 148 °C", "150 °C");
        check("-5 °C", "", "-5 °C");
    }

    /// A result with another unit, rounded.
    #[track_caller]
    fn check_in(text: &str, given: &str, unit: &str, places: u32, expected: &str) {
        let evaluated = Formula::parse(text).unwrap().evaluate(&values(given), &tables()).unwrap();
        let Value::Measure(measure) = evaluated.value else { panic!("{evaluated:?}") };
        assert_eq!(measure.quantity.show(Unit::find(unit), places).unwrap(), expected);
    }

    /// Length of film on a roll, L = π(D² - d²)/(4t), and back: the formula from a university
    /// forum on mathematics, the values computed with 15-digit floats, not published.
    #[test]
    fn rolls_are_worked_out_without_overflow() {
        let length = "pi * (outer * outer - core * core) / (4 * film)";
        let rolls = [
            ("outer = 300 mm; core = 76.2 mm; film = 0.050 mm", "1322.509 m"),
            ("outer = 400 mm; core = 76.2 mm; film = 0.060 mm", "2018.389 m"),
            ("outer = 600 mm; core = 152.4 mm; film = 0.040 mm", "6612.547 m"),
            ("outer = 250 mm; core = 70 mm; film = 0.080 mm", "565.487 m"),
            ("outer = 24 in; core = 3 in; film = 2 mil", "5655.574 m"),
        ];
        for (given, expected) in rolls {
            check_in(length, given, "m", 3, expected);
        }
        let left = "sqrt(core * core + 4 * used * film / pi)";
        check_in(left, "core = 76.2 mm; film = 60 µm; used = 2018.389 m", "mm", 2, "400.00 mm");
        let given = "core = 76.2 mm; film = 60 µm; used = 911.989 m";
        check_in(left, given, "mm", 1, "274.7 mm");
        let back = format!("pi * ({left} * {left} - core * core) / (4 * film)");
        check_in(&back, given, "m", 6, "911.989000 m");
        check_in("used * 352 mm * 55.2 g/m²", "used = 2018.389 m", "kg", 3, "39.218 kg");
    }

    /// T = K·F·d with F = 0.75·S_p·A_s: proof stress and stress area from ISO 898-1, nominal;
    /// the products computed exactly, not published.
    #[test]
    fn a_tightening_torque_comes_out_in_newton_metres() {
        let torque = "0.2 * 0.75 * proof * area * thread";
        for (given, expected) in [
            ("proof = 580 MPa; area = 20.1 mm²; thread = 6 mm", "10.492 N·m"),
            ("proof = 580 MPa; area = 36.6 mm²; thread = 8 mm", "25.474 N·m"),
            ("proof = 830 MPa; area = 36.6 mm²; thread = 8 mm", "36.454 N·m"),
            ("proof = 600 MPa; area = 245 mm²; thread = 20 mm", "441.000 N·m"),
        ] {
            check_in(torque, given, "N·m", 3, expected);
        }
    }

    #[track_caller]
    fn check_bad(text: &str, given: &str, wrong: &str, says: &str, way_out: &str) {
        let error = Formula::parse(text).unwrap().evaluate(&values(given), &tables()).unwrap_err();
        let found = (
            &text[error.range.clone()],
            error.to_string(),
            error.wrong.words().way_out().to_string(),
        );
        assert_eq!(found, (wrong, says.to_owned(), way_out.to_owned()));
    }

    #[test]
    fn kinds_that_do_not_fit_are_named_at_their_place() {
        let units = "check the units; both must measure the same kind of thing";
        let kelvin = "write a difference of temperatures in K: `base + 5 K`";
        let given = "a = 1 mm; m = 1 kg; hot = 150 °C";
        check_bad("2 * (a + m)", given, "a + m", "length and mass cannot be added", units);
        check_bad("a < m", given, "a < m", "length and mass cannot be compared", units);
        check_bad("min(a, m)", given, "min(a, m)", "length and mass cannot be compared", units);
        check_bad(
            "if(a > 0 mm, a, m)",
            given,
            "if(a > 0 mm, a, m)",
            "length and mass cannot be chosen between",
            units,
        );
        check_bad(
            "if(a > 0 mm, a, a + m)",
            given,
            "a + m",
            "length and mass cannot be added",
            units,
        );
        check_bad(
            "(a + 1) * 2",
            given,
            "a + 1",
            "length and plain number cannot be added",
            "a unit may be missing: write it at the number, or where the name is given",
        );
        check_bad(
            "hot + 5 °C",
            given,
            "hot + 5 °C",
            "temperature and temperature cannot be added",
            kelvin,
        );
        check_bad(
            "hot * 2",
            given,
            "hot * 2",
            "a temperature on the scale cannot be multiplied, negated or added to another",
            "write a difference of temperatures in K: `base + 5 K`, `(hot - cold) / 2`",
        );
        check_bad(
            "round(hot, 5 °C)",
            given,
            "round(hot, 5 °C)",
            "temperature and temperature cannot be rounded to each other",
            kelvin,
        );
        check_bad(
            "if(a, a, a)",
            given,
            "if(a, a, a)",
            "this is a quantity, not a yes or no",
            "write a comparison, such as `lanes > 1`",
        );
        check_bad(
            "1 + (a > a)",
            given,
            "1 + (a > a)",
            "this is a yes or no, not a quantity",
            "choose between two values with if(condition, a, b)",
        );
    }

    #[test]
    fn numbers_without_an_answer_are_named_at_their_place() {
        check_bad(
            "1 + 6 / (a - 1)",
            "a = 1",
            "6 / (a - 1)",
            "division by zero",
            "choose another way for zero with if(condition, a, b)",
        );
        check_bad(
            "sqrt(a)",
            "a = -1",
            "sqrt(a)",
            "a negative number has no square root",
            "check the signs under the root",
        );
        check_bad(
            "round(a, 0)",
            "a = 1",
            "round(a, 0)",
            "the step to round to is not above zero",
            "write a step above zero",
        );
        check_bad(
            "a * a * a",
            "a = 999999999999999999",
            "a * a * a",
            "the number gets too large or too fine to be kept exactly",
            "round a step of it with round(x, step)",
        );
        check_bad(
            "2 * flatwidth",
            "flat_width = 1 mm",
            "flatwidth",
            "nothing is called `flatwidth` here",
            "did you mean `flat_width`?",
        );
    }

    #[test]
    fn what_is_wrong_with_a_table_is_named_at_its_place() {
        let off = "add a row for it: nothing is worked out past the last row";
        check_bad(
            "1 s + dwell(film)",
            "film = 35 µm",
            "dwell(film)",
            "35 µm lies outside the table `dwell`, which runs from 20 µm to 30 µm",
            off,
        );
        check_bad(
            "1 + dwell(film)",
            "film = 25 µm",
            "1 + dwell(film)",
            "plain number and time cannot be added",
            "a unit may be missing: write it at the number, or where the name is given",
        );
        check_bad(
            "gear(n)",
            "n = 1.5",
            "gear(n)",
            "`gear` has no row for 1.5; the nearest are 1 and 2",
            "add a row for it",
        );
        check_bad(
            "gear(n, 2)",
            "n = 1",
            "gear(n, 2)",
            "`gear` cannot take 2 arguments",
            "write `gear(x)`",
        );
        check_bad("gear()", "", "gear()", "`gear` cannot take 0 arguments", "write `gear(x)`");
        check_bad(
            "2 * gear",
            "",
            "gear",
            "`gear` has no value without arguments",
            "write its arguments in parentheses, or choose another name",
        );
        check_bad(
            "gear(n > 1)",
            "n = 1",
            "gear(n > 1)",
            "this is a yes or no, not a quantity",
            "choose between two values with if(condition, a, b)",
        );
    }

    #[test]
    fn what_is_neither_function_nor_table_is_named() {
        let minn = "there is no function `minn`";
        check_bad("minn(a, b)", "a = 1; b = 2", "minn", minn, "did you mean `min`?");
        let dwel = "there is no function `dwel`";
        check_bad("1 + (dwel(a))", "a = 1", "dwel", dwel, "did you mean `dwell`?");
        let functions = "the functions are if, min, max, abs, round, round_up, round_down and \
                         sqrt; write `*` to multiply";
        check_bad("fins(2)", "", "fins", "there is no function `fins`", functions);
        check_bad("pi(2)", "", "pi", "there is no function `pi`", functions);
    }

    #[track_caller]
    fn check_numbers(text: &str, given: &str, expected: &str) {
        let evaluated = Formula::parse(text).unwrap().evaluate(&values(given), &tables()).unwrap();
        assert_eq!(evaluated.numbers, expected);
    }

    #[test]
    fn the_working_shows_the_numbers_put_in() {
        let given = "flat = 23 mm; fin = 5 mm; off = -3 mm; third = 1/3";
        check_numbers("2 * flat + 2 * fin", given, "2 * 23 mm + 2 * 5 mm");
        check_numbers("(flat) - off", given, "(23 mm) - (-3 mm)");
        check_numbers("min(flat, pi * fin)", given, "min(23 mm, pi * 5 mm)");
        check_numbers("third * 3", given, "0.333333 * 3");
    }

    /// Formulas that come to a length, of the names `a`, `b` (lengths) and `n` (a count).
    fn any_length() -> impl Strategy<Value = String> {
        let leaf = prop::sample::select(vec!["a", "b", "3 mm", "0.5 in"]).prop_map(String::from);
        leaf.prop_recursive(5, 24, 2, |inner| {
            (0..11, inner.clone(), inner).prop_map(|(form, x, y)| match form {
                0 => format!("({x} + {y})"),
                1 => format!("({x} - {y})"),
                2 => format!("min({x}, {y})"),
                3 => format!("max({x}, {y})"),
                4 => format!("if({x} < {y} or n > 2, {x}, {y})"),
                5 => format!("-{x}"),
                6 => format!("n * {x} / 4"),
                7 => format!("round({x}, 0.5 mm)"),
                8 => format!("round_up({x}, 0.5 mm)"),
                9 => format!("({x} + gap(n))"),
                _ => format!("abs({x}) * n"),
            })
        })
    }

    /// A formula of nearly 2000 bytes that comes to a plain number.
    fn any_nesting() -> impl Strategy<Value = String> {
        prop::collection::vec(0..8, 1..40).prop_map(|forms| {
            let nested = forms.into_iter().fold("n".to_owned(), |x, form| match form {
                0 => format!("({x} + 1)"),
                1 => format!("-{x}"),
                2 => format!("min({x}, 2)"),
                3 => format!("if({x} > 0 or n > 1, 2, 1 / 0)"),
                4 => format!("round_up({x}, 1)"),
                5 => format!("abs({x})"),
                6 => format!("({x} * 0.3)"),
                _ => format!("grade({x})"),
            });
            let times = (2000 + 3) / (nested.len() + 3);
            vec![nested; times].join(" + ")
        })
    }

    /// The operation and the result of a step that is exact; what was left out is made up.
    fn said(step: &str) -> Option<(String, &str)> {
        let left_out = if step.contains(" or …") { "yes" } else { "0 mm" };
        let (operation, result) = step.rsplit_once(" = ").or_else(|| step.rsplit_once(": "))?;
        if operation.ends_with("(shown rounded)") {
            return None;
        }
        Some((operation.replace('…', left_out), result))
    }

    fn worked_out(operation: String) -> String {
        let truths =
            [("yes".to_owned(), Value::Truth(true)), ("no".to_owned(), Value::Truth(false))];
        let formula = Formula::parse(&operation).unwrap();
        shown(&formula.evaluate(&truths.into(), &tables()).unwrap().value)
    }

    fn lengths(a: i64, b: i64, n: i64, unit: &str) -> BTreeMap<String, Value> {
        let unit = Unit::find(unit);
        let length = |digits| {
            let quantity = Quantity::of(Number::ratio(digits, 100).unwrap(), Unit::find("mm"));
            Value::Measure(Measure { quantity: quantity.unwrap(), unit })
        };
        let count = Value::Measure(Measure::plain(Number::from(n)));
        let names = ["a", "b", "n"].map(String::from);
        names.into_iter().zip([length(a), length(b), count]).collect()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(512))]

        #[test]
        fn the_working_comes_to_the_same_result(
            text in any_length(),
            a in -100_000_i64..100_000,
            b in 1_i64..100_000,
            n in 0_i64..6,
        ) {
            let formula = Formula::parse(&text).unwrap();
            let evaluated = formula.evaluate(&lengths(a, b, n, "mm"), &tables()).unwrap();
            let again = Formula::parse(&evaluated.numbers).unwrap();
            prop_assert_eq!(again.evaluate(&BTreeMap::new(), &tables()).unwrap().value, evaluated.value);
        }

        #[test]
        fn every_step_comes_to_what_it_says(
            text in any_length(),
            a in -100_000_i64..100_000,
            b in 1_i64..100_000,
            n in 0_i64..6,
        ) {
            let given = lengths(a, b, n, "mm");
            let evaluated = Formula::parse(&text).unwrap().evaluate(&given, &tables()).unwrap();
            for step in &evaluated.steps {
                if let Some((operation, result)) = said(step) {
                    prop_assert_eq!(worked_out(operation), result);
                }
            }
            if let Some(last) = evaluated.steps.last().filter(|last| *last != "…") {
                let ends = last.ends_with(&format!(" {}", shown(&evaluated.value)));
                prop_assert!(ends, "{last}");
            }
        }

        #[test]
        fn the_units_of_the_names_never_change_the_result(
            text in any_length(),
            a in -100_000_i64..100_000,
            b in 1_i64..100_000,
            n in 0_i64..6,
            unit in prop::sample::select(vec!["in", "ft", "µm", "m"]),
        ) {
            let formula = Formula::parse(&text).unwrap();
            let quantity = |unit| match formula.evaluate(&lengths(a, b, n, unit), &tables()).unwrap().value {
                Value::Measure(measure) => measure.quantity,
                Value::Truth(_) => Quantity::plain(Number::ZERO),
            };
            prop_assert_eq!(quantity(unit), quantity("mm"));
        }

        #[test]
        fn any_tokens_come_to_a_value_or_an_error_in_the_text(
            tokens in prop::collection::vec(prop::sample::select(vec![
                "a", "n", "hot", "2", "0", "1 mm", "5 K", "9 °C", "(", ")", "+", "-", "*", "/",
                "<", "=", "and", "or", "not", ",", "if(", "min(", "round(", "sqrt(", "abs(",
                "round_up(", "round_down(", "dwell(", "dwell", "gear(", "25 µm", "unknown(",
            ]), 1..12),
        ) {
            let mut given = lengths(3, 4, 2, "mm");
            given.extend(values("hot = 120 °C"));
            let text = tokens.join(" ");
            let formula = Formula::parse(&text);
            let error = formula.and_then(|formula| formula.evaluate(&given, &tables())).err();
            prop_assert!(error.is_none_or(|error| text.get(error.range).is_some()));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn long_formulas_of_any_nesting_stay_small(text in any_nesting()) {
            prop_assert!((1300..=2000).contains(&text.len()));
            let formula = Formula::parse(&text).unwrap();
            prop_assert!(formula.nodes().len() <= text.len());
            let evaluated = formula.evaluate(&lengths(1, 1, 2, "mm"), &tables());
            let characters = evaluated.unwrap().steps.concat().chars().count();
            prop_assert!((10..=4001).contains(&characters));
        }
    }
}
