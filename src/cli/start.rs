//! `start`: a small plant to begin one's own with.

use std::path::PathBuf;

use include_dir::{Dir, include_dir};

use super::Answer;
use crate::durable;
use crate::failure::Failure;
use crate::language::{Language, Words};

/// The small plant, as it is written.
static SMALL: Dir = include_dir!("$CARGO_MANIFEST_DIR/src/cli/small-plant");

/// Writes a small plant that checks clean, to begin your own with.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Example:\n  witnessmark start my-plant\n  witnessmark publish my-plant --out my-site"
)]
pub(super) struct Args {
    /// A new or empty folder
    dir: PathBuf,
}

#[allow(clippy::disallowed_methods, reason = "a new plant is written at this edge")]
pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let dir = &args.dir;
    if std::fs::read_dir(dir).is_ok_and(|mut listing| listing.next().is_some()) {
        let parts = [("path", dir.display().to_string().into())];
        return Err(Failure::new(Words::new("failure-not-empty", &parts)));
    }
    let mut files = Vec::new();
    gather(&SMALL, &mut files);
    for (path, contents) in &files {
        let file = dir.join(path);
        if let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder)
                .map_err(|e| Failure::at("failure-make-the-folder", folder, &e))?;
        }
        durable::create(&file, contents)?;
    }
    let folder = dir.display();
    let count = super::counts(language, &[("cli-files", files.len())]);
    let parts = [("files", count.into()), ("folder", folder.to_string().into())];
    let started = language.text("cli-started", &parts);
    let next = language.word("cli-next");
    let below = " ".repeat(next.chars().count());
    Ok(Answer::clean(format!(
        "{started}\n{next} witnessmark check {folder}\n{below} witnessmark publish {folder} --out site\n"
    )))
}

fn gather<'a>(folder: &'a Dir, files: &mut Vec<(&'a std::path::Path, &'a [u8])>) {
    files.extend(folder.files().map(|file| (file.path(), file.contents())));
    for inner in folder.dirs() {
        gather(inner, files);
    }
}
