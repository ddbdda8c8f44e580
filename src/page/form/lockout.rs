//! The lockout sheet: everything by which energy is taken away, kept away and given back.

use std::collections::BTreeSet;

use serde::Serialize;

use super::brief;
use crate::packet::model::{Packet, Step};
use crate::page::packet::{PacketView, PartView, StepView};

/// Steps that follow each other, and the numbers of those left out before them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Part<'a> {
    /// Their procedure.
    begins: Option<&'a PartView>,
    /// Steps before them that stand in the full instruction only; may be empty.
    left_out: String,
    /// How many these are.
    missing: usize,
    /// The steps, whole.
    steps: Vec<&'a StepView>,
}

/// The lockout of a packet, in its order. A procedure that holds one step of a lockout is there whole.
pub(super) fn parts<'a>(packet: &Packet, view: &'a PacketView) -> Vec<Part<'a>> {
    let procedures: BTreeSet<&str> = packet
        .steps
        .iter()
        .filter(|step| step.is_lockout() || step.block.is_some())
        .map(|step| step.procedure.as_str())
        .collect();
    let covers = |step: &Step| procedures.contains(step.procedure.as_str());
    let steps: Vec<(&Step, &StepView)> = packet.steps.iter().zip(&view.steps).collect();
    let mut parts: Vec<Part> = Vec::new();
    let mut left_out: Vec<u32> = Vec::new();
    for steps in steps.chunk_by(|one, two| one.0.is_beside(two.0)) {
        match steps.first() {
            Some((step, first)) if covers(step) => {
                let numbers = std::mem::take(&mut left_out);
                parts.push(Part {
                    begins: first.begins.as_ref(),
                    left_out: brief::ranges(&numbers),
                    missing: numbers.len(),
                    steps: steps.iter().map(|(_, view)| *view).collect(),
                });
            }
            _ => left_out.extend(steps.iter().map(|(step, _)| step.number)),
        }
    }
    parts
}
