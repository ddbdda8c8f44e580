//! How a procedure is written: sentences a tired person can follow at a machine.
//!
//! Everything here is advice: it gives warnings, at the very words, and never changes a packet. A
//! writer who has a reason keeps a sentence with a comment, see `allow`. Few false alarms matter more
//! than finding everything: what is in doubt is left in peace.
//!
//! Source of the rules: ASD-STE100 for the length of sentences, one instruction a sentence, the
//! condition first, commands, notes and clusters of nouns; guides to writing procedures for the rest.

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

pub(super) mod allow;
mod direct;
mod facts;
mod nouns;
mod prose;
pub mod readability;
mod rules;
mod words;

use allow::{Allow, Stripped};
use facts::Facts;
use prose::{Kind, Paragraph, Sentence};
use readability::{Lengths, grade, reading_ease};

use super::text::StepText;
use crate::finding::{Findings, Place};
use crate::language::Words;
use crate::quantity::Number;

/// Words of a sentence in a step (ASD-STE100, procedures).
const MOST_IN_STEP: usize = 20;
/// Words of a sentence before the first step (ASD-STE100, descriptions).
const MOST_BEFORE: usize = 25;
/// The hardest grade that is not warned of: common practice, no source.
const HARDEST_GRADE: i64 = 9;
/// A shorter text has no score: the formulas were made on samples of a hundred words.
const LEAST_SCORED: u32 = 100;
/// With so many findings no advice is added: it must not push out what is wrong.
const MOST_FINDINGS: usize = 2000;

/// What to check of a procedure.
pub(super) struct Text<'a> {
    /// Its path.
    pub file: &'a Arc<str>,
    /// The whole file.
    pub text: &'a str,
    /// Bytes of what stands before the first step.
    pub intro: Range<usize>,
    /// Its steps.
    pub steps: Vec<Step<'a>>,
    /// The comments of the file.
    pub comments: &'a [Allow],
}

/// A step of a procedure.
pub(super) struct Step<'a> {
    /// Bytes of its prose.
    pub prose: [Range<usize>; 2],
    /// What was made out of it; none when it has a fault.
    pub read: Option<&'a StepText>,
}

impl Text<'_> {
    fn prose(&self, piece: &Range<usize>) -> Vec<Paragraph> {
        prose::paragraphs(&Stripped::new(self.text, piece.clone(), self.comments))
    }
}

/// Checks how a procedure is written.
pub(super) fn check(findings: &mut Findings, of: &Text) {
    let intro = of.prose(&of.intro);
    let steps: Vec<Paragraph> =
        of.steps.iter().flat_map(|step| &step.prose).flat_map(|piece| of.prose(piece)).collect();
    let read = || of.steps.iter().filter_map(|step| step.read);
    let headings: Vec<Paragraph> = read().flat_map(|step| of.prose(&step.heading)).collect();
    let facts: Vec<Facts> = read().map(|step| Facts::of(of.text, step)).collect();
    let (intro, steps, headings) = (sentences(&intro), sentences(&steps), sentences(&headings));
    let outside = sentences(facts.iter().filter_map(|facts| facts.outside.as_ref()));
    let checks = sentences(facts.iter().flat_map(|facts| &facts.checks));

    let mut found = Findings::default();
    let mut advice = Advice { findings: &mut found, file: of.file };
    let each = headings.chunk_by(|one, next| one.is_beside(next));
    each.filter_map(<[_]>::first).for_each(|heading| advice.heading(heading));
    intro.iter().for_each(|sentence| advice.length(sentence, MOST_BEFORE));
    steps.iter().for_each(|sentence| advice.step(sentence));
    outside.iter().for_each(|sentence| advice.instruction(sentence));
    checks.iter().for_each(|sentence| advice.vague(sentence));
    let all = [intro, steps.clone(), outside, checks].concat();
    advice.notes(&all);
    advice.abbreviations(&all);
    all.iter().chain(&headings).for_each(|sentence| advice.clusters(sentence));
    advice.readability(&steps);
    let kept = allow::judge(found, of.file, of.text, of.comments);
    let room = MOST_FINDINGS.saturating_sub(findings.iter().count());
    findings.extend(kept.iter().take(room).cloned().collect());
}

fn sentences<'p>(parts: impl IntoIterator<Item = &'p Paragraph>) -> Vec<Sentence<'p>> {
    parts.into_iter().flat_map(Paragraph::sentences).collect()
}

struct Advice<'a> {
    findings: &'a mut Findings,
    file: &'a Arc<str>,
}

impl Advice<'_> {
    fn at(&self, range: Range<usize>) -> Place {
        Place::bytes(self.file, range)
    }

    fn length(&mut self, sentence: &Sentence, most: usize) {
        for (count, range) in rules::too_long(sentence, most) {
            self.findings.sentence_too_long(&self.at(range), count, most);
        }
    }

    fn heading(&mut self, heading: &Sentence) {
        if !direct::is_command(heading) {
            self.findings.heading_without_command(&self.at(heading.whole()));
        }
    }

    fn step(&mut self, sentence: &Sentence) {
        self.instruction(sentence);
        for (figure, range) in rules::figures(sentence) {
            self.findings.figure_by_hand(&self.at(range), &figure);
        }
    }

    fn instruction(&mut self, sentence: &Sentence) {
        self.length(sentence, MOST_IN_STEP);
        if let Some((words, range)) = direct::indirect(sentence) {
            self.findings.indirect_command(&self.at(range), &words);
        }
        if let Some(range) = rules::second_command(sentence) {
            self.findings.two_instructions(&self.at(range));
        }
        if let Some(range) = rules::late_condition(sentence) {
            self.findings.condition_last(&self.at(range));
        }
        self.vague(sentence);
    }

    fn vague(&mut self, sentence: &Sentence) {
        for (phrase, instead, range) in rules::vague(sentence) {
            self.findings.vague_words(&self.at(range), &phrase, &Words::of(instead));
        }
    }

    fn clusters(&mut self, sentence: &Sentence) {
        for (count, range) in nouns::clusters(sentence) {
            self.findings.noun_cluster(&self.at(range), count);
        }
    }

    /// Each note that gives an instruction or a warning, once.
    fn notes(&mut self, sentences: &[Sentence]) {
        for note in
            sentences.chunk_by(|one, next| one.is_beside(next)).filter(|p| direct::is_note(p))
        {
            if let Some(range) = note.iter().find_map(direct::ordered) {
                self.findings.instruction_in_note(&self.at(range));
            }
            if let Some(range) = note.iter().find_map(direct::endangered) {
                self.findings.warning_in_note(&self.at(range));
            }
        }
    }

    /// Each abbreviation that nobody explains, where it stands first.
    fn abbreviations(&mut self, sentences: &[Sentence]) {
        let mut known: BTreeSet<&str> = sentences.iter().flat_map(rules::definitions).collect();
        for sentence in sentences {
            for (text, range) in rules::abbreviations(sentence, &known) {
                if known.insert(text) {
                    self.findings.unknown_abbreviation(&self.at(range), text);
                }
            }
        }
    }

    /// All steps together, shown at their hardest sentence: a score of one short step means little.
    fn readability(&mut self, steps: &[Sentence]) {
        let mut all = Lengths::default();
        let mut hardest: Option<(Number, &Sentence)> = None;
        for sentence in steps {
            let spoken = sentence
                .words
                .iter()
                .filter(|word| word.kind != Kind::Value && word.text.contains(char::is_alphabetic));
            let mut one = Lengths::default();
            one.add(spoken.map(|word| word.text));
            all = all.and(one);
            let Ok(grade) = grade(one) else { continue };
            if hardest.is_none_or(|(most, _)| most < grade) {
                hardest = Some((grade, sentence));
            }
        }
        let (Ok(grade), Ok(ease), Some((_, sentence))) = (grade(all), reading_ease(all), hardest)
        else {
            return;
        };
        if all.words >= LEAST_SCORED && Number::from(HARDEST_GRADE) < grade {
            let at = self.at(sentence.whole());
            self.findings.hard_to_read(&at, &grade.decimal(1), &ease.decimal(0), HARDEST_GRADE);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{Text, allow, check as check_text};
    use crate::finding::{Findings, Spot};

    const FILE: &str = "instructions/a.md";

    /// Findings as `rule: words`, in order, of an introduction and the prose of a step.
    fn found(intro: &str, step: &str) -> Vec<String> {
        let file: Arc<str> = FILE.into();
        let text = format!("{intro}\n\n{step}");
        let comments = allow::comments(&text, 0);
        let mut findings = Findings::default();
        let pieces = [0..intro.len(), intro.len() + 2..text.len()];
        let [intro, step] = pieces;
        let end = step.end..step.end;
        let steps = Vec::from([super::Step { prose: [step, end], read: None }]);
        let of = Text { file: &file, text: &text, intro, steps, comments: &comments };
        check_text(&mut findings, &of);
        let shown = |finding: &crate::finding::Finding| {
            let Spot::Bytes(range) = &finding.place.spot else { panic!("{finding:?}") };
            format!("{}: {}", finding.rule, &text[range.clone()])
        };
        findings.iter().map(shown).collect()
    }

    #[track_caller]
    fn check(step: &str, expected: &[&str]) {
        assert_eq!(found("", step), expected, "{step}");
    }

    #[track_caller]
    fn clean(steps: &[&str]) {
        steps.iter().for_each(|step| check(step, &[]));
    }

    /// `n` words in a sentence.
    fn words(n: usize) -> String {
        format!("Look{}.", " at".repeat(n - 1))
    }

    #[test]
    fn a_sentence_has_twenty_words_in_a_step_and_twenty_five_before() {
        // Source: ASD-STE100, 20 words in procedures, 25 in descriptions.
        assert_eq!(found(&words(25), &words(20)), [] as [&str; 0]);
        let long = |n: usize| format!("sentence-too-long: {}", words(n).trim_end_matches('.'));
        assert_eq!(found(&words(26), &words(21)), [long(26), long(21)]);
    }

    #[test]
    fn a_hyphened_word_a_value_a_label_count_once_and_brackets_count_alone() {
        // Source: ASD-STE100, word count, from memory.
        let nineteen = words(19).replace('.', "");
        for one in ["lint-free", "{{ rail.hex_key }}", "`F1 F2`", "\"Safe position\"", "**knife**"]
        {
            clean(&[&format!("{nineteen} {one}.")]);
        }
        clean(&[&format!("{nineteen} (that is a short remark) here.")]);
        let long = format!("Look (at{})", " at".repeat(20));
        check(
            &format!("{long} here."),
            &[&format!("sentence-too-long: {}", &long[6..long.len() - 1])],
        );
    }

    #[test]
    fn one_sentence_holds_one_instruction() {
        check("Open the valve and close the drain.", &["two-instructions: and close"]);
        check("If it leaks, stop the pump, then tell the lead.", &["two-instructions: then tell"]);
        check("Open the lid; take {{ strip }} out.", &["two-instructions: take"]);
        check("Then wipe it and then put it back.", &["two-instructions: and then put"]);
    }

    #[test]
    fn actions_at_the_same_moment_and_clauses_are_one_instruction() {
        clean(&[
            // Source: ASD-STE100, actions at the same moment may share a sentence.
            "Hold the wheel and open the clamp.",
            "Open the drain and leave it open.",
            "Push and turn the knob.",
            "Turn the wheel while you watch the gauge and read the scale.",
            // No second command.
            "Check the lock and seal on the door.",
            "Check that you can lift and turn the part.",
            "Use the tool to lift the part and turn it.",
            "Do not reach in and touch the knife.",
            "The knives cut the web and mark the edge.",
            "Cut the web and the strips.",
        ]);
    }

    #[test]
    fn the_condition_comes_first() {
        check("Tell the lead if a part is missing.", &["condition-last: if"]);
        check("Do not start unless the guard is closed.", &["condition-last: unless"]);
        check("After the wait, stop it if it leaks.", &["condition-last: if"]);
        clean(&[
            "If a part is missing, tell the lead.",
            "Ask the lead if the order is right.",
            "Wait to see if the gauge falls.",
            "Stop when the gauge shows zero.",
            "Leave it open even if the gauge shows zero.",
            "The line stays stopped if a tool is missing.",
        ]);
    }

    #[test]
    fn a_number_or_a_criterion_stands_where_it_belongs() {
        check("Oil it as needed.", &["vague-words: as needed"]);
        check("If necessary, clean it.", &["vague-words: If necessary"]);
        check("Clean it if necessary.", &["vague-words: if necessary"]);
        check("Tighten the screw well.", &["vague-words: well"]);
        check("Wait approximately two minutes.", &["vague-words: approximately"]);
        check("Wait about 2 minutes.", &["vague-words: about 2"]);
        check("Take **some** cloths, tools, etc.", &["vague-words: some", "vague-words: etc"]);
        assert_eq!(found("Some sources build up again.", "Wait."), [] as [&str; 0]);
        clean(&[
            "Read the hatch as well.",
            "Look down the well.",
            "Fit a bit into the holder.",
            "Take the sum of the rows.",
            "If required by the maker, clean it.",
            "Press `some`.",
            "Sometimes nothing moves.",
            "Think about it.",
        ]);
    }

    #[test]
    fn an_abbreviation_is_explained_once() {
        check("Start the CIP. Stop the CIP.", &["unknown-abbreviation: CIP"]);
        check("Read both PLCs.", &["unknown-abbreviation: PLCs"]);
        assert_eq!(found("The HMI stays on.", "Wait."), ["unknown-abbreviation: HMI"]);
        assert_eq!(found("Cleaning in place (CIP) helps.", "Start the CIP."), [] as [&str; 0]);
        clean(&[
            "Use CIP (cleaning in place) now.",
            "Turn Q1, G12 and QF2 to OFF.",
            "Press \"NEXT PAGE\". Press `ESC`.",
            "Read section IV. Read the LED.",
            "DANGER. A web runs in. I stop.",
        ]);
    }

    #[test]
    fn a_setting_is_not_written_by_hand() {
        check("Set the gap to 0.5 mm.", &["figure-by-hand: 0.5 mm"]);
        check("Set it to 120 °C, not more.", &["figure-by-hand: 120 °C"]);
        check("Turn it to 9.5 N·m.", &["figure-by-hand: 9.5 N·m"]);
        check("Take the 4mm key.", &["figure-by-hand: 4mm"]);
        check("Set it to within 1 mm.", &["figure-by-hand: 1 mm"]);
        check("Set it to 1/4 in now.", &["figure-by-hand: 1/4 in"]);
        clean(&[
            "Wait 5 min. Wait 10 s.",
            "Make 20 cycles. Make 20 in a row.",
            "Lower it by 10 mm.",
            "Go 5 mm below the mark.",
            "Move it until both distances agree within 1 mm.",
            "Set it to {{ gap }}. Press `5 mm`.",
        ]);
    }

    #[test]
    fn a_hard_text_is_shown_at_its_hardest_sentence() {
        let hard = "Verification necessitates operational authorisation. ";
        let easy = "Look at the part. ";
        let text = format!("{}{hard}{easy}", "Inspection requires qualification. ".repeat(33));
        check(&text, &["hard-to-read: Verification necessitates operational authorisation"]);
        // Less than a hundred words say nothing.
        check(&hard.repeat(24), &[]);
        check(&easy.repeat(40), &[]);
    }

    #[test]
    fn an_order_is_a_command() {
        // Source: ISO 20607 Annex C, as reported: no `make sure that each source is disconnected`.
        check("Make sure that the valve is closed.", &["indirect-command: Make sure"]);
        check("If it leaks, ensure that it is shut.", &["indirect-command: ensure"]);
        check("The valve should be closed.", &["indirect-command: should"]);
        check("The valve must be closed.", &["indirect-command: must be closed"]);
        check("Both screws are to be put back.", &["indirect-command: are to be put"]);
        check("It is important to wait.", &["indirect-command: It is important"]);
        check("When it is cold, it must not be moved.", &["indirect-command: must not be moved"]);
        clean(&[
            "Check that the valve is closed.",
            "Renew each seal that must be replaced.",
            "The knife is fastened with two screws.",
            "The reading must be zero.",
            "Tell the crew to be sure of it.",
            "Press `should`.",
        ]);
        assert_eq!(found("The valve should be closed.", "Wait."), [] as [&str; 0]);
    }

    #[test]
    fn a_note_only_informs() {
        // Source: ASD-STE100, rule 5.5.
        check("Note: Close the lid.", &["instruction-in-note: Close"]);
        check("**Note:** It is hot. If it leaks, stop it.", &["instruction-in-note: stop"]);
        check("NOTE: The lid must stay on.", &["instruction-in-note: must"]);
        check("> Note: The jaw burns the hand.", &["warning-in-note: burns"]);
        check(
            "Note: Injury is likely. Never reach in.",
            &["instruction-in-note: Never", "warning-in-note: Injury"],
        );
        assert_eq!(found("Note: Wear gloves.", "Wait."), ["instruction-in-note: Wear"]);
        clean(&["Note: The lid closes by itself.\n\nClose it.", "Note the number.", "Note:"]);
    }

    #[test]
    fn nouns_stand_in_clusters_of_three() {
        check("Open the jaw heater panel door.", &["noun-cluster: jaw heater panel door"]);
        let intro = "The jaw heater panel door is open.";
        assert_eq!(found(intro, "Wait."), ["noun-cluster: jaw heater panel door"]);
        clean(&["Open the door of the jaw heater panel."]);
    }

    /// Findings as `rule: words` of a step with this heading and this block.
    #[track_caller]
    fn check_step(heading: &str, block: &str, expected: &[&str]) {
        let head =
            "---\nid: a\ntitle: T\nrevision: 1\ndate: 2026-01-01\nauthor: A\nreason: R\n---\n";
        let text = format!("{head}\n{heading}\nWait.\n```step\n{block}\n```\n");
        let mut findings = Findings::default();
        crate::procedure::text::parse(
            &mut findings,
            &FILE.into(),
            &text,
            String::new(),
            crate::language::Language::English,
        );
        let shown = |finding: &crate::finding::Finding| {
            format!("{}: {}", finding.rule, &text[finding.place.locate(&text)])
        };
        assert_eq!(findings.iter().map(shown).collect::<Vec<_>>(), expected, "{heading} {block}");
    }

    #[test]
    fn a_heading_begins_with_a_command() {
        for command in
            ["## Do it. Now", "## If it leaks, stop it", "## Grease the chain", "Do it\n---"]
        {
            check_step(command, "", &[]);
        }
        check_step("## Knife change", "", &["heading-without-command: Knife change"]);
        check_step(
            "## Changing the knife ##",
            "",
            &["heading-without-command: Changing the knife"],
        );
        check_step("The knives\n---", "", &["heading-without-command: The knives"]);
        let allow = "<!-- allow: heading-without-command: name of the trade -->";
        check_step(&format!("{allow}\n## Lockout"), "", &[]);
        check_step(&format!("## Lockout {allow}"), "", &[]);
        let cluster = "noun-cluster: film roll brake lever";
        check_step("## Set the film roll brake lever", "", &[cluster]);
    }

    #[test]
    fn the_texts_of_a_block_are_checked_where_they_stand() {
        check_step("## Do it", "outside: Set it again as needed.", &["vague-words: as needed"]);
        check_step("## Do it", "outside: Ensure that it fits.", &["indirect-command: Ensure"]);
        check_step(
            "## Do it",
            "outside: \"Open the \\\"lid\\\" and close the drain.\"",
            &["two-instructions: and close"],
        );
        check_step(
            "## Do it",
            "outside: 'It''s bad. Tell Ü\n  about it if\n  it leaks.'",
            &["condition-last: if"],
        );
        for sign in ["|", ">", "|-"] {
            let block = format!("outside: {sign}\n  Go on.\n  Wait a little.");
            check_step("## Do it", &block, &["vague-words: a little"]);
        }
        let long = format!("outside: Look{}", " at".repeat(20));
        check_step("## Do it", &long, &[&format!("sentence-too-long: {}", &long[9..])]);
        check_step(
            "## Do it",
            "checks:\n  - Screws tight\n  - \"Start the CIP\"\n  - The CIP has ended",
            &["vague-words: tight", "unknown-abbreviation: CIP"],
        );
        check_step("## Do it", "checks: [It fits well, ok]", &["vague-words: well"]);
        // What cannot be followed letter by letter is shown as a whole.
        check_step(
            "## Do it",
            "outside: \"\\x41 bit tight\"",
            &["vague-words: \"\\x41 bit tight\""],
        );
        check_step("## Do it", "checks: [Set to 5 mm]\ntools: [Some cloth]", &[]);
    }

    #[test]
    fn a_comment_of_the_block_silences_its_line() {
        let allow = "# allow: vague-words: the words of the maker";
        check_step("## Do it", &format!("checks:\n  {allow}\n  - Screws tight"), &[]);
        check_step("## Do it", &format!("outside: Oil it as needed. {allow}"), &[]);
        check_step("## Do it", "# allow two minutes for it\nminutes: 2", &[]);
        check_step("## Do it", allow, &[&format!("allow-unused: {allow}")]);
        let bare = "# allow: vague-words:";
        check_step("## Do it", bare, &[&format!("allow-without-reason: {bare}")]);
    }

    #[test]
    fn a_reason_silences_a_rule_on_its_line_only() {
        let set = "Set the gap to 5 mm.";
        check(&format!("{set} <!-- allow: figure-by-hand: the gap of the test piece -->"), &[]);
        check(&format!("<!-- allow: figure-by-hand: test piece -->\n{set}"), &[]);
        check(
            &format!(
                "<!-- allow: figure-by-hand: a -->\n<!-- allow: vague-words: b -->\n{set} Wait a little."
            ),
            &[],
        );
        let allow = "<!-- allow: figure-by-hand: a -->";
        check(&format!("{allow}\n{set}\n{set}"), &["figure-by-hand: 5 mm"]);
    }

    #[test]
    fn a_sentence_may_go_on_behind_a_comment() {
        let comment = "<!-- allow: condition-last: the part is cold by then -->";
        check(&format!("Take the part out\n{comment}\nif it is loose."), &[]);
    }

    #[test]
    fn a_comment_without_reason_or_use_is_found() {
        let bare = "<!-- allow: figure-by-hand: -->";
        check(
            &format!("Set the gap to 5 mm. {bare}"),
            &["figure-by-hand: 5 mm", &format!("allow-without-reason: {bare}")],
        );
        check("Wait. <!-- allow -->", &["allow-without-reason: <!-- allow -->"]);
        let idle = "<!-- allow: vague-words: it was vague once -->";
        check(&format!("{idle}\nWait."), &[&format!("allow-unused: {idle}")]);
    }

    #[test]
    fn time_grows_with_the_text_and_not_with_its_square() {
        // With one step too many for each word, 100 kB would take minutes.
        for (piece, expected) in [
            ("a ", "sentence-too-long"),
            ("(", ""),
            ("(a ", "hard-to-read"),
            ("\"a ", "sentence-too-long"),
            ("{{ a }} ", "sentence-too-long"),
            ("Open it and ", "sentence-too-long"),
            ("if ", "sentence-too-long"),
            ("CIP (", "hard-to-read"),
            ("AB, CD. Ef ", "unknown-abbreviation"),
            ("`a`**b**&amp; ", "sentence-too-long"),
            ("A.\n\n", ""),
            ("<!-- allow: a: b --> ", "allow-unused"),
            ("a <!-- allow: a: b -->\n", "sentence-too-long"),
            ("<!-- allow: a: b -->\n", "allow-unused"),
            ("<!-- allow\n", ""),
            ("a <!-- allow ", "sentence-too-long"),
            ("that should ", "sentence-too-long"),
            ("jaw ", "sentence-too-long"),
            ("Note: a.\n\n", ""),
        ] {
            let found = found("", &piece.repeat(100_000 / piece.len()));
            let first = found.first().map_or("", |found| found.split(':').next().unwrap());
            assert_eq!(first, expected, "{piece}");
        }
    }

    #[test]
    fn much_advice_leaves_room_for_faults() {
        let text = "Set it to 5 mm. ".repeat(2100);
        assert_eq!(found("", &text).len(), super::MOST_FINDINGS);
    }
}
