//! The energy of a machine understood: each source with how much it is, what holds it back, how what
//! it stores is let out, and how its zero is proved; and what else a lockout procedure must state.
//!
//! Sources of the rules: 29 CFR 1910.147, paragraphs beside each. Nothing in here can see whether the
//! list is right: somebody has to walk the machine.

use std::collections::BTreeMap;

use super::device::control_words;
use super::instrument::Instrument;
use super::load::Loaded;
use super::machine::{day, known_hazards, measure};
use super::shape::{
    EnergyEntry, InchingEntry, InspectionEntry, MachineFile, TouchEntry, ZeroEntry,
};
use super::waiting::waits;
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::packet::model::{self, EnergySource, HotPart, Inching, Inspection};
use crate::quantity::{Dimension, Measure, Number, Quantity, Unit};
use crate::trade::touch::{self, Cooling, NoTouch, Threshold, burn_threshold, minutes_to_cool};

/// The kind of energy that only electrically qualified people measure.
pub(crate) const ELECTRICAL: &str = "electrical";

/// Kinds of energy, 29 CFR 1910.147(b) and the machine builder's usual finer list.
pub(crate) const KINDS: [&str; 10] = [
    ELECTRICAL,
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
const MEASURED: [&str; 5] = [ELECTRICAL, "pneumatic", "hydraulic", "thermal", "vacuum"];

/// The voltage from which live parts must be dead before work.
///
/// Source: 29 CFR 1910.333(a)(1), from memory.
const HURTS: &str = "50 V";

/// Kinds that move or drop what is not in its stop position.
const MOVING: [&str; 3] = ["gravity", "spring", "mechanical"];

/// Devices that hold energy back by themselves, 29 CFR 1910.147(b): no push button, selector,
/// emergency stop, interlock or other control-circuit device.
pub(super) const DEVICES: [&str; 5] = ["disconnect", "breaker", "valve", "block", "plug"];

/// What the magnitude of a kind is, and its text with an example.
fn magnitude_of(kind: &str) -> (&'static [Dimension], &'static str) {
    match kind {
        ELECTRICAL => (&[Dimension::VOLTAGE], "magnitude-voltage"),
        "pneumatic" | "hydraulic" | "vacuum" => (&[Dimension::PRESSURE], "magnitude-pressure"),
        "thermal" => (&[Dimension::TEMPERATURE], "magnitude-temperature"),
        "gravity" => (&[Dimension::MASS, Dimension::FORCE], "magnitude-mass"),
        "spring" => (&[Dimension::FORCE, Dimension::LENGTH, Dimension::TORQUE], "magnitude-force"),
        "mechanical" => (
            &[Dimension::SPEED, Dimension::MASS, Dimension::TORQUE, Dimension::RATE],
            "magnitude-speed",
        ),
        _ => (&[], "magnitude-other"),
    }
}

/// Whether a magnitude of this dimension can belong to a kind.
fn fits(kind: &str, dimension: Dimension) -> bool {
    match magnitude_of(kind).0 {
        [] => !dimension.is_none(),
        dimensions => dimensions.contains(&dimension),
    }
}

/// The sources of a machine in the order of the file, as they stand on sheets.
pub(super) fn energy(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
    instruments: &BTreeMap<String, Instrument>,
    language: Language,
    hazards: &BTreeMap<String, model::Hazard>,
) -> Vec<EnergySource> {
    let mut sources = Vec::new();
    for (id, entry) in file.body.energy.iter() {
        let at = file.place.at("energy").at(id);
        let mut reader = Reader { findings, at: &at, entry, instruments, language };
        sources.push(reader.source(id));
        known_hazards(findings, &at.at("hazards"), &entry.hazards, hazards);
        reaches_somewhere(findings, file, &at, id);
        is_no_interlock(findings, file, &at, entry);
    }
    blocks_before_valves(findings, file);
    stop_position(findings, file);
    sources
}

/// One source that is read.
struct Reader<'a> {
    findings: &'a mut Findings,
    at: &'a Place,
    entry: &'a EnergyEntry,
    instruments: &'a BTreeMap<String, Instrument>,
    language: Language,
}

impl Reader<'_> {
    fn source(&mut self, id: &str) -> EnergySource {
        let entry = self.entry;
        self.device();
        self.texts();
        let magnitude = self.magnitude();
        self.zero(magnitude);
        self.zero_is_low(magnitude);
        EnergySource {
            id: id.to_owned(),
            name: entry.name.clone(),
            kind: entry.kind.clone(),
            magnitude: entry.magnitude.clone(),
            device: entry.device.clone(),
            place: entry.place.clone(),
            safe: entry.safe.clone(),
            lock: entry.lock.clone(),
            stored: entry.stored.clone(),
            relieve: entry.relieve.clone(),
            wait: self.wait(),
            prove: entry.prove.clone(),
            pairs: self.pairs(),
            zero: self.zero_in_words(),
            hot_parts: self.hot_parts(magnitude),
            returns: entry.returns,
            restore: entry.restore.clone(),
            hazards: entry.hazards.clone(),
        }
    }

    /// Only a device that holds energy back by itself is one to lock, 29 CFR 1910.147(b).
    fn device(&mut self) {
        let EnergyEntry { kind, device, device_type, .. } = self.entry;
        if !KINDS.contains(&kind.as_str()) {
            self.findings.unknown_energy_kind(&self.at.at("kind"), kind, &KINDS);
        }
        if !DEVICES.contains(&device_type.as_str()) {
            self.findings.not_isolating(&self.at.at("type"), device_type, &DEVICES);
        }
        if let Some(words) = control_words(device) {
            self.findings.control_device(
                &self.at.at("device"),
                device,
                &Words::foreign(words),
                &DEVICES,
            );
        }
    }

    fn texts(&mut self) {
        let entry = self.entry;
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
                self.findings.empty_text(&self.at.at(key), key);
            }
        }
        if entry.stored.trim() != "nothing" && entry.relieve.trim().is_empty() {
            self.findings.stored_not_relieved(&self.at.at("stored"), &entry.stored);
        }
        if entry.hazards.is_empty() {
            self.findings.source_without_hazard(&self.at.key(), &entry.name);
        }
    }

    /// How much it is: the first of the quantities, which must fit the kind, (d)(1).
    fn magnitude(&mut self) -> Option<Quantity> {
        let EnergyEntry { kind, magnitude, .. } = self.entry;
        let at = self.at.at("magnitude");
        if magnitude.trim().is_empty() || !KINDS.contains(&kind.as_str()) {
            return None;
        }
        let parts: Option<Vec<Measure>> =
            magnitude.split(", ").map(|part| Measure::parse(part.trim()).ok()).collect();
        let (_, wanted) = magnitude_of(kind);
        let Some(parts) = parts else {
            self.findings.magnitude_not_quantity(&at, magnitude, &Words::of(wanted));
            return None;
        };
        let first = parts.first()?.quantity;
        let all_with_unit = parts.iter().all(|part| !part.quantity.dimension.is_none());
        if !fits(kind, first.dimension) || !all_with_unit {
            self.findings.magnitude_does_not_fit(&at, magnitude, kind, &Words::of(wanted));
            return None;
        }
        // Cold is below zero °C, and a vacuum below the pressure of the air.
        if !["thermal", "vacuum"].contains(&kind.as_str()) && first.amount <= Number::ZERO {
            self.findings.not_positive(&at, &Words::of("positive-magnitude"));
            return None;
        }
        Some(first)
    }

    fn zero(&mut self, magnitude: Option<Quantity>) {
        let kind = self.entry.kind.as_str();
        let Some(zero) = &self.entry.zero else {
            match kind {
                ELECTRICAL => self.findings.voltage_not_measured(&self.at.key()),
                _ if MEASURED.contains(&kind) => {
                    self.findings.zero_not_measured(&self.at.key(), kind);
                }
                _ => {}
            }
            return;
        };
        let at = self.at.at("zero");
        match Unit::find(&zero.unit) {
            None => self.findings.unknown_unit(&at.at("unit"), &zero.unit),
            Some(unit) if MEASURED.contains(&kind) && !fits(kind, unit.dimension) => {
                let wanted = &Words::of(magnitude_of(kind).1);
                self.findings.zero_does_not_fit(&at.at("unit"), &zero.unit, kind, wanted);
            }
            Some(_) => self.instrument_fits(zero, &at.at("instrument"), magnitude),
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
        let instruments = self.instruments;
        if let Some(id) = zero.instrument.as_ref().filter(|id| !instruments.contains_key(*id)) {
            let known: Vec<&String> = instruments.keys().collect();
            self.findings.unknown_instrument(&at.at("instrument"), id, &known);
        }
    }

    /// A gauge in bar shows no volts, and a tester for 50 V must not meet 400 V.
    ///
    /// Source: 29 CFR 1910.334(c)(3), test equipment is rated for its circuits, from memory.
    fn instrument_fits(&mut self, zero: &ZeroEntry, at: &Place, live: Option<Quantity>) {
        let Some(instrument) = zero.instrument.as_ref().and_then(|id| self.instruments.get(id))
        else {
            return;
        };
        let name = &instrument.facts.name;
        let shows = instrument.resolution.quantity.dimension;
        if Unit::find(&zero.unit).is_some_and(|unit| unit.dimension != shows) {
            return self.findings.zero_not_shown(at, name, &zero.unit);
        }
        let highest = instrument.range.and_then(|range| range.high);
        let Some(live) = live else { return };
        let is_above = |other: Quantity| live.compare(other).is_ok_and(|than| than.is_gt());
        if highest.is_some_and(is_above) {
            self.findings.instrument_below_source(at, name, &self.entry.magnitude);
        }
        // One step of it would hide the live source.
        if self.entry.kind != "vacuum" && !is_above(instrument.resolution.quantity) {
            self.findings.zero_not_shown(at, name, &self.entry.magnitude);
        }
    }

    /// A zero that the live source would pass proves nothing.
    ///
    /// Source: 29 CFR 1910.147(d)(6).
    fn zero_is_low(&mut self, magnitude: Option<Quantity>) {
        let Some(zero) = self.entry.zero.as_ref().filter(|_| self.entry.kind != "vacuum") else {
            return;
        };
        let at = self.at.at("zero");
        if zero.high.is_none() && zero.low.is_some() {
            return self.findings.zero_without_high(&at);
        }
        let Some(high) = self.highest_zero() else { return };
        let reaches = |most: Quantity| high.compare(most).is_ok_and(|than| than.is_ge());
        let touchable = Measure::parse(HURTS).ok().filter(|_| self.entry.kind == ELECTRICAL);
        if magnitude.is_some_and(reaches) {
            self.findings.zero_too_high(&at.at("high"), &self.entry.magnitude);
        } else if touchable.is_some_and(|most| reaches(most.quantity)) {
            self.findings.zero_too_high(&at.at("high"), HURTS);
        }
    }

    /// `0 V, with Two-pole voltage tester`.
    fn zero_in_words(&self) -> String {
        let Some(zero) = self.entry.zero.as_ref().map(on_both_sides) else { return String::new() };
        let language = self.language;
        let limits = model::limits(language, zero.low.as_deref(), zero.high.as_deref());
        let limits = format!("{} {}", limits.unwrap_or_default(), zero.unit);
        let Some(instrument) = zero.instrument.as_ref().and_then(|id| self.instruments.get(id))
        else {
            return limits;
        };
        let name = instrument.facts.name.as_str().into();
        language.text("lines-zero-with", &[("limits", limits.into()), ("instrument", name)])
    }

    /// The least time to wait. A time that the text says has to be the same.
    fn wait(&mut self) -> String {
        let said = waits(&self.entry.relieve);
        let Some(text) = &self.entry.wait else {
            if let Some(said) = said {
                self.findings.wait_without_time(&self.at.at("relieve"), &said.shortest(3));
            }
            return String::new();
        };
        let at = self.at.at("wait");
        let Some(wait) = measure(self.findings, &at, text) else { return String::new() };
        let Quantity { amount, dimension } = wait.quantity;
        if dimension != Dimension::TIME {
            self.findings.wrong_dimension(&at, dimension, Dimension::TIME);
        } else if amount <= Number::ZERO {
            self.findings.not_positive(&at, &Words::of("positive-time"));
        } else if let Some(said) = said.filter(|said| said.quantity != wait.quantity) {
            self.findings.wait_differs(&at, text, &said.shortest(3));
        }
        text.clone()
    }

    /// The pairs a voltage is measured between: each two conductors, and each conductor to earth.
    ///
    /// Source: NFPA 70E article 120.5, step 7 (phase to phase and phase to earth).
    fn pairs(&mut self) -> Vec<String> {
        let EnergyEntry { kind, conductors, dc, zero, .. } = self.entry;
        let is_volt = |zero: &ZeroEntry| {
            Unit::find(&zero.unit).is_some_and(|unit| unit.dimension == Dimension::VOLTAGE)
        };
        if kind == ELECTRICAL && conductors.is_empty() && zero.as_ref().is_some_and(is_volt) {
            self.findings.no_conductors(&self.at.key(), &self.entry.name);
        }
        if let ([one], true) = (conductors.as_slice(), dc.trim().is_empty()) {
            let at = self.at.at("conductors").item(0);
            self.findings.bad_conductor(&at, one, &Words::of("conductor-alone"));
        }
        self.conductors();
        let language = self.language;
        let mut pairs = Vec::new();
        for (index, one) in conductors.iter().enumerate() {
            pairs.extend(conductors.iter().skip(index + 1).map(|other| {
                language.text("lines-pair", &[("one", one.into()), ("other", other.into())])
            }));
        }
        let to_earth = |one| language.text("lines-pair-earth", &[("one", one)]);
        pairs.extend(conductors.iter().map(|one| to_earth(one.into())));
        if !dc.trim().is_empty() {
            pairs.push(language.text("lines-pairs-dc", &[("where", dc.into())]));
        }
        pairs
    }

    fn conductors(&mut self) {
        let EnergyEntry { kind, conductors, dc, .. } = self.entry;
        if kind != ELECTRICAL && !(conductors.is_empty() && dc.is_empty()) {
            let key = if dc.is_empty() { "conductors" } else { "dc" };
            self.findings.bad_conductor(
                &self.at.at(key),
                kind,
                &Words::of("conductor-not-electrical"),
            );
        }
        for (index, one) in conductors.iter().enumerate() {
            let why = if one.trim().is_empty() {
                "conductor-without-name"
            } else if conductors.iter().take(index).any(|other| other == one) {
                "conductor-twice"
            } else if ["earth", "ground", "pe"].contains(&one.to_lowercase().as_str()) {
                "conductor-is-earth"
            } else {
                continue;
            };
            let at = self.at.at("conductors").item(index);
            self.findings.bad_conductor(&at, one, &Words::of(why));
        }
    }

    /// Hot parts, each with the threshold that holds for it.
    fn hot_parts(&mut self, magnitude: Option<Quantity>) -> Vec<HotPart> {
        let EnergyEntry { kind, touch, .. } = self.entry;
        if kind != "thermal" {
            if !touch.is_empty() {
                self.findings.touch_not_thermal(&self.at.at("touch"), kind);
            }
            return Vec::new();
        }
        let is_hot =
            |from: Quantity| from.compare(touch::NEVER_BURNS).is_ok_and(|than| than.is_ge());
        if touch.is_empty() && magnitude.is_some_and(is_hot) {
            self.findings.touch_missing(&self.at.key(), &self.entry.name, &self.entry.magnitude);
        }
        let parts = touch.iter().enumerate();
        parts.filter_map(|(index, part)| self.hot_part(index, part, magnitude)).collect()
    }

    fn hot_part(
        &mut self,
        index: usize,
        entry: &TouchEntry,
        magnitude: Option<Quantity>,
    ) -> Option<HotPart> {
        let at = self.at.at("touch").item(index);
        if entry.part.trim().is_empty() {
            self.findings.empty_text(&at.at("part"), "part");
        }
        let threshold = self.threshold(&at.at("lasts"), entry)?;
        let shown = threshold.temperature.show(Unit::find("°C"), 0).ok()?;
        let high = self.highest_zero();
        let safe =
            |high: Quantity| high.compare(threshold.temperature).is_ok_and(|than| than.is_le());
        if entry.gloves.trim().is_empty() && !high.is_some_and(safe) {
            self.findings.zero_above_touch(&at, entry, &shown, threshold.source);
        }
        Some(HotPart {
            part: entry.part.clone(),
            surface: entry.surface.words(self.language).to_owned(),
            lasts: entry.lasts.clone(),
            threshold: shown,
            source: threshold.source.to_owned(),
            gloves: entry.gloves.clone(),
            cooling: self.cooling(&at, entry, magnitude, high.unwrap_or(threshold.temperature)),
        })
    }

    fn threshold(&mut self, at: &Place, entry: &TouchEntry) -> Option<Threshold> {
        let lasts = measure(self.findings, at, &entry.lasts)?.quantity;
        match burn_threshold(entry.surface, lasts) {
            Ok(threshold) => return Some(threshold),
            Err(NoTouch::Quantity(_)) => {
                self.findings.wrong_dimension(at, lasts.dimension, Dimension::TIME);
            }
            Err(_) => self.findings.contact_too_short(at, &entry.lasts),
        }
        None
    }

    /// The most that the measured zero allows.
    fn highest_zero(&self) -> Option<Quantity> {
        let zero = self.entry.zero.as_ref()?;
        Quantity::of(Number::parse(zero.high.as_ref()?).ok()?, Unit::find(&zero.unit)).ok()
    }

    /// When a part will be cool enough to be read; empty when its file does not say how it cools.
    fn cooling(
        &mut self,
        at: &Place,
        entry: &TouchEntry,
        from: Option<Quantity>,
        to: Quantity,
    ) -> String {
        let (cools, air) = match (&entry.cools, &entry.air) {
            (Some(cools), Some(air)) => (cools, air),
            (Some(_), None) => {
                self.findings.missing_key(at, "air");
                return String::new();
            }
            (None, Some(_)) => {
                self.findings.missing_key(at, "cools");
                return String::new();
            }
            (None, None) => return String::new(),
        };
        let constant = measure(self.findings, &at.at("cools"), cools);
        let air = measure(self.findings, &at.at("air"), air);
        let (Some(constant), Some(air), Some(from)) = (constant, air, from) else {
            return String::new();
        };
        let (constant, air) = (constant.quantity, air.quantity);
        match minutes_to_cool(&Cooling { from, to, air, constant }) {
            Ok(minutes) => {
                let parts = [("minutes", minutes.to_string().into())];
                self.language.text("lines-cooling", &parts)
            }
            Err(no) => {
                self.findings.no_cooling(&at.at("cools"), &no.words());
                String::new()
            }
        }
    }
}

/// A source that reaches into no zone would be locked for nothing, or was forgotten in one.
fn reaches_somewhere(findings: &mut Findings, file: &Loaded<MachineFile>, at: &Place, id: &str) {
    let mut zones = file.body.zones.iter();
    if !zones.any(|(_, zone)| zone.sources.iter().any(|source| source == id)) {
        findings.source_in_no_zone(&at.key(), id);
    }
}

/// What the machine's own file calls an interlock isolates nothing, whatever its name.
fn is_no_interlock(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
    at: &Place,
    entry: &EnergyEntry,
) {
    let device = entry.device.as_str();
    let mut zones = file.body.zones.iter();
    let is_interlock = !device.is_empty() && zones.any(|(_, zone)| zone.interlock == device);
    if is_interlock && control_words(device).is_none() {
        let words = Words::of("control-is-interlock");
        findings.control_device(&at.at("device"), device, &words, &DEVICES);
    }
}

/// A load is held by its block before the air that carries it is let out.
///
/// Source: common practice, no source.
fn blocks_before_valves(findings: &mut Findings, file: &Loaded<MachineFile>) {
    let mut valve = None;
    for (id, entry) in file.body.energy.iter() {
        match entry.device_type.as_str() {
            "valve" => valve = Some(entry.name.as_str()),
            "block" => {
                if let Some(valve) = valve {
                    let at = file.place.at("energy").at(id);
                    findings.block_after_valve(&at.key(), &entry.name, valve);
                }
            }
            _ => {}
        }
    }
}

/// Where moving parts stand before isolation, so that the stop itself sets no trap.
///
/// Source: common practice (a member of the Z244 committee, in an interview).
fn stop_position(findings: &mut Findings, file: &Loaded<MachineFile>) {
    let mut sources = file.body.energy.iter();
    let moving = sources.find(|(_, entry)| MOVING.contains(&entry.kind.as_str()));
    if let Some((id, entry)) = moving.filter(|_| file.body.stop_position.trim().is_empty()) {
        let at = file.place.at("energy").at(id);
        findings.stop_position_missing(&at.key(), &entry.name);
    }
}

/// Powered movement with a guard open; none when the machine has none.
pub(super) fn inching(findings: &mut Findings, file: &Loaded<MachineFile>) -> Option<Inching> {
    let InchingEntry { sources, control, held, most } = file.body.inching.as_ref()?;
    let at = file.place.at("inching");
    if sources.is_empty() {
        findings.empty_text(&at.at("sources"), "sources");
    }
    for (index, source) in sources.iter().enumerate() {
        if file.body.energy.get(source).is_none() {
            let known: Vec<&str> = file.body.energy.names().collect();
            findings.unknown_source(&at.at("sources").item(index), source, &known);
        }
    }
    if control.trim().is_empty() {
        findings.empty_text(&at.at("control"), "control");
    }
    if held != "hold-to-run" {
        findings.not_hold_to_run(&at.at("held"), held);
    }
    inching_limit(findings, &at.at("most"), most);
    Some(Inching {
        sources: sources.clone(),
        control: control.clone(),
        held: held.clone(),
        most: most.clone(),
    })
}

/// At most 75 mm a press or 5 m/min while held.
///
/// Source: UK HSE, figures for limited powered movement on printing machinery; an analogy here. The
/// first choice is 25 mm a press or 1 m/min.
fn inching_limit(findings: &mut Findings, at: &Place, most: &str) {
    let Some(measure) = measure(findings, at, most) else { return };
    let Quantity { amount, dimension } = measure.quantity;
    let (limit, words) = match dimension {
        Dimension::LENGTH => ("75 mm", "inching-of-a-press"),
        Dimension::SPEED => ("5 m/min", "inching-while-held"),
        _ => return findings.inching_not_measured(at, most),
    };
    if amount <= Number::ZERO {
        findings.not_positive(at, &Words::of("positive-movement"));
    }
    if Measure::parse(limit).is_ok_and(|limit| amount > limit.quantity.amount) {
        findings.inching_too_far(at, most, &Words::new(words, &[("most", limit.into())]));
    }
}

/// The last periodic inspection that the machine's file names, 29 CFR 1910.147(c)(6)(i)-(ii).
pub(super) fn inspection(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
) -> Option<Inspection> {
    let InspectionEntry { date, inspector, people } = file.body.lockout_inspection.as_ref()?;
    let at = file.place.at("lockout_inspection");
    day(findings, &at.at("date"), date);
    if inspector.trim().is_empty() {
        findings.empty_text(&at.at("inspector"), "inspector");
    }
    if people.is_empty() {
        findings.empty_text(&at.at("people"), "people");
    }
    if let Some(index) = people.iter().position(|person| person == inspector) {
        findings.inspector_among_people(&at.at("people").item(index), inspector);
    }
    Some(Inspection { date: date.clone(), inspector: inspector.clone(), people: people.clone() })
}

/// A zero that says only how high it may be, with the same below: minus 60 V kills like 60 V, and a
/// gauge below zero shows a vacuum. A temperature has one side.
///
/// Source: common practice, no source.
pub fn on_both_sides(zero: &ZeroEntry) -> ZeroEntry {
    let is_point = Unit::find(&zero.unit).is_some_and(|unit| unit.dimension.is_point());
    let high = zero.high.as_ref().filter(|high| !is_point && !high.starts_with('-'));
    let below = high.map(|high| match Number::parse(high) {
        Ok(number) if number != Number::ZERO => format!("-{high}"),
        _ => high.clone(),
    });
    ZeroEntry { low: zero.low.clone().or(below), ..zero.clone() }
}

#[cfg(test)]
mod tests {
    use super::{ZeroEntry, on_both_sides};

    #[track_caller]
    fn check(unit: &str, low: Option<&str>, high: Option<&str>, expected: Option<&str>) {
        let (low, high) = (low.map(str::to_owned), high.map(str::to_owned));
        let zero = ZeroEntry { unit: unit.to_owned(), low, high, instrument: None };
        assert_eq!(on_both_sides(&zero).low.as_deref(), expected, "{zero:?}");
    }

    #[test]
    fn a_zero_is_no_negative_voltage_and_no_vacuum() {
        check("V", None, Some("0"), Some("0"));
        check("V", None, Some("5"), Some("-5"));
        check("bar", None, Some("0.1"), Some("-0.1"));
        check("bar", Some("-0.05"), Some("0"), Some("-0.05"));
        check("bar", Some("-0.05"), None, Some("-0.05"));
        check("bar", None, Some("-0.05"), None);
        check("°C", None, Some("48"), None);
    }
}
