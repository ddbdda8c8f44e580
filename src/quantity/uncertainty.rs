//! How sure a reading is, and what it then proves.
//!
//! Contributions are kept as variances (u²), which are exact fractions, so that only
//! [`combined`] takes a root. Temperatures count as differences here. Sources: JCGM 100:2008 (GUM)
//! for the uncertainties, its paragraph numbers from memory; ISO 14253-1, from memory, for the
//! three answers of [`Guarded::judge`].

use super::number::{NoNumber, Number, Rounding};
use super::tolerance::{Limits, Verdict};
use super::{Measure, NoQuantity, Quantity};

/// The coverage factor for about 95 %. Source: JCGM 100:2008 6.3.3.
pub const USUAL_COVERAGE: Number = Number::TWO;

/// Variance of a value equally likely anywhere within ±a: a²/3. Source: JCGM 100:2008 4.3.7.
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], or no number.
pub fn rectangular(half_width: Quantity) -> Result<Quantity, NoQuantity> {
    square_over(half_width, 3)
}

/// Variance of a display or scale read to the nearest step: d²/12. Source: JCGM 100:2008 F.2.2.1.
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], or no number.
pub fn read_to_step(step: Quantity) -> Result<Quantity, NoQuantity> {
    square_over(step, 12)
}

/// Variance of a value within ±a, likelier in the middle: a²/6. Source: JCGM 100:2008 4.3.9.
///
/// The sum of two equal readings ±a/2, such as both ends of a rule, is of this kind.
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], or no number.
pub fn triangular(half_width: Quantity) -> Result<Quantity, NoQuantity> {
    square_over(half_width, 6)
}

/// Variance of a value that swings within ±a, likelier at the ends: a²/2. Source: JCGM 100:2008
/// H.1.3.4 (cycling temperature).
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], or no number.
pub fn u_shaped(half_width: Quantity) -> Result<Quantity, NoQuantity> {
    square_over(half_width, 2)
}

/// Variance of what a certificate states as expanded uncertainty U with factor k: (U/k)². Source:
/// JCGM 100:2008 4.3.3.
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], [`NoNumber::DivisionByZero`] for a factor of zero.
pub fn certified(expanded: Quantity, factor: Number) -> Result<Quantity, NoQuantity> {
    square_over(expanded.div(Quantity::plain(factor))?, 1)
}

/// Combined standard uncertainty of independent contributions: √Σu². Source: JCGM 100:2008 5.1.2.
///
/// Right to 15 digits. Of no contributions at all it is a plain zero.
///
/// # Errors
/// [`NoQuantity::Mismatch`] when the variances are of different kinds, [`NoQuantity::NoRoot`] when
/// they are no squares.
pub fn combined(variances: &[Quantity]) -> Result<Quantity, NoQuantity> {
    let Some((first, rest)) = variances.split_first() else {
        return Ok(Quantity::plain(Number::ZERO));
    };
    rest.iter().try_fold(*first, |sum, variance| sum.add(*variance))?.sqrt()
}

/// Expanded uncertainty: U = k·u. Source: JCGM 100:2008 6.2.1.
///
/// # Errors
/// [`NoQuantity::TemperaturePoint`], or no number.
pub fn expanded(uncertainty: Quantity, factor: Number) -> Result<Quantity, NoQuantity> {
    uncertainty.mul(Quantity::plain(factor))
}

/// Expanded uncertainty of one reading, from what is known of the instrument alone:
/// U = 2·√(a²/3 + d²/12) with error limit ±a and step d.
///
/// It is rounded up to two significant digits of the unit the step was written in, so that it can
/// be printed as it is used. A soft edge or a second end to read comes on top, by hand.
///
/// # Errors
/// [`NoQuantity::Mismatch`] when the two measure different things, or no number.
pub fn of_instrument(resolution: &Measure, error_limit: &Measure) -> Result<Measure, NoQuantity> {
    let (step, limit) = (resolution.as_difference()?, error_limit.as_difference()?);
    let variances = [rectangular(limit.quantity)?, read_to_step(step.quantity)?];
    let exact = expanded(combined(&variances)?, USUAL_COVERAGE)?;
    let number = two_digits_up(exact.in_unit(step.unit)?)?;
    Ok(Measure { quantity: Quantity::difference_of(number, step.unit)?, unit: step.unit })
}

/// How a reading lies to limits when its uncertainty counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sure {
    /// It is proved to be within.
    Within,
    /// It may be either: neither is proved.
    TooCloseToTell,
    /// It is proved to be outside.
    Outside,
}

/// Limits with the uncertainty of the reading taken off and put on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Guarded {
    /// The limits shrunk by the uncertainty: inside or on them a reading proves conformity.
    pub inner: Limits,
    /// The limits widened by it: beyond them a reading proves the contrary.
    pub outer: Limits,
}

/// Guards limits by an expanded uncertainty U; its sign does not matter.
///
/// Source: ISO 14253-1, from memory, with a guard band of U (k = 2) as its earlier editions have
/// it; the edition of 2017 takes less where U is small.
///
/// # Errors
/// [`NoQuantity::Mismatch`] when limits and uncertainty measure different things.
pub fn guard(limits: &Limits, uncertainty: Quantity) -> Result<Guarded, NoQuantity> {
    let band = uncertainty.abs()?;
    let up = |limit: Option<Quantity>| limit.map(|limit| limit.add(band)).transpose();
    let down = |limit: Option<Quantity>| limit.map(|limit| limit.sub(band)).transpose();
    let inner = Limits { low: up(limits.low)?, high: down(limits.high)? };
    let outer = Limits { low: down(limits.low)?, high: up(limits.high)? };
    Ok(Guarded { inner, outer })
}

impl Guarded {
    /// What a reading proves; one on a shrunk limit proves that it is within.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`] when reading and limits measure different things.
    pub fn judge(&self, reading: Quantity) -> Result<Sure, NoQuantity> {
        let within = |limits: &Limits| limits.judge(reading).map(|is| is == Verdict::Within);
        Ok(match (within(&self.inner)?, within(&self.outer)?) {
            (true, _) => Sure::Within,
            (false, true) => Sure::TooCloseToTell,
            (false, false) => Sure::Outside,
        })
    }

    /// Whether any reading can prove that it is within: not when the shrunk limits cross.
    pub fn provable(&self) -> bool {
        let both = self.inner.low.zip(self.inner.high);
        both.is_none_or(|(low, high)| low.amount <= high.amount)
    }
}

/// Steps of the instrument that the tolerance spans; none for limits open on a side.
///
/// Ten or more are wanted. Source: common practice, no source.
///
/// # Errors
/// [`NoQuantity::Mismatch`], [`NoNumber::DivisionByZero`] for a step of zero.
pub fn discrimination(limits: &Limits, resolution: Quantity) -> Result<Option<Number>, NoQuantity> {
    let Some(span) = span(limits)? else { return Ok(None) };
    ratio(span, resolution).map(Some)
}

/// Test uncertainty ratio: span of the tolerance over twice the instrument's error limit (or its
/// U₉₅, when that is known); none for limits open on a side.
///
/// Four or more are wanted. Source: ANSI/NCSL Z540.3.
///
/// # Errors
/// [`NoQuantity::Mismatch`], [`NoNumber::DivisionByZero`] for an error limit of zero.
pub fn test_uncertainty_ratio(
    limits: &Limits,
    error_limit: Quantity,
) -> Result<Option<Number>, NoQuantity> {
    let Some(span) = span(limits)? else { return Ok(None) };
    ratio(span, error_limit.mul(Quantity::plain(Number::TWO))?).map(Some)
}

fn span(limits: &Limits) -> Result<Option<Quantity>, NoQuantity> {
    limits.low.zip(limits.high).map(|(low, high)| high.sub(low)).transpose()
}

/// How many times one goes into the other, when they measure the same.
fn ratio(span: Quantity, part: Quantity) -> Result<Number, NoQuantity> {
    span.compare(part)?;
    Ok(span.div(part)?.amount)
}

/// A quantity's square over a number.
fn square_over(half_width: Quantity, divisor: u32) -> Result<Quantity, NoQuantity> {
    half_width.mul(half_width)?.div(Quantity::plain(Number::from(divisor)))
}

/// Rounds a number that is not negative up to two significant digits.
fn two_digits_up(number: Number) -> Result<Number, NoNumber> {
    let (ten, hundred) = (Number::from(10_u32), Number::from(100_u32));
    if number <= Number::ZERO {
        return Ok(Number::ZERO);
    }
    let mut step = Number::ONE;
    while number < ten.mul(step)? {
        step = step.div(ten)?;
    }
    while number >= hundred.mul(step)? {
        step = step.mul(ten)?;
    }
    number.round_to_step(step, Rounding::Up)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::quantity;
    use super::super::unit::pairs;
    use super::{
        Sure, certified, combined, discrimination, expanded, guard, of_instrument, read_to_step,
        rectangular, test_uncertainty_ratio, triangular, two_digits_up, u_shaped,
    };
    use crate::quantity::{
        Dimension, Limits, Measure, NoQuantity, Number, Quantity, Tolerance, Unit, Verdict,
    };

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn difference(text: &str) -> Quantity {
        Measure::parse_difference(text).unwrap().quantity
    }

    /// So many nanometres.
    fn nanometres(text: &str) -> Quantity {
        let nanometre = Number::ratio(1, 1_000_000).unwrap();
        Quantity { amount: number(text).mul(nanometre).unwrap(), dimension: Dimension::LENGTH }
    }

    #[track_caller]
    fn check_nanometres(variances: &[Quantity], places: u32, expected: &str) {
        let found = combined(variances).unwrap().div(nanometres("1")).unwrap();
        assert_eq!(found.amount.decimal(places), expected);
    }

    /// JCGM 100:2008 H.1, end gauge: contributions 25, 9.7, 2.9 and 16.6 nm give 32 nm.
    #[test]
    fn the_end_gauge_has_its_published_uncertainty() {
        let one = Number::ONE;
        let printed = ["25", "9.7", "2.9", "16.6"].map(|u| certified(nanometres(u), one).unwrap());
        check_nanometres(&printed, 0, "32");
    }

    /// The same unrounded: d from 5.8, 3.9 and 6.7 nm (9.682), the temperatures from l·θ·u(δα) and
    /// l·α·u(δθ), l = 50.000 623 mm; worked independently: 31.71 nm.
    #[test]
    fn the_end_gauge_unrounded_has_the_worked_uncertainty() {
        let product = |terms: [&str; 2]| {
            let [first, second] = terms.map(number);
            let share = Quantity::plain(first.mul(second).unwrap());
            nanometres("50000623").mul(share).unwrap()
        };
        let alpha = product(["0.1", "0.00000058"]);
        let theta = product(["0.0000115", "0.029"]);
        let rest = ["25", "5.8", "3.9", "6.7"].map(nanometres);
        let all: Vec<_> = rest.into_iter().chain([alpha, theta]).collect();
        let variances: Vec<_> = all.iter().map(|u| certified(*u, Number::ONE).unwrap()).collect();
        check_nanometres(&variances[1..4], 3, "9.682");
        check_nanometres(&variances, 2, "31.71");
    }

    /// Variances by hand: 0.6² is 0.36.
    #[test]
    fn each_kind_of_knowledge_has_its_variance() {
        let square = |variance: Result<Quantity, NoQuantity>| {
            let variance = variance.unwrap();
            assert_eq!(variance.dimension, Dimension::AREA);
            variance.amount
        };
        assert_eq!(square(rectangular(quantity("0.6 mm"))), number("0.12"));
        assert_eq!(square(read_to_step(quantity("0.6 mm"))), number("0.03"));
        assert_eq!(square(triangular(quantity("0.6 mm"))), number("0.06"));
        assert_eq!(square(u_shaped(quantity("0.6 mm"))), number("0.18"));
        assert_eq!(square(certified(quantity("0.6 mm"), number("2"))), number("0.09"));
    }

    #[test]
    fn different_kinds_are_never_combined() {
        let variances = [rectangular(quantity("1 mm")), rectangular(quantity("1 kg"))];
        assert!(combined(&variances.map(Result::unwrap)).is_err());
        assert!(rectangular(quantity("120 °C")).is_err());
        assert!(combined(&[quantity("1 mm")]).is_err());
        assert_eq!(combined(&[]), Ok(Quantity::plain(Number::ZERO)));
        let degrees = combined(&[certified(difference("9 °F"), Number::ONE).unwrap()]).unwrap();
        assert_eq!(degrees, difference("5 °C"));
    }

    /// Ways to measure a strip of 56 ± 0.5 mm, worked independently: rule read at both ends to the
    /// line (A), rule against a stop (B), rule at both ends to half a division (C), caliper (D).
    fn variances(way: char) -> Vec<Quantity> {
        let all = |make: fn(Quantity) -> Result<Quantity, NoQuantity>, widths: &[&str]| {
            widths.iter().map(|w| make(quantity(&format!("{w} mm"))).unwrap()).collect::<Vec<_>>()
        };
        match way {
            'A' => all(rectangular, &["0.15", "0.25", "0.25", "0.05"]),
            'B' => all(rectangular, &["0.15", "0.125", "0.05"]),
            'C' => [all(rectangular, &["0.15", "0.05"]), all(triangular, &["0.25"])].concat(),
            _ => [all(rectangular, &["0.03", "0.05"]), all(read_to_step, &["0.01"])].concat(),
        }
    }

    fn strip() -> Limits {
        Tolerance::parse("±0.5 mm").unwrap().limits(quantity("56 mm")).unwrap()
    }

    #[track_caller]
    fn check_way(way: char, uncertainty: &str, wide: &str, over: &str, zone: &str) {
        let u = combined(&variances(way)).unwrap();
        let wide_ = expanded(u, number("2")).unwrap();
        let over_ = test_uncertainty_ratio(&strip(), wide_).unwrap().unwrap();
        let inner = guard(&strip(), wide_).unwrap().inner;
        let zone_ = inner.high.unwrap().sub(quantity("56 mm")).unwrap();
        let found = [u.amount.decimal(4), wide_.amount.decimal(3), over_.decimal(1)];
        assert_eq!(found, [uncertainty, wide, over]);
        assert_eq!(zone_.amount.decimal(3), zone);
    }

    #[test]
    fn ways_to_measure_a_strip_have_their_uncertainty() {
        check_way('A', "0.2236", "0.447", "1.1", "0.053");
        check_way('B', "0.1164", "0.233", "2.1", "0.267");
        check_way('C', "0.1369", "0.274", "1.8", "0.226");
        check_way('D', "0.0338", "0.068", "7.4", "0.432");
    }

    /// Zone rule of ISO 14253-1 (from memory), worked independently; simple acceptance beside it.
    #[test]
    fn a_strip_is_judged_in_three_zones() {
        use Sure::{Outside, TooCloseToTell, Within};
        for (reading, sure, simple) in [
            ("55.25 mm", Outside, false),
            ("55.50 mm", TooCloseToTell, true),
            ("55.75 mm", Within, true),
            ("56.00 mm", Within, true),
            ("56.25 mm", Within, true),
            ("56.50 mm", TooCloseToTell, true),
            ("56.75 mm", Outside, false),
        ] {
            for way in ['B', 'D'] {
                let u = expanded(combined(&variances(way)).unwrap(), number("2")).unwrap();
                let found = guard(&strip(), u).unwrap().judge(quantity(reading));
                assert_eq!(found, Ok(sure), "{way} {reading}");
            }
            let within = strip().judge(quantity(reading)) == Ok(Verdict::Within);
            assert_eq!(within, simple, "{reading}");
        }
    }

    #[track_caller]
    fn check(limits: &Limits, uncertainty: &str, reading: &str, expected: Sure) {
        let guarded = guard(limits, difference(uncertainty)).unwrap();
        assert_eq!(guarded.judge(quantity(reading)), Ok(expected), "{reading} ± {uncertainty}");
    }

    #[test]
    fn a_reading_on_a_guarded_limit_belongs_to_the_inner_zone() {
        check(&strip(), "0.2 mm", "55.7 mm", Sure::Within);
        check(&strip(), "0.2 mm", "55.6999 mm", Sure::TooCloseToTell);
        check(&strip(), "0.2 mm", "55.3 mm", Sure::TooCloseToTell);
        check(&strip(), "0.2 mm", "55.2999 mm", Sure::Outside);
        check(&strip(), "-0.2 mm", "55.7 mm", Sure::Within);
        check(&strip(), "0 mm", "55.5 mm", Sure::Within);
        check(&strip(), "0 mm", "55.4999 mm", Sure::Outside);
    }

    #[test]
    fn an_open_side_is_never_too_close() {
        let at_least = Limits { low: Some(quantity("5 N")), high: None };
        check(&at_least, "0.5 N", "5000 N", Sure::Within);
        check(&at_least, "0.5 N", "5.4 N", Sure::TooCloseToTell);
        check(&at_least, "0.5 N", "4.4 N", Sure::Outside);
        let at_most = Limits { low: None, high: Some(quantity("120 °C")) };
        check(&at_most, "9 °F", "115 °C", Sure::Within);
        check(&at_most, "9 °F", "125 °C", Sure::TooCloseToTell);
        check(&at_most, "9 °F", "125.1 °C", Sure::Outside);
        assert!(guard(&at_least, quantity("0.5 N")).unwrap().provable());
        assert!(guard(&Limits::NONE, quantity("0.5 N")).unwrap().provable());
    }

    #[test]
    fn limits_that_cross_when_shrunk_prove_nothing() {
        let provable = |u: &str| guard(&strip(), quantity(u)).unwrap().provable();
        assert!(provable("0.5 mm"));
        assert!(!provable("0.5001 mm"));
        check(&strip(), "0.5 mm", "56 mm", Sure::Within);
        check(&strip(), "0.5001 mm", "56 mm", Sure::TooCloseToTell);
        check(&strip(), "0.5001 mm", "57.1 mm", Sure::Outside);
        assert!(guard(&strip(), quantity("1 kg")).is_err());
        assert!(guard(&strip(), quantity("0.1 mm")).unwrap().judge(quantity("1 kg")).is_err());
    }

    #[track_caller]
    fn check_instrument(resolution: &str, error_limit: &str, expected: &str) {
        let measure = |text: &str| Measure::parse(text).unwrap();
        let found = of_instrument(&measure(resolution), &measure(error_limit)).unwrap();
        assert_eq!(found.to_string(), expected, "{resolution}, {error_limit}");
    }

    /// Worked independently: 2·√(0.15²/3 + 0.5²/12) = 0.33665, 2·√(0.03²/3 + 0.01²/12) = 0.035119.
    #[test]
    fn an_instrument_has_an_uncertainty_that_can_be_printed() {
        check_instrument("0.5 mm", "0.15 mm", "0.34 mm");
        check_instrument("0.01 mm", "0.03 mm", "0.036 mm");
        check_instrument("0 mm", "0 mm", "0 mm");
        check_instrument("1 °C", "2.5 °C", "3 °C"); // 2.9439
        check_instrument("1/64 in", "0.15 mm", "0.012 in"); // 0.011477 in
        check_instrument("0.5 mm", "0.01 in", "0.42 mm"); // 0.41149 mm
        let of = |a: &str, b: &str| {
            of_instrument(&Measure::parse(a).unwrap(), &Measure::parse(b).unwrap())
        };
        assert!(of("1 mm", "1 kg").is_err());
    }

    #[test]
    fn two_significant_digits_are_rounded_up() {
        for (exact, expected) in [
            ("0.0995", "0.10"),
            ("0.34", "0.34"),
            ("0.3400001", "0.35"),
            ("99.01", "100"),
            ("100", "100"),
            ("101", "110"),
            ("10", "10"),
            ("123456", "130000"),
        ] {
            assert_eq!(two_digits_up(number(exact)), Ok(number(expected)), "{exact}");
        }
    }

    /// Worked independently; 7.4 stands in the table of the four ways above.
    #[test]
    fn ratios_compare_the_tolerance_with_the_instrument() {
        let ten = discrimination(&strip(), quantity("0.1 mm"));
        assert_eq!(ten, Ok(Some(number("10"))));
        let four = test_uncertainty_ratio(&strip(), quantity("0.125 mm"));
        assert_eq!(four, Ok(Some(number("4"))));
        let open = Limits { low: None, ..strip() };
        assert_eq!(discrimination(&open, quantity("0.1 mm")), Ok(None));
        assert!(discrimination(&strip(), quantity("0 mm")).is_err());
        assert!(discrimination(&strip(), quantity("0.1 kg")).is_err());
        let hot = Tolerance::parse("±5 °C").unwrap().limits(quantity("120 °C")).unwrap();
        assert_eq!(discrimination(&hot, difference("1 °C")), Ok(Some(number("10"))));
        assert_eq!(test_uncertainty_ratio(&hot, difference("2.5 °C")), Ok(Some(number("2"))));
    }

    fn scaled(thousandths: i64, unit: &Unit) -> Quantity {
        Quantity::of(Number::ratio(thousandths, 1000).unwrap(), Some(unit)).unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn another_unit_never_changes_a_verdict_and_within_is_within(
            target in 0_i64..100_000,
            width in 0_i64..2_000,
            band in 0_i64..1_500,
            off in -4_000_i64..4_000,
            (from, to) in prop::sample::select(pairs()),
        ) {
            let (low, high) = (scaled(target - width, from), scaled(target + width, from));
            let limits = Limits { low: Some(low), high: Some(high) };
            let thousandths = Number::ratio(band, 1000).unwrap();
            let band_ = Quantity::difference_of(thousandths, Some(from)).unwrap();
            let reading = scaled(target + off, from);
            let other = Quantity::of(reading.in_unit(Some(to)).unwrap(), Some(to)).unwrap();
            let guarded = guard(&limits, band_).unwrap();
            let expected = match off.abs() {
                off if off <= width - band => Sure::Within,
                off if off > width + band => Sure::Outside,
                _ => Sure::TooCloseToTell,
            };
            prop_assert_eq!(guarded.judge(other), Ok(expected));
            let plain = limits.judge(other).unwrap() == Verdict::Within;
            prop_assert!(plain || expected != Sure::Within);
            prop_assert!(!plain || expected != Sure::Outside);
        }

        #[test]
        fn rounding_up_never_makes_an_uncertainty_smaller(
            above in 1_i64..10_i64.pow(12),
            below in 1_i64..10_i64.pow(12),
        ) {
            let exact = Number::ratio(above, below).unwrap();
            let rounded = two_digits_up(exact).unwrap();
            let more = rounded.sub(exact).unwrap().div(exact).unwrap();
            prop_assert!(!more.is_negative() && more < Number::ratio(1, 10).unwrap());
        }
    }
}
