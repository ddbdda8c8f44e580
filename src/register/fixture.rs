//! A good approval and a good inspection for the tests of the register.

use super::entry::{Entry, Included, Kind, VERSION};
use super::rules::House;
use crate::record::entry::NO_PREVIOUS;
use crate::record::fixture;
use crate::record::people::People;

/// Two people who may approve procedures, one who may approve recipes, two who may lock out.
pub(crate) fn people() -> People {
    fixture::people()
}

static AUTHORISED: std::sync::LazyLock<Vec<String>> =
    std::sync::LazyLock::new(|| vec!["technician".to_owned()]);

pub(crate) fn house(people: &People) -> House<'_> {
    let (procedures, recipes) = (Some("lead"), Some("quality"));
    House { people, procedures, recipes, authorised: &AUTHORISED }
}

pub(crate) fn approval() -> Entry {
    Entry {
        at: "2026-11-02T08:00:00+01:00".to_owned(),
        author: Some("Writer One".to_owned()),
        by: "b.checker@plant.example".to_owned(),
        kind: Kind::Approved,
        meaning: Kind::Approved.meaning().to_owned(),
        name: "Bo Checker".to_owned(),
        prev: NO_PREVIOUS.to_owned(),
        revision: "3".to_owned(),
        role: "lead".to_owned(),
        seq: 1,
        sha256: "ab".repeat(32),
        subject: "procedure:knives".to_owned(),
        v: VERSION,
        ..Entry::default()
    }
}

pub(crate) fn inspection() -> Entry {
    let ada = Included { id: "a.doer@plant.example".to_owned(), name: "Ada Doer".to_owned() };
    Entry {
        author: None,
        by: "e.both@plant.example".to_owned(),
        date: Some("2026-10-30".to_owned()),
        found: Some("Two locks at hand.".to_owned()),
        kind: Kind::Inspected,
        machine: Some("line-1".to_owned()),
        meaning: Kind::Inspected.meaning().to_owned(),
        name: "Ed Both".to_owned(),
        people: vec![ada],
        revision: "4".to_owned(),
        role: "technician".to_owned(),
        subject: "procedure:lockout".to_owned(),
        ..approval()
    }
}
