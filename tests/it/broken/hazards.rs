//! Rules of hazard messages: signal words, signs, protective equipment.

use super::Row;

pub const ROWS: &[Row] = &[];
