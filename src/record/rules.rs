//! Which entry may come next: every rule once, asked before signing and asked again by the audit.
//!
//! Each rule is one function; its words and its way out stand under its name among the refusals. Must never change anything and
//! never stop at the first answer: whoever asks gets all reasons.

use std::collections::BTreeSet;

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::Serialize;

use super::decimal;
use super::entry::{Entry, Kind, Taken, Verdict, shown};
use super::people::People;
use super::signature;
use super::state::{Ledger, Missing};
use super::time;
use super::trust::{NoKey, Revoked, TrustList, TrustedKey, why_none};
use crate::language::{Language, Part, Words};
use crate::packet::Packet;
use crate::packet::model::{
    EnergyState, Meaning, Member, Reading, SHIFT_CHANGE, Sign, Stage, Step,
};

/// Why an entry may not come next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// Short name of the rule.
    pub code: &'static str,
    /// What should be; may be empty.
    pub expected: Words,
    /// What is; may be empty.
    pub found: Words,
    /// What is wrong, and under `way-out` what to do about it.
    pub words: Words,
}

/// A refusal in a language.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Told {
    /// Short name of the rule.
    pub code: &'static str,
    /// What should be; may be empty.
    pub expected: String,
    /// What is; may be empty.
    pub found: String,
    /// What is wrong, for people.
    pub words: String,
    /// What to do about it.
    pub way_out: String,
}

impl Refusal {
    /// A refusal whose text stands under `refusal-` and its code.
    pub(crate) fn new(key: &'static str, parts: &[(&'static str, Part)]) -> Self {
        Refusal::coded(key.trim_start_matches("refusal-"), Words::new(key, parts))
    }

    /// A refusal by a rule that has several texts.
    pub(crate) fn coded(code: &'static str, words: Words) -> Self {
        let nothing = || Words::foreign("");
        Refusal { code, expected: nothing(), found: nothing(), words }
    }

    /// What should be, and what is.
    pub(crate) fn with(mut self, expected: impl Into<Words>, found: impl Into<Words>) -> Self {
        (self.expected, self.found) = (expected.into(), found.into());
        self
    }

    /// The refusal in a language.
    pub fn told(&self, language: Language) -> Told {
        Told {
            code: self.code,
            expected: self.expected.shown(language),
            found: self.found.shown(language),
            words: self.words.shown(language),
            way_out: self.words.way_out().shown(language),
        }
    }
}

/// A refusal whose text stands under `entries-` and its code.
fn of_entries(key: &'static str, parts: &[(&'static str, Part)]) -> Refusal {
    Refusal::coded(key.trim_start_matches("entries-"), Words::new(key, parts))
}

/// Everything that speaks against an entry coming next.
///
/// `digest` is the packet's; `key` names the key that signs, empty when that is not known.
pub(crate) fn check(
    ledger: &Ledger,
    digest: &str,
    people: &People,
    entry: &Entry,
    key: &str,
) -> Vec<Refusal> {
    let mut found = frame(ledger, digest, entry);
    let at = time::parse(&entry.at).ok();
    if let Some(at) = at {
        found.extend(times(ledger, at));
    }
    found.extend(person(people, entry, at.map(|at| at.date_naive())));
    found.extend(ledger.closed.map(|(seq, kind)| after_closing(seq, kind)));
    let Some((index, step)) = ledger.step(&entry.step) else {
        found.push(unknown_step(ledger, &entry.step));
        return found;
    };
    if let Some(why) = step.stays.as_ref().filter(|_| is_work(entry.kind)) {
        found.push(step_stays(step, why));
        return found;
    }
    let ask = Ask { ledger, index, step, entry, key };
    match entry.kind {
        Kind::Reading => found.extend(ask.reading(at.map(|at| at.date_naive()))),
        Kind::DeviationAccepted => found.extend(ask.acceptance()),
        Kind::Performed => found.extend(ask.performed()),
        Kind::Verified => found.extend(ask.verified()),
        Kind::Released => found.extend(ask.released()),
        Kind::DeviationRaised => found.extend(ask.raised()),
        Kind::Withdrawn => found.extend(ask.withdrawn()),
        Kind::Abandoned | Kind::Superseded => found.extend(ask.closed()),
    }
    found
}

/// Whether a kind says that a step was worked on; a step that stays may still deviate.
fn is_work(kind: Kind) -> bool {
    matches!(kind, Kind::Reading | Kind::Performed | Kind::Verified | Kind::Released)
}

/// Nobody signs for work by a text that is still being written.
pub fn check_draft(packet: &Packet) -> Option<Refusal> {
    let files = packet.drafts.join(", ");
    (!files.is_empty()).then(|| {
        let parts = [("job", (&packet.job.id).into()), ("files", files.into())];
        Refusal::new("refusal-draft-packet", &parts)
    })
}

/// The key is one of the person named, listed for this purpose, at that time (when that is known).
pub fn check_signer(
    trust: &TrustList,
    by: &str,
    key: &[u8; 32],
    namespace: &str,
    at: Option<DateTime<FixedOffset>>,
) -> Option<Refusal> {
    let lines = trust.lines_of(key);
    let Some(line) = lines.first() else {
        return Some(signer_unlisted(by, &signature::fingerprint(key)));
    };
    if line.principal != by {
        return Some(signer_differs(by, &line.principal));
    }
    if let Some(revoked) = at.and_then(|at| trust.revoked(&line.fingerprint, at)) {
        return Some(key_revoked(revoked, at));
    }
    let has_purpose = |line: &&TrustedKey| line.namespaces.iter().any(|own| own == namespace);
    let for_this: Vec<_> = lines.iter().copied().filter(has_purpose).collect();
    if for_this.is_empty() {
        return Some(key_namespace(namespace, &line.namespaces.join(", ")));
    }
    let at = at.filter(|at| !for_this.iter().any(|line| line.covers(*at)))?;
    why_none(&for_this, at).map(|why| key_not_valid(&why, at))
}

fn signer_unlisted(by: &str, key: &str) -> Refusal {
    Refusal::new("refusal-signer-unlisted", &[]).with(shown(by), key)
}

fn signer_differs(by: &str, owner: &str) -> Refusal {
    Refusal::new("refusal-signer-differs", &[]).with(shown(by), owner)
}

fn key_namespace(namespace: &str, listed: &str) -> Refusal {
    Refusal::new("refusal-key-namespace", &[]).with(namespace, listed)
}

fn key_revoked(revoked: &Revoked, at: Option<DateTime<FixedOffset>>) -> Refusal {
    let parts = [("from", time::write(revoked.from).into()), ("why", shown(&revoked.why).into())];
    Refusal::new("refusal-key-revoked", &parts).with("", at.map_or(String::new(), time::write))
}

fn key_not_valid(why: &NoKey, at: DateTime<FixedOffset>) -> Refusal {
    let (key, bound) = match why {
        NoKey::NotYet(from) => ("refusal-key-not-yet-valid", or_later(utc(*from))),
        NoKey::Ended(until) => ("refusal-key-expired", or_earlier(utc(*until))),
    };
    Refusal::new(key, &[]).with(bound, time::write(at))
}

fn or_later(time: String) -> Words {
    Words::new("refusal-or-later", &[("time", time.into())])
}

/// This time, or one before it.
pub(crate) fn or_earlier(time: String) -> Words {
    Words::new("refusal-or-earlier", &[("time", time.into())])
}

fn utc(seconds: i64) -> String {
    DateTime::from_timestamp(seconds, 0)
        .map_or_else(|| seconds.to_string(), |time| time::write(time.fixed_offset()))
}

/// The entry belongs to this job, machine and packet.
fn frame(ledger: &Ledger, digest: &str, entry: &Entry) -> Vec<Refusal> {
    let packet = ledger.packet;
    let pairs = [
        ("refusal-job-differs", packet.job.id.as_str(), &entry.job),
        ("refusal-machine-differs", &packet.machine.id, &entry.machine),
        ("refusal-packet-differs", digest, &entry.packet),
    ];
    let differs = pairs.into_iter().filter(|(_, own, other)| own != other);
    let differs = differs.map(|(key, own, other)| Refusal::new(key, &[]).with(own, shown(other)));
    differs.chain(version_back(ledger.version, entry.v)).collect()
}

/// A record goes on in the version it has reached, or somebody could step back behind a newer rule.
fn version_back(reached: u32, v: u32) -> Option<Refusal> {
    (v < reached).then(|| {
        let parts = [("version", v.to_string().into()), ("reached", reached.to_string().into())];
        of_entries("entries-version-back", &parts)
    })
}

fn times(ledger: &Ledger, at: DateTime<FixedOffset>) -> Vec<Refusal> {
    let mut found = Vec::new();
    if let Some(last) = ledger.last.filter(|last| at < *last) {
        found.push(time_backwards(last, at));
    }
    if let Some(issued) = ledger.issued.filter(|issued| at < *issued) {
        found.push(before_packet(issued, at));
    }
    found
}

/// The clock stands before the last entry on record.
pub(crate) fn clock_behind(last: &Entry, now: DateTime<FixedOffset>) -> Option<Refusal> {
    let last = time::parse(&last.at).ok()?;
    (now < last).then(|| time_backwards(last, now))
}

pub(crate) fn time_backwards(last: DateTime<FixedOffset>, at: DateTime<FixedOffset>) -> Refusal {
    let seconds = (last - at).num_seconds().to_string();
    Refusal::new("refusal-time-backwards", &[("seconds", seconds.into())])
        .with(or_later(time::write(last)), time::write(at))
}

fn before_packet(issued: DateTime<FixedOffset>, at: DateTime<FixedOffset>) -> Refusal {
    Refusal::new("refusal-before-packet", &[]).with(or_later(time::write(issued)), time::write(at))
}

fn after_closing(seq: u64, kind: Kind) -> Refusal {
    let parts = [("entry", seq.to_string().into())];
    match kind {
        Kind::Abandoned => of_entries("entries-after-abandoned", &parts),
        Kind::Superseded => of_entries("entries-after-superseded", &parts),
        _ => Refusal::new("refusal-after-release", &parts),
    }
}

fn person(people: &People, entry: &Entry, day: Option<NaiveDate>) -> Vec<Refusal> {
    let Some(person) = people.get(&entry.by) else { return vec![person_unknown(&entry.by)] };
    let mut found = Vec::new();
    if person.name != entry.name {
        found.push(name_differs(&person.name, &entry.name));
    }
    if let Some(day) = day.filter(|day| !person.holds(&entry.role, *day)) {
        found.push(role_not_held(&person.name, &entry.role, day));
    }
    found
}

pub(crate) fn person_unknown(by: &str) -> Refusal {
    Refusal::new("refusal-person-unknown", &[("by", shown(by).into())]).with("", shown(by))
}

pub(crate) fn name_differs(name: &str, other: &str) -> Refusal {
    Refusal::new("refusal-name-differs", &[]).with(shown(name), shown(other))
}

pub(crate) fn role_not_held(name: &str, role: &str, day: NaiveDate) -> Refusal {
    let parts = [("name", name.into()), ("role", role.into()), ("day", day.to_string().into())];
    Refusal::new("refusal-role-not-held", &parts).with(role, "")
}

pub(crate) fn unknown_step(ledger: &Ledger, id: &str) -> Refusal {
    let ids = ledger.packet.steps.iter().map(|step| step.id.as_str());
    let way_out = nearest(id, ids).map_or(Words::of("refusal-step-of-packet"), did_you_mean);
    Refusal::new("refusal-step-unknown", &[("step", shown(id).into()), ("remedy", way_out.into())])
}

pub(crate) fn unknown_blank(ledger: &Ledger, id: &str) -> Refusal {
    let near = nearest(id, ledger.blank_ids());
    let way_out = near.map_or(Words::of("refusal-blank-of-packet"), did_you_mean);
    let parts = [("blank", shown(id).into()), ("remedy", way_out.into())];
    Refusal::new("refusal-blank-unknown", &parts)
}

fn did_you_mean(name: &str) -> Words {
    Words::new("refusal-nearest", &[("name", name.into())])
}

/// The name with the fewest letters to change, if those are few.
fn nearest<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    let name: String = name.chars().take(200).collect();
    let most = (name.chars().count() / 3).max(2);
    known
        .map(|other| (strsim::levenshtein(&name, other), other))
        .filter(|(distance, _)| *distance <= most)
        .min()
        .map(|(_, other)| other)
}

fn step_stays(step: &Step, why: &str) -> Refusal {
    Refusal::new("refusal-step-stays", &[("step", named(step).into()), ("why", why.into())])
}

/// An entry with its step looked up.
struct Ask<'a, 'p> {
    ledger: &'a Ledger<'p>,
    index: usize,
    step: &'p Step,
    entry: &'a Entry,
    key: &'a str,
}

impl Ask<'_, '_> {
    fn reading(&self, day: Option<NaiveDate>) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.order());
        found.extend(self.personal_lock());
        let Some(taken) = &self.entry.reading else { return found };
        let Some((index, blank)) = self.ledger.blank(&taken.blank) else {
            found.push(unknown_blank(self.ledger, &taken.blank));
            return found;
        };
        if index != self.index {
            found.push(blank_elsewhere(blank, self.step));
        }
        let signs = signs_of(self.step, &blank.id);
        if !signs.iter().any(|sign| sign.role == self.entry.role) {
            found.push(role_not_asked(self.step, &signs, &self.entry.role));
        }
        found.extend(judged(blank, taken));
        found.extend(instrument(blank, taken, day));
        found.extend(self.correction(taken));
        found
    }

    fn correction(&self, taken: &Taken) -> Option<Refusal> {
        let latest = self.ledger.latest.get(taken.blank.as_str()).map(|latest| latest.seq);
        match (self.entry.corrects, latest) {
            (None, Some(seq)) => Some(reading_twice(&taken.blank, seq)),
            (Some(target), latest) if latest != Some(target) => {
                Some(correction_target(&taken.blank, target, latest))
            }
            _ => None,
        }
    }

    fn acceptance(&self) -> Vec<Refusal> {
        let role = self.ledger.packet.accepts(self.step);
        let other = role.filter(|role| *role != self.entry.role);
        let mut found = Vec::from_iter(other.map(|role| acceptance_role(role, &self.entry.role)));
        let Some(target) = self.entry.accepts else { return found };
        let raised = self.ledger.raised.get(&target);
        let reading = raised.map_or(Some(target), |raised| raised.concerns);
        let noted = reading.and_then(|reading| self.ledger.readings.get(&reading));
        let own = |blank: &&Reading| noted.is_some_and(|noted| noted.blank == blank.id);
        let blank = self.step.readings.iter().find(own);
        let is_final = blank.is_some_and(|blank| self.step.is_never_accepted(blank));
        if is_final || role.is_none() {
            found.push(never_accepted(self.step));
        }
        let why = match (raised, reading) {
            (Some(raised), _) if raised.step != self.step.id => Some("refusal-accept-elsewhere"),
            (Some(_), None) => None,
            (_, reading) => self.not_deviating(reading.unwrap_or_default()),
        };
        found.extend(why.map(|why| acceptance_target(target, why)));
        if let Some(seq) = self.ledger.accepted.get(&target) {
            found.push(accepted_twice(target, *seq));
        }
        found
    }

    /// Why an entry is no reading of this step that counts and lies outside; none when it is.
    fn not_deviating(&self, reading: u64) -> Option<&'static str> {
        let Some(noted) = self.ledger.readings.get(&reading) else {
            return Some("refusal-accept-no-reading");
        };
        let latest = self.ledger.latest.get(noted.blank.as_str()).map(|latest| latest.seq);
        let own = self.ledger.blank(&noted.blank).map(|(index, _)| index);
        match noted.verdict {
            Verdict::Within => Some("refusal-accept-within"),
            _ if latest != Some(reading) => Some("refusal-accept-corrected"),
            _ if own != Some(self.index) => Some("refusal-accept-elsewhere"),
            _ => None,
        }
    }

    /// Whoever signs anything on this packet may say that something is not right.
    fn raised(&self) -> Vec<Refusal> {
        let mut found = Vec::new();
        let roles = roles_of(self.ledger.packet);
        if !roles.contains(self.entry.role.as_str()) {
            found.push(raise_role(&roles, &self.entry.role));
        }
        let why = self.entry.concerns.and_then(|reading| self.not_deviating(reading));
        found.extend(why.map(|why| raise_target(self.entry.concerns.unwrap_or_default(), why)));
        found
    }

    /// Who signed takes it back, or somebody who may stop the job; a deviation only who raised it.
    fn withdrawn(&self) -> Vec<Refusal> {
        let Some(target) = self.entry.withdraws else { return Vec::new() };
        let Some(stated) = self.ledger.stated.get(&target) else {
            return vec![withdraw_target(target, self.ledger.why_not_back(target))];
        };
        let mut found = Vec::new();
        if (stated.step, stated.row.as_deref()) != (self.index, self.row()) {
            found.push(withdraw_target(target, "entries-withdraw-elsewhere"));
        }
        let leads = may_close(self.ledger.packet).contains(self.entry.role.as_str());
        if stated.by != self.entry.by && (!leads || stated.kind == Kind::DeviationRaised) {
            found.push(withdraw_person(target, &stated.by, &self.entry.by));
        }
        found
    }

    /// Nobody is left behind when a record is closed halfway: each personal lock is off, and a word is
    /// said on what stays isolated.
    ///
    /// Source: 29 CFR 1910.147(e)(2)-(3) and (f)(3)(ii)(D).
    fn closed(&self) -> Vec<Refusal> {
        let mut found = Vec::new();
        let (entry, packet) = (self.entry, self.ledger.packet);
        let roles = may_close(packet);
        if !roles.contains(entry.role.as_str()) {
            found.push(close_role(&roles, &entry.role));
        }
        let locks = self.ledger.locks_on();
        if !locks.is_empty() {
            found.push(locks_still_on(&locks));
        }
        if entry.locks.is_none() && self.ledger.is_locked_out() {
            found.push(of_entries("entries-locks-untold", &[]));
        }
        if entry.becomes.as_ref() == Some(&entry.packet) {
            found.push(of_entries("entries-same-packet", &[]));
        }
        found
    }

    /// Who works inside has a personal lock on, 29 CFR 1910.147(f)(3)(ii)(D): by the record from version
    /// 3 on, before that by the packet.
    fn personal_lock(&self) -> Option<Refusal> {
        let (ledger, by) = (self.ledger, &self.entry.by);
        let crew = ledger.packet.crew_at(self.index).filter(|_| self.step.reaches_in())?;
        if self.entry.v < 3 || !ledger.knows_locks() {
            let has_lock = crew.iter().any(|member| &member.id == by);
            return (!has_lock).then(|| no_personal_lock(self.step, by, ids(crew)));
        }
        match ledger.has_lock_on(by) {
            true => self.before_handover(),
            false => Some(no_personal_lock(self.step, by, ledger.locks_on().into_iter().collect())),
        }
    }

    /// Who arrives at a shift change works inside only when the change is signed to its last row.
    fn before_handover(&self) -> Option<Refusal> {
        let group = self.ledger.packet.job.lockout.as_ref()?;
        if group.crew.iter().any(|member| member.id == self.entry.by) {
            return None;
        }
        let steps = self.ledger.packet.steps.iter().enumerate();
        let mut change = steps
            .filter(|(_, step)| step.procedure == SHIFT_CHANGE && step.stays.is_none())
            .map(|(index, step)| {
                let lacks = self.ledger.lacks(index, Meaning::Verified, None);
                (step, lacks.collect::<Vec<&Sign>>())
            });
        change
            .find(|(_, lacks)| !lacks.is_empty())
            .map(|(step, lacks)| step_order(self.step, step, &lacks))
    }

    /// Who only checks has a personal lock on, or signs that the guard was not passed.
    fn checked_inside(&self) -> Option<Refusal> {
        let (ledger, by) = (self.ledger, &self.entry.by);
        let is_free = !self.step.reaches_in()
            || self.entry.v < 3
            || self.entry.outside
            || !ledger.knows_locks()
            || ledger.has_lock_on(by);
        (!is_free).then(|| {
            let parts = [("step", named(self.step).into()), ("by", shown(by).into())];
            of_entries("entries-checked-inside", &parts)
        })
    }

    fn performed(&self) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.order());
        found.extend(self.personal_lock());
        found.extend(self.asked(Meaning::Performed));
        found.extend(self.blanks_filled());
        found.extend(self.zero_proved());
        found
    }

    /// Zero energy is proved or it is not: nobody can accept it as it is, 29 CFR 1910.147(d)(6); nor what
    /// else a person would be hurt by.
    fn zero_proved(&self) -> Option<Refusal> {
        let outside = |blank: &&Reading| {
            let latest = self.ledger.latest.get(blank.id.as_str());
            latest.is_some_and(|latest| latest.verdict != Verdict::Within)
        };
        let row = self.row();
        let step = self.step;
        let mut own = step
            .readings
            .iter()
            .filter(|blank| step.is_never_accepted(blank) && step.holds(row, &blank.id));
        own.find(outside).map(|blank| match step.stage {
            Stage::Verify => zero_not_proved(blank),
            _ => still_outside(blank),
        })
    }

    fn verified(&self) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.asked(Meaning::Verified));
        found.extend(self.checked_inside());
        found.extend(self.blanks_filled());
        let row = self.row();
        let doers = self.ledger.signatures(self.index, Meaning::Performed);
        let mut doers = doers.filter(|doer| row.is_none() || doer.row.as_deref() == row).peekable();
        if doers.peek().is_none() || !self.ledger.is_performed(self.index, row) {
            found.push(not_performed(self.step));
        }
        for doer in doers {
            if doer.by == self.entry.by {
                found.push(same_person(self.step, &doer.by, doer.seq));
            } else if !doer.key.is_empty() && doer.key == self.key {
                found.push(same_key(self.step, &doer.by, doer.seq));
            }
        }
        found
    }

    fn released(&self) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.asked(Meaning::Released));
        let (open, lacks): (Vec<_>, Vec<_>) = (self.ledger.missing_for_release().into_iter())
            .partition(|missing| {
                matches!(missing, Missing::Acceptance { .. } | Missing::Answer { .. })
            });
        if !lacks.is_empty() {
            found.push(release_incomplete(&lacks));
        }
        if !open.is_empty() {
            found.push(release_with_deviation(&open, self.ledger));
        }
        found
    }

    /// The step asks for such a signature in this role, and has none that covers its readings.
    fn asked(&self, meaning: Meaning) -> Option<Refusal> {
        let signs = self.step.signs.iter().filter(|sign| sign.meaning == meaning);
        let signs: Vec<&Sign> = signs.collect();
        let kind = Kind::from(meaning);
        if signs.is_empty() {
            return Some(not_asked(self.step, kind));
        }
        let of_row: Vec<&Sign> =
            signs.iter().copied().filter(|sign| sign.row.as_deref() == self.row()).collect();
        if of_row.is_empty() {
            return Some(other_row(self.step, kind, self.row(), &signs));
        }
        let role = &self.entry.role;
        let Some(sign) = of_row.iter().find(|sign| &sign.role == role) else {
            return Some(role_not_asked(self.step, &of_row, role));
        };
        if let Some(by) = sign.by.as_ref().filter(|by| **by != self.entry.by) {
            return Some(only_by(self.step, self.row(), by, &self.entry.by));
        }
        let mut earlier = self.ledger.signatures(self.index, meaning);
        earlier
            .find(|signed| signed.role == *role && signed.row.as_deref() == self.row())
            .map(|signed| signed_twice(self.step, self.row(), kind, signed.seq))
    }

    /// The row that is signed; none when the step is signed as a whole.
    fn row(&self) -> Option<&str> {
        self.entry.row.as_deref()
    }

    fn blanks_filled(&self) -> Option<Refusal> {
        let open = self.ledger.open_blanks(self.step, self.row());
        (!open.is_empty()).then(|| before_readings(self.step, &open))
    }

    /// Energy is away before somebody reaches in, and comes back only after the work.
    ///
    /// Order of the stages: 29 CFR 1910.147(d) and (e).
    fn order(&self) -> Option<Refusal> {
        let waits = self.step.is_lockout() || self.step.needs != EnergyState::Any;
        if !waits {
            return None;
        }
        let after_work = self.step.stage >= Stage::Inspect;
        let comes_first = |step: &Step| {
            step.stays.is_none()
                && (step.is_lockout()
                    || step.readings.iter().any(|blank| blank.never_accepted)
                    || (after_work && step.needs == EnergyState::Isolated))
        };
        let earlier = self.ledger.packet.steps.iter().enumerate().take(self.index);
        let mut lacking =
            earlier.filter(|(_, step)| comes_first(step)).filter_map(|(index, step)| {
                let lacks: Vec<&Sign> = self.ledger.lacks(index, Meaning::Verified, None).collect();
                (!lacks.is_empty()).then_some((step, lacks))
            });
        lacking.next().map(|(first, lacks)| step_order(self.step, first, &lacks))
    }
}

/// Who signs the row a blank stands in; who signs the step, when no row does.
pub(crate) fn signs_of<'p>(step: &'p Step, blank: &str) -> Vec<&'p Sign> {
    let of_row = |sign: &&Sign| sign.row.is_some() && step.holds(sign.row.as_deref(), blank);
    let own: Vec<&Sign> = step.signs.iter().filter(of_row).collect();
    if own.is_empty() { step.signs.iter().collect() } else { own }
}

pub(crate) fn blank_elsewhere(blank: &Reading, step: &Step) -> Refusal {
    let parts = [("blank", (&blank.id).into()), ("step", (&step.id).into())];
    Refusal::new("refusal-blank-elsewhere", &parts)
}

/// Unit, limits and verdict are those of the packet.
fn judged(blank: &Reading, taken: &Taken) -> Vec<Refusal> {
    let mut found = Vec::new();
    if taken.unit != blank.unit {
        found.push(unit_differs(&blank.id, &blank.unit, &taken.unit));
    }
    for (own, other) in [(&blank.low, &taken.low), (&blank.high, &taken.high)] {
        if own != other {
            found.push(limit_differs(&blank.id, own.as_deref(), other.as_deref()));
        }
    }
    // Judged by the packet's limits, not by those the entry claims.
    match verdict(blank, &taken.value) {
        Some(verdict) if verdict != taken.verdict => {
            found.push(verdict_wrong(&blank.id, verdict, taken.verdict));
        }
        _ => {}
    }
    found
}

/// What a value is worth in a blank; none when the packet's limits are no decimals.
///
/// With a guard band (ISO 14253-1) a value counts as inside or outside only where it surely is.
pub(crate) fn verdict(blank: &Reading, value: &str) -> Option<Verdict> {
    let inside = |low: &Option<String>, high: &Option<String>| {
        decimal::within(value, low.as_deref(), high.as_deref())
    };
    let Some(guard) = &blank.guard else {
        let within = inside(&blank.low, &blank.high)?;
        return Some(if within { Verdict::Within } else { Verdict::Outside });
    };
    let surely_inside = inside(&guard.low, &guard.high)?;
    let perhaps_inside = inside(&guard.outer_low, &guard.outer_high)?;
    Some(match (surely_inside, perhaps_inside) {
        (true, _) => Verdict::Within,
        (false, true) => Verdict::TooClose,
        (false, false) => Verdict::Outside,
    })
}

/// Where a value surely counts as inside, in words: `surely within from 55.7 to 56.3 mm`; none without
/// a guard band.
///
/// A guard band wider than half the range leaves no value that is surely inside.
pub(crate) fn surely_within(blank: &Reading) -> Option<Words> {
    let guard = blank.guard.as_ref()?;
    let (low, high) = (guard.low.as_deref(), guard.high.as_deref());
    let with_unit = |value: &str| format!("{value} {}", blank.unit).trim_end().to_owned();
    let words = match (low, high) {
        (Some(low), Some(_)) if decimal::within(low, None, high) == Some(false) => {
            return Some(Words::of("sure-none"));
        }
        (Some(low), Some(high)) => {
            let parts = [("low", low.into()), ("high", with_unit(high).into())];
            Words::new("sure-between", &parts)
        }
        (Some(low), None) => Words::new("sure-from", &[("low", with_unit(low).into())]),
        (None, Some(high)) => Words::new("sure-to", &[("high", with_unit(high).into())]),
        (None, None) => return None,
    };
    Some(words)
}

pub(crate) fn unit_differs(blank: &str, own: &str, other: &str) -> Refusal {
    let spoken = if own == "in" { Words::of("refusal-inches") } else { name_of_unit(own) };
    Refusal::new("refusal-unit-differs", &[("blank", blank.into()), ("unit", spoken.into())])
        .with(name_of_unit(own), name_of_unit(&shown(other)))
}

fn name_of_unit(unit: &str) -> Words {
    if unit.is_empty() { Words::of("unit-none") } else { unit.into() }
}

fn limit_differs(blank: &str, own: Option<&str>, other: Option<&str>) -> Refusal {
    let limit = |limit: Option<&str>| limit.map_or(Words::of("refusal-no-limit"), Words::from);
    Refusal::new("refusal-limit-differs", &[("blank", blank.into())]).with(limit(own), limit(other))
}

fn verdict_wrong(blank: &str, right: Verdict, stated: Verdict) -> Refusal {
    Refusal::new("refusal-verdict-wrong", &[("blank", blank.into())])
        .with(right.words(), stated.words())
}

fn instrument(blank: &Reading, taken: &Taken, day: Option<NaiveDate>) -> Option<Refusal> {
    let (listed, used) = (blank.instrument.as_ref(), taken.instrument.as_deref());
    let listed_id = listed.map(|instrument| instrument.id.as_str());
    if used.is_some() && used != listed_id {
        return Some(instrument_differs(&blank.id, listed_id, used));
    }
    let due = listed?.calibration_due.parse::<NaiveDate>().ok()?;
    (day? > due).then(|| calibration_over(listed_id.unwrap_or_default(), due))
}

fn instrument_differs(blank: &str, listed: Option<&str>, used: Option<&str>) -> Refusal {
    let name = |id: Option<&str>| id.map_or(Words::of("refusal-none"), Words::from);
    Refusal::new("refusal-instrument-differs", &[("blank", blank.into())])
        .with(name(listed), name(used))
}

fn calibration_over(id: &str, due: NaiveDate) -> Refusal {
    let due = due.to_string();
    let until = Words::new("refusal-day-up-to", &[("day", (&due).into())]);
    let parts = [("instrument", id.into()), ("day", due.into())];
    Refusal::new("refusal-calibration-over", &parts).with(until, "")
}

fn reading_twice(blank: &str, seq: u64) -> Refusal {
    let parts = [("blank", blank.into()), ("entry", seq.to_string().into())];
    Refusal::new("refusal-reading-twice", &parts)
}

fn correction_target(blank: &str, target: u64, latest: Option<u64>) -> Refusal {
    let (target, latest) = (target.to_string(), latest.map(|seq| seq.to_string()));
    let (expected, way_out) = match latest {
        Some(seq) => {
            (Words::from(&*seq), Words::new("refusal-correct-it", &[("entry", seq.into())]))
        }
        None => (Words::of("refusal-none"), Words::of("refusal-first-reading")),
    };
    let parts = [("entry", (&target).into()), ("blank", blank.into()), ("remedy", way_out.into())];
    Refusal::new("refusal-correction-target", &parts).with(expected, target)
}

fn acceptance_role(role: &str, found: &str) -> Refusal {
    let words = Words::new("refusal-acceptance-role", &[("role", role.into())]);
    Refusal::coded("role-not-asked", words).with(role, shown(found))
}

pub(crate) fn acceptance_target(target: u64, why: &'static str) -> Refusal {
    let parts = [("entry", target.to_string().into()), ("why", Words::of(why).into())];
    Refusal::new("refusal-acceptance-target", &parts)
}

fn zero_not_proved(blank: &Reading) -> Refusal {
    Refusal::new("refusal-zero-not-proved", &[("blank", (&blank.id).into())])
}

fn still_outside(blank: &Reading) -> Refusal {
    Refusal::new("refusal-still-outside", &[("blank", (&blank.id).into())])
}

fn never_accepted(step: &Step) -> Refusal {
    Refusal::new("refusal-never-accepted", &[("step", (&step.id).into())])
}

fn accepted_twice(target: u64, seq: u64) -> Refusal {
    let parts = [("target", target.to_string().into()), ("entry", seq.to_string().into())];
    Refusal::new("refusal-accepted-twice", &parts)
}

pub(crate) fn not_asked(step: &Step, kind: Kind) -> Refusal {
    let parts = [("step", named(step).into()), ("kind", kind.words().into())];
    Refusal::new("refusal-signature-not-asked", &parts)
}

fn role_not_asked(step: &Step, signs: &[&Sign], role: &str) -> Refusal {
    let roles: BTreeSet<_> = signs.iter().map(|sign| sign.role.as_str()).collect();
    let roles: Vec<_> = roles.into_iter().collect();
    let parts = [("step", named(step).into()), ("role", shown(role).into())];
    Refusal::new("refusal-role-not-asked", &parts).with(roles.join(", "), shown(role))
}

fn signed_twice(step: &Step, row: Option<&str>, kind: Kind, seq: u64) -> Refusal {
    let parts = [
        ("step", named_row(step, row).into()),
        ("kind", kind.words().into()),
        ("entry", seq.to_string().into()),
    ];
    Refusal::new("refusal-signed-twice", &parts)
}

fn before_readings(step: &Step, open: &[&str]) -> Refusal {
    let open: Vec<Words> = open.iter().map(|blank| Words::from(*blank)).collect();
    let parts = [("step", named(step).into()), ("blanks", some(&open).into())];
    Refusal::new("refusal-before-readings", &parts)
}

fn not_performed(step: &Step) -> Refusal {
    Refusal::new("refusal-before-performed", &[("step", named(step).into())])
}

fn same_person(step: &Step, by: &str, seq: u64) -> Refusal {
    let parts =
        [("step", named(step).into()), ("by", by.into()), ("entry", seq.to_string().into())];
    Refusal::new("refusal-same-person", &parts).with(Words::of("refusal-another-person"), by)
}

fn same_key(step: &Step, by: &str, seq: u64) -> Refusal {
    let parts =
        [("step", named(step).into()), ("by", by.into()), ("entry", seq.to_string().into())];
    Refusal::coded("same-person", Words::new("refusal-same-key", &parts))
}

/// A step that is signed row by row and not so here, or a row that it does not have.
pub(crate) fn other_row(step: &Step, kind: Kind, row: Option<&str>, signs: &[&Sign]) -> Refusal {
    let rows: Vec<&str> = signs.iter().filter_map(|sign| sign.row.as_deref()).collect();
    let names: Vec<String> = rows.iter().map(|row| format!("{}/{row}", step.number)).collect();
    let way_out = match names.is_empty() {
        true => Words::new("refusal-sign-as-a-whole", &[("number", step.number.into())]),
        false => Words::new("refusal-sign-its-rows", &[("rows", names.join(", ").into())]),
    };
    let mut parts = vec![
        ("step", named(step).into()),
        ("kind", kind.words().into()),
        ("remedy", way_out.into()),
    ];
    let found = shown(row.unwrap_or_default());
    let refusal = match row {
        Some(_) => {
            parts.push(("row", (&found).into()));
            Refusal::new("refusal-row-unknown", &parts)
        }
        None => Refusal::new("refusal-row-missing", &parts),
    };
    refusal.with(rows.join(", "), found)
}

fn no_personal_lock(step: &Step, by: &str, crew: Vec<&str>) -> Refusal {
    let parts = [("step", named(step).into()), ("by", shown(by).into())];
    Refusal::new("refusal-no-personal-lock", &parts).with(crew.join(", "), shown(by))
}

/// A row that one person signs and nobody else.
fn only_by(step: &Step, row: Option<&str>, by: &str, other: &str) -> Refusal {
    let parts = [("step", named_row(step, row).into()), ("by", shown(by).into())];
    Refusal::new("refusal-row-of-another", &parts).with(by, shown(other))
}

/// A row of a step as it stands on the sheet, and its identifier.
fn named_row(step: &Step, row: Option<&str>) -> Words {
    let number = row.and_then(|row| step.row_number(row));
    match (row, number) {
        (Some(row), Some(number)) => {
            let id = format!("{}/{row}", step.id);
            Words::new("refusal-row", &[("number", number.into()), ("id", id.into())])
        }
        _ => named(step),
    }
}

/// A step as it stands on the sheet, and its identifier.
fn named(step: &Step) -> Words {
    Words::new("refusal-step", &[("number", step.number.into()), ("id", (&step.id).into())])
}

fn step_order(step: &Step, first: &Step, lacks: &[&Sign]) -> Refusal {
    let rows: BTreeSet<&str> = lacks.iter().filter_map(|sign| sign.row.as_deref()).collect();
    let row = |row: &&str| Words::from(format!("{}/{row}", first.number));
    let rows: Vec<Words> = rows.iter().map(row).collect();
    let way_out = match rows.is_empty() {
        true => Words::new("refusal-do-step-first", &[("number", first.number.into())]),
        false => Words::new("refusal-do-rows-first", &[("rows", some(&rows).into())]),
    };
    let parts =
        [("step", named(step).into()), ("first", named(first).into()), ("remedy", way_out.into())];
    Refusal::new("refusal-step-order", &parts)
}

fn release_incomplete(lacks: &[Missing]) -> Refusal {
    let lacks: Vec<_> = lacks.iter().map(Missing::words).collect();
    Refusal::new("refusal-release-incomplete", &[("missing", some(&lacks).into())])
}

fn release_with_deviation(open: &[Missing], ledger: &Ledger) -> Refusal {
    let steps = open.iter().filter_map(|missing| ledger.step(missing.step()));
    let roles: BTreeSet<&str> = steps.filter_map(|(_, step)| ledger.packet.accepts(step)).collect();
    let open: Vec<_> = open.iter().map(Missing::words).collect();
    let parts = [("missing", some(&open).into()), ("role", listed(&roles).into())];
    Refusal::new("refusal-release-deviation", &parts)
}

/// The roles that may close a record halfway: those that hand over, or else those that accept.
pub(crate) fn may_close(packet: &Packet) -> BTreeSet<&str> {
    let closes = packet.closes();
    if closes.is_empty() { BTreeSet::from([packet.accepts_deviation.as_str()]) } else { closes }
}

/// Every role that a packet asks for.
pub(crate) fn roles_of(packet: &Packet) -> BTreeSet<&str> {
    let signs = packet.steps.iter().flat_map(|step| &step.signs).map(|sign| sign.role.as_str());
    let accept = packet.steps.iter().filter_map(|step| packet.accepts(step));
    signs.chain(accept).collect()
}

fn listed(words: &BTreeSet<&str>) -> String {
    words.iter().copied().collect::<Vec<_>>().join(", ")
}

fn raise_role(roles: &BTreeSet<&str>, found: &str) -> Refusal {
    let words = Words::new("entries-raise-role", &[("role", shown(found).into())]);
    Refusal::coded("role-not-asked", words).with(listed(roles), shown(found))
}

fn raise_target(target: u64, why: &'static str) -> Refusal {
    let parts = [("entry", target.to_string().into()), ("why", Words::of(why).into())];
    of_entries("entries-raise-target", &parts)
}

pub(crate) fn withdraw_target(target: u64, why: &'static str) -> Refusal {
    let parts = [("entry", target.to_string().into()), ("why", Words::of(why).into())];
    of_entries("entries-withdraw-target", &parts)
}

fn withdraw_person(target: u64, owner: &str, by: &str) -> Refusal {
    let parts = [("entry", target.to_string().into()), ("owner", owner.into())];
    of_entries("entries-withdraw-person", &parts).with(owner, shown(by))
}

fn close_role(roles: &BTreeSet<&str>, found: &str) -> Refusal {
    let words = Words::new("entries-close-role", &[("role", listed(roles).into())]);
    Refusal::coded("role-not-asked", words).with(listed(roles), shown(found))
}

fn locks_still_on(people: &BTreeSet<&str>) -> Refusal {
    of_entries("entries-locks-still-on", &[("people", listed(people).into())])
}

fn ids(crew: &[Member]) -> Vec<&str> {
    crew.iter().map(|member| member.id.as_str()).collect()
}

/// The first three of a list, and how many more.
pub(crate) fn some(all: &[Words]) -> Words {
    let join = |one: Words, next: Words| {
        Words::new("refusal-list", &[("one", one.into()), ("next", next.into())])
    };
    let first = all.iter().take(3).cloned().reduce(join).unwrap_or_else(|| "".into());
    match all.len().saturating_sub(3) {
        0 => first,
        more => Words::new("refusal-and-more", &[("first", first.into()), ("more", more.into())]),
    }
}

#[cfg(test)]
mod tests;
