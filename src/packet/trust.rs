//! Whose key is whose in a plant, and which keys were revoked: from its files, with every fault.

use std::collections::BTreeSet;
use std::ops::Range;

use chrono::DateTime;

use crate::finding::{Findings, Place};
use crate::plant::load::Plant;
use crate::plant::shape::RevokedEntry;
use crate::record::time;
use crate::record::trust::{Revoked, TrustList};

/// The plant's keys: allowed signers, less what was revoked; faults of both go to the findings.
pub fn trust(findings: &mut Findings, plant: &Plant) -> TrustList {
    let mut trust = signers(findings, plant);
    revoke(findings, plant, &mut trust);
    trust
}

fn signers(findings: &mut Findings, plant: &Plant) -> TrustList {
    let (file, text) = match &plant.allowed_signers {
        Some((file, text)) => (file.clone(), text.as_bytes()),
        None => {
            findings.no_signers(&Place::file(&"allowed_signers".into()));
            return TrustList::parse(b"").0;
        }
    };
    let (list, errors) = TrustList::parse(text);
    let lines = lines(text);
    for error in errors {
        let line = line(&lines, error.line);
        let written = text.get(line.clone()).unwrap_or_default();
        let part = error.fault.part_of(&String::from_utf8_lossy(written));
        let at = Place::bytes(&file, line.start + part.start..line.start + part.end);
        findings.bad_signer(&at, error.fault.code(), &error.fault.words());
    }
    list
}

/// The bytes of each line.
pub(crate) fn lines(text: &[u8]) -> Vec<Range<usize>> {
    let mut end = 0;
    let lines = text.split_inclusive(|byte| *byte == b'\n');
    lines
        .map(|line| {
            let start = end;
            end += line.len();
            start..start + line.trim_ascii_end().len()
        })
        .collect()
}

/// The bytes of the line with a number, from 1.
pub(crate) fn line(lines: &[Range<usize>], number: usize) -> Range<usize> {
    lines.get(number.saturating_sub(1)).cloned().unwrap_or_default()
}

/// Takes the keys away that `people.yaml` revokes. What cannot be read there counts against the key.
fn revoke(findings: &mut Findings, plant: &Plant, trust: &mut TrustList) {
    let at = plant.people.place.at("revoked");
    let mut seen = BTreeSet::new();
    for (index, RevokedEntry { key, from, why }) in plant.people.body.revoked.iter().enumerate() {
        let at = at.item(index);
        if !is_fingerprint(key) {
            findings.revoked_key(&at.at("key"), key);
        } else if !seen.insert(key) {
            findings.revoked_twice(&at.at("key"), key);
        } else if !trust.keys().iter().any(|line| line.fingerprint == *key) {
            findings.revoked_unlisted(&at.at("key"), key);
        }
        if why.trim().is_empty() {
            findings.empty_text(&at.at("why"), "why");
        }
        let from = time::parse(from).unwrap_or_else(|fault| {
            findings.revoked_time(&at.at("from"), fault.words());
            DateTime::UNIX_EPOCH.fixed_offset()
        });
        trust.revoke(key, Revoked { from, why: why.clone() });
    }
}

/// `SHA256:` and 32 bytes in base64 without padding.
fn is_fingerprint(text: &str) -> bool {
    let digits = text.strip_prefix("SHA256:").unwrap_or_default();
    let is_digit = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'+' | b'/');
    digits.len() == 43 && digits.bytes().all(is_digit)
}
