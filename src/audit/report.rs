//! A report as lines for people.

use crate::count::count;

use super::{AuditFinding, AuditedEntry, Report, Severity, StatedReading};
use crate::record::entry::shown;
use crate::record::state::of_row;

/// The report as plain text, one line feed after each line.
///
/// ```text
/// J-2041: released with an accepted deviation, 13 entries, packet 5f1c...
/// error[signature-bad]: entry 5: its signature does not fit the signed bytes
///   expected: ...
///   found:    ...
/// ```
pub fn render(report: &Report) -> String {
    lines(report).into_iter().map(|line| line + "\n").collect()
}

/// The lines of [`render`].
pub fn lines(report: &Report) -> Vec<String> {
    let mut lines = vec![head(report)];
    lines.extend(
        grouped(&report.findings).into_iter().flat_map(|(first, runs)| finding(first, &runs)),
    );
    lines.push(tail(report));
    lines
}

/// One line an entry: number, time, who, what, and whether it holds.
pub fn entry_line(entry: &AuditedEntry) -> String {
    let mark = if entry.sound { "ok " } else { "BAD" };
    let Some(says) = &entry.says else {
        return format!("{mark} {:>6}  unreadable  sha256 {}", entry.number, entry.digest);
    };
    let what = match &says.reading {
        Some(reading) => reading_words(reading),
        None => format!("{} {}", of_row(&says.step, says.row.as_deref()), says.kind.word()),
    };
    let note = says.note.as_deref().map(|note| format!("; {note}")).unwrap_or_default();
    let name = if entry.sound { says.name.clone() } else { shown(&says.name) };
    format!("{mark} {:>6}  {}  {name} ({})  {what}{note}", entry.number, says.at, says.role)
}

fn reading_words(reading: &StatedReading) -> String {
    let StatedReading { blank, value, unit, verdict, limits } = reading;
    let limits = if limits.is_empty() { String::new() } else { format!(", limits {limits}") };
    format!("{blank} = {value} {unit} ({}){limits}", verdict.word())
}

fn head(report: &Report) -> String {
    let state = report.state.map_or("unknown state", |state| state.words());
    let packet = report.packet.as_deref().unwrap_or("none");
    format!("{}: {state}, {}, packet {packet}", report.job, count(report.entries.len(), "entry"))
}

/// Findings that say the same, as one, with the entries of which they say it: runs from the first to
/// the last of each.
fn grouped(findings: &[AuditFinding]) -> Vec<(&AuditFinding, Vec<(u64, u64)>)> {
    let mut groups: Vec<(&AuditFinding, Vec<(u64, u64)>)> = Vec::new();
    for finding in findings {
        let same = |(first, _): &&mut (&AuditFinding, Vec<(u64, u64)>)| {
            let all =
                |f: &AuditFinding| (f.code, f.expected.clone(), f.found.clone(), f.words.clone());
            finding.entry.is_some() && first.entry.is_some() && all(first) == all(finding)
        };
        match (groups.iter_mut().find(same), finding.entry) {
            (Some((_, runs)), Some(entry)) => lengthen(runs, entry),
            (_, entry) => groups.push((finding, entry.map(|e| (e, e)).into_iter().collect())),
        }
    }
    groups
}

fn lengthen(runs: &mut Vec<(u64, u64)>, entry: u64) {
    match runs.last_mut() {
        Some((_, last)) if entry == *last || last.checked_add(1) == Some(entry) => *last = entry,
        _ => runs.push((entry, entry)),
    }
}

/// `entry 3: `, `entries 3 to 5: ` or `entries 3, 5 to 9: `.
fn place(runs: &[(u64, u64)]) -> String {
    let run = |&(from, to): &(u64, u64)| match from == to {
        true => from.to_string(),
        false => format!("{from} to {to}"),
    };
    match runs {
        [] => String::new(),
        [(from, to)] if from == to => format!("entry {from}: "),
        runs => format!("entries {}: ", runs.iter().map(run).collect::<Vec<_>>().join(", ")),
    }
}

fn finding(first: &AuditFinding, runs: &[(u64, u64)]) -> Vec<String> {
    let AuditFinding { code, severity, expected, found, words, .. } = first;
    let place = place(runs);
    let mut lines = vec![format!("{}[{code}]: {place}{words}", severity.word())];
    if !expected.is_empty() {
        lines.push(format!("  expected: {expected}"));
    }
    if !found.is_empty() {
        lines.push(format!("  found:    {found}"));
    }
    lines
}

fn tail(report: &Report) -> String {
    let of = |s: Severity| report.findings.iter().filter(|f| f.severity == s).count();
    let (errors, warnings) = (of(Severity::Error), of(Severity::Warning));
    format!(
        "{}: {}, {}; keep elsewhere: head {} of {}",
        report.job,
        count(errors, "error"),
        count(warnings, "warning"),
        report.head,
        count(report.entries.len(), "entry")
    )
}

#[cfg(test)]
mod tests {
    use super::{lengthen, place};

    #[track_caller]
    fn check(entries: &[u64], expected: &str) {
        let mut runs = Vec::new();
        entries.iter().for_each(|&entry| lengthen(&mut runs, entry));
        assert_eq!(place(&runs), expected);
    }

    #[test]
    fn a_sound_entry_between_two_bad_ones_is_not_named() {
        check(&[], "");
        check(&[3], "entry 3: ");
        check(&[3, 4, 5], "entries 3 to 5: ");
        check(&[33, 65], "entries 33, 65: ");
        check(&[3, 5, 6, 9], "entries 3, 5 to 6, 9: ");
    }
}
