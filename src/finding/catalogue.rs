//! Every rule, once: what it says, how to mend it, and why it is a rule.
//!
//! Taken from the texts of the findings: a message with a way out in `findings-<topic>.ftl` is a rule,
//! so there is no second list to keep. Must never name a rule that nobody raises: a test compares it
//! with the code.

use std::sync::LazyLock;

use super::Severity;
use super::rules::policy::{JUSTIFIABLE, WARNINGS};
use crate::language::{self, Language};

/// A rule, as the handbook and other programs get to know it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rule {
    /// Its identifier, `strip-exceeds-pitch`.
    pub id: &'static str,
    /// Its topic: the file in which its words stand, `walk`.
    pub topic: &'static str,
    /// What it weighs before a plant says anything.
    pub severity: Severity,
    /// Why a plant may answer for it by name; none where nobody may.
    pub justifiable: Option<&'static str>,
}

impl Rule {
    /// What is wrong, with the names of what is put in: `no film ‹film›`.
    pub fn message(&self, language: Language) -> String {
        opened(language, self.id)
    }

    /// How to mend it.
    pub fn way_out(&self, language: Language) -> String {
        opened(language, &format!("{}.way-out", self.id))
    }

    /// Why it is a rule: a sentence of its own, or that of its topic.
    pub fn why(&self, language: Language) -> String {
        let own = format!("{}.why", self.id);
        let topic = || language.plain(&format!("rules-why-{}", self.topic));
        language.plain(&own).or_else(topic).unwrap_or_default().to_owned()
    }

    /// Whether a plant may treat it as an error.
    pub fn may_be_raised(&self) -> bool {
        self.severity == Severity::Warning
    }
}

/// Every rule, by topic, and in a topic in the order in which its words stand.
pub fn catalogue() -> &'static [Rule] {
    &RULES
}

/// A rule by its identifier.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id)
}

static RULES: LazyLock<Vec<Rule>> = LazyLock::new(|| {
    let rules = language::remedies().into_iter().filter_map(|(file, id)| {
        let topic = file.strip_prefix("findings-").filter(|topic| !PARTS.contains(topic))?;
        Some(known(topic, id))
    });
    rules.collect()
});

/// Topics whose texts are parts of a message, with their remedy: none of them is a rule.
const PARTS: [&str; 2] = ["formula", "quantity"];

fn known(topic: &'static str, id: &'static str) -> Rule {
    let severity = match WARNINGS.contains(&id) {
        true => Severity::Warning,
        false => Severity::Error,
    };
    let justifiable = JUSTIFIABLE.iter().find(|(rule, _)| *rule == id).map(|(_, why)| *why);
    Rule { id, topic, severity, justifiable }
}

/// A text whose variables are shown by their names.
fn opened(language: Language, key: &str) -> String {
    let named = |name: &str| match name {
        "nearest" => language.word("rules-nearest").to_owned(),
        "words" => language.word("rules-words").to_owned(),
        "remedy" => language.word("rules-remedy").to_owned(),
        name => format!("‹{name}›"),
    };
    language.opened(key, named)
}

#[cfg(test)]
mod tests {
    use super::{catalogue, rule};
    use crate::finding::Severity;
    use crate::finding::rules::policy::{JUSTIFIABLE, WARNINGS};
    use crate::language::Language;

    #[test]
    fn every_rule_says_what_is_wrong_and_how_to_mend_it_and_why() {
        for rule in catalogue() {
            for language in Language::ALL {
                for text in [rule.message(language), rule.way_out(language), rule.why(language)] {
                    let at = format!("{} in {}: {text}", rule.id, language.tag());
                    assert!(!text.trim().is_empty() && !text.contains("{$"), "{at}");
                }
            }
        }
    }

    #[test]
    fn no_rule_stands_twice() {
        let mut ids: Vec<_> = catalogue().iter().map(|rule| rule.id).collect();
        let all = ids.len();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), all);
    }

    #[test]
    fn what_a_plant_may_raise_or_answer_for_is_in_the_catalogue() {
        for id in WARNINGS {
            assert_eq!(rule(id).map(|rule| rule.severity), Some(Severity::Warning), "{id}");
        }
        for (id, why) in JUSTIFIABLE {
            assert_eq!(rule(id).and_then(|rule| rule.justifiable), Some(why), "{id}");
        }
    }

    #[test]
    fn a_rule_is_shown_with_the_names_of_its_parts() {
        let film = rule("unknown-film").unwrap();
        assert_eq!(film.message(Language::English), "there is no film `‹film›` in stock.yaml");
        assert_eq!(
            film.way_out(Language::English),
            "the nearest name that is known, or what is known there"
        );
        assert!(!film.may_be_raised() && rule("vague-words").unwrap().may_be_raised());
        assert_eq!(rule("formula-empty"), None);
    }
}
