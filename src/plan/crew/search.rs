//! The best plan of a piece, by looking at all that could be it.
//!
//! Works are planned one at a time, in an order in which none begins before the one planned before
//! it: each begins as soon as its people and its place are free, what it waits for has ended, and the
//! one before has begun. Every order and every way to fill the roles is tried, so the best plan is
//! among them. For take any plan, and plan its works in the order in which they begin there, of those
//! that begin together the ones of no minutes first, in the same ways: each begins no later than it
//! did, because those before it in this order end no later than they did, and no more people are at
//! work and no more room is taken at its old beginning than were there.
//!
//! Which of several people who are alike does a work makes no difference: a work begins when enough
//! of them are free, and from then on only what begins no sooner is planned, so that those who are
//! free by then are alike in that too. Between groups that choice matters, and each is tried: who can
//! do less is not always the one to take, when he is at work on it past the time at which the other
//! is needed.
//!
//! What is left out:
//!
//! 1. Where no plan from here ends before the best that is known, by the bounds of [`super::bound`].
//! 2. Where the same works were planned before, and everybody was free no later, and everything held
//!    up no longer: whatever follows here could follow there.
//! 3. Where another work could begin and end before this one begins: planned before it, that one
//!    takes nothing from it, and ends no later than it would after it.
//! 4. Where two works are alike in everything, all but the first of them until that one is planned:
//!    they could change their names.
//! 5. Where a work takes nobody's time, because it has no minutes and can begin at once, or takes
//!    nobody at all: it is planned at once, and takes nothing from the others.
//!
//! The search counts where it looks and stops when it has looked often enough. Then its plan is good,
//! and nothing is proven.

use std::collections::BTreeMap;

use super::bound::Load;
use super::problem::{Free, Plan, Problem, Work};

/// A set of works is kept as the bits of one number.
pub(super) const MOST_WORKS: usize = 128;

/// Looks for a better plan than the best so far, `looks` times at most, and takes off what it
/// used; whether everything was looked at.
pub(super) fn improve(
    problem: &Problem,
    loads: &[Load],
    bound: u32,
    best: &mut Plan,
    looks: &mut u32,
) -> bool {
    let count = problem.works.len();
    if count > MOST_WORKS {
        return false;
    }
    let mut search = Search {
        problem,
        loads,
        tails: problem.tails(),
        twins: twins(problem),
        bound,
        starts: vec![0; count],
        ways: vec![0; count],
        best,
        looks,
        seen: BTreeMap::new(),
    };
    let start = Node { done: 0, count: 0, last: 0, free: Free::new(problem) };
    search.look(&start)
}

/// The last one before each work that is like it in everything.
fn twins(problem: &Problem) -> Vec<Option<usize>> {
    let works = problem.works.iter().enumerate();
    works.map(|(at, work)| problem.works[..at].iter().rposition(|other| other == work)).collect()
}

/// A plan under way, and what is known.
struct Search<'a> {
    problem: &'a Problem,
    loads: &'a [Load],
    tails: Vec<u32>,
    /// The last one before each work that is like it in everything.
    twins: Vec<Option<usize>>,
    bound: u32,
    /// When each work that is planned begins.
    starts: Vec<u32>,
    /// Its way.
    ways: Vec<usize>,
    best: &'a mut Plan,
    looks: &'a mut u32,
    /// By the works that were planned: when everything was free, from which nothing is looked at
    /// again that is free no sooner.
    seen: BTreeMap<u128, Vec<Vec<u32>>>,
}

/// Where the search stands.
#[derive(Clone)]
struct Node {
    /// The works that are planned.
    done: u128,
    /// How many they are.
    count: usize,
    /// When the last of them begins.
    last: u32,
    free: Free,
}

impl Node {
    fn has(&self, work: usize) -> bool {
        self.done >> work & 1 == 1
    }
}

/// A work that could be planned next.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Choice {
    start: u32,
    /// Works with much behind them come first.
    rank: u32,
    work: usize,
    way: usize,
}

impl Search<'_> {
    /// Tries everything that can follow; whether nothing was left out.
    fn look(&mut self, node: &Node) -> bool {
        if node.count == self.problem.works.len() {
            self.keep();
            return true;
        }
        if *self.looks == 0 {
            return false;
        }
        *self.looks -= 1;
        let ready = self.ready(node);
        if self.least_end(node, &ready) >= self.best.end || self.was_seen(node) {
            return true;
        }
        for choice in self.choices(node, &ready) {
            if choice.start + self.tails[choice.work] < self.best.end {
                let next = self.planned(node, choice);
                if !self.look(&next) {
                    return false;
                }
            }
            if self.best.end <= self.bound {
                return true;
            }
        }
        true
    }

    /// All works are planned: a better plan becomes the best.
    fn keep(&mut self) {
        let ends =
            self.starts.iter().zip(&self.problem.works).map(|(start, it)| start + it.minutes);
        let end = ends.max().unwrap_or(0);
        if end < self.best.end {
            *self.best = Plan { starts: self.starts.clone(), ways: self.ways.clone(), end };
        }
    }

    /// When a work that is planned ends.
    fn end(&self, work: usize) -> u32 {
        self.starts[work] + self.problem.works[work].minutes
    }

    /// When what each work waits for has ended, at the soonest.
    fn ready(&self, node: &Node) -> Vec<u32> {
        let mut ready: Vec<u32> = Vec::with_capacity(self.problem.works.len());
        for (at, work) in self.problem.works.iter().enumerate() {
            if node.has(at) {
                ready.push(self.starts[at]);
                continue;
            }
            let ends =
                work.after.iter().map(|&before| ready[before] + self.problem.works[before].minutes);
            ready.push(ends.fold(work.earliest.max(self.last(node, work)), u32::max));
        }
        ready
    }

    /// Before this a work that is not planned does not begin: one that takes somebody begins no
    /// sooner than the last one did.
    fn last(&self, node: &Node, work: &Work) -> u32 {
        if work.takes_nobody() { 0 } else { node.last }
    }

    /// No plan that goes on from here ends before this.
    fn least_end(&self, node: &Node, ready: &[u32]) -> u32 {
        let ends = (0..ready.len()).filter(|&work| !node.has(work));
        let longest = ends.map(|work| ready[work] + self.tails[work]).max().unwrap_or(0);
        let carried = self.loads.iter().map(|load| self.carried(node, load, ready)).max();
        longest.max(carried.unwrap_or(0))
    }

    /// When those who carry a load have carried what is left of it, and the rest is done: as in
    /// [`super::bound`], for the works with the longest way behind them, however many of them.
    ///
    /// Each of the carriers is busy until he is free, and begins none of them before the first of
    /// them can begin.
    fn carried(&self, node: &Node, load: &Load, ready: &[u32]) -> u32 {
        let left = || load.shares.iter().filter(|share| !node.has(share.0));
        let Some(from) = left().map(|share| ready[share.0]).min() else { return 0 };
        let mut busy: u64 = match load.pools.is_empty() {
            true => load.capacity * u64::from(from),
            false => {
                let pools = load.pools.iter().map(|&pool| self.problem.pools[pool].clone());
                let times = pools.flat_map(|pool| &node.free.times[pool]);
                times.map(|&time| u64::from(time.max(from))).sum()
            }
        };
        let ends = left().map(|&(work, share)| {
            let minutes = self.problem.works[work].minutes;
            busy += u64::from(minutes) * share;
            u64::div_ceil(busy, load.capacity) + u64::from(self.tails[work] - minutes)
        });
        u32::try_from(ends.max().unwrap_or(0)).unwrap_or(u32::MAX)
    }

    /// Whether the same works were planned before and left everything free no later; if not, it is
    /// remembered.
    fn was_seen(&mut self, node: &Node) -> bool {
        let now = self.held_up(node);
        let seen = self.seen.entry(node.done).or_default();
        let no_later = |then: &Vec<u32>| then.iter().zip(&now).all(|(then, now)| then <= now);
        if seen.iter().any(no_later) {
            return true;
        }
        seen.push(now);
        false
    }

    /// All that holds up what is not planned yet: the last beginning, when everybody is free, when
    /// what it waits for has ended; and the end of what nothing waits for.
    fn held_up(&self, node: &Node) -> Vec<u32> {
        let mut times = vec![node.last];
        times.extend(node.free.times.iter().map(|&time| time.max(node.last)));
        let mut end = 0;
        for (at, work) in self.problem.works.iter().enumerate() {
            if node.has(at) {
                end = if work.before.is_empty() { end.max(self.end(at)) } else { end };
                continue;
            }
            let last = self.last(node, work);
            let planned = work.after.iter().filter(|&&before| node.has(before));
            times.extend(planned.map(|&before| self.end(before).max(last)).max());
        }
        times.push(end);
        times
    }

    /// What can be planned next, the most promising first.
    fn choices(&self, node: &Node, ready: &[u32]) -> Vec<Choice> {
        let mut choices = Vec::new();
        for (work, it) in self.problem.works.iter().enumerate() {
            let mut first = it.after.iter().chain(&self.twins[work]);
            if node.has(work) || !first.all(|&before| node.has(before)) {
                continue;
            }
            for (way, takes) in it.ways.iter().enumerate() {
                let start = node.free.start(self.problem, takes, ready[work]);
                let choice = Choice { start, rank: u32::MAX - self.tails[work], work, way };
                let is_moment = it.minutes == 0 && start == node.last;
                if is_moment || it.takes_nobody() {
                    return vec![choice];
                }
                choices.push(choice);
            }
        }
        choices.sort_unstable();
        let first = choices.iter().copied().min_by_key(|choice| (self.ends(choice), *choice));
        let comes_later = |choice: &Choice| {
            first.is_some_and(|first| *choice != first && self.ends(&first) <= choice.start)
        };
        choices.retain(|choice| !comes_later(choice));
        choices
    }

    fn ends(&self, choice: &Choice) -> u32 {
        choice.start + self.problem.works[choice.work].minutes
    }

    /// The same with one work more.
    fn planned(&mut self, node: &Node, choice: Choice) -> Node {
        let Choice { start, work, way, .. } = choice;
        (self.starts[work], self.ways[work]) = (start, way);
        let way = &self.problem.works[work].ways[way];
        let mut free = node.free.clone();
        free.take(self.problem, way, start, self.end(work));
        let last = if way.takes.is_empty() { node.last } else { start };
        Node { done: node.done | 1 << work, count: node.count + 1, last, free }
    }
}
