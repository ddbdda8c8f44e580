//! `schemas`: JSON Schemas of the files people write, for editors.

use std::path::PathBuf;

use super::Answer;
use crate::durable;
use crate::failure::Failure;
use crate::language::Language;
use crate::plant::schema;

/// Writes the JSON Schemas of plant, people, machine, recipe, job, stock and hazard files, and of the
/// parts of a procedure: an editor completes the keys by them and marks what would be refused.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Example:
  witnessmark schemas --out my-schemas

Each is written to <name>.schema.json; other files of the folder are left alone.")]
pub(super) struct Args {
    /// Folder to write them to
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
}

#[allow(clippy::disallowed_methods, reason = "schemas are written at this edge")]
pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let out = &args.out;
    std::fs::create_dir_all(out).map_err(|e| Failure::at("failure-make-the-folder", out, &e))?;
    let all = schema::all();
    for (name, schema) in &all {
        durable::replace(&out.join(schema::file_name(name)), schema::text(schema).as_bytes())?;
    }
    let count = super::counts(language, &[("schemas-count", all.len())]);
    let parts = [("count", count.into()), ("folder", out.display().to_string().into())];
    Ok(Answer::clean(format!("{}\n", language.text("schemas-written", &parts))))
}
