//! The audit of a plant's register, and of packets that say what was approved.
//!
//! [`audit_register`] turns what [`crate::register::judge()`] found into findings and adds what only the
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
use crate::register::judge::Found;
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
        let own = found.iter().filter(|found| found.entry == entry.number).map(against);
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

/// What speaks against the register of a copy, by its entries alone.
pub fn audit_copy(judged: &Judged, now: DateTime<FixedOffset>) -> Vec<AuditFinding> {
    let found = judged.found.iter().map(against);
    let late = judged.entries.iter().filter_map(|entry| {
        let at = time::parse(&entry.entry.as_ref()?.at).ok()?;
        Some(in_future(now, at)?.at(entry.number))
    });
    found.chain(late).collect()
}

fn against(found: &Found) -> AuditFinding {
    let refusal = found.refusal.clone();
    let words = AuditFinding { code: refusal.code, ..error(refusal.words) };
    words.with(refusal.expected, refusal.found).at(found.entry)
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
    // Nothing is wrong with what was signed; and an audit of the same files says the same next year.
    finding(Severity::Note, words)
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

#[cfg(test)]
mod tests {
    use super::drafts_used;
    use crate::canonical;
    use crate::packet::Packet;
    use crate::packet::model::{Approval, SourceFile};
    use crate::record::fixture as record;
    use crate::record::store::RawRecord;
    use crate::register::entry::{Entry, Kind};
    use crate::register::{House, Register, fixture};

    const FROM: &str = "recipe:from";

    fn approval(seq: u64, subject: &str) -> Entry {
        Entry { seq, subject: subject.to_owned(), ..fixture::approval() }
    }

    /// A register that approves both recipes of the good packet, before work began.
    fn register() -> Vec<Entry> {
        let packet = record::packet();
        let subject = |id: &str| format!("recipe:{id}");
        vec![approval(1, &subject(&packet.from.id)), approval(2, &subject(&packet.to.id))]
    }

    /// The good record, whose packet names these entries.
    fn raw(named: &[Entry], change: impl Fn(&mut Packet)) -> RawRecord {
        let mut packet = record::packet();
        let sha256 = fixture::approval().sha256;
        packet.sources.push(SourceFile { path: "recipes/a.yaml".to_owned(), sha256 });
        packet.approvals = named.iter().map(named_approval).collect();
        change(&mut packet);
        RawRecord { packet: Some(canonical::line(&packet).unwrap()), ..record::raw() }
    }

    fn named_approval(entry: &Entry) -> Approval {
        Approval {
            subject: entry.subject.clone(),
            revision: entry.revision.clone(),
            sha256: entry.sha256.clone(),
            entry: entry.seq,
            digest: format!("digest {}", entry.seq),
            by: entry.name.clone(),
            at: entry.at.clone(),
        }
    }

    /// Why drafts were used, in the order found.
    #[track_caller]
    fn check(entries: &[Entry], raw: &RawRecord, expected: &[&str]) {
        let mut register = Register::default();
        for entry in entries {
            register.take(entry.clone(), format!("digest {}", entry.seq));
        }
        let people = fixture::people();
        let house = House { procedures: None, ..fixture::house(&people) };
        let found = drafts_used(&register, &house, raw);
        assert!(found.iter().all(|one| one.code == "draft-used"), "{found:?}");
        let why: Vec<String> = found.iter().map(|one| one.words.to_string()).collect();
        assert_eq!(why.len(), expected.len(), "{why:?}");
        for (why, expected) in why.iter().zip(expected) {
            assert!(why.contains(expected), "{why}");
        }
    }

    #[test]
    fn a_packet_whose_parts_were_approved_is_no_draft() {
        let all = register();
        check(&all, &raw(&all, |_| ()), &[]);
    }

    #[test]
    fn what_a_packet_says_of_its_approvals_is_not_believed() {
        let all = register();
        let good = raw(&all, |_| ());
        check(&all[..1], &good, &["no such entry 2"]);
        let forged = |packet: &mut Packet| packet.approvals[0].digest = "other".to_owned();
        check(&all, &raw(&all, forged), &["no such entry 1"]);
        let renamed = |packet: &mut Packet| packet.approvals[1].sha256 = "0".repeat(64);
        check(&all, &raw(&all, renamed), &["entry 2 of the register says something else"]);
        let elsewhere = |packet: &mut Packet| {
            packet.sources.pop();
        };
        let why = "approves bytes that the packet was not made from";
        check(&all, &raw(&all, elsewhere), &[why, why]);
    }

    #[test]
    fn an_approval_counts_when_work_begins_and_not_only_before_or_after() {
        let all = register();
        let mut late = all.clone();
        late[1].at = "2026-11-27T08:00:00+01:00".to_owned();
        check(&late, &raw(&all, |_| ()), &["entry 2 did not count yet"]);
        let withdrawal = |at: &str| {
            let kind = Kind::Withdrawn;
            Entry { seq: 3, kind, withdraws: Some(1), at: at.to_owned(), ..all[0].clone() }
        };
        let good = raw(&all, |_| ());
        let before = [all.clone(), vec![withdrawal("2026-11-25T08:00:00+01:00")]].concat();
        check(&before, &good, &["entry 1 did not count"]);
        let after = [all.clone(), vec![withdrawal("2026-11-28T08:00:00+01:00")]].concat();
        check(&after, &good, &[]);
    }

    #[test]
    fn a_packet_that_says_nothing_is_asked_once_there_is_a_register() {
        let all = register();
        let silent = raw(&[], |_| ());
        check(&all, &silent, &["names no approval", "names no approval"]);
        let half = raw(&all[..1], |_| ());
        check(&all, &half, &["names no approval"]);
        check(&[], &silent, &[]);
        let mut later = approval(1, FROM);
        later.at = "2026-11-27T08:00:00+01:00".to_owned();
        check(&[later], &silent, &[]);
    }
}
