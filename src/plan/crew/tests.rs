use std::collections::BTreeSet;

use proptest::prelude::*;

use super::{Crew, Impossible, Schedule, Task, schedule};
use crate::plan::network::{Activity, Circle, network};
use judge::{is_possible, judge};

mod judge;
mod slow;

/// Tasks as people write them: `new-film 6*2 old-film knives` takes 6 minutes and 2 people and waits
/// for two others. Everybody has the one role.
fn tasks(table: &str) -> Vec<Task> {
    let lines = || table.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
    let names: Vec<&str> = lines().map(|words| words[0]).collect();
    let place = |name: &&str| names.iter().position(|known| known == name).unwrap();
    let task = |words: Vec<&str>| {
        let (minutes, people) = words[1].split_once('*').unwrap_or((words[1], "1"));
        Task {
            minutes: minutes.parse().unwrap(),
            after: words[2..].iter().map(place).collect(),
            needs: vec![0; people.parse().unwrap()],
            place: None,
            earliest: 0,
        }
    };
    lines().map(task).collect()
}

/// So many people who can do everything.
fn anybody(people: usize) -> Crew {
    crew(&vec![&[0_usize] as &[usize]; people])
}

fn crew(people: &[&[usize]]) -> Crew {
    Crew { people: people.iter().map(|roles| roles.iter().copied().collect()).collect() }
}

fn task(minutes: u32, after: &[usize], needs: &[usize]) -> Task {
    Task { minutes, after: after.to_vec(), needs: needs.to_vec(), place: None, earliest: 0 }
}

/// A plan that holds.
#[track_caller]
fn planned(tasks: &[Task], places: &[u32], crew: &Crew) -> Schedule {
    let plan = schedule(tasks, places, crew).unwrap();
    judge(tasks, places, crew, &plan);
    plan
}

/// The length of the best plan for crews of one, two and three people.
#[track_caller]
fn check(table: &str, best: [u32; 3]) {
    let tasks = tasks(table);
    for (people, best) in (1..).zip(best) {
        let plan = planned(&tasks, &[], &anybody(people));
        assert_eq!((plan.end, plan.bound, plan.is_best), (best, best, true), "{people} people");
    }
}

const EXAMPLE_1: &str = "A 6\nB 2 A\nC 2 A\nD 3 B\nF 2 C\nE 4 D F\nG 1 E";
const EXAMPLE_2: &str = "A 4\nB 3 A\nC 5 A\nD 2 A\nE 5 B C\nF 6 C D\nG 4 E F\nH 3 G";
const CHANGEOVER: &str = "lock 2\nguards 3 lock\nold-film 4 guards\nknives 12 guards\n\
    rails 8 guards\nnew-film 6*2 old-film knives\ntorque 4 knives rails\n\
    check 5 new-film torque\nunlock 1 check";

/// The activities of the published examples (see [`crate::plan::network`]) and the best plans for
/// limited crews, computed elsewhere by trying all orders.
#[test]
fn limited_crews_on_the_published_examples() {
    check(EXAMPLE_1, [20, 16, 16]);
    check(EXAMPLE_2, [32, 22, 22]);
}

/// Computed elsewhere by trying all orders.
#[test]
fn a_changeover_for_two_and_for_three() {
    let tasks = tasks(CHANGEOVER);
    for (people, best) in [(2, 33), (3, 29), (4, 29)] {
        let plan = planned(&tasks, &[], &anybody(people));
        assert_eq!((plan.end, plan.bound, plan.is_best), (best, best, true), "{people} people");
    }
    let alone = schedule(&tasks, &[], &anybody(1));
    assert_eq!(alone, Err(Impossible::TooFew { task: 5, needs: 2, filled: 1 }));
}

/// The starts that stand beside the best plan for two: they hold, and are as long as ours.
#[test]
fn the_known_plan_of_the_changeover_holds() {
    let starts = vec![0, 2, 5, 5, 9, 17, 23, 27, 32];
    let who = [vec![0], vec![0], vec![1], vec![0], vec![1], vec![0, 1], vec![0], vec![0], vec![0]];
    let plan = Schedule { starts, who: who.into(), end: 33, bound: 33, is_best: true };
    judge(&tasks(CHANGEOVER), &[], &anybody(2), &plan);
}

/// Every task by itself is one piece; together they are one chain of cuts.
#[test]
fn barriers_part_a_plan_into_pieces() {
    // Sixteen rounds of four works for two people; between the rounds a lockout for both.
    let mut tasks: Vec<Task> = Vec::new();
    for _ in 0..16 {
        let before: Vec<usize> = tasks.len().checked_sub(1).into_iter().collect();
        let first = tasks.len();
        tasks.extend([3, 3, 2, 2].map(|minutes| task(minutes, &before, &[0])));
        let round: Vec<usize> = (first..first + 4).collect();
        tasks.push(task(1, &round, &[0, 0]));
    }
    let plan = planned(&tasks, &[], &anybody(2));
    assert_eq!((plan.end, plan.bound, plan.is_best), (16 * 6, 16 * 6, true));
}

/// Waiting for a beginning stands across cuts: what ends sooner in front gains nothing behind.
#[test]
fn earliest_beginnings_hold_behind_a_cut() {
    let mut tasks = vec![task(5, &[], &[0]), task(5, &[], &[0]), task(4, &[0, 1], &[0])];
    tasks[2].earliest = 12;
    for (people, end) in [(1, 16), (2, 16)] {
        let plan = planned(&tasks, &[], &anybody(people));
        assert_eq!((plan.end, plan.bound, plan.is_best), (end, end, true));
    }
    tasks[2].earliest = 7;
    let ends = [1, 2].map(|people| planned(&tasks, &[], &anybody(people)).end);
    assert_eq!(ends, [14, 11]);
}

/// The one who can do less is not always the one to take.
#[test]
fn who_is_taken_matters() {
    // 0 takes ten minutes and anybody, 1 the second minute of the one who has both roles.
    let crew = crew(&[&[0], &[0, 1]]);
    let tasks = [task(10, &[], &[0]), task(1, &[], &[0]), task(9, &[1], &[1])];
    let plan = planned(&tasks, &[], &crew);
    assert_eq!((plan.end, plan.is_best), (10, true));
    assert_eq!(plan.who[0], [0]);
}

#[test]
fn a_place_holds_as_many_tasks_as_it_has_room_for() {
    let mut tasks = [task(4, &[], &[0]), task(4, &[], &[0]), task(4, &[], &[0])];
    tasks.iter_mut().for_each(|task| task.place = Some(0));
    for (room, end) in [(1, 12), (2, 8), (3, 4), (u32::MAX, 4)] {
        let plan = planned(&tasks, &[room], &anybody(3));
        assert_eq!((plan.end, plan.bound), (end, end));
    }
}

/// What takes nobody, such as cooling down, goes on by itself.
#[test]
fn what_takes_nobody_waits_for_nobody() {
    let tasks = [task(30, &[], &[]), task(5, &[], &[0]), task(5, &[0, 1], &[0])];
    let plan = planned(&tasks, &[], &anybody(1));
    assert_eq!((plan.end, plan.is_best, &plan.who[0]), (35, true, &Vec::new()));
    assert_eq!(planned(&tasks[..1], &[], &crew(&[])).end, 30);
    assert_eq!(planned(&[], &[], &crew(&[])).end, 0);
}

/// A step without minutes falls between the steps of its people, not into one.
#[test]
fn a_moment_does_not_fall_into_a_task() {
    let tasks = [task(4, &[], &[0]), task(2, &[], &[1]), task(0, &[1], &[0]), task(3, &[2], &[1])];
    let plan = planned(&tasks, &[], &crew(&[&[0], &[1]]));
    // Could it fall into the first one, the whole would take 5.
    assert_eq!((plan.end, plan.is_best), (6, true), "{plan:?}");
}

/// Who goes on with a task did what it waits for.
#[test]
fn little_is_handed_over() {
    let tasks = [task(2, &[], &[0]), task(2, &[], &[0]), task(5, &[1], &[0]), task(5, &[0], &[0])];
    let plan = planned(&tasks, &[], &anybody(2));
    assert_eq!(plan.who, [[0], [1], [1], [0]]);
}

#[test]
fn what_cannot_be_done_is_named() {
    #[track_caller]
    fn refused(tasks: &[Task], places: &[u32], crew: &Crew, why: Impossible) {
        assert_eq!(schedule(tasks, places, crew), Err(why));
    }
    let one = task(1, &[], &[0]);
    let two = task(1, &[0], &[0, 1]);
    let some = [one.clone(), two];
    refused(&some, &[], &crew(&[&[0], &[2]]), Impossible::NoRole { task: 1, role: 1 });
    refused(&some, &[], &crew(&[]), Impossible::NoRole { task: 0, role: 0 });
    let few = Impossible::TooFew { task: 1, needs: 2, filled: 1 };
    refused(&some, &[], &crew(&[&[0, 1], &[2]]), few);
    assert!(schedule(&some, &[], &crew(&[&[0, 1], &[1]])).is_ok());
    let there = |place| [Task { place: Some(place), ..one.clone() }];
    refused(&there(0), &[0], &anybody(1), Impossible::NoRoom { task: 0, place: 0 });
    refused(&there(1), &[1], &anybody(1), Impossible::NoRoom { task: 0, place: 1 });
    let circle = [task(1, &[1], &[0]), task(1, &[0], &[0])];
    refused(&circle, &[], &anybody(1), Impossible::Circle(Circle { activities: vec![0, 1] }));
    let long = [task(u32::MAX / 2, &[], &[0]), task(u32::MAX / 2 + 1, &[], &[0])];
    refused(&long, &[], &anybody(2), Impossible::TooLong);
    let late = [Task { earliest: u32::MAX, ..one }];
    refused(&late, &[], &anybody(1), Impossible::TooLong);
}

/// Many people with many roles: more ways to fill a task than are looked at.
#[test]
fn a_large_crew_is_planned_too() {
    let roles = |person: usize| (0..12).filter(move |role| (person * 7 + role * 3) % 5 < 3);
    let people: Vec<Vec<usize>> = (0..24).map(|person| roles(person).collect()).collect();
    let people: Vec<&[usize]> = people.iter().map(Vec::as_slice).collect();
    let tasks: Vec<Task> = (0..10).map(|_| task(5, &[], &[0, 1, 2, 3, 4, 5, 6, 7])).collect();
    planned(&tasks, &[], &crew(&people));
}

/// Up to `most` tasks for up to three people with up to three roles, in two places.
fn cases(most: usize, minutes: u32) -> impl Strategy<Value = (Vec<Task>, Vec<u32>, Crew)> {
    let needs = prop::sample::select(vec![
        vec![0],
        vec![0],
        vec![1],
        vec![2],
        vec![0, 0],
        vec![0, 1],
        vec![2, 1],
        vec![],
    ]);
    let place = prop::sample::select(vec![None, None, Some(0), Some(1)]);
    let earliest = prop::sample::select(vec![0, 0, 0, 0, 1, 3, 6]);
    let one = (0..=minutes, any::<u16>(), any::<u16>(), needs, place, earliest);
    let roles = prop::sample::select(vec![vec![0], vec![0, 1], vec![1, 2], vec![0, 1, 2], vec![2]]);
    let crew = prop::collection::vec(roles, 1..=3);
    let tasks = prop::collection::vec(one, 0..=most);
    let rooms = prop::collection::vec(1..=2_u32, 2);
    (tasks, rooms, crew, any::<bool>()).prop_map(|(drawn, places, people, backwards)| {
        let count = drawn.len();
        let at = |place: usize| if backwards { count - 1 - place } else { place };
        let mut tasks = Vec::new();
        for (here, (minutes, some, others, needs, place, earliest)) in drawn.into_iter().enumerate()
        {
            let waits = |before: &usize| (some & others) >> before & 1 == 1;
            let after = (0..here.min(16)).filter(waits).map(at).collect();
            tasks.push(Task { minutes, after, needs, place, earliest });
        }
        if backwards {
            tasks.reverse();
        }
        let crew = Crew { people: people.into_iter().map(BTreeSet::from_iter).collect() };
        // A crew that lacks a role is soon said; most cases are to be planned.
        let some = crew.people[0].first().copied();
        for task in tasks.iter_mut().filter(|task| !is_possible(task, &crew)) {
            if task.minutes != 1 {
                task.needs = some.into_iter().collect();
            }
        }
        (tasks, places, crew)
    })
}

/// How long a plan without gaps is.
const WITHOUT_GAPS: u32 = 120;

/// Tasks that so many people can do without ever being idle.
fn without_gaps() -> impl Strategy<Value = (Vec<Task>, usize)> {
    let cuts = prop::collection::btree_set(1..WITHOUT_GAPS, 4..16);
    let arcs =
        prop::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 90);
    (prop::collection::vec(cuts, 2..=6), arcs).prop_map(|(cuts, arcs)| {
        let mut spans: Vec<(u32, u32)> = Vec::new();
        for cuts in &cuts {
            let mut start = 0;
            for end in cuts.iter().copied().chain([WITHOUT_GAPS]) {
                spans.push((start, end));
                start = end;
            }
        }
        let mut tasks: Vec<Task> =
            spans.iter().map(|(start, end)| task(end - start, &[], &[0])).collect();
        for (one, other) in arcs {
            let (one, other) = (one.index(spans.len()), other.index(spans.len()));
            if spans[one].1 <= spans[other].0 {
                tasks[other].after.push(one);
            }
        }
        (tasks, cuts.len())
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    /// Small cases against all plans there are.
    #[test]
    fn the_best_plan_is_the_best((tasks, places, crew) in cases(8, 3)) {
        match schedule(&tasks, &places, &crew) {
            Ok(plan) => {
                judge(&tasks, &places, &crew, &plan);
                let best = slow::best(&tasks, &places, &crew);
                prop_assert!(plan.bound <= best && best <= plan.end, "{plan:?}, best {best}");
                prop_assert!(plan.is_best, "eight tasks are looked at whole: {plan:?}");
            }
            Err(_) => prop_assert!(tasks.iter().any(|task| !is_possible(task, &crew))),
        }
    }

}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    /// Larger ones: plans hold, bounds are bounds, and the same question has the same answer.
    #[test]
    fn plans_hold((tasks, places, crew) in cases(24, 20)) {
        let found = schedule(&tasks, &places, &crew);
        prop_assert_eq!(&schedule(&tasks, &places, &crew), &found);
        let Ok(plan) = found else { return Ok(()) };
        judge(&tasks, &places, &crew, &plan);
        let alone = |task: &Task| Activity { minutes: task.minutes, after: task.after.clone() };
        let alone = network(&tasks.iter().map(alone).collect::<Vec<_>>()).unwrap();
        prop_assert!(alone.minutes <= plan.bound && plan.bound <= plan.end);
        prop_assert_eq!(plan.is_best, plan.bound == plan.end);
    }

    /// Plans in which nobody is ever idle, taken apart: the bound is their length, and what is put
    /// together again is little longer.
    #[test]
    fn a_plan_without_a_gap_is_nearly_found((tasks, people) in without_gaps()) {
        let plan = planned(&tasks, &[], &anybody(people));
        prop_assert_eq!(plan.bound, WITHOUT_GAPS);
        prop_assert!(plan.end * 100 <= WITHOUT_GAPS * 107, "{} minutes", plan.end);
    }

    /// Another person makes no plan longer that is proven, and none shorter than a bound.
    #[test]
    fn another_person_does_no_harm((tasks, places, crew) in cases(12, 6), more in 0..3_usize) {
        let mut larger = crew.clone();
        larger.people.push(BTreeSet::from([more]));
        if let (Ok(few), Ok(many)) =
            (schedule(&tasks, &places, &crew), schedule(&tasks, &places, &larger))
        {
            prop_assert!(!many.is_best || many.end <= few.end, "{few:?} {many:?}");
            prop_assert!(many.bound <= few.end);
        }
    }

    /// Whatever is asked, there is an answer.
    #[test]
    fn nothing_is_too_odd(
        drawn in prop::collection::vec(
            (any::<u32>(), prop::collection::vec(0..9_usize, 0..3),
             prop::collection::vec(0..4_usize, 0..4), prop::option::of(0..3_usize), any::<u32>()),
            0..9,
        ),
        places in prop::collection::vec(any::<u32>(), 0..3),
        people in prop::collection::vec(prop::collection::btree_set(0..4_usize, 0..4), 0..9),
        few in any::<bool>(),
    ) {
        let small = |number: u32| if few { number % 64 } else { number };
        let task = |(minutes, after, needs, place, earliest)| Task {
            minutes: small(minutes), after, needs, place, earliest: small(earliest),
        };
        let tasks: Vec<Task> = drawn.into_iter().map(task).collect();
        let crew = Crew { people };
        if let Ok(plan) = schedule(&tasks, &places, &crew) {
            judge(&tasks, &places, &crew, &plan);
        }
    }
}
