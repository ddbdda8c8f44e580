//! What is to be said about a table, its mapping or a recipe made from it: where, what, and the way out.

use crate::finding::{Place, Severity};
use crate::language::Words;

/// Where something was met.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum At {
    /// In the mapping.
    Mapping(Place),
    /// In a row of the table; the column with its heading where it is about one cell.
    Row {
        /// Number of the row, from 1.
        row: usize,
        /// Number and heading of the column.
        column: Option<(usize, String)>,
    },
    /// About a recipe that was made, or would be.
    Recipe(String),
}

/// Something to be said. An error is enough for nothing to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// How much it weighs.
    pub severity: Severity,
    /// Where.
    pub at: At,
    /// What, and under `way-out` what to do.
    pub words: Words,
}

/// Everything that is to be said, in the order in which it was met.
#[derive(Debug, Default)]
pub(super) struct Remarks {
    pub(super) list: Vec<Remark>,
}

impl Remarks {
    pub(super) fn error(&mut self, at: &At, words: Words) {
        self.list.push(Remark { severity: Severity::Error, at: at.clone(), words });
    }

    pub(super) fn warning(&mut self, at: &At, words: Words) {
        self.list.push(Remark { severity: Severity::Warning, at: at.clone(), words });
    }
}
