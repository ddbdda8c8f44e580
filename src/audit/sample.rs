//! Which records of an archive an audit looks at: a plan that somebody else can follow to the same
//! records.
//!
//! Names, days and a plan in, names out. A sample takes what its plan says and nothing is left to
//! chance: `random` ranks the names of jobs by SHA-256, so that a seed chosen by the auditor on the day gives the
//! same records to everybody and nobody could foresee them. Must never leave out a record because it
//! could not be read: what cannot be told is looked at.

use std::collections::BTreeMap;
use std::num::NonZeroUsize;

use chrono::NaiveDate;
use serde::Serialize;

use super::Report;
use crate::canonical;
use crate::language::{Part, Words};
use crate::record::job_of;

/// What an audit looks at.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Plan {
    /// Only records of this job.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub job: Option<String>,
    /// Only records of this machine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub machine: Option<String>,
    /// Only records with an entry on this day or later.
    #[serde(skip_serializing_if = "Option::is_none", serialize_with = "as_text")]
    pub from: Option<NaiveDate>,
    /// Only records with an entry on this day or earlier.
    #[serde(skip_serializing_if = "Option::is_none", serialize_with = "as_text")]
    pub to: Option<NaiveDate>,
    /// Of these, which.
    pub sample: Sample,
}

fn as_text<S: serde::Serializer>(day: &Option<NaiveDate>, to: S) -> Result<S::Ok, S::Error> {
    day.map(|day| day.to_string()).serialize(to)
}

/// How many of the records that fit, and which.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sample {
    /// All of them.
    #[default]
    All,
    /// The first job in the order of names, and each so many further on.
    Every(NonZeroUsize),
    /// So many jobs, by the rank of their names under a seed.
    Random {
        /// How many.
        count: NonZeroUsize,
        /// What the auditor chose.
        seed: String,
    },
}

/// What a record says of itself, as far as it has to be known for a plan.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Candidate {
    /// Its name.
    pub name: String,
    /// Its job.
    pub job: String,
    /// Its machine; none when it cannot be told.
    pub machine: Option<String>,
    /// Days of its first and last entry; none when they cannot be told.
    pub days: Option<(NaiveDate, NaiveDate)>,
}

/// The records that a plan takes.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Chosen {
    /// Their names, in order.
    pub names: Vec<String>,
    /// Those among them that are looked at because machine or days cannot be told.
    pub unclear: Vec<String>,
    /// How many records there are.
    pub of: usize,
    /// How many of them are of jobs that fit job, machine and period.
    pub fit: usize,
}

impl Candidate {
    /// A record that was judged already.
    pub fn of(report: &Report) -> Candidate {
        let (name, job) = (report.job.clone(), job_of(&report.job).to_owned());
        let days = report.span.map(|(first, last)| (first.date_naive(), last.date_naive()));
        Candidate { name, job, machine: report.machine.clone(), days }
    }
}

impl Chosen {
    /// Takes out names under which there is no record after all.
    pub fn keep(&mut self, is_record: impl Fn(&str) -> bool) {
        let before = self.names.len();
        self.names.retain(|name| is_record(name));
        self.unclear.retain(|name| is_record(name));
        self.of -= before - self.names.len();
        self.fit = self.fit.min(self.of);
    }
}

/// Why a sample cannot be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSample {
    /// Neither `every:` nor `random:` with a number from 1.
    Form,
    /// `random:` without a seed: nobody could repeat it.
    SeedMissing,
    /// A seed without `random:`.
    SeedUnused,
    /// A seed with a line feed: it could run into the name.
    SeedForm,
}

impl NoSample {
    /// Why, and the way out.
    pub fn words(self) -> Words {
        Words::of(match self {
            NoSample::Form => "auditing-sample-form",
            NoSample::SeedMissing => "auditing-seed-missing",
            NoSample::SeedUnused => "auditing-seed-unused",
            NoSample::SeedForm => "auditing-seed-form",
        })
    }
}

impl Sample {
    /// Reads `every:10` or `random:50` and the seed beside it.
    ///
    /// # Errors
    /// [`NoSample`].
    pub fn parse(text: Option<&str>, seed: Option<&str>) -> Result<Sample, NoSample> {
        let sample = match text.map(|text| text.split_once(':')) {
            None => Sample::All,
            Some(Some(("every", number))) => Sample::Every(positive(number)?),
            Some(Some(("random", number))) => {
                let seed = seed.filter(|seed| !seed.is_empty()).ok_or(NoSample::SeedMissing)?;
                if seed.contains('\n') {
                    return Err(NoSample::SeedForm);
                }
                Sample::Random { count: positive(number)?, seed: seed.to_owned() }
            }
            Some(_) => return Err(NoSample::Form),
        };
        match (&sample, seed) {
            (Sample::All | Sample::Every(_), Some(_)) => Err(NoSample::SeedUnused),
            _ => Ok(sample),
        }
    }

    /// The names it takes of names that stand in order.
    fn of<'n>(&self, names: Vec<&'n str>) -> Vec<&'n str> {
        match self {
            Sample::All => names,
            Sample::Every(step) => names.into_iter().step_by(step.get()).collect(),
            Sample::Random { count, seed } => {
                let mut ranked: Vec<_> =
                    names.into_iter().map(|name| (rank(seed, name), name)).collect();
                ranked.sort();
                ranked.truncate(count.get());
                let mut names: Vec<_> = ranked.into_iter().map(|(_, name)| name).collect();
                names.sort();
                names
            }
        }
    }
}

fn positive(text: &str) -> Result<NonZeroUsize, NoSample> {
    text.parse().map_err(|_| NoSample::Form)
}

/// SHA-256 of the seed, a line feed and the name: `printf 'seed\nname' | sha256sum`.
pub fn rank(seed: &str, name: &str) -> String {
    canonical::sha256_hex_of(&[seed.as_bytes(), b"\n", name.as_bytes()])
}

impl Plan {
    /// Whether machine or days of the records have to be known.
    pub fn asks_records(&self) -> bool {
        self.machine.is_some() || self.from.is_some() || self.to.is_some()
    }

    /// The records it takes. The records of one job go together: each is judged by the one before it.
    pub fn choose(&self, candidates: &[Candidate]) -> Chosen {
        let mut jobs: BTreeMap<&str, Vec<&Candidate>> = BTreeMap::new();
        for candidate in candidates {
            jobs.entry(&candidate.job).or_default().push(candidate);
        }
        let (mut fit, mut unclear) = (Vec::new(), Vec::new());
        for (job, own) in &jobs {
            let fits: Vec<Option<bool>> = own.iter().map(|one| self.fits(one)).collect();
            if fits.contains(&Some(true)) {
                fit.push(*job);
            } else if fits.contains(&None) {
                unclear.push(*job);
            }
        }
        let names = |of: &[&str]| {
            let own = of.iter().filter_map(|job| jobs.get(job)).flatten();
            let mut names: Vec<String> = own.map(|candidate| candidate.name.clone()).collect();
            names.sort();
            names
        };
        let (count, unclear) = (names(&fit).len(), names(&unclear));
        let mut chosen = names(&self.sample.of(fit));
        chosen.extend(unclear.iter().cloned());
        chosen.sort();
        Chosen { names: chosen, unclear, of: candidates.len(), fit: count }
    }

    /// None when it cannot be told.
    fn fits(&self, candidate: &Candidate) -> Option<bool> {
        if self.job.as_ref().is_some_and(|job| *job != candidate.job && *job != candidate.name) {
            return Some(false);
        }
        let machine = match &self.machine {
            None => Some(true),
            Some(machine) => candidate.machine.as_ref().map(|own| own == machine),
        };
        let period = match (self.from, self.to) {
            (None, None) => Some(true),
            (from, to) => candidate.days.map(|(first, last)| {
                from.is_none_or(|from| from <= last) && to.is_none_or(|to| first <= to)
            }),
        };
        match (machine, period) {
            (Some(false), _) | (_, Some(false)) => Some(false),
            (Some(true), Some(true)) => Some(true),
            _ => None,
        }
    }

    /// The plan in words, a sentence each.
    pub fn words(&self) -> Vec<Words> {
        let one = |key, name, value: Part| Words::new(key, &[(name, value)]);
        let mut words = Vec::new();
        words.extend(self.job.as_ref().map(|job| one("auditing-of-job", "job", job.into())));
        words.extend(
            self.machine
                .as_ref()
                .map(|machine| one("auditing-of-machine", "machine", machine.into())),
        );
        let day = |day: NaiveDate| day.to_string();
        words.extend(self.from.map(|from| one("auditing-from", "day", day(from).into())));
        words.extend(self.to.map(|to| one("auditing-to", "day", day(to).into())));
        words.push(match &self.sample {
            Sample::All => Words::of("auditing-all"),
            Sample::Every(step) => one("auditing-every", "step", step.get().to_string().into()),
            Sample::Random { count, seed } => {
                let parts = [("count", count.get().into()), ("seed", seed.into())];
                Words::new("auditing-random", &parts)
            }
        });
        words
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use proptest::prelude::*;

    use super::{Candidate, NoSample, Plan, Sample, rank};

    fn candidate(name: &str, machine: &str, first: &str, last: &str) -> Candidate {
        Candidate {
            name: name.to_owned(),
            job: name.to_owned(),
            machine: (!machine.is_empty()).then(|| machine.to_owned()),
            days: first.parse().ok().zip(last.parse().ok()),
        }
    }

    fn archive() -> Vec<Candidate> {
        vec![
            candidate("J-3", "stick", "2026-11-03", "2026-11-04"),
            candidate("J-1", "stick", "2026-11-01", "2026-11-01"),
            candidate("J-2", "pouch", "2026-11-02", "2026-11-02"),
            candidate("J-5", "", "", ""),
            candidate("J-4", "pouch", "2026-11-04", "2026-11-06"),
        ]
    }

    #[track_caller]
    fn check(plan: &Plan, names: &[&str], unclear: &[&str]) {
        let chosen = plan.choose(&archive());
        assert_eq!(chosen.names, names);
        assert_eq!(chosen.unclear, unclear);
    }

    fn day(text: &str) -> Option<chrono::NaiveDate> {
        Some(text.parse().unwrap())
    }

    #[test]
    fn machine_and_period_choose_and_what_cannot_be_told_is_looked_at() {
        check(&Plan::default(), &["J-1", "J-2", "J-3", "J-4", "J-5"], &[]);
        let stick = Plan { machine: Some("stick".to_owned()), ..Plan::default() };
        check(&stick, &["J-1", "J-3", "J-5"], &["J-5"]);
        let from = Plan { from: day("2026-11-04"), ..Plan::default() };
        check(&from, &["J-3", "J-4", "J-5"], &["J-5"]);
        check(&Plan { to: day("2026-11-02"), ..Plan::default() }, &["J-1", "J-2", "J-5"], &["J-5"]);
        let both = Plan { from: day("2026-11-05"), to: day("2026-11-05"), ..stick };
        check(&both, &["J-5"], &["J-5"]);
        check(&Plan { job: Some("J-2".to_owned()), ..both }, &[], &[]);
        check(&Plan { job: Some("J-2".to_owned()), ..Plan::default() }, &["J-2"], &[]);
    }

    #[test]
    fn every_so_many_begins_with_the_first_name() {
        let sample = |text| Sample::parse(Some(text), None).unwrap();
        check(&Plan { sample: sample("every:2"), ..Plan::default() }, &["J-1", "J-3", "J-5"], &[]);
        check(&Plan { sample: sample("every:9"), ..Plan::default() }, &["J-1"], &[]);
        let pouch = Plan { machine: Some("pouch".to_owned()), ..Plan::default() };
        check(&Plan { sample: sample("every:2"), ..pouch }, &["J-2", "J-5"], &["J-5"]);
    }

    #[test]
    fn the_records_of_a_job_go_together() {
        let second = |name: &str, day: &str| Candidate {
            name: name.to_owned(),
            job: "J-3".to_owned(),
            ..candidate(name, "stick", day, day)
        };
        let mut all = archive();
        all.push(second("J-3.2", "2026-11-09"));
        let late = Plan { from: day("2026-11-09"), ..Plan::default() };
        let chosen = late.choose(&all);
        assert_eq!(chosen.names, ["J-3", "J-3.2", "J-5"]);
        assert_eq!((chosen.of, chosen.fit, chosen.unclear), (6, 2, vec!["J-5".to_owned()]));
    }

    /// `printf '2026-11-26\nJ-1' | sha256sum`, and so on.
    #[test]
    fn a_rank_is_what_public_tools_print() {
        assert_eq!(
            rank("2026-11-26", "J-1"),
            "5dd37c12f58a3ccd9712a2d9ab7f5f71dee2683c5f8c42a8ae21002db5a18f7a"
        );
        let sample = Sample::parse(Some("random:2"), Some("2026-11-26")).unwrap();
        check(&Plan { sample, ..Plan::default() }, &["J-1", "J-4"], &[]);
    }

    #[test]
    fn a_sample_says_how_it_is_drawn() {
        let parse = |text, seed| Sample::parse(Some(text), seed);
        for bad in ["every:0", "every:", "every", "random:-1", "some:3", "", "every:2:3"] {
            assert_eq!(
                parse(bad, bad.starts_with("random").then_some("x")),
                Err(NoSample::Form),
                "{bad}"
            );
        }
        assert_eq!(parse("random:5", None), Err(NoSample::SeedMissing));
        assert_eq!(parse("random:5", Some("")), Err(NoSample::SeedMissing));
        assert_eq!(parse("random:5", Some("a\nb")), Err(NoSample::SeedForm));
        assert_eq!(parse("every:5", Some("a")), Err(NoSample::SeedUnused));
        assert_eq!(Sample::parse(None, Some("a")), Err(NoSample::SeedUnused));
        assert_eq!(Sample::parse(None, None), Ok(Sample::All));
    }

    fn names() -> impl Strategy<Value = BTreeSet<String>> {
        prop::collection::btree_set("[A-C]-[0-9]{1,3}", 0..40)
    }

    fn all_of(names: &BTreeSet<String>) -> Vec<Candidate> {
        names.iter().map(|name| candidate(name, "stick", "2026-11-01", "2026-11-02")).collect()
    }

    proptest! {
        /// As many as asked for, each once, in order, and the same whatever the order they come in.
        #[test]
        fn a_sample_is_a_function_of_names_and_plan(
            names in names(), count in 1..20_usize, seed in "[a-z0-9 ]{1,8}", turn in 0..40_usize,
        ) {
            let random = Sample::parse(Some(&format!("random:{count}")), Some(&seed)).unwrap();
            let every = Sample::parse(Some(&format!("every:{count}")), None).unwrap();
            for (sample, most) in [(random, names.len().min(count)), (every, names.len().div_ceil(count))] {
                let plan = Plan { sample, ..Plan::default() };
                let mut all = all_of(&names);
                let chosen = plan.choose(&all);
                prop_assert_eq!(chosen.names.len(), most);
                prop_assert!(chosen.names.is_sorted());
                prop_assert!(chosen.names.iter().all(|name| names.contains(name)));
                prop_assert_eq!((chosen.of, chosen.fit), (names.len(), names.len()));
                if !all.is_empty() {
                    let turn = turn % all.len();
                    all.rotate_left(turn);
                }
                prop_assert_eq!(plan.choose(&all), chosen);
            }
        }

        /// A record that comes into the archive may push one out of a random sample; it never lets
        /// one in that was not there.
        #[test]
        fn another_record_changes_a_random_sample_by_itself_only(
            names in names(), new in "[D-E]-[0-9]{1,3}", count in 1..20_usize, seed in "[a-z]{1,8}",
        ) {
            let sample = Sample::parse(Some(&format!("random:{count}")), Some(&seed)).unwrap();
            let plan = Plan { sample, ..Plan::default() };
            let before: BTreeSet<_> = plan.choose(&all_of(&names)).names.into_iter().collect();
            let mut more = names.clone();
            more.insert(new.clone());
            let after = plan.choose(&all_of(&more)).names;
            prop_assert!(after.iter().all(|name| *name == new || before.contains(name)));
        }

        /// What the records do not tell is never left out.
        #[test]
        fn what_cannot_be_told_is_always_taken(names in names(), count in 1..9_usize) {
            let sample = Sample::parse(Some(&format!("every:{count}")), None).unwrap();
            let plan = Plan { sample, machine: Some("stick".to_owned()), ..Plan::default() };
            let mut all = all_of(&names);
            all.push(candidate("X-1", "", "2026-11-01", "2026-11-02"));
            let chosen = plan.choose(&all);
            prop_assert!(chosen.names.contains(&"X-1".to_owned()));
            prop_assert_eq!(chosen.unclear, ["X-1"]);
        }
    }
}
