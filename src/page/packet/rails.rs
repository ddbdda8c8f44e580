//! A rail on the page: its drawing and the same numbers as a table.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{Edges, Holder, Lane, Move, Obstacle, RailKind, RailLayout, Stepping};
use crate::page::{decimal, drawing, words};

/// Stands in a cell that has nothing to say.
const NONE: &str = "\u{2013}";

/// A rail as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RailView {
    /// Anchor in the page.
    pub anchor: String,
    /// Name.
    pub name: String,
    /// Which of several bars this one is; may be empty.
    pub bar: String,
    /// `knife holders` or `guide brackets`.
    pub holders: String,
    /// Whether it carries knives.
    pub knives: bool,
    /// Unit of all numbers, in words: `mm`, `inches`.
    pub unit: String,
    /// How the rail's own scale is read; may be empty.
    pub scale: String,
    /// Whether holders have a reading on the rail's own scale.
    pub scaled: bool,
    /// Where a holder's mark stands when it is not its middle, as a sentence; may be empty.
    pub tip: String,
    /// What stepping off would have cost, as a sentence; may be empty.
    pub stepping: String,
    /// What stands fixed on the rail.
    pub obstacles: Vec<ObstacleView>,
    /// The drawing, SVG; empty when the numbers allow none.
    pub drawing: String,
    /// Where the drawing stands as a file, from the page; empty on a page that stands alone.
    pub alone: String,
    /// What the drawing's strokes mean, for the caption.
    pub legend: String,
    /// Moves in their order, then the holders that stay.
    pub moves: Vec<MoveView>,
    /// How many holders are moved, taken off or fitted.
    pub moving: usize,
    /// Lanes with their edges, and the waste strips between them.
    pub lanes: Vec<LaneView>,
    /// Web edges in words; empty when there is none.
    pub web: String,
    /// How far a position may be off: `±0.5 mm`.
    pub tolerance: String,
    /// Instrument's name; may be empty.
    pub instrument: String,
}

/// Something fixed on the rail.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ObstacleView {
    /// Its letter in the drawing.
    pub letter: String,
    /// What it is.
    pub name: String,
    /// Its edges, by side of the datum.
    pub edges: String,
}

/// One line of the table of moves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MoveView {
    /// Which move it is; empty for a holder that stays.
    pub order: String,
    /// Number of the holder; a dash for one that is taken off.
    pub holder: String,
    /// Where it stands, by side of the datum; a dash for one that is fitted.
    pub from: String,
    /// Where it shall stand; a dash for one that is taken off.
    pub to: String,
    /// Where it shall stand in the plant's other units; may be empty.
    pub also: String,
    /// Reading on the rail's own scale; a dash when it has none.
    pub scale: String,
    /// The way: `28.0 to the right`, `stays`, `set`, `take off the rail`, `fit on the rail`.
    pub way: String,
    /// True for a spare that is parked.
    pub parked: bool,
}

/// One lane, or a waste strip between two.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LaneView {
    /// The machine's number of the lane; `waste` for a strip between two lanes.
    pub number: String,
    /// Left edge, by side of the datum.
    pub left: String,
    /// Right edge.
    pub right: String,
}

/// Words a rail.
pub(super) fn view(
    rail: &RailLayout,
    instruments: &BTreeMap<String, String>,
    language: Language,
) -> RailView {
    RailView {
        anchor: drawing::anchor(&rail.id),
        name: rail.name.clone(),
        bar: rail.bar.clone(),
        holders: words::holders(rail.kind).to_owned(),
        knives: rail.kind == RailKind::Knives,
        unit: words::unit_word(&rail.unit).to_owned(),
        scale: super::sentence(&rail.scale),
        scaled: rail.holders.iter().any(|holder| !holder.scale.is_empty()),
        tip: tip(rail),
        stepping: rail.stepping.as_ref().map_or(String::new(), |s| stepping(s, &rail.unit)),
        obstacles: rail.obstacles.iter().enumerate().map(obstacle).collect(),
        drawing: drawing::svg(rail, language).unwrap_or_default(),
        alone: String::new(),
        legend: legend(rail),
        moves: moves(rail),
        moving: rail.moves.len(),
        lanes: lanes(&rail.lanes),
        web: rail.web.as_ref().map_or(String::new(), edges),
        tolerance: format!("\u{b1}{}", words::quantity(&rail.tolerance, &rail.unit)),
        instrument: super::name_of(rail.instrument.as_deref(), instruments),
    }
}

/// `−180.0 left to +180.0 right`.
fn edges(edges: &Edges) -> String {
    format!("{} to {}", words::side(&edges.left), words::side(&edges.right))
}

/// `The tip stands 4 mm right of the middle of its holder; the tip counts.`
fn tip(rail: &RailLayout) -> String {
    let (what, offset) = (words::mark(rail.kind), rail.tip_offset.as_str());
    let side = match decimal::read(offset) {
        Some(0) => return String::new(),
        Some(value) if value < 0 => "left",
        Some(_) => "right",
        None if offset.is_empty() => return String::new(),
        None => "right",
    };
    let distance = words::quantity(offset.trim_start_matches(['-', '\u{2212}', '+']), &rail.unit);
    format!("The {what} stands {distance} {side} of the middle of its holder; the {what} counts.")
}

/// What stepping off would cost against measuring each from the datum.
fn stepping(stepping: &Stepping, unit: &str) -> String {
    let steps = match stepping.steps {
        1 => "1 step".to_owned(),
        steps => format!("{steps} steps"),
    };
    format!(
        "Measure every position from the datum. Stepped off from mark to mark, the outermost mark \
         ({steps}) could be off by {} when all errors fall the same way, {} as root of the sum of \
         squares; from the datum at most {}.",
        words::quantity(&stepping.worst, unit),
        words::quantity(&stepping.rss, unit),
        words::quantity(&stepping.each, unit),
    )
}

fn obstacle((index, obstacle): (usize, &Obstacle)) -> ObstacleView {
    ObstacleView {
        letter: drawing::letter(index),
        name: obstacle.name.clone(),
        edges: edges(&obstacle.edges),
    }
}

/// Names every kind of stroke that the drawing of this rail has.
fn legend(rail: &RailLayout) -> String {
    let any = |direction: &str| rail.moves.iter().any(|step| step.direction == direction);
    let knives = rail.kind == RailKind::Knives;
    let waste = rail.lanes.windows(2).any(|pair| waste_between(&pair[0], &pair[1]));
    let pieces = [
        (true, "Solid: new place. Dashed: old place. Arrow: a move. Slanting lines: parked spare."),
        (any("off"), "Cross: taken off."),
        (any("fit"), "Plus: fitted."),
        (!rail.obstacles.is_empty(), "Crossed lines: fixed on the rail."),
        (knives && waste, "Heavy line: cut. Dots: trim and waste."),
        (knives && !waste, "Heavy line: cut. Dots: trim."),
    ];
    let said: Vec<&str> = pieces.iter().filter(|(said, _)| *said).map(|(_, text)| *text).collect();
    said.join(" ")
}

/// Lanes from left to right, with a line for each waste strip between two of them.
fn lanes(lanes: &[Lane]) -> Vec<LaneView> {
    let mut shown = Vec::new();
    for (index, lane) in lanes.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|index| lanes.get(index));
        if let Some(before) = before.filter(|before| waste_between(before, lane)) {
            shown.push(strip("waste".to_owned(), &before.edges.right, &lane.edges.left));
        }
        shown.push(strip(lane.number.to_string(), &lane.edges.left, &lane.edges.right));
    }
    shown
}

fn strip(number: String, left: &str, right: &str) -> LaneView {
    LaneView { number, left: words::side(left), right: words::side(right) }
}

fn waste_between(one: &Lane, two: &Lane) -> bool {
    match (decimal::read(&one.edges.right), decimal::read(&two.edges.left)) {
        (Some(end), Some(start)) => end < start,
        _ => false,
    }
}

/// Moves in their order, then the holders nobody touches.
fn moves(rail: &RailLayout) -> Vec<MoveView> {
    let moving = rail.moves.iter().enumerate().map(|(index, step)| moved(rail, index + 1, step));
    let stays = |holder: &&Holder| rail.moves.iter().all(|step| step.holder != Some(holder.number));
    moving.chain(rail.holders.iter().filter(stays).map(staying)).collect()
}

fn moved(rail: &RailLayout, order: usize, step: &Move) -> MoveView {
    let mut holders = rail.holders.iter();
    let view = match holders.find(|h| Some(h.number) == step.holder && h.new == step.to) {
        Some(holder) => standing(holder),
        None => MoveView {
            holder: step.holder.map_or(NONE.to_owned(), |holder| holder.to_string()),
            to: if step.to.is_empty() { NONE.to_owned() } else { words::side(&step.to) },
            ..nowhere()
        },
    };
    let unknown = if step.direction == "fit" { NONE } else { "not known" };
    MoveView {
        order: order.to_string(),
        from: step.from.as_deref().map_or(unknown.to_owned(), words::side),
        way: words::way(&step.direction, &step.distance),
        ..view
    }
}

fn staying(holder: &Holder) -> MoveView {
    MoveView {
        from: holder.old.as_deref().map_or("not known".to_owned(), words::side),
        way: "stays".to_owned(),
        ..standing(holder)
    }
}

/// Where a holder shall stand.
fn standing(holder: &Holder) -> MoveView {
    let shown = if holder.fraction.is_empty() { &holder.new } else { &holder.fraction };
    MoveView {
        holder: holder.number.to_string(),
        to: words::side_as(&holder.new, &words::unbroken(shown)),
        also: words::numbers(&holder.also),
        scale: if holder.scale.is_empty() { NONE.to_owned() } else { words::number(&holder.scale) },
        parked: holder.parked,
        ..nowhere()
    }
}

fn nowhere() -> MoveView {
    MoveView {
        order: String::new(),
        holder: NONE.to_owned(),
        from: NONE.to_owned(),
        to: NONE.to_owned(),
        also: String::new(),
        scale: NONE.to_owned(),
        way: String::new(),
        parked: false,
    }
}
