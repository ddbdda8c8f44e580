//! The rule a second time, to test the walk against: for each step it looks back over everything that
//! was done before, and keeps no state.
//!
//! Written from the paragraphs of 29 CFR 1910.147 and not from the walk: (c)(9), (d)(1)-(6),
//! (e)(1)-(3), with Appendix A where it says more: the order of the first steps, and the try-out. It
//! is slow and must stay plain. Unit tests and the tests of the whole program both include this file,
//! so it takes its types from whoever includes it.

use super::{EnergySource, EnergyState, Stage, Step, Zone};

/// The machine the steps are done on.
#[derive(Clone, Copy)]
pub struct Machine<'a> {
    pub sources: &'a [EnergySource],
    pub zones: &'a [Zone],
}

/// The paragraphs that `step` breaks after `before`; none when everybody is protected.
pub fn broken(before: &[&Step], step: &Step, machine: Machine) -> Vec<&'static str> {
    let mut broken = inside(before, step, machine);
    if has_power(step) {
        // Power is back only when no lock is on, and after people were told.
        ask(&mut broken, !is_any_held(before, machine), "(e)(3)");
        ask(&mut broken, are_told(before), "(e)(2)(ii)");
    }
    if acts_on_sources(step.stage) && step.sources.is_empty() {
        broken.push("(d)(3)-(5), (e)(3): each device, each lock");
        return broken;
    }
    let of_all = |stage| machine.sources.iter().all(|s| has_had(before, stage, &s.id));
    let of_each = |stage| step.sources.iter().all(|source| has_had(before, stage, source));
    match step.stage {
        Stage::Shutdown => {
            ask(&mut broken, stands(before, Stage::Notify, unlocks), "(c)(9), Appendix A");
            ask(&mut broken, stands(before, Stage::Prepare, unlocks), "(d)(1)");
        }
        Stage::Isolate => {
            let starts = |later: &Step| unlocks(later) || has_power(later);
            ask(&mut broken, stands(before, Stage::Shutdown, starts), "(d)(2)");
        }
        Stage::Lock => {
            let held = step.sources.iter().all(|source| is_held(before, source));
            ask(&mut broken, held, "(d)(3)");
        }
        Stage::Relieve => ask(&mut broken, of_each(Stage::Lock), "(d)(4)"),
        Stage::TryOut => ask(&mut broken, of_all(Stage::Relieve), "(d)(5), Appendix A"),
        Stage::Verify => {
            ask(&mut broken, of_each(Stage::Relieve), "(d)(5)");
            ask(&mut broken, stands(before, Stage::TryOut, unlocks), "(d)(6), Appendix A");
        }
        Stage::ClearPeople => {
            ask(&mut broken, stands(before, Stage::Inspect, needs_new_look), "(e)(1)");
        }
        Stage::Unlock => {
            ask(&mut broken, stands(before, Stage::Inspect, needs_new_look), "(e)(1)");
            ask(&mut broken, stands(before, Stage::ClearPeople, needs_new_look), "(e)(2)(i)");
        }
        Stage::NotifyAfter => {
            let unlocked = before.iter().any(|earlier| unlocks(earlier));
            ask(&mut broken, unlocked && !is_any_held(before, machine), "(e)(2)(ii), (e)(3)");
        }
        Stage::Notify | Stage::Prepare | Stage::Work | Stage::Inspect | Stage::Restart => {}
    }
    broken
}

/// The paragraphs that are broken when nothing comes after `all`.
pub fn broken_at_the_end(all: &[&Step], machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    ask(&mut broken, !is_any_held(all, machine), "(e)(3)");
    ask(&mut broken, are_told(all), "(c)(9)");
    broken
}

/// Nobody reaches in before every source of the zone is proved dead, (d)(6); nobody is inside when
/// controls are tried (Appendix A), locks come off (e)(2)(i) or the machine starts.
fn inside(before: &[&Step], step: &Step, machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    let clear = [Stage::TryOut, Stage::ClearPeople, Stage::Unlock, Stage::Restart];
    if step.zone.is_some() {
        ask(&mut broken, !clear.contains(&step.stage), "(e)(2)(i), Appendix A");
        ask(&mut broken, step.needs == EnergyState::Isolated, "(d)(6)");
    }
    if step.needs == EnergyState::Isolated {
        let zone = machine.zones.iter().find(|zone| step.zone.as_ref() == Some(&zone.id));
        ask(&mut broken, zone.is_some(), "(d)(3)");
        for source in machine.sources {
            let reaches = zone.is_none_or(|zone| zone.sources.contains(&source.id));
            ask(&mut broken, !reaches || has_had(before, Stage::Verify, &source.id), "(d)(6)");
        }
    }
    broken
}

/// Whether a source has had a stage, each stage before it first, and no lock was taken off since.
///
/// An isolating device without a lock is held by nobody: power brings it back, (d)(4).
fn has_had(before: &[&Step], stage: Stage, source: &String) -> bool {
    (0..before.len()).any(|at| {
        let (earlier, later) = before.split_at(at);
        let first = || match stage {
            Stage::Lock => is_held(earlier, source),
            Stage::Relieve => has_had(earlier, Stage::Lock, source),
            Stage::Verify => has_had(earlier, Stage::Relieve, source),
            _ => true,
        };
        let undone = |step: &&Step| {
            (step.stage == Stage::Unlock && step.sources.contains(source))
                || (stage == Stage::Isolate && has_power(step))
        };
        before[at].stage == stage
            && before[at].sources.contains(source)
            && !later[1..].iter().any(undone)
            && first()
    })
}

/// Whether a source is isolated or locked.
fn is_held(before: &[&Step], source: &String) -> bool {
    has_had(before, Stage::Isolate, source) || has_had(before, Stage::Lock, source)
}

fn is_any_held(before: &[&Step], machine: Machine) -> bool {
    machine.sources.iter().any(|source| is_held(before, &source.id))
}

/// Whether people were told after the last locks came off.
fn are_told(before: &[&Step]) -> bool {
    !before.iter().any(|step| unlocks(step)) || stands(before, Stage::NotifyAfter, unlocks)
}

/// Whether a stage was done and nothing after it `spoils` it.
fn stands(before: &[&Step], stage: Stage, spoils: fn(&Step) -> bool) -> bool {
    (0..before.len())
        .any(|at| before[at].stage == stage && !before[at + 1..].iter().any(|later| spoils(later)))
}

fn acts_on_sources(stage: Stage) -> bool {
    use Stage::{Isolate, Lock, Relieve, Unlock, Verify};
    [Isolate, Lock, Relieve, Verify, Unlock].contains(&stage)
}

fn unlocks(step: &Step) -> bool {
    step.stage == Stage::Unlock && !step.sources.is_empty()
}

fn has_power(step: &Step) -> bool {
    step.needs == EnergyState::Energised || step.stage == Stage::Restart
}

/// Somebody reached in, or a new lockout began: what was seen before says nothing any more.
fn needs_new_look(step: &Step) -> bool {
    let controls = matches!(step.stage, Stage::Isolate | Stage::Lock) && !step.sources.is_empty();
    step.zone.is_some() || step.needs == EnergyState::Isolated || controls
}

fn ask(broken: &mut Vec<&'static str>, kept: bool, paragraph: &'static str) {
    if !kept {
        broken.push(paragraph);
    }
}
