//! The published site: put in place whole or not at all, the same bytes each time, closed in itself.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use witnessmark::finding::Findings;
use witnessmark::packet;
use witnessmark::packet::model::{Hazard, Step};
use witnessmark::plant::load;

use crate::plant::{Plant, Run, files_of};

fn publish(plant: &Plant, out: &str) -> Run {
    plant.run(&["publish", "PLANT", "--out", out])
}

#[test]
fn an_old_site_stays_when_publishing_fails() {
    let plant = Plant::small();
    publish(&plant, "site").ends(0);
    let old = files_of(&plant.beside("site"));
    assert!(old.contains_key("packets/J-1.html"));
    let broken = "recipes/large-pouch.yaml";
    plant.edit(broken, "fin: 5 mm", "fin: 5 mmm");
    publish(&plant, "site").ends(1).says("nothing was written");
    assert!(files_of(&plant.beside("site")) == old);
    plant.edit(broken, "fin: 5 mmm", "fin: 5.5 mm");
    publish(&plant, "site").ends(0);
    assert!(files_of(&plant.beside("site")) != old);
    plant.edit(broken, "fin: 5.5 mm", "fin: 5 mm");
    publish(&plant, "site").ends(0);
    assert!(files_of(&plant.beside("site")) == old);
    let beside: BTreeSet<_> = names(plant.folder().parent().unwrap());
    assert_eq!(beside, BTreeSet::from(["plant".to_owned(), "site".to_owned()]));
}

fn names(folder: &Path) -> BTreeSet<String> {
    let listing = std::fs::read_dir(folder).unwrap();
    listing.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

#[test]
fn an_old_site_stays_when_its_folder_may_not_be_written() {
    let plant = Plant::small();
    let parent = plant.beside("closed");
    std::fs::create_dir(&parent).unwrap();
    publish(&plant, "closed/site").ends(0);
    let old = files_of(&parent);
    close(plant.folder().parent().unwrap(), 0o755);
    close(&parent, 0o555);
    let run = as_nobody(&plant, &["publish", "PLANT", "--out", "closed/site"]);
    run.ends(2).complains("closed");
    assert!(files_of(&parent) == old);
    close(&parent, 0o755);
}

fn close(folder: &Path, mode: u32) {
    use std::os::unix::fs::PermissionsExt;
    std::fs::set_permissions(folder, std::fs::Permissions::from_mode(mode)).unwrap();
}

/// Runs the program as somebody whom permissions bind: root may write anywhere.
fn as_nobody(plant: &Plant, words: &[&str]) -> Run {
    let inner = plant.command(words);
    let id = Command::new("id").arg("-u").output().unwrap().stdout;
    if id != b"0\n" {
        return Run::of(inner);
    }
    // The program may lie where only root can look.
    let program = plant.beside("witnessmark");
    std::fs::copy(inner.get_program(), &program).unwrap();
    let mut command = Command::new("setpriv");
    command.args(["--reuid", "65534", "--regid", "65534", "--clear-groups"]).arg(program);
    command.args(inner.get_args()).current_dir(inner.get_current_dir().unwrap());
    Run::of(command)
}

#[test]
fn what_may_not_be_read_is_named() {
    let plant = Plant::small();
    close(plant.folder().parent().unwrap(), 0o755);
    close(&plant.folder().join("recipes/large-pouch.yaml"), 0o000);
    let run = as_nobody(&plant, &["check", "PLANT"]);
    run.ends(2).complains("recipes/large-pouch.yaml: Permission denied");
    close(&plant.folder().join("recipes"), 0o000);
    as_nobody(&plant, &["check", "PLANT"]).ends(2).complains("recipes: Permission denied");
    close(&plant.folder().join("recipes"), 0o755);
}

#[test]
fn publishing_twice_gives_the_same_bytes() {
    let plant = Plant::demo();
    for out in ["one", "two"] {
        assert!(publish(&plant, out).code < 2);
    }
    let (one, two) = (files_of(&plant.beside("one")), files_of(&plant.beside("two")));
    assert!(one.len() > 50 && one == two);
}

#[test]
fn only_an_empty_folder_or_a_site_of_ours_is_replaced() {
    let plant = Plant::small();
    let foreign = plant.beside("foreign");
    std::fs::create_dir(&foreign).unwrap();
    std::fs::write(foreign.join("thesis.txt"), "dear").unwrap();
    publish(&plant, "foreign").ends(2).complains("no site of ours");
    publish(&plant, "foreign/thesis.txt").ends(2).complains("thesis.txt");
    assert_eq!(names(&foreign), BTreeSet::from(["thesis.txt".to_owned()]));
    for inside in ["PLANT", "PLANT/site", ".", "PLANT/../plant", "PLANT/recipes"] {
        publish(&plant, inside).ends(2).complains("a part of");
    }
    let before = files_of(&Plant::small().folder());
    assert!(files_of(&plant.folder()) == before);
    std::fs::create_dir(plant.beside("empty")).unwrap();
    publish(&plant, "empty").ends(0);
    publish(&plant, "new/and/deep").ends(0);
}

/// Values of an attribute in a page, as written.
fn attributes<'p>(page: &'p str, name: &str) -> Vec<&'p str> {
    let start = format!(" {name}=\"");
    page.split(start.as_str()).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn every_link_leads_to_a_file_of_the_site_or_to_an_anchor_that_is_there() {
    let plant = Plant::demo();
    assert!(publish(&plant, "site").code < 2);
    let files = files_of(&plant.beside("site"));
    let text = |file: &str| String::from_utf8(files[file].clone()).unwrap();
    let mut followed = 0;
    for page in files.keys().filter(|file| file.ends_with(".html")) {
        let words = text(page);
        for link in ["href", "src", "action"].iter().flat_map(|name| attributes(&words, name)) {
            let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
            assert!(!path.contains(':') && !path.starts_with('/'), "{page}: {link}");
            let target = if path.is_empty() { page.clone() } else { joined(page, path) };
            assert!(files.contains_key(&target), "{page}: {link}");
            if !anchor.is_empty() {
                assert!(attributes(&text(&target), "id").contains(&anchor), "{page}: {link}");
            }
            followed += 1;
        }
    }
    assert!(followed > 500, "{followed}");
}

/// A relative link of a page as a path from the site's root; `!` where it would leave the root.
fn joined(page: &str, link: &str) -> String {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in link.split('/') {
        match part {
            ".." if parts.pop().is_none() => return format!("! {link}"),
            ".." | "." => {}
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[test]
fn every_page_has_its_policy_and_no_script_that_it_does_not_name() {
    let plant = Plant::demo();
    assert!(publish(&plant, "site").code < 2);
    for (file, bytes) in files_of(&plant.beside("site")) {
        let Some(_) = file.strip_suffix(".html") else { continue };
        let page = String::from_utf8(bytes).unwrap();
        let head = page.split_once("</head>").unwrap().0;
        assert!(head.contains("http-equiv=\"Content-Security-Policy\""), "{file}");
        assert!(head.contains("default-src 'none'"), "{file}");
        let may = head.contains("script-src 'self'");
        let scripts: Vec<&str> = page.split("<script").skip(1).collect();
        assert_eq!(may, !scripts.is_empty(), "{file}");
        for script in scripts {
            let (name, rest) = script.split_once("\" defer>").unwrap();
            let name = name.trim_start_matches(" src=\"").trim_start_matches("../");
            assert!(name.starts_with("assets/") && name.ends_with(".js"), "{file}: {name}");
            assert!(rest.starts_with("</script>"), "{file}: {name}");
        }
    }
}

#[test]
fn every_packet_says_what_a_person_must_know_before_a_step() {
    let plant = Plant::demo();
    assert!(publish(&plant, "site").code < 2);
    let reading = load::load(&plant.folder()).unwrap();
    let whole = reading.plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &whole);
    assert_eq!(whole.jobs.len(), 12);
    for job in whole.jobs.keys() {
        let packet = packet::assemble(&mut findings, &prepared, job).unwrap();
        let file = plant.beside(&format!("site/packets/{job}.html"));
        let page = std::fs::read_to_string(file).unwrap();
        // 71 steps with 140 messages are 235 kB; a packet that grows beyond is looked at.
        assert!(page.len() < 240_000, "{job}: {} bytes", page.len());
        let issuer = [("issuer", packet.job.issued_by.as_str().into())];
        let caution = packet.language.text("packet-first-codes", &issuer);
        // Up to the first letter that a page writes otherwise.
        let caution = caution.split('\'').next().unwrap();
        for words in [&packet::digest(&packet).unwrap(), &packet.machine.name, caution] {
            assert!(page.contains(words), "{job}: {words}");
        }
        assert!(
            page.find(caution) < page.find("<section class=\"step"),
            "{job}: the caution comes first"
        );
        for step in packet.steps.iter().filter(|step| step.stays.is_none()) {
            hazards_come_first(&page, step, &packet.hazards);
        }
    }
}

/// Every message of a step stands between its heading and its text, and none after.
fn hazards_come_first(page: &str, step: &Step, hazards: &[Hazard]) {
    let start = format!("<h3 id=\"step-{}\">", step.number);
    let (_, rest) = page.split_once(&start).unwrap_or_else(|| panic!("{}", step.id));
    let whole = rest.split("<section class=\"step").next().unwrap();
    let (head, tail) = whole.split_once("<div class=\"step-text\">").unwrap();
    for id in &step.hazards {
        let hazard = hazards.iter().find(|hazard| hazard.id == *id).unwrap();
        let before = &page[..page.find(&start).unwrap() + start.len() + head.len()];
        for (words, place) in
            [(&hazard.hazard, head), (&hazard.consequence, before), (&hazard.avoid, head)]
        {
            // Up to the first letter that a page writes otherwise.
            let plain = words.split(['\'', '"', '&', '<', '>', '/']).next().unwrap();
            assert!(place.contains(plain), "{}: {words}", step.id);
        }
    }
    let messages = |html: &str| {
        html.matches("<div class=\"hazard ").count() + html.matches("<p class=\"brief ").count()
    };
    assert_eq!(messages(head), step.hazards.len(), "{}", step.id);
    assert_eq!(messages(tail), 0, "{}", step.id);
}

#[test]
fn a_record_outlives_the_file_of_its_job() {
    let plant = Plant::demo();
    let told = |site: &str| {
        publish(&plant, site).ends(0);
        let read = |page: &str| std::fs::read_to_string(plant.beside(site).join(page)).unwrap();
        ["records/SM-0960.html", "records/index.html", "search.html"].map(read)
    };
    let [record, records, search] = told("site");
    for page in [&record, &records, &search] {
        for words in ["Hand slitter for tamper bands", "Tamper band 52 mm, clear", "SM-0960"] {
            assert!(page.contains(words), "{words} in:\n{page}");
        }
    }
    let machine = "<a href=\"../machines/slit-1.html\">Hand slitter for tamper bands</a>";
    assert!(record.contains(machine) && records.contains(machine));
    assert!(search.contains("<a href=\"records/SM-0960.html\">SM-0960</a> <span"), "{search}");
    // Nor does the machine have to be there any more.
    let folder = plant.folder();
    for file in files_of(&folder).keys() {
        let is_of_slitter = file == "machines/slit-1.yaml"
            || file.starts_with("recipes/band-")
            || file.starts_with("jobs/SM-105");
        if is_of_slitter {
            plant.remove(file);
        }
    }
    let [record, ..] = told("without");
    assert!(record.contains("<dd>Hand slitter for tamper bands</dd>"), "{record}");
}
