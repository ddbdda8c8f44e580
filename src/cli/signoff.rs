//! `signoff`: readings and signatures, added to a job's record.

use std::fmt::Write;
use std::io;
use std::path::PathBuf;

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, clock, filled, json, key, logs, records};
use crate::audit::{self, Report, Severity, Subject, audit_record};
use crate::canonical;
use crate::durable::FileError;
use crate::failure::Failure;
use crate::finding::{self, Finding, Findings};
use crate::language::{Language, Words};
use crate::log::store::Writer;
use crate::packet::model::Step;
use crate::packet::{self, Packet, Prepared};
use crate::page::words;
use crate::record::compose::{self, Acceptance, Close, Past, Raise, Request, TakeBack, Value};
use crate::record::entry::{Kind, Verdict};
use crate::record::filled::{Filled, Left, Share};
use crate::record::rules::{Refusal, Told, check_draft, check_signer, clock_behind, surely_within};
use crate::record::signature::SigningKey;
use crate::record::state::Missing;
use crate::record::store::{self, Locked, RawRecord};
use crate::record::{Entry, TrustList, entry, namespace, state};

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
  witnessmark signoff demo-data SM-1044 --sheet 0123456789ab --by a.person@plant.example \\
      --key ~/.ssh/id_ed25519 --read 12/air=0.0 --performed 12

A step is named by its number on the sheet or by its identifier, a blank by the number and its own name: 12/air.
A deviation that is raised stops the release until it is accepted. A job that is stopped, or whose packet is issued anew, needs every personal lock off and a word on what stays isolated.
A row that is signed by itself is named in the same way, 9/mains or 9.1; the step alone, 9, signs each of its rows that is not signed yet and that you may sign.
Without a reading or sign-off the command lists them.
--from FILE takes in what was filled in on a tablet: alone the entries that were signed there, with --by and --key what that person typed and nobody signed yet.
The first sign-off of a job freezes its packet: copy the first digits of the digest from your sheet.")]
pub(super) struct Args {
    /// Folder of the plant
    pub plant: PathBuf,
    /// The job
    job: String,
    /// Your identifier in people.yaml
    #[arg(long, value_name = "PERSON")]
    by: Option<String>,
    /// Your OpenSSH private key (Ed25519); without it your key in ssh-agent signs
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
    /// The file that the page of the job saved
    #[arg(long, value_name = "FILE")]
    from: Option<PathBuf>,
    /// First digits of the digest on your sheet, 12 or more
    #[arg(long, value_name = "DIGITS")]
    sheet: Option<String>,
    /// A reading for a blank; may be given many times
    #[arg(long, value_name = "BLANK=VALUE")]
    read: Vec<String>,
    /// A reading that corrects the last one of its blank; needs --reason
    #[arg(long, value_name = "BLANK=VALUE")]
    correct: Vec<String>,
    /// A step or a row of it that you did; may be given many times
    #[arg(long, value_name = "STEP")]
    performed: Vec<String>,
    /// A step or a row of it that somebody else did and you checked; may be given many times
    #[arg(long, value_name = "STEP")]
    verified: Vec<String>,
    /// You checked from outside the guards, without a personal lock
    #[arg(long)]
    outside: bool,
    /// A step, or a blank with its reading, that is not as it should be; needs --reason
    #[arg(long, value_name = "STEP|BLANK")]
    raise: Vec<String>,
    /// An entry with a reading outside its limits or a raised deviation that you accept; needs --reason
    #[arg(long, value_name = "ENTRY")]
    accept: Vec<u64>,
    /// An entry with a signature or a reading that you take back; needs --reason
    #[arg(long, value_name = "ENTRY")]
    take_back: Vec<u64>,
    /// Hand the machine over to production
    #[arg(long, conflicts_with_all = ["abandon", "supersede"])]
    release: bool,
    /// Stop the job for good and close its record; needs --reason
    #[arg(long, conflicts_with = "supersede")]
    abandon: bool,
    /// Close the record because the packet was issued anew; needs --reason
    #[arg(long)]
    supersede: bool,
    /// What became of locks and energy, where a record is closed halfway
    #[arg(long, value_name = "TEXT")]
    locks: Option<String>,
    /// Why something is corrected, raised, accepted, taken back or closed
    #[arg(long, value_name = "TEXT")]
    reason: Option<String>,
    /// A remark for every entry made now
    #[arg(long, value_name = "TEXT")]
    note: Option<String>,
    /// Print what was added as JSON
    #[arg(long)]
    pub json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    if !plant.jobs.contains_key(&args.job) {
        return Err(desk::unknown_job(plant, &args.job));
    }
    let mut findings = desk.findings.clone();
    let prepared = packet::prepare(&mut findings, plant);
    // A faulty line of the signers is no fault of the packet; who it concerns is told when signing.
    // A revocation that cannot be read is everybody's fault: a lost key could sign.
    let mut of_keys = Findings::default();
    let trust = desk::trust(&mut of_keys, plant);
    let is_open = |finding: &&Finding| {
        finding.severity == finding::Severity::Error
            && finding.place.file == plant.people.place.file
    };
    let open: Findings = of_keys.iter().filter(is_open).cloned().collect();
    if !open.is_empty() {
        return Ok(desk.answer(&open, args.json));
    }
    let book = Book {
        args,
        language,
        prepared: &prepared,
        trust: &trust,
        folder: records::current(&args.plant, &args.job)?,
        filled: None,
        anew: None,
    };
    let filled = match args.from.as_deref().map(filled::open).transpose()? {
        Some(Err(refusals)) => return book.refused(&refusals),
        Some(Ok(filled)) => Some(filled),
        None => None,
    };
    let anew = match args.supersede {
        true => match desk::packet_from(&desk, &prepared, findings.clone(), &args.job, args.json) {
            Ok(packet) => Some(packet),
            Err(answer) => return Ok(*answer),
        },
        false => None,
    };
    if let Some(refusal) = anew.as_ref().and_then(check_draft) {
        return book.refused(&[refusal]);
    }
    let anew = anew.as_ref().map(packet::digest).transpose()?;
    let book = Book { filled, anew, ..book };
    let frozen = book.frozen()?;
    let (packet, digest) = match frozen {
        Some(frozen) => frozen,
        None => match desk::packet_from(&desk, &prepared, findings, &args.job, args.json) {
            Ok(packet) => {
                let digest = packet::digest(&packet)?;
                (packet, digest)
            }
            Err(answer) => return Ok(*answer),
        },
    };
    let signs = book.filled.is_some() || !book.asks_nothing();
    if let Some(refusal) = check_draft(&packet).filter(|_| signs) {
        return book.refused(&[refusal]);
    }
    if let Some(filled) = &book.filled {
        if let Some(refusal) = filled::other_issue(filled, &args.job, &digest) {
            return book.refused(&[refusal]);
        }
        if book.asks_nothing() && args.by.is_none() && args.key.is_none() {
            return book.take_in(filled, &packet, &digest);
        }
    } else if book.asks_nothing() {
        return book.standing(&packet, &digest);
    }
    book.sign(&packet, &digest)
}

/// What a signing has at hand.
pub(super) struct Book<'a> {
    pub args: &'a Args,
    pub language: Language,
    prepared: &'a Prepared<'a>,
    pub trust: &'a TrustList,
    /// The folder of the record.
    pub folder: PathBuf,
    /// What a page kept, when a file of it was given.
    pub filled: Option<Filled>,
    /// Digest of the packet that comes in the place of the signed one.
    anew: Option<String>,
}

/// What was added, for programs.
#[derive(Serialize)]
pub(super) struct Added<'a> {
    job: &'a str,
    packet: &'a str,
    entries: Vec<String>,
    state: state::State,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    on_record: Vec<String>,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    left: &'a [Left],
    #[serde(skip_serializing_if = "Option::is_none")]
    key_ends: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    log: Vec<String>,
}

impl Book<'_> {
    /// The packet that was frozen by the first sign-off.
    fn frozen(&self) -> Result<Option<(Packet, String)>, Failure> {
        let Some(bytes) = records::frozen(&self.args.plant, &self.args.job)? else {
            return Ok(None);
        };
        let packet = serde_json::from_slice(&bytes).map_err(|error| {
            let parts = [
                ("path", self.folder.join("packet.json").display().to_string().into()),
                ("cause", error.to_string().into()),
            ];
            Failure::new(Words::new("signoff-packet-unreadable", &parts))
        })?;
        Ok(Some((packet, canonical::sha256_hex(&bytes))))
    }

    fn asks_nothing(&self) -> bool {
        let Args { read, correct, performed, verified, accept, raise, take_back, .. } = self.args;
        let Args { release, abandon, supersede, .. } = self.args;
        [read, correct, performed, verified, raise].into_iter().all(Vec::is_empty)
            && accept.is_empty()
            && take_back.is_empty()
            && !(*release || *abandon || *supersede)
    }

    /// What the job still lacks.
    fn standing(&self, packet: &Packet, digest: &str) -> Result<Answer, Failure> {
        let entries = match self.folder.is_dir() {
            true => store::read(&self.folder)?.entries,
            false => Vec::new(),
        };
        let entries: Vec<_> =
            entries.iter().filter_map(|raw| entry::parse(&raw.json).ok()).collect();
        let standing = state::standing(packet, &entries);
        if self.args.json {
            return Ok(Answer::clean(json(&standing)?));
        }
        let parts = [
            ("job", (&self.args.job).into()),
            ("state", standing.state.told().into()),
            ("entries", super::counts(self.language, &[("cli-entries", entries.len())]).into()),
        ];
        let mut text = self.language.text("signoff-standing", &parts)
            + "\n"
            + &self.language.text("cli-digest", &[("digest", digest.into())])
            + "\n";
        for step in &packet.steps {
            let of_step = standing.missing.iter().filter(|missing| missing.step() == step.id);
            let lines: Vec<String> =
                of_step.map(|missing| lacks(step, missing, self.language)).collect();
            if !lines.is_empty() {
                let _ = writeln!(
                    text,
                    "{:>4}  {}\n      {}",
                    step.number,
                    step.title,
                    lines.join("\n      ")
                );
            }
        }
        Ok(Answer::clean(text))
    }

    fn sign(&self, packet: &Packet, digest: &str) -> Result<Answer, Failure> {
        let by = needed(self.args.by.as_deref(), "--by PERSON", "signoff-who")?;
        if let Some(refusal) = self.other_sheet(digest)? {
            return Ok(refusal);
        }
        let wanted = key::Wanted {
            by,
            trust: self.trust,
            namespace: &namespace(&packet.plant.domain),
            at: clock::now(),
        };
        let key = key::open(self.args.key.as_deref(), &wanted, self.language)?;
        if let Some(filled) = &self.filled
            && let Some(refusal) = self.signed_first(filled, packet)?
        {
            return self.refused(&[refusal]);
        }
        let draft = Draft { book: self, packet, digest, by, key: &key };
        let mut aside = None;
        if self.is_first()? {
            // A request that is refused leaves nothing behind, not even a frozen packet.
            if let Err(answer) = draft.entries(&[], clock::now())? {
                return Ok(answer);
            }
            aside = self.freeze(packet)?;
        }
        let (mut locked, now) = match self.locked(digest)? {
            Ok(locked) => locked,
            Err(answer) => return Ok(answer),
        };
        let past = match compose::past(locked.record()) {
            Ok(past) => past,
            Err(refusal) => return self.refused(&[refusal]),
        };
        let (entries, share) = match draft.entries(&past, now)? {
            Ok(drafted) => drafted,
            Err(answer) => return Ok(answer),
        };
        let (_, prev) = locked.record().next();
        let signed =
            compose::seal_all(entries, &prev, &key, &packet.plant.domain).map_err(|fault| {
                let parts = [("fault", fault.words().into())];
                Failure::new(Words::new("signoff-not-signed", &parts))
            })?;
        let (domain, machine) = (&packet.plant.domain, &packet.machine.id);
        let mut log = logs::open(&self.args.plant, machine)?;
        logs::append(&mut log, &mut locked, &self.record(), signed)?;
        logs::sign(&mut log, (domain, machine), (by, &key), clock::now(), self.trust)?;
        self.added(&locked, past.len(), now, digest, (&share, &log, aside))
    }

    /// Name of the record's folder.
    pub(super) fn record(&self) -> String {
        self.folder.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
    }

    /// The record under its lock and the time; an answer when nothing may be added to it.
    pub(super) fn locked(
        &self,
        digest: &str,
    ) -> Result<Result<(Locked, DateTime<FixedOffset>), Answer>, Failure> {
        let locked = Locked::open(&self.folder, self.args.by.as_deref().unwrap_or_default())?;
        let frozen = locked.record().packet.as_deref().map(canonical::sha256_hex);
        if frozen.as_deref() != Some(digest) {
            return Err(Failure::new(Words::of("signoff-other-signed")));
        }
        // The time is taken once the lock is held, so that it never runs backwards.
        let now = clock::now();
        let last = locked.record().entries.last().and_then(|raw| entry::parse(&raw.json).ok());
        if let Some(refusal) = last.and_then(|last| clock_behind(&last, now)) {
            return self.refused(&[refusal]).map(Err);
        }
        let report = self.audit(locked.record(), now);
        if report.worst() == Some(Severity::Error) {
            let nothing = self.language.word("signoff-does-not-hold");
            let report = audit::report::render(&report, self.language);
            return Ok(Err(Answer::findings(format!("{report}{nothing}\n"))));
        }
        Ok(Ok((locked, now)))
    }

    /// What the person typed on the page whose file was given, and nobody has signed yet.
    fn share(
        &self,
        packet: &Packet,
        past: &[Past],
        by: &str,
    ) -> Result<Result<Share, Vec<Refusal>>, Failure> {
        let Some(filled) = &self.filled else { return Ok(Ok(Share::default())) };
        let corrected = self.args.correct.iter().map(|typed| split(packet, typed, "--correct"));
        let corrected: Vec<String> =
            corrected.map(|split| Ok(split?.0)).collect::<Result<_, Failure>>()?;
        Ok(crate::record::filled::share(filled, packet, past, by, &corrected))
    }

    /// Whether nobody has signed yet.
    pub(super) fn is_first(&self) -> Result<bool, Failure> {
        Ok(!self.folder.join("packet.json").exists() || !store::read(&self.folder)?.is_signed())
    }

    /// Freezes the packet for its first sign-off. Says so when another one lay there that was frozen
    /// before, and that nobody could sign for, as on a disk that was full.
    ///
    /// Two people may sign first at the same time; whose packet lies there is asked under the lock.
    pub(super) fn freeze(&self, packet: &Packet) -> Result<Option<Words>, Failure> {
        let bytes = canonical::line(packet)?;
        let is_there = |error: &FileError| error.cause.kind() == io::ErrorKind::AlreadyExists;
        match store::create(&self.folder, &bytes) {
            Err(error) if is_there(&error) => {}
            created => return Ok(created.map(|()| None)?),
        }
        let Some(name) = store::set_packet_aside(&self.folder, &bytes)? else { return Ok(None) };
        match store::create(&self.folder, &bytes) {
            Err(error) if is_there(&error) => {}
            created => created?,
        }
        Ok(Some(Words::new("signoff-packet-aside", &[("file", name.into())])))
    }

    /// The sheet in hand must be the packet that is signed.
    fn other_sheet(&self, digest: &str) -> Result<Option<Answer>, Failure> {
        let fewest = ("fewest", FEWEST_DIGITS.to_string().into());
        let is_first = self.is_first()?;
        let Some(digits) = self.args.sheet.as_deref() else {
            // The file names the whole digest, and it is this packet's.
            if is_first && self.filled.is_none() {
                let parts = [("job", (&self.args.job).into()), fewest];
                return Err(Failure::new(Words::new("signoff-first", &parts)));
            }
            return Ok(None);
        };
        let digits = digits.to_ascii_lowercase();
        if digits.len() < FEWEST_DIGITS {
            return Err(Failure::new(Words::new("signoff-few-digits", &[fewest])));
        }
        if digest.starts_with(&digits) {
            return Ok(None);
        }
        let own = digest.get(..digits.len()).unwrap_or(digest);
        let parts =
            [("sheet", digits.into()), ("job", (&self.args.job).into()), ("digest", own.into())];
        let other = self.language.text("signoff-other-sheet", &parts);
        let compare = self.language.word("signoff-compare");
        Ok(Some(Answer::findings(format!("{other}\n{compare}\n"))))
    }

    /// Every reason against a request, as text or JSON.
    pub(super) fn refused(&self, refusals: &[Refusal]) -> Result<Answer, Failure> {
        refused(refusals, self.language, self.args.json)
    }

    pub(super) fn audit(&self, raw: &RawRecord, now: DateTime<FixedOffset>) -> Report {
        audit_record(&Subject {
            job: &self.args.job,
            raw,
            trust: self.trust,
            people: &self.prepared.people,
            domain: &self.prepared.plant.facts.body.domain,
            now: Some(now),
            current_packet: None,
        })
    }

    fn request(&self, packet: &Packet, past: &[Past], share: &Share) -> Result<Request, Failure> {
        let Args { performed, verified, accept, release, outside, note, .. } = self.args;
        let reason = &self.args.reason;
        let mut readings = share.readings.clone();
        for typed in &self.args.read {
            let (blank, text) = split(packet, typed, "--read")?;
            readings.push(Value { blank, text, ..Value::default() });
        }
        for typed in &self.args.correct {
            let (blank, text) = split(packet, typed, "--correct")?;
            let reason = needed(reason.as_deref(), "--reason TEXT", "signoff-why-corrected")?;
            let is_it = |past: &&Past| {
                past.entry.reading.as_ref().is_some_and(|reading| reading.blank == blank)
            };
            let Some(last) = past.iter().rev().find(is_it) else {
                return Err(Failure::new(Words::new(
                    "signoff-no-reading",
                    &[("blank", blank.into())],
                )));
            };
            let (corrects, note) = (Some(last.entry.seq), Some(reason.to_owned()));
            readings.push(Value { blank, text, corrects, note, ..Value::default() });
        }
        let mut acceptances = Vec::new();
        for seq in accept {
            let reason = needed(reason.as_deref(), "--reason TEXT", "signoff-why-accepted")?;
            acceptances.push(Acceptance { seq: *seq, reason: reason.to_owned() });
        }
        let mut raised = Vec::new();
        for typed in &self.args.raise {
            let reason = needed(reason.clone(), "--reason TEXT", "entries-why-raised")?;
            raised.push(Raise { what: whole_name(packet, typed.trim()), reason });
        }
        let mut back = Vec::new();
        for seq in &self.args.take_back {
            let reason = needed(reason.clone(), "--reason TEXT", "entries-why-back")?;
            back.push(TakeBack { seq: *seq, reason });
        }
        Ok(Request {
            readings,
            performed: [share.performed.as_slice(), performed].concat(),
            verified: [share.verified.as_slice(), verified].concat(),
            accept: acceptances,
            raise: raised,
            take_back: back,
            release: *release,
            close: self.close()?,
            outside: *outside,
            note: note.clone(),
        })
    }

    /// How the record is closed without a release.
    fn close(&self) -> Result<Option<Close>, Failure> {
        let Args { abandon, supersede, reason, locks, .. } = self.args;
        if !(*abandon || *supersede) {
            return Ok(None);
        }
        let reason = needed(reason.clone(), "--reason TEXT", "entries-why-closed")?;
        Ok(Some(Close { becomes: self.anew.clone(), reason, locks: locks.clone() }))
    }

    pub(super) fn added(
        &self,
        locked: &Locked,
        before: usize,
        now: DateTime<FixedOffset>,
        digest: &str,
        (share, log, aside): (&Share, &Writer, Option<Words>),
    ) -> Result<Answer, Failure> {
        let report = self.audit(locked.record(), now);
        let line = |entry| audit::report::entry_line(entry, self.language);
        let lines: Vec<String> = report.entries.iter().skip(before).map(line).collect();
        let mut keys = report.entries.iter().skip(before).filter_map(|entry| entry.key.as_deref());
        let key_ends = keys
            .find_map(|key| key::ends_soon(self.trust, key, now))
            .map(|words| words.shown(self.language));
        let aside = aside.map(|words| words.shown(self.language));
        let log: Vec<String> = aside.into_iter().chain(logs::told(log, self.language)).collect();
        if self.args.json {
            let state = report.state.unwrap_or(state::State::Open);
            let (job, left) = (&self.args.job, &share.left);
            let on_record = filled::on_record(share, self.language);
            let entries = lines;
            let added =
                Added { job, packet: digest, entries, state, on_record, left, key_ends, log };
            return Ok(Answer::clean(json(&added)?));
        }
        let state = report.state.map_or(Words::of("audit-state-unknown"), state::State::told);
        let parts = [
            ("job", (&self.args.job).into()),
            ("state", state.into()),
            ("count", report.missing.len().into()),
        ];
        let mut text =
            lines.join("\n") + "\n" + &filled::told(share, self.filled.as_ref(), self.language);
        let _ = writeln!(text, "{}", self.language.text("signoff-missing", &parts));
        if let Some(key_ends) = key_ends {
            let _ = writeln!(text, "{key_ends}");
        }
        log.iter().for_each(|said| text += &format!("{said}\n"));
        Ok(Answer::clean(text))
    }
}

/// Every reason against a request, as text or JSON.
pub(super) fn refused(
    refusals: &[Refusal],
    language: Language,
    as_json: bool,
) -> Result<Answer, Failure> {
    let told = refusals.iter().map(|refusal| refusal.told(language));
    if as_json {
        let told: Vec<Told> = told.collect();
        return Ok(Answer::findings(json(&told)?));
    }
    let mut text = String::new();
    for Told { code, expected, found, words, way_out } in told {
        let _ = writeln!(text, "{}[{code}]: {words}", language.word("signoff-refused"));
        for (head, words) in
            [("signoff-expected", expected), ("signoff-found", found), ("signoff-way-out", way_out)]
        {
            if !words.is_empty() {
                let _ = writeln!(text, "  {}: {words}", language.word(head));
            }
        }
    }
    text += language.word("signoff-nothing-added");
    text.push('\n');
    Ok(Answer::findings(text))
}

/// A request of one person with one key.
struct Draft<'a> {
    book: &'a Book<'a>,
    packet: &'a Packet,
    digest: &'a str,
    by: &'a str,
    key: &'a SigningKey,
}

impl Draft<'_> {
    /// The next entries and what of the page's file is in them, or why there are none.
    fn entries(
        &self,
        past: &[Past],
        at: DateTime<FixedOffset>,
    ) -> Result<Result<(Vec<Entry>, Share), Answer>, Failure> {
        let share = match self.book.share(self.packet, past, self.by)? {
            Ok(share) => share,
            Err(refusals) => return self.book.refused(&refusals).map(Err),
        };
        if self.book.filled.is_some() && share.is_empty() && self.book.asks_nothing() {
            return self.book.nothing_new(&share).map(Err);
        }
        match self.composed(past, &share, at)? {
            Ok(entries) => Ok(Ok((entries, share))),
            Err(refusals) => self.book.refused(&refusals).map(Err),
        }
    }

    fn composed(
        &self,
        past: &[Past],
        share: &Share,
        at: DateTime<FixedOffset>,
    ) -> Result<Result<Vec<Entry>, Vec<Refusal>>, Failure> {
        let request = self.book.request(self.packet, past, share)?;
        let namespace = namespace(&self.packet.plant.domain);
        let public = self.key.public();
        let key = public.as_bytes();
        if let Some(refusal) = check_signer(self.book.trust, self.by, key, &namespace, Some(at)) {
            let (words, remedy) = (&refusal.words, refusal.words.way_out());
            let parts = [("words", words.into()), ("remedy", remedy.into())];
            let words = Words::new("refusal-what-you-ask", &parts);
            return Ok(Err(vec![Refusal { words, ..refusal }]));
        }
        let desk = compose::Desk {
            packet: self.packet,
            digest: self.digest,
            past,
            people: &self.book.prepared.people,
            by: self.by,
            key: &public.fingerprint(),
            at,
        };
        Ok(compose::compose(&desk, &request))
    }
}

pub(super) fn needed<T>(given: Option<T>, option: &str, what: &'static str) -> Result<T, Failure> {
    given.ok_or_else(|| Failure::new(Words::new(what, &[("option", option.into())])))
}

/// What a step lacks, as a person at the machine would say it.
fn lacks(step: &Step, missing: &Missing, language: Language) -> String {
    match missing {
        Missing::Reading { blank, .. } => {
            let (label, limits) = label_and_limits(step, blank, language);
            let name = step.short_name(blank);
            let parts = [("name", name.into()), ("label", label.into()), ("limits", limits.into())];
            language.text("signoff-lacks-reading", &parts)
        }
        Missing::Signature { meaning, role, row, .. } => {
            let kind = Kind::of_word(meaning).map_or((*meaning).into(), Kind::words);
            let (kind, role) = (("kind", kind.into()), ("role", role.into()));
            let Some(row) = row else { return language.text("signoff-lacks-step", &[kind, role]) };
            let number = format!("{}/{row}", step.number);
            let row = row_name(step, row);
            let parts = [kind, role, ("number", number.into()), ("row", row.into())];
            language.text("signoff-lacks-row", &parts)
        }
        Missing::Acceptance { seq, blank, verdict, .. } => {
            of_entry("signoff-lacks-acceptance", step, (*seq, blank, *verdict), language)
        }
        Missing::Remeasuring { seq, blank, verdict, .. } => {
            of_entry("signoff-lacks-measuring", step, (*seq, blank, *verdict), language)
        }
        Missing::Answer { .. } => missing.words().shown(language),
    }
}

/// What an entry lacks whose reading is not within its limits.
fn of_entry(
    key: &str,
    step: &Step,
    (seq, blank, verdict): (u64, &str, Verdict),
    language: Language,
) -> String {
    let (_, limits) = label_and_limits(step, blank, language);
    let parts = [
        ("entry", seq.to_string().into()),
        ("name", step.short_name(blank).into()),
        ("limits", limits.into()),
        ("verdict", verdict.words_of_limits().into()),
    ];
    language.text(key, &parts)
}

/// Number of a row and what stands first in it: `9.2 Mains supply`.
fn row_name(step: &Step, row: &str) -> String {
    let name = step.rows().find(|own| own.id == row).and_then(|own| own.cells.first());
    let number = step.row_number(row).unwrap_or_default();
    format!("{number} {}", name.map_or(row, String::as_str)).trim().to_owned()
}

/// What a blank is for, and its limits with where a reading is surely within them.
fn label_and_limits(step: &Step, blank: &str, language: Language) -> (String, String) {
    let Some(blank) = step.readings.iter().find(|reading| reading.id == blank) else {
        return (String::new(), String::new());
    };
    let limits = words::limits(language, blank.low.as_deref(), blank.high.as_deref(), &blank.unit);
    let sure = surely_within(blank).map(|sure| words::numbers(language, &sure.shown(language)));
    (blank.label.clone(), limits + &sure.map_or(String::new(), |sure| format!(", {sure}")))
}

/// The whole identifier of a blank that was typed as `11/air`.
fn whole_name(packet: &Packet, typed: &str) -> String {
    let blanks = packet.steps.iter().flat_map(|step| {
        step.readings.iter().map(move |reading| (step.short_name(&reading.id), &reading.id))
    });
    let found = blanks.into_iter().find(|(short, _)| short == typed);
    found.map_or(typed.to_owned(), |(_, whole)| whole.clone())
}

fn split(packet: &Packet, typed: &str, option: &str) -> Result<(String, String), Failure> {
    let (blank, value) = typed.split_once('=').ok_or_else(|| {
        let parts = [("option", option.into()), ("typed", typed.into())];
        Failure::new(Words::new("signoff-no-equals", &parts))
    })?;
    Ok((whole_name(packet, blank.trim()), value.trim().to_owned()))
}

#[cfg(test)]
mod tests {
    use super::lacks;
    use crate::language::Language;
    use crate::packet::model::Step;
    use crate::record::entry::Verdict;
    use crate::record::fixture;
    use crate::record::state::Missing;

    const BLANK: &str = "knives.set/position-3";

    /// What is printed of something missing in the step that sets the knives.
    #[track_caller]
    fn check(missing: &Missing, change: fn(&mut Step), expected: &str) {
        let mut packet = fixture::packet();
        let step = packet.steps.iter_mut().find(|step| step.id == "knives.set").unwrap();
        change(step);
        assert_eq!(lacks(step, missing, Language::English).replace('\u{a0}', " "), expected);
    }

    fn acceptance(verdict: Verdict) -> Missing {
        Missing::Acceptance {
            step: "knives.set".to_owned(),
            blank: BLANK.to_owned(),
            seq: 7,
            verdict,
        }
    }

    #[test]
    fn a_reading_too_close_to_tell_is_not_called_outside() {
        check(
            &acceptance(Verdict::Outside),
            |_| (),
            "entry 7 (4/position-3, 27.5 to 28.5 mm) is outside its limits: accepted by nobody yet",
        );
        check(
            &acceptance(Verdict::TooClose),
            |step| step.readings[2].guard = Some(fixture::guard()),
            "entry 7 (4/position-3, 27.5 to 28.5 mm, surely within from 27.8 to 28.2 mm) is not \
             surely within its limits (too close to tell): accepted by nobody yet",
        );
    }

    #[test]
    fn a_blank_with_a_guard_band_says_where_a_reading_is_sure() {
        let missing = Missing::Reading { step: "knives.set".to_owned(), blank: BLANK.to_owned() };
        check(&missing, |_| (), "reading 4/position-3: Knife 3, 27.5 to 28.5 mm");
        check(
            &missing,
            |step| step.readings[2].guard = Some(fixture::guard()),
            "reading 4/position-3: Knife 3, 27.5 to 28.5 mm, surely within from 27.8 to 28.2 mm",
        );
        check(
            &missing,
            |step| {
                let guard = crate::packet::model::Guard { high: None, ..fixture::guard() };
                step.readings[2].guard = Some(guard);
            },
            "reading 4/position-3: Knife 3, 27.5 to 28.5 mm, surely within from 27.8 mm up",
        );
    }
}
