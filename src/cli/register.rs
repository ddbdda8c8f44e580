//! What `approve` and `inspected` share: who signs, what speaks against it, what is added.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::desk;
use super::key::{self, Wanted};
use super::signoff::{needed, refused};
use super::{Answer, clock, json};
use crate::canonical;
use crate::failure::Failure;
use crate::finding::Findings;
use crate::language::{Language, Words};
use crate::packet::{self, Prepared};
use crate::page::words::short_digest;
use crate::record::compose::not_writable;
use crate::record::entry::{EntryFault, MOST_BYTES};
use crate::record::rules::{Refusal, check_signer};
use crate::record::store::{self, Locked, RawRecord};
use crate::record::{SigningKey, TrustList};
use crate::register::draft::{Desk, seal};
use crate::register::entry::faults;
use crate::register::{self, Entry, Judged, Register, rules};

/// Who signs, with which key.
#[derive(Debug, clap::Args)]
pub(super) struct Signer {
    /// Your identifier in people.yaml
    #[arg(long, value_name = "PERSON")]
    pub by: Option<String>,
    /// Your OpenSSH private key (Ed25519); without it your key in ssh-agent signs
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
    /// A remark for every entry made now
    #[arg(long, value_name = "TEXT")]
    pub note: Option<String>,
    /// Print the answer as JSON
    #[arg(long)]
    pub json: bool,
}

impl Signer {
    /// Whether nobody is named who signs: then the command only says how things stand.
    pub(super) fn only_asks(&self) -> bool {
        self.by.is_none() && self.key.is_none()
    }
}

/// A register that somebody signs in.
pub(super) struct Book<'a> {
    pub signer: &'a Signer,
    pub language: Language,
    pub prepared: &'a Prepared<'a>,
    pub trust: &'a TrustList,
    pub plant: &'a Path,
}

/// Opens the register of a plant for what a command does with it.
pub(super) fn open(
    plant: &Path,
    signer: &Signer,
    language: Language,
    go_on: impl FnOnce(&Book) -> Result<Answer, Failure>,
) -> Result<Answer, Failure> {
    let desk = desk::Desk::open(plant, language)?;
    let own = match desk.plant(signer.json) {
        Ok(own) => own,
        Err(answer) => return Ok(*answer),
    };
    // What is wrong with the texts is the question of `check`.
    let prepared = packet::prepare(&mut Findings::default(), own);
    let trust = desk::trust(&mut Findings::default(), own);
    go_on(&Book { signer, language, prepared: &prepared, trust: &trust, plant })
}

/// What was added, for programs.
#[derive(Serialize)]
struct Added<'a> {
    entries: &'a [Entry],
}

impl Book<'_> {
    /// Signs what `make` makes of the register as it stands: all of it or nothing.
    pub(super) fn sign(
        &self,
        make: impl Fn(&Register, &Desk) -> Result<Vec<Entry>, Vec<Refusal>>,
    ) -> Result<Answer, Failure> {
        let by = needed(self.signer.by.as_deref(), "--by PERSON", "signoff-who")?;
        // What is refused leaves nothing behind, and asks for no passphrase.
        let raw = &self.prepared.plant.register;
        if let Err(refusals) = self.drafted(&self.prepared.register, raw, clock::now(), &make) {
            return refused(&refusals, self.language, self.signer.json);
        }
        let namespace = register::namespace(self.domain());
        let wanted = Wanted { by, trust: self.trust, namespace: &namespace, at: clock::now() };
        let key = key::open(self.signer.key.as_deref(), &wanted, self.language)?;
        let public = key.public();
        let is_listed =
            check_signer(self.trust, by, public.as_bytes(), &namespace, Some(clock::now()));
        if let Some(refusal) = is_listed {
            return refused(&[refusal], self.language, self.signer.json);
        }
        let folder = self.plant.join(register::FOLDER);
        store::make_folder(&folder)?;
        let mut locked = Locked::open(&folder, by)?;
        // The time is taken once the lock is held, so that it never runs backwards.
        let now = clock::now();
        let house = packet::house(self.prepared.plant, &self.prepared.people);
        let judged = register::judge(locked.record(), self.trust, &house, self.domain());
        match self.drafted(&judged, locked.record(), now, &make) {
            Ok(entries) => self.add(&mut locked, entries, &key),
            Err(refusals) => refused(&refusals, self.language, self.signer.json),
        }
    }

    fn domain(&self) -> &str {
        &self.prepared.plant.facts.body.domain
    }

    /// The next entries, or everything that speaks against any of them.
    fn drafted(
        &self,
        judged: &Judged,
        raw: &RawRecord,
        at: DateTime<FixedOffset>,
        make: impl Fn(&Register, &Desk) -> Result<Vec<Entry>, Vec<Refusal>>,
    ) -> Result<Vec<Entry>, Vec<Refusal>> {
        let house = packet::house(self.prepared.plant, &self.prepared.people);
        let (seq, prev) = raw.next();
        let by = self.signer.by.as_deref().unwrap_or_default();
        let desk = Desk { house: &house, by, at, seq, prev: &prev };
        let mut register = judged.register.clone();
        let mut entries = make(&register, &desk)?;
        let mut refusals = Vec::new();
        for (entry, seq) in entries.iter_mut().zip(seq..) {
            entry.seq = seq;
            refusals.extend(rules::check(&register, &house, entry));
            refusals.extend(faults(entry).iter().map(not_writable));
            if canonical::line(entry).is_ok_and(|bytes| bytes.len() > MOST_BYTES) {
                refusals.push(not_writable(&EntryFault::TooLong));
            }
            register.take(entry.clone(), String::new());
        }
        if refusals.is_empty() { Ok(entries) } else { Err(refusals) }
    }

    fn add(
        &self,
        locked: &mut Locked,
        entries: Vec<Entry>,
        key: &SigningKey,
    ) -> Result<Answer, Failure> {
        let mut added = Vec::new();
        for entry in entries {
            let (seq, prev) = locked.record().next();
            let sealed = seal(Entry { prev, ..entry }, key, self.domain()).map_err(|fault| {
                let parts = [("fault", fault.words().into())];
                Failure::new(Words::new("signoff-not-signed", &parts))
            })?;
            locked.add((seq, &sealed.entry.prev), sealed.json, sealed.signature)?;
            added.push(sealed.entry);
        }
        if self.signer.json {
            return Ok(Answer::clean(json(&Added { entries: &added })?));
        }
        let mut text = String::new();
        for entry in &added {
            let _ = writeln!(text, "{}", told(entry, self.language));
        }
        Ok(Answer::clean(text))
    }
}

/// What an entry says, on one line.
pub(super) fn told(entry: &Entry, language: Language) -> String {
    let parts = [
        ("entry", entry.seq.to_string().into()),
        ("kind", entry.kind.words().into()),
        ("subject", (&entry.subject).into()),
        ("revision", (&entry.revision).into()),
        ("digest", short_digest(&entry.sha256).into()),
        ("name", (&entry.name).into()),
        ("at", (&entry.at).into()),
    ];
    language.text("register-told", &parts)
}
