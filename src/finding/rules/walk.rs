//! Rules of the walk over the steps: an order that leaves a person unprotected.

use crate::finding::{Findings, Place};
use crate::packet::model::Stage;
use crate::procedure::protect::Why;

impl Findings {
    /// A step that leaves a person unprotected.
    pub fn unprotected(&mut self, at: &Place, step: &str, why: &Why) {
        let (rule, message, way_out) = match why {
            Why::Before { missing, paragraph } => (
                "stage-missing",
                format!("`{step}` comes without a step `{}` that still counts", stage(*missing)),
                format!("put that step before it (29 CFR 1910.147{paragraph})"),
            ),
            Why::SourceBehind { source, missing, paragraph } => (
                "source-not-held",
                format!(
                    "`{step}` comes before the source `{source}` had its `{}`",
                    stage(*missing)
                ),
                format!("put that step before it, for every source (29 CFR 1910.147{paragraph})"),
            ),
            Why::NotIsolated { source, missing } => (
                "not-isolated",
                format!(
                    "`{step}` reaches in, but the source `{source}` has not had its `{}`",
                    stage(*missing)
                ),
                "isolate, lock, relieve and verify every source of the zone first \
                 (29 CFR 1910.147(d)(3)-(6))"
                    .to_owned(),
            ),
            Why::ReachesIn => (
                "reaches-in",
                format!("`{step}` reaches into a guarded zone without isolation"),
                "write `needs: isolated`, or take the zone away if nobody reaches in".to_owned(),
            ),
            Why::NoZone => (
                "zone-missing",
                format!("`{step}` needs isolation but does not say where somebody reaches in"),
                "add `zone: <zone or rail>`".to_owned(),
            ),
            Why::LocksOn { source } => (
                "locks-on",
                format!("`{step}` needs power while the source `{source}` is held"),
                "do it before the lockout, or after the release (29 CFR 1910.147(e))".to_owned(),
            ),
            Why::LocksLeft { source } => (
                "locks-left",
                format!("the packet ends at `{step}` with the source `{source}` still held"),
                "end the changeover with the release from lockout (29 CFR 1910.147(e))".to_owned(),
            ),
            Why::NoSources => (
                "stage-without-sources",
                format!("`{step}` acts on no energy source"),
                "add `repeat: energy`, so that every source is in it".to_owned(),
            ),
        };
        self.error(rule, at, message, way_out);
    }
}

/// A stage as people write it.
fn stage(stage: Stage) -> String {
    serde_json::to_value(stage)
        .ok()
        .and_then(|value| value.as_str().map(str::to_owned))
        .unwrap_or_default()
}
