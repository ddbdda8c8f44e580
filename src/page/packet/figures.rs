//! Figures nobody sets, and screws: what was worked out for film, net contents and tightening.

use serde::Serialize;

use crate::packet::model::{Fastener, Figure};
use crate::page::words;

use super::settings::{WorkingView, working};

/// A worked-out figure as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FigureView {
    /// Name.
    pub name: String,
    /// The figure with its unit.
    pub value: String,
    /// How it was worked out.
    pub working: WorkingView,
}

/// A screw as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ScrewView {
    /// Name.
    pub name: String,
    /// Thread and property class.
    pub thread: String,
    /// Hexagon key; may be empty.
    pub key: String,
    /// Torque with unit.
    pub torque: String,
    /// `stated` or `computed`.
    pub basis: String,
    /// Proof load with unit; may be empty.
    pub proof_load: String,
    /// Torque wrench; may be empty.
    pub wrench: String,
    /// Where the torque comes from; may be empty.
    pub source: String,
    /// What the reader must know.
    pub notes: Vec<String>,
}

/// Words a figure; its value is not said again at the end of its working.
pub(super) fn view(figure: &Figure) -> FigureView {
    let mut working = working(&figure.working, &figure.source);
    if figure.working.result == figure.value {
        working.result = String::new();
    }
    FigureView { name: figure.name.clone(), value: words::numbers(&figure.value), working }
}

/// Words a screw.
pub(super) fn screw(screw: &Fastener) -> ScrewView {
    ScrewView {
        name: screw.name.clone(),
        thread: words::bound(&screw.thread),
        key: words::bound(&screw.key),
        torque: words::numbers(&screw.torque),
        basis: screw.basis.clone(),
        proof_load: words::numbers(&screw.proof_load),
        wrench: words::bound(&screw.wrench),
        source: screw.source.clone(),
        notes: screw.notes.iter().map(|note| words::bound(note)).collect(),
    }
}
