//! Metric and inch: which of the two a unit belongs to, and what stands beside it in the other.
//!
//! Must never change a value: only how it is written a second time, never past its limits.

use super::Quantity;
use super::dimension::Dimension;
use super::number::Number;
use super::settle::{NotSettled, PrintedLimits, inward, printed};
use super::tolerance::Limits;
use super::unit::Unit;

/// A family of units that people set and read together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Millimetre, newton, bar, degree Celsius.
    Metric,
    /// Inch, pound-force, psi, degree Fahrenheit.
    Inch,
}

/// What both systems share: seconds, events in a time, volts, amperes, degrees of an angle, numbers.
const SHARED: [Dimension; 6] = [
    Dimension::NONE,
    Dimension::TIME,
    Dimension::RATE,
    Dimension::VOLTAGE,
    Dimension::CURRENT,
    Dimension::ANGLE,
];

/// A metric unit and the inch unit beside it; of several with the same unit the first counts.
///
/// Common practice, no source. Torque stands in lbf·in whatever its size: a unit that changed with
/// the value would put two units into one column. Volume, grammage, density, yield and flow have no
/// counterpart here.
const PAIRS: &[(&str, &str)] = &[
    ("mm", "in"),
    ("cm", "in"),
    ("m", "ft"),
    ("m", "yd"),
    ("µm", "mil"),
    ("µm", "gauge"),
    ("mm²", "in²"),
    ("cm²", "in²"),
    ("kg", "lb"),
    ("g", "oz"),
    ("N", "lbf"),
    ("kN", "lbf"),
    ("kgf", "lbf"),
    ("N", "ozf"),
    ("N·m", "lbf·in"),
    ("cN·m", "lbf·in"),
    ("kgf·m", "lbf·in"),
    ("kgf·cm", "lbf·in"),
    ("N·m", "lbf·ft"),
    ("bar", "psi"),
    ("mbar", "psi"),
    ("Pa", "psi"),
    ("kPa", "psi"),
    ("MPa", "psi"),
    ("kgf/cm²", "psi"),
    ("°C", "°F"),
    ("K", "°F"),
    ("m/min", "ft/min"),
    ("m/s", "ft/min"),
    ("mm/s", "in/min"),
    ("N/m", "lbf/in"),
    ("N/cm", "lbf/in"),
];

impl System {
    /// The unit of this system that stands beside a unit of the other.
    ///
    /// None for a unit of this system, for one that both share, and where there is no counterpart.
    /// What stands beside K is °F, which then counts a difference.
    pub fn unit_for(self, unit: &Unit) -> Option<&'static Unit> {
        let found = PAIRS.iter().find_map(|(metric, inch)| match self {
            System::Inch => (*metric == unit.symbol).then_some(*inch),
            System::Metric => (*inch == unit.symbol).then_some(*metric),
        });
        found.and_then(Unit::find)
    }
}

impl Unit {
    /// The system it belongs to; none for units that both share, such as s, V, % or °.
    pub fn system(&self) -> Option<System> {
        if SHARED.contains(&self.dimension) {
            return None;
        }
        let inch = PAIRS.iter().any(|(_, inch)| *inch == self.symbol);
        Some(if inch { System::Inch } else { System::Metric })
    }
}

/// The number of `other` to print beside a value that is printed in `unit` with `places` decimals.
///
/// It has the fewest decimals whose last place is at most that of the first (after NIST SP 811,
/// 2008, B.7.2), and is rounded half to even, but never past the limits: `2.205` beside `56.0 mm`.
///
/// # Errors
/// [`NotSettled::TooCoarse`] when no number with so many decimals lies inside,
/// [`NotSettled::Quantity`] when one of the units measures something else.
pub fn beside(
    value: Quantity,
    limits: &Limits,
    unit: &Unit,
    places: u32,
    other: &'static Unit,
) -> Result<String, NotSettled> {
    printed(value, limits, Some(other), places_beside(unit, places, other)?)
}

/// The limits in `other` to print beside limits in `unit`: decimals as [`beside`], rounded inward.
///
/// # Errors
/// As [`beside`].
pub fn beside_limits(
    limits: &Limits,
    unit: &Unit,
    places: u32,
    other: &Unit,
) -> Result<PrintedLimits, NotSettled> {
    inward(limits, Some(other), places_beside(unit, places, other)?)
}

/// The fewest decimals of `other` whose last place is at most that of so many decimals of `unit`.
fn places_beside(unit: &Unit, places: u32, other: &Unit) -> Result<u32, NotSettled> {
    let last_place = Quantity::difference_of(Number::last_place(places)?, Some(unit))?;
    let step = last_place.in_unit(Some(other))?;
    let mut fewest = 0;
    while Number::last_place(fewest)? > step {
        fewest += 1;
    }
    Ok(fewest)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::quantity;
    use super::super::unit::UNITS;
    use super::{PAIRS, System, beside, beside_limits};
    use crate::quantity::{
        Limits, Measure, NotSettled, Number, Quantity, Tolerance, Unit, Verdict,
    };

    fn unit(symbol: &str) -> &'static Unit {
        Unit::find(symbol).unwrap()
    }

    /// `56.0 mm` with its decimals as printed, and what stands beside it in a unit.
    fn beside_text(text: &str, limits: &Limits, other: &str) -> Result<String, NotSettled> {
        let measure = Measure::parse(text).unwrap();
        let decimals = text.split(' ').next().unwrap().split('.').nth(1).map_or(0, str::len);
        let places = u32::try_from(decimals).unwrap();
        beside(measure.quantity, limits, measure.unit.unwrap(), places, unit(other))
    }

    #[track_caller]
    fn check(text: &str, other: &str, expected: &str) {
        let number = beside_text(text, &Limits::NONE, other);
        assert_eq!(number.as_deref(), Ok(expected), "{text} in {other}");
    }

    /// 36 ft: NIST SP 811 (2008), B.7.2. 36 in and 40.1 in: NIST LC 1137.
    #[test]
    fn published_conversions_keep_as_many_digits() {
        check("36 ft", "m", "11.0");
        check("36 in", "cm", "91");
        check("40.1 in", "cm", "101.9");
    }

    #[test]
    fn the_last_place_is_at_most_that_of_the_first() {
        check("56.0 mm", "in", "2.205");
        check("56.00 mm", "in", "2.2047");
        check("-28.0 mm", "in", "-1.102");
        check("2.205 in", "mm", "56.01");
        check("60 µm", "mil", "2.36");
        check("2.0 mil", "µm", "51");
        check("120 °C", "°F", "248");
        check("250 °F", "°C", "121.1");
        check("5 K", "°F", "9");
        check("6.0 bar", "psi", "87");
        check("40 m/min", "ft/min", "131");
        check("250 N/m", "lbf/in", "1.428");
    }

    /// Computed with exact fractions.
    #[test]
    fn torques_have_an_inch_unit_beside_them() {
        check("10.50 N·m", "lbf·in", "92.93");
        check("25.50 N·m", "lbf·in", "225.69");
        check("50.00 N·m", "lbf·in", "442.54");
        check("10.50 N·m", "lbf·ft", "7.744");
        check("25.5 N·m", "lbf·in", "225.7");
        check("93 lbf·in", "N·m", "10.5");
    }

    #[test]
    fn a_number_beside_is_never_past_the_limits() {
        let within = |tolerance: &str| {
            let target = quantity("56 mm");
            let limits = Tolerance::parse(tolerance).unwrap().limits(target).unwrap();
            beside_text("56.0 mm", &limits, "in")
        };
        assert_eq!(within("±0.5 mm").as_deref(), Ok("2.205"));
        assert_eq!(within("+0/-0.1 mm").as_deref(), Ok("2.204"));
        assert_eq!(within("±0 mm"), Err(NotSettled::TooCoarse));
        assert!(beside_text("56.0 mm", &Limits::NONE, "kg").is_err());
    }

    /// ASME A112.18.1/CSA B125.1 Annex A: converted limits are rounded inward.
    #[test]
    fn limits_beside_are_never_wider() {
        let limits = Tolerance::parse("±0.5 mm").unwrap().limits(quantity("56 mm")).unwrap();
        let printed = beside_limits(&limits, unit("mm"), 1, unit("in")).unwrap();
        let both = (printed.low.as_deref(), printed.high.as_deref());
        assert_eq!(both, (Some("2.186"), Some("2.224")));
        assert!(printed.tightened);
        assert!(beside_limits(&limits, unit("mm"), 1, unit("lb")).is_err());
    }

    #[track_caller]
    fn check_unit(metric: &str, inch: Option<&str>, back: Option<&str>) {
        let other = System::Inch.unit_for(unit(metric));
        assert_eq!(other.map(|unit| unit.symbol), inch, "beside {metric}");
        let again = other.and_then(|unit| System::Metric.unit_for(unit));
        assert_eq!(again.map(|unit| unit.symbol), back, "there and back from {metric}");
    }

    #[test]
    fn units_have_a_counterpart_in_the_other_system() {
        check_unit("mm", Some("in"), Some("mm"));
        check_unit("cm", Some("in"), Some("mm"));
        check_unit("m", Some("ft"), Some("m"));
        check_unit("µm", Some("mil"), Some("µm"));
        check_unit("N", Some("lbf"), Some("N"));
        check_unit("N·m", Some("lbf·in"), Some("N·m"));
        check_unit("bar", Some("psi"), Some("bar"));
        check_unit("kPa", Some("psi"), Some("bar"));
        check_unit("°C", Some("°F"), Some("°C"));
        check_unit("K", Some("°F"), Some("°C"));
        check_unit("m/min", Some("ft/min"), Some("m/min"));
        check_unit("kg", Some("lb"), Some("kg"));
        check_unit("g", Some("oz"), Some("g"));
        check_unit("N/cm", Some("lbf/in"), Some("N/m"));
        check_unit("g/m²", None, None);
        check_unit("ml", None, None);
        check_unit("s", None, None);
        check_unit("in", None, None);
    }

    #[test]
    fn every_unit_belongs_to_one_system_or_to_both() {
        for unit in UNITS {
            for system in [System::Metric, System::Inch] {
                let Some(other) = system.unit_for(unit) else { continue };
                assert_eq!(other.system(), Some(system), "beside {unit}");
                assert_ne!(unit.system(), Some(system), "{unit}");
                let one = Quantity::difference_of(Number::ONE, Some(unit)).unwrap();
                assert!(one.in_unit(Some(other)).is_ok(), "{unit} in {other}");
            }
            let paired = System::Metric.unit_for(unit).is_some();
            assert_eq!(unit.system() == Some(System::Inch), paired, "{unit}");
        }
        for (symbol, system) in [
            ("s", None),
            ("1/min", None),
            ("V", None),
            ("A", None),
            ("%", None),
            ("°", None),
            ("K", Some(System::Metric)),
            ("g/m²", Some(System::Metric)),
            ("kgf", Some(System::Metric)),
            ("gauge", Some(System::Inch)),
            ("yd", Some(System::Inch)),
        ] {
            assert_eq!(unit(symbol).system(), system, "{symbol}");
        }
    }

    #[test]
    fn every_pair_is_of_known_units() {
        for (metric, inch) in PAIRS {
            assert_eq!(unit(metric).symbol, *metric);
            assert_eq!(unit(inch).symbol, *inch);
        }
    }

    fn thousandths(digits: i64, unit: &Unit) -> Quantity {
        Quantity::of(Number::ratio(digits, 1000).unwrap(), Some(unit)).unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn what_stands_beside_passes_and_is_no_coarser(
            target in -100_000_i64..100_000,
            width in 0_i64..5_000,
            places in 0_u32..4,
            pair in prop::sample::select(PAIRS),
        ) {
            let (from, other) = (unit(pair.0), unit(pair.1));
            prop_assume!(from.dimension == other.dimension);
            let (low, high) = (target - width, target + width);
            let (low, high) = (thousandths(low, from), thousandths(high, from));
            let limits = Limits { low: Some(low), high: Some(high) };
            if let Ok(number) = beside(thousandths(target, from), &limits, from, places, other) {
                let value = quantity(&format!("{number} {other}"));
                prop_assert_eq!(limits.judge(value), Ok(Verdict::Within));
            }
            if let Ok(printed) = beside_limits(&limits, from, places, other) {
                for text in [printed.low.unwrap(), printed.high.unwrap()] {
                    let value = quantity(&format!("{text} {other}"));
                    prop_assert_eq!(limits.judge(value), Ok(Verdict::Within));
                }
            }
            let near = beside(thousandths(target, from), &Limits::NONE, from, places, other);
            let near = quantity(&format!("{} {other}", near.unwrap()));
            let off = near.sub(thousandths(target, from)).unwrap().abs().unwrap();
            let last_place = Number::last_place(places).unwrap();
            let last_place = Quantity::difference_of(last_place, Some(from)).unwrap();
            prop_assert!(off.compare(last_place).unwrap().is_le());
        }
    }
}
