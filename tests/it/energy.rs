//! What a machine's energy gives to its packets: pairs, waits, hot parts, lines to tick.

use std::collections::BTreeMap;

use witnessmark::packet::model::{EnergyState, Packet, Stage, Step};

use crate::lockout::{packets, packets_of};
use crate::plant::Plant;

/// The step of a stage that has a row for each source.
fn step(packet: &Packet, stage: Stage) -> &Step {
    packet.steps.iter().find(|step| step.stage == stage && !step.sources.is_empty()).unwrap()
}

/// Packets whose words can be compared here.
fn english() -> impl Iterator<Item = (String, Packet)> {
    packets().into_iter().filter(|(_, packet)| packet.language.is_english())
}

/// The last cell of each row, by the name of its source.
fn last_cells(step: &Step) -> BTreeMap<&str, &str> {
    let rows = &step.table.as_ref().unwrap().rows;
    rows.iter().map(|row| (row.cells[0].as_str(), row.cells.last().unwrap().as_str())).collect()
}

#[test]
fn every_electrical_zero_is_measured_between_all_conductors_and_to_earth() {
    for (job, packet) in english() {
        let verify = step(&packet, Stage::Verify);
        let proofs = last_cells(verify);
        for source in packet.energy.iter().filter(|source| source.kind == "electrical") {
            let proof = proofs[source.name.as_str()];
            let pairs: &[&str] = match source.id.as_str() {
                "coder" | "labeller" => &["L to N", "L to earth", "N to earth"],
                _ => &[
                    "L1 to L2",
                    "L1 to L3",
                    "L1 to N",
                    "L2 to L3",
                    "L2 to N",
                    "L3 to N",
                    "L1 to earth",
                    "L2 to earth",
                    "L3 to earth",
                    "N to earth",
                    "plus to minus",
                    "plus to earth",
                    "minus to earth",
                ],
            };
            for pair in pairs {
                assert!(proof.contains(pair), "{job}: {pair}");
            }
            assert!(proof.ends_with("Write the greatest of them into the blank."), "{job}");
        }
        let tester =
            verify.checks.iter().filter(|check| check.starts_with("The tester was proved on"));
        assert_eq!(tester.count(), 2, "{job}");
    }
}

#[test]
fn every_timed_wait_has_a_blank_and_the_longest_is_named() {
    for (job, packet) in english() {
        let relieve = step(&packet, Stage::Relieve);
        let waits = last_cells(relieve);
        for source in &packet.energy {
            let blank = format!("start ________, not before ________ (start + {})", source.wait);
            let expected = if source.wait.is_empty() { "–" } else { &blank };
            assert_eq!(waits[source.name.as_str()], expected, "{job}");
        }
        let longest = match packet.machine.id.as_str() {
            "bag-1" => "The longest wait is over: 40 min, Jaw heating",
            "jar-1" => "The longest wait is over: 5 min, Mains supply",
            "pack-2" => "The longest wait is over: 10 min, Glue tank, hose and nozzles",
            _ => "The longest wait is over: 15 min, Jaw heating",
        };
        assert!(relieve.checks.iter().any(|check| check == longest), "{job}: {:?}", relieve.checks);
    }
}

#[test]
fn gloves_for_a_hot_part_are_fetched_and_on_before_its_zone_is_reached_into() {
    let mut steps = 0;
    for (job, packet) in english() {
        let parts = packet
            .energy
            .iter()
            .flat_map(|source| source.hot_parts.iter().map(|part| (source.id.as_str(), part)));
        for (source, part) in parts.filter(|(_, part)| !part.gloves.is_empty()) {
            assert!(packet.kit.iter().any(|item| item.item == part.gloves), "{job}");
            let zones = packet.zones.iter().filter(|z| z.sources.iter().any(|s| s == source));
            let zones: Vec<&String> = zones.map(|zone| &zone.id).collect();
            let inside = packet.steps.iter().filter(|step| {
                step.needs == EnergyState::Isolated
                    && step.zone.as_ref().is_some_and(|zone| zones.contains(&zone))
            });
            for step in inside {
                let line = format!("Before touching {}: {} are on", part.part, part.gloves);
                assert!(step.first.iter().any(|first| first.starts_with(&line)), "{}", step.id);
                steps += 1;
            }
        }
    }
    assert!(steps > 0, "no demo packet has a hot part that needs gloves");
}

#[test]
fn what_is_measured_before_it_is_touched_is_accepted_by_nobody() {
    let bagger = &packets()["SM-1048"];
    let step =
        bagger.steps.iter().find(|step| step.id.starts_with("sealing-jaws.measure")).unwrap();
    let [jaws] = step.readings.as_slice() else { panic!("one blank") };
    assert!(jaws.never_accepted);
    assert!(jaws.outside.ends_with("Nobody may accept a reading that lies outside."));
}

#[test]
fn every_blank_of_a_step_is_accepted_by_nobody_where_the_writer_says_so() {
    let plant = Plant::small();
    plant.edit(
        "instructions/knives.md",
        "of: position }\nwhen",
        "of: position, accept: never }\nwhen",
    );
    let packet = packets_of(&plant.folder()).remove("J-1").unwrap();
    let step = packet.steps.iter().find(|step| step.id.starts_with("knives.move")).unwrap();
    assert!(!step.readings.is_empty());
    for reading in &step.readings {
        assert!(reading.never_accepted, "{}", reading.id);
        assert!(reading.outside.ends_with("Nobody may accept a reading that lies outside."));
    }
}

#[test]
fn hot_parts_have_their_threshold_and_an_estimate() {
    let packets = packets();
    let pouch = &packets["SM-1041"];
    let [part] = pouch.energy.iter().find(|one| one.id == "jaw-heat").unwrap().hot_parts.as_slice()
    else {
        panic!("one hot part");
    };
    assert_eq!(part.threshold, "48 °C");
    // Worked by hand: 7.5 min * ln((180 - 25) / (48 - 25)) = 14.3 min.
    assert!(part.cooling.starts_with("Estimate: about 15 min after switching off."));
    assert!(last_cells(step(pouch, Stage::Verify))["Jaw heating"].contains("burns above 48 °C"));
    let rows = &step(pouch, Stage::Relieve).table.as_ref().unwrap().rows;
    assert!(rows.iter().any(|row| row.cells[2].ends_with(&part.cooling)));
}

#[test]
fn the_shutdown_says_where_parts_must_stand() {
    for (job, packet) in english() {
        let shutdown = packet.steps.iter().find(|step| step.stage == Stage::Shutdown).unwrap();
        let position = &packet.machine.stop_position;
        let said = shutdown.checks.contains(&format!("Stop position: {position}"));
        assert_eq!(said, packet.machine.id != "stick-5", "{job}");
    }
}
