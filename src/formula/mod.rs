//! Formulas of settings: `2 * flat_width + 2 * fin`, `dwell(film)`.
//!
//! ```text
//! text ─parse→ formula ─evaluate, with values and tables→ value and the working
//! givens, tables and formulas ─sheet→ each value, in whatever order they need each other
//! ```
//!
//! ```
//! use witnessmark::formula::{Formula, Sheet};
//! use witnessmark::quantity::Measure;
//!
//! let mut sheet = Sheet::default();
//! sheet.givens.insert("flat".into(), Measure::parse("23 mm").expect("a length"));
//! let strip = Formula::parse("2 * flat + 2 * 5 mm").expect("a formula");
//! sheet.formulas.insert("strip".into(), strip);
//! let strip = sheet.solve().remove("strip").expect("it has a formula").expect("it has a value");
//! assert_eq!(strip.value.to_string(), "56 mm");
//! assert_eq!(strip.numbers, "2 * 23 mm + 2 * 5 mm");
//! assert_eq!(strip.steps, ["2 * 23 mm = 46 mm", "2 * 5 mm = 10 mm", "46 mm + 10 mm = 56 mm"]);
//! ```
//!
//! A table is called like a function of one value, and never read past its ends:
//!
//! ```
//! use witnessmark::formula::{Formula, Reads, Sheet, Table};
//! use witnessmark::quantity::Measure;
//!
//! let measure = |text| Measure::parse(text).expect("a quantity");
//! let rows = [("20 µm", "0.3 s"), ("30 µm", "0.5 s")].map(|(x, y)| (measure(x), measure(y)));
//! let mut sheet = Sheet::default();
//! sheet.tables.insert("dwell".into(), Table::new(Reads::Between, rows.into()).expect("rows rise"));
//! sheet.formulas.insert("hold".into(), Formula::parse("dwell(25 µm)").expect("a formula"));
//! sheet.formulas.insert("long".into(), Formula::parse("dwell(35 µm)").expect("a formula"));
//! let solved = sheet.solve();
//! assert_eq!(solved["hold"].as_ref().expect("in the table").value.to_string(), "0.4 s");
//! assert!(solved["long"].is_err());
//! ```
//!
//! Must know no YAML and no files, and must never recurse on input: what people write is bounded
//! in length and depth, and chains of formulas of any length are solved in a loop.

pub mod evaluate;
pub mod parse;
pub mod sheet;
mod steps;
pub mod table;
mod token;
mod unknown;
mod wrong;

pub use evaluate::{Evaluated, Value};
pub use parse::{Formula, is_function};
pub use sheet::{Sheet, SheetError};
pub use table::{BadTable, Reads, Table};
pub use token::is_name;
pub use wrong::{FormulaError, Missed, Wrong};
