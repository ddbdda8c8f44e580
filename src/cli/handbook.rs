//! `handbook`: how to use the program, as pages.

use std::path::PathBuf;

use clap::CommandFactory;

use super::{Answer, Cli};
use crate::failure::Failure;
use crate::language::Language;
use crate::page::handbook::{self, Command, Known};
use crate::plant::schema;
use crate::publish::{self, Tree};

/// From the root of a handbook to the site that it is part of.
const HOME: &str = "../index.html";
/// Columns of a help text: the same wherever the handbook is made.
const COLUMNS: usize = 90;

/// Writes the handbook: chapters to read, every command, and a page for each finding.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  witnessmark handbook --out handbook")]
pub(super) struct Args {
    /// Folder of the handbook; made new, or an older handbook of ours
    #[arg(long)]
    out: PathBuf,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let mut tree = Tree::default();
    for (path, text) in handbook::files(&known(), "") {
        tree.put(path, text);
    }
    tree.put(publish::HANDBOOK_MARK, MARK);
    publish::write_handbook(&args.out, &tree)?;
    let parts = [
        ("files", super::counts(language, &[("cli-files", tree.files.len())]).into()),
        ("folder", args.out.display().to_string().into()),
        ("page", args.out.join(handbook::START).display().to_string().into()),
    ];
    Ok(Answer::clean(language.text("handbook-written", &parts) + "\n"))
}

const MARK: &str =
    concat!("{\"made_by\":\"witnessmark ", env!("CARGO_PKG_VERSION"), "\",\"v\":1}\n");

/// Puts the handbook into a site.
pub(super) fn beside(site: &mut Tree) {
    for (path, text) in handbook::files(&known(), HOME) {
        site.put(format!("{}/{path}", handbook::FOLDER), text);
    }
}

fn known() -> Known {
    Known { commands: commands(), schemas: schema::all() }
}

/// Every command with its help.
fn commands() -> Vec<Command> {
    let mut cli = Cli::command().term_width(COLUMNS).disable_help_subcommand(true);
    cli.build();
    let commands = cli.get_subcommands_mut().map(|command| Command {
        name: command.get_name().to_owned(),
        does: command.get_about().map(ToString::to_string).unwrap_or_default(),
        help: command.render_long_help().to_string(),
    });
    commands.collect()
}
