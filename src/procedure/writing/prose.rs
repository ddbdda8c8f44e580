//! Markdown to sentences whose words know where they stand in the file.
//!
//! Code, values and text in quotes are kept as one opaque word. Headings, blocks of code and raw HTML
//! are no prose. Must never judge: that is done in [`super::rules`].

use std::ops::Range;

use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

use super::allow::Stripped;

/// Stands for inline code.
const CODE: char = '\u{fffc}';
/// A text in quotes with more words than this is a sentence of its own, no label.
const LONGEST_LABEL: usize = 12;
/// Shortened words whose full stop ends no sentence, unless a capital follows for the last four.
const SHORTENED: [&str; 10] =
    ["e.g", "i.e", "approx", "dia", "fig", "incl", "max", "min", "no", "etc"];

/// Text of one block, and where its pieces stand in the file.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub(super) struct Paragraph {
    plain: String,
    pieces: Vec<Piece>,
}

/// A piece of a paragraph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    /// Where it begins in the plain text.
    pub plain: usize,
    /// Its bytes in the file.
    pub at: Range<usize>,
}

/// What a word is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A word or a number.
    Plain,
    /// A value in braces, or code.
    Value,
    /// The first word of a label in quotes.
    Label,
    /// A further word of a label in quotes.
    InLabel,
}

/// A word without the signs around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word<'a> {
    /// As written.
    pub text: &'a str,
    /// In small letters.
    pub lower: String,
    /// What it is.
    pub kind: Kind,
    /// Signs before it.
    pub opens: &'a str,
    /// Signs after it.
    pub closes: &'a str,
    /// Whether it stands in brackets.
    pub bracketed: bool,
    at: Range<usize>,
}

/// One sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Sentence<'a> {
    /// Its words; at least one.
    pub words: Vec<Word<'a>>,
    paragraph: &'a Paragraph,
}

impl Sentence<'_> {
    /// Bytes in the file from one word to another.
    pub(super) fn range(&self, first: usize, last: usize) -> Range<usize> {
        self.paragraph.in_file(self.words[first].at.start..self.words[last].at.end)
    }

    /// Whether another one stands in the same paragraph.
    pub(super) fn is_beside(&self, other: &Sentence) -> bool {
        std::ptr::eq(self.paragraph, other.paragraph)
    }

    /// Bytes of the whole sentence in the file.
    pub(super) fn whole(&self) -> Range<usize> {
        self.range(0, self.words.len() - 1)
    }
}

/// The paragraphs, items and cells of a piece of prose.
pub(super) fn paragraphs(piece: &Stripped) -> Vec<Paragraph> {
    let mut all = vec![Paragraph::default()];
    let mut silent = 0_usize;
    for (event, range) in Parser::new_ext(&piece.text, Options::ENABLE_TABLES).into_offset_iter() {
        let last = all.last_mut().filter(|_| silent == 0);
        match event {
            Event::Start(tag) if is_silent(&tag) => silent += 1,
            Event::End(TagEnd::Heading(_) | TagEnd::CodeBlock | TagEnd::HtmlBlock) => silent -= 1,
            Event::Start(tag) if is_block(&tag) => all.push(Paragraph::default()),
            Event::End(TagEnd::Item | TagEnd::List(_)) => all.push(Paragraph::default()),
            Event::Text(text) => {
                if let Some(last) = last {
                    last.add(&text, piece.in_file(range));
                }
            }
            Event::Code(_) => {
                if let Some(last) = last {
                    last.add(CODE.encode_utf8(&mut [0; 4]), piece.in_file(range));
                }
            }
            Event::SoftBreak | Event::HardBreak => {
                if let Some(last) = last {
                    last.add(" ", piece.in_file(range));
                }
            }
            _ => {}
        }
    }
    all.retain(|paragraph| !paragraph.plain.trim().is_empty());
    all
}

fn is_silent(tag: &Tag) -> bool {
    matches!(tag, Tag::Heading { .. } | Tag::CodeBlock(_) | Tag::HtmlBlock)
}

fn is_block(tag: &Tag) -> bool {
    !matches!(tag, Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Image { .. })
}

impl Paragraph {
    /// A text that is no Markdown; the pieces are in order.
    pub(super) fn of(plain: &str, pieces: Vec<Piece>) -> Paragraph {
        Paragraph { plain: plain.to_owned(), pieces }
    }

    fn add(&mut self, text: &str, at: Range<usize>) {
        self.pieces.push(Piece { plain: self.plain.len(), at });
        self.plain += text;
    }

    /// Bytes in the file of a range of the plain text.
    fn in_file(&self, range: Range<usize>) -> Range<usize> {
        let piece = |at: usize| {
            let index = self.pieces.partition_point(|piece| piece.plain <= at);
            &self.pieces[index.saturating_sub(1)]
        };
        // In a piece that is longer in the file than here, such as code, all of it is meant.
        let Piece { plain, at } = piece(range.start);
        let from = (at.start + range.start - plain).min(at.end);
        let Piece { plain, at } = piece(range.end.saturating_sub(1));
        let next = self.pieces.partition_point(|piece| piece.plain < range.end);
        let is_whole =
            self.pieces.get(next).map_or(self.plain.len(), |next| next.plain) == range.end;
        let to = if is_whole { at.end } else { (at.start + range.end - plain).min(at.end) };
        from..to
    }

    /// Its sentences.
    pub(super) fn sentences(&self) -> Vec<Sentence<'_>> {
        let mut sentences = Vec::new();
        let mut words: Vec<Word> = Vec::new();
        let mut depth = 0_usize;
        let chunks = self.chunks();
        for (index, chunk) in chunks.iter().enumerate() {
            let mut word = self.word(chunk.clone());
            depth += word.opens.matches('(').count();
            word.bracketed = depth > 0;
            depth = depth.saturating_sub(word.closes.matches(')').count());
            if word.text.is_empty() {
                continue;
            }
            let next = chunks.get(index + 1).map(|next| &self.plain[next.clone()]);
            let is_end = ends_sentence(&word, next);
            words.push(word);
            if is_end {
                sentences.push(Sentence { words: std::mem::take(&mut words), paragraph: self });
                depth = 0;
            }
        }
        if !words.is_empty() {
            sentences.push(Sentence { words, paragraph: self });
        }
        sentences.iter_mut().for_each(|sentence| mark_labels(&mut sentence.words));
        sentences
    }

    /// What stands between spaces; a value in braces is never divided.
    fn chunks(&self) -> Vec<Range<usize>> {
        let mut chunks: Vec<Range<usize>> = Vec::new();
        let mut start = None;
        let mut inside = 0;
        let mut may_close = true;
        for (at, sign) in self.plain.char_indices() {
            let rest = &self.plain[at..];
            if at >= inside && may_close && rest.starts_with("{{") {
                let length = rest.find("}}");
                may_close = length.is_some();
                inside = length.map_or(inside, |length| at + length + 2);
            }
            if at >= inside && sign.is_whitespace() {
                chunks.extend(start.take().map(|start| start..at));
            } else if start.is_none() {
                start = Some(at);
            }
        }
        chunks.extend(start.map(|start| start..self.plain.len()));
        chunks
    }

    fn word(&self, chunk: Range<usize>) -> Word<'_> {
        let whole = &self.plain[chunk.clone()];
        let is_value = |text: &str| text.contains(CODE) || text.contains("{{");
        let is_letter =
            |c: char| c.is_alphanumeric() || c == CODE || matches!(c, '{' | '}' | '°' | '%' | '±');
        let start = whole.find(is_letter).unwrap_or(whole.len());
        let end = whole
            .rfind(is_letter)
            .map_or(start, |last| last + whole[last..].chars().next().map_or(0, char::len_utf8));
        let text = &whole[start..end];
        let kind = if is_value(text) { Kind::Value } else { Kind::Plain };
        let (opens, closes) = (&whole[..start], &whole[end..]);
        let at = chunk.start + start..chunk.start + end;
        Word { text, lower: text.to_lowercase(), kind, opens, closes, bracketed: false, at }
    }
}

/// Whether a sentence ends with this word.
fn ends_sentence(word: &Word, next: Option<&str>) -> bool {
    if !word.closes.contains(['.', '!', '?']) {
        return false;
    }
    let Some(next) = next else { return true };
    let first = next.chars().find(|c| c.is_alphanumeric() || matches!(c, '{' | &CODE));
    let Some(first) = first else { return false };
    match SHORTENED.iter().position(|short| *short == word.lower) {
        Some(index) if word.closes.contains('.') => index >= 6 && first.is_uppercase(),
        _ => !first.is_lowercase(),
    }
}

/// Labels in quotes count as one word.
fn mark_labels(words: &mut [Word]) {
    let mut from = 0;
    while from < words.len() {
        let has = |signs: &str, quotes: [char; 2]| signs.contains(quotes);
        let is_open = has(words[from].opens, ['"', '“']);
        let reach = words.len().min(from + LONGEST_LABEL);
        let close = (from..reach).find(|at| has(words[*at].closes, ['"', '”']));
        if let (true, Some(close)) = (is_open, close) {
            words[from].kind = Kind::Label;
            words[from + 1..=close].iter_mut().for_each(|word| word.kind = Kind::InLabel);
            from = close;
        }
        from += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::{Kind, paragraphs};
    use crate::procedure::writing::allow::Stripped;

    /// Sentences with `/` between the words, opaque ones in `<>`, as they stand in the file.
    #[track_caller]
    fn check(text: &str, expected: &[&str]) {
        let piece = Stripped::new(text, 0..text.len(), &[]);
        let found: Vec<String> = paragraphs(&piece)
            .iter()
            .flat_map(|paragraph| {
                let sentences = paragraph.sentences();
                let shown = |s: &super::Sentence| {
                    let words = s.words.iter().enumerate().map(|(index, word)| {
                        let written = &text[s.range(index, index)];
                        match word.kind {
                            Kind::Plain => written.to_owned(),
                            _ => format!("<{written}>"),
                        }
                    });
                    words.collect::<Vec<_>>().join("/")
                };
                sentences.iter().map(shown).collect::<Vec<_>>()
            })
            .collect();
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn words_are_found_where_they_stand_in_the_file() {
        check("Look at the **knife tip**, not there.", &["Look/at/the/knife/tip/not/there"]);
        check("Press `F1 F2`. Wait.", &["Press/<`F1 F2`>", "Wait"]);
        check("Set it to ({{ knife_rail.hex_key }}).", &["Set/it/to/<{{ knife_rail.hex_key }}>"]);
        check("Wipe &amp; dry it\nagain.", &["Wipe/dry/it/again"]);
    }

    #[test]
    fn a_full_stop_inside_a_number_or_a_short_word_ends_nothing() {
        check("Go to 0.5 mm. Then stop.", &["Go/to/0.5/mm", "Then/stop"]);
        check("Use a tool, e.g. Tongs. Wait.", &["Use/a/tool/e.g/Tongs", "Wait"]);
        check("Wait 5 min. Then open it.", &["Wait/5/min", "Then/open/it"]);
        check("Wait 5 min. 3 times.", &["Wait/5/min/3/times"]);
    }

    #[test]
    fn items_cells_and_paragraphs_are_apart_and_headings_are_no_prose() {
        check("### Hard\nOne\n\n- two\n- three\n", &["One", "two", "three"]);
        check("|a|b|\n|-|-|\n|c|d|\n", &["a", "b", "c", "d"]);
        check("Open it.\n```\nx y\n```\n<div>\nz\n</div>\n", &["Open/it"]);
    }

    #[test]
    fn a_label_in_quotes_is_one_word() {
        check("Read \"Safe position\" there.", &["Read/<Safe>/<position>/there"]);
        check("Read the 5\" mark.", &["Read/the/5/mark"]);
    }
}
