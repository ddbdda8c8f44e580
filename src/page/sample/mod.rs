//! A made-up plant for tests: every kind of page with everything it can show.
#![allow(
    clippy::disallowed_methods,
    reason = "the pages are written to the build folder for the browser tests"
)]

use std::path::Path;

use crate::canonical::{line, sha256_hex};
use crate::language::Language;
use crate::packet::model::{Inspection, Packet, RailLayout};
use crate::plan::timeline::Job;

use super::drawing::{Chart, Lines, Point};
use super::kit::shelf_views;
use super::packet::{PacketIssue, PacketView, packet_html, screw};
use super::plan::{PlanView, Worked, plan_html};
use super::site::{
    self, ApprovalLine, ChangeoverLine, EntryReading, EntryView, EvidenceFile, Fact, FindingView,
    Frame, HazardLine, HistoryLine, HistoryView, InspectionLine, JobLine, JobView, JobsView, Link,
    MachineHistoryView, MachineLine, MachineView, MachinesView, PlacardView, PlacardZone,
    PointLine, ProcedureLine, ProcedureStep, ProcedureView, ProceduresView, ProposalView,
    QuestionView, Questions, RailLine, RecipeLine, RecordLine, RecordView, RecordsView,
    RegisterEntry, RegisterView, SearchEntry, SearchGroup, SearchView, SeriesLine, SeriesView,
    SettingLine, ShiftJob, ShiftLine, ShiftView, ShiftsView, Spoken, StartView, State, TagsView,
    Tone, ZoneLine,
};
use super::stop::StopView;
use super::strip::strip_html;
use super::{assets, paths, words};
use crate::plan::kit::Fetching;

/// Six lanes, nine knife holders of which two are spares, two guides, five perforating knives, three
/// sources, 18 steps.
pub(super) fn packet() -> Packet {
    serde_yaml::from_str(include_str!("packet.yaml")).unwrap()
}

/// The knife rail of that packet.
pub(super) fn knife_rail() -> RailLayout {
    packet().rails.remove(0)
}

/// The guide rail of that packet.
pub(super) fn guide_rail() -> RailLayout {
    packet().rails.remove(1)
}

/// Its rail with fixed things, a scale, a gap between lanes, and holders that come off and on.
pub(super) fn perforating_rail() -> RailLayout {
    packet().rails.remove(2)
}

pub(super) fn digest() -> String {
    sha256_hex(&line(&packet()).unwrap())
}

pub(super) fn issue() -> PacketIssue {
    PacketIssue {
        state: "Issued, nothing signed yet".into(),
        program: "witnessmark 0.1.0".into(),
        is_outdated: false,
        checkpoint: String::new(),
    }
}

fn frame() -> Frame {
    Frame {
        language: Language::English,
        plant: packet().plant.name,
        plant_digest: sha256_hex(b"plant"),
        program: "witnessmark 0.1.0".into(),
        handbook: String::new(),
    }
}

fn state(word: &str, tone: Tone) -> State {
    State { word: word.into(), tone }
}

fn job() -> JobLine {
    let packet = packet();
    JobLine {
        id: packet.job.id.clone(),
        day: words::date(Language::English, &packet.job.date),
        shift_page: paths::shift(&paths::shift_name(&packet.job.date, &packet.job.shift)),
        date: packet.job.date,
        shift: packet.job.shift,
        order: packet.job.order,
        machine: Link::new(packet.machine.name, paths::machine(&packet.machine.id)),
        from: packet.from.name,
        to: packet.to.name,
        state: state("released with an accepted deviation", Tone::Care),
        page: paths::job(&packet.job.id),
        papers: vec![
            Link::new("Packet", paths::packet(&packet.job.id)),
            Link::new("Tags", paths::tags(&packet.job.id)),
            Link::new("Placard", paths::placard(&packet.machine.id)),
        ],
        record: paths::record(&packet.job.id),
        done: true,
        why: String::new(),
    }
}

/// A job whose packet was refused: it has no pages of its own.
fn refused_job() -> JobLine {
    JobLine {
        id: "J-4110".into(),
        date: "2026-12-04".into(),
        shift: String::new(),
        shift_page: String::new(),
        state: state("refused", Tone::Bad),
        page: String::new(),
        papers: Vec::new(),
        record: String::new(),
        done: false,
        ..job()
    }
}

fn findings() -> Vec<FindingView> {
    vec![
        FindingView {
            severity: "error".into(),
            rule: "strip-exceeds-pitch".into(),
            place: "recipes/pepper-31.yaml:12:8".into(),
            message: "a strip of 62 mm does not fit a lane pitch of 56 mm".into(),
            way_out: "make the fins narrower, or choose a machine with a wider pitch".into(),
        },
        FindingView {
            severity: "warning".into(),
            rule: "calibration-due".into(),
            place: "machines/sachet-6.yaml:31:5".into(),
            message: "the calibration of <bench scale> ends before the job".into(),
            way_out: String::new(),
        },
    ]
}

fn start() -> StartView {
    StartView {
        frame: frame(),
        note: packet().plant.note,
        jobs: vec![job(), refused_job()],
        findings: findings(),
        history: paths::HISTORY.to_owned(),
    }
}

fn machine() -> MachineView {
    let packet = packet();
    MachineView {
        frame: frame(),
        id: packet.machine.id.clone(),
        name: packet.machine.name.clone(),
        kind: packet.machine.kind.clone(),
        location: packet.machine.location.clone(),
        placard: paths::placard(&packet.machine.id),
        inspection: Some(Inspection {
            date: "2026-05-04".into(),
            inspector: "Ines Varga".into(),
            people: vec!["Pavel Dorn".into(), "Mila Osk".into()],
        }),
        inspections: vec![inspection()],
        lockout: vec![Fact::new("Enforced by", "The lead of the shift")],
        datum: packet.machine.datum.clone(),
        facts: vec![Fact::new("lane_pitch", "56 mm"), Fact::new("widest_web", "420 mm")],
        rails: vec![RailLine {
            name: "Slitting knife rail".into(),
            zone: "Slitting section".into(),
            facts: vec![Fact::new("Reach", "300 mm left, 300 mm right"), Fact::new("Holders", "9")],
            obstacles: vec![Fact::new("Bearing block", "\u{2212}240 mm to \u{2212}220 mm")],
        }],
        unwind: vec![Fact::new("Widest web", "420 mm")],
        screws: packet.fasteners.iter().map(|one| screw(one, Language::English)).collect(),
        zones: vec![ZoneLine {
            name: "Slitting section".into(),
            guard: "Hinged guard G2 with interlock".into(),
            sources: vec!["Mains supply".into(), "Compressed air".into()],
            hazards: vec![Spoken { text: "Razor-sharp knives".into(), lang: String::new() }],
        }],
        energy: packet.energy.clone(),
        instruments: packet.instruments.clone(),
        procedures: vec![Link::new("Set the slitting knives", paths::procedure("knives"))],
        recipes: vec![RecipeLine {
            name: "Sea salt, 23 mm sachet".into(),
            id: "sea-salt-23".into(),
            revision: "4".into(),
            date: "2026-11-20".into(),
            author: "Ines Varga".into(),
            reason: "Fins widened to 5 mm after leaks at lane 6".into(),
        }],
        computed: vec!["Sea salt, 23 mm sachet".into()],
        settings: vec![SettingLine {
            name: "Jaw temperature".into(),
            place: "Jaw controller".into(),
            values: vec![Fact::new("138 to 142 \u{b0}C", "140 \u{b0}C")],
        }],
        jobs: vec![job()],
        more_jobs: 0,
        history: paths::history("sachet-6"),
    }
}

fn placard() -> PlacardView {
    let MachineView { frame, id, name, kind, location, energy, .. } = machine();
    PlacardView {
        frame,
        machine: Link::new(name, paths::machine(&id)),
        id,
        kind,
        location,
        locks: PlacardView::locks(&energy),
        sources: energy,
        zones: vec![PlacardZone {
            name: "Slitting section".into(),
            guard: "Hinged guard G2 with interlock".into(),
            sources: vec![1, 2],
        }],
        facts: vec![Fact::new("Enforced by", "The lead of the shift")],
        inspection: machine().inspection,
        revision: "0123456789abcdef".into(),
    }
}

fn machines() -> MachinesView {
    let machine = packet().machine;
    MachinesView {
        frame: frame(),
        machines: vec![MachineLine {
            link: Link::new(machine.name, paths::machine(&machine.id)),
            id: machine.id,
            kind: machine.kind,
            location: machine.location,
            jobs: 2,
        }],
    }
}

fn procedure_line() -> ProcedureLine {
    ProcedureLine {
        link: Link::new("Set the slitting knives", paths::procedure("knives")),
        id: "knives".into(),
        revision: "5".into(),
        date: "2026-10-02".into(),
        author: "Jonas Rehn".into(),
        origin: "shipped with the program".into(),
    }
}

fn procedure() -> ProcedureView {
    ProcedureView {
        frame: frame(),
        line: procedure_line(),
        lang: String::new(),
        flag: String::new(),
        languages: vec![Spoken { text: "English".into(), lang: String::new() }],
        reason: "Torque is named in the text".into(),
        scope: "machines with the rail knife_rail".into(),
        told: vec![Fact::new("rail", "a rail of the machine; knife_rail when nobody says another")],
        standards: vec!["common practice, no source".into()],
        sha256: sha256_hex(b"knives"),
        purpose: "Brings every knife to its place, measured from the centre datum.".into(),
        steps: vec![ProcedureStep {
            title: "Slide each holder to its mark".into(),
            text: packet().steps[7].text.clone(),
            hazards: vec![HazardLine {
                word: "WARNING".into(),
                text: "Razor-sharp knives".into(),
                lang: String::new(),
            }],
            facts: vec![
                Fact::new("Needs", "isolated, locked and verified"),
                Fact::new("Signed by", "technician (performed), lead (verified)"),
            ],
        }],
        used: vec![Link::new("Six-lane sachet line", paths::machine("sachet-6"))],
        approvals: vec![Fact::new("procedure:knives", "approved: Ines Varga, 4 May 2026")],
        inspections: Vec::new(),
        questions: questions(),
    }
}

fn entry(number: u64, meaning: &str, step: &str) -> EntryView {
    EntryView {
        number,
        time: format!("2026-12-03T06:{:02}:00+01:00", 10 + number),
        person: "Pavel Dorn".into(),
        principal: "p.dorn@ternpoint.example".into(),
        role: "technician".into(),
        meaning: meaning.into(),
        sentence: "I did this step as it is written.".into(),
        step: step.into(),
        readings: Vec::new(),
        corrects: None,
        accepts: None,
        head: String::new(),
        note: String::new(),
        more: Vec::new(),
        digest: sha256_hex(meaning.as_bytes()),
        file: format!("{number:04}.json"),
        signature: format!("{number:04}.json.sig"),
        state: state("signature good", Tone::Good),
    }
}

fn reading(label: &str, value: &str, verdict: &str, tone: Tone) -> EntryReading {
    EntryReading {
        label: label.into(),
        value: value.into(),
        limits: "55.5 to 56.5 mm".into(),
        verdict: verdict.into(),
        tone,
    }
}

fn record() -> RecordView {
    let measured = EntryView {
        readings: vec![
            reading("Strip width, lane 1", "56.0 mm", "within", Tone::Good),
            reading("Strip width, lane 2", "56.5 mm", "too close to tell", Tone::Care),
            reading("Strip width, lane 3", "57.0 mm", "outside", Tone::Bad),
        ],
        note: "Lane 3 measured twice.".into(),
        ..entry(2, "performed", "17 Measure the first pieces of each lane")
    };
    RecordView {
        frame: frame(),
        line: JobLine {
            state: state("open, with a reading outside its limits", Tone::Care),
            ..job()
        },
        job: job().id,
        why: vec!["A reading of step 17 is outside and nobody has accepted it.".into()],
        more: 3,
        packet_digest: digest(),
        namespace: "signoff@ternpoint.example".into(),
        entries: vec![entry(1, "performed", "1 Tell everyone who works at the line"), measured],
        log: Default::default(),
        history: paths::history("sachet-6"),
        evidence: vec![
            EvidenceFile {
                name: "packet.json".into(),
                what: "The packet as issued".into(),
                sha256: digest(),
            },
            EvidenceFile {
                name: "allowed_signers".into(),
                what: "Who may sign, and since when".into(),
                sha256: String::new(),
            },
        ],
    }
}

fn inspection() -> InspectionLine {
    InspectionLine {
        procedure: Link::new("Lock out every energy source", paths::procedure("lockout")),
        machine: Link::new("Six-lane sachet line", paths::machine("sachet-6")),
        last: "4 May 2026, by Ines Varga with Pavel Dorn, entry 2".into(),
        found: "Found: one lock without a name.".into(),
        due: "4 May 2027".into(),
        state: State { word: "inspected".into(), tone: Tone::Good },
    }
}

fn register() -> RegisterView {
    RegisterView {
        frame: frame(),
        day: "26 November 2026".into(),
        facts: vec![Fact::new("Approves procedures", "lead")],
        texts: vec![ApprovalLine {
            text: Link::new("Set the knives", paths::procedure("knives")),
            subject: "procedure:knives".into(),
            revision: "3".into(),
            digest: "0123456789abcdef".into(),
            state: State { word: "not approved".into(), tone: Tone::Care },
            who: "Ines Varga, 4 May 2026, revision 2, entry 1".into(),
        }],
        inspections: vec![inspection()],
        entries: vec![RegisterEntry {
            number: 1,
            at: "2026-05-04T06:12:00+02:00".into(),
            person: "Ines Varga".into(),
            principal: "i.varga@plant.example".into(),
            role: "lead".into(),
            kind: "approved".into(),
            subject: "procedure:knives, revision 2".into(),
            sentence: "I read this revision. Work may be done by it.".into(),
            lines: vec!["Remark: Read at the machine.".into()],
            digest: sha256_hex(b"register"),
            state: State { word: "good".into(), tone: Tone::Good },
        }],
        findings: findings(),
        namespace: "register@plant.example".into(),
    }
}

fn records() -> RecordsView {
    RecordsView {
        frame: frame(),
        summary: vec![Fact::new("Records", "1"), Fact::new("Entries", "2")],
        records: vec![
            RecordLine {
                job: record().line,
                entries: 2,
                missing: 15,
                last: "2026-12-03T06:12:00+01:00".into(),
            },
            RecordLine { job: refused_job(), ..RecordLine::default() },
        ],
        findings: findings(),
        register: paths::REGISTER.to_owned(),
        history: paths::HISTORY.to_owned(),
    }
}

fn questions() -> Questions {
    let one = QuestionView {
        place: Link::new("Set the knives (knives, revision 5)", paths::procedure("knives")),
        words: "deviated from in 9 of 10 runs. Does the step say what can be done?".into(),
        means: "It may ask for what the machine cannot give; or something is worn.".into(),
    };
    Questions { list: vec![one], more: 2 }
}

fn series_line() -> SeriesLine {
    SeriesLine {
        link: Link::new("Strip width", format!("{}#series-1", paths::history("sachet-6"))),
        machine: "Six-lane sachet line".into(),
        procedure: "Check the first pieces".into(),
        count: "10".into(),
        first_pass: "9 of 10".into(),
        cpk: "1.21".into(),
        fired: vec!["N5: 1".into()],
    }
}

fn proposal() -> ProposalView {
    ProposalView {
        words: "Strip width ends at 56.4 mm and not at 56.0 mm.".into(),
        because: vec!["8 of 8 changeovers ended above the target.".into()],
        edit: "strip: 56.4 mm".into(),
        evidence: vec![Link::new("J-4107, 56.4 mm", paths::record("J-4107"))],
    }
}

fn history() -> HistoryView {
    HistoryView {
        frame: frame(),
        facts: vec![Fact::new("Changeovers", "10")],
        machines: vec![HistoryLine {
            link: Link::new("Six-lane sachet line", paths::history("sachet-6")),
            changeovers: "10".into(),
            minutes: "52 (41 to 75)".into(),
            average: "54 / 60".into(),
            first_pass: "180 of 200".into(),
            fired: 1,
            proposals: 1,
            questions: 3,
        }],
        fired: vec![series_line()],
        more_fired: 4,
        proposals: vec![proposal()],
        more_proposals: 1,
        questions: questions(),
        left_out: vec![Fact::new("J-4099", "signature-bad")],
        more_left_out: 1,
    }
}

fn machine_history() -> MachineHistoryView {
    let point = |number: u64| PointLine {
        number,
        day: "2026-12-03".into(),
        record: Link::new("J-4107", format!("{}#entry-2", paths::record("J-4107"))),
        recipe: "sea-salt-23".into(),
        reading: "49.6".into(),
        target: "50".into(),
        value: "\u{2212}0.4".into(),
        range: "2".into(),
        fired: "N5".into(),
    };
    MachineHistoryView {
        frame: frame(),
        title: "History of Six-lane sachet line".into(),
        machine: Link::new("Six-lane sachet line", paths::machine("sachet-6")),
        whole: Link::new("all of it", paths::history("sachet-6")),
        facts: vec![Fact::new("Changeovers", "10")],
        changeovers: vec![ChangeoverLine {
            day: "3 December 2026".into(),
            record: Link::new("J-4107", paths::record("J-4107")),
            from: "Sea salt".into(),
            to: "Pepper".into(),
            minutes: ["52".into(), "60".into()],
            stop: ["41".into(), "45".into()],
            first_pass: "19 of 20".into(),
            corrections: "1".into(),
            deviations: vec!["Set the knives: 1".into()],
        }],
        more_changeovers: 3,
        proposals: vec![proposal()],
        series: vec![series_line()],
        more_series: 1,
        charts: vec![SeriesView {
            anchor: "series-1".into(),
            label: "Strip width".into(),
            step: Link::new("Check the first pieces", paths::procedure("knives")),
            of: "reading less target, mm".into(),
            svg: super::drawing::chart(&flow_chart(), Language::English).unwrap(),
            fired: vec!["N5: 1".into()],
            facts: vec![Fact::new("Mean", "50.81")],
            capability: vec![Default::default(); 2],
            capability_note: "Of the last 10 readings.".into(),
            points: (1..=3).map(point).collect(),
            earlier: 7,
        }],
        rules: vec![Fact::new("N5", "Nelson 5: two of three beyond two sigma on one side")],
        questions: questions(),
    }
}

/// A chart with a point that a rule fired on.
fn flow_chart() -> Chart {
    let point = |value: &str, range: &str| Point {
        value: value.into(),
        range: (!range.is_empty()).then(|| range.into()),
        ..Point::default()
    };
    let mut points = vec![point("49.6", ""), point("47.6", "2"), point("53.9", "6.3")];
    points[2].range_rules = vec!["MR".into()];
    let lines = Lines { upper: "55.8".into(), centre: "50.81".into(), lower: "45.8".into() };
    let range_lines = Lines { upper: "6.13".into(), centre: "1.88".into(), lower: String::new() };
    Chart {
        id: "series-1-chart".into(),
        name: "Strip width".into(),
        unit: "mm".into(),
        first: 8,
        points,
        lines: Some(lines),
        range_lines: Some(range_lines),
    }
}

fn search() -> SearchView {
    let machine = SearchEntry {
        link: Link::new("Six-lane sachet line", paths::machine("sachet-6")),
        words: "sachet-6 \u{b7} Slitting knife rail".into(),
        also: vec![Link::new("Placard to print", paths::placard("sachet-6"))],
    };
    let groups = vec![SearchGroup::new("Machines", vec![machine])];
    SearchView { frame: frame(), groups }
}

fn plan() -> PlanView {
    let packet = packet();
    let jobs = vec![Job { packet: &packet, earliest: 0, runs: None }];
    let timeline = Worked::new(Language::English, jobs, None).view();
    let stop = StopView::of(&packet);
    PlanView { frame: frame(), line: job(), timeline, stop, actual: None }
}

/// Every page of the made-up plant, by its path.
pub(super) fn pages() -> Vec<(String, String)> {
    let job_page =
        JobView::new(frame(), job(), &packet(), PacketView::new(&packet(), &digest(), &issue()));
    let id = packet().job.id;
    vec![
        (paths::START.to_owned(), site::start_html(&start())),
        site::jobs_pages(&JobsView { frame: frame(), jobs: start().jobs }).remove(0),
        (paths::job(&id), site::job_html(&job_page)),
        (paths::packet(&id), packet_html(&packet(), &digest(), &issue())),
        (paths::plan(&id), plan_html(&plan())),
        (paths::MACHINES.to_owned(), site::machines_html(&machines())),
        (paths::machine("sachet-6"), site::machine_html(&machine())),
        (paths::placard("sachet-6"), site::placard_html(&placard())),
        (paths::strip(&id), strip_html(&packet(), &digest(), &issue())),
        (paths::tags(&id), site::tags_html(&TagsView::new(frame(), job(), &packet(), &digest()))),
        (
            paths::PROCEDURES.to_owned(),
            site::procedures_html(&ProceduresView {
                frame: frame(),
                procedures: vec![procedure_line()],
                redline: String::new(),
            }),
        ),
        (paths::procedure("knives"), site::procedure_html(&procedure())),
        (paths::SEARCH.to_owned(), site::search_html(&search())),
        (paths::PARTS.to_owned(), site::legend_html(&frame())),
        (paths::RECORDS.to_owned(), site::records_html(&records())),
        (paths::REGISTER.to_owned(), site::register_html(&register())),
        (paths::record(&id), site::record_html(&record())),
        (paths::HISTORY.to_owned(), site::history_html(&history())),
        (paths::history("sachet-6"), site::machine_history_html(&machine_history())),
        (job().shift_page, site::shift_html(&shift())),
        (paths::SHIFTS.to_owned(), site::shifts_html(&shifts())),
    ]
}

/// A shift with one job that has everything.
pub(super) fn shift() -> ShiftView {
    let packet = packet();
    let job = ShiftJob {
        line: job(),
        starts: "12:30".into(),
        minutes: 95,
        crew: vec!["P. Dorn".into(), "K. Reyes".into()],
        people: 2,
        is_draft: true,
        is_outdated: true,
        exceptions: 1,
        findings: 2,
    };
    ShiftView {
        frame: frame(),
        day: job.line.day.clone(),
        shift: job.line.shift.clone(),
        ends: "14:00".into(),
        jobs: vec![job],
        orders: vec![],
        timeline: plan().timeline,
        kit: shelf_views(Language::English, &[Fetching { packet: &packet, starts: None }]),
        too_few: vec!["There are too few of it.".into()],
    }
}

fn shifts() -> ShiftsView {
    let job = job();
    let line = ShiftLine {
        date: job.date,
        day: job.day,
        link: Link::new(job.shift, job.shift_page),
        jobs: vec![Link::new(job.id, job.page)],
        open: 0,
    };
    ShiftsView { frame: frame(), shifts: vec![line] }
}

/// Files beside the pages, so that every link of the made-up site has a target.
fn files() -> Vec<(String, String)> {
    let record = record();
    let names = record.entries.iter().flat_map(|e| [e.file.clone(), e.signature.clone()]);
    let names = names.chain(record.evidence.iter().map(|file| file.name.clone()));
    let evidence = names.map(|name| (paths::evidence(&record.line.id, &name), "{}\n".to_owned()));
    let assets = assets().map(|(path, text)| (path.to_owned(), text.to_owned()));
    let drawing = super::drawing::svg(&knife_rail(), Language::English).unwrap();
    evidence
        .chain(assets)
        .chain([("knife_rail.svg".to_owned(), drawing)])
        .chain(strips())
        .chain(drawings())
        .collect()
}

/// Strips in every language, and the packet whose places they have.
fn strips() -> Vec<(String, String)> {
    let packet = serde_json::to_string(&packet()).unwrap();
    let strip = |language: Language| {
        let packet = Packet { language, ..self::packet() };
        let name = format!("{}-{}", packet.job.id, language.tag());
        (paths::strip(&name), strip_html(&packet, &digest(), &issue()))
    };
    let all = Language::ALL.into_iter().map(strip);
    all.chain([("strips/packet.json".to_owned(), packet)]).collect()
}

/// The drawings that the job's page leads to.
fn drawings() -> Vec<(String, String)> {
    let packet = packet();
    let rails = packet.rails.iter();
    rails
        .map(|rail| {
            let file = super::drawing::file(rail, packet.language).unwrap();
            (paths::drawing(&packet.job.id, &rail.id), file)
        })
        .collect()
}

/// Writes the made-up site to `target/sample-site`, where the browser tests look.
#[test]
fn the_sample_site_is_written() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/sample-site");
    for (path, text) in pages().into_iter().chain(files()) {
        let file = folder.join(&path);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(&file, text).unwrap();
        assert!(file.is_file(), "{path}");
    }
}
