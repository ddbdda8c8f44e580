//! The folder a record lies in: the only part of records that touches files.
//!
//! Reading gives raw bytes, bounded in size, whatever lies there; judging them is the audit's part.
//! Writing only ever adds: first the signature, then the entry, each durable before the next, under a
//! lock. Must never open a link, and never overwrite or remove a file of the record.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use super::compose::{Signed, chained};
use super::entry::{self, NO_PREVIOUS};
use super::signature;
use crate::durable::{self, FileError};

/// Most bytes of a packet that are read.
const MOST_PACKET: usize = 16 << 20;
/// Most files of a folder that are looked at.
const MOST_FILES: usize = 250_000;
/// Name of the frozen packet.
const PACKET: &str = "packet.json";
/// Name of the file that writers lock.
const LOCK: &str = ".lock";

/// The bytes of a record as they lie in its folder.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct RawRecord {
    /// The frozen packet.
    pub packet: Option<Vec<u8>>,
    /// The entries, by name.
    pub entries: Vec<RawEntry>,
    /// What lies there and does not belong: name, and why in brackets.
    pub strays: Vec<String>,
}

/// The bytes of one entry. A file that is too long is cut one byte past its limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RawEntry {
    /// Name without ending: `000001`.
    pub name: String,
    /// The entry.
    pub json: Vec<u8>,
    /// Its signature file.
    pub signature: Option<Vec<u8>>,
}

impl RawRecord {
    /// `seq` and `prev` of the next entry.
    pub fn next(&self) -> (u64, String) {
        let last = self.entries.last();
        let seq = last.and_then(|entry| entry.name.parse::<u64>().ok()).unwrap_or(0);
        let prev = last.map_or_else(
            || NO_PREVIOUS.to_owned(),
            |entry| chained(&entry.json, entry.signature.as_deref().unwrap_or_default()),
        );
        (seq.saturating_add(1), prev)
    }
}

/// Reads a record folder.
///
/// # Errors
/// [`FileError`] when the folder or a file in it cannot be read, or it holds too many files.
pub fn read(folder: &Path) -> Result<RawRecord, FileError> {
    let mut record = RawRecord::default();
    let mut signatures = std::collections::BTreeMap::new();
    for name in names(folder)? {
        let path = folder.join(&name);
        if let Some(why) = not_a_file(&path)? {
            record.strays.push(format!("{name} ({why})"));
            continue;
        }
        match Role::of(&name) {
            Role::Packet => record.packet = Some(bounded(&path, MOST_PACKET)?),
            Role::Entry(number) => {
                let json = bounded(&path, entry::MOST_BYTES)?;
                record.entries.push(RawEntry { name: number.to_owned(), json, signature: None });
            }
            Role::Signature(number) => {
                signatures.insert(number.to_owned(), bounded(&path, signature::MOST_BYTES)?);
            }
            Role::Lock => {}
            Role::Stray(why) => record.strays.push(format!("{name} ({why})")),
        }
    }
    for entry in &mut record.entries {
        entry.signature = signatures.remove(&entry.name);
    }
    let orphans = signatures.into_keys().map(|n| format!("{n}.json.sig ({WITHOUT_ENTRY})"));
    record.strays.extend(orphans);
    record.strays.sort();
    Ok(record)
}

/// Marks a signature whose entry is not there.
pub(crate) const WITHOUT_ENTRY: &str = "a signature without its entry";
/// Marks a file that a writer put aside.
pub(crate) const SET_ASIDE: &str = "set aside after an interrupted write";

/// Makes a record folder with the frozen packet in it.
///
/// # Errors
/// [`FileError`]; when there is a packet already, its cause is [`io::ErrorKind::AlreadyExists`].
pub fn create(folder: &Path, packet: &[u8]) -> Result<(), FileError> {
    fs::create_dir_all(folder).map_err(|e| FileError::new("cannot create", folder, e))?;
    if let Some(parent) = folder.parent().filter(|parent| *parent != Path::new("")) {
        durable::sync_folder(parent)?;
    }
    durable::create(&folder.join(PACKET), packet)
}

/// A record folder that no other writer can add to while this lives.
#[derive(Debug)]
pub struct Locked {
    folder: PathBuf,
    record: RawRecord,
    _lock: File,
}

impl Locked {
    /// Waits for the lock, then reads the record. Take the time after this, not before.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn open(folder: &Path) -> Result<Self, FileError> {
        let path = folder.join(LOCK);
        let fail = |e| FileError::new("cannot lock", &path, e);
        let lock = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(fail)?;
        lock.lock().map_err(fail)?;
        let record = read(folder)?;
        Ok(Locked { folder: folder.to_owned(), record, _lock: lock })
    }

    /// The record as it stands.
    pub fn record(&self) -> &RawRecord {
        &self.record
    }

    /// Adds one signed entry: its signature first, so that no entry is ever without one.
    ///
    /// A signature left by a writer that was stopped between the two is put aside, not removed.
    ///
    /// # Errors
    /// [`FileError`]; its cause is [`io::ErrorKind::InvalidInput`] when the entry is not the next.
    pub fn append(&mut self, signed: Signed) -> Result<(), FileError> {
        let (seq, prev) = self.record.next();
        let name = format!("{seq:06}");
        let json = self.folder.join(format!("{name}.json"));
        let signature = self.folder.join(format!("{name}.json.sig"));
        if signed.entry.seq != seq || signed.entry.prev != prev || name.len() != 6 {
            let cause = io::Error::new(io::ErrorKind::InvalidInput, "it is not the next entry");
            return Err(FileError::new("cannot add", &json, cause));
        }
        set_aside(&signature)?;
        durable::create(&signature, &signed.signature)?;
        durable::create(&json, &signed.json)?;
        let Signed { json, signature, .. } = signed;
        self.record.entries.push(RawEntry { name, json, signature: Some(signature) });
        Ok(())
    }
}

/// Gives a signature without entry another name; does nothing when there is none.
fn set_aside(signature: &Path) -> Result<(), FileError> {
    if fs::symlink_metadata(signature).is_err() {
        return Ok(());
    }
    let fail = |e| FileError::new("cannot set aside", signature, e);
    let mut number = 1_u32;
    loop {
        let aside = signature.with_extension(format!("sig.aside-{number}"));
        match fs::hard_link(signature, &aside) {
            Ok(()) => return fs::remove_file(signature).map_err(fail),
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists => number += 1,
            Err(e) => return Err(fail(e)),
        }
    }
}

/// What a name says the file is.
enum Role<'n> {
    Packet,
    Entry(&'n str),
    Signature(&'n str),
    Lock,
    Stray(&'static str),
}

impl<'n> Role<'n> {
    fn of(name: &'n str) -> Self {
        let is_number = |n: &str| n.len() == 6 && n.bytes().all(|b| b.is_ascii_digit());
        if name == PACKET {
            return Role::Packet;
        }
        if name == LOCK {
            return Role::Lock;
        }
        if let Some(number) = name.strip_suffix(".json").filter(|n| is_number(n)) {
            return Role::Entry(number);
        }
        if let Some(number) = name.strip_suffix(".json.sig").filter(|n| is_number(n)) {
            return Role::Signature(number);
        }
        let aside = name.split_once(".json.sig.aside-").is_some_and(|(n, _)| is_number(n));
        Role::Stray(if aside { SET_ASIDE } else { "a file that does not belong here" })
    }
}

/// Names in a folder, sorted.
fn names(folder: &Path) -> Result<Vec<String>, FileError> {
    let fail = |e| FileError::new("cannot read", folder, e);
    let mut names = Vec::new();
    for item in fs::read_dir(folder).map_err(fail)? {
        names.push(item.map_err(fail)?.file_name().to_string_lossy().into_owned());
        if names.len() > MOST_FILES {
            return Err(fail(io::Error::other(format!("more than {MOST_FILES} files"))));
        }
    }
    names.sort();
    Ok(names)
}

/// Why a path is no plain file; links are not followed.
fn not_a_file(path: &Path) -> Result<Option<&'static str>, FileError> {
    let kind = match fs::symlink_metadata(path) {
        Ok(metadata) => metadata.file_type(),
        // A writer's temporary file may go while we look, and a name may not be UTF-8.
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(Some("gone, or oddly named")),
        Err(e) => return Err(FileError::new("cannot read", path, e)),
    };
    Ok(match (kind.is_file(), kind.is_symlink(), kind.is_dir()) {
        (true, ..) => None,
        (_, true, _) => Some("a link"),
        (_, _, true) => Some("a folder"),
        _ => Some("not a plain file"),
    })
}

/// The bytes of a file, at most one more than the limit, so that too long a file shows.
fn bounded(path: &Path, limit: usize) -> Result<Vec<u8>, FileError> {
    let fail = |e| FileError::new("cannot read", path, e);
    let mut bytes = Vec::new();
    let most = u64::try_from(limit).unwrap_or(u64::MAX).saturating_add(1);
    File::open(path).and_then(|f| f.take(most).read_to_end(&mut bytes)).map_err(fail)?;
    Ok(bytes)
}
