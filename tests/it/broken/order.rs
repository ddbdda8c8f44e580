//! Rules of the order of steps beyond the plain lockout: test blocks, minor servicing, a second person,
//! clearance, cleaning, first piece.

use super::Fault::{Do, Edit};
use super::{KNIVES, MACHINE, PREPARE, Row, SMALL, STORED, row};
use crate::plant::{Plant, root};

const INCHING: &str = "instructions/inching.md";
const RELEASE: &str = "instructions/release-from-lockout.md";
const FIRST: &str = "instructions/first-piece.md";
const RUN: &str = "instructions/release-to-production.md";

/// The facts of somebody who reaches in, with the hazards of the zone.
const INSIDE: &str = "zone: slitting\nhazards: [knife-edge, in-running-rollers]";

/// The machine with a test block on the mains before its release, and one fault in the block.
fn block(plant: &Plant, from: &str, to: &str) {
    let shipped = std::fs::read_to_string(root().join(INCHING)).unwrap();
    plant.write(INCHING, shipped);
    plant.edit(INCHING, from, to);
    plant.edit(MACHINE, "knives, release", "knives, inching, release");
    inching(plant);
}

/// The machine with an inching control.
fn inching(plant: &Plant) {
    let control = "{ sources: [mains], control: Jog button S7, held: hold-to-run, most: 25 mm }";
    plant.edit(
        MACHINE,
        "\nlockout_inspection:",
        &format!("\ninching: {control}\nlockout_inspection:"),
    );
}

/// New material in a step of the knives, after a step with these marks.
fn material(plant: &Plant, before: &str) {
    plant.edit(KNIVES, "minutes: 4\n", &format!("{before}minutes: 4\n"));
    plant.edit(KNIVES, "minutes: 3\n", "marks: [material-in]\nminutes: 3\n");
}

/// The old product holds mustard.
fn mustard(plant: &Plant) {
    plant.edit(SMALL, "machines: [line-1]", "machines: [line-1]\nallergens: [mustard]");
}

pub const ROWS: &[Row] = &[
    // A machine without an inching control, and a block of one step.
    row(
        Edit(PREPARE, "hazards: [unexpected-start]", "block: test\nhazards: [unexpected-start]"),
        &[
            ("block-without-sources", PREPARE, 42),
            ("block-without-test", PREPARE, 56),
            ("block-without-unlock", PREPARE, 56),
        ],
    ),
    row(
        Do(|plant| {
            inching(plant);
            plant.edit(PREPARE, "hazards: [unexpected-start]", "block: test");
        }),
        &[
            ("block-begins-unproved", PREPARE, 42),
            ("block-left-open", PREPARE, 55),
            ("block-without-test", PREPARE, 55),
            ("block-without-unlock", PREPARE, 55),
        ],
    ),
    row(
        Edit(STORED, "hazards: [pneumatic-motion]", "needs: test"),
        &[("test-outside-block", STORED, 68)],
    ),
    // The try-out finds the other source live as well.
    row(
        Do(|plant| block(plant, "stage: unlock\nrepeat: inching", "stage: unlock\nrepeat: energy")),
        &[("block-takes-other-lock", INCHING, 49), ("source-not-held", INCHING, 159)],
    ),
    row(
        Do(|plant| {
            let inside = format!("stage: lock\nneeds: isolated\n{INSIDE}\nrepeat");
            block(plant, "stage: lock\nrepeat", &inside);
        }),
        &[("not-isolated", INCHING, 128), ("reaches-in-block", INCHING, 128)],
    ),
    row(
        Do(|plant| {
            block(plant, "needs: test\nstage: restart", "needs: energised\nstage: restart");
        }),
        &[("power-in-block", INCHING, 65)],
    ),
    row(
        Do(|plant| {
            let work = "block: test\ntools: [Proving";
            let proof = "block: test\nstage: verify\nrepeat: inching\nreading: { of: zero }\ntools: [Proving";
            block(plant, proof, work);
        }),
        &[("block-left-open", RELEASE, 18)],
    ),
    row(
        Edit(
            PREPARE,
            "hazards: [unexpected-start]",
            "minor_servicing: { routine: a, repetitive: b, integral: c, measure: d, risk_assessment: e }",
        ),
        &[("minor-servicing-unfit", PREPARE, 42)],
    ),
    row(
        Do(|plant| {
            let minor = "minor_servicing: { routine: daily, measure: tongs }";
            let facts = format!("needs: energised\n{INSIDE}\n{minor}");
            plant.edit(PREPARE, "hazards: [unexpected-start]", &facts);
        }),
        &[("gloves-forbidden", PREPARE, 49), ("minor-servicing-incomplete", PREPARE, 50)],
    ),
    row(
        Edit(
            STORED,
            "back at neutral or off\nsign: { performed: technician, verified: lead }",
            "back at neutral or off\nsign: { performed: technician }",
        ),
        &[("second-person-missing", STORED, 41)],
    ),
    row(
        Edit(
            FIRST,
            "marks: [first-piece]\nsign: { performed: technician, verified: quality }",
            "marks: [first-piece]\nsign: { verified: quality }",
        ),
        &[("second-person-missing", FIRST, 39)],
    ),
    row(Do(|plant| material(plant, "")), &[("line-not-cleared", KNIVES, 28)]),
    // What is marked as cleared and cleaned is seen by one person only.
    row(
        Do(|plant| {
            mustard(plant);
            material(plant, "marks: [line-cleared, cleaned]\n");
        }),
        &[("second-person-missing", KNIVES, 25)],
    ),
    row(
        Do(|plant| {
            mustard(plant);
            plant.edit(
                KNIVES,
                "\nsign: { performed: technician }\nminutes: 4\n",
                "\nsign: { performed: technician, verified: lead }\nminutes: 4\n",
            );
            material(plant, "marks: [line-cleared]\n");
        }),
        &[("allergen-not-cleaned", KNIVES, 29)],
    ),
    row(
        Do(|plant| {
            mustard(plant);
            plant.edit(FIRST, "marks: [label-checked]\n", "");
        }),
        &[("label-not-checked", RUN, 27)],
    ),
    row(Edit(FIRST, "marks: [first-piece]\n", ""), &[("run-without-first-piece", RUN, 27)]),
    row(
        Do(|plant| {
            plant.edit(RUN, "marks: [run]\n", "");
            plant.edit(
                RUN,
                "sign: { performed: technician }",
                "marks: [run]\nsign: { performed: technician }",
            );
        }),
        &[("run-not-last", RUN, 28)],
    ),
    row(Edit(RUN, "marks: [run]\n", ""), &[("order-unmarked", MACHINE, 62)]),
];
