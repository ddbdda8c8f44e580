use super::strip_html;
use crate::language::Language;
use crate::packet::model::{Packet, RailLayout};
use crate::page::packet::PacketIssue;
use crate::page::sample;

fn page(packet: &Packet) -> String {
    strip_html(packet, &sample::digest(), &sample::issue())
}

/// The page of a packet with one rail.
fn alone(rail: RailLayout) -> String {
    page(&Packet { rails: vec![rail], ..sample::packet() })
}

#[test]
fn every_sheet_says_what_it_is_and_carries_the_bar() {
    let page = page(&sample::packet());
    let sheets = page.matches("class=\"strip-sheet\"").count();
    assert!(sheets >= 3, "{sheets}");
    assert_eq!(
        page.matches("M0 0V5000\"/>\n<path class=\"check\" d=\"M100000 0V5000").count(),
        sheets
    );
    for words in [
        "must be 100.0 mm",
        "do not use the strip otherwise",
        "The reading with the instrument counts, taken from the datum",
        "Reach in only while every source of the zone is isolated",
        "Job J-4107, ",
        &sample::digest()[..16],
        "Issued, nothing signed yet",
    ] {
        assert!(page.matches(words).count() >= sheets, "{words}");
    }
    for number in 1..=sheets {
        assert!(page.contains(&format!("page {number} of {sheets}")), "{number}");
    }
}

#[test]
fn marks_are_told_apart_by_word_and_shape() {
    let page = alone(sample::perforating_rail());
    for words in
        [">move<", ">stays<", ">fit<", ">take off<", ">\u{2212}4 1/2 in<", ">+8 in<", ">lane 4<"]
    {
        assert!(page.contains(words), "{words}");
    }
    assert!(page.contains("class=\"mark off\" d=\"M203200 0V8000\""));
    assert!(page.contains("class=\"mark\" d=\"M-114300 0V8000\""));
    assert!(page.contains("class=\"datum\" d=\"M0 0V"));
    assert!(page.contains(">Drive<") && page.contains(">Bracket of<"), "fixed things are named");
    assert!(page.contains("fill=\"url(#strip-hatch)\""));
    assert!(page.contains("where the knife tip stands"));
    assert!(alone(sample::guide_rail()).contains("where the inner face of the guide stands"));
}

#[test]
fn every_mark_stands_on_a_segment_and_in_an_overlap_on_two() {
    let rail = sample::knife_rail();
    let ruled = super::Ruled::read(&rail).unwrap();
    let places: Vec<i64> = ruled.marks.iter().map(|mark| mark.at).collect();
    let segments = super::split(ruled.ends, &places);
    let page = alone(rail);
    for at in places {
        let drawn = page.matches(&format!("class=\"mark\" d=\"M{at} 0")).count();
        assert_eq!(drawn, segments.iter().filter(|one| one.holds(at)).count(), "{at}");
        assert!(drawn > 0);
    }
}

#[test]
fn a_strip_speaks_the_language_of_its_packet() {
    for (language, words) in [
        (Language::Spanish, ["100,0 mm", "mover", "queda", "\u{2212}168,0", "fin del riel"]),
        (Language::LatinSpanish, ["100.0 mm", "mover", "queda", "\u{2212}168.0", "fin del riel"]),
        (Language::German, ["100,0 mm", "verschieben", "bleibt", "\u{2212}168,0", "Schienenende"]),
    ] {
        let page = page(&Packet { language, ..sample::packet() });
        assert!(page.contains(&format!("<html lang=\"{}\">", language.texts().tag())));
        for word in words {
            assert!(page.contains(word), "{}: {word}", language.tag());
        }
        for english in [">stays<", "Measure", "rail end", "web edge", "segment 1"] {
            assert!(!page.contains(english), "{}: {english}", language.tag());
        }
    }
}

#[test]
fn a_rail_that_cannot_be_drawn_says_so_in_words() {
    let change = |change: fn(&mut RailLayout)| {
        let mut rail = sample::knife_rail();
        change(&mut rail);
        alone(rail)
    };
    let many = change(|rail| rail.holders = vec![rail.holders[0].clone(); 10_000]);
    assert!(many.contains("This rail has 10000 places to mark; a strip shows 200 at most."));
    assert!(!many.contains("class=\"strip-segment\"") && many.len() < 40_000);
    let close = change(|rail| {
        for (place, holder) in (0..).zip(&mut rail.holders) {
            holder.new = format!("{}.5", -4 + place);
        }
        let more = rail.holders.clone();
        rail.holders.extend(more.clone());
        rail.holders.extend(more);
    });
    assert!(close.contains("stand too close together"));
    let long = change(|rail| rail.right_end = "99999".into());
    assert!(long.contains("longer than 8 m"));
    let unreadable = change(|rail| rail.unit = "kg".into());
    assert!(unreadable.contains("cannot be drawn to scale"));
    let none = page(&Packet { rails: vec![], ..sample::packet() });
    assert!(none.contains("no rail with positions"));
}

#[test]
fn names_cannot_leave_their_place() {
    let mut packet = sample::packet();
    packet.rails = vec![sample::perforating_rail()];
    packet.rails[0].name = "<script>\"".into();
    packet.rails[0].id = "a\" onload=\"x".into();
    packet.rails[0].obstacles[0].name = "</text><b>".repeat(200);
    packet.machine.datum = "<i>datum</i>".into();
    let issue = PacketIssue { state: "<u>".into(), ..PacketIssue::default() };
    let page = strip_html(&packet, "<digest>", &issue);
    for markup in ["<script", "onload=\"x", "<b>", "<i>", "<u>", "<digest"] {
        assert!(!page.contains(markup), "{markup}");
    }
}
