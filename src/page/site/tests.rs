use super::*;
use crate::page::sample;

#[test]
fn every_page_has_its_frame_and_a_strict_policy() {
    for (path, page) in sample::pages() {
        assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"), "{path}");
        assert!(page.contains("content=\"default-src 'none'; style-src "), "{path}");
        assert!(page.contains("class=\"skip\""), "{path}");
        assert!(page.contains(" id=\"main\"") || path.starts_with("packets/"), "{path}");
        let scripts = usize::from(path == paths::SEARCH);
        assert_eq!(page.matches("<script").count(), scripts, "{path}");
        assert_eq!(page.matches("script-src 'self'").count(), scripts, "{path}");
        assert!(!page.contains(" style="), "{path}");
    }
}

#[test]
fn pages_below_the_root_lead_back_to_it() {
    for (path, page) in sample::pages() {
        let root = if path.contains('/') { "\"../assets" } else { "\"assets" };
        let alone = path.starts_with("packets/") || path.starts_with("strips/");
        assert!(page.contains(root) || alone, "{path}");
    }
}

#[test]
fn empty_views_make_pages_that_say_so() {
    assert!(start_html(&StartView::default()).contains("No jobs yet."));
    assert!(jobs_pages(&JobsView::default())[0].1.contains("No jobs yet."));
    assert!(machines_html(&MachinesView::default()).contains("No machines yet."));
    assert!(machine_html(&MachineView::default()).contains("None is listed."));
    assert!(placard_html(&PlacardView::default()).contains("No energy source is listed."));
    assert!(tags_html(&TagsView::default()).contains("there is no device to tag"));
    assert!(procedures_html(&ProceduresView::default()).contains("No procedures yet."));
    assert!(procedure_html(&ProcedureView::default()).contains("On no machine of this plant."));
    assert!(records_html(&RecordsView::default()).contains("No records yet."));
    assert!(record_html(&RecordView::default()).contains("Nothing is signed yet."));
    assert!(shift_html(&ShiftView::default()).contains("ask for nothing to be fetched"));
    assert!(shifts_html(&ShiftsView::default()).contains("No shift has a job yet."));
    assert!(history_html(&HistoryView::default()).contains("No record says anything yet."));
}

#[test]
fn a_machine_says_what_its_instruments_can_do() {
    let (_, page) =
        sample::pages().into_iter().find(|(path, _)| path == "machines/sachet-6.html").unwrap();
    let row = "<th scope=\"row\">Steel rule 600 mm</th><td class=\"num\">0.5 mm</td>\
               <td class=\"num\">0.2 mm</td><td class=\"num\">0 to 600 mm</td>";
    assert!(page.contains(row), "{page}");
}

#[test]
fn equal_days_share_a_heading() {
    let on = |date: &str| JobLine { date: date.into(), ..JobLine::default() };
    let view = StartView {
        jobs: vec![on("2026-12-03"), on("2026-12-03"), on("2026-12-04")],
        ..StartView::default()
    };
    assert_eq!(start_html(&view).matches("<h2").count(), 2);
}

#[test]
fn a_job_without_papers_has_no_dead_links() {
    let jobs = vec![JobLine { id: "J-1".into(), ..JobLine::default() }];
    let (_, page) = jobs_pages(&JobsView { jobs, ..JobsView::default() }).remove(0);
    assert!(page.contains("No packet"));
    assert!(!page.contains("href=\"../\"") && !page.contains("href=\"\""), "{page}");
}

#[test]
fn texts_of_a_plant_are_never_markup() {
    let attack = "<script>x</script>\"'";
    let job = JobLine {
        id: attack.into(),
        order: attack.into(),
        page: paths::job(attack),
        record: paths::record(attack),
        papers: vec![Link::new(attack, paths::packet(attack))],
        machine: Link::new(attack, paths::machine(attack)),
        state: State { word: attack.into(), tone: Tone::Bad },
        ..JobLine::default()
    };
    let finding = FindingView {
        severity: attack.into(),
        message: attack.into(),
        place: attack.into(),
        ..FindingView::default()
    };
    let frame = Frame { plant: attack.into(), ..Frame::default() };
    let entry = EntryView {
        principal: attack.into(),
        file: attack.into(),
        note: attack.into(),
        ..EntryView::default()
    };
    let step =
        ProcedureStep { text: attack.into(), title: attack.into(), ..ProcedureStep::default() };
    for page in [
        start_html(&StartView {
            frame: frame.clone(),
            note: attack.into(),
            jobs: vec![job.clone()],
            findings: vec![finding],
            history: attack.into(),
        }),
        shift_html(&ShiftView {
            shift: attack.into(),
            jobs: vec![ShiftJob {
                line: job.clone(),
                crew: vec![attack.into()],
                starts: attack.into(),
                ..ShiftJob::default()
            }],
            too_few: vec![attack.into()],
            ..sample::shift()
        }),
        shift_alone_html(&ShiftView { shift: attack.into(), ..ShiftView::default() }),
        shifts_html(&ShiftsView {
            shifts: vec![ShiftLine {
                link: Link::new(attack, paths::shift("a")),
                jobs: vec![Link::new(attack, paths::job(attack))],
                ..ShiftLine::default()
            }],
            ..ShiftsView::default()
        }),
        record_html(&RecordView { line: job, entries: vec![entry], ..RecordView::default() }),
        procedure_html(&ProcedureView {
            frame: frame.clone(),
            steps: vec![step],
            ..ProcedureView::default()
        }),
        history_html(&attacked_history(attack, frame.clone())),
        machine_history_html(&attacked_charts(attack, frame)),
    ] {
        assert!(page.contains("&lt;script&gt;"), "{page}");
        assert!(!page.contains("<script") && !page.contains("\"'\""), "{page}");
    }
}

fn attacked_questions(attack: &str) -> Questions {
    let place = Link::new(attack, paths::procedure(attack));
    let one = QuestionView { place, words: attack.into(), means: attack.into() };
    Questions { list: vec![one], more: 1 }
}

fn attacked_history(attack: &str, frame: Frame) -> HistoryView {
    let link = Link::new(attack, paths::history(attack));
    let proposal = ProposalView {
        words: attack.into(),
        because: vec![attack.into()],
        edit: attack.into(),
        evidence: vec![link.clone()],
    };
    let series =
        SeriesLine { link: link.clone(), fired: vec![attack.into()], ..SeriesLine::default() };
    HistoryView {
        frame,
        machines: vec![HistoryLine { link, ..HistoryLine::default() }],
        fired: vec![series],
        proposals: vec![proposal],
        questions: attacked_questions(attack),
        left_out: vec![Fact::new(attack, attack)],
        ..HistoryView::default()
    }
}

fn attacked_charts(attack: &str, frame: Frame) -> MachineHistoryView {
    let point = PointLine {
        reading: attack.into(),
        recipe: attack.into(),
        record: Link::new(attack, paths::record(attack)),
        ..PointLine::default()
    };
    let series = SeriesView {
        label: attack.into(),
        of: attack.into(),
        points: vec![point],
        ..SeriesView::default()
    };
    let changeover = ChangeoverLine {
        from: attack.into(),
        deviations: vec![attack.into()],
        ..ChangeoverLine::default()
    };
    MachineHistoryView {
        frame,
        title: attack.into(),
        machine: Link::new(attack, paths::machine(attack)),
        changeovers: vec![changeover],
        charts: vec![series],
        questions: attacked_questions(attack),
        ..MachineHistoryView::default()
    }
}

#[test]
fn a_record_says_how_to_check_each_entry() {
    let (_, page) =
        sample::pages().into_iter().find(|(path, _)| path == "records/J-4107.html").unwrap();
    for line in [
        "sha256sum 0001.json\n",
        "ssh-keygen -Y verify -f allowed_signers -I p.dorn@ternpoint.example \
         -n signoff@ternpoint.example -s 0002.json.sig -Overify-time=20261203051200Z \
         &lt; 0002.json\n",
        "href=\"../records/J-4107/0002.json.sig\"",
    ] {
        assert!(page.contains(line), "{line}");
    }
}

/// Every page whose words are the program's own, in a language.
fn worded(language: Language) -> Vec<String> {
    let frame = || Frame { language, ..Frame::default() };
    let job = JobLine { record: "records/J-1.html".into(), ..JobLine::default() };
    let start = StartView { frame: frame(), jobs: vec![job], ..StartView::default() };
    let entry = EntryView { note: "N".into(), ..EntryView::default() };
    let record = RecordView { frame: frame(), entries: vec![entry], ..RecordView::default() };
    let placard = PlacardView { frame: frame(), ..PlacardView::default() };
    vec![
        start_html(&start),
        jobs_pages(&JobsView { frame: frame(), jobs: start.jobs.clone() }).remove(0).1,
        machines_html(&MachinesView { frame: frame(), ..MachinesView::default() }),
        machine_html(&MachineView { frame: frame(), ..MachineView::default() }),
        placard_html(&placard),
        tags_html(&TagsView { frame: frame(), ..TagsView::default() }),
        procedures_html(&ProceduresView { frame: frame(), ..ProceduresView::default() }),
        procedure_html(&ProcedureView { frame: frame(), ..ProcedureView::default() }),
        records_html(&RecordsView { frame: frame(), ..RecordsView::default() }),
        record_html(&record),
        history_html(&attacked_history("N", frame())),
        machine_history_html(&attacked_charts("N", frame())),
        search_html(&SearchView { frame: frame(), ..SearchView::default() }),
        shift_html(&ShiftView {
            frame: frame(),
            jobs: vec![ShiftJob::default()],
            ..ShiftView::default()
        }),
        shifts_html(&ShiftsView { frame: frame(), ..ShiftsView::default() }),
    ]
}

/// The text of a page, without marks and without what is marked as English.
fn text_of(page: &str) -> String {
    let body = page.split_once("<body").unwrap().1;
    let mut text = String::new();
    for part in body.split('<').filter(|part| !part.contains("lang=\"en\"")) {
        text.push_str(part.split_once('>').map_or("", |(_, words)| words));
        text.push(' ');
    }
    text
}

#[test]
fn pages_speak_one_language() {
    for (language, tag) in [(Language::Spanish, "es"), (Language::German, "de")] {
        for page in worded(language) {
            assert!(page.contains(&format!("<html lang=\"{tag}\">")), "{page}");
            let text = text_of(&page).replace("in der", "");
            for english in [" the ", " of ", " and ", "Table", " with ", " is ", " not "] {
                assert!(!text.contains(english), "`{english}` in: {text}");
            }
            // A key that nobody has written shows as itself.
            for topic in [
                "frame-", "site-", "record-", "placard-", "tags-", "search-", "parts-", "shift-",
                "shelf-", "charts-",
            ] {
                assert!(!text.contains(&format!(" {topic}")), "`{topic}` in: {text}");
            }
        }
    }
}
