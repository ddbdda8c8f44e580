//! `redline`: what changed in a plant, word by word, and what it touches.

use std::path::{Path, PathBuf};

use serde::Serialize;

use super::desk::{self, Desk, Judged};
use super::earlier::{Earlier, Which};
use super::packet::refuse_special;
use super::{Answer, json, records};
use crate::durable;
use crate::failure::Failure;
use crate::finding::Findings;
use crate::finding::show::{self, Located};
use crate::language::{Language, Words};
use crate::page::redline::{RedlineView, redline_alone_html, redline_text};
use crate::page::site::Frame;
use crate::plant::load::Plant;
use crate::publish::{self, lines, site};
use crate::record::job_of;
use crate::redline::touches::{self, Printed, Stand, Touches};
use crate::redline::{self, Changed, Side};

/// Says what changed since an earlier state of the plant: structure, words, what weighs for safety,
/// and which packets, approvals and inspections it touches.
///
/// What weighs for safety is marked; what is not marked has to be read all the same.
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  witnessmark redline demo-data --from demo-data
  witnessmark redline demo-data procedure:dust-guard --from demo-data
  witnessmark redline demo-data --from demo-data --out redline.html

Without --since and --from, with the last commit of the git repository that holds the plant.
A subject is procedure:ID, procedure:ID@LANGUAGE, recipe:ID, machine:ID, job:ID or file:PATH.
A changed text without a new revision is a finding (exit code 1); a change alone is none.")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Only what changed in this; what it touches is that of all changes
    subject: Option<String>,
    #[command(flatten)]
    which: Which,
    /// Write one self-contained HTML file to read and print
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

/// Two states of a plant, compared.
pub(super) struct Compared {
    /// What people call the earlier one.
    pub since: String,
    /// Every file that differs.
    pub changed: Vec<Changed>,
    /// What that touches.
    pub touches: Touches,
    /// What revisions leave undone.
    pub findings: Findings,
}

/// What is printed as JSON.
#[derive(Serialize)]
struct Told<'a> {
    since: &'a str,
    summary: &'a [String],
    changed: &'a [Changed],
    touches: &'a Touches,
    findings: &'a [Located<'a>],
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    if let Some(out) = &args.out {
        refuse_special(out)?;
    }
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    if let Some(out) = &args.out {
        publish::refuse_plant(out, &args.plant)?;
    }
    let earlier = args.which.of(&args.plant)?;
    let judged = desk::judge(&desk, plant);
    let mut compared = match compare(&args.plant, &desk, &judged, &earlier, args.json)? {
        Ok(compared) => compared,
        Err(answer) => return Ok(*answer),
    };
    if let Some(name) = &args.subject {
        compared.only(name, &Side { plant, texts: &desk.texts })?;
    }
    let view = |language| compared.view(&desk, frame(plant, language));
    let Compared { since, changed, touches, findings } = &compared;
    let mut text = match args.json {
        true => {
            let located = show::located(findings, &desk.texts, language);
            let summary = &view(language).summary;
            json(&Told { since, summary, changed, touches, findings: &located })?
        }
        false => redline_text(&view(language)) + &show::text(findings, &desk.texts, language),
    };
    if let Some(out) = &args.out {
        let page = redline_alone_html(&view(plant.facts.body.language));
        durable::replace(out, page.as_bytes())?;
        if !args.json {
            let parts = [("file", out.display().to_string().into())];
            text += &(language.text("redline-written", &parts) + "\n");
        }
    }
    Ok(if findings.is_empty() { Answer::clean(text) } else { Answer::findings(text) })
}

/// Compares a plant that was judged with an earlier state of it; the findings when that cannot be read.
pub(super) fn compare(
    folder: &Path,
    desk: &Desk,
    judged: &Judged,
    earlier: &Earlier,
    as_json: bool,
) -> Result<Result<Compared, Box<Answer>>, Failure> {
    let old = Desk::open(&earlier.folder, desk.language)?;
    let before = match old.plant(as_json) {
        Ok(before) => before,
        Err(answer) => return Ok(Err(answer)),
    };
    let was = desk::judge(&old, before);
    let after = Side { plant: judged.prepared.plant, texts: &desk.texts };
    let changed = redline::compare(&Side { plant: before, texts: &old.texts }, &after);
    let mut findings = Findings::default();
    redline::judge(&mut findings, &changed, &after);
    touches::judge(&mut findings, &was.prepared, &judged.prepared);
    let touches = touches::touches(
        Stand { prepared: &was.prepared, packets: &was.packets },
        Stand { prepared: &judged.prepared, packets: &judged.packets },
        &changed,
        signed(folder, judged)?,
    );
    Ok(Ok(Compared { since: earlier.name.clone(), changed, touches, findings }))
}

/// The packets that were signed, and how far their jobs are.
fn signed(folder: &Path, judged: &Judged) -> Result<Vec<Printed>, Failure> {
    let shelf = records::read(folder)?;
    let Judged { prepared, packets, trust, .. } = judged;
    let (records, ()) = records::judge(shelf.records, prepared, packets, trust, None, |_, _| ());
    let signed = |(record, own): (String, site::Recorded)| {
        let job = job_of(&record).to_owned();
        let (digest, state) = own.report.packet.zip(own.report.state)?;
        Some(Printed { record, job, digest, state })
    };
    Ok(records.into_iter().filter_map(signed).collect())
}

/// The frame of a page that stands alone.
fn frame(plant: &Plant, language: Language) -> Frame {
    Frame {
        language,
        plant: plant.facts.body.name.clone(),
        program: site::PROGRAM.to_owned(),
        ..Frame::default()
    }
}

impl Compared {
    /// All of it in words.
    pub(super) fn view(&self, desk: &Desk, frame: Frame) -> RedlineView {
        let located = show::located(&self.findings, &desk.texts, frame.language);
        let findings = located.iter().map(lines::finding).collect();
        RedlineView::new(frame, &self.since, &self.changed, &self.touches, findings)
    }

    /// Keeps what concerns one subject.
    fn only(&mut self, name: &str, side: &Side) -> Result<(), Failure> {
        self.changed.retain(|one| one.subject.is_called(name));
        let files: Vec<&str> = self.changed.iter().map(|one| one.file.as_str()).collect();
        let own = self.findings.iter().filter(|finding| files.contains(&&*finding.place.file));
        let own = own.cloned().collect();
        self.findings = own;
        if self.changed.is_empty() && !redline::is_subject(side, name) {
            let parts = [("subject", name.into())];
            return Err(Failure::new(Words::new("redline-no-subject", &parts)));
        }
        Ok(())
    }
}
