//! Rules of one text for many machines: parameters, includes, conditions, the order for a kind.

use super::Fault::{Do, Edit};
use super::{KNIVES, LOCKOUT, MACHINE, PLANT, PREPARE, Row, row};
use crate::plant::{Plant, root};

const ORDER: &str = "changeover: [prepare, lockout, stored-energy, knives, release-from-lockout, first-piece, release-to-production]";

/// The shipped procedure for knives, which has a parameter, in the place of the plant's own.
fn shipped(plant: &Plant) {
    plant.write(KNIVES, std::fs::read_to_string(root().join(KNIVES)).unwrap());
}

/// The shipped procedure for knives, used so.
fn used(plant: &Plant, entry: &str) {
    shipped(plant);
    plant.edit(MACHINE, "knives, release", &format!("{entry}, release"));
}

/// The shipped procedure for knives with a fault.
fn knives(plant: &Plant, from: &str, to: &str) {
    shipped(plant);
    plant.edit(KNIVES, from, to);
}

/// A procedure of only these sections.
fn procedure(plant: &Plant, id: &str, sections: &str) {
    let head = "title: T\nrevision: 1\ndate: 2026-01-05\nauthor: A\nreason: R";
    plant
        .write(&format!("instructions/{id}.md"), format!("---\nid: {id}\n{head}\n---\n{sections}"));
}

/// A section that includes a procedure.
fn include(id: &str) -> String {
    format!("## Do it\n```include\nprocedure: {id}\n```\n")
}

pub const ROWS: &[Row] = &[
    row(
        Do(|plant| used(plant, "{ procedure: knives, with: { ral: knife_rail } }")),
        &[("unknown-parameter", MACHINE, 62)],
    ),
    row(
        Edit(MACHINE, "[prepare,", "[{ procedure: prepare, with: { rail: knife_rail } },"),
        &[("unknown-parameter", MACHINE, 62)],
    ),
    row(
        Do(|plant| used(plant, "{ procedure: knives, with: { rail: knife_rial } }")),
        &[("bad-parameter", MACHINE, 62)],
    ),
    row(
        Do(|plant| {
            used(plant, "{ procedure: knives, with: { rail: knife_rail, rail: knife_rail } }")
        }),
        &[("key-twice", MACHINE, 62)],
    ),
    row(Do(|plant| used(plant, "{ procedur: knives }")), &[("unknown-key", MACHINE, 62)]),
    row(
        Do(|plant| knives(plant, ", default: knife_rail", "")),
        &[("missing-parameter", MACHINE, 62)],
    ),
    row(
        Do(|plant| knives(plant, "parameters:\n", "parameters:\n  what: { type: text }\n")),
        &[("missing-parameter", MACHINE, 62)],
    ),
    row(Do(|plant| knives(plant, "type: rail,", "type: rial,")), &[("unknown-word", KNIVES, 10)]),
    row(
        Edit(
            PREPARE,
            "standards:\n",
            "parameters:\n  gap: { type: quantity, unit: mm, default: 3 bar }\nstandards:\n",
        ),
        &[("bad-parameter", PREPARE, 9), ("bad-parameter", MACHINE, 62)],
    ),
    row(
        Edit(
            PREPARE,
            "standards:\n",
            "parameters:\n  Gap: { type: text, default: wide }\nstandards:\n",
        ),
        &[("bad-name", PREPARE, 9)],
    ),
    // A rail in the place of an instrument, by a default that was right for another machine.
    row(
        Do(|plant| {
            knives(
                plant,
                "parameters:\n",
                "parameters:\n  gauge: { type: instrument, default: knife_rail }\n",
            )
        }),
        &[("bad-parameter", MACHINE, 62)],
    ),
    // An include tells a parameter that the procedure has not.
    row(
        Edit(
            PREPARE,
            "## Fetch the kit",
            "## Set the values\n```include\nprocedure: values\nwith: { gap: 5 mm }\n```\n\n## Fetch the kit",
        ),
        &[("unknown-parameter", PREPARE, 28)],
    ),
    row(
        Edit(
            PREPARE,
            "## Fetch the kit",
            "## Go on\n```include\nprocedure: valeus\n```\n\n## Fetch the kit",
        ),
        &[("unknown-procedure", PREPARE, 27)],
    ),
    row(
        Edit(
            PREPARE,
            "## Fetch the kit",
            "## Go on\nLook.\n```include\nprocedure: values\n```\n\n## Fetch the kit",
        ),
        &[("include-not-alone", PREPARE, 25)],
    ),
    row(
        Edit(
            PREPARE,
            "## Fetch the kit",
            "## Go on\n```include\nprocedure: prepare\n```\n\n## Fetch the kit",
        ),
        &[("include-circle", PREPARE, 27)],
    ),
    row(
        Do(|plant| {
            for (id, next) in
                [("a1", "a2"), ("a2", "a3"), ("a3", "a4"), ("a4", "a5"), ("a5", "prepare")]
            {
                procedure(plant, id, &include(next));
            }
            plant.edit(MACHINE, "[prepare,", "[a1,");
        }),
        &[("include-too-deep", "instructions/a5.md", 11)],
    ),
    row(
        Do(|plant| {
            procedure(plant, "a1", &include("a2").repeat(18));
            procedure(plant, "a2", &include("a3").repeat(18));
            let step = "## Look\nLook.\n```step\nsign: { performed: technician }\n```\n";
            procedure(plant, "a3", step);
            plant.edit(MACHINE, "[prepare,", "[a1, prepare,");
        }),
        &[("too-many-procedures", "instructions/a2.md", 63)],
    ),
    row(
        Edit(PREPARE, "tools: [Kit cart]", "tools: [Kit cart]\nwhen: { rails: [knife_rial] }"),
        &[("unknown-feature", PREPARE, 34)],
    ),
    row(
        Edit(PREPARE, "tools: [Kit cart]", "tools: [Kit cart]\nwhen: { energy: [pneumatics] }"),
        &[("unknown-word", PREPARE, 34)],
    ),
    // Conditions on the lockout, on a step and on the procedure, that hold today.
    row(
        Edit(
            LOCKOUT,
            "stage: isolate\n",
            "stage: isolate\nwhen: { kinds: [multi-lane pouch line] }\n",
        ),
        &[("lockout-step-optional", LOCKOUT, 68)],
    ),
    row(
        Edit(LOCKOUT, "standards:\n", "when: { rails: [knife_rail] }\nstandards:\n"),
        &[("lockout-step-optional", LOCKOUT, 10)],
    ),
    row(
        Edit(PLANT, "domain:", "changeovers: { pouch line: [prepare] }\ndomain:"),
        &[("unknown-kind", PLANT, 3)],
    ),
    row(Edit(MACHINE, ORDER, ""), &[("order-missing", MACHINE, 3)]),
];
