//! The records of one job, one after the other: each but the last was closed because the packet was
//! issued anew, and the next one is of that packet.

use super::checks::{error, finding};
use super::{AuditFinding, Report, Severity};
use crate::language::Words;
use crate::record::state::State;
use crate::record::{job_of, record_name, record_number};

/// The name of the record that has to stand before one; none before the first.
pub fn name_before(name: &str) -> Option<String> {
    let number = record_number(name).checked_sub(1).filter(|number| *number > 0)?;
    Some(record_name(job_of(name), number))
}

/// What does not fit between a record and the one before it, which may not be there.
pub fn follows(report: &Report, before: Option<&Report>) -> Option<AuditFinding> {
    let name = name_before(&report.job)?;
    let parts = [("name", name.into())];
    let Some(before) = before else {
        return Some(error(Words::new("entries-record-missing", &parts)));
    };
    if before.state != Some(State::Superseded) {
        return Some(error(Words::new("entries-not-superseded", &parts)));
    }
    let (named, own) = (before.becomes.as_ref()?, report.packet.as_ref()?);
    // The plant's files were changed once more before the first sign-off: no fault, and worth a look.
    (named != own).then(|| {
        let other = finding(Severity::Warning, Words::new("entries-other-packet", &parts));
        other.with(named.as_str(), own.as_str())
    })
}
