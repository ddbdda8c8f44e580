//! The audit of a plant's register, and of packets that say what was approved.
//!
//! [`audit_register`] turns what [`crate::register::judge`] found into findings and adds what only the
//! plant's files and the day can tell; [`drafts_used`] asks whether a signed packet was approved when
//! its first signature was given. Must never read a clock or a file.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::checks::{self, error, finding, in_future};
use super::{AuditFinding, Severity, ToldFinding, report};
use crate::language::{Language, Words};
use crate::packet::model::Approval;
use crate::packet::{self, Due, Packet, Prepared};
use crate::record::entry;
use crate::record::store::{RawEntry, RawRecord};
use crate::record::time;
use crate::register::draft::{Item, items};
use crate::register::{Entry, House, Judged, Kind, Register, Subject};

/// All that an audit has to say about a register.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RegisterReport {
    /// How many entries lie there.
    pub entries: usize,
    /// What the next entry has to name as `prev`: the digest to keep elsewhere.
    pub head: String,
    /// What was found.
    pub findings: Vec<AuditFinding>,
}

/// A report in a language, for programs.
#[derive(Debug, Serialize)]
pub struct ToldRegister<'r> {
    entries: usize,
    head: &'r str,
    findings: Vec<ToldFinding>,
}

impl RegisterReport {
    /// Whether nothing but notes was found.
    pub fn is_clean(&self) -> bool {
        self.findings.iter().all(|finding| finding.severity == Severity::Note)
    }

    /// The report in a language, for programs.
    pub fn told(&self, language: Language) -> ToldRegister<'_> {
        ToldRegister {
            entries: self.entries,
            head: &self.head,
            findings: self.findings.iter().map(|finding| finding.told(language)).collect(),
        }
    }

    /// The report as plain text, one line feed after each line.
    pub fn render(&self, language: Language) -> String {
        let of = |s: Severity| self.findings.iter().filter(|f| f.severity == s).count();
        let count = ("count", self.entries.into());
        let tail = [
            ("errors", of(Severity::Error).into()),
            ("warnings", of(Severity::Warning).into()),
            ("head", (&self.head).into()),
            count.clone(),
        ];
        let mut lines = vec![language.text("register-head", &[count])];
        lines.extend(report::finding_lines(&self.findings, language));
        lines.push(language.text("register-tail", &tail));
        lines.into_iter().map(|line| line + "\n").collect()
    }
}

/// Judges a plant's register; none when the plant keeps none and needs none.
///
/// With a time it says which entries are later, and which inspections are overdue.
pub fn audit_register(
    prepared: &Prepared,
    now: Option<DateTime<FixedOffset>>,
) -> Option<RegisterReport> {
    let raw = &prepared.plant.register;
    let house = packet::house(prepared.plant, &prepared.people);
    let is_needed = house.procedures.or(house.recipes).is_some();
    if raw == &RawRecord::default() && !is_needed {
        return None;
    }
    let mut findings = checks::Findings::default();
    checks::strays(raw, &mut findings);
    if raw.packet.is_some() {
        let parts = [("file", "packet.json".into())];
        findings.add(finding(Severity::Warning, Words::new("audit-stray-file", &parts)));
    }
    let Judged { entries, found, head, .. } = &prepared.register;
    let items = items(prepared.plant);
    for entry in entries {
        let own = found.iter().filter(|found| found.entry == entry.number);
        let own = own.map(|found| {
            let refusal = found.refusal.clone();
            let words = AuditFinding { code: refusal.code, ..error(refusal.words) };
            words.with(refusal.expected, refusal.found)
        });
        let said = entry.entry.as_ref();
        let late = said.and_then(|said| in_future(now?, time::parse(&said.at).ok()?));
        let facts = said.into_iter().flat_map(|said| of_plant(said, &items, prepared));
        own.chain(late).chain(facts).for_each(|one| findings.add(one.at(entry.number)));
    }
    changed(&prepared.register.register, &items).into_iter().for_each(|one| findings.add(one));
    if let Some(now) = now {
        let due = packet::inspections(prepared).into_iter();
        due.filter(|due| due.is_over(now.date_naive())).for_each(|due| findings.add(overdue(&due)));
    }
    Some(RegisterReport { entries: entries.len(), head: head.clone(), findings: findings.all })
}

/// What the plant's files do not have: worth knowing, since they may have had it then.
fn of_plant(entry: &Entry, items: &[Item], prepared: &Prepared) -> Vec<AuditFinding> {
    let mut found = Vec::new();
    let subject = entry.subject();
    let is_there = items.iter().any(|item| Some(&item.subject) == subject.as_ref());
    if subject.is_some() && !is_there {
        let parts = [("subject", (&entry.subject).into())];
        found.push(finding(Severity::Note, Words::new("register-subject-gone", &parts)));
    }
    if let Some(machine) = entry.machine.as_ref().filter(|id| !prepared.machines.contains_key(*id))
    {
        let parts = [("machine", machine.into())];
        found.push(finding(Severity::Note, Words::new("register-machine-gone", &parts)));
    }
    found
}

/// Texts whose last approval is of other bytes than they have today.
fn changed(register: &Register, items: &[Item]) -> Vec<AuditFinding> {
    let is_open = |item: &&Item| register.approval(&item.subject, &item.sha256).is_none();
    let changed = items.iter().filter(is_open).filter_map(|item| {
        let held = register.last_approval(&item.subject)?;
        let held = held.withdrawn.is_none().then_some(held)?;
        let parts = [("subject", (&held.entry.subject).into())];
        let note = finding(Severity::Note, Words::new("register-changed-since", &parts));
        Some(note.with(&*held.entry.sha256, &*item.sha256).at(held.entry.seq))
    });
    changed.collect()
}

fn overdue(due: &Due) -> AuditFinding {
    let procedure = ("procedure", (&due.procedure.front.id).into());
    let machine = ("machine", (&due.machine.file.body.id).into());
    let words = match due.due {
        None => Words::new("register-inspection-missing", &[procedure, machine]),
        Some(day) => {
            let day = ("day", day.to_string().into());
            Words::new("register-inspection-overdue", &[procedure, machine, day])
        }
    };
    finding(Severity::Warning, words)
}

/// What a signed packet was made from without an approval that counted when work by it began.
///
/// A packet says itself which approvals it had. One that says nothing is looked at only when it was
/// issued after the plant began to keep a register.
pub fn drafts_used(register: &Register, house: &House, raw: &RawRecord) -> Vec<AuditFinding> {
    let packet = raw.packet.as_deref().map(serde_json::from_slice::<Packet>);
    let (Some(Ok(packet)), Some(began)) = (packet, began(raw)) else { return Vec::new() };
    let claims = packet.approvals.iter().filter_map(|own| claim(register, &packet, own, began));
    let issued = time::parse(&packet.job.issued).ok();
    let is_kept = register.first().zip(issued).is_some_and(|(first, issued)| first <= issued);
    let is_named = |part: &str| {
        let own = packet.approvals.iter().map(|own| own.subject.as_str());
        // The language of a translation is no part of what the packet says of its procedures.
        own.into_iter().any(|own| own == part || part.ends_with('@') && own.starts_with(part))
    };
    let silent = parts(&packet, house).into_iter().filter(|part| is_kept && !is_named(part));
    let silent = silent.map(|part| draft_used(&part, Words::of("register-no-claim")));
    claims.chain(silent).collect()
}

/// When the first signature was given.
fn began(raw: &RawRecord) -> Option<DateTime<FixedOffset>> {
    let time = |raw: &RawEntry| time::parse(&entry::parse(&raw.json).ok()?.at).ok();
    raw.entries.iter().find_map(time)
}

/// Why an approval that a packet names did not count.
fn claim(
    register: &Register,
    packet: &Packet,
    own: &Approval,
    began: DateTime<FixedOffset>,
) -> Option<AuditFinding> {
    let held = register.get(own.entry).filter(|held| held.digest == own.digest);
    let why = match held {
        None => "register-claim-unknown",
        Some(held) if !says(&held.entry, own) => "register-claim-differs",
        Some(_) if !packet.sources.iter().any(|source| source.sha256 == own.sha256) => {
            "register-claim-elsewhere"
        }
        Some(held) if !register.counted(held, began) => "register-claim-not-then",
        Some(_) => return None,
    };
    let words = Words::new(why, &[("entry", own.entry.to_string().into())]);
    Some(draft_used(&own.subject, words))
}

fn says(entry: &Entry, own: &Approval) -> bool {
    entry.kind == Kind::Approved && entry.subject == own.subject && entry.sha256 == own.sha256
}

fn draft_used(subject: &str, why: Words) -> AuditFinding {
    let parts = [("subject", subject.into()), ("why", why.into())];
    AuditFinding { code: "draft-used", ..error(Words::new("register-draft-used", &parts)) }
}

/// How the subjects begin that a packet has to name.
fn parts(packet: &Packet, house: &House) -> Vec<String> {
    let recipes = [&packet.from, &packet.to].map(|own| Subject::Recipe(own.id.clone()));
    let recipes = recipes.into_iter().filter(|_| house.recipes.is_some());
    let mut parts: Vec<String> = recipes.map(|subject| subject.to_string()).collect();
    if house.procedures.is_some() {
        for procedure in &packet.procedures {
            let source = Subject::Procedure(procedure.id.clone()).to_string();
            if !procedure.translated_from.is_empty() {
                parts.push(format!("{source}@"));
            }
            parts.push(source);
        }
    }
    parts.sort();
    parts.dedup();
    parts
}
