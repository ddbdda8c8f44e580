//! Records are never lost: killed writers, a full disk, a folder nobody may write to, a wrong clock.
//!
//! What a writer was told is added must be there afterwards, whole, whatever happened to others.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use chrono::Local;
use witnessmark::audit::{Report, Severity, Subject, audit_record};
use witnessmark::canonical::sha256_hex;
use witnessmark::finding::Findings;
use witnessmark::log::line::Line;
use witnessmark::log::store::Writer;
use witnessmark::log::tree;
use witnessmark::packet;
use witnessmark::plant::load;
use witnessmark::record::compose::{self, Desk, Raise, Request};
use witnessmark::record::people::{Person, Term};
use witnessmark::record::store::{self, Locked};
use witnessmark::record::{People, SigningKey, TrustList, entry, seal_all};

use crate::commands::{Crew, LEAD, TECHNICIAN};
use crate::dice::Dice;
use crate::plant::{Plant, Run, files_of};

/// So many processes are killed while they write.
const KILLS: usize = 200;
/// So many write at the same time, as fast as they can, beside one `signoff`.
const AT_ONCE: usize = 5;
/// Rounds on one record; it grows, and each of them reads it whole.
const ROUNDS: usize = 4;
const DOMAIN: &str = "plant.example";

/// What one `signoff` adds.
const STEPS: [&str; 3] = ["1", "2", "3"];

/// The plant as a whole holds, by the program's own audit; gives the number of entries.
#[track_caller]
fn whole(plant: &Plant) -> usize {
    let run = plant.run(&["audit", "PLANT", "--json", "--entries"]);
    let audit = run.json();
    // Reports of records and of logs; only the former have entries.
    let all = |key: &str| -> Vec<serde_json::Value> {
        let reports = ["records", "logs"].iter().filter_map(|kind| audit[kind].as_array());
        let lists = reports.flatten().filter_map(|report| report[key].as_array());
        lists.flatten().cloned().collect()
    };
    let (entries, findings) = (all("entries"), all("findings"));
    let bad: Vec<_> = findings.iter().filter(|finding| finding["severity"] == "error").collect();
    assert!(bad.is_empty() && run.code <= 1, "{bad:#?}\n{}", run.stderr);
    entries.len()
}

/// What is needed to audit a record over and over without starting the program.
struct Judge {
    people: People,
    trust: TrustList,
}

impl Judge {
    fn of(plant: &Plant) -> Judge {
        let loaded = load::load(&plant.folder()).unwrap().plant.unwrap();
        let people = packet::prepare(&mut Findings::default(), &loaded).people;
        Judge { people, trust: TrustList::parse(plant.read("allowed_signers").as_bytes()).0 }
    }

    /// The record holds, and every entry that was acknowledged is in it as it was.
    #[track_caller]
    fn holds(&self, folder: &Path, acknowledged: &[String]) -> Report {
        let raw = store::read(folder).unwrap();
        let report = audit_record(&Subject {
            job: "J-1",
            raw: &raw,
            trust: &self.trust,
            people: &self.people,
            domain: DOMAIN,
            now: Some(Local::now().fixed_offset()),
            current_packet: None,
        });
        let bad: Vec<_> =
            report.findings.iter().filter(|f| f.severity == Severity::Error).collect();
        assert!(bad.is_empty(), "{bad:#?}\nstrays: {:#?}", raw.strays);
        let on_disk: BTreeSet<&str> = report.entries.iter().map(|e| e.digest.as_str()).collect();
        for digest in acknowledged {
            assert!(on_disk.contains(digest.as_str()), "{digest} was acknowledged");
        }
        report
    }
}

/// What a process acknowledged, and whether it was killed.
#[derive(Default)]
struct Fate {
    killed: bool,
    acknowledged: Vec<String>,
}

/// A process that writes and is killed, so long after it first holds the lock.
fn killed(crew: &Crew, mut command: Command, after: Duration) -> Fate {
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let own = format!("process {} ", child.id());
    let lock = crew.record().join(".lock");
    let writes = || fs::read_to_string(&lock).is_ok_and(|holder| holder.starts_with(&own));
    while child.try_wait().unwrap().is_none() && !writes() {
        thread::sleep(Duration::from_micros(200));
    }
    thread::sleep(after);
    let _ = child.kill();
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let killed = output.status.signal() == Some(9);
    let code = output.status.code();
    // Too many wait for the lock: that is said, and nothing is added.
    assert!(killed || matches!(code, Some(0 | 2)), "{code:?} {said} {output:?}");
    let added = |line: &str| Some(line.strip_prefix("added ")?.to_owned());
    let mut acknowledged: Vec<String> = said.lines().filter_map(added).collect();
    if code == Some(0) {
        let entries = serde_json::from_str::<serde_json::Value>(&said).unwrap()["entries"].clone();
        assert_eq!(entries.as_array().unwrap().len(), STEPS.len());
        acknowledged.extend(noted(crew, NOTE));
    }
    Fate { killed, acknowledged }
}

const NOTE: &str = "Loose.";

/// Digests of the entries of `signoff`, which are acknowledged when it ends by itself.
fn noted(crew: &Crew, note: &str) -> Vec<String> {
    let raw = store::read(&crew.record()).unwrap();
    let says = |json: &&[u8]| entry::parse(json).unwrap().note.as_deref() == Some(note);
    raw.entries.iter().map(|e| e.json.as_slice()).filter(says).map(sha256_hex).collect()
}

/// A process of this test's own that adds entry after entry, each acknowledged once it is added.
fn writer(crew: &Crew) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(["crash::writes_until_it_is_killed", "--exact", "--nocapture"]);
    command.env("WRITES_INTO", crew.plant.beside(""));
    command
}

/// Does nothing unless it is started by the test below.
#[test]
fn writes_until_it_is_killed() {
    let Some(scratch) = std::env::var_os("WRITES_INTO").map(PathBuf::from) else { return };
    let key = fs::read_to_string(scratch.join(TECHNICIAN)).unwrap();
    let key = SigningKey::from_openssh(&key, None).unwrap();
    for number in 1.. {
        let note = format!("Loose, {number}.");
        for json in add(&scratch.join("plant"), &key, &note, Duration::ZERO) {
            println!("added {}", sha256_hex(&json));
        }
        thread::sleep(Duration::from_millis(2));
    }
}

/// Adds an entry by way of the library, as `signoff` does; gives its bytes.
fn add(plant: &Path, key: &SigningKey, reason: &str, ahead: Duration) -> Vec<Vec<u8>> {
    let mut locked = Locked::open(&plant.join("records/J-1"), TECHNICIAN).unwrap();
    let at = (Local::now() + ahead).fixed_offset();
    let bytes = locked.record().packet.clone().unwrap();
    let packet: packet::Packet = serde_json::from_slice(&bytes).unwrap();
    let past = compose::past(locked.record()).unwrap();
    let (digest, fingerprint) = (sha256_hex(&bytes), key.public().fingerprint());
    let roles = vec![Term { role: "technician".to_owned(), from: at.date_naive(), until: None }];
    let person = Person { id: TECHNICIAN.to_owned(), name: "Technician One".to_owned(), roles };
    let (packet, people) = (&packet, &People::from_iter([person]));
    let (past, digest, key_name) = (&past, &digest, &fingerprint);
    let desk = Desk { packet, digest, past, people, by: TECHNICIAN, key: key_name, at };
    let raise = vec![Raise { what: packet.steps[1].id.clone(), reason: reason.to_owned() }];
    let entries = compose::compose(&desk, &Request { raise, ..Request::default() }).unwrap();
    let (_, prev) = locked.record().next();
    let signed = seal_all(entries, &prev, key, DOMAIN).unwrap();
    let bytes = signed.iter().map(|signed| signed.json.clone()).collect();
    let mut log = Writer::open(plant, &packet.machine.id).unwrap();
    log.intend("J-1", &signed).unwrap();
    locked.append_all(signed).unwrap();
    log.commit().unwrap();
    bytes
}

#[test]
fn killed_writers_lose_nothing_that_was_acknowledged() {
    let (mut dice, begun) = (Dice::new(1_910_147), Instant::now());
    let crew = Crew::new();
    crew.begin();
    let (judge, first) = (Judge::of(&crew.plant), files_of(&crew.record()));
    let first_logs = files_of(&crew.plant.folder().join("logs"));
    let (mut kills, mut of_signoff, mut acknowledged, mut entries) = (0, 0, 0, 0);
    while kills < KILLS {
        lay(&crew.record(), &first);
        lay(&crew.plant.folder().join("logs"), &first_logs);
        let mut told: Vec<String> = Vec::new();
        for _ in 0..ROUNDS {
            let mut words: Vec<&str> = STEPS.iter().flat_map(|step| ["--raise", step]).collect();
            words.extend(["--reason", NOTE, "--json"]);
            // Every second `signoff` may end; until then the others are killed.
            let patience = if dice.one_in(2) { 20_000 } else { 1_000_000 };
            let mut all = vec![(crew.command(LEAD, LEAD, &words), patience)];
            all.extend((0..AT_ONCE).map(|_| (writer(&crew), 250_000)));
            let fates: Vec<Fate> = thread::scope(|scope| {
                let crew = &crew;
                let mut run = |(command, most): (Command, i64)| {
                    let after = Duration::from_micros(dice.between(0, most).unsigned_abs());
                    scope.spawn(move || killed(crew, command, after))
                };
                let running: Vec<_> = all.into_iter().map(&mut run).collect();
                running.into_iter().map(|one| one.join().unwrap()).collect()
            });
            kills += fates.iter().filter(|fate| fate.killed).count();
            of_signoff += usize::from(fates[0].killed);
            told.extend(fates.into_iter().flat_map(|fate| fate.acknowledged));
            judge.holds(&crew.record(), &told);
        }
        // Whatever was left behind, the next one signs on.
        crew.sign(LEAD, &["--raise", "1", "--reason", "Still loose."]).ends(0);
        entries += whole(&crew.plant);
        told.sort();
        told.dedup();
        acknowledged += told.len();
    }
    println!(
        "{kills} killed, {of_signoff} of them signoff; {acknowledged} entries acknowledged by them, \
         {entries} on record; {:?}",
        begun.elapsed()
    );
    assert!(acknowledged > KILLS && acknowledged <= entries, "{acknowledged} of {entries}");
}

/// Puts these files into a folder, and nothing else.
fn lay(folder: &Path, files: &BTreeMap<String, Vec<u8>>) {
    let _ = fs::remove_dir_all(folder);
    for (name, bytes) in files {
        let path = folder.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}

/// Every state that a kill can leave behind, made by hand: between any two calls that change the
/// folder. Each is no error, and the next sign-off goes on.
#[test]
fn a_kill_between_any_two_steps_leaves_a_record_that_goes_on() {
    let crew = Crew::new();
    crew.begin();
    let logs = crew.plant.folder().join("logs");
    let (before, log_before) = (files_of(&crew.record()), files_of(&logs));
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let after = files_of(&crew.record());
    let (json, signature) = (&after["000002.json"], &after["000002.json.sig"]);
    let aside = |name: &str| format!(".{name}.4711-0.new");
    let (aside_json, aside_signature) = (aside("000002.json"), aside("000002.json.sig"));
    let half = |bytes: &[u8]| bytes[..bytes.len() / 2].to_vec();
    let states: [&[(&str, Vec<u8>)]; 9] = [
        &[(".lock", b"process 4711 somebody".to_vec())],
        &[(&aside_signature, vec![])],
        &[(&aside_signature, half(signature))],
        &[(&aside_signature, signature.clone()), (&aside_json, half(json))],
        &[(&aside_signature, signature.clone()), (&aside_json, json.clone())],
        &[("000002.json.sig", signature.clone()), (&aside_signature, signature.clone())],
        &[("000002.json.sig", signature.clone()), (&aside_json, json.clone())],
        &[("000002.json.sig", signature.clone())],
        &[
            ("000002.json.sig", signature.clone()),
            ("000002.json", json.clone()),
            (&aside_json, json.clone()),
        ],
    ];
    // The log says first what is about to be written: one leaf is there, the second comes.
    let hash = tree::leaf(&[json, signature]);
    let line = Line { hash, entry: 2, record: "J-1".to_owned() };
    for (number, state) in states.into_iter().enumerate() {
        lay(&crew.record(), &before);
        lay(&logs, &log_before);
        if number > 0 {
            fs::write(logs.join("line-1/intent"), format!("1\n{}", line.print())).unwrap();
        }
        for (name, bytes) in state {
            fs::write(crew.record().join(name), bytes).unwrap();
        }
        let is_written = state.iter().any(|(name, _)| *name == "000002.json");
        assert_eq!(whole(&crew.plant), 1 + usize::from(is_written), "state {number}");
        let next = if is_written { "3" } else { "2" };
        crew.sign(TECHNICIAN, &["--performed", next]).ends(0);
        assert_eq!(whole(&crew.plant), 2 + usize::from(is_written), "state {number}");
        crew.plant.run(&["audit", "PLANT"]).ends(0);
    }
}

/// The very first sign-off is killed before it froze the packet.
#[test]
fn a_record_that_was_never_begun_is_no_record() {
    let crew = Crew::new();
    fs::create_dir_all(crew.record()).unwrap();
    fs::write(crew.record().join(".packet.json.4711-0.new"), "{").unwrap();
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("0 records");
    crew.begin();
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("1 entry");
}

/// The disk is full after the packet was frozen: the next sign-off signs it, or, when the files have
/// changed since, puts it aside and signs the new one.
#[test]
fn a_packet_that_was_frozen_and_not_signed_is_gone_on_with() {
    let crew = Crew::new();
    crew.begin();
    let begun = files_of(&crew.record());
    let frozen: BTreeMap<_, _> =
        begun.into_iter().filter(|(name, _)| name == "packet.json").collect();
    let only_frozen = || {
        let _ = fs::remove_dir_all(crew.plant.folder().join("logs"));
        lay(&crew.record(), &frozen);
    };
    only_frozen();
    crew.plant.run(&["signoff", "PLANT", "J-1"]).ends(0).says("J-1: open, 0 entries");
    crew.sign(TECHNICIAN, &["--performed", "1"]).ends(2).complains("--sheet");
    crew.begin();
    assert_eq!(whole(&crew.plant), 1);
    only_frozen();
    crew.plant.edit("jobs/J-1.yaml", "shift: early", "shift: late");
    crew.begin();
    let files = files_of(&crew.record());
    assert_eq!(files["packet.json.aside-1"], frozen["packet.json"]);
    assert_ne!(files["packet.json"], frozen["packet.json"]);
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("packet.json.aside-1");
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    assert_eq!(whole(&crew.plant), 2);
}

/// A sign-off that fails in the way given leaves every file as it was, but for what is aside.
#[track_caller]
fn changes_nothing(crew: &Crew, run: Command, says: &str) {
    let before = digests(crew);
    let run = Run::of(run).ends(2).complains(says);
    assert!(!run.stderr.contains("panicked"), "{}", run.stderr);
    assert_eq!(digests(crew), before, "{says}");
}

/// Every file of the plant, but for what a log says is about to be written: the next writer looks.
fn digests(crew: &Crew) -> BTreeMap<String, String> {
    let files = files_of(&crew.plant.folder()).into_iter();
    let kept = files.filter(|(name, _)| !name.ends_with("/intent"));
    kept.map(|(name, bytes)| (name, sha256_hex(&bytes))).collect()
}

/// `signoff` of three entries, as words for a shell.
fn three(crew: &Crew) -> String {
    let plain = crew.command(TECHNICIAN, TECHNICIAN, &["--performed", "2", "--performed", "3"]);
    let words = std::iter::once(plain.get_program()).chain(plain.get_args());
    words.map(|word| format!("'{}'", word.to_str().unwrap())).collect::<Vec<_>>().join(" ")
}

fn shell(crew: &Crew, script: &str) -> Command {
    let mut command = Command::new("sh");
    command.args(["-c", script]).current_dir(crew.plant.beside("")).env("LC_ALL", "C");
    command
}

/// A file that may not grow any more is what a full disk is to a writer. Source: setrlimit(2): with
/// the signal ignored, a write past the limit fails with EFBIG.
#[test]
fn a_full_disk_is_told_and_changes_nothing() {
    let crew = Crew::new();
    crew.begin();
    // The signature fits into one block, the entry does not.
    let note = format!(" --note '{}'", "A long remark. ".repeat(100));
    for blocks in [0, 1] {
        let script = format!("trap '' XFSZ; ulimit -f {blocks}; exec {}{note}", three(&crew));
        changes_nothing(&crew, shell(&crew, &script), "nothing was added");
    }
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    assert_eq!(whole(&crew.plant), 2);
}

/// The same on a small file system that is really full; only where one may be mounted.
#[test]
fn a_full_file_system_is_told_and_changes_nothing() {
    let crew = Crew::new();
    crew.begin();
    let script = format!(
        "mkdir small && mount -t tmpfs -o size=2m none small && cp -r plant small/ && \
         cd small && cp ../{TECHNICIAN} . && \
         (dd if=/dev/zero of=filler bs=512 2>/dev/null || true) && \
         before=$(find plant/records -type f | sort | xargs sha256sum) && \
         {{ {} ; code=$?; }} && \
         after=$(find plant/records -type f | sort | xargs sha256sum) && \
         rm filler && {} > /dev/null && \
         [ \"$before\" = \"$after\" ] && echo \"unchanged, ended with $code\"",
        three(&crew),
        three(&crew),
    );
    let mut command = Command::new("unshare");
    command.args(["-m", "sh", "-c", &script]).current_dir(crew.plant.beside("")).env("LC_ALL", "C");
    let allowed = Command::new("unshare").args(["-m", "true"]).output();
    if !allowed.is_ok_and(|run| run.status.success()) {
        return println!("no file system may be mounted here");
    }
    let run = Run::of(command).ends(0).says("unchanged, ended with 2");
    run.complains("No space left on device").complains("nothing was added");
}

#[test]
fn a_folder_that_may_not_be_written_is_told_and_changes_nothing() {
    let crew = Crew::new();
    crew.begin();
    let scratch = crew.plant.beside("");
    // Also for root: as somebody else, who may read all of it.
    let open = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    open(&scratch, 0o755);
    open(&crew.plant.beside(TECHNICIAN), 0o644);
    open(&crew.record(), 0o555);
    let is_root = Command::new("id").arg("-u").output().unwrap().stdout == b"0\n";
    let other = if is_root { "setpriv --reuid 65534 --regid 65534 --clear-groups " } else { "" };
    let script = format!("exec {other}{}", three(&crew));
    changes_nothing(&crew, shell(&crew, &script), "Permission denied");
    open(&crew.record(), 0o755);
}

#[test]
fn a_clock_that_was_set_back_is_told_and_changes_nothing() {
    let crew = Crew::new();
    crew.begin();
    let key = fs::read_to_string(crew.plant.beside(TECHNICIAN)).unwrap();
    let key = SigningKey::from_openssh(&key, None).unwrap();
    add(&crew.plant.folder(), &key, "Loose.", Duration::from_secs(3600));
    let before = digests(&crew);
    let run = crew.sign(TECHNICIAN, &["--performed", "2"]).ends(1);
    let said = run.says("refused[time-backwards]").says("s earlier than an entry before it").stdout;
    let digits = said.split_once(": is ").unwrap().1.split(' ').next().unwrap();
    assert!((3500..=3600).contains(&digits.parse::<u32>().unwrap()), "{said}");
    assert!(said.contains("nothing was added"), "{said}");
    assert_eq!(digests(&crew), before);
}

#[test]
fn who_waits_is_told_who_writes() {
    let crew = Crew::new();
    crew.begin();
    let held = Locked::open(&crew.record(), LEAD).unwrap();
    let command = crew.command(TECHNICIAN, TECHNICIAN, &["--performed", "2"]);
    let holder = format!("process {} {LEAD} is writing here", std::process::id());
    let run = Run::of(command).ends(2).complains(&holder);
    run.complains("try again in a moment");
    // Who is only slow does not keep others from signing.
    thread::scope(|scope| {
        let waiting = scope.spawn(|| crew.sign(TECHNICIAN, &["--performed", "2"]));
        thread::sleep(Duration::from_millis(1500));
        drop(held);
        waiting.join().unwrap().ends(0);
    });
    assert_eq!(whole(&crew.plant), 2);
}

/// Who reads a log waits for its writer, and not for ever.
#[test]
fn who_reads_a_log_is_told_who_writes() {
    let crew = Crew::new();
    crew.begin();
    let held = Writer::open(&crew.plant.folder(), "line-1").unwrap();
    let holder = format!("process {} is writing here", std::process::id());
    let begun = Instant::now();
    crew.plant.run(&["audit", "PLANT"]).ends(2).complains(&holder);
    assert!(begun.elapsed() >= Duration::from_secs(10));
    drop(held);
    assert_eq!(whole(&crew.plant), 1);
}
