//! Rules of the walk over the steps: an order that leaves a person unprotected.

use serde::Serialize;

use crate::finding::{Findings, Place};
use crate::packet::model::{Stage, Step};
use crate::procedure::protect::{BlockFault, Why, paragraph};

impl Findings {
    /// A step that leaves a person unprotected.
    pub fn unprotected(&mut self, at: &Place, step: &Step, why: &Why) {
        let zone = zone_of(step);
        let name = &step.title;
        let (rule, message, way_out) = match why {
            Why::Block(fault) => return self.block_at_fault(at, step, fault),
            // A rule of its own: nobody may answer for power that comes while a person is inside.
            Why::Before { missing: Stage::ClearPeople, paragraph } => (
                "people-not-clear",
                format!("`{name}` comes without a step `clear-people` that still counts"),
                format!("put that step before it (29 CFR 1910.147{paragraph})"),
            ),
            Why::Before { missing, paragraph } => (
                "stage-missing",
                format!("`{name}` comes without a step `{}` that still counts", as_written(missing)),
                format!("put that step before it (29 CFR 1910.147{paragraph})"),
            ),
            Why::SourceBehind { source, missing, paragraph } => (
                "source-not-held",
                format!(
                    "`{name}` comes before the source `{source}` had its `{}`",
                    as_written(missing)
                ),
                format!("put that step before it, for every source (29 CFR 1910.147{paragraph})"),
            ),
            Why::NotIsolated { source, missing } => (
                "not-isolated",
                format!(
                    "`{name}` reaches into {zone}, but the source `{source}` has not had its `{}`",
                    as_written(missing)
                ),
                format!(
                    "isolate, lock, relieve and verify every source of the zone first \
                     (29 CFR 1910.147{})",
                    paragraph(*missing)
                ),
            ),
            Why::ReachesIn => (
                "reaches-in",
                format!("`{name}` reaches into {zone} without isolation"),
                "write `needs: isolated`, or take the zone away if nobody reaches in \
                 (29 CFR 1910.147(d)(6), (e)(2)(i))"
                    .to_owned(),
            ),
            Why::MinorUnfit => (
                "minor-servicing-unfit",
                format!("`{name}` claims minor servicing, but is no small job during production"),
                "give it a `zone`, `needs: energised` and no `stage`, or take `minor_servicing` away \
                 and lock out (29 CFR 1910.147(a)(2)(ii), note)"
                    .to_owned(),
            ),
            Why::NoZone => (
                "zone-missing",
                format!("`{name}` needs isolation but does not say where somebody reaches in"),
                "add `zone: <zone or rail>` (29 CFR 1910.147(d)(3))".to_owned(),
            ),
            Why::LocksOn { source } => (
                "locks-on",
                format!("`{name}` needs power while the source `{source}` is held"),
                "do it before the lockout, after the release, or in a test block \
                 (29 CFR 1910.147(e), (f)(1))"
                    .to_owned(),
            ),
            Why::LocksLeft { source } => (
                "locks-left",
                format!("the packet ends at `{name}` with the source `{source}` still held"),
                "end the changeover with the release from lockout (29 CFR 1910.147(e))".to_owned(),
            ),
            Why::NoSources => (
                "stage-without-sources",
                format!("`{name}` acts on no energy source"),
                "add `repeat: energy`, so that every source is in it, or `repeat: inching` in a test \
                 block (29 CFR 1910.147(d)(3)-(6), (e)(3))"
                    .to_owned(),
            ),
        };
        self.error(rule, at, message, way_out);
    }

    /// What stands on a rail is moved or read, and the step does not say that somebody reaches in.
    pub fn rail_not_isolated(&mut self, at: &Place, step: &str, rail: &str) {
        let message = format!(
            "`{step}` handles what stands on `{rail}`, but asks for no lockout of its zone"
        );
        let way_out = format!(
            "write `needs: isolated` and `zone: {rail}`, without `minor_servicing`: setting up is \
             servicing (29 CFR 1910.147(b), (d)(6))"
        );
        self.error("rail-not-isolated", at, message, way_out);
    }

    /// A step of the lockout would be left out when a setting stays.
    pub fn lockout_step_optional(&mut self, at: &Place, step: &str) {
        let message =
            format!("`{step}` is part of the lockout and falls away when nothing changes");
        let way_out =
            "take `changes` out: locks, proofs and what people are told do not depend on a \
                       setting (29 CFR 1910.147(d), (e), (f))"
                .to_owned();
        self.error("lockout-step-optional", at, message, way_out);
    }

    /// Minor servicing without one of its reasons.
    pub fn minor_servicing_incomplete(&mut self, at: &Place, missing: &[&str]) {
        let missing = missing.join("`, `");
        let message = format!("minor servicing without lockout does not say `{missing}`");
        let way_out = "say each in words, all of them have to hold, or lock out \
                       (29 CFR 1910.147(a)(2)(ii), note; 1910.212)"
            .to_owned();
        self.error("minor-servicing-incomplete", at, message, way_out);
    }

    /// A test-or-position block that leaves a person unprotected.
    fn block_at_fault(&mut self, at: &Place, step: &Step, fault: &BlockFault) {
        let name = &step.title;
        let (rule, message, way_out) = match fault {
            BlockFault::NoInching => (
                "block-without-sources",
                format!("`{name}` begins a test block, but the machine names no source for one"),
                "add `inching: { sources: [..], .. }` to the machine, or leave the locks on \
                 (29 CFR 1910.147(f)(1))"
                    .to_owned(),
            ),
            BlockFault::Begins { source, missing } => (
                "block-begins-unproved",
                format!(
                    "`{name}` begins a test block, but the source `{source}` has not had its `{}`",
                    as_written(missing)
                ),
                "put the block after the proof of zero of its sources (29 CFR 1910.147(f)(1))"
                    .to_owned(),
            ),
            BlockFault::Outside => (
                "test-outside-block",
                format!("`{name}` needs power for a test, but stands in no test block"),
                "write `block: test` on this step and on those that take the locks off before it \
                 and put them on after it (29 CFR 1910.147(f)(1)(i)-(v))"
                    .to_owned(),
            ),
            BlockFault::Foreign { source } => (
                "block-takes-other-lock",
                format!(
                    "`{name}` takes the lock of `{source}` off, which the machine does not name \
                     for a test block"
                ),
                "write `repeat: inching`; every other lock stays on (29 CFR 1910.147(f)(1)(iii))"
                    .to_owned(),
            ),
            BlockFault::ReachesIn => (
                "reaches-in-block",
                format!(
                    "`{name}` reaches into {} in a test block whose locks came off",
                    zone_of(step)
                ),
                "put that work after the block, when its sources are verified again \
                 (29 CFR 1910.147(f)(1)(ii) and (v))"
                    .to_owned(),
            ),
            BlockFault::Power => (
                "power-in-block",
                format!("`{name}` stands in a test block and needs plain power"),
                "write `needs: test`, or put it after the release (29 CFR 1910.147(f)(1)(iv))"
                    .to_owned(),
            ),
            BlockFault::NoUnlock => (
                "block-without-unlock",
                format!("a test block ends at `{name}` in which no lock came off"),
                "add a step `stage: unlock` with `repeat: inching` to the block, or take `block` \
                 away (29 CFR 1910.147(f)(1)(iii))"
                    .to_owned(),
            ),
            BlockFault::NoTest => (
                "block-without-test",
                format!("a test block ends at `{name}` in which nothing was tested"),
                "add a step `needs: test` and no `stage` to the block, or leave the locks on \
                 (29 CFR 1910.147(f)(1)(iv))"
                    .to_owned(),
            ),
            BlockFault::Ends { source, missing } => (
                "block-left-open",
                format!(
                    "a test block ends at `{name}`, but the source `{source}` has not had its \
                     `{}` again",
                    as_written(missing)
                ),
                "end the block with shutdown, isolate, lock, relieve, try-out and verify of its \
                 sources (29 CFR 1910.147(f)(1)(v))"
                    .to_owned(),
            ),
        };
        self.error(rule, at, message, way_out);
    }
}

/// The zone a step reaches into, for a message.
fn zone_of(step: &Step) -> String {
    step.zone.as_ref().map_or("a guarded zone".to_owned(), |zone| format!("the zone `{zone}`"))
}

/// A fixed word, a stage or a mark, as people write it.
pub(super) fn as_written(word: impl Serialize) -> String {
    let value = serde_json::to_value(word).ok();
    value.and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}
