//! The schemas of the files people write, against the program's own reading of them.
//!
//! Written to `target/outside`: the schemas, and files and parts of files with what the reading says
//! of each (`shapes.jsonl`, `values.jsonl`). `tests/outside/schemas.py` asks an outside validator the
//! same; `tests/run` runs it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;
use serde_json::{Value, json};
use witnessmark::finding::Findings;
use witnessmark::plant::load::is_id;
use witnessmark::plant::machine::is_name;
use witnessmark::plant::schema::{self, WRITTEN, Written};
use witnessmark::quantity::{Allowed, Measure};
use witnessmark::record::time;

use crate::broken;
use crate::dice::Dice;
use crate::plant::{Plant, files_of, root};

/// Plants whose files are read, and where they lie.
const PLANTS: [&str; 4] = [SMALL, "demo-data", "tests/it/library-plant", "src/cli/small-plant"];
const SMALL: &str = "tests/it/small-plant";

/// What stands in the place of something else.
fn replacements() -> [Value; 11] {
    [
        json!("word"),
        json!(7),
        json!(-1),
        json!(4_294_967_296_u64),
        json!(true),
        Value::Null,
        json!([]),
        json!(["word"]),
        json!({}),
        json!({ "key": "word" }),
        json!({ "de": "word", "es": 7 }),
    ]
}

/// Something somebody wrote: a file, or a part of a procedure.
#[derive(Clone)]
struct Piece {
    written: Written,
    /// Folder of the plant, and the file in it.
    plant: &'static str,
    file: String,
    text: String,
    value: Value,
}

impl Piece {
    fn new(name: &str, plant: &'static str, file: &str, text: &str) -> Piece {
        let written = *WRITTEN.iter().find(|written| written.name == name).unwrap();
        let (file, text) = (file.to_owned(), text.to_owned());
        let value = value(&text).unwrap_or_else(|| panic!("{file} is no YAML: {text}"));
        Piece { written, plant, file, text, value }
    }

    /// What the program's reading says.
    fn is_taken(&self) -> bool {
        takes(self.written, &self.text)
    }
}

fn takes(written: Written, text: &str) -> bool {
    written.reads(&mut Findings::default(), &Arc::from("f.yaml"), text)
}

/// The value of a YAML text; an empty block is an empty mapping.
fn value(text: &str) -> Option<Value> {
    let text = if text.trim().is_empty() { "{}" } else { text };
    serde_yaml::from_str(text).ok()
}

/// A value as YAML, in which nothing is written as nothing.
fn yaml(value: &Value) -> String {
    let text = serde_yaml::to_string(value).unwrap();
    let lines = text.lines().map(|line| match line.strip_suffix(" null") {
        Some(start) if start.ends_with([':', '-']) => format!("{start}\n"),
        _ => format!("{line}\n"),
    });
    lines.collect()
}

/// What a file of a plant holds.
fn pieces_of(plant: &'static str, file: &str, text: &str) -> Vec<Piece> {
    let whole = |name| vec![Piece::new(name, plant, file, text)];
    match file.split('/').collect::<Vec<_>>().as_slice() {
        ["plant.yaml"] => whole("plant"),
        ["people.yaml"] => whole("people"),
        ["stock.yaml"] => whole("stock"),
        [.., "hazards.yaml"] => whole("hazards"),
        ["machines", _] => whole("machine"),
        ["recipes", _] => whole("recipe"),
        ["jobs", _] => whole("job"),
        ["instructions", name] if name.ends_with(".md") => {
            parts("procedure", "step", plant, file, text)
        }
        ["instructions", _, name] if name.ends_with(".md") => {
            parts("translation", "texts", plant, file, text)
        }
        _ => Vec::new(),
    }
}

/// The front matter and the blocks of a procedure.
fn parts(front: &str, block: &str, plant: &'static str, file: &str, text: &str) -> Vec<Piece> {
    let Some((own, body)) = text.strip_prefix("---\n").and_then(|rest| rest.split_once("---\n"))
    else {
        return Vec::new();
    };
    let mut pieces = vec![Piece::new(front, plant, file, own)];
    for mark in [block, "include"] {
        for fenced in body.split(&format!("\n```{mark}\n")).skip(1) {
            let inside =
                if fenced.starts_with("```") { "" } else { fenced.split("\n```").next().unwrap() };
            pieces.push(Piece::new(mark, plant, file, inside));
        }
    }
    pieces
}

/// Files with keys that no plant has: plant, file, a text of it, and what stands in its place.
const MORE: &[(&str, &str, &str, &str)] = &[
    (SMALL, "plant.yaml", "domain:", "allergens_last: true\ndomain:"),
    (SMALL, "jobs/J-1.yaml", "shift: early", "shift: early\ndue: 2026-01-12T22:00"),
    (
        SMALL,
        "recipes/large-pouch.yaml",
        "machines: [line-1]",
        "machines: [line-1]\npieces_per_hour: 30000",
    ),
    (
        SMALL,
        "plant.yaml",
        "domain:",
        "language: en
units: { first: metric, also: inch }
judging: plain
findings:
  raise: [hard-to-read]
  by: [lead]
  justified:
    - { rule: locks-left, file: x, step: S, by: l.two@plant.example, date: 2026-01-01, until: 2026-12-31, reason: R }
domain:",
    ),
    (
        SMALL,
        "plant.yaml",
        "accepts_deviation: quality",
        "accepts_deviation: { default: quality, knives: nobody }",
    ),
    (
        SMALL,
        "people.yaml",
        "people:",
        "revoked: [{ key: \"SHA256:0123456789012345678901234567890123456789abc\", from: 2026-03-01T06:00:00Z, why: W }]
people:",
    ),
    (
        SMALL,
        "machines/line-1.yaml",
        "rails:",
        "fasteners: { clamp: { name: N, thread: M6, class: \"8.8\", head: button, nut_factor: 0.15 } }\nrails:",
    ),
    (SMALL, "machines/line-1.yaml", "guard: Hinged", "at_once: 2\n    guard: Hinged"),
    (SMALL, "machines/line-1.yaml", "spacing: 40 mm", "spacing: 40 mm\n    spares: off"),
    (
        SMALL,
        "recipes/large-pouch.yaml",
        "first_piece:",
        "parts: [{ item: Tube, place: Rack, count: 2 }]\nfirst_piece:",
    ),
    (
        SMALL,
        "machines/line-1.yaml",
        "changeover: [",
        "changeover: [{ procedure: knives, with: { rail: knife_rail, why: { en: A, es: B } } }, ",
    ),
    (SMALL, "machines/line-1.yaml", "zero: { unit: bar, ", "zero: { unit: bar, low: 0, "),
    (
        SMALL,
        "recipes/large-pouch.yaml",
        "edge_cuts: true",
        "edge_cuts: true, bar: { number: 1, of: 2 }",
    ),
    (
        SMALL,
        "recipes/large-pouch.yaml",
        "layouts:",
        "draft: true
web: { format: lap, flat_width: 1 mm, seal: 1 mm, gusset: 1 mm, lanes: 1, across: 1, cut_length: 1 mm }
layouts:",
    ),
    (SMALL, "jobs/J-1.yaml", "shift:", "lockout: { crafts: [fitters] }\nshift:"),
];

/// Parts of a procedure and of a translation with keys that none has.
const PARTS: &[(&str, &str)] = &[
    (
        "procedure",
        "id: a\ntitle: T\nrevision: 1\ndate: 2026-01-01\nauthor: A\nreason: R\ndraft: true\nwhen: { kinds: [k], rails: [r], zones: [z], instruments: [i], energy: [thermal], facts: [f], changes: [c], job: crew }\nparameters: { a: { type: quantity, unit: mm, default: 1 mm } }\n",
    ),
    (
        "step",
        "people: 2\nline: stopped\nminor_servicing: { routine: A, repetitive: B, integral: C, measure: D, risk_assessment: E }\nwhen: { kinds: [k], rails: [r], zones: [z], instruments: [i], energy: [thermal], facts: [f], changes: [c], job: crew }\n",
    ),
    (
        "hazards",
        "hazards: { a: { harm: minor, follows: will, signal: CAUTION, hazard: H, consequence: C, avoid: A } }\n",
    ),
    (
        "texts",
        "of: a\nminor_servicing: { routine: A, repetitive: B, integral: C, measure: D, risk_assessment: E }\n",
    ),
];

/// Everything that ships or stands in a plant of the tests.
fn pieces() -> Vec<Piece> {
    let mut pieces = Vec::new();
    for plant in PLANTS {
        for (file, bytes) in files_of(&root().join(plant)) {
            pieces.extend(
                String::from_utf8(bytes).iter().flat_map(|text| pieces_of(plant, &file, text)),
            );
        }
    }
    for (file, bytes) in files_of(&root().join("instructions")) {
        let text = String::from_utf8(bytes).unwrap();
        pieces.extend(pieces_of("", &format!("instructions/{file}"), &text));
    }
    for (plant, file, from, to) in MORE {
        let text = std::fs::read_to_string(root().join(plant).join(file)).unwrap();
        assert_eq!(text.matches(from).count(), 1, "{from}");
        pieces.extend(pieces_of(plant, file, &text.replacen(from, to, 1)));
    }
    pieces.extend(PARTS.iter().map(|(name, text)| Piece::new(name, "", name, text)));
    pieces
}

/// A key of a mapping or a place in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Key {
    Name(String),
    Place(usize),
}

type Path_ = Vec<Key>;

fn within<'a>(value: &'a mut Value, path: &[Key]) -> &'a mut Value {
    path.iter().fold(value, |value, key| match key {
        Key::Name(name) => &mut value[name.as_str()],
        Key::Place(at) => &mut value[*at],
    })
}

/// What a schema says of a value, through references and the choice of nothing; and where.
fn resolved<'a>(root: &'a Value, mut schema: &'a Value, mut at: String) -> (&'a Value, String) {
    loop {
        if let Some(to) = schema["$ref"].as_str() {
            at = to.trim_start_matches('#').to_owned();
            schema = root.pointer(&at).unwrap();
        } else if let Some(first) = schema["anyOf"].get(0) {
            at += "/anyOf/0";
            schema = first;
        } else {
            return (schema, at);
        }
    }
}

/// A place in a value.
struct Spot {
    /// Where the schema has its key, and what it says there.
    key: String,
    /// Where the schema has what judges it.
    at: String,
    path: Path_,
}

/// Every place in a value, with the place in the schema that judges it.
fn spots(
    root: &Value,
    schema: &Value,
    at: &str,
    value: &Value,
    path: &Path_,
    found: &mut Vec<Spot>,
) {
    let key = at.to_owned();
    let (schema, at) = resolved(root, schema, at.to_owned());
    found.push(Spot { key, at: at.clone(), path: path.clone() });
    let mut inner = |key: Key, value: &Value, word: String| {
        let mut path = path.clone();
        path.push(key);
        let at = format!("{at}/{word}");
        if let Some(schema) = root.pointer(&at).filter(|schema| schema.is_object()) {
            spots(root, schema, &at, value, &path, found);
        }
    };
    for (key, value) in value.as_object().into_iter().flatten() {
        let word = match schema["properties"].get(key) {
            Some(_) => format!("properties/{key}"),
            None => "additionalProperties".to_owned(),
        };
        inner(Key::Name(key.clone()), value, word);
    }
    for (index, value) in value.as_array().into_iter().flatten().enumerate() {
        inner(Key::Place(index), value, "items".to_owned());
    }
}

/// The least of a value that still has the place at `path`.
fn pruned(root: &Value, schema: &Value, value: &Value, path: &[Key]) -> Value {
    let (schema, _) = resolved(root, schema, String::new());
    let deeper = |key: &Key| match path.split_first() {
        Some((first, rest)) if first == key => Some(rest),
        _ => None,
    };
    match value {
        Value::Object(own) => {
            let kept = own.iter().filter_map(|(key, value)| {
                let rest = deeper(&Key::Name(key.clone()));
                let needed =
                    schema["required"].as_array().is_some_and(|keys| keys.contains(&json!(key)));
                let inner = match schema["properties"].get(key) {
                    Some(inner) => inner,
                    None => &schema["additionalProperties"],
                };
                // A text in several languages is kept whole.
                let is_text = schema["minProperties"].is_u64();
                (rest.is_some() || needed || is_text)
                    .then(|| (key.clone(), pruned(root, inner, value, rest.unwrap_or_default())))
            });
            Value::Object(kept.collect())
        }
        Value::Array(own) => {
            let kept = own.iter().enumerate().filter_map(|(index, value)| {
                let rest = deeper(&Key::Place(index))?;
                Some(pruned(root, &schema["items"], value, rest))
            });
            Value::Array(kept.collect())
        }
        other => other.clone(),
    }
}

/// The same path in a pruned value: what stood before in a list is gone.
fn pruned_path(path: &[Key]) -> Path_ {
    let first = |key: &Key| match key {
        Key::Place(_) => Key::Place(0),
        name => name.clone(),
    };
    path.iter().map(first).collect()
}

/// Whether the check has a say in a value, and not the reading alone.
fn is_judged_by_value(schema: &Value, value: &Value) -> bool {
    let is_scalar = !value.is_object() && !value.is_array();
    is_scalar && schema.get("enum").is_some()
        || value.is_string() && schema.get("pattern").is_some()
}

/// One thing wrong, or only different, with a value.
fn changes(schema: &Value, value: &Value, path: &[Key]) -> Vec<Value> {
    let mut changed = Vec::new();
    let mut with = |change: &dyn Fn(&mut Value)| {
        let mut other = value.clone();
        change(within(&mut other, path));
        changed.push(other);
    };
    let words = schema["oneOf"].as_array().into_iter().flatten().map(|one| one["const"].clone());
    let tags = schema.get("minProperties").is_some().then_some(["en", "es", "es-419", "de"]);
    let said = tags.into_iter().flatten().map(|tag| json!({ tag: ["word"] }));
    for other in words.chain(said) {
        with(&|own| *own = other.clone());
    }
    if path.is_empty() {
        with(&|own| *own = json!(["word"]));
        with(&|own| *own = json!("word"));
    } else {
        for other in replacements().iter().filter(|other| !is_judged_by_value(schema, other)) {
            with(&|own| *own = other.clone());
        }
    }
    let is_mapping = within(&mut value.clone(), path).is_object();
    if is_mapping && schema.get("properties").is_some() && schema.get("minProperties").is_none() {
        with(&|own| own["unheard_of"] = json!("word"));
        let own = within(&mut value.clone(), path).clone();
        for key in own.as_object().into_iter().flat_map(|own| own.keys()) {
            let taken = |own: &mut Value| own.as_object_mut().unwrap().remove(key);
            with(&|own| drop(taken(own)));
            with(&|own| {
                let value = taken(own).unwrap();
                own[format!("{key}_x")] = value;
            });
        }
    }
    changed
}

/// Lines of a file of cases.
#[derive(Default)]
struct Cases {
    lines: Vec<String>,
    counts: BTreeMap<String, usize>,
}

impl Cases {
    /// What a text is, where it was changed, and what the program says of it.
    fn add(&mut self, kind: &str, written: Written, at: &str, value: &Value, taken: bool) {
        let case = json!({
            "kind": kind, "schema": written.name, "at": at, "value": value, "taken": taken,
        });
        self.lines.push(case.to_string());
        let said = if taken { "taken" } else { "refused" };
        *self.counts.entry(format!("{kind}, {said}")).or_default() += 1;
    }

    /// A changed value: written as YAML, and read again.
    fn ask(&mut self, kind: &str, written: Written, at: &str, value_: &Value) {
        let text = yaml(value_);
        let value = value(&text).unwrap();
        self.add(kind, written, at, &value, takes(written, &text));
    }

    fn write(&self, name: &str) {
        let folder = root().join("target/outside");
        std::fs::create_dir_all(folder.join("schemas")).unwrap();
        for (name, schema) in schema::all() {
            let file = folder.join("schemas").join(schema::file_name(name));
            std::fs::write(file, schema::text(&schema)).unwrap();
        }
        std::fs::write(folder.join(name), self.lines.join("\n") + "\n").unwrap();
    }
}

fn schemas() -> BTreeMap<&'static str, Value> {
    schema::all().into_iter().collect()
}

/// Every place in every piece.
fn places<'a>(pieces: &'a [Piece], schemas: &BTreeMap<&str, Value>) -> Vec<(&'a Piece, Spot)> {
    let mut places = Vec::new();
    for piece in pieces {
        let schema = &schemas[piece.written.name];
        let mut found = Vec::new();
        spots(schema, schema, "", &piece.value, &Vec::new(), &mut found);
        places.extend(found.into_iter().map(|spot| (piece, spot)));
    }
    places
}

#[test]
fn shapes_are_written_for_an_outside_validator() {
    let (pieces, schemas) = (pieces(), schemas());
    let mut cases = Cases::default();
    for piece in &pieces {
        assert!(piece.is_taken(), "{} {}:\n{}", piece.plant, piece.file, piece.text);
        cases.add("file", piece.written, "", &piece.value, true);
    }
    let mut alone = Vec::new();
    for (rule, file, text) in broken::of_shape() {
        let refused: Vec<Piece> =
            pieces_of("", file, &text).into_iter().filter(|piece| !piece.is_taken()).collect();
        if refused.is_empty() {
            alone.push((rule, file));
        }
        for piece in refused {
            cases.add("broken", piece.written, "", &piece.value, false);
        }
    }
    // What another key, a list of the plant or a name asks for is seen by the check alone.
    println!("seen by the check alone: {alone:?}");
    let places = places(&pieces, &schemas);
    let mut by_key: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for (piece, spot) in &places {
        // A procedure alone and one with values stand in the same place.
        let is_mapping = within(&mut piece.value.clone(), &spot.path).is_object();
        let key = (piece.written.name, &spot.key, &spot.at, is_mapping);
        by_key.entry(key).or_default().push((piece, spot));
    }
    let mut dice = Dice::new(20_261_126);
    for ((name, _, at, _), places) in &by_key {
        let schema = &schemas[name];
        let (piece, spot) = places[dice.below(places.len())];
        let value = pruned(schema, schema, &piece.value, &spot.path);
        let path = pruned_path(&spot.path);
        assert!(takes(piece.written, &yaml(&value)), "{at}: {value}");
        for changed in changes(schema.pointer(at).unwrap(), &value, &path) {
            cases.ask("changed", piece.written, at, &changed);
        }
    }
    for _ in 0..400 {
        let (piece, Spot { at, path, .. }) = &places[dice.below(places.len())];
        let schema = schemas[piece.written.name].pointer(at).unwrap();
        let changed = changes(schema, &piece.value, path);
        if !changed.is_empty() {
            cases.ask("whole", piece.written, at, &changed[dice.below(changed.len())]);
        }
    }
    cases.write("shapes.jsonl");
    assert!(alone.len() <= 6, "{alone:?}");
    for kind in ["changed, refused", "changed, taken", "whole, refused", "whole, taken"] {
        assert!(cases.counts[kind] > 100, "{kind}");
    }
    assert!(cases.counts["broken, refused"] > 5);
}

/// Places of a schema that judge a value, below `at`.
fn judges(schema: &Value, at: &str, found: &mut BTreeSet<String>) {
    match schema {
        Value::Object(own) => {
            let says = |key: &str| {
                own.get(key).is_some_and(|value| !value.is_object() || key == "propertyNames")
            };
            if ["pattern", "propertyNames", "enum"].into_iter().any(says)
                && !at.ends_with("propertyNames")
            {
                found.insert(at.to_owned());
            }
            own.iter().for_each(|(key, inner)| judges(inner, &format!("{at}/{key}"), found));
        }
        Value::Array(list) => {
            let inner = list.iter().enumerate();
            inner.for_each(|(index, inner)| judges(inner, &format!("{at}/{index}"), found));
        }
        _ => {}
    }
}

/// Values that a pattern refuses, and the check too.
fn bad(schema: &Value, value: &Value) -> Vec<Value> {
    let mut bad = Vec::new();
    if schema.get("pattern").is_some() || schema.get("enum").is_some() {
        bad.push(json!("!"));
    }
    if schema.get("maxLength").is_some() {
        let long = "a".repeat(200);
        bad.push(json!(if schema["pattern"].to_string().contains("https") {
            format!("https://{long}")
        } else {
            format!("{long}.example")
        }));
    }
    if let (Some(own), true) = (value.as_object(), schema.get("propertyNames").is_some()) {
        let mut own = own.clone();
        let first = own.keys().next().unwrap().clone();
        let inner = own.remove(&first).unwrap();
        own.insert("Not a name".to_owned(), inner);
        bad.push(Value::Object(own));
    }
    bad
}

/// Values that the program's own readers take.
fn good(pattern: &str) -> Vec<&'static str> {
    let quantities =
        [" 5 mm", "+5 mm", "\u{2212}5 mm", "-0.5 mm", "2 1/4 in", "1/2", "0", "5\u{a0}mm"];
    let allowed = ["±0.5 mm", "+0.3/-0.1 mm", "3 to 5 N", "at least 3 N", "ISO 2768-1 m"];
    let long = "a2345678901234567890123456789012345678901234567890123456789_1234";
    let id = "A2345678901234567890123456789012345678901234567890123456789-1234";
    let times = ["2026-12-31T23:59:59Z", "2026-01-01T00:00:00-11:30"];
    if pattern.ends_with("?[0-9]") {
        assert!(quantities.iter().all(|text| Measure::parse(text).is_ok()));
        quantities.to_vec()
    } else if pattern == "[0-9]" {
        assert!(allowed.iter().all(|text| Allowed::parse(text).is_ok()));
        allowed.to_vec()
    } else if pattern.starts_with("^[A-Za-z0-9][A-Za-z0-9-]") {
        assert!(is_id(id) && is_id("7"));
        vec![id, "7"]
    } else if pattern.starts_with("^[a-z]") && pattern.ends_with("{0,63}$") {
        assert!(is_name(long));
        vec![long]
    } else if pattern.contains("T[0-9]") {
        assert!(times.iter().all(|text| time::parse(text).is_ok()));
        times.to_vec()
    } else {
        Vec::new()
    }
}

/// What `check` finds in a file of a plant, with other text in the place of a piece.
fn found(piece: &Piece, text: &str) -> BTreeSet<String> {
    let plant = Plant::of(&root().join(piece.plant));
    let whole = match plant.folder().join(&piece.file) {
        file if piece.file.ends_with(".md") => {
            std::fs::read_to_string(file).unwrap().replacen(&piece.text, text, 1)
        }
        _ => text.to_owned(),
    };
    plant.write(&piece.file, whole);
    let run = plant.run(&["check", "PLANT", "--json"]);
    let list = run.json();
    let errors = list.as_array().unwrap().iter();
    let errors =
        errors.filter(|one| one["severity"] == "error" && one["file"] == piece.file.as_str());
    errors.map(|one| one["rule"].as_str().unwrap().to_owned()).collect()
}

/// The values that one place of a schema judges: those that are refused, and those that are taken.
fn judged(
    piece: &Piece,
    path: &Path_,
    schema: &Value,
    before: &BTreeSet<String>,
) -> (Vec<Value>, Vec<Value>) {
    let with = |other: Value| {
        let mut value = piece.value.clone();
        *within(&mut value, path) = other;
        value
    };
    let own = within(&mut piece.value.clone(), path).clone();
    let refused: Vec<Value> = bad(schema, &own).into_iter().map(with).collect();
    for value in &refused {
        let after = found(piece, &yaml(value));
        assert!(!after.is_subset(before), "{path:?} is taken, {after:?}: {value}");
    }
    let values = schema["pattern"].as_str().map(good).unwrap_or_default();
    let names = schema["propertyNames"]["pattern"].as_str().map(good).unwrap_or_default();
    let named = names.into_iter().map(|name| {
        let inner = own.as_object().unwrap().values().next().unwrap();
        json!({ name: inner })
    });
    let taken = values.into_iter().map(|value| json!(value)).chain(named).map(with).collect();
    (refused, taken)
}

#[test]
fn values_are_written_for_an_outside_validator() {
    let (pieces, schemas) = (pieces(), schemas());
    let all = places(&pieces, &schemas);
    // What belongs to no plant is in no check.
    let of_plant = || all.iter().filter(|(piece, _)| !piece.plant.is_empty());
    let mut asked = Vec::new();
    for (name, schema) in &schemas {
        let mut own = BTreeSet::new();
        judges(schema, "", &mut own);
        for at in own {
            let found =
                of_plant().find(|(piece, spot)| piece.written.name == *name && spot.at == at);
            asked.push(found.unwrap_or_else(|| panic!("{name}{at} is not used")));
        }
    }
    let files: BTreeMap<(&str, &String, &String), &Piece> =
        asked.iter().map(|(piece, _)| ((piece.plant, &piece.file, &piece.text), *piece)).collect();
    let before = files.par_iter().map(|(file, piece)| (*file, found(piece, &yaml(&piece.value))));
    let before: BTreeMap<_, BTreeSet<String>> = before.collect();
    let answers: Vec<_> = asked
        .par_iter()
        .map(|(piece, spot)| {
            let schema = schemas[piece.written.name].pointer(&spot.at).unwrap();
            judged(piece, &spot.path, schema, &before[&(piece.plant, &piece.file, &piece.text)])
        })
        .collect();
    let mut cases = Cases::default();
    for ((Piece { written, .. }, Spot { at, .. }), (refused, taken)) in asked.iter().zip(answers) {
        refused.iter().for_each(|value| cases.add("value", *written, at, value, false));
        taken.iter().for_each(|value| cases.ask("value", *written, at, value));
    }
    cases.write("values.jsonl");
    assert!(cases.counts["value, refused"] > 60 && cases.counts["value, taken"] > 100);
}

#[test]
fn every_key_is_used_somewhere() {
    let (pieces, schemas) = (pieces(), schemas());
    let places = places(&pieces, &schemas);
    let used: BTreeSet<_> =
        places.into_iter().map(|(piece, spot)| (piece.written.name, spot.key)).collect();
    let mut unused = Vec::new();
    for (name, schema) in &schemas {
        let mut keys = Vec::new();
        properties(schema, "", &mut keys);
        unused.extend(keys.into_iter().map(|key| (*name, key)).filter(|key| !used.contains(key)));
    }
    assert_eq!(unused, []);
}

/// Every key of a schema; a text in several languages has none of its own.
fn properties(schema: &Value, at: &str, found: &mut Vec<String>) {
    let Value::Object(own) = schema else { return };
    for (key, inner) in own {
        let at = format!("{at}/{key}");
        if key == "properties" && own.get("minProperties").is_none() {
            let keys = inner.as_object().into_iter().flatten();
            found.extend(keys.map(|(key, _)| format!("{at}/{key}")));
        }
        properties(inner, &at, found);
    }
}

#[test]
fn what_the_command_writes_is_what_is_published() {
    let plant = Plant::small();
    for out in ["one", "two"] {
        plant.run(&["schemas", "--out", out]).ends(0).says("12 schemas");
    }
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let [one, two, mut site] =
        ["one", "two", "site/schemas"].map(|folder| files_of(&plant.beside(folder)));
    let page = String::from_utf8(site.remove("index.html").unwrap()).unwrap();
    assert_eq!(one, two);
    assert_eq!(one, site);
    for name in one.keys() {
        assert!(page.contains(&format!("../schemas/{name}")), "{name}");
    }
    // A folder with other files keeps them.
    std::fs::write(plant.beside("one/mine.txt"), "mine").unwrap();
    plant.run(&["schemas", "--out", "one"]).ends(0);
    assert!(plant.beside("one/mine.txt").is_file());
}
