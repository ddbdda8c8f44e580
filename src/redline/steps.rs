//! The steps of a procedure: which is which, and what differs in each.

use std::collections::{BTreeMap, BTreeSet};

use super::align::{Item, Pair, align};
use super::fields;
use super::prose::{self, Block};
use super::tree::Tree;
use super::weigh;
use super::{Change, What};
use crate::plant::shape::StepEntry;
use crate::procedure::StepText;

/// A step as it is compared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Step {
    pub(super) title: String,
    slug: String,
    text: String,
    block: Tree,
    pub(super) facts: StepEntry,
}

impl Step {
    pub(super) fn of(step: &StepText, file: &str) -> Step {
        Step {
            title: step.title.clone(),
            slug: step.slug.clone(),
            text: step.text.clone(),
            block: Tree::of(file.get(step.block.clone()).unwrap_or_default()),
            facts: step.facts.clone(),
        }
    }

    fn item(&self) -> Item {
        let words = prose::words(&format!("{} {} {}", self.title, self.text, self.block.line()));
        Item { name: self.slug.clone(), words }
    }
}

/// What differs, in the order of the new steps; a step that is gone stands where it stood.
pub(super) fn compare(before: &[Step], after: &[Step]) -> Vec<Change> {
    let items = |steps: &[Step]| steps.iter().map(Step::item).collect::<Vec<_>>();
    let pairs = align(&items(before), &items(after));
    let kept: BTreeSet<usize> = pairs.iter().map(|pair| pair.before).collect();
    let pairs: BTreeMap<usize, Pair> = pairs.into_iter().map(|pair| (pair.after, pair)).collect();
    let mut gone = (0..before.len()).filter(|at| !kept.contains(at)).peekable();
    let mut changes = Vec::new();
    for (at, new) in after.iter().enumerate() {
        let Some(pair) = pairs.get(&at) else {
            changes.extend(whole(new, What::Added));
            continue;
        };
        if !pair.moved {
            while let Some(old) = gone.next_if(|old| *old < pair.before) {
                changes
                    .extend(before.get(old).into_iter().flat_map(|own| whole(own, What::Removed)));
            }
        }
        if let Some(old) = before.get(pair.before) {
            changes.extend(within(old, new, pair.moved));
        }
    }
    for old in gone {
        changes.extend(before.get(old).into_iter().flat_map(|own| whole(own, What::Removed)));
    }
    changes
}

/// A step that is new or gone, with all it says.
fn whole(step: &Step, what: What) -> Vec<Change> {
    let nothing = Tree::Map(Vec::new());
    let (words, fields) = match what {
        What::Added => {
            (prose::markdown("", &step.text), fields::compare(&nothing, &step.block, &[]))
        }
        _ => (prose::markdown(&step.text, ""), fields::compare(&step.block, &nothing, &[])),
    };
    let weighs = weigh::whole_step(&step.facts, what);
    let own = Change { weighs, words, ..Change::of(what, &step.title) };
    let fields = fields.into_iter().map(|field| Change::field(&step.title, field, None));
    std::iter::once(own).chain(fields).collect()
}

/// What differs between a step and what it was.
fn within(old: &Step, new: &Step, moved: bool) -> Vec<Change> {
    let mut changes = Vec::new();
    let own = |what| Change::of(what, &new.title);
    if moved {
        changes.push(Change { weighs: weigh::moved(&old.facts, &new.facts), ..own(What::Moved) });
    }
    if old.title != new.title {
        let (before, after) = (old.title.clone(), new.title.clone());
        changes.push(Change { before, after, ..own(What::Renamed) });
    }
    let words = prose::markdown(&old.text, &new.text);
    if words.iter().any(Block::is_changed) {
        let weighs = weigh::reworded(&old.facts, &new.facts);
        changes.push(Change { weighs, words, ..own(What::Reworded) });
    }
    for field in fields::compare(&old.block, &new.block, &[]) {
        let weighs = weigh::step_field(&old.facts, &new.facts, &field);
        changes.push(Change::field(&new.title, field, weighs));
    }
    changes
}
