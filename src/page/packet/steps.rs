//! A step on the page: hazards first, then text, rows, blanks, ticks and signatures.

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{
    EnergyState, Guard, Instrument, Meaning, MinorServicing, Packet, Reading, Sign, Step, Table,
};
use crate::page::{decimal, markdown, words};
use crate::trade::signs::{NO_GLOVES, SafetySign};

use super::{HazardView, hazard_view, order};
use crate::page::site::Spoken;

/// A step as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepView {
    /// Number in the packet.
    pub number: u32,
    /// Title.
    pub title: String,
    /// BCP 47 tag of its own texts; empty when they are in the packet's language. Blanks, lines to
    /// sign and what energy it needs are in the packet's in any case.
    pub lang: String,
    /// Why it is not needed; empty for a step that is done.
    pub stays: String,
    /// What changes and makes it needed; mostly empty.
    pub kept: String,
    /// Where a procedure begins: its title and the numbers of its steps.
    pub begins: Option<PartView>,
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
    /// How many people do it at once, in words; empty for one.
    pub people: String,
    /// That the line may run meanwhile, in words; else empty.
    pub line: String,
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
    /// What it settles in the order of work, in words.
    pub marks: Vec<String>,
    /// Roles whose initials stand in the rows; their owners write their names below.
    pub initials: Vec<String>,
    /// Whether it is too long to be kept on one printed page.
    pub long: bool,
}

/// Where a procedure begins among the steps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PartView {
    /// Title of the procedure.
    pub title: String,
    /// BCP 47 tag of the title; empty when it is in the packet's language.
    pub lang: String,
    /// What the reader must know of the procedure's translation; mostly empty.
    pub flag: String,
    /// What includes it, and what it is told where it is used again; mostly empty.
    pub remark: String,
    /// Number of its first step.
    pub first: u32,
    /// Number of its last step in a row.
    pub last: u32,
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
    /// BCP 47 tag of the label and the instrument; empty when they are in the packet's language.
    pub lang: String,
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

/// Words all steps: where procedures begin, and what was said in full before within one of them.
pub(super) fn views(packet: &Packet) -> Vec<StepView> {
    let mut views: Vec<StepView> = Vec::new();
    for part in packet.steps.chunk_by(|a, b| a.is_beside(b)) {
        let begins = views.len();
        views.extend(part.iter().map(|step| view(step, packet)));
        let part = views.split_at_mut(begins).1;
        shorten(part);
        let last = part.last().map_or(0, |step| step.number);
        if let (Some(first), Some(step)) = (part.first_mut(), packet.steps.get(begins)) {
            first.begins = Some(begins_with(packet, step, last));
        }
    }
    views
}

/// The procedure that begins with a step; by its name where the packet has no title of it.
fn begins_with(packet: &Packet, step: &Step, last: u32) -> PartView {
    let known = packet.procedures.iter().find(|procedure| procedure.id == step.procedure);
    let Spoken { text, lang } = order::title(packet, &step.procedure);
    PartView {
        title: text,
        lang,
        remark: order::remark(packet, step),
        flag: known.map_or(String::new(), |procedure| procedure.flag.clone()),
        first: step.number,
        last,
    }
}

/// Marks the messages that an earlier step of the same procedure has printed in full, with the same
/// signs: they are shown again with signal word, hazard and avoidance (ANSI Z535.6, messages that are
/// embedded in a procedure; from memory).
fn shorten(part: &mut [StepView]) {
    let mut said: Vec<HazardView> = Vec::new();
    for step in part.iter_mut().filter(|step| step.stays.is_empty()) {
        for hazard in &mut step.hazards {
            match said.contains(hazard) {
                true => hazard.brief = true,
                false => said.push(hazard.clone()),
            }
        }
    }
}

/// Words a step: its own texts, and the sentences of the program around them, in its own language.
fn view(step: &Step, packet: &Packet) -> StepView {
    let language = packet.language;
    let own = step.language.unwrap_or(language);
    let instruments = distinct(step.readings.iter().filter_map(|r| r.instrument.as_ref()));
    let several = instruments.len() > 1;
    let blank = |reading: &Reading| blank_view(step, reading, several, language);
    let by = |sign: &Sign| sign_view(sign, language);
    StepView {
        number: step.number,
        title: step.title.clone(),
        kept: step.kept.clone(),
        lang: words::lang(step.language, language),
        stays: step.stays.clone().unwrap_or_default(),
        begins: None,
        hazards: hazards(step, packet, language),
        needs: words::needs(language, step.needs).to_owned(),
        isolated: step.needs == EnergyState::Isolated,
        zone: zone_name(step, packet),
        minor_servicing: step
            .minor_servicing
            .as_ref()
            .map_or(vec![], |minor| minor_servicing(minor, own)),
        minutes: step.minutes.map_or(String::new(), |count| {
            language.text("step-minutes", &[("count", count.into())])
        }),
        people: match step.people {
            1 => String::new(),
            count => language.text("stop-people", &[("count", count.into())]),
        },
        line: if step.while_running { language.word("stop-line-may-run") } else { "" }.to_owned(),
        tools: step.tools.iter().map(|tool| tool.trim().to_owned()).collect(),
        html: markdown::to_html(&step.text, &step.values, own),
        tables: step.table.iter().map(|table| table_view(step, table, blank, language)).collect(),
        first: step.first.clone(),
        checks: step.checks.clone(),
        blanks: loose(step).map(blank).collect(),
        instruments: instruments.iter().map(|one| instrument_words(one, own)).collect(),
        guards: guards(step, language),
        outside: distinct(step.readings.iter().map(|r| &r.outside).filter(|o| !o.is_empty()))
            .into_iter()
            .cloned()
            .collect(),
        signs: step.signs.iter().filter(|sign| sign.row.is_none()).map(by).collect(),
        marks: step.marks.iter().map(|mark| words::mark(language, *mark).to_owned()).collect(),
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
fn hazards(step: &Step, packet: &Packet, language: Language) -> Vec<HazardView> {
    let named = |id: &String| packet.hazards.iter().find(|hazard| hazard.id == *id);
    let mut found: Vec<_> = step.hazards.iter().filter_map(named).collect();
    found.sort_by_key(|hazard| hazard.signal);
    // Nothing turns in an isolated step: the knives' "wear gloves" must not stand beside "no gloves".
    let all = step.needs != EnergyState::Isolated;
    let shown = |sign: &&SafetySign| all || sign.id != NO_GLOVES;
    found.into_iter().map(|hazard| hazard_view(hazard, shown, language)).collect()
}

/// The reasons for work without lockout, each with what it says.
fn minor_servicing(minor: &MinorServicing, language: Language) -> Vec<String> {
    let said = |key, text: &str| language.text(key, &[("text", text.into())]);
    vec![
        said("step-minor-measure", &minor.measure),
        said("step-minor-routine", &minor.routine),
        said("step-minor-repetitive", &minor.repetitive),
        said("step-minor-integral", &minor.integral),
        said("step-minor-assessment", &minor.risk_assessment),
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

fn table_view(
    step: &Step,
    table: &Table,
    blank: impl Fn(&Reading) -> BlankView,
    language: Language,
) -> TableView {
    let columns = sign_columns(step, language);
    let own = step.language.unwrap_or(language);
    // In whatever language the packet was written.
    let heads = Language::ALL.map(|language| language.word("rows-limits").to_lowercase());
    let is_limits = |column: &String| heads.contains(&column.to_lowercase());
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
                cells: row.cells.iter().map(|cell| words::value(own, cell)).collect(),
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
fn sign_columns(step: &Step, language: Language) -> Vec<SignColumn<'_>> {
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
            let said = words::meaning(language, meaning);
            let head = match roles.as_slice() {
                _ if personal => language.text("step-head-person", &[("meaning", said.into())]),
                [role] => {
                    let parts = [("meaning", said.into()), ("role", (*role).into())];
                    language.text("step-head-by", &parts)
                }
                _ => language.text("step-head", &[("meaning", said.into())]),
            };
            SignColumn { head, signs, one_role }
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

fn blank_view(
    step: &Step,
    reading: &Reading,
    several_instruments: bool,
    language: Language,
) -> BlankView {
    let (low, high) = (reading.low.as_deref(), reading.high.as_deref());
    let instrument = reading.instrument.as_ref().filter(|_| several_instruments);
    BlankView {
        code: step.short_name(&reading.id),
        label: reading.label.clone(),
        lang: words::lang(step.language, language),
        unit: reading.unit.clone(),
        limits: words::limits(language, low, high, &reading.unit),
        also_limits: words::numbers(language, &reading.also_limits),
        guard: reading.guard.as_ref().map_or(String::new(), |guard| sure(guard, language)),
        target: reading
            .target
            .as_deref()
            .map_or(String::new(), |target| words::quantity(language, target, &reading.unit)),
        instrument: instrument.map_or(String::new(), |instrument| instrument.name.clone()),
    }
}

/// `within 55.8 to 56.2; outside below 55.2 or above 56.8`: what a reading surely is, in the unit
/// that stands beside the blank.
///
/// A guard band wider than half the range leaves no reading that is surely within.
fn sure(guard: &Guard, language: Language) -> String {
    let edge = |side: &Option<String>| side.as_deref().and_then(decimal::read);
    let said = |edge: &Option<String>| Some(words::number(language, edge.as_deref()?));
    let crossed = edge(&guard.low).zip(edge(&guard.high)).is_some_and(|(low, high)| low > high);
    let within = match (said(&guard.low), said(&guard.high)) {
        _ if crossed => language.word("step-sure-none").to_owned(),
        (Some(low), Some(high)) => {
            language.text("step-sure-between", &[("low", low.into()), ("high", high.into())])
        }
        (Some(low), None) => language.text("step-sure-from", &[("low", low.into())]),
        (None, Some(high)) => language.text("step-sure-to", &[("high", high.into())]),
        (None, None) => return String::new(),
    };
    let outside = match (said(&guard.outer_low), said(&guard.outer_high)) {
        (Some(low), Some(high)) => {
            language.text("step-sure-both", &[("low", low.into()), ("high", high.into())])
        }
        (Some(low), None) => language.text("step-sure-below", &[("low", low.into())]),
        (None, Some(high)) => language.text("step-sure-above", &[("high", high.into())]),
        (None, None) => return within,
    };
    format!("{within}; {outside}")
}

/// The uncertainties behind the guard bands of a step, each once.
fn guards(step: &Step, language: Language) -> Vec<String> {
    let judged = step.readings.iter().filter_map(|r| Some((r.guard.as_ref()?, &r.unit)));
    let worded: Vec<String> =
        judged.map(|(guard, unit)| words::quantity(language, &guard.uncertainty, unit)).collect();
    distinct(worded.iter()).into_iter().cloned().collect()
}

/// `Steel rule, shows 0.5 mm, may be off by 0.2 mm, measures 0 to 600 mm, calibrated until ...`.
fn instrument_words(instrument: &Instrument, language: Language) -> String {
    let facts = [
        ("step-shows", words::value(language, &instrument.resolution)),
        ("step-off", words::value(language, &instrument.error_limit)),
        ("step-measures", words::value(language, &instrument.range)),
        ("step-calibrated", words::date(language, &instrument.calibration_due)),
    ];
    let stated = facts.into_iter().filter(|(_, fact)| !fact.is_empty());
    let stated = stated.map(|(key, fact)| language.text(key, &[("fact", fact.into())]));
    stated.fold(instrument.name.clone(), |text, fact| format!("{text}, {fact}"))
}

fn sign_view(sign: &Sign, language: Language) -> SignView {
    let meaning = words::meaning(language, sign.meaning).to_owned();
    SignView { role: sign.role.clone(), meaning }
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
