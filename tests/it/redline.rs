//! What changed between two states of a plant: each kind of change once, revisions in git, hostile
//! repositories, what a change touches.

use std::collections::BTreeSet;
use std::process::Command;

use serde_json::Value;

use crate::commands::{Crew, TECHNICIAN};
use crate::plant::{Plant, Run, copy_folder};
use crate::register::House;

const KNIVES: &str = "instructions/knives.md";
const LOCKOUT: &str = "instructions/lockout.md";
const MACHINE: &str = "machines/line-1.yaml";
const LARGE: &str = "recipes/large-pouch.yaml";

/// A small plant with a copy of itself beside it.
fn plant() -> Plant {
    let plant = Plant::small();
    copy_folder(&plant.folder(), &plant.beside("old"));
    plant
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// Every change as one line: what, where, before, after, why it weighs.
fn lines(told: &Value) -> Vec<String> {
    let mut lines = Vec::new();
    for one in told["changed"].as_array().unwrap() {
        for change in one["changes"].as_array().unwrap() {
            let place = [&change["step"], &change["field"]].map(text);
            let place = place.iter().filter(|place| !place.is_empty());
            let place = place.copied().collect::<Vec<_>>().join(": ");
            let [before, after] = [&change["before"], &change["after"]].map(text);
            let weighs = match text(&change["weighs"]) {
                "" => String::new(),
                weighs => format!(" !{weighs}"),
            };
            let what = text(&change["what"]);
            lines.push(format!("{what} {place} ({before}|{after}){weighs}"));
        }
    }
    lines
}

/// A change seen from the other side.
fn back(line: &str) -> String {
    let (what, rest) = line.split_once(' ').unwrap();
    let what = match what {
        "added" => "removed",
        "removed" => "added",
        other => other,
    };
    let (place, sides) = rest.split_once(" (").unwrap();
    let (before, after) = sides.split_once(')').unwrap().0.split_once('|').unwrap();
    // Titles of steps are those of the later plant: only fields outside steps are looked at here.
    format!("{what} {place} ({after}|{before})")
}

fn without_weight(line: &str) -> String {
    line.split(" !").next().unwrap().to_owned()
}

/// Wants these changes for one edit, and their mirror from the other side.
#[track_caller]
fn check(file: &str, from: &str, to: &str, expected: &[&str]) {
    let plant = plant();
    plant.edit(file, from, to);
    let run = plant.run(&["redline", "PLANT", "--from", "old", "--json"]);
    assert_eq!(run.stderr, "");
    let there = lines(&run.json());
    assert_eq!(there, expected, "{file}: {from} -> {to}");
    let run = plant.run(&["redline", "old", "--from", "PLANT", "--json"]);
    let mirrored: BTreeSet<String> = there.iter().map(|line| back(line)).collect();
    let plain = lines(&run.json()).iter().map(|line| without_weight(line)).collect();
    if there.iter().all(|line| !line.starts_with("renamed")) {
        assert_eq!(mirrored, plain, "{file}: {from} -> {to}, back");
    }
}

#[test]
fn a_plant_compared_with_itself_has_no_change() {
    let plant = plant();
    let run = plant.run(&["redline", "PLANT", "--from", "old"]).ends(0);
    assert_eq!(run.stdout, "Nothing changed since old.\n");
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).ends(0).json();
    assert_eq!(told["changed"], serde_json::json!([]));
    assert_eq!(told["findings"], serde_json::json!([]));
    for (_, touched) in told["touches"].as_object().unwrap() {
        assert_eq!(touched, &serde_json::json!([]));
    }
}

#[test]
fn each_change_of_a_step_is_named() {
    let step = "Cover every blade";
    let tail = "sign: { performed: technician }\nminutes: 4\n```";
    check(
        KNIVES,
        "Push a cover onto each blade until it snaps in.",
        "Push a cover onto each blade.",
        &[&format!("reworded {step} (|)")],
    );
    check(
        KNIVES,
        "## Cover every blade",
        "## Cover each blade",
        &["renamed Cover each blade (Cover every blade|Cover each blade)"],
    );
    check(
        KNIVES,
        "checks:\n  - Each blade carries a cover\n",
        "checks:\n  - All blades are covered\n",
        &[
            &format!("removed {step}: checks (Each blade carries a cover|)"),
            &format!("added {step}: checks (|All blades are covered)"),
        ],
    );
    check(
        KNIVES,
        tail,
        "sign: { performed: lead }\nminutes: 5\n```",
        &[
            &format!("changed {step}: sign.performed (technician|lead) !signer-changed"),
            &format!("changed {step}: minutes (4|5)"),
        ],
    );
    check(
        KNIVES,
        "tools: [\"Blade covers, one for each holder\", Blade tool, Blade box]",
        "tools: [\"Blade covers, one for each holder\", Blade box, Blade tool]",
        &[&format!(
            "moved {step}: tools (Blade covers, one for each holder, Blade tool, Blade box|Blade \
             covers, one for each holder, Blade box, Blade tool)"
        )],
    );
    check(
        KNIVES,
        "sign: { performed: technician, verified: lead }",
        "sign: { performed: technician }",
        &["removed Check every position with all holders clamped: sign.verified (lead|) \
           !second-person-dropped"],
    );
    check(
        KNIVES,
        "repeat: knife_rail.holders\nreading: { of: position }",
        "repeat: knife_rail.moves\nreading: { of: position, accept: never }",
        &[
            "changed Check every position with all holders clamped: repeat \
             (knife_rail.holders|knife_rail.moves)",
            "added Check every position with all holders clamped: reading.accept (|never)",
        ],
    );
    check(
        KNIVES,
        "hazards: [knife-edge, in-running-rollers]\ntools: [Lint-free cloth]",
        "hazards: [in-running-rollers]\nwhen: { changes: [knife_rail] }",
        &[
            "removed Find the centre datum: hazards (knife-edge|) !hazard-dropped",
            "removed Find the centre datum: tools (Lint-free cloth|)",
            "added Find the centre datum: when (|changes: [knife_rail]) !may-be-left-out",
        ],
    );
    check(
        KNIVES,
        "needs: isolated\nzone: knife_rail\nhazards: [knife-edge, in-running-rollers]\ntools: [Lint-free cloth]",
        "needs: energised\nhazards: [knife-edge, in-running-rollers]\ntools: [Lint-free cloth]",
        &[
            "changed Find the centre datum: needs (isolated|energised) !energy-state-changed",
            "removed Find the centre datum: zone (knife_rail|) !zone-changed",
        ],
    );
    check(
        LOCKOUT,
        "stage: notify\nchecks:\n  - Operators of the line know\n",
        "stage: prepare\nchecks:\n",
        &[
            "changed Tell the affected people: stage (notify|prepare) !energy-state-changed",
            "removed Tell the affected people: checks (Operators of the line know|) !check-dropped",
        ],
    );
    check(
        LOCKOUT,
        "Walk to each isolating device.",
        "Go to each isolating device.",
        &["reworded Learn each source and its control (|) !lockout-reworded"],
    );
    check(
        KNIVES,
        tail,
        "sign: { performed: technician }\nline: running\npeople: 2\nminutes: 4\n```",
        &[
            &format!("added {step}: line (|running) !line-runs"),
            &format!("added {step}: people (|2)"),
        ],
    );
    check(
        KNIVES,
        "reason: First issue\n",
        "reason: First issue\nafter: [prepare]\n",
        &["added after (|prepare) !after-changed"],
    );
    check(
        KNIVES,
        "title: Set the slitting knives",
        "title: Set the knives",
        &["changed title (Set the slitting knives|Set the knives)"],
    );
}

#[test]
fn steps_that_come_go_and_move_are_named() {
    let plant = plant();
    let text = plant.read(KNIVES);
    let (head, rest) = text.split_once("## Cover every blade").unwrap();
    let (cover, rest) = rest.split_once("## Find the centre datum").unwrap();
    let (find, rest) = rest.split_once("## Move each holder").unwrap();
    let without = format!("{head}## Cover every blade{cover}## Move each holder{rest}");
    plant.write(KNIVES, &without);
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    assert_eq!(lines(&told)[0], "removed Find the centre datum (|) !step-removed");
    let told = plant.run(&["redline", "old", "--from", "PLANT", "--json"]).json();
    let back = lines(&told);
    assert_eq!(back[0], "added Find the centre datum (|)");
    assert!(back.contains(&"added Find the centre datum: minutes (|3)".to_owned()), "{back:?}");
    let swapped = format!(
        "{head}## Find the centre datum{find}## Cover every blade{cover}## Move each holder{rest}"
    );
    plant.write(KNIVES, &swapped);
    for (now, then) in [("PLANT", "old"), ("old", "PLANT")] {
        let told = plant.run(&["redline", now, "--from", then, "--json"]).json();
        let moved = lines(&told);
        assert_eq!(moved.len(), 1, "{moved:?}");
        assert!(moved[0].starts_with("moved ") && moved[0].ends_with(" !lockout-step-moved"));
    }
    // A step of the lockout that is gone, and one that is new.
    let lockout = plant.read(LOCKOUT);
    let (head, rest) = lockout.split_once("## Stop the machine in good order").unwrap();
    let (_, rest) = rest.split_once("## Operate each").unwrap();
    plant.write(KNIVES, text).write(LOCKOUT, format!("{head}## Operate each{rest}"));
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    assert_eq!(lines(&told)[0], "removed Stop the machine in good order (|) !lockout-step-removed");
    assert_eq!(told["touches"]["jobs"][0]["packet"], "gone");
    let told = plant.run(&["redline", "old", "--from", "PLANT", "--json"]).json();
    assert_eq!(lines(&told)[0], "added Stop the machine in good order (|) !lockout-step-added");
}

/// Another procedure among the steps, and the condition of a whole procedure.
#[test]
fn what_a_procedure_includes_and_needs_is_compared() {
    let plant = plant();
    let text = plant.read(KNIVES);
    let include = "## Clean first\n```include\nprocedure: prepare\n```\n\n## Find the centre";
    plant.write(KNIVES, text.replacen("## Find the centre", include, 1));
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    let expected = [
        "added procedure:prepare (|) !changeover-changed",
        "added procedure:prepare: procedure (|prepare)",
    ];
    assert_eq!(lines(&told), expected);
    plant.write(KNIVES, text.replacen("for: {", "when: { changes: [knife_rail] }\nfor: {", 1));
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    assert_eq!(lines(&told), ["added when (|changes: [knife_rail]) !may-be-left-out"]);
}

#[test]
fn each_change_of_a_machine_a_recipe_a_job_and_the_plant_is_named() {
    for (file, from, to, expected) in [
        (
            MACHINE,
            "high: 0, instrument: gauge",
            "high: 1, instrument: gauge",
            "changed energy.air.zero.high (0|1) !zero-changed",
        ),
        (
            MACHINE,
            "device: Main disconnect Q1",
            "device: Main disconnect Q2",
            "changed energy.mains.device (Main disconnect Q1|Main disconnect Q2) !energy-source",
        ),
        (
            MACHINE,
            "sources: [mains, air]",
            "sources: [mains]",
            "removed zones.slitting.sources (air|) !guard-changed",
        ),
        (
            MACHINE,
            "    hazards: [knife-edge, in-running-rollers]",
            "    hazards: [knife-edge]",
            "removed zones.slitting.hazards (in-running-rollers|) !hazard-dropped",
        ),
        (
            MACHINE,
            "Hinged guard G2 with interlock",
            "Hinged guard G2",
            "changed zones.slitting.guard (Hinged guard G2 with interlock|Hinged guard G2) !guard-changed",
        ),
        (
            MACHINE,
            "    guard: Hinged",
            "    at_once: 2\n    guard: Hinged",
            "added zones.slitting.at_once (|2) !more-at-once",
        ),
        (MACHINE, "holders: 6", "holders: 7", "changed rails.knife_rail.holders (6|7)"),
        (
            MACHINE,
            "stored-energy, knives",
            "knives, stored-energy",
            "moved changeover (prepare, lockout, stored-energy, knives, release-from-lockout, \
             first-piece, release-to-production|prepare, lockout, knives, stored-energy, \
             release-from-lockout, first-piece, release-to-production) !changeover-changed",
        ),
        (LARGE, "fin: 5 mm", "fin: 6 mm", "changed inputs.fin (5 mm|6 mm)"),
        (
            LARGE,
            "tolerance: ±1 mm",
            "tolerance: ±2 mm",
            "changed settings.web_width.tolerance (±1 mm|±2 mm) !limit-widened",
        ),
        (
            LARGE,
            "tolerance: ±1 mm",
            "tolerance: ±0.8 mm",
            "changed settings.web_width.tolerance (±1 mm|±0.8 mm)",
        ),
        (
            LARGE,
            "tolerance: ±1 mm",
            "tolerance: 100 to 900 mm",
            "changed settings.web_width.tolerance (±1 mm|100 to 900 mm) !limit-changed",
        ),
        (
            LARGE,
            "formula: lanes * strip + 2 * trim",
            "formula: strip * lanes + 2 * trim",
            "changed settings.web_width.formula (lanes * strip + 2 * trim|strip * lanes + 2 * trim)",
        ),
        (
            LARGE,
            "edge_cuts: true",
            "edge_cuts: false",
            "changed layouts.knife_rail.knives.edge_cuts (true|false)",
        ),
        ("jobs/J-1.yaml", "shift: early", "shift: late", "changed shift (early|late)"),
        ("jobs/J-1.yaml", "shift: early\n", "", "removed shift (early|)"),
        (
            "plant.yaml",
            "accepts_deviation: quality",
            "accepts_deviation: lead",
            "changed accepts_deviation (quality|lead) !who-may",
        ),
        (
            "plant.yaml",
            "name: A small plant",
            "name: A plant",
            "changed name (A small plant|A plant)",
        ),
    ] {
        check(file, from, to, &[expected]);
    }
}

#[test]
fn what_is_no_text_is_no_change() {
    let plant = plant();
    plant.edit(LARGE, "fin: 5 mm", "fin: \"5 mm\"").edit(
        LARGE,
        "settings:",
        "# As always.\nsettings:",
    );
    plant.edit(KNIVES, "Put on cut-resistant gloves. Look", "Put on cut-resistant gloves.\nLook");
    let run = plant.run(&["redline", "PLANT", "--from", "old"]).ends(0);
    let said = run.says("0 changes in 2 texts since old.").says("only comments or blanks changed");
    assert!(
        said.stdout.contains("J-1 on line-1: only the digests of its files"),
        "{}",
        said.stdout
    );
}

/// A file that cannot be understood is compared by its lines, and not taken for empty.
#[test]
fn a_file_that_is_no_yaml_is_compared_by_its_lines() {
    let plant = plant();
    plant.edit(LARGE, "fin: 5 mm,", "fin: 5 mm");
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    let line = "inputs: { flat_width: 40 mm, fin: 5 mm, lanes: 4, trim: 10 mm }";
    let expected = [
        format!("removed lines ({line}|)"),
        format!("added lines (|{})", line.replace("5 mm,", "5 mm")),
    ];
    assert_eq!(lines(&told), expected);
    assert_eq!(told["touches"]["jobs"][0]["packet"], "gone");
}

#[test]
fn five_lines_say_the_whole_and_what_weighs_comes_first() {
    let plant = plant();
    plant
        .edit(KNIVES, "revision: 1", "revision: 2")
        .edit(KNIVES, "reason: First issue", "reason: One person is enough")
        .edit(KNIVES, "Another person reads", "Someone else reads")
        .edit(KNIVES, "technician, verified: lead }", "technician }");
    let run = plant.run(&["redline", "PLANT", "--from", "old"]).ends(0);
    let expected = "\
2 changes in 1 text since old.
For safety: 1 change is marked: second person dropped (1).
Packets that change: J-1. Signed and still worked by: none.
Approvals that lapse: 0. Translations now old: 0. Lockouts to inspect again: 0.
Revisions: in order.

Changes that weigh for safety
  second person dropped: procedure:knives, Check every position with all holders clamped, sign.verified

Packets that change
  J-1 on line-1: steps: 18 Check every position with all holders clamped

Machines
  line-1

Recipes
  large-pouch
  small-pouch

procedure:knives - Set the slitting knives
  Revision: 2 (was 1)
  Date: 2026-11-20
  Author: witnessmark
  Reason: One person is enough (was First issue)
  ## Check every position with all holders clamped
    ! For safety: second person dropped: sign.verified removed: [gone: lead]
    reworded:
      A holder can shift while its screws are tightened. Read every holder that is not parked, also one that did not move. Take one cover off at a time. Read the distance from the centre datum to the knife tip. Each position may be off by {{ knife_rail.tolerance }} at most. Put the cover back on before the next holder.
      [gone: Another person] [new: Someone else] reads the two outermost knives and the knife nearest the datum.
";
    assert_eq!(run.stdout, expected);
    let only = plant.run(&["redline", "PLANT", "recipe:large-pouch", "--from", "old"]).ends(0);
    assert!(!only.stdout.contains("procedure:knives"), "{}", only.stdout);
    plant.run(&["redline", "PLANT", "knives", "--from", "old"]).ends(0).says("second person");
    plant.run(&["redline", "PLANT", "knive", "--from", "old"]).ends(2).complains("has knive");
}

#[test]
fn a_changed_number_is_said_for_each_job() {
    let plant = plant();
    plant.edit(LARGE, "fin: 5 mm", "fin: 6 mm");
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    let job = &told["touches"]["jobs"][0];
    let strip = &job["numbers"][0];
    assert_eq!((text(&job["job"]), text(&strip["id"])), ("J-1", "strip"));
    assert_eq!(text(&strip["before"]), "90.0 mm (89.5 to 90.5 mm)");
    assert_eq!(text(&strip["after"]), "92.0 mm (91.5 to 92.5 mm)");
    assert!(
        job["steps"]
            .as_array()
            .unwrap()
            .iter()
            .any(|step| text(&step["id"]) == "knives.move-each-holder-to-its-position")
    );
}

#[test]
fn a_signed_packet_goes_out_of_date_while_its_job_is_open() {
    let crew = Crew::new();
    copy_folder(&crew.plant.folder(), &crew.plant.beside("old"));
    crew.begin();
    crew.plant.edit(LARGE, "fin: 5 mm", "fin: 6 mm");
    let told = crew.plant.run(&["redline", "PLANT", "--from", "old", "--json"]).json();
    let printed = &told["touches"]["printed"][0];
    assert_eq!((text(&printed["record"]), text(&printed["state"])), ("J-1", "open"));
    // It was out of date before: that is no news.
    copy_folder(&crew.plant.folder(), &crew.plant.beside("older"));
    crew.plant.edit(LARGE, "fin: 6 mm", "fin: 7 mm");
    let told = crew.plant.run(&["redline", "PLANT", "--from", "older", "--json"]).json();
    assert_eq!(told["touches"]["printed"], serde_json::json!([]));
    crew.sign(TECHNICIAN, &["--performed", "2"]).ends(0);
}

#[test]
fn approvals_and_inspections_lapse_with_the_bytes_they_were_given_for() {
    let house = House::new();
    let plant = &house.plant;
    house.approve_everything();
    copy_folder(&plant.folder(), &plant.beside("old"));
    plant.edit(KNIVES, "until it snaps in", "until it clicks");
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).ends(1).json();
    let approvals = told["touches"]["approvals"].as_array().unwrap();
    assert_eq!(approvals.len(), 1);
    assert_eq!(text(&approvals[0]["subject"]), "procedure:knives");
    assert_eq!(text(&told["findings"][0]["rule"]), "revision-unchanged");
    house.approve_everything();
    let told = plant.run(&["redline", "PLANT", "--from", "old", "--json"]).ends(1).json();
    assert_eq!(told["touches"]["approvals"], serde_json::json!([]));
}

#[test]
fn what_is_written_to_a_file_stands_alone() {
    let plant = plant();
    plant.edit(KNIVES, "until it snaps in", "until <it> clicks");
    plant
        .run(&["redline", "PLANT", "--from", "old", "--out", "red.html"])
        .ends(1)
        .says("wrote red.html");
    let page = std::fs::read_to_string(plant.beside("red.html")).unwrap();
    for piece in [
        "<del><span class=\"unseen\">[gone: </span>it snaps in<span",
        "&lt;it&gt;",
        "revision-unchanged",
        "default-src 'none'; style-src 'sha256-",
    ] {
        assert!(page.contains(piece), "{piece}");
    }
    assert!(!page.contains("href=\"assets") && !page.contains("<script"));
    let run = plant.run(&["redline", "PLANT", "--from", "old", "--out", "PLANT/red.html"]);
    run.ends(2).complains("is a part of the plant");
    plant
        .run(&["redline", "PLANT", "--from", "nowhere"])
        .ends(2)
        .complains("nowhere is not a plant");
}

/// A small plant in a folder of a git repository, committed.
fn repository() -> Plant {
    let plant = Plant::small();
    git(&plant, &["init", "-q", "."]);
    git(&plant, &["config", "user.name", "A Person"]);
    git(&plant, &["config", "user.email", "a.person@plant.example"]);
    commit(&plant, "first");
    plant
}

/// Runs git beside the plant, in the folder that holds it.
#[track_caller]
fn git(plant: &Plant, words: &[&str]) -> String {
    let mut command = Command::new("git");
    command.args(words).current_dir(plant.folder().parent().unwrap());
    for name in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE"] {
        command.env_remove(name);
    }
    command.env("GIT_CONFIG_GLOBAL", "/dev/null").env("GIT_CONFIG_NOSYSTEM", "1");
    let run = Run::of(command);
    assert_eq!(run.code, 0, "{words:?}: {}", run.stderr);
    run.stdout
}

#[track_caller]
fn commit(plant: &Plant, message: &str) {
    git(plant, &["add", "-A", "plant"]);
    git(plant, &["commit", "-q", "--no-gpg-sign", "-m", message]);
}

#[test]
fn a_plant_is_compared_with_what_git_keeps_of_it() {
    let plant = repository();
    plant.run(&["redline", "PLANT"]).ends(0).says("Nothing changed since HEAD (");
    plant.edit(KNIVES, "until it snaps in", "until it clicks");
    let run = plant.run(&["redline", "PLANT"]).ends(1);
    run.says("until it [gone: snaps in] [new: clicks].").says("error[revision-unchanged]");
    commit(&plant, "second");
    git(&plant, &["tag", "issued"]);
    plant.run(&["redline", "PLANT"]).ends(0).says("Nothing changed");
    plant.run(&["redline", "PLANT", "--since", "HEAD~1"]).ends(1).says("1 change in 1 text");
    plant.write("instructions/own.md", plant.read(KNIVES).replace("id: knives", "id: own"));
    plant.run(&["redline", "PLANT", "--since", "issued"]).ends(0).says("new text");
    plant.run(&["redline", "PLANT", "--since", "HEAD~1", "--from", "old"]).ends(2);
    // Written into the repository is nothing.
    assert_eq!(git(&plant, &["status", "--porcelain"]), "?? plant/instructions/own.md\n");
}

#[test]
fn pages_of_what_changed_are_published() {
    let plant = repository();
    plant.edit(KNIVES, "until it snaps in", "until it clicks");
    plant.run(&["publish", "PLANT", "--out", "site", "--since", "HEAD"]).ends(0);
    let page = |name: &str| std::fs::read_to_string(plant.beside("site").join(name)).unwrap();
    assert!(page("redline/index.html").contains("redline/procedure-knives.html"));
    assert!(page("redline/procedure-knives.html").contains("<ins>"));
    assert!(page("procedures/index.html").contains("../redline/index.html"));
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    assert!(!plant.beside("site/redline").exists());
    plant.run(&["publish", "PLANT", "--out", "site", "--since", "gone"]).ends(2).complains("gone");
}

#[test]
fn names_of_revisions_are_no_options() {
    let plant = repository();
    for name in ["--upload-pack=touch x", "-x", "", "a\nb"] {
        let run = plant.run(&["redline", "PLANT", &format!("--since={name}")]);
        run.ends(2).complains("is no name of a revision");
    }
    for name in ["nowhere", "HEAD:plant", "HEAD~99", "HEAD^{tree}", "$(touch x)", "../x"] {
        let run = plant.run(&["redline", "PLANT", "--since", name]);
        run.ends(2).complains("git has no revision");
    }
    assert!(!plant.beside("x").exists() && !plant.folder().join("x").exists());
    let alone = Plant::small();
    alone.run(&["redline", "PLANT"]).ends(2).complains("lies in no git repository");
}

/// Whatever a repository asks for, nothing of it is run, and no path of it leads out of the plant.
#[test]
fn a_hostile_repository_runs_nothing_and_leads_nowhere() {
    let plant = repository();
    let beside = |name: &str| plant.beside(name).display().to_string();
    let touch = format!("touch {}", beside("ran"));
    plant.write(".gitattributes", "* filter=own diff=own export-ignore export-subst\n");
    std::os::unix::fs::symlink("/etc/passwd", plant.folder().join("recipes/third.yaml")).unwrap();
    std::os::unix::fs::symlink("/etc", plant.folder().join("machines/more")).unwrap();
    plant.write("photo.jpg", vec![0; 3 << 20]);
    commit(&plant, "hostile");
    for key in ["filter.own.smudge", "filter.own.clean", "diff.own.textconv", "core.fsmonitor"] {
        git(&plant, &["config", key, &touch]);
    }
    let hooks = plant.beside(".git/hooks");
    std::fs::create_dir_all(&hooks).unwrap();
    for hook in ["post-checkout", "reference-transaction", "post-index-change"] {
        let file = hooks.join(hook);
        std::fs::write(&file, format!("#!/bin/sh\n{touch}\n")).unwrap();
        let mode = std::os::unix::fs::PermissionsExt::from_mode(0o755);
        std::fs::set_permissions(&file, mode).unwrap();
    }
    let run = plant.run(&["redline", "PLANT"]).ends(0);
    run.says("Nothing changed");
    assert!(!plant.beside("ran").exists());
    // A file that no plant is read from: it is not taken, and said.
    let large = format!("{}# {}\n", plant.read(LARGE), "x".repeat(2 << 20));
    plant.write(LARGE, large);
    for key in ["filter.own.smudge", "filter.own.clean", "core.fsmonitor"] {
        git(&plant, &["config", "--unset", key]);
    }
    commit(&plant, "large");
    plant.run(&["redline", "PLANT"]).ends(2).complains("recipes/large-pouch.yaml was larger");
}

/// What protects less weighs whichever way it is written.
#[test]
fn fewer_people_weigh_and_less_at_once_does_not() {
    let plant = plant();
    let tail = "sign: { performed: technician }\nminutes: 4\n```";
    plant.edit(KNIVES, tail, &tail.replace("minutes", "people: 2\nminutes"));
    plant.edit(MACHINE, "    guard: Hinged", "    at_once: 2\n    guard: Hinged");
    let told = plant.run(&["redline", "old", "--from", "PLANT", "--json"]).json();
    let expected = [
        "removed zones.slitting.at_once (2|)",
        "removed Cover every blade: people (2|) !fewer-people",
    ];
    let told: BTreeSet<String> = lines(&told).into_iter().collect();
    assert_eq!(told, expected.map(str::to_owned).into());
}
