//! The records of a plant one after the other, for an audit that must not hold them all.
#![allow(clippy::disallowed_methods, reason = "records are looked at before they are read")]

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::Read;
use std::path::Path;

use chrono::{DateTime, FixedOffset};

use super::logs::{self, Sizes};
use super::records;
use crate::audit::register::drafts_used;
use crate::audit::sample::{Candidate, Chosen, Plan};
use crate::audit::{Report, Subject, audit_each, audit_record, clock, copies, series};
use crate::failure::Failure;
use crate::finding::Findings;
use crate::history::drift::{Drift, Question};
use crate::history::run::{self, Run};
use crate::packet::{self, Prepared};
use crate::record::copy::{COPY, copied};
use crate::record::entry::{self, Entry};
use crate::record::store::{self, RawRecord};
use crate::record::trust::TrustList;
use crate::record::{job_of, record_name, record_number, time};
use crate::register::rules::House;

/// The names of a plant's records.
pub(super) struct Archive<'a> {
    plant: &'a Path,
    names: BTreeSet<String>,
    /// Names among them that are no record.
    pub strays: Vec<String>,
}

/// What records are judged by.
pub(super) struct Court<'a> {
    /// The plant, understood.
    pub prepared: &'a Prepared<'a>,
    /// Whose key is whose.
    pub trust: &'a TrustList,
    /// The time of the audit.
    pub now: DateTime<FixedOffset>,
    /// Whether the entries are kept with the reports.
    pub entries: bool,
}

/// What an archive was found to be.
pub(super) struct Judged {
    /// What was found, record by record, in the order of names.
    pub reports: Vec<Report>,
    /// How many entries each record has, by machine.
    pub sizes: Sizes,
    /// What counts over the records ask.
    pub questions: Vec<Question>,
}

impl<'a> Archive<'a> {
    /// Lists the records of a plant and reads none.
    pub(super) fn open(plant: &'a Path) -> Result<Self, Failure> {
        let (names, strays) = records::list(plant)?;
        Ok(Archive { plant, names: names.into_iter().collect(), strays })
    }

    /// The records that a plan takes. For a machine or a period the first and the last entry of each
    /// record are looked at.
    pub(super) fn choose(&self, plan: &Plan) -> Result<Chosen, Failure> {
        let candidates: Vec<Candidate> =
            self.names.iter().map(|name| self.candidate(name, plan)).collect::<Result<_, _>>()?;
        Ok(plan.choose(&candidates))
    }

    fn candidate(&self, name: &str, plan: &Plan) -> Result<Candidate, Failure> {
        let (name, job) = (name.to_owned(), job_of(name).to_owned());
        if !plan.asks_records() {
            return Ok(Candidate { name, job, ..Candidate::default() });
        }
        let folder = records::folder(self.plant, &name)?;
        let (first, last) = (entry_of(&folder, 1), last_of(&folder));
        let day = |entry: &Entry| Some(time::parse(&entry.at).ok()?.date_naive());
        let days = first.as_ref().and_then(day).zip(last.as_ref().and_then(day));
        let machine = first.map(|entry| entry.machine);
        Ok(Candidate { name, job, machine, days })
    }

    /// The same names in the order in which the records began. What cannot be told goes last.
    pub(super) fn in_time(&self, names: Vec<String>) -> Result<Vec<String>, Failure> {
        let began = |name: String| {
            let first = entry_of(&records::folder(self.plant, &name)?, 1);
            let at = first.and_then(|entry| time::parse(&entry.at).ok());
            Ok((at.is_none(), at, name))
        };
        let mut began: Vec<_> = names.into_iter().map(began).collect::<Result<_, Failure>>()?;
        began.sort();
        Ok(began.into_iter().map(|(_, _, name)| name).collect())
    }

    /// Judges these records block by block, each by itself, and hands on what `look` makes of them, in the
    /// order of the names. Neither what was never begun nor another history of a record is looked at.
    pub(super) fn each<T: Send>(
        &self,
        names: &[String],
        court: &Court,
        look: impl Fn(&RawRecord, &Report) -> T + Sync,
        mut take: impl FnMut(T),
    ) -> Result<(), Failure> {
        let own: Vec<String> =
            names.iter().filter(|name| copied(name).is_none()).cloned().collect();
        let judge = |name: &str| {
            let raw = store::read(&records::folder(self.plant, name)?)?;
            let judged = raw.is_begun().then(|| look(&raw, &judged(name, &raw, court, None)));
            Ok::<_, Failure>(judged)
        };
        audit_each(&own, judge, |looked| looked.into_iter().for_each(&mut take))
    }

    /// Judges these records block by block. Also says how many entries each has, for the logs, and what
    /// counts over them ask. What an interrupted first sign-off left behind is no record.
    pub(super) fn judge(&self, names: &[String], court: &Court) -> Result<Judged, Failure> {
        let (mut reports, mut sizes) = (Vec::new(), Sizes::new());
        let mut drift = Drift::default();
        let house = packet::house(court.prepared.plant, &court.prepared.people);
        audit_each(
            names,
            |name| self.judge_one(name, court, &house),
            |judged| {
                let Some((report, size, run)) = judged else { return };
                reports.push(report);
                run.iter().for_each(|run| drift.take(run));
                for (machine, own) in size {
                    sizes.entry(machine).or_default().extend(own);
                }
            },
        )?;
        // Another history of a record is judged by itself.
        let (copies, mut own): (Vec<Report>, Vec<Report>) =
            reports.into_iter().partition(|report| copied(&report.job).is_some());
        clock::across(&mut own);
        series::across(&mut own);
        own.extend(copies);
        own.sort_by(|one, other| one.job.cmp(&other.job));
        Ok(Judged { reports: own, sizes, questions: drift.questions() })
    }

    /// Reads and judges one record; none when it was never begun.
    fn judge_one(
        &self,
        name: &str,
        court: &Court,
        house: &House,
    ) -> Result<Option<(Report, Sizes, Option<Run>)>, Failure> {
        let raw = store::read(&records::folder(self.plant, name)?)?;
        if !raw.is_begun() {
            return Ok(None);
        }
        let current = self.packet_today(name, court);
        let mut report = judged(name, &raw, court, current.as_deref());
        // By itself: what an approval lacks makes no reading untrue.
        let run = run::told(&raw, &report).ok().map(|(run, _)| run);
        let run = run.filter(|_| copied(name).is_none());
        let register = &court.prepared.register.register;
        report.findings.extend(drafts_used(register, house, &raw));
        for copy in self.copies_of(name) {
            let other = store::read(&records::folder(self.plant, copy)?)?;
            report.findings.extend(copies::diverged(&raw, copy, &other));
        }
        let mut size = Sizes::new();
        if copied(name).is_none() {
            logs::count(&mut size, name, &raw);
        }
        let report = if court.entries { report } else { report.without_entries() };
        Ok(Some((report, size, run)))
    }

    /// The other histories of a record that are kept beside it.
    fn copies_of(&self, record: &str) -> impl Iterator<Item = &str> {
        let begins = format!("{record}{COPY}");
        let near = self.names.range(begins.clone()..).map(String::as_str);
        near.take_while(move |name| name.starts_with(&begins))
            .filter(move |name| copied(name) == Some(record))
    }

    /// Digest of the packet that the plant's files give today, for the last record of a job.
    fn packet_today(&self, name: &str, court: &Court) -> Option<String> {
        let next = record_name(job_of(name), record_number(name).saturating_add(1));
        if self.names.contains(&next) || !court.prepared.plant.jobs.contains_key(job_of(name)) {
            return None;
        }
        // What is wrong with the plant's files today does not touch what was signed before.
        let mut aside = Findings::default();
        let packet = packet::assemble(&mut aside, court.prepared, job_of(name))?;
        packet::digest(&packet).ok()
    }
}

/// What the audit says of a record by itself.
fn judged(name: &str, raw: &RawRecord, court: &Court, packet_today: Option<&str>) -> Report {
    audit_record(&Subject {
        job: name,
        raw,
        trust: court.trust,
        people: &court.prepared.people,
        domain: &court.prepared.plant.facts.body.domain,
        now: Some(court.now),
        current_packet: packet_today,
    })
}

/// An entry of a record, when it can be read.
fn entry_of(folder: &Path, number: u64) -> Option<Entry> {
    let path = folder.join(format!("{number:06}.json"));
    let is_file = fs::symlink_metadata(&path).is_ok_and(|meta| meta.is_file());
    let mut bytes = Vec::new();
    let most = u64::try_from(entry::MOST_BYTES).unwrap_or(u64::MAX);
    File::open(path).ok().filter(|_| is_file)?.take(most).read_to_end(&mut bytes).ok()?;
    entry::read(&bytes).entry
}

/// The entry with the greatest number.
fn last_of(folder: &Path) -> Option<Entry> {
    let number = |name: &str| name.strip_suffix(".json").and_then(|number| number.parse().ok());
    let files = fs::read_dir(folder).ok()?.flatten();
    let numbers = files.filter_map(|file| number(file.file_name().to_str()?));
    entry_of(folder, numbers.max()?)
}
