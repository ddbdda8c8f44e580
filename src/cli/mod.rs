//! The command line: one file a command. What a command prints, it returns as text.
//!
//! Exit codes, decided here and nowhere else: 0 fine, 1 findings, 2 could not run. The only module
//! that knows a terminal and the clock.

mod approve;
mod archive;
mod audit;
mod check;
mod checkpoint;
mod clock;
mod collect;
mod derive;
mod desk;
mod earlier;
mod export;
mod exported;
mod filled;
mod handbook;
mod history;
mod import;
mod inspected;
mod key;
mod locale;
mod logs;
mod packet;
mod preview;
mod publish;
mod records;
mod redline;
mod register;
mod schemas;
mod shift;
mod signoff;
mod start;
mod steps;
mod where_used;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::failure::Failure;
use crate::language::{Language, Words};

/// Changeover packets: computed settings, safe steps, signed records.
#[derive(Debug, Parser)]
#[command(name = "witnessmark", version, about, after_help = CAUTION)]
struct Cli {
    /// Language of answers and findings: en, es, es-419 or de; without it that of the environment
    #[arg(long, global = true, value_name = "TAG", value_parser = locale::of_tag)]
    language: Option<Language>,
    #[command(subcommand)]
    command: Command,
}

const CAUTION: &str = "\
Local codes, the machine maker's manual and licensed or authorised people come first.
Exit codes: 0 fine, 1 findings, 2 could not run.";

#[derive(Debug, Subcommand)]
enum Command {
    Check(check::Args),
    Derive(derive::Args),
    Packet(packet::Args),
    Shift(shift::Args),
    Publish(publish::Args),
    Preview(preview::Args),
    Redline(redline::Args),
    Signoff(Box<signoff::Args>),
    Approve(approve::Args),
    Inspected(inspected::Args),
    Audit(audit::Args),
    Checkpoint(checkpoint::Args),
    Export(export::Args),
    History(history::Args),
    Collect(collect::Args),
    Schemas(schemas::Args),
    WhereUsed(where_used::Args),
    Import(import::Args),
    Start(start::Args),
    Handbook(handbook::Args),
}

/// What a command has to say.
#[derive(Debug, PartialEq, Eq)]
struct Answer {
    /// Whether something was found.
    outcome: Outcome,
    /// What to print.
    text: String,
}

/// Whether something was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Nothing.
    Clean,
    /// Something.
    Findings,
}

impl Answer {
    fn clean(text: String) -> Answer {
        Answer { outcome: Outcome::Clean, text }
    }

    fn findings(text: String) -> Answer {
        Answer { outcome: Outcome::Findings, text }
    }
}

/// Runs the program with these arguments.
pub fn main(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(error) => {
            let _ = error.print();
            return if error.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS };
        }
    };
    let language = locale::language(cli.language);
    match run(cli.command, language) {
        Ok(answer) => {
            say(std::io::stdout(), &answer.text);
            match answer.outcome {
                Outcome::Clean => ExitCode::SUCCESS,
                Outcome::Findings => ExitCode::from(1),
            }
        }
        Err(failure) => {
            say(std::io::stderr(), &format!("witnessmark: {}\n", failure.shown(language)));
            ExitCode::from(2)
        }
    }
}

/// Writes to the terminal. A reader that went away (a closed pipe) is no fault of ours.
fn say(mut to: impl Write, text: &str) {
    let _ = to.write_all(harmless(text).as_bytes()).and_then(|()| to.flush());
}

/// Characters that play with a terminal, or with the order in which a line is read, are written
/// out: names and texts come from files. The form is that of JSON, so JSON stays what it says.
fn harmless(text: &str) -> String {
    let plays = |c: char| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.chars().fold(String::with_capacity(text.len()), |mut shown, c| {
        match plays(c) {
            true => shown += &format!("\\u{:04x}", u32::from(c)),
            false => shown.push(c),
        }
        shown
    })
}

fn run(command: Command, language: Language) -> Result<Answer, Failure> {
    match command {
        Command::Check(args) => check::run(&args, language),
        Command::Derive(args) => derive::run(&args, language),
        Command::Packet(args) => packet::run(&args, language),
        Command::Shift(args) => shift::run(&args, language),
        Command::Publish(args) => publish::run(&args, language),
        Command::Preview(args) => preview::run(&args, language),
        Command::Redline(args) => redline::run(&args, language),
        Command::Signoff(args) => signoff::run(&args, language),
        Command::Approve(args) => approve::run(&args, language),
        Command::Inspected(args) => inspected::run(&args, language),
        Command::Audit(args) => audit::run(&args, language),
        Command::Checkpoint(args) => checkpoint::run(&args, language),
        Command::Export(args) => export::run(&args, language),
        Command::History(args) => history::run(&args, language),
        Command::Collect(args) => collect::run(&args, language),
        Command::Schemas(args) => schemas::run(&args, language),
        Command::WhereUsed(args) => where_used::run(&args, language),
        Command::Import(args) => import::run(&args, language),
        Command::Start(args) => start::run(&args, language),
        Command::Handbook(args) => handbook::run(&args, language),
    }
}

/// So many things of each kind: `1 job, 2 packets`.
fn counts(language: Language, counts: &[(&'static str, usize)]) -> String {
    let shown = counts.iter().map(|(key, count)| language.text(key, &[("count", (*count).into())]));
    shown.collect::<Vec<_>>().join(", ")
}

/// A value as JSON on lines of its own.
fn json<T: serde::Serialize>(value: &T) -> Result<String, Failure> {
    let fail = |error: serde_json::Error| {
        Failure::new(Words::new("failure-json", &[("cause", error.to_string().into())]))
    };
    serde_json::to_string_pretty(value).map(|text| text + "\n").map_err(fail)
}
