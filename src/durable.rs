//! Files that are there whole or not at all, also after a power cut.
//!
//! Write aside in the same folder, sync the file, give it its name, sync the folder. A new file gets
//! its name by a hard link, which fails when the name is taken; a rename would silently replace it.
//! Must never retry a failed sync: a later success proves nothing about the bytes.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use crate::failure::at_file;
use crate::language::Words;

/// We could not do it: which file, what, why.
#[derive(Debug)]
pub struct FileError {
    /// The file or folder.
    pub path: PathBuf,
    /// Key of the text that says what was tried.
    pub what: &'static str,
    /// What the system said.
    pub cause: io::Error,
}

impl FileError {
    /// Ties a system error to a file.
    pub fn new(what: &'static str, path: &Path, cause: io::Error) -> Self {
        FileError { path: path.to_owned(), what, cause }
    }

    /// What happened, for people.
    pub fn words(&self) -> Words {
        at_file(self.what, &self.path, &self.cause)
    }
}

impl std::fmt::Display for FileError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for FileError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.cause)
    }
}

/// Makes a file that must not exist yet.
///
/// # Errors
/// [`FileError`]; when the name is taken its cause is [`io::ErrorKind::AlreadyExists`] and the file
/// is left as it was.
pub fn create(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    Prepared::write(path, bytes)?.place()
}

/// A file whose bytes are safe on disk and that has no name yet; gone when dropped.
///
/// What is written together is prepared together: a full disk shows before the first has its name.
pub struct Prepared {
    aside: Aside,
    path: PathBuf,
}

impl Prepared {
    /// Writes the bytes beside their place.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn write(path: &Path, bytes: &[u8]) -> Result<Self, FileError> {
        Ok(Prepared { aside: Aside::write(path, bytes)?, path: path.to_owned() })
    }

    /// The name it will have.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Gives the file its name.
    ///
    /// # Errors
    /// As for [`create`].
    pub fn place(self) -> Result<(), FileError> {
        let Prepared { aside, path } = self;
        fs::hard_link(&aside.path, &path)
            .map_err(|e| FileError::new("failure-cannot-create", &path, e))?;
        drop(aside);
        sync_folder(folder_of(&path))
    }
}

/// Makes a file or puts it in the place of the one with its name.
///
/// # Errors
/// [`FileError`].
pub fn replace(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    let aside = Aside::write(path, bytes)?;
    fs::rename(&aside.path, path).map_err(|e| FileError::new("failure-cannot-replace", path, e))?;
    sync_folder(folder_of(path))
}

/// Makes names given or taken in a folder last.
///
/// # Errors
/// [`FileError`].
pub fn sync_folder(folder: &Path) -> Result<(), FileError> {
    let synced = File::open(folder).and_then(|folder| folder.sync_all());
    synced.map_err(|e| FileError::new("failure-cannot-sync", folder, e))
}

/// The folder a file lies in.
pub(crate) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if folder != Path::new("") => folder,
        _ => Path::new("."),
    }
}

/// A file under a name of its own, gone when dropped unless it was renamed.
struct Aside {
    path: PathBuf,
}

impl Aside {
    fn write(target: &Path, bytes: &[u8]) -> Result<Self, FileError> {
        let fail = |e| FileError::new("failure-cannot-write", target, e);
        let (aside, mut file) = Aside::open(target).map_err(fail)?;
        file.write_all(bytes).and_then(|()| file.sync_all()).map_err(fail)?;
        Ok(aside)
    }

    /// Names left over by a killed process are stepped over, never reused.
    fn open(target: &Path) -> io::Result<(Self, File)> {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let name = target.file_name().ok_or(io::ErrorKind::InvalidInput)?.to_string_lossy();
        loop {
            let number = NEXT.fetch_add(1, Ordering::Relaxed);
            let aside = format!(".{name}.{}-{number}.new", std::process::id());
            let path = folder_of(target).join(aside);
            match OpenOptions::new().write(true).create_new(true).open(&path) {
                Ok(file) => return Ok((Aside { path }, file)),
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(e),
            }
        }
    }
}

impl Drop for Aside {
    fn drop(&mut self) {
        // After a rename there is nothing left to remove; otherwise a leftover is only untidy.
        let _ = fs::remove_file(&self.path);
    }
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "tests look at what is on disk")]
mod tests {
    use std::fs;
    use std::io::ErrorKind;

    use super::{create, replace};

    #[test]
    fn a_taken_name_is_left_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("000001.json");
        create(&path, b"first").unwrap();
        let error = create(&path, b"second").unwrap_err();
        assert_eq!(error.cause.kind(), ErrorKind::AlreadyExists);
        assert!(error.to_string().contains("000001.json"), "{error}");
        assert_eq!(fs::read(&path).unwrap(), b"first");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left aside");
    }

    #[test]
    fn replacing_leaves_one_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("head");
        replace(&path, b"first").unwrap();
        replace(&path, b"second").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"second");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_missing_folder_is_named() {
        let folder = tempfile::tempdir().unwrap();
        let error = create(&folder.path().join("none/a"), b"").unwrap_err();
        assert!(error.to_string().contains("none/a"), "{error}");
    }

    #[test]
    fn two_writers_of_one_name_give_one_winner() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("000001.json");
        let won = std::thread::scope(|scope| {
            let path = &path;
            let writers: Vec<_> =
                (0u8..8).map(|n| scope.spawn(move || create(path, &[n; 4096]).is_ok())).collect();
            writers.into_iter().map(|w| w.join().unwrap()).filter(|w| *w).count()
        });
        assert_eq!(won, 1);
        let bytes = fs::read(&path).unwrap();
        assert!(bytes.len() == 4096 && bytes.iter().all(|b| *b == bytes[0]), "no mixture");
    }
}
