//! The mapping: which column of a table is what, as somebody writes it.

use serde::Deserialize;

use crate::plant::named::Named;

/// A mapping file.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mapping {
    /// The recipe whose formulas, layouts, tables, parts and texts every new one takes over.
    pub pattern: String,
    /// Sheet of a workbook; may be left out when there is one only.
    #[serde(default)]
    pub sheet: Option<String>,
    /// Number of the row that holds the headings.
    #[serde(default = "first")]
    pub head: usize,
    /// What parts the fields of a CSV file: one letter, `,` when left out.
    #[serde(default)]
    pub separator: Option<String>,
    /// The decimal sign of numbers that are text.
    #[serde(default)]
    pub decimal: Sign,
    /// What parts the thousands of numbers that are text: nothing when left out.
    #[serde(default)]
    pub thousands: Option<String>,
    /// How dates that are text are written: `DD.MM.YYYY`; `YYYY-MM-DD` when left out.
    #[serde(default)]
    pub dates: Option<String>,
    /// Decimals that a number may have, where its column does not say.
    #[serde(default = "six")]
    pub decimals: u32,
    /// Rows that are not taken.
    #[serde(default)]
    pub skip: SkipEntry,
    /// What each column is, by its heading as it is written.
    pub columns: Named<ColumnEntry>,
    /// Machines of every recipe; those of the pattern when neither this nor a column says them.
    #[serde(default)]
    pub machines: Vec<String>,
    /// Revision of every recipe, where no column says it.
    #[serde(default)]
    pub revision: Option<String>,
    /// Day of every revision, where no column says it.
    #[serde(default)]
    pub date: Option<String>,
    /// Author of every recipe, where no column says it.
    #[serde(default)]
    pub author: Option<String>,
    /// Reason of every revision, where no column says it.
    #[serde(default)]
    pub reason: Option<String>,
}

fn first() -> usize {
    1
}

fn six() -> u32 {
    6
}

/// A decimal sign.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
pub enum Sign {
    /// `12.5`
    #[default]
    #[serde(rename = ".")]
    Point,
    /// `12,5`
    #[serde(rename = ",")]
    Comma,
}

impl Sign {
    /// The sign.
    pub fn letter(self) -> char {
        match self {
            Sign::Point => '.',
            Sign::Comma => ',',
        }
    }
}

/// Rows that are not taken.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SkipEntry {
    /// By their number.
    #[serde(default)]
    pub rows: Vec<usize>,
    /// By what stands in a column: `Status: [old, draft]`.
    #[serde(default, rename = "where")]
    pub holding: Named<Vec<String>>,
}

/// What a column is.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColumnEntry {
    /// What it is.
    pub is: Is,
    /// The input or setting of the pattern.
    #[serde(default)]
    pub of: Option<String>,
    /// Unit of its numbers; `none` for a count. A cell that brings its own unit must bring this one.
    #[serde(default)]
    pub unit: Option<String>,
    /// Decimals that its numbers may have.
    #[serde(default)]
    pub decimals: Option<u32>,
    /// Whether a number with more decimals is rounded to so many; else it is refused.
    #[serde(default)]
    pub round: bool,
    /// What stands in the table, and what is meant: `Line 1: line-1`.
    #[serde(default)]
    pub named: Named<String>,
    /// What parts several machines in one cell.
    #[serde(default)]
    pub apart: Option<String>,
}

/// What a column may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Is {
    /// Identifier of the recipe, and name of its file.
    Id,
    /// Name of the recipe.
    Name,
    /// Machines it runs on.
    Machine,
    /// An input.
    Input,
    /// A setting that is a plain value in the pattern.
    Setting,
    /// The tolerance of a setting.
    Tolerance,
    /// Its revision.
    Revision,
    /// The day of its revision.
    Date,
    /// Its author.
    Author,
    /// The reason of its revision.
    Reason,
    /// Left out knowingly.
    LeftOut,
}

impl Is {
    /// Whether it goes to a named input or setting.
    pub fn has_of(self) -> bool {
        matches!(self, Is::Input | Is::Setting | Is::Tolerance)
    }

    /// The word in the mapping.
    pub fn word(self) -> &'static str {
        match self {
            Is::Id => "id",
            Is::Name => "name",
            Is::Machine => "machine",
            Is::Input => "input",
            Is::Setting => "setting",
            Is::Tolerance => "tolerance",
            Is::Revision => "revision",
            Is::Date => "date",
            Is::Author => "author",
            Is::Reason => "reason",
            Is::LeftOut => "left-out",
        }
    }
}
