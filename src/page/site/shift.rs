//! The page of a shift: its jobs, in which order they are best done, who does what when, what to fetch.
//!
//! Each section is filled by its caller and stands in a template of its own (`shift-order.html`,
//! `shift-timeline.html`, `shift-kit.html`). Must never plan anything itself, nor ask what day it is.

use std::cmp::Reverse;
use std::sync::LazyLock;

use serde::Serialize;

use super::start::first;
use super::{Frame, JobLine, Link, Page};
use crate::language::Language;
use crate::page::kit::ShelfView;
use crate::page::packet::style;
use crate::page::plan::TimelineView;
use crate::page::{PAGES_CSS, SITE_CSS, paths};

/// Shifts on the list of shifts.
const MOST_SHIFTS: usize = 300;

/// A shift.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ShiftView {
    /// Frame.
    pub frame: Frame,
    /// Day, in words.
    pub day: String,
    /// Name of the shift; empty for jobs that name none.
    pub shift: String,
    /// When it ends, `14:00`; empty when the plant does not say.
    pub ends: String,
    /// Its jobs, by the time at which they start; those without one come last.
    pub jobs: Vec<ShiftJob>,
    /// Who does what when; nothing without a packet.
    pub timeline: TimelineView,
    /// What its jobs fetch, by place.
    pub kit: Vec<ShelfView>,
    /// Of which things there are too few at one time, a sentence each.
    pub too_few: Vec<String>,
}

/// A job of a shift.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ShiftJob {
    /// The job's line.
    pub line: JobLine,
    /// When it starts, `12:30`; empty when nobody says.
    pub starts: String,
    /// Planned minutes of its steps; 0 when none says.
    pub minutes: u32,
    /// Who works at it, by name, where the job says.
    pub crew: Vec<String>,
    /// The most people that one of its steps takes.
    pub people: u32,
    /// Whether something it is made from is a draft.
    pub is_draft: bool,
    /// Whether the plant's files have changed since it was signed.
    pub is_outdated: bool,
    /// Errors that the plant answers for.
    pub exceptions: usize,
    /// Findings in the job's own file.
    pub findings: usize,
}

/// A shift in the list of shifts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ShiftLine {
    /// Day, by which shifts are ordered: `2026-11-26`.
    pub date: String,
    /// The same in words.
    pub day: String,
    /// Name of the shift, with its page; the name is empty for jobs that name none.
    pub link: Link,
    /// Its jobs with their pages.
    pub jobs: Vec<Link>,
    /// How many of them are open.
    pub open: usize,
}

/// The list of shifts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ShiftsView {
    /// Frame.
    pub frame: Frame,
    /// Shifts.
    pub shifts: Vec<ShiftLine>,
}

/// What the list shows of them.
#[derive(Serialize)]
struct Listed<'a> {
    shifts: &'a [ShiftLine],
    more: usize,
}

/// A shift, for [`paths::shift`].
pub fn shift_html(view: &ShiftView) -> String {
    let title = title(view.frame.language, view);
    Page::new(&view.frame, view, &title, paths::SHIFTS).under("shift-shifts").html("shift.html")
}

/// Template of a shift's page that is one file.
pub(in crate::page) const SHIFT_ALONE: &str = "shift-alone.html";

/// A shift as one file, without a site around it.
pub fn shift_alone_html(view: &ShiftView) -> String {
    static SHEETS: LazyLock<[style::Sheet; 2]> =
        LazyLock::new(|| [SITE_CSS, PAGES_CSS].map(style::Sheet::read));
    let title = title(view.frame.language, view);
    let page = Page::new(&view.frame, view, &title, paths::START).html(SHIFT_ALONE);
    let [site, pages] = &*SHEETS;
    style::put(&page, &[site, pages])
}

fn title(language: Language, view: &ShiftView) -> String {
    let day = ("day", (&view.day).into());
    match view.shift.as_str() {
        "" => language.text("shift-title-unnamed", &[day]),
        shift => language.text("shift-title", &[day, ("shift", shift.into())]),
    }
}

/// The list of shifts, the latest day first, for [`paths::SHIFTS`].
pub fn shifts_html(view: &ShiftsView) -> String {
    let mut shifts = view.shifts.clone();
    let key = |shift: &ShiftLine| (Reverse(shift.date.clone()), shift.link.text.clone());
    shifts.sort_by_cached_key(key);
    let (shown, more) = first(&shifts, MOST_SHIFTS);
    let title = view.frame.language.word("shift-shifts");
    Page::new(&view.frame, view, title, paths::SHIFTS)
        .with(Listed { shifts: shown, more })
        .html("shifts.html")
}
