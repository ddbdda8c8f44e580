//! The plant: typed files, loading.

pub mod load;
pub mod machine;
pub mod named;
pub mod read;
pub mod shape;
