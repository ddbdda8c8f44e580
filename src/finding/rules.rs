//! The rules: one function each, which owns its words. Search for a rule's name to find who raises it.
//! Rules of safety stand in modules of their own.

mod energy;
mod hazards;
mod lockout;
mod order;
pub mod policy;
mod translation;
mod walk;

use super::{Findings, Place};
use crate::quantity::{BadMeasure, Dimension, Unit};

/// Among more names than this none is looked for: comparing takes time.
const MOST_COMPARED: usize = 500;
/// How many names are listed.
const MOST_LISTED: usize = 24;

/// A suggestion: the nearest known name, or the first of them.
fn did_you_mean<S: AsRef<str>>(name: &str, known: &[S]) -> String {
    let compared = if known.len() > MOST_COMPARED || name.len() > 200 { &[] } else { known };
    let nearest = compared
        .iter()
        .map(|k| (strsim::damerau_levenshtein(name, k.as_ref()), k.as_ref()))
        .min()
        .filter(|(distance, k)| *distance <= 1 + k.len().min(name.len()) / 3);
    match nearest {
        Some((_, k)) => format!("did you mean `{k}`?"),
        None if known.is_empty() => "there is none to choose from".to_owned(),
        None => {
            let listed = known.iter().take(MOST_LISTED);
            let names: Vec<_> = listed.map(|k| format!("`{}`", k.as_ref())).collect();
            let more = known.len() - names.len();
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            format!("known here: {}{more}", names.join(", "))
        }
    }
}

/// Rules of reading: YAML and its shape.
impl Findings {
    /// The text is not YAML.
    pub fn not_yaml(&mut self, at: &Place, message: &str) {
        let way_out =
            "mind indentation (spaces, no tabs) and brackets; put text with a colon into quotes"
                .to_owned();
        self.error("not-yaml", at, format!("this is not YAML: {message}"), way_out);
    }

    /// A key nobody reads.
    pub fn unknown_key(&mut self, at: &Place, key: &str, known: &[String]) {
        let way_out = did_you_mean(key, known);
        self.error("unknown-key", at, format!("unknown key `{key}`"), way_out);
    }

    /// A key that must be there.
    pub fn missing_key(&mut self, at: &Place, key: &str) {
        let way_out = format!("add `{key}: ...`");
        self.error("missing-key", at, format!("the key `{key}` is missing"), way_out);
    }

    /// A key that stands twice.
    pub fn key_twice(&mut self, at: &Place, key: &str) {
        let way_out = "keep one of the two".to_owned();
        self.error("key-twice", at, format!("the key `{key}` stands twice"), way_out);
    }

    /// A word outside a fixed list.
    pub fn unknown_word(&mut self, at: &Place, word: &str, known: &[String]) {
        let way_out = did_you_mean(word, known);
        self.error("unknown-word", at, format!("`{word}` is not a word known here"), way_out);
    }

    /// A list where text belongs, or the like.
    pub fn wrong_shape(&mut self, at: &Place, found: &str, expected: &str) {
        let message = format!("expected {expected}, found {found}");
        self.error("wrong-shape", at, message, format!("write {expected} here"));
    }
}

/// Rules of procedures as text.
impl Findings {
    /// A procedure must begin with its facts.
    pub fn no_front_matter(&mut self, at: &Place) {
        let message = "a procedure begins with its facts between two lines of ---".to_owned();
        let way_out = "begin the file with ---, id, title, revision, date, author, reason, ---";
        self.error("no-front-matter", at, message, way_out.to_owned());
    }

    /// A procedure without steps.
    pub fn no_steps(&mut self, at: &Place) {
        let way_out = "write a heading of the second level (##) for each step".to_owned();
        self.error("no-steps", at, "this procedure has no step".to_owned(), way_out);
    }

    /// Two steps of one procedure cannot be told apart.
    pub fn heading_twice(&mut self, at: &Place, title: &str) {
        let message = format!("another step is called `{title}` too");
        self.error("heading-twice", at, message, "give each step a heading of its own".to_owned());
    }

    /// A heading nobody could sign for.
    pub fn bad_heading(&mut self, at: &Place, title: &str) {
        let message = format!("`{title}` cannot be the heading of a step");
        let way_out = "use plain words with at least one Latin letter or digit, and no values";
        self.error("bad-heading", at, message, way_out.to_owned());
    }

    /// A step has one block of facts.
    pub fn step_blocks(&mut self, at: &Place, count: usize) {
        let message = format!("a step has one block marked `step`, this one has {count}");
        let way_out = "end the step with ```step, its facts, ``` (it may be empty)".to_owned();
        self.error("step-block", at, message, way_out);
    }

    /// Braces without a name.
    pub fn bad_braces(&mut self, at: &Place, why: &str) {
        let way_out = "write {{ name }} in plain text".to_owned();
        self.error("bad-braces", at, why.to_owned(), way_out);
    }

    /// A sentence nobody can keep in mind.
    pub fn sentence_too_long(&mut self, at: &Place, count: usize, most: usize) {
        let message = format!("this sentence has {count} words; at most {most} can be followed");
        let way_out = "make two sentences of it, or a list".to_owned();
        self.warning("sentence-too-long", at, message, way_out);
    }

    /// One sentence that asks for two things.
    pub fn two_instructions(&mut self, at: &Place) {
        let message = "a second instruction begins in this sentence".to_owned();
        let way_out = "give each instruction a sentence of its own; for two at the same moment \
                       write: Hold ... and ..., or: While ..., ...";
        self.warning("two-instructions", at, message, way_out.to_owned());
    }

    /// A condition that is read when the action is done already.
    pub fn condition_last(&mut self, at: &Place) {
        let message = "the condition stands behind its instruction".to_owned();
        self.warning("condition-last", at, message, "begin with it: If ..., ...".to_owned());
    }

    /// Words that everybody understands in another way.
    pub fn vague_words(&mut self, at: &Place, words: &str, instead: &str) {
        let message = format!("`{words}` does not say how much or when it is right");
        self.warning("vague-words", at, message, format!("write {instead}"));
    }

    /// An abbreviation that nobody explains.
    pub fn unknown_abbreviation(&mut self, at: &Place, text: &str) {
        let message = format!("`{text}` is explained nowhere in this procedure");
        let way_out = format!(
            "write it out, or once: long form ({text}); put what a panel shows into quotes"
        );
        self.warning("unknown-abbreviation", at, message, way_out);
    }

    /// An order that is no command.
    pub fn indirect_command(&mut self, at: &Place, words: &str) {
        let message = format!("`{words}` does not say who does what");
        let way_out = "begin with the command: Close the valve; for what is only looked at: Check \
                       that ... (ISO 20607 Annex C, as reported)";
        self.warning("indirect-command", at, message, way_out.to_owned());
    }

    /// A heading that does not say what is done in its step.
    pub fn heading_without_command(&mut self, at: &Place) {
        let message = "this heading does not begin with a command".to_owned();
        let way_out = "say what is done: Change the knives, not Knife change; behind a rare verb \
                       write `the` or `each`";
        self.warning("heading-without-command", at, message, way_out.to_owned());
    }

    /// Something to do where nobody looks for it.
    pub fn instruction_in_note(&mut self, at: &Place) {
        let message = "this note holds an instruction".to_owned();
        let way_out = "make it a sentence of its step, without `Note:` (ASD-STE100, rule 5.5)";
        self.warning("instruction-in-note", at, message, way_out.to_owned());
    }

    /// A danger where nobody looks for it.
    pub fn warning_in_note(&mut self, at: &Place) {
        let message = "this note speaks of a danger".to_owned();
        let way_out = "name the hazard under `hazards` of the step, or write a message of your own \
                       in hazards.yaml: notes are skipped";
        self.warning("warning-in-note", at, message, way_out.to_owned());
    }

    /// Nouns that are sorted out only at the second reading.
    pub fn noun_cluster(&mut self, at: &Place, count: usize) {
        let message = format!("{count} nouns stand in a row; at most 3 are understood at once");
        let way_out = "take them apart: the lever of the film brake; put what a panel shows into \
                       quotes (ASD-STE100, from memory)";
        self.warning("noun-cluster", at, message, way_out.to_owned());
    }

    /// A number that does not change when the recipe or the machine does.
    pub fn figure_by_hand(&mut self, at: &Place, figure: &str) {
        let message = format!("`{figure}` stays as it is when recipe or machine change");
        let way_out = "write {{ name }} for a value of the recipe or the machine; one that never \
                       changes is kept with <!-- allow: figure-by-hand: reason -->";
        self.warning("figure-by-hand", at, message, way_out.to_owned());
    }

    /// The steps of a procedure are hard to read.
    pub fn hard_to_read(&mut self, at: &Place, grade: &str, ease: &str, most: i64) {
        let message = format!(
            "the steps of this procedure are hard to read: grade {grade} (Flesch-Kincaid), reading \
             ease {ease} (Flesch); this is their hardest sentence"
        );
        let way_out = format!("shorter sentences and shorter words, down to grade {most}");
        self.warning("hard-to-read", at, message, way_out);
    }

    /// A comment that silences without saying why.
    pub fn allow_without_reason(&mut self, at: &Place) {
        let message = "this comment does not say why".to_owned();
        let way_out = "write <!-- allow: rule: reason --> on one line".to_owned();
        self.warning("allow-without-reason", at, message, way_out);
    }

    /// A comment that silences nothing.
    pub fn allow_unused(&mut self, at: &Place, rule: &str) {
        let message = format!("there is no finding `{rule}` here to be silenced");
        let way_out = "take the comment away, or put it on the line before the words".to_owned();
        self.warning("allow-unused", at, message, way_out);
    }
}

/// Rules of files.
impl Findings {
    /// A file every plant has.
    pub fn no_such_file(&mut self, at: &Place, name: &str) {
        let message = format!("the plant has no file {name}");
        self.error("no-such-file", at, message, format!("write {name}"));
    }

    /// A link or a folder where a file belongs: it could lead outside the plant.
    pub fn link_refused(&mut self, at: &Place) {
        let message = "this is a link or no plain file, and is not followed".to_owned();
        let way_out = "put the file itself into the plant's folder".to_owned();
        self.error("link-refused", at, message, way_out);
    }

    /// A file larger than anybody writes.
    pub fn file_too_large(&mut self, at: &Place, largest: u64) {
        let message = format!("this file is larger than {} KiB", largest / 1024);
        self.error("file-too-large", at, message, "split it".to_owned());
    }

    /// A file that is not text.
    pub fn not_utf8(&mut self, at: &Place, byte: usize) {
        let message = format!("this file is not UTF-8 text (byte {})", byte + 1);
        self.error("not-utf8", at, message, "save it as UTF-8".to_owned());
    }

    /// A file nobody reads.
    pub fn stray_file(&mut self, at: &Place, ending: &str) {
        let message = format!("files in this folder end in {ending}; this one is not read");
        let way_out = format!("end its name in {ending}, or move it elsewhere");
        self.warning("stray-file", at, message, way_out);
    }

    /// A file is found by its identifier.
    pub fn id_is_not_file_name(&mut self, at: &Place, id: &str, stem: &str) {
        let message = format!("the identifier is `{id}`, the file is called `{stem}`");
        self.error("id-is-not-file-name", at, message, "give both the same name".to_owned());
    }

    /// An identifier that could not stand in a link.
    pub fn bad_id(&mut self, at: &Place, id: &str) {
        let message = format!("`{id}` cannot be an identifier");
        let way_out = "use letters, digits and hyphens, 64 at most".to_owned();
        self.error("bad-id", at, message, way_out);
    }
}

/// Rules of values: quantities, names, days.
impl Findings {
    /// Text that is no quantity.
    pub fn bad_quantity(&mut self, at: &Place, error: &BadMeasure) {
        let way_out = "write a number and a unit: 56 mm, 2 1/4 in, 9.5 N·m, ±0.5 mm".to_owned();
        self.error("bad-quantity", at, error.to_string(), way_out);
    }

    /// A length where a torque belongs, and the like.
    pub fn wrong_dimension(&mut self, at: &Place, found: Dimension, wanted: Dimension) {
        let message = format!("this is {found}, {wanted} is needed");
        let way_out = "check the unit, or the formula".to_owned();
        self.error("wrong-dimension", at, message, way_out);
    }

    /// Half a lane, or a lane in millimetres.
    pub fn not_a_count(&mut self, at: &Place) {
        let message = "a whole number without a unit is needed here".to_owned();
        let way_out = "write a count: 6".to_owned();
        self.error("not-a-count", at, message, way_out);
    }

    /// A length of nothing.
    pub fn not_positive(&mut self, at: &Place, what: &str) {
        let message = format!("{what} must be above zero");
        let way_out = "write a value above zero".to_owned();
        self.error("not-positive", at, message, way_out);
    }

    /// A name no formula could hold.
    pub fn bad_name(&mut self, at: &Place, name: &str) {
        let message = format!("`{name}` cannot be a name in formulas");
        let way_out =
            "use small letters, digits and underscores, beginning with a letter".to_owned();
        self.error("bad-name", at, message, way_out);
    }

    /// One name for two things.
    pub fn name_twice(&mut self, at: &Place, name: &str) {
        let message = format!("`{name}` is an input and a setting");
        let way_out = "give one of the two another name".to_owned();
        self.error("name-twice", at, message, way_out);
    }

    /// Text that is no day.
    pub fn bad_day(&mut self, at: &Place, text: &str) {
        let message = format!("`{text}` is not a day");
        let way_out = "write year, month and day: 2026-11-26".to_owned();
        self.error("bad-day", at, message, way_out);
    }

    /// Text that is no time.
    pub fn bad_time(&mut self, at: &Place, text: &str) {
        let message = format!("`{text}` is not a time with its offset");
        let way_out = "write it as 2026-11-25T14:10:00+01:00".to_owned();
        self.error("bad-time", at, message, way_out);
    }

    /// Text that must say something.
    pub fn empty_text(&mut self, at: &Place, key: &str) {
        let message = format!("`{key}` says nothing");
        let way_out = "write what a person at the machine needs to know".to_owned();
        self.error("empty-text", at, message, way_out);
    }

    /// A unit nobody knows.
    pub fn unknown_unit(&mut self, at: &Place, unit: &str) {
        let message = format!("`{unit}` is not a unit known here");
        let way_out = Unit::nearest(unit)
            .map_or("write a unit such as mm, N·m, °C, bar".to_owned(), |near| {
                format!("did you mean `{near}`?")
            });
        self.error("unknown-unit", at, message, way_out);
    }
}

/// Rules of keys.
impl Findings {
    /// A line of the allowed signers that is not trusted.
    pub fn bad_signer(&mut self, at: &Place, code: &str, words: &str) {
        let message = format!("this signer is not trusted: {words} ({code})");
        let way_out = "write one line a key: person namespaces=\"signoff@DOMAIN\",\
                       valid-after=\"...Z\",valid-before=\"...Z\" ssh-ed25519 ...";
        self.error("bad-signer", at, message, way_out.to_owned());
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
        let message = format!("nothing is called `{name}` for this machine and recipe");
        let way_out = match name.split_once('.') {
            Some((rail, fact)) if rails.contains(&rail) => {
                format!("add `{fact}` to the `facts` of the rail `{rail}` in the machine's file")
            }
            _ => did_you_mean(name, known),
        };
        self.error("unknown-value", at, message, way_out);
    }

    /// A condition about nothing.
    pub fn unknown_change<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        let message = format!("no setting or rail is called `{name}`");
        self.error("unknown-change", at, message, did_you_mean(name, known));
    }

    /// A zone the machine has not.
    pub fn unknown_zone<S: AsRef<str>>(&mut self, at: &Place, zone: &str, known: &[S]) {
        let message = format!("the machine has no zone `{zone}`");
        self.error("unknown-zone", at, message, did_you_mean(zone, known));
    }

    /// An energy source the machine has not.
    pub fn unknown_source<S: AsRef<str>>(&mut self, at: &Place, source: &str, known: &[S]) {
        let message = format!("the machine has no energy source `{source}`");
        self.error("unknown-source", at, message, did_you_mean(source, known));
    }

    /// A hazard nobody described.
    pub fn unknown_hazard<S: AsRef<str>>(&mut self, at: &Place, hazard: &str, known: &[S]) {
        let message = format!("there is no hazard message `{hazard}`");
        self.error("unknown-hazard", at, message, did_you_mean(hazard, known));
    }

    /// A role the plant has not.
    pub fn unknown_role<S: AsRef<str>>(&mut self, at: &Place, role: &str, known: &[S]) {
        let message = format!("the plant has no role `{role}`");
        self.error("unknown-role", at, message, did_you_mean(role, known));
    }

    /// A reading of nothing.
    pub fn unknown_reading<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        let message = format!("no setting is called `{name}`");
        self.error("unknown-reading", at, message, did_you_mean(name, known));
    }

    /// An instrument that is not at the machine.
    pub fn unknown_instrument<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        let message = format!("the machine has no instrument `{name}`");
        self.error("unknown-instrument", at, message, did_you_mean(name, known));
    }

    /// A rail the machine has not.
    pub fn unknown_rail<S: AsRef<str>>(&mut self, at: &Place, rail: &str, known: &[S]) {
        let message = format!("the machine has no rail `{rail}`");
        self.error("unknown-rail", at, message, did_you_mean(rail, known));
    }

    /// A machine nobody described.
    pub fn unknown_machine<S: AsRef<str>>(&mut self, at: &Place, machine: &str, known: &[S]) {
        let message = format!("there is no machine `{machine}`");
        self.error("unknown-machine", at, message, did_you_mean(machine, known));
    }

    /// A recipe nobody wrote.
    pub fn unknown_recipe<S: AsRef<str>>(&mut self, at: &Place, recipe: &str, known: &[S]) {
        let message = format!("there is no recipe `{recipe}`");
        self.error("unknown-recipe", at, message, did_you_mean(recipe, known));
    }

    /// A procedure nobody wrote.
    pub fn unknown_procedure<S: AsRef<str>>(&mut self, at: &Place, procedure: &str, known: &[S]) {
        let message = format!("there is no procedure `{procedure}`");
        self.error("unknown-procedure", at, message, did_you_mean(procedure, known));
    }

    /// A person nobody listed.
    pub fn unknown_person<S: AsRef<str>>(&mut self, at: &Place, person: &str, known: &[S]) {
        let message = format!("nobody has the identifier `{person}`");
        self.error("unknown-person", at, message, did_you_mean(person, known));
    }

    /// A repetition over something that is not there.
    pub fn unknown_repeat(&mut self, at: &Place, word: &str, rails: &[&str]) {
        let mut known: Vec<String> =
            ["energy", "inching", "settings", "first-piece", "lanes", "crew", "primary"]
                .map(str::to_owned)
                .to_vec();
        for rail in rails {
            known.extend([format!("{rail}.moves"), format!("{rail}.holders")]);
        }
        let message = format!("a step cannot repeat over `{word}` here");
        self.error("unknown-repeat", at, message, did_you_mean(word, &known));
    }

    /// A recipe on a machine it was not made for.
    pub fn recipe_not_for_machine(&mut self, at: &Place, recipe: &str, machine: &str) {
        let message = format!("the recipe `{recipe}` is not made for `{machine}`");
        let way_out =
            "choose another recipe, or list the machine under `machines` of the recipe".to_owned();
        self.error("recipe-not-for-machine", at, message, way_out);
    }

    /// A procedure for another kind of machine.
    pub fn procedure_does_not_fit(&mut self, at: &Place, procedure: &str, lacks: &str) {
        let message =
            format!("the procedure `{procedure}` needs {lacks}, which this machine has not");
        let way_out = "leave it out of `changeover`, or describe what is missing".to_owned();
        self.error("procedure-does-not-fit", at, message, way_out);
    }

    /// A domain signatures could not use.
    pub fn bad_domain(&mut self, at: &Place, domain: &str) {
        let message = format!("`{domain}` is not a domain");
        let way_out = "write it in small letters, as in mail addresses: hall2.example".to_owned();
        self.error("bad-domain", at, message, way_out);
    }

    /// An address no sheet could point to.
    pub fn bad_address(&mut self, at: &Place, address: &str) {
        let message = format!("`{address}` is not an address of a site");
        let way_out = "write where the site is published, without a slash at the end: \
                       https://changeover.plant.example"
            .to_owned();
        self.error("bad-address", at, message, way_out);
    }

    /// An identifier signatures could not use.
    pub fn bad_person(&mut self, at: &Place, id: &str) {
        let message = format!("`{id}` cannot be the identifier of a person");
        let way_out = "use letters, digits and . _ @ + - as in a mail address".to_owned();
        self.error("bad-person", at, message, way_out);
    }

    /// Two entries for one identifier.
    pub fn person_twice(&mut self, at: &Place, id: &str) {
        let message = format!("`{id}` stands twice");
        let way_out = "one person, one entry: put all roles into it".to_owned();
        self.error("person-twice", at, message, way_out);
    }
}

/// Rules of tables, film and label.
impl Findings {
    /// A table that answers nothing.
    pub fn bad_table(&mut self, at: &Place, words: &str) {
        let way_out = "write rows of two values, the first of them rising".to_owned();
        self.error("bad-table", at, words.to_owned(), way_out);
    }

    /// A seal for a bag that has none along its back.
    pub fn seal_without_tube(&mut self, at: &Place) {
        let message = "a flat format has no seal along its back".to_owned();
        let way_out = "leave `seal` out; a side seal belongs to the flat width".to_owned();
        self.error("seal-without-tube", at, message, way_out);
    }

    /// A film that is not in stock.
    pub fn unknown_film<S: AsRef<str>>(&mut self, at: &Place, film: &str, known: &[S]) {
        let message = format!("there is no film `{film}` in stock.yaml");
        self.error("unknown-film", at, message, did_you_mean(film, known));
    }

    /// A film without a mass, or with two.
    pub fn grammage_or_density(&mut self, at: &Place) {
        let message = "a film has either `grammage` or `density`".to_owned();
        let way_out = "keep one of the two: the other follows from the thickness".to_owned();
        self.error("grammage-or-density", at, message, way_out);
    }

    /// A film nobody could take.
    pub fn film_without_rolls(&mut self, at: &Place) {
        let message = "this film has no rolls".to_owned();
        let way_out = "list its rolls with width, outside and core".to_owned();
        self.error("film-without-rolls", at, message, way_out);
    }

    /// A core as large as its roll.
    pub fn core_not_inside(&mut self, at: &Place) {
        let message = "the core is not smaller than the roll".to_owned();
        let way_out =
            "give both as diameters: outside of the full roll, outside of the core".to_owned();
        self.error("core-not-inside", at, message, way_out);
    }

    /// Two kinds of rolls as wide as each other.
    pub fn roll_width_twice(&mut self, at: &Place, width: &str) {
        let message = format!("rolls of {width} stand here twice: nothing says which one is meant");
        let way_out = "keep one row for a width".to_owned();
        self.error("roll-width-twice", at, message, way_out);
    }

    /// No roll is wide enough.
    pub fn no_roll_fits(&mut self, at: &Place, words: &str) {
        let message = format!("no roll of this film is wide enough: {words}");
        let way_out = "run fewer lanes, trim less, or enter a wider roll in stock.yaml".to_owned();
        self.error("no-roll-fits", at, message, way_out);
    }

    /// A web wider than the unwind.
    pub fn web_too_wide(&mut self, at: &Place, web: &str, widest: &str) {
        let message = format!("a web of {web} is wider than the machine takes: {widest}");
        let way_out = "run fewer or narrower lanes, or choose another machine".to_owned();
        self.error("web-too-wide", at, message, way_out);
    }

    /// Knives laid out for another web than the roll.
    pub fn web_is_not_roll(&mut self, at: &Place, web: &str, roll: &str) {
        let message =
            format!("the knives are laid out for a web of {web}, the roll is {roll} wide");
        let way_out = "write `trim: web.side_trim`, and lanes and strip of the web".to_owned();
        self.error("web-is-not-roll", at, message, way_out);
    }

    /// A web narrower than the unwind.
    pub fn web_too_narrow(&mut self, at: &Place, web: &str, narrowest: &str) {
        let message = format!("a web of {web} is narrower than the machine takes: {narrowest}");
        let way_out = "run more lanes, or choose another machine".to_owned();
        self.error("web-too-narrow", at, message, way_out);
    }

    /// A roll larger than the unwind.
    pub fn roll_too_large(&mut self, at: &Place, outside: &str, largest: &str) {
        let message = format!("a roll of {outside} is larger than the unwind takes: {largest}");
        let way_out = "enter smaller rolls in stock.yaml, or choose another machine".to_owned();
        self.error("roll-too-large", at, message, way_out);
    }

    /// A waste that is no share.
    pub fn bad_waste(&mut self, at: &Place) {
        let message = "a waste is a share from 0 to less than 100 %".to_owned();
        let way_out = "write it as 2 %".to_owned();
        self.error("bad-waste", at, message, way_out);
    }

    /// Something negative that cannot be.
    pub fn below_zero(&mut self, at: &Place) {
        let message = "this must not be below zero".to_owned();
        let way_out = "check the sign".to_owned();
        self.error("below-zero", at, message, way_out);
    }

    /// A label whose average nobody measures.
    pub fn average_not_measured(&mut self, at: &Place, setting: &str) {
        let message =
            format!("no first piece measures `{setting}`: its average would never be known");
        let way_out = "add it to `first_piece`".to_owned();
        self.error("average-not-measured", at, message, way_out);
    }

    /// More film lost on each roll than the roll has.
    pub fn threading_takes_roll(&mut self, at: &Place) {
        let message = "threading and tail take the whole roll: nothing is left to run".to_owned();
        let way_out = "check the length, and the rolls in stock.yaml".to_owned();
        self.error("threading-takes-roll", at, message, way_out);
    }

    /// A fill below what the label promises on average.
    pub fn target_below_label(&mut self, at: &Place, target: &str, label: &str) {
        let message = format!("the target is {target}, the average must reach {label}");
        let way_out = "fill at least what the label says".to_owned();
        self.error("target-below-label", at, message, way_out);
    }

    /// A label without a rule for it.
    pub fn no_rule_for_label(&mut self, at: &Place, words: &str) {
        let message = format!("there is no tolerable error for this label: {words}");
        let way_out =
            "choose the rules that hold for it, or leave `net_contents` out and give a tolerance";
        self.error("no-rule-for-label", at, message, way_out.to_owned());
    }

    /// A tolerance that lets less into a pack than the label's rules.
    pub fn below_tolerable(&mut self, at: &Place, low: &str, least: &str) {
        let message = format!("{low} would pass, the rules of the label ask for {least} at least");
        let way_out = "make the tolerance tighter, or fill more".to_owned();
        self.error("below-tolerable", at, message, way_out);
    }

    /// A number of heads where nothing is measured head by head.
    pub fn heads_without_head(&mut self, at: &Place) {
        let message = "`heads` belongs to `each: head`".to_owned();
        let way_out = "write `each: head`, or leave `heads` out".to_owned();
        self.error("heads-without-head", at, message, way_out);
    }
}

/// Rules of instruments and screws.
impl Findings {
    /// Two instruments that nobody could tell apart on a sheet.
    pub fn same_name(&mut self, at: &Place, name: &str) {
        let message =
            format!("another instrument is called `{name}` too: a sheet shows the name alone");
        let way_out = "give each its own name".to_owned();
        self.warning("same-name", at, message, way_out);
    }

    /// A range that is none.
    pub fn not_a_range(&mut self, at: &Place) {
        let message = "this is not a range".to_owned();
        let way_out = "write it as 0 to 400 mm".to_owned();
        self.error("not-a-range", at, message, way_out);
    }

    /// A right end left of the left one.
    pub fn ends_swapped(&mut self, at: &Place) {
        let message = "it would end before it begins".to_owned();
        let way_out = "give the left edge first; left of the datum is negative".to_owned();
        self.error("ends-swapped", at, message, way_out);
    }

    /// A target that its own limits do not allow.
    pub fn target_outside_limits(&mut self, at: &Place, target: &str, limits: &str) {
        let message = format!("the target is {target}, and {limits} does not allow it");
        let way_out = "check the formula, or the limits".to_owned();
        self.error("target-outside-limits", at, message, way_out);
    }

    /// A size that the general tolerances leave out.
    pub fn no_general_tolerance(&mut self, at: &Place, size: &str) {
        let message = format!("ISO 2768-1 has no row of this class for {size}");
        let way_out = "write the tolerance itself".to_owned();
        self.error("no-general-tolerance", at, message, way_out);
    }

    /// A value the instrument cannot show.
    pub fn out_of_range(&mut self, at: &Place, name: &str, range: &str, allowed: &str) {
        let message = format!("{name} measures {range}: not all of {allowed}");
        let way_out = "name an instrument with a wider range".to_owned();
        self.error("out-of-range", at, message, way_out);
    }

    /// A rule marked in fractions for something that is shown in another unit.
    pub fn fractions_elsewhere(&mut self, at: &Place, name: &str, unit: &str) {
        let message = format!("{name} is marked in fractions, this is shown in {unit}");
        let way_out = "show it in the unit of the rule, or name another instrument".to_owned();
        self.error("fractions-elsewhere", at, message, way_out);
    }

    /// Fewer than ten steps between the limits.
    pub fn coarse_instrument(&mut self, at: &Place, name: &str, step: &str) {
        let message =
            format!("{name} shows steps of {step}: fewer than ten between the limits (10:1)");
        let way_out = "name a finer instrument, or widen the tolerance".to_owned();
        self.warning("coarse-instrument", at, message, way_out);
    }

    /// An error limit above a quarter of the tolerance.
    pub fn uncertain_instrument(&mut self, at: &Place, name: &str, error: &str) {
        let message =
            format!("{name} may be off by {error}: more than a quarter of the tolerance (4:1)");
        let way_out = "name a better instrument, or widen the tolerance".to_owned();
        self.warning("uncertain-instrument", at, message, way_out);
    }

    /// A guard band without anything to make it from.
    pub fn no_error_limit(&mut self, at: &Place, name: &str) {
        let message =
            format!("the plant judges with a guard band, and {name} has no `error_limit`");
        let way_out = "take the error limit from its certificate, or judge plainly".to_owned();
        self.error("no-error-limit", at, message, way_out);
    }

    /// An instrument with which no reading could ever pass.
    pub fn nothing_provable(&mut self, at: &Place, name: &str) {
        let message =
            format!("with {name} no reading is surely inside: its uncertainty fills the tolerance");
        let way_out = "name a better instrument, or widen the tolerance".to_owned();
        self.error("nothing-provable", at, message, way_out);
    }

    /// A screw that the machine does not list.
    pub fn unknown_fastener<S: AsRef<str>>(&mut self, at: &Place, name: &str, known: &[S]) {
        let message = format!("the machine has no screw `{name}` under `fasteners`");
        self.error("unknown-fastener", at, message, did_you_mean(name, known));
    }

    /// A thread that is not in the table.
    pub fn unknown_thread(&mut self, at: &Place, thread: &str) {
        let message = format!("`{thread}` is no metric coarse thread from M3 to M20");
        let way_out = "write it as M6; state others as facts with the maker's torque".to_owned();
        self.error("unknown-thread", at, message, way_out);
    }

    /// A property class that is not in the table.
    pub fn unknown_class(&mut self, at: &Place, class: &str) {
        let message = format!("`{class}` is no property class of the table");
        let way_out = "write \"8.8\", \"10.9\" or \"12.9\"".to_owned();
        self.error("unknown-class", at, message, way_out);
    }

    /// A torque the screw does not bear.
    pub fn torque_above_class(&mut self, at: &Place, torque: &str, screw: &str) {
        let message =
            format!("{torque} is more than {screw} bears: above 90 % of its proof stress");
        let way_out = "check torque, thread and class with the maker of the machine".to_owned();
        self.error("torque-above-class", at, message, way_out);
    }

    /// A torque between two steps of the wrench.
    pub fn between_wrench_steps(&mut self, at: &Place, name: &str, torque: &str, nearest: &str) {
        let message =
            format!("{torque} lies between two steps of {name}; the nearest is {nearest}");
        let way_out = "ask the maker for a torque the wrench can be set to, or name a finer wrench";
        self.error("between-wrench-steps", at, message, way_out.to_owned());
    }

    /// A nut factor that no friction has.
    pub fn bad_nut_factor(&mut self, at: &Place) {
        let message = "a nut factor lies between 0.08 and 0.35".to_owned();
        let way_out = "0.2 stands for dry steel, 0.16 to 0.2 for oiled; ask the maker".to_owned();
        self.error("bad-nut-factor", at, message, way_out);
    }

    /// A torque the wrench cannot be set to.
    pub fn wrench_out_of_range(&mut self, at: &Place, name: &str, range: &str, torque: &str) {
        let message = format!("{name} may be used from {range} (ISO 6789), the torque is {torque}");
        let way_out = "name a wrench with this torque in its upper four fifths".to_owned();
        self.error("wrench-out-of-range", at, message, way_out);
    }
}

/// Rules of lanes and rails.
impl Findings {
    /// A stated set of lanes without lanes to choose from.
    pub fn run_without_lanes(&mut self, at: &Place) {
        let message = "the rail does not say how many lanes it has".to_owned();
        let way_out = "give the rail `lanes_fitted`, or leave `run` out".to_owned();
        self.error("run-without-lanes", at, message, way_out);
    }

    /// A stated set of lanes of another number than the lanes wanted.
    pub fn run_is_not_lanes(&mut self, at: &Place, run: usize, lanes: u32) {
        let message = format!("{run} lanes are named, and {lanes} are wanted");
        let way_out = "make `lanes` and `run` agree".to_owned();
        self.error("run-is-not-lanes", at, message, way_out);
    }

    /// Lanes that are no set of the machine's lanes.
    pub fn bad_run(&mut self, at: &Place, fitted: u32) {
        let message = format!("these are not lanes of a machine that has {fitted}");
        let way_out = format!("name each lane once, from 1 to {fitted}, from left to right");
        self.error("bad-run", at, message, way_out);
    }

    /// More lanes than the machine has.
    pub fn more_lanes_than_fitted(&mut self, at: &Place, lanes: u32, fitted: u32) {
        let message = format!("{lanes} lanes are wanted, the machine has {fitted}");
        let way_out = "run fewer lanes, or choose another machine".to_owned();
        self.error("more-lanes-than-fitted", at, message, way_out);
    }

    /// Lanes that would run between those of the machine.
    pub fn lanes_between(&mut self, at: &Place, lanes: u32, fitted: u32) {
        let message = format!(
            "{lanes} lanes in the middle of {fitted} would run between the lanes of the machine"
        );
        let way_out = "name the lanes that run, such as `run: [2, 3, 4]`".to_owned();
        self.error("lanes-between", at, message, way_out);
    }

    /// A bar that is none of the bars.
    pub fn bad_bar(&mut self, at: &Place) {
        let message = "a bar is one of at least two".to_owned();
        let way_out = "write it as { number: 1, of: 2 }".to_owned();
        self.error("bad-bar", at, message, way_out);
    }

    /// A place that the rail's own scale does not show.
    pub fn off_scale(&mut self, at: &Place, rail: &str, reading: &str) {
        let message = format!("{rail}: a holder would stand at {reading} of the rail's own scale");
        let way_out =
            "check `at_datum` and `grows` of the scale, or leave the scale out".to_owned();
        self.error("off-scale", at, message, way_out);
    }

    /// A rail that only the recipe before used.
    pub fn rail_left(&mut self, at: &Place, rail: &str, from: &str, to: &str) {
        let message =
            format!("{rail} carries what `{from}` needs, and `{to}` says nothing about it");
        let way_out = "lay the rail out in the wanted recipe too".to_owned();
        self.error("rail-left", at, message, way_out);
    }

    /// Bars that do not share one set of knives.
    pub fn bars_differ(&mut self, at: &Place, words: &str) {
        let message = format!("bars share the knives of one web: {words}");
        let way_out = "lay out each bar once, with the same lanes, strip, trim and cuts".to_owned();
        self.error("bars-differ", at, message, way_out);
    }

    /// A rail whose holders nobody is told to move.
    pub fn rail_without_step(&mut self, at: &Place, rail: &str, name: &str) {
        let message = format!("{name} is laid out, and no step moves or measures its holders");
        let way_out = format!(
            "write a procedure `for: {{ rail: {rail} }}` with a step that repeats {rail}.moves, and name it here"
        );
        self.error("rail-without-step", at, message, way_out);
    }

    /// A procedure that comes twice in one changeover.
    pub fn procedure_twice(&mut self, at: &Place, procedure: &str) {
        let message = format!("`{procedure}` stands in this changeover already");
        let way_out =
            "name it once; a procedure of your own may have a copy of its steps".to_owned();
        self.error("procedure-twice", at, message, way_out);
    }

    /// A holder would stand on something fixed.
    pub fn over_obstacle(&mut self, at: &Place, rail: &str, needed: &str, obstacle: &str) {
        let message = format!("{rail}: a holder at {needed} would stand on {obstacle}");
        let way_out = "run other lanes, or choose another machine".to_owned();
        self.error("over-obstacle", at, message, way_out);
    }
}

/// Rules of computing: formulas, instruments, layouts.
impl Findings {
    /// A formula without an answer.
    pub fn bad_formula(&mut self, at: &Place, words: &str, way_out: String) {
        self.error("bad-formula", at, words.to_owned(), way_out);
    }

    /// A comparison where a quantity belongs.
    pub fn truth_is_no_setting(&mut self, at: &Place) {
        let message = "this formula answers yes or no, a setting is a quantity".to_owned();
        let way_out = "use if(question, this, that)".to_owned();
        self.error("truth-is-no-setting", at, message, way_out);
    }

    /// No step of the instrument lies inside the tolerance.
    pub fn instrument_too_coarse(&mut self, at: &Place, name: &str, step: &str) {
        let message = format!("{name} shows steps of {step}: too coarse for this tolerance");
        let way_out = "name a finer instrument, or widen the tolerance".to_owned();
        self.error("instrument-too-coarse", at, message, way_out);
    }

    /// An instrument that measures something else.
    pub fn instrument_does_not_fit(&mut self, at: &Place, words: &str) {
        let message = words.to_owned();
        let way_out = "name an instrument that measures this".to_owned();
        self.error("instrument-does-not-fit", at, message, way_out);
    }

    /// A reading nobody could judge.
    pub fn no_limits(&mut self, at: &Place) {
        let message = "a reading needs limits, and this has none".to_owned();
        let way_out = "give a tolerance, or low and high".to_owned();
        self.error("no-limits", at, message, way_out);
    }

    /// One reading a lane, without lanes.
    pub fn no_lanes(&mut self, at: &Place) {
        let message = "this recipe lays out no lanes".to_owned();
        let way_out = "write `each: piece`".to_owned();
        self.error("no-lanes", at, message, way_out);
    }

    /// A position with an uneven tolerance.
    pub fn not_symmetric(&mut self, at: &Place) {
        let message = "a position needs one length on both sides".to_owned();
        let way_out = "write it as ±0.5 mm".to_owned();
        self.error("not-symmetric", at, message, way_out);
    }

    /// A layout of nothing, or of two things.
    pub fn knives_or_guides(&mut self, at: &Place) {
        let message = "a layout has either `knives` or `guides`".to_owned();
        let way_out = "keep one of the two".to_owned();
        self.error("knives-or-guides", at, message, way_out);
    }

    /// Holders inside each other.
    pub fn spacing_below_width(&mut self, at: &Place, width: &str) {
        let message = format!("two holders of {width} cannot stand closer than they are wide");
        let way_out = "make `spacing` at least the width of a holder".to_owned();
        self.error("spacing-below-width", at, message, way_out);
    }

    /// The strip and the pitch of the lanes differ.
    pub fn strip_is_not_pitch(&mut self, at: &Place, strip: &str, pitch: &str, off: &str) {
        let message =
            format!("a strip of {strip} does not run in lanes {pitch} apart: off would be {off}");
        let way_out =
            "change the strip (flat width, fins), or choose a machine with this pitch".to_owned();
        self.error("strip-is-not-pitch", at, message, way_out);
    }

    /// A layout of nothing.
    pub fn nothing_to_lay_out(&mut self, at: &Place) {
        let message = "lanes, strip and opening must be above zero, trim not below".to_owned();
        let way_out = "check the inputs of the recipe".to_owned();
        self.error("nothing-to-lay-out", at, message, way_out);
    }

    /// More lanes than anybody has.
    pub fn too_many_lanes(&mut self, at: &Place, most: u32) {
        let message = format!("more than {most} lanes are not laid out");
        let way_out = "check the number of lanes".to_owned();
        self.error("too-many-lanes", at, message, way_out);
    }

    /// A holder would hang over the end.
    pub fn past_rail_end(&mut self, at: &Place, rail: &str, needed: &str, end: &str) {
        let message = format!("{rail}: a holder would reach to {needed}, the rail ends at {end}");
        let way_out = "run fewer or narrower lanes, or choose another machine".to_owned();
        self.error("past-rail-end", at, message, way_out);
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
        let message = match gap.starts_with('-') {
            true => format!("{rail}: two holders would stand in each other's place"),
            false => format!("{rail}: two holders would stand {gap} apart, they need {spacing}"),
        };
        let way_out = match bars {
            Some(bars) if bars > 1 => format!(
                "share the knives between {bars} bars: `bar: {{ number: 1, of: {bars} }}` on the first"
            ),
            _ => "run other lanes, or take spare holders off the rail: `spares: off` on the rail"
                .to_owned(),
        };
        self.error("holders-too-close", at, message, way_out);
    }

    /// More knives than holders.
    pub fn too_few_holders(&mut self, at: &Place, rail: &str, needed: u32, fitted: u32) {
        let message = format!("{rail}: {needed} holders are needed, {fitted} are fitted");
        let way_out = "fit more holders, or run fewer lanes".to_owned();
        self.error("too-few-holders", at, message, way_out);
    }
}

/// Rules of safety.
impl Findings {
    /// A zone nobody would lock out.
    pub fn zone_without_source(&mut self, at: &Place, zone: &str) {
        let message = format!("no energy source reaches into `{zone}`: nothing would be locked");
        let way_out = "list every source that reaches into it".to_owned();
        self.error("zone-without-source", at, message, way_out);
    }

    /// A kind of energy nobody knows.
    pub fn unknown_energy_kind(&mut self, at: &Place, kind: &str, known: &[&str]) {
        let message = format!("`{kind}` is not a kind of energy known here");
        self.error("unknown-energy-kind", at, message, did_you_mean(kind, known));
    }

    /// A device that stops a machine but does not hold its energy back, 29 CFR 1910.147(b).
    pub fn not_isolating(&mut self, at: &Place, device: &str, known: &[&str]) {
        let message = format!(
            "`{device}` does not isolate: push buttons, selectors, emergency stops and interlocks are \
             control devices (29 CFR 1910.147(b))"
        );
        let way_out = format!("name the device that holds the energy back: {}", known.join(", "));
        self.error("not-isolating", at, message, way_out);
    }

    /// Stored energy nobody lets out, 29 CFR 1910.147(d)(5).
    pub fn stored_not_relieved(&mut self, at: &Place, stored: &str) {
        let message = format!("`{stored}` stays stored, and nothing says how it is relieved");
        let way_out =
            "say in `relieve` how it is let out, held or waited out (29 CFR 1910.147(d)(5))";
        self.error("stored-not-relieved", at, message, way_out.to_owned());
    }

    /// A source whose zero is a number, and nobody measures it, 29 CFR 1910.147(d)(6).
    pub fn zero_not_measured(&mut self, at: &Place, kind: &str) {
        let message = format!("nothing says how the zero of this {kind} source is measured");
        let way_out = "add `zero: { unit: ..., high: ..., instrument: ... }`".to_owned();
        self.error("zero-not-measured", at, message, way_out);
    }

    /// An electrical source whose zero nobody measures: a rule of its own, because nobody sees a
    /// voltage and so nobody may answer for it.
    pub fn voltage_not_measured(&mut self, at: &Place) {
        let message = "nothing says how the zero of this electrical source is measured".to_owned();
        let way_out = "add `zero: { unit: V, high: 0, instrument: ... }` (29 CFR 1910.147(d)(6); \
                       NFPA 70E 120.5, step 7)";
        self.error("voltage-not-measured", at, message, way_out.to_owned());
    }

    /// A proof of zero without a blank for what was measured.
    pub fn zero_not_read(&mut self, at: &Place) {
        let message = "a step that proves zero needs the readings of the sources".to_owned();
        let way_out = "add `repeat: energy` and `reading: { of: zero }`".to_owned();
        self.error("zero-not-read", at, message, way_out);
    }

    /// A source that no zone names.
    pub fn source_in_no_zone(&mut self, at: &Place, source: &str) {
        let message = format!("no zone says that the source `{source}` reaches into it");
        let way_out = "name it under `sources` of each zone it reaches into".to_owned();
        self.error("source-in-no-zone", at, message, way_out);
    }

    /// A load would be held after what carries it was let go.
    pub fn block_after_valve(&mut self, at: &Place, block: &str, valve: &str) {
        let message =
            format!("{block} is blocked after {valve} is shut: the load could drop first");
        let way_out = "list sources held by a block before those held by a valve".to_owned();
        self.error("block-after-valve", at, message, way_out);
    }

    /// A step nobody answers for.
    pub fn unsigned_step(&mut self, at: &Place) {
        let way_out = "add `sign: { performed: <role> }`".to_owned();
        self.error("unsigned-step", at, "nobody signs this step".to_owned(), way_out);
    }

    /// The job before left something else on the machine.
    pub fn not_what_was_left(&mut self, at: &Place, from: &str, left: &str, job: &str) {
        let message =
            format!("this job begins with `{from}`, but {job} leaves `{left}` on the machine");
        let way_out = "correct `from`, or the days and times of issue; old positions depend on it";
        self.warning("not-what-was-left", at, message, way_out.to_owned());
    }

    /// A plant in which nobody can sign.
    pub fn no_signers(&mut self, at: &Place) {
        let message = "without allowed_signers nobody can sign".to_owned();
        let way_out = "write the file; it may hold comments only until there are keys".to_owned();
        self.warning("no-signers", at, message, way_out);
    }

    /// An instrument past its calibration.
    pub fn calibration_over(&mut self, at: &Place, name: &str, due: &str) {
        let message = format!("the calibration of {name} ends on {due}, before this job");
        let way_out = "have it calibrated and write the new day, or name another one".to_owned();
        self.error("calibration-over", at, message, way_out);
    }
}
