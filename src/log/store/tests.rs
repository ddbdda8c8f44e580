use std::fs;
use std::path::{Path, PathBuf};

use super::{CHECKPOINT, HASHES, INTENT, LEAVES, Log, Pen, Writer, folder};
use crate::log::checkpoint::Checkpoint;
use crate::log::line::Line;
use crate::log::tree::{Growing, Hash, leaf};
use crate::record::compose::Signed;
use crate::record::fixture::{self, key_of};
use crate::record::store as records;

const MACHINE: &str = "pouch-6";
const RECORD: &str = "J-2041";

/// A plant with one record that nobody has signed yet.
struct Plant {
    folder: tempfile::TempDir,
    signed: Vec<Signed>,
}

impl Plant {
    fn new() -> Plant {
        let plant = Plant { folder: tempfile::tempdir().unwrap(), signed: fixture::signed() };
        records::create(&plant.record(), fixture::PACKET).unwrap();
        plant
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn record(&self) -> PathBuf {
        self.path().join("records").join(RECORD)
    }

    fn file(&self, name: &str) -> PathBuf {
        self.path().join("logs").join(MACHINE).join(name)
    }

    fn read(&self, name: &str) -> Vec<u8> {
        fs::read(self.file(name)).unwrap_or_default()
    }

    /// Puts entries on record, from one to before another.
    fn enter(&self, from: usize, to: usize) {
        let mut locked = records::Locked::open(&self.record(), "").unwrap();
        for signed in &self.signed[from..to] {
            locked.append(signed.clone()).unwrap();
        }
    }

    /// Signs entries as the command does.
    fn sign(&self, from: usize, to: usize) {
        let mut log = self.open();
        log.intend(RECORD, &self.signed[from..to]).unwrap();
        self.enter(from, to);
        log.commit().unwrap();
    }

    fn open(&self) -> Writer {
        Writer::open(self.path(), MACHINE).unwrap()
    }

    fn log(&self) -> Log {
        Log::open(self.path(), MACHINE).unwrap().unwrap()
    }

    /// The log has the first entries, each list is whole, and this was said on opening.
    #[track_caller]
    fn check(&self, entries: usize, said: &[&str]) {
        let told: Vec<String> = self.open().said().iter().map(ToString::to_string).collect();
        assert_eq!(told, said);
        let log = self.log();
        let lines: Vec<Line> = log.lines().unwrap().map(|line| line.unwrap().unwrap()).collect();
        let expected: Vec<Line> = (self.signed.iter().take(entries))
            .map(|one| Line {
                hash: leaf(&[&one.json, &one.signature]),
                entry: one.entry.seq,
                record: RECORD.to_owned(),
            })
            .collect();
        assert_eq!(lines, expected);
        let mut growing = Growing::default();
        let hashes: Vec<Hash> = lines.iter().flat_map(|line| growing.push(line.hash)).collect();
        assert_eq!(self.read(HASHES), hashes.concat());
        assert_eq!(log.leaves(), entries as u64);
        assert_eq!(log.root(log.leaves()).unwrap(), growing.root());
        assert_eq!(log.pending().unwrap(), None);
        drop(log);
        assert!(self.open().said().is_empty(), "said once");
    }
}

#[test]
fn entries_become_leaves_in_their_order() {
    let plant = Plant::new();
    plant.check(0, &[]);
    plant.sign(0, 1);
    plant.check(1, &[]);
    plant.sign(1, 6);
    plant.sign(6, 13);
    plant.check(13, &[]);
    assert!(plant.log().strays().unwrap().is_empty());
}

/// Every place at which a writer can be stopped: what is on record ends up in the log, what is not
/// does not.
#[test]
fn a_stopped_writer_is_completed() {
    let completed = |count| match count {
        1 => "1 entry that was on record has been added to the log".to_owned(),
        _ => format!("{count} entries that were on record have been added to the log"),
    };
    for on_record in 0..=4 {
        let plant = Plant::new();
        plant.sign(0, 3);
        plant.open().intend(RECORD, &plant.signed[3..7]).unwrap();
        plant.enter(3, 3 + on_record);
        let said: Vec<String> = (on_record > 0).then(|| completed(on_record)).into_iter().collect();
        let said: Vec<&str> = said.iter().map(String::as_str).collect();
        plant.check(3 + on_record, &said);
        plant.sign(3 + on_record, 9);
        plant.check(9, &[]);
    }
}

/// A commit that was cut at every place of either list.
#[test]
fn a_list_that_is_torn_anywhere_is_mended() {
    let plant = Plant::new();
    let lists = || [LEAVES, HASHES].map(|list| plant.read(list));
    plant.sign(0, 3);
    let [leaves, hashes] = lists();
    let mut log = plant.open();
    log.intend(RECORD, &plant.signed[3..6]).unwrap();
    let intent = plant.read(INTENT);
    plant.enter(3, 6);
    log.commit().unwrap();
    drop(log);
    let whole = lists();
    let check = |leaves: &[u8], hashes: &[u8]| {
        for (file, bytes) in [(LEAVES, leaves), (HASHES, hashes), (INTENT, &intent)] {
            fs::write(plant.file(file), bytes).unwrap();
        }
        drop(plant.open());
        assert_eq!(lists(), whole);
        assert_eq!(plant.log().pending().unwrap(), None);
    };
    for end in (leaves.len()..whole[0].len()).step_by(7) {
        check(&whole[0][..end], &hashes);
    }
    for end in (hashes.len()..whole[1].len()).step_by(5) {
        check(&whole[0], &whole[1][..end]);
    }
    let strays = plant.log().strays().unwrap();
    for list in ["leaves.aside-1", "hashes.aside-1"] {
        assert!(strays.iter().any(|name| name == list), "{strays:?}");
    }
}

#[test]
fn what_is_set_aside_is_kept_and_said() {
    let plant = Plant::new();
    plant.sign(0, 3);
    let whole = plant.read(LEAVES);
    fs::write(plant.file(LEAVES), [&whole, b"4e3bbb1f7b".as_slice()].concat()).unwrap();
    plant.check(
        3,
        &["the last 10 bytes of leaves were no whole line or hash: they lie in leaves.aside-1 now"],
    );
    assert_eq!(plant.read("leaves.aside-1"), b"4e3bbb1f7b");
}

/// Many lines of which hashes were never written: more than the end that is looked at.
#[test]
fn a_long_list_without_its_hashes_gets_them() {
    let plant = Plant::new();
    let line =
        |n: u64| Line { hash: leaf(&[&n.to_be_bytes()]), entry: n + 1, record: "J-1".to_owned() };
    let lines: Vec<Line> = (0..2000).map(line).collect();
    plant.open().adopt(&lines).unwrap();
    let hashes = plant.read(HASHES);
    for kept in [0, 32, 3 * 32, 4 * 32, 1000 * 32, hashes.len()] {
        fs::write(plant.file(HASHES), &hashes[..kept]).unwrap();
        drop(plant.open());
        assert_eq!(plant.read(HASHES), hashes);
    }
}

#[track_caller]
fn refused(plant: &Plant, said: &str) {
    let error = Writer::open(plant.path(), MACHINE).unwrap_err().to_string();
    assert!(error.contains(said), "{error}");
}

#[test]
fn lists_that_do_not_belong_together_take_nothing() {
    let plant = Plant::new();
    plant.sign(0, 3);
    let whole = plant.read(LEAVES);
    let line = whole.len() / 3;
    let said = "do not belong together";
    fs::write(plant.file(LEAVES), &whole[..2 * line]).unwrap();
    refused(&plant, said);
    let other = [&whole[..2 * line], &whole[..line]].concat();
    fs::write(plant.file(LEAVES), other).unwrap();
    refused(&plant, said);
    fs::write(plant.file(LEAVES), [&whole[..2 * line], b"no leaf\n".as_slice()].concat()).unwrap();
    refused(&plant, said);
    fs::remove_file(plant.file(LEAVES)).unwrap();
    refused(&plant, said);
}

#[test]
fn links_are_not_followed() {
    for list in [LEAVES, HASHES, INTENT, ".lock"] {
        let plant = Plant::new();
        plant.sign(0, 3);
        let elsewhere = plant.path().join("elsewhere");
        fs::write(&elsewhere, "kept").unwrap();
        let _ = fs::remove_file(plant.file(list));
        std::os::unix::fs::symlink(&elsewhere, plant.file(list)).unwrap();
        refused(&plant, "not a plain file");
        assert_eq!(fs::read(&elsewhere).unwrap(), b"kept");
    }
    let plant = Plant::new();
    let elsewhere = tempfile::tempdir().unwrap();
    std::os::unix::fs::symlink(elsewhere.path(), plant.path().join("logs")).unwrap();
    assert!(folder(plant.path(), MACHINE).is_err());
    assert!(Log::open(plant.path(), MACHINE).is_err());
    refused(&plant, "a link or no folder");
    assert_eq!(fs::read_dir(elsewhere.path()).unwrap().count(), 0);
}

#[test]
fn writers_take_turns() {
    let plant = Plant::new();
    std::thread::scope(|scope| {
        for writer in 0..4_u64 {
            let path = plant.path();
            scope.spawn(move || {
                for entry in 1..=15_u64 {
                    let hash = leaf(&[&writer.to_be_bytes(), &entry.to_be_bytes()]);
                    let line = Line { hash, entry, record: format!("J-{writer}") };
                    Writer::open(path, MACHINE).unwrap().adopt(&[line]).unwrap();
                }
            });
        }
    });
    let log = plant.log();
    let mut growing = Growing::default();
    for line in log.lines().unwrap() {
        growing.push(line.unwrap().unwrap().hash);
    }
    assert_eq!((log.leaves(), log.root(60).unwrap()), (60, growing.root()));
    assert!(log.strays().unwrap().is_empty());
}

const BY: &str = "a.doer@plant.example";

impl Plant {
    /// Signs a checkpoint; what was said when none was signed.
    fn checkpoint(&self) -> Result<(), String> {
        let (mut log, key) = (self.open(), key_of(BY));
        let signers = "ba".repeat(32);
        let origin = "plant.example/pouch-6";
        let pen = Pen { origin, by: BY, key: &key, at: fixture::start(), signers: &signers };
        match log.sign(&pen).unwrap() {
            Some(note) => {
                assert_eq!(self.read(CHECKPOINT), note.print().as_bytes());
                Ok(())
            }
            None => Err(log.said().last().unwrap().to_string()),
        }
    }
}

#[test]
fn a_checkpoint_is_of_all_leaves() {
    let plant = Plant::new();
    plant.checkpoint().unwrap();
    plant.sign(0, 5);
    plant.checkpoint().unwrap();
    let (checkpoint, _) = Checkpoint::parse(&plant.read(CHECKPOINT)).unwrap();
    let log = plant.log();
    assert_eq!((checkpoint.leaves, checkpoint.root), (5, log.root(5).unwrap()));
    assert_eq!(checkpoint.at.as_deref(), Some("2026-11-26T22:10:00+01:00"));
    assert_eq!(log.checkpoint().unwrap().unwrap(), plant.read(CHECKPOINT));
}

/// Two checkpoints of which the second does not extend the first are never signed here.
#[test]
fn another_history_is_not_signed() {
    let plant = Plant::new();
    plant.sign(0, 5);
    plant.checkpoint().unwrap();
    let signed = plant.read(CHECKPOINT);
    for list in [LEAVES, HASHES] {
        fs::remove_file(plant.file(list)).unwrap();
    }
    let said = plant.checkpoint().unwrap_err();
    assert!(said.contains("did not grow from its checkpoint of 5 entries"), "{said}");
    let other =
        |n: u64| Line { hash: leaf(&[&n.to_be_bytes()]), entry: n, record: "J-1".to_owned() };
    plant.open().adopt(&(1..9).map(other).collect::<Vec<_>>()).unwrap();
    plant.checkpoint().unwrap_err();
    assert_eq!(plant.read(CHECKPOINT), signed);
}

#[test]
fn a_checkpoint_that_cannot_be_read_is_set_aside() {
    let plant = Plant::new();
    fs::create_dir_all(plant.file("")).unwrap();
    fs::write(plant.file(CHECKPOINT), "no note").unwrap();
    plant.checkpoint().unwrap();
    assert_eq!(plant.read("checkpoint.aside-1"), b"no note");
}
