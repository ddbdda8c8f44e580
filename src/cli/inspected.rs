//! `inspected`: the periodic inspection of a lockout procedure, signed.

use std::fmt::Write;
use std::path::PathBuf;

use chrono::NaiveDate;
use serde::Serialize;

use super::register::{self, Book, Signer};
use super::signoff::needed;
use super::{Answer, clock, json};
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::packet::{self, Due, Prepared};
use crate::page::words::date;
use crate::register::draft::{Inspection, Item, items_of};

/// Signs that you inspected how people use a lockout procedure on a machine.
///
/// Without --by and --key it says which inspections are due (29 CFR 1910.147(c)(6)).
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark inspected demo-data
  witnessmark inspected demo-data lockout --machine stick-5 --with b.person@plant.example \\
      --found nothing --by a.person@plant.example --key ~/.ssh/id_ed25519

Who inspects is authorised for lockout, and not one of those who use the procedure.
The key has to be listed in allowed_signers for register@DOMAIN.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The procedure
    procedure: Option<String>,
    /// The machine
    #[arg(long, value_name = "MACHINE")]
    machine: Option<String>,
    /// Somebody whom the inspection included; may be given many times
    #[arg(long, value_name = "PERSON")]
    with: Vec<String>,
    /// What you found
    #[arg(long, value_name = "TEXT")]
    found: Option<String>,
    /// What was corrected
    #[arg(long, value_name = "TEXT")]
    corrected: Option<String>,
    /// Day of the inspection, YYYY-MM-DD; today when left out
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    #[command(flatten)]
    signer: Signer,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    register::open(&args.plant, &args.signer, language, |book| inspected(args, book))
}

fn inspected(args: &Args, book: &Book) -> Result<Answer, Failure> {
    if args.signer.only_asks() {
        return standing(args, book.prepared, clock::now().date_naive(), book.language);
    }
    let (item, inspection) = inspection(args, book.prepared)?;
    book.sign(|_, desk| {
        let mut entry = desk.inspection(&item, inspection.clone());
        entry.note.clone_from(&args.signer.note);
        Ok(vec![entry])
    })
}

/// What was inspected, and how it went.
fn inspection(args: &Args, prepared: &Prepared) -> Result<(Item, Inspection), Failure> {
    let id = needed(args.procedure.as_ref(), "PROCEDURE", "register-which-procedure")?;
    let machine = needed(args.machine.as_ref(), "--machine MACHINE", "register-which-machine")?;
    let found = needed(args.found.as_ref(), "--found TEXT", "register-what-found")?;
    if args.with.is_empty() {
        let parts = [("option", "--with PERSON".into())];
        return Err(Failure::new(Words::new("register-with-whom", &parts)));
    }
    let used = prepared.machines.get(machine).into_iter();
    let mut used = used.flat_map(|machine| packet::lockouts(prepared.plant, machine));
    let item = used.find(|procedure| procedure.front.id == *id).map(items_of);
    let item = item.and_then(|items| items.into_iter().next());
    let item = item.ok_or_else(|| {
        let parts = [("procedure", id.into()), ("machine", machine.into())];
        Failure::new(Words::new("register-not-used-there", &parts))
    })?;
    let inspection = Inspection {
        machine: machine.clone(),
        date: args.date.clone(),
        people: args.with.clone(),
        found: found.clone(),
        corrected: args.corrected.clone(),
    };
    Ok((item, inspection))
}

/// A due date, for programs.
#[derive(Serialize)]
struct Line<'a> {
    machine: &'a str,
    procedure: &'a str,
    last: Option<&'a str>,
    entry: Option<u64>,
    due: Option<String>,
    overdue: bool,
}

fn standing(
    args: &Args,
    prepared: &Prepared,
    today: NaiveDate,
    language: Language,
) -> Result<Answer, Failure> {
    let asked = |due: &Due| {
        let is = |asked: &Option<String>, own: &str| asked.as_ref().is_none_or(|id| id == own);
        is(&args.machine, &due.machine.file.body.id) && is(&args.procedure, &due.procedure.front.id)
    };
    let all: Vec<Due> = packet::inspections(prepared).into_iter().filter(asked).collect();
    if args.signer.json {
        let lines = all.iter().map(|due| line(due, today));
        return Ok(Answer::clean(json(&lines.collect::<Vec<_>>())?));
    }
    let mut text = String::new();
    for due in &all {
        let _ = writeln!(text, "{}", told(due, today, language));
    }
    let over = all.iter().filter(|due| due.is_over(today)).count();
    let parts = [("count", all.len().into()), ("over", over.into())];
    let _ = writeln!(text, "{}", language.text("register-inspections", &parts));
    Ok(Answer::clean(text))
}

fn line<'a>(due: &'a Due, today: NaiveDate) -> Line<'a> {
    Line {
        machine: &due.machine.file.body.id,
        procedure: &due.procedure.front.id,
        last: due.signed.and_then(|held| held.entry.date.as_deref()),
        entry: due.signed.map(|held| held.entry.seq),
        due: due.due.map(|day| day.to_string()),
        overdue: due.is_over(today),
    }
}

fn told(due: &Due, today: NaiveDate, language: Language) -> String {
    let last = due.signed.and_then(|held| held.entry.date.as_deref()).unwrap_or_default();
    let day = due.due.map(|day| day.to_string()).unwrap_or_default();
    let parts = [
        ("machine", (&due.machine.file.body.id).into()),
        ("procedure", (&due.procedure.front.id).into()),
        ("last", date(language, last).into()),
        ("due", date(language, &day).into()),
    ];
    let key = match (due.due, due.signed) {
        (None, _) => "register-never-inspected",
        (Some(day), _) if day < today => "register-overdue",
        (Some(_), None) => "register-due",
        (Some(_), Some(_)) => "register-last-and-due",
    };
    language.text(key, &parts)
}
