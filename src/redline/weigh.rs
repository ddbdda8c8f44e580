//! What weighs for safety: protection that is taken away, or made weaker, or simply other.
//!
//! When it cannot tell whether a limit became wider, it says so: better one mark too many. Must never
//! be read the other way round: a change without a mark was not found to be harmless.

use std::cmp::Ordering;

use serde::Serialize;

use super::fields::Field;
use super::{Subject, What};
use crate::packet::model::{EnergyState, Stage};
use crate::plant::shape::{LineWord, StepEntry};
use crate::quantity::{Allowed, Measure, Number, Quantity};

/// Why a change weighs for safety.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Weight {
    /// A hazard is no longer named.
    HazardDropped,
    /// A step of the lockout is gone.
    LockoutStepRemoved,
    /// A step that somebody is protected by, or that reaches in, is gone.
    StepRemoved,
    /// A step of the lockout is new: the order of the lockout is another.
    LockoutStepAdded,
    /// A step of the lockout stands elsewhere.
    LockoutStepMoved,
    /// A step of the lockout is told in other words.
    LockoutReworded,
    /// The second person is gone.
    SecondPersonDropped,
    /// A signature is gone.
    SignOffDropped,
    /// Another role signs.
    SignerChanged,
    /// A reading or its limit is gone, or the limit is wider.
    LimitWidened,
    /// A limit is another one, and which is wider cannot be told.
    LimitChanged,
    /// Somebody may accept a reading that nobody might.
    MayBeAccepted,
    /// A step may be left out.
    MayBeLeftOut,
    /// A check of a step of the lockout is gone.
    CheckDropped,
    /// A step needs another state of energy, or plays another part in the lockout.
    EnergyStateChanged,
    /// Another zone is reached into.
    ZoneChanged,
    /// Why no lockout is needed.
    MinorServicing,
    /// What a step is repeated for.
    RepeatChanged,
    /// An energy source, or how it is held.
    EnergySource,
    /// What proves that a source is at zero.
    ZeroChanged,
    /// A zone: its guard, or the sources that reach in.
    GuardChanged,
    /// Powered movement with a guard open.
    InchingChanged,
    /// Which procedures a changeover has, in which order.
    ChangeoverChanged,
    /// What a hazard message says.
    MessageChanged,
    /// An allergen is no longer named.
    AllergenDropped,
    /// Who may do, accept, approve or sign.
    WhoMay,
    /// Who works under one lockout.
    CrewChanged,
    /// A step may be done while the line runs.
    LineRuns,
    /// Fewer people do a step.
    FewerPeople,
    /// More is under way in a zone at once.
    MoreAtOnce,
    /// What is done before a procedure begins.
    AfterChanged,
}

impl Weight {
    /// The key of its words.
    pub fn key(self) -> &'static str {
        match self {
            Weight::HazardDropped => "redline-hazard-dropped",
            Weight::LockoutStepRemoved => "redline-lockout-step-removed",
            Weight::StepRemoved => "redline-guarded-step-removed",
            Weight::LockoutStepAdded => "redline-lockout-step-added",
            Weight::LockoutStepMoved => "redline-lockout-step-moved",
            Weight::LockoutReworded => "redline-lockout-reworded",
            Weight::SecondPersonDropped => "redline-second-person-dropped",
            Weight::SignOffDropped => "redline-sign-off-dropped",
            Weight::SignerChanged => "redline-signer-changed",
            Weight::LimitWidened => "redline-limit-widened",
            Weight::LimitChanged => "redline-limit-changed",
            Weight::MayBeAccepted => "redline-may-be-accepted",
            Weight::MayBeLeftOut => "redline-may-be-left-out",
            Weight::CheckDropped => "redline-check-dropped",
            Weight::EnergyStateChanged => "redline-energy-state-changed",
            Weight::ZoneChanged => "redline-zone-changed",
            Weight::MinorServicing => "redline-minor-servicing",
            Weight::RepeatChanged => "redline-repeat-changed",
            Weight::EnergySource => "redline-energy-source",
            Weight::ZeroChanged => "redline-zero-changed",
            Weight::GuardChanged => "redline-guard-changed",
            Weight::InchingChanged => "redline-inching-changed",
            Weight::ChangeoverChanged => "redline-changeover-changed",
            Weight::MessageChanged => "redline-message-changed",
            Weight::AllergenDropped => "redline-allergen-dropped",
            Weight::WhoMay => "redline-who-may",
            Weight::CrewChanged => "redline-crew-changed",
            Weight::LineRuns => "redline-line-runs",
            Weight::FewerPeople => "redline-fewer-people",
            Weight::MoreAtOnce => "redline-more-at-once",
            Weight::AfterChanged => "redline-after-changed",
        }
    }
}

fn is_lockout(step: &StepEntry) -> bool {
    step.stage != Stage::Work || step.block.is_some()
}

/// Whether somebody is protected by it, or reaches in.
fn is_guarded(step: &StepEntry) -> bool {
    is_lockout(step)
        || step.needs == EnergyState::Isolated
        || !step.hazards.is_empty()
        || !step.marks.is_empty()
        || step.sign.verified.is_some()
        || step.reading.is_some()
}

/// A step that is new or gone.
pub(super) fn whole_step(step: &StepEntry, what: What) -> Option<Weight> {
    match what {
        What::Removed if is_lockout(step) => Some(Weight::LockoutStepRemoved),
        What::Removed => is_guarded(step).then_some(Weight::StepRemoved),
        _ => is_lockout(step).then_some(Weight::LockoutStepAdded),
    }
}

/// A step that stands elsewhere.
pub(super) fn moved(old: &StepEntry, new: &StepEntry) -> Option<Weight> {
    let counts = |step| is_lockout(step) || step.needs == EnergyState::Isolated;
    (counts(old) || counts(new)).then_some(Weight::LockoutStepMoved)
}

/// A step whose prose is another one.
pub(super) fn reworded(old: &StepEntry, new: &StepEntry) -> Option<Weight> {
    (is_lockout(old) || is_lockout(new)).then_some(Weight::LockoutReworded)
}

/// A field of a step's block.
pub(super) fn step_field(old: &StepEntry, new: &StepEntry, field: &Field) -> Option<Weight> {
    let (what, path) = (field.what, path(field));
    match path.as_slice() {
        ["hazards", ..] => (what == What::Removed).then_some(Weight::HazardDropped),
        ["sign"] if what == What::Removed => Some(match old.sign.verified {
            Some(_) => Weight::SecondPersonDropped,
            None => Weight::SignOffDropped,
        }),
        ["sign", "verified"] if what == What::Removed => Some(Weight::SecondPersonDropped),
        ["sign", _] if what == What::Removed => Some(Weight::SignOffDropped),
        ["sign", _] if what == What::Changed => Some(Weight::SignerChanged),
        ["reading", rest @ ..] => reading(field, rest),
        ["needs" | "stage" | "block"] => Some(Weight::EnergyStateChanged),
        ["zone"] => Some(Weight::ZoneChanged),
        ["marks", ..] if what != What::Added => Some(Weight::EnergyStateChanged),
        ["minor_servicing", ..] => Some(Weight::MinorServicing),
        ["when", ..] if what != What::Removed && is_guarded(new) => Some(Weight::MayBeLeftOut),
        ["when"] => None,
        ["when", ..] if is_guarded(new) => Some(Weight::MayBeLeftOut),
        ["repeat"] if is_lockout(old) || is_lockout(new) => Some(Weight::RepeatChanged),
        ["checks", ..] if what == What::Removed && is_lockout(old) => Some(Weight::CheckDropped),
        ["line"] => (new.line == LineWord::Running).then_some(Weight::LineRuns),
        ["people"] => (new.people < old.people).then_some(Weight::FewerPeople),
        _ => None,
    }
}

fn reading(field: &Field, rest: &[&str]) -> Option<Weight> {
    match rest {
        [] => (field.what == What::Removed).then_some(Weight::LimitWidened),
        ["accept"] => (field.before == "never").then_some(Weight::MayBeAccepted),
        ["low"] => end(field, Ordering::Less),
        ["high"] => end(field, Ordering::Greater),
        ["unit" | "of"] => Some(Weight::LimitChanged),
        _ => None,
    }
}

/// One end of a limit: which way it widens is `wider`.
fn end(field: &Field, wider: Ordering) -> Option<Weight> {
    match field.what {
        What::Added => None,
        What::Removed => Some(Weight::LimitWidened),
        _ => match compared(&field.before, &field.after) {
            Some(way) => (way == wider).then_some(Weight::LimitWidened),
            None => Some(Weight::LimitChanged),
        },
    }
}

/// How the second of two values compares with the first.
fn compared(before: &str, after: &str) -> Option<Ordering> {
    if let (Ok(before), Ok(after)) = (Number::parse(before), Number::parse(after)) {
        let difference = after.sub(before).ok()?;
        return Some(sign(difference));
    }
    let read = |text| Measure::parse(text).ok().map(|measure| measure.quantity);
    read(after)?.compare(read(before)?).ok()
}

fn sign(number: Number) -> Ordering {
    match (number.is_zero(), number.is_negative()) {
        (true, _) => Ordering::Equal,
        (_, true) => Ordering::Less,
        _ => Ordering::Greater,
    }
}

/// A tolerance.
fn tolerance(field: &Field) -> Option<Weight> {
    match field.what {
        What::Added => None,
        What::Removed => Some(Weight::LimitWidened),
        _ => match is_wider(&field.before, &field.after) {
            Some(wider) => wider.then_some(Weight::LimitWidened),
            None => Some(Weight::LimitChanged),
        },
    }
}

/// Whether the second of two tolerances lets anything through that the first does not; none when it
/// cannot be told.
fn is_wider(before: &str, after: &str) -> Option<bool> {
    let ends = |allowed: Allowed| match allowed {
        Allowed::Deviations(own) => Some((true, Some(own.lower), Some(own.upper))),
        Allowed::Range(own, _) => Some((false, own.low, own.high)),
        Allowed::General(_) => None,
    };
    let (kind, low, high) = ends(Allowed::parse(before).ok()?)?;
    let (other, new_low, new_high) = ends(Allowed::parse(after).ok()?)?;
    if kind != other {
        return None;
    }
    let passes = |old: Option<Quantity>, new: Option<Quantity>, wider| match (old, new) {
        (None, _) => Some(false),
        (Some(_), None) => Some(true),
        (Some(old), Some(new)) => Some(new.compare(old).ok()? == wider),
    };
    Some(passes(low, new_low, Ordering::Less)? || passes(high, new_high, Ordering::Greater)?)
}

/// A field outside the steps.
pub(super) fn field(subject: &Subject, field: &Field) -> Option<Weight> {
    let path = path(field);
    match subject {
        Subject::Machine(_) => machine(field, &path),
        Subject::Recipe(_) => recipe(field, &path),
        Subject::Job(_) => (path.first() == Some(&"lockout")).then_some(Weight::CrewChanged),
        Subject::File(file) => match file.as_str() {
            "plant.yaml" => plant(&path),
            "people.yaml" => who_may(field, &path),
            "allowed_signers" => Some(Weight::WhoMay),
            "hazards.yaml" | "shipped/hazards.yaml" => message(field, &path),
            _ => None,
        },
        Subject::Procedure(_) => match path.first() {
            Some(&"when") => Some(Weight::MayBeLeftOut),
            Some(&"after") => Some(Weight::AfterChanged),
            _ => None,
        },
        Subject::Translation(..) => None,
    }
}

fn machine(field: &Field, path: &[&str]) -> Option<Weight> {
    match path {
        ["energy", _, "zero", ..] => Some(Weight::ZeroChanged),
        ["energy", ..] => Some(Weight::EnergySource),
        ["zones"] | ["zones", _] => (field.what != What::Added).then_some(Weight::GuardChanged),
        ["zones", _, "hazards"] => (field.what == What::Removed).then_some(Weight::HazardDropped),
        ["zones", _, "name"] => None,
        ["zones", _, "at_once"] => more(field).then_some(Weight::MoreAtOnce),
        ["zones", ..] => Some(Weight::GuardChanged),
        ["inching", ..] | ["stop_position"] => Some(Weight::InchingChanged),
        ["changeover", ..] => Some(Weight::ChangeoverChanged),
        _ => None,
    }
}

/// Whether a count that is one when left out became greater, or nobody can tell.
fn more(field: &Field) -> bool {
    let count = |text: &'_ str| if text.is_empty() { Some(1) } else { text.parse::<u32>().ok() };
    count(&field.before).zip(count(&field.after)).is_none_or(|(before, after)| after > before)
}

fn recipe(field: &Field, path: &[&str]) -> Option<Weight> {
    match path {
        ["settings" | "layouts", _, "tolerance"] => tolerance(field),
        ["settings" | "layouts" | "net_contents" | "first_piece"]
        | ["settings" | "layouts", _]
        | ["first_piece", _] => (field.what == What::Removed).then_some(Weight::LimitWidened),
        ["net_contents", ..] => Some(Weight::LimitChanged),
        ["allergens", ..] => (field.what == What::Removed).then_some(Weight::AllergenDropped),
        _ => None,
    }
}

fn plant(path: &[&str]) -> Option<Weight> {
    match path.first().copied()? {
        "accepts_deviation" | "enforced_by" | "authorised" | "electrical" | "approvals"
        | "findings" => Some(Weight::WhoMay),
        "judging" => Some(Weight::LimitChanged),
        "changeovers" => Some(Weight::ChangeoverChanged),
        _ => None,
    }
}

fn who_may(field: &Field, path: &[&str]) -> Option<Weight> {
    let is_name = path.last() == Some(&"name") && field.what == What::Changed;
    (!is_name).then_some(Weight::WhoMay)
}

fn message(field: &Field, path: &[&str]) -> Option<Weight> {
    match path {
        ["hazards"] | ["hazards", _] => {
            (field.what == What::Removed).then_some(Weight::HazardDropped)
        }
        _ => Some(Weight::MessageChanged),
    }
}

fn path(field: &Field) -> Vec<&str> {
    field.path.iter().map(String::as_str).collect()
}

#[cfg(test)]
mod tests {
    use super::{compared, is_wider};

    #[track_caller]
    fn check(before: &str, after: &str, wider: Option<bool>, narrower: Option<bool>) {
        assert_eq!(is_wider(before, after), wider, "{before} -> {after}");
        assert_eq!(is_wider(after, before), narrower, "{after} -> {before}");
    }

    #[test]
    fn a_tolerance_is_wider_when_it_lets_more_through() {
        check("±0.5 mm", "±0.6 mm", Some(true), Some(false));
        check("±0.5 mm", "+0.5/-0.5 mm", Some(false), Some(false));
        check("±0.5 mm", "+0.6/-0.1 mm", Some(true), Some(true));
        check("±0.5 mm", "±0.02 in", Some(true), Some(false));
        check("3 to 5 N", "at least 3 N", Some(true), Some(false));
        check("3 to 5 N", "±1 N", None, None);
        check("ISO 2768-1 m", "ISO 2768-1 f", None, None);
        check("±0.5 mm", "±0.5 N", None, None);
        check("±0.5 mm", "soon", None, None);
    }

    #[test]
    fn limits_are_compared_as_numbers_or_measures() {
        use std::cmp::Ordering::{Equal, Greater, Less};
        assert_eq!(compared("5", "5.50"), Some(Greater));
        assert_eq!(compared("1 bar", "900 mbar"), Some(Less));
        assert_eq!(compared("1 in", "25.4 mm"), Some(Equal));
        assert_eq!(compared("1 in", "limit"), None);
    }
}
