//! Rules of the machine's energy: sources, isolating devices, zeros, hot parts, inspection.

use super::Fault::{Do, Edit};
use super::{JOB, LOCKOUT, MACHINE, PLANT, Row, row};
use crate::plant::Plant;

/// Puts a source before the air, in lines 45 and on; `facts` begin in line 55.
fn source(plant: &Plant, kind: &str, magnitude: &str, facts: &str) {
    let source = format!(
        "  extra:
    name: Extra source
    kind: {kind}
    magnitude: {magnitude}
    device: Breaker F1
    type: breaker
    place: Cabinet
    safe: \"OFF\"
    lock: Breaker clamp
    stored: nothing
    {facts}
    prove: Look at it from outside.
    returns: false
    restore: Switch it on.
    hazards: [hot-jaws]
  air:\n"
    );
    plant.edit(MACHINE, "  air:\n", &source);
    plant.edit(MACHINE, "sources: [mains, air]", "sources: [mains, extra, air]");
}

/// A hot source with its zero in line 55 and one hot part in line 56.
fn hot(plant: &Plant, high: &str, touch: &str) {
    let facts =
        format!("zero: {{ unit: °C, high: {high} }}\n    touch: [{{ part: Jaw, {touch} }}]");
    source(plant, "thermal", "180 °C", &facts);
}

/// The machine with an inching control in line 62.
const fn inching(text: &'static str) -> super::Fault {
    Edit(MACHINE, "changeover: [", text)
}

pub const ROWS: &[Row] = &[
    row(
        Edit(MACHINE, "    hazards: [knife-edge, in-running-rollers]", "    hazards: []"),
        &[("zone-without-hazard", MACHINE, 21)],
    ),
    row(
        Edit(MACHINE, "magnitude: 400 V", "magnitude: high"),
        &[("magnitude-not-quantity", MACHINE, 30)],
    ),
    row(
        Edit(MACHINE, "magnitude: 400 V", "magnitude: 32 A, 400 V"),
        &[("magnitude-does-not-fit", MACHINE, 30)],
    ),
    row(
        Edit(MACHINE, "magnitude: 6 bar", "magnitude: 6 bar, 3"),
        &[("magnitude-does-not-fit", MACHINE, 48)],
    ),
    row(Edit(MACHINE, "unit: bar", "unit: mm"), &[("zero-does-not-fit", MACHINE, 57)]),
    row(Edit(MACHINE, "magnitude: 400 V", "magnitude: -400 V"), &[("not-positive", MACHINE, 30)]),
    row(
        Edit(MACHINE, "unit: V, high: 0", "unit: V, low: 0"),
        &[("zero-without-high", MACHINE, 41)],
    ),
    row(Edit(MACHINE, "unit: V, high: 0", "unit: V, high: 50"), &[("zero-too-high", MACHINE, 41)]),
    row(Edit(MACHINE, "unit: V, high: 0", "unit: V, high: 49"), &[]),
    row(
        Edit(MACHINE, "high: 0, instrument: voltage-tester", "high: 0, instrument: gauge"),
        &[("zero-not-shown", MACHINE, 41)],
    ),
    row(
        Edit(MACHINE, "resolution: 0.1 bar", "resolution: 10 bar"),
        &[("zero-not-shown", MACHINE, 57)],
    ),
    row(
        Edit(MACHINE, "resolution: 1 V,", "resolution: 1 V, range: 0 to 50 V,"),
        &[("instrument-below-source", MACHINE, 41)],
    ),
    row(Edit(MACHINE, "[L1, L2, L3]", "[L1]"), &[("bad-conductor", MACHINE, 40)]),
    row(
        Edit(MACHINE, "unit: bar, high: 0", "unit: bar, high: 6"),
        &[("zero-too-high", MACHINE, 57)],
    ),
    row(
        Edit(MACHINE, "device: Main disconnect Q1", "device: Emergency stop S0"),
        &[("control-device", MACHINE, 31)],
    ),
    row(
        Do(|plant| {
            let guard = "guard: Hinged guard G2 with interlock";
            plant.edit(MACHINE, guard, "guard: Hinged guard G2\n    interlock: Main disconnect Q1");
        }),
        &[("control-device", MACHINE, 32)],
    ),
    row(
        Edit(MACHINE, "    hazards: [residual-voltage]\n", ""),
        &[("source-without-hazard", MACHINE, 27)],
    ),
    row(Edit(MACHINE, "    conductors: [L1, L2, L3]\n", ""), &[("no-conductors", MACHINE, 27)]),
    row(Edit(MACHINE, "[L1, L2, L3]", "[L1, L2, L1]"), &[("bad-conductor", MACHINE, 40)]),
    row(Edit(MACHINE, "[L1, L2, L3]", "[L1, L2, PE]"), &[("bad-conductor", MACHINE, 40)]),
    row(
        Edit(MACHINE, "at the cylinder.", "at the cylinder.\n    dc: The link"),
        &[("bad-conductor", MACHINE, 57)],
    ),
    row(Edit(MACHINE, "    wait: 5 min\n", ""), &[("wait-without-time", MACHINE, 37)]),
    row(Edit(MACHINE, "wait: 5 min", "wait: 4 min"), &[("wait-differs", MACHINE, 38)]),
    row(Edit(MACHINE, "wait: 5 min", "wait: 5 mm"), &[("wrong-dimension", MACHINE, 38)]),
    row(
        Do(|plant| source(plant, "thermal", "43 °C", "zero: { unit: °C, high: 40 }")),
        &[("touch-missing", MACHINE, 45)],
    ),
    row(
        Do(|plant| hot(plant, "52", "surface: bare-metal, lasts: 1 min")),
        &[("zero-above-touch", MACHINE, 56)],
    ),
    row(
        Do(|plant| hot(plant, "40", "surface: wood, lasts: 0.4 s")),
        &[("contact-too-short", MACHINE, 56)],
    ),
    row(
        Do(|plant| hot(plant, "48", "surface: wood, lasts: 1 s, cools: 9 min, air: 48 °C")),
        &[("no-cooling", MACHINE, 56)],
    ),
    row(
        Do(|plant| hot(plant, "48", "surface: wood, lasts: 1 s, cools: 9 min")),
        &[("missing-key", MACHINE, 56)],
    ),
    row(
        Do(|plant| {
            let touch = "touch: [{ part: Jaw, surface: wood, lasts: 1 s }]";
            source(plant, "chemical", "2 l", touch);
        }),
        &[("touch-not-thermal", MACHINE, 55)],
    ),
    row(
        Do(|plant| source(plant, "mechanical", "1500 1/min", "relieve: \"\"")),
        &[("stop-position-missing", MACHINE, 45)],
    ),
    row(
        inching(
            "inching: { sources: [mains], control: Jog, held: latched, most: 25 mm }\nchangeover: [",
        ),
        &[("not-hold-to-run", MACHINE, 62)],
    ),
    row(
        inching(
            "inching: { sources: [mains], control: Jog, held: hold-to-run, most: 76 mm }\nchangeover: [",
        ),
        &[("inching-too-far", MACHINE, 62)],
    ),
    row(
        inching(
            "inching: { sources: [mains], control: Jog, held: hold-to-run, most: 5.1 m/min }\nchangeover: [",
        ),
        &[("inching-too-far", MACHINE, 62)],
    ),
    row(
        inching(
            "inching: { sources: [mains], control: Jog, held: hold-to-run, most: 5 kg }\nchangeover: [",
        ),
        &[("inching-not-measured", MACHINE, 62)],
    ),
    row(
        inching(
            "inching: { sources: [man], control: Jog, held: hold-to-run, most: 5 m/min }\nchangeover: [",
        ),
        &[("unknown-source", MACHINE, 62)],
    ),
    row(
        Do(|plant| {
            let text = plant.read(MACHINE);
            let (head, _) = text.split_once("lockout_inspection:").unwrap();
            plant.write(MACHINE, head);
        }),
        &[("inspection-missing", MACHINE, 1)],
    ),
    row(Edit(MACHINE, "2026-01-08", "2025-01-11"), &[("inspection-over", JOB, 6)]),
    row(
        Edit(MACHINE, "people: [Technician One]", "people: [Technician One, Lead Two]"),
        &[("inspector-among-people", MACHINE, 63)],
    ),
    row(
        Edit(PLANT, "enforced_by: The lead of the shift", "enforced_by: \"\""),
        &[("nobody-enforces", PLANT, 2)],
    ),
    row(
        Edit(LOCKOUT, "use: Changeover work inside the guards\n", ""),
        &[("no-intended-use", LOCKOUT, 2)],
    ),
];

#[test]
fn what_is_just_allowed_has_no_finding() {
    let clean = |make: fn(&Plant)| {
        let plant = Plant::small();
        make(&plant);
        assert_eq!(plant.run(&["check", "PLANT", "--json"]).ends(0).stdout, "[]\n");
    };
    clean(|plant| hot(plant, "51", "surface: bare-metal, lasts: 1 min"));
    clean(|plant| hot(plant, "120", "surface: bare-metal, lasts: 1 min, gloves: heat gloves"));
    clean(|plant| source(plant, "thermal", "42 °C", "zero: { unit: °C, high: 40 }"));
    clean(|plant| {
        plant.edit(MACHINE, "2026-01-08", "2025-01-12");
    });
    clean(|plant| {
        let inching =
            "inching: { sources: [mains], control: Jog, held: hold-to-run, most: 75 mm }\n";
        plant.edit(MACHINE, "changeover: [", &format!("{inching}changeover: ["));
    });
    clean(|plant| {
        plant.edit(MACHINE, "400 V", "400 V, 32 A");
        plant.edit(MACHINE, "Main disconnect Q1", "Main disconnect beside the operator panel");
    });
}
