//! What a setting torque wrench can be set to, and what it then delivers.
//!
//! Source of all figures: ISO 6789, as read in a maker's test sheet.

use std::fmt;

use crate::quantity::{Dimension, Limits, NoQuantity, Number, Quantity};

/// Above this torque the closer deviation holds: 10 N·m.
const STEP: Quantity =
    Quantity { amount: Number::constant(10_000_000, 1), dimension: Dimension::TORQUE };

/// Permissible deviation above the step: 4 %.
const ABOVE: Number = Number::constant(4, 100);

/// Permissible deviation at or below the step: 6 %.
const AT_OR_BELOW: Number = Number::constant(6, 100);

/// The least share of the largest value at which a wrench is tested, and so may be used.
const LEAST_SHARE: Number = Number::constant(20, 100);

/// What a wrench delivers when it is set to a torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Delivered {
    /// Permissible deviation as a share: 0.04 for ±4 %.
    pub deviation: Number,
    /// The torques that follow from it.
    pub limits: Limits,
}

/// A wrench does not serve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoWrench {
    /// The torque lies outside what the wrench may be used for.
    NotInRange {
        /// The least it may be set to.
        least: Quantity,
        /// The most it may be set to.
        most: Quantity,
    },
    /// Something is no torque, or a number became too large.
    Quantity(NoQuantity),
}

impl<T: Into<NoQuantity>> From<T> for NoWrench {
    fn from(no: T) -> NoWrench {
        NoWrench::Quantity(no.into())
    }
}

impl fmt::Display for NoWrench {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoWrench::NotInRange { .. } => f.write_str("the torque is not in the wrench's range"),
            NoWrench::Quantity(no) => no.fmt(f),
        }
    }
}

impl std::error::Error for NoWrench {}

/// The permissible deviation at a torque: ±4 % above 10 N·m, ±6 % at or below, as a share.
///
/// Taken at the torque that is set. Read by the largest value of the wrench instead, it would never
/// be wider, so that this is the careful reading.
///
/// # Errors
/// [`NoQuantity::Mismatch`] for something that is no torque.
pub fn permissible_deviation(torque: Quantity) -> Result<Number, NoQuantity> {
    Ok(if torque.compare(STEP)?.is_gt() { ABOVE } else { AT_OR_BELOW })
}

/// Asks whether a setting wrench serves for a torque, and within which limits it delivers it.
///
/// Usable is its marked range, but never less than 20 % of the largest value: below that it is not
/// tested.
///
/// # Errors
/// [`NoWrench::NotInRange`] with what the wrench may be set to.
pub fn wrench_fits(
    range_low: Quantity,
    range_high: Quantity,
    torque: Quantity,
) -> Result<Delivered, NoWrench> {
    let deviation = permissible_deviation(torque)?;
    let tested = range_high.mul(Quantity::plain(LEAST_SHARE))?;
    let least = if range_low.compare(tested)?.is_lt() { tested } else { range_low };
    let too_high = torque.compare(range_high)?.is_gt();
    if too_high || torque.compare(least)?.is_lt() || torque.amount <= Number::ZERO {
        return Err(NoWrench::NotInRange { least, most: range_high });
    }
    let off = torque.mul(Quantity::plain(deviation))?;
    let limits = Limits { low: Some(torque.sub(off)?), high: Some(torque.add(off)?) };
    Ok(Delivered { deviation, limits })
}

#[cfg(test)]
mod tests {
    use super::{NoWrench, permissible_deviation, wrench_fits};
    use crate::quantity::{Limits, Measure, Number, Quantity};

    fn quantity(text: &str) -> Quantity {
        Measure::parse(text).unwrap().quantity
    }

    #[track_caller]
    fn check(low: &str, high: &str, torque: &str, limits: (&str, &str)) {
        let found = wrench_fits(quantity(low), quantity(high), quantity(torque)).unwrap();
        let limits = Limits { low: Some(quantity(limits.0)), high: Some(quantity(limits.1)) };
        assert_eq!(found.limits, limits, "{torque}");
    }

    /// ISO 6789, read in a maker's test sheet; 25.5 N·m worked independently.
    #[test]
    fn a_wrench_delivers_within_its_permissible_deviation() {
        check("10 N·m", "50 N·m", "25.5 N·m", ("24.48 N·m", "26.52 N·m"));
        check("1 N·m", "25 N·m", "10 N·m", ("9.4 N·m", "10.6 N·m"));
        check("5 N·m", "25 N·m", "5 N·m", ("4.7 N·m", "5.3 N·m"));
        check("5 N·m", "25 N·m", "25 N·m", ("24 N·m", "26 N·m"));
        check("20 lbf·in", "100 lbf·in", "50 lbf·in", ("47 lbf·in", "53 lbf·in"));
    }

    #[test]
    fn the_closer_deviation_begins_above_ten() {
        let percent = |text: &str| permissible_deviation(quantity(text)).unwrap();
        assert_eq!(percent("10 N·m"), Number::ratio(6, 100).unwrap());
        assert_eq!(percent("10.000001 N·m"), Number::ratio(4, 100).unwrap());
        assert!(permissible_deviation(quantity("10 N")).is_err());
    }

    #[track_caller]
    fn check_refused(low: &str, high: &str, torque: &str, least: &str) {
        let (torque, most) = (quantity(torque), quantity(high));
        let no = NoWrench::NotInRange { least: quantity(least), most };
        assert_eq!(wrench_fits(quantity(low), most, torque), Err(no));
    }

    /// ISO 6789, read in a maker's test sheet: tested at 20, 60 and 100 % of the largest value.
    #[test]
    fn below_a_fifth_of_the_largest_value_a_wrench_is_not_used() {
        check_refused("1 N·m", "50 N·m", "9.99 N·m", "10 N·m");
        check_refused("15 N·m", "50 N·m", "14 N·m", "15 N·m");
        check_refused("10 N·m", "50 N·m", "50.01 N·m", "10 N·m");
        check_refused("0 N·m", "0 N·m", "0 N·m", "0 N·m");
        check("1 N·m", "50 N·m", "10 N·m", ("9.4 N·m", "10.6 N·m"));
    }

    #[test]
    fn everything_must_be_a_torque() {
        let no = wrench_fits(quantity("5 mm"), quantity("25 N·m"), quantity("10 N·m"));
        assert!(matches!(no, Err(NoWrench::Quantity(_))));
    }
}
