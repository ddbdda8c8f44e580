//! Packets rendered to disk against a yardstick in the same run.
//!
//! `publish/N/us` makes N packets of the demo plant's jobs ready for disk and writes them: assembled,
//! digested, viewed, rendered, written. `yardstick/N/tera` renders equal pages straight through Tera
//! and the Markdown parser from values that are ready, and writes them. Both on one thread.
//! Run with `cargo bench --bench publish`; without `--bench` it runs small, once, as a test.
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]
#![allow(clippy::unwrap_used, reason = "a bench may stop")]
#![allow(clippy::disallowed_methods, reason = "a bench writes files")]

use std::path::Path;
use std::time::{Duration, Instant};

use serde::Serialize;
use tera::{Context, Tera};
use witnessmark::finding::Findings;
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
        .map(|job| {
            let packet = packet::assemble(&mut Findings::default(), &prepared, job).unwrap();
            Yardstick::of(&packet, &packet::digest(&packet).unwrap())
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
}

#[derive(Serialize)]
struct Page<'a> {
    p: &'a PacketView,
    style: &'a str,
    style_hash: &'a str,
    alone: bool,
}

impl Yardstick {
    fn of(packet: &Packet, digest: &str) -> Yardstick {
        let issue = PacketIssue { program: site::PROGRAM.to_owned(), ..PacketIssue::default() };
        let style = concat!(
            include_str!("../site/assets/site.css"),
            include_str!("../site/assets/packet.css")
        );
        Yardstick {
            view: PacketView::new(packet, digest, &issue),
            texts: packet.steps.iter().map(|step| step.text.clone()).collect(),
            style: style.to_owned(),
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
        let page = Page { p: &view, style: &self.style, style_hash: "sha256-", alone: true };
        tera.render("packet.html", &Context::from_serialize(&page).unwrap()).unwrap()
    }
}

/// The program's own templates, read once, as the program does.
fn templates() -> Tera {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("site/templates");
    let mut files: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    files.sort();
    let mut tera = Tera::default();
    tera.add_raw_templates(files).unwrap();
    tera
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
