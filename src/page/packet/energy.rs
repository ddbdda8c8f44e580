//! What a lockout procedure must state beside its sources, as named lines.

use crate::packet::model::{Inching, Inspection, Packet};
use crate::page::site::Fact;

/// Stop position, interlocks, inching, intended use, enforcement, inspection; only what is stated.
pub(super) fn lockout(packet: &Packet) -> Vec<Fact> {
    let machine = &packet.machine;
    let lines = [
        ("Stop position before isolation", machine.stop_position.clone()),
        ("Interlocks", interlocks(packet)),
        (
            "Movement under power with a guard open",
            machine.inching.as_ref().map_or(String::new(), |inching| moves(packet, inching)),
        ),
        ("Intended use", intended_uses(packet)),
        ("Enforced by", packet.plant.enforced_by.clone()),
        (
            "Last inspection of the lockout",
            machine.inspection.as_ref().map_or(String::new(), inspected),
        ),
    ];
    let stated = lines.into_iter().filter(|(_, value)| !value.is_empty());
    stated.map(|(name, value)| Fact::new(name, value)).collect()
}

/// Each interlock with its zone, and that none of them isolates anything.
fn interlocks(packet: &Packet) -> String {
    let zones = packet.zones.iter().filter(|zone| !zone.interlock.is_empty());
    let named: Vec<String> =
        zones.map(|zone| format!("{} ({})", zone.interlock, zone.name)).collect();
    match named.as_slice() {
        [] => String::new(),
        _ => format!("{}. An interlock isolates nothing.", named.join("; ")),
    }
}

fn moves(packet: &Packet, inching: &Inching) -> String {
    let Inching { sources, control, held, most } = inching;
    let energy = packet.energy.iter().filter(|source| sources.contains(&source.id));
    let names: Vec<&str> = energy.map(|source| source.name.as_str()).collect();
    format!("{control}, {held}, at most {most}; it needs {}", names.join(" and "))
}

fn intended_uses(packet: &Packet) -> String {
    let stated = packet.procedures.iter().filter(|one| !one.intended_use.is_empty());
    let uses: Vec<String> =
        stated.map(|one| format!("{}: {}", one.title, one.intended_use)).collect();
    uses.join("; ")
}

fn inspected(inspection: &Inspection) -> String {
    let Inspection { date, inspector, people } = inspection;
    format!("{date} by {inspector}, with {}", people.join(", "))
}
