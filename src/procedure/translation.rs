//! A procedure in another language: the texts of its steps, and nothing else.
//!
//! Must never carry a fact: what a step needs, protects, limits and has signed comes from the source
//! alone, so that no translation can change what is safe. A translation that does not say the same
//! things as its source, step by step and value by value, is refused.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use super::text::{self, Procedure, StepText};
use super::values::{Braces, braces};
use super::writing::allow::{self, Stripped};
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::plant::read;
use crate::plant::shape::{MinorEntry, StepEntry, StepTexts, TranslationFront};

/// What a procedure's texts were translated by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Translated {
    /// Path inside the plant, or `shipped/...`.
    pub file: Arc<str>,
    /// SHA-256 of the translation's file.
    pub sha256: String,
    /// The revision of the source that was translated.
    pub from: String,
    /// Who translated it.
    pub by: String,
    /// Where that is written.
    pub at: Place,
}

impl Procedure {
    /// Whether it is a translation whose source has another revision by now.
    pub fn is_old(&self) -> bool {
        let from = self.translated.as_ref().map(|translated| translated.from.as_str());
        from.is_some_and(|from| from != self.front.revision.trim())
    }

    /// Whether its texts are in another language than the one that is wanted.
    pub fn is_foreign(&self, language: Language) -> bool {
        self.language.texts() != language.texts()
    }

    /// What a reader in a language must know of its texts; mostly empty.
    pub fn flag(&self, language: Language) -> String {
        if let Some(translated) = self.translated.as_ref().filter(|_| self.is_old()) {
            let (from, now) = (translated.from.as_str(), self.front.revision.as_str());
            let parts = [("from", from.into()), ("revision", now.into())];
            return language.text("lines-translation-old", &parts);
        }
        if !self.is_foreign(language) {
            return String::new();
        }
        let own = self.language.word("language-name");
        language.text("lines-not-translated", &[("language", own.into())])
    }
}

/// A translation as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Translation {
    /// Path inside the plant, or `shipped/...`.
    pub file: Arc<str>,
    /// SHA-256 of the file.
    pub sha256: String,
    /// Its language.
    pub language: Language,
    /// Which procedure it translates, by whom.
    pub front: TranslationFront,
    /// Bytes of the front matter's YAML.
    pub front_range: Range<usize>,
    /// What stands before the first step, Markdown.
    intro: String,
    steps: Vec<Said>,
}

/// One step in the other language.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Said {
    title: String,
    heading: Range<usize>,
    text: String,
    names: Vec<(String, Range<usize>)>,
    block: Range<usize>,
    texts: StepTexts,
}

/// Takes a translation apart; none when its facts cannot be read.
pub fn parse(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    sha256: String,
    language: Language,
) -> Option<Translation> {
    let (front_range, body) = text::front_matter(findings, file, text)?;
    let front = read::yaml_block(findings, file, text, front_range.clone());
    let comments = allow::comments(text, body);
    let sections = text::sections(text, body, "texts");
    let intro = body..sections.first().map_or(text.len(), |section| section.heading.start);
    let mut steps = Vec::new();
    for section in &sections {
        let title = text::title(text, section, &comments);
        let heading = text::title_range(text, &section.heading);
        let at = Place::bytes(file, heading.clone());
        if title.is_empty() || title.contains("{{") {
            findings.bad_heading(&at, &title);
        }
        let ([(_, yaml)], Some(prose)) = (section.blocks.as_slice(), section.prose()) else {
            findings.texts_blocks(&at, section.blocks.len());
            return None;
        };
        let texts = read::yaml_block(findings, file, text, yaml.clone());
        steps.push(Said {
            title,
            heading,
            names: text::names(findings, file, text, section, &comments),
            text: text::shown(text, prose, &comments),
            block: yaml.clone(),
            texts: texts?,
        });
    }
    let intro = Stripped::new(text, intro, &comments).text.trim().to_owned();
    let file = file.clone();
    Some(Translation { file, sha256, language, front: front?, front_range, intro, steps })
}

impl Translation {
    /// A field of the front matter.
    pub fn at(&self, key: &str) -> Place {
        Place::block(&self.file, self.front_range.clone()).at(key)
    }

    /// The source with these texts; none when they do not say what the source says.
    ///
    /// Places stay those of the source: what a rule finds in a step is mended there.
    pub fn of(&self, findings: &mut Findings, source: &Procedure) -> Option<Procedure> {
        let mut own = Findings::default();
        let check = &mut Check { findings: &mut own, translation: self };
        check.has_each_step(source);
        for (said, step) in self.steps.iter().zip(&source.steps) {
            check.says_the_same(said, step);
        }
        let is_sound = !own.has_errors();
        findings.extend(own);
        is_sound.then(|| self.put_into(source))
    }

    fn put_into(&self, source: &Procedure) -> Procedure {
        let mut procedure = source.clone();
        procedure.language = self.language;
        procedure.translated = Some(Translated {
            file: self.file.clone(),
            sha256: self.sha256.clone(),
            from: self.front.translates.trim().to_owned(),
            by: self.front.translator.trim().to_owned(),
            at: self.at("translates"),
        });
        procedure.front.title = self.front.title.clone();
        procedure.front.intended_use = self.front.intended_use.clone();
        procedure.intro = self.intro.clone();
        for (step, said) in procedure.steps.iter_mut().zip(&self.steps) {
            step.title = said.title.clone();
            step.text = said.text.clone();
            put_texts(&mut step.facts, &said.texts);
        }
        procedure
    }
}

fn put_texts(facts: &mut StepEntry, texts: &StepTexts) {
    facts.tools.clone_from(&texts.tools);
    facts.checks.clone_from(&texts.checks);
    facts.outside.clone_from(&texts.outside);
    facts.minor_servicing.clone_from(&texts.minor_servicing);
    if let Some(reading) = &mut facts.reading {
        reading.label.clone_from(&texts.reading);
    }
}

struct Check<'a> {
    findings: &'a mut Findings,
    translation: &'a Translation,
}

impl Check<'_> {
    /// The same steps in the same order; only the first that differs is said.
    fn has_each_step(&mut self, source: &Procedure) {
        let Translation { file, front, steps, .. } = self.translation;
        let wanted = source.steps.iter().map(|step| step.slug.as_str());
        let mut pairs = steps.iter().zip(wanted.clone());
        if let Some((said, slug)) = pairs.find(|(said, slug)| said.texts.of != *slug) {
            let at = Place::block(file, said.block.clone()).at("of");
            self.findings.translation_out_of_step(&at, &front.of, &said.texts.of, slug);
        } else if let Some(slug) = wanted.clone().nth(steps.len()) {
            let at = match steps.last() {
                Some(last) => Place::bytes(file, last.heading.clone()),
                None => Place::file(file),
            };
            self.findings.translation_lacks_step(&at, &front.of, slug);
        } else if let Some(said) = steps.get(source.steps.len()) {
            let at = Place::block(file, said.block.clone()).at("of");
            self.findings.translation_has_more(&at, &front.of, &said.title);
        }
        let has_use = |text: &str| !text.trim().is_empty();
        if has_use(&source.front.intended_use) != has_use(&front.intended_use) {
            let counts = [&source.front.intended_use, &front.intended_use].map(|text| count(text));
            let at = self.translation.at("use");
            self.findings.translation_texts_differ(&at, &front.title, "use", counts);
        }
    }

    /// As many texts under each key, and the same values in each.
    fn says_the_same(&mut self, said: &Said, step: &StepText) {
        if said.texts.of != step.slug {
            return;
        }
        let at = Place::block(&self.translation.file, said.block.clone());
        let (source, own) = (texts(&step.facts), texts_of(&said.texts));
        for ((key, source), (_, own)) in source.into_iter().zip(own) {
            if source.len() != own.len() {
                let counts = [source.len(), own.len()];
                self.findings.translation_texts_differ(&at.at(key), &said.title, key, counts);
                continue;
            }
            for (index, (source, own)) in source.iter().zip(&own).enumerate() {
                let at = if matches!(key, "tools" | "checks") {
                    at.at(key).item(index)
                } else {
                    at.at(key)
                };
                for brace in braces(own) {
                    if let Braces::Bad { why, range } = brace {
                        self.findings.bad_braces(&at.within(range), &Words::of(why));
                    }
                }
                let own = names_of(own).map(|(name, range)| (name, at.within(range)));
                let source = names_of(source).map(|(name, _)| name).collect();
                self.same_values(&at, &said.title, &source, &own.collect());
            }
        }
        let file = &self.translation.file;
        let own = said.names.iter().cloned();
        let own = own.map(|(name, range)| (name, Place::bytes(file, range))).collect();
        let source = step.names.iter().map(|(name, _)| name.clone()).collect();
        let at = Place::bytes(file, said.heading.clone());
        self.same_values(&at, &said.title, &source, &own);
    }

    fn same_values(
        &mut self,
        at: &Place,
        title: &str,
        source: &BTreeSet<String>,
        own: &BTreeMap<String, Place>,
    ) {
        if let Some(name) = source.iter().find(|name| !own.contains_key(*name)) {
            self.findings.translation_lacks_value(at, title, name);
        } else if let Some((name, at)) = own.iter().find(|(name, _)| !source.contains(*name)) {
            self.findings.translation_adds_value(at, title, name);
        }
    }
}

fn count(text: &str) -> usize {
    usize::from(!text.trim().is_empty())
}

/// The texts of a step, by key. A text that is there but empty counts as none.
fn texts(facts: &StepEntry) -> [(&'static str, Vec<&str>); 5] {
    let reading = facts.reading.as_ref().and_then(|reading| reading.name.as_deref());
    by_key(&facts.tools, &facts.checks, &facts.outside, reading, facts.minor_servicing.as_ref())
}

fn texts_of(texts: &StepTexts) -> [(&'static str, Vec<&str>); 5] {
    let StepTexts { tools, checks, outside, reading, minor_servicing, .. } = texts;
    by_key(tools, checks, outside, reading.as_deref(), minor_servicing.as_ref())
}

fn by_key<'a>(
    tools: &'a [String],
    checks: &'a [String],
    outside: &'a Option<String>,
    reading: Option<&'a str>,
    minor: Option<&'a MinorEntry>,
) -> [(&'static str, Vec<&'a str>); 5] {
    let minor = minor.map(|own| {
        [&own.routine, &own.repetitive, &own.integral, &own.measure, &own.risk_assessment]
    });
    let there = |texts: Vec<&'a str>| -> Vec<&'a str> {
        texts.into_iter().filter(|text| !text.trim().is_empty()).collect()
    };
    [
        ("tools", there(tools.iter().map(String::as_str).collect())),
        ("checks", there(checks.iter().map(String::as_str).collect())),
        ("outside", there(outside.as_deref().into_iter().collect())),
        ("reading", there(reading.into_iter().collect())),
        ("minor_servicing", there(minor.into_iter().flatten().map(String::as_str).collect())),
    ]
}

/// The names of values in a text, with their bytes.
fn names_of(text: &str) -> impl Iterator<Item = (String, Range<usize>)> {
    braces(text).into_iter().filter_map(|brace| match brace {
        Braces::Name { name, inner, .. } => Some((name, inner)),
        Braces::Bad { .. } => None,
    })
}
