//! The logs of the machines as files of a site: checkpoint, leaves, tiles, bundles, and a page.
//!
//! Files are of the leaves that the newest checkpoint is of, so that what is fetched fits together.
//! Must never judge a log: findings come from [`crate::audit::log`].

use std::collections::BTreeMap;

use super::Tree;
use super::lines;
use super::site::{Recorded, Site};
use crate::audit::Severity;
use crate::audit::log::{LogReport, Newest};
use crate::language::Language;
use crate::log::line::Line;
use crate::log::tile::{self, WIDTH, bundle_path, tiles};
use crate::log::tree::{Growing, Hash, place};
use crate::page::paths;
use crate::page::site::{Fact, FindingView, Frame, Link, LogFile, LogView, log_html};
use crate::page::words;

/// A machine's log, as it is published.
#[derive(Debug, Clone)]
pub struct SiteLog {
    /// What the audit found.
    pub report: LogReport,
    /// Bytes of the newest checkpoint.
    pub checkpoint: Option<Vec<u8>>,
    /// Its leaves.
    pub leaves: Vec<Line>,
}

impl SiteLog {
    /// The short form of the newest checkpoint; empty when there is none that somebody signed.
    pub fn short(&self) -> &str {
        let signed = self.report.newest.as_ref().filter(|newest| newest.by.is_some());
        signed.map_or("", |newest| &newest.short)
    }

    /// What was found and is more than a note, for the auditor's report.
    pub fn findings(&self, language: Language) -> Vec<FindingView> {
        let place = language.text("log-place", &[("machine", (&self.report.machine).into())]);
        let above = self.report.findings.iter().filter(|found| found.severity > Severity::Note);
        let view = |found| FindingView {
            place: place.clone(),
            ..lines::audit_finding(&self.report.machine, found, language)
        };
        above.map(view).collect()
    }
}

/// Puts the files and the page of each log into a site.
pub(super) fn put(tree: &mut Tree, frame: &Frame, site: &Site) {
    for (machine, log) in &site.logs {
        let published = published(log);
        for (name, bytes) in files(log, published, &site.records) {
            tree.put(paths::log_file(machine, &name), bytes);
        }
        tree.put(paths::log(machine), log_html(&view(frame, machine, log, published, site)));
    }
}

/// The leaves that the newest checkpoint is of, as far as they are there.
fn published(log: &SiteLog) -> &[Line] {
    let signed = log.report.newest.as_ref().map_or(0, |newest| newest.leaves);
    let signed = usize::try_from(signed).unwrap_or(usize::MAX);
    log.leaves.get(..signed).unwrap_or(&log.leaves)
}

/// Every file of a log, by its path below it.
fn files(
    log: &SiteLog,
    leaves: &[Line],
    records: &BTreeMap<String, Recorded>,
) -> Vec<(String, Vec<u8>)> {
    let Some(checkpoint) = &log.checkpoint else { return Vec::new() };
    let list: String = leaves.iter().map(Line::print).collect();
    let mut files =
        vec![(CHECKPOINT.to_owned(), checkpoint.clone()), (LEAVES.to_owned(), list.into_bytes())];
    let mut growing = Growing::default();
    let hashes: Vec<Hash> = leaves.iter().flat_map(|line| growing.push(line.hash)).collect();
    for tile in tiles(growing.leaves()) {
        let (level, nodes) = tile.nodes();
        let places = nodes.filter_map(|index| usize::try_from(place(level, index)).ok());
        let bytes: Vec<Hash> = places.filter_map(|place| hashes.get(place).copied()).collect();
        files.push((tile.path(), bytes.concat()));
    }
    let width = usize::try_from(WIDTH).unwrap_or(usize::MAX);
    for (number, lines) in (0..).zip(leaves.chunks(width)) {
        // A bundle without one of its entries would be another bundle: the audit says what is gone.
        if let Some(bytes) = bundle(lines, records) {
            files.push((bundle_path(number, u64::try_from(lines.len()).unwrap_or(0)), bytes));
        }
    }
    files
}

const CHECKPOINT: &str = "checkpoint";
const LEAVES: &str = "leaves";

fn bundle(lines: &[Line], records: &BTreeMap<String, Recorded>) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    for line in lines {
        let name = format!("{:06}", line.entry);
        let entries = &records.get(&line.record)?.raw.entries;
        let at = entries.binary_search_by(|entry| entry.name.cmp(&name)).ok()?;
        let entry = entries.get(at)?;
        let fits = tile::bundle(&mut bytes, &[&entry.json, entry.signature.as_deref()?]);
        fits.then_some(())?;
    }
    Some(bytes)
}

fn view(frame: &Frame, machine: &str, log: &SiteLog, leaves: &[Line], site: &Site) -> LogView {
    let language = frame.language;
    let known = site.prepared.machines.get(machine);
    let known = known.map(|known| lines::machine_line(known, 0).link);
    LogView {
        frame: frame.clone(),
        id: machine.to_owned(),
        machine: known.unwrap_or_else(|| Link::new(machine, "")),
        short: log.short().to_owned(),
        facts: facts(language, log),
        files: if log.checkpoint.is_some() {
            listed(language, machine, leaves)
        } else {
            Vec::new()
        },
        findings: log.findings(language),
    }
}

fn facts(language: Language, log: &SiteLog) -> Vec<Fact> {
    let count = |leaves: u64| words::numbers(language, &leaves.to_string());
    let mut facts = vec![Fact::new(language.word("record-entries"), count(log.report.leaves))];
    if let Some(Newest { leaves, root, at, by, .. }) = &log.report.newest {
        let by = by.clone().unwrap_or_default();
        facts.extend([
            Fact::new(language.word("log-fact-leaves"), count(*leaves)),
            Fact::new(language.word("log-fact-at"), words::moment(language, at)),
            Fact::new(language.word("log-fact-by"), by),
            Fact::new(language.word("log-fact-root"), root.clone()),
        ]);
    }
    facts
}

/// The files of a log in words; of many alike the first.
fn listed(language: Language, machine: &str, leaves: &[Line]) -> Vec<LogFile> {
    let at = |name: &str| paths::log_file(machine, name);
    let file = |name: &str, href: String, key| LogFile {
        link: Link::new(name, href),
        what: language.word(key).to_owned(),
    };
    let mut files = vec![
        file(CHECKPOINT, at(CHECKPOINT), "log-file-checkpoint"),
        file(LEAVES, at(LEAVES), "log-file-leaves"),
    ];
    let count = u64::try_from(leaves.len()).unwrap_or(0);
    if let Some(first) = tiles(count).next() {
        files.push(file("tile/0/...", at(&first.path()), "log-file-tiles"));
        let bundle = bundle_path(0, count.min(WIDTH));
        files.push(file("tile/entries/...", at(&bundle), "log-file-bundles"));
    }
    files
}
