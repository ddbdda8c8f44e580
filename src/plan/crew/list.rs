//! Plans made work by work from a list: quick and good, and seldom the best for certain.
//!
//! Several lists are tried and the best plan is kept. Each plan is then pushed to its end and back:
//! planned backwards, the works that end last first, every work comes to stand as late as it can, and
//! in the order of these beginnings it is planned forwards again. That closes gaps, and is done for
//! as long as it helps. Further lists are the first one a little shuffled, by numbers that look
//! random and are the same in every run.
//!
//! Source: list rules and forward-backward improvement as in the literature of project scheduling
//! with limited people, from memory; every plan is one that holds, whichever list it is from.

use std::cmp::Reverse;

use super::problem::{Free, Plan, Problem};

/// How many works are planned in shuffled lists, all of them together.
const SHUFFLED_WORKS: usize = 60_000;

/// Most shuffled lists.
const SHUFFLES: usize = 200;

/// Most times that a plan is pushed to its end and back.
const PUSHES: usize = 4;

/// Which of the works that nothing holds up any more is planned next.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Next {
    /// The one that can begin soonest, of several the first in the list.
    Soonest,
    /// The first in the list.
    First,
}

/// The best plan found; none better is looked for when it ends at the bound.
pub(super) fn plan(problem: &Problem, bound: u32) -> Plan {
    let mut lists = Lists { problem, reversed: problem.reversed(), bound, best: None };
    let tails = problem.tails();
    let most = tails.iter().copied().max().unwrap_or(0);
    // The smallest late start first: the longest way to the end.
    let late: Vec<u64> = tails.iter().map(|tail| u64::from(most - tail)).collect();
    lists.try_list(&late);
    let long = problem.works.iter().map(|work| Reverse(work.minutes));
    lists.try_list(&ranks(long.collect()));
    lists.try_list(&ranks((0..late.len()).collect()));
    for round in 0..(SHUFFLED_WORKS / late.len().max(1)).min(SHUFFLES) {
        let spread = u64::from(most) / [16, 8, 4, 2][round % 4] + 1;
        let mut seed = round as u64;
        let shuffled = late.iter().map(|late| late + mixed(&mut seed) % spread);
        lists.try_list(&shuffled.collect::<Vec<_>>());
    }
    let none = Plan { starts: Vec::new(), ways: Vec::new(), end: 0 };
    lists.best.unwrap_or(none)
}

/// The place of each in the sorted list.
fn ranks<T: Ord>(keys: Vec<T>) -> Vec<u64> {
    let mut order: Vec<usize> = (0..keys.len()).collect();
    order.sort_by_key(|&at| &keys[at]);
    let mut ranks = vec![0; keys.len()];
    (0..).zip(order).for_each(|(rank, at)| ranks[at] = rank);
    ranks
}

/// The next number of a row that looks random: splitmix64, written from memory of its
/// public-domain reference.
fn mixed(seed: &mut u64) -> u64 {
    *seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*seed ^ (*seed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

/// Lists that were tried, and the best plan from them.
struct Lists<'a> {
    problem: &'a Problem,
    reversed: Problem,
    bound: u32,
    best: Option<Plan>,
}

impl Lists<'_> {
    /// Plans by a list and pushes the plan, unless nothing better can be found.
    fn try_list(&mut self, list: &[u64]) {
        if self.best.as_ref().is_some_and(|best| best.end <= self.bound) {
            return;
        }
        let mut plan = listed(self.problem, list, Next::Soonest);
        for _ in 0..PUSHES {
            if plan.end <= self.bound {
                break;
            }
            let pushed = self.pushed(&plan);
            if pushed.end >= plan.end {
                break;
            }
            plan = pushed;
        }
        if self.best.as_ref().is_none_or(|best| plan.end < best.end) {
            self.best = Some(plan);
        }
    }

    /// The plan pushed to its end and back.
    fn pushed(&self, plan: &Plan) -> Plan {
        let works = self.problem.works.iter().zip(&plan.starts).rev();
        let last_first = works.map(|(work, start)| Reverse(start + work.minutes));
        let late = listed(&self.reversed, &ranks(last_first.collect()), Next::First);
        let works = self.reversed.works.iter().zip(&late.starts).rev();
        let starts = works.map(|(work, start)| late.end - start - work.minutes);
        listed(self.problem, &ranks(starts.collect()), Next::First)
    }
}

/// Plans work by work; every work that nothing holds up is planned some time.
fn listed(problem: &Problem, list: &[u64], next: Next) -> Plan {
    let count = problem.works.len();
    let mut free = Free::new(problem);
    let mut plan = Plan { starts: vec![0; count], ways: vec![0; count], end: 0 };
    let mut waits: Vec<usize> = problem.works.iter().map(|work| work.after.len()).collect();
    let mut ready: Vec<u32> = problem.works.iter().map(|work| work.earliest).collect();
    let mut open: Vec<usize> = (0..count).filter(|&work| waits[work] == 0).collect();
    while let Some(chosen) = chosen(problem, list, next, &open, &ready, &free) {
        let Chosen { at, start, way, .. } = chosen;
        let work = open.swap_remove(at);
        let it = &problem.works[work];
        let end = start + it.minutes;
        free.take(problem, &it.ways[way], start, end);
        (plan.starts[work], plan.ways[work], plan.end) = (start, way, plan.end.max(end));
        for &next in &it.before {
            waits[next] -= 1;
            ready[next] = ready[next].max(end);
            if waits[next] == 0 {
                open.push(next);
            }
        }
    }
    plan
}

/// The work that is planned next.
#[derive(Clone, Copy)]
struct Chosen {
    /// The least of its kind is chosen: by beginning, list and order, or by list and order alone.
    key: (u32, u64, usize),
    /// Its place among the open works.
    at: usize,
    start: u32,
    way: usize,
}

/// Which of the open works is next, when it begins, and in which way that is soonest.
///
/// A work that could not be chosen even if it began as soon as nothing holds it up is passed over.
fn chosen(
    problem: &Problem,
    list: &[u64],
    next: Next,
    open: &[usize],
    ready: &[u32],
    free: &Free,
) -> Option<Chosen> {
    let key = |start: u32, work: usize| match next {
        Next::Soonest => (start, list[work], work),
        Next::First => (0, list[work], work),
    };
    let mut least: Option<Chosen> = None;
    for (at, &work) in open.iter().enumerate() {
        if least.is_some_and(|least| key(ready[work], work) > least.key) {
            continue;
        }
        let ways = problem.works[work].ways.iter().enumerate();
        let starts = ways.map(|(way, it)| (free.start(problem, it, ready[work]), way));
        let (start, way) = starts.min().unwrap_or((ready[work], 0));
        let key = key(start, work);
        if least.is_none_or(|least| key < least.key) {
            least = Some(Chosen { key, at, start, way });
        }
    }
    least
}
