//! `derive --steps`: why each step of a job is there, and what was considered and is not needed.

use std::fmt::Write;

use serde::Serialize;

use super::{Answer, json};
use crate::failure::Failure;
use crate::language::Language;
use crate::packet::Packet;
use crate::packet::model::{Considered, Part, Step};
use crate::page::packet::order::{named, title, what};

/// What is printed as JSON.
#[derive(Serialize)]
struct Ordered<'a> {
    job: &'a str,
    machine: &'a str,
    order: &'a [Part],
    steps: Vec<Line<'a>>,
    considered: &'a [Considered],
}

#[derive(Serialize)]
struct Line<'a> {
    number: u32,
    id: &'a str,
    title: &'a str,
    procedure: &'a str,
    nth: u32,
    kept: &'a str,
    stays: Option<&'a str>,
}

/// The steps of a packet with their reasons.
pub(super) fn answer(
    packet: &Packet,
    language: Language,
    as_json: bool,
) -> Result<Answer, Failure> {
    if as_json {
        return Ok(Answer::clean(json(&ordered(packet))?));
    }
    let parts = [
        ("job", (&packet.job.id).into()),
        ("machine", (&packet.machine.name).into()),
        ("from", (&packet.from.name).into()),
        ("to", (&packet.to.name).into()),
    ];
    let mut text = language.text("derive-head", &parts) + "\n";
    for steps in packet.steps.chunk_by(Step::is_beside) {
        text += &part(packet, language, steps);
    }
    if !packet.considered.is_empty() {
        let _ = writeln!(text, "\n{}", language.word("reuse-considered"));
    }
    for one in &packet.considered {
        let _ = writeln!(text, "  {}: {}", what(packet, one).text, one.why);
    }
    Ok(Answer::clean(text))
}

fn ordered(packet: &Packet) -> Ordered<'_> {
    Ordered {
        job: &packet.job.id,
        machine: &packet.machine.id,
        order: &packet.order,
        steps: packet.steps.iter().map(line).collect(),
        considered: &packet.considered,
    }
}

fn line(step: &Step) -> Line<'_> {
    let Step { number, id, title, procedure, nth, kept, stays, .. } = step;
    Line { number: *number, id, title, procedure, nth: *nth, kept, stays: stays.as_deref() }
}

/// The steps that come from one use of a procedure, below what brought it.
fn part(packet: &Packet, language: Language, steps: &[Step]) -> String {
    let Some(first) = steps.first() else { return String::new() };
    let is_own = |part: &&Part| (&part.procedure, part.nth) == (&first.procedure, first.nth);
    let own = packet.order.iter().find(is_own);
    let mut text = format!("\n{}\n", title(packet, &first.procedure).text);
    if let Some(part) = own {
        let _ = writeln!(text, "  {}: {}", named(packet, part), part.place);
        for (name, value) in &part.with {
            let _ = writeln!(text, "  {name}: {value}");
        }
        if !part.kept.is_empty() {
            let _ = writeln!(text, "  {}", part.kept);
        }
    }
    for step in steps {
        let why = match (&step.stays, step.kept.as_str()) {
            (Some(why), _) => format!(". {} {why}", language.word("step-stays")),
            (None, "") => String::new(),
            (None, kept) => format!(" ({kept})"),
        };
        let _ = writeln!(text, "  {:>3} {}{why}", step.number, step.title);
    }
    text
}
