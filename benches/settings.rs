//! The arithmetic of a job against a yardstick in the same run, and how it grows with the rail.
//!
//! `job/ours` works out ten settings with their limits as printed, places eleven knives and plans the
//! moves from the job before: exact fractions, with units, checked, with the working written down.
//! `job/decimal` does the same arithmetic with `rust_decimal`: plain decimals, formulas as Rust, no
//! units, no working. `job/formulas` and `job/knives` are parts of the first. `layout/N` and `moves/N`
//! stand for rails of N holders; a layout grows with N, moves with N log N. Run with
//! `cargo bench --bench settings`; without `--bench` it runs small, as a test of the results and of
//! the growth, never of times.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]

use std::hint::black_box;
use std::path::Path;

use rust_decimal::{Decimal, RoundingStrategy};
use witnessmark::finding::Findings;
use witnessmark::formula::{Formula, Sheet, Value};
use witnessmark::layout::{
    Action, Body, Knives, Lanes, Plan, Rail, Spares, Stand, fits, park_spares, place_knives,
    plan_moves,
};
use witnessmark::packet;
use witnessmark::plant::load;
use witnessmark::quantity::{Allowed, Measure, Number, Unit, inward, settle};

/// Holders on a rail.
const SIZES: [u32; 4] = [10, 100, 1000, 10_000];

/// A holder among 10 000 may take so many times as long as one among 100.
const MOST_TIMES: u128 = 8;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    job(if full { 2000 } else { 5 });
    demo(if full { 50 } else { 1 });
    let rounds = if full { 30 } else { 5 };
    growth("layout", rounds, layout, "n", |holders| holders.into());
    growth("moves", rounds, moves, "(n log n)", |holders| {
        u128::from(holders) * u128::from(holders.ilog2())
    });
}

/// A job's settings, knives and moves, ours and the yardstick's.
fn job(rounds: u32) {
    let (job, decimal) = (Job::typical(), DecimalJob::typical());
    let (ours, theirs) = (job.work(), decimal.work());
    assert_eq!(ours.settings, theirs.settings, "the yardstick comes to the same");
    assert_eq!(ours.positions, theirs.positions);
    assert_eq!(ours.moves, theirs.moves);
    assert_eq!((ours.settings.len(), ours.positions.len()), (10, 11));
    println!("10 settings, 11 knives, moves; best of {rounds}");
    let theirs = least(rounds, &|| drop(black_box(decimal.work())));
    let print = |name: &str, time: u128| {
        println!(
            "{name:<14} {:>7} µs  {:>6} x",
            thousandths(time),
            thousandths(time * 1000 / theirs)
        );
    };
    print("job/ours", least(rounds, &|| drop(black_box(job.work()))));
    print("job/formulas", least(rounds, &|| drop(black_box(job.sheet.solve()))));
    let strip = Number::from(56_u32);
    print("job/knives", least(rounds, &|| drop(black_box(knife_stands(10, strip, &job.rail)))));
    print("job/decimal", theirs);
}

/// All recipes of the demo plant on their machines, from files that were read: findings, settings,
/// layouts, working and all.
fn demo(rounds: u32) {
    let plant = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let plant = load::load(&plant).unwrap().plant.unwrap();
    let prepare = || packet::prepare(&mut Findings::default(), &plant);
    let recipes = prepare().computed.len() as u128;
    assert!(recipes > 5, "{recipes} recipes of the demo plant on their machines");
    let time = least(rounds, &|| drop(black_box(prepare())));
    println!("demo plant     {:>7} µs a recipe, {recipes} recipes", thousandths(time / recipes));
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

/// What a job comes to, as text.
struct Outcome {
    /// Value, least and greatest value of each setting, as printed.
    settings: Vec<[String; 3]>,
    /// Where knives stand.
    positions: Vec<String>,
    /// How many of them move.
    moves: usize,
}

/// Name, formula, deviation either way, step of the instrument, unit and decimals.
type Setting = (&'static str, &'static str, &'static str, &'static str, &'static str, u32);

const SETTINGS: [Setting; 10] = [
    ("strip", "2 * flat + 2 * fin", "±0.5 mm", "0.5 mm", "mm", 1),
    ("web", "lanes * strip + 2 * trim", "±1 mm", "1 mm", "mm", 0),
    ("cut", "bag + 2 * seal", "±0.5 mm", "0.5 mm", "mm", 1),
    ("draw", "round(cut * 1.005, 0.1 mm)", "±0.3 mm", "0.1 mm", "mm", 1),
    ("eye", "cut - 12.5 mm", "±1 mm", "0.5 mm", "mm", 1),
    ("edge", "web / 2 - trim", "±0.5 mm", "0.5 mm", "mm", 1),
    ("speed", "cut * cycles", "±5 mm/s", "1 mm/s", "mm/s", 0),
    ("pull", "max(20 N, web * 0.25 N / 2 mm)", "±3 N", "1 N", "N", 0),
    ("dwell", "if(lanes > 8, 0.45 s, 0.35 s) + 0.02 s", "±0.05 s", "0.01 s", "s", 2),
    ("stack", "round_up(bag * bag / 260 mm, 0.25 mm)", "±0.4 mm", "0.1 mm", "mm", 1),
];

/// The same, understood.
type Rule = (&'static str, Allowed, Measure, &'static str, u32);

/// A recipe as read: formulas parsed, limits and instruments understood.
struct Job {
    sheet: Sheet,
    rules: Vec<Rule>,
    before: Vec<Number>,
    rail: Rail,
}

impl Job {
    fn typical() -> Job {
        let mut sheet = Sheet::default();
        let inputs = [
            ("flat", "23 mm"),
            ("fin", "5 mm"),
            ("lanes", "10"),
            ("trim", "12.5 mm"),
            ("bag", "95 mm"),
            ("seal", "8 mm"),
            ("cycles", "60 1/min"),
        ];
        for (name, text) in inputs {
            sheet.givens.insert(name.to_owned(), Measure::parse(text).unwrap());
        }
        for (name, formula, ..) in SETTINGS {
            sheet.formulas.insert(name.to_owned(), Formula::parse(formula).unwrap());
        }
        let rule = |(name, _, allowed, step, unit, places): Setting| {
            let step = Measure::parse_difference(step).unwrap();
            (name, Allowed::parse(allowed).unwrap(), step, unit, places)
        };
        let rail = rail(11);
        let before = knife_stands(10, Number::from(50_u32), &rail);
        Job { sheet, rules: SETTINGS.map(rule).into(), before, rail }
    }

    fn work(&self) -> Outcome {
        let solved = self.sheet.solve();
        let target = |name: &str| match solved[name].as_ref().unwrap().value {
            Value::Measure(measure) => measure.quantity,
            Value::Truth(_) => panic!("{name} is no quantity"),
        };
        let shown = |(name, allowed, step, unit, places): &Rule| {
            let (target, unit) = (target(name), Unit::find(unit));
            let limits = allowed.limits(target).unwrap();
            let settled = settle(target, &limits, step).unwrap().value;
            let printed = inward(&limits, unit, *places).unwrap();
            let value = settled.in_unit(unit).unwrap().decimal(*places);
            [value, printed.low.unwrap(), printed.high.unwrap()]
        };
        let settings = self.rules.iter().map(shown).collect();
        let stands = knife_stands(10, target("strip").amount, &self.rail);
        let plan = plan_moves(&self.before, &stands, &self.rail);
        let positions = stands.iter().map(|position| position.decimal(1)).collect();
        Outcome { settings, positions, moves: plan.actions.len() }
    }
}

/// Knives at the edges of so many lanes, and whether they have room.
fn knife_stands(lanes: u32, strip: Number, rail: &Rail) -> Vec<Number> {
    let run = Lanes::Centred(lanes);
    let knives = Knives { run, strip, trim: Number::ZERO, edge_cuts: true };
    let stands = park_spares(&place_knives(&knives).unwrap().cuts, rail).unwrap();
    fits(&stands, rail, Body::Holder).unwrap();
    stands.into_iter().map(|stand: Stand| stand.position).collect()
}

/// A rail long enough for so many holders 56 mm apart.
fn rail(holders: u32) -> Rail {
    let half = Number::from(i64::from(holders) * 28 + 100);
    Rail {
        left_end: half.neg(),
        right_end: half,
        holders,
        holder_width: Number::from(20_u32),
        spacing: Number::from(20_u32),
        tip_offset: Number::ZERO,
        obstacles: Vec::new(),
        spares: Spares::Parked,
    }
}

/// The yardstick's job: base units as decimals, formulas as Rust.
struct DecimalJob {
    flat: Decimal,
    fin: Decimal,
    lanes: Decimal,
    trim: Decimal,
    bag: Decimal,
    seal: Decimal,
    cycles: Decimal,
    /// Deviation either way, step of the instrument, decimals.
    rules: Vec<(Decimal, Decimal, u32)>,
    before: Vec<Decimal>,
}

impl DecimalJob {
    fn typical() -> DecimalJob {
        let leading = |text: &str| {
            let number = text.trim_start_matches('±').split(' ').next();
            number.unwrap().parse::<Decimal>().unwrap()
        };
        let rule =
            |(_, _, allowed, step, _, places): Setting| (leading(allowed), leading(step), places);
        DecimalJob {
            flat: 23.into(),
            fin: 5.into(),
            lanes: 10.into(),
            trim: Decimal::new(125, 1),
            bag: 95.into(),
            seal: 8.into(),
            cycles: 1.into(),
            rules: SETTINGS.map(rule).into(),
            before: decimal_stands(10, 50.into()),
        }
    }

    fn work(&self) -> Outcome {
        let [two, hundredth] = [Decimal::TWO, Decimal::new(1, 2)];
        let strip = two * self.flat + two * self.fin;
        let web = self.lanes * strip + two * self.trim;
        let cut = self.bag + two * self.seal;
        let targets = [
            strip,
            web,
            cut,
            stepped(cut * Decimal::new(1005, 3), Decimal::new(1, 1), NEAREST),
            cut - Decimal::new(125, 1),
            web / two - self.trim,
            cut * self.cycles,
            Decimal::from(20).max(web * Decimal::new(25, 2) / two),
            hundredth * Decimal::from(if self.lanes > 8.into() { 45 } else { 35 })
                + two * hundredth,
            stepped(self.bag * self.bag / Decimal::from(260), Decimal::new(25, 2), UP),
        ];
        let settings =
            targets.iter().zip(&self.rules).map(|(target, (deviation, step, places))| {
                let last = Decimal::new(1, *places);
                let (low, high) = (target - deviation, target + deviation);
                let settled = stepped(*target, *step, NEAREST);
                assert!((low..=high).contains(&settled));
                let printed = [settled, stepped(low, last, UP), stepped(high, last, DOWN)];
                printed.map(|number| format!("{number:.*}", *places as usize))
            });
        let settings = settings.collect();
        let stands = decimal_stands(10, strip);
        let moves = self.before.iter().zip(&stands).filter(|(old, new)| old != new).count();
        let positions = stands.iter().map(|position| format!("{position:.1}")).collect();
        Outcome { settings, positions, moves }
    }
}

const NEAREST: RoundingStrategy = RoundingStrategy::MidpointNearestEven;
const UP: RoundingStrategy = RoundingStrategy::ToPositiveInfinity;
const DOWN: RoundingStrategy = RoundingStrategy::ToNegativeInfinity;

fn stepped(number: Decimal, step: Decimal, strategy: RoundingStrategy) -> Decimal {
    (number / step).round_dp_with_strategy(0, strategy) * step
}

fn decimal_stands(lanes: u32, strip: Decimal) -> Vec<Decimal> {
    let origin = Decimal::from(lanes) * strip / Decimal::TWO;
    (0..=lanes).map(|edge| Decimal::from(edge) * strip - origin).collect()
}

/// Measures a task for each size, prints its time by `share`, and asks that it grows no faster.
fn growth(
    name: &str,
    rounds: u32,
    task: fn(u32) -> Box<dyn Fn()>,
    of: &str,
    share: fn(u32) -> u128,
) {
    let times = SIZES.map(|holders| {
        let best = least(rounds, &task(holders));
        let picoseconds = best * 1000 / share(holders);
        println!(
            "{name}/{holders:<7} {:>10} µs  {:>8} ns / {of}",
            thousandths(best),
            thousandths(picoseconds)
        );
        picoseconds.max(1)
    });
    let [_, hundred, _, ten_thousand] = times;
    assert!(ten_thousand <= MOST_TIMES * hundred, "{name}: time grows faster than {of}");
}

/// Knives on a rail of so many holders, checked once against where they must stand.
fn layout(holders: u32) -> Box<dyn Fn()> {
    let (rail, lanes, strip) = (rail(holders), holders - 1, Number::from(56_u32));
    let stands = knife_stands(lanes, strip, &rail);
    let right = (0..holders).map(|i| Number::from(28 * (2 * i64::from(i) - i64::from(lanes))));
    assert!(stands.iter().copied().eq(right), "knives stand 56 mm apart about the datum");
    Box::new(move || drop(black_box(knife_stands(lanes, strip, &rail))))
}

/// Moves on a rail of so many holders, some of which stay, checked once by doing them.
fn moves(holders: u32) -> Box<dyn Fn()> {
    let rail = rail(holders);
    let every = |but: i64| (0..i64::from(holders) * 2).filter(move |i| i % but != 0);
    let old: Vec<Number> = every(3).map(|i| Number::from(20 * i)).collect();
    let new: Vec<Number> = every(5).map(|i| Number::from(20 * i + 10 * (i / 64 % 2))).collect();
    check(&plan_moves(&old, &new, &rail), &old, &new);
    Box::new(move || drop(black_box(plan_moves(&old, &new, &rail))))
}

/// Every place of the new setting gets one holder, and none is left over.
fn check(plan: &Plan, old: &[Number], new: &[Number]) {
    let mut filled = vec![0; new.len()];
    let mut left = old.len();
    for &(before, after) in &plan.kept {
        assert_eq!(old[before], new[after]);
        (filled[after], left) = (filled[after] + 1, left - 1);
    }
    for action in &plan.actions {
        match *action {
            Action::Remove { .. } => left -= 1,
            Action::Slide { old: before, new: after } => {
                assert_ne!(old[before], new[after]);
                (filled[after], left) = (filled[after] + 1, left - 1);
            }
            Action::Fit { new: after } => filled[after] += 1,
        }
    }
    assert!(filled.iter().all(|count| *count == 1) && left == 0);
    assert!(!plan.kept.is_empty() && plan.kept.len() < new.len(), "some stay and some do not");
}
