//! The night's plan: what to fetch, what is done when, by whom, and how long the line stands.
//!
//! Takes packets that were checked. Must never change a packet or a job, and never say that a plan is
//! safe: order and lockout are judged where the packet is made. What it works out is advice to the
//! shift lead. Pure: no file, no clock, no chance.

pub mod kit;

pub mod tasks;

pub mod stop;

pub mod network;

pub mod crew;

pub mod people;
pub mod timeline;

pub mod actual;

#[cfg(test)]
pub(crate) mod fixture;
