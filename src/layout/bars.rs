//! Over how many bars knives are staggered when they stand closer than their holders are wide.

use crate::quantity::number::{NoNumber, Number, Rounding};

/// How many bars cuts `pitch` apart need when holders on one bar need `holder_spacing`.
///
/// `holder_spacing / pitch`, rounded up; at least one.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoNumber::DivisionByZero`] for a pitch of nothing; [`NoNumber::Overflow`], also for a negative
/// length.
pub fn bars_needed(pitch: Number, holder_spacing: Number) -> Result<u32, NoNumber> {
    let bars = holder_spacing.div(pitch)?.round_to_step(Number::ONE, Rounding::Up)?;
    if pitch.is_negative() {
        return Err(NoNumber::Overflow);
    }
    bars.to_u32().map(|bars| bars.max(1)).ok_or(NoNumber::Overflow)
}

/// The cuts made on bar `bar` of `bars`, both counted from 1: every cut `k` (counted from 0) with
/// `k mod bars = bar - 1`.
///
/// Neighbours on one bar are `bars` cuts apart. A bar that is not there has none.
///
/// Source: common practice, no source.
pub fn on_bar(cuts: &[Number], bar: u32, bars: u32) -> Vec<Number> {
    if bar == 0 || bar > bars {
        return Vec::new();
    }
    cuts.iter().copied().skip(bar as usize - 1).step_by(bars as usize).collect()
}

#[cfg(test)]
mod tests {
    use super::{bars_needed, on_bar};
    use crate::layout::{Knives, Lanes, place_knives};
    use crate::quantity::number::{NoNumber, Number};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    /// Bars needed, and how far apart neighbours on one bar then stand, for twelve lanes.
    #[track_caller]
    fn check(pitch: &str, spacing: &str, bars: u32, apart: &str) {
        assert_eq!(bars_needed(number(pitch), number(spacing)), Ok(bars));
        let (run, trim) = (Lanes::Centred(12), Number::ZERO);
        let knives = Knives { run, strip: number(pitch), trim, edge_cuts: true };
        let cuts = place_knives(&knives).unwrap().cuts;
        let each: Vec<Vec<Number>> = (1..=bars).map(|bar| on_bar(&cuts, bar, bars)).collect();
        for pair in each.iter().flat_map(|cuts| cuts.windows(2)) {
            assert_eq!(pair[1].sub(pair[0]), Ok(number(apart)));
        }
        let mut all = each.concat();
        all.sort();
        assert_eq!(all, cuts);
    }

    /// Worked by hand.
    #[test]
    fn narrow_lanes_need_more_bars() {
        check("42.5", "35", 1, "42.5");
        check("30", "35", 2, "60");
        check("25", "35", 2, "50");
        check("15", "35", 3, "45");
        check("38", "20", 1, "38");
        check("35", "35", 1, "35");
        check("35", "0", 1, "35");
    }

    #[test]
    fn cuts_go_to_the_bars_in_turn() {
        let cuts: Vec<Number> = (0..5_i64).map(Number::from).collect();
        let on = |bar, bars| {
            let on: Vec<String> = on_bar(&cuts, bar, bars).iter().map(Number::to_string).collect();
            on.join(" ")
        };
        assert_eq!([on(1, 2), on(2, 2)], ["0 2 4", "1 3"]);
        assert_eq!([on(1, 3), on(2, 3), on(3, 3)], ["0 3", "1 4", "2"]);
        assert_eq!([on(1, 1), on(7, 8)], ["0 1 2 3 4", ""]);
        assert_eq!([on(0, 2), on(3, 2), on(0, 0), on(1, 0)], ["", "", "", ""]);
    }

    #[test]
    fn a_pitch_of_nothing_has_no_answer() {
        let bars = |pitch: &str, spacing: &str| bars_needed(number(pitch), number(spacing));
        assert_eq!(bars("0", "35"), Err(NoNumber::DivisionByZero));
        assert_eq!(bars("-30", "35"), Err(NoNumber::Overflow));
        assert_eq!(bars("-30", "-35"), Err(NoNumber::Overflow));
        assert_eq!(bars("1/1000000", "1000000"), Err(NoNumber::Overflow));
    }
}
