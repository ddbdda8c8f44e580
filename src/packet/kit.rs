//! What to fetch before the stop, gathered from the steps that are done.

use std::collections::BTreeMap;

use super::model::{EnergySource, Figure, Hazard, KitItem, Step};
use crate::language::Language;
use crate::plant::load::Loaded;
use crate::plant::machine::Machine;
use crate::plant::shape::{HazardEntry, PartEntry, RecipeFile};

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
    /// The recipe wanted.
    pub recipe: &'a RecipeFile,
    /// Energy sources of the machine.
    pub energy: &'a [EnergySource],
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
    let &Sources { steps, hazards, catalogue, recipe, energy, crew, machine, roll, rolls, .. } =
        sources;
    let language = sources.language;
    let (parts, material) = (language.word("kit-parts"), language.word("kit-material"));
    let (tools, instruments) = (language.word("kit-tools"), language.word("kit-instruments"));
    let (worn, locks) = (language.word("kit-protective"), language.word("kit-locks"));
    let mut kit = Vec::new();
    let mut put = |group: &str, item: &str, detail: &str| {
        let entry =
            KitItem { group: group.to_owned(), item: item.to_owned(), detail: detail.to_owned() };
        if !kit.contains(&entry) {
            kit.push(entry);
        }
    };
    for PartEntry { item, place } in &recipe.parts {
        put(parts, item, place);
    }
    if let Some(PartEntry { item, place }) = roll {
        let wanted = rolls.map(|rolls| {
            let count = rolls.value.as_str().into();
            language.text("kit-for-order", &[("rolls", count)])
        });
        let detail: Vec<&str> = wanted.iter().map(String::as_str).chain([place.as_str()]).collect();
        put(material, item, detail.join("; ").trim_end_matches("; "));
    }
    for PartEntry { item, place } in &recipe.material {
        put(material, item, place);
    }
    let done = || steps.iter().filter(|step| step.stays.is_none());
    for tool in done().flat_map(|step| &step.tools) {
        put(tools, tool, "");
    }
    let readings = done().flat_map(|step| &step.readings);
    let read = readings.filter_map(|reading| reading.instrument.as_ref());
    for instrument in read.chain(machine.wrenches().map(|wrench| &wrench.facts)) {
        let due = match instrument.calibration_due.as_str() {
            "" => String::new(),
            due => language.text("kit-calibrated", &[("date", due.into())]),
        };
        // A step in another language names it otherwise; on the cart lies one.
        let own = machine.instruments.get(&instrument.id).map(|own| &own.facts);
        put(instruments, &own.unwrap_or(instrument).name, &due);
    }
    let gear = hazards.iter().filter_map(|hazard| catalogue.get(&hazard.id));
    for gear in gear.flat_map(|hazard| &hazard.body.gear) {
        put(worn, gear, "");
    }
    for part in energy.iter().flat_map(|source| &source.hot_parts) {
        if !part.gloves.is_empty() {
            put(worn, &part.gloves, "");
        }
    }
    match (energy.len(), crew) {
        (0, _) => {}
        (devices, 0) => {
            let parts = [("count", devices.to_string().into())];
            let count = language.text("kit-each-person", &parts);
            put(locks, language.word("kit-personal"), &count);
        }
        (devices, crew) => {
            let parts = [("count", devices.to_string().into())];
            put(locks, language.word("kit-device"), &language.text("kit-of-each", &parts));
            put(locks, language.word("kit-box"), "");
            put(locks, language.word("kit-personal-box"), &crew.to_string());
        }
    }
    kit
}
