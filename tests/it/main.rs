//! The whole program, run on real folders: one module for each command or concern.
#![allow(clippy::disallowed_methods, reason = "tests read and write files")]
#![allow(clippy::unwrap_used, reason = "a test may stop")]

mod again;
mod audit;
mod broken;
mod charts;
mod collect;
mod commands;
mod crash;
mod demo_records;
mod demo_register;
mod demo_year;
mod dependencies;
mod dice;
mod energy;
mod entries;
mod export;
mod filled;
mod forms;
mod fuzz;
mod groups;
mod handbook;
mod hazards;
mod history;
mod hostile;
mod import;
mod keys;
mod languages;
mod library;
mod lockout;
mod log;
mod mutants;
mod numbers;
mod outside;
mod plan;
mod plant;
mod preview;
mod publish;
mod readme;
mod redline;
mod register;
mod reuse;
mod sarif;
mod schemas;
mod shifts;
mod tamper;
mod timeline;
mod uses;

/// A module that nobody declares is a test that nobody runs.
#[test]
fn every_file_is_a_module() {
    let main = include_str!("main.rs");
    for entry in std::fs::read_dir(plant::root().join("tests/it")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        if path.extension().is_some_and(|end| end == "rs") && name != "main" {
            assert!(main.contains(&format!("mod {name};")), "{name} is not declared");
        }
    }
}
