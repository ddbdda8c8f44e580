//! From positions on a rail to places on the drawing, and the ticks between.

use crate::page::decimal;

use super::{WIDTH, labels};

/// Where the rail begins on the drawing: left of it stand the names of the rows.
const LEFT: i64 = 150;
/// Where the rail ends on the drawing.
const RIGHT: i64 = WIDTH - 50;
/// Farther out than this nothing is drawn: far beyond both edges of the sheet.
const FAR: i64 = 20 * WIDTH;

/// Maps millionths of the rail's unit to drawing units.
pub(super) struct Scale {
    left: i64,
    span: i64,
}

/// A mark on the scale; every few of them carry their value.
pub(super) struct Tick {
    pub x: i64,
    pub label: Option<String>,
}

impl Scale {
    /// None when the rail has no length.
    pub fn new(left: i64, right: i64) -> Option<Scale> {
        let span = right.checked_sub(left).filter(|span| *span > 0)?;
        Some(Scale { left, span })
    }

    /// The place of a position.
    pub fn x(&self, value: i64) -> i64 {
        LEFT + self.length(value - self.left)
    }

    /// The place of a position in text.
    pub fn read(&self, text: &str) -> Option<i64> {
        decimal::read(text).map(|value| self.x(value))
    }

    /// A distance, rounded to the nearest drawing unit.
    pub fn length(&self, distance: i64) -> i64 {
        let (span, room) = (i128::from(self.span), i128::from(RIGHT - LEFT));
        let scaled = (i128::from(distance) * room * 2 + span).div_euclid(span * 2);
        i64::try_from(scaled).unwrap_or(FAR).clamp(-FAR, FAR)
    }

    /// Both ends of the rail.
    pub fn ends(&self) -> (i64, i64) {
        (LEFT, RIGHT)
    }

    /// Marks at round values, as close as their labels allow.
    pub fn ticks(&self) -> Vec<Tick> {
        let (step, parts) = self.step();
        let fine = (step / parts).max(1);
        let first = -(-self.left).div_euclid(fine);
        let last = (self.left + self.span).div_euclid(fine);
        (first..=last)
            .map(|index| index * fine)
            .map(|value| Tick {
                x: self.x(value),
                label: (value % step == 0).then(|| decimal::write(value)),
            })
            .collect()
    }

    /// The least of 1, 2, 5, 10, 20 ... whose labels do not touch, and into how many it is divided.
    fn step(&self) -> (i64, i64) {
        let needed = labels::width(&decimal::write(self.left.min(-self.span))) + 10;
        let mut power = 1;
        loop {
            for (factor, parts) in [(1, 5), (2, 4), (5, 5)] {
                let step = factor * power;
                if self.length(step) >= needed || step >= self.span {
                    return (step, parts);
                }
            }
            power *= 10;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{LEFT, RIGHT, Scale};
    use crate::page::decimal::read;

    #[track_caller]
    fn check(left: &str, right: &str, expected: &[&str]) {
        let scale = Scale::new(read(left).unwrap(), read(right).unwrap()).unwrap();
        let labels: Vec<String> = scale.ticks().into_iter().filter_map(|tick| tick.label).collect();
        assert_eq!(labels, expected);
    }

    #[test]
    fn labels_are_round_values_with_the_datum_among_them() {
        check("-150", "150", &["-150", "-100", "-50", "0", "50", "100", "150"]);
        check(
            "-420.5",
            "420.5",
            &["-400", "-300", "-200", "-100", "0", "100", "200", "300", "400"],
        );
        check(
            "-1",
            "1.5",
            &[
                "-1", "-0.8", "-0.6", "-0.4", "-0.2", "0", "0.2", "0.4", "0.6", "0.8", "1", "1.2",
                "1.4",
            ],
        );
    }

    #[test]
    fn both_ends_of_the_rail_are_both_ends_of_the_drawing() {
        let scale = Scale::new(-300_000_000, 300_000_000).unwrap();
        assert_eq!((scale.x(-300_000_000), scale.x(300_000_000)), (LEFT, RIGHT));
        assert_eq!(scale.x(0), (LEFT + RIGHT) / 2);
    }

    #[test]
    fn no_length_no_scale_and_no_overflow() {
        assert!(Scale::new(5, 5).is_none());
        assert!(Scale::new(i64::MIN, i64::MAX).is_none());
        let widest = Scale::new(read("-9999999999").unwrap(), read("9999999999").unwrap()).unwrap();
        assert!(widest.ticks().len() < 200);
        assert!(Scale::new(-1, 1).unwrap().ticks().len() < 200);
    }
}
