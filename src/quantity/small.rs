//! Fractions whose parts fit into 62 bits: the same arithmetic as [`super::number`], several times as
//! fast, because the common divisors are found in machine words.
//!
//! Must give what the general arithmetic gives, bit for bit, or nothing.

use std::cmp::Ordering;

use num_rational::Ratio;

/// Parts stay below this, so that a sum of two products fits into 128 bits.
const BOUND: i128 = 1 << 62;

/// A short fraction: above, and below, which is positive.
type Parts = (i64, i64);

fn parts(ratio: &Ratio<i128>) -> Option<Parts> {
    let (above, below) = (*ratio.numer(), *ratio.denom());
    if -BOUND < above && above < BOUND && below < BOUND {
        Some((i64::try_from(above).ok()?, i64::try_from(below).ok()?))
    } else {
        None
    }
}

/// The sum.
pub(super) fn add(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<Ratio<i128>> {
    Some(sum(parts(left)?, parts(right)?))
}

/// The difference.
pub(super) fn sub(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<Ratio<i128>> {
    let (above, below) = parts(right)?;
    Some(sum(parts(left)?, (-above, below)))
}

/// The product.
pub(super) fn mul(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<Ratio<i128>> {
    Some(product(parts(left)?, parts(right)?))
}

/// The quotient; nothing for a division by zero.
pub(super) fn div(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<Ratio<i128>> {
    let (above, below) = parts(right)?;
    let turned = match above.cmp(&0) {
        Ordering::Equal => return None,
        Ordering::Less => (-below, -above),
        Ordering::Greater => (below, above),
    };
    Some(product(parts(left)?, turned))
}

/// Which is greater.
pub(super) fn cmp(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<Ordering> {
    let ((a, b), (c, d)) = (parts(left)?, parts(right)?);
    Some((i128::from(a) * i128::from(d)).cmp(&(i128::from(c) * i128::from(b))))
}

/// a/b + c/d. Source: Knuth, The Art of Computer Programming, volume 2, 4.5.1: of the divisors of the
/// sum only those of gcd(b, d) have to be tried.
fn sum((a, b): Parts, (c, d): Parts) -> Ratio<i128> {
    let common = gcd(b.unsigned_abs(), d.unsigned_abs());
    if common == 1 {
        let above = i128::from(a) * i128::from(d) + i128::from(c) * i128::from(b);
        return Ratio::new_raw(above, i128::from(b) * i128::from(d));
    }
    let wide = i128::from(common);
    let (b_rest, d_rest) = (i128::from(b) / wide, i128::from(d) / wide);
    let above = i128::from(a) * d_rest + i128::from(c) * b_rest;
    let rest = u64::try_from(above.unsigned_abs() % u128::from(common)).unwrap_or_default();
    let divisor = i128::from(gcd(common, rest));
    Ratio::new_raw(above / divisor, b_rest * (i128::from(d) / divisor))
}

/// a/b · c/d: divided crosswise first, so that nothing is left to divide.
fn product((a, b): Parts, (c, d): Parts) -> Ratio<i128> {
    let (one, two) = (divisor(a, d), divisor(c, b));
    let (a, d) = (a / one, d / one);
    let (c, b) = (c / two, b / two);
    Ratio::new_raw(i128::from(a) * i128::from(c), i128::from(b) * i128::from(d))
}

/// The greatest common divisor of a number and a positive one; the divisor of zero is the other one.
fn divisor(number: i64, positive: i64) -> i64 {
    // No more than `positive`, which fits.
    i64::try_from(gcd(positive.unsigned_abs(), number.unsigned_abs())).unwrap_or(1)
}

fn gcd(mut left: u64, mut right: u64) -> u64 {
    while right != 0 {
        (left, right) = (right, left % right);
    }
    left
}

#[cfg(test)]
mod tests {
    use num_rational::Ratio;
    use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};
    use proptest::prelude::*;

    use super::{BOUND, add, cmp, div, mul, sub};

    /// Short and long parts, with many common divisors among them.
    fn part() -> impl Strategy<Value = i128> {
        prop_oneof![
            -1000_i128..1000,
            (-1000_i128..1000, 0_u32..17).prop_map(|(n, zeros)| n * 10_i128.pow(zeros)),
            -BOUND + 1..BOUND,
            Just(BOUND),
        ]
    }

    fn fraction() -> impl Strategy<Value = Ratio<i128>> {
        (part(), part())
            .prop_filter_map("not over nothing", |(a, b)| (b != 0).then(|| Ratio::new(a, b)))
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4096))]

        /// The outside judge is the crate num-rational.
        #[test]
        fn short_fractions_come_to_what_long_ones_come_to(a in fraction(), b in fraction()) {
            for (short, long) in [
                (add(&a, &b), a.checked_add(&b)),
                (sub(&a, &b), a.checked_sub(&b)),
                (mul(&a, &b), a.checked_mul(&b)),
                (div(&a, &b), if *b.numer() == 0 { None } else { a.checked_div(&b) }),
            ] {
                if let (Some(short), Some(long)) = (short, long) {
                    prop_assert_eq!((short.numer(), short.denom()), (long.numer(), long.denom()));
                }
            }
            if let Some(order) = cmp(&a, &b) {
                prop_assert_eq!(order, a.cmp(&b));
            }
        }
    }
}
