//! Rules of the plant's own policy: warnings made errors, justified exceptions.
