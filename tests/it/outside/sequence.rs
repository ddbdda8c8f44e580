//! The order of jobs on a machine.

use serde_json::{Value, json};
use witnessmark::plan::sequence::{Change, Jobs, best};

use super::Cases;
use crate::plant::root;

const MANY: usize = 150;

/// Published tables of the library TSPLIB, as far as they are solved exactly here.
const PUBLISHED: [&str; 2] = ["br17", "ftv33"];

pub(super) fn ask(cases: &mut Cases) {
    for _ in 0..MANY {
        let count = 1 + cases.dice.below(6);
        let jobs = jobs(cases, count);
        add(cases, "order", &jobs);
    }
    for _ in 0..MANY {
        let count = 2 + cases.dice.below(7);
        let first = (0..count).map(|_| plain(cases, 60)).collect();
        let next = (0..count).map(|_| (0..count).map(|_| plain(cases, 60)).collect()).collect();
        let jobs = Jobs { first, next, run: vec![0; count], due: vec![None; count] };
        add(cases, "least-stop", &jobs);
    }
    for name in PUBLISHED {
        for count in [8, 10, 12] {
            add(cases, "least-stop", &published(name, count));
        }
    }
}

fn plain(cases: &mut Cases, most: i64) -> Option<Change> {
    let stop = u32::try_from(cases.dice.between(0, most)).unwrap();
    Some(Change { stop, is_unwanted: false })
}

fn jobs(cases: &mut Cases, count: usize) -> Jobs {
    let change = |cases: &mut Cases| {
        let change = plain(cases, 90).filter(|_| cases.dice.between(1, 8) > 1)?;
        Some(Change { is_unwanted: cases.dice.between(1, 5) == 1, ..change })
    };
    let first = (0..count).map(|_| change(cases)).collect();
    let next = (0..count).map(|_| (0..count).map(|_| change(cases)).collect()).collect();
    let run = (0..count).map(|_| u32::try_from(cases.dice.between(0, 120)).unwrap()).collect();
    let due =
        |cases: &mut Cases| (cases.dice.between(1, 2) == 1).then(|| cases.dice.between(-60, 600));
    let due = (0..count).map(|_| due(cases)).collect();
    Jobs { first, next, run, due }
}

/// The first cities of a published instance: the first is what is on the machine, the others are jobs.
fn published(name: &str, count: usize) -> Jobs {
    let file = root().join(format!("src/plan/sequence/{name}.txt"));
    let text = std::fs::read_to_string(file).unwrap();
    let change = |word: &str| {
        let stop = word.parse().ok()?;
        Some(Change { stop, is_unwanted: false })
    };
    let mut rows = text
        .lines()
        .take(count + 1)
        .map(|line| line.split_whitespace().skip(1).take(count).map(change).collect::<Vec<_>>());
    let first = rows.next().unwrap();
    Jobs { first, next: rows.collect(), run: vec![0; count], due: vec![None; count] }
}

fn add(cases: &mut Cases, kind: &str, jobs: &Jobs) {
    let change = |change: &Option<Change>| {
        change.map_or(Value::Null, |own| json!([own.stop, own.is_unwanted]))
    };
    let row = |row: &Vec<Option<Change>>| row.iter().map(change).collect::<Vec<_>>();
    let given = json!({
        "first": row(&jobs.first),
        "next": jobs.next.iter().map(row).collect::<Vec<_>>(),
        "run": jobs.run,
        "due": jobs.due,
    });
    let answer = best(jobs).map_or(Value::Null, |advice| {
        let worth = advice.best.worth;
        json!({ "unwanted": worth.unwanted, "late": worth.late, "stop": worth.stop })
    });
    cases.add(kind, &given, &json!({ "best": answer }));
}
