//! Rules of the register: approvals and inspections, signed.

use crate::finding::{Findings, Place};
use crate::language::Words;

impl Findings {
    /// An entry of the register against which something was found: it approves nothing.
    pub fn register_entry(&mut self, at: &Place, what: &Words) {
        self.warning("register-entry", at, &[("what", what.into())]);
    }

    /// A role that has to approve, and nobody who holds it could sign.
    pub fn nobody_can_approve(&mut self, at: &Place, role: &str, namespace: &str) {
        let parts = [("role", role.into()), ("namespace", namespace.into())];
        self.warning("register-nobody-can-sign", at, &parts);
    }
}
