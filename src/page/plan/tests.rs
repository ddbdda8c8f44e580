use super::{PlanView, Worked, letters, plan_html};
use crate::language::Language;
use crate::packet::model::{Packet, Present};
use crate::page::sample;
use crate::page::site::{Frame, JobLine};
use crate::page::stop::StopView;
use crate::plan::actual::{Signed, actual};
use crate::plan::timeline::Job;

fn worked(packet: &Packet, zero: Option<u32>) -> Worked<'_> {
    Worked::new(Language::English, vec![Job { packet, earliest: 0, runs: None }], zero)
}

fn page(packet: &Packet) -> String {
    let worked = worked(packet, None);
    let compared = worked.shown().and_then(|(_, plan)| {
        let signed: Vec<Signed> = packet.steps.iter().flat_map(signs).collect();
        worked.actual(&actual(packet, plan, &signed)?)
    });
    let line = JobLine { id: packet.job.id.clone(), ..JobLine::default() };
    plan_html(&PlanView {
        frame: Frame::default(),
        line,
        timeline: worked.view(),
        stop: StopView::of(packet),
        actual: compared,
    })
}

/// Every signature of a step, all in one moment.
fn signs(step: &crate::packet::model::Step) -> Vec<Signed> {
    let signed = |sign: &crate::packet::model::Sign| Signed {
        step: step.id.clone(),
        row: sign.row.clone(),
        meaning: sign.meaning,
        role: sign.role.clone(),
        by: sign.by.clone().unwrap_or_default(),
        at: 1_770_000_000,
    };
    step.signs.iter().map(signed).collect()
}

/// The view of the sample packet as text. After a wanted change, read it, then copy
/// `target/sample-plan.json` over the expected one.
#[test]
#[allow(clippy::disallowed_methods, reason = "what was made is written to the build folder")]
fn the_sample_is_planned_as_it_was() {
    let view = worked(&sample::packet(), Some(14 * 60 + 30)).view();
    let text = serde_json::to_string_pretty(&view).unwrap() + "\n";
    let target = concat!(env!("CARGO_MANIFEST_DIR"), "/target/sample-plan.json");
    std::fs::write(target, &text).unwrap();
    let expected = include_str!("sample.json");
    let first = text.lines().zip(expected.lines()).find(|(made, wanted)| made != wanted);
    assert_eq!(first, None, "first line that differs: made, expected");
    assert_eq!(text.len(), expected.len());
}

#[test]
fn names_titles_and_roles_of_any_kind_stay_text() {
    let hostile = "<script>alert(1)</script><img src=x onerror=1>&\"'";
    let mut packet = sample::packet();
    packet.job.id = hostile.into();
    packet.job.shift = hostile.into();
    packet.machine.name = hostile.into();
    packet.job.lockout = None;
    packet.steps.iter_mut().for_each(|step| step.title = hostile.into());
    let own = || packet.steps.iter().flat_map(|step| &step.signs).map(|sign| sign.role.clone());
    let one = |id: &str| Present { id: id.into(), name: hostile.into(), roles: own().collect() };
    let people = vec![one("a"), one("b"), one("c")];
    for people in [Vec::new(), people] {
        packet.job.people = people;
        let page = page(&packet);
        assert!(page.contains("&lt;script"), "it is shown");
        for word in ["<script", "<img", "\"'"] {
            assert!(!page.contains(word), "{word}");
        }
    }
}

#[test]
fn a_time_of_day_is_shown_where_somebody_says_when_it_starts() {
    let packet = sample::packet();
    let view = worked(&packet, Some(23 * 60 + 50)).view();
    assert_eq!(view.bars[0].from, "23:50");
    let next_day = |line: &super::BarLine| line.to.starts_with("00:");
    assert!(view.bars.iter().any(next_day));
    assert_eq!(worked(&packet, None).view().bars[0].from, "0:00");
}

#[test]
fn jobs_of_a_shift_have_letters() {
    assert_eq!([0, 25, 26, 27, 702].map(letters), ["A", "Z", "AA", "AB", "AAA"]);
    let packet = sample::packet();
    let job = Job { packet: &packet, earliest: 0, runs: None };
    let view = Worked::new(Language::German, vec![job, job], None).view();
    assert!(view.is_shift && view.bars.iter().any(|bar| bar.label.starts_with('B')));
    assert_eq!(view.stops.len(), 2);
}
