//! We could not run: the one error of the edges. It always names the file and says the way out.
//!
//! Never for what somebody wrote wrong in a plant: that is a [`crate::finding::Finding`].

use std::fmt;
use std::path::Path;

/// Why the program could not do its work.
#[derive(Debug)]
pub struct Failure {
    words: String,
}

impl Failure {
    /// A failure in words for people: what happened, and the way out.
    pub fn new(words: impl Into<String>) -> Failure {
        Failure { words: words.into() }
    }

    /// A failure of the system at a file.
    pub fn at(path: &Path, doing: &str, error: &std::io::Error) -> Failure {
        Failure::new(format!("could not {doing} {}: {error}", path.display()))
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.words)
    }
}

impl std::error::Error for Failure {}
