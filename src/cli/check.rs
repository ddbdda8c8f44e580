//! `check`: everything that is wrong with a plant, in one run.

use std::path::PathBuf;

use super::desk::{self, Desk};
use super::{Answer, json};
use crate::failure::Failure;
use crate::language::Language;

/// Reads everything and prints every finding: file, line, caret, and the way out.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  witnessmark check demo-data")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Print the findings as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let mut findings = desk.findings.clone();
    let mut checked = String::new();
    if let Some(plant) = &desk.plant {
        let judged = desk::judge(&desk, plant);
        findings = judged.findings;
        let counts = [
            ("cli-machines", plant.machines.len()),
            ("cli-recipes", plant.recipes.len()),
            ("cli-jobs", plant.jobs.len()),
            ("cli-packets", judged.packets.len()),
        ];
        let counts = super::counts(language, &counts);
        checked = language.text("cli-nothing-found", &[("counts", counts.into())]) + "\n";
    }
    if !findings.is_empty() || desk.plant.is_none() {
        return Ok(desk.answer(&findings, args.json));
    }
    Ok(Answer::clean(if args.json { json(&Vec::<()>::new())? } else { checked }))
}
