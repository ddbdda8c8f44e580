//! One changeover as its record tells it: what counts of what was signed, on the packet's side by side.
//!
//! The audit has judged each entry already, and its word is taken: an entry with an error does not
//! count, nor one that was taken back. Must never judge an entry by itself, nor drop one without
//! saying so.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset};

use super::model::LeftOut;
use crate::audit::{AuditedEntry, Report, Severity, StatedReading, Statement};
use crate::packet::Packet;
use crate::packet::model::{Mark, Reading, Setting, Stage, Step};
use crate::quantity::{Measure, Number, Unit};
use crate::record::entry::{Kind, Verdict};
use crate::record::state::State;
use crate::record::store::RawRecord;
use crate::record::{job_of, time};

/// A moment, as signed.
pub type Moment = DateTime<FixedOffset>;

/// One changeover.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// Name of the record.
    pub record: String,
    /// Identifier of the job.
    pub job: String,
    /// Identifier of the machine.
    pub machine: String,
    /// Its name for people.
    pub machine_name: String,
    /// Identifier of the recipe that was on the machine.
    pub from: String,
    /// Identifier of the recipe that was set up.
    pub to: String,
    /// Its revision.
    pub revision: String,
    /// How far it has come.
    pub state: Option<State>,
    /// The steps that were to be done, in order.
    pub steps: Vec<Done>,
    /// The blanks that were read, in the order of the packet.
    pub blanks: Vec<Read>,
    /// When the machine was handed over.
    pub released: Option<Moment>,
}

/// A step, and what was signed on it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// Identifier.
    pub id: String,
    /// Heading.
    pub title: String,
    /// Identifier of its procedure.
    pub procedure: String,
    /// Revision of that.
    pub revision: String,
    /// Planned minutes.
    pub minutes: u32,
    /// Whether it may be done while the line runs.
    pub while_running: bool,
    /// Whether it shuts the line down.
    pub shuts_down: bool,
    /// Whether the line runs with it.
    pub runs: bool,
    /// Signatures: who, and when.
    pub signatures: Vec<Signature>,
    /// Deviations that were raised, and readings outside their limits that were accepted.
    pub deviations: u32,
    /// Readings that correct an earlier one.
    pub corrections: u32,
}

/// A signature on a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    /// The principal.
    pub by: String,
    /// Performed, verified or released.
    pub kind: Kind,
    /// When.
    pub at: Moment,
}

/// A blank, and what was read into it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Read {
    /// Identifier of the blank.
    pub blank: String,
    /// Identifier of the step.
    pub step: String,
    /// Identifier of the procedure.
    pub procedure: String,
    /// What is measured, for people.
    pub label: String,
    /// Unit symbol.
    pub unit: String,
    /// Name of the instrument.
    pub instrument: Option<String>,
    /// The target, as in the packet.
    pub target: Option<String>,
    /// Least value that passes.
    pub low: Option<Number>,
    /// Greatest value that passes.
    pub high: Option<Number>,
    /// The setting that was set and read here; none for a measurement of something else.
    pub setting: Option<SetHere>,
    /// The first reading.
    pub first: Value,
    /// The last one, which counts.
    pub last: Value,
    /// How many readings were signed.
    pub count: u32,
    /// How many of them correct an earlier one.
    pub corrections: u32,
    /// Whether any of them was outside, or too close to tell.
    pub failed: bool,
    /// Whether it protects a person, as a zero does: such a reading stays, however good it always is.
    pub protects: bool,
}

/// A reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Value {
    /// Number of the entry.
    pub entry: u64,
    /// When.
    pub at: Moment,
    /// As signed.
    pub text: String,
    /// The judgement.
    pub verdict: Verdict,
}

/// A setting of the recipe that somebody sets by hand and reads at the same place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetHere {
    /// Identifier.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The formula as written in the recipe.
    pub formula: String,
    /// The smallest step that its instrument shows; else that of its target as printed.
    pub resolution: Number,
}

/// What a record tells, or why it does not count as a whole.
pub type Told = Result<(Run, Option<LeftOut>), LeftOut>;

/// Reads a changeover from its record and what the audit says of it.
///
/// The report has to have its entries.
pub fn told(raw: &RawRecord, report: &Report) -> Told {
    whole(report)?;
    let packet = raw.packet.as_deref().and_then(|bytes| serde_json::from_slice(bytes).ok());
    // The audit would have said that it cannot be read.
    let packet: Packet = packet.ok_or_else(|| left_out(report, vec!["packet-unreadable"]))?;
    Ok((run(&packet, report), some_left_out(report)))
}

fn left_out(report: &Report, why: Vec<&'static str>) -> LeftOut {
    LeftOut { record: report.job.clone(), entries: None, why }
}

fn run(packet: &Packet, report: &Report) -> Run {
    let says: Vec<Signed> = report.entries.iter().filter_map(Signed::of).collect();
    let taken_back: BTreeSet<u64> = says.iter().filter_map(|one| one.says.withdraws).collect();
    let says: Vec<Signed> =
        says.into_iter().filter(|one| !taken_back.contains(&one.number)).collect();
    let is_done = |step: &&Step| step.stays.is_none();
    let steps: Vec<&Step> = packet.steps.iter().filter(is_done).collect();
    let released = says.iter().find(|one| one.says.kind == Kind::Released).map(|one| one.at);
    Run {
        record: report.job.clone(),
        job: job_of(&report.job).to_owned(),
        machine: packet.machine.id.clone(),
        machine_name: packet.machine.name.clone(),
        from: packet.from.id.clone(),
        to: packet.to.id.clone(),
        revision: packet.to.revision.clone(),
        state: report.state,
        steps: done(packet, &steps, &says),
        blanks: read(packet, &steps, &says),
        released,
    }
}

/// A record does not count as a whole when it was closed because its packet was issued anew (the work
/// goes on in the next one), or when something is wrong that is not in one of its entries.
fn whole(report: &Report) -> Result<(), LeftOut> {
    if report.state == Some(State::Superseded) {
        return Err(left_out(report, vec!["superseded"]));
    }
    let mut why = errors(report, Option::is_none);
    // Where no entry counts, nothing is left of the record.
    if report.entries.iter().all(|entry| !entry.sound) {
        why.extend(errors(report, Option::is_some));
    }
    if why.is_empty() { Ok(()) } else { Err(left_out(report, why)) }
}

fn some_left_out(report: &Report) -> Option<LeftOut> {
    let unsound = report.entries.iter().filter(|entry| !entry.sound).count();
    let why = errors(report, Option::is_some);
    let entries = u64::try_from(unsound).ok().filter(|unsound| *unsound > 0)?;
    Some(LeftOut { record: report.job.clone(), entries: Some(entries), why })
}

/// Short names of the errors about such entries, each once.
fn errors(report: &Report, about: impl Fn(&Option<u64>) -> bool) -> Vec<&'static str> {
    let errors = report.findings.iter().filter(|one| one.severity == Severity::Error);
    let codes: BTreeSet<_> = errors.filter(|one| about(&one.entry)).map(|one| one.code).collect();
    codes.into_iter().collect()
}

/// A sound entry.
struct Signed<'r> {
    number: u64,
    at: Moment,
    says: &'r Statement,
}

impl<'r> Signed<'r> {
    fn of(entry: &'r AuditedEntry) -> Option<Self> {
        let says = entry.says.as_ref().filter(|_| entry.sound)?;
        Some(Signed { number: entry.number, at: time::parse(&says.at).ok()?, says })
    }

    fn reading(&self) -> Option<&'r StatedReading> {
        self.says.reading.as_ref().filter(|_| self.says.kind == Kind::Reading)
    }

    /// Whether it raises a deviation, or accepts a reading that nobody raised one about.
    fn is_deviation(&self, readings: &BTreeSet<u64>) -> bool {
        let accepts_reading = self.says.accepts.is_some_and(|seq| readings.contains(&seq));
        self.says.kind == Kind::DeviationRaised
            || (self.says.kind == Kind::DeviationAccepted && accepts_reading)
    }
}

fn done(packet: &Packet, steps: &[&Step], says: &[Signed]) -> Vec<Done> {
    let revisions: BTreeMap<&str, &str> =
        packet.procedures.iter().map(|own| (own.id.as_str(), own.revision.as_str())).collect();
    let readings: BTreeSet<u64> =
        says.iter().filter(|one| one.reading().is_some()).map(|one| one.number).collect();
    let mut own: BTreeMap<&str, Vec<&Signed>> = BTreeMap::new();
    for one in says {
        own.entry(&one.says.step).or_default().push(one);
    }
    let of_step = |step: &&Step| {
        let own = own.get(step.id.as_str()).map_or(&[][..], Vec::as_slice);
        let count = |is_so: &dyn Fn(&Signed) -> bool| {
            u32::try_from(own.iter().filter(|one| is_so(one)).count()).unwrap_or(u32::MAX)
        };
        Done {
            id: step.id.clone(),
            title: step.title.clone(),
            procedure: step.procedure.clone(),
            revision: revisions.get(step.procedure.as_str()).map_or("", |own| own).to_owned(),
            minutes: step.minutes.unwrap_or(0),
            while_running: step.while_running,
            shuts_down: step.stage == Stage::Shutdown,
            runs: step.marks.contains(&Mark::Run),
            signatures: own.iter().filter_map(|one| signature(one)).collect(),
            deviations: count(&|one| one.is_deviation(&readings)),
            corrections: count(&|one| one.says.corrects.is_some()),
        }
    };
    steps.iter().map(of_step).collect()
}

fn signature(one: &Signed) -> Option<Signature> {
    let kind = one.says.kind;
    kind.gives().map(|_| Signature { by: one.says.by.clone(), kind, at: one.at })
}

fn read(packet: &Packet, steps: &[&Step], says: &[Signed]) -> Vec<Read> {
    let mut own: BTreeMap<&str, Vec<(&Signed, &StatedReading)>> = BTreeMap::new();
    for one in says {
        if let Some(reading) = one.reading() {
            own.entry(&reading.blank).or_default().push((one, reading));
        }
    }
    let mut read = Vec::new();
    for step in steps {
        for blank in &step.readings {
            let all = own.get(blank.id.as_str()).map_or(&[][..], Vec::as_slice);
            let (Some(first), Some(last)) = (all.first(), all.last()) else { continue };
            let number = |text: &Option<String>| Number::parse(text.as_deref()?).ok();
            let corrections = all.iter().filter(|(one, _)| one.says.corrects.is_some()).count();
            read.push(Read {
                blank: blank.id.clone(),
                step: step.id.clone(),
                procedure: step.procedure.clone(),
                label: blank.label.clone(),
                unit: blank.unit.clone(),
                instrument: blank.instrument.as_ref().map(|own| own.name.clone()),
                target: blank.target.clone(),
                low: number(&blank.low),
                high: number(&blank.high),
                setting: set_here(packet, blank),
                first: value(*first),
                last: value(*last),
                count: u32::try_from(all.len()).unwrap_or(u32::MAX),
                corrections: u32::try_from(corrections).unwrap_or(u32::MAX),
                failed: all.iter().any(|(_, reading)| reading.verdict != Verdict::Within),
                protects: step.is_lockout() || step.is_never_accepted(blank),
            });
        }
    }
    read
}

fn value((one, reading): (&Signed, &StatedReading)) -> Value {
    let (text, verdict) = (reading.value.clone(), reading.verdict);
    Value { entry: one.number, at: one.at, text, verdict }
}

/// The setting that a blank is for: named after it, with a place on the machine, and read with the
/// instrument it is set with. A first piece that is measured with another one says nothing of where the
/// setting stands.
fn set_here(packet: &Packet, blank: &Reading) -> Option<SetHere> {
    let what = blank.id.rsplit_once('/')?.1;
    let instrument = blank.instrument.as_ref().map(|own| &own.id);
    let setting = packet.settings.iter().find(|own| {
        own.id == what && !own.place.is_empty() && own.instrument.as_ref() == instrument
    })?;
    Some(SetHere {
        id: setting.id.clone(),
        name: setting.name.clone(),
        formula: setting.working.formula.clone(),
        resolution: resolution(blank, setting)?,
    })
}

/// The smallest step that can be set: the instrument's, else the last place of the target.
fn resolution(blank: &Reading, setting: &Setting) -> Option<Number> {
    let unit = Unit::find(&setting.unit);
    let of_instrument = blank.instrument.as_ref().and_then(|own| {
        let step = Measure::parse_difference(&own.resolution).ok()?;
        step.quantity.in_unit(unit).ok()
    });
    let last_place = || Number::last_place(crate::quantity::decimals_in(&setting.target)).ok();
    of_instrument.or_else(last_place).filter(|step| !step.is_zero() && !step.is_negative())
}

impl Run {
    /// When the first step was signed as done.
    pub fn began(&self) -> Option<Moment> {
        self.signed(|_| true, false).next()
    }

    /// The stop, from its first moment to its last, and the planned minutes of what needs it.
    ///
    /// It begins with the first signature on a step that shuts down; where there is none, on a step that
    /// needs the line stopped. It ends with the first signature on the step with which the line runs,
    /// else when the machine is handed over.
    pub fn stop(&self) -> (Option<Moment>, Option<Moment>, u32) {
        let has_shutdown = self.steps.iter().any(|step| step.shuts_down);
        let begins = |step: &Done| if has_shutdown { step.shuts_down } else { !step.while_running };
        let first = self.steps.iter().position(begins).unwrap_or(0);
        let last = self.steps.iter().position(|step| step.runs);
        let within = self.steps.iter().take(last.map_or(self.steps.len(), |at| at + 1)).skip(first);
        let planned = within.filter(|step| !step.while_running).map(|step| step.minutes);
        let ends = self.signed(|step| step.runs, true).next().or(self.released);
        let planned = planned.fold(0_u32, u32::saturating_add);
        (self.signed(begins, false).next(), ends, planned)
    }

    /// Moments of signatures on such steps, the earliest first; of a handover too where it is asked for.
    fn signed(
        &self,
        is_so: impl Fn(&Done) -> bool,
        with_handover: bool,
    ) -> impl Iterator<Item = Moment> {
        let steps = self.steps.iter().filter(|step| is_so(step));
        let counts = |one: &&Signature| with_handover || one.kind == Kind::Performed;
        let mut moments: Vec<Moment> =
            steps.flat_map(|step| &step.signatures).filter(counts).map(|one| one.at).collect();
        moments.sort_unstable();
        moments.into_iter()
    }
}
