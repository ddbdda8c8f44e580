//! Reading numbers out of text, and what can be wrong with text that should be a quantity.

use std::fmt;
use std::ops::Range;

use super::number::{NoNumber, Number};
use crate::language::Words;

/// Most digits in one part of a number: whole part with decimals, numerator, denominator.
const MOST_DIGITS: usize = 18;

/// Text that is no number, quantity or tolerance: where, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BadMeasure {
    /// Bytes of the text that are wrong.
    pub range: Range<usize>,
    /// What is wrong.
    pub kind: BadKind,
}

/// What is wrong with text that should be a number, a quantity, or say what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BadKind {
    /// There is no text.
    Empty,
    /// A number should stand here.
    NotANumber,
    /// More than 18 digits.
    TooManyDigits,
    /// A comma where the decimal point belongs.
    DecimalComma,
    /// `.5`: no digit before the point.
    NoDigitBeforePoint,
    /// `5.`: no digit after the point.
    NoDigitAfterPoint,
    /// `2 5/4`: the fraction of a mixed number is not below one.
    ImproperFraction,
    /// A fraction with the denominator zero.
    ZeroDenominator,
    /// Something stands after the number that is no unit.
    UnknownUnit {
        /// The text, cut after 24 letters.
        written: String,
        /// A unit that looks like it.
        nearest: Option<&'static str>,
    },
    /// A plain number was wanted, and something stands after it.
    Trailing,
    /// The number cannot be kept exactly.
    Number(NoNumber),
    /// A tolerance without a sign.
    NoSign,
    /// A tolerance with one deviation, `+0.3 mm`.
    OneDeviation,
    /// The two deviations of a tolerance have units that do not fit each other.
    UnitsDiffer,
    /// `5 to 3 N`: the lower end of a range is above the upper one.
    RangeBackwards,
    /// The two ends of a range have units that do not fit each other.
    RangeUnitsDiffer,
    /// `ISO 2768` with something other than one of its classes.
    NoGeneralClass,
    /// Neither deviations nor a range nor a class of general tolerances.
    NoForm,
}

impl BadKind {
    /// What is wrong, and how to write it instead.
    pub fn words(&self) -> Words {
        Words::of(match self {
            BadKind::Empty => "quantity-empty",
            BadKind::NotANumber => "quantity-not-a-number",
            BadKind::TooManyDigits => "quantity-too-many-digits",
            BadKind::DecimalComma => "quantity-decimal-comma",
            BadKind::NoDigitBeforePoint => "quantity-no-digit-before-point",
            BadKind::NoDigitAfterPoint => "quantity-no-digit-after-point",
            BadKind::ImproperFraction => "quantity-improper-fraction",
            BadKind::ZeroDenominator => "quantity-zero-denominator",
            BadKind::Trailing => "quantity-trailing",
            BadKind::NoSign => "quantity-no-sign",
            BadKind::OneDeviation => "quantity-one-deviation",
            BadKind::UnitsDiffer => "quantity-units-differ",
            BadKind::RangeBackwards => "quantity-range-backwards",
            BadKind::RangeUnitsDiffer => "quantity-range-units-differ",
            BadKind::NoGeneralClass => "quantity-no-general-class",
            BadKind::NoForm => "quantity-no-form",
            BadKind::UnknownUnit { written, nearest: Some(unit) } => {
                let parts = [("written", written.into()), ("nearest", (*unit).into())];
                return Words::new("quantity-unit-like", &parts);
            }
            BadKind::UnknownUnit { written, nearest: None } => {
                return Words::new("quantity-unknown-unit", &[("written", written.into())]);
            }
            BadKind::Number(no) => {
                return Words::new("quantity-number", &[("words", no.words().into())]);
            }
        })
    }
}

impl fmt::Display for BadKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl fmt::Display for BadMeasure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.kind.fmt(f)
    }
}

impl std::error::Error for BadMeasure {}

/// Bytes of the trimmed text within `text`.
pub(crate) fn trimmed(text: &str, within: Range<usize>) -> Range<usize> {
    let part = &text[within.clone()];
    let start = within.start + (part.len() - part.trim_start().len());
    start..start + part.trim().len()
}

/// The signed number that `text` begins with (decimal, fraction or mixed), and the trimmed rest.
pub(crate) fn whole_number(text: &str) -> Result<(Number, Range<usize>), BadMeasure> {
    let all = trimmed(text, 0..text.len());
    if all.is_empty() {
        return Err(BadMeasure { range: 0..text.len(), kind: BadKind::Empty });
    }
    let first = text[all.clone()].chars().next();
    let sign = first.filter(|c| is_minus(*c) || *c == '+');
    let start = all.start + sign.map_or(0, char::len_utf8);
    let (number, end) = fraction_at(text, start)?;
    let negative = sign.is_some_and(is_minus);
    Ok((if negative { number.neg() } else { number }, trimmed(text, end..all.end)))
}

/// Hyphen or minus sign.
pub(crate) fn is_minus(c: char) -> bool {
    c == '-' || c == '\u{2212}'
}

/// An unsigned number at `start`: `12`, `0.5`, `3/8`, `2 1/4`, `2-1/4`; and where it ends.
pub(crate) fn fraction_at(text: &str, start: usize) -> Result<(Number, usize), BadMeasure> {
    let (first, end) = decimal_at(text, start)?;
    if text[end..].starts_with(',') && digits_at(text, end + 1) > end + 1 {
        return Err(bad(start..digits_at(text, end + 1), BadKind::DecimalComma));
    }
    if text[start..end].contains('.') {
        return Ok((first, end));
    }
    if let Some((below, last)) = denominator_at(text, end)? {
        return Ok((divided(first, below, start..last)?, last));
    }
    match mixed_at(text, end)? {
        Some((part, last)) => {
            let sum = first.add(part).map_err(|no| bad(start..last, BadKind::Number(no)))?;
            Ok((sum, last))
        }
        None => Ok((first, end)),
    }
}

/// The fraction below one that follows a whole number after a blank or a hyphen.
fn mixed_at(text: &str, end: usize) -> Result<Option<(Number, usize)>, BadMeasure> {
    let rest = &text[end..];
    let gap = match rest.chars().next() {
        Some('-') => 1,
        Some(c) if c.is_whitespace() => rest.len() - rest.trim_start().len(),
        _ => return Ok(None),
    };
    let start = end + gap;
    let digits = digits_at(text, start);
    if digits == start {
        return Ok(None);
    }
    let Some((below, last)) = denominator_at(text, digits)? else { return Ok(None) };
    let part = divided(integer(text, start..digits)?, below, start..last)?;
    if part >= Number::ONE {
        return Err(bad(start..last, BadKind::ImproperFraction));
    }
    Ok(Some((part, last)))
}

/// The denominator after a stroke at `end`; nothing when no digit follows the stroke.
fn denominator_at(text: &str, end: usize) -> Result<Option<(Number, usize)>, BadMeasure> {
    let start = end + 1;
    let last = if text[end..].starts_with('/') { digits_at(text, start) } else { start };
    if last <= start { Ok(None) } else { Ok(Some((integer(text, start..last)?, last))) }
}

fn divided(above: Number, below: Number, range: Range<usize>) -> Result<Number, BadMeasure> {
    above.div(below).map_err(|no| match no {
        NoNumber::DivisionByZero => bad(range, BadKind::ZeroDenominator),
        other => bad(range, BadKind::Number(other)),
    })
}

/// An unsigned decimal at `start`, `12` or `0.50`, and where it ends.
pub(crate) fn decimal_at(text: &str, start: usize) -> Result<(Number, usize), BadMeasure> {
    let point = digits_at(text, start);
    if point == start {
        return Err(no_digit(text, start));
    }
    if !text[point..].starts_with('.') {
        return Ok((integer(text, start..point)?, point));
    }
    let end = digits_at(text, point + 1);
    if end == point + 1 {
        return Err(bad(start..end, BadKind::NoDigitAfterPoint));
    }
    Ok((with_decimals(text, start..point, point + 1..end)?, end))
}

/// Where a number should begin, no digit stands.
fn no_digit(text: &str, start: usize) -> BadMeasure {
    let first = text[start..].chars().next();
    let end = start + first.map_or(0, char::len_utf8);
    let last = digits_at(text, end);
    if first == Some('.') && last > end {
        bad(start..last, BadKind::NoDigitBeforePoint)
    } else {
        bad(start..end, BadKind::NotANumber)
    }
}

/// The decimal whose whole digits end at a point and whose decimals begin after it.
fn with_decimals(
    text: &str,
    whole: Range<usize>,
    decimals: Range<usize>,
) -> Result<Number, BadMeasure> {
    let all = whole.start..decimals.end;
    if whole.len() + decimals.len() > MOST_DIGITS {
        return Err(bad(all, BadKind::TooManyDigits));
    }
    let places = u32::try_from(decimals.len()).unwrap_or(u32::MAX);
    let (whole, decimals) = (integer(text, whole)?, integer(text, decimals)?);
    Number::last_place(places)
        .and_then(|place| decimals.mul(place))
        .and_then(|part| whole.add(part))
        .map_err(|no| bad(all, BadKind::Number(no)))
}

/// The integer whose digits stand in `range`.
fn integer(text: &str, range: Range<usize>) -> Result<Number, BadMeasure> {
    if range.len() > MOST_DIGITS {
        return Err(bad(range, BadKind::TooManyDigits));
    }
    let digits = &text[range.clone()];
    let value: i64 = digits.parse().map_err(|_| bad(range, BadKind::NotANumber))?;
    Ok(Number::from(value))
}

/// Where the ASCII digits that begin at `start` end.
fn digits_at(text: &str, start: usize) -> usize {
    let tail = text.as_bytes().get(start..).unwrap_or_default();
    start + tail.iter().take_while(|byte| byte.is_ascii_digit()).count()
}

fn bad(range: Range<usize>, kind: BadKind) -> BadMeasure {
    BadMeasure { range, kind }
}
