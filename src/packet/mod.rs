//! The frozen packet of one job.
//!
//! [`model`] is the data. [`prepare()`] understands what all jobs share, `compute` works out a recipe
//! on a machine (`web`, `contents`, `settings` and `positions` are its parts), `changes` compares two
//! recipes, `changeover` lays out the procedures, `needed` judges their conditions, `steps` and `rows`
//! write the steps, and [`assemble()`] puts the packet together. `again` makes the packets of a plant
//! that was read before. Who shows or audits a packet needs [`model`] alone.

pub mod model;

mod again;
mod approvals;
mod assemble;
mod beside;
mod changeover;
mod changes;
mod compute;
mod contents;
pub mod group;
mod hazards;
pub mod house;
mod inspections;
pub(crate) mod kit;
mod named;
mod needed;
mod people;
mod policy;
mod positions;
mod prepare;
mod rows;
mod settings;
mod shifts;
mod steps;
pub(crate) mod trust;
mod web;

pub use again::{Memory, Packets, Work, packets};
pub use approvals::{house, texts_to_approve};
pub use assemble::assemble;
pub(crate) use changeover::DEEPEST;
pub use changes::{Changes, changes};
pub use compute::{Computed, compute};
pub use inspections::{Due, inspections, lockouts};
pub use model::Packet;
pub use prepare::{Prepared, prepare, prepare_again};
pub use shifts::{Planned, Shift, enough_for_shifts, shifts, when};
pub use trust::trust;

/// The digest of a packet: SHA-256 of its canonical line.
///
/// # Errors
/// Never for a packet that was assembled or read; see [`crate::canonical::line`].
pub fn digest(packet: &Packet) -> Result<String, serde_json::Error> {
    Ok(crate::canonical::sha256_hex(&crate::canonical::line(packet)?))
}
