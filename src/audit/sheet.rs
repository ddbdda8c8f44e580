//! A whole audit as one value: who, when, with what, by which plan, over which heads, and what was
//! found.
//!
//! Pages, JSON and the terminal take from here what they say. Must never hold a record's entries for
//! their own sake, nor judge anything.

use std::collections::BTreeMap;

use serde::Serialize;

use super::log::{LogReport, ToldLog};
use super::register::{RegisterReport, ToldRegister};
use super::sample::{Chosen, Plan};
use super::{Report, Severity, ToldReport};
use crate::finding::show::Located;
use crate::language::{Language, Words};

/// An audit of the records of a plant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Audit {
    /// Name and version of the program.
    pub program: String,
    /// When, RFC 3339.
    pub at: String,
    /// Name of the plant.
    pub plant: String,
    /// Its domain.
    pub domain: String,
    /// SHA-256 of the plant's list of signers; empty where each record came with its own.
    pub signers: String,
    /// What was to be looked at.
    pub plan: Plan,
    /// The records looked at.
    pub chosen: Chosen,
    /// Names among the records that are no record.
    pub strays: Vec<String>,
    /// Counts.
    pub summary: Summary,
    /// What was found, record by record, in the order of names.
    pub reports: Vec<Report>,
    /// The logs of machines, where they were looked at.
    pub logs: Vec<LogReport>,
    /// The register of approvals and inspections, where there is one and it was looked at.
    pub register: Option<RegisterReport>,
    /// What records that came without a plant were judged by.
    pub judged_by: Vec<Words>,
}

/// What was found, counted.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Summary {
    /// Records looked at.
    pub records: usize,
    /// Records with an error or a warning.
    pub bad: usize,
    /// Their entries.
    pub entries: usize,
    /// Errors.
    pub errors: usize,
    /// Warnings.
    pub warnings: usize,
    /// Notes.
    pub notes: usize,
    /// By rule.
    pub rules: BTreeMap<&'static str, OfRule>,
    /// By machine; records whose machine cannot be told stand under an empty name.
    pub machines: BTreeMap<String, OfMachine>,
}

/// Findings by one rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct OfRule {
    /// The greatest weight.
    pub severity: Severity,
    /// How many.
    pub findings: usize,
    /// In how many records.
    pub records: usize,
}

/// Records of one machine.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct OfMachine {
    /// How many.
    pub records: usize,
    /// Their entries.
    pub entries: usize,
    /// Errors.
    pub errors: usize,
    /// Warnings.
    pub warnings: usize,
}

impl Summary {
    /// Counts records.
    pub fn of(reports: &[Report]) -> Summary {
        let mut summary = Summary::default();
        reports.iter().for_each(|report| summary.add(report));
        summary
    }

    /// Counts a record in.
    pub fn add(&mut self, report: &Report) {
        let of = |severity| report.findings_of(severity);
        let (errors, warnings) = (of(Severity::Error), of(Severity::Warning));
        self.records += 1;
        self.bad += usize::from(!report.is_clean());
        self.entries += report.count;
        self.errors += errors;
        self.warnings += warnings;
        self.notes += of(Severity::Note);
        self.add_rules(report);
        let machine = self.machines.entry(report.machine.clone().unwrap_or_default()).or_default();
        machine.records += 1;
        machine.entries += report.count;
        machine.errors += errors;
        machine.warnings += warnings;
    }

    fn add_rules(&mut self, report: &Report) {
        let mut own: BTreeMap<&'static str, OfRule> = BTreeMap::new();
        for finding in &report.findings {
            let nothing = OfRule { severity: finding.severity, findings: 0, records: 1 };
            let rule = own.entry(finding.code).or_insert(nothing);
            rule.findings += 1;
            rule.severity = rule.severity.max(finding.severity);
        }
        for (code, own) in own {
            let nothing = OfRule { severity: own.severity, findings: 0, records: 0 };
            let rule = self.rules.entry(code).or_insert(nothing);
            rule.findings += own.findings;
            rule.records += own.records;
            rule.severity = rule.severity.max(own.severity);
        }
    }
}

/// What was found in what is no record: the register and the logs.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Beside {
    /// Errors.
    pub errors: usize,
    /// Warnings.
    pub warnings: usize,
    /// Notes.
    pub notes: usize,
}

impl Beside {
    /// All of them.
    pub fn findings(self) -> usize {
        self.errors + self.warnings + self.notes
    }

    /// The counts, for people.
    pub fn words(self) -> Words {
        let parts = [
            ("errors", self.errors.into()),
            ("warnings", self.warnings.into()),
            ("notes", self.notes.into()),
        ];
        Words::new("auditing-counts", &parts)
    }
}

/// An audit in a language, for programs.
#[derive(Debug, Serialize)]
pub struct ToldAudit<'a> {
    program: &'a str,
    at: &'a str,
    plant: &'a str,
    domain: &'a str,
    signers: &'a str,
    plan: &'a Plan,
    chosen: &'a Chosen,
    summary: &'a Summary,
    #[serde(skip_serializing_if = "Option::is_none")]
    beside: Option<Beside>,
    strays: &'a [String],
    records: Vec<ToldReport<'a>>,
    logs: Vec<ToldLog<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    register: Option<ToldRegister<'a>>,
    refused_signers: &'a [Located<'a>],
}

impl Audit {
    /// The audit in a language, for programs, with what the list of signers was refused for.
    pub fn told<'a>(&'a self, refused: &'a [Located<'a>], language: Language) -> ToldAudit<'a> {
        ToldAudit {
            program: &self.program,
            at: &self.at,
            plant: &self.plant,
            domain: &self.domain,
            signers: &self.signers,
            plan: &self.plan,
            chosen: &self.chosen,
            summary: &self.summary,
            beside: self.beside(),
            strays: &self.strays,
            records: self.reports.iter().map(|report| report.told(language)).collect(),
            logs: self.logs.iter().map(|log| log.told(language)).collect(),
            register: self.register.as_ref().map(|register| register.told(language)),
            refused_signers: refused,
        }
    }

    /// Whether nothing but notes was found.
    pub fn is_clean(&self) -> bool {
        self.summary.bad == 0
            && self.strays.is_empty()
            && self.logs.iter().all(LogReport::is_clean)
            && self.register.as_ref().is_none_or(RegisterReport::is_clean)
    }

    /// What was found in the register and the logs; none where neither was looked at.
    pub fn beside(&self) -> Option<Beside> {
        if self.logs.is_empty() && self.register.is_none() {
            return None;
        }
        let logs = self.logs.iter().flat_map(|log| &log.findings);
        let register = self.register.iter().flat_map(|register| &register.findings);
        let mut counts = Beside::default();
        for finding in logs.chain(register) {
            match finding.severity {
                Severity::Error => counts.errors += 1,
                Severity::Warning => counts.warnings += 1,
                Severity::Note => counts.notes += 1,
            }
        }
        Some(counts)
    }

    /// What was looked at, by machine and by rule, a line each.
    pub fn lines(&self, language: Language) -> Vec<String> {
        let mut lines = vec![self.extent(language)];
        if self.summary.machines.len() > 1 {
            lines.extend(
                self.summary.machines.iter().map(|(id, own)| of_machine(id, own, language)),
            );
        }
        lines.extend(self.summary.rules.iter().map(|(code, own)| of_rule(code, own, language)));
        lines.extend(
            self.beside().map(|counts| {
                language.text("auditing-beside", &[("counts", counts.words().into())])
            }),
        );
        lines
    }

    /// How many records of how many were looked at, and by which plan.
    fn extent(&self, language: Language) -> String {
        let plan: Vec<String> = self.plan.words().iter().map(|one| one.shown(language)).collect();
        let parts = [
            ("count", self.chosen.names.len().into()),
            ("of", self.chosen.of.to_string().into()),
            ("plan", plan.join("; ").into()),
        ];
        let mut text = language.text("auditing-looked-at", &parts);
        if !self.chosen.unclear.is_empty() {
            let names = self.chosen.unclear.join(", ");
            text += "; ";
            text += &language.text("auditing-unclear", &[("names", names.into())]);
        }
        text
    }
}

/// The name of a machine, or that it cannot be told.
pub fn machine_words(id: &str) -> Words {
    if id.is_empty() { Words::of("auditing-no-machine") } else { id.into() }
}

fn of_machine(id: &str, own: &OfMachine, language: Language) -> String {
    let counts = [
        ("cli-records", own.records),
        ("cli-entries", own.entries),
        ("cli-errors", own.errors),
        ("cli-warnings", own.warnings),
    ];
    let counts = counts.map(|(key, count)| language.text(key, &[("count", count.into())]));
    format!("{}: {}", machine_words(id).shown(language), counts.join(", "))
}

fn of_rule(code: &str, own: &OfRule, language: Language) -> String {
    let parts = [("count", own.findings.into()), ("records", own.records.into())];
    let severity = own.severity.words().shown(language);
    format!("{severity}[{code}]: {}", language.text("auditing-of-rule", &parts))
}

#[cfg(test)]
mod tests {
    use super::{Summary, machine_words};
    use crate::audit::{AuditFinding, Report, Severity};
    use crate::language::{Language, Words};

    fn report(machine: Option<&str>, count: usize, found: &[(&'static str, Severity)]) -> Report {
        let finding = |&(code, severity): &(&'static str, Severity)| AuditFinding {
            code,
            severity,
            entry: None,
            expected: Words::foreign(""),
            found: Words::foreign(""),
            words: Words::foreign(""),
            way_out: None,
        };
        Report {
            job: "J-1".to_owned(),
            machine: machine.map(str::to_owned),
            packet: None,
            head: String::new(),
            state: None,
            missing: Vec::new(),
            becomes: None,
            count,
            span: None,
            entries: Vec::new(),
            findings: found.iter().map(finding).collect(),
        }
    }

    #[test]
    fn findings_are_counted_by_rule_and_by_machine() {
        let (note, error) = (("not-released", Severity::Note), ("fork", Severity::Error));
        let summary = Summary::of(&[
            report(Some("stick"), 12, &[note]),
            report(Some("stick"), 3, &[error, error, ("stray-file", Severity::Warning)]),
            report(None, 1, &[note, error]),
        ]);
        let Summary { records, bad, entries, errors, warnings, notes, .. } = summary;
        assert_eq!((records, bad, entries), (3, 2, 16));
        assert_eq!((errors, warnings, notes), (3, 1, 2));
        let fork = summary.rules["fork"];
        assert_eq!((fork.severity, fork.findings, fork.records), (Severity::Error, 3, 2));
        let stick = summary.machines["stick"];
        assert_eq!((stick.records, stick.entries, stick.errors, stick.warnings), (2, 15, 2, 1));
        assert_eq!(summary.machines[""].records, 1);
        let unknown = machine_words("").shown(Language::English);
        assert_eq!(unknown, "machine cannot be told");
    }
}
