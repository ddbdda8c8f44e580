//! Figures nobody sets, and screws: what was worked out for film, net contents and tightening.

use serde::Serialize;

use crate::language::Language;
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
pub(super) fn view(figure: &Figure, language: Language) -> FigureView {
    let mut working = working(&figure.working, &figure.source, language);
    if figure.working.result == figure.value {
        working.result = String::new();
    }
    let value = words::numbers(language, &figure.value);
    FigureView { name: figure.name.clone(), value, working }
}

/// Words a screw.
pub fn screw(screw: &Fastener, language: Language) -> ScrewView {
    ScrewView {
        name: screw.name.clone(),
        thread: words::bound(&screw.thread),
        key: words::value(language, &screw.key),
        torque: words::numbers(language, &screw.torque),
        basis: basis(&screw.basis, language),
        proof_load: words::numbers(language, &screw.proof_load),
        wrench: words::bound(&screw.wrench),
        source: screw.source.clone(),
        notes: screw.notes.iter().map(|note| words::bound(note)).collect(),
    }
}

/// Whether a torque was stated or computed, in the language; other text as it is.
fn basis(basis: &str, language: Language) -> String {
    match basis {
        "stated" => language.word("packet-screw-stated").to_owned(),
        "computed" => language.word("packet-screw-computed").to_owned(),
        other => other.to_owned(),
    }
}
