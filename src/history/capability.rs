//! Whether a process keeps the limits that are asked of it with room to spare.
//!
//! Formulas and names: NIST/SEMATECH e-Handbook, 6.1.6. The figures mean something only for a process
//! that is stable and for values that are about normal: so they are of the stretch of values since the
//! last signal, and refused while it is short. Nothing in here looks whether values are normal.
//!
//! Must never give a figure without its sigma, nor one of a process that is not stable.

use serde::Serialize;

use super::chart::{D2, range};
use super::moments::{Moments, TooLong};
use crate::quantity::{NoNumber, Number, Rounding};

/// So many values without a signal are asked for (common practice, no source: 25 to 30 at least).
pub const NEEDED: u64 = 25;

/// Decimals of the figures, and significant digits of a sigma that is a root.
const PLACES: u32 = 12;
const DIGITS: u32 = 15;

/// Capability, or why there is none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Capability {
    /// The figures.
    Known(Box<Figures>),
    /// No figure would mean anything.
    Refused(Refused),
}

/// The figures of a stretch of values without a signal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Figures {
    /// How many values: all since the last signal.
    pub count: u64,
    /// Least value that passes, the tightest of the stretch; for deviations, from the target.
    pub low: Option<Number>,
    /// Greatest value that passes.
    pub high: Option<Number>,
    /// Their mean.
    pub mean: Number,
    /// With the sigma within: mean moving range by 1.128, what one changeover differs from the next.
    pub within: Indices,
    /// With the sigma overall: the standard deviation of the stretch (n − 1).
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
    /// As `cp`, with the distance of the mean from the target put into the sigma.
    pub cpm: Option<Number>,
}

/// Why there are no figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Refused {
    /// The blank has no limits.
    NoLimits,
    /// Nothing but one value passes: a zero or a count.
    OneValue,
    /// So many values, and so many are needed.
    TooFew {
        /// There are.
        have: u64,
        /// Are needed.
        need: u64,
    },
    /// A rule fired, and so many values came since: the process is not stable.
    NotStable {
        /// Number of the value at which it fired last.
        at: u64,
        /// Values since.
        have: u64,
        /// Are needed.
        need: u64,
    },
    /// All values are equal: the instrument shows no spread.
    NoSpread,
    /// The numbers are too long to be worked with.
    TooLong,
}

/// What is asked of values: limits and a target.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Asked {
    /// Least value that passes.
    pub low: Option<Number>,
    /// Greatest value that passes.
    pub high: Option<Number>,
    /// The wanted value.
    pub target: Option<Number>,
}

impl Asked {
    /// What keeps both this and another.
    fn tightened(self, other: Asked) -> Asked {
        let both =
            |one: Option<Number>, other: Option<Number>, pick: fn(Number, Number) -> Number| {
                one.zip(other).map(|(one, other)| pick(one, other)).or(one).or(other)
            };
        Asked {
            low: both(self.low, other.low, Number::max),
            high: both(self.high, other.high, Number::min),
            target: other.target,
        }
    }

    /// The figures for a mean and a sigma above zero.
    ///
    /// # Errors
    /// [`NoNumber`]; also when there is no limit at all.
    pub fn indices(&self, mean: Number, sigma: Number) -> Result<Indices, NoNumber> {
        let three = sigma.mul(Number::from(3_u32))?;
        let upper = self.high.map(|high| high.sub(mean)?.div(three)).transpose()?;
        let lower = self.low.map(|low| mean.sub(low)?.div(three)).transpose()?;
        let least = upper.into_iter().chain(lower).min().ok_or(NoNumber::DivisionByZero)?;
        let (cp, k) = match self.low.zip(self.high) {
            Some((low, high)) => {
                let (half, middle) =
                    (high.sub(low)?.div(Number::TWO)?, high.add(low)?.div(Number::TWO)?);
                (Some(half.div(three)?), Some(middle.sub(mean)?.abs().div(half)?))
            }
            None => (None, None),
        };
        let cpm = match cp.zip(self.target) {
            Some((cp, target)) => Some(off_target(cp, mean.sub(target)?.div(sigma)?)?),
            None => None,
        };
        let shown = |number: Option<Number>| number.map(rounded).transpose();
        Ok(Indices {
            sigma,
            cp: shown(cp)?,
            cpu: shown(upper)?,
            cpl: shown(lower)?,
            cpk: rounded(least)?,
            k: shown(k)?,
            cpm: shown(cpm)?,
        })
    }
}

/// Cpm from Cp and the distance from the target in sigma: Cp / √(1 + z²), the same as
/// (USL − LSL) / 6√(σ² + (μ − T)²).
fn off_target(cp: Number, z: Number) -> Result<Number, NoNumber> {
    let z = rounded(z)?;
    rounded(cp)?.div(Number::ONE.add(z.mul(z)?)?.sqrt()?)
}

fn rounded(number: Number) -> Result<Number, NoNumber> {
    number.round_to_step(Number::last_place(PLACES)?, Rounding::HalfEven)
}

/// The values since the last signal.
#[derive(Debug, Clone, Default)]
pub struct Stretch {
    values: Moments,
    ranges: Moments,
    before: Option<Number>,
    asked: Asked,
    /// Number of the value at which a rule fired last.
    signal: Option<u64>,
}

impl Stretch {
    /// Takes the next value.
    ///
    /// # Errors
    /// [`TooLong`].
    pub fn take(&mut self, value: Number, asked: Asked) -> Result<(), TooLong> {
        self.values.take(value)?;
        if let Some(before) = self.before.replace(value) {
            self.ranges.take(range(before, value).map_err(|_| TooLong)?)?;
        }
        self.asked = self.asked.tightened(asked);
        Ok(())
    }

    /// A rule fired at this value: the stretch begins anew after it.
    pub fn end(&mut self, number: u64) {
        *self = Stretch { signal: Some(number), ..Stretch::default() };
    }

    /// The figures.
    pub fn capability(&self) -> Capability {
        match self.figures() {
            Ok(figures) => Capability::Known(Box::new(figures)),
            Err(refused) => Capability::Refused(refused),
        }
    }

    fn figures(&self) -> Result<Figures, Refused> {
        let Asked { low, high, .. } = self.asked;
        let (have, need) = (self.values.count(), NEEDED);
        if have > 0 && low.is_none() && high.is_none() {
            return Err(Refused::NoLimits);
        }
        if low.zip(high).is_some_and(|(low, high)| low >= high) {
            return Err(Refused::OneValue);
        }
        if have < need {
            return Err(match self.signal {
                Some(at) => Refused::NotStable { at, have, need },
                None => Refused::TooFew { have, need },
            });
        }
        let long = Refused::TooLong;
        let mean = self.values.mean().ok_or(long)?;
        let within = self.ranges.mean().and_then(|range| range.div(D2).ok()).ok_or(long)?;
        let overall = self.values.deviation(DIGITS).ok_or(long)?;
        if within.is_zero() {
            return Err(Refused::NoSpread);
        }
        let indices = |sigma| self.asked.indices(mean, sigma).map_err(|_| long);
        let (within, overall) = (indices(within)?, indices(overall)?);
        Ok(Figures { count: have, low, high, mean, within, overall })
    }
}

#[cfg(test)]
mod tests {
    use super::{Asked, Capability, Refused, Stretch};
    use crate::quantity::Number;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn asked(low: &str, high: &str, target: &str) -> Asked {
        let some = |text: &str| (!text.is_empty()).then(|| number(text));
        Asked { low: some(low), high: some(high), target: some(target) }
    }

    fn shown(number: Option<Number>) -> String {
        number.map_or("-".to_owned(), |number| number.decimal(4))
    }

    /// NIST/SEMATECH e-Handbook 6.1.6: limits 8 to 20, mean 16, s 2. Cpm for a target of 14 was computed
    /// here.
    #[test]
    fn the_published_example_comes_out() {
        let own = asked("8", "20", "14").indices(number("16"), number("2")).unwrap();
        let all = [own.cp, own.cpu, own.cpl, Some(own.cpk), own.k, own.cpm].map(shown);
        assert_eq!(all, ["1.0000", "0.6667", "1.3333", "0.6667", "0.3333", "0.7071"]);
        let product = own.cp.unwrap().mul(Number::ONE.sub(own.k.unwrap()).unwrap()).unwrap();
        assert_eq!(product.decimal(10), own.cpk.decimal(10), "Cpk = Cp (1 - k)");
    }

    #[test]
    fn one_limit_alone_has_one_figure() {
        let own = asked("", "20", "14").indices(number("16"), number("2")).unwrap();
        let all = [own.cp, own.cpu, own.cpl, Some(own.cpk), own.k, own.cpm].map(shown);
        assert_eq!(all, ["-", "0.6667", "-", "0.6667", "-", "-"]);
        let beyond = asked("18", "", "").indices(number("16"), number("2")).unwrap();
        assert_eq!(beyond.cpk.decimal(4), "-0.3333", "a mean outside its limit is below zero");
    }

    /// What is said of so many values about zero, the last at this value.
    #[track_caller]
    fn refused(count: u32, value: impl Fn(u32) -> i64, own: Asked, expected: Refused) {
        let mut stretch = Stretch::default();
        for at in 0..count {
            stretch.take(Number::ratio(value(at), 10).unwrap(), own).unwrap();
        }
        assert_eq!(stretch.capability(), Capability::Refused(expected));
    }

    #[test]
    fn figures_are_refused_with_a_reason() {
        let limits = asked("-0.5", "0.5", "0");
        let turns = |at: u32| i64::from(at % 3) - 1;
        refused(24, turns, limits, Refused::TooFew { have: 24, need: 25 });
        refused(25, |_| 1, limits, Refused::NoSpread);
        refused(30, turns, asked("", "", "0"), Refused::NoLimits);
        refused(30, turns, asked("0", "0", ""), Refused::OneValue);
    }

    #[test]
    fn after_a_signal_the_count_begins_anew() {
        let (limits, mut stretch) = (asked("-0.5", "0.5", "0"), Stretch::default());
        let take = |stretch: &mut Stretch, count: u32| {
            for at in 0..count {
                stretch.take(Number::ratio(i64::from(at % 3) - 1, 10).unwrap(), limits).unwrap();
            }
        };
        take(&mut stretch, 30);
        stretch.end(31);
        take(&mut stretch, 24);
        let not_yet = Refused::NotStable { at: 31, have: 24, need: 25 };
        assert_eq!(stretch.capability(), Capability::Refused(not_yet));
        take(&mut stretch, 1);
        let Capability::Known(figures) = stretch.capability() else { panic!("25 are enough") };
        assert_eq!(figures.count, 25);
        assert_ne!(figures.within.sigma, figures.overall.sigma);
    }

    /// Recipes with other tolerances share a chart: what is asked is what keeps all of them.
    #[test]
    fn the_tightest_limits_count() {
        let mut stretch = Stretch::default();
        for at in 0..30_i64 {
            let limits =
                if at % 2 == 0 { asked("-0.5", "0.3", "0") } else { asked("-0.4", "0.6", "0") };
            stretch.take(Number::ratio(at % 3 - 1, 10).unwrap(), limits).unwrap();
        }
        let Capability::Known(figures) = stretch.capability() else { panic!("enough") };
        assert_eq!((figures.low, figures.high), (Some(number("-0.4")), Some(number("0.3"))));
    }
}
