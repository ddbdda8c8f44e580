//! Which entry may come next in the register: asked before signing, asked again by the audit.
//!
//! Each rule is one function; its words and its way out stand under its name in `register.ftl`. Must
//! never stop at the first answer: whoever asks gets all reasons.

use chrono::NaiveDate;

use super::entry::{Entry, Kind, MOST_PEOPLE, VERSION};
use super::state::Register;
use super::subject::Subject;
use crate::language::{Part, Words};
use crate::record::entry::shown;
use crate::record::people::{People, Person};
use crate::record::rules::{Refusal, name_differs, person_unknown, role_not_held, time_backwards};
use crate::record::time;

/// Who may do what in this plant.
#[derive(Debug, Clone, Copy)]
pub struct House<'a> {
    /// Who works here.
    pub people: &'a People,
    /// The role that approves procedures; none when they need no approval.
    pub procedures: Option<&'a str>,
    /// The role that approves recipes; none when they need no approval.
    pub recipes: Option<&'a str>,
    /// The roles that may lock out, and so inspect it.
    pub authorised: &'a [String],
}

impl<'a> House<'a> {
    /// The role that approves a subject; none when it needs no approval.
    pub fn approver(&self, subject: &Subject) -> Option<&'a str> {
        match subject {
            Subject::Procedure(_) | Subject::Translation(..) => self.procedures,
            Subject::Recipe(_) => self.recipes,
        }
    }
}

/// Everything that speaks against an entry coming next.
pub fn check(register: &Register, house: &House, entry: &Entry) -> Vec<Refusal> {
    let mut found = Vec::new();
    if entry.v != VERSION {
        found.push(version(entry.v));
    }
    let at = time::parse(&entry.at).ok();
    if let Some((last, at)) = register.last().zip(at).filter(|(last, at)| at < last) {
        found.push(time_backwards(last, at));
    }
    let day = entry.day();
    found.extend(person(house, entry, day));
    let Some(subject) = entry.subject() else { return found };
    let ask = Ask { register, house, entry, subject: &subject, day };
    found.extend(match entry.kind {
        Kind::Approved => ask.approved(),
        Kind::Withdrawn => ask.withdrawn(),
        Kind::Inspected => ask.inspected(),
    });
    found
}

fn person(house: &House, entry: &Entry, day: Option<NaiveDate>) -> Vec<Refusal> {
    let Some(person) = house.people.get(&entry.by) else { return vec![person_unknown(&entry.by)] };
    let mut found = Vec::new();
    if person.name != entry.name {
        found.push(name_differs(&person.name, &entry.name));
    }
    if let Some(day) = day.filter(|day| !person.holds(&entry.role, *day)) {
        found.push(role_not_held(&person.name, &entry.role, day));
    }
    found
}

/// An entry with what its rules need.
struct Ask<'a> {
    register: &'a Register,
    house: &'a House<'a>,
    entry: &'a Entry,
    subject: &'a Subject,
    day: Option<NaiveDate>,
}

impl Ask<'_> {
    fn approved(&self) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.approver());
        found.extend(self.own_work());
        if let Some(held) = self.register.approval(self.subject, &self.entry.sha256) {
            found.push(approved_already(&self.entry.subject, held.entry.seq));
        }
        found
    }

    fn withdrawn(&self) -> Vec<Refusal> {
        let mut found = Vec::from_iter(self.approver());
        let Some(target) = self.entry.withdraws else { return found };
        let of =
            |entry: &Entry| (entry.subject.clone(), entry.revision.clone(), entry.sha256.clone());
        let held = self.register.get(target);
        let held = held.filter(|held| held.entry.kind == Kind::Approved);
        match held {
            None => found.push(no_approval(target)),
            Some(held) if held.withdrawn.is_some() => found.push(withdrawn_already(target)),
            Some(held) if of(&held.entry) != of(self.entry) => found.push(other_approval(target)),
            Some(_) => {}
        }
        found
    }

    /// The role is the one that the plant names for this kind of subject.
    fn approver(&self) -> Option<Refusal> {
        match self.house.approver(self.subject) {
            None => Some(nobody_approves(&self.entry.subject)),
            Some(role) if role != self.entry.role => Some(other_role(role, &self.entry.role)),
            Some(_) => None,
        }
    }

    /// Nobody approves what they wrote, where somebody else could.
    fn own_work(&self) -> Option<Refusal> {
        let person = self.house.people.get(&self.entry.by)?;
        let author = self.entry.author.as_deref()?.trim();
        if author != person.name && author != person.id {
            return None;
        }
        let day = self.day?;
        let may = |other: &&Person| other.id != person.id && other.holds(&self.entry.role, day);
        let other = self.house.people.iter().find(may)?;
        Some(own_work(&self.entry.subject, &other.name))
    }

    fn inspected(&self) -> Vec<Refusal> {
        let mut found = Vec::new();
        let Entry { role, by, people, date, .. } = self.entry;
        if !self.house.authorised.contains(role) {
            found.push(inspector_role(role, self.house.authorised));
        }
        if !matches!(self.subject, Subject::Procedure(_)) {
            found.push(inspects_procedures(&self.entry.subject));
        }
        if people.iter().any(|one| one.id == *by) {
            found.push(inspects_self());
        }
        if people.len() > MOST_PEOPLE
            || people.windows(2).any(|two| matches!(two, [a, b] if a >= b))
        {
            found.push(Refusal::coded("people-order", Words::of("register-people-order")));
        }
        for one in people {
            match self.house.people.get(&one.id) {
                None => found.push(person_unknown(&one.id)),
                Some(person) if person.name != one.name => {
                    found.push(name_differs(&person.name, &one.name));
                }
                Some(_) => {}
            }
        }
        found.extend(date.as_ref().and_then(|date| self.date(date)));
        found
    }

    /// A day that exists, written year first, and that has come.
    fn date(&self, date: &str) -> Option<Refusal> {
        let day: Option<NaiveDate> = date.parse().ok();
        match day.filter(|day| day.to_string() == date) {
            None => Some(refusal("register-bad-date", &[("date", shown(date).into())])),
            Some(day) if self.day.is_some_and(|signed| signed < day) => {
                Some(refusal("register-date-ahead", &[("date", date.into())]))
            }
            Some(_) => None,
        }
    }
}

/// A refusal whose text stands under `register-` and its code.
fn refusal(key: &'static str, parts: &[(&'static str, Part)]) -> Refusal {
    Refusal::coded(key.trim_start_matches("register-"), Words::new(key, parts))
}

fn version(v: u32) -> Refusal {
    refusal("register-version", &[("version", v.to_string().into())])
        .with(VERSION.to_string(), v.to_string())
}

fn nobody_approves(subject: &str) -> Refusal {
    refusal("register-nobody-approves", &[("subject", subject.into())])
}

fn other_role(role: &str, other: &str) -> Refusal {
    refusal("register-other-role", &[("role", role.into())]).with(role, shown(other))
}

fn own_work(subject: &str, other: &str) -> Refusal {
    refusal("register-own-work", &[("subject", subject.into()), ("name", other.into())])
}

fn approved_already(subject: &str, seq: u64) -> Refusal {
    let parts = [("subject", subject.into()), ("entry", seq.to_string().into())];
    refusal("register-approved-already", &parts)
}

fn no_approval(seq: u64) -> Refusal {
    refusal("register-no-approval", &[("entry", seq.to_string().into())])
}

fn withdrawn_already(seq: u64) -> Refusal {
    refusal("register-withdrawn-already", &[("entry", seq.to_string().into())])
}

fn other_approval(seq: u64) -> Refusal {
    refusal("register-other-approval", &[("entry", seq.to_string().into())])
}

fn inspector_role(role: &str, authorised: &[String]) -> Refusal {
    refusal("register-inspector-role", &[("roles", authorised.join(", ").into())])
        .with(authorised.join(", "), shown(role))
}

fn inspects_procedures(subject: &str) -> Refusal {
    refusal("register-inspects-procedures", &[("subject", shown(subject).into())])
}

fn inspects_self() -> Refusal {
    refusal("register-inspects-self", &[])
}

#[cfg(test)]
mod tests {
    use super::check;
    use crate::register::entry::{Entry, Kind};
    use crate::register::fixture;
    use crate::register::state::Register;

    /// Codes against an entry after these.
    #[track_caller]
    fn codes(past: &[Entry], entry: &Entry, expected: &[&str]) {
        let mut register = Register::default();
        for (entry, seq) in past.iter().zip(1..) {
            register.take(Entry { seq, ..entry.clone() }, String::new());
        }
        let people = fixture::people();
        let found = check(&register, &fixture::house(&people), entry);
        let found: Vec<_> = found.iter().map(|refusal| refusal.code).collect();
        assert_eq!(found, expected, "{entry:?}");
    }

    fn withdrawal(target: u64) -> Entry {
        Entry {
            author: None,
            kind: Kind::Withdrawn,
            note: Some("Step 4 names the wrong tool.".to_owned()),
            withdraws: Some(target),
            ..fixture::approval()
        }
    }

    #[test]
    fn good_entries_may_come() {
        codes(&[], &fixture::approval(), &[]);
        codes(&[], &fixture::inspection(), &[]);
        codes(&[fixture::approval()], &withdrawal(1), &[]);
        codes(&[fixture::approval(), withdrawal(1)], &fixture::approval(), &[]);
    }

    #[test]
    fn approvals_are_by_the_role_that_the_plant_names() {
        let role = |role: &str, by: &str, name: &str| Entry {
            role: role.to_owned(),
            by: by.to_owned(),
            name: name.to_owned(),
            ..fixture::approval()
        };
        let doer = ("a.doer@plant.example", "Ada Doer");
        codes(&[], &role("technician", doer.0, doer.1), &["other-role"]);
        codes(&[], &role("lead", doer.0, doer.1), &["role-not-held"]);
        codes(&[], &role("lead", "x@y", "X"), &["person-unknown"]);
        codes(&[], &role("lead", "b.checker@plant.example", "Bob"), &["name-differs"]);
        let recipe = Entry { subject: "recipe:knives".to_owned(), ..fixture::approval() };
        codes(&[], &recipe, &["other-role"]);
        let before = Entry { at: "2024-12-31T08:00:00+01:00".to_owned(), ..fixture::approval() };
        codes(&[], &before, &["role-not-held"]);
    }

    #[test]
    fn nobody_approves_their_own_work_where_somebody_else_could() {
        let own = |author: &str| Entry { author: Some(author.to_owned()), ..fixture::approval() };
        codes(&[], &own("Bo Checker"), &["own-work"]);
        codes(&[], &own("b.checker@plant.example"), &["own-work"]);
        // Recipes are approved by quality, and there is nobody else of it.
        let alone = Entry {
            subject: "recipe:small".to_owned(),
            by: "c.quality@plant.example".to_owned(),
            name: "Cy Quality".to_owned(),
            role: "quality".to_owned(),
            ..own("Cy Quality")
        };
        codes(&[], &alone, &[]);
    }

    #[test]
    fn an_approval_stands_once_and_is_withdrawn_once() {
        let approved = fixture::approval();
        codes(std::slice::from_ref(&approved), &approved, &["approved-already"]);
        codes(&[], &withdrawal(1), &["no-approval"]);
        codes(&[fixture::inspection()], &withdrawal(1), &["no-approval"]);
        codes(&[approved.clone(), withdrawal(1)], &withdrawal(1), &["withdrawn-already"]);
        let other = Entry { revision: "5".to_owned(), ..withdrawal(1) };
        codes(&[approved], &other, &["other-approval"]);
    }

    #[test]
    fn who_inspects_is_authorised_and_not_among_those_inspected() {
        let by = |by: &str, name: &str, role: &str| Entry {
            by: by.to_owned(),
            name: name.to_owned(),
            role: role.to_owned(),
            ..fixture::inspection()
        };
        codes(&[], &by("b.checker@plant.example", "Bo Checker", "lead"), &["inspector-role"]);
        codes(&[], &by("a.doer@plant.example", "Ada Doer", "technician"), &["inspects-self"]);
        let translation =
            Entry { subject: "procedure:lockout@es".to_owned(), ..fixture::inspection() };
        codes(&[], &translation, &["inspects-procedures"]);
        let mut twice = fixture::inspection();
        twice.people.extend(twice.people.clone());
        codes(&[], &twice, &["people-order"]);
        let mut unknown = fixture::inspection();
        unknown.people[0].id = "z@z".to_owned();
        codes(&[], &unknown, &["person-unknown"]);
        let mut other = fixture::inspection();
        other.people[0].name = "Ann".to_owned();
        codes(&[], &other, &["name-differs"]);
    }

    #[test]
    fn the_day_of_an_inspection_exists_and_has_come() {
        let on = |date: &str| Entry { date: Some(date.to_owned()), ..fixture::inspection() };
        codes(&[], &on("2026-11-02"), &[]);
        codes(&[], &on("2026-11-03"), &["date-ahead"]);
        codes(&[], &on("2026-02-30"), &["bad-date"]);
        codes(&[], &on("2026-1-3"), &["bad-date"]);
        codes(&[], &on("+2026-01-03"), &["bad-date"]);
    }

    #[test]
    fn time_does_not_run_backwards_and_the_version_is_known() {
        let earlier = Entry { at: "2026-11-01T08:00:00+01:00".to_owned(), ..fixture::approval() };
        codes(&[fixture::inspection()], &earlier, &["time-backwards"]);
        codes(&[], &Entry { v: 2, ..fixture::approval() }, &["version"]);
    }
}
