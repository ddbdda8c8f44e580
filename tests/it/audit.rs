//! `audit` on a whole plant: what is looked at, what is said of it, the report and its signature.

use std::process::Command;

use serde_json::Value as Json;

use crate::commands::{Crew, LEAD, TECHNICIAN};
use crate::plant::{Plant, Run, root};

fn names(run: &Run) -> Vec<String> {
    let audit = run.json();
    let names = audit["chosen"]["names"].as_array().unwrap().iter();
    names.map(|name| name.as_str().unwrap().to_owned()).collect()
}

#[track_caller]
fn check(plant: &Plant, options: &[&str], expected: &[&str]) {
    let run = plant.run(&[&["audit", "PLANT", "--json"], options].concat());
    assert_eq!(names(&run), expected);
    let audit = run.json();
    let records = audit["records"].as_array().unwrap().iter();
    let jobs: Vec<&str> = records.map(|record| record["job"].as_str().unwrap()).collect();
    assert_eq!(jobs, expected);
    assert_eq!(audit["summary"]["records"], expected.len());
}

#[test]
fn a_part_of_the_archive_is_looked_at_and_named() {
    let plant = Plant::demo_without_year();
    check(&plant, &["SM-1042"], &["SM-1042"]);
    check(&plant, &["--sample", "every:2"], &["SM-1041", "SM-1043"]);
    check(&plant, &["--from", "2030-01-01"], &[]);
    check(&plant, &["--to", "2020-01-01"], &[]);
    let period = ["--from", "2020-01-01", "--to", "2030-01-01"];
    check(&plant, &[&period[..], &["--machine", "stick-5"]].concat(), &["SM-1042"]);
}

/// `printf '2026-11-26\nSM-1041' | sha256sum`, and so on: SM-1043 has the least, SM-1041 the next.
#[test]
fn who_has_the_seed_draws_the_same_records() {
    let sample = ["--sample", "random:2", "--seed", "2026-11-26"];
    let plant = Plant::demo_without_year();
    check(&plant, &sample, &["SM-1041", "SM-1043"]);
    let run = plant.run(&[&["audit", "PLANT"], &sample[..]].concat());
    run.says("looked at 2 records of 3").says("the seed is 2026-11-26");
}

#[test]
fn a_plan_that_cannot_be_followed_is_refused() {
    let plant = Plant::small();
    for (options, words) in [
        (&["--sample", "random:2"][..], "a random sample needs --seed TEXT"),
        (&["--sample", "some"], "a sample is every:NUMBER or random:NUMBER"),
        (&["--seed", "x"], "--seed belongs to --sample random:NUMBER"),
        (&["--from", "yesterday"], "`yesterday` is no day; write 2026-11-26"),
        (&["--by", "a@b.example"], "--report"),
    ] {
        let run = plant.run(&[&["audit", "PLANT"], options].concat());
        run.ends(2).complains(words);
    }
}

#[test]
fn what_a_damaged_record_does_not_tell_is_no_reason_to_leave_it_out() {
    let plant = Plant::demo();
    plant.write("records/SM-1042/000001.json", "{}\n");
    let run = plant.run(&["audit", "PLANT", "--json", "--machine", "no-such-machine"]).ends(1);
    assert_eq!(names(&run), ["SM-1042"]);
    assert_eq!(run.json()["chosen"]["unclear"], serde_json::json!(["SM-1042"]));
    let run = plant.run(&["audit", "PLANT", "--machine", "no-such-machine"]).ends(1);
    run.says("machine or days cannot be told, so looked at all the same: SM-1042");
}

#[test]
fn findings_are_counted_by_rule_and_by_machine() {
    let plant = Plant::demo_without_year();
    let third = plant.read("records/SM-1042/000003.json");
    plant.write("records/SM-1042/000003.json", third.replace("\"seq\":3", "\"seq\":4"));
    let run = plant.run(&["audit", "PLANT"]).ends(1);
    run.says("error[signature-bad]: 1 finding in 1 record").says("looked at 3 records of 3: all");
    let audit = plant.run(&["audit", "PLANT", "--json"]).json();
    let rule = &audit["summary"]["rules"]["signature-bad"];
    assert_eq!(*rule, serde_json::json!({ "severity": "error", "findings": 1, "records": 1 }));
    assert_eq!(audit["summary"]["bad"], 1);
    let entries = |audit: &Json| audit["records"][0]["entries"].as_array().map(Vec::len);
    assert_eq!(entries(&audit), None);
    let audit = plant.run(&["audit", "PLANT", "--json", "--entries"]).json();
    assert_eq!(entries(&audit), audit["records"][0]["count"].as_u64().map(|n| n as usize));
}

/// `ssh-keygen` finds the signature of the report good, and no other bytes.
#[test]
fn a_report_is_signed_and_checked_by_the_system() {
    let crew = Crew::new();
    crew.begin();
    let beside = |name: &str| crew.plant.beside(name);
    let words = ["audit", "PLANT", "--report", "audit.html", "--by", LEAD, "--key"];
    let words = [&words[..], &[LEAD]].concat();
    let run = crew.plant.run(&words).ends(0);
    let command = run.stdout.lines().find(|line| line.starts_with("ssh-keygen")).unwrap();
    let page = std::fs::read_to_string(beside("audit.html")).unwrap();
    let head = crew.plant.run(&["audit", "PLANT", "--json"]).json();
    for piece in [
        LEAD,
        "audit@plant.example",
        head["records"][0]["head"].as_str().unwrap(),
        head["signers"].as_str().unwrap(),
        concat!("witnessmark ", env!("CARGO_PKG_VERSION")),
        "all of these",
    ] {
        assert!(page.contains(piece), "{piece}");
    }
    // The line for the list of signers is on the page.
    let line = page.split("<pre><code>").nth(1).unwrap().lines().next().unwrap();
    let line = line.replace("&quot;", "\"").replace("&#x27;", "'");
    std::fs::write(beside("allowed_signers"), format!("{line}\n")).unwrap();
    let verify = || {
        let mut shell = Command::new("sh");
        shell.arg("-c").arg(command).current_dir(beside(""));
        Run::of(shell)
    };
    verify().ends(0).says("Good \"audit@plant.example\" signature");
    std::fs::write(beside("audit.html"), page.replacen("Audit", "audit", 1)).unwrap();
    assert_ne!(verify().code, 0);
    // A report is never overwritten, and nobody signs with the key of another.
    crew.plant.run(&words).ends(2).complains("audit.html");
    let as_other = ["audit", "PLANT", "--report", "b.html", "--by", TECHNICIAN, "--key", LEAD];
    let refused = crew.plant.run(&as_other).ends(2);
    refused.complains(&format!("listed in allowed_signers for {LEAD}, not for {TECHNICIAN}"));
    assert!(!beside("b.html").exists());
}

#[test]
fn a_report_that_nobody_signs_says_so_in_each_language() {
    let plant = Plant::demo();
    for (language, words) in
        [("en", "not signed"), ("es", "sin firma"), ("de", "nicht unterschrieben")]
    {
        let file = format!("{language}.html");
        let words_of = ["audit", "PLANT", "--report", &file, "--language", language];
        plant.run(&words_of).says(&file);
        let page = std::fs::read_to_string(plant.beside(&file)).unwrap();
        assert!(page.contains(words) && page.contains("SM-1043"), "{language}");
        assert!(!plant.beside(&format!("{file}.sig")).exists());
    }
}

#[test]
fn exported_folders_are_looked_at_by_the_same_plan() {
    let plant = Plant::demo();
    std::fs::create_dir(plant.beside("shelf")).unwrap();
    for job in ["SM-1041", "SM-1042", "SM-1043"] {
        plant.run(&["export", "PLANT", job, "--out", &format!("shelf/{job}")]).ends(0);
    }
    let of = |options: &[&str]| plant.run(&[&["audit", "shelf", "--json"], options].concat());
    assert_eq!(names(&of(&["--sample", "every:2"])), ["SM-1041", "SM-1043"]);
    assert_eq!(names(&of(&["--machine", "stick-5"])), ["SM-1042"]);
    plant.run(&["audit", "shelf", "--report", "shelf.html", "SM-1042"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("shelf.html")).unwrap();
    assert!(page.contains("SM-1042") && page.contains("judged by allowed_signers"));
    of(&["--checkpoint", "x"]).ends(2).complains("neither a file with a checkpoint");
    let other = format!("line-9 1 {}", "0".repeat(32));
    of(&["--checkpoint", &other]).ends(2).complains("no machine and no log `line-9`");
}

/// Each clause names tests that exist, and says what is left to the plant.
#[test]
fn each_clause_names_tests_that_exist() {
    let table = std::fs::read_to_string(root().join("src/audit/CLAUSES.md")).unwrap();
    let sources = sources();
    let mut clauses = Vec::new();
    for row in table.lines().filter(|line| line.starts_with("| ")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let [clause, _, program, plant, tests] = cells[..] else {
            panic!("five cells in: {row}");
        };
        if clause == "clause" || clause.starts_with('-') {
            continue;
        }
        assert!(!(program.is_empty() && plant.is_empty()), "{clause}");
        assert!(program.is_empty() == tests.is_empty(), "{clause}: what the program does is shown");
        for test in tests.split('`').skip(1).step_by(2) {
            assert!(sources.contains(&format!("fn {test}(")), "{clause}: no test `{test}`");
        }
        clauses.push(clause.to_owned());
    }
    for paragraph in [
        "11.10(a)",
        "11.10(b)",
        "11.10(c)",
        "11.10(d)",
        "11.10(e)",
        "11.10(f)",
        "11.10(g)",
        "11.10(h)",
        "11.10(i)",
        "11.10(j)",
        "11.10(k)",
        "11.30",
        "11.50(a)",
        "11.50(b)",
        "11.70",
        "11.100(a)",
        "11.100(b)",
        "11.100(c)",
        "11.200(a)(1)",
        "11.200(a)(2)",
        "11.200(a)(3)",
        "11.200(b)",
        "11.300(a)",
        "11.300(b)",
        "11.300(c)",
        "11.300(d)",
        "11.300(e)",
        "1910.147(c)(6)(i)",
        "1910.147(c)(6)(ii)",
    ] {
        assert!(clauses.iter().any(|own| own == paragraph), "{paragraph} is not in the table");
    }
}

/// Every Rust source and browser test of the repository, as one text.
fn sources() -> String {
    let mut text = String::new();
    for folder in ["src", "tests"] {
        for (path, bytes) in crate::plant::files_of(&root().join(folder)) {
            if path.ends_with(".rs") {
                text += &String::from_utf8_lossy(&bytes);
            }
        }
    }
    text
}
