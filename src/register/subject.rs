//! What an entry is about: a procedure, a translation of one, a recipe.
//!
//! Written `procedure:knives`, `procedure:knives@es`, `recipe:dill-50`. Must never guess: what is not
//! written so is no subject.

use std::fmt;

use crate::language::Language;
use crate::plant::load::is_id;

/// A text that is approved as a whole.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A procedure, in the language it was written in.
    Procedure(String),
    /// The texts of a procedure in another language: somebody has to have read them.
    Translation(String, Language),
    /// A recipe.
    Recipe(String),
}

impl Subject {
    /// Reads a subject; none when it is written in any other way.
    pub fn parse(text: &str) -> Option<Subject> {
        let id = |id: &str| is_id(id).then(|| id.to_owned());
        if let Some(recipe) = text.strip_prefix("recipe:") {
            return id(recipe).map(Subject::Recipe);
        }
        let procedure = text.strip_prefix("procedure:")?;
        match procedure.split_once('@') {
            None => id(procedure).map(Subject::Procedure),
            Some((procedure, tag)) => {
                Some(Subject::Translation(id(procedure)?, Language::of_tag(tag)?))
            }
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Subject::Procedure(id) => write!(f, "procedure:{id}"),
            Subject::Translation(id, language) => write!(f, "procedure:{id}@{}", language.tag()),
            Subject::Recipe(id) => write!(f, "recipe:{id}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Subject;

    #[track_caller]
    fn check(text: &str, is_one: bool) {
        let read = Subject::parse(text).map(|subject| subject.to_string());
        assert_eq!(read, is_one.then(|| text.to_owned()), "{text}");
    }

    #[test]
    fn one_spelling_is_read() {
        for text in ["procedure:knives", "procedure:knives@es", "recipe:dill-50", "recipe:A1"] {
            check(text, true);
        }
        for text in [
            "",
            "knives",
            "procedure:",
            "procedure:knives@",
            "procedure:knives@fr",
            "procedure:../x",
            "recipe:dill@es",
            "Recipe:dill",
            "recipe: dill",
            "recipe:dill ",
            "procedure:a@es@de",
            "procedure:@es",
        ] {
            check(text, false);
        }
    }
}
