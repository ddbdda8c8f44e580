//! The plan of a packet: whatever its writers say in `after` and `line`, each order of steps that it
//! allows protects everybody and keeps the order of work.

use std::collections::BTreeSet;

use witnessmark::packet::model::{Packet, Stage, Step};
use witnessmark::plan::stop::stop;
use witnessmark::plan::tasks::{Item, as_written, items};
use witnessmark::procedure::order;
use witnessmark::procedure::protect;

use crate::dice::Dice;
use crate::lockout::{machine, packets, packets_of};
use crate::mutants::by_looking_back;
use crate::plant::root;

/// How many orders of each plan are walked.
const ORDERS: usize = 12;

/// Every packet of the demo plant and of the plant with the machines it lacks.
fn all() -> Vec<Packet> {
    let library = packets_of(&root().join("tests/it/library-plant"));
    packets().into_values().chain(library.into_values()).collect()
}

/// What writers could do to a packet: procedures that wait for less, steps for which the line may run.
fn written_otherwise(packet: &Packet, dice: &mut Dice, most: bool) -> Packet {
    let mut other = packet.clone();
    let names: Vec<String> = packet.order.iter().map(|part| part.procedure.clone()).collect();
    for part in &mut other.order {
        let some = names.iter().filter(|_| !most && dice.one_in(3)).cloned().collect();
        if most || dice.one_in(2) {
            part.after = Some(some);
        }
    }
    for step in &mut other.steps {
        step.while_running = step.while_running || most || dice.one_in(2);
    }
    other
}

/// The steps in an order that the plan allows: the task that is free and has the greatest weight is
/// done next.
fn one_order(items: &[Item], weights: &[u64]) -> Vec<usize> {
    let mut done = BTreeSet::new();
    let mut order = Vec::new();
    while order.len() < items.len() {
        let is_free = |at: &usize| {
            !done.contains(at) && items[*at].after.iter().all(|earlier| done.contains(earlier))
        };
        let next = (0..items.len()).filter(is_free).max_by_key(|at| weights[*at]).unwrap();
        done.insert(next);
        order.push(items[next].step);
    }
    order
}

/// Faults of an order of steps, by the steps' names: of both safety walks, and of the order of work.
fn faults(packet: &Packet, order: &[usize]) -> BTreeSet<String> {
    let steps: Vec<Step> = order.iter().map(|at| packet.steps[*at].clone()).collect();
    let machine = machine(packet);
    let walked = protect::walk(&steps, machine);
    let looked = by_looking_back(&steps, 0, machine);
    let worked = order::check(&steps, &packet.from.allergens, &packet.to.allergens);
    let walked = walked.iter().map(|one| format!("{}: {:?}", steps[one.step].id, one.why));
    let looked = looked.iter().map(|at| format!("{}: unprotected", steps[*at].id));
    let worked = worked.iter().map(|one| format!("{}: {:?}", steps[one.step].id, one.why));
    walked.chain(looked).chain(worked).collect()
}

/// Faults that orders of the plan `items` have and the packet's own order has not.
fn new_faults(packet: &Packet, items: &[Item], dice: &mut Dice) -> BTreeSet<String> {
    let own: Vec<usize> = (0..packet.steps.len()).collect();
    let own: Vec<usize> = own.into_iter().filter(|at| packet.steps[*at].stays.is_none()).collect();
    let known = faults(packet, &own);
    let mut found = BTreeSet::new();
    for round in 0..ORDERS {
        let weight = |at: usize| match round {
            0 => u64::try_from(items[at].step).unwrap(),
            1 => u64::MAX - u64::try_from(items[at].step).unwrap(),
            _ => dice.next(),
        };
        let weights: Vec<u64> = (0..items.len()).map(weight).collect();
        found.extend(faults(packet, &one_order(items, &weights)));
    }
    &found - &known
}

/// Plans each packet as it is and as writers could make it, after `spoil` took something away from what
/// the plan sees.
fn check(spoil: fn(&mut Packet)) -> BTreeSet<String> {
    let mut dice = Dice::new(20_261_126);
    let mut found = BTreeSet::new();
    for packet in all() {
        for round in 0..6 {
            let written = match round {
                0 => packet.clone(),
                _ => written_otherwise(&packet, &mut dice, round == 1),
            };
            let mut seen = written.clone();
            spoil(&mut seen);
            for items in [items(&seen), as_written(&seen)] {
                found.extend(new_faults(&written, &items, &mut dice));
            }
        }
    }
    found
}

#[test]
fn every_order_that_the_plan_allows_protects_everybody() {
    assert_eq!(check(|_| {}), BTreeSet::new());
}

/// What nobody waits for is done too early: the tests above look.
#[test]
fn without_what_holds_everybody_it_does_not() {
    let found = check(|packet| {
        for step in &mut packet.steps {
            step.stage = Stage::Work;
            step.block = None;
            step.signs.iter_mut().for_each(|sign| sign.by = None);
        }
    });
    assert!(found.iter().any(|fault| fault.ends_with("unprotected")), "{found:?}");
}

#[test]
fn without_what_looks_back_it_does_not() {
    let found = check(|packet| packet.steps.iter_mut().for_each(|step| step.marks.clear()));
    for why in ["NotCleared", "NoFirstPiece", "NotCleaned", "AfterRun"] {
        assert!(found.iter().any(|fault| fault.contains(why)), "{why}: {found:?}");
    }
}

/// Each step that is done is one task, tasks wait for earlier ones only, and for none twice.
#[test]
fn a_plan_holds_each_step_once_and_waits_for_nothing_twice() {
    let mut dice = Dice::new(7);
    for packet in all() {
        let packet = written_otherwise(&packet, &mut dice, false);
        for items in [items(&packet), as_written(&packet)] {
            let mut steps: Vec<usize> = items.iter().map(|item| item.step).collect();
            steps.sort_unstable();
            let done = packet.steps.iter().enumerate().filter(|(_, step)| step.stays.is_none());
            assert_eq!(steps, done.map(|(at, _)| at).collect::<Vec<_>>());
            let mut reached: Vec<BTreeSet<usize>> = Vec::new();
            for (at, item) in items.iter().enumerate() {
                let mut own = BTreeSet::new();
                for earlier in item.after.iter().rev() {
                    assert!(*earlier < at && !own.contains(earlier), "{}", packet.job.id);
                    own.insert(*earlier);
                    own.extend(reached[*earlier].iter().copied());
                }
                reached.push(own);
            }
            assert!(items.is_sorted_by_key(|item| item.when), "{}", packet.job.id);
        }
    }
}

/// Every step that is done is counted once, costs at most its minutes, and nothing lengthens the stop.
#[test]
fn the_stop_of_each_packet_adds_up() {
    let mut saved = std::collections::BTreeMap::new();
    for packet in all() {
        let stop = stop(&packet);
        let planned: u32 = stop.items.iter().map(|item| item.minutes).sum();
        let done = packet.steps.iter().filter(|step| step.stays.is_none());
        assert_eq!(planned, done.filter_map(|step| step.minutes).sum::<u32>());
        assert!(stop.items.iter().zip(&stop.costs).all(|(item, cost)| *cost <= item.minutes));
        assert!((1..=stop.minutes_as_written).contains(&stop.minutes), "{}", packet.job.id);
        println!(
            "{} {}: before {}, stop {} (as written {}), after {}, planned {planned}, could move {:?}",
            packet.job.id,
            packet.machine.id,
            stop.minutes_before,
            stop.minutes,
            stop.minutes_as_written,
            stop.minutes_after,
            stop.could_move.iter().map(|one| &packet.steps[one.step].id).collect::<Vec<_>>(),
        );
        assert_eq!(stop.unplanned, [] as [usize; 0]);
        saved.insert(packet.machine.id.clone(), stop.saved());
    }
    // The place for hot samples is prepared while the old order runs.
    assert_eq!(saved["jar-1"], 3);
}
