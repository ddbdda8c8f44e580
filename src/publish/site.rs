//! From a plant, its packets and its records to the files of a site. Pure: no file, no clock.
//!
//! Only fills views; [`crate::page`] makes the pages. Must never judge a record itself: states and
//! findings come from [`crate::audit`].

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use chrono::NaiveDate;
use rayon::prelude::*;

use super::Tree;
use super::logs::{self, SiteLog};
use super::shift::{self, Known};
use super::{history, lines, plans, register, uses};
use crate::audit::Report;
use crate::canonical::{line, sha256_hex};
use crate::finding::show::{Located, Texts};
use crate::history::drift::Question;
use crate::history::model::History;
use crate::language::Language;
use crate::packet::{Due, Packet, Packets, Prepared, Shift, shifts};
use crate::page::form::Form;
use crate::page::packet::{PacketIssue, PacketView, packet_html};
use crate::page::plan::plan_html;
use crate::page::redline::{RedlineView, redline_html, redline_text_pages};
use crate::page::site::{
    Fact, Frame, InspectionLine, JobLine, JobView, JobsView, Link, MachineView, MachinesView,
    ProcedureView, ProceduresView, RecordLine, RecordsView, RegisterView, SchemaLine, SchemasView,
    SearchEntry, SearchGroup, SearchView, ShiftsView, StartView, TagsView, job_html, jobs_pages,
    legend_html, machine_html, machines_html, placard_html, procedure_html, procedures_html,
    record_alone_html, record_html, records_html, register_html, schemas_html, search_html,
    shift_html, shifts_html, start_html, tags_html, uses_pages,
};
use crate::page::steps::{Desk, StepsView, steps_html};
use crate::page::strip::{has_strips, strip_html};
use crate::page::{assets, drawing, paths};
use crate::plant::load::Plant;
use crate::plant::machine::Machine;
use crate::plant::schema;
use crate::record::entry::NO_PREVIOUS;
use crate::record::state::State;
use crate::record::store::RawRecord;
use crate::record::{job_of, record_name};

/// Name and version of the program, for the foot of pages.
pub const PROGRAM: &str = concat!("witnessmark ", env!("CARGO_PKG_VERSION"));

/// Everything a site is made from.
#[derive(Debug)]
pub struct Site<'a> {
    /// The plant understood.
    pub prepared: &'a Prepared<'a>,
    /// What its files give today, by job.
    pub packets: Packets,
    /// Records by name.
    pub records: BTreeMap<String, Recorded>,
    /// Logs by machine.
    pub logs: BTreeMap<String, SiteLog>,
    /// Texts of the files, for the lines things stand in.
    pub texts: &'a Texts,
    /// Warnings; a site with errors is not made.
    pub findings: Vec<Located<'a>>,
    /// The list of allowed signers, copied beside each record.
    pub allowed_signers: Option<&'a str>,
    /// The day of publishing: by it an inspection is overdue, and nothing else.
    pub day: NaiveDate,
    /// What changed since an earlier state of the plant, when it was compared with one.
    pub redline: Option<RedlineView>,
    /// Whether the handbook is put beside it.
    pub handbook: bool,
    /// What the records say of past changeovers.
    pub history: History,
    /// What counts over the records ask.
    pub questions: Vec<Question>,
}

impl Site<'_> {
    /// The newest checkpoint of a machine's log, in short; empty when there is none.
    fn checkpoint(&self, machine: &str) -> String {
        self.logs.get(machine).map(|log| log.short().to_owned()).unwrap_or_default()
    }

    /// The last record of a job, with its name.
    fn last(&self, job: &str) -> Option<(String, &Recorded)> {
        let named = |number| {
            let name = record_name(job, number);
            self.records.get(&name).map(|record| (name, record))
        };
        (1..).map_while(named).last()
    }

    /// The record that a job goes on with; none before the first sign-off on its packet.
    pub(super) fn record_of(&self, job: &str) -> Option<&Recorded> {
        let (_, record) = self.last(job)?;
        (record.report.state != Some(State::Superseded)).then_some(record)
    }
}

/// The packet that was signed, when it can be read.
pub(super) fn signed_packet(record: &Recorded) -> Option<Packet> {
    serde_json::from_slice(record.raw.packet.as_deref()?).ok()
}

/// A record's bytes and what the audit says of them.
#[derive(Debug, Clone)]
pub struct Recorded {
    /// The bytes.
    pub raw: RawRecord,
    /// What the audit found.
    pub report: Report,
}

/// The packet a job goes by: what people signed, once somebody has signed.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The packet.
    pub packet: Packet,
    /// Its digest.
    pub digest: String,
    /// How far the job is, in words.
    pub state: String,
    /// Whether the plant's files have changed since it was signed.
    pub is_outdated: bool,
    /// The newest checkpoint of its machine's log, in short; may be empty.
    pub checkpoint: String,
}

/// The packet a job goes by: the frozen one when there is a readable one, else today's.
pub fn sheet(today: Packet, digest: String, frozen: Option<&[u8]>) -> Sheet {
    let language = today.language;
    match frozen.and_then(signed) {
        Some((packet, signed)) => {
            let is_outdated = signed != digest;
            {
                let (state, checkpoint) = (String::new(), String::new());
                Sheet { packet, digest: signed, state, is_outdated, checkpoint }
            }
        }
        None => Sheet {
            packet: today,
            digest,
            state: match frozen {
                None => language.word("packet-nothing-signed"),
                Some(_) => language.word("packet-unreadable"),
            }
            .to_owned(),
            is_outdated: false,
            checkpoint: String::new(),
        },
    }
}

/// The packet of a record and its digest; none when its bytes are no packet, or not in its one form.
pub fn signed(bytes: &[u8]) -> Option<(Packet, String)> {
    let packet: Packet = serde_json::from_slice(bytes).ok()?;
    (line(&packet).ok()?.as_slice() == bytes).then(|| (packet, sha256_hex(bytes)))
}

/// The page of a packet.
pub fn packet_page(sheet: &Sheet) -> String {
    packet_html(&sheet.packet, &sheet.digest, &issue(sheet))
}

/// A compact form of a packet.
pub fn form_page(sheet: &Sheet, form: Form) -> String {
    form.html(&sheet.packet, &PacketView::new(&sheet.packet, &sheet.digest, &issue(sheet)))
}

/// The marking strips of a packet's rails.
pub fn strip_page(sheet: &Sheet) -> String {
    strip_html(&sheet.packet, &sheet.digest, &issue(sheet))
}

/// The page of a record as one file, by its frozen packet; the record's files lie in `folder` beside it.
pub fn record_page(sheet: &Sheet, record: &Recorded, folder: &str) -> String {
    let Sheet { packet, .. } = sheet;
    let frame = Frame {
        language: packet.language,
        plant: packet.plant.name.clone(),
        plant_digest: String::new(),
        program: PROGRAM.to_owned(),
        handbook: String::new(),
    };
    let line = lines::line_of(packet, &record.report);
    let namespace = crate::record::namespace(&packet.plant.domain);
    let view = lines::record(frame, line, record, Some(packet), namespace, None);
    record_alone_html(&view, folder)
}

fn issue(sheet: &Sheet) -> PacketIssue {
    PacketIssue {
        state: sheet.state.clone(),
        program: PROGRAM.to_owned(),
        is_outdated: sheet.is_outdated,
        checkpoint: sheet.checkpoint.clone(),
    }
}

/// A part of a site, made in one go.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Everything printed or opened for a job.
    Job(String),
    /// The start page and the lists of jobs.
    Lists,
    /// A machine and its placard.
    Machine(String),
    /// A shift, by its name in links.
    Shift(String),
    /// The list of shifts.
    Shifts,
    /// The list of machines.
    Machines,
    /// A procedure.
    Procedure(String),
    /// The list of procedures.
    Procedures,
    /// A record with its files.
    Record(String),
    /// The list of records, and the logs.
    Records,
    /// What the records say of past changeovers.
    Histories,
    /// The same of one machine.
    History(String),
    /// The schemas of the files people write.
    Schemas,
    /// What changed since an earlier state.
    Redline,
    /// Approvals and inspections, with their files.
    Register,
    /// What is used where, and what nowhere.
    Uses,
    /// Search.
    Search,
    /// The signs and parts of pages.
    Parts,
    /// Style sheets and scripts.
    Assets,
    /// What says that a folder is a site.
    Mark,
}

impl Part {
    /// The part that a file would be in, if it is in a site at all.
    pub fn of(path: &str) -> Option<Part> {
        let Some((folder, rest)) = path.split_once('/') else {
            return Some(match path {
                paths::START => Part::Lists,
                paths::SEARCH => Part::Search,
                _ if paths::is_of_uses(path) => Part::Uses,
                paths::PARTS => Part::Parts,
                super::MARK => Part::Mark,
                _ => return None,
            });
        };
        let name = rest.split('/').next().unwrap_or_default();
        let id = name.strip_suffix(".html").unwrap_or(name).to_owned();
        Some(match folder {
            _ if path == paths::JOBS => Part::Lists,
            _ if path == paths::MACHINES => Part::Machines,
            _ if path == paths::SHIFTS => Part::Shifts,
            _ if path == paths::PROCEDURES => Part::Procedures,
            _ if path == paths::RECORDS => Part::Records,
            _ if path == paths::HISTORY => Part::Histories,
            "history" => Part::History(paths::machine_of_history(name).to_owned()),
            "schemas" => Part::Schemas,
            "redline" => Part::Redline,
            "lists" => Part::Lists,
            "machines" | "placards" => Part::Machine(id),
            "procedures" => Part::Procedure(id),
            "shifts" => Part::Shift(id),
            "records" => Part::Record(id),
            "logs" => Part::Records,
            "register" => Part::Register,
            "assets" => Part::Assets,
            _ => Part::Job(id),
        })
    }
}

/// A site whose parts are made when somebody asks for them.
pub struct Pages<'a> {
    maker: Maker<'a>,
    register: Option<RegisterView>,
    lines: OnceLock<BTreeMap<&'a str, JobLine>>,
}

impl<'a> Pages<'a> {
    /// Nothing is made yet.
    pub fn of(site: &'a Site<'a>) -> Pages<'a> {
        let frame = frame(site.prepared.plant, site.handbook);
        let register = register::view(frame.clone(), site.prepared, site.day);
        let sheets = site.packets.keys().map(|job| (job.as_str(), OnceLock::new())).collect();
        let named = |shift: Shift<'a>| (shift::name(&shift), shift);
        let shifts = shifts(site.prepared.plant).into_iter().map(named).collect();
        let maker = Maker { site, frame, has_register: register.is_some(), sheets, shifts };
        Pages { maker, register, lines: OnceLock::new() }
    }

    /// Every part there is; where two have a file of the same name, the later one has it.
    pub fn parts(&self) -> Vec<Part> {
        let Site { prepared, records, history, .. } = self.maker.site;
        let jobs = self.maker.sheets.keys().map(|job| Part::Job((*job).to_owned()));
        let machines = prepared.machines.keys().cloned().map(Part::Machine);
        let procedures = prepared.plant.procedures.keys().cloned().map(Part::Procedure);
        let records = records.keys().cloned().map(Part::Record);
        let shifts = self.maker.shifts.keys().cloned().map(Part::Shift);
        let histories = history.machines.iter().map(|one| Part::History(one.id.clone()));
        let once = [
            Part::Lists,
            Part::Machines,
            Part::Shifts,
            Part::Procedures,
            Part::Records,
            Part::Histories,
            Part::Schemas,
            Part::Redline,
            Part::Register,
            Part::Uses,
            Part::Search,
            Part::Parts,
            Part::Assets,
            Part::Mark,
        ];
        let many = jobs.chain(machines).chain(procedures).chain(records).chain(shifts);
        many.chain(histories).chain(once).collect()
    }

    /// The files of a part; none when there is no such thing.
    ///
    /// # Errors
    /// When a packet has no canonical form, which no assembled packet is without.
    pub fn make(&self, part: &Part) -> Result<Tree, serde_json::Error> {
        let mut tree = Tree::default();
        let maker = &self.maker;
        match part {
            Part::Job(id) => maker.job(&mut tree, id)?,
            Part::Lists => maker.lists(&mut tree, self.lines()),
            Part::Machine(id) => maker.machine(&mut tree, id, self.lines()),
            Part::Machines => maker.machines(&mut tree),
            Part::Shift(name) => maker.shift(&mut tree, name, self.lines())?,
            Part::Shifts => maker.shifts(&mut tree, self.lines()),
            Part::Procedure(id) => maker.procedure(&mut tree, id),
            Part::Procedures => maker.procedures(&mut tree),
            Part::Record(name) => maker.record(&mut tree, name)?,
            Part::Records => maker.records(&mut tree),
            Part::Histories => history::put_all(&mut tree, &maker.frame, maker.site),
            Part::History(id) => history::put_machine(&mut tree, &maker.frame, maker.site, id),
            Part::Schemas => maker.schemas(&mut tree),
            Part::Redline => {
                if let Some(redline) = &maker.site.redline {
                    tree.put(paths::REDLINE, redline_html(redline));
                    let texts = redline_text_pages(redline);
                    texts.into_iter().for_each(|(path, html)| tree.put(path, html));
                }
            }
            Part::Register => {
                if let Some(view) = &self.register {
                    tree.put(paths::REGISTER, register_html(view));
                    maker.register_files(&mut tree);
                }
            }
            Part::Uses => maker.uses(&mut tree, self.lines()),
            Part::Search => tree.put(paths::SEARCH, search_html(&maker.search(self.lines()))),
            Part::Parts => tree.put(paths::PARTS, legend_html(&maker.frame)),
            Part::Assets => assets().for_each(|(path, text)| tree.put(path, text)),
            Part::Mark => {
                let mark = Mark { made_by: PROGRAM, plant: &maker.frame.plant_digest, v: 1 };
                tree.put(super::MARK, line(&mark)?);
            }
        }
        Ok(tree)
    }

    /// Each job of the plant as it stands in lists.
    fn lines(&self) -> &BTreeMap<&'a str, JobLine> {
        self.lines.get_or_init(|| {
            let jobs = self.maker.site.prepared.plant.jobs.keys();
            let language = self.maker.frame.language;
            jobs.map(|job| (job.as_str(), self.maker.job_line(language, job))).collect()
        })
    }
}

/// All files of the site.
///
/// # Errors
/// When a packet has no canonical form, which no assembled packet is without.
pub fn tree(site: &Site) -> Result<Tree, serde_json::Error> {
    let pages = Pages::of(site);
    let made: Result<Vec<Tree>, _> =
        pages.parts().par_iter().map(|part| pages.make(part)).collect();
    Ok(Tree { files: made?.into_iter().flat_map(|tree| tree.files).collect() })
}

/// The file by which a folder is known to be a site of ours.
#[derive(serde::Serialize)]
struct Mark<'a> {
    made_by: &'a str,
    plant: &'a str,
    v: u32,
}

/// What every page of a plant's site shares; with the handbook, its foot leads to it.
pub fn frame(plant: &Plant, handbook: bool) -> Frame {
    let files: Vec<String> =
        plant.digests.iter().map(|(file, sha256)| format!("{sha256}  {file}\n")).collect();
    Frame {
        language: plant.facts.body.language,
        plant: plant.facts.body.name.clone(),
        plant_digest: sha256_hex(files.concat().as_bytes()),
        program: PROGRAM.to_owned(),
        handbook: if handbook { paths::handbook() } else { String::new() },
    }
}

struct Maker<'a> {
    site: &'a Site<'a>,
    frame: Frame,
    has_register: bool,
    /// The packet that each job goes by, found once.
    sheets: BTreeMap<&'a str, OnceLock<Sheet>>,
    /// The shifts by their names in links.
    shifts: BTreeMap<String, Shift<'a>>,
}

impl Maker<'_> {
    /// The packet a job goes by; none when it has no packet.
    fn sheet(&self, job: &str) -> Result<Option<&Sheet>, serde_json::Error> {
        let (Some(slot), Some(packet)) = (self.sheets.get(job), self.site.packets.get(job)) else {
            return Ok(None);
        };
        if let Some(sheet) = slot.get() {
            return Ok(Some(sheet));
        }
        let record = self.site.record_of(job);
        let frozen = record.and_then(|record| record.raw.packet.as_deref());
        let mut sheet = sheet((**packet).clone(), crate::packet::digest(packet)?, frozen);
        if let Some(record) = record {
            sheet.state = lines::state(sheet.packet.language, &record.report).word;
        }
        sheet.checkpoint = self.site.checkpoint(&sheet.packet.machine.id);
        Ok(Some(slot.get_or_init(|| sheet)))
    }

    fn job(&self, tree: &mut Tree, job: &str) -> Result<(), serde_json::Error> {
        let known = self.site.prepared.plant.jobs.contains_key(job);
        if let Some(sheet) = self.sheet(job)?.filter(|_| known) {
            self.job_pages(job, sheet).into_iter().for_each(|(path, html)| tree.put(path, html));
        }
        Ok(())
    }

    fn job_line(&self, language: Language, job: &str) -> JobLine {
        let prepared = self.site.prepared;
        let (name, record) = self.site.last(job).unzip();
        let report = record.map(|record| &record.report);
        let has_packet = self.site.packets.contains_key(job);
        let line = || lines::job(language, prepared, job, report, has_packet);
        let (Some(name), Some(record)) = (name, record) else { return line() };
        let signed = signed_packet(record);
        let is_past = !prepared.plant.jobs.contains_key(job);
        let line = match signed.as_ref().filter(|_| is_past) {
            Some(packet) => lines::past(language, prepared, packet, &record.report),
            None => line(),
        };
        let why = lines::why(language, &record.report, signed.as_ref());
        JobLine { record: paths::record(&name), why, ..line }
    }

    /// The job's line under the name of one of its records, with the state of that one.
    fn record_line(&self, language: Language, name: &str, record: &Recorded) -> JobLine {
        let line = self.job_line(language, job_of(name));
        let state = lines::state(language, &record.report);
        JobLine { id: name.to_owned(), state, record: paths::record(name), ..line }
    }

    /// Everything that is printed or opened for one job, in its packet's language: what a page shows
    /// of the packet is worded in that language already.
    fn job_pages(&self, job: &str, sheet: &Sheet) -> Vec<(String, String)> {
        let Sheet { packet, digest, .. } = sheet;
        let frame = Frame { language: packet.language, ..self.frame.clone() };
        let line = self.job_line(packet.language, job);
        let issue = issue(sheet);
        let drawings = packet.rails.iter().filter_map(|rail| {
            let file = drawing::file(rail, packet.language)?;
            Some((paths::drawing(&line.id, &rail.id), file))
        });
        let strip = has_strips(packet)
            .then(|| (paths::strip(&line.id), strip_html(packet, digest, &issue)));
        // The packet's page, four forms of it and the job's page: the words are found once.
        let words = PacketView::new(packet, digest, &issue);
        let view = JobView::new(frame.clone(), line.clone(), packet, words.clone());
        let tags = (!packet.energy.is_empty())
            .then(|| TagsView::new(frame, line.clone(), packet, digest))
            .map(|tags| (paths::tags(&line.id), tags_html(&tags)));
        let desk = self.desk(&line.id, sheet);
        let steps = StepsView::new(packet, &view.packet, &line, &desk);
        let plan = plans::of_job(self.site, &view.frame, &line, packet);
        let pages = vec![
            (paths::job(&line.id), job_html(&view)),
            (paths::plan(&line.id), plan_html(&plan)),
            (paths::packet(&line.id), words.html(packet.language)),
            (paths::steps(&line.id), steps_html(&steps)),
        ];
        let forms = Form::ALL.map(|form| (form.path(&line.id), form.html(packet, &words)));
        pages.into_iter().chain(tags).chain(forms).chain(strip).chain(drawings).collect()
    }

    /// What somebody at the machine goes on from: who there is, and the head of the record.
    fn desk(&self, job: &str, sheet: &Sheet) -> Desk {
        let record = self.site.record_of(job).map(|record| record.raw.next());
        let (next, prev) = record.unwrap_or_else(|| (1, NO_PREVIOUS.to_owned()));
        let prepared = self.site.prepared;
        let day = sheet.packet.job.date.parse().ok();
        Desk {
            people: prepared.people.iter().filter_map(|one| lines::person(one, day)).collect(),
            namespace: crate::record::namespace(&prepared.plant.facts.body.domain),
            seq: next.saturating_sub(1),
            prev,
            state: sheet.state.clone(),
            is_outdated: sheet.is_outdated,
        }
    }

    fn lists(&self, tree: &mut Tree, lines: &BTreeMap<&str, JobLine>) {
        let jobs: Vec<JobLine> = lines.values().cloned().collect();
        let start = StartView {
            frame: self.frame.clone(),
            note: self.site.prepared.plant.facts.body.note.clone(),
            jobs: jobs.clone(),
            findings: self.site.findings.iter().map(lines::finding).collect(),
            history: history::page(&self.site.history),
        };
        tree.put(paths::START, start_html(&start));
        for (path, html) in jobs_pages(&JobsView { frame: self.frame.clone(), jobs }) {
            tree.put(path, html);
        }
    }

    fn machine(&self, tree: &mut Tree, id: &str, lines: &BTreeMap<&str, JobLine>) {
        let prepared = self.site.prepared;
        let Some(machine) = prepared.machines.get(id) else { return };
        let jobs: Vec<JobLine> =
            self.jobs_of(id).filter_map(|job| lines.get(job.as_str()).cloned()).collect();
        let view = MachineView {
            inspections: self.inspections(|due| due.machine.file.body.id == *id),
            history: history::page_of(&self.site.history, id),
            ..lines::machine(self.frame.clone(), prepared, machine, jobs)
        };
        tree.put(paths::machine(id), machine_html(&view));
        let view = lines::placard(self.frame.clone(), prepared, machine);
        tree.put(paths::placard(id), placard_html(&view));
    }

    /// A shift, with the packet that each of its jobs goes by.
    fn shift(
        &self,
        tree: &mut Tree,
        name: &str,
        lines: &BTreeMap<&str, JobLine>,
    ) -> Result<(), serde_json::Error> {
        let Some(shift) = self.shifts.get(name) else { return Ok(()) };
        let mut jobs = Vec::new();
        for planned in &shift.jobs {
            let id = planned.job.body.id.as_str();
            let line = lines.get(id).cloned().unwrap_or_default();
            jobs.push(Known { planned, line, sheet: self.sheet(id)? });
        }
        let prepared = self.site.prepared;
        let frame = self.frame.clone();
        let view = shift::view(frame, prepared, shift, &jobs, &self.site.findings);
        tree.put(paths::shift(name), shift_html(&view));
        Ok(())
    }

    fn shifts(&self, tree: &mut Tree, lines: &BTreeMap<&str, JobLine>) {
        let line = |shift: &Shift| {
            let ids = shift.jobs.iter().map(|planned| planned.job.body.id.as_str());
            let jobs: Vec<&JobLine> = ids.filter_map(|id| lines.get(id)).collect();
            shift::line(&self.frame, shift, &jobs)
        };
        let shifts = self.shifts.values().map(line).collect();
        tree.put(paths::SHIFTS, shifts_html(&ShiftsView { frame: self.frame.clone(), shifts }));
    }

    /// The jobs of a machine.
    fn jobs_of(&self, machine: &str) -> impl Iterator<Item = &String> {
        let jobs = self.site.prepared.plant.jobs.iter();
        jobs.filter(move |(_, job)| job.body.machine == machine).map(|(id, _)| id)
    }

    fn machines(&self, tree: &mut Tree) {
        let machines = self.site.prepared.machines.iter();
        let line =
            |(id, machine): (&String, _)| lines::machine_line(machine, self.jobs_of(id).count());
        let machines = machines.map(line).collect();
        let view = MachinesView { frame: self.frame.clone(), machines };
        tree.put(paths::MACHINES, machines_html(&view));
    }

    fn procedure(&self, tree: &mut Tree, id: &str) {
        let prepared = self.site.prepared;
        let Some(procedure) = prepared.plant.procedures.get(id) else { return };
        let line = lines::procedure_line(self.frame.language, procedure);
        let view = ProcedureView {
            approvals: register::approvals(self.frame.language, prepared, id),
            inspections: self.inspections(|due| due.procedure.front.id == *id),
            questions: history::questions_about(self.frame.language, self.site, id),
            ..lines::procedure(self.frame.clone(), line, prepared, procedure)
        };
        tree.put(paths::procedure(id), procedure_html(&view));
    }

    fn procedures(&self, tree: &mut Tree) {
        let procedures = self.site.prepared.plant.procedures.values();
        let line = |procedure| lines::procedure_line(self.frame.language, procedure);
        let redline = self.site.redline.as_ref().map_or("", |_| paths::REDLINE).to_owned();
        let view = ProceduresView {
            frame: self.frame.clone(),
            procedures: procedures.map(line).collect(),
            redline,
        };
        tree.put(paths::PROCEDURES, procedures_html(&view));
    }

    /// Inspections that are wanted; none in a plant without a register.
    fn inspections(&self, wanted: impl Fn(&Due) -> bool) -> Vec<InspectionLine> {
        let Site { prepared, day, .. } = self.site;
        match self.has_register {
            true => register::inspections(self.frame.language, prepared, *day, wanted),
            false => Vec::new(),
        }
    }

    /// The register's own files, byte for byte, for anybody who checks them without us.
    fn register_files(&self, tree: &mut Tree) {
        for entry in &self.site.prepared.plant.register.entries {
            tree.put(paths::register_file(&format!("{}.json", entry.name)), entry.json.clone());
            if let Some(signature) = &entry.signature {
                let name = format!("{}.json.sig", entry.name);
                tree.put(paths::register_file(&name), signature.clone());
            }
        }
        if let Some(signers) = self.site.allowed_signers {
            tree.put(paths::register_file(lines::SIGNERS), signers);
        }
    }

    fn record(&self, tree: &mut Tree, name: &str) -> Result<(), serde_json::Error> {
        let Some(record) = self.site.records.get(name) else { return Ok(()) };
        let line = self.record_line(self.frame.language, name, record);
        let sheet = self.sheet(job_of(name))?;
        let is_own = |sheet: &&Sheet| Some(&sheet.digest) == record.report.packet.as_ref();
        let signed = match sheet.filter(is_own) {
            Some(_) => None,
            None => signed_packet(record),
        };
        let packet = signed.as_ref().or(sheet.map(|sheet| &sheet.packet));
        let namespace = crate::record::namespace(&self.site.prepared.plant.facts.body.domain);
        let signers = self.site.allowed_signers;
        let mut view = lines::record(self.frame.clone(), line, record, packet, namespace, signers);
        if let Some(machine) = packet.map(|packet| &packet.machine.id) {
            view.log = Link::new(self.site.checkpoint(machine), paths::log(machine));
            view.history = history::page_of(&self.site.history, machine);
        }
        tree.put(paths::record(name), record_html(&view));
        self.evidence(tree, name, &record.raw);
        Ok(())
    }

    fn records(&self, tree: &mut Tree) {
        let language = self.frame.language;
        let mut records = Vec::new();
        let mut findings = Vec::new();
        let mut entries = 0;
        for (name, record) in &self.site.records {
            let report = &record.report;
            entries += report.entries.len();
            let found = report.findings.iter();
            findings.extend(found.map(|one| lines::audit_finding(name, one, language)));
            records.push(RecordLine {
                job: self.record_line(language, name, record),
                entries: report.entries.len(),
                missing: report.missing.len(),
                last: lines::last_time(report),
            });
        }
        findings.extend(self.site.logs.values().flat_map(|log| log.findings(language)));
        let summary = vec![
            Fact::new(language.word("frame-records"), records.len().to_string()),
            Fact::new(language.word("record-entries"), entries.to_string()),
            Fact::new(language.word("record-findings"), findings.len().to_string()),
        ];
        let register = if self.has_register { paths::REGISTER } else { "" }.to_owned();
        let history = history::page(&self.site.history);
        let frame = self.frame.clone();
        let view = RecordsView { frame, summary, records, findings, register, history };
        tree.put(paths::RECORDS, records_html(&view));
        logs::put(tree, &self.frame, self.site);
    }

    /// The schemas, and the page that says what each is for.
    fn schemas(&self, tree: &mut Tree) {
        let language = self.frame.language;
        let mut schemas = Vec::new();
        for written in schema::WRITTEN {
            let path = paths::schema(&schema::file_name(written.name));
            tree.put(path.as_str(), schema::text(&written.schema()));
            schemas.push(SchemaLine {
                link: Link::new(written.name, path),
                file: written.file.to_owned(),
                about: language.word(written.about).to_owned(),
            });
        }
        let view = SchemasView { frame: self.frame.clone(), schemas };
        tree.put(paths::SCHEMAS, schemas_html(&view));
    }

    /// What is used where, and what nowhere.
    fn uses(&self, tree: &mut Tree, lines: &BTreeMap<&str, JobLine>) {
        let open = lines.iter().filter(|(_, line)| !line.done).map(|(job, _)| *job).collect();
        let Site { prepared, packets, texts, .. } = self.site;
        let view = uses::view(self.frame.clone(), prepared.plant, packets, texts, &open);
        for (path, html) in uses_pages(&view) {
            tree.put(path, html);
        }
    }

    /// Every page by its kind, with the words by which people look for it.
    fn search(&self, lines: &BTreeMap<&str, JobLine>) -> SearchView {
        let (prepared, language) = (self.site.prepared, self.frame.language);
        let names = self.site.records.keys().map(|name| job_of(name));
        let gone: BTreeSet<&str> = names.filter(|job| !lines.contains_key(job)).collect();
        let past: Vec<JobLine> = gone.iter().map(|job| self.job_line(language, job)).collect();
        let mut jobs: Vec<&JobLine> = lines.values().chain(&past).collect();
        jobs.sort_by(|one, two| (&two.date, &two.id).cmp(&(&one.date, &one.id)));
        let machines = || prepared.machines.values();
        let procedures = prepared.plant.procedures.values();
        let group = |key, entries| SearchGroup::new(language.word(key), entries);
        let jobs = jobs.into_iter().map(lines::job_entry).collect();
        let recipes =
            machines().flat_map(|machine| lines::recipe_entries(language, prepared, machine));
        SearchView {
            frame: self.frame.clone(),
            groups: vec![
                group("search-pages", self.lists_to_find()),
                group("frame-machines", machines().map(|one| self.machine_to_find(one)).collect()),
                group("site-recipes", recipes.collect()),
                group(
                    "frame-procedures",
                    procedures.map(|one| lines::procedure_entry(prepared, one)).collect(),
                ),
                SearchGroup::of_jobs(language.word("frame-jobs"), jobs),
            ],
        }
    }

    fn machine_to_find(&self, machine: &Machine) -> SearchEntry {
        let mut entry = lines::machine_entry(self.frame.language, self.site.prepared, machine);
        let history = history::page_of(&self.site.history, &machine.file.body.id);
        if !history.is_empty() {
            entry.also.push(Link::new(self.frame.language.word("charts-history"), history));
        }
        entry
    }

    fn lists_to_find(&self) -> Vec<SearchEntry> {
        let language = self.frame.language;
        let history = history::page(&self.site.history);
        let history = (!history.is_empty()).then(|| SearchEntry {
            link: Link::new(language.word("charts-history"), history),
            ..SearchEntry::default()
        });
        lines::list_entries(language, self.has_register).into_iter().chain(history).collect()
    }

    /// The record's own files, byte for byte, for anybody who checks them without us.
    fn evidence(&self, tree: &mut Tree, job: &str, raw: &RawRecord) {
        if let Some(packet) = &raw.packet {
            tree.put(paths::evidence(job, lines::PACKET), packet.clone());
        }
        for entry in &raw.entries {
            tree.put(paths::evidence(job, &format!("{}.json", entry.name)), entry.json.clone());
            if let Some(signature) = &entry.signature {
                let name = format!("{}.json.sig", entry.name);
                tree.put(paths::evidence(job, &name), signature.clone());
            }
        }
        if let Some(signers) = self.site.allowed_signers {
            tree.put(paths::evidence(job, lines::SIGNERS), signers);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::sheet;
    use crate::record::fixture;

    #[test]
    fn the_sheet_is_the_signed_packet_and_says_when_that_cannot_be_read() {
        let (packet, digest) = (fixture::packet(), fixture::digest());
        let other = || "0".repeat(64);
        let none = sheet(packet.clone(), digest.clone(), None);
        assert_eq!((none.state.as_str(), none.is_outdated), ("nothing signed yet", false));
        let signed = sheet(packet.clone(), other(), Some(fixture::PACKET));
        assert_eq!((signed.digest, signed.is_outdated), (digest, true));
        let broken = sheet(packet, other(), Some(b"{}\n"));
        assert_eq!(broken.state, "the packet that was signed cannot be read: audit its record");
    }
}
