//! Decimals as text, read into whole millionths so that a drawing needs no binary fractions.

/// How many parts one unit is counted in.
pub(crate) const PARTS: i64 = 1_000_000;

/// Longest whole part: with six places it stays far inside an `i64`.
const WHOLE_DIGITS: usize = 10;

/// Reads `-56.25` as millionths; more than six places are cut off, which no drawing can show.
///
/// None for anything else than an optional sign, digits, and a point with digits.
pub(crate) fn read(text: &str) -> Option<i64> {
    let (negative, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (whole, places) = digits.split_once('.').unwrap_or((digits, "0"));
    if whole.is_empty() || whole.len() > WHOLE_DIGITS || places.is_empty() {
        return None;
    }
    if !whole.bytes().chain(places.bytes()).all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let parts: String = places.chars().chain("000000".chars()).take(6).collect();
    let value = whole.parse::<i64>().ok()? * PARTS + parts.parse::<i64>().ok()?;
    Some(if negative { -value } else { value })
}

/// Writes millionths with no more places than needed: `-56.25`.
pub(crate) fn write(value: i64) -> String {
    let sign = if value < 0 { "-" } else { "" };
    let (whole, places) = (value.abs() / PARTS, value.abs() % PARTS);
    let places = format!("{places:06}");
    match places.trim_end_matches('0') {
        "" => format!("{sign}{whole}"),
        places => format!("{sign}{whole}.{places}"),
    }
}

#[cfg(test)]
mod tests {
    use super::{read, write};

    #[track_caller]
    fn check(text: &str, expected: Option<&str>) {
        assert_eq!(read(text).map(write).as_deref(), expected, "{text}");
    }

    #[test]
    fn plain_decimals_come_back() {
        check("56", Some("56"));
        check("-56.250", Some("-56.25"));
        check("\u{2212}0.5", Some("-0.5"));
        check("+9999999999.999999", Some("9999999999.999999"));
        check("0", Some("0"));
        check("-0.0", Some("0"));
    }

    #[test]
    fn the_seventh_place_is_cut_off() {
        check("1.00000099", Some("1"));
    }

    #[test]
    fn everything_else_is_no_number() {
        for text in ["", "-", ".", "1.", ".5", "1e3", "0x1", "1 2", "NaN", "--1", "12345678901"] {
            check(text, None);
        }
    }
}
