//! How values are worded on every page: numbers, limits, sides of the datum, days, signal words.
//!
//! Each word is asked for in a language, whose decimal sign numbers follow. Must never touch what
//! people wrote: only texts that the program computed come through here.

use chrono::Datelike;

use crate::language::Language;
use crate::packet::model::{Change, EnergyState, Mark, Meaning, RailKind, Signal};

use super::decimal;

/// A number as it is set in print: a true minus sign instead of a hyphen, and the decimal sign of the
/// language. Other text stays as it is.
pub fn number(language: Language, text: &str) -> String {
    match text.strip_prefix('-') {
        Some(rest) if rest.starts_with(|first: char| first.is_ascii_digit()) => {
            format!("\u{2212}{}", decimals(language, rest))
        }
        _ => decimals(language, text),
    }
}

/// Every number of a computed text as it is set in print, units kept beside them.
pub fn numbers(language: Language, text: &str) -> String {
    let words: Vec<String> = text.split(' ').map(|word| number(language, word)).collect();
    bound(&words.join(" "))
}

/// A text that may be a computed quantity or something a person wrote: `56.0 mm`, `2 7/32 in`,
/// `56.0 mm (2.205 in)` follow the language, everything else stays but for its minus sign.
pub fn value(language: Language, text: &str) -> String {
    match is_quantity(text) {
        true => numbers(language, text),
        false => bound(&number(Language::English, text)),
    }
}

/// Whether a text is numbers, each with at most one word behind it.
fn is_quantity(text: &str) -> bool {
    let mut after_number = false;
    for word in text.split(' ') {
        let is_number = word.trim_start_matches(['(', '-', '\u{2212}', '\u{b1}', '+', '\u{2248}']);
        let is_number = is_number.starts_with(|first: char| first.is_ascii_digit());
        if !is_number && !after_number {
            return false;
        }
        after_number = is_number;
    }
    true
}

/// The decimal sign of the language in every decimal number of a computed text.
///
/// `1.2.3` and `v1.2` are names and stay.
fn decimals(language: Language, text: &str) -> String {
    let sign = language.decimal_sign();
    if sign == '.' || !text.contains('.') {
        return text.to_owned();
    }
    let is_part = |c: char| c.is_alphanumeric() || c == '.' || c == '_';
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(is_part) {
        let (before, word) = rest.split_at(start);
        let end = word.find(|c| !is_part(c)).unwrap_or(word.len());
        let (word, after) = word.split_at(end);
        out.push_str(before);
        out.push_str(&decimal_word(word, sign));
        rest = after;
    }
    out.push_str(rest);
    out
}

/// One word; a point that ends a sentence is no decimal sign.
fn decimal_word(word: &str, sign: char) -> String {
    let (digits, stop) = match word.strip_suffix('.') {
        Some(digits) => (digits, "."),
        None => (word, ""),
    };
    let are_digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    match digits.split_once('.') {
        Some((whole, places)) if are_digits(whole) && are_digits(places) => {
            format!("{whole}{sign}{places}{stop}")
        }
        _ => word.to_owned(),
    }
}

/// A line of a working: its numbers follow the language. Where the decimal sign is a comma, the
/// values of a function are parted by semicolons.
pub fn working(language: Language, text: &str) -> String {
    match language.decimal_sign() {
        ',' => decimals(language, &text.replace(", ", "; ")),
        _ => text.to_owned(),
    }
}

/// A text that is never broken over two lines: `2 7/32`.
pub fn unbroken(text: &str) -> String {
    text.replace(' ', "\u{a0}")
}

/// A whole number of five digits or more in groups of three; other text as it is.
///
/// The groups are parted by a space in every language: a point or a comma would be read as a decimal
/// sign by who is used to the other one (resolution 10 of the 22nd CGPM, 2003; from memory).
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
pub fn quantity(language: Language, value: &str, unit: &str) -> String {
    match unit {
        "" => number(language, value),
        _ => format!("{}\u{a0}{unit}", number(language, value)),
    }
}

/// A unit after the word "in": the inch is written out, all others are their symbol.
pub fn unit_word(language: Language, unit: &str) -> &str {
    if unit == "in" { language.word("rail-inches") } else { unit }
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

/// Limits in words: `55.5 to 56.5 mm`, `at least 18 N`, `at most 5 V`, `0 V` when nothing else passes;
/// empty when there are none.
pub fn limits(language: Language, low: Option<&str>, high: Option<&str>, unit: &str) -> String {
    let with_unit = |value| quantity(language, value, unit);
    match (low, high) {
        (Some(low), Some(high)) if low == high => with_unit(high),
        (Some(low), Some(high)) => {
            let (low, high) = (number(language, low), with_unit(high));
            language.text("step-between", &[("low", low.into()), ("high", high.into())])
        }
        (Some(low), None) => language.text("step-at-least", &[("low", with_unit(low).into())]),
        (None, Some(high)) => language.text("step-at-most", &[("high", with_unit(high).into())]),
        (None, None) => String::new(),
    }
}

/// A position with its sign and its side of the datum: `−84.0 left`, `+84.0 right`, `0.0 at datum`.
pub fn side(language: Language, position: &str) -> String {
    side_as(language, position, position)
}

/// A position by its side of the datum, its number written in another way: `−2 7/32 left`.
pub fn side_as(language: Language, position: &str, shown: &str) -> String {
    let digits = shown.trim_start_matches(['-', '\u{2212}', '+']);
    let digits = decimals(language, digits);
    let (key, position) = match decimal::read(position) {
        Some(0) => ("rail-at-datum", digits),
        Some(value) if value < 0 => ("rail-at-left", format!("\u{2212}{digits}")),
        Some(_) => ("rail-at-right", format!("+{digits}")),
        None => return shown.to_owned(),
    };
    language.text(key, &[("position", position.into())])
}

/// What somebody does with a holder: `28.0 to the right`, `take off the rail`, `fit on the rail`.
pub fn way(language: Language, direction: &str, distance: &str) -> String {
    let slid = |key| language.text(key, &[("distance", number(language, distance).into())]);
    match direction {
        "left" => slid("rail-to-left"),
        "right" => slid("rail-to-right"),
        "off" => language.word("rail-take-off").to_owned(),
        "fit" => language.word("rail-fit").to_owned(),
        _ => language.word("rail-set").to_owned(),
    }
}

/// What becomes of a setting.
pub fn change(language: Language, change: Change) -> &'static str {
    match change {
        Change::Keep => language.word("step-keep"),
        Change::Change => language.word("step-change"),
        Change::New => language.word("step-new"),
    }
}

/// The energy a step needs, as a short order of facts.
pub fn needs(language: Language, state: EnergyState) -> &'static str {
    match state {
        EnergyState::Any => "",
        EnergyState::Energised => language.word("step-needs-energised"),
        EnergyState::Isolated => language.word("step-needs-isolated"),
        EnergyState::Test => language.word("step-needs-test"),
    }
}

/// What a signature says.
pub fn meaning(language: Language, meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::Performed => language.word("step-performed"),
        Meaning::Verified => language.word("step-verified"),
        Meaning::Released => language.word("step-released"),
    }
}

/// What a step settles in the order of work.
pub fn mark(language: Language, mark: Mark) -> &'static str {
    match mark {
        Mark::LineCleared => language.word("step-mark-line-cleared"),
        Mark::MaterialIn => language.word("step-mark-material-in"),
        Mark::Cleaned => language.word("step-mark-cleaned"),
        Mark::LabelChecked => language.word("step-mark-label-checked"),
        Mark::FirstPiece => language.word("step-mark-first-piece"),
        Mark::Run => language.word("step-mark-run"),
    }
}

/// `1 knife`, `5 knives`, `2 guides`.
pub fn knives(language: Language, kind: RailKind, number: usize) -> String {
    let count = &[("count", number.into())];
    match kind {
        RailKind::Knives => language.text("rail-knives", count),
        RailKind::Guides => language.text("rail-guides", count),
    }
}

/// What stands on a rail of this kind.
pub fn holders(language: Language, kind: RailKind) -> &'static str {
    match kind {
        RailKind::Knives => language.word("rail-knife-holders"),
        RailKind::Guides => language.word("rail-guide-brackets"),
    }
}

/// A signal word (ANSI Z535.4, ISO 3864-2).
pub fn signal(language: Language, signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => language.word("signal-danger"),
        Signal::Warning => language.word("signal-warning"),
        Signal::Caution => language.word("signal-caution"),
        Signal::Notice => language.word("signal-notice"),
    }
}

/// BCP 47 tag of a text for who reads it aloud; empty where it is in the language of its page.
pub fn lang(own: Option<Language>, page: Language) -> String {
    let other = own.filter(|own| own.texts() != page.texts());
    other.map_or(String::new(), |own| own.tag().to_owned())
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

/// A day as people read it: `26 November 2026`, `26 de noviembre de 2026`, `26. November 2026`.
///
/// Text that is no such day is shown as it is.
pub fn date(language: Language, text: &str) -> String {
    match chrono::NaiveDate::parse_from_str(text, "%Y-%m-%d") {
        Ok(date) => day(language, &date),
        Err(_) => text.to_owned(),
    }
}

fn day(language: Language, date: &impl Datelike) -> String {
    let parts = [
        ("day", date.day().to_string().into()),
        ("month", month(language, date.month()).into()),
        ("year", date.year().to_string().into()),
    ];
    language.text("step-day", &parts)
}

fn month(language: Language, number: u32) -> &'static str {
    match number {
        1 => language.word("step-month-1"),
        2 => language.word("step-month-2"),
        3 => language.word("step-month-3"),
        4 => language.word("step-month-4"),
        5 => language.word("step-month-5"),
        6 => language.word("step-month-6"),
        7 => language.word("step-month-7"),
        8 => language.word("step-month-8"),
        9 => language.word("step-month-9"),
        10 => language.word("step-month-10"),
        11 => language.word("step-month-11"),
        _ => language.word("step-month-12"),
    }
}

/// An RFC 3339 moment as people read it, with its offset:
/// `25 November 2026, 14:10 (UTC+01:00)`.
///
/// Text that is no such moment is shown as it is.
pub fn moment(language: Language, text: &str) -> String {
    let Ok(time) = chrono::DateTime::parse_from_rfc3339(text) else { return text.to_owned() };
    let parts = [
        ("date", day(language, &time).into()),
        ("time", time.format("%H:%M").to_string().into()),
        ("offset", time.format("%:z").to_string().into()),
    ];
    language.text("step-moment", &parts)
}

/// The first 16 digits of a digest: enough to tell sheets apart, short enough to compare by eye.
pub fn short_digest(digest: &str) -> String {
    digest.chars().take(16).collect()
}

#[cfg(test)]
mod tests {
    use crate::language::Language;

    use super::{
        bound, date, grouped, limits, moment, number, numbers, quantity, short_digest, side,
        side_as, unit_word, value, way, working,
    };

    #[test]
    fn limits_say_which_side_is_open() {
        assert_eq!(
            limits(Language::English, Some("55.5"), Some("56.5"), "mm"),
            "55.5 to 56.5\u{a0}mm"
        );
        assert_eq!(limits(Language::English, Some("-2"), Some("2"), ""), "\u{2212}2 to 2");
        assert_eq!(limits(Language::English, Some("18"), None, "N"), "at least 18\u{a0}N");
        assert_eq!(limits(Language::English, None, Some("0"), "V"), "at most 0\u{a0}V");
        assert_eq!(limits(Language::English, None, None, "V"), "");
    }

    #[test]
    fn positions_name_their_side() {
        assert_eq!(side(Language::English, "-84.0"), "−84.0 left");
        assert_eq!(side(Language::English, "84.0"), "+84.0 right");
        assert_eq!(side(Language::English, "-0.0"), "0.0 at datum");
        assert_eq!(side(Language::English, "parked"), "parked");
        assert_eq!(side_as(Language::English, "-2.21875", "-2 7/32"), "\u{2212}2 7/32 left");
        assert_eq!(side_as(Language::English, "0", "0"), "0 at datum");
    }

    #[test]
    fn a_holder_slides_or_comes_on_or_off_the_rail() {
        assert_eq!(way(Language::English, "left", "8.0"), "8.0 to the left");
        assert_eq!(way(Language::English, "off", ""), "take off the rail");
        assert_eq!(way(Language::English, "fit", ""), "fit on the rail");
        assert_eq!(way(Language::English, "set", ""), "set");
    }

    #[test]
    fn every_number_of_a_text_gets_its_minus_sign() {
        assert_eq!(
            numbers(Language::English, "-0.5 to -0.1 in"),
            "\u{2212}0.5\u{a0}to \u{2212}0.1\u{a0}in"
        );
        assert_eq!(numbers(Language::English, "self-locking"), "self-locking");
        assert_eq!(numbers(Language::English, ""), "");
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
        assert_eq!(number(Language::English, "-4"), "\u{2212}4");
        assert_eq!(number(Language::English, "-x"), "-x");
        assert_eq!(quantity(Language::English, "6", ""), "6");
    }

    #[test]
    fn nothing_is_measured_in_in() {
        assert_eq!(
            (unit_word(Language::English, "in"), unit_word(Language::English, "mm")),
            ("inches", "mm")
        );
    }

    #[test]
    fn a_unit_stays_with_its_number() {
        assert_eq!(bound("56.0 mm left"), "56.0\u{a0}mm left");
        assert_eq!(bound("wait 5 minutes, then 2"), "wait 5 minutes, then 2");
        assert_eq!(bound(""), "");
    }

    #[test]
    fn moments_keep_their_offset() {
        assert_eq!(
            moment(Language::English, "2026-11-25T14:10:00+01:00"),
            "25 November 2026, 14:10 (UTC+01:00)"
        );
        assert_eq!(moment(Language::English, "yesterday"), "yesterday");
        assert_eq!(short_digest("0123456789abcdef0123"), "0123456789abcdef");
    }

    #[test]
    fn numbers_follow_the_language_and_names_do_not() {
        let german = |text: &str| numbers(Language::German, text);
        assert_eq!(german("-0.5 to -0.1 in"), "\u{2212}0,5\u{a0}to \u{2212}0,1\u{a0}in");
        assert_eq!(german("56.0 mm (2.205 in)"), "56,0\u{a0}mm (2,205\u{a0}in)");
        assert_eq!(german("\u{b1}0.5 mm"), "\u{b1}0,5\u{a0}mm");
        assert_eq!(german("Measured 4.5."), "Measured 4,5.");
        for name in ["1.2.3", "v1.2", "Q1.5b", "29 CFR 1910.147(d)"] {
            let expected = if name.starts_with("29") { "29\u{a0}CFR 1910,147(d)" } else { name };
            assert_eq!(german(name), expected, "only computed texts come here");
        }
        assert_eq!(numbers(Language::LatinSpanish, "0.5 mm"), "0.5\u{a0}mm");
        assert_eq!(side(Language::Spanish, "-84.5"), "\u{2212}84,5 izquierda");
    }

    #[test]
    fn a_text_of_a_person_keeps_its_numbers() {
        let spanish = |text: &str| value(Language::Spanish, text);
        assert_eq!(spanish("56.0 mm"), "56,0\u{a0}mm");
        assert_eq!(spanish("-4"), "\u{2212}4");
        assert_eq!(spanish("2 7/32 in"), "2\u{a0}7/32\u{a0}in");
        for name in ["Steel rule 0.5 mm", "1.5 L jar of mustard", "M6", "", "see 4.2"] {
            assert_eq!(spanish(name).replace('\u{a0}', " "), name);
        }
    }

    #[test]
    fn a_working_parts_values_by_semicolons_where_the_comma_is_a_decimal_sign() {
        let text = "max(1.5 mm, 2 mm) \u{2248} 2 mm";
        assert_eq!(working(Language::English, text), text);
        assert_eq!(working(Language::German, text), "max(1,5 mm; 2 mm) \u{2248} 2 mm");
    }

    #[test]
    fn days_are_written_out() {
        let say = |language| date(language, "2026-11-26");
        assert_eq!(say(Language::English), "26 November 2026");
        assert_eq!(say(Language::LatinSpanish), "26 de noviembre de 2026");
        assert_eq!(say(Language::German), "26. November 2026");
        assert_eq!(date(Language::English, "2026-02-30"), "2026-02-30");
    }
}
