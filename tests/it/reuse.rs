//! One text for many machines: parameters, includes, conditions, one order for a kind of machine, and why
//! each step is there.

use std::collections::{BTreeMap, BTreeSet};

use witnessmark::canonical;
use witnessmark::finding::Findings;
use witnessmark::packet::model::{NamedBy, Packet, Stage};
use witnessmark::packet::{assemble, prepare};
use witnessmark::plant::load;

use crate::plant::Plant;

const PLANT: &str = "plant.yaml";
const MACHINE: &str = "machines/line-1.yaml";
const KNIVES: &str = "instructions/knives.md";
const LARGE: &str = "recipes/large-pouch.yaml";
const KIND: &str = "multi-lane pouch line";

/// The packet of the small plant's job, which checks clean.
#[track_caller]
fn packet(plant: &Plant) -> Packet {
    plant.run(&["check", "PLANT"]).ends(0).says("nothing found");
    let read = load::load(&plant.folder()).unwrap().plant.unwrap();
    let mut findings = Findings::default();
    let prepared = prepare(&mut findings, &read);
    assemble(&mut findings, &prepared, "J-1").unwrap()
}

/// A second rail like the first, laid out and set by the same procedure.
fn two_rails(plant: &Plant) {
    plant.remove(KNIVES);
    let machine = plant.read(MACHINE);
    let one = machine.split_once("  knife_rail:\n").unwrap().1.split_once("zones:").unwrap().0;
    let rear = one.replace("Slitting knife rail", "Rear knife rail");
    plant.edit(MACHINE, "zones:", &format!("  rear_rail:\n{rear}zones:"));
    let recipe = plant.read(LARGE);
    let layout =
        recipe.split_once("  knife_rail:\n").unwrap().1.split_once("first_piece:").unwrap().0;
    plant.edit(LARGE, "first_piece:", &format!("  rear_rail:\n{layout}first_piece:"));
    let twice = "knives, { procedure: knives, with: { rail: rear_rail } }, release";
    plant.edit(MACHINE, "knives, release", twice);
}

#[test]
fn one_procedure_sets_two_rails_and_each_step_has_a_name_of_its_own() {
    let plant = Plant::small();
    two_rails(&plant);
    let packet = packet(&plant);
    let ids: BTreeSet<&String> = packet.steps.iter().map(|step| &step.id).collect();
    assert_eq!(ids.len(), packet.steps.len());
    let readings = || packet.steps.iter().flat_map(|step| &step.readings);
    let blanks: BTreeSet<&String> = readings().map(|reading| &reading.id).collect();
    assert_eq!(blanks.len(), readings().count());
    let moves = |id: &str| {
        let step = packet.steps.iter().find(|step| step.id == id).unwrap();
        (step.nth, step.values["knife_rail.moves"].clone())
    };
    assert_eq!(moves("knives.move-each-holder-to-its-position").0, 1);
    let rear = packet.steps.iter().find(|step| step.nth == 2 && step.stays.is_none()).unwrap();
    assert!(rear.id.ends_with("--2") && rear.values.contains_key("rear_rail.name"), "{rear:?}");
    let with: Vec<&str> = packet
        .order
        .iter()
        .filter(|part| part.procedure == "knives")
        .map(|part| part.with["rail"].as_str())
        .collect();
    assert_eq!(with, ["Slitting knife rail", "Rear knife rail"]);
    // The packet's page tells the two apart.
    plant.run(&["packet", "PLANT", "J-1", "--out", "packet.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("packet.html")).unwrap();
    assert!(page.contains("rail: Rear knife rail</span></h2>"), "no remark");
    // A step is signed by its number or its name.
    plant.run(&["derive", "PLANT", "J-1", "--steps"]).ends(0).says("  rail: Rear knife rail");
}

#[test]
fn the_same_values_twice_are_refused() {
    let plant = Plant::small();
    plant.remove(KNIVES);
    let twice = "knives, { procedure: knives, with: { rail: knife_rail } }, release";
    plant.edit(MACHINE, "knives, release", twice);
    plant.run(&["check", "PLANT"]).ends(1).says("procedure-twice");
}

/// A procedure of the plant with these facts and sections.
fn procedure(plant: &Plant, id: &str, facts: &str, sections: &str) {
    let head = "title: Do more\nrevision: 1\ndate: 2026-01-05\nauthor: A\nreason: R";
    let text = format!("---\nid: {id}\n{head}\n{facts}---\nWhy.\n\n{sections}");
    plant.write(&format!("instructions/{id}.md"), text);
}

const LOOK: &str = "## Look at the blades\nLook at {{ where }}, `{{ note }}` and {{ rail.name }}.\n\
    ```step\nneeds: isolated\nzone: where\nhazards: [knife-edge]\nsign: { performed: technician }\n```\n";

#[test]
fn an_included_procedure_is_told_its_values_and_says_where_it_came_from() {
    let plant = Plant::small();
    let look = LOOK.replace("`{{ note }}`", "{{ note }}");
    let facts = "parameters:\n  where: { type: zone }\n  rail: { type: rail }\n  note: { type: text, default: nothing }\n";
    procedure(&plant, "look", facts, &look);
    let outer = "parameters:\n  place: { type: zone }\n";
    let include = "## Look there\n```include\nprocedure: look\nwith: { where: place, rail: knife_rail, note: \"the {{ job.id }}\" }\n```\n";
    procedure(&plant, "looks", outer, include);
    let order = "{ procedure: looks, with: { place: slitting } }, knives, release";
    plant.edit(MACHINE, "knives, release", order);
    let packet = packet(&plant);
    let step = packet.steps.iter().find(|step| step.id == "look.look-at-the-blades").unwrap();
    assert_eq!(step.zone.as_deref(), Some("slitting"));
    let values: BTreeMap<&str, &str> =
        step.values.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    // What is told is put in as it is: nothing in it is looked up.
    let expected = [
        ("knife_rail.name", "Slitting knife rail"),
        ("note", "the {{ job.id }}"),
        ("where", "Slitting section"),
    ];
    assert_eq!(values, BTreeMap::from(expected));
    let part = packet.order.iter().find(|part| part.procedure == "look").unwrap();
    assert_eq!((part.by, part.inside.as_str()), (NamedBy::Procedure, "looks"));
    assert_eq!(part.place, "instructions/looks.md:15");
    let sources: Vec<&str> = packet.sources.iter().map(|source| source.path.as_str()).collect();
    assert!(
        sources.contains(&"instructions/look.md") && sources.contains(&"instructions/looks.md")
    );
    assert!(packet.procedures.iter().any(|procedure| procedure.id == "look"));
}

/// The walk judges an included step, and one whose zone is a parameter, like any other.
#[test]
fn the_walk_sees_included_steps() {
    for (order, refused) in [
        ("[prepare, lockout, stored-energy, looks, knives, release", false),
        ("[prepare, looks, lockout, stored-energy, knives, release", true),
        ("[prepare, lockout, looks, stored-energy, knives, release", true),
        ("[prepare, lockout, stored-energy, knives, release-from-lockout, looks, release", true),
    ] {
        let plant = Plant::small();
        let facts = "parameters:\n  where: { type: zone, default: slitting }\n";
        procedure(&plant, "look", facts, &LOOK.replace(", `{{ note }}` and {{ rail.name }}", ""));
        procedure(&plant, "looks", "", "## Look there\n```include\nprocedure: look\n```\n");
        let from = match order.contains("release-from-lockout") {
            true => {
                "[prepare, lockout, stored-energy, knives, release-from-lockout, first-piece, release"
            }
            false => "[prepare, lockout, stored-energy, knives, release",
        };
        let order = order.replace("looks, release", "looks, first-piece, release");
        let order = if refused && from.contains("first-piece") {
            order
        } else {
            order.replace("looks, first-piece, release", "looks, release")
        };
        plant.edit(MACHINE, from, &order);
        let run = plant.run(&["check", "PLANT"]).ends(i32::from(refused));
        if refused {
            run.says("instructions/look.md:13").says("1910.147");
        }
    }
}

/// The whole lockout as an include: the same stages, and none of them can be lost on the way.
#[test]
fn an_included_lockout_is_the_lockout() {
    let stages =
        |packet: &Packet| -> Vec<Stage> { packet.steps.iter().map(|step| step.stage).collect() };
    let plain = stages(&packet(&Plant::small()));
    let plant = Plant::small();
    let sections = "## Lock out\n```include\nprocedure: lockout\n```\n\n## Prove zero\n```include\nprocedure: stored-energy\n```\n";
    procedure(&plant, "stop", "", sections);
    plant.edit(MACHINE, "lockout, stored-energy, knives", "stop, knives");
    let included = packet(&plant);
    assert_eq!(stages(&included), plain);
    // A condition around it is refused, whether it holds or not.
    for condition in ["rails: [knife_rail]", "changes: [knife_rail]", "job: crew"] {
        procedure(&plant, "stop", &format!("when: {{ {condition} }}\n"), sections);
        plant.run(&["check", "PLANT"]).ends(1).says("lockout-step-optional");
    }
    // Without one of the two somebody reaches in unprotected.
    procedure(&plant, "stop", "", "## Lock out\n```include\nprocedure: lockout\n```\n");
    plant.run(&["check", "PLANT"]).ends(1).says("1910.147");
}

#[test]
fn what_does_not_apply_is_said_with_its_reason() {
    let plant = Plant::small();
    let step = |title: &str, when: &str| {
        format!(
            "## {title}\nLook.\n```step\nwhen: {{ {when} }}\nsign: {{ performed: technician }}\n```\n\n"
        )
    };
    let sections =
        step("Look at the rail", "rails: [knife_rail], zones: [slitting], instruments: [gauge]")
            + &step("Look at the air", "energy: [pneumatic], facts: [knife_rail.hex_key]")
            + &step("Look at the oil", "energy: [hydraulic]")
            + &step("Wait for the crew", "job: crew")
            + &step("Look at the knives", "changes: [knife_rail]");
    procedure(&plant, "looks", "", &sections);
    procedure(
        &plant,
        "never",
        "when: { job: contractors }\n",
        &step("Look out", "rails: [knife_rail]"),
    );
    plant.edit(MACHINE, "[prepare,", "[looks, never, prepare,");
    let packet = packet(&plant);
    let own = packet.steps.iter().filter(|step| step.procedure == "looks");
    let titles: Vec<&str> = own.clone().map(|step| step.title.as_str()).collect();
    assert_eq!(titles, ["Look at the rail", "Look at the air", "Look at the knives"]);
    assert_eq!(own.last().unwrap().kept, "changes: Slitting knife rail");
    let considered: Vec<(&str, &str, &str)> = packet
        .considered
        .iter()
        .filter(|one| ["looks", "never"].contains(&one.procedure.as_str()))
        .map(|one| (one.procedure.as_str(), one.step.as_str(), one.why.as_str()))
        .collect();
    let expected = [
        ("looks", "Look at the oil", "the machine has no hydraulic energy"),
        ("looks", "Wait for the crew", "the job names no crew"),
        ("never", "", "the job names no contractors"),
    ];
    assert_eq!(considered, expected);
    for form in ["instruction", "checklist"] {
        plant.run(&["packet", "PLANT", "J-1", "--form", form, "--out", "sheet.html"]).ends(0);
        let page = std::fs::read_to_string(plant.beside("sheet.html")).unwrap();
        assert!(page.contains("the machine has no hydraulic energy"), "{form}");
    }
}

#[test]
fn a_machine_takes_the_order_of_its_kind() {
    let plain = packet(&Plant::small());
    let plant = Plant::small();
    let order = plant.read(MACHINE);
    let order = order.lines().find(|line| line.starts_with("changeover:")).unwrap();
    let list = order.strip_prefix("changeover: ").unwrap();
    plant.edit(MACHINE, order, "");
    plant.edit(PLANT, "domain:", &format!("changeovers:\n  {KIND}: {list}\ndomain:"));
    let packet = packet(&plant);
    assert_eq!(packet.steps, plain.steps);
    assert!(
        packet.order.iter().all(|part| part.by == NamedBy::Kind && part.place == "plant.yaml:4")
    );
}

/// A row once a lane, with a blank that the step names itself.
#[test]
fn a_step_is_repeated_once_a_lane() {
    let plant = Plant::small();
    let step = "## Look at each lane\nLook.\n```step\nrepeat: rail.lanes\nreading: { name: Lane load, unit: N, low: \"1\", high: \"5\" }\nsign: { performed: technician }\n```\n";
    procedure(&plant, "lanes", "parameters:\n  rail: { type: rail, default: knife_rail }\n", step);
    plant.edit(MACHINE, "[prepare,", "[lanes, prepare,");
    let packet = packet(&plant);
    let step = packet.steps.iter().find(|step| step.procedure == "lanes").unwrap();
    let blanks: Vec<&str> = step.readings.iter().map(|reading| reading.id.as_str()).collect();
    let lane = |number: u32| format!("lanes.look-at-each-lane/lane-load-lane-{number}");
    assert_eq!(blanks, [lane(1), lane(2), lane(3), lane(4)]);
    assert_eq!(step.readings[2].label, "Lane load, lane 3");
}

/// What version 3 added is left out where it says nothing, so that older packets keep their bytes.
#[test]
fn an_older_packet_keeps_its_bytes() {
    let mut packet = packet(&Plant::small());
    packet.v = 2;
    packet.order.clear();
    packet.considered.clear();
    packet.steps.iter_mut().for_each(|step| step.kept.clear());
    let line = canonical::line(&packet).unwrap();
    let text = String::from_utf8(line.clone()).unwrap();
    for key in ["\"order\":[", "\"considered\"", "\"kept\"", "\"nth\""] {
        assert!(!text.contains(key), "{key}");
    }
    let read: Packet = serde_json::from_slice(&line).unwrap();
    assert_eq!(canonical::line(&read).unwrap(), line);
}
