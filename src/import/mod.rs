//! A table of settings that somebody has already, made into recipes.
//!
//! ```text
//! bytes ─csv, workbook→ table ─rows, by a mapping→ values of each recipe ─edit→ text of its file
//! ```
//! Values in, values out: no file is read or written here. Must never guess: a column nobody mapped, a
//! cell that is not understood, a unit that is missing is a [`Remark`], and one remark that weighs is
//! enough for nothing to be written. Numbers are decimals as they are written; what a spreadsheet keeps
//! as a binary number is taken in its shortest decimal form, and rounded only where the mapping says so.

mod cell;
mod csv;
mod edit;
mod mapping;
mod remark;
mod rows;
mod table;
mod workbook;

pub use mapping::{ColumnEntry, Is, Mapping, Sign, SkipEntry};
pub use remark::{At, Remark};
pub use rows::{Made, Source, Stamp, Taken, recipes};
pub(crate) use rows::{nearest, with_near};
pub use table::{BadTable, Cell, Table, letters};

/// Reads a table by the ending of its name.
///
/// # Errors
/// [`BadTable`] when it is no such file, is too large, or has several sheets and none was named.
pub fn read(
    name: &str,
    bytes: &[u8],
    separator: u8,
    sheet: Option<&str>,
) -> Result<Table, BadTable> {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending.to_ascii_lowercase());
    match ending.as_deref() {
        Some("csv" | "txt" | "tsv") => csv::read(bytes, separator),
        Some("xlsx" | "xlsm") => workbook::xlsx(bytes, sheet),
        Some("ods") => workbook::ods(bytes, sheet),
        _ => Err(BadTable::Ending),
    }
}
