//! The packet's page: one file that holds everything, made to be printed.
//!
//! [`PacketView`] is what the page says; [`packet_html`] puts it on the page. Style is inlined and
//! named by its hash in the content policy, so that the file works from a mail or a memory stick
//! and nothing foreign can run in it.

mod energy;
mod figures;
mod group;
mod rails;
mod settings;
mod steps;

use std::collections::BTreeMap;

use serde::Serialize;

use crate::packet::model::{
    EnergySource, Exception, Hazard, Instrument, KitItem, Packet, ProcedureFacts, Signal,
    SourceFile,
};

use super::site::Fact;
use super::{PACKET_CSS, SITE_CSS, paths, proof, qr, render, symbol, words};
use crate::packet::kit;
use crate::trade::signs::{self, SafetySign};

pub use figures::{FigureView, ScrewView};
pub use rails::{LaneView, MoveView, ObstacleView, RailView};
pub use settings::{DroppedView, SettingView, WorkingView};
pub use steps::{BlankView, RowView, SignView, StepView, TableView};

/// What a packet's page says that is not in the packet itself.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PacketIssue {
    /// How far the job is, in words: `Issued, nothing signed yet`. May be empty.
    pub state: String,
    /// Name and version of the program.
    pub program: String,
}

/// Everything a packet's page says, computed and worded.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PacketView {
    /// What is outside the packet.
    pub issue: PacketIssue,
    /// Name of the plant.
    pub plant: String,
    /// The plant's own caution; may be empty.
    pub note: String,
    /// The job.
    pub job: JobLines,
    /// The machine.
    pub machine: MachineLines,
    /// Recipe on the machine now, with its revision.
    pub from: RecipeLine,
    /// Recipe wanted, with its revision.
    pub to: RecipeLine,
    /// Procedures with revisions.
    pub procedures: Vec<ProcedureFacts>,
    /// SHA-256 of the packet.
    pub digest: String,
    /// Its first 16 digits.
    pub short_digest: String,
    /// What the QR code says: the packet's address and digest.
    pub link: String,
    /// The QR code, SVG.
    pub qr: String,
    /// Drawings of the safety signs that the page shows, as markup.
    pub symbols: String,
    /// Errors of the check that the plant answers for.
    pub exceptions: Vec<Exception>,
    /// All hazard messages, the gravest first.
    pub hazards: Vec<HazardView>,
    /// What to fetch, by group.
    pub kit: Vec<KitGroup>,
    /// Files the packet was made from.
    pub sources: Vec<SourceFile>,
    /// Energy sources.
    pub energy: Vec<EnergySource>,
    /// What the lockout must state beside them.
    pub lockout: Vec<Fact>,
    /// People under this lockout; empty when the job names no group.
    pub group: Vec<Fact>,
    /// Settings of the recipe.
    pub settings: Vec<SettingView>,
    /// How many of them change or are new.
    pub changing: usize,
    /// Settings that only the old recipe has.
    pub dropped: Vec<DroppedView>,
    /// Figures of web and film.
    pub web: Vec<FigureView>,
    /// Figures of the net contents.
    pub contents: Vec<FigureView>,
    /// Screws with key and torque.
    pub screws: Vec<ScrewView>,
    /// Rails with drawing and moves.
    pub rails: Vec<RailView>,
    /// The steps in order.
    pub steps: Vec<StepView>,
    /// Whether any blank says what is surely within and outside.
    pub guarded: bool,
    /// Planned minutes of all steps that are done; 0 when none says.
    pub minutes: u32,
    /// The role that may accept a reading outside its limits.
    pub accepts_deviation: String,
}

/// The job's lines in the title block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct JobLines {
    /// Identifier.
    pub id: String,
    /// The order.
    pub order: String,
    /// Planned day.
    pub date: String,
    /// Shift; may be empty.
    pub shift: String,
    /// Pieces ordered, in groups of three digits; may be empty.
    pub pieces: String,
    /// Moment of issue, for people.
    pub issued: String,
    /// Who issued it.
    pub issued_by: String,
}

/// The machine's lines in the title block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MachineLines {
    /// Identifier.
    pub id: String,
    /// Name.
    pub name: String,
    /// Kind.
    pub kind: String,
    /// Place.
    pub location: String,
    /// What positions are measured from.
    pub datum: String,
}

/// A recipe's line in the title block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RecipeLine {
    /// Name.
    pub name: String,
    /// Identifier.
    pub id: String,
    /// Revision.
    pub revision: String,
    /// What it contains, in words; empty when it names no allergen.
    pub allergens: String,
}

/// A hazard message as shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HazardView {
    /// Name of its look in the style sheet.
    pub class: String,
    /// Signal word.
    pub word: String,
    /// Whether the alert symbol stands beside the word: never for damage only.
    pub alert: bool,
    /// The hazard.
    pub hazard: String,
    /// The consequence.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
    /// Safety signs beside it.
    pub signs: SignsView,
}

/// Safety signs that stand together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SignsView {
    /// Identifiers, which are also those of their drawings; may be empty.
    pub ids: Vec<&'static str>,
    /// Meanings and identifiers, for those who listen.
    pub names: String,
}

/// Things of one kind to fetch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct KitGroup {
    /// `Tools`, `Change parts` ...
    pub name: String,
    /// The things.
    pub items: Vec<KitLine>,
}

/// A thing to fetch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct KitLine {
    /// What.
    pub item: String,
    /// How many, or where it lies; may be empty.
    pub detail: String,
    /// The sign that tells to wear it; none beside other things.
    pub signs: SignsView,
}

/// What the template gets: the view and the finished pieces of markup around it.
#[derive(Serialize)]
struct Page<'a> {
    p: &'a PacketView,
    style: &'a str,
    style_hash: &'a str,
    alone: bool,
}

/// Makes the packet's page, complete and self-contained.
///
/// `digest` is the SHA-256 of the packet in lower-case hex: it stands in the title block, and its
/// first 16 digits at the foot of each printed page.
pub fn packet_html(packet: &Packet, digest: &str, issue: &PacketIssue) -> String {
    let view = PacketView::new(packet, digest, issue);
    let style = format!("\n{SITE_CSS}\n{PACKET_CSS}\n{}\n", running_foot(&view));
    let style_hash = proof::style_hash(&style);
    render(
        packet.language,
        "packet.html",
        &Page { p: &view, style: &style, style_hash: &style_hash, alone: true },
    )
}

impl PacketView {
    /// Words everything a packet's page says.
    pub fn new(packet: &Packet, digest: &str, issue: &PacketIssue) -> PacketView {
        let instruments = instrument_names(packet);
        let settings: Vec<SettingView> =
            packet.settings.iter().map(|setting| settings::view(setting, &instruments)).collect();
        let steps: Vec<StepView> =
            packet.steps.iter().map(|step| steps::view(step, packet)).collect();
        let minutes = packet.steps.iter().filter(|step| step.stays.is_none());
        PacketView {
            issue: issue.clone(),
            plant: packet.plant.name.clone(),
            note: packet.plant.note.clone(),
            job: job_lines(packet),
            machine: machine_lines(packet),
            from: recipe_line(&packet.from),
            to: recipe_line(&packet.to),
            procedures: packet.procedures.clone(),
            digest: digest.to_owned(),
            short_digest: words::short_digest(digest),
            qr: qr::svg(&link(packet, digest), &packet.language.text("packet-qr", &[])),
            link: link(packet, digest),
            symbols: symbol::definitions(shown_signs(packet)),
            exceptions: packet.exceptions.clone(),
            hazards: grouped_hazards(&packet.hazards),
            kit: kit_groups(&packet.kit),
            sources: packet.sources.clone(),
            energy: packet.energy.clone(),
            lockout: energy::lockout(packet),
            changing: settings.iter().filter(|setting| setting.changes).count(),
            group: group::lines(packet),
            settings,
            dropped: packet.dropped.iter().map(settings::dropped).collect(),
            web: packet.web.iter().map(figures::view).collect(),
            contents: packet.contents.iter().map(figures::view).collect(),
            screws: packet.fasteners.iter().map(figures::screw).collect(),
            rails: packet.rails.iter().map(|rail| rails::view(rail, &instruments)).collect(),
            guarded: steps.iter().any(|step| !step.guards.is_empty()),
            steps,
            minutes: minutes.filter_map(|step| step.minutes).fold(0, u32::saturating_add),
            accepts_deviation: packet.accepts_deviation.clone(),
        }
    }
}

/// The packet's page and, as its fragment, the whole digest: a page that is opened by it can tell
/// whether the sheet in hand is still the one that counts.
pub fn link(packet: &Packet, digest: &str) -> String {
    let page = paths::packet(&packet.job.id);
    match packet.plant.address.as_str() {
        "" => format!("{page}#{digest}"),
        address => format!("{address}/{page}#{digest}"),
    }
}

/// Names of the machine's instruments by identifier.
fn instrument_names(packet: &Packet) -> BTreeMap<String, String> {
    let names = packet.instruments.iter();
    names.map(|Instrument { id, name, .. }| (id.clone(), name.clone())).collect()
}

fn job_lines(packet: &Packet) -> JobLines {
    let job = &packet.job;
    JobLines {
        id: job.id.clone(),
        order: job.order.clone(),
        date: job.date.clone(),
        shift: job.shift.clone(),
        pieces: words::grouped(&job.pieces),
        issued: words::moment(&job.issued),
        issued_by: job.issued_by.clone(),
    }
}

fn machine_lines(packet: &Packet) -> MachineLines {
    let machine = &packet.machine;
    MachineLines {
        id: machine.id.clone(),
        name: machine.name.clone(),
        kind: machine.kind.clone(),
        location: machine.location.clone(),
        datum: machine.datum.clone(),
    }
}

fn recipe_line(recipe: &crate::packet::model::RecipeFacts) -> RecipeLine {
    RecipeLine {
        name: recipe.name.clone(),
        id: recipe.id.clone(),
        revision: recipe.revision.clone(),
        allergens: match recipe.allergens.as_slice() {
            [] => String::new(),
            some => format!("contains {}", some.join(", ")),
        },
    }
}

/// The messages of the whole packet, the gravest first.
fn grouped_hazards(hazards: &[Hazard]) -> Vec<HazardView> {
    let mut sorted: Vec<&Hazard> = hazards.iter().collect();
    sorted.sort_by_key(|hazard| hazard.signal);
    sorted.into_iter().map(|hazard| hazard_view(hazard, |_| true)).collect()
}

/// Words a message; `shown` says which of its signs stand beside it.
fn hazard_view(hazard: &Hazard, shown: impl Fn(&&SafetySign) -> bool) -> HazardView {
    let signs = hazard.signs.iter().filter_map(|id| signs::find(id));
    HazardView {
        class: words::signal_class(hazard.signal).to_owned(),
        word: hazard.signal.word().to_owned(),
        alert: hazard.signal != Signal::Notice,
        hazard: sentence(&hazard.hazard),
        consequence: sentence(&hazard.consequence),
        avoid: sentence(&hazard.avoid),
        signs: signs_view(signs.filter(shown)),
    }
}

fn signs_view(signs: impl Iterator<Item = &'static SafetySign>) -> SignsView {
    let signs: Vec<&SafetySign> = signs.collect();
    let names: Vec<String> = signs.iter().map(|sign| symbol::name(sign)).collect();
    SignsView { ids: signs.iter().map(|sign| sign.id).collect(), names: names.join(", ") }
}

/// Identifiers of all signs on the page.
fn shown_signs(packet: &Packet) -> impl Iterator<Item = &str> {
    let beside = packet.hazards.iter().flat_map(|hazard| &hazard.signs).map(String::as_str);
    beside.chain(packet.kit.iter().filter_map(worn).map(|sign| sign.id))
}

/// The sign that tells to wear a thing of the kit.
fn worn(item: &KitItem) -> Option<&'static SafetySign> {
    signs::for_gear(&item.item).filter(|_| kit::is_protective(&item.group))
}

/// The text with a stop at its end.
fn sentence(text: &str) -> String {
    let text = text.trim();
    match text.chars().last() {
        None | Some('.' | '!' | '?') => text.to_owned(),
        Some(_) => format!("{text}."),
    }
}

/// Kit by group, groups in the order in which they first appear.
fn kit_groups(kit: &[KitItem]) -> Vec<KitGroup> {
    let mut groups: Vec<KitGroup> = Vec::new();
    for item in kit {
        let line = kit_line(item);
        match groups.iter_mut().find(|group| group.name == item.group) {
            Some(group) => group.items.push(line),
            None => groups.push(KitGroup { name: item.group.clone(), items: vec![line] }),
        }
    }
    groups
}

fn kit_line(item: &KitItem) -> KitLine {
    KitLine {
        item: item.item.clone(),
        detail: item.detail.clone(),
        signs: signs_view(worn(item).into_iter()),
    }
}

/// An instrument by name, or by identifier where no name is known.
fn name_of(id: Option<&str>, instruments: &BTreeMap<String, String>) -> String {
    let id = id.unwrap_or("");
    instruments.get(id).map_or(id, String::as_str).to_owned()
}

/// What stands at the foot of each printed page, by CSS page margin boxes.
///
/// Source: CSS Paged Media Level 3, section 5 (margin boxes) and 7 (page counters); from memory.
fn running_foot(view: &PacketView) -> String {
    format!(
        "@page {{\n\
         @bottom-left {{ content: \"{}\"; }}\n\
         @bottom-center {{ content: \"{}\"; }}\n\
         @bottom-right {{ content: \"page \" counter(page) \" of \" counter(pages); }}\n\
         }}",
        css_text(&format!("Packet {}", view.short_digest)),
        css_text(&format!("Job {} on {}", view.job.id, view.machine.id)),
    )
}

/// Text inside a CSS string: what could end it or escape from it is left out.
fn css_text(text: &str) -> String {
    let plain = |c: &char| c.is_alphanumeric() || " .-_".contains(*c);
    text.chars().filter(plain).collect()
}

#[cfg(test)]
mod tests;
