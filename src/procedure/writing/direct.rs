//! Whether an instruction says plainly what to do, and stands where somebody looks for one.
//!
//! A sentence of a step may describe: `the strip runs freely`. Only what orders without a command is
//! found, so the passive of a description is left in peace.

use std::ops::Range;

use super::prose::{Kind, Sentence, Word};
use super::rules::{command, is_in};
use super::words::{CLAUSES, DANGERS, FUNCTION_WORDS, INDIRECT, OBJECTS, ORDERS, PARTICIPLES};

/// An order that is no command: `make sure that`, `should`, `must be closed`.
///
/// Source: ASD-STE100, instructions in the imperative; ISO 20607 Annex C, as reported by the trade:
/// `disconnect each source`, not `make sure that each source is disconnected`.
pub(super) fn indirect(sentence: &Sentence) -> Option<(String, Range<usize>)> {
    let words = &sentence.words;
    let mut begins = true;
    let mut in_clause = false;
    for (at, word) in words.iter().enumerate() {
        if let Some(last) = indirect_at(words, at, begins).filter(|_| !in_clause) {
            let texts: Vec<&str> = words[at..=last].iter().map(|word| word.text).collect();
            return Some((texts.join(" "), sentence.range(at, last)));
        }
        // `The part that must be replaced` orders nothing.
        begins = word.closes.ends_with([',', ';', ':']);
        in_clause = !begins && (in_clause || is_in(CLAUSES, word));
    }
    None
}

/// The last word of an order that begins here and is no command.
fn indirect_at(words: &[Word], at: usize, begins: bool) -> Option<usize> {
    if is_in(&["ought", "shall", "should"], &words[at]) {
        return Some(at);
    }
    if let Some(length) = phrase(words, at, INDIRECT).filter(|_| begins) {
        return Some(at + length - 1);
    }
    let be = at + phrase(words, at, ORDERS)?;
    let participle = words.get(be + 1).filter(|_| is_in(&["be"], &words[be]))?;
    let is_done = participle.lower.ends_with("ed") || is_in(PARTICIPLES, participle);
    is_done.then_some(be + 1)
}

/// How many words the longest phrase of a list has that begins here.
fn phrase(words: &[Word], at: usize, list: &[&str]) -> Option<usize> {
    let is_here = |phrase: &&&str| {
        let mut parts = phrase.split(' ').enumerate();
        parts.all(|(index, part)| words.get(at + index).is_some_and(|w| is_in(&[part], w)))
    };
    let first = words.get(at)?.lower.as_str();
    let starts = list.iter().filter(|phrase| phrase.starts_with(first));
    starts.filter(is_here).map(|phrase| phrase.split(' ').count()).max()
}

/// Whether the heading of a step begins with a command.
///
/// A verb that is on no list counts when an object follows it: `Grease the chain`.
pub(super) fn is_command(heading: &Sentence) -> bool {
    let words = &heading.words;
    let has_object =
        words.get(1).is_some_and(|word| is_in(OBJECTS, word) || word.kind == Kind::Value);
    let may_be_verb = !words[0].lower.ends_with("ing") && !is_in(FUNCTION_WORDS, &words[0]);
    command(words).is_some() || (has_object && may_be_verb)
}

/// A note: the sentences of a paragraph that begins with `Note:`.
pub(super) fn is_note(sentences: &[Sentence]) -> bool {
    let first = sentences.first().and_then(|sentence| sentence.words.first());
    first.is_some_and(|word| is_in(&["note", "notes"], word) && word.closes.starts_with(':'))
}

/// A command in a note, and where.
///
/// Source: ASD-STE100, rule 5.5: notes give information, never instructions.
pub(super) fn ordered(note: &Sentence) -> Option<Range<usize>> {
    let words = &note.words;
    let from = usize::from(words[0].closes.starts_with(':'));
    let must = || words.iter().position(|word| is_in(&["must"], word));
    let at = command(&words[from..]).map(|command| from + command.at).or_else(must)?;
    Some(note.range(at, at))
}

/// A word of danger in a note, and where.
pub(super) fn endangered(note: &Sentence) -> Option<Range<usize>> {
    let at = note.words.iter().position(|word| is_in(DANGERS, word))?;
    Some(note.range(at, at))
}
