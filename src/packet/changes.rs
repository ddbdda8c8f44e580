//! What changes from the recipe on the machine to the recipe wanted.

use std::collections::BTreeMap;

use super::compute::Computed;
use super::house::House;
use super::model::{
    Change, Dropped, Edges, Holder, Lane, Move, Obstacle, RailLayout, Setting, Stepping,
};
use super::positions::Positions;
use crate::language::Language;
use crate::layout::{Action, Plan, Stand, plan_moves};
use crate::plant::machine::{Machine, RailFacts};
use crate::plant::shape::Side;
use crate::quantity::{
    Dimension, Limits, Measure, Number, PrintedLimits, Quantity, Rounding, Unit, beside, inward,
    inward_to_steps,
};

/// Decimals of an error that is stated.
const PLACES: u32 = 3;

/// What becomes of everything from one recipe to the next, on one machine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changes {
    /// The wanted settings, each with what it was.
    pub settings: Vec<Setting>,
    /// Settings that only the old recipe has.
    pub dropped: Vec<Dropped>,
    /// The wanted rails, each holder with its old position, and the moves in a safe order.
    pub rails: Vec<RailLayout>,
}

/// Compares two recipes computed for the same machine.
pub fn changes(from: &Computed, to: &Computed, machine: &Machine, house: House) -> Changes {
    Changes {
        settings: to
            .settings
            .iter()
            .map(|new| compared(from, to, machine, house.language, new))
            .collect(),
        dropped: dropped(from, to),
        rails: rails(from, to, &machine.rails, house),
    }
}

/// A wanted setting with what it was before, in the same unit.
fn compared(
    from: &Computed,
    to: &Computed,
    machine: &Machine,
    language: Language,
    setting: &Setting,
) -> Setting {
    let unit = unit_of(&setting.unit);
    let old = from.targets.get(&setting.id).and_then(|(was, _)| was.in_unit(unit).ok());
    let new = to.targets.get(&setting.id);
    let new = new.and_then(|(target, places)| Some((target.in_unit(unit).ok()?, *places)));
    let Some((old, (new, places))) = old.zip(new) else {
        return Setting { was: None, change: Change::New, ..setting.clone() };
    };
    let marks = setting.instrument.as_ref().and_then(|id| machine.instruments.get(id)?.fractions);
    let marks = marks.filter(|_| !setting.fraction.is_empty());
    let shown = |number: Number| {
        let fraction = marks.and_then(|marks| number.fraction(marks));
        fraction.unwrap_or_else(|| number.decimal(places))
    };
    let was = Some(shown(old));
    if old.decimal(places) == setting.target {
        return Setting { was, change: Change::Keep, ..setting.clone() };
    }
    let by = new.sub(old).ok().map_or(String::new(), |way| {
        let by = language.decimals(&shown(way.abs()));
        match way.is_negative() {
            true => language.text("lines-down", &[("by", by.into())]),
            false => language.text("lines-up", &[("by", by.into())]),
        }
    });
    Setting { was, change: Change::Change, by, ..setting.clone() }
}

/// Settings of the recipe on the machine that the wanted one does not have.
fn dropped(from: &Computed, to: &Computed) -> Vec<Dropped> {
    let gone = from.settings.iter().filter(|old| !to.targets.contains_key(&old.id));
    gone.map(|old| Dropped {
        id: old.id.clone(),
        name: old.name.clone(),
        was: old.set_to(),
        place: old.place.clone(),
    })
    .collect()
}

fn unit_of(symbol: &str) -> Option<&'static Unit> {
    Unit::find(symbol)
}

/// The wanted rails, each holder with its old position, and the moves in a safe order.
fn rails(
    from: &Computed,
    to: &Computed,
    machine_rails: &BTreeMap<String, RailFacts>,
    house: House,
) -> Vec<RailLayout> {
    to.rails
        .iter()
        .filter_map(|(id, new)| {
            let facts = machine_rails.get(id)?;
            rail(id, facts, house, from.rails.get(id), new)
        })
        .collect()
}

fn rail(
    id: &str,
    facts: &RailFacts,
    house: House,
    old: Option<&Positions>,
    new: &Positions,
) -> Option<RailLayout> {
    let print = Print { facts, house, new };
    let goals: Vec<Number> = new.stands.iter().map(|stand| stand.position).collect();
    let old: Option<Vec<Number>> =
        old.map(|old| old.stands.iter().map(|stand| stand.position).collect());
    let plan = old.as_ref().map(|old| plan_moves(old, &goals, &facts.rail));
    let came_from = plan.as_ref().map(origins).unwrap_or_default();
    let mut holders = Vec::new();
    for (number, (index, stand)) in (1..).zip(new.stands.iter().enumerate()) {
        let old = came_from.get(&index).and_then(|from| old.as_ref()?.get(*from).copied());
        holders.push(print.holder(number, old, stand, *new.exact.get(index)?)?);
    }
    let moves = match (&plan, &old) {
        (Some(plan), Some(old)) => {
            plan.actions.iter().filter_map(|action| print.action(*action, old, &holders)).collect()
        }
        _ => holders.iter().map(set).collect(),
    };
    let edges = |(left, right): (Number, Number)| {
        Some(Edges { left: print.length(left)?, right: print.length(right)? })
    };
    let lanes = new.lanes.iter().filter_map(|lane| {
        Some(Lane { number: lane.number, edges: edges((lane.left, lane.right))? })
    });
    let obstacles = facts.obstacles.iter().zip(&facts.rail.obstacles).filter_map(|(name, at)| {
        Some(Obstacle { name: name.clone(), edges: edges((at.left, at.right))? })
    });
    Some(RailLayout {
        id: id.to_owned(),
        name: facts.name.clone(),
        zone: facts.zone.clone(),
        kind: new.kind,
        unit: facts.unit.symbol.to_owned(),
        left_end: print.length(facts.rail.left_end)?,
        right_end: print.length(facts.rail.right_end)?,
        holder_width: print.length(facts.rail.holder_width)?,
        tip_offset: match facts.rail.tip_offset {
            offset if offset.is_zero() => String::new(),
            offset => print.shortest(offset)?,
        },
        obstacles: obstacles.collect(),
        scale: print.scale_words()?,
        bar: new.bar.map_or(String::new(), |(number, of)| {
            let parts = [
                ("number", number.to_string().into()),
                ("of", of.to_string().into()),
                ("ordinal", ordinal(house.language, of).into()),
            ];
            house.language.text("lines-bar", &parts)
        }),
        stepping: print.stepping(),
        lanes: lanes.collect(),
        web: new.web.and_then(edges),
        holders,
        moves,
        tolerance: print.shortest(new.tolerance)?,
        instrument: new.instrument.clone(),
    })
}

/// For each new holder on the rail before, which old one it is.
fn origins(plan: &Plan) -> BTreeMap<usize, usize> {
    let slid = plan.actions.iter().filter_map(|action| match *action {
        Action::Slide { old, new } => Some((new, old)),
        Action::Remove { .. } | Action::Fit { .. } => None,
    });
    slid.chain(plan.kept.iter().map(|&(old, new)| (new, old))).collect()
}

/// What is done to a holder whose old position nobody knows.
fn set(holder: &Holder) -> Move {
    Move {
        holder: Some(holder.number),
        from: None,
        to: holder.new.clone(),
        distance: String::new(),
        direction: "set".to_owned(),
    }
}

/// `2nd`, `3rd`, `4th`.
fn ordinal(language: Language, number: u32) -> String {
    match language.texts() {
        Language::German => return format!("{number}."),
        Language::Spanish | Language::LatinSpanish => return format!("{number}.ª"),
        Language::English => {}
    }
    let ending = match (number % 10, number % 100) {
        (1, rest) if rest != 11 => "st",
        (2, rest) if rest != 12 => "nd",
        (3, rest) if rest != 13 => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

/// How lengths of one rail are printed.
struct Print<'a> {
    facts: &'a RailFacts,
    house: House<'a>,
    new: &'a Positions,
}

impl Print<'_> {
    fn number(&self, length: Number) -> Option<Number> {
        let quantity = Quantity { amount: length, dimension: Dimension::LENGTH };
        quantity.in_unit(Some(self.facts.unit)).ok()
    }

    fn length(&self, length: Number) -> Option<String> {
        Some(self.number(length)?.decimal(self.new.places))
    }

    fn shortest(&self, length: Number) -> Option<String> {
        Some(self.number(length)?.shortest(6))
    }

    fn holder(
        &self,
        number: u32,
        old: Option<Number>,
        stand: &Stand,
        exact: Number,
    ) -> Option<Holder> {
        let limits = self.limits(exact)?;
        let printed = self.inward(&limits)?;
        Some(Holder {
            number,
            old: old.and_then(|old| self.length(old)),
            new: self.length(stand.position)?,
            low: printed.low?,
            high: printed.high?,
            parked: stand.parked,
            scale: self.on_scale(stand.position)?,
            also: self.also(stand.position, &limits),
            fraction: self.fraction(stand.position),
        })
    }

    /// The limits as printed: in decimals, or in the marks of a rule that shows fractions.
    fn inward(&self, limits: &Limits) -> Option<PrintedLimits> {
        let (unit, places) = (Some(self.facts.unit), self.new.places);
        let Some(marks) = self.new.fractions else { return inward(limits, unit, places).ok() };
        let step = Number::ONE.div(Number::from(marks)).ok()?;
        let step = Measure { quantity: Quantity::difference_of(step, unit).ok()?, unit };
        inward_to_steps(limits, &step, places).ok()
    }

    /// The limits of a position: the exact one and its tolerance.
    fn limits(&self, exact: Number) -> Option<Limits> {
        let at = |amount| Quantity { amount, dimension: Dimension::LENGTH };
        Some(Limits {
            low: Some(at(exact.sub(self.new.tolerance).ok()?)),
            high: Some(at(exact.add(self.new.tolerance).ok()?)),
        })
    }

    /// The reading on the rail's own scale; empty without a scale.
    fn on_scale(&self, position: Number) -> Option<String> {
        match self.facts.on_scale(position) {
            Some(reading) => self.length(reading),
            None => Some(String::new()),
        }
    }

    fn scale_words(&self) -> Option<String> {
        let Some((at_datum, grows)) = self.facts.scale else { return Some(String::new()) };
        let language = self.house.language;
        let reading = language.decimals(&format!("{} {}", self.length(at_datum)?, self.facts.unit));
        Some(match grows {
            Side::Right => language.text("lines-scale-right", &[("reading", reading.into())]),
            Side::Left => language.text("lines-scale-left", &[("reading", reading.into())]),
        })
    }

    fn also(&self, position: Number, limits: &Limits) -> String {
        let quantity = Quantity { amount: position, dimension: Dimension::LENGTH };
        let unit = self.facts.unit;
        let text = self.house.other(unit).and_then(|other| {
            let text = beside(quantity, limits, unit, self.new.places, other).ok()?;
            Some(format!("{text} {other}"))
        });
        text.unwrap_or_default()
    }

    fn fraction(&self, position: Number) -> String {
        let inch = self.facts.unit.symbol == "in";
        let denominator = self.new.fractions.filter(|_| inch);
        denominator.and_then(|d| self.number(position)?.fraction(d)).unwrap_or_default()
    }

    /// What stepping off would have cost, rounded up: an error is never shown smaller than it is.
    fn stepping(&self) -> Option<Stepping> {
        let (stepping, each) = (self.new.stepping.as_ref()?, self.new.each?);
        let up = |length: Number| {
            let step = Number::last_place(PLACES).ok()?;
            Some(self.number(length)?.round_to_step(step, Rounding::Up).ok()?.shortest(PLACES))
        };
        Some(Stepping {
            steps: stepping.steps,
            each: up(each)?,
            worst: up(stepping.worst)?,
            rss: up(stepping.rss)?,
        })
    }

    fn action(&self, action: Action, old: &[Number], holders: &[Holder]) -> Option<Move> {
        Some(match action {
            Action::Remove { old: index } => Move {
                holder: None,
                from: self.length(*old.get(index)?),
                to: String::new(),
                distance: String::new(),
                direction: "off".to_owned(),
            },
            Action::Fit { new } => {
                let holder = holders.get(new)?;
                Move { direction: "fit".to_owned(), ..set(holder) }
            }
            Action::Slide { old: from, new } => {
                let (holder, from) = (holders.get(new)?, *old.get(from)?);
                let way = self.new.stands.get(new)?.position.sub(from).ok()?;
                let direction = if way.is_negative() { "left" } else { "right" };
                Move {
                    holder: Some(holder.number),
                    from: holder.old.clone(),
                    to: holder.new.clone(),
                    distance: self.length(way.abs())?,
                    direction: direction.to_owned(),
                }
            }
        })
    }
}
