//! The audit of one record, from bytes to findings.
//!
//! Rules about what may come next are those of [`crate::record::rules`]; here stands only what a
//! writer cannot get wrong and a tamperer can: bytes, numbers, chain, signatures, files.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset};

use super::{
    AuditFinding, AuditedEntry, Report, Severity, StatedReading, Statement, Subject, clock,
};
use crate::canonical;
use crate::language::{Language, Words};
use crate::packet::model::{self, Reading};
use crate::packet::{self, Packet};
use crate::record::entry::{
    self, Entry, NO_PREVIOUS, ReadEntry, Taken, Verdict, first_difference, shown,
};
use crate::record::job_of;
use crate::record::rules::{self, Refusal};
use crate::record::signature::{self, PublicKey, Signature, SignatureFault};
use crate::record::state::{Ledger, Missing};
use crate::record::store::{RawEntry, RawRecord, SET_ASIDE, UNFINISHED, WITHOUT_ENTRY};
use crate::record::time;
use crate::record::trust::TrustedKey;

/// Judges one record.
pub(super) fn run(subject: &Subject) -> Report {
    let mut findings = Findings::default();
    strays(subject.raw, &mut findings);
    let digest = subject.raw.packet.as_deref().map(canonical::sha256_hex);
    let packet = read_packet(subject, digest.as_deref().unwrap_or_default(), &mut findings);
    let mut walk = Walk::new(subject, packet.as_ref(), digest.as_deref().unwrap_or_default());
    let count = subject.raw.entries.len();
    let entries: Vec<AuditedEntry> =
        subject.raw.entries.iter().map(|raw| walk.entry(raw, &mut findings)).collect();
    clock::notes(&entries).into_iter().for_each(|note| findings.add(note));
    let (mut state, mut missing) = (None, Vec::new());
    if let Some(counted) = walk.counted.as_ref().or(walk.seen.as_ref()) {
        let standing = counted.standing();
        if !standing.missing.is_empty() {
            findings.add(not_released(&standing.missing));
        }
        (state, missing) = (Some(standing.state), standing.missing);
    }
    let (job, findings, becomes) = (subject.job.to_owned(), findings.all, walk.becomes);
    let head = walk.head;
    let machine = packet.as_ref().map(|packet| packet.machine.id.clone());
    let span = span(&entries);
    Report {
        job,
        machine,
        packet: digest,
        head,
        state,
        missing,
        becomes,
        count,
        span,
        entries,
        findings,
    }
}

/// Times of the first and the last entry.
fn span(entries: &[AuditedEntry]) -> Option<(DateTime<FixedOffset>, DateTime<FixedOffset>)> {
    let at = |entry: Option<&AuditedEntry>| time::parse(&entry?.says.as_ref()?.at).ok();
    at(entries.first()).zip(at(entries.last()))
}

/// What was found so far.
#[derive(Default)]
pub(super) struct Findings {
    pub(super) all: Vec<AuditFinding>,
}

impl Findings {
    pub(super) fn add(&mut self, finding: AuditFinding) {
        self.all.push(finding);
    }
}

pub(super) fn finding(severity: Severity, words: Words) -> AuditFinding {
    let code = words.key().trim_start_matches("audit-").trim_start_matches("entries-");
    let nothing = || Words::foreign("");
    let (expected, found, way_out) = (nothing(), nothing(), None);
    AuditFinding { code, severity, entry: None, expected, found, words, way_out }
}

/// An error whose text stands under `audit-` and its code.
pub(super) fn error(words: Words) -> AuditFinding {
    finding(Severity::Error, words)
}

/// An error of others, with their code.
fn coded(code: &'static str, words: Words) -> AuditFinding {
    AuditFinding { code, ..error(words) }
}

impl AuditFinding {
    pub(super) fn at(mut self, entry: u64) -> Self {
        self.entry = Some(entry);
        self
    }

    pub(super) fn with(mut self, expected: impl Into<Words>, found: impl Into<Words>) -> Self {
        (self.expected, self.found) = (expected.into(), found.into());
        self
    }
}

pub(super) fn strays(raw: &RawRecord, findings: &mut Findings) {
    for stray in &raw.strays {
        let file = [("file", shown(stray).into())];
        findings.add(if stray.contains(WITHOUT_ENTRY) {
            error(Words::new("audit-entry-missing", &file))
        } else if stray.contains(UNFINISHED) {
            finding(Severity::Warning, Words::new("audit-entry-unfinished", &file))
        } else if stray.contains(SET_ASIDE) {
            finding(Severity::Note, Words::new("audit-left-over", &file))
        } else {
            finding(Severity::Warning, Words::new("audit-stray-file", &file))
        });
    }
}

fn not_released(missing: &[Missing]) -> AuditFinding {
    let all: Vec<Words> = missing.iter().map(Missing::words).collect();
    let parts = [("count", missing.len().into()), ("missing", rules::some(&all).into())];
    finding(Severity::Note, Words::new("audit-not-released", &parts))
}

/// The packet, when its bytes are one.
fn read_packet(subject: &Subject, digest: &str, findings: &mut Findings) -> Option<Packet> {
    let Some(bytes) = subject.raw.packet.as_deref() else {
        findings.add(error(Words::of("audit-packet-missing")));
        return None;
    };
    let text = std::str::from_utf8(bytes);
    let read = text.map_or_else(|_| serde_json::from_slice(bytes), serde_json::from_str);
    let packet: Packet = match read {
        Ok(packet) => packet,
        Err(e) => {
            let said = e.to_string().into();
            findings.add(error(Words::new("audit-packet-unreadable", &[("said", said)])));
            return None;
        }
    };
    match canonical::line(&packet) {
        Ok(own) if own == bytes => {}
        Ok(own) => {
            let at = first_difference(&own, bytes);
            let parts = [("byte", at.to_string().into())];
            findings.add(error(Words::new("audit-packet-not-canonical", &parts)));
        }
        Err(e) => {
            let words = Words::new("audit-packet-not-written", &[("said", e.to_string().into())]);
            findings.add(coded("packet-unreadable", words));
        }
    }
    packet_facts(subject, &packet, digest).into_iter().for_each(|f| findings.add(f));
    Some(packet)
}

fn packet_facts(subject: &Subject, packet: &Packet, digest: &str) -> Vec<AuditFinding> {
    let mut found = Vec::new();
    if !(1..=packet::model::VERSION).contains(&packet.v) {
        let most = packet::model::VERSION.to_string();
        let parts = [("version", packet.v.to_string().into()), ("most", most.into())];
        found.push(error(Words::new("audit-version-unknown", &parts)));
    }
    let job = job_of(subject.job);
    if packet.job.id != job {
        let words = Words::of("audit-job-differs");
        found.push(error(words).with(job, shown(&packet.job.id)));
    }
    if packet.plant.domain != subject.domain {
        let words = Words::of("audit-plant-differs");
        found.push(error(words).with(subject.domain, shown(&packet.plant.domain)));
    }
    if let Err(bad) = time::parse(&packet.job.issued) {
        let words = Words::new("audit-time-form", &[("why", bad.words().into())]);
        found.push(error(words).with("", shown(&packet.job.issued)));
    }
    found.extend(names_twice(packet));
    found.extend(rules::check_draft(packet).map(refused));
    if let Some(current) = subject.current_packet.filter(|current| *current != digest) {
        // Nothing is wrong with a record whose recipe was revised afterwards.
        let changed = finding(Severity::Note, Words::of("audit-packet-superseded"));
        found.push(changed.with(digest, current));
    }
    found
}

/// Steps and blanks are named once, or nobody can say which of two an entry means.
fn names_twice(packet: &Packet) -> Vec<AuditFinding> {
    let mut seen = BTreeSet::new();
    let blanks = packet.steps.iter().flat_map(|step| &step.readings).map(|blank| &blank.id);
    let names = packet.steps.iter().map(|step| &step.id).chain(blanks);
    let twice = names.filter(|name| !seen.insert(name.as_str()));
    let twice = twice.map(|name| Words::new("audit-name-twice", &[("name", shown(name).into())]));
    twice.map(error).collect()
}

/// The entries one after the other, with what has to be known of those before.
struct Walk<'a> {
    subject: &'a Subject<'a>,
    digest: &'a str,
    namespace: String,
    /// Every entry that could be read: what the rules are asked about.
    seen: Option<Ledger<'a>>,
    /// Only entries without an error: what the state is made of. None as long as none had one.
    counted: Option<Ledger<'a>>,
    /// The `prev` the next entry must have.
    head: String,
    number: u64,
    /// Entries by the `prev` they state.
    after: BTreeMap<String, u64>,
    /// Digest of the packet that came in the place of this one.
    becomes: Option<String>,
}

impl<'a> Walk<'a> {
    fn new(subject: &'a Subject<'a>, packet: Option<&'a Packet>, digest: &'a str) -> Self {
        Walk {
            subject,
            digest,
            namespace: crate::record::namespace(subject.domain),
            seen: packet.map(Ledger::new),
            counted: None,
            head: NO_PREVIOUS.to_owned(),
            number: 0,
            after: BTreeMap::new(),
            becomes: None,
        }
    }

    fn entry(&mut self, raw: &RawEntry, findings: &mut Findings) -> AuditedEntry {
        let number = raw.name.parse::<u64>().unwrap_or(self.number + 1);
        let mut own = Vec::from_iter(self.gap(number));
        self.number = number;
        let ReadEntry { entry, faults } = entry::read(&raw.json);
        own.extend(faults.iter().map(|fault| coded(fault.code(), fault.words())));
        if let Some(entry) = &entry {
            own.extend(self.place(entry));
        }
        let signer = self.signer(raw, entry.as_ref());
        let (key, signer_ok) = (signer.key, signer.faults.is_empty() && entry.is_some());
        own.extend(signer.faults);
        let by = key.as_deref().unwrap_or_default();
        if let Some(entry) = &entry {
            own.extend(self.rules(entry, by));
        }
        let signature = raw.signature.as_deref().unwrap_or_default();
        let [digest, head] = canonical::sha256_hex_with(&raw.json, signature);
        self.head = head;
        let sound = own.iter().all(|finding| finding.severity != Severity::Error);
        if let Some(entry) = &entry {
            self.take(entry, by, sound);
        }
        own.into_iter().for_each(|finding| findings.add(finding.at(number)));
        let says = entry.map(|entry| self.statement(entry));
        AuditedEntry { number, digest, says, key, signer_ok, sound }
    }

    fn statement(&self, entry: Entry) -> Statement {
        let reading = entry.reading.map(|taken| self.stated(taken));
        let Entry { at, by, name, role, kind, step, row, note, accepts, corrects, .. } = entry;
        let Entry { meaning, concerns, withdraws, locks, becomes, outside, .. } = entry;
        Statement {
            at,
            by,
            name,
            role,
            kind,
            meaning,
            step,
            row,
            reading,
            accepts,
            corrects,
            concerns,
            withdraws,
            locks,
            becomes,
            outside,
            note,
        }
    }

    fn stated(&self, taken: Taken) -> StatedReading {
        let Taken { blank, value, unit, verdict, .. } = taken;
        let own = self.seen.as_ref().and_then(|seen| seen.blank(&blank));
        let own = own.filter(|_| verdict != Verdict::Within);
        let limits = own.map_or(String::new(), |(_, own)| limits(own));
        StatedReading { blank, value, unit, verdict, limits }
    }

    fn gap(&self, number: u64) -> Option<AuditFinding> {
        let expected = self.number + 1;
        (number != expected).then(|| {
            let (expected, number) = (expected.to_string(), number.to_string());
            let parts = [("expected", (&expected).into()), ("number", (&number).into())];
            error(Words::new("audit-number-gap", &parts)).with(expected, number)
        })
    }

    /// The entry's own number, and what it says comes before it.
    fn place(&mut self, entry: &Entry) -> Vec<AuditFinding> {
        let mut found = Vec::new();
        if entry.seq != self.number {
            let seq = entry.seq.to_string();
            let words = Words::new("audit-number-differs", &[("entry", (&seq).into())]);
            found.push(error(words).with(self.number.to_string(), seq));
        }
        if entry.prev != self.head {
            let words = Words::of("audit-chain-broken");
            found.push(error(words).with(&*self.head, shown(&entry.prev)));
        }
        if let Some(other) = self.after.insert(entry.prev.clone(), self.number) {
            let parts = [("entry", other.to_string().into())];
            found.push(error(Words::new("audit-fork", &parts)));
        }
        found
    }

    fn rules(&self, entry: &Entry, key: &str) -> Vec<AuditFinding> {
        let mut found = Vec::new();
        if let Some(now) = self.subject.now {
            found.extend(time::parse(&entry.at).ok().and_then(|at| in_future(now, at)));
        }
        let Some(seen) = &self.seen else { return found };
        let refusals = rules::check(seen, self.digest, self.subject.people, entry, key);
        found.extend(refusals.into_iter().map(refused));
        found
    }

    /// From the first entry with an error on, what was seen and what counts are two.
    fn take(&mut self, entry: &Entry, key: &str, sound: bool) {
        if !sound && self.counted.is_none() {
            self.counted.clone_from(&self.seen);
        }
        if let Some(seen) = &mut self.seen {
            seen.take(entry, key);
        }
        if let Some(counted) = self.counted.as_mut().filter(|_| sound) {
            counted.take(entry, key);
        }
        if self.seen.is_some() && sound {
            self.becomes = entry.becomes.clone().or(self.becomes.take());
        }
    }

    fn signer(&self, raw: &RawEntry, entry: Option<&Entry>) -> Signer {
        let Some(file) = raw.signature.as_deref() else {
            return Signer::bad(None, error(Words::of("audit-signature-missing")));
        };
        let signature = match Signature::parse(file) {
            Ok(signature) => signature,
            Err(fault) => {
                return Signer::bad(None, error(about("audit-signature-form", &fault)));
            }
        };
        let lines = self.subject.trust.lines_of(signature.key());
        let key = match lines.first() {
            Some(line) => line.fingerprint.clone(),
            None => signature::fingerprint(signature.key()),
        };
        let mut faults = Vec::from_iter(self.fits(&signature, &lines, &raw.json));
        if let Some(entry) = entry {
            let at = time::parse(&entry.at).ok();
            let (trust, key) = (self.subject.trust, signature.key());
            let refusal = rules::check_signer(trust, &entry.by, key, &self.namespace, at);
            faults.extend(refusal.map(refused));
        }
        Signer { key: Some(key), faults }
    }

    /// The signature is made for this purpose over these bytes.
    fn fits(
        &self,
        signature: &Signature,
        lines: &[&TrustedKey],
        json: &[u8],
    ) -> Option<AuditFinding> {
        let decoded = match lines.first() {
            Some(line) => Ok(line.key.clone()),
            None => PublicKey::from_bytes(signature.key()),
        };
        let verified = decoded.and_then(|key| signature.verify(&key, &self.namespace, json));
        verified.err().map(|fault| match fault {
            SignatureFault::Namespace { expected, found } => {
                error(Words::of("audit-signature-namespace")).with(expected, shown(&found))
            }
            SignatureFault::WeakKey | SignatureFault::NoKey => {
                error(about("audit-key-weak", &fault))
            }
            other => error(about("audit-signature-bad", &other)),
        })
    }
}

/// Who signed, and what is wrong with that.
struct Signer {
    key: Option<String>,
    faults: Vec<AuditFinding>,
}

impl Signer {
    fn bad(key: Option<String>, fault: AuditFinding) -> Self {
        Signer { key, faults: vec![fault] }
    }
}

/// What a fault of a signature means here.
fn about(key: &'static str, fault: &SignatureFault) -> Words {
    Words::new(key, &[("fault", fault.words().into())])
}

fn refused(refusal: Refusal) -> AuditFinding {
    let way_out = Some(refusal.words.way_out());
    let finding = coded(refusal.code, refusal.words).with(refusal.expected, refusal.found);
    AuditFinding { way_out, ..finding }
}

pub(super) fn in_future(
    now: DateTime<FixedOffset>,
    at: DateTime<FixedOffset>,
) -> Option<AuditFinding> {
    (at > now).then(|| {
        error(Words::of("audit-time-future"))
            .with(rules::or_earlier(time::write(now)), time::write(at))
    })
}

/// Limits in words, and where a reading is surely within them when that is not the same.
fn limits(blank: &Reading) -> String {
    let limits = model::limits(Language::English, blank.low.as_deref(), blank.high.as_deref())
        .unwrap_or_default();
    let limits = format!("{limits} {}", blank.unit).trim().to_owned();
    match rules::surely_within(blank) {
        Some(sure) => format!("{limits}, {sure}"),
        None => limits,
    }
}
