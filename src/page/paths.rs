//! Where each page stands in a site, from its root: the one place that knows.
//!
//! Every page is at the root or one folder deep, so a link is the page's root (`""` or `"../"`) and a
//! path of these.

use crate::canonical::sha256_hex;

/// The start page.
pub const START: &str = "index.html";
/// All jobs.
pub const JOBS: &str = "jobs/index.html";
/// All machines.
pub const MACHINES: &str = "machines/index.html";
/// All shifts.
pub const SHIFTS: &str = "shifts/index.html";
/// All procedures.
pub const PROCEDURES: &str = "procedures/index.html";
/// Schemas of the files people write.
pub const SCHEMAS: &str = "schemas/index.html";
/// Search over all pages.
pub const SEARCH: &str = "search.html";
/// The signs and parts the pages are made of.
pub const PARTS: &str = "parts.html";
/// Approvals and inspections.
pub const REGISTER: &str = "register/index.html";
/// What changed since an earlier state of the plant.
pub const REDLINE: &str = "redline/index.html";
/// All records: the auditor's report.
pub const RECORDS: &str = "records/index.html";

/// What the records say of past changeovers.
pub const HISTORY: &str = "history/index.html";

/// The first page of the handbook, when it is part of the site.
pub fn handbook() -> String {
    format!("{}/{}", super::handbook::FOLDER, super::handbook::START)
}

/// Where things are used.
pub const USES: &str = "uses.html";

/// A page of the list of things of a kind, from 1.
pub fn uses(kind: &str, number: usize) -> String {
    match number {
        1 => format!("uses-{}.html", segment(kind)),
        _ => format!("uses-{}-{number}.html", segment(kind)),
    }
}

/// Whether a path is one of those.
pub fn is_of_uses(path: &str) -> bool {
    path == USES || path.starts_with("uses-")
}

/// A page of the list of all jobs, from 1.
pub fn jobs_page(number: usize) -> String {
    match number {
        1 => JOBS.to_owned(),
        _ => format!("lists/jobs-{number}.html"),
    }
}

/// What changed in one text.
pub fn redline(anchor: &str) -> String {
    page("redline", anchor)
}

/// Page of a job.
pub fn job(id: &str) -> String {
    page("jobs", id)
}

/// Page of a shift, by its name in links.
pub fn shift(name: &str) -> String {
    page("shifts", name)
}

/// The name of a shift in links: its day, and the shift in plain small letters. Where that is not the
/// whole name, a piece of its digest tells it from others; a job without a shift has the day alone.
pub fn shift_name(date: &str, shift: &str) -> String {
    let plain = |text: &str| -> String {
        let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
        text.chars().take(LONGEST_SHIFT).map(plain).collect()
    };
    let name = match shift {
        "" => plain(date),
        shift => format!("{}-{}", plain(date), plain(shift)),
    };
    let is_whole = name == format!("{date}-{shift}") || (shift.is_empty() && name == date);
    match is_whole {
        true => name,
        false => {
            let digest = sha256_hex(format!("{date} {shift}").as_bytes());
            format!("{name}-{}", digest.get(..8).unwrap_or_default())
        }
    }
}

/// Letters of a shift that stand in links.
const LONGEST_SHIFT: usize = 40;

/// The packet of a job.
pub fn packet(id: &str) -> String {
    page("packets", id)
}

/// Page of a machine.
pub fn machine(id: &str) -> String {
    page("machines", id)
}

/// One step at a time, to fill in at the machine.
pub fn steps(id: &str) -> String {
    page("steps", id)
}

/// The short list of a job's steps, to tick.
pub fn checklist(id: &str) -> String {
    page("checklists", id)
}

/// What to fetch for a job.
pub fn kit(id: &str) -> String {
    page("kits", id)
}

/// The crew's plan of a job.
pub fn plan(id: &str) -> String {
    page("plans", id)
}

/// The lockout of a job: sources, locks, proofs of zero, release.
pub fn lockout(id: &str) -> String {
    page("lockouts", id)
}

/// Settings and moves of a job.
pub fn moves(id: &str) -> String {
    page("moves", id)
}

/// The marking strips of a job's rails, 1:1.
pub fn strip(id: &str) -> String {
    page("strips", id)
}

/// The drawing of one rail of a job, alone.
pub fn drawing(id: &str, rail: &str) -> String {
    format!("drawings/{}/{}.svg", segment(id), segment(rail))
}

/// Tags of a job.
pub fn tags(id: &str) -> String {
    page("tags", id)
}

/// Placard of a machine.
pub fn placard(id: &str) -> String {
    page("placards", id)
}

/// Page of a procedure.
pub fn procedure(id: &str) -> String {
    page("procedures", id)
}

/// Record page of a job.
pub fn record(id: &str) -> String {
    page("records", id)
}

/// A file of a job's record, copied beside its page.
pub fn evidence(job: &str, file: &str) -> String {
    format!("records/{}/{}", segment(job), segment(file))
}

/// The history of a machine.
pub fn history(machine: &str) -> String {
    page("history", machine)
}

/// Charts of a machine's readings in a procedure, when they have pages of their own; from 1. No machine
/// has a point in its name.
pub fn history_charts(machine: &str, procedure: &str, number: usize) -> String {
    match number {
        1 => page("history", &format!("{machine}.{procedure}")),
        _ => page("history", &format!("{machine}.{procedure}.{number}")),
    }
}

/// The machine that a page of the history is about.
pub fn machine_of_history(name: &str) -> &str {
    name.split('.').next().unwrap_or_default()
}

/// A file of the register, copied beside its page.
pub fn register_file(file: &str) -> String {
    format!("register/{}", segment(file))
}

/// Page of a machine's log.
pub fn log(machine: &str) -> String {
    page("logs", machine)
}

/// A file of a machine's log; a slash in its name is one in the path.
pub fn log_file(machine: &str, file: &str) -> String {
    format!("logs/{}/{file}", segment(machine))
}

/// A schema, beside the list of them.
pub fn schema(file: &str) -> String {
    format!("schemas/{}", segment(file))
}

fn page(folder: &str, id: &str) -> String {
    format!("{folder}/{}.html", segment(id))
}

/// One name as a path segment of a URL: RFC 3986 unreserved characters stay, others are encoded.
///
/// Identifiers of a checked plant pass unchanged.
fn segment(name: &str) -> String {
    name.bytes()
        .map(|byte| match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => {
                char::from(byte).to_string()
            }
            other => format!("%{other:02X}"),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{evidence, history, history_charts, job, machine_of_history, shift_name};

    #[test]
    fn shifts_of_a_day_have_a_name_each_in_plain_letters() {
        assert_eq!(shift_name("2026-11-26", "early"), "2026-11-26-early");
        assert_eq!(shift_name("2026-11-26", ""), "2026-11-26");
        let odd = ["Early", "fr\u{fc}h", "a/b", "a b", "../..", "sp\u{e4}t", "<b>", "early "];
        let long = "x".repeat(500);
        let mut names: Vec<String> =
            odd.iter().chain([&&*long]).map(|shift| shift_name("2026-11-26", shift)).collect();
        for name in &names {
            assert!(name.len() < 64 + 16, "{name}");
            assert!(name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-'), "{name}");
        }
        names.sort();
        names.dedup();
        assert_eq!(names.len(), odd.len() + 1);
    }

    #[test]
    fn a_page_of_charts_says_whose_they_are() {
        let first = history_charts("pouch-6", "first-piece", 1);
        assert_eq!(first, "history/pouch-6.first-piece.html");
        let second = history_charts("pouch-6", "first-piece", 2);
        assert_eq!(second, "history/pouch-6.first-piece.2.html");
        for path in [history("pouch-6"), first, second] {
            let name = path.strip_prefix("history/").unwrap();
            assert_eq!(machine_of_history(name), "pouch-6");
        }
    }

    #[test]
    fn identifiers_pass_unchanged() {
        assert_eq!(job("J-2611"), "jobs/J-2611.html");
        assert_eq!(evidence("J-2611", "0001.json.sig"), "records/J-2611/0001.json.sig");
    }

    #[test]
    fn nothing_leaves_its_folder() {
        assert_eq!(job("../a:b"), "jobs/..%2Fa%3Ab.html");
        assert_eq!(evidence("a/b", "c?d#e"), "records/a%2Fb/c%3Fd%23e");
    }
}
