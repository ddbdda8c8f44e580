//! Small views: one function for each thing a list or a page says of a plant or a record.

use chrono::NaiveDate;

use crate::audit::{self, AuditFinding, AuditedEntry, Report, Severity};
use crate::canonical::sha256_hex;
use crate::finding::show::Located;
use crate::language::Language;
use crate::packet::model::{
    EnergyState, Inspection, Instrument, Packet, Reading, Setting, Stage, Step,
};
use crate::packet::{Computed, Prepared};
use crate::page::form::Form;
use crate::page::packet::{energy_line, screw};
use crate::page::site::{
    EntryReading, EntryView, EvidenceFile, Fact, FindingView, Frame, HazardLine, JobLine, Link,
    MachineLine, MachineView, PlacardView, PlacardZone, ProcedureLine, ProcedureStep,
    ProcedureView, Questions, RailLine, RecipeLine, RecordView, SearchEntry, SettingLine, Spoken,
    State, Tone, ZoneLine, in_working_order,
};
use crate::page::steps::PersonLine;
use crate::page::{paths, words};
use crate::plant::load::Loaded;
use crate::plant::machine::Machine;
use crate::plant::shape::{
    JobFile, JobWord, ObstacleEntry, RailEntry, RecipeFile, ScaleEntry, Side, SparesWord,
    StepEntry, UnwindEntry, WhenEntry, ZoneEntry,
};
use crate::procedure::bound::kind_words;
use crate::procedure::{Include, Procedure, StepText};
use crate::record::entry::{Kind, Verdict};
use crate::record::people::Person;
use crate::record::state::{Missing, State as Reached};
use crate::record::{job_of, rules, state};
use crate::register::FOLDER;

use super::site::Recorded;

/// Name of the frozen packet in a record's folder.
pub(super) const PACKET: &str = "packet.json";
/// Name of the list of allowed signers.
pub(super) const SIGNERS: &str = "allowed_signers";

/// How many missing things a record page lists.
const MOST_MISSING: usize = 12;
/// How many jobs a machine's page lists.
const MOST_JOBS: usize = 40;

/// The state of a record in a word or three.
pub(super) fn state(language: Language, report: &Report) -> State {
    let bad = report.worst() == Some(Severity::Error);
    let (word, tone) = match report.state {
        _ if bad => (language.word("site-state-bad"), Tone::Bad),
        None => (language.word("site-state-unknown"), Tone::Bad),
        Some(Reached::Open) => (language.word("site-state-open"), Tone::Open),
        Some(Reached::Performed) => (language.word("site-state-performed"), Tone::Open),
        Some(Reached::Verified) => (language.word("site-state-verified"), Tone::Open),
        Some(Reached::Released) => (language.word("site-state-released"), Tone::Good),
        Some(Reached::ReleasedWithDeviation) => (language.word("site-state-deviation"), Tone::Care),
        Some(Reached::Abandoned) => (language.word("entries-state-abandoned"), Tone::Care),
        // A new packet waits.
        Some(Reached::Superseded) => (language.word("entries-state-superseded"), Tone::Open),
    };
    State { word: word.to_owned(), tone }
}

/// A job in a list.
pub(super) fn job(
    language: Language,
    prepared: &Prepared,
    id: &str,
    report: Option<&Report>,
    has_packet: bool,
) -> JobLine {
    let plant = prepared.plant;
    let record = report.map_or(String::new(), |_| paths::record(id));
    let state = match report {
        Some(report) => state(language, report),
        None => {
            State { word: language.word("site-state-not-started").to_owned(), tone: Tone::Open }
        }
    };
    let done = matches!(state.tone, Tone::Good | Tone::Care);
    let Some(job) = plant.jobs.get(id) else {
        return JobLine { id: id.to_owned(), state, record, done, ..JobLine::default() };
    };
    let recipe = |id: &String| plant.recipes.get(id).map_or(id.clone(), |r| r.body.name.clone());
    let machine = plant.machines.get(&job.body.machine);
    let name = machine.map_or(job.body.machine.clone(), |machine| machine.body.name.clone());
    JobLine {
        id: id.to_owned(),
        date: job.body.date.clone(),
        day: words::date(language, &job.body.date),
        shift: job.body.shift.clone(),
        shift_page: paths::shift(&paths::shift_name(&job.body.date, &job.body.shift)),
        order: job.body.order.clone(),
        machine: Link::new(name, paths::machine(&job.body.machine)),
        from: recipe(&job.body.from),
        to: recipe(&job.body.to),
        state,
        page: if has_packet { paths::job(id) } else { String::new() },
        papers: if has_packet { papers(language, prepared, job) } else { Vec::new() },
        record,
        done,
        why: String::new(),
    }
}

/// A job whose file is gone, by what was signed; it leads to its machine as long as there is one.
pub(super) fn past(
    language: Language,
    prepared: &Prepared,
    packet: &Packet,
    report: &Report,
) -> JobLine {
    let machine = &packet.machine;
    let is_known = prepared.machines.contains_key(&machine.id);
    let page = if is_known { paths::machine(&machine.id) } else { String::new() };
    JobLine {
        day: words::date(language, &packet.job.date),
        machine: Link::new(machine.name.clone(), page),
        state: state(language, report),
        done: true,
        ..line_of(packet, report)
    }
}

/// A job by its packet alone: nothing leads anywhere.
pub(super) fn line_of(packet: &Packet, report: &Report) -> JobLine {
    let language = packet.language;
    JobLine {
        id: packet.job.id.clone(),
        date: packet.job.date.clone(),
        day: words::date(language, &packet.job.date),
        shift: packet.job.shift.clone(),
        order: packet.job.order.clone(),
        machine: Link::new(packet.machine.name.clone(), ""),
        from: packet.from.name.clone(),
        to: packet.to.name.clone(),
        state: state(language, report),
        ..JobLine::default()
    }
}

/// Why a record has its state, in one line: what closed it, what was deviated from, or what is missing
/// first. Empty where the state says it all.
pub(super) fn why(language: Language, report: &Report, packet: Option<&Packet>) -> String {
    if report.worst() == Some(Severity::Error) {
        return String::new();
    }
    let told = closing(language, report).into_iter().chain(deviations(language, report, packet));
    let first = told.chain(raised(language, report, packet)).next();
    let Some(missing) = report.missing.first() else { return first.unwrap_or_default() };
    // What waits for a decision comes before what only waits to be done.
    let is_work =
        |one: &&Missing| matches!(one, Missing::Reading { .. } | Missing::Signature { .. });
    let decision = report.missing.iter().find(|one| !is_work(one));
    let missing = match (decision, step_of(packet, missing.step())) {
        (Some(decision), _) => decision.words(),
        (None, Some(step)) => format!("{} {}", step.number, step.title).into(),
        (None, None) => missing.words(),
    };
    let parts = [("count", report.missing.len().into()), ("missing", missing.into())];
    language.text("entries-left", &parts)
}

/// What is opened or printed for a job, the packet first.
fn papers(language: Language, prepared: &Prepared, job: &Loaded<JobFile>) -> Vec<Link> {
    let JobFile { id, machine, .. } = &job.body;
    let has_energy = |machine: &Machine| !machine.file.body.energy.is_empty();
    let forms = Form::ALL.map(|form| Link::new(form.name(language), form.path(id)));
    let mut papers = vec![
        Link::new(language.word("site-packet"), paths::packet(id)),
        Link::new(language.word("tablet-link"), paths::steps(id)),
    ];
    papers.extend(forms);
    // Where nothing is locked, nothing is tagged.
    if prepared.machines.get(machine).is_some_and(has_energy) {
        papers.push(Link::new(language.word("site-tags"), paths::tags(id)));
    }
    papers.push(Link::new(language.word("site-placard-short"), paths::placard(machine)));
    papers
}

/// Somebody who can be picked on the tablet: with the roles held on a day, or ever when there is none.
pub(super) fn person(person: &Person, day: Option<NaiveDate>) -> Option<PersonLine> {
    let mut roles: Vec<String> = Vec::new();
    for term in person.roles.iter().filter(|term| day.is_none_or(|day| term.covers(day))) {
        if !roles.contains(&term.role) {
            roles.push(term.role.clone());
        }
    }
    let line = PersonLine { id: person.id.clone(), name: person.name.clone(), roles };
    (!line.roles.is_empty()).then_some(line)
}

/// A finding of the plant's files.
pub(crate) fn finding(finding: &Located) -> FindingView {
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
    placed(place, finding, language)
}

/// A finding of the audit in the register.
pub(super) fn register_finding(finding: &AuditFinding, language: Language) -> FindingView {
    let file = finding.entry.map(|entry| format!("{FOLDER}/{entry:06}.json"));
    placed(file.unwrap_or_else(|| FOLDER.to_owned()), finding, language)
}

fn placed(place: String, finding: &AuditFinding, language: Language) -> FindingView {
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
    let language = frame.language;
    let body = &machine.file.body;
    let recipes = prepared.plant.recipes.values().map(|recipe| &recipe.body);
    let computed = || computed(prepared, &body.id);
    let mut jobs = in_working_order(jobs);
    let more_jobs = jobs.len().saturating_sub(MOST_JOBS);
    jobs.truncate(MOST_JOBS);
    MachineView {
        frame,
        id: body.id.clone(),
        name: body.name.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        placard: paths::placard(&body.id),
        inspection: machine.inspection.as_ref().map(|one| inspected(language, one)),
        inspections: Vec::new(),
        lockout: lockout_facts(language, prepared, machine),
        datum: body.datum.clone(),
        facts: body.facts.iter().map(|(name, value)| fact(language, name, value)).collect(),
        rails: body.rails.iter().map(|(_, rail)| rail_line(language, rail, machine)).collect(),
        unwind: body.unwind.as_ref().map_or_else(Vec::new, |one| unwind(language, one)),
        screws: machine.fasteners.iter().map(|one| screw(&one.sheet, language)).collect(),
        zones: body
            .zones
            .iter()
            .map(|(_, zone)| zone_line(language, zone, prepared, machine))
            .collect(),
        energy: machine.energy.iter().map(|one| energy_line(one, language)).collect(),
        instruments: machine.instruments.values().map(|i| instrument(language, &i.facts)).collect(),
        procedures: body
            .changeover
            .iter()
            .map(|entry| procedure_link(prepared, &entry.used.procedure))
            .collect(),
        recipes: recipes
            .filter(|recipe| recipe.machines.contains(&body.id))
            .map(|recipe| RecipeLine {
                name: recipe.name.clone(),
                id: recipe.id.clone(),
                revision: recipe.revision.clone(),
                date: words::date(language, &recipe.date),
                author: recipe.author.clone(),
                reason: recipe.reason.clone(),
            })
            .collect(),
        computed: computed().map(|one| one.recipe.name.clone()).collect(),
        settings: settings(language, computed().collect()),
        jobs,
        more_jobs,
        history: String::new(),
    }
}

/// The recipes that could be computed for a machine.
fn computed<'p>(prepared: &'p Prepared, id: &str) -> impl Iterator<Item = &'p Computed> {
    prepared.computed.iter().filter(move |((machine, _), _)| machine == id).map(|(_, one)| &**one)
}

/// Every setting of these recipes, with what each of them sets.
fn settings(language: Language, recipes: Vec<&Computed>) -> Vec<SettingLine> {
    let mut lines: Vec<(&str, SettingLine)> = Vec::new();
    for setting in recipes.iter().flat_map(|recipe| &recipe.settings) {
        if lines.iter().any(|(id, _)| *id == setting.id) {
            continue;
        }
        let value = |recipe: &&Computed| {
            let own = recipe.settings.iter().find(|own| own.id == setting.id);
            own.map_or_else(Fact::default, |own| value(language, own))
        };
        let values = recipes.iter().map(value).collect();
        let (name, place) = (setting.name.clone(), setting.place.clone());
        lines.push((&setting.id, SettingLine { name, place, values }));
    }
    lines.into_iter().map(|(_, line)| line).collect()
}

/// What a recipe sets, with its limits as the name.
fn value(language: Language, setting: &Setting) -> Fact {
    let with_unit = |text: &str| words::numbers(language, &setting.with_unit(text));
    let limits = match (setting.low.as_deref(), setting.high.as_deref()) {
        (Some(low), Some(high)) => {
            let (low, high) = (words::number(language, low), with_unit(high));
            language.text("site-limits", &[("low", low.into()), ("high", high.into())])
        }
        (Some(low), None) => language.text("site-at-least", &[("low", with_unit(low).into())]),
        (None, Some(high)) => language.text("site-at-most", &[("high", with_unit(high).into())]),
        (None, None) => String::new(),
    };
    Fact::new(limits, words::numbers(language, &setting.set_to()))
}

fn unwind(language: Language, entry: &UnwindEntry) -> Vec<Fact> {
    let facts = [
        (language.word("site-widest"), Some(&entry.widest)),
        (language.word("site-narrowest"), entry.narrowest.as_ref()),
        (language.word("site-largest"), entry.largest.as_ref()),
    ];
    let stated = facts.into_iter().filter_map(|(name, value)| Some((name, value?)));
    stated.map(|(name, value)| Fact::new(name, words::value(language, value))).collect()
}

/// A fact of a formula, its name and value for people.
fn fact(language: Language, name: &str, value: &str) -> Fact {
    Fact::new(spoken(name), words::value(language, value))
}

/// An inspection with its day in words.
fn inspected(language: Language, inspection: &Inspection) -> Inspection {
    Inspection { date: words::date(language, &inspection.date), ..inspection.clone() }
}

/// An instrument with its numbers and its day as the language writes them.
fn instrument(language: Language, facts: &Instrument) -> Instrument {
    Instrument {
        resolution: words::value(language, &facts.resolution),
        error_limit: words::value(language, &facts.error_limit),
        range: words::value(language, &facts.range),
        calibration_due: words::date(language, &facts.calibration_due),
        ..facts.clone()
    }
}

/// A machine's placard.
pub(super) fn placard(frame: Frame, prepared: &Prepared, machine: &Machine) -> PlacardView {
    let (body, language) = (&machine.file.body, frame.language);
    let facts = lockout_facts(language, prepared, machine);
    PlacardView {
        frame,
        machine: Link::new(&body.name, paths::machine(&body.id)),
        id: body.id.clone(),
        kind: body.kind.clone(),
        location: body.location.clone(),
        locks: PlacardView::locks(&machine.energy),
        sources: machine.energy.iter().map(|one| energy_line(one, language)).collect(),
        zones: body.zones.iter().map(|(_, zone)| placard_zone(zone, machine)).collect(),
        facts,
        inspection: machine.inspection.as_ref().map(|one| inspected(language, one)),
        revision: words::short_digest(&machine.file.sha256),
    }
}

/// Stop position, powered movement, intended use, enforcement; only what is stated.
fn lockout_facts(language: Language, prepared: &Prepared, machine: &Machine) -> Vec<Fact> {
    let body = &machine.file.body;
    let procedures = prepared.plant.procedures_of(body).into_iter();
    let uses = procedures.map(|one| one.front.intended_use.trim()).filter(|text| !text.is_empty());
    let inching = machine.inching.as_ref().map(|one| {
        let (control, held, most) = (&one.control, &one.held, &one.most);
        language.text(
            "site-inching-most",
            &[
                ("control", control.into()),
                ("held", held.into()),
                ("most", words::value(language, most).into()),
            ],
        )
    });
    let facts = [
        (language.word("site-stop-position"), body.stop_position.clone()),
        (language.word("site-inching"), inching.unwrap_or_default()),
        (language.word("site-intended-use"), uses.collect::<Vec<_>>().join("; ")),
        (language.word("site-enforced"), prepared.plant.facts.body.enforced_by.clone()),
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

fn rail_line(language: Language, rail: &RailEntry, machine: &Machine) -> RailLine {
    let zone = machine.file.body.zones.get(&rail.zone);
    let screw = rail.clamp.as_ref().and_then(|id| machine.file.body.fasteners.get(id));
    let spares = match rail.spares {
        SparesWord::Parked => "site-spares-parked",
        SparesWord::Off => "site-spares-off",
    };
    let facts = [
        ("site-left-end", Some(rail.left_end.clone())),
        ("site-right-end", Some(rail.right_end.clone())),
        ("site-holders", Some(rail.holders.clone())),
        ("site-holder-width", Some(rail.holder_width.clone())),
        ("site-spacing", Some(rail.spacing.clone())),
        ("site-lane-pitch", rail.lane_pitch.clone()),
        ("site-lanes-fitted", rail.lanes_fitted.clone()),
        ("site-tip", rail.tip_offset.as_deref().map(|by| tip(language, by))),
        ("site-scale", rail.scale.as_ref().map(|one| scale(language, one))),
        ("site-spares", Some(language.word(spares).to_owned())),
        ("site-clamp", screw.map(|screw| screw.name.clone())),
    ];
    let stated = facts.into_iter().filter_map(|(key, value)| Some((language.word(key), value?)));
    let own = rail.facts.iter().map(|(name, value)| fact(language, name, value));
    RailLine {
        name: rail.name.clone(),
        zone: zone.map_or(rail.zone.clone(), |zone| zone.name.clone()),
        facts: stated
            .map(|(name, value)| Fact::new(name, words::value(language, &value)))
            .chain(own)
            .collect(),
        obstacles: rail.obstacles.iter().map(|one| obstacle(language, one)).collect(),
    }
}

/// Towards which side the tip stands off the middle of its holder; left is negative.
fn tip(language: Language, offset: &str) -> String {
    match offset.trim_start().strip_prefix(['-', '\u{2212}']) {
        Some(by) => language
            .text("site-tip-left", &[("by", words::value(language, by.trim_start()).into())]),
        None => language.text("site-tip-right", &[("by", words::value(language, offset).into())]),
    }
}

fn scale(language: Language, scale: &ScaleEntry) -> String {
    let key = match scale.grows {
        Side::Left => "site-scale-left",
        Side::Right => "site-scale-right",
    };
    language.text(key, &[("at", words::value(language, &scale.at_datum).into())])
}

fn obstacle(language: Language, obstacle: &ObstacleEntry) -> Fact {
    let (from, until) =
        (words::numbers(language, &obstacle.from), words::numbers(language, &obstacle.to));
    let edges = language.text("site-from-until", &[("from", from.into()), ("to", until.into())]);
    Fact::new(&obstacle.name, edges)
}

fn zone_line(
    language: Language,
    zone: &ZoneEntry,
    prepared: &Prepared,
    machine: &Machine,
) -> ZoneLine {
    let source = |id: &String| {
        machine.file.body.energy.get(id).map_or(id.clone(), |source| source.name.clone())
    };
    let hazard = |id: &String| match prepared.hazards.get(id) {
        Some(hazard) => {
            Spoken { text: hazard.hazard.clone(), lang: words::lang(hazard.language, language) }
        }
        None => Spoken { text: id.clone(), lang: String::new() },
    };
    let (guard, interlock) = (&zone.guard, &zone.interlock);
    ZoneLine {
        name: zone.name.clone(),
        guard: match interlock.as_str() {
            "" => guard.clone(),
            _ => language.text(
                "site-interlock",
                &[("guard", guard.into()), ("interlock", interlock.into())],
            ),
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
pub(super) fn procedure_line(language: Language, procedure: &Procedure) -> ProcedureLine {
    let front = &procedure.front;
    let shipped = procedure.file.starts_with("shipped/");
    ProcedureLine {
        link: Link::new(&front.title, paths::procedure(&front.id)),
        id: front.id.clone(),
        revision: front.revision.clone(),
        date: words::date(language, &front.date),
        author: front.author.clone(),
        origin: language.word(if shipped { "site-shipped" } else { "site-own" }).to_owned(),
    }
}

/// A procedure's page.
pub(super) fn procedure(
    frame: Frame,
    line: ProcedureLine,
    prepared: &Prepared,
    procedure: &Procedure,
) -> ProcedureView {
    let (front, language) = (&procedure.front, frame.language);
    // A rail that is a parameter has the name that it has where nobody says another.
    let rail = front.applies.rail.as_ref().map(|rail| {
        let default = front.parameters.get(rail).and_then(|entry| entry.default.as_ref());
        default.unwrap_or(rail)
    });
    let scope = match (rail, front.applies.energy) {
        (Some(rail), _) => language.text("site-for-rail", &[("rail", rail.into())]),
        (None, true) => language.word("site-for-energy").to_owned(),
        (None, false) => language.word("site-for-any").to_owned(),
    };
    let uses = prepared.machines.values().filter(|machine| {
        let own = prepared.plant.procedures_of(&machine.file.body);
        own.iter().any(|own| own.front.id == front.id)
    });
    ProcedureView {
        frame,
        line,
        lang: words::lang(Some(procedure.language), language),
        flag: procedure.flag(language),
        languages: languages(language, prepared, &front.id),
        reason: front.reason.clone(),
        scope,
        told: told(language, procedure),
        standards: front.standards.clone(),
        sha256: procedure.sha256.clone(),
        purpose: procedure.intro.clone(),
        steps: procedure_steps(prepared, procedure),
        used: uses
            .map(|machine| {
                Link::new(&machine.file.body.name, paths::machine(&machine.file.body.id))
            })
            .collect(),
        approvals: Vec::new(),
        inspections: Vec::new(),
        questions: Questions::default(),
    }
}

/// The languages that a procedure is in, of those that the plant asks for; what must be known of a
/// translation stands beside it.
fn languages(page: Language, prepared: &Prepared, id: &str) -> Vec<Spoken> {
    let plant = prepared.plant;
    let editions = plant.editions.values();
    let known = [plant].into_iter().chain(editions).filter_map(|one| one.procedures.get(id));
    let mut named: Vec<Spoken> = Vec::new();
    for procedure in known {
        let own = procedure.language;
        let name = own.word("language-name");
        let text = match procedure.flag(own).as_str() {
            "" => name.to_owned(),
            flag => format!("{name}. {flag}"),
        };
        let spoken = Spoken { text, lang: words::lang(Some(own), page) };
        if !named.contains(&spoken) {
            named.push(spoken);
        }
    }
    named
}

/// What a procedure is told by the place that uses it, and when it is needed.
fn told(language: Language, procedure: &Procedure) -> Vec<Fact> {
    let only = only_when(language, &procedure.front.when);
    let only = Some(only).filter(|only| !only.is_empty());
    let only = only.map(|only| Fact::new(language.word("reuse-only-when"), only));
    let parameters = procedure.front.parameters.iter().map(|(name, entry)| {
        let what = kind_words(entry).shown(language);
        let what = match &entry.default {
            Some(default) => {
                let parts = [("what", what.into()), ("default", default.into())];
                language.text("reuse-told-or", &parts)
            }
            None => what,
        };
        Fact::new(name, what)
    });
    only.into_iter().chain(parameters).collect()
}

/// Conditions on machine and changes, in words; empty without any.
fn only_when(language: Language, when: &WhenEntry) -> String {
    let lists = [
        ("reuse-when-kinds", &when.kinds),
        ("reuse-when-rails", &when.rails),
        ("reuse-when-zones", &when.zones),
        ("reuse-when-instruments", &when.instruments),
        ("reuse-when-energy", &when.energy),
        ("reuse-when-facts", &when.facts),
        ("reuse-changes", &when.changes),
    ];
    let said = lists.iter().filter(|(_, names)| !names.is_empty());
    let said = said.map(|(key, names)| language.text(key, &[("names", names.join(", ").into())]));
    said.collect::<Vec<_>>().join("; ")
}

/// The steps, and where another procedure stands among them.
fn procedure_steps(prepared: &Prepared, procedure: &Procedure) -> Vec<ProcedureStep> {
    let mut steps = Vec::new();
    let included = |index: usize| {
        let here = procedure.includes.iter().filter(move |include| include.before == index);
        here.map(|include| included_step(procedure.language, prepared, include))
    };
    for (index, step) in procedure.steps.iter().enumerate() {
        steps.extend(included(index));
        steps.push(procedure_step(procedure.language, prepared, step));
    }
    steps.extend(included(procedure.steps.len()));
    steps
}

/// The place of an included procedure, with what it is told.
fn included_step(language: Language, prepared: &Prepared, include: &Include) -> ProcedureStep {
    let id = &include.used.procedure;
    let known = prepared.plant.procedures.get(id);
    let given = include.used.with.iter().map(|(name, value)| Fact::new(name, value));
    ProcedureStep {
        title: known.map_or(id, |own| &own.front.title).clone(),
        text: language.text("reuse-stands-here", &[("id", id.into())]),
        hazards: Vec::new(),
        facts: given.collect(),
    }
}

fn procedure_step(language: Language, prepared: &Prepared, step: &StepText) -> ProcedureStep {
    let StepEntry {
        needs, stage, zone, hazards, tools, repeat, checks, when, sign, minutes, ..
    } = &step.facts;
    let word = |key| language.word(key);
    let signs = [
        ("site-sign-performed", &sign.performed),
        ("site-sign-verified", &sign.verified),
        ("site-sign-released", &sign.released),
    ];
    let signs = signs
        .iter()
        .filter_map(|(key, role)| Some(language.text(key, &[("role", (*role).as_ref()?.into())])));
    let facts = [
        ("site-when-job", when.job.map_or("", |job| word(job_key(job))).to_owned()),
        ("reuse-only-when", only_when(language, when)),
        ("site-needs", word(needs_key(*needs)).to_owned()),
        ("site-stage", stage_key(*stage).map_or("", word).to_owned()),
        ("site-zone", zone.clone().unwrap_or_default()),
        ("site-tools", tools.join("; ")),
        ("site-repeats", repeat.clone().unwrap_or_default()),
        ("site-checks", checks.join("; ")),
        ("site-signed", signs.collect::<Vec<_>>().join("; ")),
        ("site-step-minutes", minutes.map_or(String::new(), |minutes| minutes.to_string())),
    ];
    let stated = facts.into_iter().filter(|(_, value)| !value.is_empty());
    ProcedureStep {
        title: step.title.clone(),
        text: step.text.clone(),
        hazards: hazards.iter().map(|id| hazard_line(language, prepared, id)).collect(),
        facts: stated.map(|(key, value)| Fact::new(word(key), value)).collect(),
    }
}

/// Signal word of a hazard, its name and how it is avoided, all in the language of the message.
fn hazard_line(step: Language, prepared: &Prepared, id: &str) -> HazardLine {
    let Some(hazard) = prepared.hazards.get(id) else {
        return HazardLine { text: id.to_owned(), ..HazardLine::default() };
    };
    let own = hazard.language.unwrap_or(prepared.plant.language);
    HazardLine {
        word: words::signal(own, hazard.signal).to_owned(),
        text: format!("{}: {}", hazard.hazard, hazard.avoid),
        lang: words::lang(Some(own), step),
    }
}

fn job_key(job: JobWord) -> &'static str {
    match job {
        JobWord::Crew => "site-job-crew",
        JobWord::ShiftChange => "site-job-shift",
        JobWord::Contractors => "site-job-contractors",
    }
}

fn needs_key(needs: EnergyState) -> &'static str {
    match needs {
        EnergyState::Any => "site-needs-any",
        EnergyState::Energised => "site-needs-energised",
        EnergyState::Isolated => "site-needs-isolated",
        EnergyState::Test => "site-needs-test",
    }
}

/// What a stage is called; ordinary work has no name.
fn stage_key(stage: Stage) -> Option<&'static str> {
    Some(match stage {
        Stage::Notify => "site-stage-notify",
        Stage::Prepare => "site-stage-prepare",
        Stage::Shutdown => "site-stage-shutdown",
        Stage::Isolate => "site-stage-isolate",
        Stage::Lock => "site-stage-lock",
        Stage::Relieve => "site-stage-relieve",
        Stage::TryOut => "site-stage-try-out",
        Stage::Verify => "site-stage-verify",
        Stage::Work => return None,
        Stage::Inspect => "site-stage-inspect",
        Stage::ClearPeople => "site-stage-clear-people",
        Stage::Unlock => "site-stage-unlock",
        Stage::NotifyAfter => "site-stage-notify-after",
        Stage::Restart => "site-stage-restart",
    })
}

/// The lists of the site.
pub(super) fn list_entries(language: Language, has_register: bool) -> Vec<SearchEntry> {
    let lists = [
        ("site-title-start", paths::START),
        ("site-title-jobs", paths::JOBS),
        ("shift-shifts", paths::SHIFTS),
        ("frame-machines", paths::MACHINES),
        ("frame-procedures", paths::PROCEDURES),
        ("frame-records", paths::RECORDS),
        ("schemas-title", paths::SCHEMAS),
        ("uses-title", paths::USES),
        ("parts-title", paths::PARTS),
    ];
    let register = has_register.then_some(("register-title", paths::REGISTER));
    let entry = |(key, path)| SearchEntry {
        link: Link::new(language.word(key), path),
        ..SearchEntry::default()
    };
    lists.into_iter().chain(register).map(entry).collect()
}

/// A job and its papers.
pub(super) fn job_entry(line: &JobLine) -> SearchEntry {
    // What is left of a job without a page is its record.
    let (page, record) = match line.page.is_empty() {
        true => (&line.record, None),
        false => (&line.page, Some(Link::new(&line.state.word, &line.record))),
    };
    let record = record.filter(|link| !link.href.is_empty());
    let words = [&line.from, "\u{2192}", &line.to, &line.order, &line.machine.text];
    let state = if record.is_none() { line.state.word.as_str() } else { "" };
    let words = words.iter().map(|word| word.as_ref()).chain([&*line.day, &*line.shift, state]);
    SearchEntry {
        link: Link::new(&line.id, page),
        words: joined(words),
        also: line.papers.first().cloned().into_iter().chain(record).collect(),
    }
}

/// A machine, what stands on it and what it is fed by.
pub(super) fn machine_entry(
    language: Language,
    prepared: &Prepared,
    machine: &Machine,
) -> SearchEntry {
    let body = &machine.file.body;
    let rails = body.rails.iter().map(|(_, rail)| rail.name.as_str());
    let zones = body.zones.iter().map(|(_, zone)| zone.name.as_str());
    let hazards = body.zones.iter().flat_map(|(_, zone)| &zone.hazards);
    let hazards = hazards.filter_map(|id| Some(prepared.hazards.get(id)?.hazard.as_str()));
    let sources = machine.energy.iter().map(|source| source.name.as_str());
    let screws = machine.fasteners.iter().map(|screw| screw.sheet.name.as_str());
    let own = [body.id.as_str(), &body.kind, &body.location];
    let words = own.into_iter().chain(rails).chain(zones).chain(sources).chain(screws);
    SearchEntry {
        link: Link::new(&body.name, paths::machine(&body.id)),
        words: joined(words.chain(hazards)),
        also: vec![Link::new(language.word("site-placard"), paths::placard(&body.id))],
    }
}

/// The recipes of a machine, which stand on its page.
pub(super) fn recipe_entries(
    language: Language,
    prepared: &Prepared,
    machine: &Machine,
) -> Vec<SearchEntry> {
    let body = &machine.file.body;
    let recipes = prepared.plant.recipes.values().map(|recipe| &recipe.body);
    let runs = recipes.filter(|recipe| recipe.machines.contains(&body.id));
    let entry = |recipe: &RecipeFile| {
        let allergens = recipe.allergens.iter().map(String::as_str);
        let day = words::date(language, &recipe.date);
        let own = [recipe.id.as_str(), &recipe.revision, &day, &body.name];
        SearchEntry {
            link: Link::new(&recipe.name, format!("{}#recipes", paths::machine(&body.id))),
            words: joined(own.into_iter().chain(allergens)),
            also: Vec::new(),
        }
    };
    runs.map(entry).collect()
}

/// A procedure, its steps and hazards.
pub(super) fn procedure_entry(prepared: &Prepared, procedure: &Procedure) -> SearchEntry {
    let front = &procedure.front;
    let titles = procedure.steps.iter().map(|step| step.title.as_str());
    let hazards = procedure.steps.iter().flat_map(|step| &step.facts.hazards);
    let hazards = hazards.filter_map(|id| Some(prepared.hazards.get(id)?.hazard.as_str()));
    SearchEntry {
        link: Link::new(&front.title, paths::procedure(&front.id)),
        words: joined([front.id.as_str()].into_iter().chain(titles).chain(hazards)),
        also: Vec::new(),
    }
}

/// Words apart, each once, empty ones left out.
fn joined<'w>(words: impl Iterator<Item = &'w str>) -> String {
    let mut once: Vec<&str> = Vec::new();
    for word in words.filter(|word| !word.is_empty()) {
        if !once.contains(&word) {
            once.push(word);
        }
    }
    once.join(" \u{b7} ")
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
    let (report, language) = (&record.report, frame.language);
    let (why, more) = reasons(language, report, packet);
    let mut evidence = Vec::new();
    if let Some(bytes) = &record.raw.packet {
        evidence.push(file(PACKET, language.word("record-packet-file"), bytes));
    }
    if let Some(text) = signers {
        evidence.push(file(SIGNERS, language.word("record-signers-file"), text.as_bytes()));
    }
    let entry = |entry| entry_view(language, entry, packet);
    let job = job_of(&line.id).to_owned();
    RecordView {
        frame,
        line,
        job,
        why,
        more,
        packet_digest: report.packet.clone().unwrap_or_default(),
        namespace,
        entries: report.entries.iter().map(entry).collect(),
        log: Link::default(),
        history: String::new(),
        evidence,
    }
}

/// Why a record has its state: findings, deviations, the first of what is missing; and how many more.
fn reasons(language: Language, report: &Report, packet: Option<&Packet>) -> (Vec<String>, usize) {
    let findings = report.findings.iter().map(|finding| {
        let severity = finding.severity.words().shown(language);
        let view = audit_finding(&report.job, finding, language);
        format!("{severity} ({}): {}", view.place, view.message)
    });
    let closing = closing(language, report).into_iter();
    let deviations = closing
        .chain(deviations(language, report, packet))
        .chain(raised(language, report, packet))
        .chain(taken_back(language, report));
    let missing = report.missing.iter().take(MOST_MISSING).map(|one| one.words().shown(language));
    let reasons = findings.chain(deviations).chain(missing).collect();
    (reasons, report.missing.len().saturating_sub(MOST_MISSING))
}

/// Each reading outside its limits, and who accepted it with which reason.
fn deviations(language: Language, report: &Report, packet: Option<&Packet>) -> Vec<String> {
    let says = || statements(report);
    let mut lines = Vec::new();
    for (number, statement) in says() {
        let Some(reading) = statement.reading.as_ref().filter(|r| r.verdict != Verdict::Within)
        else {
            continue;
        };
        let EntryReading { label, value, limits, .. } =
            entry_reading(language, reading, step_of(packet, &statement.step));
        let raised = says().find(|(_, says)| says.concerns == Some(number));
        let raised = raised.map(|(raised, _)| raised);
        let is_of =
            |accepts: Option<u64>| accepts.is_some_and(|seq| seq == number || raised == Some(seq));
        let accepted = says().find(|(_, says)| is_of(says.accepts));
        let corrected = says().find(|(_, says)| says.corrects == Some(number));
        let by = match (accepted, corrected) {
            (_, Some(entry)) => answered(language, "record-corrected-by", entry),
            (Some(entry), None) => answered(language, "record-accepted-by", entry),
            (None, None) => language.word("record-accepted-by-nobody").to_owned(),
        };
        let verdict = language.word(match reading.verdict {
            Verdict::Within => "record-is-within",
            Verdict::Outside => "record-is-outside",
            Verdict::TooClose => "record-is-too-close",
        });
        lines.push(language.text(
            "record-deviation",
            &[
                ("entry", number.to_string().into()),
                ("label", label.into()),
                ("value", value.into()),
                ("verdict", verdict.into()),
                ("limits", limits.into()),
                ("by", by.into()),
            ],
        ));
    }
    lines
}

/// Everything that was stated, by number of its entry.
fn statements(report: &Report) -> impl Iterator<Item = (u64, &audit::Statement)> {
    report.entries.iter().filter_map(|entry| Some((entry.number, entry.says.as_ref()?)))
}

/// Who stopped the job or closed the record for a new packet, and why.
fn closing(language: Language, report: &Report) -> Option<String> {
    let is_early = |kind| matches!(kind, Kind::Abandoned | Kind::Superseded);
    let (entry, says) = statements(report).find(|(_, says)| is_early(says.kind))?;
    let kind = says.kind.words().shown(language);
    let by = answered(language, "entries-closed-by", (entry, says));
    Some(format!("{kind} {by}"))
}

/// Each raised deviation, and who accepted it or took it back.
fn raised(language: Language, report: &Report, packet: Option<&Packet>) -> Vec<String> {
    let line = |(number, says): (u64, &audit::Statement)| {
        let later = || statements(report).filter(move |(later, _)| *later > number);
        let of_it = |target: Option<u64>| target == Some(number);
        let of_reading = |target: Option<u64>| target.is_some() && target == says.concerns;
        let back = later().find(|(_, says)| of_it(says.withdraws));
        let corrected = later().find(|(_, says)| of_reading(says.corrects));
        let accepted = later().find(|(_, says)| of_it(says.accepts) || of_reading(says.accepts));
        let end = match (back, corrected, accepted) {
            (Some(entry), ..) => answered(language, "entries-back-by", entry),
            (None, Some(entry), _) => answered(language, "record-corrected-by", entry),
            (None, None, Some(entry)) => answered(language, "record-accepted-by", entry),
            (None, None, None) => language.word("record-accepted-by-nobody").to_owned(),
        };
        let reason = says.note.as_deref().unwrap_or_default().trim_end_matches('.');
        let parts = [
            ("entry", number.to_string().into()),
            ("step", step_words(step_of(packet, &says.step), says).into()),
            ("name", (&says.name).into()),
            ("role", (&says.role).into()),
            ("reason", reason.into()),
            ("end", end.into()),
        ];
        language.text("entries-raised", &parts)
    };
    statements(report).filter(|(_, says)| says.kind == Kind::DeviationRaised).map(line).collect()
}

/// Each signature that was taken back; raised deviations say so themselves.
fn taken_back(language: Language, report: &Report) -> Vec<String> {
    let kind_of = |target: u64| {
        let target = statements(report).find(|(number, _)| *number == target);
        target.map(|(_, says)| says.kind).filter(|kind| *kind != Kind::DeviationRaised)
    };
    let line = |(number, says): (u64, &audit::Statement)| {
        let target = says.withdraws?;
        let by = answered(language, "entries-back-by", (number, says));
        let parts = [
            ("entry", target.to_string().into()),
            ("kind", kind_of(target)?.words().into()),
            ("by", by.into()),
        ];
        Some(language.text("entries-back", &parts))
    };
    statements(report).filter_map(line).collect()
}

/// Who corrected or accepted a reading, in which entry and why.
fn answered(language: Language, key: &str, (entry, says): (u64, &audit::Statement)) -> String {
    language.text(
        key,
        &[
            ("name", (&says.name).into()),
            ("role", (&says.role).into()),
            ("entry", entry.to_string().into()),
            ("reason", says.note.as_deref().unwrap_or_default().into()),
        ],
    )
}

fn step_of<'p>(packet: Option<&'p Packet>, id: &str) -> Option<&'p Step> {
    packet?.steps.iter().find(|step| step.id == id)
}

fn file(name: &str, what: &str, bytes: &[u8]) -> EvidenceFile {
    EvidenceFile { name: name.to_owned(), what: what.to_owned(), sha256: sha256_hex(bytes) }
}

fn entry_view(language: Language, entry: &AuditedEntry, packet: Option<&Packet>) -> EntryView {
    let (word, tone) = match (entry.sound, entry.signer_ok) {
        (true, _) => ("record-good", Tone::Good),
        (false, true) => ("record-see-findings", Tone::Bad),
        (false, false) => ("record-not-good", Tone::Bad),
    };
    let view = EntryView {
        number: entry.number,
        digest: entry.digest.clone(),
        file: format!("{:06}.json", entry.number),
        signature: format!("{:06}.json.sig", entry.number),
        state: State { word: language.word(word).to_owned(), tone },
        ..EntryView::default()
    };
    let Some(says) = &entry.says else {
        let meaning = language.word("record-kind-unreadable").to_owned();
        return EntryView { meaning, ..view };
    };
    let step = step_of(packet, &says.step);
    let reading = |reading| entry_reading(language, reading, step);
    EntryView {
        time: says.at.clone(),
        person: says.name.clone(),
        principal: says.by.clone(),
        role: says.role.clone(),
        meaning: kind(language, says.kind).to_owned(),
        sentence: says.meaning.clone(),
        step: step_words(step, says),
        readings: says.reading.iter().map(reading).collect(),
        corrects: says.corrects,
        accepts: says.accepts,
        head: head(language, says),
        note: says.note.clone().unwrap_or_default(),
        more: more(language, says),
        ..view
    }
}

/// What the note of an entry is, for the kinds that always have one.
fn head(language: Language, says: &audit::Statement) -> String {
    let of = |key, entry: u64| language.text(key, &[("entry", entry.to_string().into())]);
    match (says.kind, says.withdraws, says.concerns) {
        (Kind::Withdrawn, Some(target), _) => of("entries-why-of-back", target),
        (Kind::DeviationRaised, _, Some(reading)) => of("entries-why-of-reading", reading),
        (Kind::DeviationRaised, ..) => language.word("entries-why-of-step").to_owned(),
        (Kind::Abandoned | Kind::Superseded, ..) => language.word("entries-reason").to_owned(),
        _ => String::new(),
    }
}

/// What an entry states beside its sentence.
fn more(language: Language, says: &audit::Statement) -> Vec<String> {
    let outside = says.outside.then(|| language.word("entries-from-outside").to_owned());
    let of = |key, name, text: &String| language.text(key, &[(name, text.into())]);
    let locks = says.locks.as_ref().map(|locks| of("entries-locks", "locks", locks));
    let becomes = says.becomes.as_ref().map(|digest| of("entries-becomes", "digest", digest));
    [outside, locks, becomes].into_iter().flatten().collect()
}

fn kind(language: Language, kind: Kind) -> &'static str {
    language.word(match kind {
        Kind::Reading => "record-kind-reading",
        Kind::Performed => "record-kind-performed",
        Kind::Verified => "record-kind-verified",
        Kind::DeviationAccepted => "record-kind-deviation",
        Kind::Released => "record-kind-released",
        Kind::DeviationRaised => "entries-kind-raised",
        Kind::Withdrawn => "entries-kind-withdrawn",
        Kind::Abandoned => "entries-kind-abandoned",
        Kind::Superseded => "entries-kind-superseded",
    })
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

fn entry_reading(
    language: Language,
    reading: &audit::StatedReading,
    step: Option<&Step>,
) -> EntryReading {
    let blank = step.and_then(|step| step.readings.iter().find(|blank| blank.id == reading.blank));
    let with_unit = |text: String| match reading.unit.as_str() {
        "" => text,
        unit => format!("{text} {unit}"),
    };
    let (verdict, tone) = match reading.verdict {
        Verdict::Within => ("record-within", Tone::Good),
        Verdict::TooClose => ("record-too-close", Tone::Care),
        Verdict::Outside => ("record-outside", Tone::Bad),
    };
    EntryReading {
        label: blank.map_or(reading.blank.clone(), |blank| blank.label.clone()),
        value: with_unit(language.decimals(&reading.value)),
        limits: blank.map_or(String::new(), |blank| limits(language, blank)),
        verdict: language.word(verdict).to_owned(),
        tone,
    }
}

/// Limits of a blank, and where a reading is surely within them when that is not the same.
fn limits(language: Language, blank: &Reading) -> String {
    let limits = words::limits(language, blank.low.as_deref(), blank.high.as_deref(), &blank.unit);
    match rules::surely_within(blank) {
        Some(sure) => format!("{limits}, {}", words::numbers(language, &sure.shown(language))),
        None => limits,
    }
}

#[cfg(test)]
mod tests {
    use crate::audit::{Subject, audit_record};
    use crate::page::site::{Frame, JobLine, record_html};
    use crate::publish::site::Recorded;
    use crate::record::entry::Kind;
    use crate::record::people::{Person, Term};
    use crate::record::store::RawRecord;
    use crate::record::{TrustList, fixture};

    #[test]
    fn the_tablet_lists_those_who_hold_a_role_on_the_day_of_the_job() {
        let term = |role: &str, from: &str, until: Option<&str>| Term {
            role: role.to_owned(),
            from: from.parse().unwrap(),
            until: until.map(|day| day.parse().unwrap()),
        };
        let roles = vec![
            term("technician", "2024-01-01", Some("2024-06-30")),
            term("lead", "2024-07-01", None),
            term("technician", "2025-01-01", None),
        ];
        let person = Person { id: "a@b".to_owned(), name: "A".to_owned(), roles };
        let on = |day: &str| super::person(&person, day.parse().ok()).map(|line| line.roles);
        assert_eq!(on("2023-12-31"), None);
        assert_eq!(on("2024-06-30"), Some(vec!["technician".to_owned()]));
        assert_eq!(on("2025-01-01"), Some(vec!["lead".to_owned(), "technician".to_owned()]));
        assert_eq!(on("no day"), Some(vec!["technician".to_owned(), "lead".to_owned()]));
    }

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

    /// The good record with a deviation raised about the outside reading before it is accepted.
    #[test]
    fn a_raised_deviation_says_how_it_ended() {
        let mut entries: Vec<_> = fixture::past(13).into_iter().map(|past| past.entry).collect();
        let mut raised = entries[7].clone();
        (raised.kind, raised.concerns) = (Kind::DeviationRaised, Some(7));
        raised.meaning = Kind::DeviationRaised.meaning().to_owned();
        raised.note = Some("The clamp slips.".to_owned());
        entries.insert(9, raised);
        for (seq, entry) in (1..).zip(&mut entries) {
            entry.seq = seq;
        }
        (entries[9].at, entries[10].accepts) = (entries[8].at.clone(), Some(7));
        check(
            fixture::raw_of(fixture::seal(entries)),
            &[
                "entry 10: Ada Doer (technician) reported a deviation in 4 ",
                "The clamp slips; accepted by Cy Quality (quality) in entry 11: Test strip holds",
                "<br>What is not right with entry 7: The clamp slips.",
            ],
        );
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
