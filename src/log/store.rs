//! The folder of a log: the only part of logs that touches files.
//!
//! `logs/<machine>/` in the plant has `leaves`, `hashes` and `checkpoint`. Both lists only grow, and
//! work at their ends: nothing here reads a whole list but to mend what a stopped writer left. What
//! is torn is set aside and told. Must never open a link, and never take a leaf back.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::time::Duration;

use chrono::{DateTime, FixedOffset};

use super::checkpoint::{Checkpoint, CheckpointFault};
use super::line::{Line, MOST_LINE};
use super::note::{self, Note};
use super::tile::MOST_ENTRY;
use super::tree::{self, Hash, MOST_LEAVES, grow, kept_hashes, leaves_of, place};
use crate::durable::{self, FileError};
use crate::language::Words;
use crate::record::compose::Signed;
use crate::record::signature::{self, SigningKey};
use crate::record::store::{Lock, PATIENCE, wait_for};
use crate::record::{entry, time};

/// Name of the list of leaves.
pub const LEAVES: &str = "leaves";
/// Name of the list of hashes.
pub const HASHES: &str = "hashes";
/// Name of the newest checkpoint.
pub const CHECKPOINT: &str = "checkpoint";
/// Name of what a writer is about to add.
const INTENT: &str = "intent";
/// Name of the file that writers lock.
const LOCK: &str = ".lock";
/// Bytes of a hash.
const HASH: u64 = 32;
/// Most bytes of an intent.
const MOST_INTENT: u64 = 4 << 20;
/// Bytes at the end of the list of leaves among which the last one is looked for.
const TAIL: u64 = 4 << 10;
/// How long a reader waits for a writer. Readers come in crowds, and a writer may be slow to sync.
const READERS_PATIENCE: Duration = Duration::from_secs(10);
/// How many leaves are written at once.
const AT_ONCE: usize = 8192;

/// The folder of a machine's log, whether it is there or not.
///
/// # Errors
/// When it, or the folder around it, is a link or a file.
pub fn folder(plant: &Path, machine: &str) -> Result<PathBuf, FileError> {
    let all = plant.join("logs");
    let own = all.join(machine);
    for path in [&all, &own] {
        if fs::symlink_metadata(path).is_ok_and(|found| !found.is_dir()) {
            let cause = io::Error::other(Words::of("log-not-a-folder"));
            return Err(FileError::new("failure-cannot-read", path, cause));
        }
    }
    Ok(own)
}

/// A log as it lies in its folder, for reading.
#[derive(Debug)]
pub struct Log {
    folder: PathBuf,
    hashes: Option<File>,
    leaves: u64,
    _lock: Option<Held>,
}

/// The lock of a reader or of a writer, kept until it is dropped.
#[derive(Debug)]
enum Held {
    Reading { _file: File },
    Writing { _lock: Lock },
}

impl Log {
    /// Opens the log of a machine, once nobody writes to it; none when there is no log.
    ///
    /// # Errors
    /// [`FileError`]; its cause is [`io::ErrorKind::WouldBlock`] when somebody writes for more than ten
    /// seconds.
    pub fn open(plant: &Path, machine: &str) -> Result<Option<Log>, FileError> {
        let folder = folder(plant, machine)?;
        if !folder.is_dir() {
            return Ok(None);
        }
        let path = folder.join(LOCK);
        let lock = plain(&path)?;
        if let Some(lock) = &lock {
            wait_for(&path, READERS_PATIENCE, || lock.try_lock_shared())?;
        }
        Log::of(folder, lock.map(|_file| Held::Reading { _file })).map(Some)
    }

    fn of(folder: PathBuf, lock: Option<Held>) -> Result<Log, FileError> {
        let path = folder.join(HASHES);
        let fail = |e| FileError::new("failure-cannot-read", &path, e);
        let hashes = plain(&path)?;
        let length = match &hashes {
            Some(file) => file.metadata().map_err(fail)?.len(),
            None => 0,
        };
        let leaves = leaves_of(length / HASH);
        if leaves > MOST_LEAVES {
            let words =
                Words::new("failure-bytes", &[("most", (MOST_LEAVES * HASH).to_string().into())]);
            return Err(fail(io::Error::other(words)));
        }
        Ok(Log { folder, hashes, leaves, _lock: lock })
    }

    /// How many leaves it has.
    pub fn leaves(&self) -> u64 {
        self.leaves
    }

    /// The hash with a number ([`tree::place`]).
    ///
    /// # Errors
    /// [`FileError`].
    pub fn hash(&self, place: u64) -> Result<Hash, FileError> {
        let mut hash = [0; 32];
        let read = match &self.hashes {
            Some(file) => file.read_exact_at(&mut hash, place * HASH),
            None => Err(io::ErrorKind::NotFound.into()),
        };
        let path = || self.folder.join(HASHES);
        read.map(|()| hash).map_err(|e| FileError::new("failure-cannot-read", &path(), e))
    }

    /// The root over the first leaves.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn root(&self, leaves: u64) -> Result<Hash, FileError> {
        tree::root(leaves, |place| self.hash(place))
    }

    /// The leaves, one by one.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn lines(&self) -> Result<Lines, FileError> {
        let path = self.folder.join(LEAVES);
        let file = plain(&path)?.map(BufReader::new);
        Ok(Lines { path, file })
    }

    /// Bytes of the newest checkpoint, at most one more than a note may have.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn checkpoint(&self) -> Result<Option<Vec<u8>>, FileError> {
        let most = u64::try_from(note::MOST_BYTES).unwrap_or(u64::MAX);
        bounded(&self.folder.join(CHECKPOINT), most)
    }

    /// Names of what was set aside, and of what does not belong here, sorted.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn strays(&self) -> Result<Vec<String>, FileError> {
        let fail = |e| FileError::new("failure-cannot-read", &self.folder, e);
        let mut names = Vec::new();
        for item in fs::read_dir(&self.folder).map_err(fail)? {
            let name = item.map_err(fail)?.file_name().to_string_lossy().into_owned();
            if ![LEAVES, HASHES, CHECKPOINT, INTENT, LOCK].contains(&name.as_str()) {
                names.push(name);
            }
        }
        names.sort();
        Ok(names)
    }

    /// What a writer that was stopped was about to add; none when nobody was stopped.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn pending(&self) -> Result<Option<Vec<Line>>, FileError> {
        let bytes = bounded(&self.folder.join(INTENT), MOST_INTENT)?;
        let lines = |bytes: Vec<u8>| intent(&bytes).unwrap_or_default().into_iter();
        Ok(bytes.map(|bytes| lines(bytes).map(|(_, line)| line).collect()))
    }
}

/// The lines of the list of leaves. Ends with one that is no leaf.
#[derive(Debug)]
pub struct Lines {
    path: PathBuf,
    file: Option<BufReader<File>>,
}

impl Iterator for Lines {
    /// None for a line that is no leaf.
    type Item = Result<Option<Line>, FileError>;

    fn next(&mut self) -> Option<Self::Item> {
        let mut line = Vec::new();
        match self.file.as_mut()?.take(MOST_LINE).read_until(b'\n', &mut line) {
            Err(e) => Some(Err(FileError::new("failure-cannot-read", &self.path, e))),
            Ok(0) => None,
            Ok(_) => {
                let line = Line::parse(&line);
                if line.is_none() {
                    self.file = None;
                }
                Some(Ok(line))
            }
        }
    }
}

/// The lines of a list of leaves that was kept elsewhere, from its beginning.
pub fn lines_of(list: &File) -> Lines {
    let file = list.try_clone().and_then(|mut file| file.rewind().map(|()| file)).ok();
    Lines { path: PathBuf::from(LEAVES), file: file.map(BufReader::new) }
}

/// The bytes of an entry and of its signature as they lie in its record; none when one of them is not
/// there.
///
/// # Errors
/// [`FileError`].
pub fn entry_on_record(
    plant: &Path,
    record: &str,
    entry: u64,
) -> Result<Option<[Vec<u8>; 2]>, FileError> {
    let records = plant.join("records");
    let folder = records.join(record);
    let is_folder = |path: &Path| fs::symlink_metadata(path).is_ok_and(|found| found.is_dir());
    if !is_folder(&records) || !is_folder(&folder) {
        return Ok(None);
    }
    let read = |name: String, most: usize| {
        bounded(&folder.join(name), u64::try_from(most).unwrap_or(u64::MAX))
    };
    let json = read(format!("{entry:06}.json"), entry::MOST_BYTES)?;
    let signature = read(format!("{entry:06}.json.sig"), signature::MOST_BYTES)?;
    Ok(json.zip(signature).map(|(json, signature)| [json, signature]))
}

/// A log that nobody else can add to while this lives.
#[derive(Debug)]
pub struct Writer {
    plant: PathBuf,
    log: Log,
    intended: Vec<Line>,
    said: Vec<Words>,
}

impl Writer {
    /// Makes the log of a machine where there is none, waits for its lock, and mends what a stopped
    /// writer left: what is torn is set aside, what is on record already is added.
    ///
    /// Whoever holds the lock of a record takes this one after it, never before.
    ///
    /// # Errors
    /// [`FileError`]; its cause is our own when the two lists do not belong together.
    pub fn open(plant: &Path, machine: &str) -> Result<Writer, FileError> {
        let folder = folder(plant, machine)?;
        if !folder.is_dir() {
            let fail = |e| FileError::new("failure-cannot-create", &folder, e);
            fs::create_dir_all(&folder).map_err(fail)?;
            durable::sync_folder(&plant.join("logs"))?;
            durable::sync_folder(plant)?;
        }
        let lock = Lock::take(&folder.join(LOCK), "", PATIENCE)?;
        let mut said = Vec::new();
        mend(&folder, &mut said)?;
        let log = Log::of(folder, Some(Held::Writing { _lock: lock }))?;
        let mut writer = Writer { plant: plant.to_owned(), log, intended: Vec::new(), said };
        let left = writer.without_hashes()?;
        writer.add_hashes(&left)?;
        writer.complete()?;
        Ok(writer)
    }

    /// The log as it stands.
    pub fn log(&self) -> &Log {
        &self.log
    }

    /// What people should know of what was mended or adopted.
    pub fn said(&self) -> &[Words] {
        &self.said
    }

    /// Says that these entries of a record are about to be written: first this, then the entries,
    /// then [`Writer::commit`]. Whoever opens the log after a crash in between completes it.
    ///
    /// # Errors
    /// [`FileError`]; nothing has changed then.
    pub fn intend(&mut self, record: &str, signed: &[Signed]) -> Result<(), FileError> {
        let path = self.log.folder.join(INTENT);
        let mut lines = Vec::new();
        for Signed { entry, json, signature } in signed {
            let line = Line {
                hash: tree::leaf(&[json, signature]),
                entry: entry.seq,
                record: record.to_owned(),
            };
            if json.len() + signature.len() > MOST_ENTRY
                || Line::parse(line.print().as_bytes()).is_none()
            {
                let cause = io::Error::new(io::ErrorKind::InvalidInput, Words::of("log-no-leaf"));
                return Err(FileError::new("failure-cannot-add", &path, cause));
            }
            lines.push(line);
        }
        let text: String = lines.iter().map(Line::print).collect();
        durable::replace(&path, format!("{}\n{text}", self.log.leaves).as_bytes())?;
        self.intended = lines;
        Ok(())
    }

    /// Adds the leaves of the entries that were intended, now that they are on record.
    ///
    /// # Errors
    /// [`FileError`]; whoever opens the log next adds what is missing.
    pub fn commit(&mut self) -> Result<(), FileError> {
        let lines = std::mem::take(&mut self.intended);
        self.add(&lines)?;
        self.forget_intent()
    }

    /// Adds entries that are on record and have no leaf yet; says so.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn adopt(&mut self, lines: &[Line]) -> Result<(), FileError> {
        self.add(lines)?;
        if !lines.is_empty() {
            self.said.push(Words::new("log-adopted", &[("count", lines.len().into())]));
        }
        Ok(())
    }

    /// Signs a checkpoint of all leaves, and keeps it as the newest. None, and said why, when the
    /// log did not grow from the checkpoint before: nobody should sign two histories.
    ///
    /// # Errors
    /// [`FileError`].
    pub fn sign(&mut self, pen: &Pen) -> Result<Option<Note>, FileError> {
        let path = self.log.folder.join(CHECKPOINT);
        if let Some(bytes) = self.log.checkpoint()? {
            match Checkpoint::parse(&bytes) {
                Ok((old, _)) if self.grew_from(&old)? => {}
                Ok((old, _)) => {
                    let parts = [("count", old.leaves.to_string().into())];
                    self.said.push(Words::new("log-did-not-grow", &parts));
                    return Ok(None);
                }
                Err(fault) => self.set_checkpoint_aside(&path, &fault)?,
            }
        }
        let checkpoint = Checkpoint {
            origin: pen.origin.to_owned(),
            leaves: self.log.leaves,
            root: self.log.root(self.log.leaves)?,
            at: Some(time::write(pen.at)),
            signers: Some(pen.signers.to_owned()),
        };
        let note = checkpoint.sign(pen.by, pen.key).map_err(|fault| {
            FileError::new("failure-cannot-write", &path, io::Error::other(fault.words()))
        })?;
        durable::replace(&path, note.print().as_bytes())?;
        Ok(Some(note))
    }

    fn grew_from(&self, old: &Checkpoint) -> Result<bool, FileError> {
        Ok(old.leaves <= self.log.leaves && self.log.root(old.leaves)? == old.root)
    }

    fn set_checkpoint_aside(
        &mut self,
        path: &Path,
        fault: &CheckpointFault,
    ) -> Result<(), FileError> {
        let fail = |e| FileError::new("failure-cannot-set-aside", path, e);
        let (_, aside) = aside(path)?;
        fs::rename(path, &aside).map_err(fail)?;
        let parts = [("file", name_of(&aside).into()), ("fault", fault.words().into())];
        self.said.push(Words::new("log-checkpoint-aside", &parts));
        Ok(())
    }

    fn add(&mut self, lines: &[Line]) -> Result<(), FileError> {
        for lines in lines.chunks(AT_ONCE) {
            let text: String = lines.iter().map(Line::print).collect();
            append(&self.log.folder.join(LEAVES), text.as_bytes())?;
            self.add_hashes(lines)?;
        }
        Ok(())
    }

    /// Adds what the tree keeps for leaves that stand in the list already.
    fn add_hashes(&mut self, lines: &[Line]) -> Result<(), FileError> {
        for lines in lines.chunks(AT_ONCE) {
            let first = kept_hashes(self.log.leaves);
            let (mut leaves, mut fresh) = (self.log.leaves, Vec::<Hash>::new());
            for line in lines {
                let grown = grow(leaves, line.hash, |place| {
                    let own = place.checked_sub(first).and_then(|at| usize::try_from(at).ok());
                    match own.and_then(|at| fresh.get(at)) {
                        Some(hash) => Ok(*hash),
                        None => self.log.hash(place),
                    }
                })?;
                fresh.extend(grown);
                leaves += 1;
            }
            let path = self.log.folder.join(HASHES);
            append(&path, &fresh.concat())?;
            if self.log.hashes.is_none() {
                self.log.hashes = plain(&path)?;
            }
            self.log.leaves = leaves;
        }
        Ok(())
    }

    /// Leaves of the list that have no hashes yet: a writer was stopped between the two.
    fn without_hashes(&self) -> Result<Vec<Line>, FileError> {
        let last = match self.log.leaves.checked_sub(1) {
            Some(last) => Some(self.log.hash(place(0, last))?),
            None => None,
        };
        if let Some(lines) = self.tail()? {
            let known = lines.iter().rposition(|line| Some(line.hash) == last);
            if let Some(known) = known {
                return Ok(lines.into_iter().skip(known + 1).collect());
            }
        }
        let broken = || {
            let cause = io::Error::other(Words::of("log-broken"));
            FileError::new("failure-cannot-add", &self.log.folder.join(LEAVES), cause)
        };
        let (mut number, mut left) = (0, Vec::new());
        for line in self.log.lines()? {
            let line = line?.ok_or_else(broken)?;
            number += 1;
            if number == self.log.leaves && Some(line.hash) != last {
                return Err(broken());
            }
            if number > self.log.leaves {
                left.push(line);
            }
        }
        if number < self.log.leaves { Err(broken()) } else { Ok(left) }
    }

    /// The last lines of the list; none when one of them is no leaf, or there is no list.
    fn tail(&self) -> Result<Option<Vec<Line>>, FileError> {
        let path = self.log.folder.join(LEAVES);
        let fail = |e| FileError::new("failure-cannot-read", &path, e);
        let Some(file) = plain(&path)? else { return Ok(None) };
        let from = file.metadata().map_err(fail)?.len().saturating_sub(TAIL);
        let mut bytes = Vec::new();
        let mut rest = &file;
        rest.seek(SeekFrom::Start(from)).map_err(fail)?;
        rest.take(TAIL).read_to_end(&mut bytes).map_err(fail)?;
        let lines = bytes.split_inclusive(|byte| *byte == b'\n');
        Ok(lines.skip(usize::from(from > 0)).map(Line::parse).collect())
    }

    /// Adds what an intent names and is on record.
    fn complete(&mut self) -> Result<(), FileError> {
        let path = self.log.folder.join(INTENT);
        let Some(bytes) = bounded(&path, MOST_INTENT)? else { return Ok(()) };
        let mut left = Vec::new();
        for (index, line) in intent(&bytes).unwrap_or_default() {
            if index < self.log.leaves {
                continue;
            }
            let found = entry_on_record(&self.plant, &line.record, line.entry)?;
            if found.map(|[json, signature]| tree::leaf(&[&json, &signature])) != Some(line.hash) {
                break;
            }
            left.push(line);
        }
        self.add(&left)?;
        if !left.is_empty() {
            self.said.push(Words::new("log-completed", &[("count", left.len().into())]));
        }
        self.forget_intent()
    }

    fn forget_intent(&self) -> Result<(), FileError> {
        let path = self.log.folder.join(INTENT);
        match fs::remove_file(&path) {
            Err(e) if e.kind() != io::ErrorKind::NotFound => {
                Err(FileError::new("failure-cannot-write", &path, e))
            }
            _ => Ok(()),
        }
    }
}

/// Who signs a checkpoint, and when.
#[derive(Debug, Clone, Copy)]
pub struct Pen<'a> {
    /// `<domain>/<machine>`.
    pub origin: &'a str,
    /// The person.
    pub by: &'a str,
    /// The person's key.
    pub key: &'a SigningKey,
    /// The time.
    pub at: DateTime<FixedOffset>,
    /// SHA-256 of the list of signers, in hex.
    pub signers: &'a str,
}

/// The leaves that an intent names, with the numbers they get. None for bytes that are no intent:
/// it is written in one go, so nothing stood in it that went on record.
fn intent(bytes: &[u8]) -> Option<Vec<(u64, Line)>> {
    let at = bytes.iter().position(|byte| *byte == b'\n')? + 1;
    let (first, rest) = bytes.split_at(at);
    let first: u64 = std::str::from_utf8(first).ok()?.trim_end().parse().ok()?;
    let lines = rest.split_inclusive(|byte| *byte == b'\n').map(Line::parse);
    Some((first..).zip(lines.collect::<Option<Vec<_>>>()?).collect())
}

/// Sets aside what a stopped writer left at the ends of the two lists.
fn mend(folder: &Path, said: &mut Vec<Words>) -> Result<(), FileError> {
    let path = folder.join(HASHES);
    if let Some(file) = plain(&path)? {
        let fail = |e| FileError::new("failure-cannot-read", &path, e);
        let length = file.metadata().map_err(fail)?.len();
        let whole = kept_hashes(leaves_of(length / HASH)) * HASH;
        set_end_aside(&path, whole, length, said)?;
    }
    let path = folder.join(LEAVES);
    if let Some(mut file) = plain(&path)? {
        let fail = |e| FileError::new("failure-cannot-read", &path, e);
        let length = file.metadata().map_err(fail)?.len();
        let from = length.saturating_sub(MOST_LINE);
        let mut end = Vec::new();
        file.seek(SeekFrom::Start(from)).map_err(fail)?;
        file.take(MOST_LINE).read_to_end(&mut end).map_err(fail)?;
        let torn = end.iter().rev().take_while(|byte| **byte != b'\n').count();
        let whole = length.saturating_sub(u64::try_from(torn).unwrap_or(0));
        set_end_aside(&path, whole, length, said)?;
    }
    Ok(())
}

/// Moves what stands behind a place of a list into a file of its own, and says so.
fn set_end_aside(
    path: &Path,
    whole: u64,
    length: u64,
    said: &mut Vec<Words>,
) -> Result<(), FileError> {
    if whole == length {
        return Ok(());
    }
    let fail = |e| FileError::new("failure-cannot-set-aside", path, e);
    let mut list = OpenOptions::new().read(true).write(true).open(path).map_err(fail)?;
    let (mut file, aside) = aside(path)?;
    list.seek(SeekFrom::Start(whole)).map_err(fail)?;
    io::copy(&mut list, &mut file).and_then(|_| file.sync_all()).map_err(fail)?;
    durable::sync_folder(path.parent().unwrap_or(path))?;
    list.set_len(whole).and_then(|()| list.sync_all()).map_err(fail)?;
    let parts = [
        ("bytes", (length - whole).to_string().into()),
        ("list", name_of(path).into()),
        ("file", name_of(&aside).into()),
    ];
    said.push(Words::new("log-set-aside", &parts));
    Ok(())
}

/// A new file beside a list: `hashes.aside-1`.
fn aside(path: &Path) -> Result<(File, PathBuf), FileError> {
    let mut number = 1_u32;
    loop {
        let aside = path.with_file_name(format!("{}.aside-{number}", name_of(path)));
        match OpenOptions::new().write(true).create_new(true).open(&aside) {
            Ok(file) => return Ok((file, aside)),
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists => number += 1,
            Err(e) => return Err(FileError::new("failure-cannot-set-aside", path, e)),
        }
    }
}

fn name_of(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// Adds bytes to the end of a list and makes them last. What could not be written whole is taken
/// back, as far as the system lets us: nobody was told of it.
fn append(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    let fail = |e| FileError::new("failure-cannot-write", path, e);
    let is_new = fs::symlink_metadata(path).is_err();
    let mut file = to_write(path)?;
    let end = file.seek(SeekFrom::End(0)).map_err(fail)?;
    if let Err(e) = file.write_all(bytes).and_then(|()| file.sync_data()) {
        let _ = file.set_len(end);
        return Err(fail(e));
    }
    if is_new { durable::sync_folder(path.parent().unwrap_or(path)) } else { Ok(()) }
}

/// A plain file, for reading; none when there is none.
fn plain(path: &Path) -> Result<Option<File>, FileError> {
    let fail = |e| FileError::new("failure-cannot-read", path, e);
    match fs::symlink_metadata(path) {
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(e) => Err(fail(e)),
        Ok(found) if !found.is_file() => {
            Err(fail(io::Error::other(Words::of("failure-not-plain"))))
        }
        Ok(_) => File::open(path).map(Some).map_err(fail),
    }
}

/// A plain file, for writing, made when there is none.
fn to_write(path: &Path) -> Result<File, FileError> {
    let fail = |e| FileError::new("failure-cannot-write", path, e);
    if fs::symlink_metadata(path).is_ok_and(|found| !found.is_file()) {
        return Err(fail(io::Error::other(Words::of("failure-not-plain"))));
    }
    OpenOptions::new().create(true).truncate(false).write(true).open(path).map_err(fail)
}

/// The bytes of a plain file, at most one more than the limit; none when there is none.
fn bounded(path: &Path, most: u64) -> Result<Option<Vec<u8>>, FileError> {
    let Some(file) = plain(path)? else { return Ok(None) };
    let mut bytes = Vec::new();
    let read = file.take(most.saturating_add(1)).read_to_end(&mut bytes);
    read.map(|_| Some(bytes)).map_err(|e| FileError::new("failure-cannot-read", path, e))
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "tests lay files into folders")]
mod tests;
