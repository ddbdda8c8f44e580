//! The plant's policy on findings, understood; and the exceptions that stand on a job's packet.
//!
//! An entry that is faulty itself is left out: what it was to justify stays an error.

use std::ops::Range;

use chrono::NaiveDate;

use super::model::Exception;
use super::prepare::Prepared;
use crate::finding::policy::{Answered, Justified, Policy};
use crate::finding::rules::policy::{JUSTIFIABLE, WARNINGS};
use crate::finding::{Findings, Place, Spot};
use crate::plant::load::Plant;
use crate::plant::machine::day;
use crate::plant::shape::{JobFile, JustifiedEntry};
use crate::procedure::Procedure;
use crate::record::people::{People, Person};

/// Understands the policy of a plant.
pub(super) fn policy(
    findings: &mut Findings,
    plant: &Plant,
    people: &People,
    roles: &[String],
) -> Policy {
    let at = plant.facts.place.at("findings");
    let entry = &plant.facts.body.findings;
    for (index, role) in entry.by.iter().enumerate().filter(|(_, role)| !roles.contains(role)) {
        findings.unknown_role(&at.at("by").item(index), role, roles);
    }
    let by = match entry.by.as_slice() {
        [] => vec![plant.facts.body.accepts_deviation.default.clone()],
        by => by.to_vec(),
    };
    let mut reader = Reader { findings, plant, people, by };
    let raised = entry.raise.iter().enumerate();
    let raised = raised.filter(|(index, rule)| reader.raises(&at.at("raise").item(*index), rule));
    let raised = raised.map(|(_, rule)| rule.clone()).collect();
    let justified = entry.justified.iter().enumerate();
    let justified = justified
        .filter_map(|(index, entry)| reader.justified(&at.at("justified").item(index), entry));
    Policy { raised, justified: justified.collect() }
}

struct Reader<'f, 'p> {
    findings: &'f mut Findings,
    plant: &'p Plant,
    people: &'p People,
    /// Roles that may justify.
    by: Vec<String>,
}

impl<'p> Reader<'_, 'p> {
    fn raises(&mut self, at: &Place, rule: &str) -> bool {
        let known = WARNINGS.contains(&rule);
        if !known {
            self.findings.cannot_be_raised(at, rule);
        }
        known
    }

    fn justified(&mut self, at: &Place, entry: &JustifiedEntry) -> Option<Justified> {
        let JustifiedEntry { rule, file, step, by, date, until, reason } = entry;
        let known = JUSTIFIABLE.iter().any(|(known, _)| known == rule);
        if !known {
            self.findings.cannot_be_justified(&at.at("rule"), rule);
        }
        if reason.trim().is_empty() {
            self.findings.empty_text(&at.at("reason"), "reason");
        }
        let from = day(self.findings, &at.at("date"), date);
        let person = self.person(&at.at("by"), by, from);
        let until = until.as_ref().map(|until| day(self.findings, &at.at("until"), until));
        let step = step.as_ref().map(|step| self.step(&at.at("step"), file, step));
        let whole = known && !reason.trim().is_empty() && until != Some(None) && step != Some(None);
        let person = person.filter(|_| whole)?;
        Some(Justified {
            place: at.clone(),
            rule: rule.clone(),
            file: file.clone(),
            step: step.flatten(),
            by: person.name.clone(),
            date: date.clone(),
            until: entry.until.clone(),
            reason: reason.trim().to_owned(),
        })
    }

    /// Who answers, when they hold a role for it on that day.
    fn person(&mut self, at: &Place, id: &str, day: Option<NaiveDate>) -> Option<&'p Person> {
        let Some(person) = self.people.get(id) else {
            let known: Vec<&String> = self.people.iter().map(|person| &person.id).collect();
            self.findings.unknown_person(at, id, &known);
            return None;
        };
        let day = day?;
        let may = self.by.iter().any(|role| person.holds(role, day));
        if !may {
            self.findings.may_not_justify(at, &person.name, &self.by, &day.to_string());
        }
        Some(person).filter(|_| may)
    }

    /// The bytes of a step.
    fn step(&mut self, at: &Place, file: &str, title: &str) -> Option<Range<usize>> {
        let procedure = self.plant.procedures.values().find(|one| *one.file == *file);
        let mut steps = procedure.into_iter().flat_map(spans);
        let found = steps.find(|(step, _)| *step == title).map(|(_, span)| span);
        if found.is_none() {
            let known: Vec<&str> = procedure.into_iter().flat_map(spans).map(|(s, _)| s).collect();
            self.findings.unknown_step(at, title, &known);
        }
        found
    }
}

/// Steps of a procedure and the bytes of each, from heading to heading.
fn spans(procedure: &Procedure) -> impl Iterator<Item = (&str, Range<usize>)> {
    let starts = procedure.steps.iter().map(|step| step.heading.start);
    let ends = starts.skip(1).chain([usize::MAX]);
    let steps = procedure.steps.iter().zip(ends);
    steps.map(|(step, end)| (step.title.as_str(), step.heading.start..end))
}

/// The exceptions of a job; an answer that does not hold on its day is a finding.
pub(super) fn exceptions(
    findings: &mut Findings,
    prepared: &Prepared,
    job: &JobFile,
    answered: &[Answered],
) -> Vec<Exception> {
    let mut exceptions = Vec::new();
    let language = job.language.unwrap_or(prepared.plant.facts.body.language);
    for Answered { finding, entries } in answered {
        let mut entries = entries.iter().filter_map(|at| prepared.policy.justified.get(*at)).rev();
        let Some(last) = entries.clone().next() else { continue };
        match entries.find(|entry| covers(&entry.date, entry.until.as_ref(), &job.date)) {
            Some(entry) => exceptions.push(Exception {
                rule: finding.rule.to_owned(),
                what: finding.message(language),
                place: place(prepared.plant, &finding.place),
                reason: entry.reason.clone(),
                by: entry.by.clone(),
                date: entry.date.clone(),
                until: entry.until.clone().unwrap_or_default(),
            }),
            None if job.date < last.date => {
                let at = last.place.at("date");
                findings.justification_later(&at, finding.rule, &job.id, &job.date);
            }
            None => {
                let at = last.place.at("until");
                findings.justification_over(&at, finding.rule, &job.id, &job.date);
            }
        }
    }
    exceptions
}

/// Whether a day lies between two others, both included. Days written year first sort as text.
pub(super) fn covers(from: &str, until: Option<&String>, day: &str) -> bool {
    from <= day && until.is_none_or(|until| day <= until.as_str())
}

/// A place in words: the file, and the step or the field.
fn place(plant: &Plant, at: &Place) -> String {
    let start = match &at.spot {
        Spot::Bytes(range) | Spot::Field { block: Some(range), .. } => range.start,
        Spot::Field { block: None, path, .. } if !path.is_empty() => {
            return format!("{}, {}", at.file, path.join("."));
        }
        Spot::Field { .. } | Spot::File => return at.file.to_string(),
    };
    let procedure = plant.procedures.values().find(|one| one.file == at.file);
    let step = procedure.into_iter().flat_map(spans).find(|(_, span)| span.contains(&start));
    step.map_or(at.file.to_string(), |(step, _)| {
        format!("{}, step \u{201c}{step}\u{201d}", at.file)
    })
}
