//! Many readings through the history against parsing their numbers alone, in time and in memory.
//!
//! `history/N` takes changeovers of 20 blanks each, N readings in all, and makes charts, capability and
//! proposals of them. `numbers/N` parses the same readings and nothing else. Memory is what is held at
//! most at one time: with ten times as many readings it must be the same. Run with
//! `cargo bench --bench history`; without `--bench` it runs small, as a test of what comes out and of the
//! memory.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::hint::black_box;
use std::time::Duration;

use witnessmark::history::gather::Gathering;
use witnessmark::history::model::History;
use witnessmark::history::run::{Done, Read, Run, SetHere, Signature, Value};
use witnessmark::quantity::Number;
use witnessmark::record::entry::{Kind, Verdict};
use witnessmark::record::time;

/// Blanks of a changeover.
const BLANKS: u32 = 20;

/// The history of ten times as many readings may hold so much more, in percent: names of records grow
/// by a digit.
const MOST_MORE: u64 = 5;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let (small, large) = if full { (100_000, 1_000_000) } else { (12_000, 120_000) };
    let (few, many) = (held(small), held(large));
    println!("most held: {few} bytes with {small} readings, {many} with {large}");
    assert!(many * 100 <= few * (100 + MOST_MORE), "memory grows with the number of readings");
    let rounds = if full { 5 } else { 1 };
    let best = |work: &dyn Fn()| (0..rounds).map(|_| timed(work)).min().unwrap();
    let ours = best(&|| drop(black_box(history(large))));
    let numbers = best(&|| parsed(large));
    let each = |time: Duration| time.as_nanos() / u128::from(large);
    println!("history/{large:<9} {:>6} ns a reading", each(ours));
    println!("numbers/{large:<9} {:>6} ns a reading", each(numbers));
    println!(
        "{}.{:01} x",
        ours.as_nanos() / numbers.as_nanos(),
        ours.as_nanos() * 10 / numbers.as_nanos() % 10
    );
}

/// Most bytes that are held at one time.
fn held(readings: u32) -> u64 {
    allocation_counter::measure(|| drop(black_box(history(readings)))).bytes_max
}

/// What comes of so many readings.
fn history(readings: u32) -> History {
    let (changeovers, mut gathering) = (readings / BLANKS, Gathering::default());
    let mut run = run();
    for at in 0..changeovers {
        run.record = format!("J-{at}");
        for (blank, read) in (0..).zip(&mut run.blanks) {
            let text = text(at, blank);
            read.first.text.clone_from(&text);
            read.last.text = text;
        }
        gathering.take(Ok((run.clone(), None)));
    }
    let history = gathering.history();
    assert_eq!(history.machines[0].changeovers, u64::from(changeovers));
    assert!(history.series.iter().all(|own| own.count == u64::from(changeovers)));
    assert_eq!(history.proposals.len(), 1, "the first setting always ends beside its target");
    history
}

fn parsed(readings: u32) {
    for at in 0..readings / BLANKS {
        for blank in 0..BLANKS {
            black_box(Number::parse(black_box(&text(at, blank))).unwrap());
        }
    }
}

/// A reading: about 56 mm, the first blank always above it.
fn text(at: u32, blank: u32) -> String {
    let noise = (at.wrapping_mul(2_654_435_761) ^ blank.wrapping_mul(40_503)) >> 7;
    let hundredths = if blank == 0 { 5620 + noise % 41 } else { 5570 + noise % 61 };
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// A changeover with its blanks; the readings are put in later.
fn run() -> Run {
    let at = time::parse("2026-01-05T06:00:00+01:00").unwrap();
    let own = |text: &str| text.to_owned();
    let number = |text: &str| Number::parse(text).ok();
    let value = || Value { entry: 7, at, text: String::new(), verdict: Verdict::Within };
    let setting = SetHere {
        id: own("strip"),
        name: own("Strip width"),
        formula: own("2 * flat + fin"),
        resolution: number("0.05").unwrap(),
    };
    let read = |blank: u32| Read {
        blank: format!("values.set/{blank}"),
        step: own("values.set"),
        procedure: own("values"),
        label: format!("Value {blank}"),
        unit: own("mm"),
        instrument: Some(own("Caliper")),
        target: Some(own("56.00")),
        low: number("55.5"),
        high: number("56.5"),
        setting: (blank == 0).then(|| setting.clone()),
        first: value(),
        last: value(),
        count: 1,
        corrections: 0,
        failed: false,
        protects: false,
    };
    let signature = Signature { by: own("a.doer@plant.example"), kind: Kind::Performed, at };
    let step = Done {
        id: own("values.set"),
        title: own("Set each value"),
        procedure: own("values"),
        revision: own("1"),
        minutes: 12,
        while_running: false,
        shuts_down: false,
        runs: false,
        signatures: vec![signature],
        deviations: 0,
        corrections: 0,
    };
    Run {
        record: String::new(),
        job: own("J"),
        machine: own("line-1"),
        machine_name: own("Line 1"),
        from: own("dill"),
        to: own("salt"),
        revision: own("3"),
        state: None,
        steps: vec![step],
        blanks: (0..BLANKS).map(read).collect(),
        released: Some(at),
    }
}

/// What this thread has had of a core.
fn timed(work: &dyn Fn()) -> Duration {
    let now = || {
        let now = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        Duration::try_from(now).unwrap()
    };
    let start = now();
    work();
    now().saturating_sub(start)
}
