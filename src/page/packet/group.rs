//! The people under one lockout, as lines of a packet.

use crate::language::Language;
use crate::packet::model::{Contractor, GroupLockout, Member, Packet, ShiftChange};
use crate::page::site::Fact;

/// Who works under this lockout; empty when the job names no group.
pub(super) fn lines(packet: &Packet, language: Language) -> Vec<Fact> {
    let Some(group) = &packet.job.lockout else { return Vec::new() };
    let GroupLockout { crew, primary, coordinator, crafts, shift_change, contractors } = group;
    let mut lines = vec![
        Fact::new(language.word("packet-crew"), people(crew)),
        Fact::new(language.word("packet-primary"), people(primary)),
        Fact::new(language.word("packet-coordinator"), people(coordinator)),
        Fact::new(language.word("packet-crafts"), crafts.join(", ")),
    ];
    lines.extend(shift_change.iter().flat_map(|change| changed(change, packet, language)));
    lines.extend(contractors.iter().map(|firm| contractor(firm, language)));
    lines.retain(|line| !line.value.is_empty());
    lines
}

fn changed(change: &ShiftChange, packet: &Packet, language: Language) -> [Fact; 3] {
    let before = packet.procedures.iter().find(|procedure| procedure.id == change.before);
    let before = before.map_or(&change.before, |procedure| &procedure.title);
    [
        Fact::new(language.word("packet-crew-changes"), before),
        Fact::new(language.word("packet-crew-after"), people(&change.crew)),
        Fact::new(language.word("packet-primary-after"), people(&change.primary)),
    ]
}

fn contractor(firm: &Contractor, language: Language) -> Fact {
    let Contractor { firm, contact, told_by } = firm;
    Fact::new(
        language.text("packet-contractor", &[("firm", firm.into())]),
        language.text(
            "packet-contractor-says",
            &[("contact", contact.into()), ("person", told_by.into())],
        ),
    )
}

fn people<'a>(people: impl IntoIterator<Item = &'a Member>) -> String {
    let words = people.into_iter().map(|Member { name, role, .. }| format!("{name} ({role})"));
    words.collect::<Vec<_>>().join(", ")
}
