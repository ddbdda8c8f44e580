//! In which order holders move, so that none meets another.

use crate::quantity::number::Number;

/// Indices of the holders that move, in an order in which nothing collides.
///
/// Holders that go right move first, from the right end on; then those that go left, from the left
/// end on. Each moves once, which is the least possible. Both settings must keep the least spacing
/// and list the same holders from left to right; then every neighbour has either gone already or
/// stands beyond the goal. Holders without a known old position are not ordered.
///
/// Source: worked out here, and checked by replaying random settings.
pub fn order_moves(old: &[Number], new: &[Number]) -> Vec<usize> {
    let both = || old.iter().zip(new).enumerate();
    let right = both().filter(|(_, (old, new))| new > old).map(|(i, _)| i);
    let left = both().filter(|(_, (old, new))| new < old).map(|(i, _)| i);
    let right: Vec<usize> = right.collect();
    right.into_iter().rev().chain(left).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::order_moves;
    use crate::quantity::number::Number;

    fn numbers(list: &[i64]) -> Vec<Number> {
        list.iter().map(|&n| Number::from(n)).collect()
    }

    /// Slides each holder in turn and wants the least spacing to be kept all the way.
    fn replay(old: &[i64], new: &[i64], spacing: i64) -> Result<Vec<i64>, usize> {
        let mut at = old.to_vec();
        for i in order_moves(&numbers(old), &numbers(new)) {
            let (low, high) = (at[i].min(new[i]), at[i].max(new[i]));
            let left_free = i == 0 || at[i - 1] + spacing <= low;
            let right_free = i + 1 == at.len() || high + spacing <= at[i + 1];
            if !left_free || !right_free {
                return Err(i);
            }
            at[i] = new[i];
        }
        Ok(at)
    }

    /// Worked examples: plain left-to-right order collides in each of them.
    #[test]
    fn worked_examples_have_their_order() {
        let check = |old: &[i64], new: &[i64], spacing, expected: &[usize]| {
            let order: Vec<usize> =
                order_moves(&numbers(old), &numbers(new)).iter().map(|i| i + 1).collect();
            assert_eq!(order, expected);
            assert_eq!(replay(old, new, spacing), Ok(new.to_vec()));
        };
        check(&[-112, -56, 0, 56, 112], &[-84, -28, 28, 84, 140], 40, &[5, 4, 3, 2, 1]);
        check(&[-168, -56, 56, 168], &[-90, -30, 30, 90], 50, &[2, 1, 3, 4]);
        check(&[-100, -50, 0, 50, 100], &[-150, -40, 10, 60, 160], 45, &[5, 4, 3, 2, 1].map(|i| i));
    }

    /// A legal setting: gaps of at least `spacing`.
    fn setting(count: usize, spacing: i64) -> impl Strategy<Value = Vec<i64>> {
        (prop::collection::vec(0..60_i64, count), -500..500_i64).prop_map(move |(gaps, start)| {
            let mut at = start;
            gaps.into_iter()
                .map(|gap| {
                    at += spacing + gap;
                    at
                })
                .collect()
        })
    }

    proptest! {
        #[test]
        fn replayed_moves_never_collide_and_end_at_the_goal(
            (old, new) in (1..14_usize).prop_flat_map(|n| (setting(n, 36), setting(n, 36)))
        ) {
            prop_assert_eq!(replay(&old, &new, 36), Ok(new.clone()));
            let moved = old.iter().zip(&new).filter(|(a, b)| a != b).count();
            prop_assert_eq!(order_moves(&numbers(&old), &numbers(&new)).len(), moved);
        }
    }
}
