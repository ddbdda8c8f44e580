//! Packets in other languages: texts follow the language, facts never do.

use std::collections::BTreeSet;

use witnessmark::finding::Findings;
use witnessmark::language::Language;
use witnessmark::packet;
use witnessmark::packet::model::{Hazard, Packet, Signal, Step};
use witnessmark::page::form::Form;
use witnessmark::page::packet::{PacketIssue, PacketView, packet_html};
use witnessmark::page::site::JobLine;
use witnessmark::page::steps::{Desk, StepsView, steps_html};
use witnessmark::page::words;
use witnessmark::plant::load;
use witnessmark::trade::signs::SIGNS;

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

/// Every hazard message of a page: its language and what stands in it.
fn messages(page: &str) -> Vec<(Language, String)> {
    let of_page = page.split_once("<html lang=\"").unwrap().1;
    let mut found = Vec::new();
    for block in ["<div class=\"hazard ", "<p class=\"hazard ", "<p class=\"brief "] {
        for rest in page.split(block).skip(1) {
            let (head, rest) = rest.split_once('>').unwrap();
            let own = head.split_once("lang=\"").map_or(of_page, |(_, tag)| tag);
            let language = Language::of_tag(own.split('"').next().unwrap()).unwrap();
            let end = if block.starts_with("<div") { "</div>" } else { "\n" };
            found.push((language, rest.split(end).next().unwrap().to_owned()));
        }
    }
    found
}

/// Every page of a packet that shows hazard messages.
fn pages(packet: &Packet) -> Vec<String> {
    let digest = packet::digest(packet).unwrap();
    let issue = PacketIssue::default();
    let view = PacketView::new(packet, &digest, &issue);
    let (line, desk) = (JobLine::default(), Desk::default());
    let tablet = steps_html(&StepsView::new(packet, &view, &line, &desk));
    let forms = Form::ALL.map(|form| form.html(packet, &view));
    [packet_html(packet, &digest, &issue), tablet].into_iter().chain(forms).collect()
}

/// The signal words of a language.
fn signal_words(language: Language) -> [&'static str; 4] {
    [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice]
        .map(|signal| words::signal(language, signal))
}

#[test]
fn the_language_of_a_hazard_message_is_never_mixed() {
    // Shipped messages are in German, the plant's own are not.
    let (packet, _) = packet_in(&Plant::demo(), "SM-1042", "de");
    let is_in = |hazard: &&Hazard, language| hazard.language.unwrap_or(packet.language) == language;
    let mut seen = BTreeSet::new();
    for (language, block) in pages(&packet).iter().flat_map(|page| messages(page)) {
        seen.insert(language);
        let has = |word: &&str| {
            block.contains(&format!("{word}</b>")) || block.contains(&format!("{word}</strong>"))
        };
        assert!(signal_words(language).iter().any(has), "{language:?}: {block}");
        for other in [Language::English, Language::Spanish, Language::German] {
            let texts = packet.hazards.iter().filter(|hazard| is_in(hazard, other));
            let texts = texts.map(|hazard| hazard.hazard.trim_end_matches('.'));
            match other == language {
                true => assert!(texts.clone().any(|text| block.contains(text)), "{block}"),
                false => {
                    for text in texts.clone().chain(signal_words(other)) {
                        assert!(!block.contains(text), "{text} in {language:?}: {block}");
                    }
                }
            }
        }
        if let Some((_, name)) = block.split_once("aria-label=\"") {
            let name = name.split(" (").next().unwrap();
            let is_english = SIGNS.iter().any(|sign| sign.title == name);
            assert_eq!(is_english, language == Language::English, "{name} in {language:?}");
        }
    }
    assert_eq!(seen, BTreeSet::from([Language::English, Language::German]));
}

#[test]
fn what_stands_in_its_own_language_says_so_to_who_listens() {
    let (packet, _) = packet_in(&Plant::demo(), "SM-1042", "de");
    let foreign: Vec<&Step> =
        packet.steps.iter().filter(|step| step.language == Some(Language::English)).collect();
    assert!(!foreign.is_empty() && foreign.len() < packet.steps.len());
    let [instruction, tablet, ..] = &pages(&packet)[..] else { panic!("two pages at least") };
    let parts: Vec<&str> = instruction.split("<section class=\"step").skip(1).collect();
    let done: Vec<&Step> = packet.steps.iter().filter(|step| step.stays.is_none()).collect();
    assert_eq!(parts.len(), done.len());
    for (part, step) in parts.iter().zip(done) {
        let own = step.language.map_or(String::new(), |own| format!(" lang=\"{}\"", own.tag()));
        for start in [format!("<h3 id=\"step-{}\"", step.number), "<div class=\"step-text\"".into()]
        {
            assert!(part.contains(&format!("{start}{own}>")), "{start} of {}", step.id);
        }
        let is_english = part.contains("Outside the limits:") || part.contains("Measure with:");
        let is_german =
            part.contains("Au\u{df}erhalb der Grenzen:") || part.contains("Messen mit:");
        assert!(if step.language.is_some() { !is_german } else { !is_english }, "{}", step.id);
    }
    // Each procedure that is not translated says so in the list, where it begins, and on the tablet.
    let flags: BTreeSet<&str> = packet
        .procedures
        .iter()
        .map(|one| one.flag.as_str())
        .filter(|flag| !flag.is_empty())
        .collect();
    let flagged = packet.procedures.iter().filter(|one| !one.flag.is_empty()).count();
    let count = |page: &str| -> usize {
        flags.iter().map(|flag| page.matches(&format!(">{flag}<")).count()).sum()
    };
    assert!(flagged > 0);
    // One that was considered and is not needed begins nowhere.
    let begins = |id: &String| packet.steps.iter().any(|step| step.procedure == *id);
    let begun = packet.procedures.iter().filter(|one| !one.flag.is_empty() && begins(&one.id));
    assert_eq!(count(instruction), flagged + begun.count());
    assert_eq!(count(tablet), foreign.len());
}
