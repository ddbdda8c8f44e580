//! Rules of texts in several languages, and of procedures in another language.

use super::Fault::Do;
use super::{JOB, MACHINE, PLANT, Row, row};
use crate::plant::Plant;

const FIRST: &str = "instructions/es/first-piece.md";

/// A sound translation of the plant's own procedure.
const SOUND: &str = "---
of: first-piece
translates: 1
title: Comprobar las primeras piezas
date: 2026-01-05
translator: A
---
Las primeras piezas muestran si la línea hace el producto nuevo.

## Haga las primeras piezas
Haga 20 ciclos.
```texts
of: make-the-first-pieces
tools: [Recipientes marcados]
checks: [Las piezas de los 20 ciclos están con los rechazos, Cada carril está en la muestra]
```

## Mida las primeras piezas
Mida cada pieza. Escriba el valor.
```texts
of: measure-the-first-pieces
outside: Deje la línea parada.
checks: [Cada valor se midió]
```

## Mire las primeras piezas
Compare la muestra con la hoja del pedido.
```texts
of: look-at-the-first-pieces
checks: [El producto concuerda, La línea de alérgenos concuerda, Nada se abrió]
```

## Marche a velocidad de trabajo
Suba la velocidad en tres pasos.
```texts
of: run-at-working-speed
checks: [La línea marchó cinco minutos, La muestra pasó]
```
";

/// The plant with a translation that has one fault.
fn translated(plant: &Plant, from: &str, to: &str) {
    plant.write(FIRST, SOUND);
    plant.edit(FIRST, from, to);
}

/// The plant's own procedures, not one of them in Spanish.
fn spanish(plant: &Plant) {
    plant.edit(PLANT, "domain:", "languages: [en, es]\ndomain:");
    plant.edit(JOB, "shift: early", "shift: early\nlanguage: es");
}

pub const ROWS: &[Row] = &[
    row(
        Do(|plant| translated(plant, "```texts\nof: make", "```text\nof: make")),
        &[("texts-block", FIRST, 10)],
    ),
    row(
        Do(|plant| translated(plant, "of: first-piece", "of: first-pieces")),
        &[("translation-of-nothing", FIRST, 2)],
    ),
    row(
        Do(|plant| translated(plant, "of: look-at", "of: to-look-at")),
        &[("translation-out-of-step", FIRST, 29)],
    ),
    row(
        Do(|plant| {
            let (most, _) = SOUND.split_once("\n## Marche").unwrap();
            plant.write(FIRST, most);
        }),
        &[("translation-lacks-step", FIRST, 26)],
    ),
    row(
        Do(|plant| {
            plant.write(FIRST, format!("{SOUND}\n## Pare\nPare.\n```texts\nof: stop\n```\n"));
        }),
        &[("translation-has-more", FIRST, 43)],
    ),
    row(
        Do(|plant| translated(plant, ", Nada se abrió]", "]")),
        &[("translation-texts-differ", FIRST, 30)],
    ),
    // What a procedure is meant for is translated too, and none is invented.
    row(
        Do(|plant| translated(plant, "translator: A", "translator: A\nuse: Trabajos")),
        &[("translation-texts-differ", FIRST, 7)],
    ),
    row(
        Do(|plant| translated(plant, "Haga 20 ciclos.", "Haga {{ strip }} ciclos.")),
        &[("translation-adds-value", FIRST, 11)],
    ),
    row(
        Do(|plant| {
            plant.edit("instructions/first-piece.md", "Make 20 cycles", "Make {{ job.id }} cycles");
            plant.write(FIRST, SOUND);
        }),
        &[("translation-lacks-value", FIRST, 10)],
    ),
    row(
        Do(|plant| {
            translated(plant, "translates: 1", "translates: 0");
            spanish(plant);
        }),
        &[
            ("translation-is-old", FIRST, 3),
            ("procedure-not-translated", "instructions/knives.md", 3),
            ("procedure-not-translated", "instructions/lockout.md", 3),
            ("procedure-not-translated", "instructions/prepare.md", 3),
            ("procedure-not-translated", "instructions/release-from-lockout.md", 3),
            ("procedure-not-translated", "instructions/release-to-production.md", 3),
            ("procedure-not-translated", "instructions/stored-energy.md", 3),
        ],
    ),
    row(
        Do(|plant| {
            spanish(plant);
            plant.edit(PLANT, "[en, es]", "[en, es, de]");
            let name = "name:\n  en: Four-lane pouch line\n  de: Vierbahnige Beutellinie";
            plant.edit(MACHINE, "name: Four-lane pouch line", name);
        }),
        &[
            ("procedure-not-translated", "instructions/first-piece.md", 3),
            ("procedure-not-translated", "instructions/knives.md", 3),
            ("procedure-not-translated", "instructions/lockout.md", 3),
            ("procedure-not-translated", "instructions/prepare.md", 3),
            ("procedure-not-translated", "instructions/release-from-lockout.md", 3),
            ("procedure-not-translated", "instructions/release-to-production.md", 3),
            ("procedure-not-translated", "instructions/stored-energy.md", 3),
            ("text-not-translated", MACHINE, 2),
        ],
    ),
    row(
        Do(|plant| {
            let name = "name: { en: Four-lane pouch line, es: Línea de bolsas }";
            plant.edit(MACHINE, "name: Four-lane pouch line", name);
        }),
        &[("language-not-of-plant", MACHINE, 2)],
    ),
    row(
        Do(|plant| {
            plant.edit(PLANT, "domain:", "languages: [en, es]\ndomain:");
            plant.edit(MACHINE, "name: Four-lane pouch line", "name: { es: Línea de bolsas }");
        }),
        &[("text-without-main", MACHINE, 2)],
    ),
];
