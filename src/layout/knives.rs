//! Where knives stand: at every edge of a lane, and at the web's edges when these are cut.

use super::lanes::Lanes;
use super::rail::NoLayout;
use crate::quantity::number::{NoNumber, Number};

/// What a recipe asks of the knives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Knives {
    /// Lanes run.
    pub run: Lanes,
    /// Width of one strip.
    pub strip: Number,
    /// Edge trim on each side.
    pub trim: Number,
    /// Whether the web's edges are cut too.
    pub edge_cuts: bool,
}

/// A lane and where it runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlacedLane {
    /// Its number; lanes are numbered from the left, run or not.
    pub number: u32,
    /// Its left edge, from the datum.
    pub left: Number,
    /// Its right edge, from the datum.
    pub right: Number,
}

/// The knives of one job, from left to right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnifeLayout {
    /// Where a knife cuts.
    pub cuts: Vec<Number>,
    /// The lanes run.
    pub lanes: Vec<PlacedLane>,
    /// Left and right edge of the web.
    pub web: (Number, Number),
    /// How far the middle of the web lies from the datum; more than zero is to the right.
    pub web_offset: Number,
}

/// Places a knife at every edge of a lane; at the two outermost edges only with edge cuts.
///
/// Of `n` lanes centred on the datum lane `i` reaches from `(i - 1) * strip - n * strip / 2` to
/// `i * strip - n * strip / 2`: an even count puts an edge on the datum, an odd count the middle of a
/// lane. Lanes that do not run are waste: one strip as wide as all of them when they lie between
/// lanes run, no web when they lie outside. So neighbours share a knife, and each side of a waste
/// strip has its own. The web reaches past the outermost lanes run by the trim.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoLayout::NotPositive`] for no lanes or a strip of nothing; [`NoLayout::TooMany`],
/// [`NoLayout::TooFewLanes`], [`NoLayout::NoSuchLane`] or [`NoLayout::LanesNotRising`] for lanes that
/// are not there; or no number.
pub fn place_knives(knives: &Knives) -> Result<KnifeLayout, NoLayout> {
    let &Knives { ref run, strip, trim, edge_cuts } = knives;
    if strip <= Number::ZERO || trim.is_negative() {
        return Err(NoLayout::NotPositive);
    }
    let numbers = run.numbers()?;
    let origin = half(Number::from(run.centred()).mul(strip)?)?.neg();
    let edge = |lane: u32| origin.add(Number::from(lane).mul(strip)?);
    let placed =
        |number: u32| Ok(PlacedLane { number, left: edge(number - 1)?, right: edge(number)? });
    let lanes = numbers.into_iter().map(placed).collect::<Result<Vec<_>, NoNumber>>()?;
    let edges = edges(&lanes);
    let (Some(first), Some(last)) = (edges.first(), edges.last()) else {
        return Err(NoLayout::NotPositive);
    };
    let web = (first.sub(trim)?, last.add(trim)?);
    let web_offset = half(web.0.add(web.1)?)?;
    let inner = 1..edges.len() - 1;
    let cuts = if edge_cuts { edges } else { edges[inner].to_vec() };
    Ok(KnifeLayout { cuts, lanes, web, web_offset })
}

/// Every edge of every lane, once, from left to right.
fn edges(lanes: &[PlacedLane]) -> Vec<Number> {
    let mut edges: Vec<Number> = lanes.iter().flat_map(|lane| [lane.left, lane.right]).collect();
    edges.dedup();
    edges
}

/// Half of a number.
pub(super) fn half(number: Number) -> Result<Number, NoNumber> {
    number.div(Number::TWO)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{KnifeLayout, Knives, PlacedLane, place_knives};
    use crate::layout::lanes::{Lanes, centred_in};
    use crate::layout::rail::NoLayout;
    use crate::quantity::number::Number;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn fitted(fitted: u32, run: &[u32]) -> Lanes {
        Lanes::Fitted { fitted, run: run.to_vec() }
    }

    fn place(run: Lanes, strip: &str, trim: &str, edge_cuts: bool) -> KnifeLayout {
        place_knives(&Knives { run, strip: number(strip), trim: number(trim), edge_cuts }).unwrap()
    }

    fn shown(numbers: &[Number]) -> String {
        numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
    }

    /// Centred lanes, and the same lanes in the middle of two more.
    #[track_caller]
    fn check(lanes: u32, strip: &str, trim: &str, edge_cuts: bool, web: &str, cuts: &str) {
        let layout = place(Lanes::Centred(lanes), strip, trim, edge_cuts);
        assert_eq!(shown(&layout.cuts), cuts);
        assert_eq!(layout.web.1.sub(layout.web.0).unwrap(), number(web));
        assert_eq!(layout.web_offset, Number::ZERO);
        let numbers: Vec<u32> = layout.lanes.iter().map(|lane| lane.number).collect();
        assert_eq!(numbers, (1..=lanes).collect::<Vec<_>>());

        let middle = fitted(lanes + 2, &centred_in(lanes + 2, lanes).unwrap());
        let middle = place(middle, strip, trim, edge_cuts);
        assert_eq!((middle.cuts, middle.web), (layout.cuts, layout.web));
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

    /// Cuts, web edges and web offset of some of six lanes of 56 with 6 trim.
    #[track_caller]
    fn check_some_of_six(run: &[u32], edge_cuts: bool, cuts: &str, web: &str, offset: &str) {
        let layout = place(fitted(6, run), "56", "6", edge_cuts);
        assert_eq!(shown(&layout.cuts), cuts);
        assert_eq!(shown(&[layout.web.0, layout.web.1]), web);
        assert_eq!(layout.web_offset, number(offset));
        let numbers: Vec<u32> = layout.lanes.iter().map(|lane| lane.number).collect();
        assert_eq!(numbers, run);
    }

    #[test]
    fn lanes_on_one_side_shift_the_web() {
        check_some_of_six(&[2, 3, 4, 5], true, "-112 -56 0 56 112", "-118 118", "0");
        check_some_of_six(&[1, 2, 3, 4], true, "-168 -112 -56 0 56", "-174 62", "-56");
        check_some_of_six(&[6], true, "112 168", "106 174", "140");
        check_some_of_six(&[6], false, "", "106 174", "140");
    }

    #[test]
    fn a_gap_is_a_waste_strip_with_both_edges_cut() {
        let six = "-168 -112 -56 56 112 168";
        check_some_of_six(&[1, 2, 5, 6], true, six, "-174 174", "0");
        check_some_of_six(&[1, 2, 5, 6], false, "-112 -56 56 112", "-174 174", "0");
        check_some_of_six(&[1, 3], false, "-112 -56", "-174 6", "-84");
    }

    #[test]
    fn lanes_stand_where_they_are_fitted() {
        let lane = |number: u32, left: i64, right: i64| PlacedLane {
            number,
            left: Number::from(left),
            right: Number::from(right),
        };
        let layout = place(fitted(6, &[1, 4]), "56", "6", true);
        assert_eq!(layout.lanes, [lane(1, -168, -112), lane(4, 0, 56)]);
    }

    #[test]
    fn the_datum_is_cut_only_when_the_count_is_even() {
        for lanes in 1..60 {
            let cuts = place(Lanes::Centred(lanes), "37.3", "0", true).cuts;
            assert_eq!(cuts.contains(&Number::ZERO), lanes % 2 == 0);
        }
    }

    /// Common practice, no source: one knife less than lanes, one more when the edges are cut too.
    #[test]
    fn edge_cuts_need_two_knives_more() {
        for lanes in 1..60 {
            let knives =
                |edge_cuts| place(Lanes::Centred(lanes), "42.5", "5", edge_cuts).cuts.len();
            assert_eq!(knives(false), lanes as usize - 1);
            assert_eq!(knives(true), lanes as usize + 1);
        }
    }

    #[test]
    fn nothing_to_cut_is_refused() {
        let refused = |run: Lanes, strip: &str, trim: &str| {
            let knives = Knives { run, strip: number(strip), trim: number(trim), edge_cuts: true };
            place_knives(&knives).unwrap_err()
        };
        assert_eq!(refused(Lanes::Centred(0), "56", "0"), NoLayout::NotPositive);
        assert_eq!(refused(Lanes::Centred(1), "0", "0"), NoLayout::NotPositive);
        assert_eq!(refused(Lanes::Centred(1), "56", "-1"), NoLayout::NotPositive);
        assert_eq!(refused(fitted(6, &[]), "56", "0"), NoLayout::NotPositive);
        let too_many = NoLayout::TooMany { most: 10_000 };
        assert_eq!(refused(Lanes::Centred(u32::MAX), "56", "0"), too_many);
        let no_such = NoLayout::NoSuchLane { lane: 7, fitted: 6 };
        assert_eq!(refused(fitted(6, &[7]), "56", "0"), no_such);
    }

    /// The same layout seen from the other side of the machine.
    fn mirrored(layout: &KnifeLayout, fitted: u32) -> KnifeLayout {
        let lane = |lane: &PlacedLane| PlacedLane {
            number: fitted + 1 - lane.number,
            left: lane.right.neg(),
            right: lane.left.neg(),
        };
        KnifeLayout {
            cuts: layout.cuts.iter().rev().map(|cut| cut.neg()).collect(),
            lanes: layout.lanes.iter().rev().map(lane).collect(),
            web: (layout.web.1.neg(), layout.web.0.neg()),
            web_offset: layout.web_offset.neg(),
        }
    }

    /// A length with two decimals or in sixteenths.
    fn length() -> impl Strategy<Value = Number> {
        let exact = |parts: i64, of: i64| Number::ratio(parts, of).unwrap();
        prop_oneof![
            (1..40_000_i64).prop_map(move |parts| exact(parts, 100)),
            (1..3_000_i64).prop_map(move |parts| exact(parts, 16)),
        ]
    }

    proptest! {
        #[test]
        fn centred_lanes_are_mirror_symmetric(
            lanes in 1..200_u32, strip in length(), trim in length(), edge_cuts: bool
        ) {
            let run = Lanes::Centred(lanes);
            let layout = place_knives(&Knives { run, strip, trim, edge_cuts }).unwrap();
            prop_assert_eq!(mirrored(&layout, lanes), layout);
        }

        #[test]
        fn mirrored_lanes_have_the_mirrored_layout(
            runs in prop::collection::vec(any::<bool>(), 1..24),
            strip in length(), trim in length(), edge_cuts: bool
        ) {
            let fitted = runs.len() as u32;
            let run: Vec<u32> = (1..=fitted).zip(&runs).filter(|(_, runs)| **runs).map(|p| p.0).collect();
            prop_assume!(!run.is_empty());
            let mirror = run.iter().rev().map(|lane| fitted + 1 - lane).collect();
            let place = |run| {
                let run = Lanes::Fitted { fitted, run };
                place_knives(&Knives { run, strip, trim, edge_cuts }).unwrap()
            };
            prop_assert_eq!(place(mirror), mirrored(&place(run), fitted));
        }
    }
}
