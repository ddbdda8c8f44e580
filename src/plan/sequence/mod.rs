//! In which order tonight's jobs on one machine stop it the least.
//!
//! The minutes of stop of a changeover depend on what is on the machine before, so the order of the
//! jobs decides how long the machine stands: the asymmetric travelling salesman problem, as a path with
//! a fixed start. Up to [`MOST_EXACT`] jobs `exact` finds the best order there is; above it `search`
//! finds a good one, and `bound` says how much better any other could be. Knows jobs by their place
//! in a list; [`night`] alone knows packets. Must never change an order: it gives advice.

pub mod night;

mod bound;
mod exact;
mod search;

/// The most jobs for which the best order is always looked for: `n * 2^n` sets of jobs with a last one
/// are gone through, 49,152 of 12.
pub const MOST_EXACT: usize = 12;

/// Jobs of one machine, in the order in which they are planned.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Jobs {
    /// The changeover from what is on the machine now to each job; none where it cannot be made.
    pub first: Vec<Option<Change>>,
    /// The changeover from each job (row) to each other (column).
    pub next: Vec<Vec<Option<Change>>>,
    /// Minutes that each job runs.
    pub run: Vec<u32>,
    /// Minutes from the start of the first stop until each job has to be done; below zero when that
    /// time is over. None where a job has no due time.
    pub due: Vec<Option<i64>>,
}

/// A changeover from one job to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Change {
    /// Minutes that the machine stands.
    pub stop: u32,
    /// Whether the plant wants none of these: only where no order does without.
    pub is_unwanted: bool,
}

/// How good an order is, what counts most first: fewer unwanted changeovers, then fewer minutes too
/// late over all jobs, then fewer minutes of stop. Less is better.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Worth {
    /// Unwanted changeovers.
    pub unwanted: u32,
    /// Minutes after their due times, of all jobs together.
    pub late: u64,
    /// Minutes that the machine stands.
    pub stop: u64,
}

/// When a job is made, in minutes from the start of the first stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// Minutes of stop before it.
    pub stop: u32,
    /// The machine stops for it.
    pub stops: u64,
    /// It runs from here on.
    pub runs: u64,
    /// It is done.
    pub ends: u64,
    /// Minutes after its due time.
    pub late: u64,
}

/// An order of jobs with its times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// Places of the jobs in the list, in the order in which they are made.
    pub jobs: Vec<usize>,
    /// When each is made, in this order.
    pub slots: Vec<Slot>,
    /// How good it is.
    pub worth: Worth,
}

/// The best order that was found, and how far it can be from the best there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// The order. The planned one where none better was found.
    pub best: Order,
    /// No order that has as few unwanted changeovers stops the machine for less than this.
    pub bound: u64,
    /// Whether no order at all is better.
    pub is_best: bool,
}

/// No order of the jobs was found in which every changeover can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoOrder {
    /// Whether there is none.
    pub is_proven: bool,
}

/// The best order of jobs.
///
/// # Errors
/// [`NoOrder`] when no order was found in which every changeover can be made.
pub fn best(jobs: &Jobs) -> Result<Advice, NoOrder> {
    let found = if jobs.len() <= MOST_EXACT { exact::best(jobs) } else { None };
    let planned = jobs.timed((0..jobs.len()).collect());
    if let Some(found) = found {
        let found = found.and_then(|order| jobs.timed(order));
        let best = better(planned, found).ok_or(NoOrder { is_proven: true })?;
        return Ok(Advice { bound: best.worth.stop, best, is_best: true });
    }
    let found = search::good(jobs).and_then(|order| jobs.timed(order));
    let Some(best) = better(planned, found) else {
        return Err(NoOrder { is_proven: bound::stop(jobs, true).is_none() });
    };
    // An order with as few unwanted changeovers as one that has none has none.
    let bound = bound::stop(jobs, best.worth.unwanted > 0).unwrap_or(0).min(best.worth.stop);
    let least = Worth { stop: bound, ..Worth::default() };
    Ok(Advice { bound, is_best: best.worth == least, best })
}

/// The better of two orders; the planned one when they are as good.
fn better(planned: Option<Order>, found: Option<Order>) -> Option<Order> {
    match (planned, found) {
        (Some(planned), Some(found)) if found.worth < planned.worth => Some(found),
        (planned, found) => planned.or(found),
    }
}

impl Jobs {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.first.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.first.is_empty()
    }

    /// An order with its times; none where a changeover in it cannot be made.
    pub fn timed(&self, jobs: Vec<usize>) -> Option<Order> {
        let mut worth = Worth::default();
        let mut slots = Vec::new();
        let (mut before, mut now) = (None, 0);
        for &job in &jobs {
            let change = self.change(before, job)?;
            let slot = self.slot(job, change.stop, now);
            worth = worth.and(change, slot.late);
            (before, now) = (Some(job), slot.ends);
            slots.push(slot);
        }
        Some(Order { jobs, slots, worth })
    }

    /// The changeover to a job, from another or from what is on the machine now.
    fn change(&self, before: Option<usize>, job: usize) -> Option<Change> {
        let row = match before {
            Some(before) => self.next.get(before)?,
            None => &self.first,
        };
        row.get(job).copied().flatten()
    }

    fn slot(&self, job: usize, stop: u32, stops: u64) -> Slot {
        let minutes = self.run.get(job).copied().unwrap_or(0);
        let runs = stops.saturating_add(u64::from(stop));
        let ends = runs.saturating_add(u64::from(minutes));
        let due = self.due.get(job).copied().flatten();
        let late = due.map_or(0, |due| late(ends, due));
        Slot { stop, stops, runs, ends, late }
    }
}

/// Minutes from a due time to the end of a job, none when it ends before.
fn late(ends: u64, due: i64) -> u64 {
    u64::try_from(due)
        .map_or(ends.saturating_add(due.unsigned_abs()), |due| ends.saturating_sub(due))
}

impl Worth {
    /// With one more changeover, and a job that is that late.
    fn and(self, change: Change, late: u64) -> Worth {
        Worth {
            unwanted: self.unwanted.saturating_add(u32::from(change.is_unwanted)),
            late: self.late.saturating_add(late),
            stop: self.stop.saturating_add(u64::from(change.stop)),
        }
    }
}

#[cfg(test)]
mod tests;
