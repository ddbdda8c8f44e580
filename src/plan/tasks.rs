//! A packet as tasks: which step waits for which, and which is done before, during and after the stop.
//!
//! The one place that knows it. Must never let a step begin before something that protects people or
//! product is done, whatever a writer says in `after`: locks, tests, power and proofs hold everybody.
//! Tests do the steps in every order that this allows, and walk them (`tests/it/plan.rs`).

mod ties;

use std::collections::{BTreeMap, BTreeSet};

pub use ties::Tie;
use ties::Ties;

use crate::packet::model::{Meaning, Packet, Sign, Step};

/// When a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum When {
    /// While the old order runs still.
    Before,
    /// While the line stands.
    During,
    /// While the new order runs.
    After,
}

/// A step that is done, as a task.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// Its place in the steps of the packet.
    pub step: usize,
    /// When it is done.
    pub when: When,
    /// Whether the plan takes it out of the stop, in which the packet's order has it.
    pub is_moved: bool,
    /// Whether everybody waits for it: locks, tests, power in a zone, the stop and the run.
    pub is_for_everybody: bool,
    /// The tasks that end before it begins, by their places in the list, all before its own; none that
    /// another of them waits for anyway.
    pub after: Vec<usize>,
    /// Planned minutes; 0 when nobody planned them.
    pub minutes: u32,
    /// One role for each person it takes, who are all different people.
    pub roles: Vec<String>,
    /// Zone somebody reaches into.
    pub zone: Option<String>,
}

/// The steps of a packet that are done, as the plan orders them: what can be done outside the stop is.
pub fn items(packet: &Packet) -> Vec<Item> {
    let ties = Ties::of(packet);
    let sorted = Sorted::planned(&ties);
    listed(&ties, &sorted)
}

/// The same steps, each where the packet's order has it.
pub fn as_written(packet: &Packet) -> Vec<Item> {
    let ties = Ties::of(packet);
    let sorted = Sorted::written(&ties);
    listed(&ties, &sorted)
}

/// What keeps the steps that may be done outside the stop, and are inside it, from being done before it:
/// for each the last step that it waits for, all by their places in the packet.
pub fn held(packet: &Packet) -> BTreeMap<usize, (usize, Tie)> {
    let ties = Ties::of(packet);
    let sorted = Sorted::planned(&ties);
    let hold = |at: usize| {
        let mut inside = (0..at).rev().filter(|earlier| !sorted.is(*earlier, When::Before));
        let hold = inside.find_map(|earlier| Some((earlier, ties.outside(earlier, at)?)));
        hold.and_then(|(earlier, tie)| Some((ties.step(at)?, (ties.step(earlier)?, tie))))
    };
    let inside = |at: &usize| ties.may_be_outside(*at) && sorted.is(*at, When::During);
    (0..ties.count()).filter(inside).filter_map(hold).collect()
}

/// When each step is done, by its place among the steps that are done.
struct Sorted {
    whens: Vec<When>,
    is_moved: Vec<bool>,
}

impl Sorted {
    /// As the packet's order has them.
    fn written(ties: &Ties) -> Sorted {
        let when = |at| match ties.stop() {
            Some((first, _)) if at < first => When::Before,
            Some((_, last)) if at > last => When::After,
            Some(_) => When::During,
            None => When::Before,
        };
        let whens: Vec<When> = (0..ties.count()).map(when).collect();
        Sorted { is_moved: vec![false; whens.len()], whens }
    }

    /// What waits for nothing inside the stop is done before it, what nothing inside waits for, after.
    fn planned(ties: &Ties) -> Sorted {
        let mut sorted = Sorted::written(ties);
        let Some((first, last)) = ties.stop() else { return sorted };
        for at in (first..=last).filter(|at| ties.may_be_outside(*at)) {
            let is_held = |earlier| ties.outside(earlier, at).is_some();
            if !(0..at).any(|earlier| !sorted.is(earlier, When::Before) && is_held(earlier)) {
                sorted.put(at, When::Before);
            }
        }
        for at in (first..=last).rev().filter(|at| ties.may_be_left(*at)) {
            let is_awaited = |later| ties.outside(at, later).is_some();
            let mut later = at + 1..ties.count();
            if sorted.is(at, When::During)
                && !later.any(|later| !sorted.is(later, When::After) && is_awaited(later))
            {
                sorted.put(at, When::After);
            }
        }
        sorted
    }

    fn is(&self, at: usize, when: When) -> bool {
        self.whens.get(at) == Some(&when)
    }

    fn put(&mut self, at: usize, when: When) {
        if let (Some(own), Some(is_moved)) = (self.whens.get_mut(at), self.is_moved.get_mut(at)) {
            (*own, *is_moved) = (when, true);
        }
    }

    /// Whether one step ends before another begins that the plan has behind it.
    fn waits(&self, ties: &Ties, [earlier, later]: [usize; 2]) -> bool {
        let is_moved = |at| self.is_moved.get(at).copied().unwrap_or_default();
        if self.whens.get(earlier) != self.whens.get(later) {
            return true;
        }
        // Who does a step outside the stop stands at no lock and no machine.
        if is_moved(earlier) || is_moved(later) {
            return ties.outside(earlier, later).is_some();
        }
        ties.any(earlier, later).is_some()
    }
}

/// The tasks in the order of the plan, without arcs that follow from others.
fn listed(ties: &Ties, sorted: &Sorted) -> Vec<Item> {
    let mut order: Vec<usize> = (0..ties.count()).collect();
    order.sort_by_key(|at| sorted.whens.get(*at));
    let mut reached: Vec<Reached> = Vec::with_capacity(order.len());
    let mut items = Vec::with_capacity(order.len());
    for (place, at) in order.iter().enumerate() {
        let mut own = Reached::of(place);
        let mut after = Vec::new();
        for (earlier, other) in order.iter().enumerate().take(place).rev() {
            if own.missing == 0 {
                break;
            }
            if !own.has(earlier) && sorted.waits(ties, [*other, *at]) {
                after.push(earlier);
                reached.get(earlier).iter().for_each(|other| own.take(earlier, other));
            }
        }
        after.reverse();
        items.extend(ties.item(*at).map(|(step, facts)| Item {
            step,
            when: sorted.whens.get(*at).copied().unwrap_or(When::During),
            is_moved: sorted.is_moved.get(*at).copied().unwrap_or_default(),
            is_for_everybody: ties.is_for_everybody(*at),
            after,
            minutes: facts.minutes.unwrap_or_default(),
            roles: roles(facts),
            zone: facts.zone.clone(),
        }));
        reached.push(own);
    }
    items
}

/// The tasks that end before one begins, directly or not.
struct Reached {
    words: Vec<u64>,
    /// How many before it are not among them.
    missing: usize,
}

impl Reached {
    fn of(place: usize) -> Reached {
        Reached { words: vec![0; place.div_ceil(64)], missing: place }
    }

    fn has(&self, place: usize) -> bool {
        self.words.get(place / 64).is_some_and(|word| word >> (place % 64) & 1 == 1)
    }

    /// Takes in a task with all that it waits for.
    fn take(&mut self, place: usize, other: &Reached) {
        for (own, word) in self.words.iter_mut().zip(&other.words) {
            let new = word & !*own;
            self.missing = self.missing.saturating_sub(new.count_ones() as usize);
            *own |= new;
        }
        if let Some(word) = self.words.get_mut(place / 64) {
            *word |= 1 << (place % 64);
            self.missing = self.missing.saturating_sub(1);
        }
    }
}

/// One role for each person: those who do it, as many as the step takes, and each who checks it.
fn roles(step: &Step) -> Vec<String> {
    let distinct = |is: &dyn Fn(&Sign) -> bool| -> BTreeSet<&str> {
        step.signs.iter().filter(|sign| is(sign)).map(|sign| sign.role.as_str()).collect()
    };
    let doers = distinct(&|sign| sign.meaning == Meaning::Performed);
    let others = distinct(&|sign| sign.meaning != Meaning::Performed);
    let first = doers.first().copied();
    let missing = usize::try_from(step.people).unwrap_or_default().saturating_sub(doers.len());
    let more = first.into_iter().flat_map(|role| std::iter::repeat_n(role, missing));
    doers.iter().copied().chain(more).chain(others).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests;
