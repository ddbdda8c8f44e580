//! The question as the planners see it: works in an order in which each comes after what it waits
//! for, and pools of people and room that they take from.

use std::ops::Range;

use super::staff::Staff;
use super::{Impossible, Task};

/// What there is to plan.
pub(super) struct Problem {
    /// In an order in which each comes after those it waits for.
    pub works: Vec<Work>,
    /// What there is so many of: first the groups of people, then the room in places.
    pub pools: Vec<Range<usize>>,
    /// How many of the pools are people.
    pub groups: usize,
    /// Whether the ways of each work are all there are.
    pub has_all_ways: bool,
}

/// One task.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Work {
    pub minutes: u32,
    pub earliest: u32,
    /// The works it waits for.
    pub after: Vec<usize>,
    /// The works that wait for it.
    pub before: Vec<usize>,
    /// In how many ways it can be done: never none.
    pub ways: Vec<Way>,
}

/// Whom a work takes from where.
#[derive(Clone, PartialEq, Eq)]
pub(super) struct Way {
    /// How many of which pool, each pool once.
    pub takes: Vec<(usize, usize)>,
    /// The group of each person, in the order of the task's roles.
    pub groups: Vec<usize>,
}

/// When each work begins, and in which of its ways it is done.
#[derive(Clone)]
pub(super) struct Plan {
    pub starts: Vec<u32>,
    pub ways: Vec<usize>,
    pub end: u32,
}

impl Problem {
    pub(super) fn new(
        tasks: &[Task],
        order: &[usize],
        places: &[u32],
        staff: &Staff,
    ) -> Result<Problem, Impossible> {
        let groups = staff.groups.len();
        let mut problem =
            Problem { works: Vec::new(), pools: Vec::new(), groups, has_all_ways: true };
        for group in &staff.groups {
            problem.add_pool(group.people.len());
        }
        let rooms: Vec<Option<usize>> = places
            .iter()
            .enumerate()
            .map(|(place, &room)| problem.room(tasks, place, room))
            .collect();
        let mut work_of = vec![0; tasks.len()];
        for (work, &at) in order.iter().enumerate() {
            work_of[at] = work;
        }
        for &at in order {
            let task = &tasks[at];
            let room = match task.place {
                Some(place) if places.get(place).is_none_or(|&room| room == 0) => {
                    return Err(Impossible::NoRoom { task: at, place });
                }
                Some(place) => rooms[place],
                None => None,
            };
            let filled = staff.ways(at, &task.needs)?;
            problem.has_all_ways &= filled.are_all;
            problem.works.push(Work {
                minutes: task.minutes,
                earliest: task.earliest,
                after: task.after.iter().map(|&before| work_of[before]).collect(),
                before: Vec::new(),
                ways: filled.ways.into_iter().map(|groups| Way::new(groups, room)).collect(),
            });
        }
        problem.link();
        Ok(problem)
    }

    /// The pool of a place; none when all its tasks have room there at once.
    fn room(&mut self, tasks: &[Task], place: usize, room: u32) -> Option<usize> {
        let users = tasks.iter().filter(|task| task.place == Some(place)).count();
        let room = usize::try_from(room).ok().filter(|&room| room > 0 && room < users)?;
        self.add_pool(room);
        Some(self.pools.len() - 1)
    }

    fn add_pool(&mut self, size: usize) {
        let first = self.pools.last().map_or(0, |pool| pool.end);
        self.pools.push(first..first + size);
    }

    /// Tells each work who waits for it.
    fn link(&mut self) {
        for work in 0..self.works.len() {
            self.works[work].after.sort_unstable();
            self.works[work].after.dedup();
            for before in self.works[work].after.clone() {
                self.works[before].before.push(work);
            }
        }
    }

    /// When each work begins at the earliest, were there no end of people and room.
    pub(super) fn heads(&self) -> Vec<u32> {
        let mut heads: Vec<u32> = Vec::with_capacity(self.works.len());
        for work in &self.works {
            let ends = work.after.iter().map(|&before| heads[before] + self.works[before].minutes);
            heads.push(ends.max().unwrap_or(0).max(work.earliest));
        }
        heads
    }

    /// How long it takes at least from the beginning of each work to the end of everything.
    pub(super) fn tails(&self) -> Vec<u32> {
        let mut tails = vec![0; self.works.len()];
        for (work, it) in self.works.iter().enumerate().rev() {
            let after = it.before.iter().map(|&next| tails[next]).max().unwrap_or(0);
            tails[work] = it.minutes + after;
        }
        tails
    }

    /// Some of the works by themselves, which begin no sooner than a time: all that they wait for
    /// besides each other has ended by then.
    pub(super) fn part(&self, members: &[usize], floor: u32) -> Problem {
        let here = |work: &usize| members.binary_search(work).ok();
        let part = |&member: &usize| {
            let work = &self.works[member];
            Work {
                minutes: work.minutes,
                earliest: work.earliest.max(floor),
                after: work.after.iter().filter_map(here).collect(),
                before: work.before.iter().filter_map(here).collect(),
                ways: work.ways.clone(),
            }
        };
        self.with(members.iter().map(part).collect())
    }

    /// The same from the end to the beginning, without earliest beginnings.
    pub(super) fn reversed(&self) -> Problem {
        let last = self.works.len().saturating_sub(1);
        let mirrored = |works: &Vec<usize>| works.iter().map(|work| last - work).collect();
        let reversed = |work: &Work| Work {
            minutes: work.minutes,
            earliest: 0,
            after: mirrored(&work.before),
            before: mirrored(&work.after),
            ways: work.ways.clone(),
        };
        self.with(self.works.iter().rev().map(reversed).collect())
    }

    /// Other works for the same pools.
    fn with(&self, works: Vec<Work>) -> Problem {
        let pools = self.pools.clone();
        Problem { works, pools, groups: self.groups, has_all_ways: self.has_all_ways }
    }
}

impl Work {
    /// Whether it takes neither people nor room: it waits for other works alone.
    pub(super) fn takes_nobody(&self) -> bool {
        self.ways.iter().all(|way| way.takes.is_empty())
    }
}

impl Way {
    /// People of these groups, and room in a place.
    fn new(groups: Vec<usize>, room: Option<usize>) -> Way {
        let mut takes: Vec<(usize, usize)> = Vec::new();
        for &pool in groups.iter().chain(&room) {
            match takes.iter_mut().find(|take| take.0 == pool) {
                Some(take) => take.1 += 1,
                None => takes.push((pool, 1)),
            }
        }
        Way { takes, groups }
    }
}

/// When everybody in the pools is free again, in each pool from the first on.
#[derive(Clone)]
pub(super) struct Free {
    pub times: Vec<u32>,
}

impl Free {
    /// Everybody is free from the beginning.
    pub(super) fn new(problem: &Problem) -> Free {
        Free { times: vec![0; problem.pools.last().map_or(0, |pool| pool.end)] }
    }

    /// When as many are free as a way takes, not before a time.
    pub(super) fn start(&self, problem: &Problem, way: &Way, not_before: u32) -> u32 {
        let frees = way.takes.iter().map(|&(pool, count)| {
            let times = &self.times[problem.pools[pool].clone()];
            times[count - 1]
        });
        frees.fold(not_before, u32::max)
    }

    /// Takes as many as a way takes, those who were free last: the others may have been free for
    /// something that begins before this.
    pub(super) fn take(&mut self, problem: &Problem, way: &Way, start: u32, end: u32) {
        for &(pool, count) in &way.takes {
            let times = &mut self.times[problem.pools[pool].clone()];
            let free = times.partition_point(|&time| time <= start);
            times[free - count..free].fill(end);
            times[free - count..].sort_unstable();
        }
    }
}
