//! The plant: typed files, loading, a machine understood.

mod device;
pub(crate) mod energy;
mod fastener;
pub mod instrument;
pub mod load;
pub mod machine;
pub mod named;
pub mod read;
pub mod schema;
pub mod shape;
mod spoken;
mod waiting;
