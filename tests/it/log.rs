//! The log of a machine: written by signing, proved by `audit`, read by outside programs.

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::Value as Json;
use witnessmark::log::tree::{Growing, leaf};

use crate::commands::{Crew, LEAD, TECHNICIAN};
use crate::plant::{Plant, Run, copy_folder, files_of, root};

const LOG: &str = "logs/line-1";

fn leaves(plant: &Plant) -> Vec<String> {
    plant.read("logs/line-1/leaves").lines().map(str::to_owned).collect()
}

fn short(plant: &Plant) -> String {
    let heads = plant.run(&["checkpoint", "PLANT", "--json"]).ends(0).json();
    heads[0]["short"].as_str().unwrap().to_owned()
}

/// Codes of what an audit found with the log, each with its weight.
fn found(run: &Run) -> Vec<(String, String)> {
    let audit = run.json();
    let log = audit["logs"].as_array().unwrap().iter().find(|report| report["log"] == "line-1");
    let findings = log.unwrap()["findings"].as_array().unwrap();
    let text = |found: &Json, key: &str| found[key].as_str().unwrap().to_owned();
    findings.iter().map(|found| (text(found, "severity"), text(found, "code"))).collect()
}

fn audit(plant: &Plant, kept: &[&str]) -> Run {
    let mut words = vec!["audit", "PLANT", "--json"];
    kept.iter().for_each(|kept| words.extend(["--checkpoint", kept]));
    plant.run(&words)
}

#[track_caller]
fn check(plant: &Plant, kept: &[&str], expected: &[(&str, &str)]) {
    let own = found(&audit(plant, kept));
    let own: Vec<_> = own.iter().map(|(weight, code)| (weight.as_str(), code.as_str())).collect();
    assert_eq!(own, expected);
}

/// A copy of the plant of a crew, with the same keys.
fn copy(crew: &Crew) -> Crew {
    let other = Crew { plant: Plant::small() };
    for (path, _) in files_of(&other.plant.folder()) {
        std::fs::remove_file(other.plant.folder().join(path)).unwrap();
    }
    copy_folder(&crew.plant.beside(""), &other.plant.beside(""));
    other
}

#[test]
fn signing_adds_a_leaf_for_each_entry_and_signs_a_checkpoint() {
    let crew = Crew::new();
    let none = crew.plant.run(&["checkpoint", "PLANT"]).ends(0);
    assert_eq!(none.stdout, "no machine has a log yet\n");
    crew.begin();
    let first = leaves(&crew.plant);
    assert_eq!(first.len(), 1);
    assert!(first[0].ends_with(" 000001 J-1"), "{first:?}");
    crew.sign(LEAD, &["--verified", "1"]);
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let entries = files_of(&crew.record()).into_keys().filter(|name| name.ends_with(".sig"));
    let later = leaves(&crew.plant);
    assert_eq!(later.len(), entries.count());
    assert_eq!(later[0], first[0]);
    let short = short(&crew.plant);
    assert!(short.starts_with(&format!("line-1 {} ", later.len())), "{short}");
    let printed = crew.plant.run(&["checkpoint", "PLANT", "line-1"]).ends(0);
    let note = crew.plant.read("logs/line-1/checkpoint");
    let printed = printed.says(&short).says(&note).says("signed by t.one@plant.example at ");
    assert!(!printed.stdout.contains("came after"), "{}", printed.stdout);
    assert!(note.starts_with(&format!("plant.example/line-1\n{}\n", later.len())), "{note}");
    let names: Vec<String> = files_of(&crew.plant.folder().join(LOG)).into_keys().collect();
    assert_eq!(names, [".lock", "checkpoint", "hashes", "leaves"]);
    check(&crew.plant, &[], &[]);
    crew.plant.run(&["audit", "PLANT"]).ends(0).says(&format!("keep elsewhere: {short}"));
    crew.plant.run(&["checkpoint", "PLANT", "line-9"]).ends(2).complains("line-9");
}

#[test]
fn what_was_kept_is_proved_whether_typed_or_filed() {
    let crew = Crew::new();
    crew.begin();
    let typed = short(&crew.plant);
    std::fs::copy(crew.plant.folder().join(LOG).join("checkpoint"), crew.plant.beside("kept"))
        .unwrap();
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let sloppy = typed.to_uppercase().replacen(' ', "  ", 1).replace('0', "o");
    // The machine's name has a nought or not; only digits of the root are read forgivingly.
    let sloppy = sloppy.replacen(&typed[..8].to_uppercase().replace('0', "o"), &typed[..8], 1);
    let holds = ("note", "log-kept-holds");
    check(&crew.plant, &[&typed, "kept", &sloppy], &[holds, holds, holds]);
    audit(&crew.plant, &[&typed, "kept"]).ends(0);
    // With one job, the record and the kept checkpoint alone.
    let one = crew.plant.run(&["audit", "PLANT", "J-1", "--json", "--checkpoint", "kept"]).ends(0);
    assert_eq!(found(&one), [("note".to_owned(), "log-kept-holds".to_owned())]);
    for bad in ["nothing", "line-1 1 4e3b", "kept.txt"] {
        audit(&crew.plant, &[bad]).ends(2).complains("is of no use");
    }
    std::fs::write(crew.plant.beside("bad"), "two\nlines\n").unwrap();
    audit(&crew.plant, &["bad"]).ends(2).complains("no signature after an empty line");
}

/// Two histories from one beginning, each signed by the holders of the keys: inside each folder
/// nothing is wrong.
#[test]
fn two_histories_are_told_apart_by_what_was_kept() {
    let one = Crew::new();
    one.begin();
    let begun = short(&one.plant);
    let other = copy(&one);
    one.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    other.sign(TECHNICIAN, &["--performed", "2", "--note", "another truth"]).ends(0);
    let kept = short(&one.plant);
    check(&one.plant, &[&kept], &[("note", "log-kept-holds")]);
    check(&other.plant, &[], &[]);
    let differs = [("note", "log-kept-holds"), ("error", "log-kept-differs")];
    check(&other.plant, &[&kept, &begun], &differs);
    let run = other.plant.run(&["audit", "PLANT", "--checkpoint", &kept, "--checkpoint", &begun]);
    run.ends(1).says("the first difference is one of the entries 2 to ");
    // The folder that was kept has the list of leaves: the first that differs is named.
    copy_folder(&one.plant.folder().join(LOG), &other.plant.beside("kept"));
    let run = other.plant.run(&["audit", "PLANT", "--checkpoint", "kept"]).ends(1);
    run.says("error[log-kept-differs-at]").says("leaf 2 differs first, entry 2 of J-1");
    let job = other.plant.run(&["audit", "PLANT", "J-1", "--checkpoint", &kept]).ends(1);
    job.says("error[log-kept-differs]");
}

/// Each attack leaves a record that checks by itself.
#[test]
fn a_cut_tail_and_a_lost_log_are_found() {
    let crew = Crew::new();
    crew.begin();
    let before = copy(&crew);
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let kept = short(&crew.plant);
    let number = leaves(&crew.plant).len();
    // The whole folder as it was yesterday.
    check(&before.plant, &[], &[]);
    check(&before.plant, &[&kept], &[("error", "log-kept-longer")]);
    // The last entry taken out of the record.
    let cut = copy(&crew);
    for end in ["json", "json.sig"] {
        std::fs::remove_file(cut.record().join(format!("{number:06}.{end}"))).unwrap();
    }
    check(&cut.plant, &[], &[("error", "log-entry-gone")]);
    audit(&cut.plant, &[]).ends(1);
    // ... and out of the log too.
    let cut = copy(&crew);
    for end in ["json", "json.sig"] {
        std::fs::remove_file(cut.record().join(format!("{number:06}.{end}"))).unwrap();
    }
    for list in ["leaves", "hashes"] {
        let path = format!("{LOG}/{list}");
        std::fs::copy(before.plant.folder().join(&path), cut.plant.folder().join(&path)).unwrap();
    }
    check(&cut.plant, &[], &[("error", "log-checkpoint-longer")]);
    // No log at all.
    let lost = copy(&crew);
    std::fs::remove_dir_all(lost.plant.folder().join(LOG)).unwrap();
    check(&lost.plant, &[], &[("note", "log-none")]);
    check(&lost.plant, &[&kept], &[("note", "log-none"), ("error", "log-kept-longer")]);
}

#[test]
fn altered_files_are_found() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let flip = |path: &str, at: usize| {
        let other = copy(&crew);
        let file = other.plant.folder().join(path);
        let mut bytes = std::fs::read(&file).unwrap();
        bytes[at] ^= 1;
        std::fs::write(file, bytes).unwrap();
        let codes: Vec<String> =
            found(&audit(&other.plant, &[]).ends(1)).into_iter().map(|(_, code)| code).collect();
        codes
    };
    assert_eq!(flip("records/J-1/000001.json", 30), ["log-entry-changed"]);
    assert_eq!(flip("records/J-1/000001.json.sig", 60), ["log-entry-changed"]);
    assert_eq!(flip("logs/line-1/hashes", 5), ["log-hash"]);
    assert_eq!(
        flip("logs/line-1/checkpoint", 0),
        ["log-checkpoint-other", "log-checkpoint-signature"]
    );
    assert_eq!(
        flip("logs/line-1/leaves", 64),
        ["log-line", "log-lengths", "log-lacks", "log-checkpoint-longer"]
    );
}

#[test]
fn what_was_signed_before_there_was_a_log_is_adopted() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let before = leaves(&crew.plant);
    let older = copy(&crew);
    std::fs::remove_dir_all(older.plant.folder().join("logs")).unwrap();
    check(&older.plant, &[], &[("note", "log-none")]);
    let next = copy(&older);
    let sign = ["checkpoint", "PLANT", "--by", LEAD, "--key", LEAD];
    older.plant.run(&sign).ends(0).says("entries that had no place in the log").says("line-1 ");
    assert_eq!(leaves(&older.plant), before);
    check(&older.plant, &[], &[]);
    // Signing does the same.
    next.sign(TECHNICIAN, &["--performed", "3"]).ends(0).says("had no place in the log");
    assert_eq!(leaves(&next.plant)[..before.len()], before);
    check(&next.plant, &[], &[]);
    // A stranger's key signs nothing.
    let wrong = ["checkpoint", "PLANT", "--by", LEAD, "--key", TECHNICIAN];
    older.plant.run(&wrong).ends(1).says("signer-differs");
}

/// The places of a crash: the entry is on record, its leaf is not.
#[test]
fn a_crash_between_entry_and_leaf_loses_nothing() {
    let crew = Crew::new();
    crew.begin();
    let before = copy(&crew);
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let all = leaves(&crew.plant);
    let had = leaves(&before.plant).len();
    for list in ["leaves", "hashes", "checkpoint"] {
        let path = format!("{LOG}/{list}");
        std::fs::copy(before.plant.folder().join(&path), crew.plant.folder().join(&path)).unwrap();
    }
    let lines: String = all[had..].iter().map(|line| line.clone() + "\n").collect();
    crew.plant.write("logs/line-1/intent", format!("{had}\n{lines}"));
    check(&crew.plant, &[], &[("note", "log-pending")]);
    crew.sign(LEAD, &["--verified", "2"]);
    crew.plant.run(&["checkpoint", "PLANT", "--by", LEAD, "--key", LEAD]).ends(0);
    assert_eq!(leaves(&crew.plant)[..all.len()], all);
    check(&crew.plant, &[], &[]);
}

/// FORMAT.md in another language: leaves from the records, the root, and the note's signature.
const OUTSIDE: &str = r#"
import base64, hashlib, pathlib, struct, subprocess, sys, tempfile
plant, machine = pathlib.Path(sys.argv[1]), sys.argv[2]
h = lambda b: hashlib.sha256(b).digest()
log, leaves = plant / "logs" / machine, []
for line in (log / "leaves").read_text().splitlines():
    stated, number, record = line.split(" ")
    entry = plant / "records" / record / (number + ".json")
    leaves.append(h(b"\0" + entry.read_bytes() + pathlib.Path(str(entry) + ".sig").read_bytes()))
    assert leaves[-1].hex() == stated, line
def root(l):
    if len(l) < 2: return l[0] if l else h(b"")
    k = 1 << (len(l) - 1).bit_length() - 1
    return h(b"\1" + root(l[:k]) + root(l[k:]))
text, lines = (log / "checkpoint").read_text().split("\n\n")
text += "\n"
origin, size, stated, at, signers = text.splitlines()
assert root(leaves[:int(size)]) == base64.b64decode(stated)
assert signers == "signers " + hashlib.sha256((plant / "allowed_signers").read_bytes()).hexdigest()
dash, name, blob = lines.rstrip("\n").split(" ")
blob, keys = base64.b64decode(blob), {}
for line in (plant / "allowed_signers").read_text().splitlines():
    fields = line.split(" ")
    keys[fields[0]] = base64.b64decode(fields[3])[-32:]
key = keys[name]
assert dash == "\u2014" and blob[:4] == h(name.encode() + b"\n\1" + key)[:4]
with tempfile.TemporaryDirectory() as d:
    put = lambda n, b: (pathlib.Path(d, n).write_bytes(b), d + "/" + n)[1]
    der = put("key", bytes.fromhex("302a300506032b6570032100") + key)
    done = subprocess.run(["openssl", "pkeyutl", "-verify", "-pubin", "-keyform", "DER", "-inkey", der,
        "-rawin", "-in", put("text", text.encode()), "-sigfile", put("sig", blob[4:])])
    assert done.returncode == 0
print(len(leaves), "leaves")
"#;

#[test]
fn an_outside_program_finds_the_same_root_and_signature() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let mut python = Command::new("python3")
        .args(["-", "plant", "line-1"])
        .current_dir(crew.plant.beside(""))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("python3 is there");
    python.stdin.take().unwrap().write_all(OUTSIDE.as_bytes()).unwrap();
    let done = python.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&done.stdout);
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    assert!(said.contains(&format!("{} leaves", leaves(&crew.plant).len())), "{said}");
}

/// Who has only the site computes the same root, from the tiles and from the bundles.
#[test]
fn a_site_has_the_log_as_static_files() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let short = short(&crew.plant);
    let published = crew.plant.run(&["publish", "PLANT", "--out", "site"]);
    assert!(!published.stdout.contains("[log-"), "{}", published.stdout);
    let file = |name: &str| std::fs::read(crew.plant.beside("site").join(name)).unwrap();
    let text = |name: &str| String::from_utf8(file(name)).unwrap();
    let list = leaves(&crew.plant);
    let hashes: Vec<u8> = list.iter().flat_map(|line| unhex(&line[..64])).collect();
    assert_eq!(file(&format!("logs/line-1/tile/0/000.p/{}", list.len())), hashes);
    let bundle = file(&format!("logs/line-1/tile/entries/000.p/{}", list.len()));
    let (mut rest, mut growing) = (bundle.as_slice(), Growing::default());
    for line in &list {
        let (length, entry) = rest.split_at(2);
        let length = usize::from(u16::from_be_bytes(length.try_into().unwrap()));
        let own = leaf(&[&entry[..length]]);
        assert_eq!(own.to_vec(), unhex(&line[..64]));
        growing.push(own);
        rest = &entry[length..];
    }
    assert!(rest.is_empty());
    assert!(short.ends_with(&witnessmark::log::checkpoint::short("", 0, &growing.root())[3..]));
    assert_eq!(text("logs/line-1/checkpoint"), crew.plant.read("logs/line-1/checkpoint"));
    assert_eq!(text("logs/line-1/leaves"), crew.plant.read("logs/line-1/leaves"));
    for page in ["logs/line-1.html", "packets/J-1.html", "records/J-1.html"] {
        assert!(text(page).contains(&short), "{page}");
    }
    assert!(text("records/J-1.html").contains("href=\"../logs/line-1.html\""));
    crew.plant.run(&["packet", "PLANT", "J-1", "--out", "sheet.html"]).ends(0);
    let sheet = std::fs::read_to_string(crew.plant.beside("sheet.html")).unwrap();
    assert!(sheet.contains(&short));
    // The published folder is a checkpoint to keep, with its leaves.
    check(&crew.plant, &["site/logs/line-1"], &[("note", "log-kept-holds")]);
    // A log that does not hold is shown and said.
    std::fs::remove_file(crew.record().join("000001.json")).unwrap();
    let run = crew.plant.run(&["publish", "PLANT", "--out", "site"]).ends(1);
    run.says("error[log-entry-gone]: leaf 1: entry 1 of J-1 is not on record any more");
    for page in ["logs/line-1.html", "records/index.html"] {
        assert!(text(page).contains("log-entry-gone"), "{page}");
    }
    let bundles = crew.plant.beside("site/logs/line-1/tile/entries");
    assert!(!bundles.exists(), "a bundle with a hole would be another bundle");
}

fn unhex(text: &str) -> Vec<u8> {
    let byte = |at| u8::from_str_radix(&text[at..at + 2], 16).unwrap();
    (0..text.len()).step_by(2).map(byte).collect()
}

/// The help's first example, on the demo plant; the other one has a key that nobody has.
#[test]
fn the_example_of_the_help_works() {
    let plant = Plant::small();
    copy_folder(&root().join("demo-data"), &plant.beside("demo-data"));
    plant.run(&["checkpoint", "--help"]).ends(0).says("  witnessmark checkpoint demo-data\n");
    plant.run(&["checkpoint", "demo-data"]).ends(0);
}
