//! What all jobs of a plant share: people, hazards, machines and recipes understood, once.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::again::Memory;
use super::approvals;
use super::beside::beside;
use super::compute::{Computed, compute};
use super::group;
use super::hazards;
use super::house::House;
use super::inspections;
use super::model::{Hazard, NOBODY, Stage};
use super::needed::known_features;
use super::people;
use super::policy;
use super::web;
use crate::finding::policy::{Answered, Policy};
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::energy::ELECTRICAL;
use crate::plant::load::{Loaded, Plant};
use crate::plant::machine::{Machine, day, is_name, machine};
use crate::plant::shape::{EnergyEntry, JobFile, ParameterKind, RecipeFile};
use crate::procedure::bound::{is_quantity, kind_words};
use crate::quantity::Unit;
use crate::record::entry::is_identifier;
use crate::record::people::{People, Person, Term};
use crate::register::Judged;

/// A plant understood.
#[derive(Debug)]
pub struct Prepared<'a> {
    /// The files.
    pub plant: &'a Plant,
    /// Units, judging, stock.
    pub house: House<'a>,
    /// People and their roles.
    pub people: People,
    /// Roles of the plant.
    pub roles: Vec<String>,
    /// Hazard messages.
    pub hazards: BTreeMap<String, Hazard>,
    /// Machines.
    pub machines: BTreeMap<String, Machine<'a>>,
    /// Recipes, by machine and recipe: those without an error, on machines without an error. A
    /// packet of anything else would only repeat the same fault in every step.
    pub computed: BTreeMap<(String, String), Arc<Computed>>,
    /// The job that each job follows on its machine, by the file of the later one.
    pub last: BTreeMap<Arc<str>, String>,
    /// What the plant does with findings.
    pub policy: Policy,
    /// Findings so far that somebody answers for.
    pub answered: Vec<Answered>,
    /// Approvals and inspections, signed; none in the plant's other languages.
    pub register: Judged,
    /// The same plant in the other languages that its jobs ask for.
    pub editions: BTreeMap<Language, Prepared<'a>>,
}

/// Understands everything that does not depend on a job.
pub fn prepare<'a>(findings: &mut Findings, plant: &'a Plant) -> Prepared<'a> {
    prepare_again(findings, plant, &mut Memory::default())
}

/// The same for a plant that was understood before.
pub fn prepare_again<'a>(
    findings: &mut Findings,
    plant: &'a Plant,
    memory: &mut Memory,
) -> Prepared<'a> {
    memory.begin(plant);
    let mut prepared = understand(findings, plant, None, memory);
    // What is wrong was said once; the files are the same.
    let mut edition = |(language, edition): (&Language, &'a Plant)| {
        (*language, understand(&mut Findings::default(), edition, Some(&prepared), memory))
    };
    let editions = plant.editions.iter().map(&mut edition).collect();
    prepared.editions = editions;
    prepared.last = last_jobs(plant);
    prepared.register = approvals::register(findings, plant, &prepared.people);
    inspections::missing(findings, &prepared);
    prepared
}

/// Understands a plant in one language. Which recipes are sound was judged in the `main` one: rules
/// that know words know English ones.
fn understand<'a>(
    findings: &mut Findings,
    plant: &'a Plant,
    main: Option<&Prepared>,
    memory: &mut Memory,
) -> Prepared<'a> {
    let roles: Vec<String> = plant.facts.body.roles.names().map(str::to_owned).collect();
    plant_facts(findings, plant, &roles);
    intended_uses(findings, plant);
    parameters(findings, plant);
    orders(findings, plant);
    beside(findings, plant);
    let people = people(findings, plant, &roles);
    let policy = policy::policy(findings, plant, &people, &roles);
    let mut answered = Vec::new();
    let house = House::of(plant);
    if let Some(stock) = &plant.stock {
        web::stock(findings, stock);
    }
    let hazards: BTreeMap<_, _> = plant
        .hazards
        .iter()
        .map(|(id, loaded)| (id.clone(), hazards::hazard(findings, id, loaded)))
        .collect();
    let mut machines = BTreeMap::new();
    let mut faulty = BTreeSet::new();
    for (id, file) in &plant.machines {
        let mut own = Findings::default();
        machines.insert(id.clone(), machine(&mut own, file, &hazards, plant.language));
        if file.body.changeover.is_empty() {
            own.order_missing(&file.place.at("kind"), &file.body.kind);
        }
        hazards::sources_show_their_sign(&mut own, file, &hazards);
        answered.extend(policy.settle(&mut own));
        if own.has_errors() {
            faulty.insert(id);
        }
        findings.extend(own);
    }
    // What a machine that cannot be read has, nobody knows.
    if !plant.broken.iter().any(|file| file.starts_with("machines/")) {
        known_features(findings, plant, &machines);
    }
    let mut computed = BTreeMap::new();
    for (id, recipe) in &plant.recipes {
        recipe_facts(findings, plant, recipe);
        for (name, machine) in recipe.body.machines.iter().filter_map(|n| machines.get_key_value(n))
        {
            let (mut own, made) =
                memory.computed(plant.language, machine.file, (id, recipe), |findings| {
                    compute(findings, house, machine, recipe)
                });
            answered.extend(policy.settle(&mut own));
            let key = (name.clone(), id.clone());
            let is_sound = match main {
                Some(main) => main.computed.contains_key(&key),
                None => !own.has_errors() && !faulty.contains(name),
            };
            if is_sound {
                computed.insert(key, made);
            }
            findings.extend(own);
        }
    }
    answered.extend(policy.settle(findings));
    let editions = BTreeMap::new();
    Prepared {
        plant,
        house,
        people,
        roles,
        hazards,
        machines,
        computed,
        last: BTreeMap::new(),
        policy,
        answered,
        register: Judged::default(),
        editions,
    }
}

/// The job before each job on its machine, found once for all of them.
fn last_jobs(plant: &Plant) -> BTreeMap<Arc<str>, String> {
    let when = |job: &JobFile| (job.date.clone(), job.issued.clone(), job.id.clone());
    let mut by_machine: BTreeMap<&str, Vec<_>> = BTreeMap::new();
    for (id, job) in &plant.jobs {
        by_machine.entry(&job.body.machine).or_default().push((when(&job.body), id, job));
    }
    let mut last = BTreeMap::new();
    for mut jobs in by_machine.into_values() {
        jobs.sort_by(|(one, ..), (other, ..)| one.cmp(other));
        for (at, (own, _, job)) in jobs.iter().enumerate() {
            // Two that claim the same moment and name do not follow each other.
            let earlier = jobs.iter().take(at).rev().find(|(when, ..)| when < own);
            last.extend(earlier.map(|(_, id, _)| (job.place.file.clone(), (*id).clone())));
        }
    }
    last
}

fn plant_facts(findings: &mut Findings, plant: &Plant, roles: &[String]) {
    let facts = &plant.facts;
    accepts(findings, plant, roles);
    lockout_roles(findings, plant, roles);
    let approvals = &facts.body.approvals;
    for (key, role) in [("procedures", &approvals.procedures), ("recipes", &approvals.recipes)] {
        if let Some(role) = role.as_ref().filter(|role| !roles.contains(role)) {
            findings.unknown_role(&facts.place.at("approvals").at(key), role, roles);
        }
    }
    for (name, shift) in facts.body.shifts.iter() {
        if group::clock(&shift.ends).is_none() {
            findings.bad_clock(&facts.place.at("shifts").at(name).at("ends"), &shift.ends);
        }
        people::of_shift(findings, plant, name, shift);
    }
    let domain = &facts.body.domain;
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-' || c == '.';
    let labels = domain.split('.').all(|label| !label.is_empty());
    if !labels || !domain.contains('.') || domain.len() > 200 || !domain.chars().all(plain) {
        findings.bad_domain(&facts.place.at("domain"), domain);
    }
    let address = &facts.body.address;
    if !address.is_empty() && !is_address(address) {
        findings.bad_address(&facts.place.at("address"), address);
    }
}

/// Who accepts a deviation: roles of the plant, for procedures that there are.
fn accepts(findings: &mut Findings, plant: &Plant, roles: &[String]) {
    let (at, accepts) =
        (plant.facts.place.at("accepts_deviation"), &plant.facts.body.accepts_deviation);
    if !roles.contains(&accepts.default) {
        findings.unknown_role(&at.at("default"), &accepts.default, roles);
    }
    let known: Vec<&str> = plant.procedures.keys().map(String::as_str).collect();
    for (procedure, role) in accepts.by_procedure.iter() {
        let at = at.at(procedure);
        if !known.contains(&procedure) {
            findings.unknown_procedure(&at, procedure, &known);
        }
        if role != NOBODY && !roles.contains(role) {
            findings.unknown_role(&at, role, roles);
        }
    }
}

/// Whether a sheet can point to a site there: `https://host/folder`, in plain letters.
fn is_address(text: &str) -> bool {
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    let plain = |c: char| c.is_ascii_alphanumeric() || "-._~/:".contains(c);
    rest.is_some_and(|rest| {
        let whole = rest.split('/').all(|part| !part.is_empty());
        whole && text.len() <= 200 && rest.chars().all(plain)
    })
}

/// A lockout procedure says who enforces it and what it is for, 29 CFR 1910.147(c)(4)(ii).
fn intended_uses(findings: &mut Findings, plant: &Plant) {
    let facts = &plant.facts;
    let mut machines = plant.machines.values();
    let has_energy = machines.any(|machine| machine.body.energy.iter().next().is_some());
    if has_energy && facts.body.enforced_by.trim().is_empty() {
        findings.nobody_enforces(&facts.place.at("name"));
    }
    for procedure in plant.procedures.values() {
        let stages = procedure.steps.iter().map(|step| step.facts.stage);
        if stages.into_iter().any(Stage::is_for_authorised)
            && procedure.front.intended_use.trim().is_empty()
        {
            let at = Place::block(&procedure.file, procedure.front_range.clone()).at("id");
            findings.no_intended_use(&at, &procedure.front.id);
        }
    }
}

/// Parameters of procedures: a name each, a unit where they are quantities, defaults that fit it.
fn parameters(findings: &mut Findings, plant: &Plant) {
    for procedure in plant.procedures.values() {
        let front = Place::block(&procedure.file, procedure.front_range.clone());
        for (name, entry) in procedure.front.parameters.iter() {
            let at = front.at("parameters").at(name);
            if !is_name(name) {
                findings.bad_name(&at.key(), name);
            }
            if entry.kind != ParameterKind::Quantity {
                continue;
            }
            let Some(unit) = &entry.unit else {
                findings.missing_key(&at, "unit");
                continue;
            };
            if Unit::find(unit).is_none() {
                findings.unknown_unit(&at.at("unit"), unit);
            } else if let Some(text) = entry.default.as_ref().filter(|one| !is_quantity(entry, one))
            {
                let what = (name, kind_words(entry), text.as_str());
                findings.bad_parameter(&at.at("default"), &procedure.front.id, what, &[]);
            }
        }
    }
}

/// Orders for kinds of machines that the plant has.
fn orders(findings: &mut Findings, plant: &Plant) {
    let kinds: BTreeSet<&String> = plant.machines.values().map(|own| &own.body.kind).collect();
    let kinds: Vec<&String> = kinds.into_iter().collect();
    let at = plant.facts.place.at("changeovers");
    let is_whole = !plant.broken.iter().any(|file| file.starts_with("machines/"));
    for kind in plant.facts.body.changeovers.names().filter(|_| is_whole) {
        if !kinds.iter().any(|own| *own == kind) {
            findings.unknown_kind(&at.at(kind).key(), kind, &kinds);
        }
    }
}

/// Who may lock out, and who measures electrical zero.
fn lockout_roles(findings: &mut Findings, plant: &Plant, roles: &[String]) {
    let facts = &plant.facts;
    let body = &facts.body;
    for (index, role) in body.authorised.iter().enumerate() {
        if !roles.contains(role) {
            findings.unknown_role(&facts.place.at("authorised").item(index), role, roles);
        }
    }
    let energy = || plant.machines.values().flat_map(|machine| machine.body.energy.iter());
    if body.authorised.is_empty() && energy().next().is_some() {
        findings.nobody_authorised(&facts.place);
    }
    let measured =
        |(_, source): &(&str, &EnergyEntry)| source.kind == ELECTRICAL && source.zero.is_some();
    match &body.electrical {
        None if energy().any(|source| measured(&source)) => {
            findings.no_electrical_role(&facts.place);
        }
        Some(role) if !roles.contains(role) => {
            findings.unknown_role(&facts.place.at("electrical"), role, roles);
        }
        Some(role) if !body.authorised.is_empty() && !body.authorised.contains(role) => {
            findings.electrical_not_authorised(&facts.place.at("electrical"), role);
        }
        _ => {}
    }
}

fn people(findings: &mut Findings, plant: &Plant, roles: &[String]) -> People {
    let at = plant.people.place.at("people");
    let mut seen = BTreeSet::new();
    let mut list = Vec::new();
    for (index, entry) in plant.people.body.people.iter().enumerate() {
        let at = at.item(index);
        if !is_principal(&entry.id) {
            findings.bad_person(&at.at("id"), &entry.id);
        }
        if !seen.insert(entry.id.as_str()) {
            findings.person_twice(&at.at("id"), &entry.id);
        }
        let mut terms = Vec::new();
        for (index, term) in entry.roles.iter().enumerate() {
            let at = at.at("roles").item(index);
            if !roles.contains(&term.role) {
                findings.unknown_role(&at.at("role"), &term.role, roles);
            }
            let from = day(findings, &at.at("from"), &term.from);
            let until = term.until.as_ref().map(|until| day(findings, &at.at("until"), until));
            if let Some(from) = from {
                terms.push(Term { role: term.role.clone(), from, until: until.flatten() });
            }
        }
        list.push(Person { id: entry.id.clone(), name: entry.name.clone(), roles: terms });
    }
    list.into_iter().collect()
}

/// An identifier that can stand in an allowed-signers file: no blanks, commas, wildcards.
fn is_principal(text: &str) -> bool {
    text.len() <= 200 && is_identifier(text)
}

fn recipe_facts(findings: &mut Findings, plant: &Plant, recipe: &Loaded<RecipeFile>) {
    day(findings, &recipe.place.at("date"), &recipe.body.date);
    for (index, id) in recipe.body.machines.iter().enumerate() {
        let at = recipe.place.at("machines").item(index);
        known_machine(findings, plant, &at, id);
    }
    for (key, parts) in [("parts", &recipe.body.parts), ("material", &recipe.body.material)] {
        for (index, _) in parts.iter().enumerate().filter(|(_, part)| part.count == 0) {
            findings.not_a_count(&recipe.place.at(key).item(index).at("count"));
        }
    }
}

/// Reports a machine nobody knows; true when it is known.
pub(super) fn known_machine(findings: &mut Findings, plant: &Plant, at: &Place, id: &str) -> bool {
    let known = plant.machines.contains_key(id);
    if !known && !plant.broken.contains(&format!("machines/{id}")) {
        let machines: Vec<&String> = plant.machines.keys().collect();
        findings.unknown_machine(at, id, &machines);
    }
    known
}
