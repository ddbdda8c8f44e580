//! What is done to the holders on a rail, and in which order, so that none meets another.

use std::cmp::Ordering;
use std::ops::Range;

use super::rail::{Obstacle, Rail};
use crate::quantity::number::Number;

/// One thing done to one holder; holders are counted from 0, from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// A holder is taken off the rail.
    Remove {
        /// Its index in the old setting.
        old: usize,
    },
    /// A holder slides, straight to its new position.
    Slide {
        /// Its index in the old setting.
        old: usize,
        /// Its index in the new setting.
        new: usize,
    },
    /// A holder is put on the rail, at its new position.
    Fit {
        /// Its index in the new setting.
        new: usize,
    },
}

/// How a rail gets from one setting to the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// What is done, in an order in which nothing collides.
    pub actions: Vec<Action>,
    /// Holders that stay where they are: index in the old and in the new setting.
    pub kept: Vec<(usize, usize)>,
}

/// Plans how the holders get from the old setting to the new one.
///
/// Holders keep their order on the rail and pass no obstacle, so obstacles cut the rail into
/// stretches. In a stretch with `a` old and `b` new holders `|a - b|` are removed or fitted and no
/// others, chosen so that the most of the rest stay where they are; each of the others slides once.
/// A holder is never taken off to be fitted elsewhere in its stretch, even where more would stay then:
/// to slide it is less work.
///
/// The surplus that is open to choice goes from the outside: before the first holder that stays the
/// leftmost, after the last one the rightmost, and half from either side otherwise, of an odd number
/// one more at the right. New holders are fitted by the same rule.
///
/// First come removals, then holders that go right, from the right on, then those that go left, from
/// the left on, then those that are fitted. Holders come off from the outside inwards and are fitted
/// from the middle of the rail outwards, left before right: so the way to the end of the rail on its
/// side is not barred by one that comes off later or was fitted before. One whose middle stands at the
/// middle of the rail comes off last and is fitted first.
///
/// Why nothing collides when both settings are legal, that is, keep the least spacing and stand over
/// no obstacle:
///
/// 1. A legal setting stays legal when holders are taken off. So after the removals the rest stand in
///    a legal setting `A`, and before the fits they have to stand in `B`, which is the new setting
///    without those to be fitted and legal too. Holder `i` of `A` becomes holder `i` of `B`.
/// 2. A holder `i` that goes right widens its distance to `i - 1` and can only meet `i + 1`. That one
///    went before if it goes right, and then stands at `B[i + 1]`; it stands there too if it stays;
///    and if it goes left it stands there or still further right. `B[i + 1]` is at least the least
///    spacing from `B[i]`. Going left is the mirror image.
/// 3. Both ends of a slide lie in one stretch and over no obstacle, and so does all between them.
/// 4. Each holder that is fitted adds to a part of the new setting, so its place is free,
///    whichever comes first.
///
/// Both settings are sorted from left to right. The time taken is `n log n`.
///
/// Source: worked out here, and checked by replaying random settings and by trying all assignments.
pub fn plan_moves(old: &[Number], new: &[Number], rail: &Rail) -> Plan {
    let pairs = assign_stretches(old, new, rail);
    let kept = pairs.iter().copied().filter(|&(i, j)| old[i] == new[j]).collect();
    let slide = |&(old, new): &(usize, usize)| Action::Slide { old, new };
    let rightwards = pairs.iter().filter(|&&(i, j)| old[i] < new[j]).rev().map(slide);
    let leftwards = pairs.iter().filter(|&&(i, j)| old[i] > new[j]).map(slide);
    let removed = without(old.len(), |i| pairs.binary_search_by_key(&i, |pair| pair.0).is_ok());
    let fitted = without(new.len(), |j| pairs.binary_search_by_key(&j, |pair| pair.1).is_ok());
    let removed = inwards(removed, old, rail).into_iter().map(|old| Action::Remove { old });
    let fitted = outwards(fitted, new, rail).into_iter().map(|new| Action::Fit { new });
    let actions = removed.chain(rightwards).chain(leftwards).chain(fitted).collect();
    Plan { actions, kept }
}

/// Rising holders from the ends of the rail to its middle: the left ones, then the right ones.
fn inwards(mut holders: Vec<usize>, positions: &[Number], rail: &Rail) -> Vec<usize> {
    let right = holders.partition_point(|&holder| side(positions[holder], rail).is_lt());
    holders[right..].reverse();
    holders
}

/// Rising holders from the middle of the rail to its ends: the left ones, then the right ones.
fn outwards(mut holders: Vec<usize>, positions: &[Number], rail: &Rail) -> Vec<usize> {
    let right = holders.partition_point(|&holder| side(positions[holder], rail).is_le());
    holders[..right].reverse();
    holders
}

/// Whether the middle of a holder stands left of the middle of the rail, there, or right of it.
///
/// Sums too long for a number are those of no legal setting.
fn side(position: Number, rail: &Rail) -> Ordering {
    let middle = middle(position, rail);
    middle.add(middle).ok().cmp(&rail.left_end.add(rail.right_end).ok())
}

/// The middle of a holder; one too long for a number is that of no legal setting, and the tip has
/// to do.
fn middle(position: Number, rail: &Rail) -> Number {
    position.sub(rail.tip_offset).unwrap_or(position)
}

/// The indices below `count` that are not assigned, rising.
fn without(count: usize, assigned: impl Fn(usize) -> bool) -> Vec<usize> {
    (0..count).filter(|&index| !assigned(index)).collect()
}

/// Which old holder becomes which new one, rising in both, over the whole rail.
fn assign_stretches(old: &[Number], new: &[Number], rail: &Rail) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    for (old_range, new_range) in stretches(old, new, rail) {
        let (first_old, first_new) = (old_range.start, new_range.start);
        let (old, new) = (&old[old_range], &new[new_range]);
        if old.len() < new.len() {
            let assigned = assign(old, new).into_iter().enumerate();
            pairs.extend(assigned.map(|(i, j)| (first_old + i, first_new + j)));
        } else {
            let assigned = assign(new, old).into_iter().enumerate();
            pairs.extend(assigned.map(|(j, i)| (first_old + i, first_new + j)));
        }
    }
    pairs
}

/// The holders of both settings that stand in the same stretch between obstacles, from left to right.
fn stretches(old: &[Number], new: &[Number], rail: &Rail) -> Vec<(Range<usize>, Range<usize>)> {
    let mut obstacles = rail.obstacles.clone();
    obstacles.sort_by_key(|obstacle| obstacle.left);
    let (mut first_old, mut first_new) = (0, 0);
    let mut stretches = Vec::new();
    for obstacle in &obstacles {
        let end_old = first_old + count_before(obstacle, &old[first_old..], rail);
        let end_new = first_new + count_before(obstacle, &new[first_new..], rail);
        stretches.push((first_old..end_old, first_new..end_new));
        (first_old, first_new) = (end_old, end_new);
    }
    stretches.push((first_old..old.len(), first_new..new.len()));
    stretches
}

/// How many of the positions are those of holders left of the obstacle.
///
/// No holder stands over it, so one that has its middle left of the left edge has all of it there.
fn count_before(obstacle: &Obstacle, positions: &[Number], rail: &Rail) -> usize {
    positions.partition_point(|&position| middle(position, rail) <= obstacle.left)
}

/// For each of `few` its partner among `many`, which are no fewer: rising, with the most partners
/// at equal positions.
///
/// The offset from an index to that of its partner never falls and lies between 0 and the surplus.
/// Every choice of equal positions with such offsets can be filled up, and no other can.
fn assign(few: &[Number], many: &[Number]) -> Vec<usize> {
    let surplus = many.len() - few.len();
    let equal: Vec<(usize, usize)> = (few.iter().enumerate())
        .filter_map(|(index, position)| Some((index, many.binary_search(position).ok()?)))
        .filter(|&(index, partner)| (index..=index + surplus).contains(&partner))
        .collect();
    let mut partners = Vec::with_capacity(few.len());
    let mut before = None;
    for (index, partner) in longest_rising(&equal) {
        let offset = partner - index;
        let between = between(before, Some(offset), surplus);
        partners.extend((partners.len()..index).map(|index| index + between));
        partners.push(partner);
        before = Some(offset);
    }
    let last = between(before, None, surplus);
    partners.extend((partners.len()..few.len()).map(|index| index + last));
    partners
}

/// The offset between a kept holder and the next one: the surplus there goes from the outside.
fn between(before: Option<usize>, after: Option<usize>, surplus: usize) -> usize {
    match (before, after) {
        (None, None) => surplus / 2,
        (None, Some(after)) => after,
        (Some(before), None) => before,
        (Some(before), Some(after)) => before + (after - before) / 2,
    }
}

/// The most of the pairs, in their order, whose offsets (second less first) never fall.
///
/// The longest non-decreasing subsequence: `ends[n]` is the pair of least offset that ends `n + 1`
/// of them so far, and each pair remembers the one before it.
fn longest_rising(pairs: &[(usize, usize)]) -> Vec<(usize, usize)> {
    let offset = |at: usize| pairs[at].1 - pairs[at].0;
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(pairs.len());
    for at in 0..pairs.len() {
        let length = ends.partition_point(|&end| offset(end) <= offset(at));
        before.push(length.checked_sub(1).map(|last| ends[last]));
        match ends.get_mut(length) {
            Some(end) => *end = at,
            None => ends.push(at),
        }
    }
    let last = ends.last().copied();
    let mut chosen: Vec<_> =
        std::iter::successors(last, |&at| before[at]).map(|at| pairs[at]).collect();
    chosen.reverse();
    chosen
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::{Action, Plan, plan_moves};
    use crate::layout::rail::{Body, Obstacle, Rail, Spares, Stand, fits};
    use crate::quantity::number::Number;

    /// Width of the holders in all these tests.
    const WIDTH: i64 = 36;

    fn numbers(list: &[i64]) -> Vec<Number> {
        list.iter().map(|&n| Number::from(n)).collect()
    }

    /// A rail in whole numbers.
    #[derive(Debug, Clone)]
    struct Whole {
        spacing: i64,
        tip_offset: i64,
        /// Its ends are as far left and right of it.
        middle: i64,
        /// Left and right edges.
        obstacles: Vec<(i64, i64)>,
    }

    impl Whole {
        fn plain(spacing: i64) -> Whole {
            Whole { spacing, tip_offset: 0, middle: 0, obstacles: Vec::new() }
        }

        fn rail(&self) -> Rail {
            let obstacle = |&(left, right): &(i64, i64)| Obstacle {
                left: Number::from(left),
                right: Number::from(right),
            };
            Rail {
                left_end: Number::from(self.middle - 100_000),
                right_end: Number::from(self.middle + 100_000),
                holders: 100,
                holder_width: Number::from(WIDTH),
                spacing: Number::from(self.spacing),
                tip_offset: Number::from(self.tip_offset),
                obstacles: self.obstacles.iter().map(obstacle).collect(),
                spares: Spares::Off,
            }
        }

        /// Whether a holder meets no obstacle anywhere between two positions.
        fn is_free(&self, from: i64, to: i64) -> bool {
            let (low, high) = (from.min(to), from.max(to));
            let left = low - self.tip_offset - WIDTH / 2;
            let right = high - self.tip_offset + WIDTH / 2;
            self.obstacles.iter().all(|obstacle| right <= obstacle.0 || obstacle.1 <= left)
        }

        fn plan(&self, old: &[i64], new: &[i64]) -> Plan {
            plan_moves(&numbers(old), &numbers(new), &self.rail())
        }
    }

    /// Does what the plan says, holder by holder, and wants every holder to have room all the way;
    /// gives the setting at the end, or the action that cannot be done.
    fn replay(plan: &Plan, old: &[i64], new: &[i64], rail: &Whole) -> Result<Vec<i64>, Action> {
        let mut at: BTreeMap<(bool, usize), i64> =
            old.iter().enumerate().map(|(i, &position)| ((false, i), position)).collect();
        for &action in &plan.actions {
            let (from, to, name) = match action {
                Action::Remove { old } => {
                    at.remove(&(false, old)).ok_or(action)?;
                    continue;
                }
                Action::Slide { old, new: j } => {
                    (at.remove(&(false, old)).ok_or(action)?, new[j], (true, j))
                }
                Action::Fit { new: j } => (new[j], new[j], (true, j)),
            };
            let (low, high) = (from.min(to) - rail.spacing, from.max(to) + rail.spacing);
            let neighbours_keep_off = at.values().all(|&other| other <= low || high <= other);
            if !neighbours_keep_off || !rail.is_free(from, to) {
                return Err(action);
            }
            at.insert(name, to);
        }
        for &(i, j) in &plan.kept {
            let position = at.remove(&(false, i)).expect("one that stays is not touched");
            at.insert((true, j), position);
        }
        let mut end = vec![i64::MAX; new.len()];
        for ((moved, index), position) in at {
            assert!(moved, "old holder {index} is neither used nor removed");
            end[index] = position;
        }
        Ok(end)
    }

    /// The plan in words, holders counted from 1, replayed.
    #[track_caller]
    fn check_on(rail: &Whole, old: &[i64], new: &[i64], expected: &str) {
        let plan = rail.plan(old, new);
        let word = |action: &Action| match action {
            Action::Remove { old } => format!("{} off", old + 1),
            Action::Slide { old, new } => format!("{} to {}", old + 1, new + 1),
            Action::Fit { new } => format!("{} on", new + 1),
        };
        let words: Vec<String> = plan.actions.iter().map(word).collect();
        assert_eq!(words.join(", "), expected);
        assert_eq!(replay(&plan, old, new, rail), Ok(new.to_vec()));
    }

    #[track_caller]
    fn check(old: &[i64], new: &[i64], spacing: i64, expected: &str) {
        check_on(&Whole::plain(spacing), old, new, expected);
    }

    /// Worked examples: plain left-to-right order collides in each of them.
    #[test]
    fn worked_examples_have_their_order() {
        let all_right = "5 to 5, 4 to 4, 3 to 3, 2 to 2, 1 to 1";
        check(&[-112, -56, 0, 56, 112], &[-84, -28, 28, 84, 140], 40, all_right);
        let inwards = "2 to 2, 1 to 1, 3 to 3, 4 to 4";
        check(&[-168, -56, 56, 168], &[-90, -30, 30, 90], 50, inwards);
        check(&[-100, -50, 0, 50, 100], &[-150, -40, 10, 60, 160], 45, all_right);
    }

    #[test]
    fn what_stands_right_is_not_touched() {
        check(&[-80, -40, 0, 40, 80], &[-80, -40, 0, 40, 80], 40, "");
        check(&[-120, -80, -40, 0, 40, 80, 120], &[-80, -40, 0, 40, 80], 40, "1 off, 7 off");
        check(&[-80, -40, 40, 80], &[-80, -40, 0, 40, 80], 40, "3 on");
        check(&[-80, 0, 80], &[-120, -80, 0, 80, 120], 40, "1 on, 5 on");
        check(&[-80, 80], &[], 40, "1 off, 2 off");
        check(&[], &[-80, 80], 40, "1 on, 2 on");
        let kept = Whole::plain(40).plan(&[-120, -80, 0, 80], &[-80, 0, 120]).kept;
        assert_eq!(kept, [(1, 0), (2, 1)]);
    }

    /// From the left, the third would be kept as the first: then no other could be.
    #[test]
    fn most_holders_stay_and_not_the_first_that_could() {
        let old = [0, 40, 80, 200, 240, 280, 320];
        let new = [80, 120, 160, 200, 240];
        check(&old, &new, 40, "7 off, 6 off, 3 to 3, 2 to 2, 1 to 1");
    }

    #[test]
    fn a_surplus_open_to_choice_goes_from_the_outside() {
        let six = [-150, -90, -30, 30, 90, 150];
        check(&six, &[-100, -50, 50, 100], 40, "1 off, 6 off, 5 to 4, 4 to 3, 2 to 1, 3 to 2");
        check(&six, &[-140, -20, 90, 150], 40, "1 off, 2 off, 3 to 1, 4 to 2");
        check(&six, &[-150, 0, 60], 40, "6 off, 5 off, 4 off, 3 to 3, 2 to 2");
        check(&six, &[-150, 0, 150], 40, "2 off, 5 off, 4 off, 3 to 2");
        check(&[-50, 50], &[-150, -90, -30, 30, 90], 40, "1 to 2, 2 to 3, 1 on, 4 on, 5 on");
    }

    /// Once a left holder came off behind one further out, and fits began at the ends of the rail.
    #[test]
    fn holders_come_off_from_the_outside_and_are_fitted_from_the_middle() {
        let eight = [-140, -84, -40, 0, 42, 84, 140, 180];
        check(&eight, &[], 40, "1 off, 2 off, 3 off, 8 off, 7 off, 6 off, 5 off, 4 off");
        check(&[], &eight, 40, "4 on, 3 on, 2 on, 1 on, 5 on, 6 on, 7 on, 8 on");
        check(&[-40, 0, 40, 84, 140], &[-40, 0, 40], 40, "5 off, 4 off");
        let off_centre = Whole { middle: 100, ..Whole::plain(40) };
        check_on(
            &off_centre,
            &eight,
            &[],
            "1 off, 2 off, 3 off, 4 off, 5 off, 6 off, 8 off, 7 off",
        );
        let at_the_middle = Whole { tip_offset: 42, ..Whole::plain(40) };
        check_on(&at_the_middle, &[0, 42, 84], &[], "1 off, 3 off, 2 off");
    }

    #[test]
    fn no_holder_passes_an_obstacle() {
        let rail = Whole { obstacles: vec![(90, 110)], ..Whole::plain(40) };
        check_on(&rail, &[-50, 50], &[-50, 150], "2 off, 2 on");
        check_on(&rail, &[-50, 72], &[-50, 128], "2 off, 2 on");
        check_on(&rail, &[-50, 50, 150], &[0, 160, 200], "2 off, 3 to 2, 1 to 1, 3 on");
        let passes_the_edge = Whole { tip_offset: 30, ..rail.clone() };
        check_on(&passes_the_edge, &[0, 102], &[0, 95], "2 to 2");
        check_on(&rail, &[0, 128], &[0, 300], "2 to 2");
    }

    #[test]
    fn settings_that_are_not_sorted_do_no_harm() {
        let rail = Whole { obstacles: vec![(90, 110), (-20, 0)], ..Whole::plain(40) };
        let plan = rail.plan(&[300, -50, 20, 300], &[0, 300, -50]);
        assert!(plan.actions.len() + plan.kept.len() >= 4);
    }

    /// The fewest actions over all ways to let old holders become new ones, in order and past no
    /// obstacle: first the most that need not be removed or fitted, then the most that stay.
    ///
    /// `best[i][j]` is the most used again, and how many of them stay at the most, of the old holders
    /// from `i` and the new ones from `j` on; slow and plain.
    fn fewest_actions(old: &[i64], new: &[i64], rail: &Whole) -> usize {
        let mut best = vec![vec![(0, 0); new.len() + 1]; old.len() + 1];
        for (i, &a) in old.iter().enumerate().rev() {
            for (j, &b) in new.iter().enumerate().rev() {
                let without = best[i + 1][j].max(best[i][j + 1]);
                let (used, stay) = best[i + 1][j + 1];
                let with = (used + 1, stay + usize::from(a == b));
                best[i][j] = if rail.is_free(a, b) { without.max(with) } else { without };
            }
        }
        let (used, stay) = best[0][0];
        old.len() + new.len() - used - stay
    }

    fn rail() -> impl Strategy<Value = Whole> {
        let obstacle =
            (-20..20_i64, 1..60_i64).prop_map(|(left, width)| (left * 10, left * 10 + width));
        let obstacles = prop::collection::vec(obstacle, 0..4);
        (obstacles, -30..=30_i64, 36..=40_i64, -100..=100_i64).prop_map(
            |(obstacles, tip_offset, spacing, middle)| Whole {
                spacing,
                tip_offset,
                middle,
                obstacles,
            },
        )
    }

    /// A legal setting: gaps of at least the spacing, nobody over an obstacle.
    fn setting(rail: Whole) -> impl Strategy<Value = Vec<i64>> {
        (prop::collection::vec(0..60_i64, 0..24), -400..0_i64).prop_map(move |(gaps, start)| {
            let mut at = start;
            let positions = gaps.into_iter().map(|gap| {
                at += rail.spacing + gap;
                at
            });
            positions.filter(|&position| rail.is_free(position, position)).collect()
        })
    }

    /// Two legal settings that have many positions in common.
    fn alike(rail: Whole) -> impl Strategy<Value = (Vec<i64>, Vec<i64>)> {
        prop::collection::vec(any::<(bool, bool)>(), 0..32).prop_map(move |used| {
            let places = (-12..20_i64).map(|n| n * rail.spacing).zip(used);
            let free: Vec<_> = places.filter(|place| rail.is_free(place.0, place.0)).collect();
            let old = free.iter().filter(|(_, (old, _))| *old).map(|place| place.0).collect();
            let new = free.iter().filter(|(_, (_, new))| *new).map(|place| place.0).collect();
            (old, new)
        })
    }

    /// A rail, an old and a new setting.
    fn case() -> impl Strategy<Value = (Whole, (Vec<i64>, Vec<i64>))> {
        rail().prop_flat_map(|rail| {
            let any = (setting(rail.clone()), setting(rail.clone()));
            (Just(rail.clone()), prop_oneof![any, alike(rail)])
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(1000))]

        #[test]
        fn replayed_plans_never_collide_and_end_at_the_goal((rail, (old, new)) in case()) {
            let plan = rail.plan(&old, &new);
            prop_assert_eq!(replay(&plan, &old, &new, &rail), Ok(new.clone()));
        }

        /// Of those that come off none comes off behind another, and the same for those fitted.
        #[test]
        fn holders_come_off_inwards_and_are_fitted_outwards((rail, (old, new)) in case()) {
            let plan = rail.plan(&old, &new);
            let out = |position: i64| position - rail.tip_offset - rail.middle;
            let in_a_row = |outs: &[i64]| {
                let left: Vec<i64> = outs.iter().copied().filter(|&out| out <= 0).collect();
                let right: Vec<i64> = outs.iter().copied().filter(|&out| out >= 0).collect();
                left.is_sorted() && right.iter().rev().is_sorted()
            };
            let removed = plan.actions.iter().filter_map(|action| match action {
                Action::Remove { old: i } => Some(out(old[*i])),
                _ => None,
            });
            prop_assert!(in_a_row(&removed.collect::<Vec<_>>()));
            let fitted = plan.actions.iter().rev().filter_map(|action| match action {
                Action::Fit { new: j } => Some(out(new[*j])),
                _ => None,
            });
            prop_assert!(in_a_row(&fitted.collect::<Vec<_>>()));
        }

        #[test]
        fn no_plan_has_fewer_actions((rail, (old, new)) in case()) {
            let plan = rail.plan(&old, &new);
            prop_assert_eq!(plan.actions.len(), fewest_actions(&old, &new, &rail));
        }

        /// Settings that the layout allows are the ones the replay takes for legal.
        #[test]
        fn legal_settings_fit((rail, (old, _)) in case()) {
            let stand = |&position: &Number| Stand { position, parked: false };
            let stands: Vec<Stand> = numbers(&old).iter().map(stand).collect();
            prop_assert_eq!(fits(&stands, &rail.rail(), Body::Holder), Ok(()));
        }

        /// As many holders before as after, and nothing in the way: each moves once or stays.
        #[test]
        fn equal_counts_on_a_free_rail_only_slide(
            (rail, (old, new)) in case(), tip_offset in -30..30_i64
        ) {
            let rail = Whole { obstacles: Vec::new(), tip_offset, ..rail };
            let count = old.len().min(new.len());
            let (old, new) = (&old[..count], &new[..count]);
            let both = || (0..count).zip(old.iter().zip(new));
            let slide = |i| Action::Slide { old: i, new: i };
            let right = both().filter(|(_, (old, new))| old < new).map(|(i, _)| slide(i));
            let left = both().filter(|(_, (old, new))| old > new).map(|(i, _)| slide(i));
            let right: Vec<Action> = right.collect();
            let expected: Vec<Action> = right.into_iter().rev().chain(left).collect();
            prop_assert_eq!(rail.plan(old, new).actions, expected);
        }
    }
}
