//! Rules of the walk over the steps: an order that leaves a person unprotected.

use serde::Serialize;

use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::packet::model::{Stage, Step};
use crate::procedure::protect::{BlockFault, Why, paragraph};

impl Findings {
    /// A step that leaves a person unprotected.
    pub fn unprotected(&mut self, at: &Place, step: &Step, why: &Why) {
        let name = ("step", (&step.title).into());
        let zone = ("zone", zone_of(step).into());
        match why {
            Why::Block(fault) => self.block_at_fault(at, step, fault),
            // A rule of its own: nobody may answer for power that comes while a person is inside.
            Why::Before { missing: Stage::ClearPeople, paragraph } => {
                self.error("people-not-clear", at, &[name, ("paragraph", (*paragraph).into())]);
            }
            Why::Before { missing, paragraph } => {
                let missing = ("missing", as_written(missing).into());
                self.error(
                    "stage-missing",
                    at,
                    &[name, missing, ("paragraph", (*paragraph).into())],
                );
            }
            Why::SourceBehind { source, missing, paragraph } => {
                let parts = [
                    name,
                    ("source", source.into()),
                    ("missing", as_written(missing).into()),
                    ("paragraph", (*paragraph).into()),
                ];
                self.error("source-not-held", at, &parts);
            }
            Why::NotIsolated { source, missing } => {
                let parts = [
                    name,
                    zone,
                    ("source", source.into()),
                    ("missing", as_written(missing).into()),
                    ("paragraph", paragraph(*missing).into()),
                ];
                self.error("not-isolated", at, &parts);
            }
            Why::ReachesIn => self.error("reaches-in", at, &[name, zone]),
            Why::MinorUnfit => self.error("minor-servicing-unfit", at, &[name]),
            Why::NoZone => self.error("zone-missing", at, &[name]),
            Why::LocksOn { source } => {
                self.error("locks-on", at, &[name, ("source", source.into())]);
            }
            Why::LocksLeft { source } => {
                self.error("locks-left", at, &[name, ("source", source.into())]);
            }
            Why::NoSources => self.error("stage-without-sources", at, &[name]),
        }
    }

    /// What stands on a rail is moved or read, and the step does not say that somebody reaches in.
    pub fn rail_not_isolated(&mut self, at: &Place, step: &str, rail: &str) {
        self.error("rail-not-isolated", at, &[("step", step.into()), ("rail", rail.into())]);
    }

    /// A step of the lockout would be left out when a setting stays.
    pub fn lockout_step_optional(&mut self, at: &Place, step: &str) {
        self.error("lockout-step-optional", at, &[("step", step.into())]);
    }

    /// Minor servicing without one of its reasons.
    pub fn minor_servicing_incomplete(&mut self, at: &Place, missing: &[&str]) {
        let missing = missing.join("`, `");
        self.error("minor-servicing-incomplete", at, &[("missing", missing.into())]);
    }

    /// A test-or-position block that leaves a person unprotected.
    fn block_at_fault(&mut self, at: &Place, step: &Step, fault: &BlockFault) {
        let name = ("step", (&step.title).into());
        match fault {
            BlockFault::NoInching => self.error("block-without-sources", at, &[name]),
            BlockFault::Begins { source, missing } => {
                let missing = ("missing", as_written(missing).into());
                self.error(
                    "block-begins-unproved",
                    at,
                    &[name, ("source", source.into()), missing],
                );
            }
            BlockFault::Outside => self.error("test-outside-block", at, &[name]),
            BlockFault::Foreign { source } => {
                self.error("block-takes-other-lock", at, &[name, ("source", source.into())]);
            }
            BlockFault::ReachesIn => {
                self.error("reaches-in-block", at, &[name, ("zone", zone_of(step).into())]);
            }
            BlockFault::Power => self.error("power-in-block", at, &[name]),
            BlockFault::NoUnlock => self.error("block-without-unlock", at, &[name]),
            BlockFault::NoTest => self.error("block-without-test", at, &[name]),
            BlockFault::Ends { source, missing } => {
                let missing = ("missing", as_written(missing).into());
                self.error("block-left-open", at, &[name, ("source", source.into()), missing]);
            }
        }
    }
}

/// The zone a step reaches into, for a message.
fn zone_of(step: &Step) -> Words {
    let named = |zone: &String| Words::new("zone-named", &[("zone", zone.into())]);
    step.zone.as_ref().map_or(Words::of("zone-guarded"), named)
}

/// A fixed word, a stage or a mark, as people write it.
pub(super) fn as_written(word: impl Serialize) -> String {
    let value = serde_json::to_value(word).ok();
    value.and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}
