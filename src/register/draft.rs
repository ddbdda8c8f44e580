//! The next entry of the register, and its seal.
//!
//! Values in, values out: the time, the person and what is approved are given. Rules are asked by
//! [`super::rules`]; nothing here decides whether an entry may stand.

use chrono::{DateTime, FixedOffset, NaiveDate};

use super::entry::{Entry, Included, Kind, VERSION};
use super::rules::House;
use super::state::Held;
use super::subject::Subject;
use crate::canonical;
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::RecipeFile;
use crate::procedure::Procedure;
use crate::record::SigningKey;
use crate::record::signature::SignatureFault;
use crate::record::time;

/// A text of the plant that can be approved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// What it is.
    pub subject: Subject,
    /// Its file: a path inside the plant, or `shipped/...`.
    pub file: String,
    /// Its revision; of a translation the revision of the source that was translated.
    pub revision: String,
    /// SHA-256 of the file's bytes.
    pub sha256: String,
    /// Who wrote it, as its file says.
    pub author: String,
    /// Whether its file says that it is still being written.
    pub draft: bool,
}

/// The texts of a procedure as it is used: its own, and those of the translation.
pub fn items_of(procedure: &Procedure) -> Vec<Item> {
    let front = &procedure.front;
    let source = Item {
        subject: Subject::Procedure(front.id.clone()),
        file: procedure.file.to_string(),
        revision: front.revision.trim().to_owned(),
        sha256: procedure.sha256.clone(),
        author: front.author.trim().to_owned(),
        draft: front.draft,
    };
    let translated = procedure.translated.as_ref().map(|own| Item {
        subject: Subject::Translation(front.id.clone(), procedure.language),
        file: own.file.to_string(),
        revision: own.from.clone(),
        sha256: own.sha256.clone(),
        author: own.by.clone(),
        draft: false,
    });
    [source].into_iter().chain(translated).collect()
}

/// A recipe as it is used.
pub fn item_of(recipe: &Loaded<RecipeFile>) -> Item {
    let body = &recipe.body;
    Item {
        subject: Subject::Recipe(body.id.clone()),
        file: recipe.place.file.to_string(),
        revision: body.revision.trim().to_owned(),
        sha256: recipe.sha256.clone(),
        author: body.author.trim().to_owned(),
        draft: body.draft,
    }
}

/// Every text of a plant that can be approved: its recipes, its procedures and those that ship, and
/// the translations in languages that its jobs use.
pub fn items(plant: &Plant) -> Vec<Item> {
    let plants = || [plant].into_iter().chain(plant.editions.values());
    let recipes = plant.recipes.values().map(item_of);
    let procedures = plants().flat_map(|own| own.procedures.values()).flat_map(items_of);
    let mut items: Vec<Item> = recipes.chain(procedures).collect();
    items.sort_by(|one, two| one.subject.cmp(&two.subject));
    items.dedup_by(|one, two| one.subject == two.subject);
    items
}

/// What is at hand when somebody signs.
#[derive(Debug, Clone, Copy)]
pub struct Desk<'a> {
    /// Who may do what.
    pub house: &'a House<'a>,
    /// Who signs.
    pub by: &'a str,
    /// When; what is below the second is cut off.
    pub at: DateTime<FixedOffset>,
    /// Number of the next entry.
    pub seq: u64,
    /// Digest of the entry before it.
    pub prev: &'a str,
}

/// What an inspection says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Inspection {
    /// The machine.
    pub machine: String,
    /// The day; that of the signature when left out.
    pub date: Option<String>,
    /// Identifiers of the people whom it included.
    pub people: Vec<String>,
    /// What it found.
    pub found: String,
    /// What was corrected.
    pub corrected: Option<String>,
}

impl Desk<'_> {
    /// The approval of a text.
    pub fn approval(&self, item: &Item, note: Option<&str>) -> Entry {
        let role = self.house.approver(&item.subject).unwrap_or("none").to_owned();
        let author = Some(item.author.clone());
        let note = note.map(str::to_owned);
        Entry { author, note, role, ..self.entry(Kind::Approved, item) }
    }

    /// An approval that does not count any more, and why.
    pub fn withdrawal(&self, held: &Held, why: &str) -> Entry {
        let old = &held.entry;
        let subject = old.subject();
        let role = subject.and_then(|subject| self.house.approver(&subject)).unwrap_or("none");
        Entry {
            kind: Kind::Withdrawn,
            meaning: Kind::Withdrawn.meaning().to_owned(),
            subject: old.subject.clone(),
            revision: old.revision.clone(),
            sha256: old.sha256.clone(),
            role: role.to_owned(),
            note: Some(why.to_owned()),
            withdraws: Some(old.seq),
            ..self.blank()
        }
    }

    /// The inspection of a procedure.
    pub fn inspection(&self, item: &Item, inspection: Inspection) -> Entry {
        let Inspection { machine, date, people, found, corrected } = inspection;
        let name = |id: &String| {
            self.house.people.get(id).map_or_else(|| id.clone(), |person| person.name.clone())
        };
        let mut people: Vec<Included> =
            people.iter().map(|id| Included { id: id.clone(), name: name(id) }).collect();
        people.sort();
        people.dedup();
        Entry {
            machine: Some(machine),
            date: Some(date.unwrap_or_else(|| self.day().to_string())),
            people,
            found: Some(found),
            corrected,
            role: self.inspector(),
            ..self.entry(Kind::Inspected, item)
        }
    }

    /// The first role that may lock out and that the person holds, else the first, to be refused.
    fn inspector(&self) -> String {
        let person = self.house.people.get(self.by);
        let holds = |role: &&String| person.is_some_and(|own| own.holds(role, self.day()));
        let roles = self.house.authorised;
        let role = roles.iter().find(holds).or(roles.first());
        role.map_or_else(|| "none".to_owned(), String::clone)
    }

    fn day(&self) -> NaiveDate {
        self.at.date_naive()
    }

    fn entry(&self, kind: Kind, item: &Item) -> Entry {
        Entry {
            kind,
            meaning: kind.meaning().to_owned(),
            revision: item.revision.clone(),
            sha256: item.sha256.clone(),
            subject: item.subject.to_string(),
            ..self.blank()
        }
    }

    fn blank(&self) -> Entry {
        let name = self.house.people.get(self.by).map_or(self.by, |person| &person.name);
        Entry {
            at: time::write(self.at),
            by: self.by.to_owned(),
            name: name.to_owned(),
            prev: self.prev.to_owned(),
            seq: self.seq,
            v: VERSION,
            ..Entry::default()
        }
    }
}

/// An entry with the bytes that go into the register.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sealed {
    /// The entry.
    pub entry: Entry,
    /// Its bytes.
    pub json: Vec<u8>,
    /// Its signature file.
    pub signature: Vec<u8>,
}

/// Signs an entry.
///
/// # Errors
/// [`SignatureFault`] when the domain is empty.
pub fn seal(entry: Entry, key: &SigningKey, domain: &str) -> Result<Sealed, SignatureFault> {
    let json = canonical::line(&entry).map_err(|e| SignatureFault::Armour(e.to_string()))?;
    let signature = key.sign(&super::namespace(domain), &json)?.into_bytes();
    Ok(Sealed { entry, json, signature })
}
