//! Small views: one function for each thing a list or a page says of a plant or a record.

use crate::audit::{self, AuditFinding, AuditedEntry, Report, Severity};
use crate::canonical::sha256_hex;
use crate::finding::show::Located;
use crate::language::Language;
use crate::packet::Prepared;
use crate::packet::model::{Packet, Reading, Step};
use crate::page::site::{
    EntryReading, EntryView, EvidenceFile, Fact, FindingView, Frame, JobLine, Link, MachineLine,
    MachineView, PlacardView, PlacardZone, ProcedureLine, ProcedureStep, ProcedureView, RailLine,
    RecipeLine, RecordView, State, Tone, ZoneLine,
};
use crate::page::{paths, words};
use crate::plant::machine::Machine;
use crate::plant::shape::{JobWord, RailEntry, StepEntry, ZoneEntry};
use crate::procedure::{Procedure, StepText};
use crate::record::entry::Verdict;
use crate::record::{rules, state};

use super::site::Recorded;

/// Name of the frozen packet in a record's folder.
pub(super) const PACKET: &str = "packet.json";
/// Name of the list of allowed signers.
pub(super) const SIGNERS: &str = "allowed_signers";

/// How many missing things a record page lists.
const MOST_MISSING: usize = 12;

/// The state of a record in a word or three.
pub(super) fn state(report: &Report) -> State {
    let bad = report.worst() == Some(Severity::Error);
    let (word, tone) = match report.state {
        _ if bad => ("does not hold: see findings", Tone::Bad),
        None => ("unknown", Tone::Bad),
        Some(state @ state::State::Open) => (state.words(), Tone::Open),
        Some(state @ (state::State::Performed | state::State::Verified)) => {
            (state.words(), Tone::Open)
        }
        Some(state @ state::State::Released) => (state.words(), Tone::Good),
        Some(state @ state::State::ReleasedWithDeviation) => (state.words(), Tone::Care),
    };
    State { word: word.to_owned(), tone }
}

/// A job in a list.
pub(super) fn job(
    prepared: &Prepared,
    id: &str,
    report: Option<&Report>,
    has_packet: bool,
) -> JobLine {
    let plant = prepared.plant;
    let record = report.map_or(String::new(), |_| paths::record(id));
    let state = match report {
        Some(report) => state(report),
        None => State { word: "not started".to_owned(), tone: Tone::Open },
    };
    let Some(job) = plant.jobs.get(id) else {
        return JobLine { id: id.to_owned(), state, record, ..JobLine::default() };
    };
    let recipe = |id: &String| plant.recipes.get(id).map_or(id.clone(), |r| r.body.name.clone());
    let machine = plant.machines.get(&job.body.machine);
    let name = machine.map_or(job.body.machine.clone(), |machine| machine.body.name.clone());
    let page = |path: String| if has_packet { path } else { String::new() };
    JobLine {
        id: id.to_owned(),
        date: job.body.date.clone(),
        shift: job.body.shift.clone(),
        order: job.body.order.clone(),
        machine: Link::new(name, paths::machine(&job.body.machine)),
        from: recipe(&job.body.from),
        to: recipe(&job.body.to),
        state,
        page: page(paths::job(id)),
        packet: page(paths::packet(id)),
        tags: page(paths::tags(id)),
        placard: machine.map_or(String::new(), |_| paths::placard(&job.body.machine)),
        record,
    }
}

/// A finding of the plant's files.
pub(super) fn finding(finding: &Located) -> FindingView {
    let word = match finding.severity {
        crate::finding::Severity::Error => "error",
        crate::finding::Severity::Warning => "warning",
    };
    FindingView {
        severity: word.to_owned(),
        rule: finding.rule.to_owned(),
        place: format!("{}:{}:{}", finding.file, finding.line, finding.column),
        message: finding.message.to_owned(),
        way_out: finding.way_out.to_owned(),
    }
}

/// A finding of the audit.
pub(super) fn audit_finding(job: &str, finding: &AuditFinding, language: Language) -> FindingView {
    let place = match finding.entry {
        Some(entry) => {
            let parts = [("job", job.into()), ("entry", entry.to_string().into())];
            language.text("audit-place-of-entry", &parts)
        }
        None => language.text("audit-place", &[("job", job.into())]),
    };
    let told = finding.told(language);
    let mut message = told.words;
    if !told.expected.is_empty() || !told.found.is_empty() {
        let parts = [("expected", told.expected.into()), ("found", told.found.into())];
        message += " ";
        message += &language.text("audit-compared", &parts);
    }
    FindingView {
        severity: finding.severity.word().to_owned(),
        rule: finding.code.to_owned(),
        place,
        message,
        way_out: String::new(),
    }
}

/// A machine in a list.
pub(super) fn machine_line(machine: &Machine, jobs: usize) -> MachineLine {
    let body = &machine.file.body;
    MachineLine {
        link: Link::new(&body.name, paths::machine(&body.id)),
        id: body.id.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        jobs,
    }
}

/// A machine's page.
pub(super) fn machine(
    frame: Frame,
    prepared: &Prepared,
    machine: &Machine,
    jobs: Vec<JobLine>,
) -> MachineView {
    let body = &machine.file.body;
    let recipes = prepared.plant.recipes.values().map(|recipe| &recipe.body);
    MachineView {
        frame,
        id: body.id.clone(),
        name: body.name.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        placard: paths::placard(&body.id),
        inspection: machine.inspection.clone(),
        datum: body.datum.clone(),
        facts: body.facts.iter().map(|(name, value)| Fact::new(spoken(name), value)).collect(),
        rails: body.rails.iter().map(|(_, rail)| rail_line(rail, machine)).collect(),
        zones: body.zones.iter().map(|(_, zone)| zone_line(zone, prepared, machine)).collect(),
        energy: machine.energy.clone(),
        instruments: machine.instruments.values().map(|i| i.facts.clone()).collect(),
        procedures: body.changeover.iter().map(|id| procedure_link(prepared, id)).collect(),
        recipes: recipes
            .filter(|recipe| recipe.machines.contains(&body.id))
            .map(|recipe| RecipeLine {
                name: recipe.name.clone(),
                id: recipe.id.clone(),
                revision: recipe.revision.clone(),
                date: recipe.date.clone(),
                author: recipe.author.clone(),
                reason: recipe.reason.clone(),
            })
            .collect(),
        jobs,
    }
}

/// A machine's placard.
pub(super) fn placard(frame: Frame, prepared: &Prepared, machine: &Machine) -> PlacardView {
    let body = &machine.file.body;
    PlacardView {
        frame,
        machine: Link::new(&body.name, paths::machine(&body.id)),
        id: body.id.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        locks: PlacardView::locks(&machine.energy),
        sources: machine.energy.clone(),
        zones: body.zones.iter().map(|(_, zone)| placard_zone(zone, machine)).collect(),
        facts: lockout_facts(prepared, machine),
        inspection: machine.inspection.clone(),
        revision: words::short_digest(&machine.file.sha256),
    }
}

/// Stop position, powered movement, intended use, enforcement; only what is stated.
fn lockout_facts(prepared: &Prepared, machine: &Machine) -> Vec<Fact> {
    let body = &machine.file.body;
    let procedures = body.changeover.iter().filter_map(|id| prepared.plant.procedures.get(id));
    let uses = procedures.map(|one| one.front.intended_use.trim()).filter(|text| !text.is_empty());
    let inching = machine.inching.as_ref();
    let inching = inching.map(|one| format!("{}, {}, at most {}", one.control, one.held, one.most));
    let facts = [
        ("Stop position before isolation", body.stop_position.clone()),
        ("Movement under power with a guard open", inching.unwrap_or_default()),
        ("Intended use of the procedures", uses.collect::<Vec<_>>().join("; ")),
        ("Enforced by", prepared.plant.facts.body.enforced_by.clone()),
    ];
    let stated = facts.into_iter().filter(|(_, value)| !value.is_empty());
    stated.map(|(name, value)| Fact::new(name, value)).collect()
}

fn placard_zone(zone: &ZoneEntry, machine: &Machine) -> PlacardZone {
    let numbered = machine.file.body.energy.names().zip(1..);
    let reaches = numbered.filter(|(id, _)| zone.sources.iter().any(|source| source == id));
    PlacardZone {
        name: zone.name.clone(),
        guard: zone.guard.clone(),
        sources: reaches.map(|(_, number)| number).collect(),
    }
}

/// A name of a formula, for people: `widest_web` as `widest web`.
fn spoken(name: &str) -> String {
    name.replace('_', " ")
}

fn rail_line(rail: &RailEntry, machine: &Machine) -> RailLine {
    let zone = machine.file.body.zones.get(&rail.zone);
    let mut facts = vec![
        Fact::new("Left end from the datum", &rail.left_end),
        Fact::new("Right end from the datum", &rail.right_end),
        Fact::new("Holders fitted", &rail.holders),
        Fact::new("Width of a holder", &rail.holder_width),
        Fact::new("Least spacing", &rail.spacing),
    ];
    facts.extend(rail.lane_pitch.iter().map(|pitch| Fact::new("Fixed pitch of the lanes", pitch)));
    facts.extend(rail.facts.iter().map(|(name, value)| Fact::new(spoken(name), value)));
    RailLine {
        name: rail.name.clone(),
        zone: zone.map_or(rail.zone.clone(), |zone| zone.name.clone()),
        facts,
    }
}

fn zone_line(zone: &ZoneEntry, prepared: &Prepared, machine: &Machine) -> ZoneLine {
    let source = |id: &String| {
        machine.file.body.energy.get(id).map_or(id.clone(), |source| source.name.clone())
    };
    let hazard = |id: &String| prepared.hazards.get(id).map_or(id.clone(), |h| h.hazard.clone());
    ZoneLine {
        name: zone.name.clone(),
        guard: match zone.interlock.as_str() {
            "" => zone.guard.clone(),
            interlock => format!("{}; {interlock}, which isolates nothing", zone.guard),
        },
        sources: zone.sources.iter().map(source).collect(),
        hazards: zone.hazards.iter().map(hazard).collect(),
    }
}

fn procedure_link(prepared: &Prepared, id: &str) -> Link {
    let procedure = prepared.plant.procedures.get(id);
    match procedure {
        Some(procedure) => Link::new(&procedure.front.title, paths::procedure(id)),
        None => Link::new(id, ""),
    }
}

/// A procedure in a list.
pub(super) fn procedure_line(procedure: &Procedure) -> ProcedureLine {
    let front = &procedure.front;
    let shipped = procedure.file.starts_with("shipped/");
    ProcedureLine {
        link: Link::new(&front.title, paths::procedure(&front.id)),
        id: front.id.clone(),
        revision: front.revision.clone(),
        date: front.date.clone(),
        author: front.author.clone(),
        origin: if shipped { "shipped with the program" } else { "the plant's own" }.to_owned(),
    }
}

/// A procedure's page.
pub(super) fn procedure(
    frame: Frame,
    line: ProcedureLine,
    prepared: &Prepared,
    procedure: &Procedure,
) -> ProcedureView {
    let front = &procedure.front;
    let scope = match (&front.applies.rail, front.applies.energy) {
        (Some(rail), _) => format!("machines with a rail called {rail}"),
        (None, true) => "machines with an energy source".to_owned(),
        (None, false) => "any machine".to_owned(),
    };
    let uses = prepared
        .machines
        .values()
        .filter(|machine| machine.file.body.changeover.contains(&front.id));
    ProcedureView {
        frame,
        line,
        reason: front.reason.clone(),
        scope,
        standards: front.standards.clone(),
        sha256: procedure.sha256.clone(),
        purpose: procedure.intro.clone(),
        steps: procedure.steps.iter().map(|step| procedure_step(prepared, step)).collect(),
        used: uses
            .map(|machine| {
                Link::new(&machine.file.body.name, paths::machine(&machine.file.body.id))
            })
            .collect(),
    }
}

fn procedure_step(prepared: &Prepared, step: &StepText) -> ProcedureStep {
    let StepEntry {
        needs, stage, zone, hazards, tools, repeat, checks, when, sign, minutes, ..
    } = &step.facts;
    let mut facts = Vec::new();
    let mut put = |name: &str, value: String| {
        if !value.is_empty() {
            facts.push(Fact::new(name, value));
        }
    };
    let word = |value: serde_json::Result<serde_json::Value>| {
        value.ok().and_then(|v| v.as_str().map(str::to_owned)).unwrap_or_default()
    };
    put("Only when the job names", when.job.map_or("", JobWord::words).to_owned());
    put("Energy", word(serde_json::to_value(needs)));
    put("Stage", word(serde_json::to_value(stage)));
    put("Zone", zone.clone().unwrap_or_default());
    let hazard = |id: &String| {
        prepared
            .hazards
            .get(id)
            .map_or(id.clone(), |h| format!("{}: {}", h.signal.word(), h.hazard))
    };
    put("Hazards", hazards.iter().map(hazard).collect::<Vec<_>>().join("; "));
    put("Tools", tools.join("; "));
    put("Repeats over", repeat.clone().unwrap_or_default());
    put("Checks", checks.join("; "));
    let signs = [
        ("performed", &sign.performed),
        ("verified", &sign.verified),
        ("released", &sign.released),
    ];
    let signs = signs
        .iter()
        .filter_map(|(meaning, role)| Some(format!("{meaning}: {}", (*role).as_ref()?)));
    put("Signed", signs.collect::<Vec<_>>().join("; "));
    put("Minutes", minutes.map_or(String::new(), |minutes| minutes.to_string()));
    ProcedureStep { title: step.title.clone(), text: step.text.clone(), facts }
}

/// Time of the last entry that could be read; empty when there is none.
pub(super) fn last_time(report: &Report) -> String {
    let last = report.entries.iter().rev().find_map(|entry| entry.says.as_ref());
    last.map_or(String::new(), |says| says.at.clone())
}

/// A record's page.
pub(super) fn record(
    frame: Frame,
    line: JobLine,
    record: &Recorded,
    packet: Option<&Packet>,
    namespace: String,
    signers: Option<&str>,
) -> RecordView {
    let report = &record.report;
    let language = frame.language;
    let mut why: Vec<String> = report
        .findings
        .iter()
        .map(|finding| {
            let view = audit_finding(&report.job, finding, language);
            format!("{} ({}): {}", view.severity, view.place, view.message)
        })
        .collect();
    why.extend(deviations(report, packet));
    why.extend(report.missing.iter().take(MOST_MISSING).map(|one| one.words().shown(language)));
    if report.missing.len() > MOST_MISSING {
        why.push(format!("and {} more", report.missing.len() - MOST_MISSING));
    }
    let mut evidence = Vec::new();
    if let Some(bytes) = &record.raw.packet {
        evidence.push(file(PACKET, "The packet as it was signed", bytes));
    }
    if let Some(text) = signers {
        evidence.push(file(
            SIGNERS,
            "Who may sign, with which key, from when to when",
            text.as_bytes(),
        ));
    }
    RecordView {
        frame,
        line,
        why,
        packet_digest: report.packet.clone().unwrap_or_default(),
        namespace,
        entries: report.entries.iter().map(|entry| entry_view(entry, packet)).collect(),
        evidence,
    }
}

/// Each reading outside its limits, and who accepted it with which reason.
fn deviations(report: &Report, packet: Option<&Packet>) -> Vec<String> {
    let says = || report.entries.iter().filter_map(|e| Some((e.number, e.says.as_ref()?)));
    let mut lines = Vec::new();
    for (number, statement) in says() {
        let Some(reading) = statement.reading.as_ref().filter(|r| r.verdict != Verdict::Within)
        else {
            continue;
        };
        let EntryReading { label, value, limits, .. } =
            entry_reading(reading, step_of(packet, &statement.step));
        let accepted = says().find(|(_, says)| says.accepts == Some(number));
        let corrected = says().find(|(_, says)| says.corrects == Some(number));
        let by = match (accepted, corrected) {
            (_, Some((entry, says))) => {
                let reason = says.note.as_deref().unwrap_or_default();
                format!("corrected by {} in entry {entry}: {reason}", says.name)
            }
            (Some((entry, says)), None) => {
                let reason = says.note.as_deref().unwrap_or_default();
                format!("accepted by {} ({}) in entry {entry}: {reason}", says.name, says.role)
            }
            (None, None) => "accepted by nobody yet".to_owned(),
        };
        lines.push(format!(
            "entry {number}: {label} {value} {}; limits {limits}; {by}",
            reading.verdict.of_limits()
        ));
    }
    lines
}

fn step_of<'p>(packet: Option<&'p Packet>, id: &str) -> Option<&'p Step> {
    packet?.steps.iter().find(|step| step.id == id)
}

fn file(name: &str, what: &str, bytes: &[u8]) -> EvidenceFile {
    EvidenceFile { name: name.to_owned(), what: what.to_owned(), sha256: sha256_hex(bytes) }
}

fn entry_view(entry: &AuditedEntry, packet: Option<&Packet>) -> EntryView {
    let state = match (entry.sound, entry.signer_ok) {
        (true, _) => State { word: "good".to_owned(), tone: Tone::Good },
        (false, true) => State { word: "see findings".to_owned(), tone: Tone::Bad },
        (false, false) => State { word: "not good".to_owned(), tone: Tone::Bad },
    };
    let view = EntryView {
        number: entry.number,
        digest: entry.digest.clone(),
        file: format!("{:06}.json", entry.number),
        signature: format!("{:06}.json.sig", entry.number),
        state,
        ..EntryView::default()
    };
    let Some(says) = &entry.says else {
        return EntryView { meaning: "unreadable".to_owned(), ..view };
    };
    let step = step_of(packet, &says.step);
    EntryView {
        time: says.at.clone(),
        person: says.name.clone(),
        principal: says.by.clone(),
        role: says.role.clone(),
        meaning: says.kind.word().to_owned(),
        step: step_words(step, says),
        readings: says.reading.iter().map(|reading| entry_reading(reading, step)).collect(),
        corrects: says.corrects,
        accepts: says.accepts,
        note: says.note.clone().unwrap_or_default(),
        ..view
    }
}

/// Number and title of the step, and of the row when one row was signed.
fn step_words(step: Option<&Step>, says: &audit::Statement) -> String {
    let row = says.row.as_deref();
    let Some(step) = step else { return state::of_row(&says.step, row) };
    let own = step.rows().find(|own| row == Some(own.id.as_str()));
    let number = row.and_then(|row| step.row_number(row));
    match (own.and_then(|own| own.cells.first()), number) {
        (Some(name), Some(number)) => format!("{number} {}: {name}", step.title),
        _ => format!("{} {}", step.number, step.title),
    }
}

fn entry_reading(reading: &audit::StatedReading, step: Option<&Step>) -> EntryReading {
    let blank = step.and_then(|step| step.readings.iter().find(|blank| blank.id == reading.blank));
    let with_unit = |text: String| match reading.unit.as_str() {
        "" => text,
        unit => format!("{text} {unit}"),
    };
    EntryReading {
        label: blank.map_or(reading.blank.clone(), |blank| blank.label.clone()),
        value: with_unit(reading.value.clone()),
        limits: blank.map_or(String::new(), limits),
        verdict: reading.verdict.word().to_owned(),
        tone: match reading.verdict {
            Verdict::Within => Tone::Good,
            Verdict::TooClose => Tone::Care,
            Verdict::Outside => Tone::Bad,
        },
    }
}

/// Limits of a blank, and where a reading is surely within them when that is not the same.
fn limits(blank: &Reading) -> String {
    let limits = words::limits(blank.low.as_deref(), blank.high.as_deref(), &blank.unit);
    match rules::surely_within(blank) {
        Some(sure) => format!("{limits}, {}", words::numbers(&sure)),
        None => limits,
    }
}

#[cfg(test)]
mod tests {
    use crate::audit::{Subject, audit_record};
    use crate::page::site::{Frame, JobLine, record_html};
    use crate::publish::site::Recorded;
    use crate::record::store::RawRecord;
    use crate::record::{TrustList, fixture};

    /// The page of a record, spaces as plain ones, has each of these pieces.
    #[track_caller]
    fn check(raw: RawRecord, expected: &[&str]) {
        let (trust, _) = TrustList::parse(fixture::SIGNERS.as_bytes());
        let report = audit_record(&Subject {
            job: "J-2041",
            raw: &raw,
            trust: &trust,
            people: &fixture::people(),
            domain: fixture::DOMAIN,
            now: None,
            current_packet: None,
        });
        let packet = serde_json::from_slice(raw.packet.as_deref().unwrap()).unwrap();
        let (frame, line) = (Frame::default(), JobLine::default());
        let recorded = Recorded { raw, report };
        let view =
            super::record(frame, line, &recorded, Some(&packet), "signoff@x".to_owned(), None);
        let page = record_html(&view).replace('\u{a0}', " ");
        for piece in expected {
            assert!(page.contains(piece), "{piece} is not in {page}");
        }
    }

    #[test]
    fn a_note_is_called_what_it_is() {
        let mut entries: Vec<_> = fixture::past(6).into_iter().map(|past| past.entry).collect();
        entries[5].note = Some("Read twice.".to_owned());
        let mut again = entries[4].clone();
        (again.seq, again.at) = (7, entries[5].at.clone());
        (again.corrects, again.note) = (Some(5), Some("Misread.".to_owned()));
        entries.push(again);
        check(
            fixture::raw_of(fixture::seal(entries)),
            &["<br>Remark: Read twice.<", "<br>Reason of the correction of entry 5: Misread.<"],
        );
        check(fixture::raw(), &["<br>Reason of the acceptance of entry 7: Test strip holds"]);
    }

    #[test]
    fn an_outside_reading_shows_its_limits() {
        check(
            fixture::raw(),
            &[
                "entry 7: Knife 3 28.75 mm is outside its limits; limits 27.5 to 28.5 mm; accepted",
                "28.75 mm</strong>, limits 27.5 to 28.5 mm <span class=\"state bad\">outside</span>",
                "<strong class=\"num\">-28.5 mm</strong>, limits \u{2212}28.5 to \u{2212}27.5 mm",
            ],
        );
    }

    #[test]
    fn a_reading_too_close_to_tell_shows_where_it_would_be_sure() {
        check(
            fixture::guarded(),
            &[
                "entry 7: Knife 3 28.75 mm is not surely within its limits (too close to tell); \
                 limits 27.5 to 28.5 mm, surely within from 27.8 to 28.2 mm; accepted by Cy",
                "28.75 mm</strong>, limits 27.5 to 28.5 mm, surely within from 27.8 to 28.2 mm \
                 <span class=\"state care\">too close to tell</span>",
            ],
        );
    }
}
