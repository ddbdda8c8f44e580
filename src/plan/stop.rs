//! What the stop costs: before, during, after.
