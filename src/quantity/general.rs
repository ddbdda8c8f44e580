//! General tolerances: what is allowed when a drawing names only a class (ISO 2768-1:1989).
//!
//! Must never guess: a size the standard has no row for has no tolerance.

use std::fmt;

use super::Quantity;
use super::dimension::Dimension;
use super::number::Number;
use super::tolerance::Tolerance;
use super::unit::Unit;

/// A class of general tolerances, from fine to very coarse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GeneralClass {
    /// f.
    Fine,
    /// m.
    Medium,
    /// c.
    Coarse,
    /// v.
    VeryCoarse,
}

/// Sizes up to and including so many mm, and what each class f, m, c, v allows in 0.01 mm.
///
/// Source: ISO 2768-1:1989 table 1, read in three technical-drawing references. Below 0.5 mm the
/// standard wants the deviation beside the dimension.
const LENGTHS: [(u32, [Option<u32>; 4]); 8] = [
    (3, [Some(5), Some(10), Some(20), None]),
    (6, [Some(5), Some(10), Some(30), Some(50)]),
    (30, [Some(10), Some(20), Some(50), Some(100)]),
    (120, [Some(15), Some(30), Some(80), Some(150)]),
    (400, [Some(20), Some(50), Some(120), Some(250)]),
    (1000, [Some(30), Some(80), Some(200), Some(400)]),
    (2000, [Some(50), Some(120), Some(300), Some(600)]),
    (4000, [None, Some(200), Some(400), Some(800)]),
];

/// The least size in [`LENGTHS`]: 0.5 mm.
const LEAST_LENGTH: Number = Number::constant(1, 2);

/// Shorter legs up to and including so many mm, and what f and m, c, v allow in minutes of arc.
///
/// Source: ISO 2768-1:1989, table of angular dimensions (number 3 from memory), read in
/// technical-drawing references.
const LEGS: [(Option<u32>, [u32; 3]); 5] = [
    (Some(10), [60, 90, 180]),
    (Some(50), [30, 60, 120]),
    (Some(120), [20, 30, 60]),
    (Some(400), [10, 15, 30]),
    (None, [5, 10, 20]),
];

/// Minutes of arc in a degree.
const MINUTES: u32 = 60;

impl GeneralClass {
    /// All of them, the finest first.
    pub const ALL: [GeneralClass; 4] =
        [GeneralClass::Fine, GeneralClass::Medium, GeneralClass::Coarse, GeneralClass::VeryCoarse];

    /// The letter of the standard: `f`, `m`, `c` or `v`.
    pub fn letter(self) -> &'static str {
        match self {
            GeneralClass::Fine => "f",
            GeneralClass::Medium => "m",
            GeneralClass::Coarse => "c",
            GeneralClass::VeryCoarse => "v",
        }
    }

    /// The class with this letter; capital letters belong to other standards.
    pub fn find(letter: &str) -> Option<GeneralClass> {
        GeneralClass::ALL.into_iter().find(|class| class.letter() == letter)
    }

    /// How far a length may be off, by its size on either side of nothing.
    ///
    /// A size on the boundary of two rows belongs to the lower one: 120 mm is over 30 up to 120.
    /// None for what is no length, below 0.5 mm, above 4000 mm (class f: 2000 mm), and up to 3 mm
    /// in class v.
    pub fn for_length(self, size: Quantity) -> Option<Tolerance> {
        let size = millimetres(size)?;
        if size < LEAST_LENGTH {
            return None;
        }
        let (_, row) = LENGTHS.iter().find(|(up_to, _)| size <= Number::from(*up_to))?;
        let hundredths = row[self.column()]?;
        Some(both_ways(Number::constant(hundredths.into(), 100), Unit::natural(Dimension::LENGTH)?))
    }

    /// How far an angle may be off, by the length of its shorter leg.
    ///
    /// A whole degree or more is given in °, less in minutes of arc. None when the leg is no length,
    /// or not above nothing.
    pub fn for_angle(self, shorter_leg: Quantity) -> Option<Tolerance> {
        let leg = millimetres(shorter_leg).filter(|_| shorter_leg.amount > Number::ZERO)?;
        let fits = |up_to: Option<u32>| up_to.is_none_or(|up_to| leg <= Number::from(up_to));
        let (_, row) = LEGS.iter().find(|(up_to, _)| fits(*up_to))?;
        let minutes = row[self.column().saturating_sub(1)];
        let unit = Unit::find(if minutes < MINUTES { "arcmin" } else { "°" })?;
        Some(both_ways(Number::constant(minutes.into(), MINUTES.into()), unit))
    }

    fn column(self) -> usize {
        match self {
            GeneralClass::Fine => 0,
            GeneralClass::Medium => 1,
            GeneralClass::Coarse => 2,
            GeneralClass::VeryCoarse => 3,
        }
    }
}

impl fmt::Display for GeneralClass {
    /// `ISO 2768-1 m`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "ISO 2768-1 {}", self.letter())
    }
}

/// The size of a length in mm, its base unit; none for everything else.
fn millimetres(size: Quantity) -> Option<Number> {
    (size.dimension == Dimension::LENGTH).then(|| size.amount.abs())
}

/// So many base units down and up, written in `unit`.
fn both_ways(amount: Number, unit: &'static Unit) -> Tolerance {
    let deviation = |amount| Quantity { amount, dimension: unit.dimension };
    Tolerance { lower: deviation(amount.neg()), upper: deviation(amount), unit: Some(unit) }
}

#[cfg(test)]
mod tests {
    use super::super::tests::quantity;
    use super::GeneralClass;

    fn shown(tolerance: Option<super::Tolerance>) -> String {
        tolerance.map_or("none".to_owned(), |tolerance| tolerance.to_string())
    }

    fn lengths(size: &str) -> String {
        let size = quantity(size);
        GeneralClass::ALL.map(|class| shown(class.for_length(size))).join(" ").replace(" mm", "")
    }

    fn angles(leg: &str) -> String {
        let leg = quantity(leg);
        GeneralClass::ALL.map(|class| shown(class.for_angle(leg))).join(" ").replace(" arcmin", "′")
    }

    /// ISO 2768-1:1989 table 1, read in three technical-drawing references: classes f, m, c, v. The
    /// rows are "over ... up to and including": each is tested at both of its ends.
    #[test]
    fn lengths_are_those_of_the_table() {
        for (least, most, row) in [
            ("0.5 mm", "3 mm", "±0.05 ±0.1 ±0.2 none"),
            ("3.001 mm", "6 mm", "±0.05 ±0.1 ±0.3 ±0.5"),
            ("6.001 mm", "30 mm", "±0.1 ±0.2 ±0.5 ±1"),
            ("30.001 mm", "120 mm", "±0.15 ±0.3 ±0.8 ±1.5"),
            ("120.001 mm", "400 mm", "±0.2 ±0.5 ±1.2 ±2.5"),
            ("400.001 mm", "1000 mm", "±0.3 ±0.8 ±2 ±4"),
            ("1000.001 mm", "2000 mm", "±0.5 ±1.2 ±3 ±6"),
            ("2000.001 mm", "4000 mm", "none ±2 ±4 ±8"),
        ] {
            assert_eq!((lengths(least).as_str(), lengths(most).as_str()), (row, row));
            assert_eq!(lengths(&format!("-{most}")), row);
        }
    }

    #[test]
    fn what_the_table_has_no_row_for_has_no_tolerance() {
        for size in ["0.499 mm", "0 mm", "4000.001 mm", "1 kg", "45°", "1", "20 °C"] {
            assert_eq!(lengths(size), "none none none none", "{size}");
        }
    }

    /// 35 m and 130 m are printed as examples in the references; 56 and 120 follow from the table.
    #[test]
    fn printed_examples_come_out() {
        for (size, medium) in [
            ("35 mm", "±0.3 mm"),
            ("130 mm", "±0.5 mm"),
            ("56 mm", "±0.3 mm"),
            ("120 mm", "±0.3 mm"),
            ("120.1 mm", "±0.5 mm"),
        ] {
            assert_eq!(shown(GeneralClass::Medium.for_length(quantity(size))), medium);
        }
    }

    /// ISO 2768-1:1989, angular dimensions, read in technical-drawing references.
    #[test]
    fn angles_are_those_of_the_table() {
        for (least, most, row) in [
            ("0.001 mm", "10 mm", "±1° ±1° ±1.5° ±3°"),
            ("10.001 mm", "50 mm", "±30′ ±30′ ±1° ±2°"),
            ("50.001 mm", "120 mm", "±20′ ±20′ ±30′ ±1°"),
            ("120.001 mm", "400 mm", "±10′ ±10′ ±15′ ±30′"),
            ("400.001 mm", "5 m", "±5′ ±5′ ±10′ ±20′"),
        ] {
            assert_eq!((angles(least).as_str(), angles(most).as_str()), (row, row));
        }
        for leg in ["0 mm", "-5 mm", "10°", "1 kg"] {
            assert_eq!(angles(leg), "none none none none", "{leg}");
        }
    }

    #[test]
    fn an_angle_is_allowed_in_degrees() {
        let tolerance = GeneralClass::Medium.for_angle(quantity("30 mm")).unwrap();
        let limits = tolerance.limits(quantity("45°")).unwrap();
        assert_eq!(limits.low, Some(quantity("44.5°")));
        assert_eq!(limits.high, Some(quantity("45.5°")));
    }

    #[test]
    fn letters_are_those_of_the_standard() {
        for class in GeneralClass::ALL {
            assert_eq!(GeneralClass::find(class.letter()), Some(class));
        }
        assert_eq!(GeneralClass::find("M"), None);
        assert_eq!(GeneralClass::find(""), None);
    }
}
