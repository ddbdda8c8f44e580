//! Every demo packet with one thing wrong in the order of its steps: the walk refuses exactly those
//! in which somebody is unprotected by the naive rule.

use std::collections::BTreeSet;

use witnessmark::packet::model::{
    Block, EnergySource, EnergyState, Packet, SHIFT_CHANGE, Stage, Step, Zone,
};
use witnessmark::procedure::protect::{self, Machine};

use crate::lockout::{machine, packets};

/// The rule by looking back, the same file the unit tests of the walk use.
#[path = "../../src/procedure/protect/naive.rs"]
mod naive;

use naive::{broken, broken_at_the_end};

/// How many mutants there were, and what the walk said.
#[derive(Debug, Default)]
struct Counts {
    mutants: usize,
    refused: usize,
    allowed: usize,
}

/// Takes the steps of a mutant, the first place that differs from the packet, and what was done.
type Judge<'a> = dyn FnMut(&[Step], usize, &str) + 'a;

/// Steps from `first` on that leave somebody unprotected by the naive rule; what is missing at the
/// end belongs to the last step, as in the walk.
pub fn by_looking_back(steps: &[Step], first: usize, machine: Machine) -> BTreeSet<usize> {
    let (mut done, mut found) = (Vec::new(), BTreeSet::new());
    for (at, step) in steps.iter().enumerate().filter(|(_, step)| step.stays.is_none()) {
        if at >= first && !broken(&done, step, machine).is_empty() {
            found.insert(at);
        }
        done.push(step);
    }
    if !broken_at_the_end(&done, machine).is_empty() {
        found.insert(steps.len() - 1);
    }
    found
}

/// Both refuse the same steps of a mutant.
fn judge(counts: &mut Counts, packet: &Packet, (steps, first): (&[Step], usize), what: &str) {
    let machine = machine(packet);
    let walked = protect::walk(steps, machine);
    let walked: BTreeSet<usize> = walked.iter().map(|found| found.step).collect();
    assert_eq!(walked, by_looking_back(steps, first, machine), "{}: {what}", packet.job.id);
    counts.mutants += 1;
    counts.refused += usize::from(!walked.is_empty());
    counts.allowed += usize::from(walked.is_empty());
}

/// Judges every mutant of one kind of every packet. `mutate` hands out each mutant and leaves the
/// steps as they were; `wanted` is how many there must be of one packet.
fn check(
    kind: &str,
    mutate: fn(&mut Vec<Step>, &mut Judge),
    wanted: fn(&[Step]) -> usize,
) -> Counts {
    let (mut counts, mut expected) = (Counts::default(), 0);
    for packet in packets().values() {
        let mut steps = packet.steps.clone();
        let machine = machine(packet);
        assert_eq!(by_looking_back(&steps, 0, machine), BTreeSet::new(), "{}", packet.job.id);
        mutate(&mut steps, &mut |steps, first, what| {
            judge(&mut counts, packet, (steps, first), what);
        });
        assert_eq!(steps, packet.steps);
        expected += wanted(&steps);
    }
    print(kind, &counts);
    assert_eq!(counts.mutants, expected);
    assert_eq!(counts.refused + counts.allowed, counts.mutants);
    counts
}

#[allow(clippy::print_stdout, reason = "the counts are what the test is for")]
fn print(kind: &str, counts: &Counts) {
    println!("{kind}: {counts:?}");
}

/// Steps of every packet whose stage is one of these.
fn of_stages(stages: &[Stage]) -> Vec<Step> {
    let steps = packets().into_values().flat_map(|packet| packet.steps);
    steps.filter(|step| stages.contains(&step.stage)).collect()
}

/// Proofs for a crew that arrives, of sources that are proved already.
fn proofs_again() -> Vec<Step> {
    let proofs = of_stages(&[Stage::Verify]).into_iter();
    proofs.filter(|step| step.procedure == SHIFT_CHANGE).collect()
}

#[test]
fn a_packet_without_one_step() {
    let counts = check(
        "one step dropped",
        |steps, judge| {
            for at in 0..steps.len() {
                let dropped = steps.remove(at);
                judge(steps, at, &format!("without `{}`", dropped.title));
                steps.insert(at, dropped);
            }
        },
        <[Step]>::len,
    );
    // Everything else is a stage that the packet cannot do without, or the test of a block; zero was
    // proved before.
    let mut free = of_stages(&[Stage::Work, Stage::Restart]);
    free.retain(|step| step.block.is_none() || step.stage == Stage::Restart);
    assert_eq!(counts.allowed, free.len() + proofs_again().len());
    assert!(counts.refused >= 12 * 7, "{counts:?}");
}

#[test]
fn a_packet_with_two_neighbours_swapped() {
    let counts = check(
        "two neighbours swapped",
        |steps, judge| {
            for at in 1..steps.len() {
                steps.swap(at - 1, at);
                judge(steps, at - 1, &format!("`{}` one earlier", steps[at - 1].title));
                steps.swap(at - 1, at);
            }
        },
        |steps| steps.len() - 1,
    );
    // Where a crew puts its locks on and takes them off, stages are no neighbours.
    assert!(counts.refused >= 11 * 7 - 2 && counts.allowed > 200, "{counts:?}");
}

/// Moves by one place are swaps of neighbours, and not made again.
#[test]
fn a_packet_with_one_step_elsewhere() {
    let counts = check(
        "one step moved",
        |steps, judge| {
            let count = steps.len();
            for (from, to) in (0..count).flat_map(|a| (a + 2..count).map(move |b| (a, b))) {
                steps[from..=to].rotate_left(1);
                judge(steps, from, &format!("`{}` later, at {to}", steps[to].title));
                steps[from..=to].rotate_right(2);
                judge(steps, from, &format!("`{}` earlier, at {from}", steps[from].title));
                steps[from..=to].rotate_left(1);
            }
        },
        |steps| (steps.len() - 1) * (steps.len() - 2),
    );
    assert!(counts.refused > 10_000 && counts.allowed > 5_000, "{counts:?}");
}

#[test]
fn a_packet_whose_step_forgets_one_source() {
    let counts = check(
        "one source forgotten",
        |steps, judge| {
            for at in 0..steps.len() {
                for place in 0..steps[at].sources.len() {
                    let source = steps[at].sources.remove(place);
                    judge(steps, at, &format!("`{}` forgets {source}", steps[at].title));
                    steps[at].sources.insert(place, source);
                }
            }
        },
        |steps| steps.iter().map(|step| step.sources.len()).sum(),
    );
    // Found in each stage that takes energy away or gives locks back. One thing is allowed: no zero is
    // proved of a source, locked and relieved, that reaches into no zone of this job.
    let holding = [Stage::Isolate, Stage::Lock, Stage::Relieve, Stage::Verify, Stage::Unlock];
    let sources = |steps: Vec<Step>| steps.iter().map(|step| step.sources.len()).sum::<usize>();
    let acted = sources(of_stages(&holding)) - sources(proofs_again());
    let far: usize = packets().values().map(|packet| sources_out_of_reach(packet).len()).sum();
    assert_eq!(counts.refused, acted - far);
}

/// A step leaves its block, or one beside it comes in.
#[test]
fn a_packet_whose_block_has_other_bounds() {
    let counts = check(
        "one step in or out of a block",
        |steps, judge| {
            for at in 0..steps.len() {
                let block = steps[at].block;
                steps[at].block = if block.is_some() { None } else { Some(Block::Test) };
                judge(steps, at, &format!("`{}` on the other side of a block", steps[at].title));
                steps[at].block = block;
            }
        },
        <[Step]>::len,
    );
    // A block that lacks a step is refused, and so is a new one of a single step.
    let inside = packets().into_values().flat_map(|p| p.steps).filter(|s| s.block.is_some());
    assert!(counts.refused > inside.count() && counts.allowed < 7 * 4, "{counts:?}");
}

#[test]
fn a_packet_whose_test_is_ordinary_work_under_power() {
    let counts = check(
        "one test outside of the test power",
        |steps, judge| {
            for at in 0..steps.len() {
                let needs = steps[at].needs;
                if needs != EnergyState::Test {
                    continue;
                }
                for other in [EnergyState::Energised, EnergyState::Isolated, EnergyState::Any] {
                    steps[at].needs = other;
                    judge(steps, at, &format!("`{}` needs {other:?}", steps[at].title));
                }
                steps[at].needs = needs;
            }
        },
        |steps| 3 * steps.iter().filter(|step| step.needs == EnergyState::Test).count(),
    );
    // Stopping the machine needs no word about power, as in the lockout.
    let stops = packets().into_values().flat_map(|p| p.steps);
    let stops = stops.filter(|s| s.needs == EnergyState::Test && s.stage == Stage::Shutdown);
    assert_eq!(counts.allowed, stops.count());
}

/// Sources that reach into no zone somebody reaches into.
fn sources_out_of_reach(packet: &Packet) -> Vec<&EnergySource> {
    let steps = packet.steps.iter().filter(|step| step.stays.is_none());
    let inside: BTreeSet<&String> = steps.filter_map(|step| step.zone.as_ref()).collect();
    let zones: Vec<&Zone> = packet.zones.iter().filter(|zone| inside.contains(&zone.id)).collect();
    let is_far = |source: &&EnergySource| zones.iter().all(|z| !z.sources.contains(&source.id));
    packet.energy.iter().filter(is_far).collect()
}
