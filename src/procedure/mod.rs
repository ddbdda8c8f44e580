//! Procedures: from Markdown to steps.
//!
//! [`text`] takes a file apart, [`values`] knows what stands between double braces, [`bound`] puts the
//! values of parameters in, [`protect`]
//! walks the assembled steps and refuses an order that leaves a person unprotected, [`order`] one in
//! which old product or an allergen slips through, [`writing`] warns of sentences that are hard to
//! follow, [`translation`] gives a procedure the texts of another language.

pub mod bound;
pub mod order;
pub mod protect;
pub mod text;
pub mod translation;
pub mod values;
pub mod writing;

pub use text::{Include, Procedure, StepText};
pub use translation::Translation;
