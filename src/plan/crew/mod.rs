//! Who does what when: the shortest plan for so many people, and how far from the best it can be.
//!
//! A task takes one person for each role it needs, all of them from its beginning to its end, and
//! room in its place. Nothing is put down half done. Values in, values out: no packet, clock or
//! chance; the same question has the same answer everywhere, because work is limited by counting it
//! and never by time.
//!
//! A task of no minutes takes its people for a moment: it cannot fall inside a task of theirs, and
//! may fall on the beginning or the end of one.

mod bound;
mod cut;
mod list;
mod problem;
mod search;
mod staff;

#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use super::network::{Activity, Circle, in_order};
use problem::{Plan, Problem};
use staff::Staff;

/// How often the search for the best plan looks on, over all pieces of a question.
const MOST_LOOKS: u32 = 40_000;

/// One thing to be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// How long it takes.
    pub minutes: u32,
    /// Those that end before it begins, by their places in the list.
    pub after: Vec<usize>,
    /// The roles it needs: one person for each, and never one person for two.
    pub needs: Vec<usize>,
    /// Where it is done, when room there is limited.
    pub place: Option<usize>,
    /// When it begins at the earliest.
    pub earliest: u32,
}

/// The people who are there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Crew {
    /// The roles that each of them has.
    pub people: Vec<BTreeSet<usize>>,
}

/// Who does what when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// When each task begins.
    pub starts: Vec<u32>,
    /// Who does each task: a person for each role it needs, in the order of its roles.
    pub who: Vec<Vec<usize>>,
    /// When the last of them ends.
    pub end: u32,
    /// No plan for this crew ends before this.
    pub bound: u32,
    /// Whether no plan is shorter: the end is the bound.
    pub is_best: bool,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Impossible {
    /// Tasks wait for each other.
    Circle(Circle),
    /// Nobody of the crew has a role that a task needs.
    NoRole {
        /// The place of the task in the list.
        task: usize,
        /// The role.
        role: usize,
    },
    /// Each role is there, and yet a task needs more people at once than are.
    TooFew {
        /// The place of the task in the list.
        task: usize,
        /// How many people it needs.
        needs: usize,
        /// How many of its roles the crew can fill at once.
        filled: usize,
    },
    /// A task is done in a place that is not there, or where nobody may be.
    NoRoom {
        /// The place of the task in the list.
        task: usize,
        /// Its place among the places.
        place: usize,
    },
    /// Done one after another, the tasks take more minutes than a `u32` holds.
    TooLong,
}

/// Plans the tasks for the crew, with so much room in each place.
///
/// # Errors
/// [`Impossible`], with the first task that cannot be done.
pub fn schedule(tasks: &[Task], places: &[u32], crew: &Crew) -> Result<Schedule, Impossible> {
    let waits = |task: &Task| Activity { minutes: task.minutes, after: task.after.clone() };
    let order =
        in_order(&tasks.iter().map(waits).collect::<Vec<_>>()).map_err(Impossible::Circle)?;
    is_short_enough(tasks)?;
    let staff = Staff::new(tasks, crew);
    let problem = Problem::new(tasks, &order, places, &staff)?;
    let (plan, bound) = planned(&problem);
    Ok(named(tasks, &order, &problem, &staff, &plan, bound))
}

/// Plans the pieces one after the other: the plan of all of them, and a bound for its end.
///
/// Were a piece to begin some minutes sooner, its best plan would end at most so many minutes sooner:
/// it could have waited. So what a plan of the front lies above its bound is taken off the bound of
/// what follows.
fn planned(problem: &Problem) -> (Plan, u32) {
    let count = problem.works.len();
    let mut plan = Plan { starts: vec![0; count], ways: vec![0; count], end: 0 };
    let (mut bound, mut looks) = (0, MOST_LOOKS);
    let pieces = cut::pieces(problem);
    for (at, members) in pieces.iter().enumerate() {
        let part = problem.part(members, plan.end);
        // What a piece does not use is left for those behind it.
        let share = looks / u32::try_from(pieces.len() - at).unwrap_or(u32::MAX);
        let mut left = share;
        let (part, least) = piece(&part, &mut left);
        looks -= share - left;
        for (at, &work) in members.iter().enumerate() {
            (plan.starts[work], plan.ways[work]) = (part.starts[at], part.ways[at]);
        }
        bound = least - (plan.end - bound);
        plan.end = part.end;
    }
    if bound < plan.end {
        bound = bound.max(bound::least_end(problem, &bound::loads(problem)));
    }
    (plan, bound)
}

/// Plans one piece: from lists, and by search while it is small and not yet the best for certain.
fn piece(problem: &Problem, looks: &mut u32) -> (Plan, u32) {
    let loads = bound::loads(problem);
    let bound = bound::least_end(problem, &loads);
    let mut plan = list::plan(problem, bound);
    let is_open = plan.end > bound;
    if is_open && search::improve(problem, &loads, bound, &mut plan, looks) && problem.has_all_ways
    {
        return (plan.clone(), plan.end);
    }
    (plan, bound)
}

/// All times of any plan that is never idle lie below the sum of all minutes after the latest of
/// the earliest beginnings: so nothing below has to think of overflow.
fn is_short_enough(tasks: &[Task]) -> Result<(), Impossible> {
    let latest = tasks.iter().map(|task| u64::from(task.earliest)).max().unwrap_or(0);
    let whole = tasks.iter().fold(latest, |sum, task| sum + u64::from(task.minutes));
    if whole < u64::from(u32::MAX) { Ok(()) } else { Err(Impossible::TooLong) }
}

/// The plan with the names that the caller gave: places in the list, people of the crew.
fn named(
    tasks: &[Task],
    order: &[usize],
    problem: &Problem,
    staff: &Staff,
    plan: &Plan,
    bound: u32,
) -> Schedule {
    let mut starts = vec![0; tasks.len()];
    let mut groups = vec![Vec::new(); tasks.len()];
    for (work, &task) in order.iter().enumerate() {
        starts[task] = plan.starts[work];
        groups[task].clone_from(&problem.works[work].ways[plan.ways[work]].groups);
    }
    let who = staff.people(tasks, &starts, &groups);
    Schedule { starts, who, end: plan.end, bound, is_best: plan.end == bound }
}
