//! What stands behind every packet: who approved which procedure and recipe, and who inspected the
//! lockout of which machine.
//!
//! The register is one chain of signed entries in the plant's folder `register/`, made and checked like
//! a record. In reading order: [`entry`] is one statement and its only byte form, [`subject`] is what
//! it is about, [`state`] folds entries into what counts, [`rules`] says which entry may come next and
//! why not, [`judge()`] does all of it for bytes that lie in a folder, [`draft`] makes the next entry.
//! `FORMAT.md` beside this file is enough for a second implementation.
//!
//! Must never read a clock: whether an inspection is overdue is asked with a day.

pub mod draft;
pub mod entry;
pub mod judge;
pub mod rules;
pub mod state;
pub mod subject;

pub use entry::{Entry, Kind};
pub use judge::{Judged, judge};
pub use rules::House;
pub use state::Register;
pub use subject::Subject;

/// Name of the register's folder in a plant.
pub const FOLDER: &str = "register";

/// What signatures of a plant's register are made for: `register@<domain>`.
///
/// A signature for work on a machine never counts as an approval, and none from here as work.
pub fn namespace(domain: &str) -> String {
    format!("register@{domain}")
}

#[cfg(test)]
pub(crate) mod fixture;
