//! Screws of a machine: key, torque and wrench, the maker's figure before any computed one.

use std::collections::BTreeMap;

use super::instrument::{ErrorLimit, Instrument};
use super::load::Loaded;
use super::machine::{is_name, measure};
use super::shape::{FastenerEntry, Head, MachineFile};
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::packet::model;
use crate::quantity::{Dimension, Limits, Measure, Number, Quantity, Rounding, Unit, settle};
use crate::trade::screws::{self, Class, Joint, Screw, USUAL_NUT_FACTOR};
use crate::trade::wrench::{NoWrench, wrench_fits};

/// Steps of a computed torque when no wrench is named: 0.1 N·m.
const STEP: Number = Number::constant(100_000, 1);

/// Nut factors of any friction there is: 0.12 with anti-seize to 0.25 dry, and something around it.
/// Source: a design text after Shigley and Machinery's Handbook; the margin is ours.
const LEAST_NUT_FACTOR: Number = Number::constant(8, 100);
const MOST_NUT_FACTOR: Number = Number::constant(35, 100);

/// How far the nearest step of a wrench may lie from a stated torque.
const NEAR: Number = Number::constant(2, 100);

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

    /// The torque as text says it: a computed one never stands without its warning.
    pub fn torque_in_text(&self, language: Language) -> String {
        let torque = language.decimals(&self.torque.to_string());
        match self.sheet.basis.as_str() {
            "computed" => language.text("lines-torque-computed", &[("torque", torque.into())]),
            _ => torque,
        }
    }
}

/// Reads the screws of a machine; one that cannot be understood leaves the others.
pub(super) fn fasteners(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
    instruments: &BTreeMap<String, Instrument>,
    language: Language,
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
        let mut reader = Reader { findings, at: &at, entry, file, instruments, language };
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
    language: Language,
}

impl<'a> Reader<'a, '_> {
    fn fastener(&mut self, id: &str) -> Option<Fastener> {
        let joint = self.joint()?;
        let wrench = self.wrench();
        if self.entry.wrench.is_some() && wrench.is_none() {
            return None;
        }
        let (torque, basis, mut notes) = match &self.entry.torque {
            Some(text) => {
                let stated = self.torque(text)?;
                let mut notes = self.compared(&joint, stated);
                let torque = match wrench {
                    Some(wrench) => self.settled(stated, wrench)?,
                    None => stated,
                };
                if torque.quantity != stated.quantity {
                    let [stated, torque] =
                        [stated, torque].map(|one| self.said(&one.to_string()).into());
                    let parts = [("stated", stated), ("torque", torque)];
                    notes.push(self.language.text("lines-nearest-step", &parts));
                }
                (torque, "stated", notes)
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
        if self.entry.head != Head::Socket {
            notes.push(self.language.word("lines-low-head").to_owned());
        }
        let measure = |quantity, symbol| Measure { quantity, unit: Unit::find(symbol) };
        let key = key.map(|key| measure(key, "mm"));
        let proof = measure(joint.screw.proof_load(joint.class), "kN");
        let area = measure(joint.screw.stress_area(), "mm²");
        let sheet = model::Fastener {
            id: id.to_owned(),
            name: self.entry.name.clone(),
            thread: self.language.text(
                "lines-class",
                &[
                    ("screw", joint.screw.to_string().into()),
                    ("class", joint.class.to_string().into()),
                ],
            ),
            key: key.map_or(String::new(), |key| key.to_string()),
            torque: torque.to_string(),
            basis: basis.to_owned(),
            source: self.source(&joint),
            proof_load: self.language.text(
                "lines-proof-load",
                &[
                    ("force", self.said(&proof.to_string()).into()),
                    ("area", self.said(&area.to_string()).into()),
                ],
            ),
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
        if joint.nut_factor < LEAST_NUT_FACTOR || joint.nut_factor > MOST_NUT_FACTOR {
            self.findings.bad_nut_factor(&self.at.at("nut_factor"));
            return None;
        }
        Some(joint)
    }

    fn wrench(&mut self) -> Option<&'a Instrument> {
        let id = self.entry.wrench.as_ref()?;
        let at = self.at.at("wrench");
        let instruments = self.instruments;
        let Some(wrench) = instruments.get(id) else {
            if self.file.body.instruments.get(id).is_none() {
                let known: Vec<&String> = instruments.keys().collect();
                self.findings.unknown_instrument(&at, id, &known);
            }
            return None;
        };
        if wrench.resolution.quantity.dimension == Dimension::TORQUE {
            return Some(wrench);
        }
        let (name, resolution) = (&wrench.facts.name, &wrench.facts.resolution);
        let parts = [("name", name.into()), ("resolution", resolution.into())];
        let words = Words::new("instrument-no-wrench", &parts);
        self.findings.instrument_does_not_fit(&at, &words);
        None
    }

    fn torque(&mut self, text: &str) -> Option<Measure> {
        let at = self.at.at("torque");
        let torque = measure(self.findings, &at, text)?;
        if torque.quantity.dimension != Dimension::TORQUE {
            self.findings.wrong_dimension(&at, torque.quantity.dimension, Dimension::TORQUE);
            return None;
        }
        if torque.quantity.amount <= Number::ZERO {
            self.findings.not_positive(&at, &Words::of("positive-torque"));
            return None;
        }
        Some(torque)
    }

    /// The computed torque, rounded down to what the wrench shows: a first guess is never made higher.
    fn computed(&mut self, joint: &Joint, wrench: Option<&Instrument>) -> Option<Measure> {
        let exact = joint.torque().ok()?;
        let newton_metre = Unit::find("N·m");
        let step = Quantity { amount: STEP, dimension: Dimension::TORQUE };
        let fine = Measure { quantity: step, unit: newton_metre };
        let step = wrench.map_or(fine, |wrench| wrench.resolution);
        let amount = exact.amount.round_to_step(step.quantity.amount, Rounding::Down).ok()?;
        let quantity = Quantity { amount, dimension: Dimension::TORQUE };
        let torque = Measure { quantity, unit: step.unit.or(newton_metre) };
        if let (true, Some(wrench)) = (amount.is_zero(), wrench) {
            let (name, step) = (&wrench.facts.name, &wrench.facts.resolution);
            self.findings.between_wrench_steps(
                &self.at.at("wrench"),
                name,
                &torque.to_string(),
                step,
            );
            return None;
        }
        Some(torque)
    }

    /// A stated torque as the wrench can be set to it: the nearest step, when it is near enough.
    fn settled(&mut self, torque: Measure, wrench: &Instrument) -> Option<Measure> {
        let settled = settle(torque.quantity, &Limits::NONE, &wrench.resolution).ok()?;
        let nearest = Measure { quantity: settled.value, unit: wrench.resolution.unit };
        let off = settled.value.sub(torque.quantity).ok()?.div(torque.quantity).ok()?.amount.abs();
        if off > NEAR {
            let (name, torque) = (&wrench.facts.name, torque.to_string());
            let at = self.at.at("wrench");
            self.findings.between_wrench_steps(&at, name, &torque, &nearest.to_string());
            return None;
        }
        Some(if settled.rounded { nearest } else { torque })
    }

    /// What the sheet says about a stated torque beside the computed one; more than the class bears is
    /// an error.
    fn compared(&mut self, joint: &Joint, torque: Measure) -> Vec<String> {
        let Ok(comparison) = joint.compare(torque.quantity) else { return Vec::new() };
        if comparison.above_class {
            let (screw, class) = (joint.screw.to_string(), joint.class.to_string());
            let parts = [("screw", screw.into()), ("class", class.into())];
            let screw = Words::new("screw-of-class", &parts);
            self.findings.torque_above_class(&self.at.at("torque"), &torque.to_string(), &screw);
        }
        if comparison.deviation.abs() <= FAR {
            return Vec::new();
        }
        let computed = Measure { quantity: comparison.computed, unit: torque.unit };
        let parts = [("torque", self.said(&computed.shortest(1)).into())];
        vec![match comparison.deviation.is_negative() {
            true => self.language.text("lines-torque-below", &parts),
            false => self.language.text("lines-torque-above", &parts),
        }]
    }

    /// Says what the wrench delivers; a torque it cannot be set to is an error.
    fn delivered(&mut self, wrench: &Instrument, torque: Measure) -> Option<String> {
        let at = self.at.at("wrench");
        let name = &wrench.facts.name;
        let show = |quantity| Measure { quantity, unit: torque.unit }.shortest(2);
        if let Some(range) = wrench.range.as_ref().filter(|range| range.high.is_some()) {
            let low = range.low.unwrap_or(Quantity { amount: Number::ZERO, ..torque.quantity });
            let refused = wrench_fits(low, range.high?, torque.quantity).err();
            if let Some(NoWrench::NotInRange { least, most }) = refused {
                let parts = [("low", show(least).into()), ("high", show(most).into())];
                let range = Words::new("range-from-to", &parts);
                self.findings.wrench_out_of_range(&at, name, &range, &torque.to_string());
                return None;
            }
        }
        let Some(error) = wrench.error else {
            return Some(self.language.text("lines-no-error", &[("name", name.into())]));
        };
        let off = error.at(torque.quantity).ok()?;
        let (low, high) = (torque.quantity.sub(off).ok()?, torque.quantity.add(off).ok()?);
        let standard = if error == ErrorLimit::Wrench { " (ISO 6789)" } else { "" };
        let [low, high] = [low, high].map(|end| self.said(&show(end)).into());
        let parts = [("name", name.into()), ("low", low), ("high", high)];
        Some(self.language.text("lines-delivers", &parts) + standard)
    }

    /// Numbers as the language writes them.
    fn said(&self, text: &str) -> String {
        self.language.decimals(text)
    }

    fn source(&self, joint: &Joint) -> String {
        let stated = self.entry.torque.is_some();
        match (stated, self.entry.source.is_empty()) {
            (true, false) => self.entry.source.clone(),
            (true, true) => self.language.word("lines-stated").to_owned(),
            (false, _) => computed_from(self.language, joint),
        }
    }
}

/// How a torque was computed, with its numbers.
fn computed_from(language: Language, joint: &Joint) -> String {
    let said = |text: String| language.decimals(&text).into();
    let in_unit = |quantity: Quantity, symbol| {
        said(Measure { quantity, unit: Unit::find(symbol) }.shortest(3))
    };
    let exact = joint.torque().map_or("".into(), |torque| in_unit(torque, "N·m"));
    let dry = match joint.nut_factor == USUAL_NUT_FACTOR {
        true => format!(" {}", language.word("lines-dry")),
        false => String::new(),
    };
    let parts = [
        ("nut", said(joint.nut_factor.to_string())),
        ("share", said(joint.share.to_string())),
        ("stress", in_unit(joint.screw.proof_stress(joint.class), "MPa")),
        ("area", in_unit(joint.screw.stress_area(), "mm²")),
        ("diameter", in_unit(joint.screw.diameter(), "mm")),
        ("torque", exact),
        ("dry", dry.into()),
    ];
    language.text("lines-torque-from", &parts)
}
