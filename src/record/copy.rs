//! Two copies of one record, compared.
//!
//! Bytes in, what became of them out. A record only ever grows, so of two copies that were made from
//! one either is the beginning of the other, or somebody signed on both. Must never say which of the
//! two is right: that is for people.

use super::store::RawRecord;

/// What a copy is to ours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Compared {
    /// Byte for byte the same.
    Same,
    /// It goes on where ours ends: so many entries are the same.
    Longer(usize),
    /// Ours goes on where it ends.
    Shorter,
    /// Another packet was signed.
    OtherPacket,
    /// Entries up to here are the same, the next of both is not.
    Diverged(usize),
}

/// Compares a copy with ours; leftovers and strays do not count.
pub fn compare(ours: &RawRecord, copy: &RawRecord) -> Compared {
    if ours.packet.is_some() && ours.packet != copy.packet {
        return Compared::OtherPacket;
    }
    let pairs = ours.entries.iter().zip(&copy.entries);
    let same = pairs.take_while(|(own, other)| own == other).count();
    match (ours.entries.len() == same, copy.entries.len() == same) {
        (true, true) => Compared::Same,
        (true, false) => Compared::Longer(same),
        (false, true) => Compared::Shorter,
        (false, false) => Compared::Diverged(same),
    }
}

/// What stands between the name of a record and the head of another history of it.
pub(crate) const COPY: &str = ".copy-";
/// So many digits of that head.
const DIGITS: usize = 8;

/// Name of the folder in which another history of a record is kept, by the head of that history.
pub fn copy_name(record: &str, head: &str) -> String {
    format!("{record}{COPY}{}", head.get(..DIGITS).unwrap_or(head))
}

/// The record that a folder keeps another history of.
pub fn copied(name: &str) -> Option<&str> {
    let (record, digits) = name.split_once(COPY)?;
    let is_digit = |b: u8| b.is_ascii_digit() || matches!(b, b'a'..=b'f');
    (digits.len() == DIGITS && digits.bytes().all(is_digit)).then_some(record)
}

#[cfg(test)]
mod tests {
    use super::{Compared, compare, copied, copy_name};
    use crate::record::fixture;
    use crate::record::store::RawRecord;

    fn first(entries: usize) -> RawRecord {
        let mut raw = fixture::raw();
        raw.entries.truncate(entries);
        raw
    }

    #[test]
    fn a_copy_is_the_same_longer_shorter_or_another() {
        let (short, long) = (first(4), first(9));
        assert_eq!(compare(&short, &short), Compared::Same);
        assert_eq!(compare(&short, &long), Compared::Longer(4));
        assert_eq!(compare(&long, &short), Compared::Shorter);
        assert_eq!(compare(&RawRecord::default(), &long), Compared::Longer(0));
        let mut other = long.clone();
        other.entries[3].json[40] ^= 1;
        assert_eq!(compare(&long, &other), Compared::Diverged(3));
        // Where ours is as long as what both have in common, the copy still differs before that.
        assert_eq!(compare(&short, &other), Compared::Diverged(3));
        let mut resigned = long.clone();
        resigned.entries[8].signature = Some(b"another".to_vec());
        assert_eq!(compare(&long, &resigned), Compared::Diverged(8));
        other.packet = Some(b"another".to_vec());
        assert_eq!(compare(&long, &other), Compared::OtherPacket);
        let leftover = RawRecord { strays: vec!["left".to_owned()], ..long.clone() };
        assert_eq!(compare(&long, &leftover), Compared::Same);
    }

    #[test]
    fn a_copy_is_named_after_its_record_and_its_head() {
        let head = "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4";
        for record in ["J-1", "J-1.2"] {
            let name = copy_name(record, head);
            assert_eq!(copied(&name), Some(record), "{name}");
        }
        for other in ["J-1", "J-1.2", "J-1.copy-", "J-1.copy-4e3bbb1", "J-1.copy-4E3BBB1F"] {
            assert_eq!(copied(other), None);
        }
    }
}
