use super::{Chart, Lines, Point, chart};
use crate::language::Language;

/// The flow rates of NIST/SEMATECH e-Handbook 6.3.2.2, with the limits published there; the upper
/// limit of the ranges is 3.267 of their mean.
const FLOW: [(&str, &str); 10] = [
    ("49.6", ""),
    ("47.6", "2.0"),
    ("49.9", "2.3"),
    ("51.3", "1.4"),
    ("47.8", "3.5"),
    ("51.2", "3.4"),
    ("52.6", "1.4"),
    ("52.4", "0.2"),
    ("53.6", "1.2"),
    ("52.1", "1.5"),
];

fn point((value, range): (&str, &str)) -> Point {
    let range = (!range.is_empty()).then(|| range.to_owned());
    Point { value: value.to_owned(), range, ..Point::default() }
}

fn lines(lower: &str, centre: &str, upper: &str) -> Option<Lines> {
    Some(Lines { upper: upper.into(), centre: centre.into(), lower: lower.into() })
}

fn flow() -> Chart {
    Chart {
        id: "flow".to_owned(),
        name: "Flow rate".to_owned(),
        unit: "L/min".to_owned(),
        first: 1,
        points: FLOW.map(point).to_vec(),
        lines: lines("45.8159", "50.81", "55.8041"),
        range_lines: lines("", "1.8778", "6.1347"),
    }
}

fn drawn(own: &Chart) -> String {
    chart(own, Language::English).unwrap()
}

/// Values of an attribute of all lines that begin so.
fn places(drawing: &str, begins: &str, name: &str) -> Vec<i64> {
    let of = |line: &str| {
        let (_, rest) = line.split_once(&format!(" {name}=\""))?;
        rest.split('"').next()?.parse().ok()
    };
    drawing.lines().filter(|line| line.starts_with(begins)).filter_map(of).collect()
}

#[test]
fn every_point_stands_between_the_published_limits() {
    let drawing = drawn(&flow());
    for name in ["UCL 55.8041<", "CL 50.81<", "LCL 45.8159<", "CL 1.8778<", "UCL 6.1347<"] {
        assert!(drawing.contains(name), "{name}: {drawing}");
    }
    assert_eq!(drawing.matches("<circle").count(), 10 + 9, "the first has no range");
    assert_eq!(drawing.matches("class=\"limit\"").count(), 3, "ranges have no lower limit");
    assert!(!drawing.contains("class=\"fired\""));
    let across = places(&drawing, "<circle", "cx");
    assert!(across[..10].is_sorted(), "{across:?}");
    // The greatest reading stands highest.
    let heights = places(&drawing, "<circle", "cy");
    assert_eq!(heights[..10].iter().min(), Some(&heights[8]));
}

#[test]
fn a_point_that_fired_has_its_own_shape_and_the_number_of_the_rule() {
    let mut own = flow();
    own.points[8].rules = vec!["N1".into(), "N5".into()];
    own.points[4].range_rules = vec!["N1".into()];
    let drawing = drawn(&own);
    assert_eq!(drawing.matches("class=\"fired\"").count(), 2);
    assert!(drawing.contains(">N1, N5</text>") && drawing.contains(">N1</text>"), "{drawing}");
    assert!(drawing.contains("Rules fired at points 5 (N1), 9 (N1, N5)."), "{drawing}");
}

#[test]
fn a_run_of_the_same_rule_is_named_once_and_names_do_not_touch() {
    let mut own = flow();
    own.points = (0..100).map(|_| point(("50", "0"))).collect();
    own.points[20..60].iter_mut().for_each(|point| point.rules = vec!["N2".into()]);
    for at in [70, 71, 72] {
        own.points[at].rules = vec![format!("N{at}")];
    }
    let drawing = drawn(&own);
    assert_eq!(drawing.matches("class=\"fired\"").count(), 43);
    assert_eq!(drawing.matches(">N2</text>").count(), 1);
    let names: Vec<(i64, i64)> = ["N70<", "N71<", "N72<"]
        .into_iter()
        .map(|name| {
            let line = drawing.lines().find(|line| line.contains(name)).unwrap();
            (places(line, "<text", "x")[0], places(line, "<text", "y")[0])
        })
        .collect();
    // The one to the left stands higher: the line to its point passes the other on its left.
    assert!(names.is_sorted(), "{names:?}");
    assert!(names.windows(2).all(|pair| pair[1].1 - pair[0].1 >= 44), "{names:?}");
    let panel = places(&drawing, "<rect class=\"web\"", "y")[0];
    assert!(names.iter().all(|(_, y)| *y < panel), "above the panel: {names:?}");
    assert!(drawing.contains("and 31 more."), "{drawing}");
}

#[test]
fn lines_that_meet_have_names_that_do_not() {
    let mut own = flow();
    own.points.iter_mut().for_each(|point| point.value = "50".to_owned());
    own.lines = lines("50", "50", "50");
    let drawing = drawn(&own);
    let named = |name: &str| {
        let line = drawing.lines().find(|line| line.contains(name)).unwrap();
        places(line, "<text", "y")[0]
    };
    let heights = ["UCL 50<", ">CL 50<", "LCL 50<"].map(named);
    assert!(heights[1] - heights[0] >= 44 && heights[2] - heights[1] >= 44, "{heights:?}");
}

#[test]
fn a_chart_says_in_words_what_it_shows() {
    let drawing = drawn(&flow());
    for words in [
        "<title id=\"flow-title\">Flow rate: readings in their order</title>",
        "10 points.",
        "Centre line 50.81\u{a0}L/min, limits 45.8159\u{a0}L/min and 55.8041\u{a0}L/min.",
        "No rule fired.",
    ] {
        assert!(drawing.contains(words), "{words}: {drawing}");
    }
    let german = chart(&flow(), Language::German).unwrap();
    assert!(german.contains("OEG 55,8041<") && !german.contains("55.8041"), "{german}");
    let few = Chart { lines: None, range_lines: None, ..flow() };
    assert!(drawn(&few).contains("Too few readings for limits."));
}

#[test]
fn numbers_that_cannot_be_read_and_no_points_give_no_drawing() {
    for change in [
        (|own: &mut Chart| own.points.clear()) as fn(&mut Chart),
        |own| own.points[3].value = "1e9".into(),
        |own| own.points[3].range = Some("x".into()),
        |own| own.lines = lines("a", "1", "2"),
    ] {
        let mut own = flow();
        change(&mut own);
        assert_eq!(chart(&own, Language::English), None);
    }
    let mut one = flow();
    one.points.truncate(1);
    assert_eq!(drawn(&one).matches("<circle").count(), 1, "one point has no range");
}

#[test]
fn names_cannot_leave_their_place() {
    let mut own = flow();
    own.name = "</title><script>".into();
    own.unit = "<b>\"".into();
    own.points[0].rules = vec!["<i>".into()];
    let drawing = drawn(&own);
    for markup in ["<script", "<b>", "<i>"] {
        assert!(!drawing.contains(markup), "{markup}");
    }
    for word in ["style=", "<style", "#0", "rgb(", "href"] {
        assert!(!drawing.contains(word), "{word}");
    }
}

/// The whole drawing as text; `SNAPSHOTS=overwrite` renews it.
#[test]
#[allow(clippy::disallowed_methods, reason = "the expected drawing is renewed here")]
fn the_flow_rates_are_drawn_as_they_were() {
    let mut own = flow();
    own.points[8].rules = vec!["N5".into()];
    let drawing = drawn(&own);
    if std::env::var_os("SNAPSHOTS").is_some_and(|value| value == "overwrite") {
        let file = concat!(env!("CARGO_MANIFEST_DIR"), "/src/page/drawing/chart/flow.svg");
        std::fs::write(file, &drawing).unwrap();
        return;
    }
    let expected = include_str!("flow.svg");
    let first = drawing.lines().zip(expected.lines()).find(|(drawn, wanted)| drawn != wanted);
    assert_eq!(first, None, "first line that differs: drawn, expected");
    assert_eq!(drawing.len(), expected.len());
}
