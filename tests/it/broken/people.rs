//! Rules of who is there for a job.

use super::Fault::Do;
use super::{JOB, PLANT, Row, row};
use crate::plant::Plant;

/// Names the people of the shift `early` in line 12 of the plant, and writes more keys into the job
/// from its line 10 on. `t.five` had a role until the year before.
fn people(plant: &Plant, shift: &str, job: &str) {
    let whole = |text: &str| text.replace('$', "@plant.example");
    let early = format!("shifts: {{ early: {{ ends: \"14:00\", people: [{}] }} }}\n", whole(shift));
    plant.write(PLANT, plant.read(PLANT) + &early);
    plant.write(JOB, plant.read(JOB) + &whole(job));
    let five = "  - id: t.five@plant.example\n    name: Technician Five\n    \
                roles: [{ role: technician, from: 2025-01-01, until: 2025-12-31 }]\n";
    let four = "  - id: t.four@plant.example\n    name: Technician Four\n    \
                roles: [{ role: technician, from: 2025-01-01 }]\n";
    plant.write("people.yaml", plant.read("people.yaml") + five + four);
    for own in ["lockout", "stored-energy", "release-from-lockout"] {
        let file = plant.folder().join(format!("instructions/{own}.md"));
        std::fs::remove_file(file).unwrap();
    }
}

const CREW: &str = "lockout: { crew: [t.one$, t.four$], primary: t.one$ }\n";

pub const ROWS: &[Row] = &[
    // Who left stays in the list of the shift, and no plan counts on this person.
    row(Do(|plant| people(plant, "t.one$, t.five$, l.two$, q.three$", "")), &[]),
    row(Do(|plant| people(plant, "t.oen$", "")), &[("unknown-person", PLANT, 12)]),
    row(Do(|plant| people(plant, "t.one$, t.one$", "")), &[("person-twice", PLANT, 12)]),
    row(Do(|plant| people(plant, "", "people: [t.oen$]\n")), &[("unknown-person", JOB, 10)]),
    row(
        Do(|plant| people(plant, "", "people:\n  - t.one$\n  - t.one$\n")),
        &[("person-twice", JOB, 12)],
    ),
    row(
        Do(|plant| people(plant, "", "people: [t.one$, t.five$]\n")),
        &[("person-without-role", JOB, 10)],
    ),
    row(Do(|plant| people(plant, "t.one$, t.four$", CREW)), &[]),
    row(Do(|plant| people(plant, "t.one$", CREW)), &[("crew-not-there", JOB, 10)]),
    row(
        Do(|plant| people(plant, "t.one$, t.four$", &format!("people: [t.four$]\n{CREW}"))),
        &[("crew-not-there", JOB, 11)],
    ),
];
