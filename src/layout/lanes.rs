//! Which lanes run, and how far off a strip of another width would be in each of them.

use super::knives::half;
use super::rail::NoLayout;
use crate::quantity::number::{NoNumber, Number};

/// More lanes than any web has; keeps hostile input small.
const MOST_LANES: u32 = 10_000;

/// The lanes run on a machine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lanes {
    /// So many lanes, centred on the datum and numbered from 1 at the left.
    Centred(u32),
    /// Some of the lanes a machine has; all it has are centred on the datum.
    Fitted {
        /// How many lanes the machine has, numbered from 1 at the left.
        fitted: u32,
        /// The numbers of those that run, rising.
        run: Vec<u32>,
    },
}

impl Lanes {
    /// How many lanes are centred on the datum, run or not.
    pub(super) fn centred(&self) -> u32 {
        match *self {
            Lanes::Centred(lanes) => lanes,
            Lanes::Fitted { fitted, .. } => fitted,
        }
    }

    /// The numbers of the lanes run, at least one of them, rising, and all of them there.
    pub(super) fn numbers(&self) -> Result<Vec<u32>, NoLayout> {
        if self.centred() > MOST_LANES {
            return Err(NoLayout::TooMany { most: MOST_LANES });
        }
        match self {
            &Lanes::Centred(0) => Err(NoLayout::NotPositive),
            &Lanes::Centred(lanes) => Ok((1..=lanes).collect()),
            Lanes::Fitted { run, .. } if run.is_empty() => Err(NoLayout::NotPositive),
            Lanes::Fitted { fitted, run } => {
                are_fitted(run, *fitted)?;
                Ok(run.clone())
            }
        }
    }
}

/// Asks whether `run` are different lanes of 1 to `fitted`, from left to right.
fn are_fitted(run: &[u32], fitted: u32) -> Result<(), NoLayout> {
    let lanes = u32::try_from(run.len()).unwrap_or(u32::MAX);
    if lanes > fitted {
        return Err(NoLayout::TooFewLanes { needed: lanes, fitted });
    }
    if let Some(&lane) = run.iter().find(|lane| !(1..=fitted).contains(*lane)) {
        return Err(NoLayout::NoSuchLane { lane, fitted });
    }
    match run.windows(2).find(|pair| pair[0] >= pair[1]) {
        Some(pair) => Err(NoLayout::LanesNotRising { lane: pair[1], before: pair[0] }),
        None => Ok(()),
    }
}

/// The numbers of `run` lanes in the middle of `fitted` lanes.
///
/// None when one count is odd and the other even: they would stand between the fitted lanes. None
/// too when there is nothing to run, or more than is fitted or than anybody has.
///
/// Source: common practice, no source.
pub fn centred_in(fitted: u32, run: u32) -> Option<Vec<u32>> {
    let beside = fitted.checked_sub(run)?;
    let possible = beside % 2 == 0 && run > 0 && fitted <= MOST_LANES;
    possible.then(|| (beside / 2 + 1..=beside / 2 + run).collect())
}

/// How far the middle of each lane run would be off when strips of `strip` run in lanes of `pitch`.
///
/// Lane `i` of `n` centred on the datum is `(i - (n + 1) / 2) * (strip - pitch)` off; more than zero
/// is to the right. Each lane comes with its number.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoNumber::Overflow`], also for more lanes than anybody has.
pub fn lane_offsets(
    lanes: &Lanes,
    strip: Number,
    pitch: Number,
) -> Result<Vec<(u32, Number)>, NoNumber> {
    if lanes.centred() > MOST_LANES {
        return Err(NoNumber::Overflow);
    }
    let middle = half(Number::from(lanes.centred()).add(Number::ONE)?)?;
    let each = strip.sub(pitch)?;
    let off = |lane: u32| Ok((lane, Number::from(lane).sub(middle)?.mul(each)?));
    match lanes {
        &Lanes::Centred(lanes) => (1..=lanes).map(off).collect(),
        Lanes::Fitted { run, .. } => run.iter().copied().map(off).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::{Lanes, centred_in, lane_offsets};
    use crate::layout::rail::NoLayout;
    use crate::quantity::number::{NoNumber, Number};

    /// The offsets of the lanes run, as `lane:offset`.
    #[track_caller]
    fn check(lanes: Lanes, strip: &str, pitch: &str, expected: &str) {
        let number = |text: &str| Number::parse(text).unwrap();
        let offsets = lane_offsets(&lanes, number(strip), number(pitch)).unwrap();
        let found: Vec<String> =
            offsets.iter().map(|(lane, off)| format!("{lane}:{off}")).collect();
        assert_eq!(found.join(" "), expected);
    }

    #[test]
    fn a_strip_is_the_further_off_the_further_out_its_lane() {
        check(Lanes::Centred(1), "57", "56", "1:0");
        check(Lanes::Centred(2), "57", "56", "1:-0.5 2:0.5");
        check(Lanes::Centred(5), "56.3", "56", "1:-0.6 2:-0.3 3:0 4:0.3 5:0.6");
        check(Lanes::Centred(4), "55", "56", "1:1.5 2:0.5 3:-0.5 4:-1.5");
        check(Lanes::Centred(3), "56", "56", "1:0 2:0 3:0");
    }

    #[test]
    fn lanes_that_do_not_run_keep_their_place() {
        let run = |run: &[u32]| Lanes::Fitted { fitted: 6, run: run.to_vec() };
        check(run(&[2, 3, 4, 5]), "57", "56", "2:-1.5 3:-0.5 4:0.5 5:1.5");
        check(run(&[1, 2, 5, 6]), "57", "56", "1:-2.5 2:-1.5 5:1.5 6:2.5");
        check(run(&[6]), "57", "56", "6:2.5");
    }

    #[test]
    fn more_lanes_than_anybody_has_are_not_listed() {
        let lanes = Lanes::Centred(u32::MAX);
        assert_eq!(lane_offsets(&lanes, Number::TWO, Number::ONE), Err(NoNumber::Overflow));
        assert_eq!(lanes.numbers(), Err(NoLayout::TooMany { most: 10_000 }));
        assert_eq!(centred_in(u32::MAX, u32::MAX), None);
    }

    #[test]
    fn lanes_in_the_middle_need_the_same_number_free_on_both_sides() {
        assert_eq!(centred_in(6, 4), Some(vec![2, 3, 4, 5]));
        assert_eq!(centred_in(5, 1), Some(vec![3]));
        assert_eq!(centred_in(3, 3), Some(vec![1, 2, 3]));
        for (fitted, run) in [(6, 3), (5, 2), (4, 6), (6, 0), (0, 0)] {
            assert_eq!(centred_in(fitted, run), None, "{run} in {fitted}");
        }
    }

    #[test]
    fn lanes_that_are_not_there_are_refused() {
        let numbers = |fitted, run: &[u32]| Lanes::Fitted { fitted, run: run.to_vec() }.numbers();
        assert_eq!(numbers(6, &[1, 3, 6]), Ok(vec![1, 3, 6]));
        assert_eq!(numbers(6, &[]), Err(NoLayout::NotPositive));
        assert_eq!(numbers(6, &[0, 1]), Err(NoLayout::NoSuchLane { lane: 0, fitted: 6 }));
        assert_eq!(numbers(6, &[5, 7]), Err(NoLayout::NoSuchLane { lane: 7, fitted: 6 }));
        assert_eq!(numbers(6, &[2, 2]), Err(NoLayout::LanesNotRising { lane: 2, before: 2 }));
        assert_eq!(numbers(6, &[4, 2]), Err(NoLayout::LanesNotRising { lane: 2, before: 4 }));
        let too_few = NoLayout::TooFewLanes { needed: 3, fitted: 2 };
        assert_eq!(numbers(2, &[1, 2, 2]), Err(too_few));
    }
}
