//! What a change touches before it is made: packets, sheets that are out already, approvals,
//! translations, inspections.
//!
//! Compares what both states of the plant give today. Must never read a record: which packets were
//! signed, and how far those jobs are, is handed in.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde_json::Value;

use super::{Changed, Subject};
use crate::finding::Findings;
use crate::language::Language;
use crate::packet::model::{Setting, Step};
use crate::packet::{self, Packet, Packets, Prepared};
use crate::plant::shape::MachineFile;
use crate::procedure::Procedure;
use crate::record::state::State;
use crate::register::draft::items;

/// What a change touches.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Touches {
    /// Jobs whose packet is another one.
    pub jobs: Vec<Job>,
    /// Machines that a change concerns.
    pub machines: BTreeSet<String>,
    /// Recipes that a change concerns.
    pub recipes: BTreeSet<String>,
    /// Packets that were signed, are still worked by, and are no longer what the plant's files say.
    pub printed: Vec<Printed>,
    /// Approvals that count no more.
    pub approvals: Vec<Approval>,
    /// Translations of a revision that is no longer in force.
    pub translations: Vec<Translation>,
    /// Lockouts that were inspected as they were.
    pub inspections: Vec<Inspection>,
}

/// A job whose packet is another one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Job {
    /// Its identifier.
    pub job: String,
    /// The machine.
    pub machine: String,
    /// What became of its packet.
    pub packet: Fate,
    /// Steps that only one of the packets has, or that say something else.
    pub steps: Vec<Difference>,
    /// Numbers that are others.
    pub numbers: Vec<Difference>,
    /// Other parts that differ, by their key in the packet.
    pub parts: Vec<String>,
}

impl Job {
    /// Whether nothing but digests of its files differs.
    pub fn is_only_digests(&self) -> bool {
        self.packet == Fate::Changed
            && self.steps.is_empty()
            && self.numbers.is_empty()
            && self.parts.is_empty()
    }
}

/// What became of a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Fate {
    /// It says something else.
    Changed,
    /// It could not be made before, or there was no such job.
    New,
    /// It can no longer be made, or there is no such job any more.
    Gone,
}

/// A thing of a packet that differs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Difference {
    /// Its identifier in the packet.
    pub id: String,
    /// Its name for people.
    pub name: String,
    /// What it was; empty when it is new.
    pub before: String,
    /// What it is; empty when it is gone.
    pub after: String,
}

/// A packet that was signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Printed {
    /// The name of its record.
    pub record: String,
    /// Its job.
    #[serde(skip)]
    pub job: String,
    /// Its digest.
    pub digest: String,
    /// How far the job is.
    pub state: State,
}

/// An approval that counts no more.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Approval {
    /// What was approved.
    pub subject: String,
    /// Number of the entry.
    pub entry: u64,
    /// Who approved it.
    pub by: String,
    /// The revision that was approved.
    pub revision: String,
}

/// A translation that is old now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Translation {
    /// What it is.
    pub subject: String,
    /// The revision it translates.
    pub translates: String,
    /// The revision in force.
    pub revision: String,
}

/// A lockout that was inspected as it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Inspection {
    /// The procedure.
    pub procedure: String,
    /// The machine.
    pub machine: String,
    /// Day of the inspection.
    pub date: String,
    /// Number of the entry.
    pub entry: u64,
}

/// One state of a plant, understood, with the packets it gives.
#[derive(Debug, Clone, Copy)]
pub struct Stand<'a> {
    /// The plant.
    pub prepared: &'a Prepared<'a>,
    /// Packets by job.
    pub packets: &'a Packets,
}

/// What the changes between two states touch; `signed` are the packets that were signed.
pub fn touches(before: Stand, after: Stand, changed: &[Changed], signed: Vec<Printed>) -> Touches {
    let jobs = jobs(before.packets, after.packets);
    let printed = printed(before, after, signed);
    let (machines, recipes) = concerned(after.prepared, changed, &jobs);
    Touches {
        machines,
        recipes,
        printed,
        approvals: approvals(before.prepared, after.prepared),
        translations: translations(before.prepared, after.prepared),
        inspections: inspections(before.prepared, after.prepared),
        jobs,
    }
}

fn digest(packet: &Packet) -> String {
    packet::digest(packet).unwrap_or_default()
}

fn jobs(before: &Packets, after: &Packets) -> Vec<Job> {
    let all: BTreeSet<&String> = before.keys().chain(after.keys()).collect();
    let job = |id: &&String| match (before.get(*id), after.get(*id)) {
        (Some(old), Some(new)) => (digest(old) != digest(new)).then(|| changed(old, new)),
        (Some(gone), None) => Some(alone(gone, Fate::Gone)),
        (None, Some(new)) => Some(alone(new, Fate::New)),
        (None, None) => None,
    };
    all.iter().filter_map(job).collect()
}

fn alone(packet: &Packet, fate: Fate) -> Job {
    Job {
        job: packet.job.id.clone(),
        machine: packet.machine.id.clone(),
        packet: fate,
        steps: Vec::new(),
        numbers: Vec::new(),
        parts: Vec::new(),
    }
}

/// Parts of a packet that are compared one by one, or that only say which bytes it was made from.
const COMPARED: [&str; 6] = ["sources", "approvals", "drafts", "procedures", "order", "steps"];

fn changed(old: &Packet, new: &Packet) -> Job {
    Job {
        steps: steps(old, new),
        numbers: numbers(old, new),
        parts: parts(old, new),
        ..alone(new, Fate::Changed)
    }
}

/// Steps without their number: one that only moved down is the same.
fn steps(old: &Packet, new: &Packet) -> Vec<Difference> {
    let own = |packet: &Packet| -> Vec<(String, Step)> {
        let line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let plain = |step: &Step| {
            let text = line(&step.text);
            (step.id.clone(), Step { number: 0, text, ..step.clone() })
        };
        packet.steps.iter().map(plain).collect()
    };
    let number = |packet: &Packet, id: &str| {
        let step = packet.steps.iter().find(|step| step.id == id);
        step.map(|step| step.number.to_string()).unwrap_or_default()
    };
    let differs = differences(&own(old), &own(new));
    let said = |(id, step): (String, Step)| Difference {
        name: step.title,
        before: number(old, &id),
        after: number(new, &id),
        id,
    };
    let mut list: Vec<Difference> = differs.into_iter().map(said).collect();
    let moved = order(old, new).filter(|one| list.iter().all(|own| own.id != one.id));
    list.extend(moved);
    list
}

/// Steps that both packets have, in another order: the first that stands elsewhere.
fn order(old: &Packet, new: &Packet) -> Option<Difference> {
    let ids = |packet: &Packet| -> Vec<String> {
        packet.steps.iter().map(|step| step.id.clone()).collect()
    };
    let (one, two) = (ids(old), ids(new));
    let in_both = |list: &[String], other: &[String]| -> Vec<String> {
        let other: BTreeSet<&String> = other.iter().collect();
        list.iter().filter(|id| other.contains(id)).cloned().collect()
    };
    let (before, after) = (in_both(&one, &two), in_both(&two, &one));
    let id = before.iter().zip(&after).find(|(one, two)| one != two)?.1;
    let at = |list: &[String]| list.iter().position(|own| own == id).map(|at| at + 1);
    let step = new.steps.iter().find(|step| step.id == *id)?;
    Some(Difference {
        id: id.clone(),
        name: step.title.clone(),
        before: at(&one)?.to_string(),
        after: at(&two)?.to_string(),
    })
}

/// Settings, figures and positions.
fn numbers(old: &Packet, new: &Packet) -> Vec<Difference> {
    let own = |packet: &Packet| -> Vec<(String, (String, String))> {
        let setting = |setting: &Setting| {
            let limits = setting.limits(Language::English).map(|limits| format!(" ({limits})"));
            let value = setting.set_to() + &limits.unwrap_or_default();
            (setting.id.clone(), (setting.name.clone(), value))
        };
        let figures = packet.web.iter().chain(&packet.contents);
        let figures = figures.map(|own| (own.id.clone(), (own.name.clone(), own.value.clone())));
        let positions = packet.rails.iter().map(|rail| {
            let positions = rail.holders.iter().map(|holder| holder.new.as_str());
            let line = positions.collect::<Vec<_>>().join(", ");
            (rail.id.clone(), (rail.name.clone(), line))
        });
        packet.settings.iter().map(setting).chain(figures).chain(positions).collect()
    };
    let (one, two) = (own(old), own(new));
    let find = |list: &[(String, (String, String))], id: &str| {
        let found = list.iter().find(|(own, _)| own == id);
        found.map(|(_, (_, value))| value.clone()).unwrap_or_default()
    };
    let said = |(id, (name, _)): (String, (String, String))| Difference {
        before: find(&one, &id),
        after: find(&two, &id),
        id,
        name,
    };
    differences(&one, &two).into_iter().map(said).collect()
}

/// What only one of two lists has, or that differs, as it is now, or was.
fn differences<T: PartialEq + Clone>(old: &[(String, T)], new: &[(String, T)]) -> Vec<(String, T)> {
    let index = |list: &'_ [(String, T)]| -> BTreeMap<String, T> { list.iter().cloned().collect() };
    let (one, two) = (index(old), index(new));
    let now = new.iter().filter(|(id, own)| one.get(id) != Some(own));
    let gone = old.iter().filter(|(id, _)| !two.contains_key(id));
    now.chain(gone).cloned().collect()
}

/// Keys of the other parts that differ.
fn parts(old: &Packet, new: &Packet) -> Vec<String> {
    let value = |packet: &Packet| match serde_json::to_value(packet) {
        Ok(Value::Object(map)) => map,
        _ => serde_json::Map::new(),
    };
    let (one, two) = (value(old), value(new));
    let keys: BTreeSet<&String> = one.keys().chain(two.keys()).collect();
    let differs = |key: &&&String| {
        !COMPARED.contains(&key.as_str()) && one.get(key.as_str()) != two.get(key.as_str())
    };
    keys.iter().filter(differs).map(|key| (*key).clone()).collect()
}

/// Signed packets that are still worked by: what was the plant's word before, and no longer is.
fn printed(before: Stand, after: Stand, signed: Vec<Printed>) -> Vec<Printed> {
    let is_open = |state| matches!(state, State::Open | State::Performed | State::Verified);
    let is_of = |state: Stand, own: &Printed| {
        state.packets.get(&own.job).is_some_and(|packet| digest(packet) == own.digest)
    };
    let is_outdated =
        |own: &Printed| is_open(own.state) && is_of(before, own) && !is_of(after, own);
    signed.into_iter().filter(is_outdated).collect()
}

/// Machines and recipes that changed, that go by a changed procedure, or whose packets change.
fn concerned(
    prepared: &Prepared,
    changed: &[Changed],
    jobs: &[Job],
) -> (BTreeSet<String>, BTreeSet<String>) {
    let mut machines: BTreeSet<String> = jobs.iter().map(|job| job.machine.clone()).collect();
    let mut recipes = BTreeSet::new();
    for job in jobs.iter().filter_map(|job| prepared.plant.jobs.get(&job.job)) {
        recipes.extend([job.body.from.clone(), job.body.to.clone()]);
    }
    for one in changed {
        match &one.subject {
            Subject::Machine(id) => drop(machines.insert(id.clone())),
            Subject::Recipe(id) => drop(recipes.insert(id.clone())),
            Subject::Procedure(id) => {
                let goes_by = |own: &MachineFile| {
                    prepared.plant.procedures_of(own).iter().any(|own| own.front.id == *id)
                };
                let own = prepared.plant.machines.iter().filter(|(_, own)| goes_by(&own.body));
                machines.extend(own.map(|(machine, _)| machine.clone()));
            }
            _ => {}
        }
    }
    (machines, recipes)
}

/// Approvals of bytes that are no longer there, of texts that nobody has approved as they are now.
fn approvals(before: &Prepared, after: &Prepared) -> Vec<Approval> {
    let register = &after.register.register;
    let now = items(after.plant);
    let lapsed = |old: crate::register::draft::Item| {
        let held = register.approval(&old.subject, &old.sha256)?;
        let new = now.iter().find(|new| new.subject == old.subject);
        let counts = new.is_some_and(|new| register.approval(&new.subject, &new.sha256).is_some());
        (!counts).then(|| Approval {
            subject: old.subject.to_string(),
            entry: held.entry.seq,
            by: held.entry.name.clone(),
            revision: held.entry.revision.clone(),
        })
    };
    items(before.plant).into_iter().filter_map(lapsed).collect()
}

/// Translations in whatever language the plant uses, by subject.
fn translated(prepared: &Prepared) -> BTreeMap<String, Procedure> {
    let plant = prepared.plant;
    let plants = [plant].into_iter().chain(plant.editions.values());
    let all = plants.flat_map(|plant| plant.procedures.values());
    let all = all.filter(|own| own.translated.is_some());
    all.map(|own| {
        (Subject::Translation(own.front.id.clone(), own.language).to_string(), own.clone())
    })
    .collect()
}

fn newly_old(before: &Prepared, after: &Prepared) -> Vec<(String, Procedure)> {
    let old = translated(before);
    let was_old = |subject: &String| old.get(subject).is_some_and(Procedure::is_old);
    let now = translated(after).into_iter();
    now.filter(|(subject, own)| own.is_old() && !was_old(subject)).collect()
}

fn translations(before: &Prepared, after: &Prepared) -> Vec<Translation> {
    let said = |(subject, own): (String, Procedure)| Translation {
        subject,
        translates: own.translated.map(|own| own.from).unwrap_or_default(),
        revision: own.front.revision.trim().to_owned(),
    };
    newly_old(before, after).into_iter().map(said).collect()
}

/// Says which translations are old now.
pub fn judge(findings: &mut Findings, before: &Prepared, after: &Prepared) {
    for (_, own) in newly_old(before, after) {
        if let Some(translated) = &own.translated {
            let (id, revision) = (&own.front.id, own.front.revision.trim());
            findings.translation_is_old(&translated.at, id, &translated.from, revision);
        }
    }
}

/// Lockouts whose last inspection was of the bytes that were there before.
fn inspections(before: &Prepared, after: &Prepared) -> Vec<Inspection> {
    let inspected = |due: packet::Due| {
        let held = due.signed?;
        let id = &due.procedure.front.id;
        let old = before.plant.procedures.get(id)?;
        let is_lapsed = held.entry.sha256 == old.sha256 && due.procedure.sha256 != old.sha256;
        is_lapsed.then(|| Inspection {
            procedure: id.clone(),
            machine: due.machine.file.body.id.clone(),
            date: held.entry.date.clone().unwrap_or_default(),
            entry: held.entry.seq,
        })
    };
    packet::inspections(after).into_iter().filter_map(inspected).collect()
}
