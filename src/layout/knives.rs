//! Where knives stand: at every lane boundary, and at the web's edges when these are cut.

use super::rail::NoLayout;
use crate::quantity::number::{NoNumber, Number};

/// What a recipe asks of the knives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Knives {
    /// Lanes run.
    pub lanes: u32,
    /// Width of one strip.
    pub strip: Number,
    /// Edge trim on each side.
    pub trim: Number,
    /// Whether the web's edges are cut too.
    pub edge_cuts: bool,
}

/// The knives of one job, from left to right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnifeLayout {
    /// Where a knife cuts.
    pub cuts: Vec<Number>,
    /// Left and right edge of each lane.
    pub lanes: Vec<(Number, Number)>,
    /// Left and right edge of the web.
    pub web: (Number, Number),
}

/// More lanes than any web has; keeps hostile input small.
const MOST_LANES: u32 = 10_000;

/// Places a knife at every lane boundary and, with edge cuts, at both outer lanes' edges.
///
/// Boundary `k` of `0..=lanes` stands at `k * strip - lanes * strip / 2`: an even count puts one on
/// the datum, an odd count the middle of a lane. The web is `lanes * strip + 2 * trim` wide.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoLayout::NotPositive`] for no lanes or a strip of nothing, [`NoLayout::TooMany`], or no number.
pub fn place_knives(knives: &Knives) -> Result<KnifeLayout, NoLayout> {
    let &Knives { lanes, strip, trim, edge_cuts } = knives;
    if lanes == 0 || strip <= Number::ZERO || trim.is_negative() {
        return Err(NoLayout::NotPositive);
    }
    if lanes > MOST_LANES {
        return Err(NoLayout::TooMany { most: MOST_LANES });
    }
    let left = half(Number::from(i64::from(lanes)).mul(strip)?)?.neg();
    let boundaries = (0..=lanes)
        .map(|k| left.add(Number::from(i64::from(k)).mul(strip)?))
        .collect::<Result<Vec<_>, NoNumber>>()?;
    let web = (left.sub(trim)?, left.neg().add(trim)?);
    let lanes = boundaries.windows(2).map(|pair| (pair[0], pair[1])).collect();
    let inner = 1..boundaries.len() - 1;
    let cuts = if edge_cuts { boundaries } else { boundaries[inner].to_vec() };
    Ok(KnifeLayout { cuts, lanes, web })
}

/// Half of a number.
pub(super) fn half(number: Number) -> Result<Number, NoNumber> {
    number.div(Number::TWO)
}

#[cfg(test)]
mod tests {
    use super::{Knives, place_knives};
    use crate::layout::rail::NoLayout;
    use crate::quantity::number::Number;

    #[track_caller]
    fn check(lanes: u32, strip: &str, trim: &str, edge_cuts: bool, web: &str, cuts: &str) {
        let number = |text: &str| Number::parse(text).unwrap();
        let knives = Knives { lanes, strip: number(strip), trim: number(trim), edge_cuts };
        let layout = place_knives(&knives).unwrap();
        let found: Vec<String> = layout.cuts.iter().map(ToString::to_string).collect();
        assert_eq!(found.join(" "), cuts);
        assert_eq!(layout.web.1.sub(layout.web.0).unwrap(), number(web));
        assert_eq!(layout.lanes.len(), lanes as usize);
    }

    /// Independently worked layouts L1 to L10, I1 to I4 (worked by hand and in exact fractions).
    #[test]
    fn layouts_are_the_independently_worked_ones() {
        check(1, "112", "8", true, "128", "-56 56");
        check(2, "112", "8", true, "240", "-112 0 112");
        check(3, "112", "8", true, "352", "-168 -56 56 168");
        check(4, "56", "0", false, "224", "-56 0 56");
        check(5, "56", "6", true, "292", "-140 -84 -28 28 84 140");
        check(6, "56", "6", true, "348", "-168 -112 -56 0 56 112 168");
        check(7, "80", "10", true, "580", "-280 -200 -120 -40 40 120 200 280");
        check(8, "42.5", "5", true, "350", "-170 -127.5 -85 -42.5 0 42.5 85 127.5 170");
        check(10, "38", "5", true, "390", "-190 -152 -114 -76 -38 0 38 76 114 152 190");
        check(12, "30", "4", true, "368", "-180 -150 -120 -90 -60 -30 0 30 60 90 120 150 180");
        check(3, "4 1/4", "1/4", true, "13 1/4", "-6.375 -2.125 2.125 6.375");
        check(4, "4 3/8", "1/4", true, "18", "-8.75 -4.375 0 4.375 8.75");
        check(5, "2 1/4", "3/16", true, "11 5/8", "-5.625 -3.375 -1.125 1.125 3.375 5.625");
        check(6, "1 13/16", "1/4", true, "11 3/8", "-5.4375 -3.625 -1.8125 0 1.8125 3.625 5.4375");
    }

    /// Common practice, no source: ten lanes of 56 mm need a web of 560 mm.
    #[test]
    fn ten_lanes_of_56_need_560() {
        let cuts = "-280 -224 -168 -112 -56 0 56 112 168 224 280";
        check(10, "56", "0", true, "560", cuts);
    }

    #[test]
    fn a_layout_is_mirror_symmetric_and_has_the_datum_only_when_even() {
        for lanes in 1..60 {
            let knives = Knives {
                lanes,
                strip: Number::parse("37.3").unwrap(),
                trim: Number::ZERO,
                edge_cuts: true,
            };
            let cuts = place_knives(&knives).unwrap().cuts;
            for (left, right) in cuts.iter().zip(cuts.iter().rev()) {
                assert_eq!(*left, right.neg());
            }
            assert_eq!(cuts.contains(&Number::ZERO), lanes % 2 == 0);
        }
    }

    #[test]
    fn nothing_to_cut_is_refused() {
        let strip = Number::parse("56").unwrap();
        let knives = Knives { lanes: 0, strip, trim: Number::ZERO, edge_cuts: true };
        assert_eq!(place_knives(&knives), Err(NoLayout::NotPositive));
        let knives = Knives { lanes: u32::MAX, ..knives };
        assert_eq!(place_knives(&knives), Err(NoLayout::TooMany { most: 10_000 }));
    }
}
