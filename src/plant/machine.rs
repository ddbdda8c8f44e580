//! A machine understood: its quantities read, its references checked.
//!
//! Faults are found here and nowhere else, once for each machine. What could not be understood is
//! left out; who needs it then finds it missing and keeps silent about it.

use std::collections::BTreeMap;

use chrono::{NaiveDate, NaiveDateTime};

use super::energy;
use super::fastener::{Fastener, fasteners};
use super::instrument::{Instrument, instrument};
use super::load::Loaded;
use super::shape::{InstrumentEntry, MachineFile, RailEntry, Side, SparesWord};
use crate::finding::{Findings, Place};
use crate::formula;
use crate::language::{Language, Words};
use crate::layout::{Obstacle, Rail, Spares};
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
    /// How facts stand in text, where that says more than the number.
    pub in_text: BTreeMap<String, String>,
    /// Screws, in the order of the file.
    pub fasteners: Vec<Fastener>,
    /// What the unwind takes.
    pub unwind: Option<Unwind>,
    /// Rails.
    pub rails: BTreeMap<String, RailFacts>,
    /// Energy sources, in the order of the file.
    pub energy: Vec<model::EnergySource>,
    /// Powered movement with a guard open.
    pub inching: Option<model::Inching>,
    /// The last periodic inspection of the lockout procedure.
    pub inspection: Option<model::Inspection>,
}

/// What the unwind of a machine takes; lengths in millimetres.
#[derive(Debug, Clone, Copy)]
pub struct Unwind {
    /// Widest web.
    pub widest: Number,
    /// Narrowest web.
    pub narrowest: Option<Number>,
    /// Largest outside diameter of a roll.
    pub largest: Option<Number>,
    /// The unit they were written in.
    pub unit: &'static Unit,
}

impl RailFacts {
    /// What the rail's own scale shows at the middle of a holder; none without a scale.
    pub fn on_scale(&self, position: Number) -> Option<Number> {
        let (at_datum, grows) = self.scale?;
        let middle = position.sub(self.rail.tip_offset).ok()?;
        match grows {
            Side::Right => at_datum.add(middle),
            Side::Left => at_datum.sub(middle),
        }
        .ok()
    }

    /// Whether a reading lies before the beginning of a scale that does not begin at the datum.
    pub fn is_off_scale(&self, reading: Number) -> bool {
        reading.is_negative() && self.scale.is_some_and(|(at_datum, _)| at_datum > Number::ZERO)
    }
}

impl Machine<'_> {
    /// The torque wrenches that tighten the screws of this machine.
    pub fn wrenches(&self) -> impl Iterator<Item = &Instrument> {
        let screws = self.file.body.fasteners.iter();
        screws.filter_map(|(_, screw)| self.instruments.get(screw.wrench.as_ref()?))
    }
}

impl Unwind {
    /// Says when a web is too wide or too narrow.
    pub(crate) fn takes(&self, findings: &mut Findings, at: &Place, web: Number) {
        if web > self.widest {
            findings.web_too_wide(at, &self.show(web), &self.show(self.widest));
        }
        if let Some(narrowest) = self.narrowest.filter(|narrowest| web < *narrowest) {
            findings.web_too_narrow(at, &self.show(web), &self.show(narrowest));
        }
    }

    /// A length in the unit of the unwind.
    pub(crate) fn show(&self, length: Number) -> String {
        let quantity = Quantity { amount: length, dimension: Dimension::LENGTH };
        Measure { quantity, unit: Some(self.unit) }.shortest(3)
    }
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
    /// Lanes the machine has, used or not.
    pub lanes_fitted: Option<u32>,
    /// What the rail's own scale shows at the datum, and towards which side its numbers grow.
    pub scale: Option<(Number, Side)>,
    /// Names of the obstacles of `rail`, in their order.
    pub obstacles: Vec<String>,
    /// Where it was written.
    pub place: Place,
}

/// Understands a machine.
pub fn machine<'a>(
    findings: &mut Findings,
    file: &'a Loaded<MachineFile>,
    hazards: &BTreeMap<String, model::Hazard>,
    language: Language,
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
    let unwind = reader.unwind();
    let fasteners = fasteners(reader.findings, file, &instruments, language);
    let mut in_text = BTreeMap::new();
    for fastener in &fasteners {
        facts.extend(fastener.facts());
        in_text.insert(format!("{}.torque", fastener.sheet.id), fastener.torque_in_text(language));
    }
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
        if let Some(clamp) = &entry.clamp {
            facts.extend(reader.clamp(&place, id, clamp, &fasteners));
            if let Some(screw) = fasteners.iter().find(|screw| screw.sheet.id == *clamp) {
                in_text.insert(format!("{id}.clamp_torque"), screw.torque_in_text(language));
            }
        }
        if let Some(rail) = reader.rail(&place, entry) {
            rails.insert(id.to_owned(), rail);
        }
    }
    reader.zones(hazards);
    let energy = energy::energy(reader.findings, file, &instruments, language, hazards);
    let inching = energy::inching(reader.findings, file);
    let inspection = energy::inspection(reader.findings, file);
    Machine {
        file,
        facts,
        instruments,
        in_text,
        fasteners,
        unwind,
        rails,
        energy,
        inching,
        inspection,
    }
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
            let same =
                |(other, own): (&str, &InstrumentEntry)| other != id && own.name == entry.name;
            if self.file.body.instruments.iter().any(same) {
                self.findings.same_name(&at.at("name"), &entry.name);
            }
            if let Some(instrument) = instrument(self.findings, &at, id, entry) {
                instruments.insert(id.to_owned(), instrument);
            }
        }
        instruments
    }

    /// The screw that clamps a rail's holders, as facts of the rail: `hex_key` and `clamp_torque`.
    fn clamp(
        &mut self,
        at: &Place,
        rail: &str,
        clamp: &str,
        fasteners: &[Fastener],
    ) -> Vec<(String, Measure)> {
        let Some(fastener) = fasteners.iter().find(|fastener| fastener.sheet.id == clamp) else {
            if self.file.body.fasteners.get(clamp).is_none() {
                let known: Vec<&str> = self.file.body.fasteners.names().collect();
                self.findings.unknown_fastener(&at.at("clamp"), clamp, &known);
            }
            return Vec::new();
        };
        let own = [("hex_key", fastener.key), ("clamp_torque", Some(fastener.torque))];
        let mut facts = Vec::new();
        for (name, measure) in own {
            let Some(measure) = measure else { continue };
            if self.file.body.rails.get(rail).is_some_and(|rail| rail.facts.get(name).is_some()) {
                self.findings.name_twice(&at.at("facts").at(name).key(), name);
            }
            facts.push((format!("{rail}.{name}"), measure));
        }
        facts
    }

    fn unwind(&mut self) -> Option<Unwind> {
        let entry = self.file.body.unwind.as_ref()?;
        let at = self.file.place.at("unwind");
        let mut optional = |key: &str, text: &Option<String>| {
            let length = length(self.findings, &at.at(key), text.as_ref()?)?;
            Some(length.0)
        };
        let narrowest = optional("narrowest", &entry.narrowest);
        let largest = optional("largest", &entry.largest);
        let (widest, unit) = length(self.findings, &at.at("widest"), &entry.widest)?;
        Some(Unwind { widest, narrowest, largest, unit })
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
                self.findings.not_positive(&at.at(key), &Words::of("positive-length"));
            }
        }
        if pitch.flatten().is_some_and(|(pitch, _)| pitch <= Number::ZERO) {
            self.findings.not_positive(&at.at("lane_pitch"), &Words::of("positive-length"));
        }
        if spacing < width {
            self.findings.spacing_below_width(&at.at("spacing"), &entry.holder_width);
        }
        let fitted = entry.lanes_fitted.as_ref();
        let fitted = fitted.and_then(|text| count(self.findings, &at.at("lanes_fitted"), text));
        if fitted == Some(0) {
            self.findings.not_positive(&at.at("lanes_fitted"), &Words::of("positive-count"));
        }
        let offset = entry.tip_offset.as_ref();
        let offset = offset.and_then(|text| length(self.findings, &at.at("tip_offset"), text));
        let scale = entry.scale.as_ref().and_then(|scale| {
            let at = at.at("scale").at("at_datum");
            Some((length(self.findings, &at, &scale.at_datum)?.0, scale.grows))
        });
        let rail = Rail {
            left_end: left.neg(),
            right_end: right,
            holders: holders?,
            holder_width: width,
            spacing,
            obstacles: self.obstacles(at, entry),
            tip_offset: offset.map_or(Number::ZERO, |(offset, _)| offset),
            spares: match entry.spares {
                SparesWord::Parked => Spares::Parked,
                SparesWord::Off => Spares::Off,
            },
        };
        Some(RailFacts {
            name: entry.name.clone(),
            zone: entry.zone.clone(),
            rail,
            unit,
            lane_pitch: pitch.flatten().map(|(pitch, _)| pitch),
            lanes_fitted: fitted,
            scale,
            obstacles: entry.obstacles.iter().map(|obstacle| obstacle.name.clone()).collect(),
            place: at.clone(),
        })
    }

    /// What stands fixed on a rail; an obstacle that cannot be understood leaves the others.
    fn obstacles(&mut self, at: &Place, entry: &RailEntry) -> Vec<Obstacle> {
        let mut obstacles = Vec::new();
        for (index, obstacle) in entry.obstacles.iter().enumerate() {
            let at = at.at("obstacles").item(index);
            let left = length(self.findings, &at.at("from"), &obstacle.from);
            let right = length(self.findings, &at.at("to"), &obstacle.to);
            if let (Some((left, _)), Some((right, _))) = (left, right) {
                if left > right {
                    self.findings.ends_swapped(&at.at("to"));
                }
                obstacles.push(Obstacle { left: left.min(right), right: left.max(right) });
            }
        }
        obstacles
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
            known_hazards(self.findings, &at.at("hazards"), &zone.hazards, hazards);
            if zone.hazards.is_empty() {
                self.findings.zone_without_hazard(&at.key(), id);
            }
            if zone.sources.is_empty() {
                self.findings.zone_without_source(&at.key(), id);
            }
        }
    }
}

/// Says which of the named hazards nobody described.
pub(super) fn known_hazards(
    findings: &mut Findings,
    at: &Place,
    named: &[String],
    known: &BTreeMap<String, model::Hazard>,
) {
    for (index, hazard) in named.iter().enumerate() {
        if !known.contains_key(hazard) {
            let known: Vec<&String> = known.keys().collect();
            findings.unknown_hazard(&at.item(index), hazard, &known);
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
pub(crate) fn length(
    findings: &mut Findings,
    at: &Place,
    text: &str,
) -> Option<(Number, &'static Unit)> {
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
pub(crate) fn count(findings: &mut Findings, at: &Place, text: &str) -> Option<u32> {
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
    let day = day_of(text);
    if day.is_none() {
        findings.bad_day(at, text);
    }
    day
}

/// A day, `YYYY-MM-DD` and nothing else.
pub fn day_of(text: &str) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()?;
    (text.len() == 10 && day.format("%Y-%m-%d").to_string() == text).then_some(day)
}

/// A day and a time of it, `YYYY-MM-DDThh:mm` and nothing else.
pub fn minute_of(text: &str) -> Option<NaiveDateTime> {
    let minute = NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M").ok()?;
    (minute.format("%Y-%m-%dT%H:%M").to_string() == text).then_some(minute)
}

/// A name that may stand in a formula, 64 letters at most.
pub fn is_name(text: &str) -> bool {
    text.len() <= 64 && formula::is_name(text)
}
