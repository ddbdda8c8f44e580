//! From an exact target to what a person can set and read: steps of the instrument, printed limits.
//!
//! Must never print a target outside its limits, nor a limit wider than the exact one.

use std::fmt;

use super::number::{Number, Rounding};
use super::tolerance::Limits;
use super::unit::Unit;
use super::{Measure, NoQuantity, Quantity};

use crate::language::Words;

/// Decimals that are printed at most, whatever the instrument shows.
const MOST_PLACES: u32 = 12;

/// Finest fraction a rule or dial is divided into.
const FINEST_FRACTION: u32 = 128;

/// Decimals up to which a step is printed exactly: those of 1/64 in.
const EXACT_PLACES: u32 = 6;

/// A target that the instrument can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settled {
    /// The value to set.
    pub value: Quantity,
    /// Whether it differs from the exact target.
    pub rounded: bool,
}

/// No target can be set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotSettled {
    /// No step of the instrument lies inside the limits.
    TooCoarse,
    /// The instrument's step is zero or negative.
    NoStep,
    /// Target, limits and instrument do not fit each other.
    Quantity(NoQuantity),
}

/// Limits as printed, in the unit they were asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedLimits {
    /// Least value that passes.
    pub low: Option<String>,
    /// Greatest value that passes.
    pub high: Option<String>,
    /// Whether one of them is tighter than the exact limit.
    pub tightened: bool,
}

impl<T: Into<NoQuantity>> From<T> for NotSettled {
    fn from(no: T) -> NotSettled {
        NotSettled::Quantity(no.into())
    }
}

impl NotSettled {
    /// What is wrong.
    pub fn words(&self) -> Words {
        match self {
            NotSettled::TooCoarse => Words::of("settle-too-coarse"),
            NotSettled::NoStep => Words::of("settle-no-step"),
            NotSettled::Quantity(no) => no.words(),
        }
    }
}

impl fmt::Display for NotSettled {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for NotSettled {}

/// The multiple of `resolution` nearest the target that lies inside the limits.
///
/// From the middle it goes to the even multiple. When the nearest lies outside, the nearest one
/// inside is taken. Temperatures count their multiples from the zero of the instrument's unit, so
/// `resolution` may have been read as a point or as a difference.
///
/// # Errors
/// [`NotSettled::TooCoarse`] when no multiple lies inside.
pub fn settle(
    target: Quantity,
    limits: &Limits,
    resolution: &Measure,
) -> Result<Settled, NotSettled> {
    let unit = scale(target, resolution);
    let step = step_in(resolution, unit)?;
    let in_scale = |limit: Option<Quantity>| limit.map(|limit| limit.in_unit(unit)).transpose();
    let (exact, low, high) = (target.in_unit(unit)?, in_scale(limits.low)?, in_scale(limits.high)?);
    let mut number = exact.round_to_step(step, Rounding::HalfEven)?;
    if let Some(low) = low.filter(|low| number < *low) {
        number = low.round_to_step(step, Rounding::Up)?;
    }
    if let Some(high) = high.filter(|high| number > *high) {
        number = high.round_to_step(step, Rounding::Down)?;
    }
    if low.is_some_and(|low| number < low) {
        return Err(NotSettled::TooCoarse);
    }
    let amount = same_kind(number, unit, target)?;
    Ok(Settled { value: amount, rounded: number != exact })
}

/// A target as printed in `unit`: rounded half to even at `places`, but never past its limits.
///
/// # Errors
/// [`NotSettled::TooCoarse`] when no value with so many decimals lies inside,
/// [`NotSettled::Quantity`] when the unit measures something else.
pub fn printed(
    target: Quantity,
    limits: &Limits,
    unit: Option<&'static Unit>,
    places: u32,
) -> Result<String, NotSettled> {
    let step = Quantity::difference_of(Number::last_place(places)?, unit)?;
    let settled = settle(target, limits, &Measure { quantity: step, unit })?;
    Ok(settled.value.in_unit(unit)?.decimal(places))
}

/// Decimals to print values of this resolution with, in `unit`.
///
/// As many as show the step exactly, when six are enough (1/64 in); else one more than the step
/// needs to be seen at all.
///
/// # Errors
/// [`NotSettled::NoStep`], [`NotSettled::Quantity`] when the unit measures something else.
pub fn places_of(resolution: &Measure, unit: Option<&Unit>) -> Result<u32, NotSettled> {
    let step = step_in(resolution, unit)?;
    if let Some(places) = step.exact_places(EXACT_PLACES) {
        return Ok(places);
    }
    let mut places = 0;
    while places < MOST_PLACES && Number::last_place(places)? > step {
        places += 1;
    }
    Ok((places + 1).min(MOST_PLACES))
}

/// The denominator of a resolution that was written as a fraction: 32 for `1/32 in`.
///
/// None unless it is one half, quarter, eighth ... down to 1/128: only then are the values it shows
/// printed as fractions too ([`Number::fraction`]).
pub fn fraction_of(resolution_text: &str) -> Option<u32> {
    let below = resolution_text.trim_start().strip_prefix("1/")?;
    let end = below.find(|c: char| !c.is_ascii_digit()).unwrap_or(below.len());
    let denominator = below[..end].parse().ok().filter(|below: &u32| below.is_power_of_two())?;
    let halved = (2..=FINEST_FRACTION).contains(&denominator);
    (halved && Measure::parse(resolution_text).is_ok()).then_some(denominator)
}

/// The limits in `unit` with so many decimals: what is not exact is rounded inward.
///
/// # Errors
/// [`NotSettled::TooCoarse`] when no value with so many decimals lies inside,
/// [`NotSettled::Quantity`] when the unit measures something else.
pub fn inward(
    limits: &Limits,
    unit: Option<&Unit>,
    places: u32,
) -> Result<PrintedLimits, NotSettled> {
    let step = Number::last_place(places)?;
    let side = |limit: Option<Quantity>, rounding| -> Result<_, NotSettled> {
        let Some(limit) = limit else { return Ok((None, false)) };
        let exact = limit.in_unit(unit)?;
        let number = exact.round_to_step(step, rounding)?;
        Ok((Some(number), number != exact))
    };
    let (low, low_tightened) = side(limits.low, Rounding::Up)?;
    let (high, high_tightened) = side(limits.high, Rounding::Down)?;
    if low.zip(high).is_some_and(|(low, high)| low > high) {
        return Err(NotSettled::TooCoarse);
    }
    let text = |number: Option<Number>| number.map(|number| number.decimal(places));
    let tightened = low_tightened || high_tightened;
    Ok(PrintedLimits { low: text(low), high: text(high), tightened })
}

/// The limits in the unit of an instrument, rounded inward to its steps, with so many decimals.
///
/// # Errors
/// [`NotSettled::TooCoarse`] when no step lies inside, [`NotSettled::Quantity`] when the instrument
/// measures something else.
pub fn inward_to_steps(
    limits: &Limits,
    resolution: &Measure,
    places: u32,
) -> Result<PrintedLimits, NotSettled> {
    let unit = resolution.unit;
    let step = step_in(resolution, unit)?;
    let side = |limit: Option<Quantity>, rounding| -> Result<_, NotSettled> {
        let Some(limit) = limit else { return Ok(None) };
        Ok(Some(limit.in_unit(unit)?.round_to_step(step, rounding)?))
    };
    let (low, high) = (side(limits.low, Rounding::Up)?, side(limits.high, Rounding::Down)?);
    if low.zip(high).is_some_and(|(low, high)| low > high) {
        return Err(NotSettled::TooCoarse);
    }
    let text = |number: Option<Number>| number.map(|number| number.decimal(places));
    Ok(PrintedLimits { low: text(low), high: text(high), tightened: true })
}

/// Limits beyond which something is surely outside, in `unit` with so many decimals: what is not exact
/// is rounded outward.
///
/// # Errors
/// [`NotSettled::Quantity`] when the unit measures something else.
pub fn outward(
    limits: &Limits,
    unit: Option<&Unit>,
    places: u32,
) -> Result<PrintedLimits, NotSettled> {
    let step = Number::last_place(places)?;
    let side = |limit: Option<Quantity>, rounding| -> Result<_, NotSettled> {
        let Some(limit) = limit else { return Ok(None) };
        Ok(Some(limit.in_unit(unit)?.round_to_step(step, rounding)?.decimal(places)))
    };
    let (low, high) = (side(limits.low, Rounding::Down)?, side(limits.high, Rounding::Up)?);
    Ok(PrintedLimits { low, high, tightened: false })
}

/// The unit whose multiples count: the instrument's, but °C for a temperature read in K.
fn scale(target: Quantity, resolution: &Measure) -> Option<&'static Unit> {
    let on_scale = resolution.unit.is_some_and(|unit| unit.dimension.is_point());
    if target.dimension.is_point() && !on_scale {
        Unit::natural(target.dimension)
    } else {
        resolution.unit
    }
}

/// The instrument's step as a number of `unit`.
fn step_in(resolution: &Measure, unit: Option<&Unit>) -> Result<Number, NotSettled> {
    let step = resolution.as_difference()?.quantity.in_unit(unit)?;
    if step.is_zero() || step.is_negative() { Err(NotSettled::NoStep) } else { Ok(step) }
}

/// So many of `unit`, as a point or as a difference like the target.
fn same_kind(
    number: Number,
    unit: Option<&Unit>,
    target: Quantity,
) -> Result<Quantity, NotSettled> {
    let make = if target.dimension.is_point() { Quantity::of } else { Quantity::difference_of };
    Ok(make(number, unit)?)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::quantity;
    use super::{NotSettled, fraction_of, inward, places_of, printed, settle};
    use crate::quantity::{Limits, Measure, Number, Quantity, Tolerance, Unit, Verdict};

    fn limits(target: &str, tolerance: &str) -> Limits {
        Tolerance::parse(tolerance).unwrap().limits(quantity(target)).unwrap()
    }

    fn settled(target: &str, tolerance: &str, resolution: &str) -> Result<String, NotSettled> {
        let resolution = Measure::parse(resolution).unwrap();
        let limits = limits(target, tolerance);
        let settled = settle(quantity(target), &limits, &resolution)?;
        let shown = Measure { quantity: settled.value, unit: resolution.unit }.to_string();
        Ok(if settled.rounded { format!("about {shown}") } else { shown })
    }

    #[track_caller]
    fn check(target: &str, tolerance: &str, resolution: &str, expected: &str) {
        assert_eq!(settled(target, tolerance, resolution).as_deref(), Ok(expected));
    }

    /// Rounding of ties: NIST SP 811 B.7.1. Steps of the rule: half a millimetre.
    #[test]
    fn the_nearest_step_of_the_instrument_is_set() {
        check("56 mm", "±0.5 mm", "0.5 mm", "56 mm");
        check("56.1 mm", "±0.5 mm", "0.5 mm", "about 56 mm");
        check("56.25 mm", "±0.5 mm", "0.5 mm", "about 56 mm");
        check("56.75 mm", "±0.5 mm", "0.5 mm", "about 57 mm");
        check("2 7/32 in", "±0.5 mm", "0.5 mm", "about 56.5 mm");
        check("6", "±0", "1", "6");
    }

    #[test]
    fn a_nearest_step_outside_gives_way_to_one_inside() {
        check("56.2 mm", "+0.4/-0.1 mm", "0.5 mm", "about 56.5 mm");
        check("56.3 mm", "+0.1/-0.4 mm", "0.5 mm", "about 56 mm");
        check("56.3 mm", "+0.3/+0.1 mm", "0.5 mm", "about 56.5 mm");
    }

    #[test]
    fn an_instrument_without_a_step_inside_is_too_coarse() {
        let too_coarse = Err(NotSettled::TooCoarse);
        assert_eq!(settled("56.25 mm", "±0.1 mm", "0.5 mm"), too_coarse);
        assert_eq!(settled("56.25 mm", "+0.2/-0 mm", "0.5 mm"), too_coarse);
        assert_eq!(settled("56.25 mm", "±0.1 mm", "0 mm"), Err(NotSettled::NoStep));
        assert!(settled("56.25 mm", "±0.1 mm", "1 kg").is_err());
    }

    #[test]
    fn temperatures_count_from_the_zero_of_their_scale() {
        check("148.4 °C", "±3 °C", "1 °C", "about 148 °C");
        check("148.4 °C", "±3 °C", "5 °C", "about 150 °C");
        check("120 °C", "±3 °C", "1 °F", "248 °F");
        check("121 °C", "±3 °C", "1 °F", "about 250 °F");
    }

    #[test]
    fn a_resolution_in_kelvin_counts_in_degrees_celsius() {
        let resolution = Measure::parse("1 K").unwrap();
        let target = quantity("148.4 °C");
        let settled = settle(target, &limits("148.4 °C", "±3 K"), &resolution).unwrap();
        assert_eq!(settled.value, quantity("148 °C"));
    }

    #[test]
    fn only_a_written_halving_makes_fractions() {
        for (text, denominator) in [
            ("1/32 in", Some(32)),
            (" 1/2in ", Some(2)),
            ("1/128 in", Some(128)),
            ("1/64", Some(64)),
            ("1/256 in", None),
            ("1/1 in", None),
            ("1/0 in", None),
            ("1/10 in", None),
            ("3/32 in", None),
            ("1 1/32 in", None),
            ("0.03125 in", None),
            ("1/32 x", None),
            ("1/4294967297 in", None),
            ("1/s", None),
            ("1/", None),
            ("", None),
        ] {
            assert_eq!(fraction_of(text), denominator, "{text}");
        }
    }

    /// The nearest fraction of an inch, and how far off it is in mm.
    #[track_caller]
    fn check_inches(target: &str, resolution: &str, expected: &str, off: &str) {
        let (target, step) = (quantity(target), Measure::parse(resolution).unwrap());
        let settled = settle(target, &Limits::NONE, &step).unwrap();
        let inches = settled.value.in_unit(step.unit).unwrap();
        let denominator = fraction_of(resolution).unwrap();
        assert_eq!(inches.fraction(denominator).as_deref(), Some(expected), "{resolution}");
        let error = settled.value.sub(target).unwrap().in_unit(Unit::find("mm")).unwrap();
        assert_eq!(error.decimal(3), off, "{resolution}");
    }

    /// Computed with exact fractions; no published table. Ties of the error go to the even digit.
    #[test]
    fn a_rule_in_fractions_of_an_inch_shows_the_nearest() {
        for (target, sixteenth, thirty_second, sixty_fourth) in [
            ("6 mm", ("1/4", "0.350"), ("1/4", "0.350"), ("15/64", "-0.047")),
            ("12.5 mm", ("1/2", "0.200"), ("1/2", "0.200"), ("31/64", "-0.197")),
            ("20 mm", ("13/16", "0.638"), ("25/32", "-0.156"), ("25/32", "-0.156")),
            ("56 mm", ("2 3/16", "-0.438"), ("2 7/32", "0.356"), ("2 13/64", "-0.041")),
            ("58.5 mm", ("2 5/16", "0.238"), ("2 5/16", "0.238"), ("2 19/64", "-0.159")),
            ("100 mm", ("3 15/16", "0.012"), ("3 15/16", "0.012"), ("3 15/16", "0.012")),
            ("112 mm", ("4 7/16", "0.712"), ("4 13/32", "-0.081"), ("4 13/32", "-0.081")),
            ("250 mm", ("9 13/16", "-0.762"), ("9 27/32", "0.031"), ("9 27/32", "0.031")),
            ("1000 mm", ("39 3/8", "0.125"), ("39 3/8", "0.125"), ("39 3/8", "0.125")),
        ] {
            check_inches(target, "1/16 in", sixteenth.0, sixteenth.1);
            check_inches(target, "1/32 in", thirty_second.0, thirty_second.1);
            check_inches(target, "1/64 in", sixty_fourth.0, sixty_fourth.1);
        }
    }

    #[track_caller]
    fn check_places(resolution: &str, unit: &str, expected: u32) {
        let resolution = Measure::parse(resolution).unwrap();
        assert_eq!(places_of(&resolution, Unit::find(unit)), Ok(expected));
    }

    #[test]
    fn so_many_places_as_show_the_step() {
        check_places("0.5 mm", "mm", 1);
        check_places("1 mm", "mm", 0);
        check_places("5 mm", "mm", 0);
        check_places("0.25 mm", "mm", 2);
        check_places("1 mm", "cm", 1);
        check_places("1/64 in", "in", 6);
        check_places("1/16 in", "mm", 4);
        check_places("0.5 mm", "in", 3);
        check_places("1 °C", "°C", 0);
        check_places("1 °C", "°F", 1);
        check_places("1", "", 0);
    }

    #[track_caller]
    fn check_inward(target: &str, tolerance: &str, unit: &str, places: u32, expected: &str) {
        let printed = inward(&limits(target, tolerance), Unit::find(unit), places).unwrap();
        let text = format!("{} to {}", printed.low.unwrap(), printed.high.unwrap());
        assert_eq!(if printed.tightened { format!("inside {text}") } else { text }, expected);
    }

    /// ASME A112.18.1/CSA B125.1 Annex A: converted limits are rounded inward.
    #[test]
    fn printed_limits_are_never_wider() {
        check_inward("56 mm", "±0.5 mm", "mm", 1, "55.5 to 56.5");
        check_inward("56 mm", "±0.25 mm", "mm", 1, "inside 55.8 to 56.2");
        check_inward("56 mm", "±0.5 mm", "in", 3, "inside 2.186 to 2.224");
        check_inward("-28 mm", "±0.25 mm", "mm", 1, "inside -28.2 to -27.8");
        check_inward("120 °C", "±3 °C", "°F", 0, "inside 243 to 253");
    }

    #[track_caller]
    fn check_printed(target: &str, tolerance: &str, unit: &str, places: u32, expected: &str) {
        let text = printed(quantity(target), &limits(target, tolerance), Unit::find(unit), places);
        assert_eq!(text.as_deref(), Ok(expected));
    }

    #[test]
    fn a_printed_target_is_never_past_its_limits() {
        check_printed("56 mm", "±0.5 mm", "mm", 1, "56.0");
        check_printed("56 mm", "±0.5 mm", "in", 3, "2.205");
        check_printed("56 mm", "+0/-0.1 mm", "in", 3, "2.204");
        check_printed("-28.04 mm", "+0.5/-0 mm", "mm", 1, "-28.0");
        check_printed("120 °C", "±3 °C", "°F", 0, "248");
        check_printed("6", "±0", "", 0, "6");
        let tight = limits("56.3 mm", "±0.1 mm");
        let coarse = printed(quantity("56.3 mm"), &tight, Unit::find("mm"), 0);
        assert_eq!(coarse, Err(NotSettled::TooCoarse));
    }

    #[test]
    fn limits_between_two_decimals_cannot_be_printed() {
        let printed = inward(&limits("56.3 mm", "±0.1 mm"), Unit::find("mm"), 0);
        assert_eq!(printed, Err(NotSettled::TooCoarse));
        let open = inward(&Limits::NONE, Unit::find("mm"), 0).unwrap();
        assert_eq!((open.low, open.high, open.tightened), (None, None, false));
    }

    fn thousandths(digits: i64) -> Quantity {
        Quantity::of(Number::ratio(digits, 1000).unwrap(), Unit::find("mm")).unwrap()
    }

    fn between(low: i64, high: i64) -> Limits {
        Limits { low: Some(thousandths(low)), high: Some(thousandths(high)) }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(512))]

        #[test]
        fn a_settled_target_stays_inside_and_no_step_inside_is_nearer(
            target in -100_000_i64..100_000,
            below in -500_i64..2_000,
            width in 0_i64..4_000,
            step in 1_i64..3_000,
        ) {
            let (low, high) = (target - below, target - below + width);
            let limits = between(low, high);
            let resolution = Measure { quantity: thousandths(step), unit: Unit::find("mm") };
            let inside: Vec<i64> = (low..=high).filter(|n| n % step == 0).collect();
            match settle(thousandths(target), &limits, &resolution) {
                Ok(settled) => {
                    prop_assert_eq!(limits.judge(settled.value), Ok(Verdict::Within));
                    let off = settled.value.sub(thousandths(target)).unwrap().abs().unwrap();
                    let nearest = inside.iter().map(|n| (n - target).abs()).min().unwrap();
                    prop_assert_eq!(off, thousandths(nearest));
                    prop_assert_eq!(settled.rounded, nearest != 0);
                }
                Err(no) => prop_assert_eq!((no, inside.len()), (NotSettled::TooCoarse, 0)),
            }
        }

        #[test]
        fn printed_limits_lie_inside(
            low in -100_000_i64..100_000,
            width in 0_i64..5_000,
            places in 0_u32..4,
        ) {
            let limits = between(low, low + width);
            if let Ok(printed) = inward(&limits, Unit::find("in"), places) {
                for text in [printed.low.unwrap(), printed.high.unwrap()] {
                    let value = quantity(&format!("{text} in"));
                    prop_assert_eq!(limits.judge(value), Ok(Verdict::Within));
                }
            }
        }
    }
}
