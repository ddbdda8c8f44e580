//! A rail and what stands on it: holders in use, spares parked out of the way.

use super::knives::half;
use crate::quantity::number::{NoNumber, Number};

/// A rail with holders that slide on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rail {
    /// Left end, from the datum (negative).
    pub left_end: Number,
    /// Right end, from the datum.
    pub right_end: Number,
    /// Holders fitted, spares included.
    pub holders: u32,
    /// Width of one holder.
    pub holder_width: Number,
    /// Least distance between two neighbours, tip to tip.
    pub spacing: Number,
    /// How far right of a holder's middle its tip stands; zero for a tip in the middle.
    pub tip_offset: Number,
    /// What is in the way of every holder; none passes it.
    pub obstacles: Vec<Obstacle>,
    /// What is done with the holders not in use.
    pub spares: Spares,
}

/// What no holder can stand over or pass: a bearing block, a bolted stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Obstacle {
    /// Its left edge, from the datum.
    pub left: Number,
    /// Its right edge, right of the left one.
    pub right: Number,
}

/// What is done with the holders not in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spares {
    /// They are parked at both ends of the rail.
    Parked,
    /// They are taken off the rail.
    Off,
}

/// How the body of a holder lies to its position.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Body {
    /// The position is that of the tip; half the width lies on either side of the body's middle.
    Holder,
    /// The position is that of a guide's inner face; the whole width lies outwards, away from the
    /// datum.
    Guide,
}

impl Body {
    /// Left and right edge of the body of a holder at `position`.
    fn edges(self, position: Number, rail: &Rail) -> Result<(Number, Number), NoNumber> {
        let width = rail.holder_width;
        match self {
            Body::Holder => {
                let (middle, half) = (position.sub(rail.tip_offset)?, half(width)?);
                Ok((middle.sub(half)?, middle.add(half)?))
            }
            Body::Guide if position.is_negative() => Ok((position.sub(width)?, position)),
            Body::Guide => Ok((position, position.add(width)?)),
        }
    }
}

/// A holder's stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stand {
    /// Where its tip, or a guide's inner face, stands, from the datum.
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
    /// More lanes shall run than the machine has.
    TooFewLanes {
        /// How many are needed.
        needed: u32,
        /// How many are fitted.
        fitted: u32,
    },
    /// A lane shall run that the machine does not have.
    NoSuchLane {
        /// Its number.
        lane: u32,
        /// How many lanes the machine has, numbered from 1.
        fitted: u32,
    },
    /// A lane is named twice, or after one further right.
    LanesNotRising {
        /// Its number.
        lane: u32,
        /// The lane named before it.
        before: u32,
    },
    /// The outermost holder would stand past the end of the rail.
    PastRailEnd {
        /// Where its outer edge would be.
        needed: Number,
        /// The end of the rail.
        end: Number,
    },
    /// A holder would stand over an obstacle.
    OverObstacle {
        /// Which of the rail's obstacles, counted from 0.
        index: usize,
        /// The position that the holder would need.
        needed: Number,
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
/// Of an odd number of spares the right end gets one more. The outermost spare stands with the edge
/// of its body at the rail's end, the next one `spacing` further in. Where spares stand depends on
/// the rail and the recipe alone, never on the job before, so that two people work out the same
/// place. Spares that are taken off have no stand.
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
    let parked = match rail.spares {
        Spares::Parked => spares,
        Spares::Off => 0,
    };
    let (at_left, inset) = (parked / 2, half(rail.holder_width)?);
    let step = |i: u32| inset.add(Number::from(i).mul(rail.spacing)?);
    let stand = |middle: Number| {
        Ok::<_, NoNumber>(Stand { position: middle.add(rail.tip_offset)?, parked: true })
    };
    let mut stands = Vec::new();
    for i in 0..at_left {
        stands.push(stand(rail.left_end.add(step(i)?)?)?);
    }
    stands.extend(used.iter().map(|&position| Stand { position, parked: false }));
    for i in (0..parked - at_left).rev() {
        stands.push(stand(rail.right_end.sub(step(i)?)?)?);
    }
    Ok(stands)
}

/// Asks whether every holder has room: neighbours keep the least spacing, no body reaches past an end
/// of the rail or over an obstacle. To touch is allowed.
///
/// # Errors
/// [`NoLayout::TooClose`], [`NoLayout::PastRailEnd`], [`NoLayout::OverObstacle`], or no number.
pub fn fits(stands: &[Stand], rail: &Rail, body: Body) -> Result<(), NoLayout> {
    for pair in stands.windows(2) {
        let gap = pair[1].position.sub(pair[0].position)?;
        if gap < rail.spacing {
            return Err(NoLayout::TooClose { gap, spacing: rail.spacing });
        }
    }
    stands.iter().try_for_each(|stand| has_room(stand.position, rail, body))
}

/// Asks whether a holder at `position` has room on the empty rail.
fn has_room(position: Number, rail: &Rail, body: Body) -> Result<(), NoLayout> {
    let (left, right) = body.edges(position, rail)?;
    if left < rail.left_end {
        return Err(NoLayout::PastRailEnd { needed: left, end: rail.left_end });
    }
    if right > rail.right_end {
        return Err(NoLayout::PastRailEnd { needed: right, end: rail.right_end });
    }
    let meets = |obstacle: &Obstacle| left < obstacle.right && obstacle.left < right;
    match rail.obstacles.iter().position(meets) {
        Some(index) => Err(NoLayout::OverObstacle { index, needed: position }),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::{Body, NoLayout, Obstacle, Rail, Spares, Stand, fits, park_spares};
    use crate::quantity::number::Number;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn rail(holders: u32) -> Rail {
        Rail {
            left_end: number("-300"),
            right_end: number("300"),
            holders,
            holder_width: number("36"),
            spacing: number("40"),
            tip_offset: Number::ZERO,
            obstacles: Vec::new(),
            spares: Spares::Parked,
        }
    }

    /// A rail with a block from 90 to 110.
    fn rail_with_block(holders: u32) -> Rail {
        let obstacles = vec![Obstacle { left: number("90"), right: number("110") }];
        Rail { obstacles, ..rail(holders) }
    }

    fn park(used: &str, rail: &Rail) -> Result<Vec<Stand>, NoLayout> {
        let used: Vec<Number> = used.split_whitespace().map(number).collect();
        let stands = park_spares(&used, rail)?;
        fits(&stands, rail, Body::Holder)?;
        Ok(stands)
    }

    #[track_caller]
    fn check(used: &str, rail: &Rail, expected: &str) {
        let stands = park(used, rail).unwrap();
        let found: Vec<String> = stands
            .iter()
            .map(|s| format!("{}{}", s.position, if s.parked { "p" } else { "" }))
            .collect();
        assert_eq!(found.join(" "), expected);
    }

    #[test]
    fn spares_are_parked_at_both_ends() {
        check("-56 0 56", &rail(3), "-56 0 56");
        check("-56 0 56", &rail(4), "-56 0 56 282p");
        check("-56 0 56", &rail(7), "-282p -242p -56 0 56 242p 282p");
    }

    #[test]
    fn spares_taken_off_do_not_stand_on_the_rail() {
        let off = |holders| Rail { spares: Spares::Off, ..rail(holders) };
        check("-56 0 56", &off(7), "-56 0 56");
        check("-282 -242 242 282", &off(u32::MAX), "-282 -242 242 282");
        let few = NoLayout::TooFewHolders { needed: 3, fitted: 2 };
        assert_eq!(park("-56 0 56", &off(2)), Err(few));
    }

    #[test]
    fn what_does_not_fit_is_refused_with_its_numbers() {
        let refused = |used: &str, holders| park(used, &rail(holders)).unwrap_err();
        assert_eq!(refused("-56 0 56", 2), NoLayout::TooFewHolders { needed: 3, fitted: 2 });
        let close = NoLayout::TooClose { gap: number("39"), spacing: number("40") };
        assert_eq!(refused("0 39", 2), close);
        let past = NoLayout::PastRailEnd { needed: number("301"), end: number("300") };
        assert_eq!(refused("0 283", 2), past);
        assert!(matches!(refused("0 250", 3), NoLayout::TooClose { .. }));
    }

    #[test]
    fn a_holder_may_touch_the_end_and_keep_the_least_spacing() {
        check("-282 242 282", &rail(3), "-282 242 282");
    }

    #[test]
    fn the_body_counts_at_the_ends_and_not_the_tip() {
        let rail = Rail { tip_offset: number("12"), ..rail(4) };
        check("-56 56", &rail, "-270p -56 56 294p");
        check("-270 -56 56 294", &rail, "-270 -56 56 294");
        let past = |needed: &str, end: &str| {
            Err(NoLayout::PastRailEnd { needed: number(needed), end: number(end) })
        };
        assert_eq!(park("-271 -56 56 294", &rail), past("-301", "-300"));
        assert_eq!(park("-270 -56 56 295", &rail), past("301", "300"));
    }

    #[test]
    fn no_body_stands_over_an_obstacle() {
        let over = |needed: &str| Err(NoLayout::OverObstacle { index: 0, needed: number(needed) });
        let rail = rail_with_block(2);
        check("0 72", &rail, "0 72");
        check("0 128", &rail, "0 128");
        assert_eq!(park("0 73", &rail), over("73"));
        assert_eq!(park("0 100", &rail), over("100"));
        assert_eq!(park("0 127", &rail), over("127"));

        let rail = Rail { tip_offset: number("-12"), ..rail };
        check("0 60", &rail, "0 60");
        check("0 116", &rail, "0 116");
        assert_eq!(park("0 61", &rail), over("61"));
        assert_eq!(park("0 115", &rail), over("115"));
    }

    #[test]
    fn spares_are_not_parked_over_an_obstacle() {
        let obstacles = vec![Obstacle { left: number("299"), right: number("300") }];
        let rail = Rail { obstacles, ..rail_with_block(3) };
        let over = NoLayout::OverObstacle { index: 0, needed: number("282") };
        assert_eq!(park("0 56", &rail), Err(over));
    }

    /// Asks whether two guides with these inner faces fit.
    fn guides(left: &str, right: &str) -> Result<(), NoLayout> {
        let stand = |position: &str| Stand { position: number(position), parked: false };
        fits(&[stand(left), stand(right)], &rail_with_block(2), Body::Guide)
    }

    #[test]
    fn a_guide_reaches_outwards_from_its_inner_face() {
        assert_eq!(guides("-264", "54"), Ok(()));
        assert_eq!(guides("-264", "110"), Ok(()));
        assert_eq!(guides("-264", "264"), Ok(()));
        let past = |needed: &str, end: &str| {
            Err(NoLayout::PastRailEnd { needed: number(needed), end: number(end) })
        };
        assert_eq!(guides("-265", "264"), past("-301", "-300"));
        assert_eq!(guides("-264", "265"), past("301", "300"));
        let over = NoLayout::OverObstacle { index: 0, needed: number("55") };
        assert_eq!(guides("-264", "55"), Err(over));
    }
}
