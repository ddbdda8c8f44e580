//! One recipe on one machine: every setting with its working, every position on every rail.
//!
//! What the job before left behind does not matter here; `changes` compares two of these.

use std::collections::BTreeMap;

use super::model::{Change, RecipeFacts, Setting, Working};
use super::positions::{Positions, layout_formulas, layout_name, positions};
use crate::finding::{Findings, Place};
use crate::formula::{Evaluated, Formula, Sheet, SheetError, Value};
use crate::plant::load::Loaded;
use crate::plant::machine::{self, Instrument, Machine, is_name};
use crate::plant::shape::{Each, RecipeFile, SettingEntry};
use crate::quantity::{
    Dimension, Limits, Measure, NotSettled, Quantity, Tolerance, Unit, inward, places_of, printed,
    settle,
};

/// Decimals of a computed value that no instrument shows.
const PLACES: u32 = 4;

/// A recipe computed for a machine.
#[derive(Debug, Clone)]
pub struct Computed {
    /// Name and revision.
    pub recipe: RecipeFacts,
    /// Settings in the order of the recipe; none of them compared with anything yet.
    pub settings: Vec<Setting>,
    /// What each setting is, rounded to its instrument, and its decimals.
    pub targets: BTreeMap<String, (Quantity, u32)>,
    /// Positions by rail.
    pub rails: BTreeMap<String, Positions>,
    /// Inputs and facts as people wrote them, by name.
    pub written: BTreeMap<String, String>,
}

/// Computes a recipe for a machine.
pub fn compute(
    findings: &mut Findings,
    machine: &Machine,
    recipe: &Loaded<RecipeFile>,
) -> Computed {
    let body = &recipe.body;
    let mut computer = Computer { findings, machine, at: &recipe.place };
    let (sheet, written) = computer.sheet(body);
    let solved = sheet.solve();
    computer.report(body, &solved);
    let mut settings = Vec::new();
    let mut targets = BTreeMap::new();
    for (id, entry) in body.settings.iter() {
        let Some(Ok(evaluated)) = solved.get(id) else { continue };
        if let Some((setting, target)) = computer.setting(id, entry, evaluated) {
            targets.insert(id.to_owned(), target);
            settings.push(setting);
        }
    }
    let mut rails = BTreeMap::new();
    for (id, entry) in body.layouts.iter() {
        if let Some(positions) = positions(&mut computer, id, entry, &solved) {
            rails.insert(id.to_owned(), positions);
        }
    }
    computer.first_piece(body, &settings);
    let recipe = RecipeFacts {
        id: body.id.clone(),
        name: body.name.clone(),
        revision: body.revision.clone(),
    };
    Computed { recipe, settings, targets, rails, written }
}

pub(super) type Solved = BTreeMap<String, Result<Evaluated, SheetError>>;

/// A recipe being computed.
pub(super) struct Computer<'f, 'm> {
    /// What is wrong with it.
    pub(super) findings: &'f mut Findings,
    /// The machine.
    pub(super) machine: &'m Machine<'m>,
    /// The recipe's file.
    pub(super) at: &'m Place,
}

impl<'m> Computer<'_, 'm> {
    /// Everything that has a name or a formula.
    fn sheet(&mut self, body: &RecipeFile) -> (Sheet, BTreeMap<String, String>) {
        let mut written = self.facts_as_written();
        let givens = self.machine.facts.clone();
        let unreadable =
            written.keys().filter(|name| !givens.contains_key(*name)).cloned().collect();
        let mut sheet = Sheet { givens, unreadable, ..Sheet::default() };
        for (name, text) in body.inputs.iter() {
            let at = self.at.at("inputs").at(name);
            self.name(&at, name);
            if let Some(measure) = machine::measure(self.findings, &at, text) {
                sheet.givens.insert(name.to_owned(), measure);
            } else {
                sheet.unreadable.insert(name.to_owned());
            }
            written.insert(name.to_owned(), text.clone());
        }
        for (id, entry) in body.settings.iter() {
            let at = self.at.at("settings").at(id);
            self.name(&at, id);
            if body.inputs.get(id).is_some() {
                self.findings.name_twice(&at.key(), id);
            }
            self.formula(&mut sheet, &at.at("formula"), id.to_owned(), &entry.formula);
        }
        for (rail, entry) in body.layouts.iter() {
            let at = self.at.at("layouts").at(rail);
            for (kind, key, text) in layout_formulas(entry) {
                let at = at.at(kind).at(key);
                self.formula(&mut sheet, &at, layout_name(rail, key), text);
            }
        }
        (sheet, written)
    }

    fn facts_as_written(&self) -> BTreeMap<String, String> {
        let body = &self.machine.file.body;
        let facts = body.facts.iter().map(|(name, text)| (format!("machine.{name}"), text.clone()));
        let rails = body.rails.iter().flat_map(|(rail, entry)| {
            entry.facts.iter().map(move |(name, text)| (format!("{rail}.{name}"), text.clone()))
        });
        facts.chain(rails).collect()
    }

    fn name(&mut self, at: &Place, name: &str) {
        if !is_name(name) {
            self.findings.bad_name(&at.key(), name);
        }
    }

    fn formula(&mut self, sheet: &mut Sheet, at: &Place, name: String, text: &str) {
        match Formula::parse(text) {
            Ok(formula) => {
                sheet.formulas.insert(name, formula);
            }
            Err(error) => {
                let at = at.within(error.range.clone());
                self.findings.bad_formula(&at, &error.to_string(), error.wrong.way_out());
                sheet.unreadable.insert(name);
            }
        }
    }

    /// Says what is wrong with formulas; a formula that only depends on a wrong one is not wrong.
    fn report(&mut self, body: &RecipeFile, solved: &Solved) {
        let places = body
            .settings
            .iter()
            .map(|(id, _)| (id.to_owned(), self.at.at("settings").at(id).at("formula")))
            .chain(body.layouts.iter().flat_map(|(rail, entry)| {
                let at = self.at.at("layouts").at(rail);
                layout_formulas(entry)
                    .into_iter()
                    .map(move |(kind, key, _)| (layout_name(rail, key), at.at(kind).at(key)))
            }));
        for (name, at) in places {
            let Some(Err(error)) = solved.get(&name) else { continue };
            let at = match error {
                SheetError::Formula(wrong) => at.within(wrong.range.clone()),
                // A circle is one fault, whoever is in it.
                SheetError::Cycle(names) if names.first() == Some(&name) => at,
                SheetError::Cycle(_) | SheetError::DependsOn(_) | SheetError::Twice => continue,
            };
            self.findings.bad_formula(&at, &error.to_string(), error.way_out());
        }
    }

    fn setting(
        &mut self,
        id: &str,
        entry: &SettingEntry,
        evaluated: &Evaluated,
    ) -> Option<(Setting, (Quantity, u32))> {
        let at = self.at.at("settings").at(id);
        let exact = self.quantity(&at.at("formula"), evaluated)?;
        let unit = self.unit(&at, entry, exact)?;
        let instrument = self.instrument(&at, entry.instrument.as_ref());
        let limits = match &entry.tolerance {
            Some(text) => self.limits(&at.at("tolerance"), text, exact)?,
            None => Limits::NONE,
        };
        let (target, places) = self.settle(&at, exact, &limits, instrument, unit)?;
        let shown = match inward(&limits, unit, places) {
            Ok(shown) => shown,
            Err(error) => {
                self.cannot_settle(&at, error, instrument);
                return None;
            }
        };
        let number = |quantity: Quantity| quantity.in_unit(unit).ok();
        let setting = Setting {
            id: id.to_owned(),
            name: entry.name.clone(),
            unit: unit.map_or(String::new(), |unit| unit.symbol.to_owned()),
            target: printed(target, &limits, unit, places).ok()?,
            exact: number(exact)?.shortest(12),
            low: shown.low,
            high: shown.high,
            instrument: instrument.map(|instrument| instrument.facts.id.clone()),
            place: entry.place.clone(),
            was: None,
            change: Change::New,
            working: Working {
                formula: entry.formula.clone(),
                numbers: evaluated.numbers.clone(),
                result: short(exact, unit),
            },
            source: entry.source.clone(),
        };
        Some((setting, (target, places)))
    }

    pub(super) fn quantity(&mut self, at: &Place, evaluated: &Evaluated) -> Option<Quantity> {
        match &evaluated.value {
            Value::Measure(measure) => Some(measure.quantity),
            Value::Truth(_) => {
                self.findings.truth_is_no_setting(at);
                None
            }
        }
    }

    /// The unit a setting is shown in; `Some(None)` for a count.
    fn unit(
        &mut self,
        at: &Place,
        entry: &SettingEntry,
        value: Quantity,
    ) -> Option<Option<&'static Unit>> {
        let unit = if entry.unit.is_empty() {
            None
        } else if let Some(unit) = Unit::find(&entry.unit) {
            Some(unit)
        } else {
            self.findings.unknown_unit(&at.at("unit"), &entry.unit);
            return None;
        };
        if value.in_unit(unit).is_err() {
            let wanted = unit.map_or(Dimension::NONE, |unit| unit.dimension);
            self.findings.wrong_dimension(&at.at("formula"), value.dimension, wanted);
            return None;
        }
        Some(unit)
    }

    pub(super) fn instrument(&mut self, at: &Place, id: Option<&String>) -> Option<&'m Instrument> {
        let id = id?;
        let found = self.machine.instruments.get(id);
        if found.is_none() && self.machine.file.body.instruments.get(id).is_none() {
            let known: Vec<&String> = self.machine.instruments.keys().collect();
            self.findings.unknown_instrument(&at.at("instrument"), id, &known);
        }
        found
    }

    fn limits(&mut self, at: &Place, text: &str, target: Quantity) -> Option<Limits> {
        let tolerance = self.tolerance(at, text)?;
        match tolerance.limits(target) {
            Ok(limits) => Some(limits),
            Err(_) => {
                let found = tolerance.upper.dimension;
                self.findings.wrong_dimension(at, found, target.dimension);
                None
            }
        }
    }

    pub(super) fn tolerance(&mut self, at: &Place, text: &str) -> Option<Tolerance> {
        match Tolerance::parse(text) {
            Ok(tolerance) => Some(tolerance),
            Err(error) => {
                self.findings.bad_quantity(&at.within(error.range.clone()), &error);
                None
            }
        }
    }

    /// The target as its instrument shows it, and the decimals to print.
    fn settle(
        &mut self,
        at: &Place,
        exact: Quantity,
        limits: &Limits,
        instrument: Option<&Instrument>,
        unit: Option<&Unit>,
    ) -> Option<(Quantity, u32)> {
        let Some(instrument) = instrument else {
            let number = exact.in_unit(unit).ok()?;
            return Some((exact, number.exact_places(PLACES).unwrap_or(PLACES)));
        };
        let resolution = &instrument.resolution;
        let settled = settle(exact, limits, resolution)
            .and_then(|settled| Ok((settled.value, places_of(resolution, unit)?)));
        match settled {
            Ok(settled) => Some(settled),
            Err(error) => {
                self.cannot_settle(at, error, Some(instrument));
                None
            }
        }
    }

    fn cannot_settle(&mut self, at: &Place, error: NotSettled, instrument: Option<&Instrument>) {
        let name = instrument.map_or("the instrument", |instrument| &instrument.facts.name);
        let step = instrument.map_or("", |instrument| &instrument.facts.resolution);
        match error {
            NotSettled::TooCoarse => {
                self.findings.instrument_too_coarse(&at.at("instrument"), name, step);
            }
            NotSettled::NoStep | NotSettled::Quantity(_) => {
                let words = format!("{name} ({step}) does not fit: {error}");
                self.findings.instrument_does_not_fit(&at.at("instrument"), &words);
            }
        }
    }

    fn first_piece(&mut self, body: &RecipeFile, settings: &[Setting]) {
        for (index, entry) in body.first_piece.iter().enumerate() {
            let at = self.at.at("first_piece").item(index);
            match settings.iter().find(|setting| setting.id == entry.of) {
                Some(setting) if setting.low.is_none() && setting.high.is_none() => {
                    self.findings.no_limits(&at.at("of"));
                }
                Some(_) => {}
                None if body.settings.get(&entry.of).is_some() => {}
                None => {
                    let known: Vec<&str> = body.settings.names().collect();
                    self.findings.unknown_reading(&at.at("of"), &entry.of, &known);
                }
            }
            self.instrument(&at, entry.instrument.as_ref());
            let has_lanes = body.layouts.iter().any(|(_, layout)| layout.knives.is_some());
            if entry.each == Each::Lane && !has_lanes {
                self.findings.no_lanes(&at.at("each"));
            }
        }
    }
}

/// A quantity with as few decimals as show it, six at most.
pub(super) fn short(quantity: Quantity, unit: Option<&'static Unit>) -> String {
    Measure { quantity, unit }.shortest(6)
}
