//! The units people write, with exact factors to the base units mm, kg, s, K, A and °.
//!
//! Source of the factors: NIST SP 811 (2008), appendix B.8 and B.9, all of them exact rationals:
//! inch = 25.4 mm, pound = 0.453 592 37 kg, standard gravity = 9.806 65 m/s²,
//! t/°C = (t/°F - 32)/1.8. Where SP 811 prints seven digits only, the exact value that follows
//! from these is used. The gauge of film is not in SP 811: 100 gauge = 1 mil (trade charts of film).

use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

use super::Quantity;
use super::dimension::Dimension;
use super::number::Number;

/// One unit.
#[derive(Debug, PartialEq, Eq)]
pub struct Unit {
    /// How it is printed.
    pub symbol: &'static str,
    /// Other ways people write it.
    pub spellings: &'static [&'static str],
    /// What it measures; °C and °F measure temperature points.
    pub dimension: Dimension,
    /// How many base units one of it is.
    pub factor: Number,
    /// Where its zero lies, in base units; other than nothing for °C and °F only.
    pub origin: Number,
}

/// Every spelling of every unit.
static SPELLINGS: LazyLock<BTreeMap<&'static str, &'static Unit>> = LazyLock::new(|| {
    let all = UNITS.iter().flat_map(|unit| unit.all_spellings().map(move |text| (text, unit)));
    all.collect()
});

/// Longest text for which a similar unit is looked for.
const LONGEST_GUESS: usize = 16;

/// Letters of a word that is no unit, but whose unit is plain.
const WORDS: [(&str, &str); 15] = [
    ("inch", "in"),
    ("inches", "in"),
    ("feet", "ft"),
    ("foot", "ft"),
    ("sec", "s"),
    ("hour", "h"),
    ("hours", "h"),
    ("lbs", "lb"),
    ("yards", "yd"),
    ("gauges", "gauge"),
    ("degree", "°"),
    ("degrees", "°"),
    ("celsius", "°C"),
    ("fahrenheit", "°F"),
    ("percent", "%"),
];

impl Unit {
    /// The unit written so: its symbol or another spelling of it.
    pub fn find(written: &str) -> Option<&'static Unit> {
        SPELLINGS.get(written).copied()
    }

    /// The symbol most like a text that is no unit.
    pub fn nearest(written: &str) -> Option<&'static str> {
        let wanted = written.to_lowercase();
        if wanted.len() > LONGEST_GUESS {
            return None;
        }
        if let Some((_, symbol)) = WORDS.iter().find(|(word, _)| *word == wanted) {
            return Some(symbol);
        }
        let all = UNITS.iter().flat_map(|unit| unit.all_spellings().map(move |text| (unit, text)));
        let scored = all.map(|(unit, text)| {
            (strsim::osa_distance(&wanted, &text.to_lowercase()), text.chars().count(), unit)
        });
        let (distance, length, unit) = scored.min_by_key(|(distance, ..)| *distance)?;
        (distance * 2 <= length).then_some(unit.symbol)
    }

    /// The longest spelling of a unit that `text` begins with and that ends at the end of a word.
    pub(crate) fn at_start(text: &str) -> Option<(&'static Unit, usize)> {
        let all = UNITS.iter().flat_map(|unit| unit.all_spellings().map(move |text| (unit, text)));
        all.filter(|(_, spelling)| {
            text.strip_prefix(spelling).is_some_and(|rest| ends_word(spelling, rest))
        })
        .map(|(unit, spelling)| (unit, spelling.len()))
        .max_by_key(|(_, length)| *length)
    }

    /// The unit in which something of this dimension is shown when nobody chose one.
    pub fn natural(dimension: Dimension) -> Option<&'static Unit> {
        UNITS.iter().find(|unit| unit.dimension == dimension && !dimension.is_none())
    }

    /// The unit in which a quantity is shown when nobody chose one: the usual one of its kind, but
    /// metres from 10 m and square metres from 1 m² on.
    pub fn fitting(quantity: Quantity) -> Option<&'static Unit> {
        let size = quantity.amount.abs();
        let large = match quantity.dimension {
            Dimension::LENGTH if size >= Number::constant(10_000, 1) => Unit::find("m"),
            Dimension::AREA if size >= Number::constant(1_000_000, 1) => Unit::find("m²"),
            _ => None,
        };
        large.or_else(|| Unit::natural(quantity.dimension))
    }

    fn all_spellings(&self) -> impl Iterator<Item = &'static str> + use<> {
        std::iter::once(self.symbol).chain(self.spellings.iter().copied())
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol)
    }
}

/// Whether a word ends between `spelling` and `rest`.
fn ends_word(spelling: &str, rest: &str) -> bool {
    let goes_on = |c: char| c.is_alphanumeric() || matches!(c, '_' | '²' | '³' | '·' | '°');
    let mut next = rest.chars();
    match next.next() {
        Some('.') => !next.next().is_some_and(goes_on),
        Some(c) => !goes_on(c) || spelling == "%",
        None => true,
    }
}

const fn unit(
    symbol: &'static str,
    spellings: &'static [&'static str],
    dimension: Dimension,
    factor: (i128, i128),
) -> Unit {
    let factor = Number::constant(factor.0, factor.1);
    Unit { symbol, spellings, dimension, factor, origin: Number::ZERO }
}

const fn degree(
    symbol: &'static str,
    spellings: &'static [&'static str],
    factor: (i128, i128),
    origin: (i128, i128),
) -> Unit {
    let factor = Number::constant(factor.0, factor.1);
    let origin = Number::constant(origin.0, origin.1);
    Unit { symbol, spellings, dimension: Dimension::TEMPERATURE, factor, origin }
}

/// One lbf in kg·mm/s², times 10^10: 0.453 592 37 kg · 9806.65 mm/s².
const LBF: i128 = 45_359_237 * 980_665;

/// All units; the first of a dimension is the one shown when nobody chose another.
pub static UNITS: &[Unit] = &[
    unit("mm", &[], Dimension::LENGTH, (1, 1)),
    unit("cm", &[], Dimension::LENGTH, (10, 1)),
    unit("m", &[], Dimension::LENGTH, (1000, 1)),
    unit("µm", &["μm", "um"], Dimension::LENGTH, (1, 1000)),
    unit("in", &[], Dimension::LENGTH, (254, 10)),
    unit("ft", &[], Dimension::LENGTH, (3048, 10)),
    unit("yd", &[], Dimension::LENGTH, (9144, 10)),
    unit("mil", &[], Dimension::LENGTH, (254, 10_000)),
    unit("gauge", &[], Dimension::LENGTH, (254, 1_000_000)),
    unit("mm²", &["mm2", "mm^2"], Dimension::AREA, (1, 1)),
    unit("cm²", &["cm2", "cm^2"], Dimension::AREA, (100, 1)),
    unit("m²", &["m2", "m^2"], Dimension::AREA, (1_000_000, 1)),
    unit("in²", &["in2", "in^2"], Dimension::AREA, (64_516, 100)),
    unit("ml", &["mL"], Dimension::VOLUME, (1000, 1)),
    unit("l", &["L"], Dimension::VOLUME, (1_000_000, 1)),
    unit("mm³", &["mm3", "mm^3"], Dimension::VOLUME, (1, 1)),
    unit("cm³", &["cm3", "cm^3"], Dimension::VOLUME, (1000, 1)),
    unit("kg", &[], Dimension::MASS, (1, 1)),
    unit("g", &[], Dimension::MASS, (1, 1000)),
    unit("lb", &[], Dimension::MASS, (45_359_237, 100_000_000)),
    unit("oz", &[], Dimension::MASS, (45_359_237, 1_600_000_000)),
    unit("s", &[], Dimension::TIME, (1, 1)),
    unit("min", &[], Dimension::TIME, (60, 1)),
    unit("h", &[], Dimension::TIME, (3600, 1)),
    unit("N", &[], Dimension::FORCE, (1000, 1)),
    unit("kN", &[], Dimension::FORCE, (1_000_000, 1)),
    unit("kgf", &[], Dimension::FORCE, (980_665, 100)),
    unit("lbf", &[], Dimension::FORCE, (LBF, 10_000_000_000)),
    unit("ozf", &[], Dimension::FORCE, (LBF, 160_000_000_000)),
    unit("N·m", &["N⋅m", "N*m", "N.m", "Nm"], Dimension::TORQUE, (1_000_000, 1)),
    unit("cN·m", &["cN⋅m", "cN*m", "cN.m", "cNm"], Dimension::TORQUE, (10_000, 1)),
    unit("kgf·m", &["kgf⋅m", "kgf*m", "kgf.m"], Dimension::TORQUE, (9_806_650, 1)),
    unit("kgf·cm", &["kgf⋅cm", "kgf*cm", "kgf.cm"], Dimension::TORQUE, (980_665, 10)),
    unit(
        "lbf·in",
        &["lbf⋅in", "lbf*in", "lbf.in", "lbf in", "in·lbf", "in-lbf"],
        Dimension::TORQUE,
        (LBF * 254, 100_000_000_000),
    ),
    unit(
        "lbf·ft",
        &["lbf⋅ft", "lbf*ft", "lbf.ft", "lbf ft", "ft·lbf", "ft-lbf"],
        Dimension::TORQUE,
        (LBF * 3048, 100_000_000_000),
    ),
    unit("bar", &[], Dimension::PRESSURE, (100, 1)),
    unit("mbar", &[], Dimension::PRESSURE, (1, 10)),
    unit("Pa", &[], Dimension::PRESSURE, (1, 1000)),
    unit("kPa", &[], Dimension::PRESSURE, (1, 1)),
    unit("MPa", &[], Dimension::PRESSURE, (1000, 1)),
    unit("kgf/cm²", &["kgf/cm2", "kgf/cm^2"], Dimension::PRESSURE, (980_665, 10_000)),
    unit("psi", &[], Dimension::PRESSURE, (LBF, 6_451_600_000_000)),
    degree("°C", &["degC", "℃"], (1, 1), (27_315, 100)),
    degree("°F", &["degF", "℉"], (5, 9), (45_967 * 5, 900)),
    unit("K", &[], Dimension::TEMPERATURE_DIFFERENCE, (1, 1)),
    unit("m/min", &[], Dimension::SPEED, (1000, 60)),
    unit("m/s", &[], Dimension::SPEED, (1000, 1)),
    unit("ft/min", &[], Dimension::SPEED, (3048, 600)),
    unit("mm/s", &[], Dimension::SPEED, (1, 1)),
    unit("in/min", &[], Dimension::SPEED, (254, 600)),
    unit("1/min", &["rpm"], Dimension::RATE, (1, 60)),
    unit("1/s", &[], Dimension::RATE, (1, 1)),
    unit("1/h", &[], Dimension::RATE, (1, 3600)),
    unit("g/m²", &["g/m2", "g/m^2", "gsm"], Dimension::GRAMMAGE, (1, 1_000_000_000)),
    unit("m²/kg", &["m2/kg", "m^2/kg"], Dimension::YIELD, (1_000_000, 1)),
    unit("g/cm³", &["g/cm3", "g/cm^3"], Dimension::DENSITY, (1, 1_000_000)),
    unit("kg/m³", &["kg/m3", "kg/m^3"], Dimension::DENSITY, (1, 1_000_000_000)),
    unit("N/m", &[], Dimension::TENSION, (1, 1)),
    unit("N/cm", &[], Dimension::TENSION, (100, 1)),
    unit("lbf/in", &["pli"], Dimension::TENSION, (LBF, 254_000_000_000)),
    unit("ml/s", &["mL/s"], Dimension::FLOW, (1000, 1)),
    unit("l/min", &["L/min"], Dimension::FLOW, (1_000_000, 60)),
    unit("g/s", &[], Dimension::MASS_FLOW, (1, 1000)),
    unit("kg/h", &[], Dimension::MASS_FLOW, (1, 3600)),
    unit("°", &["deg"], Dimension::ANGLE, (1, 1)),
    unit("arcmin", &[], Dimension::ANGLE, (1, 60)),
    unit("V", &[], Dimension::VOLTAGE, (1_000_000, 1)),
    unit("A", &[], Dimension::CURRENT, (1, 1)),
    unit("%", &[], Dimension::NONE, (1, 100)),
];

/// Every two units of one dimension, a unit with itself too.
#[cfg(test)]
pub(crate) fn pairs() -> Vec<(&'static Unit, &'static Unit)> {
    let all = UNITS.iter().flat_map(|from| UNITS.iter().map(move |to| (from, to)));
    all.filter(|(from, to)| from.dimension == to.dimension).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{UNITS, Unit};
    use crate::quantity::{Measure, Number, Quantity};

    #[track_caller]
    fn check(text: &str, unit: &str, expected: &str) {
        let quantity = Measure::parse(text).unwrap().quantity;
        let number = quantity.in_unit(Unit::find(unit)).unwrap();
        assert_eq!(number, Number::parse(expected).unwrap(), "{text} in {unit}");
    }

    /// NIST SP 811 (2008), appendix B.8: the factors it marks exact.
    #[test]
    fn exact_factors_are_those_of_sp_811() {
        check("1 in", "mm", "25.4");
        check("1 in", "cm", "2.54");
        check("1 ft", "m", "0.3048");
        check("1 yd", "m", "0.9144");
        check("1 mil", "µm", "25.4");
        check("1 in²", "mm²", "645.16");
        check("1 bar", "kPa", "100");
        check("1 ft/min", "m/s", "0.00508");
        check("36 ft", "m", "10.9728");
        check("1 kgf", "N", "9.80665");
        check("1 kgf·m", "N·m", "9.80665");
        check("1 kgf·cm", "N·m", "0.0980665");
        check("1 kgf/cm²", "kPa", "98.0665");
    }

    /// The gauge: 100 gauge = 1 mil, read in trade charts of film; 0.254 µm follows exactly.
    #[test]
    fn a_hundred_gauge_are_a_mil() {
        check("100 gauge", "mil", "1");
        check("1 gauge", "µm", "0.254");
        check("48 gauge", "µm", "12.192");
    }

    /// Definitions: pound 0.453 592 37 kg, standard gravity 9.806 65 m/s² (SP 811 B.8); the torque
    /// of a pound-force foot is asserted against the exact product, 1.355 817 948 331 400 4 N·m.
    #[test]
    fn factors_that_sp_811_prints_rounded_are_kept_exact() {
        check("1 lb", "kg", "0.45359237");
        check("1 oz", "kg", "0.028349523125");
        check("1 lbf", "N", "4.4482216152605");
        check("1 ozf", "N", "0.27801385095378125");
        check("1 lbf·in", "N·m", "0.1129848290276167");
        check("1 lbf·ft", "N·m", "1.3558179483314004");
    }

    #[track_caller]
    fn check_rounded(text: &str, unit: &str, places: u32, expected: &str) {
        let quantity = Measure::parse(text).unwrap().quantity;
        assert_eq!(quantity.in_unit(Unit::find(unit)).unwrap().decimal(places), expected);
    }

    /// NIST SP 811 (2008), appendix B.8: printed to seven significant digits; the longer figures
    /// are computed from the definitions with exact fractions.
    #[test]
    fn factors_round_to_the_printed_ones() {
        check_rounded("1 psi", "kPa", 6, "6.894757");
        check_rounded("1 psi", "kPa", 12, "6.894757293168");
        check_rounded("1 lb", "kg", 7, "0.4535924");
        check_rounded("1 lbf", "N", 6, "4.448222");
        check_rounded("1 ozf", "N", 7, "0.2780139");
        check_rounded("1 lbf·in", "N·m", 7, "0.1129848");
        check_rounded("1 lbf·ft", "N·m", 6, "1.355818");
        check_rounded("1 lbf/in", "N/m", 4, "175.1268");
        check_rounded("1 lbf/in", "N/m", 9, "175.126835246");
        check_rounded("1 lbf/in", "N/cm", 6, "1.751268");
        check_rounded("1 in/min", "mm/s", 7, "0.4233333");
        check_rounded("1 oz", "kg", 8, "0.02834952");
        check_rounded("1 kg", "lb", 11, "2.20462262185");
        check_rounded("1 N·m", "lbf·in", 11, "8.85074579133");
        check_rounded("1 N·m", "lbf·ft", 12, "0.737562149277");
        check_rounded("1 bar", "psi", 9, "14.503773773");
    }

    /// SI units (SI Brochure, 9th edition).
    #[test]
    fn si_units_are_powers_of_ten_apart() {
        check("1 m", "mm", "1000");
        check("1 µm", "mm", "0.001");
        check("1 m²", "cm²", "10000");
        check("1 l", "ml", "1000");
        check("1 ml", "cm³", "1");
        check("1 cm³", "mm³", "1000");
        check("1 MPa", "bar", "10");
        check("1 kPa", "mbar", "10");
        check("1 kPa", "Pa", "1000");
        check("1 N·m", "cN·m", "100");
        check("1 kN", "N", "1000");
        check("1 N/cm", "N/m", "100");
        check("0.92 g/cm³", "kg/m³", "920");
        check("1 m/s", "mm/s", "1000");
        check("6 l/min", "ml/s", "100");
        check("3.6 kg/h", "g/s", "1");
        check("60 1/h", "1/min", "1");
        check("1 °", "arcmin", "60");
        check("90 1/min", "1/s", "1.5");
        check("1 m/s", "m/min", "60");
        check("1 h", "min", "60");
        check("12 %", "%", "12");
        check("400 V", "V", "400");
        check("16 A", "A", "16");
    }

    /// NIST SP 811 (2008), appendix B.8, temperature; values from the formula with exact fractions.
    #[test]
    fn temperatures_convert_with_their_offset() {
        for (celsius, fahrenheit) in [
            ("-40", "-40"),
            ("0", "32"),
            ("20", "68"),
            ("37", "98.6"),
            ("120", "248"),
            ("135", "275"),
            ("150", "302"),
            ("175", "347"),
            ("180", "356"),
            ("200", "392"),
        ] {
            check(&format!("{celsius} °C"), "°F", fahrenheit);
            check(&format!("{fahrenheit} °F"), "°C", celsius);
        }
        check_rounded("250 °F", "°C", 4, "121.1111");
        check_rounded("300 °F", "°C", 4, "148.8889");
        check_rounded("325 °F", "°C", 4, "162.7778");
        check_rounded("350 °F", "°C", 4, "176.6667");
        check_rounded("400 °F", "°C", 4, "204.4444");
    }

    /// A difference takes no offset: ±5 °F is ±2.7778 °C (SP 811 B.8, temperature interval).
    #[test]
    fn temperature_differences_take_no_offset() {
        let difference = Measure::parse_difference("5 °F").unwrap().quantity;
        assert_eq!(difference.in_unit(Unit::find("°C")).unwrap().decimal(4), "2.7778");
        assert_eq!(difference.in_unit(Unit::find("K")).unwrap().decimal(4), "2.7778");
    }

    fn quantity(text: &str) -> Quantity {
        Measure::parse(text).unwrap().quantity
    }

    /// Three decimals as printed in an encyclopaedia of the print trade, where it has the size; six
    /// decimals computed with exact fractions. A ream is 500 sheets of the basic size.
    #[test]
    fn a_ream_weight_of_a_basic_size_is_a_grammage() {
        for (area, exact, printed) in [
            ("374 in²", "3.759730", "3.760"),
            ("520 in²", "2.704114", "2.704"),
            ("864 in²", "1.627476", "1.627"),
            ("950 in²", "1.480146", "1.480"),
            ("641.25 in²", "2.192810", "2.193"),
            ("777.75 in²", "1.807958", "1.808"),
        ] {
            let sheets = quantity("500").mul(quantity(area)).unwrap();
            let weight = quantity("1 lb").div(sheets).unwrap();
            let grams = weight.in_unit(Unit::find("gsm")).unwrap();
            assert_eq!((grams.decimal(6).as_str(), grams.decimal(3).as_str()), (exact, printed));
        }
    }

    /// 1000 ft² are 144,000 in². A trade sheet prints 4.831 beside 0.205, which is wrong.
    #[test]
    fn a_board_weight_of_a_thousand_square_feet_is_a_grammage() {
        let board = quantity("1 lb").div(quantity("144000 in²")).unwrap();
        assert_eq!(board.in_unit(Unit::find("gsm")).unwrap().decimal(6), "4.882428");
    }

    /// Densities of polyethylene and polyester film from memory; products exact.
    #[test]
    fn grammage_of_film_is_density_times_thickness() {
        let layer = |density, thickness| quantity(density).mul(quantity(thickness)).unwrap();
        assert_eq!(layer("0.92 g/cm³", "60 µm"), quantity("55.2 g/m²"));
        let web = layer("1.4 g/cm³", "12 µm").add(layer("0.92 g/cm³", "50 µm")).unwrap();
        assert_eq!(web, quantity("62.8 g/m²"));
        let area = quantity("1").div(web).unwrap();
        assert_eq!(area.show(Unit::find("m²/kg"), 3).as_deref(), Ok("15.924 m²/kg"));
    }

    #[test]
    fn an_angle_is_neither_a_number_nor_a_temperature() {
        for other in ["45", "45 °C", "45 K"] {
            assert!(quantity("45 °").compare(quantity(other)).is_err(), "{other}");
        }
        assert_eq!(Measure::parse("45deg").unwrap().to_string(), "45°");
        assert_eq!(Measure::parse("45° ").unwrap().to_string(), "45°");
        assert_eq!(Measure::parse("45 °C").unwrap().to_string(), "45 °C");
    }

    #[test]
    fn every_spelling_means_one_unit() {
        let mut seen = BTreeSet::new();
        for unit in UNITS {
            for spelling in unit.all_spellings() {
                assert!(seen.insert(spelling), "{spelling} stands twice");
                assert_eq!(Unit::find(spelling), Some(unit));
            }
        }
    }

    #[test]
    fn spellings_of_people_are_understood() {
        for (written, symbol) in [
            ("N*m", "N·m"),
            ("Nm", "N·m"),
            ("\u{3bc}m", "µm"),
            ("um", "µm"),
            ("degC", "°C"),
            ("lbf.in", "lbf·in"),
            ("lbf in", "lbf·in"),
            ("mm2", "mm²"),
            ("rpm", "1/min"),
        ] {
            assert_eq!(Unit::find(written).map(|unit| unit.symbol), Some(symbol));
        }
        assert_eq!(Unit::find("\""), None);
        assert_eq!(Unit::find("MM"), None);
    }

    #[test]
    fn a_unit_that_is_like_it_is_suggested() {
        assert_eq!(Unit::nearest("MM"), Some("mm"));
        assert_eq!(Unit::nearest("inches"), Some("in"));
        assert_eq!(Unit::nearest("bars"), Some("bar"));
        assert_eq!(Unit::nearest("N-m"), Some("N·m"));
        assert_eq!(Unit::nearest("degrees"), Some("°"));
        assert_eq!(Unit::nearest("celsius"), Some("°C"));
        assert_eq!(Unit::nearest("furlongs"), None);
    }

    #[test]
    fn the_longest_unit_at_the_start_counts() {
        let symbol = |text| Unit::at_start(text).map(|(unit, length)| (unit.symbol, length));
        assert_eq!(symbol("m/s + 1"), Some(("m/s", 3)));
        assert_eq!(symbol("m/speed"), Some(("m", 1)));
        assert_eq!(symbol("mm2"), Some(("mm²", 3)));
        assert_eq!(symbol("lbf in)"), Some(("lbf·in", 6)));
        assert_eq!(symbol("°C + 1"), Some(("°C", 3)));
        assert_eq!(symbol("° + 1"), Some(("°", 2)));
        assert_eq!(symbol("°x"), None);
        assert_eq!(symbol("kgf/cm²"), Some(("kgf/cm²", 8)));
        assert_eq!(symbol("N/mm"), Some(("N", 1)));
        assert_eq!(symbol("mmm"), None);
        assert_eq!(symbol("in.x"), None);
        assert_eq!(symbol("%x"), Some(("%", 1)));
    }
}
