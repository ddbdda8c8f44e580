//! The logs of the demo plant, made from its records: each checkpoint is by who signed last.

use std::collections::BTreeMap;

use witnessmark::canonical::sha256_hex;
use witnessmark::log::checkpoint::Checkpoint;
use witnessmark::log::line::Line;
use witnessmark::log::tree::{Growing, Hash, leaf};
use witnessmark::record::{Entry, SigningKey, entry, time};

/// Files by path inside the plant.
type Files = BTreeMap<String, Vec<u8>>;

/// The logs of all machines whose records are among these files.
pub fn make(files: &Files, domain: &str, seed: impl Fn(&str) -> [u8; 32]) -> Files {
    let mut machines: BTreeMap<String, Vec<(Entry, Line)>> = BTreeMap::new();
    for (path, json) in files {
        let Some(signature) = files.get(&format!("{path}.sig")) else { continue };
        let ["records", record, _] = path.split('/').collect::<Vec<_>>()[..] else { continue };
        let entry = entry::parse(json).unwrap();
        let (hash, record) = (leaf(&[json, signature]), record.to_owned());
        let line = Line { hash, entry: entry.seq, record };
        machines.entry(entry.machine.clone()).or_default().push((entry, line));
    }
    let signers = sha256_hex(&files["allowed_signers"]);
    let mut logs = Files::new();
    for (machine, mut leaves) in machines {
        // The order in which `checkpoint` adopts what was signed before there was a log.
        leaves.sort_by_key(|(entry, line)| {
            (time::parse(&entry.at).unwrap().timestamp(), line.record.clone(), line.entry)
        });
        let mut growing = Growing::default();
        let hashes: Vec<Hash> = leaves.iter().flat_map(|(_, one)| growing.push(one.hash)).collect();
        let list: String = leaves.iter().map(|(_, line)| line.print()).collect();
        let (last, _) = leaves.last().unwrap();
        let checkpoint = Checkpoint {
            origin: format!("{domain}/{machine}"),
            leaves: growing.leaves(),
            root: growing.root(),
            at: Some(last.at.clone()),
            signers: Some(signers.clone()),
        };
        let note = checkpoint.sign(&last.by, &SigningKey::from_secret(&seed(&last.by))).unwrap();
        let mut put =
            |name: &str, bytes: Vec<u8>| logs.insert(format!("logs/{machine}/{name}"), bytes);
        put("leaves", list.into_bytes());
        put("hashes", hashes.concat());
        put("checkpoint", note.print().into_bytes());
    }
    logs
}
