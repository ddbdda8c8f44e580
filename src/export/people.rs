//! `people.json`: whose names, roles and lost keys an exported record is judged by.
//!
//! Holds who signed and nobody else: a copy for an outsider is no list of staff. Nobody signed it, and
//! it must never be taken for more than what the plant said on the day of the export.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::canonical;
use crate::record::people::{People, Person, Term};
use crate::record::time;
use crate::record::trust::{Revoked, TrustList};

/// Version of the form.
pub const VERSION: u32 = 1;

/// The file.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PeopleFile {
    /// People by their principal.
    pub people: BTreeMap<String, Named>,
    /// Keys that count no more.
    pub revoked: Vec<Lost>,
    /// [`VERSION`].
    pub v: u32,
}

/// A person.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Named {
    /// Name as printed.
    pub name: String,
    /// Roles with their days.
    pub roles: Vec<Held>,
}

/// A role and the days on which it is held, both included.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Held {
    /// First day, `YYYY-MM-DD`.
    pub from: String,
    /// The role.
    pub role: String,
    /// Last day; none while it lasts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<String>,
}

/// A key that counts no more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lost {
    /// First moment from which it does not count, RFC 3339.
    pub from: String,
    /// Its fingerprint, `SHA256:...`.
    pub key: String,
    /// Why.
    pub why: String,
}

impl PeopleFile {
    /// The people with these principals, and every key that counts no more.
    pub fn of(people: &People, signers: &BTreeSet<&str>, revoked: Vec<Lost>) -> PeopleFile {
        let own = signers.iter().filter_map(|id| people.get(id));
        let own = own.map(|person| (person.id.clone(), Named::of(person)));
        PeopleFile { people: own.collect(), revoked, v: VERSION }
    }

    /// Reads the file.
    ///
    /// # Errors
    /// What the reader of JSON says, when it is not this file in its one form.
    pub fn read(bytes: &[u8]) -> Result<PeopleFile, serde_json::Error> {
        use serde::de::Error;
        let file: PeopleFile = serde_json::from_slice(bytes)?;
        let is_ours = file.v == VERSION && canonical::line(&file)? == bytes;
        if is_ours { Ok(file) } else { Err(serde_json::Error::custom("not in canonical form")) }
    }

    /// The people, as records are judged by them.
    pub fn people(&self) -> People {
        self.people.iter().map(|(id, named)| named.person(id)).collect()
    }

    /// Takes the lost keys away. A time that cannot be read counts from the beginning of time.
    pub fn revoke(&self, trust: &mut TrustList) {
        for Lost { from, key, why } in &self.revoked {
            let from = time::parse(from).unwrap_or_default();
            trust.revoke(key, Revoked { from, why: why.clone() });
        }
    }
}

impl Named {
    fn of(person: &Person) -> Named {
        let held = |Term { role, from, until }: &Term| Held {
            from: from.to_string(),
            role: role.clone(),
            until: until.map(|day| day.to_string()),
        };
        Named { name: person.name.clone(), roles: person.roles.iter().map(held).collect() }
    }

    fn person(&self, id: &str) -> Person {
        let roles = self.roles.iter().filter_map(Held::term).collect();
        Person { id: id.to_owned(), name: self.name.clone(), roles }
    }
}

impl Held {
    /// None when a day cannot be read: such a role is held on no day.
    fn term(&self) -> Option<Term> {
        let until = match &self.until {
            Some(day) => Some(day.parse().ok()?),
            None => None,
        };
        Some(Term { role: self.role.clone(), from: self.from.parse().ok()?, until })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{Lost, PeopleFile};
    use crate::canonical;
    use crate::record::fixture::{self, SIGNERS};
    use crate::record::time;
    use crate::record::trust::TrustList;

    fn file() -> PeopleFile {
        let signers = BTreeSet::from(["a.doer@plant.example", "d.former@plant.example", "x@y"]);
        let key = TrustList::parse(SIGNERS.as_bytes()).0.keys()[0].fingerprint.clone();
        let from = "2026-11-02T10:00:00+01:00".to_owned();
        let lost = Lost { from, key, why: "lost in the yard".to_owned() };
        PeopleFile::of(&fixture::people(), &signers, vec![lost])
    }

    #[test]
    fn who_signed_is_named_and_nobody_else() {
        let people = file().people();
        let ids: Vec<&str> = people.iter().map(|person| person.id.as_str()).collect();
        assert_eq!(ids, ["a.doer@plant.example", "d.former@plant.example"]);
        for person in people.iter() {
            assert_eq!(Some(person), fixture::people().get(&person.id));
        }
    }

    #[test]
    fn what_is_written_is_read_and_nothing_else() {
        let bytes = canonical::line(&file()).unwrap();
        assert_eq!(PeopleFile::read(&bytes).unwrap(), file());
        let text = String::from_utf8(bytes).unwrap();
        for (old, new) in [("\"v\":1", "\"v\":2"), ("{", "{ "), ("\"why\"", "\"wherefore\"")] {
            assert!(PeopleFile::read(text.replacen(old, new, 1).as_bytes()).is_err(), "{new}");
        }
    }

    #[test]
    fn a_role_with_an_unreadable_day_is_held_on_none() {
        let mut file = file();
        for day in ["2025-1-1x", "", "yesterday"] {
            file.people.values_mut().for_each(|named| named.roles[0].from = day.to_owned());
            assert!(file.people().iter().all(|person| person.roles.is_empty()), "{day}");
        }
    }

    #[test]
    fn a_lost_key_counts_no_more() {
        let (mut trust, _) = TrustList::parse(SIGNERS.as_bytes());
        file().revoke(&mut trust);
        let key = trust.keys()[0].fingerprint.clone();
        let at = |text: &str| trust.revoked(&key, time::parse(text).unwrap()).is_some();
        assert!(!at("2026-11-02T09:59:59+01:00") && at("2026-11-02T09:00:00Z"));
    }
}
