//! The register of a copy of the plant: approvals and inspections that were signed there, taken in.
//!
//! Must never change what is here, and never keep two registers: where somebody signed on both, nothing
//! is taken in, because what may be worked by is not a matter of two histories.
#![allow(clippy::disallowed_methods, reason = "a folder is looked at before it is read")]

use std::path::Path;

use super::{Collected, Collector, Differs, Outcome};
use crate::audit::{Severity, register::audit_copy, report};
use crate::failure::Failure;
use crate::language::Words;
use crate::packet;
use crate::record::copy::{Compared, compare};
use crate::record::rules::check_signer;
use crate::record::signature::Signature;
use crate::record::store::{self, Locked, RawEntry, RawRecord};
use crate::register::{self, Entry, Judged, entry};

/// How the register is called among the records.
pub(super) const NAME: &str = "register/";

impl Collector<'_> {
    /// Takes the register of a copy in; none when the copy has none.
    pub(super) fn collect_register(&self, copy: &Path) -> Result<Option<Collected>, Failure> {
        let folder = copy.join(register::FOLDER);
        if !std::fs::symlink_metadata(&folder).is_ok_and(|found| found.is_dir()) {
            return Ok(None);
        }
        let (ours, theirs) = (&self.prepared.plant.register, store::read(&folder)?);
        let mut collected = Collected::of(NAME);
        match compare(ours, &theirs) {
            Compared::Same => collected.outcome = Outcome::Same,
            Compared::Shorter => collected.outcome = Outcome::Shorter,
            Compared::OtherPacket => collected.outcome = Outcome::Refused,
            Compared::Diverged(same) => {
                let says = |raw: &RawRecord| raw.entries.get(same).map(|raw| self.states(raw));
                let (here, there) = (says(ours), says(&theirs));
                let (here, there) = (here.unwrap_or_default(), there.unwrap_or_default());
                collected.outcome = Outcome::Parted;
                collected.differs = Some(Differs { entry: same.saturating_add(1), here, there });
            }
            Compared::Longer(same) => self.take_register_in(&mut collected, &theirs, same)?,
        }
        Ok(Some(collected))
    }

    /// Adds what the copy has more, when all of it holds.
    fn take_register_in(
        &self,
        collected: &mut Collected,
        theirs: &RawRecord,
        same: usize,
    ) -> Result<(), Failure> {
        let house = packet::house(self.prepared.plant, &self.prepared.people);
        let judged = register::judge(theirs, self.trust, &house, self.domain());
        let findings = audit_copy(&judged, self.now);
        if findings.iter().any(|finding| finding.severity == Severity::Error) {
            let lines = report::finding_lines(&findings, self.language);
            collected.report = lines.into_iter().map(|line| line + "\n").collect();
            return Ok(());
        }
        let folder = self.plant.join(register::FOLDER);
        store::make_folder(&folder)?;
        let mut locked = Locked::open(&folder, "")?;
        if compare(locked.record(), theirs) != Compared::Longer(same) {
            return Err(Failure::new(Words::of("collect-moved-on")));
        }
        collected.outcome = if same == 0 { Outcome::New } else { Outcome::Taken };
        for (raw, entry) in more(theirs, &judged, same) {
            let signature = raw.signature.clone().unwrap_or_default();
            locked.add((entry.seq, &entry.prev), raw.json.clone(), signature)?;
            collected.taken += 1;
            collected.old_keys += usize::from(self.is_by_old_key(raw, entry));
        }
        Ok(())
    }

    /// Whether the key does not count today: whoever found it may have set the clock back.
    fn is_by_old_key(&self, raw: &RawEntry, entry: &Entry) -> bool {
        let namespace = register::namespace(self.domain());
        let signature = raw.signature.as_deref().and_then(|own| Signature::parse(own).ok());
        signature.is_some_and(|own| {
            let (key, now) = (own.key(), Some(self.now));
            check_signer(self.trust, &entry.by, key, &namespace, now).is_some()
        })
    }

    /// Who stated what, and when.
    fn states(&self, raw: &RawEntry) -> String {
        let (Some(Entry { at, name, kind, subject, .. }), _) = entry::read(&raw.json) else {
            return self.language.word("audit-unreadable").to_owned();
        };
        format!("{at} {name}: {subject} {}", kind.words().shown(self.language))
    }
}

/// The entries that a copy has more.
fn more<'c>(
    theirs: &'c RawRecord,
    judged: &'c Judged,
    same: usize,
) -> impl Iterator<Item = (&'c RawEntry, &'c Entry)> {
    let all = theirs.entries.iter().zip(&judged.entries).skip(same);
    all.filter_map(|(raw, judged)| Some((raw, judged.entry.as_ref()?)))
}
