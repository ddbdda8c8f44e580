//! What a value may be, as people write it: deviations, a range, or a class of general tolerances.
//!
//! Must never read a range as deviations or the other way round: deviations begin with a sign and
//! are counted from the target, ranges contain the word `to`, `at least` or `at most` and stand for
//! themselves.

use std::fmt;
use std::ops::Range;

use super::general::GeneralClass;
use super::number::{Number, SHOWN_PLACES};
use super::scan::{self, BadKind, BadMeasure};
use super::tolerance::{Limits, Tolerance, Verdict};
use super::unit::Unit;
use super::{Dimension, Measure, NoQuantity, Quantity, unit_at, with_symbol};

/// What a value may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    /// So far from the target: `±0.5 mm`, `+0.3/-0.1 mm`.
    Deviations(Tolerance),
    /// Whatever the target: `3 to 5 N`, `at least 3 N`; and the unit it was written in.
    Range(Limits, Option<&'static Unit>),
    /// What the size of the target allows: `ISO 2768-1 m`.
    General(GeneralClass),
}

/// No limits follow for a target.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAllowed {
    /// The target and what is allowed measure different things, or a number does not fit.
    Quantity(NoQuantity),
    /// The target lies outside its own range.
    Outside {
        /// What should be set.
        target: Quantity,
        /// What is allowed; boxed, because errors travel far and should be small.
        limits: Box<Limits>,
    },
    /// ISO 2768-1 has no deviation for this size in this class.
    NoClass {
        /// The class asked for.
        class: GeneralClass,
        /// The size, or something that is no length.
        size: Quantity,
    },
}

impl<T: Into<NoQuantity>> From<T> for NotAllowed {
    fn from(no: T) -> NotAllowed {
        NotAllowed::Quantity(no.into())
    }
}

impl fmt::Display for NotAllowed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = |quantity: Quantity| Measure { quantity, unit: None };
        match self {
            NotAllowed::Quantity(no) => no.fmt(f),
            NotAllowed::Outside { target, limits } => {
                let allowed = Allowed::Range(**limits, shown(*target).shown_unit());
                write!(f, "{} is outside what is allowed, {allowed}", shown(*target))
            }
            NotAllowed::NoClass { class, size } => {
                write!(f, "{class} allows no deviation for {}", shown(*size))
            }
        }
    }
}

impl std::error::Error for NotAllowed {}

impl Allowed {
    /// What it measures; none for a class, which follows its target.
    pub fn dimension(&self) -> Option<Dimension> {
        match self {
            Allowed::Deviations(tolerance) => Some(tolerance.upper.dimension),
            Allowed::Range(limits, _) => limits.low.or(limits.high).map(|end| end.dimension),
            Allowed::General(_) => None,
        }
    }

    /// Reads what [`Tolerance::parse`] reads, `3 to 5 N`, `3 N to 5 N`, `-2 to 2 mm`,
    /// `120 to 130 °C`, `at least 3 N`, `at most 5 N`, `ISO 2768-1 m`, `ISO 2768-m`.
    ///
    /// Temperatures are points in ranges and differences in deviations.
    ///
    /// # Errors
    /// [`BadMeasure`] with the place and what is wrong there.
    pub fn parse(text: &str) -> Result<Allowed, BadMeasure> {
        let all = scan::trimmed(text, 0..text.len());
        let written = &text[all.clone()];
        let after = |words: &str| all.start + words.len()..all.end;
        if written.starts_with(STANDARD) {
            class_in(text, after(STANDARD)).map(Allowed::General)
        } else if starts_with_words(written, AT_LEAST) {
            let (low, unit) = end_in(text, after(AT_LEAST))?.quantity(None)?;
            Ok(Allowed::Range(Limits { low: Some(low), high: None }, unit))
        } else if starts_with_words(written, AT_MOST) {
            let (high, unit) = end_in(text, after(AT_MOST))?.quantity(None)?;
            Ok(Allowed::Range(Limits { low: None, high: Some(high) }, unit))
        } else if let Some(word) = word_to(written) {
            let word = all.start + word;
            range_of(text, all.start..word, word + TO.len()..all.end)
        } else {
            Tolerance::parse(text).map(Allowed::Deviations).map_err(of_any_form)
        }
    }

    /// The values allowed for a target.
    ///
    /// # Errors
    /// [`NotAllowed::Outside`] for a target outside its own range, [`NotAllowed::NoClass`] for a
    /// size the standard has no row for, [`NotAllowed::Quantity`] when the target and what is
    /// allowed measure different things.
    pub fn limits(&self, target: Quantity) -> Result<Limits, NotAllowed> {
        match *self {
            Allowed::Deviations(tolerance) => Ok(tolerance.limits(target)?),
            Allowed::Range(limits, _) => match limits.judge(target)? {
                Verdict::Within => Ok(limits),
                Verdict::Below | Verdict::Above => {
                    Err(NotAllowed::Outside { target, limits: Box::new(limits) })
                }
            },
            Allowed::General(class) => {
                let no_class = NotAllowed::NoClass { class, size: target };
                Ok(class.for_length(target).ok_or(no_class)?.limits(target)?)
            }
        }
    }
}

impl fmt::Display for Allowed {
    /// As it is read; a range without an end, which nobody can write, is `any value`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (limits, unit) = match self {
            Allowed::Deviations(tolerance) => return tolerance.fmt(f),
            Allowed::General(class) => return class.fmt(f),
            Allowed::Range(limits, unit) => (limits, *unit),
        };
        let shown =
            |limit: Quantity| limit.in_unit(unit).unwrap_or(limit.amount).shortest(SHOWN_PLACES);
        let text = match (limits.low.map(shown), limits.high.map(shown)) {
            (Some(low), Some(high)) => format!("{low} {TO} {high}"),
            (Some(low), None) => format!("{AT_LEAST} {low}"),
            (None, Some(high)) => format!("{AT_MOST} {high}"),
            (None, None) => return f.write_str("any value"),
        };
        f.write_str(&with_symbol(text, unit))
    }
}

/// What the name of the standard begins with; its part may be left out.
const STANDARD: &str = "ISO 2768";
const AT_LEAST: &str = "at least";
const AT_MOST: &str = "at most";
const TO: &str = "to";

/// Whether a text begins with these words and not with longer ones.
fn starts_with_words(text: &str, words: &str) -> bool {
    let rest = text.strip_prefix(words);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(char::is_whitespace))
}

/// Where the word `to` stands.
fn word_to(text: &str) -> Option<usize> {
    let mut found = text.match_indices(TO).map(|(at, _)| at);
    found.find(|at| {
        let (before, from) = text.split_at(*at);
        let alone = before.is_empty() || before.ends_with(char::is_whitespace);
        alone && starts_with_words(from, TO)
    })
}

/// One end of a range: a number, and the unit behind it.
struct End {
    number: Number,
    unit: Option<&'static Unit>,
    range: Range<usize>,
}

impl End {
    /// So much of its own unit, or of the one given.
    fn quantity(
        self,
        unit: Option<&'static Unit>,
    ) -> Result<(Quantity, Option<&'static Unit>), BadMeasure> {
        let unit = self.unit.or(unit);
        let quantity = Quantity::of(self.number, unit);
        let bad = |no| BadMeasure { range: self.range, kind: BadKind::Number(no) };
        Ok((quantity.map_err(bad)?, unit))
    }
}

/// The end of a range that fills these bytes of the text.
fn end_in(text: &str, within: Range<usize>) -> Result<End, BadMeasure> {
    let range = scan::trimmed(text, within);
    let part = &text[range.clone()];
    let read = scan::whole_number(part)
        .and_then(|(number, rest)| unit_at(part, rest).map(|unit| (number, unit)));
    let shifted = |bad: BadMeasure| BadMeasure {
        range: range.start + bad.range.start..range.start + bad.range.end,
        kind: bad.kind,
    };
    let (number, unit) = read.map_err(shifted)?;
    Ok(End { number, unit, range })
}

/// `3 to 5 N`, `3 N to 5 N`: the lower end may leave its unit to the upper one.
fn range_of(text: &str, low: Range<usize>, high: Range<usize>) -> Result<Allowed, BadMeasure> {
    let all = low.start..high.end;
    let bad = |kind| Err(BadMeasure { range: all, kind });
    let (low, high) = (end_in(text, low)?, end_in(text, high)?);
    if low.unit.is_some() && high.unit.is_none() {
        return bad(BadKind::RangeUnitsDiffer); // `5 % to 10` would be a number that was never meant
    }
    let (high, unit) = high.quantity(None)?;
    let (low, _) = low.quantity(unit)?;
    match low.compare(high) {
        Ok(order) if order.is_gt() => bad(BadKind::RangeBackwards),
        Ok(_) => Ok(Allowed::Range(Limits { low: Some(low), high: Some(high) }, unit)),
        Err(_) => bad(BadKind::RangeUnitsDiffer),
    }
}

/// The class that stands behind the name of the standard: `-1 m`, ` m`, `-m`.
fn class_in(text: &str, after: Range<usize>) -> Result<GeneralClass, BadMeasure> {
    let rest = &text[after.clone()];
    let rest = rest.strip_prefix("-1").unwrap_or(rest);
    let apart = rest.starts_with(|c: char| c == '-' || c.is_whitespace());
    let letter = rest.strip_prefix('-').unwrap_or(rest).trim_start();
    let class = GeneralClass::find(letter).filter(|_| apart);
    let range = if after.is_empty() { 0..text.len() } else { scan::trimmed(text, after) };
    class.ok_or(BadMeasure { range, kind: BadKind::NoGeneralClass })
}

/// A text without a sign may have been meant as any of the forms.
fn of_any_form(bad: BadMeasure) -> BadMeasure {
    let BadMeasure { range, kind } = bad;
    let kind = if kind == BadKind::NoSign { BadKind::NoForm } else { kind };
    BadMeasure { range, kind }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::quantity;
    use super::super::unit::{UNITS, pairs};
    use super::{Allowed, NotAllowed};
    use crate::quantity::{
        Dimension, GeneralClass, Limits, Measure, Number, Quantity, Tolerance, Unit, Verdict,
    };

    /// The limits for a target, `low | high`, each in its usual unit.
    #[track_caller]
    fn limits(text: &str, target: &str) -> Result<String, NotAllowed> {
        let limits = Allowed::parse(text).unwrap().limits(quantity(target))?;
        let end = |limit: Option<Quantity>| {
            limit.map_or("any".to_owned(), |quantity| Measure { quantity, unit: None }.to_string())
        };
        Ok(format!("{} | {}", end(limits.low), end(limits.high)))
    }

    #[track_caller]
    fn check(text: &str, target: &str, expected: &str) {
        assert_eq!(limits(text, target).as_deref(), Ok(expected), "{text} for {target}");
    }

    #[test]
    fn deviations_are_counted_from_the_target() {
        check("±0.5 mm", "56 mm", "55.5 mm | 56.5 mm");
        check("+0.3/-0.1 mm", "56 mm", "55.9 mm | 56.3 mm");
        check("-0.1/+0.3 mm", "56 mm", "55.9 mm | 56.3 mm");
        check("±9 °F", "120 °C", "115 °C | 125 °C");
    }

    #[test]
    fn a_range_stands_for_itself() {
        check("3 to 5 N", "4 N", "3 N | 5 N");
        check("3 N to 5 N", "3 N", "3 N | 5 N");
        check(" 3 N  to  0.005 kN ", "5 N", "3 N | 5 N");
        check("-2 to 2 mm", "0 mm", "-2 mm | 2 mm");
        check("\u{2212}2 to -1 mm", "-1.5 mm", "-2 mm | -1 mm");
        check("-2 to +2 mm", "0 mm", "-2 mm | 2 mm");
        check("2 1/4 to 2 1/2 in", "60 mm", "57.15 mm | 63.5 mm");
        check("1 in to 30 mm", "1 in", "25.4 mm | 30 mm");
        check("5 to 5 mm", "5 mm", "5 mm | 5 mm");
        check("3 to 5", "4", "3 | 5");
        check("5 to 10 %", "8 %", "0.05 | 0.1");
        check("44.5 to 45.5°", "45°", "44.5° | 45.5°");
    }

    #[test]
    fn a_range_may_be_open_on_one_side() {
        check("at least 3 N", "3 N", "3 N | any");
        check("at most 5 N", "5 N", "any | 5 N");
        check(" at least  3 N ", "4 N", "3 N | any");
        check("at least -3 mm", "0 mm", "-3 mm | any");
        check("at most 30 °C", "20 °C", "any | 30 °C");
        check("at least 3", "4", "3 | any");
    }

    #[test]
    fn temperatures_are_points_in_ranges() {
        check("120 to 130 °C", "125 °C", "120 °C | 130 °C");
        check("248 °F to 130 °C", "125 °C", "120 °C | 130 °C");
        check("0 to 5 K", "3 K", "0 K | 5 K");
    }

    #[test]
    fn a_class_allows_by_the_size_of_the_target() {
        for text in ["ISO 2768-1 m", "ISO 2768 m", "ISO 2768-m", " ISO 2768-1-m "] {
            check(text, "56 mm", "55.7 mm | 56.3 mm");
            assert_eq!(Allowed::parse(text).unwrap().to_string(), "ISO 2768-1 m");
        }
        check("ISO 2768-1 f", "-130 mm", "-130.2 mm | -129.8 mm");
        check("ISO 2768-1 v", "1 in", "24.4 mm | 26.4 mm");
    }

    #[track_caller]
    fn check_none(text: &str, target: &str, expected: &str) {
        assert_eq!(limits(text, target).unwrap_err().to_string(), expected);
    }

    #[test]
    fn a_target_outside_its_own_range_is_refused() {
        check_none("3 to 5 N", "5.1 N", "5.1 N is outside what is allowed, 3 to 5 N");
        check_none("at least 3 N", "2 N", "2 N is outside what is allowed, at least 3 N");
        check_none("at most 30 °C", "95 °F", "35 °C is outside what is allowed, at most 30 °C");
        check_none("3 to 5 N", "4 mm", "length does not go together with force");
        check_none("±0.5 mm", "4 N", "force does not go together with length");
        let mismatch = "temperature difference does not go together with temperature";
        check_none("120 to 130 °C", "5 K", mismatch);
    }

    #[test]
    fn a_size_without_a_row_has_no_limits() {
        check_none("ISO 2768-1 m", "0.4 mm", "ISO 2768-1 m allows no deviation for 0.4 mm");
        check_none("ISO 2768-1 f", "2001 mm", "ISO 2768-1 f allows no deviation for 2001 mm");
        check_none("ISO 2768-1 v", "3 mm", "ISO 2768-1 v allows no deviation for 3 mm");
        check_none("ISO 2768-1 c", "4001 mm", "ISO 2768-1 c allows no deviation for 4001 mm");
        check_none("ISO 2768-1 m", "45°", "ISO 2768-1 m allows no deviation for 45°");
        check_none("ISO 2768-1 m", "4 N", "ISO 2768-1 m allows no deviation for 4 N");
        let (class, size) = (GeneralClass::Medium, quantity("4 N"));
        let refused = Allowed::General(class).limits(size);
        assert_eq!(refused, Err(NotAllowed::NoClass { class, size }));
    }

    #[track_caller]
    fn check_bad(text: &str, wrong: &str, says: &str, way_out: &str) {
        let bad = Allowed::parse(text).unwrap_err();
        let found =
            (&text[bad.range.clone()], bad.to_string(), bad.kind.words().way_out().to_string());
        assert_eq!(found, (wrong, says.to_owned(), way_out.to_owned()));
    }

    #[test]
    fn a_range_that_is_none_is_refused_at_its_place() {
        let (says, way_out) =
            ("the range ends below its beginning", "write the lower value first: 3 to 5 N");
        check_bad("5 to 3 N", "5 to 3 N", says, way_out);
        check_bad(" 2 in to 50 mm", "2 in to 50 mm", says, way_out);
        let (says, way_out) = (
            "the units of the two ends do not fit each other",
            "write both ends in the same unit, or the unit once, at the end: 3 to 5 N",
        );
        check_bad("3 mm to 5 N", "3 mm to 5 N", says, way_out);
        check_bad("3 N to 5", "3 N to 5", says, way_out);
        check_bad("5 % to 10", "5 % to 10", says, way_out);
        check_bad("3 °C to 5 K", "3 °C to 5 K", says, way_out);
    }

    #[test]
    fn numbers_and_units_of_a_range_are_shown_at_their_place() {
        let number = "write a number, such as 56, -0.5 or 2 1/4";
        check_bad("3 to 5 MM", "MM", "`MM` is not a known unit", "did you mean `mm`?");
        check_bad("3 MM to 5 mm", "MM", "`MM` is not a known unit", "did you mean `mm`?");
        check_bad("at least x N", "x", "this is not a number", number);
        check_bad("±3 to ±5 N", "±", "this is not a number", number);
        check_bad("at most", "", "there is no value", number);
        check_bad("3 to", "", "there is no value", number);
        check_bad("to 5 N", "", "there is no value", number);
        check_bad("", "", "there is no value", number);
        check_bad(
            "3 to 5,5 N",
            "5,5",
            "a comma is not a decimal sign here",
            "write a point as the decimal sign, and nothing between digits",
        );
    }

    #[test]
    fn what_is_no_class_is_told_the_classes() {
        let (says, way_out) = (
            "this is no class of ISO 2768-1",
            "write ISO 2768-1 f, m, c or v: fine, medium, coarse or very coarse",
        );
        check_bad("ISO 2768", "ISO 2768", says, way_out);
        check_bad("ISO 2768-1", "-1", says, way_out);
        check_bad("ISO 2768-mK", "-mK", says, way_out);
        check_bad("ISO 2768-2 K", "-2 K", says, way_out);
        check_bad("ISO 2768-1 M", "-1 M", says, way_out);
        check_bad("ISO 2768-1m", "-1m", says, way_out);
        check_bad("ISO 27681 m", "1 m", says, way_out);
    }

    #[test]
    fn what_has_no_form_is_told_the_forms() {
        let (says, way_out) = (
            "this does not say what is allowed",
            "write ±0.5 mm, +0.3/-0.1 mm, 3 to 5 N, at least 3 N, at most 5 N or ISO 2768-1 m",
        );
        check_bad("0.5 mm", "0.5 mm", says, way_out);
        check_bad(" 3-5 N", "3-5 N", says, way_out);
        check_bad("at leastways 3 N", "at leastways 3 N", says, way_out);
        check_bad("ISO2768-m", "ISO2768-m", says, way_out);
        check_bad(
            "+0.3 mm",
            "+0.3 mm",
            "a tolerance has two deviations",
            "write the other deviation too: +0.3/-0 mm",
        );
    }

    #[test]
    fn the_two_languages_of_signs_are_kept_apart() {
        assert!(matches!(Allowed::parse("-2/+2 mm"), Ok(Allowed::Deviations(_))));
        assert!(matches!(Allowed::parse("-2 to +2 mm"), Ok(Allowed::Range(..))));
    }

    fn thousandths(digits: i64, unit: &Unit) -> Quantity {
        Quantity::of(Number::ratio(digits, 1000).unwrap(), Some(unit)).unwrap()
    }

    fn deviations(width: i64, unit: &'static Unit) -> Allowed {
        let amount = Number::ratio(width, 1000).unwrap();
        let deviation = |amount| Quantity::difference_of(amount, Some(unit)).unwrap();
        let (lower, upper) = (deviation(amount.neg()), deviation(amount));
        Allowed::Deviations(Tolerance { lower, upper, unit: Some(unit) })
    }

    /// Every form that allows `low` to `high`, in thousandths of a unit, or a part of it.
    fn forms(low: i64, high: i64, unit: &'static Unit) -> Vec<Allowed> {
        let (least, most) = (thousandths(low, unit), thousandths(high, unit));
        let range = |low, high| Allowed::Range(Limits { low, high }, Some(unit));
        let mut all = vec![
            range(Some(least), Some(most)),
            range(Some(least), None),
            range(None, Some(most)),
            deviations(high - low, unit),
        ];
        if unit.dimension == Dimension::LENGTH {
            all.extend(GeneralClass::ALL.map(Allowed::General));
        }
        all
    }

    /// A length written in inches and the same one in millimetres.
    fn both_written(sixty_fourths: i64) -> (String, String) {
        let inches = Number::ratio(sixty_fourths, 64).unwrap();
        let text = format!("{} in", inches.fraction(64).unwrap());
        let millimetres = quantity(&text).in_unit(Unit::find("mm")).unwrap();
        (text, format!("{millimetres} mm"))
    }

    fn any_unit() -> impl Strategy<Value = &'static Unit> {
        (0..UNITS.len()).prop_map(|index| &UNITS[index])
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn what_is_shown_reads_back(
            low in -100_000_i64..100_000,
            width in 0_i64..100_000,
            unit in any_unit(),
        ) {
            for allowed in forms(low, low + width, unit) {
                prop_assert_eq!(Allowed::parse(&allowed.to_string()), Ok(allowed));
            }
        }

        #[test]
        fn a_reading_on_the_limit_passes_and_one_past_it_fails(
            low in -100_000_i64..100_000,
            width in 0_i64..100_000,
            part in 0_i64..=1000,
            (unit, other) in prop::sample::select(pairs()),
        ) {
            let target = thousandths(low + width * part / 1000, unit);
            let again = |limit: Quantity| {
                Quantity::of(limit.in_unit(Some(other)).unwrap(), Some(other)).unwrap()
            };
            let hair = Quantity::difference_of(Number::last_place(9).unwrap(), Some(unit)).unwrap();
            for allowed in forms(low, low + width, unit) {
                let limits = match allowed.limits(target) {
                    Err(NotAllowed::NoClass { .. }) => continue,
                    limits => limits.unwrap(),
                };
                prop_assert_eq!(limits.judge(target), Ok(Verdict::Within));
                if let Some(low) = limits.low {
                    prop_assert_eq!(limits.judge(again(low)), Ok(Verdict::Within));
                    prop_assert_eq!(limits.judge(low.sub(hair).unwrap()), Ok(Verdict::Below));
                }
                if let Some(high) = limits.high {
                    prop_assert_eq!(limits.judge(again(high)), Ok(Verdict::Within));
                    prop_assert_eq!(limits.judge(high.add(hair).unwrap()), Ok(Verdict::Above));
                }
            }
        }

        #[test]
        fn inches_and_millimetres_judge_alike(
            target in 64_i64..6_400,
            width in 0_i64..64,
            off in -96_i64..96,
        ) {
            let (inches, millimetres) = both_written(target);
            let (low, high) = (both_written(target - width), both_written(target + width));
            let wide = both_written(width);
            let reading = both_written(target + off);
            for (one, other) in [
                (format!("±{}", wide.0), format!("±{}", wide.1)),
                (format!("{} to {}", low.0, high.0), format!("{} to {}", low.1, high.1)),
                (format!("at least {}", low.0), format!("at least {}", low.1)),
                (format!("at most {}", high.0), format!("at most {}", high.1)),
                ("ISO 2768-1 c".to_owned(), "ISO 2768-m".replace('m', "c")),
            ] {
                let one = Allowed::parse(&one).unwrap().limits(quantity(&inches)).unwrap();
                let other = Allowed::parse(&other).unwrap().limits(quantity(&millimetres)).unwrap();
                let verdict = one.judge(quantity(&reading.0));
                prop_assert_eq!(verdict, other.judge(quantity(&reading.1)));
                prop_assert_eq!(verdict, one.judge(quantity(&reading.1)));
                prop_assert_eq!(verdict, other.judge(quantity(&reading.0)));
            }
        }

        #[test]
        fn any_text_is_read_or_refused(
            text in "(at least |at most |ISO 2768)?[-+±0-9 ./,a-zµ°·²%\u{2212}]{0,12}( to )?[-0-9 .mN]{0,9}|.{0,24}",
        ) {
            if let Err(bad) = Allowed::parse(&text) {
                prop_assert!(text.get(bad.range).is_some());
            }
        }
    }
}
