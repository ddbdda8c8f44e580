//! What to fetch before the stop, gathered from the steps that are done.

use std::collections::BTreeMap;

use super::model::{EnergySource, Figure, Hazard, KitItem, Step};
use crate::plant::load::Loaded;
use crate::plant::machine::Machine;
use crate::plant::shape::{HazardEntry, PartEntry, RecipeFile};

/// The group of what people wear.
pub const PROTECTIVE: &str = "Protective equipment";

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
}

/// Everything to fetch, by group, each thing once.
pub(super) fn kit(sources: &Sources) -> Vec<KitItem> {
    let &Sources { steps, hazards, catalogue, recipe, energy, crew, machine, roll, rolls } =
        sources;
    let mut kit = Vec::new();
    let mut put = |group: &str, item: &str, detail: &str| {
        let entry =
            KitItem { group: group.to_owned(), item: item.to_owned(), detail: detail.to_owned() };
        if !kit.contains(&entry) {
            kit.push(entry);
        }
    };
    for PartEntry { item, place } in &recipe.parts {
        put("Change parts", item, place);
    }
    if let Some(PartEntry { item, place }) = roll {
        let wanted = rolls.map(|rolls| format!("{} for the order", rolls.value));
        let detail: Vec<&str> = wanted.iter().map(String::as_str).chain([place.as_str()]).collect();
        put("Material", item, detail.join("; ").trim_end_matches("; "));
    }
    for PartEntry { item, place } in &recipe.material {
        put("Material", item, place);
    }
    let done = || steps.iter().filter(|step| step.stays.is_none());
    for tool in done().flat_map(|step| &step.tools) {
        put("Tools", tool, "");
    }
    let readings = done().flat_map(|step| &step.readings);
    let read = readings.filter_map(|reading| reading.instrument.as_ref());
    for instrument in read.chain(machine.wrenches().map(|wrench| &wrench.facts)) {
        let due = match instrument.calibration_due.as_str() {
            "" => String::new(),
            due => format!("calibrated until {due}"),
        };
        put("Instruments", &instrument.name, &due);
    }
    let gear = hazards.iter().filter_map(|hazard| catalogue.get(&hazard.id));
    for gear in gear.flat_map(|hazard| &hazard.body.gear) {
        put(PROTECTIVE, gear, "");
    }
    for part in energy.iter().flat_map(|source| &source.hot_parts) {
        if !part.gloves.is_empty() {
            put(PROTECTIVE, &part.gloves, "");
        }
    }
    match (energy.len(), crew) {
        (0, _) => {}
        (devices, 0) => {
            let count = format!("{devices} of each, for each person who locks");
            put("Locks and tags", "Personal padlock and tag", &count);
        }
        (devices, crew) => {
            put("Locks and tags", "Padlock and tag for a device", &format!("{devices} of each"));
            put("Locks and tags", "Group lock box", "");
            put("Locks and tags", "Personal padlock for the group box", &crew.to_string());
        }
    }
    kit
}
