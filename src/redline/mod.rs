//! What changed from one state of a plant to another: structure, words, what weighs for safety, what it
//! touches.
//!
//! Values in, values out: both plants are loaded already, and where the earlier one came from is the
//! business of who asks. [`compare`] finds the differences file by file: `tree` and `fields` for YAML,
//! `align` and `steps` for the steps of a procedure, [`prose`] for their words, `weigh` for what a
//! person could be hurt by, `issue` for revisions; [`touches`] says which packets, approvals and
//! inspections are concerned.
//!
//! Must never say that a change is safe: what it does not mark was not judged, and has to be read.

mod align;
mod fields;
mod issue;
pub mod prose;
mod steps;
pub mod touches;
mod tree;
mod weigh;

use std::collections::BTreeSet;
use std::fmt;

use serde::{Serialize, Serializer};

use crate::finding::Findings;
use crate::finding::show::Texts;
use crate::language::Language;
use crate::plant::load::Plant;
use crate::procedure::Procedure;

pub use issue::Issue;
pub use prose::{Block, Kind, Mark, Run, Style};
pub use weigh::Weight;

/// A plant with the texts of its files.
#[derive(Debug, Clone, Copy)]
pub struct Side<'a> {
    /// The plant.
    pub plant: &'a Plant,
    /// Texts by path.
    pub texts: &'a Texts,
}

impl Side<'_> {
    fn text(&self, file: &str) -> &str {
        self.texts.get(file).map(|text| &**text).unwrap_or_default()
    }

    fn sha256(&self, file: &str) -> Option<&str> {
        self.plant.digests.get(file).map(String::as_str)
    }
}

/// A file whose content people name by what it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A procedure.
    Procedure(String),
    /// Its texts in another language.
    Translation(String, Language),
    /// A recipe.
    Recipe(String),
    /// A machine.
    Machine(String),
    /// A job.
    Job(String),
    /// Any other file, by its path.
    File(String),
}

impl Subject {
    /// The subject of a file of a plant; that of a shipped file too.
    fn of(file: &str) -> Subject {
        let (folder, name) = file.rsplit_once('/').unwrap_or(("", file));
        let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned();
        let folder = folder.strip_prefix("shipped").unwrap_or(folder);
        let folder = folder.strip_prefix("instructions").unwrap_or(folder).trim_matches('/');
        let is_text = name.ends_with(".md");
        match folder {
            "" if is_text => Subject::Procedure(stem),
            "machines" => Subject::Machine(stem),
            "recipes" => Subject::Recipe(stem),
            "jobs" => Subject::Job(stem),
            tag => match Language::of_tag(tag).filter(|_| is_text) {
                Some(language) => Subject::Translation(stem, language),
                None => Subject::File(file.to_owned()),
            },
        }
    }

    /// Whether a word of the command line means this: in full, or its identifier alone.
    pub fn is_called(&self, name: &str) -> bool {
        self.to_string() == name || self.id() == name
    }

    /// Its identifier; of a file its path.
    pub fn id(&self) -> &str {
        match self {
            Subject::Procedure(id)
            | Subject::Translation(id, _)
            | Subject::Recipe(id)
            | Subject::Machine(id)
            | Subject::Job(id)
            | Subject::File(id) => id,
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Subject::Procedure(id) => write!(f, "procedure:{id}"),
            Subject::Translation(id, language) => write!(f, "procedure:{id}@{}", language.tag()),
            Subject::Recipe(id) => write!(f, "recipe:{id}"),
            Subject::Machine(id) => write!(f, "machine:{id}"),
            Subject::Job(id) => write!(f, "job:{id}"),
            Subject::File(path) => write!(f, "file:{path}"),
        }
    }
}

impl Serialize for Subject {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A file that differs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Changed {
    /// What it is.
    pub subject: Subject,
    /// Its name for people.
    pub name: String,
    /// Its path, now or before.
    pub file: String,
    /// Whether it is new, gone or changed.
    pub what: What,
    /// Its revision before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<Issue>,
    /// Its revision now.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<Issue>,
    /// What differs, in the order of the file; nothing when only comments or blanks do.
    pub changes: Vec<Change>,
}

impl Changed {
    /// The changes that weigh for safety.
    pub fn weighing(&self) -> impl Iterator<Item = &Change> {
        self.changes.iter().filter(|change| change.weighs.is_some())
    }
}

/// One difference.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Change {
    /// What happened to it.
    pub what: What,
    /// Why it weighs for safety.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub weighs: Option<Weight>,
    /// Title of the step it is in, as it is now; of one that is gone as it was.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub step: String,
    /// The field by its path, `reading.high`; empty for the step or the text itself.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub field: String,
    /// What stood there.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub before: String,
    /// What stands there.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub after: String,
    /// The prose word by word.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub words: Vec<Block>,
}

impl Change {
    /// A change of a step as a whole, or of a text.
    fn of(what: What, step: &str) -> Change {
        Change {
            what,
            weighs: None,
            step: step.to_owned(),
            field: String::new(),
            before: String::new(),
            after: String::new(),
            words: Vec::new(),
        }
    }

    fn field(step: &str, field: fields::Field, weighs: Option<Weight>) -> Change {
        let fields::Field { path, what, before, after } = field;
        let field = path.join(".");
        Change { weighs, field, before, after, ..Change::of(what, step) }
    }
}

/// What happened to a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum What {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// It says something else.
    Changed,
    /// It stands in another place among the others.
    Moved,
    /// It has another title.
    Renamed,
    /// Its prose says it in other words.
    Reworded,
}

impl What {
    /// The same seen from the other side.
    #[cfg(test)]
    fn back(self) -> What {
        match self {
            What::Added => What::Removed,
            What::Removed => What::Added,
            other => other,
        }
    }
}

/// Every file that differs, procedures first.
pub fn compare(before: &Side, after: &Side) -> Vec<Changed> {
    let files = |side: &Side| -> BTreeSet<String> {
        side.plant
            .digests
            .keys()
            .map(|file| file.to_string())
            .filter(|file| is_text(file))
            .collect()
    };
    let mut subjects: Vec<(Subject, [Option<String>; 2])> = Vec::new();
    let all: BTreeSet<Subject> =
        files(before).union(&files(after)).map(|file| Subject::of(file)).collect();
    let [old, new] = [by_subject(&files(before)), by_subject(&files(after))];
    for subject in all {
        let own = [old.get(&subject).cloned(), new.get(&subject).cloned()];
        let sha256 = |side: &Side, file: &Option<String>| {
            file.as_ref().and_then(|file| side.sha256(file).map(str::to_owned))
        };
        // A text that ships is read when a job asks for its language: that does not make it new.
        let is_shipped = own.iter().flatten().all(|file| file.starts_with("shipped/"));
        if !is_shipped && sha256(before, &own[0]) != sha256(after, &own[1]) {
            subjects.push((subject, own));
        }
    }
    let pair = Both { before, after };
    subjects.into_iter().map(|(subject, files)| pair.changed(subject, files)).collect()
}

/// Whether a plant has something of this name.
pub fn is_subject(side: &Side, name: &str) -> bool {
    let files = side.plant.digests.keys();
    files.map(|file| Subject::of(file)).any(|subject| subject.is_called(name))
}

/// Approvals and inspections are signed statements and no texts.
fn is_text(file: &str) -> bool {
    !file.starts_with("register/")
}

type BySubject = std::collections::BTreeMap<Subject, String>;

/// The file of each subject; one of the plant's own takes the place of a shipped one.
fn by_subject(files: &BTreeSet<String>) -> BySubject {
    let (shipped, own): (Vec<&String>, Vec<&String>) =
        files.iter().partition(|file| file.starts_with("shipped/"));
    shipped.into_iter().chain(own).map(|file| (Subject::of(file), file.clone())).collect()
}

/// What revisions of changed texts leave undone: unchanged, going back, without a reason of their own.
pub fn judge(findings: &mut Findings, changed: &[Changed], after: &Side) {
    for one in changed {
        issue::judge(findings, one, after);
    }
}

struct Both<'a> {
    before: &'a Side<'a>,
    after: &'a Side<'a>,
}

impl Both<'_> {
    fn changed(&self, subject: Subject, files: [Option<String>; 2]) -> Changed {
        let what = match &files {
            [None, _] => What::Added,
            [_, None] => What::Removed,
            _ => What::Changed,
        };
        let [old, new] = self.documents(&subject, &files);
        let file = files.iter().rev().flatten().next().cloned().unwrap_or_default();
        let name = [&new.name, &old.name].into_iter().find(|name| !name.is_empty());
        let name = name.cloned().unwrap_or_else(|| subject.id().to_owned());
        let mut changes = Vec::new();
        let without: &[&str] =
            if old.issue.is_some() || new.issue.is_some() { &ISSUE } else { &[] };
        for field in fields::compare(&old.facts, &new.facts, without) {
            let weighs = weigh::field(&subject, &field);
            changes.push(Change::field("", field, weighs));
        }
        if old.text != new.text {
            let words = prose::markdown(&old.text, &new.text);
            if words.iter().any(Block::is_changed) {
                changes.push(Change { words, ..Change::of(What::Reworded, "") });
            }
        }
        changes.extend(steps::compare(&old.steps, &new.steps));
        Changed { subject, name, file, what, before: old.issue, after: new.issue, changes }
    }

    /// Both files taken apart; when one cannot be understood, both as their lines.
    fn documents(&self, subject: &Subject, files: &[Option<String>; 2]) -> [Document; 2] {
        let read = |side: &Side, file: &Option<String>| match file {
            Some(file) => Document::read(subject, side, file),
            None => Some(Document::default()),
        };
        let lines = |side: &Side, file: &Option<String>| {
            let text = file.as_deref().map(|file| side.text(file));
            text.map(Document::lines).unwrap_or_default()
        };
        let [old, new] = files;
        match (read(self.before, old), read(self.after, new)) {
            (Some(before), Some(after)) => [before, after],
            _ => [lines(self.before, old), lines(self.after, new)],
        }
    }
}

/// Keys that say which revision it is, shown at the head and not among the changes.
const ISSUE: [&str; 6] = ["revision", "date", "author", "reason", "translates", "translator"];

/// A file taken apart for comparing.
struct Document {
    name: String,
    issue: Option<Issue>,
    /// Facts of the whole.
    facts: tree::Tree,
    /// Prose outside the steps, Markdown.
    text: String,
    steps: Vec<steps::Step>,
}

impl Default for Document {
    fn default() -> Document {
        let facts = tree::Tree::Map(Vec::new());
        Document { name: String::new(), issue: None, facts, text: String::new(), steps: Vec::new() }
    }
}

impl Document {
    /// Takes a file apart; none when it cannot be understood.
    fn read(subject: &Subject, side: &Side, file: &str) -> Option<Document> {
        let text = side.text(file);
        match subject {
            Subject::Procedure(_) => Document::procedure(side, file, text),
            Subject::Translation(..) => Document::translation(text),
            _ => is_loaded(subject, side.plant).then(|| Document::yaml(subject, text)),
        }
    }

    fn procedure(side: &Side, file: &str, text: &str) -> Option<Document> {
        let sha256 = side.sha256(file).unwrap_or_default().to_owned();
        // The plant has it in the language it works in; what is compared is what was written.
        let language = side.plant.language;
        let read = crate::procedure::text::parse;
        let read = read(&mut Findings::default(), &file.into(), text, sha256, language);
        let procedure: Procedure = read?;
        let steps = steps::all(&procedure, text);
        let Procedure { front_range, intro, .. } = procedure;
        let facts = tree::Tree::of(text.get(front_range).unwrap_or_default());
        let name = said(&facts, "title");
        Some(Document { name, issue: Issue::of(&facts), facts, text: intro, steps })
    }

    fn translation(text: &str) -> Option<Document> {
        let (front, body) = text.strip_prefix("---\n")?.split_once("\n---\n")?;
        let facts = tree::Tree::of(front);
        let (name, text) = (said(&facts, "title"), body.to_owned());
        Some(Document { name, issue: Issue::of(&facts), facts, text, steps: Vec::new() })
    }

    fn yaml(subject: &Subject, text: &str) -> Document {
        let facts = tree::Tree::of(text);
        let issue = matches!(subject, Subject::Recipe(_)).then(|| Issue::of(&facts)).flatten();
        Document { name: said(&facts, "name"), issue, facts, ..Document::default() }
    }

    /// A file that is no YAML we could read: its lines.
    fn lines(text: &str) -> Document {
        let lines = text.lines().filter(|line| !line.trim().is_empty());
        let lines = lines.map(|line| tree::Tree::Text(line.to_owned())).collect();
        let facts = tree::Tree::Map(vec![("lines".to_owned(), tree::Tree::List(lines))]);
        Document { facts, ..Document::default() }
    }
}

fn said(facts: &tree::Tree, key: &str) -> String {
    facts.get(key).map(tree::Tree::line).unwrap_or_default()
}

/// Whether a file of YAML was understood: what was refused is compared by its lines.
fn is_loaded(subject: &Subject, plant: &Plant) -> bool {
    match subject {
        Subject::Machine(id) => plant.machines.contains_key(id),
        Subject::Recipe(id) => plant.recipes.contains_key(id),
        Subject::Job(id) => plant.jobs.contains_key(id),
        Subject::File(path) => match path.as_str() {
            "plant.yaml" | "people.yaml" => true,
            "stock.yaml" => plant.stock.is_some(),
            "hazards.yaml" | "shipped/hazards.yaml" => {
                plant.hazards.values().any(|entry| &*entry.place.file == path.as_str())
            }
            _ => false,
        },
        _ => false,
    }
}
