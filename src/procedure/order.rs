//! The order of work around the lockout: clearance before new material, cleaning before a product that
//! lacks an allergen, first pieces before the run.
//!
//! Looks back from each step over what was done before it, by the marks of the steps. Must never take a
//! title or a text for a mark: what the writer did not mark was not done.
//!
//! A mark counts only when the step that carries it is done by one person and seen by another; the step
//! itself is refused without both (`second-person-missing`), and counts here all the same, so that one
//! fault is said once.

use crate::packet::model::{Mark, Step};

/// Why a step may not stand where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// New material comes to a line that nobody cleared.
    NotCleared,
    /// New material comes before these allergens of the old product are cleaned out.
    NotCleaned(Vec<String>),
    /// The line runs with the labels unchecked, and these allergens were on the old ones.
    LabelNotChecked(Vec<String>),
    /// The line runs before its first pieces are measured.
    NoFirstPiece,
    /// Something is done after the line runs.
    AfterRun,
    /// No step brings material in and none runs the line: nothing can be said.
    Unmarked,
}

/// A step that stands in the wrong place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutOfOrder {
    /// Index of the step.
    pub step: usize,
    /// Why.
    pub why: Why,
}

/// Everything that is out of order, by step; `old` and `new` are the allergens of the two products.
///
/// Sources: 21 CFR 211.130(e) and EU GMP chapter 5 for the clearance, 21 CFR 117.135(c) for allergens,
/// practice for first pieces and the run.
pub fn check(steps: &[Step], old: &[String], new: &[String]) -> Vec<OutOfOrder> {
    let lacking: Vec<String> = old.iter().filter(|one| !new.contains(one)).cloned().collect();
    let mut found = Vec::new();
    let mut done: Vec<&Step> = Vec::new();
    for (index, step) in steps.iter().enumerate().filter(|(_, step)| step.stays.is_none()) {
        let why = faults(&done, step, &lacking);
        found.extend(why.into_iter().map(|why| OutOfOrder { step: index, why }));
        done.push(step);
    }
    if !has(&done, Mark::MaterialIn) && !has(&done, Mark::Run) {
        found.push(OutOfOrder { step: 0, why: Why::Unmarked });
    }
    found
}

fn faults(done: &[&Step], step: &Step, lacking: &[String]) -> Vec<Why> {
    let mut found = Vec::new();
    let mut ask = |kept: bool, why: Why| {
        if !kept {
            found.push(why);
        }
    };
    if step.marks.contains(&Mark::MaterialIn) {
        ask(has(done, Mark::LineCleared), Why::NotCleared);
        let cleaned =
            lacking.is_empty() || done.iter().any(|earlier| is_proof_of_cleaning(earlier));
        ask(cleaned, Why::NotCleaned(lacking.to_vec()));
    }
    if step.marks.contains(&Mark::Run) {
        let checked = lacking.is_empty() || has(done, Mark::LabelChecked);
        ask(checked, Why::LabelNotChecked(lacking.to_vec()));
        let measured = |earlier: &&Step| !earlier.readings.is_empty();
        let proved = done.iter().filter(|earlier| earlier.marks.contains(&Mark::FirstPiece));
        ask(proved.copied().any(|earlier| measured(&earlier)), Why::NoFirstPiece);
    } else {
        // What may be done while the line runs needs no line that stands: parts go back to their place.
        let may_follow = step.may_be_outside() && step.marks.is_empty();
        ask(may_follow || !has(done, Mark::Run), Why::AfterRun);
    }
    found
}

/// A cleaning that says how it is known to be clean.
fn is_proof_of_cleaning(step: &Step) -> bool {
    let proved = !step.readings.is_empty() || !step.checks.is_empty();
    step.marks.contains(&Mark::Cleaned) && proved
}

fn has(done: &[&Step], mark: Mark) -> bool {
    done.iter().any(|step| step.marks.contains(&mark))
}

#[cfg(test)]
mod tests {
    use super::{Why, check};
    use crate::packet::model::{Mark, Reading, Step};
    use crate::procedure::protect::tests::step;

    /// A step by its marks: `cleaned+line-cleared`; `work` has none, `?` behind takes its checks and
    /// readings away, `!` says that it stays, `~` that the line may run.
    fn marked(word: &str) -> Step {
        let bare = word.trim_end_matches(['?', '!', '~']);
        let marks = bare.split('+').filter(|mark| *mark != "work");
        let marks: Vec<Mark> =
            marks.map(|mark| serde_json::from_str(&format!("\"{mark}\"")).unwrap()).collect();
        let mut step = Step { marks, ..step("work") };
        if !word.ends_with('?') {
            step.checks = vec!["seen".to_owned()];
            step.readings = vec![Reading {
                id: "a/b".to_owned(),
                label: String::new(),
                unit: String::new(),
                target: None,
                low: None,
                high: None,
                guard: None,
                also_limits: String::new(),
                instrument: None,
                outside: String::new(),
                never_accepted: false,
            }];
        }
        step.while_running = word.ends_with('~');
        step.stays = word.ends_with('!').then(|| "nothing changes".to_owned());
        step
    }

    #[track_caller]
    fn expect(steps: &str, allergens: [&[&str]; 2], expected: &[(usize, Why)]) {
        let steps: Vec<Step> = steps.split(' ').map(marked).collect();
        let [old, new] = allergens.map(|some| some.iter().map(|a| (*a).to_owned()).collect());
        let found: Vec<Vec<String>> = vec![old, new];
        let found = check(&steps, &found[0], &found[1]).into_iter().map(|one| (one.step, one.why));
        assert_eq!(found.collect::<Vec<_>>(), expected);
    }

    const MUSTARD: [&[&str]; 2] = [&["mustard"], &[]];
    const NONE: [&[&str]; 2] = [&[], &["celery"]];

    fn mustard() -> Vec<String> {
        vec!["mustard".to_owned()]
    }

    #[test]
    fn the_whole_order_passes() {
        let all = "work cleaned line-cleared material-in label-checked first-piece run";
        expect(all, MUSTARD, &[]);
        expect("line-cleared material-in material-in first-piece run", NONE, &[]);
    }

    #[test]
    fn material_waits_for_the_clearance() {
        let found = [(0, Why::NotCleared)];
        expect("material-in line-cleared first-piece run", NONE, &found);
        expect("line-cleared! material-in first-piece run", NONE, &[(1, Why::NotCleared)]);
    }

    #[test]
    fn an_allergen_that_the_new_product_lacks_is_cleaned_out_and_looked_for_on_the_label() {
        let found = [(1, Why::NotCleaned(mustard())), (3, Why::LabelNotChecked(mustard()))];
        expect("line-cleared material-in first-piece run", MUSTARD, &found);
        let found = [(1, Why::NotCleaned(mustard()))];
        expect("line-cleared+cleaned? material-in label-checked first-piece run", MUSTARD, &found);
        expect("line-cleared material-in first-piece run", [&["celery"], &["celery"]], &[]);
    }

    #[test]
    fn first_pieces_are_measured_before_the_run_and_nothing_comes_after_it() {
        let found = [(1, Why::NoFirstPiece), (2, Why::AfterRun)];
        expect("line-cleared run first-piece", NONE, &found);
        expect("first-piece? run", NONE, &[(1, Why::NoFirstPiece)]);
        expect("first-piece run work!", NONE, &[]);
        expect("first-piece run work~", NONE, &[]);
        expect("first-piece run label-checked~", NONE, &[(2, Why::AfterRun)]);
    }

    #[test]
    fn nothing_is_said_without_marks() {
        expect("work work", NONE, &[(0, Why::Unmarked)]);
    }
}
