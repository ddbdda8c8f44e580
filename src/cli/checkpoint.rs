//! `checkpoint`: the signed head of each machine's log, to keep elsewhere.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;

use super::desk::{self, Desk};
use super::signoff::{needed, refused};
use super::{Answer, clock, json, key, logs, records};
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::log::checkpoint::{Checkpoint, short};
use crate::log::store::Log;
use crate::plant::load::Plant;
use crate::record::namespace;
use crate::record::rules::{check_signer, person_unknown};
use crate::record::trust::TrustList;

/// Prints the newest checkpoint of each machine's log; with your key signs a new one.
///
/// Keep checkpoints where nobody who can change the plant's folder reaches them: on paper, with a
/// customer, at another site. `audit --checkpoint` proves later that nothing before one was changed.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark checkpoint demo-data
  witnessmark checkpoint demo-data bag-1 --by a.person@plant.example --key ~/.ssh/id_ed25519

With --by it first adds to the log what was signed before the machine had one.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Only this machine
    machine: Option<String>,
    /// Your identifier in people.yaml
    #[arg(long, value_name = "PERSON")]
    by: Option<String>,
    /// Your OpenSSH private key (Ed25519); without it your key in ssh-agent signs
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
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
    let trust = desk::trust(&mut Findings::default(), plant);
    let mut said = Vec::new();
    if args.by.is_some() || args.key.is_some() {
        match sign(args, plant, &trust, language)? {
            Ok(told) => said = told,
            Err(answer) => return Ok(*answer),
        }
    }
    let mut machines = logs::machines(&args.plant)?;
    if let Some(machine) = &args.machine {
        if !machines.contains(machine) {
            return Err(logs::no_machine(machine));
        }
        machines.retain(|own| own == machine);
    }
    let heads: Vec<Head> = machines
        .iter()
        .filter_map(|machine| head(args, machine, language).transpose())
        .collect::<Result<_, _>>()?;
    if args.json {
        return Ok(Answer::clean(json(&heads)?));
    }
    let mut text: String = said.into_iter().map(|line| line + "\n").collect();
    heads.iter().for_each(|head| text += &head.render(language));
    if heads.is_empty() {
        let _ = writeln!(text, "{}", language.word("log-nothing"));
    }
    Ok(Answer::clean(text))
}

/// Adopts what is missing and signs; what was said meanwhile.
fn sign(
    args: &Args,
    plant: &Plant,
    trust: &TrustList,
    language: Language,
) -> Result<Result<Vec<String>, Box<Answer>>, Failure> {
    let by = needed(args.by.as_deref(), "--by PERSON", "signoff-who")?;
    // A stranger is refused before a passphrase is asked for.
    if !plant.people.body.people.iter().any(|person| person.id == by) {
        return Ok(Err(Box::new(refused(&[person_unknown(by)], language, args.json)?)));
    }
    let domain = &plant.facts.body.domain;
    let purpose = namespace(domain);
    let wanted = key::Wanted { by, trust, namespace: &purpose, at: clock::now() };
    let key = key::open(args.key.as_deref(), &wanted, language)?;
    let public = key.public();
    let at = Some(clock::now());
    if let Some(refusal) = check_signer(trust, by, public.as_bytes(), &purpose, at) {
        return Ok(Err(Box::new(refused(&[refusal], language, args.json)?)));
    }
    let mut machines: BTreeSet<String> = logs::machines(&args.plant)?;
    let records = records::read(&args.plant)?.records;
    machines.extend(records.values().filter_map(logs::machine_of));
    let is_known = |machine: &String| plant.machines.contains_key(machine);
    if let Some(machine) = &args.machine {
        if !machines.contains(machine) && !is_known(machine) {
            return Err(logs::no_machine(machine));
        }
        machines = [machine.clone()].into();
    }
    let mut said = Vec::new();
    for machine in &machines {
        let mut log = logs::open(&args.plant, machine)?;
        logs::adopt(&records, machine, &mut log)?;
        logs::sign(&mut log, (domain, machine), (by, &key), clock::now(), trust)?;
        said.extend(logs::told(&log, language).into_iter().map(|own| format!("{machine}: {own}")));
    }
    Ok(Ok(said))
}

/// The newest checkpoint of a machine, for people and programs.
#[derive(Serialize)]
struct Head {
    machine: String,
    entries: u64,
    checkpoint: Option<String>,
    short: Option<String>,
    after: u64,
    #[serde(skip)]
    signed: String,
}

/// None when the log is gone meanwhile.
fn head(args: &Args, machine: &str, language: Language) -> Result<Option<Head>, Failure> {
    let Some(log) = Log::open(&args.plant, machine)? else { return Ok(None) };
    let (machine, entries) = (machine.to_owned(), log.leaves());
    let nothing = |signed: Words| Head {
        machine: machine.clone(),
        entries,
        checkpoint: None,
        short: None,
        after: entries,
        signed: signed.shown(language),
    };
    let Some(bytes) = log.checkpoint()? else {
        return Ok(Some(nothing(Words::of("log-unsigned"))));
    };
    let (checkpoint, note) = match Checkpoint::parse(&bytes) {
        Ok(read) => read,
        Err(fault) => {
            let parts = [("fault", fault.words().into())];
            return Ok(Some(nothing(Words::new("log-checkpoint-form", &parts))));
        }
    };
    let by: Vec<&str> = note.signatures.iter().map(|one| one.name.as_str()).collect();
    let at = checkpoint.at.clone().unwrap_or_default();
    let parts = [("by", by.join(", ").into()), ("at", at.into())];
    Ok(Some(Head {
        short: Some(short(&machine, checkpoint.leaves, &checkpoint.root)),
        checkpoint: Some(note.print()),
        after: entries.saturating_sub(checkpoint.leaves),
        signed: language.text("log-newest", &parts),
        machine,
        entries,
    }))
}

impl Head {
    fn render(&self, language: Language) -> String {
        let after = usize::try_from(self.after).unwrap_or(usize::MAX);
        let mut text = match &self.short {
            Some(short) => format!("{short}\n  {}\n", self.signed),
            None => format!("{}: {}\n", self.machine, self.signed),
        };
        if self.after > 0 && self.short.is_some() {
            let _ = writeln!(text, "  {}", language.text("log-after", &[("count", after.into())]));
        }
        if let Some(note) = &self.checkpoint {
            let _ = writeln!(text, "\n{note}");
        }
        text
    }
}
