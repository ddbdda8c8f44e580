//! The night's plan: what is done when, by whom, and how long the line stands.
//!
//! Takes packets that were checked, and never changes one: what it works out is advice to the shift
//! lead. Pure: no file, no clock, no chance.

pub mod tasks;

pub mod stop;

pub mod network;

pub mod crew;

pub mod people;
pub mod timeline;

pub mod actual;

#[cfg(test)]
pub(crate) mod fixture;
