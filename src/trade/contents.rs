//! How much less than the label says may be in a package.
//!
//! All numbers are grams, or millilitres under [`Rules::Eu`]. These are limits for the blank of a
//! fill weight: neither is a tolerance of a machine's setting, and the law of the place decides.

use std::fmt;

use crate::language::Words;
use crate::quantity::{NoNumber, Number, Rounding};

/// Whose rules hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rules {
    /// Directive 76/211/EEC annex I 2.4; OIML R 87 has the same steps (from memory).
    Eu,
    /// NIST Handbook 133, table 2-5, by weight; from memory: check the current edition.
    Us,
}

/// The limits that follow from a label.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NetContents {
    /// What one package may lack.
    pub tolerable_error: Number,
    /// The label less the tolerable error. EU: few may lie below (annex I 1.2, from memory: 2.5 %).
    /// US: none of a sample of 12 or 24 may, one of 48 (from memory).
    pub least: Number,
    /// EU only: the label less twice the tolerable error; none may lie below.
    pub never: Option<Number>,
}

/// There are no limits for a label.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoContents {
    /// The label lies outside what the rules cover.
    OutsideTable {
        /// The least label they cover.
        least: Number,
        /// The greatest label they cover.
        most: Number,
    },
    /// A number became too large.
    Number(NoNumber),
}

impl From<NoNumber> for NoContents {
    fn from(no: NoNumber) -> NoContents {
        NoContents::Number(no)
    }
}

impl NoContents {
    /// What is wrong.
    pub fn words(&self) -> Words {
        match self {
            NoContents::OutsideTable { least, most } => {
                let parts =
                    [("least", least.to_string().into()), ("most", most.shortest(1).into())];
                Words::new("contents-outside-table", &parts)
            }
            NoContents::Number(no) => no.words(),
        }
    }
}

impl fmt::Display for NoContents {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for NoContents {}

/// Works out the limits of a package's contents.
///
/// # Errors
/// As [`tolerable_error`].
pub fn net_contents(label: Number, rules: Rules) -> Result<NetContents, NoContents> {
    let tolerable_error = tolerable_error(label, rules)?;
    let least = label.sub(tolerable_error)?;
    let never = match rules {
        Rules::Eu => Some(least.sub(tolerable_error)?),
        Rules::Us => None,
    };
    Ok(NetContents { tolerable_error, least, never })
}

/// What one package may lack: tolerable negative error (EU), maximum allowable variation (US).
///
/// EU: percentages give grams or millilitres rounded up to 0.1; labels from 5 to 10 000. US: rows
/// are told apart by the label in pounds, and the result is the gram figure that the handbook prints
/// beside the pound figure, which is the same cut to 0.1 g; below 0.08 lb it is 10 % of the label,
/// exactly; nothing above 2.76 lb.
///
/// # Errors
/// [`NoContents::OutsideTable`].
pub fn tolerable_error(label: Number, rules: Rules) -> Result<Number, NoContents> {
    match rules {
        Rules::Eu => eu_error(label),
        Rules::Us => us_variation(label),
    }
}

/// What limits are rounded to, in grams or millilitres.
const TENTH: Number = Number::constant(1, 10);

/// What a row allows.
enum Allowed {
    /// Grams or millilitres.
    Fixed(Number),
    /// A share of the label.
    Share(Number),
}

impl Allowed {
    /// In grams or millilitres, a share rounded up to 0.1.
    fn of(&self, label: Number) -> Result<Number, NoNumber> {
        match self {
            Allowed::Fixed(error) => Ok(*error),
            Allowed::Share(share) => label.mul(*share)?.round_to_step(TENTH, Rounding::Up),
        }
    }
}

/// Greatest label of a row, and what it allows. The rows join without a jump.
const EU_ROWS: [(u32, Allowed); 7] = [
    (50, Allowed::Share(Number::constant(9, 100))),
    (100, Allowed::Fixed(Number::constant(45, 10))),
    (200, Allowed::Share(Number::constant(45, 1000))),
    (300, Allowed::Fixed(Number::constant(9, 1))),
    (500, Allowed::Share(Number::constant(3, 100))),
    (1000, Allowed::Fixed(Number::constant(15, 1))),
    (10_000, Allowed::Share(Number::constant(15, 1000))),
];

/// The least label of the EU rules.
const EU_LEAST: u32 = 5;

/// The greatest label of the EU rules.
const EU_MOST: u32 = 10_000;

fn eu_error(label: Number) -> Result<Number, NoContents> {
    let (least, most) = (Number::from(EU_LEAST), Number::from(EU_MOST));
    let row = EU_ROWS.iter().find(|(up_to, _)| label <= Number::from(*up_to));
    let Some((_, allowed)) = row.filter(|_| label >= least) else {
        return Err(NoContents::OutsideTable { least, most });
    };
    Ok(allowed.of(label)?)
}

/// A pound in grams, exact by definition (NIST SP 811).
const POUND: Number = Number::constant(45_359_237, 100_000);

/// Labels below this many hundredths of a pound may lack 10 %.
const US_FIRST_ROW: i64 = 8;

/// Greatest label in hundredths of a pound, allowable variation in thousandths.
const US_ROWS: [(i64, i64); 18] = [
    (12, 8),
    (18, 12),
    (26, 16),
    (34, 20),
    (46, 24),
    (58, 28),
    (70, 32),
    (84, 36),
    (94, 40),
    (108, 44),
    (126, 48),
    (140, 52),
    (154, 56),
    (170, 60),
    (188, 64),
    (214, 70),
    (248, 78),
    (276, 86),
];

fn us_variation(label: Number) -> Result<Number, NoContents> {
    let hundredths = label.div(POUND)?.mul(Number::from(100_u32))?;
    if hundredths > Number::ZERO && hundredths < Number::from(US_FIRST_ROW) {
        return Ok(label.mul(Number::constant(1, 10))?);
    }
    let row = US_ROWS.iter().find(|(up_to, _)| hundredths <= Number::from(*up_to));
    let Some((_, thousandths)) = row.filter(|_| label > Number::ZERO) else {
        let most = Number::constant(276, 100).mul(POUND)?;
        return Err(NoContents::OutsideTable { least: Number::ZERO, most });
    };
    Ok(Number::ratio(*thousandths, 1000)?.mul(POUND)?.round_to_step(TENTH, Rounding::Down)?)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{EU_ROWS, NoContents, POUND, Rules, net_contents, tolerable_error};
    use crate::quantity::Number;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    #[track_caller]
    fn check(label: &str, error: &str, least: &str, never: &str) {
        let found = net_contents(number(label), Rules::Eu).unwrap();
        assert_eq!(found.tolerable_error, number(error), "{label}");
        assert_eq!((found.least, found.never), (number(least), Some(number(never))), "{label}");
    }

    /// Directive 76/211/EEC annex I 2.4; worked independently.
    #[test]
    fn eu_limits_are_the_independently_worked_ones() {
        check("10", "0.9", "9.1", "8.2");
        check("28", "2.6", "25.4", "22.8");
        check("30", "2.7", "27.3", "24.6");
        check("45", "4.1", "40.9", "36.8");
        check("50", "4.5", "45.5", "41");
        check("75", "4.5", "70.5", "66");
        check("112", "5.1", "106.9", "101.8");
        check("125", "5.7", "119.3", "113.6");
        check("150", "6.8", "143.2", "136.4");
        check("250", "9.0", "241", "232");
        check("333", "10.0", "323", "313");
        check("375", "11.3", "363.7", "352.4");
        check("454", "13.7", "440.3", "426.6");
        check("500", "15.0", "485", "470");
        check("750", "15.0", "735", "720");
        check("1000", "15.0", "985", "970");
        check("1500", "22.5", "1477.5", "1455");
        check("2500", "37.5", "2462.5", "2425");
    }

    /// Directive 76/211/EEC annex I 2.4: the steps join, so that a boundary belongs to either row.
    #[test]
    fn eu_steps_join_without_a_jump() {
        for rows in EU_ROWS.windows(2) {
            let boundary = Number::from(rows[0].0);
            assert_eq!(rows[0].1.of(boundary), rows[1].1.of(boundary), "{boundary}");
        }
    }

    /// NIST Handbook 133 table 2-5, from memory: greatest label in pounds and what it may lack in
    /// grams, which are the pounds that the code has, cut to 0.1 g; worked independently.
    #[test]
    fn us_rows_are_those_of_the_table() {
        let mut above = number("0.0799");
        for (up_to, grams) in [
            ("0.12", "3.6"),
            ("0.18", "5.4"),
            ("0.26", "7.2"),
            ("0.34", "9.0"),
            ("0.46", "10.8"),
            ("0.58", "12.7"),
            ("0.70", "14.5"),
            ("0.84", "16.3"),
            ("0.94", "18.1"),
            ("1.08", "19.9"),
            ("1.26", "21.7"),
            ("1.40", "23.5"),
            ("1.54", "25.4"),
            ("1.70", "27.2"),
            ("1.88", "29.0"),
            ("2.14", "31.7"),
            ("2.48", "35.3"),
            ("2.76", "39.0"),
        ] {
            let just_above = above.add(number("0.0001")).unwrap();
            for label in [just_above, number(up_to)] {
                let found = tolerable_error(label.mul(POUND).unwrap(), Rules::Us).unwrap();
                assert_eq!(found, number(grams), "{label} lb");
            }
            above = number(up_to);
        }
    }

    #[track_caller]
    fn check_us(label: &str, error: &str, least: &str) {
        let found = net_contents(number(label), Rules::Us).unwrap();
        assert_eq!((found.tolerable_error, found.least), (number(error), number(least)), "{label}");
        assert_eq!(found.never, None, "{label}");
    }

    /// NIST Handbook 133 table 2-5, from memory; 113 g give 7 g as confirmed elsewhere.
    #[test]
    fn us_labels_in_grams_find_their_row() {
        check_us("113", "7.2", "105.8");
        check_us("400", "18.1", "381.9");
        check_us("1000", "35.3", "964.7");
        check_us("30", "3", "27");
    }

    /// NIST Handbook 133 table 2-5, from memory: below 0.08 lb no figure is printed, only 10 %.
    #[test]
    fn ten_percent_of_a_small_us_label_is_exact() {
        check_us("28.35", "2.835", "25.515");
        check_us("36.2", "3.62", "32.58");
        check_us("36.3", "3.6", "32.7");
    }

    #[track_caller]
    fn check_outside(label: &str, rules: Rules, least: &str, most: &str) {
        let (least, most) = (number(least), number(most));
        let outside = NoContents::OutsideTable { least, most };
        assert_eq!(tolerable_error(number(label), rules), Err(outside), "{label}");
    }

    #[test]
    fn labels_outside_the_table_have_no_limits() {
        check_outside("4.999", Rules::Eu, "5", "10000");
        check_outside("10000.1", Rules::Eu, "5", "10000");
        check_outside("-5", Rules::Eu, "5", "10000");
        assert_eq!(tolerable_error(number("10000"), Rules::Eu), Ok(number("150")));
        assert_eq!(tolerable_error(number("5"), Rules::Eu), Ok(number("0.5")));
        check_outside("1251.92", Rules::Us, "0", "1251.9149412");
        check_outside("0", Rules::Us, "0", "1251.9149412");
        check_outside("-1", Rules::Us, "0", "1251.9149412");
    }

    proptest! {
        /// At most 11 %: 9 %, and up to 0.1 g by rounding up, which is 2 % of the least label.
        #[test]
        fn a_larger_label_never_tolerates_less(
            label in 500..999_000_i64,
            more in 0..1_000_i64,
        ) {
            let number = |hundredths: i64| Number::ratio(hundredths, 100).unwrap();
            let (small, large) = (number(label), number(label + more));
            let error = |label| tolerable_error(label, Rules::Eu).unwrap();
            prop_assert!(error(small) <= error(large));
            let least = net_contents(small, Rules::Eu).unwrap();
            prop_assert!(least.never.unwrap() < least.least && least.least < small);
            let share = error(small).div(small).unwrap();
            prop_assert!(share <= Number::ratio(11, 100).unwrap());
        }
    }
}
