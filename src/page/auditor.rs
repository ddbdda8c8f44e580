//! The report of an audit: one file to read, to print and to sign.
//!
//! [`AuditView`] is what it says, [`audit_html`] puts it on a page in the look of the record page, with
//! its style inside. Must never judge or count.

use std::sync::LazyLock;

use serde::Serialize;

use super::packet::{css_text, style};
use super::site::{Fact, QuestionView, State};
use super::{PAGES_CSS, SITE_CSS, render};
use crate::language::Language;

/// What the report of an audit says.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct AuditView {
    /// The language.
    pub language: Language,
    /// Name of the plant.
    pub plant: String,
    /// When, in words.
    pub moment: String,
    /// The day, in words.
    pub day: String,
    /// In short how it went.
    pub outcome: State,
    /// Who, when, with what.
    pub head: Vec<Fact>,
    /// What was looked at, a sentence each.
    pub plan: Vec<String>,
    /// The records looked at.
    pub chosen: Vec<String>,
    /// Counts.
    pub summary: Vec<Fact>,
    /// Findings by rule: name, word of the weight, findings, records.
    pub rules: Vec<[String; 4]>,
    /// By machine: name, records, entries, errors, warnings.
    pub machines: Vec<[String; 5]>,
    /// The records.
    pub records: Vec<HeadView>,
    /// The logs: machine, leaves, short form of the newest checkpoint.
    pub logs: Vec<[String; 3]>,
    /// Every finding.
    pub findings: Vec<FoundView>,
    /// What counts over the records ask; no findings.
    pub questions: Vec<QuestionView>,
    /// The line of the auditor's key; empty when nobody signs.
    pub signer: String,
    /// The command that checks the signature; empty when nobody signs.
    pub command: String,
}

/// A record as it was found.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct HeadView {
    /// Its name.
    pub name: String,
    /// Its machine.
    pub machine: String,
    /// Its state.
    pub state: State,
    /// How many entries.
    pub entries: String,
    /// Digest of the last entry and its signature.
    pub head: String,
    /// Digest of the packet; may be empty.
    pub packet: String,
}

/// A finding as shown.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct FoundView {
    /// `error`, `warning` or `note`.
    pub severity: &'static str,
    /// The same in the language of the report.
    pub word: String,
    /// Identifier of the rule.
    pub rule: String,
    /// Where.
    pub place: String,
    /// What.
    pub message: String,
}

/// The style of the report, taken apart once.
static SHEETS: LazyLock<[style::Sheet; 2]> =
    LazyLock::new(|| [SITE_CSS, PAGES_CSS].map(style::Sheet::read));

/// The report, complete and self-contained.
pub fn audit_html(view: &AuditView) -> String {
    #[derive(Serialize)]
    struct Page<'a> {
        v: &'a AuditView,
    }
    let page = render(view.language, "audit.html", &Page { v: view });
    let [site, pages] = &*SHEETS;
    style::put(&page, &[site, pages, &style::Sheet::read(&running_foot(view))])
}

/// The foot of each printed sheet: which audit, which sheet of how many.
///
/// Source: CSS Paged Media Level 3, section 5 (margin boxes) and 7 (page counters); from memory.
fn running_foot(view: &AuditView) -> String {
    let audit = [("plant", (&view.plant).into()), ("day", (&view.day).into())];
    let page = view.language.text(
        "forms-foot-page",
        &[("page", "\" counter(page) \"".into()), ("pages", "\" counter(pages) \"".into())],
    );
    let font = "font: 8.5pt Arial, \"Liberation Sans\", Helvetica, sans-serif";
    format!(
        "@page {{\n@bottom-left {{ {font}; content: \"{}\"; }}\n\
         @bottom-right {{ {font}; content: \"{page}\"; }}\n}}",
        css_text(&view.language.text("auditing-foot", &audit)),
    )
}

#[cfg(test)]
mod tests {
    use super::{AuditView, FoundView, HeadView, QuestionView, audit_html};
    use crate::language::Language;

    #[test]
    fn the_report_is_one_file_that_fetches_nothing_and_runs_nothing() {
        for language in Language::ALL {
            let found = FoundView {
                severity: "error",
                message: "<script>alert(1)</script>".to_owned(),
                ..FoundView::default()
            };
            let view = AuditView {
                language,
                plant: "Plant \"A\" }</style>".to_owned(),
                records: vec![HeadView { head: "00ff".to_owned(), ..HeadView::default() }],
                rules: vec![Default::default()],
                machines: vec![Default::default(); 2],
                logs: vec![Default::default()],
                findings: vec![found],
                questions: vec![QuestionView {
                    words: "<script>".to_owned(),
                    means: "It may be so.".to_owned(),
                    ..QuestionView::default()
                }],
                command: "ssh-keygen -Y verify".to_owned(),
                ..AuditView::default()
            };
            let page = audit_html(&view);
            assert!(page.contains("default-src 'none'; style-src 'sha256-"), "{page}");
            for foreign in ["<script", "href=\"http", "src=", "<link", "url(", "style=\""] {
                assert!(!page.contains(foreign), "{foreign}");
            }
            assert_eq!(page.matches("</style>").count(), 1);
            assert!(page.contains("00ff") && page.contains("ssh-keygen -Y verify"));
        }
    }
}
