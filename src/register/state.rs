//! What the register says, folded from its entries: approvals that count, inspections and when the
//! next one is due.
//!
//! Only takes in; whether an entry may stand here was asked before ([`super::rules`]).

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset, Months, NaiveDate};

use super::entry::{Entry, Kind};
use super::subject::Subject;
use crate::record::time;

/// The entries that count, by number.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Register {
    held: BTreeMap<u64, Held>,
    /// Numbers of entries by their subject: a plant group has thousands of both.
    about: BTreeMap<String, Vec<u64>>,
    last: Option<DateTime<FixedOffset>>,
}

/// An entry that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held {
    /// The entry.
    pub entry: Entry,
    /// SHA-256 of its bytes.
    pub digest: String,
    /// Number of the entry that withdrew it.
    pub withdrawn: Option<u64>,
}

impl Register {
    /// Takes an entry in.
    pub fn take(&mut self, entry: Entry, digest: String) {
        self.last = time::parse(&entry.at).ok().or(self.last);
        if let Some(target) = entry.withdraws.and_then(|seq| self.held.get_mut(&seq)) {
            target.withdrawn = Some(entry.seq);
        }
        self.about.entry(entry.subject.clone()).or_default().push(entry.seq);
        self.held.insert(entry.seq, Held { entry, digest, withdrawn: None });
    }

    /// Every entry that counts, in order.
    pub fn all(&self) -> impl DoubleEndedIterator<Item = &Held> {
        self.held.values()
    }

    /// An entry by its number.
    pub fn get(&self, seq: u64) -> Option<&Held> {
        self.held.get(&seq)
    }

    /// Time of the last entry.
    pub fn last(&self) -> Option<DateTime<FixedOffset>> {
        self.last
    }

    /// Time of the first entry: from then on the plant keeps a register.
    pub fn first(&self) -> Option<DateTime<FixedOffset>> {
        self.held.values().find_map(|held| time::parse(&held.entry.at).ok())
    }

    /// The approval of exactly these bytes that counts today.
    pub fn approval(&self, subject: &Subject, sha256: &str) -> Option<&Held> {
        let is_it = |held: &&Held| held.entry.sha256 == sha256 && held.withdrawn.is_none();
        self.approvals(subject).rev().find(is_it)
    }

    /// The last approval of a subject, of whatever bytes and withdrawn or not.
    pub fn last_approval(&self, subject: &Subject) -> Option<&Held> {
        self.approvals(subject).next_back()
    }

    fn approvals(&self, subject: &Subject) -> impl DoubleEndedIterator<Item = &Held> {
        self.about(subject).filter(|held| held.entry.kind == Kind::Approved)
    }

    fn about(&self, subject: &Subject) -> impl DoubleEndedIterator<Item = &Held> {
        let numbers = self.about.get(&subject.to_string()).map(Vec::as_slice).unwrap_or_default();
        numbers.iter().filter_map(|seq| self.held.get(seq))
    }

    /// Whether an approval counted at a time: it stood there, and was not withdrawn yet. Times are whole
    /// seconds, so of what happened in one nobody can say that it came first: it counts.
    pub fn counted(&self, held: &Held, at: DateTime<FixedOffset>) -> bool {
        let own = |held: &Held| time::parse(&held.entry.at).ok();
        let withdrawal = held.withdrawn.and_then(|seq| self.get(seq)).and_then(own);
        own(held).is_some_and(|own| own <= at) && withdrawal.is_none_or(|end| at <= end)
    }

    /// The last inspection of a procedure on a machine, by its day.
    pub fn inspection(&self, procedure: &str, machine: &str) -> Option<&Held> {
        let subject = Subject::Procedure(procedure.to_owned());
        let own = self.about(&subject).filter(|held| {
            let Entry { kind, machine: on, .. } = &held.entry;
            *kind == Kind::Inspected && on.as_deref() == Some(machine)
        });
        // Days written year first sort as text; of two on one day the later entry counts.
        own.max_by_key(|held| &held.entry.date)
    }
}

/// The last day for the next inspection: one year after the last one (29 CFR 1910.147(c)(6)(i)).
pub fn due(inspection: &Entry) -> Option<NaiveDate> {
    let day: NaiveDate = inspection.date.as_ref()?.parse().ok()?;
    day.checked_add_months(Months::new(12))
}

#[cfg(test)]
mod tests {
    use super::{Register, due};
    use crate::record::time;
    use crate::register::entry::{Entry, Kind};
    use crate::register::fixture;
    use crate::register::subject::Subject;

    fn register(entries: &[Entry]) -> Register {
        let mut register = Register::default();
        for (entry, seq) in entries.iter().zip(1..) {
            register.take(Entry { seq, ..entry.clone() }, String::new());
        }
        register
    }

    fn knives() -> Subject {
        Subject::Procedure("knives".to_owned())
    }

    #[test]
    fn an_approval_is_of_exact_bytes_and_ends_when_it_is_withdrawn() {
        let approved = fixture::approval();
        let later = Entry { at: "2026-11-03T08:00:00+01:00".to_owned(), ..approved.clone() };
        let withdrawn = Entry { kind: Kind::Withdrawn, withdraws: Some(1), ..later };
        let one = register(std::slice::from_ref(&approved));
        assert!(one.approval(&knives(), &approved.sha256).is_some());
        assert!(one.approval(&knives(), &"0".repeat(64)).is_none());
        assert!(one.approval(&Subject::Recipe("knives".to_owned()), &approved.sha256).is_none());
        let two = register(&[approved.clone(), withdrawn]);
        assert!(two.approval(&knives(), &approved.sha256).is_none());
        assert!(two.last_approval(&knives()).is_some());
        let counted = |at: &str| two.counted(two.get(1).unwrap(), time::parse(at).unwrap());
        assert!(!counted("2026-11-02T07:59:59+01:00"));
        assert!(counted("2026-11-03T07:59:59+01:00"));
        assert!(counted("2026-11-03T08:00:00+01:00"), "in the same second");
        assert!(!counted("2026-11-03T08:00:01+01:00"));
    }

    #[test]
    fn the_last_inspection_is_the_one_of_the_latest_day() {
        let of = |date: &str, machine: &str| Entry {
            date: Some(date.to_owned()),
            machine: Some(machine.to_owned()),
            ..fixture::inspection()
        };
        let all = register(&[
            of("2026-03-02", "line-1"),
            of("2025-11-30", "line-1"),
            of("2026-10-01", "line-2"),
        ]);
        let last = all.inspection("lockout", "line-1").unwrap();
        assert_eq!(last.entry.date.as_deref(), Some("2026-03-02"));
        assert_eq!(due(&last.entry).unwrap().to_string(), "2027-03-02");
        assert!(all.inspection("lockout", "line-3").is_none());
    }

    #[test]
    fn a_leap_day_is_due_on_the_last_of_february() {
        let entry = Entry { date: Some("2028-02-29".to_owned()), ..fixture::inspection() };
        assert_eq!(due(&entry).unwrap().to_string(), "2029-02-28");
    }
}
