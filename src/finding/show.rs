//! Findings as text with carets, and as JSON: two views of the same data.
//!
//! The only module that knows the crate that draws carets.

use std::collections::BTreeMap;
use std::sync::Arc;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use serde::Serialize;

use super::{Finding, Findings, Severity};

/// Texts of the files findings point into, by path inside the plant.
pub type Texts = BTreeMap<Arc<str>, Arc<str>>;

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
    pub message: &'a str,
    /// How to mend it.
    pub way_out: &'a str,
}

/// All findings with lines and columns, by file and then by position.
pub fn located<'a>(findings: &'a Findings, texts: &Texts) -> Vec<Located<'a>> {
    let mut all: Vec<_> = findings.iter().map(|finding| locate(finding, texts)).collect();
    all.sort_by(|a, b| (a.file, a.line, a.column, a.rule).cmp(&(b.file, b.line, b.column, b.rule)));
    all
}

fn locate<'a>(finding: &'a Finding, texts: &Texts) -> Located<'a> {
    let (line, column) = match texts.get(&finding.place.file) {
        Some(text) if finding.place.spot != super::Spot::File => {
            let before = &text[..finding.place.locate(text).start];
            let start_of_line = before.rfind('\n').map_or(0, |at| at + 1);
            (before.matches('\n').count() + 1, before[start_of_line..].chars().count() + 1)
        }
        _ => (0, 0),
    };
    Located {
        rule: finding.rule,
        severity: finding.severity,
        file: &finding.place.file,
        line,
        column,
        message: &finding.message,
        way_out: &finding.way_out,
    }
}

/// All findings as text with carets, by file and then by position; ends with a line feed.
pub fn text(findings: &Findings, texts: &Texts) -> String {
    let mut all: Vec<_> =
        findings.iter().map(|finding| (locate(finding, texts), finding)).collect();
    all.sort_by(|(a, _), (b, _)| {
        (a.file, a.line, a.column, a.rule).cmp(&(b.file, b.line, b.column, b.rule))
    });
    let renderer = Renderer::plain();
    let mut shown = String::new();
    for (_, finding) in all {
        shown += &renderer.render(&[group(finding, texts)]).to_string();
        shown += "\n\n";
    }
    shown
}

fn group<'a>(finding: &'a Finding, texts: &'a Texts) -> Group<'a> {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(visible(&finding.message)).id(finding.rule);
    let way_out = Level::HELP.message(visible(&finding.way_out));
    match texts.get(&finding.place.file) {
        Some(text) if finding.place.spot != super::Spot::File => {
            let range = first_line(text, finding.place.locate(text));
            let snippet = Snippet::source(&**text)
                .path(&*finding.place.file)
                .annotation(AnnotationKind::Primary.span(range));
            title.element(snippet).element(way_out)
        }
        _ => title.element(annotate_snippets::Origin::path(&*finding.place.file)).element(way_out),
    }
}

/// The part of a range that stands on its first line.
fn first_line(text: &str, range: std::ops::Range<usize>) -> std::ops::Range<usize> {
    let piece = &text[range.clone()];
    range.start..range.start + piece.find('\n').unwrap_or(piece.len())
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

    #[test]
    fn a_finding_shows_line_caret_and_way_out() {
        let file: Arc<str> = "recipes/lime.yaml".into();
        let texts = Texts::from([(file.clone(), "id: lime\nstrip: 62 mm\n".into())]);
        let mut findings = Findings::default();
        let place = Place::top(&file).at("strip");
        findings.error("sample", &place, "too wide".into(), "make it narrower".into());
        let shown = text(&findings, &texts);
        let expected = "error[sample]: too wide\n --> recipes/lime.yaml:2:8\n  |\n2 | strip: 62 mm\n  |        ^^^^^\n  |\n  = help: make it narrower\n\n";
        assert_eq!(shown, expected);
        let found = &located(&findings, &texts)[0];
        assert_eq!((found.line, found.column), (2, 8));
    }
}
