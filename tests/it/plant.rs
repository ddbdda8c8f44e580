//! A plant in a scratch folder, and the program run on it.

use std::path::{Path, PathBuf};
use std::process::Command;

/// A copy of a plant that is thrown away afterwards.
pub struct Plant {
    scratch: tempfile::TempDir,
}

/// What a run gave.
pub struct Run {
    pub code: i32,
    pub stdout: String,
    pub stderr: String,
}

/// The repository.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

impl Plant {
    /// A copy of the demo plant.
    pub fn demo() -> Plant {
        Plant::copy(&root().join("demo-data"))
    }

    /// The demo plant with the records of three machines alone, without the year at the hand slitter.
    pub fn demo_without_year() -> Plant {
        let plant = Plant::demo();
        let records = plant.folder().join("records");
        for entry in std::fs::read_dir(&records).unwrap() {
            let name = entry.unwrap().file_name();
            if name < *"SM-1041" {
                std::fs::remove_dir_all(records.join(name)).unwrap();
            }
        }
        std::fs::remove_dir_all(plant.folder().join("logs/slit-1")).unwrap();
        plant
    }

    /// A small plant of the tests: what `start` writes may change without them.
    pub fn small() -> Plant {
        Plant::copy(&root().join("tests/it/small-plant"))
    }

    /// A plant with the machines that the demo plant lacks, for procedures that ship.
    pub fn library() -> Plant {
        Plant::copy(&root().join("tests/it/library-plant"))
    }

    /// A copy of any plant.
    pub fn of(from: &Path) -> Plant {
        Plant::copy(from)
    }

    fn copy(from: &Path) -> Plant {
        let scratch = tempfile::tempdir().unwrap();
        copy_folder(from, &scratch.path().join("plant"));
        Plant { scratch }
    }

    /// The plant's folder.
    pub fn folder(&self) -> PathBuf {
        self.scratch.path().join("plant")
    }

    /// A path beside the plant.
    pub fn beside(&self, name: &str) -> PathBuf {
        self.scratch.path().join(name)
    }

    pub fn read(&self, file: &str) -> String {
        std::fs::read_to_string(self.folder().join(file)).unwrap()
    }

    pub fn write(&self, file: &str, text: impl AsRef<[u8]>) -> &Plant {
        let path = self.folder().join(file);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
        self
    }

    /// Takes a file away.
    pub fn remove(&self, file: &str) -> &Plant {
        std::fs::remove_file(self.folder().join(file)).unwrap();
        self
    }

    /// Replaces text that stands in a file exactly once.
    #[track_caller]
    pub fn edit(&self, file: &str, from: &str, to: &str) -> &Plant {
        let text = self.read(file);
        assert_eq!(text.matches(from).count(), 1, "`{from}` in {file}");
        self.write(file, text.replacen(from, to, 1))
    }

    /// Runs the program beside the plant; `PLANT` in an argument stands for its folder.
    pub fn run(&self, args: &[&str]) -> Run {
        Run::of(self.command(args))
    }

    /// The program with these arguments, to be run beside the plant.
    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_witnessmark"));
        command.args(args.iter().map(|arg| arg.replace("PLANT", "plant")));
        command.current_dir(self.scratch.path()).env("LC_ALL", "C");
        command
    }
}

impl Run {
    /// Runs a command to its end.
    pub fn of(mut command: Command) -> Run {
        let output = command.stdin(std::process::Stdio::null()).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Run {
            code: output.status.code().expect("the program ends by itself"),
            stdout: text(output.stdout),
            stderr: text(output.stderr),
        }
    }

    /// The standard output as JSON.
    #[track_caller]
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.stdout).unwrap_or_else(|e| panic!("{e}:\n{}", self.stdout))
    }

    /// Wants a piece of text on the error stream.
    #[track_caller]
    pub fn complains(self, piece: &str) -> Run {
        assert!(self.stderr.contains(piece), "`{piece}` is not in:\n{}", self.stderr);
        self
    }

    /// Wants an exit code.
    #[track_caller]
    pub fn ends(self, code: i32) -> Run {
        assert_eq!(self.code, code, "stdout:\n{}\nstderr:\n{}", self.stdout, self.stderr);
        self
    }

    /// Wants a piece of text on the standard output.
    #[track_caller]
    pub fn says(self, piece: &str) -> Run {
        assert!(self.stdout.contains(piece), "`{piece}` is not in:\n{}", self.stdout);
        self
    }
}

/// Copies a folder.
pub fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy_folder(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// Every file below a folder, by path with `/`.
pub fn files_of(folder: &Path) -> std::collections::BTreeMap<String, Vec<u8>> {
    let mut files = std::collections::BTreeMap::new();
    gather(folder, folder, &mut files);
    files
}

fn gather(top: &Path, folder: &Path, files: &mut std::collections::BTreeMap<String, Vec<u8>>) {
    let Ok(listing) = std::fs::read_dir(folder) else { return };
    for entry in listing {
        let entry = entry.unwrap();
        if entry.file_type().unwrap().is_dir() {
            gather(top, &entry.path(), files);
        } else {
            let name = entry.path().strip_prefix(top).unwrap().to_str().unwrap().to_owned();
            files.insert(name, std::fs::read(entry.path()).unwrap());
        }
    }
}
