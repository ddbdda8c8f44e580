//! Who does what when: the steps of one job, or of all jobs of a shift, laid out for a crew.
//!
//! Puts together what waits for what ([`super::tasks`]) and what a crew can do ([`super::crew`]). What
//! is done before and after the stop is planned around it, and never into it. Must never plan somebody
//! for what this person may not do: roles, rows with a name and the locks on the group box bind here as
//! they bind when people sign.

use std::collections::{BTreeMap, BTreeSet};

use super::crew::{Crew, Impossible, Schedule, Task, schedule};
use super::network::{Activity, network};
use super::people::{Hands, Need, Place, Worker};
use super::tasks::{Item, When, items};
use crate::packet::model::Packet;

pub use super::people::{Asked, Staff};

/// A job as it is planned.
#[derive(Debug, Clone, Copy)]
pub struct Job<'p> {
    /// Its packet.
    pub packet: &'p Packet,
    /// Minutes of the plan before which no step of it begins.
    pub earliest: u32,
    /// Minutes that the line runs behind it, before it may stop for the next job; none when nobody says.
    pub runs: Option<u32>,
}

/// A plan: every step that is done, with who does it from when to when.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// By job, in the order of its packet.
    pub bars: Vec<Bar>,
    /// When the line of each job stands; none for a job in which it does not.
    pub stops: Vec<Option<Span>>,
    /// Minutes from the beginning to the end of the last step.
    pub minutes: u32,
    /// No crew of these people can do it in fewer.
    pub bound: u32,
    /// Whether it is proven that these people cannot do it faster.
    pub is_best: bool,
}

/// Minutes from the beginning of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The first.
    pub from: u32,
    /// The end.
    pub to: u32,
}

impl Span {
    /// How long it is.
    pub fn minutes(self) -> u32 {
        self.to.saturating_sub(self.from)
    }
}

/// A step in a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Place of its job.
    pub job: usize,
    /// Place of the step in the packet.
    pub step: usize,
    /// Whether the line stands meanwhile.
    pub when: When,
    /// From when to when.
    pub span: Span,
    /// Who does it, by place in the crew.
    pub does: Vec<usize>,
    /// Who checks it or hands over; there for the whole step.
    pub checks: Vec<usize>,
    /// How many minutes later it may begin without making the plan longer, as long as everybody keeps
    /// to the order of the plan.
    pub spare: u32,
}

impl Bar {
    /// Whether each minute that it begins later makes the plan longer.
    pub fn is_critical(&self) -> bool {
        self.spare == 0
    }
}

/// Why these people cannot do it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// Place of the job.
    pub job: usize,
    /// Place of the step in its packet.
    pub step: usize,
    /// What is lacking.
    pub what: Asked,
}

/// A plan for the first people of a staff, or why there is none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// How many people.
    pub people: usize,
    /// Their plan.
    pub plan: Result<Plan, Lack>,
}

/// A plan for each size of crew.
pub fn choices(staff: &Staff, jobs: &[Job]) -> Vec<Choice> {
    let plan = |people| Choice { people, plan: plan(staff.first(people), jobs) };
    staff.sizes().map(plan).collect()
}

/// The choice that is shown: everybody, where people are named; else the fewest with whom the line
/// stands the shortest, and of these the plan that ends first.
pub fn chosen<'c>(staff: &Staff, choices: &'c [Choice]) -> Option<(usize, &'c Plan)> {
    let mut possible = choices.iter().filter_map(|one| Some((one.people, one.plan.as_ref().ok()?)));
    if staff.is_named {
        return possible.next_back().filter(|(people, _)| *people == staff.workers.len());
    }
    possible.min_by_key(|(people, plan)| (plan.stopped(), plan.minutes, *people))
}

impl Plan {
    /// Minutes of stop of all jobs together.
    pub fn stopped(&self) -> u32 {
        self.stops.iter().flatten().fold(0, |sum, stop| sum.saturating_add(stop.minutes()))
    }

    /// Minutes by which it is longer than the bound.
    pub fn above_bound(&self) -> u32 {
        self.minutes.saturating_sub(self.bound)
    }

    /// The same in whole percent of the bound, rounded up: nothing looks nearer than it is.
    pub fn percent_above(&self) -> u64 {
        (u64::from(self.above_bound()) * 100).div_ceil(u64::from(self.bound.max(1)))
    }

    /// The bar of a step.
    pub fn bar(&self, job: usize, step: usize) -> Option<&Bar> {
        self.bars.iter().find(|bar| (bar.job, bar.step) == (job, step))
    }
}

/// Minutes that no crew of any size can go below: the longest chain of steps that wait for each other.
pub fn longest(jobs: &[Job]) -> u32 {
    let board = Board::of(jobs);
    let activity = |cell: &Cell| Activity { minutes: cell.minutes, after: cell.after.clone() };
    let activities: Vec<Activity> = board.cells.iter().map(activity).collect();
    network(&activities).map_or(0, |network| network.minutes)
}

/// The plan of jobs for people; jobs on one machine come one after the other, as they stand here.
///
/// # Errors
/// The first step that these people cannot do.
pub fn plan(workers: &[Worker], jobs: &[Job]) -> Result<Plan, Lack> {
    let board = Board::of(jobs);
    let mut kinds = Kinds::default();
    let mut needs = Vec::new();
    let mut tasks = Vec::new();
    for cell in &board.cells {
        let own = board.needs(workers, jobs, cell)?;
        tasks.push(Task {
            minutes: cell.minutes,
            after: cell.after.clone(),
            needs: own.iter().map(|need| kinds.of(&need.who)).collect(),
            place: cell.zone,
            earliest: cell.earliest,
        });
        needs.push(own);
    }
    let people = (0..workers.len()).map(|worker| kinds.held_by(worker)).collect();
    match schedule(&tasks, &board.room, &Crew { people }) {
        Ok(found) => Ok(board.plan(&found, &needs)),
        Err(impossible) => Err(board.lack(&tasks, &needs, &impossible)),
    }
}

/// Steps, and the moments between them: when a line stops, runs again, and when a job is over.
struct Board {
    cells: Vec<Cell>,
    /// How many steps may be under way in each zone at once.
    room: Vec<u32>,
    jobs: usize,
}

/// The last job on a machine.
#[derive(Clone, Copy)]
struct Last {
    /// The moment when it is over.
    over: usize,
    /// The moment when its line runs again.
    runs_from: usize,
    /// For how long.
    runs: u32,
}

struct Cell {
    job: usize,
    /// The step, and its part of the job; none for a moment or while the line runs.
    step: Option<(usize, When)>,
    minutes: u32,
    after: Vec<usize>,
    zone: Option<usize>,
    earliest: u32,
}

impl Board {
    fn of(jobs: &[Job]) -> Board {
        let mut board = Board { cells: Vec::new(), room: Vec::new(), jobs: jobs.len() };
        let mut zones = BTreeMap::new();
        let mut last_on: BTreeMap<&str, Last> = BTreeMap::new();
        for (index, job) in jobs.iter().enumerate() {
            let machine = job.packet.machine.id.as_str();
            let before = last_on.get(machine).copied();
            let last = board.lay(&mut zones, index, job, before);
            last_on.insert(machine, last);
        }
        board
    }

    /// Lays out a job behind the last one on its machine: before the stop, the stop, after it.
    fn lay<'p>(
        &mut self,
        zones: &mut BTreeMap<(&'p str, &'p str), usize>,
        index: usize,
        job: &Job<'p>,
        before: Option<Last>,
    ) -> Last {
        let items = items(job.packet);
        let mut place: BTreeMap<usize, usize> = BTreeMap::new();
        let mut gate = before.map(|last| last.over);
        let mut runs_from = 0;
        for part in [When::Before, When::During, When::After] {
            if let (When::During, Some(last)) = (part, before) {
                gate = Some(self.run(index, last, gate, job.earliest));
            }
            let first = self.cells.len();
            let own = items.iter().enumerate().filter(|(_, item)| item.when == part);
            for (at, item) in own {
                place.insert(at, self.cells.len());
                let after = item.after.iter().filter_map(|at| place.get(at).copied());
                let after = gate.into_iter().chain(after).collect();
                let zone = self.zone(zones, job.packet, item);
                self.cells.push(Cell {
                    job: index,
                    step: Some((item.step, part)),
                    minutes: item.minutes,
                    after,
                    zone,
                    earliest: job.earliest,
                });
            }
            let all = gate.into_iter().chain(first..self.cells.len()).collect();
            let moment = self.wait(index, all, 0, job.earliest);
            if part == When::During {
                runs_from = moment;
            }
            gate = Some(moment);
        }
        let over = gate.unwrap_or_default();
        Last { over, runs_from, runs: job.runs.unwrap_or_default() }
    }

    /// The moment when the line may stop again: the order before has run, and what is done before the
    /// stop is done.
    fn run(&mut self, job: usize, last: Last, gate: Option<usize>, earliest: u32) -> usize {
        let run = self.wait(job, vec![last.runs_from], last.runs, 0);
        self.wait(job, gate.into_iter().chain([run]).collect(), 0, earliest)
    }

    /// So many minutes behind these, which take nobody.
    fn wait(&mut self, job: usize, after: Vec<usize>, minutes: u32, earliest: u32) -> usize {
        self.cells.push(Cell { job, step: None, minutes, after, zone: None, earliest });
        self.cells.len() - 1
    }

    /// The place of an item's zone, with how much room it has.
    fn zone<'p>(
        &mut self,
        zones: &mut BTreeMap<(&'p str, &'p str), usize>,
        packet: &'p Packet,
        item: &Item,
    ) -> Option<usize> {
        let id = item.zone.as_deref()?;
        let zone = packet.zones.iter().find(|zone| zone.id == id)?;
        let key = (packet.machine.id.as_str(), zone.id.as_str());
        let room = &mut self.room;
        Some(*zones.entry(key).or_insert_with(|| {
            room.push(zone.at_once);
            room.len() - 1
        }))
    }

    /// Who is needed for a cell, each need with the workers who can meet it.
    fn needs(&self, workers: &[Worker], jobs: &[Job], cell: &Cell) -> Result<Vec<Need>, Lack> {
        let (Some((step, _)), Some(job)) = (cell.step, jobs.get(cell.job)) else {
            return Ok(Vec::new());
        };
        let Some(place) = Place::of(job.packet, step) else { return Ok(Vec::new()) };
        let needs = Hands { workers, place }.needs();
        match needs.iter().find(|need| need.who.is_empty()) {
            Some(need) => Err(Lack { job: cell.job, step, what: need.asked.clone() }),
            None => Ok(needs),
        }
    }

    fn lack(&self, tasks: &[Task], needs: &[Vec<Need>], impossible: &Impossible) -> Lack {
        let (task, what) = match impossible {
            Impossible::NoRole { task, role } => {
                let roles = tasks.get(*task).map_or(&[][..], |task| &task.needs);
                let at = roles.iter().position(|own| own == role);
                let need = needs.get(*task).zip(at).and_then(|(needs, at)| needs.get(at));
                (*task, need.map_or(Asked::Anybody, |need| need.asked.clone()))
            }
            Impossible::TooFew { task, needs, .. } => (*task, Asked::AtOnce(*needs)),
            Impossible::NoRoom { task, .. } => (*task, Asked::Room),
            Impossible::Circle(circle) => {
                (circle.activities.first().copied().unwrap_or_default(), Asked::Itself)
            }
            Impossible::TooLong => (0, Asked::Itself),
        };
        let cell = self.cells.get(task);
        let step = cell.and_then(|cell| cell.step).map_or(0, |(step, _)| step);
        Lack { job: cell.map_or(0, |cell| cell.job), step, what }
    }

    fn plan(&self, found: &Schedule, needs: &[Vec<Need>]) -> Plan {
        let spans: Vec<Span> = self
            .cells
            .iter()
            .zip(&found.starts)
            .map(|(cell, from)| Span { from: *from, to: from.saturating_add(cell.minutes) })
            .collect();
        let spare = self.spare(&spans, found);
        let mut bars = Vec::new();
        for ((((cell, span), who), needs), spare) in
            self.cells.iter().zip(&spans).zip(&found.who).zip(needs).zip(spare)
        {
            let Some((step, when)) = cell.step else { continue };
            let of = |checks: bool| {
                let own = needs.iter().zip(who).filter(|(need, _)| need.checks == checks);
                own.map(|(_, worker)| *worker).collect()
            };
            let (does, checks) = (of(false), of(true));
            bars.push(Bar { job: cell.job, step, when, span: *span, does, checks, spare });
        }
        bars.sort_by_key(|bar| (bar.job, bar.step));
        let stops = (0..self.jobs).map(|job| stop(&bars, job)).collect();
        let (minutes, bound, is_best) = (found.end, found.bound, found.is_best);
        Plan { bars, stops, minutes, bound, is_best }
    }

    /// By how much each cell may begin later: the critical path, with the order in which everybody
    /// works and each zone is used as further arcs.
    fn spare(&self, spans: &[Span], found: &Schedule) -> Vec<u32> {
        let mut after: Vec<BTreeSet<usize>> =
            self.cells.iter().map(|cell| cell.after.iter().copied().collect()).collect();
        let mut order: Vec<usize> = (0..self.cells.len()).collect();
        order.sort_by_key(|at| (spans.get(*at).map(|span| (span.from, span.to)), *at));
        let mut last: BTreeMap<usize, usize> = BTreeMap::new();
        let mut in_zone: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for at in order {
            let (Some(own), Some(cell)) = (after.get_mut(at), self.cells.get(at)) else { continue };
            for worker in found.who.get(at).into_iter().flatten() {
                own.extend(last.insert(*worker, at));
            }
            let Some(zone) = cell.zone else { continue };
            let before = in_zone.entry(zone).or_default();
            let begins = spans.get(at).map(|span| span.from);
            let ends = |other: &usize| spans.get(*other).map(|span| span.to);
            own.extend(before.iter().copied().filter(|other| ends(other) <= begins));
            before.push(at);
        }
        let activities: Vec<Activity> = self
            .cells
            .iter()
            .zip(after)
            .map(|(cell, after)| Activity {
                minutes: cell.minutes,
                after: after.into_iter().collect(),
            })
            .collect();
        // The arcs go along with time, so that there is no circle; a start that is given as a time of
        // day can leave a gap in the chain, and the plan ends later than the chain alone.
        let Ok(network) = network(&activities) else { return vec![0; self.cells.len()] };
        let gap = found.end.saturating_sub(network.minutes);
        let late = network.times.iter().map(|times| times.late_start.saturating_add(gap));
        late.zip(spans).map(|(late, span)| late.saturating_sub(span.from)).collect()
    }
}

/// From the first step of a stop to the end of its last.
fn stop(bars: &[Bar], job: usize) -> Option<Span> {
    let own = || bars.iter().filter(|bar| bar.job == job && bar.when == When::During);
    let from = own().map(|bar| bar.span.from).min()?;
    let to = own().map(|bar| bar.span.to).max()?;
    Some(Span { from, to })
}

/// Sets of workers who can meet a need: what the engine knows as a role.
#[derive(Default)]
struct Kinds(Vec<BTreeSet<usize>>);

impl Kinds {
    fn of(&mut self, who: &BTreeSet<usize>) -> usize {
        match self.0.iter().position(|known| known == who) {
            Some(at) => at,
            None => {
                self.0.push(who.clone());
                self.0.len() - 1
            }
        }
    }

    fn held_by(&self, worker: usize) -> BTreeSet<usize> {
        let held = self.0.iter().enumerate().filter(|(_, who)| who.contains(&worker));
        held.map(|(kind, _)| kind).collect()
    }
}

#[cfg(test)]
mod tests;
