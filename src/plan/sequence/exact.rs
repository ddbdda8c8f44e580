//! The best order of few jobs, by dynamic programming over sets of jobs (Held and Karp 1962; Bellman
//! 1962).
//!
//! For each set of jobs that are done and each of them as the last one, the best ways to get there are
//! kept, and each is gone on with by every job that is left. Without due times one way is best: what
//! comes later costs the same whatever the order was before. With due times it is not, because a way
//! that stops the machine for less leaves more time. But which jobs are done says how long they ran
//! together, so the time on the clock is that plus the minutes of stop; of two ways with the same set
//! and the same last job, one that is no later in all and stops the machine no longer is no worse
//! whatever follows: every later job ends no later. So a way is dropped only when another has neither
//! more late minutes nor more minutes of stop, and the best order is among those that are left.
//! Unwanted changeovers count before everything else and do not depend on the clock: of two ways, the
//! one with more of them can never be the better one.

use super::{Jobs, Worth};

/// The most ways that are kept. A machine has minutes and not millions of them: far fewer come up with
/// 12 jobs and due times. Beyond it the search gives up rather than fill the memory.
const MOST: usize = 2_000_000;

/// A way through a set of jobs to the last of them.
struct Way {
    worth: Worth,
    /// The job before the last, and which of its ways.
    before: Option<(usize, usize)>,
}

/// The best order; the inner value is none when there is no order, the outer one when it would take
/// too much to find it.
#[allow(clippy::option_option, reason = "two answers that are not each other: none, and unknown")]
pub(super) fn best(jobs: &Jobs) -> Option<Option<Vec<usize>>> {
    let count = jobs.len();
    let sets = 1_usize.checked_shl(u32::try_from(count).ok()?)?;
    let mut table = Table { ways: Vec::new(), count, kept: 0 };
    table.ways.resize_with(sets.checked_mul(count)?, Vec::new);
    for job in 0..count {
        table.go_on(jobs, 1 << job, job, None);
    }
    // A set comes after every set that it holds: it is the greater number.
    for set in 1..sets {
        for job in (0..count).filter(|job| set & (1 << job) == 0) {
            for last in (0..count).filter(|last| set & (1 << last) != 0) {
                table.go_on(jobs, set | (1 << job), job, Some((set, last)));
            }
        }
        if table.kept > MOST {
            return None;
        }
    }
    Some(table.order(sets - 1))
}

struct Table {
    /// The ways to a set and its last job, at `set * count + last`.
    ways: Vec<Vec<Way>>,
    count: usize,
    kept: usize,
}

impl Table {
    fn at(&self, set: usize, last: usize) -> &[Way] {
        self.ways.get(set * self.count + last).map_or(&[], Vec::as_slice)
    }

    /// Goes on to a job, which makes the set whole, from each way to the set before.
    fn go_on(&mut self, jobs: &Jobs, set: usize, job: usize, from: Option<(usize, usize)>) {
        let Some(change) = jobs.change(from.map(|(_, last)| last), job) else { return };
        let next: Vec<Way> = match from {
            None => vec![Way { worth: step(jobs, Worth::default(), 0, change, job), before: None }],
            Some((set, last)) => {
                let ran = jobs.ran(set);
                let ways = self.at(set, last).iter().enumerate();
                let next = |(index, way): (usize, &Way)| Way {
                    worth: step(jobs, way.worth, ran, change, job),
                    before: Some((last, index)),
                };
                ways.map(next).collect()
            }
        };
        next.into_iter().for_each(|way| self.keep(set, job, way));
    }

    /// Keeps a way unless another is as good; drops those that are no better than it.
    fn keep(&mut self, set: usize, last: usize, way: Way) {
        let Some(ways) = self.ways.get_mut(set * self.count + last) else { return };
        if ways.iter().any(|other| is_no_worse(other.worth, way.worth)) {
            return;
        }
        let before = ways.len();
        ways.retain(|other| !is_no_worse(way.worth, other.worth));
        ways.push(way);
        self.kept = (self.kept + ways.len()).saturating_sub(before);
    }

    /// The order of the best way to a set, read from its end.
    fn order(&self, set: usize) -> Option<Vec<usize>> {
        if self.count == 0 {
            return Some(Vec::new());
        }
        let ends = (0..self.count).flat_map(|last| {
            let ways = self.at(set, last).iter().enumerate();
            ways.map(move |(index, way)| (way.worth, last, index))
        });
        let (_, mut last, mut index) = ends.min()?;
        let (mut set, mut order) = (set, vec![last]);
        while let Some((before, way)) = self.at(set, last).get(index)?.before {
            set &= !(1 << last);
            (last, index) = (before, way);
            order.push(last);
        }
        order.reverse();
        Some(order)
    }
}

/// What a way is worth with one more job; `ran` are the minutes that the jobs before it ran.
fn step(jobs: &Jobs, worth: Worth, ran: u64, change: super::Change, job: usize) -> Worth {
    let now = ran.saturating_add(worth.stop);
    worth.and(change, jobs.slot(job, change.stop, now).late)
}

fn is_no_worse(one: Worth, other: Worth) -> bool {
    one.unwanted < other.unwanted
        || (one.unwanted == other.unwanted && one.late <= other.late && one.stop <= other.stop)
}

impl Jobs {
    /// Minutes that the jobs of a set run together.
    fn ran(&self, set: usize) -> u64 {
        let own = self.run.iter().enumerate().filter(|(job, _)| set & (1 << job) != 0);
        own.map(|(_, minutes)| u64::from(*minutes)).fold(0, u64::saturating_add)
    }
}
