//! What a lockout procedure must state beside its sources, as named lines.

use crate::language::Language;
use crate::packet::model::{Inching, Inspection, Packet};
use crate::page::site::Fact;
use crate::page::words;

/// Stop position, interlocks, inching, intended use, enforcement, inspection; only what is stated.
pub(super) fn lockout(packet: &Packet, language: Language) -> Vec<Fact> {
    let machine = &packet.machine;
    let lines = [
        (language.word("packet-stop-position"), machine.stop_position.clone()),
        (language.word("packet-interlocks"), interlocks(packet, language)),
        (
            language.word("packet-inching"),
            machine.inching.as_ref().map_or(String::new(), |one| moves(packet, one, language)),
        ),
        (language.word("packet-intended-use"), intended_uses(packet)),
        (language.word("packet-enforced-by"), packet.plant.enforced_by.clone()),
        (
            language.word("packet-inspection"),
            machine.inspection.as_ref().map_or(String::new(), |one| inspected(one, language)),
        ),
    ];
    let stated = lines.into_iter().filter(|(_, value)| !value.is_empty());
    stated.map(|(name, value)| Fact::new(name, value)).collect()
}

/// Each interlock with its zone, and that none of them isolates anything.
fn interlocks(packet: &Packet, language: Language) -> String {
    let zones = packet.zones.iter().filter(|zone| !zone.interlock.is_empty());
    let named: Vec<String> =
        zones.map(|zone| format!("{} ({})", zone.interlock, zone.name)).collect();
    match named.as_slice() {
        [] => String::new(),
        _ => language.text("packet-interlocks-say", &[("interlocks", named.join("; ").into())]),
    }
}

fn moves(packet: &Packet, inching: &Inching, language: Language) -> String {
    let Inching { sources, control, held, most } = inching;
    let energy = packet.energy.iter().filter(|source| sources.contains(&source.id));
    let names: Vec<&str> = energy.map(|source| source.name.as_str()).collect();
    let and = format!(" {} ", language.word("packet-and"));
    let parts = [
        ("control", control.into()),
        ("held", held.into()),
        ("most", words::value(language, most).into()),
        ("sources", names.join(&and).into()),
    ];
    language.text("packet-inching-says", &parts)
}

fn intended_uses(packet: &Packet) -> String {
    let stated = packet.procedures.iter().filter(|one| !one.intended_use.is_empty());
    let uses: Vec<String> =
        stated.map(|one| format!("{}: {}", one.title, one.intended_use)).collect();
    uses.join("; ")
}

fn inspected(inspection: &Inspection, language: Language) -> String {
    let Inspection { date, inspector, people } = inspection;
    let parts = [
        ("date", words::date(language, date).into()),
        ("inspector", inspector.into()),
        ("people", people.join(", ").into()),
    ];
    language.text("packet-inspected", &parts)
}
