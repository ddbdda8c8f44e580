//! The computed numbers of a job, through the whole program, against published or independently worked
//! figures; the source stands beside each.

use serde_json::Value;

use crate::plant::Plant;

const PLANT: &str = "plant.yaml";
const MACHINE: &str = "machines/line-1.yaml";
const SMALL: &str = "recipes/small-pouch.yaml";
const LARGE: &str = "recipes/large-pouch.yaml";
const JOB: &str = "jobs/J-1.yaml";

/// What `derive` says of the job as JSON.
#[track_caller]
fn derived(plant: &Plant) -> Value {
    plant.run(&["derive", "PLANT", "J-1", "--json"]).ends(0).json()
}

/// One thing of a list, by its identifier.
#[track_caller]
fn find<'v>(list: &'v Value, id: &str) -> &'v Value {
    let found = list.as_array().unwrap().iter().find(|thing| thing["id"] == id);
    found.unwrap_or_else(|| panic!("no {id} in {list:#}"))
}

/// Wants these values of figures, `name=value`.
#[track_caller]
fn figures(list: &Value, expected: &[(&str, &str)]) {
    for (id, value) in expected {
        assert_eq!(find(list, id)["value"], *value, "{id}");
    }
}

/// The knives of a recipe laid out by its web; spares come off, so that any web has room.
fn laid_out_by_web(plant: &Plant) {
    plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    spares: off");
    let own = "lanes: lanes, strip: strip, trim: trim,";
    plant.edit(LARGE, own, "lanes: web.lanes, strip: web.strip, trim: web.side_trim,");
}

/// A block before the settings of a recipe.
fn block(plant: &Plant, recipe: &str, block: &str) {
    plant.edit(recipe, "settings:\n", &format!("{block}settings:\n"));
}

const FILM: &str = "films:
  plain:
    name: Plain film
    thickness: 60 µm
    density: 0.92 g/cm³
    rolls:
      - { width: 300 mm, outside: 400 mm, core: 76.2 mm }
      - { width: 352 mm, outside: 400 mm, core: 76.2 mm }
      - { width: 500 mm, outside: 400 mm, core: 76.2 mm }
";

/// Worked independently: L = π(D² - d²)/(4t); 50 000 packs of 180 mm with 2 % waste need 9180 m, which
/// is 4.548 rolls of 2018.389 m; five rolls, four changes, the last one left at 274.7 mm; a roll of
/// 352 mm and 55.2 g/m² weighs 39.218 kg and gives 11 213 packs.
#[test]
fn film_and_rolls_are_the_independently_worked_ones() {
    let plant = Plant::small();
    plant.write("stock.yaml", FILM);
    laid_out_by_web(&plant);
    plant.edit(JOB, "order:", "pieces: 50000\norder:");
    let web = "web: { format: flat, flat_width: 352 mm, lanes: 1, cut_length: 180 mm, film: plain, waste: 2 % }\n";
    block(&plant, LARGE, web);
    figures(
        &derived(&plant)["web"],
        &[
            ("web.strip", "352 mm"),
            ("web.width", "352 mm"),
            ("web.roll", "352 mm"),
            ("web.side_trim", "0 mm"),
            ("web.roll_length", "2018.4 m"),
            ("web.roll_mass", "39.22 kg"),
            ("web.pieces_per_roll", "11213"),
            ("web.film_needed", "9180 m"),
            ("web.rolls", "5"),
            ("web.splices", "4"),
            ("web.last_roll_outside", "275 mm"),
            ("web.trimmed_area", "0 m²"),
        ],
    );
}

/// Worked independently: lanes divide the metres of web; 2 % and threading of 15 m a roll change
/// nothing about five rolls; trim costs its width times the length.
#[test]
fn the_narrowest_roll_that_fits_is_taken_and_its_trim_is_told() {
    let plant = Plant::small();
    plant.write("stock.yaml", FILM);
    laid_out_by_web(&plant);
    plant.edit(JOB, "order:", "pieces: 50000\norder:");
    let web = "web: { format: flat, flat_width: 80 mm, lanes: lanes, trim: 5 mm, cut_length: 180 mm, \
               film: plain, threading: 15 m }\n";
    block(&plant, LARGE, web);
    figures(
        &derived(&plant)["web"],
        &[
            ("web.width", "330 mm"),
            ("web.roll", "352 mm"),
            ("web.side_trim", "16 mm"),
            ("web.trimmed_share", "9.1 %"),
            ("web.film_needed", "2250 m"),
            ("web.rolls", "2"),
            ("web.trimmed_area", "72 m²"),
            ("web.trimmed_mass", "3.97 kg"),
        ],
    );
}

/// Strips of formed tubes, worked independently (common practice, no source): fin seal of 10 mm,
/// lap seal of 12 mm, a gusset folded in by its depth at both sides takes four times its depth.
#[test]
fn strips_of_each_format_are_the_independently_worked_ones() {
    let strip = |format: &str| {
        let plant = Plant::small();
        block(&plant, LARGE, &format!("web: {{ {format}, lanes: 1, cut_length: 100 mm }}\n"));
        find(&derived(&plant)["web"], "web.strip")["value"].as_str().unwrap().to_owned()
    };
    for (width, fin, lap) in [
        ("50 mm", "120 mm", "112 mm"),
        ("80 mm", "180 mm", "172 mm"),
        ("150 mm", "320 mm", "312 mm"),
        ("6 in", "324.8 mm", "316.8 mm"),
    ] {
        assert_eq!(strip(&format!("format: fin, flat_width: {width}, seal: 10 mm")), fin);
        assert_eq!(strip(&format!("format: lap, flat_width: {width}, seal: 12 mm")), lap);
    }
    assert_eq!(strip("format: fin, flat_width: 100 mm, seal: 10 mm, gusset: 20 mm"), "300 mm");
    assert_eq!(strip("format: flat, flat_width: 100 mm"), "100 mm");
}

/// Common practice, no source: a 23 mm pouch with 5 mm fins needs a strip of 56 mm.
#[test]
fn a_working_shows_formula_numbers_steps_and_source() {
    let plant = Plant::small();
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 23 mm");
    let strip = &derived(&plant)["settings"];
    let working = &find(strip, "strip")["working"];
    assert_eq!(working["numbers"], "2 * 23 mm + 2 * 5 mm");
    let steps =
        serde_json::json!(["2 * 23 mm = 46 mm", "2 * 5 mm = 10 mm", "46 mm + 10 mm = 56 mm"]);
    assert_eq!(working["steps"], steps);
    assert_eq!(find(strip, "strip")["source"], "common practice, no source");
}

/// Linear interpolation by hand; the ends belong to the table.
#[test]
fn a_table_is_read_between_its_rows() {
    let dwell = |film: &str| {
        let plant = Plant::small();
        let table =
            "tables:\n  dwell: { reads: between, rows: [[20 µm, 0.30 s], [40 µm, 0.40 s]] }\n";
        block(&plant, LARGE, table);
        let setting = format!(
            "settings:\n  dwell_time: {{ name: Dwell, formula: dwell({film}), unit: s }}\n"
        );
        plant.edit(LARGE, "settings:\n", &setting);
        find(&derived(&plant)["settings"], "dwell_time")["target"].as_str().unwrap().to_owned()
    };
    assert_eq!([dwell("20 µm"), dwell("25 µm"), dwell("40 µm")], ["0.3", "0.325", "0.4"]);
}

/// ISO 2768-1 class m: 120 mm ±0.3, 120.1 mm ±0.5 (the boundary belongs to the lower row).
#[test]
fn limits_come_in_every_form_people_write() {
    let limits = |target: &str, tolerance: &str| {
        let plant = Plant::small();
        let own = "formula: lanes * strip + 2 * trim\n    unit: mm\n    tolerance: ±1 mm\n    instrument: steel-rule";
        plant.edit(
            LARGE,
            own,
            &format!("formula: {target}\n    unit: mm\n    tolerance: {tolerance}"),
        );
        let derived = derived(&plant);
        let setting = find(&derived["settings"], "web_width");
        [setting["low"].clone(), setting["high"].clone()].map(|end| end.as_str().map(str::to_owned))
    };
    let ends =
        |low: Option<&str>, high: Option<&str>| [low.map(str::to_owned), high.map(str::to_owned)];
    assert_eq!(limits("120 mm", "ISO 2768-1 m"), ends(Some("119.7"), Some("120.3")));
    assert_eq!(limits("120.1 mm", "ISO 2768-m"), ends(Some("119.6"), Some("120.6")));
    assert_eq!(limits("4 mm", "3 to 5 mm"), ends(Some("3"), Some("5")));
    assert_eq!(limits("4 mm", "at least 3 mm"), ends(Some("3"), None));
    assert_eq!(limits("4 mm", "at most 5 mm"), ends(None, Some("5")));
    assert_eq!(limits("4 mm", "+0.3/-0.1 mm"), ends(Some("3.9"), Some("4.3")));
}

/// NIST SP 811 (2008): 25.4 mm to the inch, exact; limits rounded inward (ASME A112.18.1, Annex A).
#[test]
fn a_plant_may_show_both_systems() {
    let plant = Plant::small();
    plant.edit(PLANT, "domain:", "units: { first: metric, also: inch }\ndomain:");
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 23 mm");
    let derived = derived(&plant);
    let strip = find(&derived["settings"], "strip");
    assert_eq!((&strip["target"], &strip["also"]), (&"56.0".into(), &"2.205 in".into()));
    assert_eq!(strip["also_limits"], "2.186 to 2.224 in");
    let run = plant.run(&["derive", "PLANT", "J-1", "strip"]).ends(0);
    run.says("set to   56.0 mm (2.205 in)").says("limits   55.5 to 56.5 mm (2.186 to 2.224 in)");
    let holder = &derived["rails"][0]["holders"][1];
    assert_eq!((&holder["new"], &holder["also"]), (&"-56.0".into(), &"-2.205 in".into()));
}

/// 56 mm is nearest to 2 7/32 in on a rule of 1/32 in (worked by hand; error +0.356 mm).
#[test]
fn a_rule_marked_in_fractions_is_set_in_fractions() {
    let plant = Plant::small();
    let rule = "instruments:\n  inch-rule: { name: Inch rule, resolution: 1/32 in }\n";
    plant.edit(MACHINE, "instruments:\n", rule);
    for recipe in [SMALL, LARGE] {
        let text = plant.read(recipe);
        let text = text.replace("steel-rule\n    source", "inch-rule\n    source");
        plant.write(
            recipe,
            text.replace("unit: mm", "unit: in")
                .replace("±0.5 mm", "±5 mm")
                .replace("±1 mm", "±5 mm"),
        );
    }
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 23 mm");
    let derived = derived(&plant);
    let strip = find(&derived["settings"], "strip");
    assert_eq!((&strip["target"], &strip["fraction"]), (&"2.21875".into(), &"2 7/32".into()));
    // 51 mm to 61 mm are 2.0079 in to 2.4016 in: 2 1/32 in to 2 3/8 in inside.
    assert_eq!((&strip["low"], &strip["high"]), (&"2.03125".into(), &"2.37500".into()));
    assert_eq!(strip["also_limits"], "2 1/32 to 2 3/8 in");
    plant
        .run(&["derive", "PLANT", "J-1", "strip"])
        .ends(0)
        .says("set to   2 7/32 in (was 2 7/32 in)");
}

/// ISO 898-1, ISO 4762 and T = 0.2·0.75·S_p·A_s·d: M8 in 8.8 takes 25.474 N·m and a key of 6 mm; a
/// wrench set to 25.5 N·m delivers 24.48 N·m to 26.52 N·m N·m (ISO 6789).
#[test]
fn screws_have_their_key_and_torque() {
    let plant = Plant::small();
    let screw =
        "fasteners:\n  blade: { name: Blade screw, thread: M8, class: \"8.8\", wrench: wrench }\n";
    plant.edit(MACHINE, "rails:\n", &format!("{screw}rails:\n"));
    let wrench = "instruments:\n  wrench: { name: Torque wrench, resolution: 0.5 N·m, error_limit: ISO 6789, range: 10 to 50 N·m }\n";
    plant.edit(MACHINE, "instruments:\n", wrench);
    plant.edit(MACHINE, "    facts: { hex_key: 5 mm, clamp_torque: 9 N·m }", "    clamp: blade");
    let derived = derived(&plant);
    let blade = find(&derived["fasteners"], "blade");
    assert_eq!((&blade["key"], &blade["torque"]), (&"6 mm".into(), &"25 N·m".into()));
    assert_eq!(
        (&blade["basis"], &blade["proof_load"]),
        (&"computed".into(), &"21.2 kN on 36.6 mm²".into())
    );
    assert_eq!(blade["notes"][0], "Torque wrench delivers 24 N·m to 26 N·m (ISO 6789)");
    plant.run(&["packet", "PLANT", "J-1", "--out", "packet.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("packet.html")).unwrap();
    assert!(page.contains("computed: the maker"), "a computed torque says so where it is used");
    assert!(page.contains("<span class=\"value\">6\u{a0}mm</span> hex key"));
}

/// The maker's figure wins over the computed one.
#[test]
fn a_stated_torque_is_taken_as_stated() {
    let plant = Plant::small();
    let screw = "fasteners:\n  blade: { name: Blade screw, thread: M8, class: \"8.8\", torque: 18 N·m, source: \"manual, 4.2\" }\n";
    plant.edit(MACHINE, "rails:\n", &format!("{screw}rails:\n"));
    let derived = derived(&plant);
    let blade = find(&derived["fasteners"], "blade");
    assert_eq!((&blade["torque"], &blade["basis"]), (&"18 N·m".into(), &"stated".into()));
    assert_eq!(blade["source"], "manual, 4.2");
    assert!(blade["notes"][0].as_str().unwrap().contains("well below the 25.5 N·m"), "{blade:#}");
}

/// Directive 76/211/EEC, annex I 2.4: 125 g may lack 5.7 g (4.5 %, rounded up to 0.1 g).
#[test]
fn a_label_limits_single_packs_and_their_average() {
    let plant = Plant::small();
    block(&plant, LARGE, "net_contents: { of: fill, label: 125 g, rules: EU }\n");
    let fill =
        "settings:\n  fill: { name: Fill, formula: 126 g, unit: g, tolerance: at most 130 g }\n";
    plant.edit(LARGE, "settings:\n", fill);
    plant.edit(LARGE, "  - { of: strip, each: lane }", "  - { of: fill, each: head, heads: 3 }");
    let derived = derived(&plant);
    figures(
        &derived["contents"],
        &[
            ("net_contents.tolerable", "5.7 g"),
            ("net_contents.least", "119.3 g"),
            ("net_contents.never", "113.6 g"),
        ],
    );
    let fill = find(&derived["settings"], "fill");
    assert_eq!((&fill["low"], &fill["high"]), (&"119.3".into(), &"130.0".into()));
    plant.run(&["packet", "PLANT", "J-1", "--out", "packet.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("packet.html")).unwrap();
    for piece in ["head 1", "head 3", "average of the pieces above", "at least 125"] {
        assert!(page.contains(piece), "{piece}");
    }
}

/// Common practice, no source: four lanes in the middle of six are lanes 2 to 5, cut at ±2, ±1 and 0
/// pitches; lanes 1 to 4 are the same, one pitch to the left.
#[test]
fn lanes_have_the_numbers_of_the_machine() {
    let plant = Plant::small();
    plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    lanes_fitted: 6");
    let rail = |plant: &Plant| derived(plant)["rails"][0].clone();
    let numbers = |rail: &Value| -> Vec<u64> {
        rail["lanes"]
            .as_array()
            .unwrap()
            .iter()
            .map(|lane| lane["number"].as_u64().unwrap())
            .collect()
    };
    assert_eq!(numbers(&rail(&plant)), [2, 3, 4, 5]);
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 15 mm");
    plant.edit(LARGE, "edge_cuts: true", "edge_cuts: true, run: [1, 2, 3, 4]");
    let left = rail(&plant);
    assert_eq!(numbers(&left), [1, 2, 3, 4]);
    let used: Vec<&Value> =
        left["holders"].as_array().unwrap().iter().filter(|h| h["parked"] == false).collect();
    let at: Vec<&str> = used.iter().map(|holder| holder["new"].as_str().unwrap()).collect();
    assert_eq!(at, ["-120.0", "-80.0", "-40.0", "0.0", "40.0"]);
}

/// With spares off the rail, fewer knives mean that holders come off, more that they are fitted.
#[test]
fn holders_come_off_and_are_fitted() {
    let plant = Plant::small();
    plant.edit(MACHINE, "spacing: 40 mm", "spacing: 40 mm\n    spares: off");
    plant.edit(LARGE, "lanes: 4", "lanes: 2");
    let moves = |plant: &Plant| -> Vec<String> {
        let derived = derived(plant);
        let moves = derived["rails"][0]["moves"].as_array().unwrap().clone();
        let words = |step: &Value| {
            let text = |key: &str| step[key].as_str().unwrap_or_default().to_owned();
            format!("{} {} -> {}", text("direction"), text("from"), text("to"))
        };
        moves.iter().map(words).collect()
    };
    // Knives of the small pouch at -112, -56, 0, 56, 112; two lanes of 90 mm are cut at -90, 0, 90.
    let expected = ["off -112.0 -> ", "off 112.0 -> ", "right 56.0 -> 90.0", "left -56.0 -> -90.0"];
    assert_eq!(moves(&plant), expected);
    plant.edit(JOB, "from: small-pouch", "from: wait");
    plant.edit(JOB, "to: large-pouch", "to: small-pouch");
    plant.edit(JOB, "from: wait", "from: large-pouch");
    let back = ["right -90.0 -> -56.0", "left 90.0 -> 56.0", "fit  -> -112.0", "fit  -> 112.0"];
    assert_eq!(moves(&plant), back);
}

/// A scale that shows 250 mm at the datum; tips 4 mm right of the middle; steps of 0.1 mm, so that each
/// measurement is 0.05 mm off and two steps 0.1 mm at worst, √2 times 0.05 mm as root of the sum of
/// squares (worked by hand; shown rounded up).
#[test]
fn a_rail_tells_its_scale_its_tip_and_what_stepping_off_would_cost() {
    let plant = Plant::small();
    let scale =
        "spacing: 40 mm\n    tip_offset: 4 mm\n    scale: { at_datum: 250 mm, grows: left }";
    plant.edit(MACHINE, "spacing: 40 mm", scale);
    let derived = derived(&plant);
    let rail = &derived["rails"][0];
    let used = rail["holders"].as_array().unwrap().iter().find(|h| h["new"] == "-90.0").unwrap();
    assert_eq!(used["scale"], "344.0");
    let stepping = &rail["stepping"];
    let expected =
        serde_json::json!({ "steps": 2, "each": "0.05", "worst": "0.1", "rss": "0.071" });
    assert_eq!(*stepping, expected);
    let run = plant.run(&["derive", "PLANT", "J-1", "knife_rail"]).ends(0);
    run.says("4 mm right of the middle").says("shows 250.0 mm at the datum and grows to the left");
}

/// Two bars share the knives: each has every second one, and strips narrower than a holder fit.
#[test]
fn narrow_strips_share_two_bars() {
    let plant = Plant::small();
    let rail = plant.read(MACHINE);
    let one = rail.split_once("  knife_rail:\n").unwrap().1.split_once("zones:").unwrap().0;
    let two = format!("  rear_rail:\n{one}zones:");
    plant.edit(MACHINE, "zones:", &two);
    let bars = |number: u32| {
        format!(
            "knives: {{ lanes: lanes, strip: strip, trim: trim, edge_cuts: true, bar: {{ number: {number}, of: 2 }} }}\n    tolerance: ±0.5 mm\n    instrument: steel-rule\n"
        )
    };
    let own = "knives: { lanes: lanes, strip: strip, trim: trim, edge_cuts: true }\n    tolerance: ±0.5 mm\n    instrument: steel-rule\n";
    plant.edit(LARGE, own, &format!("{}  rear_rail:\n    {}", bars(1), bars(2)));
    plant.remove("instructions/knives.md");
    let rear = "knives, { procedure: knives, with: { rail: rear_rail } }, release";
    plant.edit(MACHINE, "knives, release", rear);
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 10 mm");
    let derived = derived(&plant);
    let at = |rail: &str| -> Vec<String> {
        let holders = find(&derived["rails"], rail)["holders"].as_array().unwrap().clone();
        let used = holders.iter().filter(|holder| holder["parked"] == false);
        used.map(|holder| holder["new"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(at("knife_rail"), ["-60.0", "0.0", "60.0"]);
    assert_eq!(at("rear_rail"), ["-30.0", "30.0"]);
}

/// What only the old recipe sets is told, and each change says which way.
#[test]
fn settings_that_change_say_which_way_and_those_that_go_are_named() {
    let plant = Plant::small();
    plant.edit(
        SMALL,
        "settings:\n",
        "settings:\n  tension: { name: Tension, formula: 20 N, unit: N, place: Panel }\n",
    );
    let run = plant.run(&["derive", "PLANT", "J-1"]).ends(0);
    run.says("set to   90.0 mm (was 56.0 mm, up by 34.0)")
        .says("Tension (tension): no longer set, was 20 N");
}

/// U of a caliper with ±0.03 mm and steps of 0.01 mm: 2·√(0.03²/3 + 0.01²/12) = 0.0351 mm, shown as
/// 0.036 mm (JCGM 100:2008; rounded up); limits moved by it (ISO 14253-1, from memory).
#[test]
fn a_guard_band_stands_in_the_blank() {
    let plant = Plant::small();
    plant.edit(PLANT, "domain:", "judging: guarded\ndomain:");
    plant.edit(MACHINE, "resolution: 0.1 mm", "resolution: 0.01 mm, error_limit: ±0.03 mm");
    plant.edit(LARGE, "flat_width: 40 mm", "flat_width: 23 mm");
    plant.run(&["packet", "PLANT", "J-1", "--out", "packet.html"]).ends(0);
    let page = std::fs::read_to_string(plant.beside("packet.html")).unwrap();
    for piece in ["55.536", "56.464", "55.464", "56.536"] {
        assert!(page.contains(piece), "{piece} is not on the page");
    }
}

/// NIST SP 811 (2008): 352 mm are 13.858 in, 2018.389 m are 6622 ft, 39.218 kg are 86.46 lb.
#[test]
fn figures_of_the_web_follow_the_units_of_the_plant() {
    let value = |units: &str, id: &str| {
        let plant = Plant::small();
        plant.write("stock.yaml", FILM);
        laid_out_by_web(&plant);
        plant.edit(PLANT, "domain:", &format!("units: {units}\ndomain:"));
        let web = "web: { format: flat, flat_width: 352 mm, lanes: 1, cut_length: 180 mm, film: plain }\n";
        block(&plant, LARGE, web);
        find(&derived(&plant)["web"], id)["value"].as_str().unwrap().to_owned()
    };
    let both = "{ first: metric, also: inch }";
    assert_eq!(value(both, "web.roll"), "352 mm (13.858 in)");
    assert_eq!(value(both, "web.roll_length"), "2018.4 m (6622 ft)");
    assert_eq!(value("{ first: inch }", "web.roll_mass"), "86.46 lb");
    assert_eq!(value("{ first: inch, also: metric }", "web.roll"), "13.858 in (352 mm)");
}
