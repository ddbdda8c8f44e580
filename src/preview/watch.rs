//! Whether the files of a plant lie as they did when somebody last looked.
//!
//! Looks at names, sizes and times from time to time. Being told by the system would be quicker by some
//! milliseconds, but not on a folder of another machine, not past a limit of folders, and by another
//! crate for each system; and an editor that writes aside and renames is nothing special this way. Must
//! never follow a link or read a file.

use std::fs;
use std::os::unix::fs::MetadataExt as _;
use std::path::{Path, PathBuf};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Looking takes at most one part in so many of the time.
const SHARE: u32 = 20;
/// The shortest time between two looks.
const SHORTEST: Duration = Duration::from_millis(20);
/// How deep folders of a plant lie.
const DEEPEST: usize = 6;

/// Files that are still being written get so many more looks.
const PATIENCE: usize = 20;
const PAUSE: Duration = Duration::from_millis(5);

/// A folder that is looked at.
#[derive(Debug)]
pub struct Watch {
    folder: PathBuf,
    last: Look,
    next: Instant,
}

/// How files lie in a folder, in order.
type Look = Vec<(PathBuf, [i64; 6])>;

impl Watch {
    /// Looks at a folder for the first time.
    pub fn of(folder: &Path) -> Watch {
        Watch { folder: folder.to_owned(), last: look(folder), next: Instant::now() }
    }

    /// How long there is nothing to do.
    pub fn pause(&self) -> Duration {
        self.next.saturating_duration_since(Instant::now())
    }

    /// Whether files have changed since they were found changed last. Looks only when it is time; what
    /// is found changed is left alone until nobody writes any more.
    pub fn has_changed(&mut self) -> bool {
        let start = Instant::now();
        if start < self.next {
            return false;
        }
        let mut now = look(&self.folder);
        let cost = start.elapsed();
        self.next = start + (cost * SHARE).max(SHORTEST);
        if now == self.last {
            return false;
        }
        for _ in 0..PATIENCE {
            sleep(PAUSE);
            let later = look(&self.folder);
            if later == now {
                break;
            }
            now = later;
        }
        self.last = now;
        true
    }
}

fn look(folder: &Path) -> Look {
    let mut found = Look::new();
    gather(folder, 0, &mut found);
    found.sort();
    found
}

/// Adds what lies in a folder; what cannot be read is as good as not there.
fn gather(folder: &Path, depth: usize, found: &mut Look) {
    let Ok(listing) = fs::read_dir(folder) else { return };
    for entry in listing.flatten() {
        let is_hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
        let Ok(meta) = entry.metadata() else { continue };
        if is_hidden {
            continue;
        }
        if meta.is_dir() {
            if depth < DEEPEST {
                gather(&entry.path(), depth + 1, found);
            }
            continue;
        }
        let length = i64::try_from(meta.len()).unwrap_or(i64::MAX);
        let number = meta.ino().cast_signed();
        let [modified, changed] =
            [(meta.mtime(), meta.mtime_nsec()), (meta.ctime(), meta.ctime_nsec())];
        let times = [length, number, modified.0, modified.1, changed.0, changed.1];
        found.push((entry.path(), times));
    }
}
