//! Exact sums of values, and from them mean, standard deviation and autocorrelation, to as many digits
//! as somebody asks for.
//!
//! A value is counted in whole last places (56.05 is 5605 hundredths), and sums are whole numbers of any
//! length. So the formula of sums of squares, which loses every digit in binary floats (NIST/SEMATECH
//! StRD, NumAcc4), loses none here, and one pass over the values is enough.
//!
//! Must never keep a value but the first and the last, and never round but where a function says so.

use num_bigint::BigInt;

use crate::quantity::Number;

/// Most decimals that a value may have.
const MOST_PLACES: u32 = 12;
/// Most digits that a value may have, with its decimals.
const MOST_DIGITS: u32 = 18;
/// Most decimals of a result.
const MOST_SHOWN: u32 = 24;

/// A value has more digits than any instrument shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooLong;

/// Sums over the values so far.
#[derive(Debug, Clone, Default)]
pub struct Moments {
    /// Decimals in which values are counted: as many as the longest so far has.
    places: u32,
    count: u64,
    sum: Sum,
    squares: Sum,
    /// Each value by the one before it.
    neighbours: Sum,
    ends: Option<(i128, i128)>,
}

/// A sum of products that cannot overflow: what no longer fits in a machine word goes on beside it.
#[derive(Debug, Clone, Default)]
struct Sum {
    near: i128,
    far: BigInt,
}

impl Sum {
    fn add(&mut self, one: i128, other: i128) {
        match one.checked_mul(other).and_then(|product| self.near.checked_add(product)) {
            Some(near) => self.near = near,
            None => self.far += BigInt::from(one) * other,
        }
    }

    fn total(&self) -> BigInt {
        &self.far + self.near
    }

    fn scale(&mut self, factor: i128) {
        *self = Sum { near: 0, far: self.total() * factor };
    }
}

impl Moments {
    /// Takes the next value.
    ///
    /// # Errors
    /// [`TooLong`]; then nothing is counted.
    pub fn take(&mut self, value: Number) -> Result<(), TooLong> {
        let places = value.exact_places(MOST_PLACES).ok_or(TooLong)?;
        let digits = value.steps_of_place(places).ok_or(TooLong)?.unsigned_abs();
        if digits >= 10_u128.pow(MOST_DIGITS) {
            return Err(TooLong);
        }
        if places > self.places {
            self.scale(10_i128.pow(places - self.places));
            self.places = places;
        }
        let steps = value.steps_of_place(self.places).ok_or(TooLong)?;
        self.count += 1;
        self.sum.add(steps, 1);
        self.squares.add(steps, steps);
        if let Some((_, before)) = self.ends {
            self.neighbours.add(before, steps);
        }
        self.ends = Some((self.ends.map_or(steps, |(first, _)| first), steps));
        Ok(())
    }

    fn scale(&mut self, factor: i128) {
        self.sum.scale(factor);
        self.squares.scale(factor * factor);
        self.neighbours.scale(factor * factor);
        self.ends = self.ends.map(|(first, last)| (first * factor, last * factor));
    }

    /// How many values there are.
    pub fn count(&self) -> u64 {
        self.count
    }

    /// The mean, exactly; none without a value.
    pub fn mean(&self) -> Option<Number> {
        let below = i128::from(self.count).checked_mul(10_i128.checked_pow(self.places)?)?;
        Number::of_parts(i128::try_from(self.sum.total()).ok()?, below).ok()
    }

    /// The standard deviation (n − 1), to so many significant digits; none below two values.
    pub fn deviation(&self, digits: u32) -> Option<Number> {
        let below = self.count() * self.count().checked_sub(1)?;
        root(&self.spread(), &(BigInt::from(below) * self.whole_squared()), digits)
    }

    /// Lag-1 autocorrelation, Σ(x_i − x̄)(x_(i+1) − x̄) / Σ(x_i − x̄)², to so many decimals; none when
    /// all values are equal.
    ///
    /// Both sums times n²: n²P − nS(2S − x_1 − x_n) + (n − 1)S² over n(nQ − S²), with P the sum of
    /// products of neighbours, Q of squares, S of values.
    pub fn autocorrelation(&self, places: u32) -> Option<Number> {
        let (first, last) = self.ends?;
        let (count, sum) = (BigInt::from(self.count), self.sum.total());
        let inner = BigInt::from(2) * &sum - first - last;
        let above = &count * &count * self.neighbours.total() - &count * &sum * inner
            + (&count - 1_u32) * &sum * &sum;
        quotient(&above, &(&count * self.spread()), places)
    }

    /// n²·Σ(x − x̄)²/n: n times the sum of squares less the square of the sum.
    fn spread(&self) -> BigInt {
        let sum = self.sum.total();
        self.squares.total() * self.count - &sum * &sum
    }

    /// How many squared last places make one.
    fn whole_squared(&self) -> BigInt {
        ten_to(2 * self.places)
    }

    /// Whether the interval mean ± t·s/√n leaves zero out, exactly: (n − 1)·S² > t²·(nQ − S²).
    ///
    /// `t` is the quantile of Student's distribution in thousandths. Source: NIST/SEMATECH e-Handbook
    /// 1.3.5.2, confidence limits for the mean.
    pub fn leaves_zero_out(&self, t: u32) -> bool {
        let (sum, t) = (self.sum.total(), BigInt::from(t));
        let left = BigInt::from(self.count.saturating_sub(1)) * &sum * &sum * 1_000_000_u32;
        left > &t * &t * self.spread()
    }

    /// t·s/√n to so many significant digits: half the width of that interval.
    pub fn half_width(&self, t: u32, digits: u32) -> Option<Number> {
        let (count, t) = (BigInt::from(self.count), BigInt::from(t));
        let below = &count * &count * (&count - 1_u32) * self.whole_squared() * 1_000_000_u32;
        root(&(&t * &t * self.spread()), &below, digits)
    }
}

/// The square root of a fraction to so many significant digits, half up; at most 24 decimals.
fn root(above: &BigInt, below: &BigInt, digits: u32) -> Option<Number> {
    let zero = BigInt::from(0);
    if *below <= zero || *above < zero {
        return None;
    }
    let least = ten_to(digits.saturating_sub(1));
    let mut places = 0;
    // Twice the root, cut, plus one, halved: the root, rounded.
    let rounded = |places: u32| -> BigInt {
        let fourfold: BigInt = above * ten_to(2 * places) * 4_u32 / below;
        (fourfold.sqrt() + 1_u32) / 2_u32
    };
    let mut found = rounded(0);
    while found < least && places < MOST_SHOWN {
        places += 1;
        found = rounded(places);
    }
    decimal(&found, places)
}

/// A fraction to so many decimals, half away from zero.
fn quotient(above: &BigInt, below: &BigInt, places: u32) -> Option<Number> {
    let zero = BigInt::from(0);
    if *below <= zero {
        return None;
    }
    let (is_negative, places) = (*above < zero, places.min(MOST_SHOWN));
    let size = if is_negative { -above } else { above.clone() };
    let doubled: BigInt = size * ten_to(places) * 2_u32 / below;
    let found: BigInt = (doubled + 1_u32) / 2_u32;
    decimal(&if is_negative { -found } else { found }, places)
}

fn ten_to(power: u32) -> BigInt {
    BigInt::from(10).pow(power)
}

/// So many last places.
fn decimal(steps: &BigInt, places: u32) -> Option<Number> {
    Number::of_parts(i128::try_from(steps).ok()?, 10_i128.checked_pow(places)?).ok()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Moments, TooLong};
    use crate::quantity::Number;

    fn moments<'t>(values: impl IntoIterator<Item = &'t str>) -> Moments {
        let mut moments = Moments::default();
        for value in values {
            moments.take(Number::parse(value).unwrap()).unwrap();
        }
        moments
    }

    /// Wants mean, deviation and autocorrelation with every digit that is certified.
    #[track_caller]
    fn check(name: &str, moments: &Moments, [mean, deviation, correlation]: [&str; 3]) {
        let places = |text: &str| crate::quantity::decimals_in(text);
        let digits = |text: &str| {
            let all = text.trim_start_matches(['-', '0', '.']).replace('.', "");
            u32::try_from(all.len()).unwrap()
        };
        let own = moments.mean().unwrap();
        assert_eq!(own.decimal(places(mean)), mean, "mean of {name}");
        let own = moments.deviation(digits(deviation)).unwrap();
        assert_eq!(own.decimal(places(deviation)), deviation, "deviation of {name}");
        let own = moments.autocorrelation(places(correlation)).unwrap();
        assert_eq!(own.decimal(places(correlation)), correlation, "autocorrelation of {name}");
    }

    /// Values and certified results: NIST/SEMATECH Statistical Reference Datasets, univariate summary
    /// statistics (Lottery, Lew, Mavro, Michelso).
    #[test]
    fn measured_reference_sets_come_out_to_every_certified_digit() {
        let certified = [
            ("Lottery", 218, ["518.958715596330", "291.699727470969", "-0.120948622967393"]),
            ("Lew", 200, ["-177.435000000000", "277.332168044316", "-0.307304800605679"]),
            ("Mavro", 50, ["2.00185600000000", "0.000429123454003053", "0.937989183438248"]),
            ("Michelso", 100, ["299.852400000000", "0.0790105478190518", "0.535199668621283"]),
        ];
        let text = include_str!("strd.txt");
        for (name, count, expected) in certified {
            let rest = text.split_once(&format!("{name}:")).unwrap().1;
            let values = rest.split(':').next().unwrap();
            let is_value = |word: &&str| word.parse::<rust_decimal::Decimal>().is_ok();
            let moments = moments(values.split_whitespace().filter(is_value));
            assert_eq!(moments.count(), count, "{name}");
            check(name, &moments, expected);
        }
    }

    /// NumAcc1 to NumAcc4 of the same collection are made by a rule.
    #[test]
    fn made_reference_sets_come_out_exactly() {
        let first = moments(["10000001", "10000003", "10000002"]);
        check("NumAcc1", &first, ["10000002", "1", "-0.5"]);
        for (name, base, mean) in [
            ("NumAcc2", "1", "1.2"),
            ("NumAcc3", "1000000", "1000000.2"),
            ("NumAcc4", "10000000", "10000000.2"),
        ] {
            let value = |tenths: usize| format!("{base}.{tenths}");
            let all = (0..=1000).map(|at| value(if at == 0 { 2 } else { 3 - 2 * (at % 2) }));
            let all: Vec<String> = all.collect();
            check(name, &moments(all.iter().map(String::as_str)), [mean, "0.1", "-0.999"]);
        }
    }

    /// PiDigits of the same collection: the first 5000 digits of pi, worked out here by a spigot
    /// (S. Rabinowitz and S. Wagon, American Mathematical Monthly 102 (1995), 195 to 203).
    ///
    /// The 957th digit of the published file is a 3 where pi has an 8, and what is certified is certified
    /// of the file.
    #[test]
    fn five_thousand_digits_of_pi_come_out_to_every_certified_digit() {
        let mut digits = digits_of_pi(5000);
        assert_eq!(digits[..12], [3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8]);
        assert_eq!(digits[4994..], [2, 6, 0, 4, 7, 2]);
        assert_eq!(std::mem::replace(&mut digits[956], 3), 8);
        let digits: Vec<String> = digits.iter().map(u8::to_string).collect();
        let moments = moments(digits.iter().map(String::as_str));
        let certified = ["4.53480000000000", "2.86733906028871", "-0.00355099287237972"];
        check("PiDigits", &moments, certified);
    }

    fn digits_of_pi(count: usize) -> Vec<u8> {
        // A few more than asked for, because the last ones may still be carried into.
        let wanted = count + 8;
        let mut rest = vec![2_u64; wanted * 10 / 3 + 1];
        let mut found: Vec<u8> = Vec::new();
        for _ in 0..wanted {
            let mut carry = 0;
            for at in (0..rest.len()).rev() {
                let value = rest[at] * 10 + carry;
                let below = if at == 0 { 10 } else { 2 * at as u64 + 1 };
                rest[at] = value % below;
                carry = value / below * if at == 0 { 1 } else { at as u64 };
            }
            // A ten is carried into the digits before it.
            if carry >= 10 {
                let last = found.iter().rposition(|digit| *digit < 9).unwrap();
                found[last] += 1;
                found[last + 1..].fill(0);
            }
            found.push(u8::try_from(carry % 10).unwrap());
        }
        found.truncate(count);
        found
    }

    #[test]
    fn nothing_is_made_of_too_few_values() {
        let none = Moments::default();
        assert_eq!((none.mean(), none.deviation(15), none.autocorrelation(15)), (None, None, None));
        let one = moments(["56.0"]);
        assert_eq!(one.mean(), Number::parse("56").ok());
        assert_eq!((one.deviation(15), one.autocorrelation(15)), (None, None));
        let equal = moments(["56.0", "56", "56.00"]);
        assert_eq!(equal.deviation(15), Some(Number::ZERO));
        assert_eq!(equal.autocorrelation(15), None);
    }

    #[test]
    fn a_value_that_is_too_long_is_not_counted() {
        let mut moments = moments(["1.5"]);
        let long = Number::parse("999999999999999999").unwrap().add(Number::parse("0.5").unwrap());
        let [third, tiny] = ["1/3", "0.0000000000001"].map(|text| Number::parse(text).unwrap());
        for value in [third, tiny, long.unwrap()] {
            assert_eq!(moments.take(value), Err(TooLong), "{value:?}");
        }
        assert_eq!(moments.count(), 1);
        let most = Number::parse("999999.999999999999").unwrap();
        assert_eq!(moments.take(most), Ok(()));
        let whole = Number::parse("999999999999999999").unwrap();
        // The longest whole number beside twelve decimals: nothing overflows.
        for _ in 0..3 {
            assert_eq!(moments.take(whole), Ok(()));
        }
        assert!(moments.mean().is_some() && moments.deviation(15).is_some());
    }

    /// t of Student's distribution for 95 % and 7 degrees of freedom: 2.365.
    #[test]
    fn the_interval_leaves_zero_out_or_does_not() {
        let ends_higher = moments(["0.4", "0.4", "0.5", "0.3", "0.4", "0.4", "0.5", "0.4"]);
        assert!(ends_higher.leaves_zero_out(2365));
        // Mean 0.4125, s 0.0640870: t·s/√8, worked out by a second program.
        assert_eq!(ends_higher.half_width(2365, 6).unwrap().decimal(7), "0.0535866");
        let about = moments(["0.4", "-0.4", "0.5", "-0.3", "0.4", "-0.4", "0.5", "0.1"]);
        assert!(!about.leaves_zero_out(2365));
        assert!(moments(["0.4", "0.4"]).leaves_zero_out(12_706));
        assert!(!moments(["0", "0"]).leaves_zero_out(12_706));
    }

    proptest! {
        /// The order of values and their decimals do not change mean and deviation, nor does a
        /// distance that is added to all change the deviation.
        #[test]
        fn sums_do_not_depend_on_the_way(
            mut steps in prop::collection::vec(-10_i64.pow(9)..10_i64.pow(9), 2..40),
            shift in -10_i64.pow(9)..10_i64.pow(9),
        ) {
            let of = |steps: &[i64], shift: i64| {
                let mut moments = Moments::default();
                for (at, step) in steps.iter().enumerate() {
                    let value = Number::ratio(step + shift, if at % 2 == 0 { 1000 } else { 1 });
                    moments.take(value.unwrap()).unwrap();
                }
                moments
            };
            let plain = |steps: &[i64], shift: i64| {
                let mut moments = Moments::default();
                for step in steps {
                    moments.take(Number::ratio(step + shift, 1000).unwrap()).unwrap();
                }
                moments
            };
            let one = plain(&steps, 0);
            let shifted = plain(&steps, shift);
            prop_assert_eq!(one.deviation(15), shifted.deviation(15));
            prop_assert_eq!(one.autocorrelation(12), shifted.autocorrelation(12));
            prop_assert!(of(&steps, 0).mean().is_some());
            steps.reverse();
            let back = plain(&steps, 0);
            prop_assert_eq!(one.mean(), back.mean());
            prop_assert_eq!(one.deviation(15), back.deviation(15));
            prop_assert_eq!(one.autocorrelation(12), back.autocorrelation(12));
        }
    }
}
