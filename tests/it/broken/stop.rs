//! Rules of what is done beside what: the line running or not, people, zones, what waits for what.

use super::Fault::{Do, Edit};
use super::{KNIVES, MACHINE, PREPARE, Row, row};

const FIRST: &str = "instructions/first-piece.md";

pub const ROWS: &[Row] = &[
    // A step inside, one that only says where, a stage, a mark.
    row(
        Edit(KNIVES, "minutes: 3\n", "minutes: 3\nline: running\n"),
        &[("line-cannot-run", KNIVES, 42)],
    ),
    row(
        Edit(PREPARE, "minutes: 12\n", "minutes: 12\nline: running\nmarks: [material-in]\n"),
        &[("line-not-cleared", PREPARE, 25), ("line-cannot-run", PREPARE, 40)],
    ),
    row(Edit(PREPARE, "minutes: 12\n", "minutes: 12\nline: running\n"), &[]),
    row(
        Edit(PREPARE, "minutes: 12\n", "minutes: 12\npeople: 0\n"),
        &[("not-one-to-six", PREPARE, 40)],
    ),
    row(Edit(KNIVES, "minutes: 3\n", "minutes: 3\npeople: 7\n"), &[("not-one-to-six", KNIVES, 42)]),
    row(
        Edit(MACHINE, "    guard: Hinged guard G2", "    at_once: 7\n    guard: Hinged guard G2"),
        &[("not-one-to-six", MACHINE, 23)],
    ),
    row(
        Edit(KNIVES, "reason: First issue\n", "reason: First issue\nafter: [stored-enrgy]\n"),
        &[("unknown-procedure", KNIVES, 8)],
    ),
    row(
        Edit(KNIVES, "reason: First issue\n", "reason: First issue\nafter: [first-piece]\n"),
        &[("after-later", KNIVES, 8)],
    ),
    // One that waits for itself, and two that wait for each other: the later one is not named again.
    row(
        Edit(KNIVES, "reason: First issue\n", "reason: First issue\nafter: [prepare, knives]\n"),
        &[("after-circle", KNIVES, 8)],
    ),
    row(
        Do(|plant| {
            let at = "reason: First issue\n";
            plant.edit(KNIVES, at, &format!("{at}after: [first-piece]\n"));
            plant.edit(FIRST, at, &format!("{at}after: [knives]\n"));
        }),
        &[("after-circle", FIRST, 8)],
    ),
];
