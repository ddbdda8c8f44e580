//! One setting: from its exact value to what somebody sets with the named instrument.
//!
//! Rounds a target once, to the steps of the instrument and never past its limits, and says what the
//! reader must know: a coarse instrument, a target that was rounded far.

use super::compute::{Computer, short};
use super::contents::Contents;
use super::model::{Change, Setting, Working};
use crate::finding::Place;
use crate::formula::Evaluated;
use crate::language::{Language, Words};
use crate::plant::instrument::Instrument;
use crate::plant::shape::{Judging, SettingEntry};
use crate::quantity::{
    Allowed, Dimension, Limits, Measure, NotAllowed, NotSettled, Number, PrintedLimits, Quantity,
    Unit, Verdict, beside, beside_limits, discrimination, inward, inward_to_steps, of_instrument,
    places_of, printed, settle, test_uncertainty_ratio,
};

/// Decimals of a computed value that no instrument shows.
const PLACES: u32 = 4;

/// A setting with its target as the instrument shows it, and the decimals it is printed with.
pub(super) type Placed = (Setting, (Quantity, u32));

impl<'m> Computer<'_, 'm> {
    /// Makes a setting; `label` is what is promised of it.
    pub(super) fn setting(
        &mut self,
        id: &str,
        entry: &SettingEntry,
        evaluated: &Evaluated,
        label: Option<&Contents>,
    ) -> Option<Placed> {
        let at = self.at.at("settings").at(id);
        let exact = self.quantity(&at.at("formula"), evaluated)?;
        let unit = self.unit(&at, entry, exact)?;
        let instrument = self.instrument(&at, entry.instrument.as_ref());
        let limits = match &entry.tolerance {
            Some(text) => self.limits(&at.at("tolerance"), text, exact, unit)?,
            None => Limits::NONE,
        };
        let limits = self.label_holds(&at, limits, label, exact, unit)?;
        let (target, places) = self.settle(&at, exact, &limits, instrument, unit)?;
        let shown = match self.inward(&at, &limits, instrument, unit, places)? {
            Ok(shown) => shown,
            Err(error) => {
                self.cannot_settle(&at, error, instrument);
                return None;
            }
        };
        let mut notes = Vec::new();
        if let Some(instrument) = instrument {
            notes.extend(self.suits(&at.at("instrument"), instrument, &limits, target));
            notes.extend(rounded_far(self.house.language, exact, target, &limits, unit));
        }
        let number = |quantity: Quantity| quantity.in_unit(unit).ok();
        // What is shown beside must never let through what the printed and judged limits refuse.
        let printed_limits = Limits::read(shown.low.as_deref(), shown.high.as_deref(), unit);
        let also = self.beside(target, &printed_limits, unit, places);
        let fraction = fraction(target, instrument, unit);
        let also_limits = match instrument.and_then(|instrument| instrument.fractions) {
            Some(marks) if !fraction.is_empty() => {
                in_fractions(self.house.language, &printed_limits, marks, unit)
            }
            _ => also.1,
        };
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
            by: String::new(),
            fraction,
            also: also.0,
            also_limits,
            notes,
            working: Working {
                formula: entry.formula.clone(),
                numbers: evaluated.numbers.clone(),
                result: short(exact, unit),
                steps: evaluated.steps.clone(),
            },
            source: entry.source.clone(),
        };
        Some((setting, (target, places)))
    }

    /// The unit a setting is shown in; `Some(None)` for a count.
    fn unit(
        &mut self,
        at: &Place,
        entry: &SettingEntry,
        value: Quantity,
    ) -> Option<Option<&'static Unit>> {
        let unit = if entry.unit.is_empty() {
            self.house.unit_of(value.dimension)
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

    fn limits(
        &mut self,
        at: &Place,
        text: &str,
        target: Quantity,
        unit: Option<&'static Unit>,
    ) -> Option<Limits> {
        let allowed = match Allowed::parse(text) {
            Ok(allowed) => allowed,
            Err(error) => {
                self.findings.bad_quantity(&at.within(error.range.clone()), &error);
                return None;
            }
        };
        match allowed.limits(target) {
            Ok(limits) => Some(limits),
            Err(NotAllowed::Outside { .. }) => {
                self.findings.target_outside_limits(at, &short(target, unit), text);
                None
            }
            Err(NotAllowed::NoClass { .. }) => {
                self.findings.no_general_tolerance(at, &short(target, unit));
                None
            }
            Err(NotAllowed::Quantity(_)) => {
                let found = allowed.dimension().unwrap_or(Dimension::LENGTH);
                self.findings.wrong_dimension(at, found, target.dimension);
                None
            }
        }
    }

    /// The limits, with the least that the rules of the label allow; the target reaches the label.
    fn label_holds(
        &mut self,
        at: &Place,
        limits: Limits,
        contents: Option<&Contents>,
        target: Quantity,
        unit: Option<&'static Unit>,
    ) -> Option<Limits> {
        let Some(&Contents { label, least, .. }) = contents else { return Some(limits) };
        if target.dimension != label.dimension {
            let at = self.at.at("net_contents").at("label");
            self.findings.wrong_dimension(&at, label.dimension, target.dimension);
            return None;
        }
        if target.compare(label).is_ok_and(|order| order.is_lt()) {
            let (target, label) = (short(target, unit), short(label, unit));
            self.findings.target_below_label(&at.at("formula"), &target, &label);
        }
        match limits.low {
            None => Some(Limits { low: Some(least), ..limits }),
            Some(low) if low.compare(least).is_ok_and(|order| order.is_lt()) => {
                let at = at.at("tolerance");
                self.findings.below_tolerable(&at, &short(low, unit), &short(least, unit));
                None
            }
            Some(_) => Some(limits),
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
            // As many decimals as the target and its limits need: a limit is never tightened unseen.
            let shown = [Some(exact), limits.low, limits.high];
            let places = shown.into_iter().flatten().filter_map(|value| {
                Some(value.in_unit(unit).ok()?.exact_places(PLACES).unwrap_or(PLACES))
            });
            return Some((exact, places.max()?));
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
        let name = instrument.map_or(Words::of("instrument-unnamed"), |instrument| {
            Words::foreign(&instrument.facts.name)
        });
        let step = instrument.map_or("", |instrument| &instrument.facts.resolution);
        match error {
            NotSettled::TooCoarse => {
                self.findings.instrument_too_coarse(&at.at("instrument"), &name, step);
            }
            NotSettled::NoStep | NotSettled::Quantity(_) => {
                let why = error.words();
                let parts = [("name", name.into()), ("step", step.into()), ("why", why.into())];
                let words = Words::new("instrument-not-settled", &parts);
                self.findings.instrument_does_not_fit(&at.at("instrument"), &words);
            }
        }
    }

    /// The limits as printed: in decimals, or in the marks of a rule that shows fractions.
    fn inward(
        &mut self,
        at: &Place,
        limits: &Limits,
        instrument: Option<&Instrument>,
        unit: Option<&'static Unit>,
        places: u32,
    ) -> Option<Result<PrintedLimits, NotSettled>> {
        match instrument.filter(|instrument| instrument.fractions.is_some()) {
            Some(rule) if rule.resolution.unit != unit => {
                let shown = unit.map_or(Words::of("unit-none"), |unit| Words::foreign(unit.symbol));
                self.findings.fractions_elsewhere(&at.at("instrument"), &rule.facts.name, &shown);
                None
            }
            Some(rule) => Some(inward_to_steps(limits, &rule.resolution, places)),
            None => Some(inward(limits, unit, places)),
        }
    }

    /// Target and limits in the plant's other units; empty without such units.
    fn beside(
        &self,
        target: Quantity,
        limits: &Limits,
        unit: Option<&'static Unit>,
        places: u32,
    ) -> (String, String) {
        let nothing = || (String::new(), String::new());
        let Some((unit, other)) = unit.and_then(|unit| Some((unit, self.house.other(unit)?)))
        else {
            return nothing();
        };
        let Ok(shown) = beside(target, limits, unit, places, other) else { return nothing() };
        let limits = match beside_limits(limits, unit, places, other) {
            Ok(limits) => super::model::limits(
                self.house.language,
                limits.low.as_deref(),
                limits.high.as_deref(),
            ),
            Err(_) => None,
        };
        let with_unit = |text: String| format!("{text} {other}");
        (with_unit(shown), limits.map_or(String::new(), with_unit))
    }

    /// Asks whether an instrument can tell values inside these limits from values outside; gives what
    /// the sheet must say about it.
    ///
    /// A step is at most a tenth of the range (common practice, no source); the error limit is at most
    /// a quarter of half the range (4:1, ANSI/NCSL Z540.3).
    pub(super) fn suits(
        &mut self,
        at: &Place,
        instrument: &Instrument,
        limits: &Limits,
        target: Quantity,
    ) -> Vec<String> {
        let name = &instrument.facts.name;
        let mut notes = Vec::new();
        self.reaches(at, instrument, limits, target);
        let Some(step) = instrument.resolution.as_difference().ok().map(|step| step.quantity)
        else {
            return notes;
        };
        let ten = Number::from(10_u32);
        let ratio = discrimination(limits, step).ok().flatten();
        if ratio.is_some_and(|ratio| ratio < ten) {
            self.findings.coarse_instrument(at, name, &instrument.facts.resolution);
            notes.push(self.house.language.text("lines-few-steps", &[("name", name.into())]));
        }
        let error = instrument.error.and_then(|error| error.at(target).ok());
        let four = Number::from(4_u32);
        let ratio = error.and_then(|error| test_uncertainty_ratio(limits, error).ok().flatten());
        if ratio.is_some_and(|ratio| ratio < four) {
            self.findings.uncertain_instrument(at, name, &instrument.facts.error_limit);
            notes.push(self.house.language.text("lines-large-error", &[("name", name.into())]));
        }
        if self.house.judging == Judging::Guarded {
            self.provable(at, instrument, limits, target);
        }
        notes
    }

    /// Asks whether an instrument shows everything that is allowed.
    pub(super) fn reaches(
        &mut self,
        at: &Place,
        instrument: &Instrument,
        limits: &Limits,
        target: Quantity,
    ) {
        let Some(range) = &instrument.range else { return };
        let ends = [limits.low.unwrap_or(target), limits.high.unwrap_or(target)];
        let is_in = |end: &Quantity| range.judge(*end) == Ok(Verdict::Within);
        if !ends.iter().all(is_in) {
            let unit = instrument.resolution.unit;
            let [low, high] = ends.map(|end| short(end, unit));
            let allowed =
                Words::new("range-from-to", &[("low", low.into()), ("high", high.into())]);
            let (name, range) = (&instrument.facts.name, &instrument.facts.range);
            self.findings.out_of_range(at, name, range, &allowed);
        }
    }

    /// Under a guard band, some reading must be able to pass.
    fn provable(&mut self, at: &Place, instrument: &Instrument, limits: &Limits, target: Quantity) {
        let Some(uncertainty) = uncertainty(instrument, target) else {
            // One that was written and could not be understood was reported where it stands.
            if instrument.facts.error_limit.is_empty() {
                self.findings.no_error_limit(at, &instrument.facts.name);
            }
            return;
        };
        if crate::quantity::guard(limits, uncertainty).is_ok_and(|guarded| !guarded.provable()) {
            self.findings.nothing_provable(at, &instrument.facts.name);
        }
    }
}

/// Expanded uncertainty of a reading at a value, coverage factor 2; none without an error limit.
pub(super) fn uncertainty(instrument: &Instrument, value: Quantity) -> Option<Quantity> {
    let error = instrument.error?.at(value).ok()?;
    let step = instrument.resolution.as_difference().ok()?;
    let error = Measure { quantity: error, unit: step.unit };
    Some(of_instrument(&step, &error).ok()?.quantity)
}

/// Limits in fractions of an inch: `14 23/32 to 15 7/32 in`; empty without limits.
fn in_fractions(language: Language, limits: &Limits, marks: u32, unit: Option<&Unit>) -> String {
    let end = |end: Option<Quantity>| end?.in_unit(unit).ok()?.fraction(marks);
    let text =
        super::model::limits(language, end(limits.low).as_deref(), end(limits.high).as_deref());
    let unit = unit.map_or("", |unit| unit.symbol);
    text.map_or(String::new(), |text| format!("{text} {unit}").trim_end().to_owned())
}

/// The target as a fraction of an inch, when the instrument is marked so.
fn fraction(
    target: Quantity,
    instrument: Option<&Instrument>,
    unit: Option<&'static Unit>,
) -> String {
    let text = instrument
        .filter(|instrument| instrument.resolution.unit == unit)
        .and_then(|instrument| target.in_unit(unit).ok()?.fraction(instrument.fractions?));
    text.unwrap_or_default()
}

/// Says when a target was rounded by more than a tenth of its tolerance.
fn rounded_far(
    language: Language,
    exact: Quantity,
    target: Quantity,
    limits: &Limits,
    unit: Option<&'static Unit>,
) -> Option<String> {
    let off = target.sub(exact).ok()?.abs().ok()?;
    let span = limits.high?.sub(limits.low?).ok()?;
    let tenth = span.amount.div(Number::from(20_u32)).ok()?;
    let measure = Measure { quantity: off, unit };
    (off.amount > tenth).then(|| {
        let by = language.decimals(&measure.shortest(6));
        language.text("lines-rounded", &[("by", by.into())])
    })
}
