//! `audit`: whether the records hold, for people and for programs.

use std::fmt::Write;
use std::path::PathBuf;

use chrono::{DateTime, FixedOffset};

use super::desk::{self, Desk};
use super::{Answer, clock, exported, json, logs, records};
use crate::audit::log::LogReport;
use crate::audit::register::{RegisterReport, audit_register};
use crate::audit::{Report, report};
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::packet;
use crate::record::job_of;

/// Verifies records: digests, chain, signatures, completeness, limits, roles.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark audit demo-data\n  witnessmark audit demo-data SM-1041 --entries"
)]
pub(super) struct Args {
    /// Folder of the plant, an exported folder, or a folder of those
    plant: PathBuf,
    /// Only the record of this job
    job: Option<String>,
    /// A checkpoint of a log that was kept elsewhere: its file, or its short form as printed; may be
    /// given many times
    #[arg(long, value_name = "FILE|TEXT")]
    checkpoint: Vec<String>,
    /// Print every entry too
    #[arg(long)]
    entries: bool,
    /// Print the reports as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let now = clock::now();
    let exports = exported::find(&args.plant)?;
    if !exports.is_empty() {
        return of_exports(args, &exports, now, language);
    }
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    // What is wrong with recipes or procedures today does not touch what was signed before.
    let mut aside = Findings::default();
    let prepared = packet::prepare(&mut aside, plant);
    let packets = desk::packets(&mut aside, &prepared);
    let mut findings = Findings::default();
    let trust = desk::trust(&mut findings, plant);
    let mut shelf = records::read(&args.plant)?;
    if let Some(job) = &args.job {
        shelf.records.retain(|name, _| name == job || job_of(name) == job);
        if shelf.records.is_empty() {
            return Err(Failure::new(Words::new("failure-no-record", &[("job", job.into())])));
        }
    }
    let mut sizes = logs::Sizes::new();
    shelf.records.iter().for_each(|(name, raw)| logs::count(&mut sizes, name, raw));
    let domain = &plant.facts.body.domain;
    let judge = logs::Judge { plant: &args.plant, domain, trust: &trust, now: Some(now) };
    let kept = logs::kept(&args.checkpoint, &judge)?;
    // One job is judged by itself, and a kept checkpoint without reading what lies before it.
    let logs = match args.job {
        Some(_) => logs::prove(&judge, &kept)?,
        None => logs::audit(&judge, sizes, &kept)?,
    };
    let judged = records::judge(shelf.records, &prepared, &packets, &trust, Some(now));
    let reports: Vec<Report> = judged.into_values().map(|recorded| recorded.report).collect();
    let register = audit_register(&prepared, Some(now)).filter(|_| args.job.is_none());
    let clean = reports.iter().all(Report::is_clean)
        && findings.is_empty()
        && shelf.strays.is_empty()
        && logs.iter().all(LogReport::is_clean)
        && register.as_ref().is_none_or(RegisterReport::is_clean);
    let text = if args.json {
        let told = |report: &Report| serde_json::to_value(report.told(language));
        let of_log = |log: &LogReport| serde_json::to_value(log.told(language));
        let all: Vec<_> =
            reports.iter().map(told).chain(logs.iter().map(of_log)).collect::<Result<_, _>>()?;
        json(&all)?
    } else {
        let signers =
            if findings.is_empty() { String::new() } else { desk.answer(&findings, false).text };
        let register = register.map_or(String::new(), |own| own.render(language) + "\n");
        let logs: String = logs.iter().map(|log| log.render(language) + "\n").collect();
        signers + &register + &logs + &words(args, &reports, &shelf.strays, language)
    };
    Ok(if clean { Answer::clean(text) } else { Answer::findings(text) })
}

/// Judges exported folders by what lies in them.
fn of_exports(
    args: &Args,
    folders: &[PathBuf],
    now: DateTime<FixedOffset>,
    language: Language,
) -> Result<Answer, Failure> {
    let (mut reports, mut by) = (Vec::new(), String::new());
    for folder in folders {
        let judged = exported::judge(folder, now)?;
        if args.job.as_ref().is_none_or(|job| *job == judged.report.job) {
            reports.push(judged.report);
            by += &(judged.by.shown(language) + "\n");
        }
    }
    let clean = reports.iter().all(Report::is_clean);
    let text = if args.json {
        json(&reports.iter().map(|report| report.told(language)).collect::<Vec<_>>())?
    } else {
        words(args, &reports, &[], language) + &by
    };
    Ok(if clean { Answer::clean(text) } else { Answer::findings(text) })
}

fn words(args: &Args, reports: &[Report], strays: &[String], language: Language) -> String {
    let mut text = String::new();
    for one in reports {
        text += &report::render(one, language);
        if args.entries {
            for entry in &one.entries {
                let _ = writeln!(text, "{}", report::entry_line(entry, language));
            }
        }
        text.push('\n');
    }
    for stray in strays {
        text += &language.text("cli-no-record", &[("name", stray.into())]);
        text.push('\n');
    }
    let entries: usize = reports.iter().map(|report| report.entries.len()).sum();
    let findings: usize = reports.iter().map(|report| report.findings.len()).sum();
    let counts =
        [("cli-records", reports.len()), ("cli-entries", entries), ("cli-findings", findings)];
    let _ = writeln!(text, "{}", super::counts(language, &counts));
    text
}
