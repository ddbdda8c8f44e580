//! `signoff`: readings and signatures, added to a job's record.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, clock, json, records};
use crate::audit::{self, Report, Severity, Subject, audit_record};
use crate::canonical;
use crate::failure::Failure;
use crate::packet::{self, Packet, Prepared};
use crate::record::compose::{self, Acceptance, Past, Request, Value};
use crate::record::rules::Refusal;
use crate::record::signature::{SignatureFault, SigningKey};
use crate::record::store::{self, Locked, RawRecord};
use crate::record::trust::NoKey;
use crate::record::entry::Entry;
use crate::record::{TrustList, entry, state};

/// Fewest digits of the digest that must be copied from the sheet.
const FEWEST_DIGITS: usize = 12;

/// Adds readings and sign-offs to a job's record, signed with your SSH key.
///
/// Without any reading or sign-off it says what the job still lacks.
/// The time is taken from this machine's clock; it cannot be given.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark signoff demo-data SM-1042
  witnessmark signoff demo-data SM-1042 --sheet 246ef1e971ad --by a.person@plant.example \\
      --key ~/.ssh/id_ed25519 --read stored-energy.prove-zero-at-each-source/air=0.0 \\
      --performed 9

A step is named by its number on the sheet or by its identifier.
The first sign-off of a job freezes its packet: copy the first digits of the digest from your sheet.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The job
    job: String,
    /// Your identifier in people.yaml
    #[arg(long, value_name = "PERSON")]
    by: Option<String>,
    /// Your OpenSSH private key (Ed25519)
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
    /// First digits of the digest on your sheet, 12 or more
    #[arg(long, value_name = "DIGITS")]
    sheet: Option<String>,
    /// A reading for a blank; may be given many times
    #[arg(long, value_name = "BLANK=VALUE")]
    read: Vec<String>,
    /// A reading that corrects the last one of its blank; needs --reason
    #[arg(long, value_name = "BLANK=VALUE")]
    correct: Vec<String>,
    /// A step you did; may be given many times
    #[arg(long, value_name = "STEP")]
    performed: Vec<String>,
    /// A step that somebody else did and you checked; may be given many times
    #[arg(long, value_name = "STEP")]
    verified: Vec<String>,
    /// An entry with a reading outside its limits that you accept; needs --reason
    #[arg(long, value_name = "ENTRY")]
    accept: Vec<u64>,
    /// Hand the machine over to production
    #[arg(long)]
    release: bool,
    /// Why a reading is corrected or accepted
    #[arg(long, value_name = "TEXT")]
    reason: Option<String>,
    /// A remark for every entry made now
    #[arg(long, value_name = "TEXT")]
    note: Option<String>,
    /// Print what was added as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    if !plant.jobs.contains_key(&args.job) {
        return Err(desk::unknown_job(plant, &args.job));
    }
    let mut findings = desk.findings.clone();
    let prepared = packet::prepare(&mut findings, plant);
    let trust = desk::trust(&mut findings, plant);
    let book = Book {
        args,
        prepared: &prepared,
        trust: &trust,
        folder: records::folder(&args.plant, &args.job)?,
    };
    let frozen = book.frozen()?;
    let (packet, digest) = match frozen {
        Some(frozen) => frozen,
        None => match desk::packet_of(&desk, &args.job, args.json)? {
            Ok(packet) => {
                let digest = packet::digest(&packet).map_err(|e| Failure::new(e.to_string()))?;
                (packet, digest)
            }
            Err(answer) => return Ok(*answer),
        },
    };
    if book.asks_nothing() {
        return book.standing(&packet, &digest);
    }
    book.sign(&packet, &digest)
}

/// What a signing has at hand.
struct Book<'a> {
    args: &'a Args,
    prepared: &'a Prepared<'a>,
    trust: &'a TrustList,
    folder: PathBuf,
}

/// What was added, for programs.
#[derive(Serialize)]
struct Added<'a> {
    job: &'a str,
    packet: &'a str,
    entries: Vec<String>,
    state: state::State,
}

/// Who signs what, and when.
#[derive(Clone, Copy)]
struct Hand<'a> {
    packet: &'a Packet,
    digest: &'a str,
    by: &'a str,
    key: &'a SigningKey,
    now: DateTime<FixedOffset>,
}

impl Book<'_> {
    /// The packet that was frozen by the first sign-off.
    fn frozen(&self) -> Result<Option<(Packet, String)>, Failure> {
        if !self.folder.is_dir() {
            return Ok(None);
        }
        let raw = store::read(&self.folder).map_err(|e| Failure::new(e.to_string()))?;
        let Some(bytes) = raw.packet else { return Ok(None) };
        let packet = serde_json::from_slice(&bytes).map_err(|error| {
            Failure::new(format!(
                "{}: the frozen packet cannot be read ({error}); `witnessmark audit` says more",
                self.folder.join("packet.json").display()
            ))
        })?;
        Ok(Some((packet, canonical::sha256_hex(&bytes))))
    }

    fn asks_nothing(&self) -> bool {
        let Args { read, correct, performed, verified, accept, release, .. } = self.args;
        read.is_empty()
            && correct.is_empty()
            && performed.is_empty()
            && verified.is_empty()
            && accept.is_empty()
            && !release
    }

    /// What the job still lacks.
    fn standing(&self, packet: &Packet, digest: &str) -> Result<Answer, Failure> {
        let entries = match self.folder.is_dir() {
            true => store::read(&self.folder).map_err(|e| Failure::new(e.to_string()))?.entries,
            false => Vec::new(),
        };
        let entries: Vec<_> =
            entries.iter().filter_map(|raw| entry::parse(&raw.json).ok()).collect();
        let standing = state::standing(packet, &entries);
        if self.args.json {
            return Ok(Answer::clean(json(&standing)?));
        }
        let mut text = format!(
            "{}: {}, {} entries\ndigest {digest}\n",
            self.args.job,
            standing.state.words(),
            entries.len()
        );
        for missing in &standing.missing {
            let _ = writeln!(text, "  {}", missing.words());
        }
        Ok(Answer::clean(text))
    }

    fn sign(&self, packet: &Packet, digest: &str) -> Result<Answer, Failure> {
        let by = needed(self.args.by.as_deref(), "--by PERSON", "who signs")?;
        let key_file = needed(self.args.key.as_deref(), "--key FILE", "the key that signs")?;
        if let Some(refusal) = self.other_sheet(digest)? {
            return Ok(refusal);
        }
        let key = open_key(key_file)?;
        if !self.folder.join("packet.json").exists()
            && let Some(refusal) = self.freeze(packet, digest, by, &key)?
        {
            return Ok(refusal);
        }
        let mut locked = Locked::open(&self.folder).map_err(|e| Failure::new(e.to_string()))?;
        let frozen = locked.record().packet.as_deref().map(canonical::sha256_hex);
        if frozen.as_deref() != Some(digest) {
            return Err(Failure::new("somebody signed another packet of this job meanwhile: try again"));
        }
        // The time is taken once the lock is held, so that it never runs backwards.
        let now = clock::now();
        let hand = Hand { packet, digest, by, key: &key, now };
        let entries = match self.entries(&hand, locked.record())? {
            Ok(entries) => entries,
            Err(refusal) => return Ok(*refusal),
        };
        let before = locked.record().entries.len();
        let (_, prev) = locked.record().next();
        let signed = compose::seal_all(entries, &prev, &key, &packet.plant.domain)
            .map_err(|fault| Failure::new(format!("could not sign: it {}", fault.words())))?;
        for signed in signed {
            locked.append(signed).map_err(|e| Failure::new(e.to_string()))?;
        }
        self.added(&locked, before, now, digest)
    }

    /// Freezes the packet for its first sign-off, unless that would be refused: then nothing is left
    /// behind.
    fn freeze(
        &self,
        packet: &Packet,
        digest: &str,
        by: &str,
        key: &SigningKey,
    ) -> Result<Option<Answer>, Failure> {
        let bytes = canonical::line(packet).map_err(|e| Failure::new(e.to_string()))?;
        let empty = RawRecord { packet: Some(bytes.clone()), ..RawRecord::default() };
        let hand = Hand { packet, digest, by, key, now: clock::now() };
        if let Err(refusal) = self.entries(&hand, &empty)? {
            return Ok(Some(*refusal));
        }
        match store::create(&self.folder, &bytes) {
            // Two people may sign first at the same time; whose packet lies there is asked later.
            Err(error) if error.cause.kind() == std::io::ErrorKind::AlreadyExists => Ok(None),
            created => created.map(|()| None).map_err(|e| Failure::new(e.to_string())),
        }
    }

    /// The entries asked for, or why they may not be added to a record.
    fn entries(
        &self,
        hand: &Hand,
        record: &RawRecord,
    ) -> Result<Result<Vec<Entry>, Box<Answer>>, Failure> {
        let Hand { packet, digest, by, key, now } = *hand;
        let report = self.audit(record, now);
        if report.worst() == Some(Severity::Error) {
            let text = audit::report::render(&report) + "nothing was added to a record that does not hold\n";
            return Ok(Err(Box::new(Answer::findings(text))));
        }
        let fingerprint = key.public().fingerprint();
        if let Some(words) = self.not_their_key(by, &fingerprint, now) {
            return Ok(Err(Box::new(Answer::findings(format!("{words}\nnothing was added\n")))));
        }
        let past = past(record, &report);
        let request = self.request(&past)?;
        let desk = compose::Desk {
            packet,
            digest,
            past: &past,
            people: &self.prepared.people,
            by,
            key: &fingerprint,
            at: now,
        };
        Ok(compose::compose(&desk, &request).map_err(|refusals| Box::new(refused(&refusals))))
    }

    /// The sheet in hand must be the packet that is signed.
    fn other_sheet(&self, digest: &str) -> Result<Option<Answer>, Failure> {
        let is_first = !self.folder.join("packet.json").exists();
        let Some(digits) = self.args.sheet.as_deref() else {
            if is_first {
                return Err(Failure::new(format!(
                    "this is the first sign-off of {}: give --sheet with the first {FEWEST_DIGITS} \
                     digits of the digest on your sheet",
                    self.args.job
                )));
            }
            return Ok(None);
        };
        let digits = digits.to_ascii_lowercase();
        if digits.len() < FEWEST_DIGITS {
            return Err(Failure::new(format!("--sheet needs {FEWEST_DIGITS} digits or more")));
        }
        if digest.starts_with(&digits) {
            return Ok(None);
        }
        Ok(Some(Answer::findings(format!(
            "the sheet {digits} is not the packet of {}, which begins with {}\n\
             somebody changed the plant's files since the sheet was printed: print it anew and \
             compare; nothing was added\n",
            self.args.job,
            digest.get(..digits.len()).unwrap_or(digest)
        ))))
    }

    fn audit(&self, record: &RawRecord, now: DateTime<FixedOffset>) -> Report {
        audit_record(&Subject {
            job: &self.args.job,
            raw: record,
            trust: self.trust,
            people: &self.prepared.people,
            domain: &self.prepared.plant.facts.body.domain,
            now: Some(now),
            current_packet: None,
        })
    }

    /// Why a key does not count for a person now.
    fn not_their_key(
        &self,
        by: &str,
        fingerprint: &str,
        now: DateTime<FixedOffset>,
    ) -> Option<String> {
        let keys = match self.trust.key_for(by, now) {
            Ok(keys) => keys,
            Err(why) => return Some(format!("{by} cannot sign now: {}", no_key(&why))),
        };
        let listed = keys.iter().any(|key| key.fingerprint == fingerprint);
        (!listed).then(|| {
            format!("the key {fingerprint} is not listed for {by} in allowed_signers: use your own")
        })
    }

    fn request(&self, past: &[Past]) -> Result<Request, Failure> {
        let Args { performed, verified, accept, release, note, reason, .. } = self.args;
        let mut readings = Vec::new();
        for typed in &self.args.read {
            let (blank, text) = split(typed, "--read")?;
            readings.push(Value { blank, text, ..Value::default() });
        }
        for typed in &self.args.correct {
            let (blank, text) = split(typed, "--correct")?;
            let reason = needed(reason.as_deref(), "--reason TEXT", "why it is corrected")?;
            let is_it = |past: &&Past| {
                past.entry.reading.as_ref().is_some_and(|reading| reading.blank == blank)
            };
            let Some(last) = past.iter().rev().find(is_it) else {
                return Err(Failure::new(format!("there is no reading of {blank} to correct")));
            };
            let (corrects, note) = (Some(last.entry.seq), Some(reason.to_owned()));
            readings.push(Value { blank, text, corrects, note, ..Value::default() });
        }
        let mut acceptances = Vec::new();
        for seq in accept {
            let reason = needed(reason.as_deref(), "--reason TEXT", "why it is accepted")?;
            acceptances.push(Acceptance { seq: *seq, reason: reason.to_owned() });
        }
        Ok(Request {
            readings,
            performed: performed.clone(),
            verified: verified.clone(),
            accept: acceptances,
            release: *release,
            note: note.clone(),
        })
    }

    fn added(
        &self,
        locked: &Locked,
        before: usize,
        now: DateTime<FixedOffset>,
        digest: &str,
    ) -> Result<Answer, Failure> {
        let report = self.audit(locked.record(), now);
        let lines: Vec<String> =
            report.entries.iter().skip(before).map(audit::report::entry_line).collect();
        if self.args.json {
            let state = report.state.unwrap_or(state::State::Open);
            let added = Added { job: &self.args.job, packet: digest, entries: lines, state };
            return Ok(Answer::clean(json(&added)?));
        }
        let state = report.state.map_or("unknown", |state| state.words());
        let mut text = lines.join("\n");
        let _ = write!(text, "\n{}: {state}, {} things missing\n", self.args.job, report.missing.len());
        Ok(Answer::clean(text))
    }
}

fn needed<T>(given: Option<T>, option: &str, what: &str) -> Result<T, Failure> {
    given.ok_or_else(|| Failure::new(format!("say {what} with {option}")))
}

fn split(typed: &str, option: &str) -> Result<(String, String), Failure> {
    let (blank, value) = typed.split_once('=').ok_or_else(|| {
        Failure::new(format!("write {option} BLANK=VALUE; `{typed}` has no equals sign"))
    })?;
    Ok((blank.trim().to_owned(), value.trim().to_owned()))
}

fn no_key(why: &NoKey) -> String {
    let day = |second: i64| {
        DateTime::from_timestamp(second, 0).map_or(String::new(), |time| time.to_rfc3339())
    };
    match why {
        NoKey::UnknownPrincipal => "no key is listed for them in allowed_signers".to_owned(),
        NoKey::NotYet(from) => format!("their key counts from {}", day(*from)),
        NoKey::Ended(until) => format!("their key counted until {}", day(*until)),
    }
}

fn refused(refusals: &[Refusal]) -> Answer {
    let mut text = String::new();
    for Refusal { code, expected, found, words, way_out } in refusals {
        let _ = writeln!(text, "refused[{code}]: {words}");
        for (head, words) in [("expected", expected), ("found", found), ("way out", way_out)] {
            if !words.is_empty() {
                let _ = writeln!(text, "  {head}: {words}");
            }
        }
    }
    text += "nothing was added\n";
    Answer::findings(text)
}

/// Entries on record, each with the key that signed it.
fn past(record: &RawRecord, report: &Report) -> Vec<Past> {
    let keys = report.entries.iter().map(|entry| entry.key.clone().unwrap_or_default());
    record
        .entries
        .iter()
        .zip(keys)
        .filter_map(|(raw, key)| Some(Past { entry: entry::parse(&raw.json).ok()?, key }))
        .collect()
}

/// Opens a private key, asking for its passphrase when it has one.
#[allow(clippy::disallowed_methods, reason = "the key is read at this edge")]
fn open_key(file: &Path) -> Result<SigningKey, Failure> {
    let text = std::fs::read_to_string(file).map_err(|e| Failure::at(file, "read", &e))?;
    let fault = |fault: SignatureFault| {
        Failure::new(format!("the key {} {}", file.display(), fault.words()))
    };
    match SigningKey::from_openssh(&text, None) {
        Err(SignatureFault::PassphraseNeeded) => {
            let passphrase =
                rpassword::prompt_password(format!("Passphrase of {}: ", file.display()))
                    .map_err(|e| Failure::new(format!("could not ask for the passphrase: {e}")))?;
            SigningKey::from_openssh(&text, Some(&passphrase)).map_err(fault)
        }
        opened => opened.map_err(fault),
    }
}
