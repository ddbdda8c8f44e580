//! Whether a process keeps the limits that are asked of it with room to spare.
//!
//! Formulas and names: NIST/SEMATECH e-Handbook, 6.1.6.

use serde::Serialize;

use crate::quantity::Number;

/// Capability, or why there is none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Capability {
    /// The figures.
    Known(Box<Figures>),
    /// No figure would mean anything.
    Refused(Refused),
}

/// The figures of a stretch of readings without a signal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Figures {
    /// How many readings: all since the last signal.
    pub count: u64,
    /// Least value that passes, the tightest of the stretch; for deviations from the target.
    pub low: Option<Number>,
    /// Greatest value that passes.
    pub high: Option<Number>,
    /// Their mean.
    pub mean: Number,
    /// With the sigma within: from the mean moving range, by 1.128.
    pub within: Indices,
    /// With the sigma overall: the standard deviation of all readings of the stretch.
    pub overall: Indices,
}

/// The figures for one sigma. With one limit only, `cp`, `k` and `cpm` do not exist.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Indices {
    /// The sigma.
    pub sigma: Number,
    /// Width of the limits in six sigma.
    pub cp: Option<Number>,
    /// Distance of the mean from the upper limit in three sigma.
    pub cpu: Option<Number>,
    /// Distance of the mean from the lower limit in three sigma.
    pub cpl: Option<Number>,
    /// The lesser of the two.
    pub cpk: Number,
    /// How far the mean is off the middle, in half widths.
    pub k: Option<Number>,
    /// As `cp`, with the distance from the target in the sigma.
    pub cpm: Option<Number>,
}

/// Why there are no figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Refused {
    /// The blank has no limits.
    NoLimits,
    /// Nothing but one value is allowed: a zero or a count.
    OneValue,
    /// So many readings, and so many are needed.
    TooFew {
        /// There are.
        have: u64,
        /// Are needed.
        need: u64,
    },
    /// A rule fired, and so many readings came since: the process is not stable.
    NotStable {
        /// Number of the value at which it fired.
        at: u64,
        /// Readings since.
        have: u64,
        /// Are needed.
        need: u64,
    },
    /// All readings are equal: the instrument shows no spread.
    NoSpread,
    /// The numbers are too long to be worked with.
    TooLong,
}
