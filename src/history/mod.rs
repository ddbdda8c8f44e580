//! What past changeovers teach.

pub mod drift;
