//! The rules: one function each, which owns its words. Search for a rule's name to find who raises it.
//! Rules of safety stand in modules of their own.

mod energy;
mod hazards;
mod keys;
mod kit;
mod lockout;
mod order;
mod people;
pub mod policy;
mod redline;
mod register;
mod reuse;
mod stop;
mod translation;
mod walk;

use super::{Findings, Place};
use crate::language::Words;
use crate::quantity::{BadMeasure, Dimension, Unit};

/// Among more names than this none is looked for: comparing takes time.
const MOST_COMPARED: usize = 500;
/// How many names are listed.
const MOST_LISTED: usize = 24;

/// A suggestion: the nearest known name, or the first of them.
fn did_you_mean<S: AsRef<str>>(name: &str, known: &[S]) -> Words {
    let compared = if known.len() > MOST_COMPARED || name.len() > 200 { &[] } else { known };
    let nearest = compared
        .iter()
        .map(|k| (strsim::damerau_levenshtein(name, k.as_ref()), k.as_ref()))
        .min()
        .filter(|(distance, k)| *distance <= 1 + k.len().min(name.len()) / 3);
    match nearest {
        Some((_, name)) => Words::new("nearest-name", &[("name", name.into())]),
        None if known.is_empty() => Words::of("nearest-none"),
        None => {
            let listed = known.iter().take(MOST_LISTED);
            let names: Vec<_> = listed.map(|k| format!("`{}`", k.as_ref())).collect();
            let more = known.len() - names.len();
            let names = names.join(", ");
            match more {
                0 => Words::new("nearest-all", &[("names", names.into())]),
                more => {
                    Words::new("nearest-some", &[("names", names.into()), ("more", more.into())])
                }
            }
        }
    }
}

/// Names of which one is meant: `a` or `b`.
fn one_of(names: &[String]) -> Words {
    let quoted = |name: &String| Words::foreign(format!("`{name}`"));
    let all = names.iter().map(quoted);
    let joined = |one: Words, other: Words| {
        Words::new("either-or", &[("one", one.into()), ("other", other.into())])
    };
    all.reduce(joined).unwrap_or_else(|| Words::foreign("``"))
}

/// What stands in a file, from the reader's own words.
fn shape_found(words: &str) -> Words {
    let (kind, value) = words.split_once(' ').unwrap_or((words, ""));
    let value = value.trim_matches(['`', '"']);
    let valued = |key| Words::new(key, &[("value", value.into())]);
    match kind {
        "sequence" => Words::of("shape-list"),
        "map" => Words::of("shape-mapping"),
        "string" => valued("shape-the-text"),
        "integer" => valued("shape-the-number"),
        "floating" => Words::new("shape-the-number", &[("value", number_in(value).into())]),
        "boolean" => valued("shape-the-truth"),
        "unit" | "Option" => Words::of("shape-nothing"),
        _ => Words::new("shape-other", &[("words", words.into())]),
    }
}

/// The number in ``point `1.5` ``.
fn number_in(words: &str) -> &str {
    words.split('`').nth(1).unwrap_or(words)
}

/// What belongs there, from the reader's own words.
fn shape_expected(words: &str) -> Words {
    let key = match words {
        "a string" => "shape-text",
        "a sequence" => "shape-list",
        "a boolean" => "shape-truth",
        "a map" | "names with a value each" => "shape-mapping",
        _ if words.starts_with("struct ") => "shape-mapping",
        _ if ["u8", "u16", "u32", "u64", "usize", "i64"].contains(&words) => "shape-count",
        _ => return Words::new("shape-other", &[("words", words.into())]),
    };
    Words::of(key)
}

/// Rules of reading: YAML and its shape.
impl Findings {
    /// The text is not YAML.
    pub fn not_yaml(&mut self, at: &Place, message: &Words) {
        self.error("not-yaml", at, &[("message", message.into())]);
    }

    /// A key nobody reads.
    pub fn unknown_key(&mut self, at: &Place, key: &str, known: &[String]) {
        self.error(
            "unknown-key",
            at,
            &[("key", key.into()), ("nearest", did_you_mean(key, known).into())],
        );
    }

    /// A key that must be there.
    pub fn missing_key(&mut self, at: &Place, key: &str) {
        self.error("missing-key", at, &[("key", key.into())]);
    }

    /// A key that stands twice.
    pub fn key_twice(&mut self, at: &Place, key: &str) {
        self.error("key-twice", at, &[("key", key.into())]);
    }

    /// A word outside a fixed list.
    pub fn unknown_word(&mut self, at: &Place, word: &str, known: &[String]) {
        self.error(
            "unknown-word",
            at,
            &[("word", word.into()), ("nearest", did_you_mean(word, known).into())],
        );
    }

    /// A list where text belongs, or the like.
    pub fn wrong_shape(&mut self, at: &Place, found: &str, expected: &str) {
        let (found, expected) = (shape_found(found), shape_expected(expected));
        let remedy = expected.way_out();
        let parts =
            [("expected", expected.into()), ("found", found.into()), ("remedy", remedy.into())];
        self.error("wrong-shape", at, &parts);
    }
}

/// Rules of procedures as text.
impl Findings {
    /// A procedure must begin with its facts.
    pub fn no_front_matter(&mut self, at: &Place) {
        self.error("no-front-matter", at, &[]);
    }

    /// A procedure without steps.
    pub fn no_steps(&mut self, at: &Place) {
        self.error("no-steps", at, &[]);
    }

    /// Two steps of one procedure cannot be told apart.
    pub fn heading_twice(&mut self, at: &Place, title: &str) {
        self.error("heading-twice", at, &[("title", title.into())]);
    }

    /// A heading nobody could sign for.
    pub fn bad_heading(&mut self, at: &Place, title: &str) {
        self.error("bad-heading", at, &[("title", title.into())]);
    }

    /// A step has one block of facts.
    pub fn step_blocks(&mut self, at: &Place, count: usize) {
        self.error("step-block", at, &[("count", count.into())]);
    }

    /// Braces without a name.
    pub fn bad_braces(&mut self, at: &Place, why: &Words) {
        self.error("bad-braces", at, &[("why", why.into())]);
    }

    /// A sentence nobody can keep in mind.
    pub fn sentence_too_long(&mut self, at: &Place, count: usize, most: usize) {
        self.warning("sentence-too-long", at, &[("count", count.into()), ("most", most.into())]);
    }

    /// One sentence that asks for two things.
    pub fn two_instructions(&mut self, at: &Place) {
        self.warning("two-instructions", at, &[]);
    }

    /// A condition that is read when the action is done already.
    pub fn condition_last(&mut self, at: &Place) {
        self.warning("condition-last", at, &[]);
    }

    /// Words that everybody understands in another way.
    pub fn vague_words(&mut self, at: &Place, words: &str, instead: &Words) {
        self.warning("vague-words", at, &[("words", words.into()), ("instead", instead.into())]);
    }

    /// An abbreviation that nobody explains.
    pub fn unknown_abbreviation(&mut self, at: &Place, text: &str) {
        self.warning("unknown-abbreviation", at, &[("text", text.into())]);
    }

    /// An order that is no command.
    pub fn indirect_command(&mut self, at: &Place, words: &str) {
        self.warning("indirect-command", at, &[("words", words.into())]);
    }

    /// A heading that does not say what is done in its step.
    pub fn heading_without_command(&mut self, at: &Place) {
        self.warning("heading-without-command", at, &[]);
    }

    /// Something to do where nobody looks for it.
    pub fn instruction_in_note(&mut self, at: &Place) {
        self.warning("instruction-in-note", at, &[]);
    }

    /// A danger where nobody looks for it.
    pub fn warning_in_note(&mut self, at: &Place) {
        self.warning("warning-in-note", at, &[]);
    }

    /// Nouns that are sorted out only at the second reading.
    pub fn noun_cluster(&mut self, at: &Place, count: usize) {
        self.warning("noun-cluster", at, &[("count", count.into())]);
    }

    /// A number that does not change when the recipe or the machine does.
    pub fn figure_by_hand(&mut self, at: &Place, figure: &str) {
        self.warning("figure-by-hand", at, &[("figure", figure.into())]);
    }

    /// The steps of a procedure are hard to read.
    pub fn hard_to_read(&mut self, at: &Place, grade: &str, ease: &str, most: i64) {
        self.warning(
            "hard-to-read",
            at,
            &[("grade", grade.into()), ("ease", ease.into()), ("most", most.to_string().into())],
        );
    }

    /// A comment that silences without saying why.
    pub fn allow_without_reason(&mut self, at: &Place) {
        self.warning("allow-without-reason", at, &[]);
    }

    /// A comment that silences nothing.
    pub fn allow_unused(&mut self, at: &Place, rule: &str) {
        self.warning("allow-unused", at, &[("rule", rule.into())]);
    }
}

/// Rules of files.
impl Findings {
    /// A file every plant has.
    pub fn no_such_file(&mut self, at: &Place, name: &str) {
        self.error("no-such-file", at, &[("name", name.into())]);
    }

    /// A link or a folder where a file belongs: it could lead outside the plant.
    pub fn link_refused(&mut self, at: &Place) {
        self.error("link-refused", at, &[]);
    }

    /// A file larger than anybody writes.
    pub fn file_too_large(&mut self, at: &Place, largest: u64) {
        let kibibytes = (largest / 1024).to_string();
        self.error("file-too-large", at, &[("kibibytes", kibibytes.into())]);
    }

    /// A file that is not text.
    pub fn not_utf8(&mut self, at: &Place, byte: usize) {
        self.error("not-utf8", at, &[("byte", (byte + 1).into())]);
    }

    /// A file nobody reads.
    pub fn stray_file(&mut self, at: &Place, ending: &str) {
        self.warning("stray-file", at, &[("ending", ending.into())]);
    }

    /// A file is found by its identifier.
    pub fn id_is_not_file_name(&mut self, at: &Place, id: &str, stem: &str) {
        self.error("id-is-not-file-name", at, &[("id", id.into()), ("stem", stem.into())]);
    }

    /// An identifier that could not stand in a link.
    pub fn bad_id(&mut self, at: &Place, id: &str) {
        self.error("bad-id", at, &[("id", id.into())]);
    }
}

/// Rules of values: quantities, names, days.
impl Findings {
    /// Text that is no quantity.
    pub fn bad_quantity(&mut self, at: &Place, error: &BadMeasure) {
        let words = error.kind.words();
        let remedy = words.way_out();
        self.error("bad-quantity", at, &[("words", words.into()), ("remedy", remedy.into())]);
    }

    /// A length where a torque belongs, and the like.
    pub fn wrong_dimension(&mut self, at: &Place, found: Dimension, wanted: Dimension) {
        let parts = [("found", found.words().into()), ("wanted", wanted.words().into())];
        self.error("wrong-dimension", at, &parts);
    }

    /// Half a lane, or a lane in millimetres.
    pub fn not_a_count(&mut self, at: &Place) {
        self.error("not-a-count", at, &[]);
    }

    /// A length of nothing.
    pub fn not_positive(&mut self, at: &Place, what: &Words) {
        self.error("not-positive", at, &[("what", what.into())]);
    }

    /// A name no formula could hold.
    pub fn bad_name(&mut self, at: &Place, name: &str) {
        self.error("bad-name", at, &[("name", name.into())]);
    }

    /// One name for two things.
    pub fn name_twice(&mut self, at: &Place, name: &str) {
        self.error("name-twice", at, &[("name", name.into())]);
    }

    /// Text that is no day.
    pub fn bad_day(&mut self, at: &Place, text: &str) {
        self.error("bad-day", at, &[("text", text.into())]);
    }

    /// Text that is no time.
    pub fn bad_time(&mut self, at: &Place, text: &str) {
        self.error("bad-time", at, &[("text", text.into())]);
    }

    /// Text that must say something.
    pub fn empty_text(&mut self, at: &Place, key: &str) {
        self.error("empty-text", at, &[("key", key.into())]);
    }

    /// A unit nobody knows.
    pub fn unknown_unit(&mut self, at: &Place, unit: &str) {
        let nearest = match Unit::nearest(unit) {
            Some(name) => Words::new("nearest-name", &[("name", name.into())]),
            None => Words::of("nearest-no-unit"),
        };
        self.error("unknown-unit", at, &[("unit", unit.into()), ("nearest", nearest.into())]);
    }
}

/// Rules of keys.
impl Findings {
    /// A line of the allowed signers that is not trusted.
    pub fn bad_signer(&mut self, at: &Place, code: &str, words: &Words) {
        self.error("bad-signer", at, &[("words", words.into()), ("code", code.into())]);
    }
}

/// Rules of names that point at something.
impl Findings {
    /// A value no packet has.
    ///
    /// `rails` are the machine's: a name below one of them is a fact of the rail.
    pub fn unknown_value<S: AsRef<str>>(
        &mut self,
        at: &Place,
        name: &str,
        known: &[S],
        rails: &[&str],
    ) {
        let nearest = match name.split_once('.') {
            Some((rail, fact)) if rails.contains(&rail) => {
                Words::new("nearest-fact", &[("fact", fact.into()), ("rail", rail.into())])
            }
            _ => did_you_mean(name, known),
        };
        self.error("unknown-value", at, &[("name", name.into()), ("nearest", nearest.into())]);
    }

    /// A condition about nothing.
    pub fn unknown_change<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        self.error(
            "unknown-change",
            at,
            &[("name", name.into()), ("nearest", did_you_mean(name, known).into())],
        );
    }

    /// A zone the machine has not.
    pub fn unknown_zone<S: AsRef<str>>(&mut self, at: &Place, zone: &str, known: &[S]) {
        self.error(
            "unknown-zone",
            at,
            &[("zone", zone.into()), ("nearest", did_you_mean(zone, known).into())],
        );
    }

    /// An energy source the machine has not.
    pub fn unknown_source<S: AsRef<str>>(&mut self, at: &Place, source: &str, known: &[S]) {
        self.error(
            "unknown-source",
            at,
            &[("source", source.into()), ("nearest", did_you_mean(source, known).into())],
        );
    }

    /// A hazard nobody described.
    pub fn unknown_hazard<S: AsRef<str>>(&mut self, at: &Place, hazard: &str, known: &[S]) {
        self.error(
            "unknown-hazard",
            at,
            &[("hazard", hazard.into()), ("nearest", did_you_mean(hazard, known).into())],
        );
    }

    /// A role the plant has not.
    pub fn unknown_role<S: AsRef<str>>(&mut self, at: &Place, role: &str, known: &[S]) {
        self.error(
            "unknown-role",
            at,
            &[("role", role.into()), ("nearest", did_you_mean(role, known).into())],
        );
    }

    /// A reading of nothing.
    pub fn unknown_reading<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        self.error(
            "unknown-reading",
            at,
            &[("name", name.into()), ("nearest", did_you_mean(name, known).into())],
        );
    }

    /// An instrument that is not at the machine.
    pub fn unknown_instrument<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        self.error(
            "unknown-instrument",
            at,
            &[("name", name.into()), ("nearest", did_you_mean(name, known).into())],
        );
    }

    /// A rail the machine has not.
    pub fn unknown_rail<S: AsRef<str>>(&mut self, at: &Place, rail: &str, known: &[S]) {
        self.error(
            "unknown-rail",
            at,
            &[("rail", rail.into()), ("nearest", did_you_mean(rail, known).into())],
        );
    }

    /// A machine nobody described.
    pub fn unknown_machine<S: AsRef<str>>(&mut self, at: &Place, machine: &str, known: &[S]) {
        self.error(
            "unknown-machine",
            at,
            &[("machine", machine.into()), ("nearest", did_you_mean(machine, known).into())],
        );
    }

    /// A recipe nobody wrote.
    pub fn unknown_recipe<S: AsRef<str>>(&mut self, at: &Place, recipe: &str, known: &[S]) {
        self.error(
            "unknown-recipe",
            at,
            &[("recipe", recipe.into()), ("nearest", did_you_mean(recipe, known).into())],
        );
    }

    /// A procedure nobody wrote.
    pub fn unknown_procedure<S: AsRef<str>>(&mut self, at: &Place, procedure: &str, known: &[S]) {
        self.error(
            "unknown-procedure",
            at,
            &[("procedure", procedure.into()), ("nearest", did_you_mean(procedure, known).into())],
        );
    }

    /// A person nobody listed.
    pub fn unknown_person<S: AsRef<str>>(&mut self, at: &Place, person: &str, known: &[S]) {
        self.error(
            "unknown-person",
            at,
            &[("person", person.into()), ("nearest", did_you_mean(person, known).into())],
        );
    }

    /// A repetition over something that is not there.
    pub fn unknown_repeat(&mut self, at: &Place, word: &str, rails: &[&str]) {
        let mut known: Vec<String> =
            ["energy", "inching", "settings", "first-piece", "lanes", "crew", "primary"]
                .map(str::to_owned)
                .to_vec();
        for rail in rails {
            known.extend(["moves", "holders", "lanes"].map(|what| format!("{rail}.{what}")));
        }
        self.error(
            "unknown-repeat",
            at,
            &[("word", word.into()), ("nearest", did_you_mean(word, &known).into())],
        );
    }

    /// A recipe on a machine it was not made for.
    pub fn recipe_not_for_machine(&mut self, at: &Place, recipe: &str, machine: &str) {
        self.error(
            "recipe-not-for-machine",
            at,
            &[("recipe", recipe.into()), ("machine", machine.into())],
        );
    }

    /// A procedure for another kind of machine.
    pub fn procedure_does_not_fit(&mut self, at: &Place, procedure: &str, lacks: &Words) {
        self.error(
            "procedure-does-not-fit",
            at,
            &[("procedure", procedure.into()), ("lacks", lacks.into())],
        );
    }

    /// A domain signatures could not use.
    pub fn bad_domain(&mut self, at: &Place, domain: &str) {
        self.error("bad-domain", at, &[("domain", domain.into())]);
    }

    /// An address no sheet could point to.
    pub fn bad_address(&mut self, at: &Place, address: &str) {
        self.error("bad-address", at, &[("address", address.into())]);
    }

    /// An identifier signatures could not use.
    pub fn bad_person(&mut self, at: &Place, id: &str) {
        self.error("bad-person", at, &[("id", id.into())]);
    }

    /// Two entries for one identifier.
    pub fn person_twice(&mut self, at: &Place, id: &str) {
        self.error("person-twice", at, &[("id", id.into())]);
    }
}

/// Rules of tables, film and label.
impl Findings {
    /// A table that answers nothing.
    pub fn bad_table(&mut self, at: &Place, words: &Words) {
        self.error("bad-table", at, &[("words", words.into())]);
    }

    /// A seal for a bag that has none along its back.
    pub fn seal_without_tube(&mut self, at: &Place) {
        self.error("seal-without-tube", at, &[]);
    }

    /// A film that is not in stock.
    pub fn unknown_film<S: AsRef<str>>(&mut self, at: &Place, film: &str, known: &[S]) {
        self.error(
            "unknown-film",
            at,
            &[("film", film.into()), ("nearest", did_you_mean(film, known).into())],
        );
    }

    /// A film without a mass, or with two.
    pub fn grammage_or_density(&mut self, at: &Place) {
        self.error("grammage-or-density", at, &[]);
    }

    /// A film nobody could take.
    pub fn film_without_rolls(&mut self, at: &Place) {
        self.error("film-without-rolls", at, &[]);
    }

    /// A core as large as its roll.
    pub fn core_not_inside(&mut self, at: &Place) {
        self.error("core-not-inside", at, &[]);
    }

    /// Two kinds of rolls as wide as each other.
    pub fn roll_width_twice(&mut self, at: &Place, width: &str) {
        self.error("roll-width-twice", at, &[("width", width.into())]);
    }

    /// No roll is wide enough.
    pub fn no_roll_fits(&mut self, at: &Place, words: &Words) {
        self.error("no-roll-fits", at, &[("words", words.into())]);
    }

    /// A web wider than the unwind.
    pub fn web_too_wide(&mut self, at: &Place, web: &str, widest: &str) {
        self.error("web-too-wide", at, &[("web", web.into()), ("widest", widest.into())]);
    }

    /// Knives laid out for another web than the roll.
    pub fn web_is_not_roll(&mut self, at: &Place, web: &str, roll: &str) {
        self.error("web-is-not-roll", at, &[("web", web.into()), ("roll", roll.into())]);
    }

    /// A web narrower than the unwind.
    pub fn web_too_narrow(&mut self, at: &Place, web: &str, narrowest: &str) {
        self.error("web-too-narrow", at, &[("web", web.into()), ("narrowest", narrowest.into())]);
    }

    /// A roll larger than the unwind.
    pub fn roll_too_large(&mut self, at: &Place, outside: &str, largest: &str) {
        self.error(
            "roll-too-large",
            at,
            &[("outside", outside.into()), ("largest", largest.into())],
        );
    }

    /// A waste that is no share.
    pub fn bad_waste(&mut self, at: &Place) {
        self.error("bad-waste", at, &[]);
    }

    /// Something negative that cannot be.
    pub fn below_zero(&mut self, at: &Place) {
        self.error("below-zero", at, &[]);
    }

    /// A label whose average nobody measures.
    pub fn average_not_measured(&mut self, at: &Place, setting: &str) {
        self.error("average-not-measured", at, &[("setting", setting.into())]);
    }

    /// More film lost on each roll than the roll has.
    pub fn threading_takes_roll(&mut self, at: &Place) {
        self.error("threading-takes-roll", at, &[]);
    }

    /// A fill below what the label promises on average.
    pub fn target_below_label(&mut self, at: &Place, target: &str, label: &str) {
        self.error("target-below-label", at, &[("target", target.into()), ("label", label.into())]);
    }

    /// A label without a rule for it.
    pub fn no_rule_for_label(&mut self, at: &Place, words: &Words) {
        self.error("no-rule-for-label", at, &[("words", words.into())]);
    }

    /// A tolerance that lets less into a pack than the label's rules.
    pub fn below_tolerable(&mut self, at: &Place, low: &str, least: &str) {
        self.error("below-tolerable", at, &[("low", low.into()), ("least", least.into())]);
    }

    /// A number of heads where nothing is measured head by head.
    pub fn heads_without_head(&mut self, at: &Place) {
        self.error("heads-without-head", at, &[]);
    }
}

/// Rules of instruments and screws.
impl Findings {
    /// Two instruments that nobody could tell apart on a sheet.
    pub fn same_name(&mut self, at: &Place, name: &str) {
        self.warning("same-name", at, &[("name", name.into())]);
    }

    /// A range that is none.
    pub fn not_a_range(&mut self, at: &Place) {
        self.error("not-a-range", at, &[]);
    }

    /// A right end left of the left one.
    pub fn ends_swapped(&mut self, at: &Place) {
        self.error("ends-swapped", at, &[]);
    }

    /// A target that its own limits do not allow.
    pub fn target_outside_limits(&mut self, at: &Place, target: &str, limits: &str) {
        self.error(
            "target-outside-limits",
            at,
            &[("target", target.into()), ("limits", limits.into())],
        );
    }

    /// A size that the general tolerances leave out.
    pub fn no_general_tolerance(&mut self, at: &Place, size: &str) {
        self.error("no-general-tolerance", at, &[("size", size.into())]);
    }

    /// A value the instrument cannot show.
    pub fn out_of_range(&mut self, at: &Place, name: &str, range: &str, allowed: &Words) {
        self.error(
            "out-of-range",
            at,
            &[("name", name.into()), ("range", range.into()), ("allowed", allowed.into())],
        );
    }

    /// A rule marked in fractions for something that is shown in another unit.
    pub fn fractions_elsewhere(&mut self, at: &Place, name: &str, unit: &Words) {
        self.error("fractions-elsewhere", at, &[("name", name.into()), ("unit", unit.into())]);
    }

    /// Fewer than ten steps between the limits.
    pub fn coarse_instrument(&mut self, at: &Place, name: &str, step: &str) {
        self.warning("coarse-instrument", at, &[("name", name.into()), ("step", step.into())]);
    }

    /// An error limit above a quarter of the tolerance.
    pub fn uncertain_instrument(&mut self, at: &Place, name: &str, error: &str) {
        self.warning("uncertain-instrument", at, &[("name", name.into()), ("error", error.into())]);
    }

    /// A guard band without anything to make it from.
    pub fn no_error_limit(&mut self, at: &Place, name: &str) {
        self.error("no-error-limit", at, &[("name", name.into())]);
    }

    /// An instrument with which no reading could ever pass.
    pub fn nothing_provable(&mut self, at: &Place, name: &str) {
        self.error("nothing-provable", at, &[("name", name.into())]);
    }

    /// A screw that the machine does not list.
    pub fn unknown_fastener<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        self.error(
            "unknown-fastener",
            at,
            &[("name", name.into()), ("nearest", did_you_mean(name, known).into())],
        );
    }

    /// A thread that is not in the table.
    pub fn unknown_thread(&mut self, at: &Place, thread: &str) {
        self.error("unknown-thread", at, &[("thread", thread.into())]);
    }

    /// A property class that is not in the table.
    pub fn unknown_class(&mut self, at: &Place, class: &str) {
        self.error("unknown-class", at, &[("class", class.into())]);
    }

    /// A torque the screw does not bear.
    pub fn torque_above_class(&mut self, at: &Place, torque: &str, screw: &Words) {
        self.error("torque-above-class", at, &[("torque", torque.into()), ("screw", screw.into())]);
    }

    /// A torque between two steps of the wrench.
    pub fn between_wrench_steps(&mut self, at: &Place, name: &str, torque: &str, nearest: &str) {
        self.error(
            "between-wrench-steps",
            at,
            &[("torque", torque.into()), ("name", name.into()), ("nearest", nearest.into())],
        );
    }

    /// A nut factor that no friction has.
    pub fn bad_nut_factor(&mut self, at: &Place) {
        self.error("bad-nut-factor", at, &[]);
    }

    /// A torque the wrench cannot be set to.
    pub fn wrench_out_of_range(&mut self, at: &Place, name: &str, range: &Words, torque: &str) {
        self.error(
            "wrench-out-of-range",
            at,
            &[("name", name.into()), ("range", range.into()), ("torque", torque.into())],
        );
    }
}

/// Rules of lanes and rails.
impl Findings {
    /// A stated set of lanes without lanes to choose from.
    pub fn run_without_lanes(&mut self, at: &Place) {
        self.error("run-without-lanes", at, &[]);
    }

    /// A stated set of lanes of another number than the lanes wanted.
    pub fn run_is_not_lanes(&mut self, at: &Place, run: usize, lanes: u32) {
        self.error("run-is-not-lanes", at, &[("run", run.into()), ("lanes", lanes.into())]);
    }

    /// Lanes that are no set of the machine's lanes.
    pub fn bad_run(&mut self, at: &Place, fitted: u32) {
        self.error("bad-run", at, &[("fitted", fitted.into())]);
    }

    /// More lanes than the machine has.
    pub fn more_lanes_than_fitted(&mut self, at: &Place, lanes: u32, fitted: u32) {
        self.error(
            "more-lanes-than-fitted",
            at,
            &[("lanes", lanes.into()), ("fitted", fitted.into())],
        );
    }

    /// Lanes that would run between those of the machine.
    pub fn lanes_between(&mut self, at: &Place, lanes: u32, fitted: u32) {
        self.error("lanes-between", at, &[("lanes", lanes.into()), ("fitted", fitted.into())]);
    }

    /// A bar that is none of the bars.
    pub fn bad_bar(&mut self, at: &Place) {
        self.error("bad-bar", at, &[]);
    }

    /// A place that the rail's own scale does not show.
    pub fn off_scale(&mut self, at: &Place, rail: &str, reading: &str) {
        self.error("off-scale", at, &[("rail", rail.into()), ("reading", reading.into())]);
    }

    /// A rail that only the recipe before used.
    pub fn rail_left(&mut self, at: &Place, rail: &str, from: &str, to: &str) {
        self.error(
            "rail-left",
            at,
            &[("rail", rail.into()), ("from", from.into()), ("to", to.into())],
        );
    }

    /// Bars that do not share one set of knives.
    pub fn bars_differ(&mut self, at: &Place, words: &Words) {
        self.error("bars-differ", at, &[("words", words.into())]);
    }

    /// A rail whose holders nobody is told to move.
    pub fn rail_without_step(&mut self, at: &Place, rail: &str, name: &str) {
        self.error("rail-without-step", at, &[("name", name.into()), ("rail", rail.into())]);
    }

    /// A procedure that comes twice in one changeover.
    pub fn procedure_twice(&mut self, at: &Place, procedure: &str) {
        self.error("procedure-twice", at, &[("procedure", procedure.into())]);
    }

    /// A holder would stand on something fixed.
    pub fn over_obstacle(&mut self, at: &Place, rail: &str, needed: &str, obstacle: &Words) {
        self.error(
            "over-obstacle",
            at,
            &[("rail", rail.into()), ("needed", needed.into()), ("obstacle", obstacle.into())],
        );
    }
}

/// Rules of computing: formulas, instruments, layouts.
impl Findings {
    /// A formula without an answer.
    pub fn bad_formula(&mut self, at: &Place, words: &Words) {
        let parts = [("words", words.into()), ("remedy", words.way_out().into())];
        self.error("bad-formula", at, &parts);
    }

    /// A comparison where a quantity belongs.
    pub fn truth_is_no_setting(&mut self, at: &Place) {
        self.error("truth-is-no-setting", at, &[]);
    }

    /// No step of the instrument lies inside the tolerance.
    pub fn instrument_too_coarse(&mut self, at: &Place, name: &Words, step: &str) {
        self.error("instrument-too-coarse", at, &[("name", name.into()), ("step", step.into())]);
    }

    /// An instrument that measures something else.
    pub fn instrument_does_not_fit(&mut self, at: &Place, words: &Words) {
        self.error("instrument-does-not-fit", at, &[("words", words.into())]);
    }

    /// A reading nobody could judge.
    pub fn no_limits(&mut self, at: &Place) {
        self.error("no-limits", at, &[]);
    }

    /// One reading a lane, without lanes.
    pub fn no_lanes(&mut self, at: &Place) {
        self.error("no-lanes", at, &[]);
    }

    /// A position with an uneven tolerance.
    pub fn not_symmetric(&mut self, at: &Place) {
        self.error("not-symmetric", at, &[]);
    }

    /// A layout of nothing, or of two things.
    pub fn knives_or_guides(&mut self, at: &Place) {
        self.error("knives-or-guides", at, &[]);
    }

    /// Holders inside each other.
    pub fn spacing_below_width(&mut self, at: &Place, width: &str) {
        self.error("spacing-below-width", at, &[("width", width.into())]);
    }

    /// The strip and the pitch of the lanes differ.
    pub fn strip_is_not_pitch(&mut self, at: &Place, strip: &str, pitch: &str, off: &str) {
        self.error(
            "strip-is-not-pitch",
            at,
            &[("strip", strip.into()), ("pitch", pitch.into()), ("off", off.into())],
        );
    }

    /// A layout of nothing.
    pub fn nothing_to_lay_out(&mut self, at: &Place) {
        self.error("nothing-to-lay-out", at, &[]);
    }

    /// More lanes than anybody has.
    pub fn too_many_lanes(&mut self, at: &Place, most: u32) {
        self.error("too-many-lanes", at, &[("most", most.into())]);
    }

    /// A holder would hang over the end.
    pub fn past_rail_end(&mut self, at: &Place, rail: &str, needed: &str, end: &str) {
        self.error(
            "past-rail-end",
            at,
            &[("rail", rail.into()), ("needed", needed.into()), ("end", end.into())],
        );
    }

    /// Two holders would touch.
    ///
    /// `bars` is how many bars the knives would have to be shared between.
    pub fn too_close(
        &mut self,
        at: &Place,
        rail: &str,
        (gap, spacing): (&str, &str),
        bars: Option<u32>,
    ) {
        let why = match gap.starts_with('-') {
            true => Words::of("holders-inside"),
            false => {
                Words::new("holders-apart", &[("gap", gap.into()), ("spacing", spacing.into())])
            }
        };
        let remedy = match bars {
            Some(bars) if bars > 1 => Words::new("holders-share-bars", &[("bars", bars.into())]),
            _ => Words::of("holders-run-others"),
        };
        let parts = [("rail", rail.into()), ("why", why.into()), ("remedy", remedy.into())];
        self.error("holders-too-close", at, &parts);
    }

    /// More knives than holders.
    pub fn too_few_holders(&mut self, at: &Place, rail: &str, needed: u32, fitted: u32) {
        self.error(
            "too-few-holders",
            at,
            &[("rail", rail.into()), ("needed", needed.into()), ("fitted", fitted.into())],
        );
    }
}

/// Rules of safety.
impl Findings {
    /// A zone nobody would lock out.
    pub fn zone_without_source(&mut self, at: &Place, zone: &str) {
        self.error("zone-without-source", at, &[("zone", zone.into())]);
    }

    /// A kind of energy nobody knows.
    pub fn unknown_energy_kind(&mut self, at: &Place, kind: &str, known: &[&str]) {
        self.error(
            "unknown-energy-kind",
            at,
            &[("kind", kind.into()), ("nearest", did_you_mean(kind, known).into())],
        );
    }

    /// A device that stops a machine but does not hold its energy back, 29 CFR 1910.147(b).
    pub fn not_isolating(&mut self, at: &Place, device: &str, known: &[&str]) {
        self.error(
            "not-isolating",
            at,
            &[("device", device.into()), ("known", known.join(", ").into())],
        );
    }

    /// Stored energy nobody lets out, 29 CFR 1910.147(d)(5).
    pub fn stored_not_relieved(&mut self, at: &Place, stored: &str) {
        self.error("stored-not-relieved", at, &[("stored", stored.into())]);
    }

    /// A source whose zero is a number, and nobody measures it, 29 CFR 1910.147(d)(6).
    pub fn zero_not_measured(&mut self, at: &Place, kind: &str) {
        self.error("zero-not-measured", at, &[("kind", kind.into())]);
    }

    /// An electrical source whose zero nobody measures: a rule of its own, because nobody sees a
    /// voltage and so nobody may answer for it.
    pub fn voltage_not_measured(&mut self, at: &Place) {
        self.error("voltage-not-measured", at, &[]);
    }

    /// A proof of zero without a blank for what was measured.
    pub fn zero_not_read(&mut self, at: &Place) {
        self.error("zero-not-read", at, &[]);
    }

    /// A source that no zone names.
    pub fn source_in_no_zone(&mut self, at: &Place, source: &str) {
        self.error("source-in-no-zone", at, &[("source", source.into())]);
    }

    /// A load would be held after what carries it was let go.
    pub fn block_after_valve(&mut self, at: &Place, block: &str, valve: &str) {
        self.error("block-after-valve", at, &[("block", block.into()), ("valve", valve.into())]);
    }

    /// A step nobody answers for.
    pub fn unsigned_step(&mut self, at: &Place) {
        self.error("unsigned-step", at, &[]);
    }

    /// The job before left something else on the machine.
    pub fn not_what_was_left(&mut self, at: &Place, from: &str, left: &str, job: &str) {
        self.warning(
            "not-what-was-left",
            at,
            &[("from", from.into()), ("job", job.into()), ("left", left.into())],
        );
    }

    /// A plant in which nobody can sign.
    pub fn no_signers(&mut self, at: &Place) {
        self.warning("no-signers", at, &[]);
    }

    /// An instrument past its calibration.
    pub fn calibration_over(&mut self, at: &Place, name: &str, due: &str) {
        self.error("calibration-over", at, &[("name", name.into()), ("due", due.into())]);
    }
}
