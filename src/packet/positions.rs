//! Where everything stands on the rails of one recipe on one machine.
//!
//! Asks [`crate::layout`] for positions, rounds each to its instrument, and words what does not fit.

use super::compute::{Computer, Solved, short};
use super::model::RailKind;
use crate::finding::Place;
use crate::layout::{self, Body, Knives, Lanes, NoLayout, Stand};
use crate::plant::machine::{Instrument, RailFacts};
use crate::plant::shape::{KnivesEntry, LayoutEntry};
use crate::quantity::{Dimension, Number, Quantity, Rounding, Unit, places_of};

/// Decimals of a position that no instrument shows.
const PLACES: u32 = 3;

/// Where everything stands on one rail; lengths in millimetres.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Positions {
    /// Knives or guides.
    pub kind: RailKind,
    /// Holders from left to right, as the instrument shows their positions.
    pub stands: Vec<Stand>,
    /// The same positions before they were rounded to the instrument.
    pub exact: Vec<Number>,
    /// Edges of the lanes.
    pub lanes: Vec<(Number, Number)>,
    /// Edges of the web.
    pub web: Option<(Number, Number)>,
    /// How far a position may be off.
    pub tolerance: Number,
    /// Decimals to print, in the rail's unit.
    pub places: u32,
    /// Instrument the positions are set with.
    pub instrument: Option<String>,
}

/// Computes the positions of one layout; none when something is wrong with it, which is reported.
pub(super) fn positions(
    computer: &mut Computer,
    id: &str,
    entry: &LayoutEntry,
    solved: &Solved,
) -> Option<Positions> {
    let at = computer.at.at("layouts").at(id);
    let Some(rail) = computer.machine.rails.get(id) else {
        if computer.machine.file.body.rails.get(id).is_none() {
            let known: Vec<&str> = computer.machine.file.body.rails.names().collect();
            computer.findings.unknown_rail(&at.key(), id, &known);
        }
        return None;
    };
    let tolerance = half_range(computer, &at.at("tolerance"), &entry.tolerance)?;
    let instrument = computer.instrument(&at, entry.instrument.as_ref());
    let ruler = ruler(computer, &at.at("instrument"), instrument, rail.unit, tolerance)?;
    let mut work = RailWork { computer, at: &at, id, rail, solved, step: ruler.step };
    let placed = match (&entry.knives, &entry.guides) {
        (Some(knives), None) => work.knives(knives)?,
        (None, Some(_)) => work.guides()?,
        _ => {
            computer.findings.knives_or_guides(&at);
            return None;
        }
    };
    Some(Positions {
        kind: placed.kind,
        stands: placed.stands,
        exact: placed.exact,
        lanes: placed.lanes,
        web: placed.web,
        tolerance,
        places: ruler.places,
        instrument: instrument.map(|instrument| instrument.facts.id.clone()),
    })
}

/// Half of a position's range, in millimetres.
fn half_range(computer: &mut Computer, at: &Place, text: &str) -> Option<Number> {
    let tolerance = computer.tolerance(at, text)?;
    let half = tolerance.symmetric().filter(|half| half.dimension == Dimension::LENGTH);
    if half.is_none() {
        computer.findings.not_symmetric(at);
    }
    half.map(|half| half.amount)
}

/// What positions are read with.
struct Ruler {
    /// Smallest step in millimetres; none without an instrument.
    step: Option<Number>,
    /// Decimals to print.
    places: u32,
}

fn ruler(
    computer: &mut Computer,
    at: &Place,
    instrument: Option<&Instrument>,
    unit: &'static Unit,
    tolerance: Number,
) -> Option<Ruler> {
    let Some(instrument) = instrument else { return Some(Ruler { step: None, places: PLACES }) };
    let (name, resolution) = (&instrument.facts.name, &instrument.facts.resolution);
    let Ok(places) = places_of(&instrument.resolution, Some(unit)) else {
        let words = format!("{name} ({resolution}) does not measure lengths");
        computer.findings.instrument_does_not_fit(at, &words);
        return None;
    };
    let step = instrument.resolution.quantity.amount;
    if step > tolerance {
        computer.findings.instrument_too_coarse(at, name, resolution);
        return None;
    }
    Some(Ruler { step: Some(step), places })
}

/// What stands where, before it is printed.
struct Placed {
    kind: RailKind,
    stands: Vec<Stand>,
    exact: Vec<Number>,
    lanes: Vec<(Number, Number)>,
    web: Option<(Number, Number)>,
}

/// One layout being worked on.
struct RailWork<'w, 'f, 'm> {
    computer: &'w mut Computer<'f, 'm>,
    at: &'w Place,
    id: &'w str,
    rail: &'m RailFacts,
    solved: &'w Solved,
    step: Option<Number>,
}

impl RailWork<'_, '_, '_> {
    fn knives(&mut self, entry: &KnivesEntry) -> Option<Placed> {
        let at = self.at.at("knives");
        let lanes = self.number(&at, "lanes", Dimension::NONE)?;
        let strip = self.number(&at, "strip", Dimension::LENGTH)?;
        let trim = self.number(&at, "trim", Dimension::LENGTH)?;
        let Some(lanes) = lanes.to_u32() else {
            self.computer.findings.not_a_count(&at.at("lanes"));
            return None;
        };
        self.strip_fits_pitch(&at.at("strip"), lanes, strip);
        let run = Lanes::Centred(lanes);
        let knives = Knives { run, strip, trim, edge_cuts: entry.edge_cuts };
        let rail = &self.rail.rail;
        let layout = layout::place_knives(&knives).and_then(|layout| {
            let nearest = |_| Rounding::HalfEven;
            let stands = stand(&layout.cuts, rail, self.step, Body::Holder, nearest)?;
            let lanes = layout.lanes.iter().map(|lane| (lane.left, lane.right)).collect();
            Ok((stands, lanes, layout.web))
        });
        let ((stands, exact), lanes, web) = self.fitting(&at, layout)?;
        Some(Placed { kind: RailKind::Knives, stands, exact, lanes, web: Some(web) })
    }

    fn guides(&mut self) -> Option<Placed> {
        let at = self.at.at("guides");
        let opening = self.number(&at, "opening", Dimension::LENGTH)?;
        let rail = &self.rail.rail;
        let stands = layout::place_guides(opening)
            .and_then(|faces| stand(&faces, rail, self.step, Body::Guide, outward));
        let (stands, exact) = self.fitting(&at.at("opening"), stands)?;
        Some(Placed { kind: RailKind::Guides, stands, exact, lanes: Vec::new(), web: None })
    }

    /// The number of a solved formula of this layout, in base units.
    fn number(&mut self, at: &Place, key: &str, wanted: Dimension) -> Option<Number> {
        let evaluated = self.solved.get(&layout_name(self.id, key))?.as_ref().ok()?;
        let quantity = self.computer.quantity(&at.at(key), evaluated)?;
        if quantity.dimension != wanted {
            self.computer.findings.wrong_dimension(&at.at(key), quantity.dimension, wanted);
            return None;
        }
        Some(quantity.amount)
    }

    /// A strip runs in lanes whose pitch is fixed only when it is as wide as the pitch.
    fn strip_fits_pitch(&mut self, at: &Place, lanes: u32, strip: Number) {
        let Some(pitch) = self.rail.lane_pitch.filter(|pitch| *pitch != strip) else { return };
        let show = |length: Number| self.show(length);
        let off = outer_offset(lanes, strip, pitch).map_or(String::new(), show);
        let (strip, pitch) = (self.show(strip), self.show(pitch));
        self.computer.findings.strip_is_not_pitch(at, &strip, &pitch, &off);
    }

    fn fitting<T>(&mut self, at: &Place, layout: Result<T, NoLayout>) -> Option<T> {
        let error = match layout {
            Ok(layout) => return Some(layout),
            Err(error) => error,
        };
        let name = &self.rail.name;
        let show = |length: Number| show_length(length, self.rail.unit);
        let findings = &mut self.computer.findings;
        match error {
            NoLayout::NotPositive => findings.nothing_to_lay_out(at),
            NoLayout::TooMany { most } => findings.too_many_lanes(at, most),
            NoLayout::PastRailEnd { needed, end } => {
                findings.past_rail_end(at, name, &show(needed), &show(end));
            }
            NoLayout::TooClose { gap, spacing } => {
                findings.too_close(at, name, &show(gap), &show(spacing));
            }
            NoLayout::TooFewHolders { needed, fitted } => {
                findings.too_few_holders(at, name, needed, fitted);
            }
            NoLayout::TooFewLanes { needed, fitted } => {
                let words = format!("{needed} lanes shall run, {fitted} are fitted");
                findings.bad_formula(at, &words, "run fewer lanes".to_owned());
            }
            NoLayout::NoSuchLane { lane, fitted } => {
                let words = format!("lane {lane} is not one of the {fitted} lanes fitted");
                findings.bad_formula(at, &words, "name lanes that are fitted".to_owned());
            }
            NoLayout::LanesNotRising { lane, before } => {
                let words = format!("lane {lane} is named after lane {before}");
                findings.bad_formula(at, &words, "name each lane once, from the left".to_owned());
            }
            NoLayout::OverObstacle { needed, .. } => {
                let words = format!("{name}: a holder at {} would meet an obstacle", show(needed));
                let way_out = "run other lanes, or choose another machine".to_owned();
                findings.bad_formula(at, &words, way_out);
            }
            NoLayout::Number(error) => {
                let way_out = "check the inputs of the recipe".to_owned();
                findings.bad_formula(at, &error.to_string(), way_out);
            }
        }
        None
    }

    fn show(&self, length: Number) -> String {
        show_length(length, self.rail.unit)
    }
}

/// The formulas of a layout: kind, key, text.
pub(super) fn layout_formulas(entry: &LayoutEntry) -> Vec<(&'static str, &'static str, &str)> {
    let mut formulas = Vec::new();
    if let Some(knives) = &entry.knives {
        formulas.push(("knives", "lanes", knives.lanes.as_str()));
        formulas.push(("knives", "strip", knives.strip.as_str()));
        formulas.push(("knives", "trim", knives.trim.as_str()));
    }
    if let Some(guides) = &entry.guides {
        formulas.push(("guides", "opening", guides.opening.as_str()));
    }
    formulas
}

/// The name of a layout's formula among the others; no setting has a dot in its name.
pub(super) fn layout_name(rail: &str, key: &str) -> String {
    format!("layouts.{rail}.{key}")
}

/// How far the middle of the outermost lane would be off: `(lanes - 1) / 2 * |strip - pitch|`.
///
/// Source: common practice, no source.
fn outer_offset(lanes: u32, strip: Number, pitch: Number) -> Option<Number> {
    let steps = Number::from(i64::from(lanes)).sub(Number::ONE).ok()?.div(Number::TWO).ok()?;
    strip.sub(pitch).ok()?.mul(steps).ok().map(Number::abs)
}

fn show_length(length: Number, unit: &'static Unit) -> String {
    short(Quantity { amount: length, dimension: Dimension::LENGTH }, Some(unit))
}

/// Away from the datum: an opening is never made narrower than it was asked for.
fn outward(position: Number) -> Rounding {
    if position.is_negative() { Rounding::Down } else { Rounding::Up }
}

/// Towards the datum: a parked spare stays away from the rail's end.
fn inward(position: Number) -> Rounding {
    if position.is_negative() { Rounding::Up } else { Rounding::Down }
}

/// Holders as the instrument shows them, and their exact positions; spares parked, room asked for.
///
/// Each position is rounded by itself, from the datum, so errors do not add up.
fn stand(
    used: &[Number],
    rail: &layout::Rail,
    step: Option<Number>,
    body: Body,
    rounding: impl Fn(Number) -> Rounding,
) -> Result<(Vec<Stand>, Vec<Number>), NoLayout> {
    let exact = layout::park_spares(used, rail)?;
    let mut stands = exact.clone();
    if let Some(step) = step {
        for stand in &mut stands {
            let way = match stand.parked {
                true => inward(stand.position),
                false => rounding(stand.position),
            };
            stand.position = stand.position.round_to_step(step, way)?;
        }
    }
    layout::fits(&stands, rail, body)?;
    let used = |(stand, exact): (&Stand, &Stand)| {
        if stand.parked { stand.position } else { exact.position }
    };
    let positions = stands.iter().zip(&exact).map(used).collect();
    Ok((stands, positions))
}

#[cfg(test)]
mod tests {
    use super::{outward, stand};
    use crate::layout::{Body, Rail, Spares};
    use crate::quantity::{Number, Rounding};

    /// Positions of two holders at half an opening on either side, as an instrument shows them.
    #[track_caller]
    fn check(half: &str, step: &str, way: impl Fn(Number) -> Rounding, expected: &str) {
        let number = |text: &str| Number::parse(text).unwrap();
        let rail = Rail {
            left_end: number("-200"),
            right_end: number("200"),
            holders: 2,
            holder_width: number("20"),
            spacing: number("30"),
            tip_offset: Number::ZERO,
            obstacles: Vec::new(),
            spares: Spares::Parked,
        };
        let used = [number(half).neg(), number(half)];
        let (stands, exact) = stand(&used, &rail, Some(number(step)), Body::Guide, way).unwrap();
        let shown: Vec<String> = stands.iter().map(|stand| stand.position.to_string()).collect();
        assert_eq!(shown.join(" "), expected);
        assert_eq!(exact, used);
    }

    #[test]
    fn an_opening_is_never_made_narrower_than_asked_for() {
        check("27.25", "0.1", outward, "-27.3 27.3");
        check("27.2", "0.1", outward, "-27.2 27.2");
    }

    #[test]
    fn a_knife_stands_at_the_nearest_step() {
        check("27.25", "0.1", |_| Rounding::HalfEven, "-27.2 27.2");
        check("27.26", "0.1", |_| Rounding::HalfEven, "-27.3 27.3");
    }
}
