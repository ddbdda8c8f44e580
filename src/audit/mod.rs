//! Checks of records: everything that is wrong, named, with the entry and the reason.
//!
//! [`audit_record`] takes bytes, keys, people and a time and returns a [`Report`]; [`report`] turns
//! that into lines for people. Bytes are judged in this order: the packet, then each entry's form,
//! its place in the chain, its signature, and the rules that held when it was signed. Must never
//! stop at the first finding, read a clock or a file, or panic, whatever the bytes are.

mod checks;
pub mod clock;
pub mod copies;
pub mod log;
pub mod register;
pub mod report;
pub mod sample;
pub mod series;
pub mod sheet;

use chrono::{DateTime, FixedOffset};
use rayon::prelude::*;
use serde::Serialize;

use crate::language::{Language, Words};
use crate::record::entry::{Kind, Verdict};
use crate::record::people::People;
use crate::record::state::{Missing, State};
use crate::record::store::RawRecord;
use crate::record::trust::TrustList;

/// A record with all that is needed to judge it.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The name of the record: its job, with a number where the packet was issued anew.
    pub job: &'a str,
    /// Its bytes.
    pub raw: &'a RawRecord,
    /// Whose key is whose.
    pub trust: &'a TrustList,
    /// Who may do what.
    pub people: &'a People,
    /// The plant's domain; signatures are made for `signoff@<domain>`.
    pub domain: &'a str,
    /// The time of the audit; entries later than this are found. None when nobody can say.
    pub now: Option<DateTime<FixedOffset>>,
    /// Digest of the packet that the plant's files give today, when they are at hand.
    pub current_packet: Option<&'a str>,
}

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Worth knowing; nothing is wrong with the record.
    Note,
    /// Something a person should look at.
    Warning,
    /// The record, or an entry of it, does not prove what it says.
    Error,
}

impl Severity {
    /// The word for people.
    pub fn words(self) -> Words {
        Words::of(match self {
            Severity::Note => "audit-note",
            Severity::Warning => "finding-warning",
            Severity::Error => "finding-error",
        })
    }

    /// The word as printed, in English.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Note => "note",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

/// One thing the audit found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AuditFinding {
    /// Short name of the rule.
    pub code: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Number of the entry's file; none when it concerns the record as a whole.
    pub entry: Option<u64>,
    /// What should be; may be empty.
    pub expected: Words,
    /// What is; may be empty.
    pub found: Words,
    /// What is wrong.
    pub words: Words,
    /// What to do about it while the entry is not on record yet, where a rule of records says so.
    pub way_out: Option<Words>,
}

/// A finding in a language.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ToldFinding {
    /// Short name of the rule.
    pub code: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Number of the entry's file; none when it concerns the record as a whole.
    pub entry: Option<u64>,
    /// What should be; may be empty.
    pub expected: String,
    /// What is; may be empty.
    pub found: String,
    /// What is wrong, for people.
    pub words: String,
}

impl AuditFinding {
    /// The finding in a language.
    pub fn told(&self, language: Language) -> ToldFinding {
        ToldFinding {
            code: self.code,
            severity: self.severity,
            entry: self.entry,
            expected: self.expected.shown(language),
            found: self.found.shown(language),
            words: self.words.shown(language),
        }
    }
}

/// What an entry says, as far as it could be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AuditedEntry {
    /// Number of its file.
    pub number: u64,
    /// SHA-256 of its bytes.
    pub digest: String,
    /// What it states; none when it could not be read.
    pub says: Option<Statement>,
    /// Fingerprint of the key that signed, when the signature could be read.
    pub key: Option<String>,
    /// Whether the signature fits, by a key of the person named, valid at that time.
    pub signer_ok: bool,
    /// Whether no error was found with it.
    pub sound: bool,
}

/// The words of an entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Statement {
    /// When.
    pub at: String,
    /// The principal.
    pub by: String,
    /// The printed name.
    pub name: String,
    /// The role.
    pub role: String,
    /// What is stated.
    pub kind: Kind,
    /// The sentence that was signed.
    pub meaning: String,
    /// The step.
    pub step: String,
    /// The row of the step that is signed: an energy source or a person.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub row: Option<String>,
    /// The blank and the value with its unit and verdict, for a reading.
    pub reading: Option<StatedReading>,
    /// `seq` of the reading it accepts.
    pub accepts: Option<u64>,
    /// `seq` of the reading it corrects.
    pub corrects: Option<u64>,
    /// `seq` of the reading that a raised deviation is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub concerns: Option<u64>,
    /// `seq` of the signature it takes back.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdraws: Option<u64>,
    /// What became of locks and energy.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub locks: Option<String>,
    /// Digest of the packet that comes in the place of this one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub becomes: Option<String>,
    /// Whether who checked stayed outside the guard.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub outside: bool,
    /// The reason or remark.
    pub note: Option<String>,
}

/// A reading as stated.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StatedReading {
    /// The blank.
    pub blank: String,
    /// The value.
    pub value: String,
    /// Its unit.
    pub unit: String,
    /// `within`, `outside` or `too close to tell`.
    #[serde(serialize_with = "word")]
    pub verdict: Verdict,
    /// The packet's limits in words, for a reading that is not within them; else empty.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub limits: String,
}

fn word<S: serde::Serializer>(verdict: &Verdict, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(verdict.word())
}

/// All that an audit has to say about one record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Report {
    /// The name of the record: its job, with a number where the packet was issued anew.
    pub job: String,
    /// The machine, by its packet.
    pub machine: Option<String>,
    /// SHA-256 of the frozen packet, when there is one.
    pub packet: Option<String>,
    /// What the next entry has to name as `prev`: the digest to keep elsewhere.
    pub head: String,
    /// How far the job has come, by the entries that no error was found with.
    pub state: Option<State>,
    /// What is missing until it is released.
    pub missing: Vec<Missing>,
    /// Digest of the packet that came in the place of this one, when the record says so.
    pub becomes: Option<String>,
    /// How many entries there are.
    pub count: usize,
    /// Times of the first and the last entry, as they state them.
    pub span: Option<(DateTime<FixedOffset>, DateTime<FixedOffset>)>,
    /// The entries; none where nobody asks for them.
    pub entries: Vec<AuditedEntry>,
    /// What was found, in the order of the entries.
    pub findings: Vec<AuditFinding>,
}

/// A report in a language, for programs.
#[derive(Debug, Serialize)]
pub struct ToldReport<'r> {
    job: &'r str,
    machine: Option<&'r str>,
    packet: Option<&'r str>,
    head: &'r str,
    state: Option<State>,
    missing: &'r [Missing],
    count: usize,
    #[serde(skip_serializing_if = "<[AuditedEntry]>::is_empty")]
    entries: &'r [AuditedEntry],
    findings: Vec<ToldFinding>,
}

impl Report {
    /// The report in a language, for programs.
    pub fn told(&self, language: Language) -> ToldReport<'_> {
        ToldReport {
            job: &self.job,
            machine: self.machine.as_deref(),
            packet: self.packet.as_deref(),
            head: &self.head,
            state: self.state,
            missing: &self.missing,
            count: self.count,
            entries: &self.entries,
            findings: self.findings.iter().map(|finding| finding.told(language)).collect(),
        }
    }

    /// How many findings of a weight there are.
    pub fn findings_of(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|finding| finding.severity == severity).count()
    }

    /// The report without its entries: what is kept when many records are audited.
    #[must_use]
    pub fn without_entries(self) -> Report {
        Report { entries: Vec::new(), ..self }
    }

    /// The greatest weight found; none when nothing was.
    pub fn worst(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }

    /// Whether nothing but notes was found.
    pub fn is_clean(&self) -> bool {
        self.worst().is_none_or(|worst| worst == Severity::Note)
    }
}

/// What the signatures of audit reports are made for: `audit@<domain>`.
pub fn namespace(domain: &str) -> String {
    format!("audit@{domain}")
}

/// Judges one record.
pub fn audit_record(subject: &Subject) -> Report {
    checks::run(subject)
}

/// Judges many records, on every core; the reports come in the order of the records.
pub fn audit_all(subjects: &[Subject]) -> Vec<Report> {
    subjects.par_iter().map(audit_record).collect()
}

/// How many records are judged before their reports are handed on.
const BLOCK: usize = 64;

/// Judges any number of records, on every core, and never holds more than a block of them.
///
/// `judge` reads and judges one by its name; `take` gets what it says in the order of the names.
///
/// # Errors
/// The first error of `judge`, in the order of the names; reports of earlier blocks are handed on.
pub fn audit_each<T: Send, E: Send>(
    names: &[String],
    judge: impl Fn(&str) -> Result<T, E> + Sync,
    mut take: impl FnMut(T),
) -> Result<(), E> {
    for block in names.chunks(BLOCK) {
        let judged: Vec<_> = block.par_iter().map(|name| judge(name)).collect();
        for one in judged {
            take(one?);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
