//! Hazard messages as shipped and as published: severity, signs, gear, colours, places.

use std::collections::{BTreeMap, BTreeSet};

use witnessmark::finding::Findings;
use witnessmark::language::Language;
use witnessmark::packet::{self, model::Packet, model::Signal};
use witnessmark::page::SITE_CSS;
use witnessmark::plant::load;
use witnessmark::trade::signs::{self, Kind};

use crate::plant::{Plant, files_of};

/// Messages without anything to wear, and why: keeping clear is the protection.
const NO_GEAR: &[(&str, &str)] = &[
    ("crushing-jaws", "no glove holds a jaw open; blocks and locks do"),
    ("dust-explosion", "nothing to wear helps in an explosion"),
    ("energy-returns", "vents, drains and gauges protect"),
    ("in-running-rollers", "gloves and sleeves are drawn in"),
    ("moving-conveyor", "gloves and sleeves are drawn in"),
    ("product-mix-up", "nobody is hurt"),
    ("rotating-knives", "gloves are drawn in; standstill protects"),
    ("static-charge", "the earthed frame takes the charge"),
    ("unexpected-start", "the own lock protects"),
];

#[test]
fn every_message_of_the_catalogue_is_whole() {
    let plant = Plant::demo();
    let whole = load::load(&plant.folder()).unwrap().plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &whole);
    assert!(findings.is_empty(), "{findings:?}");
    assert!(whole.hazards.len() > 30);
    for (id, loaded) in &whole.hazards {
        let (entry, hazard) = (&loaded.body, &prepared.hazards[id]);
        assert_eq!(entry.signal, None, "{id}: the word is worked out");
        assert_eq!(hazard.signal, Signal::of(entry.harm, entry.follows), "{id}");
        let kinds: Vec<Kind> =
            hazard.signs.iter().map(|sign| signs::find(sign).unwrap().kind()).collect();
        assert!(kinds.is_sorted(), "{id}: {:?}", hazard.signs);
        let warns = kinds.contains(&Kind::Warning);
        assert_eq!(warns, hazard.signal != Signal::Notice, "{id}");
        for item in &entry.gear {
            let sign = signs::for_gear(item).unwrap_or_else(|| panic!("{id}: {item}"));
            assert!(hazard.signs.iter().any(|shown| shown == sign.id), "{id}: {item}");
        }
        let excused = NO_GEAR.iter().any(|(name, why)| name == id && !why.is_empty());
        assert_eq!(entry.gear.is_empty(), excused, "{id}: gear, or a reason why none");
    }
    for (id, _) in NO_GEAR {
        assert!(whole.hazards.contains_key(*id), "{id}");
    }
}

#[test]
fn a_step_in_a_zone_shows_the_hazards_of_the_zone_after_its_own() {
    let plant = Plant::small();
    let file = "instructions/knives.md";
    let text =
        plant.read(file).replace("hazards: [knife-edge, in-running-rollers]", "hazards: [noise]");
    plant.write(file, text);
    let packet = packets(&plant).remove("J-1").unwrap();
    let inside: Vec<_> = packet.steps.iter().filter(|step| step.procedure == "knives").collect();
    assert!(inside.len() > 3 && inside.iter().all(|step| step.zone.is_some()));
    for step in inside {
        assert_eq!(step.hazards, ["noise", "knife-edge", "in-running-rollers"], "{}", step.id);
    }
}

/// The packets of a plant as they are made from its files.
fn packets(plant: &Plant) -> BTreeMap<String, Packet> {
    let whole = load::load(&plant.folder()).unwrap().plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &whole);
    let made = whole.jobs.keys().map(|job| {
        let packet = packet::assemble(&mut findings, &prepared, job);
        (job.clone(), packet.unwrap_or_else(|| panic!("{job}: {findings:?}")))
    });
    made.collect()
}

/// Reads the published pages only: what a person sees is what counts.
#[test]
fn each_box_of_a_step_comes_before_its_work_and_stands_in_the_group_at_the_front() {
    let plant = Plant::demo();
    plant.run(&["publish", "PLANT", "--out", "site"]).ends(0);
    let files = files_of(&plant.beside("site"));
    let mut boxes = 0;
    for job in packets(&plant).keys() {
        let page = std::str::from_utf8(&files[&format!("packets/{job}.html")]).unwrap();
        let (front, steps) = page.split_once("<h2 id=\"steps\"").unwrap();
        let (_, front) = front.split_once("<div class=\"hazards\">").unwrap();
        let group: Vec<Message> = messages(front);
        assert!(group.iter().map(|message| message.word).is_sorted(), "{job}: the gravest first");
        let known: BTreeSet<&Message> = group.iter().collect();
        for part in steps.split("<h2 class=\"part\">").skip(1) {
            let mut said: Vec<Message> = Vec::new();
            for step in part.split("<section class=\"step").skip(1) {
                let work = ["step-text", "class=\"blank", "class=\"ticks", "class=\"signs\""];
                let begins = work.iter().filter_map(|mark| step.find(mark)).min().unwrap();
                assert_eq!(messages(&step[begins..]), [], "{job}");
                assert_eq!(shortened(&step[begins..]), [], "{job}");
                // What is shortened stands in full at an earlier step of the same procedure.
                for brief in shortened(&step[..begins]) {
                    assert!(said.iter().any(|full| full.brief() == brief), "{job}: {brief:?}");
                    boxes += 1;
                }
                for message in messages(&step[..begins]) {
                    assert!(known.contains(&message), "{job}: {message:?} is not at the front");
                    boxes += 1;
                    said.push(message);
                }
            }
        }
        every_sign_is_drawn(page);
    }
    assert!(boxes > 300, "{boxes} boxes");
}

/// A hazard box as read from a page.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Message<'a> {
    word: Signal,
    hazard: &'a str,
    consequence: &'a str,
    avoid: &'a str,
}

/// The signal of a word in any language.
fn signal(text: &str) -> Option<Signal> {
    let signals = [
        ("signal-danger", Signal::Danger),
        ("signal-warning", Signal::Warning),
        ("signal-caution", Signal::Caution),
        ("signal-notice", Signal::Notice),
    ];
    let is_it = |key| Language::ALL.iter().any(|language| language.word(key) == text);
    signals.into_iter().find(|(key, _)| is_it(key)).map(|(_, signal)| signal)
}

/// The boxes of a piece of a page. Each has its word as text, the alert symbol unless it is a
/// NOTICE, then hazard, consequence and avoidance in this order: all of it without a colour.
fn messages(html: &str) -> Vec<Message<'_>> {
    let between = |text: &'_ str, start: &str, end: &str| {
        let from = text.find(start)? + start.len();
        Some((from, from + text[from..].find(end)?))
    };
    let read = |text| -> Option<Message> {
        let text: &str = text;
        let (from, to) = between(text, "<b>", "</b>")?;
        let word = signal(&text[from..to])?;
        let alert = text[..from].contains("<use href=\"#alert\"/>");
        assert_eq!(alert, word != Signal::Notice, "{text}");
        let (_, text) = text.split_once("<p><b>")?;
        let (hazard, text) = text.split_once("</b> ")?;
        let (consequence, text) = text.split_once(" <i>")?;
        let (avoid, _) = text.split_once("</i></p>")?;
        assert!(![hazard, consequence, avoid].contains(&""), "{word:?} {hazard}");
        Some(Message { word, hazard, consequence, avoid })
    };
    html.split("<div class=\"hazard ").skip(1).map(|text| read(text).unwrap()).collect()
}

impl Message<'_> {
    /// What of it is never left out.
    fn brief(&self) -> (Signal, &str, &str) {
        (self.word, self.hazard, self.avoid)
    }
}

/// The shortened messages of a piece of a page: word with its symbol, hazard, avoidance.
fn shortened(html: &str) -> Vec<(Signal, &str, &str)> {
    fn read(text: &str) -> Option<(Signal, &str, &str)> {
        let (head, text) = text.split_once("</b> <b>")?;
        let word = head.rsplit(['>', ' ']).next()?;
        let word = signal(word)?;
        assert_eq!(head.contains("<use href=\"#alert\"/>"), word != Signal::Notice, "{head}");
        let (hazard, text) = text.split_once("</b> <i>")?;
        let (avoid, _) = text.split_once("</i></p>")?;
        Some((word, hazard, avoid))
    }
    html.split("<p class=\"brief ").skip(1).map(|text| read(text).unwrap()).collect()
}

/// What a page uses is defined on it once, and a row of signs has its name.
fn every_sign_is_drawn(page: &str) {
    let used: BTreeSet<&str> =
        page.split("<use href=\"#").skip(1).map(|rest| rest.split('"').next().unwrap()).collect();
    assert!(used.len() > 3 && used.contains("alert"), "{used:?}");
    for id in used {
        assert_eq!(page.matches(&format!(" id=\"{id}\"")).count(), 1, "{id}");
    }
    for row in page.split("<span class=\"shows\" ").skip(1) {
        let (name, rest) = row.split_once("><svg>").unwrap();
        let rest = rest.split("</span>").next().unwrap();
        for id in rest.split("<use href=\"#").skip(1).map(|rest| &rest[..4]) {
            assert!(name.starts_with("role=\"img\" aria-label=\""), "{name}");
            let title = format!("signs-{}", id.to_lowercase());
            let in_one = |language: &Language| {
                name.contains(&format!("{} ({id})", language.text(&title, &[])))
            };
            assert!(Language::ALL.iter().any(in_one), "{name}");
        }
    }
}

/// Source of the formula: WCAG 2.2, definitions of relative luminance and contrast ratio.
#[test]
fn each_signal_panel_can_be_read_light_and_dark() {
    for dark in [false, true] {
        let styles = rules(SITE_CSS, dark);
        let mut borders = BTreeSet::new();
        for word in ["danger", "warning", "caution", "notice"] {
            let panel = &styles[&format!(".hazard.{word} .signal")];
            let ratio = contrast(&panel["background"], &panel["color"]);
            assert!(ratio >= 4.5, "{word}, dark {dark}: {ratio:.2}");
            let frame = &styles[&format!(".hazard.{word}")]["border"];
            borders.insert(frame.split(' ').nth(1).unwrap().to_owned());
        }
        assert_eq!(borders.len(), 4, "frames differ without colour: {borders:?}");
        let root = &styles[":root"];
        let ratio = contrast(&root["--ink"], &root["--paper"]);
        assert!(ratio >= 4.5, "message, dark {dark}: {ratio:.2}");
    }
}

#[test]
fn contrast_is_that_of_the_published_pairs() {
    // Source: black on white is 21 by definition; the greys are the pair on either side of 4.5 that
    // is printed in every guide to the formula (from memory).
    let pairs =
        [("#000000", "#fff", "21.00"), ("#767676", "#ffffff", "4.54"), ("#777", "#fff", "4.48")];
    for (one, other, ratio) in pairs {
        assert_eq!(format!("{:.2}", contrast(one, other)), ratio, "{one} {other}");
    }
}

type Declarations = BTreeMap<String, String>;

/// Declarations by selector, as they hold on a screen that is light or dark.
fn rules(css: &str, dark: bool) -> BTreeMap<String, Declarations> {
    let css = uncommented(css);
    let mut found: BTreeMap<String, Declarations> = BTreeMap::new();
    let mut rest = css.as_str();
    while let Some((head, body)) = rest.split_once('{') {
        let head = head.trim();
        let end = closing(body);
        let inner = &body[..end];
        rest = &body[end + 1..];
        if head.starts_with('@') {
            if dark && head.contains("prefers-color-scheme: dark") {
                for (selector, more) in rules(inner, dark) {
                    found.entry(selector).or_default().extend(more);
                }
            }
            continue;
        }
        for selector in head.split(',') {
            let pairs = inner.split(';').filter_map(|pair| pair.split_once(':'));
            let pairs =
                pairs.map(|(name, value)| (name.trim().to_owned(), value.trim().to_owned()));
            found.entry(selector.trim().to_owned()).or_default().extend(pairs);
        }
    }
    found
}

fn uncommented(css: &str) -> String {
    css.split("/*").map(|part| part.split_once("*/").map_or(part, |(_, rest)| rest)).collect()
}

/// Where the brace that was opened before this text is closed.
fn closing(text: &str) -> usize {
    let mut depth = 1;
    text.char_indices()
        .find(|(_, c)| {
            depth += match c {
                '{' => 1,
                '}' => -1,
                _ => 0,
            };
            depth == 0
        })
        .unwrap()
        .0
}

#[allow(clippy::disallowed_types, reason = "the published formula is one of floats")]
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[allow(clippy::disallowed_types, reason = "the published formula is one of floats")]
fn luminance(colour: &str) -> f64 {
    let digits = colour.strip_prefix('#').unwrap_or_else(|| panic!("{colour}"));
    let digits: String = match digits.len() {
        3 => digits.chars().flat_map(|digit| [digit, digit]).collect(),
        _ => digits.to_owned(),
    };
    let part = |at: usize| {
        let value = f64::from(u8::from_str_radix(&digits[at..at + 2], 16).unwrap()) / 255.0;
        if value <= 0.03928 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
}
