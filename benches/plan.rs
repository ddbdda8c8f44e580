//! How near the best the plans of a shift come, and what they cost, against a yardstick in the same
//! run.
//!
//! `shift/...` are twelve invented jobs on twelve machines, about sixty steps each, planned for six
//! people of three roles; all at once, and spread over the shift. The ratio is the end of the plan
//! over the bound that no plan can beat: 1.000 is the best there is. `job/N` are the same jobs one by
//! one for crews of N who can do everything, and how many of the plans are proven to be the best. The
//! yardstick is the critical path of the same steps, as often as there are steps. Run with
//! `cargo bench --bench plan`; without `--bench` it runs small, as a test of the results, never of
//! times.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::collections::BTreeSet;
use std::hint::black_box;

use witnessmark::plan::crew::{Crew, Schedule, Task, schedule};
use witnessmark::plan::network::{Activity, network};

const MACHINES: usize = 12;

/// Rooms for work at one machine.
const ZONES: usize = 4;

/// Whom a step needs.
const OPERATOR: usize = 0;
const MECHANIC: usize = 1;
const QUALITY: usize = 2;

/// A plan of a shift may end so many thousandths of its bound after it.
const MOST_ABOVE: u64 = 60;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let rounds = if full { 10 } else { 1 };
    let crew = people(&[
        &[OPERATOR],
        &[OPERATOR],
        &[OPERATOR, MECHANIC],
        &[OPERATOR, MECHANIC],
        &[OPERATOR, QUALITY],
        &[OPERATOR, MECHANIC, QUALITY],
    ]);
    for (name, apart) in [("shift/at-once", 0), ("shift/20-apart", 20), ("shift/45-apart", 45)] {
        shift(name, apart, &crew, rounds);
    }
    let jobs: Vec<Vec<Task>> = (0..if full { 100 } else { 3 }).map(one_job).collect();
    for count in 1..=6 {
        let everything: &[usize] = &[OPERATOR, MECHANIC, QUALITY];
        one_by_one(count, &jobs, &people(&vec![everything; count]), rounds.min(3));
    }
}

fn people(roles: &[&[usize]]) -> Crew {
    Crew { people: roles.iter().map(|roles| roles.iter().copied().collect()).collect() }
}

/// Twelve jobs whose starts are so many minutes apart.
fn shift(name: &str, apart: u32, crew: &Crew, rounds: u32) {
    let mut tasks = Vec::new();
    for (machine, earliest) in (0..MACHINES).zip((0..).map(|job| job * apart)) {
        add_job(&mut tasks, &mut Dice(7 + machine as u64), machine, earliest, false);
    }
    let places = vec![1; MACHINES * ZONES];
    let plan = schedule(&tasks, &places, crew).unwrap();
    holds(&tasks, &plan);
    let above = u64::from(plan.end - plan.bound) * 1000 / u64::from(plan.bound);
    assert!(above <= MOST_ABOVE, "{name}: {} minutes, the bound is {}", plan.end, plan.bound);
    let ours = least(rounds, &|| drop(black_box(schedule(&tasks, &places, crew))));
    let yardstick = least(rounds, &|| critical_paths(&tasks));
    println!(
        "{name:<15} {} steps, {} people: {} min, bound {} min, ratio 1.{above:03}{}; {} ms, {} x \
         the yardstick; under one second: {}",
        tasks.len(),
        crew.people.len(),
        plan.end,
        plan.bound,
        if plan.is_best { ", proven the best" } else { "" },
        thousandths(ours / 1000),
        thousandths(ours * 1000 / yardstick),
        if ours < 1_000_000_000 { "yes" } else { "NO" },
    );
}

/// Jobs by themselves.
fn one_by_one(count: usize, jobs: &[Vec<Task>], crew: &Crew, rounds: u32) {
    let places = vec![1; ZONES];
    let (mut proven, mut planned, mut possible, mut worst, mut slowest) = (0, 0, 0, 0, 0);
    for job in jobs {
        planned += 1;
        let Ok(plan) = schedule(job, &places, crew) else { continue };
        holds(job, &plan);
        possible += 1;
        proven += u32::from(plan.is_best);
        worst = worst.max(u64::from(plan.end - plan.bound) * 1000 / u64::from(plan.bound));
        let time = least(rounds, &|| drop(black_box(schedule(job, &places, crew))));
        slowest = slowest.max(time);
    }
    assert!(count == 1 || possible == planned, "two can do any of them");
    println!(
        "job/{count:<11} {planned} jobs, {possible} possible, {proven} proven the best, the others \
         at most 1.{worst:03} of the bound; slowest {} ms",
        thousandths(slowest / 1000)
    );
}

/// The yardstick: the critical path, once for each step.
fn critical_paths(tasks: &[Task]) {
    let alone = |task: &Task| Activity { minutes: task.minutes, after: task.after.clone() };
    let activities: Vec<Activity> = tasks.iter().map(alone).collect();
    for _ in tasks {
        drop(black_box(network(black_box(&activities))));
    }
}

/// Nobody is at two steps at once, and no step begins before those that it waits for have ended.
fn holds(tasks: &[Task], plan: &Schedule) {
    let end = |at: usize| plan.starts[at] + tasks[at].minutes;
    let mut busy: Vec<(usize, u32, u32)> = Vec::new();
    for (at, task) in tasks.iter().enumerate() {
        assert!(task.after.iter().all(|&before| end(before) <= plan.starts[at]));
        assert!(plan.starts[at] >= task.earliest && end(at) <= plan.end);
        assert_eq!(plan.who[at].iter().collect::<BTreeSet<_>>().len(), task.needs.len());
        busy.extend(plan.who[at].iter().map(|&person| (person, plan.starts[at], end(at))));
    }
    busy.sort_unstable();
    assert!(busy.windows(2).all(|two| two[0].0 != two[1].0 || two[0].2 <= two[1].1));
}

/// A job by itself; every fourth is one that a person can do alone.
fn one_job(seed: u64) -> Vec<Task> {
    let mut tasks = Vec::new();
    add_job(&mut tasks, &mut Dice(1000 + seed), 0, 0, seed.is_multiple_of(4));
    tasks
}

/// A changeover: made ready while the line runs, locked out by one after the other, worked on in
/// zones beside each other, given back, run and checked, cleared up.
fn add_job(
    tasks: &mut Vec<Task>,
    dice: &mut Dice,
    machine: usize,
    earliest: u32,
    is_for_one: bool,
) {
    let first = tasks.len();
    let mut ready: Vec<usize> = Vec::new();
    for _ in 0..3 + dice.below(4) {
        ready.push(add(tasks, dice, 8, Vec::new(), vec![OPERATOR]));
    }
    let mut last = ready;
    for _ in 0..5 + dice.below(4) {
        last = vec![add(tasks, dice, 4, last, vec![MECHANIC])];
    }
    let locked = last;
    let mut zones = Vec::new();
    for zone in 0..ZONES {
        let mut last = locked.clone();
        let begun = tasks.len();
        for _ in 0..5 + dice.below(6) {
            let role = if dice.below(3) == 0 { MECHANIC } else { OPERATOR };
            let is_heavy = dice.below(8) == 0 && !is_for_one;
            let needs = if is_heavy { vec![role, OPERATOR] } else { vec![role] };
            // Some steps of a zone need not wait for the one before.
            let after = if dice.below(4) == 0 { locked.clone() } else { last };
            last = vec![add(tasks, dice, 9, after, needs)];
            tasks[last[0]].place = Some(machine * ZONES + zone);
        }
        zones.extend(begun..tasks.len());
    }
    let mut last = zones;
    for _ in 0..4 + dice.below(3) {
        last = vec![add(tasks, dice, 3, last, vec![MECHANIC])];
    }
    for _ in 0..3 + dice.below(3) {
        let needs = if is_for_one { vec![OPERATOR] } else { vec![OPERATOR, QUALITY] };
        last = vec![add(tasks, dice, 6, last, needs)];
    }
    for _ in 0..3 + dice.below(3) {
        add(tasks, dice, 7, last.clone(), vec![OPERATOR]);
    }
    tasks[first..].iter_mut().for_each(|task| task.earliest = earliest);
}

/// One step more, of one minute to so many.
fn add(
    tasks: &mut Vec<Task>,
    dice: &mut Dice,
    most: u32,
    after: Vec<usize>,
    needs: Vec<usize>,
) -> usize {
    let minutes = 1 + dice.below(most);
    tasks.push(Task { minutes, after, needs, place: None, earliest: 0 });
    tasks.len() - 1
}

/// Numbers that look random and are the same in every run: splitmix64, from memory.
struct Dice(u64);

impl Dice {
    fn below(&mut self, count: u32) -> u32 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        u32::try_from((mixed ^ (mixed >> 31)) % u64::from(count)).unwrap()
    }
}

/// The least time of several runs.
fn least(rounds: u32, work: &dyn Fn()) -> u128 {
    (0..rounds).map(|_| timed(work)).min().unwrap()
}

/// A number with its last three digits behind a point.
fn thousandths(number: u128) -> String {
    format!("{}.{:03}", number / 1000, number % 1000)
}

/// Nanoseconds of this thread alone, whatever else runs beside it.
fn timed(work: &dyn Fn()) -> u128 {
    let now = || {
        let now = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        now.tv_sec as u128 * 1_000_000_000 + now.tv_nsec as u128
    };
    let start = now();
    work();
    (now() - start).max(1)
}
