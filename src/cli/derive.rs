//! `derive`: every computed number of a job, with its working.

use std::fmt::Write;
use std::path::PathBuf;

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json, records, steps};
use crate::canonical;
use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::packet::Packet;
use crate::packet::model::{
    Dropped, Edges, Fastener, Figure, Holder, Move, RailLayout, Setting, Working,
};
use crate::page::words;

/// Prints how every setting and position of a job was worked out.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark derive demo-data SM-1042\n  witnessmark derive demo-data SM-1042 strip\n  witnessmark derive demo-data SM-1042 --steps"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The job
    job: String,
    /// Only this setting or rail
    setting: Option<String>,
    /// Why each step is there instead: who names its procedure, what makes it needed, what was
    /// considered and is not
    #[arg(long, conflicts_with = "setting")]
    steps: bool,
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
    if args.steps {
        return steps::answer(&packet, language, args.json);
    }
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
    let parts = [
        ("job", (&packet.job.id).into()),
        ("machine", (&packet.machine.name).into()),
        ("from", (&packet.from.name).into()),
        ("to", (&packet.to.name).into()),
    ];
    let mut text = language.text("derive-head", &parts) + "\n";
    if let Some(signed) = records::frozen(&args.plant, &args.job)?
        && canonical::sha256_hex(&signed) != crate::packet::digest(&packet)?
    {
        text += language.word("derive-other-signed");
        text.push('\n');
    }
    let sheet = Sheet { packet: &packet, language };
    for shown in derived.web.into_iter().chain(derived.contents) {
        text += &sheet.figure(shown);
    }
    for shown in derived.settings {
        text += &sheet.setting(shown);
    }
    for shown in packet.dropped.iter().filter(|dropped| wanted(&dropped.id)) {
        text += &sheet.dropped(shown);
    }
    for shown in derived.fasteners {
        text += &sheet.fastener(shown);
    }
    for shown in derived.rails {
        text += &sheet.rail(shown);
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
    let parts = [("name", name.into()), ("known", known.join(", ").into())];
    Failure::new(Words::new("derive-unknown", &parts))
}

/// Keys of the words that stand at the head of a line.
const HEADS: [&str; 20] = [
    "derive-formula",
    "derive-numbers",
    "derive-step",
    "derive-result",
    "derive-set-to",
    "derive-limits",
    "derive-with",
    "derive-where",
    "derive-note",
    "derive-source",
    "derive-thread",
    "derive-key",
    "derive-torque",
    "derive-proof",
    "derive-caution",
    "derive-datum",
    "derive-web",
    "derive-scale",
    "derive-fixed",
    "derive-holder",
];

/// Lines below a title, each with a head; those without words are left out.
struct Lines {
    language: Language,
    width: usize,
    text: String,
}

impl Lines {
    fn below(title: &str, language: Language) -> Lines {
        let width = |key: &&'static str| language.word(key).chars().count();
        let width = HEADS.iter().map(width).max().unwrap_or_default() + 1;
        Lines { language, width, text: format!("\n{title}\n") }
    }

    fn line(&mut self, head: &'static str, words: &str) {
        if !words.is_empty() {
            self.under(self.language.word(head), words);
        }
    }

    fn under(&mut self, head: &str, words: &str) {
        let width = self.width;
        let _ = writeln!(self.text, "  {head:<width$} {words}");
    }

    /// What was written, what was put in, and what came out step by step.
    fn working(&mut self, working: &Working) {
        let Working { formula, numbers, steps, .. } = working;
        let shown = |text: &str| words::working(self.language, text);
        let (formula, numbers) = (shown(formula), shown(numbers));
        let steps: Vec<String> = steps.iter().map(|step| shown(step)).collect();
        self.line("derive-formula", &formula);
        if numbers != formula {
            self.line("derive-numbers", &numbers);
        }
        for step in steps {
            self.line("derive-step", &step);
        }
    }
}

/// The numbers of a packet in a language. What people wrote stays as they wrote it.
struct Sheet<'p> {
    packet: &'p Packet,
    language: Language,
}

impl Sheet<'_> {
    fn setting(&self, setting: &Setting) -> String {
        let Sheet { packet, language } = *self;
        let mut lines = self.titled(&setting.name, &setting.id);
        lines.working(&setting.working);
        lines.line("derive-result", &language.decimals(&setting.working.result));
        let was = setting.was.as_deref();
        let was = was.map_or(language.word("derive-new").to_owned(), |was| {
            let was = language.decimals(&setting.with_unit(was));
            language.text("derive-was", &[("was", was.into())])
        });
        let by = language.decimals(&setting.by);
        let by = if by.is_empty() { by } else { format!(", {by}") };
        let target = language.decimals(&setting.set_to());
        lines.line("derive-set-to", &format!("{target} ({was}{by})"));
        lines.line("derive-limits", &setting.limits(language).unwrap_or_default());
        if let Some(id) = &setting.instrument {
            lines.line("derive-with", &instrument(packet, id, language));
        }
        lines.line("derive-where", &setting.place);
        for note in &setting.notes {
            lines.line("derive-note", note);
        }
        lines.line("derive-source", &setting.source);
        lines.text
    }

    fn figure(&self, figure: &Figure) -> String {
        let mut lines = self.titled(&figure.name, &figure.id);
        lines.working(&figure.working);
        lines.line("derive-result", &self.language.decimals(&figure.value));
        lines.line("derive-source", &figure.source);
        lines.text
    }

    fn dropped(&self, dropped: &Dropped) -> String {
        let was = self.language.decimals(&dropped.was);
        let parts =
            [("name", (&dropped.name).into()), ("id", (&dropped.id).into()), ("was", was.into())];
        format!("\n{}\n", self.language.text("derive-dropped", &parts))
    }

    fn fastener(&self, screw: &Fastener) -> String {
        let language = self.language;
        let mut lines = self.titled(&screw.name, &screw.id);
        lines.line("derive-thread", &screw.thread);
        lines.line("derive-key", &language.decimals(&screw.key));
        let basis = match screw.basis.as_str() {
            "stated" => language.word("packet-screw-stated"),
            "computed" => language.word("packet-screw-computed"),
            other => other,
        };
        let torque = language.decimals(&screw.torque);
        lines.line("derive-torque", &format!("{torque} ({basis})"));
        lines.line("derive-proof", &language.decimals(&screw.proof_load));
        lines.line("derive-with", &screw.wrench);
        for note in &screw.notes {
            lines.line("derive-note", note);
        }
        lines.line("derive-source", &screw.source);
        lines.line("derive-caution", language.word("derive-maker-first"));
        lines.text
    }

    fn titled(&self, name: &str, id: &str) -> Lines {
        Lines::below(&format!("{name} ({id})"), self.language)
    }

    fn rail(&self, rail: &RailLayout) -> String {
        let Sheet { packet, language } = *self;
        let parts = [
            ("name", (&rail.name).into()),
            ("id", (&rail.id).into()),
            ("unit", (&rail.unit).into()),
        ];
        let mut lines = Lines::below(&language.text("derive-rail", &parts), language);
        lines.line("derive-datum", &packet.machine.datum);
        if let Some(id) = &rail.instrument {
            lines.line("derive-with", &instrument(packet, id, language));
        }
        if let Some(web) = &rail.web {
            lines.line("derive-web", &self.web(rail, web));
        }
        self.facts(rail, &mut lines);
        self.holders(rail, &mut lines);
        if rail.moves.is_empty() {
            let _ = writeln!(lines.text, "  {}", language.word("derive-no-move"));
        }
        for (number, step) in (1_usize..).zip(&rail.moves) {
            let head = language.text("derive-move", &[("number", number.to_string().into())]);
            lines.under(&head, &self.way(rail, step));
        }
        lines.text
    }

    fn web(&self, rail: &RailLayout, web: &Edges) -> String {
        let knives = rail.holders.iter().filter(|holder| !holder.parked).count();
        let lanes = self.language.text("derive-lanes", &[("count", rail.lanes.len().into())]);
        let knives = words::knives(self.language, rail.kind, knives);
        format!("{}, {lanes}, {knives}", self.span(web))
    }

    /// From edge to edge: `−180.0 left to +180.0 right`.
    fn span(&self, edges: &Edges) -> String {
        let parts = [("low", self.side(&edges.left)), ("high", self.side(&edges.right))];
        let parts = parts.map(|(name, side)| (name, side.into()));
        self.language.text("step-between", &parts)
    }

    /// What else is known of a rail: bar, scale, tip, obstacles, stepping off.
    fn facts(&self, rail: &RailLayout, lines: &mut Lines) {
        let language = self.language;
        lines.line("derive-bar", &rail.bar);
        lines.line("derive-scale", &language.decimals(&rail.scale));
        let with_unit = |value: &str| language.decimals(&format!("{value} {}", rail.unit));
        if !rail.tip_offset.is_empty() {
            let distance = with_unit(rail.tip_offset.trim_start_matches('-'));
            let is_left = rail.tip_offset.starts_with('-');
            let key = if is_left { "derive-tip-left" } else { "derive-tip-right" };
            let tip = language.text(key, &[("distance", distance.into())]);
            lines.line("derive-tip", &tip);
        }
        for obstacle in &rail.obstacles {
            let span = self.span(&obstacle.edges);
            lines.line("derive-fixed", &format!("{}: {span}", obstacle.name));
        }
        if let Some(stepping) = &rail.stepping {
            let parts = [
                ("count", stepping.steps.into()),
                ("each", with_unit(&stepping.each).into()),
                ("worst", with_unit(&stepping.worst).into()),
                ("rss", with_unit(&stepping.rss).into()),
            ];
            let _ = writeln!(lines.text, "  {}", language.text("derive-stepping", &parts));
        }
    }

    fn holders(&self, rail: &RailLayout, lines: &mut Lines) {
        let word = |key| self.language.word(key).to_owned();
        let mut rows =
            vec![["derive-holder", "derive-old", "derive-position", "derive-limits"].map(word)];
        rows.extend(rail.holders.iter().map(|holder| self.holder(rail, holder)));
        // Wide enough for a position in every language.
        let cells = rows.iter().flat_map(|[_, old, new, _]| [old, new]);
        let width = cells.map(|cell| cell.chars().count()).max().unwrap_or_default().max(14);
        for [number, old, new, limits] in &rows {
            lines.under(number, &format!("{old:<width$} {new:<width$} {limits}"));
        }
    }

    fn holder(&self, rail: &RailLayout, holder: &Holder) -> [String; 4] {
        let language = self.language;
        let Holder { number, old, new, low, high, parked, scale, .. } = holder;
        let old = old.as_ref().map_or_else(|| self.came_from(rail, *number), |old| self.side(old));
        let limits = match parked {
            true => language.word("rail-parked").to_owned(),
            false => words::limits(language, Some(low), Some(high), ""),
        };
        let scale = match scale.as_str() {
            "" => String::new(),
            scale => {
                let scale = language.decimals(scale);
                format!(", {}", language.text("derive-on-scale", &[("scale", scale.into())]))
            }
        };
        [number.to_string(), old, self.side(new), limits + &scale]
    }

    /// What is said of a holder without an old position.
    fn came_from(&self, rail: &RailLayout, number: u32) -> String {
        let fitted = |step: &Move| step.holder == Some(number) && step.direction == "fit";
        let is_fitted = rail.moves.iter().any(fitted);
        let key = if is_fitted { "derive-not-on-it" } else { "derive-not-known" };
        self.language.word(key).to_owned()
    }

    fn way(&self, rail: &RailLayout, step: &Move) -> String {
        let language = self.language;
        let holder = step.holder.map_or(String::new(), |number| {
            let parts = [("number", number.to_string().into())];
            language.text("derive-of-holder", &parts) + " "
        });
        let distance = language.decimals(&format!("{} {}", step.distance, rail.unit));
        let from = step.from.as_deref().map_or(String::new(), |from| self.side(from));
        let to = self.side(&step.to);
        let to = ("to", to.into());
        let way = match step.direction.as_str() {
            "set" => language.text("derive-way-set", &[to]),
            "off" => language.text("derive-way-off", &[("from", from.into())]),
            "fit" => language.text("derive-way-fit", &[to]),
            "left" => language.text("derive-way-left", &[("distance", distance.into()), to]),
            _ => language.text("derive-way-right", &[("distance", distance.into()), to]),
        };
        holder + &way
    }

    fn side(&self, position: &str) -> String {
        words::side(self.language, position)
    }
}

fn instrument(packet: &Packet, id: &str, language: Language) -> String {
    let Some(own) = packet.instruments.iter().find(|instrument| instrument.id == id) else {
        return id.to_owned();
    };
    let told = |key, fact: &str| language.text(key, &[("fact", language.decimals(fact).into())]);
    let mut facts = vec![own.name.clone(), told("derive-steps-of", &own.resolution)];
    if !own.error_limit.is_empty() {
        facts.push(told("derive-off-by", &own.error_limit));
    }
    if !own.range.is_empty() {
        facts.push(told("step-measures", &own.range));
    }
    facts.join(", ")
}
