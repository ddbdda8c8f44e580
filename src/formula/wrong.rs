//! What can be wrong with a formula, in words for the person who wrote it.

use std::fmt;
use std::ops::Range;

use crate::quantity::{BadKind, Dimension, Measure, NoNumber, NoQuantity};

/// Something in a formula is wrong: where, and what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaError {
    /// Bytes of the formula that are wrong.
    pub range: Range<usize>,
    /// What is wrong there.
    pub wrong: Wrong,
}

/// What is wrong with a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// There is no formula.
    Empty,
    /// More than 2000 bytes.
    TooLong,
    /// More than 64 parentheses, functions and signs inside each other.
    TooDeep,
    /// A number or its unit is not written well.
    Number(BadKind),
    /// A character that has no meaning in a formula.
    Character {
        /// The character.
        found: char,
        /// What to write for it.
        instead: Option<&'static str>,
    },
    /// A name that is not lower-case letters, digits and underscores.
    BadName(String),
    /// A value should stand here.
    NoValue,
    /// Something stands after a whole formula.
    Unexpected,
    /// A parenthesis is opened and not closed.
    Unclosed,
    /// `a < b < c`.
    ChainedComparison,
    /// No such function, and no such table.
    UnknownFunction {
        /// As written.
        name: String,
        /// The function or table most like it.
        nearest: Option<String>,
    },
    /// The name of a function or table without its arguments.
    NoArguments(String),
    /// A function got another number of arguments than it takes.
    Arguments {
        /// The function.
        function: &'static str,
        /// How it is written.
        usage: &'static str,
        /// How many it got.
        given: usize,
    },
    /// A table got another number of arguments than one.
    TableArguments {
        /// The table.
        table: String,
        /// How many it got.
        given: usize,
    },
    /// A value outside the rows of a table; `low` and `high` are its first and last row.
    OffTable(Box<Missed>),
    /// A value that no row has; `low` and `high` are the rows on both sides.
    NotInTable(Box<Missed>),
    /// No value has this name.
    UnknownName {
        /// As written.
        name: String,
        /// The known name most like it.
        nearest: Option<String>,
    },
    /// Two quantities of different kinds where both must be of one.
    Unlike {
        /// What was to be done: `added`, `compared`.
        done: &'static str,
        /// Kind of the first.
        left: Dimension,
        /// Kind of the second.
        right: Dimension,
    },
    /// A yes or no where a quantity belongs.
    Truth,
    /// A quantity where a yes or no belongs.
    NoTruth,
    /// The step to round to is not above zero.
    NoStep,
    /// The quantities have no answer.
    Quantity(NoQuantity),
}

/// A value that a table does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missed {
    /// What the table is called.
    pub table: String,
    /// The value that was looked up.
    pub value: Measure,
    /// A row below it, or the first of all.
    pub low: Measure,
    /// A row above it, or the last of all.
    pub high: Measure,
}

impl Wrong {
    /// Whether other values of the same kinds could be right: nothing is wrong with the formula.
    pub(crate) fn depends_on_values(&self) -> bool {
        matches!(
            self,
            Wrong::NoStep
                | Wrong::OffTable(_)
                | Wrong::NotInTable(_)
                | Wrong::Quantity(NoQuantity::Number(_))
        )
    }

    /// How to write it instead.
    pub fn way_out(&self) -> String {
        match self {
            Wrong::Number(BadKind::UnknownUnit { nearest: None, .. }) => {
                "write `*` to multiply; after a number may stand a unit such as mm or °C".to_owned()
            }
            Wrong::Number(bad) => bad.way_out(),
            Wrong::Character { instead: Some(instead), .. } => format!("write `{instead}`"),
            Wrong::UnknownFunction { nearest: Some(nearest), .. } => {
                format!("did you mean `{nearest}`?")
            }
            Wrong::UnknownName { nearest: Some(nearest), .. } => {
                format!("did you mean `{nearest}`?")
            }
            Wrong::Arguments { usage, .. } => format!("write `{usage}`"),
            Wrong::TableArguments { table, .. } => format!("write `{table}(x)`"),
            other => other.fixed_way_out().to_owned(),
        }
    }

    fn fixed_way_out(&self) -> &'static str {
        match self {
            Wrong::Empty => "write a value, such as `56 mm`, or a formula, such as `2 * fin`",
            Wrong::TooLong | Wrong::TooDeep => "split it into several settings",
            Wrong::Character { found: '%' | '°' | '"' | '\'' | 'µ', .. } => {
                "write a unit, such as mm, in, % or °C, directly after a number"
            }
            Wrong::Character { .. } => "leave it out",
            Wrong::BadName(_) => {
                "begin with a lower-case letter and use lower-case letters, digits and `_` only"
            }
            Wrong::NoValue => "write a number, a name or a function here",
            Wrong::Unexpected => "write an operator between two values: `2 * 3`",
            Wrong::Unclosed => "close the parenthesis",
            Wrong::ChainedComparison => "write `a < b and b < c`",
            Wrong::UnknownFunction { .. } => {
                "the functions are if, min, max, abs, round, round_up, round_down and sqrt; \
                 write `*` to multiply"
            }
            Wrong::NoArguments(_) => "write its arguments in parentheses, or choose another name",
            Wrong::UnknownName { .. } => {
                "define it as an input, a setting or a fact of the machine"
            }
            Wrong::Unlike { left, right, .. } if temperatures(*left, *right) => {
                "write a difference of temperatures in K: `base + 5 K`"
            }
            Wrong::Unlike { left, right, .. } if left.is_none() || right.is_none() => {
                "a unit may be missing: write it at the number, or where the name is given"
            }
            Wrong::OffTable(_) => "add a row for it: nothing is worked out past the last row",
            Wrong::NotInTable(_) => "add a row for it",
            Wrong::Unlike { .. } => "check the units; both must measure the same kind of thing",
            Wrong::Truth => "choose between two values with if(condition, a, b)",
            Wrong::NoTruth => "write a comparison, such as `lanes > 1`",
            Wrong::NoStep => "write a step above zero",
            Wrong::Quantity(no) => quantity_way_out(*no),
            _ => "check how it is written",
        }
    }
}

fn temperatures(left: Dimension, right: Dimension) -> bool {
    let both = [Dimension::TEMPERATURE, Dimension::TEMPERATURE_DIFFERENCE];
    both.contains(&left) && both.contains(&right)
}

fn quantity_way_out(no: NoQuantity) -> &'static str {
    match no {
        NoQuantity::Number(NoNumber::DivisionByZero) => {
            "choose another way for zero with if(condition, a, b)"
        }
        NoQuantity::Number(NoNumber::NegativeRoot) => "check the signs under the root",
        NoQuantity::Number(NoNumber::Overflow) => "round a step of it with round(x, step)",
        NoQuantity::TemperaturePoint => {
            "write a difference of temperatures in K: `base + 5 K`, `(hot - cold) / 2`"
        }
        NoQuantity::NoRoot(_) => "the root is defined for plain numbers and areas",
        NoQuantity::Mismatch { .. } | NoQuantity::Powers => "check the units",
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Wrong::Number(bad) => bad.fmt(f),
            Wrong::Character { found, .. } => write!(f, "`{found}` has no meaning in a formula"),
            Wrong::BadName(name) => write!(f, "`{name}` is not a name"),
            Wrong::UnknownFunction { name, .. } => write!(f, "there is no function `{name}`"),
            Wrong::NoArguments(name) => write!(f, "`{name}` has no value without arguments"),
            Wrong::Arguments { function, given: 1, .. } => {
                write!(f, "`{function}` cannot take 1 argument")
            }
            Wrong::Arguments { function, given, .. } => {
                write!(f, "`{function}` cannot take {given} arguments")
            }
            Wrong::TableArguments { table, given } => {
                write!(f, "`{table}` cannot take {given} arguments")
            }
            Wrong::OffTable(missed) => {
                let Missed { table, value, low, high } = &**missed;
                write!(
                    f,
                    "{value} lies outside the table `{table}`, which runs from {low} to {high}"
                )
            }
            Wrong::NotInTable(missed) => {
                let Missed { table, value, low, high } = &**missed;
                write!(f, "`{table}` has no row for {value}; the nearest are {low} and {high}")
            }
            Wrong::UnknownName { name, .. } => write!(f, "nothing is called `{name}` here"),
            Wrong::Unlike { done, left, right } => write!(f, "{left} and {right} cannot be {done}"),
            Wrong::Quantity(no) => no.fmt(f),
            other => f.write_str(other.fixed_text()),
        }
    }
}

impl Wrong {
    fn fixed_text(&self) -> &'static str {
        match self {
            Wrong::Empty => "there is no formula",
            Wrong::TooLong => "the formula is longer than 2000 bytes",
            Wrong::TooDeep => "more than 64 levels stand inside each other",
            Wrong::NoValue => "a value is missing",
            Wrong::Unexpected => "the formula should end here",
            Wrong::Unclosed => "this parenthesis is never closed",
            Wrong::ChainedComparison => "comparisons cannot be chained",
            Wrong::Truth => "this is a yes or no, not a quantity",
            Wrong::NoTruth => "this is a quantity, not a yes or no",
            Wrong::NoStep => "the step to round to is not above zero",
            _ => "this is not right",
        }
    }
}

impl fmt::Display for FormulaError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.wrong.fmt(f)
    }
}

impl std::error::Error for FormulaError {}
