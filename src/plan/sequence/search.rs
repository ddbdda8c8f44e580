//! A good order of many jobs: many orders are built, and each is made better move by move.
//!
//! The same jobs give the same order every time: nothing is drawn by lot, and of moves that are as good
//! the first is taken. Nothing in here proves anything; that is for [`super::bound`].

use super::{Jobs, Worth};

/// How many changeovers are looked at, at most, while orders are made better. It is a count and not a
/// time, so that every machine gives the same order.
const MOST: usize = 40_000_000;

/// How bad an order is: first the changeovers that cannot be made.
type Badness = (usize, Worth);

/// A good order; none when every order that was found has a changeover that cannot be made.
pub(super) fn good(jobs: &Jobs) -> Option<Vec<usize>> {
    let built = [(0..jobs.len()).collect(), inserted(jobs)];
    let nearest = (0..jobs.len()).map(|first| nearest(jobs, first));
    let mut looked = 0;
    let made = built.into_iter().chain(nearest).map(|order| improved(jobs, order, &mut looked));
    let (own, best) = made.map(|order| (badness(jobs, &order), order)).min()?;
    (own.0 == 0).then_some(best)
}

/// From a first job on, always the job next that costs the least after the one before.
fn nearest(jobs: &Jobs, first: usize) -> Vec<usize> {
    let mut left: Vec<usize> = (0..jobs.len()).filter(|job| *job != first).collect();
    let mut order = vec![first];
    while !left.is_empty() {
        let cost = |&at: &usize| {
            let job = left.get(at).copied().unwrap_or_default();
            let change = jobs.change(order.last().copied(), job);
            change.map_or((2, 0), |own| (u8::from(own.is_unwanted), own.stop))
        };
        let at = (0..left.len()).min_by_key(cost).unwrap_or_default();
        order.push(left.remove(at));
    }
    order
}

/// Each job, in the planned order, put where it makes the order least bad.
fn inserted(jobs: &Jobs) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    for job in 0..jobs.len() {
        let with = |at: &usize| {
            let mut with = order.clone();
            with.insert(*at, job);
            badness(jobs, &with)
        };
        let at = (0..=order.len()).min_by_key(with).unwrap_or_default();
        order.insert(at, job);
    }
    order
}

/// Moves of jobs that follow each other to another place, which keeps their direction (Or 1976), and
/// swaps of two jobs, until a whole round of them makes the order no better.
fn improved(jobs: &Jobs, mut order: Vec<usize>, looked: &mut usize) -> Vec<usize> {
    let mut own = badness(jobs, &order);
    loop {
        let before = own;
        for next in moves(order.len()) {
            *looked += order.len();
            if *looked > MOST {
                return order;
            }
            let moved = next.of(&order);
            let worth = badness(jobs, &moved);
            if worth < own {
                (order, own) = (moved, worth);
            }
        }
        if own == before {
            return order;
        }
    }
}

/// One change of an order.
enum Move {
    /// So many jobs from one place to another, which is counted without them.
    Shift { from: usize, length: usize, to: usize },
    /// Two jobs change places.
    Swap { one: usize, other: usize },
}

fn moves(count: usize) -> impl Iterator<Item = Move> {
    let shifts = (1..count).flat_map(move |length| {
        let last = count - length;
        (0..=last).flat_map(move |from| {
            let places = (0..=last).filter(move |to| *to != from);
            places.map(move |to| Move::Shift { from, length, to })
        })
    });
    let swaps = (0..count)
        .flat_map(move |one| (one + 1..count).map(move |other| Move::Swap { one, other }));
    shifts.chain(swaps)
}

impl Move {
    fn of(&self, order: &[usize]) -> Vec<usize> {
        let mut moved = order.to_vec();
        match *self {
            Move::Swap { one, other } => moved.swap(one, other),
            Move::Shift { from, length, to } => {
                let taken: Vec<usize> = moved.drain(from..from + length).collect();
                moved.splice(to..to, taken);
            }
        }
        moved
    }
}

/// How bad an order is. A changeover that cannot be made is passed over, so that one order with fewer
/// of them is better than another.
fn badness(jobs: &Jobs, order: &[usize]) -> Badness {
    let (mut cannot, mut worth) = (0, Worth::default());
    let (mut before, mut now) = (None, 0);
    for &job in order {
        let change = jobs.change(before, job);
        cannot += usize::from(change.is_none());
        let stop = change.map_or(0, |own| own.stop);
        let slot = jobs.slot(job, stop, now);
        if let Some(change) = change {
            worth = worth.and(change, slot.late);
        }
        (before, now) = (Some(job), slot.ends);
    }
    (cannot, worth)
}
