//! What can be wrong with a formula, in words for the person who wrote it.

use std::fmt;
use std::ops::Range;

use crate::language::Words;
use crate::quantity::{BadKind, Dimension, Measure, NoQuantity};

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
        /// What was to be done, as a text: `formula-added`, `formula-compared`.
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

    /// What is wrong, and how to write it instead.
    pub fn words(&self) -> Words {
        match self {
            Wrong::Number(bad) => number(bad),
            Wrong::Character { found, instead } => character(*found, *instead),
            Wrong::BadName(name) => Words::new("formula-bad-name", &[("name", name.into())]),
            Wrong::UnknownFunction { name, nearest } => {
                named(["formula-unknown-function", "formula-function-like"], name, nearest.as_ref())
            }
            Wrong::UnknownName { name, nearest } => {
                named(["formula-unknown-name", "formula-name-like"], name, nearest.as_ref())
            }
            Wrong::NoArguments(name) => {
                Words::new("formula-no-arguments", &[("name", name.into())])
            }
            Wrong::Arguments { function, usage, given } => {
                let parts = [
                    ("name", (*function).into()),
                    ("usage", (*usage).into()),
                    ("count", (*given).into()),
                ];
                Words::new("formula-arguments", &parts)
            }
            Wrong::TableArguments { table, given } => {
                let parts = [("table", table.into()), ("count", (*given).into())];
                Words::new("formula-table-arguments", &parts)
            }
            Wrong::OffTable(missed) => missed.words("formula-off-table"),
            Wrong::NotInTable(missed) => missed.words("formula-not-in-table"),
            Wrong::Unlike { done, left, right } => unlike(done, *left, *right),
            Wrong::Quantity(no) => no.words(),
            other => Words::of(other.key()),
        }
    }

    /// The key of a fault that needs no facts.
    fn key(&self) -> &'static str {
        match self {
            Wrong::Empty => "formula-empty",
            Wrong::TooLong => "formula-too-long",
            Wrong::TooDeep => "formula-too-deep",
            Wrong::NoValue => "formula-no-value",
            Wrong::Unexpected => "formula-unexpected",
            Wrong::Unclosed => "formula-unclosed",
            Wrong::ChainedComparison => "formula-chained-comparison",
            Wrong::Truth => "formula-truth",
            Wrong::NoTruth => "formula-no-truth",
            Wrong::NoStep => "formula-no-step",
            _ => "formula-wrong",
        }
    }
}

impl Missed {
    fn words(&self, key: &'static str) -> Words {
        let Missed { table, value, low, high } = self;
        let shown = |measure: &Measure| measure.to_string().into();
        let parts = [
            ("table", table.into()),
            ("value", shown(value)),
            ("low", shown(low)),
            ("high", shown(high)),
        ];
        Words::new(key, &parts)
    }
}

/// In a formula a name that is no unit mostly lacks its sign.
fn number(bad: &BadKind) -> Words {
    match bad {
        BadKind::UnknownUnit { written, nearest: None } => {
            Words::new("formula-unknown-unit", &[("written", written.into())])
        }
        bad => bad.words(),
    }
}

fn character(found: char, instead: Option<&'static str>) -> Words {
    let mut parts = vec![("found", found.to_string().into())];
    let key = match (instead, found) {
        (Some(instead), _) => {
            parts.push(("instead", instead.into()));
            "formula-character-instead"
        }
        (None, '%' | '°' | '"' | '\'' | 'µ') => "formula-character-of-unit",
        (None, _) => "formula-character",
    };
    Words::new(key, &parts)
}

/// A name nobody knows; the second key is for one that a known name is like.
fn named(keys: [&'static str; 2], name: &str, nearest: Option<&String>) -> Words {
    let [unknown, like] = keys;
    match nearest {
        Some(nearest) => Words::new(like, &[("name", name.into()), ("nearest", nearest.into())]),
        None => Words::new(unknown, &[("name", name.into())]),
    }
}

fn unlike(done: &'static str, left: Dimension, right: Dimension) -> Words {
    let key = if temperatures(left, right) {
        "formula-unlike-temperatures"
    } else if left.is_none() || right.is_none() {
        "formula-unlike-number"
    } else {
        "formula-unlike"
    };
    let parts = [
        ("left", left.words().into()),
        ("right", right.words().into()),
        ("done", Words::of(done).into()),
    ];
    Words::new(key, &parts)
}

fn temperatures(left: Dimension, right: Dimension) -> bool {
    let both = [Dimension::TEMPERATURE, Dimension::TEMPERATURE_DIFFERENCE];
    both.contains(&left) && both.contains(&right)
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl fmt::Display for FormulaError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.wrong.fmt(f)
    }
}

impl std::error::Error for FormulaError {}
