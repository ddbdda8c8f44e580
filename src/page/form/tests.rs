use super::held::Held;
use super::*;
use crate::packet::model::{Stage, Step};
use crate::page::packet::PacketIssue;
use crate::page::sample;

/// The made-up packet with one source and steps of these stages.
fn packet(stages: &[Stage]) -> Packet {
    let mut packet = sample::packet();
    packet.energy.truncate(1);
    let source = packet.energy[0].id.clone();
    let pattern = packet.steps[0].clone();
    let steps = stages.iter().zip(1..).map(|(stage, number)| Step {
        number,
        stage: *stage,
        sources: vec![source.clone()],
        ..pattern.clone()
    });
    packet.steps = steps.collect();
    packet
}

#[track_caller]
fn check(packet: &Packet, first: u32, last: u32, expected: &[&str]) {
    let held = Held::of(packet).within(Language::English, first, last);
    assert_eq!(held, expected, "{first} to {last}");
}

#[test]
fn a_source_is_held_after_its_proof_until_its_lock_comes_off() {
    let packet = packet(&[Stage::Lock, Stage::Verify, Stage::Work, Stage::Unlock, Stage::Restart]);
    let name = &packet.energy[0].name;
    check(&packet, 1, 1, &[]);
    check(&packet, 1, 2, &[&format!("At zero after step 2: {name}")]);
    check(&packet, 2, 3, &[&format!("At zero after step 2: {name}")]);
    check(&packet, 3, 3, &[&format!("At zero: {name}")]);
    check(&packet, 3, 4, &[&format!("At zero until step 4: {name}")]);
    check(&packet, 1, 5, &[&format!("At zero after step 2 until step 4: {name}")]);
    check(&packet, 4, 5, &[&format!("At zero until step 4: {name}")]);
    check(&packet, 5, 5, &[]);
}

#[test]
fn power_for_a_test_ends_a_proof_and_a_new_one_is_needed() {
    let packet = packet(&[
        Stage::Verify,
        Stage::Unlock,
        Stage::Restart,
        Stage::Lock,
        Stage::Verify,
        Stage::Work,
    ]);
    let name = &packet.energy[0].name;
    check(&packet, 2, 4, &[&format!("At zero until step 2: {name}")]);
    check(
        &packet,
        2,
        6,
        &[&format!("At zero until step 2: {name}"), &format!("At zero after step 5: {name}")],
    );
}

#[test]
fn in_doubt_a_source_is_not_at_zero() {
    let mut unnamed = packet(&[Stage::Verify, Stage::Unlock, Stage::Work]);
    unnamed.steps[1].sources.clear();
    check(&unnamed, 3, 3, &[]);
    unnamed.steps[0].sources.clear();
    check(&unnamed, 1, 3, &[]);
    let mut skipped = packet(&[Stage::Verify, Stage::Work]);
    skipped.steps[0].stays = Some("not needed".into());
    check(&skipped, 2, 2, &[]);
}

#[test]
fn texts_of_a_packet_are_never_markup() {
    let attack = "<script>x</script>\"'";
    let mut packet = sample::packet();
    packet.job.order = attack.into();
    packet.machine.name = attack.into();
    for item in &mut packet.kit {
        (item.item, item.detail) = (attack.into(), attack.into());
    }
    for hazard in &mut packet.hazards {
        hazard.hazard = attack.into();
    }
    for step in &mut packet.steps {
        step.title = attack.into();
        for reading in &mut step.readings {
            (reading.label, reading.unit) = (attack.into(), attack.into());
        }
    }
    for rail in &mut packet.rails {
        rail.name = attack.into();
    }
    let issue = PacketIssue { state: attack.into(), ..PacketIssue::default() };
    let view = PacketView::new(&packet, &sample::digest(), &issue);
    for form in Form::ALL {
        let page = form.html(&packet, &view);
        assert!(page.contains("&lt;script&gt;"), "{form:?}");
        assert!(!page.contains("<script") && !page.contains("\"'\""), "{form:?}");
    }
}

#[test]
fn an_outdated_form_says_so_across_each_sheet() {
    let packet = sample::packet();
    for (is_outdated, times) in [(true, 1), (false, 0)] {
        let issue = PacketIssue { is_outdated, ..sample::issue() };
        let view = PacketView::new(&packet, &sample::digest(), &issue);
        for form in Form::ALL {
            let page = form.html(&packet, &view);
            assert_eq!(page.matches("<div class=\"watermark\"").count(), times, "{form:?}");
        }
        let strip = crate::page::strip::strip_html(&packet, &sample::digest(), &issue);
        assert_eq!(strip.matches("<div class=\"watermark\"").count(), times);
    }
}
