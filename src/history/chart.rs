//! Charts of individual values and their moving ranges.

use serde::Serialize;

use crate::quantity::Number;

/// The lines of a chart of individual values and of their moving ranges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Lines {
    /// How many values they were worked out from: the first of the series.
    pub base: usize,
    /// Whether there are fewer than [`BASE`] yet, so that the lines will still move.
    pub is_provisional: bool,
    /// Centre line: mean of the base.
    pub centre: Number,
    /// Sigma: mean moving range of the base by [`D2`].
    pub sigma: Number,
    /// Three sigma below the centre.
    pub lower: Number,
    /// Three sigma above it.
    pub upper: Number,
    /// Mean moving range of the base: centre line of the ranges.
    pub mean_range: Number,
    /// Greatest moving range that chance explains: [`D4`] times the mean. The least is zero.
    pub upper_range: Number,
}

/// So many values make the base of a chart.
pub const BASE: usize = 25;

/// Mean of the range of two normal values, in sigma, as tables print it.
pub const D2: Number = Number::constant(1_128, 1_000);

/// Upper limit of the range of two, in mean ranges, as tables print it.
pub const D4: Number = Number::constant(3_267, 1_000);
