//! Who is counted on for a plan, and who of them can do a step.
//!
//! Must never take a role for granted where people are named, and never send somebody behind a guard
//! whose personal lock is not on the group box.

use std::collections::BTreeSet;

use super::timeline::Job;
use crate::packet::model::{GroupLockout, Meaning, Packet, SHIFT_CHANGE, Sign, Step};

/// How many people a plan is worked out for, where nobody says who is there.
pub const MOST_PEOPLE: usize = 6;

/// How many named people a plan counts on; the first of a longer list.
const MOST_NAMED: usize = 12;

/// Somebody who is counted on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Worker {
    /// The principal in the list of allowed signers; empty where nobody is named.
    pub id: String,
    /// Name as printed; empty where nobody is named.
    pub name: String,
    /// Roles held that day; none where the plan takes every role for granted.
    pub roles: Option<BTreeSet<String>>,
}

/// Everybody who is counted on, in the order in which people come into smaller plans.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Staff {
    /// The people.
    pub workers: Vec<Worker>,
    /// Whether job or shift says who they are.
    pub is_named: bool,
    /// How many more are named than a plan counts on.
    pub left_out: usize,
}

impl Staff {
    /// The people of jobs: those that are stated, then those who come with a change under the locks.
    /// Where nobody is stated, as many as a plan is worked out for, each able to take every role.
    pub fn of(jobs: &[Job]) -> Staff {
        let stated = jobs.iter().flat_map(|job| &job.packet.job.people);
        let mut workers: Vec<Worker> = Vec::new();
        for one in stated {
            match workers.iter_mut().find(|worker| worker.id == one.id) {
                Some(known) => known.roles.get_or_insert_default().extend(one.roles.clone()),
                None => workers.push(Worker {
                    id: one.id.clone(),
                    name: one.name.clone(),
                    roles: Some(one.roles.clone()),
                }),
            }
        }
        let is_named = !workers.is_empty();
        let groups = jobs.iter().filter_map(|job| job.packet.job.lockout.as_ref());
        for member in groups.flat_map(GroupLockout::members) {
            if workers.iter().any(|worker| worker.id == member.id) {
                continue;
            }
            let roles = is_named.then(|| BTreeSet::from([member.role.clone()]));
            workers.push(Worker { id: member.id.clone(), name: member.name.clone(), roles });
        }
        let left_out = workers.len().saturating_sub(MOST_NAMED);
        workers.truncate(MOST_NAMED);
        if !is_named && workers.len() < MOST_PEOPLE {
            let nobody = Worker { id: String::new(), name: String::new(), roles: None };
            workers.resize(MOST_PEOPLE, nobody);
        }
        Staff { workers, is_named, left_out }
    }

    /// The first people.
    pub fn first(&self, people: usize) -> &[Worker] {
        self.workers.get(..people).unwrap_or(&self.workers)
    }

    /// The sizes of crew that are worked out: one to six, and everybody where more are named.
    pub fn sizes(&self) -> impl Iterator<Item = usize> + use<> {
        let all = self.workers.len();
        (1..=all.min(MOST_PEOPLE)).chain((all > MOST_PEOPLE).then_some(all))
    }
}

/// What a step asks of a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// These roles.
    Roles(Vec<String>),
    /// One person, by name, who signs a row of this person's own.
    Person(String),
    /// Anybody.
    Anybody,
    /// So many people at once.
    AtOnce(usize),
    /// Room in its zone, where the zone has none.
    Room,
    /// What it waits for never ends.
    Itself,
}

/// One person whom a step needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// The workers who can meet it.
    pub who: BTreeSet<usize>,
    /// What it asks for.
    pub asked: Asked,
    /// Whether this person checks or hands over, and does not do it.
    pub checks: bool,
}

/// A step where it stands in its packet.
#[derive(Debug, Clone, Copy)]
pub struct Place<'p> {
    packet: &'p Packet,
    index: usize,
    step: &'p Step,
}

impl<'p> Place<'p> {
    /// The step at a place; none when there is none.
    pub fn of(packet: &'p Packet, index: usize) -> Option<Place<'p>> {
        Some(Place { packet, index, step: packet.steps.get(index)? })
    }

    /// Whether a person is there at that moment: who leaves with a change under the locks is not any
    /// more, and who arrives with it is not yet.
    fn is_there(&self, id: &str) -> bool {
        let Packet { job, steps, .. } = self.packet;
        let Some(group) = &job.lockout else { return true };
        let Some(change) = &group.shift_change else { return true };
        let is_change = |step: &Step| step.procedure == SHIFT_CHANGE;
        let (Some(first), Some(last)) =
            (steps.iter().position(is_change), steps.iter().rposition(is_change))
        else {
            return true;
        };
        // Who took the own lock off does nothing more.
        let signs = |sign: &Sign| sign.by.as_deref() == Some(id);
        let off = steps.iter().rposition(|step| is_change(step) && step.signs.iter().any(signs));
        let leaving = group.crew.iter().any(|member| member.id == id);
        let arriving = change.crew.iter().any(|member| member.id == id);
        match (leaving, arriving) {
            (true, false) => self.index <= off.unwrap_or(last),
            (false, true) => self.index >= first,
            _ => true,
        }
    }

    /// Whether a person may be behind the guard: everybody, where the job names no crew; else who has a
    /// personal lock on.
    fn may_reach_in(&self, id: &str) -> bool {
        !self.step.reaches_in()
            || self
                .packet
                .crew_at(self.index)
                .is_none_or(|crew| crew.iter().any(|member| member.id == id))
    }

    /// Whether a person is among those that the job counts on.
    fn is_of_job(&self, id: &str) -> bool {
        let job = &self.packet.job;
        let locks = job.lockout.as_ref().is_some_and(|group| group.people().contains(id));
        job.people.is_empty() || locks || job.people.iter().any(|one| one.id == id)
    }
}

/// The workers, looked at for one step.
#[derive(Debug, Clone, Copy)]
pub struct Hands<'a> {
    /// Everybody.
    pub workers: &'a [Worker],
    /// The step.
    pub place: Place<'a>,
}

impl Hands<'_> {
    /// Each person whom the step needs: who does it, as many as it takes, and apart from them who checks
    /// it. Whoever checks is counted for the whole step.
    pub fn needs(&self) -> Vec<Need> {
        let signs = &self.place.step.signs;
        let does = |sign: &&Sign| sign.meaning == Meaning::Performed;
        let mut needs = self.group(signs.iter().filter(does), false);
        let people = usize::try_from(self.place.step.people).unwrap_or(MOST_PEOPLE);
        let shares = |need: &&Need| matches!(need.asked, Asked::Roles(_));
        let other = needs.last().filter(shares).cloned();
        let other = other.unwrap_or_else(|| self.need(&[], false));
        if needs.len() < people {
            needs.resize(people, other);
        }
        needs.extend(self.group(signs.iter().filter(|sign| !does(sign)), true));
        needs
    }

    /// The people behind signatures: each person that is named, and one for all roles together where
    /// somebody has them all, else one for each role.
    fn group<'s>(&self, signs: impl Iterator<Item = &'s Sign>, checks: bool) -> Vec<Need> {
        let (named, open): (Vec<&Sign>, Vec<&Sign>) = signs.partition(|sign| sign.by.is_some());
        let named: BTreeSet<&str> = named.iter().filter_map(|sign| sign.by.as_deref()).collect();
        let mut needs: Vec<Need> = named.into_iter().map(|id| self.person(id, checks)).collect();
        let roles: BTreeSet<&str> = open.iter().map(|sign| sign.role.as_str()).collect();
        let roles: Vec<&str> = roles.into_iter().collect();
        let together = self.need(&roles, checks);
        let is_met = needs.iter().any(|need| !need.who.is_disjoint(&together.who));
        match roles.as_slice() {
            [] => {}
            _ if is_met => {}
            [_] => needs.push(together),
            _ if !together.who.is_empty() => needs.push(together),
            roles => needs.extend(roles.iter().map(|role| self.need(&[*role], checks))),
        }
        needs
    }

    fn person(&self, id: &str, checks: bool) -> Need {
        let is = |worker: &Worker| worker.id == id;
        let who = self.workers.iter().position(is).into_iter().collect();
        let group = self.place.packet.job.lockout.as_ref();
        let mut members = group.into_iter().flat_map(GroupLockout::members);
        let name = members.find(|member| member.id == id).map_or(id, |member| &member.name);
        Need { who, asked: Asked::Person(name.to_owned()), checks }
    }

    fn need(&self, roles: &[&str], checks: bool) -> Need {
        let may = |worker: &Worker| {
            let holds = |role: &&str| worker.roles.as_ref().is_none_or(|own| own.contains(*role));
            // Who checks may stay outside the guard.
            let inside = checks || self.place.may_reach_in(&worker.id);
            let is_there = self.place.is_there(&worker.id) && self.place.is_of_job(&worker.id);
            roles.iter().all(holds) && inside && is_there
        };
        let who = self.workers.iter().enumerate().filter(|(_, worker)| may(worker));
        let asked = match roles {
            [] => Asked::Anybody,
            roles => Asked::Roles(roles.iter().map(|role| (*role).to_owned()).collect()),
        };
        Need { who: who.map(|(at, _)| at).collect(), asked, checks }
    }
}
