//! Records are never lost.
