//! `derive`: every computed number of a job, with its working.

use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json, records};
use crate::canonical;
use crate::count::count;
use crate::failure::Failure;
use crate::language::Language;
use crate::packet::Packet;
use crate::packet::model::{Fastener, Figure, Holder, Move, RailLayout, Setting};
use crate::page::words;

/// Prints how every setting and position of a job was worked out.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark derive demo-data SM-1042\n  witnessmark derive demo-data SM-1042 strip"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The job
    job: String,
    /// Only this setting or rail
    setting: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

/// What is printed as JSON.
#[derive(Serialize)]
struct Derived<'a> {
    job: &'a str,
    machine: &'a str,
    settings: Vec<&'a Setting>,
    web: Vec<&'a Figure>,
    contents: Vec<&'a Figure>,
    fasteners: Vec<&'a Fastener>,
    rails: Vec<&'a RailLayout>,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let packet = match desk::packet_of(&desk, &args.job, args.json)? {
        Ok(packet) => packet,
        Err(answer) => return Ok(*answer),
    };
    let wanted = |id: &str| args.setting.as_deref().is_none_or(|setting| setting == id);
    let derived = Derived {
        job: &packet.job.id,
        machine: &packet.machine.id,
        settings: packet.settings.iter().filter(|setting| wanted(&setting.id)).collect(),
        web: figures(&packet.web, &wanted),
        contents: figures(&packet.contents, &wanted),
        fasteners: packet.fasteners.iter().filter(|screw| wanted(&screw.id)).collect(),
        rails: packet.rails.iter().filter(|rail| wanted(&rail.id)).collect(),
    };
    if let Some(name) = args.setting.as_ref().filter(|_| derived.is_empty()) {
        return Err(unknown_setting(&packet, name));
    }
    if args.json {
        return Ok(Answer::clean(json(&derived)?));
    }
    let mut text = format!(
        "{} on {}: {} -> {}\n",
        packet.job.id, packet.machine.name, packet.from.name, packet.to.name
    );
    if let Some(signed) = records::frozen(&args.plant, &args.job)?
        && canonical::sha256_hex(&signed)
            != crate::packet::digest(&packet).map_err(|e| Failure::new(e.to_string()))?
    {
        text += "note: people signed another packet of this job; these are the numbers of today's files\n";
    }
    for shown in derived.web.into_iter().chain(derived.contents) {
        text += &figure(shown);
    }
    for shown in derived.settings {
        text += &setting(&packet, shown);
    }
    for dropped in packet.dropped.iter().filter(|dropped| wanted(&dropped.id)) {
        let _ = writeln!(
            text,
            "\n{} ({}): no longer set, was {}",
            dropped.name, dropped.id, dropped.was
        );
    }
    for shown in derived.fasteners {
        text += &fastener(shown);
    }
    for shown in derived.rails {
        text += &rail(&packet, shown);
    }
    Ok(Answer::clean(text))
}

impl Derived<'_> {
    fn is_empty(&self) -> bool {
        self.settings.is_empty()
            && self.web.is_empty()
            && self.contents.is_empty()
            && self.fasteners.is_empty()
            && self.rails.is_empty()
    }
}

/// Figures by their own name, or all of one group: `web`, `web.roll`.
fn figures<'a>(figures: &'a [Figure], wanted: &impl Fn(&str) -> bool) -> Vec<&'a Figure> {
    let group = |id: &str| id.split('.').next().is_some_and(wanted);
    figures.iter().filter(|figure| wanted(&figure.id) || group(&figure.id)).collect()
}

fn unknown_setting(packet: &Packet, name: &str) -> Failure {
    let settings = packet.settings.iter().map(|setting| setting.id.as_str());
    let dropped = packet.dropped.iter().map(|dropped| dropped.id.as_str());
    let figures = packet.web.iter().chain(&packet.contents).map(|figure| figure.id.as_str());
    let screws = packet.fasteners.iter().map(|screw| screw.id.as_str());
    let rails = packet.rails.iter().map(|rail| rail.id.as_str());
    let known: Vec<&str> =
        settings.chain(dropped).chain(figures).chain(screws).chain(rails).collect();
    Failure::new(format!("nothing is called `{name}` in this job; it has: {}", known.join(", ")))
}

fn setting(packet: &Packet, setting: &Setting) -> String {
    let mut text = format!("\n{} ({})\n", setting.name, setting.id);
    let mut line = |head: &str, words: &str| {
        let _ = writeln!(text, "  {head:<9}{words}");
    };
    line("formula", &setting.working.formula);
    if setting.working.numbers != setting.working.formula {
        line("numbers", &setting.working.numbers);
    }
    for step in &setting.working.steps {
        line("step", step);
    }
    line("result", &setting.working.result);
    let was = setting.was.as_deref();
    let was = was.map_or("new".to_owned(), |was| format!("was {}", setting.with_unit(was)));
    let by = if setting.by.is_empty() { String::new() } else { format!(", {}", setting.by) };
    line("set to", &format!("{} ({was}{by})", setting.set_to()));
    if let Some(limits) = setting.limits(Language::English) {
        line("limits", &limits);
    }
    if let Some(id) = &setting.instrument {
        line("with", &instrument(packet, id));
    }
    if !setting.place.is_empty() {
        line("where", &setting.place);
    }
    for note in &setting.notes {
        line("note", note);
    }
    if !setting.source.is_empty() {
        line("source", &setting.source);
    }
    text
}

fn figure(figure: &Figure) -> String {
    let mut text = format!("\n{} ({})\n", figure.name, figure.id);
    let mut line = |head: &str, words: &str| {
        let _ = writeln!(text, "  {head:<9}{words}");
    };
    line("formula", &figure.working.formula);
    if figure.working.numbers != figure.working.formula {
        line("numbers", &figure.working.numbers);
    }
    for step in &figure.working.steps {
        line("step", step);
    }
    line("result", &figure.value);
    line("source", &figure.source);
    text
}

fn fastener(screw: &Fastener) -> String {
    let mut text = format!("\n{} ({})\n", screw.name, screw.id);
    let mut line = |head: &str, words: &str| {
        if !words.is_empty() {
            let _ = writeln!(text, "  {head:<9}{words}");
        }
    };
    line("thread", &screw.thread);
    line("key", &screw.key);
    line("torque", &format!("{} ({})", screw.torque, screw.basis));
    line("proof", &screw.proof_load);
    line("with", &screw.wrench);
    for note in &screw.notes {
        line("note", note);
    }
    line("source", &screw.source);
    line("caution", "the machine maker's torque comes before any computed one");
    text
}

fn instrument(packet: &Packet, id: &str) -> String {
    let instrument = packet.instruments.iter().find(|instrument| instrument.id == id);
    instrument.map_or(id.to_owned(), |instrument| {
        let mut text = format!("{}, steps of {}", instrument.name, instrument.resolution);
        if !instrument.error_limit.is_empty() {
            text += &format!(", may be off by {}", instrument.error_limit);
        }
        if !instrument.range.is_empty() {
            text += &format!(", measures {}", instrument.range);
        }
        text
    })
}

fn rail(packet: &Packet, rail: &RailLayout) -> String {
    let unit = &rail.unit;
    let mut text = format!("\n{} ({}), positions in {unit} from the datum\n", rail.name, rail.id);
    let _ = writeln!(text, "  datum    {}", packet.machine.datum);
    if let Some(id) = &rail.instrument {
        let _ = writeln!(text, "  with     {}", instrument(packet, id));
    }
    if let Some(web) = &rail.web {
        let (left, right) = (side(&web.left), side(&web.right));
        let knives = rail.holders.iter().filter(|holder| !holder.parked).count();
        let lanes = count(rail.lanes.len(), "lane");
        let _ = writeln!(
            text,
            "  web      {left} to {right}, {lanes}, {}",
            words::knives(Language::English, rail.kind, knives)
        );
    }
    for line in rail_lines(rail) {
        let _ = writeln!(text, "  {line}");
    }
    let _ = writeln!(text, "  holder   old            new            limits");
    for holder in &rail.holders {
        let Holder { number, old, new, low, high, parked, scale, .. } = holder;
        let old = old.as_ref().map_or(came_from(rail, *number), |old| side(old));
        let limits = if *parked {
            "parked".to_owned()
        } else {
            words::limits(Language::English, Some(low), Some(high), "")
        };
        let scale = match scale.as_str() {
            "" => String::new(),
            scale => format!(", scale {scale}"),
        };
        let _ = writeln!(text, "  {number:<8} {old:<14} {:<14} {limits}{scale}", side(new));
    }
    if rail.moves.is_empty() {
        text += "  no holder moves\n";
    }
    for (number, step) in (1..).zip(&rail.moves) {
        let holder = step.holder.map_or(String::new(), |number| format!("holder {number}: "));
        let from = step.from.as_deref().map_or(String::new(), side);
        let way = match step.direction.as_str() {
            "set" => format!("set to {}", side(&step.to)),
            "off" => format!("take the holder at {from} off the rail"),
            "fit" => format!("fit it at {}", side(&step.to)),
            way => format!("{} {unit} to the {way}, to {}", step.distance, side(&step.to)),
        };
        let _ = writeln!(text, "  move {number:<3} {holder}{way}");
    }
    text
}

/// What is said of a holder without an old position.
fn came_from(rail: &RailLayout, number: u32) -> String {
    let fitted = |step: &Move| step.holder == Some(number) && step.direction == "fit";
    if rail.moves.iter().any(fitted) { "not on it".to_owned() } else { "unknown".to_owned() }
}

/// What else is known of a rail: bar, obstacles, scale, tip, stepping off.
fn rail_lines(rail: &RailLayout) -> Vec<String> {
    let unit = &rail.unit;
    let mut lines = Vec::new();
    if !rail.bar.is_empty() {
        lines.push(format!("bar      {}", rail.bar));
    }
    if !rail.scale.is_empty() {
        lines.push(format!("scale    {}", rail.scale));
    }
    if !rail.tip_offset.is_empty() {
        let (offset, side) =
            (rail.tip_offset.trim_start_matches('-'), rail.tip_offset.starts_with('-'));
        let side = if side { "left" } else { "right" };
        lines.push(format!(
            "tip      {offset} {unit} {side} of the middle of its holder; the tip counts"
        ));
    }
    for obstacle in &rail.obstacles {
        let (left, right) = (side(&obstacle.edges.left), side(&obstacle.edges.right));
        lines.push(format!("fixed    {}: {left} to {right}", obstacle.name));
    }
    if let Some(stepping) = &rail.stepping {
        lines.push(format!(
            "from the datum at most {} {unit} off; stepped off {} times, {} {unit} at worst, {} {unit} as root of the sum of squares",
            stepping.each, stepping.steps, stepping.worst, stepping.rss
        ));
    }
    lines
}

fn side(position: &str) -> String {
    words::side(Language::English, position)
}
