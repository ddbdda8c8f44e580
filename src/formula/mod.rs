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
