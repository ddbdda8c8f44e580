//! A procedure's Markdown, taken apart: front matter, one heading a step, prose, one block of facts.

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use super::translation::Translated;
use super::values::{Braces, braces};
use super::writing::allow::{self, Allow, Stripped};
use super::writing::{self, Text};
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::plant::read;
use crate::plant::shape::{FrontMatter, StepEntry, UseEntry};

/// How the path of a procedure begins that is a part of the program.
pub(crate) const SHIPPED: &str = "shipped/";

/// A procedure as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Procedure {
    /// Path inside the plant, or `shipped/...`.
    pub file: Arc<str>,
    /// SHA-256 of the file.
    pub sha256: String,
    /// The language of its texts.
    pub language: Language,
    /// What its texts were translated by; none for a source.
    pub translated: Option<Translated>,
    /// Its facts.
    pub front: FrontMatter,
    /// Bytes of the front matter's YAML.
    pub front_range: Range<usize>,
    /// What stands before the first step, Markdown.
    pub intro: String,
    /// The steps, in order.
    pub steps: Vec<StepText>,
    /// Other procedures that stand among the steps, in order.
    pub includes: Vec<Include>,
}

/// Another procedure among the steps of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Include {
    /// Index of the step before which it stands.
    pub before: usize,
    /// The procedure, with values for its parameters.
    pub used: UseEntry,
    /// Bytes of the YAML that names it.
    pub block: Range<usize>,
    /// Line of that YAML in the file, from 1 on.
    pub line: u32,
}

/// One step as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepText {
    /// Heading.
    pub title: String,
    /// Heading as an identifier: lower case, hyphens.
    pub slug: String,
    /// Bytes of the heading's words.
    pub heading: Range<usize>,
    /// Prose, Markdown with `{{ name }}`.
    pub text: String,
    /// The names in the prose, with their bytes in the file.
    pub names: Vec<(String, Range<usize>)>,
    /// Bytes of the YAML of the step's facts.
    pub block: Range<usize>,
    /// The step's facts.
    pub facts: StepEntry,
}

/// Takes a procedure apart; none when it has no readable front matter.
pub fn parse(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    sha256: String,
    language: Language,
) -> Option<Procedure> {
    let (front_range, body) = front_matter(findings, file, text)?;
    let front = read::yaml_block(findings, file, text, front_range.clone());
    let comments = allow::comments(text, body);
    let sections = sections(text, body, "step");
    let intro = body..sections.first().map_or(text.len(), |s| s.heading.start);
    let (mut steps, mut includes) = (Vec::<Option<StepText>>::new(), Vec::new());
    for section in &sections {
        if section.includes.is_empty() {
            steps.push(step(findings, file, text, section, &comments));
        } else {
            let before = steps.iter().flatten().count();
            includes.extend(include(findings, file, text, section, &comments, before));
            steps.push(None);
        }
    }
    let mut slugs = BTreeSet::new();
    for step in steps.iter().flatten().filter(|step| !slugs.insert(&step.slug)) {
        findings.heading_twice(&Place::bytes(file, step.heading.clone()), &step.title);
    }
    if sections.is_empty() {
        findings.no_steps(&Place::file(file));
    }
    let written = sections.iter().zip(&steps).filter_map(|(section, step)| {
        Some(writing::Step { prose: section.prose()?, read: step.as_ref() })
    });
    let (intro_of, written) = (intro.clone(), written.collect());
    let all = Text { file, text, intro: intro_of, steps: written, comments: &comments };
    // What ships was read when it was written, by the test of the library; it is most of the time.
    if !file.starts_with(SHIPPED) {
        writing::check(findings, &all);
    }
    let steps = steps.into_iter().flatten().collect();
    let intro = Stripped::new(text, intro, &comments).text.trim().to_owned();
    let front = front?;
    let file = file.clone();
    let translated = None;
    Some(Procedure {
        file,
        sha256,
        language,
        translated,
        front,
        front_range,
        intro,
        steps,
        includes,
    })
}

/// Bytes of the YAML between two lines of `---` at the top, and where the body begins; without them
/// the file is no procedure.
pub(super) fn front_matter(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
) -> Option<(Range<usize>, usize)> {
    let found = between_lines(text);
    if found.is_none() {
        findings.no_front_matter(&Place::bytes(file, 0..text.find('\n').unwrap_or(text.len())));
    }
    found
}

fn between_lines(text: &str) -> Option<(Range<usize>, usize)> {
    let start = text.strip_prefix("---\n").map(|_| 4)?;
    let end = if text[start..].starts_with("---\n") {
        start
    } else {
        start + text[start..].find("\n---\n")? + 1
    };
    Some((start..end, end + 4))
}

/// A heading of the second level and what belongs to it.
pub(super) struct Section {
    pub(super) heading: Range<usize>,
    end: usize,
    /// Fenced blocks with the mark that is looked for: the whole, and the YAML inside.
    pub(super) blocks: Vec<(Range<usize>, Range<usize>)>,
    /// Fenced blocks marked `include`, likewise.
    includes: Vec<(Range<usize>, Range<usize>)>,
    /// Code in which values cannot be put.
    code: Vec<Range<usize>>,
}

impl Section {
    /// Bytes before and after the block of facts; none without one such block.
    pub(super) fn prose(&self) -> Option<[Range<usize>; 2]> {
        match self.blocks.as_slice() {
            [(whole, _)] => Some([self.heading.end..whole.start, whole.end..self.end]),
            _ => None,
        }
    }
}

/// The sections of a text; `mark` is the word behind the fence of a section's YAML.
pub(super) fn sections(text: &str, body: usize, mark: &str) -> Vec<Section> {
    let mut sections: Vec<Section> = Vec::new();
    let mut in_block = false;
    for (event, range) in Parser::new_ext(&text[body..], Options::ENABLE_TABLES).into_offset_iter()
    {
        let range = body + range.start..body + range.end;
        match event {
            Event::Start(Tag::Heading { level: HeadingLevel::H2, .. }) => {
                if let Some(last) = sections.last_mut() {
                    last.end = range.start;
                }
                let end = text.len();
                let (blocks, includes, code) = (vec![], vec![], vec![]);
                sections.push(Section { heading: range, end, blocks, includes, code });
            }
            Event::Start(Tag::CodeBlock(kind)) => {
                let word = match &kind {
                    CodeBlockKind::Fenced(word) => &**word,
                    CodeBlockKind::Indented => "",
                };
                in_block = word == mark || word == "include";
                if let Some(last) = sections.last_mut() {
                    let block = || (range.clone(), inside_fence(text, &range));
                    match word {
                        _ if word == mark => last.blocks.push(block()),
                        "include" => last.includes.push(block()),
                        _ => last.code.push(range),
                    }
                }
            }
            Event::End(TagEnd::CodeBlock) => in_block = false,
            Event::Code(_) if !in_block => {
                if let Some(last) = sections.last_mut() {
                    last.code.push(range);
                }
            }
            _ => {}
        }
    }
    sections
}

/// Bytes between the opening and the closing line of a fence.
fn inside_fence(text: &str, fence: &Range<usize>) -> Range<usize> {
    let block = text[fence.clone()].trim_end();
    let start = block.find('\n').map_or(block.len(), |at| at + 1);
    let last = block.rfind('\n').map_or(start, |at| at + 1).max(start);
    // A fence that nobody closed reaches to the end of the file: its last line is a fact too.
    let end_line = block[last..].trim_start();
    let is_closed = end_line.starts_with("```") || end_line.starts_with("~~~");
    let end = if is_closed { last } else { block.len() };
    fence.start + start..fence.start + end
}

/// Another procedure that stands under a heading of its own, with nothing else.
fn include(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    section: &Section,
    comments: &[Allow],
    before: usize,
) -> Option<Include> {
    let around = |whole: &Range<usize>| {
        let around = [section.heading.end..whole.start, whole.end..section.end];
        shown(text, around, comments)
    };
    let block = match (section.includes.as_slice(), section.blocks.as_slice()) {
        ([(whole, block)], []) if around(whole).is_empty() => block.clone(),
        _ => {
            let title = title(text, section, comments);
            findings.include_not_alone(&Place::bytes(file, section.heading.clone()), &title);
            return None;
        }
    };
    let used = read::yaml_block(findings, file, text, block.clone())?;
    Some(Include { before, used, line: line(text, block.start), block })
}

/// The line of a byte, from 1 on.
pub(crate) fn line(text: &str, at: usize) -> u32 {
    let before = text.bytes().take(at).filter(|byte| *byte == b'\n').count();
    u32::try_from(before).unwrap_or(u32::MAX).saturating_add(1)
}

fn step(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    section: &Section,
    comments: &[Allow],
) -> Option<StepText> {
    let heading = title_range(text, &section.heading);
    let heading_at = Place::bytes(file, heading.clone());
    let title = title(text, section, comments);
    let slug = slug(&title);
    if slug.is_empty() || title.contains("{{") {
        findings.bad_heading(&heading_at, &title);
        return None;
    }
    let ([(_, yaml)], Some(prose)) = (section.blocks.as_slice(), section.prose()) else {
        findings.step_blocks(&heading_at, section.blocks.len());
        return None;
    };
    let facts = read::yaml_block(findings, file, text, yaml.clone());
    let names = names(findings, file, text, section, comments);
    let text = shown(text, prose, comments);
    Some(StepText { title, slug, heading, text, names, block: yaml.clone(), facts: facts? })
}

/// The words of a section's heading, in one line.
pub(super) fn title(text: &str, section: &Section, comments: &[Allow]) -> String {
    let words = Stripped::new(text, title_range(text, &section.heading), comments).text;
    words.replace('\n', " ").trim().to_owned()
}

/// The prose as it is shown, without comments.
pub(super) fn shown(text: &str, prose: [Range<usize>; 2], comments: &[Allow]) -> String {
    let shown = |piece| Stripped::new(text, piece, comments).text.trim().to_owned();
    prose.map(shown).join("\n\n").trim().to_owned()
}

/// The names of values in the prose of a section, with their bytes.
pub(super) fn names(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    section: &Section,
    comments: &[Allow],
) -> Vec<(String, Range<usize>)> {
    let mut names = Vec::new();
    for piece in section.prose().iter().flatten() {
        names.extend(names_in(findings, file, text, piece, &section.code));
    }
    // What stands in a comment is not shown, so it needs no value.
    names.retain(|(_, range)| !allow::covers(comments, range.start));
    names
}

fn names_in(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    piece: &Range<usize>,
    code: &[Range<usize>],
) -> Vec<(String, Range<usize>)> {
    let mut names = Vec::new();
    for brace in braces(&text[piece.clone()]) {
        let (range, why) = match &brace {
            Braces::Name { range, .. } => (range, None),
            Braces::Bad { range, why } => (range, Some(*why)),
        };
        let in_file = |range: &Range<usize>| piece.start + range.start..piece.start + range.end;
        let range = in_file(range);
        let in_code = code.iter().any(|code| code.start <= range.start && range.end <= code.end);
        let why = why.or(in_code.then_some("braces-in-code"));
        match (why, brace) {
            (Some(why), _) => findings.bad_braces(&Place::bytes(file, range), &Words::of(why)),
            (None, Braces::Name { name, inner, .. }) => names.push((name, in_file(&inner))),
            (None, Braces::Bad { .. }) => {}
        }
    }
    names
}

/// Bytes of the words of a heading, marked with `##` or underlined.
pub(super) fn title_range(text: &str, heading: &Range<usize>) -> Range<usize> {
    let whole = &text[heading.clone()];
    let is_sign = |c: char| c == '#' || c.is_whitespace();
    let words = match whole.trim_end().rsplit_once('\n') {
        Some((words, _)) if !whole.trim_start().starts_with('#') => words,
        _ => whole,
    };
    let start = words.len() - words.trim_start_matches(is_sign).len();
    let end = words.trim_end_matches(is_sign).len().max(start);
    heading.start + start..heading.start + end
}

/// A heading as an identifier.
fn slug(title: &str) -> String {
    let words: Vec<String> = title
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| word.chars().filter(char::is_ascii).collect::<String>().to_lowercase())
        .filter(|word| !word.is_empty())
        .collect();
    words.join("-")
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::{Procedure, parse};
    use crate::finding::Findings;
    use crate::finding::show::{Texts, located};
    use crate::language::Language;
    use crate::packet::model::EnergyState;

    const HEAD: &str = "---\nid: knives\ntitle: T\nrevision: 1\ndate: 2026-01-01\nauthor: A\nreason: R\n---\nWhy.\n\n";

    fn read(text: &str) -> (Option<Procedure>, Vec<(&'static str, usize)>) {
        let file: Arc<str> = "instructions/knives.md".into();
        let mut findings = Findings::default();
        let procedure = parse(&mut findings, &file, text, String::new(), Language::English);
        let texts = Texts::from([(file, text.into())]);
        let found = located(&findings, &texts, Language::English)
            .iter()
            .map(|f| (f.rule, f.line))
            .collect();
        (procedure, found)
    }

    #[test]
    fn a_procedure_comes_apart() {
        let text = format!(
            "{HEAD}## Slide it\nTo {{{{ strip }}}}.\n```step\nneeds: isolated\n```\n\n## Look, again!\n```step\n```\nAfter.\n"
        );
        let (procedure, found) = read(&text);
        assert_eq!(found, []);
        let procedure = procedure.unwrap();
        assert_eq!((procedure.intro.as_str(), procedure.steps.len()), ("Why.", 2));
        let [slide, look] = procedure.steps.as_slice() else { panic!() };
        assert_eq!((slide.title.as_str(), slide.slug.as_str()), ("Slide it", "slide-it"));
        assert_eq!(slide.facts.needs, EnergyState::Isolated);
        assert_eq!(slide.names[0].0, "strip");
        assert_eq!(&text[slide.names[0].1.clone()], "strip");
        assert_eq!((look.slug.as_str(), look.text.as_str()), ("look-again", "After."));
    }

    #[test]
    fn faults_are_found_where_they_stand() {
        let text = format!(
            "{HEAD}## Do A\n`{{{{ strip }}}}` {{{{ 1 }}}}\n```step\nneed: isolated\n```\n## Do B\nno block\n## Do A\n```step\n```\n"
        );
        let (_, found) = read(&text);
        let expected =
            [("bad-braces", 12), ("bad-braces", 12), ("unknown-key", 14), ("step-block", 16)];
        assert_eq!(found, expected);
    }

    #[test]
    fn a_comment_to_the_writing_check_does_not_reach_the_packet() {
        let allow = "<!-- allow: vague-words: {{ kept }} -->";
        let text = format!(
            "{HEAD}More. {allow}\n\n## Do A\nSet {{{{ a }}}}.\n{allow}\nWait a little. {allow}\n```step\n```\n"
        );
        let (procedure, found) = read(&text);
        assert_eq!(found, [("allow-unused", 11)]);
        let procedure = procedure.unwrap();
        assert_eq!(procedure.intro, "Why.\n\nMore.");
        assert_eq!(procedure.steps[0].text, "Set {{ a }}.\nWait a little.");
        let names: Vec<&str> = procedure.steps[0].names.iter().map(|n| n.0.as_str()).collect();
        assert_eq!(names, ["a"]);
    }

    #[test]
    fn a_comment_beside_a_heading_is_no_part_of_the_title() {
        let allow = "<!-- allow: heading-without-command: a name of the trade -->";
        for heading in [format!("## Lockout {allow}"), format!("{allow}\n## Lockout ##")] {
            let (procedure, found) = read(&format!("{HEAD}{heading}\n```step\n```\n"));
            assert_eq!(found, []);
            assert_eq!(procedure.unwrap().steps[0].title, "Lockout");
        }
    }

    #[test]
    fn an_underlined_heading_is_a_heading_without_its_line() {
        let (procedure, found) = read(&format!("{HEAD}Slide it\n--------\n```step\n```\n"));
        assert_eq!(found, []);
        let step = &procedure.unwrap().steps[0];
        assert_eq!((step.title.as_str(), step.slug.as_str()), ("Slide it", "slide-it"));
    }

    #[test]
    fn a_fence_that_is_not_closed_keeps_its_last_line() {
        for end in ["", "\n", "\n```", "\n~~~~"] {
            let text = format!("{HEAD}## Do A\n```step\nminutes: 3\nneeds: isolated{end}");
            let (procedure, found) =
                read(&text.replace("```", if end.contains('~') { "~~~~" } else { "```" }));
            assert_eq!(found, []);
            assert_eq!(procedure.unwrap().steps[0].facts.needs, EnergyState::Isolated, "{end:?}");
        }
    }

    #[test]
    fn a_file_without_front_matter_is_refused() {
        assert_eq!(read("## Do A\n").1, [("no-front-matter", 1)]);
    }

    #[test]
    fn a_heading_that_stands_twice_is_found() {
        let text = format!("{HEAD}## Do A\n```step\n```\n## Do a\n```step\n```\n");
        assert_eq!(read(&text).1, [("heading-twice", 14)]);
    }
}
