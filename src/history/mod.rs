//! What past changeovers teach: charts of readings, durations, settings that never stay as computed,
//! texts that nobody works by.
//!
//! In reading order: [`model`] is what comes out, [`run`] reads one record, [`gather`] puts them
//! together; of each blank a [`track`] is kept, with the statistics of [`moments`], [`chart`], [`rules`]
//! and [`capability`]; [`offset`] finds settings that never stay as computed, [`drift`] counts what ends
//! in a question; [`told`] says it in lines of text. Records come in one at a time, judged by the audit
//! already, in the order in which they began; what is kept of them does not grow with the number of
//! readings. What comes out for programs is described in `FORMAT.md`.
//!
//! Must never read a file or a clock, judge a person, or change a recipe: it says what was signed, and
//! what somebody may want to look at.

pub mod model;

pub mod gather;
pub mod run;

pub mod track;

pub mod capability;
pub mod chart;
pub mod moments;
pub mod rules;

pub mod drift;
pub mod offset;

pub mod told;
