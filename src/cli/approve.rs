//! `approve`: whose word stands behind a procedure, its translation, a recipe.

use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;

use super::register::{self, Book, Signer};
use super::{Answer, json};
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::packet::{self, Prepared};
use crate::page::words::{date, short_digest};
use crate::record::rules::Refusal;
use crate::register::draft::{self, Item, items};
use crate::register::state::Held;
use crate::register::{Entry, Register, Subject};

/// Approves procedures and recipes in the bytes they have now, signed with your SSH key.
///
/// Without --by and --key it says what is approved and what is not.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark approve demo-data
  witnessmark approve demo-data procedure:knives --by a.person@plant.example --key ~/.ssh/id_ed25519

A text is named procedure:ID, procedure:ID@LANGUAGE for a translation, or recipe:ID.
Whose approval is needed stands in plant.yaml: approvals: { procedures: ROLE, recipes: ROLE }.
The key has to be listed in allowed_signers for register@DOMAIN.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// What to approve; all that needs an approval when left out
    subjects: Vec<String>,
    /// Withdraw the approval instead, for this reason
    #[arg(long, value_name = "REASON")]
    withdraw: Option<String>,
    #[command(flatten)]
    signer: Signer,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    register::open(&args.plant, &args.signer, language, |book| approve(args, book))
}

fn approve(args: &Args, book: &Book) -> Result<Answer, Failure> {
    let chosen = chosen(args, book.prepared)?;
    if args.signer.only_asks() {
        let register = &book.prepared.register.register;
        return standing(&chosen, register, args.signer.json, book.language);
    }
    if args.subjects.is_empty() {
        return Err(Failure::new(Words::of("register-name-what")));
    }
    book.sign(|register, desk| match &args.withdraw {
        Some(why) => withdrawals(&chosen, register, desk, why),
        None => approvals(&chosen, desk, args.signer.note.as_deref()),
    })
}

/// The texts that were named; all that need an approval when none was.
fn chosen(args: &Args, prepared: &Prepared) -> Result<Vec<Item>, Failure> {
    if args.subjects.is_empty() {
        return Ok(packet::texts_to_approve(prepared));
    }
    let all = items(prepared.plant);
    let find = |name: &String| {
        let subject = Subject::parse(name);
        let found = all.iter().find(|item| Some(&item.subject) == subject.as_ref());
        found.cloned().ok_or_else(|| {
            Failure::new(Words::new("register-no-subject", &[("subject", name.into())]))
        })
    };
    args.subjects.iter().map(find).collect()
}

fn approvals(
    items: &[Item],
    desk: &draft::Desk,
    note: Option<&str>,
) -> Result<Vec<Entry>, Vec<Refusal>> {
    let drafts = items.iter().filter(|item| item.draft).map(still_draft);
    let drafts: Vec<Refusal> = drafts.collect();
    match drafts.is_empty() {
        true => Ok(items.iter().map(|item| desk.approval(item, note)).collect()),
        false => Err(drafts),
    }
}

fn still_draft(item: &Item) -> Refusal {
    let parts = [("subject", item.subject.to_string().into()), ("file", (&item.file).into())];
    Refusal::coded("still-draft", Words::new("register-still-draft", &parts))
}

/// Withdraws the last approval of each that counts.
fn withdrawals(
    items: &[Item],
    register: &Register,
    desk: &draft::Desk,
    why: &str,
) -> Result<Vec<Entry>, Vec<Refusal>> {
    let withdrawal = |item: &Item| {
        let held = register.last_approval(&item.subject);
        let held = held.filter(|held| held.withdrawn.is_none());
        held.map(|held| desk.withdrawal(held, why)).ok_or_else(|| {
            let parts = [("subject", item.subject.to_string().into())];
            vec![Refusal::coded(
                "nothing-to-withdraw",
                Words::new("register-nothing-to-withdraw", &parts),
            )]
        })
    };
    items.iter().map(withdrawal).collect()
}

/// How a text stands, for programs.
#[derive(Serialize)]
struct Line<'a> {
    subject: String,
    file: &'a str,
    revision: &'a str,
    sha256: &'a str,
    draft: bool,
    approved: Option<Signed<'a>>,
    last: Option<Signed<'a>>,
}

/// An approval, for programs.
#[derive(Serialize)]
struct Signed<'a> {
    entry: u64,
    by: &'a str,
    at: &'a str,
    revision: &'a str,
    sha256: &'a str,
    withdrawn: Option<u64>,
}

impl<'a> Signed<'a> {
    fn of(held: &'a Held) -> Signed<'a> {
        let Entry { seq, by, at, revision, sha256, .. } = &held.entry;
        Signed { entry: *seq, by, at, revision, sha256, withdrawn: held.withdrawn }
    }
}

fn standing(
    items: &[Item],
    register: &Register,
    as_json: bool,
    language: Language,
) -> Result<Answer, Failure> {
    let approved = |item: &Item| register.approval(&item.subject, &item.sha256).is_some();
    if as_json {
        let line = |item| line(item, register);
        return Ok(Answer::clean(json(&items.iter().map(line).collect::<Vec<_>>())?));
    }
    let mut text = String::new();
    for item in items {
        let _ = writeln!(text, "{}", told(item, register, language));
    }
    let open = items.iter().filter(|item| !approved(item)).count();
    let parts = [("count", items.len().into()), ("open", open.into())];
    let _ = writeln!(text, "{}", language.text("register-standing", &parts));
    Ok(Answer::clean(text))
}

fn line<'a>(item: &'a Item, register: &'a Register) -> Line<'a> {
    Line {
        subject: item.subject.to_string(),
        file: &item.file,
        revision: &item.revision,
        sha256: &item.sha256,
        draft: item.draft,
        approved: register.approval(&item.subject, &item.sha256).map(Signed::of),
        last: register.last_approval(&item.subject).map(Signed::of),
    }
}

/// A text with its revision and digest, and what the register says of it: what changed since the
/// last approval shows as another revision, another digest.
fn told(item: &Item, register: &Register, language: Language) -> String {
    let now = [
        ("subject", item.subject.to_string().into()),
        ("revision", (&item.revision).into()),
        ("digest", short_digest(&item.sha256).into()),
    ];
    let text = language.text("register-text", &now);
    if let Some(held) = register.approval(&item.subject, &item.sha256) {
        return format!("{text}: {}", approved(held, "register-is-approved", language));
    }
    match register.last_approval(&item.subject) {
        Some(held) if held.withdrawn.is_some() => {
            let why = held.withdrawn.and_then(|seq| register.get(seq));
            let why = why.and_then(|own| own.entry.note.clone()).unwrap_or_default();
            let parts = [("reason", why.into())];
            format!("{text}: {}", language.text("register-is-withdrawn", &parts))
        }
        Some(held) => format!("{text}: {}", approved(held, "register-was-approved", language)),
        None => format!("{text}: {}", language.word("register-never-approved")),
    }
}

fn approved(held: &Held, key: &'static str, language: Language) -> String {
    let own = &held.entry;
    let day = own.day().map(|day| day.to_string()).unwrap_or_default();
    let parts = [
        ("name", (&own.name).into()),
        ("day", date(language, &day).into()),
        ("entry", own.seq.to_string().into()),
        ("revision", (&own.revision).into()),
        ("digest", short_digest(&own.sha256).into()),
    ];
    language.text(key, &parts)
}
