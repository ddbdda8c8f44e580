//! The pages of the history: every number on them is one that `history --json` gives.

use serde_json::Value;
use witnessmark::quantity::{Number, decimals_in};

use crate::plant::Plant;

/// The demo plant with its site, and its history as programs read it.
fn published() -> (Plant, Value) {
    let plant = Plant::demo();
    let history = plant.run(&["history", "PLANT", "--json"]).ends(0).json();
    let run = plant.run(&["publish", "PLANT", "--out", "site"]);
    assert!(run.code < 2, "{}{}", run.stdout, run.stderr);
    (plant, history)
}

fn page(plant: &Plant, name: &str) -> String {
    std::fs::read_to_string(plant.beside("site/history").join(name)).unwrap()
}

/// The pages on which charts of a machine stand.
fn pages(plant: &Plant, machine: &str) -> String {
    let folder = std::fs::read_dir(plant.beside("site/history")).unwrap();
    let names = folder.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let own = names.filter(|name| name.split('.').next() == Some(machine));
    own.map(|name| page(plant, &name)).collect()
}

fn text<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().unwrap_or_default()
}

/// A number of the engine as pages have it.
fn shown(value: &Value, places: u32) -> String {
    let number = Number::parse(value.as_str().unwrap()).unwrap();
    number.shortest(places).replacen('-', "\u{2212}", 1)
}

fn minus(text: &str) -> String {
    text.replacen('-', "\u{2212}", 1)
}

/// The rows of a piece of a page, each with the text of its cells.
fn rows(piece: &str) -> Vec<Vec<String>> {
    let rows = piece.split("<tr>").skip(1).filter_map(|row| row.split("</tr>").next());
    rows.map(|row| row.replace("</th>", "</td>").split("</td>").map(bare).collect()).collect()
}

/// Text without marks.
fn bare(markup: &str) -> String {
    let pieces = markup.split('<').map(|piece| piece.rsplit('>').next().unwrap_or(piece));
    pieces.collect::<String>().trim().to_owned()
}

/// What stands between two pieces of a text.
#[track_caller]
fn between<'t>(text: &'t str, from: &str, to: &str) -> &'t str {
    let (_, rest) = text.split_once(from).unwrap_or_else(|| panic!("no {from}"));
    rest.split(to).next().unwrap()
}

/// Short names of the rules that fired at a point.
fn fired(point: &Value) -> String {
    let rules = point["fired"].as_array().unwrap().iter().map(|rule| rule.as_str().unwrap());
    let short = |rule: &str| rule.replace("nelson-", "N").replace("western-electric-", "W");
    let range = (point["range_fired"] == true).then(|| "MR".to_owned());
    rules.map(short).chain(range).collect::<Vec<_>>().join(", ")
}

#[test]
fn every_number_of_a_chart_is_the_engines() {
    let (plant, history) = published();
    let (mut charts, mut points) = (0, 0);
    for series in history["series"].as_array().unwrap() {
        let pages = pages(&plant, text(series, "machine"));
        if series["lines"].is_null() {
            continue;
        }
        let label = text(series, "label");
        let own = between(&pages, &format!("\">{label}</h3>"), "</details>");
        points += check_points(series, own);
        check_lines(series, own);
        charts += 1;
    }
    assert!(charts > 1 && points > 40, "{charts} charts, {points} points");
}

fn places(series: &Value) -> u32 {
    let newest = series["points"].as_array().unwrap().last().unwrap();
    (decimals_in(text(newest, "reading")) + 2).min(6)
}

fn check_lines(series: &Value, own: &str) {
    let places = places(series);
    let lines = &series["lines"];
    for (name, value) in [
        ("UCL", &lines["upper"]),
        ("CL", &lines["centre"]),
        ("LCL", &lines["lower"]),
        ("CL", &lines["mean_range"]),
        ("UCL", &lines["upper_range"]),
    ] {
        let drawn = format!(">{name} {}</text>", shown(value, places));
        assert!(own.contains(&drawn), "{drawn} is not in {own}");
    }
    let facts = between(own, "<dl class=\"facts\">", "</dl>");
    for key in ["mean", "deviation"] {
        let fact = format!("<dd>{}</dd>", shown(&series[key], places));
        assert!(facts.contains(&fact), "{key}: {fact} is not in {facts}");
    }
    for (rule, times) in series["signals"].as_object().unwrap() {
        let name = rule.replace("nelson-", "N").replace("western-electric-", "W");
        assert!(own.contains(&format!("{name}: {times}")), "{name}: {times}");
    }
    let Some(known) = series["capability"].get("known") else {
        assert!(!own.contains(">Cpk<"), "{own}");
        return;
    };
    for sigma in ["within", "overall"] {
        let cpk = Number::parse(known[sigma]["cpk"].as_str().unwrap()).unwrap();
        assert!(own.contains(&format!("<td class=\"num\">{}</td>", cpk.decimal(2))), "{own}");
    }
}

/// Each row of the table is a point of the engine, and each drawn shape too; how many there are.
fn check_points(series: &Value, own: &str) -> usize {
    let places = places(series);
    let rows = rows(between(own, "<details class=\"points\">", "</table>"));
    let rows = &rows[1..];
    let points = series["points"].as_array().unwrap();
    let latest = &points[points.len() - rows.len()..];
    assert!(rows.len() == points.len() || rows.len() == 52, "{}", rows.len());
    for (row, point) in rows.iter().zip(latest) {
        let reading = match point["first"].as_str() {
            Some(first) => format!("{} (first {})", minus(text(point, "reading")), minus(first)),
            None => minus(text(point, "reading")),
        };
        let range = point["range"].as_str().map(|_| shown(&point["range"], places));
        let expected = [
            point["number"].to_string(),
            text(point, "at")[..10].to_owned(),
            text(point, "record").to_owned(),
            row[3].clone(),
            reading,
            minus(text(point, "target")),
            shown(&point["value"], places),
            range.unwrap_or_default(),
            fired(point),
        ];
        assert_eq!(row[..9], expected);
        let entry = format!("{}.html#entry-{}\"", text(point, "record"), point["entry"]);
        assert!(own.contains(&entry), "{entry}");
    }
    let is_fired =
        |point: &&Value| point["fired"].as_array().is_some_and(|rules| !rules.is_empty());
    let ranges = latest.iter().filter(|point| point["range_fired"] == true).count();
    let diamonds = latest.iter().filter(is_fired).count() + ranges;
    assert_eq!(own.matches("class=\"fired\"").count(), diamonds, "{own}");
    latest.len()
}

#[test]
fn every_number_of_a_changeover_is_the_engines() {
    let (plant, history) = published();
    let all = history["changeovers"].as_array().unwrap();
    let mut seen = 0;
    for machine in history["machines"].as_array().unwrap() {
        let id = text(machine, "id");
        let page = page(&plant, &format!("{id}.html"));
        let rows = rows(between(&page, "<h2 id=\"changeovers\">", "</table>"));
        let own: Vec<&Value> = all.iter().rev().filter(|one| one["machine"] == id).collect();
        assert_eq!(rows.len() - 1, own.len().min(100), "{id}");
        for (row, one) in rows[1..].iter().zip(own) {
            let minutes = |key: &str| one[key].as_u64().map_or("&ndash;".into(), |m| m.to_string());
            let share = &one["first_pass"];
            let expected = [
                text(one, "record").to_owned(),
                row[2].clone(),
                format!("{} / {}", minutes("minutes"), one["planned"]),
                format!("{} / {}", minutes("stop"), one["planned_stop"]),
                format!("{} of {}", share["good"], share["all"]),
            ];
            assert_eq!(row[1..6], expected, "{id}");
            seen += 1;
        }
        let index = self::page(&plant, "index.html");
        let line = format!("<td class=\"num\">{}</td>", machine["changeovers"]);
        assert!(between(&index, &format!("history/{id}.html"), "</tr>").contains(&line), "{id}");
    }
    assert_eq!(seen, all.len().min(seen));
    assert!(seen > 40, "{seen}");
}

#[test]
fn a_question_stands_where_its_writer_and_the_auditor_look_and_changes_no_exit_code() {
    let (plant, history) = published();
    let questions = history["questions"].as_array().unwrap();
    assert!(!questions.is_empty());
    let audit = plant.run(&["audit", "PLANT", "--json", "--report", "audit.html"]);
    let told = audit.json();
    assert_eq!(&told["questions"], &history["questions"]);
    let summary = &told["summary"];
    if summary["errors"] == 0 && summary["warnings"] == 0 {
        assert_eq!(audit.code, 0, "{}", audit.stdout);
    }
    let report = std::fs::read_to_string(plant.beside("audit.html")).unwrap();
    let lines = plant.run(&["audit", "PLANT"]).stdout;
    for question in questions {
        let (words, means) = (text(question, "words"), text(question, "means"));
        let escaped = words.replace('\'', "&#39;").replace('"', "&quot;");
        let procedure = format!("procedures/{}.html", text(question, "procedure"));
        let procedure = std::fs::read_to_string(plant.beside("site").join(procedure)).unwrap();
        let machine = format!("{}.html", question["machines"][0].as_str().unwrap());
        for (place, markup) in [
            ("procedure", &procedure),
            ("history", &page(&plant, "index.html")),
            ("machine", &page(&plant, &machine)),
            ("report", &report),
        ] {
            assert!(markup.contains(&escaped) && markup.contains(means), "{place}: {words}");
        }
        assert!(lines.contains(words) && lines.contains(means), "{lines}");
    }
}

#[test]
fn the_history_is_found_from_where_its_readers_are() {
    let (plant, history) = published();
    let site = plant.beside("site");
    let has = |page: &str, link: &str| {
        let html = std::fs::read_to_string(site.join(page)).unwrap();
        assert!(html.contains(&format!("href=\"{link}\"")), "{page}: {link}");
    };
    has("index.html", "history/index.html");
    has("records/index.html", "../history/index.html");
    has("search.html", "history/index.html");
    for changeover in history["changeovers"].as_array().unwrap() {
        let (machine, record) = (text(changeover, "machine"), text(changeover, "record"));
        has(&format!("records/{record}.html"), &format!("../history/{machine}.html"));
        has(&format!("machines/{machine}.html"), &format!("../history/{machine}.html"));
        has("search.html", &format!("history/{machine}.html"));
    }
}
