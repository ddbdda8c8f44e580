//! Where the text and the work have drifted apart: counts over many records that end in questions.
//!
//! Three things are counted: steps that are deviated from almost always, readings that never fail, and
//! steps signed in one minute with many others. Each count has several explanations, and most of them
//! blame nobody; so what comes out is a question to the writer and the auditor, never a finding, and
//! nothing in the program acts on it. Counts are kept by procedure, revision and step: a new revision
//! begins anew, because the question is about the text that people had before them.
//!
//! Must never hold a record or an entry: it grows with the texts, not with the years.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::run::{Done, Read, Run};
use crate::language::{Language, Words};

/// Fewest runs after which a share means anything: with fewer, one bad night is a fifth of them.
pub const FEWEST_RUNS: u64 = 5;
/// Share of runs with a deviation from which a step counts as always deviated from, in percent. Not
/// all: one run in five may go by the text and the text is still not what is done.
pub const OFTEN_DEVIATED: u64 = 80;
/// Runs in which a reading never failed before anybody asks. If no fault shows in 200 runs, the share
/// of faults is below 1.5 % with 95 % confidence (three divided by the runs; from memory).
pub const NEVER_FAILED: u64 = 200;
/// Other steps that one person signed in the same minute, from which on they count as signed together.
/// Six steps need more than a minute of work nearly always; two or three often do not.
pub const OTHERS: usize = 5;
/// Share of runs in which a step was signed together with others from which on it is asked about, in
/// percent: less than half is a bad night now and then.
pub const OFTEN_TOGETHER: u64 = 50;

/// Counts over changeovers.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Drift(BTreeMap<Text, Counts>);

/// The text of a step: what people had before them.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Text {
    procedure: String,
    step: String,
    revision: String,
}

/// What was counted about a step.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Counts {
    title: String,
    machines: BTreeSet<String>,
    runs: u64,
    deviated: u64,
    /// Runs in which somebody signed it.
    signed: u64,
    together: u64,
    readings: BTreeMap<String, OfReading>,
}

/// What was counted about a reading; blanks that differ by a number alone are one.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct OfReading {
    label: String,
    protects: bool,
    runs: u64,
    failed: u64,
}

/// A question to the writer of a procedure and to the auditor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Identifier of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: String,
    /// The step: its heading as a slug.
    pub step: String,
    /// Its heading, in the language of the packet that came last.
    pub title: String,
    /// The machines where it was done.
    pub machines: Vec<String>,
    /// What was counted.
    pub asked: Asked,
}

/// What was counted, so that somebody asks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// A deviation was raised or accepted in most runs.
    Deviated {
        /// Runs with a deviation.
        count: u64,
        /// Runs.
        runs: u64,
    },
    /// A reading was within its limits in every run.
    NeverFailed {
        /// The blank, without the number of its row.
        blank: String,
        /// What is measured.
        label: String,
        /// Runs.
        runs: u64,
        /// Whether it protects a person: such a reading stays.
        protects: bool,
    },
    /// One person signed it in the same minute as [`OTHERS`] others or more.
    Together {
        /// Runs in which that was so.
        count: u64,
        /// Runs in which it was signed.
        runs: u64,
    },
}

impl Drift {
    /// Counts a changeover. A step that nobody came to has no run; one that is done twice has two.
    pub fn take(&mut self, run: &Run) {
        let together = together(&run.steps);
        let mut read: BTreeMap<&str, Vec<&Read>> = BTreeMap::new();
        for one in &run.blanks {
            read.entry(&one.step).or_default().push(one);
        }
        for step in &run.steps {
            let read = read.remove(step.id.as_str()).unwrap_or_default();
            if step.signatures.is_empty() && step.deviations == 0 && read.is_empty() {
                continue;
            }
            let counts = self.0.entry(text_of(step)).or_default();
            if !counts.machines.contains(&run.machine) {
                counts.machines.insert(run.machine.clone());
            }
            counts.count(step, &read, together.contains(step.id.as_str()));
        }
    }

    /// The questions, by procedure and step.
    pub fn questions(&self) -> Vec<Question> {
        self.0.iter().flat_map(|(text, counts)| counts.questions(text)).collect()
    }
}

/// The text of a step. What tells a second use of its procedure from the first is no part of it.
fn text_of(step: &Done) -> Text {
    let slug = step.id.strip_prefix(&step.procedure).unwrap_or(&step.id).trim_start_matches('.');
    let slug = match slug.rsplit_once("--") {
        Some((slug, nth)) if is_number(nth) => slug,
        _ => slug,
    };
    Text {
        procedure: step.procedure.clone(),
        step: slug.to_owned(),
        revision: step.revision.clone(),
    }
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

/// Steps that one person signed in the same minute as [`OTHERS`] others or more. A minute is counted
/// from 1970 in UTC: the same instant is in the same minute in every time zone.
fn together(steps: &[Done]) -> BTreeSet<&str> {
    let mut minutes: BTreeMap<(&str, i64), BTreeSet<&str>> = BTreeMap::new();
    for step in steps {
        for signature in &step.signatures {
            let minute = signature.at.timestamp().div_euclid(60);
            minutes.entry((&signature.by, minute)).or_default().insert(&step.id);
        }
    }
    minutes.into_values().filter(|steps| steps.len() > OTHERS).flatten().collect()
}

impl Counts {
    /// Counts one run of a step.
    fn count(&mut self, step: &Done, read: &[&Read], is_together: bool) {
        self.title.clone_from(&step.title);
        self.runs += 1;
        self.deviated += u64::from(step.deviations > 0);
        self.signed += u64::from(!step.signatures.is_empty());
        self.together += u64::from(is_together);
        let mut failed: BTreeMap<&str, bool> = BTreeMap::new();
        for one in read {
            *failed.entry(name_of(&one.blank)).or_default() |= one.failed;
        }
        for (name, failed) in failed {
            let counts = self.readings.entry(name.to_owned()).or_default();
            counts.runs += 1;
            counts.failed += u64::from(failed);
        }
        for one in read {
            if let Some(counts) = self.readings.get_mut(name_of(&one.blank)) {
                counts.name(one);
            }
        }
    }

    fn questions(&self, text: &Text) -> Vec<Question> {
        let &Counts { runs, deviated, signed, together, .. } = self;
        let is_deviated = is_often(deviated, runs, OFTEN_DEVIATED);
        let is_together = is_often(together, signed, OFTEN_TOGETHER);
        let deviated = is_deviated.then_some(Asked::Deviated { count: deviated, runs });
        let together = is_together.then_some(Asked::Together { count: together, runs: signed });
        let never = self.readings.iter().filter_map(|(blank, own)| own.asked(blank));
        let asked = deviated.into_iter().chain(never).chain(together);
        asked.map(|asked| self.question(text, asked)).collect()
    }

    fn question(&self, text: &Text, asked: Asked) -> Question {
        Question {
            procedure: text.procedure.clone(),
            revision: text.revision.clone(),
            step: text.step.clone(),
            title: self.title.clone(),
            machines: self.machines.iter().cloned().collect(),
            asked,
        }
    }
}

/// Whether a share of enough runs is so many percent or more.
fn is_often(count: u64, runs: u64, percent: u64) -> bool {
    runs >= FEWEST_RUNS && count.saturating_mul(100) >= runs.saturating_mul(percent)
}

/// The name of a blank without its step and the number of its row: `holder` of `.../holder-3`.
fn name_of(blank: &str) -> &str {
    let what = blank.rsplit('/').next().unwrap_or(blank);
    match what.rsplit_once('-') {
        Some((name, row)) if is_number(row) => name,
        _ => what,
    }
}

impl OfReading {
    /// The label of the first blank of its name stands for all of them.
    fn name(&mut self, read: &Read) {
        if self.label.is_empty() {
            self.label.clone_from(&read.label);
        }
        self.protects |= read.protects;
    }

    fn asked(&self, blank: &str) -> Option<Asked> {
        (self.runs >= NEVER_FAILED && self.failed == 0).then(|| Asked::NeverFailed {
            blank: blank.to_owned(),
            label: self.label.clone(),
            runs: self.runs,
            protects: self.protects,
        })
    }
}

/// Questions as lines of text, with how many there are; nothing when there are none.
pub fn text(questions: &[Question], language: Language) -> String {
    let lines = questions.iter().flat_map(|one| one.lines(language)).map(|line| line + "\n");
    let count = language.text("questions-count", &[("count", questions.len().into())]) + "\n";
    let counted = (!questions.is_empty()).then_some(count);
    lines.chain(counted).collect()
}

/// A question in a language, for programs.
#[derive(Debug, Serialize)]
pub struct ToldQuestion<'q> {
    kind: &'static str,
    procedure: &'q str,
    revision: &'q str,
    step: &'q str,
    title: &'q str,
    machines: &'q [String],
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<&'q str>,
    count: u64,
    runs: u64,
    words: String,
    means: String,
}

impl Question {
    /// The kind of question, for programs.
    pub fn kind(&self) -> &'static str {
        match self.asked {
            Asked::Deviated { .. } => "often-deviated",
            Asked::NeverFailed { .. } => "never-failed",
            Asked::Together { .. } => "signed-together",
        }
    }

    /// What was counted, how often, and in how many runs.
    fn numbers(&self) -> (u64, u64) {
        match self.asked {
            Asked::Deviated { count, runs } | Asked::Together { count, runs } => (count, runs),
            Asked::NeverFailed { runs, .. } => (0, runs),
        }
    }

    /// What was counted, as a sentence without the step.
    pub fn words(&self) -> Words {
        let (count, runs) = self.numbers();
        let (count, runs) = (count.to_string(), runs.to_string());
        let counted =
            |key| Words::new(key, &[("count", (&count).into()), ("runs", (&runs).into())]);
        match &self.asked {
            Asked::Deviated { .. } => counted("questions-deviated"),
            Asked::Together { .. } => {
                let parts = [
                    ("count", count.into()),
                    ("runs", runs.into()),
                    ("others", OTHERS.to_string().into()),
                ];
                Words::new("questions-together", &parts)
            }
            Asked::NeverFailed { label, .. } => {
                let parts = [("reading", label.into()), ("runs", runs.into())];
                Words::new("questions-never", &parts)
            }
        }
    }

    /// What it may mean: several answers, of which the numbers choose none.
    pub fn means(&self) -> Words {
        Words::of(match &self.asked {
            Asked::Deviated { .. } => "questions-deviated-means",
            Asked::Together { .. } => "questions-together-means",
            Asked::NeverFailed { protects: true, .. } => "questions-protects-means",
            Asked::NeverFailed { .. } => "questions-never-means",
        })
    }

    /// The step with its procedure and revision.
    pub fn place(&self) -> Words {
        let parts = [
            ("title", (&self.title).into()),
            ("procedure", (&self.procedure).into()),
            ("revision", (&self.revision).into()),
        ];
        Words::new("questions-place", &parts)
    }

    /// The question in a language, for programs.
    pub fn told(&self, language: Language) -> ToldQuestion<'_> {
        let (count, runs) = self.numbers();
        let reading = match &self.asked {
            Asked::NeverFailed { blank, .. } => Some(blank.as_str()),
            _ => None,
        };
        ToldQuestion {
            kind: self.kind(),
            procedure: &self.procedure,
            revision: &self.revision,
            step: &self.step,
            title: &self.title,
            machines: &self.machines,
            reading,
            count,
            runs,
            words: self.words().shown(language),
            means: self.means().shown(language),
        }
    }

    /// Two lines for people: what was counted, and what it may mean.
    pub fn lines(&self, language: Language) -> [String; 2] {
        let (place, words) = (self.place().shown(language), self.words().shown(language));
        let head =
            language.text("questions-line", &[("place", place.into()), ("words", words.into())]);
        [head, format!("  {}", self.means().shown(language))]
    }
}

#[cfg(test)]
mod tests;
