//! Rules of the plant's own policy: warnings made errors, justified exceptions.

use std::collections::BTreeSet;

use witnessmark::finding::rules::policy::{JUSTIFIABLE, WARNINGS};

use super::{Do, LOCKOUT, MACHINE, PLANT, PREPARE, Row, STORED, row};
use crate::plant::{Plant, root};

pub const ROWS: &[Row] = &[
    row(Do(|plant| raised(plant, "hard-to-reed")), &[("cannot-be-raised", PLANT, 12)]),
    row(Do(|plant| raised(plant, "not-isolated")), &[("cannot-be-raised", PLANT, 12)]),
    // What is not justified in the right way stays an error.
    row(
        Do(|plant| justified(plant, "rule: stage-missing", "rule: not-isolated")),
        &[("stage-missing", LOCKOUT, 46), ("cannot-be-justified", PLANT, 15)],
    ),
    row(
        Do(|plant| justified(plant, "by: l.two", "by: l.too")),
        &[("stage-missing", LOCKOUT, 46), ("unknown-person", PLANT, 18)],
    ),
    row(
        Do(|plant| justified(plant, "by: l.two", "by: t.one")),
        &[("stage-missing", LOCKOUT, 46), ("may-not-justify", PLANT, 18)],
    ),
    row(
        Do(|plant| justified(plant, "by: [lead]", "by: [leed]")),
        &[
            ("stage-missing", LOCKOUT, 46),
            ("unknown-role", PLANT, 13),
            ("may-not-justify", PLANT, 18),
        ],
    ),
    row(
        Do(|plant| justified(plant, "date: 2026-01-05", "date: 2026-02-30")),
        &[("stage-missing", LOCKOUT, 46), ("bad-day", PLANT, 19)],
    ),
    row(
        Do(|plant| justified(plant, "The maker asks for it", " ")),
        &[("stage-missing", LOCKOUT, 46), ("empty-text", PLANT, 21)],
    ),
    row(
        Do(|plant| justified(plant, "step: Stop the machine", "step: Start the machine")),
        &[("stage-missing", LOCKOUT, 46), ("unknown-step", PLANT, 17)],
    ),
    row(
        Do(|plant| justified(plant, "Stop the machine in good order", "Lock each device")),
        &[("stage-missing", LOCKOUT, 46), ("unknown-step", PLANT, 17)],
    ),
    // It is justified, but not on the day of the job.
    row(
        Do(|plant| justified(plant, "date: 2026-01-05", "date: 2026-01-13")),
        &[("stage-missing", LOCKOUT, 46), ("justification-later", PLANT, 19)],
    ),
    row(
        Do(|plant| justified(plant, "until: 2026-01-12", "until: 2026-01-11")),
        &[("stage-missing", LOCKOUT, 46), ("justification-over", PLANT, 20)],
    ),
    row(Do(|plant| add(plant, ENTRY)), &[("justification-unused", PLANT, 15)]),
];

/// Of these a person is inside, or may be, with live energy.
const NEVER: [&str; 7] = [
    "not-isolated",
    "reaches-in",
    "reaches-in-block",
    "locks-on",
    "zone-missing",
    "people-not-clear",
    "control-device",
];

const ENTRY: &str = "findings:
  by: [lead]
  justified:
    - rule: stage-missing
      file: instructions/lockout.md
      step: Stop the machine in good order
      by: l.two@plant.example
      date: 2026-01-05
      until: 2026-01-12
      reason: \"The maker asks for it\"
";

/// Adds to `plant.yaml`.
fn add(plant: &Plant, text: &str) {
    plant.write(PLANT, plant.read(PLANT) + text);
}

fn raised(plant: &Plant, rule: &str) {
    add(plant, &format!("findings: {{ raise: [{rule}] }}\n"));
}

/// A stop without telling people, and an entry that justifies it, with other text in one place.
fn justified(plant: &Plant, from: &str, to: &str) {
    plant.edit(LOCKOUT, "stage: notify", "stage: work");
    add(plant, ENTRY);
    plant.edit(PLANT, from, to);
}

/// The machine's own fault, and an entry that justifies it.
fn justified_machine(plant: &Plant) {
    plant.edit(MACHINE, "sources: [mains, air]", "sources: [mains]");
    add(plant, ENTRY);
    plant.edit(PLANT, "stage-missing", "source-in-no-zone");
    plant.edit(PLANT, "instructions/lockout.md", MACHINE);
    plant.edit(PLANT, "      step: Stop the machine in good order\n", "");
}

#[test]
fn a_justified_error_is_a_warning_and_stands_on_the_packet() {
    let plant = Plant::small();
    justified(&plant, "reason", "reason");
    plant.run(&["check", "PLANT"]).ends(1).says("0 errors, 1 warning").says(
        "warning[stage-missing]: `Stop the machine in good order` comes without a step `notify` \
         that still counts (justified by Lead Two, 2026-01-05: The maker asks for it)",
    );
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("p.html")).unwrap();
    let (front, _) = page.split_once("id=\"energy\"").unwrap();
    for words in [
        "comes without a step `notify`",
        "<code>stage-missing</code>",
        "instructions/lockout.md, step \u{201c}Stop the machine in good order\u{201d}",
        "The maker asks for it",
        "Lead Two",
        "5 January 2026",
        "12 January 2026",
    ] {
        assert!(front.contains(words), "{words}");
    }
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("1 packet");
}

#[test]
fn a_justified_error_of_a_machine_stands_on_its_packets() {
    let plant = Plant::small();
    justified_machine(&plant);
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("p.html")).unwrap();
    assert!(page.contains("machines/line-1.yaml, energy.air"));
    plant.edit(PLANT, "until: 2026-01-12", "until: 2026-01-11");
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(1).says("justification-over");
}

#[test]
fn a_step_that_one_person_does_can_be_justified() {
    let plant = Plant::small();
    let signs = "back at neutral or off\nsign: { performed: technician";
    plant.edit(STORED, &format!("{signs}, verified: lead }}"), &format!("{signs} }}"));
    add(&plant, &ENTRY.replace("lockout.md", "stored-energy.md"));
    plant.edit(PLANT, "stage-missing", "second-person-missing");
    plant.edit(PLANT, "Stop the machine in good order", "Try to start the machine");
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("p.html")).unwrap();
    assert!(page.contains("<code>second-person-missing</code>"));
}

#[test]
fn of_two_entries_the_one_that_holds_on_the_day_counts() {
    let plant = Plant::small();
    justified(&plant, "until: 2026-01-12", "until: 2026-01-11");
    let entry = ENTRY.split_once("justified:\n").unwrap().1;
    add(&plant, &entry.replace("date: 2026-01-05", "date: 2026-01-12"));
    plant.run(&["check", "PLANT"]).ends(1).says("0 errors, 1 warning");
}

#[test]
fn the_exceptions_are_part_of_the_digest() {
    let digest = |reason: &str| {
        let plant = Plant::small();
        justified(&plant, "The maker asks for it", reason);
        let run = plant.run(&["packet", "PLANT", "J-1", "--out", "p.html", "--json"]).ends(0);
        run.json()["digest"].as_str().unwrap().to_owned()
    };
    assert_ne!(digest("One reason"), digest("Another reason"));
}

#[test]
fn a_raised_warning_stops_the_packet_and_the_site() {
    let plant = Plant::small();
    plant.edit(PREPARE, "loose cloth.", "loose cloth as necessary.");
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(0);
    raised(&plant, "vague-words");
    plant.run(&["check", "PLANT"]).ends(1).says("error[vague-words]").says("1 error, 0 warnings");
    plant.run(&["packet", "PLANT", "J-1", "--out", "p.html"]).ends(1).says("error[vague-words]");
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("nothing was written");
}

#[test]
fn a_plant_without_signers_can_refuse_to_publish() {
    let plant = Plant::small();
    std::fs::remove_file(plant.folder().join("allowed_signers")).unwrap();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("warning[no-signers]");
    raised(&plant, "no-signers");
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(1).says("nothing was written");
}

/// Text of all rules.
fn text() -> String {
    let folder = root().join("src/finding");
    let modules = std::fs::read_dir(folder.join("rules")).unwrap().map(|one| one.unwrap().path());
    let files = modules.chain([folder.join("rules.rs")]);
    files.map(|file| std::fs::read_to_string(file).unwrap()).collect()
}

#[test]
fn the_list_of_warnings_is_complete() {
    let text = text();
    let calls = text.split("self.warning(").skip(1);
    let rules: BTreeSet<&str> = calls.map(|call| call.split('"').nth(1).unwrap()).collect();
    assert_eq!(rules, BTreeSet::from(WARNINGS));
}

#[test]
fn what_may_be_justified_is_an_error_that_exists() {
    let rules = super::rules();
    for (rule, reason) in JUSTIFIABLE {
        assert!(rules.contains(rule) && !WARNINGS.contains(&rule), "{rule}");
        assert!(!reason.is_empty(), "{rule}");
    }
    for never in NEVER {
        assert!(rules.contains(never), "{never}");
        assert!(JUSTIFIABLE.iter().all(|(rule, _)| *rule != never), "{never}");
    }
}
