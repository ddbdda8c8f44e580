//! Which entry may come next: every rule once, asked before signing and asked again by the audit.
//!
//! Each rule is one function that owns its words and its way out. Must never change anything and
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
use super::trust::{NoKey, TrustList, TrustedKey, why_none};
use crate::packet::Packet;
use crate::packet::model::{EnergyState, Meaning, Member, Reading, Sign, Stage, Step};

/// Why an entry may not come next.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Refusal {
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
    pub(crate) fn new(code: &'static str, words: String, way_out: impl Into<String>) -> Self {
        let (expected, found) = (String::new(), String::new());
        Refusal { code, expected, found, words, way_out: way_out.into() }
    }

    fn with(mut self, expected: impl Into<String>, found: impl Into<String>) -> Self {
        (self.expected, self.found) = (expected.into(), found.into());
        self
    }
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
    if let Some(seq) = ledger.released {
        found.push(after_release(seq));
    }
    let Some((index, step)) = ledger.step(&entry.step) else {
        found.push(unknown_step(ledger, &entry.step));
        return found;
    };
    if let Some(why) = &step.stays {
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
    }
    found
}

/// Nobody signs for work by a text that is still being written.
pub fn check_draft(packet: &Packet) -> Option<Refusal> {
    let files = packet.drafts.join(", ");
    (!files.is_empty()).then(|| {
        let words = format!("the packet of {} is a draft: {files}", packet.job.id);
        let way_out =
            "take out `draft: true` when the text is approved, then print the packet anew";
        Refusal::new("draft-packet", words, way_out)
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
    let has_purpose = |line: &&TrustedKey| line.namespaces.iter().any(|own| own == namespace);
    let for_this: Vec<_> = lines.iter().copied().filter(has_purpose).collect();
    if for_this.is_empty() {
        return Some(key_namespace(namespace, &line.namespaces.join(", ")));
    }
    let at = at.filter(|at| !for_this.iter().any(|line| line.covers(*at)))?;
    why_none(&for_this, at).map(|why| key_not_valid(&why, at))
}

fn signer_unlisted(by: &str, key: &str) -> Refusal {
    let words = "is signed with a key that the list of signers does not have".to_owned();
    Refusal::new("signer-unlisted", words, "enter the key in allowed_signers").with(shown(by), key)
}

fn signer_differs(by: &str, owner: &str) -> Refusal {
    let words = "is signed with the key of somebody else than it names".to_owned();
    Refusal::new("signer-differs", words, "sign with your own key and name").with(shown(by), owner)
}

fn key_namespace(namespace: &str, listed: &str) -> Refusal {
    let words = "is signed with a key that is not listed for this purpose".to_owned();
    let way_out = "add the purpose to the key's line in allowed_signers";
    Refusal::new("key-namespace", words, way_out).with(namespace, listed)
}

fn key_not_valid(why: &NoKey, at: DateTime<FixedOffset>) -> Refusal {
    let (code, words, bound) = match why {
        NoKey::NotYet(from) => (
            "key-not-yet-valid",
            "is signed before its key counts",
            format!("{} or later", utc(*from)),
        ),
        NoKey::Ended(until) => (
            "key-expired",
            "is signed after its key stopped counting",
            format!("{} or earlier", utc(*until)),
        ),
    };
    let refusal =
        Refusal::new(code, words.to_owned(), "enter a key that counts in allowed_signers");
    refusal.with(bound, time::write(at))
}

fn utc(seconds: i64) -> String {
    DateTime::from_timestamp(seconds, 0)
        .map_or_else(|| seconds.to_string(), |time| time::write(time.fixed_offset()))
}

/// The entry belongs to this job, machine and packet.
fn frame(ledger: &Ledger, digest: &str, entry: &Entry) -> Vec<Refusal> {
    let packet = ledger.packet;
    let pairs = [
        ("job-differs", "job", packet.job.id.as_str(), &entry.job),
        ("machine-differs", "machine", &packet.machine.id, &entry.machine),
        ("packet-differs", "packet", digest, &entry.packet),
    ];
    let differs = pairs.into_iter().filter(|(_, _, own, other)| own != other);
    differs.map(|(code, what, own, other)| belongs_elsewhere(code, what, own, other)).collect()
}

fn belongs_elsewhere(code: &'static str, what: &str, own: &str, other: &str) -> Refusal {
    let words = format!("belongs to another {what}");
    Refusal::new(code, words, "sign on the record of its own job").with(own, shown(other))
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

fn time_backwards(last: DateTime<FixedOffset>, at: DateTime<FixedOffset>) -> Refusal {
    let seconds = (last - at).num_seconds();
    let words = format!("is {seconds} s earlier than an entry before it");
    Refusal::new("time-backwards", words, "set the clock of this station right, then sign again")
        .with(format!("{} or later", time::write(last)), time::write(at))
}

fn before_packet(issued: DateTime<FixedOffset>, at: DateTime<FixedOffset>) -> Refusal {
    let words = "is earlier than the packet it belongs to".to_owned();
    Refusal::new("before-packet", words, "set the clock of this station right, then sign again")
        .with(format!("{} or later", time::write(issued)), time::write(at))
}

fn after_release(seq: u64) -> Refusal {
    let words = format!("comes after the release in entry {seq}");
    Refusal::new("after-release", words, "a released record is closed: open a new job")
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
    let words = format!("is by {}, whom the plant does not list", shown(by));
    Refusal::new("person-unknown", words, "enter the person in people.yaml").with("", shown(by))
}

fn name_differs(name: &str, other: &str) -> Refusal {
    let words = "prints another name than the person has".to_owned();
    Refusal::new("name-differs", words, "sign under the name in people.yaml")
        .with(shown(name), shown(other))
}

pub(crate) fn role_not_held(name: &str, role: &str, day: NaiveDate) -> Refusal {
    let words = format!("{name} does not hold the role {role} on {day}");
    Refusal::new("role-not-held", words, format!("let somebody with the role {role} sign"))
        .with(role, "")
}

pub(crate) fn unknown_step(ledger: &Ledger, id: &str) -> Refusal {
    let ids = ledger.packet.steps.iter().map(|step| step.id.as_str());
    let way_out = nearest(id, ids)
        .map_or("take the name of the step from the packet".to_owned(), |n| {
            format!("did you mean {n}?")
        });
    Refusal::new("step-unknown", format!("the packet has no step {}", shown(id)), way_out)
}

pub(crate) fn unknown_blank(ledger: &Ledger, id: &str) -> Refusal {
    let way_out = nearest(id, ledger.blank_ids())
        .map_or("take the name of the blank from the packet".to_owned(), |n| {
            format!("did you mean {n}?")
        });
    Refusal::new("blank-unknown", format!("the packet has no blank {}", shown(id)), way_out)
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
    let words = format!("{} needs nothing this time: {why}", named(step));
    Refusal::new("step-stays", words, "leave it out")
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
        let mut found = Vec::new();
        let role = &self.ledger.packet.accepts_deviation;
        if &self.entry.role != role {
            found.push(acceptance_role(role, &self.entry.role));
        }
        let Some(target) = self.entry.accepts else { return found };
        let noted = self.ledger.readings.get(&target);
        let own = |blank: &&Reading| noted.is_some_and(|noted| noted.blank == blank.id);
        let blank = self.step.readings.iter().find(own);
        if blank.is_some_and(|blank| self.step.is_never_accepted(blank)) {
            found.push(never_accepted(self.step));
        }
        let latest = |blank: &str| self.ledger.latest.get(blank).map(|latest| latest.seq);
        match noted {
            None => found.push(acceptance_target(target, "is no reading of this record")),
            Some(noted) if noted.verdict == Verdict::Within => {
                found.push(acceptance_target(target, "lies within its limits"));
            }
            Some(noted) if latest(&noted.blank) != Some(target) => {
                found.push(acceptance_target(target, "has been corrected since"));
            }
            Some(noted) => {
                let own = self.ledger.blank(&noted.blank).map(|(index, _)| index);
                if own != Some(self.index) {
                    found.push(acceptance_target(target, "belongs to another step"));
                }
            }
        }
        if let Some(seq) = self.ledger.accepted.get(&target) {
            found.push(accepted_twice(target, *seq));
        }
        found
    }

    /// Who works inside has a personal lock on, 29 CFR 1910.147(f)(3)(ii)(D).
    fn personal_lock(&self) -> Option<Refusal> {
        let reaches_in = self.step.zone.is_some() && self.step.needs == EnergyState::Isolated;
        let crew = self.ledger.packet.crew_at(self.index).filter(|_| reaches_in)?;
        let has_lock = crew.iter().any(|member| member.id == self.entry.by);
        (!has_lock).then(|| no_personal_lock(self.step, &self.entry.by, crew))
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
            .partition(|missing| matches!(missing, Missing::Acceptance { .. }));
        if !lacks.is_empty() {
            found.push(release_incomplete(&lacks));
        }
        if !open.is_empty() {
            found.push(release_with_deviation(&open, &self.ledger.packet.accepts_deviation));
        }
        found
    }

    /// The step asks for such a signature in this role, and has none that covers its readings.
    fn asked(&self, meaning: Meaning) -> Option<Refusal> {
        let signs = self.step.signs.iter().filter(|sign| sign.meaning == meaning);
        let signs: Vec<&Sign> = signs.collect();
        let word = Kind::from(meaning).word();
        if signs.is_empty() {
            return Some(not_asked(self.step, word));
        }
        let of_row: Vec<&Sign> =
            signs.iter().copied().filter(|sign| sign.row.as_deref() == self.row()).collect();
        if of_row.is_empty() {
            return Some(other_row(self.step, word, self.row(), &signs));
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
            .map(|signed| signed_twice(self.step, self.row(), word, signed.seq))
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

fn blank_elsewhere(blank: &Reading, step: &Step) -> Refusal {
    let words = format!("{} is not a blank of {}", blank.id, step.id);
    Refusal::new("blank-elsewhere", words, "name the step the blank stands in")
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
pub(crate) fn surely_within(blank: &Reading) -> Option<String> {
    let guard = blank.guard.as_ref()?;
    let (low, high) = (guard.low.as_deref(), guard.high.as_deref());
    let with_unit = |value: &str| format!("{value} {}", blank.unit).trim_end().to_owned();
    let range = match (low, high) {
        (Some(low), Some(_)) if decimal::within(low, None, high) == Some(false) => {
            return Some("no reading is surely within".to_owned());
        }
        (Some(low), Some(high)) => format!("from {low} to {}", with_unit(high)),
        (Some(low), None) => format!("from {} up", with_unit(low)),
        (None, Some(high)) => format!("up to {}", with_unit(high)),
        (None, None) => return None,
    };
    Some(format!("surely within {range}"))
}

pub(crate) fn unit_differs(blank: &str, own: &str, other: &str) -> Refusal {
    let words = format!("the value for {blank} is in another unit");
    let spoken = if own == "in" { "inches" } else { name_of_unit(own) };
    Refusal::new("unit-differs", words, format!("measure in {spoken}"))
        .with(name_of_unit(own), name_of_unit(&shown(other)))
}

fn name_of_unit(unit: &str) -> &str {
    if unit.is_empty() { "a plain number" } else { unit }
}

fn limit_differs(blank: &str, own: Option<&str>, other: Option<&str>) -> Refusal {
    let words = format!("a limit for {blank} is not the one of the packet");
    Refusal::new("limit-differs", words, "take the reading again from the packet as issued")
        .with(own.unwrap_or("no limit"), other.unwrap_or("no limit"))
}

fn verdict_wrong(blank: &str, right: Verdict, stated: Verdict) -> Refusal {
    let words = format!("the reading for {blank} is judged wrong");
    Refusal::new("verdict-wrong", words, "judge it by the limits of the packet")
        .with(right.word(), stated.word())
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
    let words = format!("the reading for {blank} is taken with another instrument");
    Refusal::new("instrument-differs", words, "use the instrument the packet names")
        .with(listed.unwrap_or("none"), used.unwrap_or("none"))
}

fn calibration_over(id: &str, due: NaiveDate) -> Refusal {
    let words = format!("the calibration of {id} ended on {due}");
    let way_out = "have it calibrated, enter the new date and issue the packet again";
    Refusal::new("calibration-over", words, way_out).with(format!("a day up to {due}"), "")
}

fn reading_twice(blank: &str, seq: u64) -> Refusal {
    let words = format!("{blank} has a reading already, entry {seq}");
    Refusal::new("reading-twice", words, format!("say that it corrects entry {seq}, and why"))
}

fn correction_target(blank: &str, target: u64, latest: Option<u64>) -> Refusal {
    let words = format!("entry {target} is not the reading of {blank} that counts");
    let (expected, way_out) = match latest {
        Some(seq) => (seq.to_string(), format!("correct entry {seq}")),
        None => ("none".to_owned(), "enter it as a first reading".to_owned()),
    };
    Refusal::new("correction-target", words, way_out).with(expected, target.to_string())
}

fn acceptance_role(role: &str, found: &str) -> Refusal {
    let words = format!("a deviation is accepted in the role {role} only");
    Refusal::new("role-not-asked", words, format!("let somebody with the role {role} sign"))
        .with(role, shown(found))
}

fn acceptance_target(target: u64, why: &str) -> Refusal {
    let words = format!("entry {target} cannot be accepted: it {why}");
    Refusal::new("acceptance-target", words, "name the reading that counts and lies outside")
}

fn zero_not_proved(blank: &Reading) -> Refusal {
    let words = format!("the latest reading of {} is not zero: nobody may reach in", blank.id);
    let way_out =
        "leave the locks on, relieve the source again, measure again and correct the reading";
    Refusal::new("zero-not-proved", words, way_out)
}

fn still_outside(blank: &Reading) -> Refusal {
    let words =
        format!("the latest reading of {} is outside, and nobody may accept that", blank.id);
    Refusal::new(
        "still-outside",
        words,
        "do what the step says, measure again and correct the reading",
    )
}

fn never_accepted(step: &Step) -> Refusal {
    let words = format!("a reading of {} cannot be accepted outside its limits", step.id);
    Refusal::new("never-accepted", words, "do what the step says, and measure again")
}

fn accepted_twice(target: u64, seq: u64) -> Refusal {
    let words = format!("entry {target} is accepted already, in entry {seq}");
    Refusal::new("accepted-twice", words, "leave it out")
}

pub(crate) fn not_asked(step: &Step, word: &str) -> Refusal {
    let words = format!("{} asks for no signature as {word}", named(step));
    Refusal::new("signature-not-asked", words, "leave it out")
}

fn role_not_asked(step: &Step, signs: &[&Sign], role: &str) -> Refusal {
    let roles: BTreeSet<_> = signs.iter().map(|sign| sign.role.as_str()).collect();
    let roles: Vec<_> = roles.into_iter().collect();
    let words = format!("{} does not ask for a {} here", named(step), shown(role));
    Refusal::new("role-not-asked", words, "sign in the role the step asks for")
        .with(roles.join(", "), shown(role))
}

fn signed_twice(step: &Step, row: Option<&str>, word: &str, seq: u64) -> Refusal {
    let what = named_row(step, row);
    let words = format!("{what} is signed as {word} already, in entry {seq}");
    Refusal::new("signed-twice", words, "leave it out")
}

fn before_readings(step: &Step, open: &[&str]) -> Refusal {
    let words = format!("{} is signed before its readings are in: {}", named(step), some(open));
    Refusal::new("before-readings", words, "enter the readings first")
}

fn not_performed(step: &Step) -> Refusal {
    let words = format!("{} is verified before it is performed", named(step));
    Refusal::new("before-performed", words, "let the one who did the step sign first")
}

fn same_person(step: &Step, by: &str, seq: u64) -> Refusal {
    let words = format!("{} was done by the same person, {by}, in entry {seq}", named(step));
    Refusal::new("same-person", words, "let another person check it").with("another person", by)
}

fn same_key(step: &Step, by: &str, seq: u64) -> Refusal {
    let words = format!("{} was signed by {by} with the same key, in entry {seq}", named(step));
    Refusal::new("same-person", words, "let another person check it, with a key of their own")
}

/// A step that is signed row by row and not so here, or a row that it does not have.
fn other_row(step: &Step, word: &str, row: Option<&str>, signs: &[&Sign]) -> Refusal {
    let rows: Vec<&str> = signs.iter().filter_map(|sign| sign.row.as_deref()).collect();
    let names: Vec<String> = rows.iter().map(|row| format!("{}/{row}", step.number)).collect();
    let way_out = match names.is_empty() {
        true => format!("sign step {} as a whole", step.number),
        false => format!("sign its rows: {}", names.join(", ")),
    };
    let (code, words) = match row {
        Some(row) => {
            let named = named(step);
            ("row-unknown", format!("{named} has no row {} to sign as {word}", shown(row)))
        }
        None => ("row-missing", format!("{} is signed as {word} row by row", named(step))),
    };
    Refusal::new(code, words, way_out).with(rows.join(", "), shown(row.unwrap_or_default()))
}

fn no_personal_lock(step: &Step, by: &str, crew: &[Member]) -> Refusal {
    let words =
        format!("{} is inside a guard, and {} has no personal lock on", named(step), shown(by));
    let crew: Vec<&str> = crew.iter().map(|member| member.id.as_str()).collect();
    Refusal::new("no-personal-lock", words, "let one of the crew do it")
        .with(crew.join(", "), shown(by))
}

/// A row that one person signs and nobody else.
fn only_by(step: &Step, row: Option<&str>, by: &str, other: &str) -> Refusal {
    let words = format!("{} is signed by {} and by nobody else", named_row(step, row), shown(by));
    Refusal::new("row-of-another", words, "let that person sign").with(by, shown(other))
}

/// A row of a step as it stands on the sheet, and its identifier.
fn named_row(step: &Step, row: Option<&str>) -> String {
    let number = row.and_then(|row| step.row_number(row));
    match (row, number) {
        (Some(row), Some(number)) => format!("row {number} ({}/{row})", step.id),
        _ => named(step),
    }
}

/// A step as it stands on the sheet, and its identifier.
fn named(step: &Step) -> String {
    format!("step {} ({})", step.number, step.id)
}

fn step_order(step: &Step, first: &Step, lacks: &[&Sign]) -> Refusal {
    let words = format!("{} comes before {} is performed and checked", named(step), named(first));
    let rows: BTreeSet<&str> = lacks.iter().filter_map(|sign| sign.row.as_deref()).collect();
    let rows: Vec<String> = rows.iter().map(|row| format!("{}/{row}", first.number)).collect();
    let way_out = match rows.is_empty() {
        true => format!("do and sign step {} first", first.number),
        false => format!("do and sign {} first", some(&rows)),
    };
    Refusal::new("step-order", words, way_out)
}

fn release_incomplete(lacks: &[Missing]) -> Refusal {
    let texts: Vec<_> = lacks.iter().map(Missing::words).collect();
    let words = format!("the machine is released before everything is done: {}", some(&texts));
    Refusal::new("release-incomplete", words, "finish and sign what is missing")
}

fn release_with_deviation(open: &[Missing], role: &str) -> Refusal {
    let texts: Vec<_> = open.iter().map(Missing::words).collect();
    let words = format!("the machine is released with an open deviation: {}", some(&texts));
    Refusal::new(
        "release-deviation",
        words,
        format!("correct it, or let somebody with the role {role} accept it with a reason"),
    )
}

/// The first three of a list, and how many more.
pub(crate) fn some<T: AsRef<str>>(all: &[T]) -> String {
    let first: Vec<_> = all.iter().take(3).map(AsRef::as_ref).collect();
    let more = all.len().saturating_sub(3);
    let tail = if more > 0 { format!("; and {more} more") } else { String::new() };
    format!("{}{tail}", first.join("; "))
}
