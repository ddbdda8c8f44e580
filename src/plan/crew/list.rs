//! Plans made work by work from a list: quick, good, and seldom the best for certain.

use super::problem::{Free, Plan, Problem};

/// The best of a few lists.
pub(super) fn plan(problem: &Problem) -> Plan {
    let tails = problem.tails();
    let late_start: Vec<u32> = tails.iter().map(|tail| u32::MAX - tail).collect();
    listed(problem, &late_start)
}

/// Each time, of the works that nothing holds up any more, the one that can begin soonest is
/// planned; of several the one that comes first by `rank`, of equals the first in order.
fn listed(problem: &Problem, rank: &[u32]) -> Plan {
    let count = problem.works.len();
    let mut free = Free::new(problem);
    let mut plan = Plan { starts: vec![0; count], ways: vec![0; count], end: 0 };
    let mut waits: Vec<usize> = problem.works.iter().map(|work| work.after.len()).collect();
    let mut ready: Vec<u32> = problem.works.iter().map(|work| work.earliest).collect();
    let mut open: Vec<usize> = (0..count).filter(|&work| waits[work] == 0).collect();
    while !open.is_empty() {
        let first = |&work: &usize| {
            let ways = problem.works[work].ways.iter().enumerate();
            let starts = ways.map(|(way, it)| (free.start(problem, it, ready[work]), way));
            let (start, way) = starts.min().unwrap_or((ready[work], 0));
            (start, rank[work], work, way)
        };
        let Some((start, _, work, way)) = open.iter().map(first).min() else { break };
        let it = &problem.works[work];
        let end = start + it.minutes;
        free.take(problem, &it.ways[way], start, end);
        (plan.starts[work], plan.ways[work], plan.end) = (start, way, plan.end.max(end));
        open.retain(|&other| other != work);
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
