//! The table as a Parquet file: plain pages without compression, so that every reader reads it.
//!
//! The only place that knows the library. Must never hold more than one group of rows in memory.

use std::io::Write;
use std::sync::Arc;

use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};
use parquet::schema::parser::parse_message_type;

use super::table::{COLUMNS, Cell, Row};

/// How many rows are written together.
const GROUP: usize = 10_000;

/// A Parquet file that is being written.
pub struct Table<W: Write + Send> {
    file: SerializedFileWriter<W>,
    rows: Vec<Row>,
}

/// Why a file could not be written, in the words of the library.
#[derive(Debug)]
pub struct NotWritten(pub String);

impl From<ParquetError> for NotWritten {
    fn from(error: ParquetError) -> NotWritten {
        NotWritten(error.to_string())
    }
}

impl<W: Write + Send> Table<W> {
    /// Begins a file; `program` is named in it as its maker.
    ///
    /// # Errors
    /// [`NotWritten`].
    pub fn new(to: W, program: &str) -> Result<Self, NotWritten> {
        let schema = Arc::new(parse_message_type(&schema())?);
        let properties = WriterProperties::builder().set_created_by(program.to_owned()).build();
        let file = SerializedFileWriter::new(to, schema, Arc::new(properties))?;
        Ok(Table { file, rows: Vec::new() })
    }

    /// Adds a row.
    ///
    /// # Errors
    /// [`NotWritten`].
    pub fn add(&mut self, row: Row) -> Result<(), NotWritten> {
        self.rows.push(row);
        if self.rows.len() == GROUP { self.write() } else { Ok(()) }
    }

    /// Ends the file and gives back what it was written to.
    ///
    /// # Errors
    /// [`NotWritten`].
    pub fn end(mut self) -> Result<W, NotWritten> {
        self.write()?;
        Ok(self.file.into_inner()?)
    }

    fn write(&mut self) -> Result<(), NotWritten> {
        let rows = std::mem::take(&mut self.rows);
        if rows.is_empty() {
            return Ok(());
        }
        let mut group = self.file.next_row_group()?;
        for (_, cell) in COLUMNS {
            column(&mut group, cell, &rows)?;
        }
        group.close()?;
        Ok(())
    }
}

fn schema() -> String {
    let columns = COLUMNS.iter().map(|(name, cell)| {
        let kind = match cell {
            Cell::Text(_) => format!("BYTE_ARRAY {name} (STRING)"),
            Cell::Bytes(_) => format!("BYTE_ARRAY {name}"),
            Cell::Whole(_) => format!("INT64 {name}"),
            Cell::Instant(_) => format!("INT64 {name} (TIMESTAMP(MILLIS,true))"),
            Cell::Truth(_) => format!("BOOLEAN {name}"),
        };
        format!("optional {kind};")
    });
    format!("message entries {{ {} }}", columns.collect::<String>())
}

fn column<W: Write + Send>(
    group: &mut SerializedRowGroupWriter<'_, W>,
    cell: Cell,
    rows: &[Row],
) -> Result<(), ParquetError> {
    let bytes = |bytes: &[u8]| ByteArray::from(bytes.to_vec());
    match cell {
        Cell::Text(of) => {
            let values = rows.iter().map(|row| of(row).map(|text| bytes(text.as_bytes())));
            fill::<ByteArrayType, W>(group, values)
        }
        Cell::Bytes(of) => {
            fill::<ByteArrayType, W>(group, rows.iter().map(|row| of(row).map(bytes)))
        }
        Cell::Whole(of) => {
            let whole = |number: u64| i64::try_from(number).ok();
            fill::<Int64Type, W>(group, rows.iter().map(|row| of(row).and_then(whole)))
        }
        Cell::Instant(of) => fill::<Int64Type, W>(group, rows.iter().map(of)),
        Cell::Truth(of) => fill::<BoolType, W>(group, rows.iter().map(of)),
    }
}

/// Writes the next column: which rows have a value, and the values.
fn fill<T: DataType, W: Write + Send>(
    group: &mut SerializedRowGroupWriter<'_, W>,
    values: impl Iterator<Item = Option<T::T>>,
) -> Result<(), ParquetError> {
    let (mut present, mut own) = (Vec::new(), Vec::new());
    for value in values {
        present.push(i16::from(value.is_some()));
        own.extend(value);
    }
    let Some(mut column) = group.next_column()? else {
        return Err(ParquetError::General("one column too many".to_owned()));
    };
    column.typed::<T>().write_batch(&own, Some(&present), None)?;
    column.close()
}

#[cfg(test)]
mod tests {
    use parquet::file::reader::{FileReader, SerializedFileReader};
    use parquet::record::Field;

    use super::Table;
    use crate::export::table::Row;
    use crate::record::fixture;

    /// The library reads it back; another reader does in `tests/it/export.rs`.
    #[test]
    fn what_is_written_is_read_back() {
        let mut table = Table::new(tempfile::tempfile().unwrap(), "test").unwrap();
        for entry in fixture::raw().entries {
            table.add(Row::new("J-2041", entry, true)).unwrap();
        }
        let reader = SerializedFileReader::new(table.end().unwrap()).unwrap();
        let rows: Vec<_> = reader.get_row_iter(None).unwrap().map(Result::unwrap).collect();
        assert_eq!(rows.len(), 13);
        let value = |name: &str| {
            let mut columns = rows[6].get_column_iter();
            columns.find(|(own, _)| *own == name).unwrap().1.clone()
        };
        assert_eq!(value("value"), Field::Str("28.75".to_owned()));
        assert_eq!(value("instant"), Field::TimestampMillis(1_795_727_760_000));
        assert_eq!(value("accepts"), Field::Null);
    }

    #[test]
    fn no_entries_are_a_table_without_rows() {
        let bytes = Table::new(Vec::new(), "test").unwrap().end().unwrap();
        assert!(bytes.starts_with(b"PAR1") && bytes.ends_with(b"PAR1"));
    }
}
