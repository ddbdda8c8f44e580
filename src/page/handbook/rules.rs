//! The rules of findings as the handbook shows them, from the texts they are shown with.

use include_dir::{Dir, include_dir};
use serde::Serialize;

use crate::finding::catalogue;
use crate::language::Language;
use crate::page::escaped;

/// What `check` prints of a plant with this one fault, a file a rule.
static SHOWN: Dir = include_dir!("$CARGO_MANIFEST_DIR/site/handbook/findings");

/// A rule.
#[derive(Debug, Serialize)]
pub(super) struct Rule {
    /// Its identifier.
    pub name: String,
    /// What it is about.
    pub topic: String,
    /// Whether it warns only.
    pub warns: bool,
    /// Why a plant may answer for it; empty when none may.
    pub justifiable: &'static str,
    /// What it says; a name in angle quotes stands for what is put in.
    pub message: String,
    /// The same as HTML.
    pub says: String,
    /// Why it is a rule.
    pub why: String,
    /// How to mend it, as HTML.
    pub way_out: String,
    /// How it looks; may be empty.
    pub shown: &'static str,
}

impl Rule {
    /// Its page.
    pub(super) fn page(&self) -> String {
        format!("findings/{}.html", self.name)
    }
}

/// Every rule, by topic.
pub(super) fn rules() -> Vec<Rule> {
    let english = Language::English;
    let rules = catalogue().iter().map(|rule| Rule {
        topic: rule.topic.replace('-', " "),
        warns: rule.may_be_raised(),
        justifiable: rule.justifiable.unwrap_or_default(),
        why: rule.why(english),
        shown: shown(rule.id),
        message: rule.message(english),
        says: marked(&rule.message(english)),
        way_out: marked(&rule.way_out(english)),
        name: rule.id.to_owned(),
    });
    rules.collect()
}

/// The names of all rules.
pub fn rule_names() -> Vec<String> {
    rules().into_iter().map(|rule| rule.name).collect()
}

/// A text of a finding as HTML: what stands between backticks as code, names apart from words.
fn marked(text: &str) -> String {
    let pieces = escaped(text).replace('‹', "<i>‹").replace('›', "›</i>");
    let pieces = pieces.split('`').enumerate().map(|(index, piece)| match index % 2 {
        0 => piece.to_owned(),
        _ => format!("<code>{piece}</code>"),
    });
    pieces.collect()
}

fn shown(rule: &str) -> &'static str {
    SHOWN.get_file(format!("{rule}.txt")).and_then(|file| file.contents_utf8()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    #[test]
    fn names_and_code_of_a_finding_are_told_from_its_words() {
        let html = super::marked("write `‹film›`, <not> ‹day›");
        assert_eq!(html, "write <code><i>‹film›</i></code>, &lt;not&gt; <i>‹day›</i>");
    }
}
