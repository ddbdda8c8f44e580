//! Rules of hazard messages: signal words, signs, protective equipment.

use super::{Do, Edit, KNIVES, MACHINE, Row, Write, row};

const FILE: &str = "hazards.yaml";

pub const ROWS: &[Row] = &[
    row(
        Edit(
            KNIVES,
            "needs: isolated\nzone: knife_rail\nhazards: [knife-edge, in-running-rollers]\n\
             tools: [\"Blade covers",
            "hazards: [knife-edge]\ntools: [\"Blade covers",
        ),
        &[("hazard-without-zone", KNIVES, 17)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  shock:\n    harm: death\n    follows: will\n    hazard: Live parts\n    \
              consequence: Shock\n    avoid: \"-\"\n",
        ),
        &[("hazard-part-missing", FILE, 7)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  burns:\n    hazard: Hot\n    consequence: Burns\n    avoid: Wait\n",
        ),
        &[("missing-key", FILE, 2)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  knife-edge:\n    harm: damage\n    follows: could\n    hazard: Knives\n    \
              consequence: Scratches\n    avoid: Take care\n",
        ),
        &[("hazard-softened", FILE, 3)],
    ),
    // DANGER for what only could follow, and NOTICE for an injury.
    row(
        Write(
            FILE,
            b"hazards:\n  burns:\n    harm: serious\n    follows: could\n    signal: DANGER\n    \
              hazard: Hot\n    consequence: Burns\n    avoid: Wait\n",
        ),
        &[("signal-disagrees", FILE, 5)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  burns:\n    harm: minor\n    follows: could\n    signal: NOTICE\n    \
              hazard: Hot\n    consequence: Burns\n    avoid: Wait\n",
        ),
        &[("signal-disagrees", FILE, 5)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  jaws:\n    harm: minor\n    follows: could\n    hazard: Jaws\n    \
              consequence: Crushed fingers\n    avoid: Keep out\n",
        ),
        &[("harm-too-low", FILE, 6)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  jaws:\n    harm: moderate\n    follows: could\n    hazard: Hot jaws\n    \
              consequence: Burns\n    avoid: Write down the temperature. Keep out.\n",
        ),
        &[("avoidance-is-a-step", FILE, 7)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  jaws:\n    harm: moderate\n    follows: could\n    hazard: Hot jaws\n    \
              consequence: Burns\n    avoid: Keep out\n    signs: [W017, W071]\n",
        ),
        &[("unknown-sign", FILE, 8)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  jaws:\n    harm: moderate\n    follows: could\n    hazard: Hot jaws\n    \
              consequence: Burns\n    avoid: Keep out\n    signs: [M009]\n",
        ),
        &[("no-warning-sign", FILE, 8)],
    ),
    row(
        Write(
            FILE,
            b"hazards:\n  lens:\n    harm: damage\n    follows: could\n    hazard: Soft lens\n    \
              consequence: Scratches\n    avoid: Wipe it dry\n    signs: [W001]\n",
        ),
        &[("warning-on-notice", FILE, 8)],
    ),
    row(
        Do(|plant| {
            let text = plant.read(MACHINE).replace("    hazards: [residual-voltage]\n", "");
            let (before, after) = text.split_once("    name: Mains supply\n").unwrap();
            plant.write(
                MACHINE,
                format!(
                    "{before}    name: Mains supply\n    hazards: [pneumatic-motion]\n{after}"
                ),
            );
        }),
        &[("source-sign-missing", MACHINE, 29)],
    ),
    row(
        Do(|plant| {
            let text = std::fs::read_to_string(super::root().join("instructions/first-piece.md"));
            let text = text.unwrap().replacen(
                "hazards: [moving-conveyor, noise]",
                "hazards: [in-running-rollers, knife-edge]",
                1,
            );
            plant.write("instructions/first-piece.md", text);
        }),
        &[("gloves-forbidden", "instructions/first-piece.md", 19)],
    ),
];
