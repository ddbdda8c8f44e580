//! Rules of hazard messages: signal words, signs, protective equipment.

use super::did_you_mean;
use crate::finding::{Findings, Place};
use crate::packet::model::Signal;
use crate::trade::signs::{SIGNS, SafetySign};

impl Findings {
    /// A hazard message without one of its parts (ANSI Z535.4: hazard, consequence, avoidance).
    pub fn hazard_part_missing(&mut self, at: &Place, id: &str, part: &str, signal: Signal) {
        let word = signal.word();
        let message = format!("the hazard message `{id}` has a signal word {word} but no {part}");
        let way_out =
            "say the hazard, what may happen, and how to avoid it, in words (ANSI Z535.4)"
                .to_owned();
        self.error("hazard-part-missing", at, message, way_out);
    }

    /// A signal word that does not follow from the harm.
    pub fn signal_disagrees(&mut self, at: &Place, id: &str, written: Signal, follows: Signal) {
        let (written, follows) = (written.word(), follows.word());
        let message = format!("`{id}` says {written}, but its `harm` and `follows` give {follows}");
        let way_out =
            "leave `signal` out, or correct `harm` and `follows`: DANGER is for death or \
                       serious injury that will follow, NOTICE never for an injury \
                       (ANSI Z535.4 cl. 4.14, ISO 3864-2)"
                .to_owned();
        self.error("signal-disagrees", at, message, way_out);
    }

    /// Words of the consequence that are graver than the harm stated.
    pub fn harm_too_low(&mut self, at: &Place, id: &str, word: &str) {
        let message = format!("the consequence of `{id}` says `{word}`, its `harm` says less");
        let way_out =
            "state the worst harm that can credibly follow, or say in the consequence what \
                       follows really (ANSI Z535.4 cl. 4.14)"
                .to_owned();
        self.warning("harm-too-low", at, message, way_out);
    }

    /// A plant's message says less than the shipped one whose place it takes.
    pub fn hazard_softened(&mut self, at: &Place, id: &str, before: Signal, now: Signal) {
        let (before, now) = (before.word(), now.word());
        let message = format!("`{id}` says {now}, the shipped message says {before}");
        let way_out = "give the message a name of its own where the harm is less, and leave the \
                       shipped one to the rest (ANSI Z535.4 cl. 4.14)"
            .to_owned();
        self.warning("hazard-softened", at, message, way_out);
    }

    /// Something that has to be done and signed stands in a message, where nobody signs it.
    pub fn avoidance_is_a_step(&mut self, at: &Place, id: &str, words: &str) {
        let message = format!("the avoidance of `{id}` has an action to be signed: `{words}`");
        let way_out =
            "make it a numbered step with a blank or a check; a message says how to keep \
                       clear (EN 82079-1)"
                .to_owned();
        self.warning("avoidance-is-a-step", at, message, way_out);
    }

    /// A sign that is not in the table.
    pub fn unknown_sign(&mut self, at: &Place, sign: &str) {
        let known: Vec<&str> = SIGNS.iter().map(|sign| sign.id).collect();
        let message = format!("there is no safety sign `{sign}` here");
        self.error("unknown-sign", at, message, did_you_mean(sign, &known));
    }

    /// Signs that say what to do, and none that says what may hurt.
    pub fn no_warning_sign(&mut self, at: &Place, id: &str) {
        let message = format!("`{id}` may hurt somebody, but none of its signs is a warning");
        let way_out =
            "put the warning sign first, for example W022 before M009; W001 where no other \
                       fits (ISO 7010)"
                .to_owned();
        self.warning("no-warning-sign", at, message, way_out);
    }

    /// A warning sign beside NOTICE, which is never about an injury.
    pub fn warning_on_notice(&mut self, at: &Place, id: &str, sign: &str) {
        let message = format!("`{id}` is a NOTICE, but {sign} warns of an injury");
        let way_out = "take the sign away, or state the `harm` to people (ANSI Z535.4 cl. 4.14.4)";
        self.error("warning-on-notice", at, message, way_out.to_owned());
    }

    /// A source whose hazards do not show the sign of its kind.
    pub fn source_sign_missing(&mut self, at: &Place, source: &str, kind: &str, sign: SafetySign) {
        let SafetySign { id, title } = sign;
        let message = format!(
            "the source `{source}` is {kind}, but none of its hazards shows {id} ({title})"
        );
        let way_out = format!("name a hazard with the sign {id}, or add it to one (ISO 7010)");
        self.warning("source-sign-missing", at, message, way_out);
    }

    /// A step that names a hazard of a zone and not that somebody reaches in there.
    pub fn hazard_without_zone(&mut self, at: &Place, hazard: &str, zone: &str) {
        let message = format!(
            "`{hazard}` is met by who reaches into `{zone}`, and this step neither names a zone nor \
             needs isolation"
        );
        let way_out = format!(
            "write `needs: isolated` and `zone: {zone}`, or take the hazard away when nobody reaches \
             in (29 CFR 1910.147(d)(6))"
        );
        self.warning("hazard-without-zone", at, message, way_out);
    }

    /// A step under power at which one message wants gloves and another forbids them.
    pub fn gloves_forbidden(&mut self, at: &Place, forbids: &str, asks: &str, gear: &str) {
        let message =
            format!("under power, `{forbids}` forbids gloves, but `{asks}` asks for `{gear}`");
        let way_out = "do the step with the power locked out, or apart from the parts that turn \
                       (ISO 7010 P028, from memory)"
            .to_owned();
        self.warning("gloves-forbidden", at, message, way_out);
    }
}
