//! Rules of keys: the list of signers, and keys that were revoked.

use super::{Do, PEOPLE, Row, Write, row};
use crate::plant::Plant;

const SIGNERS: &str = "allowed_signers";

pub const ROWS: &[Row] = &[
    // A line that leaves something open counts for nobody.
    row(
        Do(|plant| list(plant, &[line(TECHNICIAN), line("l.two@plant.example")])),
        &[("bad-signer", SIGNERS, 1), ("bad-signer", SIGNERS, 2)],
    ),
    row(
        Do(|plant| list(plant, &[line(TECHNICIAN).replace(KEY, WEAK)])),
        &[("bad-signer", SIGNERS, 1)],
    ),
    row(
        Do(|plant| list(plant, &[line(TECHNICIAN).replace(",valid-before=\"20270101Z\"", "")])),
        &[("bad-signer", SIGNERS, 1)],
    ),
    row(Do(|plant| list(plant, &[line("*@plant.example")])), &[("bad-signer", SIGNERS, 1)]),
    row(
        Do(|plant| list(plant, &[line(TECHNICIAN).replace("20270101Z", "20270101")])),
        &[("bad-signer", SIGNERS, 1)],
    ),
    row(
        Do(|plant| list(plant, &[line(TECHNICIAN).replace("20270101Z", "20280105Z")])),
        &[("key-valid-too-long", SIGNERS, 1)],
    ),
    // A key that was revoked.
    row(Do(|plant| revoked(plant, "SHA256:x", DAY, "Lost")), &[("revoked-key", PEOPLE, 17)]),
    row(
        Do(|plant| revoked(plant, FINGERPRINT, "2026-11-02", "Lost")),
        &[("revoked-time", PEOPLE, 17)],
    ),
    row(Do(|plant| revoked(plant, FINGERPRINT, DAY, "\" \"")), &[("empty-text", PEOPLE, 17)]),
    row(
        Do(|plant| {
            revoked(plant, FINGERPRINT, DAY, "Lost");
            let people = plant.read(PEOPLE);
            plant.write(PEOPLE, people + &entry(FINGERPRINT, DAY, "Lost again"));
        }),
        &[("revoked-twice", PEOPLE, 18)],
    ),
    row(
        Do(|plant| {
            revoked(plant, FINGERPRINT, DAY, "Lost");
            plant.write(SIGNERS, "");
        }),
        &[("revoked-unlisted", PEOPLE, 17)],
    ),
    // One good line and one revocation: nothing to find.
    row(Do(|plant| revoked(plant, FINGERPRINT, DAY, "Lost")), &[]),
    row(Write(SIGNERS, b""), &[]),
];

const TECHNICIAN: &str = "t.one@plant.example";
const DAY: &str = "2026-11-02T10:00:00+01:00";

/// The first key of RFC 8032 §7.1, and what `ssh-keygen -l` says of it.
const KEY: &str = "AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea";
const FINGERPRINT: &str = "SHA256:bbXpuKG6zhzdmnxq256TlqzFBzRl2f6OOg722cYNbU8";

/// The curve's identity point: one signature by it fits every message.
const WEAK: &str = "AAAAC3NzaC1lZDI1NTE5AAAAIAEAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

fn line(person: &str) -> String {
    format!(
        "{person} namespaces=\"signoff@plant.example\",valid-after=\"20260101Z\",\
         valid-before=\"20270101Z\" ssh-ed25519 {KEY}\n"
    )
}

fn list(plant: &Plant, lines: &[String]) {
    plant.write(SIGNERS, lines.concat());
}

fn entry(key: &str, from: &str, why: &str) -> String {
    format!("  - {{ key: \"{key}\", from: {from}, why: {why} }}\n")
}

/// The technician's key stands in the list, and in line 17 that a key was revoked.
fn revoked(plant: &Plant, key: &str, from: &str, why: &str) {
    list(plant, &[line(TECHNICIAN)]);
    plant.write(PEOPLE, plant.read(PEOPLE) + "revoked:\n" + &entry(key, from, why));
}
