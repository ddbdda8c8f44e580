//! The pages around the packets: what each one says, as plain data, and the page made of it.
//!
//! The caller fills a view from the plant and the records; nothing here judges or counts for it.
//! Links are paths from the site's root ([`super::paths`]); an empty link is shown as plain text.

mod history;
mod legend;
mod log;
mod placard;
pub mod preview;
mod register;
mod schemas;
mod search;
mod shift;
mod start;
mod tags;
mod uses;

use std::sync::LazyLock;

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{EnergySource, Inspection, Instrument, Packet};

use super::packet::{PacketView, ScrewView, style};
use super::proof::{self, Signature};
use super::strip::has_strips;
use super::{PAGES_CSS, SITE_CSS, markdown, paths, render, words};
pub use history::{
    ChangeoverLine, HistoryLine, HistoryView, MachineHistoryView, PointLine, ProposalView,
    QuestionView, Questions, SeriesLine, SeriesView, history_html, machine_history_html,
};
pub use legend::legend_html;
pub use log::{LogFile, LogView, log_html};
pub use placard::{PlacardView, PlacardZone, placard_html};
pub use register::{ApprovalLine, InspectionLine, RegisterEntry, RegisterView, register_html};
pub use schemas::{SchemaLine, SchemasView, schemas_html};
pub use search::{SearchEntry, SearchGroup, SearchView, search_html};
pub(super) use shift::SHIFT_ALONE;
pub use shift::{
    ShiftJob, ShiftLine, ShiftView, ShiftsView, shift_alone_html, shift_html, shifts_html,
};
pub use start::{JobsView, StartView, in_working_order, jobs_pages, start_html};
pub use tags::{TagView, TagsView, tags_html};
pub use uses::{
    First, UNUSED_SHOWN, USES_SHOWN, UnusedLine, UseSpot, UsedThing, UsesKind, UsesView, uses_pages,
};

/// What every page of a site shares.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Frame {
    /// Language of the site's pages.
    pub language: Language,
    /// Name of the plant.
    pub plant: String,
    /// SHA-256 of the plant's data, shown in the foot.
    pub plant_digest: String,
    /// Name and version of the program.
    pub program: String,
    /// The handbook's first page; empty when it is not part of the site.
    pub handbook: String,
}

/// A text that leads somewhere in the site.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Link {
    /// The text.
    pub text: String,
    /// Path from the site's root; empty for plain text.
    pub href: String,
}

impl Link {
    /// A link to a path of [`super::paths`].
    pub fn new(text: impl Into<String>, href: impl Into<String>) -> Link {
        Link { text: text.into(), href: href.into() }
    }
}

/// A named value.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// Name.
    pub name: String,
    /// Value, in words.
    pub value: String,
}

impl Fact {
    /// A named value.
    pub fn new(name: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { name: name.into(), value: value.into() }
    }
}

/// A text that may be in another language than its page.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Spoken {
    /// The text.
    pub text: String,
    /// BCP 47 tag of its language; empty when it is the page's.
    pub lang: String,
}

/// How good a state is; the word beside it says the same.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Tone {
    /// Not finished, nothing wrong.
    #[default]
    Open,
    /// Finished and right.
    Good,
    /// Finished, or going on, with something a person has to look at.
    Care,
    /// Wrong: not to be relied on.
    Bad,
}

/// The state of a job or a record.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct State {
    /// In a word or three.
    pub word: String,
    /// How good it is.
    pub tone: Tone,
}

/// A finding as shown.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct FindingView {
    /// `error` or `warning`.
    pub severity: String,
    /// Identifier of the rule.
    pub rule: String,
    /// Where: file, line and column, or entry of a record.
    pub place: String,
    /// What.
    pub message: String,
    /// What to do; may be empty.
    pub way_out: String,
}

/// A job in a list.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct JobLine {
    /// Identifier.
    pub id: String,
    /// Planned day, by which jobs are ordered: `2026-11-26`.
    pub date: String,
    /// The same in words.
    pub day: String,
    /// Shift; may be empty.
    pub shift: String,
    /// The page of its shift; empty when there is none.
    pub shift_page: String,
    /// The order.
    pub order: String,
    /// The machine.
    pub machine: Link,
    /// Name of the recipe now on the machine.
    pub from: String,
    /// Name of the recipe wanted.
    pub to: String,
    /// State of its record.
    pub state: State,
    /// The job's page; empty when it could not be made.
    pub page: String,
    /// What is opened or printed for it, the packet first; empty when it could not be made.
    pub papers: Vec<Link>,
    /// The record's page; empty when there is none.
    pub record: String,
    /// Whether it is closed, and nothing is left to do.
    pub done: bool,
    /// Why it has its state, in one line; may be empty.
    pub why: String,
}

/// A machine in a list.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct MachineLine {
    /// Name and page.
    pub link: Link,
    /// Identifier.
    pub id: String,
    /// Kind.
    pub kind: String,
    /// Place.
    pub location: String,
    /// How many jobs are planned or done on it.
    pub jobs: usize,
}

/// The list of machines.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct MachinesView {
    /// Frame.
    pub frame: Frame,
    /// Machines.
    pub machines: Vec<MachineLine>,
}

/// A rail of a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RailLine {
    /// Name.
    pub name: String,
    /// Name of its zone.
    pub zone: String,
    /// Its measures and facts, with units.
    pub facts: Vec<Fact>,
    /// What is fixed on it, and from where to where.
    pub obstacles: Vec<Fact>,
}

/// A guarded zone of a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ZoneLine {
    /// Name.
    pub name: String,
    /// Guard that closes it.
    pub guard: String,
    /// Names of the energy sources that reach into it.
    pub sources: Vec<String>,
    /// Hazards of the place, in words.
    pub hazards: Vec<Spoken>,
}

/// A recipe in a list.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RecipeLine {
    /// Name.
    pub name: String,
    /// Identifier.
    pub id: String,
    /// Revision.
    pub revision: String,
    /// Day of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// Why this revision.
    pub reason: String,
}

/// A setting of the recipes that run on a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SettingLine {
    /// Name.
    pub name: String,
    /// Where it is set; may be empty.
    pub place: String,
    /// What each recipe sets, with its limits as the name; empty where it has no such setting.
    pub values: Vec<Fact>,
}

/// A machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct MachineView {
    /// Frame.
    pub frame: Frame,
    /// Identifier.
    pub id: String,
    /// Name.
    pub name: String,
    /// Kind.
    pub kind: String,
    /// Place.
    pub location: String,
    /// Its placard; empty when there is none.
    pub placard: String,
    /// The last inspection of its lockout; who walked the machine.
    pub inspection: Option<Inspection>,
    /// Inspections of its lockout procedures, when the plant keeps a register.
    pub inspections: Vec<InspectionLine>,
    /// What else its lockout states: stop position, movement under power, who enforces it.
    pub lockout: Vec<Fact>,
    /// What positions are measured from.
    pub datum: String,
    /// Facts used in formulas.
    pub facts: Vec<Fact>,
    /// Rails.
    pub rails: Vec<RailLine>,
    /// What the unwind takes.
    pub unwind: Vec<Fact>,
    /// Screws, with key, torque and wrench.
    pub screws: Vec<ScrewView>,
    /// Zones.
    pub zones: Vec<ZoneLine>,
    /// Energy sources.
    pub energy: Vec<EnergySource>,
    /// Instruments at hand.
    pub instruments: Vec<Instrument>,
    /// Procedures of its changeover, in order.
    pub procedures: Vec<Link>,
    /// Recipes that run on it.
    pub recipes: Vec<RecipeLine>,
    /// Names of those whose settings can be computed: the columns of `settings`.
    pub computed: Vec<String>,
    /// Their settings.
    pub settings: Vec<SettingLine>,
    /// Its jobs, in working order.
    pub jobs: Vec<JobLine>,
    /// How many more it has.
    pub more_jobs: usize,
    /// Its history; empty when it has no record.
    pub history: String,
}

/// A job: its settings with working, its moves and drawings.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct JobView {
    /// Frame.
    pub frame: Frame,
    /// The job's line, with links to packet and record.
    pub line: JobLine,
    /// Its marking strips; empty when no rail has a position.
    pub strip: String,
    /// Its crew plan.
    pub plan: String,
    /// The packet as worded.
    pub packet: PacketView,
}

impl JobView {
    /// The page of a job that has a packet, whose words are found already.
    pub fn new(frame: Frame, line: JobLine, packet: &Packet, words: PacketView) -> JobView {
        let view = words.in_site(packet);
        let strip = if has_strips(packet) { paths::strip(&line.id) } else { String::new() };
        let plan = paths::plan(&line.id);
        JobView { frame, line, strip, plan, packet: view }
    }
}

/// A procedure in a list.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ProcedureLine {
    /// Title and page.
    pub link: Link,
    /// Identifier.
    pub id: String,
    /// Revision.
    pub revision: String,
    /// Day of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// `shipped with the program` or `the plant's own`.
    pub origin: String,
}

/// The list of procedures.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ProceduresView {
    /// Frame.
    pub frame: Frame,
    /// Procedures.
    pub procedures: Vec<ProcedureLine>,
    /// Page of what changed since an earlier state; empty when nothing was compared.
    pub redline: String,
}

/// A hazard of a step: all of it is in one language.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct HazardLine {
    /// Signal word; empty for a hazard that nobody described.
    pub word: String,
    /// What it is and how to avoid it.
    pub text: String,
    /// BCP 47 tag of its language; empty when it is the step's.
    pub lang: String,
}

/// A step of a procedure, before any values are put in. All of it is in the procedure's language.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ProcedureStep {
    /// Title.
    pub title: String,
    /// Markdown as written.
    pub text: String,
    /// Its hazards.
    pub hazards: Vec<HazardLine>,
    /// Its structured facts, in words.
    pub facts: Vec<Fact>,
}

/// A procedure.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct ProcedureView {
    /// Frame.
    pub frame: Frame,
    /// The list's line about it.
    pub line: ProcedureLine,
    /// BCP 47 tag of its texts; empty when they are in the page's language.
    pub lang: String,
    /// What the reader must know of its translation; mostly empty.
    pub flag: String,
    /// The languages it is in, each by its own name.
    pub languages: Vec<Spoken>,
    /// Why this revision.
    pub reason: String,
    /// Which machines it is for, in words; may be empty.
    pub scope: String,
    /// When it is needed, and what it is told; mostly empty.
    pub told: Vec<Fact>,
    /// What it follows.
    pub standards: Vec<String>,
    /// SHA-256 of its file.
    pub sha256: String,
    /// Markdown before the first step: what it is for.
    pub purpose: String,
    /// Steps.
    pub steps: Vec<ProcedureStep>,
    /// Where it is used: machines.
    pub used: Vec<Link>,
    /// Its approvals, where the plant asks for them.
    pub approvals: Vec<Fact>,
    /// Its inspections on machines, when the plant keeps a register.
    pub inspections: Vec<InspectionLine>,
    /// What counts over the records ask its writer.
    pub questions: Questions,
}

/// A reading in a record.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct EntryReading {
    /// What was measured.
    pub label: String,
    /// What was read, with unit.
    pub value: String,
    /// Limits in words; may be empty.
    pub limits: String,
    /// `within`, `outside`, `too close to tell`.
    pub verdict: String,
    /// How good that is.
    pub tone: Tone,
}

/// An entry of a record.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct EntryView {
    /// Number in the record.
    pub number: u64,
    /// When it was signed, RFC 3339.
    pub time: String,
    /// Name of who signed.
    pub person: String,
    /// Principal in `allowed_signers`.
    pub principal: String,
    /// Role.
    pub role: String,
    /// What kind of statement it is: `performed` ...
    pub meaning: String,
    /// The sentence that was signed, as signed; may be empty.
    pub sentence: String,
    /// Number and title of the step; may be empty.
    pub step: String,
    /// Readings.
    pub readings: Vec<EntryReading>,
    /// Number of the entry whose reading this one corrects.
    pub corrects: Option<u64>,
    /// Number of the entry whose reading is accepted.
    pub accepts: Option<u64>,
    /// What the note is, where it is no correction, acceptance or remark; else empty.
    pub head: String,
    /// Reason of the correction or acceptance, else a remark; may be empty.
    pub note: String,
    /// What else was stated, a line each.
    pub more: Vec<String>,
    /// SHA-256 of the entry's file.
    pub digest: String,
    /// Name of the entry's file in the record's folder.
    pub file: String,
    /// Name of the signature's file.
    pub signature: String,
    /// What checking it gave: `signature good` ...
    pub state: State,
}

/// A file that an auditor needs.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct EvidenceFile {
    /// Name in the record's folder.
    pub name: String,
    /// What it is.
    pub what: String,
    /// SHA-256; may be empty.
    pub sha256: String,
}

/// The record of a job.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RecordView {
    /// Frame.
    pub frame: Frame,
    /// The job's line under the name of the record; its state is the record's state.
    pub line: JobLine,
    /// The job.
    pub job: String,
    /// Why it has that state.
    pub why: Vec<String>,
    /// How many more reasons there are.
    pub more: usize,
    /// SHA-256 of the packet the record belongs to.
    pub packet_digest: String,
    /// Namespace of the signatures, `signoff@<domain>`.
    pub namespace: String,
    /// Entries in order.
    pub entries: Vec<EntryView>,
    /// The newest checkpoint of the machine's log, with the log's page; empty when there is none.
    pub log: Link,
    /// The history of the machine; empty when there is none.
    pub history: String,
    /// Files beside the page, in `records/<job>/`.
    pub evidence: Vec<EvidenceFile>,
}

/// A record in the auditor's report.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RecordLine {
    /// The job.
    pub job: JobLine,
    /// How many entries.
    pub entries: usize,
    /// How many steps still want a signature.
    pub missing: usize,
    /// Time of the last entry, RFC 3339; may be empty.
    pub last: String,
}

/// All records: the auditor's report.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct RecordsView {
    /// Frame.
    pub frame: Frame,
    /// Counts and dates of the audit, in words.
    pub summary: Vec<Fact>,
    /// Records.
    pub records: Vec<RecordLine>,
    /// Findings.
    pub findings: Vec<FindingView>,
    /// The page of approvals and inspections; empty when there is none.
    pub register: String,
    /// What the records say of past changeovers; empty when no record does.
    pub history: String,
}

/// What a template of the site gets: the view, and where the page stands.
#[derive(Serialize)]
pub(super) struct Page<'a, V, X> {
    #[serde(skip)]
    language: Language,
    v: &'a V,
    /// From this page to the site's root.
    root: &'static str,
    title: &'a str,
    /// Way from the start page, without the page itself.
    crumbs: Vec<Link>,
    /// The main page this one belongs under, as its path.
    section: &'static str,
    extra: X,
}

impl<'a, V: Serialize> Page<'a, V, ()> {
    pub(super) fn new(frame: &Frame, v: &'a V, title: &'a str, section: &'static str) -> Self {
        let root = if section.contains('/') { "../" } else { "" };
        let language = frame.language;
        Page { language, v, root, title, crumbs: Vec::new(), section, extra: () }
    }
}

impl<'a, V: Serialize, X: Serialize> Page<'a, V, X> {
    /// Below the main page of its section, which has the name of this key.
    pub(super) fn under(mut self, key: &'static str) -> Self {
        self.crumbs.push(Link::new(self.language.word(key), self.section));
        self
    }

    fn with<Y: Serialize>(self, extra: Y) -> Page<'a, V, Y> {
        let Page { language, v, root, title, crumbs, section, .. } = self;
        Page { language, v, root, title, crumbs, section, extra }
    }

    pub(super) fn html(self, template: &str) -> String {
        render(self.language, template, &self)
    }
}

/// A job, for [`paths::job`].
pub fn job_html(view: &JobView) -> String {
    let language = view.frame.language;
    let title = language.text("site-title-job", &[("id", (&view.line.id).into())]);
    Page::new(&view.frame, view, &title, paths::JOBS).under("site-title-jobs").html("job.html")
}

/// All machines, for [`paths::MACHINES`].
pub fn machines_html(view: &MachinesView) -> String {
    let title = view.frame.language.word("frame-machines");
    Page::new(&view.frame, view, title, paths::MACHINES).html("machines.html")
}

/// A machine, for [`paths::machine`].
pub fn machine_html(view: &MachineView) -> String {
    Page::new(&view.frame, view, &view.name, paths::MACHINES)
        .under("frame-machines")
        .html("machine.html")
}

/// All procedures, for [`paths::PROCEDURES`].
pub fn procedures_html(view: &ProceduresView) -> String {
    let title = view.frame.language.word("frame-procedures");
    Page::new(&view.frame, view, title, paths::PROCEDURES).html("procedures.html")
}

/// A procedure, for [`paths::procedure`].
pub fn procedure_html(view: &ProcedureView) -> String {
    let none = std::collections::BTreeMap::new();
    let text = Text {
        purpose: markdown::to_html(&view.purpose, &none, view.frame.language),
        steps: view
            .steps
            .iter()
            .map(|step| markdown::to_html(&step.text, &none, view.frame.language))
            .collect(),
    };
    Page::new(&view.frame, view, &view.line.link.text, paths::PROCEDURES)
        .under("frame-procedures")
        .with(text)
        .html("procedure.html")
}

/// All records, for [`paths::RECORDS`].
pub fn records_html(view: &RecordsView) -> String {
    let language = view.frame.language;
    let last: Vec<String> =
        view.records.iter().map(|line| words::moment(language, &line.last)).collect();
    Page::new(&view.frame, view, language.word("frame-records"), paths::RECORDS)
        .with(last)
        .html("records.html")
}

/// A record, for [`paths::record`]; its files are expected at [`paths::evidence`].
pub fn record_html(view: &RecordView) -> String {
    let title = view.frame.language.text("record-title", &[("id", (&view.line.id).into())]);
    Page::new(&view.frame, view, &title, paths::RECORDS)
        .under("frame-records")
        .with(checks(view, "", |file| paths::evidence(&view.line.id, file)))
        .html("record.html")
}

/// Template of a record's page that is one file.
pub(super) const RECORD_ALONE: &str = "record-alone.html";

/// A record as one file, without a site around it; its files are expected in this folder beside it.
pub fn record_alone_html(view: &RecordView, folder: &str) -> String {
    static SHEETS: LazyLock<[style::Sheet; 2]> =
        LazyLock::new(|| [SITE_CSS, PAGES_CSS].map(style::Sheet::read));
    let title = view.frame.language.text("record-title", &[("id", (&view.line.id).into())]);
    let folder = format!("{folder}/");
    let page = Page::new(&view.frame, view, &title, paths::START)
        .with(checks(view, &folder, |file| format!("{folder}{file}")))
        .html(RECORD_ALONE);
    let [site, pages] = &*SHEETS;
    style::put(&page, &[site, pages])
}

/// Rendered Markdown of a procedure.
#[derive(Serialize)]
struct Text {
    purpose: String,
    steps: Vec<String>,
}

/// What the record page computes from its entries.
#[derive(Serialize)]
struct Checks {
    entries: Vec<EntryCheck>,
    evidence: Vec<String>,
}

#[derive(Serialize)]
struct EntryCheck {
    time: String,
    file: String,
    signature: String,
    digest_command: String,
    verify_command: String,
    chain_command: String,
}

/// `path` leads from the site's root to a file, `folder` from where the commands are given.
fn checks(view: &RecordView, folder: &str, path: impl Fn(&str) -> String) -> Checks {
    let check = |entry: &EntryView| {
        let [file, signature] =
            [&entry.file, &entry.signature].map(|name| format!("{folder}{name}"));
        EntryCheck {
            time: words::moment(view.frame.language, &entry.time),
            file: path(&entry.file),
            signature: path(&entry.signature),
            digest_command: proof::digest_command(&file),
            chain_command: proof::chain_command(&file, &signature),
            verify_command: proof::verify_command(&Signature {
                file: &file,
                signature: &signature,
                principal: &entry.principal,
                namespace: &view.namespace,
                time: &entry.time,
            }),
        }
    };
    Checks {
        entries: view.entries.iter().map(check).collect(),
        evidence: view.evidence.iter().map(|file| path(&file.name)).collect(),
    }
}

#[cfg(test)]
mod tests;
