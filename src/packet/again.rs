//! Every packet of a plant, made anew only where something it is made from has changed.
//!
//! A packet that was made is kept with what it was made from. Must never give what a first run would
//! not give: where it is not plain what something depends on, it depends on everything.

use std::collections::{BTreeMap, BTreeSet};
use std::mem;
use std::sync::Arc;

use rayon::prelude::*;

use super::assemble::assemble;
use super::compute::Computed;
use super::inspections::lockouts;
use super::model::Packet;
use super::prepare::Prepared;
use crate::canonical::sha256_hex;
use crate::finding::Findings;
use crate::finding::policy::{Answered, Policy};
use crate::language::Language;
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::{FrontMatter, JobFile, MachineFile, RecipeFile};
use crate::procedure::Procedure;
use crate::register::Judged;

/// Packets by job.
pub type Packets = BTreeMap<String, Arc<Packet>>;

/// What was made of a plant before.
#[derive(Debug, Default)]
pub struct Memory {
    /// Digests of the files that every recipe is worked out by.
    house: Vec<Option<String>>,
    computed: BTreeMap<Of, Worked>,
    before: BTreeMap<Of, Worked>,
    shared: Option<Shared>,
    jobs: BTreeMap<String, Arc<Kept>>,
    /// What the last run had to do.
    pub work: Work,
}

/// What a run had to do.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// Recipes worked out on a machine, once for each language.
    pub computed: usize,
    /// Packets put together.
    pub assembled: usize,
}

/// A recipe on a machine, in a language.
type Of = (Language, String, String);

/// A recipe worked out, from these two files.
#[derive(Debug)]
struct Worked {
    machine: String,
    recipe: String,
    findings: Findings,
    computed: Arc<Computed>,
}

/// What all packets of a plant share, beside its jobs, machines, recipes and the steps of procedures.
#[derive(Debug, PartialEq, Eq)]
struct Shared {
    files: Vec<Option<String>>,
    policy: Policy,
    answered: Vec<Answered>,
    register: Judged,
    /// What decides where a procedure is used.
    fronts: BTreeMap<(Language, String), FrontMatter>,
}

/// Digests of a procedure's file and of its translation's.
type Stamp = (String, Option<String>);

/// What may be asked of any job, worked out once.
struct Now<'p> {
    prepared: &'p Prepared<'p>,
    /// Procedures by file, in each language.
    stamps: BTreeMap<Language, BTreeMap<&'p str, Stamp>>,
    /// All of them, as one digest.
    procedures: BTreeMap<Language, String>,
    /// The names that a finding may suggest, as a digest.
    names: String,
    lockouts: BTreeMap<&'p str, Vec<&'p str>>,
}

/// A packet, or what stands against it, and what it was made from.
#[derive(Debug)]
struct Kept {
    from: From,
    uses: Uses,
    /// Where something was found: it may have named any of these.
    names: Option<String>,
    findings: Findings,
    packet: Option<Arc<Packet>>,
}

/// The files a job names, the job before it, and how its machine is locked out.
#[derive(Debug, PartialEq, Eq)]
struct From {
    language: Language,
    files: [Option<String>; 4],
    last: Option<(String, String)>,
    lockouts: Vec<String>,
}

/// The procedures a packet was made from.
#[derive(Debug)]
enum Uses {
    /// These, by file.
    Some(Vec<(String, Stamp)>),
    /// Nobody knows which: all of them, as one digest.
    All(String),
}

impl Memory {
    /// Begins a run over a plant as it is now.
    pub(super) fn begin(&mut self, plant: &Plant) {
        let house = digests(plant, &["plant.yaml", "stock.yaml", "hazards.yaml"]);
        if house != self.house {
            let of_nothing = Memory { house, ..Memory::default() };
            *self = of_nothing;
        }
        self.work = Work::default();
        self.before = mem::take(&mut self.computed);
    }

    /// A recipe on a machine, and what was found; `compute` works it out.
    pub(super) fn computed(
        &mut self,
        language: Language,
        machine: &Loaded<MachineFile>,
        recipe: (&str, &Loaded<RecipeFile>),
        compute: impl FnOnce(&mut Findings) -> Computed,
    ) -> (Findings, Arc<Computed>) {
        let (id, recipe) = recipe;
        let of = (language, machine.place.file.to_string(), id.to_owned());
        let same = |one: &Worked| one.machine == machine.sha256 && one.recipe == recipe.sha256;
        let worked = self.before.remove(&of).filter(same).unwrap_or_else(|| {
            self.work.computed += 1;
            let mut findings = Findings::default();
            let computed = Arc::new(compute(&mut findings));
            let (machine, recipe) = (machine.sha256.clone(), recipe.sha256.clone());
            Worked { machine, recipe, findings, computed }
        });
        let made = (worked.findings.clone(), worked.computed.clone());
        self.computed.insert(of, worked);
        made
    }

    /// Forgets every packet when something has changed that all of them share.
    fn share(&mut self, prepared: &Prepared) {
        let shared = Shared::of(prepared);
        if self.shared.as_ref() != Some(&shared) {
            self.jobs.clear();
        }
        self.shared = Some(shared);
    }
}

impl Shared {
    fn of(prepared: &Prepared) -> Shared {
        let fronts = plants(prepared.plant).flat_map(|plant| {
            let own = plant.procedures.iter();
            own.map(|(id, procedure)| ((plant.language, id.clone()), deciding(procedure)))
        });
        Shared {
            files: digests(prepared.plant, &["people.yaml", "allowed_signers"]),
            policy: prepared.policy.clone(),
            answered: prepared.answered.clone(),
            register: prepared.register.clone(),
            fronts: fronts.collect(),
        }
    }
}

/// Front matter without what says nothing about where a procedure is used.
fn deciding(procedure: &Procedure) -> FrontMatter {
    let none = String::new;
    FrontMatter {
        revision: none(),
        date: none(),
        author: none(),
        reason: none(),
        ..procedure.front.clone()
    }
}

/// A plant in each of its languages.
fn plants(plant: &Plant) -> impl Iterator<Item = &Plant> {
    [plant].into_iter().chain(plant.editions.values())
}

/// Digests of files that may not be there, those that ship among them.
fn digests(plant: &Plant, names: &[&str]) -> Vec<Option<String>> {
    names.iter().map(|name| plant.digests.get(*name).cloned()).collect()
}

impl<'p> Now<'p> {
    fn of(prepared: &'p Prepared<'p>) -> Now<'p> {
        let plant = prepared.plant;
        let stamp = |own: &'p Procedure| {
            let translated = own.translated.as_ref().map(|own| own.sha256.clone());
            (&*own.file, (own.sha256.clone(), translated))
        };
        let of =
            |plant: &'p Plant| (plant.language, plant.procedures.values().map(stamp).collect());
        let stamps: BTreeMap<_, BTreeMap<_, Stamp>> = plants(plant).map(of).collect();
        let whole = |(language, own): (&Language, _)| (*language, digest(own));
        let procedures = stamps.iter().map(whole).collect();
        let machines = prepared.machines.iter();
        let lockouts = machines.map(|(id, machine)| {
            let own = lockouts(plant, machine).map(|procedure| procedure.front.id.as_str());
            (id.as_str(), own.collect())
        });
        let names: [BTreeSet<&String>; 4] = [
            plant.machines.keys().collect(),
            plant.recipes.keys().collect(),
            plant.procedures.keys().collect(),
            plant.broken.iter().collect(),
        ];
        let lockouts = lockouts.collect();
        Now { prepared, stamps, procedures, names: digest(&names), lockouts }
    }

    fn from(&self, job: &Loaded<JobFile>) -> From {
        let Prepared { plant, last, .. } = self.prepared;
        let body = &job.body;
        let recipe = |id: &String| plant.recipes.get(id).map(|recipe| recipe.sha256.clone());
        let machine = plant.machines.get(&body.machine).map(|machine| machine.sha256.clone());
        let last = last.get(&job.place.file).and_then(|id| plant.jobs.get(id));
        let lockouts = self.lockouts.get(body.machine.as_str());
        From {
            language: body
                .language
                .filter(|own| plant.editions.contains_key(own))
                .unwrap_or(plant.language),
            files: [Some(job.sha256.clone()), machine, recipe(&body.from), recipe(&body.to)],
            last: last.map(|last| (last.body.id.clone(), last.body.to.clone())),
            lockouts: lockouts.into_iter().flatten().map(|id| (*id).to_owned()).collect(),
        }
    }

    /// Whether what was kept is what would be made now.
    fn is_same(&self, from: &From, kept: &Kept) -> bool {
        let stamps = self.stamps.get(&from.language);
        let stamp = |file: &str| stamps.and_then(|stamps| stamps.get(file));
        kept.from == *from
            && kept.names.as_ref().is_none_or(|names| *names == self.names)
            && match &kept.uses {
                Uses::Some(used) => used.iter().all(|(file, own)| stamp(file) == Some(own)),
                Uses::All(digest) => self.procedures.get(&from.language) == Some(digest),
            }
    }

    fn made(&self, job: &str, from: From) -> Kept {
        let mut findings = Findings::default();
        let packet = assemble(&mut findings, self.prepared, job).map(Arc::new);
        let stamps = self.stamps.get(&from.language);
        let uses = match &packet {
            Some(packet) => Uses::Some(
                packet
                    .sources
                    .iter()
                    .filter_map(|own| Some((own.path.clone(), stamps?.get(&*own.path)?.clone())))
                    .collect(),
            ),
            None => Uses::All(self.procedures.get(&from.language).cloned().unwrap_or_default()),
        };
        let is_plain = packet.is_some() && findings.is_empty();
        let names = (!is_plain).then(|| self.names.clone());
        Kept { from, uses, names, findings, packet }
    }
}

/// A digest of plain data, by how it is printed for a programmer: it is compared in one process only.
fn digest(data: &impl std::fmt::Debug) -> String {
    sha256_hex(format!("{data:?}").as_bytes())
}

/// Every packet of a plant, by job.
pub fn packets(findings: &mut Findings, prepared: &Prepared, memory: &mut Memory) -> Packets {
    memory.share(prepared);
    let now = Now::of(prepared);
    let before = mem::take(&mut memory.jobs);
    let one = |(id, job): (&String, &Loaded<JobFile>)| {
        let from = now.from(job);
        match before.get(id).filter(|kept| now.is_same(&from, kept)) {
            Some(kept) => (id.clone(), kept.clone(), false),
            None => (id.clone(), Arc::new(now.made(id, from)), true),
        }
    };
    let jobs: Vec<_> = prepared.plant.jobs.par_iter().map(one).collect();
    let mut packets = Packets::new();
    for (id, kept, is_new) in jobs {
        memory.work.assembled += usize::from(is_new);
        findings.extend(kept.findings.clone());
        packets.extend(kept.packet.clone().map(|packet| (id.clone(), packet)));
        memory.jobs.insert(id, kept);
    }
    packets
}
