//! What to fetch before the stop, gathered from the steps that are done.

use std::collections::BTreeMap;

use super::model::{EnergySource, Figure, Hazard, Instrument, KitItem, Mark, Stage, Step};
use crate::language::Language;
use crate::plant::load::Loaded;
use crate::plant::machine::Machine;
use crate::plant::shape::{HazardEntry, PartEntry, RecipeFile, ToolEntry};

/// Whether a group of the kit is what people wear, in whatever language it was written.
pub fn is_protective(group: &str) -> bool {
    Language::ALL.iter().any(|language| language.word("kit-protective") == group)
}

/// What the kit is gathered from.
pub(super) struct Sources<'a> {
    /// Steps of the packet.
    pub steps: &'a [Step],
    /// Hazards of these steps.
    pub hazards: &'a [Hazard],
    /// All hazard messages, with the gear each asks for.
    pub catalogue: &'a BTreeMap<String, Loaded<HazardEntry>>,
    /// The recipe on the machine.
    pub old: &'a RecipeFile,
    /// The recipe wanted.
    pub recipe: &'a RecipeFile,
    /// What the plant says of its tools.
    pub tools: &'a [ToolEntry],
    /// Energy sources of the machine.
    pub energy: &'a [EnergySource],
    /// How many people the job names to work inside.
    pub people: usize,
    /// How many people put a personal lock on a group box; at a shift change the arriving ones come
    /// before the others go.
    pub crew: usize,
    /// The machine.
    pub machine: &'a Machine<'a>,
    /// The roll to run from and where it lies.
    pub roll: Option<&'a PartEntry>,
    /// How many of it the order needs.
    pub rolls: Option<&'a Figure>,
    /// Language of the program's words.
    pub language: Language,
}

/// Everything to fetch, by group, each thing once.
pub(super) fn kit(sources: &Sources) -> Vec<KitItem> {
    let mut kit = Kit { sources, items: Vec::new() };
    kit.parts();
    kit.material();
    kit.tools();
    kit.instruments();
    kit.worn();
    kit.locks();
    kit.items
}

struct Kit<'a> {
    sources: &'a Sources<'a>,
    items: Vec<KitItem>,
}

impl<'a> Kit<'a> {
    /// A thing of a group, with what the plant says of it.
    fn item(&self, group: &'static str, item: &str) -> KitItem {
        let own = self.sources.tools.iter().find(|own| own.item == item);
        KitItem {
            group: self.sources.language.word(group).to_owned(),
            item: item.to_owned(),
            detail: String::new(),
            place: own.map_or(String::new(), |own| own.place.clone()),
            count: 1,
            stock: own.and_then(|own| own.count),
            step: None,
            is_here: false,
        }
    }

    /// Puts a thing in; one that is there already is needed first where either is.
    fn put(&mut self, new: KitItem) {
        let is_same = |old: &&mut KitItem| {
            (&old.group, &old.item, &old.detail, &old.place)
                == (&new.group, &new.item, &new.detail, &new.place)
        };
        match self.items.iter_mut().find(is_same) {
            Some(old) => {
                old.count = old.count.max(new.count);
                old.step = old.step.into_iter().chain(new.step).min();
            }
            None => self.items.push(new),
        }
    }

    /// The steps that are done, in order.
    fn done(&self) -> impl Iterator<Item = &'a Step> + use<'a> {
        self.sources.steps.iter().filter(|step| step.stays.is_none())
    }

    fn first(&self, is_wanted: impl Fn(&Step) -> bool) -> Option<u32> {
        self.done().find(|step| is_wanted(step)).map(|step| step.number)
    }

    fn parts(&mut self) {
        for part in &self.sources.recipe.parts {
            let item = self.item("kit-parts", &part.item);
            let place = if part.place.is_empty() { item.place } else { part.place.clone() };
            let stock = item.stock.or((!place.is_empty()).then_some(part.count));
            let is_here = self.sources.old.parts.contains(part);
            self.put(KitItem { count: part.count, place, stock, is_here, ..item });
        }
    }

    fn material(&mut self) {
        let Sources { recipe, roll, rolls, language, .. } = self.sources;
        let step = self.first(|step| step.marks.contains(&Mark::MaterialIn));
        if let Some(roll) = roll {
            let item = self.item("kit-material", &roll.item);
            let count = rolls.and_then(|rolls| rolls.value.parse().ok()).unwrap_or(roll.count);
            let detail = rolls.map(|rolls| {
                language.text("kit-for-order", &[("rolls", rolls.value.as_str().into())])
            });
            let detail = detail.unwrap_or_default();
            self.put(KitItem { detail, place: roll.place.clone(), count, step, ..item });
        }
        for PartEntry { item, place, count } in &recipe.material {
            let item = self.item("kit-material", item);
            self.put(KitItem { place: place.clone(), count: *count, step, ..item });
        }
    }

    fn tools(&mut self) {
        for (step, tool) in self.done().flat_map(|step| step.tools.iter().map(move |t| (step, t))) {
            let item = self.item("kit-tools", tool);
            self.put(KitItem { step: Some(step.number), ..item });
        }
    }

    fn instruments(&mut self) {
        let read = self.done().flat_map(|step| {
            let instruments = step.readings.iter().filter_map(|own| own.instrument.as_ref());
            instruments.map(|instrument| (Some(step.number), instrument))
        });
        let wrenches = self.sources.machine.wrenches().map(|wrench| (None, &wrench.facts));
        for (step, instrument) in read.chain(wrenches) {
            let item = self.instrument(instrument);
            self.put(KitItem { step, ..item });
        }
    }

    fn instrument(&self, instrument: &Instrument) -> KitItem {
        let Sources { machine, language, .. } = self.sources;
        // A step in another language names it otherwise; on the cart lies one.
        let own = machine.instruments.get(&instrument.id).map(|own| &own.facts);
        let written = machine.file.body.instruments.get(&instrument.id);
        let detail = match instrument.calibration_due.as_str() {
            "" => String::new(),
            due => language.text("kit-calibrated", &[("date", due.into())]),
        };
        let item = self.item("kit-instruments", &own.unwrap_or(instrument).name);
        KitItem { detail, is_here: written.is_some_and(|own| own.fixed), ..item }
    }

    /// Gear for as many people as meet its hazard at once.
    fn worn(&mut self) {
        let Sources { hazards, catalogue, energy, people, .. } = self.sources;
        for hazard in *hazards {
            let shows = |step: &Step| step.hazards.contains(&hazard.id);
            let gear = catalogue.get(&hazard.id).map(|hazard| hazard.body.gear.as_slice());
            for gear in gear.unwrap_or_default() {
                let item = self.item("kit-protective", gear);
                let count = self.people_at(*people, shows);
                self.put(KitItem { count, step: self.first(shows), ..item });
            }
        }
        for source in *energy {
            let handles = |step: &Step| step.sources.contains(&source.id);
            for part in source.hot_parts.iter().filter(|part| !part.gloves.is_empty()) {
                let item = self.item("kit-protective", &part.gloves);
                let count = self.people_at(*people, |_| true);
                self.put(KitItem { count, step: self.first(handles), ..item });
            }
        }
    }

    fn people_at(&self, named: usize, is_wanted: impl Fn(&Step) -> bool) -> u32 {
        let most = self.done().filter(|step| is_wanted(step)).map(|step| step.people).max();
        most.unwrap_or(1).max(u32::try_from(named).unwrap_or(u32::MAX))
    }

    fn locks(&mut self) {
        let &Sources { energy, crew, language, .. } = self.sources;
        let step = self.first(|step| step.stage == Stage::Lock);
        let devices = [("count", energy.len().to_string().into())];
        let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let mut put = |key, count: usize, detail| {
            let item = self.item("kit-locks", language.word(key));
            self.put(KitItem { count: number(count), step, detail, ..item });
        };
        match (energy.len(), crew) {
            (0, _) => {}
            (count, 0) => put("kit-personal", count, language.text("kit-each-person", &devices)),
            (count, crew) => {
                put("kit-device", count, language.text("kit-of-each", &devices));
                put("kit-box", 1, String::new());
                put("kit-personal-box", crew, crew.to_string());
            }
        }
    }
}
