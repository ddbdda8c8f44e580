//! The procedures that ship with the program: each is used by a plant that checks clean, names its
//! sources, and has a name of its own; each hazard of the catalogue has its place.

use std::collections::{BTreeMap, BTreeSet};

use witnessmark::finding::Findings;
use witnessmark::packet;
use witnessmark::plant::load;
use witnessmark::procedure::Procedure;

use crate::plant::{Plant, root};

/// What stands in `standards` when nobody has written a rule for it.
const NO_SOURCE: &str = "common practice, no source";

/// Hazards that no machine of these plants has and that no shipped procedure names, each with the
/// reason why it ships all the same.
const NOT_USED: [(&str, &str); 7] = [
    ("dust-explosion", "only plants with dust that burns; their own zones name it"),
    ("gas-bottles", "only machines that flush with gas"),
    ("hydraulic-pressure", "only converting presses and hydraulic unwinds"),
    ("laser-coder", "only machines with a laser coder"),
    ("optical-radiation", "only machines that cure ink with UV lamps"),
    ("overhead-load", "only halls that hoist reels or tools"),
    ("solvent-vapour", "only coders that print with solvent ink"),
];

/// The demo plant, and one with the machines it lacks: a flow wrapper and a cartoner.
const PLANTS: [&str; 2] = ["demo-data", "tests/it/library-plant"];

fn loaded(plant: &str) -> load::Plant {
    load::load(&root().join(plant)).unwrap().plant.unwrap()
}

/// The shipped procedures, by identifier: a plant that has none of its own shows all of them.
fn shipped() -> BTreeMap<String, Procedure> {
    let all = loaded("tests/it/library-plant").procedures;
    let folder = std::fs::read_dir(root().join("instructions")).unwrap();
    let names: BTreeSet<String> = folder
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter_map(|name| Some(name.strip_suffix(".md")?.to_owned()))
        .collect();
    assert_eq!(all.keys().cloned().collect::<BTreeSet<_>>(), names, "all of them are built in");
    all
}

#[test]
fn the_plants_of_the_library_check_clean() {
    for plant in [Plant::demo(), Plant::library()] {
        let run = plant.run(&["check", "PLANT"]).ends(0);
        assert!(run.stdout.starts_with("nothing found"), "{}", run.stdout);
    }
}

/// A plant's own text is read for how it is written, a shipped one is not, every time: here, once.
#[test]
fn what_ships_is_well_written() {
    let plant = Plant::library();
    for entry in std::fs::read_dir(root().join("instructions")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "md") {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            plant.write(&format!("instructions/{name}"), std::fs::read(&path).unwrap());
        }
    }
    let run = plant.run(&["check", "PLANT"]).ends(0);
    assert!(run.stdout.starts_with("nothing found"), "{}", run.stdout);
    plant.edit("instructions/prepare.md", "loose cloth.", "loose cloth as necessary.");
    plant.run(&["check", "PLANT"]).ends(1).says("vague-words");
}

#[test]
fn each_procedure_is_in_the_packet_of_a_job() {
    let mut used = BTreeSet::new();
    for plant in PLANTS.map(loaded) {
        let mut findings = Findings::default();
        let prepared = packet::prepare(&mut findings, &plant);
        for job in plant.jobs.keys() {
            let packet = packet::assemble(&mut findings, &prepared, job).unwrap();
            let is_shipped = |id: &String| plant.procedures[id].file.starts_with("shipped/");
            used.extend(packet.procedures.into_iter().map(|facts| facts.id).filter(is_shipped));
        }
    }
    let unused: Vec<String> = shipped().into_keys().filter(|id| !used.contains(id)).collect();
    assert_eq!(unused, [] as [String; 0], "no packet shows whether they work");
}

#[test]
fn each_procedure_names_its_source_or_says_that_it_has_none() {
    for (id, procedure) in shipped() {
        let standards = &procedure.front.standards;
        assert!(!standards.is_empty(), "{id}: a source, or `{NO_SOURCE}`");
        let mut seen = BTreeSet::new();
        for standard in standards {
            let is_cited = standard.chars().any(|c| c.is_ascii_digit())
                || standard.ends_with("(from memory)")
                || standard.ends_with("(read second-hand)");
            assert!(standard == NO_SOURCE || is_cited, "{id}: `{standard}`");
            assert!(seen.insert(standard), "{id}: `{standard}` stands twice");
        }
    }
}

#[test]
fn each_title_belongs_to_one_procedure() {
    let mut titles: BTreeMap<String, String> = BTreeMap::new();
    for (id, procedure) in shipped() {
        if let Some(other) = titles.insert(procedure.front.title.clone(), id.clone()) {
            panic!("{other} and {id} are both called `{}`", procedure.front.title);
        }
    }
}

/// A step that somebody reaches in with says what to do when it is not as it should be; one that
/// measures says so too.
#[test]
fn each_step_says_what_to_do_when_it_is_not_so() {
    for (id, procedure) in shipped() {
        for step in &procedure.steps {
            let says = step.facts.outside.is_some()
                || ["If ", "if "].iter().any(|word| step.text.contains(word));
            assert!(says, "{id}: `{}`", step.title);
            assert!(step.facts.minutes.is_some(), "{id}: `{}` has no minutes", step.title);
        }
    }
}

#[test]
fn each_hazard_of_the_catalogue_has_its_place() {
    let plants = PLANTS.map(loaded);
    let mut named = BTreeSet::new();
    for step in shipped().into_values().flat_map(|procedure| procedure.steps) {
        named.extend(step.facts.hazards);
    }
    for machine in plants.iter().flat_map(|plant| plant.machines.values()) {
        let zones = machine.body.zones.iter().flat_map(|(_, zone)| &zone.hazards);
        let sources = machine.body.energy.iter().flat_map(|(_, source)| &source.hazards);
        named.extend(zones.chain(sources).cloned().collect::<Vec<String>>());
    }
    for step in plants[0].procedures.values().flat_map(|procedure| &procedure.steps) {
        named.extend(step.facts.hazards.iter().cloned());
    }
    let allowed: BTreeMap<&str, &str> = NOT_USED.into();
    let unused: Vec<&String> = plants[1].hazards.keys().filter(|id| !named.contains(*id)).collect();
    let expected: Vec<&&str> = allowed.keys().collect();
    assert_eq!(unused, expected, "used in a text or a machine, or allowed here with a reason");
}
