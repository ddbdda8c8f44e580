//! Why each procedure and step is in the packet, and what was considered and is not needed.

use serde::Serialize;

use crate::packet::model::{Considered, NamedBy, Packet, Part, Step};
use crate::page::form::ranges;
use crate::page::site::Spoken;
use crate::page::words;

/// A use of a procedure, with what brought it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OrderView {
    /// Title of the procedure.
    pub title: Spoken,
    /// Values of its parameters; may be empty.
    pub given: String,
    /// Numbers of its steps; empty when none is in the packet.
    pub steps: String,
    /// Who names it: the machine's order, that of its kind, a job, a procedure that includes it.
    pub named: String,
    /// File and line.
    pub place: String,
    /// What changes and makes it needed; may be empty.
    pub kept: String,
}

/// Procedures and steps that are not needed for one reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ConsideredView {
    /// Titles of procedures and headings of steps.
    pub what: Vec<Spoken>,
    /// Why.
    pub why: String,
}

/// The order of a packet; empty for a packet of an older version.
pub(super) fn order(packet: &Packet) -> Vec<OrderView> {
    packet.order.iter().map(|part| line(packet, part)).collect()
}

fn line(packet: &Packet, part: &Part) -> OrderView {
    let own = packet.steps.iter().filter(|step| is_of(step, part));
    let numbers: Vec<u32> = own.map(|step| step.number).collect();
    OrderView {
        title: title(packet, &part.procedure),
        given: given(part),
        steps: ranges(&numbers),
        named: named(packet, part),
        place: part.place.clone(),
        kept: part.kept.clone(),
    }
}

fn is_of(step: &Step, part: &Part) -> bool {
    (&step.procedure, step.nth) == (&part.procedure, part.nth)
}

/// `rail: Rear knife rail`.
fn given(part: &Part) -> String {
    let given = part.with.iter().map(|(name, value)| format!("{name}: {value}"));
    given.collect::<Vec<_>>().join("; ")
}

/// Who names a use of a procedure, in the packet's language.
pub(crate) fn named(packet: &Packet, part: &Part) -> String {
    let language = packet.language;
    match part.by {
        NamedBy::Machine => language.word("reuse-by-machine").to_owned(),
        NamedBy::Kind => language.word("reuse-by-kind").to_owned(),
        NamedBy::Job => language.word("reuse-by-job").to_owned(),
        NamedBy::Procedure => {
            let name = title(packet, &part.inside).text;
            language.text("reuse-by-procedure", &[("name", name.into())])
        }
    }
}

/// A procedure by its title, or its name where the packet has no title of it.
pub(crate) fn title(packet: &Packet, id: &str) -> Spoken {
    let known = packet.procedures.iter().find(|procedure| procedure.id == id);
    let language = known.and_then(|procedure| procedure.language);
    let text = known.map_or(id, |procedure| &procedure.title).to_owned();
    Spoken { text, lang: words::lang(language, packet.language) }
}

/// What tells a use of a procedure from others: its values where it is used again, else what includes
/// it.
pub(super) fn remark(packet: &Packet, step: &Step) -> String {
    let Some(part) = packet.order.iter().find(|part| is_of(step, part)) else {
        return String::new();
    };
    let uses = packet.order.iter().filter(|own| own.procedure == part.procedure).count();
    let inside = Some(named(packet, part)).filter(|_| part.by == NamedBy::Procedure);
    let given = Some(given(part)).filter(|given| uses > 1 && !given.is_empty());
    given.or(inside).unwrap_or_default()
}

/// What was considered, by its reason, in the order in which it would have come.
pub(super) fn considered(packet: &Packet) -> Vec<ConsideredView> {
    let mut views: Vec<ConsideredView> = Vec::new();
    for one in &packet.considered {
        let what = what(packet, one);
        match views.iter_mut().find(|view| view.why == one.why) {
            Some(view) => view.what.push(what),
            None => views.push(ConsideredView { what: vec![what], why: one.why.clone() }),
        }
    }
    views
}

/// A step by its heading, a procedure by its title.
pub(crate) fn what(packet: &Packet, one: &Considered) -> Spoken {
    let procedure = title(packet, &one.procedure);
    match one.step.as_str() {
        "" => procedure,
        step => Spoken { text: step.to_owned(), ..procedure },
    }
}
