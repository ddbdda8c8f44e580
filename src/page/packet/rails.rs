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
        holders: words::holders(language, rail.kind).to_owned(),
        knives: rail.kind == RailKind::Knives,
        unit: words::unit_word(language, &rail.unit).to_owned(),
        scale: super::sentence(&rail.scale),
        scaled: rail.holders.iter().any(|holder| !holder.scale.is_empty()),
        tip: tip(rail, language),
        stepping: rail
            .stepping
            .as_ref()
            .map_or(String::new(), |s| stepping(s, &rail.unit, language)),
        obstacles: rail
            .obstacles
            .iter()
            .enumerate()
            .map(|(index, one)| obstacle(index, one, language))
            .collect(),
        drawing: drawing::svg(rail).unwrap_or_default(),
        legend: legend(rail, language),
        moves: moves(rail, language),
        moving: rail.moves.len(),
        lanes: lanes(&rail.lanes, language),
        web: rail.web.as_ref().map_or(String::new(), |web| edges(web, language)),
        tolerance: format!("\u{b1}{}", words::quantity(language, &rail.tolerance, &rail.unit)),
        instrument: super::name_of(rail.instrument.as_deref(), instruments),
    }
}

/// `−180.0 left to +180.0 right`.
fn edges(edges: &Edges, language: Language) -> String {
    let side = |edge| words::side(language, edge).into();
    let parts = [("low", side(&edges.left)), ("high", side(&edges.right))];
    language.text("step-between", &parts)
}

/// `The tip stands 4 mm right of the middle of its holder; the tip counts.`
fn tip(rail: &RailLayout, language: Language) -> String {
    let offset = rail.tip_offset.as_str();
    let is_left = match decimal::read(offset) {
        Some(0) => return String::new(),
        Some(value) => value < 0,
        None if offset.is_empty() => return String::new(),
        None => false,
    };
    let distance = offset.trim_start_matches(['-', '\u{2212}', '+']);
    let distance = words::quantity(language, distance, &rail.unit);
    let key = match (rail.kind, is_left) {
        (RailKind::Knives, true) => "rail-tip-left",
        (RailKind::Knives, false) => "rail-tip-right",
        (RailKind::Guides, true) => "rail-face-left",
        (RailKind::Guides, false) => "rail-face-right",
    };
    language.text(key, &[("distance", distance.into())])
}

/// What stepping off would cost against measuring each from the datum.
fn stepping(stepping: &Stepping, unit: &str, language: Language) -> String {
    let off = |value: &str| words::quantity(language, value, unit).into();
    let parts = [
        ("count", stepping.steps.into()),
        ("worst", off(&stepping.worst)),
        ("rss", off(&stepping.rss)),
        ("each", off(&stepping.each)),
    ];
    language.text("rail-stepping", &parts)
}

fn obstacle(index: usize, obstacle: &Obstacle, language: Language) -> ObstacleView {
    ObstacleView {
        letter: drawing::letter(index),
        name: obstacle.name.clone(),
        edges: edges(&obstacle.edges, language),
    }
}

/// Names every kind of stroke that the drawing of this rail has.
fn legend(rail: &RailLayout, language: Language) -> String {
    let any = |direction: &str| rail.moves.iter().any(|step| step.direction == direction);
    let knives = rail.kind == RailKind::Knives;
    let waste = rail.lanes.windows(2).any(|pair| waste_between(&pair[0], &pair[1]));
    let pieces = [
        (true, language.word("rail-legend")),
        (any("off"), language.word("rail-legend-off")),
        (any("fit"), language.word("rail-legend-fit")),
        (!rail.obstacles.is_empty(), language.word("rail-legend-fixed")),
        (knives && waste, language.word("rail-legend-waste")),
        (knives && !waste, language.word("rail-legend-trim")),
    ];
    let said: Vec<&str> = pieces.iter().filter(|(said, _)| *said).map(|(_, text)| *text).collect();
    said.join(" ")
}

/// Lanes from left to right, with a line for each waste strip between two of them.
fn lanes(lanes: &[Lane], language: Language) -> Vec<LaneView> {
    let mut shown = Vec::new();
    let strip = |number: String, left: &str, right: &str| LaneView {
        number,
        left: words::side(language, left),
        right: words::side(language, right),
    };
    for (index, lane) in lanes.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|index| lanes.get(index));
        if let Some(before) = before.filter(|before| waste_between(before, lane)) {
            shown.push(strip(
                language.word("rail-waste").to_owned(),
                &before.edges.right,
                &lane.edges.left,
            ));
        }
        shown.push(strip(lane.number.to_string(), &lane.edges.left, &lane.edges.right));
    }
    shown
}

fn waste_between(one: &Lane, two: &Lane) -> bool {
    match (decimal::read(&one.edges.right), decimal::read(&two.edges.left)) {
        (Some(end), Some(start)) => end < start,
        _ => false,
    }
}

/// Moves in their order, then the holders nobody touches.
fn moves(rail: &RailLayout, language: Language) -> Vec<MoveView> {
    let moving = rail.moves.iter().enumerate();
    let moving = moving.map(|(index, step)| moved(rail, index + 1, step, language));
    let stays = |holder: &&Holder| rail.moves.iter().all(|step| step.holder != Some(holder.number));
    moving
        .chain(rail.holders.iter().filter(stays).map(|holder| staying(holder, language)))
        .collect()
}

fn moved(rail: &RailLayout, order: usize, step: &Move, language: Language) -> MoveView {
    let mut holders = rail.holders.iter();
    let view = match holders.find(|h| Some(h.number) == step.holder && h.new == step.to) {
        Some(holder) => standing(holder, language),
        None => MoveView {
            holder: step.holder.map_or(NONE.to_owned(), |holder| holder.to_string()),
            to: match step.to.as_str() {
                "" => NONE.to_owned(),
                to => words::side(language, to),
            },
            ..nowhere()
        },
    };
    let unknown = if step.direction == "fit" { NONE } else { language.word("rail-not-known") };
    MoveView {
        order: order.to_string(),
        from: step.from.as_deref().map_or(unknown.to_owned(), |from| words::side(language, from)),
        way: words::way(language, &step.direction, &step.distance),
        ..view
    }
}

fn staying(holder: &Holder, language: Language) -> MoveView {
    let unknown = language.word("rail-not-known");
    MoveView {
        from: holder.old.as_deref().map_or(unknown.to_owned(), |old| words::side(language, old)),
        way: language.word("rail-stays").to_owned(),
        ..standing(holder, language)
    }
}

/// Where a holder shall stand.
fn standing(holder: &Holder, language: Language) -> MoveView {
    let shown = if holder.fraction.is_empty() { &holder.new } else { &holder.fraction };
    MoveView {
        holder: holder.number.to_string(),
        to: words::side_as(language, &holder.new, &words::unbroken(shown)),
        also: words::numbers(language, &holder.also),
        scale: match holder.scale.as_str() {
            "" => NONE.to_owned(),
            scale => words::number(language, scale),
        },
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
