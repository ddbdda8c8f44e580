//! Walks the steps of a packet and refuses an order that leaves a person unprotected.
//!
//! A state machine over the machine's energy sources. Must never repair an order, and never let a
//! step pass because it does not understand it: what is not proved protected is reported.
//!
//! Order: 29 CFR 1910.147(d)(1)-(6) for taking energy away, (e)(1)-(3) for giving it back, (c)(9)
//! for telling people, (f)(1) for a block in which locks come off for a test or a positioning and go on
//! again: see `block`.
//!
//! What a step does to a source out of its order is reported and does not hold the source; any other
//! fault is reported where it is, and what follows is judged by itself. Tests compare each step with a
//! second definition that keeps no state and looks back (`naive`).

mod block;

use std::collections::BTreeMap;

pub use block::BlockFault;
use block::Open;

use crate::packet::model::{EnergySource, EnergyState, Stage, Step, Zone};

/// How far one energy source is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Hold {
    Live,
    Isolated,
    Locked,
    Relieved,
    Verified,
}

/// Why a step may not stand where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// Something must be done before this stage, and was not.
    Before {
        /// What must come first.
        missing: Stage,
        /// The paragraph that asks for it.
        paragraph: &'static str,
    },
    /// A source is not held as far as this stage needs.
    SourceBehind {
        /// Identifier of the source.
        source: String,
        /// The stage that is missing for it.
        missing: Stage,
        /// The paragraph that asks for it.
        paragraph: &'static str,
    },
    /// Somebody reaches into a zone that is not isolated.
    NotIsolated {
        /// Identifier of the source that reaches into it.
        source: String,
        /// The stage that is missing for it.
        missing: Stage,
    },
    /// A step reaches into a zone but does not ask for isolation.
    ReachesIn,
    /// A step claims minor servicing and is none.
    MinorUnfit,
    /// A step asks for isolation but does not say where it reaches in.
    NoZone,
    /// A step needs power while locks are on.
    LocksOn {
        /// Identifier of a source that is held.
        source: String,
    },
    /// The packet ends with locks on.
    LocksLeft {
        /// Identifier of a source that is held.
        source: String,
    },
    /// A stage of the lockout acts on no source.
    NoSources,
    /// What is wrong with a test-or-position block.
    Block(BlockFault),
}

/// A step that leaves a person unprotected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unprotected {
    /// Index of the step; the last one for what is missing at the end.
    pub step: usize,
    /// Why.
    pub why: Why,
}

/// The machine the steps are done on.
#[derive(Debug, Clone, Copy)]
pub struct Machine<'a> {
    /// Where its energy comes from.
    pub sources: &'a [EnergySource],
    /// Its guarded places.
    pub zones: &'a [Zone],
    /// Identifiers of the sources that may come back for a test or a positioning.
    pub inching: &'a [String],
}

/// Everything that leaves a person unprotected, in the order of the steps; empty when nothing does.
pub fn walk(steps: &[Step], machine: Machine) -> Vec<Unprotected> {
    let mut walk = Walk::new(machine);
    for (index, step) in steps.iter().enumerate().filter(|(_, step)| step.stays.is_none()) {
        walk.step(index, step);
    }
    if let Some(last) = steps.len().checked_sub(1) {
        walk.end(last);
    }
    walk.found
}

#[derive(Clone)]
struct Walk<'a> {
    holds: BTreeMap<&'a str, Hold>,
    machine: Machine<'a>,
    /// Stages that were done and still count; see [`spoils`].
    done: Vec<Stage>,
    /// The test block that is open.
    open: Option<Open>,
    found: Vec<Unprotected>,
}

impl<'a> Walk<'a> {
    fn new(machine: Machine<'a>) -> Walk<'a> {
        let holds = machine.sources.iter().map(|source| (source.id.as_str(), Hold::Live)).collect();
        Walk { holds, machine, done: Vec::new(), open: None, found: Vec::new() }
    }

    /// Judges a step by what was done before it, and only then counts it as done.
    fn step(&mut self, index: usize, step: &'a Step) {
        self.block(index, step);
        self.inside(index, step);
        self.power(index, step);
        if acts_on_nothing(step) {
            self.report(index, Why::NoSources);
        } else {
            self.stage(index, step);
        }
        self.count(step);
    }

    /// What is missing when nothing comes after the last step.
    fn end(&mut self, last: usize) {
        self.left(last);
        if let Some(source) = self.held().map(str::to_owned) {
            self.report(last, Why::LocksLeft { source });
        }
        self.must_follow(last, Stage::Unlock, Stage::NotifyAfter, "(c)(9)");
    }

    /// What somebody needs who reaches in.
    fn inside(&mut self, index: usize, step: &Step) {
        let zone = self.machine.zones.iter().find(|zone| Some(&zone.id) == step.zone.as_ref());
        let asks = step.needs == EnergyState::Isolated;
        match zone {
            // Locks are asked for by what has power, see `power` and `block`.
            _ if is_minor_servicing(step) => {}
            _ if step.minor_servicing.is_some() => self.report(index, Why::MinorUnfit),
            _ if step.zone.is_some() && (!asks || is_nobody_inside(step.stage)) => {
                self.report(index, Why::ReachesIn);
            }
            Some(zone) if asks => self.isolated(index, &zone.sources),
            None if asks => {
                self.report(index, Why::NoZone);
                let all: Vec<String> = self.holds.keys().map(|id| (*id).to_owned()).collect();
                self.isolated(index, &all);
            }
            _ => {}
        }
    }

    fn isolated(&mut self, index: usize, sources: &[String]) {
        for source in sources {
            if let Some(missing) = next_stage(self.hold(source)) {
                self.report(index, Why::NotIsolated { source: source.clone(), missing });
            }
        }
    }

    /// Power comes when no source is held, and after people were told.
    fn power(&mut self, index: usize, step: &Step) {
        // A block says itself what power it may have.
        if has_power(step) && self.open.is_none() {
            if let Some(source) = self.held().map(str::to_owned) {
                self.report(index, Why::LocksOn { source });
            }
            self.must_follow(index, Stage::Unlock, Stage::NotifyAfter, "(e)(2)(ii)");
        }
    }

    /// What must have been done before this stage.
    fn stage(&mut self, index: usize, step: &Step) {
        match step.stage {
            Stage::Shutdown => {
                self.must_have(index, Stage::Notify, "(c)(9)");
                self.must_have(index, Stage::Prepare, "(d)(1)");
            }
            Stage::Isolate => self.must_have(index, Stage::Shutdown, "(d)(2)"),
            Stage::ClearPeople | Stage::Unlock if self.open.is_some() => {
                self.stage_of_block(index, step)
            }
            // Nothing can move only when every source is locked and relieved.
            Stage::TryOut => {
                let all: Vec<String> = self.holds.keys().map(|id| (*id).to_owned()).collect();
                self.must_be_held(index, &all, Hold::Relieved);
            }
            Stage::Verify => self.must_have(index, Stage::TryOut, "(d)(6) and Appendix A"),
            Stage::ClearPeople => self.must_have(index, Stage::Inspect, "(e)(1)"),
            Stage::Unlock => {
                self.must_have(index, Stage::Inspect, "(e)(1)");
                self.must_have(index, Stage::ClearPeople, "(e)(2)(i)");
            }
            Stage::NotifyAfter => self.all_unlocked(index),
            _ => {}
        }
        if let Some((from, _)) = holding(step.stage) {
            self.must_be_held(index, &step.sources, from);
        }
    }

    /// People are told that the locks are off when all of them are.
    fn all_unlocked(&mut self, index: usize) {
        self.must_have(index, Stage::Unlock, "(e)(3)");
        if let Some(source) = self.held().map(str::to_owned) {
            let (missing, paragraph) = (Stage::Unlock, "(e)(2)(ii)");
            self.report(index, Why::SourceBehind { source, missing, paragraph });
        }
    }

    /// What the step changes.
    fn count(&mut self, step: &Step) {
        for (source, hold) in &mut self.holds {
            *hold = after(*hold, source, step);
        }
        self.done.retain(|earlier| !spoils(step, *earlier));
        // Locks that come off for a test are no release: whoever was told that it is locked out still is.
        let only_for_a_test = step.stage == Stage::Unlock && step.block.is_some();
        if !acts_on_nothing(step) && !only_for_a_test {
            self.done.push(step.stage);
        }
        self.count_in_block(step);
    }

    /// Reports each source that is held less than `least`.
    fn must_be_held(&mut self, index: usize, sources: &[String], least: Hold) {
        for source in sources {
            let hold = self.hold(source);
            if let (true, Some(missing)) = (hold < least, next_stage(hold)) {
                let (source, paragraph) = (source.clone(), paragraph(missing));
                self.report(index, Why::SourceBehind { source, missing, paragraph });
            }
        }
    }

    /// Reports when `missing` was not done.
    fn must_have(&mut self, index: usize, missing: Stage, paragraph: &'static str) {
        if !self.done.contains(&missing) {
            self.report(index, Why::Before { missing, paragraph });
        }
    }

    /// Reports when `first` was done but `missing` was not.
    fn must_follow(&mut self, index: usize, first: Stage, missing: Stage, paragraph: &'static str) {
        if self.done.contains(&first) {
            self.must_have(index, missing, paragraph);
        }
    }

    /// How far a source is held; one that nobody knows is not.
    fn hold(&self, source: &str) -> Hold {
        self.holds.get(source).copied().unwrap_or(Hold::Live)
    }

    /// A source that is not live.
    fn held(&self) -> Option<&'a str> {
        self.holds.iter().find(|(_, hold)| **hold != Hold::Live).map(|(source, _)| *source)
    }

    fn report(&mut self, step: usize, why: Why) {
        self.found.push(Unprotected { step, why });
    }
}

/// How a source is held after a step; a stage out of its order does not count.
fn after(hold: Hold, source: &str, step: &Step) -> Hold {
    let acts = step.sources.iter().any(|acted| acted == source);
    match holding(step.stage) {
        _ if acts && step.stage == Stage::Unlock => Hold::Live,
        Some((from, to)) if acts && hold >= from => hold.max(to),
        // A device that nobody locked comes back with the power, (d)(4).
        _ if hold == Hold::Isolated && is_powered(step) => Hold::Live,
        _ => hold,
    }
}

/// Whether an earlier `stage` says nothing any more once `step` was done.
fn spoils(step: &Step, stage: Stage) -> bool {
    let acts = !step.sources.is_empty();
    let unlocks = acts && step.stage == Stage::Unlock;
    match stage {
        Stage::Notify | Stage::Prepare | Stage::NotifyAfter => unlocks && step.block.is_none(),
        Stage::TryOut => unlocks,
        // The machine may run again.
        Stage::Shutdown => unlocks || is_powered(step),
        // Somebody was inside again, or another lockout began.
        Stage::Inspect | Stage::ClearPeople => {
            step.zone.is_some()
                || step.needs == EnergyState::Isolated
                || (acts && matches!(step.stage, Stage::Isolate | Stage::Lock))
        }
        _ => false,
    }
}

/// True for a small job during production: somebody reaches in under power, nothing is locked.
///
/// Source: 29 CFR 1910.147(a)(2)(ii), note.
fn is_minor_servicing(step: &Step) -> bool {
    let runs = step.stage == Stage::Work && step.needs == EnergyState::Energised;
    runs && step.minor_servicing.is_some() && step.zone.is_some()
}

/// True for a step under power that is no test.
fn has_power(step: &Step) -> bool {
    let restarts = step.stage == Stage::Restart && !is_test(step);
    step.needs == EnergyState::Energised || restarts
}

fn is_test(step: &Step) -> bool {
    step.needs == EnergyState::Test
}

fn is_powered(step: &Step) -> bool {
    has_power(step) || is_test(step)
}

/// True for a stage that acts on sources when the step names none: nothing was done then.
fn acts_on_nothing(step: &Step) -> bool {
    let acts = holding(step.stage).is_some() || step.stage == Stage::Unlock;
    acts && step.sources.is_empty()
}

/// True for stages during which nobody may be inside, isolated or not.
///
/// Source: 29 CFR 1910.147(e)(2)(i) for the release, Appendix A for the try-out.
fn is_nobody_inside(stage: Stage) -> bool {
    matches!(stage, Stage::TryOut | Stage::ClearPeople | Stage::Unlock | Stage::Restart)
}

/// How far a source must be held before a stage of the lockout, and how far it is after it.
fn holding(stage: Stage) -> Option<(Hold, Hold)> {
    match stage {
        Stage::Isolate => Some((Hold::Live, Hold::Isolated)),
        Stage::Lock => Some((Hold::Isolated, Hold::Locked)),
        Stage::Relieve => Some((Hold::Locked, Hold::Relieved)),
        Stage::Verify => Some((Hold::Relieved, Hold::Verified)),
        _ => None,
    }
}

/// What comes next for a source that is held so far.
fn next_stage(hold: Hold) -> Option<Stage> {
    match hold {
        Hold::Live => Some(Stage::Isolate),
        Hold::Isolated => Some(Stage::Lock),
        Hold::Locked => Some(Stage::Relieve),
        Hold::Relieved => Some(Stage::Verify),
        Hold::Verified => None,
    }
}

/// The paragraph that asks for a stage of taking energy away.
pub fn paragraph(stage: Stage) -> &'static str {
    match stage {
        Stage::Isolate => "(d)(3)",
        Stage::Lock => "(d)(4)",
        Stage::Relieve => "(d)(5)",
        _ => "(d)(6)",
    }
}

#[cfg(test)]
mod every;
#[cfg(test)]
mod naive;
#[cfg(test)]
pub(crate) mod tests;
