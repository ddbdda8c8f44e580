//! Exact numbers: fractions of two integers, never rounded unless somebody asks for it.
//!
//! Must never wrap, panic or lose a digit silently: an operation whose result does not fit says so.

use std::cmp::Ordering;
use std::fmt;
use std::ops::Range;

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};
use serde::{Serialize, Serializer};

use super::scan::{self, BadKind, BadMeasure};
use super::small;

use crate::language::Words;

/// Numerator and denominator stay at or below this, so that ten times one of them still fits.
const BOUND: i128 = 10_i128.pow(36);

/// Most decimals that are ever printed.
const MOST_PLACES: u32 = 30;

/// Decimals that [`fmt::Display`] shows of a number that has no finite decimal.
pub(crate) const SHOWN_PLACES: u32 = 12;

/// An exact fraction, positive or negative, with at most 36 digits above and below.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Number(Ratio<i128>);

/// An operation has no number as its answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoNumber {
    /// The result needs more than 36 digits above or below.
    Overflow,
    /// Something was divided by zero, or rounded to a step of zero.
    DivisionByZero,
    /// The square root of a negative number was asked for.
    NegativeRoot,
}

/// How a number between two steps is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// To the nearer step; from the middle to the even one (SP 811 B.7.1, ISO 80000-1 rule A).
    HalfEven,
    /// To the step above, towards plus infinity.
    Up,
    /// To the step below, towards minus infinity.
    Down,
}

impl Number {
    /// Nothing.
    pub const ZERO: Number = Number::constant(0, 1);
    /// One.
    pub const ONE: Number = Number::constant(1, 1);
    /// Two.
    pub const TWO: Number = Number::constant(2, 1);
    /// The circle constant as 245850922/78256779, which is right to 16 significant digits.
    ///
    /// A convergent of its continued fraction (checked below against 20 digits): far shorter than a
    /// decimal of the same worth, so that formulas of rolls do not overflow.
    pub const PI: Number = Number::constant(245_850_922, 78_256_779);

    /// A fraction in lowest terms, for tables: `denominator` must be positive.
    pub(crate) const fn constant(numerator: i128, denominator: i128) -> Number {
        let (mut left, mut right) = (numerator, denominator);
        while right != 0 {
            (left, right) = (right, left % right);
        }
        let common = if left < 0 { -left } else { left };
        Number(Ratio::new_raw(numerator / common, denominator / common))
    }

    /// The fraction of two integers.
    ///
    /// # Errors
    /// [`NoNumber::DivisionByZero`] for a denominator of zero.
    pub fn ratio(numerator: i64, denominator: i64) -> Result<Number, NoNumber> {
        Number::from(numerator).div(Number::from(denominator))
    }

    /// The fraction of two integers of any size.
    ///
    /// # Errors
    /// [`NoNumber::DivisionByZero`] for a denominator of zero, [`NoNumber::Overflow`].
    pub(crate) fn of_parts(above: i128, below: i128) -> Result<Number, NoNumber> {
        let fits = |part: i128| part.unsigned_abs() <= BOUND.unsigned_abs();
        match below {
            0 => Err(NoNumber::DivisionByZero),
            _ if fits(above) && fits(below) => Ok(Number(Ratio::new(above, below))),
            _ => Err(NoNumber::Overflow),
        }
    }

    /// How many of its last places it is, when it has no more than `places` decimals.
    pub(crate) fn steps_of_place(self, places: u32) -> Option<i128> {
        let (whole, below) = (10_i128.checked_pow(places)?, *self.0.denom());
        let is_finite = whole % below == 0;
        self.0.numer().checked_mul(&(whole / below)).filter(|_| is_finite)
    }

    /// Reads `12`, `-0.50`, `3/8`, `2 1/4` or `2-1/4`, with at most 18 digits in each part.
    ///
    /// # Errors
    /// [`BadMeasure`] with the place and what is wrong there.
    pub fn parse(text: &str) -> Result<Number, BadMeasure> {
        let (number, rest) = scan::whole_number(text)?;
        let kind = BadKind::Trailing;
        if rest.is_empty() { Ok(number) } else { Err(BadMeasure { range: rest, kind }) }
    }

    fn fitting(result: Option<Ratio<i128>>) -> Result<Number, NoNumber> {
        match result {
            Some(ratio) if ratio.numer().unsigned_abs() <= BOUND.unsigned_abs() => {
                if *ratio.denom() <= BOUND { Ok(Number(ratio)) } else { Err(NoNumber::Overflow) }
            }
            _ => Err(NoNumber::Overflow),
        }
    }

    /// Whether it has no fraction.
    pub fn is_integer(self) -> bool {
        *self.0.denom() == 1
    }

    /// Whether it is nothing.
    pub fn is_zero(self) -> bool {
        *self.0.numer() == 0
    }

    /// Whether it is less than zero.
    pub fn is_negative(self) -> bool {
        *self.0.numer() < 0
    }

    /// The same number as an integer type, when it is one and fits.
    pub fn to_u32(self) -> Option<u32> {
        if self.is_integer() { u32::try_from(*self.0.numer()).ok() } else { None }
    }

    /// The least number of decimals that show it exactly, when there are at most `most` of them.
    pub fn exact_places(self, most: u32) -> Option<u32> {
        let mut denominator = *self.0.denom();
        let mut count = |factor: i128| {
            let mut times = 0;
            while denominator % factor == 0 {
                denominator /= factor;
                times += 1;
            }
            times
        };
        let places = count(2).max(count(5));
        (denominator == 1 && places <= most).then_some(places)
    }

    /// The nearest integer in the direction asked for.
    fn to_integer(self, rounding: Rounding) -> i128 {
        let (above, below) = (*self.0.numer(), *self.0.denom());
        let (floor, rest) = (above.div_euclid(below), above.rem_euclid(below));
        let up = match rounding {
            Rounding::Down => false,
            Rounding::Up => rest > 0,
            Rounding::HalfEven => 2 * rest > below || (2 * rest == below && floor % 2 != 0),
        };
        floor + i128::from(up)
    }

    /// The multiple of `step` that `rounding` asks for; the sign of `step` does not matter.
    ///
    /// # Errors
    /// [`NoNumber::DivisionByZero`] for a step of zero, [`NoNumber::Overflow`].
    pub fn round_to_step(self, step: Number, rounding: Rounding) -> Result<Number, NoNumber> {
        let step = step.abs();
        let steps = Ratio::from_integer(self.div(step)?.to_integer(rounding));
        Number::fitting(Some(steps))?.mul(step)
    }

    /// The smallest step that `places` decimals can show.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`] for more than 30 places.
    pub fn last_place(places: u32) -> Result<Number, NoNumber> {
        if places > MOST_PLACES {
            return Err(NoNumber::Overflow);
        }
        Ok(Number(Ratio::new_raw(1, 10_i128.pow(places))))
    }

    /// A decimal with exactly `places` decimals (30 at most), rounded half to even, never `-0`.
    pub fn decimal(self, places: u32) -> String {
        let places = places.min(MOST_PLACES);
        let (above, below) = (self.0.numer().unsigned_abs(), self.0.denom().unsigned_abs());
        let (mut digits, rest) = match (u64::try_from(above), u64::try_from(below)) {
            // Ten times the rest still fits: machine words are several times as fast.
            (Ok(above), Ok(below)) if below <= u64::MAX / 10 => {
                let (digits, rest) = divided(above, below, places);
                (digits, u128::from(rest))
            }
            _ => divided_long(above, below, places),
        };
        let odd = digits.last().is_some_and(|last| last % 2 == 1);
        if 2 * rest > below || (2 * rest == below && odd) {
            increment(&mut digits);
        }
        let negative = self.is_negative() && digits.iter().any(|digit| *digit != b'0');
        written(negative, &digits, places)
    }

    /// A decimal with at most `most` decimals, without trailing zeros.
    pub fn shortest(self, most: u32) -> String {
        let text = self.decimal(most);
        if text.contains('.') {
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        } else {
            text
        }
    }

    /// The number in whole ones and a fraction in lowest terms: `2 7/32`, `-1/4`, `3`, `0`.
    ///
    /// None when it is no multiple of one `denominator`th.
    pub fn fraction(self, denominator: u32) -> Option<String> {
        let (above, below) = (self.0.numer().unsigned_abs(), self.0.denom().unsigned_abs());
        if !u128::from(denominator).is_multiple_of(below) || denominator == 0 {
            return None;
        }
        let sign = if self.is_negative() { "-" } else { "" };
        Some(match (above / below, above % below) {
            (whole, 0) => format!("{sign}{whole}"),
            (0, rest) => format!("{sign}{rest}/{below}"),
            (whole, rest) => format!("{sign}{whole} {rest}/{below}"),
        })
    }

    /// The square root: exact when it is a fraction, else right to 15 significant digits.
    ///
    /// It is then a short fraction within 3 parts in 10^17 of the root.
    ///
    /// # Errors
    /// [`NoNumber::NegativeRoot`]; [`NoNumber::Overflow`] when it does not fit.
    pub fn sqrt(self) -> Result<Number, NoNumber> {
        if self.is_negative() {
            return Err(NoNumber::NegativeRoot);
        }
        let (above, below) = (*self.0.numer(), *self.0.denom());
        let (root_above, root_below) = (above.isqrt(), below.isqrt());
        if root_above * root_above == above && root_below * root_below == below {
            return Ok(Number(Ratio::new_raw(root_above, root_below)));
        }
        self.root_by_digits()?.simplest()
    }

    /// The root, cut after 17 significant digits or more.
    ///
    /// `below` is made a square by a power of ten: root(a/b) = root(a/b * 10^2k) / 10^k.
    fn root_by_digits(self) -> Result<Number, NoNumber> {
        let below = *self.0.denom();
        let (mut scaled, mut rest) = (self.0.numer() / below, self.0.numer() % below);
        let mut half_places: u32 = 0;
        while scaled < BOUND / 100 && half_places < 36 {
            for _ in 0..2 {
                rest *= 10;
                scaled = scaled * 10 + rest / below;
                rest %= below;
            }
            half_places += 1;
        }
        Number::fitting(Some(Ratio::new(scaled.isqrt(), 10_i128.pow(half_places))))
    }

    /// The shortest continued fraction of a positive number within 2 parts in 10^17 of it.
    fn simplest(self) -> Result<Number, NoNumber> {
        let allowed = Number::constant(2, 10_i128.pow(17));
        let (mut before, mut last) = ((0, 1), (1, 0));
        let (mut above, mut below) = (*self.0.numer(), *self.0.denom());
        while below != 0 {
            let whole = above / below;
            (above, below) = (below, above % below);
            let next = (whole * last.0 + before.0, whole * last.1 + before.1);
            (before, last) = (last, next);
            let candidate = Number(Ratio::new_raw(last.0, last.1));
            let gap = candidate.sub(self).and_then(|gap| gap.div(self)).map(Number::abs);
            if gap.is_ok_and(|gap| gap <= allowed) {
                return Ok(candidate);
            }
        }
        Ok(self)
    }
}

/// Arithmetic, all of it checked.
#[allow(clippy::should_implement_trait, reason = "the operators of std cannot fail")]
impl Number {
    /// The sum.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn add(self, other: Number) -> Result<Number, NoNumber> {
        Number::fitting(small::add(&self.0, &other.0).or_else(|| self.0.checked_add(&other.0)))
    }

    /// The difference.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn sub(self, other: Number) -> Result<Number, NoNumber> {
        Number::fitting(small::sub(&self.0, &other.0).or_else(|| self.0.checked_sub(&other.0)))
    }

    /// The product.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`].
    pub fn mul(self, other: Number) -> Result<Number, NoNumber> {
        Number::fitting(small::mul(&self.0, &other.0).or_else(|| self.0.checked_mul(&other.0)))
    }

    /// The quotient.
    ///
    /// # Errors
    /// [`NoNumber::DivisionByZero`], [`NoNumber::Overflow`].
    pub fn div(self, other: Number) -> Result<Number, NoNumber> {
        if other.is_zero() {
            return Err(NoNumber::DivisionByZero);
        }
        Number::fitting(small::div(&self.0, &other.0).or_else(|| self.0.checked_div(&other.0)))
    }

    /// The same distance on the other side of zero.
    pub fn neg(self) -> Number {
        Number(-self.0)
    }

    /// The distance from zero.
    pub fn abs(self) -> Number {
        if self.is_negative() { self.neg() } else { self }
    }
}

impl Ord for Number {
    fn cmp(&self, other: &Number) -> Ordering {
        small::cmp(&self.0, &other.0).unwrap_or_else(|| self.0.cmp(&other.0))
    }
}

impl PartialOrd for Number {
    fn partial_cmp(&self, other: &Number) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl From<i64> for Number {
    fn from(integer: i64) -> Number {
        Number(Ratio::from_integer(integer.into()))
    }
}

impl From<u32> for Number {
    fn from(integer: u32) -> Number {
        Number(Ratio::from_integer(integer.into()))
    }
}

impl fmt::Display for Number {
    /// The exact decimal when it has at most 12 decimals, else rounded half to even at 12.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.shortest(SHOWN_PLACES))
    }
}

/// As text: a reader must never make a binary float of it.
impl Serialize for Number {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl fmt::Debug for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.0.numer(), self.0.denom())
    }
}

impl NoNumber {
    /// What is wrong, and in a formula how to write it instead.
    pub fn words(self) -> Words {
        Words::of(match self {
            NoNumber::Overflow => "number-overflow",
            NoNumber::DivisionByZero => "number-division-by-zero",
            NoNumber::NegativeRoot => "number-negative-root",
        })
    }
}

impl fmt::Display for NoNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for NoNumber {}

/// How many decimals a number as text has: `56.0` one, `56` none.
pub fn decimals_in(text: &str) -> u32 {
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    u32::try_from(decimals).unwrap_or(u32::MAX)
}

/// One decimal digit as text; `value` is below ten.
fn digit(value: u128) -> u8 {
    b'0' + u8::try_from(value % 10).unwrap_or(0)
}

/// The digits of a quotient, the last `places` of them decimals, and what is left over.
fn divided(above: u64, below: u64, places: u32) -> (Vec<u8>, u64) {
    let mut digits = (above / below).to_string().into_bytes();
    let mut rest = above % below;
    for _ in 0..places {
        rest *= 10;
        digits.push(digit((rest / below).into()));
        rest %= below;
    }
    (digits, rest)
}

/// The same for numbers that fill more than a machine word.
fn divided_long(above: u128, below: u128, places: u32) -> (Vec<u8>, u128) {
    let mut digits = (above / below).to_string().into_bytes();
    let mut rest = above % below;
    for _ in 0..places {
        rest *= 10;
        digits.push(digit(rest / below));
        rest %= below;
    }
    (digits, rest)
}

/// Adds one to the last of the digits.
fn increment(digits: &mut Vec<u8>) {
    for digit in digits.iter_mut().rev() {
        if *digit < b'9' {
            *digit += 1;
            return;
        }
        *digit = b'0';
    }
    digits.insert(0, b'1');
}

/// Digits with a point before the last `places` of them.
fn written(negative: bool, digits: &[u8], places: u32) -> String {
    let point = digits.len() - places as usize;
    let part = |range: Range<usize>| digits[range].iter().copied().map(char::from);
    let mut text = String::with_capacity(digits.len() + 2);
    text.extend(negative.then_some('-'));
    text.extend(part(0..point));
    text.extend((places > 0).then_some('.'));
    text.extend(part(point..digits.len()));
    text
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{NoNumber, Number, Rounding};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    #[track_caller]
    fn check(text: &str, step: &str, rounding: Rounding, expected: &str) {
        let rounded = number(text).round_to_step(number(step), rounding).unwrap();
        assert_eq!(rounded, number(expected), "{text} to {step}");
    }

    /// Ties: NIST SP 811 (2008) B.7.1, ASTM E29 6.4; values computed with exact fractions. 60.25132
    /// from a US Army training text, 21.350 to 21.4501 from a college chemistry text.
    #[test]
    fn a_tie_goes_to_the_even_step() {
        for (value, step, expected) in [
            ("12.25", "0.1", "12.2"),
            ("12.35", "0.1", "12.4"),
            ("12.251", "0.1", "12.3"),
            ("-12.25", "0.1", "-12.2"),
            ("0.125", "0.01", "0.12"),
            ("0.135", "0.01", "0.14"),
            ("56.005", "0.01", "56"),
            ("2.5", "1", "2"),
            ("3.5", "1", "4"),
            ("1025", "50", "1000"),
            ("1075", "50", "1100"),
            ("56.25", "0.5", "56"),
            ("56.75", "0.5", "57"),
            ("7.3125", "1/8", "7.25"),
            ("60.25132", "0.1", "60.3"),
            ("21.350", "0.1", "21.4"),
            ("21.45", "0.1", "21.4"),
            ("21.4501", "0.1", "21.5"),
        ] {
            check(value, step, Rounding::HalfEven, expected);
        }
    }

    #[test]
    fn up_and_down_mean_towards_the_infinities() {
        check("12.21", "0.1", Rounding::Up, "12.3");
        check("12.29", "0.1", Rounding::Down, "12.2");
        check("-12.21", "0.1", Rounding::Up, "-12.2");
        check("-12.21", "0.1", Rounding::Down, "-12.3");
        check("12.2", "-0.1", Rounding::Up, "12.2");
        check("12.2", "0.1", Rounding::Down, "12.2");
    }

    #[test]
    fn a_step_of_zero_is_an_error() {
        let rounded = Number::ONE.round_to_step(Number::ZERO, Rounding::Up);
        assert_eq!(rounded, Err(NoNumber::DivisionByZero));
    }

    #[track_caller]
    fn check_decimal(text: &str, places: u32, expected: &str) {
        assert_eq!(number(text).decimal(places), expected);
    }

    #[test]
    fn decimals_keep_their_zeros_and_never_show_minus_zero() {
        check_decimal("56", 1, "56.0");
        check_decimal("-0.04", 1, "0.0");
        check_decimal("-0.06", 1, "-0.1");
        check_decimal("999.96", 1, "1000.0");
        check_decimal("2/3", 4, "0.6667");
        check_decimal("0.5", 0, "0");
        check_decimal("1.5", 0, "2");
        check_decimal("-12.25", 1, "-12.2");
        check_decimal("0.007", 3, "0.007");
    }

    #[test]
    fn the_shortest_decimal_has_no_trailing_zeros() {
        assert_eq!(number("56.50").shortest(6), "56.5");
        assert_eq!(number("100").shortest(6), "100");
        assert_eq!(number("1/3").to_string(), "0.333333333333");
        assert_eq!(number("-1/3000000000000").to_string(), "0");
        assert_eq!(number("2 1/4").to_string(), "2.25");
    }

    #[track_caller]
    fn check_fraction(text: &str, denominator: u32, expected: Option<&str>) {
        assert_eq!(number(text).fraction(denominator).as_deref(), expected);
    }

    #[test]
    fn fractions_are_written_in_lowest_terms() {
        check_fraction("2 7/32", 32, Some("2 7/32"));
        check_fraction("2 7/32", 64, Some("2 7/32"));
        check_fraction("12/64", 64, Some("3/16"));
        check_fraction("-0.25", 16, Some("-1/4"));
        check_fraction("-2.25", 4, Some("-2 1/4"));
        check_fraction("3", 1, Some("3"));
        check_fraction("-3", 32, Some("-3"));
        check_fraction("0", 8, Some("0"));
        check_fraction("2 7/32", 16, None);
        check_fraction("0.1", 64, None);
        check_fraction("3", 0, None);
    }

    #[test]
    fn exact_places_are_those_of_the_finite_decimal() {
        assert_eq!(number("0.5").exact_places(12), Some(1));
        assert_eq!(number("1/64").exact_places(12), Some(6));
        assert_eq!(number("1/64").exact_places(5), None);
        assert_eq!(number("7").exact_places(0), Some(0));
        assert_eq!(number("1/3").exact_places(30), None);
    }

    #[test]
    fn results_that_do_not_fit_are_errors() {
        let big = number("999999999999999999");
        let bigger = big.mul(big).unwrap();
        assert_eq!(bigger.mul(big), Err(NoNumber::Overflow));
        assert_eq!(Number::ONE.div(bigger).unwrap().div(big), Err(NoNumber::Overflow));
        assert_eq!(bigger.neg().mul(big), Err(NoNumber::Overflow));
        assert_eq!(Number::ONE.div(Number::ZERO), Err(NoNumber::DivisionByZero));
        assert_eq!(Number::last_place(31), Err(NoNumber::Overflow));
    }

    #[test]
    fn only_whole_numbers_that_fit_become_integers() {
        assert_eq!(number("6").to_u32(), Some(6));
        assert_eq!(number("6.5").to_u32(), None);
        assert_eq!(number("-6").to_u32(), None);
        assert_eq!(number("4294967296").to_u32(), None);
    }

    #[track_caller]
    fn check_root(text: &str, expected: &str) {
        assert_eq!(number(text).sqrt().unwrap().decimal(14), expected, "root of {text}");
    }

    /// Square roots of 2, 3 and 10 as in the On-Line Encyclopedia of Integer Sequences (A002193,
    /// A002194, A010467; from memory).
    #[test]
    fn roots_are_right_to_fifteen_digits() {
        check_root("2", "1.41421356237310");
        check_root("3", "1.73205080756888");
        check_root("10", "3.16227766016838");
        check_root("0.02", "0.14142135623731");
        check_root("0.000002", "0.00141421356237");
    }

    /// The root was once left as a long decimal, and its square did not fit.
    #[test]
    fn the_root_of_a_small_fraction_is_short_too() {
        let value = number("678135/50044624808");
        let root = value.sqrt().unwrap();
        let ratio = root.mul(root).unwrap().div(value).unwrap();
        assert_eq!(ratio.decimal(15), "1.000000000000000");
    }

    #[test]
    fn a_root_that_is_a_fraction_is_exact() {
        for (square, root) in [("0", "0"), ("2.25", "1.5"), ("9/16", "3/4"), ("1000000", "1000")] {
            assert_eq!(number(square).sqrt(), Ok(number(root)));
        }
        assert_eq!(number("-1").sqrt(), Err(NoNumber::NegativeRoot));
    }

    /// 3.14159265358979323846: OEIS A000796, from memory.
    #[test]
    fn pi_is_right_to_sixteen_digits() {
        let rest = number("8.46").mul(Number::last_place(18).unwrap()).unwrap();
        let pi = number("3.14159265358979323").add(rest);
        let gap = Number::PI.sub(pi.unwrap()).unwrap().abs();
        assert!(gap < Number::last_place(16).unwrap());
        assert_eq!(Number::PI.decimal(15), "3.141592653589793");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn a_finite_decimal_reads_back_as_itself(
            digits in -10_i64.pow(17)..10_i64.pow(17),
            places in 0_u32..13,
        ) {
            let value = Number::from(digits).mul(Number::last_place(places).unwrap()).unwrap();
            prop_assert_eq!(number(&value.to_string()), value);
            prop_assert_eq!(number(&value.decimal(places)), value);
        }

        #[test]
        fn a_fraction_reads_back_as_itself(above in -1_000_000_i64..1_000_000, power in 0_u32..8) {
            let denominator = 1 << power;
            let value = Number::ratio(above, i64::from(denominator)).unwrap();
            let text = value.fraction(denominator).unwrap();
            prop_assert_eq!(number(&text), value);
            prop_assert_eq!(value.fraction(128), Some(text));
        }

        #[test]
        fn operations_undo_each_other(
            a in -10_i64.pow(9)..10_i64.pow(9),
            b in 1_i64..10_i64.pow(9),
            c in 1_i64..10_i64.pow(6),
        ) {
            let (x, y) = (Number::ratio(a, c).unwrap(), Number::ratio(b, c + 1).unwrap());
            prop_assert_eq!(x.add(y).unwrap().sub(y).unwrap(), x);
            prop_assert_eq!(x.mul(y).unwrap().div(y).unwrap(), x);
            prop_assert_eq!(x.neg().neg(), x);
        }

        #[test]
        fn a_rounded_number_is_a_multiple_next_to_it(
            a in -10_i64.pow(9)..10_i64.pow(9),
            b in 1_i64..10_000,
            step in 1_i64..10_000,
        ) {
            let (value, step) = (Number::ratio(a, b).unwrap(), Number::ratio(step, 640).unwrap());
            let low = value.round_to_step(step, Rounding::Down).unwrap();
            let near = value.round_to_step(step, Rounding::HalfEven).unwrap();
            let high = value.round_to_step(step, Rounding::Up).unwrap();
            prop_assert!(low <= value && value <= high && (near == low || near == high));
            prop_assert!(high.sub(low).unwrap() <= step && near.div(step).unwrap().is_integer());
        }

        #[test]
        fn a_root_squares_back(a in 1_i64..10_i64.pow(12), b in 1_i64..10_i64.pow(12)) {
            let value = Number::ratio(a, b).unwrap();
            let root = value.sqrt().unwrap();
            let ratio = root.mul(root).unwrap().div(value).unwrap();
            prop_assert!(ratio.sub(Number::ONE).unwrap().abs() <= Number::last_place(15).unwrap());
        }

        #[test]
        fn any_text_is_read_or_refused(text in ".{0,40}") {
            if let Err(bad) = Number::parse(&text) {
                prop_assert!(text.get(bad.range).is_some());
            }
        }
    }
}
