use super::{Asked, Drift, NEVER_FAILED, Question, name_of};
use crate::history::run::{Done, Read, Run, Signature, Value};
use crate::language::Language;
use crate::record::entry::{Kind, Verdict};
use crate::record::time;

const AT: &str = "2026-03-02T05:00:00+01:00";

fn signature(by: &str, at: &str) -> Signature {
    Signature { by: by.to_owned(), kind: Kind::Performed, at: time::parse(at).unwrap() }
}

/// A step that nobody came to.
fn step(id: &str) -> Done {
    Done {
        id: id.to_owned(),
        title: "Set the knives".to_owned(),
        procedure: "knives".to_owned(),
        revision: "4".to_owned(),
        minutes: 5,
        while_running: false,
        shuts_down: false,
        runs: false,
        signatures: Vec::new(),
        deviations: 0,
        corrections: 0,
    }
}

fn done() -> Done {
    Done { signatures: vec![signature("a", AT)], ..step("knives.set") }
}

fn deviated() -> Done {
    Done { deviations: 1, ..done() }
}

fn read(blank: &str, failed: bool, protects: bool) -> Read {
    let at = time::parse(AT).unwrap();
    let value = Value { entry: 1, at, text: "1".to_owned(), verdict: Verdict::Within };
    Read {
        blank: blank.to_owned(),
        step: "knives.set".to_owned(),
        procedure: "knives".to_owned(),
        label: format!("Label of {blank}"),
        unit: "mm".to_owned(),
        instrument: None,
        target: None,
        low: None,
        high: None,
        setting: None,
        first: value.clone(),
        last: value,
        count: 1,
        corrections: 0,
        failed,
        protects,
    }
}

fn run(steps: Vec<Done>, blanks: Vec<Read>) -> Run {
    Run {
        record: "J-1".to_owned(),
        job: "J-1".to_owned(),
        machine: "pouch-6".to_owned(),
        machine_name: "Pouch line".to_owned(),
        from: "a".to_owned(),
        to: "b".to_owned(),
        revision: "1".to_owned(),
        state: None,
        steps,
        blanks,
        released: None,
    }
}

/// What so many runs of each kind ask.
fn asked(runs: &[(u64, &Run)]) -> Vec<Question> {
    let mut drift = Drift::default();
    for (count, run) in runs {
        (0..*count).for_each(|_| drift.take(run));
    }
    drift.questions()
}

/// Kind, count and runs of each question.
#[track_caller]
fn check(runs: &[(u64, &Run)], expected: &[(&str, u64, u64)]) {
    let questions = asked(runs);
    let numbers = |one: &Question| {
        let (count, runs) = one.numbers();
        (one.kind(), count, runs)
    };
    assert_eq!(questions.iter().map(numbers).collect::<Vec<_>>(), expected);
}

#[test]
fn four_of_five_runs_with_a_deviation_are_asked_about() {
    let (plain, other) = (run(vec![done()], vec![]), run(vec![deviated()], vec![]));
    check(&[(1, &plain), (4, &other)], &[("often-deviated", 4, 5)]);
    check(&[(2, &plain), (3, &other)], &[]);
    check(&[(4, &other)], &[]);
    check(&[(21, &plain), (79, &other)], &[]);
    check(&[(20, &plain), (80, &other)], &[("often-deviated", 80, 100)]);
    // Several deviations in one run are one run.
    let twice = run(vec![Done { deviations: 4, ..done() }], vec![]);
    check(&[(4, &plain), (1, &twice)], &[]);
}

#[test]
fn a_step_that_nobody_came_to_has_no_run() {
    let nobody = run(vec![step("knives.set")], vec![]);
    let unsigned = run(vec![Done { deviations: 1, ..step("knives.set") }], vec![]);
    check(&[(50, &nobody), (5, &unsigned)], &[("often-deviated", 5, 5)]);
    let mut drift = Drift::default();
    drift.take(&nobody);
    assert_eq!(drift, Drift::default());
}

#[test]
fn a_reading_is_asked_about_from_two_hundred_runs_without_a_fault_on() {
    let of = |failed: [bool; 2]| {
        let [first, second] = failed;
        let blanks = vec![
            read("knives.set/position-1", first, false),
            read("knives.set/position-2", second, false),
        ];
        run(vec![done()], blanks)
    };
    let within = of([false, false]);
    check(&[(NEVER_FAILED - 1, &within)], &[]);
    check(&[(NEVER_FAILED, &within)], &[("never-failed", 0, 200)]);
    check(&[(500, &within), (1, &of([false, true]))], &[]);
    check(&[(500, &within), (1, &of([true, false]))], &[]);
}

#[test]
fn a_reading_that_protects_people_is_never_put_up_for_leaving_out() {
    let blanks =
        vec![read("knives.set/air", false, true), read("knives.set/position-1", false, false)];
    let questions = asked(&[(200, &run(vec![done()], blanks))]);
    let protects = |question: &Question| match &question.asked {
        Asked::NeverFailed { protects, .. } => *protects,
        _ => panic!("{question:?}"),
    };
    assert_eq!(questions.iter().map(protects).collect::<Vec<_>>(), [true, false]);
    let means = |at: usize| questions[at].means().shown(Language::English);
    assert!(means(0).contains("it stays"), "{}", means(0));
    assert!(!means(1).contains("it stays"), "{}", means(1));
}

/// So many steps, each signed by one person at a time.
fn signed(times: &[(&str, &str)]) -> Run {
    let one = |(number, (by, at)): (usize, &(&str, &str))| Done {
        signatures: vec![signature(by, at)],
        ..step(&format!("knives.step-{number}"))
    };
    run(times.iter().enumerate().map(one).collect(), vec![])
}

fn together(count: u64, times: &[(&str, &str)]) -> usize {
    asked(&[(count, &signed(times))]).len()
}

#[test]
fn six_steps_in_one_minute_by_one_person_are_together_and_five_are_not() {
    assert_eq!(together(5, &[("a", AT); 6]), 6);
    assert_eq!(together(4, &[("a", AT); 6]), 0, "too few runs");
    assert_eq!(together(5, &[("a", AT); 5]), 0);
    let mut two = [("a", AT); 6];
    two[5].0 = "b";
    assert_eq!(together(5, &two), 0, "two people");
    let mut five = signed(&[("a", AT); 5]);
    for step in &mut five.steps {
        step.signatures.push(Signature { kind: Kind::Verified, ..signature("a", AT) });
    }
    assert_eq!(asked(&[(5, &five)]).len(), 0, "five steps, each with two signatures");
}

#[test]
fn a_minute_ends_where_the_clock_says_and_is_the_same_in_every_time_zone() {
    let with = |last| {
        let mut times = [("a", AT); 6];
        times[5].1 = last;
        together(5, &times)
    };
    assert_eq!(with("2026-03-02T05:00:59+01:00"), 6);
    assert_eq!(with("2026-03-02T05:01:00+01:00"), 0);
    assert_eq!(with("2026-03-02T04:59:59+01:00"), 0);
    assert_eq!(with("2026-03-01T22:30:30-05:30"), 6, "the same instant elsewhere");
    assert_eq!(with("2026-03-02T05:00:30Z"), 0, "the same digits, an hour later");
}

#[test]
fn half_of_the_runs_signed_together_are_asked_about() {
    let times = |step: usize| format!("2026-03-02T05:0{step}:00+01:00");
    let times: Vec<String> = (0..6).map(times).collect();
    let apart: Vec<(&str, &str)> = times.iter().map(|at| ("a", at.as_str())).collect();
    let (apart, heap) = (signed(&apart), signed(&[("a", AT); 6]));
    assert_eq!(asked(&[(5, &heap), (6, &apart)]), []);
    check(&[(5, &heap), (5, &apart)], &[("signed-together", 5, 10); 6]);
}

#[test]
fn a_new_revision_and_another_step_begin_anew() {
    let next = Done { revision: "5".to_owned(), ..deviated() };
    let other = Done { id: "knives.check".to_owned(), ..deviated() };
    let [old, next, other] = [deviated(), next, other].map(|step| run(vec![step], vec![]));
    check(&[(4, &old), (4, &next), (4, &other)], &[]);
    let questions = asked(&[(4, &old), (5, &next), (4, &other)]);
    let [question] = &questions[..] else { panic!("{questions:?}") };
    assert_eq!((question.revision.as_str(), question.numbers()), ("5", (5, 5)));
}

#[test]
fn each_use_of_a_procedure_is_a_run() {
    let again = Done { id: "knives.set--2".to_owned(), ..deviated() };
    let twice = run(vec![deviated(), again], vec![]);
    let questions = asked(&[(3, &twice)]);
    let [question] = &questions[..] else { panic!("{questions:?}") };
    assert_eq!((question.step.as_str(), question.numbers()), ("set", (6, 6)));
}

#[test]
fn counts_are_the_same_in_whatever_order_they_come() {
    let (plain, other) = (run(vec![done()], vec![]), run(vec![deviated()], vec![]));
    let zero = run(vec![done()], vec![read("knives.set/air", false, true)]);
    let one = asked(&[(900, &other), (1, &plain), (200, &zero)]);
    assert_eq!(one, asked(&[(200, &zero), (900, &other), (1, &plain)]));
    assert_eq!(one.len(), 2);
}

#[test]
fn blanks_that_differ_by_a_row_are_one_reading() {
    for (blank, name) in [
        ("knives.set/position-3", "position"),
        ("first.measure/strip-lane-6", "strip-lane"),
        ("lockout.prove/zero", "zero"),
        ("lockout.prove/jaw-heat", "jaw-heat"),
        ("lockout.prove/-", "-"),
        ("", ""),
    ] {
        assert_eq!(name_of(blank), name);
    }
}

#[test]
fn a_question_names_its_place_and_numbers_and_several_answers() {
    let questions = asked(&[(5, &run(vec![deviated()], vec![]))]);
    let [head, means] = questions[0].lines(Language::English);
    for words in ["Set the knives", "(knives, revision 4)", "5 of 5 runs"] {
        assert!(head.contains(words), "{words}: {head}");
    }
    assert!(means.matches("; or ").count() >= 2, "several answers: {means}");
    let told = serde_json::to_value(questions[0].told(Language::German)).unwrap();
    assert_eq!((&told["kind"], &told["runs"]), (&"often-deviated".into(), &5.into()));
    assert_eq!(told["machines"], serde_json::json!(["pouch-6"]));
}
