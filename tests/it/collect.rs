//! `collect`: copies of a plant that went different ways.

use std::fs;
use std::path::PathBuf;

use chrono::Local;

use crate::commands::{Crew, LEAD, TECHNICIAN};
use crate::keys::{revoke, written};
use crate::plant::{Run, copy_folder, files_of};

/// A plant with one entry, and a copy of it.
struct Two {
    crew: Crew,
}

impl Two {
    fn new() -> Two {
        let crew = Crew::new();
        crew.begin();
        let two = Two { crew };
        copy_folder(&two.crew.plant.folder(), &two.copy());
        two
    }

    fn copy(&self) -> PathBuf {
        self.crew.plant.beside("copy")
    }

    /// `signoff` on the copy.
    fn sign_there(&self, by: &str, words: &[&str]) {
        let all = [&["signoff", "copy", "J-1", "--by", by, "--key", by], words].concat();
        self.crew.plant.run(&all).ends(0);
    }

    fn collect(&self) -> Run {
        let before = files_of(&self.copy());
        let run = self.crew.plant.run(&["collect", "PLANT", "copy"]);
        assert_eq!(files_of(&self.copy()), before, "the copy is only read");
        run
    }

    fn folders(&self) -> Vec<String> {
        let listing = fs::read_dir(self.crew.plant.folder().join("records")).unwrap();
        let name = |entry: fs::DirEntry| entry.file_name().into_string().unwrap();
        let mut names: Vec<String> = listing.map(|entry| name(entry.unwrap())).collect();
        names.sort();
        names
    }
}

#[test]
fn what_was_signed_on_the_copy_is_taken_in_once() {
    let two = Two::new();
    two.collect().ends(0).says("J-1: the same").says("0 entries taken in");
    two.sign_there(TECHNICIAN, &["--performed", "2", "--performed", "3"]);
    two.collect().ends(0).says("J-1: 2 entries taken in");
    let (ours, theirs) = (files_of(&two.crew.record()), files_of(&two.copy().join("records/J-1")));
    assert_eq!(ours, theirs, "byte for byte");
    two.crew.plant.run(&["audit", "PLANT"]).ends(0).says("3 entries");
    two.collect().ends(0).says("J-1: the same");
    // Signing goes on here; the copy is behind then.
    two.crew.sign(TECHNICIAN, &["--performed", "4"]).ends(0);
    two.collect().ends(0).says("J-1: the copy is behind");
    two.crew.plant.run(&["audit", "PLANT"]).ends(0).says("4 entries");
}

#[test]
fn a_record_that_is_not_here_is_taken_in_whole() {
    let two = Two::new();
    two.sign_there(TECHNICIAN, &["--performed", "2"]);
    for folder in ["records", "logs"] {
        let _ = fs::remove_dir_all(two.crew.plant.folder().join(folder));
    }
    two.collect().ends(0).says("J-1: was not here; taken in with 2 entries");
    two.crew.plant.run(&["audit", "PLANT"]).ends(0).says("2 entries");
}

#[test]
fn where_both_went_on_both_are_kept_and_the_first_difference_is_named() {
    let two = Two::new();
    two.sign_there(LEAD, &["--raise", "2", "--reason", "A kit is missing."]);
    two.crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    let ours = files_of(&two.crew.record());
    let run = two.collect().ends(1).says("J-1: somebody signed here and on the copy");
    let run = run.says("entry 2 is the first that differs. Here: ").says("Technician One: ");
    assert!(run.stdout.contains("There: ") && run.stdout.contains("Lead Two: "), "{}", run.stdout);
    assert_eq!(files_of(&two.crew.record()), ours, "nothing of ours is changed");
    let [own, kept] = two.folders().try_into().unwrap();
    assert!(own == "J-1" && kept.starts_with("J-1.copy-"), "{kept}");
    let plant = two.crew.plant.folder();
    let (kept_files, theirs) =
        (files_of(&plant.join("records").join(&kept)), files_of(&two.copy().join("records/J-1")));
    assert_eq!(kept_files, theirs, "byte for byte");
    // Once more: nothing new, and still said.
    let again = two.crew.plant.run(&["collect", "PLANT", "copy", "--json"]).ends(1).json();
    assert_eq!(
        (&again[0]["outcome"], &again[0]["differs"]["entry"]),
        (&"diverged".into(), &2.into())
    );
    assert_eq!(again[0]["kept_as"], *kept);
    assert_eq!(two.folders().len(), 2);
    // An audit and the site say so as long as it is there; signing goes on.
    let said = format!("another history of this record is kept in {kept}: entry 2 is the first");
    let audit = two.crew.plant.run(&["audit", "PLANT"]).ends(1);
    assert!(!audit.stdout.contains("error["), "{}", audit.stdout);
    audit.says("warning[copy-diverged]").says(&said);
    two.crew.plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says(&said);
    two.crew.sign(TECHNICIAN, &["--performed", "3"]).ends(0);
}

/// What a stopped `collect` left of another history: the next one goes on with it.
#[test]
fn an_interrupted_copy_is_gone_on_with() {
    let two = Two::new();
    two.sign_there(LEAD, &["--raise", "2", "--reason", "A kit is missing."]);
    two.crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
    two.collect().ends(1);
    let kept = two.crew.plant.folder().join("records").join(&two.folders()[1]);
    let whole = files_of(&kept);
    for names in [&["000002.json.sig", "000002.json"][..], &["packet.json"]] {
        for name in whole.keys().rev().take_while(|name| *name >= &names[0].to_owned()) {
            let _ = fs::remove_file(kept.join(name));
        }
        names.iter().for_each(|name| drop(fs::remove_file(kept.join(name))));
        two.collect().ends(1);
        assert_eq!(files_of(&kept), whole, "{names:?}");
    }
}

#[test]
fn a_copy_that_does_not_hold_is_left() {
    let two = Two::new();
    two.sign_there(TECHNICIAN, &["--performed", "2"]);
    let entry = two.copy().join("records/J-1/000002.json");
    let text = fs::read_to_string(&entry).unwrap();
    fs::write(&entry, text.replace("Technician One", "Technician Two")).unwrap();
    let before = files_of(&two.crew.plant.folder());
    let run = two.collect().ends(1).says("J-1: the copy does not hold");
    run.says("error[signature-bad]: entry 2").says("0 entries taken in");
    assert_eq!(files_of(&two.crew.plant.folder()), before);
}

#[test]
fn another_packet_is_another_history() {
    let two = Two::new();
    fs::remove_dir_all(two.copy().join("records")).unwrap();
    let _ = fs::remove_dir_all(two.copy().join("logs"));
    let recipe = two.copy().join("recipes/large-pouch.yaml");
    let text = fs::read_to_string(&recipe).unwrap();
    fs::write(&recipe, text.replace("fin: 5 mm", "fin: 6 mm")).unwrap();
    let words = ["packet", "copy", "J-1", "--out", "b.html", "--json"];
    let sheet = two.crew.plant.run(&words).ends(0).json();
    let digest = sheet["digest"].as_str().unwrap();
    two.sign_there(TECHNICIAN, &["--sheet", &digest[..12], "--performed", "1"]);
    two.collect().ends(1).says("two different packets were signed").says(digest);
    let audit = two.crew.plant.run(&["audit", "PLANT"]).ends(1);
    audit.says("warning[copy-of-another-packet]");
}

/// A key that was lost after the copy was made: what it signed before is taken in, and said.
#[test]
fn entries_by_a_key_that_was_lost_since_are_told() {
    let two = Two::new();
    two.sign_there(TECHNICIAN, &["--performed", "2"]);
    std::thread::sleep(std::time::Duration::from_millis(1100));
    revoke(&two.crew, TECHNICIAN, &written(Local::now()));
    two.collect().ends(1).says("1 entry taken in").says("by a key that does not count today");
    two.crew.plant.run(&["audit", "PLANT"]).ends(0).says("2 entries");
    // What it signs afterwards is not.
    two.sign_there(TECHNICIAN, &["--performed", "3"]);
    two.collect().ends(1).says("J-1: the copy does not hold").says("error[key-revoked]: entry 3");
}

#[test]
fn a_folder_without_records_and_links_are_refused() {
    let two = Two::new();
    let plant = &two.crew.plant;
    plant.run(&["collect", "PLANT", "nowhere"]).ends(2).complains("has no folder `records`");
    let records = two.copy().join("records");
    fs::rename(records.join("J-1"), plant.beside("elsewhere")).unwrap();
    std::os::unix::fs::symlink(plant.beside("elsewhere"), records.join("J-1")).unwrap();
    let collect = || plant.run(&["collect", "PLANT", "copy"]);
    collect().ends(0).says("0 records looked at").says("J-1");
    fs::remove_dir_all(&records).unwrap();
    std::os::unix::fs::symlink(plant.beside("elsewhere"), &records).unwrap();
    collect().ends(2).complains("link");
}
