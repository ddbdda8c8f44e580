//! What goes wrong when marks are stepped off from one another and not measured from the datum.
//!
//! A mark measured from the datum is off by the error of one measurement. A mark stepped off, one
//! step from the mark before it, is off by the errors of all the steps that led to it.

use crate::quantity::number::{NoNumber, Number, Rounding};

/// How far a mark may be off after so many steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stepping {
    /// Steps that led to the mark.
    pub steps: u32,
    /// When every step is off by its limit, all in one direction.
    pub worst: Number,
    /// The root of the sum of the squares of the limits, as when errors are independent.
    pub rss: Number,
}

/// How far a mark may be off when each of `steps` steps may be off by `each`.
///
/// Worst case `steps * each`; root sum of squares `sqrt(steps) * each`. Measured from the datum it
/// would be `each`, for every mark.
///
/// Source: rules of adding tolerances in a chain, from memory; checked below by figures worked
/// independently.
///
/// # Errors
/// [`NoNumber::Overflow`].
pub fn stepping(steps: u32, each: Number) -> Result<Stepping, NoNumber> {
    let count = Number::from(steps);
    Ok(Stepping { steps, worst: count.mul(each)?, rss: count.sqrt()?.mul(each)? })
}

/// How far off the last of `steps` marks is when the pitch is rounded to the rule before stepping.
///
/// `steps * (rounded - pitch)`, the pitch rounded to the nearest step of the rule, a tie to the even
/// one; more than zero is too far out. This error is certain: it is not one of those that average.
///
/// # Errors
/// [`NoNumber::DivisionByZero`] for a rule with steps of nothing, [`NoNumber::Overflow`].
pub fn pitch_drift(steps: u32, pitch: Number, step_of_rule: Number) -> Result<Number, NoNumber> {
    let rounded = pitch.round_to_step(step_of_rule, Rounding::HalfEven)?;
    Number::from(steps).mul(rounded.sub(pitch)?)
}

#[cfg(test)]
mod tests {
    use super::{pitch_drift, stepping};
    use crate::quantity::number::{NoNumber, Number};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    /// Steps of 0.25 each: worst case and root sum of squares.
    #[track_caller]
    fn check(steps: u32, worst: &str, rss: &str) {
        let stepping = stepping(steps, number("0.25")).unwrap();
        assert_eq!(stepping.steps, steps);
        assert_eq!(stepping.worst.decimal(2), worst);
        assert_eq!(stepping.rss.decimal(3), rss);
    }

    /// Worked independently.
    #[test]
    fn errors_of_steps_add_up() {
        check(0, "0.00", "0.000");
        check(1, "0.25", "0.250");
        check(2, "0.50", "0.354");
        check(3, "0.75", "0.433");
        check(4, "1.00", "0.500");
        check(5, "1.25", "0.559");
        check(6, "1.50", "0.612");
        check(8, "2.00", "0.707");
        check(10, "2.50", "0.791");
        check(12, "3.00", "0.866");
    }

    /// Worked independently.
    #[test]
    fn a_rounded_pitch_drifts() {
        let drift = |steps, rule: &str| pitch_drift(steps, number("56.3"), number(rule)).unwrap();
        assert_eq!(drift(8, "0.5"), number("1.6"));
        assert_eq!(drift(8, "1"), number("-2.4"));
        assert_eq!(drift(8, "1.5875"), number("-5.9"));
        assert_eq!(drift(8, "0.1"), Number::ZERO);
        assert_eq!(drift(0, "1"), Number::ZERO);
    }

    #[test]
    fn what_has_no_number_says_so() {
        let huge = Number::from(i64::MAX).mul(Number::from(10_i64.pow(17))).unwrap();
        assert_eq!(stepping(u32::MAX, huge), Err(NoNumber::Overflow));
        let nothing = pitch_drift(8, number("56.3"), Number::ZERO);
        assert_eq!(nothing, Err(NoNumber::DivisionByZero));
    }
}
