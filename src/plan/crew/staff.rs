//! Who can do which task: people in groups that are alike, and the ways to fill a task's roles.

use std::collections::{BTreeMap, BTreeSet};

use super::{Crew, Impossible, Task};

/// Most ways to fill the roles of one task that are looked at.
const MOST_WAYS: usize = 64;

/// Most choices that are looked at to find them.
const MOST_CHOICES: usize = 4096;

/// The people of a crew, those who are alike together.
pub(super) struct Staff {
    /// Groups of people who have the same of the roles that are needed.
    pub groups: Vec<Group>,
}

/// People who are alike.
pub(super) struct Group {
    /// Their roles among those that some task needs.
    pub roles: BTreeSet<usize>,
    /// Who they are.
    pub people: Vec<usize>,
}

/// The ways to fill a task's roles: a group for each role, no two with as many from each group.
pub(super) struct Filled {
    pub ways: Vec<Vec<usize>>,
    /// Whether there are no others.
    pub are_all: bool,
}

impl Staff {
    pub(super) fn new(tasks: &[Task], crew: &Crew) -> Staff {
        let needed: BTreeSet<usize> = tasks.iter().flat_map(|task| &task.needs).copied().collect();
        let mut groups: BTreeMap<BTreeSet<usize>, Vec<usize>> = BTreeMap::new();
        for (person, roles) in crew.people.iter().enumerate() {
            groups.entry(roles & &needed).or_default().push(person);
        }
        groups.remove(&BTreeSet::new());
        let group = |(roles, people)| Group { roles, people };
        Staff { groups: groups.into_iter().map(group).collect() }
    }

    /// Those of a task.
    ///
    /// The first takes people with few roles: those with many are left for what only they can do.
    pub(super) fn ways(&self, task: usize, needs: &[usize]) -> Result<Filled, Impossible> {
        let has = |role| move |group: &Group| group.roles.contains(&role);
        if let Some(&role) = needs.iter().find(|&&role| !self.groups.iter().any(has(role))) {
            return Err(Impossible::NoRole { task, role });
        }
        let first = self.matched(needs);
        if first.len() < needs.len() {
            return Err(Impossible::TooFew { task, needs: needs.len(), filled: first.len() });
        }
        let mut search = Ways {
            staff: self,
            needs,
            left: self.groups.iter().map(|group| group.people.len()).collect(),
            way: Vec::new(),
            found: BTreeMap::from([(self.counts(&first), first)]),
            choices: 0,
        };
        let are_all = search.fill();
        let mut ways: Vec<Vec<usize>> = search.found.into_values().collect();
        let roles =
            |way: &Vec<usize>| way.iter().map(|&group| self.groups[group].roles.len()).sum();
        ways.sort_by_key(|way| -> usize { roles(way) });
        Ok(Filled { ways, are_all })
    }

    /// How many a way takes from each group.
    fn counts(&self, way: &[usize]) -> Vec<usize> {
        let mut counts = vec![0; self.groups.len()];
        way.iter().for_each(|&group| counts[group] += 1);
        counts
    }

    /// A group for each role, by augmenting paths: shorter than `needs` when there are too few.
    fn matched(&self, needs: &[usize]) -> Vec<usize> {
        let sizes: Vec<usize> = self.groups.iter().map(|group| group.people.len()).collect();
        let mut taken: Vec<Vec<usize>> = vec![Vec::new(); sizes.len()];
        for need in 0..needs.len().min(sizes.iter().sum()) {
            let mut seen = vec![false; sizes.len()];
            self.give(needs, need, &sizes, &mut taken, &mut seen);
        }
        let mut way: Vec<(usize, usize)> = Vec::new();
        for (group, needs) in taken.iter().enumerate() {
            way.extend(needs.iter().map(|&need| (need, group)));
        }
        way.sort_unstable();
        way.into_iter().map(|(_, group)| group).collect()
    }

    /// Finds a place for one role, moving others on where that makes room.
    fn give(
        &self,
        needs: &[usize],
        need: usize,
        sizes: &[usize],
        taken: &mut [Vec<usize>],
        seen: &mut [bool],
    ) -> bool {
        for group in 0..sizes.len() {
            if seen[group] || !self.groups[group].roles.contains(&needs[need]) {
                continue;
            }
            seen[group] = true;
            if taken[group].len() < sizes[group] {
                taken[group].push(need);
                return true;
            }
            for at in 0..taken[group].len() {
                if self.give(needs, taken[group][at], sizes, taken, seen) {
                    taken[group][at] = need;
                    return true;
                }
            }
        }
        false
    }

    /// Who does each task, when it is settled when it begins and which groups do it.
    ///
    /// In the order of starts, anybody of a group who is free will do: at no time are more of a
    /// group at work than there are in it. Who did what a task waits for goes on with it, so that
    /// little is handed over; otherwise the first who is free.
    pub(super) fn people(
        &self,
        tasks: &[Task],
        starts: &[u32],
        groups: &[Vec<usize>],
    ) -> Vec<Vec<usize>> {
        let mut order: Vec<usize> = (0..tasks.len()).collect();
        order.sort_by_key(|&task| (starts[task], tasks[task].minutes));
        let mut free: BTreeMap<usize, u32> = BTreeMap::new();
        let mut who: Vec<Vec<usize>> = vec![Vec::new(); tasks.len()];
        for task in order {
            let (start, waits_for) = (starts[task], &tasks[task].after);
            for &group in &groups[task] {
                let is_free = |person: &&usize| {
                    free.get(person).is_none_or(|end| *end <= start) && !who[task].contains(person)
                };
                let goes_on = |person| waits_for.iter().any(|&before| who[before].contains(person));
                let people = self.groups[group].people.iter().filter(is_free);
                let person = people.min_by_key(|person| (!goes_on(person), **person)).copied();
                who[task].extend(person);
            }
            free.extend(who[task].iter().map(|&person| (person, start + tasks[task].minutes)));
        }
        who
    }
}

/// Looks for all ways to fill the roles of a task.
struct Ways<'a> {
    staff: &'a Staff,
    needs: &'a [usize],
    /// How many of each group are left.
    left: Vec<usize>,
    way: Vec<usize>,
    found: BTreeMap<Vec<usize>, Vec<usize>>,
    choices: usize,
}

impl Ways<'_> {
    /// Fills the next role and those after it; whether all choices were looked at.
    fn fill(&mut self) -> bool {
        let Some(role) = self.needs.get(self.way.len()) else {
            let counts = self.staff.counts(&self.way);
            self.found.entry(counts).or_insert_with(|| self.way.clone());
            return true;
        };
        for group in 0..self.left.len() {
            if self.left[group] == 0 || !self.staff.groups[group].roles.contains(role) {
                continue;
            }
            self.choices += 1;
            if self.choices > MOST_CHOICES || self.found.len() >= MOST_WAYS {
                return false;
            }
            self.left[group] -= 1;
            self.way.push(group);
            let are_all = self.fill();
            self.way.pop();
            self.left[group] += 1;
            if !are_all {
                return false;
            }
        }
        true
    }
}
