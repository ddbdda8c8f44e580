//! `preview`: the site of a plant from memory, following its files.

use std::collections::BTreeMap;
use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;
use std::sync::mpsc::RecvTimeoutError;

use super::desk::{self, Desk, Judged, Memory};
use super::{Answer, clock, say};
use crate::failure::Failure;
use crate::finding::show::{self, Texts};
use crate::finding::{Findings, Severity};
use crate::language::{Language, Words};
use crate::page::paths;
use crate::page::site::Frame;
use crate::page::site::preview::{
    AllFindings, Bar, FINDINGS, PREVIEW_CSS, PREVIEW_JS, SCRIPT, STYLE, dressed, findings_html,
};
use crate::plant::load::Plant;
use crate::preview::anchor::{Anchors, Seen};
use crate::preview::server::Server;
use crate::preview::watch::Watch;
use crate::publish::Tree;
use crate::publish::site::{PROGRAM, Pages, Part};

/// Shows the site while you write: pages follow each save, at the step you edit, with the findings.
///
/// Nothing is written anywhere. While the files have an error, the pages of the last good state stay.
/// Only this machine can open the pages, unless you say otherwise. Ctrl-C ends it.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  witnessmark preview demo-data")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Port to listen at; without it a free one
    #[arg(long, default_value_t = 0)]
    port: u16,
    /// Address of this machine at which others may read the plant too, such as 0.0.0.0
    #[arg(long, value_name = "ADDRESS")]
    open_to: Option<IpAddr>,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    // Looked at before it is read: what is saved meanwhile is read again.
    let watch = Watch::of(&args.plant);
    let mut memory = Memory::default();
    let mut desk = Desk::open_again(&args.plant, language, &mut memory)?;
    let address = args.open_to.unwrap_or(Ipv4Addr::LOCALHOST.into());
    let server = Server::start(address, args.port).map_err(|error| {
        let at = format!("{address}:{}", args.port);
        let parts = [("address", at.into()), ("cause", error.to_string().into())];
        Failure::new(Words::new("preview-no-address", &parts))
    })?;
    let at = format!("http://{}/", server.address);
    let number = clock::now().timestamp_millis();
    let mut preview = Preview {
        args,
        language,
        memory,
        watch,
        server,
        seen: Seen::default(),
        number,
        told: Told::default(),
        anchors: Anchors::new(),
    };
    let plant = args.plant.display().to_string();
    if !address.is_loopback() {
        let open = language.text("preview-open", &[("address", (&at).into())]);
        say(std::io::stdout(), &(open + "\n"));
    }
    let parts = [("plant", plant.into()), ("address", (&at).into())];
    say(std::io::stdout(), &(language.text("preview-shown", &parts) + "\n"));
    loop {
        desk = preview.show(desk)?;
    }
}

/// What the pages say of the findings.
#[derive(Debug, Default)]
struct Told {
    language: Language,
    /// Name of the plant, when its file could be read.
    plant: String,
    bar: Bar,
    /// Every finding with its caret.
    text: String,
}

impl Told {
    fn of(plant: Option<&Plant>, own: Language, findings: &Findings, texts: &Texts) -> Told {
        let facts = plant.map(|plant| &plant.facts.body);
        let language = facts.map_or(own, |facts| facts.language);
        let located = show::located(findings, texts, language);
        // What keeps the pages from being made comes first.
        let first = located.iter().min_by_key(|one| one.severity);
        let counts = [
            ("cli-errors", findings.count(Severity::Error)),
            ("cli-warnings", findings.count(Severity::Warning)),
        ];
        let counts: Vec<_> = counts.into_iter().filter(|(_, count)| *count > 0).collect();
        let place = first.map(|one| match one.line {
            0 => one.file.to_owned(),
            line => format!("{}:{line}:{}", one.file, one.column),
        });
        let bar = Bar {
            language,
            counts: super::counts(language, &counts),
            place: place.unwrap_or_default(),
            message: first.map(|one| one.message.clone()).unwrap_or_default(),
            is_old: false,
        };
        let plant = facts.map(|facts| facts.name.clone()).unwrap_or_default();
        Told { language, plant, bar, text: show::text(findings, texts, language) }
    }

    fn of_desk(desk: &Desk, findings: &Findings) -> Told {
        Told::of(desk.plant.as_ref(), desk.language, findings, &desk.texts)
    }

    /// The files could not be read at all.
    fn failure(failure: &Failure, language: Language) -> Told {
        let message = failure.shown(language);
        let counts = super::counts(language, &[("cli-errors", 1)]);
        let bar = Bar { language, counts, message: message.clone(), ..Bar::default() };
        Told { language, bar, text: message + "\n", ..Told::default() }
    }
}

/// Pages of a good state, made when they are asked for and kept as long as it is shown.
struct Shown<'a> {
    pages: Pages<'a>,
    made: BTreeMap<Part, Tree>,
}

impl Shown<'_> {
    fn file(&mut self, path: &str) -> Option<&[u8]> {
        let part = Part::of(path)?;
        if !self.made.contains_key(&part) {
            let tree = self.pages.make(&part).ok()?;
            // What is in no site is not kept: anybody can ask for anything.
            if !tree.files.contains_key(path) {
                return None;
            }
            self.made.insert(part.clone(), tree);
        }
        self.made.get(&part)?.files.get(path).map(Vec::as_slice)
    }
}

struct Preview<'a> {
    args: &'a Args,
    language: Language,
    memory: Memory,
    watch: Watch,
    server: Server,
    seen: Seen,
    number: i64,
    told: Told,
    /// Where pages differ from the state before.
    anchors: Anchors,
}

impl Preview<'_> {
    /// Shows a state of the plant until there is another one that can be shown.
    fn show(&mut self, desk: Desk) -> Result<Desk, Failure> {
        let Some(plant) = &desk.plant else {
            self.tell(Told::of_desk(&desk, &desk.findings), Anchors::new());
            return self.next();
        };
        let judged = desk::judge_again(&desk, plant, &mut self.memory);
        let told = Told::of_desk(&desk, &judged.findings);
        if judged.findings.has_errors() {
            self.tell(told, Anchors::new());
            return self.next();
        }
        self.pages(&desk, plant, &judged, told)
    }

    /// Shows the pages of a good state; they stay while there is none after it.
    fn pages(
        &mut self,
        desk: &Desk,
        plant: &Plant,
        judged: &Judged,
        told: Told,
    ) -> Result<Desk, Failure> {
        let site = match super::publish::site(&self.args.plant, desk, plant, judged) {
            Ok(site) => site,
            Err(failure) => {
                self.tell(Told::failure(&failure, self.language), Anchors::new());
                return self.next();
            }
        };
        let mut shown = Shown { pages: Pages::of(&site), made: BTreeMap::new() };
        let anchors = self.seen.replace(plant, &judged.packets);
        self.tell(told, anchors);
        loop {
            self.serve(Some(&mut shown))?;
            match self.read() {
                Ok(desk) => return Ok(desk),
                Err(mut told) => {
                    told.bar.is_old = true;
                    self.tell(*told, Anchors::new());
                }
            }
        }
    }

    /// Waits without pages until the files have another state.
    fn next(&mut self) -> Result<Desk, Failure> {
        loop {
            self.serve(None)?;
            match Desk::open_again(&self.args.plant, self.language, &mut self.memory) {
                Ok(desk) => return Ok(desk),
                Err(failure) => {
                    self.tell(Told::failure(&failure, self.language), Anchors::new());
                }
            }
        }
    }

    /// The plant as it is now, when it has no error; else what stands against it.
    fn read(&mut self) -> Result<Desk, Box<Told>> {
        let desk = Desk::open_again(&self.args.plant, self.language, &mut self.memory)
            .map_err(|failure| Box::new(Told::failure(&failure, self.language)))?;
        let Some(plant) = &desk.plant else {
            return Err(Box::new(Told::of_desk(&desk, &desk.findings)));
        };
        let findings = desk::judge_again(&desk, plant, &mut self.memory).findings;
        match findings.has_errors() {
            true => Err(Box::new(Told::of_desk(&desk, &findings))),
            false => Ok(desk),
        }
    }

    /// Begins another state: every open page shows itself again.
    fn tell(&mut self, told: Told, anchors: Anchors) {
        self.number += 1;
        self.told = told;
        self.anchors = anchors;
        self.server.state.send_replace(self.number);
    }

    /// Answers requests until the files have changed.
    fn serve(&mut self, mut shown: Option<&mut Shown>) -> Result<(), Failure> {
        loop {
            if self.watch.has_changed() {
                return Ok(());
            }
            match self.server.asks.recv_timeout(self.watch.pause()) {
                Ok(ask) => {
                    let file = self.file(shown.as_deref_mut(), &ask.path);
                    // Whoever asked may be gone.
                    let _ = ask.reply.send(file);
                }
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => {
                    return Err(Failure::new(Words::of("preview-ended")));
                }
            }
        }
    }

    fn file(&self, shown: Option<&mut Shown>, path: &str) -> Option<Vec<u8>> {
        match path {
            FINDINGS => return Some(self.findings(shown.is_none())),
            SCRIPT => return Some(PREVIEW_JS.into()),
            STYLE => return Some(PREVIEW_CSS.into()),
            _ => {}
        }
        let Some(shown) = shown else {
            return (path == paths::START).then(|| self.findings(true));
        };
        let file = shown.file(path)?;
        Some(match std::str::from_utf8(file).ok().filter(|_| path.ends_with(".html")) {
            Some(html) => {
                let at = self.anchors.get(path).map_or("", String::as_str);
                dressed(html, &self.told.bar, self.number, at).into_bytes()
            }
            None => file.to_vec(),
        })
    }

    /// The page of all findings.
    fn findings(&self, is_alone: bool) -> Vec<u8> {
        let frame = Frame {
            language: self.told.language,
            plant: self.told.plant.clone(),
            program: PROGRAM.to_owned(),
            ..Frame::default()
        };
        let Told { text, bar, .. } = &self.told;
        let view = AllFindings { frame, text: text.clone(), is_old: bar.is_old, is_alone };
        dressed(&findings_html(&view), &Bar::default(), self.number, "").into_bytes()
    }
}
