//! The people under one lockout, as lines of a packet.

use crate::packet::model::{Contractor, GroupLockout, Member, Packet, ShiftChange};
use crate::page::site::Fact;

/// Who works under this lockout; empty when the job names no group.
pub(super) fn lines(packet: &Packet) -> Vec<Fact> {
    let Some(group) = &packet.job.lockout else { return Vec::new() };
    let GroupLockout { crew, primary, coordinator, crafts, shift_change, contractors } = group;
    let mut lines = vec![
        Fact::new("Crew, each with a personal lock", people(crew)),
        Fact::new("Primary responsibility", people(primary)),
        Fact::new("Coordinates crafts and firms", people(coordinator)),
        Fact::new("Crafts", crafts.join(", ")),
    ];
    lines.extend(shift_change.iter().flat_map(|change| changed(change, packet)));
    lines.extend(contractors.iter().map(contractor));
    lines.retain(|line| !line.value.is_empty());
    lines
}

fn changed(change: &ShiftChange, packet: &Packet) -> [Fact; 3] {
    let before = packet.procedures.iter().find(|procedure| procedure.id == change.before);
    let before = before.map_or(&change.before, |procedure| &procedure.title);
    [
        Fact::new("The crew changes before", before),
        Fact::new("Crew after the change", people(&change.crew)),
        Fact::new("Primary responsibility after the change", people(&change.primary)),
    ]
}

fn contractor(firm: &Contractor) -> Fact {
    let Contractor { firm, contact, told_by } = firm;
    Fact::new(
        format!("Contractor {firm}"),
        format!("{contact}; lockout rules exchanged by {told_by}"),
    )
}

fn people<'a>(people: impl IntoIterator<Item = &'a Member>) -> String {
    let words = people.into_iter().map(|Member { name, role, .. }| format!("{name} ({role})"));
    words.collect::<Vec<_>>().join(", ")
}
