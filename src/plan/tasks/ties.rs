//! Why one step waits for another that stands before it in the packet.
//!
//! Each tie is judged between two steps by themselves. Must never be loosened by `after` but in one
//! place, [`Tie::After`]: a lockout, a power and a proof hold whatever procedure a step comes from.

use std::collections::BTreeSet;

use crate::packet::model::{Block, EnergyState, Mark, Meaning, Packet, Part, Stage, Step};

/// Why a step waits for an earlier one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tie {
    /// Both belong to one use of a procedure, with what it includes: its steps follow each other.
    Procedure,
    /// Its procedure waits for the other one.
    After,
    /// One of them is for everybody: a step of the lockout or of a test, powered work in a zone, the
    /// stop and the run.
    Everybody,
    /// One needs power, the other hands in a zone or energy away; or both need power, and one person has
    /// the controls.
    Power,
    /// It proves what was done before it, or needs that proof.
    Proof,
}

/// The steps of a packet that are done, and what ties them.
pub(super) struct Ties<'a> {
    steps: Vec<Tied<'a>>,
    /// The first and the last step of the stop, by their places in the list.
    stop: Option<(usize, usize)>,
}

/// A step with what it belongs to.
struct Tied<'a> {
    /// Its place in the packet.
    at: usize,
    step: &'a Step,
    /// The use of a procedure that it belongs to, the outermost one.
    used: (&'a str, u32),
    /// The procedures that this use waits for; none for everything before it.
    after: Option<&'a [String]>,
    is_for_everybody: bool,
}

impl<'a> Ties<'a> {
    pub(super) fn of(packet: &'a Packet) -> Ties<'a> {
        let steps = packet.steps.iter().enumerate().filter(|(_, step)| step.stays.is_none());
        let tied = |(at, step): (usize, &'a Step)| {
            let part = outermost(&packet.order, step);
            Tied {
                at,
                step,
                used: part.map_or((&step.procedure, step.nth), |own| (&own.procedure, own.nth)),
                after: part.and_then(|own| own.after.as_deref()),
                is_for_everybody: is_for_everybody(step),
            }
        };
        let mut steps: Vec<Tied> = steps.map(tied).collect();
        in_the_lockout(&mut steps);
        let stop = stop(&steps);
        let ends = stop.iter().flat_map(|(first, last)| [*first, *last]);
        for end in ends {
            if let Some(own) = steps.get_mut(end) {
                own.is_for_everybody = true;
            }
        }
        Ties { steps, stop }
    }

    pub(super) fn count(&self) -> usize {
        self.steps.len()
    }

    /// The first and the last step of the stop.
    pub(super) fn stop(&self) -> Option<(usize, usize)> {
        self.stop
    }

    /// The place in the packet.
    pub(super) fn step(&self, at: usize) -> Option<usize> {
        self.steps.get(at).map(|own| own.at)
    }

    pub(super) fn item(&self, at: usize) -> Option<(usize, &'a Step)> {
        self.steps.get(at).map(|own| (own.at, own.step))
    }

    pub(super) fn is_for_everybody(&self, at: usize) -> bool {
        self.steps.get(at).is_some_and(|own| own.is_for_everybody)
    }

    /// Whether a step may be done before the stop, when nothing in it holds it.
    pub(super) fn may_be_outside(&self, at: usize) -> bool {
        self.steps.get(at).is_some_and(|own| own.step.may_be_outside())
    }

    /// Whether a step may be left until the line runs: nothing proves it, and the run is not the release,
    /// which says that everything is done.
    pub(super) fn may_be_left(&self, at: usize) -> bool {
        let last = self.stop.and_then(|(_, last)| self.steps.get(last));
        let releases = |own: &Tied| own.step.signs.iter().any(|s| s.meaning == Meaning::Released);
        let has_marks = self.steps.get(at).is_some_and(|own| !own.step.marks.is_empty());
        self.may_be_outside(at) && !has_marks && !last.is_some_and(releases)
    }

    /// Any tie between two steps of which the plan takes one out of the stop: who does it stands at no
    /// lock, but power, hands and proofs hold as ever.
    pub(super) fn outside(&self, earlier: usize, later: usize) -> Option<Tie> {
        let (earlier, later) = (self.steps.get(earlier)?, self.steps.get(later)?);
        // The run proves nothing of what is put away while it goes on.
        let proof = || earlier.proof(later).filter(|_| later.step.marks != [Mark::Run]);
        earlier.written(later).or_else(|| earlier.power(later)).or_else(proof)
    }

    /// Any tie between two steps.
    pub(super) fn any(&self, earlier: usize, later: usize) -> Option<Tie> {
        let (earlier, later) = (self.steps.get(earlier)?, self.steps.get(later)?);
        earlier.written(later).or_else(|| earlier.safe(later))
    }
}

impl Tied<'_> {
    fn written(&self, later: &Tied) -> Option<Tie> {
        let waits = |names: &[String]| {
            names.iter().any(|name| name == self.used.0 || *name == self.step.procedure)
        };
        if self.used == later.used {
            return Some(Tie::Procedure);
        }
        later.after.is_none_or(waits).then_some(Tie::After)
    }

    fn safe(&self, later: &Tied) -> Option<Tie> {
        let everybody = self.is_for_everybody || later.is_for_everybody;
        let everybody = everybody.then_some(Tie::Everybody);
        everybody.or_else(|| self.power(later)).or_else(|| self.proof(later))
    }

    fn power(&self, later: &Tied) -> Option<Tie> {
        let ([powered, powers], [handled, handles]) =
            ([self, later].map(Tied::has_power), [self, later].map(Tied::has_hands));
        ((powered && (handles || powers)) || (handled && powers)).then_some(Tie::Power)
    }

    fn proof(&self, later: &Tied) -> Option<Tie> {
        later.proves(self).then_some(Tie::Proof)
    }

    fn has_power(&self) -> bool {
        matches!(self.step.needs, EnergyState::Energised | EnergyState::Test)
    }

    fn has_hands(&self) -> bool {
        self.step.needs == EnergyState::Isolated || self.step.zone.is_some()
    }

    /// Whether it looks at what the other did, or brings material in after it cleared or cleaned.
    fn proves(&self, earlier: &Tied) -> bool {
        let clears = |mark: &Mark| matches!(mark, Mark::LineCleared | Mark::Cleaned);
        self.step.marks.iter().any(|mark| match mark {
            Mark::LineCleared | Mark::Cleaned | Mark::FirstPiece | Mark::Run => true,
            Mark::MaterialIn => earlier.step.marks.iter().any(clears),
            Mark::LabelChecked => false,
        })
    }
}

/// The use in the order of work that a step belongs to: its own, or the one that includes it. What is
/// included stands behind what includes it in the list.
fn outermost<'a>(order: &'a [Part], step: &Step) -> Option<&'a Part> {
    let is_own = |part: &Part| part.procedure == step.procedure && part.nth == step.nth;
    let own = order.iter().position(is_own)?;
    order.iter().take(own + 1).rev().find(|part| part.inside.is_empty())
}

fn is_for_everybody(step: &Step) -> bool {
    let is_powered_inside =
        step.zone.is_some() && matches!(step.needs, EnergyState::Energised | EnergyState::Test);
    step.is_lockout()
        || step.block == Some(Block::Test)
        || step.needs == EnergyState::Test
        || step.minor_servicing.is_some()
        || is_powered_inside
}

/// What else stands in a procedure of the lockout is for everybody too: counting the crew, reading the
/// gauges that are watched from then on.
fn in_the_lockout(steps: &mut [Tied]) {
    let is_part = |own: &&Tied| own.step.is_lockout() || own.step.block.is_some();
    let lockouts: BTreeSet<_> = steps.iter().filter(is_part).map(|own| own.used).collect();
    for own in steps.iter_mut().filter(|own| lockouts.contains(&own.used)) {
        own.is_for_everybody = true;
    }
}

/// The stop: from the orderly shutdown, or the first step for which the line has to stand, to the step
/// that runs it again, or the last one for which it has to stand.
fn stop(steps: &[Tied]) -> Option<(usize, usize)> {
    let stands = |own: &Tied| !own.step.may_be_outside();
    let stops = |own: &Tied| own.step.stage == Stage::Shutdown && own.step.block.is_none();
    let runs = |own: &Tied| own.step.marks.contains(&Mark::Run);
    let first = steps.iter().position(stops).or_else(|| steps.iter().position(stands))?;
    let last = steps.iter().rposition(runs).or_else(|| steps.iter().rposition(stands))?;
    Some((first, last.max(first)))
}
