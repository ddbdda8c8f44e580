use std::cell::Cell;
use std::collections::BTreeMap;
use std::convert::Infallible;

use super::{
    Held, KeptHead, LogReport, LogSubject, OnRecord, Sources, audit_log, holds, prove_kept,
};
use crate::audit::Severity;
use crate::language::Language;
use crate::log::checkpoint::{Checkpoint, Kept, short};
use crate::log::line::Line;
use crate::log::note::Note;
use crate::log::tree::{Growing, Hash, leaf};
use crate::record::fixture::{DOMAIN, SIGNERS, key_of};
use crate::record::time;
use crate::record::trust::{Revoked, TrustList};

const MACHINE: &str = "pouch-6";
const BY: &str = "a.doer@plant.example";

/// A log in memory, with all that an audit of it asks for.
#[derive(Clone)]
struct World {
    lines: Vec<Line>,
    hashes: Vec<Hash>,
    leaves: Option<u64>,
    on_record: BTreeMap<(String, u64), Hash>,
    /// Times that entries state, where they state any.
    times: BTreeMap<(String, u64), &'static str>,
    records: BTreeMap<String, u64>,
    checkpoint: Option<Vec<u8>>,
    pending: Vec<Line>,
    kept: Vec<KeptHead>,
    trust: TrustList,
    torn: bool,
}

fn line(record: &str, entry: u64) -> Line {
    Line {
        hash: leaf(&[record.as_bytes(), &entry.to_be_bytes()]),
        entry,
        record: record.to_owned(),
    }
}

impl World {
    /// Two records, 12 and 8 entries, that took turns.
    fn new() -> World {
        let lines = (1..=12).flat_map(|n| {
            let other = (n <= 8).then(|| line("J-2", n));
            std::iter::once(line("J-1", n)).chain(other)
        });
        World::of(lines.collect())
    }

    fn of(lines: Vec<Line>) -> World {
        let mut world = World {
            lines: Vec::new(),
            hashes: Vec::new(),
            leaves: None,
            on_record: BTreeMap::new(),
            times: BTreeMap::new(),
            records: BTreeMap::new(),
            checkpoint: None,
            pending: Vec::new(),
            kept: Vec::new(),
            trust: TrustList::parse(SIGNERS.as_bytes()).0,
            torn: false,
        };
        for line in &lines {
            world.on_record.insert((line.record.clone(), line.entry), line.hash);
            world.records.insert(line.record.clone(), line.entry);
        }
        world.relisted(lines);
        world
    }

    /// The log of other leaves; the records stay.
    fn relisted(&mut self, lines: Vec<Line>) {
        let mut growing = Growing::default();
        self.hashes = lines.iter().flat_map(|line| growing.push(line.hash)).collect();
        self.leaves = Some(lines.len() as u64);
        self.lines = lines;
    }

    fn root(&self, leaves: usize) -> Hash {
        let mut growing = Growing::default();
        self.lines.iter().take(leaves).for_each(|line| drop(growing.push(line.hash)));
        growing.root()
    }

    fn statement(&self, leaves: usize) -> Checkpoint {
        Checkpoint {
            origin: format!("{DOMAIN}/{MACHINE}"),
            leaves: leaves as u64,
            root: self.root(leaves),
            at: Some("2026-11-26T22:41:00+01:00".to_owned()),
            signers: Some(self.trust.digest().to_owned()),
        }
    }

    fn note(&self, leaves: usize) -> Note {
        self.statement(leaves).sign(BY, &key_of(BY)).unwrap()
    }

    fn signed(mut self) -> World {
        self.checkpoint = Some(self.note(self.lines.len()).print().into_bytes());
        self
    }

    fn keep(&mut self, leaves: usize) {
        let text = short(MACHINE, leaves as u64, &self.root(leaves));
        let kept = Kept::parse(text.as_bytes(), DOMAIN).unwrap();
        self.kept.push(KeptHead { kept, first: None });
    }

    /// Keeps a whole checkpoint, which says when it was signed.
    fn keep_whole(&mut self, leaves: usize) {
        let kept = Kept::parse(self.note(leaves).print().as_bytes(), DOMAIN).unwrap();
        self.kept.push(KeptHead { kept, first: None });
    }

    fn subject(&self) -> LogSubject<'_> {
        LogSubject {
            machine: MACHINE,
            domain: DOMAIN,
            trust: &self.trust,
            now: Some(time::parse("2026-11-27T06:00:00+01:00").unwrap()),
            leaves: self.leaves,
            checkpoint: self.checkpoint.clone(),
            strays: Vec::new(),
            records: self.records.clone(),
            pending: self.pending.clone(),
            kept: self.kept.clone(),
        }
    }

    fn hash(&self, place: u64) -> Result<Hash, Infallible> {
        Ok(self.hashes.get(usize::try_from(place).unwrap()).copied().unwrap_or_default())
    }

    fn report(&self) -> LogReport {
        let lines = self.lines.iter().cloned().map(Some).chain(self.torn.then_some(None));
        let mut hash = |place| self.hash(place);
        let mut on_record = |line: &Line| {
            let key = (line.record.clone(), line.entry);
            let at = self.times.get(&key).map(|at| time::parse(at).unwrap());
            Ok(self.on_record.get(&key).map(|hash| OnRecord { hash: *hash, at }))
        };
        let sources = Sources { hash: &mut hash, on_record: &mut on_record };
        audit_log(self.subject(), lines.map(Ok), sources).unwrap()
    }

    fn codes(&self) -> Vec<(&'static str, Severity)> {
        self.report().findings.iter().map(|found| (found.code, found.severity)).collect()
    }
}

/// What is found when a good, signed log was changed in this way.
#[track_caller]
fn check(change: impl FnOnce(&mut World), expected: &[&str]) {
    let mut world = World::new().signed();
    assert_eq!(world.codes(), []);
    change(&mut world);
    let codes: Vec<&str> = world
        .codes()
        .into_iter()
        .filter(|(_, severity)| *severity == Severity::Error)
        .map(|(code, _)| code)
        .collect();
    assert_eq!(codes, expected, "{}", world.report().render(Language::English));
}

fn key(entry: u64) -> (String, u64) {
    ("J-1".to_owned(), entry)
}

#[test]
fn a_good_log_is_clean() {
    let report = World::new().signed().report();
    assert!(report.is_clean());
    let newest = report.newest.clone().unwrap();
    assert_eq!((report.leaves, newest.leaves, newest.by.as_deref()), (20, 20, Some(BY)));
    let text = report.render(Language::English);
    assert!(text.starts_with("log pouch-6: 20 entries\n"), "{text}");
    assert!(text.contains(&format!("keep elsewhere: {}", newest.short)), "{text}");
}

#[test]
fn records_that_were_changed_are_named_with_their_leaf() {
    check(|world| _ = world.on_record.remove(&key(3)), &["log-entry-gone"]);
    check(|world| _ = world.on_record.insert(key(3), [7; 32]), &["log-entry-changed"]);
    check(|world| _ = world.records.insert("J-1".to_owned(), 14), &["log-lacks"]);
    check(|world| _ = world.records.insert("J-9".to_owned(), 1), &["log-lacks"]);
    let more_than_pending = |world: &mut World| {
        world.records.insert("J-1".to_owned(), 14);
        world.pending = vec![line("J-1", 14), line("J-2", 13)];
    };
    check(more_than_pending, &["log-lacks"]);
    let mut world = World::new().signed();
    world.on_record.insert(key(3), [7; 32]);
    let said = world.report().findings[0].words.to_string();
    assert!(said.starts_with("leaf 5: entry 3 of J-1 is not what it was"), "{said}");
}

#[test]
fn a_log_that_was_changed_is_found() {
    // Only the list of leaves, or only the hashes.
    check(
        |world| world.lines[4].hash = [7; 32],
        &["log-hash", "log-entry-changed", "log-checkpoint-root"],
    );
    check(|world| world.hashes[6] = [7; 32], &["log-hash"]);
    check(|world| world.leaves = Some(19), &["log-lengths"]);
    check(|world| world.torn = true, &["log-line"]);
    // Both, so that they belong together.
    let cut = |world: &mut World| {
        let mut lines = world.lines.clone();
        lines.truncate(15);
        world.relisted(lines);
    };
    check(cut, &["log-lacks", "log-lacks", "log-checkpoint-longer"]);
    let swapped = |world: &mut World| {
        let mut lines = world.lines.clone();
        lines.swap(3, 4);
        world.relisted(lines);
    };
    check(swapped, &["log-checkpoint-root"]);
    let swapped_in_record = |world: &mut World| {
        let mut lines = world.lines.clone();
        lines.swap(2, 4);
        world.relisted(lines);
    };
    check(swapped_in_record, &["log-order", "log-order", "log-checkpoint-root"]);
    let doubled = |world: &mut World| {
        let mut lines = world.lines.clone();
        lines.push(line("J-1", 12));
        world.relisted(lines);
    };
    check(doubled, &["log-order"]);
}

#[test]
fn a_checkpoint_that_nobody_stands_behind_is_found() {
    let put = |world: &mut World, note: &Note| world.checkpoint = Some(note.print().into_bytes());
    check(|world| world.checkpoint = Some(b"no note".to_vec()), &["log-checkpoint-form"]);
    check(
        |world| {
            let own = Checkpoint { origin: "plant.example/web-2".into(), ..world.statement(20) };
            put(world, &own.sign(BY, &key_of(BY)).unwrap());
        },
        &["log-checkpoint-other"],
    );
    check(
        |world| {
            let note = world.statement(20).sign("n.obody", &key_of("n.obody")).unwrap();
            put(world, &note);
        },
        &["log-checkpoint-signature"],
    );
    check(
        |world| {
            let mut note = world.note(20);
            note.signatures[0].bytes[9] ^= 1;
            put(world, &note);
        },
        &["log-checkpoint-signature"],
    );
    check(
        |world| {
            let at = Some("2026-11-28T22:41:00+01:00".to_owned());
            let late = Checkpoint { at, ..world.statement(20) };
            put(world, &late.sign(BY, &key_of(BY)).unwrap());
        },
        &["log-checkpoint-future"],
    );
    check(
        |world| {
            let key = world.trust.keys()[0].fingerprint.clone();
            let from = time::parse("2026-11-01T00:00:00Z").unwrap();
            world.trust.revoke(&key, Revoked { from, why: "lost".to_owned() });
        },
        &["key-revoked"],
    );
    check(
        |world| {
            let forged = Checkpoint { root: [7; 32], ..world.statement(20) };
            put(world, &forged.sign(BY, &key_of(BY)).unwrap());
        },
        &["log-checkpoint-root"],
    );
}

#[track_caller]
fn noted(change: impl FnOnce(&mut World), expected: &str) {
    let mut world = World::new().signed();
    change(&mut world);
    assert_eq!(world.codes(), [(expected, Severity::Note)]);
}

#[test]
fn what_is_worth_knowing_is_a_note() {
    noted(|world| world.checkpoint = None, "log-unsigned");
    noted(|world| world.checkpoint = Some(world.note(17).print().into_bytes()), "log-after");
    let other = SIGNERS.replace("# who", "# who else");
    noted(|world| world.trust = TrustList::parse(other.as_bytes()).0, "log-signers-changed");
    noted(|world| world.keep(11), "log-kept-holds");
    let stopped = |world: &mut World| {
        world.records.insert("J-1".to_owned(), 14);
        world.pending = vec![line("J-1", 13), line("J-1", 14)];
    };
    noted(stopped, "log-pending");
    let mut none = World::new();
    (none.leaves, none.lines) = (None, Vec::new());
    assert_eq!(none.codes(), [("log-none", Severity::Note)]);
}

/// Whoever holds every key writes everything anew: only what was kept elsewhere shows it.
#[test]
fn a_log_rewritten_by_the_key_holders_is_shown_by_what_was_kept() {
    let old = World::new().signed();
    let mut lines = old.lines.clone();
    lines[9].hash = leaf(&[b"another truth"]);
    let mut new = World::of(lines).signed();
    assert_eq!(new.codes(), [], "nothing inside the folder shows it");
    for (leaves, held) in [(9, Held::Holds), (10, Held::Differs), (20, Held::Differs)] {
        let mut kept = old.clone();
        kept.keep(leaves);
        new.kept.push(kept.kept.remove(0));
        let read = |place| new.hash(place);
        assert_eq!(holds(&new.kept.last().unwrap().kept, 20, read).unwrap(), held);
    }
    let report = new.report();
    let codes: Vec<_> = report.findings.iter().map(|found| found.code).collect();
    assert_eq!(codes, ["log-kept-holds", "log-kept-differs", "log-kept-differs"]);
    // What agrees bounds where the difference begins.
    let said = report.findings[1].words.to_string();
    assert!(said.ends_with("one of the entries 10 to 10"), "{said}");
    let proved = prove_kept(&new.subject(), |place| new.hash(place)).unwrap();
    let codes: Vec<_> = proved.findings.iter().map(|found| found.code).collect();
    assert_eq!(codes, ["log-kept-holds", "log-kept-differs", "log-kept-differs"]);
    // With the list of leaves that was kept beside it, the leaf is named.
    new.kept[2].first = Some((10, old.lines[9].clone()));
    let said = new.report().findings[2].words.to_string();
    assert!(said.ends_with("leaf 10 differs first, entry 5 of J-2"), "{said}");
}

/// Two heads of one length that disagree: one of those who kept them was shown another log, whichever of
/// the two the folder agrees with, and also when it is shorter than both.
#[test]
fn two_kept_checkpoints_of_one_length_that_disagree_are_told() {
    let mut old = World::new().signed();
    let mut lines = old.lines.clone();
    lines[9].hash = leaf(&[b"another truth"]);
    let mut other = World::of(lines).signed();
    old.keep(12);
    other.keep_whole(12);
    other.keep(9);
    old.kept.extend(other.kept);
    let errors = |world: &World| -> Vec<_> {
        let found = world.report().findings.into_iter();
        found.filter(|one| one.severity == Severity::Error).map(|one| one.code).collect()
    };
    assert_eq!(errors(&old), ["log-kept-differs", "log-kept-contradicts"]);
    let found = old.report().findings;
    let differs = found.iter().find(|one| one.code == "log-kept-differs").unwrap();
    assert!(differs.words.to_string().ends_with("one of the entries 10 to 12"), "{differs:?}");
    let told = found.iter().find(|one| one.code == "log-kept-contradicts").unwrap();
    assert_eq!(told.expected.to_string(), old.kept[0].kept.digits());
    assert_eq!(told.found.to_string(), old.kept[1].kept.digits());
    let proved = prove_kept(&old.subject(), |place| old.hash(place)).unwrap();
    assert!(proved.findings.iter().any(|one| one.code == "log-kept-contradicts"));
    let mut lines = old.lines.clone();
    lines.truncate(5);
    old.relisted(lines);
    assert!(errors(&old).contains(&"log-kept-contradicts"));
    // Of different lengths, or of one root in two forms, nothing contradicts.
    let mut agreed = World::new().signed();
    [9, 12].into_iter().for_each(|leaves| agreed.keep(leaves));
    agreed.keep_whole(12);
    assert_eq!(errors(&agreed), [""; 0]);
}

/// The checkpoints are of 22:41; each row is an entry, the time it states, and what is said of it.
#[test]
fn an_entry_states_a_time_that_fits_the_checkpoints_around_it() {
    let check = |own: usize, kept: &[usize], (entry, at), expected: &[(&str, Severity)]| {
        let mut world = World::new();
        world.checkpoint = Some(world.note(own).print().into_bytes());
        kept.iter().for_each(|leaves| world.keep_whole(*leaves));
        world.times.insert(key(entry), at);
        let codes = world.codes().into_iter().filter(|(code, _)| code.starts_with("log-time"));
        assert_eq!(codes.collect::<Vec<_>>(), expected, "{own} {kept:?} {entry} {at}");
        world.report().findings.into_iter().map(|one| one.words.to_string()).collect::<String>()
    };
    let (later, earlier) = ("log-time-later", "log-time-earlier");
    // Entry 3 of J-1 is leaf 5, entry 12 is leaf 20.
    check(20, &[], (3, "2026-11-26T22:42:59+01:00"), &[]);
    check(20, &[], (3, "2026-11-26T21:43:01Z"), &[(later, Severity::Note)]);
    check(17, &[], (12, "2026-11-26T22:39:01+01:00"), &[]);
    check(17, &[], (12, "2026-11-26T22:38:59+01:00"), &[(earlier, Severity::Note)]);
    let said = check(20, &[17], (12, "2026-11-26T21:41:00+01:00"), &[(earlier, Severity::Warning)]);
    assert!(said.contains("by up to 3600 s; the first is leaf 20, entry 12 of J-1"), "{said}");
    check(
        20,
        &[5],
        (3, "2026-11-26T22:45:00+01:00"),
        &[(later, Severity::Note), (later, Severity::Warning)],
    );
    check(20, &[4], (3, "2026-11-26T22:45:00+01:00"), &[(later, Severity::Note)]);
}

#[test]
fn a_cut_tail_is_shown_by_what_was_kept() {
    let mut old = World::new();
    old.keep(20);
    let mut lines = old.lines.clone();
    lines.truncate(15);
    let mut new = World::of(lines).signed();
    assert_eq!(new.codes(), []);
    new.kept = old.kept.clone();
    assert_eq!(new.codes(), [("log-kept-longer", Severity::Error)]);
    let (mut gone, mut lines) = (old, Vec::new());
    std::mem::swap(&mut gone.lines, &mut lines);
    gone.leaves = None;
    assert!(gone.codes().contains(&("log-kept-longer", Severity::Error)));
}

/// Hashes that lie about the tree do not make up a proof.
#[test]
fn a_proof_over_false_hashes_does_not_hold() {
    let mut world = World::new();
    world.keep(12);
    let kept = world.kept[0].kept.clone();
    for place in 0..world.hashes.len() {
        let mut false_one = world.clone();
        false_one.hashes[place][3] ^= 1;
        let mut is_read = false;
        let held = holds(&kept, 20, |at| {
            is_read |= at == place as u64;
            false_one.hash(at)
        });
        // One that comes after the kept leaves changes only today's root.
        if is_read && (place as u64) < crate::log::tree::kept_hashes(12) {
            assert_eq!(held.unwrap(), Held::Differs, "hash {place}");
        }
    }
}

#[test]
fn a_kept_checkpoint_is_proved_in_the_height_of_the_tree() {
    let mut growing = Growing::default();
    let mut hashes = Vec::new();
    for n in 0_u64..20_000 {
        hashes.extend(growing.push(leaf(&[&n.to_be_bytes()])));
    }
    let read = |place: u64| Ok::<_, Infallible>(hashes[usize::try_from(place).unwrap()]);
    for leaves in [1, 2, 4_095, 16_384, 19_999, 20_000] {
        let old = crate::log::tree::root(leaves, read).unwrap();
        let kept = Kept::parse(short(MACHINE, leaves, &old).as_bytes(), DOMAIN).unwrap();
        let reads = Cell::new(0);
        let held = holds(&kept, 20_000, |place| {
            reads.set(reads.get() + 1);
            read(place)
        });
        assert_eq!(held.unwrap(), Held::Holds);
        assert!(reads.get() <= 4 * 15, "{} reads for {leaves}", reads.get());
    }
}

#[test]
fn findings_of_single_leaves_are_bounded() {
    let lines = (1..=400).map(|n| line("J-1", n)).collect();
    let mut world = World::of(lines).signed();
    world.on_record.clear();
    assert_eq!(world.codes().len(), super::MOST_FINDINGS);
}
