//! The checklist: the steps by number and title, grouped by procedure, each group with its energy and
//! its hazards.

use std::collections::BTreeMap;

use serde::Serialize;

use super::brief::{self, BlankSet, Signalled};
use super::held::Held;
use crate::language::Language;
use crate::packet::model::{Meaning, Packet, Step};
use crate::page::packet::{PacketView, PartView, StepView};

/// The checklist.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Sheet {
    /// Who signs each step of a group that says nothing else.
    signs: String,
    /// The groups.
    groups: Vec<Group>,
}

/// The steps of one procedure that follow each other, in one use of it or more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Group {
    /// The procedure; none without steps.
    begins: Option<PartView>,
    /// Numbers of its steps.
    numbers: String,
    /// Energy its steps need, each with the numbers where not all need it.
    needs: Vec<String>,
    /// Which sources are held at zero; empty when none is.
    held: Vec<String>,
    /// Its hazards, one line a signal word.
    hazards: Vec<Signalled>,
    /// Who signs each of its steps; empty when the sheet says it.
    signs: String,
    /// The steps.
    lines: Vec<Line>,
}

/// A step to tick.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Line {
    number: u32,
    title: String,
    /// Which use of its procedure begins here; empty where there is one alone.
    which: String,
    /// BCP 47 tag of its texts; empty when they are in the packet's language.
    lang: String,
    /// Why it is not needed; empty for a step that is done.
    stays: String,
    /// Who signs beside those who sign the whole group.
    signs: String,
    blanks: Vec<BlankSet>,
}

/// A step with its words.
type Worded<'a> = (&'a Step, &'a StepView);

/// The checklist of a packet.
pub(super) fn sheet(packet: &Packet, view: &PacketView) -> Sheet {
    let held = Held::of(packet);
    let steps: Vec<Worded> = packet.steps.iter().zip(&view.steps).collect();
    // Uses of a procedure that follow each other share a head: energy and hazards are the same kind.
    let groups = steps.chunk_by(|one, two| one.0.procedure == two.0.procedure);
    let mut groups: Vec<Group> = groups.map(|steps| group(packet, &held, steps)).collect();
    let signs = most_frequent(&groups);
    for group in &mut groups {
        match group.signs == signs {
            true => group.signs.clear(),
            false if group.signs.is_empty() => {
                group.signs = packet.language.word("forms-signs-by-step").to_owned();
            }
            false => {}
        }
    }
    Sheet { signs, groups }
}

/// Who signs in most groups; of equals, the first by name.
fn most_frequent(groups: &[Group]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for group in groups.iter().filter(|group| !group.signs.is_empty()) {
        *counts.entry(&group.signs).or_default() += 1;
    }
    let most = counts.values().max();
    counts.iter().find(|(_, count)| Some(*count) == most).map_or("", |(signs, _)| signs).to_owned()
}

fn group(packet: &Packet, held: &Held, steps: &[Worded]) -> Group {
    let language = packet.language;
    let numbers: Vec<u32> = steps.iter().map(|(step, _)| step.number).collect();
    let ends = numbers.first().zip(numbers.last());
    let shared = shared_signs(steps);
    let begin = |(_, view): &Worded| view.begins.clone();
    let mut lines: Vec<Line> = steps.iter().map(|step| line(language, &shared, *step)).collect();
    let mut begins = steps.first().and_then(begin);
    if steps.iter().filter_map(begin).count() > 1 {
        // Where each use begins, its first line says which it is.
        for (line, step) in lines.iter_mut().zip(steps) {
            line.which = begin(step).map(|part| part.remark).unwrap_or_default();
        }
        begins.iter_mut().for_each(|part| part.remark.clear());
    }
    Group {
        begins,
        numbers: brief::ranges(&numbers),
        needs: needs(steps),
        held: ends.map_or(vec![], |(first, last)| held.within(language, *first, *last)),
        hazards: brief::hazards(steps.iter().map(|(_, view)| *view)),
        signs: signs(language, &shared),
        lines,
    }
}

fn line(language: Language, shared: &[Signed], (step, view): Worded) -> Line {
    let mut others = signed(step);
    others.retain(|sign| !shared.contains(sign));
    Line {
        number: step.number,
        title: view.title.clone(),
        which: String::new(),
        lang: view.lang.clone(),
        stays: view.stays.clone(),
        signs: signs(language, &others),
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

/// Who signs, and what it means; the row and the person stand in the instruction.
type Signed<'a> = (Meaning, &'a str);

/// Who signs a step, each once.
fn signed(step: &Step) -> Vec<Signed<'_>> {
    let mut signed: Vec<Signed> = Vec::new();
    for one in step.signs.iter().map(|sign| (sign.meaning, sign.role.as_str())) {
        if !signed.contains(&one) {
            signed.push(one);
        }
    }
    signed
}

/// Who signs every step of a group that is done.
fn shared_signs<'a>(steps: &[Worded<'a>]) -> Vec<Signed<'a>> {
    let mut done = done(steps).map(|(step, _)| signed(step));
    let mut shared = done.next().unwrap_or_default();
    for signed in done {
        shared.retain(|one| signed.contains(one));
    }
    shared
}

/// `P technician, V lead`; the head of the sheet says what the letters mean.
fn signs(language: Language, signs: &[Signed]) -> String {
    let worded = signs.iter().map(|(what, role)| format!("{} {role}", meaning(language, *what)));
    worded.collect::<Vec<String>>().join(", ")
}

fn meaning(language: Language, meaning: Meaning) -> &'static str {
    match meaning {
        Meaning::Performed => language.word("forms-performed"),
        Meaning::Verified => language.word("forms-verified"),
        Meaning::Released => language.word("forms-released"),
    }
}
