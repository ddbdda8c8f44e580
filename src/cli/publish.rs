//! `publish`: the whole site, put in place in one swap.

use std::path::{Path, PathBuf};
use std::time::Instant;

use serde::Serialize;

use super::desk::{self, Desk, Judged};
use super::{Answer, clock, earlier, handbook, json, logs, records, redline};
use crate::audit::log::LogReport;
use crate::audit::{Report, report};
use crate::failure::Failure;
use crate::finding::show;
use crate::language::Language;
use crate::page::redline::RedlineView;
use crate::plant::load::Plant;
use crate::publish::{self, site};

/// Writes the site: start page, machines, jobs, procedures, records, and a packet for each job.
///
/// When the plant's files have an error, nothing is written and an old site stays as it is. A record
/// that does not hold is shown as it is, and said here.
#[derive(Debug, clap::Args)]
#[command(after_help = "Example:\n  witnessmark publish demo-data --out public")]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Folder of the site; made new, or an older site of ours
    #[arg(long)]
    out: PathBuf,
    /// Add pages of what changed since this revision in git
    #[arg(long, value_name = "REVISION", allow_hyphen_values = true)]
    since: Option<String>,
    /// Write the handbook into the site too, and lead to it from the foot of each page
    #[arg(long)]
    handbook: bool,
    /// Print what was written as JSON
    #[arg(long)]
    json: bool,
}

/// What was written.
#[derive(Serialize)]
struct Written {
    machines: usize,
    jobs: usize,
    packets: usize,
    records: usize,
    findings: usize,
    files: usize,
    milliseconds: u128,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let start = Instant::now();
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let judged = desk::judge(&desk, plant);
    let redline = match redlined(args, &desk, plant, &judged)? {
        Ok(redline) => redline,
        Err(answer) => return Ok(*answer),
    };
    let all = &judged.findings;
    if all.has_errors() {
        let mut answer = desk.answer(all, args.json);
        if !args.json {
            answer.text += language.word("cli-nothing-written");
            answer.text.push('\n');
        }
        return Ok(answer);
    }
    let mut site = site(&args.plant, &desk, plant, &judged)?;
    site.handbook = args.handbook;
    site.redline = redline;
    let mut tree = site::tree(&site)?;
    if args.handbook {
        handbook::beside(&mut tree);
    }
    publish::write(&args.out, &args.plant, &tree)?;
    let written = Written {
        machines: site.prepared.machines.len(),
        jobs: plant.jobs.len(),
        packets: site.packets.len(),
        records: site.records.len(),
        findings: site.findings.len()
            + bad_reports(&site).map(|r| r.findings.len()).sum::<usize>()
            + bad_logs(&site).map(|log| log.findings.len()).sum::<usize>(),
        files: tree.files.len(),
        milliseconds: start.elapsed().as_millis(),
    };
    let text = if args.json {
        json(&written)?
    } else {
        let warnings = show::text(all, &desk.texts, language) + &bad_records(&site, language);
        let counts = [
            ("cli-machines", written.machines),
            ("cli-jobs", written.jobs),
            ("cli-packets", written.packets),
            ("cli-records", written.records),
            ("cli-findings", written.findings),
        ];
        let parts = [
            ("files", super::counts(language, &[("cli-files", written.files)]).into()),
            ("folder", args.out.display().to_string().into()),
            ("milliseconds", written.milliseconds.to_string().into()),
            ("page", args.out.join("index.html").display().to_string().into()),
        ];
        let done = language.text("cli-published", &parts);
        format!("{warnings}{}\n{done}\n", super::counts(language, &counts))
    };
    let clean = written.findings == 0;
    Ok(if clean { Answer::clean(text) } else { Answer::findings(text) })
}

/// Everything that the site of a plant is made from.
pub(super) fn site<'a>(
    folder: &Path,
    desk: &'a Desk,
    plant: &'a Plant,
    Judged { prepared, packets, trust, findings }: &'a Judged<'a>,
) -> Result<site::Site<'a>, Failure> {
    let shelf = records::read(folder)?;
    // What pages say of records must not depend on the day they are made: no time is given.
    let mut sizes = logs::Sizes::new();
    shelf.records.iter().for_each(|(name, raw)| logs::count(&mut sizes, name, raw));
    let domain = &plant.facts.body.domain;
    let judge = logs::Judge { plant: folder, domain, trust, now: None };
    let logs = logs::published(&judge, &sizes)?;
    let past = |records: &_, reports: &_| publish::history::past(records, reports, plant);
    let (mut records, (history, questions)) =
        records::judge(shelf.records, prepared, packets, trust, None, past);
    records::diverged(&mut records, &shelf.copies);
    Ok(site::Site {
        prepared,
        packets: packets.clone(),
        records,
        logs,
        texts: &desk.texts,
        findings: show::located(findings, &desk.texts, plant.facts.body.language),
        allowed_signers: plant.allowed_signers.as_ref().map(|(_, text)| &**text),
        day: clock::now().date_naive(),
        redline: None,
        handbook: false,
        history,
        questions,
    })
}

/// What changed since the revision that was named; none when none was.
fn redlined(
    args: &Args,
    desk: &Desk,
    plant: &Plant,
    judged: &Judged,
) -> Result<Result<Option<RedlineView>, Box<Answer>>, Failure> {
    let Some(revision) = args.since.as_ref().filter(|_| !judged.findings.has_errors()) else {
        return Ok(Ok(None));
    };
    let earlier = earlier::at(&args.plant, revision)?;
    let compared = redline::compare(&args.plant, desk, judged, &earlier, args.json)?;
    Ok(compared.map(|compared| Some(compared.view(desk, site::frame(plant, args.handbook)))))
}

/// Reports of records that do not hold.
fn bad_reports<'s>(site: &'s site::Site) -> impl Iterator<Item = &'s Report> {
    site.records.values().map(|recorded| &recorded.report).filter(|report| !report.is_clean())
}

/// Reports of logs that do not hold.
fn bad_logs<'s>(site: &'s site::Site) -> impl Iterator<Item = &'s LogReport> {
    site.logs.values().map(|log| &log.report).filter(|report| !report.is_clean())
}

/// What is wrong with records and logs, as `audit` says it.
fn bad_records(site: &site::Site, language: Language) -> String {
    let records = bad_reports(site).map(|report| report::render(report, language) + "\n");
    let logs = bad_logs(site).map(|log| log.render(language) + "\n");
    records.chain(logs).collect()
}
