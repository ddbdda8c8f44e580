//! What leaves a plant: one record as a folder that stands alone, all entries as lines or as a table.
//!
//! Values in, files out: nothing here reads or writes one, or judges a record. Must never change a
//! byte that somebody signed, and never leave an entry out without saying so. Formats are in
//! `FORMAT.md` beside this file; `verify.py` is the second program that checks a record.

pub mod folder;
pub mod parquet;
pub mod people;
pub mod proofs;
pub mod table;
