//! Revisions: which one a text is, and what a changed text must not leave as it was.

use std::cmp::Ordering;

use chrono::NaiveDate;
use serde::Serialize;

use super::tree::Tree;
use super::{Changed, Side, Subject, What};
use crate::finding::{Findings, Place};

/// Which revision a text is, when, by whom and why. Of a translation the revision is the one it
/// translates.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(missing_docs, reason = "the keys of the file")]
pub struct Issue {
    pub revision: String,
    pub date: String,
    pub author: String,
    pub reason: String,
}

impl Issue {
    /// What the head of a text says; none when it names no revision.
    pub(super) fn of(facts: &Tree) -> Option<Issue> {
        let said = |keys: [&str; 2]| {
            let found = keys.into_iter().find_map(|key| facts.get(key));
            found.map(|tree| tree.line().trim().to_owned())
        };
        Some(Issue {
            revision: said(["revision", "translates"])?,
            date: said(["date", "date"]).unwrap_or_default(),
            author: said(["author", "translator"]).unwrap_or_default(),
            reason: said(["reason", "reason"]).unwrap_or_default(),
        })
    }
}

/// Judges the revision of a changed text.
pub(super) fn judge(findings: &mut Findings, changed: &Changed, after: &Side) {
    let (Some(old), Some(new)) = (&changed.before, &changed.after) else { return };
    let Some(at) = head(&changed.subject, after) else { return };
    if let Subject::Translation(..) = changed.subject {
        date(findings, &at, changed, [old, new]);
        return;
    }
    let name = changed.subject.to_string();
    match order(&old.revision, &new.revision) {
        Some(Ordering::Greater) => {
            let (at, now) = (at.at("revision"), &new.revision);
            findings.revision_goes_back(&at, &name, &old.revision, now);
        }
        Some(Ordering::Equal) if is_other_text(changed) => {
            findings.revision_unchanged(&at.at("revision"), &name, &new.revision);
        }
        Some(Ordering::Equal) => {}
        _ if old.reason == new.reason && !new.reason.is_empty() => {
            findings.reason_unchanged(&at.at("reason"), &name, &old.revision);
        }
        _ => {}
    }
    date(findings, &at, changed, [old, new]);
}

fn date(findings: &mut Findings, at: &Place, changed: &Changed, [old, new]: [&Issue; 2]) {
    let day = |text: &str| text.parse::<NaiveDate>().ok();
    if let (Some(before), Some(now)) = (day(&old.date), day(&new.date))
        && now < before
    {
        let (name, at) = (changed.subject.to_string(), at.at("date"));
        findings.revision_date_goes_back(&at, &name, &old.date, &new.date);
    }
}

/// Whether it says anything else: comments and blanks say nothing, nor does the head alone.
fn is_other_text(changed: &Changed) -> bool {
    changed.what == What::Changed && !changed.changes.is_empty()
}

/// Where the head of a text is written.
fn head(subject: &Subject, after: &Side) -> Option<Place> {
    let plants = || [after.plant].into_iter().chain(after.plant.editions.values());
    match subject {
        Subject::Recipe(id) => Some(after.plant.recipes.get(id)?.place.clone()),
        Subject::Procedure(id) => {
            let own = after.plant.procedures.get(id)?;
            Some(Place::block(&own.file, own.front_range.clone()))
        }
        Subject::Translation(id, language) => {
            let own = plants().filter_map(|plant| plant.procedures.get(id));
            let mut own = own.filter(|own| own.language == *language);
            let at = own.find_map(|own| own.translated.as_ref())?.at.clone();
            Some(up(&at))
        }
        _ => None,
    }
}

/// The mapping in which a field stands.
fn up(at: &Place) -> Place {
    let crate::finding::Spot::Field { block: Some(block), .. } = &at.spot else {
        return at.clone();
    };
    Place::block(&at.file, block.clone())
}

/// Which of two revisions comes first; none when they are not counted in one way.
fn order(before: &str, after: &str) -> Option<Ordering> {
    if before == after {
        return Some(Ordering::Equal);
    }
    match (numbers(before), numbers(after)) {
        (Some(before), Some(after)) => Some(before.cmp(&after)),
        (None, None) => letter(before).zip(letter(after)).map(|(before, after)| before.cmp(&after)),
        _ => None,
    }
}

fn numbers(revision: &str) -> Option<Vec<u64>> {
    revision.split('.').map(|number| number.parse().ok()).collect()
}

fn letter(revision: &str) -> Option<char> {
    let mut letters = revision.chars();
    let first = letters.next().filter(char::is_ascii_alphabetic)?;
    letters.next().is_none().then_some(first.to_ascii_uppercase())
}

#[cfg(test)]
mod tests {
    use std::cmp::Ordering::{self, Equal, Greater, Less};

    use super::order;

    #[track_caller]
    fn check(before: &str, after: &str, expected: Option<Ordering>) {
        assert_eq!(order(before, after), expected, "{before} {after}");
        assert_eq!(order(after, before), expected.map(Ordering::reverse), "{after} {before}");
    }

    #[test]
    fn revisions_are_counted_as_people_count_them() {
        check("9", "10", Some(Less));
        check("1.2", "1.10", Some(Less));
        check("2", "1.9", Some(Greater));
        check("B", "c", Some(Less));
        check("B", "B", Some(Equal));
        check("3", "A", None);
        check("rev one", "rev two", None);
    }
}
