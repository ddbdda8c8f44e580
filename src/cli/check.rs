//! `check`: everything that is wrong with a plant, in one run.

use std::path::PathBuf;

use super::desk::{self, Desk};
use super::{Answer, json};
use crate::failure::Failure;
use crate::finding::sarif;
use crate::language::Language;

/// Reads everything and prints every finding: file, line, caret, and the way out.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark check demo-data\n  witnessmark check demo-data --sarif"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Print the findings as JSON
    #[arg(long, conflicts_with = "sarif")]
    json: bool,
    /// Print the findings for an editor or a build server (SARIF 2.1.0)
    #[arg(long)]
    sarif: bool,
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
    if args.sarif {
        let log = json(&sarif::log(&findings, &desk.texts, language))?;
        let is_clean = findings.is_empty();
        return Ok(if is_clean { Answer::clean(log) } else { Answer::findings(log) });
    }
    if !findings.is_empty() || desk.plant.is_none() {
        return Ok(desk.answer(&findings, args.json));
    }
    Ok(Answer::clean(if args.json { json(&Vec::<()>::new())? } else { checked }))
}
