//! A table as it was read: rows of cells, each with its place in the file, bounded in size.

use std::collections::BTreeMap;

use crate::language::Words;

/// Rows that a table may reach down to.
pub(super) const MOST_ROWS: usize = 20_000;
/// Columns that a table may reach to.
pub(super) const MOST_COLUMNS: usize = 500;
/// Cells with something in them that a table may have.
pub(super) const MOST_CELLS: usize = 400_000;
/// Letters that a cell may have.
pub(super) const MOST_LETTERS: usize = 1000;

/// What stands in a cell.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    #[default]
    Empty,
    /// Nothing, for it is merged with one above or before it.
    Merged,
    /// Text as it is written.
    Text(String),
    /// A number of a spreadsheet in its shortest decimal form, with a decimal point.
    Number(String),
    /// A day, `YYYY-MM-DD`.
    Day(String),
    /// A time, or a day with a time.
    Time,
    /// Yes or no.
    Truth,
    /// What the spreadsheet could not work out: `#DIV/0!`.
    Error(String),
}

impl Cell {
    /// Whether nothing stands there.
    pub fn is_empty(&self) -> bool {
        match self {
            Cell::Empty | Cell::Merged => true,
            Cell::Text(text) => text.trim().is_empty(),
            _ => false,
        }
    }

    /// What is shown of it.
    pub fn shown(&self) -> &str {
        match self {
            Cell::Text(text) | Cell::Number(text) | Cell::Day(text) | Cell::Error(text) => text,
            Cell::Empty | Cell::Merged | Cell::Time | Cell::Truth => "",
        }
    }
}

/// A table.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Table {
    /// Name of the sheet; empty for a CSV file.
    pub sheet: String,
    /// Cells with something in them, by row and column, both from 1.
    pub rows: BTreeMap<usize, BTreeMap<usize, Cell>>,
    /// Cells whose value a formula gave.
    pub formulas: Vec<(usize, usize)>,
    cells: usize,
}

impl Table {
    /// A table without anything in it.
    pub fn new(sheet: &str) -> Table {
        Table { sheet: sheet.to_owned(), ..Table::default() }
    }

    /// What stands at a place; both numbers from 1.
    pub fn cell(&self, row: usize, column: usize) -> &Cell {
        const NOTHING: &Cell = &Cell::Empty;
        self.rows.get(&row).and_then(|row| row.get(&column)).unwrap_or(NOTHING)
    }

    /// Puts a cell; nothing is kept of an empty one.
    pub(super) fn put(&mut self, row: usize, column: usize, cell: Cell) -> Result<(), BadTable> {
        if cell == Cell::Empty {
            return Ok(());
        }
        self.cells += 1;
        if row > MOST_ROWS || column > MOST_COLUMNS || self.cells > MOST_CELLS {
            return Err(BadTable::TooLarge);
        }
        if cell.shown().chars().nth(MOST_LETTERS).is_some() {
            return Err(BadTable::LongCell { row, column });
        }
        self.rows.entry(row).or_default().insert(column, cell);
        Ok(())
    }
}

/// The letters of a column, as spreadsheets show them: 1 is A, 27 is AA.
pub fn letters(mut column: usize) -> String {
    let mut letters = Vec::new();
    while column > 0 {
        column -= 1;
        letters.push(char::from(b'A' + u8::try_from(column % 26).unwrap_or(0)));
        column /= 26;
    }
    letters.iter().rev().collect()
}

/// Why a file gave no table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BadTable {
    /// Its name ends in nothing that is known.
    Ending,
    /// More rows, columns, cells or bytes than are read.
    TooLarge,
    /// A cell with more letters than are read.
    LongCell {
        /// Its row, from 1.
        row: usize,
        /// Its column, from 1.
        column: usize,
    },
    /// A text file that is not UTF-8.
    NotUtf8,
    /// The library that reads it says what is wrong.
    Unreadable(String),
    /// No such sheet; those there are.
    NoSheet(Vec<String>),
    /// Several sheets and none was named; those there are.
    WhichSheet(Vec<String>),
}

impl BadTable {
    /// In words, with the way out.
    pub fn words(&self) -> Words {
        let sheets = |sheets: &[String]| {
            let shown: Vec<&str> = sheets.iter().take(20).map(String::as_str).collect();
            shown.join(", ")
        };
        match self {
            BadTable::Ending => Words::of("import-ending"),
            BadTable::TooLarge => {
                let most = [("rows", MOST_ROWS.into()), ("columns", MOST_COLUMNS.into())];
                Words::new("import-too-large", &most)
            }
            BadTable::LongCell { row, column } => {
                let cell = format!("{}{row}", letters(*column));
                let parts = [("cell", cell.into()), ("most", MOST_LETTERS.into())];
                Words::new("import-long-cell", &parts)
            }
            BadTable::NotUtf8 => Words::of("import-not-utf8"),
            BadTable::Unreadable(why) => {
                Words::new("import-unreadable", &[("why", why.as_str().into())])
            }
            BadTable::NoSheet(all) => {
                Words::new("import-no-sheet", &[("sheets", sheets(all).into())])
            }
            BadTable::WhichSheet(all) => {
                Words::new("import-which-sheet", &[("sheets", sheets(all).into())])
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn columns_have_the_letters_of_a_spreadsheet() {
        for (column, expected) in [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (703, "AAA")] {
            assert_eq!(letters(column), expected);
        }
    }
}
