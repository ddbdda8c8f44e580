//! The checklist: the steps by number and title, grouped by procedure, each group with its energy and
//! its hazards.

use serde::Serialize;

use super::brief::{self, BlankSet, Signalled};
use super::held::Held;
use super::procedure_title;
use crate::language::Language;
use crate::packet::model::{Meaning, Packet, Sign, Step};
use crate::page::packet::{PacketView, StepView};

/// The steps of one procedure that follow each other.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Group {
    /// Title of the procedure.
    title: String,
    /// Numbers of its steps.
    numbers: String,
    /// Energy its steps need, each with the numbers where not all need it.
    needs: Vec<String>,
    /// Which sources are held at zero; empty when none is.
    held: Vec<String>,
    /// Its hazards, one line a signal word.
    hazards: Vec<Signalled>,
    /// What is ticked before its steps begin.
    first: Vec<String>,
    /// Who signs each of its steps.
    signs: String,
    /// The steps.
    lines: Vec<Line>,
}

/// A step to tick.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Line {
    number: u32,
    title: String,
    /// Why it is not needed; empty for a step that is done.
    stays: String,
    /// Who signs beside those who sign the whole group.
    signs: String,
    blanks: Vec<BlankSet>,
}

/// A step with its words.
type Worded<'a> = (&'a Step, &'a StepView);

/// The groups of a packet.
pub(super) fn groups(packet: &Packet, view: &PacketView) -> Vec<Group> {
    let held = Held::of(packet);
    let steps: Vec<Worded> = packet.steps.iter().zip(&view.steps).collect();
    let groups = steps.chunk_by(|one, two| one.0.procedure == two.0.procedure);
    groups.map(|steps| group(packet, &held, steps)).collect()
}

fn group(packet: &Packet, held: &Held, steps: &[Worded]) -> Group {
    let language = packet.language;
    let numbers: Vec<u32> = steps.iter().map(|(step, _)| step.number).collect();
    let ends = numbers.first().zip(numbers.last());
    let shared = shared_signs(steps);
    Group {
        title: steps
            .first()
            .map_or("", |(step, _)| procedure_title(packet, &step.procedure))
            .to_owned(),
        numbers: brief::ranges(&numbers),
        needs: needs(steps),
        held: ends.map_or(vec![], |(first, last)| held.within(language, *first, *last)),
        hazards: brief::hazards(steps.iter().map(|(_, view)| *view)),
        first: first(steps),
        signs: signs(language, shared.iter().copied()),
        lines: steps.iter().map(|step| line(language, &shared, *step)).collect(),
    }
}

fn line(language: Language, shared: &[&Sign], (step, view): Worded) -> Line {
    Line {
        number: step.number,
        title: view.title.clone(),
        stays: view.stays.clone(),
        signs: signs(language, whole(step).filter(|sign| !shared.contains(sign))),
        blanks: brief::blank_sets(language, step, view),
    }
}

/// The steps of a group that are done.
fn done<'a>(steps: &[Worded<'a>]) -> impl Iterator<Item = Worded<'a>> {
    steps.iter().copied().filter(|(step, _)| step.stays.is_none())
}

/// `Isolated, locked and verified`, or with the numbers of its steps where others need none.
fn needs(steps: &[Worded]) -> Vec<String> {
    let mut needs: Vec<(&str, Vec<u32>)> = Vec::new();
    for (step, view) in done(steps).filter(|(_, view)| !view.needs.is_empty()) {
        match needs.iter_mut().find(|(words, _)| *words == view.needs) {
            Some((_, numbers)) => numbers.push(step.number),
            None => needs.push((&view.needs, vec![step.number])),
        }
    }
    let all = done(steps).count();
    let worded = needs.into_iter().map(|(words, numbers)| match numbers.len() == all {
        true => words.to_owned(),
        false => format!("{words}: {}", brief::ranges(&numbers)),
    });
    worded.collect()
}

/// What is ticked before a step begins, each with the numbers of its steps.
fn first(steps: &[Worded]) -> Vec<String> {
    let mut lines: Vec<(&String, Vec<u32>)> = Vec::new();
    for (step, line) in done(steps).flat_map(|(step, _)| step.first.iter().map(move |l| (step, l)))
    {
        match lines.iter_mut().find(|(known, _)| *known == line) {
            Some((_, numbers)) => numbers.push(step.number),
            None => lines.push((line, vec![step.number])),
        }
    }
    lines
        .into_iter()
        .map(|(line, numbers)| format!("{line} ({})", brief::ranges(&numbers)))
        .collect()
}

/// Who signs a step, each role once for a meaning; the row and the person stand in the instruction.
fn whole(step: &Step) -> impl Iterator<Item = &Sign> {
    let is_first = |at: usize, sign: &Sign| {
        step.signs
            .iter()
            .take(at)
            .all(|known| (known.meaning, &known.role) != (sign.meaning, &sign.role))
    };
    step.signs
        .iter()
        .enumerate()
        .filter(move |(at, sign)| is_first(*at, sign))
        .map(|(_, sign)| sign)
}

/// Who signs every step of a group that is done.
fn shared_signs<'a>(steps: &[Worded<'a>]) -> Vec<&'a Sign> {
    let mut done = done(steps).map(|(step, _)| step);
    let mut shared: Vec<&Sign> = done.next().map_or(vec![], |step| whole(step).collect());
    for step in done {
        shared.retain(|sign| step.signs.contains(sign));
    }
    shared
}

/// `performed: technician; verified: lead`.
fn signs<'a>(language: Language, signs: impl Iterator<Item = &'a Sign>) -> String {
    let worded = signs.map(|sign| format!("{}: {}", meaning(language, sign.meaning), sign.role));
    worded.collect::<Vec<String>>().join("; ")
}

fn meaning(language: Language, meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::Performed => language.word("forms-performed"),
        Meaning::Verified => language.word("forms-verified"),
        Meaning::Released => language.word("forms-released"),
    }
}
