//! Where used: on real plants, with file and line, and what nothing uses.

use crate::plant::Plant;

/// Every place that is shown is there: the line holds the name, or what it is written as.
#[test]
fn each_use_stands_where_it_is_said_to_stand() {
    let plant = Plant::demo();
    let all = plant.run(&["where-used", "PLANT", "--json"]).ends(0).json();
    let mut looked = 0;
    for thing in all["things"].as_array().unwrap() {
        let id = thing["id"].as_str().unwrap();
        for (key, spots) in [("stands", &thing["stands"]), ("uses", &thing["uses"])] {
            for spot in spots.as_array().unwrap() {
                let file = spot["file"].as_str().unwrap();
                let text = match file.strip_prefix("shipped/") {
                    Some(own) => {
                        let path = crate::plant::root().join("instructions").join(own);
                        std::fs::read_to_string(path).unwrap()
                    }
                    None => plant.read(file),
                };
                let line = usize::try_from(spot["line"].as_u64().unwrap()).unwrap();
                let shown = text.lines().nth(line - 1).unwrap();
                let named = [id, id.rsplit('.').next().unwrap()].iter().any(|n| shown.contains(n));
                // A step through all settings, the screws of a rail, a rail's zone: not by name.
                let by_kind =
                    ["repeat: settings", "rail", "clamp", "shift_change", "zone: section"];
                let is_meant = by_kind.iter().any(|words| shown.contains(words));
                assert!(named || is_meant, "{id} {key}: {file}:{line}: {shown}");
                looked += 1;
            }
        }
    }
    assert!(looked > 1500, "{looked}");
}

#[test]
fn a_thing_is_shown_with_machines_recipes_steps_and_open_jobs() {
    let plant = Plant::small();
    plant
        .run(&["where-used", "PLANT", "steel-rule"])
        .ends(0)
        .says("instrument steel-rule: ")
        .says("machine line-1")
        .says("recipes/large-pouch.yaml:15  recipe large-pouch")
        .says("J-1");
    let run = plant.run(&["where-used", "PLANT", "strip"]).ends(0);
    for words in ["setting strip: Strip width", "recipe small-pouch", "open jobs"] {
        assert!(run.stdout.contains(words), "{words}\n{}", run.stdout);
    }
    plant.run(&["where-used", "PLANT", "technician"]).ends(0).says(", step \"").says("held by");
    // A name for people is as good as an identifier, whatever its case.
    plant.run(&["where-used", "PLANT", "STRIP  width"]).ends(0).says("setting strip");
}

#[test]
fn what_a_parameter_stands_for_is_used() {
    let plant = Plant::small();
    let used = plant.run(&["where-used", "PLANT", "knife_rail.clamp_torque"]).ends(0);
    used.says("instructions/knives.md:64");
    let listed = unused(&plant).into_iter().any(|(_, id, _)| id == "knife_rail.clamp_torque");
    assert!(!listed);
}

#[test]
fn an_unknown_name_is_answered_with_those_near_to_it() {
    let plant = Plant::small();
    plant.run(&["where-used", "PLANT", "steel-rull"]).ends(2).complains("near to it: steel-rule");
    plant.run(&["where-used", "PLANT", "qqqqqqqq"]).ends(2).complains("nothing in this plant");
}

/// What the plant wrote and nothing uses: kind, identifier, line.
fn unused(plant: &Plant) -> Vec<(String, String, u64)> {
    let all = plant.run(&["where-used", "PLANT", "--json"]).ends(0).json();
    let list = all["unused"].as_array().unwrap().iter();
    let own = list.filter(|one| one["shipped"] == false);
    let word = |one: &serde_json::Value, key: &str| one[key].as_str().unwrap().to_owned();
    own.map(|one| (word(one, "kind"), word(one, "id"), one["stands"]["line"].as_u64().unwrap()))
        .collect()
}

/// An edit: file, what stands there, what is put in its place.
type Edit<'a> = (&'a str, &'a str, &'a str);

/// Adds something that nothing uses, and wants it listed with its line; uses it, and wants it gone.
#[track_caller]
fn check_unused(kind: &str, id: &str, add: Edit, use_it: Edit) {
    let plant = Plant::small();
    plant.edit(add.0, add.1, add.2);
    let line = plant.read(add.0).lines().position(|line| line.contains(id)).unwrap() as u64 + 1;
    let one = (kind.to_owned(), id.to_owned(), line);
    let listed = unused(&plant);
    assert!(listed.contains(&one), "{one:?}: {listed:?}");
    plant.edit(use_it.0, use_it.1, use_it.2);
    let left = unused(&plant);
    assert!(!left.iter().any(|left| left.0 == kind && left.1 == id), "{left:?}");
}

#[test]
fn what_nothing_uses_is_listed_until_something_uses_it() {
    let recipe = "recipes/large-pouch.yaml";
    check_unused(
        "input",
        "spare_width",
        (recipe, "trim: 10 mm }", "trim: 10 mm, spare_width: 3 mm }"),
        (recipe, "2 * trim", "2 * trim + 0 * spare_width"),
    );
    let table = "tables:\n  hold: { reads: exactly, rows: [[1 mm, 2 mm]] }\nsettings:\n";
    check_unused(
        "table",
        "hold",
        (recipe, "settings:\n", table),
        (recipe, "2 * trim", "2 * trim + 0 * hold(1 mm)"),
    );
    let rule = "instruments:\n  spare-rule: { name: Spare rule, resolution: 0.5 mm }\n";
    let measured = "  - { of: strip, each: lane, instrument: spare-rule }";
    check_unused(
        "instrument",
        "spare-rule",
        ("machines/line-1.yaml", "instruments:\n", rule),
        (recipe, "  - { of: strip, each: lane }", measured),
    );
    let by = "accepts_deviation: { default: quality, knives: cleaner }";
    check_unused(
        "role",
        "cleaner",
        ("plant.yaml", "roles:\n", "roles:\n  cleaner: Cleans the line\n"),
        ("plant.yaml", "accepts_deviation: quality", by),
    );
}

#[test]
fn a_person_who_holds_a_role_is_no_use_of_it() {
    let plant = Plant::small();
    plant.edit("plant.yaml", "roles:\n", "roles:\n  cleaner: Cleans the line\n");
    let held = "roles:\n      - { role: cleaner, from: 2026-01-01 }\n";
    let people = plant.read("people.yaml").replacen("roles:\n", held, 1);
    plant.write("people.yaml", people);
    let said = plant.run(&["where-used", "PLANT"]).ends(0).stdout;
    let (unused, _) = said.split_once("\n\n").unwrap();
    assert!(unused.contains("role cleaner"), "{said}");
}

#[test]
fn names_that_are_likely_the_same_are_asked_about() {
    let plant = Plant::small();
    let own = "---\nid: own\ntitle: Own work\nrevision: 1\ndate: 2026-01-01\nauthor: A\nreason: R\n---\nWhy.\n\n## Loosen it\nLoosen it.\n```step\ntools: [Soft mallet 300 g, soft Mallet 300g, soft mallet 400 g]\nsign: { performed: technician }\n```\n";
    plant.write("instructions/own.md", own);
    let all = plant.run(&["where-used", "PLANT", "--json"]).ends(0).json();
    let same = all["same"].as_array().unwrap().iter().filter(|one| one["kind"] == "tool");
    let names: Vec<_> = same.map(|one| one["names"].clone()).collect();
    assert_eq!(names, [serde_json::json!(["Soft mallet 300 g", "soft Mallet 300g"])]);
    plant.run(&["where-used", "PLANT"]).ends(0).says("\"Soft mallet 300 g\", \"soft Mallet 300g\"");
}

#[test]
fn the_program_s_own_unused_procedures_are_told_apart() {
    let said = Plant::small().run(&["where-used", "PLANT"]).ends(0).stdout;
    let (own, shipped) = said.split_once("Shipped with the program").unwrap();
    assert!(shipped.contains("procedure ") && !own.contains("shipped/"), "{own}");
}

#[test]
fn a_closed_job_uses_nothing_any_more() {
    let plant = Plant::demo();
    let used = plant.run(&["where-used", "PLANT", "lockout", "--json"]).ends(0).json();
    let jobs = used[0]["jobs"].to_string();
    assert!(jobs.contains("SM-1046") && !jobs.contains("SM-1041"), "{jobs}");
}

#[test]
fn the_site_has_a_page_for_each_kind_and_each_link_leads_somewhere() {
    let plant = Plant::demo();
    plant.run(&["publish", "PLANT", "--out", "site"]);
    let page = |name: &str| std::fs::read_to_string(plant.beside("site").join(name)).unwrap();
    assert!(page("search.html").contains("uses.html"));
    let start = page("uses.html");
    for part in start.split("href=\"uses-").skip(1) {
        let name = format!("uses-{}", part.split('"').next().unwrap());
        let list = page(&name);
        for link in list.split("href=\"").skip(1).filter_map(|part| part.split('"').next()) {
            let file = link.split('#').next().unwrap();
            assert!(file.is_empty() || plant.beside("site").join(file).is_file(), "{name}: {link}");
        }
    }
    assert!(page("uses-instrument.html").contains("machines/pouch-6.yaml:"));
}
