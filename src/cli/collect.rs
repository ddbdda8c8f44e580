//! `collect`: records and register of a copy of the plant, taken in.
//!
//! Must never change or remove what is here: records are only added to, and where somebody signed on
//! both, both are kept.

mod register;

use std::fmt::Write;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, clock, json, logs, records};
use crate::audit::{self, Report, Severity, Subject, audit_record};
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::packet::{self, Prepared};
use crate::record::compose::Signed;
use crate::record::copy::{Compared, compare, copied, copy_name};
use crate::record::entry::{self, Entry, Kind};
use crate::record::rules::check_signer;
use crate::record::signature::Signature;
use crate::record::store::{self, Locked, RawEntry, RawRecord};
use crate::record::trust::TrustList;
use crate::record::{namespace, state};

/// Takes in what was signed on a copy of the plant: on a tablet that was away, at another site, from a
/// backup.
///
/// Records that go on where ours end are added to, those that are shorter are left. Where somebody
/// signed on both, both are kept and the first entry that differs is named. Approvals and inspections
/// that were signed on the copy are taken in too. Nothing here is changed.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark collect demo-data demo-data

A record is taken in only when it holds: every entry is checked with this plant's people and keys.
Another history of J-1 is kept in records/J-1.copy-1a2b3c4d, named after its last entry.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Folder of the copy
    copy: PathBuf,
    /// Print what was done as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let prepared = packet::prepare(&mut Findings::default(), plant);
    let mut of_keys = Findings::default();
    let trust = desk::trust(&mut of_keys, plant);
    if of_keys.has_errors() {
        return Ok(desk.answer(&of_keys, args.json));
    }
    let (_, strays) = records::list(&args.copy)?;
    let theirs = records::read(&args.copy)?;
    if !records::folder(&args.copy, "")?.is_dir() {
        let path = args.copy.display().to_string();
        return Err(Failure::new(Words::new("collect-no-records", &[("path", path.into())])));
    }
    let collector = Collector {
        plant: &args.plant,
        prepared: &prepared,
        trust: &trust,
        now: clock::now(),
        language,
    };
    let copies = theirs.copies.iter().filter_map(|(name, raw)| Some((copied(name)?, raw)));
    let all = theirs.records.iter().map(|(name, raw)| (name.as_str(), raw)).chain(copies);
    let mut done = Vec::from_iter(collector.collect_register(&args.copy)?);
    for (record, raw) in all {
        done.push(collector.collect(record, raw)?);
    }
    let is_clean = done.iter().all(|one| one.outcome.is_clean() && one.old_keys == 0);
    let text = if args.json { json(&done)? } else { told(&done, &strays, language) };
    Ok(if is_clean { Answer::clean(text) } else { Answer::findings(text) })
}

/// What became of a record of the copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
enum Outcome {
    /// There was nothing to take in.
    Same,
    /// It is behind ours.
    Shorter,
    /// What it has more was taken in.
    Taken,
    /// It was not here.
    New,
    /// Somebody signed on both; both are kept.
    Diverged,
    /// Somebody signed on both registers; nothing was taken in.
    Parted,
    /// It does not hold, and nothing of it was taken in.
    Refused,
}

impl Outcome {
    fn is_clean(self) -> bool {
        !matches!(self, Outcome::Diverged | Outcome::Parted | Outcome::Refused)
    }
}

/// One record of the copy.
#[derive(Debug, Serialize)]
struct Collected {
    record: String,
    outcome: Outcome,
    /// So many entries were taken in.
    taken: usize,
    /// The first entry that differs, and what both say.
    #[serde(skip_serializing_if = "Option::is_none")]
    differs: Option<Differs>,
    /// The folder that keeps the other history.
    #[serde(skip_serializing_if = "Option::is_none")]
    kept_as: Option<String>,
    /// Why it does not hold, as `audit` says it.
    #[serde(skip_serializing_if = "String::is_empty")]
    report: String,
    /// Entries taken in by keys that do not count today.
    old_keys: usize,
}

impl Collected {
    /// A record of which nothing was taken in yet.
    fn of(record: &str) -> Collected {
        Collected {
            record: record.to_owned(),
            outcome: Outcome::Refused,
            taken: 0,
            differs: None,
            kept_as: None,
            report: String::new(),
            old_keys: 0,
        }
    }
}

/// Two entries in the same place; the packet itself is place 0.
#[derive(Debug, Serialize)]
struct Differs {
    entry: usize,
    here: String,
    there: String,
}

/// The plant that takes in.
struct Collector<'a> {
    plant: &'a Path,
    prepared: &'a Prepared<'a>,
    trust: &'a TrustList,
    now: DateTime<FixedOffset>,
    language: Language,
}

impl Collector<'_> {
    fn collect(&self, record: &str, copy: &RawRecord) -> Result<Collected, Failure> {
        let mut collected = Collected::of(record);
        let folder = records::folder(self.plant, record)?;
        let ours = if folder.is_dir() { store::read(&folder)? } else { RawRecord::default() };
        let compared = compare(&ours, copy);
        if let Compared::Same | Compared::Shorter = compared {
            let is_same = compared == Compared::Same;
            collected.outcome = if is_same { Outcome::Same } else { Outcome::Shorter };
            return Ok(collected);
        }
        let report = self.audit(record, copy);
        if report.worst() == Some(Severity::Error) {
            collected.report = audit::report::render(&report, self.language);
            return Ok(collected);
        }
        match compared {
            Compared::Longer(same) => {
                let is_new = ours.packet.is_none();
                collected.outcome = if is_new { Outcome::New } else { Outcome::Taken };
                collected.taken = self.take_in(record, &folder, copy)?;
                collected.old_keys = self.old_keys(copy.entries.get(same..).unwrap_or_default());
            }
            _ => {
                let (_, head) = copy.next();
                let name = copy_name(record, &head);
                collected.outcome = Outcome::Diverged;
                collected.differs = Some(self.differs(compared, &ours, copy));
                self.keep(&records::folder(self.plant, &name)?, copy)?;
                collected.kept_as = Some(name);
            }
        }
        Ok(collected)
    }

    fn audit(&self, record: &str, raw: &RawRecord) -> Report {
        audit_record(&Subject {
            job: record,
            raw,
            trust: self.trust,
            people: &self.prepared.people,
            domain: self.domain(),
            now: Some(self.now),
            current_packet: None,
        })
    }

    fn domain(&self) -> &str {
        &self.prepared.plant.facts.body.domain
    }

    /// Adds to a record, and to the log of its machine, what a copy of it has more.
    fn take_in(&self, record: &str, folder: &Path, copy: &RawRecord) -> Result<usize, Failure> {
        let mut locked = begin(folder, copy)?;
        let more = more(locked.record(), copy)?;
        let count = more.len();
        if let Some(machine) = logs::machine_of(copy).filter(|_| count > 0) {
            let mut log = logs::open(self.plant, &machine)?;
            logs::append(&mut log, &mut locked, record, more)?;
        }
        Ok(count)
    }

    /// Keeps another history beside the record. What an interrupted run began is gone on with.
    fn keep(&self, folder: &Path, copy: &RawRecord) -> Result<(), Failure> {
        let mut locked = begin(folder, copy)?;
        let more = more(locked.record(), copy)?;
        Ok(locked.append_all(more)?)
    }

    /// Entries by keys that do not count today, as those of a key that was lost meanwhile: whoever
    /// found it may have set the clock back.
    fn old_keys(&self, entries: &[RawEntry]) -> usize {
        let namespace = namespace(self.domain());
        let is_old = |raw: &&RawEntry| {
            let signature = raw.signature.as_deref().and_then(|own| Signature::parse(own).ok());
            let entry = entry::parse(&raw.json).ok();
            signature.zip(entry).is_some_and(|(signature, Entry { by, .. })| {
                check_signer(self.trust, &by, signature.key(), &namespace, Some(self.now)).is_some()
            })
        };
        entries.iter().filter(is_old).count()
    }

    fn differs(&self, compared: Compared, ours: &RawRecord, copy: &RawRecord) -> Differs {
        let place = match compared {
            Compared::Diverged(same) => Some(same),
            _ => None,
        };
        let says = |raw: &RawRecord| match place {
            Some(place) => raw.entries.get(place).map_or(String::new(), |raw| self.says(raw)),
            None => crate::canonical::sha256_hex(raw.packet.as_deref().unwrap_or_default()),
        };
        let entry = place.map_or(0, |place| place.saturating_add(1));
        Differs { entry, here: says(ours), there: says(copy) }
    }

    /// Who signed what, and when.
    fn says(&self, raw: &RawEntry) -> String {
        let Ok(Entry { at, name, step, row, kind, reading, .. }) = entry::parse(&raw.json) else {
            return self.language.word("audit-unreadable").to_owned();
        };
        let what = match reading.filter(|_| kind == Kind::Reading) {
            Some(taken) => format!("{} = {} {}", taken.blank, taken.value, taken.unit),
            None => state::of_row(&step, row.as_deref()),
        };
        format!("{at} {name}: {what} {}", kind.words().shown(self.language))
    }
}

/// Our folder for a record, with its packet, locked.
fn begin(folder: &Path, copy: &RawRecord) -> Result<Locked, Failure> {
    if !folder.join("packet.json").exists() {
        store::create(folder, copy.packet.as_deref().unwrap_or_default())?;
    }
    Ok(Locked::open(folder, "")?)
}

/// The entries that a copy has more; under the lock, because somebody may have signed meanwhile.
fn more(ours: &RawRecord, copy: &RawRecord) -> Result<Vec<Signed>, Failure> {
    let moved_on = || Failure::new(Words::of("collect-moved-on"));
    let same = match compare(ours, copy) {
        Compared::Same => return Ok(Vec::new()),
        Compared::Longer(same) => same,
        _ => return Err(moved_on()),
    };
    let signed = |raw: &RawEntry| {
        let entry = entry::parse(&raw.json).ok()?;
        Some(Signed { entry, json: raw.json.clone(), signature: raw.signature.clone()? })
    };
    copy.entries.iter().skip(same).map(|raw| signed(raw).ok_or_else(moved_on)).collect()
}

/// What was done, for people.
fn told(done: &[Collected], strays: &[String], language: Language) -> String {
    let mut text = String::new();
    for one in done {
        let _ = writeln!(text, "{}", line(one).shown(language));
        if let Some(Differs { entry, here, there }) = &one.differs {
            let number = ("entry", entry.to_string().into());
            let parts = [number, ("here", here.into()), ("there", there.into())];
            let key = if *entry == 0 { "collect-other-packet" } else { "collect-differs" };
            let _ = writeln!(text, "  {}", language.text(key, &parts));
        }
        if one.old_keys > 0 {
            let parts = [("count", one.old_keys.into())];
            let _ = writeln!(text, "  {}", language.text("collect-old-keys", &parts));
        }
        for line in one.report.lines() {
            let _ = writeln!(text, "  {line}");
        }
    }
    for stray in strays {
        let _ = writeln!(text, "{}", language.text("cli-no-record", &[("name", stray.into())]));
    }
    let taken: usize = done.iter().map(|one| one.taken).sum();
    let records = done.iter().filter(|one| one.record != register::NAME).count();
    let parts = [("records", records.into()), ("count", taken.into())];
    let _ = writeln!(text, "{}", language.text("collect-done", &parts));
    text
}

fn line(one: &Collected) -> Words {
    let name: Words = match one.record.as_str() {
        register::NAME => Words::of("auditing-register"),
        name => name.into(),
    };
    let record = ("record", name.into());
    let count = ("count", one.taken.into());
    match one.outcome {
        Outcome::Same => Words::new("collect-same", &[record]),
        Outcome::Shorter => Words::new("collect-shorter", &[record]),
        Outcome::Taken => Words::new("collect-taken", &[record, count]),
        Outcome::New => Words::new("collect-new", &[record, count]),
        Outcome::Parted => Words::new("collect-parted", &[record]),
        Outcome::Refused => Words::new("collect-refused", &[record]),
        Outcome::Diverged => {
            let kept = one.kept_as.as_deref().unwrap_or_default();
            Words::new("collect-diverged", &[record, ("folder", kept.into())])
        }
    }
}
