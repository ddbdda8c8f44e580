use super::{Act, Asked, Drift, NEVER_FAILED, Question, minute_of, name_of};
use crate::language::Language;
use crate::packet::Packet;
use crate::packet::model::ProcedureFacts;
use crate::record::entry::{Kind, Verdict};
use crate::record::{fixture, time};

const KNIVES: &str = "knives.set";

fn packet() -> Packet {
    let mut packet = fixture::packet();
    packet.procedures.push(ProcedureFacts {
        id: "knives".to_owned(),
        title: "Knives".to_owned(),
        revision: "4".to_owned(),
        intended_use: String::new(),
        sha256: String::new(),
        language: None,
        translated_from: String::new(),
        is_old: false,
        flag: String::new(),
    });
    packet
}

fn act(number: u64, kind: Kind, step: &'static str) -> Act<'static> {
    let minute = i64::try_from(number).unwrap();
    Act { number, minute, by: "a", kind, step, reading: None, withdraws: None }
}

fn done() -> Act<'static> {
    act(1, Kind::Performed, KNIVES)
}

/// The counts of so many runs like this.
fn runs(count: u64, acts: &[Act]) -> Drift {
    let mut drift = Drift::default();
    (0..count).for_each(|_| drift.join(Drift::of(&packet(), acts)));
    drift
}

fn joined(drifts: impl IntoIterator<Item = Drift>) -> Vec<Question> {
    let mut all = Drift::default();
    drifts.into_iter().for_each(|drift| all.join(drift));
    all.questions()
}

/// Kind, count and runs of each question.
#[track_caller]
fn check(drifts: impl IntoIterator<Item = Drift>, expected: &[(&str, u64, u64)]) {
    let questions = joined(drifts);
    let found: Vec<_> = questions.iter().map(|one| (one.kind(), one.numbers())).collect();
    let found: Vec<_> = found.iter().map(|(kind, (count, runs))| (*kind, *count, *runs)).collect();
    assert_eq!(found, expected);
}

#[test]
fn four_of_five_runs_with_a_deviation_are_asked_about() {
    let raised = [act(2, Kind::DeviationRaised, KNIVES)];
    let accepted = [done(), act(2, Kind::DeviationAccepted, KNIVES)];
    let often = ("often-deviated", 4, 5);
    check([runs(1, &[done()]), runs(4, &raised)], &[often]);
    check([runs(1, &[done()]), runs(2, &raised), runs(2, &accepted)], &[often]);
    check([runs(2, &[done()]), runs(3, &raised)], &[]);
    check([runs(4, &raised)], &[]);
    check([runs(21, &[done()]), runs(79, &raised)], &[]);
    check([runs(20, &[done()]), runs(80, &raised)], &[("often-deviated", 80, 100)]);
}

#[test]
fn a_deviation_that_was_taken_back_is_none() {
    let back = Act { withdraws: Some(1), ..act(2, Kind::Withdrawn, KNIVES) };
    let acts = [act(1, Kind::DeviationRaised, KNIVES), back, act(3, Kind::Performed, KNIVES)];
    check([runs(10, &acts)], &[]);
}

#[test]
fn a_step_that_nobody_came_to_has_no_run() {
    let closed = [act(1, Kind::Abandoned, KNIVES)];
    let deviated = [act(2, Kind::DeviationRaised, KNIVES)];
    check([runs(50, &closed), runs(5, &deviated)], &[("often-deviated", 5, 5)]);
    assert_eq!(runs(3, &[act(1, Kind::Performed, "no.such-step")]), Drift::default());
}

fn read(step: &'static str, blank: &'static str, verdict: Verdict) -> Act<'static> {
    Act { reading: Some((blank, verdict)), ..act(1, Kind::Reading, step) }
}

#[test]
fn a_reading_is_asked_about_from_two_hundred_runs_without_a_fault_on() {
    let within = [
        read(KNIVES, "knives.set/position-1", Verdict::Within),
        read(KNIVES, "knives.set/position-2", Verdict::Within),
    ];
    let [first, second] = within;
    check([runs(NEVER_FAILED - 1, &within)], &[]);
    check([runs(NEVER_FAILED, &within)], &[("never-failed", 0, 200)]);
    for verdict in [Verdict::Outside, Verdict::TooClose] {
        let failed = [first, read(KNIVES, "knives.set/position-2", verdict)];
        check([runs(500, &within), runs(1, &failed)], &[]);
        // Corrected in the same run: it failed all the same.
        let corrected = [failed[1], second];
        check([runs(500, &within), runs(1, &corrected)], &[]);
    }
}

#[test]
fn a_reading_that_protects_people_is_never_put_up_for_leaving_out() {
    let zero = [read("lockout.prove", fixture::VERIFY_READING, Verdict::Within)];
    let plain = [read(KNIVES, "knives.set/position-1", Verdict::Within)];
    let questions = joined([runs(200, &zero), runs(200, &plain)]);
    let protects = |question: &Question| match &question.asked {
        Asked::NeverFailed { protects, .. } => *protects,
        _ => panic!("{question:?}"),
    };
    assert_eq!(questions.iter().map(protects).collect::<Vec<_>>(), [false, true]);
    let means = |at: usize| questions[at].means().shown(Language::English);
    assert!(means(1).contains("it stays"), "{}", means(1));
    assert!(!means(0).contains("it stays"), "{}", means(0));
}

const SIX: [&str; 6] = [
    "lockout.tell",
    "lockout.isolate",
    "lockout.prove",
    KNIVES,
    "release.unlock",
    "production.hand-over",
];

/// Steps signed by one person, each at a time.
fn signed(times: &[(&'static str, &str)]) -> Vec<Act<'static>> {
    let one = |(number, (step, at)): (u64, &(&'static str, &str))| Act {
        minute: minute_of(time::parse(at).unwrap().timestamp()),
        ..act(number, Kind::Performed, step)
    };
    (1..).zip(times).map(one).collect()
}

fn together(count: u64, times: &[(&'static str, &str)]) -> usize {
    joined([runs(count, &signed(times))]).len()
}

#[test]
fn six_steps_in_one_minute_by_one_person_are_together_and_five_are_not() {
    let at = |step| (step, "2026-03-02T05:00:00+01:00");
    assert_eq!(together(5, &SIX.map(at)), 6);
    assert_eq!(together(4, &SIX.map(at)), 0, "too few runs");
    assert_eq!(together(5, &SIX.map(at)[..5]), 0);
    let twice: Vec<_> = SIX.map(at)[..5].iter().chain(&SIX.map(at)[..5]).copied().collect();
    assert_eq!(together(5, &twice), 0, "the same five steps, each by two signatures");
    let mut two = signed(&SIX.map(at));
    two[5].by = "b";
    assert_eq!(joined([runs(5, &two)]).len(), 0, "two people");
    let mut readings = signed(&SIX.map(at));
    readings[5].kind = Kind::Reading;
    assert_eq!(joined([runs(5, &readings)]).len(), 0, "a reading is no signature of a step");
}

#[test]
fn a_minute_ends_where_the_clock_says_and_is_the_same_in_every_time_zone() {
    let mut times = SIX.map(|step| (step, "2026-03-02T05:00:00+01:00"));
    times[5].1 = "2026-03-02T05:00:59+01:00";
    assert_eq!(together(5, &times), 6);
    times[5].1 = "2026-03-02T05:01:00+01:00";
    assert_eq!(together(5, &times), 0);
    times[5].1 = "2026-03-02T04:59:59+01:00";
    assert_eq!(together(5, &times), 0);
    times[5].1 = "2026-03-01T22:30:30-05:30";
    assert_eq!(together(5, &times), 6, "the same instant elsewhere");
    times[5].1 = "2026-03-02T05:00:30Z";
    assert_eq!(together(5, &times), 0, "the same digits, an hour later");
    assert_eq!((minute_of(-1), minute_of(0), minute_of(59), minute_of(60)), (-1, 0, 0, 1));
}

#[test]
fn half_of_the_runs_signed_together_are_asked_about() {
    let apart: Vec<_> = (0..6).map(|at| format!("2026-03-02T05:0{at}:00+01:00")).collect();
    let apart: Vec<_> = SIX.into_iter().zip(apart.iter().map(String::as_str)).collect();
    let apart = signed(&apart);
    let at = |step| (step, "2026-03-02T05:00:00+01:00");
    let heap = signed(&SIX.map(at));
    assert_eq!(joined([runs(5, &heap), runs(6, &apart)]), []);
    let questions = joined([runs(5, &heap), runs(5, &apart)]);
    assert_eq!(questions.len(), 6);
    assert!(questions.iter().all(|one| one.numbers() == (5, 10)), "{questions:?}");
}

#[test]
fn a_new_revision_and_another_step_begin_anew() {
    let raised = [act(2, Kind::DeviationRaised, KNIVES)];
    let mut other = packet();
    other.procedures[0].revision = "5".to_owned();
    let mut drift = runs(4, &raised);
    (0..4).for_each(|_| drift.join(Drift::of(&other, &raised)));
    assert_eq!(drift.questions(), []);
    drift.join(runs(1, &raised));
    let [question] = &drift.questions()[..] else { panic!() };
    assert_eq!((question.revision.as_str(), question.numbers()), ("4", (5, 5)));
}

/// A procedure that is used twice in a job has two runs of each step.
#[test]
fn each_use_of_a_procedure_is_a_run() {
    let mut twice = packet();
    let mut again = twice.steps.iter().find(|step| step.id == KNIVES).unwrap().clone();
    (again.id, again.nth) = ("knives.set--2".to_owned(), 2);
    twice.steps.push(again);
    let acts =
        [act(1, Kind::DeviationRaised, KNIVES), act(2, Kind::DeviationRaised, "knives.set--2")];
    let mut drift = Drift::default();
    (0..3).for_each(|_| drift.join(Drift::of(&twice, &acts)));
    let [question] = &drift.questions()[..] else { panic!() };
    assert_eq!((question.step.as_str(), question.numbers()), ("set", (6, 6)));
}

#[test]
fn counts_are_the_same_in_whatever_order_they_are_added() {
    let raised = runs(7, &[act(2, Kind::DeviationRaised, KNIVES)]);
    let plain = runs(1, &[done()]);
    let zero = runs(200, &[read("lockout.prove", fixture::VERIFY_READING, Verdict::Within)]);
    let one = joined([raised.clone(), plain.clone(), zero.clone()]);
    assert_eq!(one, joined([zero, raised, plain]));
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
    let questions = joined([runs(5, &[act(2, Kind::DeviationRaised, KNIVES)])]);
    let [head, means] = questions[0].lines(Language::English);
    for words in ["knives", "revision 4", "5 of 5 runs"] {
        assert!(head.contains(words), "{words}: {head}");
    }
    assert!(means.matches(';').count() >= 2, "several answers: {means}");
    let told = serde_json::to_value(questions[0].told(Language::German)).unwrap();
    assert_eq!((&told["kind"], &told["runs"]), (&"often-deviated".into(), &5.into()));
    assert_eq!(told["machines"], serde_json::json!(["pouch-6"]));
}
