//! What the pages of shifts say, from the packets their jobs go by.
//!
//! Must never choose a packet: which one a job goes by is settled where it is printed.

use super::order::orders;
use super::site::Sheet;
use super::{lines, plans};
use crate::finding::show::Located;
use crate::language::Language;
use crate::packet::{Planned, Prepared, Shift, when};
use crate::page::kit::shelf_views;
use crate::page::site::{
    Frame, JobLine, Link, ShiftJob, ShiftLine, ShiftView, State, shift_alone_html,
};
use crate::page::{paths, words};
use crate::plan::kit::{Fetching, TooFew, too_few};

/// A job of a shift with what is known of it.
pub struct Known<'a> {
    /// The job as planned.
    pub planned: &'a Planned<'a>,
    /// Its line.
    pub line: JobLine,
    /// The packet it goes by; none when it has no packet.
    pub sheet: Option<&'a Sheet>,
}

/// The page of a shift.
pub fn view(
    frame: Frame,
    prepared: &Prepared,
    shift: &Shift,
    jobs: &[Known],
    findings: &[Located],
) -> ShiftView {
    let fetching: Vec<Fetching> = jobs.iter().filter_map(fetching).collect();
    ShiftView {
        orders: orders(prepared, shift),
        timeline: plans::of_shift(frame.language, prepared, shift, jobs),
        kit: shelf_views(frame.language, &fetching),
        too_few: too_few(&fetching).iter().map(|few| said(frame.language, few)).collect(),
        day: words::date(frame.language, shift.date),
        shift: shift.name.to_owned(),
        ends: shift.ends.to_owned(),
        jobs: jobs.iter().map(|known| job(known, findings)).collect(),
        frame,
    }
}

fn fetching<'a>(known: &Known<'a>) -> Option<Fetching<'a>> {
    let packet = &known.sheet?.packet;
    Some(Fetching { packet, starts: known.planned.starts })
}

fn said(language: Language, few: &TooFew) -> String {
    let parts = [
        ("item", (&few.item).into()),
        ("count", few.stock.to_string().into()),
        ("wanted", few.wanted.to_string().into()),
        ("jobs", few.jobs.join(", ").into()),
        ("when", when(few).into()),
    ];
    language.text("shelf-too-few", &parts)
}

/// A shift's page as one file.
#[derive(Debug)]
pub struct Paper {
    /// The page.
    pub html: String,
    /// How many things are fetched.
    pub things: usize,
    /// Of which there are too few at one time, a sentence each.
    pub too_few: Vec<String>,
}

/// The page of a shift as one file, by the packet that each of its jobs goes by, in their order.
pub fn paper(prepared: &Prepared, shift: &Shift, sheets: &[Sheet]) -> Paper {
    let frame = super::site::frame(prepared.plant, false);
    let known = |(planned, sheet)| Known {
        planned,
        line: plain_line(prepared, planned, sheet),
        sheet: Some(sheet),
    };
    let jobs: Vec<Known> = shift.jobs.iter().zip(sheets).map(known).collect();
    let view = view(frame, prepared, shift, &jobs, &[]);
    let fetched = view.kit.iter().filter(|shelf| !shelf.is_here).flat_map(|shelf| &shelf.groups);
    Paper {
        html: shift_alone_html(&view),
        things: fetched.map(|group| group.things.len()).sum(),
        too_few: view.too_few,
    }
}

/// A job's line that leads nowhere.
fn plain_line(prepared: &Prepared, planned: &Planned, sheet: &Sheet) -> JobLine {
    let language = prepared.plant.facts.body.language;
    let line = lines::job(language, prepared, &planned.job.body.id, None, false);
    JobLine {
        machine: Link::new(line.machine.text, ""),
        state: State { word: sheet.state.clone(), ..State::default() },
        ..line
    }
}

/// The name of a shift in links.
pub fn name(shift: &Shift) -> String {
    paths::shift_name(shift.date, shift.name)
}

fn job(known: &Known, findings: &[Located]) -> ShiftJob {
    let file = &*known.planned.job.place.file;
    let body = &known.planned.job.body;
    let own = ShiftJob {
        line: known.line.clone(),
        starts: body.starts.clone().unwrap_or_default(),
        findings: findings.iter().filter(|finding| finding.file == file).count(),
        ..ShiftJob::default()
    };
    let Some(Sheet { packet, is_outdated, .. }) = known.sheet else { return own };
    let done = || packet.steps.iter().filter(|step| step.stays.is_none());
    let crew = packet.job.lockout.iter().flat_map(|group| &group.crew);
    ShiftJob {
        minutes: done().filter_map(|step| step.minutes).fold(0, u32::saturating_add),
        crew: crew.map(|member| member.name.clone()).collect(),
        people: done().map(|step| step.people).max().unwrap_or(1),
        is_draft: !packet.drafts.is_empty(),
        is_outdated: *is_outdated,
        exceptions: packet.exceptions.len(),
        ..own
    }
}

/// A shift in the list of shifts.
pub(super) fn line(frame: &Frame, shift: &Shift, jobs: &[&JobLine]) -> ShiftLine {
    ShiftLine {
        date: shift.date.to_owned(),
        day: words::date(frame.language, shift.date),
        link: Link::new(shift.name, paths::shift(&name(shift))),
        jobs: jobs.iter().map(|job| Link::new(&job.id, &job.page)).collect(),
        open: jobs.iter().filter(|job| !job.done).count(),
    }
}
