//! A machine understood: its quantities read, its references checked.
//!
//! Faults are found here and nowhere else, once for each machine. What could not be understood is
//! left out; who needs it then finds it missing and keeps silent about it.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use super::load::Loaded;
use super::shape::{EnergyEntry, MachineFile, RailEntry};
use crate::finding::{Findings, Place};
use crate::formula;
use crate::layout::{Rail, Spares};
use crate::packet::model;
use crate::quantity::{Dimension, Measure, Number, Quantity, Unit};

/// A machine with everything on it understood.
#[derive(Debug, Clone)]
pub struct Machine<'a> {
    /// The file.
    pub file: &'a Loaded<MachineFile>,
    /// `machine.<fact>` and `<rail>.<fact>`.
    pub facts: BTreeMap<String, Measure>,
    /// Instruments.
    pub instruments: BTreeMap<String, Instrument>,
    /// Rails.
    pub rails: BTreeMap<String, RailFacts>,
}

/// An instrument understood.
#[derive(Debug, Clone)]
pub struct Instrument {
    /// For the sheet.
    pub facts: model::Instrument,
    /// Smallest step it shows.
    pub resolution: Measure,
}

/// A rail understood; lengths in millimetres.
#[derive(Debug, Clone)]
pub struct RailFacts {
    /// Name for people.
    pub name: String,
    /// Zone it is in.
    pub zone: String,
    /// Ends, holders, spacing.
    pub rail: Rail,
    /// The unit its ends were written in; positions are shown in it.
    pub unit: &'static Unit,
    /// Pitch of the lanes downstream, when it is fixed.
    pub lane_pitch: Option<Number>,
    /// Where it was written.
    pub place: Place,
}

/// Kinds of energy, 29 CFR 1910.147(b) and the machine builder's usual finer list.
const KINDS: [&str; 10] = [
    "electrical",
    "pneumatic",
    "hydraulic",
    "mechanical",
    "spring",
    "gravity",
    "thermal",
    "chemical",
    "vacuum",
    "other",
];

/// Kinds whose zero is a number an instrument shows.
const MEASURED: [&str; 5] = ["electrical", "pneumatic", "hydraulic", "thermal", "vacuum"];

/// Devices that hold energy back by themselves, 29 CFR 1910.147(b): no push button, selector,
/// emergency stop, interlock or other control-circuit device.
const DEVICES: [&str; 5] = ["disconnect", "breaker", "valve", "block", "plug"];

/// Understands a machine.
pub fn machine<'a>(
    findings: &mut Findings,
    file: &'a Loaded<MachineFile>,
    hazards: &BTreeMap<String, model::Hazard>,
) -> Machine<'a> {
    let at = &file.place;
    let mut reader = Reader { findings, file };
    let mut facts = BTreeMap::new();
    for (name, text) in file.body.facts.iter() {
        reader.name(&at.at("facts").at(name), name);
        if let Some(measure) = reader.measure(&at.at("facts").at(name), text) {
            facts.insert(format!("machine.{name}"), measure);
        }
    }
    let instruments = reader.instruments();
    let mut rails = BTreeMap::new();
    for (id, entry) in file.body.rails.iter() {
        let place = at.at("rails").at(id);
        reader.name(&place, id);
        for (name, text) in entry.facts.iter() {
            let place = place.at("facts").at(name);
            reader.name(&place, name);
            if let Some(measure) = reader.measure(&place, text) {
                facts.insert(format!("{id}.{name}"), measure);
            }
        }
        if let Some(rail) = reader.rail(&place, entry) {
            rails.insert(id.to_owned(), rail);
        }
    }
    reader.zones(hazards);
    for (id, entry) in file.body.energy.iter() {
        let at = at.at("energy").at(id);
        reader.energy(&at, entry, &instruments);
        reader.hazards(&at.at("hazards"), &entry.hazards, hazards);
        reader.reaches_somewhere(&at, id);
    }
    reader.blocks_before_valves();
    Machine { file, facts, instruments, rails }
}

struct Reader<'a> {
    findings: &'a mut Findings,
    file: &'a Loaded<MachineFile>,
}

impl Reader<'_> {
    fn name(&mut self, at: &Place, name: &str) {
        if !is_name(name) {
            self.findings.bad_name(&at.key(), name);
        }
    }

    fn measure(&mut self, at: &Place, text: &str) -> Option<Measure> {
        measure(self.findings, at, text)
    }

    fn instruments(&mut self) -> BTreeMap<String, Instrument> {
        let mut instruments = BTreeMap::new();
        for (id, entry) in self.file.body.instruments.iter() {
            let at = self.file.place.at("instruments").at(id);
            let Some(resolution) = self.measure(&at.at("resolution"), &entry.resolution) else {
                continue;
            };
            if resolution.quantity.amount <= Number::ZERO {
                self.findings.not_positive(&at.at("resolution"), "a resolution");
                continue;
            }
            let due = entry.calibration_due.clone().unwrap_or_default();
            if !due.is_empty() {
                day(self.findings, &at.at("calibration_due"), &due);
            }
            let facts = model::Instrument {
                id: id.to_owned(),
                name: entry.name.clone(),
                resolution: entry.resolution.clone(),
                calibration_due: due,
            };
            instruments.insert(id.to_owned(), Instrument { facts, resolution });
        }
        instruments
    }

    fn rail(&mut self, at: &Place, entry: &RailEntry) -> Option<RailFacts> {
        if self.file.body.zones.get(&entry.zone).is_none() {
            let known: Vec<&str> = self.file.body.zones.names().collect();
            self.findings.unknown_zone(&at.at("zone"), &entry.zone, &known);
        }
        let left = length(self.findings, &at.at("left_end"), &entry.left_end);
        let right = length(self.findings, &at.at("right_end"), &entry.right_end);
        let width = length(self.findings, &at.at("holder_width"), &entry.holder_width);
        let spacing = length(self.findings, &at.at("spacing"), &entry.spacing);
        let pitch =
            entry.lane_pitch.as_ref().map(|text| length(self.findings, &at.at("lane_pitch"), text));
        let holders = count(self.findings, &at.at("holders"), &entry.holders);
        let (left, unit) = left?;
        let (right, width, spacing) = (right?.0, width?.0, spacing?.0);
        for (key, value) in [
            ("left_end", left),
            ("right_end", right),
            ("holder_width", width),
            ("spacing", spacing),
        ] {
            if value <= Number::ZERO {
                self.findings.not_positive(&at.at(key), "this length");
            }
        }
        if spacing < width {
            self.findings.spacing_below_width(&at.at("spacing"), &entry.holder_width);
        }
        let rail = Rail {
            left_end: left.neg(),
            right_end: right,
            holders: holders?,
            holder_width: width,
            spacing,
            tip_offset: Number::ZERO,
            obstacles: Vec::new(),
            spares: Spares::Parked,
        };
        Some(RailFacts {
            name: entry.name.clone(),
            zone: entry.zone.clone(),
            rail,
            unit,
            lane_pitch: pitch.flatten().map(|(pitch, _)| pitch),
            place: at.clone(),
        })
    }

    fn zones(&mut self, hazards: &BTreeMap<String, model::Hazard>) {
        for (id, zone) in self.file.body.zones.iter() {
            let at = self.file.place.at("zones").at(id);
            for (index, source) in zone.sources.iter().enumerate() {
                if self.file.body.energy.get(source).is_none() {
                    let known: Vec<&str> = self.file.body.energy.names().collect();
                    self.findings.unknown_source(&at.at("sources").item(index), source, &known);
                }
            }
            self.hazards(&at.at("hazards"), &zone.hazards, hazards);
            if zone.sources.is_empty() {
                self.findings.zone_without_source(&at.key(), id);
            }
        }
    }

    fn hazards(&mut self, at: &Place, named: &[String], known: &BTreeMap<String, model::Hazard>) {
        for (index, hazard) in named.iter().enumerate() {
            if !known.contains_key(hazard) {
                let known: Vec<&String> = known.keys().collect();
                self.findings.unknown_hazard(&at.item(index), hazard, &known);
            }
        }
    }

    /// A source that reaches into no zone would be locked for nothing, or was forgotten in one.
    fn reaches_somewhere(&mut self, at: &Place, id: &str) {
        let mut zones = self.file.body.zones.iter();
        if !zones.any(|(_, zone)| zone.sources.iter().any(|source| source == id)) {
            self.findings.source_in_no_zone(&at.key(), id);
        }
    }

    /// A load is held by its block before the air that carries it is let out.
    ///
    /// Source: common practice, no source.
    fn blocks_before_valves(&mut self) {
        let mut valve = None;
        for (id, entry) in self.file.body.energy.iter() {
            match entry.device_type.as_str() {
                "valve" => valve = Some(entry.name.as_str()),
                "block" => {
                    if let Some(valve) = valve {
                        let at = self.file.place.at("energy").at(id);
                        self.findings.block_after_valve(&at.key(), &entry.name, valve);
                    }
                }
                _ => {}
            }
        }
    }

    fn energy(
        &mut self,
        at: &Place,
        entry: &EnergyEntry,
        instruments: &BTreeMap<String, Instrument>,
    ) {
        if !KINDS.contains(&entry.kind.as_str()) {
            self.findings.unknown_energy_kind(&at.at("kind"), &entry.kind, &KINDS);
        }
        if !DEVICES.contains(&entry.device_type.as_str()) {
            self.findings.not_isolating(&at.at("type"), &entry.device_type, &DEVICES);
        }
        let needed = [
            ("magnitude", &entry.magnitude),
            ("device", &entry.device),
            ("place", &entry.place),
            ("safe", &entry.safe),
            ("lock", &entry.lock),
            ("stored", &entry.stored),
            ("prove", &entry.prove),
            ("restore", &entry.restore),
        ];
        for (key, text) in needed {
            if text.trim().is_empty() {
                self.findings.empty_text(&at.at(key), key);
            }
        }
        if entry.stored.trim() != "nothing" && entry.relieve.trim().is_empty() {
            self.findings.stored_not_relieved(&at.at("stored"), &entry.stored);
        }
        if entry.zero.is_none() && MEASURED.contains(&entry.kind.as_str()) {
            self.findings.zero_not_measured(&at.key(), &entry.kind);
        }
        if let Some(zero) = &entry.zero {
            let at = at.at("zero");
            if Unit::find(&zero.unit).is_none() {
                self.findings.unknown_unit(&at.at("unit"), &zero.unit);
            }
            for (key, text) in [("low", &zero.low), ("high", &zero.high)] {
                if let Some(Err(error)) = text.as_ref().map(|text| Number::parse(text)) {
                    let at = at.at(key).within(error.range.clone());
                    self.findings.bad_quantity(&at, &error);
                }
            }
            if zero.low.is_none() && zero.high.is_none() {
                self.findings.no_limits(&at);
            }
            if let Some(id) = zero.instrument.as_ref().filter(|id| !instruments.contains_key(*id)) {
                let known: Vec<&String> = instruments.keys().collect();
                self.findings.unknown_instrument(&at.at("instrument"), id, &known);
            }
        }
    }
}

/// Reads a quantity.
pub fn measure(findings: &mut Findings, at: &Place, text: &str) -> Option<Measure> {
    match Measure::parse(text) {
        Ok(measure) => Some(measure),
        Err(error) => {
            findings.bad_quantity(&at.within(error.range.clone()), &error);
            None
        }
    }
}

/// Reads a length: millimetres, and the unit it was written in.
fn length(findings: &mut Findings, at: &Place, text: &str) -> Option<(Number, &'static Unit)> {
    let measure = measure(findings, at, text)?;
    match measure.unit {
        Some(unit) if measure.quantity.dimension == Dimension::LENGTH => {
            Some((measure.quantity.amount, unit))
        }
        _ => {
            findings.wrong_dimension(at, measure.quantity.dimension, Dimension::LENGTH);
            None
        }
    }
}

/// Reads a count.
fn count(findings: &mut Findings, at: &Place, text: &str) -> Option<u32> {
    let measure = measure(findings, at, text)?;
    let Quantity { amount, dimension } = measure.quantity;
    match amount.to_u32() {
        Some(count) if dimension == Dimension::NONE && count <= 10_000 => Some(count),
        _ => {
            findings.not_a_count(at);
            None
        }
    }
}

/// Reads a day, `YYYY-MM-DD`.
pub fn day(findings: &mut Findings, at: &Place, text: &str) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok();
    if day.is_none_or(|day| day.format("%Y-%m-%d").to_string() != text) {
        findings.bad_day(at, text);
        return None;
    }
    day
}

/// A name that may stand in a formula, 64 letters at most.
pub fn is_name(text: &str) -> bool {
    text.len() <= 64 && formula::is_name(text)
}
