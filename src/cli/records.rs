//! Reading and judging a plant's records, for `publish` and `audit`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};
use rayon::prelude::*;

use crate::audit::{self, Report, Subject, audit_all, clock, series};
use crate::failure::Failure;
use crate::language::Words;
use crate::packet::{self, Packets, Prepared};
use crate::plant::load::is_id;
use crate::publish::site::Recorded;
use crate::record::copy::copied;
use crate::record::entry::{self, Kind};
use crate::record::store::{self, RawRecord};
use crate::record::trust::TrustList;
use crate::record::{job_of, record_name, record_number};

/// All records of a plant.
pub(super) struct Shelf {
    /// Records by job.
    pub records: BTreeMap<String, RawRecord>,
    /// Other histories of records that are kept beside them, by folder.
    pub copies: BTreeMap<String, RawRecord>,
}

/// The folder of a job's record, whether it is there or not.
///
/// # Errors
/// When it is a link: it could lead outside the plant.
#[allow(clippy::disallowed_methods, reason = "a folder is looked at before it is read")]
pub(super) fn folder(plant: &Path, job: &str) -> Result<PathBuf, Failure> {
    let all = plant.join("records");
    let own = all.join(job);
    for path in [&all, &own] {
        if std::fs::symlink_metadata(path).is_ok_and(|meta| meta.is_symlink()) {
            let parts = [("path", path.display().to_string().into())];
            return Err(Failure::new(Words::new("failure-link", &parts)));
        }
    }
    Ok(own)
}

/// The folder of the record that a job's next sign-off goes into: the last one, or the one after it
/// when its packet was superseded.
pub(super) fn current(plant: &Path, job: &str) -> Result<PathBuf, Failure> {
    for number in 1.. {
        let own = folder(plant, &record_name(job, number))?;
        let next = folder(plant, &record_name(job, number.saturating_add(1)))?;
        if !next.is_dir() {
            return Ok(if own.is_dir() && is_superseded(&own)? { next } else { own });
        }
    }
    folder(plant, job)
}

/// Whether the packet of a record was issued anew.
fn is_superseded(folder: &Path) -> Result<bool, Failure> {
    let entries = store::read(folder)?.entries;
    let last = entries.last().and_then(|raw| entry::parse(&raw.json).ok());
    Ok(last.is_some_and(|entry| entry.kind == Kind::Superseded))
}

/// Bytes of the packet that was frozen by the first sign-off of a job; none before that, none once it was
/// issued anew, and none while nobody could sign for it, as on a disk that is full.
pub(super) fn frozen(plant: &Path, job: &str) -> Result<Option<Vec<u8>>, Failure> {
    let folder = current(plant, job)?;
    if !folder.is_dir() {
        return Ok(None);
    }
    let raw = store::read(&folder)?;
    Ok(if raw.is_signed() { raw.packet } else { None })
}

/// What lies among the records of a plant: names of records, and names that are none, in order.
#[allow(clippy::disallowed_methods, reason = "records are read at this edge")]
pub(super) fn list(plant: &Path) -> Result<(Vec<String>, Vec<String>), Failure> {
    let folder = folder(plant, "")?;
    let (mut names, mut strays) = (Vec::new(), Vec::new());
    if !folder.exists() {
        return Ok((names, strays));
    }
    let listing =
        std::fs::read_dir(&folder).map_err(|e| Failure::at("failure-list", &folder, &e))?;
    for entry in listing {
        let entry = entry.map_err(|e| Failure::at("failure-list", &folder, &e))?;
        let kind =
            entry.file_type().map_err(|e| Failure::at("failure-look-at", &entry.path(), &e))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        // A link could lead outside the plant, whatever it points at.
        if kind.is_dir() && is_id(job_of(&name)) {
            names.push(name);
        } else {
            strays.push(name);
        }
    }
    names.sort();
    strays.sort();
    Ok((names, strays))
}

/// Reads every record of a plant.
pub(super) fn read(plant: &Path) -> Result<Shelf, Failure> {
    let (names, _) = list(plant)?;
    let read = |name: String| {
        let raw = store::read(&folder(plant, &name)?)?;
        Ok((name, raw))
    };
    let read = names.into_par_iter().map(read).collect::<Result<BTreeMap<_, _>, Failure>>();
    let begun = read?.into_iter().filter(|(_, raw)| raw.is_begun());
    let (copies, records) = begun.partition(|(name, _)| copied(name).is_some());
    Ok(Shelf { records, copies })
}

/// Says of each record of which another history is kept, and of that history, where they part.
pub(super) fn diverged(
    judged: &mut BTreeMap<String, Recorded>,
    copies: &BTreeMap<String, RawRecord>,
) {
    for (name, copy) in copies {
        let Some(own) = copied(name).and_then(|record| judged.get_mut(record)) else { continue };
        own.report.findings.extend(audit::copies::diverged(&own.raw, name, copy));
    }
}

/// Judges records; `now` is none where the answer must not depend on the day it is asked. `look` sees
/// each record with what the audit says of it by itself, before they are held against each other.
pub(super) fn judge<T>(
    records: BTreeMap<String, RawRecord>,
    prepared: &Prepared,
    packets: &Packets,
    trust: &TrustList,
    now: Option<DateTime<FixedOffset>>,
    look: impl FnOnce(&BTreeMap<String, RawRecord>, &[Report]) -> T,
) -> (BTreeMap<String, Recorded>, T) {
    let begun: BTreeSet<&str> = records.keys().map(|name| job_of(name)).collect();
    let digests: BTreeMap<&str, String> = packets
        .iter()
        .filter(|(job, _)| begun.contains(job.as_str()))
        .filter_map(|(job, packet)| Some((job.as_str(), packet::digest(packet).ok()?)))
        .collect();
    let is_last = |name: &str| {
        !records.contains_key(&record_name(job_of(name), record_number(name).saturating_add(1)))
    };
    let subjects: Vec<Subject> = records
        .iter()
        .map(|(name, raw)| Subject {
            job: name,
            raw,
            trust,
            people: &prepared.people,
            domain: &prepared.plant.facts.body.domain,
            now,
            // Only the last packet of a job is compared with what its files give today.
            current_packet: digests.get(job_of(name)).filter(|_| is_last(name)).map(String::as_str),
        })
        .collect();
    let mut reports = audit_all(&subjects);
    let looked = look(&records, &reports);
    clock::across(&mut reports);
    series::across(&mut reports);
    let house = packet::house(prepared.plant, &prepared.people);
    let register = &prepared.register.register;
    for (report, raw) in reports.iter_mut().zip(records.values()) {
        report.findings.extend(audit::register::drafts_used(register, &house, raw));
    }
    let judged = records.into_iter().zip(reports);
    let judged = judged.map(|((name, raw), report)| (name, Recorded { raw, report }));
    (judged.collect(), looked)
}
