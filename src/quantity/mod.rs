//! Exact quantities: numbers with a dimension, as people write them.
//!
//! Read in this order: [`number`], [`dimension`], [`mod@unit`], this file, [`tolerance`],
//! [`general`], [`allowed`], [`mod@settle`], [`system`], [`uncertainty`]. Nothing in here rounds unless
//! its name says so, and nothing knows YAML, files or formulas.
//!
//! ```
//! use witnessmark::quantity::{Measure, Tolerance, Unit, Verdict, inward, settle};
//!
//! let target = Measure::parse("2 7/32 in").expect("a length").quantity;
//! let limits = Tolerance::parse("±0.5 mm").expect("a tolerance").limits(target).expect("lengths");
//! let rule = Measure::parse_difference("0.5 mm").expect("a length");
//! let settled = settle(target, &limits, &rule).expect("the rule is fine enough");
//! let mm = Unit::find("mm");
//! assert_eq!(settled.value.show(mm, 1).expect("a length"), "56.5 mm"); // exactly 56.35625 mm
//! assert_eq!(inward(&limits, mm, 1).expect("lengths").low.as_deref(), Some("55.9"));
//! let reading = Measure::parse("55.8 mm").expect("a length").quantity;
//! assert_eq!(limits.judge(reading), Ok(Verdict::Below));
//! ```

use std::cmp::Ordering;
use std::fmt;
use std::ops::Range;

use crate::language::Words;

pub mod allowed;
pub mod dimension;
pub mod general;
pub mod number;
pub(crate) mod scan;
pub mod settle;
mod small;
pub mod system;
pub mod tolerance;
pub mod uncertainty;
pub mod unit;

pub use allowed::{Allowed, NotAllowed};
pub use dimension::Dimension;
pub use general::GeneralClass;
pub use number::{NoNumber, Number, Rounding, decimals_in};
pub use scan::{BadKind, BadMeasure};
pub use settle::{
    NotSettled, PrintedLimits, Settled, fraction_of, inward, inward_to_steps, outward, places_of,
    printed, settle,
};
pub use system::{System, beside, beside_limits};
pub use tolerance::{Limits, Tolerance, Verdict};
pub use uncertainty::{
    Guarded, Sure, discrimination, guard, of_instrument, test_uncertainty_ratio,
};
pub use unit::Unit;

/// How much of what: a number of base units (mm, kg, s, K, A, °) and its dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// How many base units.
    pub amount: Number,
    /// Of what kind.
    pub dimension: Dimension,
}

/// A quantity and the unit it was written in, or shall be shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Measure {
    /// How much of what.
    pub quantity: Quantity,
    /// The unit; none for a plain number, and for results nobody chose a unit for.
    pub unit: Option<&'static Unit>,
}

/// An operation on quantities has no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoQuantity {
    /// The numbers have no answer.
    Number(NoNumber),
    /// The two cannot be added, compared or converted.
    Mismatch {
        /// What is there.
        left: Dimension,
        /// What it should go together with.
        right: Dimension,
    },
    /// A temperature on the scale cannot be multiplied, divided, negated or added to another.
    TemperaturePoint,
    /// The dimension has no square root.
    NoRoot(Dimension),
    /// A power above 127.
    Powers,
}

impl From<NoNumber> for NoQuantity {
    fn from(no: NoNumber) -> NoQuantity {
        NoQuantity::Number(no)
    }
}

impl NoQuantity {
    /// What is wrong, and in a formula how to write it instead.
    pub fn words(self) -> Words {
        match self {
            NoQuantity::Number(no) => no.words(),
            NoQuantity::Mismatch { left, right } => {
                let parts = [("left", left.words().into()), ("right", right.words().into())];
                Words::new("number-mismatch", &parts)
            }
            NoQuantity::TemperaturePoint => Words::of("number-temperature-point"),
            NoQuantity::NoRoot(dimension) => {
                Words::new("number-no-root", &[("dimension", dimension.words().into())])
            }
            NoQuantity::Powers => Words::of("number-powers"),
        }
    }
}

impl fmt::Display for NoQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for NoQuantity {}

impl Quantity {
    /// A plain number.
    pub fn plain(number: Number) -> Quantity {
        Quantity { amount: number, dimension: Dimension::NONE }
    }

    /// So many of a unit; °C and °F count from their own zero. Without a unit: a plain number.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn of(number: Number, unit: Option<&Unit>) -> Result<Quantity, NoNumber> {
        let Some(unit) = unit else { return Ok(Quantity::plain(number)) };
        let amount = number.mul(unit.factor)?.add(unit.origin)?;
        Ok(Quantity { amount, dimension: unit.dimension })
    }

    /// So many of a unit as a difference: `5 °C` warmer. Other units: as [`Quantity::of`].
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn difference_of(number: Number, unit: Option<&Unit>) -> Result<Quantity, NoNumber> {
        let Some(unit) = unit else { return Ok(Quantity::plain(number)) };
        let dimension = as_difference(unit.dimension);
        Ok(Quantity { amount: number.mul(unit.factor)?, dimension })
    }

    /// How many of `unit` it is; without a unit it must be a plain number.
    ///
    /// A temperature difference is counted in °C or °F without the offset.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`] when the unit measures something else.
    pub fn in_unit(self, unit: Option<&Unit>) -> Result<Number, NoQuantity> {
        let wanted = unit.map_or(Dimension::NONE, |unit| unit.dimension);
        let (factor, origin) = unit.map_or((Number::ONE, Number::ZERO), |u| (u.factor, u.origin));
        if self.dimension == wanted {
            Ok(self.amount.sub(origin)?.div(factor)?)
        } else if self.dimension == as_difference(wanted) {
            Ok(self.amount.div(factor)?)
        } else {
            Err(NoQuantity::Mismatch { left: self.dimension, right: wanted })
        }
    }

    /// The text for people, `56.0 mm`, `6`, `120 °C`, rounded half to even at `places`.
    ///
    /// # Errors
    /// As [`Quantity::in_unit`].
    pub fn show(self, unit: Option<&Unit>, places: u32) -> Result<String, NoQuantity> {
        Ok(with_symbol(self.in_unit(unit)?.decimal(places), unit))
    }

    /// Which of the two is greater.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`].
    pub fn compare(self, other: Quantity) -> Result<Ordering, NoQuantity> {
        self.must_match(other)?;
        Ok(self.amount.cmp(&other.amount))
    }

    /// The square root; exact when it is a fraction, else right to 15 digits.
    ///
    /// # Errors
    /// [`NoQuantity::NoRoot`], [`NoNumber::NegativeRoot`], [`NoNumber::Overflow`].
    pub fn sqrt(self) -> Result<Quantity, NoQuantity> {
        let dimension = self.dimension.root().ok_or(NoQuantity::NoRoot(self.dimension))?;
        Ok(Quantity { amount: self.amount.sqrt()?, dimension })
    }

    /// The distance from nothing.
    ///
    /// # Errors
    /// [`NoQuantity::TemperaturePoint`].
    pub fn abs(self) -> Result<Quantity, NoQuantity> {
        if self.amount.is_negative() { self.neg() } else { self.no_point() }
    }

    fn no_point(self) -> Result<Quantity, NoQuantity> {
        if self.dimension.is_point() { Err(NoQuantity::TemperaturePoint) } else { Ok(self) }
    }

    fn must_match(self, other: Quantity) -> Result<(), NoQuantity> {
        let (left, right) = (self.dimension, other.dimension);
        if left == right { Ok(()) } else { Err(NoQuantity::Mismatch { left, right }) }
    }
}

/// Arithmetic. Temperatures: point - point is a difference, point ± difference is a point.
#[allow(clippy::should_implement_trait, reason = "the operators of std cannot fail")]
impl Quantity {
    /// The sum.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`]; [`NoQuantity::TemperaturePoint`] for two temperatures.
    pub fn add(self, other: Quantity) -> Result<Quantity, NoQuantity> {
        let dimension = match (self.dimension.is_point(), other.dimension.is_point()) {
            (true, true) => return Err(NoQuantity::TemperaturePoint),
            (true, false) => sum_with_point(self, other)?,
            (false, true) => sum_with_point(other, self)?,
            (false, false) => {
                self.must_match(other)?;
                self.dimension
            }
        };
        Ok(Quantity { amount: self.amount.add(other.amount)?, dimension })
    }

    /// The difference.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`].
    pub fn sub(self, other: Quantity) -> Result<Quantity, NoQuantity> {
        let dimension = match (self.dimension.is_point(), other.dimension.is_point()) {
            (true, true) => Dimension::TEMPERATURE_DIFFERENCE,
            (true, false) => sum_with_point(self, other)?,
            _ => {
                self.must_match(other)?;
                self.dimension
            }
        };
        Ok(Quantity { amount: self.amount.sub(other.amount)?, dimension })
    }

    /// The product.
    ///
    /// # Errors
    /// [`NoQuantity::TemperaturePoint`], [`NoQuantity::Powers`].
    pub fn mul(self, other: Quantity) -> Result<Quantity, NoQuantity> {
        self.no_point().and(other.no_point())?;
        let dimension = self.dimension.times(other.dimension).ok_or(NoQuantity::Powers)?;
        Ok(Quantity { amount: self.amount.mul(other.amount)?, dimension })
    }

    /// The quotient.
    ///
    /// # Errors
    /// [`NoQuantity::TemperaturePoint`], [`NoQuantity::Powers`], [`NoNumber::DivisionByZero`].
    pub fn div(self, other: Quantity) -> Result<Quantity, NoQuantity> {
        self.no_point().and(other.no_point())?;
        let dimension = self.dimension.over(other.dimension).ok_or(NoQuantity::Powers)?;
        Ok(Quantity { amount: self.amount.div(other.amount)?, dimension })
    }

    /// The same on the other side of nothing.
    ///
    /// # Errors
    /// [`NoQuantity::TemperaturePoint`].
    pub fn neg(self) -> Result<Quantity, NoQuantity> {
        let Quantity { amount, dimension } = self.no_point()?;
        Ok(Quantity { amount: amount.neg(), dimension })
    }
}

/// The dimension of a temperature point and something that must be a difference.
fn sum_with_point(point: Quantity, other: Quantity) -> Result<Dimension, NoQuantity> {
    if other.dimension == Dimension::TEMPERATURE_DIFFERENCE {
        return Ok(point.dimension);
    }
    Err(NoQuantity::Mismatch { left: point.dimension, right: other.dimension })
}

/// The dimension of a difference of two of these.
fn as_difference(dimension: Dimension) -> Dimension {
    if dimension.is_point() { Dimension::TEMPERATURE_DIFFERENCE } else { dimension }
}

/// A blank stands before every symbol but the degree of an angle (SP 811 7.2).
fn with_symbol(number: String, unit: Option<&Unit>) -> String {
    match unit {
        None => number,
        Some(unit) if unit.symbol == "°" => number + unit.symbol,
        Some(unit) => format!("{number} {}", unit.symbol),
    }
}

impl Measure {
    /// A plain number.
    pub fn plain(number: Number) -> Measure {
        Measure { quantity: Quantity::plain(number), unit: None }
    }

    /// Reads `56 mm`, `2 1/4 in`, `-0.5 mm`, `120 °C`, `90 1/min`, `6`.
    ///
    /// °C and °F are points on the scale; K is a difference of temperatures.
    ///
    /// # Errors
    /// [`BadMeasure`] with the place and what is wrong there.
    pub fn parse(text: &str) -> Result<Measure, BadMeasure> {
        Measure::parse_as(text, Quantity::of)
    }

    /// Like [`Measure::parse`], but `5 °C` is a difference: resolutions, steps, uncertainties.
    ///
    /// # Errors
    /// [`BadMeasure`] with the place and what is wrong there.
    pub fn parse_difference(text: &str) -> Result<Measure, BadMeasure> {
        Measure::parse_as(text, Quantity::difference_of)
    }

    fn parse_as(
        text: &str,
        make: fn(Number, Option<&Unit>) -> Result<Quantity, NoNumber>,
    ) -> Result<Measure, BadMeasure> {
        let (number, rest) = scan::whole_number(text)?;
        let unit = unit_at(text, rest.clone())?;
        let too_large = |no| BadMeasure { range: 0..rest.end, kind: BadKind::Number(no) };
        Ok(Measure { quantity: make(number, unit).map_err(too_large)?, unit })
    }

    /// The unit it is shown in: its own, or the usual one of its dimension.
    pub fn shown_unit(&self) -> Option<&'static Unit> {
        self.unit.or_else(|| Unit::fitting(self.quantity))
    }

    /// The number in its own unit, `2.25` for `2 1/4 in`.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`] when the unit measures something else.
    pub fn number(&self) -> Result<Number, NoQuantity> {
        self.quantity.in_unit(self.unit)
    }

    /// The same distance as a difference: `5 °C` becomes five degrees warmer.
    ///
    /// # Errors
    /// As [`Measure::number`].
    pub fn as_difference(&self) -> Result<Measure, NoQuantity> {
        let quantity = Quantity::difference_of(self.number()?, self.unit)?;
        Ok(Measure { quantity, unit: self.unit })
    }

    /// The text for people with at most `most` decimals and no trailing zeros.
    pub fn shortest(&self, most: u32) -> String {
        let unit = self.shown_unit();
        match self.quantity.in_unit(unit) {
            Ok(number) => with_symbol(number.shortest(most), unit),
            Err(_) => {
                let symbol = self.quantity.dimension.base_symbol();
                format!("{} {symbol}", self.quantity.amount.shortest(most)).trim_end().to_owned()
            }
        }
    }
}

impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.shortest(number::SHOWN_PLACES))
    }
}

/// The unit that fills `range` of the text; none when the range is empty.
fn unit_at(text: &str, range: Range<usize>) -> Result<Option<&'static Unit>, BadMeasure> {
    let written = &text[range.clone()];
    if written.is_empty() {
        return Ok(None);
    }
    Unit::find(written).map(Some).ok_or_else(|| BadMeasure { range, kind: unknown_unit(written) })
}

/// What to say of a text that is no unit.
pub(crate) fn unknown_unit(written: &str) -> BadKind {
    let nearest = Unit::nearest(written);
    BadKind::UnknownUnit { written: written.chars().take(24).collect(), nearest }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::unit::{UNITS, pairs};
    use super::{Dimension, Measure, NoQuantity, Number, Quantity, Unit};

    pub(super) fn quantity(text: &str) -> Quantity {
        Measure::parse(text).unwrap().quantity
    }

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(Measure::parse(text).unwrap().to_string(), expected);
    }

    #[test]
    fn people_write_quantities_in_many_ways() {
        check("56 mm", "56 mm");
        check(" 56mm ", "56 mm");
        check("2 1/4 in", "2.25 in");
        check("2-1/4 in", "2.25 in");
        check("3/8 in", "0.375 in");
        check("-0.50 mm", "-0.5 mm");
        check("\u{2212}0.5 mm", "-0.5 mm");
        check("9.5 Nm", "9.5 N·m");
        check("90 1/min", "90 1/min");
        check("2 1/2 1/min", "2.5 1/min");
        check("6", "6");
        check("120 degC", "120 °C");
        check("5 \u{3bc}m", "5 µm");
        check("56\u{a0}mm", "56 mm");
        check("12 %", "12 %");
    }

    #[track_caller]
    fn check_bad(text: &str, wrong: &str, says: &str, way_out: &str) {
        let bad = Measure::parse(text).unwrap_err();
        let found =
            (&text[bad.range.clone()], bad.to_string(), bad.kind.words().way_out().to_string());
        assert_eq!(found, (wrong, says.to_owned(), way_out.to_owned()));
    }

    #[test]
    fn what_is_wrong_is_shown_at_its_place() {
        check_bad("5 MM", "MM", "`MM` is not a known unit", "did you mean `mm`?");
        check_bad(
            "5 parsec",
            "parsec",
            "`parsec` is not a known unit",
            "write a unit such as mm, in, kg, °C or bar",
        );
        check_bad(
            " 0,5 mm",
            "0,5",
            "a comma is not a decimal sign here",
            "write a point as the decimal sign, and nothing between digits",
        );
        check_bad(
            ".5 mm",
            ".5",
            "a number cannot begin with a point",
            "write a digit before the point: 0.5",
        );
        check_bad(
            "5. mm",
            "5.",
            "a number cannot end with a point",
            "write a digit after the point, or leave the point out",
        );
        check_bad(
            "2 5/4 in",
            "5/4",
            "the fraction after a whole number must be below one",
            "write a fraction below one: 3 1/4 for 2 5/4",
        );
        check_bad(
            "1/0 in",
            "1/0",
            "the denominator of a fraction is zero",
            "write a denominator above zero",
        );
        check_bad("  ", "  ", "there is no value", "write a number, such as 56, -0.5 or 2 1/4");
        check_bad("mm", "m", "this is not a number", "write a number, such as 56, -0.5 or 2 1/4");
        check_bad(
            "1234567890123456789 mm",
            "1234567890123456789",
            "the number has too many digits",
            "write at most 18 digits",
        );
    }

    #[track_caller]
    fn check_show(text: &str, unit: &str, places: u32, expected: &str) {
        assert_eq!(quantity(text).show(Unit::find(unit), places).unwrap(), expected);
    }

    #[test]
    fn quantities_are_shown_with_the_places_asked_for() {
        check_show("56 mm", "mm", 1, "56.0 mm");
        check_show("2 1/4 in", "mm", 2, "57.15 mm");
        check_show("6", "", 0, "6");
        check_show("248 °F", "°C", 0, "120 °C");
    }

    #[test]
    fn what_does_not_go_together_is_refused() {
        let mismatch = |left, right| Err(NoQuantity::Mismatch { left, right });
        let added = quantity("1 mm").add(quantity("1 kg"));
        assert_eq!(added, mismatch(Dimension::LENGTH, Dimension::MASS));
        assert_eq!(added.unwrap_err().to_string(), "length does not go together with mass");
        assert_eq!(
            quantity("1 mm").in_unit(Unit::find("kg")).unwrap_err().to_string(),
            "length does not go together with mass"
        );
        assert!(quantity("1 mm").in_unit(None).is_err());
        assert!(quantity("1 mm").compare(quantity("1 kg")).is_err());
    }

    #[test]
    fn temperature_points_and_differences_do_not_mix() {
        let (hot, cold, step) = (quantity("150 °C"), quantity("20 °C"), quantity("5 K"));
        assert_eq!(hot.sub(cold), Ok(quantity("130 K")));
        assert_eq!(hot.add(step), Ok(quantity("155 °C")));
        assert_eq!(step.add(hot), Ok(quantity("155 °C")));
        assert_eq!(hot.sub(step), Ok(quantity("145 °C")));
        assert_eq!(hot.add(cold), Err(NoQuantity::TemperaturePoint));
        assert_eq!(hot.neg(), Err(NoQuantity::TemperaturePoint));
        assert_eq!(hot.mul(quantity("2")), Err(NoQuantity::TemperaturePoint));
        assert!(step.sub(hot).is_err());
        assert!(hot.compare(step).is_err());
        assert!(hot.in_unit(Unit::find("K")).is_err());
    }

    /// Common practice, no source: a stick pack is folded from a strip of two flats and two fins.
    #[test]
    fn a_strip_is_two_flats_and_two_fins() {
        let two = Quantity::plain(Number::TWO);
        let (flats, fins) = (two.mul(quantity("23 mm")), two.mul(quantity("5 mm")));
        let strip = flats.unwrap().add(fins.unwrap()).unwrap();
        assert_eq!(strip, quantity("56 mm"));
        assert_eq!(strip.mul(quantity("10")).unwrap(), quantity("560 mm"));
    }

    #[test]
    fn a_result_without_a_unit_is_shown_in_the_usual_one() {
        let area = quantity("2 in").mul(quantity("1 in")).unwrap();
        assert_eq!(Measure { quantity: area, unit: None }.to_string(), "1290.32 mm²");
        let film = quantity("913.9 m").mul(quantity("330 mm")).unwrap();
        assert_eq!(Measure { quantity: film, unit: None }.to_string(), "301.587 m²");
        let flow = quantity("2 ml").div(quantity("1 s")).unwrap();
        assert_eq!(Measure { quantity: flow, unit: None }.to_string(), "2 ml/s");
        let sweep = quantity("90°").div(quantity("2 s")).unwrap();
        assert_eq!(Measure { quantity: sweep, unit: None }.to_string(), "45 °/s");
    }

    fn any_unit() -> impl Strategy<Value = &'static Unit> {
        (0..UNITS.len()).prop_map(|index| &UNITS[index])
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn conversion_there_and_back_is_exact(
            a in -10_i64.pow(12)..10_i64.pow(12),
            b in 1_i64..1_000_000,
            (from, to) in prop::sample::select(pairs()),
        ) {
            let quantity = Quantity::of(Number::ratio(a, b).unwrap(), Some(from)).unwrap();
            let there = quantity.in_unit(Some(to)).unwrap();
            prop_assert_eq!(Quantity::of(there, Some(to)), Ok(quantity));
        }

        #[test]
        fn what_is_shown_reads_back(
            digits in -10_i64.pow(12)..10_i64.pow(12),
            places in 0_u32..7,
            unit in any_unit(),
        ) {
            let number = Number::from(digits).mul(Number::last_place(places).unwrap()).unwrap();
            let quantity = Quantity::of(number, Some(unit)).unwrap();
            let measure = Measure { quantity, unit: Some(unit) };
            prop_assert_eq!(Measure::parse(&measure.to_string()), Ok(measure));
            let shown = measure.quantity.show(Some(unit), places).unwrap();
            prop_assert_eq!(Measure::parse(&shown), Ok(measure));
        }

        #[test]
        fn any_text_is_read_or_refused(text in "[-+±0-9 ./,a-zµ°·²%\u{2212}]{0,24}|.{0,24}") {
            for read in [Measure::parse(&text), Measure::parse_difference(&text)] {
                if let Err(bad) = read {
                    prop_assert!(text.get(bad.range).is_some());
                }
            }
        }
    }
}
