//! Times as entries carry them: RFC 3339 with offset, whole seconds, one spelling.
//!
//! Must never read a clock: a time comes in as a value.

use chrono::{DateTime, FixedOffset, NaiveDate};

use crate::language::Words;

/// Why a text is no time of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BadTime {
    /// Not `YYYY-MM-DDThh:mm:ss` with `Z` or `±hh:mm`, or with a fraction, or second 60.
    Form,
    /// `-00:00`: the offset is said to be unknown (RFC 3339 §4.3).
    UnknownOffset,
    /// The form is right, the day, hour or offset does not exist.
    NoSuchTime,
}

impl BadTime {
    /// The reason in words.
    pub fn words(self) -> Words {
        Words::of(match self {
            BadTime::Form => "fault-time-form",
            BadTime::UnknownOffset => "fault-time-offset",
            BadTime::NoSuchTime => "fault-time-none",
        })
    }
}

/// Reads a time, stricter than RFC 3339: upper-case `T` and `Z`, no fraction, no second 60, no
/// `-00:00`.
///
/// # Errors
/// [`BadTime`].
pub fn parse(text: &str) -> Result<DateTime<FixedOffset>, BadTime> {
    if !has_form(text.as_bytes()) {
        return Err(BadTime::Form);
    }
    if text.ends_with("-00:00") {
        return Err(BadTime::UnknownOffset);
    }
    assemble(text).ok_or(BadTime::NoSuchTime)
}

/// The time a text of the right form names, if there is such a time.
///
/// By hand, because an audit reads several times an entry and general parsers are laxer than this.
fn assemble(text: &str) -> Option<DateTime<FixedOffset>> {
    let digit = |at: usize| Some(u32::from(text.as_bytes().get(at)?.wrapping_sub(b'0')));
    let number = |from: usize| Some(digit(from)? * 10 + digit(from + 1)?);
    let year = i32::try_from(number(0)? * 100 + number(2)?).ok()?;
    let day = NaiveDate::from_ymd_opt(year, number(5)?, number(8)?)?;
    let local = day.and_hms_opt(number(11)?, number(14)?, number(17)?)?;
    let offset = match text.as_bytes().get(19)? {
        b'Z' => 0,
        sign => {
            let (hours, minutes) = (number(20)?, number(23)?);
            let seconds = i32::try_from(hours * 3600 + minutes * 60).ok()?;
            if hours > 23 || minutes > 59 {
                return None;
            }
            if *sign == b'-' { -seconds } else { seconds }
        }
    };
    local.and_local_timezone(FixedOffset::east_opt(offset)?).single()
}

/// The time as entries carry it; what is below the second is cut off.
pub fn write(time: DateTime<FixedOffset>) -> String {
    time.format("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

/// Whether each byte is of the right class: `9` stands for a digit.
fn has_form(bytes: &[u8]) -> bool {
    let fits = |form: &[u8]| {
        form.len() == bytes.len()
            && form.iter().zip(bytes).all(|(f, b)| match f {
                b'9' => b.is_ascii_digit(),
                b'+' => matches!(b, b'+' | b'-'),
                b'5' => matches!(b, b'0'..=b'5'),
                other => other == b,
            })
    };
    fits(b"9999-99-99T99:99:59Z") || fits(b"9999-99-99T99:99:59+99:99")
}

#[cfg(test)]
mod tests {
    use super::{BadTime, parse, write};

    #[track_caller]
    fn check(text: &str, expected: Result<&str, BadTime>) {
        assert_eq!(parse(text).map(write), expected.map(str::to_owned), "{text}");
    }

    #[test]
    fn one_spelling_is_read() {
        check("2026-11-25T22:10:00+01:00", Ok("2026-11-25T22:10:00+01:00"));
        check("2026-11-25T21:10:00Z", Ok("2026-11-25T21:10:00+00:00"));
        check("2024-02-29T00:00:00-09:30", Ok("2024-02-29T00:00:00-09:30"));
    }

    /// RFC 3339 §4.3, §5.6, §5.7 from memory: what its grammar allows and entries do not.
    #[test]
    fn other_spellings_are_refused() {
        for text in [
            "",
            "2026-11-25",
            "2026-11-25T22:10:00",
            "2026-11-25t22:10:00Z",
            "2026-11-25T22:10:00z",
            "2026-11-25 22:10:00Z",
            "2026-11-25T22:10Z",
            "2026-11-25T22:10:00.5Z",
            "2026-11-25T22:10:00,5Z",
            "2026-11-25T22:10:00+0100",
            "2026-11-25T22:10:00+01",
            "2026-12-31T23:59:60Z",
            "2026-11-25T22:10:00+01:00[Europe/Oslo]",
            "+2026-11-25T22:10:00Z",
            "2026-11-25T22:10:00Z ",
            "２026-11-25T22:10:00Z",
        ] {
            check(text, Err(BadTime::Form));
        }
        check("2026-11-25T22:10:00-00:00", Err(BadTime::UnknownOffset));
        for text in [
            "2026-02-29T22:10:00Z",
            "2026-11-31T22:10:00Z",
            "2026-11-25T24:00:00Z",
            "2026-11-25T22:61:00Z",
            "2026-11-25T22:10:00+24:00",
            "2026-13-25T22:10:00Z",
            "2026-11-25T22:10:00+01:60",
        ] {
            check(text, Err(BadTime::NoSuchTime));
        }
    }

    /// The general parser, which reads more, agrees on all that is read.
    #[test]
    fn the_general_parser_agrees() {
        for offset in ["Z", "+00:00", "+05:45", "-09:30", "+23:59", "-23:59"] {
            for local in ["0001-01-01T00:00:00", "2026-11-25T22:10:59", "9999-12-31T23:59:59"] {
                let text = format!("{local}{offset}");
                let general = chrono::DateTime::parse_from_rfc3339(&text).ok();
                assert_eq!(parse(&text).ok(), general, "{text}");
            }
        }
    }

    #[test]
    fn order_is_of_instants_not_of_texts() {
        let before = parse("2026-10-25T02:59:00+02:00").unwrap();
        let after = parse("2026-10-25T02:01:00+01:00").unwrap();
        assert!(before < after);
    }
}
