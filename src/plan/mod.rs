//! The night's plan: what a stop costs, who does what when.
//!
//! Takes packets and gives plans, as values: no file, clock, page or chance in here. A plan is
//! advice to the shift lead; it changes no packet, and nothing is done because it stands in one.

pub mod network;

pub mod crew;
