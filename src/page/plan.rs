//! A crew's plan on a page: the choice of crews, the drawing, the steps, and what was signed.
//!
//! Words what [`crate::plan`] worked out. Must never work out a plan, and never call one safe.

use std::collections::BTreeSet;

use serde::Serialize;

use super::drawing::bars::{self, Bars};
use super::site::{Frame, JobLine, Link, Spoken};
use super::stop::StopView;
use super::{paths, render, words};
use crate::language::{Language, Part};
use crate::packet::model::{Packet, Step};
use crate::plan::actual::{Actual, Compared};
use crate::plan::tasks::When;
use crate::plan::timeline::{
    Asked, Choice, Job, Lack, Plan, Span, Staff, choices, chosen, longest,
};

/// More steps than this are printed on sheets after the drawing.
const MOST_ON_A_SHEET: usize = 12;

/// How many names a sentence lists.
const MOST_LISTED: usize = 12;

/// The page of the plan of one job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlanView {
    /// Frame.
    pub frame: Frame,
    /// The job's line.
    pub line: JobLine,
    /// Who does what when.
    pub timeline: TimelineView,
    /// What the stop costs, and what could move out of it.
    pub stop: StopView,
    /// What was signed; none before the first signature.
    pub actual: Option<ActualView>,
}

/// Who does what when, of one job or of a shift.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct TimelineView {
    /// Who is counted on, in a sentence.
    pub counted: String,
    /// How short it could be, in a sentence.
    pub longest: String,
    /// What has to be done about it before it is used; mostly empty.
    pub cautions: Vec<String>,
    /// Crews.
    pub choices: Vec<ChoiceLine>,
    /// What it is the plan of: the job or the shift, with machine and day.
    pub subject: String,
    /// The plan that is drawn, in a sentence; says so when there is none.
    pub shown: String,
    /// The drawing as SVG; empty without a plan.
    pub drawing: String,
    /// When each line stands; only of a shift.
    pub stops: Vec<StopLine>,
    /// Every step.
    pub bars: Vec<BarLine>,
    /// Whether drawing and steps go onto one sheet.
    pub is_short: bool,
    /// Whether it is of more than one job.
    pub is_shift: bool,
}

/// A crew of one size.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ChoiceLine {
    /// How many people.
    pub people: usize,
    /// How long the line stands.
    pub stop: String,
    /// How long the whole takes.
    pub whole: String,
    /// The bound.
    pub bound: String,
    /// How far the plan is from it, in words.
    pub distance: String,
    /// Why there is no plan; else empty.
    pub why: String,
    /// Whether it is the one that is drawn.
    pub is_shown: bool,
}

/// When the line of a job stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopLine {
    /// The job, with the letter that stands before its steps.
    pub job: String,
    /// Name of its machine.
    pub machine: String,
    /// From.
    pub from: String,
    /// To.
    pub to: String,
    /// How long.
    pub minutes: String,
}

/// A step of a plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BarLine {
    /// Its job.
    pub job: String,
    /// Its number in the packet.
    pub number: u32,
    /// What stands in its bar.
    pub label: String,
    /// Its title.
    pub title: Spoken,
    /// Who does it.
    pub does: String,
    /// Who checks it; may be empty.
    pub checks: String,
    /// Who does and who checks it, by last names where these tell people apart.
    pub brief: String,
    /// From.
    pub from: String,
    /// To.
    pub to: String,
    /// Before, during or after the stop.
    pub when: String,
    /// Minutes it may begin later.
    pub spare: u32,
    /// Whether it is critical.
    pub is_critical: bool,
}

/// A plan beside what was signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ActualView {
    /// The stop in a sentence; empty before it is over.
    pub stop: String,
    /// How many steps are signed, in a sentence.
    pub signed: String,
    /// Steps.
    pub steps: Vec<ActualLine>,
}

/// A step beside what was signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ActualLine {
    /// Its number.
    pub number: u32,
    /// Its title.
    pub title: Spoken,
    /// Planned end.
    pub planned: String,
    /// Last signature it needed; empty while one is missing.
    pub actual: String,
    /// The difference in words; empty while one is missing.
    pub difference: String,
    /// Whether it was signed later than planned.
    pub is_late: bool,
}

/// The page of a plan as HTML text.
pub fn plan_html(view: &PlanView) -> String {
    #[derive(Serialize)]
    struct Context<'a> {
        v: &'a PlanView,
        root: &'static str,
        section: &'static str,
        title: String,
        crumbs: [Link; 2],
    }
    let language = view.frame.language;
    let title = language.text("timeline-title", &[("job", (&view.line.id).into())]);
    let crumbs = [
        Link::new(language.word("frame-jobs"), paths::JOBS),
        Link::new(view.line.id.as_str(), view.line.page.as_str()),
    ];
    let context = Context { v: view, root: "../", section: paths::JOBS, title, crumbs };
    render(language, "plan.html", &context)
}

/// A plan worked out for jobs, to be worded.
pub struct Worked<'p> {
    language: Language,
    jobs: Vec<Job<'p>>,
    staff: Staff,
    choices: Vec<Choice>,
    /// Minute of the day at which it begins, when somebody says.
    zero: Option<u32>,
}

impl<'p> Worked<'p> {
    /// Works out the plans of jobs that share their people.
    pub fn new(language: Language, jobs: Vec<Job<'p>>, zero: Option<u32>) -> Worked<'p> {
        let staff = Staff::of(&jobs);
        let choices = choices(&staff, &jobs);
        Worked { language, jobs, staff, choices, zero }
    }

    /// The plan that is shown, and for how many people.
    pub fn shown(&self) -> Option<(usize, &Plan)> {
        chosen(&self.staff, &self.choices)
    }

    /// The plan in words.
    pub fn view(&self) -> TimelineView {
        let shown = self.shown();
        let plan = shown.map(|(_, plan)| plan);
        let bars: Vec<BarLine> = plan.iter().flat_map(|plan| self.bars(plan)).collect();
        TimelineView {
            counted: self.counted(),
            longest: self
                .say("timeline-longest", &[("time", (&self.long(longest(&self.jobs))).into())]),
            cautions: self.cautions(plan),
            choices: self.choices.iter().map(|one| self.choice(one)).collect(),
            subject: self.subject(),
            shown: self.shown_words(),
            drawing: plan.map_or(String::new(), |plan| self.drawing(plan).svg()),
            stops: if self.is_shift() { self.stops(plan) } else { Vec::new() },
            is_short: bars.len() <= MOST_ON_A_SHEET,
            bars,
            is_shift: self.is_shift(),
        }
    }

    /// What was signed beside the plan.
    pub fn actual(&self, actual: &Actual) -> Option<ActualView> {
        let packet = self.jobs.first()?.packet;
        let line = |one: &Compared| {
            let step = packet.steps.get(one.step)?;
            Some(self.actual_line(packet, step, one))
        };
        let steps: Vec<ActualLine> = actual.steps.iter().filter_map(line).collect();
        let done = actual.steps.iter().filter(|one| one.actual.is_some()).count();
        let late = steps.iter().filter(|line| line.is_late).count();
        let counts = [("done", done.into()), ("count", steps.len().into()), ("late", late.into())];
        let stop = actual.stop.map_or(String::new(), |(planned, signed)| {
            let parts = [
                ("planned", Part::Text(self.signed_time(planned).into())),
                ("actual", Part::Text(self.signed_time(signed).into())),
            ];
            self.say("timeline-actual-stop", &parts)
        });
        Some(ActualView { stop, signed: self.say("timeline-actual-signed", &counts), steps })
    }

    fn actual_line(&self, packet: &Packet, step: &Step, one: &Compared) -> ActualLine {
        let difference = one.late_by().map(|late| {
            let minutes = usize::try_from(late.unsigned_abs()).unwrap_or(usize::MAX);
            let key = match late {
                0 => return self.language.word("timeline-on-time").to_owned(),
                1.. => "timeline-later",
                _ => "timeline-earlier",
            };
            self.say(key, &[("count", minutes.into())])
        });
        ActualLine {
            number: step.number,
            title: self.title(packet, step),
            planned: self.signed_time(one.planned),
            actual: one.actual.map_or(String::new(), |at| self.signed_time(at)),
            difference: difference.unwrap_or_default(),
            is_late: one.late_by().is_some_and(|late| late > 0),
        }
    }

    fn is_shift(&self) -> bool {
        self.jobs.len() > 1
    }

    fn say(&self, key: &'static str, parts: &[(&str, Part)]) -> String {
        self.language.text(key, parts)
    }

    /// `2:15`, hours and minutes.
    fn long(&self, minutes: u32) -> String {
        format!("{}:{:02}", minutes / 60, minutes % 60)
    }

    /// A moment of the plan: by the clock when somebody says when it begins, else since its beginning.
    fn time(&self, minute: u32) -> String {
        match self.zero {
            Some(zero) => {
                let minute = (u64::from(zero) + u64::from(minute)) % (24 * 60);
                format!("{:02}:{:02}", minute / 60, minute % 60)
            }
            None => self.long(minute),
        }
    }

    /// A moment or length that may lie before the beginning.
    fn signed_time(&self, minute: i64) -> String {
        let size = u32::try_from(minute.unsigned_abs()).unwrap_or(u32::MAX);
        match minute {
            0.. => self.long(size),
            _ => format!("\u{2212}{}", self.long(size)),
        }
    }

    fn name(&self, worker: usize) -> String {
        let name = self.staff.workers.get(worker).map(|worker| worker.name.as_str());
        match name.filter(|name| !name.is_empty()) {
            Some(name) => name.to_owned(),
            None => self.say("timeline-person", &[("number", (worker + 1).to_string().into())]),
        }
    }

    fn names(&self, workers: &[usize]) -> String {
        workers.iter().map(|worker| self.name(*worker)).collect::<Vec<_>>().join(", ")
    }

    /// `Osei ✓ Whitcombe`: who does a step, and who checks it.
    fn brief(&self, does: &[usize], checks: &[usize]) -> String {
        let names = |own: &[usize]| {
            own.iter().map(|worker| self.last_name(*worker)).collect::<Vec<_>>().join(", ")
        };
        match checks {
            [] => names(does),
            _ => format!("{} \u{2713} {}", names(does), names(checks)),
        }
    }

    /// The last word of a name; the whole name where another person has the same, or nobody is named.
    fn last_name(&self, worker: usize) -> String {
        let last = |name: &str| name.rsplit(' ').next().unwrap_or_default().to_owned();
        let all = self.staff.workers.iter().map(|own| last(&own.name));
        let own = self.staff.workers.get(worker).map_or(String::new(), |own| last(&own.name));
        match all.filter(|name| *name == own).count() {
            1 if !own.is_empty() => own,
            _ => self.name(worker),
        }
    }

    fn subject(&self) -> String {
        let Some(packet) = self.jobs.first().map(|job| job.packet) else { return String::new() };
        let day = words::date(self.language, &packet.job.date);
        let shift = &packet.job.shift;
        let own = [packet.job.id.as_str(), &packet.machine.name];
        let own = own.into_iter().filter(|_| !self.is_shift());
        let parts = own.chain([day.as_str(), shift]).filter(|part| !part.is_empty());
        parts.collect::<Vec<_>>().join(", ")
    }

    fn counted(&self) -> String {
        if !self.staff.is_named {
            return self.language.word("timeline-nobody-named").to_owned();
        }
        let names: Vec<&str> =
            self.staff.workers.iter().map(|worker| worker.name.as_str()).collect();
        let named = self.say("timeline-named", &[("names", names.join(", ").into())]);
        match self.staff.left_out {
            0 => named,
            more => format!("{named} {}", self.say("timeline-left-out", &[("count", more.into())])),
        }
    }

    fn choice(&self, choice: &Choice) -> ChoiceLine {
        let people = choice.people;
        let is_shown = self.shown().is_some_and(|(shown, _)| shown == people);
        match &choice.plan {
            Ok(plan) => ChoiceLine {
                people,
                stop: self.long(plan.stopped()),
                whole: self.long(plan.minutes),
                bound: self.long(plan.bound),
                distance: self.distance(plan),
                why: String::new(),
                is_shown,
            },
            Err(lack) => ChoiceLine {
                people,
                stop: String::new(),
                whole: String::new(),
                bound: String::new(),
                distance: String::new(),
                why: self.why(lack),
                is_shown,
            },
        }
    }

    fn distance(&self, plan: &Plan) -> String {
        if plan.is_best {
            return self.language.word("timeline-shortest").to_owned();
        }
        let percent = usize::try_from(plan.percent_above()).unwrap_or(usize::MAX);
        let minutes = usize::try_from(plan.above_bound()).unwrap_or(usize::MAX);
        self.say("timeline-above", &[("minutes", minutes.into()), ("percent", percent.into())])
    }

    fn why(&self, lack: &Lack) -> String {
        let packet = self.jobs.get(lack.job).map(|job| job.packet);
        let step = packet.and_then(|packet| packet.steps.get(lack.step));
        let what = match &lack.what {
            Asked::Roles(roles) => {
                self.say("timeline-needs-role", &[("role", roles.join(" + ").into())])
            }
            Asked::Person(name) => self.say("timeline-needs-person", &[("name", name.into())]),
            Asked::Anybody => self.language.word("timeline-needs-anybody").to_owned(),
            Asked::AtOnce(count) => {
                self.say("timeline-needs-people", &[("count", (*count).into())])
            }
            Asked::Room => self.language.word("timeline-needs-room").to_owned(),
            Asked::Itself => self.language.word("timeline-needs-end").to_owned(),
        };
        let title = step.map_or("", |step| step.title.as_str());
        let parts = [
            ("step", self.label(lack.job, step.map_or(0, |step| step.number)).into()),
            ("title", title.into()),
            ("what", what.into()),
        ];
        self.say("timeline-impossible", &parts)
    }

    fn shown_words(&self) -> String {
        let Some((people, plan)) = self.shown() else {
            return self.language.word("timeline-none").to_owned();
        };
        let key = match self.staff.is_named {
            true => "timeline-shown-named",
            false => "timeline-shown-fewest",
        };
        let parts = [
            ("count", people.into()),
            ("whole", Part::Text(self.long(plan.minutes).into())),
            ("stop", Part::Text(self.long(plan.stopped()).into())),
        ];
        self.say(key, &parts)
    }

    /// What a person has to see to before the plan is used.
    fn cautions(&self, plan: Option<&Plan>) -> Vec<String> {
        let mut cautions = Vec::new();
        for (index, job) in self.jobs.iter().enumerate() {
            let id = job.packet.job.id.as_str();
            let named = job.packet.job.lockout.as_ref().is_some_and(|own| !own.crew.is_empty());
            let inside = plan.map_or(0, |plan| inside(plan, index, job.packet));
            if inside > 1 && !named {
                let parts = [("job", id.into()), ("count", inside.into())];
                cautions.push(self.say("timeline-several-inside", &parts));
            }
            let machine = &job.packet.machine;
            let is_behind = |next: &Job| next.packet.machine.id == machine.id;
            if job.runs.is_none() && self.jobs.iter().skip(index + 1).any(is_behind) {
                let parts = [("job", id.into()), ("machine", machine.name.as_str().into())];
                cautions.push(self.say("timeline-no-run", &parts));
            }
            let is_done = |step: &&Step| step.stays.is_none() && step.minutes.is_none();
            let without: Vec<String> = job
                .packet
                .steps
                .iter()
                .filter(is_done)
                .map(|step| step.number.to_string())
                .collect();
            if !without.is_empty() {
                let more = if without.len() > MOST_LISTED { ", \u{2026}" } else { "" };
                let steps =
                    without.iter().take(MOST_LISTED).cloned().collect::<Vec<_>>().join(", ");
                let parts = [
                    ("job", id.into()),
                    ("count", without.len().into()),
                    ("steps", (steps + more).into()),
                ];
                cautions.push(self.say("timeline-no-minutes", &parts));
            }
        }
        cautions
    }

    /// `12`, and `A12` where there are several jobs.
    fn label(&self, job: usize, number: u32) -> String {
        match self.is_shift() {
            true => format!("{}{number}", letters(job)),
            false => number.to_string(),
        }
    }

    fn title(&self, packet: &Packet, step: &Step) -> Spoken {
        let own = step.language.or(Some(packet.language));
        Spoken { text: step.title.clone(), lang: words::lang(own, self.language) }
    }

    fn stops(&self, plan: Option<&Plan>) -> Vec<StopLine> {
        let stops = plan.iter().flat_map(|plan| &plan.stops).zip(&self.jobs).enumerate();
        let line = |(index, (stop, job)): (usize, (&Option<Span>, &Job))| {
            let id = &job.packet.job.id;
            let time = |minute: fn(&Span) -> u32| {
                stop.as_ref().map_or(String::new(), |stop| self.time(minute(stop)))
            };
            StopLine {
                job: format!("{} {id}", letters(index)),
                machine: job.packet.machine.name.clone(),
                from: time(|stop| stop.from),
                to: time(|stop| stop.to),
                minutes: stop.map_or(String::new(), |stop| self.long(stop.minutes())),
            }
        };
        stops.map(line).collect()
    }

    /// One job by its numbers; a shift in the order of its times.
    fn bars(&self, plan: &Plan) -> Vec<BarLine> {
        let mut bars: Vec<_> = plan.bars.iter().collect();
        if self.is_shift() {
            bars.sort_by_key(|bar| (bar.span.from, bar.span.to, bar.job, bar.step));
        }
        let line = |bar: &crate::plan::timeline::Bar| {
            let packet = self.jobs.get(bar.job)?.packet;
            let step = packet.steps.get(bar.step)?;
            Some(BarLine {
                job: packet.job.id.clone(),
                number: step.number,
                label: self.label(bar.job, step.number),
                title: self.title(packet, step),
                does: self.names(&bar.does),
                checks: self.names(&bar.checks),
                brief: self.brief(&bar.does, &bar.checks),
                from: self.time(bar.span.from),
                to: self.time(bar.span.to),
                when: self.when(bar.when).to_owned(),
                spare: bar.spare,
                is_critical: bar.is_critical(),
            })
        };
        bars.into_iter().filter_map(line).collect()
    }

    fn when(&self, when: When) -> &'static str {
        self.language.word(match when {
            When::Before => "timeline-before",
            When::During => "timeline-during",
            When::After => "timeline-after",
        })
    }

    fn drawing(&self, plan: &Plan) -> Bars {
        let used: BTreeSet<usize> =
            plan.bars.iter().flat_map(|bar| bar.does.iter().chain(&bar.checks)).copied().collect();
        let people: Vec<usize> = used.into_iter().collect();
        let mut drawn = Vec::new();
        for bar in &plan.bars {
            let packet = self.jobs.get(bar.job).map(|job| job.packet);
            let step = packet.and_then(|packet| packet.steps.get(bar.step));
            let Some(step) = step else { continue };
            let checks = bar.checks.iter().map(|worker| (worker, true));
            for (worker, checks) in bar.does.iter().map(|worker| (worker, false)).chain(checks) {
                let Ok(person) = people.binary_search(worker) else { continue };
                drawn.push(bars::Bar {
                    person,
                    from: bar.span.from,
                    to: bar.span.to,
                    label: self.label(bar.job, step.number),
                    checks,
                    is_critical: bar.is_critical(),
                });
            }
        }
        let stops = plan.stops.iter().enumerate();
        let stops = stops.filter_map(|(job, stop)| Some(self.drawn_stop(job, (*stop)?))).collect();
        let ticks = bars::ticks(plan.minutes).map(|minute| (minute, self.time(minute))).collect();
        Bars {
            id: "crew-plan".to_owned(),
            title: self.language.word("timeline-heading").to_owned(),
            about: self.about(plan, &people),
            people: people.into_iter().map(|worker| self.name(worker)).collect(),
            bars: drawn,
            stops,
            ticks,
            minutes: plan.minutes,
        }
    }

    fn drawn_stop(&self, job: usize, stop: Span) -> bars::Stop {
        let name = if self.is_shift() {
            let id = self.jobs.get(job).map_or("", |job| job.packet.job.id.as_str());
            format!("{} {id}", letters(job))
        } else {
            String::new()
        };
        let within = self.say("timeline-stands", &[("time", self.long(stop.minutes()).into())]);
        let word = |key| self.language.word(key).to_owned();
        let words = [word("timeline-line-stops"), within, word("timeline-line-runs")];
        bars::Stop { name, from: stop.from, to: stop.to, words }
    }

    /// What the drawing shows, for who does not see it.
    fn about(&self, plan: &Plan, people: &[usize]) -> String {
        let mut sentences = vec![self.shown_words()];
        for worker in people {
            let is_own = |bar: &&crate::plan::timeline::Bar| {
                bar.does.contains(worker) || bar.checks.contains(worker)
            };
            let own = plan.bars.iter().filter(is_own);
            let minutes =
                own.clone().fold(0_u32, |sum, bar| sum.saturating_add(bar.span.minutes()));
            let parts = [
                ("name", Part::Text(self.name(*worker).into())),
                ("count", own.count().into()),
                ("time", Part::Text(self.long(minutes).into())),
            ];
            sentences.push(self.say("timeline-drawn-person", &parts));
        }
        sentences.join(" ")
    }
}

/// How many people do something behind a guard of a job.
fn inside(plan: &Plan, job: usize, packet: &Packet) -> usize {
    let reaches = |step: usize| packet.steps.get(step).is_some_and(Step::reaches_in);
    let own = plan.bars.iter().filter(|bar| bar.job == job && reaches(bar.step));
    own.flat_map(|bar| &bar.does).collect::<BTreeSet<_>>().len()
}

/// `A` to `Z`, `AA` and so on.
fn letters(index: usize) -> String {
    let last = char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    match index / 26 {
        0 => last.to_string(),
        more => letters(more - 1) + &last.to_string(),
    }
}

#[cfg(test)]
mod tests;
