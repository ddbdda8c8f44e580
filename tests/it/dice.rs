//! Numbers that look random and are the same in every run.

use witnessmark::quantity::Number;

/// A source of numbers; the same seed gives the same ones.
pub struct Dice {
    state: u64,
}

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice { state: seed }
    }

    /// Any 64 bits: splitmix64, written from memory of its public-domain reference.
    pub fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// An integer from `low` to `high`, both included.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        let width = u64::try_from(high - low).unwrap() + 1;
        low + i64::try_from(self.next() % width).unwrap()
    }

    /// A place below `count`, which is above zero.
    pub fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.between(0, i64::try_from(count).unwrap() - 1)).unwrap()
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }

    /// Whether one of `of` equal chances came.
    pub fn one_in(&mut self, of: i64) -> bool {
        self.between(1, of) == 1
    }

    /// A fraction over `below` from `low` to `high`, both of them counted in parts of it.
    pub fn fraction(&mut self, low: i64, high: i64, below: i64) -> Number {
        Number::ratio(self.between(low, high), below).unwrap()
    }

    /// A decimal as people write it, from `low` to `high` whole ones, with up to three decimals.
    pub fn decimal(&mut self, low: i64, high: i64) -> String {
        let places = u32::try_from(self.between(0, 3)).unwrap();
        let all = 10_i64.pow(places);
        self.fraction(low * all, high * all, all).decimal(places)
    }
}

#[test]
fn the_same_seed_gives_the_same_numbers() {
    // The first two of seed 0, as published with the reference; from memory.
    let mut dice = Dice::new(0);
    assert_eq!(dice.next(), 0xe220_a839_7b1d_cdaf);
    assert_eq!(dice.next(), 0x6e78_9e6a_a1b9_65f4);
    assert!((0..1000).all(|_| (-3..=3).contains(&dice.between(-3, 3))));
    assert_eq!(Dice::new(7).decimal(1, 900), Dice::new(7).decimal(1, 900));
}
