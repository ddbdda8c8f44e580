//! Rules of the register: approvals and inspections.

use super::Fault::Do;
use super::{PLANT, Row, row};
use crate::plant::Plant;

const SIGNERS: &str = "allowed_signers";
const ENTRY: &str = "register/000001.json";

pub const ROWS: &[Row] = &[
    row(Do(|plant| approvals(plant, "leed", "quality", true)), &[("unknown-role", PLANT, 13)]),
    row(Do(|plant| approvals(plant, "lead", "qualty", true)), &[("unknown-role", PLANT, 14)]),
    row(
        Do(|plant| approvals(plant, "lead", "lead", false)),
        &[("register-nobody-can-sign", PLANT, 13), ("register-nobody-can-sign", PLANT, 14)],
    ),
    // An entry that says nothing approves nothing.
    row(
        Do(|plant| {
            plant.write(ENTRY, "{}\n");
        }),
        &[("register-entry", ENTRY, 0), ("register-entry", ENTRY, 0)],
    ),
];

/// Asks for approvals by these roles, with or without keys that are listed for them.
fn approvals(plant: &Plant, procedures: &str, recipes: &str, listed: bool) {
    let text = plant.read(PLANT);
    plant.write(
        PLANT,
        format!("{text}approvals:\n  procedures: {procedures}\n  recipes: {recipes}\n"),
    );
    let purpose = if listed { "register" } else { "signoff" };
    let line = |person: &str, key: &str| {
        format!(
            "{person} namespaces=\"{purpose}@plant.example\",valid-after=\"20260101Z\",\
             valid-before=\"20270101Z\" ssh-ed25519 {key}\n"
        )
    };
    let lead = line("l.two@plant.example", LEAD);
    plant.write(SIGNERS, lead + &line("q.three@plant.example", QUALITY));
}

/// Keys of RFC 8032, section 7.1, tests 1 and 2.
const LEAD: &str = "AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea";
const QUALITY: &str = "AAAAC3NzaC1lZDI1NTE5AAAAID1AF8PoQ4lakrcKp00bfrycmCzPLsSWjMDNVfEq9GYM";
