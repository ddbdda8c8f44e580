//! How many rolls an order takes, how often one is changed, and which width serves.
//!
//! All lengths are numbers in mm.

use super::rolls::{NoRoll, all_positive, none_negative};
use crate::quantity::{NoNumber, Number, Rounding};

/// More rolls than anybody plans; keeps hostile input small.
const MOST_ROLLS: u32 = 10_000;

/// What is to be run, and on what.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Order {
    /// Good pieces wanted.
    pub pieces: u64,
    /// Pieces that come side by side.
    pub lanes: u32,
    /// Length of one piece.
    pub cut: Number,
    /// Share that is run and thrown away on top: 0.02 for 2 %.
    pub waste: Number,
    /// Lost of each roll: threading at its start, the tail at its end.
    pub start_up: Number,
    /// Length of a full roll.
    pub roll: Number,
    /// Whether the film of the job before must come off first.
    pub old_film_first: bool,
}

/// The rolls of one order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RollPlan {
    /// Rolls to fetch.
    pub rolls: u32,
    /// Times somebody changes a roll.
    pub changes: u32,
    /// Web that is run, waste included, start-up not.
    pub length_needed: Number,
    /// What could still be run from the last roll; its own start-up counts as lost.
    pub left_on_last: Number,
}

/// Plans the rolls: web metres are ⌈pieces / lanes⌉ · cut · (1 + waste), since `lanes` pieces come
/// at a time; each roll gives its length less the start-up.
///
/// A roll already threaded needs no change; with `old_film_first` the first one does.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoRoll::NotPositive`], [`NoRoll::NothingUsable`], [`NoRoll::TooMany`], or no number.
pub fn plan_rolls(order: &Order) -> Result<RollPlan, NoRoll> {
    let &Order { cut, waste, start_up, roll, .. } = order;
    all_positive(&[cut, roll])?;
    none_negative(&[waste, start_up])?;
    let usable = roll.sub(start_up)?;
    if usable <= Number::ZERO {
        return Err(NoRoll::NothingUsable { roll, start_up });
    }
    let length_needed = cuts(order)?.mul(cut)?.mul(Number::ONE.add(waste)?)?;
    let rolls = length_needed.div(usable)?.round_to_step(Number::ONE, Rounding::Up)?;
    let rolls = rolls.to_u32().filter(|rolls| *rolls <= MOST_ROLLS);
    let rolls = rolls.ok_or(NoRoll::TooMany { most: MOST_ROLLS })?;
    let changes = rolls - 1 + u32::from(order.old_film_first);
    let left_on_last = Number::from(rolls).mul(usable)?.sub(length_needed)?;
    Ok(RollPlan { rolls, changes, length_needed, left_on_last })
}

/// Cuts across the web.
fn cuts(order: &Order) -> Result<Number, NoRoll> {
    if order.pieces == 0 || order.lanes == 0 {
        return Err(NoRoll::NotPositive);
    }
    let cuts = order.pieces.div_ceil(u64::from(order.lanes));
    i64::try_from(cuts).map(Number::from).map_err(|_| NoNumber::Overflow.into())
}

/// One width out of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// Which of the list.
    pub index: usize,
    /// What is trimmed off it: its width less what is needed.
    pub trimmed: Number,
}

/// Picks the narrowest width that fits, the first of equal ones; none when none is wide enough.
///
/// # Errors
/// [`NoNumber::Overflow`].
pub fn choose(widths: &[Number], needed: Number) -> Result<Option<Choice>, NoNumber> {
    let fitting = widths.iter().enumerate().filter(|(_, width)| **width >= needed);
    let Some((index, width)) = fitting.min_by_key(|(_, width)| **width) else { return Ok(None) };
    Ok(Some(Choice { index, trimmed: width.sub(needed)? }))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Choice, Order, RollPlan, choose, plan_rolls};
    use crate::quantity::{NoNumber, Number};
    use crate::trade::NoRoll;
    use crate::trade::rolls::{length, outside};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    /// 50 000 packs of 180 mm with 2 % waste from rolls of 400 mm on 76.2 mm, film of 60 µm.
    fn order() -> Order {
        Order {
            pieces: 50_000,
            lanes: 1,
            cut: number("180"),
            waste: number("0.02"),
            start_up: Number::ZERO,
            roll: length(number("400"), number("76.2"), number("0.06")).unwrap(),
            old_film_first: false,
        }
    }

    #[track_caller]
    fn check(order: &Order, rolls: u32, changes: u32, needed: &str, left: &str) -> RollPlan {
        let plan = plan_rolls(order).unwrap();
        let metres = |length: Number| length.div(number("1000")).unwrap().decimal(1);
        let found = (metres(plan.length_needed), metres(plan.left_on_last));
        assert_eq!((plan.rolls, plan.changes), (rolls, changes));
        assert_eq!(found, (needed.to_owned(), left.to_owned()));
        plan
    }

    /// Worked independently: 9180 m are 4.548 rolls; the last one gives 1106.4 m and is left with
    /// 274.7 mm.
    #[test]
    fn an_order_takes_whole_rolls() {
        let plan = check(&order(), 5, 4, "9180.0", "911.9");
        let used = order().roll.sub(plan.left_on_last).unwrap();
        assert_eq!(used.div(number("1000")).unwrap().decimal(1), "1106.4");
        let diameter = outside(plan.left_on_last, number("76.2"), number("0.06")).unwrap();
        assert_eq!(diameter.decimal(1), "274.7");
    }

    /// Worked independently: 15 m lost of each roll still take five.
    #[test]
    fn threading_and_tail_are_lost_of_each_roll() {
        check(&Order { start_up: number("15000"), ..order() }, 5, 4, "9180.0", "836.9");
    }

    #[test]
    fn film_of_the_job_before_is_one_more_change() {
        check(&Order { old_film_first: true, ..order() }, 5, 5, "9180.0", "911.9");
    }

    /// Worked independently: four lanes need 2250 m.
    #[test]
    fn lanes_share_the_web() {
        let four = Order { lanes: 4, waste: Number::ZERO, ..order() };
        check(&four, 2, 1, "2250.0", "1786.8");
        let one_more = Order { pieces: 50_001, ..four };
        check(&one_more, 2, 1, "2250.2", "1786.6");
    }

    #[test]
    fn a_roll_that_is_just_enough_leaves_nothing() {
        let exact = Order { pieces: 10, waste: Number::ZERO, roll: number("900"), ..order() };
        check(&exact, 2, 1, "1.8", "0.0");
        check(&Order { roll: number("899.999"), ..exact }, 3, 2, "1.8", "0.9");
    }

    #[test]
    fn what_cannot_be_planned_is_refused() {
        let refused = |order: Order| plan_rolls(&order).unwrap_err();
        assert_eq!(refused(Order { pieces: 0, ..order() }), NoRoll::NotPositive);
        assert_eq!(refused(Order { lanes: 0, ..order() }), NoRoll::NotPositive);
        assert_eq!(refused(Order { cut: Number::ZERO, ..order() }), NoRoll::NotPositive);
        assert_eq!(refused(Order { waste: number("-0.01"), ..order() }), NoRoll::NotPositive);
        let (roll, start_up) = (number("15"), number("15"));
        let nothing = NoRoll::NothingUsable { roll, start_up };
        assert_eq!(refused(Order { roll, start_up, ..order() }), nothing);
        let most = NoRoll::TooMany { most: 10_000 };
        assert_eq!(refused(Order { pieces: 1 << 40, ..order() }), most);
        let overflow = NoRoll::Number(NoNumber::Overflow);
        assert_eq!(refused(Order { pieces: u64::MAX, ..order() }), overflow);
    }

    #[test]
    fn ten_thousand_rolls_are_the_most() {
        let small = Order { cut: number("1"), waste: Number::ZERO, roll: number("1"), ..order() };
        assert_eq!(plan_rolls(&Order { pieces: 10_000, ..small }).unwrap().rolls, 10_000);
        assert!(plan_rolls(&Order { pieces: 10_001, ..small }).is_err());
    }

    #[track_caller]
    fn check_choice(widths: &str, needed: &str, expected: Option<(usize, &str)>) {
        let widths: Vec<Number> = widths.split(' ').map(number).collect();
        let expected = expected.map(|(index, t)| Choice { index, trimmed: number(t) });
        assert_eq!(choose(&widths, number(needed)), Ok(expected));
    }

    #[test]
    fn the_narrowest_width_that_fits_is_chosen() {
        check_choice("580 350 360 240", "348", Some((1, "2")));
        check_choice("360 348 348", "348", Some((1, "0")));
        check_choice("347.9 240", "348", None);
    }

    proptest! {
        #[test]
        fn the_rolls_are_enough_and_one_less_is_not(
            pieces in 1..1_000_000_u64,
            lanes in 1..13_u32,
            cut in 20..600_u32,
            waste in 0..200_i64,
            start_up in 0..30_000_u32,
        ) {
            let (cut, start_up) = (Number::from(cut), Number::from(start_up));
            let waste = Number::ratio(waste, 1000).unwrap();
            let order = Order { pieces, lanes, cut, waste, start_up, ..order() };
            let plan = plan_rolls(&order).unwrap();
            let usable = order.roll.sub(start_up).unwrap();
            prop_assert!(!plan.left_on_last.is_negative() && plan.left_on_last < usable);
            let run = Number::from(plan.rolls).mul(usable).unwrap();
            prop_assert_eq!(run.sub(plan.left_on_last), Ok(plan.length_needed));
            let pieces_run = plan.length_needed.div(cut).unwrap().mul(Number::from(lanes)).unwrap();
            prop_assert!(pieces_run >= Number::from(i64::try_from(pieces).unwrap()));
        }
    }
}
