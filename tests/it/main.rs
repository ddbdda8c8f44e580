//! The whole program, run on real folders: one module for each command or concern.
#![allow(clippy::disallowed_methods, reason = "tests read and write files")]

mod broken;
mod commands;
mod demo_records;
mod hostile;
mod plant;
mod publish;
