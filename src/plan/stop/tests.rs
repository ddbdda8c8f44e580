use proptest::prelude::*;

use super::{Stop, Takes, stop};
use crate::packet::model::Packet;
use crate::plan::fixture::packet;
use crate::plan::tasks::When;

const STOP: &str = "lockout/stop shutdown =4";

/// Minutes before, during and after, in the packet's own order, and what each task of the stop costs.
#[track_caller]
fn check(steps: &[&str], [before, during, after, written]: [u32; 4], costs: &[u32]) {
    let stop = stop(&packet(steps));
    assert_eq!(
        [stop.minutes_before, stop.minutes, stop.minutes_after, stop.minutes_as_written],
        [before, during, after, written]
    );
    assert_eq!(stop.of(When::During).map(|(_, cost)| cost).collect::<Vec<_>>(), costs);
}

#[test]
fn one_after_the_other_each_step_costs_its_minutes() {
    check(
        &["prepare/kit work =12", STOP, "a/x in =9", "b/run work =5 +run", "c/away work =7 ~"],
        [12, 18, 7, 18],
        &[4, 9, 5],
    );
}

#[test]
fn beside_a_longer_step_a_step_costs_nothing_and_the_longer_one_only_what_it_is_longer() {
    let steps = [STOP, "a/x in =20", "b</y in =15", "c</z in =15", "d/run work =5 +run"];
    check(&steps, [0, 29, 0, 29], &[4, 5, 0, 0, 5]);
    // Two ways of one length: neither alone is worth a minute.
    check(
        &[STOP, "a/x in =20", "b</y in =20", "d/run work =5 +run"],
        [0, 29, 0, 29],
        &[4, 0, 0, 5],
    );
}

#[test]
fn what_is_moved_out_saves_its_minutes() {
    let steps = [STOP, "a/x in =20", "papers</read work =8 ~", "d/run work =5 +run"];
    check(&steps, [8, 29, 0, 29], &[4, 20, 5]);
    let steps = [STOP, "papers</read work =30 ~", "a/x in =20", "d/run work =5 +run"];
    check(&steps, [30, 29, 0, 59], &[4, 20, 5]);
}

#[test]
fn a_machine_without_lockout_stops_for_the_first_step_that_says_so() {
    check(&["a/kit work =3 ~", "b/set work =4", "b/look work =2"], [3, 6, 0, 6], &[4, 2]);
    check(&["a/kit work =3 ~"], [3, 0, 0, 0], &[]);
    check(&[], [0; 4], &[]);
}

#[test]
fn what_could_move_out_says_what_it_takes() {
    let steps = [
        STOP,
        "a/x in =20",
        "a/swab work =2 ~",
        "papers/read work =8 ~",
        "b/wipe work",
        "c/power run",
        "locks/off unlock =1",
        "locks/count work =1",
        "d/label work +label-checked",
        "d/run work =5 +run",
    ];
    let mut packet = packet(&steps);
    let found = stop(&packet);
    let told: Vec<(usize, Takes)> =
        found.could_move.iter().map(|own| (own.step, own.takes)).collect();
    let expected = [(2, Takes::AnotherPlace(1)), (3, Takes::LessAfter(2)), (4, Takes::Running)];
    assert_eq!(told, expected);
    assert_eq!(found.unplanned, [4, 5, 8]);
    packet.zones.clear();
    assert_eq!(stop(&packet).could_move, found.could_move[..2]);
}

/// Packets of a lockout around steps of a few procedures, which wait for less or not and may run or not.
fn packets() -> impl Strategy<Value = Vec<String>> {
    let work = (0_usize..5, prop::bool::ANY, 0_usize..4, 0_u32..30);
    prop::collection::vec(work, 0..14).prop_map(|works| {
        let mut steps = vec!["prepare/kit work =5 ~".to_owned(), STOP.to_owned()];
        let mut names: Vec<(usize, bool)> = Vec::new();
        for (at, (procedure, waits, kind, minutes)) in works.into_iter().enumerate() {
            let waits = names.iter().find(|own| own.0 == procedure).map_or(waits, |own| own.1);
            names.push((procedure, waits));
            let after = if waits { "" } else { "<prepare" };
            let kind = ["in", "in @web", "work", "work ~"][kind];
            steps.push(format!("p{procedure}{after}/s{at} {kind} ={minutes}"));
        }
        steps.push("release/unlock unlock =3".to_owned());
        steps.push("hand/over work =2 +run".to_owned());
        steps
    })
}

fn made(steps: &[String]) -> Packet {
    packet(&steps.iter().map(String::as_str).collect::<Vec<_>>())
}

/// Planned minutes of the tasks of one time.
fn sum(stop: &Stop, when: When) -> u32 {
    stop.of(when).map(|(own, _)| own.minutes).sum()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_step_costs_between_nothing_and_its_minutes(steps in packets()) {
        let stop = stop(&made(&steps));
        for (item, cost) in stop.items.iter().zip(&stop.costs) {
            prop_assert!(*cost <= item.minutes);
            prop_assert!(item.when == When::During || *cost == 0);
        }
    }

    #[test]
    fn a_stop_is_no_longer_than_its_work_and_no_shorter_than_its_longest_step(steps in packets()) {
        let stop = stop(&made(&steps));
        let of = [
            (When::Before, stop.minutes_before),
            (When::During, stop.minutes),
            (When::After, stop.minutes_after),
        ];
        let mut all = 0;
        for (when, minutes) in of {
            prop_assert!(minutes <= sum(&stop, when));
            let most = stop.of(when).map(|(own, _)| own.minutes).max().unwrap_or_default();
            prop_assert!(minutes >= most);
            all += sum(&stop, when);
        }
        let packet = made(&steps);
        prop_assert_eq!(all, packet.steps.iter().filter_map(|step| step.minutes).sum::<u32>());
    }

    #[test]
    fn a_step_that_moves_out_never_lengthens_the_stop(steps in packets(), which in 0_usize..20) {
        let before = stop(&made(&steps));
        prop_assert!(before.minutes <= before.minutes_as_written);
        let mut packet = made(&steps);
        let count = packet.steps.len();
        packet.steps[which % count].while_running = true;
        let after = stop(&packet);
        prop_assert!(after.minutes <= before.minutes);
        prop_assert_eq!(after.minutes_as_written, before.minutes_as_written);
    }
}
