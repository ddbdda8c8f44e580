//! Clusters of nouns: more than three in a row are read twice before they are understood.
//!
//! No dictionary stands behind this. A word is taken for a noun when nothing else fits: it is no word
//! of the lists, no adverb or adjective by its ending, no name, no number, and stands where no verb
//! can stand. Whatever may be something else is not counted: a cluster is rather missed than made up.

use std::ops::Range;

use super::prose::{Kind, Sentence, Word};
use super::rules::{command, is_in};
use super::words::{
    ADJECTIVE_ENDINGS, ADJECTIVES, CLAUSES, COMMANDS, FUNCTION_WORDS, JOINTS, LETTING, NOUNS,
    TWO_OBJECTS, VERB_FOLLOWS,
};

/// Nouns in a row (ASD-STE100, rules on noun clusters; number from memory).
const MOST: usize = 3;

/// What a word may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Noun,
    /// A noun in the plural, or a verb: it ends a cluster.
    Last,
    /// An adjective or participle before the first noun.
    Modifier,
    Other,
}

/// Nouns of a cluster so far: the first and the last.
type Run = Option<(usize, usize)>;

/// More than three nouns in a row: how many, and where.
pub(super) fn clusters(sentence: &Sentence) -> Vec<(usize, Range<usize>)> {
    let words = &sentence.words;
    let command = command(words).map(|command| command.at);
    let begins = |list: &[&str]| command.is_some_and(|at| is_in(list, &words[at]));
    // `Give the lead order sheets` has two objects with nothing between them.
    let given = command.filter(|_| begins(TWO_OBJECTS)).unwrap_or(words.len());
    let lets = begins(LETTING);
    let mut found = Vec::new();
    let mut run: Run = None;
    // Behind a subject a word in `s` may be the verb: the roller guard jams.
    let mut has_subject = command.is_none();
    let mut is_verb = true;
    for (at, word) in words.iter().enumerate() {
        let is_let = lets && is_in(COMMANDS, word);
        let must_be_verb = is_verb || is_let || Some(at) == command || is_second_command(words, at);
        let is_doubtful = must_be_verb || at > given;
        let part = if is_doubtful { Part::Other } else { part(word, run.is_some()) };
        let is_noun = part == Part::Noun || (part == Part::Last && !has_subject);
        if is_noun {
            run = Some((run.map_or(at, |(first, _)| first), at));
        }
        if !matches!(part, Part::Noun | Part::Modifier) || is_cut(words, at) {
            found.extend(long(sentence, run.take()));
        }
        is_verb = is_in(VERB_FOLLOWS, word) || (part == Part::Last && has_subject);
        has_subject = Some(at) != command && (has_subject || is_in(CLAUSES, word));
    }
    found.extend(long(sentence, run));
    found
}

fn long(sentence: &Sentence, run: Run) -> Option<(usize, Range<usize>)> {
    let (first, last) = run?;
    let count = last - first + 1;
    (count > MOST).then(|| (count, sentence.range(first, last)))
}

/// Whether signs part a word from the next one.
fn is_cut(words: &[Word], at: usize) -> bool {
    let opens = words.get(at + 1).is_some_and(|next| !next.opens.is_empty());
    opens || !words[at].closes.is_empty()
}

/// Whether a word is a command behind `and` or a comma.
fn is_second_command(words: &[Word], at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|at| words.get(at));
    let joins = |w: &Word| is_in(JOINTS, w) || w.closes.ends_with([',', ';', ':']);
    before.is_some_and(joins) && is_in(COMMANDS, &words[at])
}

/// What a word is by its form; `inside` when a noun stands before it.
fn part(word: &Word, inside: bool) -> Part {
    let lower = word.lower.as_str();
    let ends = |endings: &[&str]| endings.iter().any(|ending| lower.ends_with(ending));
    let is_name = word.text.contains(|c: char| c.is_uppercase() || c.is_ascii_digit());
    // `The machine's` and `doesn't`.
    let is_short = lower.contains(['\'', '\u{2019}']);
    if word.kind != Kind::Plain || is_name || is_short || is_in(FUNCTION_WORDS, word) {
        return Part::Other;
    }
    let is_noun = is_in(NOUNS, word);
    match () {
        () if ends(&["ly"]) && !is_noun => Part::Other,
        () if is_in(ADJECTIVES, word) || (ends(ADJECTIVE_ENDINGS) && !is_noun) => match inside {
            true => Part::Other,
            false => Part::Modifier,
        },
        () if ends(&["s"]) && !ends(&["ss", "us", "is"]) => Part::Last,
        () => Part::Noun,
    }
}

#[cfg(test)]
mod tests {
    use super::clusters;
    use crate::procedure::writing::allow::Stripped;
    use crate::procedure::writing::prose::paragraphs;

    /// The clusters of a text, as written.
    fn found(text: &str) -> Vec<&str> {
        let piece = Stripped::new(text, 0..text.len(), &[]);
        let paragraphs = paragraphs(&piece);
        let sentences = paragraphs.iter().flat_map(|paragraph| paragraph.sentences());
        let all: Vec<_> = sentences.flat_map(|sentence| clusters(&sentence)).collect();
        all.into_iter().map(|(_, range)| &text[range]).collect()
    }

    #[track_caller]
    fn check(text: &str, expected: &[&str]) {
        assert_eq!(found(text), expected, "{text}");
    }

    #[test]
    fn more_than_three_nouns_in_a_row_are_found() {
        // Source: ASD-STE100, three nouns at most, from memory; the sentences are our own.
        check("Open the jaw heater control panel.", &["jaw heater control panel"]);
        check("Pull the film roll brake lever open.", &["film roll brake lever"]);
        check("Loosen the carton magazine guide screws.", &["carton magazine guide screws"]);
        check("Remove the old glue tank lid pin.", &["glue tank lid pin"]);
        check("Clean the product hopper outlet seal.", &["product hopper outlet seal"]);
        check("Close the main air supply line valve.", &["air supply line valve"]);
        check("The vacuum pump oil level rises.", &["vacuum pump oil level"]);
        check("Read the sealing jaw heater sensor value.", &["jaw heater sensor value"]);
        check("Take out the dust filter bag ring.", &["dust filter bag ring"]);
        check("If the label reel brake handle is loose, tell me.", &["label reel brake handle"]);
        check("Move the infeed conveyor drive cover.", &["infeed conveyor drive cover"]);
        check("Write down the batch code printer number.", &["batch code printer number"]);
        check("When the reject bin door switch opens, wait.", &["reject bin door switch"]);
        check("Fasten each knife holder clamp screw.", &["knife holder clamp screw"]);
    }

    #[test]
    fn what_may_be_something_else_is_no_noun() {
        for text in [
            "Open the panel of the jaw heater.",
            "Loosen the old red cap chute guide.",
            "Put the glue tank lid back on.",
            "Set the **label head**, door and guard.",
            "Open guard G1 label head door.",
            "Press \"Jaw heater control panel\".",
            "Set the machine's film roll brake.",
            "The film roll brake doesn't hold.",
            "Keep the electrical cabinet door key.",
            "Make the film roll brake tighter.",
            // A verb behind its subject.
            "If the label head guard jams, stop the line.",
            "The line operator checks caps, seals and codes.",
            "The label head guides touch film rolls.",
            "Let the label head guard close.",
            "Wait until the glue tank temperature reaches its value.",
            // A verb behind `to`, `must`, `and`.
            "Use the wrench to clean film roll ends.",
            "It must clear label head doors.",
            "Open it and clean film roll ends.",
            "Grease guide rod ends.",
            // Two objects.
            "Give the shift lead order sheets before the start.",
        ] {
            check(text, &[]);
        }
    }
}
