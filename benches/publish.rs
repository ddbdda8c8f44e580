//! Packets rendered to disk against a yardstick in the same run.
//!
//! `publish/N/us` makes N packets of the demo plant's jobs ready for disk and writes them: assembled,
//! digested, viewed, rendered, written. `yardstick/N/tera` renders equal pages straight through Tera
//! and the Markdown parser from values that are ready, and writes them: its templates are the
//! program's own with their English texts written into them, as if there were one language, and its
//! style is the one that our page came to. Both on one thread.
//! Run with `cargo bench --bench publish`; without `--bench` it runs small, once, as a test.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]
#![allow(clippy::disallowed_methods, reason = "a bench writes files")]

use std::path::Path;
use std::time::{Duration, Instant};

use serde::Serialize;
use tera::{Context, Tera};
use witnessmark::finding::Findings;
use witnessmark::language::{Language, Part};
use witnessmark::packet::{self, Packet, Prepared};
use witnessmark::page::packet::{PacketIssue, PacketView};
use witnessmark::plant::load;
use witnessmark::publish::site;

fn main() {
    let full = std::env::args().any(|argument| argument == "--bench");
    let rounds = if full { 60 } else { 1 };
    let plant = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let plant = load::load(&plant).unwrap().plant.unwrap();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &plant);
    let jobs: Vec<&String> = plant.jobs.keys().collect();
    let folder = tempfile::tempdir().unwrap();
    let pages: Vec<String> = jobs.iter().map(|job| page(&prepared, job)).collect();
    let tera = templates();
    let yardsticks: Vec<Yardstick> = jobs
        .iter()
        .zip(&pages)
        .map(|(job, page)| {
            let packet = packet::assemble(&mut Findings::default(), &prepared, job).unwrap();
            Yardstick::of(&packet, &packet::digest(&packet).unwrap(), page)
        })
        .collect();
    let mut best = [Duration::MAX; 2];
    for _ in 0..rounds {
        let run = timed(|| {
            for job in &jobs {
                std::fs::write(folder.path().join(job.as_str()), page(&prepared, job)).unwrap();
            }
        });
        best[0] = best[0].min(run);
        let run = timed(|| {
            for (job, yardstick) in jobs.iter().zip(&yardsticks) {
                std::fs::write(folder.path().join(job.as_str()), yardstick.render(&tera)).unwrap();
            }
        });
        best[1] = best[1].min(run);
    }
    for (page, yardstick) in pages.iter().zip(&yardsticks) {
        let (ours, theirs) = (page.len(), yardstick.render(&tera).len());
        assert!(
            theirs * 10 > ours * 9,
            "the yardstick's page is as long as ours: {ours}, {theirs}"
        );
    }
    let count = jobs.len() as u32;
    println!("{count} packets, one thread, best of {rounds}");
    for (name, time) in [("publish/us", best[0]), ("yardstick/tera", best[1])] {
        let each = time / count;
        let percent = time.as_nanos() * 100 / best[1].as_nanos();
        let a_second = 1_000_000_000 / each.as_nanos();
        println!(
            "{name:<16} {:>8} ns a packet  {a_second:>6} a second  {}.{:02} x",
            each.as_nanos(),
            percent / 100,
            percent % 100
        );
    }
}

/// A page's values, ready: what the yardstick does not have to work out.
struct Yardstick {
    view: PacketView,
    texts: Vec<String>,
    style: String,
    style_source: String,
}

#[derive(Serialize)]
struct Page<'a> {
    p: &'a PacketView,
    style: &'a str,
    style_source: &'a str,
}

impl Yardstick {
    fn of(packet: &Packet, digest: &str, page: &str) -> Yardstick {
        let issue = PacketIssue { program: site::PROGRAM.to_owned(), ..PacketIssue::default() };
        Yardstick {
            view: PacketView::new(packet, digest, &issue),
            texts: packet.steps.iter().map(|step| step.text.clone()).collect(),
            style: between(page, "<style>", "</style>"),
            style_source: between(page, "style-src '", "'"),
        }
    }

    /// The Markdown parser over every text, then the template over every value.
    fn render(&self, tera: &Tera) -> String {
        let mut view = self.view.clone();
        for (step, text) in view.steps.iter_mut().zip(&self.texts) {
            let mut html = String::new();
            pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new(text));
            step.html = html;
        }
        let page = Page { p: &view, style: &self.style, style_source: &self.style_source };
        tera.render("packet.html", &Context::from_serialize(&page).unwrap()).unwrap()
    }
}

fn between(text: &str, start: &str, end: &str) -> String {
    text.split_once(start).unwrap().1.split_once(end).unwrap().0.to_owned()
}

/// The program's own templates in English, read once, as the program does.
fn templates() -> Tera {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("site/templates");
    let mut files: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            let text = std::fs::read_to_string(&path)
                .unwrap()
                .replace("style-src ''", "style-src '{{ style_source }}'")
                .replace("<style></style>", "<style>{{ style | safe }}</style>");
            (name, in_english(&text))
        })
        .collect();
    files.sort();
    let mut tera = Tera::default();
    tera.add_raw_templates(files).unwrap();
    tera
}

/// A template with each `t(key="...", name=value)` and `th(...)` replaced by the text itself: its own
/// pieces as literals, the values between them.
fn in_english(template: &str) -> String {
    let Some(at) = template.find("(key=\"") else { return template.to_owned() };
    let (before, call) = template.split_at(at);
    let end = closing(call);
    let (inside, after) = (&call[1..end], &call[end + 1..]);
    let (before, is_markup) = match before.strip_suffix("th") {
        Some(before) => (before, true),
        None => (before.strip_suffix('t').unwrap(), false),
    };
    let mut values = Vec::new();
    for value in arguments(inside) {
        let (name, value) = value.split_once('=').unwrap();
        values.push((name.trim().to_owned(), value.trim().to_owned()));
    }
    let key = values.remove(0).1;
    let parts: Vec<(&str, Part)> = values
        .iter()
        .map(|(name, value)| (name.as_str(), format!("\0{}\0", in_english(value)).into()))
        .collect();
    let text = Language::English.text(key.trim_matches('"'), &parts);
    let pieces: Vec<String> = text
        .split('\0')
        .enumerate()
        .filter(|(_, piece)| !piece.is_empty())
        .map(|(at, piece)| if at % 2 == 0 { format!("`{piece}`") } else { format!("({piece})") })
        .collect();
    let said = match (pieces.as_slice(), is_markup) {
        (pieces, true) => format!("({}) | safe", pieces.join(" ~ ")),
        ([piece], false) => piece.clone(),
        (pieces, false) => format!("({})", pieces.join(" ~ ")),
    };
    format!("{before}{said}{}", in_english(after))
}

/// Where the bracket closes that the text begins with.
fn closing(text: &str) -> usize {
    commas_and_end(text).1
}

/// What stands between the commas that are in no bracket and no quotes.
fn arguments(text: &str) -> Vec<&str> {
    let wrapped = format!("({text})");
    let (commas, _) = commas_and_end(&wrapped);
    let mut start = 0;
    let mut parts = Vec::new();
    for comma in commas {
        parts.push(&text[start..comma - 1]);
        start = comma;
    }
    parts.push(&text[start..]);
    parts
}

/// The commas of the bracket that the text begins with, and its end.
fn commas_and_end(text: &str) -> (Vec<usize>, usize) {
    let (mut depth, mut is_quoted, mut commas) = (0_usize, false, Vec::new());
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'"' => is_quoted = !is_quoted,
            _ if is_quoted => {}
            b'(' => depth += 1,
            b')' if depth == 1 => return (commas, at),
            b')' => depth -= 1,
            b',' if depth == 1 => commas.push(at),
            _ => {}
        }
    }
    panic!("a bracket is open: {text}")
}

/// The page of a job, from the plant's files as read.
fn page(prepared: &Prepared, job: &str) -> String {
    let packet = packet::assemble(&mut Findings::default(), prepared, job).unwrap();
    let digest = packet::digest(&packet).unwrap();
    site::packet_page(&site::sheet(packet, digest, None))
}

fn timed(run: impl FnOnce()) -> Duration {
    let start = Instant::now();
    run();
    start.elapsed()
}
