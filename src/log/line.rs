//! A line of the list of leaves: which entry of which record a leaf is.
//!
//! `4e3b...64d4 000012 J-2041`: the leaf's hash, the number of the entry's file, the record's folder.
//! Must never name a file outside the records.

use super::tree::Hash;
use crate::canonical::hex;

/// Most bytes of a line, with its line feed.
pub const MOST_LINE: u64 = 256;

/// A leaf and what it is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Hash of the leaf.
    pub hash: Hash,
    /// Number of the entry.
    pub entry: u64,
    /// Folder of the record.
    pub record: String,
}

impl Line {
    /// The line, with its line feed.
    pub fn print(&self) -> String {
        format!("{} {:06} {}\n", hex(&self.hash), self.entry, self.record)
    }

    /// Reads a line with its line feed; none for anything that would be printed otherwise.
    pub fn parse(line: &[u8]) -> Option<Line> {
        let text = std::str::from_utf8(line).ok()?;
        let (digits, rest) = text.strip_suffix('\n')?.split_once(' ')?;
        let (number, record) = rest.split_once(' ')?;
        if digits.len() != 64 || number.len() != 6 || !is_record(record) {
            return None;
        }
        let mut hash = Hash::default();
        for (byte, at) in hash.iter_mut().zip((0..64).step_by(2)) {
            *byte = u8::from_str_radix(digits.get(at..at + 2)?, 16).ok()?;
        }
        let read = Line { hash, entry: number.parse().ok()?, record: record.to_owned() };
        (read.entry > 0 && read.print() == text).then_some(read)
    }
}

/// Whether a name can be that of a record's folder.
pub fn is_record(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '.');
    (1..=120).contains(&name.len()) && name.chars().all(plain) && !name.starts_with(['-', '.'])
}

#[cfg(test)]
mod tests {
    use super::Line;

    #[track_caller]
    fn check(line: &str, is_read: bool) {
        let read = Line::parse(line.as_bytes());
        assert_eq!(read.is_some(), is_read, "{line:?}");
        if let Some(read) = read {
            assert_eq!(read.print(), line);
        }
    }

    #[test]
    fn a_line_has_one_form_and_stays_among_the_records() {
        let hash = "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4";
        let line = |number: &str, record: &str| format!("{hash} {number} {record}\n");
        check(&line("000012", "J-2041"), true);
        check(&line("999999", "J-2041.2"), true);
        for record in ["", ".", "..", ".x", "-x", "a/b", "a b", "../x", "a\\b", "é"] {
            check(&line("000012", record), false);
        }
        for number in ["12", "0000012", "+00012", "000000", "00001a", ""] {
            check(&line(number, "J-2041"), false);
        }
        check(line("000012", "J-2041").trim_end(), false);
        check(&line("000012", "J-2041").to_uppercase(), false);
        check(&line("000012", "J-2041").replace("4e3b", "+e3b"), false);
        check(&line("000012", "J-2041").replace('\n', "\r\n"), false);
        check(&line("000012", &"J".repeat(121)), false);
    }
}
