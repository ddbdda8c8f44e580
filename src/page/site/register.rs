//! The register's page: what is approved, which lockout was inspected and when the next time is due,
//! and every signed entry with the commands that check it.
//!
//! Must never ask what day it is: the day of publishing stands in the view, in words.

use serde::Serialize;

use super::start::first;
use super::{Fact, FindingView, Frame, Link, Page, State};
use crate::page::{paths, proof, words};

/// How many texts, inspections and entries the page lists; a plant group has thousands.
const MOST_TEXTS: usize = 200;
const MOST_INSPECTIONS: usize = 200;
const MOST_ENTRIES: usize = 40;

/// The register.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RegisterView {
    /// Frame.
    pub frame: Frame,
    /// The day of publishing, by which an inspection is overdue.
    pub day: String,
    /// Who approves what.
    pub facts: Vec<Fact>,
    /// What packets are made from, where it needs an approval; what lacks one first.
    pub texts: Vec<ApprovalLine>,
    /// Every lockout procedure on each machine; what is due first comes first.
    pub inspections: Vec<InspectionLine>,
    /// The entries, the latest first.
    pub entries: Vec<RegisterEntry>,
    /// What the audit found.
    pub findings: Vec<FindingView>,
    /// What its signatures are made for.
    pub namespace: String,
}

/// A text and its approval.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ApprovalLine {
    /// Name and page.
    pub text: Link,
    /// What it is called in the register.
    pub subject: String,
    /// Its revision.
    pub revision: String,
    /// First digits of the SHA-256 of its file.
    pub digest: String,
    /// Whether it is approved.
    pub state: State,
    /// By whom and when; of another revision when it is not approved; may be empty.
    pub who: String,
}

/// A lockout procedure on a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct InspectionLine {
    /// The procedure.
    pub procedure: Link,
    /// The machine.
    pub machine: Link,
    /// The last inspection: day, inspector, people.
    pub last: String,
    /// What it found, and what was corrected; may be empty.
    pub found: String,
    /// The last day for the next one.
    pub due: String,
    /// Whether that is over on the day of publishing.
    pub state: State,
}

/// An entry.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RegisterEntry {
    /// Number of its file.
    pub number: u64,
    /// When it was signed, RFC 3339; empty when it cannot be read.
    pub at: String,
    /// Who signed.
    pub person: String,
    /// The principal in the list of signers.
    pub principal: String,
    /// The role.
    pub role: String,
    /// What kind of entry it is, in words.
    pub kind: String,
    /// The subject with its revision.
    pub subject: String,
    /// The fixed sentence.
    pub sentence: String,
    /// What else it says, one thing a line.
    pub lines: Vec<String>,
    /// SHA-256 of its bytes.
    pub digest: String,
    /// Whether it counts.
    pub state: State,
}

/// What the page shows of it all.
#[derive(Serialize)]
struct Shown<'a> {
    texts: &'a [ApprovalLine],
    more_texts: usize,
    inspections: &'a [InspectionLine],
    more_inspections: usize,
    entries: Vec<Checked<'a>>,
    more_entries: usize,
}

/// An entry, and what checks it.
#[derive(Serialize)]
struct Checked<'a> {
    says: &'a RegisterEntry,
    check: Check,
}

/// What the page computes from an entry.
#[derive(Serialize)]
struct Check {
    time: String,
    file: Link,
    signature: Link,
    commands: [String; 3],
}

/// The register, for [`paths::REGISTER`]; its files are expected at [`paths::register_file`].
pub fn register_html(view: &RegisterView) -> String {
    let title = view.frame.language.word("register-title");
    let (texts, more_texts) = first(&view.texts, MOST_TEXTS);
    let (inspections, more_inspections) = first(&view.inspections, MOST_INSPECTIONS);
    let (entries, more_entries) = first(&view.entries, MOST_ENTRIES);
    let checked = |says| Checked { says, check: check(view, says) };
    let entries = entries.iter().map(checked).collect();
    let shown = Shown { texts, more_texts, inspections, more_inspections, entries, more_entries };
    Page::new(&view.frame, view, title, paths::REGISTER).with(shown).html("register.html")
}

fn check(view: &RegisterView, entry: &RegisterEntry) -> Check {
    let file = format!("{:06}.json", entry.number);
    let signature = format!("{file}.sig");
    let commands = [
        proof::digest_command(&file),
        proof::verify_command(&proof::Signature {
            file: &file,
            signature: &signature,
            principal: &entry.principal,
            namespace: &view.namespace,
            time: &entry.at,
        }),
        proof::chain_command(&file, &signature),
    ];
    let link = |name: String| Link { href: paths::register_file(&name), text: name };
    let time = words::moment(view.frame.language, &entry.at);
    Check { time, file: link(file), signature: link(signature), commands }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Language;
    use crate::page::site::Tone;

    fn view(language: Language) -> RegisterView {
        let state = State { word: "overdue".into(), tone: Tone::Care };
        RegisterView {
            frame: Frame { language, ..Frame::default() },
            day: "26 November 2026".into(),
            texts: vec![ApprovalLine { subject: "recipe:x".into(), ..Default::default() }],
            inspections: vec![InspectionLine { state: state.clone(), ..Default::default() }],
            entries: vec![RegisterEntry {
                number: 7,
                at: "2026-11-02T08:00:00+01:00".into(),
                principal: "a@b".into(),
                lines: vec!["<b>Two locks</b>".into()],
                state,
                ..Default::default()
            }],
            namespace: "register@plant.example".into(),
            ..Default::default()
        }
    }

    #[test]
    fn each_entry_has_its_files_and_the_commands_that_check_it() {
        let page = register_html(&view(Language::English));
        for piece in [
            "\"../register/000007.json\"",
            "\"../register/000007.json.sig\"",
            "sha256sum 000007.json\n",
            "-n register@plant.example -s 000007.json.sig -Overify-time=20261102070000Z",
            "&lt;b&gt;Two locks",
            "26 November 2026",
        ] {
            assert!(page.contains(piece), "{piece} is not in {page}");
        }
    }

    #[test]
    fn thousands_of_entries_make_no_huge_page() {
        let mut all = view(Language::English);
        all.entries = vec![all.entries[0].clone(); 5000];
        all.texts = vec![all.texts[0].clone(); 5000];
        all.inspections = vec![all.inspections[0].clone(); 5000];
        let page = register_html(&all);
        assert!(page.len() < 250_000, "{}", page.len());
        for more in ["4800 more: ", "4960 earlier entries"] {
            assert!(page.contains(more), "{more}");
        }
    }

    #[test]
    fn the_page_is_made_in_every_language_and_when_empty() {
        for language in Language::ALL {
            assert!(register_html(&view(language)).contains("000007.json"));
            let empty = RegisterView {
                frame: Frame { language, ..Frame::default() },
                ..Default::default()
            };
            assert!(!register_html(&empty).contains("<table"), "{}", language.tag());
        }
    }
}
