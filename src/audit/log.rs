//! Checks of a machine's log: against its records, its checkpoint, and what somebody kept elsewhere.
//!
//! Leaves come one by one and are forgotten: an audit needs memory for the records, not for the
//! entries. With only a kept checkpoint to prove, [`holds`] reads as many hashes as the tree is high.
//! Must never stop at the first finding, or read a clock or a file.

mod times;

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::checks::{error, finding};
use super::{AuditFinding, Severity, ToldFinding, report};
use crate::audit::log::times::Anchor;
use crate::canonical::hex;
use crate::language::{Language, Part, Words};
use crate::log::checkpoint::{Checkpoint, Kept, NotSigned, short};
use crate::log::line::Line;
use crate::log::tree::{Growing, Hash, kept_hashes, prove_growth, proves_growth, root};
use crate::record::rules;
use crate::record::time;
use crate::record::trust::TrustList;

/// How many findings of single leaves are told; a log that was exchanged differs in all of them.
const MOST_FINDINGS: usize = 50;

/// A log with all that is needed to judge it.
#[derive(Debug)]
pub struct LogSubject<'a> {
    /// The machine.
    pub machine: &'a str,
    /// The plant's domain.
    pub domain: &'a str,
    /// Whose key is whose.
    pub trust: &'a TrustList,
    /// The time of the audit.
    pub now: Option<DateTime<FixedOffset>>,
    /// How many leaves the list of hashes is for; none when there is no log.
    pub leaves: Option<u64>,
    /// Bytes of the newest checkpoint.
    pub checkpoint: Option<Vec<u8>>,
    /// What lies beside the log.
    pub strays: Vec<String>,
    /// Records of this machine, with how many entries each has.
    pub records: BTreeMap<String, u64>,
    /// Leaves that a writer who was stopped was about to add; the next one does.
    pub pending: Vec<Line>,
    /// What was kept elsewhere of this machine's log.
    pub kept: Vec<KeptHead>,
}

/// A checkpoint that was kept elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptHead {
    /// What was kept.
    pub kept: Kept,
    /// The first leaf that differs from the list of leaves that was kept with it; none without one.
    pub first: Option<(u64, Line)>,
}

/// All that an audit has to say about a log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogReport {
    /// The machine.
    pub machine: String,
    /// How many leaves it has.
    pub leaves: u64,
    /// The newest checkpoint, when it can be read.
    pub newest: Option<Newest>,
    /// What was found.
    pub findings: Vec<AuditFinding>,
}

/// A checkpoint in short.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Newest {
    /// How many leaves it is of.
    pub leaves: u64,
    /// Its root, in hex.
    pub root: String,
    /// Its short form.
    pub short: String,
    /// When it was signed.
    pub at: String,
    /// Who signed it; none when nobody of the list stands behind it.
    pub by: Option<String>,
}

/// A report in a language, for programs.
#[derive(Debug, Serialize)]
pub struct ToldLog<'r> {
    log: &'r str,
    leaves: u64,
    checkpoint: Option<&'r Newest>,
    findings: Vec<ToldFinding>,
}

impl LogReport {
    /// Whether nothing but notes was found.
    pub fn is_clean(&self) -> bool {
        self.findings.iter().all(|finding| finding.severity == Severity::Note)
    }

    /// The report in a language, for programs.
    pub fn told(&self, language: Language) -> ToldLog<'_> {
        ToldLog {
            log: &self.machine,
            leaves: self.leaves,
            checkpoint: self.newest.as_ref(),
            findings: self.findings.iter().map(|finding| finding.told(language)).collect(),
        }
    }

    /// The report as plain text, one line feed after each line.
    pub fn render(&self, language: Language) -> String {
        let of = |s: Severity| self.findings.iter().filter(|f| f.severity == s).count();
        let machine = ("machine", (&self.machine).into());
        let leaves = usize::try_from(self.leaves).unwrap_or(usize::MAX);
        let mut lines =
            vec![language.text("log-head", &[machine.clone(), ("count", leaves.into())])];
        lines.extend(report::finding_lines(&self.findings, language));
        let counts = [
            machine,
            ("errors", of(Severity::Error).into()),
            ("warnings", of(Severity::Warning).into()),
        ];
        let tail = language.text("log-tail", &counts);
        lines.push(match &self.newest {
            Some(newest) => {
                let parts = [("tail", tail.into()), ("short", (&newest.short).into())];
                language.text("log-tail-keep", &parts)
            }
            None => tail,
        });
        lines.into_iter().map(|line| line + "\n").collect()
    }
}

/// What a kept checkpoint says of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Nothing before it has changed.
    Holds,
    /// The log has fewer leaves.
    Longer,
    /// The log is another one.
    Differs,
}

/// Proves that a log grew from what was kept of it.
///
/// # Errors
/// Those of `read`.
pub fn holds<E>(
    kept: &Kept,
    leaves: u64,
    mut read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Held, E> {
    if kept.leaves > leaves {
        return Ok(Held::Longer);
    }
    let old = root(kept.leaves, &mut read)?;
    let now = root(leaves, &mut read)?;
    let proof = prove_growth(kept.leaves, leaves, read)?;
    let grew = proves_growth(kept.leaves, &old, leaves, &now, &proof);
    Ok(if grew && kept.fits(&old) { Held::Holds } else { Held::Differs })
}

/// What the files of a log are asked for, one at a time.
pub struct Sources<'s, E> {
    /// The hash with a number.
    pub hash: &'s mut dyn FnMut(u64) -> Result<Hash, E>,
    /// An entry as it lies in its record today.
    pub on_record: &'s mut dyn FnMut(&Line) -> Result<Option<OnRecord>, E>,
}

/// What an audit of a log has to know of an entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnRecord {
    /// Its hash as a leaf.
    pub hash: Hash,
    /// When it says that it was signed.
    pub at: Option<DateTime<FixedOffset>>,
}

/// Judges a log.
///
/// # Errors
/// Those of its sources.
pub fn audit_log<E>(
    subject: LogSubject,
    lines: impl Iterator<Item = Result<Option<Line>, E>>,
    mut sources: Sources<E>,
) -> Result<LogReport, E> {
    let mut walk = Walk::new(&subject);
    for line in lines {
        match line? {
            Some(line) => walk.take(&line, &mut sources)?,
            None => {
                let leaf = walk.growing.leaves() + 1;
                walk.add(error(Words::new("log-line", &[("leaf", leaf.to_string().into())])));
                break;
            }
        }
    }
    Ok(walk.finish())
}

/// The proof of what was kept alone: no leaf is looked at.
///
/// # Errors
/// Those of `read`.
pub fn prove_kept<E>(
    subject: &LogSubject,
    mut read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<LogReport, E> {
    let leaves = subject.leaves.unwrap_or(0);
    let mut findings = Vec::new();
    for head in &subject.kept {
        let held = holds(&head.kept, leaves, &mut read)?;
        findings.push(of_kept(head, held, leaves, 0));
    }
    findings.extend(contradictions(&subject.kept));
    let machine = subject.machine.to_owned();
    Ok(LogReport { machine, leaves, newest: None, findings })
}

/// One walk over all leaves.
struct Walk<'a> {
    subject: &'a LogSubject<'a>,
    checkpoint: Option<Checkpoint>,
    growing: Growing,
    /// How many leaves of each record came.
    seen: BTreeMap<String, u64>,
    /// Roots at the lengths of what was signed or kept.
    roots: BTreeMap<u64, Option<Hash>>,
    /// Checkpoints whose time bounds those of the entries around them.
    anchors: Vec<Anchor>,
    hashes_differ: bool,
    told: usize,
    findings: Vec<AuditFinding>,
    newest: Option<Newest>,
}

impl<'a> Walk<'a> {
    fn new(subject: &'a LogSubject<'a>) -> Self {
        let mut walk = Walk {
            subject,
            checkpoint: None,
            growing: Growing::default(),
            seen: BTreeMap::new(),
            roots: BTreeMap::new(),
            anchors: Vec::new(),
            hashes_differ: false,
            told: 0,
            findings: Vec::new(),
            newest: None,
        };
        walk.read_checkpoint();
        let signed = walk.checkpoint.iter().map(|checkpoint| checkpoint.leaves);
        let kept = subject.kept.iter().map(|head| head.kept.leaves);
        walk.roots = signed.chain(kept).map(|leaves| (leaves, None)).collect();
        walk.anchors = walk.anchors();
        walk.keep_root();
        walk
    }

    /// The plant's own checkpoint, where somebody stands behind it, and those that were kept.
    fn anchors(&self) -> Vec<Anchor> {
        let is_signed = self.newest.as_ref().is_some_and(|newest| newest.by.is_some());
        let own = self.checkpoint.as_ref().filter(|_| is_signed);
        let own = own.and_then(|own| Kept::of(own, self.subject.domain));
        let own = own.and_then(|own| Anchor::new(own, Severity::Note));
        let kept = self.subject.kept.iter().map(|head| head.kept.clone());
        own.into_iter().chain(kept.filter_map(|k| Anchor::new(k, Severity::Warning))).collect()
    }

    fn add(&mut self, finding: AuditFinding) {
        self.findings.push(finding);
    }

    fn keep_root(&mut self) {
        if let Some(root) = self.roots.get_mut(&self.growing.leaves()) {
            *root = Some(self.growing.root());
        }
    }

    fn take<E>(&mut self, line: &Line, sources: &mut Sources<E>) -> Result<(), E> {
        let first = kept_hashes(self.growing.leaves());
        let grown = self.growing.push(line.hash);
        let leaf = self.growing.leaves();
        self.keep_root();
        if !self.hashes_differ && self.subject.leaves.is_some_and(|leaves| leaf <= leaves) {
            for (place, hash) in (first..).zip(grown) {
                self.hashes_differ |= (sources.hash)(place)? != hash;
            }
            if self.hashes_differ {
                self.add(error(Words::new("log-hash", &[("leaf", leaf.to_string().into())])));
            }
        }
        let seen = self.seen.entry(line.record.clone()).or_default();
        let follows = *seen + 1 == line.entry;
        *seen = (*seen).max(line.entry);
        if !follows {
            self.of_leaf("log-order", line);
        }
        let on_record = (sources.on_record)(line)?;
        match on_record {
            None => self.of_leaf("log-entry-gone", line),
            Some(own) if own.hash != line.hash => self.of_leaf("log-entry-changed", line),
            Some(OnRecord { at: None, .. }) => {}
            Some(OnRecord { at: Some(at), .. }) => {
                self.anchors.iter_mut().for_each(|anchor| anchor.take(leaf, line, at));
            }
        }
        Ok(())
    }

    fn of_leaf(&mut self, key: &'static str, line: &Line) {
        self.told += 1;
        if self.told <= MOST_FINDINGS {
            let words = Words::new(key, &leaf_parts(self.growing.leaves(), line));
            self.add(error(words));
        }
    }

    fn finish(mut self) -> LogReport {
        let leaves = self.growing.leaves();
        match self.subject.leaves {
            None => {
                let words = Words::of("log-none");
                self.add(finding(Severity::Note, words));
            }
            Some(hashes) => {
                if hashes != leaves {
                    let lengths = (leaves.to_string(), hashes.to_string());
                    self.add(error(Words::of("log-lengths")).with(lengths.0, lengths.1));
                }
                self.lacking();
                self.judge_checkpoint();
            }
        }
        self.judge_kept();
        self.judge_times();
        for file in &self.subject.strays {
            let words = Words::new("log-aside", &[("file", file.into())]);
            self.add(finding(Severity::Note, words));
        }
        let machine = self.subject.machine.to_owned();
        LogReport { machine, leaves, newest: self.newest, findings: self.findings }
    }

    /// Entries on record that no leaf stands for.
    fn lacking(&mut self) {
        for (record, entries) in &self.subject.records {
            let seen = self.seen.get(record).copied().unwrap_or(0);
            if *entries > seen {
                let count = usize::try_from(entries - seen).unwrap_or(usize::MAX);
                let parts = [
                    ("record", record.into()),
                    ("count", count.into()),
                    ("first", (seen + 1).to_string().into()),
                ];
                let is_pending = |line: &&Line| {
                    line.record == *record && (seen + 1..=*entries).contains(&line.entry)
                };
                match self.subject.pending.iter().filter(is_pending).count() {
                    pending if pending == count => {
                        self.add(finding(Severity::Note, Words::new("log-pending", &parts)));
                    }
                    _ => self.add(error(Words::new("log-lacks", &parts))),
                }
            }
        }
    }

    /// Who signed the newest checkpoint, and whether it is one.
    fn read_checkpoint(&mut self) {
        let subject = self.subject;
        let Some(bytes) = subject.checkpoint.as_deref() else { return };
        let (checkpoint, note) = match Checkpoint::parse(bytes) {
            Ok(read) => read,
            Err(fault) => {
                let parts = [("fault", fault.words().into())];
                return self.add(error(Words::new("log-checkpoint-form", &parts)));
            }
        };
        if checkpoint.machine(subject.domain) != Some(subject.machine) {
            let expected = format!("{}/{}", subject.domain, subject.machine);
            let other = error(Words::of("log-checkpoint-other"));
            self.add(other.with(expected, checkpoint.origin.as_str()));
        }
        let signer = checkpoint.signer(&note, subject.trust, subject.domain);
        if let Err(fault) = &signer {
            let parts = [("fault", fault.words().into())];
            let bad = error(Words::new("log-checkpoint-signature", &parts));
            self.add(match fault {
                NotSigned::Refused(refusal) => AuditFinding {
                    code: refusal.code,
                    ..bad.with(refusal.expected.clone(), refusal.found.clone())
                },
                _ => bad,
            });
        }
        if let Some((now, at)) =
            subject.now.zip(checkpoint.signed_at()).filter(|(now, at)| at > now)
        {
            let future = error(Words::of("log-checkpoint-future"));
            self.add(future.with(rules::or_earlier(time::write(now)), time::write(at)));
        }
        self.newest = Some(Newest {
            leaves: checkpoint.leaves,
            root: hex(&checkpoint.root),
            short: short(subject.machine, checkpoint.leaves, &checkpoint.root),
            at: checkpoint.at.clone().unwrap_or_default(),
            by: signer.ok().map(str::to_owned),
        });
        self.checkpoint = Some(checkpoint);
    }

    fn judge_checkpoint(&mut self) {
        let leaves = self.growing.leaves();
        let Some(checkpoint) = self.checkpoint.take() else {
            if leaves > 0 && self.subject.checkpoint.is_none() {
                self.add(finding(Severity::Note, Words::of("log-unsigned")));
            }
            return;
        };
        match self.roots.get(&checkpoint.leaves).copied().flatten() {
            None => {
                let longer = error(Words::of("log-checkpoint-longer"));
                self.add(longer.with(checkpoint.leaves.to_string(), leaves.to_string()));
            }
            Some(root) if root != checkpoint.root => {
                let differs = error(Words::of("log-checkpoint-root"));
                self.add(differs.with(hex(&checkpoint.root), hex(&root)));
            }
            Some(_) if checkpoint.leaves < leaves => {
                let count = usize::try_from(leaves - checkpoint.leaves).unwrap_or(usize::MAX);
                let words = Words::new("log-after", &[("count", count.into())]);
                self.add(finding(Severity::Note, words));
            }
            Some(_) => {}
        }
        let signers = checkpoint.signers.as_deref();
        if signers.is_some_and(|signers| signers != self.subject.trust.digest()) {
            self.add(finding(Severity::Note, Words::of("log-signers-changed")));
        }
    }

    /// Each kept checkpoint, the shortest first: what agrees bounds where what does not begins.
    fn judge_kept(&mut self) {
        let mut heads: Vec<&KeptHead> = self.subject.kept.iter().collect();
        heads.sort_by_key(|head| head.kept.leaves);
        let (leaves, mut agreed) = (self.growing.leaves(), BTreeSet::from([0]));
        for head in heads {
            let held = match self.roots.get(&head.kept.leaves).copied().flatten() {
                None => Held::Longer,
                Some(root) if head.kept.fits(&root) => Held::Holds,
                Some(_) => Held::Differs,
            };
            let before = agreed.range(..head.kept.leaves).next_back().copied().unwrap_or(0);
            if held == Held::Holds {
                agreed.insert(head.kept.leaves);
            }
            self.add(of_kept(head, held, leaves, before));
        }
        contradictions(&self.subject.kept).for_each(|finding| self.add(finding));
    }

    /// What the times of entries say against the checkpoints that are of this log.
    fn judge_times(&mut self) {
        for anchor in std::mem::take(&mut self.anchors) {
            let root = self.roots.get(&anchor.kept.leaves).copied().flatten();
            if root.is_some_and(|root| anchor.kept.fits(&root)) {
                anchor.findings().for_each(|finding| self.add(finding));
            }
        }
    }
}

/// Kept checkpoints of one length that name different roots: not even a log that grew explains them.
fn contradictions(kept: &[KeptHead]) -> impl Iterator<Item = AuditFinding> {
    let pairs = kept.iter().enumerate().flat_map(move |(index, one)| {
        kept.iter().skip(index + 1).map(move |other| (&one.kept, &other.kept))
    });
    pairs.filter(|(one, other)| one.contradicts(other)).map(|(one, other)| {
        let parts = [("leaves", one.leaves.to_string().into())];
        error(Words::new("log-kept-contradicts", &parts)).with(one.digits(), other.digits())
    })
}

fn leaf_parts(leaf: u64, line: &Line) -> [(&'static str, Part<'static>); 3] {
    [
        ("leaf", leaf.to_string().into()),
        ("entry", line.entry.to_string().into()),
        ("record", line.record.clone().into()),
    ]
}

/// What is said of a kept checkpoint; up to `agreed` leaves another one agrees.
fn of_kept(head: &KeptHead, held: Held, leaves: u64, agreed: u64) -> AuditFinding {
    let own = || ("leaves", Part::from(head.kept.leaves.to_string()));
    match (held, &head.first) {
        (Held::Holds, _) => finding(Severity::Note, Words::new("log-kept-holds", &[own()])),
        (Held::Longer, None) => error(Words::of("log-kept-longer"))
            .with(head.kept.leaves.to_string(), leaves.to_string()),
        (_, Some((leaf, line))) => {
            let [leaf, entry, record] = leaf_parts(*leaf, line);
            error(Words::new("log-kept-differs-at", &[own(), leaf, entry, record]))
        }
        (Held::Differs, None) => {
            let parts = [own(), ("from", (agreed + 1).to_string().into())];
            error(Words::new("log-kept-differs", &parts))
        }
    }
}

#[cfg(test)]
mod tests;
