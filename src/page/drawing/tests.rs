use crate::language::Language;
use crate::packet::model::{Edges, Holder, Lane, Obstacle, RailKind, RailLayout};
use crate::page::sample;

fn svg(rail: &RailLayout) -> Option<String> {
    super::svg(rail, Language::English)
}

/// Knives at equal distances, without old places.
fn comb(knives: u32, pitch: i32, holder_width: &str) -> RailLayout {
    let first = -(i32::try_from(knives).unwrap() - 1) * pitch / 2;
    let place = |index: u32| (first + i32::try_from(index).unwrap() * pitch).to_string();
    RailLayout {
        left_end: "-300".into(),
        right_end: "300".into(),
        holder_width: holder_width.into(),
        lanes: (1..knives)
            .map(|number| Lane {
                number,
                edges: Edges { left: place(number - 1), right: place(number) },
            })
            .collect(),
        web: Some(Edges { left: place(0), right: place(knives - 1) }),
        holders: (0..knives)
            .map(|index| Holder {
                number: index + 1,
                old: None,
                new: place(index),
                low: place(index),
                high: place(index),
                parked: false,
                scale: String::new(),
                also: String::new(),
                fraction: String::new(),
            })
            .collect(),
        moves: vec![],
        ..sample::knife_rail()
    }
}

/// Boxes of all texts, by the widest glyph: left, right, and the line they stand on.
fn text_boxes(drawing: &str) -> Vec<(i64, i64, i64, String)> {
    let attribute = |line: &str, name: &str| -> i64 {
        let (_, rest) = line.split_once(&format!(" {name}=\"")).unwrap();
        rest.split_once('"').unwrap().0.parse().unwrap()
    };
    drawing
        .lines()
        .filter(|line| line.starts_with("<text") && line.contains("anchor=\"middle\""))
        .map(|line| {
            let text = line.split_once('>').unwrap().1.trim_end_matches("</text>").to_owned();
            let half = i64::try_from(text.chars().count()).unwrap() * 22 / 2;
            let (x, y) = (attribute(line, "x"), attribute(line, "y"));
            (x - half, x + half, y, text)
        })
        .collect()
}

#[track_caller]
fn check_no_texts_touch(rail: &RailLayout) {
    check_no_texts_touch_in(rail, Language::English);
}

#[track_caller]
fn check_no_texts_touch_in(rail: &RailLayout, language: Language) {
    let boxes = text_boxes(&super::svg(rail, language).unwrap());
    assert!(boxes.len() > rail.holders.len());
    for (index, one) in boxes.iter().enumerate() {
        assert!(one.0 >= 0 && one.1 <= super::WIDTH, "{one:?} leaves the sheet");
        for two in &boxes[index + 1..] {
            let apart = one.1 <= two.0 || two.1 <= one.0 || (one.2 - two.2).abs() >= 34;
            assert!(apart, "{one:?} touches {two:?}");
        }
    }
}

#[test]
fn labels_of_eleven_knives_do_not_touch() {
    check_no_texts_touch(&comb(11, 38, "36"));
    check_no_texts_touch(&comb(2, 38, "36"));
    check_no_texts_touch(&comb(31, 19, "18"));
    check_no_texts_touch(&comb(20, 30, "5"));
    check_no_texts_touch(&sample::knife_rail());
    check_no_texts_touch(&sample::guide_rail());
    check_no_texts_touch(&sample::perforating_rail());
}

#[test]
fn narrow_holders_carry_their_number_in_the_label() {
    let drawing = svg(&comb(3, 56, "5")).unwrap();
    assert!(drawing.contains(">1: \u{2212}56<"), "{drawing}");
    let drawing = svg(&comb(3, 56, "36")).unwrap();
    assert!(drawing.contains(">\u{2212}56<") && !drawing.contains("1: "), "{drawing}");
}

#[test]
fn what_does_not_move_has_no_arrow() {
    let drawing = svg(&sample::knife_rail()).unwrap();
    assert_eq!(drawing.matches("class=\"move\"").count(), 7);
    assert_eq!(drawing.matches("class=\"same\"").count(), 2);
    assert_eq!(drawing.matches("class=\"ghost\"").count(), 9);
    assert_eq!(drawing.matches("class=\"knife\"").count(), 7, "spares cut nothing");
    assert_eq!(drawing.matches("-parked)\"").count(), 2);
    assert_eq!(drawing.matches("-trim)\"").count(), 2);
}

#[test]
fn what_comes_off_and_on_the_rail_has_its_own_shape() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    assert_eq!(drawing.matches("class=\"cross\"").count(), 4, "two strokes for each of two");
    assert_eq!(drawing.matches("class=\"ghost\"").count(), 6, "four that stay on, two that go");
    assert_eq!(drawing.matches("class=\"move\"").count(), 4, "three slide, one is fitted");
    assert!(drawing.contains(">+11 off<") && drawing.contains(">+<"), "{drawing}");
    assert!(drawing.contains("2 taken off the rail; 1 fitted on the rail"), "{drawing}");
}

#[test]
fn fixed_things_are_hatched_and_named_where_there_is_room() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    assert_eq!(drawing.matches("-fixed)\"").count(), 2);
    assert!(drawing.contains(">Drive<") && drawing.contains(">B<"), "{drawing}");
    let description = "fixed on the rail: Drive, Bracket of the print mark sensor.";
    assert!(drawing.contains(description), "{drawing}");
    assert!(!svg(&sample::knife_rail()).unwrap().contains("fixed"));
}

#[test]
fn letters_go_on_after_z() {
    assert_eq!([0, 25, 26].map(super::letter), ["A", "Z", "27"]);
}

#[test]
fn lanes_carry_the_numbers_of_the_machine_and_a_gap_is_waste() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    let lanes: Vec<&str> = drawing.lines().skip_while(|l| !l.contains("class=\"web\"")).collect();
    let numbers = |number: &str| lanes.iter().any(|line| line.ends_with(number));
    assert!([">2</text>", ">4</text>", ">5</text>"].into_iter().all(numbers));
    assert!(![">1</text>", ">3</text>"].into_iter().any(numbers));
    assert_eq!(drawing.matches("-trim)\"").count(), 3, "both edges and the waste strip");
}

/// Left edge of the first and right edge of the last holder, in drawing units.
fn bodies(drawing: &str) -> (i64, i64) {
    let holders = drawing.lines().filter(|line| line.starts_with("<rect class=\"holder\""));
    let edges: Vec<(i64, i64)> = holders
        .map(|line| {
            let number = |name: &str| -> i64 {
                line.split_once(name).unwrap().1.split('"').next().unwrap().parse().unwrap()
            };
            (number(" x=\""), number(" x=\"") + number(" width=\""))
        })
        .collect();
    (edges[0].0, edges[edges.len() - 1].1)
}

#[test]
fn the_body_of_a_holder_stands_beside_its_tip() {
    let with_tip = |offset: &str| {
        let rail = RailLayout { tip_offset: offset.into(), ..sample::knife_rail() };
        svg(&rail).unwrap()
    };
    let (middle, right) = (with_tip(""), with_tip("15"));
    assert_eq!(middle, with_tip("0"));
    assert_eq!((bodies(&middle), bodies(&right)), ((205, 1755), (163, 1713)));
    let knife = |drawing: &str| {
        drawing.lines().find(|line| line.contains("class=\"knife\"")).unwrap().to_owned()
    };
    assert_eq!(knife(&middle), knife(&right), "the tip counts");
}

#[test]
fn the_body_of_a_guide_lies_outside_of_the_opening() {
    let drawing = svg(&sample::guide_rail()).unwrap();
    let opening: Vec<i64> = drawing
        .lines()
        .filter_map(|line| line.strip_prefix("<path class=\"knife\" d=\"M"))
        .map(|line| line.split(' ').next().unwrap().parse().unwrap())
        .collect();
    assert_eq!((opening[0], opening[1]), (349, 1611));
    assert_eq!(bodies(&drawing), (349 - 96, 1611 + 96));
}

#[test]
fn a_drawing_speaks_its_language_in_words_and_numbers() {
    let drawing = super::svg(&sample::knife_rail(), Language::Spanish).unwrap();
    for words in [
        ">\u{2212}168,0<",
        "+262,0 aparcado<",
        ">antes<",
        ">referencia central<",
        "9 portacuchillas; 2 de ellos aparcados; 6 pistas; 7 movimientos.",
        "Lugares en uso m\u{e1}s alejados: \u{2212}168,0 y +168,0.",
    ] {
        assert!(drawing.contains(words), "{words}: {drawing}");
    }
    for english in ["parked<", ">old<", ">new<", ">centre datum<", ">lanes<"] {
        assert!(!drawing.contains(english), "{english}");
    }
    for language in Language::ALL {
        for rail in [sample::knife_rail(), sample::guide_rail(), sample::perforating_rail()] {
            check_no_texts_touch_in(&rail, language);
        }
    }
}

#[test]
fn a_drawing_says_in_words_what_it_shows() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    for words in [
        "5 knife holders; 3 lanes; 6 moves; 2 taken off the rail; 1 fitted on the rail;",
        "To be moved: 1 (\u{2212}4 1/2), 3 (0), 4 (+2 1/4), 5 (+4 1/2).",
        "Outermost places in use: \u{2212}4.5 and +4.5. Edges of the web: \u{2212}5 and +5.",
        "Positions in inches from the centre datum, left is negative.",
    ] {
        assert!(drawing.contains(words), "{words}: {drawing}");
    }
}

#[test]
fn a_datum_at_an_end_of_the_rail_is_named_beside_left_and_right() {
    let mut rail = sample::guide_rail();
    rail.left_end = "-5".into();
    rail.holders.remove(0);
    rail.moves.remove(0);
    for drawing in [svg(&rail).unwrap(), super::svg(&rail, Language::German).unwrap()] {
        let place = |words: &str| -> i64 {
            let line = drawing.lines().find(|line| line.contains(words)).unwrap();
            line.split_once(" x=\"").unwrap().1.split('"').next().unwrap().parse().unwrap()
        };
        let datum = if drawing.contains("datum<") { "datum<" } else { "Mittenbezug<" };
        let arrow =
            if drawing.contains("\u{2190} left") { "\u{2190} left" } else { "\u{2190} links" };
        let half = 12 * 22 / 2;
        assert!(place(datum) - half > place(arrow) + 6 * 22);
    }
}

#[test]
fn targets_are_drawn_as_they_are_set() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    for label in [">\u{2212}4 1/2<", ">0<", ">+2 1/4<"] {
        assert!(drawing.contains(label), "{label}");
    }
}

#[test]
fn unknown_old_places_leave_out_the_row() {
    let drawing = svg(&sample::guide_rail()).unwrap();
    assert!(!drawing.contains("ghost") && !drawing.contains(">old<"));
    assert!(drawing.contains(">365\u{a0}mm<"), "the opening is dimensioned");
}

#[test]
fn numbers_that_cannot_be_read_give_no_drawing() {
    for change in [
        (|rail: &mut RailLayout| rail.left_end = "left".into()) as fn(&mut RailLayout),
        |rail| rail.right_end = "-300".into(),
        |rail| rail.holder_width = String::new(),
        |rail| rail.holders[0].new = "1e9".into(),
        |rail| rail.holders[0].old = Some("?".into()),
        |rail| rail.tip_offset = "x".into(),
        |rail| rail.obstacles[0].edges.right = "x".into(),
        |rail| rail.moves[0].from = Some("x".into()),
        |rail| rail.lanes[0].edges.left = "x".into(),
        |rail| rail.web = Some(Edges { left: "x".into(), right: "1".into() }),
    ] {
        let mut rail = sample::perforating_rail();
        change(&mut rail);
        assert_eq!(svg(&rail), None);
    }
}

#[test]
fn names_cannot_leave_their_place() {
    let rail = RailLayout {
        obstacles: vec![Obstacle {
            name: "<script>\"".into(),
            edges: Edges { left: "-200".into(), right: "200".into() },
        }],
        id: "a\" onload=\"x".into(),
        name: "</title><script>".into(),
        unit: "<b>".into(),
        kind: RailKind::Guides,
        ..sample::guide_rail()
    };
    let drawing = svg(&rail).unwrap();
    assert!(!drawing.contains("<script") && !drawing.contains("<b>"), "{drawing}");
    assert!(drawing.contains("id=\"rail-a--onload--x-title\""), "{drawing}");
    assert!(drawing.contains(">&lt;script&gt;&quot;</text>"), "{drawing}");
}

#[test]
fn a_drawing_has_neither_style_attributes_nor_colours() {
    let drawing = svg(&sample::perforating_rail()).unwrap();
    for word in ["style=", "<style", "<script", "#0", "#f", "rgb(", "href"] {
        assert!(!drawing.contains(word), "{word}");
    }
}

/// The whole drawing as text. After a wanted change, look at the drawing that the sample site
/// shows, then copy `target/sample-site/knife_rail.svg` over the expected one.
#[test]
fn the_knife_rail_is_drawn_as_it_was() {
    let drawing = svg(&sample::knife_rail()).unwrap();
    let expected = include_str!("knife_rail.svg");
    let first = drawing.lines().zip(expected.lines()).find(|(drawn, wanted)| drawn != wanted);
    assert_eq!(first, None, "first line that differs: drawn, expected");
    assert_eq!(drawing.len(), expected.len());
}
