//! Rules of the lockout part: who locks, groups, shift change, contractors.

use crate::finding::{Findings, Place};

/// Rules of who may lock.
impl Findings {
    /// A step of the lockout is done by a role that may not lock.
    pub fn role_not_authorised(
        &mut self,
        at: &Place,
        step: &str,
        role: Option<&str>,
        authorised: &[String],
    ) {
        let message = match role {
            Some(role) => format!("`{step}` is done by the role `{role}`, which may not lock out"),
            None => format!("`{step}` is part of the lockout, and nobody signs that it was done"),
        };
        let roles = authorised.join("` or `");
        let way_out = format!(
            "write `performed: {}`: `{roles}` may lock out, as `authorised` in plant.yaml says \
             (29 CFR 1910.147(d)(4)(i))",
            authorised.first().map_or("", String::as_str)
        );
        self.error("role-not-authorised", at, message, way_out);
    }

    /// A plant with energy sources names nobody who may lock.
    pub fn nobody_authorised(&mut self, at: &Place) {
        let message = "the plant does not say which roles may lock out".to_owned();
        let way_out = "add `authorised: [technician]`, with the roles of people who are trained and \
                       authorised (29 CFR 1910.147(d)(4)(i) and (b))";
        self.error("nobody-authorised", at, message, way_out.to_owned());
    }

    /// An electrical zero is measured and nobody is named who is qualified for it.
    pub fn no_electrical_role(&mut self, at: &Place) {
        let message = "the plant does not say which role measures electrical zero".to_owned();
        let way_out = "add `electrical: electrician`, with the role of the electrically qualified \
                       people (29 CFR 1910.333(b)(2)(iv)(B), from memory)";
        self.error("no-electrical-role", at, message, way_out.to_owned());
    }

    /// Who measures zero works under the locks as well.
    pub fn electrical_not_authorised(&mut self, at: &Place, role: &str) {
        let message = format!("the role `{role}` measures zero and may not lock out");
        let way_out = format!(
            "add `{role}` to `authorised`: zero is proved by authorised people \
             (29 CFR 1910.147(d)(6))"
        );
        self.error("electrical-not-authorised", at, message, way_out);
    }
}
