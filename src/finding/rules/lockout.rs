//! Rules of the lockout part: who locks, groups, shift change, contractors.
