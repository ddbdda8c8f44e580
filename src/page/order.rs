//! In which order the jobs of a machine stop it the least: what the page of a shift says of it.
//!
//! Only words: the orders come from [`crate::plan::sequence`]. Must never say that an order was
//! changed, nor that one is the best when that is not proven.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{NaiveDateTime, TimeDelta};
use serde::Serialize;

use crate::language::Language;
use crate::plan::sequence::night::{Cost, Job, Night, Way};
use crate::plan::sequence::{Advice, NoOrder, Order, Slot, Worth};

/// What is shown of the jobs of a machine in one shift.
#[derive(Debug, Clone)]
pub struct Told<'a> {
    /// The jobs and what is between them.
    pub night: &'a Night,
    /// Name of the machine.
    pub machine: &'a str,
    /// Names of the recipes, by identifier.
    pub products: &'a BTreeMap<String, String>,
    /// When the first stop starts; none when nobody says.
    pub starts: Option<NaiveDateTime>,
}

/// The order of jobs on a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct OrderView {
    /// Name of the machine.
    pub machine: String,
    /// What is advised, in a sentence.
    pub verdict: String,
    /// How sure that is; empty when there is no order.
    pub proof: String,
    /// The planned order and the advised one against each other; empty when one of them is missing
    /// or they are the same.
    pub compared: Vec<ComparedView>,
    /// The planned order, then the advised one where it is another.
    pub orders: Vec<OrderedView>,
    /// What each changeover in these orders takes.
    pub changeovers: Vec<ChangeoverView>,
    /// Identifiers of the jobs, over the columns of `minutes`.
    pub jobs: Vec<String>,
    /// Minutes of stop from each job to each other.
    pub minutes: Vec<RowView>,
    /// Changeovers that cannot be made, each with the reason.
    pub barred: Vec<String>,
    /// What to write to follow the advice; empty when the planned order stays.
    pub follow: Vec<String>,
    /// What was not known.
    pub notes: Vec<String>,
}

/// One figure of both orders.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ComparedView {
    /// What is counted.
    pub what: String,
    /// Of the planned order.
    pub planned: u64,
    /// Of the advised order.
    pub advised: u64,
    /// What the advised one has more or less, with its sign.
    pub difference: String,
}

/// An order of jobs.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct OrderedView {
    /// Its name.
    pub name: String,
    /// Whether times are known.
    pub is_timed: bool,
    /// Its jobs.
    pub jobs: Vec<OrderedJob>,
}

/// A job in an order.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct OrderedJob {
    /// Its identifier.
    pub id: String,
    /// Its product.
    pub product: String,
    /// Minutes of stop before it.
    pub stop: u32,
    /// When the machine stops for it; empty without times.
    pub stops: String,
    /// When it is done; empty without times.
    pub ends: String,
    /// How late it is, in words; empty when it is not, or when nobody can tell.
    pub late: String,
}

/// What a changeover takes.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ChangeoverView {
    /// Product before.
    pub from: String,
    /// Job after; its identifier.
    pub job: String,
    /// Product after.
    pub to: String,
    /// Which of the orders it is in, in words.
    pub used: String,
    /// Minutes of stop.
    pub stop: u32,
    /// Things done to holders.
    pub moves: usize,
    /// Settings that change.
    pub settings: usize,
    /// Change parts to put on.
    pub parts: Vec<String>,
    /// Allergens to clean out.
    pub cleaned: Vec<String>,
}

/// Minutes of stop after one job.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RowView {
    /// The job, or what is on the machine now.
    pub name: String,
    /// Minutes to each job; empty where there is no such changeover.
    pub minutes: Vec<String>,
}

/// What the page says of the jobs of a machine.
pub fn order_view(language: Language, told: &Told) -> OrderView {
    let Told { night, machine, .. } = told;
    let say = Say { language, told };
    let (planned, advice) = (night.planned(), night.advice());
    let advised = advice.as_ref().ok().map(|advice| &advice.best);
    let advised = advised.filter(|advised| planned.as_ref() != Some(*advised));
    OrderView {
        machine: (*machine).to_owned(),
        verdict: say.verdict(planned.as_ref(), &advice),
        proof: advice.as_ref().map_or_else(|_| String::new(), |advice| say.proof(advice)),
        compared: say.compared(planned.as_ref(), advised),
        orders: say.orders(planned.as_ref(), advised),
        changeovers: say.changeovers(planned.as_ref(), advised),
        jobs: night.jobs.iter().map(|job| job.id.clone()).collect(),
        minutes: say.minutes(),
        barred: say.barred(),
        follow: advised.map_or_else(Vec::new, |advised| say.follow(advised)),
        notes: say.notes(),
    }
}

/// The words of one machine.
struct Say<'a> {
    language: Language,
    told: &'a Told<'a>,
}

impl Say<'_> {
    fn night(&self) -> &Night {
        self.told.night
    }

    fn job(&self, job: usize) -> Option<&Job> {
        self.night().jobs.get(job)
    }

    fn id(&self, job: usize) -> String {
        self.job(job).map_or_else(String::new, |job| job.id.clone())
    }

    /// The name of a recipe; its identifier where it has none.
    fn product(&self, recipe: &str) -> String {
        self.told.products.get(recipe).map_or(recipe, String::as_str).to_owned()
    }

    /// The recipe on the machine after a job, or now.
    fn recipe(&self, job: Option<usize>) -> &str {
        match job {
            Some(job) => self.job(job).map_or("", |job| job.to.as_str()),
            None => &self.night().from,
        }
    }

    fn ids(&self, order: &Order) -> String {
        order.jobs.iter().map(|job| self.id(*job)).collect::<Vec<_>>().join(", ")
    }

    fn verdict(&self, planned: Option<&Order>, advice: &Result<Advice, NoOrder>) -> String {
        match (planned, advice) {
            (_, Err(NoOrder { is_proven: true })) => self.word("sequence-no-order"),
            (_, Err(NoOrder { is_proven: false })) => self.word("sequence-none-found"),
            (Some(planned), Ok(advice)) if *planned == advice.best => self.word("sequence-stays"),
            (planned, Ok(Advice { best, .. })) => {
                let key = match planned {
                    Some(_) => "sequence-advised",
                    None => "sequence-planned-barred",
                };
                self.language.text(key, &[("order", self.ids(best).into())])
            }
        }
    }

    fn word(&self, key: &'static str) -> String {
        self.language.word(key).to_owned()
    }

    fn proof(&self, advice: &Advice) -> String {
        if advice.is_best {
            return self.word("sequence-proven");
        }
        let stop = advice.best.worth.stop;
        let parts = [
            ("bound", advice.bound.to_string().into()),
            ("stop", stop.to_string().into()),
            ("gap", stop.saturating_sub(advice.bound).to_string().into()),
        ];
        self.language.text("sequence-not-proven", &parts)
    }

    fn compared(&self, planned: Option<&Order>, advised: Option<&Order>) -> Vec<ComparedView> {
        let Some((planned, advised)) = planned.zip(advised) else { return Vec::new() };
        let row = |key, of: fn(&Worth) -> u64| {
            let (planned, advised) = (of(&planned.worth), of(&advised.worth));
            let difference = i128::from(advised) - i128::from(planned);
            ComparedView {
                what: self.word(key),
                planned,
                advised,
                difference: format!("{difference:+}").replace('-', "\u{2212}"),
            }
        };
        let unwanted = self.night().allergens_last;
        let unwanted =
            unwanted.then(|| row("sequence-unwanted", |worth| u64::from(worth.unwanted)));
        let late = self.night().jobs.iter().any(|job| job.due.is_some());
        let late = late.then(|| row("sequence-late-minutes", |worth| worth.late));
        let stop = row("sequence-stop-minutes", |worth| worth.stop);
        unwanted.into_iter().chain(late).chain([stop]).collect()
    }

    fn orders(&self, planned: Option<&Order>, advised: Option<&Order>) -> Vec<OrderedView> {
        let named = [("sequence-planned", planned), ("sequence-advised-order", advised)];
        let orders = named.into_iter().filter_map(|(key, order)| Some((key, order?)));
        orders.map(|(key, order)| self.ordered(key, order)).collect()
    }

    fn ordered(&self, key: &'static str, order: &Order) -> OrderedView {
        let jobs = order.jobs.iter().zip(&order.slots);
        OrderedView {
            name: self.word(key),
            is_timed: self.told.starts.is_some(),
            jobs: jobs.map(|(job, slot)| self.slot(*job, slot)).collect(),
        }
    }

    fn slot(&self, job: usize, slot: &Slot) -> OrderedJob {
        let late = (slot.late > 0).then(|| {
            self.language.text("sequence-late", &[("minutes", slot.late.to_string().into())])
        });
        OrderedJob {
            id: self.id(job),
            product: self.product(self.recipe(Some(job))),
            stop: slot.stop,
            stops: self.clock(slot.stops),
            ends: self.clock(slot.ends),
            late: late.unwrap_or_default(),
        }
    }

    /// A time of day, with the day where it is another one than that of the first stop.
    fn clock(&self, minutes: u64) -> String {
        let at = self.told.starts.and_then(|starts| {
            let minutes = i64::try_from(minutes).ok()?;
            Some((starts, starts.checked_add_signed(TimeDelta::try_minutes(minutes)?)?))
        });
        let Some((starts, at)) = at else { return String::new() };
        let form = if at.date() == starts.date() { "%H:%M" } else { "%Y-%m-%d %H:%M" };
        at.format(form).to_string()
    }

    fn changeovers(&self, planned: Option<&Order>, advised: Option<&Order>) -> Vec<ChangeoverView> {
        let steps = |order: Option<&Order>| -> Vec<(Option<usize>, usize)> {
            let jobs = order.map_or(&[][..], |order| &order.jobs);
            let before = std::iter::once(None).chain(jobs.iter().copied().map(Some));
            before.zip(jobs.iter().copied()).collect()
        };
        let (planned, mut advised) = (steps(planned), steps(advised));
        let in_planned = planned.iter().map(|step| {
            let key = match advised.contains(step) {
                true => "sequence-in-both",
                false => "sequence-in-planned",
            };
            (*step, key)
        });
        let mut used: Vec<_> = in_planned.collect();
        advised.retain(|step| !planned.contains(step));
        used.extend(advised.into_iter().map(|step| (step, "sequence-in-advised")));
        used.into_iter().filter_map(|(step, key)| self.changeover(step, key)).collect()
    }

    fn changeover(
        &self,
        (before, job): (Option<usize>, usize),
        key: &'static str,
    ) -> Option<ChangeoverView> {
        let Way::Open(Cost { stop, moves, settings, parts, cleaned, .. }) =
            self.night().way(before, job)?
        else {
            return None;
        };
        Some(ChangeoverView {
            from: self.product(self.recipe(before)),
            job: self.id(job),
            to: self.product(self.recipe(Some(job))),
            used: self.word(key),
            stop: *stop,
            moves: *moves,
            settings: *settings,
            parts: parts.clone(),
            cleaned: cleaned.clone(),
        })
    }

    /// What is before a changeover: nothing yet, or each job.
    fn befores(&self) -> impl Iterator<Item = Option<usize>> {
        std::iter::once(None).chain((0..self.night().jobs.len()).map(Some))
    }

    /// What a changeover begins with, for people.
    fn before(&self, before: Option<usize>) -> String {
        match before {
            Some(job) => self.id(job),
            None => self.product(self.recipe(None)),
        }
    }

    fn minutes(&self) -> Vec<RowView> {
        let cell = |before: Option<usize>, job: usize| match self.night().way(before, job) {
            Some(Way::Open(cost)) if before != Some(job) => cost.stop.to_string(),
            _ => String::new(),
        };
        let jobs = || 0..self.night().jobs.len();
        let row = |before| RowView {
            name: self.before(before),
            minutes: jobs().map(|job| cell(before, job)).collect(),
        };
        self.befores().map(row).collect()
    }

    fn barred(&self) -> Vec<String> {
        let pairs = self
            .befores()
            .flat_map(|before| (0..self.night().jobs.len()).map(move |job| (before, job)));
        let said = |(before, job): (Option<usize>, usize)| {
            let Way::Barred(why) = self.night().way(before, job)? else { return None };
            let parts = [
                ("from", self.before(before).into()),
                ("job", self.id(job).into()),
                ("why", why.into()),
            ];
            (before != Some(job)).then(|| self.language.text("sequence-barred", &parts))
        };
        pairs.filter_map(said).collect()
    }

    /// What has to be written anew, job by job.
    fn follow(&self, advised: &Order) -> Vec<String> {
        let before = std::iter::once(None).chain(advised.jobs.iter().copied().map(Some));
        let steps = before.zip(&advised.jobs);
        let changed = steps.filter_map(|(before, job)| {
            let from = self.recipe(before);
            let own = self.job(*job).filter(|own| own.from != from)?;
            let parts = [("job", own.id.as_str().into()), ("from", from.into())];
            Some(self.language.text("sequence-write-from", &parts))
        });
        let rest = ["sequence-write-times", "sequence-write-packets"].map(|key| self.word(key));
        changed.chain(rest).collect()
    }

    fn notes(&self) -> Vec<String> {
        let night = self.night();
        let mut notes = Vec::new();
        if self.told.starts.is_none() {
            let first = night.jobs.first().map_or("", |job| job.id.as_str());
            let parts = [("job", first.into())];
            notes.push(self.language.text("sequence-no-start", &parts));
        }
        let unknown = night.jobs.iter().filter(|job| job.runs.is_none());
        let unknown: Vec<&str> = unknown.map(|job| job.id.as_str()).collect();
        if !unknown.is_empty() {
            let parts = [("jobs", unknown.join(", ").into())];
            notes.push(self.language.text("sequence-no-run", &parts));
        }
        let unplanned: BTreeSet<String> = self
            .befores()
            .flat_map(|before| (0..night.jobs.len()).map(move |job| (before, job)))
            .filter(|(before, job)| match night.way(*before, *job) {
                Some(Way::Open(cost)) => cost.unplanned > 0,
                _ => false,
            })
            .map(|(_, job)| self.id(job))
            .collect();
        if !unplanned.is_empty() {
            let jobs: Vec<String> = unplanned.into_iter().collect();
            let parts = [("jobs", jobs.join(", ").into())];
            notes.push(self.language.text("sequence-unplanned", &parts));
        }
        notes
    }
}
