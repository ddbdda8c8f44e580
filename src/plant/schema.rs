//! JSON Schemas (2020-12) of the files people write, made from the types that read them.
//!
//! They let an editor complete keys, show what each is for and mark what will be refused. Must never
//! be stricter than the reading: what the program takes, a schema accepts. They see one file alone;
//! whether a name exists, a formula has an answer or a step is safe is found by the check.
//!
//! Where YAML and JSON differ: a text may be written as a number, `true` or nothing, and a list or a
//! mapping without entries as nothing.

use std::sync::Arc;

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema};
use serde::de::DeserializeOwned;
use serde_json::{Map, Value, json};

use super::read::{yaml_file, yaml_in_one_language};
use super::shape::{
    FrontMatter, HazardsFile, JobFile, MachineFile, PeopleFile, PlantFile, RecipeFile, StepEntry,
    StepTexts, StockFile, TranslationFront, UseEntry,
};
use super::spoken::{self, Tongue};
use crate::finding::{Findings, Place};
use crate::language::Language;

/// An identifier of a machine, a recipe, a job or a procedure.
pub(super) const ID: &str = "^[A-Za-z0-9][A-Za-z0-9-]{0,63}$";
/// A person's identifier.
pub(super) const PERSON: &str = "^[A-Za-z0-9._@+-]{1,200}$";
/// A day, year first.
pub(super) const DAY: &str = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$";
/// The same, or nothing.
pub(super) const DAY_OR_NOTHING: &str = "^([0-9]{4}-[0-9]{2}-[0-9]{2})?$";
/// A time of day.
pub(super) const CLOCK: &str = "^([01][0-9]|2[0-3]):[0-5][0-9]$";
/// A day and a time of it in the plant's own time.
pub(super) const DAY_AND_CLOCK: &str = "^[0-9]{4}-[0-9]{2}-[0-9]{2}T([01][0-9]|2[0-3]):[0-5][0-9]$";
/// A day and a time of it, to the second, with an offset.
pub(super) const TIME: &str =
    "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-5][0-9]:[0-5][0-9](Z|[-+][0-9]{2}:[0-5][0-9])$";
/// What begins with a number. Whether a unit fits is found by the check.
pub(super) const QUANTITY: &str = "^\\s*[-+\u{2212}]?[0-9]";
/// The same, or nothing.
pub(super) const COUNT_OR_NOTHING: &str = "^$|^\\s*[-+\u{2212}]?[0-9]";
/// What has a number in it: deviations, a range, a class of general tolerances.
pub(super) const DIGIT: &str = "[0-9]";
/// The domain of the signatures.
pub(super) const DOMAIN: &str = "^[a-z0-9-]+(\\.[a-z0-9-]+)+$";
/// The address of a site, or nothing.
pub(super) const ADDRESS: &str = "^(https?://[A-Za-z0-9._~:-]+(/[A-Za-z0-9._~:-]+)*)?$";
/// The fingerprint of a key.
pub(super) const FINGERPRINT: &str = "^SHA256:[A-Za-z0-9+/]{43}$";

/// Names that may stand in a formula.
pub(super) fn names() -> Value {
    json!({ "pattern": "^[a-z][a-z0-9_]{0,63}$" })
}

/// What a schema is for.
#[derive(Debug, Clone, Copy)]
pub struct Written {
    /// Its name: `machine`.
    pub name: &'static str,
    /// The file that is written, or the part of it; the same in every language.
    pub file: &'static str,
    /// Key of the text that says what it is for.
    pub about: &'static str,
    make: fn() -> Schema,
    read: fn(&mut Findings, &Arc<str>, &str) -> bool,
    /// Whether texts may stand in several languages.
    is_spoken: bool,
}

type Told = (&'static str, &'static str, &'static str);

/// A whole file, in which texts may stand in several languages.
const fn yaml<T: JsonSchema + DeserializeOwned>((name, file, about): Told) -> Written {
    Written { name, file, about, make: of::<T>, read: in_english::<T>, is_spoken: true }
}

/// A part of a procedure.
const fn part<T: JsonSchema + DeserializeOwned>((name, file, about): Told) -> Written {
    Written { name, file, about, make: of::<T>, read: as_it_is::<T>, is_spoken: false }
}

/// Everything people write in YAML, as whole files and as parts of a procedure.
pub const WRITTEN: [Written; 12] = [
    yaml::<PlantFile>(("plant", "plant.yaml", "schemas-plant")),
    yaml::<PeopleFile>(("people", "people.yaml", "schemas-people")),
    yaml::<MachineFile>(("machine", "machines/<id>.yaml", "schemas-machine")),
    yaml::<RecipeFile>(("recipe", "recipes/<id>.yaml", "schemas-recipe")),
    yaml::<JobFile>(("job", "jobs/<id>.yaml", "schemas-job")),
    yaml::<StockFile>(("stock", "stock.yaml", "schemas-stock")),
    yaml::<HazardsFile>(("hazards", "hazards.yaml", "schemas-hazards")),
    part::<FrontMatter>(("procedure", "instructions/<id>.md", "schemas-procedure")),
    part::<StepEntry>(("step", "instructions/<id>.md", "schemas-step")),
    part::<UseEntry>(("include", "instructions/<id>.md", "schemas-include")),
    part::<TranslationFront>((
        "translation",
        "instructions/<language>/<id>.md",
        "schemas-translation",
    )),
    part::<StepTexts>(("texts", "instructions/<language>/<id>.md", "schemas-texts")),
];

/// The schemas by name, in the order of [`WRITTEN`].
pub fn all() -> Vec<(&'static str, Value)> {
    WRITTEN.iter().map(|written| (written.name, written.schema())).collect()
}

/// The name of a schema's file.
pub fn file_name(name: &str) -> String {
    format!("{name}.schema.json")
}

/// A schema as it is kept in a file.
pub fn text(schema: &Value) -> String {
    format!("{schema:#}\n")
}

fn of<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<T>()
}

/// Reads a file as that of a plant in English.
fn in_english<T: DeserializeOwned>(findings: &mut Findings, file: &Arc<str>, text: &str) -> bool {
    let english = Language::English;
    let tongue = Tongue { main: english, wanted: english, known: Language::ALL.into() };
    let resolved = spoken::resolve(findings, &Place::top(file), text, &tongue);
    let yaml = resolved.yaml.as_deref().unwrap_or(text);
    yaml_in_one_language::<T>(findings, file, text, yaml).is_some()
}

fn as_it_is<T: DeserializeOwned>(findings: &mut Findings, file: &Arc<str>, text: &str) -> bool {
    yaml_file::<T>(findings, file, text).is_some()
}

impl Written {
    /// Whether a text has the shape, by the reading of the program itself.
    pub fn reads(&self, findings: &mut Findings, file: &Arc<str>, text: &str) -> bool {
        (self.read)(findings, file, text)
    }

    /// Its schema; descriptions are in English.
    pub fn schema(&self) -> Value {
        let mut schema = (self.make)().to_value();
        let mut shaper = Shaper { is_spoken: self.is_spoken };
        shaper.shape(&mut schema);
        if let Value::Object(schema) = &mut schema {
            for part in schema.get_mut("$defs").into_iter().flat_map(parts) {
                shaper.shape(part);
            }
            if self.is_spoken {
                spoken_at_the_top(schema);
            }
            schema.insert("$id".to_owned(), format!("urn:witnessmark:{}", self.name).into());
            schema.insert("title".to_owned(), self.file.into());
            schema.insert("description".to_owned(), Language::English.word(self.about).into());
        }
        schema
    }
}

/// The values of a mapping.
fn parts(mapping: &mut Value) -> impl Iterator<Item = &mut Value> {
    mapping.as_object_mut().into_iter().flat_map(Map::values_mut)
}

/// Turns what the types say into what YAML may say.
struct Shaper {
    is_spoken: bool,
}

impl Shaper {
    fn shape(&mut self, schema: &mut Value) {
        let Value::Object(own) = schema else { return };
        if let Some(Value::String(text)) = own.get_mut("description") {
            *text = text.replace('\n', " ");
        }
        own.retain(|key, value| key != "default" || !is_nothing(value));
        widen(own);
        for key in ["items", "additionalProperties"] {
            own.get_mut(key).into_iter().for_each(|inner| self.shape(inner));
        }
        for key in ["anyOf", "oneOf"] {
            let choices = own.get_mut(key).and_then(Value::as_array_mut);
            choices.into_iter().flatten().for_each(|choice| self.shape(choice));
        }
        let properties = own.get_mut("properties").and_then(Value::as_object_mut);
        for (key, property) in properties.into_iter().flatten() {
            self.shape(property);
            let is_text = key != "kind" && spoken::TEXTS.contains(&key.as_str());
            if self.is_spoken && is_text {
                speak(property);
            }
            // The words that a procedure is told.
            if self.is_spoken && key == "with" {
                property.get_mut("additionalProperties").into_iter().for_each(speak);
            }
        }
    }
}

/// A default that says nothing.
fn is_nothing(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::String(text) => text.is_empty(),
        Value::Array(list) => list.is_empty(),
        Value::Object(map) => map.is_empty(),
        _ => false,
    }
}

/// Any scalar is a text, and nothing is a list or a mapping without entries.
fn widen(schema: &mut Map<String, Value>) {
    // A word of a list says all there is to say.
    if schema.contains_key("const") || schema.contains_key("enum") {
        schema.remove("type");
    }
    let required = schema.get("required").and_then(Value::as_array);
    let is_needed = required.is_some_and(|keys| !keys.is_empty());
    let names = match schema.get("type") {
        Some(Value::String(name)) => vec![name.clone()],
        Some(Value::Array(names)) => {
            names.iter().filter_map(Value::as_str).map(str::to_owned).collect()
        }
        _ => return,
    };
    let has = |name: &str| names.iter().any(|own| own == name);
    let wider = match names.as_slice() {
        // A whole number that the program keeps in 32 bits.
        _ if has("integer") => {
            schema.remove("format");
            schema.insert("maximum".to_owned(), u32::MAX.into());
            return;
        }
        // A role, or roles by procedure; a procedure, or one with values: no number is taken for it.
        _ if has("string") && has("object") => return,
        _ if has("string") => json!(["string", "number", "boolean", "null"]),
        _ if has("array") => json!(["array", "null"]),
        _ if has("object") && !is_needed => json!(["object", "null"]),
        _ => return,
    };
    schema.insert("type".to_owned(), wider);
}

/// The text, or texts of the list, may stand in several languages.
fn speak(schema: &mut Value) {
    let Value::Object(own) = schema else { return };
    if let Some(items) = own.get_mut("items") {
        return speak(items);
    }
    if own
        .get("type")
        .and_then(Value::as_array)
        .is_none_or(|types| !types.contains(&"number".into()))
    {
        return;
    }
    let text = own.get("type").cloned().unwrap_or_default();
    let said = Language::ALL.map(|language| (language.tag().to_owned(), json!({ "type": text })));
    own.insert("properties".to_owned(), Value::Object(said.into_iter().collect()));
    own.insert("additionalProperties".to_owned(), false.into());
    own.insert("minProperties".to_owned(), 1.into());
    own.insert("type".to_owned(), json!(["string", "number", "boolean", "null", "object"]));
}

/// Texts that are texts only at the top of a file: the kind of a machine, the roles of a plant.
fn spoken_at_the_top(schema: &mut Map<String, Value>) {
    let Some(Value::Object(properties)) = schema.get_mut("properties") else { return };
    properties.get_mut("kind").into_iter().for_each(speak);
    let roles = properties.get_mut("roles").and_then(|roles| roles.get_mut("additionalProperties"));
    roles.into_iter().for_each(speak);
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use serde_json::Value;

    use super::{WRITTEN, all, text};

    /// Every mapping with keys of its own, and every key, below a schema.
    fn keys<'a>(schema: &'a Value, found: &mut Vec<(&'a str, &'a Value)>) {
        match schema {
            Value::Object(own) => {
                if let Some(Value::Object(properties)) = own.get("properties") {
                    found.extend(properties.iter().map(|(key, value)| (key.as_str(), value)));
                }
                own.values().for_each(|inner| keys(inner, found));
            }
            Value::Array(list) => list.iter().for_each(|inner| keys(inner, found)),
            _ => {}
        }
    }

    #[test]
    fn every_key_says_what_it_is() {
        let tags = ["en", "es", "es-419", "de"];
        for (name, schema) in all() {
            let mut found = Vec::new();
            keys(&schema, &mut found);
            assert!(!found.is_empty(), "{name}");
            for (key, schema) in found.iter().filter(|(key, _)| !tags.contains(key)) {
                let said = schema["description"].as_str().unwrap_or_default();
                assert!(said.len() > 10 && said.ends_with(['.', '`']), "{name}: {key}: {said:?}");
                assert!(!said.contains('\n'), "{name}: {key}");
            }
        }
    }

    #[test]
    fn schemas_are_the_same_every_time_and_have_names_of_their_own() {
        let texts = || all().iter().map(|(_, schema)| text(schema)).collect::<Vec<_>>();
        assert_eq!(texts(), texts());
        let names: BTreeSet<&str> = WRITTEN.iter().map(|written| written.name).collect();
        assert_eq!(names.len(), WRITTEN.len());
    }
}
