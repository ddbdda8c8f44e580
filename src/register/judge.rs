//! The register as it lies in its folder, judged: bytes, numbers, chain, signatures, rules.
//!
//! Only entries against which nothing was found count. Must never stop at the first fault, read a
//! clock or a file, or panic, whatever the bytes are.

use rayon::prelude::*;

use super::entry::{self, Entry};
use super::rules::{self, House};
use super::state::Register;
use crate::canonical;
use crate::language::{Part, Words};
use crate::record::compose::chained;
use crate::record::entry::{EntryFault, NO_PREVIOUS, shown};
use crate::record::rules::{Refusal, check_signer};
use crate::record::signature::{self, PublicKey, Signature, SignatureFault};
use crate::record::store::{RawEntry, RawRecord};
use crate::record::time;
use crate::record::trust::TrustList;

/// A register and what was found in it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Judged {
    /// What counts.
    pub register: Register,
    /// Every entry that lies there.
    pub entries: Vec<JudgedEntry>,
    /// What is wrong, in the order of the entries.
    pub found: Vec<Found>,
    /// What the next entry has to name as `prev`: the digest to keep elsewhere.
    pub head: String,
}

/// An entry as it lies there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JudgedEntry {
    /// Number of its file.
    pub number: u64,
    /// SHA-256 of its bytes.
    pub digest: String,
    /// What it says; none when it could not be read.
    pub entry: Option<Entry>,
    /// Whether nothing was found against it.
    pub sound: bool,
}

/// Something that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Number of the entry's file.
    pub entry: u64,
    /// What, with what should be and what is.
    pub refusal: Refusal,
}

/// Judges a register.
pub fn judge(raw: &RawRecord, trust: &TrustList, house: &House, domain: &str) -> Judged {
    let namespace = super::namespace(domain);
    let look = |raw: &RawEntry| Look::at(raw, trust, &namespace);
    // What costs time does not depend on the entries before: every core takes part.
    let looks: Vec<Look> = raw.entries.par_iter().map(look).collect();
    let mut walk = Walk { house, judged: Judged::default(), number: 0 };
    walk.judged.head = NO_PREVIOUS.to_owned();
    for (raw, look) in raw.entries.iter().zip(looks) {
        walk.entry(raw, look);
    }
    walk.judged
}

/// What can be said of an entry by itself.
struct Look {
    entry: Option<Entry>,
    found: Vec<Refusal>,
}

impl Look {
    fn at(raw: &RawEntry, trust: &TrustList, namespace: &str) -> Look {
        let (entry, faults) = entry::read(&raw.json);
        let fault = |fault: &EntryFault| Refusal::coded(fault.code(), fault.words());
        let mut found: Vec<Refusal> = faults.iter().map(fault).collect();
        found.extend(signer(raw, entry.as_ref(), trust, namespace));
        Look { entry, found }
    }
}

/// What is wrong with a signature, and with who made it.
fn signer(
    raw: &RawEntry,
    entry: Option<&Entry>,
    trust: &TrustList,
    namespace: &str,
) -> Vec<Refusal> {
    let Some(file) = raw.signature.as_deref() else {
        return vec![of_bytes("audit-signature-missing", &[])];
    };
    let signature = match Signature::parse(file) {
        Ok(signature) => signature,
        Err(fault) => return vec![about("audit-signature-form", &fault)],
    };
    let key = PublicKey::from_bytes(signature.key());
    let verified = key.and_then(|key| signature.verify(&key, namespace, &raw.json));
    let mut found = Vec::from_iter(verified.err().map(|fault| match fault {
        SignatureFault::Namespace { expected, found } => {
            of_bytes("audit-signature-namespace", &[]).with(expected, shown(&found))
        }
        SignatureFault::WeakKey | SignatureFault::NoKey => about("audit-key-weak", &fault),
        other => about("audit-signature-bad", &other),
    }));
    if let Some(entry) = entry {
        let at = time::parse(&entry.at).ok();
        found.extend(check_signer(trust, &entry.by, signature.key(), namespace, at));
    }
    found
}

/// The same words that the audit of a record has for it.
fn of_bytes(key: &'static str, parts: &[(&'static str, Part)]) -> Refusal {
    Refusal::coded(key.trim_start_matches("audit-"), Words::new(key, parts))
}

fn about(key: &'static str, fault: &SignatureFault) -> Refusal {
    of_bytes(key, &[("fault", fault.words().into())])
}

/// The entries one after the other, with what has to be known of those before.
struct Walk<'a> {
    house: &'a House<'a>,
    judged: Judged,
    number: u64,
}

impl Walk<'_> {
    fn entry(&mut self, raw: &RawEntry, look: Look) {
        let number = raw.name.parse::<u64>().unwrap_or(self.number + 1);
        let mut found = Vec::from_iter(self.gap(number));
        self.number = number;
        found.extend(look.found);
        if let Some(entry) = &look.entry {
            found.extend(self.place(entry));
            found.extend(rules::check(&self.judged.register, self.house, entry));
        }
        let signature = raw.signature.as_deref().unwrap_or_default();
        self.judged.head = chained(&raw.json, signature);
        let digest = canonical::sha256_hex(&raw.json);
        let sound = found.is_empty();
        if let Some(entry) = look.entry.clone().filter(|_| sound) {
            self.judged.register.take(entry, digest.clone());
        }
        let entry = look.entry;
        self.judged.entries.push(JudgedEntry { number, digest, entry, sound });
        let found = found.into_iter().map(|refusal| Found { entry: number, refusal });
        self.judged.found.extend(found);
    }

    fn gap(&self, number: u64) -> Option<Refusal> {
        let expected = self.number + 1;
        (number != expected).then(|| {
            let (expected, number) = (expected.to_string(), number.to_string());
            let parts = [("expected", (&expected).into()), ("number", (&number).into())];
            of_bytes("audit-number-gap", &parts).with(expected, number)
        })
    }

    /// The entry's own number, and what it says comes before it.
    fn place(&self, entry: &Entry) -> Vec<Refusal> {
        let mut found = Vec::new();
        if entry.seq != self.number {
            let seq = entry.seq.to_string();
            let differs = of_bytes("audit-number-differs", &[("entry", (&seq).into())]);
            found.push(differs.with(self.number.to_string(), seq));
        }
        if entry.prev != self.judged.head {
            let broken = of_bytes("audit-chain-broken", &[]);
            found.push(broken.with(&*self.judged.head, shown(&entry.prev)));
        }
        found
    }
}

/// Fingerprint of the key that signed; empty when the signature cannot be read.
pub fn fingerprint(raw: &RawEntry) -> String {
    let signature = raw.signature.as_deref().and_then(|file| Signature::parse(file).ok());
    signature.map(|own| signature::fingerprint(own.key())).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::{Judged, judge};
    use crate::record::fixture as record;
    use crate::record::store::{RawEntry, RawRecord};
    use crate::record::trust::TrustList;
    use crate::register::draft::seal;
    use crate::register::entry::{Entry, Kind};
    use crate::register::fixture;

    /// A register of three entries: an approval, an inspection, and the approval withdrawn.
    fn raw() -> RawRecord {
        let withdrawal = Entry {
            author: None,
            kind: Kind::Withdrawn,
            meaning: Kind::Withdrawn.meaning().to_owned(),
            note: Some("Wrong tool.".to_owned()),
            seq: 3,
            withdraws: Some(1),
            ..fixture::approval()
        };
        let inspection = Entry {
            by: "b.checker@plant.example".to_owned(),
            name: "Bo Checker".to_owned(),
            role: "lead".to_owned(),
            seq: 2,
            ..fixture::inspection()
        };
        sealed(vec![fixture::approval(), inspection, withdrawal])
    }

    fn sealed(entries: Vec<Entry>) -> RawRecord {
        let mut raw = RawRecord::default();
        for entry in entries {
            let (_, prev) = raw.next();
            let key = record::key_of(&entry.by);
            let sealed = seal(Entry { prev, ..entry }, &key, record::DOMAIN).unwrap();
            raw.entries.push(RawEntry {
                name: format!("{:06}", raw.entries.len() + 1),
                json: sealed.json,
                signature: Some(sealed.signature),
            });
        }
        raw
    }

    fn judged(raw: &RawRecord, signers: &str) -> Judged {
        let people = fixture::people();
        let authorised = vec!["technician".to_owned(), "lead".to_owned()];
        let house = crate::register::House { authorised: &authorised, ..fixture::house(&people) };
        judge(raw, &TrustList::parse(signers.as_bytes()).0, &house, record::DOMAIN)
    }

    fn signers() -> String {
        record::SIGNERS.replace("\"signoff@plant.example\"", "\"register@plant.example\"")
    }

    /// Spoils a good register and wants these findings, by entry.
    #[track_caller]
    fn check(spoil: impl Fn(&mut RawRecord), expected: &[(u64, &str)]) {
        let mut raw = raw();
        spoil(&mut raw);
        let judged = judged(&raw, &signers());
        let found: Vec<_> =
            judged.found.iter().map(|found| (found.entry, found.refusal.code)).collect();
        assert_eq!(found, expected);
        for entry in &judged.entries {
            let is_found = expected.iter().any(|(number, _)| *number == entry.number);
            assert_eq!(entry.sound, !is_found, "{}", entry.number);
        }
    }

    fn edit(raw: &mut RawRecord, index: usize, piece: &str, other: &str) {
        let text = String::from_utf8(raw.entries[index].json.clone()).unwrap();
        assert!(text.contains(piece), "{text}");
        raw.entries[index].json = text.replacen(piece, other, 1).into_bytes();
    }

    #[test]
    fn a_good_register_is_taken_in_whole() {
        check(|_| (), &[]);
        let judged = judged(&raw(), &signers());
        assert_eq!(judged.register.all().count(), 3);
        assert_eq!(judged.register.get(1).unwrap().withdrawn, Some(3));
        assert_eq!(judged.head, raw().next().1);
    }

    #[test]
    fn what_was_done_to_it_is_named() {
        check(
            |raw| edit(raw, 1, "Two locks", "Ten locks"),
            &[(2, "signature-bad"), (3, "chain-broken")],
        );
        check(
            |raw| {
                raw.entries.remove(1);
            },
            &[(3, "number-gap"), (3, "chain-broken")],
        );
        check(|raw| raw.entries[2].signature = None, &[(3, "signature-missing")]);
        check(
            |raw| raw.entries[2].signature = raw.entries[0].signature.clone(),
            &[(3, "signature-bad")],
        );
        check(
            |raw| {
                raw.entries.swap(1, 2);
                raw.entries[1].name = "000002".to_owned();
                raw.entries[2].name = "000003".to_owned();
            },
            &[
                (2, "number-differs"),
                (2, "chain-broken"),
                (3, "number-differs"),
                (3, "chain-broken"),
            ],
        );
        check(
            |raw| raw.entries[2].json = b"{}\n".to_vec(),
            &[(3, "missing-field"), (3, "signature-bad")],
        );
    }

    #[test]
    fn a_signature_for_work_is_no_approval() {
        let found = judged(&raw(), record::SIGNERS).found;
        let codes: Vec<_> = found.iter().map(|found| found.refusal.code).collect();
        assert_eq!(codes, ["key-namespace", "key-namespace", "key-namespace", "no-approval"]);
    }

    #[test]
    fn a_key_of_somebody_else_signs_for_nobody() {
        let mut entry = fixture::approval();
        entry.by = "e.both@plant.example".to_owned();
        entry.name = "Ed Both".to_owned();
        // The key of ones is in no list.
        let codes = |raw: &RawRecord| -> Vec<_> {
            judged(raw, &signers()).found.iter().map(|found| found.refusal.code).collect()
        };
        assert_eq!(codes(&sealed(vec![entry.clone()])), ["signer-unlisted"]);
        let key = record::key_of("a.doer");
        let own = seal(entry, &key, record::DOMAIN).unwrap();
        let (json, signature) = (own.json, Some(own.signature));
        let raw = RawRecord {
            entries: vec![RawEntry { name: "000001".to_owned(), json, signature }],
            ..RawRecord::default()
        };
        assert_eq!(codes(&raw), ["signer-differs"]);
    }

    #[test]
    fn every_flipped_bit_is_found() {
        let good = raw();
        for index in 0..good.entries.len() {
            let length = good.entries[index].json.len();
            for at in (0..length).step_by(29) {
                let mut raw = good.clone();
                raw.entries[index].json[at] ^= 1 << (at % 8);
                assert!(!judged(&raw, &signers()).found.is_empty(), "{index} {at}");
            }
        }
    }
}
