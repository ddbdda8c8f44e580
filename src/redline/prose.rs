//! Two texts word by word, as they are read: paragraphs, items and rows, with what is gone and what is
//! new.
//!
//! Must never drop a word: all that is the same or gone gives the old text, all that is the same or new
//! the new one. From one to the other and back gives the same with its sides exchanged.

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};
use serde::Serialize;
use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::align::alike;

/// A piece of text that stands by itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Block {
    /// What it is.
    pub kind: Kind,
    /// Its words.
    pub runs: Vec<Run>,
}

impl Block {
    /// Whether any of its words differs.
    pub fn is_changed(&self) -> bool {
        self.runs.iter().any(|run| run.mark != Mark::Same)
    }
}

/// What a piece of text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// A paragraph.
    Paragraph,
    /// A heading.
    Heading,
    /// An item of a list.
    Item,
    /// A row of a table.
    Row,
    /// A line of code.
    Code,
}

/// Words one after the other that have the same mark and style.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Run {
    /// Whether they are gone, new, or neither.
    pub mark: Mark,
    /// How they are set.
    pub style: Style,
    /// The words; a blank at the end when one stands before what follows.
    pub text: String,
}

/// Whether words are gone, new, or neither.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Mark {
    /// In both texts.
    Same,
    /// Only in the old text.
    Gone,
    /// Only in the new text.
    New,
}

impl Mark {
    fn back(self) -> Mark {
        match self {
            Mark::Same => Mark::Same,
            Mark::Gone => Mark::New,
            Mark::New => Mark::Gone,
        }
    }
}

/// How words are set.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Style {
    /// As the text around.
    #[default]
    Plain,
    /// Stressed.
    Strong,
    /// Stressed a little.
    Stressed,
    /// Code, or a value that is put in.
    Code,
}

/// A word or a sign.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
struct Word {
    text: String,
    style: Style,
    /// Whether a blank stands before it.
    apart: bool,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
struct Piece {
    kind: Kind,
    words: Vec<Word>,
}

impl Piece {
    fn texts(&self) -> Vec<String> {
        self.words.iter().map(|word| word.text.clone()).collect()
    }
}

/// From how many words in a hundred in common on two pieces are the same one.
const ALIKE: usize = 30;

/// Of longer texts no words are compared: the old one is gone, the new one is new.
const MOST_WORDS: usize = 3000;

/// So many words and signs are a value and no sentence.
const SHORT: usize = 5;

/// Of more pieces none are compared.
const MOST_PIECES: usize = 2000;

/// The words of a text, for telling how much two are alike.
pub(super) fn words(text: &str) -> Vec<String> {
    split(text).into_iter().map(|(word, _)| word.to_owned()).collect()
}

/// Two texts in Markdown.
pub fn markdown(before: &str, after: &str) -> Vec<Block> {
    compare(&pieces(before), &pieces(after))
}

/// Two texts without markup, such as a field of YAML. A short one is a value: all of it is gone, and
/// the other is new.
pub fn plain(before: &str, after: &str) -> Vec<Run> {
    let piece =
        |text: &str| Piece { kind: Kind::Paragraph, words: worded(text, Style::Plain, false) };
    let (old, new) = (piece(before), piece(after));
    if old != new && old.words.len().min(new.words.len()) <= SHORT {
        return [whole(&old, Mark::Gone), whole(&new, Mark::New)]
            .into_iter()
            .flat_map(|own| own.runs)
            .collect();
    }
    pair(&old, &new).runs
}

fn compare(before: &[Piece], after: &[Piece]) -> Vec<Block> {
    if before > after {
        let mut blocks = compare(after, before);
        for run in blocks.iter_mut().flat_map(|block| &mut block.runs) {
            run.mark = run.mark.back();
        }
        let mut blocks: Vec<Block> = blocks.into_iter().map(in_order).collect();
        let is_whole = |block: &Block, mark| block.runs.iter().all(|run| run.mark == mark);
        for changed in blocks.chunk_by_mut(|one, two| {
            [one, two].iter().all(|own| is_whole(own, Mark::Gone) || is_whole(own, Mark::New))
        }) {
            changed.sort_by_key(|block| is_whole(block, Mark::New));
        }
        return blocks;
    }
    let ops = match before.len().max(after.len()) > MOST_PIECES {
        true => vec![DiffOp::Replace {
            old_index: 0,
            old_len: before.len(),
            new_index: 0,
            new_len: after.len(),
        }],
        false => capture_diff_slices(Algorithm::Myers, before, after),
    };
    let mut blocks = Vec::new();
    for op in ops {
        let old = before.get(op.old_range()).unwrap_or_default();
        let new = after.get(op.new_range()).unwrap_or_default();
        match op {
            DiffOp::Equal { .. } => blocks.extend(old.iter().map(|piece| whole(piece, Mark::Same))),
            _ => partners(old, new, &mut blocks),
        }
    }
    blocks
}

/// Pieces that differ: each with the next that is alike, the others as gone and as new.
fn partners(old: &[Piece], new: &[Piece], blocks: &mut Vec<Block>) {
    let is_partner = |one: &Piece, two: &Piece| {
        one.kind == two.kind && alike(&one.texts(), &two.texts()) >= ALIKE
    };
    let is_short = old.len() * new.len() <= MOST_PIECES;
    let mut left = new;
    for one in old {
        let found = left.iter().position(|two| is_short && is_partner(one, two));
        match found.and_then(|at| Some((left.get(..at)?, left.get(at)?, left.get(at + 1..)?))) {
            Some((before, two, rest)) => {
                blocks.extend(before.iter().map(|piece| whole(piece, Mark::New)));
                blocks.push(pair(one, two));
                left = rest;
            }
            None => blocks.push(whole(one, Mark::Gone)),
        }
    }
    blocks.extend(left.iter().map(|piece| whole(piece, Mark::New)));
}

fn whole(piece: &Piece, mark: Mark) -> Block {
    let mut runs = Vec::new();
    for word in &piece.words {
        put(&mut runs, mark, word);
    }
    Block { kind: piece.kind, runs }
}

/// Two pieces word by word.
fn pair(before: &Piece, after: &Piece) -> Block {
    if before > after {
        let mut block = pair(after, before);
        for run in &mut block.runs {
            run.mark = run.mark.back();
        }
        return in_order(block);
    }
    let (old, new) = (&before.words, &after.words);
    let mut runs = Vec::new();
    let ops = match old.len().max(new.len()) > MOST_WORDS && old != new {
        true => vec![DiffOp::Replace {
            old_index: 0,
            old_len: old.len(),
            new_index: 0,
            new_len: new.len(),
        }],
        false => capture_diff_slices(Algorithm::Myers, old, new),
    };
    for op in ops {
        let (gone, fresh) = match op {
            DiffOp::Equal { .. } => {
                let same = old.get(op.old_range()).unwrap_or_default();
                same.iter().for_each(|word| put(&mut runs, Mark::Same, word));
                continue;
            }
            _ => (old.get(op.old_range()), new.get(op.new_range())),
        };
        gone.unwrap_or_default().iter().for_each(|word| put(&mut runs, Mark::Gone, word));
        fresh.unwrap_or_default().iter().for_each(|word| put(&mut runs, Mark::New, word));
    }
    Block { kind: after.kind, runs }
}

/// What is gone before what is new, between words that stay.
fn in_order(mut block: Block) -> Block {
    let rank = |run: &Run| usize::from(run.mark == Mark::New);
    for changed in
        block.runs.chunk_by_mut(|one, two| one.mark != Mark::Same && two.mark != Mark::Same)
    {
        changed.sort_by_key(rank);
    }
    block
}

fn put(runs: &mut Vec<Run>, mark: Mark, word: &Word) {
    let blank = if word.apart { " " } else { "" };
    match runs.last_mut().filter(|run| run.mark == mark && run.style == word.style) {
        Some(run) => run.text.extend([blank, &word.text]),
        None => {
            let text = format!("{blank}{}", word.text);
            runs.push(Run { mark, style: word.style, text });
        }
    }
}

/// The pieces of a text in Markdown.
fn pieces(text: &str) -> Vec<Piece> {
    let mut reader = Reader::default();
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        reader.take(event);
    }
    reader.close();
    reader.pieces
}

#[derive(Default)]
struct Reader {
    pieces: Vec<Piece>,
    words: Vec<Word>,
    kind: Option<Kind>,
    strong: usize,
    stressed: usize,
    is_code: bool,
    /// Where each open link leads, innermost last: an address is a word too.
    links: Vec<String>,
    /// Whether a blank came after the last word.
    apart: bool,
}

impl Reader {
    fn take(&mut self, event: Event) {
        match event {
            Event::Start(tag) => self.start(&tag),
            Event::End(tag) => self.end(tag),
            Event::Text(text) if self.is_code => {
                for line in text.lines() {
                    self.add(line, Style::Code);
                    self.close();
                    self.kind = Some(Kind::Code);
                }
            }
            Event::Code(text) => self.add(&text, Style::Code),
            Event::Text(text) | Event::Html(text) | Event::InlineHtml(text) => {
                let style = match (self.strong, self.stressed) {
                    (0, 0) => Style::Plain,
                    (0, _) => Style::Stressed,
                    _ => Style::Strong,
                };
                self.add(&text, style);
            }
            Event::SoftBreak | Event::HardBreak => self.apart = true,
            _ => {}
        }
    }

    fn start(&mut self, tag: &Tag) {
        match tag {
            Tag::Strong => self.strong += 1,
            Tag::Emphasis => self.stressed += 1,
            Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. } => {
                self.links.push(dest_url.to_string());
            }
            Tag::Item => self.open(Kind::Item),
            Tag::TableHead | Tag::TableRow => self.open(Kind::Row),
            Tag::Heading { .. } => self.open(Kind::Heading),
            Tag::CodeBlock(_) => {
                self.open(Kind::Code);
                self.is_code = true;
            }
            Tag::TableCell if !self.words.is_empty() => {
                self.apart = true;
                self.add("|", Style::Plain);
                self.apart = true;
            }
            Tag::Paragraph if self.kind.is_none() => self.open(Kind::Paragraph),
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Strong => self.strong = self.strong.saturating_sub(1),
            TagEnd::Emphasis => self.stressed = self.stressed.saturating_sub(1),
            TagEnd::Link | TagEnd::Image => {
                let address = self.links.pop().unwrap_or_default();
                self.apart = true;
                self.add(&address, Style::Code);
            }
            TagEnd::CodeBlock => {
                self.is_code = false;
                self.close();
            }
            TagEnd::Paragraph
            | TagEnd::Item
            | TagEnd::TableHead
            | TagEnd::TableRow
            | TagEnd::Heading(_)
            | TagEnd::HtmlBlock => self.close(),
            _ => {}
        }
    }

    fn open(&mut self, kind: Kind) {
        self.close();
        self.kind = Some(kind);
    }

    fn close(&mut self) {
        let words = std::mem::take(&mut self.words);
        let kind = self.kind.take().unwrap_or(Kind::Paragraph);
        if !words.is_empty() {
            self.pieces.push(Piece { kind, words });
        }
        self.apart = false;
    }

    fn add(&mut self, text: &str, style: Style) {
        let apart = self.apart && !self.words.is_empty();
        let starts = text.starts_with(char::is_whitespace) && !self.words.is_empty();
        self.words.extend(worded(text, style, apart || starts));
        self.apart = text.ends_with(char::is_whitespace);
    }
}

fn worded(text: &str, style: Style, apart: bool) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    for (text, before) in split(text) {
        let is_value = text.starts_with("{{");
        let style = if is_value { Style::Code } else { style };
        let apart = if words.is_empty() { apart } else { before };
        words.push(Word { text: text.to_owned(), style, apart });
    }
    words
}

/// Words and signs, each with whether a blank stands before it. A number keeps its point, a word its
/// hyphen and apostrophe, and `{{ name }}` is one word.
fn split(text: &str) -> Vec<(&str, bool)> {
    let mut words = Vec::new();
    let mut rest = text;
    let mut apart = false;
    while let Some(first) = rest.chars().next() {
        if first.is_whitespace() {
            apart = true;
            rest = rest.trim_start();
            continue;
        }
        let (word, after) = rest.split_at(length(rest, first));
        words.push((word, apart));
        (rest, apart) = (after, false);
    }
    words
}

fn length(text: &str, first: char) -> usize {
    if text.starts_with("{{")
        && let Some(end) = text.find("}}")
    {
        return end + 2;
    }
    if !first.is_alphanumeric() {
        return first.len_utf8();
    }
    let mut end = 0;
    let mut letters = text.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let joins = matches!(letter, '.' | ',' | '-' | '\'' | '\u{2019}' | '/' | '_')
            && letters.peek().is_some_and(|(_, next)| next.is_alphanumeric());
        if !letter.is_alphanumeric() && !joins {
            break;
        }
        end = at + letter.len_utf8();
    }
    end
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Block, Kind, Mark, Style, markdown, plain};

    fn shown(blocks: &[Block]) -> String {
        let run = |run: &super::Run| {
            let text = match run.style {
                Style::Plain => run.text.clone(),
                Style::Strong => format!("<b>{}</b>", run.text),
                Style::Stressed => format!("<i>{}</i>", run.text),
                Style::Code => format!("<c>{}</c>", run.text),
            };
            match run.mark {
                Mark::Same => text,
                Mark::Gone => format!("[-{text}-]"),
                Mark::New => format!("[+{text}+]"),
            }
        };
        let block = |block: &Block| {
            let sign = match block.kind {
                Kind::Paragraph => "",
                Kind::Heading => "# ",
                Kind::Item => "* ",
                Kind::Row => "| ",
                Kind::Code => "> ",
            };
            format!("{sign}{}", block.runs.iter().map(run).collect::<String>())
        };
        blocks.iter().map(block).collect::<Vec<_>>().join("\n")
    }

    #[track_caller]
    fn check(before: &str, after: &str, expected: &str) {
        assert_eq!(shown(&markdown(before, after)), expected);
    }

    #[test]
    fn words_are_compared_and_not_lines() {
        check("Loosen the\ntwo screws.", "Loosen the two\nscrews.", "Loosen the two screws.");
        check(
            "Slide it to the **mark**. Tighten.",
            "Slide it to the scale. Tighten it.",
            "Slide it to the[-<b> mark</b>-][+ scale+]. Tighten[+ it+].",
        );
        check("At 5.5 mm.", "At 5.6 mm.", "At[- 5.5-][+ 5.6+] mm.");
        check(
            "To {{ strip }}.",
            "To {{ web }}.",
            "To[-<c> {{ strip }}</c>-][+<c> {{ web }}</c>+].",
        );
    }

    #[test]
    fn pieces_keep_what_they_are() {
        check("- one a b\n- two c d", "- one a b\n- two c e", "* one a b\n* two c[- d-][+ e+]");
        check("First one here.\n\nSecond.", "Second.", "[-First one here.-]\nSecond.");
        check(
            "| a | b |\n|---|---|\n| 1 | 2 |",
            "| a | b |\n|---|---|\n| 1 | 3 |",
            "| a | b\n| 1 |[- 2-][+ 3+]",
        );
        check("```\nx y\n```", "```\nx z\n```", "> <c>x</c>[-<c> y</c>-][+<c> z</c>+]");
        check("[a](b)", "[a](c)", "a[-<c> b</c>-][+<c> c</c>+]");
        check("<b>x</b>", "<i>x</i>", "<[-b-][+i+]>x</[-b-][+i+]>");
    }

    #[test]
    fn a_value_is_struck_as_a_whole_and_a_sentence_word_by_word() {
        let check = |before, after, expected| {
            let block = Block { kind: Kind::Paragraph, runs: plain(before, after) };
            assert_eq!(shown(&[block]), expected);
        };
        check("±0.5 mm", "±1 mm", "[-±0.5 mm-][+±1 mm+]");
        check("", "lead", "[+lead+]");
        check(
            "Turn the drain and leave it open.",
            "Turn the drain and leave it.",
            "Turn the drain and leave it[- open-].",
        );
        check("same", "same", "same");
    }

    #[test]
    fn a_text_that_is_too_long_is_struck_and_written_anew() {
        let long = |word: &str| format!("{word} ").repeat(9000);
        let blocks = markdown(&long("a"), &long("b"));
        assert_eq!(blocks.len(), 2);
        let runs = plain(&long("a b"), &long("a c"));
        assert_eq!(runs.len(), 2);
    }

    proptest! {
        #[test]
        fn no_word_is_lost_and_back_is_the_mirror(
            one in "([abc*`|#{} .-]|\n){0,40}",
            two in "([abc*`|#{} .-]|\n){0,40}",
        ) {
            let there = markdown(&one, &two);
            let back = markdown(&two, &one);
            let side = |blocks: &[Block], mark: Mark| -> String {
                let runs = blocks.iter().flat_map(|block| &block.runs);
                let own = runs.filter(|run| run.mark == Mark::Same || run.mark == mark);
                own.map(|run| run.text.split_whitespace().collect::<String>()).collect()
            };
            let alone = |text: &str| side(&markdown(text, text), Mark::Same);
            prop_assert_eq!(side(&there, Mark::Gone), alone(&one));
            prop_assert_eq!(side(&there, Mark::New), alone(&two));
            prop_assert_eq!(side(&there, Mark::Gone), side(&back, Mark::New));
            let same = |blocks: &[Block]| side(blocks, Mark::Same);
            prop_assert_eq!(same(&there), same(&back));
            prop_assert!(markdown(&one, &one).iter().all(|block| !block.is_changed()));
        }
    }
}
