//! A step on the page: hazards first, then text, rows, blanks, ticks and signatures.

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{
    EnergyState, Guard, Instrument, Meaning, MinorServicing, Packet, Reading, Sign, Step, Table,
};
use crate::page::{decimal, markdown, words};
use crate::trade::signs::{NO_GLOVES, SafetySign};

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
    /// Why nobody locks out for it, reason by reason; empty for most steps.
    pub minor_servicing: Vec<String>,
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
    /// Uncertainties of the measurements that are judged with a guard band, in words.
    pub guards: Vec<String>,
    /// What to do when a reading is outside.
    pub outside: Vec<String>,
    /// Signatures of the whole step.
    pub signs: Vec<SignView>,
    /// Roles whose initials stand in the rows; their owners write their names below.
    pub initials: Vec<String>,
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
    /// Heads of the columns that are signed row by row.
    pub signs: Vec<String>,
    /// Whether each row is signed by one person in person.
    pub personal: bool,
    /// Rows.
    pub rows: Vec<RowView>,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RowView {
    /// Number on the sheet, `9.1`; empty where rows are not signed.
    pub number: String,
    /// Cells, one a column.
    pub cells: Vec<String>,
    /// Blanks of this row.
    pub blanks: Vec<BlankView>,
    /// Who signs, a cell a column; empty where the head says it, a dash where nobody does.
    pub signs: Vec<String>,
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
    /// The limits in the plant's other units; may be empty.
    pub also_limits: String,
    /// Where a reading is sure, in words; empty when it is judged by its limits alone.
    pub guard: String,
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
        minor_servicing: step.minor_servicing.as_ref().map_or(vec![], minor_servicing),
        minutes: step.minutes.map_or(String::new(), |minutes| format!("{minutes} min")),
        tools: step.tools.iter().map(|tool| tool.trim().to_owned()).collect(),
        html: markdown::to_html(&step.text, &step.values),
        tables: step.table.iter().map(|table| table_view(step, table, blank)).collect(),
        first: step.first.clone(),
        checks: step.checks.clone(),
        blanks: loose(step).map(blank).collect(),
        instruments: instruments.iter().map(|instrument| instrument_words(instrument)).collect(),
        guards: guards(step),
        outside: distinct(step.readings.iter().map(|r| &r.outside).filter(|o| !o.is_empty()))
            .into_iter()
            .cloned()
            .collect(),
        signs: step.signs.iter().filter(|sign| sign.row.is_none()).map(sign_view).collect(),
        initials: distinct(initialled(step)).into_iter().cloned().collect(),
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
    // Nothing turns in an isolated step: the knives' "wear gloves" must not stand beside "no gloves".
    let all = step.needs != EnergyState::Isolated;
    let shown = |sign: &&SafetySign| all || sign.id != NO_GLOVES;
    found.into_iter().map(|hazard| hazard_view(hazard, shown)).collect()
}

/// The reasons for work without lockout, each with what it says.
fn minor_servicing(minor: &MinorServicing) -> Vec<String> {
    vec![
        format!("protected instead by: {} (29 CFR 1910.212)", minor.measure),
        format!("routine: {}", minor.routine),
        format!("repetitive: {}", minor.repetitive),
        format!("integral to production: {}", minor.integral),
        format!("risk assessment: {}", minor.risk_assessment),
    ]
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

fn table_view(step: &Step, table: &Table, blank: impl Fn(&Reading) -> BlankView) -> TableView {
    let columns = sign_columns(step);
    // In whatever language the packet was written.
    let is_limits = |column: &String| {
        let heads = Language::ALL.map(|language| language.word("rows-limits").to_lowercase());
        heads.contains(&column.to_lowercase())
    };
    let has_limits = table.columns.iter().any(is_limits);
    let wanted = |ids: &[String]| -> Vec<BlankView> {
        let found = step.readings.iter().filter(|reading| ids.contains(&reading.id));
        found.map(&blank).map(|blank| without_limits(blank, has_limits)).collect()
    };
    TableView {
        columns: table.columns.clone(),
        blank: table.rows.iter().any(|row| !row.readings.is_empty()),
        signs: columns.iter().map(|column| column.head.clone()).collect(),
        personal: step.signs.iter().any(|sign| sign.by.is_some()),
        rows: table
            .rows
            .iter()
            .map(|row| RowView {
                number: step
                    .row_number(&row.id)
                    .filter(|_| !columns.is_empty())
                    .unwrap_or_default(),
                signs: columns.iter().map(|column| column.cell(&row.id)).collect(),
                cells: row.cells.iter().map(|cell| words::bound(&words::number(cell))).collect(),
                blanks: wanted(&row.readings),
            })
            .collect(),
    }
}

/// Roles of the signatures that are initials in a row; a personal row has its name beside them.
fn initialled(step: &Step) -> impl Iterator<Item = &String> {
    let signs = step.signs.iter().filter(|sign| sign.row.is_some() && sign.by.is_none());
    signs.map(|sign| &sign.role)
}

/// A column in which each row is signed.
struct SignColumn<'a> {
    head: String,
    signs: Vec<&'a Sign>,
    /// Whether the head says the role for all rows.
    one_role: bool,
}

impl SignColumn<'_> {
    fn cell(&self, row: &str) -> String {
        match self.signs.iter().find(|sign| sign.row.as_deref() == Some(row)) {
            Some(_) if self.one_role => String::new(),
            Some(sign) => sign.role.clone(),
            None => "–".to_owned(),
        }
    }
}

/// The columns that are signed row by row, one a meaning.
fn sign_columns(step: &Step) -> Vec<SignColumn<'_>> {
    let meanings = [Meaning::Performed, Meaning::Verified, Meaning::Released];
    let of_rows = |meaning| -> Vec<&Sign> {
        step.signs.iter().filter(|sign| sign.row.is_some() && sign.meaning == meaning).collect()
    };
    let columns = meanings.into_iter().map(|meaning| (meaning, of_rows(meaning)));
    columns
        .filter(|(_, signs)| !signs.is_empty())
        .map(|(meaning, signs)| {
            let personal = signs.iter().any(|sign| sign.by.is_some());
            let roles = distinct(signs.iter().map(|sign| &sign.role));
            let one_role = personal || roles.len() == 1;
            let who = match roles.as_slice() {
                _ if personal => " in person".to_owned(),
                [role] => format!(" by {role}"),
                _ => String::new(),
            };
            let when = if personal { "signature, date, time" } else { "initials, time" };
            SignColumn {
                head: format!("{}{who}: {when}", words::meaning(meaning)),
                signs,
                one_role,
            }
        })
        .collect()
}

/// Limits are not said twice in one row.
fn without_limits(blank: BlankView, said: bool) -> BlankView {
    match said {
        true => BlankView { limits: String::new(), also_limits: String::new(), ..blank },
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
        also_limits: words::numbers(&reading.also_limits),
        guard: reading.guard.as_ref().map_or(String::new(), sure),
        target: reading
            .target
            .as_deref()
            .map_or(String::new(), |target| words::quantity(target, &reading.unit)),
        instrument: instrument.map_or(String::new(), |instrument| instrument.name.clone()),
    }
}

/// `within 55.8 to 56.2; outside below 55.2 or above 56.8`: what a reading surely is, in the unit
/// that stands beside the blank.
///
/// A guard band wider than half the range leaves no reading that is surely within.
fn sure(guard: &Guard) -> String {
    let edge = |side: &Option<String>| side.as_deref().and_then(decimal::read);
    let crossed = edge(&guard.low).zip(edge(&guard.high)).is_some_and(|(low, high)| low > high);
    let within = match (guard.low.as_deref(), guard.high.as_deref()) {
        _ if crossed => "no reading is surely within".to_owned(),
        (Some(low), Some(high)) => {
            format!("within {} to {}", words::number(low), words::number(high))
        }
        (Some(low), None) => format!("within from {} up", words::number(low)),
        (None, Some(high)) => format!("within up to {}", words::number(high)),
        (None, None) => return String::new(),
    };
    let outer = [("below", &guard.outer_low), ("above", &guard.outer_high)];
    let outer: Vec<String> = outer
        .into_iter()
        .filter_map(|(side, edge)| Some(format!("{side} {}", words::number(edge.as_deref()?))))
        .collect();
    match outer.is_empty() {
        true => within,
        false => format!("{within}; outside {}", outer.join(" or ")),
    }
}

/// The uncertainties behind the guard bands of a step, each once.
fn guards(step: &Step) -> Vec<String> {
    let judged = step.readings.iter().filter_map(|r| Some((r.guard.as_ref()?, &r.unit)));
    let worded: Vec<String> =
        judged.map(|(guard, unit)| words::quantity(&guard.uncertainty, unit)).collect();
    distinct(worded.iter()).into_iter().cloned().collect()
}

/// `Steel rule, shows 0.5 mm, may be off by 0.2 mm, measures 0 to 600 mm, calibrated until ...`.
fn instrument_words(instrument: &Instrument) -> String {
    let facts = [
        ("shows", &instrument.resolution),
        ("may be off by", &instrument.error_limit),
        ("measures", &instrument.range),
        ("calibrated until", &instrument.calibration_due),
    ];
    let stated = facts.into_iter().filter(|(_, fact)| !fact.is_empty());
    stated.fold(instrument.name.clone(), |text, (what, fact)| format!("{text}, {what} {fact}"))
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
