//! Which procedures make up one changeover, in which order and with which values: from the list of the
//! machine, or of its kind, to pieces of procedures with everything they include.
//!
//! Must never judge whether a piece is needed: that is `needed`.

use std::ops::Range;

use super::group;
use super::model::{NamedBy, Part, SHIFT_CHANGE};
use super::prepare::Prepared;
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::plant::load::Loaded;
use crate::plant::machine::Machine;
use crate::plant::named::Named;
use crate::plant::shape::{
    AppliesEntry, JobFile, MachineFile, ParameterEntry, ParameterKind, RecipeFile, UseEntry,
    WhenEntry,
};
use crate::procedure::bound::{Bound, Value, is_quantity, kind_words};
use crate::procedure::{Include, Procedure};

/// How deep procedures may include each other.
pub(crate) const DEEPEST: usize = 5;

/// How many procedures a changeover may use, included ones counted.
const MOST: usize = 300;

/// The procedures of one changeover.
#[derive(Default)]
pub(super) struct Changeover<'p> {
    /// Steps of procedures that follow each other, in order.
    pub(super) pieces: Vec<Piece<'p>>,
    /// Each use of a procedure, by the number that a piece has of it.
    pub(super) uses: Vec<Use>,
    /// Each procedure once, in the order in which they come.
    pub(super) procedures: Vec<&'p Procedure>,
    /// Whether one was left out, which was reported: what it would do is not missing.
    pub(super) lacks_one: bool,
}

/// A use of a procedure.
pub(super) struct Use {
    /// What brought it.
    pub(super) part: Part,
    /// The values of its parameters.
    pub(super) bound: Bound,
    /// Its own conditions, with their place.
    pub(super) when: WhenEntry,
    /// Where they were written.
    pub(super) at: Place,
    /// The use that includes it.
    pub(super) inside: Option<usize>,
}

/// Steps of one procedure that follow each other.
#[derive(Clone)]
pub(super) struct Piece<'p> {
    /// The procedure.
    pub(super) procedure: &'p Procedure,
    /// Which of its steps.
    pub(super) steps: Range<usize>,
    /// The number of its use.
    pub(super) used: usize,
}

impl<'p> Piece<'p> {
    /// Its steps as written.
    pub(super) fn steps(&self) -> &'p [crate::procedure::StepText] {
        self.procedure.steps.get(self.steps.clone()).unwrap_or_default()
    }
}

impl Changeover<'_> {
    /// The number of a use after those of the uses around it, from the outside in.
    pub(super) fn around(&self, used: usize) -> Vec<usize> {
        let outside = |used: &usize| self.uses.get(*used).and_then(|own| own.inside);
        let mut around: Vec<usize> = std::iter::successors(Some(used), outside).collect();
        around.reverse();
        around
    }

    /// The values of the parameters of a piece.
    pub(super) fn bound(&self, piece: &Piece) -> Bound {
        self.uses.get(piece.used).map(|own| own.bound.clone()).unwrap_or_default()
    }
}

/// What procedures are used on.
pub(super) struct Ground<'p> {
    pub(super) prepared: &'p Prepared<'p>,
    pub(super) machine: &'p Machine<'p>,
    /// The recipe wanted; none when it could not be read.
    pub(super) to: Option<&'p RecipeFile>,
    pub(super) language: Language,
}

/// The procedures of a job's changeover that are there and fit the machine.
pub(super) fn changeover<'p>(
    findings: &mut Findings,
    ground: Ground<'p>,
    job: &'p Loaded<JobFile>,
) -> Changeover<'p> {
    let mut expander =
        Expander { findings, ground, made: Changeover::default(), chain: vec![], is_full: false };
    expander.listed();
    expander.shift_change(job);
    expander.made
}

struct Expander<'f, 'p> {
    findings: &'f mut Findings,
    ground: Ground<'p>,
    made: Changeover<'p>,
    /// Identifiers of the procedures that include the one at hand.
    chain: Vec<&'p str>,
    /// Whether no more procedures are taken in.
    is_full: bool,
}

/// A procedure that somebody names.
struct Naming<'a> {
    /// Where.
    at: Place,
    used: &'a UseEntry,
    by: NamedBy,
    line: u32,
    inside: Option<usize>,
}

impl<'p> Expander<'_, 'p> {
    /// The machine's own list, or that of its kind.
    fn listed(&mut self) {
        let file = self.ground.machine.file;
        let (by, at) = match &file.body.order_of_kind {
            Some(kind) => {
                let facts = &self.ground.prepared.plant.facts;
                (NamedBy::Kind, facts.place.at("changeovers").at(kind))
            }
            None => (NamedBy::Machine, file.place.at("changeover")),
        };
        for (index, entry) in file.body.changeover.iter().enumerate() {
            let at = at.item(index);
            self.enter(&Naming { at, used: &entry.used, by, line: entry.line, inside: None });
        }
    }

    fn enter(&mut self, naming: &Naming) {
        let Naming { at, used, by, line, inside } = naming;
        // Of an entry that is only a name, this is the entry.
        let id_at = &at.at("procedure");
        let procedure = self.procedure(id_at, &used.procedure);
        let Some(procedure) = procedure.filter(|own| self.may_stand(id_at, own)) else {
            self.made.lacks_one = true;
            return;
        };
        let outer = inside.and_then(|used| self.made.uses.get(used)).map(|own| own.bound.clone());
        let with = &at.at("with");
        let given = self.given(with, procedure, &used.with, &outer.unwrap_or_default());
        let Some(mut bound) = given else {
            self.made.lacks_one = true;
            return;
        };
        // Without a parameter's value nobody can tell whether the machine fits.
        let is_whole = self.defaults(id_at, procedure, &mut bound);
        if !is_whole || !self.fits(id_at, procedure, &bound) {
            self.made.lacks_one = true;
            return;
        }
        let id = &procedure.front.id;
        let own = self.made.uses.iter().filter(|own| own.part.procedure == *id);
        let is_same = |own: &&Use| own.inside.is_none() && own.bound == bound;
        if inside.is_none() && own.clone().any(|own| is_same(&own)) {
            self.findings.procedure_twice(id_at, id);
            return;
        }
        let nth = u32::try_from(own.count()).unwrap_or(u32::MAX).saturating_add(1);
        let outside = inside.and_then(|used| self.made.uses.get(used));
        let part = Part {
            procedure: id.clone(),
            nth,
            by: *by,
            place: format!("{}:{line}", at.file),
            inside: outside.map_or(String::new(), |own| own.part.procedure.clone()),
            with: bound.shown(),
            kept: String::new(),
            after: procedure.front.after.clone(),
        };
        let mut when = procedure.front.when.clone();
        bound.conditions(&mut when);
        let front = Place::block(&procedure.file, procedure.front_range.clone());
        let at = front.at("when");
        self.made.uses.push(Use { part, bound, when, at, inside: *inside });
        self.pieces(procedure, self.made.uses.len() - 1);
    }

    fn procedure(&mut self, at: &Place, id: &str) -> Option<&'p Procedure> {
        let plant = self.ground.prepared.plant;
        let procedure = plant.procedures.get(id);
        if procedure.is_none() && !plant.broken.contains(&format!("instructions/{id}")) {
            let known: Vec<&String> = plant.procedures.keys().collect();
            self.findings.unknown_procedure(at, id, &known);
        }
        procedure
    }

    /// Whether a procedure may stand inside those that include it: not inside itself, not too deep, not
    /// more of them than anybody could read.
    fn may_stand(&mut self, at: &Place, procedure: &Procedure) -> bool {
        let id = procedure.front.id.as_str();
        if let Some(first) = self.chain.iter().position(|own| *own == id) {
            let chain = self.chain.iter().skip(first).copied().chain([id]);
            let circle: Vec<&str> = chain.collect();
            self.findings.include_circle(at, &circle);
            return false;
        }
        if self.chain.len() >= DEEPEST {
            self.findings.include_too_deep(at, id, DEEPEST);
            return false;
        }
        if self.made.uses.len() >= MOST {
            // Said once: what comes after it is the same fault.
            if !std::mem::replace(&mut self.is_full, true) {
                self.findings.too_many_procedures(at, MOST);
            }
            return false;
        }
        true
    }

    /// The steps of a procedure, parted where it includes another.
    fn pieces(&mut self, procedure: &'p Procedure, used: usize) {
        let procedures = &mut self.made.procedures;
        if procedures.iter().all(|known| known.front.id != procedure.front.id) {
            procedures.push(procedure);
        }
        self.chain.push(&procedure.front.id);
        let mut from = 0;
        for include in &procedure.includes {
            self.piece(procedure, from..include.before, used);
            from = include.before;
            self.include(procedure, include, used);
        }
        self.piece(procedure, from..procedure.steps.len(), used);
        self.chain.pop();
    }

    fn piece(&mut self, procedure: &'p Procedure, steps: Range<usize>, used: usize) {
        if !steps.is_empty() {
            self.made.pieces.push(Piece { procedure, steps, used });
        }
    }

    fn include(&mut self, procedure: &'p Procedure, include: &'p Include, used: usize) {
        let at = Place::block(&procedure.file, include.block.clone());
        let by = NamedBy::Procedure;
        let (line, inside) = (include.line, Some(used));
        self.enter(&Naming { at, used: &include.used, by, line, inside });
    }

    /// The values that the place gives; none when one of them is wrong.
    fn given(
        &mut self,
        at: &Place,
        procedure: &Procedure,
        with: &Named<String>,
        outer: &Bound,
    ) -> Option<Bound> {
        let parameters = &procedure.front.parameters;
        let mut bound = Bound::default();
        let mut is_sound = true;
        for (name, text) in with.iter() {
            let at = at.at(name);
            let Some(entry) = parameters.get(name) else {
                let known: Vec<&str> = parameters.names().collect();
                self.findings.unknown_parameter(&at.key(), &procedure.front.id, name, &known);
                is_sound = false;
                continue;
            };
            // What the procedure around it was told is handed on.
            let handed = outer.get(text).filter(|value| value.kind == entry.kind);
            let text = handed.map_or(text, |value| &value.written);
            match self.ground.value(entry, text) {
                Ok(value) => bound.put(name, value),
                Err(known) => {
                    let what = (name, kind_words(entry), text.as_str());
                    self.findings.bad_parameter(&at, &procedure.front.id, what, &known);
                    is_sound = false;
                }
            }
        }
        is_sound.then_some(bound)
    }

    /// The values that the place leaves to the procedure; false when one is missing or not there.
    fn defaults(&mut self, at: &Place, procedure: &Procedure, bound: &mut Bound) -> bool {
        let id = &procedure.front.id;
        let mut is_whole = true;
        for (name, entry) in procedure.front.parameters.iter() {
            if bound.get(name).is_some() {
                continue;
            }
            let Some(text) = &entry.default else {
                self.findings.missing_parameter(at, id, name, kind_words(entry));
                is_whole = false;
                continue;
            };
            match self.ground.value(entry, text) {
                Ok(value) => bound.put(name, value),
                Err(known) => {
                    // That the machine lacks a rail is said by `for`, in its own words.
                    let is_said = entry.kind == ParameterKind::Rail
                        && procedure.front.applies.rail.as_deref() == Some(name);
                    if is_said {
                        let (written, shown) = (text.clone(), text.clone());
                        bound.put(name, Value { kind: entry.kind, written, shown });
                    } else {
                        let what = (name, kind_words(entry), text.as_str());
                        self.findings.bad_parameter(at, id, what, &known);
                        is_whole = false;
                    }
                }
            }
        }
        is_whole
    }

    /// Whether the machine has what the procedure is for.
    fn fits(&mut self, at: &Place, procedure: &Procedure, bound: &Bound) -> bool {
        let machine = &self.ground.machine.file.body;
        let AppliesEntry { rail, energy } = &procedure.front.applies;
        let rail = rail.as_ref().map(|rail| bound.name(rail));
        let lacks = match rail.filter(|rail| machine.rails.get(rail).is_none()) {
            Some(rail) => Words::new("lacks-rail", &[("rail", rail.into())]),
            None if *energy && machine.energy.is_empty() => Words::of("lacks-energy"),
            None => return true,
        };
        self.findings.procedure_does_not_fit(at, &procedure.front.id, &lacks);
        false
    }

    /// Puts the handover of the lockout before the procedure that the job names.
    fn shift_change(&mut self, job: &Loaded<JobFile>) {
        let change = job.body.lockout.as_ref().and_then(|own| own.shift_change.as_ref());
        let Some(entry) = change else { return };
        let at = job.place.at("lockout").at("shift_change").at("before");
        let pieces = &self.made.pieces;
        if let Some(why) = group::misplaced(pieces, &entry.before) {
            self.findings.shift_change_misplaced(&at, &entry.before, &why);
            return;
        }
        if pieces.iter().any(|own| own.procedure.front.id == SHIFT_CHANGE) {
            self.findings.procedure_twice(&at, SHIFT_CHANGE);
            return;
        }
        let place = pieces.iter().position(|own| own.procedure.front.id == entry.before);
        let rest = place.map(|place| self.made.pieces.split_off(place)).unwrap_or_default();
        let used = UseEntry { procedure: SHIFT_CHANGE.to_owned(), with: Named::default() };
        let naming = Naming { at, used: &used, by: NamedBy::Job, line: 0, inside: None };
        self.enter(&naming);
        self.made.pieces.extend(rest);
        // The job's file has no lines at hand: it names the change once.
        if let Some(own) = self.made.uses.last_mut().filter(|own| own.part.by == NamedBy::Job) {
            own.part.place = job.place.file.to_string();
        }
    }
}

impl Ground<'_> {
    /// A value of a parameter, or the names it could have.
    fn value(&self, entry: &ParameterEntry, text: &str) -> Result<Value, Vec<String>> {
        let MachineFile { rails, zones, instruments, .. } = &self.machine.file.body;
        let names = |names: Vec<&str>| names.into_iter().map(str::to_owned).collect::<Vec<_>>();
        let shown = match entry.kind {
            ParameterKind::Rail => match rails.get(text) {
                Some(rail) => rail.name.clone(),
                None => return Err(names(rails.names().collect())),
            },
            ParameterKind::Zone => match zones.get(text) {
                Some(zone) => zone.name.clone(),
                None => return Err(names(zones.names().collect())),
            },
            ParameterKind::Instrument => match instruments.get(text) {
                Some(instrument) => instrument.name.clone(),
                None => return Err(names(instruments.names().collect())),
            },
            ParameterKind::Setting => match self.to.map(|to| &to.settings) {
                Some(settings) => match settings.get(text) {
                    Some(setting) => setting.name.clone(),
                    None => return Err(names(settings.names().collect())),
                },
                None => text.to_owned(),
            },
            ParameterKind::Quantity if !is_quantity(entry, text) => return Err(Vec::new()),
            ParameterKind::Text if text.trim().is_empty() => return Err(Vec::new()),
            ParameterKind::Quantity => self.language.decimals(text),
            ParameterKind::Text => text.to_owned(),
        };
        Ok(Value { kind: entry.kind, written: text.to_owned(), shown })
    }
}
