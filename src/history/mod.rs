//! What past changeovers teach: charts of readings, durations, settings that never stay as computed,
//! texts that nobody works by.
//!
//! In reading order: [`model`] is what comes out, [`rules`] says when a chart shows more than chance,
//! [`chart`] and [`capability`] are the statistics of one blank, [`drift`] counts what ends in a
//! question. Records come in one at a time, judged by the audit already, in the order in which they
//! began; what is kept of them does not grow with the number of readings.
//!
//! Must never read a file or a clock, judge a person, or change a recipe: it says what was signed, and
//! what somebody may want to look at.

pub mod capability;
pub mod chart;
pub mod drift;
pub mod model;
pub mod rules;
