//! `where-used`: what uses a thing, and what nothing uses.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use super::desk::{self, Desk};
use super::{Answer, json, records};
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::plant::load::Plant;
use crate::record::entry::{self, Kind};
use crate::record::store;
use crate::uses::shown::{self, Lines};
use crate::uses::{self, Index};

/// Prints which machines, recipes, steps and open jobs use a thing, with file and line.
///
/// A thing is a procedure, hazard message, tool, instrument, fastener, setting, input, table, part,
/// film, zone, energy source, fact or role, by its identifier or its name. Without a name: what is
/// used nowhere, names that are likely the same thing, and everything with its number of uses.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark where-used demo-data\n  witnessmark where-used demo-data rail-caliper"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Only this thing
    name: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let judged = desk::judge(&desk, plant);
    let open = open_jobs(&args.plant, plant)?;
    let index = uses::index(plant, &judged.packets, &open);
    let mut lines = Lines::of(&desk.texts);
    let mut text = match (&args.name, args.json) {
        (Some(name), as_json) => named(&index, &mut lines, name, as_json, language)?,
        (None, true) => json(&shown::overview(&mut lines, &index))?,
        (None, false) => shown::text(language, &mut lines, &index),
    };
    if judged.findings.has_errors() && !args.json {
        text += language.word("uses-with-errors");
        text.push('\n');
    }
    Ok(Answer::clean(text))
}

fn named(
    index: &Index,
    lines: &mut Lines,
    name: &str,
    as_json: bool,
    language: Language,
) -> Result<String, Failure> {
    let found = index.named(name);
    if found.is_empty() {
        return Err(unknown(index, name));
    }
    if as_json {
        let all = found.into_iter().map(|(kind, id, one)| shown::shown(lines, kind, id, one));
        return json(&all.collect::<Vec<_>>());
    }
    let all = found.into_iter().map(|found| shown::text_of(language, lines, found));
    Ok(all.collect::<Vec<_>>().join("\n"))
}

fn unknown(index: &Index, name: &str) -> Failure {
    let near = index.nearest(name);
    let named = ("name", name.into());
    Failure::new(match near.is_empty() {
        true => Words::new("uses-unknown", &[named]),
        false => Words::new("uses-unknown-near", &[named, ("near", near.join(", ").into())]),
    })
}

/// Jobs whose record says neither that they were released nor that they were abandoned. Whether what it
/// says holds is up to `audit`.
fn open_jobs<'a>(folder: &Path, plant: &'a Plant) -> Result<BTreeSet<&'a str>, Failure> {
    let mut open = BTreeSet::new();
    for id in plant.jobs.keys() {
        if !is_closed(folder, id)? {
            open.insert(id.as_str());
        }
    }
    Ok(open)
}

fn is_closed(folder: &Path, job: &str) -> Result<bool, Failure> {
    let record = records::current(folder, job)?;
    if !record.is_dir() {
        return Ok(false);
    }
    let entries = store::read(&record)?.entries;
    let kinds = entries.iter().filter_map(|raw| Some(entry::parse(&raw.json).ok()?.kind));
    Ok(kinds.into_iter().any(|kind| matches!(kind, Kind::Released | Kind::Abandoned)))
}
