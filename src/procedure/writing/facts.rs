//! The texts of a step's block: YAML to paragraphs whose words know where they stand in the file.

use crate::finding::place::{MarkedText, Part};
use crate::procedure::text::StepText;

use super::prose::{Paragraph, Piece};

/// The texts of one block.
pub(super) struct Facts {
    /// What to do when a reading is outside.
    pub outside: Option<Paragraph>,
    /// Lines to tick.
    pub checks: Vec<Paragraph>,
}

impl Facts {
    /// Those of a step; `text` is the whole file.
    pub(super) fn of(text: &str, step: &StepText) -> Facts {
        let yaml = &text[step.block.clone()];
        let marked = MarkedText::of(yaml);
        let paragraph = |value: &String, path: &[&str]| {
            let place = marked.locate(path, &Part::Value);
            let at = step.block.start + place.start;
            Paragraph::of(value.trim_end(), align(value.trim_end(), &yaml[place], at))
        };
        let checks = step.facts.checks.iter().enumerate();
        Facts {
            outside: step.facts.outside.as_ref().map(|value| paragraph(value, &["outside"])),
            checks: checks
                .map(|(index, value)| paragraph(value, &["checks", &index.to_string()]))
                .collect(),
        }
    }
}

/// Where each letter of a value stands. Quotes, escapes and folds are stepped over; where a value
/// cannot be followed letter by letter, each letter stands for the whole.
fn align(value: &str, source: &str, start: usize) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let is_block = source.starts_with(['|', '>']);
    let mut at = source.find('\n').filter(|_| is_block).unwrap_or(0);
    for (plain, sign) in value.char_indices() {
        let is_same = |c: char| c == sign || (c.is_whitespace() && sign.is_whitespace());
        let is_passed = |c: char| c.is_whitespace() || matches!(c, '\\' | '\'' | '"');
        let rest = source.get(at..).unwrap_or_default();
        let here = rest.char_indices().find(|(_, c)| is_same(*c) || !is_passed(*c));
        let Some((passed, c)) = here.filter(|(_, c)| is_same(*c)) else {
            let whole = start..start + source.len();
            return value
                .char_indices()
                .map(|(plain, _)| Piece { plain, at: whole.clone() })
                .collect();
        };
        at += passed;
        pieces.push(Piece { plain, at: start + at..start + at + c.len_utf8() });
        at += c.len_utf8();
    }
    pieces
}
