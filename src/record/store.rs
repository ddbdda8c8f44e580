//! The folder a record lies in: the only part of records that touches files.
//!
//! Reading gives raw bytes, bounded in size, whatever lies there; judging them is the audit's part.
//! Writing only ever adds: first the signature, then the entry, each durable before the next, under
//! a lock. Must never open a link, and never overwrite or remove a file of the record.
//!
//! A lock ends with its process, however that ends. Over a network share it may not hold; then the
//! names decide, because no entry ever takes the place of another.

use std::collections::BTreeMap;
use std::fs::{self, File, FileType, OpenOptions, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

use rustix::fs::{Mode, OFlags};

use super::compose::{Signed, chained};
use super::entry::{self, NO_PREVIOUS, shown};
use super::signature;
use crate::durable::{self, FileError, Prepared};
use crate::language::Words;

/// Most bytes of a packet that are read.
const MOST_PACKET: usize = 16 << 20;
/// Most bytes of a record that are kept in memory.
const MOST_RECORD: usize = 1 << 28;
/// Most files of a folder that are looked at.
const MOST_FILES: usize = 250_000;
/// Greatest number that a name of six digits can have.
const MOST_NUMBER: u64 = 999_999;
/// Name of the frozen packet.
const PACKET: &str = "packet.json";
/// Name of the file that writers lock; who holds it writes who he is into it.
const LOCK: &str = ".lock";
/// Most letters of that.
const MOST_HOLDER: usize = 300;
/// How long a writer waits for another one, and how often it looks.
pub(crate) const PATIENCE: Duration = Duration::from_secs(5);
const PAUSE: Duration = Duration::from_millis(10);

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
    /// Whether there is anything but what an interrupted first sign-off leaves behind.
    pub fn is_begun(&self) -> bool {
        let is_left = |stray: &String| stray.contains(SET_ASIDE);
        self.packet.is_some() || !self.entries.is_empty() || !self.strays.iter().all(is_left)
    }

    /// Whether somebody signed, or was about to when he was stopped.
    pub fn is_signed(&self) -> bool {
        let is_left = |stray: &String| stray.contains(SET_ASIDE);
        !self.entries.is_empty() || !self.strays.iter().all(is_left)
    }

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
    let mut signatures = BTreeMap::new();
    let mut room = MOST_RECORD;
    let opened = Opened::of(folder)?;
    let mut take = |name: &str, limit: usize| {
        let bytes = opened.bounded(name, limit)?;
        room = room.checked_sub(bytes.len()).ok_or_else(|| too_much(folder))?;
        Ok::<_, FileError>(bytes)
    };
    for (name, kind) in names(folder)? {
        if let Some(why) = not_a_file(kind) {
            record.strays.push(format!("{name} ({why})"));
            continue;
        }
        match Role::of(&name) {
            Role::Packet => record.packet = Some(take(&name, MOST_PACKET)?),
            Role::Entry(number) => {
                let json = take(&name, entry::MOST_BYTES)?;
                record.entries.push(RawEntry { name: number.to_owned(), json, signature: None });
            }
            Role::Signature(number) => {
                signatures.insert(number.to_owned(), take(&name, signature::MOST_BYTES)?);
            }
            Role::Lock => {}
            Role::Stray(why) => record.strays.push(format!("{name} ({why})")),
        }
    }
    for entry in &mut record.entries {
        entry.signature = signatures.remove(&entry.name);
    }
    let next = format!("{:06}", record.next().0);
    let orphans = signatures.into_keys().map(|number| {
        let why = if number == next { UNFINISHED } else { WITHOUT_ENTRY };
        format!("{number}.json.sig ({why})")
    });
    record.strays.extend(orphans);
    record.strays.sort();
    Ok(record)
}

fn too_much(folder: &Path) -> FileError {
    let cause = io::Error::other(too_many("failure-bytes", MOST_RECORD));
    FileError::new("failure-cannot-read", folder, cause)
}

fn too_many(key: &'static str, most: usize) -> Words {
    Words::new(key, &[("most", most.to_string().into())])
}

/// Marks a signature whose entry is not there.
pub(crate) const WITHOUT_ENTRY: &str = "a signature without its entry";
/// Marks a signature of the next entry. Whoever writes next puts it aside.
pub(crate) const UNFINISHED: &str = "the next signature, its entry was not written or is gone";
/// Marks what a writer that was stopped left behind, or put aside later.
pub(crate) const SET_ASIDE: &str = "left by an interrupted write";

/// Makes a record folder with the frozen packet in it.
///
/// # Errors
/// [`FileError`]; when there is a packet already, its cause is [`io::ErrorKind::AlreadyExists`].
pub fn create(folder: &Path, packet: &[u8]) -> Result<(), FileError> {
    make_folder(folder)?;
    durable::create(&folder.join(PACKET), packet).inspect_err(|_| {
        // A folder is removed only while it is empty: what could not begin leaves nothing behind.
        let _ = fs::remove_dir(folder);
    })
}

/// Puts a packet aside that a first sign-off froze, and then could sign nothing for; gives its new name.
///
/// None when somebody has signed for it, or it is the one that is wanted: it stays.
///
/// # Errors
/// [`FileError`].
pub fn set_packet_aside(folder: &Path, wanted: &[u8]) -> Result<Option<String>, FileError> {
    let locked = Locked::open(folder, "")?;
    let is_wanted = locked.record().packet.as_deref() == Some(wanted);
    if is_wanted || locked.record().is_signed() {
        return Ok(None);
    }
    set_aside(&folder.join(PACKET))
}

/// Makes a folder for entries, if it is not there.
///
/// # Errors
/// [`FileError`].
pub fn make_folder(folder: &Path) -> Result<(), FileError> {
    fs::create_dir_all(folder).map_err(|e| FileError::new("failure-cannot-create", folder, e))?;
    match folder.parent().filter(|parent| *parent != Path::new("")) {
        Some(parent) => durable::sync_folder(parent),
        None => Ok(()),
    }
}

/// A record folder that no other writer can add to while this lives.
#[derive(Debug)]
pub struct Locked {
    folder: PathBuf,
    record: RawRecord,
    _lock: Lock,
}

impl Locked {
    /// Waits for the lock, then reads the record. Take the time after this, not before.
    ///
    /// `by` is told to who waits meanwhile; it may be empty.
    ///
    /// # Errors
    /// [`FileError`]; its cause is [`io::ErrorKind::WouldBlock`] when somebody else holds the lock
    /// for more than a few seconds.
    pub fn open(folder: &Path, by: &str) -> Result<Self, FileError> {
        let lock = Lock::take(&folder.join(LOCK), by, PATIENCE)?;
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
        let Signed { entry, json, signature } = signed;
        self.add((entry.seq, &entry.prev), json, signature)
    }

    /// Adds signed entries, all or as good as all: the bytes of every one are safe on disk before
    /// the first has its name.
    ///
    /// # Errors
    /// [`FileError`], as with [`Locked::append`]. [`Locked::record`] says which were added before.
    pub fn append_all(&mut self, signed: Vec<Signed>) -> Result<(), FileError> {
        let prepare =
            |signed: &Signed| self.prepare(signed.entry.seq, &signed.json, &signed.signature);
        let files: Vec<_> = signed.iter().map(prepare).collect::<Result<_, _>>()?;
        for (Signed { entry, json, signature }, files) in signed.into_iter().zip(files) {
            self.place((entry.seq, &entry.prev), files)?;
            self.push(json, signature);
        }
        Ok(())
    }

    /// Adds the bytes of an entry of any kind that says this of itself: its number and what comes
    /// before it.
    ///
    /// # Errors
    /// [`FileError`], as with [`Locked::append`].
    pub fn add(
        &mut self,
        own: (u64, &str),
        json: Vec<u8>,
        signature: Vec<u8>,
    ) -> Result<(), FileError> {
        let files = self.prepare(own.0, &json, &signature)?;
        self.place(own, files)?;
        self.push(json, signature);
        Ok(())
    }

    fn prepare(&self, seq: u64, json: &[u8], signature: &[u8]) -> Result<[Prepared; 2], FileError> {
        let file = self.folder.join(format!("{seq:06}.json"));
        let of_signature = file.with_extension("json.sig");
        Ok([Prepared::write(&of_signature, signature)?, Prepared::write(&file, json)?])
    }

    fn place(
        &self,
        (own_seq, own_prev): (u64, &str),
        [signature, json]: [Prepared; 2],
    ) -> Result<(), FileError> {
        let (seq, prev) = self.record.next();
        if own_seq != seq || own_prev != prev || seq > MOST_NUMBER {
            let cause = io::Error::new(io::ErrorKind::InvalidInput, Words::of("failure-not-next"));
            return Err(FileError::new("failure-cannot-add", json.path(), cause));
        }
        set_aside(signature.path())?;
        signature.place()?;
        json.place()
    }

    fn push(&mut self, json: Vec<u8>, signature: Vec<u8>) {
        let name = format!("{:06}", self.record.next().0);
        self.record.entries.push(RawEntry { name, json, signature: Some(signature) });
    }
}

/// A held lock.
#[derive(Debug)]
pub(crate) struct Lock {
    file: File,
}

impl Lock {
    /// Waits for a lock; `by` is told to who waits meanwhile.
    pub(crate) fn take(path: &Path, by: &str, patience: Duration) -> Result<Self, FileError> {
        let fail = |e| FileError::new("failure-cannot-lock", path, e);
        if fs::symlink_metadata(path).is_ok_and(|found| !found.is_file()) {
            return Err(fail(io::Error::other(Words::of("failure-not-plain"))));
        }
        let options = OpenOptions::new().create(true).truncate(false).write(true).to_owned();
        let file = options.open(path).map_err(fail)?;
        wait_for(path, patience, || file.try_lock())?;
        let lock = Lock { file };
        // That nobody can be told who holds it is no reason not to sign.
        let _ = lock.tell(&format!("process {} {by}", std::process::id()));
        Ok(lock)
    }

    fn tell(&self, holder: &str) -> io::Result<()> {
        self.file.set_len(0)?;
        (&self.file).write_all(holder.trim().as_bytes())
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        // Nobody holds it any more; the lock itself ends with the file that is closed now.
        let _ = self.file.set_len(0);
    }
}

/// Tries to take a lock until it is free, or says who holds it.
///
/// # Errors
/// [`FileError`]; its cause is [`io::ErrorKind::WouldBlock`] when it is held for longer.
pub(crate) fn wait_for(
    path: &Path,
    patience: Duration,
    take: impl Fn() -> Result<(), TryLockError>,
) -> Result<(), FileError> {
    let fail = |e| FileError::new("failure-cannot-lock", path, e);
    let mut waited = Duration::ZERO;
    loop {
        match take() {
            Ok(()) => return Ok(()),
            Err(TryLockError::Error(e)) => return Err(fail(e)),
            Err(TryLockError::WouldBlock) if waited < patience => {
                thread::sleep(PAUSE);
                waited += PAUSE;
            }
            Err(TryLockError::WouldBlock) => {
                return Err(fail(io::Error::new(io::ErrorKind::WouldBlock, held_by(path))));
            }
        }
    }
}

/// Who holds a lock, in the holder's own words.
fn held_by(path: &Path) -> Words {
    let said = File::open(path).and_then(|file| at_most(file, MOST_HOLDER)).unwrap_or_default();
    let said = String::from_utf8_lossy(&said);
    match said.trim() {
        "" => Words::of("records-held"),
        holder => Words::new("records-held-by", &[("holder", shown(holder).into())]),
    }
}

/// Gives a signature without entry, or a packet without any, another name; does nothing when it is not
/// there.
fn set_aside(file: &Path) -> Result<Option<String>, FileError> {
    if fs::symlink_metadata(file).is_err() {
        return Ok(None);
    }
    let fail = |e| FileError::new("failure-cannot-set-aside", file, e);
    let own = file.file_name().unwrap_or_default().to_string_lossy();
    let mut number = 1_u32;
    loop {
        let name = format!("{own}.aside-{number}");
        match fs::hard_link(file, file.with_file_name(&name)) {
            Ok(()) => return fs::remove_file(file).map(|()| Some(name)).map_err(fail),
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
        let aside = name.split_once(".json.sig.aside-").is_some_and(|(n, _)| is_number(n))
            || name.strip_prefix(PACKET).is_some_and(|rest| rest.starts_with(".aside-"));
        let unfinished = name.starts_with('.') && name.ends_with(".new");
        let left = aside || unfinished;
        Role::Stray(if left { SET_ASIDE } else { "a file that does not belong here" })
    }
}

/// Names in a folder with what they stand for, sorted; a name that is not UTF-8 is shown as far as
/// it goes and never opened.
fn names(folder: &Path) -> Result<Vec<(String, Option<FileType>)>, FileError> {
    let fail = |e| FileError::new("failure-cannot-read", folder, e);
    let mut names = Vec::new();
    for item in fs::read_dir(folder).map_err(fail)? {
        let item = item.map_err(fail)?;
        let kind = item.file_type().map_err(fail)?;
        names.push(match item.file_name().into_string() {
            Ok(name) => (name, Some(kind)),
            Err(name) => (name.to_string_lossy().into_owned(), None),
        });
        if names.len() > MOST_FILES {
            return Err(fail(io::Error::other(too_many("failure-files", MOST_FILES))));
        }
    }
    names.sort_by(|(one, _), (other, _)| one.cmp(other));
    Ok(names)
}

/// Why a name stands for no plain file; links are not followed.
fn not_a_file(kind: Option<FileType>) -> Option<&'static str> {
    match kind {
        None => Some("an odd name"),
        Some(kind) if kind.is_file() => None,
        Some(kind) if kind.is_symlink() => Some("a link"),
        Some(kind) if kind.is_dir() => Some("a folder"),
        Some(_) => Some("not a plain file"),
    }
}

/// A folder that stays open while its files are read: each is looked up in it and not from the root on,
/// and what became a link meanwhile is not followed.
struct Opened<'f> {
    folder: &'f Path,
    handle: File,
}

impl<'f> Opened<'f> {
    fn of(folder: &'f Path) -> Result<Self, FileError> {
        let handle = File::open(folder);
        let handle = handle.map_err(|e| FileError::new("failure-cannot-read", folder, e))?;
        Ok(Opened { folder, handle })
    }

    /// The bytes of a file, at most one more than the limit, so that too long a file shows.
    fn bounded(&self, name: &str, limit: usize) -> Result<Vec<u8>, FileError> {
        let flags = OFlags::RDONLY | OFlags::NOFOLLOW | OFlags::CLOEXEC;
        let file = rustix::fs::openat(&self.handle, name, flags, Mode::empty());
        file.map_err(io::Error::from)
            .and_then(|file| at_most(File::from(file), limit))
            .map_err(|e| FileError::new("failure-cannot-read", &self.folder.join(name), e))
    }
}

/// The bytes of a file, at most one more than the limit.
fn at_most(file: File, limit: usize) -> io::Result<Vec<u8>> {
    // An entry has about 500 bytes, a signature 320.
    let mut bytes = Vec::with_capacity((limit / 8).min(1024));
    let most = u64::try_from(limit).unwrap_or(u64::MAX).saturating_add(1);
    file.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
#[allow(clippy::disallowed_methods, reason = "tests lay files into folders")]
mod tests {
    use std::fs;
    use std::path::Path;

    use super::{Locked, RawRecord, create, read};
    use crate::record::compose::{chained, seal_all};
    use crate::record::entry::{self, NO_PREVIOUS};
    use crate::record::fixture;

    /// A folder with the first entries of the good record.
    fn folder(entries: usize) -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        create(folder.path(), fixture::PACKET).unwrap();
        let mut locked = Locked::open(folder.path(), "").unwrap();
        for signed in fixture::signed().into_iter().take(entries) {
            locked.append(signed).unwrap();
        }
        folder
    }

    #[track_caller]
    fn check(folder: &Path, strays: &[&str]) {
        assert_eq!(read(folder).unwrap().strays, strays);
    }

    #[test]
    fn what_was_added_is_read_back() {
        let folder = folder(13);
        assert_eq!(read(folder.path()).unwrap(), fixture::raw());
        let names = fs::read_dir(folder.path()).unwrap().count();
        assert_eq!(names, 2 * 13 + 2, "entries, signatures, packet, lock, nothing else");
    }

    #[test]
    fn a_record_has_one_packet() {
        let folder = folder(0);
        let error = create(folder.path(), b"other").unwrap_err();
        assert_eq!(error.cause.kind(), std::io::ErrorKind::AlreadyExists);
        assert_eq!(read(folder.path()).unwrap().packet.unwrap(), fixture::PACKET);
    }

    #[test]
    fn only_the_next_entry_is_added() {
        let folder = folder(2);
        let mut locked = Locked::open(folder.path(), "").unwrap();
        for wrong in [0, 1, 3] {
            let error = locked.append(fixture::signed().remove(wrong)).unwrap_err();
            assert_eq!(error.cause.kind(), std::io::ErrorKind::InvalidInput);
        }
        locked.append(fixture::signed().remove(2)).unwrap();
        assert_eq!(locked.record(), &read(folder.path()).unwrap());
    }

    #[test]
    fn a_signature_left_without_entry_is_put_aside() {
        let folder = folder(2);
        fs::write(folder.path().join("000003.json.sig"), "half").unwrap();
        let unfinished =
            "000003.json.sig (the next signature, its entry was not written or is gone)";
        fs::write(folder.path().join("000004.json.sig"), "half").unwrap();
        check(folder.path(), &[unfinished, "000004.json.sig (a signature without its entry)"]);
        fs::remove_file(folder.path().join("000004.json.sig")).unwrap();
        let mut locked = Locked::open(folder.path(), "").unwrap();
        locked.append(fixture::signed().remove(2)).unwrap();
        check(folder.path(), &["000003.json.sig.aside-1 (left by an interrupted write)"]);
        let aside = folder.path().join("000003.json.sig.aside-1");
        assert_eq!(fs::read(aside).unwrap(), b"half");
    }

    #[test]
    fn what_is_no_file_of_a_record_is_named_and_not_opened() {
        let folder = folder(1);
        let at = |name: &str| folder.path().join(name);
        fs::create_dir(at("000002.json")).unwrap();
        std::os::unix::fs::symlink("/dev/zero", at("000003.json")).unwrap();
        fs::write(at("000001.json.bak"), "").unwrap();
        fs::write(at("1.json"), "").unwrap();
        let pipe = std::process::Command::new("mkfifo").arg(at("000004.json")).status().unwrap();
        assert!(pipe.success());
        check(
            folder.path(),
            &[
                "000001.json.bak (a file that does not belong here)",
                "000002.json (a folder)",
                "000003.json (a link)",
                "000004.json (not a plain file)",
                "1.json (a file that does not belong here)",
            ],
        );
    }

    #[test]
    fn leftovers_are_told_from_strays() {
        let folder = folder(1);
        fs::write(folder.path().join(".000002.json.77-1.new"), "{").unwrap();
        check(folder.path(), &[".000002.json.77-1.new (left by an interrupted write)"]);
        Locked::open(folder.path(), "").unwrap().append(fixture::signed().remove(1)).unwrap();
        assert_eq!(read(folder.path()).unwrap().entries.len(), 2);
    }

    #[test]
    fn a_lock_that_is_a_link_is_not_followed() {
        let folder = folder(0);
        let elsewhere = tempfile::tempdir().unwrap();
        fs::remove_file(folder.path().join(".lock")).unwrap();
        let target = elsewhere.path().join("made");
        std::os::unix::fs::symlink(&target, folder.path().join(".lock")).unwrap();
        let error = Locked::open(folder.path(), "").unwrap_err();
        assert!(error.to_string().contains(".lock") && !target.exists(), "{error}");
    }

    #[test]
    fn too_many_bytes_are_refused_before_they_fill_the_memory() {
        let folder = folder(0);
        for number in 1..=4100 {
            let name = format!("{number:06}.json");
            fs::File::create(folder.path().join(name)).unwrap().set_len(1 << 20).unwrap();
        }
        let error = read(folder.path()).unwrap_err();
        assert!(error.to_string().contains("more than 268435456 bytes"), "{error}");
    }

    #[test]
    fn a_huge_file_is_cut_one_byte_past_its_limit() {
        let folder = folder(1);
        let file = fs::File::create(folder.path().join("000002.json")).unwrap();
        file.set_len(10 << 30).unwrap();
        let record = read(folder.path()).unwrap();
        assert_eq!(record.entries[1].json.len(), entry::MOST_BYTES + 1);
    }

    #[test]
    fn writers_wait_for_each_other() {
        let folder = folder(0);
        std::thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| {
                    for _ in 0..5 {
                        add_one(folder.path());
                    }
                });
            }
        });
        let record = read(folder.path()).unwrap();
        assert_eq!((record.entries.len(), record.strays.len()), (20, 0));
        let mut head = NO_PREVIOUS.to_owned();
        for (index, raw) in record.entries.iter().enumerate() {
            let entry = entry::parse(&raw.json).unwrap();
            assert_eq!((entry.seq, &entry.prev), (index as u64 + 1, &head));
            head = chained(&raw.json, raw.signature.as_ref().unwrap());
        }
    }

    fn add_one(folder: &Path) {
        let mut locked = Locked::open(folder, "").unwrap();
        let mut entry = fixture::reading_entry();
        let (seq, prev) = locked.record().next();
        entry.seq = seq;
        let key = fixture::key_of("a.doer");
        let signed = seal_all(vec![entry], &prev, &key, fixture::DOMAIN).unwrap().remove(0);
        locked.append(signed).unwrap();
    }

    #[test]
    fn who_holds_the_lock_is_told_to_who_waits() {
        let folder = folder(1);
        let path = folder.path().join(".lock");
        let open = || super::Lock::take(&path, "b@x", std::time::Duration::from_millis(30));
        let held = super::Lock::take(&path, "a.doer@plant.example", super::PATIENCE).unwrap();
        let error = open().unwrap_err();
        assert_eq!(error.cause.kind(), std::io::ErrorKind::WouldBlock);
        let said = format!("process {} a.doer@plant.example is writing", std::process::id());
        assert!(error.to_string().contains(&said), "{error}");
        held.file.set_len(0).unwrap();
        assert!(open().unwrap_err().to_string().contains("somebody else is writing"));
        drop(held);
        drop(open().unwrap());
        assert_eq!(fs::read(&path).unwrap(), b"", "nobody holds it");
    }

    #[test]
    fn a_batch_that_does_not_follow_adds_nothing() {
        let folder = folder(2);
        let mut locked = Locked::open(folder.path(), "").unwrap();
        let batch: Vec<_> = fixture::signed().into_iter().skip(3).take(3).collect();
        locked.append_all(batch).unwrap_err();
        assert_eq!(read(folder.path()).unwrap().entries.len(), 2);
        check(folder.path(), &[]);
        let batch: Vec<_> = fixture::signed().into_iter().skip(2).collect();
        locked.append_all(batch).unwrap();
        assert_eq!(read(folder.path()).unwrap(), fixture::raw());
    }

    /// Making the record stops at the packet: not even its folder stays.
    #[test]
    fn a_record_that_could_not_begin_leaves_nothing() {
        let plant = tempfile::tempdir().unwrap();
        let folder = plant.path().join("records/J-1");
        fs::create_dir_all(&folder).unwrap();
        let long = folder.join("x".repeat(300));
        create(&long, b"packet").unwrap_err();
        assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
    }

    #[test]
    fn a_missing_folder_is_named() {
        let error = read(Path::new("no/such/record")).unwrap_err();
        assert!(error.to_string().contains("no/such/record"), "{error}");
        assert_eq!(RawRecord::default().next(), (1, NO_PREVIOUS.to_owned()));
    }
}
