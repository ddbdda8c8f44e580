//! Whether a procedure or a step is needed on this machine, for this job: its conditions judged one by
//! one, each answer in words.
//!
//! Must never drop what belongs to the lockout: a condition on it is refused (29 CFR 1910.147(d), (e),
//! (f)).

use std::collections::{BTreeMap, BTreeSet};

use super::changeover::{Changeover, Piece};
use super::group;
use super::model::{Change, Considered, Stage};
use super::rows::Repeat;
use super::steps::{Facts, Source};
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::energy::KINDS;
use crate::plant::load::Plant;
use crate::plant::machine::Machine;
use crate::plant::shape::{JobWord, StepEntry, WhenEntry};
use crate::procedure::{Procedure, StepText};

/// What becomes of a procedure or a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Verdict {
    /// It is done; what changes and makes it needed, where that was asked.
    Needed(String),
    /// Nothing of what it is there for changes.
    Stays(String),
    /// The machine or the job is another than it is for.
    NotHere(String),
}

/// What conditions are judged by.
pub(super) struct Judge<'a, 'f> {
    pub(super) facts: &'a Facts<'f>,
    /// Kind of the machine in the plant's main language, in which conditions name kinds.
    pub(super) kind: &'a str,
}

impl Judge<'_, '_> {
    /// Judges conditions that stand at a place.
    pub(super) fn verdict(&self, findings: &mut Findings, when: &WhenEntry, at: &Place) -> Verdict {
        match self.lacks(when) {
            Some(why) => Verdict::NotHere(why),
            None => changes(findings, self.facts, &when.changes, &at.at("changes")),
        }
    }

    /// The first thing that the machine or the job has not.
    fn lacks(&self, when: &WhenEntry) -> Option<String> {
        let Facts { language, rail_zones, zones, instruments, energy, values, group, .. } =
            self.facts;
        let said = |key, name: &String| language.text(key, &[("name", name.into())]);
        let first = |names: &[String], has: &dyn Fn(&String) -> bool, key: &'static str| {
            names.iter().find(|name| !has(name)).map(|name| said(key, name))
        };
        if let Some(word) = when.job.filter(|word| !group::names(*group, *word)) {
            return Some(language.word(without(word)).to_owned());
        }
        if !when.kinds.is_empty() && !when.kinds.iter().any(|kind| kind == self.kind) {
            return Some(said("reuse-other-kind", &when.kinds.join(", ")));
        }
        first(&when.rails, &|name| rail_zones.contains_key(name), "reuse-no-rail")
            .or_else(|| {
                let has = |name: &String| zones.iter().any(|zone| zone.id == *name);
                first(&when.zones, &has, "reuse-no-zone")
            })
            .or_else(|| {
                let has = |name: &String| instruments.contains_key(name);
                first(&when.instruments, &has, "reuse-no-instrument")
            })
            .or_else(|| {
                let has = |kind: &String| energy.iter().any(|source| source.kind == *kind);
                let missing = when.energy.iter().find(|kind| !has(kind))?;
                let kind = super::rows::kind_of(*language, missing);
                Some(said("reuse-no-energy", &kind))
            })
            .or_else(|| first(&when.facts, &|name| values.contains_key(name), "reuse-no-fact"))
    }
}

/// Reports what conditions of the plant's own procedures name and no machine has: a misspelt name would
/// drop a step without anybody noticing. What ships names what a plant may not have.
pub(super) fn known_features(
    findings: &mut Findings,
    plant: &Plant,
    machines: &BTreeMap<String, Machine>,
) {
    let own = |procedure: &&Procedure| !procedure.file.starts_with("shipped/");
    for procedure in plant.procedures.values().filter(own) {
        let front = Place::block(&procedure.file, procedure.front_range.clone());
        named(findings, procedure, &procedure.front.when, &front.at("when"), machines);
        for step in &procedure.steps {
            let at = Place::block(&procedure.file, step.block.clone()).at("when");
            named(findings, procedure, &step.facts.when, &at, machines);
        }
    }
}

fn named(
    findings: &mut Findings,
    procedure: &Procedure,
    when: &WhenEntry,
    at: &Place,
    machines: &BTreeMap<String, Machine>,
) {
    let lists = [
        ("kinds", &when.kinds),
        ("rails", &when.rails),
        ("zones", &when.zones),
        ("instruments", &when.instruments),
        ("facts", &when.facts),
    ];
    for (key, names) in lists.into_iter().filter(|(_, names)| !names.is_empty()) {
        let known: BTreeSet<&str> = machines.values().flat_map(|own| features(own, key)).collect();
        let known: Vec<&str> = known.into_iter().collect();
        for (index, name) in names.iter().enumerate() {
            // What a parameter is, only its value tells.
            let first = name.split('.').next().unwrap_or(name);
            let is_parameter = procedure.front.parameters.get(first).is_some();
            if !is_parameter && !known.contains(&name.as_str()) {
                findings.unknown_feature(&at.at(key).item(index), name, &known);
            }
        }
    }
    for (index, kind) in when.energy.iter().enumerate() {
        if !KINDS.contains(&kind.as_str()) {
            findings.unknown_word(&at.at("energy").item(index), kind, &KINDS.map(str::to_owned));
        }
    }
}

/// What a machine has that a condition may name.
fn features<'m>(machine: &'m Machine, key: &str) -> Vec<&'m str> {
    let body = &machine.file.body;
    match key {
        "kinds" => vec![&body.kind],
        "rails" => body.rails.names().collect(),
        "zones" => body.zones.names().collect(),
        "instruments" => body.instruments.names().collect(),
        _ => machine.facts.keys().map(String::as_str).collect(),
    }
}

/// Why a step is not needed whose job names nothing of the kind.
fn without(word: JobWord) -> &'static str {
    match word {
        JobWord::Crew => "lines-no-crew",
        JobWord::ShiftChange => "reuse-no-shift-change",
        JobWord::Contractors => "reuse-no-contractors",
    }
}

/// Whether any of these settings and rails changes.
pub(super) fn changes(
    findings: &mut Findings,
    facts: &Facts,
    names: &[String],
    at: &Place,
) -> Verdict {
    let language = facts.language;
    let (mut stays, mut kept) = (Vec::new(), Vec::new());
    for (index, name) in names.iter().enumerate() {
        let setting = facts.settings.iter().find(|setting| setting.id == *name);
        let rail = facts.rails.iter().find(|rail| rail.id == *name);
        match (setting, rail) {
            (Some(setting), _) if setting.change != Change::Keep => kept.push(&setting.name),
            (Some(setting), _) => stays.push(super::steps::kept(language, setting)),
            (None, Some(rail)) if !rail.moves.is_empty() => kept.push(&rail.name),
            (None, Some(rail)) => {
                let parts = [("rail", rail.name.as_str().into())];
                stays.push(language.text("lines-no-holder-moves", &parts));
            }
            (None, None) => {
                let settings = facts.settings.iter().map(|setting| setting.id.as_str());
                let rails = facts.rails.iter().map(|rail| rail.id.as_str());
                let known: Vec<&str> = settings.chain(rails).collect();
                findings.unknown_change(&at.item(index), name, &known);
                return Verdict::Needed(String::new());
            }
        }
    }
    match kept.is_empty() {
        true if !stays.is_empty() => Verdict::Stays(stays.join("; ")),
        true => Verdict::Needed(String::new()),
        false => Verdict::Needed(changed(language, &kept)),
    }
}

/// `Strip width, Knife rail: changes`.
fn changed(language: Language, names: &[&String]) -> String {
    let names = names.iter().map(|name| name.as_str()).collect::<Vec<_>>().join(", ");
    language.text("reuse-changes", &[("names", names.into())])
}

/// Whether a step takes energy away, gives it back, or has people act under a lockout: it is done
/// whatever changes.
pub(super) fn is_always_done(facts: &StepEntry) -> bool {
    let word = facts.repeat.as_deref().unwrap_or_default();
    let acts = matches!(
        Repeat::parse(word, &[]),
        Some(Repeat::Energy | Repeat::Inching | Repeat::People(_))
    );
    acts || facts.stage != Stage::Work || facts.block.is_some()
}

/// The first key of conditions on machine and changes; none when there is only one on the job.
pub(super) fn condition(when: &WhenEntry) -> Option<&'static str> {
    let lists = [
        ("kinds", &when.kinds),
        ("rails", &when.rails),
        ("zones", &when.zones),
        ("instruments", &when.instruments),
        ("energy", &when.energy),
        ("facts", &when.facts),
        ("changes", &when.changes),
    ];
    lists.iter().find(|(_, list)| !list.is_empty()).map(|(key, _)| *key)
}

/// What becomes of the pieces of a changeover, with what was said of them.
#[derive(Default)]
pub(super) struct Weighed {
    /// Uses that were said to be not needed.
    dropped: BTreeSet<usize>,
    /// In the order in which they would have come.
    pub(super) considered: Vec<Considered>,
}

impl Weighed {
    /// Whether a piece is needed: all conditions of its use and of those around it hold.
    pub(super) fn is_needed(
        &mut self,
        findings: &mut Findings,
        judge: &Judge,
        changeover: &mut Changeover,
        piece: &Piece,
    ) -> bool {
        self.never_lockout(findings, changeover, piece);
        for used in changeover.around(piece.used) {
            let Some(own) = changeover.uses.get_mut(used) else { continue };
            match judge.verdict(findings, &own.when, &own.at) {
                Verdict::Needed(kept) => own.part.kept = kept,
                Verdict::Stays(why) | Verdict::NotHere(why) => {
                    if self.dropped.insert(used) {
                        let (procedure, nth) = (own.part.procedure.clone(), own.part.nth);
                        let step = String::new();
                        self.considered.push(Considered { procedure, nth, step, why });
                    }
                    return false;
                }
            }
        }
        true
    }

    /// Whether machine and job have what a step is for; that its settings stay is said in the step.
    pub(super) fn has_step(
        &mut self,
        findings: &mut Findings,
        judge: &Judge,
        source: &Source,
        text: &StepText,
    ) -> bool {
        let when = &text.facts.when;
        let at = Place::block(&source.procedure.file, text.block.clone()).at("when");
        let optional = condition(when).filter(|_| is_always_done(&text.facts));
        if let Some(key) = optional {
            findings.lockout_step_optional(&at.at(key), &text.title);
        }
        let Verdict::NotHere(why) = judge.verdict(findings, when, &at) else { return true };
        let (procedure, nth) = (source.procedure.front.id.clone(), source.nth);
        self.considered.push(Considered { procedure, nth, step: text.title.clone(), why });
        false
    }

    /// Refuses a condition around a step that is always done.
    fn never_lockout(&self, findings: &mut Findings, changeover: &Changeover, piece: &Piece) {
        let always = |step: &&StepText| is_always_done(&step.facts);
        let Some(step) = piece.steps().iter().find(always) else { return };
        let around = changeover.around(piece.used);
        for own in around.into_iter().filter_map(|used| changeover.uses.get(used)) {
            let key = condition(&own.when).or(own.when.job.map(|_| "job"));
            if let Some(key) = key {
                findings.lockout_step_optional(&own.at.at(key), &step.title);
            }
        }
    }
}
