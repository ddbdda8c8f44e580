//! An exported folder read back: what `audit` goes by when it is given one instead of a plant.
//!
//! Must never trust anything in it but its bytes: what is not in the record itself is only as good as
//! whoever handed the folder over, so its digests are said.
#![allow(clippy::disallowed_methods, reason = "exported folders are read at this edge")]

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};

use super::logs;
use crate::audit::{AuditFinding, Report, Severity, Subject, audit_record};
use crate::canonical::{hex, sha256_hex};
use crate::export::folder::{self, read_sums};
use crate::export::people::PeopleFile;
use crate::export::proofs::Proofs;
use crate::failure::Failure;
use crate::language::Words;
use crate::log::checkpoint::{Checkpoint, Kept, short};
use crate::packet::Packet;
use crate::record::entry::shown;
use crate::record::store::{self, RawRecord};
use crate::record::trust::TrustList;

/// Most bytes of one file.
const MOST: u64 = 64 << 20;
/// Most exported folders in one.
const MOST_FOLDERS: usize = 100_000;

/// A record that was judged by its folder alone.
pub(super) struct Judged {
    /// What was found.
    pub report: Report,
    /// What it was judged by, in words.
    pub by: Vec<Words>,
    /// The domain that its packet names.
    pub domain: String,
}

/// The exported folders that a path names: itself, or those in it; none for a plant.
pub(super) fn find(path: &Path) -> Result<Vec<PathBuf>, Failure> {
    if path.join("plant.yaml").exists() {
        return Ok(Vec::new());
    }
    if is_export(path) {
        return Ok(vec![path.to_owned()]);
    }
    let mut found = Vec::new();
    for item in fs::read_dir(path).into_iter().flatten().take(MOST_FOLDERS) {
        let item = item.map_err(|e| Failure::at("failure-list", path, &e))?;
        found.extend(Some(item.path()).filter(|path| is_export(path)));
    }
    found.sort();
    Ok(found)
}

fn is_export(path: &Path) -> bool {
    let is = |path: &Path, of: fn(&fs::Metadata) -> bool| {
        fs::symlink_metadata(path).is_ok_and(|meta| of(&meta))
    };
    is(path, fs::Metadata::is_dir) && is(&path.join(folder::RECORD), fs::Metadata::is_dir)
}

/// What was kept elsewhere, each of a machine of which one of the folders has a record.
pub(super) fn kept(folders: &[PathBuf], typed: &[String]) -> Result<Vec<Kept>, Failure> {
    if typed.is_empty() {
        return Ok(Vec::new());
    }
    let packets =
        folders.iter().map(|path| Ok(packet_of(&store::read(&path.join(folder::RECORD))?)));
    let packets: Vec<Packet> =
        packets.collect::<Result<Vec<_>, Failure>>()?.into_iter().flatten().collect();
    let domain = packets.first().map_or("", |packet| &packet.plant.domain);
    let kept = typed.iter().map(|typed| Ok(logs::typed_or_read(typed, domain)?.0));
    let kept: Vec<Kept> = kept.collect::<Result<_, Failure>>()?;
    let is_here = |kept: &Kept| packets.iter().any(|own| is_of(kept, &own.machine.id));
    match kept.iter().find(|kept| !is_here(kept)) {
        Some(other) => Err(logs::no_machine(&other.machine)),
        None => Ok(kept),
    }
}

/// Capitals do not matter on paper.
fn is_of(kept: &Kept, machine: &str) -> bool {
    kept.machine.eq_ignore_ascii_case(machine)
}

/// Judges the record of an exported folder, and by what was kept of the log of its machine.
pub(super) fn judge(
    path: &Path,
    now: DateTime<FixedOffset>,
    kept: &[Kept],
) -> Result<Judged, Failure> {
    let raw = store::read(&path.join(folder::RECORD))?;
    let mut findings = Vec::new();
    let [signers, people] = [folder::SIGNERS, folder::PEOPLE].map(|name| bytes(path, name));
    let (mut trust, faults) = TrustList::parse(signers.as_deref().unwrap_or_default());
    findings.extend(faults.into_iter().map(|error| {
        let line = format!("{}:{}", folder::SIGNERS, error.line);
        finding(error.fault.code(), error.fault.words()).found(line)
    }));
    let file = PeopleFile::read(people.as_deref().unwrap_or_default());
    let file = file.unwrap_or_else(|error| {
        let words = Words::new("export-people-unreadable", &[("said", error.to_string().into())]);
        findings.push(finding("people-unreadable", words).found(folder::PEOPLE));
        PeopleFile::default()
    });
    file.revoke(&mut trust);
    findings.extend(changed(path));
    let (job, domain) = named(&raw);
    let mut report = audit_record(&Subject {
        job: &job,
        raw: &raw,
        trust: &trust,
        people: &file.people(),
        domain: &domain,
        now: Some(now),
        current_packet: None,
    });
    let (log, under) = of_log(path, &raw, &trust, kept);
    report.findings.splice(0..0, findings.into_iter().chain(log));
    let parts = [
        ("folder", path.display().to_string().into()),
        ("signers", sha256_hex(signers.as_deref().unwrap_or_default()).into()),
        ("people", sha256_hex(people.as_deref().unwrap_or_default()).into()),
    ];
    let by = vec![Words::new("export-judged-by", &parts)];
    Ok(Judged { report, by: by.into_iter().chain(under).collect(), domain })
}

/// What is wrong with the checkpoint and the ways to it, and what they show.
fn of_log(
    path: &Path,
    raw: &RawRecord,
    trust: &TrustList,
    kept: &[Kept],
) -> (Vec<AuditFinding>, Option<Words>) {
    let packet = packet_of(raw);
    let domain = packet.as_ref().map_or("", |packet| &packet.plant.domain);
    let machine = packet.as_ref().map_or("", |packet| &packet.machine.id);
    let kept = || kept.iter().filter(|kept| is_of(kept, machine));
    let Some(note) = bytes(path, folder::CHECKPOINT) else {
        return (kept().map(|kept| no_way(kept, 0)).collect(), None);
    };
    let about =
        |key, fault: Words| finding("log-checkpoint", Words::new(key, &[("fault", fault.into())]));
    let (checkpoint, note) = match Checkpoint::parse(&note) {
        Ok(read) => read,
        Err(fault) => return (vec![about("log-checkpoint-form", fault.words())], None),
    };
    let mut found: Vec<AuditFinding> = kept().map(|kept| against(kept, &checkpoint)).collect();
    if checkpoint.machine(domain) != Some(machine) {
        let other = finding("log-checkpoint", Words::of("log-checkpoint-other"));
        found.push(other.found(checkpoint.origin.as_str()));
    }
    if let Err(fault) = checkpoint.signer(&note, trust, domain) {
        found.push(about("log-checkpoint-signature", fault.words()));
    }
    let proofs = match Proofs::read(&bytes(path, folder::LOG).unwrap_or_default()) {
        Ok(proofs) => proofs,
        Err(error) => {
            let words = Words::new("export-log-unreadable", &[("said", error.to_string().into())]);
            found.push(finding("log-proof", words));
            return (found, None);
        }
    };
    for name in proofs.wrong(&checkpoint, raw) {
        let words = Words::new("export-log-entry", &[("entry", shown(name).into())]);
        found.push(finding("log-proof", words));
    }
    let parts = [
        ("count", proofs.entries.len().into()),
        ("all", raw.entries.len().to_string().into()),
        ("short", short(machine, checkpoint.leaves, &checkpoint.root).into()),
    ];
    (found, Some(Words::new("export-under", &parts)))
}

/// What a kept checkpoint says of the one in the folder, to which the ways of the entries lead.
fn against(kept: &Kept, own: &Checkpoint) -> AuditFinding {
    let parts = [("leaves", own.leaves.to_string().into())];
    if kept.leaves != own.leaves {
        return no_way(kept, own.leaves);
    }
    match kept.fits(&own.root) {
        true => AuditFinding {
            severity: Severity::Note,
            ..finding("log-kept-holds", Words::new("export-kept-holds", &parts))
        },
        false => finding("log-kept-differs", Words::new("export-kept-differs", &parts))
            .found(hex(&own.root)),
    }
}

/// That a folder leads to another checkpoint than the one that was kept, and proves nothing of it.
fn no_way(kept: &Kept, own: u64) -> AuditFinding {
    let parts = [("leaves", kept.leaves.to_string().into()), ("own", own.to_string().into())];
    AuditFinding {
        severity: Severity::Warning,
        ..finding("log-kept-elsewhere", Words::new("export-kept-elsewhere", &parts))
    }
}

/// The job and the domain that the packet names; nothing else in the folder says which it should be.
fn named(raw: &RawRecord) -> (String, String) {
    packet_of(raw).map_or_else(Default::default, |packet| (packet.job.id, packet.plant.domain))
}

fn packet_of(raw: &RawRecord) -> Option<Packet> {
    serde_json::from_slice(raw.packet.as_deref()?).ok()
}

fn finding(code: &'static str, words: Words) -> AuditFinding {
    let nothing = || Words::foreign("");
    let (expected, found) = (nothing(), nothing());
    let severity = Severity::Error;
    AuditFinding { code, severity, entry: None, expected, found, words, way_out: None }
}

impl AuditFinding {
    fn found(self, found: impl Into<Words>) -> AuditFinding {
        AuditFinding { found: found.into(), ..self }
    }
}

/// A plain file of the folder; none when it is not there, a link, or too long.
fn bytes(path: &Path, name: &str) -> Option<Vec<u8>> {
    let path = path.join(name);
    let meta = fs::symlink_metadata(&path).ok()?;
    if !meta.is_file() || meta.len() > MOST {
        return None;
    }
    let mut bytes = Vec::new();
    File::open(path).and_then(|file| file.take(MOST).read_to_end(&mut bytes)).ok()?;
    Some(bytes)
}

/// Files that are not those whose digests were written down when the folder was made.
///
/// Shows what happened on the way; whoever tampers writes new digests.
fn changed(path: &Path) -> Vec<AuditFinding> {
    let text = bytes(path, folder::SUMS).and_then(|bytes| String::from_utf8(bytes).ok());
    let Some(text) = text else {
        return vec![finding("sums-missing", Words::of("export-sums-missing"))];
    };
    let (sums, others) = read_sums(&text);
    let odd = others.iter().map(|line| {
        finding("sums-form", Words::of("export-sums-form"))
            .found(shown(&line.chars().take(200).collect::<String>()))
    });
    let names: BTreeMap<String, Option<&str>> = listed(path)
        .into_iter()
        .map(|name| (name, None))
        .chain(sums.iter().map(|(name, digest)| ((*name).to_owned(), Some(*digest))))
        .collect();
    let differs = names.iter().filter_map(|(name, digest)| {
        let own = bytes(path, name).map(|bytes| sha256_hex(&bytes));
        let words = |key| Words::new(key, &[("file", shown(name).into())]);
        match (digest, own) {
            (None, _) => Some(finding("stray-file", words("audit-stray-file"))),
            (Some(_), None) => Some(finding("file-missing", words("export-file-missing"))),
            (Some(digest), Some(own)) if own != **digest => {
                let expected = (*digest).into();
                let changed = finding("file-changed", words("export-file-changed")).found(own);
                Some(AuditFinding { expected, ..changed })
            }
            (Some(_), Some(_)) => None,
        }
    });
    odd.chain(differs).collect()
}

/// Names in the folder itself; the record's own are judged with the record.
fn listed(path: &Path) -> Vec<String> {
    let listing = fs::read_dir(path).into_iter().flatten().flatten();
    let names = listing.map(|item| item.file_name().to_string_lossy().into_owned());
    names.filter(|name| name != folder::RECORD && name != folder::SUMS).collect()
}
