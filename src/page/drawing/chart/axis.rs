//! From values to heights on a drawing, and the round values between.

use crate::page::decimal::{self, PARTS};

use super::super::labels::LINE;

/// Maps millionths of a unit to drawing units, upwards.
pub(super) struct Axis {
    low: i64,
    high: i64,
    /// Where the lowest value stands.
    bottom: i64,
    /// Where the highest value stands.
    top: i64,
}

impl Axis {
    /// An axis for these values between two heights. Values that are all the same get one unit of
    /// ground on both sides.
    pub fn new((low, high): (i64, i64), (bottom, top): (i64, i64)) -> Axis {
        match low == high {
            true => Axis {
                low: low.saturating_sub(PARTS),
                high: high.saturating_add(PARTS),
                bottom,
                top,
            },
            false => Axis { low, high, bottom, top },
        }
    }

    /// Height of a value, rounded to the nearest drawing unit.
    pub fn y(&self, value: i64) -> i64 {
        let [low, high, value] = [self.low, self.high, value].map(i128::from);
        let (room, span) = (i128::from(self.bottom - self.top), (high - low).max(1));
        let up = ((value - low) * room * 2 + span).div_euclid(span * 2);
        self.bottom - i64::try_from(up).unwrap_or(0)
    }

    /// Round values with their heights, as close as lines of text allow.
    pub fn ticks(&self) -> Vec<(i64, String)> {
        let step = self.step();
        let first = -(-self.low).div_euclid(step);
        let last = self.high.div_euclid(step);
        (first..=last)
            .map(|index| index * step)
            .map(|value| (self.y(value), decimal::write(value)))
            .collect()
    }

    /// The least of 1, 2, 5, 10, 20 ... millionths whose labels do not touch.
    fn step(&self) -> i64 {
        let room = i128::from(self.bottom - self.top);
        let span = i128::from(self.high) - i128::from(self.low);
        let fits = |step: i64| i128::from(step) * room >= i128::from(LINE) * span;
        let powers = (0..18).map(|power| 10_i64.pow(power));
        let mut steps = powers.flat_map(|power| [power, 2 * power, 5 * power]);
        steps.find(|step| fits(*step)).unwrap_or(i64::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::Axis;
    use crate::page::decimal::read;

    #[track_caller]
    fn check(low: &str, high: &str, expected: &[&str]) {
        let axis = Axis::new((read(low).unwrap(), read(high).unwrap()), (300, 0));
        let ticks: Vec<String> = axis.ticks().into_iter().map(|(_, value)| value).collect();
        assert_eq!(ticks, expected);
    }

    #[test]
    fn ticks_are_round_and_do_not_touch() {
        check("45.8159", "55.8041", &["46", "48", "50", "52", "54"]);
        check("-0.3", "0.7", &["-0.2", "0", "0.2", "0.4", "0.6"]);
        check("0", "1", &["0", "0.2", "0.4", "0.6", "0.8", "1"]);
        check("7", "7", &["6", "6.5", "7", "7.5", "8"]);
        check("9999999999", "9999999999.000001", &["9999999999", "9999999999.000001"]);
    }

    #[test]
    fn both_ends_are_where_they_shall_be_and_nothing_overflows() {
        let axis = Axis::new((-5, 5), (300, 20));
        assert_eq!((axis.y(-5), axis.y(0), axis.y(5)), (300, 160, 20));
        let widest = read("9999999999.999999").unwrap();
        let axis = Axis::new((-widest, widest), (300, 20));
        assert_eq!((axis.y(-widest), axis.y(widest)), (300, 20));
        assert!(axis.ticks().len() < 10);
    }
}
