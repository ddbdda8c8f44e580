//! An instrument understood: what it shows, how far it may be off, what it measures.

use super::machine::{day, measure};
use super::shape::InstrumentEntry;
use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::packet::model;
use crate::quantity::{
    Allowed, Dimension, Limits, Measure, NoQuantity, Number, Quantity, Tolerance, Unit, fraction_of,
};
use crate::trade::wrench;

/// An instrument.
#[derive(Debug, Clone)]
pub struct Instrument {
    /// For the sheet.
    pub facts: model::Instrument,
    /// Smallest step it shows.
    pub resolution: Measure,
    /// The denominator of its marks, when they are fractions of an inch.
    pub fractions: Option<u32>,
    /// How far it may be off.
    pub error: Option<ErrorLimit>,
    /// What it measures.
    pub range: Option<Limits>,
}

/// How far an instrument may be off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorLimit {
    /// The same everywhere.
    Fixed(Quantity),
    /// A share of what it shows, counted in its own unit.
    Share(Number, Option<&'static Unit>),
    /// A torque wrench of ISO 6789.
    Wrench,
}

/// The words that stand for the error limits of a torque wrench.
const WRENCH: &str = "ISO 6789";

impl ErrorLimit {
    /// How far it may be off at a value.
    ///
    /// # Errors
    /// [`NoQuantity`] when a number gets too large.
    pub fn at(&self, value: Quantity) -> Result<Quantity, NoQuantity> {
        match self {
            ErrorLimit::Fixed(error) => Ok(*error),
            // Of 200 °C a percent is 2 °C: temperatures count from the zero of the scale.
            ErrorLimit::Share(share, unit) => {
                let shown = value.in_unit(*unit)?.abs().mul(*share)?;
                Ok(Quantity::difference_of(shown, *unit)?)
            }
            ErrorLimit::Wrench => {
                value.abs()?.mul(Quantity::plain(wrench::permissible_deviation(value)?))
            }
        }
    }
}

/// Reads an instrument; none when its steps cannot be understood.
pub(super) fn instrument(
    findings: &mut Findings,
    at: &Place,
    id: &str,
    entry: &InstrumentEntry,
) -> Option<Instrument> {
    let resolution = measure(findings, &at.at("resolution"), &entry.resolution)?;
    if resolution.quantity.amount <= Number::ZERO {
        findings.not_positive(&at.at("resolution"), &Words::of("positive-resolution"));
        return None;
    }
    let due = entry.calibration_due.clone().unwrap_or_default();
    if !due.is_empty() {
        day(findings, &at.at("calibration_due"), &due);
    }
    let error = entry.error_limit.as_ref();
    let error =
        error.and_then(|text| error_limit(findings, &at.at("error_limit"), text, &resolution));
    let range = entry.range.as_ref();
    let range = range.and_then(|text| limits(findings, &at.at("range"), text, &resolution));
    let facts = model::Instrument {
        id: id.to_owned(),
        name: entry.name.clone(),
        resolution: entry.resolution.clone(),
        error_limit: entry.error_limit.clone().unwrap_or_default(),
        range: entry.range.clone().unwrap_or_default(),
        calibration_due: due,
    };
    let fractions = fraction_of(&entry.resolution);
    Some(Instrument { facts, resolution, fractions, error, range })
}

/// `±0.05 mm`, `±4 %` of what it shows, or `ISO 6789`.
fn error_limit(
    findings: &mut Findings,
    at: &Place,
    text: &str,
    resolution: &Measure,
) -> Option<ErrorLimit> {
    if text.trim() == WRENCH && resolution.quantity.dimension == Dimension::TORQUE {
        return Some(ErrorLimit::Wrench);
    }
    let tolerance = match Tolerance::parse(text) {
        Ok(tolerance) => tolerance,
        Err(error) => {
            findings.bad_quantity(&at.within(error.range.clone()), &error);
            return None;
        }
    };
    let Some(half) = tolerance.symmetric() else {
        findings.not_symmetric(at);
        return None;
    };
    if half.amount.is_zero() {
        findings.not_positive(at, &Words::of("positive-error-limit"));
        return None;
    }
    let shown = resolution.as_difference().ok()?.quantity.dimension;
    if half.dimension == shown {
        Some(ErrorLimit::Fixed(half))
    } else if half.dimension.is_none() {
        Some(ErrorLimit::Share(half.amount, resolution.unit))
    } else {
        findings.wrong_dimension(at, half.dimension, shown);
        None
    }
}

/// `0 to 400 mm`, `at most 60 N·m`: of the kind the instrument shows.
fn limits(findings: &mut Findings, at: &Place, text: &str, resolution: &Measure) -> Option<Limits> {
    let limits = match Allowed::parse(text) {
        Ok(Allowed::Range(limits, _)) => limits,
        Ok(_) => {
            findings.not_a_range(at);
            return None;
        }
        Err(error) => {
            findings.bad_quantity(&at.within(error.range.clone()), &error);
            return None;
        }
    };
    let wanted = resolution.quantity.dimension;
    let wrong = [limits.low, limits.high].into_iter().flatten().find(|end| end.dimension != wanted);
    if let Some(end) = wrong {
        findings.wrong_dimension(at, end.dimension, wanted);
        return None;
    }
    Some(limits)
}

#[cfg(test)]
mod tests {
    use super::ErrorLimit;
    use crate::quantity::{Measure, Unit};

    #[track_caller]
    fn check(limit: ErrorLimit, value: &str, unit: &str, expected: &str) {
        let error = limit.at(Measure::parse(value).unwrap().quantity).unwrap();
        assert_eq!(error.in_unit(Unit::find(unit)).unwrap().to_string(), expected);
    }

    /// IEC 60584, thermocouple K of class 1 above 375 °C: 0.4 % of the temperature in °C, 1.6 at 400 °C.
    /// ISO 6789: 4 % above 10 N·m, 6 % at or below.
    #[test]
    fn an_error_limit_holds_at_a_value() {
        let percent = |share: &str| Measure::parse(share).unwrap().quantity.amount;
        let fixed = Measure::parse_difference("0.05 mm").unwrap().quantity;
        check(ErrorLimit::Fixed(fixed), "250 mm", "mm", "0.05");
        check(ErrorLimit::Share(percent("0.4 %"), Unit::find("°C")), "400 °C", "°C", "1.6");
        check(ErrorLimit::Share(percent("1 %"), Unit::find("mm")), "-250 mm", "mm", "2.5");
        check(ErrorLimit::Wrench, "25.5 N·m", "N·m", "1.02");
        check(ErrorLimit::Wrench, "10 N·m", "N·m", "0.6");
    }
}
