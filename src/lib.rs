//! witnessmark computes the settings of a changeover, assembles its steps in a safe order, prints
//! them, and keeps the signed proof that they were done.
//!
//! ```text
//! YAML + Markdown ─load→ plant ─compute→ settings, layouts, moves ─assemble→ packet ─render→ pages
//!                                                                      │ digest
//! people, readings ─sign→ record ─chain→ audit ─render→ record pages
//! ```
//!
//! One direction. Between *load* and *render* everything is a function from a value to a value: no
//! file, clock, environment or randomness. Only [`plant::load`], [`publish`], [`preview`],
//! [`record::store`] and the command line touch the world.

pub mod canonical;
pub mod count;
pub mod durable;
pub mod failure;
pub mod language;

pub mod quantity;

pub mod formula;
pub mod layout;
pub mod trade;

pub mod finding;
pub mod plant;
pub mod procedure;

pub mod packet;
pub mod uses;

pub mod plan;

pub mod import;

pub mod record;

pub mod log;
pub mod redline;
pub mod register;

pub mod audit;
pub mod history;

pub mod page;

pub mod export;

pub mod cli;
pub mod preview;
pub mod publish;
