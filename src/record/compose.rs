//! From what a person asks to sign to the next entries, or to every reason against it.
//!
//! Values in, values out: the time, the person and the entries so far are given. Must never sign
//! part of a request: one refusal refuses all of it, so that nobody has to find out what went in.

use std::collections::BTreeSet;

use chrono::{DateTime, FixedOffset};

use super::decimal;
use super::entry::{self, Entry, Kind, MOST_BYTES, Taken, VERSION};
use super::people::People;
use super::rules::{self, Refusal};
use super::signature::{self, Signature, SignatureFault, SigningKey};
use super::state::Ledger;
use super::store::{RawEntry, RawRecord};
use super::time;
use crate::canonical;
use crate::language::{Language, Words};
use crate::packet::Packet;
use crate::packet::model::{Meaning, Reading, Sign, Step};
use crate::quantity::{Measure, decimals_in, fraction_of};

/// What is at hand when somebody signs.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// The frozen packet.
    pub packet: &'a Packet,
    /// Its SHA-256, lower-case hex.
    pub digest: &'a str,
    /// The entries so far, in order.
    pub past: &'a [Past],
    /// Who works here.
    pub people: &'a People,
    /// Who signs.
    pub by: &'a str,
    /// Fingerprint of the key that will sign; empty when it is not known yet.
    pub key: &'a str,
    /// When; what is below the second is cut off.
    pub at: DateTime<FixedOffset>,
}

/// An entry that is on record, with the key that signed it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Past {
    /// The entry.
    pub entry: Entry,
    /// Fingerprint of its key; empty when it is not known.
    pub key: String,
}

/// The entries of a record, as long as each of them can be read.
///
/// Whether they prove anything is the audit's question; ask it before adding to a record.
///
/// # Errors
/// A refusal that names the first entry that cannot be read.
pub fn past(raw: &RawRecord) -> Result<Vec<Past>, Refusal> {
    let read = |raw: &RawEntry| {
        let entry = entry::parse(&raw.json).map_err(|fault| record_damaged(&raw.name, &fault))?;
        let signature = raw.signature.as_deref().and_then(|file| Signature::parse(file).ok());
        let key = signature.map(|s| signature::fingerprint(s.key())).unwrap_or_default();
        Ok(Past { entry, key })
    };
    raw.entries.iter().map(read).collect()
}

fn record_damaged(name: &str, fault: &entry::EntryFault) -> Refusal {
    let parts = [("name", name.into()), ("fault", fault.words().into())];
    Refusal::new("refusal-record-damaged", &parts)
}

/// What a person asks to sign.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Request {
    /// Values for blanks.
    pub readings: Vec<Value>,
    /// Steps done, or rows of them: `9`, `lockout.lock`, `9/mains`, `9.1`. A step alone stands for
    /// each of its rows that is not signed yet and that the person may sign.
    pub performed: Vec<String>,
    /// Steps checked, or rows of them, in the same way.
    pub verified: Vec<String>,
    /// Readings outside their limits and raised deviations to accept.
    pub accept: Vec<Acceptance>,
    /// Deviations to raise.
    pub raise: Vec<Raise>,
    /// Signatures and readings to take back.
    pub take_back: Vec<TakeBack>,
    /// Whether the machine is handed over to production.
    pub release: bool,
    /// How the record is closed without a release.
    pub close: Option<Close>,
    /// Whether who checks stayed outside the guards.
    pub outside: bool,
    /// A remark for each entry that has no reason of its own.
    pub note: Option<String>,
}

/// A value for a blank.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Value {
    /// Identifier of the blank.
    pub blank: String,
    /// The value as typed: `56.2` or `56.2 mm`.
    pub text: String,
    /// Identifier of the instrument; the packet's own when left out.
    pub instrument: Option<String>,
    /// `seq` of the reading it corrects.
    pub corrects: Option<u64>,
    /// Why; needed for a correction.
    pub note: Option<String>,
}

/// A reading outside its limits or a raised deviation, and why it may stay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Acceptance {
    /// `seq` of the entry.
    pub seq: u64,
    /// Why.
    pub reason: String,
}

/// Something that is not as it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Raise {
    /// A step, or a blank whose reading is meant.
    pub what: String,
    /// What is not right.
    pub reason: String,
}

/// A signature or a reading that is taken back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TakeBack {
    /// `seq` of the signature.
    pub seq: u64,
    /// Why.
    pub reason: String,
}

/// The end of a record that is not released.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Close {
    /// Digest of the packet that comes in the place of this one; none when the job is stopped for good.
    pub becomes: Option<String>,
    /// Why.
    pub reason: String,
    /// What became of locks and energy.
    pub locks: Option<String>,
}

/// The next entries, numbered and complete but for `prev`, which [`seal_all`] puts in.
///
/// # Errors
/// Every reason against any of them.
pub fn compose(desk: &Desk, request: &Request) -> Result<Vec<Entry>, Vec<Refusal>> {
    let mut draft = Draft::new(desk, request);
    request.take_back.iter().for_each(|signature| draft.take_back(signature));
    // In the order of the sheet, whatever the order in which they were typed.
    let mut asked: Vec<_> = request
        .readings
        .iter()
        .map(|value| (draft.place_of_blank(&value.blank), 0, Asked::Reading(value)))
        .collect();
    for (rank, meaning, steps) in
        [(1, Meaning::Performed, &request.performed), (2, Meaning::Verified, &request.verified)]
    {
        asked.extend(
            steps
                .iter()
                .map(|step| (draft.place_of_step(step), rank, Asked::Signature(step, meaning))),
        );
    }
    asked.sort_by_key(|(place, rank, _)| (*place, *rank));
    for (_, _, asked) in asked {
        match asked {
            Asked::Reading(value) => draft.reading(value),
            Asked::Signature(step, meaning) => draft.signature(step, meaning),
        }
    }
    request.raise.iter().for_each(|raise| draft.raise(raise));
    request.accept.iter().for_each(|acceptance| draft.acceptance(acceptance));
    if request.release {
        draft.release();
    }
    if let Some(close) = &request.close {
        draft.close(close);
    }
    draft.finish()
}

/// An entry with the bytes that go on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// The entry, whole.
    pub entry: Entry,
    /// Its bytes.
    pub json: Vec<u8>,
    /// Its signature file.
    pub signature: Vec<u8>,
}

/// Chains entries to the one before them and signs each.
///
/// `prev` is the digest of the last entry on record ([`chained`]), or 64 zeros.
///
/// # Errors
/// [`SignatureFault`] when the domain is empty.
pub fn seal_all(
    entries: Vec<Entry>,
    prev: &str,
    key: &SigningKey,
    domain: &str,
) -> Result<Vec<Signed>, SignatureFault> {
    let mut prev = prev.to_owned();
    let seal = |mut entry: Entry| {
        entry.prev.clone_from(&prev);
        let json = entry.bytes().map_err(|e| SignatureFault::Armour(e.to_string()))?;
        let signature = key.sign(&super::namespace(domain), &json)?.into_bytes();
        prev = chained(&json, &signature);
        Ok(Signed { entry, json, signature })
    };
    entries.into_iter().map(seal).collect()
}

/// What the next entry's `prev` has to be: SHA-256 over an entry's bytes and its signature's.
pub fn chained(json: &[u8], signature: &[u8]) -> String {
    canonical::sha256_hex_of(&[json, signature])
}

/// One thing asked for, to be put into the order of the sheet.
enum Asked<'a> {
    Reading(&'a Value),
    Signature(&'a str, Meaning),
}

struct Draft<'a> {
    desk: &'a Desk<'a>,
    note: Option<&'a str>,
    outside: bool,
    ledger: Ledger<'a>,
    next: u64,
    entries: Vec<Entry>,
    refusals: Vec<Refusal>,
}

impl<'a> Draft<'a> {
    fn new(desk: &'a Desk<'a>, request: &'a Request) -> Self {
        let mut ledger = Ledger::new(desk.packet);
        for past in desk.past {
            ledger.take(&past.entry, &past.key);
        }
        let next = desk.past.last().map_or(1, |past| past.entry.seq.saturating_add(1));
        let (note, outside) = (request.note.as_deref(), request.outside);
        Draft { desk, note, outside, ledger, next, entries: Vec::new(), refusals: Vec::new() }
    }

    fn finish(mut self) -> Result<Vec<Entry>, Vec<Refusal>> {
        if self.entries.is_empty() && self.refusals.is_empty() {
            self.refusals.push(nothing_asked());
        }
        let mut seen = BTreeSet::new();
        self.refusals.retain(|r| seen.insert((r.code, r.words.to_string())));
        if self.refusals.is_empty() { Ok(self.entries) } else { Err(self.refusals) }
    }

    /// Place of a blank's step on the sheet; unknown ones come last, to be refused.
    fn place_of_blank(&self, blank: &str) -> usize {
        self.ledger.blank(blank).map_or(usize::MAX, |(index, _)| index)
    }

    fn place_of_step(&self, name: &str) -> usize {
        let step = self.named(name);
        step.and_then(|(step, _)| self.ledger.step(&step.id)).map_or(usize::MAX, |(index, _)| index)
    }

    fn reading(&mut self, value: &Value) {
        let Some((index, blank)) = self.ledger.blank(&value.blank) else {
            self.refusals.push(rules::unknown_blank(&self.ledger, &value.blank));
            return;
        };
        let Some(step) = self.desk.packet.steps.get(index) else { return };
        let taken = match taken(self.desk.packet.language, blank, value) {
            Ok(taken) => taken,
            Err(refusal) => return self.refusals.push(refusal),
        };
        let signs = rules::signs_of(step, &blank.id);
        let asked: Vec<_> = signs.iter().map(|sign| sign.role.as_str()).collect();
        let mut entry = self.entry(Kind::Reading, step, self.role_among(&asked));
        entry.reading = Some(taken);
        entry.corrects = value.corrects;
        entry.note = value.note.clone().or(entry.note);
        self.add(entry);
    }

    fn signature(&mut self, name: &str, meaning: Meaning) {
        let Some((step, row)) = self.named(name) else {
            self.refusals.push(rules::unknown_step(&self.ledger, name));
            return;
        };
        let asked: Vec<&Sign> = step.signs.iter().filter(|sign| sign.meaning == meaning).collect();
        if asked.is_empty() {
            self.refusals.push(rules::not_asked(step, Kind::from(meaning)));
            return;
        }
        let rows = match row {
            Some(row) => vec![Some(row)],
            None => self.rows_to_sign(step, &asked),
        };
        for row in rows {
            let of_row = asked.iter().filter(|sign| sign.row == row);
            let mut roles: Vec<_> = of_row.map(|sign| sign.role.as_str()).collect();
            if roles.is_empty() {
                roles = asked.iter().map(|sign| sign.role.as_str()).collect();
            }
            let mut entry = self.entry(Kind::from(meaning), step, self.role_among(&roles));
            entry.row = row;
            entry.outside = self.outside && meaning == Meaning::Verified && self.asks_where(step);
            self.add(entry);
        }
    }

    /// The rows that somebody means who names a step: those not signed yet that this person may
    /// sign. When there is none, rows are meant that will be refused with the reason.
    fn rows_to_sign(&self, step: &Step, asked: &[&Sign]) -> Vec<Option<String>> {
        let day = self.desk.at.date_naive();
        let person = self.desk.people.get(self.desk.by);
        let index = self.ledger.step(&step.id).map(|(index, _)| index);
        let is_open = |sign: &Sign| index.is_some_and(|index| !self.ledger.has(index, sign));
        let may = |sign: &Sign| {
            sign.by.as_ref().is_none_or(|by| by == self.desk.by)
                && person.is_some_and(|person| person.holds(&sign.role, day))
        };
        let rows = |wanted: &dyn Fn(&Sign) -> bool| -> BTreeSet<&Option<String>> {
            asked.iter().filter(|sign| wanted(sign)).map(|sign| &sign.row).collect()
        };
        let meant = [rows(&|sign| is_open(sign) && may(sign)), rows(&may), rows(&is_open)];
        let meant = meant.into_iter().find(|rows| !rows.is_empty());
        let meant = meant.unwrap_or_else(|| rows(&|_| true));
        let order = step.rows().map(|row| Some(row.id.clone())).chain([None]);
        order.filter(|row| meant.contains(row)).collect()
    }

    /// Whether who checks a step has to say that the guard was not passed.
    fn asks_where(&self, step: &Step) -> bool {
        step.reaches_in() && self.ledger.knows_locks() && !self.ledger.has_lock_on(self.desk.by)
    }

    fn acceptance(&mut self, acceptance: &Acceptance) {
        let noted = self.ledger.readings.get(&acceptance.seq);
        let raised = self.ledger.raised.get(&acceptance.seq);
        let index = match raised {
            Some(raised) => self.ledger.step(&raised.step).map(|(index, _)| index),
            None => noted.and_then(|n| self.ledger.blank(&n.blank)).map(|(index, _)| index),
        };
        let Some(step) = index.and_then(|index| self.desk.packet.steps.get(index)) else {
            self.refusals.push(no_such_reading(acceptance.seq));
            return;
        };
        let role = self.desk.packet.accepts(step).unwrap_or(&self.desk.packet.accepts_deviation);
        let mut entry = self.entry(Kind::DeviationAccepted, step, role.to_owned());
        entry.accepts = Some(acceptance.seq);
        entry.note = Some(acceptance.reason.clone());
        self.add(entry);
    }

    fn raise(&mut self, raise: &Raise) {
        let blank = self.ledger.blank(&raise.what);
        let step = match blank {
            Some((index, _)) => self.desk.packet.steps.get(index),
            None => self.step_named(&raise.what),
        };
        let Some(step) = step else {
            return self.refusals.push(rules::unknown_step(&self.ledger, &raise.what));
        };
        let latest = blank.and_then(|(_, blank)| self.ledger.latest.get(blank.id.as_str()));
        if let (Some((_, blank)), None) = (blank, latest) {
            return self.refusals.push(nothing_read(blank));
        }
        let concerns = latest.map(|latest| latest.seq);
        let own = step.signs.iter().map(|sign| sign.role.as_str());
        let roles: Vec<&str> = own.chain(rules::roles_of(self.desk.packet)).collect();
        let mut entry = self.entry(Kind::DeviationRaised, step, self.role_among(&roles));
        entry.concerns = concerns;
        entry.note = Some(raise.reason.clone());
        self.add(entry);
    }

    fn take_back(&mut self, back: &TakeBack) {
        let stated = self.ledger.stated.get(&back.seq);
        let step = stated.and_then(|stated| self.desk.packet.steps.get(stated.step));
        let (Some(stated), Some(step)) = (stated, step) else {
            let why = self.ledger.why_not_back(back.seq);
            return self.refusals.push(rules::withdraw_target(back.seq, why));
        };
        let role = match stated.by == self.desk.by {
            true => self.role_among(&self.roles_held()),
            false => self.role_among(&Vec::from_iter(rules::may_close(self.desk.packet))),
        };
        let row = stated.row.clone();
        let mut entry = self.entry(Kind::Withdrawn, step, role);
        entry.row = row;
        entry.withdraws = Some(back.seq);
        entry.note = Some(back.reason.clone());
        self.add(entry);
    }

    /// Closes the record at the first step that is not finished.
    fn close(&mut self, close: &Close) {
        let missing = self.ledger.missing();
        let first = missing.first().and_then(|missing| self.ledger.step(missing.step()));
        let first = first.map(|(_, step)| step).or(self.desk.packet.steps.last());
        let Some(step) = first else { return };
        let kind = match close.becomes {
            Some(_) => Kind::Superseded,
            None => Kind::Abandoned,
        };
        let role = self.role_among(&Vec::from_iter(rules::may_close(self.desk.packet)));
        let mut entry = self.entry(kind, step, role);
        entry.becomes.clone_from(&close.becomes);
        entry.locks.clone_from(&close.locks);
        entry.note = Some(close.reason.clone());
        self.add(entry);
    }

    fn release(&mut self) {
        let releases = |step: &&Step| step.signs.iter().any(|s| s.meaning == Meaning::Released);
        match self.desk.packet.steps.iter().find(releases) {
            Some(step) => self.signature(&step.id, Meaning::Released),
            None => self.refusals.push(no_release_step()),
        }
    }

    /// A step by identifier or by the number printed on the sheet, with a row of it: `9/mains`, `9.1`.
    fn named(&self, name: &str) -> Option<(&'a Step, Option<String>)> {
        if let Some(step) = self.step_named(name) {
            return Some((step, None));
        }
        if let Some((step, row)) = name.split_once('/') {
            return Some((self.step_named(step)?, Some(row.to_owned())));
        }
        let step = self.step_named(name.split_once('.')?.0)?;
        let mut rows = step.rows().filter(|row| !row.id.is_empty());
        let row = rows.find(|row| step.row_number(&row.id).as_deref() == Some(name))?;
        Some((step, Some(row.id.clone())))
    }

    fn step_named(&self, name: &str) -> Option<&'a Step> {
        let number = name.parse::<u32>().ok();
        let steps = &self.desk.packet.steps;
        steps.iter().find(|step| step.id == name || Some(step.number) == number)
    }

    /// The first of the asked roles that the person holds that day, else the first, to be refused.
    fn role_among(&self, asked: &[&str]) -> String {
        let day = self.desk.at.date_naive();
        let person = self.desk.people.get(self.desk.by);
        let held = asked.iter().find(|role| person.is_some_and(|p| p.holds(role, day)));
        held.or(asked.first()).map_or_else(|| "none".to_owned(), |role| (*role).to_owned())
    }

    /// The roles that the person holds that day, in the order of people.yaml.
    fn roles_held(&self) -> Vec<&'a str> {
        let day = self.desk.at.date_naive();
        let terms = self.desk.people.get(self.desk.by).into_iter().flat_map(|one| &one.roles);
        terms.filter(|term| term.covers(day)).map(|term| term.role.as_str()).collect()
    }

    fn entry(&self, kind: Kind, step: &Step, role: String) -> Entry {
        let desk = self.desk;
        let name = desk.people.get(desk.by).map_or(desk.by, |person| &person.name);
        Entry {
            accepts: None,
            at: time::write(desk.at),
            becomes: None,
            by: desk.by.to_owned(),
            concerns: None,
            corrects: None,
            job: desk.packet.job.id.clone(),
            kind,
            locks: None,
            machine: desk.packet.machine.id.clone(),
            meaning: kind.meaning().to_owned(),
            name: name.to_owned(),
            note: self.note.map(str::to_owned),
            outside: false,
            packet: desk.digest.to_owned(),
            prev: entry::NO_PREVIOUS.to_owned(),
            reading: None,
            role,
            row: None,
            seq: self.next,
            step: step.id.clone(),
            v: VERSION,
            withdraws: None,
        }
    }

    /// Asks the rules, and takes the entry in whatever they say: later parts of the request are
    /// then judged for themselves.
    fn add(&mut self, entry: Entry) {
        let desk = self.desk;
        let found = rules::check(&self.ledger, desk.digest, desk.people, &entry, desk.key);
        self.refusals.extend(found);
        self.refusals.extend(entry::faults(&entry).iter().map(not_writable));
        if entry.bytes().is_ok_and(|bytes| bytes.len() > MOST_BYTES) {
            self.refusals.push(not_writable(&entry::EntryFault::TooLong));
        }
        self.ledger.take(&entry, desk.key);
        self.entries.push(entry);
        self.next = self.next.saturating_add(1);
    }
}

/// Decimals of a fraction that is typed: those of 1/128.
const FRACTION_PLACES: u32 = 7;

/// A typed value, judged by the limits of its blank.
fn taken(language: Language, blank: &Reading, value: &Value) -> Result<Taken, Refusal> {
    let refused = || value_form(language, blank, value.text.trim());
    let text = with_point(language, &with_hyphen(value.text.trim())).ok_or_else(refused)?;
    let (number, unit) = number_and_unit(blank, &text);
    let (number, unit) = (number.as_str(), unit.as_deref());
    // What begins with a digit is no unit but the rest of a fraction that could not be read.
    let is_torn = unit.is_some_and(|unit| unit.starts_with(|first: char| first.is_ascii_digit()));
    if is_torn || decimal::Decimal::parse(number).is_none() {
        return Err(refused());
    }
    if let Some(unit) = unit.filter(|unit| *unit != blank.unit) {
        return Err(rules::unit_differs(&blank.id, &blank.unit, unit));
    }
    let (low, high) = (blank.low.clone(), blank.high.clone());
    let verdict = rules::verdict(blank, number).ok_or_else(|| limits_unreadable(&blank.id))?;
    if let Some(refusal) = finer_than_shown(blank, number).or_else(|| other_sign(blank, number)) {
        return Err(refusal);
    }
    let listed = blank.instrument.as_ref().map(|instrument| instrument.id.clone());
    Ok(Taken {
        blank: blank.id.clone(),
        high,
        instrument: value.instrument.clone().or(listed),
        low,
        unit: blank.unit.clone(),
        value: number.to_owned(),
        verdict,
    })
}

/// Whether a typed value is the one on record: `0` is `0.0`, and `2 7/32` its decimal.
pub(crate) fn is_same_value(blank: &Reading, typed: &str, recorded: &str) -> bool {
    let (number, unit) = number_and_unit(blank, &with_hyphen(typed.trim()));
    let numbers = (decimal::Decimal::parse(&number), decimal::Decimal::parse(recorded));
    unit.is_none_or(|unit| unit == blank.unit)
        && matches!(numbers, (Some(typed), Some(recorded)) if typed == recorded)
}

/// Why a reading that is signed already would not have been taken from somebody who types it.
pub(crate) fn not_typable(blank: &Reading, reading: &Taken) -> Option<Refusal> {
    let text = reading.value.clone();
    // On record a number has a point in every language.
    taken(Language::English, blank, &Value { text, ..Value::default() }).err()
}

/// A value copied from a sheet, which prints a true minus and a space that does not break.
fn with_hyphen(text: &str) -> String {
    let text = text.replace('\u{a0}', " ");
    match text.strip_prefix('\u{2212}') {
        Some(rest) => format!("-{rest}"),
        None => text,
    }
}

/// A value with the point of a record, from the decimal sign of the language. None when nobody can
/// tell: `2.500` is two and a half or two thousand where people write a comma.
fn with_point(language: Language, text: &str) -> Option<String> {
    let number = text.split(' ').next().unwrap_or_default();
    if language.decimal_sign() != ',' {
        return Some(text.to_owned());
    }
    match (number.matches(',').count(), number.rsplit_once('.')) {
        (1, None) => Some(text.replacen(',', ".", 1)),
        (0, Some((_, places))) if places.len() == 3 => None,
        _ => Some(text.to_owned()),
    }
}

/// The denominator of the marks of a blank's instrument, when it is marked in fractions.
fn marks(blank: &Reading) -> Option<u32> {
    fraction_of(&blank.instrument.as_ref()?.resolution)
}

/// A typed value in its two parts. A fraction read from a rule that is marked in fractions becomes its
/// decimal, which is exact for every power of two: `2 7/32 in` is `2.21875` and `in`.
fn number_and_unit(blank: &Reading, text: &str) -> (String, Option<String>) {
    let fraction = Measure::parse(text).ok().filter(|_| marks(blank).is_some());
    let exact = fraction.and_then(|measure| {
        let number = measure.number().ok()?;
        Some((number.decimal(number.exact_places(FRACTION_PLACES)?), measure.unit))
    });
    if let Some((number, unit)) = exact {
        return (number, unit.map(ToString::to_string));
    }
    match text.split_once(' ') {
        Some((number, unit)) => (number.to_owned(), Some(unit.trim().to_owned())),
        None => (text.to_owned(), None),
    }
}

/// A value far finer than the instrument shows was not read from it. One more decimal may be: people
/// read a rule to half a division.
fn finer_than_shown(blank: &Reading, number: &str) -> Option<Refusal> {
    let resolution = blank.instrument.as_ref()?.resolution.as_str();
    let shown = decimals_in(resolution.split(' ').next().unwrap_or_default());
    let asked = [&blank.target, &blank.low, &blank.high].into_iter().flatten();
    let most = asked.map(|text| decimals_in(text)).max().unwrap_or(0).max(shown);
    (decimals_in(number) > most + 1).then(|| {
        let parts = [
            ("number", number.into()),
            ("blank", (&blank.id).into()),
            ("resolution", resolution.into()),
        ];
        Refusal::new("refusal-value-finer", &parts)
    })
}

/// Positions left of the datum are negative; a caliper does not show the sign.
fn other_sign(blank: &Reading, number: &str) -> Option<Refusal> {
    let (low, high) = (blank.low.as_deref()?, blank.high.as_deref()?);
    let left = low.starts_with('-') && high.starts_with('-');
    let negative = format!("-{number}");
    let meant = left && !number.starts_with('-');
    let fits = decimal::within(&negative, Some(low), Some(high)) == Some(true);
    (meant && fits).then(|| {
        let parts = [
            ("number", number.into()),
            ("blank", (&blank.id).into()),
            ("negative", negative.into()),
        ];
        Refusal::new("refusal-value-sign", &parts)
    })
}

fn value_form(language: Language, blank: &Reading, text: &str) -> Refusal {
    let text: String = text.chars().take(40).collect();
    let way_out = match marks(blank) {
        Some(marks) => Words::new("refusal-write-fraction", &[("marks", marks.to_string().into())]),
        None if language.decimal_sign() == ',' => Words::of("refusal-write-comma"),
        None => Words::of("refusal-write-digits"),
    };
    let parts = [
        ("text", entry::shown(&text).into()),
        ("blank", (&blank.id).into()),
        ("remedy", way_out.into()),
    ];
    Refusal::new("refusal-decimal-form", &parts)
}

fn limits_unreadable(blank: &str) -> Refusal {
    Refusal::new("refusal-limits-unreadable", &[("blank", blank.into())])
}

fn no_such_reading(seq: u64) -> Refusal {
    rules::acceptance_target(seq, "refusal-accept-no-reading")
}

fn nothing_read(blank: &Reading) -> Refusal {
    let words = Words::new("entries-nothing-read", &[("blank", (&blank.id).into())]);
    Refusal::coded("raise-target", words)
}

fn no_release_step() -> Refusal {
    Refusal::coded("signature-not-asked", Words::of("refusal-no-release-step"))
}

fn nothing_asked() -> Refusal {
    Refusal::new("refusal-nothing-asked", &[])
}

pub(crate) fn not_writable(fault: &entry::EntryFault) -> Refusal {
    let words = Words::new("refusal-not-writable", &[("fault", fault.words().into())]);
    Refusal::coded(fault.code(), words)
}

#[cfg(test)]
mod tests {
    use super::{Acceptance, Request, Value, compose, past};
    use crate::language::Language;
    use crate::packet::model::{Guard, Reading};
    use crate::record::fixture::{self, Crew, VERIFY_READING};
    use crate::record::state::{State, standing};

    fn value(blank: &str, text: &str) -> Value {
        Value { blank: blank.to_owned(), text: text.to_owned(), ..Value::default() }
    }

    /// Composes after the first entries of the good record and wants exactly these rules.
    #[track_caller]
    fn check(after: u64, who: Crew, request: &Request, expected: &[&str]) {
        let past = fixture::past(after);
        let packet = fixture::packet();
        let digest = fixture::digest();
        let people = fixture::people();
        let desk = fixture::desk(&packet, &digest, &people, &past, who);
        let codes = match compose(&desk, request) {
            Ok(_) => Vec::new(),
            Err(refusals) => {
                let told = refusals.iter().map(|refusal| refusal.told(Language::English));
                let mut told = told.map(|told| [told.words, told.way_out]);
                assert!(told.all(|texts| texts.iter().all(|text| !text.is_empty())));
                refusals.into_iter().map(|r| r.code).collect()
            }
        };
        assert_eq!(codes, expected);
    }

    fn performed(step: &str) -> Request {
        Request { performed: vec![step.to_owned()], ..Request::default() }
    }

    fn verified(step: &str) -> Request {
        Request { verified: vec![step.to_owned()], ..Request::default() }
    }

    fn reading(blank: &str, text: &str) -> Request {
        Request { readings: vec![value(blank, text)], ..Request::default() }
    }

    const RELEASE: fn() -> Request = || Request { release: true, ..Request::default() };

    #[test]
    fn the_good_record_is_released_with_its_deviation() {
        let entries: Vec<_> = fixture::past(u64::MAX).into_iter().map(|p| p.entry).collect();
        let packet = fixture::packet();
        let found = standing(&packet, &entries);
        assert_eq!((found.state, found.missing.len()), (State::ReleasedWithDeviation, 0));
        let states: Vec<_> =
            (0..=entries.len()).map(|n| standing(&packet, &entries[..n]).state).collect();
        assert!(states.is_sorted(), "{states:?}");
        assert_eq!(states[entries.len() - 1], State::Verified);
    }

    #[test]
    fn nothing_is_refused_when_nothing_is_wrong() {
        check(0, Crew::Doer, &performed("lockout.tell"), &[]);
        check(0, Crew::Doer, &performed("1"), &[]);
    }

    #[test]
    fn names_are_known() {
        check(0, Crew::Doer, &performed("lockout.tel"), &["step-unknown"]);
        check(0, Crew::Doer, &performed("99"), &["step-unknown"]);
        check(0, Crew::Doer, &reading("knives.set/posit-1", "1"), &["blank-unknown"]);
        check(0, Crew::Doer, &Request::default(), &["nothing-asked"]);
        check(0, Crew::Doer, &performed("guides.keep"), &["step-stays"]);
        check(0, Crew::Nobody, &performed("lockout.tell"), &["person-unknown"]);
    }

    #[test]
    fn the_nearest_name_is_offered() {
        let (packet, digest, people) = (fixture::packet(), fixture::digest(), fixture::people());
        let desk = fixture::desk(&packet, &digest, &people, &[], Crew::Doer);
        let refusals = compose(&desk, &performed("lockout.tel")).unwrap_err();
        assert_eq!(refusals[0].words.way_out().to_string(), "did you mean lockout.tell?");
    }

    #[test]
    fn values_are_plain_decimals_in_the_unit_of_the_blank() {
        for text in ["", "abc", "56,2", "+1", "1e3", "1/2", "0x10"] {
            check(2, Crew::Doer, &reading(VERIFY_READING, text), &["decimal-form"]);
        }
        check(2, Crew::Doer, &reading(VERIFY_READING, "0"), &[]);
        check(2, Crew::Doer, &reading(VERIFY_READING, "0 V"), &[]);
        check(2, Crew::Doer, &reading(VERIFY_READING, "0 mV"), &["unit-differs"]);
    }

    /// Types a value for a blank between -85 and 15, and wants what is stored or the way out.
    #[track_caller]
    fn check_typed(resolution: &str, unit: &str, text: &str, expected: Result<&str, &str>) {
        check_typed_in(Language::English, resolution, unit, text, expected);
    }

    #[track_caller]
    fn check_typed_in(
        language: Language,
        resolution: &str,
        unit: &str,
        text: &str,
        expected: Result<&str, &str>,
    ) {
        let packet = fixture::packet();
        let mut blanks = packet.steps.iter().flat_map(|step| &step.readings);
        let mut blank = blanks.find(|reading| reading.id == VERIFY_READING).unwrap().clone();
        let some = |text: &str| Some(text.to_owned());
        (blank.low, blank.high, blank.unit) =
            (some("-85.00000"), some("15.00000"), unit.to_owned());
        blank.instrument.as_mut().unwrap().resolution = resolution.to_owned();
        let taken = super::taken(language, &blank, &value(VERIFY_READING, text));
        let told = taken.map(|taken| taken.value).map_err(|refusal| {
            let refusal = refusal.told(Language::English);
            assert_eq!(
                refusal.code,
                if refusal.expected.is_empty() { "decimal-form" } else { "unit-differs" }
            );
            refusal.way_out
        });
        assert_eq!(told.as_deref().map_err(String::as_str), expected, "{text}");
    }

    #[test]
    fn the_minus_of_the_sheet_is_stored_as_a_hyphen() {
        check_typed("0.5 mm", "mm", "\u{2212}84.0", Ok("-84.0"));
        check_typed("0.5 mm", "mm", "\u{2212}84.0\u{a0}mm", Ok("-84.0"));
        check_typed("1/32 in", "in", "\u{2212}2 7/32 in", Ok("-2.21875"));
        let decimals = Err("write digits with a point, like 56.2; no comma, no exponent");
        check_typed("0.5 mm", "mm", "\u{2212}\u{2212}84.0", decimals);
        check_typed("0.5 mm", "mm", "\u{2212}", decimals);
    }

    #[test]
    fn a_decimal_comma_is_read_where_the_language_writes_one() {
        use Language::{English, German, LatinSpanish, Spanish};
        let point = Err("write digits with a point, like 56.2; no comma, no exponent");
        let comma = Err("write digits with a comma, like 56,2; no point between thousands");
        check_typed_in(Spanish, "0.1 bar", "bar", "6,2", Ok("6.2"));
        check_typed_in(German, "0.1 bar", "bar", "\u{2212}6,2\u{a0}bar", Ok("-6.2"));
        check_typed_in(Spanish, "0.001 bar", "bar", "2,500", Ok("2.500"));
        check_typed_in(Spanish, "0.1 bar", "bar", "6.2", Ok("6.2"));
        for text in ["2.500", "2.500,0", "2,5,0"] {
            check_typed_in(Spanish, "0.001 bar", "bar", text, comma);
        }
        for language in [English, LatinSpanish] {
            check_typed_in(language, "0.001 bar", "bar", "2,500", point);
            check_typed_in(language, "0.001 bar", "bar", "2.500", Ok("2.500"));
        }
    }

    #[test]
    fn a_fraction_that_cannot_be_read_is_no_value() {
        let fractions =
            Err("write a fraction of the marks, like 2 1/32, or digits with a point, like 2.25");
        for text in ["14 31/33", "14 1/0", "14 1/0 in", "1/3", "14 31/", "14 31", "14 1/3/5 in"] {
            check_typed("1/32 in", "in", text, fractions);
        }
        let decimals = Err("write digits with a point, like 56.2; no comma, no exponent");
        check_typed("0.5 mm", "mm", "14 31/32", decimals);
        check_typed("1/32 in", "in", "14 31/32", Ok("14.96875"));
        check_typed("1/32 in", "in", "14 31/32 mm", Err("measure in inches"));
    }

    #[test]
    fn a_rule_marked_in_fractions_is_read_in_fractions() {
        let check = |text: &str, number: &str, unit: Option<&str>| {
            let (packet, blank) = (fixture::packet(), VERIFY_READING);
            let steps = packet.steps.iter().flat_map(|step| &step.readings);
            let mut blank = steps.clone().find(|reading| reading.id == blank).unwrap().clone();
            blank.instrument.as_mut().unwrap().resolution = "1/32 in".to_owned();
            let read = super::number_and_unit(&blank, text);
            assert_eq!((read.0.as_str(), read.1.as_deref()), (number, unit));
        };
        check("2 7/32 in", "2.21875", Some("in"));
        check("2 7/32", "2.21875", None);
        check("-1/4", "-0.25", None);
        check("2.25", "2.25", None);
        check("1/3", "1/3", None);
    }

    /// Limits and uncertainty of a rule against a stop: 56 mm ±0.5 mm, U = 0.233 mm (worked with the
    /// rules of JCGM 100:2008; ISO 14253-1 from memory).
    #[test]
    fn with_a_guard_band_a_reading_near_a_limit_is_too_close_to_tell() {
        let packet = fixture::packet();
        let mut blank = packet.steps.iter().flat_map(|step| &step.readings).next().unwrap().clone();
        let some = |text: &str| Some(text.to_owned());
        (blank.low, blank.high) = (some("55.5"), some("56.5"));
        blank.guard = Some(Guard {
            uncertainty: "0.233".to_owned(),
            low: some("55.733"),
            high: some("56.267"),
            outer_low: some("55.267"),
            outer_high: some("56.733"),
        });
        let check = |value: &str, expected: &str| {
            assert_eq!(crate::record::rules::verdict(&blank, value).unwrap().word(), expected);
        };
        check("55.25", "outside");
        check("55.267", "too close to tell");
        check("55.5", "too close to tell");
        check("55.732", "too close to tell");
        check("55.733", "within");
        check("56", "within");
        check("56.25", "within");
        check("56.5", "too close to tell");
        check("56.75", "outside");
        let sure = |low: Option<String>, high: Option<String>, blank: &Reading| {
            let guard = Guard { low, high, ..blank.guard.clone().unwrap() };
            let blank = Reading { guard: Some(guard), unit: "mm".to_owned(), ..blank.clone() };
            crate::record::rules::surely_within(&blank).map(|sure| sure.to_string())
        };
        let words = |text: &str| some(&format!("surely within {text}"));
        assert_eq!(sure(some("-2"), some("1"), &blank), words("from -2 to 1 mm"));
        assert_eq!(sure(None, some("1"), &blank), words("up to 1 mm"));
        assert_eq!(sure(some("1"), some("1"), &blank), words("from 1 to 1 mm"));
        assert_eq!(sure(some("1.1"), some("1"), &blank), some("no reading is surely within"));
        assert_eq!(sure(None, None, &blank), None);
    }

    #[test]
    fn a_value_is_what_the_instrument_shows_with_its_sign() {
        let blank = "knives.set/position-1";
        check(4, Crew::Doer, &reading(blank, "84.0"), &["value-sign"]);
        check(4, Crew::Doer, &reading(blank, "-84.0123"), &["value-finer"]);
        // Half a division may be read; a value far off is kept as it is.
        check(4, Crew::Doer, &reading(blank, "-84.25"), &[]);
        check(4, Crew::Doer, &reading(blank, "184.0"), &[]);
    }

    #[test]
    fn a_zero_that_is_none_stops_the_work_and_cannot_be_accepted() {
        let (packet, digest, people) = (fixture::packet(), fixture::digest(), fixture::people());
        let mut past = fixture::past(2);
        let desk = fixture::desk(&packet, &digest, &people, &past, Crew::Doer);
        let live = compose(&desk, &reading(VERIFY_READING, "230")).unwrap().remove(0);
        let seq = live.seq;
        past.push(super::Past { entry: live, key: Crew::Doer.key().to_owned() });
        let codes = |who, request: &Request| -> Vec<_> {
            let desk = fixture::desk(&packet, &digest, &people, &past, who);
            compose(&desk, request).unwrap_err().into_iter().map(|refusal| refusal.code).collect()
        };
        assert_eq!(codes(Crew::Doer, &performed("lockout.prove")), ["zero-not-proved"]);
        let accept = vec![Acceptance { seq, reason: "it is only a little".to_owned() }];
        let accept = Request { accept, ..Request::default() };
        assert_eq!(codes(Crew::Quality, &accept), ["never-accepted"]);
        assert_eq!(codes(Crew::Doer, &reading("knives.set/position-1", "-84.0")), ["step-order"]);
    }

    #[test]
    fn a_blank_that_nobody_accepts_stops_its_step_and_what_follows() {
        let (mut packet, digest, people) =
            (fixture::packet(), fixture::digest(), fixture::people());
        let hot = packet.steps.iter_mut().find(|step| step.id == "knives.set").unwrap();
        hot.readings[0].never_accepted = true;
        let blank = hot.readings[0].id.clone();
        packet.steps.iter_mut().for_each(|step| step.stays = None);
        let mut past = fixture::past(4);
        let desk = fixture::desk(&packet, &digest, &people, &past, Crew::Doer);
        let outside = compose(&desk, &reading(&blank, "-184.0")).unwrap().remove(0);
        let seq = outside.seq;
        past.push(super::Past { entry: outside, key: Crew::Doer.key().to_owned() });
        let codes = |who, request: &Request| -> Vec<_> {
            let desk = fixture::desk(&packet, &digest, &people, &past, who);
            compose(&desk, request).unwrap_err().into_iter().map(|refusal| refusal.code).collect()
        };
        let accept = vec![Acceptance { seq, reason: "gloves are on".to_owned() }];
        let accept = Request { accept, ..Request::default() };
        assert_eq!(codes(Crew::Quality, &accept), ["never-accepted"]);
        assert!(codes(Crew::Doer, &performed("knives.set")).contains(&"still-outside"));
        assert_eq!(codes(Crew::Doer, &performed("guides.keep")), ["step-order"]);
    }

    #[test]
    fn what_is_asked_comes_in_the_order_of_the_sheet() {
        let (packet, digest, people) = (fixture::packet(), fixture::digest(), fixture::people());
        let past = fixture::past(2);
        let desk = fixture::desk(&packet, &digest, &people, &past, Crew::Doer);
        let mut request = performed("lockout.prove");
        request.readings =
            vec![value("knives.set/position-1", "-84.0"), value(VERIFY_READING, "0")];
        let entries = compose(&desk, &request).unwrap();
        let steps: Vec<&str> = entries.iter().map(|entry| entry.step.as_str()).collect();
        assert_eq!(steps, ["lockout.prove", "lockout.prove", "knives.set"]);
    }

    #[test]
    fn an_outside_reading_is_kept_and_judged() {
        let (packet, digest, people) = (fixture::packet(), fixture::digest(), fixture::people());
        let past = fixture::past(2);
        let desk = fixture::desk(&packet, &digest, &people, &past, Crew::Doer);
        let entries = compose(&desk, &reading(VERIFY_READING, "12")).unwrap();
        let taken = entries[0].reading.as_ref().unwrap();
        assert_eq!((taken.value.as_str(), taken.verdict.word()), ("12", "outside"));
    }

    /// What was signed of the packet that is signed row by row: requests in turn, by whom.
    fn rows_after(requests: &[(Crew, &Request)]) -> Result<Vec<super::Past>, Vec<&'static str>> {
        let (packet, digest) = (fixture::by_row(), fixture::digest());
        let people = fixture::people();
        let mut past = Vec::new();
        for (who, request) in requests {
            let desk = fixture::desk(&packet, &digest, &people, &past, *who);
            let entries = compose(&desk, request).map_err(|refusals| {
                refusals.into_iter().map(|refusal| refusal.code).collect::<Vec<_>>()
            })?;
            let key = who.key().to_owned();
            past.extend(entries.into_iter().map(|entry| super::Past { entry, key: key.clone() }));
        }
        Ok(past)
    }

    /// Wants the rows that the last request signed, or the reasons against it.
    #[track_caller]
    fn check_rows(requests: &[(Crew, &Request)], expected: Result<&[&str], &[&str]>) {
        let before = rows_after(&requests[..requests.len() - 1]).unwrap().len();
        let made = rows_after(requests);
        let rows: Result<Vec<&str>, _> = made.as_ref().map(|past| {
            past[before..].iter().map(|past| past.entry.row.as_deref().unwrap_or("")).collect()
        });
        assert_eq!(rows.as_deref().map_err(|codes| codes.as_slice()), expected);
    }

    #[test]
    fn a_step_of_several_sources_is_signed_source_by_source() {
        let (own, other) = (performed("1"), performed("lockout.tell"));
        let told = [(Crew::Doer, &own), (Crew::Both, &other)];
        let after = |more: &[(Crew, &Request)], expected: Result<&[&str], &[&str]>| {
            let all: Vec<_> = told.iter().chain(more).copied().collect();
            check_rows(&all, expected);
        };
        let (mains, air) = (performed("2/mains"), performed("2.2"));
        let (step, reading) = (performed("2"), reading(VERIFY_READING, "0"));
        after(&[(Crew::Doer, &mains)], Ok(&["mains"]));
        after(&[(Crew::Doer, &step)], Ok(&["mains", "air"]));
        after(&[(Crew::Doer, &mains), (Crew::Doer, &step)], Ok(&["air"]));
        after(&[(Crew::Doer, &mains), (Crew::Doer, &air)], Ok(&["air"]));
        after(&[(Crew::Doer, &mains), (Crew::Doer, &mains)], Err(&["signed-twice"]));
        after(&[(Crew::Doer, &step), (Crew::Doer, &step)], Err(&["signed-twice"; 2]));
        after(&[(Crew::Doer, &performed("2/steam"))], Err(&["row-unknown"]));
        after(&[(Crew::Doer, &performed("2.3"))], Err(&["step-unknown"]));
        after(&[(Crew::Doer, &performed("9/mains"))], Err(&["step-unknown"]));
        // One source that is not isolated holds up the proof, whoever signs it.
        after(&[(Crew::Doer, &mains), (Crew::Both, &reading)], Err(&["step-order"]));
        after(&[(Crew::Doer, &step), (Crew::Both, &reading)], Ok(&[""]));
    }

    #[test]
    fn each_source_is_proved_by_its_role_and_checked_by_another_person() {
        let (own, step) = (performed("1"), performed("2"));
        let held = [(Crew::Doer, &own), (Crew::Both, &own), (Crew::Doer, &step)];
        let after = |more: &[(Crew, &Request)], expected: Result<&[&str], &[&str]>| {
            let all: Vec<_> = held.iter().chain(more).copied().collect();
            check_rows(&all, expected);
        };
        let (zero, prove, checked) = (reading(VERIFY_READING, "0"), performed("3"), verified("3"));
        after(&[(Crew::Doer, &zero)], Err(&["role-not-held"]));
        after(&[(Crew::Lead, &zero), (Crew::Doer, &prove)], Ok(&["air"]));
        after(&[(Crew::Lead, &prove)], Err(&["before-readings"]));
        after(&[(Crew::Lead, &zero), (Crew::Lead, &prove)], Ok(&["mains"]));
        after(&[(Crew::Lead, &zero), (Crew::Both, &prove)], Ok(&["mains", "air"]));
        let air = verified("3/air");
        after(&[(Crew::Doer, &prove), (Crew::Quality, &air)], Ok(&["air"]));
        after(
            &[(Crew::Doer, &prove), (Crew::Quality, &checked)],
            Err(&["before-readings", "before-performed"]),
        );
        // A corrected reading takes back what was signed of its row, and nothing else.
        let again = Value {
            corrects: Some(5),
            note: Some("misread".to_owned()),
            ..value(VERIFY_READING, "0")
        };
        let again = Request { readings: vec![again], ..Request::default() };
        let proved = [(Crew::Lead, &zero), (Crew::Both, &prove), (Crew::Both, &again)];
        let lacks = rows_after(&[&held[..], &proved[..]].concat()).unwrap();
        let lacks = standing(&fixture::by_row(), lacks.iter().map(|past| &past.entry)).missing;
        let words: Vec<String> = lacks.iter().map(|lack| lack.words().to_string()).collect();
        assert!(
            words.contains(&"lockout.prove/mains is not signed as performed (lead)".to_owned())
        );
        assert!(!words.iter().any(|words| words.contains("air is not signed as performed")));
    }

    #[test]
    fn a_personal_lock_is_signed_by_its_owner_and_waited_for() {
        let (own, step) = (performed("1"), performed("2"));
        check_rows(&[(Crew::Doer, &own)], Ok(&["a.doer@plant.example"]));
        let other = performed("1/e.both@plant.example");
        check_rows(&[(Crew::Doer, &other)], Err(&["row-of-another"]));
        check_rows(&[(Crew::Doer, &own), (Crew::Doer, &own)], Err(&["signed-twice"]));
        check_rows(
            &[(Crew::Lead, &own)],
            Err(&["role-not-held", "row-of-another", "row-of-another"]),
        );
        check_rows(&[(Crew::Doer, &own), (Crew::Doer, &step)], Err(&["step-order"]));
    }

    #[test]
    fn roles_are_held_that_day() {
        check(0, Crew::Lead, &performed("lockout.tell"), &["role-not-held"]);
        check(0, Crew::Former, &performed("lockout.tell"), &["role-not-held"]);
    }

    #[test]
    fn energy_is_away_before_the_work_and_back_after_it() {
        check(0, Crew::Doer, &performed("lockout.isolate"), &["step-order"]);
        check(2, Crew::Doer, &reading("knives.set/position-1", "-84.0"), &["step-order"]);
        check(4, Crew::Doer, &performed("release.unlock"), &["step-order"]);
        check(4, Crew::Doer, &reading("knives.set/position-1", "-84.0"), &[]);
    }

    #[test]
    fn readings_come_before_the_signature() {
        check(4, Crew::Doer, &performed("knives.set"), &["before-readings"]);
        let both = Request {
            readings: vec![value(VERIFY_READING, "0")],
            performed: vec!["lockout.prove".to_owned()],
            ..Request::default()
        };
        check(2, Crew::Doer, &both, &[]);
    }

    #[test]
    fn nobody_checks_their_own_work() {
        check(8, Crew::Both, &verified("knives.set"), &[]);
        check(8, Crew::Doer, &verified("knives.set"), &["role-not-held", "same-person"]);
        check(7, Crew::Lead, &verified("knives.set"), &["before-performed"]);
        check(8, Crew::LeadWithDoersKey, &verified("knives.set"), &["same-person"]);
    }

    #[test]
    fn a_second_reading_is_a_correction_with_a_reason() {
        let blank = "knives.set/position-1";
        check(5, Crew::Doer, &reading(blank, "-84.1"), &["reading-twice"]);
        let correct = |corrects: u64, note: Option<&str>| {
            let note = note.map(str::to_owned);
            let value = Value { corrects: Some(corrects), note, ..value(blank, "-84.1") };
            Request { readings: vec![value], ..Request::default() }
        };
        check(5, Crew::Doer, &correct(5, Some("misread")), &[]);
        check(5, Crew::Doer, &correct(5, None), &["missing-field"]);
        check(5, Crew::Doer, &correct(3, Some("misread")), &["correction-target"]);
        check(4, Crew::Doer, &correct(5, Some("misread")), &["correction-target"]);
    }

    #[test]
    fn a_corrected_reading_takes_the_signatures_of_its_step_back() {
        let mut entries: Vec<_> = fixture::past(9).into_iter().map(|p| p.entry).collect();
        let lacks = |entries: &[_]| standing(&fixture::packet(), entries).missing.len();
        let before = lacks(&entries);
        let mut again = entries[4].clone();
        (again.seq, again.corrects) = (10, Some(5));
        entries.push(again);
        assert_eq!(lacks(&entries), before + 2);
    }

    #[test]
    fn deviations_are_accepted_by_the_right_role_once() {
        let accept = |seq: u64| Request {
            accept: vec![Acceptance { seq, reason: "holds by test strip".to_owned() }],
            ..Request::default()
        };
        check(9, Crew::Quality, &accept(7), &[]);
        check(9, Crew::Doer, &accept(7), &["role-not-held"]);
        check(9, Crew::Quality, &accept(5), &["acceptance-target"]);
        check(9, Crew::Quality, &accept(1), &["acceptance-target"]);
        check(10, Crew::Quality, &accept(7), &["accepted-twice"]);
        let no_reason = Request {
            accept: vec![Acceptance { seq: 7, reason: String::new() }],
            ..Request::default()
        };
        check(9, Crew::Quality, &no_reason, &["text-form"]);
    }

    #[test]
    fn the_release_is_last() {
        check(12, Crew::Lead, &RELEASE(), &[]);
        check(11, Crew::Lead, &RELEASE(), &["release-incomplete"]);
        check(9, Crew::Lead, &RELEASE(), &["release-incomplete", "release-deviation"]);
        check(13, Crew::Lead, &RELEASE(), &["after-release", "signed-twice"]);
    }

    #[test]
    fn time_runs_forward() {
        check(4, Crew::Early, &reading("knives.set/position-1", "-84.0"), &["time-backwards"]);
        check(0, Crew::Early, &performed("lockout.tell"), &["before-packet"]);
    }

    #[test]
    fn text_without_control_characters_is_written() {
        let note = Some("a\u{202e}b".to_owned());
        check(0, Crew::Doer, &Request { note, ..performed("lockout.tell") }, &["text-form"]);
        let note = Some("n".repeat(70_000));
        check(0, Crew::Doer, &Request { note, ..performed("lockout.tell") }, &["entry-too-long"]);
    }

    #[test]
    fn the_entries_on_record_are_read_back_with_their_keys() {
        let mut raw = fixture::raw();
        let entries = past(&raw).unwrap();
        let sealed = fixture::signed();
        assert!(entries.iter().map(|p| &p.entry).eq(sealed.iter().map(|s| &s.entry)));
        assert_eq!(entries[0].key, fixture::key_of("a.doer").public().fingerprint());
        assert_ne!(entries[8].key, entries[0].key);
        raw.entries[4].json.pop();
        assert_eq!(past(&raw).unwrap_err().code, "record-damaged");
    }

    #[test]
    fn all_reasons_are_told_at_once() {
        let request = Request {
            readings: vec![value("nothing", "1"), value(VERIFY_READING, "1,5")],
            performed: vec!["lockout.tell".to_owned(), "knives.set".to_owned()],
            release: true,
            ..Request::default()
        };
        let expected = [
            "decimal-form",
            "step-order",
            "before-readings",
            "blank-unknown",
            "role-not-held",
            "release-incomplete",
        ];
        check(0, Crew::Doer, &request, &expected);
    }
}
