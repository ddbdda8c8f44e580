//! The log of a machine: an append-only tree over all its signed entries, with signed checkpoints.
//!
//! In reading order: [`tree`] is the tree and its proofs, [`note`] a text that somebody signed,
//! [`checkpoint`] the signed head of a log and what people keep of it, [`tile`] the log as static
//! files, [`mod@line`] which entry a leaf is, [`store`] the only part that touches files.
//! `FORMAT.md` beside this file has the formats.

pub mod checkpoint;
pub mod line;
pub mod note;
pub mod store;
pub mod tile;
pub mod tree;
