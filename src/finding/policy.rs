//! The plant's policy on findings: warnings it treats as errors, errors it answers for by name.
//!
//! Findings and a policy in, the same findings with their weight out. Must never lower an error that
//! [`super::rules::policy::JUSTIFIABLE`] does not name, and never change what a finding says but to
//! add who answers for it.

use std::ops::Range;

use super::{Finding, Findings, Place, Severity, Spot};
use crate::language::Words;

/// What a plant wants, understood: every rule, person and day in it was looked up.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Policy {
    /// Rules whose warnings are errors here.
    pub raised: Vec<String>,
    /// Errors this plant answers for.
    pub justified: Vec<Justified>,
}

/// An error somebody answers for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Justified {
    /// Where it was written.
    pub place: Place,
    /// Identifier of the rule.
    pub rule: String,
    /// The file it is limited to.
    pub file: String,
    /// The step it is limited to, as bytes of the file.
    pub step: Option<Range<usize>>,
    /// Name of who answers.
    pub by: String,
    /// First day, `YYYY-MM-DD`.
    pub date: String,
    /// Last day; none when it has no end.
    pub until: Option<String>,
    /// Why it is done so.
    pub reason: String,
}

/// A finding somebody answers for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// The finding as it was made.
    pub finding: Finding,
    /// Numbers of the entries of [`Policy::justified`] that name it; at least one.
    pub entries: Vec<usize>,
}

impl Policy {
    /// Gives each finding the weight it has in this plant; returns those somebody answers for.
    ///
    /// Whether an answer holds on the day of a job is up to who knows the job.
    pub fn settle(&self, findings: &mut Findings) -> Vec<Answered> {
        let mut answered = Vec::new();
        for finding in &mut findings.list {
            let warns = finding.severity == Severity::Warning;
            if warns && self.raised.iter().any(|rule| rule == finding.rule) {
                finding.severity = Severity::Error;
                finding.notes.push(Words::of("finding-raised"));
            }
            if finding.severity == Severity::Error
                && let Some(answer) = self.answer(finding)
            {
                answered.push(answer);
            }
        }
        if !self.raised.is_empty() {
            // Nobody knows the rules of those that were counted only: they may be raised ones.
            findings.more[Severity::Error as usize] += findings.more[Severity::Warning as usize];
            findings.more[Severity::Warning as usize] = 0;
        }
        answered
    }

    /// Lowers a finding that is named; the last entry that names it is shown.
    fn answer(&self, finding: &mut Finding) -> Option<Answered> {
        let all = self.justified.iter().enumerate();
        let named: Vec<_> = all.filter(|(_, entry)| entry.names(finding)).collect();
        let (_, last) = named.last()?;
        let entries = named.iter().map(|(index, _)| *index).collect();
        let answered = Answered { finding: finding.clone(), entries };
        finding.severity = Severity::Warning;
        let Justified { by, date, reason, .. } = last;
        let parts = [("by", by.into()), ("date", date.into()), ("reason", reason.into())];
        finding.notes.push(Words::new("finding-justified", &parts));
        Some(answered)
    }

    /// Entries that name none of these findings, which were settled.
    pub fn unused<'p>(&'p self, findings: &'p Findings) -> impl Iterator<Item = &'p Justified> {
        self.justified.iter().filter(|entry| !findings.iter().any(|one| entry.names(one)))
    }
}

impl Justified {
    /// Whether this entry is about a finding.
    fn names(&self, finding: &Finding) -> bool {
        let step = self.step.as_ref();
        self.rule == finding.rule
            && self.file == *finding.place.file
            && step.is_none_or(|step| start(&finding.place).is_some_and(|at| step.contains(&at)))
    }
}

/// The byte of its file a place begins with; none for a file as a whole or one that is all YAML.
fn start(place: &Place) -> Option<usize> {
    match &place.spot {
        Spot::Bytes(range) | Spot::Field { block: Some(range), .. } => Some(range.start),
        Spot::File | Spot::Field { block: None, .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Justified, Policy};
    use crate::finding::{Finding, Findings, Place, Severity};
    use crate::language::{Language, Words};

    const FILE: &str = "instructions/lockout.md";

    fn finding(rule: &'static str, severity: Severity, at: usize) -> Finding {
        Finding {
            rule,
            severity,
            place: Place::bytes(&FILE.into(), at..at + 5),
            words: Words::foreign("wrong"),
            notes: Vec::new(),
        }
    }

    fn justified(rule: &str, step: Option<std::ops::Range<usize>>) -> Justified {
        Justified {
            place: Place::file(&"plant.yaml".into()),
            rule: rule.to_owned(),
            file: FILE.to_owned(),
            step,
            by: "Lead Two".to_owned(),
            date: "2026-01-05".to_owned(),
            until: None,
            reason: "the maker says so".to_owned(),
        }
    }

    /// Settles one finding and wants its weight afterwards, settled once or twice.
    #[track_caller]
    fn check(policy: &Policy, one: Finding, expected: Severity, answered: usize) {
        let mut findings: Findings = [one].into_iter().collect();
        assert_eq!(policy.settle(&mut findings).len(), answered);
        let once = findings.clone();
        assert_eq!(once.iter().next().unwrap().severity, expected);
        assert!(policy.settle(&mut findings).is_empty());
        assert_eq!(findings, once);
    }

    #[test]
    fn a_warning_is_raised_where_the_plant_says_so() {
        let policy = Policy { raised: vec!["hard-to-read".to_owned()], justified: vec![] };
        check(&policy, finding("hard-to-read", Severity::Warning, 0), Severity::Error, 0);
        check(&policy, finding("stray-file", Severity::Warning, 0), Severity::Warning, 0);
    }

    #[test]
    fn an_error_is_lowered_in_its_file_and_step_only() {
        let all = Policy { justified: vec![justified("stage-missing", None)], ..Policy::default() };
        let step = vec![justified("stage-missing", Some(10..20))];
        let step = Policy { justified: step, ..Policy::default() };
        let at = |at| finding("stage-missing", Severity::Error, at);
        check(&all, at(30), Severity::Warning, 1);
        check(&step, at(10), Severity::Warning, 1);
        check(&step, at(20), Severity::Error, 0);
        check(&all, finding("locks-left", Severity::Error, 30), Severity::Error, 0);
    }

    #[test]
    fn a_lowered_error_says_who_answers_and_is_kept_as_it_was() {
        let policy =
            Policy { justified: vec![justified("stage-missing", None)], ..Policy::default() };
        let one = finding("stage-missing", Severity::Error, 0);
        let mut findings: Findings = [one.clone()].into_iter().collect();
        let answered = policy.settle(&mut findings);
        assert_eq!((&answered[0].finding, &answered[0].entries), (&one, &vec![0]));
        let message = findings.iter().next().unwrap().message(Language::English);
        assert_eq!(message, "wrong (justified by Lead Two, 2026-01-05: the maker says so)");
        assert_eq!(policy.unused(&findings).count(), 0);
        assert_eq!(policy.unused(&Findings::default()).count(), 1);
    }

    #[test]
    fn warnings_that_were_counted_only_are_raised_with_the_rest() {
        let many = (0..3000).map(|at| finding("hard-to-read", Severity::Warning, at));
        let mut findings: Findings = many.collect();
        let policy = Policy { raised: vec!["hard-to-read".to_owned()], justified: vec![] };
        policy.settle(&mut findings);
        assert_eq!(findings.count(Severity::Error), 3000);
    }
}
