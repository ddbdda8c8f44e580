//! The shifts of a plant: which jobs each has, when they start, and whether there is enough of what they
//! fetch.
//!
//! Must never take a job for one of another shift because it starts late: its file says which it is in.

use std::collections::BTreeMap;

use super::again::Packets;
use super::group::clock;
use crate::finding::Findings;
use crate::language::Words;
use crate::plan::kit::{Fetching, Meets, TooFew, too_few};
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::JobFile;

/// The jobs of a day that name the same shift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shift<'a> {
    /// Day, `2026-11-26`.
    pub date: &'a str,
    /// Name; empty for jobs that name none.
    pub name: &'a str,
    /// When it ends, `14:00`; empty when the plant does not say.
    pub ends: &'a str,
    /// Its jobs, by the time at which they start; those without one come last.
    pub jobs: Vec<Planned<'a>>,
}

/// A job of a shift.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned<'a> {
    /// Its file.
    pub job: &'a Loaded<JobFile>,
    /// Minutes at which it starts, counted from the same midnight for all of the shift; none when nobody
    /// says.
    pub starts: Option<u32>,
}

/// Every shift of a plant that has a job, by day and name.
pub fn shifts(plant: &Plant) -> Vec<Shift<'_>> {
    let mut shifts: BTreeMap<(&str, &str), Vec<Planned>> = BTreeMap::new();
    let known = &plant.facts.body.shifts;
    for job in plant.jobs.values() {
        let body = &job.body;
        let ends = known.get(&body.shift).map_or("", |shift| shift.ends.as_str());
        let starts = body.starts.as_deref().and_then(|starts| in_shift(starts, ends));
        shifts.entry((&body.date, &body.shift)).or_default().push(Planned { job, starts });
    }
    shifts
        .into_iter()
        .map(|((date, name), mut jobs)| {
            jobs.sort_by_key(|planned| (planned.starts.is_none(), planned.starts));
            let ends = known.get(name).map_or("", |shift| shift.ends.as_str());
            Shift { date, name, ends, jobs }
        })
        .collect()
}

/// Says of which things jobs of one shift need more at the same time than there are.
pub fn enough_for_shifts(findings: &mut Findings, plant: &Plant, packets: &Packets) {
    for shift in shifts(plant) {
        let fetching = |planned: &Planned| {
            let packet = packets.get(&planned.job.body.id)?;
            Some(Fetching { packet, starts: planned.starts })
        };
        let jobs: Vec<Fetching> = shift.jobs.iter().filter_map(fetching).collect();
        for found in too_few(&jobs) {
            let last = found.jobs.last().and_then(|id| plant.jobs.get(id));
            let Some(job) = last else { continue };
            let key = if job.body.starts.is_some() { "starts" } else { "date" };
            let needed = (found.wanted, found.jobs.join(", "));
            let own = (found.item.as_str(), found.stock);
            findings.too_few_at_once(&job.place.at(key), own, (needed.0, &needed.1), when(&found));
        }
    }
}

/// How sure it is that jobs meet.
pub fn when(found: &TooFew) -> Words {
    Words::of(match found.meets {
        Meets::Alone => "kit-alone",
        Meets::Surely => "kit-at-once",
        Meets::Perhaps => "kit-cannot-tell",
    })
}

/// Minutes of a time in a shift that ends at another: what comes before the end on the clock is after
/// midnight.
pub(super) fn in_shift(starts: &str, ends: &str) -> Option<u32> {
    let starts = clock(starts)?;
    let is_next_day = clock(ends).is_some_and(|ends| starts < ends);
    Some(if is_next_day { starts + 24 * 60 } else { starts })
}

#[cfg(test)]
mod tests {
    use super::in_shift;

    #[test]
    fn a_night_goes_on_after_midnight() {
        for (first, second, ends) in
            [("23:00", "01:00", "06:00"), ("06:30", "13:00", "14:00"), ("06:30", "13:00", "")]
        {
            assert!(in_shift(first, ends) < in_shift(second, ends), "{first} {second} {ends}");
        }
        assert_eq!(in_shift("24:00", "06:00"), None);
    }
}
