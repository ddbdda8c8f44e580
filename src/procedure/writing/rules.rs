//! What a sentence of a procedure may not do, one function a rule. Must never judge by a guess at
//! grammar alone: where a rule is in doubt, the sentence is left in peace.

use std::collections::BTreeSet;
use std::ops::Range;

use super::prose::{Kind, Sentence, Word};
use super::words::{
    ABOUT, BEFORE_IF, COMMANDS, COMPARED, JOINED, KNOWN_CAPITALS, LASTING, LEADS, OBJECTS, OPENERS,
    RELATIVE, VAGUE, WELL, WHETHER,
};
use crate::quantity::{Dimension, Unit};

/// Dimensions of what recipes and machines set.
const SET: [Dimension; 8] = [
    Dimension::LENGTH,
    Dimension::FORCE,
    Dimension::TORQUE,
    Dimension::PRESSURE,
    Dimension::TEMPERATURE,
    Dimension::TEMPERATURE_DIFFERENCE,
    Dimension::SPEED,
    Dimension::TENSION,
];

/// Parts of a sentence that are too long: how many words, and where. A part in brackets counts alone.
///
/// Source: ASD-STE100, rules on sentence length and word count.
pub(super) fn too_long(sentence: &Sentence, most: usize) -> Vec<(usize, Range<usize>)> {
    let mut parts: Vec<(usize, usize, usize)> = Vec::new();
    let mut outer = 0;
    let mut was_bracketed = false;
    for (index, word) in sentence.words.iter().enumerate() {
        let counts = usize::from(word.kind != Kind::InLabel);
        match (word.bracketed, parts.last_mut()) {
            (false, _) => outer += counts,
            (true, Some((count, _, last))) if was_bracketed && !word.opens.contains('(') => {
                *count += counts;
                *last = index;
            }
            (true, _) => parts.push((counts, index, index)),
        }
        was_bracketed = word.bracketed;
    }
    parts.push((outer, 0, sentence.words.len() - 1));
    let long = parts.into_iter().filter(|(count, ..)| *count > most);
    long.map(|(count, first, last)| (count, sentence.range(first, last))).collect()
}

/// A command: where it stands, and whether it forbids.
pub(super) struct Command {
    pub at: usize,
    pub forbids: bool,
}

/// The command of a sentence, at its beginning or behind a condition.
pub(super) fn command(words: &[Word]) -> Option<Command> {
    let is_command = |at: usize| words.get(at).is_some_and(|word| is_in(COMMANDS, word));
    let first = words.first()?;
    let at = if is_in(LEADS, first) {
        1
    } else if is_in(OPENERS, first) {
        (1..words.len()).find(|at| words[at - 1].closes.ends_with(',') && is_command(*at))?
    } else {
        0
    };
    let is_not = words.get(at + 1).is_some_and(|word| word.lower == "not");
    is_command(at).then(|| Command { at, forbids: is_not || words[at].lower == "never" })
}

/// Whether a plain word stands in a list, which is in order.
pub(super) fn is_in(list: &[&str], word: &Word) -> bool {
    word.kind == Kind::Plain && list.binary_search(&word.lower.as_str()).is_ok()
}

/// A second command behind `and`, `then` or a semicolon; none for what happens at the same moment.
///
/// Source: ASD-STE100, one instruction a sentence. Only a verb of the list before the beginning of an
/// object counts, so that `the lock and seal of the door` is left in peace.
pub(super) fn second_command(sentence: &Sentence) -> Option<Range<usize>> {
    let words = &sentence.words;
    let first = command(words).filter(|first| !first.forbids)?;
    if is_in(LASTING, &words[first.at]) {
        return None;
    }
    for at in first.at + 1..words.len().saturating_sub(1) {
        let word = &words[at];
        // In a clause or after `to` the next verb is no command, or it is meant to be done meanwhile.
        if matches!(
            word.lower.as_str(),
            "to" | "that" | "which" | "who" | "what" | "where" | "while"
        ) {
            return None;
        }
        let joins = matches!(word.lower.as_str(), "and" | "then") && word.closes.is_empty();
        let verb = if joins {
            at + 1 + usize::from(words[at + 1].lower == "then")
        } else if word.closes == ";" {
            at + 1
        } else {
            continue;
        };
        let object = words.get(verb + 1);
        let has_object = object.is_some_and(|o| is_in(OBJECTS, o) || o.kind == Kind::Value);
        let is_command = words.get(verb).is_some_and(|w| is_in(COMMANDS, w) && !is_in(LASTING, w));
        let is_joined = at == first.at + 1 && is_in(JOINED, &words[first.at]);
        if is_command && has_object && !is_joined {
            let first = if joins { at } else { verb };
            return Some(sentence.range(first, verb));
        }
    }
    None
}

/// A condition behind its command.
///
/// Source: ASD-STE100, the condition comes first and ends with a comma. `When` and `until` say how
/// long an action goes on and are left in peace.
pub(super) fn late_condition(sentence: &Sentence) -> Option<Range<usize>> {
    let words = &sentence.words;
    let command = command(words)?;
    let asks = is_in(WHETHER, &words[command.at]);
    let at = (command.at + 1..words.len()).find(|at| {
        let [before, word] = [&words[at - 1], &words[*at]];
        match (word.kind, word.lower.as_str()) {
            (Kind::Plain, "unless") => true,
            // `If necessary` is vague wherever it stands, and has a rule of its own.
            (Kind::Plain, "if") => {
                !asks && !is_in(BEFORE_IF, before) && vague_at(words, *at).is_none()
            }
            _ => false,
        }
    })?;
    Some(sentence.range(at, at))
}

/// Words for which a number or a criterion belongs: which, what to write, and where.
pub(super) fn vague(sentence: &Sentence) -> Vec<(String, &'static str, Range<usize>)> {
    let words = &sentence.words;
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        match vague_at(words, at) {
            Some((length, instead)) => {
                let phrase: Vec<&str> = words[at..at + length].iter().map(|w| w.text).collect();
                found.push((phrase.join(" "), instead, sentence.range(at, at + length - 1)));
                at += length;
            }
            None => at += 1,
        }
    }
    found
}

/// The longest vague phrase that begins here: its words, and what to write.
fn vague_at(words: &[Word], at: usize) -> Option<(usize, &'static str)> {
    let word = &words[at];
    let next = words.get(at + 1);
    let before = at.checked_sub(1).and_then(|at| words.get(at));
    if word.kind != Kind::Plain {
        return None;
    }
    if word.lower == "about" && next.is_some_and(|next| is_number(next.text)) {
        return Some((2, ABOUT));
    }
    let ends_clause = !word.closes.is_empty() || next.is_none();
    if word.lower == "well"
        && ends_clause
        && before.is_some_and(|b| b.lower != "as" && !is_in(OBJECTS, b))
    {
        return Some((1, WELL));
    }
    // `If required by the maker` names its criterion.
    let criterion = |length: usize| {
        let behind = words.get(at + length);
        length > 1 && behind.is_some_and(|w| matches!(w.lower.as_str(), "by" | "for" | "to"))
    };
    let is_here = |phrase: &str| {
        let mut parts = phrase.split(' ').enumerate();
        parts.all(|(index, part)| words.get(at + index).is_some_and(|w| w.lower == part))
    };
    let length = |phrase: &str| phrase.split(' ').count();
    let starts = VAGUE.iter().filter(|(phrase, _)| phrase.starts_with(word.lower.as_str()));
    let here = starts.filter(|(phrase, _)| is_here(phrase) && !criterion(length(phrase)));
    here.map(|(phrase, instead)| (length(phrase), *instead)).max_by_key(|(length, _)| *length)
}

/// The abbreviations a sentence defines: `clean in place (CIP)` or `CIP (clean in place)`.
pub(super) fn definitions<'a>(sentence: &'a Sentence) -> impl Iterator<Item = &'a str> {
    let words = &sentence.words;
    (0..words.len()).filter_map(move |at| {
        let is_alone = words[at].opens.contains('(') && words[at].closes.contains(')');
        let is_explained = !words[at].bracketed
            && words
                .get(at + 1)
                .is_some_and(|next| next.opens.contains('(') && !next.closes.contains(')'));
        (is_alone || is_explained).then_some(words[at].text)
    })
}

/// Abbreviations that are not in `known`, and where. Labels of devices such as G1 or QF2 end in a
/// digit and are none.
pub(super) fn abbreviations<'a>(
    sentence: &'a Sentence,
    known: &BTreeSet<&str>,
) -> Vec<(&'a str, Range<usize>)> {
    let mut found = Vec::new();
    for (index, word) in sentence.words.iter().enumerate().filter(|(_, w)| w.kind == Kind::Plain) {
        let text = word.text.strip_suffix('s').unwrap_or(word.text);
        if is_abbreviation(text) && !KNOWN_CAPITALS.contains(&text) && !known.contains(text) {
            found.push((text, sentence.range(index, index)));
        }
    }
    found
}

fn is_abbreviation(text: &str) -> bool {
    let letters = text.bytes().filter(u8::is_ascii_uppercase).count();
    let is_roman = text.bytes().all(|byte| matches!(byte, b'I' | b'V' | b'X'));
    (2..=5).contains(&text.len())
        && text.bytes().all(|byte| byte.is_ascii_uppercase() || byte.is_ascii_digit())
        && letters >= 2
        && !text.ends_with(|c: char| c.is_ascii_digit())
        && !is_roman
}

/// Numbers with the unit of a setting that were written by hand, and where.
pub(super) fn figures(sentence: &Sentence) -> Vec<(String, Range<usize>)> {
    let words = &sentence.words;
    let figures = (0..words.len()).filter_map(|at| Some((at, figure_at(words, at)?)));
    figures
        .filter(|(at, last)| !is_way(words, *at, *last))
        .map(|(at, last)| {
            let texts: Vec<&str> = words[at..=last].iter().map(|word| word.text).collect();
            (texts.join(" "), sentence.range(at, last))
        })
        .collect()
}

/// Ways and comparisons are no settings: `by 5 mm`, `5 mm below the mark`, `agree within 1 mm`.
fn is_way(words: &[Word], at: usize, last: usize) -> bool {
    let is = |list: &[&str], index: Option<usize>| {
        index.and_then(|index| words.get(index)).is_some_and(|word| is_in(list, word))
    };
    let goes_on = words[last].closes.is_empty();
    let is_compared = is(&["within"], at.checked_sub(1)) && is(COMPARED, at.checked_sub(2));
    is(&["by"], at.checked_sub(1)) || (goes_on && is(RELATIVE, Some(last + 1))) || is_compared
}

/// The last word of a figure that begins here.
fn figure_at(words: &[Word], at: usize) -> Option<usize> {
    let word = words.get(at).filter(|word| word.kind == Kind::Plain)?;
    let is_set = |unit: &str| Unit::find(unit).is_some_and(|unit| SET.contains(&unit.dimension));
    if is_number(word.text) {
        let unit = words.get(at + 1).filter(|_| word.closes.is_empty())?;
        // `Make 20 in a row` is no length.
        let is_inch = word.text.contains(['.', '/']) || !unit.closes.is_empty();
        return (is_set(unit.text) && (unit.text != "in" || is_inch)).then_some(at + 1);
    }
    let digits = word.text.trim_start_matches(['±', '+', '-']);
    let unit = digits.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','));
    (unit.len() < digits.len() && is_set(unit)).then_some(at)
}

fn is_number(text: &str) -> bool {
    let digits = text.trim_start_matches(['±', '+', '-']);
    digits.starts_with(|c: char| c.is_ascii_digit())
        && digits
            .bytes()
            .all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b',' | b'/' | b'-'))
}
