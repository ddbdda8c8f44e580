//! The logs of a plant's machines: opened for writing, adopted, read for an audit.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, File};
use std::io::{BufReader, Read};
use std::path::Path;

use chrono::{DateTime, FixedOffset};

use super::records;
use crate::audit::clock::Clocks;
use crate::audit::log::{
    KeptHead, LogReport, LogSubject, OnRecord, Sources, audit_log, prove_kept,
};
use crate::durable::FileError;
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::log::checkpoint::{Checkpoint, Kept, short};
use crate::log::line::{Line, is_record};
use crate::log::note;
use crate::log::store::{self, LEAVES, Log, Pen, Writer};
use crate::log::tree;
use crate::packet::Packet;
use crate::plant::load::is_id;
use crate::publish::logs::SiteLog;
use crate::record::compose::Signed;
use crate::record::entry;
use crate::record::signature::{Signature, SigningKey, fingerprint};
use crate::record::store::{Locked, RawRecord};
use crate::record::time;
use crate::record::trust::TrustList;

/// Opens the log of a machine to add to it. A new one begins with what was signed before.
pub(super) fn open(plant: &Path, machine: &str) -> Result<Writer, Failure> {
    let mut log = Writer::open(plant, machine)?;
    if log.log().leaves() == 0 {
        adopt(&records::read(plant)?.records, machine, &mut log)?;
    }
    Ok(log)
}

/// Adds entries to a record and to the log of its machine, so that a crash in between loses none.
/// When that fails, says how many stand nevertheless.
pub(super) fn append(
    log: &mut Writer,
    locked: &mut Locked,
    record: &str,
    signed: Vec<Signed>,
) -> Result<(), Failure> {
    let (before, all) = (locked.record().entries.len(), signed.len());
    let appended = log.intend(record, &signed).and_then(|()| locked.append_all(signed));
    // What fails half way is told, and whoever opens the log next adds what came on record.
    appended.and_then(|()| log.commit()).map_err(|error| {
        let added = locked.record().entries.len().saturating_sub(before);
        let parts = [("error", error.words().into()), ("added", added.into()), ("all", all.into())];
        Failure::new(Words::new("records-not-added", &parts))
    })
}

/// Signs a checkpoint of all leaves.
pub(super) fn sign(
    log: &mut Writer,
    (domain, machine): (&str, &str),
    (by, key): (&str, &SigningKey),
    at: DateTime<FixedOffset>,
    trust: &TrustList,
) -> Result<(), Failure> {
    let origin = format!("{domain}/{machine}");
    let pen = Pen { origin: &origin, by, key, at, signers: trust.digest() };
    log.sign(&pen)?;
    Ok(())
}

/// Adds every entry of a machine that has no leaf yet, in the order of time, record and number.
pub(super) fn adopt(
    records: &BTreeMap<String, RawRecord>,
    machine: &str,
    log: &mut Writer,
) -> Result<(), Failure> {
    let mut logged: BTreeMap<String, u64> = BTreeMap::new();
    for line in log.log().lines()? {
        let Some(line) = line? else { break };
        let last = logged.entry(line.record).or_default();
        *last = line.entry.max(*last);
    }
    let mut found = Vec::new();
    for (record, raw) in records {
        if is_record(record) && machine_of(raw).as_deref() == Some(machine) {
            let last = logged.get(record).copied().unwrap_or(0);
            found.extend(leaves(record, raw).into_iter().filter(|(_, line)| line.entry > last));
        }
    }
    found.sort_by(|(at, one), (than, other)| {
        (at, &one.record, one.entry).cmp(&(than, &other.record, other.entry))
    });
    let lines: Vec<Line> = found.into_iter().map(|(_, line)| line).collect();
    Ok(log.adopt(&lines)?)
}

/// What the entries of a record would be in the log, with their time in seconds. One that cannot be
/// read, or has no time, comes right after the one before it.
fn leaves(record: &str, raw: &RawRecord) -> Vec<(i64, Line)> {
    let (mut at, mut leaves) = (i64::MIN, Vec::new());
    for entry in &raw.entries {
        let stated = entry::parse(&entry.json).ok().and_then(|own| time::parse(&own.at).ok());
        at = stated.map_or(at, |stated| stated.timestamp());
        let (Some(signature), Ok(number)) = (&entry.signature, entry.name.parse()) else {
            continue;
        };
        let hash = tree::leaf(&[&entry.json, signature]);
        leaves.push((at, Line { hash, entry: number, record: record.to_owned() }));
    }
    leaves
}

/// The machine of a record: as its first readable entry says, or its packet.
pub(super) fn machine_of(raw: &RawRecord) -> Option<String> {
    let stated = raw.entries.iter().find_map(|raw| entry::parse(&raw.json).ok());
    stated.map(|entry| entry.machine).or_else(|| {
        let packet: Packet = serde_json::from_slice(raw.packet.as_deref()?).ok()?;
        Some(packet.machine.id)
    })
}

/// How many entries each record has, by machine.
pub(super) type Sizes = BTreeMap<String, BTreeMap<String, u64>>;

/// Takes down a record for [`audit`].
pub(super) fn count(sizes: &mut Sizes, record: &str, raw: &RawRecord) {
    let Some(machine) = machine_of(raw).filter(|machine| is_id(machine)) else { return };
    let last = raw.entries.last().and_then(|entry| entry.name.parse().ok()).unwrap_or(0);
    sizes.entry(machine).or_default().insert(record.to_owned(), last);
}

/// Machines that have a log.
pub(super) fn machines(plant: &Path) -> Result<BTreeSet<String>, Failure> {
    let all = store::folder(plant, "")?;
    if !all.is_dir() {
        return Ok(BTreeSet::new());
    }
    let fail = |e| Failure::at("failure-list", &all, &e);
    let mut machines = BTreeSet::new();
    for item in fs::read_dir(&all).map_err(fail)? {
        let item = item.map_err(fail)?;
        let name = item.file_name().to_string_lossy().into_owned();
        if is_id(&name) && item.file_type().map_err(fail)?.is_dir() {
            machines.insert(name);
        }
    }
    Ok(machines)
}

/// Whose word counts in an audit of logs, and when it is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Judge<'a> {
    pub plant: &'a Path,
    pub domain: &'a str,
    pub trust: &'a TrustList,
    /// None where the answer must not depend on the day it is asked.
    pub now: Option<DateTime<FixedOffset>>,
}

/// Judges the log of every machine that has one, has records, or of which something was kept.
pub(super) fn audit(
    judge: &Judge,
    mut sizes: Sizes,
    kept: &[Keepsake],
) -> Result<Vec<LogReport>, Failure> {
    for machine in machines(judge.plant)?.into_iter().chain(kept.iter().map(Keepsake::machine)) {
        sizes.entry(machine).or_default();
    }
    let of = |(machine, records): (String, _)| Ok(judge.judged(&machine, records, kept)?.0);
    sizes.into_iter().map(of).collect()
}

/// The logs as a site shows them.
pub(super) fn published(
    judge: &Judge,
    sizes: &Sizes,
) -> Result<BTreeMap<String, SiteLog>, Failure> {
    let of = |machine: String| {
        let records = sizes.get(&machine).cloned().unwrap_or_default();
        let (report, log) = judge.judged(&machine, records, &[])?;
        let checkpoint = log.as_ref().map(Log::checkpoint).transpose()?.flatten();
        let mut leaves = Vec::new();
        for line in log.as_ref().map(Log::lines).transpose()?.into_iter().flatten() {
            leaves.extend(line?);
        }
        Ok((machine, SiteLog { report, checkpoint, leaves }))
    };
    machines(judge.plant)?.into_iter().map(of).collect()
}

/// The newest checkpoint of a machine's log in short, for a sheet; empty when nobody stands behind it.
pub(super) fn short_of(judge: &Judge, machine: &str) -> Result<String, Failure> {
    let Some(bytes) = Log::open(judge.plant, machine)?.map(|log| log.checkpoint()).transpose()?
    else {
        return Ok(String::new());
    };
    let read = bytes.and_then(|bytes| Checkpoint::parse(&bytes).ok());
    let signed = read.filter(|(own, note)| own.signer(note, judge.trust, judge.domain).is_ok());
    Ok(signed.map(|(own, _)| short(machine, own.leaves, &own.root)).unwrap_or_default())
}

/// Proves only what was kept: no entry and no leaf is read.
pub(super) fn prove(judge: &Judge, kept: &[Keepsake]) -> Result<Vec<LogReport>, Failure> {
    let machines: BTreeSet<String> = kept.iter().map(Keepsake::machine).collect();
    let of = |machine: String| {
        let log = Log::open(judge.plant, &machine)?;
        let subject = judge.subject(&machine, log.as_ref(), BTreeMap::new(), kept)?;
        let hash = |place| match &log {
            Some(log) => log.hash(place),
            None => Ok([0; 32]),
        };
        Ok::<_, Failure>(prove_kept(&subject, hash)?)
    };
    machines.into_iter().map(of).collect()
}

impl Judge<'_> {
    /// Judges one log; it stays open, so that nobody adds to it meanwhile.
    fn judged(
        &self,
        machine: &str,
        records: BTreeMap<String, u64>,
        kept: &[Keepsake],
    ) -> Result<(LogReport, Option<Log>), Failure> {
        let log = Log::open(self.plant, machine)?;
        let subject = self.subject(machine, log.as_ref(), records, kept)?;
        // While a writer is stopped halfway, the lists are whole as far as there are hashes.
        let whole = match (&log, &subject.leaves) {
            (Some(log), Some(leaves)) if log.pending()?.is_some() => *leaves,
            _ => u64::MAX,
        };
        let lines = log.as_ref().map(Log::lines).transpose()?.into_iter().flatten();
        let lines = lines.take(usize::try_from(whole).unwrap_or(usize::MAX));
        let mut hash = |place| match &log {
            Some(log) => log.hash(place),
            None => Ok([0; 32]),
        };
        let (mut clocks, mut leaf) = (Clocks::default(), 0);
        let mut on_record = |line: &Line| {
            leaf += 1;
            let found = store::entry_on_record(self.plant, &line.record, line.entry)?;
            Ok::<_, FileError>(found.map(|[json, signature]| {
                let stamp = stamp(&json, &signature);
                if let Some((at, key)) = &stamp {
                    clocks.take(leaf, *at, key);
                }
                let (hash, at) = (tree::leaf(&[&json, &signature]), stamp.map(|(at, _)| at));
                OnRecord { hash, at }
            }))
        };
        let sources = Sources { hash: &mut hash, on_record: &mut on_record };
        let mut report = audit_log(subject, lines, sources)?;
        report.findings.extend(clocks.log_notes());
        Ok((report, log))
    }

    fn subject<'s>(
        &'s self,
        machine: &'s str,
        log: Option<&Log>,
        records: BTreeMap<String, u64>,
        kept: &[Keepsake],
    ) -> Result<LogSubject<'s>, Failure> {
        let own = kept.iter().filter(|one| one.machine() == machine);
        let kept = own.map(|one| one.head(log)).collect::<Result<_, FileError>>()?;
        Ok(LogSubject {
            machine,
            domain: self.domain,
            trust: self.trust,
            now: self.now,
            leaves: log.map(Log::leaves),
            checkpoint: log.map(Log::checkpoint).transpose()?.flatten(),
            pending: log.map(Log::pending).transpose()?.flatten().unwrap_or_default(),
            strays: log.map(Log::strays).transpose()?.unwrap_or_default(),
            records,
            kept,
        })
    }
}

/// When an entry says that it was signed, and by which key. Whether it was is for its record's audit.
fn stamp(json: &[u8], signature: &[u8]) -> Option<(DateTime<FixedOffset>, String)> {
    let at = time::parse(&entry::parse(json).ok()?.at).ok()?;
    Some((at, fingerprint(Signature::parse(signature).ok()?.key())))
}

/// What somebody kept elsewhere: a checkpoint, and the list of leaves where it was kept too.
pub(super) struct Keepsake {
    kept: Kept,
    leaves: Option<File>,
}

impl Keepsake {
    fn machine(&self) -> String {
        self.kept.machine.clone()
    }

    /// With the first leaf that differs, where both lists are at hand.
    fn head(&self, log: Option<&Log>) -> Result<KeptHead, FileError> {
        let mut first = None;
        if let (Some(log), Some(file)) = (log, &self.leaves) {
            first = first_difference(log, file, self.kept.leaves)?;
        }
        Ok(KeptHead { kept: self.kept.clone(), first })
    }
}

/// The first leaf, up to a length, that is in the list that was kept and not in the log.
fn first_difference(log: &Log, kept: &File, leaves: u64) -> Result<Option<(u64, Line)>, FileError> {
    let mut own = log.lines()?;
    for (leaf, line) in (1..=leaves).zip(store::lines_of(kept)) {
        let Ok(Some(line)) = line else { return Ok(None) };
        let other = own.next().transpose()?.flatten();
        if other.is_none_or(|other| other.hash != line.hash) {
            return Ok(Some((leaf, line)));
        }
    }
    Ok(None)
}

/// Reads what was kept: a file with a checkpoint, a folder with one, or its short form as typed.
pub(super) fn kept(typed: &[String], judge: &Judge) -> Result<Vec<Keepsake>, Failure> {
    typed.iter().map(|typed| keepsake(typed, judge)).collect()
}

fn keepsake(typed: &str, judge: &Judge) -> Result<Keepsake, Failure> {
    let (mut kept, leaves) = typed_or_read(typed, judge.domain)?;
    // Capitals do not matter on paper.
    if let Some(own) =
        machines(judge.plant)?.iter().find(|own| own.eq_ignore_ascii_case(&kept.machine))
    {
        kept.machine.clone_from(own);
    }
    if !is_id(&kept.machine) {
        return Err(no_machine(&kept.machine));
    }
    Ok(Keepsake { kept, leaves })
}

/// That nobody has a log of this machine here.
pub(super) fn no_machine(machine: &str) -> Failure {
    Failure::new(Words::new("log-no-machine", &[("machine", machine.into())]))
}

/// What was kept, with the list of leaves that lies beside it.
pub(super) fn typed_or_read(typed: &str, domain: &str) -> Result<(Kept, Option<File>), Failure> {
    let path = match Path::new(typed) {
        folder if folder.is_dir() => folder.join(store::CHECKPOINT),
        file => file.to_owned(),
    };
    let mut bytes = typed.as_bytes().to_vec();
    let mut leaves = None;
    if path.is_file() {
        let fail = |e| Failure::at("failure-read", &path, &e);
        let most = u64::try_from(note::MOST_BYTES).unwrap_or(u64::MAX).saturating_add(1);
        bytes.clear();
        let file = File::open(&path).map_err(fail)?;
        BufReader::new(file.take(most)).read_to_end(&mut bytes).map_err(fail)?;
        leaves = File::open(path.with_file_name(LEAVES)).ok();
    }
    let kept = Kept::parse(&bytes, domain).map_err(|fault| {
        let parts = [("kept", typed.into()), ("fault", fault.words().into())];
        Failure::new(Words::new("log-kept-unreadable", &parts))
    })?;
    Ok((kept, leaves))
}

/// What was mended or adopted, a line each.
pub(super) fn told(log: &Writer, language: Language) -> Vec<String> {
    log.said().iter().map(|said| said.shown(language)).collect()
}
