//! Rules of the machine's energy: sources, isolating devices, zeros, hot parts, inspection.

use crate::finding::{Findings, Place};
use crate::language::Language;
use crate::plant::shape::TouchEntry;

/// Rules of sources, 29 CFR 1910.147(d)(1) and (b).
impl Findings {
    /// A magnitude that is no number with a unit.
    pub fn magnitude_not_quantity(&mut self, at: &Place, text: &str, wanted: &str) {
        let message = format!("`{text}` does not say how much energy there is");
        let way_out = format!("write {wanted}, several with `, ` between (29 CFR 1910.147(d)(1))");
        self.error("magnitude-not-quantity", at, message, way_out);
    }

    /// Volts of compressed air.
    pub fn magnitude_does_not_fit(&mut self, at: &Place, text: &str, kind: &str, wanted: &str) {
        let message = format!("`{text}` is no magnitude of a source of the kind `{kind}`");
        let way_out = format!("write {wanted} first (29 CFR 1910.147(d)(1))");
        self.error("magnitude-does-not-fit", at, message, way_out);
    }

    /// A zero in a unit that the source cannot have.
    pub fn zero_does_not_fit(&mut self, at: &Place, unit: &str, kind: &str, wanted: &str) {
        let message = format!("`{unit}` measures no zero of a source of the kind `{kind}`");
        let way_out = format!("give the unit of {wanted} (29 CFR 1910.147(d)(6))");
        self.error("zero-does-not-fit", at, message, way_out);
    }

    /// A device whose name says that it only controls.
    pub fn control_device(&mut self, at: &Place, device: &str, words: &str, known: &[&str]) {
        let message = format!(
            "`{device}` is a control device ({words}): it stops the machine and isolates nothing \
             (29 CFR 1910.147(b), 1910.333(b)(2)(ii))"
        );
        let way_out = format!("name the device that holds the energy back: {}", known.join(", "));
        self.error("control-device", at, message, way_out);
    }

    /// A guarded place nobody is warned of.
    pub fn zone_without_hazard(&mut self, at: &Place, zone: &str) {
        let message = format!("the zone `{zone}` names no hazard");
        let way_out = "add `hazards: [...]`: who reaches behind a guard has to know why it is there \
                       (29 CFR 1910.147(d)(1), 1910.212(a)(1))";
        self.error("zone-without-hazard", at, message, way_out.to_owned());
    }

    /// A source nobody is warned of.
    pub fn source_without_hazard(&mut self, at: &Place, name: &str) {
        let message = format!("{name} names no hazard");
        let way_out = "add `hazards: [...]`: who locks a source has to know what it can do \
                       (29 CFR 1910.147(d)(1))";
        self.error("source-without-hazard", at, message, way_out.to_owned());
    }
}

/// Rules of relieving and proving, 29 CFR 1910.147(d)(5)-(6).
impl Findings {
    /// A zero that any value above it would pass.
    pub fn zero_without_high(&mut self, at: &Place) {
        let message = "this zero has no highest value: the live source would pass".to_owned();
        let way_out = "add `high: 0`, or the most that hurts nobody (29 CFR 1910.147(d)(6))";
        self.error("zero-without-high", at, message, way_out.to_owned());
    }

    /// A zero that a live source passes.
    pub fn zero_too_high(&mut self, at: &Place, most: &str) {
        let message = format!("this zero does not lie below {most}: a live source would pass");
        let way_out = "write the most that hurts nobody (29 CFR 1910.147(d)(6); 1910.333(a)(1) for \
                       parts below 50 V, from memory)";
        self.error("zero-too-high", at, message, way_out.to_owned());
    }

    /// An instrument that shows something else.
    pub fn zero_not_shown(&mut self, at: &Place, name: &str, what: &str) {
        let message = format!("{name} does not show `{what}`");
        let way_out = "name the instrument that proves this zero (29 CFR 1910.147(d)(6))";
        self.error("zero-not-shown", at, message, way_out.to_owned());
    }

    /// An instrument that the live source would overload.
    pub fn instrument_below_source(&mut self, at: &Place, name: &str, magnitude: &str) {
        let message =
            format!("the range of {name} ends below {magnitude}, which may still be there");
        let way_out = "name an instrument whose range holds the live source (29 CFR 1910.334(c)(3), \
                       from memory)";
        self.error("instrument-below-source", at, message, way_out.to_owned());
    }

    /// A measured voltage without the points to measure between.
    pub fn no_conductors(&mut self, at: &Place, name: &str) {
        let message =
            format!("nothing says between which conductors the zero of {name} is measured");
        let way_out = "add `conductors: [L1, L2, L3]`, with N where it is wired: the pairs follow \
                       from them (NFPA 70E 120.5, step 7)";
        self.error("no-conductors", at, message, way_out.to_owned());
    }

    /// A conductor that makes no pairs.
    pub fn bad_conductor(&mut self, at: &Place, conductor: &str, why: &str) {
        let message = format!("`{conductor}` {why}");
        let way_out = "name each live conductor of an electrical source once, as its terminal does";
        self.error("bad-conductor", at, message, way_out.to_owned());
    }

    /// A wait that nobody can time.
    pub fn wait_without_time(&mut self, at: &Place, said: &str) {
        let message = format!("the text says to wait {said}, and no blank for the time follows");
        let way_out = format!("add `wait: {said}` to the source (29 CFR 1910.147(d)(5)(i))");
        self.error("wait-without-time", at, message, way_out);
    }

    /// Two times for one wait.
    pub fn wait_differs(&mut self, at: &Place, wait: &str, said: &str) {
        let message = format!("the wait is {wait} here and {said} in `relieve`");
        let way_out = "write the time of the maker's label, in one place".to_owned();
        self.error("wait-differs", at, message, way_out);
    }

    /// A hot source, and nothing is said about touching it.
    pub fn touch_missing(&mut self, at: &Place, name: &str, magnitude: &str) {
        let message = format!("{name} has {magnitude}, and nothing says which parts are touched");
        let way_out = "add `touch: [{ part: ..., surface: bare-metal, lasts: 1 min }]` \
                       (EN 563, ISO 13732-1: from 43 °C on a touch can burn)";
        self.error("touch-missing", at, message, way_out.to_owned());
    }

    /// Hot parts of something that is not hot.
    pub fn touch_not_thermal(&mut self, at: &Place, kind: &str) {
        let message = format!("a source of the kind `{kind}` has no hot parts");
        let way_out = "list the parts under a source of the kind `thermal`".to_owned();
        self.error("touch-not-thermal", at, message, way_out);
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
        let message = format!(
            "a touch of {part} ({}, {lasts}) burns above {threshold}, and the zero allows more \
             ({source})",
            surface.words(Language::English)
        );
        let way_out = format!("lower `high` of the zero to {threshold} or less, or name `gloves`");
        self.error("zero-above-touch", at, message, way_out);
    }

    /// A touch too short for the published figures.
    pub fn contact_too_short(&mut self, at: &Place, lasts: &str) {
        let message = format!("no burn threshold is known for a touch of {lasts}");
        let way_out = "write 0.5 s or more (ISO 13732-1)".to_owned();
        self.error("contact-too-short", at, message, way_out);
    }

    /// An estimate of cooling that cannot be made.
    pub fn no_cooling(&mut self, at: &Place, why: &str) {
        let message = format!("nobody can tell when this part has cooled: {why}");
        let way_out = "measure the time constant anew, or leave `cools` and `air` out";
        self.error("no-cooling", at, message, way_out.to_owned());
    }

    /// Parts that move or drop, and no place where they stop.
    pub fn stop_position_missing(&mut self, at: &Place, name: &str) {
        let message =
            format!("{name} can move, and nothing says where it must stand before isolation");
        let way_out = "add `stop_position: ...` to the machine: the stop itself must set no trap \
                       (common practice)";
        self.warning("stop-position-missing", at, message, way_out.to_owned());
    }
}

/// Rules of powered movement with a guard open: UK HSE, printing machinery, an analogy.
impl Findings {
    /// A control that runs on when it is let go.
    pub fn not_hold_to_run(&mut self, at: &Place, held: &str) {
        let message = format!("the inching control is `{held}`, not hold-to-run");
        let way_out = "write `held: hold-to-run`, when the control stops the movement as soon as it \
                       is let go (UK HSE, printing machinery)";
        self.warning("not-hold-to-run", at, message, way_out.to_owned());
    }

    /// A movement that is not small any more.
    pub fn inching_too_far(&mut self, at: &Place, most: &str, limit: &str) {
        let message = format!("the inching control moves {most}, which is more than {limit}");
        let way_out = "limit it to 25 mm a press or 1 m/min, at most 75 mm or 5 m/min (UK HSE, \
                       printing machinery)";
        self.warning("inching-too-far", at, message, way_out.to_owned());
    }

    /// A movement in kilograms.
    pub fn inching_not_measured(&mut self, at: &Place, most: &str) {
        let message = format!("`{most}` is neither a length a press nor a speed");
        let way_out = "write `most: 25 mm` or `most: 1 m/min`".to_owned();
        self.error("inching-not-measured", at, message, way_out);
    }
}

/// Rules of the lockout program, 29 CFR 1910.147(c)(4) and (c)(6).
impl Findings {
    /// A lockout procedure nobody ever inspected.
    pub fn inspection_missing(&mut self, at: &Place) {
        let message = "no periodic inspection of this machine's lockout is written down".to_owned();
        let way_out = "inspect it and add `lockout_inspection: { date, inspector, people }` \
                       (29 CFR 1910.147(c)(6)(i)-(ii))";
        self.warning("inspection-missing", at, message, way_out.to_owned());
    }

    /// An inspection of too long ago.
    pub fn inspection_over(&mut self, at: &Place, machine: &str, date: &str) {
        let message = format!(
            "the lockout of {machine} was inspected on {date}, more than 12 months before this job"
        );
        let way_out =
            "inspect it again and write the new day (29 CFR 1910.147(c)(6)(i))".to_owned();
        self.warning("inspection-over", at, message, way_out);
    }

    /// Somebody who inspects what this person does.
    pub fn inspector_among_people(&mut self, at: &Place, inspector: &str) {
        let message = format!("{inspector} inspects and is one of those who are inspected");
        let way_out = "let an authorised person inspect who does not use this procedure \
                       (29 CFR 1910.147(c)(6)(i)(A))";
        self.error("inspector-among-people", at, message, way_out.to_owned());
    }

    /// A plant that locks out, and nobody sees to it.
    pub fn nobody_enforces(&mut self, at: &Place) {
        let message = "nothing says who enforces the lockout procedures".to_owned();
        let way_out =
            "add `enforced_by: ...` with the means (29 CFR 1910.147(c)(4)(ii))".to_owned();
        self.error("nobody-enforces", at, message, way_out);
    }

    /// A lockout procedure that does not say what it is for.
    pub fn no_intended_use(&mut self, at: &Place, procedure: &str) {
        let message = format!("the lockout procedure `{procedure}` does not say what it is for");
        let way_out = "add `use: ...` to its facts (29 CFR 1910.147(c)(4)(ii)(A))".to_owned();
        self.error("no-intended-use", at, message, way_out);
    }
}
