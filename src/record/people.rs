//! Who works here, and what each may do on which day.
//!
//! Plain values: the file is read elsewhere. Must never guess: a person is found by the exact
//! identifier or not at all.

use std::collections::BTreeMap;

use chrono::NaiveDate;

/// A role held from a day on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Term {
    /// Identifier of the role.
    pub role: String,
    /// First day.
    pub from: NaiveDate,
    /// Last day; none while it lasts.
    pub until: Option<NaiveDate>,
}

impl Term {
    /// Whether the role is held on a day, first and last day included.
    pub fn covers(&self, day: NaiveDate) -> bool {
        self.from <= day && self.until.is_none_or(|until| day <= until)
    }
}

/// A person with a signing name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// The principal in the list of allowed signers.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Roles with their days.
    pub roles: Vec<Term>,
}

impl Person {
    /// Whether the person holds a role on a day.
    pub fn holds(&self, role: &str, day: NaiveDate) -> bool {
        self.roles.iter().any(|term| term.role == role && term.covers(day))
    }
}

/// Everybody, by identifier.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct People {
    by_id: BTreeMap<String, Person>,
}

impl People {
    /// The person with exactly this identifier.
    pub fn get(&self, id: &str) -> Option<&Person> {
        self.by_id.get(id)
    }

    /// Everybody, in the order of their identifiers.
    pub fn iter(&self) -> impl Iterator<Item = &Person> {
        self.by_id.values()
    }
}

impl FromIterator<Person> for People {
    /// Of two people with one identifier the first stays.
    fn from_iter<I: IntoIterator<Item = Person>>(people: I) -> Self {
        let mut by_id = BTreeMap::new();
        for person in people {
            by_id.entry(person.id.clone()).or_insert(person);
        }
        People { by_id }
    }
}

#[cfg(test)]
mod tests {
    use super::{People, Person, Term};

    #[track_caller]
    fn check(day: &str, role: &str, expected: bool) {
        let term = |role: &str, from: &str, until: Option<&str>| Term {
            role: role.to_owned(),
            from: from.parse().unwrap(),
            until: until.map(|day| day.parse().unwrap()),
        };
        let roles = vec![
            term("technician", "2025-01-01", Some("2025-12-31")),
            term("lead", "2026-01-01", None),
        ];
        let person = Person { id: "a@b".to_owned(), name: "A".to_owned(), roles };
        let people: People = [person].into_iter().collect();
        assert_eq!(people.get("a@b").unwrap().holds(role, day.parse().unwrap()), expected, "{day}");
    }

    #[test]
    fn first_and_last_day_count() {
        check("2024-12-31", "technician", false);
        check("2025-01-01", "technician", true);
        check("2025-12-31", "technician", true);
        check("2026-01-01", "technician", false);
        check("2126-01-01", "lead", true);
        check("2026-06-01", "quality", false);
    }
}
