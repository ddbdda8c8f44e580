//! What somebody wrote wrong: rule, severity, place, message, way out.
//!
//! A finding is plain data; text with carets, JSON and pages are views of it. All findings of a run
//! are collected, none stops the reading. Must never be used for "we could not run": that is
//! `cli::Failure`.

pub mod place;
pub mod policy;
pub mod rules;
pub mod show;

pub use place::{Part, Place, Spot};

use serde::Serialize;

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
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    pub way_out: String,
}

/// How many findings are kept; more are counted only. Nobody reads on, and a file made to do harm
/// could hold a hundred thousand.
const MOST: usize = 200;

/// The findings of a run, in the order in which they were met.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Findings {
    list: Vec<Finding>,
    /// Errors and warnings that were counted only.
    more: [usize; 2],
}

impl Findings {
    /// Adds an error.
    fn error(&mut self, rule: &'static str, at: &Place, message: String, way_out: String) {
        self.push(Finding { rule, severity: Severity::Error, place: at.clone(), message, way_out });
    }

    /// Adds a warning.
    fn warning(&mut self, rule: &'static str, at: &Place, message: String, way_out: String) {
        self.push(Finding {
            rule,
            severity: Severity::Warning,
            place: at.clone(),
            message,
            way_out,
        });
    }

    /// Adds a finding, once: the same fault met by two jobs is one fault.
    fn push(&mut self, finding: Finding) {
        if self.list.len() == MOST {
            self.more[finding.severity as usize] += 1;
        } else if !self.list.contains(&finding) {
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
