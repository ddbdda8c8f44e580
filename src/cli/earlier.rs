//! An earlier state of a plant: another folder, or a revision that git keeps of this one.
//!
//! Asks the program `git` for names and bytes only, and writes the bytes into a folder that is thrown
//! away. Must never let the repository run anything (hooks, filters, watchers), fetch over a network,
//! or write to it; and never take a path out of it that leads outside the folder.
#![allow(clippy::disallowed_methods, reason = "this is the edge at which an earlier plant is read")]

use std::ffi::OsStr;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Output, Stdio};

use crate::failure::Failure;
use crate::language::Words;

/// The largest file that is taken, in bytes: larger ones are not read from a folder either.
const LARGEST: u64 = 1 << 20;

/// The most files that are taken.
const MOST: usize = 200_000;

/// An earlier state of a plant.
pub(super) struct Earlier {
    /// Its folder.
    pub folder: PathBuf,
    /// What people call it.
    pub name: String,
    /// Thrown away with this value.
    _scratch: Option<tempfile::TempDir>,
}

/// Which earlier state is wanted.
#[derive(Debug, Clone, Default, clap::Args)]
pub(super) struct Which {
    /// Compare with this revision in git: a commit, tag or branch; the last commit when left out
    #[arg(long, value_name = "REVISION", conflicts_with = "from", allow_hyphen_values = true)]
    pub since: Option<String>,
    /// Compare with a plant in another folder
    #[arg(long, value_name = "FOLDER")]
    pub from: Option<PathBuf>,
}

impl Which {
    /// Gets the earlier state of a plant.
    pub(super) fn of(&self, plant: &Path) -> Result<Earlier, Failure> {
        match &self.from {
            Some(folder) => Ok(Earlier {
                folder: folder.clone(),
                name: folder.display().to_string(),
                _scratch: None,
            }),
            None => at(plant, self.since.as_deref().unwrap_or("HEAD")),
        }
    }
}

/// A plant as it was at a revision.
pub(super) fn at(plant: &Path, revision: &str) -> Result<Earlier, Failure> {
    if !is_name(revision) {
        let parts = [("revision", revision.into())];
        return Err(Failure::new(Words::new("redline-bad-revision", &parts)));
    }
    let git = Git { plant };
    let inside = git.says(&["rev-parse", "--show-prefix"])?.ok_or_else(|| {
        let parts = [("path", plant.display().to_string().into())];
        Failure::new(Words::new("redline-no-repository", &parts))
    })?;
    let commit = format!("{revision}^{{commit}}");
    let commit = git.says(&["rev-parse", "--verify", "--quiet", "--end-of-options", &commit])?;
    let commit = commit.filter(|commit| is_digest(commit)).ok_or_else(|| {
        Failure::new(Words::new("redline-no-revision", &[("revision", revision.into())]))
    })?;
    let scratch = tempfile::Builder::new().prefix("witnessmark-").tempdir();
    let scratch = scratch.map_err(|e| Failure::at("failure-make-a-folder-in", plant, &e))?;
    let files = git.files(&commit, &inside)?;
    git.take(&files, scratch.path())?;
    let short = commit.get(..10).unwrap_or(&commit);
    let name = format!("{revision} ({short})");
    if !scratch.path().join("plant.yaml").is_file() {
        return Err(Failure::new(Words::new("redline-no-plant-then", &[("name", name.into())])));
    }
    Ok(Earlier { folder: scratch.path().to_owned(), name, _scratch: Some(scratch) })
}

/// Whether a text can be the name of a revision and nothing else: git would take an option for one.
fn is_name(text: &str) -> bool {
    (1..=200).contains(&text.len()) && !text.starts_with('-') && !text.chars().any(char::is_control)
}

fn is_digest(text: &str) -> bool {
    matches!(text.len(), 40 | 64) && text.bytes().all(|byte| byte.is_ascii_hexdigit())
}

/// A file that git keeps.
struct Kept {
    path: PathBuf,
    object: String,
    is_link: bool,
}

struct Git<'a> {
    plant: &'a Path,
}

impl Git<'_> {
    /// The program, told to look only at what is there.
    fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new("git");
        command.args(["--no-pager", "--no-replace-objects", "--literal-pathspecs"]);
        command.args(["-c", "core.hooksPath=/dev/null", "-c", "core.fsmonitor=false"]);
        command.args(["-c", "protocol.allow=never"]).args(args).current_dir(self.plant);
        // Within a hook these name the repository of the hook, by a path from its own folder.
        for name in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_TRACE"] {
            command.env_remove(name);
        }
        command.env("GIT_NO_LAZY_FETCH", "1").env("GIT_TERMINAL_PROMPT", "0");
        command.env("GIT_OPTIONAL_LOCKS", "0").env("LC_ALL", "C");
        command.stdin(Stdio::null()).stderr(Stdio::null());
        command
    }

    fn run(&self, args: &[&str]) -> Result<Output, Failure> {
        self.command(args).output().map_err(|error| missing(&error))
    }

    /// What it says in one line; none when it refuses.
    fn says(&self, args: &[&str]) -> Result<Option<String>, Failure> {
        let output = self.run(args)?;
        let said = String::from_utf8_lossy(&output.stdout).trim_end_matches('\n').to_owned();
        Ok(output.status.success().then_some(said))
    }

    /// The files of the plant that a plant is read from.
    fn files(&self, commit: &str, inside: &str) -> Result<Vec<Kept>, Failure> {
        let tree = format!("{commit}:{inside}");
        let output =
            self.run(&["ls-tree", "-r", "-z", "-l", "--full-tree", "--end-of-options", &tree])?;
        let mut files = Vec::new();
        for line in output.stdout.split(|byte| *byte == 0).filter(|line| !line.is_empty()) {
            let line = String::from_utf8_lossy(line);
            let Some((facts, path)) = line.split_once('\t') else { continue };
            let facts: Vec<&str> = facts.split_ascii_whitespace().collect();
            let [mode, "blob", object, size] = facts.as_slice() else { continue };
            if !is_read(path) || !is_digest(object) {
                continue;
            }
            if size.parse().is_ok_and(|size: u64| size > LARGEST) || files.len() == MOST {
                let parts = [("path", path.into())];
                return Err(Failure::new(Words::new("redline-too-large", &parts)));
            }
            let (object, is_link) = ((*object).to_owned(), *mode == "120000");
            files.push(Kept { path: path.into(), object, is_link });
        }
        Ok(files)
    }

    /// Writes files into a folder. A link stays a link, which nobody follows: whoever reads the plant
    /// refuses it, as it was refused then.
    fn take(&self, files: &[Kept], folder: &Path) -> Result<(), Failure> {
        let mut command = self.command(&["cat-file", "--batch"]);
        command.stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut child = command.spawn().map_err(|error| missing(&error))?;
        let (asked, told) = (child.stdin.take(), child.stdout.take());
        let taken = match (asked, told) {
            (Some(asked), Some(told)) => write_all(files, folder, asked, BufReader::new(told)),
            _ => Ok(()),
        };
        // Its input is closed by now: it ends by itself.
        let _ = child.wait();
        taken
    }
}

fn write_all(
    files: &[Kept],
    folder: &Path,
    mut asked: impl Write,
    mut told: impl BufRead,
) -> Result<(), Failure> {
    for file in files {
        let target = folder.join(&file.path);
        let failed = |error| Failure::at("failure-write", &file.path, &error);
        if let Some(parent) = target.parent() {
            fs::create_dir_all(parent).map_err(failed)?;
        }
        if file.is_link {
            std::os::unix::fs::symlink("refused", &target).map_err(failed)?;
            continue;
        }
        let bytes = object(&file.object, &mut asked, &mut told)
            .map_err(|error| Failure::at("redline-unreadable", &file.path, &error))?;
        fs::write(&target, bytes).map_err(failed)?;
    }
    Ok(())
}

/// The bytes of an object: a line with its size, the bytes, a line end.
fn object(id: &str, asked: &mut impl Write, told: &mut impl BufRead) -> std::io::Result<Vec<u8>> {
    asked.write_all(format!("{id}\n").as_bytes())?;
    asked.flush()?;
    let mut head = String::new();
    told.read_line(&mut head)?;
    let size = head.trim_end().rsplit(' ').next().and_then(|size| size.parse::<u64>().ok());
    let size = size.filter(|size| *size <= LARGEST);
    let size = size.ok_or_else(|| std::io::Error::other(head.trim_end().to_owned()))?;
    let mut bytes = Vec::new();
    told.take(size).read_to_end(&mut bytes)?;
    told.read_exact(&mut [0])?;
    Ok(bytes)
}

/// Whether a plant is read from this file: not from records and logs, nor from a picture somebody keeps
/// beside it.
fn is_read(path: &str) -> bool {
    let path = Path::new(path);
    let is_plain = path.components().all(|part| matches!(part, Component::Normal(_)));
    let parts: Vec<&OsStr> = path.iter().collect();
    let end = path.extension().and_then(OsStr::to_str).unwrap_or_default();
    let top = parts.first().and_then(|top| top.to_str()).unwrap_or_default();
    is_plain
        && match parts.len() {
            1 => end == "yaml" || top == "allowed_signers",
            _ => {
                !matches!(top, "records" | "logs") && matches!(end, "yaml" | "md" | "json" | "sig")
            }
        }
}

/// There is no git, or it cannot be run.
fn missing(error: &std::io::Error) -> Failure {
    Failure::new(Words::new("redline-no-git", &[("cause", error.to_string().into())]))
}

#[cfg(test)]
mod tests {
    use super::{is_name, is_read};

    #[test]
    fn a_revision_is_a_name_and_no_option() {
        for name in ["HEAD", "HEAD~2", "v1.0", "main@{2 days ago}", "a/b", "1a2b"] {
            assert!(is_name(name), "{name}");
        }
        for name in ["", "-", "--upload-pack=x", "-n1", "a\nb", "a\0b", &"a".repeat(201)] {
            assert!(!is_name(name), "{name:?}");
        }
    }

    #[test]
    fn only_files_of_a_plant_are_taken() {
        for path in
            ["plant.yaml", "allowed_signers", "instructions/es/a.md", "register/000001.json.sig"]
        {
            assert!(is_read(path), "{path}");
        }
        for path in [
            "records/J-1/packet.json",
            "logs/a/leaves.json",
            "photo.jpg",
            "notes.md",
            "../plant.yaml",
            "/etc/x.yaml",
            "a/../../b.yaml",
            "",
        ] {
            assert!(!is_read(path), "{path}");
        }
    }
}
