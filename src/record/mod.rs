//! Signed, chained proof of what was done to a machine.
//!
//! In reading order: [`entry`] is one statement and its only byte form, [`signature`] ties it to a
//! key, [`trust`] ties the key to a person, [`people`] says what the person may do, [`state`] folds
//! the entries into where the job stands, [`rules`] says which entry may come next and why not,
//! [`mod@compose`] drafts the next entries, [`filled`] reads what a page
//! kept, [`store`] is the only part that touches files.
//! [`time`] and `decimal` are the two notations entries are made of.
//!
//! On disk a record is a folder: `packet.json`, then `000001.json` and `000001.json.sig`, and so
//! on. An entry's `prev` is the SHA-256 over the bytes of the entry before it followed by the bytes
//! of that entry's signature, and 64 zeros in the first. Public tools are enough to check it:
//! `sha256sum` for the chain, `ssh-keygen -Y verify` for the signatures. `FORMAT.md` beside this
//! file says how, and is enough for a second implementation.

pub mod compose;
pub mod copy;
mod decimal;
pub mod entry;
pub mod filled;
pub mod people;
pub mod rules;
pub mod signature;
pub mod state;
pub mod store;
pub mod time;
pub mod trust;

pub use compose::{compose, seal_all};
pub use entry::Entry;
pub use people::People;
pub use signature::SigningKey;
pub use state::State;
pub use store::RawRecord;
pub use trust::TrustList;

/// What signatures of a plant's records are made for: `signoff@<domain>`.
///
/// A signature made for anything else never counts here, and none from here counts elsewhere.
pub fn namespace(domain: &str) -> String {
    format!("signoff@{domain}")
}

/// The job that a record's name belongs to: `SM-1042` of `SM-1042`, of `SM-1042.2` and of
/// `SM-1042.copy-1a2b3c4d`.
///
/// The record of a packet that was issued anew has a number behind its job, from 2. No job has a point
/// in its name, so that no two records can have the same.
pub fn job_of(name: &str) -> &str {
    let name = copy::copied(name).unwrap_or(name);
    match name.split_once('.') {
        Some((job, number)) if number_of(number).is_some() => job,
        _ => name,
    }
}

/// The name of a job's record by its number, from 1.
pub fn record_name(job: &str, number: u32) -> String {
    if number > 1 { format!("{job}.{number}") } else { job.to_owned() }
}

/// The number of a record among those of its job, from 1.
pub fn record_number(name: &str) -> u32 {
    name.split_once('.').and_then(|(_, number)| number_of(number)).unwrap_or(1)
}

fn number_of(text: &str) -> Option<u32> {
    let number = text.parse::<u32>().ok().filter(|number| *number > 1)?;
    (number.to_string() == text).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::{job_of, record_name, record_number};

    #[test]
    fn a_record_is_named_after_its_job_and_its_number() {
        let check = |name: &str, job: &str, number: u32| {
            assert_eq!((job_of(name), record_number(name)), (job, number), "{name}");
            assert_eq!(record_name(job, number), name);
        };
        check("SM-1042", "SM-1042", 1);
        check("SM-1042.2", "SM-1042", 2);
        check("SM-1042.12", "SM-1042", 12);
        for odd in ["SM-1042.1", "SM-1042.02", "SM-1042.+2", "SM-1042.2.2", "SM-1042.", "SM.x"] {
            assert_eq!((job_of(odd), record_number(odd)), (odd, 1), "{odd}");
        }
    }
}

#[cfg(test)]
pub(crate) mod fixture;
