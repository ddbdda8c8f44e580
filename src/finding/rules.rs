//! The rules: one function each, which owns its words. Search for a rule's name to find who raises it.

use super::{Findings, Place};

/// A suggestion: the nearest known name, or the list when it is short.
fn did_you_mean<S: AsRef<str>>(name: &str, known: &[S]) -> String {
    let nearest = known
        .iter()
        .map(|k| (strsim::damerau_levenshtein(name, k.as_ref()), k.as_ref()))
        .min()
        .filter(|(distance, k)| *distance <= 1 + k.len().min(name.len()) / 3);
    match nearest {
        Some((_, k)) => format!("did you mean `{k}`?"),
        None if known.is_empty() => "there is none to choose from".to_owned(),
        None => {
            let names: Vec<_> = known.iter().map(|k| format!("`{}`", k.as_ref())).collect();
            format!("known here: {}", names.join(", "))
        }
    }
}

/// Rules of reading: YAML and its shape.
impl Findings {
    /// The text is not YAML.
    pub fn not_yaml(&mut self, at: &Place, message: &str) {
        let way_out = "mend the YAML: mind indentation, colons, quotes and brackets".to_owned();
        self.error("not-yaml", at, format!("this is not YAML: {message}"), way_out);
    }

    /// A key nobody reads.
    pub fn unknown_key(&mut self, at: &Place, key: &str, known: &[String]) {
        let way_out = did_you_mean(key, known);
        self.error("unknown-key", at, format!("unknown key `{key}`"), way_out);
    }

    /// A key that must be there.
    pub fn missing_key(&mut self, at: &Place, key: &str) {
        let way_out = format!("add `{key}: ...`");
        self.error("missing-key", at, format!("the key `{key}` is missing"), way_out);
    }

    /// A key that stands twice.
    pub fn key_twice(&mut self, at: &Place, key: &str) {
        let way_out = "keep one of the two".to_owned();
        self.error("key-twice", at, format!("the key `{key}` stands twice"), way_out);
    }

    /// A word outside a fixed list.
    pub fn unknown_word(&mut self, at: &Place, word: &str, known: &[String]) {
        let way_out = did_you_mean(word, known);
        self.error("unknown-word", at, format!("`{word}` is not a word known here"), way_out);
    }

    /// A list where text belongs, or the like.
    pub fn wrong_shape(&mut self, at: &Place, found: &str, expected: &str) {
        let message = format!("expected {expected}, found {found}");
        self.error("wrong-shape", at, message, format!("write {expected} here"));
    }
}

/// Rules of procedures as text.
impl Findings {
    /// A procedure must begin with its facts.
    pub fn no_front_matter(&mut self, at: &Place) {
        let message = "a procedure begins with its facts between two lines of ---".to_owned();
        let way_out = "begin the file with ---, id, title, revision, date, author, reason, ---";
        self.error("no-front-matter", at, message, way_out.to_owned());
    }

    /// A procedure without steps.
    pub fn no_steps(&mut self, at: &Place) {
        let way_out = "write a heading of the second level (##) for each step".to_owned();
        self.error("no-steps", at, "this procedure has no step".to_owned(), way_out);
    }

    /// Two steps of one procedure cannot be told apart.
    pub fn heading_twice(&mut self, at: &Place, title: &str) {
        let message = format!("another step is called `{title}` too");
        self.error("heading-twice", at, message, "give each step a heading of its own".to_owned());
    }

    /// A heading nobody could sign for.
    pub fn bad_heading(&mut self, at: &Place, title: &str) {
        let message = format!("`{title}` cannot be the heading of a step");
        let way_out = "use plain words with at least one Latin letter or digit, and no values";
        self.error("bad-heading", at, message, way_out.to_owned());
    }

    /// A step has one block of facts.
    pub fn step_blocks(&mut self, at: &Place, count: usize) {
        let message = format!("a step has one block marked `step`, this one has {count}");
        let way_out = "end the step with ```step, its facts, ``` (it may be empty)".to_owned();
        self.error("step-block", at, message, way_out);
    }

    /// Braces without a name.
    pub fn bad_braces(&mut self, at: &Place, why: &str) {
        let way_out = "write {{ name }} in plain text".to_owned();
        self.error("bad-braces", at, why.to_owned(), way_out);
    }
}

/// Rules of files.
impl Findings {
    /// A file every plant has.
    pub fn no_such_file(&mut self, at: &Place, name: &str) {
        let message = format!("the plant has no file {name}");
        self.error("no-such-file", at, message, format!("write {name}"));
    }

    /// A link or a folder where a file belongs: it could lead outside the plant.
    pub fn link_refused(&mut self, at: &Place) {
        let message = "this is a link or no plain file, and is not followed".to_owned();
        let way_out = "put the file itself into the plant's folder".to_owned();
        self.error("link-refused", at, message, way_out);
    }

    /// A file larger than anybody writes.
    pub fn file_too_large(&mut self, at: &Place, largest: u64) {
        let message = format!("this file is larger than {} KiB", largest / 1024);
        self.error("file-too-large", at, message, "split it".to_owned());
    }

    /// A file that is not text.
    pub fn not_utf8(&mut self, at: &Place, byte: usize) {
        let message = format!("this file is not UTF-8 text (byte {})", byte + 1);
        self.error("not-utf8", at, message, "save it as UTF-8".to_owned());
    }

    /// A file nobody reads.
    pub fn stray_file(&mut self, at: &Place, ending: &str) {
        let message = format!("files in this folder end in {ending}; this one is not read");
        let way_out = format!("end its name in {ending}, or move it elsewhere");
        self.warning("stray-file", at, message, way_out);
    }

    /// A file is found by its identifier.
    pub fn id_is_not_file_name(&mut self, at: &Place, id: &str, stem: &str) {
        let message = format!("the identifier is `{id}`, the file is called `{stem}`");
        self.error("id-is-not-file-name", at, message, "give both the same name".to_owned());
    }

    /// An identifier that could not stand in a link.
    pub fn bad_id(&mut self, at: &Place, id: &str) {
        let message = format!("`{id}` cannot be an identifier");
        let way_out = "use letters, digits and hyphens, 64 at most".to_owned();
        self.error("bad-id", at, message, way_out);
    }
}
