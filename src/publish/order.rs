//! The order of jobs on each machine of a shift: which changeovers there could be, and what each takes.
//!
//! Must never change a job. Packets are made for every pair of jobs here, so only a page that shows the
//! order asks for it, and `check` never does.

use std::collections::BTreeMap;

use chrono::{NaiveDateTime, TimeDelta};
use rayon::prelude::*;

use crate::language::Language;
use crate::packet::{Planned, Prepared, Shift, suppose};
use crate::page::order::{OrderView, Told, order_view};
use crate::plan::sequence::night::{Cost, Job, Night, Way, runs};
use crate::plant::machine::minute_of;
use crate::plant::shape::JobFile;

/// The most jobs of one machine in one shift between which changeovers are made: 650 packets.
const MOST_JOBS: usize = 25;

/// For each machine with two or more jobs in a shift, the order in which they stop it the least.
pub fn orders(prepared: &Prepared, shift: &Shift) -> Vec<OrderView> {
    let mut machines: BTreeMap<&str, Vec<&Planned>> = BTreeMap::new();
    for planned in &shift.jobs {
        machines.entry(&planned.job.body.machine).or_default().push(planned);
    }
    let several = machines.into_iter().filter(|(_, jobs)| jobs.len() > 1);
    several.filter_map(|(machine, jobs)| order(prepared, shift, machine, jobs)).collect()
}

fn order(
    prepared: &Prepared,
    shift: &Shift,
    machine: &str,
    mut jobs: Vec<&Planned>,
) -> Option<OrderView> {
    let plant = prepared.plant;
    let language = plant.facts.body.language;
    let machine = plant.machines.get(machine)?.body.name.as_str();
    if jobs.len() > MOST_JOBS {
        let most = [("most", MOST_JOBS.to_string().into())];
        let verdict = language.text("sequence-too-many", &most);
        return Some(OrderView { machine: machine.to_owned(), verdict, ..OrderView::default() });
    }
    // Without a start of each nobody says more than in which order they were issued.
    if jobs.iter().any(|planned| planned.starts.is_none()) {
        jobs.sort_by_key(|planned| (&planned.job.body.issued, &planned.job.body.id));
    }
    let starts = jobs.first().and_then(|first| start_of(shift, first));
    let night = night(prepared, language, &jobs, starts)?;
    let name = |id: &String| Some((id.clone(), plant.recipes.get(id)?.body.name.clone()));
    let recipes = night.jobs.iter().map(|job| &job.to).chain([&night.from]);
    let products = recipes.filter_map(name).collect();
    let told = Told { night: &night, machine, products: &products, starts };
    Some(order_view(language, &told))
}

/// When a job starts by the day of its shift.
fn start_of(shift: &Shift, planned: &Planned) -> Option<NaiveDateTime> {
    let midnight = minute_of(&format!("{}T00:00", shift.date))?;
    midnight.checked_add_signed(TimeDelta::minutes(i64::from(planned.starts?)))
}

fn night(
    prepared: &Prepared,
    language: Language,
    jobs: &[&Planned],
    starts: Option<NaiveDateTime>,
) -> Option<Night> {
    let from = &jobs.first()?.job.body.from;
    let made = |planned: &Planned, from: &str| match suppose(prepared, &planned.job.body.id, from) {
        Ok(supposed) => Way::Open(Cost::of(&supposed.packet, supposed.parts)),
        Err(errors) => {
            let first = errors.iter().next().map(|error| error.message(language));
            Way::Barred(first.unwrap_or_default())
        }
    };
    let row = |from: &str| jobs.iter().map(|planned| made(planned, from)).collect::<Vec<_>>();
    Some(Night {
        jobs: jobs.iter().map(|planned| job(prepared, planned, starts)).collect(),
        first: row(from),
        next: jobs.par_iter().map(|before| row(&before.job.body.to)).collect(),
        from: from.clone(),
        allergens_last: prepared.plant.facts.body.allergens_last,
    })
}

fn job(prepared: &Prepared, planned: &Planned, starts: Option<NaiveDateTime>) -> Job {
    let body = &planned.job.body;
    let due = body.due.as_deref().and_then(minute_of);
    Job {
        id: body.id.clone(),
        from: body.from.clone(),
        to: body.to.clone(),
        runs: runs_of(prepared, body),
        due: due.zip(starts).map(|(due, starts)| (due - starts).num_minutes()),
    }
}

/// Minutes that a job's order runs; none when nobody says how many pieces or how fast.
pub(super) fn runs_of(prepared: &Prepared, body: &JobFile) -> Option<u32> {
    let an_hour = prepared.plant.recipes.get(&body.to)?.body.pieces_per_hour?;
    // Orders group their digits: 90 000.
    let pieces = body.pieces.as_ref()?.split_whitespace().collect::<String>().parse().ok()?;
    runs(pieces, an_hour)
}
