//! Charts of individual values and of their moving ranges: centre line and limits.
//!
//! Source: NIST/SEMATECH e-Handbook, 6.3.2.2: x̄ ± 3·MR̄/1.128, with MR̄ the mean distance of each value
//! from the one before. The constants are rounded as its tables print them, so that its figures come
//! out.
//!
//! Lines are worked out from the first [`BASE`] values in a row that are not all equal, and then stay
//! (common practice, no source: 20 to 25). So a process that changes later is held against what it was,
//! and a chart needs no more memory however long it gets. Whoever accepts the change charts from a later
//! day on. What had a signal in the base is not taken out of it.

use serde::Serialize;

use super::rules::Zones;
use crate::quantity::{NoNumber, Number};

/// So many values make the base of a chart.
pub const BASE: usize = 25;

/// With fewer than so many values there are no lines: two or three of them say nothing (common
/// practice, no source).
pub const LEAST: usize = 8;

/// Mean of the range of two normal values in sigma, d₂ for n = 2, as tables print it.
pub const D2: Number = Number::constant(1_128, 1_000);

/// Upper limit of the range of two in mean ranges, D₄ for n = 2, as tables print it; D₃ is zero.
pub const D4: Number = Number::constant(3_267, 1_000);

/// The lines of a chart of individual values and of their moving ranges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Lines {
    /// How many values they were worked out from.
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

/// Why a chart has no lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NoLines {
    /// So many values, and [`LEAST`] are needed.
    TooFew {
        /// There are.
        have: usize,
        /// Are needed.
        need: usize,
    },
    /// The last of them, [`BASE`] at most, are equal.
    NoSpread,
    /// The numbers are too long to be worked with.
    TooLong,
}

impl Lines {
    /// The lines of these values, in their order in time.
    ///
    /// # Errors
    /// [`NoLines`].
    pub fn of(values: &[Number]) -> Result<Lines, NoLines> {
        if values.len() < LEAST {
            return Err(NoLines::TooFew { have: values.len(), need: LEAST });
        }
        let lines = Lines::worked_out(values).map_err(|_| NoLines::TooLong)?;
        if lines.sigma.is_zero() { Err(NoLines::NoSpread) } else { Ok(lines) }
    }

    fn worked_out(values: &[Number]) -> Result<Lines, NoNumber> {
        let ranges = values.iter().zip(values.iter().skip(1)).map(|(a, b)| range(*a, *b));
        let ranges: Vec<Number> = ranges.collect::<Result<_, _>>()?;
        let (centre, mean_range) = (mean(values)?, mean(&ranges)?);
        let sigma = mean_range.div(D2)?;
        let reach = sigma.mul(Number::from(3_u32))?;
        Ok(Lines {
            base: values.len(),
            is_provisional: values.len() < BASE,
            centre,
            sigma,
            lower: centre.sub(reach)?,
            upper: centre.add(reach)?,
            mean_range,
            upper_range: mean_range.mul(D4)?,
        })
    }

    /// Where values lie for the rules.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn zones(&self) -> Result<Zones, NoNumber> {
        let [two, three] = [2_u32, 3].map(|times| self.sigma.mul(Number::from(times)));
        Ok(Zones::new(self.centre, [self.sigma, two?, three?]))
    }
}

/// The distance of a value from the one before.
///
/// # Errors
/// [`NoNumber::Overflow`].
pub fn range(before: Number, value: Number) -> Result<Number, NoNumber> {
    value.sub(before).map(Number::abs)
}

fn mean(values: &[Number]) -> Result<Number, NoNumber> {
    let sum = values.iter().try_fold(Number::ZERO, |sum, value| sum.add(*value))?;
    sum.div(Number::from(i64::try_from(values.len()).map_err(|_| NoNumber::Overflow)?))
}

#[cfg(test)]
mod tests {
    use super::{BASE, Lines, NoLines};
    use crate::quantity::Number;

    pub(crate) fn numbers(text: &str) -> Vec<Number> {
        text.split_whitespace().map(|word| Number::parse(word).unwrap()).collect()
    }

    /// NIST/SEMATECH e-Handbook 6.3.2.2, flow rates: 50.81, 55.8041, 45.8159, 1.8778. The limit of the
    /// ranges was computed here.
    #[test]
    fn the_published_example_comes_out_to_its_last_digit() {
        let rates = numbers("49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1");
        let lines = Lines::of(&rates).unwrap();
        for (own, places, expected) in [
            (lines.centre, 2, "50.81"),
            (lines.mean_range, 4, "1.8778"),
            (lines.sigma, 4, "1.6647"),
            (lines.upper, 4, "55.8041"),
            (lines.lower, 4, "45.8159"),
            (lines.upper_range, 4, "6.1347"),
        ] {
            assert_eq!(own.decimal(places), expected);
        }
        assert!(lines.is_provisional && lines.base == 10);
    }

    #[test]
    fn too_little_makes_no_lines() {
        let few = numbers("1 2 3 4 5 6 7");
        assert_eq!(Lines::of(&few), Err(NoLines::TooFew { have: 7, need: 8 }));
        assert_eq!(Lines::of(&numbers("5 5 5 5 5 5 5 5")), Err(NoLines::NoSpread));
        let apart = (0..9).map(|at| Number::ratio(1, 999_999_999_989 - 2 * at).unwrap());
        assert_eq!(Lines::of(&apart.collect::<Vec<_>>()), Err(NoLines::TooLong));
        let many: Vec<Number> = (0..BASE).map(|at| Number::from(at as i64 % 3)).collect();
        assert!(!Lines::of(&many).unwrap().is_provisional);
    }
}
