//! Where everything stands on the rails of one recipe on one machine.
//!
//! Asks [`crate::layout`] for positions, rounds each to its instrument, and words what does not fit.

use super::compute::{Computer, Solved, short};
use super::model::RailKind;
use crate::finding::Place;
use crate::language::Words;
use crate::layout::{
    self, Body, Knives, Lanes, NoLayout, PlacedLane, Stand, bars_needed, centred_in, lane_offsets,
    on_bar, stepping,
};
use crate::plant::instrument::Instrument;
use crate::plant::machine::{self, RailFacts};
use crate::plant::shape::{BarEntry, KnivesEntry, LayoutEntry};
use crate::quantity::{Dimension, Limits, Number, Quantity, Rounding, Unit, places_of};

/// Decimals of a position that no instrument shows.
const PLACES: u32 = 3;

/// Lanes whose offsets are listed one by one.
const LISTED: usize = 12;

/// Where everything stands on one rail; lengths in millimetres.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Positions {
    /// Knives or guides.
    pub kind: RailKind,
    /// Holders from left to right, as the instrument shows their positions.
    pub stands: Vec<Stand>,
    /// The same positions before they were rounded to the instrument.
    pub exact: Vec<Number>,
    /// Lanes that run, with the machine's numbers.
    pub lanes: Vec<PlacedLane>,
    /// Edges of the web.
    pub web: Option<(Number, Number)>,
    /// How far a position may be off.
    pub tolerance: Number,
    /// Decimals to print, in the rail's unit.
    pub places: u32,
    /// Instrument the positions are set with.
    pub instrument: Option<String>,
    /// The denominator of its marks, when they are fractions of an inch.
    pub fractions: Option<u32>,
    /// What stepping off would have cost; none without an instrument or without a second mark.
    pub stepping: Option<layout::Stepping>,
    /// How far one measurement may be off.
    pub each: Option<Number>,
    /// Which of several bars this one is.
    pub bar: Option<(u32, u32)>,
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
    on_scale(computer, &at, rail, &placed);
    if let Some(instrument) = instrument {
        measurable(computer, &at.at("instrument"), instrument, &placed, tolerance);
    }
    let each = ruler.each(instrument, &placed);
    Some(Positions {
        kind: placed.kind,
        stands: placed.stands,
        exact: placed.exact,
        lanes: placed.lanes,
        web: placed.web,
        tolerance,
        places: ruler.places,
        instrument: instrument.map(|instrument| instrument.facts.id.clone()),
        fractions: instrument.and_then(|instrument| instrument.fractions),
        stepping: each.and_then(|each| stepping(placed.steps, each).ok()).filter(|s| s.steps > 1),
        each,
        bar: placed.bar,
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
    if instrument.fractions.is_some() && instrument.resolution.unit != Some(unit) {
        computer.findings.fractions_elsewhere(at, name, &Words::foreign(unit.symbol));
        return None;
    }
    let Ok(places) = places_of(&instrument.resolution, Some(unit)) else {
        let parts = [("name", name.into()), ("resolution", resolution.into())];
        let words = Words::new("instrument-not-of-lengths", &parts);
        computer.findings.instrument_does_not_fit(at, &words);
        return None;
    };
    let step = instrument.resolution.quantity.amount;
    if step > tolerance {
        computer.findings.instrument_too_coarse(at, &Words::foreign(name), resolution);
        return None;
    }
    Some(Ruler { step: Some(step), places })
}

impl Ruler {
    /// How far one measurement may be off: the error limit at the outermost mark, else half a step.
    fn each(&self, instrument: Option<&Instrument>, placed: &Placed) -> Option<Number> {
        let stated = instrument.and_then(|instrument| {
            let error = instrument.error?.at(length(placed.outermost())).ok()?;
            Some(error.amount)
        });
        stated.or_else(|| self.step?.div(Number::TWO).ok())
    }
}

/// Asks whether the instrument reaches every mark from the datum, and can tell good from bad there.
fn measurable(
    computer: &mut Computer,
    at: &Place,
    instrument: &Instrument,
    placed: &Placed,
    tolerance: Number,
) {
    let outermost = placed.outermost();
    let about = |mark: Number| {
        let ends = (mark.sub(tolerance).ok()?, mark.add(tolerance).ok()?);
        Some(Limits { low: Some(length(ends.0)), high: Some(length(ends.1)) })
    };
    if let Some(limits) = about(outermost) {
        computer.suits(at, instrument, &limits, length(outermost));
    }
    // A mark on the datum is not measured; the innermost other one must be in reach too.
    if let Some((limits, innermost)) =
        placed.innermost().and_then(|mark| Some((about(mark)?, mark)))
    {
        computer.reaches(at, instrument, &limits, length(innermost));
    }
}

/// Every holder stands where the rail's own scale, if it has one, shows something.
fn on_scale(computer: &mut Computer, at: &Place, rail: &RailFacts, placed: &Placed) {
    let readings = placed.stands.iter().filter_map(|stand| rail.on_scale(stand.position));
    let off = readings.filter(|reading| rail.is_off_scale(*reading)).min();
    if let Some(reading) = off {
        computer.findings.off_scale(&at.key(), &rail.name, &show_length(reading, rail.unit));
    }
}

fn length(amount: Number) -> Quantity {
    Quantity { amount, dimension: Dimension::LENGTH }
}

/// What stands where, before it is printed.
struct Placed {
    kind: RailKind,
    stands: Vec<Stand>,
    exact: Vec<Number>,
    lanes: Vec<PlacedLane>,
    web: Option<(Number, Number)>,
    /// Marks on the fuller side of the datum: steps to the outermost one.
    steps: u32,
    bar: Option<(u32, u32)>,
}

impl Placed {
    /// The distance of the innermost holder in use that does not stand on the datum.
    fn innermost(&self) -> Option<Number> {
        let used = self.stands.iter().filter(|stand| !stand.parked && !stand.position.is_zero());
        used.map(|stand| stand.position.abs()).min()
    }

    /// The distance of the outermost holder in use from the datum.
    fn outermost(&self) -> Number {
        let used = self.stands.iter().filter(|stand| !stand.parked);
        used.map(|stand| stand.position.abs()).max().unwrap_or(Number::ZERO)
    }
}

/// How many marks the fuller side of the datum has.
fn steps(marks: &[Number]) -> u32 {
    let left = marks.iter().filter(|mark| mark.is_negative()).count();
    let right = marks.iter().filter(|mark| **mark > Number::ZERO).count();
    u32::try_from(left.max(right)).unwrap_or(u32::MAX)
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
        let run = self.lanes(&at, entry, lanes)?;
        let bar = match &entry.bar {
            Some(bar) => Some(self.bar(&at.at("bar"), bar)?),
            None => None,
        };
        self.strip_fits_pitch(&at.at("strip"), &run, strip);
        let knives = Knives { run, strip, trim, edge_cuts: entry.edge_cuts };
        let rail = &self.rail.rail;
        let layout = layout::place_knives(&knives).and_then(|layout| {
            let cuts = match bar {
                Some((number, of)) => on_bar(&layout.cuts, number, of),
                None => layout.cuts.clone(),
            };
            let nearest = |_| Rounding::HalfEven;
            Ok((stand(&cuts, rail, self.step, Body::Holder, nearest)?, layout))
        });
        let ((stands, exact), layout) = self.fitting(&at, layout, Some(strip))?;
        self.web_fits(&at, layout.web);
        Some(Placed {
            kind: RailKind::Knives,
            stands,
            exact,
            steps: steps(&layout.cuts),
            lanes: layout.lanes,
            web: Some(layout.web),
            bar,
        })
    }

    /// The lanes that run: those named, else the middle ones of the machine's.
    fn lanes(&mut self, at: &Place, entry: &KnivesEntry, lanes: u32) -> Option<Lanes> {
        let (Some(fitted), named) = (self.rail.lanes_fitted, !entry.run.is_empty()) else {
            if entry.run.is_empty() {
                return Some(Lanes::Centred(lanes));
            }
            self.computer.findings.run_without_lanes(&at.at("run"));
            return None;
        };
        if lanes > fitted {
            self.computer.findings.more_lanes_than_fitted(&at.at("lanes"), lanes, fitted);
            return None;
        }
        if named {
            return self.named(&at.at("run"), entry, lanes, fitted);
        }
        match centred_in(fitted, lanes) {
            Some(run) => Some(Lanes::Fitted { fitted, run }),
            // Lanes without a pitch of their own can run anywhere.
            None if self.rail.lane_pitch.is_none() || lanes == 0 => Some(Lanes::Centred(lanes)),
            None => {
                self.computer.findings.lanes_between(&at.at("lanes"), lanes, fitted);
                None
            }
        }
    }

    fn named(&mut self, at: &Place, entry: &KnivesEntry, lanes: u32, fitted: u32) -> Option<Lanes> {
        let mut run = Vec::new();
        for (index, text) in entry.run.iter().enumerate() {
            run.push(machine::count(self.computer.findings, &at.item(index), text)?);
        }
        if u32::try_from(run.len()) != Ok(lanes) {
            self.computer.findings.run_is_not_lanes(at, run.len(), lanes);
            return None;
        }
        Some(Lanes::Fitted { fitted, run })
    }

    fn bar(&mut self, at: &Place, entry: &BarEntry) -> Option<(u32, u32)> {
        let number = machine::count(self.computer.findings, &at.at("number"), &entry.number);
        let of = machine::count(self.computer.findings, &at.at("of"), &entry.of);
        let (number, of) = number.zip(of)?;
        if of < 2 || !(1..=of).contains(&number) {
            self.computer.findings.bad_bar(at);
            return None;
        }
        Some((number, of))
    }

    /// The web that is laid out is the roll it runs from; without one the machine has to take it.
    fn web_fits(&mut self, at: &Place, (left, right): (Number, Number)) {
        let Ok(web) = right.sub(left) else { return };
        match (self.computer.roll, self.computer.machine.unwind) {
            (Some(roll), _) if roll == web => {}
            (Some(roll), _) => {
                let (web, roll) = (self.show(web), self.show(roll));
                self.computer.findings.web_is_not_roll(&at.at("trim"), &web, &roll);
            }
            (None, Some(unwind)) => unwind.takes(self.computer.findings, &at.at("lanes"), web),
            (None, None) => {}
        }
    }

    fn guides(&mut self) -> Option<Placed> {
        let at = self.at.at("guides");
        let opening = self.number(&at, "opening", Dimension::LENGTH)?;
        let rail = &self.rail.rail;
        let stands = layout::place_guides(opening)
            .and_then(|faces| stand(&faces, rail, self.step, Body::Guide, outward));
        let (stands, exact) = self.fitting(&at.at("opening"), stands, None)?;
        let (lanes, web, bar) = (Vec::new(), None, None);
        Some(Placed { kind: RailKind::Guides, stands, exact, lanes, web, steps: 1, bar })
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
    fn strip_fits_pitch(&mut self, at: &Place, run: &Lanes, strip: Number) {
        let Some(pitch) = self.rail.lane_pitch.filter(|pitch| *pitch != strip) else { return };
        let off =
            lane_offsets(run, strip, pitch).map_or(String::new(), |off: Vec<_>| self.offsets(&off));
        let (strip, pitch) = (self.show(strip), self.show(pitch));
        self.computer.findings.strip_is_not_pitch(at, &strip, &pitch, &off);
    }

    /// How far each lane would be off: `lane 1 by 3 mm to the left, ...`; of many lanes the outermost.
    fn offsets(&self, offsets: &[(u32, Number)]) -> String {
        let listed = match offsets {
            [first, .., last] if offsets.len() > LISTED => vec![*first, *last],
            all => all.to_vec(),
        };
        let words = listed.into_iter().map(|(lane, off)| {
            let side = match off {
                off if off.is_zero() => return format!("lane {lane} not at all"),
                off if off.is_negative() => "left",
                _ => "right",
            };
            format!("lane {lane} by {} to the {side}", self.show(off.abs()))
        });
        words.collect::<Vec<_>>().join(", ")
    }

    fn fitting<T>(
        &mut self,
        at: &Place,
        layout: Result<T, NoLayout>,
        strip: Option<Number>,
    ) -> Option<T> {
        let error = match layout {
            Ok(layout) => return Some(layout),
            Err(error) => error,
        };
        let name = &self.rail.name;
        let show = |length: Number| show_length(length, self.rail.unit);
        let bars = strip.and_then(|strip| bars_needed(strip, self.rail.rail.spacing).ok());
        let findings = &mut self.computer.findings;
        match error {
            NoLayout::NotPositive => findings.nothing_to_lay_out(at),
            NoLayout::TooMany { most } => findings.too_many_lanes(at, most),
            NoLayout::PastRailEnd { needed, end } => {
                findings.past_rail_end(at, name, &show(needed), &show(end));
            }
            NoLayout::TooClose { gap, spacing } => {
                findings.too_close(at, name, (&show(gap), &show(spacing)), bars);
            }
            NoLayout::TooFewHolders { needed, fitted } => {
                findings.too_few_holders(at, name, needed, fitted);
            }
            NoLayout::TooFewLanes { needed, fitted } => {
                findings.more_lanes_than_fitted(at, needed, fitted);
            }
            NoLayout::NoSuchLane { fitted, .. } => findings.bad_run(&at.at("run"), fitted),
            NoLayout::LanesNotRising { .. } => {
                let fitted = self.rail.lanes_fitted.unwrap_or_default();
                findings.bad_run(&at.at("run"), fitted);
            }
            NoLayout::OverObstacle { index, needed } => {
                let obstacle = self.rail.obstacles.get(index);
                let obstacle = obstacle.map_or(Words::of("obstacle-unnamed"), Words::foreign);
                findings.over_obstacle(at, name, &show(needed), &obstacle);
            }
            NoLayout::Number(error) => {
                let words = [("words", error.words().into())];
                findings.bad_formula(at, &Words::new("sheet-no-position", &words));
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
