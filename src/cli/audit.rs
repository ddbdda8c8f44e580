//! `audit`: whether the records hold, for people and for programs.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::Serialize;

use super::archive::{Archive, Court, Judged};
use super::desk::{self, Desk};
use super::key::{self, Wanted};
use super::{Answer, clock, exported, json, logs};
use crate::audit::log::LogReport;
use crate::audit::register::audit_register;
use crate::audit::sample::{Candidate, Chosen, Plan, Sample};
use crate::audit::sheet::{Audit, Beside, Summary, ToldAudit};
use crate::audit::{Report, report};
use crate::durable;
use crate::failure::Failure;
use crate::finding::{Findings, show};
use crate::history::drift::{self, Question, ToldQuestion};
use crate::language::{Language, Words};
use crate::packet;
use crate::publish::auditor::{self, Auditor, Remarks};
use crate::publish::site::PROGRAM;
use crate::record::signature::SigningKey;
use crate::record::time;
use crate::record::trust::TrustList;

/// Verifies records: digests, chain, signatures, completeness, limits, roles.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark audit demo-data\n  witnessmark audit demo-data SM-1041 --entries\n  witnessmark audit demo-data --machine stick-5 --from 2026-11-01\n  witnessmark audit demo-data --sample random:2 --seed autumn --report audit.html"
)]
pub(super) struct Args {
    /// Folder of the plant, an exported folder, or a folder of those
    plant: PathBuf,
    /// Only the record of this job
    job: Option<String>,
    /// Only records of this machine
    #[arg(long, value_name = "MACHINE")]
    machine: Option<String>,
    /// Only records with an entry on this day or later
    #[arg(long, value_name = "DATE")]
    from: Option<String>,
    /// Only records with an entry on this day or earlier
    #[arg(long, value_name = "DATE")]
    to: Option<String>,
    /// Of these only a sample: every:10, or random:50 with --seed
    #[arg(long, value_name = "SAMPLE")]
    sample: Option<String>,
    /// What the random sample is drawn with: any text; who has it draws the same records
    #[arg(long, value_name = "TEXT")]
    seed: Option<String>,
    /// A checkpoint of a log that was kept elsewhere: its file, or its short form as printed; may be
    /// given many times
    #[arg(long, value_name = "FILE|TEXT")]
    checkpoint: Vec<String>,
    /// Print every entry too
    #[arg(long)]
    entries: bool,
    /// Print the audit as JSON
    #[arg(long)]
    json: bool,
    /// Write the audit as a page to read and print
    #[arg(long, value_name = "FILE")]
    report: Option<PathBuf>,
    /// Sign the page as this person; the signature lies beside it, as FILE.sig
    #[arg(long, value_name = "PERSON", requires = "report")]
    by: Option<String>,
    /// Your OpenSSH private key (Ed25519); without it your key in ssh-agent signs
    #[arg(long, value_name = "FILE", requires = "by")]
    key: Option<PathBuf>,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let (now, plan) = (clock::now(), plan(args)?);
    let exports = exported::find(&args.plant)?;
    match exports.is_empty() {
        true => of_plant(args, plan, now, language),
        false => of_exports(args, &exports, plan, now, language),
    }
}

/// What was typed, as a plan.
fn plan(args: &Args) -> Result<Plan, Failure> {
    let day = |text: &Option<String>| {
        let day = text.as_deref().map(str::parse::<NaiveDate>).transpose();
        day.map_err(|_| {
            let text = text.as_deref().unwrap_or_default();
            Failure::new(Words::new("auditing-day-form", &[("text", text.into())]))
        })
    };
    let sample = Sample::parse(args.sample.as_deref(), args.seed.as_deref());
    let (job, machine) = (args.job.clone(), args.machine.clone());
    let sample = sample.map_err(|why| Failure::new(why.words()))?;
    Ok(Plan { job, machine, from: day(&args.from)?, to: day(&args.to)?, sample })
}

/// Judges the records of a plant, and with all of them its logs and its register.
fn of_plant(
    args: &Args,
    plan: Plan,
    now: DateTime<FixedOffset>,
    language: Language,
) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    // What is wrong with recipes or procedures today does not touch what was signed before.
    let prepared = packet::prepare(&mut Findings::default(), plant);
    let mut findings = Findings::default();
    let trust = desk::trust(&mut findings, plant);
    let domain = &plant.facts.body.domain;
    let signer = signer(args, &trust, domain, now, language)?;
    let archive = Archive::open(&args.plant)?;
    let mut chosen = archive.choose(&plan)?;
    some(&plan, &chosen)?;
    let court = Court { prepared: &prepared, trust: &trust, now, entries: args.entries };
    let Judged { reports, sizes, questions } = archive.judge(&chosen.names, &court)?;
    chosen.keep(|name| reports.binary_search_by(|report| report.job.as_str().cmp(name)).is_ok());
    let judge = logs::Judge { plant: &args.plant, domain, trust: &trust, now: Some(now) };
    let kept = logs::kept(&args.checkpoint, &judge)?;
    // A part is judged by itself, and a kept checkpoint without reading what lies before it.
    let is_whole = plan == Plan::default();
    let logs =
        if is_whole { logs::audit(&judge, sizes, &kept) } else { logs::prove(&judge, &kept) };
    let audit = Audit {
        program: PROGRAM.to_owned(),
        at: time::write(now),
        plant: plant.facts.body.name.clone(),
        domain: domain.clone(),
        signers: trust.digest().to_owned(),
        plan,
        chosen,
        strays: archive.strays,
        summary: Summary::of(&reports),
        reports,
        logs: logs?,
        register: audit_register(&prepared, Some(now)).filter(|_| is_whole),
        judged_by: Vec::new(),
    };
    let refused = show::located(&findings, &desk.texts, language);
    let remarks = Remarks { refused: &refused, questions: &questions };
    let first = match findings.is_empty() || args.json {
        true => String::new(),
        false => desk.answer(&findings, false).text,
    };
    let mut answer = answer(args, &audit, &remarks, signer.as_ref(), language)?;
    answer.text = first + &answer.text;
    Ok(answer)
}

/// A job that was asked for has a record.
fn some(plan: &Plan, chosen: &Chosen) -> Result<(), Failure> {
    match plan.job.as_ref().filter(|_| chosen.names.is_empty()) {
        Some(job) => Err(Failure::new(Words::new("failure-no-record", &[("job", job.into())]))),
        None => Ok(()),
    }
}

/// Judges exported folders by what lies in them.
fn of_exports(
    args: &Args,
    folders: &[PathBuf],
    plan: Plan,
    now: DateTime<FixedOffset>,
    language: Language,
) -> Result<Answer, Failure> {
    let kept = exported::kept(folders, &args.checkpoint)?;
    let (mut reports, mut judged_by) = (Vec::new(), BTreeMap::new());
    let (mut candidates, mut domain) = (Vec::new(), None);
    for folder in folders {
        let exported::Judged { report, by, domain: own } = exported::judge(folder, now, &kept)?;
        domain.get_or_insert(own);
        candidates.push(Candidate::of(&report));
        judged_by.insert(report.job.clone(), by);
        reports.push(if args.entries { report } else { report.without_entries() });
    }
    let chosen = plan.choose(&candidates);
    some(&plan, &chosen)?;
    let is_chosen = |name: &String| chosen.names.binary_search(name).is_ok();
    reports.retain(|report| is_chosen(&report.job));
    judged_by.retain(|name, _| is_chosen(name));
    // Whose keys count is what lies in each folder; nobody else is known here.
    let (trust, domain) = (TrustList::parse(b"").0, domain.unwrap_or_default());
    let signer = signer(args, &trust, &domain, now, language)?;
    let audit = Audit {
        program: PROGRAM.to_owned(),
        at: time::write(now),
        plant: args.plant.display().to_string(),
        domain,
        signers: String::new(),
        plan,
        chosen,
        strays: Vec::new(),
        summary: Summary::of(&reports),
        reports,
        logs: Vec::new(),
        register: None,
        judged_by: judged_by.into_values().flatten().collect(),
    };
    answer(args, &audit, &Remarks::default(), signer.as_ref(), language)
}

/// An audit with what counts over the records ask, for programs.
#[derive(Serialize)]
struct Told<'a> {
    #[serde(flatten)]
    audit: ToldAudit<'a>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    questions: Vec<ToldQuestion<'a>>,
}

/// What is printed, and the report where one is asked for.
fn answer(
    args: &Args,
    audit: &Audit,
    remarks: &Remarks,
    signer: Option<&Signer>,
    language: Language,
) -> Result<Answer, Failure> {
    let written = match &args.report {
        Some(file) => write_report(file, audit, remarks, signer, language)?,
        None => String::new(),
    };
    let text = match args.json {
        true => json(&Told {
            audit: audit.told(remarks.refused, language),
            questions: remarks.questions.iter().map(|one| one.told(language)).collect(),
        })?,
        false => words(args, audit, remarks.questions, language) + &written,
    };
    // A question is no finding: it changes nothing of how the audit went.
    let clean = audit.is_clean() && remarks.refused.is_empty();
    Ok(if clean { Answer::clean(text) } else { Answer::findings(text) })
}

/// Who signs the report, when somebody does.
struct Signer {
    by: String,
    key: SigningKey,
    namespace: String,
}

/// Opens the key before the work, so that nobody waits to be asked for a passphrase.
fn signer(
    args: &Args,
    trust: &TrustList,
    domain: &str,
    at: DateTime<FixedOffset>,
    language: Language,
) -> Result<Option<Signer>, Failure> {
    let Some(by) = args.by.clone() else { return Ok(None) };
    let namespace = crate::audit::namespace(domain);
    let wanted = Wanted { by: &by, trust, namespace: &namespace, at };
    let key = key::open(args.key.as_deref(), &wanted, language)?;
    // An auditor need not be of the plant; but nobody signs as another.
    let other = trust.lines_of(key.public().as_bytes()).into_iter().find(|l| l.principal != by);
    if let Some(line) = other {
        let parts = [("owner", (&line.principal).into()), ("by", (&by).into())];
        return Err(Failure::new(Words::new("auditing-key-of-other", &parts)));
    }
    Ok(Some(Signer { by, key, namespace }))
}

/// Writes the page, and beside it the signature over its bytes; says how to check it.
fn write_report(
    file: &Path,
    audit: &Audit,
    remarks: &Remarks,
    signer: Option<&Signer>,
    language: Language,
) -> Result<String, Failure> {
    let auditor = signer.map(|signer| auditor_of(file, signer)).transpose()?;
    let page = auditor::html(audit, remarks, auditor.as_ref(), language);
    durable::create(file, page.as_bytes())?;
    let name = file.display().to_string();
    let (Some(signer), Some(auditor)) = (signer, auditor) else {
        return Ok(language.text("auditing-written", &[("file", name.into())]) + "\n");
    };
    let signature = signer.key.sign(&signer.namespace, page.as_bytes()).map_err(|fault| {
        Failure::new(Words::new("signoff-not-signed", &[("fault", fault.words().into())]))
    })?;
    let beside = PathBuf::from(format!("{name}.sig"));
    durable::create(&beside, signature.as_bytes())?;
    let parts = [("file", name.into()), ("signature", beside.display().to_string().into())];
    let command = auditor.verify_command(&audit.at);
    Ok(format!("{}\n{command}\n", language.text("auditing-signed", &parts)))
}

fn auditor_of(file: &Path, signer: &Signer) -> Result<Auditor, Failure> {
    let public = signer.key.public();
    let line = public.to_openssh().map_err(|fault| Failure::new(fault.words()))?;
    let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let (by, namespace) = (signer.by.clone(), signer.namespace.clone());
    Ok(Auditor { by, namespace, fingerprint: public.fingerprint(), key: line, file: name })
}

fn words(args: &Args, audit: &Audit, questions: &[Question], language: Language) -> String {
    let register = audit.register.as_ref().map(|own| own.render(language) + "\n");
    let logs = audit.logs.iter().map(|log: &LogReport| log.render(language) + "\n");
    let mut text: String = register.into_iter().chain(logs).collect();
    for one in &audit.reports {
        text += &of_record(args, one, language);
    }
    for stray in &audit.strays {
        text += &language.text("cli-no-record", &[("name", stray.into())]);
        text.push('\n');
    }
    for line in audit.lines(language) {
        let _ = writeln!(text, "{line}");
    }
    text += &drift::text(questions, language);
    let Summary { records, entries, errors, warnings, notes, .. } = audit.summary;
    let beside = audit.beside().map_or(0, Beside::findings);
    let findings = errors + warnings + notes + beside;
    let counts = [("cli-records", records), ("cli-entries", entries), ("cli-findings", findings)];
    let _ = writeln!(text, "{}", super::counts(language, &counts));
    for by in &audit.judged_by {
        let _ = writeln!(text, "{}", by.shown(language));
    }
    text
}

fn of_record(args: &Args, one: &Report, language: Language) -> String {
    let mut text = report::render(one, language);
    if args.entries {
        for entry in &one.entries {
            let _ = writeln!(text, "{}", report::entry_line(entry, language));
        }
    }
    text + "\n"
}
