//! The jobs of one machine in one shift, with what each changeover between them would take.

use super::{Advice, Change as Costs, Jobs, NoOrder, Order, best};
use crate::packet::model::{Change, Packet};
use crate::plan::stop::stop;

/// The jobs of a machine in one shift, in the order in which they are planned.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Night {
    /// The jobs.
    pub jobs: Vec<Job>,
    /// The recipe that is on the machine now, by identifier.
    pub from: String,
    /// The changeover from it to each job.
    pub first: Vec<Way>,
    /// The changeover from each job (row) to each other (column).
    pub next: Vec<Vec<Way>>,
    /// Whether the plant wants no changeover from a product with an allergen to one without it.
    pub allergens_last: bool,
}

/// A job of the night.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Job {
    /// Its identifier.
    pub id: String,
    /// The recipe that its file says is on the machine before, by identifier.
    pub from: String,
    /// The recipe that it makes, by identifier.
    pub to: String,
    /// Minutes that it runs; none when nobody says how many pieces or how fast.
    pub runs: Option<u32>,
    /// Minutes from the start of the first stop until it is due; none when it is never late, or when
    /// nobody says when the first stop starts.
    pub due: Option<i64>,
}

/// A changeover that could be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Way {
    /// It can, for this.
    Open(Cost),
    /// Its packet has an error, in words.
    Barred(String),
}

/// What a changeover takes.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Cost {
    /// Minutes that the machine stands, with as many people as the steps take.
    pub stop: u32,
    /// Things done to holders on rails.
    pub moves: usize,
    /// Settings that get another value.
    pub settings: usize,
    /// Change parts that the product before did not have.
    pub parts: Vec<String>,
    /// Allergens that are cleaned out, because the next product has none of them.
    pub cleaned: Vec<String>,
    /// Steps whose minutes nobody planned.
    pub unplanned: usize,
}

impl Cost {
    /// What the changeover of a packet takes.
    pub fn of(packet: &Packet, parts: Vec<String>) -> Cost {
        let stop = stop(packet);
        let gone = packet.from.allergens.iter().filter(|own| !packet.to.allergens.contains(own));
        let is_set = |change: Change| matches!(change, Change::Change | Change::New);
        Cost {
            stop: stop.minutes,
            moves: packet.rails.iter().map(|rail| rail.moves.len()).sum(),
            settings: packet.settings.iter().filter(|own| is_set(own.change)).count(),
            parts,
            cleaned: gone.cloned().collect(),
            unplanned: stop.unplanned.len(),
        }
    }
}

impl Night {
    /// The changeover to a job, from another or from what is on the machine now.
    pub fn way(&self, before: Option<usize>, job: usize) -> Option<&Way> {
        match before {
            Some(before) => self.next.get(before)?.get(job),
            None => self.first.get(job),
        }
    }

    /// The planned order with its times; none when a changeover in it cannot be made.
    pub fn planned(&self) -> Option<Order> {
        self.as_numbers().timed((0..self.jobs.len()).collect())
    }

    /// The best order that is found.
    ///
    /// # Errors
    /// [`NoOrder`] when no order was found in which every changeover can be made.
    pub fn advice(&self) -> Result<Advice, NoOrder> {
        best(&self.as_numbers())
    }

    fn as_numbers(&self) -> Jobs {
        let row = |ways: &Vec<Way>| ways.iter().map(|way| self.costs(way)).collect();
        Jobs {
            first: row(&self.first),
            next: self.next.iter().map(row).collect(),
            run: self.jobs.iter().map(|job| job.runs.unwrap_or_default()).collect(),
            due: self.jobs.iter().map(|job| job.due).collect(),
        }
    }

    fn costs(&self, way: &Way) -> Option<Costs> {
        let Way::Open(cost) = way else { return None };
        let is_unwanted = self.allergens_last && !cost.cleaned.is_empty();
        Some(Costs { stop: cost.stop, is_unwanted })
    }
}

/// The longest run that anybody plans: a year.
const MOST_RUN: u32 = 366 * 24 * 60;

/// Minutes that so many pieces take at so many an hour, rounded up; none when the machine makes none, or
/// runs for longer than anybody plans.
pub fn runs(pieces: u64, an_hour: u32) -> Option<u32> {
    let minutes = u128::from(pieces) * 60;
    let an_hour = u128::from(an_hour);
    let minutes = u32::try_from(minutes.checked_div(an_hour)? + u128::from(minutes % an_hour > 0));
    minutes.ok().filter(|minutes| *minutes <= MOST_RUN)
}

#[cfg(test)]
mod tests {
    use super::runs;

    #[track_caller]
    fn check(pieces: u64, an_hour: u32, expected: Option<u32>) {
        assert_eq!(runs(pieces, an_hour), expected, "{pieces} at {an_hour}");
    }

    #[test]
    fn a_minute_that_has_begun_counts() {
        check(0, 30_000, Some(0));
        check(1, 30_000, Some(1));
        check(500, 30_000, Some(1));
        check(501, 30_000, Some(2));
        check(90_000, 30_000, Some(180));
        check(366 * 24, 1, Some(366 * 24 * 60));
        check(366 * 24 + 1, 1, None);
        check(u64::MAX, 1, None);
        check(1, 0, None);
    }
}
