//! Where on a page an edit shows: the first step that is not what it was.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::packet::Packets;
use crate::page::paths;
use crate::plant::load::Plant;
use crate::procedure::{Procedure, StepText};

/// Places on pages, by path of the page.
pub type Anchors = BTreeMap<String, String>;

/// What was shown last, to see what is new.
#[derive(Debug, Default)]
pub struct Seen {
    packets: Packets,
    procedures: BTreeMap<String, Procedure>,
}

impl Seen {
    /// Takes the place of what was seen before, and says where each page differs.
    pub fn replace(&mut self, plant: &Plant, packets: &Packets) -> Anchors {
        let now = Seen { packets: packets.clone(), procedures: plant.procedures.clone() };
        let anchors = now.differs_from(self);
        *self = now;
        anchors
    }

    fn differs_from(&self, old: &Seen) -> Anchors {
        let mut anchors = Anchors::new();
        for (job, new) in &self.packets {
            let Some(old) = old.packets.get(job).filter(|old| !Arc::ptr_eq(old, new)) else {
                continue;
            };
            let at = first_change(&old.steps, &new.steps, |one, other| one == other);
            // A step that is not needed this time is one line without a place of its own.
            if let Some(step) = at.and_then(|at| new.steps.get(at)).filter(|s| s.stays.is_none()) {
                for page in [paths::packet(job), paths::steps(job)] {
                    anchors.insert(page, format!("step-{}", step.number));
                }
            }
        }
        for (id, new) in &self.procedures {
            let Some(old) = old.procedures.get(id).filter(|old| old.sha256 != new.sha256) else {
                continue;
            };
            if let Some(at) = first_change(&old.steps, &new.steps, is_written_alike) {
                anchors.insert(paths::procedure(id), format!("step-{}", at + 1));
            }
        }
        anchors
    }
}

/// Whether two steps say the same, wherever they stand in their files.
fn is_written_alike(one: &StepText, other: &StepText) -> bool {
    one.title == other.title && one.text == other.text && one.facts == other.facts
}

/// The first of the new ones that is not what stood there before: the edited one, a new one, or the one
/// after those that are gone. None when nothing differs, or nothing is left.
pub fn first_change<T>(old: &[T], new: &[T], is_same: impl Fn(&T, &T) -> bool) -> Option<usize> {
    let same = old.iter().zip(new).take_while(|(old, new)| is_same(old, new)).count();
    let is_changed = same < old.len() || same < new.len();
    is_changed.then(|| new.len().checked_sub(1).map(|last| same.min(last))).flatten()
}

#[cfg(test)]
mod tests {
    use super::first_change;

    #[track_caller]
    fn check(old: &str, new: &str, expected: Option<usize>) {
        let [old, new] = [old, new].map(|text| text.chars().collect::<Vec<_>>());
        assert_eq!(first_change(&old, &new, |one, other| one == other), expected);
    }

    #[test]
    fn an_edit_belongs_to_the_first_step_that_differs() {
        check("abc", "abc", None);
        check("abc", "aXc", Some(1));
        check("abc", "abXc", Some(2));
        check("abc", "Xabc", Some(0));
        check("abc", "abcX", Some(3));
        check("abc", "ac", Some(1));
        check("abc", "ab", Some(1));
        check("", "a", Some(0));
        check("abc", "", None);
    }
}
