//! How values are worded on every page: limits, sides of the datum, moments, signal words.

use crate::packet::model::{Change, EnergyState, Meaning, RailKind, Signal};

use super::decimal;

/// A true minus sign instead of a hyphen, as numbers are set in print.
pub fn number(text: &str) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.starts_with(|first: char| first.is_ascii_digit()) => {
            format!("\u{2212}{rest}")
        }
        _ => text.to_owned(),
    }
}

/// True minus signs in a text that may hold several numbers, units kept beside them.
pub fn numbers(text: &str) -> String {
    bound(&text.split(' ').map(number).collect::<Vec<String>>().join(" "))
}

/// A text that is never broken over two lines: `2 7/32`.
pub fn unbroken(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

/// A whole number of five digits or more in groups of three; other text as it is.
pub fn grouped(text: &str) -> String {
    const UNGROUPED: usize = 4;
    if text.len() <= UNGROUPED || !text.bytes().all(|byte| byte.is_ascii_digit()) {
        return text.to_owned();
    }
    let mut out = String::new();
    for (index, digit) in text.chars().enumerate() {
        if index > 0 && (text.len() - index).is_multiple_of(3) {
            out.push('\u{a0}');
        }
        out.push(digit);
    }
    out
}

/// A number and its unit: `56.0 mm`; a count stands alone.
pub fn quantity(value: &str, unit: &str) -> String {
    match unit {
        "" => number(value),
        _ => format!("{}\u{a0}{unit}", number(value)),
    }
}

/// A unit after the word "in": the inch is written out, all others are their symbol.
pub fn unit_word(unit: &str) -> &str {
    if unit == "in" { "inches" } else { unit }
}

/// Keeps a number and its unit on one line: a short word after a digit is bound to it.
pub fn bound(text: &str) -> String {
    const LONGEST_UNIT: usize = 5;
    let mut out = String::new();
    for word in text.split(' ') {
        let after_digit = out.ends_with(|last: char| last.is_ascii_digit());
        let short = word.chars().count() <= LONGEST_UNIT;
        match (out.is_empty(), after_digit && short) {
            (true, _) => {}
            (false, true) => out.push('\u{a0}'),
            (false, false) => out.push(' '),
        }
        out.push_str(word);
    }
    out
}

/// Limits in words: `55.5 to 56.5 mm`, `at least 18 N`, `at most 0 V`; empty when there are none.
pub fn limits(low: Option<&str>, high: Option<&str>, unit: &str) -> String {
    match (low, high) {
        (Some(low), Some(high)) => format!("{} to {}", number(low), quantity(high, unit)),
        (Some(low), None) => format!("at least {}", quantity(low, unit)),
        (None, Some(high)) => format!("at most {}", quantity(high, unit)),
        (None, None) => String::new(),
    }
}

/// A position with its sign and its side of the datum: `−84.0 left`, `+84.0 right`, `0.0 at datum`.
pub fn side(position: &str) -> String {
    side_as(position, position)
}

/// A position by its side of the datum, its number written in another way: `−2 7/32 left`.
pub fn side_as(position: &str, shown: &str) -> String {
    let digits = shown.trim_start_matches(['-', '\u{2212}', '+']);
    match decimal::read(position) {
        Some(0) => format!("{digits} at datum"),
        Some(value) if value < 0 => format!("\u{2212}{digits} left"),
        Some(_) => format!("+{digits} right"),
        None => shown.to_owned(),
    }
}

/// What somebody does with a holder: `28.0 to the right`, `take off the rail`, `fit on the rail`.
pub fn way(direction: &str, distance: &str) -> String {
    match direction {
        "left" | "right" => format!("{distance} to the {direction}"),
        "off" => "take off the rail".to_owned(),
        "fit" => "fit on the rail".to_owned(),
        _ => "set".to_owned(),
    }
}

/// What becomes of a setting.
pub fn change(change: Change) -> &'static str {
    match change {
        Change::Keep => "stays",
        Change::Change => "changes",
        Change::New => "new",
    }
}

/// The energy a step needs, as a short order of facts.
pub fn needs(state: EnergyState) -> &'static str {
    match state {
        EnergyState::Any => "",
        EnergyState::Energised => "Power on, guards closed",
        EnergyState::Isolated => "Isolated, locked and verified",
        EnergyState::Test => "Power on for this test only, everybody clear",
    }
}

/// What a signature says.
pub fn meaning(meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::Performed => "performed",
        Meaning::Verified => "verified",
        Meaning::Released => "released",
    }
}

/// `1 knife`, `5 knives`, `2 guides`.
pub fn knives(kind: RailKind, number: usize) -> String {
    match (kind, number) {
        (RailKind::Knives, 1) => "1 knife".to_owned(),
        (RailKind::Knives, _) => format!("{number} knives"),
        (RailKind::Guides, 1) => "1 guide".to_owned(),
        (RailKind::Guides, _) => format!("{number} guides"),
    }
}

/// What stands on a rail of this kind.
pub fn holders(kind: RailKind) -> &'static str {
    match kind {
        RailKind::Knives => "knife holders",
        RailKind::Guides => "guide brackets",
    }
}

/// What of a holder is brought to its position.
pub fn mark(kind: RailKind) -> &'static str {
    match kind {
        RailKind::Knives => "tip",
        RailKind::Guides => "guide face",
    }
}

/// Name of a signal word in the style sheet.
pub fn signal_class(signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => "danger",
        Signal::Warning => "warning",
        Signal::Caution => "caution",
        Signal::Notice => "notice",
    }
}

/// An RFC 3339 moment as people read it, with its offset: `2026-11-25 14:10 (UTC+01:00)`.
///
/// Text that is no such moment is shown as it is.
pub fn moment(text: &str) -> String {
    match chrono::DateTime::parse_from_rfc3339(text) {
        Ok(time) => time.format("%Y-%m-%d %H:%M (UTC%:z)").to_string(),
        Err(_) => text.to_owned(),
    }
}

/// The first 16 digits of a digest: enough to tell sheets apart, short enough to compare by eye.
pub fn short_digest(digest: &str) -> String {
    digest.chars().take(16).collect()
}

#[cfg(test)]
mod tests {
    use super::{
        bound, grouped, limits, moment, number, numbers, quantity, short_digest, side, side_as,
        unit_word, way,
    };

    #[test]
    fn limits_say_which_side_is_open() {
        assert_eq!(limits(Some("55.5"), Some("56.5"), "mm"), "55.5 to 56.5\u{a0}mm");
        assert_eq!(limits(Some("-2"), Some("2"), ""), "\u{2212}2 to 2");
        assert_eq!(limits(Some("18"), None, "N"), "at least 18\u{a0}N");
        assert_eq!(limits(None, Some("0"), "V"), "at most 0\u{a0}V");
        assert_eq!(limits(None, None, "V"), "");
    }

    #[test]
    fn positions_name_their_side() {
        assert_eq!(side("-84.0"), "−84.0 left");
        assert_eq!(side("84.0"), "+84.0 right");
        assert_eq!(side("-0.0"), "0.0 at datum");
        assert_eq!(side("parked"), "parked");
        assert_eq!(side_as("-2.21875", "-2 7/32"), "\u{2212}2 7/32 left");
        assert_eq!(side_as("0", "0"), "0 at datum");
    }

    #[test]
    fn a_holder_slides_or_comes_on_or_off_the_rail() {
        assert_eq!(way("left", "8.0"), "8.0 to the left");
        assert_eq!(way("off", ""), "take off the rail");
        assert_eq!(way("fit", ""), "fit on the rail");
        assert_eq!(way("set", ""), "set");
    }

    #[test]
    fn every_number_of_a_text_gets_its_minus_sign() {
        assert_eq!(numbers("-0.5 to -0.1 in"), "\u{2212}0.5\u{a0}to \u{2212}0.1\u{a0}in");
        assert_eq!(numbers("self-locking"), "self-locking");
        assert_eq!(numbers(""), "");
    }

    #[test]
    fn long_counts_are_grouped() {
        assert_eq!(grouped("180000"), "180\u{a0}000");
        assert_eq!(grouped("1234567"), "1\u{a0}234\u{a0}567");
        for text in ["", "9999", "about 20000", "-20000"] {
            assert_eq!(grouped(text), text);
        }
    }

    #[test]
    fn only_a_number_gets_a_minus_sign() {
        assert_eq!(number("-4"), "\u{2212}4");
        assert_eq!(number("-x"), "-x");
        assert_eq!(quantity("6", ""), "6");
    }

    #[test]
    fn nothing_is_measured_in_in() {
        assert_eq!((unit_word("in"), unit_word("mm")), ("inches", "mm"));
    }

    #[test]
    fn a_unit_stays_with_its_number() {
        assert_eq!(bound("56.0 mm left"), "56.0\u{a0}mm left");
        assert_eq!(bound("wait 5 minutes, then 2"), "wait 5 minutes, then 2");
        assert_eq!(bound(""), "");
    }

    #[test]
    fn moments_keep_their_offset() {
        assert_eq!(moment("2026-11-25T14:10:00+01:00"), "2026-11-25 14:10 (UTC+01:00)");
        assert_eq!(moment("yesterday"), "yesterday");
        assert_eq!(short_digest("0123456789abcdef0123"), "0123456789abcdef");
    }
}
