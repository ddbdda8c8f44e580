//! Decimal text compared exactly, without arithmetic: the digits decide.
//!
//! Must never round or convert; `0.350` stays `0.350`, because its zeros state a resolution.

use std::cmp::Ordering;

/// Most digits a value may have; enough for any instrument, and a bound on work.
const MOST_DIGITS: usize = 30;

/// A decimal `-?(0|[1-9][0-9]*)(\.[0-9]+)?`, kept for comparing only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Decimal<'t> {
    negative: bool,
    whole: &'t str,
    fraction: &'t str,
}

impl<'t> Decimal<'t> {
    /// Reads a decimal; none when it has an exponent, a plus, a comma, a leading zero or more than
    /// 30 digits.
    pub(crate) fn parse(text: &'t str) -> Option<Self> {
        let (minus, digits) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text),
        };
        let (whole, fraction) = match digits.split_once('.') {
            Some((whole, fraction)) => (whole, Some(fraction)),
            None => (digits, None),
        };
        let plain = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
        let count = whole.len() + fraction.map_or(0, str::len);
        let fits = count <= MOST_DIGITS
            && plain(whole)
            && (whole == "0" || !whole.starts_with('0'))
            && fraction.is_none_or(plain);
        let fraction = fraction.unwrap_or("").trim_end_matches('0');
        let zero = whole == "0" && fraction.is_empty();
        fits.then_some(Decimal { negative: minus && !zero, whole, fraction })
    }

    fn magnitude(&self, other: &Self) -> Ordering {
        (self.whole.len().cmp(&other.whole.len()))
            .then_with(|| self.whole.cmp(other.whole))
            .then_with(|| self.fraction.cmp(other.fraction))
    }
}

impl PartialOrd for Decimal<'_> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Decimal<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        match (self.negative, other.negative) {
            (false, false) => self.magnitude(other),
            (true, true) => other.magnitude(self),
            (true, false) => Ordering::Less,
            (false, true) => Ordering::Greater,
        }
    }
}

/// Whether a value lies between its limits, both included; none when one of them is no decimal.
pub(crate) fn within(value: &str, low: Option<&str>, high: Option<&str>) -> Option<bool> {
    let value = Decimal::parse(value)?;
    let above = match low {
        Some(low) => Decimal::parse(low)? <= value,
        None => true,
    };
    let below = match high {
        Some(high) => value <= Decimal::parse(high)?,
        None => true,
    };
    Some(above && below)
}

#[cfg(test)]
mod tests {
    use std::cmp::Ordering::{self, Equal, Greater, Less};

    use proptest::prelude::*;

    use super::{Decimal, within};

    #[track_caller]
    fn check(left: &str, right: &str, expected: Ordering) {
        let (l, r) = (Decimal::parse(left).unwrap(), Decimal::parse(right).unwrap());
        assert_eq!((l.cmp(&r), r.cmp(&l)), (expected, expected.reverse()), "{left} {right}");
    }

    #[test]
    fn digits_decide() {
        check("0.35", "0.350", Equal);
        check("-0.0", "0", Equal);
        check("9", "10", Less);
        check("0.5", "0.45", Greater);
        check("-10", "-9", Less);
        check("-0.1", "0.1", Less);
        check("12.5", "12.49999999999999999999999999", Greater);
        check("9007199254740993", "9007199254740992", Greater);
    }

    #[test]
    fn other_notations_are_no_decimals() {
        let long = "1".repeat(1_000_000);
        let (most, more) = ("1".repeat(30), "1".repeat(31));
        assert!(
            Decimal::parse(&most).is_some()
                && Decimal::parse(&format!("-1.{}", &most[1..])).is_some()
        );
        for text in [
            "", "-", ".5", "5.", "+5", "5e1", "0,5", "05", " 5", "5 ", "--5", "5-", "٥", &more,
            &long,
        ] {
            assert_eq!(Decimal::parse(text), None, "{text:.20}");
        }
    }

    #[test]
    fn a_reading_on_the_limit_passes() {
        assert_eq!(within("0.300", Some("0.30"), Some("0.40")), Some(true));
        assert_eq!(within("0.4", Some("0.30"), Some("0.40")), Some(true));
        assert_eq!(within("0.4001", Some("0.30"), Some("0.40")), Some(false));
        assert_eq!(within("-5", None, None), Some(true));
        assert_eq!(within("5", Some("low"), None), None);
    }

    proptest! {
        #[test]
        fn order_agrees_with_whole_numbers(a in -10_000i64..10_000, b in -10_000i64..10_000) {
            let text = |n: i64| {
                let sign = if n < 0 { "-" } else { "" };
                format!("{sign}{}.{:02}", n.abs() / 100, n.abs() % 100)
            };
            let (left, right) = (text(a), text(b));
            prop_assert_eq!(Decimal::parse(&left).cmp(&Decimal::parse(&right)), a.cmp(&b));
        }
    }
}
