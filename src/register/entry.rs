//! One signed statement of the register, and the only bytes it may have.
//!
//! The bytes follow the rules of a record's entry: one line of RFC 8785 canonical JSON, at most 65,535
//! bytes. Must never repair: no normalisation, no trimming, no default for a field.

use serde::{Deserialize, Serialize};

use super::subject::Subject;
use crate::language::Words;
use crate::record::entry::{EntryFault, is_digest, is_identifier, is_plain, line};
use crate::record::time;

/// Version of the format.
pub const VERSION: u32 = 1;
/// Most people that one inspection names.
pub const MOST_PEOPLE: usize = 200;

/// A signed statement about a procedure or a recipe.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// When it was signed, RFC 3339 with offset, whole seconds.
    pub at: String,
    /// Who wrote what is approved, as its file says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub author: Option<String>,
    /// Who signs: the principal in the list of allowed signers.
    pub by: String,
    /// What was corrected after an inspection.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corrected: Option<String>,
    /// Day of the inspection, `YYYY-MM-DD`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
    /// What the inspection found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found: Option<String>,
    /// What is stated.
    pub kind: Kind,
    /// The machine whose lockout was inspected.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machine: Option<String>,
    /// The statement in words: [`Kind::meaning`].
    pub meaning: String,
    /// Printed name of the signer.
    pub name: String,
    /// A remark; the reason when an approval is withdrawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The people whom the inspection included.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<Included>,
    /// SHA-256 over the entry before this one and its signature; 64 zeros in the first.
    pub prev: String,
    /// Revision of the subject, in the writer's words.
    pub revision: String,
    /// The role signed in.
    pub role: String,
    /// Number in the register, from 1.
    pub seq: u64,
    /// SHA-256 of the bytes of the subject's file, lower-case hex.
    pub sha256: String,
    /// What it is about: [`Subject`].
    pub subject: String,
    /// Version of this format, [`VERSION`].
    pub v: u32,
    /// Number of the approval that is withdrawn.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub withdraws: Option<u64>,
}

/// Somebody whom an inspection included.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Included {
    /// Identifier.
    pub id: String,
    /// Name as printed.
    pub name: String,
}

/// What an entry states.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Work may be done by these bytes.
    #[default]
    Approved,
    /// An approval does not count from now on.
    Withdrawn,
    /// The lockout was looked at on a machine, 29 CFR 1910.147(c)(6).
    Inspected,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 3] = [Kind::Approved, Kind::Withdrawn, Kind::Inspected];

    /// The statement the signer makes; it stands in the signed entry (21 CFR 11.50(a)(3)).
    pub fn meaning(self) -> &'static str {
        match self {
            Kind::Approved => "I read this revision. Work may be done by it.",
            Kind::Withdrawn => "No new work is to begin by this revision, for the reason given.",
            Kind::Inspected => {
                "I watched these people use this procedure on this machine and went through their \
                 duties with each. I am not the one who uses it."
            }
        }
    }

    /// The kind for people.
    pub fn words(self) -> Words {
        Words::of(match self {
            Kind::Approved => "register-approved",
            Kind::Withdrawn => "register-withdrawn",
            Kind::Inspected => "register-inspected",
        })
    }
}

/// Reads an entry: what could be made out of it, and everything that is wrong with it.
///
/// The version is not judged here: who reads it says which versions there are.
pub fn read(bytes: &[u8]) -> (Option<Entry>, Vec<EntryFault>) {
    let (entry, mut found) = line::<Entry>(bytes);
    found.extend(entry.iter().flat_map(faults));
    (entry, found)
}

impl Entry {
    /// What it is about; none when that is written wrongly.
    pub fn subject(&self) -> Option<Subject> {
        Subject::parse(&self.subject)
    }

    /// The day it was signed, in the signer's own offset.
    pub fn day(&self) -> Option<chrono::NaiveDate> {
        Some(time::parse(&self.at).ok()?.date_naive())
    }
}

/// Faults of the fields, whatever bytes they came in.
pub fn faults(entry: &Entry) -> Vec<EntryFault> {
    let mut found = Vec::new();
    if let Err(bad) = time::parse(&entry.at) {
        found.push(EntryFault::Time(bad, entry.at.clone()));
    }
    for (field, number) in [("seq", Some(entry.seq)), ("withdraws", entry.withdraws)] {
        if let Some(number) = number.filter(|n| !(1..=999_999).contains(n)) {
            found.push(EntryFault::NumberRange(field, number));
        }
    }
    let ids = entry.people.iter().map(|one| ("people", &one.id));
    let machine = entry.machine.iter().map(|id| ("machine", id));
    for (field, text) in [("by", &entry.by)].into_iter().chain(machine).chain(ids) {
        if !is_identifier(text) {
            found.push(EntryFault::Identifier(field, text.clone()));
        }
    }
    if entry.subject().is_none() {
        found.push(EntryFault::Identifier("subject", entry.subject.clone()));
    }
    for (field, text) in [("sha256", &entry.sha256), ("prev", &entry.prev)] {
        if !is_digest(text) {
            found.push(EntryFault::Digest(field, text.clone()));
        }
    }
    for (field, text) in texts(entry).filter(|(_, text)| text.trim().is_empty() || !is_plain(text))
    {
        found.push(EntryFault::Text(field, text.clone()));
    }
    if entry.meaning != entry.kind.meaning() {
        found.push(EntryFault::Meaning(entry.meaning.clone()));
    }
    found.extend(kind_faults(entry));
    found
}

/// The texts that somebody wrote: none is empty.
fn texts(entry: &Entry) -> impl Iterator<Item = (&'static str, &String)> {
    let always = [("name", &entry.name), ("revision", &entry.revision), ("role", &entry.role)];
    let sometimes = [
        ("author", &entry.author),
        ("corrected", &entry.corrected),
        ("found", &entry.found),
        ("note", &entry.note),
    ];
    let sometimes = sometimes.into_iter().filter_map(|(field, text)| Some((field, text.as_ref()?)));
    let names = entry.people.iter().map(|one| ("people", &one.name));
    always.into_iter().chain(sometimes).chain(names)
}

/// Fields that belong to a kind, and only to it.
fn kind_faults(entry: &Entry) -> Vec<EntryFault> {
    let is = |kind: Kind| entry.kind == kind;
    let inspected = is(Kind::Inspected);
    let fields = [
        ("author", entry.author.is_some(), is(Kind::Approved), is(Kind::Approved)),
        ("withdraws", entry.withdraws.is_some(), is(Kind::Withdrawn), is(Kind::Withdrawn)),
        ("note", entry.note.is_some(), true, is(Kind::Withdrawn)),
        ("machine", entry.machine.is_some(), inspected, inspected),
        ("date", entry.date.is_some(), inspected, inspected),
        ("found", entry.found.is_some(), inspected, inspected),
        ("people", !entry.people.is_empty(), inspected, inspected),
        ("corrected", entry.corrected.is_some(), inspected, false),
    ];
    let wrong = fields.into_iter().filter_map(|(field, is_there, may, must)| {
        let needless = (is_there && !may).then_some(EntryFault::NotFor(field));
        needless.or((!is_there && must).then_some(EntryFault::Needs(field)))
    });
    wrong.collect()
}

#[cfg(test)]
mod tests {
    use super::{Entry, Included, Kind, read};
    use crate::canonical;
    use crate::record::entry::EntryFault;
    use crate::register::fixture;

    /// Replaces one piece of a good inspection and wants the fault.
    #[track_caller]
    fn check(piece: &str, other: &str, code: &str) {
        let good = String::from_utf8(canonical::line(&fixture::inspection()).unwrap()).unwrap();
        assert!(good.contains(piece), "{piece} is not in {good}");
        let (_, faults) = read(good.replacen(piece, other, 1).as_bytes());
        let codes: Vec<_> = faults.iter().map(EntryFault::code).collect();
        assert_eq!(codes, [code], "{other}");
    }

    #[test]
    fn good_entries_read_back_byte_for_byte() {
        for entry in [fixture::approval(), fixture::inspection()] {
            let bytes = canonical::line(&entry).unwrap();
            assert_eq!(read(&bytes), (Some(entry), Vec::new()));
        }
    }

    /// The format as it is written down has our sentences and our bytes.
    #[test]
    fn the_format_names_every_sentence_and_shows_a_good_entry() {
        let format = include_str!("FORMAT.md");
        for kind in Kind::ALL {
            assert!(format.contains(kind.meaning()), "{kind:?}");
        }
        let line = canonical::line(&fixture::approval()).unwrap();
        assert!(format.contains(std::str::from_utf8(&line).unwrap()));
    }

    /// The ordinary writer is asked first when bytes are compared: it has to print the same.
    #[test]
    fn fields_are_declared_in_canonical_order() {
        let some = || Some("ü \"x\"".to_owned());
        let people = vec![Included { id: "a".to_owned(), name: "A".to_owned() }];
        let entry = Entry {
            author: some(),
            corrected: some(),
            date: some(),
            found: some(),
            machine: some(),
            note: some(),
            people,
            withdraws: Some(3),
            ..Entry::default()
        };
        let mut plain = serde_json::to_vec(&entry).unwrap();
        plain.push(b'\n');
        assert_eq!(plain, canonical::line(&entry).unwrap());
    }

    #[test]
    fn each_fault_has_its_name() {
        check("{\"at\"", "{ \"at\"", "not-canonical");
        check("+01:00", "", "time-form");
        check("\"procedure:lockout\"", "\"lockout\"", "identifier-form");
        check("\"line-1\"", "\"line 1\"", "identifier-form");
        check("\"found\":\"", "\"found\":\"\u{202e}", "text-form");
        check("\"revision\":\"4\"", "\"revision\":\" \"", "text-form");
        check("\"sha256\":\"", "\"sha256\":\"A", "digest-form");
        check("\"seq\":1,", "\"seq\":0,", "number-range");
        check("I watched", "I saw", "meaning-differs");
        check("\"found\":\"Two locks at hand.\",", "", "missing-field");
        check("\"kind\":\"inspected\"", "\"kind\":\"seen\"", "wrong-type");
        check("\"v\":1", "\"v\":1,\"withdraws\":2", "needless-field");
        check("\"v\":1", "\"v\":1,\"x\":2", "unknown-field");
        check("\"v\":1", "\"v\":1,\"v\":1", "duplicate-key");
    }

    #[test]
    fn every_kind_states_its_own_sentence() {
        for kind in Kind::ALL {
            assert_eq!(Kind::ALL.iter().filter(|own| own.meaning() == kind.meaning()).count(), 1);
        }
    }
}
