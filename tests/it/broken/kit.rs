//! Rules of the kit: tools of the stock, and what two jobs of one shift need at the same time.

use super::{Do, JOB, LARGE, MACHINE, Row, SMALL, STOCK, THIRD, row, third};
use crate::plant::Plant;

const SECOND: &str = "jobs/J-2.yaml";

pub const ROWS: &[Row] = &[
    row(
        Do(|plant| tools(plant, "  - { item: Torch, count: 2 }\n  - { item: Torch }\n")),
        &[("tool-twice", STOCK, 3)],
    ),
    row(Do(|plant| tools(plant, "  - { item: Torch, count: 0 }\n")), &[("not-a-count", STOCK, 2)]),
    row(
        Do(|plant| third(plant, "parts: [{ item: Tube, count: 0 }]\n", ("", ""))),
        &[("not-a-count", THIRD, 9)],
    ),
    row(
        Do(|plant| third(plant, "material: [{ item: Ink, count: 0 }]\n", ("", ""))),
        &[("not-a-count", THIRD, 9)],
    ),
    // A change part lies once, and nobody says when the jobs start.
    row(Do(|plant| two(plant, TUBE, ["", ""])), &[("too-few-at-once", SECOND, 6)]),
    row(Do(|plant| two(plant, TUBE, ["06:00", ""])), &[("too-few-at-once", SECOND, 6)]),
    // By their times they meet, or they do not.
    row(Do(|plant| two(plant, TUBE, ["06:00", "06:30"])), &[("too-few-at-once", SECOND, 10)]),
    row(Do(|plant| two(plant, TUBE, ["06:30", "06:00"])), &[("too-few-at-once", JOB, 10)]),
    row(
        Do(|plant| {
            tools(plant, "  - { item: Hex key 5 mm, place: Crib, count: 1 }\n");
            two(plant, "{ item: Tube }", ["00:10", "19:00"]);
        }),
        &[],
    ),
    // What is fitted stays on the machine while it runs.
    row(Do(|plant| two(plant, TUBE, ["00:10", "19:00"])), &[("too-few-at-once", SECOND, 10)]),
    // Nobody says where it lies: it may be a thing of each machine.
    row(Do(|plant| two(plant, "{ item: Tube }", ["", ""])), &[]),
    // There are enough.
    row(
        Do(|plant| {
            tools(plant, "  - { item: Tube, count: 2 }\n");
            two(plant, TUBE, ["", ""]);
        }),
        &[],
    ),
    row(
        Do(|plant| {
            tools(plant, "  - { item: Tube, count: 3 }\n");
            two(plant, "{ item: Tube, place: Rack A, count: 2 }", ["", ""]);
        }),
        &[("too-few-at-once", SECOND, 6)],
    ),
    row(
        Do(|plant| {
            tools(plant, "  - { item: Tube, count: 1 }\n");
            plant.edit(LARGE, "first_piece:", "parts: [{ item: Tube, count: 2 }]\nfirst_piece:");
        }),
        &[("too-few-at-once", JOB, 6)],
    ),
    // A tool and an instrument that the plant counts.
    row(
        Do(|plant| {
            tools(plant, "  - { item: Hex key 5 mm, place: Crib, count: 1 }\n");
            two(plant, "{ item: Tube }", ["", ""]);
        }),
        &[("too-few-at-once", SECOND, 6)],
    ),
    row(
        Do(|plant| {
            tools(plant, "  - { item: Two-pole voltage tester, count: 1 }\n");
            two(plant, "{ item: Tube }", ["", ""]);
        }),
        &[("too-few-at-once", SECOND, 6)],
    ),
    // Another shift is another time.
    row(
        Do(|plant| {
            two(plant, TUBE, ["", ""]);
            plant.edit(SECOND, "shift: early", "shift: late");
        }),
        &[],
    ),
    // One line does its jobs one after the other.
    row(
        Do(|plant| {
            two(plant, TUBE, ["", ""]);
            plant.edit(SECOND, "machine: line-2", "machine: line-1");
            plant.edit(SECOND, "from: small-pouch", "from: large-pouch");
            plant.edit(SECOND, "issued: 2026-01-09T14", "issued: 2026-01-09T15");
        }),
        &[],
    ),
];

const TUBE: &str = "{ item: Tube, place: Rack A }";

fn tools(plant: &Plant, list: &str) {
    plant.write(STOCK, format!("tools:\n{list}"));
}

/// A second line like the first, with a job like its job; both recipes need one part.
fn two(plant: &Plant, part: &str, starts: [&str; 2]) {
    let line = plant.read(MACHINE).replacen("id: line-1", "id: line-2", 1);
    plant.write("machines/line-2.yaml", line.replacen("Four-lane pouch line", "Other line", 1));
    for recipe in [SMALL, LARGE] {
        plant.edit(recipe, "machines: [line-1]", "machines: [line-1, line-2]");
    }
    plant.edit(LARGE, "first_piece:", &format!("parts: [{part}]\nfirst_piece:"));
    let job = plant.read(JOB);
    let second =
        job.replacen("id: J-1", "id: J-2", 1).replacen("machine: line-1", "machine: line-2", 1);
    for (file, text, starts) in [(JOB, job, starts[0]), (SECOND, second, starts[1])] {
        let starts = match starts {
            "" => String::new(),
            starts => format!("starts: \"{starts}\"\n"),
        };
        plant.write(file, text + &starts);
    }
}
