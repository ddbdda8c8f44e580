use std::collections::BTreeSet;

use super::{Asked, Choice, Job, Plan, Span, Staff, choices, chosen, longest};
use crate::packet::model::{
    EnergyState, GroupLockout, Meaning, Member, Packet, Present, Row, Sign, Stage, Step, Table,
    Zone,
};
use crate::record::fixture;

/// A step: `stage minutes who`, where who is `technician`, `technician?lead` with who checks after the
/// mark, `-` for nobody; `in` behind it reaches into the zone `z`.
fn step(number: usize, words: &str) -> Step {
    let words: Vec<&str> = words.split(' ').collect();
    let (does, checks) = words[2].split_once('?').unwrap_or((words[2], ""));
    let sign = |meaning, role: &str| Sign { meaning, role: role.into(), row: None, by: None };
    let roles = |text: &str, meaning: Meaning| -> Vec<Sign> {
        let roles = text.split('+').filter(|role| !role.is_empty() && *role != "-");
        roles.map(|role| sign(meaning, role)).collect()
    };
    let is_inside = words.get(3) == Some(&"in");
    Step {
        number: u32::try_from(number).unwrap() + 1,
        id: format!("a.{number}"),
        procedure: "a".into(),
        nth: 1,
        stage: serde_json::from_str::<Stage>(&format!("\"{}\"", words[0])).unwrap(),
        needs: if is_inside { EnergyState::Isolated } else { EnergyState::Any },
        zone: is_inside.then(|| "z".into()),
        block: None,
        marks: Vec::new(),
        minutes: Some(words[1].parse().unwrap()),
        people: 1,
        while_running: false,
        stays: None,
        table: None,
        readings: Vec::new(),
        signs: [roles(does, Meaning::Performed), roles(checks, Meaning::Verified)].concat(),
        ..fixture::packet().steps[0].clone()
    }
}

fn packet(steps: &[&str]) -> Packet {
    let zone = Zone { id: "z".into(), at_once: 1, ..fixture::packet().zones[0].clone() };
    Packet {
        steps: steps.iter().enumerate().map(|(at, words)| step(at, words)).collect(),
        zones: vec![zone],
        order: Vec::new(),
        ..fixture::packet()
    }
}

fn present(id: &str, roles: &[&str]) -> Present {
    let roles = roles.iter().map(|role| (*role).to_owned()).collect();
    Present { id: id.into(), name: id.to_uppercase(), roles }
}

fn planned(packet: &Packet) -> Vec<Choice> {
    let jobs = [Job { packet, earliest: 0, runs: None }];
    choices(&Staff::of(&jobs), &jobs)
}

fn lacks(choice: &Choice) -> (usize, &Asked) {
    let lack = choice.plan.as_ref().unwrap_err();
    (lack.step, &lack.what)
}

fn plan_of(packet: &Packet, people: usize) -> Plan {
    planned(packet).remove(people - 1).plan.unwrap()
}

const DAY: &[&str] = &[
    "work 3 technician",
    "notify 2 technician",
    "shutdown 4 technician",
    "work 10 technician?lead in",
    "restart 5 technician",
];

#[test]
fn nobody_checks_what_this_person_did() {
    let all = planned(&packet(DAY));
    assert_eq!(all.len(), 6);
    assert_eq!(lacks(&all[0]), (3, &Asked::AtOnce(2)));
    let plan = all[1].plan.as_ref().unwrap();
    let bar = plan.bar(0, 3).unwrap();
    assert_eq!((bar.does.len(), bar.checks.len()), (1, 1));
    assert_ne!(bar.does, bar.checks);
    assert_eq!((plan.minutes, plan.stops[0]), (24, Some(Span { from: 5, to: 24 })));
}

#[test]
fn a_named_crew_has_the_roles_it_has() {
    let mut named = packet(DAY);
    named.job.people =
        vec![present("t", &["technician"]), present("u", &["technician"]), present("l", &["lead"])];
    let all = planned(&named);
    assert_eq!(all.len(), 3);
    let lead = Asked::Roles(vec!["lead".to_owned()]);
    assert_eq!(lacks(&all[0]), (3, &lead));
    assert_eq!(lacks(&all[1]), (3, &lead));
    assert_eq!(all[2].plan.as_ref().unwrap().bar(0, 3).unwrap().checks, [2]);
    let jobs = [Job { packet: &named, earliest: 0, runs: None }];
    assert_eq!(chosen(&Staff::of(&jobs), &all).map(|(people, _)| people), Some(3));
    // When everybody together cannot do it, no smaller crew is shown in their place.
    assert_eq!(chosen(&Staff::of(&jobs), &all[..2]), None);
}

/// Two roles for the rows of one step: one person who has both, else two.
#[test]
fn several_roles_are_one_person_only_where_somebody_has_them_all() {
    let both = packet(&["work 5 electrician+technician"]);
    let bar = |packet: &Packet, people| plan_of(packet, people).bars.remove(0);
    assert_eq!(bar(&both, 1).does, [0]);
    let mut named = both.clone();
    named.job.people = vec![present("t", &["technician"]), present("e", &["electrician"])];
    assert_eq!(lacks(&planned(&named)[0]).1, &Asked::Roles(vec!["electrician".to_owned()]));
    assert_eq!(bar(&named, 2).does.len(), 2);
}

#[test]
fn a_step_for_two_takes_two() {
    let mut heavy = packet(&["work 5 technician"]);
    heavy.steps[0].people = 2;
    assert_eq!(lacks(&planned(&heavy)[0]), (0, &Asked::AtOnce(2)));
    assert_eq!(plan_of(&heavy, 2).bars[0].does, [0, 1]);
}

/// A job with a crew under the locks: who signs a row, and who may be behind the guard.
fn crew_job() -> Packet {
    let mut packet = packet(&["lock 2 technician", "work 1 -", "work 9 technician in"]);
    let member =
        |id: &str| Member { id: id.into(), name: id.to_uppercase(), role: "technician".into() };
    let row = |id: &str| Row { id: id.into(), ..Row::default() };
    let sign = |id: &str| Sign {
        meaning: Meaning::Performed,
        role: "technician".into(),
        row: Some(id.into()),
        by: Some(id.into()),
    };
    packet.steps[1].signs = vec![sign("a"), sign("b")];
    packet.steps[1].table = Some(Table { columns: Vec::new(), rows: vec![row("a"), row("b")] });
    packet.job.lockout = Some(GroupLockout {
        crew: vec![member("a"), member("b")],
        primary: Some(member("a")),
        ..GroupLockout::default()
    });
    packet
}

#[test]
fn everybody_of_a_crew_puts_on_the_own_lock_and_nobody_else_reaches_in() {
    let mut packet = crew_job();
    packet.job.people = vec![
        present("x", &["technician"]),
        present("a", &["technician"]),
        present("b", &["technician"]),
    ];
    let all = planned(&packet);
    assert_eq!(lacks(&all[0]), (1, &Asked::Person("A".to_owned())));
    assert_eq!(lacks(&all[1]), (1, &Asked::Person("B".to_owned())));
    let plan = all[2].plan.as_ref().unwrap();
    assert_eq!(BTreeSet::from_iter(plan.bar(0, 1).unwrap().does.clone()), BTreeSet::from([1, 2]));
    assert!(plan.bar(0, 2).unwrap().does.iter().all(|worker| *worker != 0));
}

#[test]
fn where_nobody_is_stated_the_crew_is_counted_first() {
    let packet = crew_job();
    let staff = Staff::of(&[Job { packet: &packet, earliest: 0, runs: None }]);
    let ids: Vec<&str> = staff.workers.iter().map(|worker| worker.id.as_str()).collect();
    assert_eq!(ids, ["a", "b", "", "", "", ""]);
    assert!(!staff.is_named);
    let inside = plan_of(&packet, 6).bar(0, 2).unwrap().does.clone();
    assert!(inside == [0] || inside == [1], "{inside:?} has no lock on");
}

#[test]
fn of_a_long_list_the_first_are_counted_and_the_rest_is_told() {
    let mut packet = packet(DAY);
    packet.job.people = (0..15).map(|at| present(&at.to_string(), &["technician"])).collect();
    let staff = Staff::of(&[Job { packet: &packet, earliest: 0, runs: None }]);
    assert_eq!((staff.workers.len(), staff.left_out), (12, 3));
    assert_eq!(staff.sizes().collect::<Vec<_>>(), [1, 2, 3, 4, 5, 6, 12]);
}

#[test]
fn jobs_on_one_machine_come_one_after_the_other_and_share_their_people() {
    let one = packet(DAY);
    let mut two = packet(DAY);
    two.job.id = "J-2".into();
    let mut other = two.clone();
    other.machine.id = "other".into();
    let plan = |second: &Packet, people: usize| {
        let jobs = [
            Job { packet: &one, earliest: 0, runs: None },
            Job { packet: second, earliest: 0, runs: None },
        ];
        choices(&Staff::of(&jobs), &jobs).remove(people - 1).plan.unwrap()
    };
    let after = plan(&two, 6);
    let ends = |plan: &Plan, job| -> Vec<Span> {
        plan.bars.iter().filter(|bar| bar.job == job).map(|bar| bar.span).collect()
    };
    let last = ends(&after, 0).iter().map(|span| span.to).max().unwrap();
    assert!(ends(&after, 1).iter().all(|span| span.from >= last));
    assert_eq!(after.minutes, 48);
    assert_eq!(plan(&other, 6).minutes, 24, "two machines at once with people enough");
    for people in 2..6 {
        let plan = plan(&other, people);
        for (at, bar) in plan.bars.iter().enumerate() {
            for later in &plan.bars[at + 1..] {
                let own = || bar.does.iter().chain(&bar.checks);
                let shares = own()
                    .any(|worker| later.does.contains(worker) || later.checks.contains(worker));
                let apart = bar.span.to <= later.span.from || later.span.to <= bar.span.from;
                assert!(!shares || apart, "{people} people: {bar:?} and {later:?}");
            }
        }
    }
}

/// The kit of the next job may be fetched while the line runs; its stop waits for the order.
#[test]
fn a_line_runs_before_it_stops_for_the_next_job() {
    let (one, two) = (packet(DAY), packet(DAY));
    let stops = |runs| {
        let jobs = [&one, &two].map(|packet| Job { packet, earliest: 0, runs });
        let plan = choices(&Staff::of(&jobs), &jobs).remove(5).plan.unwrap();
        (plan.stops.iter().map(|stop| stop.unwrap()).collect::<Vec<_>>(), plan.minutes)
    };
    let (short, _) = stops(None);
    let (long, minutes) = stops(Some(100));
    assert_eq!(long[0], short[0]);
    assert!(short[1].from < long[0].to + 100);
    assert_eq!(long[1].from, long[0].to + 100);
    assert_eq!(minutes, stops(Some(101)).1 - 1, "nothing runs behind the last one");
}

#[test]
fn a_job_waits_for_its_start() {
    let (one, mut two) = (packet(DAY), packet(DAY));
    two.machine.id = "other".into();
    let jobs = [
        Job { packet: &one, earliest: 0, runs: None },
        Job { packet: &two, earliest: 60, runs: None },
    ];
    let plan = choices(&Staff::of(&jobs), &jobs).remove(5).plan.unwrap();
    assert!(plan.bars.iter().filter(|bar| bar.job == 1).all(|bar| bar.span.from >= 60));
    assert_eq!(plan.minutes, 84);
}

/// Alone, each step in a row is critical; beside a longer step of another person one is not.
#[test]
fn spare_time_is_what_a_step_may_begin_later() {
    let mut packet = packet(&["work 2 -", "work 9 -", "work 4 -", "work 1 -"]);
    // Two procedures that wait for nothing but the first.
    for (step, procedure) in packet.steps.iter_mut().zip(["a", "b", "c", "d"]) {
        step.procedure = procedure.into();
    }
    let part = |procedure: &str, after: &[&str]| {
        serde_json::from_value(serde_json::json!({
            "procedure": procedure, "by": "machine", "place": "m:1", "after": after,
        }))
        .unwrap()
    };
    packet.order =
        vec![part("a", &[]), part("b", &["a"]), part("c", &["a"]), part("d", &["b", "c"])];
    let spare = |people| -> Vec<u32> {
        plan_of(&packet, people).bars.iter().map(|bar| bar.spare).collect()
    };
    assert_eq!(spare(1), [0, 0, 0, 0]);
    assert_eq!(spare(2), [0, 0, 5, 0]);
    assert_eq!(longest(&[Job { packet: &packet, earliest: 0, runs: None }]), 12);
    assert!(plan_of(&packet, 2).is_best);
}

#[test]
fn the_distance_from_the_bound_is_never_rounded_to_nothing() {
    let mut plan = plan_of(&packet(DAY), 2);
    assert_eq!((plan.above_bound(), plan.percent_above(), plan.is_best), (0, 0, true));
    (plan.minutes, plan.bound) = (301, 300);
    assert_eq!((plan.above_bound(), plan.percent_above()), (1, 1));
    (plan.minutes, plan.bound) = (5, 0);
    assert_eq!(plan.percent_above(), 500);
}

#[test]
fn a_packet_without_steps_has_a_plan_of_nothing() {
    let plan = plan_of(&packet(&[]), 1);
    assert_eq!((plan.minutes, plan.stops, plan.bars), (0, vec![None], Vec::new()));
}
