//! The plans of a site: of each job, and of all jobs of a shift.
//!
//! Only asks [`crate::plan`] and fills views. Must never count a signature that the audit does not.

use super::site::{Recorded, Site};
use crate::audit::Statement;
use crate::packet::model::Packet;
use crate::packet::{Prepared, group};
use crate::page::plan::{PlanView, TimelineView, Worked};
use crate::page::site::{Frame, JobLine};
use crate::plan::actual::{Signed, actual};
use crate::plan::timeline::{self, Job};
use crate::record::entry::Kind;
use crate::record::time;

/// The plan of one job, beside its record when it has one.
pub(super) fn of_job(site: &Site, frame: &Frame, line: &JobLine, packet: &Packet) -> PlanView {
    let zero = starts(site.prepared, &packet.job.id);
    let worked = Worked::new(frame.language, vec![Job { packet, earliest: 0 }], zero);
    let record = site.record_of(&packet.job.id);
    let compared = worked
        .shown()
        .zip(record)
        .and_then(|((_, plan), record)| worked.actual(&actual(packet, plan, &signed(record))?));
    PlanView { frame: frame.clone(), line: line.clone(), timeline: worked.view(), actual: compared }
}

/// The plan of jobs of one shift, whose people are shared. Jobs on one machine come in the order of
/// their starts, those without one first, and else by name.
pub fn of_shift<'p>(
    prepared: &Prepared,
    packets: impl IntoIterator<Item = &'p Packet>,
) -> TimelineView {
    let mut jobs: Vec<(Option<u32>, &Packet)> =
        packets.into_iter().map(|packet| (starts(prepared, &packet.job.id), packet)).collect();
    let shifts = &prepared.plant.facts.body.shifts;
    let first = jobs.first().map(|(_, packet)| packet.job.shift.as_str());
    let ends = first.and_then(|shift| group::clock(&shifts.get(shift)?.ends));
    let stated: Vec<Option<u32>> = jobs.iter().map(|(starts, _)| *starts).collect();
    let (zero, later) = timeline::clock(&stated, ends);
    let mut planned: Vec<Job> =
        jobs.drain(..).zip(later).map(|((_, packet), earliest)| Job { packet, earliest }).collect();
    planned.sort_by_key(|job| (job.earliest, job.packet.job.id.as_str()));
    Worked::new(prepared.plant.language, planned, zero).view()
}

/// When a job starts, in minutes of its day, when its file says so.
fn starts(prepared: &Prepared, job: &str) -> Option<u32> {
    group::clock(prepared.plant.jobs.get(job)?.body.starts.as_deref()?)
}

/// The signatures of a record that count: sound, not taken back, and not on a step of which was taken
/// back later that it was done.
fn signed(record: &Recorded) -> Vec<Signed> {
    let sound: Vec<(u64, &Statement)> = (record.report.entries.iter())
        .filter(|entry| entry.sound)
        .filter_map(|entry| Some((entry.number, entry.says.as_ref()?)))
        .collect();
    let taken_back = |(number, says): (u64, &Statement)| {
        let target = says.withdraws?;
        let (_, done) = sound.iter().find(|(own, _)| *own == target)?;
        Some((target, number, *done))
    };
    let taken_back: Vec<_> = sound.iter().copied().filter_map(taken_back).collect();
    let lapses = |number: u64, says: &Statement| {
        taken_back.iter().any(|(target, by, done)| {
            let shares_row = says.row.is_none() || done.row.is_none() || says.row == done.row;
            let checked = says.kind == Kind::Verified && done.kind == Kind::Performed;
            let between = (*target..*by).contains(&number) && says.step == done.step;
            number == *target || (checked && between && shares_row)
        })
    };
    let signature = |says: &Statement| {
        Some(Signed {
            step: says.step.clone(),
            row: says.row.clone(),
            meaning: says.kind.gives()?,
            role: says.role.clone(),
            by: says.by.clone(),
            at: time::parse(&says.at).ok()?.timestamp(),
        })
    };
    let counts = sound.iter().filter(|(number, says)| !lapses(*number, says));
    counts.filter_map(|(_, says)| signature(says)).collect()
}
