//! What no plan can beat.
//!
//! A load is work that only some can do: people of certain groups, of whom there are so many, or the
//! room in one place. From the moment `head` at which the first of these works can begin at all, they
//! take `minutes times people / capacity`, rounded up, however they are shared out; and after the
//! last of them the longest way from its end to the end of everything is still to go: at least
//! `after`, the shortest of these ways. So no plan ends before
//!
//! ```text
//! head + (sum of minutes * share over the works) / capacity + after
//! ```
//!
//! That holds for every choice of works; it is greatest for those of a load that begin no sooner
//! than some head and have no less behind them than some after, and all of these are tried. With one
//! work it is the longest path through it.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::problem::Problem;

/// With more groups of people than this not every set of them is looked at.
const FEW_GROUPS: usize = 6;

/// Most beginnings from which a load is counted: any of them gives a bound.
const MOST_HEADS: usize = 1000;

/// Works that some people or some room must carry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Load {
    /// How many carry it.
    pub capacity: u64,
    /// The pools that they are; none when the load follows from another one.
    pub pools: Vec<usize>,
    /// Works that take time, and how many of the carriers each takes at least: those with the longest
    /// way behind them first.
    pub shares: Vec<(usize, u64)>,
}

/// All loads that can bound a plan.
pub(super) fn loads(problem: &Problem) -> Vec<Load> {
    let mut by_shares: BTreeMap<Vec<(usize, u64)>, Load> = BTreeMap::new();
    let rooms = (problem.groups..problem.pools.len()).map(|room| vec![room]);
    for pools in group_sets(problem.groups).into_iter().chain(rooms) {
        let load = load(problem, pools);
        // The same works with fewer to do them.
        let other = by_shares.get(&load.shares);
        if other.is_none_or(|other| load.capacity < other.capacity) && load.shares.len() > 1 {
            by_shares.insert(load.shares.clone(), load);
        }
    }
    let mut loads: Vec<Load> = by_shares.into_values().collect();
    let tails = problem.tails();
    let after = |work: usize| tails[work] - problem.works[work].minutes;
    loads.iter_mut().for_each(|load| load.shares.sort_by_key(|share| Reverse(after(share.0))));
    let alone: Vec<Load> = loads.iter().filter_map(one_at_a_time).collect();
    loads.extend(alone);
    loads
}

/// Sets of groups of people: all of them while they are few, else each alone and all together.
fn group_sets(groups: usize) -> Vec<Vec<usize>> {
    if groups > FEW_GROUPS {
        let alone = (0..groups).map(|group| vec![group]);
        return alone.chain([(0..groups).collect()]).collect();
    }
    let set = |bits: usize| (0..groups).filter(|group| bits >> group & 1 == 1).collect();
    (1..1 << groups).map(set).collect()
}

/// What pools have to carry: of each work what it takes from them in the way that takes least.
fn load(problem: &Problem, pools: Vec<usize>) -> Load {
    let capacity = pools.iter().map(|&pool| problem.pools[pool].len() as u64).sum();
    let share = |work: usize| {
        let it = &problem.works[work];
        let taken = |way: &super::problem::Way| -> u64 {
            let of_these = way.takes.iter().filter(|take| pools.contains(&take.0));
            of_these.map(|take| take.1 as u64).sum()
        };
        let least = it.ways.iter().map(taken).min().unwrap_or(0);
        // A way that was not looked at may take less.
        let known = if problem.has_all_ways || pools[0] >= problem.groups { least } else { 0 };
        (work, if it.minutes == 0 { 0 } else { known })
    };
    let shares = (0..problem.works.len()).map(share).filter(|share| share.1 > 0).collect();
    Load { capacity, pools, shares }
}

/// Those works of a load of which no two fit beside each other.
fn one_at_a_time(load: &Load) -> Option<Load> {
    let large = load.shares.iter().filter(|share| share.1 * 2 > load.capacity);
    let shares: Vec<(usize, u64)> = large.map(|share| (share.0, 1)).collect();
    let says_more = load.capacity > 1 && shares.len() > 1;
    says_more.then_some(Load { capacity: 1, pools: Vec::new(), shares })
}

/// No plan ends before this.
pub(super) fn least_end(problem: &Problem, loads: &[Load]) -> u32 {
    let (heads, tails) = (problem.heads(), problem.tails());
    let longest = heads.iter().zip(&tails).map(|(head, tail)| head + tail).max().unwrap_or(0);
    let carried = loads.iter().map(|load| load.least_end(problem, &heads, &tails)).max();
    // A bound is never above the end of a plan, and those fit.
    longest.max(u32::try_from(carried.unwrap_or(0)).unwrap_or(u32::MAX))
}

impl Load {
    /// When the load is carried and the rest done, at the soonest.
    fn least_end(&self, problem: &Problem, heads: &[u32], tails: &[u32]) -> u64 {
        let works: Vec<(u64, u64, u64)> = (self.shares.iter())
            .map(|&(work, share)| {
                let minutes = problem.works[work].minutes;
                let after = u64::from(tails[work] - minutes);
                (after, u64::from(heads[work]), share * u64::from(minutes))
            })
            .collect();
        let mut from: Vec<u64> = works.iter().map(|work| work.1).collect();
        from.sort_unstable();
        from.dedup();
        let step = from.len() / MOST_HEADS + 1;
        let ends = from.into_iter().step_by(step).map(|from| {
            let (mut carried, mut least) = (0, 0);
            for (after, _, work) in works.iter().filter(|work| work.1 >= from) {
                carried += work;
                least = least.max(from + u64::div_ceil(carried, self.capacity) + after);
            }
            least
        });
        ends.max().unwrap_or(0)
    }
}
