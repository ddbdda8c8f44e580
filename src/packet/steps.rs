//! From procedures to the steps of one packet: which steps, their rows, blanks, values and signatures.
//!
//! Everything computed is at hand already; this module only chooses and words. A fault of a procedure
//! is found where the writer wrote it.

use std::collections::BTreeMap;

use super::contents::Contents;
use super::hazards::gear_agrees;
use super::model::{
    EnergySource, EnergyState, GroupLockout, Hazard, HotPart, Instrument, Mark, Meaning, Member,
    MinorServicing, RailLayout, Setting, Sign, Stage, Step, Table, Zone,
};
use super::needed::{self, Verdict};
use super::rows::{self, Repeat};
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::plant::energy::ELECTRICAL;
use crate::plant::instrument as machine;
use crate::plant::load::Loaded;
use crate::plant::shape::{
    FirstPieceEntry, HazardEntry, LineWord, MinorEntry, StepEntry, ZeroEntry,
};
use crate::procedure::values::{Braces, braces, fill};
use crate::procedure::{Procedure, StepText};
use crate::quantity::Measure;
use crate::trade::signs::MET_BY_HANDS;

/// Everything the steps of one packet may refer to.
#[derive(Clone, Copy)]
pub(super) struct Facts<'a> {
    /// Language of the program's words.
    pub language: Language,
    /// Values that text may name.
    pub values: &'a BTreeMap<String, String>,
    /// Computed settings.
    pub settings: &'a [Setting],
    /// Computed rails.
    pub rails: &'a [RailLayout],
    /// Zone of each rail of the machine, used in this changeover or not.
    pub rail_zones: &'a BTreeMap<String, String>,
    /// Where moving parts stand before isolation; may be empty.
    pub stop_position: &'a str,
    /// Energy sources.
    pub energy: &'a [EnergySource],
    /// Identifiers of the sources that may come back for a test or a positioning.
    pub inching: &'a [String],
    /// Measured zeros, by energy source.
    pub zeros: &'a BTreeMap<String, ZeroEntry>,
    /// Zones.
    pub zones: &'a [Zone],
    /// Instruments by identifier.
    pub instruments: &'a BTreeMap<String, Instrument>,
    /// Where readings are sure, when the plant judges with a guard band.
    pub guards: Option<&'a BTreeMap<String, machine::Instrument>>,
    /// What the label promises, for the average of the first pieces.
    pub contents: Option<&'a Contents>,
    /// What is measured on the first pieces.
    pub first_piece: &'a [FirstPieceEntry],
    /// Hazard messages by identifier.
    pub hazards: &'a BTreeMap<String, Hazard>,
    /// The same messages as written, with the gear each asks for or forbids.
    pub catalogue: &'a BTreeMap<String, Loaded<HazardEntry>>,
    /// Roles of the plant.
    pub roles: &'a [String],
    /// Roles that may lock out; empty when the plant names none.
    pub authorised: &'a [String],
    /// The role that measures electrical zero.
    pub electrical: Option<&'a str>,
    /// People under one lockout.
    pub group: Option<&'a GroupLockout>,
}

impl<'a> Facts<'a> {
    /// The energy sources that a step with these rows acts on.
    pub(super) fn acted(&self, repeat: &Repeat) -> impl Iterator<Item = &'a EnergySource> {
        let inching = self.inching;
        let (all, some) = (*repeat == Repeat::Energy, *repeat == Repeat::Inching);
        let energy = self.energy.iter();
        energy.filter(move |source| all || (some && inching.contains(&source.id)))
    }
}

/// A use of a procedure, for the steps that come from it.
pub(super) struct Source<'a> {
    /// The procedure.
    pub procedure: &'a Procedure,
    /// Which use of it.
    pub nth: u32,
    /// Whether the crew has changed before it.
    pub is_changed: bool,
}

/// A step, with the place of its heading.
pub(super) fn step(
    findings: &mut Findings,
    facts: &Facts,
    source: &Source,
    text: &StepText,
    number: u32,
) -> (Step, Place) {
    let file = &source.procedure.file;
    let at = Place::block(file, text.block.clone());
    let heading = Place::bytes(file, text.heading.clone());
    let is_changed = source.is_changed;
    let (at, heading_at, entry) = (&at, &heading, &text.facts);
    let mut writer = Writer { findings, facts, at, heading_at, entry, is_changed };
    (writer.step(source, text, number), heading)
}

struct Writer<'a, 'f> {
    findings: &'a mut Findings,
    facts: &'a Facts<'f>,
    /// The block of facts.
    at: &'a Place,
    /// The words of the heading.
    heading_at: &'a Place,
    entry: &'a StepEntry,
    /// Whether the crew has changed before this procedure.
    is_changed: bool,
}

impl Writer<'_, '_> {
    fn step(&mut self, source: &Source, text: &StepText, number: u32) -> Step {
        let Source { procedure, nth, .. } = *source;
        // A slug has no two hyphens in a row: nothing else is called so.
        let again = if nth > 1 { format!("--{nth}") } else { String::new() };
        let id = format!("{}.{}{again}", procedure.front.id, text.slug);
        let repeat = self.repeat();
        // A rail that is moved has a stricter rule of its own.
        if !matches!(repeat, Some(Repeat::Moves(_) | Repeat::Holders(_))) {
            self.says_where_it_reaches();
        }
        let people = match repeat {
            Some(Repeat::People(who)) => who.of(self.facts.group, self.is_changed),
            _ => Vec::new(),
        };
        let (stays, kept) = match repeat {
            Some(Repeat::People(who)) if people.is_empty() => {
                (Some(who.nobody(self.facts.language).to_owned()), String::new())
            }
            _ => self.stays(),
        };
        let acted = repeat.iter().flat_map(|repeat| self.facts.acted(repeat));
        let sources: Vec<String> = acted.map(|source| source.id.clone()).collect();
        self.zero_is_read();
        let zone = self.zone();
        self.rail_is_isolated(&text.title, repeat.as_ref(), zone.as_ref());
        let outside = self.entry.outside.as_deref();
        let outside = outside.unwrap_or(self.facts.language.word("lines-outside"));
        let blanks =
            rows::Blanks { step: &id, outside, entry: self.entry, at: self.at, people: &people };
        // Without knowing its rows, nothing can be said about its blanks.
        let (table, readings) = match (&self.entry.repeat, repeat) {
            (Some(_), None) => (None, Vec::new()),
            (_, repeat) => rows::of_step(self.findings, self.facts, &blanks, repeat),
        };
        Step {
            number,
            procedure: procedure.front.id.clone(),
            nth,
            language: None,
            title: text.title.clone(),
            stage: self.entry.stage,
            needs: self.entry.needs,
            block: self.entry.block,
            minor_servicing: self.minor_servicing(),
            marks: self.entry.marks.clone(),
            first: self.first(zone.as_ref()),
            hazards: self.hazards(&sources, zone.as_ref()),
            zone,
            tools: self.filled("tools", &self.entry.tools),
            minutes: self.entry.minutes,
            people: self.entry.people,
            while_running: self.entry.line == LineWord::Running,
            values: self.values(procedure, text),
            text: text.text.clone(),
            checks: self.checks(&sources),
            signs: self.signs(&text.title, table.as_ref(), &people),
            sources,
            stays,
            kept,
            table,
            readings,
            id,
        }
    }

    /// A proof of zero has the readings of the sources, and not a blank of its own with other limits.
    fn zero_is_read(&mut self) {
        let reads = |of: &Option<String>| of.as_deref() == Some("zero");
        let is_read = self.entry.reading.as_ref().is_some_and(|reading| reads(&reading.of));
        if self.entry.stage == Stage::Verify && !is_read {
            self.findings.zero_not_read(&self.at.at("stage"));
        }
    }

    /// Who handles what stands on a rail reaches into its zone, and never as minor servicing.
    ///
    /// A step that says a zone is judged by the walk, and so is one that only asks for isolation.
    fn rail_is_isolated(&mut self, title: &str, repeat: Option<&Repeat>, zone: Option<&String>) {
        let Some(Repeat::Moves(rail) | Repeat::Holders(rail)) = repeat else { return };
        let is_walked = zone.is_none() && self.entry.needs == EnergyState::Isolated;
        let is_there = is_walked || zone == self.facts.rail_zones.get(rail);
        if !is_there || self.entry.minor_servicing.is_some() {
            self.findings.rail_not_isolated(&self.at.at("repeat"), title, rail);
        }
    }

    /// Why the step is not needed, or what makes it needed.
    fn stays(&mut self) -> (Option<String>, String) {
        let at = self.at.at("when").at("changes");
        let names = &self.entry.when.changes;
        match needed::changes(self.findings, self.facts, names, &at) {
            Verdict::Stays(why) => (Some(why), String::new()),
            Verdict::Needed(kept) => (None, kept),
            Verdict::NotHere(_) => (None, String::new()),
        }
    }

    /// A step that names what a hand meets in a zone of this machine, and says neither where it reaches
    /// in nor that power is on, would be done without lockout.
    fn says_where_it_reaches(&mut self) {
        let StepEntry { zone, stage, needs, hazards, .. } = self.entry;
        if zone.is_some() || *stage != Stage::Work || *needs != EnergyState::Any {
            return;
        }
        for (index, id) in hazards.iter().enumerate() {
            let zone = self.facts.zones.iter().find(|zone| zone.hazards.contains(id));
            let signs = self.facts.hazards.get(id).map_or(&[][..], |hazard| &hazard.signs);
            let by_hand = signs.iter().any(|sign| MET_BY_HANDS.contains(&sign.as_str()));
            if let Some(zone) = zone.filter(|_| by_hand) {
                let at = self.at.at("hazards").item(index);
                self.findings.hazard_without_zone(&at, id, &zone.id);
            }
        }
    }

    fn repeat(&mut self) -> Option<Repeat> {
        let word = self.entry.repeat.as_deref()?;
        let rails: Vec<&str> = self.facts.rails.iter().map(|rail| rail.id.as_str()).collect();
        let repeat = Repeat::parse(word, &rails);
        if repeat.is_none() {
            self.findings.unknown_repeat(&self.at.at("repeat"), word, &rails);
        }
        repeat
    }

    fn zone(&mut self) -> Option<String> {
        let name = self.entry.zone.as_ref()?;
        if let Some(zone) = self.facts.rail_zones.get(name) {
            return Some(zone.clone());
        }
        if !self.facts.zones.iter().any(|zone| zone.id == *name) {
            let zones = self.facts.zones.iter().map(|zone| zone.id.as_str());
            let known: Vec<&str> =
                zones.chain(self.facts.rail_zones.keys().map(String::as_str)).collect();
            self.findings.unknown_zone(&self.at.at("zone"), name, &known);
        }
        Some(name.clone())
    }

    /// The hazards the writer names, then those of the zone and of the sources that are handled.
    fn hazards(&mut self, sources: &[String], zone: Option<&String>) -> Vec<String> {
        for (index, id) in self.entry.hazards.iter().enumerate() {
            if !self.facts.hazards.contains_key(id) {
                let known: Vec<&String> = self.facts.hazards.keys().collect();
                let at = self.at.at("hazards").item(index);
                self.findings.unknown_hazard(&at, id, &known);
            }
        }
        let mut hazards = self.entry.hazards.clone();
        let handled = matches!(
            self.entry.stage,
            Stage::Isolate | Stage::Relieve | Stage::Verify | Stage::Restart
        );
        let acted = self.facts.energy.iter().filter(|source| sources.contains(&source.id));
        let of_sources = acted.filter(|_| handled).flat_map(|source| &source.hazards);
        let zones = self.facts.zones.iter().filter(|known| Some(&known.id) == zone);
        for hazard in zones.flat_map(|zone| &zone.hazards).chain(of_sources) {
            if !hazards.contains(hazard) {
                hazards.push(hazard.clone());
            }
        }
        self.gear_agrees(&hazards);
        hazards
    }

    /// Why the step needs no lockout; a reason that is missing is said.
    fn minor_servicing(&mut self) -> Option<MinorServicing> {
        let entry = self.entry.minor_servicing.as_ref()?;
        let MinorEntry { routine, repetitive, integral, measure, risk_assessment } = entry;
        let reasons = [
            ("routine", routine),
            ("repetitive", repetitive),
            ("integral", integral),
            ("measure", measure),
            ("risk_assessment", risk_assessment),
        ];
        let missing = reasons.iter().filter(|(_, text)| text.trim().is_empty());
        let missing: Vec<&str> = missing.map(|(key, _)| *key).collect();
        if !missing.is_empty() {
            self.findings.minor_servicing_incomplete(&self.at.at("minor_servicing"), &missing);
        }
        Some(MinorServicing {
            routine: routine.clone(),
            repetitive: repetitive.clone(),
            integral: integral.clone(),
            measure: measure.clone(),
            risk_assessment: risk_assessment.clone(),
        })
    }

    fn gear_agrees(&mut self, hazards: &[String]) {
        let known = hazards.iter().filter_map(|id| self.facts.catalogue.get_key_value(id));
        let messages: Vec<_> = known.map(|(id, loaded)| (id.as_str(), &loaded.body)).collect();
        gear_agrees(self.findings, &self.at.at("hazards"), self.entry.needs, &messages);
    }

    /// Things to tick before somebody reaches in: nothing has built up again, and gloves are on where
    /// a part may burn a bare hand.
    ///
    /// Source: 29 CFR 1910.147(d)(5)(ii), verification goes on while energy can come back.
    fn first(&self, zone: Option<&String>) -> Vec<String> {
        let zone = self.facts.zones.iter().find(|known| Some(&known.id) == zone);
        let isolated = self.entry.needs == EnergyState::Isolated;
        let Some(zone) = zone.filter(|_| isolated) else { return Vec::new() };
        let reaches = |source: &&EnergySource| zone.sources.contains(&source.id);
        let reaching: Vec<&EnergySource> = self.facts.energy.iter().filter(reaches).collect();
        let returns = reaching.iter().filter(|source| source.returns);
        let hot = reaching.iter().flat_map(|source| &source.hot_parts);
        // Who checks is rarely the one who locked, (f)(3)(ii)(D).
        let language = self.facts.language;
        let outside = language.word("lines-checker-outside");
        let checks = self.entry.sign.verified.as_ref().map(|_| outside.to_owned());
        let still = |source: &&EnergySource| {
            language.text("lines-still-zero", &[("source", source.name.as_str().into())])
        };
        returns
            .map(still)
            .chain(hot.filter(|part| !part.gloves.is_empty()).map(|part| gloves_on(language, part)))
            .chain(checks)
            .collect()
    }

    /// The writer's own lines, and then what no step of its stage may lack.
    fn checks(&mut self, sources: &[String]) -> Vec<String> {
        let mut checks = self.filled("checks", &self.entry.checks);
        checks.extend(self.of_stage(sources));
        checks
    }

    /// Things to tick that follow from the stage and from the sources of energy that the step acts on.
    ///
    /// Source: 29 CFR 1910.147 Appendix A, nobody is exposed in a try-out and controls go back to
    /// neutral; NFPA 70E 120.5, step 7, a tester is proved before and after; DOE-STD-1029-92,
    /// section 4, a wait is timed.
    fn of_stage(&self, sources: &[String]) -> Vec<String> {
        let Facts { stop_position, energy, language, .. } = self.facts;
        let energy: Vec<&EnergySource> =
            energy.iter().filter(|source| sources.contains(&source.id)).collect();
        match self.entry.stage {
            // In a test block the parts are held where they stood when the lockout began.
            Stage::Shutdown if !stop_position.is_empty() && self.entry.block.is_none() => {
                let parts = [("position", (*stop_position).into())];
                vec![language.text("lines-stop-position", &parts)]
            }
            Stage::Relieve => longest_wait(*language, &energy).into_iter().collect(),
            Stage::TryOut => vec![
                language.word("lines-nobody-inside").to_owned(),
                language.word("lines-back-at-neutral").to_owned(),
            ],
            Stage::Inspect => vec![language.word("lines-guards-closed").to_owned()],
            Stage::ClearPeople => vec![language.word("lines-at-neutral").to_owned()],
            Stage::Verify if energy.iter().any(|source| !source.pairs.is_empty()) => vec![
                language.word("lines-tester-before").to_owned(),
                language.word("lines-tester-after").to_owned(),
            ],
            _ => Vec::new(),
        }
    }

    /// A list of texts with their values put in.
    fn filled(&mut self, key: &str, texts: &[String]) -> Vec<String> {
        for (index, text) in texts.iter().enumerate() {
            for brace in braces(text) {
                let at = self.at.at(key).item(index);
                match brace {
                    Braces::Bad { range, why } => {
                        self.findings.bad_braces(&at.within(range), &Words::of(why))
                    }
                    Braces::Name { name, inner, .. } => self.known(&at.within(inner), &name),
                }
            }
        }
        texts.iter().map(|text| fill(text, self.facts.values)).collect()
    }

    fn values(&mut self, procedure: &Procedure, text: &StepText) -> BTreeMap<String, String> {
        let mut values = BTreeMap::new();
        for (name, range) in &text.names {
            self.known(&Place::bytes(&procedure.file, range.clone()), name);
            if let Some(value) = self.facts.values.get(name) {
                values.insert(name.clone(), value.clone());
            }
        }
        values
    }

    fn known(&mut self, at: &Place, name: &str) {
        if !self.facts.values.contains_key(name) {
            let known: Vec<&String> = self.facts.values.keys().collect();
            let rails: Vec<&str> = self.facts.rail_zones.keys().map(String::as_str).collect();
            self.findings.unknown_value(at, name, &known, &rails);
        }
    }

    /// What one person does and another has to see.
    ///
    /// Source: practice; 21 CFR 211.188(b)(11) for who performs and who checks a significant step.
    fn second_person(&mut self, signs: &[Sign]) {
        use Stage::{ClearPeople, Inspect, TryOut, Verify};
        let has = |meaning| signs.iter().any(|sign| sign.meaning == meaning);
        if has(Meaning::Performed) && has(Meaning::Verified) {
            return;
        }
        let stage = self.entry.stage;
        let brings = |mark: &Mark| !matches!(mark, Mark::MaterialIn | Mark::Run);
        let mut marks = self.entry.marks.iter().enumerate();
        if [Verify, TryOut, Inspect, ClearPeople].contains(&stage) {
            self.findings.second_person_missing(&self.at.at("stage"), stage);
        } else if let Some((index, mark)) = marks.find(|(_, mark)| brings(mark)) {
            self.findings.second_person_missing(&self.at.at("marks").item(index), mark);
        }
    }

    /// Who signs, row by row where each source is signed by itself.
    fn signs(&mut self, title: &str, table: Option<&Table>, people: &[&Member]) -> Vec<Sign> {
        let sign = &self.entry.sign;
        let asked = [
            (Meaning::Performed, "performed", &sign.performed),
            (Meaning::Verified, "verified", &sign.verified),
            (Meaning::Released, "released", &sign.released),
        ];
        let mut signs = Vec::new();
        for (meaning, key, role) in asked {
            let Some(role) = role else { continue };
            if !self.facts.roles.contains(role) {
                self.findings.unknown_role(&self.at.at("sign").at(key), role, self.facts.roles);
            }
            let rows = table.into_iter().flat_map(|table| &table.rows);
            let named = rows.filter(|row| !row.id.is_empty() && self.is_by_row(meaning));
            let count = signs.len();
            signs.extend(named.map(|row| match people.iter().find(|member| member.id == row.id) {
                Some(member) => sign_of_person(meaning, member),
                None => self.sign_of_row(meaning, role, &row.id),
            }));
            if signs.len() == count {
                signs.push(Sign { meaning, role: role.clone(), row: None, by: None });
            }
        }
        if signs.is_empty() {
            self.findings.unsigned_step(self.heading_at);
        } else {
            self.second_person(&signs);
            self.authorised(title);
        }
        signs
    }

    /// Who does a thing signs for each source; who proves zero has each proof checked, too.
    fn is_by_row(&self, meaning: Meaning) -> bool {
        match meaning {
            Meaning::Performed => true,
            Meaning::Verified => self.entry.stage == Stage::Verify,
            Meaning::Released => false,
        }
    }

    /// The signature of one source; only the electrically qualified measure electrical zero.
    fn sign_of_row(&self, meaning: Meaning, role: &str, row: &str) -> Sign {
        let measures = self.entry.stage == Stage::Verify && meaning == Meaning::Performed;
        let electrical = self.facts.electrical.filter(|_| {
            let mut energy = self.facts.energy.iter();
            measures && energy.any(|source| source.id == row && source.kind == ELECTRICAL)
        });
        let role = electrical.unwrap_or(role).to_owned();
        Sign { meaning, role, row: Some(row.to_owned()), by: None }
    }

    /// Locks are handled by those who are authorised, 29 CFR 1910.147(d)(4)(i).
    fn authorised(&mut self, title: &str) {
        let authorised = self.facts.authorised;
        let role = self.entry.sign.performed.as_ref();
        let handles = self.entry.stage.is_for_authorised();
        // A plant that names nobody was told so where its file is.
        if !handles || authorised.is_empty() || role.is_some_and(|role| authorised.contains(role)) {
            return;
        }
        let at = self.at.at("sign").at("performed");
        self.findings.role_not_authorised(&at, title, role.map(String::as_str), authorised);
    }
}

/// Only the person whose row it is signs it, in the role in which this person locks out.
fn sign_of_person(meaning: Meaning, member: &Member) -> Sign {
    let id = Some(member.id.clone());
    Sign { meaning, role: member.role.clone(), row: id.clone(), by: id }
}

/// The longest of the timed waits, with the sources that have it.
fn longest_wait(language: Language, energy: &[&EnergySource]) -> Option<String> {
    let time = |source: &&EnergySource| {
        Measure::parse(&source.wait).ok().map(|measure| measure.quantity.amount)
    };
    let longest =
        energy.iter().max_by_key(|source| time(source)).filter(|one| time(one).is_some())?;
    let same = energy.iter().filter(|source| time(source) == time(longest));
    let names = same.map(|source| source.name.clone());
    let sources = names.reduce(|one, other| {
        language.text("lines-and", &[("one", one.into()), ("other", other.into())])
    })?;
    let wait = language.decimals(&longest.wait);
    Some(language.text("lines-longest-wait", &[("wait", wait.into()), ("sources", sources.into())]))
}

/// What a hand needs that touches a part which may be above its burn threshold.
fn gloves_on(language: Language, part: &HotPart) -> String {
    let HotPart { part, surface, lasts, threshold, gloves, .. } = part;
    let parts = [
        ("part", part.into()),
        ("surface", surface.into()),
        ("lasts", language.decimals(lasts).into()),
        ("threshold", language.decimals(threshold).into()),
        ("gloves", gloves.into()),
    ];
    language.text("lines-gloves-on", &parts)
}

pub(super) fn kept(language: Language, setting: &Setting) -> String {
    format!("{}: {}", setting.name, language.decimals(&setting.set_to()))
}
