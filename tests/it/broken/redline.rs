//! Rules of revisions, found where a plant is compared with the small plant as it was.

use super::Fault::{Do, Edit};
use super::{KNIVES, LARGE, Row, broken, row};
use crate::plant::{Plant, copy_folder};

pub const ROWS: &[Row] = &[
    row(Edit(KNIVES, "until it snaps in", "until it clicks"), &[("revision-unchanged", KNIVES, 4)]),
    row(Edit(LARGE, "fin: 5 mm", "fin: 6 mm"), &[("revision-unchanged", LARGE, 3)]),
    row(
        Do(|plant| {
            plant.edit(LARGE, "revision: 1", "revision: 0").edit(LARGE, "First issue", "As before");
        }),
        &[("revision-goes-back", LARGE, 3)],
    ),
    row(Edit(LARGE, "revision: 1", "revision: 2"), &[("reason-unchanged", LARGE, 6)]),
    row(
        Do(|plant| {
            plant.edit(KNIVES, "revision: 1", "revision: 2");
            plant.edit(KNIVES, "reason: First issue", "reason: Covers click");
            plant.edit(KNIVES, "date: 2026-11-20", "date: 2026-11-19");
        }),
        &[("revision-date-goes-back", KNIVES, 5)],
    ),
    // A revision that says why, and a comment that says nothing.
    row(
        Do(|plant| {
            plant.edit(KNIVES, "revision: 1", "revision: 2");
            plant.edit(KNIVES, "reason: First issue", "reason: Covers click");
            plant.edit(LARGE, "settings:", "# As always.\nsettings:");
        }),
        &[],
    ),
];

#[test]
fn every_revision_gives_its_finding_and_no_other() {
    let old = Plant::small();
    for row in ROWS {
        let plant = broken(&row.fault);
        copy_folder(&old.folder(), &plant.beside("old"));
        let run = plant.run(&["redline", "PLANT", "--from", "old", "--json"]);
        let told = run.json();
        let found: Vec<(&str, &str, u64)> = told["findings"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| {
                let text = |key: &str| one[key].as_str().unwrap();
                (text("rule"), text("file"), one["line"].as_u64().unwrap())
            })
            .collect();
        assert_eq!(found, row.found);
        assert_eq!(run.code, i32::from(!row.found.is_empty()));
    }
}
