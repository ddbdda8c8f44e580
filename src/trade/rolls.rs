//! How much film is on a roll: length, diameter, thickness, mass.
//!
//! All numbers are in base units: lengths in mm, masses in kg, grammages in kg/mm², densities in
//! kg/mm³. The roll is taken as a ring of area π(D² - d²)/4 that the film's cross-section L·t
//! fills; air wound in counts as thickness, so a thickness worked out from a roll of known length
//! ([`fn@thickness`]) serves better here than a micrometer's.

use std::fmt;

use crate::quantity::{NoNumber, Number, Rounding};

/// Sheets in a ream.
const REAM: i64 = 500;

/// Why there is no figure of a roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRoll {
    /// Something that must be above zero is not, or a loss is below it.
    NotPositive,
    /// The roll would be no larger than its core.
    OutsideNotGreater {
        /// Outside diameter.
        outside: Number,
        /// Core diameter.
        core: Number,
    },
    /// Threading and tail take the whole roll.
    NothingUsable {
        /// Length of a roll.
        roll: Number,
        /// What is lost of each.
        start_up: Number,
    },
    /// More rolls than anybody plans.
    TooMany {
        /// The most that are planned.
        most: u32,
    },
    /// A number became too large, or was divided by nothing.
    Number(NoNumber),
}

impl From<NoNumber> for NoRoll {
    fn from(no: NoNumber) -> NoRoll {
        NoRoll::Number(no)
    }
}

impl fmt::Display for NoRoll {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoRoll::NotPositive => f.write_str("something that must be above zero is not"),
            NoRoll::OutsideNotGreater { outside, core } => {
                write!(f, "a roll of {outside} mm is no larger than its core of {core} mm")
            }
            NoRoll::NothingUsable { roll, start_up } => {
                write!(f, "a roll of {roll} mm loses {start_up} mm: nothing is left to run")
            }
            NoRoll::TooMany { most } => write!(f, "more than {most} rolls"),
            NoRoll::Number(no) => no.fmt(f),
        }
    }
}

impl std::error::Error for NoRoll {}

/// Length of the film on a roll: L = π(D² - d²)/(4t), all in mm.
///
/// Source: a university mathematics forum; equal to the sum of the single layers whenever they are
/// whole (checked below).
///
/// # Errors
/// [`NoRoll::NotPositive`], [`NoRoll::OutsideNotGreater`], or no number.
pub fn length(outside: Number, core: Number, thickness: Number) -> Result<Number, NoRoll> {
    all_positive(&[thickness])?;
    Ok(side_area(outside, core)?.div(thickness)?)
}

/// Outside diameter of a roll: D = √(d² + 4Lt/π), all in mm, right to 15 digits.
///
/// A length of nothing leaves the core.
///
/// # Errors
/// [`NoRoll::NotPositive`], or no number.
pub fn outside(length: Number, core: Number, thickness: Number) -> Result<Number, NoRoll> {
    all_positive(&[thickness])?;
    none_negative(&[length, core])?;
    let film = Number::from(4_u32).mul(length)?.mul(thickness)?.div(Number::PI)?;
    Ok(core.mul(core)?.add(film)?.sqrt()?)
}

/// Thickness of the film as wound: t = π(D² - d²)/(4L), all in mm.
///
/// # Errors
/// As [`fn@length`].
pub fn thickness(outside: Number, core: Number, length: Number) -> Result<Number, NoRoll> {
    all_positive(&[length])?;
    Ok(side_area(outside, core)?.div(length)?)
}

/// Whole pieces that a length gives; both in mm.
///
/// # Errors
/// [`NoRoll::NotPositive`] for a cut of nothing or a negative length, or no number.
pub fn pieces(length: Number, cut: Number) -> Result<u64, NoRoll> {
    all_positive(&[cut])?;
    none_negative(&[length])?;
    let whole = length.div(cut)?.round_to_step(Number::ONE, Rounding::Down)?;
    whole.decimal(0).parse().map_err(|_| NoRoll::Number(NoNumber::Overflow))
}

/// Mass of a web: L·W·grammage; mm, mm, kg/mm² to kg.
///
/// # Errors
/// [`NoRoll::NotPositive`], or no number.
pub fn mass(length: Number, width: Number, grammage: Number) -> Result<Number, NoRoll> {
    all_positive(&[width, grammage])?;
    none_negative(&[length])?;
    Ok(length.mul(width)?.mul(grammage)?)
}

/// Length of a web of known mass: m/(W·grammage); kg, mm, kg/mm² to mm.
///
/// # Errors
/// [`NoRoll::NotPositive`], or no number.
pub fn length_of_mass(mass: Number, width: Number, grammage: Number) -> Result<Number, NoRoll> {
    all_positive(&[width, grammage])?;
    none_negative(&[mass])?;
    Ok(mass.div(width.mul(grammage)?)?)
}

/// Mass of an area of film: t·ρ; mm and kg/mm³ to kg/mm². Layers of a laminate add up.
///
/// # Errors
/// [`NoRoll::NotPositive`], or no number.
pub fn grammage(thickness: Number, density: Number) -> Result<Number, NoRoll> {
    all_positive(&[thickness, density])?;
    Ok(thickness.mul(density)?)
}

/// Mass of an area of paper by its ream, 500 sheets of the basic size; kg, mm, mm to kg/mm².
///
/// A basis weight means nothing without its basic size.
///
/// # Errors
/// [`NoRoll::NotPositive`], or no number.
pub fn grammage_of_ream(mass: Number, width: Number, length: Number) -> Result<Number, NoRoll> {
    all_positive(&[mass, width, length])?;
    Ok(mass.div(Number::from(REAM).mul(width)?.mul(length)?)?)
}

/// Area of the ring that the film fills, seen from the side.
fn side_area(outside: Number, core: Number) -> Result<Number, NoRoll> {
    all_positive(&[outside])?;
    none_negative(&[core])?;
    if outside <= core {
        return Err(NoRoll::OutsideNotGreater { outside, core });
    }
    let squares = outside.mul(outside)?.sub(core.mul(core)?)?;
    Ok(Number::PI.mul(squares)?.div(Number::from(4_u32))?)
}

pub(super) fn all_positive(numbers: &[Number]) -> Result<(), NoRoll> {
    let fits = numbers.iter().all(|number| *number > Number::ZERO);
    if fits { Ok(()) } else { Err(NoRoll::NotPositive) }
}

pub(super) fn none_negative(numbers: &[Number]) -> Result<(), NoRoll> {
    let fits = numbers.iter().all(|number| !number.is_negative());
    if fits { Ok(()) } else { Err(NoRoll::NotPositive) }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{
        NoRoll, grammage, grammage_of_ream, length, length_of_mass, mass, outside, pieces,
        thickness,
    };
    use crate::quantity::{Measure, Number};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    /// In base units.
    fn base(text: &str) -> Number {
        Measure::parse(text).unwrap().quantity.amount
    }

    #[track_caller]
    fn check(roll: &str, expected: &str) {
        let [outside_, core, thick] = roll.split(", ").map(base).collect::<Vec<_>>()[..] else {
            panic!("three lengths");
        };
        let found = length(outside_, core, thick).unwrap();
        assert_eq!(found.div(number("1000")).unwrap().decimal(3), expected, "{roll}");
        assert_eq!(outside(found, core, thick), Ok(outside_));
        assert_eq!(thickness(outside_, core, found), Ok(thick));
    }

    /// Worked independently.
    #[test]
    fn lengths_are_the_independently_worked_ones() {
        check("300 mm, 76.2 mm, 0.05 mm", "1322.509");
        check("400 mm, 76.2 mm, 0.06 mm", "2018.389");
        check("600 mm, 152.4 mm, 40 µm", "6612.547");
        check("250 mm, 70 mm, 80 µm", "565.487");
        check("24 in, 3 in, 2 mil", "5655.574");
    }

    /// Worked independently: 24 in on 3 in of 2 mil are 18 555.03 ft.
    #[test]
    fn inches_and_mils_give_feet() {
        let found = length(base("24 in"), base("3 in"), base("2 mil")).unwrap();
        assert_eq!(found.div(base("1 ft")).unwrap().decimal(2), "18555.03");
    }

    /// The other way to count: the middle lines of all layers, one circle after another.
    #[track_caller]
    fn check_layers(outside: &str, core: &str, thick: &str, layers: u32) {
        let (outside, core, thick) = (number(outside), number(core), number(thick));
        let mut sum = Number::ZERO;
        for layer in 0..layers {
            let wound = Number::from(2 * layer + 1).mul(thick).unwrap();
            sum = sum.add(core.add(wound).unwrap()).unwrap();
        }
        assert_eq!(length(outside, core, thick), Ok(Number::PI.mul(sum).unwrap()));
    }

    /// Layers worked independently as (D - d)/(2t).
    #[test]
    fn whole_layers_add_up_to_the_same_length() {
        check_layers("300", "76.2", "0.05", 2238);
        check_layers("600", "152.4", "0.04", 5595);
        check_layers("250", "70", "0.08", 1125);
        check_layers("609.6", "76.2", "0.0508", 5250);
    }

    /// Worked independently: thickness +5 % takes 4.76 % of the length, diameter +1 mm adds 0.52 %.
    #[test]
    fn a_change_of_thickness_or_diameter_shifts_the_length() {
        let usual = length(number("400"), number("76.2"), number("0.06")).unwrap();
        let percent = |other: Result<Number, NoRoll>| {
            let change = other.unwrap().sub(usual).unwrap().div(usual).unwrap();
            change.mul(number("100")).unwrap().decimal(2)
        };
        assert_eq!(percent(length(number("400"), number("76.2"), number("0.063"))), "-4.76");
        assert_eq!(percent(length(number("401"), number("76.2"), number("0.06"))), "0.52");
    }

    /// Worked independently.
    #[test]
    fn pieces_are_whole() {
        let film = length(number("400"), number("76.2"), number("0.06")).unwrap();
        for (cut, expected) in [("150", 13455), ("152.4", 13244), ("180", 11213), ("210", 9611)] {
            assert_eq!(pieces(film, number(cut)), Ok(expected), "{cut} mm");
        }
        assert_eq!(pieces(number("360"), number("180")), Ok(2));
        assert_eq!(pieces(number("359.999"), number("180")), Ok(1));
    }

    /// Worked independently; densities from memory.
    #[test]
    fn grammages_are_thickness_times_density() {
        let per_cm3 = |text: &str| number(text).div(number("1000000")).unwrap();
        let film = |thick: &str, density: &str| grammage(base(thick), per_cm3(density)).unwrap();
        assert_eq!(film("60 µm", "0.92"), base("55.2 g/m²"));
        let laminate = film("12 µm", "1.4").add(film("50 µm", "0.92")).unwrap();
        assert_eq!(laminate, base("62.8 g/m²"));
    }

    /// Worked independently: 2018.389 m · 0.352 m · 55.2 g/m² = 39.218 kg; 25 kg are 1286.64 m.
    #[test]
    fn mass_and_length_follow_from_the_grammage() {
        let found = mass(base("2018.389 m"), number("352"), base("55.2 g/m²")).unwrap();
        assert_eq!(found.decimal(3), "39.218");
        let film = length_of_mass(number("25"), number("352"), base("55.2 g/m²")).unwrap();
        assert_eq!(film.div(base("1 m")).unwrap().decimal(2), "1286.64");
    }

    /// A print-trade encyclopaedia: 20 lb bond (17 × 22 in) = 75.2 g/m², and its factors per pound;
    /// 25 × 38 in worked independently; a printed example of 28 lb on 17 × 22 in, 105.3 g/m².
    #[test]
    fn reams_have_the_published_grammage() {
        let ream = |pounds: &str, width: &str, length: &str, places| {
            let found = grammage_of_ream(base(pounds), base(width), base(length)).unwrap();
            found.div(base("1 g/m²")).unwrap().decimal(places)
        };
        assert_eq!(ream("20 lb", "17 in", "22 in", 1), "75.2");
        assert_eq!(ream("28 lb", "17 in", "22 in", 1), "105.3");
        assert_eq!(ream("1 lb", "25 in", "38 in", 2), "1.48");
        assert_eq!(ream("1 lb", "17 in", "22 in", 3), "3.760");
        assert_eq!(ream("1 lb", "20 in", "26 in", 3), "2.704");
        assert_eq!(ream("1 lb", "24 in", "36 in", 3), "1.627");
    }

    /// A sack makers' association: a thousand bags weigh width × tube length × basis weight
    /// (24 × 36 in) / 432 pounds.
    #[test]
    fn a_thousand_bags_weigh_what_sack_makers_say() {
        let sheet = grammage_of_ream(base("50 lb"), base("24 in"), base("36 in")).unwrap();
        let bag = mass(base("30 in"), base("20 in"), sheet).unwrap();
        let pounds = bag.mul(number("1000")).unwrap().div(base("1 lb")).unwrap();
        assert_eq!(pounds, number("30").mul(number("1000")).unwrap().div(number("432")).unwrap());
    }

    #[test]
    fn what_is_no_roll_is_refused() {
        let [zero, one, two] = ["0", "1", "2"].map(number);
        let too_small = NoRoll::OutsideNotGreater { outside: one, core: one };
        assert_eq!(length(one, one, one), Err(too_small));
        assert_eq!(length(two, one, zero), Err(NoRoll::NotPositive));
        assert_eq!(length(two, one.neg(), one), Err(NoRoll::NotPositive));
        assert_eq!(thickness(two, one, zero), Err(NoRoll::NotPositive));
        assert_eq!(outside(one.neg(), one, one), Err(NoRoll::NotPositive));
        assert_eq!(outside(zero, one, one), Ok(one));
        assert_eq!(pieces(one, zero), Err(NoRoll::NotPositive));
        assert_eq!(mass(one, one, zero), Err(NoRoll::NotPositive));
        let huge = number("999999999999999999");
        assert!(matches!(pieces(huge.mul(huge).unwrap(), one), Err(NoRoll::Number(_))));
    }

    fn roll() -> impl Strategy<Value = (Number, Number, Number)> {
        (300..16_000_i64, 1..16_000_i64, 50..5_000_i64).prop_map(|(core, more, thick)| {
            let core_ = Number::ratio(core, 10).unwrap();
            let outside = Number::ratio(core + more, 10).unwrap();
            (outside, core_, Number::ratio(thick, 10_000).unwrap())
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]

        #[test]
        fn a_length_gives_its_diameter_and_back(
            (_, core, thick) in roll(),
            film in 1..100_000_000_i64,
        ) {
            let film = Number::ratio(film, 8).unwrap();
            let back = length(outside(film, core, thick).unwrap(), core, thick).unwrap();
            let off = back.sub(film).unwrap().abs();
            prop_assert!(off <= film.mul(Number::last_place(9).unwrap()).unwrap());
        }

        /// L·W·(t·ρ) is the ring's area times width times density, whatever the thickness.
        #[test]
        fn the_mass_is_that_of_the_ring(
            (outside, core, thick) in roll(),
            width in 1..3_000_i64,
            density in 800..1_500_i64,
        ) {
            let width = Number::from(width);
            let density = Number::ratio(density, 10_i64.pow(9)).unwrap();
            let film = length(outside, core, thick).unwrap();
            let found = mass(film, width, grammage(thick, density).unwrap()).unwrap();
            let squares = outside.mul(outside).unwrap().sub(core.mul(core).unwrap()).unwrap();
            let area = Number::PI.mul(squares).unwrap().div(Number::from(4_u32)).unwrap();
            prop_assert_eq!(found, area.mul(width).unwrap().mul(density).unwrap());
        }
    }
}
