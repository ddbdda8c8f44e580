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
use super::{Answer, clock};
use crate::audit::{AuditFinding, Severity};
use crate::canonical;
use crate::count::count;
use crate::failure::Failure;
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
    let fail = |error: std::io::Error| Failure::at(file, "read", &error);
    let most = u64::try_from(MOST_BYTES).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    File::open(file).map_err(fail)?.take(most).read_to_end(&mut bytes).map_err(fail)?;
    Ok(filled::read(&bytes).map_err(|faults| faults.iter().map(|f| bad_form(file, f)).collect()))
}

fn bad_form(file: &Path, fault: &FormFault) -> Refusal {
    let words = format!("{}: {}: {}", file.display(), fault.path, fault.words);
    let way_out = "save the page to a file again, and leave the file as the page wrote it";
    Refusal::new("file-form", words, way_out)
}

/// The file belongs to another job or to another issue of the packet.
pub(super) fn other_issue(filled: &Filled, job: &str, digest: &str) -> Option<Refusal> {
    if filled.job != job {
        let words = "the file was filled in for another job".to_owned();
        let refusal = Refusal::new("job-differs", words, "name the job of the file");
        return Some(refusal.with(job, &filled.job));
    }
    (filled.packet != digest).then(|| {
        let words = "the file was filled in on another issue of the packet".to_owned();
        let way_out =
            "the packet was issued again: print or open the new one; the file is not touched";
        Refusal::new("packet-differs", words, way_out).with(digest, &filled.packet)
    })
}

/// What is said when nothing was added, for programs.
#[derive(Serialize)]
struct Nothing<'a> {
    on_record: &'a [String],
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
        if !self.folder.join("packet.json").exists() {
            // What is refused leaves nothing behind, not even a frozen packet.
            match self.fresh(filled, packet, &self.as_it_stands(packet)?, clock::now()) {
                Err(refusals) => return self.refused(&refusals),
                Ok(fresh) if fresh.is_empty() => {
                    return self.nothing_new(&self.rest(filled, packet, &[]));
                }
                Ok(_) => self.freeze(packet)?,
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
        for signed in fresh {
            locked.append(signed).map_err(|e| Failure::new(e.to_string()))?;
        }
        let past = match compose::past(locked.record()) {
            Ok(past) => past,
            Err(refusal) => return self.refused(&[refusal]),
        };
        let mut rest = self.rest(filled, packet, &past);
        if skipped > 0 {
            rest.on_record.push(format!("{} signed on the page", count(skipped, "entry")));
        }
        match is_new {
            true => self.added(&locked, before, now + GRACE, digest, &rest),
            false => self.nothing_new(&rest),
        }
    }

    /// What nobody has signed of a file.
    fn rest(&self, filled: &Filled, packet: &Packet, past: &[Past]) -> Share {
        // By nobody: whatever is not on record is somebody else's then.
        filled::share(filled, packet, past, "", &[]).unwrap_or_default()
    }

    /// The record, or what it would be after the first sign-off.
    pub(super) fn as_it_stands(&self, packet: &Packet) -> Result<RawRecord, Failure> {
        if self.folder.join("packet.json").exists() {
            return store::read(&self.folder).map_err(|e| Failure::new(e.to_string()));
        }
        let packet = canonical::line(packet).map_err(|e| Failure::new(e.to_string()))?;
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
        let words = format!("entry {} {}, today", signed.entry.seq, refusal.words);
        let way_out = "sign at the desk with a key that counts: --by PERSON --key FILE".to_owned();
        // A tablet whose clock is a little ahead has a key that begins a little later than now.
        (refusal.code != "key-not-yet-valid").then_some(Refusal { words, way_out, ..refusal })
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
        Ok((!fresh.is_empty()).then(|| {
            let words = format!(
                "the file holds {} signed on the page and not on record",
                count(fresh.len(), "entry")
            );
            Refusal::new(
                "signed-first",
                words,
                "take them in first: --from alone, without --by and --key",
            )
        }))
    }

    /// Nothing was added, and why.
    pub(super) fn nothing_new(&self, share: &Share) -> Result<Answer, Failure> {
        let text = match self.args.json {
            true => super::json(&Nothing { on_record: &share.on_record, left: &share.left })?,
            false => told(share, self.filled.as_ref()) + "nothing was added\n",
        };
        // A file that was taken in before is no fault; one with nothing to take in is.
        Ok(match share.on_record.is_empty() {
            true => Answer::findings(text),
            false => Answer::clean(text),
        })
    }
}

/// What a file holds and was not added, for people.
pub(super) fn told(share: &Share, filled: Option<&Filled>) -> String {
    let mut text = String::new();
    for words in &share.on_record {
        let _ = writeln!(text, "on record already: {words}");
    }
    for Left { by, readings, signatures } in &share.left {
        let counts = [(*readings, "reading"), (*signatures, "signature")];
        let counts = counts.iter().filter(|(number, _)| *number > 0);
        let counts: Vec<String> = counts.map(|(number, what)| count(*number, what)).collect();
        let way_out = match by.starts_with(filled::INITIALS) {
            true => "name the person on the page",
            false => "sign with --by and --key",
        };
        let _ = writeln!(text, "left: {} of {by}; {way_out}", counts.join(" and "));
    }
    if filled.is_some_and(|filled| filled.clock == Clock::Doubtful) {
        text += "the page found the clock of its device doubtful: do not rely on the times in the file\n";
    }
    text
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
    let words = format!("signed[{index}].entry {}", fault.words());
    Refusal::new(fault.code(), words, SIGN_ANEW)
}

/// The way out where an entry itself is at fault.
const SIGN_ANEW: &str =
    "sign anew: on the page, or at the desk with --by PERSON --key FILE; what was typed is kept";

/// The first entry of a file has to follow the last on record.
fn does_not_follow(first: &Entry, record: &RawRecord) -> Option<Refusal> {
    let (seq, prev) = record.next();
    let on_record = record.entries.len();
    if first.seq > seq {
        let words = format!(
            "the file goes on with entry {}, and the record has {}",
            first.seq,
            count(on_record, "entry")
        );
        let refusal = Refusal::new(
            "entries-missing",
            words,
            "take the file in first that holds those between",
        );
        return Some(refusal.with(format!("entry {seq}"), format!("entry {}", first.seq)));
    }
    (first.seq != seq || first.prev != prev).then(|| {
        let words = format!(
            "the record has moved on since the page was made: it has {} today",
            count(on_record, "entry")
        );
        let way_out = "publish again and open the page again: what was typed is kept; sign anew there, or \
                       at the desk with --by PERSON --key FILE";
        Refusal::new("record-moved-on", words, way_out).with(&prev, &first.prev)
    })
}

/// A release and an acceptance are made at the desk, by somebody who sees the whole record.
fn made_at_the_desk(entry: &Entry) -> Option<Refusal> {
    let option = match entry.kind {
        Kind::Reading | Kind::Performed | Kind::Verified => return None,
        Kind::DeviationAccepted => "--accept ENTRY",
        Kind::Released => "--release",
    };
    let words = format!("entry {} is {}, which no page signs", entry.seq, entry.kind.word());
    Some(Refusal::new("made-at-the-desk", words, format!("sign it at the desk with {option}")))
}

/// A reading that would not have been taken from somebody who types it here.
fn mistyped(packet: &Packet, entry: &Entry) -> Option<Refusal> {
    let taken = entry.reading.as_ref()?;
    let mut blanks = packet.steps.iter().flat_map(|step| &step.readings);
    let refusal = not_typable(blanks.find(|blank| blank.id == taken.blank)?, taken)?;
    let words = format!("entry {}: {}", entry.seq, refusal.words);
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
    let place = entry.map(|number| format!("entry {number}: ")).unwrap_or_default();
    let way_out = if way_out.is_empty() { SIGN_ANEW } else { way_out };
    Refusal::new(code, format!("{place}{words}"), way_out).with(expected, found)
}
