//! What the program is built from: licences that may be combined, and not more crates than needed.
//!
//! Works without a network: licences come from the crates on this machine. Advisories need a
//! database that has to be fetched; `cargo deny check` with the `deny.toml` beside this does both.

use std::process::Command;

use crate::plant::root;

/// How many crates the lock file may hold. Raise it knowingly, with a word in the commit why.
///
/// Fifteen are those of Parquet, without Arrow and compression; half of them only on other systems.
/// Eleven are those of the server of `preview`: hyper, and tokio for one thread.
/// Twenty read CSV files and workbooks (archives, XML, encodings), with the writer of the tests.
const MOST_CRATES: usize = 272;

fn deny() -> String {
    std::fs::read_to_string(root().join("deny.toml")).unwrap()
}

/// Licences that `deny.toml` allows.
fn allowed() -> Vec<String> {
    let text = deny();
    let list = text.split_once("allow = [").unwrap().1.split_once(']').unwrap().0;
    list.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

#[test]
fn every_licence_is_allowed() {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline"])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let allowed = allowed();
    let mut seen = 0;
    for package in metadata["packages"].as_array().unwrap() {
        let licence = package["license"].as_str().unwrap_or("none");
        seen += 1;
        assert!(fits(licence, &allowed), "{}: {licence} is not allowed", package["name"]);
    }
    assert!(seen > 50, "{seen} crates");
}

/// Whether one of the alternatives of an SPDX expression is allowed as a whole.
fn fits(expression: &str, allowed: &[String]) -> bool {
    let plain = expression.replace(['(', ')'], " ").replace('/', " OR ");
    plain.split(" OR ").any(|alternative| {
        alternative.split(" AND ").all(|name| allowed.iter().any(|known| known == name.trim()))
    })
}

#[test]
fn the_lock_file_stays_short() {
    let lock = std::fs::read_to_string(root().join("Cargo.lock")).unwrap();
    let crates = lock.matches("[[package]]").count();
    assert!(crates <= MOST_CRATES, "{crates} crates, {MOST_CRATES} are allowed");
}

#[test]
fn expressions_are_understood() {
    let allowed = vec!["MIT".to_owned(), "Unicode-3.0".to_owned()];
    assert!(fits("Apache-2.0 OR MIT", &allowed) && fits("MIT/Apache-2.0", &allowed));
    assert!(fits("(MIT OR Apache-2.0) AND Unicode-3.0", &allowed));
    assert!(!fits("GPL-3.0-only", &allowed) && !fits("MIT AND GPL-2.0-only", &allowed));
}
