//! Whether a procedure or a step is needed on this machine, for this job: its conditions judged one by
//! one, each answer in words.
//!
//! Must never drop what belongs to the lockout: a condition on it is refused (29 CFR 1910.147(d), (e),
//! (f)).

use std::collections::BTreeSet;

use super::changeover::{Changeover, Piece};
use super::group;
use super::model::{Change, Considered, Stage};
use super::prepare::Prepared;
use super::rows::Repeat;
use super::steps::{Facts, Source};
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::energy::KINDS;
use crate::plant::shape::{JobWord, StepEntry, WhenEntry};
use crate::procedure::StepText;

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
    /// The plant in its main language, in which conditions name kinds of machines.
    pub(super) main: &'a Prepared<'a>,
    /// Kind of the machine in that language.
    pub(super) kind: &'a str,
}

impl Judge<'_, '_> {
    /// Judges conditions that stand at a place.
    pub(super) fn verdict(&self, findings: &mut Findings, when: &WhenEntry, at: &Place) -> Verdict {
        // What ships names what a plant may not have.
        if !at.file.starts_with("shipped/") {
            self.are_known(findings, when, at);
        }
        for (index, kind) in when.energy.iter().enumerate().filter(|(_, own)| !is_energy(own)) {
            findings.unknown_word(&at.at("energy").item(index), kind, &KINDS.map(str::to_owned));
        }
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

    /// A name that no machine of the plant has would drop a step without anybody noticing.
    fn are_known(&self, findings: &mut Findings, when: &WhenEntry, at: &Place) {
        let machines = || self.main.machines.values();
        let bodies = || machines().map(|machine| &machine.file.body);
        let set = |names: &mut dyn Iterator<Item = String>| -> BTreeSet<String> { names.collect() };
        let owned = str::to_owned;
        let known = [
            ("kinds", &when.kinds, set(&mut bodies().map(|body| body.kind.clone()))),
            ("rails", &when.rails, set(&mut bodies().flat_map(|b| b.rails.names().map(owned)))),
            ("zones", &when.zones, set(&mut bodies().flat_map(|b| b.zones.names().map(owned)))),
            (
                "instruments",
                &when.instruments,
                set(&mut bodies().flat_map(|body| body.instruments.names().map(owned))),
            ),
            ("facts", &when.facts, set(&mut machines().flat_map(|own| own.facts.keys().cloned()))),
        ];
        for (key, names, known) in known {
            let known: Vec<&String> = known.iter().collect();
            for (index, name) in names.iter().enumerate().filter(|(_, one)| !known.contains(one)) {
                findings.unknown_feature(&at.at(key).item(index), name, &known);
            }
        }
    }
}

fn is_energy(kind: &str) -> bool {
    KINDS.contains(&kind)
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
