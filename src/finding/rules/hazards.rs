//! Rules of hazard messages: signal words, signs, protective equipment.

use super::did_you_mean;
use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::packet::model::Signal;
use crate::trade::signs::{SIGNS, SafetySign};

impl Findings {
    /// A hazard message without one of its parts (ANSI Z535.4: hazard, consequence, avoidance).
    pub fn hazard_part_missing(&mut self, at: &Place, id: &str, part: &str, signal: Signal) {
        let word = word_of(signal);
        self.error(
            "hazard-part-missing",
            at,
            &[("id", id.into()), ("word", word.into()), ("part", part.into())],
        );
    }

    /// A signal word that does not follow from the harm.
    pub fn signal_disagrees(&mut self, at: &Place, id: &str, written: Signal, follows: Signal) {
        let (written, follows) = (word_of(written), word_of(follows));
        self.error(
            "signal-disagrees",
            at,
            &[("id", id.into()), ("written", written.into()), ("follows", follows.into())],
        );
    }

    /// Words of the consequence that are graver than the harm stated.
    pub fn harm_too_low(&mut self, at: &Place, id: &str, word: &str) {
        self.warning("harm-too-low", at, &[("id", id.into()), ("word", word.into())]);
    }

    /// A plant's message says less than the shipped one whose place it takes.
    pub fn hazard_softened(&mut self, at: &Place, id: &str, before: Signal, now: Signal) {
        let (before, now) = (word_of(before), word_of(now));
        self.warning(
            "hazard-softened",
            at,
            &[("id", id.into()), ("now", now.into()), ("before", before.into())],
        );
    }

    /// Something that has to be done and signed stands in a message, where nobody signs it.
    pub fn avoidance_is_a_step(&mut self, at: &Place, id: &str, words: &str) {
        self.warning("avoidance-is-a-step", at, &[("id", id.into()), ("words", words.into())]);
    }

    /// A sign that is not in the table.
    pub fn unknown_sign(&mut self, at: &Place, sign: &str) {
        let known: Vec<&str> = SIGNS.iter().map(|sign| sign.id).collect();
        self.error(
            "unknown-sign",
            at,
            &[("sign", sign.into()), ("nearest", did_you_mean(sign, &known).into())],
        );
    }

    /// Signs that say what to do, and none that says what may hurt.
    pub fn no_warning_sign(&mut self, at: &Place, id: &str) {
        self.warning("no-warning-sign", at, &[("id", id.into())]);
    }

    /// A warning sign beside NOTICE, which is never about an injury.
    pub fn warning_on_notice(&mut self, at: &Place, id: &str, sign: &str) {
        self.error("warning-on-notice", at, &[("id", id.into()), ("sign", sign.into())]);
    }

    /// A source whose hazards do not show the sign of its kind.
    pub fn source_sign_missing(&mut self, at: &Place, source: &str, kind: &str, sign: SafetySign) {
        let SafetySign { id, title } = sign;
        self.warning(
            "source-sign-missing",
            at,
            &[
                ("source", source.into()),
                ("kind", kind.into()),
                ("id", id.into()),
                ("title", title.into()),
            ],
        );
    }

    /// A step that names a hazard of a zone and not that somebody reaches in there.
    pub fn hazard_without_zone(&mut self, at: &Place, hazard: &str, zone: &str) {
        self.warning(
            "hazard-without-zone",
            at,
            &[("hazard", hazard.into()), ("zone", zone.into())],
        );
    }

    /// A step under power at which one message wants gloves and another forbids them.
    pub fn gloves_forbidden(&mut self, at: &Place, forbids: &str, asks: &str, gear: &str) {
        self.warning(
            "gloves-forbidden",
            at,
            &[("forbids", forbids.into()), ("asks", asks.into()), ("gear", gear.into())],
        );
    }
}

/// A signal word, in the language of the finding.
fn word_of(signal: Signal) -> Words {
    Words::of(match signal {
        Signal::Danger => "signal-danger",
        Signal::Warning => "signal-warning",
        Signal::Caution => "signal-caution",
        Signal::Notice => "signal-notice",
    })
}
