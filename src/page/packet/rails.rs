//! A rail on the page: its drawing and the same numbers as a table.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::packet::model::{Holder, Move, RailKind, RailLayout};
use crate::page::{drawing, words};

/// A rail as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RailView {
    /// Anchor in the page.
    pub anchor: String,
    /// Name.
    pub name: String,
    /// `knife holders` or `guide brackets`.
    pub holders: String,
    /// Whether it carries knives.
    pub knives: bool,
    /// Unit of all numbers.
    pub unit: String,
    /// The drawing, SVG; empty when the numbers allow none.
    pub drawing: String,
    /// Moves in their order, then the holders that stay.
    pub moves: Vec<MoveView>,
    /// How many holders move.
    pub moving: usize,
    /// Lanes with their edges.
    pub lanes: Vec<LaneView>,
    /// Web edges in words; empty when there is none.
    pub web: String,
    /// How far a position may be off: `±0.5 mm`.
    pub tolerance: String,
    /// Instrument's name; may be empty.
    pub instrument: String,
}

/// One line of the table of moves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MoveView {
    /// Which move it is; empty for a holder that stays.
    pub order: String,
    /// Number of the holder.
    pub holder: u32,
    /// Where it stands, by side of the datum; a dash when unknown.
    pub from: String,
    /// Where it shall stand.
    pub to: String,
    /// The way: `28.0 to the right`, `stays`, `set`.
    pub way: String,
    /// True for a spare that is parked.
    pub parked: bool,
}

/// One lane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LaneView {
    /// Number from the left.
    pub number: u32,
    /// Left edge, by side of the datum.
    pub left: String,
    /// Right edge.
    pub right: String,
}

/// Words a rail.
pub(super) fn view(rail: &RailLayout, instruments: &BTreeMap<String, String>) -> RailView {
    RailView {
        anchor: drawing::anchor(&rail.id),
        name: rail.name.clone(),
        holders: words::holders(rail.kind).to_owned(),
        knives: rail.kind == RailKind::Knives,
        unit: rail.unit.clone(),
        drawing: drawing::svg(rail).unwrap_or_default(),
        moves: moves(rail),
        moving: rail.moves.len(),
        lanes: rail.lanes.iter().map(lane).collect(),
        web: rail.web.as_ref().map_or(String::new(), |web| {
            format!("{} to {}", words::side(&web.left), words::side(&web.right))
        }),
        tolerance: format!("\u{b1}{}", words::quantity(&rail.tolerance, &rail.unit)),
        instrument: super::name_of(rail.instrument.as_deref(), instruments),
    }
}

fn lane(lane: &crate::packet::model::Lane) -> LaneView {
    LaneView {
        number: lane.number,
        left: words::side(&lane.edges.left),
        right: words::side(&lane.edges.right),
    }
}

/// Moves in their order, then the holders nobody touches.
fn moves(rail: &RailLayout) -> Vec<MoveView> {
    let moving = rail.moves.iter().enumerate().map(|(index, step)| moved(rail, index + 1, step));
    let stays = |holder: &&Holder| rail.moves.iter().all(|step| step.holder != Some(holder.number));
    moving.chain(rail.holders.iter().filter(stays).map(staying)).collect()
}

fn moved(rail: &RailLayout, order: usize, step: &Move) -> MoveView {
    let parked =
        rail.holders.iter().any(|h| Some(h.number) == step.holder && h.parked && h.new == step.to);
    MoveView {
        order: order.to_string(),
        holder: step.holder.unwrap_or(0),
        from: step.from.as_deref().map_or("not known".to_owned(), words::side),
        to: words::side(&step.to),
        way: match step.direction.as_str() {
            "left" | "right" => format!("{} to the {}", step.distance, step.direction),
            _ => "set".to_owned(),
        },
        parked,
    }
}

fn staying(holder: &Holder) -> MoveView {
    MoveView {
        order: String::new(),
        holder: holder.number,
        from: holder.old.as_deref().map_or("not known".to_owned(), words::side),
        to: words::side(&holder.new),
        way: "stays".to_owned(),
        parked: holder.parked,
    }
}
