//! We could not run: the one error of the edges. It always names the file and says the way out.
//!
//! Never for what somebody wrote wrong in a plant: that is a [`crate::finding::Finding`].

use std::fmt;
use std::io;
use std::path::Path;

use crate::durable::FileError;
use crate::language::{Language, Words};

/// Why the program could not do its work.
#[derive(Debug)]
pub struct Failure {
    words: Words,
}

impl Failure {
    /// A failure in words for people: what happened, and the way out.
    pub fn new(words: impl Into<Words>) -> Failure {
        Failure { words: words.into() }
    }

    /// A failure of the system at a file; the text of the key says what was tried.
    pub fn at(key: &'static str, path: &Path, error: &io::Error) -> Failure {
        Failure::new(at_file(key, path, error))
    }

    /// The failure in a language; what the system says stays as the system says it.
    pub fn shown(&self, language: Language) -> String {
        self.words.shown(language)
    }
}

/// What was tried with a file, and what the system says of it.
pub(crate) fn at_file(key: &'static str, path: &Path, error: &io::Error) -> Words {
    let own = error.get_ref().and_then(|own| own.downcast_ref::<Words>());
    let cause = own.cloned().unwrap_or_else(|| error.to_string().into());
    Words::new(key, &[("path", path.display().to_string().into()), ("cause", cause.into())])
}

impl From<FileError> for Failure {
    fn from(error: FileError) -> Failure {
        Failure::new(error.words())
    }
}

/// The library of JSON could not write what it was given: in its own words.
impl From<serde_json::Error> for Failure {
    fn from(error: serde_json::Error) -> Failure {
        Failure::new(error.to_string())
    }
}

/// English, the source language.
impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.words.fmt(f)
    }
}

impl std::error::Error for Failure {}

#[cfg(test)]
mod tests {
    use std::io;
    use std::path::Path;

    use super::Failure;
    use crate::language::{Language, Words};

    #[test]
    fn the_system_keeps_its_words_and_our_own_causes_follow_the_language() {
        let path = Path::new("records/J-1");
        let system = Failure::at("failure-read", path, &io::Error::other("disk on fire"));
        assert_eq!(system.to_string(), "could not read records/J-1: disk on fire");
        let said = system.shown(Language::German);
        assert_eq!(said, "records/J-1 war nicht zu lesen: disk on fire");
        let ours = io::Error::other(Words::of("failure-not-next"));
        let ours = Failure::at("failure-cannot-add", path, &ours);
        assert_eq!(ours.to_string(), "cannot add records/J-1: it is not the next entry");
        let said = ours.shown(Language::Spanish);
        assert_eq!(said, "no es posible añadir records/J-1: no es el asiento siguiente");
    }
}
