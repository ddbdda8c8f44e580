//! Rules that say when a chart shows more than chance, by their published numbers.
//!
//! Sources: L. S. Nelson, Journal of Quality Technology 16 (1984) 4, pages 237 to 239, rules 1 to 8;
//! Western Electric rules 1 to 4 as in the NIST/SEMATECH e-Handbook, 6.3.2. Where they leave room:
//! beyond is strictly beyond; a value equal to the one before breaks rules 3 and 4; a value on the
//! centre line breaks a run on one side; a rule fires at the value that completes its pattern, and
//! rules 5 and 6 only when that value itself is beyond.
//!
//! Must never keep more than the last [`WINDOW`] values, and never say why a rule fired.

use std::collections::VecDeque;

use serde::{Serialize, Serializer};

use crate::quantity::Number;

/// The longest pattern looks at so many values.
pub const WINDOW: usize = 15;

/// A rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// Nelson 1, Western Electric 1: one value beyond three sigma.
    BeyondThree,
    /// Nelson 2: nine in a row on one side.
    NineOnOneSide,
    /// Nelson 3: six in a row, steadily rising or falling.
    SixSteady,
    /// Nelson 4: fourteen in a row, up and down in turn.
    FourteenInTurn,
    /// Nelson 5, Western Electric 2: two of three beyond two sigma on the same side.
    TwoOfThree,
    /// Nelson 6, Western Electric 3: four of five beyond one sigma on the same side.
    FourOfFive,
    /// Nelson 7: fifteen in a row within one sigma.
    FifteenWithin,
    /// Nelson 8: eight in a row on both sides, none within one sigma.
    EightWithout,
    /// Western Electric 4: eight in a row on one side.
    EightOnOneSide,
}

impl Rule {
    /// Every rule.
    pub const ALL: [Rule; 9] = [
        Rule::BeyondThree,
        Rule::NineOnOneSide,
        Rule::SixSteady,
        Rule::FourteenInTurn,
        Rule::TwoOfThree,
        Rule::FourOfFive,
        Rule::FifteenWithin,
        Rule::EightWithout,
        Rule::EightOnOneSide,
    ];

    /// The rules that charts use. With all of them at once, one value in thirty or so would alarm by
    /// chance alone; with these three, about one in a hundred.
    pub const USED: [Rule; 3] = [Rule::BeyondThree, Rule::NineOnOneSide, Rule::TwoOfThree];

    /// Its number in Nelson's list.
    pub fn nelson(self) -> Option<u8> {
        match self {
            Rule::BeyondThree => Some(1),
            Rule::NineOnOneSide => Some(2),
            Rule::SixSteady => Some(3),
            Rule::FourteenInTurn => Some(4),
            Rule::TwoOfThree => Some(5),
            Rule::FourOfFive => Some(6),
            Rule::FifteenWithin => Some(7),
            Rule::EightWithout => Some(8),
            Rule::EightOnOneSide => None,
        }
    }

    /// Its number among the Western Electric rules.
    pub fn western_electric(self) -> Option<u8> {
        match self {
            Rule::BeyondThree => Some(1),
            Rule::TwoOfThree => Some(2),
            Rule::FourOfFive => Some(3),
            Rule::EightOnOneSide => Some(4),
            _ => None,
        }
    }

    /// The rule as charts and programs name it: `nelson-1`, `western-electric-4`.
    pub fn word(self) -> &'static str {
        match self {
            Rule::BeyondThree => "nelson-1",
            Rule::NineOnOneSide => "nelson-2",
            Rule::SixSteady => "nelson-3",
            Rule::FourteenInTurn => "nelson-4",
            Rule::TwoOfThree => "nelson-5",
            Rule::FourOfFive => "nelson-6",
            Rule::FifteenWithin => "nelson-7",
            Rule::EightWithout => "nelson-8",
            Rule::EightOnOneSide => "western-electric-4",
        }
    }

    /// How often it fires at a value (or at the last of as many as it looks at) when nothing but
    /// chance is at work, for normal values about a centre and a sigma that are known.
    ///
    /// Computed here; all are well-known figures: 0.0027 is one in 370.
    pub fn chance(self) -> &'static str {
        match self {
            Rule::BeyondThree => "0.0027",
            Rule::NineOnOneSide => "0.0039",
            Rule::SixSteady => "0.0028",
            Rule::FourteenInTurn => "0.0046",
            Rule::TwoOfThree => "0.0031",
            Rule::FourOfFive => "0.0055",
            Rule::FifteenWithin => "0.0033",
            Rule::EightWithout => "0.0001",
            Rule::EightOnOneSide => "0.0078",
        }
    }
}

impl Serialize for Rule {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.word())
    }
}

/// Where values lie about a centre: what the rules see of a chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Zones {
    centre: Number,
    /// One, two and three sigma.
    beyond: [Number; 3],
}

impl Zones {
    /// The zones of a centre and three distances from it, each greater than the one before.
    pub fn new(centre: Number, beyond: [Number; 3]) -> Zones {
        Zones { centre, beyond }
    }

    /// What the rules see of a value that comes after another.
    fn seen(&self, value: Number, before: Option<Number>) -> Option<Seen> {
        let from_centre = value.sub(self.centre).ok()?;
        let distance = from_centre.abs();
        let side = match (from_centre.is_zero(), from_centre.is_negative()) {
            (true, _) => 0,
            (_, true) => -1,
            _ => 1,
        };
        let sigmas = self.beyond.iter().filter(|sigma| distance > **sigma).count();
        let way = before.map_or(0, |before| match value.cmp(&before) {
            std::cmp::Ordering::Less => -1,
            std::cmp::Ordering::Equal => 0,
            std::cmp::Ordering::Greater => 1,
        });
        Some(Seen { side, sigmas, way })
    }
}

/// What the rules see of one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Seen {
    /// Above the centre 1, below -1, on it 0.
    side: i8,
    /// How many whole sigmas it lies beyond, three at most.
    sigmas: usize,
    /// Above the value before it 1, below -1, else 0.
    way: i8,
}

/// Looks at one value after the other.
#[derive(Debug, Clone)]
pub struct Watch {
    zones: Zones,
    /// The last values, the newest first.
    seen: VecDeque<Seen>,
    before: Option<Number>,
}

impl Watch {
    /// Looks from now on.
    pub fn new(zones: Zones) -> Watch {
        Watch { zones, seen: VecDeque::with_capacity(WINDOW + 1), before: None }
    }

    /// Takes the next value, and says which of these rules fire at it. A value that is too far off to
    /// be compared breaks every pattern.
    pub fn take(&mut self, value: Number, rules: &[Rule]) -> Vec<Rule> {
        let Some(seen) = self.zones.seen(value, self.before.replace(value)) else {
            self.seen.clear();
            return Vec::new();
        };
        self.seen.push_front(seen);
        self.seen.truncate(WINDOW);
        rules.iter().copied().filter(|rule| self.fires(*rule, seen)).collect()
    }

    fn fires(&self, rule: Rule, last: Seen) -> bool {
        match rule {
            Rule::BeyondThree => last.sigmas == 3,
            Rule::NineOnOneSide => self.on_one_side(9, last),
            Rule::EightOnOneSide => self.on_one_side(8, last),
            // Six values are five ways from one to the next, fourteen are thirteen.
            Rule::SixSteady => last.way != 0 && self.all(5, |seen| seen.way == last.way),
            Rule::FourteenInTurn => self.in_turn(13),
            Rule::TwoOfThree => self.most_beyond(2, 3, 2, last),
            Rule::FourOfFive => self.most_beyond(4, 5, 1, last),
            Rule::FifteenWithin => self.all(15, |seen| seen.sigmas == 0),
            Rule::EightWithout => {
                let on = |side| self.seen.iter().take(8).any(|seen| seen.side == side);
                self.all(8, |seen| seen.sigmas > 0) && on(1) && on(-1)
            }
        }
    }

    /// Whether there are so many values and each is so.
    fn all(&self, count: usize, is_so: impl Fn(&Seen) -> bool) -> bool {
        self.seen.len() >= count && self.seen.iter().take(count).all(is_so)
    }

    fn on_one_side(&self, count: usize, last: Seen) -> bool {
        last.side != 0 && self.all(count, |seen| seen.side == last.side)
    }

    fn in_turn(&self, ways: usize) -> bool {
        let turns = self.seen.iter().zip(self.seen.iter().skip(1)).take(ways - 1);
        self.all(ways, |seen| seen.way != 0) && turns.into_iter().all(|(a, b)| a.way == -b.way)
    }

    /// Whether the last is so far out, and so many of the last few are on its side.
    fn most_beyond(&self, most: usize, of: usize, sigmas: usize, last: Seen) -> bool {
        let is_out = |seen: &&Seen| seen.side == last.side && seen.sigmas >= sigmas;
        last.sigmas >= sigmas && self.seen.iter().take(of).filter(is_out).count() >= most
    }
}

#[cfg(test)]
mod tests {
    use super::{Rule, Watch, Zones};
    use crate::quantity::Number;

    fn fired(values: &str, rules: &[Rule]) -> String {
        let sigmas = [1_u32, 2, 3].map(Number::from);
        let mut watch = Watch::new(Zones::new(Number::ZERO, sigmas));
        let mut fired = Vec::new();
        for (at, value) in values.split_whitespace().enumerate() {
            let value = Number::parse(value).unwrap();
            let words = watch.take(value, rules).into_iter().map(Rule::word);
            fired.extend(words.map(|word| format!("{word}:{}", at + 1)));
        }
        fired.join(" ")
    }

    /// Which of Nelson's rules fire at which value.
    #[track_caller]
    fn check(values: &str, expected: &str) {
        let nelson: Vec<Rule> = Rule::ALL.into_iter().filter(|r| r.nelson().is_some()).collect();
        assert_eq!(fired(values, &nelson), expected, "{values}");
    }

    /// One sequence for each of Nelson's rules; expected numbers were worked out by a second program.
    #[test]
    fn each_rule_fires_where_its_pattern_is_complete() {
        let in_turn = "0.2 -0.3 ".repeat(7);
        let near = format!("{} 0.2", "0.5 -0.4 ".repeat(7));
        let table = [
            ("0.2 -0.5 3.1 0.1", "nelson-1:3"),
            ("0.1 0.4 0.2 1.2 0.3 0.6 0.2 0.9 0.4 -0.1", "nelson-2:9"),
            ("-1.2 -0.9 -0.2 0.1 0.5 0.8 0.3", "nelson-3:6"),
            (&in_turn, "nelson-4:14"),
            ("0.0 2.2 -0.4 2.5 0.1", "nelson-5:4"),
            ("1.2 1.4 0.3 1.1 1.6 0.2", "nelson-6:5"),
            (&near, "nelson-4:14 nelson-4:15 nelson-7:15"),
            ("1.2 -1.3 1.1 -1.5 -1.2 1.4 1.3 -1.1", "nelson-8:8"),
            ("0 0 0 0 0 0 0 0 0", ""),
        ];
        for (values, expected) in table {
            check(values, expected);
        }
    }

    #[test]
    fn on_a_line_is_not_beyond_it() {
        check("3 -3", "");
        check("2 2 0.1", "");
        check("1 1 1 1 -1", "");
        // The third of three is beyond on the other side: it completes nothing.
        check("2.1 0 -2.1", "");
        check("2.1 2.1 0.5", "nelson-5:2");
    }

    #[test]
    fn equal_values_break_what_rises_and_what_alternates() {
        check("-1.2 -0.9 -0.2 -0.2 0.5 0.8 0.9", "");
        check(&format!("{} 0.2 {}", "0.2 -0.3 ".repeat(6), "0.2 -0.3"), "nelson-7:15");
    }

    #[test]
    fn a_value_on_the_centre_breaks_a_run() {
        let run = "0.1 0.2 0.1 0.2 0.2 0.1 0.1 0.2 0 0.1";
        assert_eq!(fired(run, &[Rule::NineOnOneSide]), "");
        assert_eq!(fired(run, &[Rule::EightOnOneSide]), "western-electric-4:8");
    }

    /// Eight out of one sigma on one side are a run, not rule 8.
    #[test]
    fn rule_eight_wants_both_sides() {
        let values = "1.2 1.3 1.1 1.5 1.2 1.4 1.3 1.1";
        assert_eq!(fired(values, &[Rule::EightWithout]), "");
    }

    #[test]
    fn every_rule_has_a_published_number() {
        for rule in Rule::ALL {
            let number = rule.nelson().or(rule.western_electric()).unwrap().to_string();
            assert!(rule.word().ends_with(&number));
        }
        let western: Vec<u8> = Rule::ALL.into_iter().filter_map(Rule::western_electric).collect();
        assert_eq!(western, [1, 2, 3, 4]);
    }
}
