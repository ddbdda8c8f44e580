//! Exact quantities.
