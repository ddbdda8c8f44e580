//! A step on the page: hazards first, then text, rows, blanks, ticks and signatures.

use serde::Serialize;

use crate::packet::model::{EnergyState, Instrument, Packet, Reading, Sign, Step, Table};
use crate::page::{markdown, words};

use super::{HazardView, hazard_view};

/// A step as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepView {
    /// Number in the packet.
    pub number: u32,
    /// Title.
    pub title: String,
    /// Why it is not needed; empty for a step that is done.
    pub stays: String,
    /// Messages to read first.
    pub hazards: Vec<HazardView>,
    /// Energy it needs, in words; empty when it does not matter.
    pub needs: String,
    /// Whether everything must be isolated.
    pub isolated: bool,
    /// Name and guard of the zone; empty when nobody reaches in.
    pub zone: String,
    /// Planned minutes in words; may be empty.
    pub minutes: String,
    /// Tools.
    pub tools: Vec<String>,
    /// The text as HTML.
    pub html: String,
    /// Rows; none in a plain step.
    pub tables: Vec<TableView>,
    /// Things to tick before the step begins.
    pub first: Vec<String>,
    /// Things to tick.
    pub checks: Vec<String>,
    /// Blanks that stand in no row.
    pub blanks: Vec<BlankView>,
    /// Instruments of the blanks, in words.
    pub instruments: Vec<String>,
    /// What to do when a reading is outside.
    pub outside: Vec<String>,
    /// Signatures.
    pub signs: Vec<SignView>,
    /// Whether it is too long to be kept on one printed page.
    pub long: bool,
}

/// More rows than this and a step may run over a page's end; between rows only.
const ROWS_ON_A_PAGE: usize = 10;

/// The rows of a step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TableView {
    /// Heads.
    pub columns: Vec<String>,
    /// Whether rows have blanks.
    pub blank: bool,
    /// Rows.
    pub rows: Vec<RowView>,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RowView {
    /// Cells, one a column.
    pub cells: Vec<String>,
    /// Blanks of this row.
    pub blanks: Vec<BlankView>,
}

/// A blank to fill.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BlankView {
    /// Name to type when the reading goes on record, `11/air`.
    pub code: String,
    /// What is measured.
    pub label: String,
    /// Unit; may be empty.
    pub unit: String,
    /// Limits in words; may be empty.
    pub limits: String,
    /// Wanted value with unit; may be empty.
    pub target: String,
    /// Instrument's name, where the step uses several; may be empty.
    pub instrument: String,
}

/// A line to sign.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SignView {
    /// Role.
    pub role: String,
    /// `performed`, `verified`, `released`.
    pub meaning: String,
}

/// Words a step.
pub(super) fn view(step: &Step, packet: &Packet) -> StepView {
    let instruments = distinct(step.readings.iter().filter_map(|r| r.instrument.as_ref()));
    let blank = |reading: &Reading| blank_view(step, reading, instruments.len() > 1);
    StepView {
        number: step.number,
        title: step.title.clone(),
        stays: step.stays.clone().unwrap_or_default(),
        hazards: hazards(step, packet),
        needs: words::needs(step.needs).to_owned(),
        isolated: step.needs == EnergyState::Isolated,
        zone: zone_name(step, packet),
        minutes: step.minutes.map_or(String::new(), |minutes| format!("{minutes} min")),
        tools: step.tools.iter().map(|tool| tool.trim().to_owned()).collect(),
        html: markdown::to_html(&step.text, &step.values),
        tables: step.table.iter().map(|table| table_view(table, &step.readings, blank)).collect(),
        first: step.first.clone(),
        checks: step.checks.clone(),
        blanks: loose(step).map(blank).collect(),
        instruments: instruments.iter().map(|instrument| instrument_words(instrument)).collect(),
        outside: distinct(step.readings.iter().map(|r| &r.outside).filter(|o| !o.is_empty()))
            .into_iter()
            .cloned()
            .collect(),
        signs: step.signs.iter().map(sign_view).collect(),
        long: length(step) > ROWS_ON_A_PAGE,
    }
}

/// Rows, blanks and ticks: what makes a step long on paper.
fn length(step: &Step) -> usize {
    let rows = step.table.as_ref().map_or(0, |table| table.rows.len());
    rows + loose(step).count() + step.first.len() + step.checks.len()
}

/// The messages a step names, the gravest first; a name the packet lacks shows as nothing, which
/// the packet's own check refuses.
fn hazards(step: &Step, packet: &Packet) -> Vec<HazardView> {
    let named = |id: &String| packet.hazards.iter().find(|hazard| hazard.id == *id);
    let mut found: Vec<_> = step.hazards.iter().filter_map(named).collect();
    found.sort_by_key(|hazard| hazard.signal);
    found.into_iter().map(hazard_view).collect()
}

/// A zone by its name and the guard that closes it.
fn zone_name(step: &Step, packet: &Packet) -> String {
    let id = step.zone.as_deref().unwrap_or("");
    match packet.zones.iter().find(|zone| zone.id == id) {
        Some(zone) if zone.guard.is_empty() => zone.name.clone(),
        Some(zone) => format!("{} ({})", zone.name, zone.guard),
        None => id.to_owned(),
    }
}

/// Readings whose blanks stand in no row of the step's table.
fn loose(step: &Step) -> impl Iterator<Item = &Reading> {
    let rows = || step.table.iter().flat_map(|table| &table.rows);
    step.readings
        .iter()
        .filter(move |reading| rows().all(|row| !row.readings.contains(&reading.id)))
}

fn table_view(
    table: &Table,
    readings: &[Reading],
    blank: impl Fn(&Reading) -> BlankView,
) -> TableView {
    let has_limits = table.columns.iter().any(|column| column.eq_ignore_ascii_case("limits"));
    let wanted = |ids: &[String]| -> Vec<BlankView> {
        let found = readings.iter().filter(|reading| ids.contains(&reading.id));
        found.map(&blank).map(|blank| without_limits(blank, has_limits)).collect()
    };
    TableView {
        columns: table.columns.clone(),
        blank: table.rows.iter().any(|row| !row.readings.is_empty()),
        rows: table
            .rows
            .iter()
            .map(|row| RowView {
                cells: row.cells.iter().map(|cell| words::bound(&words::number(cell))).collect(),
                blanks: wanted(&row.readings),
            })
            .collect(),
    }
}

/// Limits are not said twice in one row.
fn without_limits(blank: BlankView, said: bool) -> BlankView {
    match said {
        true => BlankView { limits: String::new(), ..blank },
        false => blank,
    }
}

fn blank_view(step: &Step, reading: &Reading, several_instruments: bool) -> BlankView {
    let instrument = reading.instrument.as_ref().filter(|_| several_instruments);
    BlankView {
        code: step.short_name(&reading.id),
        label: reading.label.clone(),
        unit: reading.unit.clone(),
        limits: words::limits(reading.low.as_deref(), reading.high.as_deref(), &reading.unit),
        target: reading
            .target
            .as_deref()
            .map_or(String::new(), |target| words::quantity(target, &reading.unit)),
        instrument: instrument.map_or(String::new(), |instrument| instrument.name.clone()),
    }
}

/// `Steel rule 600 mm, shows 0.5 mm, calibrated until 2027-03-31`.
fn instrument_words(instrument: &Instrument) -> String {
    let mut text = instrument.name.clone();
    if !instrument.resolution.is_empty() {
        text.push_str(&format!(", shows {}", instrument.resolution));
    }
    if !instrument.calibration_due.is_empty() {
        text.push_str(&format!(", calibrated until {}", instrument.calibration_due));
    }
    text
}

fn sign_view(sign: &Sign) -> SignView {
    SignView { role: sign.role.clone(), meaning: words::meaning(sign.meaning).to_owned() }
}

/// Each value once, in the order of first appearance.
fn distinct<'a, T: PartialEq>(values: impl Iterator<Item = &'a T>) -> Vec<&'a T> {
    let mut seen: Vec<&T> = Vec::new();
    for value in values {
        if !seen.contains(&value) {
            seen.push(value);
        }
    }
    seen
}
