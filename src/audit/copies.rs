//! That somewhere else somebody signed on too, on a copy of the same record.

use super::checks::finding;
use super::{AuditFinding, Severity};
use crate::language::Words;
use crate::record::copy::{Compared, compare};
use crate::record::store::RawRecord;

/// What another history that is kept beside a record says of it; none when it says nothing else.
///
/// Which of the two is right nobody can tell from here: it is a warning, with both or none of them.
pub fn diverged(record: &RawRecord, name: &str, copy: &RawRecord) -> Option<AuditFinding> {
    let folder = ("folder", name.into());
    let words = match compare(record, copy) {
        Compared::Same | Compared::Shorter => return None,
        Compared::OtherPacket => Words::new("audit-copy-of-another-packet", &[folder]),
        Compared::Longer(same) => {
            Words::new("audit-copy-longer", &[folder, ("entry", number(same).into())])
        }
        Compared::Diverged(same) => {
            Words::new("audit-copy-diverged", &[folder, ("entry", number(same).into())])
        }
    };
    Some(finding(Severity::Warning, words))
}

/// The first entry that differs.
fn number(same: usize) -> String {
    same.saturating_add(1).to_string()
}
