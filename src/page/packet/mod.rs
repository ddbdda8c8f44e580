//! The packet's page: one file that holds everything, made to be printed.
//!
//! [`PacketView`] is what the page says; [`packet_html`] puts it on the page. Style is inlined and
//! named by its hash in the content policy, so that the file works from a mail or a memory stick
//! and nothing foreign can run in it.

mod energy;
mod figures;
mod group;
pub(crate) mod order;
mod rails;
mod settings;
mod steps;
pub(super) mod style;

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{
    Approval, EnergySource, Exception, Hazard, HotPart, Instrument, KitItem, NOBODY, Packet,
    ProcedureFacts, RecipeFacts, Signal, SourceFile, in_brackets,
};

use super::kit::item_line;
use super::site::Fact;
use super::{PACKET_CSS, SITE_CSS, paths, qr, render, symbol, words};
use crate::packet::kit;
use crate::trade::signs::{self, SafetySign};

pub use figures::{FigureView, ScrewView, screw};
pub use order::{ConsideredView, OrderView};
pub use rails::{LaneView, MoveView, ObstacleView, RailView};
pub use settings::{DroppedView, SettingView, WorkingView};
pub use steps::{BlankView, PartView, RowView, SignView, StepView, TableView};

/// What a packet's page says that is not in the packet itself.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PacketIssue {
    /// How far the job is, in words: `Issued, nothing signed yet`. May be empty.
    pub state: String,
    /// Name and version of the program.
    pub program: String,
    /// Whether the plant's files have changed since the packet was signed.
    pub is_outdated: bool,
    /// Short form of the newest checkpoint of the machine's log; may be empty.
    pub checkpoint: String,
}

/// Everything a packet's page says, computed and worded.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PacketView {
    /// What is outside the packet.
    pub issue: PacketIssue,
    /// Words that stand across each sheet: draft, outdated; none on most packets.
    pub stamps: Vec<&'static str>,
    /// The same as sentences, for the head of the page.
    pub cautions: Vec<String>,
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
    pub procedures: Vec<TitleLine>,
    /// SHA-256 of the packet.
    pub digest: String,
    /// Its first 16 digits.
    pub short_digest: String,
    /// The packet's address, without the digest.
    pub address: String,
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
    /// Who approved how many of them, where the plant asks for that.
    pub approvers: Vec<String>,
    /// Who approved what of them.
    pub approvals: Vec<Fact>,
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
    /// The procedures in order, each with what brought it; empty in older packets.
    pub order: Vec<OrderView>,
    /// What was considered and is not needed.
    pub considered: Vec<ConsideredView>,
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

/// A procedure's line in the title block.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TitleLine {
    /// Title.
    pub title: String,
    /// BCP 47 tag of its texts; empty when they are in the packet's language.
    pub lang: String,
    /// Revision.
    pub revision: String,
    /// What the reader must know of its translation; mostly empty.
    pub flag: String,
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
    /// BCP 47 tag of its texts; empty when they are in the packet's language.
    pub lang: String,
    /// Whether an earlier step of the same procedure has said it in full.
    pub brief: bool,
    /// Safety signs beside it.
    pub signs: SignsView,
}

/// Safety signs that stand together.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
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
    /// How many, until when it is calibrated, where it lies; may be empty.
    pub detail: String,
    /// The sign that tells to wear it; none beside other things.
    pub signs: SignsView,
}

/// What the template gets.
#[derive(Serialize)]
struct Page<'a> {
    p: &'a PacketView,
}

/// Makes the packet's page, complete and self-contained.
///
/// `digest` is the SHA-256 of the packet in lower-case hex: it stands in the title block, and its
/// first 16 digits at the foot of each printed page.
pub fn packet_html(packet: &Packet, digest: &str, issue: &PacketIssue) -> String {
    PacketView::new(packet, digest, issue).html(packet.language)
}

/// The style sheets of every packet, taken apart once.
static SHEETS: LazyLock<[style::Sheet; 2]> =
    LazyLock::new(|| [SITE_CSS, PACKET_CSS].map(style::Sheet::read));

impl PacketView {
    /// The packet's page from its words, which are in this language.
    pub fn html(&self, language: Language) -> String {
        let page = render(language, "packet.html", &Page { p: self });
        let [site, packet] = &*SHEETS;
        let foot = style::Sheet::read(&running_foot(self, language));
        style::put(&page, &[site, packet, &foot])
    }

    /// Words everything a packet's page says, in the packet's language.
    pub fn new(packet: &Packet, digest: &str, issue: &PacketIssue) -> PacketView {
        let language = packet.language;
        let instruments = instrument_names(packet);
        let settings = packet.settings.iter();
        let settings: Vec<SettingView> =
            settings.map(|setting| settings::view(setting, &instruments, language)).collect();
        let steps = steps::views(packet);
        let minutes = packet.steps.iter().filter(|step| step.stays.is_none());
        let link = link(packet, digest);
        PacketView {
            issue: issue.clone(),
            stamps: stamps(packet, issue, language),
            cautions: cautions(packet, issue, language),
            plant: packet.plant.name.clone(),
            note: packet.plant.note.clone(),
            job: job_lines(packet, language),
            machine: machine_lines(packet),
            from: recipe_line(&packet.from, language),
            to: recipe_line(&packet.to, language),
            procedures: packet.procedures.iter().map(|one| title_line(one, language)).collect(),
            digest: digest.to_owned(),
            short_digest: words::short_digest(digest),
            qr: qr::svg(&link, language.word("packet-qr")),
            address: link.split('#').next().unwrap_or_default().to_owned(),
            link,
            symbols: symbol::definitions(shown_signs(packet)),
            exceptions: packet.exceptions.iter().map(|one| exception(one, language)).collect(),
            hazards: grouped_hazards(&packet.hazards, language),
            kit: kit_groups(&packet.kit, language),
            sources: packet.sources.clone(),
            approvers: approvers(&packet.approvals, language),
            approvals: packet.approvals.iter().map(|one| approval(one, language)).collect(),
            energy: packet.energy.iter().map(|source| energy_line(source, language)).collect(),
            lockout: energy::lockout(packet, language),
            changing: settings.iter().filter(|setting| setting.changes).count(),
            group: group::lines(packet, language),
            settings,
            dropped: packet.dropped.iter().map(|one| settings::dropped(one, language)).collect(),
            web: packet.web.iter().map(|figure| figures::view(figure, language)).collect(),
            contents: packet.contents.iter().map(|one| figures::view(one, language)).collect(),
            screws: packet.fasteners.iter().map(|one| figures::screw(one, language)).collect(),
            rails: packet
                .rails
                .iter()
                .map(|rail| rails::view(rail, &instruments, language))
                .collect(),
            guarded: steps.iter().any(|step| !step.guards.is_empty()),
            steps,
            order: order::order(packet),
            considered: order::considered(packet),
            minutes: minutes.filter_map(|step| step.minutes).fold(0, u32::saturating_add),
            accepts_deviation: accepts(packet),
        }
    }

    /// For a page of the site, one folder deep: each drawing leads to its file.
    pub fn in_site(mut self, packet: &Packet) -> PacketView {
        for (view, rail) in self.rails.iter_mut().zip(&packet.rails) {
            if !view.drawing.is_empty() {
                view.alone = format!("../{}", paths::drawing(&packet.job.id, &rail.id));
            }
        }
        self
    }
}

/// What stands across each sheet.
pub(super) fn stamps(
    packet: &Packet,
    issue: &PacketIssue,
    language: Language,
) -> Vec<&'static str> {
    let stamps = [
        (!packet.drafts.is_empty(), language.word("packet-mark-draft")),
        (issue.is_outdated, language.word("packet-mark-outdated")),
    ];
    stamps.into_iter().filter(|(holds, _)| *holds).map(|(_, word)| word).collect()
}

/// The same as sentences that say what to do.
pub(super) fn cautions(packet: &Packet, issue: &PacketIssue, language: Language) -> Vec<String> {
    let draft = (!packet.drafts.is_empty())
        .then(|| language.text("packet-is-draft", &[("files", packet.drafts.join(", ").into())]));
    let outdated = issue.is_outdated.then(|| {
        language.text("packet-is-outdated", &[("issuer", (&packet.job.issued_by).into())])
    });
    draft.into_iter().chain(outdated).collect()
}

/// Who approved, with how many texts, in the order in which they first did.
fn approvers(approvals: &[Approval], language: Language) -> Vec<String> {
    let mut counts: Vec<(&str, usize)> = Vec::new();
    for one in approvals {
        match counts.iter_mut().find(|(by, _)| *by == one.by) {
            Some((_, count)) => *count += 1,
            None => counts.push((&one.by, 1)),
        }
    }
    let said = counts.into_iter().map(|(by, count)| {
        language.text("register-approver", &[("name", by.into()), ("count", count.into())])
    });
    said.collect()
}

/// Who approved a text, and when.
fn approval(own: &Approval, language: Language) -> Fact {
    let parts = [
        ("name", (&own.by).into()),
        ("at", words::moment(language, &own.at).into()),
        ("revision", (&own.revision).into()),
        ("entry", own.entry.to_string().into()),
    ];
    Fact::new(&own.subject, language.text("register-by", &parts))
}

/// An exception with its days in words.
fn exception(exception: &Exception, language: Language) -> Exception {
    Exception {
        date: words::date(language, &exception.date),
        until: words::date(language, &exception.until),
        ..exception.clone()
    }
}

/// A source of energy with its numbers as the language writes them.
pub fn energy_line(source: &EnergySource, language: Language) -> EnergySource {
    let hot = |part: &HotPart| HotPart {
        lasts: words::value(language, &part.lasts),
        threshold: words::value(language, &part.threshold),
        ..part.clone()
    };
    EnergySource {
        wait: words::value(language, &source.wait),
        hot_parts: source.hot_parts.iter().map(hot).collect(),
        ..source.clone()
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

fn job_lines(packet: &Packet, language: Language) -> JobLines {
    let job = &packet.job;
    JobLines {
        id: job.id.clone(),
        order: job.order.clone(),
        date: words::date(language, &job.date),
        shift: job.shift.clone(),
        pieces: words::grouped(&job.pieces),
        issued: words::moment(language, &job.issued),
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

fn recipe_line(recipe: &RecipeFacts, language: Language) -> RecipeLine {
    RecipeLine {
        name: recipe.name.clone(),
        id: recipe.id.clone(),
        revision: recipe.revision.clone(),
        allergens: match recipe.allergens.as_slice() {
            [] => String::new(),
            some => language.text("packet-contains", &[("allergens", some.join(", ").into())]),
        },
    }
}

fn title_line(facts: &ProcedureFacts, language: Language) -> TitleLine {
    TitleLine {
        title: facts.title.clone(),
        lang: words::lang(facts.language, language),
        revision: facts.revision.clone(),
        flag: facts.flag.clone(),
    }
}

/// The messages of the whole packet, the gravest first.
fn grouped_hazards(hazards: &[Hazard], language: Language) -> Vec<HazardView> {
    let mut sorted: Vec<&Hazard> = hazards.iter().collect();
    sorted.sort_by_key(|hazard| hazard.signal);
    sorted.into_iter().map(|hazard| hazard_view(hazard, |_| true, language)).collect()
}

/// Words a message of a packet in `language`, all of it in its own; `shown` says which of its signs
/// stand beside it.
fn hazard_view(
    hazard: &Hazard,
    shown: impl Fn(&&SafetySign) -> bool,
    language: Language,
) -> HazardView {
    let signs = hazard.signs.iter().filter_map(|id| signs::find(id));
    let own = hazard.language.unwrap_or(language);
    HazardView {
        class: words::signal_class(hazard.signal).to_owned(),
        word: words::signal(own, hazard.signal).to_owned(),
        alert: hazard.signal != Signal::Notice,
        hazard: sentence(&hazard.hazard),
        consequence: sentence(&hazard.consequence),
        avoid: sentence(&hazard.avoid),
        lang: words::lang(hazard.language, language),
        brief: false,
        signs: signs_view(signs.filter(shown), own),
    }
}

fn signs_view(signs: impl Iterator<Item = &'static SafetySign>, language: Language) -> SignsView {
    let signs: Vec<&SafetySign> = signs.collect();
    let names: Vec<String> = signs.iter().map(|sign| symbol::name(sign, language)).collect();
    SignsView { ids: signs.iter().map(|sign| sign.id).collect(), names: names.join(", ") }
}

/// The sign that tells to wear a thing.
pub(super) fn gear_sign(item: &str, language: Language) -> SignsView {
    signs_view(signs::for_gear(item).into_iter(), language)
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
fn kit_groups(kit: &[KitItem], language: Language) -> Vec<KitGroup> {
    let mut groups: Vec<KitGroup> = Vec::new();
    for item in kit {
        let line = kit_line(item, language);
        match groups.iter_mut().find(|group| group.name == item.group) {
            Some(group) => group.items.push(line),
            None => groups.push(KitGroup { name: item.group.clone(), items: vec![line] }),
        }
    }
    groups
}

fn kit_line(item: &KitItem, language: Language) -> KitLine {
    let detail = [item.detail.as_str(), &item.place];
    let detail: Vec<&str> = detail.into_iter().filter(|text| !text.is_empty()).collect();
    KitLine {
        item: item_line(language, item),
        detail: detail.join("; "),
        signs: signs_view(worn(item).into_iter(), language),
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
fn running_foot(view: &PacketView, language: Language) -> String {
    let parts = [
        ("job", (&view.job.id).into()),
        ("machine", (&view.machine.id).into()),
        ("from", (&view.from.id).into()),
        ("was", (&view.from.revision).into()),
        ("to", (&view.to.id).into()),
        ("now", (&view.to.revision).into()),
    ];
    let digest = [("digest", (&view.short_digest).into())];
    format!(
        "@page {{\n\
         @bottom-left {{ content: \"{}\"; }}\n\
         @bottom-center {{ content: \"{}\"; }}\n\
         @bottom-right {{ content: \"{} \" counter(page) \" {} \" counter(pages); }}\n\
         }}",
        css_text(&language.text("packet-foot-packet", &digest)),
        css_text(&language.text("packet-foot-job", &parts)),
        language.word("packet-foot-page"),
        language.word("packet-foot-of"),
    )
}

/// Text inside a CSS string: what could end it or escape from it is left out.
pub(super) fn css_text(text: &str) -> String {
    let plain = |c: &char| c.is_alphanumeric() || " .,:-_".contains(*c);
    text.chars().filter(plain).collect()
}

/// The role that accepts deviations, with the procedures in which another one does.
fn accepts(packet: &Packet) -> String {
    let other = packet.procedures.iter().filter_map(|procedure| {
        let role = packet.accepted_by.get(&procedure.id).filter(|role| *role != NOBODY)?;
        let parts = [("role", role.into()), ("procedure", (&procedure.title).into())];
        Some(packet.language.text("entries-accepts-in", &parts))
    });
    let other: Vec<String> = other.collect();
    in_brackets(packet.accepts_deviation.clone(), &other.join("; "))
}

#[cfg(test)]
mod tests;
