//! Packets of changeovers that nobody ordered: what it would take to make a job after another product.
//!
//! They are for counting minutes and moves. Must never be printed, signed or kept: nobody issued them.

use super::assemble::assembled;
use super::model::Packet;
use super::prepare::Prepared;
use crate::finding::{Findings, Severity};
use crate::plant::load::Loaded;
use crate::plant::shape::{JobFile, PartEntry};

/// A changeover that nobody ordered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Supposed {
    /// Its packet.
    pub packet: Packet,
    /// Change parts that the product before did not have, by name.
    pub parts: Vec<String>,
}

/// The packet of a job if this recipe were on its machine before; the errors against it when there is
/// none, which are empty for a job that is not there.
///
/// # Errors
/// What stands against the packet.
pub fn suppose(prepared: &Prepared, job: &str, from: &str) -> Result<Supposed, Findings> {
    let plant = prepared.plant;
    let Some(job) = plant.jobs.get(job) else { return Err(Findings::default()) };
    // When it would start nobody knows, and what it is due by was judged where it stands.
    let body = JobFile { from: from.to_owned(), starts: None, due: None, ..job.body.clone() };
    let supposed = Loaded { place: job.place.clone(), sha256: job.sha256.clone(), body };
    let mut findings = Findings::default();
    let packet = assembled(&mut findings, prepared, &supposed, None);
    let parts = |recipe: &str| {
        let own = plant.recipes.get(recipe).map_or(&[][..], |file| &file.body.parts);
        own.iter().map(|PartEntry { item, .. }| item)
    };
    let (old, new) = (parts(from).collect::<Vec<_>>(), parts(&job.body.to));
    match packet {
        Some(packet) => {
            let parts = new.filter(|part| !old.contains(part)).cloned().collect();
            Ok(Supposed { packet, parts })
        }
        None => {
            let errors = findings.iter().filter(|own| own.severity == Severity::Error);
            Err(errors.cloned().collect())
        }
    }
}
