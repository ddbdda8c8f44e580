//! The rules of findings as the handbook shows them, from the texts they are shown with.

use include_dir::{Dir, include_dir};
use serde::Serialize;

use super::markup::marked;
use crate::finding::Severity;
use crate::finding::catalogue::{self, catalogue};
use crate::language::Language;

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
    /// How to mend it, as HTML.
    pub way_out: String,
    /// Why it is a rule, as HTML.
    pub why: String,
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
    catalogue().iter().map(shown_rule).collect()
}

fn shown_rule(rule: &catalogue::Rule) -> Rule {
    let message = rule.message(Language::English);
    Rule {
        name: rule.id.to_owned(),
        topic: rule.topic.replace('-', " "),
        warns: rule.severity == Severity::Warning,
        justifiable: rule.justifiable.unwrap_or_default(),
        says: marked(&message),
        message,
        way_out: marked(&rule.way_out(Language::English)),
        why: marked(&rule.why(Language::English)),
        shown: shown(rule.id),
    }
}

/// The names of all rules.
pub fn rule_names() -> Vec<String> {
    catalogue().iter().map(|rule| rule.id.to_owned()).collect()
}

fn shown(rule: &str) -> &'static str {
    SHOWN.get_file(format!("{rule}.txt")).and_then(|file| file.contents_utf8()).unwrap_or_default()
}
