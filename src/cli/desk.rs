//! What all commands do first: read the plant, understand it, make packets.

use std::path::Path;

use chrono::DateTime;

use super::Answer;
use crate::failure::Failure;
use crate::finding::show::{self, Texts};
use crate::finding::{Findings, Place, Severity};
use crate::language::{Language, Words};
use crate::packet::trust::{line, lines};
use crate::packet::{self, Packet, Packets, Prepared};
use crate::plant::load::{self, Plant};
use crate::record::trust::TrustList;

/// What was read and made of a plant before, for doing it again: the same answers with less work.
#[derive(Debug, Default)]
pub(super) struct Memory {
    /// Files.
    pub files: load::Memory,
    /// Recipes and packets.
    pub packets: packet::Memory,
}

/// A plant as read, with what was found.
pub(super) struct Desk {
    /// The plant; none when its first files could not be understood.
    pub plant: Option<Plant>,
    /// Texts for showing findings.
    pub texts: Texts,
    /// Findings of the reading.
    pub findings: Findings,
    /// The language in which answers are given.
    pub language: Language,
}

impl Desk {
    /// Reads a plant.
    pub(super) fn open(folder: &Path, language: Language) -> Result<Desk, Failure> {
        Desk::open_again(folder, language, &mut Memory::default())
    }

    /// Reads a plant that was read before: only what has changed since.
    pub(super) fn open_again(
        folder: &Path,
        language: Language,
        memory: &mut Memory,
    ) -> Result<Desk, Failure> {
        let load::Reading { plant, texts, findings } = load::load_again(folder, &mut memory.files)?;
        Ok(Desk { plant, texts, findings, language })
    }

    /// The plant, or the findings that stand against it.
    pub(super) fn plant(&self, as_json: bool) -> Result<&Plant, Box<Answer>> {
        self.plant.as_ref().ok_or_else(|| Box::new(self.answer(&self.findings, as_json)))
    }

    /// Findings as an answer, as text or JSON.
    pub(super) fn answer(&self, findings: &Findings, as_json: bool) -> Answer {
        let text = if as_json {
            super::json(&show::located(findings, &self.texts, self.language)).unwrap_or_default()
        } else {
            show::text(findings, &self.texts, self.language) + &self.counted(findings)
        };
        Answer::findings(text)
    }

    /// How much was found: in each file, when there is more than one, and in all.
    fn counted(&self, findings: &Findings) -> String {
        let line = |errors, warnings| {
            let counts = [("cli-errors", errors), ("cli-warnings", warnings)];
            super::counts(self.language, &counts) + "\n"
        };
        let all = line(findings.count(Severity::Error), findings.count(Severity::Warning));
        let files = findings.by_file();
        if files.len() < 2 {
            return all;
        }
        let each = files
            .iter()
            .map(|(file, [errors, warnings])| format!("{file}: {}", line(*errors, *warnings)));
        each.collect::<String>() + &all
    }
}

/// A whole plant as it stands: what `check` and `publish` begin with.
pub(super) struct Judged<'a> {
    /// The plant understood.
    pub prepared: Prepared<'a>,
    /// Every packet that could be made, by job.
    pub packets: Packets,
    /// Who may sign.
    pub trust: TrustList,
    /// Everything that was found, with the weight it has in this plant.
    pub findings: Findings,
}

/// Judges a whole plant.
pub(super) fn judge<'a>(desk: &Desk, plant: &'a Plant) -> Judged<'a> {
    judge_again(desk, plant, &mut Memory::default())
}

/// Judges a plant that was judged before: only what has changed since.
pub(super) fn judge_again<'a>(desk: &Desk, plant: &'a Plant, memory: &mut Memory) -> Judged<'a> {
    let mut findings = desk.findings.clone();
    let prepared = packet::prepare_again(&mut findings, plant, &mut memory.packets);
    let packets = packet::packets(&mut findings, &prepared, &mut memory.packets);
    packet::enough_for_shifts(&mut findings, plant, &packets);
    let trust = trust(&mut findings, plant);
    advise(&mut findings, plant, &trust);
    unused(&mut findings, &prepared);
    prepared.policy.settle(&mut findings);
    Judged { prepared, packets, trust, findings }
}

/// Says which justifications nothing needs. While an error stands nobody can tell: what comes after
/// it was not looked at.
fn unused(findings: &mut Findings, prepared: &Prepared) {
    if findings.has_errors() {
        return;
    }
    let unused: Vec<_> = prepared.policy.unused(findings).cloned().collect();
    for entry in unused {
        findings.justification_unused(&entry.place.at("rule"), &entry.rule);
    }
}

/// The packet of one job, or the findings that stand against it.
pub(super) fn packet_of(
    desk: &Desk,
    job: &str,
    as_json: bool,
) -> Result<Result<Packet, Box<Answer>>, Failure> {
    let plant = match desk.plant(as_json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(Err(answer)),
    };
    if !plant.jobs.contains_key(job) && !plant.broken.contains(&format!("jobs/{job}")) {
        return Err(unknown_job(plant, job));
    }
    let mut findings = desk.findings.clone();
    let prepared = packet::prepare(&mut findings, plant);
    Ok(packet_from(desk, &prepared, findings, job, as_json))
}

/// The packet of one job of a plant that is understood already, with the findings so far.
///
/// Faults in files the packet is not made from do not stop tonight's job.
pub(super) fn packet_from(
    desk: &Desk,
    prepared: &Prepared,
    mut findings: Findings,
    job: &str,
    as_json: bool,
) -> Result<Packet, Box<Answer>> {
    let packet = packet::assemble(&mut findings, prepared, job);
    let concerns = |file: &str| match &packet {
        // When not every fault is known, none may be passed over.
        Some(_) if findings.is_cut() => true,
        Some(packet) => packet.sources.iter().any(|source| source.path == file),
        None => true,
    };
    let against: Findings = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error && concerns(&finding.place.file))
        .cloned()
        .collect();
    match packet {
        Some(packet) if against.is_empty() => Ok(packet),
        _ => Err(Box::new(desk.answer(&against, as_json))),
    }
}

/// Nobody wrote such a job.
pub(super) fn unknown_job(plant: &Plant, job: &str) -> Failure {
    let jobs: Vec<&str> = plant.jobs.keys().map(String::as_str).collect();
    let parts = [("job", job.into()), ("jobs", jobs.join(", ").into())];
    Failure::new(Words::new("failure-no-job", &parts))
}

/// The plant's keys: allowed signers, less what was revoked; faults of both go to the findings.
pub(super) fn trust(findings: &mut Findings, plant: &Plant) -> TrustList {
    packet::trust(findings, plant)
}

/// Longest that a key should count without anybody looking at it again, in days: two years with a
/// leap day each.
const LONGEST: i64 = 2 * 366;

/// What is good and could be better about the keys of a plant.
fn advise(findings: &mut Findings, plant: &Plant, trust: &TrustList) {
    let Some((file, text)) = &plant.allowed_signers else { return };
    let lines = lines(text.as_bytes());
    for key in trust.keys() {
        if key.until - key.from > LONGEST * 24 * 3600 {
            let day =
                DateTime::from_timestamp(key.until, 0).map(|day| day.date_naive().to_string());
            let line = line(&lines, key.line);
            let end = text.get(line.clone()).and_then(|written| written.find("valid-before"));
            let start = line.start + end.unwrap_or(0);
            let at = Place::bytes(file, start..start + "valid-before".len());
            findings.key_valid_too_long(&at, &key.principal, &day.unwrap_or_default());
        }
    }
}
