//! Critical paths, and the best plans for small crews.

use std::collections::BTreeSet;

use serde_json::{Value, json};
use witnessmark::plan::crew::{Crew, Task, schedule};
use witnessmark::plan::network::{Activity, Times, network};

use super::Cases;

const MANY: usize = 150;

pub(super) fn ask(cases: &mut Cases) {
    for _ in 0..MANY {
        critical_path(cases);
    }
    let mut planned = 0;
    while planned < MANY {
        planned += usize::from(crew_plan(cases));
    }
}

fn critical_path(cases: &mut Cases) {
    let count = 1 + cases.dice.below(14);
    let activities: Vec<Activity> = (0..count)
        .map(|place| Activity { minutes: minutes(cases, 30), after: some_before(cases, place) })
        .collect();
    let network = network(&activities).unwrap();
    let given: Vec<Value> = (activities.iter())
        .map(|activity| json!({ "minutes": activity.minutes, "after": activity.after }))
        .collect();
    let times: Vec<Value> = network.times.iter().map(times).collect();
    let answer = json!({ "minutes": network.minutes, "times": times });
    cases.add("network", &json!({ "activities": given }), &answer);
}

fn times(times: &Times) -> Value {
    json!({
        "early": [times.early_start, times.early_end],
        "late": [times.late_start, times.late_end],
        "float": [times.total_float, times.free_float],
    })
}

/// Asks for a plan; whether there is one.
fn crew_plan(cases: &mut Cases) -> bool {
    let people: Vec<BTreeSet<usize>> = (0..1 + cases.dice.below(3)).map(|_| roles(cases)).collect();
    let places: Vec<u32> = (0..2).map(|_| 1 + u32::from(cases.dice.one_in(3))).collect();
    let tasks: Vec<Task> = (0..1 + cases.dice.below(7)).map(|place| task(cases, place)).collect();
    let crew = Crew { people };
    let Ok(plan) = schedule(&tasks, &places, &crew) else { return false };
    assert!(plan.is_best, "small ones are looked at whole");
    let task = |task: &Task| {
        let Task { minutes, after, needs, place, earliest } = task;
        json!({ "minutes": minutes, "after": after, "needs": needs, "place": place,
            "earliest": earliest })
    };
    let given = json!({
        "tasks": tasks.iter().map(task).collect::<Vec<_>>(),
        "places": places,
        "people": crew.people,
        "plan": { "starts": plan.starts, "who": plan.who },
    });
    let answer = json!({ "end": plan.end, "bound": plan.bound, "is_best": plan.is_best });
    cases.add("crew", &given, &answer);
    true
}

fn task(cases: &mut Cases, place: usize) -> Task {
    let needs: &[&[usize]] = &[&[0], &[0], &[1], &[0, 0], &[0, 1], &[]];
    Task {
        minutes: cases.dice.pick(&[0, 1, 2, 3, 4, 5, 12]),
        after: some_before(cases, place),
        needs: cases.dice.pick(needs).to_vec(),
        place: cases.dice.pick(&[None, None, Some(0), Some(1)]),
        earliest: cases.dice.pick(&[0, 0, 0, 2, 5]),
    }
}

fn roles(cases: &mut Cases) -> BTreeSet<usize> {
    let roles: &[&[usize]] = &[&[0], &[0, 1], &[0, 1], &[1]];
    cases.dice.pick(roles).iter().copied().collect()
}

/// Sometimes none at all.
fn minutes(cases: &mut Cases, most: i64) -> u32 {
    u32::try_from(cases.dice.between(0, most)).unwrap()
}

/// Up to three of those before a place.
fn some_before(cases: &mut Cases, place: usize) -> Vec<usize> {
    if place == 0 {
        return Vec::new();
    }
    let some: BTreeSet<usize> = (0..cases.dice.below(4)).map(|_| cases.dice.below(place)).collect();
    some.into_iter().collect()
}
