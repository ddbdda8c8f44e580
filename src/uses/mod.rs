//! Where each thing of a plant is used, and what is used nowhere.
//!
//! `gather` walks the files and the packets once and puts every name beside its uses, [`alike`] finds
//! names that are likely the same thing, [`shown`] turns places into file and line for whoever shows
//! them. Linear in the size of the plant. Must never judge: a name that leads nowhere is a finding of
//! the check, and is passed over here.

pub mod alike;
mod gather;
pub mod shown;

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::finding::Place;
use crate::language::Words;

pub use gather::index;

/// What a thing is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// A procedure.
    Procedure,
    /// A hazard message.
    Hazard,
    /// A tool, by the name that steps give it.
    Tool,
    /// An instrument of a machine.
    Instrument,
    /// A screw of a machine.
    Fastener,
    /// A setting of a recipe.
    Setting,
    /// An input of a recipe.
    Input,
    /// A table of a recipe.
    Table,
    /// A change part or a material of a recipe.
    Part,
    /// A film of the stock.
    Film,
    /// A guarded zone of a machine.
    Zone,
    /// An energy source of a machine.
    Energy,
    /// A fact of a machine or of one of its rails.
    Fact,
    /// A role of the plant.
    Role,
}

impl Kind {
    /// Every kind, in the order in which they are shown.
    pub const ALL: [Kind; 14] = [
        Kind::Procedure,
        Kind::Hazard,
        Kind::Tool,
        Kind::Instrument,
        Kind::Fastener,
        Kind::Setting,
        Kind::Input,
        Kind::Table,
        Kind::Part,
        Kind::Film,
        Kind::Zone,
        Kind::Energy,
        Kind::Fact,
        Kind::Role,
    ];

    /// The kind in a word: one of it.
    pub fn one(self) -> Words {
        Words::of(match self {
            Kind::Procedure => "uses-procedure",
            Kind::Hazard => "uses-hazard",
            Kind::Tool => "uses-tool",
            Kind::Instrument => "uses-instrument",
            Kind::Fastener => "uses-fastener",
            Kind::Setting => "uses-setting",
            Kind::Input => "uses-input",
            Kind::Table => "uses-table",
            Kind::Part => "uses-part",
            Kind::Film => "uses-film",
            Kind::Zone => "uses-zone",
            Kind::Energy => "uses-energy",
            Kind::Fact => "uses-fact",
            Kind::Role => "uses-role",
        })
    }

    /// The kind as a heading: all of it.
    pub fn all(self) -> Words {
        Words::of(match self {
            Kind::Procedure => "uses-procedures",
            Kind::Hazard => "uses-hazards",
            Kind::Tool => "uses-tools",
            Kind::Instrument => "uses-instruments",
            Kind::Fastener => "uses-fasteners",
            Kind::Setting => "uses-settings",
            Kind::Input => "uses-inputs",
            Kind::Table => "uses-tables",
            Kind::Part => "uses-parts",
            Kind::Film => "uses-films",
            Kind::Zone => "uses-zones",
            Kind::Energy => "uses-energies",
            Kind::Fact => "uses-facts",
            Kind::Role => "uses-roles",
        })
    }

    /// A word for links: `where-used/instrument`.
    pub fn slug(self) -> &'static str {
        match self {
            Kind::Procedure => "procedure",
            Kind::Hazard => "hazard",
            Kind::Tool => "tool",
            Kind::Instrument => "instrument",
            Kind::Fastener => "fastener",
            Kind::Setting => "setting",
            Kind::Input => "input",
            Kind::Table => "table",
            Kind::Part => "part",
            Kind::Film => "film",
            Kind::Zone => "zone",
            Kind::Energy => "energy",
            Kind::Fact => "fact",
            Kind::Role => "role",
        }
    }
}

/// Who names a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Who<'a> {
    /// A file of the plant as a whole.
    Plant,
    /// A person who holds a role; holding it is no use of it.
    Person(&'a str),
    /// A machine, by identifier.
    Machine(&'a str),
    /// A recipe, by identifier.
    Recipe(&'a str),
    /// A procedure as a whole, by identifier.
    Procedure(&'a str),
    /// A step of a procedure.
    Step {
        /// Identifier of the procedure.
        procedure: &'a str,
        /// The step's heading as an identifier.
        slug: &'a str,
        /// The step's heading.
        title: &'a str,
    },
    /// A job, by identifier.
    Job(&'a str),
}

impl<'a> Who<'a> {
    /// The kind of file in a word, for programs.
    pub fn slug(self) -> &'static str {
        match self {
            Who::Plant => "plant",
            Who::Person(_) => "person",
            Who::Machine(_) => "machine",
            Who::Recipe(_) => "recipe",
            Who::Procedure(_) => "procedure",
            Who::Step { .. } => "step",
            Who::Job(_) => "job",
        }
    }

    /// The identifier; that of the procedure for a step, empty for the plant.
    pub fn id(self) -> &'a str {
        match self {
            Who::Plant => "",
            Who::Person(id)
            | Who::Machine(id)
            | Who::Recipe(id)
            | Who::Procedure(id)
            | Who::Job(id)
            | Who::Step { procedure: id, .. } => id,
        }
    }

    /// In words: `machine pouch-6`, `knives, step "Slide each holder"`.
    pub fn told(self) -> Words {
        let named = |key, id: &str| Words::new(key, &[("id", id.into())]);
        match self {
            Who::Plant => Words::of("uses-by-plant"),
            Who::Person(id) => named("uses-by-person", id),
            Who::Machine(id) => named("uses-by-machine", id),
            Who::Recipe(id) => named("uses-by-recipe", id),
            Who::Procedure(id) => named("uses-by-procedure", id),
            Who::Job(id) => named("uses-by-job", id),
            Who::Step { procedure, title, .. } => {
                Words::new("uses-by-step", &[("id", procedure.into()), ("title", title.into())])
            }
        }
    }
}

/// Where a thing stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Home<'a> {
    /// Who brings it along.
    pub owner: Who<'a>,
    /// Its key in the file.
    pub place: Place,
    /// Whether anything that can reach it uses it.
    pub is_used: bool,
}

impl Home<'_> {
    /// Whether it ships with the program.
    pub fn is_shipped(&self) -> bool {
        self.place.file.starts_with("shipped/")
    }
}

/// One use of a thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Use<'a> {
    /// Who uses it.
    pub by: Who<'a>,
    /// Where.
    pub place: Place,
}

/// A thing with everything that uses it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Thing<'a> {
    /// Names for people, as they are written: one, or several when machines or recipes differ.
    pub names: BTreeSet<&'a str>,
    /// Where it stands; nowhere for tools, which only steps name.
    pub homes: Vec<Home<'a>>,
    /// What uses it, in the order of the files.
    pub uses: Vec<Use<'a>>,
    /// Open jobs that use it.
    pub jobs: BTreeSet<&'a str>,
}

impl Thing<'_> {
    /// Whether a file of the plant names it, and not only what ships with the program.
    pub fn is_own(&self) -> bool {
        let homes = self.homes.iter().map(|home| &home.place);
        let mut places = homes.chain(self.uses.iter().map(|one| &one.place));
        places.any(|place| !place.file.starts_with("shipped/"))
    }
}

/// Every thing of a plant, by kind and identifier.
#[derive(Debug, Default)]
pub struct Index<'a> {
    things: BTreeMap<Kind, BTreeMap<String, Thing<'a>>>,
}

impl<'a> Index<'a> {
    /// The things of a kind, by identifier.
    pub fn of(&self, kind: Kind) -> impl Iterator<Item = (&str, &Thing<'a>)> {
        let things = self.things.get(&kind);
        things.into_iter().flatten().map(|(id, thing)| (id.as_str(), thing))
    }

    /// Every thing, kind by kind.
    pub fn iter(&self) -> impl Iterator<Item = (Kind, &str, &Thing<'a>)> {
        Kind::ALL.into_iter().flat_map(|kind| self.of(kind).map(move |(id, one)| (kind, id, one)))
    }

    /// What a person may mean by a name: things with this identifier or name, whatever its letters'
    /// case and its spaces.
    pub fn named(&self, name: &str) -> Vec<(Kind, &str, &Thing<'a>)> {
        let exactly = |id: &str, thing: &Thing| id == name || thing.names.contains(name);
        let found: Vec<_> = self.iter().filter(|(_, id, thing)| exactly(id, thing)).collect();
        if !found.is_empty() {
            return found;
        }
        let wanted = alike::plain(name);
        let is_meant = |id: &str, thing: &Thing| {
            alike::plain(id) == wanted || thing.names.iter().any(|one| alike::plain(one) == wanted)
        };
        self.iter().filter(|(_, id, thing)| is_meant(id, thing)).collect()
    }

    /// The known names most like one that is unknown, the nearest first, three at most.
    pub fn nearest(&self, name: &str) -> Vec<&str> {
        let wanted: String = alike::plain(name).chars().take(LONGEST).collect();
        let most = wanted.chars().count().max(3) / 3;
        let names = self
            .iter()
            .flat_map(|(_, id, thing)| [id].into_iter().chain(thing.names.iter().copied()));
        let letters = wanted.chars().count();
        let near = names.filter_map(|known| {
            let plain = alike::plain(known);
            // Whoever types a part of a name means the whole.
            if letters >= 4 && plain.contains(&wanted) {
                return Some((1, known));
            }
            let is_far = plain.chars().count().abs_diff(letters) > most;
            let distance = if is_far { most + 1 } else { strsim::osa_distance(&plain, &wanted) };
            (distance <= most).then_some((distance, known))
        });
        let ranked: BTreeSet<(usize, &str)> = near.collect();
        ranked.into_iter().map(|(_, known)| known).take(3).collect()
    }

    /// What is used nowhere: each place where such a thing stands.
    pub fn unused(&self) -> impl Iterator<Item = (Kind, &str, &Thing<'a>, &Home<'a>)> {
        self.iter().flat_map(|(kind, id, thing)| {
            let homes = thing.homes.iter().filter(|home| !home.is_used);
            homes.map(move |home| (kind, id, thing, home))
        })
    }
}

/// Letters of a name that is looked for; nobody types a longer one.
const LONGEST: usize = 60;
