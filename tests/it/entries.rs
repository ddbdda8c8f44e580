//! Deviations that are raised, signatures taken back, jobs that are stopped, packets issued anew.

use serde_json::Value as Json;

use crate::commands::{Crew, LEAD, QUALITY, TECHNICIAN};
use crate::plant::{Run, files_of};

const KNIVES: &str = "knives.cover-every-blade";

/// The report on a record of the plant.
fn report(crew: &Crew, name: &str) -> Json {
    let audit = crew.plant.run(&["audit", "PLANT", "--json", "--entries"]).json();
    let all = audit["records"].as_array().unwrap().iter();
    all.into_iter().find(|report| report["job"] == name).cloned().unwrap()
}

/// What was found; notes on the times of a record that a test signs in a second are left out.
fn codes(report: &Json) -> Vec<&str> {
    let findings = report["findings"].as_array().unwrap().iter();
    findings
        .filter(|finding| finding["severity"] != "note")
        .map(|finding| finding["code"].as_str().unwrap())
        .collect()
}

/// The published page at a path, with plain spaces.
fn page(crew: &Crew, path: &str) -> String {
    crew.plant.run(&["publish", "PLANT", "--out", "site"]);
    let page = std::fs::read_to_string(crew.plant.beside("site").join(path)).unwrap();
    page.replace('\u{a0}', " ")
}

#[test]
fn a_raised_deviation_stops_the_release_and_is_seen_on_the_pages() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(TECHNICIAN, &["--raise", "1"]).ends(2).complains("--reason");
    let why = ["--reason", "The floor line is worn off."];
    let raise = [&["--raise", "1"], &why[..]].concat();
    let run = crew.sign(TECHNICIAN, &raise).ends(0);
    run.says("deviation raised; The floor line is worn off.").says("things missing");
    crew.plant
        .run(&["signoff", "PLANT", "J-1"])
        .ends(0)
        .says("raises a deviation, and nobody has accepted it");
    crew.sign(LEAD, &["--release"]).ends(1).says("refused[release-deviation]");
    let standing = crew.plant.run(&["signoff", "PLANT", "J-1", "--json"]).ends(0).json();
    let seq = standing["missing"][0]["answer"]["seq"].to_string();
    crew.sign(LEAD, &["--accept", &seq, "--reason", "x"]).ends(1).says("refused[role-not-held]");
    crew.sign(QUALITY, &["--accept", &seq, "--reason", "Tape was put down."]).ends(0);
    let refused = crew.sign(LEAD, &["--release"]).ends(1).says("refused[release-incomplete]");
    assert!(!refused.stdout.contains("release-deviation"), "{}", refused.stdout);
    let page = page(&crew, "records/J-1.html");
    for piece in [
        ": Technician One (technician) reported a deviation in 1 ",
        "The floor line is worn off; accepted by Quality Three (quality) in entry",
        "<br>What is not right: The floor line is worn off.",
        "I report that this is not as it should be.",
    ] {
        assert!(page.contains(piece), "{piece} is not in {page}");
    }
    let start = std::fs::read_to_string(crew.plant.beside("site/index.html")).unwrap();
    assert!(start.contains(" missing, first: "), "{start}");
}

#[test]
fn a_wrong_signature_is_taken_back_and_stays_on_record() {
    let crew = Crew::new();
    crew.begin();
    crew.sign(QUALITY, &["--take-back", "1", "--reason", "x"])
        .ends(1)
        .says("refused[role-not-held]");
    crew.sign(TECHNICIAN, &["--take-back", "1"]).ends(2).complains("--reason");
    crew.sign(TECHNICIAN, &["--take-back", "1", "--reason", "Not done yet."]).ends(0);
    crew.sign(TECHNICIAN, &["--take-back", "1", "--reason", "x"])
        .ends(1)
        .says("refused[withdraw-target]");
    crew.sign(TECHNICIAN, &["--performed", "1"]).ends(0);
    assert_eq!(codes(&report(&crew, "J-1")), [""; 0]);
    let page = page(&crew, "records/J-1.html");
    let line = "entry 1 (performed) taken back by Technician One (technician) in entry 2: Not done";
    assert!(page.contains(line), "{page}");
}

/// From the command line to the record's page and `verify.py`.
#[test]
fn a_wrong_reading_is_taken_back_and_read_again() {
    let crew = Crew::new();
    crew.begin();
    crew.sign_until(KNIVES);
    let raw = witnessmark::record::store::read(&crew.record()).unwrap();
    let mut entries =
        raw.entries.iter().map(|raw| witnessmark::record::entry::parse(&raw.json).unwrap());
    let taken = entries.rfind(|entry| entry.reading.is_some()).unwrap();
    let (seq, blank) = (taken.seq.to_string(), taken.reading.unwrap().blank);
    let back = ["--take-back", &seq, "--reason", "Read on the wrong gauge."];
    crew.sign(TECHNICIAN, &back).ends(0).says("J-1: open");
    crew.sign(TECHNICIAN, &back).ends(1).says("refused[withdraw-target]");
    let again = format!("{blank}=0.0");
    crew.sign(TECHNICIAN, &["--correct", &again, "--reason", "x"])
        .ends(1)
        .says("correction-target");
    crew.sign(TECHNICIAN, &["--read", &again]).ends(0);
    assert_eq!(codes(&report(&crew, "J-1")), [""; 0]);
    let page = page(&crew, "records/J-1.html");
    assert!(
        page.contains(&format!("entry {seq} (reading) taken back by Technician One")),
        "{page}"
    );
}

#[test]
fn a_job_is_stopped_with_a_word_on_its_locks_and_closed() {
    let crew = Crew::new();
    crew.begin();
    crew.sign_until(KNIVES);
    let stop = ["--abandon", "--reason", "No film of the new width."];
    crew.sign(TECHNICIAN, &stop).ends(1).says("refused[role-not-held]");
    crew.sign(LEAD, &stop).ends(1).says("refused[locks-untold]").says("--locks");
    crew.sign(LEAD, &["--abandon", "--locks", "x"]).ends(2).complains("--reason");
    crew.sign(LEAD, &["--abandon", "--release", "--reason", "x"]).ends(2).complains("--release");
    let locks = ["--locks", "Mains and air stay locked by Technician One."];
    crew.sign(LEAD, &[&stop[..], &locks].concat()).ends(0).says("J-1: abandoned, 0 things missing");
    crew.sign(TECHNICIAN, &["--performed", "1"]).ends(1).says("refused[after-abandoned]");
    let report = report(&crew, "J-1");
    assert_eq!((report["state"].as_str(), codes(&report).len()), (Some("abandoned"), 0));
    let page = page(&crew, "records/J-1.html");
    for piece in [
        "abandoned by Lead Two (lead) in entry",
        "Locks and energy: Mains and air stay locked by Technician One.",
        "Reason: No film of the new width.",
    ] {
        assert!(page.contains(piece), "{piece} is not in {page}");
    }
    crew.plant.run(&["signoff", "PLANT", "J-1"]).ends(0).says("J-1: abandoned");
}

#[test]
fn a_packet_issued_anew_closes_its_record_and_the_next_sign_off_begins_another() {
    let crew = Crew::new();
    crew.begin();
    let anew = ["--supersede", "--reason", "The order was changed."];
    crew.sign(LEAD, &anew).ends(1).says("refused[same-packet]");
    let old = crew.digest();
    crew.plant.edit("jobs/J-1.yaml", "The first order", "The changed order");
    crew.sign(LEAD, &anew).ends(0).says("superseded by a new packet");
    let new = crew.digest();
    assert_ne!(old, new);
    let closed = report(&crew, "J-1");
    assert_eq!((closed["state"].as_str(), codes(&closed).len()), (Some("superseded"), 0));
    // The job's papers are those of the new packet, and its record begins with the first digits of it.
    crew.plant.run(&["signoff", "PLANT", "J-1"]).ends(0).says("J-1: open, 0 entries").says(&new);
    let first = |digest: &str| -> Run {
        crew.sign(TECHNICIAN, &["--sheet", &digest[..12], "--performed", "1"])
    };
    first(&old).ends(1);
    first(&new).ends(0);
    let names: Vec<String> = files_of(&crew.plant.folder().join("records")).into_keys().collect();
    assert!(names.contains(&"J-1.2/000001.json".to_owned()), "{names:?}");
    crew.plant.run(&["audit", "PLANT"]).ends(0).says("2 records");
    crew.plant.run(&["audit", "PLANT", "J-1"]).ends(0).says("2 records");
    let (one, two) = (page(&crew, "records/J-1.html"), page(&crew, "records/J-1.2.html"));
    assert!(one.contains(&format!("The packet that comes in its place: {new}")), "{one}");
    assert!(two.contains(&new) && two.contains("jobs/J-1.html"), "{two}");
    let site = crew.plant.beside("site");
    assert!(site.join("records/J-1.2/000001.json").is_file());

    // A second record of a job whose first is open was not begun by this program.
    let records = crew.plant.folder().join("records");
    for file in ["000002.json", "000002.json.sig"] {
        std::fs::remove_file(records.join("J-1").join(file)).unwrap();
    }
    assert!(codes(&report(&crew, "J-1.2")).contains(&"not-superseded"));
    std::fs::remove_dir_all(records.join("J-1")).unwrap();
    assert!(codes(&report(&crew, "J-1.2")).contains(&"record-missing"));
}

#[test]
fn a_new_packet_that_changed_once_more_is_told() {
    let crew = Crew::new();
    crew.begin();
    crew.plant.edit("jobs/J-1.yaml", "The first order", "The changed order");
    crew.sign(LEAD, &["--supersede", "--reason", "The order was changed."]).ends(0);
    crew.plant.edit("jobs/J-1.yaml", "The changed order", "Changed again");
    let digest = crew.digest();
    crew.sign(TECHNICIAN, &["--sheet", &digest[..12], "--performed", "1"]).ends(0);
    assert!(codes(&report(&crew, "J-1.2")).contains(&"other-packet"));
}

#[test]
fn nobody_accepts_a_deviation_of_a_procedure_that_the_plant_leaves_to_nobody() {
    let crew = Crew::new();
    crew.plant.edit(
        "plant.yaml",
        "accepts_deviation: quality",
        "accepts_deviation: { default: quality, prepare: lead, knives: none }",
    );
    crew.begin();
    crew.plant.run(&["check", "PLANT"]).says("0 errors");
    crew.plant.run(&["packet", "PLANT", "J-1", "--out", "sheet.html"]).ends(0);
    let sheet = std::fs::read_to_string(crew.plant.beside("sheet.html")).unwrap();
    assert!(sheet.contains("Only quality (lead in \u{201c}"), "{sheet}");
    assert!(sheet.contains("Nobody may accept a reading that lies outside."), "{sheet}");
    crew.sign(TECHNICIAN, &["--raise", "1", "--reason", "No kit yet."]).ends(0);
    crew.sign(QUALITY, &["--accept", "2", "--reason", "x"]).ends(1).says("refused[");
    crew.sign(LEAD, &["--accept", "2", "--reason", "The kit comes by noon."]).ends(0);
}
