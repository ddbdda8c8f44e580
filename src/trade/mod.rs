//! Figures of the trade: film on rolls, screws, net contents. What one would look up in a handbook;
//! each with its source.
//!
//! Values in, values out: no YAML, file, clock or HTML in here, and no judgement of a reading.
//! Where a number comes bare, the function says in which base units (mm, kg) it is meant; torques,
//! areas and forces come as quantities, whose dimensions are checked.

pub mod contents;
pub mod plan;
pub mod rolls;
pub mod screws;
pub mod wrench;

pub use contents::{NetContents, NoContents, Rules, net_contents, tolerable_error};
pub use plan::{Choice, Order, RollPlan, choose, plan_rolls};
pub use rolls::NoRoll;
pub use screws::{Class, Comparison, Head, Joint, NoTorque, Screw};
pub use wrench::{Delivered, NoWrench, permissible_deviation, wrench_fits};
