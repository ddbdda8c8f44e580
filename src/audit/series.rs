//! The records of one job, one after the other: each but the last was closed because the packet was
//! issued anew, and the next one is of that packet.

use std::collections::BTreeMap;

use super::checks::{error, finding};
use super::{AuditFinding, Report, Severity};
use crate::language::Words;
use crate::record::state::State;
use crate::record::{job_of, record_name, record_number};

/// Adds to each report what does not fit between its record and the one before it.
pub fn across(reports: &mut [Report]) {
    let by_name: BTreeMap<&str, &Report> =
        reports.iter().map(|report| (report.job.as_str(), report)).collect();
    let found: Vec<Option<AuditFinding>> =
        reports.iter().map(|report| follows(report, &by_name)).collect();
    for (report, found) in reports.iter_mut().zip(found) {
        report.findings.extend(found);
    }
}

fn follows(report: &Report, by_name: &BTreeMap<&str, &Report>) -> Option<AuditFinding> {
    let number = record_number(&report.job).checked_sub(1).filter(|number| *number > 0)?;
    let name = record_name(job_of(&report.job), number);
    let before = by_name.get(name.as_str());
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
