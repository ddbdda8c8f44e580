//! The length of the best plan, by trying every beginning and everybody; shares no code with the
//! planners and makes no use of orders.

use super::super::{Crew, Task};
use super::judge::fillings;

/// The least end that some plan has, for tasks that can be done.
pub fn best(tasks: &[Task], places: &[u32], crew: &Crew) -> u32 {
    let mut people: Vec<Vec<Vec<usize>>> = Vec::new();
    for task in tasks {
        // Who does it counts, and not in which role.
        let mut ways = fillings(&task.needs, crew, &mut Vec::new());
        ways.iter_mut().for_each(|way| way.sort_unstable());
        ways.sort();
        ways.dedup();
        people.push(ways);
    }
    let all = All { tasks, places, people };
    (0..).find(|&end| all.fits(end, &mut vec![None; tasks.len()])).unwrap()
}

struct All<'a> {
    tasks: &'a [Task],
    places: &'a [u32],
    people: Vec<Vec<Vec<usize>>>,
}

/// When a task begins, and which of its ways it is done in.
type Set = Option<(u32, usize)>;

impl All<'_> {
    /// Whether everything that is not set yet can be set so that it ends in time.
    fn fits(&self, end: u32, set: &mut Vec<Set>) -> bool {
        let waits = |&at: &usize| self.tasks[at].after.iter().all(|&before| set[before].is_some());
        let Some(at) = (0..set.len()).find(|at| set[*at].is_none() && waits(at)) else {
            return true;
        };
        let ends = self.tasks[at].after.iter().map(|&before| self.end(before, set));
        let from = ends.max().unwrap_or(0).max(self.tasks[at].earliest);
        for start in from..=end.saturating_sub(self.behind(at)) {
            for way in 0..self.people[at].len() {
                set[at] = Some((start, way));
                if start + self.behind(at) <= end && self.holds(at, set) && self.fits(end, set) {
                    return true;
                }
            }
        }
        set[at] = None;
        false
    }

    fn end(&self, at: usize, set: &[Set]) -> u32 {
        set[at].unwrap().0 + self.tasks[at].minutes
    }

    /// The longest way from the beginning of a task to the end of everything.
    fn behind(&self, at: usize) -> u32 {
        let next = (0..self.tasks.len()).filter(|&next| self.tasks[next].after.contains(&at));
        self.tasks[at].minutes + next.map(|next| self.behind(next)).max().unwrap_or(0)
    }

    /// Whether a task that was just set goes with all that are set.
    fn holds(&self, at: usize, set: &[Set]) -> bool {
        let others = || (0..set.len()).filter(|&other| other != at && set[other].is_some());
        let (start, way) = set[at].unwrap();
        let has_people = others().all(|other| {
            let apart = self.end(at, set) <= set[other].unwrap().0 || self.end(other, set) <= start;
            let theirs = &self.people[other][set[other].unwrap().1];
            apart || !self.people[at][way].iter().any(|person| theirs.contains(person))
        });
        has_people
            && set.iter().enumerate().all(|(other, it)| it.is_none() || self.has_room(other, set))
    }

    /// Whether a place has room for a task when it begins.
    fn has_room(&self, at: usize, set: &[Set]) -> bool {
        let Some(place) = self.tasks[at].place else { return true };
        let begins = set[at].unwrap().0;
        let inside = (0..set.len()).filter(|&other| {
            let Some((start, _)) = set[other] else { return false };
            let (task, end) = (&self.tasks[other], self.end(other, set));
            let is_moment = self.tasks[at].minutes == 0;
            let there = start < begins || start == begins && (other == at || !is_moment);
            let is_in = other == at || begins < end;
            task.place == Some(place) && there && is_in
        });
        inside.count() <= self.places[place] as usize
    }
}
