//! From a plant, its packets and its records to the files of a site. Pure: no file, no clock.
//!
//! Only fills views; [`crate::page`] makes the pages. Must never judge a record itself: states and
//! findings come from [`crate::audit`].

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::Tree;
use super::lines;
use crate::audit::Report;
use crate::canonical::{line, sha256_hex};
use crate::finding::show::Located;
use crate::packet::{Packet, Prepared};
use crate::page::packet::{PacketIssue, packet_html};
use crate::page::site::{
    Fact, Frame, JobLine, JobView, JobsView, MachinesView, ProceduresView, RecordLine, RecordsView,
    StartView, TagsView, job_html, jobs_html, machine_html, machines_html, placard_html,
    procedure_html, procedures_html, record_html, records_html, start_html, tags_html,
};
use crate::page::{assets, paths};
use crate::record::store::RawRecord;

/// Name and version of the program, for the foot of pages.
pub const PROGRAM: &str = concat!("witnessmark ", env!("CARGO_PKG_VERSION"));

/// Everything a site is made from.
#[derive(Debug)]
pub struct Site<'a> {
    /// The plant understood.
    pub prepared: &'a Prepared<'a>,
    /// What its files give today, by job.
    pub packets: BTreeMap<String, Packet>,
    /// Records by job.
    pub records: BTreeMap<String, Recorded>,
    /// Warnings; a site with errors is not made.
    pub findings: Vec<Located<'a>>,
    /// The list of allowed signers, copied beside each record.
    pub allowed_signers: Option<&'a str>,
}

/// A record's bytes and what the audit says of them.
#[derive(Debug, Clone)]
pub struct Recorded {
    /// The bytes.
    pub raw: RawRecord,
    /// What the audit found.
    pub report: Report,
}

/// The packet a job goes by: what people signed, once somebody has signed.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The packet.
    pub packet: Packet,
    /// Its digest.
    pub digest: String,
    /// How far the job is, in words.
    pub state: String,
    /// Whether the plant's files have changed since it was signed.
    pub is_outdated: bool,
}

/// The packet a job goes by: the frozen one when there is a readable one, else today's.
pub fn sheet(today: Packet, digest: String, frozen: Option<&[u8]>) -> Sheet {
    let signed = frozen.and_then(|bytes| {
        let packet: Packet = serde_json::from_slice(bytes).ok()?;
        (line(&packet).ok()?.as_slice() == bytes).then(|| (packet, sha256_hex(bytes)))
    });
    match signed {
        Some((packet, signed)) => {
            let is_outdated = signed != digest;
            Sheet { packet, digest: signed, state: String::new(), is_outdated }
        }
        None => Sheet {
            packet: today,
            digest,
            state: match frozen {
                None => "nothing signed yet",
                Some(_) => "the packet that was signed cannot be read: audit its record",
            }
            .to_owned(),
            is_outdated: false,
        },
    }
}

/// The page of a packet.
pub fn packet_page(sheet: &Sheet) -> String {
    let mut state = sheet.state.clone();
    if sheet.is_outdated {
        let words = "the plant's files have changed since this packet was first signed";
        state = if state.is_empty() { words.to_owned() } else { format!("{state}; {words}") };
    }
    let issue = PacketIssue { state, program: PROGRAM.to_owned() };
    packet_html(&sheet.packet, &sheet.digest, &issue)
}

/// All files of the site.
///
/// # Errors
/// When a packet has no canonical form, which no assembled packet is without.
pub fn tree(site: &Site) -> Result<Tree, serde_json::Error> {
    let maker = Maker { site, frame: frame(site) };
    let sheets = maker.sheets()?;
    let lines: BTreeMap<&str, JobLine> =
        site.prepared.plant.jobs.keys().map(|job| (job.as_str(), maker.job_line(job))).collect();
    let mut tree = Tree::default();
    let pages: Vec<Vec<(String, String)>> = sheets
        .par_iter()
        .filter_map(|(job, sheet)| Some(maker.job_pages(lines.get(job.as_str())?, sheet)))
        .collect();
    for (path, html) in pages.into_iter().flatten() {
        tree.put(path, html);
    }
    maker.lists(&mut tree, &lines);
    maker.machines(&mut tree, &lines);
    maker.procedures(&mut tree);
    maker.records(&mut tree, &lines, &sheets);
    for (path, text) in assets() {
        tree.put(path, text);
    }
    let mark = Mark { made_by: PROGRAM, plant: &maker.frame.plant_digest, v: 1 };
    tree.put(super::MARK, line(&mark)?);
    Ok(tree)
}

/// The file by which a folder is known to be a site of ours.
#[derive(serde::Serialize)]
struct Mark<'a> {
    made_by: &'a str,
    plant: &'a str,
    v: u32,
}

fn frame(site: &Site) -> Frame {
    let plant = site.prepared.plant;
    let files: Vec<String> =
        plant.digests.iter().map(|(file, sha256)| format!("{sha256}  {file}\n")).collect();
    Frame {
        language: plant.facts.body.language,
        plant: plant.facts.body.name.clone(),
        plant_digest: sha256_hex(files.concat().as_bytes()),
        program: PROGRAM.to_owned(),
    }
}

struct Maker<'a> {
    site: &'a Site<'a>,
    frame: Frame,
}

impl Maker<'_> {
    fn sheets(&self) -> Result<BTreeMap<String, Sheet>, serde_json::Error> {
        let mut sheets = BTreeMap::new();
        for (job, packet) in &self.site.packets {
            let record = self.site.records.get(job);
            let frozen = record.and_then(|record| record.raw.packet.as_deref());
            let mut sheet = sheet(packet.clone(), crate::packet::digest(packet)?, frozen);
            if let Some(record) = record {
                sheet.state = lines::state(&record.report).word;
            }
            sheets.insert(job.clone(), sheet);
        }
        Ok(sheets)
    }

    fn job_line(&self, job: &str) -> JobLine {
        let record = self.site.records.get(job);
        let has_packet = self.site.packets.contains_key(job);
        lines::job(self.site.prepared, job, record.map(|record| &record.report), has_packet)
    }

    /// Everything that is printed or opened for one job.
    fn job_pages(&self, line: &JobLine, sheet: &Sheet) -> Vec<(String, String)> {
        let Sheet { packet, digest, .. } = sheet;
        let view = JobView::new(self.frame.clone(), line.clone(), packet, digest);
        let tags = TagsView::new(self.frame.clone(), line.clone(), packet, digest);
        vec![
            (paths::job(&line.id), job_html(&view)),
            (paths::packet(&line.id), packet_page(sheet)),
            (paths::tags(&line.id), tags_html(&tags)),
        ]
    }

    fn lists(&self, tree: &mut Tree, lines: &BTreeMap<&str, JobLine>) {
        let mut jobs: Vec<JobLine> = lines.values().cloned().collect();
        jobs.sort_by(|a, b| (&a.date, &a.id).cmp(&(&b.date, &b.id)));
        let start = StartView {
            frame: self.frame.clone(),
            note: self.site.prepared.plant.facts.body.note.clone(),
            jobs: jobs.clone(),
            findings: self.site.findings.iter().map(lines::finding).collect(),
        };
        tree.put(paths::START, start_html(&start));
        tree.put(paths::JOBS, jobs_html(&JobsView { frame: self.frame.clone(), jobs }));
    }

    fn machines(&self, tree: &mut Tree, lines: &BTreeMap<&str, JobLine>) {
        let prepared = self.site.prepared;
        let mut machines = Vec::new();
        for (id, machine) in &prepared.machines {
            let jobs: Vec<JobLine> = prepared
                .plant
                .jobs
                .iter()
                .filter(|(_, job)| job.body.machine == *id)
                .filter_map(|(job, _)| lines.get(job.as_str()).cloned())
                .collect();
            machines.push(lines::machine_line(machine, jobs.len()));
            let view = lines::machine(self.frame.clone(), prepared, machine, jobs);
            tree.put(paths::machine(id), machine_html(&view));
            let view = lines::placard(self.frame.clone(), prepared, machine);
            tree.put(paths::placard(id), placard_html(&view));
        }
        let view = MachinesView { frame: self.frame.clone(), machines };
        tree.put(paths::MACHINES, machines_html(&view));
    }

    fn procedures(&self, tree: &mut Tree) {
        let prepared = self.site.prepared;
        let mut procedures = Vec::new();
        for (id, procedure) in &prepared.plant.procedures {
            let line = lines::procedure_line(procedure);
            procedures.push(line.clone());
            let view = lines::procedure(self.frame.clone(), line, prepared, procedure);
            tree.put(paths::procedure(id), procedure_html(&view));
        }
        let view = ProceduresView { frame: self.frame.clone(), procedures };
        tree.put(paths::PROCEDURES, procedures_html(&view));
    }

    fn records(
        &self,
        tree: &mut Tree,
        lines: &BTreeMap<&str, JobLine>,
        sheets: &BTreeMap<String, Sheet>,
    ) {
        let mut records = Vec::new();
        let mut findings = Vec::new();
        let mut entries = 0;
        for (job, record) in &self.site.records {
            let line = lines.get(job.as_str()).cloned().unwrap_or_else(|| self.job_line(job));
            let packet = sheets.get(job).map(|sheet| &sheet.packet);
            entries += record.report.entries.len();
            findings.extend(
                record
                    .report
                    .findings
                    .iter()
                    .map(|f| lines::audit_finding(job, f, self.frame.language)),
            );
            records.push(RecordLine {
                job: line.clone(),
                entries: record.report.entries.len(),
                missing: record.report.missing.len(),
                last: lines::last_time(&record.report),
            });
            let namespace = crate::record::namespace(&self.site.prepared.plant.facts.body.domain);
            let signers = self.site.allowed_signers;
            let view = lines::record(self.frame.clone(), line, record, packet, namespace, signers);
            tree.put(paths::record(job), record_html(&view));
            self.evidence(tree, job, &record.raw);
        }
        let summary = vec![
            Fact::new("Records", records.len().to_string()),
            Fact::new("Entries", entries.to_string()),
            Fact::new("Findings", findings.len().to_string()),
        ];
        let view = RecordsView { frame: self.frame.clone(), summary, records, findings };
        tree.put(paths::RECORDS, records_html(&view));
    }

    /// The record's own files, byte for byte, for anybody who checks them without us.
    fn evidence(&self, tree: &mut Tree, job: &str, raw: &RawRecord) {
        if let Some(packet) = &raw.packet {
            tree.put(paths::evidence(job, lines::PACKET), packet.clone());
        }
        for entry in &raw.entries {
            tree.put(paths::evidence(job, &format!("{}.json", entry.name)), entry.json.clone());
            if let Some(signature) = &entry.signature {
                let name = format!("{}.json.sig", entry.name);
                tree.put(paths::evidence(job, &name), signature.clone());
            }
        }
        if let Some(signers) = self.site.allowed_signers {
            tree.put(paths::evidence(job, lines::SIGNERS), signers);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::sheet;
    use crate::record::fixture;

    #[test]
    fn the_sheet_is_the_signed_packet_and_says_when_that_cannot_be_read() {
        let (packet, digest) = (fixture::packet(), fixture::digest());
        let other = || "0".repeat(64);
        let none = sheet(packet.clone(), digest.clone(), None);
        assert_eq!((none.state.as_str(), none.is_outdated), ("nothing signed yet", false));
        let signed = sheet(packet.clone(), other(), Some(fixture::PACKET));
        assert_eq!((signed.digest, signed.is_outdated), (digest, true));
        let broken = sheet(packet, other(), Some(b"{}\n"));
        assert_eq!(broken.state, "the packet that was signed cannot be read: audit its record");
    }
}
