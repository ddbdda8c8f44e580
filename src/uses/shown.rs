//! What is used where, with file and line: as JSON and as text.
//!
//! Places become lines only for what is shown. Must never cut what a program asks for: pages that have
//! to stay small cut for themselves.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use serde::Serialize;

use super::alike::{Alike, alike};
use super::{Home, Index, Kind, Thing, Use, Who};
use crate::finding::Place;
use crate::finding::place::Marks;
use crate::finding::show::Texts;
use crate::language::Language;

/// Turns places into lines; each text is made out once.
pub struct Lines<'t> {
    texts: &'t Texts,
    marks: Marks<'t>,
    starts: BTreeMap<Arc<str>, Vec<usize>>,
}

impl<'t> Lines<'t> {
    /// Lines of these texts.
    pub fn of(texts: &'t Texts) -> Lines<'t> {
        Lines { texts, marks: Marks::new(), starts: BTreeMap::new() }
    }

    /// The line of a place, from 1; 0 for a file without a text.
    pub fn line(&mut self, place: &Place) -> usize {
        let Some(text) = self.texts.get(&place.file) else { return 0 };
        let at = place.locate_with(text, &mut self.marks).start;
        let starts = self.starts.entry(place.file.clone()).or_insert_with(|| {
            std::iter::once(0).chain(text.match_indices('\n').map(|(end, _)| end + 1)).collect()
        });
        starts.partition_point(|start| *start <= at)
    }
}

/// A place where something stands or is used.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Spot<'a> {
    /// `machine`, `recipe`, `procedure`, `step`, `job`, `person` or `plant`.
    pub by: &'static str,
    /// Identifier of the machine, recipe, procedure ...; empty for the plant.
    pub id: &'a str,
    /// Heading of the step.
    #[serde(skip_serializing_if = "str::is_empty")]
    pub step: &'a str,
    /// Path inside the plant.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Where a thing stands: whether anything that can reach it uses it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub used: Option<bool>,
}

/// A thing with all that uses it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Shown<'a> {
    /// What it is.
    pub kind: Kind,
    /// Its identifier, or the name by which steps call it.
    pub id: &'a str,
    /// Names for people.
    pub names: Vec<&'a str>,
    /// Where it stands.
    pub stands: Vec<Spot<'a>>,
    /// What uses it.
    pub uses: Vec<Spot<'a>>,
    /// Open jobs that use it.
    pub jobs: Vec<&'a str>,
}

/// A thing that is used nowhere.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Unused<'a> {
    /// What it is.
    pub kind: Kind,
    /// Its identifier.
    pub id: &'a str,
    /// Where it stands.
    pub stands: Spot<'a>,
    /// Whether it ships with the program.
    pub shipped: bool,
}

/// Names that are likely the same thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Question<'a> {
    /// What they are.
    pub kind: Kind,
    /// The names as they are written.
    pub names: Vec<&'a str>,
}

/// A whole plant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Overview<'a> {
    /// What is used nowhere.
    pub unused: Vec<Unused<'a>>,
    /// Names that are likely the same thing.
    pub same: Vec<Question<'a>>,
    /// Everything.
    pub things: Vec<Shown<'a>>,
}

/// Where a thing stands.
pub fn home<'a>(lines: &mut Lines, home: &Home<'a>) -> Spot<'a> {
    Spot { used: Some(home.is_used), ..spot(lines, home.owner, &home.place) }
}

fn spot<'a>(lines: &mut Lines, who: Who<'a>, place: &Place) -> Spot<'a> {
    let step = match who {
        Who::Step { title, .. } => title,
        _ => "",
    };
    let (file, line) = (place.file.to_string(), lines.line(place));
    Spot { by: who.slug(), id: who.id(), step, file, line, used: None }
}

/// Uses in the order of the files, each line once, so many at most.
pub fn spots<'a>(lines: &mut Lines, uses: &[Use<'a>], most: usize) -> Vec<(Who<'a>, Spot<'a>)> {
    let mut seen = BTreeSet::new();
    let mut spots = Vec::new();
    for one in uses {
        if spots.len() == most {
            break;
        }
        let spot = spot(lines, one.by, &one.place);
        if seen.insert(spot.clone()) {
            spots.push((one.by, spot));
        }
    }
    spots
}

/// A thing with all that uses it.
pub fn shown<'a>(lines: &mut Lines, kind: Kind, id: &'a str, thing: &'a Thing) -> Shown<'a> {
    let stands = thing.homes.iter().map(|one| home(lines, one)).collect();
    let uses = spots(lines, &thing.uses, usize::MAX).into_iter().map(|(_, spot)| spot).collect();
    let names = thing.names.iter().copied().collect();
    Shown { kind, id, names, stands, uses, jobs: thing.jobs.iter().copied().collect() }
}

/// Everything of a plant.
pub fn overview<'a>(lines: &mut Lines, index: &'a Index) -> Overview<'a> {
    let unused = index.unused().map(|(kind, id, _, one)| Unused {
        kind,
        id,
        stands: home(lines, one),
        shipped: one.is_shipped(),
    });
    let unused = unused.collect();
    let question = |Alike { kind, names }| Question { kind, names: names.into_iter().collect() };
    let same = alike(index).into_iter().map(question).collect();
    let things = index.iter().map(|(kind, id, thing)| shown(lines, kind, id, thing)).collect();
    Overview { unused, same, things }
}

/// A thing as text.
pub fn text_of(language: Language, lines: &mut Lines, found: (Kind, &str, &Thing)) -> String {
    let (kind, id, thing) = found;
    let mut text = format!("{}\n", title(language, kind, id, thing));
    let mut part = |key: &'static str, rows: Vec<String>| {
        if !rows.is_empty() {
            text += &format!("  {}\n", language.word(key));
            rows.iter().for_each(|row| text += &format!("    {row}\n"));
        }
    };
    let stands = thing.homes.iter().map(|home| {
        let row = row(language, lines, home.owner, &home.place);
        let note = (!home.is_used).then(|| language.word("uses-not-there"));
        note.map_or(row.clone(), |note| format!("{row} ({note})"))
    });
    part("uses-stands", stands.collect());
    let used = spots(lines, &thing.uses, usize::MAX).into_iter();
    part("uses-used-by", used.map(|(who, spot)| line(language, who, &spot)).collect());
    let jobs: Vec<&str> = thing.jobs.iter().copied().collect();
    let jobs = (!jobs.is_empty()).then(|| jobs.join(", "));
    part("uses-open-jobs", jobs.into_iter().collect());
    if thing.uses.is_empty() {
        text += &format!("  {}\n", language.word("uses-nothing"));
    }
    text
}

/// `instrument steel-rule: Steel rule 500 mm`.
fn title(language: Language, kind: Kind, id: &str, thing: &Thing) -> String {
    let names: Vec<&str> = thing.names.iter().copied().collect();
    let named = format!("{} {id}", kind.one().shown(language));
    if names.is_empty() { named } else { format!("{named}: {}", names.join("; ")) }
}

fn row(language: Language, lines: &mut Lines, who: Who, place: &Place) -> String {
    line(language, who, &spot(lines, who, place))
}

/// `recipes/lime.yaml:12  recipe lime`.
fn line(language: Language, who: Who, spot: &Spot) -> String {
    let told = match who {
        // The file says it already.
        Who::Plant => String::new(),
        _ => format!("  {}", who.told().shown(language)),
    };
    format!("{}:{}{told}", spot.file, spot.line)
}

/// A whole plant as text: what is used nowhere first.
pub fn text(language: Language, lines: &mut Lines, index: &Index) -> String {
    let mut text = String::new();
    let mut part = |head: &str, rows: Vec<String>| {
        if !rows.is_empty() {
            text += &format!("{head}\n");
            rows.iter().for_each(|row| text += &format!("  {row}\n"));
            text.push('\n');
        }
    };
    let own = index.unused().filter(|(.., home)| !home.is_shipped());
    let own = own.map(|(kind, id, thing, home)| {
        let spot = spot(lines, home.owner, &home.place);
        format!("{}:{}  {}", spot.file, spot.line, title(language, kind, id, thing))
    });
    part(language.word("uses-unused"), own.collect());
    part(
        language.word("uses-same"),
        alike(index).iter().map(|one| question(language, one)).collect(),
    );
    for kind in Kind::ALL {
        let things = index.of(kind);
        let rows = things.map(|(id, thing)| format!("{id}: {}", counts(language, thing)));
        part(&kind.all().shown(language), rows.collect());
    }
    let shipped = index.unused().filter(|(.., home)| home.is_shipped());
    part(
        language.word("uses-unused-shipped"),
        shipped.map(|(kind, id, ..)| named(language, kind, id)).collect(),
    );
    text
}

fn named(language: Language, kind: Kind, id: &str) -> String {
    format!("{} {id}", kind.one().shown(language))
}

/// `tool: "Hex key 5 mm" or "hex key 5mm"?`.
pub fn question(language: Language, one: &Alike) -> String {
    let names: Vec<String> = one.names.iter().map(|name| format!("\"{name}\"")).collect();
    format!("{}: {}", one.kind.one().shown(language), names.join(", "))
}

/// `12 uses, 3 open jobs`.
pub fn counts(language: Language, thing: &Thing) -> String {
    let uses = language.text("uses-count", &[("count", thing.uses.len().into())]);
    let jobs = language.text("uses-jobs-count", &[("count", thing.jobs.len().into())]);
    if thing.jobs.is_empty() { uses } else { format!("{uses}, {jobs}") }
}
