//! Findings as text with carets, and as JSON: two views of the same data.
//!
//! The only module that knows the crate that draws carets.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use serde::Serialize;

use super::place::Marks;
use super::{Finding, Findings, Severity};
use crate::language::Language;

/// Texts of the files findings point into, by path inside the plant.
pub type Texts = BTreeMap<Arc<str>, Arc<str>>;

/// Bytes of the longest line that is shown; of a longer one only the place is named.
const LONGEST_LINE: usize = 4000;

/// A finding with its line and column worked out, for programs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Located<'a> {
    /// Identifier of the rule.
    pub rule: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Path inside the plant.
    pub file: &'a str,
    /// Line, from 1; 0 for the file as a whole.
    pub line: usize,
    /// Column in letters, from 1; 0 for the file as a whole.
    pub column: usize,
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    pub way_out: String,
}

/// All findings with lines and columns, by file and then by position.
pub fn located<'a>(findings: &'a Findings, texts: &Texts, language: Language) -> Vec<Located<'a>> {
    placed(findings, texts, language).into_iter().map(|placed| placed.located).collect()
}

/// A finding with the bytes it points at; none for a file as a whole.
pub(super) struct Placed<'a, 't> {
    pub(super) finding: &'a Finding,
    pub(super) located: Located<'a>,
    /// Column behind its last letter on that line.
    pub(super) end: usize,
    shown: Option<(&'t str, Range<usize>)>,
}

/// All findings by file and then by position. Each text is made out once, and walked through once:
/// the time grows with the files and the findings, and not with one times the other.
pub(super) fn placed<'a, 't>(
    findings: &'a Findings,
    texts: &'t Texts,
    language: Language,
) -> Vec<Placed<'a, 't>> {
    let mut marks = Marks::new();
    let mut all: Vec<_> = findings
        .iter()
        .map(|finding| {
            let file = &*finding.place.file;
            let text = texts.get(file).filter(|_| finding.place.spot != super::Spot::File);
            let shown = text.map(|text| {
                let range = finding.place.locate_with(text, &mut marks);
                (&**text, first_line(text, range))
            });
            (finding, shown)
        })
        .collect();
    all.sort_by(|(a, its), (b, others)| {
        let start = |shown: &Option<(&str, Range<usize>)>| shown.as_ref().map(|it| it.1.start);
        let key = |one: &'a Finding| &*one.place.file;
        (key(a), start(its), a.rule).cmp(&(key(b), start(others), b.rule))
    });
    let mut walk = Walk::default();
    let place = |(finding, shown): (&'a Finding, Option<(&'t str, Range<usize>)>)| {
        let (line, column) = match &shown {
            Some((text, range)) => walk.to(&finding.place.file, text, range.start),
            None => (0, 0),
        };
        let letters = shown.as_ref().and_then(|(text, range)| text.get(range.clone()));
        let end = column + letters.map_or(0, |letters| letters.chars().count());
        let located = Located {
            rule: finding.rule,
            severity: finding.severity,
            file: &finding.place.file,
            line,
            column,
            message: finding.message(language),
            way_out: finding.way_out(language),
        };
        Placed { finding, located, end, shown }
    };
    all.into_iter().map(place).collect()
}

/// Counts lines and letters through one file after the other, always forwards.
#[derive(Default)]
struct Walk<'a> {
    file: &'a str,
    at: usize,
    line: usize,
    column: usize,
}

impl<'a> Walk<'a> {
    /// Line and column, from 1, of a byte; bytes of a file come in their order.
    fn to(&mut self, file: &'a str, text: &str, byte: usize) -> (usize, usize) {
        if self.line == 0 || self.file != file {
            *self = Walk { file, at: 0, line: 1, column: 1 };
        }
        let passed = text.get(self.at..byte).unwrap_or_default();
        let feeds = passed.matches('\n').count();
        if feeds > 0 {
            self.line += feeds;
            self.column = 1;
        }
        let last = passed.rsplit('\n').next().unwrap_or_default();
        self.column += last.chars().count();
        self.at = byte;
        (self.line, self.column)
    }
}

/// All findings as text with carets, by file and then by position; ends with a line feed.
pub fn text(findings: &Findings, texts: &Texts, language: Language) -> String {
    let renderer = Renderer::plain();
    let mut shown = String::new();
    for placed in placed(findings, texts, language) {
        shown += &renderer.render(&[group(&placed, language)]).to_string();
        shown += "\n\n";
    }
    if findings.is_cut() {
        shown += language.word("findings-more");
        shown += "\n\n";
    }
    shown
}

fn group<'a>(placed: &'a Placed, language: Language) -> Group<'a> {
    let Placed { located, shown, .. } = placed;
    let level = match located.severity {
        Severity::Error => Level::ERROR.with_name(language.word("finding-error")),
        Severity::Warning => Level::WARNING.with_name(language.word("finding-warning")),
    };
    let title = level.primary_title(visible(&located.message)).id(located.rule);
    let way_out =
        Level::HELP.with_name(language.word("finding-help")).message(visible(&located.way_out));
    match shown {
        Some((text, range)) => {
            let start = text[..range.start].rfind('\n').map_or(0, |at| at + 1);
            let end = text[range.end..].find('\n').map_or(text.len(), |at| range.end + at);
            if end - start > LONGEST_LINE {
                let place =
                    Origin::path(located.file).line(located.line).char_column(located.column);
                return title.element(place).element(way_out);
            }
            let snippet = Snippet::source(&text[start..end])
                .line_start(located.line)
                .path(located.file)
                .annotation(AnnotationKind::Primary.span(range.start - start..range.end - start));
            title.element(snippet).element(way_out)
        }
        None => title.element(Origin::path(located.file)).element(way_out),
    }
}

/// The part of a range that stands on its first line.
fn first_line(text: &str, range: Range<usize>) -> Range<usize> {
    let piece = &text[range.clone()];
    range.start..range.start + piece.lines().next().unwrap_or_default().len()
}

/// Control characters shown as escapes, so that a file cannot play with the reader's terminal.
fn visible(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { c.escape_default().to_string() } else { c.to_string() })
        .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{Texts, located, text};
    use crate::finding::{Findings, Place};
    use crate::language::Language;

    #[test]
    fn a_finding_shows_line_caret_and_way_out() {
        let file: Arc<str> = "recipes/lime.yaml".into();
        let texts = Texts::from([(file.clone(), "id: lime\nstrip: 62 mm\n".into())]);
        let mut findings = Findings::default();
        let place = Place::top(&file).at("strip");
        findings.no_limits(&place);
        let shown = text(&findings, &texts, Language::English);
        let expected = "error[no-limits]: a reading needs limits, and this has none\n --> recipes/lime.yaml:2:8\n  |\n2 | strip: 62 mm\n  |        ^^^^^\n  |\n  = help: give a tolerance, or low and high\n\n";
        assert_eq!(shown, expected);
        let found = &located(&findings, &texts, Language::English)[0];
        assert_eq!((found.line, found.column), (2, 8));
    }
}
