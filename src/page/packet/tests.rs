use serde_json::Value;

use super::{PacketIssue, PacketView, css_text, packet_html};
use crate::packet::model::{Packet, Signal};
use crate::page::{proof, sample};

fn view() -> PacketView {
    PacketView::new(&sample::packet(), &sample::digest(), &sample::issue())
}

fn page() -> String {
    packet_html(&sample::packet(), &sample::digest(), &sample::issue())
}

/// The piece of a page between two texts.
#[track_caller]
fn between<'a>(page: &'a str, start: &str, end: &str) -> &'a str {
    let (_, rest) = page.split_once(start).expect(start);
    rest.split_once(end).expect(end).0
}

#[track_caller]
fn check_order(page: &str, pieces: &[&str]) {
    let mut rest = page;
    for piece in pieces {
        rest =
            rest.split_once(piece).unwrap_or_else(|| panic!("{piece} is missing or too early")).1;
    }
}

#[test]
fn the_gravest_hazard_comes_first_and_only_notice_lacks_the_sign() {
    let shown: Vec<(String, bool)> =
        view().hazards.into_iter().map(|hazard| (hazard.word, hazard.alert)).collect();
    let expected = [
        (Signal::Danger.word(), true),
        (Signal::Warning.word(), true),
        (Signal::Warning.word(), true),
        (Signal::Caution.word(), true),
        (Signal::Notice.word(), false),
    ];
    assert_eq!(shown, expected.map(|(word, alert)| (word.to_owned(), alert)));
}

#[test]
fn a_hazard_says_all_four_parts_before_the_text_of_its_step() {
    let page = page();
    let step = between(&page, "id=\"step-8\"", "id=\"step-9\"");
    check_order(
        step,
        &[
            "<strong>WARNING</strong>",
            "Razor-sharp knives.",
            "Deep cuts to hands and fingers.",
            "Wear cut-resistant gloves.",
            "<div class=\"step-text\">",
            "class=\"box\"",
            "class=\"tick\"",
            "<strong>performed</strong> by technician",
            "<strong>verified</strong> by lead",
        ],
    );
}

#[test]
fn the_page_goes_from_caution_to_steps() {
    check_order(
        &page(),
        &[
            "class=\"title-block\"",
            &sample::digest(),
            "Local codes",
            "Call the control room",
            "Hazards of this job",
            "Fetch before the stop",
            "Energy sources",
            "id=\"settings\"",
            "<svg class=\"drawing\"",
            "id=\"step-1\"",
            "<strong>released</strong> by quality",
        ],
    );
}

#[test]
fn limits_stand_beside_their_blank_once() {
    let steps = view().steps;
    let limits = |step: usize| -> Vec<String> {
        let rows = steps[step].tables.iter().flat_map(|table| &table.rows);
        rows.flat_map(|row| &row.blanks).map(|blank| blank.limits.clone()).collect()
    };
    assert_eq!(limits(6), ["at most 0\u{a0}V", "at most 0\u{a0}bar", "at most 45\u{a0}\u{b0}C"]);
    assert_eq!(limits(7)[0], "\u{2212}56.5 to \u{2212}55.5\u{a0}mm");
    assert_eq!(limits(15), ["", "", ""], "the rows have a column of limits");
    assert_eq!(steps[9].blanks[0].limits, "359.0 to 361.0\u{a0}mm");
}

#[test]
fn every_reading_has_exactly_one_blank() {
    let readings: usize = sample::packet().steps.iter().map(|step| step.readings.len()).sum();
    assert_eq!(page().matches("class=\"box\"").count(), readings);
}

#[test]
fn a_step_that_stays_is_one_line_without_signatures() {
    let page = page();
    assert!(!page.contains("id=\"step-11\""));
    let line = between(&page, "<p class=\"step-stays\">", "</p>");
    assert!(line.contains("Stays as it is:</strong> the cross seal temperature"), "{line}");
    let signs: usize = sample::packet().steps.iter().map(|step| step.signs.len()).sum();
    assert_eq!(page.matches("<span class=\"says\">").count(), signs);
}

#[test]
fn minutes_of_steps_that_stay_are_not_planned() {
    let mut packet = sample::packet();
    let planned = view().minutes;
    packet.steps[0].stays = Some("nobody is there".into());
    let fewer = PacketView::new(&packet, "", &PacketIssue::default()).minutes;
    assert_eq!(Some(planned - fewer), packet.steps[0].minutes);
}

#[test]
fn settings_show_the_change_and_the_working() {
    let settings = view().settings;
    let strip = &settings[0];
    assert_eq!((strip.was.as_str(), strip.target.as_str()), ("64.0\u{a0}mm", "56.0\u{a0}mm"));
    assert_eq!((strip.change.as_str(), strip.changes), ("changes", false), "only computed");
    assert_eq!((settings[1].change.as_str(), settings[1].changes), ("changes", true));
    assert_eq!(strip.numbers, "2 * 23 mm + 2 * 5 mm");
    assert_eq!((settings[2].change.as_str(), settings[2].changes), ("stays", false));
    assert_eq!(settings[2].numbers, "", "148 degrees are not said twice");
    assert_eq!((settings[4].change.as_str(), settings[4].was.as_str()), ("new", ""));
    assert_eq!(settings[5].limits, "");
}

#[test]
fn moves_come_in_their_order_then_what_stays() {
    let rail = view().rails.remove(0);
    let shown: Vec<(String, u32, String)> =
        rail.moves.into_iter().map(|m| (m.order, m.holder, m.way)).collect();
    assert_eq!(shown[0], ("1".into(), 4, "8.0 to the right".into()));
    assert_eq!(shown[6], ("7".into(), 9, "8.0 to the left".into()));
    assert_eq!(shown[7], (String::new(), 1, "stays".into()));
    assert_eq!(shown[8], (String::new(), 5, "stays".into()));
    assert_eq!(shown.len(), 9);
}

#[test]
fn the_policy_names_the_hash_of_the_style() {
    let page = page();
    let style = between(&page, "<style>", "</style>");
    assert!(page.contains(&format!("style-src '{}'", proof::style_hash(style))));
    assert_eq!(page.matches("<style").count(), 1);
    assert!(!page.contains(" style="));
}

#[test]
fn the_foot_of_each_sheet_names_packet_job_and_page() {
    let page = page();
    let short = &sample::digest()[..16];
    check_order(
        between(&page, "<style>", "</style>"),
        &[
            &format!("@bottom-left {{ content: \"Packet {short}\"; }}"),
            "@bottom-center { content: \"Job J-4107 on sachet-6\"; }",
            "counter(page) \" of \" counter(pages)",
        ],
    );
}

#[test]
fn a_foot_text_cannot_leave_its_string() {
    assert_eq!(css_text("a\";} body{display:none}</style>\\a"), "a bodydisplaynonestylea");
}

/// Every text of the packet becomes an attack; none may come through as markup.
#[test]
fn no_text_of_a_packet_is_markup() {
    const ATTACK: &str = "</style></title><script>alert(1)</script><img src=x onerror=y>\"'";
    let mut value = serde_json::to_value(sample::packet()).unwrap();
    let named = ["signal", "kind", "change", "stage", "needs", "meaning"];
    poison(&mut value, ATTACK, &named);
    let packet: Packet = serde_json::from_value(value).unwrap();
    let issue = PacketIssue { state: ATTACK.into(), program: ATTACK.into() };
    let page = packet_html(&packet, ATTACK, &issue);
    assert!(page.matches("&lt;script&gt;").count() > 100);
    for markup in ["<script", "<img", "\"'\""] {
        assert!(!page.contains(markup), "{markup}");
    }
    assert_eq!(page.matches("</style>").count(), 1);
    assert_eq!(page.matches("</title>").count(), 1, "a rail with such numbers is not drawn");
}

/// Replaces every text but the values of fixed words.
fn poison(value: &mut Value, attack: &str, fixed: &[&str]) {
    match value {
        Value::String(text) => *text = attack.to_owned(),
        Value::Array(items) => items.iter_mut().for_each(|item| poison(item, attack, fixed)),
        Value::Object(fields) => {
            for (name, field) in fields {
                let word = fixed.contains(&name.as_str()) && !is_free(name, field);
                if !word {
                    poison(field, attack, fixed);
                }
            }
        }
        _ => {}
    }
}

/// Kinds of machines and energy are free text, the kind of a rail is not.
fn is_free(name: &str, field: &Value) -> bool {
    name == "kind" && !["knives", "guides"].contains(&field.as_str().unwrap_or(""))
}

#[test]
fn an_empty_packet_still_makes_a_page() {
    let packet = Packet {
        sources: vec![],
        energy: vec![],
        zones: vec![],
        hazards: vec![],
        kit: vec![],
        settings: vec![],
        rails: vec![],
        steps: vec![],
        procedures: vec![],
        ..sample::packet()
    };
    let page = packet_html(&packet, "", &PacketIssue::default());
    assert!(page.contains("Before anything else") && !page.contains("Hazards of this job"));
}
