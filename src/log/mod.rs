//! The log of a machine: an append-only tree over all its signed entries, with signed checkpoints.
//!
//! In reading order: [`tree`] is the tree and its proofs.
//! `FORMAT.md` beside this file has the formats.

pub mod tree;
