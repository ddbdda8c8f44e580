//! Knives, lanes, bars, guides, spares, and marks that are stepped off.

use serde_json::{Value, json};
use witnessmark::layout::{
    Body, KnifeLayout, Knives, Lanes, NoLayout, Obstacle, Rail, Spares, Stand, bars_needed, fits,
    lane_offsets, on_bar, park_spares, pitch_drift, place_guides, place_knives, stepping,
};
use witnessmark::quantity::Number;

use super::{Cases, all_exact, exact, quantity};

const MANY: usize = 300;

pub(super) fn ask(cases: &mut Cases) {
    for _ in 0..MANY {
        knives(cases);
        bars(cases);
        guides(cases);
        stands(cases);
        stepped(cases);
        drifted(cases);
    }
}

/// A length as written, in mm or in inches, and in mm.
fn length(cases: &mut Cases, most: i64) -> (String, Number) {
    let text = match cases.dice.one_in(3) {
        true => format!("{} {}/16 in", cases.dice.between(0, most / 25), cases.dice.between(1, 15)),
        false => format!("{} mm", cases.dice.fraction(1, most * 8, 8)),
    };
    let amount = quantity(&text).amount;
    (text, amount)
}

/// Lanes side by side, or some of those the machine has.
fn lanes(cases: &mut Cases) -> (Lanes, u32, Vec<u32>) {
    let fitted = u32::try_from(cases.dice.between(1, 24)).unwrap();
    if cases.dice.one_in(2) {
        return (Lanes::Centred(fitted), fitted, (1..=fitted).collect());
    }
    let mut run: Vec<u32> = (1..=fitted).filter(|_| !cases.dice.one_in(3)).collect();
    if run.is_empty() {
        run.push(fitted);
    }
    (Lanes::Fitted { fitted, run: run.clone() }, fitted, run)
}

fn knives(cases: &mut Cases) {
    let (run, fitted, numbers) = lanes(cases);
    let ((strip_text, strip), (trim_text, trim)) = (length(cases, 120), length(cases, 25));
    let (pitch_text, pitch) = length(cases, 120);
    let edge_cuts = cases.dice.one_in(2);
    let given = json!({
        "fitted": fitted,
        "run": numbers,
        "strip": strip_text,
        "trim": trim_text,
        "pitch": pitch_text,
        "edge_cuts": edge_cuts,
    });
    let offsets = lane_offsets(&run, strip, pitch).unwrap();
    let layout = place_knives(&Knives { run, strip, trim, edge_cuts }).unwrap();
    cases.add("knives", &given, &answer(&layout, &offsets));
}

fn answer(layout: &KnifeLayout, offsets: &[(u32, Number)]) -> Value {
    let lane = |lane: &witnessmark::layout::PlacedLane| {
        json!([lane.number, exact(lane.left), exact(lane.right)])
    };
    let offset = |(lane, off): &(u32, Number)| json!([lane, exact(*off)]);
    json!({
        "cuts": all_exact(&layout.cuts),
        "lanes": layout.lanes.iter().map(lane).collect::<Vec<_>>(),
        "web": [exact(layout.web.0), exact(layout.web.1)],
        "web_offset": exact(layout.web_offset),
        "lane_offsets": offsets.iter().map(offset).collect::<Vec<_>>(),
    })
}

fn bars(cases: &mut Cases) {
    let ((strip_text, strip), (spacing_text, spacing)) = (length(cases, 60), length(cases, 120));
    let lanes = u32::try_from(cases.dice.between(1, 30)).unwrap();
    let run = Lanes::Centred(lanes);
    let layout = place_knives(&Knives { run, strip, trim: Number::ZERO, edge_cuts: true }).unwrap();
    let count = bars_needed(strip, spacing).unwrap();
    let on_bars: Vec<_> =
        (1..=count).map(|bar| all_exact(&on_bar(&layout.cuts, bar, count))).collect();
    let given = json!({ "strip": strip_text, "spacing": spacing_text, "lanes": lanes });
    cases.add("bars", &given, &json!({ "bars": count, "cuts": on_bars }));
}

fn guides(cases: &mut Cases) {
    let (text, opening) = length(cases, 900);
    let faces = place_guides(opening).unwrap();
    cases.add("guides", &json!({ "opening": text }), &json!({ "faces": all_exact(&faces) }));
}

/// A rail with up to two obstacles; its lengths are eighths of a mm.
pub(super) fn rail(cases: &mut Cases) -> Rail {
    let dice = &mut cases.dice;
    let spacing = dice.fraction(120, 480, 8);
    let narrower = dice.fraction(0, 60, 8);
    let obstacles = (0..dice.between(0, 2)).map(|_| {
        let left = dice.fraction(-2800, 2600, 8);
        Obstacle { left, right: left.add(dice.fraction(40, 400, 8)).unwrap() }
    });
    let obstacles = obstacles.collect();
    Rail {
        left_end: dice.fraction(-3600, -3000, 8),
        right_end: dice.fraction(3000, 3600, 8),
        holders: u32::try_from(dice.between(6, 14)).unwrap(),
        holder_width: spacing.sub(narrower).unwrap(),
        spacing,
        tip_offset: match dice.one_in(2) {
            true => Number::ZERO,
            false => dice.fraction(-80, 80, 8),
        },
        obstacles,
        spares: match dice.one_in(3) {
            true => Spares::Off,
            false => Spares::Parked,
        },
    }
}

pub(super) fn rail_given(rail: &Rail) -> Value {
    let obstacle = |of: &Obstacle| json!([exact(of.left), exact(of.right)]);
    json!({
        "left_end": exact(rail.left_end),
        "right_end": exact(rail.right_end),
        "holders": rail.holders,
        "holder_width": exact(rail.holder_width),
        "spacing": exact(rail.spacing),
        "tip_offset": exact(rail.tip_offset),
        "obstacles": rail.obstacles.iter().map(obstacle).collect::<Vec<_>>(),
        "parked": rail.spares == Spares::Parked,
    })
}

/// Where holders and spares stand, and whether they have room there.
fn stands(cases: &mut Cases) {
    let mut rail = rail(cases);
    if cases.dice.one_in(2) {
        rail.obstacles.clear();
    }
    let used: Vec<Number> = {
        let count = cases.dice.between(1, 8);
        let pitch = cases.dice.fraction(100, 900, 8);
        let first = cases.dice.fraction(-1800, 400, 8);
        (0..count).map(|i| first.add(pitch.mul(Number::from(i)).unwrap()).unwrap()).collect()
    };
    let guides = cases.dice.one_in(4);
    let body = if guides { Body::Guide } else { Body::Holder };
    let given = json!({ "rail": rail_given(&rail), "used": all_exact(&used), "guides": guides });
    let stands = park_spares(&used, &rail);
    let word = match stands.as_ref().map_err(|no| *no).and_then(|all| fits(all, &rail, body)) {
        Ok(()) => "fits",
        Err(NoLayout::TooClose { .. }) => "too close",
        Err(NoLayout::PastRailEnd { .. }) => "past the end",
        Err(NoLayout::OverObstacle { .. }) => "over an obstacle",
        Err(NoLayout::TooFewHolders { .. }) => "too few holders",
        Err(other) => panic!("{other:?}"),
    };
    let stand = |stand: &Stand| json!([exact(stand.position), stand.parked]);
    let stands: Vec<Value> = stands.iter().flatten().map(stand).collect();
    cases.add("stands", &given, &json!({ "stands": stands, "word": word }));
}

fn stepped(cases: &mut Cases) {
    let steps = u32::try_from(cases.dice.between(1, 40)).unwrap();
    let each = cases.dice.fraction(1, 64, 64);
    let off = stepping(steps, each).unwrap();
    let given = json!({ "steps": steps, "each": exact(each) });
    cases.add("stepping", &given, &json!({ "worst": exact(off.worst), "rss": exact(off.rss) }));
}

fn drifted(cases: &mut Cases) {
    let steps = u32::try_from(cases.dice.between(1, 60)).unwrap();
    let ((pitch_text, pitch), rule) =
        (length(cases, 120), cases.dice.pick(&["1 mm", "0.5 mm", "1/16 in", "1/64 in"]));
    let drift = pitch_drift(steps, pitch, quantity(rule).amount).unwrap();
    let given = json!({ "steps": steps, "pitch": pitch_text, "rule": rule });
    cases.add("drift", &given, &json!({ "mm": exact(drift) }));
}
