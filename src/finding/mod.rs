//! What somebody wrote wrong: rule, severity, place, message, way out.
//!
//! A finding is plain data; text with carets, JSON and pages are views of it, each in the language of
//! who reads it: the words stand in `language/<language>/findings-*.ftl` under the rule's identifier.
//! All findings of a run are collected, none stops the reading. Must never be used for "we could not run": that is
//! `cli::Failure`.

pub mod catalogue;
pub mod place;
pub mod policy;
pub mod rules;
pub mod sarif;
pub mod show;

pub use catalogue::{Rule, catalogue};
pub use place::{Part, Place, Spot};

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use serde::Serialize;

use crate::language::{self, Language, Words};

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The packet is not made.
    Error,
    /// The packet is made; somebody should look.
    Warning,
}

/// One thing somebody wrote wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Identifier of the rule, `strip-exceeds-pitch`.
    pub rule: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Where it is.
    pub place: Place,
    /// What is wrong, and under `way-out` how to mend it.
    pub words: Words,
    /// What the plant's policy makes of it.
    pub notes: Vec<Words>,
}

impl Finding {
    /// What is wrong.
    pub fn message(&self, language: Language) -> String {
        let message = self.words.shown(language);
        self.notes.iter().fold(message, |said, note| format!("{said} ({})", note.shown(language)))
    }

    /// Rule and place as one number; findings that differ may share it.
    fn digest(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        (self.rule, &self.place).hash(&mut hasher);
        hasher.finish()
    }

    /// How to mend it.
    pub fn way_out(&self, language: Language) -> String {
        self.words.way_out().shown(language)
    }
}

/// What is put into the words of a finding, by name.
type Parts<'p> = [(&'static str, language::Part<'p>)];

/// How many findings are kept; more are counted only. Nobody reads on, and a file made to do harm
/// could hold a hundred thousand.
const MOST: usize = 2500;

/// The findings of a run, in the order in which they were met.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Findings {
    list: Vec<Finding>,
    /// Numbers in the list by rule and place, so that a finding that is there is found at once.
    places: BTreeMap<u64, Vec<usize>>,
    /// Errors and warnings that were counted only.
    more: [usize; 2],
}

impl Findings {
    /// Adds an error; its words stand under the rule's name.
    fn error(&mut self, rule: &'static str, at: &Place, parts: &Parts) {
        self.add(rule, Severity::Error, at, Words::new(rule, parts));
    }

    /// Adds a warning; its words stand under the rule's name.
    fn warning(&mut self, rule: &'static str, at: &Place, parts: &Parts) {
        self.add(rule, Severity::Warning, at, Words::new(rule, parts));
    }

    fn add(&mut self, rule: &'static str, severity: Severity, at: &Place, words: Words) {
        self.push(Finding { rule, severity, place: at.clone(), words, notes: Vec::new() });
    }

    /// Adds a finding, once: the same fault met by two jobs is one fault.
    fn push(&mut self, finding: Finding) {
        if self.list.len() == MOST {
            self.more[finding.severity as usize] += 1;
            return;
        }
        let here = self.places.entry(finding.digest()).or_default();
        if !here.iter().any(|index| self.list.get(*index) == Some(&finding)) {
            here.push(self.list.len());
            self.list.push(finding);
        }
    }

    /// Takes over the findings of another run.
    pub fn extend(&mut self, others: Findings) {
        for finding in others.list {
            self.push(finding);
        }
        for (more, others) in self.more.iter_mut().zip(others.more) {
            *more += others;
        }
    }

    /// True when there were more than are kept.
    pub fn is_cut(&self) -> bool {
        self.more != [0, 0]
    }

    /// True when nothing was found.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// True when one of them is an error.
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) > 0
    }

    /// How many there are of one severity.
    pub fn count(&self, severity: Severity) -> usize {
        let kept = self.list.iter().filter(|finding| finding.severity == severity).count();
        kept + self.more[severity as usize]
    }

    /// Errors and warnings of each file, of those that are kept.
    pub fn by_file(&self) -> BTreeMap<&str, [usize; 2]> {
        let mut files: BTreeMap<&str, [usize; 2]> = BTreeMap::new();
        for finding in &self.list {
            files.entry(&finding.place.file).or_default()[finding.severity as usize] += 1;
        }
        files
    }

    /// The findings, in the order in which they were met.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.list.iter()
    }
}

impl FromIterator<Finding> for Findings {
    fn from_iter<I: IntoIterator<Item = Finding>>(list: I) -> Findings {
        let mut findings = Findings::default();
        list.into_iter().for_each(|finding| findings.push(finding));
        findings
    }
}
