//! `derive`: every computed number of a job, with its working.

use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json, records};
use crate::canonical;
use crate::failure::Failure;
use crate::packet::Packet;
use crate::packet::model::{Holder, RailLayout, Setting};
use crate::page::words::{self, side};

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
    rails: Vec<&'a RailLayout>,
}

pub(super) fn run(args: &Args) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant)?;
    let packet = match desk::packet_of(&desk, &args.job, args.json)? {
        Ok(packet) => packet,
        Err(answer) => return Ok(*answer),
    };
    let wanted = |id: &str| args.setting.as_deref().is_none_or(|setting| setting == id);
    let derived = Derived {
        job: &packet.job.id,
        machine: &packet.machine.id,
        settings: packet.settings.iter().filter(|setting| wanted(&setting.id)).collect(),
        rails: packet.rails.iter().filter(|rail| wanted(&rail.id)).collect(),
    };
    if let (Some(name), true, true) =
        (&args.setting, derived.settings.is_empty(), derived.rails.is_empty())
    {
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
    for shown in derived.settings {
        text += &setting(&packet, shown);
    }
    for shown in derived.rails {
        text += &rail(&packet, shown);
    }
    Ok(Answer::clean(text))
}

fn unknown_setting(packet: &Packet, name: &str) -> Failure {
    let settings = packet.settings.iter().map(|setting| setting.id.as_str());
    let known: Vec<&str> =
        settings.chain(packet.rails.iter().map(|rail| rail.id.as_str())).collect();
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
    line("result", &setting.working.result);
    let was = setting.was.as_deref();
    let was = was.map_or("new".to_owned(), |was| format!("was {}", setting.with_unit(was)));
    line("set to", &format!("{} ({was})", setting.with_unit(&setting.target)));
    if let Some(limits) = setting.limits() {
        line("limits", &limits);
    }
    if let Some(id) = &setting.instrument {
        line("with", &instrument(packet, id));
    }
    if !setting.place.is_empty() {
        line("where", &setting.place);
    }
    if !setting.source.is_empty() {
        line("source", &setting.source);
    }
    text
}

fn instrument(packet: &Packet, id: &str) -> String {
    let instrument = packet.instruments.iter().find(|instrument| instrument.id == id);
    instrument.map_or(id.to_owned(), |instrument| {
        format!("{}, steps of {}", instrument.name, instrument.resolution)
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
        let _ = writeln!(text, "  web      {left} to {right}, {} lanes", rail.lanes.len());
    }
    let _ = writeln!(text, "  holder   old            new            limits");
    for holder in &rail.holders {
        let Holder { number, old, new, low, high, parked } = holder;
        let old = old.as_ref().map_or("unknown".to_owned(), |old| side(old));
        let limits =
            if *parked { "parked".to_owned() } else { words::limits(Some(low), Some(high), "") };
        let _ = writeln!(text, "  {number:<8} {old:<14} {:<14} {limits}", side(new));
    }
    if rail.moves.is_empty() {
        text += "  no holder moves\n";
    }
    for (number, step) in (1..).zip(&rail.moves) {
        let way = match step.direction.as_str() {
            "set" => format!("set to {}", side(&step.to)),
            way => format!("{} {unit} to the {way}, to {}", step.distance, side(&step.to)),
        };
        let _ = writeln!(text, "  move {number:<3} holder {}: {way}", step.holder);
    }
    text
}
