//! Rules of the order of work around the lockout: clearance, cleaning, first piece.

use serde::Serialize;

use super::walk::as_written;
use crate::finding::{Findings, Place};
use crate::procedure::order::Why;

impl Findings {
    /// A step that somebody else has to see, and nobody else signs.
    pub fn second_person_missing(&mut self, at: &Place, what: impl Serialize) {
        let what = as_written(what);
        self.error("second-person-missing", at, &[("what", what.into())]);
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
        self.error("line-not-cleared", at, &[("step", step.into())]);
    }

    /// New material on an allergen of the old product.
    fn allergen_not_cleaned(&mut self, at: &Place, step: &str, allergens: &[String]) {
        let allergens = allergens.join(", ");
        self.error(
            "allergen-not-cleaned",
            at,
            &[("step", step.into()), ("allergens", allergens.into())],
        );
    }

    /// A label with an allergen too many or too few.
    fn label_not_checked(&mut self, at: &Place, step: &str, allergens: &[String]) {
        let allergens = allergens.join(", ");
        self.error(
            "label-not-checked",
            at,
            &[("step", step.into()), ("allergens", allergens.into())],
        );
    }

    /// A run that nobody proved.
    fn no_first_piece(&mut self, at: &Place, step: &str) {
        self.warning("run-without-first-piece", at, &[("step", step.into())]);
    }

    /// Work at a line that runs.
    fn after_run(&mut self, at: &Place, step: &str) {
        self.warning("run-not-last", at, &[("step", step.into())]);
    }

    /// A changeover of which nothing can be said.
    pub fn order_unmarked(&mut self, at: &Place) {
        self.warning("order-unmarked", at, &[]);
    }
}
