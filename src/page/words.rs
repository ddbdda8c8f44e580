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

/// A number and its unit: `56.0 mm`; a count stands alone.
pub fn quantity(value: &str, unit: &str) -> String {
    match unit {
        "" => number(value),
        _ => format!("{}\u{a0}{unit}", number(value)),
    }
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
    match decimal::read(position) {
        Some(0) => format!("{} at datum", position.trim_start_matches(['-', '+'])),
        Some(value) if value < 0 => {
            format!("\u{2212}{} left", position.trim_start_matches(['-', '\u{2212}']))
        }
        Some(_) => format!("+{} right", position.trim_start_matches('+')),
        None => position.to_owned(),
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

/// What stands on a rail of this kind.
pub fn holders(kind: RailKind) -> &'static str {
    match kind {
        RailKind::Knives => "knife holders",
        RailKind::Guides => "guide brackets",
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
    use super::{bound, limits, moment, number, quantity, short_digest, side};

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
    }

    #[test]
    fn only_a_number_gets_a_minus_sign() {
        assert_eq!(number("-4"), "\u{2212}4");
        assert_eq!(number("-x"), "-x");
        assert_eq!(quantity("6", ""), "6");
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
