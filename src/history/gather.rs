//! Puts changeovers together, one at a time, in the order in which they began.
//!
//! Of the latest changeovers their lines are kept, of all of them sums; of a reading nothing but what
//! [`super::track`] keeps. Must never need two records at once.

use std::collections::{BTreeMap, VecDeque};

use super::model::{Changeover, History, LeftOut, Machine, Share, Spent};
use super::offset::Leaning;
use super::run::{Done, Moment, Run, Told};
use super::track::{Key, Track};
use crate::record::entry::Verdict;
use crate::record::time;

/// So many changeovers of a machine are kept line by line; all of them count.
pub const MOST_CHANGEOVERS: usize = 500;

/// A history in the making.
#[derive(Debug, Clone, Default)]
pub struct Gathering {
    machines: BTreeMap<String, Machine>,
    tracks: BTreeMap<Key, Track>,
    /// By machine, recipe and setting.
    leaning: BTreeMap<[String; 3], Leaning>,
    /// By machine, each with its place among all.
    changeovers: BTreeMap<String, VecDeque<(u64, Changeover)>>,
    count: u64,
    left_out: Vec<LeftOut>,
}

impl Gathering {
    /// Takes what the next record tells.
    pub fn take(&mut self, told: Told) {
        match told {
            Ok((run, left_out)) => {
                self.left_out.extend(left_out);
                self.add(&run);
            }
            Err(left_out) => self.left_out.push(left_out),
        }
    }

    fn add(&mut self, run: &Run) {
        let mut too_long = 0;
        for read in &run.blanks {
            let track = self.tracks.entry(Key::of(run, read)).or_default();
            too_long += u64::from(track.take(run, read).is_err());
        }
        if too_long > 0 {
            let (record, why) = (run.record.clone(), vec!["too-many-digits"]);
            self.left_out.push(LeftOut { record, entries: Some(too_long), why });
        }
        self.lean(run);
        let changeover = changeover(run);
        self.count(run, &changeover);
        let own = self.changeovers.entry(run.machine.clone()).or_default();
        own.push_back((self.count, changeover));
        if own.len() > MOST_CHANGEOVERS {
            own.pop_front();
        }
        self.count += 1;
    }

    /// Where each setting ended: its last reading of the changeover, in whichever step.
    fn lean(&mut self, run: &Run) {
        let mut ended = BTreeMap::new();
        for read in &run.blanks {
            let Some(setting) = &read.setting else { continue };
            let last = ended.entry(&setting.id).or_insert((read, setting));
            if read.last.entry > last.0.last.entry {
                *last = (read, setting);
            }
        }
        for (id, (read, setting)) in ended {
            let key = [run.machine.clone(), run.to.clone(), id.clone()];
            let before = self.leaning.remove(&key);
            if let Some(after) = Leaning::after(before, run, read, setting) {
                self.leaning.insert(key, after);
            }
        }
    }

    fn count(&mut self, run: &Run, changeover: &Changeover) {
        let machine = self.machines.entry(run.machine.clone()).or_default();
        let all = |counts: &BTreeMap<String, u32>| -> u64 {
            counts.values().map(|own| u64::from(*own)).sum()
        };
        machine.id.clone_from(&run.machine);
        machine.name.clone_from(&run.machine_name);
        machine.changeovers += 1;
        machine.time.add(changeover.minutes, changeover.planned);
        machine.stop.add(changeover.stop, changeover.planned_stop);
        machine.readings += run.blanks.iter().map(|read| u64::from(read.count)).sum::<u64>();
        machine.first_pass.good += changeover.first_pass.good;
        machine.first_pass.all += changeover.first_pass.all;
        machine.corrections += all(&changeover.corrections);
        machine.deviations += all(&changeover.deviations);
    }

    /// The history so far.
    pub fn history(self) -> History {
        let proposals = self.leaning.into_values().filter_map(Leaning::proposal);
        let mut changeovers: Vec<_> = self.changeovers.into_values().flatten().collect();
        changeovers.sort_by_key(|(at, _)| *at);
        History {
            machines: self.machines.into_values().collect(),
            series: self.tracks.into_iter().map(|(key, track)| track.series(key)).collect(),
            changeovers: changeovers.into_iter().map(|(_, own)| own).collect(),
            proposals: proposals.collect(),
            left_out: self.left_out,
        }
    }
}

impl Spent {
    fn add(&mut self, minutes: Option<u32>, planned: u32) {
        let Some(minutes) = minutes else { return };
        self.changeovers += 1;
        self.minutes += u64::from(minutes);
        self.planned += u64::from(planned);
    }
}

fn changeover(run: &Run) -> Changeover {
    let within = run.blanks.iter().filter(|read| read.first.verdict == Verdict::Within).count();
    let first_pass = Share { good: as_count(within), all: as_count(run.blanks.len()) };
    let planned = run.steps.iter().map(|step| step.minutes).fold(0_u32, u32::saturating_add);
    let (began, (stopped, runs, planned_stop)) = (run.began(), run.stop());
    Changeover {
        record: run.record.clone(),
        job: run.job.clone(),
        machine: run.machine.clone(),
        from: run.from.clone(),
        to: run.to.clone(),
        state: run.state,
        began: began.map(time::write),
        released: run.released.map(time::write),
        minutes: minutes(began, run.released),
        planned,
        stop: minutes(stopped, runs),
        planned_stop,
        first_pass,
        deviations: by_step(run, |step| step.deviations),
        corrections: by_step(run, |step| step.corrections),
    }
}

fn by_step(run: &Run, count: impl Fn(&Done) -> u32) -> BTreeMap<String, u32> {
    let counts = run.steps.iter().map(|step| (step.id.clone(), count(step)));
    counts.filter(|(_, count)| *count > 0).collect()
}

/// Minutes between two moments, a begun one counted as a whole one; none when time ran backwards.
fn minutes(from: Option<Moment>, to: Option<Moment>) -> Option<u32> {
    let seconds = to?.signed_duration_since(from?).num_seconds();
    u32::try_from(u64::try_from(seconds).ok()?.div_ceil(60)).ok()
}

fn as_count(count: usize) -> u64 {
    u64::try_from(count).unwrap_or(u64::MAX)
}
