//! What past changeovers teach, on the demo's records: counted anew from the files, spoiled, revised.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value as Json;
use witnessmark::quantity::Number;

use crate::plant::{Plant, root};

fn history(plant: &Plant, words: &[&str]) -> Json {
    plant.run(&[&["history", "PLANT", "--json"], words].concat()).ends(0).json()
}

fn list<'j>(json: &'j Json, field: &str) -> &'j Vec<Json> {
    json[field].as_array().unwrap()
}

fn text<'j>(json: &'j Json, field: &str) -> &'j str {
    json[field].as_str().unwrap_or_else(|| panic!("{field} of {json}"))
}

/// Records of which something is left out, by name.
fn left_out(json: &Json) -> BTreeSet<&str> {
    list(json, "left_out").iter().map(|one| text(one, "record")).collect()
}

/// The entries of a record, as plain JSON.
fn entries(plant: &Plant, record: &str) -> Vec<Json> {
    let folder = plant.folder().join("records").join(record);
    let mut names: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|own| own == "json"))
        .filter(|path| !path.ends_with("packet.json"))
        .collect();
    names.sort();
    names
        .iter()
        .map(|path| serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap())
        .collect()
}

/// Everything that a machine is said to have done is counted from the files once more.
#[test]
fn a_machine_has_what_its_records_have() {
    let plant = Plant::demo();
    let json = history(&plant, &[]);
    let whole = |record: &str| {
        !list(&json, "left_out")
            .iter()
            .any(|one| one["record"] == record && one["entries"].is_null())
    };
    let sound = |record: &str| !left_out(&json).contains(record);
    for machine in list(&json, "machines") {
        let own: Vec<&Json> = list(&json, "changeovers")
            .iter()
            .filter(|one| one["machine"] == machine["id"])
            .collect();
        assert_eq!(machine["changeovers"], own.len());
        let sum = |field: &str, part: &str| -> u64 {
            own.iter().map(|one| one[field][part].as_u64().unwrap()).sum()
        };
        assert_eq!(machine["first_pass"]["all"], sum("first_pass", "all"));
        assert_eq!(machine["first_pass"]["good"], sum("first_pass", "good"));
        let minutes: u64 = own.iter().filter_map(|one| one["minutes"].as_u64()).sum();
        assert_eq!(machine["time"]["minutes"], minutes);
    }
    let mut looked = 0;
    for one in list(&json, "changeovers") {
        let record = text(one, "record");
        assert!(whole(record));
        if !sound(record) {
            continue;
        }
        let all = entries(&plant, record);
        let readings: Vec<&Json> = all.iter().filter(|entry| entry["kind"] == "reading").collect();
        let mut first: BTreeMap<&str, &str> = BTreeMap::new();
        for reading in &readings {
            let taken = &reading["reading"];
            first.entry(text(taken, "blank")).or_insert(text(taken, "verdict"));
        }
        assert_eq!(one["first_pass"]["all"], first.len(), "{record}");
        let good = first.values().filter(|verdict| **verdict == "within").count();
        assert_eq!(one["first_pass"]["good"], good, "{record}");
        let corrected = readings.iter().filter(|entry| entry["corrects"].is_u64()).count();
        let sum = |field: &str| -> u64 {
            one[field].as_object().unwrap().values().map(|count| count.as_u64().unwrap()).sum()
        };
        assert_eq!(sum("corrections"), corrected as u64, "{record}");
        let raised = all.iter().filter(|entry| entry["kind"] == "deviation-raised").count();
        assert!(sum("deviations") >= raised as u64, "{record}");
        let released = all.iter().find(|entry| entry["kind"] == "released");
        assert_eq!(one["released"], released.map_or(Json::Null, |entry| entry["at"].clone()));
        looked += 1;
    }
    assert!(looked >= 3, "{looked}");
}

/// Each value of each series is the last reading of its blank in its record, less the target.
#[test]
fn a_point_is_the_last_reading_of_its_changeover() {
    let plant = Plant::demo();
    let json = history(&plant, &["--machine", "pouch-6"]);
    let mut looked = 0;
    for series in list(&json, "series") {
        assert_eq!(series["machine"], "pouch-6");
        for point in list(series, "points") {
            let all = entries(&plant, text(point, "record"));
            let of_blank = |entry: &&Json| entry["reading"]["blank"] == series["blank"];
            let last = all.iter().rfind(of_blank).unwrap();
            assert_eq!((&last["seq"], &last["at"]), (&point["entry"], &point["at"]));
            assert_eq!(last["reading"]["value"], point["reading"]);
            let number = |text: &str| Number::parse(text).unwrap();
            let reading = number(text(point, "reading"));
            let value = match point["target"].as_str() {
                Some(target) => reading.sub(number(target)).unwrap(),
                None => reading,
            };
            assert_eq!(number(text(point, "value")), value);
            looked += 1;
        }
    }
    assert!(looked > 40, "{looked}");
    assert!(list(&json, "changeovers").iter().all(|one| one["machine"] == "pouch-6"));
}

#[test]
fn a_part_is_the_part_that_was_asked_for() {
    let plant = Plant::demo();
    let of = |words: &[&str]| {
        let json = history(&plant, words);
        let records = list(&json, "changeovers").iter().map(|one| text(one, "record").to_owned());
        records.collect::<BTreeSet<_>>()
    };
    let (late, all) = (of(&["--from", "2026-11-24"]), of(&[]));
    let early = of(&["--until", "2026-11-23"]);
    assert!(late.contains("SM-1042") && !late.contains("SM-1041"), "{late:?}");
    assert!(early.contains("SM-1041") && !early.contains("SM-1042"), "{early:?}");
    assert!(late.union(&early).cloned().collect::<BTreeSet<_>>() == all);
    plant.run(&["history", "PLANT", "--from", "yesterday"]).ends(2).complains("is no day");
    plant
        .run(&["history", "PLANT", "--machine", "pouch-7"])
        .ends(2)
        .complains("no machine `pouch-7`")
        .complains("pouch-6");
    // A machine without a record has no history, and that is no fault.
    plant.run(&["history", "PLANT", "--machine", "bag-1"]).ends(0).says("no changeover on record");
}

/// A reading that was changed afterwards does not count, and the record is named.
#[test]
fn what_does_not_hold_is_left_out_and_named() {
    let plant = Plant::demo();
    let before = history(&plant, &["--machine", "pouch-6"]);
    let all = entries(&plant, "SM-1041");
    let last = all.iter().rfind(|entry| entry["kind"] == "reading").unwrap();
    let file = format!("records/SM-1041/{:06}.json", last["seq"].as_u64().unwrap());
    let (value, blank) = (text(&last["reading"], "value"), text(&last["reading"], "blank"));
    plant.edit(&file, &format!("\"value\":\"{value}\""), "\"value\":\"99.9\"");
    let json = history(&plant, &["--machine", "pouch-6"]);
    let left_out = list(&json, "left_out").iter().find(|one| one["record"] == "SM-1041").unwrap();
    assert!(left_out["entries"].as_u64().unwrap() >= 1, "{left_out}");
    assert!(list(left_out, "why").contains(&Json::from("signature-bad")), "{left_out}");
    let has = |json: &Json| list(json, "series").iter().any(|series| series["blank"] == blank);
    assert!(has(&before) && !has(&json));
    plant.run(&["history", "PLANT"]).ends(0).says("left out: SM-1041, ");
    std::fs::remove_file(plant.folder().join("records/SM-1041/packet.json")).unwrap();
    let json = history(&plant, &["--machine", "pouch-6"]);
    let left_out = list(&json, "left_out").iter().find(|one| one["record"] == "SM-1041").unwrap();
    assert_eq!(
        (&left_out["entries"], &list(left_out, "why")[0]),
        (&Json::Null, &"packet-missing".into())
    );
    assert!(list(&json, "changeovers").iter().all(|one| one["record"] != "SM-1041"));
}

/// Written into a new revision, a proposal moves the target by its offset, and is not made again.
#[test]
fn a_proposal_can_be_written_into_the_recipe() {
    let plant = Plant::demo();
    let json = history(&plant, &[]);
    let proposal = &list(&json, "proposals")[0];
    let (recipe, setting) = (text(proposal, "recipe"), text(proposal, "setting"));
    let said = plant.run(&["history", "PLANT"]).ends(0);
    let said = said.says("Only a person changes a recipe.").says(text(proposal, "ends_at"));
    let edit: serde_yaml::Value = serde_yaml::from_str(text(proposal, "edit")).unwrap();
    let formula = edit["settings"][setting]["formula"].as_str().unwrap();
    assert!(said.stdout.contains(formula));
    let file = format!("recipes/{recipe}.yaml");
    let mut body: serde_yaml::Value = serde_yaml::from_str(&plant.read(&file)).unwrap();
    assert_eq!(body["settings"][setting]["formula"], text(proposal, "formula"));
    body["settings"][setting]["formula"] = formula.into();
    plant.write(&file, serde_yaml::to_string(&body).unwrap());
    let after = history(&plant, &[]);
    let same = |one: &&Json| one["recipe"] == recipe && one["setting"] == setting;
    assert_eq!(list(&after, "proposals").iter().filter(same).count(), 0);
    // A job that is not signed yet has the new target.
    let job = format!("id: J-1\nmachine: {}\n", text(proposal, "machine"))
        + &job_body(&plant, text(proposal, "machine"), recipe);
    plant.write("jobs/J-1.yaml", job);
    let derived = plant.run(&["derive", "PLANT", "J-1", setting]).ends(0);
    let set_to = format!("set to   {} ", text(proposal, "ends_at"));
    assert!(derived.stdout.contains(&set_to), "{set_to}: {}", derived.stdout);
}

/// The rest of a job's file, from another recipe of the machine to this one.
fn job_body(plant: &Plant, machine: &str, recipe: &str) -> String {
    let others = std::fs::read_dir(plant.folder().join("recipes")).unwrap();
    let names = others.map(|file| file.unwrap().path());
    let is_other = |path: &std::path::PathBuf| {
        let text = std::fs::read_to_string(path).unwrap();
        text.contains(machine) && path.file_stem().is_some_and(|stem| *stem != *recipe)
    };
    let other = names.filter(is_other).min().unwrap();
    let other = other.file_stem().unwrap().to_str().unwrap();
    format!(
        "from: {other}\nto: {recipe}\norder: Order 1\npieces: 1000\ndate: 2026-11-27\nshift: early\n\
         issued: 2026-11-26T13:05:00+01:00\nissued_by: e.whitcombe@saltmarsh.example\n"
    )
}

/// Every field that is printed stands in the description, and every number that was read is text.
#[test]
fn what_is_printed_is_described() {
    let described = std::fs::read_to_string(root().join("src/history/FORMAT.md")).unwrap();
    let json = history(&Plant::demo(), &[]);
    let mut fields = BTreeSet::new();
    collect(&json, "", &mut fields);
    for field in &fields {
        assert!(described.contains(&format!("`{field}`")), "{field} is not described");
    }
    assert!(fields.len() > 60, "{fields:?}");
    for series in list(&json, "series") {
        for field in ["mean", "deviation", "autocorrelation"] {
            assert!(series[field].is_string() || series[field].is_null(), "{series}");
        }
        assert!(list(series, "points").iter().all(|point| point["value"].is_string()));
    }
}

/// Names of fields; those of maps by step or rule are data.
fn collect<'j>(json: &'j Json, under: &str, fields: &mut BTreeSet<&'j str>) {
    let is_map = |name: &str| matches!(name, "signals" | "deviations" | "corrections");
    match json {
        Json::Object(own) => {
            for (name, inner) in own {
                if !is_map(under) {
                    fields.insert(name);
                }
                collect(inner, name, fields);
            }
        }
        Json::Array(all) => all.iter().for_each(|inner| collect(inner, under, fields)),
        _ => {}
    }
}
