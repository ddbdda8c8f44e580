//! The proofs that leave the plant with a record: where each of its entries lies in the log.
//!
//! With the checkpoint beside them they show, without the rest of the log, that an entry is in it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::line::Line;
use super::tree::{Hash, prove_leaf};
use crate::canonical::hex;

/// The proofs for a record's entries.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Proofs {
    /// By name of the entry: `000012`.
    pub entries: BTreeMap<String, Place>,
}

/// Where an entry lies in the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Number of its leaf, from 0.
    pub index: u64,
    /// The hashes beside its way to the root (RFC 6962 §2.1.1), from below, in hex.
    pub proof: Vec<String>,
}

/// Proves each entry of a record that is among the first leaves of a log.
///
/// # Errors
/// Those of the list and of `read`.
pub fn prove<E>(
    record: &str,
    leaves: u64,
    lines: impl Iterator<Item = Result<Option<Line>, E>>,
    mut read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Proofs, E> {
    let mut proofs = Proofs::default();
    for (index, line) in (0..leaves).zip(lines) {
        let Some(line) = line? else { break };
        if line.record == record {
            let proof =
                prove_leaf(index, leaves, &mut read)?.iter().map(|hash| hex(hash)).collect();
            proofs.entries.insert(format!("{:06}", line.entry), Place { index, proof });
        }
    }
    Ok(proofs)
}

#[cfg(test)]
mod tests {
    use std::convert::Infallible;

    use super::prove;
    use crate::log::line::Line;
    use crate::log::tree::{Growing, Hash, leaf, proves_leaf, root};
    use crate::record::fixture::unhex;

    #[test]
    fn each_entry_of_the_record_is_proved_and_no_other() {
        let line = |n: u64| {
            let record = if n.is_multiple_of(3) { "J-1" } else { "J-2" };
            Line { hash: leaf(&[&n.to_be_bytes()]), entry: n + 1, record: record.to_owned() }
        };
        let lines: Vec<Line> = (0..20).map(line).collect();
        let mut growing = Growing::default();
        let kept: Vec<Hash> = lines.iter().flat_map(|line| growing.push(line.hash)).collect();
        let read = |place: u64| Ok::<_, Infallible>(kept[usize::try_from(place).unwrap()]);
        let all = lines.iter().cloned().map(|line| Ok(Some(line)));
        let proofs = prove("J-1", 17, all, read).unwrap();
        let names: Vec<_> = proofs.entries.keys().map(String::as_str).collect();
        assert_eq!(names, ["000001", "000004", "000007", "000010", "000013", "000016"]);
        let root = root(17, read).unwrap();
        for place in proofs.entries.values() {
            let proof: Vec<Hash> =
                place.proof.iter().map(|hash| unhex(hash).try_into().unwrap()).collect();
            let own = lines[usize::try_from(place.index).unwrap()].hash;
            assert!(proves_leaf(&own, place.index, 17, &proof, &root));
        }
    }
}
