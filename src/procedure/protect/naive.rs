//! The rule a second time, to test the walk against: for each step it looks back over everything that
//! was done before, and keeps no state.
//!
//! Written from the paragraphs of 29 CFR 1910.147 and not from the walk: (c)(9), (d)(1)-(6),
//! (e)(1)-(3), (f)(1)(i)-(v), the note to (a)(2)(ii), with Appendix A where it says more: the order of the first steps, and the
//! try-out. It is slow and must stay plain. Unit tests and the tests of the whole program both include this file,
//! so it takes its types from whoever includes it.

use super::{EnergyState, Machine, Stage, Step};

/// The paragraphs that `step` breaks after `before`; none when everybody is protected.
pub fn broken(before: &[&Step], step: &Step, machine: Machine) -> Vec<&'static str> {
    let mut broken = inside(before, step, machine);
    broken.extend(for_a_test(before, step, machine));
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
            ask(&mut broken, stands(before, Stage::Notify, releases), "(c)(9), Appendix A");
            ask(&mut broken, stands(before, Stage::Prepare, releases), "(d)(1)");
        }
        Stage::Isolate => {
            let starts = |later: &Step| unlocks(later) || is_powered(later);
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
        // What a block asks for instead stands in `for_a_test`.
        Stage::ClearPeople | Stage::Unlock if step.block.is_some() => {}
        Stage::ClearPeople => {
            ask(&mut broken, stands(before, Stage::Inspect, needs_new_look), "(e)(1)");
        }
        Stage::Unlock => {
            ask(&mut broken, stands(before, Stage::Inspect, needs_new_look), "(e)(1)");
            ask(&mut broken, stands(before, Stage::ClearPeople, needs_new_look), "(e)(2)(i)");
        }
        Stage::NotifyAfter => {
            let released = before.iter().any(|earlier| releases(earlier));
            ask(&mut broken, released && !is_any_held(before, machine), "(e)(2)(ii), (e)(3)");
        }
        Stage::Notify | Stage::Prepare | Stage::Work | Stage::Inspect | Stage::Restart => {}
    }
    broken
}

/// The paragraphs that are broken when nothing comes after `all`.
pub fn broken_at_the_end(all: &[&Step], machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    if !open_block(all).is_empty() {
        broken.extend(block_is_whole(all, machine));
    }
    ask(&mut broken, !is_any_held(all, machine), "(e)(3)");
    ask(&mut broken, are_told(all), "(c)(9)");
    broken
}

/// Nobody reaches in before every source of the zone is proved dead, (d)(6); nobody is inside when
/// controls are tried (Appendix A), locks come off (e)(2)(i) or the machine starts.
fn inside(before: &[&Step], step: &Step, machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    let clear = [Stage::TryOut, Stage::ClearPeople, Stage::Unlock, Stage::Restart];
    if step.minor_servicing.is_some() {
        // During production, so with power, no lock on, and no part of a lockout: (a)(2)(ii), note.
        let power = step.needs == EnergyState::Energised && !is_any_held(before, machine);
        let minor = power && step.stage == Stage::Work && step.block.is_none();
        ask(&mut broken, minor && step.zone.is_some(), "(a)(2)(ii), note");
        return broken;
    }
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

/// Locks come off for a test or a positioning, and go on again: (f)(1), in its five parts.
fn for_a_test(before: &[&Step], step: &Step, machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    let block = open_block(before);
    let unlocked = block.iter().any(|earlier| unlocks(earlier));
    let dead = |source: &String| has_had(before, Stage::Verify, source);
    if step.block.is_none() {
        // Power for a test comes in a block only, and the block is over now.
        ask(&mut broken, step.needs != EnergyState::Test, "(f)(1)");
        if !block.is_empty() {
            broken.extend(block_is_whole(before, machine));
        }
        return broken;
    }
    if block.is_empty() {
        let named = !machine.inching.is_empty();
        ask(&mut broken, named && machine.inching.iter().all(dead), "(f)(1), before (i)");
    }
    if step.stage == Stage::ClearPeople || step.stage == Stage::Unlock {
        ask(&mut broken, stands(block, Stage::Inspect, needs_new_look), "(f)(1)(i)");
    }
    if step.stage == Stage::Unlock {
        ask(&mut broken, stands(block, Stage::ClearPeople, needs_new_look), "(f)(1)(ii)");
        let own = step.sources.iter().all(|source| machine.inching.contains(source));
        ask(&mut broken, own, "(f)(1)(iii)");
    }
    if unlocked {
        let inside = step.zone.is_some() || step.needs == EnergyState::Isolated;
        ask(&mut broken, !inside, "(f)(1)(ii)");
    }
    ask(&mut broken, !has_power(step), "(f)(1)(iv): no power but for the test");
    if step.needs == EnergyState::Test {
        let off = machine.inching.iter().all(|source| !is_held(before, source));
        ask(&mut broken, unlocked && off, "(f)(1)(iii) before (iv)");
    }
    broken
}

/// A block that is over had its locks off and its test, and each source of it is proved dead anew.
fn block_is_whole(all: &[&Step], machine: Machine) -> Vec<&'static str> {
    let mut broken = Vec::new();
    let block = open_block(all);
    ask(&mut broken, block.iter().any(|step| unlocks(step)), "(f)(1)(iii)");
    // Switching on and stopping are no test.
    let tests = |step: &&Step| step.needs == EnergyState::Test && step.stage == Stage::Work;
    ask(&mut broken, block.iter().any(tests), "(f)(1)(iv)");
    let dead = |source: &String| has_had(all, Stage::Verify, source);
    ask(&mut broken, machine.inching.iter().all(dead), "(f)(1)(v)");
    broken
}

/// The steps of the block that the last step belongs to; none when it belongs to none.
fn open_block<'a, 'b>(all: &'a [&'b Step]) -> &'a [&'b Step] {
    let outside = all.iter().rposition(|step| step.block.is_none());
    &all[outside.map_or(0, |at| at + 1)..]
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
                || (stage == Stage::Isolate && is_powered(step))
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

/// Whether people were told after the last locks came off for good.
fn are_told(before: &[&Step]) -> bool {
    !before.iter().any(|step| releases(step)) || stands(before, Stage::NotifyAfter, releases)
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

/// Locks come off for good: not only for a test, during which people still know it is locked out.
fn releases(step: &Step) -> bool {
    unlocks(step) && step.block.is_none()
}

fn has_power(step: &Step) -> bool {
    let tests = step.needs == EnergyState::Test;
    step.needs == EnergyState::Energised || (step.stage == Stage::Restart && !tests)
}

fn is_powered(step: &Step) -> bool {
    has_power(step) || step.needs == EnergyState::Test
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
