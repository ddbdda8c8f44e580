//! One blank on one machine: its values, one after the other in time.
//!
//! What is kept of them does not grow with their number: sums, a base of [`BASE`] values, the last few
//! that the rules look at, and the last [`MOST_POINTS`] to draw. Must never look at a value twice.

use std::collections::{BTreeMap, VecDeque};

use super::capability::{Asked, Capability, Stretch};
use super::chart::{BASE, Lines, NoLines, range};
use super::model::{Of, Point, Series, Share, Word};
use super::moments::{Moments, TooLong};
use super::rules::{Rule, Watch};
use super::run::{Read, Run};
use crate::quantity::Number;
use crate::record::entry::Verdict;
use crate::record::time;

/// So many points are kept to draw.
pub const MOST_POINTS: usize = 100;

/// Significant digits of the standard deviation, decimals of the autocorrelation.
const DIGITS: u32 = 15;
const PLACES: u32 = 12;

/// What tells one series from another on a machine.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    pub(super) machine: String,
    pub(super) blank: String,
    pub(super) of: Of,
    pub(super) unit: String,
}

impl Key {
    pub(super) fn of(run: &Run, read: &Read) -> Key {
        Key {
            machine: run.machine.clone(),
            blank: read.blank.clone(),
            of: if read.target.is_some() { Of::Deviation } else { Of::Reading },
            unit: read.unit.clone(),
        }
    }
}

/// A value with what was asked of it, before the rules have seen it.
#[derive(Debug, Clone)]
struct Waiting {
    point: Point,
    asked: Asked,
}

/// A series in the making.
#[derive(Debug, Clone, Default)]
pub(super) struct Track {
    labels: Labels,
    values: Moments,
    first_pass: Share,
    corrections: u64,
    before: Option<Number>,
    /// Values that wait for the lines.
    base: VecDeque<Waiting>,
    chart: Option<(Lines, Watch)>,
    stretch: Stretch,
    signals: BTreeMap<Rule, u64>,
    range_signals: u64,
    points: VecDeque<Point>,
}

/// What the newest record says of the blank.
#[derive(Debug, Clone, Default)]
struct Labels {
    step: String,
    procedure: String,
    label: String,
    instrument: Option<String>,
}

impl Track {
    /// Takes what one changeover says of the blank.
    ///
    /// # Errors
    /// [`TooLong`]; then nothing of it counts.
    pub(super) fn take(&mut self, run: &Run, read: &Read) -> Result<(), TooLong> {
        let (value, asked) = measured(read)?;
        let range = self.before.map(|before| range(before, value)).transpose();
        let range = range.map_err(|_| TooLong)?;
        self.values.take(value)?;
        self.before = Some(value);
        self.first_pass.all += 1;
        self.first_pass.good += u64::from(read.first.verdict == Verdict::Within);
        self.corrections += u64::from(read.corrections);
        self.labels = Labels {
            step: read.step.clone(),
            procedure: read.procedure.clone(),
            label: read.label.clone(),
            instrument: read.instrument.clone(),
        };
        let first = (read.first.entry != read.last.entry).then(|| read.first.text.clone());
        let point = Point {
            number: self.values.count(),
            record: run.record.clone(),
            entry: read.last.entry,
            at: time::write(read.last.at),
            recipe: run.to.clone(),
            reading: read.last.text.clone(),
            first,
            target: read.target.clone(),
            value,
            range,
            verdict: Word(read.last.verdict),
            fired: Vec::new(),
            range_fired: false,
        };
        self.add(Waiting { point, asked });
        Ok(())
    }

    /// A value goes on the chart when there is one; else it waits until there are enough for one.
    fn add(&mut self, waiting: Waiting) {
        if self.chart.is_some() {
            return self.judge(waiting);
        }
        self.base.push_back(waiting);
        if self.base.len() < BASE {
            return;
        }
        match self.lines() {
            Ok(lines) => self.begin(lines),
            // Nothing to see yet: the oldest of them goes, so that the base are the last 25.
            Err(_) => {
                if let Some(oldest) = self.base.pop_front() {
                    self.keep(oldest.point);
                }
            }
        }
    }

    fn lines(&self) -> Result<Lines, NoLines> {
        let values: Vec<Number> = self.base.iter().map(|own| own.point.value).collect();
        Lines::of(&values)
    }

    /// Draws the lines, and judges what waited for them.
    fn begin(&mut self, lines: Lines) {
        let Ok(zones) = lines.zones() else { return };
        self.chart = Some((lines, Watch::new(zones)));
        for waiting in std::mem::take(&mut self.base) {
            self.judge(waiting);
        }
    }

    fn judge(&mut self, Waiting { mut point, asked }: Waiting) {
        let Some((lines, watch)) = &mut self.chart else { return };
        point.fired = watch.take(point.value, &Rule::USED);
        point.range_fired = point.range.is_some_and(|range| range > lines.upper_range);
        for rule in &point.fired {
            *self.signals.entry(*rule).or_default() += 1;
        }
        self.range_signals += u64::from(point.range_fired);
        if point.fired.is_empty() {
            // What is too long for the sums of the stretch was too long for those of the series.
            let _ = self.stretch.take(point.value, asked);
        } else {
            self.stretch.end(point.number);
        }
        self.keep(point);
    }

    fn keep(&mut self, point: Point) {
        self.points.push_back(point);
        if self.points.len() > MOST_POINTS {
            self.points.pop_front();
        }
    }

    /// The series.
    pub(super) fn series(mut self, key: Key) -> Series {
        let no_lines = match self.chart {
            Some(_) => None,
            None => self.lines().map(|lines| self.begin(lines)).err(),
        };
        // Without lines no rule has looked at them.
        for Waiting { point, asked } in std::mem::take(&mut self.base) {
            let _ = self.stretch.take(point.value, asked);
            self.keep(point);
        }
        let capability: Capability = self.stretch.capability();
        let Labels { step, procedure, label, instrument } = self.labels;
        Series {
            machine: key.machine,
            blank: key.blank,
            step,
            procedure,
            label,
            unit: key.unit,
            of: key.of,
            instrument,
            count: self.values.count(),
            first_pass: self.first_pass,
            corrections: self.corrections,
            mean: self.values.mean(),
            deviation: self.values.deviation(DIGITS),
            autocorrelation: self.values.autocorrelation(PLACES),
            lines: self.chart.map(|(lines, _)| lines),
            no_lines,
            signals: self.signals,
            range_signals: self.range_signals,
            capability,
            points: self.points.into(),
        }
    }
}

/// The value that is charted, and what was asked of it: from the target where there is one.
fn measured(read: &Read) -> Result<(Number, Asked), TooLong> {
    let number = |text: &str| Number::parse(text).map_err(|_| TooLong);
    let reading = number(&read.last.text)?;
    let Some(target) = &read.target else {
        return Ok((reading, Asked { low: read.low, high: read.high, target: None }));
    };
    let target = number(target)?;
    let off = |value: Number| value.sub(target).map_err(|_| TooLong);
    let limit = |limit: Option<Number>| limit.map(off).transpose();
    let (low, high) = (limit(read.low)?, limit(read.high)?);
    Ok((off(reading)?, Asked { low, high, target: Some(Number::ZERO) }))
}
