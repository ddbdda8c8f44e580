//! Walks the steps of a packet and refuses an order that leaves a person unprotected.
//!
//! A state machine over the machine's energy sources. Must never repair an order, and never let a
//! step pass because it does not understand it: what is not proved protected is reported.
//!
//! Order: 29 CFR 1910.147(d)(1)-(6) for taking energy away, (e)(1)-(3) for giving it back, (c)(9)
//! for telling people. Later work adds the test-or-position block of (f)(1).

use std::collections::BTreeMap;

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
    /// A step in a zone does not show a hazard of that zone.
    HazardNotShown {
        /// Identifier of the hazard.
        hazard: String,
    },
    /// A stage of the lockout acts on no source.
    NoSources,
}

/// A step that leaves a person unprotected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unprotected {
    /// Index of the step; the last one for what is missing at the end.
    pub step: usize,
    /// Why.
    pub why: Why,
}

/// Everything that leaves a person unprotected, in the order of the steps; empty when nothing does.
pub fn walk(steps: &[Step], sources: &[EnergySource], zones: &[Zone]) -> Vec<Unprotected> {
    let holds = sources.iter().map(|source| (source.id.as_str(), Hold::Live)).collect();
    let mut walk = Walk { holds, zones, done: Vec::new(), found: Vec::new() };
    for (index, step) in steps.iter().enumerate().filter(|(_, step)| step.stays.is_none()) {
        walk.step(index, step);
    }
    if let (Some(source), false) = (walk.held().map(str::to_owned), steps.is_empty()) {
        walk.report(steps.len() - 1, Why::LocksLeft { source });
    }
    walk.found
}

struct Walk<'a> {
    holds: BTreeMap<&'a str, Hold>,
    zones: &'a [Zone],
    /// Stages done since the machine last ran or was last worked on; see [`Walk::forget`].
    done: Vec<Stage>,
    found: Vec<Unprotected>,
}

impl<'a> Walk<'a> {
    fn step(&mut self, index: usize, step: &'a Step) {
        self.needs(index, step);
        self.stage(index, step);
        self.done.push(step.stage);
    }

    /// What the step needs of the energy.
    fn needs(&mut self, index: usize, step: &Step) {
        let zone = self.zones.iter().find(|zone| Some(&zone.id) == step.zone.as_ref());
        if let Some(zone) = zone {
            for hazard in zone.hazards.iter().filter(|hazard| !step.hazards.contains(hazard)) {
                self.report(index, Why::HazardNotShown { hazard: hazard.clone() });
            }
        }
        match (step.needs, zone) {
            (EnergyState::Isolated, Some(zone)) => self.isolated(index, &zone.sources),
            (EnergyState::Isolated, None) => {
                self.report(index, Why::NoZone);
                let all: Vec<String> = self.holds.keys().map(|id| (*id).to_owned()).collect();
                self.isolated(index, &all);
            }
            (_, Some(_)) if is_work(step.stage) => self.report(index, Why::ReachesIn),
            (EnergyState::Energised, _) => {
                if let Some(source) = self.held().map(str::to_owned) {
                    self.report(index, Why::LocksOn { source });
                }
                self.must_follow(index, Stage::Unlock, Stage::NotifyAfter, "(e)(2)(ii)");
            }
            _ => {}
        }
    }

    fn isolated(&mut self, index: usize, sources: &[String]) {
        for source in sources {
            let hold = self.holds.get(source.as_str()).copied().unwrap_or(Hold::Live);
            if let Some(missing) = next_stage(hold) {
                self.report(index, Why::NotIsolated { source: source.clone(), missing });
            }
        }
        // Work in a zone makes an earlier check of tools and people worthless.
        self.forget(&[Stage::Inspect, Stage::ClearPeople]);
    }

    /// What the stage asks for, and what it changes.
    fn stage(&mut self, index: usize, step: &'a Step) {
        match step.stage {
            Stage::Shutdown => {
                self.must_have(index, Stage::Notify, "(c)(9)");
                self.must_have(index, Stage::Prepare, "(d)(1)");
            }
            Stage::Isolate => {
                self.must_have(index, Stage::Shutdown, "(d)(2)");
                self.advance(index, step, Hold::Isolated);
            }
            Stage::Lock => self.advance(index, step, Hold::Locked),
            Stage::Relieve => self.advance(index, step, Hold::Relieved),
            Stage::TryOut => self.try_out(index),
            Stage::Verify => {
                self.must_have(index, Stage::TryOut, "(d)(6) and Appendix A");
                self.advance(index, step, Hold::Verified);
            }
            Stage::ClearPeople => self.must_have(index, Stage::Inspect, "(e)(1)"),
            Stage::Unlock => self.unlock(index, step),
            Stage::NotifyAfter => self.must_have(index, Stage::Unlock, "(e)(3)"),
            Stage::Restart => {
                self.must_follow(index, Stage::Unlock, Stage::NotifyAfter, "(e)(2)(ii)");
                if let Some(source) = self.held().map(str::to_owned) {
                    self.report(index, Why::LocksOn { source });
                }
            }
            Stage::Notify | Stage::Prepare | Stage::Work | Stage::Inspect => {}
        }
    }

    fn advance(&mut self, index: usize, step: &'a Step, to: Hold) {
        if step.sources.is_empty() {
            self.report(index, Why::NoSources);
        }
        for source in &step.sources {
            let hold = self.holds.get(source.as_str()).copied().unwrap_or(Hold::Live);
            match next_stage(hold) {
                Some(missing) if missing != step.stage && hold < to => {
                    let (source, paragraph) = (source.clone(), paragraph(missing));
                    self.report(index, Why::SourceBehind { source, missing, paragraph });
                }
                _ => {
                    self.holds.insert(source, to.max(hold));
                }
            }
        }
    }

    /// Controls are tried when every source is locked and relieved, so that nothing can move.
    fn try_out(&mut self, index: usize) {
        let behind: Vec<(String, Stage)> = self
            .holds
            .iter()
            .filter(|(_, hold)| **hold < Hold::Relieved)
            .filter_map(|(source, hold)| Some(((*source).to_owned(), next_stage(*hold)?)))
            .collect();
        for (source, missing) in behind {
            let paragraph = paragraph(missing);
            self.report(index, Why::SourceBehind { source, missing, paragraph });
        }
    }

    fn unlock(&mut self, index: usize, step: &'a Step) {
        self.must_have(index, Stage::Inspect, "(e)(1)");
        self.must_have(index, Stage::ClearPeople, "(e)(2)(i)");
        if step.sources.is_empty() {
            self.report(index, Why::NoSources);
        }
        for source in &step.sources {
            self.holds.insert(source, Hold::Live);
        }
        // The next lockout begins anew.
        self.forget(&[Stage::Notify, Stage::Prepare, Stage::Shutdown, Stage::TryOut]);
        self.forget(&[Stage::NotifyAfter]);
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

    fn forget(&mut self, stages: &[Stage]) {
        self.done.retain(|stage| !stages.contains(stage));
    }

    /// A source that is not live.
    fn held(&self) -> Option<&'a str> {
        self.holds.iter().find(|(_, hold)| **hold != Hold::Live).map(|(source, _)| *source)
    }

    fn report(&mut self, step: usize, why: Why) {
        self.found.push(Unprotected { step, why });
    }
}

/// True for stages in which somebody may reach in without isolation being asked for.
fn is_work(stage: Stage) -> bool {
    matches!(stage, Stage::Work | Stage::Inspect)
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

fn paragraph(stage: Stage) -> &'static str {
    match stage {
        Stage::Isolate => "(d)(3)",
        Stage::Lock => "(d)(4)",
        Stage::Relieve => "(d)(5)",
        _ => "(d)(6)",
    }
}

#[cfg(test)]
mod tests {
    use super::{Why, walk};
    use crate::packet::model::{EnergySource, EnergyState, Stage, Step, Zone};

    fn source(id: &str) -> EnergySource {
        let text = String::new;
        EnergySource {
            id: id.to_owned(),
            name: text(),
            kind: text(),
            magnitude: text(),
            device: text(),
            place: text(),
            safe: text(),
            lock: text(),
            stored: text(),
            relieve: text(),
            prove: text(),
            returns: false,
            restore: text(),
            hazards: vec![],
        }
    }

    /// `isolate air`, `work in knives`, `energised`; a word names the stage, the need or the zone.
    fn step(words: &str) -> Step {
        let mut words = words.split(' ');
        let stage = words.next().unwrap();
        let rest: Vec<&str> = words.collect();
        let (stage, needs, zone) = match stage {
            "in" => (Stage::Work, EnergyState::Isolated, Some("knives".to_owned())),
            "reach" => (Stage::Work, EnergyState::Any, Some("knives".to_owned())),
            "run" => (Stage::Work, EnergyState::Energised, None),
            other => {
                let stage = serde_json::from_str(&format!("\"{other}\"")).unwrap();
                (stage, EnergyState::Any, None)
            }
        };
        let sources = match rest.as_slice() {
            [] => vec!["air".to_owned(), "mains".to_owned()],
            some => some.iter().map(|s| (*s).to_owned()).collect(),
        };
        Step {
            number: 1,
            id: String::new(),
            procedure: String::new(),
            title: String::new(),
            stage,
            needs,
            zone,
            sources,
            hazards: vec!["edge".to_owned()],
            first: vec![],
            tools: vec![],
            minutes: None,
            stays: None,
            text: String::new(),
            values: Default::default(),
            table: None,
            checks: vec![],
            readings: vec![],
            signs: vec![],
        }
    }

    fn zones() -> Vec<Zone> {
        vec![Zone {
            id: "knives".to_owned(),
            name: String::new(),
            guard: String::new(),
            sources: vec!["air".to_owned(), "mains".to_owned()],
            hazards: vec!["edge".to_owned()],
        }]
    }

    const GOOD: &str = "notify,prepare,shutdown,isolate,lock,relieve,try-out,verify,in,inspect,clear-people,unlock,notify-after,restart,run";

    fn found(steps: &str) -> Vec<(usize, Why)> {
        let steps: Vec<Step> = steps.split(',').map(step).collect();
        walk(&steps, &[source("air"), source("mains")], &zones())
            .into_iter()
            .map(|u| (u.step, u.why))
            .collect()
    }

    #[track_caller]
    fn check(steps: &str, expected: &str) {
        let found = format!("{:?}", found(steps));
        assert!(found.contains(expected), "{found}");
    }

    #[test]
    fn the_full_sequence_protects() {
        assert_eq!(found(GOOD), []);
    }

    #[test]
    fn each_dropped_stage_is_found() {
        let steps: Vec<&str> = GOOD.split(',').collect();
        for dropped in 0..steps.len() {
            if matches!(steps[dropped], "in" | "run" | "restart") {
                continue;
            }
            let mut left = steps.clone();
            left.remove(dropped);
            assert_ne!(found(&left.join(",")), [], "without {}", steps[dropped]);
        }
    }

    #[test]
    fn each_swap_of_neighbours_in_the_lockout_is_found() {
        let steps: Vec<&str> = GOOD.split(',').collect();
        for at in 1..steps.len() - 2 {
            let mut swapped = steps.clone();
            swapped.swap(at, at + 1);
            // notify and prepare may change places; everything else may not.
            assert_ne!(found(&swapped.join(",")), [], "{swapped:?}");
        }
    }

    #[test]
    fn a_forgotten_source_is_named() {
        check(
            &GOOD.replace(",verify,", ",verify mains,"),
            "NotIsolated { source: \"air\", missing: Verify }",
        );
        check(
            &GOOD.replace(",lock,", ",lock air,"),
            "SourceBehind { source: \"mains\", missing: Lock, paragraph: \"(d)(4)\" }",
        );
    }

    #[test]
    fn locks_are_taken_off_before_the_end() {
        check(&GOOD.replace(",unlock,", ",unlock air,"), "LocksLeft { source: \"mains\" }");
        check(&GOOD.replace(",in,", ",in,run,"), "LocksOn");
    }

    #[test]
    fn reaching_in_without_isolation_is_found() {
        check(&GOOD.replace("notify,", "reach,notify,"), "(0, ReachesIn)");
        check(&format!("{GOOD},in"), "NotIsolated");
    }

    #[test]
    fn work_after_the_inspection_asks_for_a_new_one() {
        check(&GOOD.replace(",unlock", ",in,unlock"), "Before { missing: Inspect");
    }
}
