//! Many formulas that use each other, worked out in the order in which they need each other.
//!
//! Must report each cause once: a formula that only suffers from another one's error says so and
//! no more.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::evaluate::{Evaluated, Value};
use super::parse::Formula;
use super::table::Table;
use super::token::wrong;
use super::unknown::{unknown_function, unknown_name};
use super::wrong::FormulaError;
use crate::language::Words;
use crate::quantity::{Measure, Unit};

/// Known values and formulas by name; names may have dots, `machine.lane_pitch`.
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    /// What is known: inputs of the recipe, facts of the machine.
    pub givens: BTreeMap<String, Measure>,
    /// What is worked out.
    pub formulas: BTreeMap<String, Formula>,
    /// Tables by the name they are called by; see [`super::is_function`] for names that cannot be.
    pub tables: BTreeMap<String, Table>,
    /// Units in which results are shown, where somebody chose one.
    pub units: BTreeMap<String, &'static Unit>,
    /// Names that were written but could not be understood: their fault was reported already, and
    /// whoever uses one only suffers from it.
    pub unreadable: BTreeSet<String>,
}

/// Why a formula of a sheet has no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SheetError {
    /// Something is wrong in the formula itself.
    Formula(FormulaError),
    /// Formulas need each other in a circle: all names, the first again at the end.
    Cycle(Vec<String>),
    /// The formula of this name has to be put right first.
    DependsOn(String),
    /// The name is given and has a formula too.
    Twice,
}

impl SheetError {
    /// What is wrong, and what to do about it.
    pub fn words(&self) -> Words {
        match self {
            SheetError::Formula(error) => error.wrong.words(),
            SheetError::Cycle(names) => {
                Words::new("sheet-cycle", &[("names", names.join(" -> ").into())])
            }
            SheetError::DependsOn(name) => Words::new("sheet-depends-on", &[("name", name.into())]),
            SheetError::Twice => Words::of("sheet-twice"),
        }
    }
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for SheetError {}

type Solution = Result<Evaluated, SheetError>;

impl Sheet {
    /// Works out every formula.
    pub fn solve(&self) -> BTreeMap<String, Solution> {
        let mut work = Work::of(self);
        while let Some(name) = work.ready.pop() {
            work.finish(self, name);
        }
        work.break_cycles();
        work.solutions.into_iter().map(|(name, solution)| (name.to_owned(), solution)).collect()
    }

    /// What can be seen without working anything out: a name used twice, one that nobody knows.
    fn fault(&self, name: &str, formula: &Formula) -> Option<SheetError> {
        if self.givens.contains_key(name) {
            return Some(SheetError::Twice);
        }
        let mut used = formula.names().chain(formula.tables());
        if let Some((name, _)) = used.find(|(used, _)| self.unreadable.contains(*used)) {
            return Some(SheetError::DependsOn(name.to_owned()));
        }
        self.unknown(formula).map(SheetError::Formula)
    }

    /// The first name that is no value and no formula, or the first that is called and is no table.
    fn unknown(&self, formula: &Formula) -> Option<FormulaError> {
        let known = |name: &str| self.givens.contains_key(name) || self.formulas.contains_key(name);
        if let Some((name, range)) = formula.names().find(|(used, _)| !known(used)) {
            let names = self.givens.keys().chain(self.formulas.keys());
            return Some(wrong(range, unknown_name(name, names, &self.tables)));
        }
        let (name, range) = formula.tables().find(|(used, _)| !self.tables.contains_key(*used))?;
        Some(wrong(range, unknown_function(name, &self.tables)))
    }
}

/// The state of solving one sheet.
struct Work<'a> {
    /// Values known so far.
    values: BTreeMap<String, Value>,
    /// Answers so far.
    solutions: BTreeMap<&'a str, Solution>,
    /// For each formula without an answer, the formulas without an answer that it needs.
    needs: BTreeMap<&'a str, BTreeSet<&'a str>>,
    /// For each formula, those that need it.
    needed_by: BTreeMap<&'a str, Vec<&'a str>>,
    /// Formulas that need no unanswered formula any more.
    ready: Vec<&'a str>,
}

impl<'a> Work<'a> {
    fn of(sheet: &'a Sheet) -> Work<'a> {
        let givens =
            sheet.givens.iter().map(|(name, value)| (name.clone(), Value::Measure(*value)));
        let mut work = Work {
            values: givens.collect(),
            solutions: BTreeMap::new(),
            needs: BTreeMap::new(),
            needed_by: BTreeMap::new(),
            ready: Vec::new(),
        };
        for (name, formula) in &sheet.formulas {
            work.enter(sheet, name, formula);
        }
        work
    }

    fn enter(&mut self, sheet: &'a Sheet, name: &'a str, formula: &'a Formula) {
        let mut needs = BTreeSet::new();
        match sheet.fault(name, formula) {
            Some(fault) => {
                self.solutions.insert(name, Err(fault));
            }
            None => {
                let formulas = |used: &&str| sheet.formulas.contains_key(*used);
                needs.extend(formula.names().map(|(used, _)| used).filter(formulas));
            }
        }
        for need in &needs {
            self.needed_by.entry(need).or_default().push(name);
        }
        if needs.is_empty() {
            self.ready.push(name);
        }
        self.needs.insert(name, needs);
    }

    /// Answers a formula whose needs are answered, and tells those that wait for it.
    fn finish(&mut self, sheet: &'a Sheet, name: &'a str) {
        self.needs.remove(name);
        if !self.solutions.contains_key(name)
            && let Some(formula) = sheet.formulas.get(name)
        {
            let unit = sheet.units.get(name).copied();
            let solution = self.answer(formula, &sheet.tables, unit);
            if let Ok(evaluated) = &solution {
                self.values.insert(name.to_owned(), evaluated.value);
            }
            self.solutions.insert(name, solution);
        }
        for waiting in self.needed_by.remove(name).unwrap_or_default() {
            if let Some(needs) = self.needs.get_mut(waiting)
                && needs.remove(name)
                && needs.is_empty()
            {
                self.ready.push(waiting);
            }
        }
    }

    fn answer(
        &self,
        formula: &Formula,
        tables: &BTreeMap<String, Table>,
        unit: Option<&'static Unit>,
    ) -> Solution {
        match formula.names().find_map(|(used, _)| self.root_of(used)) {
            Some(root) => Err(SheetError::DependsOn(root)),
            None => formula.evaluate_in(&self.values, tables, unit).map_err(SheetError::Formula),
        }
    }

    /// The formula that has to be put right before this one has a value; none when it has one.
    fn root_of(&self, name: &str) -> Option<String> {
        match self.solutions.get(name)? {
            Ok(_) => None,
            Err(SheetError::DependsOn(root)) => Some(root.clone()),
            Err(_) => Some(name.to_owned()),
        }
    }

    /// What is left needs itself, or something that does: follows first needs until they close.
    fn break_cycles(&mut self) {
        let left: Vec<&'a str> = self.needs.keys().copied().collect();
        for start in left {
            let mut path: Vec<&'a str> = Vec::new();
            let mut places: BTreeMap<&'a str, usize> = BTreeMap::new();
            let mut name = start;
            while !self.solutions.contains_key(name) && !places.contains_key(name) {
                places.insert(name, path.len());
                path.push(name);
                match self.needs.get(name).and_then(|needs| needs.first()) {
                    Some(need) => name = need,
                    None => break,
                }
            }
            if let Some(place) = places.get(name) {
                self.report_cycle(path.split_off(*place));
            }
            if let Some(root) = self.root_of(name) {
                self.suffer(&path, &root);
            }
        }
    }

    /// One error for the first name of the cycle; the others suffer from it.
    fn report_cycle(&mut self, mut cycle: Vec<&'a str>) {
        let smallest = (0..cycle.len()).min_by_key(|place| cycle[*place]);
        cycle.rotate_left(smallest.unwrap_or(0));
        let Some((first, others)) = cycle.split_first() else { return };
        let names = cycle.iter().chain([first]).map(|name| (*name).to_owned()).collect();
        self.solutions.insert(first, Err(SheetError::Cycle(names)));
        self.suffer(others, first);
    }

    fn suffer(&mut self, names: &[&'a str], root: &str) {
        for name in names {
            self.solutions.insert(name, Err(SheetError::DependsOn(root.to_owned())));
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::{Sheet, SheetError};
    use crate::formula::{Formula, Reads, Table};
    use crate::quantity::Measure;

    /// Lines `name = formula`; a line that begins with `given` is a known value, one that begins
    /// with `table` has rows `20 µm: 0.3 s`, read at the next row up.
    fn sheet(text: &str) -> Sheet {
        let mut sheet = Sheet::default();
        for line in text.lines().filter(|line| !line.trim().is_empty()) {
            let (name, formula) = line.split_once('=').unwrap();
            match name.trim().split_once(' ') {
                Some(("given", name)) => {
                    let value = Measure::parse(formula).unwrap();
                    sheet.givens.insert(name.to_owned(), value);
                }
                Some((_, name)) => {
                    sheet.tables.insert(name.to_owned(), table(formula));
                }
                None => {
                    let formula = Formula::parse(formula.trim()).unwrap();
                    sheet.formulas.insert(name.trim().to_owned(), formula);
                }
            }
        }
        sheet
    }

    fn table(text: &str) -> Table {
        let measure = |text| Measure::parse(text).unwrap();
        let rows = text.split(';').map(|row| row.split_once(':').unwrap());
        Table::new(Reads::NextUp, rows.map(|(x, y)| (measure(x), measure(y))).collect()).unwrap()
    }

    #[track_caller]
    fn check(text: &str, expected: &[(&str, &str)]) {
        let solved = sheet(text).solve();
        let shown: Vec<(String, String)> = solved
            .into_iter()
            .map(|(name, solution)| match solution {
                Ok(evaluated) => (name, evaluated.value.to_string()),
                Err(error) => (name, format!("{error}; {}", error.words().way_out())),
            })
            .collect();
        let shown: Vec<(&str, &str)> = shown.iter().map(|(a, b)| (&**a, &**b)).collect();
        assert_eq!(shown, expected);
    }

    /// Common practice, no source: flats and fins make the strip, strips make the web.
    #[test]
    fn formulas_are_solved_in_any_order() {
        check(
            "a_web = lanes * strip + 2 * trim
             strip = 2 * flat + 2 * fin
             given flat = 23 mm
             given fin = 5 mm
             given lanes = 10
             trim = if(wide, machine.trim, 0 mm)
             wide = lanes >= 10
             given machine.trim = 6 mm",
            &[("a_web", "572 mm"), ("strip", "56 mm"), ("trim", "6 mm"), ("wide", "yes")],
        );
    }

    #[test]
    fn formulas_read_tables() {
        check(
            "given film = 22 µm
             table dwell = 20 µm: 0.3 s; 25 µm: 0.4 s
             table jaws = 0.3 s: 120 °C; 0.4 s: 130 °C
             a_jaw = jaws(hold)
             hold = dwell(film)
             thick = dwell(2 * film)
             late = thick + 1 s",
            &[
                ("a_jaw", "130 °C"),
                ("hold", "0.4 s"),
                ("late", "it needs `thick`, which has no value; put `thick` right first"),
                (
                    "thick",
                    "44 µm lies outside the table `dwell`, which runs from 20 µm to 25 µm; \
                     add a row for it: nothing is worked out past the last row",
                ),
            ],
        );
    }

    #[test]
    fn a_table_nobody_knows_is_named_before_anything_is_worked_out() {
        check(
            "table dwell = 1: 1
             given film = 1
             a = dwel(b)
             b = 1 / 0
             c = film(2)
             d = 2 * dwell
             e = dwell(1, 2)",
            &[
                ("a", "there is no function `dwel`; did you mean `dwell`?"),
                ("b", "division by zero; choose another way for zero with if(condition, a, b)"),
                (
                    "c",
                    "there is no function `film`; the functions are if, min, max, abs, round, \
                     round_up, round_down and sqrt; write `*` to multiply",
                ),
                (
                    "d",
                    "`dwell` has no value without arguments; \
                     write its arguments in parentheses, or choose another name",
                ),
                ("e", "`dwell` cannot take 2 arguments; write `dwell(x)`"),
            ],
        );
    }

    #[test]
    fn a_formula_suffers_from_a_table_that_could_not_be_read() {
        let mut sheet = sheet("a = 2 * dwell(1)");
        sheet.unreadable.insert("dwell".to_owned());
        assert_eq!(sheet.solve()["a"], Err(SheetError::DependsOn("dwell".to_owned())));
    }

    #[test]
    fn a_cause_is_reported_once() {
        check(
            "strip = 2 * flt
             given flat = 23 mm
             web = 10 * strip
             roll = web + 1 mm
             other = 2 * flat",
            &[
                ("other", "46 mm"),
                ("roll", "it needs `strip`, which has no value; put `strip` right first"),
                ("strip", "nothing is called `flt` here; did you mean `flat`?"),
                ("web", "it needs `strip`, which has no value; put `strip` right first"),
            ],
        );
    }

    #[test]
    fn a_cycle_is_one_error_that_names_all_of_it() {
        let needs_b = "it needs `b`, which has no value; put `b` right first";
        check(
            "d = b + 1
             c = d + 1
             b = c + 1
             a = b + 1
             e = a + 1",
            &[
                ("a", needs_b),
                (
                    "b",
                    "these need each other: b -> c -> d -> b; give one of them a value of its own",
                ),
                ("c", needs_b),
                ("d", needs_b),
                ("e", needs_b),
            ],
        );
    }

    #[test]
    fn a_formula_may_not_need_itself() {
        check(
            "a = a + 1
             x = y
             y = x",
            &[
                ("a", "these need each other: a -> a; give one of them a value of its own"),
                ("x", "these need each other: x -> y -> x; give one of them a value of its own"),
                ("y", "it needs `x`, which has no value; put `x` right first"),
            ],
        );
    }

    #[test]
    fn a_name_is_given_or_worked_out() {
        check(
            "given a = 1
             a = 2
             b = a",
            &[
                (
                    "a",
                    "this name is given and worked out too; choose another name for one of the two",
                ),
                ("b", "it needs `a`, which has no value; put `a` right first"),
            ],
        );
    }

    #[test]
    fn an_error_has_its_place_in_the_formula() {
        let solved = sheet("a = 1 mm\nb = 2 * (a + 1 kg)").solve();
        let Err(SheetError::Formula(error)) = &solved["b"] else { panic!("{solved:?}") };
        assert_eq!(error.range, 5..13);
    }

    /// Each formula needs the one before; names go against the order of the alphabet.
    fn chain(length: usize, first: &str) -> BTreeMap<String, Result<super::Evaluated, SheetError>> {
        let mut text = format!("s{length:05} = {first}\n");
        for place in 0..length {
            text.push_str(&format!("s{place:05} = s{:05} + 1 mm\n", place + 1));
        }
        sheet(&text).solve()
    }

    #[test]
    fn long_chains_are_solved_without_recursion() {
        let solved = chain(10_000, "1 mm");
        let first = solved["s00000"].as_ref().unwrap();
        assert_eq!(first.value.to_string(), "10001 mm");
        assert_eq!(first.numbers, "10000 mm + 1 mm");
        let broken = chain(10_000, "1 mm / 0");
        assert_eq!(broken["s00000"], Err(SheetError::DependsOn("s10000".to_owned())));
        let circle = chain(10_000, "s00000");
        let Err(SheetError::Cycle(names)) = &circle["s00000"] else { panic!("no cycle") };
        assert_eq!(names.len(), 10_002);
    }
}
