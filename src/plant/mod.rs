//! The plant: typed files, loading.

pub mod named;
pub mod read;
pub mod shape;
