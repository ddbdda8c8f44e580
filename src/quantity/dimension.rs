//! What kind of quantity something is: length, torque, temperature ...
//!
//! A dimension is a product of powers of six base kinds; an angle is one of them, so that it is
//! neither a plain number nor a temperature. A temperature is either a point on the
//! scale (`120 °C`) or a difference (`±5 °C`): the two must never be mixed up, because only a
//! point takes the offset between °C and °F.

use std::fmt;

use crate::language::Words;

/// A product of powers of length, mass, time, temperature, current and angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dimension {
    /// Exponents of length, mass, time, temperature, current, angle.
    exponents: [i8; KINDS],
    /// A point on the temperature scale and not a difference.
    point: bool,
}

/// How many base kinds there are.
const KINDS: usize = 6;

const NAMES: [&str; KINDS] = ["length", "mass", "time", "temperature", "current", "angle"];
const SYMBOLS: [&str; KINDS] = ["mm", "kg", "s", "K", "A", "°"];

impl Dimension {
    /// A plain number: a count, a ratio.
    pub const NONE: Dimension = Dimension::of([0, 0, 0, 0, 0, 0]);
    /// Length; base unit mm.
    pub const LENGTH: Dimension = Dimension::of([1, 0, 0, 0, 0, 0]);
    /// Area; base unit mm².
    pub const AREA: Dimension = Dimension::of([2, 0, 0, 0, 0, 0]);
    /// Volume; base unit mm³.
    pub const VOLUME: Dimension = Dimension::of([3, 0, 0, 0, 0, 0]);
    /// Mass; base unit kg.
    pub const MASS: Dimension = Dimension::of([0, 1, 0, 0, 0, 0]);
    /// Time; base unit s.
    pub const TIME: Dimension = Dimension::of([0, 0, 1, 0, 0, 0]);
    /// Speed; base unit mm/s.
    pub const SPEED: Dimension = Dimension::of([1, 0, -1, 0, 0, 0]);
    /// Events in a time; base unit 1/s.
    pub const RATE: Dimension = Dimension::of([0, 0, -1, 0, 0, 0]);
    /// Force; base unit kg·mm/s².
    pub const FORCE: Dimension = Dimension::of([1, 1, -2, 0, 0, 0]);
    /// Torque; base unit kg·mm²/s².
    pub const TORQUE: Dimension = Dimension::of([2, 1, -2, 0, 0, 0]);
    /// Pressure; base unit kg/(mm·s²).
    pub const PRESSURE: Dimension = Dimension::of([-1, 1, -2, 0, 0, 0]);
    /// Mass of an area of film or paper; base unit kg/mm².
    pub const GRAMMAGE: Dimension = Dimension::of([-2, 1, 0, 0, 0, 0]);
    /// Area of film that a mass of it covers; base unit mm²/kg.
    pub const YIELD: Dimension = Dimension::of([2, -1, 0, 0, 0, 0]);
    /// Mass of a volume; base unit kg/mm³.
    pub const DENSITY: Dimension = Dimension::of([-3, 1, 0, 0, 0, 0]);
    /// Force on a width of web; base unit kg/s².
    pub const TENSION: Dimension = Dimension::of([0, 1, -2, 0, 0, 0]);
    /// Volume in a time; base unit mm³/s.
    pub const FLOW: Dimension = Dimension::of([3, 0, -1, 0, 0, 0]);
    /// Mass in a time; base unit kg/s.
    pub const MASS_FLOW: Dimension = Dimension::of([0, 1, -1, 0, 0, 0]);
    /// Plane angle; base unit °.
    pub const ANGLE: Dimension = Dimension::of([0, 0, 0, 0, 0, 1]);
    /// Voltage; base unit kg·mm²/(s³·A).
    pub const VOLTAGE: Dimension = Dimension::of([2, 1, -3, 0, -1, 0]);
    /// Electric current; base unit A.
    pub const CURRENT: Dimension = Dimension::of([0, 0, 0, 0, 1, 0]);
    /// A temperature, counted in K from absolute zero.
    pub const TEMPERATURE: Dimension = Dimension { exponents: [0, 0, 0, 1, 0, 0], point: true };
    /// How much warmer one thing is than another; base unit K.
    pub const TEMPERATURE_DIFFERENCE: Dimension = Dimension::of([0, 0, 0, 1, 0, 0]);

    const fn of(exponents: [i8; KINDS]) -> Dimension {
        Dimension { exponents, point: false }
    }

    /// Whether it is a plain number.
    pub fn is_none(self) -> bool {
        self == Dimension::NONE
    }

    /// Whether it is a temperature as a point on the scale.
    pub fn is_point(self) -> bool {
        self.point
    }

    /// The dimension of a product; none for a temperature point, or when an exponent passes 127.
    pub fn times(self, other: Dimension) -> Option<Dimension> {
        self.combined(other, i8::checked_add)
    }

    /// The dimension of a quotient; none for a temperature point, or when an exponent passes 127.
    pub fn over(self, other: Dimension) -> Option<Dimension> {
        self.combined(other, i8::checked_sub)
    }

    /// The dimension of a square root; none when an exponent is odd, or for a temperature point.
    pub fn root(self) -> Option<Dimension> {
        let even = self.exponents.iter().all(|exponent| exponent % 2 == 0);
        (even && !self.point).then(|| Dimension::of(self.exponents.map(|exponent| exponent / 2)))
    }

    fn combined(self, other: Dimension, how: fn(i8, i8) -> Option<i8>) -> Option<Dimension> {
        let mut exponents = [0; KINDS];
        for (index, exponent) in exponents.iter_mut().enumerate() {
            *exponent = how(self.exponents[index], other.exponents[index])?;
        }
        (!self.point && !other.point).then_some(Dimension::of(exponents))
    }

    /// The symbol of its base unit: `mm³/s`; empty for a plain number.
    pub fn base_symbol(self) -> String {
        if self.is_none() { String::new() } else { self.composed(&SYMBOLS) }
    }

    /// A product of names with powers, those with negative exponents under a stroke.
    fn composed(self, names: &[&str; KINDS]) -> String {
        let side = |sign: i8| -> Vec<String> {
            let powers = self.exponents.iter().zip(names);
            let powers = powers.filter(|(exponent, _)| exponent.signum() == sign);
            powers.map(|(exponent, name)| power(name, exponent.unsigned_abs())).collect()
        };
        let (above, below) = (side(1), side(-1));
        let above = if above.is_empty() { "1".to_owned() } else { above.join("·") };
        match below.as_slice() {
            [] => above,
            [one] => format!("{above}/{one}"),
            many => format!("{above}/({})", many.join("·")),
        }
    }
}

impl Dimension {
    /// The word of the trade, or a product: `length³/time`.
    pub fn words(self) -> Words {
        Words::of(match self {
            Dimension::NONE => "dimension-plain-number",
            Dimension::LENGTH => "dimension-length",
            Dimension::AREA => "dimension-area",
            Dimension::VOLUME => "dimension-volume",
            Dimension::MASS => "dimension-mass",
            Dimension::TIME => "dimension-time",
            Dimension::SPEED => "dimension-speed",
            Dimension::RATE => "dimension-rate",
            Dimension::FORCE => "dimension-force",
            Dimension::TORQUE => "dimension-torque",
            Dimension::PRESSURE => "dimension-pressure",
            Dimension::GRAMMAGE => "dimension-grammage",
            Dimension::YIELD => "dimension-yield",
            Dimension::DENSITY => "dimension-density",
            Dimension::TENSION => "dimension-tension",
            Dimension::FLOW => "dimension-flow",
            Dimension::MASS_FLOW => "dimension-mass-flow",
            Dimension::ANGLE => "dimension-angle",
            Dimension::VOLTAGE => "dimension-voltage",
            Dimension::CURRENT => "dimension-current",
            Dimension::TEMPERATURE => "dimension-temperature",
            Dimension::TEMPERATURE_DIFFERENCE => "dimension-temperature-difference",
            _ => return Words::foreign(self.composed(&NAMES)),
        })
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

/// `mm`, `mm²`, `mm¹²`.
fn power(name: &str, exponent: u8) -> String {
    const DIGITS: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let mut text = name.to_owned();
    if exponent > 1 {
        for digit in exponent.to_string().bytes() {
            text.push(DIGITS[usize::from(digit - b'0')]);
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::Dimension;

    #[track_caller]
    fn check(dimension: Option<Dimension>, name: &str, symbol: &str) {
        let dimension = dimension.unwrap();
        assert_eq!(
            (dimension.to_string().as_str(), dimension.base_symbol().as_str()),
            (name, symbol)
        );
    }

    #[test]
    fn known_products_have_the_word_of_the_trade() {
        check(Dimension::LENGTH.times(Dimension::LENGTH), "area", "mm²");
        check(Dimension::FORCE.times(Dimension::LENGTH), "torque", "mm²·kg/s²");
        check(Dimension::FORCE.over(Dimension::AREA), "pressure", "kg/(mm·s²)");
        check(Dimension::LENGTH.over(Dimension::LENGTH), "plain number", "");
        check(Dimension::FORCE.over(Dimension::LENGTH), "tension", "kg/s²");
        check(Dimension::MASS.over(Dimension::VOLUME), "density", "kg/mm³");
        check(Dimension::AREA.over(Dimension::MASS), "yield", "mm²/kg");
        check(Dimension::NONE.over(Dimension::GRAMMAGE), "yield", "mm²/kg");
        check(Dimension::VOLUME.over(Dimension::TIME), "flow", "mm³/s");
        check(Dimension::MASS.over(Dimension::TIME), "mass flow", "kg/s");
        check(Some(Dimension::ANGLE), "angle", "°");
        check(Some(Dimension::TEMPERATURE), "temperature", "K");
        check(Some(Dimension::TEMPERATURE_DIFFERENCE), "temperature difference", "K");
    }

    #[test]
    fn other_products_are_spelled_out() {
        check(Dimension::VOLUME.times(Dimension::TIME), "length³·time", "mm³·s");
        check(Dimension::ANGLE.over(Dimension::TIME), "angle/time", "°/s");
        check(Dimension::RATE.over(Dimension::TIME), "1/time²", "1/s²");
        check(Dimension::MASS.over(Dimension::LENGTH), "mass/length", "kg/mm");
        check(
            Dimension::RATE.over(Dimension::TEMPERATURE_DIFFERENCE),
            "1/(time·temperature)",
            "1/(s·K)",
        );
    }

    #[test]
    fn a_temperature_point_is_never_multiplied() {
        assert_eq!(Dimension::TEMPERATURE.times(Dimension::NONE), None);
        assert_eq!(Dimension::NONE.over(Dimension::TEMPERATURE), None);
        assert_eq!(Dimension::TEMPERATURE.root(), None);
    }

    #[test]
    fn exponents_do_not_wrap() {
        let mut dimension = Dimension::LENGTH;
        for _ in 0..6 {
            dimension = dimension.times(dimension).unwrap();
        }
        assert_eq!(dimension.to_string(), "length⁶⁴");
        assert_eq!(dimension.times(dimension), None);
        assert_eq!(dimension.root().unwrap().to_string(), "length³²");
        assert_eq!(Dimension::VOLUME.root(), None);
    }
}
