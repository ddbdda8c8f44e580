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
//! file, clock, environment or randomness. Only [`cli`], [`plant::load`], [`publish`] and
//! [`record::store`] touch the world.

pub mod canonical;
pub mod quantity;

pub mod packet;
pub mod page;
