//! Findings in the interchange format of programs that check texts: SARIF 2.1.0 (OASIS).
//!
//! A third view of the same data, for editors and build servers. Columns count letters, paths are
//! relative to the plant. Must never leave out a finding somebody answers for: it is there as a
//! suppressed one, with who answers.

use serde::Serialize;

use super::catalogue::{self, Rule};
use super::show::{Placed, Texts, placed};
use super::{Finding, Findings, Severity};
use crate::language::Language;

/// The file: one run.
#[derive(Debug, Serialize)]
pub struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run; 1],
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    language: &'static str,
    column_kind: &'static str,
    invocations: [Invocation; 1],
    original_uri_base_ids: Bases,
    results: Vec<Outcome>,
}

#[derive(Debug, Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Debug, Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Descriptor>,
}

/// A rule that was broken.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Descriptor {
    id: &'static str,
    short_description: Text,
    full_description: Text,
    help: Text,
    default_configuration: Configuration,
}

#[derive(Debug, Serialize)]
struct Configuration {
    level: Severity,
}

#[derive(Debug, Serialize)]
struct Text {
    text: String,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation {
    execution_successful: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tool_execution_notifications: Vec<Notification>,
}

#[derive(Debug, Serialize)]
struct Notification {
    message: Text,
}

/// What the paths are relative to: whoever reads the file knows where the plant is.
#[derive(Debug, Serialize)]
struct Bases {
    #[serde(rename = "PLANT")]
    plant: Base,
}

#[derive(Debug, Serialize)]
struct Base {
    description: Text,
}

/// A finding.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Outcome {
    rule_id: &'static str,
    rule_index: usize,
    level: Severity,
    message: Text,
    locations: [Location; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    suppressions: Vec<Suppression>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    physical_location: Physical,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    #[serde(skip_serializing_if = "Option::is_none")]
    region: Option<Region>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Artifact {
    uri: String,
    uri_base_id: &'static str,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

/// Somebody answers for it, in `plant.yaml`.
#[derive(Debug, Serialize)]
struct Suppression {
    kind: &'static str,
    status: &'static str,
    justification: String,
}

/// All findings, by file and then by position.
pub fn log(findings: &Findings, texts: &Texts, language: Language) -> Log {
    let mut broken: Vec<&str> = findings.iter().map(|finding| finding.rule).collect();
    broken.sort_unstable();
    broken.dedup();
    let rules = broken.iter().filter_map(|id| catalogue::rule(id));
    let rules: Vec<_> = rules.map(|rule| descriptor(rule, language)).collect();
    let outcome = |one: &Placed| {
        let index = rules.iter().position(|rule| rule.id == one.finding.rule).unwrap_or_default();
        outcome(one, index, language)
    };
    let results = placed(findings, texts, language).iter().map(outcome).collect();
    let plant = Base { description: said(language.word("finding-plant-folder")) };
    let run = Run {
        language: language.texts().tag(),
        column_kind: "unicodeCodePoints",
        invocations: [invocation(findings, language)],
        original_uri_base_ids: Bases { plant },
        results,
        tool: Tool {
            driver: Driver { name: "witnessmark", version: env!("CARGO_PKG_VERSION"), rules },
        },
    };
    Log { schema: SCHEMA, version: "2.1.0", runs: [run] }
}

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

fn said(text: impl Into<String>) -> Text {
    Text { text: text.into() }
}

fn descriptor(rule: &Rule, language: Language) -> Descriptor {
    Descriptor {
        id: rule.id,
        short_description: said(rule.message(language)),
        full_description: said(rule.why(language)),
        help: said(rule.way_out(language)),
        default_configuration: Configuration { level: rule.severity },
    }
}

fn invocation(findings: &Findings, language: Language) -> Invocation {
    let more =
        findings.is_cut().then(|| Notification { message: said(language.word("findings-more")) });
    Invocation {
        execution_successful: true,
        tool_execution_notifications: more.into_iter().collect(),
    }
}

/// A finding; behind its message stands the way out, which viewers show nowhere else.
fn outcome(one: &Placed, rule_index: usize, language: Language) -> Outcome {
    let Placed { finding, located, end, .. } = one;
    let suppressions: Vec<_> = suppression(finding, language).into_iter().collect();
    // A justified finding was lowered; here it keeps its weight and is marked as suppressed.
    let level = if suppressions.is_empty() { finding.severity } else { Severity::Error };
    let region = (located.line > 0).then_some(Region {
        start_line: located.line,
        start_column: located.column,
        end_line: located.line,
        end_column: *end,
    });
    let artifact_location = Artifact { uri: uri(located.file), uri_base_id: "PLANT" };
    Outcome {
        rule_id: finding.rule,
        rule_index,
        level,
        message: said(format!("{}\n{}", located.message, located.way_out)),
        locations: [Location { physical_location: Physical { artifact_location, region } }],
        suppressions,
    }
}

fn suppression(finding: &Finding, language: Language) -> Option<Suppression> {
    let note = finding.notes.iter().find(|note| note.key() == "finding-justified")?;
    let justification = note.shown(language);
    Some(Suppression { kind: "external", status: "accepted", justification })
}

/// A path as a relative reference (RFC 3986): what may not stand in one is written as `%20`.
fn uri(path: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte);
    path.bytes().fold(String::with_capacity(path.len()), |mut uri, byte| {
        match plain(byte) {
            true => uri.push(char::from(byte)),
            false => uri += &format!("%{byte:02X}"),
        }
        uri
    })
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{log, uri};
    use crate::finding::show::Texts;
    use crate::finding::{Findings, Place};
    use crate::language::Language;

    #[test]
    fn a_path_becomes_a_relative_reference() {
        assert_eq!(uri("recipes/a b:ü.yaml"), "recipes/a%20b%3A%C3%BC.yaml");
    }

    #[test]
    fn columns_count_letters_and_the_end_lies_behind_the_last() {
        let file: Arc<str> = "f.yaml".into();
        let texts = Texts::from([(file.clone(), "a: { ü: öl, b: 1 }\n".into())]);
        let mut findings = Findings::default();
        findings.no_limits(&Place::top(&file).at("a").at("ü"));
        let log = serde_json::to_value(log(&findings, &texts, Language::English)).unwrap();
        let place = &log["runs"][0]["results"][0]["locations"][0]["physicalLocation"];
        let region = serde_json::json!(
            { "startLine": 1, "startColumn": 9, "endLine": 1, "endColumn": 11 }
        );
        assert_eq!(place["region"], region);
    }
}
