//! A hazard message understood: its signal word worked out, its signs put in order.
//!
//! Must never soften a message: what does not agree is reported, and the graver reading stands.

use std::collections::BTreeMap;

use super::model::{EnergyState, Harm, Hazard, Signal};
use crate::finding::{Findings, Place};
use crate::plant::load::Loaded;
use crate::plant::shape::{Forbidden, HazardEntry, MachineFile};
use crate::trade::signs::{self, Kind, SafetySign};

/// Beginnings of words that tell the least harm a consequence can mean. Short on purpose: a word
/// that is in doubt is left out.
const TELLING: [(&str, Harm); 6] = [
    ("death", Harm::Death),
    ("kill", Harm::Death),
    ("fatal", Harm::Death),
    ("amputat", Harm::Serious),
    ("blind", Harm::Serious),
    ("crush", Harm::Moderate),
];

/// Actions that somebody has to do and sign. "The record" or "a sign" is a thing, not an action.
const SIGNED: [&str; 5] = ["measure", "record", "sign", "write down", "test that"];

/// Understands a hazard message.
pub(super) fn hazard(findings: &mut Findings, id: &str, loaded: &Loaded<HazardEntry>) -> Hazard {
    let entry = &loaded.body;
    let signal = Signal::of(entry.harm, entry.follows);
    texts(findings, id, loaded, signal);
    if let Some(written) = entry.signal.filter(|written| *written != signal) {
        findings.signal_disagrees(&loaded.place.at("signal"), id, written, signal);
    }
    Hazard {
        id: id.to_owned(),
        signal: entry.signal.map_or(signal, |written| written.min(signal)),
        hazard: entry.hazard.clone(),
        consequence: entry.consequence.clone(),
        avoid: entry.avoid.clone(),
        language: entry.language,
        signs: shown(findings, id, loaded),
    }
}

fn texts(findings: &mut Findings, id: &str, loaded: &Loaded<HazardEntry>, signal: Signal) {
    let HazardEntry { harm, hazard, consequence, avoid, .. } = &loaded.body;
    for (key, text) in [("hazard", hazard), ("consequence", consequence), ("avoid", avoid)] {
        if !text.chars().any(char::is_alphabetic) {
            findings.hazard_part_missing(&loaded.place.at(key), id, key, signal);
        }
    }
    if let Some(word) = graver(consequence, *harm) {
        findings.harm_too_low(&loaded.place.at("consequence"), id, &word);
    }
    if let Some(action) = signed_action(avoid) {
        findings.avoidance_is_a_step(&loaded.place.at("avoid"), id, action);
    }
}

/// A word of the consequence that means more than the harm stated.
fn graver(consequence: &str, harm: Harm) -> Option<String> {
    let means_more = |word: &String| {
        TELLING.iter().any(|(start, least)| {
            // A crushed carton is damage.
            let thing = harm == Harm::Damage && *least == Harm::Moderate;
            word.starts_with(start) && harm > *least && !thing
        })
    };
    words(consequence).into_iter().find(means_more)
}

/// An action in the avoidance that has to be signed.
fn signed_action(avoid: &str) -> Option<&'static str> {
    let words = words(avoid);
    let stands = |action: &str| {
        let action: Vec<&str> = action.split(' ').collect();
        let found = words.windows(action.len()).position(|some| some == action.as_slice());
        let before = |at: usize| at.checked_sub(1).and_then(|at| words.get(at));
        found.is_some_and(|at| !before(at).is_some_and(|word| is_article(word)))
    };
    SIGNED.into_iter().find(|action| stands(action))
}

fn is_article(word: &str) -> bool {
    ["a", "an", "the", "each", "every", "no", "this", "its"].contains(&word)
}

fn words(text: &str) -> Vec<String> {
    let split = text.split(|c: char| !c.is_alphanumeric());
    split.filter(|word| !word.is_empty()).map(str::to_lowercase).collect()
}

/// The signs that stand beside the message: those written and those of its gear, in their order.
fn shown(findings: &mut Findings, id: &str, loaded: &Loaded<HazardEntry>) -> Vec<String> {
    let HazardEntry { harm, signs: written, gear, .. } = &loaded.body;
    let at = loaded.place.at("signs");
    let mut known: Vec<SafetySign> = Vec::new();
    for (index, sign) in written.iter().enumerate() {
        match signs::find(sign) {
            Some(sign) => known.push(*sign),
            None => findings.unknown_sign(&at.item(index), sign),
        }
    }
    fits(findings, &at, id, *harm, &known);
    known.extend(gear.iter().filter_map(|item| signs::for_gear(item)));
    known.sort_by_key(|sign| sign.kind());
    let mut ids: Vec<String> = Vec::new();
    for sign in known {
        if !ids.iter().any(|id| id == sign.id) {
            ids.push(sign.id.to_owned());
        }
    }
    ids
}

fn fits(findings: &mut Findings, at: &Place, id: &str, harm: Harm, known: &[SafetySign]) {
    let warning = known.iter().find(|sign| sign.kind() == Kind::Warning);
    match warning {
        Some(sign) if harm == Harm::Damage => findings.warning_on_notice(at, id, sign.id),
        None if harm != Harm::Damage && !known.is_empty() => findings.no_warning_sign(at, id),
        _ => {}
    }
}

/// Live parts and hot parts have a sign of their own. Unknown hazards, and a source without any,
/// are judged where the machine is read.
pub(super) fn sources_show_their_sign(
    findings: &mut Findings,
    file: &Loaded<MachineFile>,
    known: &BTreeMap<String, Hazard>,
) {
    for (id, entry) in file.body.energy.iter() {
        let Some(sign) = signs::for_energy(&entry.kind) else { continue };
        let shows =
            |id: &String| known.get(id).is_none_or(|h| h.signs.iter().any(|s| s == sign.id));
        if !entry.hazards.is_empty() && !entry.hazards.iter().any(shows) {
            let at = file.place.at("energy").at(id).at("hazards");
            findings.source_sign_missing(&at, id, &entry.kind, *sign);
        }
    }
}

/// Reports gear that one message of a step wants and another forbids, when the step has power.
pub(super) fn gear_agrees(
    findings: &mut Findings,
    at: &Place,
    needs: EnergyState,
    messages: &[(&str, &HazardEntry)],
) {
    if matches!(needs, EnergyState::Any | EnergyState::Isolated) {
        return;
    }
    let forbids = |entry: &HazardEntry| entry.forbids.contains(&Forbidden::Gloves);
    let Some((forbidding, _)) = messages.iter().find(|(_, entry)| forbids(entry)) else { return };
    for (asking, entry) in messages {
        let gear = entry.gear.iter().find(|item| signs::is_gloves(item));
        if let Some(gear) = gear {
            findings.gloves_forbidden(at, forbidding, asking, gear);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Harm, graver, signed_action};
    use crate::packet::model::{Follows, Signal};

    #[test]
    fn the_signal_word_follows_from_harm_and_likelihood() {
        // Source: ANSI Z535.4 cl. 4.14.1-4.14.4, read second-hand.
        for (harm, will, could) in [
            (Harm::Death, Signal::Danger, Signal::Warning),
            (Harm::Serious, Signal::Danger, Signal::Warning),
            (Harm::Moderate, Signal::Caution, Signal::Caution),
            (Harm::Minor, Signal::Caution, Signal::Caution),
            (Harm::Damage, Signal::Notice, Signal::Notice),
        ] {
            assert_eq!(Signal::of(harm, Follows::Will), will, "{harm:?}");
            assert_eq!(Signal::of(harm, Follows::Could), could, "{harm:?}");
        }
    }

    #[track_caller]
    fn check_graver(consequence: &str, harm: Harm, word: Option<&str>) {
        assert_eq!(graver(consequence, harm).as_deref(), word, "{consequence}");
    }

    #[test]
    fn words_of_the_consequence_tell_the_least_harm() {
        check_graver("Electric shock kills.", Harm::Serious, Some("kills"));
        check_graver("Electric shock kills.", Harm::Death, None);
        check_graver("Amputation of fingers.", Harm::Moderate, Some("amputation"));
        check_graver("Crushed fingers.", Harm::Minor, Some("crushed"));
        check_graver("Crushed fingers.", Harm::Moderate, None);
        check_graver("Crushed cartons.", Harm::Damage, None);
        check_graver("Fatal mistake in the lot.", Harm::Damage, Some("fatal"));
        check_graver("Small cuts.", Harm::Minor, None);
    }

    #[track_caller]
    fn check_action(avoid: &str, action: Option<&str>) {
        assert_eq!(signed_action(avoid), action, "{avoid}");
    }

    #[test]
    fn what_must_be_signed_is_told_from_what_keeps_clear() {
        check_action("Measure the jaws before you touch them.", Some("measure"));
        check_action("Let it cool, then record the temperature.", Some("record"));
        check_action("Write down the time.", Some("write down"));
        check_action("Test that it is dead.", Some("test that"));
        check_action("Treat each part as live until it is measured dead.", None);
        check_action("Obey the sign at the door.", None);
        check_action("Keep hands out.", None);
        check_action("", None);
    }
}
