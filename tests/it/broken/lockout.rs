//! Rules of the lockout part: who locks, groups, shift change, contractors.

use super::Row;

pub const ROWS: &[Row] = &[];
