//! The frozen packet of one job: [`model`] is the data, [`assemble`] makes it.

pub mod model;

pub use model::Packet;
