//! What changes from the recipe on the machine to the recipe wanted.

use std::collections::BTreeMap;

use super::compute::Computed;
use super::model::{Change, Edges, Holder, Lane, Move, RailLayout, Setting};
use super::positions::Positions;
use crate::layout::{Action, plan_moves};
use crate::plant::machine::RailFacts;
use crate::quantity::{Dimension, Limits, Number, Quantity, Unit, inward};

/// The wanted settings, each with what it was before, in the same unit.
pub(super) fn settings(from: &Computed, to: &Computed) -> Vec<Setting> {
    to.settings
        .iter()
        .map(|setting| {
            let was = from.targets.get(&setting.id).and_then(|(was, _)| {
                let (_, places) = to.targets.get(&setting.id)?;
                let number = was.in_unit(unit_of(&setting.unit)).ok()?;
                Some(number.decimal(*places))
            });
            let change = match &was {
                None => Change::New,
                Some(was) if *was == setting.target => Change::Keep,
                Some(_) => Change::Change,
            };
            Setting { was, change, ..setting.clone() }
        })
        .collect()
}

fn unit_of(symbol: &str) -> Option<&'static Unit> {
    Unit::find(symbol)
}

/// The wanted rails, each holder with its old position, and the moves in a safe order.
pub(super) fn rails(
    from: &Computed,
    to: &Computed,
    machine_rails: &BTreeMap<String, RailFacts>,
) -> Vec<RailLayout> {
    to.rails
        .iter()
        .filter_map(|(id, new)| {
            let facts = machine_rails.get(id)?;
            rail(id, facts, from.rails.get(id), new)
        })
        .collect()
}

fn rail(
    id: &str,
    facts: &RailFacts,
    old: Option<&Positions>,
    new: &Positions,
) -> Option<RailLayout> {
    let print = Print { unit: facts.unit, places: new.places };
    let old = old.filter(|old| old.stands.len() == new.stands.len());
    let old: Option<Vec<Number>> =
        old.map(|old| old.stands.iter().map(|stand| stand.position).collect());
    let goals: Vec<Number> = new.stands.iter().map(|stand| stand.position).collect();
    let mut holders = Vec::new();
    for (number, (index, stand)) in (1..).zip(new.stands.iter().enumerate()) {
        let (low, high) = print.limits(*new.exact.get(index)?, new.tolerance)?;
        let old = old.as_ref().and_then(|old| old.get(index).copied());
        holders.push(Holder {
            number,
            old: old.and_then(|old| print.length(old)),
            new: print.length(stand.position)?,
            low,
            high,
            parked: stand.parked,
        });
    }
    let order = match &old {
        Some(old) => slides(&plan_moves(old, &goals, &facts.rail).actions),
        None => (0..goals.len()).collect(),
    };
    let moves = order
        .into_iter()
        .filter_map(|index| {
            let old = old.as_ref().and_then(|old| old.get(index).copied());
            print.step(holders.get(index)?, old, *goals.get(index)?)
        })
        .collect();
    let edges = |(left, right): (Number, Number)| {
        Some(Edges { left: print.length(left)?, right: print.length(right)? })
    };
    let lanes = (1..)
        .zip(&new.lanes)
        .filter_map(|(number, &lane)| Some(Lane { number, edges: edges(lane)? }))
        .collect();
    Some(RailLayout {
        id: id.to_owned(),
        name: facts.name.clone(),
        zone: facts.zone.clone(),
        kind: new.kind,
        unit: facts.unit.symbol.to_owned(),
        left_end: print.length(facts.rail.left_end)?,
        right_end: print.length(facts.rail.right_end)?,
        holder_width: print.length(facts.rail.holder_width)?,
        lanes,
        web: new.web.and_then(edges),
        holders,
        moves,
        tolerance: print.shortest(new.tolerance)?,
        instrument: new.instrument.clone(),
    })
}

/// The holders that slide, by their new index.
fn slides(actions: &[Action]) -> Vec<usize> {
    let slides = actions.iter().filter_map(|action| match *action {
        Action::Slide { new, .. } => Some(new),
        Action::Remove { .. } | Action::Fit { .. } => None,
    });
    slides.collect()
}

/// How lengths of one rail are printed.
struct Print {
    unit: &'static Unit,
    places: u32,
}

impl Print {
    fn number(&self, length: Number) -> Option<Number> {
        let quantity = Quantity { amount: length, dimension: Dimension::LENGTH };
        quantity.in_unit(Some(self.unit)).ok()
    }

    fn length(&self, length: Number) -> Option<String> {
        Some(self.number(length)?.decimal(self.places))
    }

    fn shortest(&self, length: Number) -> Option<String> {
        Some(self.number(length)?.shortest(6))
    }

    /// The limits of a position: the exact one and its tolerance, rounded inward.
    fn limits(&self, exact: Number, tolerance: Number) -> Option<(String, String)> {
        let at = |amount| Quantity { amount, dimension: Dimension::LENGTH };
        let limits = Limits {
            low: Some(at(exact.sub(tolerance).ok()?)),
            high: Some(at(exact.add(tolerance).ok()?)),
        };
        let printed = inward(&limits, Some(self.unit), self.places).ok()?;
        Some((printed.low?, printed.high?))
    }

    fn step(&self, holder: &Holder, old: Option<Number>, goal: Number) -> Option<Move> {
        let (distance, direction) = match old {
            None => (String::new(), "set"),
            Some(old) => {
                let way = goal.sub(old).ok()?;
                let direction = if way.is_negative() { "left" } else { "right" };
                (self.length(way.abs())?, direction)
            }
        };
        Some(Move {
            holder: holder.number,
            from: holder.old.clone(),
            to: holder.new.clone(),
            distance,
            direction: direction.to_owned(),
        })
    }
}
