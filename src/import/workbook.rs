//! Workbooks: XLSX and ODS, both archives of XML.
//!
//! Hostile until read: an archive is unpacked once to be measured before any of it is understood, and
//! of a sheet only cells that hold something are kept. The one place where binary numbers come in:
//! spreadsheets keep numbers so. Each is turned into its shortest decimal form at once, which is what
//! somebody typed.
#![allow(clippy::disallowed_types, reason = "spreadsheets keep numbers as binary ones")]

use std::io::{Cursor, Read};

use calamine::{Data, DataRef, ExcelDateTime, Ods, Reader, Xlsx};

use super::table::{BadTable, Cell, MOST_CELLS, MOST_COLUMNS, MOST_ROWS, Table};

/// Bytes of an unpacked workbook.
const MOST_BYTES: u64 = 64 << 20;
/// Files in a workbook.
const MOST_FILES: usize = 2000;

type Bytes<'b> = Cursor<&'b [u8]>;

/// Reads one sheet of an XLSX workbook.
pub(super) fn xlsx(bytes: &[u8], sheet: Option<&str>) -> Result<Table, BadTable> {
    measure(bytes, None)?;
    let mut book: Xlsx<Bytes> = Xlsx::new(Cursor::new(bytes)).map_err(unreadable)?;
    let name = chosen(&book.sheet_names(), sheet)?;
    let merged = book.merge_cells_by_sheet_name(&name).map_err(unreadable)?;
    let mut table = Table::new(&name);
    for area in merged {
        // What is merged over the whole sheet holds nothing below either.
        let rows = area.start.0..=area.end.0.min(u32::try_from(MOST_ROWS).unwrap_or(u32::MAX) - 1);
        for row in rows {
            let last = area.end.1.min(u32::try_from(MOST_COLUMNS).unwrap_or(u32::MAX) - 1);
            for column in area.start.1..=last {
                if (row, column) != area.start {
                    let (row, column) = place((row, column));
                    table.put(row, column, Cell::Merged)?;
                }
            }
        }
    }
    let mut reader = book.worksheet_cells_reader(&name).map_err(unreadable)?;
    while let Some(record) = reader.next_cell_with_formula_metadata().map_err(unreadable)? {
        let (row, column) = place(record.pos);
        if record.formula.is_some() {
            table.formulas.push((row, column));
        }
        let cell = match record.value {
            DataRef::Empty => Cell::Empty,
            DataRef::Int(number) => Cell::Number(number.to_string()),
            DataRef::Float(number) => decimal(number),
            DataRef::String(text) => Cell::Text(text),
            DataRef::SharedString(text) => Cell::Text(text.to_owned()),
            DataRef::Bool(_) => Cell::Truth,
            DataRef::DateTime(moment) => day(moment),
            DataRef::DateTimeIso(text) => iso_day(&text),
            DataRef::DurationIso(_) => Cell::Time,
            DataRef::Error(error) => Cell::Error(error.to_string()),
        };
        table.put(row, column, cell)?;
    }
    Ok(table)
}

/// Reads one sheet of an ODS workbook.
pub(super) fn ods(bytes: &[u8], sheet: Option<&str>) -> Result<Table, BadTable> {
    measure(bytes, Some(&repeats_little))?;
    let mut book: Ods<Bytes> = Ods::new(Cursor::new(bytes)).map_err(unreadable)?;
    let name = chosen(&book.sheet_names(), sheet)?;
    let range = book.worksheet_range(&name).map_err(unreadable)?;
    let mut table = Table::new(&name);
    let Some(start) = range.start() else { return Ok(table) };
    for (row, column, data) in range.used_cells() {
        let (row, column) = (start.0 as usize + row + 1, start.1 as usize + column + 1);
        let cell = match data {
            Data::Empty => Cell::Empty,
            Data::Int(number) => Cell::Number(number.to_string()),
            Data::Float(number) => decimal(*number),
            Data::String(text) => Cell::Text(text.clone()),
            Data::Bool(_) => Cell::Truth,
            Data::DateTime(moment) => day(*moment),
            Data::DateTimeIso(text) => iso_day(text),
            Data::DurationIso(_) => Cell::Time,
            Data::Error(error) => Cell::Error(error.to_string()),
        };
        table.put(row, column, cell)?;
    }
    let formulas = book.worksheet_formula(&name).map_err(unreadable)?;
    if let Some(start) = formulas.start() {
        let used = formulas.used_cells().filter(|(.., formula)| !formula.is_empty());
        let places = used
            .map(|(row, column, _)| (start.0 as usize + row + 1, start.1 as usize + column + 1));
        table.formulas.extend(places);
    }
    Ok(table)
}

fn unreadable(error: impl std::fmt::Display) -> BadTable {
    BadTable::Unreadable(error.to_string().chars().take(200).collect())
}

/// Row and column from 1.
fn place((row, column): (u32, u32)) -> (usize, usize) {
    (row as usize + 1, column as usize + 1)
}

/// The sheet that was named, or the only one.
fn chosen(sheets: &[String], sheet: Option<&str>) -> Result<String, BadTable> {
    match (sheet, sheets) {
        (Some(name), _) if sheets.iter().any(|one| one == name) => Ok(name.to_owned()),
        (Some(_), _) => Err(BadTable::NoSheet(sheets.to_vec())),
        (None, [only]) => Ok(only.clone()),
        (None, _) => Err(BadTable::WhichSheet(sheets.to_vec())),
    }
}

/// The shortest decimal that is this binary number and no other: 28.05 and not 28.050000000000001.
fn decimal(number: f64) -> Cell {
    match number.is_finite() {
        true if number == 0.0 => Cell::Number("0".to_owned()),
        true => Cell::Number(number.to_string()),
        false => Cell::Error(number.to_string()),
    }
}

fn day(moment: ExcelDateTime) -> Cell {
    match moment.to_ymd_hms_milli() {
        (year, month, day, 0, 0, 0, 0) if !moment.is_duration() => {
            Cell::Day(format!("{year:04}-{month:02}-{day:02}"))
        }
        _ => Cell::Time,
    }
}

fn iso_day(text: &str) -> Cell {
    let (day, time) = text.split_once('T').unwrap_or((text, ""));
    let is_midnight = time.chars().all(|c| "0:.".contains(c));
    if is_midnight { Cell::Day(day.to_owned()) } else { Cell::Time }
}

/// What else is asked of the sheets of an archive.
type Ask<'a> = &'a dyn Fn(&str) -> bool;

/// Unpacks an archive to nowhere, to see that it is as small as it should be; `ask` looks at its content.
///
/// Sizes that an archive gives of itself may be lies: what comes out is counted.
fn measure(bytes: &[u8], ask: Option<Ask>) -> Result<(), BadTable> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(unreadable)?;
    if archive.len() > MOST_FILES {
        return Err(BadTable::TooLarge);
    }
    let mut left = MOST_BYTES;
    for index in 0..archive.len() {
        let file = archive.by_index(index).map_err(unreadable)?;
        let is_content = file.name().is_ok_and(|name| name == "content.xml");
        let mut file = file.take(left + 1);
        let taken = match ask.filter(|_| is_content) {
            None => std::io::copy(&mut file, &mut std::io::sink()).map_err(unreadable)?,
            Some(ask) => {
                let mut text = String::new();
                let taken = file.read_to_string(&mut text).map_err(unreadable)?;
                if !ask(&text) {
                    return Err(BadTable::TooLarge);
                }
                taken as u64
            }
        };
        left = left.checked_sub(taken).ok_or(BadTable::TooLarge)?;
    }
    Ok(())
}

/// Whether the cells of an ODS sheet, with all that it says to repeat, are few enough.
///
/// A row may end in ten thousand empty cells, and does in every such file; what counts is what stands
/// up to the last cell that holds something. A number of repeats that cannot be read here is refused.
fn repeats_little(xml: &str) -> bool {
    const ROW: &str = "table:table-row";
    let (mut all, mut row, mut empty, mut times) = (0_usize, 0_usize, 0_usize, 1_usize);
    for tag in xml.split('<') {
        let name = tag.split(|c: char| c.is_whitespace() || "/>".contains(c)).next().unwrap_or("");
        if tag.starts_with("/table:table-row") {
            all = all.saturating_add(row.saturating_mul(times));
            if all > MOST_CELLS {
                return false;
            }
        } else if name == ROW {
            let Some(repeated) = repeated(tag, "table:number-rows-repeated") else { return false };
            (row, empty, times) = (0, 0, repeated.min(MOST_ROWS));
        } else if name == "table:table-cell" || name == "table:covered-table-cell" {
            let Some(repeated) = repeated(tag, "table:number-columns-repeated") else {
                return false;
            };
            let bare = tag.trim_end();
            let is_bare = bare.ends_with("/>") && bare.matches('>').count() == 1;
            if is_bare && !tag.contains("value") && !tag.contains("formula") {
                empty = empty.saturating_add(repeated);
            } else {
                row = row.saturating_add(empty).saturating_add(repeated);
                empty = 0;
            }
            if row > MOST_CELLS {
                return false;
            }
        }
    }
    true
}

/// How often a tag says that it is repeated; none when that cannot be read.
fn repeated(tag: &str, key: &str) -> Option<usize> {
    let said = tag.matches("-repeated").count();
    match tag.split_once(&format!(" {key}=\"")) {
        Some((_, rest)) if said == 1 => rest.split_once('"')?.0.parse().ok(),
        None if said == 0 => Some(1),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{decimal, repeats_little};
    use crate::import::table::Cell;

    #[test]
    fn a_binary_number_is_the_decimal_that_was_typed() {
        for (number, expected) in [
            (28.05, "28.05"),
            (0.1, "0.1"),
            (-0.0, "0"),
            (1e-7, "0.0000001"),
            (1046.0, "1046"),
            (0.1 + 0.2, "0.30000000000000004"),
        ] {
            assert_eq!(decimal(number), Cell::Number(expected.to_owned()));
        }
        assert_eq!(decimal(f64::NAN), Cell::Error("NaN".to_owned()));
    }

    #[test]
    fn what_a_sheet_repeats_is_counted_before_it_is_read() {
        let row = |cells: &str| format!("<table:table-row>{cells}</table:table-row>");
        let held =
            "<table:table-cell office:value-type=\"string\"><text:p>x</text:p></table:table-cell>";
        let empty = |n: usize| format!("<table:table-cell table:number-columns-repeated=\"{n}\"/>");
        let usual = row(&format!("{held}{}", empty(16_382))).repeat(900);
        assert!(repeats_little(&usual));
        assert!(!repeats_little(&row(&format!("{}{held}", empty(16_382))).repeat(900)));
        let many =
            held.replace("cell office", "cell table:number-columns-repeated=\"9000\" office");
        assert!(!repeats_little(&row(&many).repeat(90)));
        let rows = row(held).replace("row>", "row table:number-rows-repeated=\"1000000\">");
        assert!(repeats_little(&rows) && !repeats_little(&rows.repeat(30)));
        let hidden = held.replace("cell office", "cell table:number-columns-repeated='9' office");
        assert!(!repeats_little(&row(&hidden)));
    }
}
