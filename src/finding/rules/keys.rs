//! Rules of keys: which were revoked, and how long one counts.

use crate::finding::{Findings, Place};
use crate::language::Words;

impl Findings {
    /// A revoked key that is named otherwise than by its fingerprint.
    pub fn revoked_key(&mut self, at: &Place, key: &str) {
        self.error("revoked-key", at, &[("key", key.into())]);
    }

    /// A key that was revoked at no readable time.
    pub fn revoked_time(&mut self, at: &Place, fault: Words) {
        self.error("revoked-time", at, &[("fault", fault.into())]);
    }

    /// A key that was revoked twice.
    pub fn revoked_twice(&mut self, at: &Place, key: &str) {
        self.error("revoked-twice", at, &[("key", key.into())]);
    }

    /// A revoked key whose line was taken out: what it signed before counts no more.
    pub fn revoked_unlisted(&mut self, at: &Place, key: &str) {
        self.warning("revoked-unlisted", at, &[("key", key.into())]);
    }

    /// A key that nobody has to renew for a long time; 21 CFR 11.300(b) asks for a periodic look.
    pub fn key_valid_too_long(&mut self, at: &Place, person: &str, day: &str) {
        let parts = [("person", person.into()), ("day", day.into())];
        self.warning("key-valid-too-long", at, &parts);
    }
}
