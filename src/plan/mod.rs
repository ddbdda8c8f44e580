//! The shift lead's view across steps and jobs: what to fetch, what happens when, who does what.
//!
//! Packets in, plans out. Must never change a packet or a job, and never say that a plan is safe: order
//! and lockout are judged where the packet is made.

pub mod kit;
