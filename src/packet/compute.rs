//! One recipe on one machine: every setting with its working, every position on every rail.
//!
//! What the job before left behind does not matter here; `changes` compares two of these.

use std::collections::BTreeMap;

use super::contents::{self, Contents, contents};
use super::house::House;
use super::model::{Figure, RecipeFacts, Setting};
use super::positions::{Positions, layout_formulas, layout_name, positions};
use super::web;
use crate::finding::{Findings, Place};
use crate::formula::{
    BadTable, Evaluated, Formula, Reads, Sheet, SheetError, Table, Value, is_function,
};
use crate::language::{Language, Words};
use crate::plant::instrument::Instrument;
use crate::plant::load::Loaded;
use crate::plant::machine::{self, Machine, is_name};
use crate::plant::shape::{self, BarEntry, Each, KnivesEntry, PartEntry, RecipeFile, TableEntry};
use crate::quantity::{Limits, Measure, Number, Quantity, Tolerance, Unit};

/// A recipe computed for a machine.
#[derive(Debug, Clone)]
pub struct Computed {
    /// Name and revision.
    pub recipe: RecipeFacts,
    /// Settings in the order of the recipe; none of them compared with anything yet.
    pub settings: Vec<Setting>,
    /// What each setting is, rounded to its instrument, and its decimals.
    pub targets: BTreeMap<String, (Quantity, u32)>,
    /// Positions by rail.
    pub rails: BTreeMap<String, Positions>,
    /// Strip, web, roll and film.
    pub web: Vec<Figure>,
    /// The roll to run from, with the place it lies; none without a film.
    pub roll: Option<PartEntry>,
    /// What figures of an order are worked out from; none without a web.
    pub order: Option<Sheet>,
    /// What the label promises.
    pub contents: Option<Contents>,
    /// Inputs and facts as people wrote them, by name.
    pub written: BTreeMap<String, String>,
}

/// Computes a recipe for a machine.
pub fn compute(
    findings: &mut Findings,
    house: House,
    machine: &Machine,
    recipe: &Loaded<RecipeFile>,
) -> Computed {
    let body = &recipe.body;
    let mut computer = Computer { findings, house, machine, at: &recipe.place, roll: None };
    let (sheet, written) = computer.sheet(body);
    let solved = sheet.solve();
    computer.report(body, &solved);
    computer.roll = web::amount(&solved, "web.roll");
    let contents = computer.contents(body, &solved);
    let mut settings = Vec::new();
    let mut targets = BTreeMap::new();
    for (id, entry) in body.settings.iter() {
        let Some(Ok(evaluated)) = solved.get(id) else { continue };
        let label = contents.as_ref().filter(|contents| contents.of == id);
        if let Some((mut setting, target)) = computer.setting(id, entry, evaluated, label) {
            if let Some(formula) = sheet.formulas.get(id) {
                setting.notes.extend(looked_up(house.language, body, formula));
            }
            targets.insert(id.to_owned(), target);
            settings.push(setting);
        }
    }
    let mut rails = BTreeMap::new();
    for (id, entry) in body.layouts.iter() {
        if let Some(positions) = positions(&mut computer, id, entry, &solved) {
            rails.insert(id.to_owned(), positions);
        }
    }
    computer.bars(body);
    computer.first_piece(body, &settings, &targets);
    let (mut figures, mut order, mut roll) = (Vec::new(), None, None);
    if let Some(entry) = &body.web {
        figures = web::figures(house, entry, &solved);
        roll = web::roll(&computer, entry, &solved);
        order = Some(web::order_sheet(sheet, &solved));
        web::fits(&mut computer, &solved);
    }
    let recipe = RecipeFacts {
        id: body.id.clone(),
        name: body.name.clone(),
        revision: body.revision.clone(),
        allergens: body.allergens.clone(),
    };
    Computed { recipe, settings, targets, rails, web: figures, roll, order, contents, written }
}

pub(super) type Solved = BTreeMap<String, Result<Evaluated, SheetError>>;

/// A recipe being computed.
pub(super) struct Computer<'f, 'm> {
    /// What is wrong with it.
    pub(super) findings: &'f mut Findings,
    /// The plant's choices.
    pub(super) house: House<'m>,
    /// The machine.
    pub(super) machine: &'m Machine<'m>,
    /// The recipe's file.
    pub(super) at: &'m Place,
    /// Width of the roll that the web runs from, when the stock has one.
    pub(super) roll: Option<Number>,
}

impl<'m> Computer<'_, 'm> {
    /// Everything that has a name or a formula.
    fn sheet(&mut self, body: &RecipeFile) -> (Sheet, BTreeMap<String, String>) {
        let mut written = self.facts_as_written();
        let givens = self.machine.facts.clone();
        let unreadable =
            written.keys().filter(|name| !givens.contains_key(*name)).cloned().collect();
        let mut sheet = Sheet { givens, unreadable, ..Sheet::default() };
        for (name, text) in body.inputs.iter() {
            let at = self.at.at("inputs").at(name);
            self.name(&at, name);
            if let Some(measure) = machine::measure(self.findings, &at, text) {
                sheet.givens.insert(name.to_owned(), measure);
            } else {
                sheet.unreadable.insert(name.to_owned());
            }
            written.insert(name.to_owned(), text.clone());
        }
        for (name, entry) in body.tables.iter() {
            self.enter_table(&mut sheet, body, name, entry);
        }
        if let Some(entry) = &body.web {
            let at = self.at.at("web");
            for (name, key, text) in web::written(entry) {
                self.formula(&mut sheet, &at.at(key), name.to_owned(), text);
            }
            web::enter(self, &mut sheet, entry);
        }
        if let Some(entry) = &body.net_contents {
            let at = self.at.at("net_contents").at("label");
            self.formula(&mut sheet, &at, contents::LABEL.to_owned(), &entry.label);
        }
        for (id, entry) in body.settings.iter() {
            let at = self.at.at("settings").at(id);
            self.name(&at, id);
            if body.inputs.get(id).is_some() {
                self.findings.name_twice(&at.key(), id);
            }
            self.formula(&mut sheet, &at.at("formula"), id.to_owned(), &entry.formula);
            if let Some(unit) = Unit::find(&entry.unit) {
                sheet.units.insert(id.to_owned(), unit);
            }
        }
        for (rail, entry) in body.layouts.iter() {
            let at = self.at.at("layouts").at(rail);
            for (kind, key, text) in layout_formulas(entry) {
                let at = at.at(kind).at(key);
                self.formula(&mut sheet, &at, layout_name(rail, key), text);
            }
        }
        (sheet, written)
    }

    fn facts_as_written(&self) -> BTreeMap<String, String> {
        let body = &self.machine.file.body;
        let facts = body.facts.iter().map(|(name, text)| (format!("machine.{name}"), text.clone()));
        let rails = body.rails.iter().flat_map(|(rail, entry)| {
            entry.facts.iter().map(move |(name, text)| (format!("{rail}.{name}"), text.clone()))
        });
        let mut written: BTreeMap<String, String> = facts.chain(rails).collect();
        // What follows from screws is written nowhere; what cannot be read of them is reported there.
        for (name, measure) in &self.machine.facts {
            let text = self.machine.in_text.get(name);
            written
                .entry(name.clone())
                .or_insert_with(|| text.cloned().unwrap_or_else(|| measure.to_string()));
        }
        written
    }

    /// A table of the recipe, to be used as a function of one value.
    fn enter_table(
        &mut self,
        sheet: &mut Sheet,
        body: &RecipeFile,
        name: &str,
        entry: &TableEntry,
    ) {
        let at = self.at.at("tables").at(name);
        self.name(&at, name);
        let taken = body.inputs.get(name).is_some() || body.settings.get(name).is_some();
        if taken || is_function(name) {
            self.findings.name_twice(&at.key(), name);
        }
        match self.table(&at.at("rows"), entry) {
            Some(table) => {
                sheet.tables.insert(name.to_owned(), table);
            }
            // Whoever uses it only suffers from what was reported here.
            None => {
                sheet.unreadable.insert(name.to_owned());
            }
        }
    }

    fn table(&mut self, at: &Place, entry: &TableEntry) -> Option<Table> {
        let mut rows = Vec::new();
        for (index, row) in entry.rows.iter().enumerate() {
            let at = at.item(index);
            let [key, value] = row.as_slice() else {
                let words = Words::new("table-row-of-two", &[("count", row.len().into())]);
                self.findings.bad_table(&at, &words);
                return None;
            };
            let key = machine::measure(self.findings, &at.item(0), key);
            let value = machine::measure(self.findings, &at.item(1), value);
            rows.push((key?, value?));
        }
        let reads = match entry.reads {
            shape::Reads::Exactly => Reads::Exactly,
            shape::Reads::NextUp => Reads::NextUp,
            shape::Reads::NextDown => Reads::NextDown,
            shape::Reads::Between => Reads::Between,
        };
        let error = match Table::new(reads, rows) {
            Ok(table) => return Some(table),
            Err(error) => error,
        };
        let at = match error {
            BadTable::NoRows => at.clone(),
            BadTable::Kind { row, .. } | BadTable::NotRising { row } => at.item(row),
        };
        self.findings.bad_table(&at, &error.words());
        None
    }

    fn name(&mut self, at: &Place, name: &str) {
        if !is_name(name) {
            self.findings.bad_name(&at.key(), name);
        }
    }

    fn formula(&mut self, sheet: &mut Sheet, at: &Place, name: String, text: &str) {
        match Formula::parse(text) {
            Ok(formula) => {
                sheet.formulas.insert(name, formula);
            }
            Err(error) => {
                let at = at.within(error.range.clone());
                self.findings.bad_formula(&at, &error.wrong.words());
                sheet.unreadable.insert(name);
            }
        }
    }

    /// Says what is wrong with formulas; a formula that only depends on a wrong one is not wrong.
    fn report(&mut self, body: &RecipeFile, solved: &Solved) {
        let places = self.formula_places(body);
        for (name, at) in places {
            let Some(Err(error)) = solved.get(&name) else { continue };
            let at = match error {
                SheetError::Formula(wrong) => at.within(wrong.range.clone()),
                // A circle is one fault, whoever is in it.
                SheetError::Cycle(names) if names.first() == Some(&name) => at,
                SheetError::Cycle(_) | SheetError::DependsOn(_) | SheetError::Twice => continue,
            };
            self.findings.bad_formula(&at, &error.words());
        }
        if let Some(entry) = &body.web {
            web::report(self, entry, solved);
        }
    }

    /// Every formula that somebody wrote, by its name on the sheet, and where.
    fn formula_places(&self, body: &RecipeFile) -> Vec<(String, Place)> {
        let mut places = Vec::new();
        for (id, _) in body.settings.iter() {
            places.push((id.to_owned(), self.at.at("settings").at(id).at("formula")));
        }
        for (rail, entry) in body.layouts.iter() {
            let at = self.at.at("layouts").at(rail);
            for (kind, key, _) in layout_formulas(entry) {
                places.push((layout_name(rail, key), at.at(kind).at(key)));
            }
        }
        for (name, key, _) in body.web.iter().flat_map(web::written) {
            places.push((name.to_owned(), self.at.at("web").at(key)));
        }
        if body.net_contents.is_some() {
            let at = self.at.at("net_contents").at("label");
            places.push((contents::LABEL.to_owned(), at));
        }
        places
    }

    /// What the label promises; its setting must be one of the recipe.
    fn contents(&mut self, body: &RecipeFile, solved: &Solved) -> Option<Contents> {
        let entry = body.net_contents.as_ref()?;
        if body.settings.get(&entry.of).is_none() {
            let known: Vec<&str> = body.settings.names().collect();
            let at = self.at.at("net_contents").at("of");
            self.findings.unknown_reading(&at, &entry.of, &known);
            return None;
        }
        if !body.first_piece.iter().any(|piece| piece.of == entry.of) {
            let at = self.at.at("net_contents").at("of");
            self.findings.average_not_measured(&at, &entry.of);
        }
        let label = solved.get(contents::LABEL)?.as_ref().ok()?;
        contents(self, entry, label)
    }

    pub(super) fn quantity(&mut self, at: &Place, evaluated: &Evaluated) -> Option<Quantity> {
        match &evaluated.value {
            Value::Measure(measure) => Some(measure.quantity),
            Value::Truth(_) => {
                self.findings.truth_is_no_setting(at);
                None
            }
        }
    }

    pub(super) fn instrument(&mut self, at: &Place, id: Option<&String>) -> Option<&'m Instrument> {
        let id = id?;
        let found = self.machine.instruments.get(id);
        if found.is_none() && self.machine.file.body.instruments.get(id).is_none() {
            let known: Vec<&String> = self.machine.instruments.keys().collect();
            self.findings.unknown_instrument(&at.at("instrument"), id, &known);
        }
        found
    }

    pub(super) fn tolerance(&mut self, at: &Place, text: &str) -> Option<Tolerance> {
        match Tolerance::parse(text) {
            Ok(tolerance) => Some(tolerance),
            Err(error) => {
                self.findings.bad_quantity(&at.within(error.range.clone()), &error);
                None
            }
        }
    }

    fn first_piece(
        &mut self,
        body: &RecipeFile,
        settings: &[Setting],
        targets: &BTreeMap<String, (Quantity, u32)>,
    ) {
        for (index, entry) in body.first_piece.iter().enumerate() {
            let at = self.at.at("first_piece").item(index);
            let setting = settings.iter().find(|setting| setting.id == entry.of);
            match setting {
                Some(setting) if setting.low.is_none() && setting.high.is_none() => {
                    self.findings.no_limits(&at.at("of"));
                }
                Some(_) => {}
                None if body.settings.get(&entry.of).is_some() => {}
                None => {
                    let known: Vec<&str> = body.settings.names().collect();
                    self.findings.unknown_reading(&at.at("of"), &entry.of, &known);
                }
            }
            let instrument = self.instrument(&at, entry.instrument.as_ref());
            if let (Some(instrument), Some(setting)) = (instrument, setting)
                && let Some((target, _)) = targets.get(&setting.id)
            {
                let (low, high) = (setting.low.as_deref(), setting.high.as_deref());
                let limits = Limits::read(low, high, Unit::find(&setting.unit));
                self.suits(&at.at("instrument"), instrument, &limits, *target);
            }
            let has_lanes = body.layouts.iter().any(|(_, layout)| layout.knives.is_some());
            if entry.each == Each::Lane && !has_lanes {
                self.findings.no_lanes(&at.at("each"));
            }
            self.heads(&at, entry.each, entry.heads.as_ref());
        }
    }

    /// Bars share the knives of one web: each number once, everything else alike.
    fn bars(&mut self, body: &RecipeFile) {
        let bars = body.layouts.iter().filter_map(|(rail, layout)| {
            let knives = layout.knives.as_ref()?;
            let bar = knives.bar.as_ref()?;
            // A bar that is none was reported with its layout.
            is_bar(bar).then_some((rail, knives, bar))
        });
        let bars: Vec<_> = bars.collect();
        let Some((_, first, own)) = bars.first() else { return };
        let count = Number::parse(&own.of).ok().and_then(Number::to_u32);
        for (rail, knives, bar) in &bars {
            let at = self.at.at("layouts").at(rail).at("knives").at("bar");
            let twice = bars.iter().filter(|(_, _, other)| other.number == bar.number).count() > 1;
            let alike = KnivesEntry { bar: None, ..(*first).clone() }
                == KnivesEntry { bar: None, ..(*knives).clone() };
            if bar.of != own.of {
                self.findings.bars_differ(&at, &Words::of("bars-other-number"));
            } else if twice {
                self.findings
                    .bars_differ(&at, &Words::new("bars-twice", &[("bar", (&bar.number).into())]));
            } else if !alike {
                self.findings.bars_differ(&at, &Words::of("bars-unlike"));
            }
        }
        if count.is_some_and(|count| bars.len() < count as usize) {
            let at = self.at.at("layouts").at(bars[0].0).at("knives").at("bar");
            let parts = [("laid", bars.len().into()), ("all", (&own.of).into())];
            self.findings.bars_differ(&at, &Words::new("bars-missing", &parts));
        }
    }

    /// `each: head` says how many, and nothing else does.
    fn heads(&mut self, at: &Place, each: Each, heads: Option<&String>) {
        match (each, heads) {
            (Each::Head, None) => self.findings.missing_key(at, "heads"),
            (Each::Head, Some(text)) => {
                if machine::count(self.findings, &at.at("heads"), text) == Some(0) {
                    self.findings.not_a_count(&at.at("heads"));
                }
            }
            (_, Some(_)) => self.findings.heads_without_head(&at.at("heads")),
            (_, None) => {}
        }
    }
}

/// Rows of a table that are printed; of a longer one the first and the last.
const ROWS: usize = 12;

/// The tables a formula looks into, with their rows and where they come from.
fn looked_up(language: Language, body: &RecipeFile, formula: &Formula) -> Vec<String> {
    let mut notes = Vec::new();
    for (name, _) in formula.tables() {
        let Some(table) = body.tables.get(name) else { continue };
        let row = |row: &Vec<String>| row.join(": ");
        let rows = match table.rows.as_slice() {
            [first, .., last] if table.rows.len() > ROWS => {
                let parts = [
                    ("first", row(first).into()),
                    ("last", row(last).into()),
                    ("count", table.rows.len().to_string().into()),
                ];
                language.text("lines-some-rows", &parts)
            }
            rows => rows.iter().map(row).collect::<Vec<_>>().join("; "),
        };
        let source = match table.source.as_str() {
            "" => String::new(),
            source => format!(" ({source})"),
        };
        let reads = match table.reads {
            shape::Reads::Exactly => language.word("lines-reads-exactly"),
            shape::Reads::NextUp => language.word("lines-reads-next-up"),
            shape::Reads::NextDown => language.word("lines-reads-next-down"),
            shape::Reads::Between => language.word("lines-reads-between"),
        };
        let rows = format!("{rows}{source}");
        let parts = [("name", name.into()), ("reads", reads.into()), ("rows", rows.into())];
        let note = language.text("lines-table", &parts);
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}

/// Whether a bar is one of at least two.
fn is_bar(bar: &BarEntry) -> bool {
    let count = |text: &str| Number::parse(text).ok().and_then(Number::to_u32);
    let (number, of) = (count(&bar.number), count(&bar.of));
    of.is_some_and(|of| of >= 2 && number.is_some_and(|number| (1..=of).contains(&number)))
}

/// A quantity with as few decimals as show it, six at most.
pub(super) fn short(quantity: Quantity, unit: Option<&'static Unit>) -> String {
    Measure { quantity, unit }.shortest(6)
}
