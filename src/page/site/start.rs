//! The start page and the lists of all jobs: what is open comes first, by day; what is released
//! after, the latest first.
//!
//! The order follows states and dates alone. Must never ask what day it is: the same records give the
//! same pages.

use std::cmp::Reverse;

use serde::Serialize;

use super::{FindingView, Frame, JobLine, Link, Page};
use crate::page::paths;

/// Open jobs on the start page. With all their papers, 40 jobs and 20 rows stay below 100 kB.
const MOST_OPEN: usize = 40;
/// Released jobs on the start page.
const MOST_DONE: usize = 20;
/// Findings on the start page.
const MOST_FINDINGS: usize = 20;
/// Jobs on one page of the list of all.
const A_PAGE: usize = 100;

/// The start page: jobs by date.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct StartView {
    /// Frame.
    pub frame: Frame,
    /// The plant's own caution; may be empty.
    pub note: String,
    /// All jobs.
    #[serde(serialize_with = "count")]
    pub jobs: Vec<JobLine>,
    /// What is wrong with the plant's files.
    pub findings: Vec<FindingView>,
    /// What the records say of past changeovers; empty when no record does.
    pub history: String,
}

/// The template asks whether there are jobs at all; those it shows come in order.
fn count<S: serde::Serializer>(jobs: &[JobLine], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_u64(u64::try_from(jobs.len()).unwrap_or(u64::MAX))
}

/// The list of all jobs.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct JobsView {
    /// Frame.
    pub frame: Frame,
    /// Jobs, in the order in which they are shown.
    pub jobs: Vec<JobLine>,
}

/// What the start page shows of it all.
#[derive(Serialize)]
struct Tonight<'a> {
    open: Vec<Day<'a>>,
    more_open: usize,
    done: &'a [JobLine],
    more_done: usize,
    findings: &'a [FindingView],
    more_findings: usize,
}

/// A day of the start page.
#[derive(Serialize)]
struct Day<'a> {
    day: &'a str,
    /// Its shifts, in the order of their jobs.
    shifts: Vec<Link>,
    jobs: &'a [JobLine],
}

/// Where a page of the list stands among its pages; no pages when one is enough.
#[derive(Serialize)]
struct Place {
    pages: Vec<Link>,
    here: String,
    newer: String,
    older: String,
}

/// Open jobs by day, then released ones, the latest first.
pub fn in_working_order(mut jobs: Vec<JobLine>) -> Vec<JobLine> {
    jobs.sort_by(|one, two| (&one.date, &one.id).cmp(&(&two.date, &two.id)));
    let (mut done, mut open): (Vec<JobLine>, Vec<JobLine>) =
        jobs.into_iter().partition(|job| job.done);
    done.reverse();
    open.append(&mut done);
    open
}

/// The start page, for [`paths::START`].
pub fn start_html(view: &StartView) -> String {
    let jobs = in_working_order(view.jobs.clone());
    let (open, done) = jobs.split_at(jobs.partition_point(|job| !job.done));
    let (open, more_open) = first(open, MOST_OPEN);
    let (done, more_done) = first(done, MOST_DONE);
    let (findings, more_findings) = first(&view.findings, MOST_FINDINGS);
    let tonight = Tonight { open: days(open), more_open, done, more_done, findings, more_findings };
    let title = view.frame.language.word("site-title-start");
    Page::new(&view.frame, view, title, paths::START).with(tonight).html("start.html")
}

/// The first of a list, and how many more there are.
pub(super) fn first<T>(list: &[T], most: usize) -> (&[T], usize) {
    let (shown, left) = list.split_at(most.min(list.len()));
    (shown, left.len())
}

fn days<'a>(jobs: &'a [JobLine]) -> Vec<Day<'a>> {
    let same_day = |one: &JobLine, two: &JobLine| one.date == two.date;
    let day = |jobs: &'a [JobLine]| -> Option<Day<'a>> {
        let [first, ..] = jobs else { return None };
        Some(Day { day: &first.day, shifts: shifts(jobs), jobs })
    };
    jobs.chunk_by(same_day).filter_map(day).collect()
}

/// The pages of the shifts that jobs are in, each once.
fn shifts(jobs: &[JobLine]) -> Vec<Link> {
    let mut shifts: Vec<Link> = Vec::new();
    for job in jobs.iter().filter(|job| !job.shift_page.is_empty()) {
        let link = Link::new(&job.shift, &job.shift_page);
        if !shifts.contains(&link) {
            shifts.push(link);
        }
    }
    shifts
}

/// The list of all jobs, the latest day first, for [`paths::jobs_page`].
pub fn jobs_pages(view: &JobsView) -> Vec<(String, String)> {
    let mut jobs = view.jobs.clone();
    jobs.sort_by(|one, two| (Reverse(&one.date), &one.id).cmp(&(Reverse(&two.date), &two.id)));
    let pages = jobs.len().div_ceil(A_PAGE).max(1);
    let chunk = |number: usize| jobs.chunks(A_PAGE).nth(number - 1).unwrap_or_default().to_vec();
    (1..=pages)
        .map(|number| {
            let part = JobsView { frame: view.frame.clone(), jobs: chunk(number) };
            (paths::jobs_page(number), jobs_html(&part, number, pages))
        })
        .collect()
}

fn jobs_html(view: &JobsView, number: usize, pages: usize) -> String {
    let language = view.frame.language;
    let title = match number {
        1 => language.word("site-title-jobs").to_owned(),
        _ => language
            .text("site-title-jobs-page", &[("page", number.into()), ("pages", pages.into())]),
    };
    let page = Page::new(&view.frame, view, &title, paths::JOBS);
    let page = if number == 1 { page } else { page.under("site-title-jobs") };
    page.with(place(number, pages)).html("jobs.html")
}

fn place(number: usize, pages: usize) -> Place {
    let link = |number: usize| Link::new(number.to_string(), paths::jobs_page(number));
    let only = |number: usize, is: bool| if is { paths::jobs_page(number) } else { String::new() };
    Place {
        pages: if pages > 1 { (1..=pages).map(link).collect() } else { Vec::new() },
        here: paths::jobs_page(number),
        newer: only(number - 1, number > 1),
        older: only(number + 1, number < pages),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::site::{State, Tone};

    /// A job as a plant with everything has it: names as long as they come, every paper, a record.
    fn job(number: usize, done: bool) -> JobLine {
        let id = format!("SM-{number:04}");
        let papers = [
            ("Packet", "packets"),
            ("Step by step", "steps"),
            ("Checklist", "checklists"),
            ("Kit", "kits"),
            ("Lockout", "lockouts"),
            ("Settings and moves", "moves"),
            ("Marking strip", "strips"),
            ("Tags", "tags"),
            ("Placard", "placards"),
        ];
        let paper = |(text, folder)| Link::new(text, format!("{folder}/{id}.html"));
        JobLine {
            date: format!("2026-{:02}-{:02}", 1 + number / 90, 1 + number / 3 % 28),
            day: format!("{} September 2026", 1 + number / 3 % 28),
            shift: "late shift".into(),
            shift_page: paths::shift("2026-09-14-late-shift-1a2b3c4d"),
            order: format!("Order {number}: 24,000 sachets for the Halden warehouse"),
            machine: Link::new("Six-lane pouch line", paths::machine("pouch-6")),
            from: "Coarse black pepper, 23 mm pouch, six lanes".into(),
            to: "Celery and mustard rub, 53 mm pouch, three lanes".into(),
            state: State { word: "released with an accepted deviation".into(), tone: Tone::Care },
            page: paths::job(&id),
            papers: papers.into_iter().map(paper).collect(),
            record: paths::record(&id),
            done,
            why: "37 missing, first: no reading for first-piece.measure/strip-1".into(),
            id,
        }
    }

    fn plant(jobs: usize, open: usize) -> Vec<JobLine> {
        (0..jobs).map(|number| job(number, number + open < jobs)).collect()
    }

    #[test]
    fn what_is_open_comes_first_and_what_is_released_last_comes_next() {
        let order: Vec<String> = in_working_order(plant(6, 3)).into_iter().map(|j| j.id).collect();
        let expected = ["SM-0003", "SM-0004", "SM-0005", "SM-0002", "SM-0001", "SM-0000"];
        assert_eq!(order, expected);
    }

    #[test]
    fn a_thousand_jobs_fit_a_start_page_of_100_kb() {
        for open in [0, 3, 500, 1000] {
            let finding = FindingView { message: "x".repeat(200), ..FindingView::default() };
            let findings = vec![finding; 1000];
            let view = StartView { jobs: plant(1000, open), findings, ..StartView::default() };
            let page = start_html(&view);
            assert!(page.len() < 100_000, "{open}: {}", page.len());
            let shown = open.min(MOST_OPEN) + (1000 - open).min(MOST_DONE);
            let links = page.matches("\"jobs/SM-").count();
            assert_eq!(links, shown, "{open}");
            assert_eq!(page.contains("more open job"), open > MOST_OPEN);
        }
    }

    #[test]
    fn every_job_stands_on_one_page_of_the_list_and_the_pages_lead_on() {
        let jobs = plant(250, 10);
        let pages = jobs_pages(&JobsView { jobs: jobs.clone(), ..JobsView::default() });
        let paths: Vec<&str> = pages.iter().map(|(path, _)| path.as_str()).collect();
        assert_eq!(paths, ["jobs/index.html", "lists/jobs-2.html", "lists/jobs-3.html"]);
        for job in &jobs {
            let link = format!("\"../jobs/{}.html\"", job.id);
            let on = pages.iter().filter(|(_, page)| page.contains(&link)).count();
            assert_eq!(on, 1, "{}", job.id);
        }
        for (_, page) in &pages {
            for path in &paths {
                assert!(page.contains(&format!("\"../{path}\"")), "{path}");
            }
        }
        assert!(!pages[0].1.contains("Newer jobs") && pages[0].1.contains("Older jobs"));
        assert!(pages[2].1.contains("Newer jobs") && !pages[2].1.contains("Older jobs"));
    }

    #[test]
    fn one_page_has_no_pages_to_turn() {
        let pages = jobs_pages(&JobsView { jobs: plant(3, 3), ..JobsView::default() });
        assert_eq!(pages.len(), 1);
        assert!(!pages[0].1.contains("class=\"pages\""));
    }
}
