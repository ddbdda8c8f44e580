//! The block in which locks come off for a test or a positioning: 29 CFR 1910.147(f)(1)(i)-(v).
//!
//! Steps of a block stand together. It begins while every source of it is proved dead, takes the locks
//! of these sources off and no others, and ends when each is proved dead again. Must never let a lock
//! come off whose source nobody named for it.
//!
//! People were told before the lockout that the machine is locked out, (c)(9), and the block keeps it
//! so: they are not told twice. What was looked at before the block does not count in it.

use super::{Hold, Walk, Why, has_power, is_test, next_stage, spoils};
use crate::packet::model::{EnergyState, Stage, Step};

/// What was done in a block that is open.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Open {
    /// Stages that still count.
    done: Vec<Stage>,
    /// Whether something was tested or positioned.
    tested: bool,
}

/// What is wrong with a block.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BlockFault {
    /// The machine names no source that may come back.
    NoInching,
    /// The block begins while a source of it is not proved dead.
    Begins {
        /// Identifier of the source.
        source: String,
        /// The stage that is missing for it.
        missing: Stage,
    },
    /// A step needs power for a test and stands in no block.
    Outside,
    /// A lock comes off that is none of the block's.
    Foreign {
        /// Identifier of the source.
        source: String,
    },
    /// Somebody reaches in after the locks of the block came off.
    ReachesIn,
    /// A step of the block needs power that is not for the test.
    Power,
    /// The block ended, and no lock came off in it.
    NoUnlock,
    /// The block ended, and nothing was tested in it.
    NoTest,
    /// The block ended, and a source of it is not proved dead again.
    Ends {
        /// Identifier of the source.
        source: String,
        /// The stage that is missing for it.
        missing: Stage,
    },
}

impl Walk<'_> {
    /// Opens and closes the block, and judges what only a block asks for.
    pub(super) fn block(&mut self, index: usize, step: &Step) {
        match (self.open.is_some(), step.block.is_some()) {
            (false, true) => {
                self.begun(index);
                self.open = Some(Open::default());
            }
            (true, false) => {
                self.left(index);
                self.open = None;
            }
            _ => {}
        }
        if self.open.is_some() {
            self.in_block(index, step);
        }
        if is_test(step) {
            self.test(index);
        }
    }

    fn begun(&mut self, index: usize) {
        if self.machine.inching.is_empty() {
            self.wrong(index, BlockFault::NoInching);
        }
        for (source, missing) in self.not_verified() {
            self.wrong(index, BlockFault::Begins { source, missing });
        }
    }

    /// What is missing when the open block, if there is one, ends before this step.
    pub(super) fn left(&mut self, index: usize) {
        let Some(open) = self.open.clone() else { return };
        if !open.done.contains(&Stage::Unlock) {
            self.wrong(index, BlockFault::NoUnlock);
        }
        if !open.tested {
            self.wrong(index, BlockFault::NoTest);
        }
        for (source, missing) in self.not_verified() {
            self.wrong(index, BlockFault::Ends { source, missing });
        }
    }

    fn in_block(&mut self, index: usize, step: &Step) {
        if has_power(step) {
            self.wrong(index, BlockFault::Power);
        }
        let inside = step.zone.is_some() || step.needs == EnergyState::Isolated;
        if inside && self.was_done_in_block(Stage::Unlock) {
            self.wrong(index, BlockFault::ReachesIn);
        }
    }

    /// Power for a test comes when the locks of all its sources are off, whatever else is locked.
    fn test(&mut self, index: usize) {
        if self.open.is_none() {
            return self.wrong(index, BlockFault::Outside);
        }
        let (missing, paragraph) = (Stage::Unlock, "(f)(1)(iii)");
        if !self.was_done_in_block(missing) {
            return self.report(index, Why::Before { missing, paragraph });
        }
        for source in self.machine.inching {
            if self.hold(source) != Hold::Live {
                self.report(
                    index,
                    Why::SourceBehind { source: source.clone(), missing, paragraph },
                );
            }
        }
    }

    /// The first three parts of the block, in order.
    pub(super) fn stage_of_block(&mut self, index: usize, step: &Step) {
        self.must_have_in_block(index, Stage::Inspect, "(f)(1)(i)");
        if step.stage != Stage::Unlock {
            return;
        }
        self.must_have_in_block(index, Stage::ClearPeople, "(f)(1)(ii)");
        let inching = self.machine.inching;
        for source in step.sources.iter().filter(|source| !inching.contains(source)) {
            self.wrong(index, BlockFault::Foreign { source: source.clone() });
        }
    }

    /// What the step changes in the block that is open.
    pub(super) fn count_in_block(&mut self, step: &Step) {
        if let Some(open) = &mut self.open {
            open.done.retain(|earlier| !spoils(step, *earlier));
            open.tested |= is_test(step) && step.stage == Stage::Work;
            if !super::acts_on_nothing(step) {
                open.done.push(step.stage);
            }
        }
    }

    fn must_have_in_block(&mut self, index: usize, missing: Stage, paragraph: &'static str) {
        if !self.was_done_in_block(missing) {
            self.report(index, Why::Before { missing, paragraph });
        }
    }

    fn was_done_in_block(&self, stage: Stage) -> bool {
        self.open.as_ref().is_some_and(|open| open.done.contains(&stage))
    }

    /// Sources of a block that are not proved dead, each with the stage that is missing.
    fn not_verified(&self) -> Vec<(String, Stage)> {
        let inching = self.machine.inching.iter();
        inching
            .filter_map(|source| Some((source.clone(), next_stage(self.hold(source))?)))
            .collect()
    }

    fn wrong(&mut self, index: usize, fault: BlockFault) {
        self.report(index, Why::Block(fault));
    }
}
