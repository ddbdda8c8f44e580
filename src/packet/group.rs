//! People under one lockout: who the job names, whether each may lock, when they change.
//!
//! Source: 29 CFR 1910.147(f)(2)-(4). Must never guess a person or a role: who is unknown or may not
//! lock is left out and reported.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use super::changeover::Piece;
use super::model::{
    Contractor, EnergyState, GroupLockout, Member, SHIFT_CHANGE, ShiftChange, Stage, Step,
};
use super::prepare::Prepared;
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::plant::load::Loaded;
use crate::plant::shape::{ContractorEntry, JobFile, JobWord, LockoutEntry, ShiftChangeEntry};
use crate::record::people::Person;

/// The people a step repeats over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Who {
    /// Everybody who works inside at that time.
    Crew,
    /// Who holds primary responsibility at that time.
    Primary,
    /// Who comes new at the change.
    Arriving,
    /// Who goes at the change.
    Leaving,
    /// Who hands primary responsibility over, and who takes it.
    Handover,
}

impl Who {
    /// Reads `crew`, `primary`, `arriving`, `leaving` or `handover`.
    pub(super) fn parse(word: &str) -> Option<Who> {
        Some(match word {
            "crew" => Who::Crew,
            "primary" => Who::Primary,
            "arriving" => Who::Arriving,
            "leaving" => Who::Leaving,
            "handover" => Who::Handover,
            _ => return None,
        })
    }

    /// The people meant, before or after the change.
    pub(super) fn of(self, group: Option<&GroupLockout>, is_changed: bool) -> Vec<&Member> {
        let Some(group) = group else { return Vec::new() };
        let change = group.shift_change.as_ref();
        let next = change.map_or(&[][..], |change| &change.crew);
        let next_primary = change.and_then(|change| change.primary.as_ref());
        match self {
            Who::Crew if is_changed => next.iter().collect(),
            Who::Crew => group.crew.iter().collect(),
            Who::Primary if is_changed => next_primary.into_iter().collect(),
            Who::Primary => group.primary.iter().collect(),
            Who::Arriving => next.iter().filter(|member| !group.crew.contains(member)).collect(),
            Who::Leaving => group.crew.iter().filter(|member| !next.contains(member)).collect(),
            Who::Handover if group.primary.as_ref() == next_primary => Vec::new(),
            Who::Handover => group.primary.iter().chain(next_primary).collect(),
        }
    }

    /// Why a step has nobody to repeat over.
    pub(super) fn nobody(self, language: Language) -> &'static str {
        match self {
            Who::Crew | Who::Primary => language.word("lines-no-crew"),
            Who::Arriving => language.word("lines-nobody-arrives"),
            Who::Leaving => language.word("lines-nobody-leaves"),
            Who::Handover => language.word("lines-same-primary"),
        }
    }
}

/// Whether a job names what a step is there for.
pub(super) fn names(group: Option<&GroupLockout>, word: JobWord) -> bool {
    group.is_some_and(|group| match word {
        JobWord::Crew => !group.crew.is_empty(),
        JobWord::ShiftChange => group.shift_change.is_some(),
        JobWord::Contractors => !group.contractors.is_empty(),
    })
}

/// The people of a job; none when it names no group.
pub(super) fn group(
    findings: &mut Findings,
    prepared: &Prepared,
    job: &Loaded<JobFile>,
) -> Option<GroupLockout> {
    let entry = job.body.lockout.as_ref()?;
    let at = job.place.at("lockout");
    let day = job.body.date.parse().ok();
    let mut reader = Reader { findings, prepared, day };
    let group = GroupLockout {
        crew: reader.members(&at.at("crew"), &entry.crew),
        primary: reader.member_of(&at, "primary", entry.primary.as_deref()),
        coordinator: reader.member_of(&at, "coordinator", entry.coordinator.as_deref()),
        crafts: entry.crafts.clone(),
        shift_change: entry.shift_change.as_ref().map(|change| reader.change(&at, change)),
        contractors: reader.contractors(&at.at("contractors"), &entry.contractors),
    };
    missing(findings, &at, entry);
    Some(group)
}

/// What a group needs and the job does not name.
fn missing(findings: &mut Findings, at: &Place, entry: &LockoutEntry) {
    if !entry.crew.is_empty() && entry.primary.is_none() {
        findings.primary_missing(&at.at("crew"));
    }
    if entry.shift_change.as_ref().is_some_and(|change| change.primary.is_none()) {
        findings.primary_missing(&at.at("shift_change"));
    }
    let several = entry.crafts.len() > 1 || !entry.contractors.is_empty();
    if several && entry.coordinator.is_none() {
        let key = if entry.contractors.is_empty() { "crafts" } else { "contractors" };
        findings.coordinator_missing(&at.at(key));
    }
    // People who relieve each other are a group, even when each works alone.
    if entry.crew.len() == 1 && entry.shift_change.is_none() {
        findings.group_of_one(&at.at("crew"));
    }
    if entry.crew.is_empty() && entry.shift_change.is_some() {
        findings.missing_key(at, "crew");
    }
}

struct Reader<'f, 'p> {
    findings: &'f mut Findings,
    prepared: &'p Prepared<'p>,
    day: Option<NaiveDate>,
}

impl Reader<'_, '_> {
    fn members(&mut self, at: &Place, ids: &[String]) -> Vec<Member> {
        let mut seen = BTreeSet::new();
        let mut members = Vec::new();
        for (index, id) in ids.iter().enumerate() {
            let at = at.item(index);
            if !seen.insert(id) {
                self.findings.person_twice(&at, id);
                continue;
            }
            members.extend(self.member(&at, id));
        }
        members
    }

    fn member_of(&mut self, at: &Place, key: &str, id: Option<&str>) -> Option<Member> {
        self.member(&at.at(key), id?)
    }

    /// A person who may lock on the day of the job.
    fn member(&mut self, at: &Place, id: &str) -> Option<Member> {
        let person = self.person(at, id)?;
        let roles = &self.prepared.plant.facts.body.authorised;
        let day = self.day?;
        let Some(role) = roles.iter().find(|role| person.holds(role, day)) else {
            if !roles.is_empty() {
                self.findings.person_not_authorised(at, &person.name, roles, &day.to_string());
            }
            return None;
        };
        Some(Member { id: id.to_owned(), name: person.name.clone(), role: role.clone() })
    }

    fn person(&mut self, at: &Place, id: &str) -> Option<Person> {
        let person = self.prepared.people.get(id);
        if person.is_none() {
            let known: Vec<&str> =
                self.prepared.people.iter().map(|person| person.id.as_str()).collect();
            self.findings.unknown_person(at, id, &known);
        }
        person.cloned()
    }

    fn change(&mut self, at: &Place, entry: &ShiftChangeEntry) -> ShiftChange {
        let at = at.at("shift_change");
        ShiftChange {
            before: entry.before.clone(),
            crew: self.members(&at.at("crew"), &entry.crew),
            primary: self.member_of(&at, "primary", entry.primary.as_deref()),
        }
    }

    fn contractors(&mut self, at: &Place, entries: &[ContractorEntry]) -> Vec<Contractor> {
        let mut contractors = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let at = at.item(index);
            if entry.contact.trim().is_empty() {
                self.findings.contractor_not_told(&at, &entry.firm, "contact");
            }
            let Some(id) = &entry.told_by else {
                self.findings.contractor_not_told(&at, &entry.firm, "told_by");
                continue;
            };
            let told_by = self.person(&at.at("told_by"), id);
            contractors.push(Contractor {
                firm: entry.firm.clone(),
                contact: entry.contact.clone(),
                told_by: told_by.map_or(String::new(), |person| person.name),
            });
        }
        contractors
    }
}

/// Why a change of people cannot stand at a place among the procedures; none when it can: every
/// source is proved before it, and the locks come off after it.
pub(super) fn misplaced(pieces: &[Piece], before: &str) -> Option<Words> {
    let Some(place) = pieces.iter().position(|own| own.procedure.front.id == before) else {
        return Some(Words::of("change-not-in-changeover"));
    };
    let (done, rest) = pieces.split_at(place);
    let stages = |pieces: &[Piece]| -> Vec<Stage> {
        let stages = pieces.iter().flat_map(Piece::steps).map(|step| step.facts.stage);
        stages.filter(|stage| matches!(stage, Stage::Verify | Stage::Unlock)).collect()
    };
    let held = stages(done).last() == Some(&Stage::Verify);
    let freed = stages(rest).contains(&Stage::Unlock);
    (!held || !freed).then(|| Words::of("change-not-under-locks"))
}

/// What a handover leaves open: a moment without a lock, or a crew that did not see zero proved.
///
/// Source: 29 CFR 1910.147(f)(4), and (d)(6) before work goes on.
pub(super) fn gap(steps: &[Step], group: &GroupLockout) -> Option<Words> {
    let own: Vec<&Step> = steps.iter().filter(|step| step.procedure == SHIFT_CHANGE).collect();
    let last = |found: &dyn Fn(&Step) -> bool| own.iter().rposition(|step| found(step));
    let rows_of = |who: Who| {
        let people = who.of(Some(group), false);
        let place = last(&|step| rows_are(step, &people));
        (people.is_empty(), place)
    };
    let ((nobody_comes, on), (nobody_goes, off)) = (rows_of(Who::Arriving), rows_of(Who::Leaving));
    let proved = last(&|step| step.stage == Stage::Verify);
    if !nobody_comes && on.is_none() {
        return Some(Words::of("change-without-locks"));
    }
    if !nobody_goes && (off.is_none() || off < on) {
        return Some(Words::of("change-locks-off-first"));
    }
    (proved <= on.max(off)).then(|| Words::of("change-zero-not-proved"))
}

/// Whether the rows of a step are these people.
fn rows_are(step: &Step, who: &[&Member]) -> bool {
    step.signs.iter().any(|sign| sign.by.is_some())
        && step.rows().map(|row| row.id.as_str()).eq(who.iter().map(|member| member.id.as_str()))
}

/// Whether each of a crew puts a personal lock on before the work and takes it off before the
/// machine is unlocked, (f)(3)(ii)(D).
pub(super) fn has_personal_locks(steps: &[Step], group: &GroupLockout) -> bool {
    let is_changed = steps.iter().any(|step| step.procedure == SHIFT_CHANGE);
    let first = |found: &dyn Fn(&Step) -> bool| steps.iter().position(found);
    let last = |found: &dyn Fn(&Step) -> bool| steps.iter().rposition(found);
    let on = first(&|step| rows_are(step, &Who::Crew.of(Some(group), false)));
    let off = last(&|step| rows_are(step, &Who::Crew.of(Some(group), is_changed)));
    let locked = first(&|step| step.stage == Stage::Lock);
    let inside = first(&|step| step.needs == EnergyState::Isolated);
    let clear = last(&|step| step.stage == Stage::ClearPeople);
    let unlocked = last(&|step| step.stage == Stage::Unlock);
    let is_on = on.is_some_and(|on| locked < Some(on) && inside.is_none_or(|inside| on < inside));
    is_on && off.is_some_and(|off| clear < Some(off) && Some(off) < unlocked)
}

/// The most personal locks on the group box at one time: who arrives locks before who leaves unlocks.
pub(super) fn locks_at_once(group: &GroupLockout) -> usize {
    group.crew.len() + Who::Arriving.of(Some(group), false).len()
}

/// Minutes since midnight of `14:00`.
pub(crate) fn clock(text: &str) -> Option<u32> {
    let (hours, minutes) = text.split_once(':')?;
    let two = |digits: &str| -> Option<u32> {
        let plain = digits.len() == 2 && digits.bytes().all(|digit| digit.is_ascii_digit());
        plain.then(|| digits.parse().ok()).flatten()
    };
    let (hours, minutes) = (two(hours)?, two(minutes)?);
    (hours < 24 && minutes < 60).then_some(hours * 60 + minutes)
}

/// Whether a shift ends between the first lock and the last, by the planned minutes.
pub(super) fn crosses(steps: &[Step], starts: u32, ends: u32) -> bool {
    let done = |steps: &[Step]| -> u32 {
        let needed = steps.iter().filter(|step| step.stays.is_none());
        needed.filter_map(|step| step.minutes).fold(starts, u32::saturating_add)
    };
    let first = steps.iter().position(|step| step.stage == Stage::Isolate);
    let last = steps.iter().rposition(|step| step.stage == Stage::Unlock);
    let (Some(first), Some(last)) = (first, last) else { return false };
    let (before, through) = (steps.get(..first), steps.get(..=last));
    let (Some(before), Some(through)) = (before, through) else { return false };
    // A night shift ends on the next day.
    let ends = if ends <= starts { ends + 24 * 60 } else { ends };
    done(before) < ends && ends < done(through)
}

#[cfg(test)]
mod tests {
    use super::{clock, crosses};
    use crate::packet::model::{Stage, Step};
    use crate::record::fixture;

    #[track_caller]
    fn check_clock(text: &str, expected: Option<u32>) {
        assert_eq!(clock(text), expected, "{text}");
    }

    #[test]
    fn a_time_of_day_has_two_digits_twice() {
        check_clock("00:00", Some(0));
        check_clock("14:05", Some(845));
        check_clock("23:59", Some(1439));
        for text in ["24:00", "12:60", "9:00", "1200", "12:00:00", "+1:00", ""] {
            check_clock(text, None);
        }
    }

    /// A lockout that begins 10 minutes after the start and ends 60 minutes after it.
    #[track_caller]
    fn check(starts: &str, ends: &str, expected: bool) {
        let step = |stage: Stage, minutes: u32| Step {
            stage,
            minutes: Some(minutes),
            ..fixture::packet().steps[0].clone()
        };
        let mut stays = step(Stage::Work, 500);
        stays.stays = Some("nothing changes".to_owned());
        let steps = [
            step(Stage::Notify, 10),
            step(Stage::Isolate, 5),
            stays,
            step(Stage::Work, 40),
            step(Stage::Unlock, 5),
            step(Stage::Restart, 30),
        ];
        let minutes = |text| clock(text).unwrap();
        assert_eq!(crosses(&steps, minutes(starts), minutes(ends)), expected, "{starts} {ends}");
    }

    #[test]
    fn a_shift_ends_during_a_lockout_when_locks_are_on_at_that_minute() {
        check("12:30", "12:40", false);
        check("12:30", "12:41", true);
        check("12:30", "13:29", true);
        check("12:30", "13:30", false);
        check("12:30", "14:00", false);
        check("23:30", "00:15", true);
        check("22:00", "06:00", false);
    }
}
