//! From the history to what its pages say: names, links, numbers for print, and which chart stands on
//! which page.
//!
//! Numbers are the engine's, with two places more than the readings have. Must never count again what
//! [`crate::history`] has counted, but for the middle of the minutes, which is one of them.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::site::Site;
use super::{Tree, auditor};
use crate::audit::Report;
use crate::history::capability::{Capability, Figures, Indices};
use crate::history::chart::BASE;
use crate::history::drift::{Drift, Question};
use crate::history::gather::Gathering;
use crate::history::model::{
    Changeover, History, LeftOut, Machine, Of, Point, Proposal, Series, Share, Spent,
};
use crate::history::rules::Rule;
use crate::history::run::{Moment, Told};
use crate::history::{offset, run};
use crate::language::Language;
use crate::page::drawing::{self, Chart, Lines};
use crate::page::site::{
    ChangeoverLine, Fact, Frame, HistoryLine, HistoryView, Link, MachineHistoryView, PointLine,
    ProposalView, Questions, SeriesLine, SeriesView, history_html, machine_history_html,
};
use crate::page::{paths, words};
use crate::plant::load::Plant;
use crate::quantity::{Number, decimals_in};
use crate::record::RawRecord;
use crate::record::time;

/// Charts on one page: with the points of each, some 300 kB at most.
const MOST_CHARTS: usize = 12;
/// Points of a chart that are drawn and listed: a year of one changeover a week.
const MOST_POINTS: usize = 52;
/// Series that a list names.
const MOST_SERIES: usize = 500;
/// Changeovers that a page lists.
const MOST_CHANGEOVERS: usize = 100;
/// What of many the page of all machines shows.
const MOST_SHOWN: usize = 20;
/// Questions that the page of a machine or a procedure shows.
const MOST_QUESTIONS: usize = 50;
/// Readings that a proposal names.
const MOST_EVIDENCE: usize = 12;

/// What the records say together, and what counts over them ask.
///
/// Each report is what the audit says of a record by itself: what an approval lacks makes no reading
/// untrue. Proposals that the recipes of today have answered are left out.
pub fn past(
    records: &BTreeMap<String, RawRecord>,
    reports: &[Report],
    plant: &Plant,
) -> (History, Vec<Question>) {
    let mut records: Vec<(&RawRecord, &Report)> = records.values().zip(reports).collect();
    records.sort_by_key(|(_, report)| {
        let began = began(report);
        (began.is_none(), began, &report.job)
    });
    let told: Vec<Told> = records.par_iter().map(|(raw, report)| run::told(raw, report)).collect();
    let (mut gathering, mut drift) = (Gathering::default(), Drift::default());
    for told in told {
        if let Ok((run, _)) = &told {
            drift.take(run);
        }
        gathering.take(told);
    }
    let mut history = gathering.history();
    offset::keep_open(&mut history.proposals, |recipe, setting| {
        let recipe = &plant.recipes.get(recipe)?.body;
        Some(recipe.settings.get(setting)?.formula.clone())
    });
    (history, drift.questions())
}

/// When a record began, by its first entry.
fn began(report: &Report) -> Option<Moment> {
    let first = report.entries.iter().find(|entry| entry.number == 1)?;
    time::parse(&first.says.as_ref()?.at).ok()
}

/// The page of all machines.
pub(super) fn put_all(tree: &mut Tree, frame: &Frame, site: &Site) {
    let maker = Maker { site, language: frame.language };
    tree.put(paths::HISTORY, history_html(&maker.all(frame)));
}

/// The pages of one machine.
pub(super) fn put_machine(tree: &mut Tree, frame: &Frame, site: &Site, id: &str) {
    let machine = site.history.machines.iter().find(|machine| machine.id == id);
    let Some(machine) = machine else { return };
    let maker = Maker { site, language: frame.language };
    for (path, view) in maker.machine(frame, machine) {
        tree.put(path, machine_history_html(&view));
    }
}

/// The page of a machine's history; empty when it has none.
pub(super) fn page_of(history: &History, machine: &str) -> String {
    let has = history.machines.iter().any(|own| own.id == machine);
    if has { paths::history(machine) } else { String::new() }
}

/// The page of all histories; empty when no record says anything.
pub(super) fn page(history: &History) -> String {
    if history.machines.is_empty() { String::new() } else { paths::HISTORY.to_owned() }
}

/// Questions that are wanted, in words.
pub(super) fn questions(
    language: Language,
    site: &Site,
    most: usize,
    wanted: impl Fn(&Question) -> bool,
) -> Questions {
    let wanted: Vec<&Question> = site.questions.iter().filter(|one| wanted(one)).collect();
    let (shown, left) = wanted.split_at(most.min(wanted.len()));
    let view = |one: &&Question| {
        let mut view = auditor::question(one, language);
        if site.prepared.plant.procedures.contains_key(&one.procedure) {
            view.place.href = paths::procedure(&one.procedure);
        }
        view
    };
    Questions { list: shown.iter().map(view).collect(), more: left.len() }
}

/// Questions about a procedure, for its page.
pub(super) fn questions_about(language: Language, site: &Site, procedure: &str) -> Questions {
    questions(language, site, MOST_QUESTIONS, |one| one.procedure == procedure)
}

/// A series with the place of its chart; an empty place when it has none.
struct Placed<'a> {
    series: &'a Series,
    path: String,
    anchor: String,
}

impl Placed<'_> {
    fn href(&self) -> String {
        match self.path.is_empty() {
            true => String::new(),
            false => format!("{}#{}", self.path, self.anchor),
        }
    }

    /// Signals of every rule, those of the ranges too.
    fn signals(&self) -> u64 {
        self.series.signals.values().sum::<u64>() + self.series.range_signals
    }
}

/// Which chart stands on which page: all on the machine's page while they are few, else by procedure.
fn place<'a>(machine: &str, series: Vec<&'a Series>) -> Vec<Placed<'a>> {
    let is_drawn = |series: &&&Series| series.lines.is_some();
    let are_few = series.iter().filter(is_drawn).count() <= MOST_CHARTS;
    let mut of_procedure: BTreeMap<&str, usize> = BTreeMap::new();
    let place = |(number, series): (usize, &'a Series)| {
        let path = match series.lines {
            None => String::new(),
            Some(_) if are_few => paths::history(machine),
            Some(_) => {
                let count = of_procedure.entry(&series.procedure).or_default();
                *count += 1;
                let page = count.div_ceil(MOST_CHARTS);
                paths::history_charts(machine, &series.procedure, page)
            }
        };
        Placed { series, path, anchor: format!("series-{number}") }
    };
    (1..).zip(series).map(place).collect()
}

/// Those on which rules fired first, the most first; the others in their order.
fn by_signals(placed: &mut [Placed]) {
    placed.sort_by_key(|one| std::cmp::Reverse(one.signals()));
}

struct Maker<'a> {
    site: &'a Site<'a>,
    language: Language,
}

impl<'a> Maker<'a> {
    fn all(&self, frame: &Frame) -> HistoryView {
        let history = &self.site.history;
        let mut of_machine: BTreeMap<&str, Vec<&Series>> = BTreeMap::new();
        for series in &history.series {
            of_machine.entry(&series.machine).or_default().push(series);
        }
        let placed = of_machine.into_iter().flat_map(|(machine, series)| place(machine, series));
        let mut fired: Vec<Placed> = placed.filter(|one| one.series.has_signal()).collect();
        by_signals(&mut fired);
        let (shown, left) = fired.split_at(fired.len().min(MOST_SHOWN));
        let some = |all: usize| all.min(MOST_SHOWN);
        let (proposals, more) = history.proposals.split_at(some(history.proposals.len()));
        let (left_out, more_left_out) = history.left_out.split_at(some(history.left_out.len()));
        HistoryView {
            frame: frame.clone(),
            facts: self.counts(),
            machines: history.machines.iter().map(|one| self.machine_line(one, &fired)).collect(),
            fired: shown.iter().map(|one| self.series_line(one, true)).collect(),
            more_fired: left.len(),
            proposals: proposals.iter().map(|one| self.proposal(one)).collect(),
            more_proposals: more.len(),
            questions: questions(self.language, self.site, MOST_SHOWN, |_| true),
            left_out: left_out.iter().map(|one| self.left_out(one)).collect(),
            more_left_out: more_left_out.len(),
        }
    }

    fn counts(&self) -> Vec<Fact> {
        let history = &self.site.history;
        let sum = |of: fn(&Machine) -> u64| history.machines.iter().map(of).sum::<u64>();
        vec![
            self.fact("charts-changeovers", sum(|one| one.changeovers)),
            self.fact("charts-readings-all", sum(|one| one.readings)),
            self.fact("charts-corrections", sum(|one| one.corrections)),
            self.fact("charts-deviations-all", sum(|one| one.deviations)),
            self.fact("charts-series-all", history.series.len()),
        ]
    }

    fn fact(&self, key: &'static str, value: impl ToString) -> Fact {
        Fact::new(self.language.word(key), words::grouped(&value.to_string()))
    }

    fn machine_line(&self, machine: &Machine, fired: &[Placed]) -> HistoryLine {
        let history = &self.site.history;
        let own = |id: &str| id == machine.id;
        let changeovers = || history.changeovers.iter().filter(|one| own(&one.machine));
        HistoryLine {
            link: Link::new(&machine.name, paths::history(&machine.id)),
            changeovers: words::grouped(&machine.changeovers.to_string()),
            minutes: self.middle(changeovers().filter_map(|one| one.minutes).collect()),
            average: self.average(machine.time),
            first_pass: self.share(machine.first_pass),
            fired: fired.iter().filter(|one| own(&one.series.machine)).count(),
            proposals: history.proposals.iter().filter(|one| own(&one.machine)).count(),
            questions: self
                .site
                .questions
                .iter()
                .filter(|q| q.machines.contains(&machine.id))
                .count(),
        }
    }

    /// The middle one with the least and the most; of an even count the lower of the two in the middle.
    fn middle(&self, mut minutes: Vec<u32>) -> String {
        minutes.sort_unstable();
        let middle = minutes.get(minutes.len().saturating_sub(1) / 2);
        let (Some(middle), Some(least), Some(most)) = (middle, minutes.first(), minutes.last())
        else {
            return String::new();
        };
        let parts = [("middle", middle), ("least", least), ("most", most)];
        let parts = parts.map(|(name, minutes)| (name, minutes.to_string().into()));
        self.language.text("charts-middle", &parts)
    }

    /// Minutes of a changeover and planned ones, on average; empty when no record says them.
    fn average(&self, spent: Spent) -> String {
        let mean = |minutes: u64| {
            let minutes = Number::from(i64::try_from(minutes).ok()?);
            let mean = minutes.div(Number::from(i64::try_from(spent.changeovers).ok()?)).ok()?;
            Some(mean.decimal(0))
        };
        match (mean(spent.minutes), mean(spent.planned)) {
            (Some(minutes), Some(planned)) => format!("{minutes} / {planned}"),
            _ => String::new(),
        }
    }

    fn share(&self, share: Share) -> String {
        let parts =
            [("good", share.good.to_string().into()), ("all", share.all.to_string().into())];
        self.language.text("charts-share", &parts)
    }

    /// The machine's page, and pages of charts where they do not fit on it.
    fn machine(&self, frame: &Frame, machine: &Machine) -> Vec<(String, MachineHistoryView)> {
        let history = &self.site.history;
        let own = history.series.iter().filter(|series| series.machine == machine.id).collect();
        let mut placed = place(&machine.id, own);
        by_signals(&mut placed);
        let (shown, left) = placed.split_at(placed.len().min(MOST_SERIES));
        let path = paths::history(&machine.id);
        let title = self.language.text("charts-history-of", &[("machine", (&machine.name).into())]);
        let mut whole = self.page(frame, machine, title);
        let is_of = |one: &&Question| one.machines.contains(&machine.id);
        whole.questions = questions(self.language, self.site, MOST_QUESTIONS, |one| is_of(&one));
        let of = history.proposals.iter().filter(|one| one.machine == machine.id);
        whole.proposals = of.map(|one| self.proposal(one)).collect();
        whole.series = shown.iter().map(|one| self.series_line(one, false)).collect();
        whole.more_series = left.len();
        whole.facts = self.machine_facts(machine);
        self.changeovers(&mut whole, machine);
        let mut pages = BTreeMap::from([(path.clone(), whole)]);
        for one in placed.iter().filter(|one| !one.path.is_empty()) {
            let page = pages.entry(one.path.clone());
            let page = page.or_insert_with(|| self.page_of_charts(frame, machine, one, &path));
            page.charts.push(self.series(one));
            page.rules = self.rules();
        }
        pages.into_iter().collect()
    }

    fn page(&self, frame: &Frame, machine: &Machine, title: String) -> MachineHistoryView {
        let known = self.site.prepared.machines.contains_key(&machine.id);
        let href = if known { paths::machine(&machine.id) } else { paths::MACHINES.to_owned() };
        MachineHistoryView {
            frame: frame.clone(),
            title,
            machine: Link::new(&machine.name, href),
            ..MachineHistoryView::default()
        }
    }

    fn page_of_charts(
        &self,
        frame: &Frame,
        machine: &Machine,
        first: &Placed,
        whole: &str,
    ) -> MachineHistoryView {
        let number = first.path.trim_end_matches(".html").rsplit('.').next();
        let number = number.and_then(|number| number.parse::<usize>().ok());
        let procedure = self.procedure(&first.series.procedure).text;
        let parts = [("machine", (&machine.name).into()), ("procedure", procedure.into())];
        let title = match number {
            Some(number) => {
                let [machine, procedure] = parts;
                let parts = [machine, procedure, ("page", number.to_string().into())];
                self.language.text("charts-page-of-more", &parts)
            }
            None => self.language.text("charts-page-of", &parts),
        };
        let whole = Link::new(self.language.word("charts-whole"), whole);
        MachineHistoryView { whole, ..self.page(frame, machine, title) }
    }

    fn machine_facts(&self, machine: &Machine) -> Vec<Fact> {
        vec![
            self.fact("charts-changeovers", machine.changeovers),
            self.fact("charts-readings-all", machine.readings),
            Fact::new(self.language.word("charts-first-pass"), self.share(machine.first_pass)),
            self.fact("charts-corrections", machine.corrections),
            self.fact("charts-deviations-all", machine.deviations),
        ]
    }

    /// The latest changeovers of a machine.
    fn changeovers(&self, view: &mut MachineHistoryView, machine: &Machine) {
        let all = self.site.history.changeovers.iter().rev();
        let own: Vec<&Changeover> = all.filter(|one| one.machine == machine.id).collect();
        let (shown, left) = own.split_at(own.len().min(MOST_CHANGEOVERS));
        view.changeovers = shown.iter().map(|one| self.changeover(one)).collect();
        view.more_changeovers = left.len();
    }

    fn changeover(&self, one: &Changeover) -> ChangeoverLine {
        let minutes = |minutes: Option<u32>| minutes.map_or(String::new(), |all| all.to_string());
        let at = one.began.as_deref().and_then(|at| at.get(..10)).unwrap_or_default();
        let step = |(id, times): (&String, &u32)| {
            let parts = [("step", self.step(id).into()), ("times", times.to_string().into())];
            self.language.text("charts-step-times", &parts)
        };
        ChangeoverLine {
            day: words::date(self.language, at),
            record: self.record(&one.record, None, &one.record),
            from: self.recipe(&one.from),
            to: self.recipe(&one.to),
            minutes: [minutes(one.minutes), one.planned.to_string()],
            stop: [minutes(one.stop), one.planned_stop.to_string()],
            first_pass: self.share(one.first_pass),
            corrections: one
                .corrections
                .values()
                .map(|times| u64::from(*times))
                .sum::<u64>()
                .to_string(),
            deviations: one.deviations.iter().map(step).collect(),
        }
    }

    fn series_line(&self, placed: &Placed, with_machine: bool) -> SeriesLine {
        let series = placed.series;
        let cpk = match &series.capability {
            Capability::Known(figures) => self.index(Some(figures.within.cpk)),
            Capability::Refused(_) => String::new(),
        };
        SeriesLine {
            link: Link::new(&series.label, placed.href()),
            machine: if with_machine { self.machine_name(&series.machine) } else { String::new() },
            procedure: self.procedure(&series.procedure).text,
            count: words::grouped(&series.count.to_string()),
            first_pass: self.share(series.first_pass),
            cpk,
            fired: self.fired(series),
        }
    }

    /// Rules that fired on a series, each with how often.
    fn fired(&self, series: &Series) -> Vec<String> {
        let ranges = (series.range_signals > 0).then(|| (RANGE.to_owned(), series.range_signals));
        let rules = series.signals.iter().filter(|(_, times)| **times > 0);
        let rules = rules.map(|(rule, times)| (short(*rule), *times));
        let line = |(rule, times): (String, u64)| {
            let parts = [("rule", rule.into()), ("times", times.to_string().into())];
            self.language.text("charts-fired-times", &parts)
        };
        rules.chain(ranges).map(line).collect()
    }

    fn series(&self, placed: &Placed) -> SeriesView {
        let series = placed.series;
        let places = places(series);
        let drawn = series.points.len().saturating_sub(MOST_POINTS);
        let points = series.points.get(drawn..).unwrap_or_default();
        let count = usize::try_from(series.count).unwrap_or(usize::MAX);
        let mut fired = self.fired(series);
        if fired.is_empty() {
            fired.push(self.language.word("charts-none-fired").to_owned());
        }
        let (capability, capability_note) = self.capability(series, places);
        let chart = chart(placed, points, places);
        SeriesView {
            anchor: placed.anchor.clone(),
            label: series.label.clone(),
            step: Link::new(self.step(&series.step), self.procedure(&series.procedure).href),
            of: self.of(series),
            svg: drawing::chart(&chart, self.language).unwrap_or_default(),
            fired,
            facts: self.series_facts(series, places),
            capability,
            capability_note,
            points: points.iter().map(|point| self.point(point, places)).collect(),
            earlier: count.saturating_sub(points.len()),
        }
    }

    fn of(&self, series: &Series) -> String {
        let of = self.language.word(match series.of {
            Of::Deviation => "charts-of-deviation",
            Of::Reading => "charts-of-reading",
        });
        if series.unit.is_empty() { of.to_owned() } else { format!("{of}, {}", series.unit) }
    }

    fn series_facts(&self, series: &Series, places: u32) -> Vec<Fact> {
        let number = |number: Option<Number>| self.number(number?, places).into();
        let named = |key, value: Option<String>| Some(Fact::new(self.language.word(key), value?));
        let [mut lines, mut ranges, mut base] = [None, None, None];
        if let Some(own) = &series.lines {
            let all = [own.upper, own.centre, own.lower].map(|line| self.number(line, places));
            lines = Some(all.join(" \u{b7} "));
            let all = [own.upper_range, own.mean_range].map(|line| self.number(line, places));
            ranges = Some(all.join(" \u{b7} "));
            let parts = [("count", own.base.into()), ("needed", BASE.to_string().into())];
            let key = if own.is_provisional { "charts-base-provisional" } else { "charts-base-of" };
            base = Some(self.language.text(key, &parts));
        }
        let facts = [
            named("charts-count", Some(words::grouped(&series.count.to_string()))),
            named("charts-mean", number(series.mean)),
            named("charts-standard-deviation", number(series.deviation)),
            named("charts-autocorrelation", series.autocorrelation.map(|r| self.number(r, 2))),
            named("charts-lines", lines),
            named("charts-lines-range", ranges),
            named("charts-base", base),
            named("charts-first-pass", Some(self.share(series.first_pass))),
            named("charts-instrument", series.instrument.clone()),
        ];
        facts.into_iter().flatten().collect()
    }

    fn capability(&self, series: &Series, places: u32) -> (Vec<[String; 8]>, String) {
        match &series.capability {
            Capability::Known(figures) => {
                let row = |key, own: &Indices| self.indices(key, own, places);
                let rows = vec![
                    row("charts-within", &figures.within),
                    row("charts-overall", &figures.overall),
                ];
                (rows, self.figures(series, figures, places))
            }
            Capability::Refused(why) => (Vec::new(), why.words().shown(self.language)),
        }
    }

    fn indices(&self, key: &'static str, own: &Indices, places: u32) -> [String; 8] {
        [
            self.language.word(key).to_owned(),
            self.number(own.sigma, places),
            self.index(own.cp),
            self.index(own.cpu),
            self.index(own.cpl),
            self.index(Some(own.cpk)),
            self.index(own.k),
            self.index(own.cpm),
        ]
    }

    /// An index with two places, as tables of capability have it; empty when there is none.
    fn index(&self, index: Option<Number>) -> String {
        index.map_or(String::new(), |index| words::number(self.language, &index.decimal(2)))
    }

    fn figures(&self, series: &Series, figures: &Figures, places: u32) -> String {
        let [low, high] =
            [figures.low, figures.high].map(|one| one.map(|one| one.shortest(places)));
        let limits = words::limits(self.language, low.as_deref(), high.as_deref(), &series.unit);
        let parts = [("count", figures.count.to_string().into()), ("limits", limits.into())];
        self.language.text(
            match series.of {
                Of::Deviation => "charts-capability-of-count",
                Of::Reading => "charts-capability-of-readings",
            },
            &parts,
        )
    }

    fn point(&self, point: &Point, places: u32) -> PointLine {
        let text = |text: &str| words::number(self.language, text);
        let reading = match &point.first {
            Some(first) => {
                let parts =
                    [("reading", text(&point.reading).into()), ("first", text(first).into())];
                self.language.text("charts-first-then", &parts)
            }
            None => text(&point.reading),
        };
        let range_rule = point.range_fired.then(|| RANGE.to_owned());
        let fired = point.fired.iter().map(|rule| short(*rule)).chain(range_rule);
        PointLine {
            number: point.number,
            day: point.at.get(..10).unwrap_or_default().to_owned(),
            record: self.record(&point.record, Some(point.entry), &point.record),
            recipe: self.recipe(&point.recipe),
            reading,
            target: point.target.as_deref().map_or(String::new(), text),
            value: self.number(point.value, places),
            range: point.range.map_or(String::new(), |range| self.number(range, places)),
            fired: fired.collect::<Vec<_>>().join(", "),
        }
    }

    fn proposal(&self, one: &Proposal) -> ProposalView {
        let language = self.language;
        let with_unit = |text: &str| words::quantity(language, text, &one.unit);
        let exact = |number: Number| {
            with_unit(&number.shortest(decimals_in(&one.target).saturating_add(2)))
        };
        let words = language.text(
            "charts-proposal",
            &[
                ("name", (&one.name).into()),
                ("recipe", self.recipe(&one.recipe).into()),
                ("revision", (&one.revision).into()),
                ("target", with_unit(&one.target).into()),
                ("ends", with_unit(&one.ends_at).into()),
                ("offset", with_unit(&one.offset).into()),
            ],
        );
        let because = vec![
            language.text("charts-proposal-count", &[("count", one.count.to_string().into())]),
            language.text(
                "charts-proposal-mean",
                &[
                    ("mean", exact(one.mean).into()),
                    ("least", exact(one.least).into()),
                    ("most", exact(one.most).into()),
                    ("resolution", exact(one.resolution).into()),
                ],
            ),
            language.text("charts-proposal-formula", &[("formula", (&one.formula).into())]),
        ];
        let evidence = one.evidence.iter().rev().take(MOST_EVIDENCE).map(|own| {
            let parts =
                [("record", (&own.record).into()), ("reading", with_unit(&own.reading).into())];
            let text = language.text("charts-evidence-of", &parts);
            self.record(&own.record, Some(own.entry), &text)
        });
        ProposalView { words, because, edit: one.edit.clone(), evidence: evidence.collect() }
    }

    fn left_out(&self, one: &LeftOut) -> Fact {
        let why = one.why.join(", ");
        let value = match one.entries {
            Some(count) => {
                let count = usize::try_from(count).unwrap_or(usize::MAX);
                let parts = [("count", count.into()), ("why", why.into())];
                self.language.text("charts-left-out-entries", &parts)
            }
            None => self.language.text("charts-left-out-all", &[("why", why.into())]),
        };
        Fact::new(&one.record, value)
    }

    /// The rules that charts use.
    fn rules(&self) -> Vec<Fact> {
        let fact = |rule: Rule| {
            let parts = [
                ("rule", rule.name().into()),
                ("meaning", rule.meaning().into()),
                ("chance", words::number(self.language, rule.chance()).into()),
            ];
            Fact::new(short(rule), self.language.text("charts-rule", &parts))
        };
        let range = Fact::new(RANGE, self.language.word("charts-rule-range"));
        Rule::USED.into_iter().map(fact).chain([range]).collect()
    }

    fn number(&self, number: Number, places: u32) -> String {
        words::number(self.language, &number.shortest(places))
    }

    /// A record's page, at an entry where one is named; plain text when it has no page.
    fn record(&self, record: &str, entry: Option<u64>, text: &str) -> Link {
        if !self.site.records.contains_key(record) {
            return Link::new(text, "");
        }
        let page = paths::record(record);
        match entry {
            Some(entry) => Link::new(text, format!("{page}#entry-{entry}")),
            None => Link::new(text, page),
        }
    }

    fn recipe(&self, id: &str) -> String {
        let recipe = self.site.prepared.plant.recipes.get(id);
        recipe.map_or_else(|| id.to_owned(), |recipe| recipe.body.name.clone())
    }

    fn machine_name(&self, id: &str) -> String {
        let machine = self.site.history.machines.iter().find(|machine| machine.id == id);
        machine.map_or_else(|| id.to_owned(), |machine| machine.name.clone())
    }

    fn procedure(&self, id: &str) -> Link {
        match self.site.prepared.plant.procedures.get(id) {
            Some(procedure) => Link::new(&procedure.front.title, paths::procedure(id)),
            None => Link::new(id, ""),
        }
    }

    /// The heading of a step as it is written today, or its identifier.
    fn step(&self, id: &str) -> String {
        let (procedure, slug) = id.split_once('.').unwrap_or((id, ""));
        let slug = slug.split("--").next().unwrap_or(slug);
        let procedure = self.site.prepared.plant.procedures.get(procedure);
        let step = procedure.and_then(|own| own.steps.iter().find(|step| step.slug == slug));
        step.map_or_else(|| id.to_owned(), |step| step.title.clone())
    }
}

/// The moving range above its limit, in short.
const RANGE: &str = "MR";

/// A rule as it stands above a point: `N2`, `W4`.
fn short(rule: Rule) -> String {
    match (rule.nelson(), rule.western_electric()) {
        (Some(number), _) => format!("N{number}"),
        (None, Some(number)) => format!("W{number}"),
        (None, None) => rule.word().to_owned(),
    }
}

/// Places of the numbers of a series: so many as a drawing shows exactly at most.
fn places(series: &Series) -> u32 {
    series.places().min(6)
}

/// A series as it is drawn.
fn chart(placed: &Placed, points: &[Point], places: u32) -> Chart {
    let series = placed.series;
    let text = |number: Number| number.shortest(places);
    let point = |point: &Point| drawing::Point {
        value: text(point.value),
        range: point.range.map(text),
        rules: point.fired.iter().map(|rule| short(*rule)).collect(),
        range_rules: point.range_fired.then(|| RANGE.to_owned()).into_iter().collect(),
    };
    let lines = |upper, centre, lower: Option<Number>| Lines {
        upper: text(upper),
        centre: text(centre),
        lower: lower.map_or(String::new(), text),
    };
    let own = series.lines.as_ref();
    Chart {
        id: format!("{}-chart", placed.anchor),
        name: series.label.clone(),
        unit: series.unit.clone(),
        first: points.first().map_or(1, |point| point.number),
        points: points.iter().map(point).collect(),
        lines: own.map(|own| lines(own.upper, own.centre, Some(own.lower))),
        range_lines: own.map(|own| lines(own.upper_range, own.mean_range, None)),
    }
}

#[cfg(test)]
mod tests;
