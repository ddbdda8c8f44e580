//! Rules of one text for many machines: parameters, includes, conditions, the order for a kind of machine.

use super::did_you_mean;
use crate::finding::{Findings, Place};
use crate::language::Words;

impl Findings {
    /// A parameter that a procedure has not.
    pub fn unknown_parameter(&mut self, at: &Place, id: &str, name: &str, known: &[&str]) {
        let nearest = match known {
            [] => Words::of("parameter-none"),
            known => did_you_mean(name, known),
        };
        let parts = [("id", id.into()), ("name", name.into()), ("nearest", nearest.into())];
        self.error("unknown-parameter", at, &parts);
    }

    /// A parameter without a value.
    pub fn missing_parameter(&mut self, at: &Place, id: &str, name: &str, what: Words) {
        let parts = [("id", id.into()), ("name", name.into()), ("what", what.into())];
        self.error("missing-parameter", at, &parts);
    }

    /// A value that is not what the parameter is.
    pub fn bad_parameter(
        &mut self,
        at: &Place,
        id: &str,
        (name, what, value): (&str, Words, &str),
        known: &[String],
    ) {
        let nearest = match known {
            [] => Words::new("parameter-write", &[("what", (&what).into())]),
            known => did_you_mean(value, known),
        };
        let parts = [
            ("id", id.into()),
            ("name", name.into()),
            ("what", what.into()),
            ("value", value.into()),
            ("nearest", nearest.into()),
        ];
        self.error("bad-parameter", at, &parts);
    }

    /// An include with something else under its heading.
    pub fn include_not_alone(&mut self, at: &Place, title: &str) {
        self.error("include-not-alone", at, &[("title", title.into())]);
    }

    /// A procedure that includes itself.
    pub fn include_circle(&mut self, at: &Place, circle: &[&str]) {
        self.error("include-circle", at, &[("circle", circle.join(", ").into())]);
    }

    /// An include inside too many others.
    pub fn include_too_deep(&mut self, at: &Place, id: &str, most: usize) {
        self.error("include-too-deep", at, &[("id", id.into()), ("most", most.into())]);
    }

    /// A changeover that nobody could read.
    pub fn too_many_procedures(&mut self, at: &Place, most: usize) {
        self.error("too-many-procedures", at, &[("most", most.into())]);
    }

    /// A condition on something that no machine of the plant has.
    pub fn unknown_feature<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        let nearest = did_you_mean(name, known);
        self.error("unknown-feature", at, &[("name", name.into()), ("nearest", nearest.into())]);
    }

    /// An order for a kind of machine that the plant has not.
    pub fn unknown_kind(&mut self, at: &Place, kind: &str, known: &[&String]) {
        let nearest = did_you_mean(kind, known);
        self.error("unknown-kind", at, &[("kind", kind.into()), ("nearest", nearest.into())]);
    }

    /// A machine without an order of procedures.
    pub fn order_missing(&mut self, at: &Place, kind: &str) {
        self.error("order-missing", at, &[("kind", kind.into())]);
    }
}
