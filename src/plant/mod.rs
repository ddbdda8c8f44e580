//! The plant: typed files, loading.

pub mod load;
pub mod named;
pub mod read;
pub mod shape;
