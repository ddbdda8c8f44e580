//! What the stop of the line costs, step by step, and what could be done outside it.
//!
//! Single-minute exchange of die parts set-up into what needs the machine stopped and what does not,
//! and moves from the one to the other (S. Shingo; common practice). Must never move a step by itself
//! that its writer did not mark: what could move is a question.

use super::tasks::{Item, Tie, When, as_written, held, items};
use crate::packet::model::{EnergyState, Packet, Step};

/// The stop of one packet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stop {
    /// What is done before, during and after it, in this order.
    pub items: Vec<Item>,
    /// For each of them, how many minutes shorter the stop would be if it took none.
    pub costs: Vec<u32>,
    /// How long the line stands at least, however many people work.
    pub minutes: u32,
    /// How long it would stand with every step where the packet has it.
    pub minutes_as_written: u32,
    /// The longest chain of work before the stop.
    pub minutes_before: u32,
    /// The longest chain of work after it.
    pub minutes_after: u32,
    /// Steps inside the stop that could move out, by their places in the packet.
    pub could_move: Vec<CouldMove>,
    /// Steps whose minutes nobody planned: they are counted as none.
    pub unplanned: Vec<usize>,
}

impl Stop {
    /// The tasks of one time, with what each costs the stop.
    pub fn of(&self, when: When) -> impl Iterator<Item = (&Item, u32)> {
        self.items.iter().zip(self.costs.iter().copied()).filter(move |(own, _)| own.when == when)
    }

    /// Minutes of stop that the plan saves by taking steps out of it.
    pub fn saved(&self) -> u32 {
        self.minutes_as_written.saturating_sub(self.minutes)
    }
}

/// A step inside the stop that could be done outside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CouldMove {
    /// Its place in the packet.
    pub step: usize,
    /// What it takes.
    pub takes: Takes,
}

/// What it takes to move a step out of the stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// Its procedure need not wait for the procedure of this step.
    LessAfter(usize),
    /// It need not stand behind this step in its own procedure.
    AnotherPlace(usize),
    /// Its writer says that the line may run.
    Running,
}

/// Works out the stop of a packet.
pub fn stop(packet: &Packet) -> Stop {
    let items = items(packet);
    let longest = |when| longest(items.iter().map(|own| minutes_in(own, when)), &items);
    let written = as_written(packet);
    let inside = written.iter().map(|own| minutes_in(own, When::During));
    Stop {
        costs: costs(&items),
        minutes: longest(When::During),
        minutes_as_written: self::longest(inside, &written),
        minutes_before: longest(When::Before),
        minutes_after: longest(When::After),
        could_move: could_move(packet, &items),
        unplanned: unplanned(packet, &items),
        items,
    }
}

/// The minutes of a task that count at a time.
fn minutes_in(item: &Item, when: When) -> u32 {
    if item.when == when { item.minutes } else { 0 }
}

/// The longest chain of tasks.
fn longest(minutes: impl Iterator<Item = u32>, items: &[Item]) -> u32 {
    ends(minutes, items).into_iter().max().unwrap_or_default()
}

/// When each task ends at the earliest, counted from the first.
fn ends(minutes: impl Iterator<Item = u32>, items: &[Item]) -> Vec<u32> {
    let mut ends: Vec<u32> = Vec::with_capacity(items.len());
    for (item, minutes) in items.iter().zip(minutes) {
        let before = item.after.iter().filter_map(|earlier| ends.get(*earlier)).max();
        ends.push(before.copied().unwrap_or_default().saturating_add(minutes));
    }
    ends
}

/// How much shorter the stop is without the minutes of each task, worked out anew for each that lies on
/// a longest chain.
fn costs(items: &[Item]) -> Vec<u32> {
    let all: Vec<u32> = items.iter().map(|own| minutes_in(own, When::During)).collect();
    let most = longest(all.iter().copied(), items);
    let without = |place: usize| {
        let minutes = all.iter().enumerate();
        longest(minutes.map(|(at, own)| if at == place { 0 } else { *own }), items)
    };
    let cost = |(place, minutes): (usize, &u32)| match minutes {
        0 => 0,
        _ => most.saturating_sub(without(place)),
    };
    all.iter().enumerate().map(cost).collect()
}

fn could_move(packet: &Packet, items: &[Item]) -> Vec<CouldMove> {
    let inside = items.iter().filter(|own| own.when == When::During);
    let held = held(packet);
    let takes = |own: &Item| {
        let takes = match held.get(&own.step) {
            Some((other, Tie::Procedure)) => Takes::AnotherPlace(*other),
            Some((other, _)) => Takes::LessAfter(*other),
            None if may_be_asked(packet, own) => Takes::Running,
            None => return None,
        };
        Some(CouldMove { step: own.step, takes })
    };
    inside.filter_map(takes).collect()
}

/// Whether nothing in the step says that the line must stand for it, and its writer did not say either.
/// Where a machine names no zones, nobody can tell who reaches in: nothing is asked.
fn may_be_asked(packet: &Packet, item: &Item) -> bool {
    let is_open = |step: &Step| {
        let is_apart = step.needs == EnergyState::Any && step.zone.is_none();
        is_apart && step.marks.is_empty() && !step.while_running
    };
    !item.is_for_everybody
        && !packet.zones.is_empty()
        && packet.steps.get(item.step).is_some_and(is_open)
}

fn unplanned(packet: &Packet, items: &[Item]) -> Vec<usize> {
    let has_none = |step: &usize| packet.steps.get(*step).is_some_and(|s| s.minutes.is_none());
    let mut steps: Vec<usize> = items.iter().map(|own| own.step).filter(has_none).collect();
    steps.sort_unstable();
    steps
}

#[cfg(test)]
mod tests;
