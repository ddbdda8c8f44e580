//! Rules of the order of jobs: due times, pieces an hour.

use super::Fault::{Do, Edit};
use super::{JOB, LARGE, Row, row};

pub const ROWS: &[Row] = &[
    row(Edit(JOB, "shift: early", "shift: early\ndue: 22:00"), &[("bad-due", JOB, 8)]),
    row(Edit(JOB, "shift: early", "shift: early\ndue: 2026-01-12T24:00"), &[("bad-due", JOB, 8)]),
    row(
        Edit(JOB, "shift: early", "shift: early\ndue: 2026-01-11T23:59"),
        &[("due-before-start", JOB, 8)],
    ),
    row(
        Do(|plant| {
            let starts = "shift: early\nstarts: \"06:00\"\ndue: 2026-01-12T06:00";
            plant.edit(JOB, "shift: early", starts);
        }),
        &[("due-before-start", JOB, 9)],
    ),
    // A shift that ends at 06:00 begins the evening before: half past midnight is the next day.
    row(
        Do(|plant| {
            let starts = "shift: night\nstarts: \"00:30\"\ndue: 2026-01-13T00:30";
            plant.edit(JOB, "shift: early", starts);
            let shifts = "shifts: { night: { ends: \"06:00\" } }\n";
            plant.write("plant.yaml", plant.read("plant.yaml") + shifts);
        }),
        &[("due-before-start", JOB, 9)],
    ),
    row(
        Edit(LARGE, "machines: [line-1]", "machines: [line-1]\npieces_per_hour: 0"),
        &[("not-positive", LARGE, 8)],
    ),
];
