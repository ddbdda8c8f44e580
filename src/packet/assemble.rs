//! From a plant and one job to its frozen packet, or to findings.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use chrono::{Months, NaiveDate, TimeDelta};

use super::approvals;
use super::changeover::{Changeover, Ground, changeover};
use super::changes::{Changes, changes};
use super::compute::Computed;
use super::group;
use super::house::House;
use super::inspections::{self, Due};
use super::kit;
use super::model::{
    Considered, Dropped, EnergySource, Figure, GroupLockout, Hazard, Instrument, JobFacts,
    MachineFacts, NOBODY, Packet, PlantFacts, ProcedureFacts, RailLayout, RecipeFacts,
    SHIFT_CHANGE, Setting, SourceFile, Stage, Step, VERSION, Zone, in_brackets,
};
use super::named;
use super::needed::{Judge, Weighed};
use super::people;
use super::policy;
use super::prepare::{Prepared, known_machine};
use super::rows::nobody_accepts;
use super::shifts::in_shift;
use super::steps::{self, Facts};
use super::web;
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::energy::on_both_sides;
use crate::plant::load::Loaded;
use crate::plant::machine::{self, Machine, day};
use crate::plant::shape::{
    JobFile, JobWord, Judging, RailEntry, RecipeFile, RoleEntry, ZeroEntry, ZoneEntry,
};
use crate::procedure::Procedure;
use crate::procedure::order::{self, OutOfOrder};
use crate::procedure::protect::{self, Why};
use crate::quantity::{Limits, Measure, Number, beside_limits};
use crate::record::time;

/// Makes the packet of a job; none when something is wrong that a person could be hurt by.
pub fn assemble(findings: &mut Findings, prepared: &Prepared, job: &str) -> Option<Packet> {
    let job = prepared.plant.jobs.get(job)?;
    let last = prepared.last.get(&job.place.file).and_then(|id| prepared.plant.jobs.get(id));
    assembled(findings, prepared, job, last)
}

/// The packet of a job after another; none where it is not known or does not matter what was left.
pub(super) fn assembled(
    findings: &mut Findings,
    prepared: &Prepared,
    job: &Loaded<JobFile>,
    last: Option<&Loaded<JobFile>>,
) -> Option<Packet> {
    let mut own = Findings::default();
    let language = job.body.language.unwrap_or(prepared.plant.language);
    let edition = prepared.editions.get(&language).unwrap_or(prepared);
    let assembler =
        Assembler { findings: &mut own, prepared: edition, main: prepared, job, last, language };
    let mut packet = assembler.packet();
    let mut answered = prepared.policy.settle(&mut own);
    if let Some(packet) = &mut packet {
        let concerns = |file: &str| packet.sources.iter().any(|source| source.path == file);
        let before = prepared.answered.iter().filter(|one| concerns(&one.finding.place.file));
        answered.extend(before.cloned());
        packet.exceptions = policy::exceptions(&mut own, prepared, &job.body, &answered);
    }
    let packet = packet.filter(|_| !own.has_errors());
    findings.extend(own);
    packet
}

struct Assembler<'f, 'p> {
    findings: &'f mut Findings,
    /// The plant in the packet's language.
    prepared: &'p Prepared<'p>,
    /// The plant in its main language.
    main: &'p Prepared<'p>,
    job: &'p Loaded<JobFile>,
    /// The job before it on its machine.
    last: Option<&'p Loaded<JobFile>>,
    language: Language,
}

impl<'p> Assembler<'_, 'p> {
    fn packet(mut self) -> Option<Packet> {
        let prepared = self.prepared;
        let facts = self.job_facts();
        let at = &self.job.place;
        let body = &self.job.body;
        known_machine(self.findings, prepared.plant, &at.at("machine"), &body.machine);
        let from = self.recipe("from", &body.from);
        let to = self.recipe("to", &body.to);
        self.follows_last_job();
        let machine = prepared.machines.get(&body.machine)?;
        let ground = Ground {
            prepared,
            machine,
            to: to.map(|(file, _)| &file.body),
            language: self.language,
        };
        let mut changeover = changeover(self.findings, ground, self.job);
        let ((from_file, from), (to_file, to)) = (from?, to?);

        let figures = self.web(to, &facts);
        let known = Known::of(prepared, machine, [from, to], to_file, figures, &facts);
        let Written { mut steps, headings, considered, repeats } =
            self.steps(&known, &facts, &mut changeover);
        let Changeover { procedures, uses, lacks_one, .. } = changeover;
        let accepted_by = self.accepted_by(&mut steps);
        let Known { energy, zones, rails, web, .. } = &known;
        let changeover = self.order_of(machine);
        let walked = protect::Machine { sources: energy, zones, inching: known.inching() };
        self.protect(&steps, &headings, &changeover, walked);
        if !lacks_one {
            self.order(&steps, &headings, &changeover, [&from.recipe, &to.recipe]);
        }
        self.people(&steps, &procedures, facts.lockout.as_ref());
        self.shift_ends(&steps, facts.lockout.as_ref());
        self.roles_are_held(&steps);
        self.calibration(&steps, machine);
        self.inspection(machine);
        self.rails_left(from, to, machine);
        if !lacks_one {
            self.rails_have_steps(rails, &repeats, &changeover);
        }
        let hazards = self.hazards(&steps);
        let kit = kit::kit(&kit::Sources {
            steps: &steps,
            hazards: &hazards,
            catalogue: &prepared.plant.hazards,
            old: &from_file.body,
            recipe: &to_file.body,
            tools: prepared.plant.stock.as_ref().map_or(&[], |stock| &stock.body.tools),
            energy,
            people: facts.lockout.as_ref().map_or(0, |group| group.crew.len()),
            crew: facts.lockout.as_ref().map_or(0, group::locks_at_once),
            machine,
            roll: to.roll.as_ref(),
            rolls: web.iter().find(|figure| figure.id == "web.rolls"),
            language: self.language,
        });
        let sources = self.sources(machine, [from_file, to_file], &procedures);
        let mut drafts = drafts([from_file, to_file], &procedures);
        let (approvals, lacking) =
            approvals::approvals(self.main, [from_file, to_file], &procedures, self.language);
        drafts.extend(lacking);
        self.translations(&procedures, &hazards, &sources);
        let procedures = procedures.iter().map(|one| procedure_facts(one, self.language)).collect();
        let Known { settings, dropped, rails, web, contents, energy, zones, .. } = known;
        Some(Packet {
            v: VERSION,
            language: self.language,
            plant: PlantFacts {
                name: prepared.plant.facts.body.name.clone(),
                domain: prepared.plant.facts.body.domain.clone(),
                address: prepared.plant.facts.body.address.clone(),
                note: prepared.plant.facts.body.note.clone(),
                enforced_by: prepared.plant.facts.body.enforced_by.clone(),
            },
            job: facts,
            machine: known.machine_facts,
            from: from.recipe.clone(),
            to: to.recipe.clone(),
            sources,
            exceptions: Vec::new(),
            drafts,
            approvals,
            energy,
            zones,
            hazards,
            kit,
            instruments: known.instruments.into_values().collect(),
            settings,
            dropped,
            contents,
            web,
            fasteners: machine.fasteners.iter().map(|fastener| fastener.sheet.clone()).collect(),
            rails,
            steps,
            order: uses.into_iter().map(|own| own.part).collect(),
            considered,
            procedures,
            accepts_deviation: prepared.plant.facts.body.accepts_deviation.default.clone(),
            accepted_by,
        })
    }

    /// Who accepts a deviation where it is not the role for all, of the procedures that are in the packet.
    /// Where nobody does, each blank says so.
    fn accepted_by(&self, steps: &mut [Step]) -> BTreeMap<String, String> {
        let accepts = &self.prepared.plant.facts.body.accepts_deviation;
        let other = |step: &Step| {
            let role = accepts.by_procedure.get(&step.procedure)?;
            (*role != accepts.default).then(|| (step.procedure.clone(), role.clone()))
        };
        let accepted_by: BTreeMap<_, _> = steps.iter().filter_map(other).collect();
        let nobody = |step: &&mut Step| {
            accepted_by.get(&step.procedure).is_some_and(|role| role == NOBODY)
                && step.stage != Stage::Verify
        };
        for step in steps.iter_mut().filter(nobody) {
            let blanks = step.readings.iter_mut().filter(|blank| !blank.never_accepted);
            blanks.for_each(|blank| nobody_accepts(self.language, blank));
        }
        accepted_by
    }

    fn job_facts(&mut self) -> JobFacts {
        let body = &self.job.body;
        let at = &self.job.place;
        day(self.findings, &at.at("date"), &body.date);
        if time::parse(&body.issued).is_err() {
            self.findings.bad_time(&at.at("issued"), &body.issued);
        }
        self.due();
        let person = self.prepared.people.get(&body.issued_by);
        if person.is_none() {
            let people = &self.prepared.plant.people.body.people;
            let known: Vec<&String> = people.iter().map(|person| &person.id).collect();
            self.findings.unknown_person(&at.at("issued_by"), &body.issued_by, &known);
        }
        JobFacts {
            id: body.id.clone(),
            order: body.order.clone(),
            date: body.date.clone(),
            shift: body.shift.clone(),
            pieces: body.pieces.clone().unwrap_or_default(),
            issued: body.issued.clone(),
            issued_by: person.map_or(String::new(), |person| person.name.clone()),
            lockout: group::group(self.findings, self.prepared, self.job),
            people: people::people(self.findings, self.prepared, self.job),
        }
    }

    /// When the job is due, which nobody can keep who has not begun by then.
    fn due(&mut self) {
        let body = &self.job.body;
        let Some(due) = &body.due else { return };
        let at = self.job.place.at("due");
        let Some(due_at) = machine::minute_of(due) else {
            self.findings.bad_due(&at, due);
            return;
        };
        // What cannot be read was reported where it stands.
        let shift = self.prepared.plant.facts.body.shifts.get(&body.shift);
        let ends = shift.map_or("", |shift| shift.ends.as_str());
        let minutes = body.starts.as_deref().and_then(|starts| in_shift(starts, ends));
        let midnight = machine::minute_of(&format!("{}T00:00", body.date));
        let minutes = TimeDelta::minutes(minutes.unwrap_or_default().into());
        let starts = midnight.and_then(|midnight| midnight.checked_add_signed(minutes));
        if let Some(starts) = starts.filter(|starts| due_at <= *starts) {
            let starts = starts.format("%Y-%m-%dT%H:%M").to_string();
            self.findings.due_before_start(&at, due, &starts);
        }
    }

    /// The web's figures, with those of the order when it says how many pieces.
    fn web(&mut self, to: &Computed, facts: &JobFacts) -> Vec<Figure> {
        let mut figures = to.web.clone();
        if facts.pieces.is_empty() {
            return figures;
        }
        let at = self.job.place.at("pieces");
        // Orders group their digits: 90 000.
        let digits = |c: char| c.is_ascii_digit() || c.is_whitespace();
        let pieces: String = match facts.pieces.chars().all(digits) {
            true => facts.pieces.split_whitespace().collect(),
            false => facts.pieces.clone(),
        };
        let Some(pieces) = machine::measure(self.findings, &at, &pieces) else {
            return figures;
        };
        let number = pieces.quantity.amount;
        if !pieces.quantity.dimension.is_none() || !number.is_integer() || number <= Number::ZERO {
            self.findings.not_a_count(&at);
            return figures;
        }
        if let Some(order) = &to.order {
            figures.extend(web::for_order(self.prepared.house, order, pieces));
        }
        figures
    }

    /// Old positions are right only when the job before left the machine as this one says.
    fn follows_last_job(&mut self) {
        let own = &self.job.body;
        let Some(Loaded { body: last, .. }) = self.last else { return };
        if last.to != own.from {
            self.findings.not_what_was_left(
                &self.job.place.at("from"),
                &own.from,
                &last.to,
                &last.id,
            );
        }
    }

    /// A recipe of the job, computed for its machine.
    fn recipe(&mut self, key: &str, id: &str) -> Option<(&'p Loaded<RecipeFile>, &'p Computed)> {
        let prepared = self.prepared;
        let at = self.job.place.at(key);
        let Some(file) = prepared.plant.recipes.get(id) else {
            if !prepared.plant.broken.contains(&format!("recipes/{id}")) {
                let known: Vec<&String> = prepared.plant.recipes.keys().collect();
                self.findings.unknown_recipe(&at, id, &known);
            }
            return None;
        };
        let machine = &self.job.body.machine;
        if !file.body.machines.contains(machine) && prepared.machines.contains_key(machine) {
            self.findings.recipe_not_for_machine(&at, id, machine);
        }
        let computed = prepared.computed.get(&(machine.clone(), id.to_owned()))?;
        Some((file, computed))
    }

    /// Each role that a step asks for is held by somebody on the day of the job: otherwise the packet
    /// could be printed and never signed.
    fn roles_are_held(&mut self, steps: &[Step]) {
        let prepared = self.prepared;
        let people = &prepared.plant.people.body.people;
        let terms = || people.iter().flat_map(|person| &person.roles);
        // A role that nobody knows was reported, and may be the one that is meant.
        if terms().any(|term| !prepared.roles.contains(&term.role)) {
            return;
        }
        let day = &self.job.body.date;
        let covers = |term: &RoleEntry| policy::covers(&term.from, term.until.as_ref(), day);
        let done = steps.iter().filter(|step| step.stays.is_none());
        let asked: BTreeSet<&String> =
            done.flat_map(|step| &step.signs).map(|sign| &sign.role).collect();
        for role in asked.into_iter().filter(|role| prepared.roles.contains(role)) {
            if !terms().any(|term| term.role == *role && covers(term)) {
                self.findings.nobody_holds_role(&self.job.place.at("date"), role);
            }
        }
    }

    /// Whether the people under one lockout are protected: personal locks, contractors, handover.
    fn people(
        &mut self,
        steps: &[Step],
        procedures: &[&Procedure],
        lockout: Option<&GroupLockout>,
    ) {
        let at = &self.job.place;
        let body = &self.job.body;
        let several = |group: &&GroupLockout| {
            let is_handed_over = group.shift_change.is_some() && !group.crew.is_empty();
            group.crew.len() > 1 || is_handed_over
        };
        if let Some(group) = lockout.filter(several)
            && !group::has_personal_locks(steps, group)
        {
            self.findings.no_personal_locks(&at.at("lockout").at("crew"), &body.machine);
        }
        let is_block = |step: &Step| step.block.is_some() && step.stays.is_none();
        if lockout.is_some_and(|group| !group.crew.is_empty()) && steps.iter().any(is_block) {
            self.findings.crew_in_test_block(&at.at("lockout").at("crew"), &body.machine);
        }
        let mut written = procedures.iter().flat_map(|procedure| &procedure.steps);
        let meets = written.any(|step| step.facts.when.job == Some(JobWord::Contractors));
        if lockout.is_some_and(|group| !group.contractors.is_empty()) && !meets {
            self.findings.contractors_not_met(&at.at("lockout").at("contractors"), &body.machine);
        }
        // Nothing is handed over, or where it cannot be: that was reported.
        let is_handed_over = procedures.iter().any(|own| own.front.id == SHIFT_CHANGE);
        if let Some(why) =
            lockout.filter(|_| is_handed_over).and_then(|group| group::gap(steps, group))
        {
            self.findings.shift_change_gap(&at.at("lockout").at("shift_change"), &why);
        }
    }

    /// Whether a shift ends under the locks and nobody takes them over.
    fn shift_ends(&mut self, steps: &[Step], lockout: Option<&GroupLockout>) {
        let at = &self.job.place;
        let body = &self.job.body;
        let shifts = &self.prepared.plant.facts.body.shifts;
        let Some(starts) = &body.starts else { return };
        let Some(starts) = group::clock(starts) else {
            self.findings.bad_clock(&at.at("starts"), starts);
            return;
        };
        let Some(shift) = shifts.get(&body.shift) else {
            let known: Vec<String> = shifts.names().map(str::to_owned).collect();
            if !known.is_empty() {
                self.findings.unknown_word(&at.at("shift"), &body.shift, &known);
            }
            return;
        };
        let is_handed_over = lockout.is_some_and(|group| group.shift_change.is_some());
        let ends = group::clock(&shift.ends).filter(|_| !is_handed_over);
        if ends.is_some_and(|ends| group::crosses(steps, starts, ends)) {
            self.findings.shift_ends_under_locks(&at.at("starts"), &body.shift, &shift.ends);
        }
    }

    /// Where the order of procedures of a machine is written.
    fn order_of(&self, machine: &Machine) -> Place {
        match &machine.file.body.order_of_kind {
            Some(kind) => self.prepared.plant.facts.place.at("changeovers").at(kind),
            None => machine.file.place.at("changeover"),
        }
    }

    /// The steps, and what was considered and is not needed. A procedure that is not translated stands in
    /// its own language, with everything in its steps.
    fn steps(&mut self, known: &Known, job: &JobFacts, changeover: &mut Changeover<'p>) -> Written {
        let mut written = Written::default();
        let mut weighed = Weighed::default();
        let mut is_changed = false;
        let is_other = |own: &Procedure| own.is_foreign(self.language);
        let others = changeover.procedures.iter().any(|own| is_other(own));
        let in_main = others.then(|| self.known_in_main(job)).flatten();
        let own_facts = known.facts(self.language, job);
        let kind = self.main.machines.get(&self.job.body.machine);
        let kind = kind.map_or("", |machine| machine.file.body.kind.as_str());
        let judge = Judge { facts: &own_facts, kind };
        for piece in changeover.pieces.clone() {
            let bound = changeover.bound(&piece);
            let procedure = piece.procedure;
            let is_needed = weighed.is_needed(self.findings, &judge, changeover, &piece);
            let language = if is_other(procedure) { procedure.language } else { self.language };
            let known = in_main.as_ref().filter(|_| is_other(procedure)).unwrap_or(known);
            let mut values = Cow::Borrowed(&known.values);
            for (name, text) in bound.texts() {
                values.to_mut().insert(name.clone(), text.clone());
            }
            let facts = Facts { values: &values, ..known.facts(language, job) };
            let nth = changeover.uses.get(piece.used).map_or(1, |own| own.part.nth);
            let source = steps::Source { procedure, nth, is_changed };
            for text in piece.steps() {
                let text = bound.step(text);
                written.repeats.extend(text.facts.repeat.clone());
                if !is_needed || !weighed.has_step(self.findings, &judge, &source, &text) {
                    continue;
                }
                let number =
                    u32::try_from(written.steps.len()).unwrap_or(u32::MAX).saturating_add(1);
                let (mut step, heading) =
                    steps::step(self.findings, &facts, &source, &text, number);
                step.language = is_other(procedure).then_some(language);
                written.steps.push(step);
                written.headings.push(heading);
            }
            is_changed |= procedure.front.id == SHIFT_CHANGE;
        }
        written.considered = weighed.considered;
        written
    }

    /// What steps refer to, in the main language of the plant.
    fn known_in_main(&self, job: &JobFacts) -> Option<Known<'p>> {
        let JobFile { machine, from, to, .. } = &self.job.body;
        let computed = |recipe: &String| self.main.computed.get(&(machine.clone(), recipe.clone()));
        let to_file = self.main.plant.recipes.get(to)?;
        let (from, to) = (computed(from)?, computed(to)?);
        let machine = self.main.machines.get(machine)?;
        let mut aside = Findings::default();
        let mut figures = Assembler { findings: &mut aside, prepared: self.main, ..*self };
        let figures = figures.web(to, job);
        Some(Known::of(self.main, machine, [from, to], to_file, figures, job))
    }

    /// Says what is not in the packet's language, or is a translation that is old.
    fn translations(
        &mut self,
        procedures: &[&Procedure],
        hazards: &[Hazard],
        sources: &[SourceFile],
    ) {
        for procedure in procedures {
            let id = &procedure.front.id;
            if procedure.is_foreign(self.language) {
                let at = Place::block(&procedure.file, procedure.front_range.clone()).at("title");
                self.findings.procedure_not_translated(&at, id, self.language);
            }
            if let Some(translated) = procedure.translated.as_ref().filter(|_| procedure.is_old()) {
                let revision = &procedure.front.revision;
                let (at, from) = (&translated.at, &translated.from);
                self.findings.translation_is_old(at, id, from, revision);
            }
        }
        let untranslated = &self.prepared.plant.untranslated;
        let own = sources.iter().filter_map(|own| untranslated.get_key_value(own.path.as_str()));
        // Of a list of hazards only what this packet shows counts.
        let own = own.filter(|(file, _)| !file.ends_with("hazards.yaml"));
        let mut lacking: BTreeMap<_, _> =
            own.map(|(file, lacking)| (file.clone(), lacking.clone())).collect();
        for hazard in hazards.iter().filter(|hazard| hazard.language.is_some()) {
            if let Some(written) = self.prepared.plant.hazards.get(&hazard.id) {
                let at = written.place.at("hazard");
                let file = written.place.file.clone();
                lacking.entry(file).and_modify(|(_, count)| *count += 1).or_insert((at, 1));
            }
        }
        let used = |file: &str| sources.iter().any(|source| source.path == file);
        for (_, (at, count)) in lacking.iter().filter(|(file, _)| used(file)) {
            self.findings.text_not_translated(at, *count, self.language);
        }
    }

    /// Refuses an order of steps that leaves a person unprotected.
    fn protect(
        &mut self,
        steps: &[Step],
        headings: &[Place],
        changeover: &Place,
        machine: protect::Machine,
    ) {
        for unprotected in protect::walk(steps, machine) {
            if let (Some(step), Some(heading)) =
                (steps.get(unprotected.step), headings.get(unprotected.step))
            {
                // A zone that nobody knows was reported where it is named.
                if unprotected.why == Why::NoZone && step.zone.is_some() {
                    continue;
                }
                let at = match unprotected.why {
                    // Nothing is wrong with the last step: the changeover lacks the release.
                    Why::LocksLeft { .. } => changeover,
                    _ => heading,
                };
                self.findings.unprotected(at, step, &unprotected.why);
            }
        }
    }

    /// Refuses an order of work in which old product, an allergen or a wrong setting slips through.
    fn order(
        &mut self,
        steps: &[Step],
        headings: &[Place],
        changeover: &Place,
        [from, to]: [&RecipeFacts; 2],
    ) {
        for OutOfOrder { step, why } in order::check(steps, &from.allergens, &to.allergens) {
            match (steps.get(step), headings.get(step)) {
                _ if why == order::Why::Unmarked => self.findings.order_unmarked(changeover),
                (Some(step), Some(at)) => self.findings.out_of_order(at, &step.title, &why),
                _ => {}
            }
        }
    }

    /// An instrument that is past its calibration on the day of the job.
    fn calibration(&mut self, steps: &[Step], machine: &Machine) {
        let readings =
            steps.iter().filter(|step| step.stays.is_none()).flat_map(|step| &step.readings);
        let read = readings.filter_map(|reading| reading.instrument.as_ref());
        let wrenches = machine.wrenches().map(|wrench| &wrench.facts);
        for instrument in read.chain(wrenches) {
            let due = &instrument.calibration_due;
            // Days written year first sort as text.
            if !due.is_empty() && *due < self.job.body.date {
                let at = self.job.place.at("date");
                self.findings.calibration_over(&at, &instrument.name, due);
            }
        }
    }

    /// A periodic inspection that is more than 12 months old on the day of the job. Signed ones of each
    /// lockout procedure say more than the machine's file.
    ///
    /// Source: 29 CFR 1910.147(c)(6)(i).
    fn inspection(&mut self, machine: &Machine) {
        let read = |text: &str| NaiveDate::parse_from_str(text, "%Y-%m-%d").ok();
        let written = machine.inspection.as_ref().map(|own| own.date.as_str());
        let (inspected, job) = (written.and_then(read), read(&self.job.body.date));
        let last = inspected.and_then(|day| day.checked_add_months(Months::new(12)));
        let own: Vec<Due> = inspections::of_machine(self.main, machine).collect();
        let signed = own.iter().map(|due| due.due.filter(|_| due.signed.is_some())).min().flatten();
        let oldest = own.iter().filter_map(|due| due.signed?.entry.date.as_deref()).min();
        let is_over = last.max(signed).zip(job).is_some_and(|(last, job)| job > last);
        if let Some(date) = written.or(oldest).filter(|_| is_over) {
            let at = self.job.place.at("date");
            self.findings.inspection_over(&at, &machine.file.body.name, date);
        }
    }

    /// A rail that the recipe before used and the wanted one is silent about: what stands on it would
    /// stay in the way, and nobody was told.
    fn rails_left(&mut self, from: &Computed, to: &Computed, machine: &Machine) {
        for id in from.rails.keys().filter(|id| !to.rails.contains_key(*id)) {
            if let Some(rail) = machine.rails.get(id) {
                let (old, new) = (&self.job.body.from, &self.job.body.to);
                self.findings.rail_left(&self.job.place.at("to"), &rail.name, old, new);
            }
        }
    }

    /// Each rail that is laid out has a step that moves its holders or measures them.
    fn rails_have_steps(&mut self, rails: &[RailLayout], repeats: &BTreeSet<String>, at: &Place) {
        for rail in rails {
            let holders = [format!("{}.moves", rail.id), format!("{}.holders", rail.id)];
            if !holders.iter().any(|holders| repeats.contains(holders)) {
                self.findings.rail_without_step(at, &rail.id, &rail.name);
            }
        }
    }

    /// The messages of the steps that are done, the gravest first.
    fn hazards(&self, steps: &[Step]) -> Vec<Hazard> {
        let used: BTreeSet<&String> = steps
            .iter()
            .filter(|step| step.stays.is_none())
            .flat_map(|step| &step.hazards)
            .collect();
        let mut hazards: Vec<Hazard> =
            used.into_iter().filter_map(|id| self.prepared.hazards.get(id)).cloned().collect();
        let written = &self.prepared.plant.hazards;
        let harm = |id: &str| written.get(id).map(|written| written.body.harm);
        hazards.sort_by_key(|hazard| (hazard.signal, harm(&hazard.id)));
        hazards
    }

    fn sources(
        &self,
        machine: &Machine,
        recipes: [&Loaded<RecipeFile>; 2],
        procedures: &[&Procedure],
    ) -> Vec<SourceFile> {
        let plant = self.prepared.plant;
        let mut list: Vec<(String, String)> = vec![
            (plant.facts.place.file.to_string(), plant.facts.sha256.clone()),
            (machine.file.place.file.to_string(), machine.file.sha256.clone()),
            (self.job.place.file.to_string(), self.job.sha256.clone()),
        ];
        list.extend(plant.stock.iter().map(|s| (s.place.file.to_string(), s.sha256.clone())));
        list.extend(recipes.iter().map(|r| (r.place.file.to_string(), r.sha256.clone())));
        list.extend(procedures.iter().map(|p| (p.file.to_string(), p.sha256.clone())));
        let translated = procedures.iter().filter_map(|p| p.translated.as_ref());
        list.extend(translated.map(|own| (own.file.to_string(), own.sha256.clone())));
        list.extend(plant.hazards.values().map(|h| (h.place.file.to_string(), h.sha256.clone())));
        list.sort();
        list.dedup();
        list.into_iter().map(|(path, sha256)| SourceFile { path, sha256 }).collect()
    }
}

/// The steps of a packet as they are written.
#[derive(Default)]
struct Written {
    steps: Vec<Step>,
    /// Where the heading of each stands.
    headings: Vec<Place>,
    considered: Vec<Considered>,
    /// What steps repeat over, those that stay included.
    repeats: BTreeSet<String>,
}

/// Recipes and procedures that say of themselves that they are drafts.
fn drafts(recipes: [&Loaded<RecipeFile>; 2], procedures: &[&Procedure]) -> Vec<String> {
    let recipes = recipes.into_iter().filter(|recipe| recipe.body.draft);
    let procedures = procedures.iter().filter(|procedure| procedure.front.draft);
    let files = recipes.map(|recipe| &recipe.place.file);
    files.chain(procedures.map(|procedure| &procedure.file)).map(ToString::to_string).collect()
}

/// What the steps of a packet refer to, in one language.
struct Known<'p> {
    prepared: &'p Prepared<'p>,
    machine: &'p Machine<'p>,
    machine_facts: MachineFacts,
    to: &'p Computed,
    recipe: &'p RecipeFile,
    settings: Vec<Setting>,
    dropped: Vec<Dropped>,
    rails: Vec<RailLayout>,
    rail_zones: BTreeMap<String, String>,
    web: Vec<Figure>,
    contents: Vec<Figure>,
    energy: Vec<EnergySource>,
    zeros: BTreeMap<String, ZeroEntry>,
    zones: Vec<Zone>,
    instruments: BTreeMap<String, Instrument>,
    values: BTreeMap<String, String>,
}

impl<'p> Known<'p> {
    fn of(
        prepared: &'p Prepared<'p>,
        machine: &'p Machine<'p>,
        [from, to]: [&'p Computed; 2],
        recipe: &'p Loaded<RecipeFile>,
        web: Vec<Figure>,
        job: &JobFacts,
    ) -> Known<'p> {
        let Changes { settings, dropped, rails } = changes(from, to, machine, prepared.house);
        let contents = to.contents.as_ref().map_or(&[][..], |contents| &contents.figures);
        let machine_facts = machine_facts(machine);
        let values = named::values(&named::Sources {
            language: prepared.house.language,
            job,
            machine: &machine_facts,
            from: &from.recipe,
            to: &to.recipe,
            settings: &settings,
            figures: &[&web, contents],
            rails: &rails,
            written: &to.written,
        });
        Known {
            prepared,
            machine,
            machine_facts,
            to,
            recipe: &recipe.body,
            settings,
            dropped,
            rails,
            rail_zones: machine.file.body.rails.iter().map(zone_of_rail).collect(),
            web,
            contents: contents.to_vec(),
            energy: energy(machine, &prepared.house),
            zeros: zeros(machine),
            zones: zones(machine),
            instruments: instruments(machine),
            values,
        }
    }

    fn inching(&self) -> &[String] {
        self.machine_facts.inching.as_ref().map_or(&[][..], |inching| &inching.sources)
    }

    fn facts<'a>(&'a self, language: Language, job: &'a JobFacts) -> Facts<'a> {
        let Prepared { plant, hazards, roles, house, .. } = self.prepared;
        let guarded = house.judging == Judging::Guarded;
        Facts {
            language,
            values: &self.values,
            settings: &self.settings,
            rails: &self.rails,
            rail_zones: &self.rail_zones,
            stop_position: &self.machine_facts.stop_position,
            energy: &self.energy,
            inching: self.inching(),
            zeros: &self.zeros,
            zones: &self.zones,
            instruments: &self.instruments,
            guards: guarded.then_some(&self.machine.instruments),
            contents: self.to.contents.as_ref(),
            first_piece: &self.recipe.first_piece,
            hazards,
            catalogue: &plant.hazards,
            roles,
            authorised: &plant.facts.body.authorised,
            electrical: plant.facts.body.electrical.as_deref(),
            group: job.lockout.as_ref(),
        }
    }
}

fn machine_facts(machine: &Machine) -> MachineFacts {
    let body = &machine.file.body;
    MachineFacts {
        id: body.id.clone(),
        name: body.name.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        datum: body.datum.clone(),
        stop_position: body.stop_position.clone(),
        inching: machine.inching.clone(),
        inspection: machine.inspection.clone(),
    }
}

/// The sources, thresholds of hot parts with the plant's other units beside them.
fn energy(machine: &Machine, house: &House) -> Vec<EnergySource> {
    let mut energy = machine.energy.clone();
    for part in energy.iter_mut().flat_map(|source| &mut source.hot_parts) {
        let also = also_at_most(house, &part.threshold).unwrap_or_default();
        part.threshold = in_brackets(part.threshold.clone(), &also);
    }
    energy
}

/// A greatest value in the plant's other units, never rounded up; none when it shows one system.
fn also_at_most(house: &House, most: &str) -> Option<String> {
    let Measure { quantity, unit } = Measure::parse(most).ok()?;
    let unit = unit?;
    let other = house.other(unit)?;
    let limits = Limits { low: None, high: Some(quantity) };
    let high = beside_limits(&limits, unit, 0, other).ok()?.high?;
    Some(format!("{high} {other}"))
}

fn zones(machine: &Machine) -> Vec<Zone> {
    let zone = |(id, entry): (&str, &ZoneEntry)| Zone {
        id: id.to_owned(),
        name: entry.name.clone(),
        guard: entry.guard.clone(),
        interlock: entry.interlock.clone(),
        sources: entry.sources.clone(),
        hazards: entry.hazards.clone(),
        at_once: entry.at_once,
    };
    machine.file.body.zones.iter().map(zone).collect()
}

fn zeros(machine: &Machine) -> BTreeMap<String, ZeroEntry> {
    let energy = machine.file.body.energy.iter();
    energy
        .filter_map(|(id, entry)| Some((id.to_owned(), on_both_sides(entry.zero.as_ref()?))))
        .collect()
}

fn instruments(machine: &Machine) -> BTreeMap<String, Instrument> {
    let instruments = machine.instruments.iter();
    instruments.map(|(id, instrument)| (id.clone(), instrument.facts.clone())).collect()
}

fn zone_of_rail((id, rail): (&str, &RailEntry)) -> (String, String) {
    (id.to_owned(), rail.zone.clone())
}

fn procedure_facts(procedure: &Procedure, language: Language) -> ProcedureFacts {
    let front = &procedure.front;
    let translated = procedure.translated.as_ref();
    ProcedureFacts {
        id: front.id.clone(),
        title: front.title.clone(),
        revision: front.revision.clone(),
        intended_use: front.intended_use.clone(),
        sha256: procedure.sha256.clone(),
        language: procedure.is_foreign(language).then_some(procedure.language),
        translated_from: translated.map_or(String::new(), |own| own.from.clone()),
        is_old: procedure.is_old(),
        flag: procedure.flag(language),
    }
}

#[cfg(test)]
mod tests {
    use super::{House, also_at_most};
    use crate::language::Language;
    use crate::plant::shape::Judging;
    use crate::quantity::System;

    #[test]
    fn a_threshold_in_other_units_is_never_rounded_up() {
        let check = |also, most, expected| {
            let house = House {
                first: System::Metric,
                also,
                judging: Judging::Plain,
                stock: None,
                language: Language::English,
            };
            assert_eq!(also_at_most(&house, most).as_deref(), expected, "{most}");
        };
        // Exactly 123.8 °F, 118.4 °F and 140 °F.
        check(Some(System::Inch), "51 °C", Some("123 °F"));
        check(Some(System::Inch), "48 °C", Some("118 °F"));
        check(Some(System::Inch), "60 °C", Some("140 °F"));
        check(None, "51 °C", None);
    }
}
