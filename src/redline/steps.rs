//! The steps of a procedure: which is which, and what differs in each.

use std::collections::{BTreeMap, BTreeSet};

use super::align::{Item, Pair, align};
use super::fields;
use super::prose::{self, Block};
use super::tree::Tree;
use super::weigh;
use super::{Change, Weight, What};
use crate::plant::shape::StepEntry;
use crate::procedure::text::Include;
use crate::procedure::{Procedure, StepText};

/// A step as it is compared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Step {
    pub(super) title: String,
    slug: String,
    text: String,
    block: Tree,
    /// Its facts; none where another procedure is included.
    facts: Option<StepEntry>,
}

/// The steps of a procedure and the procedures it includes, in the order of the text.
pub(super) fn all(procedure: &Procedure, file: &str) -> Vec<Step> {
    let mut includes = procedure.includes.iter().peekable();
    let mut seen = BTreeMap::new();
    let mut include = |own: &Include| {
        let count = seen.entry(own.used.procedure.clone()).or_insert(0_usize);
        *count += 1;
        Step::included(own, *count, file)
    };
    let mut steps = Vec::new();
    for (at, step) in procedure.steps.iter().enumerate() {
        while let Some(own) = includes.next_if(|own| own.before <= at) {
            steps.push(include(own));
        }
        steps.push(Step::of(step, file));
    }
    steps.extend(includes.map(include));
    steps
}

impl Step {
    /// Another procedure that stands among the steps: which use of it is `count`.
    fn included(include: &Include, count: usize, file: &str) -> Step {
        let id = &include.used.procedure;
        Step {
            title: format!("procedure:{id}"),
            slug: format!("procedure:{id} {count}"),
            text: String::new(),
            block: Tree::of(file.get(include.block.clone()).unwrap_or_default()),
            facts: None,
        }
    }

    fn of(step: &StepText, file: &str) -> Step {
        Step {
            title: step.title.clone(),
            slug: step.slug.clone(),
            text: step.text.clone(),
            block: Tree::of(file.get(step.block.clone()).unwrap_or_default()),
            facts: Some(step.facts.clone()),
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
    let included = Some(Weight::ChangeoverChanged);
    let weighs = step.facts.as_ref().map_or(included, |facts| weigh::whole_step(facts, what));
    let own = Change { weighs, words, ..Change::of(what, &step.title) };
    let fields = fields.into_iter().map(|field| Change::field(&step.title, field, None));
    std::iter::once(own).chain(fields).collect()
}

/// What differs between a step and what it was.
fn within(old: &Step, new: &Step, moved: bool) -> Vec<Change> {
    let mut changes = Vec::new();
    let own = |what| Change::of(what, &new.title);
    // Another procedure is included, with its own steps; what it is told may change what they do.
    let included = Some(Weight::ChangeoverChanged);
    let facts = old.facts.as_ref().zip(new.facts.as_ref());
    if moved {
        let weighs = facts.map_or(included, |(old, new)| weigh::moved(old, new));
        changes.push(Change { weighs, ..own(What::Moved) });
    }
    if old.title != new.title {
        let (before, after) = (old.title.clone(), new.title.clone());
        changes.push(Change { before, after, ..own(What::Renamed) });
    }
    let words = prose::markdown(&old.text, &new.text);
    if words.iter().any(Block::is_changed) {
        let weighs = facts.map_or(included, |(old, new)| weigh::reworded(old, new));
        changes.push(Change { weighs, words, ..own(What::Reworded) });
    }
    for field in fields::compare(&old.block, &new.block, &[]) {
        let weighs = facts.map_or(included, |(old, new)| weigh::step_field(old, new, &field));
        changes.push(Change::field(&new.title, field, weighs));
    }
    changes
}
