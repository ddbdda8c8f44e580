//! A report as lines for people.

use super::{AuditFinding, AuditedEntry, Report, Severity, StatedReading, ToldFinding};
use crate::language::{Language, Words};
use crate::record::entry::shown;
use crate::record::state::{State, of_row};

/// The report as plain text, one line feed after each line.
///
/// ```text
/// J-2041: released with an accepted deviation, 13 entries, packet 5f1c...
/// error[signature-bad]: entry 5: its signature does not fit the signed bytes
///   expected: ...
///   found:    ...
/// ```
pub fn render(report: &Report, language: Language) -> String {
    lines(report, language).into_iter().map(|line| line + "\n").collect()
}

/// The lines of [`render`].
pub fn lines(report: &Report, language: Language) -> Vec<String> {
    let mut lines = vec![head(report, language)];
    lines.extend(finding_lines(&report.findings, language));
    lines.push(tail(report, language));
    lines
}

/// The lines of findings alone.
pub(crate) fn finding_lines(findings: &[AuditFinding], language: Language) -> Vec<String> {
    let groups = grouped(findings).into_iter();
    groups.flat_map(|(first, runs)| finding(first, &runs, language)).collect()
}

/// One line an entry: number, time, who, what, and whether it holds.
pub fn entry_line(entry: &AuditedEntry, language: Language) -> String {
    let mark = language.word(if entry.sound { "audit-sound" } else { "audit-bad" });
    let number = entry.number;
    let Some(says) = &entry.says else {
        let unreadable = language.word("audit-unreadable");
        return format!("{mark:<3} {number:>6}  {unreadable}  sha256 {}", entry.digest);
    };
    let what = match &says.reading {
        Some(reading) => reading_words(reading, language),
        None => {
            let kind = says.kind.words().shown(language);
            format!("{} {kind}", of_row(&says.step, says.row.as_deref()))
        }
    };
    let note = says.note.as_deref().map(|note| format!("; {note}")).unwrap_or_default();
    let name = if entry.sound { says.name.clone() } else { shown(&says.name) };
    format!("{mark:<3} {number:>6}  {}  {name} ({})  {what}{note}", says.at, says.role)
}

fn reading_words(reading: &StatedReading, language: Language) -> String {
    let StatedReading { blank, value, unit, verdict, limits } = reading;
    let limits = match limits.is_empty() {
        true => String::new(),
        false => format!(", {} {limits}", language.word("audit-limits")),
    };
    format!("{blank} = {value} {unit} ({}){limits}", verdict.words().shown(language))
}

fn head(report: &Report, language: Language) -> String {
    let state = report.state.map_or(Words::of("audit-state-unknown"), State::told);
    let packet = report.packet.as_deref().map_or(Words::of("audit-no-packet"), Words::from);
    let parts = [
        ("job", (&report.job).into()),
        ("state", state.into()),
        ("count", report.count.into()),
        ("packet", packet.into()),
    ];
    language.text("audit-head", &parts)
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
fn place(runs: &[(u64, u64)], language: Language) -> String {
    let run = |&(from, to): &(u64, u64)| match from == to {
        true => from.to_string(),
        false => {
            let parts = [("low", from.to_string().into()), ("high", to.to_string().into())];
            language.text("range-from-to", &parts)
        }
    };
    let shown = runs.iter().map(run).collect::<Vec<_>>().join(", ");
    match runs {
        [] => String::new(),
        [(from, to)] if from == to => {
            language.text("audit-entry", &[("entry", shown.into())]) + ": "
        }
        _ => language.text("audit-entries", &[("entries", shown.into())]) + ": ",
    }
}

fn finding(first: &AuditFinding, runs: &[(u64, u64)], language: Language) -> Vec<String> {
    let ToldFinding { code, expected, found, words, .. } = first.told(language);
    let place = place(runs, language);
    let severity = first.severity.words().shown(language);
    let mut lines = vec![format!("{severity}[{code}]: {place}{words}")];
    for (head, words) in [("audit-expected", expected), ("audit-found", found)] {
        if !words.is_empty() {
            lines.push(format!("  {:<9} {words}", language.text(head, &[]) + ":"));
        }
    }
    lines
}

fn tail(report: &Report, language: Language) -> String {
    let parts = [
        ("job", (&report.job).into()),
        ("errors", report.findings_of(Severity::Error).into()),
        ("warnings", report.findings_of(Severity::Warning).into()),
        ("head", (&report.head).into()),
        ("count", report.count.into()),
    ];
    language.text("audit-tail", &parts)
}

#[cfg(test)]
mod tests {
    use super::{lengthen, place};
    use crate::language::Language;

    #[track_caller]
    fn check(entries: &[u64], expected: &str) {
        let mut runs = Vec::new();
        entries.iter().for_each(|&entry| lengthen(&mut runs, entry));
        assert_eq!(place(&runs, Language::English), expected);
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
