//! Rules of the lockout part: who locks, groups, shift change, contractors.

use super::Fault::{Do, Edit};
use super::{JOB, LOCKOUT, MACHINE, PLANT, Row, row};
use crate::plant::{Plant, root};

/// Puts people under one lockout into the job, from its line 10 on; the shipped procedures have
/// the steps for them.
fn group(plant: &Plant, lockout: &str) {
    for own in ["lockout", "stored-energy", "release-from-lockout"] {
        let file = plant.folder().join(format!("instructions/{own}.md"));
        std::fs::remove_file(file).unwrap();
    }
    job(plant, lockout);
}

/// The same with the plant's own procedures, which have no such steps.
fn job(plant: &Plant, lockout: &str) {
    let person = |name: &str, until: &str| {
        format!(
            "  - id: {name}@plant.example\n    name: {name}\n    \
             roles: [{{ role: technician, from: 2025-01-01{until} }}]\n"
        )
    };
    let people = plant.read("people.yaml") + &person("t.four", "") + &person("t.six", "");
    plant.write("people.yaml", people + &person("t.five", ", until: 2025-12-31"));
    let lockout = lockout.replace('$', "@plant.example");
    plant.write(JOB, format!("{}lockout:\n{lockout}", plant.read(JOB)));
}

const CREW: &str = "  crew: [t.one$, t.four$]\n  primary: t.one$\n";
const CHANGE: &str = "  shift_change: { before: knives, crew: [t.six$], primary: t.six$ }\n";

const GAP: (&str, &str, u64) = ("shift-change-gap", JOB, 13);

/// A crew that changes by a procedure of the plant's own, with one text in place of another.
fn handover(plant: &Plant, from: &str, to: &str) {
    let shipped = root().join("instructions/shift-change.md");
    let text = std::fs::read_to_string(shipped).unwrap();
    assert!(text.contains(from));
    plant.write("instructions/shift-change.md", text.replacen(from, to, 1));
    group(plant, &format!("{CREW}{CHANGE}"));
}

/// Tells when each shift ends and when the job begins.
fn shifts(plant: &Plant, ends: &str, starts: &str) {
    let shift = format!("shifts: {{ early: {{ ends: \"{ends}\" }} }}\n");
    plant.write(PLANT, plant.read(PLANT) + &shift);
    plant.write(JOB, format!("{}starts: \"{starts}\"\n", plant.read(JOB)));
}

pub const ROWS: &[Row] = &[
    row(
        Edit("people.yaml", "{ role: lead, from: 2026-01-01 }", "{ role: lead, from: 2026-02-01 }"),
        &[("role-held-by-nobody", JOB, 6)],
    ),
    row(
        Edit(
            LOCKOUT,
            "safe position\nsign: { performed: technician }",
            "safe position\nsign: { performed: lead }",
        ),
        &[("role-not-authorised", LOCKOUT, 72)],
    ),
    row(
        Edit(
            LOCKOUT,
            "safe position\nsign: { performed: technician }",
            "safe position\nsign: { verified: lead }",
        ),
        &[("role-not-authorised", LOCKOUT, 72)],
    ),
    row(Edit(PLANT, "authorised: [technician]\n", ""), &[("nobody-authorised", PLANT, 2)]),
    row(Edit(PLANT, "[technician]", "[technician, fitter]"), &[("unknown-role", PLANT, 10)]),
    row(Edit(PLANT, "electrical: technician\n", ""), &[("no-electrical-role", PLANT, 2)]),
    row(
        Edit(PLANT, "electrical: technician", "electrical: fitter"),
        &[("unknown-role", PLANT, 11)],
    ),
    row(
        Edit(PLANT, "electrical: technician", "electrical: lead"),
        &[("electrical-not-authorised", PLANT, 11)],
    ),
    // Groups.
    row(Do(|plant| group(plant, &format!("{CREW}{CHANGE}"))), &[]),
    row(Do(|plant| group(plant, "  crew: [t.one$, t.four$]\n")), &[("primary-missing", JOB, 11)]),
    row(
        Do(|plant| {
            group(plant, &format!("{CREW}  shift_change: {{ before: knives, crew: [t.six$] }}\n"))
        }),
        &[("primary-missing", JOB, 13)],
    ),
    row(
        Do(|plant| group(plant, &format!("{CREW}  crafts: [mechanic, electrician]\n"))),
        &[("coordinator-missing", JOB, 13)],
    ),
    row(
        Do(|plant| {
            group(plant, "  contractors: [{ firm: F, contact: C, told_by: l.two$ }]\n");
        }),
        &[("coordinator-missing", JOB, 11)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$, t.four$, l.two$]\n  primary: t.one$\n")),
        &[("person-not-authorised", JOB, 11)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$, t.four$, t.five$]\n  primary: t.one$\n")),
        &[("person-not-authorised", JOB, 11)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$, t.four$]\n  primary: l.two$\n")),
        &[("person-not-authorised", JOB, 12)],
    ),
    row(
        Do(|plant| group(plant, &format!("{CREW}  coordinator: q.three$\n"))),
        &[("person-not-authorised", JOB, 13)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$, t.four$, t.for$]\n  primary: t.one$\n")),
        &[("unknown-person", JOB, 11)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$, t.four$, t.one$]\n  primary: t.one$\n")),
        &[("person-twice", JOB, 11)],
    ),
    row(
        Do(|plant| group(plant, "  crew: [t.one$]\n  primary: t.one$\n")),
        &[("group-of-one", JOB, 11)],
    ),
    row(Do(|plant| group(plant, CHANGE)), &[("missing-key", JOB, 10)]),
    row(
        Do(|plant| {
            let firm = "contractors: [{ firm: F, told_by: l.two$ }]\n";
            group(plant, &format!("  {firm}  coordinator: t.one$\n"));
        }),
        &[("contractor-not-told", JOB, 11)],
    ),
    row(
        Do(|plant| {
            let firm = "contractors: [{ firm: F, contact: C }]\n";
            group(plant, &format!("  {firm}  coordinator: t.one$\n"));
        }),
        &[("contractor-not-told", JOB, 11)],
    ),
    // A machine that is not locked yet, one that is free again, and none at all.
    row(
        Do(|plant| group(plant, &(CREW.to_owned() + &CHANGE.replace("knives", "stored-energy")))),
        &[("shift-change-misplaced", JOB, 13)],
    ),
    row(
        Do(|plant| group(plant, &(CREW.to_owned() + &CHANGE.replace("knives", "first-piece")))),
        &[("shift-change-misplaced", JOB, 13)],
    ),
    row(
        Do(|plant| group(plant, &(CREW.to_owned() + &CHANGE.replace("knives", "guides")))),
        &[("shift-change-misplaced", JOB, 13)],
    ),
    row(
        Do(|plant| {
            plant.edit(MACHINE, "energy, knives,", "energy, shift-change, knives,");
            group(plant, &format!("{CREW}{CHANGE}"));
        }),
        &[("procedure-twice", JOB, 13)],
    ),
    row(Do(|plant| handover(plant, "repeat: arriving", "repeat: leaving")), &[GAP]),
    row(Do(|plant| handover(plant, "repeat: leaving", "repeat: handover")), &[GAP]),
    row(
        Do(|plant| handover(plant, "stage: verify\nrepeat: energy\nreading: { of: zero }\n", "")),
        &[GAP],
    ),
    // Steps that no job with a shift change has.
    row(
        Do(|plant| {
            let shipped = root().join("instructions/shift-change.md");
            let text = std::fs::read_to_string(shipped).unwrap();
            let text = text.replace("job: shift-change", "job: contractors");
            plant.write("instructions/shift-change.md", text);
            group(plant, &format!("{CREW}{CHANGE}"));
        }),
        &[("no-personal-locks", JOB, 11), GAP],
    ),
    row(
        Do(|plant| {
            let inching = "inching: { sources: [mains], control: Jog button S7, held: hold-to-run, \
                           most: 25 mm }\nchangeover: [";
            plant.edit(MACHINE, "changeover: [", inching);
            plant.edit(MACHINE, "knives, release", "knives, inching, release");
            group(plant, CREW);
        }),
        &[("crew-in-test-block", JOB, 11)],
    ),
    row(
        Do(|plant| {
            let firm = "contractors: [{ firm: F, contact: C, told_by: l.two$ }]\n";
            job(plant, &format!("  {firm}  coordinator: t.one$\n"));
        }),
        &[("contractors-not-met", JOB, 11)],
    ),
    row(Do(|plant| job(plant, CREW)), &[("no-personal-locks", JOB, 11)]),
    row(
        Do(|plant| {
            shifts(plant, "09:30", "08:00");
        }),
        &[("shift-ends-under-locks", JOB, 10)],
    ),
    row(
        Do(|plant| {
            group(plant, &format!("{CREW}{CHANGE}"));
            shifts(plant, "09:30", "08:00");
        }),
        &[],
    ),
    row(Do(|plant| shifts(plant, "14:00", "8 am")), &[("bad-clock", JOB, 10)]),
    row(Do(|plant| shifts(plant, "24:00", "08:00")), &[("bad-clock", PLANT, 12)]),
    row(
        Do(|plant| {
            shifts(plant, "14:00", "08:00");
            plant.edit(JOB, "shift: early", "shift: erly");
        }),
        &[("unknown-word", JOB, 7)],
    ),
];
