//! Single orders of steps, and what must be found in them.

use super::{BlockFault, Machine, Why, walk};
use crate::packet::model::{Block, EnergySource, EnergyState, MinorServicing, Stage, Step, Zone};

pub(crate) fn source(id: &str) -> EnergySource {
    let text = String::new;
    EnergySource {
        id: id.to_owned(),
        name: text(),
        kind: text(),
        magnitude: text(),
        device: text(),
        place: text(),
        safe: text(),
        lock: text(),
        stored: text(),
        relieve: text(),
        wait: text(),
        prove: text(),
        pairs: vec![],
        zero: text(),
        hot_parts: vec![],
        returns: false,
        restore: text(),
        hazards: vec![],
    }
}

/// A step as words: a stage, `in` or `reach` (work inside), `run` (work under power), `test` (work under
/// power in a block), `service` (minor servicing), then the sources it acts on (both when it names none), `nothing`, `powered`,
/// `block`, or a zone: `isolate air`, `in @web`.
pub(crate) fn step(words: &str) -> Step {
    let mut words = words.split(' ');
    let stage = words.next().unwrap();
    let rest: Vec<&str> = words.collect();
    let named = rest.iter().find_map(|word| word.strip_prefix('@')).map(str::to_owned);
    let is_minor = stage == "service";
    let is_test = stage == "test";
    let knives = named.clone().or(Some("knives".to_owned()));
    let (stage, needs, zone) = match stage {
        "in" => (Stage::Work, EnergyState::Isolated, knives),
        "reach" => (Stage::Work, EnergyState::Any, knives),
        "run" => (Stage::Work, EnergyState::Energised, named),
        "test" => (Stage::Work, EnergyState::Test, named),
        "service" if rest.contains(&"isolated") => (Stage::Work, EnergyState::Isolated, named),
        "service" => (Stage::Work, EnergyState::Energised, named),
        other => {
            let stage = serde_json::from_str(&format!("\"{other}\"")).unwrap();
            let needs = match rest.as_slice() {
                some if some.contains(&"powered") => EnergyState::Energised,
                some if some.contains(&"isolated") => EnergyState::Isolated,
                some if some.contains(&"test") => EnergyState::Test,
                _ => EnergyState::Any,
            };
            (stage, needs, named)
        }
    };
    let in_block = rest.contains(&"block") || (is_test && !rest.contains(&"outside"));
    let some = |source: &&&str| rest.contains(*source);
    let all = if rest.iter().any(|word| ["air", "mains", "nothing"].contains(word)) {
        ["air", "mains"].iter().filter(some).collect()
    } else {
        vec![&"air", &"mains"]
    };
    let sources = all.into_iter().map(|source| (*source).to_owned()).collect();
    Step {
        number: 1,
        id: String::new(),
        procedure: String::new(),
        nth: 1,
        language: None,
        title: String::new(),
        stage,
        needs,
        block: in_block.then_some(Block::Test),
        minor_servicing: is_minor.then(MinorServicing::default),
        marks: vec![],
        zone,
        sources,
        hazards: vec!["edge".to_owned()],
        first: vec![],
        tools: vec![],
        minutes: None,
        people: 1,
        while_running: false,
        stays: None,
        kept: String::new(),
        text: String::new(),
        values: Default::default(),
        table: None,
        checks: vec![],
        readings: vec![],
        signs: vec![],
    }
}

/// Air and mains reach the knives, mains alone reach the web.
pub(crate) fn zones() -> Vec<Zone> {
    [("knives", vec!["air", "mains"]), ("web", vec!["mains"])]
        .into_iter()
        .map(|(id, sources)| Zone {
            id: id.to_owned(),
            name: String::new(),
            guard: String::new(),
            interlock: String::new(),
            sources: sources.into_iter().map(str::to_owned).collect(),
            hazards: vec!["edge".to_owned()],
            at_once: 1,
        })
        .collect()
}

pub(super) const GOOD: &str = "notify,prepare,shutdown,isolate,lock,relieve,try-out,verify,in,inspect,clear-people,unlock,notify-after,restart,run";

/// A test block on the mains, as (f)(1) has it.
pub(super) const BLOCK: &str = "inspect block,clear-people block,unlock mains block,restart test mains block,test,shutdown block,isolate mains block,lock mains block,relieve mains block,try-out block,verify mains block";

/// A changeover with this block between two steps of work.
pub(super) fn with_block(block: &str) -> String {
    GOOD.replace(",in,", &format!(",in,{block},in,"))
}

fn found(steps: &str) -> Vec<(usize, Why)> {
    let steps: Vec<Step> = steps.split(',').map(step).collect();
    let (sources, zones) = ([source("air"), source("mains")], zones());
    let inching = ["mains".to_owned()];
    walk(&steps, Machine { sources: &sources, zones: &zones, inching: &inching })
        .into_iter()
        .map(|u| (u.step, u.why))
        .collect()
}

#[track_caller]
fn check(steps: &str, expected: &str) {
    let found = format!("{:?}", found(steps));
    assert!(found.contains(expected), "{found}");
}

#[test]
fn the_full_sequence_protects() {
    assert_eq!(found(GOOD), []);
}

#[test]
fn each_dropped_stage_is_found() {
    let steps: Vec<&str> = GOOD.split(',').collect();
    for dropped in 0..steps.len() {
        if matches!(steps[dropped], "in" | "run" | "restart") {
            continue;
        }
        let mut left = steps.clone();
        left.remove(dropped);
        assert_ne!(found(&left.join(",")), [], "without {}", steps[dropped]);
    }
}

#[test]
fn each_swap_of_neighbours_in_the_lockout_is_found() {
    let steps: Vec<&str> = GOOD.split(',').collect();
    for at in 1..steps.len() - 2 {
        let mut swapped = steps.clone();
        swapped.swap(at, at + 1);
        // notify and prepare may change places; everything else may not.
        assert_ne!(found(&swapped.join(",")), [], "{swapped:?}");
    }
}

#[test]
fn a_forgotten_source_is_named() {
    check(
        &GOOD.replace(",verify,", ",verify mains,"),
        "NotIsolated { source: \"air\", missing: Verify }",
    );
    check(
        &GOOD.replace(",lock,", ",lock air,"),
        "SourceBehind { source: \"mains\", missing: Lock, paragraph: \"(d)(4)\" }",
    );
}

#[test]
fn locks_are_taken_off_before_the_end() {
    check(&GOOD.replace(",unlock,", ",unlock air,"), "LocksLeft { source: \"mains\" }");
    check(&GOOD.replace(",in,", ",in,run,"), "LocksOn");
}

#[test]
fn reaching_in_without_isolation_is_found() {
    check(&GOOD.replace("notify,", "reach,notify,"), "(0, ReachesIn)");
    check(&format!("{GOOD},in"), "NotIsolated");
}

#[test]
fn work_after_the_inspection_asks_for_a_new_one() {
    check(&GOOD.replace(",unlock", ",in,unlock"), "Before { missing: Inspect");
}

#[test]
fn two_changeovers_in_a_row_protect() {
    assert_eq!(found(&format!("{GOOD},{GOOD}")), []);
}

#[test]
fn a_machine_that_ran_again_is_shut_down_again() {
    let expected = "Before { missing: Shutdown, paragraph: \"(d)(2)\" }";
    check(&GOOD.replace(",isolate,", ",restart,isolate,"), expected);
    check(&GOOD.replace(",isolate,", ",run,isolate,"), expected);
    assert_eq!(found(&GOOD.replace("shutdown,", "restart,shutdown powered,")), []);
}

#[test]
fn an_inspection_before_the_lockout_says_nothing_at_its_end() {
    let twice = |left_out: &str| format!("{GOOD},{}", GOOD.replace(left_out, ","));
    check(&twice(",in,inspect,clear-people,"), "(23, Before { missing: Inspect,");
    check(&twice(",in,inspect,clear-people,"), "(23, Before { missing: ClearPeople,");
    assert_eq!(found(&twice(",in,")), []);
}

#[test]
fn people_are_told_that_the_locks_are_off_when_all_are() {
    let air_first = GOOD.replace(",unlock,", ",unlock air,notify-after,unlock mains,");
    check(
        &air_first,
        "(12, SourceBehind { source: \"mains\", missing: Unlock, paragraph: \"(e)(2)(ii)\" })",
    );
    assert_eq!(found(&GOOD.replace(",unlock,", ",unlock air,unlock mains,")), []);
}

#[test]
fn people_are_told_even_when_the_packet_ends_without_a_start() {
    let (end, _) = GOOD.split_once(",notify-after").unwrap();
    check(end, "(11, Before { missing: NotifyAfter, paragraph: \"(c)(9)\" })");
    assert_eq!(found(&format!("{end},notify-after")), []);
}

#[test]
fn nobody_reaches_into_a_zone_before_the_proof_of_zero() {
    for stage in ["isolate", "lock", "relieve", "verify"] {
        let inside = GOOD.replace(&format!(",{stage},"), &format!(",{stage} @web,"));
        check(&inside, "ReachesIn");
    }
}

#[test]
fn nobody_is_inside_when_something_may_move() {
    for stage in ["try-out", "clear-people", "unlock", "restart"] {
        check(&GOOD.replace(stage, &format!("{stage} isolated @web")), "ReachesIn");
    }
    check(&GOOD.replace(",run", ",run @web"), "ReachesIn");
}

#[test]
fn a_zone_that_nobody_knows_is_no_way_around() {
    check(&format!("reach @nowhere,{GOOD}"), "(0, ReachesIn)");
    check(&GOOD.replace(",verify,in,", ",in @nowhere,verify,"), "NotIsolated");
}

#[test]
fn power_takes_back_what_is_not_locked() {
    check(
        &GOOD.replace(",lock,", ",restart,lock,"),
        "(5, SourceBehind { source: \"air\", missing: Isolate, paragraph: \"(d)(3)\" })",
    );
}

#[test]
fn unlocking_nothing_takes_off_no_lock() {
    check(&GOOD.replace(",unlock,", ",unlock nothing,"), "(11, NoSources)");
    check(&GOOD.replace(",unlock,", ",unlock nothing,"), "(12, Before { missing: Unlock,");
}

#[test]
fn a_zone_needs_only_the_sources_that_reach_it() {
    let started = "notify,prepare,shutdown,isolate,lock,relieve,try-out,verify mains";
    assert_eq!(found(&GOOD.replace(",verify,in,", ",verify mains,in @web,verify air,in,")), []);
    check(&format!("{started},in"), "(8, NotIsolated { source: \"air\", missing: Verify })");
}

#[test]
fn a_block_takes_its_locks_off_and_puts_them_on_again() {
    assert_eq!(found(&with_block(BLOCK)), []);
    let again = format!("{BLOCK},{BLOCK}");
    assert_eq!(found(&with_block(&again)), []);
    let apart = format!("{BLOCK},in,{BLOCK}");
    assert_eq!(found(&with_block(&apart)), []);
}

#[test]
fn each_dropped_or_swapped_part_of_a_block_is_found() {
    let parts: Vec<&str> = BLOCK.split(',').collect();
    for at in 0..parts.len() {
        let mut left = parts.clone();
        left.remove(at);
        // Power comes back with the first test, if no step says how.
        let powers = parts[at].starts_with("restart");
        assert_eq!(found(&with_block(&left.join(","))).is_empty(), powers, "without {}", parts[at]);
        if at > 0 {
            let mut swapped = parts.clone();
            swapped.swap(at - 1, at);
            let both = powers_or_tests(parts[at - 1]) && powers_or_tests(parts[at]);
            assert_eq!(found(&with_block(&swapped.join(","))).is_empty(), both, "{swapped:?}");
        }
    }
}

fn powers_or_tests(part: &str) -> bool {
    part.contains("test")
}

#[track_caller]
fn block(steps: &str, step: usize, fault: BlockFault) {
    assert_eq!(found(steps), [(step, Why::Block(fault))]);
}

#[test]
fn a_test_stands_in_a_block_after_its_locks_came_off() {
    let good = with_block(BLOCK);
    block(&GOOD.replace(",in,", ",test outside,in,"), 8, BlockFault::Outside);
    let (missing, paragraph) = (Stage::Unlock, "(f)(1)(iii)");
    let early = good.replace(",unlock mains block,", ",test,unlock mains block,");
    let early = found(&early);
    assert!(early.contains(&(11, Why::Before { missing, paragraph })), "{early:?}");
    let late = found(
        &good
            .replace(",shutdown block,isolate", ",shutdown block,isolate mains block,test,isolate"),
    );
    let source = "mains".to_owned();
    assert!(late.contains(&(16, Why::SourceBehind { source, missing, paragraph })), "{late:?}");
}

#[test]
fn no_lock_comes_off_that_is_none_of_the_block() {
    let air = with_block(BLOCK).replace("unlock mains block", "unlock block");
    let found = found(&air);
    let source = "air".to_owned();
    assert!(found.contains(&(11, Why::Block(BlockFault::Foreign { source }))), "{found:?}");
}

#[test]
fn nobody_reaches_in_until_the_block_is_over() {
    let good = with_block(BLOCK);
    let inside = good.replace(",inspect block,", ",inspect isolated @web block,");
    assert_eq!(found(&inside), []);
    let late = good.replace(",verify mains block,", ",verify mains block,in @web block,");
    block(&late, 20, BlockFault::ReachesIn);
}

#[test]
fn a_block_begins_and_ends_with_zero_energy() {
    let (source, missing) = ("mains".to_owned(), Stage::Verify);
    let early = with_block(BLOCK).replace("verify,in,inspect", "verify air,inspect");
    block(&early, 8, BlockFault::Begins { source: source.clone(), missing });
    let open = with_block(BLOCK).replace(",verify mains block", "");
    let open = found(&open);
    let why = Why::Block(BlockFault::Ends { source, missing });
    assert!(open.contains(&(19, why)), "{open:?}");
}

#[test]
fn a_block_has_all_its_parts() {
    let good = with_block(BLOCK);
    let nothing = GOOD.replace(",in,inspect", ",in,inspect block,inspect");
    let expected = [BlockFault::NoUnlock, BlockFault::NoTest].map(|fault| (10, Why::Block(fault)));
    assert_eq!(
        found(&nothing.replace(",inspect,", ",in,inspect,")),
        expected.clone().map(|(_, why)| (10, why))
    );
    let untested = good.replace(",test,shutdown block,", ",shutdown test block,");
    block(&untested, 19, BlockFault::NoTest);
    block(&good.replace(",test,", ",test,run block,"), 14, BlockFault::Power);
}

#[test]
fn minor_servicing_reaches_in_under_power_and_never_in_a_lockout() {
    assert_eq!(found(&format!("service @web,{GOOD},service @web")), []);
    assert_eq!(found("run @web"), [(0, Why::ReachesIn)]);
    assert_eq!(found("service"), [(0, Why::MinorUnfit)]);
    let held = GOOD.replace(",in,", ",service @web,in,");
    let source = "air".to_owned();
    assert_eq!(found(&held), [(8, Why::LocksOn { source })]);
    check(&GOOD.replace(",in,", ",service isolated @web,in,"), "(8, MinorUnfit)");
    let inside = with_block(BLOCK).replace(",test,", ",test,service @web block,");
    let faults = [BlockFault::Power, BlockFault::ReachesIn];
    assert_eq!(found(&inside), faults.map(|fault| (14, Why::Block(fault))));
}
