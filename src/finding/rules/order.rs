//! Rules of the order of work around the lockout: clearance, cleaning, first piece.

use serde::Serialize;

use super::walk::as_written;
use crate::finding::{Findings, Place};
use crate::procedure::order::Why;

impl Findings {
    /// A step that somebody else has to see, and nobody else signs.
    pub fn second_person_missing(&mut self, at: &Place, what: impl Serialize) {
        let what = as_written(what);
        let message = format!("a step `{what}` is done by one person and seen by nobody else");
        let way_out = "write `sign: { performed: <role>, verified: <role> }`; another person than \
                       the doer verifies (practice; 21 CFR 211.188(b)(11))"
            .to_owned();
        self.error("second-person-missing", at, message, way_out);
    }

    /// A step that stands too early or too late.
    pub fn out_of_order(&mut self, at: &Place, step: &str, why: &Why) {
        match why {
            Why::NotCleared => self.line_not_cleared(at, step),
            Why::NotCleaned(allergens) => self.allergen_not_cleaned(at, step, allergens),
            Why::LabelNotChecked(allergens) => self.label_not_checked(at, step, allergens),
            Why::NoFirstPiece => self.no_first_piece(at, step),
            Why::AfterRun => self.after_run(at, step),
            Why::Unmarked => self.order_unmarked(at),
        }
    }

    /// New material at a line that nobody cleared.
    fn line_not_cleared(&mut self, at: &Place, step: &str) {
        let message = format!("`{step}` brings material in before the line is cleared");
        let way_out = "put a step `marks: [line-cleared]` before it, performed and verified \
                       (21 CFR 211.130(e); EU GMP chapter 5)"
            .to_owned();
        self.error("line-not-cleared", at, message, way_out);
    }

    /// New material on an allergen of the old product.
    fn allergen_not_cleaned(&mut self, at: &Place, step: &str, allergens: &[String]) {
        let allergens = allergens.join(", ");
        let message = format!(
            "`{step}` brings material in before the old product's {allergens} is cleaned out; the \
             new product has none"
        );
        let way_out = "put a step `marks: [cleaned]` with a reading or a check before it, \
                       performed and verified (21 CFR 117.135(c))"
            .to_owned();
        self.error("allergen-not-cleaned", at, message, way_out);
    }

    /// A label with an allergen too many or too few.
    fn label_not_checked(&mut self, at: &Place, step: &str, allergens: &[String]) {
        let allergens = allergens.join(", ");
        let message = format!(
            "`{step}` runs the line with its label unchecked; {allergens} was on the old one"
        );
        let way_out = "put a step `marks: [label-checked]` before it, performed and verified \
                       (21 CFR 117.135(c))"
            .to_owned();
        self.error("label-not-checked", at, message, way_out);
    }

    /// A run that nobody proved.
    fn no_first_piece(&mut self, at: &Place, step: &str) {
        let message = format!("`{step}` runs the line before its first pieces are measured");
        let way_out = "put a step `marks: [first-piece]` with readings before it, performed and \
                       verified (practice)"
            .to_owned();
        self.warning("run-without-first-piece", at, message, way_out);
    }

    /// Work at a line that runs.
    fn after_run(&mut self, at: &Place, step: &str) {
        let message = format!("`{step}` comes after the line was released to run");
        let way_out = "let the step `marks: [run]` be the last one (practice)".to_owned();
        self.warning("run-not-last", at, message, way_out);
    }

    /// A changeover of which nothing can be said.
    pub fn order_unmarked(&mut self, at: &Place) {
        let message = "no step says that material comes in or that the line runs, so clearance, \
                       cleaning and first pieces cannot be judged"
            .to_owned();
        let way_out = "write `marks: [material-in]` and `marks: [run]` on the steps that do it \
                       (21 CFR 211.130(e))"
            .to_owned();
        self.warning("order-unmarked", at, message, way_out);
    }
}
