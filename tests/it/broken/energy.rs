//! Rules of the machine's energy: sources, isolating devices, zeros, hot parts, inspection.

use super::Row;

pub const ROWS: &[Row] = &[];
