//! `shift`: the page of one shift as a single file to print.

use std::path::PathBuf;

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json, packet, records};
use crate::durable;
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::packet::{self as packets, Prepared, Shift};
use crate::publish;
use crate::publish::shift::{Paper, paper};
use crate::publish::site::{self, Sheet};

/// Writes the page of one shift as a single HTML file to print: its jobs, and what to fetch for them.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  witnessmark shift demo-data 2026-11-26 early --out early.html")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Day of the shift, such as 2026-11-26
    date: String,
    /// The shift as its jobs name it; without it, the jobs of the day that name none
    shift: Option<String>,
    /// The file to write
    #[arg(long)]
    out: PathBuf,
    /// Print what was written as JSON
    #[arg(long)]
    json: bool,
}

/// What was written.
#[derive(Serialize)]
struct Written<'a> {
    date: &'a str,
    shift: &'a str,
    file: String,
    jobs: Vec<&'a str>,
    things: usize,
    too_few: &'a [String],
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    packet::refuse_special(&args.out)?;
    let desk = Desk::open(&args.plant, language)?;
    publish::refuse_plant(&args.out, &args.plant)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let name = args.shift.as_deref().unwrap_or_default();
    let shifts = packets::shifts(plant);
    let is_meant = |shift: &&Shift| shift.date == args.date && shift.name == name;
    let Some(shift) = shifts.iter().find(is_meant) else {
        return Err(unknown(args, &shifts));
    };
    let mut findings = desk.findings.clone();
    let prepared = packets::prepare(&mut findings, plant);
    let mut sheets = Vec::new();
    for planned in &shift.jobs {
        let job = &planned.job.body.id;
        match desk::packet_from(&desk, &prepared, findings.clone(), job, args.json) {
            Ok(packet) => sheets.push(sheet(args, job, packet)?),
            Err(answer) => return Ok(*answer),
        }
    }
    write(args, language, &prepared, shift, &sheets)
}

/// The packet that a job goes by.
fn sheet(args: &Args, job: &str, packet: packets::Packet) -> Result<Sheet, Failure> {
    let digest = packets::digest(&packet)?;
    let frozen = records::frozen(&args.plant, job)?;
    Ok(site::sheet(packet, digest, frozen.as_deref()))
}

fn write(
    args: &Args,
    language: Language,
    prepared: &Prepared,
    shift: &Shift,
    sheets: &[Sheet],
) -> Result<Answer, Failure> {
    let Paper { html, things, too_few } = paper(prepared, shift, sheets);
    durable::replace(&args.out, html.as_bytes())?;
    let written = Written {
        date: shift.date,
        shift: shift.name,
        file: args.out.display().to_string(),
        jobs: shift.jobs.iter().map(|planned| planned.job.body.id.as_str()).collect(),
        things,
        too_few: &too_few,
    };
    let text = match args.json {
        true => json(&written)?,
        false => said(language, &written),
    };
    Ok(if too_few.is_empty() { Answer::clean(text) } else { Answer::findings(text) })
}

fn said(language: Language, written: &Written) -> String {
    let counts = [("cli-jobs", written.jobs.len()), ("shift-things", written.things)];
    let parts = [
        ("counts", super::counts(language, &counts).into()),
        ("file", written.file.as_str().into()),
    ];
    let lines = written.too_few.iter().cloned();
    lines.chain([language.text("shift-written", &parts)]).map(|line| line + "\n").collect()
}

/// How many shifts are named to somebody who named one that is not there.
const MOST_NAMED: usize = 12;

/// Nobody planned a job for such a shift.
fn unknown(args: &Args, shifts: &[Shift]) -> Failure {
    let name = |date: &str, shift: &str| format!("{date} {shift}").trim_end().to_owned();
    let named = |shift: &Shift| name(shift.date, shift.name);
    let on_day = shifts.iter().filter(|shift| shift.date == args.date).map(named);
    let mut known: Vec<String> = on_day.take(MOST_NAMED).collect();
    if known.is_empty() {
        known = shifts.iter().rev().take(MOST_NAMED).map(named).collect();
    }
    let shift = name(&args.date, args.shift.as_deref().unwrap_or_default());
    let parts = [("shift", shift.into()), ("shifts", known.join("; ").into())];
    Failure::new(Words::new("shift-unknown", &parts))
}
