//! The page of a shift, compared with the kits of its packets, never with what it was made from.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::plant::{Plant, files_of};

/// Two lines of the demo at work in the same shift, beside a job of another shift.
fn busy() -> Plant {
    let plant = Plant::demo();
    for folder in ["records", "logs", "register"] {
        let _ = std::fs::remove_dir_all(plant.folder().join(folder));
    }
    plant.edit("jobs/SM-1045.yaml", "shift: night", "shift: early");
    plant
}

/// The kits of a plant's packets, by job, as they lie in the site.
fn kits(plant: &Plant, jobs: &[&str]) -> BTreeMap<String, Vec<Value>> {
    let reading = witnessmark::plant::load::load(&plant.folder()).unwrap();
    let whole = reading.plant.unwrap();
    let mut findings = witnessmark::finding::Findings::default();
    let prepared = witnessmark::packet::prepare(&mut findings, &whole);
    let kit = |job: &&str| {
        let packet = witnessmark::packet::assemble(&mut findings, &prepared, job).unwrap();
        let packet = serde_json::to_value(&packet).unwrap();
        ((*job).to_owned(), packet["kit"].as_array().unwrap().clone())
    };
    jobs.iter().map(kit).collect()
}

/// What a reader sees: no tags, no entities.
fn seen(html: &str) -> String {
    let body = html.split_once("<main").unwrap().1;
    let mut text = String::new();
    for piece in body.split('<') {
        text += piece.split_once('>').map_or("", |(_, words)| words);
        text.push(' ');
    }
    let text = text.replace("&#39;", "'").replace("&quot;", "\"").replace("&amp;", "&");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn text<'v>(item: &'v Value, key: &str) -> &'v str {
    item[key].as_str().unwrap_or_default()
}

#[test]
fn a_shift_fetches_what_its_packets_want_each_thing_once() {
    let plant = busy();
    let kits = kits(&plant, &["SM-1045", "SM-1046"]);
    plant.run(&["shift", "PLANT", "2026-11-26", "early", "--out", "shift.html"]).says("2 jobs");
    let page = std::fs::read_to_string(plant.beside("shift.html")).unwrap();
    let mut things: BTreeMap<[&str; 3], bool> = BTreeMap::new();
    for item in kits.values().flatten() {
        let key = ["group", "item", "place"].map(|key| text(item, key));
        let is_here = item["is_here"].as_bool().unwrap_or_default();
        things.entry(key).and_modify(|all| *all &= is_here).or_insert(is_here);
    }
    let fetched = things.values().filter(|is_here| !**is_here).count();
    assert!(fetched > 40, "{fetched}");
    assert_eq!(page.matches("class=\"tick\"").count(), fetched);
    let shown = seen(&page);
    for [group, item, place] in things.keys() {
        for word in [group, item, place] {
            let word = word.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(shown.contains(&word), "{word}");
        }
    }
    // Each job stands beside each thing it wants.
    for (job, kit) in &kits {
        let rows = page.split("<tr>").filter(|row| row.contains(&format!(">{job}</strong>")));
        let wants = rows.map(|row| row.matches(&format!(">{job}</strong>")).count()).sum::<usize>();
        assert_eq!(wants, kit.len(), "{job}");
    }
}

#[test]
fn the_page_stands_alone_or_in_the_site_and_says_the_same() {
    let plant = busy();
    plant.run(&["shift", "PLANT", "2026-11-26", "early", "--out", "shift.html"]);
    let alone = std::fs::read_to_string(plant.beside("shift.html")).unwrap();
    for leads in ["href=\"../", "href=\"jobs", "src=", "<script", " style="] {
        assert!(!alone.contains(leads), "{leads}");
    }
    plant.run(&["publish", "PLANT", "--out", "site"]);
    let site = files_of(&plant.beside("site"));
    let page = |name: &str| String::from_utf8(site[name].clone()).unwrap();
    let own = page("shifts/2026-11-26-early.html");
    let kit = |page: &str| seen(page).split_once("What to fetch").unwrap().1.to_owned();
    let without_foot =
        |text: String| text.split(" The check of the plant").next().unwrap().to_owned();
    assert_eq!(without_foot(kit(&own)), without_foot(kit(&alone)));
    // Who reads a job, the start page or the list finds it.
    for from in ["index.html", "shifts/index.html", "jobs/SM-1046.html"] {
        assert!(page(from).contains("2026-11-26-early.html\""), "{from}");
    }
    assert!(page("search.html").contains("shifts/index.html"));
    // Every job is in one shift.
    let shifts: Vec<String> =
        site.keys().filter(|name| name.starts_with("shifts/2")).map(|name| page(name)).collect();
    for number in 1041..=1049 {
        let link = format!("\"../jobs/SM-{number}.html\"");
        assert_eq!(shifts.iter().filter(|page| page.contains(&link)).count(), 1, "{link}");
    }
}

#[test]
fn a_shift_with_a_strange_name_has_a_page_and_stays_text() {
    for name in
        ["../../x", "<script>x</script>", "sp\u{e4}t", "a/b\\c", &"w".repeat(300), "\u{202e}x"]
    {
        let plant = Plant::small();
        let quoted = serde_json::to_string(name).unwrap();
        plant.edit("jobs/J-1.yaml", "shift: early", &format!("shift: {quoted}"));
        plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
        let site = files_of(&plant.beside("site"));
        let own: Vec<_> = site.keys().filter(|path| path.starts_with("shifts/2")).collect();
        assert_eq!(own.len(), 1, "{own:?}");
        let page = String::from_utf8(site[own[0]].clone()).unwrap();
        assert!(!page.contains("<script"), "{name}");
        let link = own[0].strip_prefix("shifts/").unwrap();
        assert!(link.bytes().all(|c| c.is_ascii_alphanumeric() || b"-.".contains(&c)), "{link}");
        let start = String::from_utf8(site["index.html"].clone()).unwrap();
        assert!(start.contains(&format!("shifts/{link}\"")), "{name}");
        plant.run(&["shift", "PLANT", "2026-01-12", name, "--out", "a.html"]).ends(0);
    }
}

#[test]
fn jobs_without_a_shift_share_the_page_of_their_day() {
    let plant = Plant::small();
    plant.edit("jobs/J-1.yaml", "shift: early\n", "");
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    assert!(plant.beside("site/shifts/2026-01-12.html").is_file());
    plant.run(&["shift", "PLANT", "2026-01-12", "--out", "a.html"]).ends(0).says("1 job");
}

#[test]
fn too_few_of_a_thing_is_said_on_the_page_and_by_the_command() {
    let plant = busy();
    let stock = plant.read("stock.yaml");
    let stock = stock.split_once("\ntools:").map_or(stock.clone(), |(films, _)| films.to_owned());
    plant.write(
        "stock.yaml",
        stock + "\ntools:\n  - { item: Safety cutter, place: Crib, count: 1 }\n",
    );
    let said =
        "There are too few of Safety cutter: 1. Wanted are 2, by SM-1046, SM-1045: nobody can tell";
    plant.run(&["shift", "PLANT", "2026-11-26", "early", "--out", "shift.html"]).ends(1).says(said);
    let page = std::fs::read_to_string(plant.beside("shift.html")).unwrap();
    assert!(seen(&page).contains(said), "{}", seen(&page));
    plant.run(&["check", "PLANT"]).ends(1).says("too-few-at-once");
}
