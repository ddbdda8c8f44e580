//! Texts that stand in several languages: `name: { en: Mains supply, es: Alimentación principal }`.
//!
//! A mapping from language tags is a text only where a text for people belongs; there one of its
//! languages is put in its place before the file is read. Must never let a language choose a number, a
//! name in a formula or a fact, and never mix the languages of one hazard message.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use saphyr::{MarkedYaml, YamlData};

use crate::finding::place::MarkedText;
use crate::finding::{Findings, Place};
use crate::language::Language;

/// Keys whose values are texts for people, wherever they stand.
pub(super) const TEXTS: [&str; 28] = [
    "avoid",
    "consequence",
    "control",
    "datum",
    "dc",
    "device",
    "enforced_by",
    "gear",
    "gloves",
    "guard",
    "hazard",
    "interlock",
    "item",
    "kind",
    "location",
    "lock",
    "name",
    "note",
    "part",
    "place",
    "prove",
    "reason",
    "relieve",
    "restore",
    "safe",
    "source",
    "stop_position",
    "stored",
];

/// The three parts of a hazard message, which are always in one language.
const MESSAGE: [&str; 3] = ["hazard", "consequence", "avoid"];

/// Which language is wanted of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Tongue {
    /// The language that every text has.
    pub(super) main: Language,
    /// The language wanted.
    pub(super) wanted: Language,
    /// The languages that may stand in the file.
    pub(super) known: BTreeSet<Language>,
}

/// A file in one language.
#[derive(Debug, Default)]
pub(super) struct Resolved {
    /// The YAML with each text in one language; none when nothing had to be chosen.
    pub(super) yaml: Option<String>,
    /// Texts that are in the wanted language.
    pub(super) translated: BTreeSet<Vec<String>>,
    /// Texts that are in others, but not in the wanted one.
    pub(super) lacking: Vec<Vec<String>>,
}

/// A text in several languages.
struct Text {
    path: Vec<String>,
    span: Range<usize>,
    said: BTreeMap<Language, String>,
}

/// Chooses a language for each text of a file.
pub(super) fn resolve(
    findings: &mut Findings,
    top: &Place,
    yaml: &str,
    tongue: &Tongue,
) -> Resolved {
    if !Language::ALL.iter().any(|language| names_key(yaml, language.tag())) {
        return Resolved::default();
    }
    let marked = MarkedText::of(yaml);
    let mut texts = Vec::new();
    if let Some(node) = &marked.top {
        gather(&marked, node, &mut Vec::new(), &mut texts);
    }
    texts.sort_by_key(|text| text.span.start);
    // What an alias repeats stands in the file once.
    texts.dedup_by_key(|text| text.span.start);
    for text in &texts {
        judge(findings, top, text, tongue);
    }
    choose(yaml, &texts, tongue)
}

/// Whether a key stands somewhere in a file.
fn names_key(yaml: &str, key: &str) -> bool {
    let is_word = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_');
    yaml.match_indices(key).any(|(at, _)| {
        let rest = &yaml[at + key.len()..];
        rest.trim_start_matches(['"', '\'']).trim_start().starts_with(':')
            && !yaml[..at].ends_with(is_word)
    })
}

/// Collects the texts below a node.
fn gather(marked: &MarkedText, node: &MarkedYaml, path: &mut Vec<String>, texts: &mut Vec<Text>) {
    match &node.data {
        YamlData::Mapping(map) => {
            if is_text(path)
                && let Some(said) = said(marked, node)
            {
                texts.push(Text { path: path.clone(), span: marked.span(node), said });
                return;
            }
            for (key, value) in map {
                let Some(key) = scalar(marked, key) else { continue };
                path.push(key);
                gather(marked, value, path, texts);
                path.pop();
            }
        }
        YamlData::Sequence(list) => {
            for (index, value) in list.iter().enumerate() {
                path.push(index.to_string());
                gather(marked, value, path, texts);
                path.pop();
            }
        }
        _ => {}
    }
}

/// Whether a text for people belongs at a path: by its key, or by the key of its list.
///
/// The kind of a machine is a text; the kind of an energy source is a word of a fixed list.
fn is_text(path: &[String]) -> bool {
    let is_number = |key: &&String| key.bytes().all(|byte| byte.is_ascii_digit());
    let mut keys = path.iter().rev().skip_while(is_number);
    let Some(key) = keys.next() else { return false };
    match (key.as_str(), keys.next()) {
        ("kind", above) => above.is_none(),
        (_, Some(above)) if above == "roles" && path.len() == 2 => true,
        // The words that a procedure is told.
        (_, Some(above)) if above == "with" => true,
        // A quantity with the name of a text is a quantity.
        (_, Some(above)) if above == "facts" || above == "inputs" => false,
        (key, _) => TEXTS.contains(&key),
    }
}

/// What a mapping says in each language; none when it is no text in several languages.
fn said(marked: &MarkedText, node: &MarkedYaml) -> Option<BTreeMap<Language, String>> {
    let map = node.data.as_mapping().filter(|map| !map.is_empty())?;
    let pairs = map.iter();
    pairs
        .map(|(key, value)| {
            let language = Language::of_tag(&scalar(marked, key)?)?;
            Some((language, scalar(marked, value)?))
        })
        .collect()
}

/// A scalar as it is written, without quotes.
fn scalar(marked: &MarkedText, node: &MarkedYaml) -> Option<String> {
    match &node.data {
        YamlData::Value(value) => Some(match value.as_str() {
            Some(text) => text.to_owned(),
            None => marked.text(node).to_owned(),
        }),
        YamlData::Representation(text, ..) => Some(text.to_string()),
        _ => None,
    }
}

fn judge(findings: &mut Findings, top: &Place, text: &Text, tongue: &Tongue) {
    let at = text.path.iter().fold(top.clone(), |place, key| place.at(key));
    for language in text.said.keys().filter(|language| !tongue.known.contains(language)) {
        findings.language_not_of_plant(&at.at(language.tag()).key(), *language);
    }
    if !is_said(text.said.get(&tongue.main)) {
        findings.text_without_main(&at, tongue.main);
    }
}

fn is_said(text: Option<&String>) -> bool {
    text.is_some_and(|text| !text.trim().is_empty())
}

impl Text {
    /// What it says in a language; a region takes the texts of its language.
    fn in_language(&self, language: Language) -> Option<&String> {
        let own = self.said.get(&language).or_else(|| self.said.get(&language.texts()));
        own.filter(|text| is_said(Some(text)))
    }
}

fn choose(yaml: &str, texts: &[Text], tongue: &Tongue) -> Resolved {
    let whole = whole_messages(texts, tongue.wanted);
    let mut resolved = Resolved::default();
    let mut own = String::new();
    let mut from = 0;
    for text in texts {
        let may = message(&text.path).is_none_or(|id| whole.contains(id));
        let wanted = text.in_language(tongue.wanted).filter(|_| may);
        match wanted {
            Some(_) => drop(resolved.translated.insert(text.path.clone())),
            // That every text has the main language is a rule of its own.
            None if tongue.wanted == tongue.main => {}
            None => resolved.lacking.push(text.path.clone()),
        }
        let said = wanted.or_else(|| text.said.get(&tongue.main)).or(text.said.values().next());
        let said = said.map_or("", String::as_str);
        own += yaml.get(from..text.span.start).unwrap_or_default();
        own += &serde_json::Value::from(said).to_string();
        from = text.span.end.max(from);
    }
    own += yaml.get(from..).unwrap_or_default();
    resolved.yaml = (!texts.is_empty()).then_some(own);
    resolved
}

/// Hazard messages of which all three parts exist in a language.
fn whole_messages(texts: &[Text], wanted: Language) -> BTreeSet<&str> {
    let mut parts: BTreeMap<&str, usize> = BTreeMap::new();
    for text in texts.iter().filter(|text| text.in_language(wanted).is_some()) {
        if let Some(id) = message(&text.path) {
            *parts.entry(id).or_default() += 1;
        }
    }
    parts.into_iter().filter(|(_, count)| *count == MESSAGE.len()).map(|(id, _)| id).collect()
}

/// The hazard whose message a text is a part of.
fn message(path: &[String]) -> Option<&str> {
    match path {
        [top, id, part] if top == "hazards" && MESSAGE.contains(&part.as_str()) => Some(id),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{Resolved, Tongue, resolve};
    use crate::finding::{Findings, Place};
    use crate::language::Language;

    fn read(yaml: &str, wanted: Language) -> (Resolved, Vec<&'static str>) {
        let known = BTreeSet::from([Language::English, Language::Spanish]);
        let tongue = Tongue { main: Language::English, wanted, known };
        let mut findings = Findings::default();
        let resolved = resolve(&mut findings, &Place::top(&"f".into()), yaml, &tongue);
        (resolved, findings.iter().map(|finding| finding.rule).collect())
    }

    #[track_caller]
    fn check(yaml: &str, wanted: Language, expected: &str) {
        let (resolved, found) = read(yaml, wanted);
        assert_eq!(found, [] as [&str; 0]);
        let own = resolved.yaml.unwrap_or_else(|| yaml.to_owned());
        let values = |text: &str| serde_yaml::from_str::<serde_yaml::Value>(text).unwrap();
        assert_eq!(values(&own), values(expected), "{own}");
    }

    #[test]
    fn a_text_is_chosen_in_braces_in_lines_and_in_lists() {
        let yaml = "name: { en: Mains, es: \"Red: 1\" } # why\nzones:\n  a:\n    guard:\n      en: Guard\n      es: >\n        Resguardo\n        G1\n\n    sources: [b]\ngear:\n- en: Gloves\n  es: Guantes\n- Boots\n";
        let zone =
            |guard: &str| format!("zones: {{ a: {{ guard: \"{guard}\", sources: [b] }} }}\n");
        check(
            yaml,
            Language::English,
            &format!("name: Mains\n{}gear: [Gloves, Boots]\n", zone("Guard")),
        );
        check(
            yaml,
            Language::LatinSpanish,
            &format!("name: \"Red: 1\"\n{}gear: [Guantes, Boots]\n", zone("Resguardo G1\\n")),
        );
    }

    #[test]
    fn what_is_missing_or_empty_falls_back_and_is_known() {
        let yaml = "name: { en: A, es: \" \" }\nplace: { en: B, es: C }\n";
        check(yaml, Language::Spanish, "name: A\nplace: C\n");
        assert_eq!(read(yaml, Language::Spanish).0.lacking, [["name"]]);
        check(yaml, Language::German, "name: A\nplace: B\n");
    }

    #[test]
    fn a_hazard_message_is_in_one_language() {
        let whole = "hazards: { a: { hazard: { en: H, es: P }, consequence: { en: C, es: K }, avoid: { en: A, es: E }, gear: [{ en: G, es: X }] } }";
        check(
            whole,
            Language::Spanish,
            "hazards: { a: { hazard: P, consequence: K, avoid: E, gear: [X] } }",
        );
        for part in [", es: P", ", es: K", ", es: E"] {
            check(
                &whole.replace(part, ""),
                Language::Spanish,
                "hazards: { a: { hazard: H, consequence: C, avoid: A, gear: [X] } }",
            );
        }
        // A part that stands in no language of its own.
        check(
            &whole.replace("{ en: H, es: P }", "H"),
            Language::Spanish,
            "hazards: { a: { hazard: H, consequence: C, avoid: A, gear: [X] } }",
        );
    }

    #[test]
    fn a_language_never_chooses_a_fact() {
        for yaml in [
            "magnitude: { en: 6 bar, es: 7 bar }",
            "formula: { en: a, es: b }",
            "energy: { a: { kind: { en: thermal, es: gravity } } }",
            "facts: { place_of: { en: 1 mm, es: 2 mm } }",
            "facts: { place: { en: 1 mm, es: 2 mm } }",
            "rails: { a: { facts: { lock: { en: 1 mm, es: 2 mm } } } }",
            "inputs: { part: { en: 1 mm, es: 2 mm } }",
            "machines: [{ en: a, es: b }]",
        ] {
            check(yaml, Language::Spanish, yaml);
        }
        check("kind: { en: a, es: b }", Language::Spanish, "kind: b");
        check("roles: { lead: { en: a, es: b } }", Language::Spanish, "roles: { lead: b }");
    }

    #[test]
    fn a_text_without_the_main_language_and_a_foreign_language_are_found() {
        assert_eq!(read("name: { es: A }", Language::Spanish).1, ["text-without-main"]);
        assert_eq!(read("name: { en: A, de: B }", Language::Spanish).1, ["language-not-of-plant"]);
        assert_eq!(read("name: { en: A, fr: B }", Language::Spanish).1, [] as [&str; 0]);
    }
}
