//! Settings that always end beside their target: what would bring target and machine together.
//!
//! A person sets what the packet says, runs, and corrects until it is right. When the last [`LEAST`]
//! changeovers or more ended on the same side of the same target, by a step of the instrument or more on
//! average, and the 95 % interval of that average leaves zero out (mean ± t·s/√n, NIST/SEMATECH
//! e-Handbook 1.3.5.2), the formula is worth a look. Under chance alone, eight in a row on one side
//! happen once in 128.
//!
//! Must never change a recipe: it writes down the lines that a person may put into a new revision, who
//! also has to ask why. A worn part or an instrument that is off wants another answer.

use std::collections::VecDeque;

use super::model::{Evidence, Proposal};
use super::moments::Moments;
use super::run::{Read, Run, SetHere};
use crate::quantity::{NoNumber, Number, Rounding, Unit, decimals_in};
use crate::record::time;

/// So many changeovers in a row have to end on one side.
pub const LEAST: u64 = 8;

/// So many readings are shown as evidence.
const MOST_EVIDENCE: usize = 12;

/// Significant digits of the interval.
const DIGITS: u32 = 12;

/// Most decimals of an offset.
const MOST_PLACES: u32 = 12;

/// Quantiles 0.975 of Student's distribution for 7 to 29 degrees of freedom, in thousandths. With more
/// than 30 values the last one stays: the interval is a little wider than it need be.
///
/// Source: tables as printed, from memory; compared with a second program by the tests.
pub const STUDENT: [u32; 23] = [
    2365, 2306, 2262, 2228, 2201, 2179, 2160, 2145, 2131, 2120, 2110, 2101, 2093, 2086, 2080, 2074,
    2069, 2064, 2060, 2056, 2052, 2048, 2045,
];

/// The quantile for so many values, [`LEAST`] at least.
pub fn student(count: u64) -> u32 {
    let at = usize::try_from(count.saturating_sub(LEAST)).unwrap_or(usize::MAX);
    let [.., last] = STUDENT;
    STUDENT.get(at).copied().unwrap_or(last)
}

/// The last changeovers of one setting of one recipe on one machine that ended on one side of one
/// target.
#[derive(Debug, Clone)]
pub(super) struct Leaning {
    is_above: bool,
    target: String,
    deviations: Moments,
    evidence: VecDeque<Evidence>,
    newest: Newest,
}

/// What the newest record says of the setting.
#[derive(Debug, Clone)]
struct Newest {
    machine: String,
    recipe: String,
    revision: String,
    unit: String,
    setting: SetHere,
}

impl Leaning {
    /// What is kept after a changeover in which the setting ended there; none when it ended on its
    /// target.
    pub(super) fn after(
        before: Option<Leaning>,
        run: &Run,
        read: &Read,
        setting: &SetHere,
    ) -> Option<Leaning> {
        let target = read.target.clone()?;
        let ended = Number::parse(&read.last.text).ok()?;
        let deviation = ended.sub(Number::parse(&target).ok()?).ok()?;
        if deviation.is_zero() {
            return None;
        }
        let is_above = !deviation.is_negative();
        let same = before.filter(|own| own.is_above == is_above && own.target == target);
        let newest = Newest {
            machine: run.machine.clone(),
            recipe: run.to.clone(),
            revision: run.revision.clone(),
            unit: read.unit.clone(),
            setting: setting.clone(),
        };
        let (deviations, evidence) =
            same.map(|own| (own.deviations, own.evidence)).unwrap_or_default();
        let mut own = Leaning { is_above, target, deviations, evidence, newest };
        own.deviations.take(deviation).ok()?;
        own.evidence.push_back(Evidence {
            record: run.record.clone(),
            entry: read.last.entry,
            at: time::write(read.last.at),
            reading: read.last.text.clone(),
        });
        while own.evidence.len() > MOST_EVIDENCE {
            own.evidence.pop_front();
        }
        Some(own)
    }

    /// What would bring the two together; none while it is not worth a look.
    pub(super) fn proposal(self) -> Option<Proposal> {
        let (count, t) = (self.deviations.count(), student(self.deviations.count()));
        let (mean, step) = (self.deviations.mean()?, self.newest.setting.resolution);
        if count < LEAST || mean.abs() < step || !self.deviations.leaves_zero_out(t) {
            return None;
        }
        let half = self.deviations.half_width(t, DIGITS)?;
        let offset = mean.round_to_step(step, Rounding::HalfEven).ok()?;
        let Newest { machine, recipe, revision, unit, setting } = self.newest;
        let edit = edit(&setting, offset, &unit).ok()?;
        Some(Proposal {
            machine,
            recipe,
            revision,
            setting: setting.id,
            name: setting.name,
            unit,
            ends_at: ends_at(&self.target, offset)?,
            target: self.target,
            offset: signed(offset),
            count,
            mean,
            least: mean.sub(half).ok()?,
            most: mean.add(half).ok()?,
            resolution: setting.resolution,
            formula: setting.formula,
            edit,
            evidence: self.evidence.into(),
        })
    }
}

/// The target and the offset, with the decimals of the target, or more where the offset has more.
fn ends_at(target: &str, offset: Number) -> Option<String> {
    let places = offset.exact_places(MOST_PLACES).unwrap_or(MOST_PLACES).max(decimals_in(target));
    Some(Number::parse(target).ok()?.add(offset).ok()?.decimal(places))
}

/// Takes out what somebody has answered since: the recipe has another formula by now, or is gone.
pub fn keep_open(proposals: &mut Vec<Proposal>, formula: impl Fn(&str, &str) -> Option<String>) {
    proposals.retain(|own| formula(&own.recipe, &own.setting).as_ref() == Some(&own.formula));
}

fn signed(offset: Number) -> String {
    if offset.is_negative() { offset.to_string() } else { format!("+{offset}") }
}

/// The lines of the recipe, with the offset in the formula.
fn edit(setting: &SetHere, offset: Number, unit: &str) -> Result<String, NoNumber> {
    let sign = if offset.is_negative() { '-' } else { '+' };
    let own = setting.formula.trim();
    let is_name = own.chars().all(|c| c.is_ascii_alphanumeric() || c == '_' || c == '.');
    let own = if is_name { own.to_owned() } else { format!("({own})") };
    let formula = format!("{own} {sign} {}", added(offset.abs(), unit)?);
    // In single quotes YAML reads every character as it stands, but the quote itself, which is doubled.
    let formula = formula.replace('\'', "''");
    Ok(format!("settings:\n  {}:\n    formula: '{formula}'\n", setting.id))
}

/// An amount to add to a formula. Between two temperatures lie kelvins: five for nine of °F.
fn added(amount: Number, unit: &str) -> Result<String, NoNumber> {
    let is_point = Unit::find(unit).is_some_and(|own| own.dimension.is_point());
    Ok(match unit {
        "" => amount.to_string(),
        "°F" => format!("{} K / 9", amount.mul(Number::from(5_u32))?),
        _ if is_point => format!("{amount} K"),
        _ => format!("{amount} {unit}"),
    })
}

#[cfg(test)]
mod tests {
    use super::super::run::{Read, Run, SetHere, Value};
    use super::{Leaning, STUDENT, edit, keep_open, student};
    use crate::formula::Formula;
    use crate::history::model::Proposal;
    use crate::quantity::Number;
    use crate::record::entry::Verdict;
    use crate::record::time;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn setting(step: &str) -> SetHere {
        let (id, name) = ("strip".to_owned(), "Strip width".to_owned());
        SetHere { id, name, formula: "2 * flat + fin".to_owned(), resolution: number(step) }
    }

    fn run(at: usize) -> Run {
        Run {
            record: format!("J-{at}"),
            job: format!("J-{at}"),
            machine: "line-1".to_owned(),
            machine_name: "Line 1".to_owned(),
            from: "dill".to_owned(),
            to: "salt".to_owned(),
            revision: "3".to_owned(),
            state: None,
            steps: Vec::new(),
            blanks: Vec::new(),
            released: None,
        }
    }

    fn read(target: &str, text: &str) -> Read {
        let at = time::parse("2026-01-05T06:00:00+01:00").unwrap();
        let value = || Value { entry: 9, at, text: text.to_owned(), verdict: Verdict::Within };
        let blank = "set.values/strip".to_owned();
        let (step, procedure) = ("set.values".to_owned(), "set".to_owned());
        let (label, unit) = ("Strip width".to_owned(), "mm".to_owned());
        let (target, low, high) = (Some(target.to_owned()), None, None);
        let (first, last, instrument, setting) = (value(), value(), None, None);
        Read {
            blank,
            step,
            procedure,
            label,
            unit,
            instrument,
            target,
            low,
            high,
            setting,
            first,
            last,
            count: 1,
            corrections: 0,
            failed: false,
            protects: false,
        }
    }

    /// What comes of targets and where they ended, one changeover after the other.
    fn proposal(ends: &[(&str, &str)], step: &str) -> Option<Proposal> {
        let setting = setting(step);
        let mut leaning = None;
        for (at, (target, text)) in ends.iter().enumerate() {
            leaning = Leaning::after(leaning, &run(at), &read(target, text), &setting);
        }
        leaning.and_then(Leaning::proposal)
    }

    fn always<'t>(target: &'t str, text: &'t str, count: usize) -> Vec<(&'t str, &'t str)> {
        vec![(target, text); count]
    }

    #[test]
    fn eight_in_a_row_beside_the_target_are_worth_a_look() {
        let found = proposal(&always("60.0", "60.4", 8), "0.1").unwrap();
        assert_eq!((found.count, &*found.offset, &*found.ends_at), (8, "+0.4", "60.4"));
        assert_eq!((found.least, found.most), (number("0.4"), number("0.4")));
        assert_eq!(found.edit, "settings:\n  strip:\n    formula: '(2 * flat + fin) + 0.4 mm'\n");
        assert_eq!(found.evidence.len(), 8);
        assert_eq!(proposal(&always("60.0", "60.4", 7), "0.1"), None);
        let below = proposal(&always("60", "59.5", 9), "0.5").unwrap();
        assert_eq!((&*below.offset, &*below.ends_at), ("-0.5", "59.5"));
        assert!(below.edit.contains("(2 * flat + fin) - 0.5 mm"));
    }

    #[test]
    fn one_that_ends_elsewhere_begins_anew() {
        let ends = |middle: (&'static str, &'static str), after: usize| {
            let mut all = always("60.0", "60.4", 20);
            all.push(middle);
            all.extend(always("60.0", "60.4", after));
            proposal(&all, "0.1").map(|found| found.count)
        };
        for middle in [("60.0", "60.0"), ("60.0", "59.9"), ("60.2", "60.4")] {
            assert_eq!((ends(middle, 7), ends(middle, 8)), (None, Some(8)), "{middle:?}");
        }
        assert_eq!(ends(("60.0", "60.1"), 1), Some(22));
    }

    #[test]
    fn less_than_a_step_of_the_instrument_is_nothing() {
        assert_eq!(proposal(&always("60.0", "60.4", 12), "0.5"), None);
        assert!(proposal(&always("60.0", "60.5", 12), "0.5").is_some());
        let mut near = always("60.0", "60.1", 8);
        near.push(("60.0", "60.05"));
        assert_eq!(proposal(&near, "0.1"), None, "a mean below the step");
    }

    /// One far reading among small ones: the mean is a step off, and the interval holds zero.
    #[test]
    fn a_mean_that_one_reading_makes_is_nothing() {
        let mut ends = always("60.0", "60.01", 7);
        ends.push(("60.0", "61.0"));
        assert_eq!(proposal(&ends, "0.1"), None);
    }

    #[test]
    fn evidence_is_the_latest_and_bounded() {
        let found = proposal(&always("60.0", "60.4", 40), "0.1").unwrap();
        let records: Vec<&str> = found.evidence.iter().map(|one| one.record.as_str()).collect();
        assert_eq!((found.count, records.len()), (40, 12));
        assert_eq!((records[0], records[11]), ("J-28", "J-39"));
    }

    #[test]
    fn the_edit_is_a_formula_that_can_be_read() {
        for (offset, unit, expected) in [
            ("0.4", "mm", "+ 0.4 mm"),
            ("-3", "°C", "- 3 K"),
            ("2", "°F", "+ 10 K / 9"),
            ("-2", "", "- 2"),
            ("0.03125", "in", "+ 0.03125 in"),
            ("0.5", "%", "+ 0.5 %"),
        ] {
            let text = edit(&setting("1"), number(offset), unit).unwrap();
            assert!(text.contains(&format!("(2 * flat + fin) {expected}'")), "{text}");
            let formula = text.split('\'').nth(1).unwrap();
            assert!(Formula::parse(formula).is_ok(), "{formula}");
        }
    }

    #[test]
    fn a_name_alone_needs_no_brackets() {
        let setting = SetHere { formula: "web.strip".to_owned(), ..setting("1") };
        let text = edit(&setting, number("0.4"), "mm").unwrap();
        assert!(text.ends_with("formula: 'web.strip + 0.4 mm'\n"), "{text}");
    }

    /// Somebody has written it into the recipe: the next revision has another formula.
    #[test]
    fn what_was_answered_is_not_asked_again() {
        let found = || vec![proposal(&always("60.0", "60.4", 8), "0.1").unwrap()];
        let left = |formula: Option<&str>| {
            let mut all = found();
            keep_open(&mut all, |recipe, setting| {
                assert_eq!((recipe, setting), ("salt", "strip"));
                formula.map(str::to_owned)
            });
            all.len()
        };
        assert_eq!(left(Some("2 * flat + fin")), 1);
        assert_eq!((left(Some("(2 * flat + fin) + 0.4 mm")), left(None)), (0, 0));
    }

    #[test]
    fn the_quantile_falls_with_the_count_and_then_stays() {
        assert_eq!((student(8), student(9), student(30)), (2365, 2306, 2045));
        assert_eq!((student(31), student(1_000_000), student(0)), (2045, 2045, 2365));
        assert!(STUDENT.windows(2).all(|pair| pair[1] < pair[0]));
    }
}
