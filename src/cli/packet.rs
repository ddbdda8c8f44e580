//! `packet`: one job's packet as a single file to print.

use std::path::{Path, PathBuf};

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json, logs, records};
use crate::durable;
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::packet::{self as packets, Packet};
use crate::page::form::Form;
use crate::publish::site::Sheet;
use crate::publish::{self, site};

/// Writes one job's packet as a single HTML file to print.
#[derive(Debug, clap::Args)]
#[command(after_help = "Examples:\n  witnessmark packet demo-data SM-1042 --out SM-1042.html\n  \
                        witnessmark packet demo-data SM-1042 --form kit --out SM-1042-kit.html")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The job
    job: String,
    /// What to write of the packet
    #[arg(long, value_enum, default_value_t)]
    form: Paper,
    /// The file to write
    #[arg(long)]
    out: PathBuf,
    /// Print what was written as JSON
    #[arg(long)]
    json: bool,
}

/// The papers that a packet can be written as.
#[derive(Debug, Clone, Copy, Default, clap::ValueEnum, Serialize)]
#[serde(rename_all = "lowercase")]
enum Paper {
    /// The full instruction
    #[default]
    Instruction,
    /// Every step by its title, to tick
    Checklist,
    /// What to fetch before the stop
    Kit,
    /// Sources, locks, proofs of zero, release
    Lockout,
    /// Settings that change, rails and their moves
    Moves,
    /// The rails' positions at 1:1, to cut out
    Strip,
}

impl Paper {
    fn html(self, sheet: &Sheet) -> String {
        match self {
            Paper::Instruction => site::packet_page(sheet),
            Paper::Checklist => site::form_page(sheet, Form::Checklist),
            Paper::Kit => site::form_page(sheet, Form::Kit),
            Paper::Lockout => site::form_page(sheet, Form::Lockout),
            Paper::Moves => site::form_page(sheet, Form::Moves),
            Paper::Strip => site::strip_page(sheet),
        }
    }
}

/// What was written.
#[derive(Serialize)]
struct Written<'a> {
    job: &'a str,
    form: Paper,
    file: String,
    digest: &'a str,
    steps: usize,
    readings: usize,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    refuse_special(&args.out)?;
    let desk = Desk::open(&args.plant, language)?;
    publish::refuse_plant(&args.out, &args.plant)?;
    let packet = match desk::packet_of(&desk, &args.job, args.json)? {
        Ok(packet) => packet,
        Err(answer) => return Ok(*answer),
    };
    let digest = packets::digest(&packet)?;
    let frozen = records::frozen(&args.plant, &args.job)?;
    // Once somebody has signed, the sheet is the one they signed.
    let mut sheet = site::sheet(packet, digest, frozen.as_deref());
    sheet.checkpoint = checkpoint(args, &desk, &sheet.packet)?;
    let (packet, digest) = (&sheet.packet, &sheet.digest);
    durable::replace(&args.out, args.form.html(&sheet).as_bytes())?;
    let written = Written {
        job: &args.job,
        form: args.form,
        file: args.out.display().to_string(),
        digest,
        steps: packet.steps.len(),
        readings: packet.steps.iter().map(|step| step.readings.len()).sum(),
    };
    if args.json {
        return Ok(Answer::clean(json(&written)?));
    }
    let Written { job, file, digest, steps, readings, .. } = written;
    let parts = [
        ("job", job.into()),
        ("steps", super::counts(language, &[("cli-steps", steps)]).into()),
        ("readings", super::counts(language, &[("cli-readings", readings)]).into()),
        ("file", file.into()),
    ];
    let mut lines = vec![
        language.text("cli-packet-written", &parts),
        language.text("cli-digest", &[("digest", digest.into())]),
    ];
    if sheet.is_outdated {
        lines.push(language.word("cli-packet-changed").to_owned());
    }
    Ok(Answer::clean(lines.join("\n") + "\n"))
}

/// A device or a folder is not to be replaced by a file.
#[allow(clippy::disallowed_methods, reason = "the file to write is looked at before it is written")]
pub(super) fn refuse_special(out: &Path) -> Result<(), Failure> {
    match std::fs::metadata(out) {
        Ok(meta) if !meta.is_file() => {
            let parts = [("path", out.display().to_string().into())];
            Err(Failure::new(Words::new("failure-no-plain-file", &parts)))
        }
        _ => Ok(()),
    }
}

/// The newest checkpoint of the machine's log, to stand on the sheet.
fn checkpoint(args: &Args, desk: &Desk, packet: &Packet) -> Result<String, Failure> {
    let Some(plant) = &desk.plant else { return Ok(String::new()) };
    let trust = desk::trust(&mut Findings::default(), plant);
    let domain = &plant.facts.body.domain;
    let judge = logs::Judge { plant: &args.plant, domain, trust: &trust, now: None };
    logs::short_of(&judge, &packet.machine.id)
}
