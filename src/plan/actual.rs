//! A plan beside what was signed: when each step was signed for the last time it had to be.
//!
//! What is known is when somebody signed, not when the work ended. Must never judge a signature: which
//! ones count is settled by who reads the record.

use super::timeline::Plan;
use crate::packet::model::{Mark, Meaning, Packet, Sign, Stage, Step};

/// A signature that counts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// Identifier of the step.
    pub step: String,
    /// The row that is signed; none for the step as a whole.
    pub row: Option<String>,
    /// What it means.
    pub meaning: Meaning,
    /// The role that signed.
    pub role: String,
    /// Who.
    pub by: String,
    /// When, in seconds from any moment that is the same for all.
    pub at: i64,
}

/// A plan beside its record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Actual {
    /// The steps of the plan, in the order of the packet.
    pub steps: Vec<Compared>,
    /// From the signature of the shutdown to that of the run, planned and actual.
    pub stop: Option<(i64, i64)>,
}

/// A step in the plan and in the record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Compared {
    /// Place of the step in the packet.
    pub step: usize,
    /// Minute of the plan at which it ends.
    pub planned: i64,
    /// Minute of the plan at which its last signature was given; none while one is missing.
    pub actual: Option<i64>,
}

impl Compared {
    /// Minutes by which it was signed later than planned; less than none when earlier.
    pub fn late_by(self) -> Option<i64> {
        Some(self.actual?.saturating_sub(self.planned))
    }
}

/// Compares the plan of one job with the signatures on its packet.
///
/// The first signature on the first step stands where that step ends in the plan: what was done before
/// it is not known. None before that signature.
pub fn actual(packet: &Packet, plan: &Plan, signed: &[Signed]) -> Option<Actual> {
    let first = plan.bars.first()?;
    let begun = packet.steps.get(first.step)?;
    let done = |one: &&Signed| one.step == begun.id && one.meaning == Meaning::Performed;
    let zero = signed.iter().filter(done).map(|one| one.at).min()?;
    let offset = i64::from(first.span.to);
    let minute = |at: i64| at.saturating_sub(zero).div_euclid(60).saturating_add(offset);
    let compared = plan.bars.iter().filter_map(|bar| {
        let step = packet.steps.get(bar.step)?;
        let actual = last(step, signed).map(minute);
        Some(Compared { step: bar.step, planned: i64::from(bar.span.to), actual })
    });
    let steps: Vec<Compared> = compared.collect();
    let stop = stop(packet, &steps);
    Some(Actual { steps, stop })
}

/// When the last signature that a step asks for was given; none while one is missing.
fn last(step: &Step, signed: &[Signed]) -> Option<i64> {
    let given = |sign: &Sign| {
        let is_it = |one: &&Signed| {
            one.step == step.id
                && (one.meaning, &one.role, &one.row) == (sign.meaning, &sign.role, &sign.row)
                && sign.by.as_ref().is_none_or(|by| *by == one.by)
        };
        signed.iter().filter(is_it).map(|one| one.at).max()
    };
    let times: Option<Vec<i64>> = step.signs.iter().map(given).collect();
    times?.into_iter().max()
}

/// Minutes between the signatures of the step that stops the line and of the one that runs it, as
/// planned and as they were given.
fn stop(packet: &Packet, steps: &[Compared]) -> Option<(i64, i64)> {
    let place = |is: &dyn Fn(&Step) -> bool| {
        steps.iter().find(|one| packet.steps.get(one.step).is_some_and(is))
    };
    let down = place(&|step| step.stage == Stage::Shutdown)?;
    let run = place(&|step| step.marks.contains(&Mark::Run))?;
    let actual = run.actual?.saturating_sub(down.actual?);
    Some((run.planned.saturating_sub(down.planned), actual))
}

#[cfg(test)]
mod tests {
    use super::{Signed, actual};
    use crate::packet::model::{Mark, Meaning, Packet, Stage, Step};
    use crate::plan::tasks::When;
    use crate::plan::timeline::{Bar, Plan, Span};
    use crate::record::fixture;

    const T: i64 = 1_770_000_000;

    /// Steps that end at these minutes of the plan: the first, the shutdown, the run.
    fn plan(ends: [u32; 3]) -> (Packet, Plan) {
        let mut packet = fixture::packet();
        let sign = |meaning, role: &str| crate::packet::model::Sign {
            meaning,
            role: role.into(),
            row: None,
            by: None,
        };
        let steps = [Stage::Work, Stage::Shutdown, Stage::Work].into_iter().enumerate();
        let steps = steps.map(|(at, stage)| Step {
            id: format!("a.{at}"),
            stage,
            marks: if at == 2 { vec![Mark::Run] } else { Vec::new() },
            signs: vec![sign(Meaning::Performed, "technician"), sign(Meaning::Verified, "lead")],
            ..packet.steps[0].clone()
        });
        packet.steps = steps.collect();
        let bar = |(step, to): (usize, u32)| Bar {
            job: 0,
            step,
            when: When::During,
            span: Span { from: 0, to },
            does: vec![0],
            checks: vec![1],
            spare: 0,
        };
        let bars = ends.into_iter().enumerate().map(bar).collect();
        (packet, Plan { bars, stops: vec![None], minutes: 0, bound: 0, is_best: true })
    }

    fn signed(step: usize, meaning: Meaning, seconds: i64) -> Signed {
        let role = if meaning == Meaning::Verified { "lead" } else { "technician" };
        let step = format!("a.{step}");
        Signed { step, row: None, meaning, role: role.into(), by: "x".into(), at: T + seconds }
    }

    #[test]
    fn the_first_signature_stands_where_its_step_ends_in_the_plan() {
        let (packet, plan) = plan([5, 20, 90]);
        let given = [
            signed(0, Meaning::Performed, 0),
            signed(0, Meaning::Verified, 61),
            signed(1, Meaning::Performed, 15 * 60),
            signed(1, Meaning::Verified, 16 * 60 + 59),
            // Done, and nobody checked it.
            signed(2, Meaning::Performed, 80 * 60),
        ];
        let found = actual(&packet, &plan, &given).unwrap();
        let ends: Vec<_> =
            found.steps.iter().map(|one| (one.planned, one.actual, one.late_by())).collect();
        assert_eq!(ends, [(5, Some(6), Some(1)), (20, Some(21), Some(1)), (90, None, None)]);
        assert_eq!(found.stop, None);
        let checked = [&given[..], &[signed(2, Meaning::Verified, 84 * 60)]].concat();
        let found = actual(&packet, &plan, &checked).unwrap();
        assert_eq!(found.stop, Some((70, 68)));
        assert_eq!(found.steps[2].late_by(), Some(-1));
    }

    #[test]
    fn nothing_is_known_before_the_first_step_is_signed() {
        let (packet, plan) = plan([5, 20, 90]);
        assert_eq!(actual(&packet, &plan, &[]), None);
        assert_eq!(actual(&packet, &plan, &[signed(1, Meaning::Performed, 0)]), None);
        assert_eq!(actual(&packet, &plan, &[signed(0, Meaning::Verified, 0)]), None);
    }
}
