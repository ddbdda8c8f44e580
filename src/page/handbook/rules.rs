//! The rules of findings as the handbook shows them, from the texts they are shown with.

use include_dir::{Dir, include_dir};
use serde::Serialize;

use super::markup::marked;
use crate::finding::rules::policy::{JUSTIFIABLE, WARNINGS};
use crate::language;

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
    let texts = language::explained("findings-");
    let rules = texts.into_iter().map(|text| Rule {
        topic: text.topic.replace('-', " "),
        warns: WARNINGS.contains(&&*text.key),
        justifiable: JUSTIFIABLE
            .iter()
            .find(|(rule, _)| *rule == text.key)
            .map_or("", |(_, why)| *why),
        shown: shown(&text.key),
        says: marked(&text.message),
        message: text.message,
        way_out: marked(&text.way_out),
        name: text.key,
    });
    rules.collect()
}

/// The names of all rules.
pub fn rule_names() -> Vec<String> {
    rules().into_iter().map(|rule| rule.name).collect()
}

fn shown(rule: &str) -> &'static str {
    SHOWN.get_file(format!("{rule}.txt")).and_then(|file| file.contents_utf8()).unwrap_or_default()
}
