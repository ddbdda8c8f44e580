use super::{When, as_written, held, items, roles};
use crate::packet::model::{Meaning, Packet, Sign};
use crate::plan::fixture::packet;

/// A lockout around work, a first piece and a run.
const GOOD: [&str; 12] = [
    "prepare/kit work =12 ~",
    "lockout/tell notify =3",
    "lockout/stop shutdown =4",
    "lockout/lock lock =6",
    "knives/set in =20",
    "jaws<lockout/clean in @web =15",
    "papers<prepare/read work =5 ~",
    "papers<prepare/file work =2 ~",
    "release/unlock unlock =6",
    "supply/fill run =8 +material-in",
    "first/measure run =12 +first-piece",
    "hand/over work =6 +run",
];

fn named(packet: &Packet, step: usize) -> &str {
    packet.steps[step].id.split('.').next_back().unwrap()
}

/// `stop: tell`, one line a task: its name and what it waits for, `before` and `after` the stop marked.
fn shown(packet: &Packet) -> Vec<String> {
    let items = items(packet);
    let line = |item: &super::Item| {
        let after: Vec<&str> = item.after.iter().map(|at| named(packet, items[*at].step)).collect();
        let when = match item.when {
            When::Before => "<",
            When::During => "",
            When::After => ">",
        };
        format!("{when}{}: {}", named(packet, item.step), after.join(" ")).trim_end().to_owned()
    };
    items.iter().map(line).collect()
}

#[track_caller]
fn check(steps: &[&str], expected: &[&str]) {
    assert_eq!(shown(&packet(steps)), expected);
}

#[test]
fn procedures_that_wait_for_less_stand_beside_each_other_between_what_is_for_everybody() {
    check(
        &GOOD,
        &[
            "<kit:",
            "<tell: kit",
            "<read: kit",
            "<file: read",
            "stop: tell file",
            "lock: stop",
            "set: lock",
            "clean: lock",
            "unlock: set clean",
            "fill: unlock",
            "measure: fill",
            "over: measure",
        ],
    );
}

#[test]
fn what_is_for_everybody_holds_whatever_a_writer_says() {
    check(
        &["a/in in", "b</test test block", "c</in in", "d</service service", "e</in in @web"],
        &["in:", "test: in", "in: test", "service: in", "in: service"],
    );
}

#[test]
fn power_and_hands_never_meet_nor_two_at_the_controls() {
    check(
        &[
            "a/power run",
            "b</hands in",
            "c</power run",
            "d</test run",
            "e</look work",
            "f</last in",
        ],
        &[
            "power:",
            "hands: power",
            "power: hands",
            "test: power",
            "look: power",
            "last: test look",
        ],
    );
}

#[test]
fn what_is_included_stays_inside() {
    let steps =
        ["x/stop work", "jars<x/one in", "glass</two in", "jars/three in", "y/run work +run"];
    let mut packet = packet(&steps);
    assert_eq!(shown(&packet), ["stop:", "one: stop", "two: stop", "three: one", "run: two three"]);
    packet.order[2].inside = "jars".to_owned();
    assert_eq!(shown(&packet), ["stop:", "one: stop", "two: one", "three: two", "run: three"]);
    // Nobody knows what waits for what in an old packet.
    packet.order.clear();
    assert_eq!(shown(&packet), ["stop:", "one: stop", "two: one", "three: two", "run: three"]);
}

#[test]
fn a_step_that_stays_is_no_task() {
    check(&["a/one work =3", "a/two work =3 !", "a/three work"], &["one:", "three: one"]);
}

#[test]
fn a_step_outside_is_held_by_its_own_procedure_and_by_what_that_waits_for() {
    let all = |steps: &[&str]| {
        let packet = packet(steps);
        let held = held(&packet);
        held.into_iter()
            .map(|(step, (by, tie))| {
                format!("{} by {}: {tie:?}", named(&packet, step), named(&packet, by))
            })
            .collect::<Vec<_>>()
    };
    let stop = "lockout/stop shutdown";
    assert_eq!(all(&["a/b work ~", stop, "papers/read work ~", "x/y in"]), ["read by stop: After"]);
    let behind = [stop, "papers</take in", "papers/read work ~", "x/y in"];
    assert_eq!(all(&behind), ["read by take: Procedure"]);
    assert_eq!(all(&[stop, "papers</read work ~", "x/y in"]), [""; 0]);
}

#[test]
fn what_nothing_waits_for_is_left_until_the_line_runs_unless_that_is_the_release() {
    let steps = [
        "lockout/stop shutdown",
        "x/y in",
        "away/put work ~",
        "run<x/start work +run",
        "z/end work ~",
    ];
    let mut packet = packet(&steps);
    assert_eq!(shown(&packet), ["stop:", "y: stop", "start: y", ">put: start", ">end: put"]);
    let release = Sign { meaning: Meaning::Released, role: "lead".to_owned(), row: None, by: None };
    packet.steps[3].signs.push(release);
    assert_eq!(shown(&packet), ["stop:", "y: stop", "put: y", "start: put", ">end: start"]);
    let written: Vec<bool> = as_written(&packet).iter().map(|item| item.is_moved).collect();
    assert_eq!(written, [false; 5]);
}

#[test]
fn each_person_has_a_role() {
    let packet = packet(&["a/b work"]);
    let mut step = packet.steps[0].clone();
    let sign = |meaning, role: &str| Sign { meaning, role: role.to_owned(), row: None, by: None };
    let (done, seen) = (Meaning::Performed, Meaning::Verified);
    let mut check = |people, signs: Vec<Sign>, expected: &[&str]| {
        (step.people, step.signs) = (people, signs);
        assert_eq!(roles(&step), expected);
    };
    check(1, vec![sign(done, "technician")], &["technician"]);
    check(2, vec![sign(done, "technician"), sign(seen, "technician")], &["technician"; 3]);
    let both = vec![sign(done, "technician"), sign(done, "electrician"), sign(seen, "lead")];
    check(1, both.clone(), &["electrician", "technician", "lead"]);
    check(3, both, &["electrician", "technician", "electrician", "lead"]);
    check(2, vec![], &[]);
}

/// Somebody reaches in under power, by minor servicing, and a step that may be done while the line runs
/// needs power too: whoever is at the controls waits, wherever the plan puts the step.
#[test]
fn nobody_is_at_the_controls_while_somebody_reaches_in() {
    for (first, second) in [("before", "after"), ("after", "before")] {
        let load = "load</load run =24 ~";
        let mut steps = vec!["touch</reach run @web =20"];
        steps.extend(GOOD);
        steps.push(load);
        if first == "after" {
            steps.retain(|step| *step != load);
            steps.insert(0, load);
        }
        let items = items(&packet(&steps));
        let place =
            |name: &str| items.iter().position(|item| named(&packet(&steps), item.step) == name);
        let [reach, load] = ["reach", "load"].map(|name| place(name).unwrap());
        let (earlier, later) = (reach.min(load), reach.max(load));
        let mut waits = vec![later];
        while let Some(at) = waits.pop().filter(|at| *at != earlier) {
            waits.extend(&items[at].after);
            assert!(!waits.is_empty(), "{first} {second}: {items:?}");
        }
    }
}

/// A proof comes after what it proves, also after what could be left until the line runs.
#[test]
fn nothing_that_a_first_piece_proves_is_left_until_after_it() {
    let mut steps = GOOD.to_vec();
    steps.insert(6, "labels<knives/count work =7 ~");
    for (old, new) in [
        ("release/unlock unlock =6", "release<knives/unlock unlock =6"),
        ("first/measure run =12 +first-piece", "first<release/measure run =12 +first-piece"),
        ("hand/over work =6 +run", "hand<first/over run =6 +run"),
    ] {
        let at = steps.iter().position(|step| *step == old).unwrap();
        steps[at] = new;
    }
    let packet = packet(&steps);
    let items = items(&packet);
    let place = |name| items.iter().position(|item| named(&packet, item.step) == name).unwrap();
    assert!(place("count") < place("measure"), "{:?}", shown(&packet));
}
