//! Figures of the trade: screws, torque wrenches, net contents, hot parts. What one would look up in
//! a handbook; each with its source. What follows from film and rolls are formulas: see `packet::web`.
//!
//! Values in, values out: no YAML, file, clock or HTML in here, and no judgement of a reading.
//! Where a number comes bare, the function says in which unit it is meant; torques, areas and forces
//! come as quantities, whose dimensions are checked.

pub mod contents;
pub mod screws;
pub mod touch;
pub mod wrench;

pub use contents::{NetContents, NoContents, Rules, net_contents, tolerable_error};
pub use screws::{Class, Comparison, Head, Joint, NoTorque, Screw};
pub use wrench::{Delivered, NoWrench, permissible_deviation, wrench_fits};
