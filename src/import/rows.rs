//! From rows to recipes: each row gives its values to a copy of the pattern.

use std::collections::{BTreeMap, BTreeSet};

use super::cell::{NO_UNIT, Reader};
use super::edit::{Edit, edited};
use super::mapping::{ColumnEntry, Is, Mapping};
use super::remark::{At, Remark, Remarks};
use super::table::{Cell, Table};
use crate::finding::{Place, Severity};
use crate::language::Words;
use crate::plant::load::is_id;
use crate::plant::machine::day_of;
use crate::plant::shape::RecipeFile;
use crate::quantity::{Measure, Unit};

/// Everything recipes are made from.
#[derive(Debug)]
pub struct Source<'a> {
    /// The table.
    pub table: &'a Table,
    /// What its columns are.
    pub mapping: &'a Mapping,
    /// The top of the mapping's file.
    pub place: &'a Place,
    /// The recipe that is the pattern.
    pub pattern: &'a RecipeFile,
    /// The text of its file.
    pub pattern_text: &'a str,
    /// Recipes of the plant, each with its revision and the text of its file.
    pub existing: &'a BTreeMap<&'a str, (&'a str, &'a str)>,
    /// Those of them that may be replaced.
    pub replace: &'a BTreeSet<String>,
    /// What was said beside the mapping; it comes first.
    pub stamp: &'a Stamp,
}

/// Revision, day, author and reason, where somebody says them for all recipes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stamp {
    /// Revision.
    pub revision: Option<String>,
    /// Day of the revision.
    pub date: Option<String>,
    /// Author.
    pub author: Option<String>,
    /// Reason.
    pub reason: Option<String>,
}

/// A recipe that was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// Identifier.
    pub id: String,
    /// Row it was made from.
    pub row: usize,
    /// The text of its file.
    pub text: String,
    /// What this text must say when it is read again.
    pub body: RecipeFile,
    /// What was put in: the field, and its value as a recipe writes it.
    pub values: Vec<(String, String)>,
    /// Whether a recipe of this name is there already.
    pub is_there: bool,
    /// Whether the file that is there has the same bytes.
    pub is_same: bool,
}

/// What a table gave.
#[derive(Debug, Default)]
pub struct Taken {
    /// Recipes, in the order of the table.
    pub made: Vec<Made>,
    /// What is to be said, in the order in which it was met.
    pub remarks: Vec<Remark>,
    /// What every recipe keeps from the pattern: inputs, and settings that are plain values.
    pub kept: Vec<(String, String)>,
    /// Rows that were read.
    pub rows: usize,
    /// Rows the mapping skips.
    pub skipped: usize,
}

impl Taken {
    /// Whether something stands against writing.
    pub fn has_errors(&self) -> bool {
        self.remarks.iter().any(|remark| remark.severity == Severity::Error)
    }
}

/// A column of the table and what it is.
struct Column<'a> {
    number: usize,
    heading: &'a str,
    entry: &'a ColumnEntry,
}

impl Column<'_> {
    fn at(&self, row: usize) -> At {
        At::Row { row, column: Some((self.number, self.heading.to_owned())) }
    }
}

/// Makes recipes from a table. With a fault in the mapping or the headings no row is looked at.
pub fn recipes(source: &Source) -> Taken {
    let mut maker = Maker { source, remarks: Remarks::default() };
    let columns = maker.columns();
    maker.mapping(&columns);
    let mut taken = Taken { kept: kept(source, &columns), ..Taken::default() };
    if maker.remarks.list.is_empty() {
        maker.formulas(&columns);
        maker.rows(&columns, &mut taken);
        maker.replaced(&taken.made);
    }
    taken.remarks = maker.remarks.list;
    taken
}

/// What no column gives and every recipe has from the pattern.
fn kept(source: &Source, columns: &[Column]) -> Vec<(String, String)> {
    let given = |is: Is, name: &str| {
        columns.iter().any(|one| one.entry.is == is && one.entry.of.as_deref() == Some(name))
    };
    let inputs = source.pattern.inputs.iter().filter(|(name, _)| !given(Is::Input, name));
    let inputs = inputs.map(|(name, text)| (name.to_owned(), text.clone()));
    let settings = source.pattern.settings.iter();
    let plain = settings.filter(|(name, setting)| {
        Measure::parse(&setting.formula).is_ok() && !given(Is::Setting, name)
    });
    inputs.chain(plain.map(|(name, one)| (name.to_owned(), one.formula.clone()))).collect()
}

struct Maker<'a> {
    source: &'a Source<'a>,
    remarks: Remarks,
}

impl<'a> Maker<'a> {
    /// Columns of the table by the mapping; a heading that nobody mapped is said, and one that lacks.
    fn columns(&mut self) -> Vec<Column<'a>> {
        let Source { table, mapping, place, .. } = self.source;
        let head = table.rows.get(&mapping.head);
        let headings =
            head.into_iter().flatten().map(|(number, cell)| (*number, cell.shown().trim()));
        let headings: Vec<(usize, &str)> = headings.filter(|(_, text)| !text.is_empty()).collect();
        let mut columns = Vec::new();
        let mut taken = BTreeSet::new();
        for (name, entry) in mapping.columns.iter() {
            let mut same = headings.iter().filter(|(_, heading)| *heading == name.trim());
            let at = At::Mapping(place.at("columns").at(name).key());
            match (same.next(), same.next()) {
                (Some((number, heading)), None) => {
                    taken.insert(*number);
                    columns.push(Column { number: *number, heading, entry });
                }
                (Some(_), Some(_)) => {
                    let same = headings.iter().filter(|(_, heading)| *heading == name.trim());
                    taken.extend(same.map(|(number, _)| *number));
                    let parts = [("heading", name.into()), ("row", mapping.head.into())];
                    self.remarks.error(&at, Words::new("import-heading-twice", &parts));
                }
                (None, _) => {
                    let near = nearest(name, headings.iter().map(|(_, heading)| *heading));
                    taken
                        .extend(headings.iter().filter(|(_, h)| Some(*h) == near).map(|(n, _)| *n));
                    let parts = [("heading", name.into()), ("row", mapping.head.into())];
                    self.remarks.error(&at, with_near("import-no-heading", &parts, near));
                }
            }
        }
        for (number, heading) in headings.iter().filter(|(number, _)| !taken.contains(number)) {
            let column = Some((*number, (*heading).to_owned()));
            let parts = [("heading", (*heading).into())];
            let at = At::Row { row: mapping.head, column };
            self.remarks.error(&at, Words::new("import-not-mapped", &parts));
        }
        columns
    }

    /// Whether the mapping fits the pattern.
    fn mapping(&mut self, columns: &[Column]) {
        let place = self.source.place.at("columns");
        for needed in [Is::Id, Is::Name] {
            let count = self.source.mapping.columns.iter().filter(|(_, e)| e.is == needed).count();
            if count == 0 {
                let words = Words::new("import-no-column", &[("is", needed.word().into())]);
                self.remarks.error(&At::Mapping(place.clone()), words);
            }
        }
        let mut seen = BTreeSet::new();
        for (name, entry) in self.source.mapping.columns.iter() {
            let at = At::Mapping(place.at(name).key());
            if entry.is != Is::LeftOut && !seen.insert((entry.is, entry.of.as_deref())) {
                let what = entry.of.as_deref().unwrap_or(entry.is.word());
                self.remarks
                    .error(&at, Words::new("import-target-twice", &[("what", what.into())]));
            }
            self.target(&at, entry);
            self.unit(&at, name, entry);
        }
        for (name, _) in self.source.mapping.skip.holding.iter() {
            if !self.source.mapping.columns.names().any(|known| known == name) {
                let at = At::Mapping(self.source.place.at("skip").at("where").at(name).key());
                let near = nearest(name, self.source.mapping.columns.names());
                let parts = [("heading", name.into())];
                self.remarks.error(&at, with_near("import-skip-column", &parts, near));
            }
        }
        self.stamps(columns);
    }

    /// Whether the pattern has the field that a column goes to.
    fn target(&mut self, at: &At, entry: &ColumnEntry) {
        let pattern = self.source.pattern;
        let is = entry.is.word();
        let Some(of) = entry.of.as_deref() else {
            if entry.is.has_of() {
                self.remarks.error(at, Words::new("import-of-missing", &[("is", is.into())]));
            }
            return;
        };
        if !entry.is.has_of() {
            return self.remarks.error(at, Words::new("import-of-idle", &[("is", is.into())]));
        }
        let known: Vec<&str> = match entry.is {
            Is::Input => pattern.inputs.names().collect(),
            _ => pattern.settings.names().collect(),
        };
        let parts = [("of", of.into()), ("pattern", (&pattern.id).into())];
        let setting = pattern.settings.get(of);
        match entry.is {
            _ if !known.contains(&of) => {
                let near = nearest(of, known.into_iter());
                self.remarks.error(at, with_near("import-not-in-pattern", &parts, near));
            }
            Is::Setting if setting.is_some_and(|one| Measure::parse(&one.formula).is_err()) => {
                self.remarks.error(at, Words::new("import-is-computed", &parts));
            }
            Is::Tolerance if setting.is_some_and(|one| one.tolerance.is_none()) => {
                self.remarks.error(at, Words::new("import-no-tolerance", &parts));
            }
            _ => {}
        }
    }

    /// Whether the unit of a column is one, and the one its heading says.
    fn unit(&mut self, at: &At, heading: &str, entry: &ColumnEntry) {
        let Some(unit) = entry.unit.as_deref().filter(|unit| *unit != NO_UNIT) else { return };
        let Some(known) = Unit::find(unit) else {
            let near = Unit::nearest(unit);
            let parts = [("unit", unit.into())];
            return self.remarks.error(at, with_near("import-unit-of-column", &parts, near));
        };
        let inside = heading.rsplit(['[', '(']).next().filter(|rest| rest.len() < heading.len());
        let said = inside.map(|rest| rest.trim_end_matches([']', ')', ' ']));
        if let Some(said) = said
            && let Some(other) = Unit::find(said)
            && !std::ptr::eq(other, known)
        {
            let parts = [("said", said.into()), ("unit", unit.into())];
            self.remarks.error(at, Words::new("import-heading-unit", &parts));
        }
    }

    /// Whether revision, day, author and reason of each recipe are said by somebody.
    fn stamps(&mut self, columns: &[Column]) {
        let &Source { mapping, stamp, place, .. } = self.source;
        for (is, all) in stamped(mapping, stamp) {
            let has_column = columns.iter().any(|column| column.entry.is == is);
            let at = At::Mapping(place.at(is.word()));
            match all {
                None if !has_column => {
                    let words = Words::new("import-nobody-says", &[("key", is.word().into())]);
                    self.remarks.error(&At::Mapping(place.clone()), words);
                }
                Some(text) if is == Is::Date && day_of(text).is_none() => {
                    let parts = [("text", text.into()), ("form", "YYYY-MM-DD".into())];
                    self.remarks.error(&at, Words::new("import-not-a-day", &parts));
                }
                _ => {}
            }
        }
    }

    /// Says which columns hold what formulas gave.
    fn formulas(&mut self, columns: &[Column]) {
        let mut counts: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
        for (row, column) in &self.source.table.formulas {
            if *row > self.source.mapping.head {
                let (_, count) = counts.entry(*column).or_insert((*row, 0));
                *count += 1;
            }
        }
        for column in columns.iter().filter(|column| column.entry.is != Is::LeftOut) {
            if let Some((row, count)) = counts.get(&column.number) {
                let words = Words::new("import-formulas", &[("count", (*count).into())]);
                self.remarks.warning(&column.at(*row), words);
            }
        }
    }

    fn rows(&mut self, columns: &[Column], taken: &mut Taken) {
        let Source { table, mapping, .. } = self.source;
        let mut seen: BTreeMap<String, usize> = BTreeMap::new();
        for (row, cells) in table.rows.range(mapping.head.saturating_add(1)..) {
            if cells.values().all(Cell::is_empty) {
                continue;
            }
            if self.is_skipped(*row, columns) {
                taken.skipped += 1;
                continue;
            }
            taken.rows += 1;
            let Some(values) = self.values(*row, columns) else { continue };
            let Some(made) = self.made(*row, columns, values) else { continue };
            if let Some(first) = seen.insert(made.id.clone(), *row) {
                let parts = [("id", (&made.id).into()), ("row", first.into())];
                let at = self.at_id(*row, columns);
                self.remarks.error(&at, Words::new("import-id-twice", &parts));
                continue;
            }
            taken.made.push(made);
        }
    }

    fn is_skipped(&self, row: usize, columns: &[Column]) -> bool {
        let Source { table, mapping, .. } = self.source;
        let holds = |(heading, texts): (&str, &Vec<String>)| {
            let column = columns.iter().find(|column| column.heading == heading.trim());
            column.is_some_and(|column| {
                let text = table.cell(row, column.number).shown().trim();
                texts.iter().any(|one| one == text)
            })
        };
        mapping.skip.rows.contains(&row) || mapping.skip.holding.iter().any(holds)
    }

    /// The values of a row by column; none when one was not understood.
    fn values(&mut self, row: usize, columns: &[Column]) -> Option<Vec<Vec<String>>> {
        let Source { table, mapping, .. } = self.source;
        let mut values = Vec::new();
        let mut is_whole = true;
        for column in columns {
            let reader = Reader { mapping, column: column.entry };
            let cell = table.cell(row, column.number);
            let one = |text: String| (vec![text], None);
            let read = match column.entry.is {
                Is::LeftOut => Ok((Vec::new(), None)),
                Is::Machine => reader.texts(cell).map(|texts| (texts, None)),
                Is::Date => reader.day(cell).map(one),
                Is::Input | Is::Setting => {
                    reader.quantity(cell).map(|read| (vec![read.text], read.note))
                }
                Is::Tolerance => reader.tolerance(cell).map(|read| (vec![read.text], read.note)),
                Is::Id | Is::Name | Is::Revision | Is::Author | Is::Reason => {
                    reader.text(cell).map(one)
                }
            };
            match read {
                Ok((texts, note)) => {
                    note.into_iter().for_each(|note| self.remarks.warning(&column.at(row), note));
                    values.push(texts);
                }
                Err(words) => {
                    self.remarks.error(&column.at(row), words);
                    is_whole = false;
                }
            }
        }
        is_whole.then_some(values)
    }

    fn at_id(&self, row: usize, columns: &[Column]) -> At {
        let id = columns.iter().find(|column| column.entry.is == Is::Id);
        id.map_or(At::Row { row, column: None }, |column| column.at(row))
    }

    /// The recipe of a row; none when it may not be made.
    fn made(&mut self, row: usize, columns: &[Column], values: Vec<Vec<String>>) -> Option<Made> {
        let Source { mapping, stamp, pattern, pattern_text, existing, .. } = self.source;
        let mut draft = Draft { body: (*pattern).clone(), edits: Vec::new(), values: Vec::new() };
        for (is, all) in stamped(mapping, stamp) {
            all.into_iter().for_each(|text| draft.put(is, "", text));
        }
        if !mapping.machines.is_empty() {
            draft.machines(mapping.machines.clone());
        }
        for (column, texts) in columns.iter().zip(values) {
            let of = column.entry.of.as_deref().unwrap_or_default();
            let stamp_says = stamp.says(column.entry.is);
            match (column.entry.is, texts.as_slice()) {
                (Is::Machine, _) => draft.machines(texts),
                (is, [text]) if !stamp_says => draft.put(is, of, text),
                _ => {}
            }
        }
        let id = draft.body.id.clone();
        if !is_id(&id) {
            let parts = [("id", (&id).into()), ("like", like_an_id(&id).into())];
            let at = self.at_id(row, columns);
            self.remarks.error(&at, Words::new("import-bad-id", &parts));
            return None;
        }
        let text = edited(pattern_text, &draft.edits);
        let Draft { body, values, .. } = draft;
        let there = existing.get(id.as_str());
        let is_same = there.is_some_and(|(_, old)| *old == text);
        if let Some((revision, _)) = there.filter(|_| !is_same) {
            self.may_replace(row, columns, &body, revision)?;
        }
        Some(Made { id, row, text, body, values, is_there: there.is_some(), is_same })
    }

    /// A recipe is replaced only when it was named, and by another revision.
    fn may_replace(
        &mut self,
        row: usize,
        columns: &[Column],
        body: &RecipeFile,
        revision: &str,
    ) -> Option<()> {
        let at = self.at_id(row, columns);
        let id = ("id", (&body.id).into());
        if !self.source.replace.contains(&body.id) {
            self.remarks.error(&at, Words::new("import-is-there", &[id]));
            return None;
        }
        if body.revision == revision {
            let parts = [id, ("revision", revision.into())];
            self.remarks.error(&at, Words::new("import-same-revision", &parts));
            return None;
        }
        Some(())
    }

    /// Says which recipes were to be replaced and are not in the table.
    fn replaced(&mut self, made: &[Made]) {
        for id in self.source.replace {
            let is_made = made.iter().any(|one| one.id == *id);
            let has_faults = self.remarks.list.iter().any(|one| one.severity == Severity::Error);
            if !is_made && !has_faults {
                let words = Words::new("import-not-replaced", &[("id", id.into())]);
                self.remarks.error(&At::Recipe(id.clone()), words);
            }
        }
    }
}

/// What is said for all recipes; the option before the mapping.
fn stamped<'a>(mapping: &'a Mapping, stamp: &'a Stamp) -> [(Is, Option<&'a str>); 4] {
    let said = |stamp: &'a Option<String>, mapping: &'a Option<String>| {
        stamp.as_deref().or(mapping.as_deref())
    };
    [
        (Is::Revision, said(&stamp.revision, &mapping.revision)),
        (Is::Date, said(&stamp.date, &mapping.date)),
        (Is::Author, said(&stamp.author, &mapping.author)),
        (Is::Reason, said(&stamp.reason, &mapping.reason)),
    ]
}

impl Stamp {
    /// Whether it says this of all recipes, whatever a column says.
    fn says(&self, is: Is) -> bool {
        match is {
            Is::Revision => self.revision.is_some(),
            Is::Date => self.date.is_some(),
            Is::Author => self.author.is_some(),
            Is::Reason => self.reason.is_some(),
            _ => false,
        }
    }
}

/// A recipe that is being made: what it says, and the edits that make its text say so.
struct Draft {
    body: RecipeFile,
    edits: Vec<Edit>,
    values: Vec<(String, String)>,
}

impl Draft {
    fn put(&mut self, is: Is, of: &str, text: &str) {
        let body = &mut self.body;
        let (field, path): (Option<&mut String>, Vec<&str>) = match is {
            Is::Id => (Some(&mut body.id), vec!["id"]),
            Is::Name => (Some(&mut body.name), vec!["name"]),
            Is::Revision => (Some(&mut body.revision), vec!["revision"]),
            Is::Date => (Some(&mut body.date), vec!["date"]),
            Is::Author => (Some(&mut body.author), vec!["author"]),
            Is::Reason => (Some(&mut body.reason), vec!["reason"]),
            Is::Input => (body.inputs.get_mut(of), vec!["inputs", of]),
            Is::Setting => {
                let setting = body.settings.get_mut(of);
                (setting.map(|one| &mut one.formula), vec!["settings", of, "formula"])
            }
            Is::Tolerance => {
                let setting = body.settings.get_mut(of);
                let field = setting.and_then(|one| one.tolerance.as_mut());
                (field, vec!["settings", of, "tolerance"])
            }
            Is::Machine | Is::LeftOut => (None, Vec::new()),
        };
        let Some(field) = field else { return };
        text.clone_into(field);
        let edit = Edit::text(&path, text);
        // What a column says comes after what is said for all, and in its place.
        self.edits.retain(|one| one.path != edit.path);
        self.values.retain(|(path, _)| *path != edit.path.join("."));
        self.values.push((edit.path.join("."), text.to_owned()));
        self.edits.push(edit);
    }

    fn machines(&mut self, machines: Vec<String>) {
        let edit = Edit::list(&["machines"], &machines);
        self.edits.retain(|one| one.path != edit.path);
        self.values.retain(|(path, _)| path != "machines");
        self.values.push(("machines".to_owned(), machines.join(", ")));
        self.edits.push(edit);
        self.body.machines = machines;
    }
}

/// What an identifier could be like: small letters, digits and hyphens.
fn like_an_id(text: &str) -> String {
    let words = text.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let like = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    like.chars().take(64).collect()
}

/// The known name most like one that is not there.
pub(crate) fn nearest<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    let plain = |text: &str| -> String {
        text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).take(60).collect()
    };
    let wanted = plain(name);
    let most = wanted.chars().count().max(3) / 3;
    let near = known.map(|known| (strsim::osa_distance(&plain(known), &wanted), known));
    near.min().filter(|(distance, _)| *distance <= most).map(|(_, known)| known)
}

/// Words with the nearest known name behind them, where there is one.
pub(crate) fn with_near(
    key: &'static str,
    parts: &[(&'static str, crate::language::Part)],
    near: Option<&str>,
) -> Words {
    let near = match near {
        Some(near) => Words::new("import-near", &[("near", near.into())]),
        None => Words::foreign(""),
    };
    let parts: Vec<_> = parts.iter().cloned().chain([("near", near.into())]).collect();
    Words::new(key, &parts)
}
