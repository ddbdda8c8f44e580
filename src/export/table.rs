//! Entries as a table: one row an entry, whether it can be read or not, and what each column is.
//!
//! Must never round, convert or repair: values are text with their unit beside them, times stand as
//! signed and as an instant, and the signed bytes themselves are a column.

use crate::canonical;
use crate::record::entry::{self, Entry, Taken, Verdict};
use crate::record::store::RawEntry;
use crate::record::time;

/// One entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    record: String,
    file: RawEntry,
    digest: String,
    entry: Option<Entry>,
    is_sound: bool,
}

impl Row {
    /// An entry of a record; `is_sound` is what the audit says of it.
    pub fn new(record: &str, file: RawEntry, is_sound: bool) -> Row {
        let (digest, entry) = (canonical::sha256_hex(&file.json), entry::read(&file.json).entry);
        Row { record: record.to_owned(), file, digest, entry, is_sound }
    }

    fn taken(&self) -> Option<&Taken> {
        self.entry.as_ref()?.reading.as_ref()
    }
}

/// What a column holds, and how it is taken from a row; none where the entry has nothing of it.
#[derive(Debug, Clone, Copy)]
pub enum Cell {
    /// UTF-8 text.
    Text(fn(&Row) -> Option<&str>),
    /// Bytes as they lie in the record.
    Bytes(fn(&Row) -> Option<&[u8]>),
    /// A whole number.
    Whole(fn(&Row) -> Option<u64>),
    /// An instant, milliseconds of UTC since 1970.
    Instant(fn(&Row) -> Option<i64>),
    /// Yes or no.
    Truth(fn(&Row) -> Option<bool>),
}

use Cell::{Bytes, Instant, Text, Truth, Whole};

impl Cell {
    /// The kind of value, as FORMAT.md names it.
    pub fn kind(self) -> &'static str {
        match self {
            Text(_) => "text",
            Bytes(_) => "bytes",
            Whole(_) => "whole number",
            Instant(_) => "instant",
            Truth(_) => "truth",
        }
    }
}

/// Every column, in its order.
pub const COLUMNS: [(&str, Cell); 36] = [
    ("record", Text(|row| Some(&row.record))),
    ("file", Text(|row| Some(&row.file.name))),
    ("sound", Truth(|row| Some(row.is_sound))),
    ("instant", Instant(|row| Some(time::parse(&row.entry.as_ref()?.at).ok()?.timestamp_millis()))),
    ("at", Text(|row| Some(&row.entry.as_ref()?.at))),
    ("kind", Text(|row| Some(row.entry.as_ref()?.kind.word()))),
    ("by", Text(|row| Some(&row.entry.as_ref()?.by))),
    ("name", Text(|row| Some(&row.entry.as_ref()?.name))),
    ("role", Text(|row| Some(&row.entry.as_ref()?.role))),
    ("machine", Text(|row| Some(&row.entry.as_ref()?.machine))),
    ("job", Text(|row| Some(&row.entry.as_ref()?.job))),
    ("step", Text(|row| Some(&row.entry.as_ref()?.step))),
    ("row", Text(|row| row.entry.as_ref()?.row.as_deref())),
    ("blank", Text(|row| Some(&row.taken()?.blank))),
    ("value", Text(|row| Some(&row.taken()?.value))),
    ("unit", Text(|row| Some(&row.taken()?.unit))),
    ("low", Text(|row| row.taken()?.low.as_deref())),
    ("high", Text(|row| row.taken()?.high.as_deref())),
    ("verdict", Text(|row| Some(verdict(row.taken()?.verdict)))),
    ("instrument", Text(|row| row.taken()?.instrument.as_deref())),
    ("accepts", Whole(|row| row.entry.as_ref()?.accepts)),
    ("corrects", Whole(|row| row.entry.as_ref()?.corrects)),
    ("concerns", Whole(|row| row.entry.as_ref()?.concerns)),
    ("withdraws", Whole(|row| row.entry.as_ref()?.withdraws)),
    ("outside", Truth(|row| row.entry.as_ref()?.outside.then_some(true))),
    ("note", Text(|row| row.entry.as_ref()?.note.as_deref())),
    ("meaning", Text(|row| Some(&row.entry.as_ref()?.meaning))),
    ("locks", Text(|row| row.entry.as_ref()?.locks.as_deref())),
    ("becomes", Text(|row| row.entry.as_ref()?.becomes.as_deref())),
    ("seq", Whole(|row| Some(row.entry.as_ref()?.seq))),
    ("v", Whole(|row| Some(row.entry.as_ref()?.v.into()))),
    ("packet", Text(|row| Some(&row.entry.as_ref()?.packet))),
    ("prev", Text(|row| Some(&row.entry.as_ref()?.prev))),
    ("sha256", Text(|row| Some(&row.digest))),
    ("entry", Bytes(|row| Some(&row.file.json))),
    ("signature", Bytes(|row| row.file.signature.as_deref())),
];

/// The verdict as it stands in an entry.
fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Within => "within",
        Verdict::Outside => "outside",
        Verdict::TooClose => "too-close",
    }
}

/// Whether an entry's bytes can be a line among lines: JSON, and one line feed at the very end.
pub fn is_line(bytes: &[u8]) -> bool {
    let Some((b'\n', line)) = bytes.split_last() else { return false };
    !line.contains(&b'\n') && serde_json::from_slice::<serde::de::IgnoredAny>(line).is_ok()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{COLUMNS, Cell, Row, is_line};
    use crate::record::fixture;
    use crate::record::store::RawEntry;

    fn row(number: usize) -> Row {
        Row::new("J-2041", fixture::raw().entries.remove(number - 1), true)
    }

    fn text(row: &Row, column: &str) -> Option<String> {
        let (_, cell) = COLUMNS.iter().find(|(name, _)| *name == column).unwrap();
        match cell {
            Cell::Text(of) => of(row).map(str::to_owned),
            Cell::Bytes(of) => of(row).map(|bytes| String::from_utf8(bytes.to_vec()).unwrap()),
            Cell::Whole(of) => of(row).map(|number| number.to_string()),
            Cell::Instant(of) => of(row).map(|number| number.to_string()),
            Cell::Truth(of) => of(row).map(|truth| truth.to_string()),
        }
    }

    #[test]
    fn a_value_stays_the_text_it_was() {
        let row = row(7);
        for (column, expected) in [
            ("value", "28.75"),
            ("unit", "mm"),
            ("high", "28.5"),
            ("verdict", "outside"),
            ("at", "2026-11-26T22:16:00+01:00"),
            // 2026-11-26T21:16:00Z, by `date -u -d ... +%s`.
            ("instant", "1795727760000"),
            ("kind", "reading"),
            ("seq", "7"),
        ] {
            assert_eq!(text(&row, column).as_deref(), Some(expected), "{column}");
        }
        assert_eq!(text(&row, "accepts"), None);
    }

    /// Each field of an entry has its column, so that nothing signed is only in the bytes.
    #[test]
    fn every_field_is_a_column() {
        let columns: BTreeSet<&str> = COLUMNS.iter().map(|(name, _)| *name).collect();
        assert_eq!(columns.len(), COLUMNS.len(), "names stand once");
        for raw in fixture::raw().entries {
            let entry: serde_json::Value = serde_json::from_slice(&raw.json).unwrap();
            let reading = entry.get("reading").and_then(|reading| reading.as_object());
            let fields = entry.as_object().unwrap().iter().chain(reading.into_iter().flatten());
            let row = Row::new("J-2041", raw.clone(), true);
            for (field, value) in fields.filter(|(field, _)| *field != "reading") {
                let expected = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
                assert_eq!(text(&row, field), Some(expected), "{field}");
            }
        }
    }

    #[test]
    fn what_cannot_be_read_is_a_row_of_its_bytes() {
        let json = b"{\"at\":".to_vec();
        let file = RawEntry { name: "000003".to_owned(), json, signature: None };
        let row = Row::new("J-2041", file, false);
        assert_eq!(text(&row, "entry").as_deref(), Some("{\"at\":"));
        for column in ["instant", "by", "value", "signature"] {
            assert_eq!(text(&row, column), None);
        }
        assert_eq!(text(&row, "sound").as_deref(), Some("false"));
    }

    #[test]
    fn a_line_is_json_and_ends_once() {
        assert!(is_line(b"{\"a\":1}\n"));
        for bytes in [&b"{}"[..], b"", b"\n", b"{\n}\n", b"{}\n\n", b"{\n", b"\xff\n"] {
            assert!(!is_line(bytes), "{bytes:?}");
        }
    }

    /// The table in FORMAT.md names the columns, in order, with their kinds.
    #[test]
    fn the_columns_are_the_described_ones() {
        let text = include_str!("FORMAT.md");
        let rows = text.split("| column | kind |").nth(1).unwrap().lines().skip(2);
        let rows = rows.take_while(|line| line.starts_with('|'));
        let described: Vec<(String, String)> = rows
            .flat_map(|line| {
                let cells: Vec<&str> = line.split('|').map(str::trim).collect();
                let names = cells[1].split(", ").map(|name| name.trim_matches('`').to_owned());
                names.map(move |name| (name, cells[2].to_owned())).collect::<Vec<_>>()
            })
            .collect();
        let own = COLUMNS.iter().map(|(name, cell)| ((*name).to_owned(), cell.kind().to_owned()));
        assert_eq!(described, own.collect::<Vec<_>>());
    }
}
