//! Formulas of settings: `2 * flat_width + 2 * fin`.
//!
//! ```text
//! text ─parse→ formula ─evaluate, with the values of its names→ value and the working
//! givens and formulas ─sheet→ each value, in whatever order they need each other
//! ```
//!
//! Must know no YAML and no files, and must never recurse on input: what people write is bounded
//! in length and depth, and chains of formulas of any length are solved in a loop.

pub mod evaluate;
pub mod parse;
pub mod sheet;
mod token;
mod wrong;

pub use evaluate::{Evaluated, Value};
pub use parse::Formula;
pub use sheet::{Sheet, SheetError};
pub use wrong::{FormulaError, Wrong};
