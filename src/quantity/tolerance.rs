//! How far a value may be off, the limits that follow, and judging a reading against them.

use std::fmt;
use std::ops::Range;

use super::number::{Number, SHOWN_PLACES};
use super::scan::{self, BadKind, BadMeasure};
use super::unit::Unit;
use super::{NoQuantity, Quantity, unit_at, with_symbol};

/// The two deviations that are still allowed, as differences from the target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance {
    /// The lower one, mostly negative.
    pub lower: Quantity,
    /// The upper one, never below the lower.
    pub upper: Quantity,
    /// The unit it was written in.
    pub unit: Option<&'static Unit>,
}

/// The values that are still allowed: the limits belong to them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The least; none when nothing is too small.
    pub low: Option<Quantity>,
    /// The greatest; none when nothing is too large.
    pub high: Option<Quantity>,
}

/// Where a reading lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, or on a limit.
    Within,
    /// Less than the least allowed value.
    Below,
    /// More than the greatest allowed value.
    Above,
}

impl Tolerance {
    /// Reads `±0.5 mm`, `+-0.5 mm`, `+0.3/-0.1 mm`, `-0.1/+0.3 mm`, `+0.3 mm/-0.1 mm`, `±5 °C`.
    ///
    /// # Errors
    /// [`BadMeasure`] with the place and what is wrong there.
    pub fn parse(text: &str) -> Result<Tolerance, BadMeasure> {
        let all = scan::trimmed(text, 0..text.len());
        if all.is_empty() {
            return Err(BadMeasure { range: 0..text.len(), kind: BadKind::Empty });
        }
        match plus_minus(&text[all.clone()]) {
            Some(width) => both_ways(text, all.start + width..all.end),
            None => two_deviations(text, all),
        }
    }

    /// The deviation up and down when both are the same.
    pub fn symmetric(&self) -> Option<Quantity> {
        let (lower, upper) = (self.lower.amount, self.upper.amount);
        (lower.neg() == upper).then_some(self.upper)
    }

    /// The values allowed about a target.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`] when target and tolerance measure different things.
    pub fn limits(&self, target: Quantity) -> Result<Limits, NoQuantity> {
        let (low, high) = (target.add(self.lower)?, target.add(self.upper)?);
        Ok(Limits { low: Some(low), high: Some(high) })
    }
}

impl fmt::Display for Tolerance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = self.unit;
        let number = |quantity: Quantity| quantity.in_unit(unit).unwrap_or(quantity.amount);
        let shown = |number: Number| number.abs().shortest(SHOWN_PLACES);
        let (lower, upper) = (number(self.lower), number(self.upper));
        let text = if lower.neg() == upper {
            format!("±{}", shown(upper))
        } else {
            let up = if upper.is_negative() { '-' } else { '+' };
            let down = if lower.is_negative() || lower.is_zero() { '-' } else { '+' };
            format!("{up}{}/{down}{}", shown(upper), shown(lower))
        };
        f.write_str(&with_symbol(text, unit))
    }
}

impl Limits {
    /// Everything is allowed.
    pub const NONE: Limits = Limits { low: None, high: None };

    /// Limits as they were printed in `unit`, read back; what is no number leaves its side open.
    pub fn read(low: Option<&str>, high: Option<&str>, unit: Option<&Unit>) -> Limits {
        let end = |text: Option<&str>| Quantity::of(Number::parse(text?).ok()?, unit).ok();
        Limits { low: end(low), high: end(high) }
    }

    /// Where a reading lies; the limit itself passes.
    ///
    /// # Errors
    /// [`NoQuantity::Mismatch`] when reading and limits measure different things.
    pub fn judge(&self, reading: Quantity) -> Result<Verdict, NoQuantity> {
        if let Some(low) = self.low
            && reading.compare(low)?.is_lt()
        {
            return Ok(Verdict::Below);
        }
        if let Some(high) = self.high
            && reading.compare(high)?.is_gt()
        {
            return Ok(Verdict::Above);
        }
        Ok(Verdict::Within)
    }
}

/// The length of the sign "both ways" at the start of a text.
fn plus_minus(text: &str) -> Option<usize> {
    ["±", "+-", "+/-", "+\u{2212}"].iter().find(|sign| text.starts_with(**sign)).map(|s| s.len())
}

fn both_ways(text: &str, range: Range<usize>) -> Result<Tolerance, BadMeasure> {
    let range = scan::trimmed(text, range);
    let (number, end) = scan::fraction_at(&text[..range.end], range.start)?;
    let unit = unit_at(text, scan::trimmed(text, end..range.end))?;
    let deviation = |number| difference(number, unit, &range);
    Ok(Tolerance { lower: deviation(number.neg())?, upper: deviation(number)?, unit })
}

/// `+0.3/-0.1 mm`, `-0.1 mm/+0.3 mm`: the unit may stand behind each or behind the last.
fn two_deviations(text: &str, all: Range<usize>) -> Result<Tolerance, BadMeasure> {
    let first = deviation(text, all.clone())?;
    if first.next == all.end {
        return Err(BadMeasure { range: all, kind: BadKind::OneDeviation });
    }
    let rest = scan::trimmed(text, first.next + 1..all.end);
    let second = deviation(text, rest)?;
    if second.next != all.end {
        let kind = BadKind::NotANumber;
        return Err(BadMeasure { range: second.next..all.end, kind });
    }
    let unit = second.unit.or(first.unit);
    let one = difference(first.number, first.unit.or(unit), &all)?;
    let other = difference(second.number, unit, &all)?;
    match one.compare(other) {
        Ok(order) if order.is_gt() => Ok(Tolerance { lower: other, upper: one, unit }),
        Ok(_) => Ok(Tolerance { lower: one, upper: other, unit }),
        Err(_) => Err(BadMeasure { range: all, kind: BadKind::UnitsDiffer }),
    }
}

/// One signed number with its unit, and the stroke or the end after it.
struct Deviation {
    number: Number,
    unit: Option<&'static Unit>,
    next: usize,
}

fn deviation(text: &str, range: Range<usize>) -> Result<Deviation, BadMeasure> {
    let sign = text[range.clone()].chars().next();
    let Some(sign) = sign.filter(|c| *c == '+' || scan::is_minus(*c)) else {
        return Err(BadMeasure { range, kind: BadKind::NoSign });
    };
    let start = range.start + sign.len_utf8();
    let (number, end) = scan::fraction_at(&text[..range.end], start)?;
    let next = end + stroke_before_sign(&text[end..range.end]);
    let unit = unit_at(text, scan::trimmed(text, end..next))?;
    let number = if sign == '+' { number } else { number.neg() };
    Ok(Deviation { number, unit, next })
}

/// Where the stroke stands that a sign follows; the end when there is none.
fn stroke_before_sign(text: &str) -> usize {
    let signed = |c: char| c == '+' || scan::is_minus(c);
    let mut strokes = text.match_indices('/').map(|(at, _)| at);
    let stroke = strokes.find(|at| text[at + 1..].trim_start().starts_with(signed));
    stroke.unwrap_or(text.len())
}

fn difference(
    number: Number,
    unit: Option<&'static Unit>,
    range: &Range<usize>,
) -> Result<Quantity, BadMeasure> {
    Quantity::difference_of(number, unit)
        .map_err(|no| BadMeasure { range: range.clone(), kind: BadKind::Number(no) })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::quantity;
    use super::super::unit::{UNITS, pairs};
    use super::{Limits, Tolerance, Verdict};
    use crate::quantity::{Number, Quantity, Unit};

    #[track_caller]
    fn check(text: &str, target: &str, low: &str, high: &str) {
        let limits = Tolerance::parse(text).unwrap().limits(quantity(target)).unwrap();
        let expected = Limits { low: Some(quantity(low)), high: Some(quantity(high)) };
        assert_eq!(limits, expected, "{text} about {target}");
    }

    #[test]
    fn deviations_are_written_in_many_ways() {
        check("±0.5 mm", "56 mm", "55.5 mm", "56.5 mm");
        check("+-0.5 mm", "56 mm", "55.5 mm", "56.5 mm");
        check("+/- 0.5 mm", "56 mm", "55.5 mm", "56.5 mm");
        check("+0.3/-0.1 mm", "56 mm", "55.9 mm", "56.3 mm");
        check("+0.3 mm/-0.1 mm", "56 mm", "55.9 mm", "56.3 mm");
        check("-0.1/+0.3 mm", "56 mm", "55.9 mm", "56.3 mm");
        check("-0.1 mm / +0.3 mm", "56 mm", "55.9 mm", "56.3 mm");
        check("+0.5/-0 mm", "56 mm", "56 mm", "56.5 mm");
        check("+0.3/+0.1 mm", "56 mm", "56.1 mm", "56.3 mm");
        check("+1/16/-1/32 in", "2 in", "1 31/32 in", "2 1/16 in");
        check("+0.5 m/s/-0.25 m/s", "1 m/s", "0.75 m/s", "1.5 m/s");
        check("+0.5 m/s / \u{2212}30 m/min", "1 m/s", "0.5 m/s", "1.5 m/s");
        check("±1", "6", "5", "7");
        check("±0.5 mm", "2 in", "50.3 mm", "51.3 mm");
    }

    /// NIST SP 811 B.8, temperature interval: the offset must not enter a tolerance.
    #[test]
    fn a_temperature_tolerance_is_a_difference() {
        check("±5 °C", "120 °C", "115 °C", "125 °C");
        check("±9 °F", "120 °C", "115 °C", "125 °C");
        check("±5 K", "120 °C", "115 °C", "125 °C");
    }

    #[track_caller]
    fn check_bad(text: &str, wrong: &str, says: &str) {
        let bad = Tolerance::parse(text).unwrap_err();
        assert_eq!((&text[bad.range.clone()], bad.to_string().as_str()), (wrong, says));
    }

    #[test]
    fn what_is_no_tolerance_is_refused_at_its_place() {
        check_bad("0.5 mm", "0.5 mm", "a tolerance begins with ±, + or -");
        check_bad("+0.3 mm", "+0.3 mm", "a tolerance has two deviations");
        check_bad("±-0.5 mm", "-", "this is not a number");
        check_bad("±0.5 MM", "MM", "`MM` is not a known unit");
        check_bad(
            "+0.3 mm/-0.1 kg",
            "+0.3 mm/-0.1 kg",
            "the units of the two deviations do not fit each other",
        );
        check_bad("+1/-1/-1 mm", "/-1 mm", "this is not a number");
        check_bad("", "", "there is no value");
    }

    #[test]
    fn target_and_tolerance_measure_the_same() {
        let limits = Tolerance::parse("±0.5 mm").unwrap().limits(quantity("1 kg"));
        assert_eq!(limits.unwrap_err().to_string(), "mass does not go together with length");
    }

    #[test]
    fn only_equal_deviations_have_one_half_range() {
        assert_eq!(Tolerance::parse("±0.5 mm").unwrap().symmetric(), Some(quantity("0.5 mm")));
        assert_eq!(Tolerance::parse("+0.5/-0.5 mm").unwrap().to_string(), "±0.5 mm");
        assert_eq!(Tolerance::parse("+0.5/-0.4 mm").unwrap().symmetric(), None);
    }

    /// Limits 55.5 to 56.5 mm under simple acceptance (ILAC-G8:09/2019, w = 0): the limit passes.
    #[test]
    fn a_reading_on_the_limit_passes() {
        let limits = Tolerance::parse("±0.5 mm").unwrap().limits(quantity("56 mm")).unwrap();
        for (reading, verdict) in [
            ("55.25 mm", Verdict::Below),
            ("55.4999999999 mm", Verdict::Below),
            ("55.50 mm", Verdict::Within),
            ("56.00 mm", Verdict::Within),
            ("56.50 mm", Verdict::Within),
            ("56.54 mm", Verdict::Above),
            ("2 1/4 in", Verdict::Above),
        ] {
            assert_eq!(limits.judge(quantity(reading)), Ok(verdict), "{reading}");
        }
        assert!(limits.judge(quantity("56 kg")).is_err());
    }

    #[test]
    fn an_open_side_never_fails() {
        let at_least = Limits { low: Some(quantity("5 N")), high: None };
        assert_eq!(at_least.judge(quantity("5000 N")), Ok(Verdict::Within));
        assert_eq!(at_least.judge(quantity("4.9 N")), Ok(Verdict::Below));
        assert_eq!(Limits::NONE.judge(quantity("4.9 N")), Ok(Verdict::Within));
    }

    fn scaled(digits: i64, unit: &Unit) -> Quantity {
        let number = Number::ratio(digits, 1000).unwrap();
        Quantity::of(number, Some(unit)).unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn what_is_shown_reads_back(
            a in -100_000_i64..100_000,
            b in -100_000_i64..100_000,
            unit in 0..UNITS.len(),
        ) {
            let unit = &UNITS[unit];
            let deviation = |digits| {
                let number = Number::ratio(digits, 1000).unwrap();
                Quantity::difference_of(number, Some(unit)).unwrap()
            };
            let (lower, upper) = (deviation(a.min(b)), deviation(a.max(b)));
            let tolerance = Tolerance { lower, upper, unit: Some(unit) };
            prop_assert_eq!(Tolerance::parse(&tolerance.to_string()), Ok(tolerance));
        }

        #[test]
        fn another_unit_never_changes_a_judgement(
            target in 0_i64..100_000,
            width in 0_i64..2_000,
            off in -3_000_i64..3_000,
            (from, to) in prop::sample::select(pairs()),
        ) {
            let (low, high) = (scaled(target - width, from), scaled(target + width, from));
            let limits = Limits { low: Some(low), high: Some(high) };
            let reading = scaled(target + off, from);
            let other = Quantity::of(reading.in_unit(Some(to)).unwrap(), Some(to)).unwrap();
            let expected = match off {
                off if off < -width => Verdict::Below,
                off if off > width => Verdict::Above,
                _ => Verdict::Within,
            };
            prop_assert_eq!(limits.judge(other), Ok(expected));
        }

        #[test]
        fn any_text_is_read_or_refused(text in "[-+±/][-+±0-9 ./,a-zµ°·²%\u{2212}]{0,24}|.{0,24}") {
            if let Err(bad) = Tolerance::parse(&text) {
                prop_assert!(text.get(bad.range).is_some());
            }
        }
    }
}
