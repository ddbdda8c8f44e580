//! Statistics of many readings: sums, charts, rules, capability, quantiles.

use serde_json::{Value, json};
use witnessmark::history::capability::Asked;
use witnessmark::history::chart::Lines;
use witnessmark::history::moments::Moments;
use witnessmark::history::offset::{LEAST, student};
use witnessmark::history::rules::{Rule, Watch};
use witnessmark::quantity::Number;

use super::{Cases, all_exact, exact};

const MANY: usize = 150;

pub(super) fn ask(cases: &mut Cases) {
    for round in 0..MANY {
        sums(cases);
        chart(cases);
        capability(cases);
        quantile(cases, LEAST + round as u64);
    }
}

/// Readings to two decimals, near each other as readings are; now and then on steps of a coarse
/// instrument, so that some are equal.
fn readings(cases: &mut Cases, count: i64) -> Vec<Number> {
    let (base, step) = (cases.dice.between(-5000, 50_000), cases.dice.between(1, 20));
    let spread = cases.dice.between(2, 40);
    let steps = |cases: &mut Cases| {
        // Two throws make middle values likelier than far ones.
        (cases.dice.between(-spread, spread) + cases.dice.between(-spread, spread)) / 2
    };
    let all = (0..count).map(|_| Number::ratio(base + step * steps(cases), 100).unwrap());
    all.collect()
}

fn sums(cases: &mut Cases) {
    let count = cases.dice.between(2, 60);
    let values = readings(cases, count);
    let mut moments = Moments::default();
    values.iter().for_each(|value| moments.take(*value).unwrap());
    let correlation = moments.autocorrelation(15);
    let answer = json!({
        "mean": exact(moments.mean().unwrap()),
        "deviation": exact(moments.deviation(15).unwrap()),
        "autocorrelation": correlation.map_or("none".to_owned(), exact),
    });
    cases.add("sums", &json!({ "values": all_exact(&values) }), &answer);
}

fn chart(cases: &mut Cases) {
    let (base, more) = (cases.dice.between(8, 25), cases.dice.between(0, 40));
    let mut values = readings(cases, base + more);
    // A shift after the base, so that runs and far values come up.
    let shift = Number::ratio(cases.dice.between(-60, 60), 100).unwrap();
    let base = usize::try_from(base).unwrap();
    values[base..].iter_mut().for_each(|value| *value = value.add(shift).unwrap());
    let Ok(lines) = Lines::of(&values[..base]) else { return chart(cases) };
    let mut watch = Watch::new(lines.zones().unwrap());
    let fired = |(at, value): (usize, &Number)| {
        let fired = watch.take(*value, &Rule::ALL).into_iter();
        fired.map(|rule| format!("{}:{}", rule.word(), at + 1)).collect::<Vec<_>>()
    };
    let fired: Vec<String> = values.iter().enumerate().flat_map(fired).collect();
    let answer = json!({
        "centre": exact(lines.centre),
        "sigma": exact(lines.sigma),
        "lower": exact(lines.lower),
        "upper": exact(lines.upper),
        "mean_range": exact(lines.mean_range),
        "upper_range": exact(lines.upper_range),
        "fired": fired,
    });
    cases.add("chart", &json!({ "values": all_exact(&values), "base": base }), &answer);
}

fn capability(cases: &mut Cases) {
    let mut number = |least, most| Number::ratio(cases.dice.between(least, most), 100).unwrap();
    let (middle, half, off, sigma, target) =
        (number(-2000, 2000), number(10, 300), number(-150, 150), number(2, 120), number(-40, 40));
    let (mean, target) = (middle.add(off).unwrap(), middle.add(target).unwrap());
    let sides = cases.dice.between(0, 3);
    let low = (sides != 1).then(|| middle.sub(half).unwrap());
    let high = (sides != 2).then(|| middle.add(half).unwrap());
    let own = Asked { low, high, target: Some(target) }.indices(mean, sigma).unwrap();
    let shown = |number: Option<Number>| number.map_or(Value::from("none"), |n| exact(n).into());
    let given = json!({
        "low": low.map(exact),
        "high": high.map(exact),
        "target": exact(target),
        "mean": exact(mean),
        "sigma": exact(sigma),
    });
    let answer = json!({
        "cp": shown(own.cp),
        "cpu": shown(own.cpu),
        "cpl": shown(own.cpl),
        "cpk": exact(own.cpk),
        "k": shown(own.k),
        "cpm": shown(own.cpm),
    });
    cases.add("capability", &given, &answer);
}

fn quantile(cases: &mut Cases, count: u64) {
    let answer = json!({ "thousandths": student(count) });
    cases.add("student", &json!({ "count": count }), &answer);
}
