//! What a shift lead looks at across jobs, worked out from packets.
//!
//! Plans are advice: nothing in here changes a packet or the order of steps in one. Must never read
//! a file or a clock.

pub mod sequence;
