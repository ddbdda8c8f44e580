use serde_json::Value;

use super::{PacketIssue, PacketView, css_text, packet_html};
use crate::language::Language;
use crate::packet::model::{
    EnergyState, Guard, Mark, Meaning, MinorServicing, Packet, Sign, Signal, Step,
};
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
            "<b>WARNING</b>",
            "Razor-sharp knives.",
            "Deep cuts to hands and fingers.",
            "Wear cut-resistant gloves.",
            "<div class=\"step-text\">",
            "<i></i>",
            "<ul class=\"ticks\">",
            "<b>performed</b> by technician",
            "<b>verified</b> by lead",
        ],
    );
}

/// The sample packet, its knives and jaws with signs.
fn signed() -> Packet {
    let mut packet = sample::packet();
    for hazard in &mut packet.hazards {
        let signs: &[&str] = match hazard.id.as_str() {
            "knife-edge" => &["W022", "P028", "M009"],
            "jaws" => &["W017", "P028"],
            _ => &[],
        };
        hazard.signs = signs.iter().map(|id| (*id).to_owned()).collect();
    }
    packet
}

#[test]
fn no_gloves_is_shown_only_where_parts_may_turn() {
    let view = PacketView::new(&signed(), &sample::digest(), &sample::issue());
    let of_step = |number: u32| {
        let step = view.steps.iter().find(|step| step.number == number).unwrap();
        step.hazards.iter().map(|hazard| hazard.signs.ids.clone()).collect::<Vec<_>>()
    };
    assert_eq!(of_step(8)[0], ["W022", "M009"], "isolated");
    assert_eq!(of_step(16)[0], ["W017", "P028"], "energised");
}

#[test]
fn signs_stand_before_the_message_with_their_names_and_are_drawn_once() {
    let page = packet_html(&signed(), &sample::digest(), &sample::issue());
    check_order(
        between(&page, "id=\"step-16\"", "id=\"step-17\""),
        &[
            "<b>WARNING</b>",
            "role=\"img\" aria-label=\"Hot surface (W017), Do not wear gloves (P028)\"",
            "<use href=\"#W017\"/>",
            "<use href=\"#P028\"/>",
            "<p><b>",
        ],
    );
    assert_eq!(page.matches("<symbol id=\"W017\"").count(), 1);
}

#[test]
fn a_packet_frozen_before_signs_were_known_shows_its_messages_without() {
    let text = serde_json::to_string(&sample::packet().hazards).unwrap();
    assert!(!text.contains("signs"), "nothing is added to its bytes");
    let hazards = between(&page(), "<div class=\"hazards\">", "</section>").to_owned();
    assert!(hazards.contains("<b>DANGER</b>") && !hazards.contains("class=\"shows\""));
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
            "<b>released</b> by quality",
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
    assert_eq!(page().matches("<span class=\"blank\"><i></i>").count(), readings);
}

#[test]
fn a_source_that_is_signed_by_itself_has_a_number_and_a_cell_to_sign() {
    let mut packet = sample::packet();
    let step = packet.steps.iter_mut().find(|step| step.id == "lockout.verify").unwrap();
    step.signs.clear();
    let mut roles = ["electrician", "technician", "technician"].into_iter();
    for (row, id) in step.table.as_mut().unwrap().rows.iter_mut().zip(["mains", "air", "heat"]) {
        row.id = id.to_owned();
        let sign = |meaning, role: &str| Sign {
            meaning,
            role: role.to_owned(),
            row: Some(id.to_owned()),
            by: None,
        };
        step.signs.push(sign(Meaning::Performed, roles.next().unwrap()));
        step.signs.push(sign(Meaning::Verified, "lead"));
    }
    let page = packet_html(&packet, "", &PacketIssue::default());
    let at = page.find("id=\"step-7\"").unwrap();
    let sheet = &page[at..at + page[at..].find("id=\"step-8\"").unwrap()];
    for words in [
        "<th scope=\"row\">7.1</th><td>Mains supply</td>",
        "<th scope=\"row\">7.3</th>",
        "<th scope=\"col\">performed: initials, time</th>",
        "<th scope=\"col\">verified by lead: initials, time</th>",
        "<td class=\"sign\">electrician</td><td class=\"sign\"></td>",
        "Initials of electrician above",
        "Initials of lead above",
    ] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
    assert!(!sheet.contains("<i>Signature</i>"));
}

#[test]
fn a_step_that_stays_is_one_line_without_signatures() {
    let page = page();
    assert!(!page.contains("id=\"step-11\""));
    let line = between(&page, "<p class=\"step-stays\">", "</p>");
    assert!(line.contains("Stays as it is:</strong> the cross seal temperature"), "{line}");
    let signs: usize = sample::packet().steps.iter().map(|step| step.signs.len()).sum();
    assert_eq!(page.matches("<li><p>").count(), signs);
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
    assert_eq!(strip.working.numbers, "2 * 23 mm + 2 * 5 mm");
    assert_eq!((settings[2].change.as_str(), settings[2].changes), ("stays", false));
    assert_eq!(settings[2].working.numbers, "", "148 degrees are not said twice");
    assert_eq!((settings[4].change.as_str(), settings[4].was.as_str()), ("new", ""));
    assert_eq!(settings[5].limits, "");
}

#[test]
fn moves_come_in_their_order_then_what_stays() {
    let rail = view().rails.remove(0);
    let shown: Vec<(String, String, String)> =
        rail.moves.into_iter().map(|m| (m.order, m.holder, m.way)).collect();
    assert_eq!(shown[0], ("1".into(), "4".into(), "8.0 to the right".into()));
    assert_eq!(shown[6], ("7".into(), "9".into(), "8.0 to the left".into()));
    assert_eq!(shown[7], (String::new(), "1".into(), "stays".into()));
    assert_eq!(shown[8], (String::new(), "5".into(), "stays".into()));
    assert_eq!(shown.len(), 9);
}

#[test]
fn a_setting_shows_its_fraction_the_other_system_and_the_way() {
    let settings = view().settings;
    let (web, mark) = (&settings[1], &settings[6]);
    assert_eq!((web.by.as_str(), web.also.as_str()), ("down by 48.0\u{a0}mm", "14.173\u{a0}in"));
    assert_eq!(web.also_limits, "14.134\u{a0}to 14.212\u{a0}in");
    assert_eq!(web.working.steps.len(), 3);
    assert_eq!(
        (mark.target.as_str(), mark.also.as_str()),
        ("2\u{a0}7/32\u{a0}in", "56.36\u{a0}mm")
    );
    check_order(
        &page(),
        &[
            "Web width <span class=\"change\">changes",
            "<br><span class=\"by\">down by 48.0\u{a0}mm</span>",
            "<span>360.0\u{a0}mm</span> <span class=\"also\">(14.173\u{a0}in)</span>",
            "<ol class=\"operations\">\n<li class=\"formula\">6 * 56 mm = 336 mm</li>",
            "<ul class=\"notes\">\n<li>Computed 88.46\u{a0}mm; rounded to 88.5\u{a0}mm",
            "<span>2\u{a0}7/32\u{a0}in</span>",
            "No longer set",
            "<th scope=\"row\">Gusset depth</th><td class=\"num\">12.0\u{a0}mm</td><td>Gusset plates",
            "<th scope=\"row\">Film in the gussets</th>",
            "computed only",
        ],
    );
}

#[test]
fn what_is_no_longer_set_is_said_even_without_settings() {
    let packet = Packet { settings: vec![], ..sample::packet() };
    let page = packet_html(&packet, "", &PacketIssue::default());
    check_order(&page, &["<h2 id=\"settings\">Settings</h2>", "No longer set", "Gusset depth"]);
}

#[test]
fn figures_say_their_value_once_and_how_it_came() {
    let view = view();
    let film = &view.web[0];
    assert_eq!((film.value.as_str(), film.working.steps.len()), ("2744\u{a0}m", 3));
    assert_eq!(film.working.result, "2744.029 m", "more digits than the value");
    assert_eq!(view.web[1].working.result, "", "3 is the value already");
    assert_eq!(view.contents[0].working.numbers, "", "5 g are not said twice");
    check_order(
        &page(),
        &[
            "<h2 id=\"web\">Web and film</h2>",
            "<td class=\"num target\">2744\u{a0}m</td>",
            "<h2 id=\"contents\">Net contents</h2>",
            "Least single pack",
            "<span class=\"formula\">5 g - 0.5 g</span>",
        ],
    );
}

#[test]
fn a_screw_says_whether_its_torque_was_stated() {
    check_order(
        &page(),
        &[
            "<h2 id=\"screws\">Screws</h2>",
            "The machine maker's torque comes before any computed one.",
            "M6, class 8.8",
            "<strong>9.5\u{a0}N\u{b7}m</strong><br><span class=\"small\">stated</span>",
            "Plate on the rail",
            "M8, class 8.8",
            "<td class=\"num\">&ndash;</td>",
            "<strong>25.5\u{a0}N\u{b7}m</strong><br><span class=\"small\">computed</span>",
            "<li>No wrench at the machine reaches this torque.</li>",
        ],
    );
}

#[test]
fn holders_come_off_and_on_the_rail() {
    let rail = view().rails.remove(2);
    let shown: Vec<[String; 5]> =
        rail.moves.into_iter().map(|m| [m.holder, m.from, m.to, m.scale, m.way]).collect();
    let expected = [
        ["\u{2013}", "+8 right", "\u{2013}", "\u{2013}", "take off the rail"],
        ["\u{2013}", "+11 right", "\u{2013}", "\u{2013}", "take off the rail"],
        ["1", "\u{2212}5 left", "\u{2212}4\u{a0}1/2 left", "7 1/2", "0.5 to the right"],
        ["4", "+3 right", "+2\u{a0}1/4 right", "14 1/4", "0.75 to the left"],
        ["5", "+5 right", "+4\u{a0}1/2 right", "16 1/2", "0.5 to the left"],
        ["3", "\u{2013}", "0 at datum", "12", "fit on the rail"],
        ["2", "\u{2212}2.25 left", "\u{2212}2\u{a0}1/4 left", "9 3/4", "stays"],
    ];
    assert_eq!(shown, expected.map(|row| row.map(str::to_owned)));
}

#[test]
fn a_rail_says_how_its_positions_are_read() {
    let rail = view().rails.remove(2);
    assert_eq!(rail.scale, "zero at the left end, rising to the right; read at the tip.");
    assert_eq!(
        rail.tip,
        "The tip stands 0.25\u{a0}in right of the middle of its holder; the tip counts."
    );
    assert_eq!(
        rail.stepping,
        "Measure every position from the datum. Stepped off from mark to mark, the outermost mark \
         (3 steps) could be off by 0.06\u{a0}in when all errors fall the same way, 0.035\u{a0}in as \
         root of the sum of squares; from the datum at most 0.02\u{a0}in."
    );
    let lanes: Vec<&str> = rail.lanes.iter().map(|lane| lane.number.as_str()).collect();
    assert_eq!(lanes, ["2", "waste", "4", "5"]);
    assert_eq!(rail.obstacles[1].edges, "+6.25 right to +6.75 right");
    check_order(
        &page(),
        &[
            "Perforating rail <span class=\"count\">bar 1 of 2</span>",
            "Positions in inches",
            "Cross: taken off. Plus: fitted. Crossed lines: fixed on the rail.",
            "<strong>B</strong> Bracket of the print mark sensor",
            "<th scope=\"col\">On the scale</th>",
            "<span class=\"also\">(\u{2212}114.3\u{a0}mm)</span>",
        ],
    );
}

#[test]
fn a_tip_left_of_the_middle_is_said_without_a_sign() {
    let tip = |offset: &str| {
        let mut packet = sample::packet();
        packet.rails[2].tip_offset = offset.into();
        PacketView::new(&packet, "", &PacketIssue::default()).rails.remove(2).tip
    };
    assert!(tip("-0.25").starts_with("The tip stands 0.25\u{a0}in left of the middle"));
    assert_eq!((tip("0.0"), tip("")), (String::new(), String::new()));
}

/// The wording of a guard band: sure limits, outer limits, what is expected.
#[track_caller]
fn check_guard(inner: [&str; 2], outer: [&str; 2], expected: &str) {
    let edge = |text: &str| Some(text.to_owned()).filter(|text| !text.is_empty());
    let mut packet = sample::packet();
    packet.steps[9].readings[0].guard = Some(Guard {
        uncertainty: "0.3".into(),
        low: edge(inner[0]),
        high: edge(inner[1]),
        outer_low: edge(outer[0]),
        outer_high: edge(outer[1]),
    });
    let view = PacketView::new(&packet, "", &PacketIssue::default());
    assert_eq!(view.steps[9].blanks[0].guard, expected);
}

#[test]
fn a_guard_band_says_what_is_sure() {
    check_guard(
        ["359.3", "360.7"],
        ["358.7", "361.3"],
        "within 359.3 to 360.7; outside below 358.7 or above 361.3",
    );
    check_guard(["", "43"], ["", "47"], "within up to 43; outside above 47");
    check_guard(["18.5", ""], ["17.5", ""], "within from 18.5 up; outside below 17.5");
    check_guard(["", ""], ["", ""], "");
    check_guard(["-2"; 2], ["-4", ""], "within \u{2212}2 to \u{2212}2; outside below \u{2212}4");
    check_guard(
        ["2.1", "1.9"],
        ["1", "3"],
        "no reading is surely within; outside below 1 or above 3",
    );
}

#[test]
fn the_uncertainty_of_a_step_is_said_once() {
    let page = page();
    let step = between(&page, "id=\"step-17\"", "id=\"step-18\"");
    assert_eq!(step.matches("<span class=\"guard\">within 55.7 to 56.3; outside ").count(), 6);
    let said = "too close to tell, do not accept alone. Uncertainty of the measurement: \
                0.2\u{a0}mm; 0.06\u{a0}g.";
    assert_eq!(step.matches(said).count(), 1, "{step}");
    assert!(page.contains("A reading on a limit is inside; where its blank says what is within"));
}

#[test]
fn a_blank_without_guard_is_as_before() {
    let page = page();
    let step = between(&page, "id=\"step-8\"", "id=\"step-9\"");
    let blank = "<td class=\"blanks\"><span class=\"blank\"><i></i><span>mm</span>\
                 <b>\u{2212}56.5 to \u{2212}55.5\u{a0}mm</b>\
                 <small>8/position-1</small></span></td>";
    assert!(step.contains(blank), "{step}");
    assert!(!step.contains("class=\"guard\"") && !step.contains("too close"), "{step}");
}

#[test]
fn limits_in_other_units_stand_behind_the_limits() {
    let blank = "<b>359.0 to 361.0\u{a0}mm</b>\
                 <span class=\"small num\">(14.134\u{a0}to 14.212\u{a0}in)</span>";
    assert!(page().contains(blank));
}

#[test]
fn an_instrument_says_how_far_it_may_be_off_and_what_it_measures() {
    let said = "Bench scale 300 g, shows 0.1\u{a0}g, may be off by 0.05\u{a0}g, \
                measures 0\u{a0}to 300\u{a0}g, \
                calibrated until 15 January 2027";
    assert!(view().steps[16].instruments.iter().any(|words| words == said));
}

#[test]
fn the_order_says_how_many_pieces() {
    assert!(page().contains("<span class=\"small num\">180\u{a0}000 pieces</span>"));
}

/// What version 1 of the packet does not have.
const SINCE_VERSION_2: [&str; 26] = [
    "dropped",
    "fasteners",
    "contents",
    "pieces",
    "by",
    "fraction",
    "also",
    "also_limits",
    "notes",
    "error_limit",
    "range",
    "tip_offset",
    "obstacles",
    "bar",
    "stepping",
    "scale",
    "wait",
    "pairs",
    "zero",
    "hot_parts",
    "interlock",
    "stop_position",
    "inching",
    "inspection",
    "enforced_by",
    "intended_use",
];

#[test]
fn the_energy_part_says_waits_zeros_hot_parts_and_what_a_lockout_must_state() {
    let page = page();
    check_order(
        between(&page, "<h2 id=\"energy\">", "<h2 id=\"settings\">"),
        &[
            "Timed wait: 5\u{a0}min",
            "Zero: at most 45 °C, with Display of T1",
            "Jaw covers, bare metal, touched for 1\u{a0}min: burns above 51\u{a0}°C (EN 563:1994",
            "Gloves: heat gloves. Estimate: about 31 min after switching off. It never replaces",
            "Stop position before isolation</dt><dd>Jaws open, draw bar down</dd>",
            "<dd>Coded switch B4 (Cross seal). An interlock isolates nothing.</dd>",
            "<dd>Jog button S9, hold-to-run, at most 20\u{a0}mm; it needs Mains supply and Compressed air</dd>",
            "<dd>Give energy back: Power after work inside</dd>",
            "<dd>The hall manager, who stops work without a lock</dd>",
            "<dd>2 June 2026 by Ines Varga, with Tom Reyes, Aiko Brandt</dd>",
        ],
    );
}

#[test]
fn a_packet_of_version_1_shows_nothing_of_version_2() {
    let mut value = serde_json::to_value(sample::packet()).unwrap();
    value["v"] = 1.into();
    value.as_object_mut().unwrap().remove("web");
    for setting in value["settings"].as_array_mut().unwrap() {
        setting["working"].as_object_mut().unwrap().remove("steps");
    }
    value["rails"].as_array_mut().unwrap().truncate(2);
    without(&mut value["steps"], &["guard"]);
    without(&mut value, &SINCE_VERSION_2);
    let page = packet_html(&serde_json::from_value(value).unwrap(), "", &PacketIssue::default());
    for text in [
        "class=\"also\"",
        "class=\"by\"",
        "class=\"operations\"",
        "class=\"notes\"",
        "No longer set",
        "Web and film",
        "Net contents",
        "Screws",
        "class=\"guard\"",
        "too close",
        "On the scale",
        "where its blank says",
        "pieces</span>",
        "may be off",
        "Stepped off",
        "Fixed on the rail",
        "Timed wait",
        "burns above",
        "isolates nothing",
        "Enforced by",
    ] {
        assert!(!page.contains(text), "{text}");
    }
}

/// Leaves out fields by name, at every depth.
fn without(value: &mut Value, names: &[&str]) {
    match value {
        Value::Array(items) => items.iter_mut().for_each(|item| without(item, names)),
        Value::Object(fields) => {
            names.iter().for_each(|name| drop(fields.remove(*name)));
            fields.values_mut().for_each(|field| without(field, names));
        }
        _ => {}
    }
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
            &format!("@bottom-left{{content: \"Packet {short}\"}}"),
            "@bottom-center{content: \"Job J-4107 on sachet-6: ",
            "counter(page) \" of \" counter(pages)",
        ],
    );
}

#[test]
fn minor_servicing_says_what_protects_and_why_before_the_text() {
    let mut packet = sample::packet();
    packet.to.allergens = vec!["celery".to_owned(), "mustard".to_owned()];
    packet.steps[0].minor_servicing = Some(MinorServicing {
        routine: "each shift".to_owned(),
        repetitive: "each reel".to_owned(),
        integral: "no web without it".to_owned(),
        measure: "splice table with hold-to-run".to_owned(),
        risk_assessment: "RA-7".to_owned(),
    });
    let page = packet_html(&packet, &sample::digest(), &sample::issue());
    check_order(
        &page,
        &[
            "contains celery, mustard",
            "id=\"step-1\"",
            "No lockout: minor servicing, 29 CFR 1910.147(a)(2)(ii), note.",
            "protected instead by: splice table with hold-to-run (29 CFR 1910.212)",
            "routine: each shift",
            "risk assessment: RA-7",
            "<div class=\"step-text\">",
        ],
    );
    assert!(!self::page().contains("minor servicing"));
}

#[test]
fn a_foot_text_cannot_leave_its_string() {
    assert_eq!(css_text("a\";} body{display:none}</style>\\a"), "a bodydisplay:nonestylea");
}

/// Every text of the packet becomes an attack; none may come through as markup.
#[test]
fn no_text_of_a_packet_is_markup() {
    const ATTACK: &str = "</style></title><script>alert(1)</script><img src=x onerror=y>\"'";
    let mut value = serde_json::to_value(sample::packet()).unwrap();
    let named = ["signal", "kind", "change", "stage", "needs", "block", "marks", "meaning"];
    poison(&mut value, ATTACK, &named);
    let packet: Packet = serde_json::from_value(value).unwrap();
    let issue = PacketIssue {
        state: ATTACK.into(),
        program: ATTACK.into(),
        is_outdated: true,
        checkpoint: ATTACK.into(),
    };
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
        dropped: vec![],
        web: vec![],
        fasteners: vec![],
        contents: vec![],
        rails: vec![],
        steps: vec![],
        procedures: vec![],
        ..sample::packet()
    };
    let page = packet_html(&packet, "", &PacketIssue::default());
    assert!(page.contains("Before anything else") && !page.contains("Hazards of this job"));
}

/// The sample in another language, its page.
fn page_in(language: Language) -> String {
    packet_html(&Packet { language, ..sample::packet() }, &sample::digest(), &sample::issue())
}

#[test]
fn a_packet_speaks_one_language() {
    check_order(
        &page_in(Language::Spanish),
        &[
            "<html lang=\"es\">",
            "Paquete de cambio de formato",
            "Las normas locales, el manual del fabricante",
            "<b>PELIGRO</b>",
            "Reunir antes de la parada",
            "Fuentes de energía",
            "Ajustar a",
            "360,0\u{a0}mm",
            "Rieles",
            "a la izquierda",
            "Aislado, bloqueado y comprobado",
            "\u{2212}56,5 a \u{2212}55,5\u{a0}mm",
            "<b>realizado</b> por technician",
        ],
    );
    let german = page_in(Language::German);
    check_order(
        &german,
        &[
            "GEFAHR",
            "Einstellen auf",
            "nach links",
            "höchstens 0\u{a0}V",
            "<b>ausgeführt</b>: tech",
        ],
    );
    for english in ["Local codes", "WARNING", "at least", "Signature", "Tools:", "page \" "] {
        assert!(!german.contains(english), "{english}");
    }
    assert!(page_in(Language::LatinSpanish).contains("360.0\u{a0}mm"), "decimal point");
}

#[test]
fn a_message_is_shortened_only_where_its_procedure_said_it_in_full() {
    let mut said: Vec<String> = Vec::new();
    let mut brief = 0;
    for step in view().steps {
        if step.begins.is_some() {
            said.clear();
        }
        for hazard in step.hazards.iter().filter(|_| step.stays.is_empty()) {
            assert_eq!(hazard.brief, said.contains(&hazard.hazard), "{}", step.number);
            said.push(hazard.hazard.clone());
            brief += usize::from(hazard.brief);
        }
    }
    let page = page();
    assert_eq!(page.matches("<p class=\"brief ").count(), brief);
    assert!(brief > 0);
    let at = page.find("<p class=\"brief ").unwrap();
    let text = page[at..].split("</p>").next().unwrap();
    check_order(text, &["#alert", "</svg> ", "</b> <b>", "</b> <i>", "</i>"]);
}

#[test]
fn what_was_said_with_other_signs_is_said_again_in_full() {
    let mut packet = signed();
    let gloves =
        packet.steps.iter().position(|step| step.hazards.contains(&"knife-edge".to_owned()));
    let first = packet.steps[gloves.unwrap()].clone();
    let energised = Step { needs: EnergyState::Energised, number: 9, ..first.clone() };
    packet.steps = vec![first, energised.clone(), energised];
    let steps = PacketView::new(&packet, "", &PacketIssue::default()).steps;
    let brief: Vec<bool> = steps.iter().map(|step| step.hazards[0].brief).collect();
    assert_eq!(brief, [false, false, true], "no gloves is new in the second");
}

#[test]
fn each_procedure_has_a_head_with_the_numbers_of_its_steps() {
    let steps = view().steps;
    let mut next = 1;
    for part in steps.iter().filter_map(|step| step.begins.as_ref()) {
        assert_eq!(part.first, next, "{}", part.title);
        next = part.last + 1;
        assert!(!part.title.is_empty());
    }
    assert_eq!(usize::try_from(next).unwrap(), steps.len() + 1);
}

#[test]
fn a_draft_and_an_outdated_packet_say_so_across_each_sheet_and_at_their_head() {
    let draft = Packet { drafts: vec!["recipes/a.yaml".into()], ..sample::packet() };
    let outdated = PacketIssue { is_outdated: true, ..PacketIssue::default() };
    check_order(
        &packet_html(&draft, "", &outdated),
        &[
            "<div class=\"watermark\" aria-hidden=\"true\"><p>Draft</p><p>Outdated</p></div>",
            "<div class=\"standing\"><p>Draft, Outdated</p><p>Draft: not to be used",
            "recipes/a.yaml",
            "Outdated: the plant",
            "Local codes",
        ],
    );
    assert!(!page().contains("class=\"watermark\"") && !page().contains("class=\"standing\""));
}

#[test]
fn the_title_block_holds_the_code_and_its_address_in_words() {
    let mut packet = sample::packet();
    packet.plant.address = "https://plant.example".into();
    let page = packet_html(&packet, &sample::digest(), &sample::issue());
    let block = between(&page, "<header class=\"title-block\">", "</header>");
    check_order(block, &["class=\"qr\"", "<p>https://plant.example/packets/J-4107.html</p>"]);
    assert!(block.contains(&sample::digest()));
}

#[test]
fn what_a_step_settles_stands_in_its_head() {
    let mut packet = sample::packet();
    packet.steps[0].marks = vec![Mark::LineCleared, Mark::Cleaned];
    let page = packet_html(&packet, "", &PacketIssue::default());
    let step = between(&page, "id=\"step-1\"", "</header>");
    assert!(
        step.contains("Settles: line cleared of the old product; allergens cleaned out"),
        "{step}"
    );
}
