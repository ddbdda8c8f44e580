//! The clock: read once a command, and handed down as a value.
#![allow(clippy::disallowed_methods, reason = "this is where time comes in")]

use chrono::{DateTime, FixedOffset, Local};

/// Now, in the offset of this machine.
pub(super) fn now() -> DateTime<FixedOffset> {
    Local::now().fixed_offset()
}
