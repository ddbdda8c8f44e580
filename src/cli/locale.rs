//! The language of the answers: the one that was asked for, else that of the environment.
//!
//! What stands on a packet or a page is in the language of its plant, whatever this says.
#![allow(clippy::disallowed_methods, reason = "this is where the environment comes in")]

use crate::language::Language;

/// The language that was asked for; without one the environment's, by the order of POSIX.
pub(super) fn language(asked: Option<Language>) -> Language {
    let set = |name: &str| std::env::var(name).ok().filter(|value| !value.is_empty());
    asked.unwrap_or_else(|| of_locale(&["LC_ALL", "LC_MESSAGES", "LANG"].map(set)))
}

/// The language of the first locale that is set; English for `C`, `POSIX` and every other.
fn of_locale(set: &[Option<String>]) -> Language {
    let locale = set.iter().flatten().next().map_or("", String::as_str);
    let name = locale.split(['.', '@']).next().unwrap_or_default().replace('_', "-");
    let language = name.split('-').next().unwrap_or_default();
    Language::of_tag(&name).or_else(|| Language::of_tag(language)).unwrap_or_default()
}

/// The language of a tag on the command line.
pub(super) fn of_tag(tag: &str) -> Result<Language, String> {
    Language::of_tag(tag).ok_or_else(|| {
        let known = Language::ALL.map(Language::tag).join(", ");
        format!("the languages are {known}")
    })
}

#[cfg(test)]
mod tests {
    use super::of_locale;

    #[track_caller]
    fn check(set: [&str; 3], expected: &str) {
        let set = set.map(|value| Some(value.to_owned()).filter(|value| !value.is_empty()));
        assert_eq!(of_locale(&set).tag(), expected, "{set:?}");
    }

    /// Source: POSIX.1-2017, 8.2: `LC_ALL` before `LC_MESSAGES` before `LANG`.
    #[test]
    fn the_first_locale_that_is_set_says_the_language() {
        check(["", "", ""], "en");
        check(["", "", "de_DE.UTF-8"], "de");
        check(["", "es_ES@euro", "de_DE.UTF-8"], "es");
        check(["C", "es_ES", "de_DE"], "en");
        check(["es_419.UTF-8", "", ""], "es-419");
        check(["POSIX", "", ""], "en");
        check(["", "", "de"], "de");
        check(["", "", "fr_FR.UTF-8"], "en");
        check(["", "", "C.UTF-8"], "en");
    }
}
