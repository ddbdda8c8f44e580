//! A rail and what stands on it: holders in use, spares parked out of the way.

use super::knives::half;
use crate::quantity::number::{NoNumber, Number};

/// A rail with holders that slide on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rail {
    /// Left end, from the datum (negative).
    pub left_end: Number,
    /// Right end, from the datum.
    pub right_end: Number,
    /// Holders fitted, spares included.
    pub holders: u32,
    /// Width of one holder; its mark is in the middle.
    pub holder_width: Number,
    /// Least distance between two neighbours, mark to mark.
    pub spacing: Number,
}

/// A holder's stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stand {
    /// Where its mark stands, from the datum.
    pub position: Number,
    /// Whether it is a spare, parked.
    pub parked: bool,
}

/// Why there is no layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoLayout {
    /// Nothing to lay out: no lanes, or a width that is not above zero.
    NotPositive,
    /// More lanes than anybody has.
    TooMany {
        /// The most that are laid out.
        most: u32,
    },
    /// The outermost holder would stand past the end of the rail.
    PastRailEnd {
        /// Where its outer edge would be.
        needed: Number,
        /// The end of the rail.
        end: Number,
    },
    /// Two neighbours would stand closer than holders can.
    TooClose {
        /// Their distance.
        gap: Number,
        /// The least distance.
        spacing: Number,
    },
    /// The rail has fewer holders than are needed.
    TooFewHolders {
        /// How many are needed.
        needed: u32,
        /// How many are fitted.
        fitted: u32,
    },
    /// A number became too large, or was divided by nothing.
    Number(NoNumber),
}

impl From<NoNumber> for NoLayout {
    fn from(error: NoNumber) -> NoLayout {
        NoLayout::Number(error)
    }
}

/// Puts holders at the positions in use and parks the spares at both ends of the rail.
///
/// Of an odd number of spares the right end gets one more. The outermost spare stands with its edge
/// at the rail's end, the next one `spacing` further in. Where spares stand depends on the rail and
/// the recipe alone, never on the job before, so that two people work out the same place.
///
/// `used` is sorted from left to right. Whether everything fits is asked of [`fits`] afterwards.
///
/// # Errors
/// [`NoLayout::TooFewHolders`], or no number.
pub fn park_spares(used: &[Number], rail: &Rail) -> Result<Vec<Stand>, NoLayout> {
    let needed = u32::try_from(used.len()).unwrap_or(u32::MAX);
    let Some(spares) = rail.holders.checked_sub(needed) else {
        return Err(NoLayout::TooFewHolders { needed, fitted: rail.holders });
    };
    let at_left = spares / 2;
    let inset = half(rail.holder_width)?;
    let step = |i: u32| inset.add(Number::from(i64::from(i)).mul(rail.spacing)?);
    let mut stands = Vec::new();
    for i in 0..at_left {
        stands.push(Stand { position: rail.left_end.add(step(i)?)?, parked: true });
    }
    stands.extend(used.iter().map(|&position| Stand { position, parked: false }));
    for i in (0..spares - at_left).rev() {
        stands.push(Stand { position: rail.right_end.sub(step(i)?)?, parked: true });
    }
    Ok(stands)
}

/// Asks whether every holder has room: neighbours keep the least spacing, nobody stands over an end.
///
/// `overhang` is how far a holder reaches outwards from its mark: half its width for a holder with
/// its mark in the middle, all of it for a guide whose mark is its inner face.
///
/// # Errors
/// [`NoLayout::TooClose`], [`NoLayout::PastRailEnd`], or no number.
pub fn fits(stands: &[Stand], rail: &Rail, overhang: Number) -> Result<(), NoLayout> {
    for pair in stands.windows(2) {
        let gap = pair[1].position.sub(pair[0].position)?;
        if gap < rail.spacing {
            return Err(NoLayout::TooClose { gap, spacing: rail.spacing });
        }
    }
    if let (Some(first), Some(last)) = (stands.first(), stands.last()) {
        let (left, right) = (first.position.sub(overhang)?, last.position.add(overhang)?);
        if left < rail.left_end {
            return Err(NoLayout::PastRailEnd { needed: left, end: rail.left_end });
        }
        if right > rail.right_end {
            return Err(NoLayout::PastRailEnd { needed: right, end: rail.right_end });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{NoLayout, Rail, Stand, fits, park_spares};
    use crate::quantity::number::Number;

    fn numbers(text: &str) -> Vec<Number> {
        text.split_whitespace().map(|n| Number::parse(n).unwrap()).collect()
    }

    fn rail(holders: u32) -> Rail {
        let end = Number::parse("300").unwrap();
        Rail {
            left_end: end.neg(),
            right_end: end,
            holders,
            holder_width: Number::parse("36").unwrap(),
            spacing: Number::parse("40").unwrap(),
        }
    }

    fn park(used: &str, holders: u32) -> Result<Vec<Stand>, NoLayout> {
        let rail = rail(holders);
        let stands = park_spares(&numbers(used), &rail)?;
        fits(&stands, &rail, Number::from(18_i64))?;
        Ok(stands)
    }

    #[track_caller]
    fn check(used: &str, holders: u32, expected: &str) {
        let stands = park(used, holders).unwrap();
        let found: Vec<String> = stands
            .iter()
            .map(|s| format!("{}{}", s.position, if s.parked { "p" } else { "" }))
            .collect();
        assert_eq!(found.join(" "), expected);
    }

    #[test]
    fn spares_are_parked_at_both_ends() {
        check("-56 0 56", 3, "-56 0 56");
        check("-56 0 56", 4, "-56 0 56 282p");
        check("-56 0 56", 7, "-282p -242p -56 0 56 242p 282p");
    }

    #[test]
    fn what_does_not_fit_is_refused_with_its_numbers() {
        let number = |n: i64| Number::from(n);
        let refused = |used: &str, holders| park(used, holders).unwrap_err();
        assert_eq!(refused("-56 0 56", 2), NoLayout::TooFewHolders { needed: 3, fitted: 2 });
        let close = NoLayout::TooClose { gap: number(39), spacing: number(40) };
        assert_eq!(refused("0 39", 2), close);
        let past = NoLayout::PastRailEnd { needed: number(301), end: number(300) };
        assert_eq!(refused("0 283", 2), past);
        assert!(matches!(refused("0 250", 3), NoLayout::TooClose { .. }));
    }

    #[test]
    fn a_holder_may_touch_the_end_and_keep_the_least_spacing() {
        check("-282 242 282", 3, "-282 242 282");
    }
}
