//! The plans of a site: of each job, and of all jobs of a shift.
//!
//! Only asks [`crate::plan`] and fills views. Must never count a signature that the audit does not.

use super::order::runs_of;
use super::shift::Known;
use super::site::{Recorded, Site};
use crate::audit::Statement;
use crate::language::Language;
use crate::packet::model::Packet;
use crate::packet::{Prepared, Shift, group};
use crate::page::plan::{PlanView, TimelineView, Worked};
use crate::page::site::{Frame, JobLine};
use crate::page::stop::StopView;
use crate::plan::actual::{Signed, actual};
use crate::plan::timeline::Job;
use crate::record::entry::Kind;
use crate::record::time;

/// The plan of one job, beside its record when it has one.
pub(super) fn of_job(site: &Site, frame: &Frame, line: &JobLine, packet: &Packet) -> PlanView {
    let zero = starts(site.prepared, &packet.job.id);
    let worked = Worked::new(frame.language, vec![Job { packet, earliest: 0, runs: None }], zero);
    let record = site.record_of(&packet.job.id);
    let compared = worked
        .shown()
        .zip(record)
        .and_then(|((_, plan), record)| worked.actual(&actual(packet, plan, &signed(record))?));
    PlanView {
        frame: frame.clone(),
        line: line.clone(),
        timeline: worked.view(),
        stop: StopView::of(packet),
        actual: compared,
    }
}

/// The plan of the jobs of one shift, whose people are shared. Jobs on one machine come one after the
/// other, in the order of the shift. Nothing without a packet.
pub(super) fn of_shift(
    language: Language,
    prepared: &Prepared,
    shift: &Shift,
    jobs: &[Known],
) -> TimelineView {
    let zero = jobs.iter().filter_map(|job| job.planned.starts).min();
    let planned: Vec<Job> =
        jobs.iter().filter_map(|known| planned(prepared, known, zero.unwrap_or(0))).collect();
    if planned.is_empty() {
        return TimelineView::default();
    }
    if planned.len() > MOST_JOBS {
        let parts = [("count", planned.len().into()), ("most", MOST_JOBS.into())];
        let cautions = vec![language.text("timeline-too-many", &parts)];
        return TimelineView { cautions, ..TimelineView::default() };
    }
    let worked = Worked::new(language, planned, zero);
    let mut view = worked.view();
    let plan = worked.shown().map(|(_, plan)| plan.minutes);
    if let (Some(minutes), Some(zero), Some(ends)) = (plan, zero, group::clock(shift.ends)) {
        let left = if ends > zero { ends - zero } else { (ends + DAY).saturating_sub(zero) };
        if minutes > left {
            let parts = [("ends", shift.ends.into()), ("count", (minutes - left).into())];
            view.cautions.push(language.text("timeline-past-end", &parts));
        }
    }
    view
}

/// Jobs of a shift up to which its people are planned; one crew does not do more.
const MOST_JOBS: usize = 40;

/// Minutes of a day.
const DAY: u32 = 24 * 60;

/// A job of a shift that begins at a minute; none without a packet.
fn planned<'p>(prepared: &Prepared, known: &'p Known, zero: u32) -> Option<Job<'p>> {
    Some(Job {
        packet: &known.sheet?.packet,
        earliest: known.planned.starts.map_or(0, |starts| starts.saturating_sub(zero)),
        runs: runs_of(prepared, &known.planned.job.body),
    })
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
