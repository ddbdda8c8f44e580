//! Rules of the machine's energy: sources, isolating devices, zeros, hot parts, inspection.

use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::plant::shape::TouchEntry;
use crate::trade::touch::Surface;

/// Rules of sources, 29 CFR 1910.147(d)(1) and (b).
impl Findings {
    /// A magnitude that is no number with a unit.
    pub fn magnitude_not_quantity(&mut self, at: &Place, text: &str, wanted: &Words) {
        self.error(
            "magnitude-not-quantity",
            at,
            &[("text", text.into()), ("wanted", wanted.into())],
        );
    }

    /// Volts of compressed air.
    pub fn magnitude_does_not_fit(&mut self, at: &Place, text: &str, kind: &str, wanted: &Words) {
        self.error(
            "magnitude-does-not-fit",
            at,
            &[("text", text.into()), ("kind", kind.into()), ("wanted", wanted.into())],
        );
    }

    /// A zero in a unit that the source cannot have.
    pub fn zero_does_not_fit(&mut self, at: &Place, unit: &str, kind: &str, wanted: &Words) {
        self.error(
            "zero-does-not-fit",
            at,
            &[("unit", unit.into()), ("kind", kind.into()), ("wanted", wanted.into())],
        );
    }

    /// A device whose name says that it only controls.
    pub fn control_device(&mut self, at: &Place, device: &str, words: &Words, known: &[&str]) {
        self.error(
            "control-device",
            at,
            &[
                ("device", device.into()),
                ("words", words.into()),
                ("known", known.join(", ").into()),
            ],
        );
    }

    /// A guarded place nobody is warned of.
    pub fn zone_without_hazard(&mut self, at: &Place, zone: &str) {
        self.error("zone-without-hazard", at, &[("zone", zone.into())]);
    }

    /// A source nobody is warned of.
    pub fn source_without_hazard(&mut self, at: &Place, name: &str) {
        self.error("source-without-hazard", at, &[("name", name.into())]);
    }
}

/// Rules of relieving and proving, 29 CFR 1910.147(d)(5)-(6).
impl Findings {
    /// A zero that any value above it would pass.
    pub fn zero_without_high(&mut self, at: &Place) {
        self.error("zero-without-high", at, &[]);
    }

    /// A zero that a live source passes.
    pub fn zero_too_high(&mut self, at: &Place, most: &str) {
        self.error("zero-too-high", at, &[("most", most.into())]);
    }

    /// An instrument that shows something else.
    pub fn zero_not_shown(&mut self, at: &Place, name: &str, what: &str) {
        self.error("zero-not-shown", at, &[("name", name.into()), ("what", what.into())]);
    }

    /// An instrument that the live source would overload.
    pub fn instrument_below_source(&mut self, at: &Place, name: &str, magnitude: &str) {
        self.error(
            "instrument-below-source",
            at,
            &[("name", name.into()), ("magnitude", magnitude.into())],
        );
    }

    /// A measured voltage without the points to measure between.
    pub fn no_conductors(&mut self, at: &Place, name: &str) {
        self.error("no-conductors", at, &[("name", name.into())]);
    }

    /// A conductor that makes no pairs.
    pub fn bad_conductor(&mut self, at: &Place, conductor: &str, why: &Words) {
        self.error("bad-conductor", at, &[("conductor", conductor.into()), ("why", why.into())]);
    }

    /// A wait that nobody can time.
    pub fn wait_without_time(&mut self, at: &Place, said: &str) {
        self.error("wait-without-time", at, &[("said", said.into())]);
    }

    /// Two times for one wait.
    pub fn wait_differs(&mut self, at: &Place, wait: &str, said: &str) {
        self.error("wait-differs", at, &[("wait", wait.into()), ("said", said.into())]);
    }

    /// A hot source, and nothing is said about touching it.
    pub fn touch_missing(&mut self, at: &Place, name: &str, magnitude: &str) {
        self.error("touch-missing", at, &[("name", name.into()), ("magnitude", magnitude.into())]);
    }

    /// Hot parts of something that is not hot.
    pub fn touch_not_thermal(&mut self, at: &Place, kind: &str) {
        self.error("touch-not-thermal", at, &[("kind", kind.into())]);
    }

    /// A bare hand on something that burns and still counts as zero.
    pub fn zero_above_touch(
        &mut self,
        at: &Place,
        touch: &TouchEntry,
        threshold: &str,
        source: &str,
    ) {
        let TouchEntry { part, surface, lasts, .. } = touch;
        self.error(
            "zero-above-touch",
            at,
            &[
                ("part", part.into()),
                ("surface", words_of(*surface).into()),
                ("lasts", lasts.into()),
                ("threshold", threshold.into()),
                ("source", source.into()),
            ],
        );
    }

    /// A touch too short for the published figures.
    pub fn contact_too_short(&mut self, at: &Place, lasts: &str) {
        self.error("contact-too-short", at, &[("lasts", lasts.into())]);
    }

    /// An estimate of cooling that cannot be made.
    pub fn no_cooling(&mut self, at: &Place, why: &Words) {
        self.error("no-cooling", at, &[("why", why.into())]);
    }

    /// Parts that move or drop, and no place where they stop.
    pub fn stop_position_missing(&mut self, at: &Place, name: &str) {
        self.warning("stop-position-missing", at, &[("name", name.into())]);
    }
}

/// Rules of powered movement with a guard open: UK HSE, printing machinery, an analogy.
impl Findings {
    /// A control that runs on when it is let go.
    pub fn not_hold_to_run(&mut self, at: &Place, held: &str) {
        self.warning("not-hold-to-run", at, &[("held", held.into())]);
    }

    /// A movement that is not small any more.
    pub fn inching_too_far(&mut self, at: &Place, most: &str, limit: &Words) {
        self.warning("inching-too-far", at, &[("most", most.into()), ("limit", limit.into())]);
    }

    /// A movement in kilograms.
    pub fn inching_not_measured(&mut self, at: &Place, most: &str) {
        self.error("inching-not-measured", at, &[("most", most.into())]);
    }
}

/// Rules of the lockout program, 29 CFR 1910.147(c)(4) and (c)(6).
impl Findings {
    /// A lockout procedure nobody ever inspected.
    pub fn inspection_missing(&mut self, at: &Place) {
        self.warning("inspection-missing", at, &[]);
    }

    /// An inspection of too long ago.
    pub fn inspection_over(&mut self, at: &Place, machine: &str, date: &str) {
        self.warning("inspection-over", at, &[("machine", machine.into()), ("date", date.into())]);
    }

    /// Somebody who inspects what this person does.
    pub fn inspector_among_people(&mut self, at: &Place, inspector: &str) {
        self.error("inspector-among-people", at, &[("inspector", inspector.into())]);
    }

    /// A plant that locks out, and nobody sees to it.
    pub fn nobody_enforces(&mut self, at: &Place) {
        self.error("nobody-enforces", at, &[]);
    }

    /// A lockout procedure that does not say what it is for.
    pub fn no_intended_use(&mut self, at: &Place, procedure: &str) {
        self.error("no-intended-use", at, &[("procedure", procedure.into())]);
    }
}

/// A surface, in the language of the finding.
fn words_of(surface: Surface) -> Words {
    Words::of(match surface {
        Surface::BareMetal => "finding-bare-metal",
        Surface::CoatedMetal => "finding-coated-metal",
        Surface::Ceramic => "finding-ceramic",
        Surface::Plastic => "finding-plastic",
        Surface::Wood => "finding-wood",
    })
}
