//! Whether a plan holds, word by word; shares no code with the planners.

use super::super::{Crew, Schedule, Task};

#[track_caller]
pub fn judge(tasks: &[Task], places: &[u32], crew: &Crew, plan: &Schedule) {
    assert_eq!((plan.starts.len(), plan.who.len()), (tasks.len(), tasks.len()));
    let end = |at: usize| plan.starts[at] + tasks[at].minutes;
    for (at, task) in tasks.iter().enumerate() {
        assert!(plan.starts[at] >= task.earliest, "{at} begins before its time");
        for &before in &task.after {
            assert!(end(before) <= plan.starts[at], "{at} does not wait for {before}");
        }
        assert_eq!(plan.who[at].len(), task.needs.len(), "{at}: {:?}", plan.who[at]);
        for (role, (need, person)) in task.needs.iter().zip(&plan.who[at]).enumerate() {
            assert!(crew.people[*person].contains(need), "{at}: {person} has no role {need}");
            assert!(!plan.who[at][..role].contains(person), "{at}: {person} for two roles");
        }
        for other in 0..at {
            let shares = plan.who[at].iter().any(|person| plan.who[other].contains(person));
            let apart = end(at) <= plan.starts[other] || end(other) <= plan.starts[at];
            assert!(!shares || apart, "{at} and {other} have somebody at once");
        }
        let Some(place) = task.place else { continue };
        let inside = (0..tasks.len()).filter(|&other| {
            let begins = match task.minutes {
                0 => plan.starts[other] < plan.starts[at],
                _ => plan.starts[other] <= plan.starts[at],
            };
            tasks[other].place == Some(place) && begins && plan.starts[at] < end(other)
        });
        let inside = inside.count() + usize::from(task.minutes == 0);
        assert!(inside <= places[place] as usize, "{at}: {inside} at once in {place}");
    }
    assert_eq!(plan.end, (0..tasks.len()).map(end).max().unwrap_or(0));
    assert!(plan.bound <= plan.end, "the bound {} is above {}", plan.bound, plan.end);
    assert_eq!(plan.is_best, plan.bound == plan.end);
}

/// Whether a crew can fill a task's roles.
pub fn is_possible(task: &Task, crew: &Crew) -> bool {
    !fillings(&task.needs, crew, &mut Vec::new()).is_empty()
}

/// All ways to fill roles with people, one for each.
pub fn fillings(needs: &[usize], crew: &Crew, so_far: &mut Vec<usize>) -> Vec<Vec<usize>> {
    let Some(role) = needs.get(so_far.len()) else { return vec![so_far.clone()] };
    let mut all = Vec::new();
    for person in 0..crew.people.len() {
        if crew.people[person].contains(role) && !so_far.contains(&person) {
            so_far.push(person);
            all.extend(fillings(needs, crew, so_far));
            so_far.pop();
        }
    }
    all
}
