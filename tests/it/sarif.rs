//! `check --sarif`: what editors and build servers read, held against the published schema.

use serde_json::Value;

use crate::plant::Plant;

/// The parts of the published schema that our file touches.
const SCHEMA: &str = include_str!("sarif/parts-of-the-schema.json");

/// What a value has that the schema does not want, by its path.
fn faults(schema: &Value, all: &Value, value: &Value, at: &str) -> Vec<String> {
    if let Some(name) = schema["$ref"].as_str() {
        let name = name.strip_prefix("#/definitions/").unwrap();
        let definition = all["definitions"].get(name).unwrap_or_else(|| panic!("{at}: {name}"));
        return faults(definition, all, value, at);
    }
    let mut found = Vec::new();
    let is = |kind: &str| match kind {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_i64() || value.is_u64(),
        other => panic!("{other}"),
    };
    if schema["type"].as_str().is_some_and(|kind| !is(kind)) {
        found.push(format!("{at} is no {}", schema["type"]));
    }
    if schema["enum"].as_array().is_some_and(|known| !known.contains(value)) {
        found.push(format!("{at}: {value} is none of {}", schema["enum"]));
    }
    if schema["minimum"].as_i64().is_some_and(|least| value.as_i64().unwrap() < least) {
        found.push(format!("{at}: {value} is below {}", schema["minimum"]));
    }
    let lacks = |required: &Value| {
        let keys = required.as_array().into_iter().flatten();
        keys.filter(|key| value.get(key.as_str().unwrap()).is_none()).count() > 0
    };
    if lacks(&schema["required"]) {
        found.push(format!("{at} lacks one of {}", schema["required"]));
    }
    let ways = schema["anyOf"].as_array().into_iter().flatten();
    if ways.clone().count() > 0 && ways.clone().all(|way| lacks(&way["required"])) {
        found.push(format!("{at} has none of {}", schema["anyOf"]));
    }
    for (key, inner) in value.as_object().into_iter().flatten() {
        let at = format!("{at}.{key}");
        match (schema["properties"].get(key), &schema["additionalProperties"]) {
            (Some(known), _) => found.extend(faults(known, all, inner, &at)),
            (None, Value::Bool(false)) => found.push(format!("{at} is unknown")),
            (None, other) => found.extend(faults(other, all, inner, &at)),
        }
    }
    for (index, inner) in value.as_array().into_iter().flatten().enumerate() {
        found.extend(faults(&schema["items"], all, inner, &format!("{at}[{index}]")));
    }
    found
}

/// The run of a file that the schema allows.
#[track_caller]
fn run_of(plant: &Plant, code: i32) -> Value {
    let log = plant.run(&["check", "PLANT", "--sarif"]).ends(code).json();
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    assert_eq!(faults(&schema, &schema, &log, "log"), Vec::<String>::new());
    assert_eq!(log["version"], "2.1.0");
    log["runs"][0].clone()
}

#[test]
fn a_plant_without_fault_has_a_run_without_results() {
    let run = run_of(&Plant::small(), 0);
    assert_eq!(run["results"], serde_json::json!([]));
    assert_eq!(run["tool"]["driver"]["rules"], serde_json::json!([]));
}

#[test]
fn a_result_has_its_rule_its_place_and_its_way_out() {
    let plant = Plant::small();
    plant.edit("recipes/large-pouch.yaml", "fin: 5 mm", "fin: 5 mmm");
    plant.write("recipes/a b.txt", "read me");
    let run = run_of(&plant, 1);
    let results = run["results"].as_array().unwrap();
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for result in results {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        let rule = &rules[index];
        assert_eq!(rule["id"], result["ruleId"]);
        assert_eq!(rule["defaultConfiguration"]["level"], result["level"]);
        for text in ["shortDescription", "fullDescription", "help"] {
            assert!(rule[text]["text"].as_str().unwrap().len() > 10, "{rule}");
        }
    }
    let place = |n: usize| &results[n]["locations"][0]["physicalLocation"];
    assert_eq!(place(0)["artifactLocation"]["uri"], "recipes/a%20b.txt");
    assert_eq!(place(0).get("region"), None);
    assert_eq!(results[0]["level"], "warning");
    assert_eq!(place(1)["artifactLocation"]["uri"], "recipes/large-pouch.yaml");
    let region = serde_json::json!(
        { "startLine": 8, "startColumn": 37, "endLine": 8, "endColumn": 40 }
    );
    assert_eq!(place(1)["region"], region);
    assert_eq!(results[1]["message"]["text"], "`mmm` is not a known unit\ndid you mean `mm`?");
}

#[test]
fn what_somebody_answers_for_is_there_as_a_suppressed_error() {
    let plant = Plant::small();
    plant.edit("instructions/lockout.md", "stage: notify", "stage: work");
    let before = run_of(&plant, 1);
    let is_stage = |one: &&Value| one["ruleId"] == "stage-missing";
    let stage =
        |run: &Value| run["results"].as_array().unwrap().iter().find(is_stage).unwrap().clone();
    assert_eq!(stage(&before).get("suppressions"), None);
    let justified = "findings:\n  by: [lead]\n  justified:\n    - rule: stage-missing\n      \
                     file: instructions/lockout.md\n      by: l.two@plant.example\n      \
                     date: 2026-01-05\n      reason: The maker says so\n";
    plant.write("plant.yaml", plant.read("plant.yaml") + justified);
    let stage = stage(&run_of(&plant, 1));
    assert_eq!(stage["level"], "error");
    let suppression = &stage["suppressions"][0];
    assert_eq!(
        (&suppression["kind"], &suppression["status"]),
        (&"external".into(), &"accepted".into())
    );
    let justification = suppression["justification"].as_str().unwrap();
    assert!(justification.contains("Lead Two") && justification.contains("The maker says so"));
}

#[test]
fn a_file_that_breaks_the_schema_is_found() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    let mut log = Plant::small().run(&["check", "PLANT", "--sarif"]).json();
    log["runs"][0]["tool"]["driver"].as_object_mut().unwrap().remove("name");
    log["runs"][0]["columnKind"] = "bytes".into();
    log["runs"][0]["colour"] = "red".into();
    assert_eq!(faults(&schema, &schema, &log, "log").len(), 3);
}
