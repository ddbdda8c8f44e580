//! The walk over a plant: first where each thing stands, then who uses it, then which open jobs do.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::{Home, Index, Kind, Thing, Use, Who};
use crate::finding::Place;
use crate::formula::Formula;
use crate::packet::DEEPEST;
use crate::packet::Packet;
use crate::packet::model::SHIFT_CHANGE;
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::{
    LayoutEntry, MachineFile, ParameterKind, RecipeFile, StepEntry, UseEntry, WebEntry,
};
use crate::procedure::values::{Braces, braces};
use crate::procedure::{Procedure, StepText};

/// Everything that is used in a plant. `packets` are those of its jobs, `open` the jobs that are not
/// closed.
pub fn index<'a>(
    plant: &'a Plant,
    packets: &'a BTreeMap<String, Arc<Packet>>,
    open: &BTreeSet<&str>,
) -> Index<'a> {
    let mut walk = Walk::new(plant);
    walk.homes();
    plant.machines.values().for_each(|machine| walk.machine(machine));
    plant.recipes.values().for_each(|recipe| walk.recipe(recipe));
    plant.procedures.values().for_each(|procedure| walk.procedure(procedure));
    walk.plant_files();
    let Walk { mut things, .. } = walk;
    judge(plant, packets, &mut things);
    open_jobs(plant, packets, open, &mut things);
    Index { things }
}

type Things<'a> = BTreeMap<Kind, BTreeMap<String, Thing<'a>>>;

struct Walk<'a> {
    plant: &'a Plant,
    things: Things<'a>,
    /// Of each rail's name, the zones it is in and the screws that clamp it.
    rails: BTreeMap<&'a str, (BTreeSet<&'a str>, BTreeSet<&'a str>)>,
    /// Settings that somebody sets by hand, which a step with `repeat: settings` goes through.
    by_hand: BTreeSet<&'a str>,
    /// Values that places give to the parameters of each procedure.
    given: Given<'a>,
}

/// By procedure and parameter, all values.
type Given<'a> = BTreeMap<&'a str, BTreeMap<&'a str, BTreeSet<&'a str>>>;

impl<'a> Walk<'a> {
    fn new(plant: &'a Plant) -> Walk<'a> {
        let mut rails: BTreeMap<&str, (BTreeSet<&str>, BTreeSet<&str>)> = BTreeMap::new();
        for (id, rail) in plant.machines.values().flat_map(|machine| machine.body.rails.iter()) {
            let (zones, screws) = rails.entry(id).or_default();
            zones.insert(rail.zone.as_str());
            screws.extend(rail.clamp.as_deref());
        }
        let settings = plant.recipes.values().flat_map(|recipe| recipe.body.settings.iter());
        let by_hand = settings.filter(|(_, setting)| !setting.place.is_empty());
        let by_hand = by_hand.map(|(id, _)| id).collect();
        Walk { plant, things: BTreeMap::new(), rails, by_hand, given: given(plant) }
    }

    /// Where everything stands that somebody has to write down before it can be used.
    fn homes(&mut self) {
        let plant = self.plant;
        for (id, procedure) in &plant.procedures {
            let at = Place::block(&procedure.file, procedure.front_range.clone()).at("id");
            self.home(Kind::Procedure, id, &procedure.front.title, Who::Procedure(id), at);
        }
        for (id, hazard) in &plant.hazards {
            self.home(Kind::Hazard, id, &hazard.body.hazard, Who::Plant, hazard.place.key());
        }
        let facts = &plant.facts;
        for (id, _) in facts.body.roles.iter() {
            let at = facts.place.at("roles").at(id).key();
            self.home(Kind::Role, id, "", Who::Plant, at);
        }
        if let Some(stock) = &plant.stock {
            for (id, film) in stock.body.films.iter() {
                let at = stock.place.at("films").at(id).key();
                self.home(Kind::Film, id, &film.name, Who::Plant, at);
            }
        }
        plant.machines.iter().for_each(|(id, machine)| self.of_machine(id, machine));
        plant.recipes.iter().for_each(|(id, recipe)| self.of_recipe(id, recipe));
    }

    fn of_machine(&mut self, id: &'a str, machine: &'a Loaded<MachineFile>) {
        let (who, at, body) = (Who::Machine(id), &machine.place, &machine.body);
        for (id, entry) in body.instruments.iter() {
            self.home(Kind::Instrument, id, &entry.name, who, at.at("instruments").at(id).key());
        }
        for (id, entry) in body.fasteners.iter() {
            self.home(Kind::Fastener, id, &entry.name, who, at.at("fasteners").at(id).key());
        }
        for (id, entry) in body.zones.iter() {
            self.home(Kind::Zone, id, &entry.name, who, at.at("zones").at(id).key());
        }
        for (id, entry) in body.energy.iter() {
            self.home(Kind::Energy, id, &entry.name, who, at.at("energy").at(id).key());
        }
        for (id, _) in body.facts.iter() {
            let at = at.at("facts").at(id).key();
            self.home(Kind::Fact, &format!("machine.{id}"), "", who, at);
        }
        for (rail, entry) in body.rails.iter() {
            for (id, _) in entry.facts.iter() {
                let at = at.at("rails").at(rail).at("facts").at(id).key();
                self.home(Kind::Fact, &format!("{rail}.{id}"), "", who, at);
            }
        }
    }

    fn of_recipe(&mut self, id: &'a str, recipe: &'a Loaded<RecipeFile>) {
        let (who, at, body) = (Who::Recipe(id), &recipe.place, &recipe.body);
        for (id, _) in body.inputs.iter() {
            self.home(Kind::Input, id, "", who, at.at("inputs").at(id).key());
        }
        for (id, _) in body.tables.iter() {
            self.home(Kind::Table, id, "", who, at.at("tables").at(id).key());
        }
        for (id, entry) in body.settings.iter() {
            self.home(Kind::Setting, id, &entry.name, who, at.at("settings").at(id).key());
        }
    }

    fn home(&mut self, kind: Kind, id: &str, name: &'a str, owner: Who<'a>, place: Place) {
        let thing = self.things.entry(kind).or_default().entry(id.to_owned()).or_default();
        thing.names.extend(Some(name).filter(|name| !name.is_empty() && *name != id));
        thing.homes.push(Home { owner, place, is_used: false });
    }

    /// A use of something that stands somewhere; of nothing else, which the check has said.
    fn used(&mut self, kind: Kind, id: &str, by: Who<'a>, place: Place) {
        for id in self.meant(by, id) {
            let known = self.things.get_mut(&kind).and_then(|things| things.get_mut(&id));
            if let Some(thing) = known {
                thing.uses.push(Use { by, place: place.clone() });
            }
        }
    }

    /// What a name of a step means: itself, or where it begins with a parameter each of its values.
    fn meant(&self, by: Who<'a>, name: &str) -> Vec<String> {
        let (first, rest) = name.split_once('.').map_or((name, None), |(a, b)| (a, Some(b)));
        let values = match by {
            Who::Step { procedure, .. } => self.given.get(procedure).and_then(|own| own.get(first)),
            _ => None,
        };
        let Some(values) = values else { return vec![name.to_owned()] };
        let whole =
            |value: &&str| rest.map_or((*value).to_owned(), |rest| format!("{value}.{rest}"));
        values.iter().map(whole).collect()
    }

    /// A use of something that stands nowhere else: tools, parts.
    fn fetched(&mut self, kind: Kind, id: &str, by: Who<'a>, place: Place) {
        let things = self.things.entry(kind).or_default();
        things.entry(id.to_owned()).or_default().uses.push(Use { by, place });
    }

    fn all(&mut self, kind: Kind, ids: &[String], by: Who<'a>, at: &Place) {
        for (index, id) in ids.iter().enumerate() {
            self.used(kind, id, by, at.item(index));
        }
    }

    fn machine(&mut self, machine: &'a Loaded<MachineFile>) {
        let (at, body) = (&machine.place, &machine.body);
        let who = Who::Machine(&body.id);
        // An order of the plant for all machines of a kind stands in the plant's file.
        let order = match &body.order_of_kind {
            Some(kind) => self.plant.facts.place.at("changeovers").at(kind),
            None => at.at("changeover"),
        };
        for (index, entry) in body.changeover.iter().enumerate() {
            self.used(Kind::Procedure, &entry.used.procedure, who, order.item(index));
            self.told(who, &order.item(index).at("with"), &entry.used);
        }
        for (id, entry) in body.fasteners.iter() {
            if let Some(wrench) = &entry.wrench {
                let at = at.at("fasteners").at(id).at("wrench");
                self.used(Kind::Instrument, wrench, who, at);
            }
        }
        for (id, entry) in body.rails.iter() {
            let at = at.at("rails").at(id);
            self.used(Kind::Zone, &entry.zone, who, at.at("zone"));
            if let Some(clamp) = &entry.clamp {
                self.used(Kind::Fastener, clamp, who, at.at("clamp"));
            }
        }
        for (id, entry) in body.zones.iter() {
            let at = at.at("zones").at(id);
            self.all(Kind::Energy, &entry.sources, who, &at.at("sources"));
            self.all(Kind::Hazard, &entry.hazards, who, &at.at("hazards"));
        }
        for (id, entry) in body.energy.iter() {
            let at = at.at("energy").at(id);
            self.all(Kind::Hazard, &entry.hazards, who, &at.at("hazards"));
            if let Some(meter) = entry.zero.as_ref().and_then(|zero| zero.instrument.as_ref()) {
                self.used(Kind::Instrument, meter, who, at.at("zero").at("instrument"));
            }
        }
        if let Some(inching) = &body.inching {
            self.all(Kind::Energy, &inching.sources, who, &at.at("inching").at("sources"));
        }
    }

    /// What the place that uses a procedure names in the values of its parameters.
    fn told(&mut self, who: Who<'a>, at: &Place, used: &'a UseEntry) {
        let Some(procedure) = self.plant.procedures.get(&used.procedure) else { return };
        for (name, value) in used.with.iter() {
            let kind = match procedure.front.parameters.get(name).map(|entry| entry.kind) {
                Some(ParameterKind::Zone) => Kind::Zone,
                Some(ParameterKind::Setting) => Kind::Setting,
                Some(ParameterKind::Instrument) => Kind::Instrument,
                _ => continue,
            };
            self.used(kind, value, who, at.at(name));
        }
    }

    fn recipe(&mut self, recipe: &'a Loaded<RecipeFile>) {
        let (at, body) = (&recipe.place, &recipe.body);
        let who = Who::Recipe(&body.id);
        for (id, entry) in body.settings.iter() {
            let at = at.at("settings").at(id);
            self.formula(who, &at.at("formula"), &entry.formula);
            self.instrument(who, &at, entry.instrument.as_ref());
        }
        body.web.iter().for_each(|web| self.web(who, &at.at("web"), web));
        if let Some(contents) = &body.net_contents {
            let at = at.at("net_contents");
            self.used(Kind::Setting, &contents.of, who, at.at("of"));
            self.formula(who, &at.at("label"), &contents.label);
        }
        for (rail, entry) in body.layouts.iter() {
            self.layout(who, &at.at("layouts").at(rail), entry);
        }
        for (index, piece) in body.first_piece.iter().enumerate() {
            let at = at.at("first_piece").item(index);
            self.used(Kind::Setting, &piece.of, who, at.at("of"));
            self.instrument(who, &at, piece.instrument.as_ref());
        }
        for (key, parts) in [("parts", &body.parts), ("material", &body.material)] {
            for (index, part) in parts.iter().enumerate() {
                let at = at.at(key).item(index).at("item");
                self.fetched(Kind::Part, &part.item, who, at);
            }
        }
    }

    fn instrument(&mut self, who: Who<'a>, at: &Place, id: Option<&String>) {
        if let Some(id) = id {
            self.used(Kind::Instrument, id, who, at.at("instrument"));
        }
    }

    fn web(&mut self, who: Who<'a>, at: &Place, web: &WebEntry) {
        let written = [
            ("flat_width", Some(&web.flat_width)),
            ("seal", web.seal.as_ref()),
            ("gusset", web.gusset.as_ref()),
            ("lanes", Some(&web.lanes)),
            ("across", web.across.as_ref()),
            ("trim", Some(&web.trim)),
            ("cut_length", Some(&web.cut_length)),
            ("waste", Some(&web.waste)),
            ("threading", Some(&web.threading)),
        ];
        for (key, text) in written {
            text.into_iter().for_each(|text| self.formula(who, &at.at(key), text));
        }
        if let Some(film) = &web.film {
            self.used(Kind::Film, film, who, at.at("film"));
        }
    }

    fn layout(&mut self, who: Who<'a>, at: &Place, entry: &LayoutEntry) {
        if let Some(knives) = &entry.knives {
            let at = at.at("knives");
            let written =
                [("lanes", &knives.lanes), ("strip", &knives.strip), ("trim", &knives.trim)];
            written.into_iter().for_each(|(key, text)| self.formula(who, &at.at(key), text));
        }
        if let Some(guides) = &entry.guides {
            self.formula(who, &at.at("guides").at("opening"), &guides.opening);
        }
        self.instrument(who, at, entry.instrument.as_ref());
    }

    fn formula(&mut self, who: Who<'a>, at: &Place, text: &str) {
        let Ok(formula) = Formula::parse(text) else { return };
        for (name, range) in formula.names() {
            self.value(who, at.within(range), name);
        }
        for (name, range) in formula.tables() {
            self.used(Kind::Table, name, who, at.within(range));
        }
    }

    /// A name where a value belongs: `strip`, `strip.limits`, `machine.bore`, `knife_rail.hex_key`.
    fn value(&mut self, who: Who<'a>, place: Place, name: &str) {
        for name in self.meant(who, name) {
            self.value_named(who, place.clone(), &name);
        }
    }

    fn value_named(&mut self, who: Who<'a>, place: Place, name: &str) {
        let Some((first, rest)) = name.split_once('.') else {
            self.used(Kind::Setting, name, who, place.clone());
            return self.used(Kind::Input, name, who, place);
        };
        let is_known = |kind, id: &str| {
            self.things
                .get(&kind)
                .is_some_and(|things: &BTreeMap<String, Thing>| things.contains_key(id))
        };
        if is_known(Kind::Fact, name) {
            self.used(Kind::Fact, name, who, place);
        } else if is_known(Kind::Fastener, first) {
            self.used(Kind::Fastener, first, who, place);
        } else if matches!(rest, "limits" | "was") {
            self.used(Kind::Setting, first, who, place);
        } else if let Some((_, screws)) = self.rails.get(first) {
            for screw in screws.clone() {
                self.used(Kind::Fastener, screw, who, place.clone());
            }
        }
    }

    fn procedure(&mut self, procedure: &'a Procedure) {
        let who = Who::Procedure(&procedure.front.id);
        for include in &procedure.includes {
            let at = Place::bytes(&procedure.file, include.block.clone());
            self.used(Kind::Procedure, &include.used.procedure, who, at);
        }
        for step in &procedure.steps {
            self.step(procedure, step);
        }
    }

    fn step(&mut self, procedure: &'a Procedure, text: &'a StepText) {
        let StepText { title, slug, facts, .. } = text;
        let who = Who::Step { procedure: &procedure.front.id, slug, title };
        let at = Place::block(&procedure.file, text.block.clone());
        for (name, range) in &text.names {
            self.value(who, Place::bytes(&procedure.file, range.clone()), name);
        }
        for (index, tool) in facts.tools.iter().enumerate() {
            self.fetched(Kind::Tool, tool, who, at.at("tools").item(index));
        }
        for (key, texts) in [("tools", &facts.tools), ("checks", &facts.checks)] {
            for (index, text) in texts.iter().enumerate() {
                self.text(who, &at.at(key).item(index), text);
            }
        }
        self.all(Kind::Hazard, &facts.hazards, who, &at.at("hazards"));
        self.step_facts(who, &at, facts);
    }

    fn text(&mut self, who: Who<'a>, at: &Place, text: &str) {
        for brace in braces(text) {
            if let Braces::Name { name, range, .. } = brace {
                self.value(who, at.within(range), &name);
            }
        }
    }

    fn step_facts(&mut self, who: Who<'a>, at: &Place, facts: &StepEntry) {
        if let Some(zone) = &facts.zone {
            for zone in self.meant(who, zone) {
                // A step may say the rail it works on, and means its zone.
                let of_rail = self.rails.get(zone.as_str()).map(|(zones, _)| zones.clone());
                for zone in of_rail.unwrap_or_else(|| BTreeSet::from([zone.as_str()])) {
                    self.used(Kind::Zone, zone, who, at.at("zone"));
                }
            }
        }
        if let Some(reading) = &facts.reading {
            let at = at.at("reading");
            if let Some(of) = &reading.of {
                self.used(Kind::Setting, of, who, at.at("of"));
            }
            self.instrument(who, &at, reading.instrument.as_ref());
        }
        self.all(Kind::Setting, &facts.when.changes, who, &at.at("when").at("changes"));
        if facts.repeat.as_deref() == Some("settings") {
            for setting in self.by_hand.clone() {
                self.used(Kind::Setting, setting, who, at.at("repeat"));
            }
        }
        let sign = &facts.sign;
        let signs = [
            ("performed", &sign.performed),
            ("verified", &sign.verified),
            ("released", &sign.released),
        ];
        for (key, role) in signs {
            if let Some(role) = role {
                self.used(Kind::Role, role, who, at.at("sign").at(key));
            }
        }
    }

    /// What the files of the plant as a whole name: roles, procedures; and jobs.
    fn plant_files(&mut self) {
        let plant = self.plant;
        let (at, body) = (&plant.facts.place, &plant.facts.body);
        let accepts = at.at("accepts_deviation");
        self.used(Kind::Role, &body.accepts_deviation.default, Who::Plant, accepts.clone());
        for (procedure, role) in body.accepts_deviation.by_procedure.iter() {
            self.used(Kind::Role, role, Who::Plant, accepts.at(procedure));
            self.used(Kind::Procedure, procedure, Who::Plant, accepts.at(procedure).key());
        }
        self.all(Kind::Role, &body.authorised, Who::Plant, &at.at("authorised"));
        self.all(Kind::Role, &body.findings.by, Who::Plant, &at.at("findings").at("by"));
        let approvals = at.at("approvals");
        let asked = [
            (&body.electrical, at.at("electrical")),
            (&body.approvals.procedures, approvals.at("procedures")),
            (&body.approvals.recipes, approvals.at("recipes")),
        ];
        for (role, at) in asked {
            role.iter().for_each(|role| self.used(Kind::Role, role, Who::Plant, at.clone()));
        }
        let at = plant.people.place.at("people");
        for (index, person) in plant.people.body.people.iter().enumerate() {
            for (held, role) in person.roles.iter().enumerate() {
                let at = at.item(index).at("roles").item(held).at("role");
                self.used(Kind::Role, &role.role, Who::Person(&person.id), at);
            }
        }
        for (id, job) in &plant.jobs {
            let change = job.body.lockout.as_ref().and_then(|group| group.shift_change.as_ref());
            if let Some(change) = change {
                let at = job.place.at("lockout").at("shift_change");
                self.used(Kind::Procedure, &change.before, Who::Job(id), at.at("before"));
                self.used(Kind::Procedure, SHIFT_CHANGE, Who::Job(id), at.key());
            }
        }
    }
}

/// The values that places give to parameters. What an included procedure is told may be a parameter of
/// the one around it, to the depth to which procedures may include each other.
fn given(plant: &Plant) -> Given<'_> {
    let mut given = Given::new();
    for (id, procedure) in &plant.procedures {
        for (name, entry) in procedure.front.parameters.iter() {
            let values = given.entry(id).or_default().entry(name).or_default();
            values.extend(entry.default.as_deref());
        }
    }
    for entry in plant.machines.values().flat_map(|machine| &machine.body.changeover) {
        tell(&mut given, &entry.used, None);
    }
    for _ in 0..DEEPEST {
        for (id, procedure) in &plant.procedures {
            procedure.includes.iter().for_each(|one| tell(&mut given, &one.used, Some(id)));
        }
    }
    given
}

fn tell<'a>(given: &mut Given<'a>, used: &'a UseEntry, around: Option<&str>) {
    for (name, value) in used.with.iter() {
        let outer = around.and_then(|id| given.get(id)).and_then(|own| own.get(value.as_str()));
        let told = outer.cloned().unwrap_or_else(|| BTreeSet::from([value.as_str()]));
        let own = given.get_mut(used.procedure.as_str()).and_then(|own| own.get_mut(name));
        own.into_iter().for_each(|values| values.extend(&told));
    }
}

/// Says of each place where a thing stands whether anything that can reach it uses it.
fn judge<'a>(
    plant: &'a Plant,
    packets: &'a BTreeMap<String, Arc<Packet>>,
    things: &mut Things<'a>,
) {
    let reach = Reach::of(plant);
    for thing in things.values_mut().flat_map(BTreeMap::values_mut) {
        let by: BTreeSet<Who> = thing.uses.iter().map(|one| one.by).collect();
        let by_plant = by.iter().any(|who| !matches!(who, Who::Person(_)));
        let procedures: BTreeSet<&str> = by
            .iter()
            .filter_map(|who| match who {
                Who::Step { procedure, .. } => Some(*procedure),
                _ => None,
            })
            .collect();
        let names = |list: &[&str]| list.iter().any(|id| procedures.contains(id));
        for home in &mut thing.homes {
            home.is_used = match home.owner {
                Who::Machine(id) => {
                    let recipes = reach.recipes.get(id).map_or(&[][..], Vec::as_slice);
                    by.contains(&home.owner)
                        || recipes.iter().any(|recipe| by.contains(&Who::Recipe(recipe)))
                        || names(reach.steps_of_machine(id))
                }
                Who::Recipe(id) => {
                    let machines = reach.machines.get(id).map_or(&[][..], Vec::as_slice);
                    by.contains(&home.owner)
                        || machines.iter().any(|machine| names(reach.steps_of_machine(machine)))
                }
                _ => by_plant,
            };
        }
    }
    // Some procedures go into a packet by themselves.
    let worked = packets.values().flat_map(|packet| packet.steps.iter());
    let worked: BTreeSet<&str> = worked.map(|step| step.procedure.as_str()).collect();
    for (id, thing) in things.get_mut(&Kind::Procedure).into_iter().flatten() {
        if worked.contains(id.as_str()) {
            thing.homes.iter_mut().for_each(|home| home.is_used = true);
        }
    }
}

/// What works with what: procedures and recipes of each machine, machines of each recipe.
struct Reach<'a> {
    procedures: BTreeMap<&'a str, Vec<&'a str>>,
    recipes: BTreeMap<&'a str, Vec<&'a str>>,
    machines: BTreeMap<&'a str, Vec<&'a str>>,
}

impl<'a> Reach<'a> {
    fn of(plant: &'a Plant) -> Reach<'a> {
        let of_machine = |(id, machine): (&'a String, &'a Loaded<MachineFile>)| {
            let own = plant.procedures_of(&machine.body).into_iter();
            let own = own.map(|procedure| procedure.front.id.as_str());
            (id.as_str(), own.chain([SHIFT_CHANGE]).collect())
        };
        let procedures = plant.machines.iter().map(of_machine).collect();
        let mut recipes: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        let mut machines: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (id, recipe) in &plant.recipes {
            for machine in &recipe.body.machines {
                recipes.entry(machine).or_default().push(id);
                machines.entry(id).or_default().push(machine);
            }
        }
        Reach { procedures, recipes, machines }
    }

    fn steps_of_machine(&self, id: &str) -> &[&'a str] {
        self.procedures.get(id).map_or(&[], Vec::as_slice)
    }
}

/// Puts the open jobs beside what they use: through their machine, their recipes or a step.
fn open_jobs<'a>(
    plant: &'a Plant,
    packets: &'a BTreeMap<String, Arc<Packet>>,
    open: &BTreeSet<&str>,
    things: &mut Things<'a>,
) {
    let mut jobs = Jobs::default();
    for (id, job) in plant.jobs.iter().filter(|(id, _)| open.contains(id.as_str())) {
        jobs.by_machine.entry(&job.body.machine).or_default().push(id);
        for recipe in BTreeSet::from([&job.body.from, &job.body.to]) {
            jobs.by_recipe.entry(recipe).or_default().push(id);
        }
        for step in packets.get(id).into_iter().flat_map(|packet| &packet.steps) {
            jobs.by_step.entry(&step.id).or_default().push(id);
        }
    }
    for thing in things.values_mut().flat_map(BTreeMap::values_mut) {
        let homes: BTreeSet<Who> = thing.homes.iter().map(|home| home.owner).collect();
        let is_bound = homes.iter().any(|who| matches!(who, Who::Machine(_) | Who::Recipe(_)));
        let has_it = |job: &str| {
            let Some(job) = plant.jobs.get(job) else { return false };
            let [machine, from, to] = [&job.body.machine, &job.body.from, &job.body.to];
            homes.contains(&Who::Machine(machine))
                || homes.contains(&Who::Recipe(from))
                || homes.contains(&Who::Recipe(to))
        };
        let using = thing.uses.iter().flat_map(|one| jobs.of(one.by)).copied();
        thing.jobs = using.filter(|job| !is_bound || has_it(job)).collect();
    }
}

#[derive(Default)]
struct Jobs<'a> {
    by_machine: BTreeMap<&'a str, Vec<&'a str>>,
    by_recipe: BTreeMap<&'a str, Vec<&'a str>>,
    by_step: BTreeMap<&'a str, Vec<&'a str>>,
}

impl<'a> Jobs<'a> {
    fn of(&self, who: Who) -> &[&'a str] {
        let found = match who {
            Who::Machine(id) => self.by_machine.get(id),
            Who::Recipe(id) => self.by_recipe.get(id),
            Who::Step { procedure, slug, .. } => {
                self.by_step.get(format!("{procedure}.{slug}").as_str())
            }
            Who::Plant | Who::Person(_) | Who::Procedure(_) | Who::Job(_) => None,
        };
        found.map_or(&[], Vec::as_slice)
    }
}
