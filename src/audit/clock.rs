//! What the times of entries tell, beyond the rule that time never runs backwards in a record.
//!
//! Stated times in, notes out: a station's clock can be wrong, and somebody can sign late what was
//! done early. Nothing here proves that; each note says where a person should ask. Must never read
//! a clock, and never weigh more than a note.

use std::collections::BTreeMap;

use chrono::{DateTime, Duration, FixedOffset};

use super::{AuditFinding, AuditedEntry, Report, Severity};
use crate::language::{Part, Words};
use crate::record::entry::Kind;
use crate::record::time;

/// Longest time between two entries of one job before somebody should say what happened: a shift.
const SHIFT: Duration = Duration::hours(8);
/// In this time nobody does [`MANY`] steps.
const MOMENT: Duration = Duration::minutes(1);
/// So many steps, each done or checked by one person.
const MANY: usize = 5;

/// When an entry says that it was signed, and by which key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stamp<'a> {
    /// Number of the entry, in a record or in a log.
    pub number: u64,
    /// The stated time.
    pub at: DateTime<FixedOffset>,
    /// Fingerprint of the key.
    pub key: &'a str,
    /// The step that is done or checked; none for a reading and other statements.
    pub step: Option<&'a str>,
}

impl<'a> Stamp<'a> {
    /// The stamp of an entry that could be read.
    fn of(entry: &'a AuditedEntry) -> Option<Self> {
        let says = entry.says.as_ref()?;
        let signs = matches!(says.kind, Kind::Performed | Kind::Verified);
        let step = signs.then_some(says.step.as_str());
        let key = entry.key.as_deref()?;
        Some(Stamp { number: entry.number, at: time::parse(&says.at).ok()?, key, step })
    }
}

/// Every note on the times of one record.
pub(super) fn notes(entries: &[AuditedEntry]) -> Vec<AuditFinding> {
    let stamps: Vec<Stamp> = entries.iter().filter_map(Stamp::of).collect();
    let mut notes: Vec<AuditFinding> = gaps(&stamps).iter().map(gap_note).collect();
    notes.extend(bursts(&stamps).iter().map(burst_note));
    notes.extend(skews(&stamps).iter().map(skew_note));
    notes.sort_by_key(|note| note.entry);
    notes
}

/// Adds to each report what its times say against those of other jobs on its machine.
pub fn across(reports: &mut [Report]) {
    let spans: Vec<Span> = reports.iter().filter_map(Span::of).collect();
    for (span, before) in overlaps(&spans) {
        let own = reports.iter_mut().filter(|report| report.job == span.job);
        own.for_each(|report| report.findings.push(overlap_note(before)));
    }
}

/// A long time in which nothing was signed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The entry after it.
    pub number: u64,
    /// Its length.
    pub length: Duration,
}

/// The times between neighbours that are longer than a shift.
pub fn gaps(stamps: &[Stamp]) -> Vec<Gap> {
    let pairs = stamps.iter().zip(stamps.iter().skip(1));
    let gaps = pairs.map(|(one, next)| Gap { number: next.number, length: next.at - one.at });
    gaps.filter(|gap| gap.length > SHIFT).collect()
}

/// Many steps signed by one key within a moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Burst {
    /// The first entry of it.
    pub first: u64,
    /// The last.
    pub last: u64,
    /// How many different steps.
    pub steps: usize,
}

/// The bursts of each key, none counted twice, in the order of their first entries.
pub fn bursts(stamps: &[Stamp]) -> Vec<Burst> {
    let mut of_key: BTreeMap<&str, Vec<&Stamp>> = BTreeMap::new();
    for stamp in stamps.iter().filter(|stamp| stamp.step.is_some()) {
        of_key.entry(stamp.key).or_default().push(stamp);
    }
    let mut found: Vec<Burst> = of_key.values().flat_map(|own| bursts_of(own)).collect();
    found.sort_by_key(|burst| burst.first);
    found
}

/// Takes from each entry on what lies within a moment of it, and goes on after it when that is many.
fn bursts_of(own: &[&Stamp]) -> Vec<Burst> {
    let (mut found, mut rest) = (Vec::new(), own);
    while let Some((first, others)) = rest.split_first() {
        let within = |stamp: &&&Stamp| (stamp.at - first.at).abs() < MOMENT;
        let near = 1 + others.iter().take_while(within).count();
        let (near, after) = rest.split_at(near);
        let mut steps: Vec<_> = near.iter().map(|stamp| stamp.step).collect();
        steps.sort_unstable();
        steps.dedup();
        let is_many = steps.len() >= MANY;
        if let (true, Some(last)) = (is_many, near.last()) {
            found.push(Burst { first: first.number, last: last.number, steps: steps.len() });
        }
        rest = if is_many { after } else { others };
    }
    found
}

/// A clock that ran ahead of the clocks of others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Skew {
    /// The key that signed with it.
    pub key: String,
    /// Its entry that is furthest ahead.
    pub number: u64,
    /// By how much, against the entry below.
    pub ahead: Duration,
    /// An entry that came later, by another key, and says an earlier time.
    pub before: u64,
}

/// What the clock of one key said so far.
#[derive(Debug)]
struct Clock {
    latest: DateTime<FixedOffset>,
    number: u64,
    worst: Option<Skew>,
}

/// The clocks of a record or of a machine's log, entry after entry in the order in which they were
/// added. It grows with the keys and not with the entries.
#[derive(Debug, Default)]
pub struct Clocks {
    by_key: BTreeMap<String, Clock>,
}

impl Clocks {
    /// Takes the next entry.
    pub fn take(&mut self, number: u64, at: DateTime<FixedOffset>, key: &str) {
        for (other, clock) in self.by_key.iter_mut().filter(|(other, _)| *other != key) {
            let ahead = clock.latest - at;
            if ahead > clock.worst.as_ref().map_or(Duration::zero(), |worst| worst.ahead) {
                let (key, number, before) = (other.clone(), clock.number, number);
                clock.worst = Some(Skew { key, number, ahead, before });
            }
        }
        match self.by_key.get_mut(key) {
            Some(own) if own.latest >= at => {}
            Some(own) => (own.latest, own.number) = (at, number),
            None => {
                let clock = Clock { latest: at, number, worst: None };
                self.by_key.insert(key.to_owned(), clock);
            }
        }
    }

    /// For each key the entry that is furthest ahead of a later one of another key.
    pub fn skews(self) -> Vec<Skew> {
        let mut found: Vec<Skew> =
            self.by_key.into_values().filter_map(|clock| clock.worst).collect();
        found.sort_by_key(|skew| skew.number);
        found
    }

    /// The same as notes on a log, whose leaves were taken.
    pub fn log_notes(self) -> Vec<AuditFinding> {
        let told = |skew: &Skew| {
            let leaf = ("leaf", skew.number.to_string().into());
            let parts = [&[leaf][..], &skew_parts(skew)].concat();
            note(None, Words::new("log-clock-ahead", &parts))
        };
        self.skews().iter().map(told).collect()
    }
}

fn skews(stamps: &[Stamp]) -> Vec<Skew> {
    let mut clocks = Clocks::default();
    stamps.iter().for_each(|stamp| clocks.take(stamp.number, stamp.at, stamp.key));
    clocks.skews()
}

/// The first and the last entry of a job on a machine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// The job.
    pub job: String,
    /// The machine.
    pub machine: String,
    /// Time of the first entry.
    pub first: DateTime<FixedOffset>,
    /// Time of the last entry.
    pub last: DateTime<FixedOffset>,
}

impl Span {
    fn of(report: &Report) -> Option<Self> {
        let (job, machine) = (report.job.clone(), report.machine.clone()?);
        let (first, last) = report.span?;
        Some(Span { job, machine, first, last })
    }
}

/// Two jobs that were worked on at the same time on one machine: the later, the earlier.
///
/// Each job is named once, against the one before it that ended last.
pub fn overlaps(spans: &[Span]) -> Vec<(&Span, &Span)> {
    let mut sorted: Vec<&Span> = spans.iter().collect();
    sorted.sort_by_key(|span| (&span.machine, span.first, &span.job));
    let mut found = Vec::new();
    let mut longest: Option<&Span> = None;
    for span in sorted {
        let before = longest.filter(|before| before.machine == span.machine);
        if let Some(before) = before.filter(|before| span.first < before.last) {
            found.push((span, before));
        }
        longest = match before {
            Some(before) if before.last > span.last => Some(before),
            _ => Some(span),
        };
    }
    found
}

fn note(entry: Option<u64>, words: Words) -> AuditFinding {
    AuditFinding { entry, ..super::checks::finding(Severity::Note, words) }
}

fn gap_note(gap: &Gap) -> AuditFinding {
    let parts = [("hours", gap.length.num_hours().to_string().into())];
    note(Some(gap.number), Words::new("audit-gap", &parts))
}

fn burst_note(burst: &Burst) -> AuditFinding {
    let parts = [("count", burst.steps.into()), ("last", burst.last.to_string().into())];
    note(Some(burst.first), Words::new("audit-many-at-once", &parts))
}

fn skew_note(skew: &Skew) -> AuditFinding {
    note(Some(skew.number), Words::new("audit-clock-ahead", &skew_parts(skew)))
}

fn skew_parts(skew: &Skew) -> [(&'static str, Part<'_>); 3] {
    [
        ("seconds", skew.ahead.num_seconds().to_string().into()),
        ("before", skew.before.to_string().into()),
        ("key", (&skew.key).into()),
    ]
}

/// That a job was begun while another one on its machine went on.
fn overlap_note(before: &Span) -> AuditFinding {
    let parts = [("job", (&before.job).into()), ("machine", (&before.machine).into())];
    note(None, Words::new("audit-jobs-overlap", &parts)).with("", time::write(before.last))
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, Duration, FixedOffset};
    use proptest::prelude::*;

    use super::{Burst, Gap, Skew, Span, Stamp, bursts, gaps, overlaps, skews};
    use crate::record::time;

    fn at(minutes: i64) -> DateTime<FixedOffset> {
        time::parse("2026-11-23T06:00:00+01:00").unwrap() + Duration::minutes(minutes)
    }

    /// Stamps in order: minutes after six, key, step.
    fn stamps<'a>(stated: &[(i64, &'a str, &'a str)]) -> Vec<Stamp<'a>> {
        (1..)
            .zip(stated)
            .map(|(number, &(minutes, key, step))| {
                let step = Some(step).filter(|step| !step.is_empty());
                Stamp { number, at: at(minutes), key, step }
            })
            .collect()
    }

    #[test]
    fn a_gap_is_longer_than_a_shift() {
        let stated = [(0, "a", "1"), (480, "a", "2"), (961, "b", "3"), (970, "a", "4")];
        let found = gaps(&stamps(&stated));
        assert_eq!(found, [Gap { number: 3, length: Duration::minutes(481) }]);
        assert!(gaps(&[]).is_empty());
    }

    #[test]
    fn many_steps_in_one_minute_are_told_once_a_key() {
        let mut stated: Vec<_> = ["1", "2", "3", "4", "5", "6"].map(|step| (0, "a", step)).to_vec();
        let burst = Burst { first: 1, last: 6, steps: 6 };
        assert_eq!(bursts(&stamps(&stated)), [burst]);
        // Rows of one step, and readings, are not steps of their own.
        assert!(bursts(&stamps(&[(0, "a", "1"); 9])).is_empty());
        assert!(bursts(&stamps(&[(0, "a", ""); 9])).is_empty());
        // Two people have not done more than they could.
        for entry in stated.iter_mut().take(3) {
            entry.1 = "b";
        }
        assert!(bursts(&stamps(&stated)).is_empty());
        let minutes = 0..;
        let slow = minutes.zip(["1", "2", "3", "4", "5", "6"]).map(|(n, step)| (n, "a", step));
        assert!(bursts(&stamps(&slow.collect::<Vec<_>>())).is_empty());
    }

    #[test]
    fn a_clock_ahead_is_told_with_its_key_and_by_how_much() {
        let stated = [(0, "a", ""), (40, "b", ""), (5, "a", ""), (30, "b", ""), (6, "c", "")];
        let ahead = Duration::minutes(35);
        let b = Skew { key: "b".to_owned(), number: 2, ahead, before: 3 };
        assert_eq!(skews(&stamps(&stated)), [b]);
        // The same key's own clock that was set back is the rule of records, not a skew.
        assert!(skews(&stamps(&[(9, "a", ""), (1, "a", "")])).is_empty());
    }

    proptest! {
        /// Against the definition: every pair is looked at.
        #[test]
        fn skews_are_those_of_every_pair(stated in prop::collection::vec((0i64..30, 0usize..3), 0..20)) {
            let stated: Vec<_> = stated.iter().map(|&(m, k)| (m, ["a", "b", "c"][k], "")).collect();
            let stamps = stamps(&stated);
            for key in ["a", "b", "c"] {
                let of = |one: &Stamp, later: &Stamp| {
                    let counts = one.key == key && later.key != key && one.number < later.number;
                    (counts && later.at < one.at).then(|| one.at - later.at)
                };
                let worst = stamps.iter().flat_map(|one| stamps.iter().filter_map(move |l| of(one, l)));
                let found = skews(&stamps).into_iter().find(|skew| skew.key == key);
                prop_assert_eq!(found.map(|skew| skew.ahead), worst.max());
            }
        }
    }

    #[test]
    fn jobs_of_one_machine_that_overlap_are_told() {
        let span = |job: &str, machine: &str, first: i64, last: i64| Span {
            job: job.to_owned(),
            machine: machine.to_owned(),
            first: at(first),
            last: at(last),
        };
        let spans = [
            span("J-1", "m", 0, 100),
            span("J-2", "m", 50, 60),
            span("J-3", "m", 90, 120),
            span("J-4", "m", 120, 130),
            span("J-5", "n", 55, 56),
        ];
        let told = |(later, earlier): &(&Span, &Span)| format!("{} in {}", later.job, earlier.job);
        let found: Vec<String> = overlaps(&spans).iter().map(told).collect();
        assert_eq!(found, ["J-2 in J-1", "J-3 in J-1"]);
    }
}
