//! Broken plants: for every rule one fault, and exactly the findings it must give.
//!
//! Each row takes the small plant, breaks one thing and says what `check` must find, and where.
//! A procedure of the program is broken in a copy that takes its place; `recipes/third.yaml` is a
//! copy of a recipe that no job uses, so that a fault in it has no effect on a packet.

mod energy;
mod hazards;
mod keys;
mod kit;
mod lockout;
mod order;
mod people;
mod policy;
mod redline;
mod register;
mod reuse;
mod shown;
mod stop;
mod translation;

use std::collections::BTreeSet;

use crate::plant::{Plant, root};

/// What is wrong with a plant.
enum Fault {
    /// Text of a file that stands there once, and other text in its place.
    Edit(&'static str, &'static str, &'static str),
    /// A file with this text.
    Write(&'static str, &'static [u8]),
    /// Anything else.
    Do(fn(&Plant)),
}

use Fault::{Do, Edit, Write};

/// A fault, and the findings: rule, file, line.
struct Row {
    fault: Fault,
    found: &'static [(&'static str, &'static str, u64)],
}

const fn row(fault: Fault, found: &'static [(&'static str, &'static str, u64)]) -> Row {
    Row { fault, found }
}

const PLANT: &str = "plant.yaml";
const PEOPLE: &str = "people.yaml";
const MACHINE: &str = "machines/line-1.yaml";
const SMALL: &str = "recipes/small-pouch.yaml";
const LARGE: &str = "recipes/large-pouch.yaml";
const THIRD: &str = "recipes/third.yaml";
const JOB: &str = "jobs/J-1.yaml";
const PREPARE: &str = "instructions/prepare.md";
const LOCKOUT: &str = "instructions/lockout.md";
const STORED: &str = "instructions/stored-energy.md";
const RELEASE: &str = "instructions/release-from-lockout.md";
const KNIVES: &str = "instructions/knives.md";

/// Faults of reading: YAML and its shape.
const SHAPES: &[Row] = &[
    row(Edit(LARGE, "machines: [line-1]", "machines: [line-1"), &[("not-yaml", LARGE, 8)]),
    row(Edit(LARGE, "author:", "autor:"), &[("unknown-key", LARGE, 5)]),
    row(Edit(LARGE, "reason: First issue\n", ""), &[("missing-key", LARGE, 1)]),
    row(Edit(JOB, "shift: early", "shift: early\nshift: late"), &[("key-twice", JOB, 8)]),
    row(Edit(LARGE, "each: lane ", "each: lanes "), &[("unknown-word", LARGE, 30)]),
    row(Edit(LARGE, "machines: [line-1]", "machines: line-1"), &[("wrong-shape", LARGE, 7)]),
];

/// Faults of procedures as text.
const PROCEDURES: &[Row] = &[
    row(Edit(PREPARE, "---\nid: prepare", "id: prepare"), &[("no-front-matter", PREPARE, 1)]),
    row(
        Write(
            PREPARE,
            b"---\nid: prepare\ntitle: T\nrevision: 1\ndate: 2026-01-05\nauthor: A\nreason: R\n---\n",
        ),
        &[("no-steps", PREPARE, 0)],
    ),
    row(
        Edit(PREPARE, "## Fetch the kit", "## Brief the crew"),
        &[("heading-twice", PREPARE, 55)],
    ),
    row(Edit(PREPARE, "## Fetch the kit", "## {{ job.id }}"), &[("bad-heading", PREPARE, 25)]),
    row(
        Edit(PREPARE, "```step\nchecks:\n  - Job number", "```\nchecks:\n  - Job number"),
        &[("step-block", PREPARE, 13)],
    ),
    row(Edit(PREPARE, "{{ job.id }}", "{{ job id }}"), &[("bad-braces", PREPARE, 14)]),
    // How it is written.
    row(
        Edit(
            PREPARE,
            "on the cart.",
            "on the cart that stands beside the line where the crew of the next shift finds it at once.",
        ),
        &[("sentence-too-long", PREPARE, 26)],
    ),
    row(
        Edit(PREPARE, "stop here. Ask the lead", "stop the job and ask the lead"),
        &[("two-instructions", PREPARE, 16)],
    ),
    row(
        Edit(
            PREPARE,
            "If an item is missing or damaged, tell the lead before the machine stops.",
            "Tell the lead before the machine stops if an item is missing or damaged.",
        ),
        &[("condition-last", PREPARE, 30)],
    ),
    row(
        Edit(PREPARE, "loose cloth.", "loose cloth as necessary."),
        &[("vague-words", PREPARE, 43)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Read the SOP. Keep new material"),
        &[("unknown-abbreviation", PREPARE, 28)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Keep 2 m from it. Set the guide to 50 mm. Keep it"),
        &[("figure-by-hand", PREPARE, 28)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Make sure that the area is marked. Keep new material"),
        &[("indirect-command", PREPARE, 28)],
    ),
    row(
        Edit(PREPARE, "## Fetch the kit", "## Kit collection"),
        &[("heading-without-command", PREPARE, 25)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Note: Keep new material"),
        &[("instruction-in-note", PREPARE, 28)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Note: The cart can hurt feet.\n\nKeep new material"),
        &[("warning-in-note", PREPARE, 28)],
    ),
    row(
        Edit(PREPARE, "Keep new material", "Open the kit cart drawer lock lid. Keep new material"),
        &[("noun-cluster", PREPARE, 28)],
    ),
    // The texts of a step's block.
    row(
        Edit(KNIVES, "outside: Loosen the holder. Slide", "outside: Loosen the holder and slide"),
        &[("two-instructions", KNIVES, 58)],
    ),
    row(
        Edit(PREPARE, "cart\n  - Every calibration date", "cart\n  - Some calibration date"),
        &[("vague-words", PREPARE, 36)],
    ),
    row(
        Do(|plant| {
            let hard = "Identify every responsible individual. ".repeat(40);
            plant.edit(PREPARE, "Agree on the words", &format!("{hard}Agree on the words"));
        }),
        &[("hard-to-read", PREPARE, 56)],
    ),
    row(
        Edit(PREPARE, "loose cloth.", "some cloth. <!-- allow: vague-words: -->"),
        &[("vague-words", PREPARE, 43), ("allow-without-reason", PREPARE, 43)],
    ),
    row(
        Edit(PREPARE, "Take off rings", "<!-- allow: vague-words: gone -->\nTake off rings"),
        &[("allow-unused", PREPARE, 43)],
    ),
];

/// Faults of files.
const FILES: &[Row] = &[
    row(
        Do(|plant| std::fs::remove_file(plant.folder().join(PEOPLE)).unwrap()),
        &[("no-such-file", PEOPLE, 0)],
    ),
    row(
        Do(|plant| {
            let outside = plant.beside("outside.yaml");
            std::fs::write(&outside, plant.read(LARGE)).unwrap();
            std::os::unix::fs::symlink(outside, plant.folder().join(THIRD)).unwrap();
        }),
        &[("link-refused", THIRD, 0)],
    ),
    row(
        Do(|plant| {
            plant.write(THIRD, "#".repeat((1 << 20) + 1));
        }),
        &[("file-too-large", THIRD, 0)],
    ),
    row(Write(THIRD, b"id: third\xff\n"), &[("not-utf8", THIRD, 0)]),
    row(Write("recipes/note.txt", b"read me"), &[("stray-file", "recipes/note.txt", 0)]),
    row(Edit(JOB, "id: J-1", "id: J-2"), &[("id-is-not-file-name", JOB, 1)]),
    row(
        Do(|plant| {
            let text = plant.read(LARGE).replace("id: large-pouch", "id: a b");
            plant.write("recipes/a b.yaml", text);
        }),
        &[("bad-id", "recipes/a b.yaml", 1)],
    ),
    row(
        Do(|plant| {
            let shipped = root().join("instructions/prepare.md");
            let text = std::fs::read_to_string(shipped).unwrap();
            plant.write("instructions/a b.md", text.replace("id: prepare", "id: a b"));
        }),
        &[("bad-id", "instructions/a b.md", 2)],
    ),
    row(Write("allowed_signers", b"# none\nnobody\n"), &[("bad-signer", "allowed_signers", 2)]),
];

/// Faults of values.
const VALUES: &[Row] = &[
    row(Edit(LARGE, "fin: 5 mm", "fin: 5 mmm"), &[("bad-quantity", LARGE, 8)]),
    row(Edit(LARGE, "tolerance: ±1 mm", "tolerance: 1 mm"), &[("bad-quantity", LARGE, 21)]),
    row(
        Edit(LARGE, "2 * trim\n    unit: mm", "2 * trim\n    unit: bar"),
        &[("wrong-dimension", LARGE, 19)],
    ),
    row(Edit(MACHINE, "holders: 6", "holders: 6.5"), &[("not-a-count", MACHINE, 16)]),
    row(Edit(MACHINE, "0.1 mm", "0 mm"), &[("not-positive", MACHINE, 7)]),
    row(Edit(LARGE, "fin: 5 mm", "fin: 5 mm, Seal: 4 mm"), &[("bad-name", LARGE, 8)]),
    row(Edit(LARGE, "fin: 5 mm", "fin: 5 mm, strip: 9 mm"), &[("name-twice", LARGE, 10)]),
    row(Edit(LARGE, "date: 2026-01-05", "date: 2026-1-5"), &[("bad-day", LARGE, 4)]),
    row(Edit(JOB, "14:00:00+01:00", "14:00:00"), &[("bad-time", JOB, 8)]),
    row(Edit(MACHINE, "Padlock through the handle", "\"\""), &[("empty-text", MACHINE, 35)]),
    row(
        Edit(LARGE, "2 * trim\n    unit: mm", "2 * trim\n    unit: mmm"),
        &[("unknown-unit", LARGE, 20)],
    ),
    row(Edit(PLANT, "domain: plant.", "domain: Plant."), &[("bad-domain", PLANT, 3)]),
    row(
        Edit(PLANT, "domain:", "address: https://x.example/\ndomain:"),
        &[("bad-address", PLANT, 3)],
    ),
    row(Edit(PEOPLE, "id: t.one@", "id: t one@"), &[("bad-person", PEOPLE, 4)]),
    row(Edit(PEOPLE, "id: q.three@", "id: t.one@"), &[("person-twice", PEOPLE, 12)]),
];

/// Names that point at nothing.
const NAMES: &[Row] = &[
    row(Edit(PREPARE, "{{ job.id }}", "{{ job.idd }}"), &[("unknown-value", PREPARE, 14)]),
    row(
        Edit(
            KNIVES,
            "of: position }\nwhen: { changes: [knife_rail]",
            "of: position }\nwhen: { changes: [knife_rial]",
        ),
        &[("unknown-change", KNIVES, 57)],
    ),
    row(Edit(MACHINE, "zone: slitting", "zone: sliting"), &[("unknown-zone", MACHINE, 13)]),
    row(
        Edit(
            KNIVES,
            "zone: knife_rail\nhazards: [knife-edge, in-running-rollers]\ntools: [Lint",
            "zone: knife_rial\nhazards: [knife-edge, in-running-rollers]\ntools: [Lint",
        ),
        &[("unknown-zone", KNIVES, 34)],
    ),
    row(Edit(MACHINE, "[mains, air]", "[mains, air, steam]"), &[("unknown-source", MACHINE, 24)]),
    row(
        Edit(MACHINE, "hazards: [knife-edge,", "hazards: [knife-edge, burns,"),
        &[("unknown-hazard", MACHINE, 25)],
    ),
    row(
        Edit(PREPARE, "hazards: [unexpected-start]", "hazards: [unexpected-strat]"),
        &[("unknown-hazard", PREPARE, 47)],
    ),
    row(Edit(PEOPLE, "role: lead", "role: laed"), &[("unknown-role", PEOPLE, 11)]),
    row(
        Edit(PLANT, "tion: quality", "tion: { default: quality, knives: laed }"),
        &[("unknown-role", PLANT, 8)],
    ),
    row(
        Edit(PLANT, "tion: quality", "tion: { default: quality, knifes: none }"),
        &[("unknown-procedure", PLANT, 8)],
    ),
    row(Edit(PLANT, "tion: quality", "tion: { knives: lead }"), &[("missing-key", PLANT, 8)]),
    row(
        Edit(PLANT, "tion: quality", "tion: { default: none, knives: lead }"),
        &[("unknown-role", PLANT, 8)],
    ),
    row(Edit(LARGE, "of: strip", "of: stripe"), &[("unknown-reading", LARGE, 30)]),
    row(
        Edit(LARGE, "±1 mm\n    instrument: steel-rule", "±1 mm\n    instrument: steel-rul"),
        &[("unknown-instrument", LARGE, 22)],
    ),
    row(
        Edit(
            THIRD,
            "first_piece:",
            "  guide_rail: { guides: { opening: 50 mm }, tolerance: ±1 mm }\nfirst_piece:",
        ),
        &[("unknown-rail", THIRD, 29)],
    ),
    row(Edit(JOB, "machine: line-1", "machine: line-2"), &[("unknown-machine", JOB, 2)]),
    row(Edit(JOB, "to: large-pouch", "to: large-puoch"), &[("unknown-recipe", JOB, 4)]),
    row(
        Edit(MACHINE, "changeover: [prepare", "changeover: [prepar"),
        &[("unknown-procedure", MACHINE, 62)],
    ),
    row(Edit(JOB, "l.two@", "l.too@"), &[("unknown-person", JOB, 9)]),
    row(
        Edit(LOCKOUT, "stage: prepare\nrepeat: energy", "stage: prepare\nrepeat: energie"),
        &[("unknown-repeat", LOCKOUT, 38)],
    ),
    row(Edit(LARGE, "machines: [line-1]", "machines: []"), &[("recipe-not-for-machine", JOB, 4)]),
    row(
        Edit(MACHINE, "energy, knives,", "energy, knives, guides,"),
        &[("procedure-does-not-fit", MACHINE, 62)],
    ),
];

/// Faults of computing: formulas, instruments, layouts.
const COMPUTING: &[Row] = &[
    row(
        Edit(LARGE, "lanes * strip + 2 * trim", "lanes * strip + 2 *"),
        &[("bad-formula", LARGE, 19)],
    ),
    row(
        Edit(LARGE, "lanes * strip + 2 * trim", "lanes > 2"),
        &[("truth-is-no-setting", LARGE, 19)],
    ),
    row(
        Edit(THIRD, "true }\n    tolerance: ±0.5 mm", "true }\n    tolerance: ±0.05 mm"),
        &[("instrument-too-coarse", THIRD, 28)],
    ),
    row(
        Edit(LARGE, "±1 mm\n    instrument: steel-rule", "±1 mm\n    instrument: gauge"),
        &[("instrument-does-not-fit", LARGE, 22)],
    ),
    // A rail without a finding and without positions would be worse than none.
    row(
        Edit(
            LARGE,
            "tolerance: ±0.5 mm\n    instrument: steel-rule\nfirst",
            "tolerance: ±0.5 mm\n    instrument: gauge\nfirst",
        ),
        &[("instrument-does-not-fit", LARGE, 28)],
    ),
    row(
        Edit(LARGE, "    tolerance: ±0.5 mm\n    instrument: steel-rule\n    source", "    source"),
        &[("no-limits", LARGE, 28)],
    ),
    row(
        Edit(
            THIRD,
            "layouts:\n  knife_rail:\n    knives: { lanes: lanes, strip: strip, trim: trim, \
             edge_cuts: true }\n    tolerance: ±0.5 mm\n    instrument: steel-rule\n",
            "",
        ),
        &[("no-lanes", THIRD, 25)],
    ),
    row(
        Edit(THIRD, "true }\n    tolerance: ±0.5 mm", "true }\n    tolerance: +0.5/-0.2 mm"),
        &[("not-symmetric", THIRD, 27)],
    ),
    row(
        Edit(THIRD, "edge_cuts: true }", "edge_cuts: true }\n    guides: { opening: 50 mm }"),
        &[("knives-or-guides", THIRD, 25)],
    ),
    row(Edit(MACHINE, "spacing: 40 mm", "spacing: 30 mm"), &[("spacing-below-width", MACHINE, 18)]),
    row(
        Edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    lane_pitch: 90 mm"),
        &[("strip-is-not-pitch", SMALL, 26)],
    ),
    row(Edit(THIRD, "lanes: 4,", "lanes: 0,"), &[("nothing-to-lay-out", THIRD, 26)]),
    row(Edit(THIRD, "lanes: 4,", "lanes: 1000000000,"), &[("too-many-lanes", THIRD, 26)]),
    row(
        Edit(THIRD, "width: 40 mm, fin: 5 mm, lanes: 4", "width: 42 mm, fin: 5 mm, lanes: 5"),
        &[("past-rail-end", THIRD, 26)],
    ),
    row(Edit(THIRD, "width: 40 mm", "width: 10 mm"), &[("holders-too-close", THIRD, 26)]),
    row(
        Edit(MACHINE, "holders: 6", "holders: 4"),
        &[("too-few-holders", LARGE, 26), ("too-few-holders", SMALL, 26)],
    ),
];

const STOCK: &str = "stock.yaml";

/// A film with one roll that is just wide enough for the large pouch in four lanes.
const FILM: &str = "films:
  print:
    name: Printed film
    thickness: 60 µm
    density: 0.92 g/cm³
    rolls:
      - { width: 380 mm, outside: 400 mm, core: 76.2 mm }
";

/// The web of the large pouch; it stands in lines 9 to 16 of the third recipe.
const WEB: &str = "web:
  format: fin
  flat_width: flat_width
  seal: fin
  lanes: lanes
  trim: trim
  cut_length: 100 mm
  film: print
";

/// Writes the stock and the third recipe with a web, each with one text in place of another.
fn web(plant: &Plant, stock: (&str, &str), web: (&str, &str)) {
    assert!(FILM.contains(stock.0) && WEB.contains(web.0));
    plant.write(STOCK, FILM.replacen(stock.0, stock.1, 1));
    third(plant, &WEB.replacen(web.0, web.1, 1), ("", ""));
}

/// Writes the third recipe with a block before its settings, and one text in place of another.
fn third(plant: &Plant, block: &str, edit: (&str, &str)) {
    let text = plant.read(LARGE).replacen("id: large-pouch", "id: third", 1);
    assert!(text.contains(edit.0));
    let text = text.replacen("settings:", &format!("{block}settings:"), 1);
    plant.write(THIRD, text.replacen(edit.0, edit.1, 1));
}

/// Puts a screw, line 9 of the machine, and a torque wrench before the rails.
fn screw(plant: &Plant, screw: &str) {
    let wrench = "  wrench: { name: Torque wrench, resolution: 0.5 N·m, error_limit: ISO 6789, \
                  range: 5 to 25 N·m }";
    let head = format!("instruments:\n{wrench}\n");
    plant.edit(MACHINE, "instruments:\n", &head);
    let screw = format!("fasteners:\n  clamp: {{ name: Clamp, {screw} }}\nrails:\n");
    plant.edit(MACHINE, "rails:\n", &screw);
}

/// Faults of tables, film, label.
const TRADE: &[Row] = &[
    row(
        Do(|plant| {
            third(plant, "tables: { dwell: { reads: between, rows: [[1 mm]] } }\n", ("", ""))
        }),
        &[("bad-table", THIRD, 9)],
    ),
    row(
        Do(|plant| {
            let table = "tables:\n  dwell:\n    reads: between\n    rows:\n      - [2 mm, 1 s]\n      - [1 mm, 2 s]\n";
            third(plant, table, ("", ""));
        }),
        &[("bad-table", THIRD, 14)],
    ),
    // Nothing is extrapolated.
    row(
        Do(|plant| {
            let table =
                "tables: { wider: { reads: between, rows: [[1 mm, 1 mm], [9 mm, 2 mm]] } }\n";
            third(
                plant,
                table,
                ("formula: 2 * flat_width", "formula: wider(flat_width) + 2 * flat_width"),
            );
        }),
        &[("bad-formula", THIRD, 13)],
    ),
    row(
        Do(|plant| web(plant, ("", ""), ("format: fin", "format: flat"))),
        &[("seal-without-tube", THIRD, 12)],
    ),
    row(Do(|plant| web(plant, ("", ""), ("  seal: fin\n", ""))), &[("missing-key", THIRD, 9)]),
    row(
        Do(|plant| web(plant, ("", ""), ("film: print", "film: prnit"))),
        &[("unknown-film", THIRD, 16)],
    ),
    row(
        Do(|plant| web(plant, ("    density: 0.92 g/cm³\n", ""), ("", ""))),
        &[("grammage-or-density", STOCK, 2)],
    ),
    row(
        Do(|plant| {
            let roll = "rolls:\n      - { width: 380 mm, outside: 400 mm, core: 76.2 mm }";
            web(plant, (roll, "rolls: []"), ("", ""));
        }),
        &[("film-without-rolls", STOCK, 6)],
    ),
    row(
        Do(|plant| web(plant, ("core: 76.2 mm", "core: 400 mm"), ("", ""))),
        &[("core-not-inside", STOCK, 7)],
    ),
    row(
        Do(|plant| {
            let roll = "      - { width: 380 mm, outside: 400 mm, core: 76.2 mm }\n";
            web(plant, (roll, &format!("{roll}{roll}")), ("", ""));
        }),
        &[("roll-width-twice", STOCK, 8)],
    ),
    row(
        Do(|plant| web(plant, ("width: 380 mm", "width: 379.9 mm"), ("", ""))),
        &[("no-roll-fits", THIRD, 16)],
    ),
    row(
        Do(|plant| {
            plant.edit(MACHINE, "rails:\n", "unwind: { widest: 379 mm }\nrails:\n");
            web(plant, ("", ""), ("", ""));
        }),
        // The roll, and the web of a layout that needs as much without one.
        &[("web-too-wide", LARGE, 26), ("web-too-wide", THIRD, 16)],
    ),
    row(
        Edit(MACHINE, "rails:\n", "unwind: { widest: 900 mm, narrowest: 300 mm }\nrails:\n"),
        &[("web-too-narrow", SMALL, 26)],
    ),
    row(
        Do(|plant| {
            plant.edit(
                MACHINE,
                "rails:\n",
                "unwind: { widest: 900 mm, largest: 399 mm }\nrails:\n",
            );
            web(plant, ("", ""), ("", ""));
        }),
        &[("roll-too-large", THIRD, 16)],
    ),
    row(
        Do(|plant| third(plant, "net_contents: { of: strip, label: 4 mm, rules: EU }\n", ("", ""))),
        &[("wrong-dimension", THIRD, 9)],
    ),
    row(
        Do(|plant| third(plant, "net_contents: { of: strip, label: 4 g, rules: EU }\n", ("", ""))),
        &[("no-rule-for-label", THIRD, 9)],
    ),
    row(
        Do(|plant| {
            let block = "net_contents: { of: fill, label: 50 g, rules: EU }\n";
            let fill =
                "settings:\n  fill: { name: Fill, formula: 50 g, unit: g, tolerance: ±4.6 g }";
            third(plant, block, ("settings:", fill));
            plant.edit(THIRD, "of: strip", "of: fill");
        }),
        &[("below-tolerable", THIRD, 11)],
    ),
    row(
        Do(|plant| third(plant, "", ("each: lane", "each: piece, heads: 4"))),
        &[("heads-without-head", THIRD, 30)],
    ),
    row(Do(|plant| third(plant, "", ("each: lane", "each: head"))), &[("missing-key", THIRD, 30)]),
    row(Edit(JOB, "order:", "pieces: 2.5\norder:"), &[("not-a-count", JOB, 5)]),
    row(
        Do(|plant| web(plant, ("width: 380 mm", "width: 390 mm"), ("", ""))),
        &[("web-is-not-roll", THIRD, 34)],
    ),
    row(
        Do(|plant| web(plant, ("", ""), ("film: print", "film: print\n  waste: 3"))),
        &[("bad-waste", THIRD, 17)],
    ),
    row(
        Do(|plant| web(plant, ("", ""), ("film: print", "film: print\n  threading: 3000 m"))),
        &[("threading-takes-roll", THIRD, 17)],
    ),
    row(
        Do(|plant| {
            let block = "net_contents: { of: fill, label: 50 g, rules: EU }\n";
            let fill = "settings:\n  fill: { name: Fill, formula: 49 g, unit: g }";
            third(plant, block, ("settings:", fill));
            plant.edit(THIRD, "of: strip", "of: fill");
        }),
        &[("target-below-label", THIRD, 11)],
    ),
    row(
        Do(|plant| {
            let block = "net_contents: { of: fill, label: 50 g, rules: EU }\n";
            let fill = "settings:\n  fill: { name: Fill, formula: 51 g, unit: g }";
            third(plant, block, ("settings:", fill));
        }),
        &[("average-not-measured", THIRD, 9)],
    ),
    row(
        Do(|plant| web(plant, ("", ""), ("film: print", "film: print\n  threading: -1 m"))),
        &[("below-zero", THIRD, 17)],
    ),
];

/// Faults of instruments, screws, lanes and rails.
const SHOP: &[Row] = &[
    row(
        Edit(MACHINE, "resolution: 0.1 mm", "resolution: 0.1 mm, range: ±500 mm"),
        &[("not-a-range", MACHINE, 7)],
    ),
    row(
        Do(|plant| third(plant, "", ("tolerance: ±1 mm", "tolerance: 3 to 5 mm"))),
        &[("target-outside-limits", THIRD, 21)],
    ),
    row(
        Do(|plant| {
            let wide = "formula: 5 m\n    unit: mm\n    tolerance: ISO 2768-1 m";
            let own = "formula: lanes * strip + 2 * trim\n    unit: mm\n    tolerance: ±1 mm";
            third(plant, "", (own, wide));
        }),
        &[("no-general-tolerance", THIRD, 21)],
    ),
    row(
        Edit(MACHINE, "resolution: 0.1 mm", "resolution: 0.1 mm, range: 0 to 379 mm"),
        &[("out-of-range", LARGE, 22)],
    ),
    row(
        Do(|plant| third(plant, "", ("tolerance: ±1 mm", "tolerance: ±0.4 mm"))),
        &[("coarse-instrument", THIRD, 22)],
    ),
    row(
        Edit(MACHINE, "resolution: 0.1 mm", "resolution: 0.1 mm, error_limit: ±0.2 mm"),
        &[
            ("uncertain-instrument", LARGE, 15),
            ("uncertain-instrument", LARGE, 28),
            ("uncertain-instrument", SMALL, 15),
            ("uncertain-instrument", SMALL, 28),
        ],
    ),
    row(
        Edit(PLANT, "domain:", "judging: guarded\ndomain:"),
        &[
            ("no-error-limit", LARGE, 15),
            ("no-error-limit", LARGE, 22),
            ("no-error-limit", LARGE, 28),
            ("no-error-limit", SMALL, 15),
            ("no-error-limit", SMALL, 22),
            ("no-error-limit", SMALL, 28),
        ],
    ),
    row(
        Do(|plant| {
            plant.edit(PLANT, "domain:", "judging: guarded\ndomain:");
            let good = "resolution: 0.01 mm, error_limit: ±0.02 mm";
            plant.edit(MACHINE, "resolution: 0.1 mm", good);
            third(plant, "", ("tolerance: ±1 mm", "tolerance: ±0.02 mm"));
        }),
        &[
            ("coarse-instrument", THIRD, 22),
            ("nothing-provable", THIRD, 22),
            ("uncertain-instrument", THIRD, 22),
        ],
    ),
    row(
        Edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    clamp: screw"),
        &[("unknown-fastener", MACHINE, 19)],
    ),
    row(Do(|plant| screw(plant, "thread: M7, class: \"8.8\"")), &[("unknown-thread", MACHINE, 12)]),
    row(Do(|plant| screw(plant, "thread: M6, class: \"5.6\"")), &[("unknown-class", MACHINE, 12)]),
    row(
        Do(|plant| screw(plant, "thread: M6, class: \"8.8\", torque: 13 N·m")),
        &[("torque-above-class", MACHINE, 12)],
    ),
    row(
        Do(|plant| screw(plant, "thread: M5, class: \"8.8\", torque: 4.5 N·m, wrench: wrench")),
        &[("wrench-out-of-range", MACHINE, 12)],
    ),
    row(
        Do(|plant| screw(plant, "thread: M6, class: \"8.8\", torque: 9.3 N·m, wrench: wrench")),
        &[("between-wrench-steps", MACHINE, 12)],
    ),
    row(
        Do(|plant| {
            screw(plant, "thread: M6, class: \"8.8\"");
            plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    clamp: clamp");
        }),
        // The rail has these facts of its own.
        &[("name-twice", MACHINE, 23), ("name-twice", MACHINE, 23)],
    ),
    row(
        Edit(
            MACHINE,
            "spacing: 40 mm",
            "spacing: 40 mm\n    obstacles: [{ name: Stay, from: 240 mm, to: 230 mm }]",
        ),
        // It stands where a spare is parked, too.
        &[
            ("ends-swapped", MACHINE, 19),
            ("over-obstacle", LARGE, 26),
            ("over-obstacle", SMALL, 26),
        ],
    ),
    row(
        Edit(
            MACHINE,
            "spacing: 40 mm",
            "spacing: 40 mm\n    obstacles: [{ name: Stay, from: -5 mm, to: 5 mm }]",
        ),
        &[("over-obstacle", LARGE, 26), ("over-obstacle", SMALL, 26)],
    ),
    row(
        Do(|plant| third(plant, "", ("edge_cuts: true", "edge_cuts: true, run: [1, 2, 3, 4]"))),
        &[("run-without-lanes", THIRD, 26)],
    ),
    row(
        Do(|plant| {
            plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    lanes_fitted: 6");
            third(plant, "", ("edge_cuts: true", "edge_cuts: true, run: [1, 2, 3]"));
        }),
        &[("run-is-not-lanes", THIRD, 26)],
    ),
    row(
        Do(|plant| {
            plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    lanes_fitted: 6");
            third(plant, "", ("edge_cuts: true", "edge_cuts: true, run: [1, 2, 3, 7]"));
        }),
        &[("bad-run", THIRD, 26)],
    ),
    row(
        Edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    lanes_fitted: 3"),
        &[("more-lanes-than-fitted", LARGE, 26), ("more-lanes-than-fitted", SMALL, 26)],
    ),
    row(
        Do(|plant| {
            let lanes = "spacing: 40 mm\n    lanes_fitted: 5\n    lane_pitch: 56 mm";
            plant.edit(MACHINE, "spacing: 40 mm", lanes);
            plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 23 mm");
        }),
        &[("lanes-between", LARGE, 26), ("lanes-between", SMALL, 26)],
    ),
    row(
        Do(|plant| {
            third(plant, "", ("edge_cuts: true", "edge_cuts: true, bar: { number: 3, of: 2 }"))
        }),
        &[("bad-bar", THIRD, 26)],
    ),
    row(
        Do(|plant| {
            let rail = "  rear_rail: { name: Rear rail, zone: slitting, left_end: 250 mm, right_end: 250 mm, \
                        holders: 5, holder_width: 36 mm, spacing: 40 mm }\nzones:\n";
            plant.edit(MACHINE, "zones:\n", rail);
            let layout = "  rear_rail: { knives: { lanes: lanes, strip: strip, edge_cuts: true }, \
                          tolerance: ±0.5 mm, instrument: steel-rule }\nfirst_piece:";
            plant.edit(SMALL, "first_piece:", layout);
        }),
        &[("rail-left", JOB, 4)],
    ),
    row(
        Edit(
            MACHINE,
            "spacing: 40 mm",
            "spacing: 40 mm\n    scale: { at_datum: 100 mm, grows: right }",
        ),
        &[("off-scale", LARGE, 25), ("off-scale", SMALL, 25)],
    ),
    row(
        Do(|plant| screw(plant, "thread: M6, class: \"8.8\", nut_factor: 2")),
        &[("bad-nut-factor", MACHINE, 12)],
    ),
    row(
        Do(|plant| {
            let rule = "instruments:\n  inch-rule: { name: Inch rule, resolution: 1/32 in }\n";
            plant.edit(MACHINE, "instruments:\n", rule);
            let own = "tolerance: ±1 mm\n    instrument: steel-rule";
            third(plant, "", (own, "tolerance: ±5 mm\n    instrument: inch-rule"));
        }),
        &[("fractions-elsewhere", THIRD, 22)],
    ),
    // A bar alone.
    row(
        Do(|plant| {
            let bar = "edge_cuts: true, bar: { number: 2, of: 2 }";
            third(plant, "", ("edge_cuts: true", bar));
        }),
        &[("bars-differ", THIRD, 26)],
    ),
    row(
        Edit(MACHINE, "energy, knives,", "energy, knives, knives,"),
        &[("procedure-twice", MACHINE, 62)],
    ),
    row(
        Do(|plant| {
            let rail = "  rear_rail: { name: Rear rail, zone: slitting, left_end: 250 mm, \
                        right_end: 250 mm, holders: 5, holder_width: 36 mm, spacing: 40 mm }\nzones:\n";
            plant.edit(MACHINE, "zones:\n", rail);
            let layout = "  rear_rail: { knives: { lanes: lanes, strip: strip, edge_cuts: true }, \
                          tolerance: ±0.5 mm, instrument: steel-rule }\nfirst_piece:";
            plant.edit(LARGE, "first_piece:", layout);
        }),
        &[("rail-without-step", MACHINE, 63)],
    ),
    row(
        Edit(MACHINE, "name: Pressure gauge G1", "name: Rail caliper 500 mm"),
        &[("same-name", MACHINE, 7), ("same-name", MACHINE, 9)],
    ),
];

/// Faults by which a person could be hurt.
const SAFETY: &[Row] = &[
    row(Edit(MACHINE, "[mains, air]", "[]"), &[
            ("zone-without-source", MACHINE, 21),
            ("source-in-no-zone", MACHINE, 27),
            ("source-in-no-zone", MACHINE, 45),
        ],
    ),
    row(
        Edit(MACHINE, "kind: pneumatic", "kind: pneumatik"),
        &[("unknown-energy-kind", MACHINE, 47)],
    ),
    row(Edit(MACHINE, "type: valve", "type: push button"), &[("not-isolating", MACHINE, 50)]),
    row(
        Edit(MACHINE, "    relieve: Open the drain. Leave it open.\n", ""),
        &[("stored-not-relieved", MACHINE, 54)],
    ),
    row(
        Write(
            "hazards.yaml",
            b"hazards:\n  burns:\n    harm: serious\n    follows: could\n    hazard: Hot\n    consequence: Burns\n    avoid: \"\"\n",
        ),
        &[("hazard-part-missing", "hazards.yaml", 7)],
    ),
    row(
        Edit(PREPARE, "undamaged\nsign: { performed: technician }", "undamaged"),
        &[("unsigned-step", PREPARE, 42)],
    ),
    row(
        Edit(
            MACHINE,
            "resolution: 0.1 mm, calibration_due: 2027",
            "resolution: 0.1 mm, calibration_due: 2025",
        ),
        &[("calibration-over", JOB, 6)],
    ),
    row(Edit(LOCKOUT, "stage: notify", "stage: work"), &[("stage-missing", LOCKOUT, 46)]),
    row(Edit(RELEASE, "stage: clear-people", "stage: work"), &[("people-not-clear", RELEASE, 52)]),
    // One finding for each of the two sources.
    row(
        Edit(
            LOCKOUT,
            "## Put a lock",
            "## Let the air out\n```step\nstage: relieve\nrepeat: energy\n\
             sign: { performed: technician }\n```\n\n## Put a lock",
        ),
        &[("source-not-held", LOCKOUT, 76), ("source-not-held", LOCKOUT, 76)],
    ),
    row(
        Edit(
            PREPARE,
            "hazards: [unexpected-start]",
            "needs: isolated\nzone: slitting\nhazards: [knife-edge, in-running-rollers]",
        ),
        &[("not-isolated", PREPARE, 42), ("not-isolated", PREPARE, 42)],
    ),
    row(
        Edit(
            PREPARE,
            "hazards: [unexpected-start]",
            "zone: slitting\nhazards: [knife-edge, in-running-rollers]",
        ),
        &[("reaches-in", PREPARE, 42)],
    ),
    row(
        Edit(STORED, "hazards: [pneumatic-motion]", "needs: isolated"),
        &[("zone-missing", STORED, 68)],
    ),
    row(
        Edit(STORED, "hazards: [pneumatic-motion]", "needs: energised"),
        &[("locks-on", STORED, 68)],
    ),
    row(
        Edit(MACHINE, "release-from-lockout, first-piece, ", ""),
        &[
            ("run-without-first-piece", "instructions/release-to-production.md", 27),
            ("locks-left", MACHINE, 62),
        ],
    ),
    row(
        Edit(MACHINE, "    zero: { unit: V, high: 0, instrument: voltage-tester }\n", ""),
        &[("voltage-not-measured", MACHINE, 27)],
    ),
    row(
        Edit(MACHINE, "    zero: { unit: bar, high: 0, instrument: gauge }\n", ""),
        &[("zero-not-measured", MACHINE, 45)],
    ),
    row(Edit(STORED, "reading: { of: zero }\n", ""), &[("zero-not-read", STORED, 56)]),
    row(
        Edit(MACHINE, "sources: [mains, air]", "sources: [mains]"),
        &[("source-in-no-zone", MACHINE, 45)],
    ),
    row(
        Do(|plant| {
            // The two sources change places, and the mains are held by a block.
            let text = plant.read(MACHINE).replace("type: disconnect", "type: block");
            let (head, rest) = text.split_once("  mains:\n").unwrap();
            let (mains, rest) = rest.split_once("  air:\n").unwrap();
            let (air, tail) = rest.split_once("# The").unwrap();
            plant.write(MACHINE, format!("{head}  air:\n{air}  mains:\n{mains}# The{tail}"));
        }),
        &[("block-after-valve", MACHINE, 43)],
    ),
    row(
        Do(|plant| {
            let later = plant.read(JOB).replace("J-1", "J-2").replace("date: 2026-01-12", "date: 2026-01-13");
            plant.write("jobs/J-2.yaml", later);
        }),
        &[("not-what-was-left", "jobs/J-2.yaml", 3)],
    ),
    row(
        Do(|plant| std::fs::remove_file(plant.folder().join("allowed_signers")).unwrap()),
        &[("no-signers", "allowed_signers", 0)],
    ),
    // What stands on a rail is handled without a word of isolation, or as minor servicing.
    row(
        Do(|plant| {
            let text = plant.read(KNIVES);
            let (head, moves) = text.split_once("## Move each holder").unwrap();
            let moves = moves.replacen("needs: isolated\nzone: knife_rail\n", "", 1);
            plant.write(KNIVES, format!("{head}## Move each holder{moves}"));
        }),
        &[("rail-not-isolated", KNIVES, 53)],
    ),
    row(
        Edit(LOCKOUT, "stage: lock\n", "stage: lock\nwhen: { changes: [knife_rail] }\n"),
        &[("lockout-step-optional", LOCKOUT, 84)],
    ),
    row(
        Edit(STORED, "reading: { of: zero }", "reading: { name: all, unit: V, high: 400 }"),
        &[("zero-not-read", STORED, 56)],
    ),
    row(
        Edit(STORED, "hazards: [pneumatic-motion]", "stage: verify"),
        &[
            ("stage-without-sources", STORED, 68),
            ("second-person-missing", STORED, 73),
            ("zero-not-read", STORED, 73),
        ],
    ),
];

const ROWS: &[&[Row]] = &[
    SHAPES,
    PROCEDURES,
    FILES,
    VALUES,
    NAMES,
    COMPUTING,
    TRADE,
    SHOP,
    SAFETY,
    energy::ROWS,
    hazards::ROWS,
    keys::ROWS,
    kit::ROWS,
    lockout::ROWS,
    order::ROWS,
    people::ROWS,
    policy::ROWS,
    register::ROWS,
    reuse::ROWS,
    stop::ROWS,
    translation::ROWS,
];

fn rows() -> impl Iterator<Item = &'static Row> {
    ROWS.iter().flat_map(|rows| rows.iter())
}

/// The small plant with one fault.
fn broken(fault: &Fault) -> Plant {
    let plant = Plant::small();
    match fault {
        Edit(file, from, to) => {
            if !plant.folder().join(file).exists() {
                plant.write(file, pattern(&plant, file));
            }
            plant.edit(file, from, to);
        }
        Write(file, text) => {
            plant.write(file, text);
        }
        Do(make) => make(&plant),
    }
    plant
}

/// What a file that the small plant lacks is a copy of.
fn pattern(plant: &Plant, file: &str) -> String {
    match file {
        THIRD => plant.read(LARGE).replace("id: large-pouch", "id: third"),
        _ => std::fs::read_to_string(root().join(file)).unwrap(),
    }
}

#[test]
fn every_fault_gives_its_finding_and_no_other() {
    let mut wrong = Vec::new();
    for (row, shown) in rows().zip(shown::ALL.iter()) {
        let found: Vec<_> = shown.iter().map(|one| (&*one.rule, &*one.file, one.line)).collect();
        if found != row.found {
            wrong.push(format!("expected {:?}\n   found {found:?}", row.found));
        }
    }
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
}

/// Rows whose one fault is one of shape: rule, file, and the file's text.
pub fn of_shape() -> Vec<(&'static str, &'static str, String)> {
    const SHAPE: [&str; 4] = ["unknown-key", "missing-key", "wrong-shape", "unknown-word"];
    let one = |row: &'static Row| match row.found {
        [(rule, file, _)] if SHAPE.contains(rule) => Some((*rule, *file, &row.fault)),
        _ => None,
    };
    let text = |(rule, file, fault)| (rule, file, broken(fault).read(file));
    rows().filter_map(one).map(text).collect()
}

/// Identifiers of all rules, taken from the text of the rules.
fn rules() -> BTreeSet<String> {
    let folder = root().join("src/finding");
    let modules = std::fs::read_dir(folder.join("rules")).unwrap().map(|one| one.unwrap().path());
    let files = modules.chain([folder.join("rules.rs")]);
    let text: String = files.map(|file| std::fs::read_to_string(file).unwrap()).collect();
    let is_rule = |word: &str| {
        !word.is_empty()
            && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
    };
    let quoted = |text: &str| {
        let word = text.trim_start().strip_prefix('"')?.split('"').next()?;
        is_rule(word).then(|| word.to_owned())
    };
    let mut rules: BTreeSet<String> = ["self.error(", "self.warning("]
        .iter()
        .flat_map(|call| text.split(call).skip(1))
        .filter_map(quoted)
        .collect();
    // A rule of the walk stands alone on its line, before its message in a tuple.
    let walk = std::fs::read_to_string(folder.join("rules/walk.rs")).unwrap();
    rules.extend(walk.lines().filter(|line| line.trim().ends_with("\",")).filter_map(quoted));
    rules
}

#[test]
fn every_rule_has_a_broken_plant_and_every_broken_plant_a_rule() {
    let rules = rules();
    assert!(rules.len() > 70 && rules.contains("locks-on"), "{rules:?}");
    let shown: BTreeSet<String> = rows()
        .chain(redline::ROWS)
        .flat_map(|row| row.found)
        .map(|(rule, _, _)| (*rule).to_owned())
        .collect();
    assert_eq!(rules, shown);
    // Words of a rule stand in `language/*/findings-<topic>.ftl`: that is how the catalogue finds it.
    let catalogue: BTreeSet<String> =
        witnessmark::finding::catalogue().iter().map(|rule| rule.id.to_owned()).collect();
    assert_eq!(rules, catalogue);
}

/// Wants the whole of what `check` prints.
#[track_caller]
fn golden(fault: &Fault, expected: &str) {
    let run = broken(fault).run(&["check", "PLANT"]).ends(1);
    assert_eq!((run.stdout.as_str(), run.stderr.as_str()), (expected, ""));
}

#[test]
fn a_wrong_unit_has_its_caret_and_hides_what_only_suffers_from_it() {
    golden(
        &Edit(LARGE, "fin: 5 mm", "fin: 5 mmm"),
        "\
error[bad-quantity]: `mmm` is not a known unit
 --> recipes/large-pouch.yaml:8:37
  |
8 | inputs: { flat_width: 40 mm, fin: 5 mmm, lanes: 4, trim: 10 mm }
  |                                     ^^^
  |
  = help: did you mean `mm`?

1 error, 0 warnings
",
    );
}

#[test]
fn a_mistyped_key_gets_the_nearest_known_one() {
    golden(
        &Edit(JOB, "machine:", "machin:"),
        "\
error[unknown-key]: unknown key `machin`
 --> jobs/J-1.yaml:2:1
  |
2 | machin: line-1
  | ^^^^^^
  |
  = help: did you mean `machine`?

1 error, 0 warnings
",
    );
}

#[test]
fn an_unprotected_step_is_shown_at_its_heading_with_the_paragraph() {
    golden(
        &Edit(STORED, "hazards: [pneumatic-motion]", "needs: energised"),
        "\
error[locks-on]: `Keep zero until the locks come off` needs power while the source `air` is held
  --> instructions/stored-energy.md:68:4
   |
68 | ## Keep zero until the locks come off
   |    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
   |
   = help: do it before the lockout, after the release, or in a test block (29 CFR 1910.147(e), (f)(1))

1 error, 0 warnings
",
    );
}

#[test]
fn a_file_that_is_not_there_has_no_line() {
    golden(
        &Do(|plant| std::fs::remove_file(plant.folder().join(PEOPLE)).unwrap()),
        "\
error[no-such-file]: the plant has no file people.yaml
--> people.yaml
 = help: write people.yaml

1 error, 0 warnings
",
    );
}

#[test]
fn control_characters_of_a_file_do_not_reach_the_terminal() {
    golden(
        &Write("recipes/a\u{1b}[2J\u{202e}b.txt", b""),
        "\
warning[stray-file]: files in this folder end in .yaml; this one is not read
--> recipes/a\\u001b[2J\\u202eb.txt
 = help: end its name in .yaml, or move it elsewhere

0 errors, 1 warning
",
    );
}
