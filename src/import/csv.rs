//! CSV: text parted by a letter, quoted as RFC 4180 says.

use super::table::{BadTable, Cell, MOST_COLUMNS, MOST_ROWS, Table};

/// Reads a CSV file. Rows are counted as a spreadsheet counts them: an empty line is a row, and a line
/// that breaks inside quotes is none.
pub(super) fn read(bytes: &[u8], separator: u8) -> Result<Table, BadTable> {
    let text = std::str::from_utf8(bytes).map_err(|_| BadTable::NotUtf8)?;
    // One kind of line end, also behind the last line: lines are counted by it.
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n").replace('\r', "\n") + "\n";
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        .from_reader(text.as_bytes());
    let mut table = Table::new("");
    let mut record = csv::StringRecord::new();
    let (mut row, mut line) = (0, 1);
    loop {
        let more = reader.read_record(&mut record);
        if !more.map_err(|error| BadTable::Unreadable(error.to_string()))? {
            return Ok(table);
        }
        let broken: usize = record.iter().map(|text| text.matches('\n').count()).sum();
        // The reader passes over empty lines; the line it has come to tells how many.
        let next = reader.position().line();
        let empty = next.saturating_sub(line + 1 + broken as u64);
        row += 1 + usize::try_from(empty).unwrap_or(MOST_ROWS);
        line = next;
        if row > MOST_ROWS || record.len() > MOST_COLUMNS {
            return Err(BadTable::TooLarge);
        }
        for (column, text) in (1..).zip(record.iter()) {
            let cell = if text.is_empty() { Cell::Empty } else { Cell::Text(text.to_owned()) };
            table.put(row, column, cell)?;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::read;
    use crate::import::table::{BadTable, Cell};

    #[test]
    fn quotes_semicolons_line_ends_and_a_byte_order_mark() {
        let text = "\u{feff}Id;\"Name; long\"\r\na-1;\"He said \"\"five\"\"\nand went\"\r\n\r\n;;\r\nb-2;x;y";
        let table = read(text.as_bytes(), b';').unwrap();
        let text = |row, column| table.cell(row, column).shown().to_owned();
        assert_eq!((text(1, 1), text(1, 2)), ("Id".to_owned(), "Name; long".to_owned()));
        assert_eq!(text(2, 2), "He said \"five\"\nand went");
        assert_eq!(table.rows.keys().copied().collect::<Vec<_>>(), [1, 2, 5]);
        assert_eq!((table.cell(4, 1), text(5, 3)), (&Cell::Empty, "y".to_owned()));
    }

    #[test]
    fn a_file_of_another_encoding_is_refused() {
        assert_eq!(read(b"Id,Gr\xf6\xdfe\n", b','), Err(BadTable::NotUtf8));
    }

    #[test]
    fn a_huge_table_is_refused() {
        let rows = "a,b\n".repeat(20_001);
        assert_eq!(read(rows.as_bytes(), b','), Err(BadTable::TooLarge));
        assert_eq!(read(",".repeat(600).as_bytes(), b','), Err(BadTable::TooLarge));
        let cell = "x".repeat(1001);
        let long = BadTable::LongCell { row: 1, column: 1 };
        assert_eq!(read(cell.as_bytes(), b','), Err(long));
    }
}
