//! From an audit to what its report says.

use super::lines;
use crate::audit::sheet::{Audit, machine_words};
use crate::audit::{AuditFinding, Report, Severity};
use crate::finding::show::Located;
use crate::history::drift::Question;
use crate::language::Language;
use crate::page::auditor::{AuditView, FoundView, HeadView, audit_html};
use crate::page::proof::{self, Signature};
use crate::page::site::{Fact, Link, QuestionView, State, Tone};
use crate::page::words;

/// Who signs the report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Auditor {
    /// The principal.
    pub by: String,
    /// What the signature is made for.
    pub namespace: String,
    /// `SHA256:...` of the key.
    pub fingerprint: String,
    /// The key as it stands in a list of signers.
    pub key: String,
    /// Name of the report's file.
    pub file: String,
}

impl Auditor {
    /// The command that checks the signature, made at this time.
    pub fn verify_command(&self, time: &str) -> String {
        let signature = format!("{}.sig", self.file);
        proof::verify_command(&Signature {
            file: &self.file,
            signature: &signature,
            principal: &self.by,
            namespace: &self.namespace,
            time,
        })
    }

    /// The line that a list of signers needs for it.
    fn line(&self) -> String {
        format!("{} namespaces=\"{}\" {}", self.by, self.namespace, self.key)
    }
}

/// What is said beside what the audit found.
#[derive(Debug, Clone, Copy, Default)]
pub struct Remarks<'a> {
    /// What the list of signers was refused for.
    pub refused: &'a [Located<'a>],
    /// What counts over the records ask: no findings.
    pub questions: &'a [Question],
}

/// The report of an audit as a page.
pub fn html(
    audit: &Audit,
    remarks: &Remarks,
    auditor: Option<&Auditor>,
    language: Language,
) -> String {
    audit_html(&view(audit, remarks, auditor, language))
}

fn view(
    audit: &Audit,
    &Remarks { refused, questions }: &Remarks,
    auditor: Option<&Auditor>,
    language: Language,
) -> AuditView {
    let moment = words::moment(language, &audit.at);
    AuditView {
        language,
        plant: audit.plant.clone(),
        outcome: outcome(audit.is_clean() && refused.is_empty(), language),
        head: head(audit, auditor, &moment, language),
        day: words::date(language, audit.at.get(..10).unwrap_or_default()),
        moment,
        plan: plan(audit, language),
        chosen: audit.chosen.names.clone(),
        summary: summary(audit, language),
        rules: rules(audit, language),
        machines: machines(audit, language),
        records: audit.reports.iter().map(|report| record(report, language)).collect(),
        logs: logs(audit),
        findings: findings(audit, refused, language),
        questions: questions.iter().map(|one| question(one, language)).collect(),
        signer: auditor.map(Auditor::line).unwrap_or_default(),
        command: auditor.map(|own| own.verify_command(&audit.at)).unwrap_or_default(),
    }
}

/// A question without a way to its procedure: the report is one file.
pub(super) fn question(one: &Question, language: Language) -> QuestionView {
    QuestionView {
        place: Link::new(one.place().shown(language), ""),
        words: one.words().shown(language),
        means: one.means().shown(language),
    }
}

fn outcome(is_clean: bool, language: Language) -> State {
    let (key, tone) = match is_clean {
        true => ("auditing-clean", Tone::Good),
        false => ("auditing-not-clean", Tone::Bad),
    };
    State { word: language.word(key).to_owned(), tone }
}

fn head(audit: &Audit, auditor: Option<&Auditor>, moment: &str, language: Language) -> Vec<Fact> {
    let fact = |key, value: &str| Fact::new(language.word(key), value);
    let by = match auditor {
        Some(own) => format!("{} ({})", own.by, own.fingerprint),
        None => language.word("auditing-unsigned").to_owned(),
    };
    let mut head = vec![
        fact("auditing-by", &by),
        fact("auditing-moment", moment),
        fact("auditing-plant", &format!("{} ({})", audit.plant, audit.domain)),
        fact("auditing-program", &audit.program),
    ];
    if !audit.signers.is_empty() {
        head.push(fact("auditing-signers", &audit.signers));
    }
    head
}

fn plan(audit: &Audit, language: Language) -> Vec<String> {
    let mut plan: Vec<String> =
        audit.plan.words().iter().map(|words| words.shown(language)).collect();
    let chosen = &audit.chosen;
    let parts = [
        ("of", chosen.of.to_string().into()),
        ("fit", chosen.fit.to_string().into()),
        ("count", chosen.names.len().to_string().into()),
    ];
    plan.push(language.text("auditing-extent", &parts));
    if !chosen.unclear.is_empty() {
        let names = chosen.unclear.join(", ");
        plan.push(language.text("auditing-unclear", &[("names", names.into())]));
    }
    plan.extend(audit.judged_by.iter().map(|by| by.shown(language)));
    plan
}

fn summary(audit: &Audit, language: Language) -> Vec<Fact> {
    let own = &audit.summary;
    let counts = [
        ("auditing-records", own.records),
        ("auditing-entries", own.entries),
        ("auditing-errors", own.errors),
        ("auditing-warnings", own.warnings),
        ("auditing-notes", own.notes),
    ];
    let counts = counts.map(|(key, count)| Fact::new(language.word(key), count.to_string()));
    let beside = audit.beside().map(|counts| {
        Fact::new(language.word("auditing-register-and-logs"), counts.words().shown(language))
    });
    counts.into_iter().chain(beside).collect()
}

fn rules(audit: &Audit, language: Language) -> Vec<[String; 4]> {
    let row = |(code, own): (&&str, &crate::audit::sheet::OfRule)| {
        let word = own.severity.words().shown(language);
        [(*code).to_owned(), word, own.findings.to_string(), own.records.to_string()]
    };
    audit.summary.rules.iter().map(row).collect()
}

fn machines(audit: &Audit, language: Language) -> Vec<[String; 5]> {
    let row = |(id, own): (&String, &crate::audit::sheet::OfMachine)| {
        let counts = [own.records, own.entries, own.errors, own.warnings];
        let [records, entries, errors, warnings] = counts.map(|count| count.to_string());
        [machine_words(id).shown(language), records, entries, errors, warnings]
    };
    audit.summary.machines.iter().map(row).collect()
}

fn record(report: &Report, language: Language) -> HeadView {
    let machine = report.machine.as_deref().unwrap_or_default();
    HeadView {
        name: report.job.clone(),
        machine: machine_words(machine).shown(language),
        state: lines::state(language, report),
        entries: report.count.to_string(),
        head: report.head.clone(),
        packet: report.packet.clone().unwrap_or_default(),
    }
}

fn logs(audit: &Audit) -> Vec<[String; 3]> {
    let short = |log: &crate::audit::log::LogReport| {
        log.newest.as_ref().map(|newest| newest.short.clone()).unwrap_or_default()
    };
    let logs = audit.logs.iter();
    logs.map(|log| [log.machine.clone(), log.leaves.to_string(), short(log)]).collect()
}

/// Every finding: those of the list of signers, the register, the logs, and record by record.
fn findings(audit: &Audit, refused: &[Located], language: Language) -> Vec<FoundView> {
    let mut found: Vec<FoundView> = refused.iter().map(|one| of_list(one, language)).collect();
    for stray in &audit.strays {
        let message = language.text("cli-no-record", &[("name", stray.into())]);
        let word = Severity::Warning.words().shown(language);
        found.push(FoundView { severity: "warning", word, message, ..FoundView::default() });
    }
    let of = |place: String, own: &[AuditFinding]| {
        own.iter().map(|one| of_audit(&place, one, language)).collect::<Vec<_>>()
    };
    if let Some(register) = &audit.register {
        found.extend(of(language.word("auditing-register").to_owned(), &register.findings));
    }
    for log in &audit.logs {
        let place = language.text("auditing-log", &[("machine", (&log.machine).into())]);
        found.extend(of(place, &log.findings));
    }
    for report in &audit.reports {
        let place = language.text("audit-place", &[("job", (&report.job).into())]);
        found.extend(of(place, &report.findings));
    }
    found
}

fn of_list(one: &Located, language: Language) -> FoundView {
    let (severity, word) = match one.severity {
        crate::finding::Severity::Error => ("error", Severity::Error),
        crate::finding::Severity::Warning => ("warning", Severity::Warning),
    };
    FoundView {
        severity,
        word: word.words().shown(language),
        rule: one.rule.to_owned(),
        place: format!("{}:{}", one.file, one.line),
        message: one.message.clone(),
    }
}

fn of_audit(place: &str, one: &AuditFinding, language: Language) -> FoundView {
    let told = one.told(language);
    let mut message = told.words;
    if !told.expected.is_empty() || !told.found.is_empty() {
        let parts = [("expected", told.expected.into()), ("found", told.found.into())];
        message = format!("{message} {}", language.text("audit-compared", &parts));
    }
    let entry =
        one.entry.map(|entry| language.text("audit-entry", &[("entry", entry.to_string().into())]));
    FoundView {
        severity: one.severity.word(),
        word: one.severity.words().shown(language),
        rule: one.code.to_owned(),
        place: entry.map_or(place.to_owned(), |entry| format!("{place}, {entry}")),
        message,
    }
}
