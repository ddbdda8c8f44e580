//! From a bag's format to strip, web, roll and film: formulas that the program brings along.
//!
//! Every figure is a formula like the writer's own, so that it is worked out, shown and found wrong in
//! the same way. What depends on the order (`job.pieces`) is worked out for each job.

use std::collections::BTreeSet;

use super::compute::{Computer, Solved};
use super::house::House;
use super::model::{Figure, Working, in_brackets};
use crate::finding::Place;
use crate::formula::{Evaluated, Formula, Reads, Sheet, SheetError, Table, Wrong};
use crate::language::Words;
use crate::plant::load::Loaded;
use crate::plant::machine;
use crate::plant::shape::{
    FilmEntry, Format, PartEntry, RollEntry, StockFile, ToolEntry, WebEntry,
};
use crate::quantity::{
    Dimension, Limits, Measure, Number, Quantity, Rounding, Unit, beside, decimals_in,
};

/// A figure of the web: its name in formulas, its name for people, its formula, how it is shown.
struct Line {
    id: &'static str,
    /// Key of its name for people.
    name: &'static str,
    formula: &'static str,
    unit: &'static str,
    places: u32,
    /// A need is never printed smaller than it is.
    rounding: Rounding,
    /// Key of where the formula comes from.
    source: &'static str,
}

const fn line(
    id: &'static str,
    name: &'static str,
    formula: &'static str,
    (unit, places): (&'static str, u32),
    source: &'static str,
) -> Line {
    Line { id, name, formula, unit, places, rounding: Rounding::HalfEven, source }
}

impl Line {
    /// Puts the figure on a sheet, to be shown in its unit.
    fn enter(&self, sheet: &mut Sheet) {
        // A test reads every formula of this file.
        if let Ok(formula) = Formula::parse(self.formula) {
            sheet.formulas.insert(self.id.to_owned(), formula);
        }
        if let Some(unit) = Unit::find(self.unit) {
            sheet.units.insert(self.id.to_owned(), unit);
        }
    }
}

/// A figure that is printed rounded up.
const fn need(line: Line) -> Line {
    Line { rounding: Rounding::Up, ..line }
}

const PRACTICE: &str = "web-practice";

/// Strip and web of any format; the formula of the strip is [`strip`].
const WIDTH: Line = line(
    "web.width",
    "web-width",
    "web.across * web.strip + 2 * web.trim",
    ("mm", 1),
    "web-width-source",
);

/// What follows from the film that was chosen.
const FILM: [Line; 8] = [
    line("web.roll", "web-roll", "stock.next_width(web.width)", ("mm", 1), "web-roll-source"),
    line(
        "web.side_trim",
        "web-side-trim",
        "(web.roll - web.across * web.strip) / 2",
        ("mm", 2),
        PRACTICE,
    ),
    line(
        "web.trimmed_share",
        "web-trimmed-share",
        "(web.roll - web.lanes * web.strip) / web.roll",
        ("%", 1),
        PRACTICE,
    ),
    line("web.roll_outside", "web-roll-outside", "stock.outside(web.roll)", ("mm", 1), "web-stock"),
    line("web.roll_core", "web-roll-core", "stock.core(web.roll)", ("mm", 1), "web-stock"),
    line(
        "web.roll_length",
        "web-roll-length",
        "pi * (web.roll_outside * web.roll_outside - web.roll_core * web.roll_core) / (4 * stock.thickness)",
        ("m", 1),
        "web-roll-length-source",
    ),
    line(
        "web.roll_mass",
        "web-roll-mass",
        "web.roll_length * web.roll * stock.grammage",
        ("kg", 2),
        "web-mass-source",
    ),
    line(
        "web.pieces_per_roll",
        "web-pieces-per-roll",
        "round_down((web.roll_length - web.threading) / web.cut_length, 1) * web.lanes",
        ("", 0),
        "web-pieces-source",
    ),
];

/// What follows from the number of pieces ordered.
const ORDER: [Line; 1] = [need(line(
    "web.film_needed",
    "web-film-needed",
    "round_up(job.pieces / web.lanes, 1) * web.cut_length * (1 + web.waste)",
    ("m", 1),
    "web-film-source",
))];

/// What follows from both.
const FILM_ORDER: [Line; 6] = [
    line(
        "web.rolls",
        "web-rolls",
        "round_up(web.film_needed / (web.roll_length - web.threading), 1)",
        ("", 0),
        "web-rolls-source",
    ),
    line("web.splices", "web-splices", "web.rolls - 1", ("", 0), "web-splices-source"),
    need(line(
        "web.film_mass",
        "web-film-mass",
        "(web.film_needed + web.rolls * web.threading) * web.roll * stock.grammage",
        ("kg", 1),
        "web-mass-source",
    )),
    line(
        "web.trimmed_area",
        "web-trimmed-area",
        "(web.roll - web.lanes * web.strip) * web.film_needed",
        ("m²", 1),
        PRACTICE,
    ),
    line(
        "web.trimmed_mass",
        "web-trimmed-mass",
        "web.trimmed_area * stock.grammage",
        ("kg", 2),
        PRACTICE,
    ),
    line(
        "web.last_roll_outside",
        "web-last-roll-outside",
        "sqrt(web.roll_core * web.roll_core + 4 * stock.thickness * (web.rolls * (web.roll_length - web.threading) - web.film_needed) / pi)",
        ("mm", 0),
        "web-last-roll-source",
    ),
];

/// The strip of a format.
///
/// A gusset folded in by its depth takes twice the depth of film; there is one at each side.
///
/// Source: common practice, no source.
fn strip(entry: &WebEntry) -> (&'static str, &'static str) {
    match (entry.format, entry.gusset.is_some()) {
        (Format::Fin, false) => ("2 * web.flat_width + 2 * web.seal", "web-fin"),
        (Format::Fin, true) => {
            ("2 * web.flat_width + 4 * web.gusset + 2 * web.seal", "web-fin-gusset")
        }
        (Format::Lap, false) => ("2 * web.flat_width + web.seal", "web-lap"),
        (Format::Lap, true) => ("2 * web.flat_width + 4 * web.gusset + web.seal", "web-lap-gusset"),
        (Format::Flat, false) => ("web.flat_width", "web-flat"),
        (Format::Flat, true) => ("web.flat_width + 4 * web.gusset", "web-flat-gusset"),
    }
}

/// The figures of a recipe's web, the first part of them without the order.
fn lines(entry: &WebEntry, film: bool) -> Vec<Line> {
    let (formula, source) = strip(entry);
    let mut lines = vec![line("web.strip", "web-strip", formula, ("mm", 2), source), WIDTH];
    if film {
        lines.extend(FILM);
    }
    lines
}

/// The formulas of a web that the writer wrote: name, key, text.
pub(super) fn written(entry: &WebEntry) -> Vec<(&'static str, &'static str, &str)> {
    let mut written = vec![
        ("web.flat_width", "flat_width", entry.flat_width.as_str()),
        ("web.lanes", "lanes", &entry.lanes),
        ("web.across", "across", entry.across.as_ref().unwrap_or(&entry.lanes)),
        ("web.trim", "trim", &entry.trim),
        ("web.cut_length", "cut_length", &entry.cut_length),
        ("web.waste", "waste", &entry.waste),
        ("web.threading", "threading", &entry.threading),
    ];
    written.extend(entry.seal.as_ref().map(|text| ("web.seal", "seal", text.as_str())));
    written.extend(entry.gusset.as_ref().map(|text| ("web.gusset", "gusset", text.as_str())));
    written
}

/// Puts the web's own formulas on the sheet, and what the stock knows of its film.
pub(super) fn enter(computer: &mut Computer, sheet: &mut Sheet, entry: &WebEntry) {
    let at = computer.at.at("web");
    match (entry.format, &entry.seal) {
        (Format::Fin | Format::Lap, None) => {
            computer.findings.missing_key(&at, "seal");
            sheet.unreadable.insert("web.seal".to_owned());
        }
        (Format::Flat, Some(_)) => computer.findings.seal_without_tube(&at.at("seal")),
        _ => {}
    }
    let film = entry.film.as_ref().is_some_and(|id| film(computer, sheet, &at.at("film"), id));
    for line in lines(entry, film) {
        line.enter(sheet);
    }
    if entry.film.is_some() && !film {
        // Whoever uses a figure of the film only suffers from what was reported.
        let names = FILM.iter().map(|line| line.id).chain(["stock.thickness", "stock.grammage"]);
        sheet.unreadable.extend(names.map(str::to_owned));
    }
}

/// Puts a film's facts and its rolls on the sheet; false when the film is not known or faulty.
fn film(computer: &mut Computer, sheet: &mut Sheet, at: &Place, id: &str) -> bool {
    let Some(stock) = computer.house.stock else {
        computer.findings.unknown_film::<&str>(at, id, &[]);
        return false;
    };
    let Some(film) = stock.body.films.get(id) else {
        let known: Vec<&str> = stock.body.films.names().collect();
        computer.findings.unknown_film(at, id, &known);
        return false;
    };
    // Faults of the stock are reported once, by `stock`.
    let Some(film) = Film::read(film) else { return false };
    sheet.givens.insert("stock.thickness".to_owned(), film.thickness);
    sheet.givens.insert("stock.grammage".to_owned(), film.grammage);
    for (name, reads, column) in [
        ("stock.next_width", Reads::NextUp, 0),
        ("stock.outside", Reads::Exactly, 1),
        ("stock.core", Reads::Exactly, 2),
    ] {
        let rows = film.rolls.iter().map(|roll| (roll[0], roll[column])).collect();
        match Table::new(reads, rows) {
            Ok(table) => {
                sheet.tables.insert(name.to_owned(), table);
            }
            Err(_) => return false,
        }
    }
    true
}

/// A film understood; its rolls by width, each with width, outside and core.
struct Film {
    thickness: Measure,
    grammage: Measure,
    rolls: Vec<[Measure; 3]>,
}

impl Film {
    /// Reads a film without reporting anything.
    fn read(entry: &FilmEntry) -> Option<Film> {
        let read = |text: &str| Measure::parse(text).ok();
        let thickness = read(&entry.thickness)?;
        let grammage = match (&entry.grammage, &entry.density) {
            (Some(grammage), None) => read(grammage)?,
            (None, Some(density)) => {
                let quantity = read(density)?.quantity.mul(thickness.quantity).ok()?;
                Measure { quantity, unit: Unit::find("g/m²") }
            }
            _ => return None,
        };
        let rolls = entry
            .rolls
            .iter()
            .map(|roll| Some([read(&roll.width)?, read(&roll.outside)?, read(&roll.core)?]));
        let mut rolls = rolls.collect::<Option<Vec<_>>>()?;
        rolls.sort_by_key(|[width, ..]| width.quantity.amount);
        Some(Film { thickness, grammage, rolls })
    }
}

/// Reports what is wrong with the stock, once for the plant.
pub(super) fn stock(findings: &mut crate::finding::Findings, stock: &Loaded<StockFile>) {
    let mut check = |at: &Place, text: &str, wanted: Dimension| -> Option<Number> {
        let measure = machine::measure(findings, at, text)?;
        let Quantity { amount, dimension } = measure.quantity;
        if dimension != wanted {
            findings.wrong_dimension(at, dimension, wanted);
            return None;
        }
        if amount <= Number::ZERO {
            findings.not_positive(at, &Words::of("positive-this"));
            return None;
        }
        Some(amount)
    };
    for (id, film) in stock.body.films.iter() {
        let at = stock.place.at("films").at(id);
        check(&at.at("thickness"), &film.thickness, Dimension::LENGTH);
        if let Some(grammage) = &film.grammage {
            check(&at.at("grammage"), grammage, Dimension::GRAMMAGE);
        }
        if let Some(density) = &film.density {
            check(&at.at("density"), density, Dimension::DENSITY);
        }
    }
    for (id, film) in stock.body.films.iter() {
        let at = stock.place.at("films").at(id);
        if film.grammage.is_some() == film.density.is_some() {
            findings.grammage_or_density(&at.key());
        }
        if film.rolls.is_empty() {
            findings.film_without_rolls(&at.at("rolls"));
        }
        rolls(findings, &at.at("rolls"), film);
    }
    tools(findings, &stock.place.at("tools"), &stock.body.tools);
}

/// Each tool has its name once, and there is one of it at least.
fn tools(findings: &mut crate::finding::Findings, at: &Place, tools: &[ToolEntry]) {
    let mut names = BTreeSet::new();
    for (index, tool) in tools.iter().enumerate() {
        let at = at.item(index);
        if !names.insert(&tool.item) {
            findings.tool_twice(&at.at("item"), &tool.item);
        }
        if tool.count == Some(0) {
            findings.not_a_count(&at.at("count"));
        }
    }
}

fn rolls(findings: &mut crate::finding::Findings, at: &Place, film: &FilmEntry) {
    let mut widths = Vec::new();
    for (index, roll) in film.rolls.iter().enumerate() {
        let at = at.item(index);
        let mut length = |key: &str, text: &str| {
            let length = machine::length(findings, &at.at(key), text)?.0;
            if length <= Number::ZERO {
                findings.not_positive(&at.at(key), &Words::of("positive-length"));
            }
            Some(length)
        };
        let width = length("width", &roll.width);
        let (outside, core) = (length("outside", &roll.outside), length("core", &roll.core));
        if outside.zip(core).is_some_and(|(outside, core)| outside <= core) {
            findings.core_not_inside(&at.at("core"));
        }
        let Some(width) = width else { continue };
        if widths.contains(&width) {
            findings.roll_width_twice(&at.at("width"), &roll.width);
        }
        widths.push(width);
    }
}

/// The figures of a recipe's web, worked out.
pub(super) fn figures(house: House, entry: &WebEntry, solved: &Solved) -> Vec<Figure> {
    let film = solved.contains_key("web.roll");
    lines(entry, film).iter().filter_map(|line| shown(house, line, solved)).collect()
}

fn shown(house: House, line: &Line, solved: &Solved) -> Option<Figure> {
    figure(house, line, solved.get(line.id)?.as_ref().ok()?)
}

fn figure(house: House, line: &Line, evaluated: &Evaluated) -> Option<Figure> {
    let value = in_units(house, line, evaluated.measure()?.quantity)?;
    Some(Figure {
        id: line.id.to_owned(),
        name: house.language.word(line.name).to_owned(),
        working: Working {
            formula: line.formula.to_owned(),
            numbers: evaluated.numbers.clone(),
            result: value.clone(),
            steps: evaluated.steps.clone(),
        },
        value,
        source: house.language.word(line.source).to_owned(),
    })
}

/// The roll to run from, and where it lies.
pub(super) fn roll(computer: &Computer, entry: &WebEntry, solved: &Solved) -> Option<PartEntry> {
    let width = amount(solved, "web.roll")?;
    let film = computer.house.stock?.body.films.get(entry.film.as_ref()?)?;
    let same = |roll: &&RollEntry| {
        Measure::parse(&roll.width).is_ok_and(|own| own.quantity.amount == width)
    };
    let roll = film.rolls.iter().find(same)?;
    let language = computer.house.language;
    let width = language.decimals(&roll.width);
    let parts = [("film", film.name.as_str().into()), ("width", width.into())];
    let item = language.text("web-roll-item", &parts);
    Some(PartEntry { item, place: roll.place.clone(), count: 1 })
}

/// A figure in the plant's units: those that come first, others in brackets.
fn in_units(house: House, line: &Line, quantity: Quantity) -> Option<String> {
    let Some(unit) = Unit::find(line.unit) else {
        return printed(line, quantity, None, line.places);
    };
    let other = |other: &'static Unit| {
        let number = beside(quantity, &Limits::NONE, unit, line.places, other).ok()?;
        let number = printed(line, quantity, Some(other), decimals_in(&number))?;
        Some(format!("{number} {other}"))
    };
    let own = format!("{} {unit}", printed(line, quantity, Some(unit), line.places)?);
    let first = house.first.unit_for(unit).and_then(other).unwrap_or(own.clone());
    let also = house.also.and_then(|also| also.unit_for(unit)).and_then(other);
    let also = also.or_else(|| house.also.filter(|_| first != own).map(|_| own));
    Some(in_brackets(first, &also.unwrap_or_default()))
}

fn printed(line: &Line, quantity: Quantity, unit: Option<&Unit>, places: u32) -> Option<String> {
    let step = Number::last_place(places).ok()?;
    let number = quantity.in_unit(unit).ok()?.round_to_step(step, line.rounding).ok()?;
    Some(number.shortest(places))
}

/// What the figures of an order are worked out from: the sheet with its answers as givens.
pub(super) fn order_sheet(sheet: Sheet, solved: &Solved) -> Sheet {
    let answers = solved
        .iter()
        .filter_map(|(name, answer)| Some((name.clone(), answer.as_ref().ok()?.measure()?)));
    let givens = sheet.givens.into_iter().chain(answers).collect();
    Sheet { givens, tables: sheet.tables, ..Sheet::default() }
}

/// The figures that depend on the order.
pub(super) fn for_order(house: House, sheet: &Sheet, pieces: Measure) -> Vec<Figure> {
    let mut sheet = sheet.clone();
    sheet.givens.insert("job.pieces".to_owned(), pieces);
    let film = sheet.givens.contains_key("web.roll");
    let lines: Vec<&Line> = ORDER.iter().chain(FILM_ORDER.iter().filter(|_| film)).collect();
    for line in &lines {
        line.enter(&mut sheet);
    }
    let solved = sheet.solve();
    lines.iter().filter_map(|line| shown(house, line, &solved)).collect()
}

/// Says why the web's own formulas have no answer: mostly no roll is wide enough, or two leaves are of
/// different kinds.
pub(super) fn report(computer: &mut Computer, entry: &WebEntry, solved: &Solved) {
    let at = computer.at.at("web");
    for line in lines(entry, true) {
        let Some(Err(SheetError::Formula(error))) = solved.get(line.id) else { continue };
        match &error.wrong {
            Wrong::OffTable { .. } => {
                computer.findings.no_roll_fits(&at.at("film"), &error.wrong.words());
            }
            _ => {
                let words = error.wrong.words();
                let parts = [
                    ("formula", line.formula.into()),
                    ("words", (&words).into()),
                    ("remedy", words.way_out().into()),
                ];
                computer.findings.bad_formula(&at.key(), &Words::new("sheet-of-line", &parts));
            }
        }
    }
}

/// A solved value in base units.
pub(super) fn amount(solved: &Solved, name: &str) -> Option<Number> {
    Some(solved.get(name)?.as_ref().ok()?.measure()?.quantity.amount)
}

/// Says when the machine cannot take the roll, or when no film would be left to run.
pub(super) fn fits(computer: &mut Computer, solved: &Solved) {
    let amount = |name| amount(solved, name);
    let at = computer.at.at("web");
    if amount("web.waste").is_some_and(|waste| waste.is_negative() || waste >= Number::ONE) {
        computer.findings.bad_waste(&at.at("waste"));
    }
    for (name, key) in [("web.trim", "trim"), ("web.threading", "threading"), ("web.seal", "seal")]
    {
        if amount(name).is_some_and(Number::is_negative) {
            computer.findings.below_zero(&at.at(key));
        }
    }
    for (name, key) in [("web.cut_length", "cut_length"), ("web.strip", "flat_width")] {
        if amount(name).is_some_and(|length| length <= Number::ZERO) {
            computer.findings.not_positive(&at.at(key), &Words::of("positive-length"));
        }
    }
    let threading = amount("web.threading").zip(amount("web.roll_length"));
    // A roll without any film was reported in the stock.
    let threading = threading.filter(|(_, length)| *length > Number::ZERO);
    if threading.is_some_and(|(lost, length)| lost >= length) {
        computer.findings.threading_takes_roll(&at.at("threading"));
    }
    let Some(unwind) = computer.machine.unwind else { return };
    let at = at.at("film");
    if let Some(roll) = amount("web.roll") {
        unwind.takes(computer.findings, &at, roll);
    }
    let roll = amount("web.roll_outside").zip(unwind.largest);
    if let Some((outside, largest)) = roll.filter(|(outside, largest)| outside > largest) {
        computer.findings.roll_too_large(&at, &unwind.show(outside), &unwind.show(largest));
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{FILM, FILM_ORDER, Line, ORDER, WIDTH, lines, strip};
    use crate::formula::{Formula, Reads, Sheet, Table, Value};
    use crate::plant::shape::{Format, WebEntry};
    use crate::quantity::{Measure, Number, Quantity, Unit};

    fn measure(text: &str) -> Measure {
        Measure::parse(text).unwrap()
    }

    /// A sheet with these givens, `name = value`, and with every figure of the web.
    fn sheet(givens: &[(&str, &str)]) -> Sheet {
        let mut sheet = Sheet::default();
        for (name, value) in givens {
            sheet.givens.insert((*name).to_owned(), measure(value));
        }
        let all: Vec<&Line> = FILM.iter().chain(&ORDER).chain(&FILM_ORDER).collect();
        for line in all {
            if !sheet.givens.contains_key(line.id) {
                let formula = Formula::parse(line.formula).unwrap();
                sheet.formulas.insert(line.id.to_owned(), formula);
            }
        }
        sheet
    }

    /// A roll of this outside, core and thickness; everything else is beside the point.
    fn roll(outside: &str, core: &str, thickness: &str) -> Sheet {
        let mut sheet = sheet(&[
            ("web.roll", "352 mm"),
            ("web.roll_outside", outside),
            ("stock.thickness", thickness),
            ("stock.grammage", "55.2 g/m²"),
            ("web.lanes", "1"),
            ("web.strip", "352 mm"),
            ("web.threading", "0 m"),
            ("web.waste", "2 %"),
            ("web.cut_length", "180 mm"),
            ("web.width", "352 mm"),
            ("job.pieces", "50000"),
        ]);
        let rows = vec![(measure("352 mm"), measure(core))];
        let table = Table::new(Reads::Exactly, rows).unwrap();
        sheet.tables.insert("stock.core".to_owned(), table);
        sheet
    }

    #[track_caller]
    fn quantity(sheet: &Sheet, name: &str) -> Quantity {
        match sheet.solve()[name].as_ref().unwrap().value {
            Value::Measure(measure) => measure.quantity,
            Value::Truth(_) => panic!("{name} is a yes or no"),
        }
    }

    #[track_caller]
    fn check(sheet: &Sheet, name: &str, unit: &str, expected: &str) {
        let places = expected.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let number = quantity(sheet, name).in_unit(Unit::find(unit)).unwrap();
        assert_eq!(number.decimal(u32::try_from(places).unwrap()), expected, "{name}");
    }

    #[test]
    fn every_formula_is_written_well_and_every_unit_known() {
        let formats = [Format::Fin, Format::Lap, Format::Flat];
        for (format, gusset) in formats.into_iter().flat_map(|f| [(f, None), (f, Some("1 mm"))]) {
            let entry = WebEntry {
                format,
                flat_width: "1 mm".to_owned(),
                seal: None,
                gusset: gusset.map(str::to_owned),
                lanes: "1".to_owned(),
                across: None,
                trim: "0 mm".to_owned(),
                cut_length: "1 mm".to_owned(),
                film: None,
                waste: "0 %".to_owned(),
                threading: "0 mm".to_owned(),
            };
            assert!(Formula::parse(strip(&entry).0).is_ok());
            assert_eq!(lines(&entry, true).len(), FILM.len() + 2);
        }
        for line in FILM.iter().chain(&ORDER).chain(&FILM_ORDER).chain([&WIDTH]) {
            assert!(Formula::parse(line.formula).is_ok(), "{}", line.formula);
            assert!(line.unit.is_empty() || Unit::find(line.unit).is_some(), "{}", line.unit);
        }
    }

    /// L = π(D² - d²)/(4t) as published by a university's mathematics forum; values worked
    /// independently, with the sum of discrete layers and the exact spiral agreeing to 0.1 mm.
    #[test]
    fn roll_lengths_are_the_independently_worked_ones() {
        check(&roll("300 mm", "76.2 mm", "0.050 mm"), "web.roll_length", "m", "1322.509");
        check(&roll("400 mm", "76.2 mm", "60 µm"), "web.roll_length", "m", "2018.389");
        check(&roll("600 mm", "152.4 mm", "0.040 mm"), "web.roll_length", "m", "6612.547");
        check(&roll("250 mm", "70 mm", "0.080 mm"), "web.roll_length", "m", "565.487");
        check(&roll("24 in", "3 in", "2 mil"), "web.roll_length", "m", "5655.574");
        check(&roll("24 in", "3 in", "2 mil"), "web.roll_length", "ft", "18555.03");
    }

    /// Worked independently: 50 000 packs of 180 mm and 2 % waste on rolls of 400 mm.
    #[test]
    fn an_order_takes_the_independently_worked_rolls() {
        let sheet = roll("400 mm", "76.2 mm", "60 µm");
        check(&sheet, "web.pieces_per_roll", "", "11213");
        check(&sheet, "web.film_needed", "m", "9180");
        check(&sheet, "web.rolls", "", "5");
        check(&sheet, "web.splices", "", "4");
        check(&sheet, "web.last_roll_outside", "mm", "274.7");
        check(&sheet, "web.roll_mass", "kg", "39.218");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]

        /// Area of the roll's face times width times density is the same mass.
        #[test]
        fn the_mass_of_a_roll_is_that_of_its_ring(
            outside in 100_u32..1000,
            core in 20_u32..99,
            thickness in 10_u32..300,
        ) {
            let density = measure("0.92 g/cm³").quantity;
            let film = measure(&format!("{thickness} µm"));
            let mut sheet = roll(&format!("{outside} mm"), &format!("{core} mm"), "1 µm");
            sheet.givens.insert("stock.thickness".to_owned(), film);
            let grammage = Measure { quantity: density.mul(film.quantity).unwrap(), unit: None };
            sheet.givens.insert("stock.grammage".to_owned(), grammage);
            let squares = Number::from(outside * outside - core * core);
            let ring = Number::PI.mul(squares).unwrap().div(Number::from(4_u32)).unwrap();
            let width = measure("352 mm").quantity.amount;
            let mass = ring.mul(width).unwrap().mul(density.amount).unwrap();
            prop_assert_eq!(quantity(&sheet, "web.roll_mass").amount, mass);
        }

        /// Whole layers of a roll, each as long as its middle line, add up to the same length.
        #[test]
        fn whole_layers_add_up_to_the_length(core in 20_u32..200, layers in 1_u32..400) {
            let thickness = Number::ratio(1, 10).unwrap();
            let film = thickness.mul(Number::from(2 * layers)).unwrap();
            let outside = Number::from(core).add(film).unwrap();
            let sheet = roll(&format!("{outside} mm"), &format!("{core} mm"), "0.1 mm");
            // Σ π·(d + t + 2it) for i from 0 to n - 1 is π·n·(d + n·t).
            let middle = Number::from(core).add(thickness.mul(Number::from(layers)).unwrap()).unwrap();
            let sum = Number::PI.mul(Number::from(layers)).unwrap().mul(middle).unwrap();
            prop_assert_eq!(quantity(&sheet, "web.roll_length").amount, sum);
        }
    }
}
