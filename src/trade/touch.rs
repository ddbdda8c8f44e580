//! Hot parts: from which temperature on a touch burns, and when a part has cooled.
//!
//! A threshold is no promise: skin differs, and it holds only where less than a tenth of the skin
//! touches (ISO 13732-1). An estimate of cooling tells when to measure and never stands for a reading.

use std::fmt;

use schemars::JsonSchema;
use serde::Deserialize;

use crate::language::{Language, Words};
use crate::quantity::{Dimension, NoNumber, NoQuantity, Number, Quantity, Rounding};

/// What a surface is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// Metal without a coating.
    BareMetal,
    /// Metal with a coating of about 50 µm.
    CoatedMetal,
    /// Ceramic, glass, stone.
    Ceramic,
    /// Plastic.
    Plastic,
    /// Wood.
    Wood,
}

impl Surface {
    /// As it stands on sheets.
    pub fn words(self, language: Language) -> &'static str {
        match self {
            Surface::BareMetal => language.word("lines-bare-metal"),
            Surface::CoatedMetal => language.word("lines-coated-metal"),
            Surface::Ceramic => language.word("lines-ceramic"),
            Surface::Plastic => language.word("lines-plastic"),
            Surface::Wood => language.word("lines-wood"),
        }
    }
}

/// Below this temperature no touch burns, however long it lasts: 43 °C, EN 563:1994 and
/// ISO 13732-1, 8 h and more.
pub const NEVER_BURNS: Quantity = celsius(43);

/// One published figure.
struct Row {
    surface: Surface,
    /// The longest contact it holds for, in tenths of a second; none for 8 h and more.
    tenths: Option<i64>,
    /// Threshold in °C: of a published range the lower end.
    threshold: i64,
    /// Where it was published.
    source: &'static str,
}

const fn row(surface: Surface, tenths: Option<i64>, threshold: i64, source: &'static str) -> Row {
    Row { surface, tenths, threshold, source }
}

/// The table, for each surface from the shortest contact to the longest.
///
/// For other surfaces than bare metal the figures of 10 min and of 8 h are those of bare metal, which
/// burns first. That the standards print the same figures for all surfaces is from memory.
const TABLE: [Row; 24] = {
    use Surface::{BareMetal, Ceramic, CoatedMetal, Plastic, Wood};
    const EN: &str = "EN 563:1994, as quoted by an accident insurer";
    const ISO: &str = "ISO 13732-1, as quoted by an insulation maker";
    const BOTH: &str = "EN 563:1994 and ISO 13732-1, as quoted";
    const SHORTEST: &str = "ISO 13732-1, 4.2.1.2, as quoted";
    const BETWEEN: &str = "ISO 13732-1, interpolated (from memory)";
    const BARE: &str = "EN 563:1994, figure of bare metal";
    const MIN: i64 = 600;
    [
        row(BareMetal, Some(5), 65, SHORTEST),
        row(BareMetal, Some(10), 62, ISO), // 62 to 65; EN 563 has 65 to 70
        row(BareMetal, Some(20), 60, ISO), // 60 to 64
        row(BareMetal, Some(50), 56, ISO), // 56 to 61
        row(BareMetal, Some(100), 55, BETWEEN), // 55 to 58
        row(BareMetal, Some(MIN), 51, BOTH),
        row(BareMetal, Some(10 * MIN), 48, BOTH),
        row(BareMetal, None, 43, BOTH),
        row(CoatedMetal, Some(10), 75, EN), // 75 to 80
        row(CoatedMetal, Some(MIN), 51, EN),
        row(CoatedMetal, Some(10 * MIN), 48, BARE),
        row(CoatedMetal, None, 43, BARE),
        row(Ceramic, Some(10), 80, EN), // 80 to 86
        row(Ceramic, Some(MIN), 56, EN),
        row(Ceramic, Some(10 * MIN), 48, BARE),
        row(Ceramic, None, 43, BARE),
        row(Plastic, Some(10), 86, EN), // 86 to 93
        row(Plastic, Some(MIN), 60, EN),
        row(Plastic, Some(10 * MIN), 48, BARE),
        row(Plastic, None, 43, BARE),
        row(Wood, Some(10), 110, EN), // 110 to 140
        row(Wood, Some(MIN), 60, EN),
        row(Wood, Some(10 * MIN), 48, BARE),
        row(Wood, None, 43, BARE),
    ]
};

/// The shortest contact the figures hold for: 0.5 s (ISO 13732-1).
const SHORTEST_CONTACT: Number = Number::constant(1, 2);

/// Whole degrees Celsius on the scale.
const fn celsius(degrees: i64) -> Quantity {
    let amount = Number::constant(degrees as i128 * 100 + 27_315, 100);
    Quantity { amount, dimension: Dimension::TEMPERATURE }
}

/// From which temperature on a touch burns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Threshold {
    /// The temperature.
    pub temperature: Quantity,
    /// Where it was published.
    pub source: &'static str,
}

/// No threshold is known, or no time of cooling can be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoTouch {
    /// The contact is shorter than the figures reach.
    TooShort,
    /// The part never gets as cool as that: the air is as warm.
    NeverCools,
    /// Less than a minute of time constant, or more than a day of cooling.
    NoEstimate,
    /// Something has the wrong dimension, or a number became too large.
    Quantity(NoQuantity),
}

impl<T: Into<NoQuantity>> From<T> for NoTouch {
    fn from(no: T) -> NoTouch {
        NoTouch::Quantity(no.into())
    }
}

impl NoTouch {
    /// What is wrong.
    pub fn words(&self) -> Words {
        match self {
            NoTouch::TooShort => Words::of("touch-too-short"),
            NoTouch::NeverCools => Words::of("touch-never-cools"),
            NoTouch::NoEstimate => Words::of("touch-no-estimate"),
            NoTouch::Quantity(no) => no.words(),
        }
    }
}

impl fmt::Display for NoTouch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for NoTouch {}

/// The burn threshold of a surface for a contact. A contact between two published times takes the
/// longer one.
///
/// # Errors
/// [`NoTouch::TooShort`] below 0.5 s; [`NoTouch::Quantity`] for something that is no time.
pub fn burn_threshold(surface: Surface, contact: Quantity) -> Result<Threshold, NoTouch> {
    let shortest = Quantity { amount: SHORTEST_CONTACT, dimension: Dimension::TIME };
    if contact.compare(shortest)?.is_lt() {
        return Err(NoTouch::TooShort);
    }
    let tenths = contact.amount.mul(Number::from(10_i64))?;
    let holds = |row: &&Row| {
        row.surface == surface && row.tenths.is_none_or(|most| tenths <= Number::from(most))
    };
    let row = TABLE.iter().find(holds).ok_or(NoTouch::TooShort)?;
    Ok(Threshold { temperature: celsius(row.threshold), source: row.source })
}

/// A part that cools in still air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cooling {
    /// Temperature when it is switched off.
    pub from: Quantity,
    /// Temperature it shall come down to.
    pub to: Quantity,
    /// Temperature of the air.
    pub air: Quantity,
    /// Time in which its excess over the air falls to 1/e.
    pub constant: Quantity,
}

/// A day: nobody waits longer for a changeover.
const MOST_MINUTES: u32 = 24 * 60;

/// Terms of the series of e^x; for x up to 1 the rest is below 10^-17.
const TERMS: u32 = 18;

/// Growth is rounded down to this many decimals.
const PLACES: u32 = 15;

/// The first whole minute by which a part has cooled: excess · e^(-t / constant) <= excess wanted.
///
/// Newton's law of cooling, written as e^(t / constant) >= excess / excess wanted. e^x is taken too
/// small, by partial sums that are rounded down, so that the minute is never too early.
///
/// # Errors
/// [`NoTouch::NeverCools`], [`NoTouch::NoEstimate`]; [`NoTouch::Quantity`] for a wrong dimension.
pub fn minutes_to_cool(cooling: &Cooling) -> Result<u32, NoTouch> {
    if cooling.from.compare(cooling.to)?.is_le() {
        return Ok(0);
    }
    if cooling.to.compare(cooling.air)?.is_le() {
        return Err(NoTouch::NeverCools);
    }
    let minute = Quantity { amount: Number::from(60_i64), dimension: Dimension::TIME };
    if cooling.constant.compare(minute)?.is_lt() {
        return Err(NoTouch::NoEstimate);
    }
    let wanted = cooling.from.sub(cooling.air)?.amount.div(cooling.to.sub(cooling.air)?.amount)?;
    let each = growth(minute.amount.div(cooling.constant.amount)?)?;
    let mut grown = Number::ONE;
    for minutes in 1..=MOST_MINUTES {
        grown = down(grown.mul(each)?)?;
        if grown >= wanted {
            return Ok(minutes);
        }
    }
    Err(NoTouch::NoEstimate)
}

/// No more than e^x, for x from 0 to 1.
fn growth(x: Number) -> Result<Number, NoNumber> {
    let (mut sum, mut term) = (Number::ONE, Number::ONE);
    for number in 1..=TERMS {
        term = down(term.mul(x)?.div(Number::from(number))?)?;
        sum = sum.add(term)?;
    }
    Ok(sum)
}

fn down(number: Number) -> Result<Number, NoNumber> {
    number.round_to_step(Number::last_place(PLACES)?, Rounding::Down)
}

#[cfg(test)]
#[allow(clippy::disallowed_types, reason = "the true value is compared in floats")]
mod tests {
    use proptest::prelude::*;

    use super::{Cooling, NoTouch, Surface, TABLE, burn_threshold, minutes_to_cool};
    use crate::quantity::{Measure, Quantity, Unit};

    fn quantity(text: &str) -> Quantity {
        Measure::parse(text).unwrap().quantity
    }

    #[track_caller]
    fn check(surface: Surface, contact: &str, expected: &str) {
        let found = burn_threshold(surface, quantity(contact)).unwrap();
        assert_eq!(found.temperature.show(Unit::find("°C"), 0).unwrap(), expected, "{contact}");
    }

    /// ISO 13732-1 as quoted by an insulation maker (1 s to 5 s) and in a safety article (0.5 s); EN
    /// 563:1994 as quoted by an accident insurer (1 min to 8 h); 10 s from memory.
    #[test]
    fn bare_metal_has_its_published_thresholds() {
        for (contact, expected) in [
            ("0.5 s", "65 °C"),
            ("1 s", "62 °C"),
            ("2 s", "60 °C"),
            ("5 s", "56 °C"),
            ("10 s", "55 °C"),
            ("1 min", "51 °C"),
            ("10 min", "48 °C"),
            ("8 h", "43 °C"),
            ("9 h", "43 °C"),
        ] {
            check(Surface::BareMetal, contact, expected);
        }
    }

    /// EN 563:1994 as quoted by an accident insurer, lower ends.
    #[test]
    fn other_surfaces_have_their_published_thresholds() {
        for (surface, second, minute) in [
            (Surface::CoatedMetal, "75 °C", "51 °C"),
            (Surface::Ceramic, "80 °C", "56 °C"),
            (Surface::Plastic, "86 °C", "60 °C"),
            (Surface::Wood, "110 °C", "60 °C"),
        ] {
            check(surface, "1 s", second);
            check(surface, "0.5 s", second);
            check(surface, "1 min", minute);
            check(surface, "10 min", "48 °C");
            check(surface, "8 h", "43 °C");
        }
    }

    #[test]
    fn a_contact_between_two_times_takes_the_longer_one() {
        check(Surface::BareMetal, "0.51 s", "62 °C");
        check(Surface::BareMetal, "11 s", "51 °C");
        check(Surface::BareMetal, "61 s", "48 °C");
        check(Surface::BareMetal, "11 min", "43 °C");
        check(Surface::Wood, "2 s", "60 °C");
    }

    #[test]
    fn beyond_the_table_nothing_is_said() {
        let no = |contact| burn_threshold(Surface::Wood, quantity(contact));
        assert_eq!(no("0.49 s"), Err(NoTouch::TooShort));
        assert_eq!(no("0 s"), Err(NoTouch::TooShort));
        assert!(matches!(no("5 mm"), Err(NoTouch::Quantity(_))));
    }

    #[test]
    fn longer_contact_never_has_a_higher_threshold() {
        for pair in TABLE.windows(2) {
            if pair[0].surface == pair[1].surface {
                assert!(pair[0].threshold > pair[1].threshold);
                let longer = pair[1].tenths.is_none_or(|tenths| Some(tenths) > pair[0].tenths);
                assert!(longer && pair[0].tenths.is_some());
            } else {
                assert_eq!(pair[0].tenths, None);
            }
        }
    }

    fn cooling(from: &str, to: &str, air: &str, constant: &str) -> Result<u32, NoTouch> {
        minutes_to_cool(&Cooling {
            from: quantity(from),
            to: quantity(to),
            air: quantity(air),
            constant: quantity(constant),
        })
    }

    /// Worked by hand: 25 min * ln(155/23) = 47.7 min; 25 min * ln(75/26) = 26.5 min.
    #[test]
    fn cooling_takes_the_next_whole_minute() {
        assert_eq!(cooling("180 °C", "48 °C", "25 °C", "25 min"), Ok(48));
        assert_eq!(cooling("100 °C", "51 °C", "25 °C", "25 min"), Ok(27));
        assert_eq!(cooling("212 °F", "51 °C", "77 °F", "1500 s"), Ok(27));
        assert_eq!(cooling("40 °C", "48 °C", "25 °C", "25 min"), Ok(0));
    }

    #[test]
    fn what_cannot_be_told_is_refused() {
        assert_eq!(cooling("100 °C", "48 °C", "48 °C", "25 min"), Err(NoTouch::NeverCools));
        assert_eq!(cooling("100 °C", "48 °C", "25 °C", "59 s"), Err(NoTouch::NoEstimate));
        assert_eq!(cooling("500 °C", "26 °C", "25 °C", "9 h"), Err(NoTouch::NoEstimate));
        assert!(matches!(cooling("1 bar", "2 °C", "1 °C", "9 h"), Err(NoTouch::Quantity(_))));
    }

    /// The exact minute, as a float.
    fn true_minutes([from, to, air, constant]: [u32; 4]) -> f64 {
        let ratio = f64::from(from - air) / f64::from(to - air);
        f64::from(constant) * ratio.ln()
    }

    fn estimated([from, to, air, constant]: [u32; 4]) -> Result<u32, NoTouch> {
        let degrees = |number: u32| format!("{number} °C");
        cooling(&degrees(from), &degrees(to), &degrees(air), &format!("{constant} min"))
    }

    proptest! {
        /// 10^-9 min is what floats may be off.
        #[test]
        fn never_too_early_and_never_a_minute_too_late(
            air in 0_u32..40, above in 1_u32..60, hotter in 1_u32..400, constant in 1_u32..120,
        ) {
            let given = [air + above + hotter, air + above, air, constant];
            let truth = true_minutes(given);
            match estimated(given) {
                Ok(minutes) => {
                    prop_assert!(f64::from(minutes) >= truth - 1e-9);
                    prop_assert!(f64::from(minutes) < truth + 1.0 + 1e-9);
                }
                Err(no) => {
                    prop_assert_eq!(no, NoTouch::NoEstimate);
                    prop_assert!(truth > 1439.9);
                }
            }
        }

        #[test]
        fn hotter_slower_or_warmer_air_never_takes_less(
            air in 0_u32..40, above in 2_u32..60, hotter in 1_u32..300, constant in 1_u32..80,
        ) {
            let given = [air + above + hotter, air + above, air, constant];
            if let Ok(minutes) = estimated(given) {
                for (index, up) in [(0, 1), (2, 1), (3, 1)] {
                    let mut more = given;
                    more[index] += up;
                    prop_assert!(estimated(more).is_ok_and(|more| more >= minutes) || minutes > 1300);
                }
                let mut cooler = given;
                cooler[1] += 1;
                prop_assert!(estimated(cooler).is_ok_and(|less| less <= minutes));
            }
        }
    }
}
