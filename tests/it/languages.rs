//! Packets in other languages: texts follow the language, facts never do.

use std::collections::BTreeSet;

use witnessmark::finding::Findings;
use witnessmark::language::Language;
use witnessmark::packet;
use witnessmark::packet::model::{Packet, Step};
use witnessmark::plant::load;

use crate::plant::{Plant, root};

/// The packet of a job in a language, and the rules that found something.
fn packet_in(plant: &Plant, job: &str, language: &str) -> (Packet, BTreeSet<&'static str>) {
    let file = format!("jobs/{job}.yaml");
    let text = plant.read(&file);
    let rest = text.lines().filter(|line| !line.starts_with("language:"));
    let rest: Vec<&str> = rest.collect();
    plant.write(&file, format!("{}\nlanguage: {language}\n", rest.join("\n")));
    let reading = load::load(&plant.folder()).unwrap();
    let (whole, mut findings) = (reading.plant.unwrap(), reading.findings);
    let prepared = packet::prepare(&mut findings, &whole);
    let packet = packet::assemble(&mut findings, &prepared, job).unwrap();
    let rules = |findings: &Findings| findings.iter().map(|finding| finding.rule).collect();
    (packet, rules(&findings))
}

/// What a step is, without its texts.
fn facts(step: &Step) -> Step {
    let mut step = step.clone();
    step.language = None;
    for text in [&mut step.title, &mut step.text] {
        text.clear();
    }
    for texts in [&mut step.first, &mut step.tools, &mut step.checks] {
        texts.iter_mut().for_each(String::clear);
    }
    step.stays = step.stays.map(|_| String::new());
    step.values.values_mut().for_each(String::clear);
    step.minor_servicing = step.minor_servicing.map(|_| Default::default());
    if let Some(table) = &mut step.table {
        table.columns.iter_mut().for_each(String::clear);
        table.rows.iter_mut().flat_map(|row| &mut row.cells).for_each(String::clear);
    }
    for reading in &mut step.readings {
        reading.label.clear();
        reading.outside.clear();
        if let Some(instrument) = &mut reading.instrument {
            instrument.name.clear();
        }
    }
    step
}

#[test]
fn every_shipped_translation_says_what_its_source_says() {
    for language in ["es", "de"] {
        let plant = Plant::library();
        let job = std::fs::read_dir(plant.folder().join("jobs")).unwrap().next().unwrap().unwrap();
        let job = job.file_name().into_string().unwrap().replace(".yaml", "");
        let (_, rules) = packet_in(&plant, &job, language);
        let wrong: Vec<_> =
            rules.iter().filter(|rule| **rule != "procedure-not-translated").collect();
        assert!(wrong.is_empty(), "{language}: run `check`: {wrong:?}");
        // Each is built in, and belongs to a procedure.
        let folder = root().join("instructions").join(language);
        let mut translated = 0;
        for entry in std::fs::read_dir(folder).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            assert!(root().join("instructions").join(&name).exists(), "{language}/{name}");
            translated += 1;
        }
        assert!(translated > 0, "{language}");
    }
}

#[test]
fn a_language_changes_texts_and_never_what_is_done() {
    let plant = Plant::demo();
    let (english, _) = packet_in(&plant, "SM-1042", "en");
    for language in ["es", "es-419", "de"] {
        let (packet, _) = packet_in(&plant, "SM-1042", language);
        assert_eq!(packet.language, Language::of_tag(language).unwrap());
        let [was, is] =
            [&english, &packet].map(|one| one.steps.iter().map(facts).collect::<Vec<_>>());
        assert_eq!(was, is, "{language}");
        let lockout = |packet: &Packet| -> Vec<String> {
            let steps = packet.steps.iter().filter(|step| step.procedure == "lockout");
            steps.filter(|step| step.language.is_none()).map(|step| step.title.clone()).collect()
        };
        assert!(!lockout(&packet).is_empty() && lockout(&packet) != lockout(&english));
    }
}

#[test]
fn what_is_not_translated_stays_whole_in_its_language_and_says_so() {
    let plant = Plant::demo();
    plant.write(
        "instructions/knives.md",
        std::fs::read(root().join("instructions/knives.md")).unwrap(),
    );
    let (english, _) = packet_in(&plant, "SM-1042", "en");
    let (packet, rules) = packet_in(&plant, "SM-1042", "es");
    assert!(rules.contains("procedure-not-translated"));
    let own = |packet: &Packet| -> Vec<Step> {
        let steps = packet.steps.iter().filter(|step| step.procedure == "knives");
        steps.cloned().map(|step| Step { language: None, ..step }).collect()
    };
    assert!(!own(&packet).is_empty());
    assert_eq!(own(&packet), own(&english));
    let steps = packet.steps.iter().filter(|step| step.procedure == "knives");
    assert!(steps.into_iter().all(|step| step.language == Some(Language::English)));
    let facts = packet.procedures.iter().find(|one| one.id == "knives").unwrap();
    assert_eq!(facts.language, Some(Language::English));
    assert!(!facts.flag.is_empty());
}
