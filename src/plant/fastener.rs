//! Screws of a machine: key, torque and wrench, the maker's figure before any computed one.

use std::collections::BTreeMap;

use super::instrument::{ErrorLimit, Instrument};
use super::load::Loaded;
use super::machine::{is_name, measure};
use super::shape::{FastenerEntry, Head, MachineFile};
use crate::finding::{Findings, Place};
use crate::packet::model;
use crate::quantity::{Dimension, Limits, Measure, Number, Quantity, Unit, settle};
use crate::trade::screws::{self, Class, Joint, Screw, USUAL_NUT_FACTOR};
use crate::trade::wrench::{NoWrench, wrench_fits};

/// Steps of a computed torque when no wrench is named: 0.1 N·m.
const STEP: Number = Number::constant(100_000, 1);

/// How far a stated torque may lie from the computed one before the sheet says so.
const FAR: Number = Number::constant(25, 100);

/// A screw understood.
#[derive(Debug, Clone)]
pub struct Fastener {
    /// For the sheet.
    pub sheet: model::Fastener,
    /// Tightening torque.
    pub torque: Measure,
    /// Hexagon key, where one is known.
    pub key: Option<Measure>,
}

impl Fastener {
    /// `<id>.torque` and `<id>.key`, for formulas and text.
    pub fn facts(&self) -> Vec<(String, Measure)> {
        let id = &self.sheet.id;
        let key = self.key.map(|key| (format!("{id}.key"), key));
        key.into_iter().chain([(format!("{id}.torque"), self.torque)]).collect()
    }
}

/// Reads the screws of a machine; one that cannot be understood leaves the others.
pub(super) fn fasteners(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
    instruments: &BTreeMap<String, Instrument>,
) -> Vec<Fastener> {
    let at = file.place.at("fasteners");
    let mut fasteners = Vec::new();
    for (id, entry) in file.body.fasteners.iter() {
        let at = at.at(id);
        if !is_name(id) {
            findings.bad_name(&at.key(), id);
        }
        if file.body.rails.get(id).is_some() {
            findings.name_twice(&at.key(), id);
        }
        let mut reader = Reader { findings, at: &at, entry, file, instruments };
        fasteners.extend(reader.fastener(id));
    }
    fasteners
}

struct Reader<'a, 'f> {
    findings: &'f mut Findings,
    at: &'a Place,
    entry: &'a FastenerEntry,
    file: &'a Loaded<MachineFile>,
    instruments: &'a BTreeMap<String, Instrument>,
}

impl<'a> Reader<'a, '_> {
    fn fastener(&mut self, id: &str) -> Option<Fastener> {
        let joint = self.joint()?;
        let wrench = self.wrench();
        let (torque, basis, mut notes) = match &self.entry.torque {
            Some(text) => {
                let torque = self.torque(text)?;
                (torque, "stated", self.compared(&joint, torque))
            }
            None => (self.computed(&joint, wrench)?, "computed", Vec::new()),
        };
        if let Some(wrench) = wrench {
            notes.extend(self.delivered(wrench, torque));
        }
        let key = joint.screw.key(match self.entry.head {
            Head::Socket => screws::Head::SocketCap,
            Head::Button => screws::Head::Button,
            Head::Countersunk => screws::Head::Countersunk,
        });
        let measure = |quantity, symbol| Measure { quantity, unit: Unit::find(symbol) };
        let key = key.map(|key| measure(key, "mm"));
        let proof = measure(joint.screw.proof_load(joint.class), "kN");
        let area = measure(joint.screw.stress_area(), "mm²");
        let sheet = model::Fastener {
            id: id.to_owned(),
            name: self.entry.name.clone(),
            thread: format!("{}, class {}", joint.screw, joint.class),
            key: key.map_or(String::new(), |key| key.to_string()),
            torque: torque.to_string(),
            basis: basis.to_owned(),
            source: self.source(&joint),
            proof_load: format!("{proof} on {area}"),
            wrench: wrench.map_or(String::new(), |wrench| wrench.facts.name.clone()),
            notes,
        };
        Some(Fastener { sheet, torque, key })
    }

    fn joint(&mut self) -> Option<Joint> {
        let screw = Screw::parse(self.entry.thread.trim());
        if screw.is_none() {
            self.findings.unknown_thread(&self.at.at("thread"), &self.entry.thread);
        }
        let class = Class::parse(self.entry.class.trim());
        if class.is_none() {
            self.findings.unknown_class(&self.at.at("class"), &self.entry.class);
        }
        let mut joint = Joint::usual(screw?, class?);
        if let Some(text) = &self.entry.nut_factor {
            let at = self.at.at("nut_factor");
            let factor = measure(self.findings, &at, text)?;
            if !factor.quantity.dimension.is_none() {
                self.findings.wrong_dimension(&at, factor.quantity.dimension, Dimension::NONE);
                return None;
            }
            joint.nut_factor = factor.quantity.amount;
        }
        if joint.nut_factor <= Number::ZERO {
            self.findings.not_positive(&self.at.at("nut_factor"), "a nut factor");
            return None;
        }
        Some(joint)
    }

    fn wrench(&mut self) -> Option<&'a Instrument> {
        let id = self.entry.wrench.as_ref()?;
        let instruments = self.instruments;
        let found = instruments.get(id);
        if found.is_none() && self.file.body.instruments.get(id).is_none() {
            let known: Vec<&String> = self.instruments.keys().collect();
            self.findings.unknown_instrument(&self.at.at("wrench"), id, &known);
        }
        found
    }

    fn torque(&mut self, text: &str) -> Option<Measure> {
        let at = self.at.at("torque");
        let torque = measure(self.findings, &at, text)?;
        if torque.quantity.dimension != Dimension::TORQUE {
            self.findings.wrong_dimension(&at, torque.quantity.dimension, Dimension::TORQUE);
            return None;
        }
        if torque.quantity.amount <= Number::ZERO {
            self.findings.not_positive(&at, "a torque");
            return None;
        }
        Some(torque)
    }

    /// The computed torque, rounded to what the wrench shows.
    fn computed(&mut self, joint: &Joint, wrench: Option<&Instrument>) -> Option<Measure> {
        let exact = joint.torque().ok()?;
        let newton_metre = Unit::find("N·m");
        let step = Quantity { amount: STEP, dimension: Dimension::TORQUE };
        let fine = Measure { quantity: step, unit: newton_metre };
        let step = wrench.map_or(fine, |wrench| wrench.resolution);
        let settled = settle(exact, &Limits::NONE, &step).ok()?;
        Some(Measure { quantity: settled.value, unit: step.unit.or(newton_metre) })
    }

    /// What the sheet says about a stated torque beside the computed one; more than the class bears is
    /// an error.
    fn compared(&mut self, joint: &Joint, torque: Measure) -> Vec<String> {
        let Ok(comparison) = joint.compare(torque.quantity) else { return Vec::new() };
        if comparison.above_class {
            let class = format!("{}, class {}", joint.screw, joint.class);
            self.findings.torque_above_class(&self.at.at("torque"), &torque.to_string(), &class);
        }
        if comparison.deviation.abs() <= FAR {
            return Vec::new();
        }
        let computed = Measure { quantity: comparison.computed, unit: torque.unit };
        let way = if comparison.deviation.is_negative() { "below" } else { "above" };
        vec![format!(
            "stated torque lies well {way} the {} that class and nut factor give: ask the maker",
            computed.shortest(1)
        )]
    }

    /// Says what the wrench delivers; a torque it cannot be set to is an error.
    fn delivered(&mut self, wrench: &Instrument, torque: Measure) -> Option<String> {
        let at = self.at.at("wrench");
        let name = &wrench.facts.name;
        if wrench.resolution.quantity.dimension != Dimension::TORQUE {
            let words = format!("{name} ({}) is no torque wrench", wrench.facts.resolution);
            self.findings.instrument_does_not_fit(&at, &words);
            return None;
        }
        let settled = settle(torque.quantity, &Limits::NONE, &wrench.resolution).ok()?;
        if settled.rounded {
            self.findings.instrument_too_coarse(&at, name, &wrench.facts.resolution);
            return None;
        }
        let range = wrench.range.filter(|range| range.high.is_some());
        let (Some(ErrorLimit::Wrench), Some(range)) = (wrench.error, range) else { return None };
        let low = range.low.unwrap_or(Quantity { amount: Number::ZERO, ..torque.quantity });
        match wrench_fits(low, range.high?, torque.quantity) {
            Ok(delivered) => {
                let show = |end: Option<Quantity>| {
                    Some(Measure { quantity: end?, unit: torque.unit }.shortest(2))
                };
                let (low, high) = (show(delivered.limits.low)?, show(delivered.limits.high)?);
                Some(format!("{name} delivers {low} to {high} (ISO 6789)"))
            }
            Err(NoWrench::NotInRange { least, most }) => {
                let show = |quantity| Measure { quantity, unit: torque.unit }.shortest(2);
                let range = format!("{} to {}", show(least), show(most));
                self.findings.wrench_out_of_range(&at, name, &range, &torque.to_string());
                None
            }
            Err(NoWrench::Quantity(_)) => None,
        }
    }

    fn source(&self, joint: &Joint) -> String {
        let stated = self.entry.torque.is_some();
        match (stated, self.entry.source.is_empty()) {
            (true, false) => self.entry.source.clone(),
            (true, true) => "stated in the machine's file".to_owned(),
            (false, _) => format!(
                "0.75 of proof stress x stress area (ISO 898-1) x diameter x nut factor {}{}; a first guess: friction moves it",
                joint.nut_factor,
                if joint.nut_factor == USUAL_NUT_FACTOR { " (dry)" } else { "" },
            ),
        }
    }
}
