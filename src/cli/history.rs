//! `history`: what past changeovers teach, from the records.

use std::path::{Path, PathBuf};

use chrono::NaiveDate;
use serde::Serialize;

use super::archive::{Archive, Court};
use super::desk::{self, Desk};
use super::{Answer, clock, json};
use crate::audit::sample::Plan;
use crate::failure::Failure;
use crate::finding::Findings;
use crate::history::drift::{self, Drift, Question, ToldQuestion};
use crate::history::gather::Gathering;
use crate::history::model::History;
use crate::history::rules::Rule;
use crate::history::{offset, run, told};
use crate::language::{Language, Words};
use crate::packet;
use crate::plant::load::Plant;

/// Version of what `--json` prints.
const VERSION: u32 = 1;

/// Shows what past changeovers teach: charts of readings, durations, settings that never stay.
///
/// Only entries that the audit finds no error with count; what is left out is named. Charts, capability
/// and proposals are worked out anew from the records each time. A rule that fires is a question and no
/// finding.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark history demo-data\n  witnessmark history demo-data --machine pouch-6 --from 2026-11-01 --json"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Only changeovers of this machine
    #[arg(long, value_name = "MACHINE")]
    machine: Option<String>,
    /// Only records with an entry on this day or later: charts begin anew there
    #[arg(long, value_name = "DATE")]
    from: Option<String>,
    /// Only records with an entry on this day or earlier
    #[arg(long, value_name = "DATE")]
    until: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

/// What `--json` prints.
#[derive(Debug, Serialize)]
struct Printed<'h> {
    v: u32,
    plant: &'h str,
    #[serde(skip_serializing_if = "Option::is_none")]
    machine: Option<&'h str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    until: Option<String>,
    rules: [Rule; 3],
    #[serde(flatten)]
    history: &'h History,
    questions: Vec<ToldQuestion<'h>>,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let plan = plan(args)?;
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let (history, questions) = history(&args.plant, plant, &plan)?;
    known(&plan, plant, &history)?;
    let text = match args.json {
        true => json(&Printed {
            v: VERSION,
            plant: &plant.facts.body.name,
            machine: args.machine.as_deref(),
            from: plan.from.map(|day| day.to_string()),
            until: plan.to.map(|day| day.to_string()),
            rules: Rule::USED,
            history: &history,
            questions: questions.iter().map(|one| one.told(language)).collect(),
        })?,
        false => told::text(&history, language) + &drift::text(&questions, language),
    };
    Ok(Answer::clean(text))
}

/// What was typed, as a plan of which records are looked at.
fn plan(args: &Args) -> Result<Plan, Failure> {
    let day = |text: &Option<String>| {
        let day = text.as_deref().map(str::parse::<NaiveDate>).transpose();
        let text = text.as_deref().unwrap_or_default();
        day.map_err(|_| Failure::new(Words::new("auditing-day-form", &[("text", text.into())])))
    };
    let (from, to) = (day(&args.from)?, day(&args.until)?);
    Ok(Plan { machine: args.machine.clone(), from, to, ..Plan::default() })
}

/// A machine that was asked for is one of the plant, or has a record.
fn known(plan: &Plan, plant: &Plant, history: &History) -> Result<(), Failure> {
    let is_unknown =
        |id: &&String| !plant.machines.contains_key(*id) && history.machines.is_empty();
    let Some(machine) = plan.machine.as_ref().filter(is_unknown) else { return Ok(()) };
    let machines: Vec<&str> = plant.machines.keys().map(String::as_str).collect();
    let parts = [("machine", machine.into()), ("machines", machines.join(", ").into())];
    Err(Failure::new(Words::new("history-no-machine", &parts)))
}

/// The history of the records that a plan takes, and what counts over them ask.
fn history(folder: &Path, plant: &Plant, plan: &Plan) -> Result<(History, Vec<Question>), Failure> {
    // What is wrong with recipes or procedures today does not touch what was signed before.
    let prepared = packet::prepare(&mut Findings::default(), plant);
    let trust = desk::trust(&mut Findings::default(), plant);
    let court = Court { prepared: &prepared, trust: &trust, now: clock::now(), entries: true };
    let archive = Archive::open(folder)?;
    let names = archive.in_time(archive.choose(plan)?.names)?;
    let (mut gathering, mut drift) = (Gathering::default(), Drift::default());
    let is_asked = |told: &run::Told| match (told, &plan.machine) {
        (Ok((run, _)), Some(machine)) => run.machine == *machine,
        _ => true,
    };
    archive.each(&names, &court, run::told, |told| {
        if is_asked(&told) {
            if let Ok((run, _)) = &told {
                drift.take(run);
            }
            gathering.take(told);
        }
    })?;
    let mut history = gathering.history();
    offset::keep_open(&mut history.proposals, |recipe, setting| {
        let recipe = &plant.recipes.get(recipe)?.body;
        Some(recipe.settings.get(setting)?.formula.clone())
    });
    Ok((history, drift.questions()))
}
