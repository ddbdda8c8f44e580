//! Every key of every file, from the JSON Schemas: form, example, and what follows when it is left out.
//!
//! The words are those of the schemas. Must never say what a schema does not.

use std::collections::{BTreeSet, VecDeque};

use serde::Serialize;
use serde_json::Value;

use super::markup::marked;
use crate::page::site::{Link, SearchEntry};

/// A file, or a part of one, as its schema describes it.
#[derive(Debug, Serialize)]
pub(super) struct Keys {
    /// Name of the schema: `machine`.
    pub name: String,
    /// The file: `machines/<id>.yaml`.
    pub file: String,
    /// What it is for.
    pub about: String,
    /// Its mappings, the whole file first.
    pub mappings: Vec<Mapping>,
}

/// A mapping, and what may stand in it.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub(super) struct Mapping {
    /// What a link to it ends with.
    pub id: String,
    /// Where it stands: `rails.<name>`; empty for the file itself.
    pub path: String,
    /// Its keys, in the order of the letters.
    pub keys: Vec<Key>,
}

/// A key.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub(super) struct Key {
    /// Its name.
    pub name: String,
    /// Whether it must be there.
    pub needed: bool,
    /// What stands there.
    pub form: String,
    /// The place of the mapping that stands there; empty when there is none.
    pub inside: String,
    /// What it is.
    pub about: String,
    /// The same as HTML.
    pub says: String,
}

impl Keys {
    /// Its page.
    pub(super) fn page(&self) -> String {
        format!("keys/{}.html", self.name)
    }

    /// Every key, with the words by which it is found.
    pub(super) fn places(&self) -> Vec<SearchEntry> {
        let keys = self.mappings.iter().flat_map(|mapping| {
            mapping.keys.iter().map(move |key| {
                let dot = if mapping.path.is_empty() { "" } else { "." };
                SearchEntry {
                    link: Link::new(
                        format!("{}: {}{dot}{}", self.name, mapping.path, key.name),
                        format!("{}#{}", self.page(), mapping.id),
                    ),
                    words: key.about.clone(),
                    also: Vec::new(),
                }
            })
        });
        keys.collect()
    }
}

/// What stands at a key.
struct Form<'s> {
    words: String,
    /// The mapping, and how the way to it ends: nothing, `.<name>` or `[]`.
    inside: Option<(&'s Value, &'static str)>,
}

/// Reads a schema.
pub(super) fn read(name: &str, schema: &Value) -> Keys {
    let mut mappings = Vec::new();
    let mut seen = BTreeSet::new();
    let mut waiting = VecDeque::from([(String::new(), schema)]);
    while let Some((path, own)) = waiting.pop_front() {
        if !seen.insert(path.clone()) || path.split(['.', '[']).count() > DEEPEST {
            continue;
        }
        let keys = keys_of(own).map(|(key, value)| {
            let form = form(schema, value);
            let inside = form.inside.map(|(inside, end)| {
                let path = format!("{path}{}{key}{end}", if path.is_empty() { "" } else { "." });
                let id = id_of(&path);
                waiting.push_back((path, inside));
                id
            });
            Key {
                name: key.clone(),
                needed: needs(own, key),
                form: form.words,
                inside: inside.unwrap_or_default(),
                about: text(value, "description").to_owned(),
                says: marked(text(value, "description")),
            }
        });
        let keys = keys.collect();
        mappings.push(Mapping { id: id_of(&path), path, keys });
    }
    let (file, about) = (text(schema, "title"), text(schema, "description"));
    Keys { name: name.to_owned(), file: file.to_owned(), about: about.to_owned(), mappings }
}

/// How deep mappings stand in each other, at most.
const DEEPEST: usize = 12;

fn keys_of(mapping: &Value) -> impl Iterator<Item = (&String, &Value)> {
    mapping.get("properties").and_then(Value::as_object).into_iter().flatten()
}

fn needs(mapping: &Value, key: &str) -> bool {
    let needed = mapping.get("required").and_then(Value::as_array);
    needed.into_iter().flatten().any(|one| one == key)
}

fn text<'s>(schema: &'s Value, key: &str) -> &'s str {
    schema.get(key).and_then(Value::as_str).unwrap_or_default()
}

fn id_of(path: &str) -> String {
    let words = path.split(|c: char| !c.is_alphanumeric() && c != '_');
    let words = words.filter(|word| !word.is_empty() && *word != "name");
    let id = words.collect::<Vec<_>>().join("-");
    if id.is_empty() { "file".to_owned() } else { format!("at-{id}") }
}

/// What a schema lets stand.
fn form<'s>(whole: &'s Value, schema: &'s Value) -> Form<'s> {
    let schema = resolved(whole, schema);
    let plain = |words: &str| Form { words: words.to_owned(), inside: None };
    if let Some(mapping) = mapping_or_text(whole, schema) {
        return Form { words: "text, or a mapping".to_owned(), inside: Some((mapping, "")) };
    }
    if let Some(words) = one_of(schema) {
        return Form { words, inside: None };
    }
    if let Some(item) = schema.get("items") {
        let of = form(whole, item);
        let inside = of.inside.map(|(mapping, _)| (mapping, "[]"));
        return Form { words: format!("list: {}", of.words), inside };
    }
    if let Some(named) = schema.get("additionalProperties").filter(|own| own.is_object()) {
        let of = form(whole, named);
        let inside = of.inside.map(|(mapping, _)| (mapping, ".<name>"));
        let either = if may_be(schema, "string") { "text, or " } else { "" };
        return Form { words: format!("{either}by name: {}", of.words), inside };
    }
    if schema.pointer("/properties/en").is_some() {
        return plain("text, in one or more languages");
    }
    if schema.get("properties").is_some() {
        let words = if may_be(schema, "string") { "text, or a mapping" } else { "mapping" };
        return Form { words: words.to_owned(), inside: Some((schema, "")) };
    }
    plain(match schema {
        own if may_be(own, "string") => "text",
        own if may_be(own, "integer") => "whole number",
        own if may_be(own, "boolean") => "true or false",
        _ => "anything",
    })
}

/// The mapping of a choice between a mapping and a text.
fn mapping_or_text<'s>(whole: &'s Value, schema: &'s Value) -> Option<&'s Value> {
    let own: Vec<&Value> = choices(schema).map(|one| resolved(whole, one)).collect();
    let is_text = |one: &&&Value| may_be(one, "string") && one.get("const").is_none();
    own.iter().find(is_text)?;
    own.into_iter().find(|one| one.get("properties").is_some())
}

fn choices(schema: &Value) -> impl Iterator<Item = &Value> {
    let of = |key: &str| schema.get(key).and_then(Value::as_array).into_iter().flatten();
    of("anyOf").chain(of("oneOf")).filter(|one| text(one, "type") != "null")
}

/// What a reference names; of a choice that may also be nothing, the other.
fn resolved<'s>(whole: &'s Value, schema: &'s Value) -> &'s Value {
    let mut choices = choices(schema);
    let choice = match (choices.next(), choices.next()) {
        (Some(one), None) => one,
        _ => schema,
    };
    let name = text(choice, "$ref").strip_prefix("#");
    name.and_then(|name| whole.pointer(name)).unwrap_or(choice)
}

fn may_be(schema: &Value, kind: &str) -> bool {
    match schema.get("type") {
        Some(Value::String(own)) => own == kind,
        Some(Value::Array(kinds)) => kinds.iter().any(|own| own == kind),
        _ => false,
    }
}

/// The words of which one must stand.
fn one_of(schema: &Value) -> Option<String> {
    let choices = schema.get("oneOf").and_then(Value::as_array).into_iter().flatten();
    let named = choices.filter_map(|one| one.get("const").and_then(Value::as_str));
    let listed = schema.get("enum").and_then(Value::as_array).into_iter().flatten();
    let words: Vec<&str> = named.chain(listed.filter_map(Value::as_str)).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::read;

    #[test]
    fn mappings_are_found_where_they_stand() {
        let schema = json!({
            "title": "machines/<id>.yaml", "description": "A machine.", "type": "object",
            "required": ["id"],
            "properties": {
                "id": { "type": ["string", "number"], "description": "Its name: `a`." },
                "rails": { "additionalProperties": { "$ref": "#/$defs/Rail" }, "type": "object" },
                "name": { "properties": { "en": {}, "es": {} }, "type": ["string", "object"] },
                "order": { "items": { "oneOf": [{ "type": "string" }, { "$ref": "#/$defs/Fixed" }] } },
            },
            "$defs": {
                "Rail": { "type": "object", "properties": {
                    "side": { "anyOf": [{ "$ref": "#/$defs/Side" }, { "type": "null" }] },
                    "fixed": { "items": { "$ref": "#/$defs/Fixed" }, "type": "array" },
                } },
                "Side": { "oneOf": [{ "const": "left" }, { "const": "right" }] },
                "Fixed": { "type": "object", "properties": { "at": { "type": "integer" } } },
            },
        });
        let keys = read("machine", &schema);
        let told = keys.mappings.iter().map(|mapping| {
            let keys = mapping.keys.iter().map(|key| {
                format!(
                    "{}{} {} {}",
                    if key.needed { "!" } else { "" },
                    key.name,
                    key.form,
                    key.inside
                )
            });
            (&*mapping.path, keys.collect::<Vec<_>>())
        });
        let told: Vec<_> = told.collect();
        assert_eq!(
            told,
            [
                (
                    "",
                    vec![
                        "!id text ".to_owned(),
                        "name text, in one or more languages ".to_owned(),
                        "order list: text, or a mapping at-order".to_owned(),
                        "rails by name: mapping at-rails".to_owned(),
                    ]
                ),
                ("order[]", vec!["at whole number ".to_owned()]),
                (
                    "rails.<name>",
                    vec![
                        "fixed list: mapping at-rails-fixed".to_owned(),
                        "side left, right ".to_owned(),
                    ]
                ),
                ("rails.<name>.fixed[]", vec!["at whole number ".to_owned()]),
            ]
        );
        assert_eq!(keys.mappings[0].keys[0].says, "Its name: <code>a</code>.");
    }
}
