//! `export`: one record as a folder that stands alone, or all entries as lines or as a table.
#![allow(clippy::disallowed_methods, reason = "an export is written at this edge")]

use std::fs::{self, File, Permissions};
use std::io::Write;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};

use rustix::fs::{CWD, RenameFlags, renameat_with};
use tempfile::NamedTempFile;

use super::desk::{self, Desk};
use super::{Answer, clock, logs, records};
use crate::audit::{Subject, audit_record, report};
use crate::canonical::{line, sha256_hex};
use crate::durable;
use crate::export::folder::{self, Files, Folder};
use crate::export::parquet::{NotWritten, Table};
use crate::export::people::{Lost, PeopleFile};
use crate::export::proofs::Proofs;
use crate::export::table::{self, Row};
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::log::checkpoint::Checkpoint;
use crate::log::store::Log;
use crate::packet::{self, Prepared};
use crate::page::proof::{self, Signature};
use crate::plant::load::is_id;
use crate::plant::shape::RevokedEntry;
use crate::publish::refuse_plant;
use crate::publish::site::{self, PROGRAM, Recorded, Sheet};
use crate::record::store::{self, RawRecord};
use crate::record::trust::TrustList;
use crate::record::{job_of, namespace};

/// Writes a record so that somebody else can read and check it, or all entries for other programs.
///
/// With --out, the record of one job as a folder: its own bytes, keys and people, pages to read, a
/// second program that checks it, and how to. With --lines, every entry as one line of JSON, byte for
/// byte. With --parquet, every entry as one row of a table. What is there already is never replaced.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Examples:\n  witnessmark export demo-data SM-1041 --out sm-1041\n  witnessmark export demo-data --parquet entries.parquet",
    group = clap::ArgGroup::new("form").required(true).multiple(true)
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// Only the record of this job
    job: Option<String>,
    /// Folder to write the record of the job to; must not be there yet
    #[arg(long, value_name = "FOLDER", requires = "job", group = "form")]
    out: Option<PathBuf>,
    /// File to write the entries to, one a line; must not be there yet
    #[arg(long, value_name = "FILE", group = "form")]
    lines: Option<PathBuf>,
    /// Parquet file to write the entries to, one a row; must not be there yet
    #[arg(long, value_name = "FILE", group = "form")]
    parquet: Option<PathBuf>,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(false) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    // What is wrong with recipes or procedures today does not touch what was signed before.
    let mut aside = Findings::default();
    let prepared = packet::prepare(&mut aside, plant);
    let trust = desk::trust(&mut aside, plant);
    let source = Source { args, prepared: &prepared, trust: &trust, language };
    for path in [&args.out, &args.lines, &args.parquet].into_iter().flatten() {
        refuse_plant(path, &args.plant)?;
        refuse_taken(path)?;
    }
    let mut said = Said::default();
    if let Some(out) = &args.out {
        said.add(source.folder(out)?);
    }
    if let Some(file) = &args.lines {
        said.add(source.lines(file)?);
    }
    if let Some(file) = &args.parquet {
        said.add(source.parquet(file)?);
    }
    Ok(said.answer())
}

/// What was done, and whether something was found.
#[derive(Default)]
struct Said {
    text: String,
    found: bool,
}

impl Said {
    fn line(&mut self, line: String) {
        self.text += &line;
        self.text.push('\n');
    }

    fn add(&mut self, other: Said) {
        self.text += &other.text;
        self.found |= other.found;
    }

    fn answer(self) -> Answer {
        if self.found { Answer::findings(self.text) } else { Answer::clean(self.text) }
    }
}

fn refuse_taken(path: &Path) -> Result<(), Failure> {
    match fs::symlink_metadata(path) {
        Err(_) => Ok(()),
        Ok(_) => Err(named("export-taken", path)),
    }
}

fn named(key: &'static str, path: &Path) -> Failure {
    Failure::new(Words::new(key, &[("path", path.display().to_string().into())]))
}

/// A plant whose records leave it.
struct Source<'a> {
    args: &'a Args,
    prepared: &'a Prepared<'a>,
    trust: &'a TrustList,
    language: Language,
}

impl Source<'_> {
    /// Names of all records, or the one that is asked for, in their order.
    fn jobs(&self) -> Result<Vec<String>, Failure> {
        let (mut jobs, _) = records::list(&self.args.plant)?;
        if let Some(job) = &self.args.job {
            jobs.retain(|name| name == job || (self.args.out.is_none() && job_of(name) == job));
            if jobs.is_empty() {
                return Err(Failure::new(Words::new("failure-no-record", &[("job", job.into())])));
            }
        }
        Ok(jobs)
    }

    fn read(&self, job: &str) -> Result<Recorded, Failure> {
        let raw = store::read(&records::folder(&self.args.plant, job)?)?;
        let report = audit_record(&Subject {
            job,
            raw: &raw,
            trust: self.trust,
            people: &self.prepared.people,
            domain: &self.prepared.plant.facts.body.domain,
            now: Some(clock::now()),
            current_packet: None,
        });
        Ok(Recorded { raw, report })
    }

    fn folder(&self, out: &Path) -> Result<Said, Failure> {
        let mut said = Said::default();
        for job in self.jobs()? {
            let recorded = self.read(&job)?;
            let files = self.parts(&recorded)?;
            write_folder(out, &files)?;
            let parts =
                [("count", files.len().into()), ("folder", out.display().to_string().into())];
            said.text += &report::render(&recorded.report, self.language);
            said.line(self.language.text("export-folder", &parts));
            said.found |= !recorded.report.is_clean();
        }
        Ok(said)
    }

    fn parts(&self, recorded: &Recorded) -> Result<Files, Failure> {
        let Recorded { raw, report } = recorded;
        let by = report.entries.iter().filter_map(|entry| Some(entry.says.as_ref()?.by.as_str()));
        let people = PeopleFile::of(&self.prepared.people, &by.collect(), self.lost());
        let signers = self.prepared.plant.allowed_signers.as_ref();
        let signers = signers.map_or("", |(_, text)| text);
        let pages = frozen(raw).map(|sheet| {
            [site::packet_page(&sheet), site::record_page(&sheet, recorded, folder::RECORD)]
        });
        let how_to = self.how_to(recorded, signers, &people)?;
        let log = self.log(recorded)?;
        Ok(Folder { record: raw, signers, people, log, how_to, pages }.files()?)
    }

    /// The newest checkpoint of the machine's log, and the way of each entry to its root.
    fn log(&self, recorded: &Recorded) -> Result<Option<(Vec<u8>, Proofs)>, Failure> {
        let Some(machine) = logs::machine_of(&recorded.raw).filter(|machine| is_id(machine)) else {
            return Ok(None);
        };
        let Some(log) = Log::open(&self.args.plant, &machine)? else { return Ok(None) };
        let Some(bytes) = log.checkpoint()? else { return Ok(None) };
        let Ok((checkpoint, _)) = Checkpoint::parse(&bytes) else { return Ok(None) };
        let leaves = checkpoint.leaves.min(log.leaves());
        let record = &recorded.report.job;
        let proofs = Proofs::of(record, leaves, log.lines()?, |place| log.hash(place))?;
        Ok(Some((bytes, proofs)))
    }

    fn lost(&self) -> Vec<Lost> {
        let revoked = self.prepared.plant.people.body.revoked.iter();
        revoked
            .map(|RevokedEntry { key, from, why }| Lost {
                from: from.clone(),
                key: key.clone(),
                why: why.clone(),
            })
            .collect()
    }

    /// How to read and check the folder, with the commands for its own last entry.
    fn how_to(
        &self,
        Recorded { raw, report }: &Recorded,
        signers: &str,
        people: &PeopleFile,
    ) -> Result<String, Failure> {
        let name = raw.entries.last().map_or("000001", |entry| &entry.name);
        let file = format!("{}/{name}.json", folder::RECORD);
        let signature = format!("{file}.sig");
        let says = report.entries.last().and_then(|entry| entry.says.as_ref());
        let verify = proof::verify_command(&Signature {
            file: &file,
            signature: &signature,
            principal: says.map_or("", |says| &says.by),
            namespace: &namespace(&self.prepared.plant.facts.body.domain),
            time: says.map_or("", |says| &says.at),
        });
        let parts = [
            ("job", (&report.job).into()),
            ("count", raw.entries.len().into()),
            ("program", PROGRAM.into()),
            ("digest", proof::digest_command(&file).into()),
            ("verify", verify.into()),
            ("chain", proof::chain_command(&file, &signature).into()),
            ("signers", sha256_hex(signers.as_bytes()).into()),
            ("people", sha256_hex(&line(people)?).into()),
            ("head", (&report.head).into()),
        ];
        Ok(self.language.text("export-how-to", &parts) + "\n")
    }

    fn lines(&self, path: &Path) -> Result<Said, Failure> {
        let (mut file, mut said, mut count) = (aside(path)?, Said::default(), 0_usize);
        for job in self.jobs()? {
            let raw = store::read(&records::folder(&self.args.plant, &job)?)?;
            for entry in raw.entries {
                if !table::is_line(&entry.json) {
                    let parts = [("job", (&job).into()), ("entry", (&entry.name).into())];
                    said.line(self.language.text("export-no-line", &parts));
                    said.found = true;
                    continue;
                }
                file.write_all(&entry.json).map_err(|e| Failure::at("failure-write", path, &e))?;
                count += 1;
            }
        }
        put(file, path)?;
        said.line(self.written(count, path));
        Ok(said)
    }

    fn parquet(&self, path: &Path) -> Result<Said, Failure> {
        let (mut said, mut count) = (Said::default(), 0_usize);
        let fail = |NotWritten(cause): NotWritten| {
            Failure::at("failure-write", path, &std::io::Error::other(cause))
        };
        let mut table = Table::new(aside(path)?, PROGRAM).map_err(fail)?;
        for job in self.jobs()? {
            let Recorded { raw, report } = self.read(&job)?;
            if !report.is_clean() {
                said.text += &report::render(&report, self.language);
                said.found = true;
            }
            for (entry, audited) in raw.entries.into_iter().zip(&report.entries) {
                table.add(Row::new(&job, entry, audited.sound)).map_err(fail)?;
                count += 1;
            }
        }
        put(table.end().map_err(fail)?, path)?;
        said.line(self.written(count, path));
        Ok(said)
    }

    fn written(&self, count: usize, path: &Path) -> String {
        let parts = [("count", count.into()), ("path", path.display().to_string().into())];
        self.language.text("export-entries", &parts)
    }
}

/// The packet that was signed; none when there is none that can be read.
fn frozen(raw: &RawRecord) -> Option<Sheet> {
    let (packet, digest) = site::signed(raw.packet.as_deref()?)?;
    let (state, checkpoint) = (String::new(), String::new());
    Some(Sheet { packet, digest, state, is_outdated: false, checkpoint })
}

/// A file in the folder of `path`, to be moved there when it is whole.
fn aside(path: &Path) -> Result<NamedTempFile, Failure> {
    let folder = durable::folder_of(path);
    tempfile::Builder::new()
        .prefix(".witnessmark-")
        .permissions(Permissions::from_mode(0o644))
        .tempfile_in(folder)
        .map_err(|e| Failure::at("failure-write", path, &e))
}

/// Syncs a file and gives it its name, which must not be taken.
fn put(file: NamedTempFile, path: &Path) -> Result<(), Failure> {
    file.as_file().sync_all().map_err(|e| Failure::at("failure-write", path, &e))?;
    file.persist_noclobber(path)
        .map_err(|e| Failure::at("failure-cannot-create", path, &e.error))?;
    Ok(durable::sync_folder(durable::folder_of(path))?)
}

/// Writes a folder aside and moves it in whole.
fn write_folder(out: &Path, files: &Files) -> Result<(), Failure> {
    let parent = durable::folder_of(out);
    let aside = tempfile::Builder::new()
        .prefix(".witnessmark-")
        .tempdir_in(parent)
        .map_err(|e| Failure::at("failure-make-a-folder-in", parent, &e))?;
    let fresh = aside.path().join("export");
    let own = fresh.join(folder::RECORD);
    fs::create_dir_all(&own).map_err(|e| Failure::at("failure-make-the-folder", &own, &e))?;
    for (name, bytes) in files {
        let path = fresh.join(name);
        let written = File::create_new(&path).and_then(|mut file| {
            file.write_all(bytes)?;
            file.sync_all()
        });
        written.map_err(|e| Failure::at("failure-write", &path, &e))?;
    }
    durable::sync_folder(&own)?;
    durable::sync_folder(&fresh)?;
    renameat_with(CWD, &fresh, CWD, out, RenameFlags::NOREPLACE)
        .map_err(|e| Failure::at("failure-cannot-create", out, &e.into()))?;
    Ok(durable::sync_folder(parent)?)
}
