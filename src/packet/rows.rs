//! The rows and blanks of a step: one row for each source, move, lane, setting or first piece.

use super::group::Who;
use super::model::{
    EnergySource, Guard, Holder, HotPart, Member, Move, RailLayout, Reading, Row, Setting, Stage,
    Table, in_brackets, limits,
};
use super::settings::uncertainty;
use super::steps::Facts;
use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::shape::{AcceptWord, Each, FirstPieceEntry, ReadingEntry, StepEntry};
use crate::quantity::{self, Limits, Number, Unit, decimals_in, places_of};

/// What a step repeats over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Repeat {
    /// The machine's energy sources.
    Energy,
    /// Those of them that may come back for a test or a positioning.
    Inching,
    /// The settings somebody sets by hand.
    Settings,
    /// What is measured on the first pieces.
    FirstPiece,
    /// The lanes of a rail, or of the first that has some; the line as a whole when there are none.
    Lanes(Option<String>),
    /// The moves on a rail.
    Moves(String),
    /// The holders of a rail.
    Holders(String),
    /// People under the lockout.
    People(Who),
}

impl Repeat {
    /// Reads `energy`, `inching`, `settings`, `first-piece`, `lanes`, `<rail>.lanes`,
    /// `<rail>.moves`, `<rail>.holders`, or a word of [`Who`].
    pub(super) fn parse(word: &str, rails: &[&str]) -> Option<Repeat> {
        match word {
            "energy" => Some(Repeat::Energy),
            "inching" => Some(Repeat::Inching),
            "settings" => Some(Repeat::Settings),
            "first-piece" => Some(Repeat::FirstPiece),
            "lanes" => Some(Repeat::Lanes(None)),
            _ if Who::parse(word).is_some() => Who::parse(word).map(Repeat::People),
            _ => {
                let (rail, what) = word.split_once('.')?;
                let rail = rails.contains(&rail).then(|| rail.to_owned())?;
                match what {
                    "lanes" => Some(Repeat::Lanes(Some(rail))),
                    "moves" => Some(Repeat::Moves(rail)),
                    "holders" => Some(Repeat::Holders(rail)),
                    _ => None,
                }
            }
        }
    }
}

/// Stages in which each source is signed by itself, because each is handled by itself.
pub(super) fn signed_by_row(stage: Stage) -> bool {
    use Stage::{Isolate, Lock, Relieve, Restart, Unlock, Verify};
    matches!(stage, Isolate | Lock | Relieve | Verify | Unlock | Restart)
}

/// What the blanks of one step have in common.
pub(super) struct Blanks<'a> {
    /// Identifier of the step.
    pub step: &'a str,
    /// What to do when a reading is outside.
    pub outside: &'a str,
    /// The step's facts.
    pub entry: &'a StepEntry,
    /// Where they were written.
    pub at: &'a Place,
    /// The people a step repeats over.
    pub people: &'a [&'a Member],
}

/// The rows and the blanks of a step.
pub(super) fn of_step(
    findings: &mut Findings,
    facts: &Facts,
    blanks: &Blanks,
    repeat: Option<Repeat>,
) -> (Option<Table>, Vec<Reading>) {
    let (table, mut readings) = written(&mut Maker { findings, facts, blanks }, repeat);
    let accept = blanks.entry.reading.as_ref().map(|reading| reading.accept);
    // Zeros are accepted by nobody already, and say so.
    if accept == Some(AcceptWord::Never) && blanks.entry.stage != Stage::Verify {
        readings.iter_mut().for_each(|reading| nobody_accepts(facts.language, reading));
    }
    (table, readings)
}

/// Marks a blank as one whose reading nobody may accept outside its limits.
pub(super) fn nobody_accepts(language: Language, reading: &mut Reading) {
    reading.never_accepted = true;
    let parts = [("outside", reading.outside.as_str().into())];
    reading.outside = language.text("rows-nobody-accepts", &parts);
}

fn written(maker: &mut Maker, repeat: Option<Repeat>) -> (Option<Table>, Vec<Reading>) {
    match repeat {
        None => (None, maker.single().into_iter().collect()),
        Some(repeat) => {
            let (columns, rows) = maker.rows(&repeat);
            let columns = columns.into_iter().map(str::to_owned).collect();
            let mut readings = Vec::new();
            let mut ids = maker.row_ids(&repeat).into_iter();
            let rows = rows
                .into_iter()
                .map(|(cells, reading)| {
                    let blanks = reading.iter().map(|reading| reading.id.clone()).collect();
                    readings.extend(reading);
                    Row { id: ids.next().unwrap_or_default(), cells, readings: blanks }
                })
                .collect();
            (Some(Table { columns, rows }), readings)
        }
    }
}

type Rows = Vec<(Vec<String>, Option<Reading>)>;

/// Heads of the columns.
type Heads = Vec<&'static str>;

struct Maker<'a, 'f> {
    findings: &'a mut Findings,
    facts: &'a Facts<'f>,
    blanks: &'a Blanks<'a>,
}

impl<'f> Maker<'_, 'f> {
    fn rows(&mut self, repeat: &Repeat) -> (Heads, Rows) {
        match repeat {
            Repeat::Energy | Repeat::Inching => self.energy(repeat),
            Repeat::Settings => self.settings(),
            Repeat::FirstPiece => self.first_piece(),
            Repeat::Lanes(rail) => self.lanes(rail.as_deref()),
            Repeat::Moves(rail) => self.moves(rail),
            Repeat::Holders(rail) => self.holders(rail),
            Repeat::People(who) => self.people(*who),
        }
    }

    fn people(&self, who: Who) -> (Heads, Rows) {
        let language = self.facts.language;
        let ways = [language.word("rows-hands-over"), language.word("rows-takes-over")];
        let cells = |(index, member): (usize, &&Member)| {
            let mut cells = vec![member.name.clone(), member.role.clone()];
            if who == Who::Handover {
                cells.extend(ways.get(index).map(|way| (*way).to_owned()));
            }
            (cells, None)
        };
        let rows = self.blanks.people.iter().enumerate().map(cells).collect();
        let mut heads = vec![language.word("rows-person"), language.word("rows-role")];
        if who == Who::Handover {
            heads.push(language.word("rows-does"));
        }
        (heads, rows)
    }

    fn wants_blank(&self) -> bool {
        self.blanks.entry.reading.is_some()
    }

    fn energy(&mut self, repeat: &Repeat) -> (Heads, Rows) {
        let language = self.facts.language;
        let (source, device) = (language.word("rows-source"), language.word("rows-device"));
        let (place, magnitude) = (language.word("rows-where"), language.word("rows-magnitude"));
        let (stored, relieved) = (language.word("rows-stored"), language.word("rows-relieved"));
        let columns = match self.blanks.entry.stage {
            Stage::Isolate => {
                vec![source, magnitude, device, place, language.word("rows-safe")]
            }
            Stage::Lock | Stage::Unlock => {
                vec![source, device, place, language.word("rows-lock")]
            }
            Stage::Relieve if self.is_timed() => {
                vec![source, stored, relieved, language.word("rows-wait")]
            }
            Stage::Relieve => vec![source, stored, relieved],
            Stage::Verify => vec![source, language.word("rows-proof")],
            Stage::Restart => vec![source, device, place, language.word("rows-back")],
            _ => vec![source, language.word("rows-kind"), magnitude, device, place],
        };
        let energy = self.sources(repeat).into_iter();
        let rows = energy.map(|source| (self.energy_cells(source), self.zero(source)));
        (columns, rows.collect())
    }

    /// The energy sources in the order of the rows.
    fn sources(&self, repeat: &Repeat) -> Vec<&'f EnergySource> {
        let mut sources: Vec<&EnergySource> = self.facts.acted(repeat).collect();
        // What went on last comes off first.
        if matches!(self.blanks.entry.stage, Stage::Unlock | Stage::Restart) {
            sources.reverse();
        }
        sources
    }

    /// Names of the rows, where each is signed by itself.
    fn row_ids(&self, repeat: &Repeat) -> Vec<String> {
        match repeat {
            Repeat::Energy | Repeat::Inching if signed_by_row(self.blanks.entry.stage) => {
                self.sources(repeat).into_iter().map(|source| source.id.clone()).collect()
            }
            Repeat::People(_) => {
                self.blanks.people.iter().map(|member| member.id.clone()).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Whether any source has a timed wait.
    fn is_timed(&self) -> bool {
        self.facts.energy.iter().any(|source| !source.wait.is_empty())
    }

    fn energy_cells(&self, source: &EnergySource) -> Vec<String> {
        let EnergySource { name, kind, magnitude, device, place, safe, lock, .. } = source;
        let language = self.facts.language;
        let (relief, wait) = (relief(source), wait(language, source));
        let (proof, kind) = (proof(language, source), &kind_of(language, kind));
        let cells: Vec<&String> = match self.blanks.entry.stage {
            Stage::Isolate => vec![name, magnitude, device, place, safe],
            Stage::Lock | Stage::Unlock => vec![name, device, place, lock],
            Stage::Relieve if self.is_timed() => vec![name, &source.stored, &relief, &wait],
            Stage::Relieve => vec![name, &source.stored, &relief],
            Stage::Verify => vec![name, &proof],
            Stage::Restart => vec![name, device, place, &source.restore],
            _ => vec![name, kind, magnitude, device, place],
        };
        cells.into_iter().cloned().collect()
    }

    /// The blank for a measured zero, where the machine's file asks for one.
    fn zero(&mut self, source: &EnergySource) -> Option<Reading> {
        if !self.wants_blank() {
            return None;
        }
        let language = self.facts.language;
        let zero = self.facts.zeros.get(&source.id)?;
        let instrument = zero.instrument.as_ref().and_then(|id| self.facts.instruments.get(id));
        Some(Reading {
            id: self.id(&source.id),
            label: language.text("rows-zero-of", &[("source", source.name.as_str().into())]),
            unit: zero.unit.clone(),
            target: None,
            low: decimal(&zero.low),
            high: decimal(&zero.high),
            // Nobody can prove a zero through a guard band: the limit itself has to be met.
            guard: None,
            also_limits: String::new(),
            instrument: instrument.cloned(),
            outside: language
                .text("rows-nobody-accepts-zero", &[("outside", self.blanks.outside.into())]),
            never_accepted: false,
        })
    }

    fn settings(&mut self) -> (Heads, Rows) {
        let language = self.facts.language;
        let columns = vec![
            language.word("rows-what"),
            language.word("rows-where"),
            language.word("rows-was"),
            language.word("rows-set-to"),
            language.word("rows-limits"),
        ];
        let mut rows = Rows::new();
        for setting in self.facts.settings.iter().filter(|setting| !setting.place.is_empty()) {
            let was = setting.was.as_ref().map_or("–".to_owned(), |was| setting.with_unit(was));
            let target = match setting.by.as_str() {
                "" => setting.set_to(),
                by => format!("{}, {by}", language.decimals(&setting.set_to())),
            };
            let cells = vec![
                setting.name.clone(),
                setting.place.clone(),
                was,
                target,
                limits_of(language, setting),
            ];
            let blank = self.wants_blank().then(|| self.of_setting(setting, "", &setting.id));
            rows.push((cells, blank));
        }
        (columns, rows)
    }

    fn first_piece(&mut self) -> (Heads, Rows) {
        let language = self.facts.language;
        let mut rows = Rows::new();
        for entry in self.facts.first_piece {
            let Some(setting) = self.facts.settings.iter().find(|s| s.id == entry.of) else {
                continue;
            };
            for piece in self.pieces(entry) {
                let id = piece.id.map_or(setting.id.clone(), |id| format!("{}-{id}", setting.id));
                let mut reading = self.of_setting(setting, &piece.label, &id);
                if let Some(instrument) = &entry.instrument {
                    reading = self.guarded(reading, instrument);
                }
                let cells = vec![setting.name.clone(), piece.shown, limits_of(language, setting)];
                rows.push((cells, Some(reading)));
            }
            rows.extend(self.average(entry, setting));
        }
        let heads = ["rows-what", "rows-of", "rows-limits"].map(|head| language.word(head));
        (heads.to_vec(), rows)
    }

    /// What one first-piece measurement is taken of, one after the other.
    fn pieces(&self, entry: &FirstPieceEntry) -> Vec<Piece> {
        let language = self.facts.language;
        let numbered = |word: &str, numbers: Vec<u32>| {
            let piece = |number: u32| {
                let parts = [("number", number.to_string().into())];
                let key = if word == "lane" { "rows-lane-number" } else { "rows-head-number" };
                let shown = language.text(key, &parts);
                let label = format!(", {shown}");
                Piece { id: Some(format!("{word}-{number}")), label, shown }
            };
            numbers.into_iter().map(piece).collect()
        };
        let heads = entry.heads.as_ref().and_then(|text| Number::parse(text).ok()?.to_u32());
        match (entry.each, self.lane_numbers(), heads) {
            (Each::Lane, Some(lanes), _) => numbered("lane", lanes),
            (Each::Head, _, Some(heads)) => numbered("head", (1..=heads).collect()),
            _ => vec![Piece { id: None, label: String::new(), shown: "–".to_owned() }],
        }
    }

    /// The average of the pieces, where the label promises one.
    fn average(
        &self,
        entry: &FirstPieceEntry,
        setting: &Setting,
    ) -> Option<(Vec<String>, Option<Reading>)> {
        let contents = self.facts.contents.filter(|contents| contents.of == entry.of)?;
        let low = contents.label_in(Unit::find(&setting.unit), decimals_in(&setting.target))?;
        let mut reading = self.of_setting(setting, "", &format!("{}-average", setting.id));
        let language = self.facts.language;
        let name = [("name", setting.name.as_str().into())];
        reading.label = language.text("rows-average-of", &name);
        reading.target = None;
        (reading.low, reading.high) = (Some(low.clone()), None);
        // The average of several readings is surer than one of them.
        (reading.guard, reading.also_limits) = (None, String::new());
        let limits = limits(language, Some(&low), None).unwrap_or_default();
        let limits = setting.with_unit(&limits);
        let average = language.word("rows-average").to_owned();
        Some((vec![setting.name.clone(), average, limits], Some(reading)))
    }

    fn lanes(&mut self, rail: Option<&str>) -> (Heads, Rows) {
        let language = self.facts.language;
        let mut rails = self.facts.rails.iter().filter(|own| rail.is_none_or(|id| own.id == id));
        let Some(rail) = rails.find(|rail| !rail.lanes.is_empty()) else {
            let blank = self.of_lane(None);
            let whole = language.word("rows-whole-line").to_owned();
            return (vec![language.word("rows-lane")], vec![(vec![whole], blank)]);
        };
        let mut rows = Rows::new();
        for lane in &rail.lanes {
            let edge = |at: &String| format!("{at} {}", rail.unit);
            let cells =
                vec![lane.number.to_string(), edge(&lane.edges.left), edge(&lane.edges.right)];
            rows.push((cells, self.of_lane(Some(lane.number))));
        }
        let heads = ["rows-lane", "rows-from", "rows-to"].map(|head| language.word(head));
        (heads.to_vec(), rows)
    }

    fn moves(&mut self, id: &str) -> (Heads, Rows) {
        let Some(rail) = self.rail(id) else { return (Vec::new(), Rows::new()) };
        let mut rows = Rows::new();
        for step in &rail.moves {
            let holder = step
                .holder
                .and_then(|number| rail.holders.iter().find(|holder| holder.number == number));
            let cells = move_cells(self.facts.language, rail, step, holder);
            rows.push((cells, holder.and_then(|holder| self.position(rail, holder))));
        }
        let heads = ["rows-holder", "rows-from", "rows-to", "rows-move"];
        (heads.map(|head| self.facts.language.word(head)).to_vec(), rows)
    }

    fn holders(&mut self, id: &str) -> (Heads, Rows) {
        let Some(rail) = self.rail(id) else { return (Vec::new(), Rows::new()) };
        let mut rows = Rows::new();
        for holder in &rail.holders {
            let cells = vec![holder.number.to_string(), stand(self.facts.language, rail, holder)];
            rows.push((cells, self.position(rail, holder)));
        }
        let heads = ["rows-holder", "rows-position"].map(|head| self.facts.language.word(head));
        (heads.to_vec(), rows)
    }

    /// The blank for a holder's position.
    fn position(&self, rail: &RailLayout, holder: &Holder) -> Option<Reading> {
        if !self.wants_blank() || holder.parked {
            return None;
        }
        let instrument = rail.instrument.as_ref().and_then(|id| self.facts.instruments.get(id));
        Some(Reading {
            id: self.id(&format!("holder-{}", holder.number)),
            label: self.facts.language.text(
                "rows-position-of",
                &[
                    ("rail", rail.name.as_str().into()),
                    ("number", holder.number.to_string().into()),
                ],
            ),
            unit: rail.unit.clone(),
            target: Some(holder.new.clone()),
            low: Some(holder.low.clone()),
            high: Some(holder.high.clone()),
            guard: None,
            also_limits: String::new(),
            instrument: instrument.cloned(),
            outside: self.blanks.outside.to_owned(),
            never_accepted: false,
        })
        .map(|reading| self.with_guard(reading))
    }

    /// The blank of a step that does not repeat.
    fn single(&mut self) -> Option<Reading> {
        self.of_lane(None)
    }

    /// The blank of a lane, or of the whole: the setting that the writer named, or one of its own.
    fn of_lane(&mut self, lane: Option<u32>) -> Option<Reading> {
        let entry = self.blanks.entry.reading.as_ref()?;
        if entry.of.is_some() {
            return self.of_named_setting(lane);
        }
        let mut reading = self.free(entry)?;
        if let Some(lane) = lane {
            reading.id += &format!("-lane-{lane}");
            let parts = [("number", lane.to_string().into())];
            let lane = self.facts.language.text("rows-lane-number", &parts);
            reading.label += &format!(", {lane}");
        }
        Some(reading)
    }

    /// The blank for the setting that the writer named.
    fn of_named_setting(&mut self, lane: Option<u32>) -> Option<Reading> {
        let entry = self.blanks.entry.reading.as_ref()?;
        let name = entry.of.as_deref().unwrap_or_default();
        let at = self.blanks.at.at("reading");
        let facts = self.facts;
        let Some(setting) = facts.settings.iter().find(|setting| setting.id == name) else {
            let known: Vec<&str> = facts.settings.iter().map(|s| s.id.as_str()).collect();
            self.findings.unknown_reading(&at.at("of"), name, &known);
            return None;
        };
        let id = match lane {
            Some(lane) => format!("{name}-lane-{lane}"),
            None => name.to_owned(),
        };
        let lane = lane.map_or(String::new(), |lane| {
            let parts = [("number", lane.to_string().into())];
            format!(", {}", self.facts.language.text("rows-lane-number", &parts))
        });
        Some(self.of_setting(setting, &lane, &id))
    }

    fn of_setting(&self, setting: &Setting, piece: &str, id: &str) -> Reading {
        let instrument = setting.instrument.as_ref().and_then(|id| self.facts.instruments.get(id));
        let reading = Reading {
            id: self.id(id),
            label: format!("{}{piece}", setting.name),
            unit: setting.unit.clone(),
            target: Some(setting.target.clone()),
            low: setting.low.clone(),
            high: setting.high.clone(),
            guard: None,
            also_limits: setting.also_limits.clone(),
            instrument: instrument.cloned(),
            outside: self.blanks.outside.to_owned(),
            never_accepted: false,
        };
        self.with_guard(reading)
    }

    /// The blank with another instrument.
    fn guarded(&self, reading: Reading, instrument: &str) -> Reading {
        let instrument = self.facts.instruments.get(instrument).cloned();
        self.with_guard(Reading { instrument, ..reading })
    }

    /// The blank with the limits inside and outside which it is sure (ISO 14253-1).
    fn with_guard(&self, reading: Reading) -> Reading {
        let guard = self.guard(&reading);
        Reading { guard, ..reading }
    }

    fn guard(&self, reading: &Reading) -> Option<Guard> {
        let instrument = self.facts.guards?.get(&reading.instrument.as_ref()?.id)?;
        let unit = Unit::find(&reading.unit);
        let limits = Limits::read(reading.low.as_deref(), reading.high.as_deref(), unit);
        let target = Limits::read(reading.target.as_deref(), None, unit).low;
        let at = target.or(limits.high).or(limits.low)?;
        let uncertainty = uncertainty(instrument, at)?;
        let guarded = quantity::guard(&limits, uncertainty).ok()?;
        // One decimal more than the instrument shows: a guard band is finer than a step.
        let places = places_of(&instrument.resolution, unit).ok()? + 1;
        let inner = quantity::inward(&guarded.inner, unit, places).ok()?;
        let outer = quantity::outward(&guarded.outer, unit, places).ok()?;
        Some(Guard {
            uncertainty: uncertainty.in_unit(unit).ok()?.shortest(6),
            low: inner.low,
            high: inner.high,
            outer_low: outer.low,
            outer_high: outer.high,
        })
    }

    /// A blank with a name, unit and limits of its own.
    fn free(&mut self, entry: &ReadingEntry) -> Option<Reading> {
        let at = self.blanks.at.at("reading");
        let Some(name) = &entry.name else {
            self.findings.missing_key(&at, "name");
            return None;
        };
        let unit = entry.unit.clone().unwrap_or_default();
        if !unit.is_empty() && Unit::find(&unit).is_none() {
            self.findings.unknown_unit(&at.at("unit"), &unit);
        }
        let mut limit = |key: &str, text: &Option<String>| {
            if let Some(Err(error)) = text.as_ref().map(|text| Number::parse(text)) {
                self.findings.bad_quantity(&at.at(key).within(error.range.clone()), &error);
            }
        };
        limit("low", &entry.low);
        limit("high", &entry.high);
        let instrument = entry.instrument.as_ref().and_then(|id| {
            let found = self.facts.instruments.get(id);
            if found.is_none() {
                let known: Vec<&String> = self.facts.instruments.keys().collect();
                self.findings.unknown_instrument(&at.at("instrument"), id, &known);
            }
            found.cloned()
        });
        let slug: String = name
            .to_lowercase()
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
            .collect();
        Some(Reading {
            id: self.id(slug.trim_matches('-')),
            label: entry.label.as_ref().unwrap_or(name).clone(),
            unit,
            target: None,
            low: decimal(&entry.low),
            high: decimal(&entry.high),
            guard: None,
            also_limits: String::new(),
            instrument,
            outside: self.blanks.outside.to_owned(),
            never_accepted: false,
        })
    }

    fn id(&self, what: &str) -> String {
        format!("{}/{what}", self.blanks.step)
    }

    fn rail(&self, id: &str) -> Option<&'f RailLayout> {
        self.facts.rails.iter().find(|rail| rail.id == id)
    }

    /// The machine's numbers of the lanes that run.
    fn lane_numbers(&self) -> Option<Vec<u32>> {
        let rail = self.facts.rails.iter().find(|rail| !rail.lanes.is_empty())?;
        Some(rail.lanes.iter().map(|lane| lane.number).collect())
    }
}

/// How a source is relieved, and when its hot parts will have cooled.
fn relief(source: &EnergySource) -> String {
    let mut text = source.relieve.clone();
    for part in source.hot_parts.iter().filter(|part| !part.cooling.is_empty()) {
        text += &format!(" {}: {}", part.part, part.cooling);
    }
    text
}

/// A blank for the start of a timed wait and for its end.
///
/// Source: DOE-STD-1029-92, section 4: a timed step has its start and its end written down.
fn wait(language: Language, source: &EnergySource) -> String {
    match source.wait.as_str() {
        "" => "–".to_owned(),
        wait => {
            let wait = language.decimals(wait);
            language.text("rows-wait-blank", &[("wait", wait.into())])
        }
    }
}

/// How zero is proved: what the writer says, the pairs to measure, what burns.
fn proof(language: Language, source: &EnergySource) -> String {
    let mut text = vec![source.prove.clone()];
    if !source.pairs.is_empty() {
        let pairs = source.pairs.join(", ");
        text.push(language.text("rows-measure-each", &[("pairs", pairs.into())]));
    }
    for part in &source.hot_parts {
        let HotPart { part, surface, lasts, threshold, gloves, .. } = part;
        let parts = [
            ("part", part.into()),
            ("surface", surface.into()),
            ("lasts", language.decimals(lasts).into()),
            ("threshold", language.decimals(threshold).into()),
        ];
        text.push(language.text("rows-burns", &parts));
        if !gloves.is_empty() {
            text.push(language.text("rows-gloves", &[("gloves", gloves.into())]));
        }
    }
    text.join(" ")
}

/// The kind of a source, for people.
pub(super) fn kind_of(language: Language, kind: &str) -> String {
    match KINDS.iter().find(|(own, _)| *own == kind) {
        Some((_, key)) => language.word(key).to_owned(),
        None => kind.to_owned(),
    }
}

/// Kinds of energy and the word for each.
const KINDS: [(&str, &str); 10] = [
    ("electrical", "rows-electrical"),
    ("pneumatic", "rows-pneumatic"),
    ("hydraulic", "rows-hydraulic"),
    ("gravity", "rows-gravity"),
    ("spring", "rows-spring"),
    ("mechanical", "rows-mechanical"),
    ("thermal", "rows-thermal"),
    ("chemical", "rows-chemical"),
    ("vacuum", "rows-vacuum"),
    ("other", "rows-other"),
];

/// What a first-piece measurement is taken of.
struct Piece {
    /// End of the blank's name; none for the only one.
    id: Option<String>,
    /// End of its label.
    label: String,
    /// Its cell.
    shown: String,
}

/// A holder's place as it stands in a row: position, other forms of it, whether it is parked.
///
/// A parked holder is set by its middle: its blade stays covered, and nobody measures to the tip.
fn stand(language: Language, rail: &RailLayout, holder: &Holder) -> String {
    let middle = middle(rail, holder).filter(|_| holder.parked && !rail.tip_offset.is_empty());
    let mut text = match middle {
        Some(middle) => {
            let position = with_side(language, &middle, &rail.unit);
            language.text("rows-middle", &[("position", position.into())])
        }
        None => {
            let number = if holder.fraction.is_empty() { &holder.new } else { &holder.fraction };
            let number = format!("{} {}", signed(number), rail.unit);
            beside_datum(language, &in_brackets(number, &minus(&holder.also)), &holder.new)
        }
    };
    if !holder.scale.is_empty() {
        let reading = language.decimals(&format!("{} {}", holder.scale, rail.unit));
        text =
            language.text("rows-scale", &[("position", text.into()), ("reading", reading.into())]);
    }
    if holder.parked {
        text = language.text("rows-parked", &[("position", text.into())]);
    }
    text
}

/// Where the middle of a holder stands whose tip is off it.
fn middle(rail: &RailLayout, holder: &Holder) -> Option<String> {
    let tip = Number::parse(&holder.new).ok()?;
    let offset = Number::parse(&rail.tip_offset).ok()?;
    Some(tip.sub(offset).ok()?.decimal(decimals_in(&holder.new)))
}

/// `+28.0 mm right`, `−28.0 mm left`, `0.0 mm (on the datum)`.
pub(super) fn with_side(language: Language, position: &str, unit: &str) -> String {
    beside_datum(language, &format!("{} {unit}", signed(position)), position)
}

/// A position with its sign on both sides of the datum, a true minus for print: `+28.0`, `−28.0`, `0.0`.
fn signed(number: &str) -> String {
    match (number.strip_prefix('-'), is_zero(number)) {
        (_, true) => number.trim_start_matches('-').to_owned(),
        (Some(left), false) => format!("\u{2212}{left}"),
        (None, false) => format!("+{number}"),
    }
}

/// A text with a true minus before its number.
fn minus(text: &str) -> String {
    text.strip_prefix('-').map_or(text.to_owned(), |rest| format!("\u{2212}{rest}"))
}

fn is_zero(number: &str) -> bool {
    number.chars().all(|c| matches!(c, '0' | '.' | '-'))
}

/// A position as it is shown, with the side of the datum on which it lies.
fn beside_datum(language: Language, shown: &str, position: &str) -> String {
    let parts = [("position", language.decimals(shown).into())];
    match (is_zero(position), position.starts_with('-')) {
        (true, _) => language.text("rows-on-datum", &parts),
        (false, true) => language.text("rows-at-left", &parts),
        (false, false) => language.text("rows-at-right", &parts),
    }
}

fn move_cells(
    language: Language,
    rail: &RailLayout,
    step: &Move,
    holder: Option<&Holder>,
) -> Vec<String> {
    let unit = &rail.unit;
    let from = step.from.as_ref().map_or("–".to_owned(), |from| with_side(language, from, unit));
    let to = holder.map_or("–".to_owned(), |holder| stand(language, rail, holder));
    let slid = [("distance", language.decimals(&format!("{} {unit}", step.distance)).into())];
    let way = match step.direction.as_str() {
        "set" => language.word("rows-set").to_owned(),
        "off" => language.word("rows-off").to_owned(),
        "fit" => language.word("rows-fit").to_owned(),
        "left" => language.text("rows-move-left", &slid),
        _ => language.text("rows-move-right", &slid),
    };
    let number = step.holder.map_or("–".to_owned(), |number| number.to_string());
    vec![number, from, to, way]
}

/// Limits in words, or a dash.
pub(super) fn limits_of(language: Language, setting: &Setting) -> String {
    setting.limits(language).unwrap_or_else(|| "–".to_owned())
}

/// A limit as a plain decimal, which a record can compare: `2 1/4` is 2.25.
fn decimal(limit: &Option<String>) -> Option<String> {
    let text = limit.as_ref()?;
    let is_plain = text.chars().all(|c| c.is_ascii_digit() || c == '.' || c == '-');
    let number = Number::parse(text).ok().filter(|_| !is_plain);
    Some(number.map_or(text.clone(), |number| number.to_string()))
}

#[cfg(test)]
mod tests {
    use super::decimal;

    #[test]
    fn limits_of_blanks_are_decimals_a_record_can_compare() {
        let check = |written: &str, expected: &str| {
            assert_eq!(decimal(&Some(written.to_owned())).as_deref(), Some(expected));
        };
        check("2 1/4", "2.25");
        check("18", "18");
        check("-0.50", "-0.50");
    }
}
