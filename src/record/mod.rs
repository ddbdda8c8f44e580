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

#[cfg(test)]
pub(crate) mod fixture;
