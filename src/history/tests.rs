//! From a signed record to what is said of it, and what is kept of many.

use super::capability::{Capability, Refused};
use super::chart::{BASE, Lines, NoLines};
use super::gather::{Gathering, MOST_CHANGEOVERS};
use super::model::{History, LeftOut, Of, Series, Share};
use super::rules::Rule;
use super::run::{Read, Run, SetHere, Value, told};
use super::track::MOST_POINTS;
use crate::audit::{Report, Subject, audit_record};
use crate::quantity::Number;
use crate::record::entry::{Entry, Kind, Verdict};
use crate::record::state::State;
use crate::record::store::RawRecord;
use crate::record::{TrustList, fixture, time};

fn number(text: &str) -> Number {
    Number::parse(text).unwrap()
}

fn report(raw: &RawRecord) -> Report {
    audit_record(&Subject {
        job: "J-2041",
        raw,
        trust: &TrustList::parse(fixture::SIGNERS.as_bytes()).0,
        people: &fixture::people(),
        domain: fixture::DOMAIN,
        now: None,
        current_packet: None,
    })
}

/// What the good record tells; entry 7 of it lies outside and is accepted.
#[test]
fn a_record_tells_what_was_signed_in_it() {
    let raw = fixture::raw();
    let (run, left_out) = told(&raw, &report(&raw)).unwrap();
    assert_eq!((run.state, left_out), (Some(State::ReleasedWithDeviation), None));
    let blanks: Vec<_> = run.blanks.iter().map(|read| read.blank.as_str()).collect();
    let knives = ["knives.set/position-1", "knives.set/position-2", "knives.set/position-3"];
    assert_eq!(blanks, [&[fixture::VERIFY_READING][..], &knives].concat());
    let third = &run.blanks[3];
    assert_eq!((third.last.text.as_str(), third.last.entry), ("28.75", 7));
    assert_eq!((third.first.verdict, third.setting.is_none()), (Verdict::Outside, true));
    let signed = |id: &str| {
        let step = run.steps.iter().find(|step| step.id == id).unwrap();
        let kinds: Vec<Kind> = step.signatures.iter().map(|one| one.kind).collect();
        (kinds, step.deviations, step.corrections)
    };
    assert_eq!(signed("knives.set"), (vec![Kind::Performed, Kind::Verified], 1, 0));
    assert_eq!(signed("lockout.tell"), (vec![Kind::Performed], 0, 0));
    // The step that stays as it is was not to be done.
    assert!(run.steps.iter().all(|step| step.id != "guides.keep"));
    let mut gathering = Gathering::default();
    gathering.take(Ok((run, None)));
    let history = gathering.history();
    let one = &history.changeovers[0];
    // An entry a minute: the first says that a step was done, the thirteenth hands over.
    assert_eq!((one.minutes, one.planned), (Some(12), 18));
    // Nothing shuts down in this packet, and no step says that the line runs.
    assert_eq!((one.stop, one.planned_stop), (Some(12), 18));
    assert_eq!(one.first_pass, Share { good: 3, all: 4 });
    assert_eq!(one.deviations.get("knives.set"), Some(&1));
    assert_eq!(history.machines[0].time.minutes, 12);
}

#[test]
fn an_entry_with_an_error_does_not_count() {
    let mut raw = fixture::raw();
    raw.entries[12].signature = None;
    let (run, left_out) = told(&raw, &report(&raw)).unwrap();
    assert_eq!((run.released, run.state), (None, Some(State::Verified)));
    let left_out = left_out.unwrap();
    assert_eq!((left_out.entries, left_out.why), (Some(1), vec!["signature-missing"]));
    raw.packet = None;
    let left_out = told(&raw, &report(&raw)).unwrap_err();
    assert_eq!((left_out.entries, left_out.why.contains(&"packet-missing")), (None, true));
    let mut raw = fixture::raw();
    raw.entries.iter_mut().for_each(|entry| entry.signature = None);
    assert_eq!(told(&raw, &report(&raw)).unwrap_err().entries, None, "nothing is left of it");
}

/// Under the old reading stands a new one: the last counts, the first is remembered.
#[test]
fn a_corrected_reading_counts_as_corrected() {
    let mut entries: Vec<Entry> = fixture::past(7).into_iter().map(|past| past.entry).collect();
    let mut again = entries[6].clone();
    (again.seq, again.corrects, again.note) = (8, Some(7), Some("Moved it.".to_owned()));
    again.at = "2026-11-26T22:18:00+01:00".to_owned();
    let taken = again.reading.as_mut().unwrap();
    (taken.value, taken.verdict) = ("28.1".to_owned(), Verdict::Within);
    entries.push(again);
    let raw = fixture::raw_of(fixture::seal(entries));
    let (run, _) = told(&raw, &report(&raw)).unwrap();
    let third = run.blanks.iter().find(|read| read.blank.ends_with("position-3")).unwrap();
    let said = (third.first.text.as_str(), third.last.text.as_str(), third.corrections);
    assert_eq!((said, third.count), (("28.75", "28.1", 1), 2));
}

/// A changeover of this number, with one blank.
fn run(at: u64, read: Read) -> Run {
    Run {
        record: format!("J-{at}"),
        job: format!("J-{at}"),
        machine: "line-1".to_owned(),
        machine_name: "Line 1".to_owned(),
        from: "dill".to_owned(),
        to: if at.is_multiple_of(2) { "salt" } else { "pepper" }.to_owned(),
        revision: "3".to_owned(),
        state: None,
        steps: Vec::new(),
        blanks: vec![read],
        released: None,
    }
}

fn read(target: Option<&str>, text: &str) -> Read {
    let at = time::parse("2026-01-05T06:00:00+01:00").unwrap();
    let value = Value { entry: 9, at, text: text.to_owned(), verdict: Verdict::Within };
    let off = |by: &str| target.map(|target| number(target).add(number(by)).unwrap());
    Read {
        blank: "values.set/strip".to_owned(),
        step: "values.set".to_owned(),
        procedure: "values".to_owned(),
        label: "Strip width".to_owned(),
        unit: "mm".to_owned(),
        instrument: None,
        target: target.map(str::to_owned),
        low: off("-0.5"),
        high: off("0.5"),
        setting: None,
        first: value.clone(),
        last: value,
        count: 1,
        corrections: 0,
        failed: false,
        protects: false,
    }
}

fn gathered(reads: impl IntoIterator<Item = Read>) -> History {
    let mut gathering = Gathering::default();
    for (at, read) in (0..).zip(reads) {
        gathering.take(Ok((run(at, read), None)));
    }
    gathering.history()
}

/// The only series of these readings.
fn series(reads: impl IntoIterator<Item = Read>) -> Series {
    let mut history = gathered(reads);
    assert_eq!(history.series.len(), 1);
    history.series.remove(0)
}

/// NIST/SEMATECH e-Handbook 6.3.2.2 once more, from readings to the chart.
#[test]
fn the_published_example_is_a_chart() {
    let rates = "49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1";
    let own = series(rates.split(' ').map(|rate| read(None, rate)));
    let lines = own.lines.unwrap();
    assert_eq!(
        (lines.upper.decimal(4), lines.lower.decimal(4)),
        ("55.8041".into(), "45.8159".into())
    );
    assert_eq!(
        (own.of, own.count, own.deviation.unwrap().decimal(4)),
        (Of::Reading, 10, "2.0339".into())
    );
    assert_eq!(own.capability, Capability::Refused(Refused::NoLimits));
    assert_eq!(own.points[1].range, Some(number("2.0")));
}

/// Other targets, one chart: what is drawn is the distance from the target.
#[test]
fn recipes_share_a_chart() {
    let targets = [("60.0", "60.1"), ("40.0", "39.9"), ("60.0", "60.2"), ("40.0", "40.0")];
    let own = series(targets.into_iter().cycle().take(30).map(|(t, text)| read(Some(t), text)));
    assert_eq!((own.of, own.count), (Of::Deviation, 30));
    let values: Vec<String> = own.points.iter().take(4).map(|one| one.value.to_string()).collect();
    assert_eq!(values, ["0.1", "-0.1", "0.2", "0"]);
    assert_eq!((own.points[0].recipe.as_str(), own.points[1].recipe.as_str()), ("salt", "pepper"));
    let Capability::Known(figures) = own.capability else { panic!("{:?}", own.capability) };
    assert_eq!((figures.low, figures.high), (Some(number("-0.5")), Some(number("0.5"))));
}

/// About 56 and then shifted: the lines are of the first 25, and stay.
#[test]
fn a_shift_after_the_base_fires_and_the_lines_stay() {
    let value = |at: u32| 5600 + i64::from(at * 7 % 5) * 2 - 4 + if at < 30 { 0 } else { 30 };
    let text = |at: u32| Number::ratio(value(at), 100).unwrap().decimal(2);
    let own = series((0..60).map(|at| read(Some("56.00"), &text(at))));
    let base: Vec<Number> = own.points.iter().take(BASE).map(|point| point.value).collect();
    assert_eq!(own.lines, Lines::of(&base).ok());
    let first = own.points.iter().find(|point| !point.fired.is_empty()).unwrap();
    assert_eq!((first.number, first.fired.contains(&Rule::BeyondThree)), (31, true));
    assert_eq!(own.signals.get(&Rule::NineOnOneSide), Some(&23), "one before was high too");
    assert!(own.points[30].range_fired && own.range_signals == 1);
    let refused = Refused::NotStable { at: 60, have: 0, need: 25 };
    assert_eq!(own.capability, Capability::Refused(refused));
}

#[test]
fn equal_values_have_no_chart_until_one_differs() {
    let equal = |count: usize| vec![read(Some("56.0"), "56.0"); count];
    let own = series(equal(40));
    assert_eq!((own.lines, own.no_lines, own.count), (None, Some(NoLines::NoSpread), 40));
    assert_eq!((own.capability, own.points.len()), (Capability::Refused(Refused::NoSpread), 40));
    let own = series([equal(40), vec![read(Some("56.0"), "56.4")], equal(3)].concat());
    assert!(own.lines.is_some_and(|lines| !lines.is_provisional && lines.base == BASE));
    assert_eq!(own.points[40].fired, [Rule::BeyondThree]);
    let numbers: Vec<u64> = own.points.iter().map(|point| point.number).collect();
    assert_eq!(numbers, (1..=44).collect::<Vec<_>>(), "each once, in order");
}

#[test]
fn what_is_kept_is_bounded_and_all_of_it_counts() {
    let text = |at: u64| format!("56.{}", at % 7);
    let history = gathered((0..700).map(|at| read(Some("56.0"), &text(at))));
    let own = &history.series[0];
    assert_eq!((own.count, own.points.len(), own.points[0].number), (700, MOST_POINTS, 601));
    assert_eq!(history.machines[0].changeovers, 700);
    let records: Vec<&str> = history.changeovers.iter().map(|one| one.record.as_str()).collect();
    assert_eq!((records.len(), records[0]), (MOST_CHANGEOVERS, "J-200"));
}

#[test]
fn a_reading_that_no_instrument_shows_is_left_out_and_named() {
    let history = gathered([read(Some("56.0"), "56.1"), read(None, "0.0000000000001")]);
    let (record, why) = ("J-1".to_owned(), vec!["too-many-digits"]);
    assert_eq!(history.left_out, [LeftOut { record, entries: Some(1), why }]);
}

/// A setting is read where it is set and once more when it is warm: where it ended is the later one.
#[test]
fn a_setting_ends_at_its_last_reading_in_whichever_step() {
    let setting = SetHere {
        id: "strip".to_owned(),
        name: "Strip width".to_owned(),
        formula: "flat".to_owned(),
        resolution: number("0.1"),
    };
    let mut gathering = Gathering::default();
    for at in 0..16 {
        let mut run = run(at, read(Some("60.0"), "60.0"));
        let mut warm = read(Some("60.0"), "60.4");
        (warm.blank, warm.last.entry) = ("values.warm/strip".to_owned(), 12);
        run.blanks.insert(0, warm);
        run.blanks.iter_mut().for_each(|read| read.setting = Some(setting.clone()));
        gathering.take(Ok((run, None)));
    }
    let history = gathering.history();
    let found: Vec<_> =
        history.proposals.iter().map(|own| (own.recipe.as_str(), own.offset.as_str())).collect();
    assert_eq!(found, [("pepper", "+0.4"), ("salt", "+0.4")], "eight changeovers of each");
}
