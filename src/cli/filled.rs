//! `signoff --from FILE`: what was filled in or signed on a page, taken in.
//!
//! Must never trust a page: what was typed goes the way of a request that is typed by hand, and what
//! was signed in a browser is checked like every other entry, all of it before any of it is added.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::fs::File;
use std::io::Read;
use std::path::Path;

use chrono::{DateTime, Duration, FixedOffset};
use serde::Serialize;

use super::signoff::Book;
use super::{Answer, clock, logs};
use crate::audit::{AuditFinding, Severity};
use crate::canonical;
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::packet::Packet;
use crate::record::compose::{Past, Signed, not_typable};
use crate::record::entry::{self, Entry, Kind};
use crate::record::filled::{self, Clock, Filled, FormFault, Left, MOST_BYTES, Share};
use crate::record::rules::{Refusal, check_signer};
use crate::record::signature::Signature;
use crate::record::store::{self, RawEntry, RawRecord};
use crate::record::{compose, namespace};

/// How far the clock of a tablet may be ahead of ours.
const GRACE: Duration = Duration::minutes(2);

/// Reads the file, or says everything that is wrong with its form.
pub(super) fn open(file: &Path) -> Result<Result<Filled, Vec<Refusal>>, Failure> {
    let fail = |error: std::io::Error| Failure::at("failure-read", file, &error);
    let most = u64::try_from(MOST_BYTES).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    File::open(file).map_err(fail)?.take(most).read_to_end(&mut bytes).map_err(fail)?;
    Ok(filled::read(&bytes).map_err(|faults| faults.iter().map(|f| bad_form(file, f)).collect()))
}

fn bad_form(file: &Path, fault: &FormFault) -> Refusal {
    let parts = [
        ("file", file.display().to_string().into()),
        ("path", (&fault.path).into()),
        ("fault", (&fault.words).into()),
    ];
    Refusal::new("refusal-file-form", &parts)
}

/// The file belongs to another job or to another issue of the packet.
pub(super) fn other_issue(filled: &Filled, job: &str, digest: &str) -> Option<Refusal> {
    if filled.job != job {
        let refusal = Refusal::coded("job-differs", Words::of("refusal-file-of-another-job"));
        return Some(refusal.with(job, filled.job.as_str()));
    }
    (filled.packet != digest).then(|| {
        let words = Words::of("refusal-file-of-another-packet");
        Refusal::coded("packet-differs", words).with(digest, filled.packet.as_str())
    })
}

/// What is said when nothing was added, for programs.
#[derive(Serialize)]
struct Nothing<'a> {
    on_record: Vec<String>,
    left: &'a [Left],
}

impl Book<'_> {
    /// Takes in the entries that were signed in a browser: all of them or none.
    pub(super) fn take_in(
        &self,
        filled: &Filled,
        packet: &Packet,
        digest: &str,
    ) -> Result<Answer, Failure> {
        let mut aside = None;
        if self.is_first()? {
            // What is refused leaves nothing behind, not even a frozen packet.
            match self.fresh(filled, packet, &self.as_it_stands(packet)?, clock::now()) {
                Err(refusals) => return self.refused(&refusals),
                Ok(fresh) if fresh.is_empty() => {
                    return self.nothing_new(&self.rest(filled, packet, &[]));
                }
                Ok(_) => aside = self.freeze(packet)?,
            }
        }
        let (mut locked, now) = match self.locked(digest)? {
            Ok(locked) => locked,
            Err(answer) => return Ok(answer),
        };
        let before = locked.record().entries.len();
        let fresh = match self.fresh(filled, packet, locked.record(), now) {
            Ok(fresh) => fresh,
            Err(refusals) => return self.refused(&refusals),
        };
        let is_new = !fresh.is_empty();
        let skipped = filled.signed.len().saturating_sub(fresh.len());
        let mut log = None;
        if is_new {
            let mut own = logs::open(&self.args.plant, &packet.machine.id)?;
            // The keys are in a browser: the checkpoint stays the older one.
            logs::append(&mut own, &mut locked, &self.record(), fresh)?;
            log = Some(own);
        }
        let past = match compose::past(locked.record()) {
            Ok(past) => past,
            Err(refusal) => return self.refused(&[refusal]),
        };
        let mut rest = self.rest(filled, packet, &past);
        if skipped > 0 {
            rest.on_record.push(Words::new("filled-signed", &[("count", skipped.into())]));
        }
        match log {
            Some(log) => self.added(&locked, before, now + GRACE, digest, (&rest, &log, aside)),
            None => self.nothing_new(&rest),
        }
    }

    /// What nobody has signed of a file.
    fn rest(&self, filled: &Filled, packet: &Packet, past: &[Past]) -> Share {
        // By nobody: whatever is not on record is somebody else's then.
        filled::share(filled, packet, past, "", &[]).unwrap_or_default()
    }

    /// The record, or what it would be after the first sign-off.
    pub(super) fn as_it_stands(&self, packet: &Packet) -> Result<RawRecord, Failure> {
        if !self.is_first()? {
            return Ok(store::read(&self.folder)?);
        }
        let packet = canonical::line(packet)?;
        Ok(RawRecord { packet: Some(packet), ..RawRecord::default() })
    }

    /// The entries of a file that are not on record, or every reason against them.
    pub(super) fn fresh(
        &self,
        filled: &Filled,
        packet: &Packet,
        record: &RawRecord,
        now: DateTime<FixedOffset>,
    ) -> Result<Vec<Signed>, Vec<Refusal>> {
        let fresh = unrecorded(filled, record)?;
        let Some(first) = fresh.first() else { return Ok(fresh) };
        if let Some(refusal) = does_not_follow(&first.entry, record) {
            return Err(vec![refusal]);
        }
        let mut refusals: Vec<Refusal> = fresh
            .iter()
            .flat_map(|signed| [made_at_the_desk(&signed.entry), mistyped(packet, &signed.entry)])
            .flatten()
            .collect();
        let report = self.audit(&with(record, &fresh), now + GRACE);
        let bad: Vec<&AuditFinding> =
            report.findings.iter().filter(|finding| is_of(finding, &first.entry)).collect();
        refusals.extend(bad.iter().map(|finding| found_bad(finding)));
        let is_good = |signed: &&Signed| bad.iter().all(|bad| bad.entry != Some(signed.entry.seq));
        refusals.extend(
            fresh
                .iter()
                .filter(is_good)
                .filter_map(|signed| self.key_of_yesterday(signed, &packet.plant.domain, now)),
        );
        if refusals.is_empty() { Ok(fresh) } else { Err(refusals) }
    }

    /// A key that counted when the entry says it was signed, and does not today: whoever found it may
    /// have set the clock back.
    fn key_of_yesterday(
        &self,
        signed: &Signed,
        domain: &str,
        now: DateTime<FixedOffset>,
    ) -> Option<Refusal> {
        let signature = Signature::parse(&signed.signature).ok()?;
        let (by, namespace) = (&signed.entry.by, namespace(domain));
        let refusal = check_signer(self.trust, by, signature.key(), &namespace, Some(now))?;
        let entry = signed.entry.seq.to_string();
        let parts = [("entry", entry.into()), ("words", (&refusal.words).into())];
        let words = Words::new("refusal-key-of-yesterday", &parts);
        // A tablet whose clock is a little ahead has a key that begins a little later than now.
        (refusal.code != "key-not-yet-valid").then_some(Refusal { words, ..refusal })
    }

    /// Entries of the file that could go on record as they are come before anything signed here: they
    /// could not follow it.
    pub(super) fn signed_first(
        &self,
        filled: &Filled,
        packet: &Packet,
    ) -> Result<Option<Refusal>, Failure> {
        let record = self.as_it_stands(packet)?;
        let fresh = self.fresh(filled, packet, &record, clock::now()).unwrap_or_default();
        let parts = [("count", fresh.len().into())];
        Ok((!fresh.is_empty()).then(|| Refusal::new("refusal-signed-first", &parts)))
    }

    /// Nothing was added, and why.
    pub(super) fn nothing_new(&self, share: &Share) -> Result<Answer, Failure> {
        let (on_record, left) = (on_record(share, self.language), share.left.as_slice());
        let text = match self.args.json {
            true => super::json(&Nothing { on_record, left })?,
            false => told(share, self.filled.as_ref(), self.language) + "nothing was added\n",
        };
        // A file that was taken in before is no fault; one with nothing to take in is.
        Ok(match share.on_record.is_empty() {
            true => Answer::findings(text),
            false => Answer::clean(text),
        })
    }
}

/// What of a file stands on record already, in a language.
pub(super) fn on_record(share: &Share, language: Language) -> Vec<String> {
    share.on_record.iter().map(|words| words.shown(language)).collect()
}

/// What a file holds and was not added, for people.
pub(super) fn told(share: &Share, filled: Option<&Filled>, language: Language) -> String {
    let mut text = String::new();
    for what in &share.on_record {
        let words = Words::new("filled-on-record", &[("what", what.into())]);
        let _ = writeln!(text, "{}", words.shown(language));
    }
    for left in &share.left {
        let _ = writeln!(text, "{}", left_words(left).shown(language));
    }
    if filled.is_some_and(|filled| filled.clock == Clock::Doubtful) {
        let _ = writeln!(text, "{}", language.word("filled-doubtful-clock"));
    }
    text
}

/// What somebody typed and nobody signed, and what to do about it.
fn left_words(left: &Left) -> Words {
    let readings = Words::new("filled-readings", &[("count", left.readings.into())]);
    let signatures = Words::new("filled-signatures", &[("count", left.signatures.into())]);
    let what = match (left.readings, left.signatures) {
        (_, 0) => readings,
        (0, _) => signatures,
        _ => {
            let both = [("readings", readings.into()), ("signatures", signatures.into())];
            Words::new("filled-both", &both)
        }
    };
    let parts = [("what", what.into()), ("by", (&left.by).into())];
    match left.by.starts_with(filled::INITIALS) {
        true => Words::new("filled-left-unnamed", &parts),
        false => Words::new("filled-left", &parts),
    }
}

/// The signed entries of a file that are not on record byte for byte.
fn unrecorded(filled: &Filled, record: &RawRecord) -> Result<Vec<Signed>, Vec<Refusal>> {
    let recorded: BTreeSet<(&[u8], Option<&[u8]>)> =
        record.entries.iter().map(|raw| (raw.json.as_slice(), raw.signature.as_deref())).collect();
    let (mut fresh, mut refusals) = (Vec::new(), Vec::new());
    for (index, pair) in filled.signed.iter().enumerate() {
        let (json, signature) = (pair.entry.as_bytes(), pair.signature.as_bytes());
        if recorded.contains(&(json, Some(signature))) {
            continue;
        }
        match entry::parse(json) {
            Ok(entry) => {
                fresh.push(Signed { entry, json: json.to_vec(), signature: signature.to_vec() })
            }
            Err(fault) => refusals.push(unreadable(index, &fault)),
        }
    }
    if refusals.is_empty() { Ok(fresh) } else { Err(refusals) }
}

fn unreadable(index: usize, fault: &entry::EntryFault) -> Refusal {
    let parts = [
        ("index", index.to_string().into()),
        ("fault", fault.words().into()),
        ("remedy", sign_anew().into()),
    ];
    Refusal::coded(fault.code(), Words::new("refusal-signed-unreadable", &parts))
}

/// The way out where an entry itself is at fault.
fn sign_anew() -> Words {
    Words::of("refusal-sign-anew")
}

/// The first entry of a file has to follow the last on record.
fn does_not_follow(first: &Entry, record: &RawRecord) -> Option<Refusal> {
    let (seq, prev) = record.next();
    let on_record = ("count", record.entries.len().into());
    if first.seq > seq {
        let parts = [("entry", first.seq.to_string().into()), on_record];
        let refusal = Refusal::new("refusal-entries-missing", &parts);
        return Some(refusal.with(numbered(seq), numbered(first.seq)));
    }
    (first.seq != seq || first.prev != prev).then(|| {
        let refusal = Refusal::new("refusal-record-moved-on", &[on_record]);
        refusal.with(prev, first.prev.as_str())
    })
}

fn numbered(entry: u64) -> Words {
    Words::new("audit-entry", &[("entry", entry.to_string().into())])
}

/// A release and an acceptance are made at the desk, by somebody who sees the whole record.
fn made_at_the_desk(entry: &Entry) -> Option<Refusal> {
    let option = match entry.kind {
        Kind::Reading | Kind::Performed | Kind::Verified => return None,
        Kind::DeviationAccepted => "--accept ENTRY",
        Kind::Released => "--release",
        Kind::DeviationRaised => "--raise",
        Kind::Withdrawn => "--take-back",
        Kind::Abandoned => "--abandon",
        Kind::Superseded => "--supersede",
    };
    let parts = [
        ("entry", entry.seq.to_string().into()),
        ("kind", entry.kind.words().into()),
        ("option", option.into()),
    ];
    Some(Refusal::new("refusal-made-at-the-desk", &parts))
}

/// A reading that would not have been taken from somebody who types it here.
fn mistyped(packet: &Packet, entry: &Entry) -> Option<Refusal> {
    let taken = entry.reading.as_ref()?;
    let mut blanks = packet.steps.iter().flat_map(|step| &step.readings);
    let refusal = not_typable(blanks.find(|blank| blank.id == taken.blank)?, taken)?;
    let words = of_entry(entry.seq, &refusal.words, refusal.words.way_out());
    Some(Refusal { words, ..refusal })
}

/// The record as it would be with these entries.
fn with(record: &RawRecord, fresh: &[Signed]) -> RawRecord {
    let (next, _) = record.next();
    let mut whole = record.clone();
    whole.entries.extend((next..).zip(fresh).map(|(seq, signed)| RawEntry {
        name: format!("{seq:06}"),
        json: signed.json.clone(),
        signature: Some(signed.signature.clone()),
    }));
    whole
}

/// Whether something was found with the new entries, or with the record as a whole.
fn is_of(finding: &AuditFinding, first: &Entry) -> bool {
    let is_new = finding.entry.is_some_and(|number| number >= first.seq);
    (is_new && finding.severity > Severity::Note)
        || (finding.entry.is_none() && finding.severity == Severity::Error)
}

fn found_bad(finding: &AuditFinding) -> Refusal {
    let AuditFinding { code, entry, expected, found, words, way_out, .. } = finding;
    let way_out = way_out.clone().unwrap_or_else(sign_anew);
    let words = match entry {
        Some(number) => of_entry(*number, words, way_out),
        None => {
            let parts = [("words", words.into()), ("remedy", way_out.into())];
            Words::new("refusal-of-record", &parts)
        }
    };
    Refusal::coded(code, words).with(expected.clone(), found.clone())
}

/// What is wrong with an entry of the file.
fn of_entry(number: u64, words: &Words, way_out: Words) -> Words {
    let parts =
        [("entry", number.to_string().into()), ("words", words.into()), ("remedy", way_out.into())];
    Words::new("refusal-of-entry", &parts)
}
