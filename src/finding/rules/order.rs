//! Rules of the order of work around the lockout: clearance, cleaning, first piece.
