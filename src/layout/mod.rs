//! Where things stand on a rail, measured from the centre datum, and how they get there.
//!
//! Values in, values out: no YAML, file, clock or HTML in here. All lengths of one layout are numbers
//! in one unit, which the caller knows. Left of the datum is negative.

pub mod bars;
pub mod guides;
pub mod knives;
pub mod lanes;
pub mod moves;
pub mod rail;
pub mod stepping;

pub use bars::{bars_needed, on_bar};
pub use guides::place_guides;
pub use knives::{KnifeLayout, Knives, PlacedLane, place_knives};
pub use lanes::{Lanes, centred_in, lane_offsets};
pub use moves::{Action, Plan, plan_moves};
pub use rail::{Body, NoLayout, Obstacle, Rail, Spares, Stand, fits, park_spares};
pub use stepping::{Stepping, pitch_drift, stepping};
