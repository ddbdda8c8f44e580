//! `log.json`: the way from each entry to the root that a checkpoint of its machine's log names.
//!
//! With it and a checkpoint that was kept elsewhere, nobody needs the log or the records of others to see
//! that an entry was there then. Must never say anything of entries that the checkpoint is older than.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::canonical::{self, hex};
use crate::log::checkpoint::Checkpoint;
use crate::log::line::Line;
use crate::log::tree::{self, Hash};
use crate::record::store::RawRecord;

/// Version of the form.
pub const VERSION: u32 = 1;

/// The file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Proofs {
    /// Ways by the number of the entry's file.
    pub entries: BTreeMap<String, Way>,
    /// [`VERSION`].
    pub v: u32,
}

/// The way of one entry.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Way {
    /// Which leaf it is, from 0.
    pub index: u64,
    /// The hashes beside its way up, from below, in hex (RFC 6962 §2.1.1).
    pub proof: Vec<String>,
}

impl Proofs {
    /// The ways of a record's entries in the first `leaves` of a log.
    ///
    /// # Errors
    /// Those of reading the log.
    pub fn of<E>(
        record: &str,
        leaves: u64,
        lines: impl Iterator<Item = Result<Option<Line>, E>>,
        mut hash: impl FnMut(u64) -> Result<Hash, E>,
    ) -> Result<Proofs, E> {
        let mut entries = BTreeMap::new();
        for (index, line) in (0..leaves).zip(lines) {
            let Some(line) = line?.filter(|line| line.record == record) else { continue };
            let proof = tree::prove_leaf(index, leaves, &mut hash)?;
            let proof = proof.iter().map(|hash| hex(hash)).collect();
            entries.insert(format!("{:06}", line.entry), Way { index, proof });
        }
        Ok(Proofs { entries, v: VERSION })
    }

    /// Reads the file.
    ///
    /// # Errors
    /// What the reader of JSON says, when it is not this file in its one form.
    pub fn read(bytes: &[u8]) -> Result<Proofs, serde_json::Error> {
        use serde::de::Error;
        let file: Proofs = serde_json::from_slice(bytes)?;
        let is_ours = file.v == VERSION && canonical::line(&file)? == bytes;
        if is_ours { Ok(file) } else { Err(serde_json::Error::custom("not in canonical form")) }
    }

    /// Numbers of entries that are not where their way leads, or not there at all.
    pub fn wrong(&self, checkpoint: &Checkpoint, raw: &RawRecord) -> Vec<&str> {
        let leads = |name: &str, way: &Way| {
            let entry = raw.entries.iter().find(|entry| entry.name == name)?;
            let leaf = tree::leaf(&[&entry.json, entry.signature.as_ref()?]);
            let proof: Vec<Hash> =
                way.proof.iter().map(|hash| unhex(hash)).collect::<Option<_>>()?;
            let Checkpoint { leaves, root, .. } = checkpoint;
            tree::proves_leaf(&leaf, way.index, *leaves, &proof, root).then_some(())
        };
        let wrong = self.entries.iter().filter(|(name, way)| leads(name, way).is_none());
        wrong.map(|(name, _)| name.as_str()).collect()
    }
}

/// A hash from 64 lower-case digits.
fn unhex(text: &str) -> Option<Hash> {
    let mut hash = Hash::default();
    for (byte, at) in hash.iter_mut().zip((0..).step_by(2)) {
        *byte = u8::from_str_radix(text.get(at..at + 2)?, 16).ok()?;
    }
    (hex(&hash) == text).then_some(hash)
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;

    use super::Proofs;
    use crate::canonical;
    use crate::log::checkpoint::Checkpoint;
    use crate::log::line::Line;
    use crate::log::tree::{self, Growing, Hash};
    use crate::record::fixture;

    /// The good record in a log of its machine, between entries of another record.
    fn log() -> (Vec<Line>, Vec<Hash>, Hash) {
        let (mut lines, mut hashes, mut growing) = (Vec::new(), Vec::new(), Growing::default());
        for (number, raw) in (1..).zip(fixture::raw().entries) {
            let own = tree::leaf(&[&raw.json, raw.signature.as_ref().unwrap()]);
            for (hash, record) in [(tree::leaf(&[&raw.json]), "J-2040"), (own, "J-2041")] {
                lines.push(Line { hash, entry: number, record: record.to_owned() });
                hashes.extend(growing.push(hash));
            }
        }
        (lines, hashes, growing.root())
    }

    fn proofs(leaves: u64) -> Proofs {
        let (lines, hashes, _) = log();
        let lines = lines.into_iter().map(|line| Ok::<_, Infallible>(Some(line)));
        let hash = |place: u64| Ok(hashes[usize::try_from(place).unwrap()]);
        Proofs::of("J-2041", leaves, lines, hash).unwrap()
    }

    fn checkpoint(leaves: u64, root: Hash) -> Checkpoint {
        let origin = "plant.example/pouch-6".to_owned();
        Checkpoint { origin, leaves, root, at: None, signers: None }
    }

    #[test]
    fn each_entry_is_found_under_the_root() {
        let (_, _, root) = log();
        let (proofs, raw) = (proofs(26), fixture::raw());
        assert_eq!(proofs.entries.len(), 13);
        assert_eq!(proofs.entries["000003"].index, 5);
        assert_eq!(proofs.wrong(&checkpoint(26, root), &raw), [""; 0]);
        let bytes = canonical::line(&proofs).unwrap();
        assert_eq!(Proofs::read(&bytes).unwrap(), proofs);
        assert!(Proofs::read(&[b" ", bytes.as_slice()].concat()).is_err());
    }

    #[test]
    fn an_older_checkpoint_says_nothing_of_later_entries() {
        let own: Vec<String> = proofs(9).entries.into_keys().collect();
        assert_eq!(own, ["000001", "000002", "000003", "000004"]);
    }

    #[test]
    fn what_was_changed_is_found() {
        let (_, _, root) = log();
        let (proofs, mut raw) = (proofs(26), fixture::raw());
        // How many leaves there are is the checkpoint's word: a way of the same form leads to its root.
        assert_eq!(proofs.wrong(&checkpoint(25, root), &raw), ["000013"]);
        assert_eq!(proofs.wrong(&checkpoint(26, [0; 32]), &raw).len(), 13);
        raw.entries[4].json[5] ^= 1;
        raw.entries.remove(6);
        assert_eq!(proofs.wrong(&checkpoint(26, root), &raw), ["000005", "000007"]);
        for (old, new) in [("\"index\":1,", "\"index\":3,"), ("\"proof\":[\"", "\"proof\":[\"0")] {
            let text = String::from_utf8(canonical::line(&proofs).unwrap()).unwrap();
            let other = Proofs::read(text.replacen(old, new, 1).as_bytes()).unwrap();
            assert_eq!(other.wrong(&checkpoint(26, root), &fixture::raw()), ["000001"], "{new}");
        }
    }
}
