//! Readings in their order: each with centre line and limits, and beneath it how far it lies from the
//! one before.
//!
//! Knows nothing of rules and judges nothing: it draws the marks it is given. A point that a rule
//! fired on has a shape of its own and the number of the rule above it, so that nothing is told by
//! colour. All numbers of a drawing stand in a table beside it too.

mod axis;

use crate::language::Language;
use crate::page::{decimal, words};

use super::labels::{self, LINE, Levels, TEXT};
use super::{WIDTH, escape, line, put, rect, row_name, side};
use axis::Axis;

/// Where points begin: left of it stand the values of the scale.
const LEFT: i64 = 230;
/// Where points end: right of it stand the names and values of the lines.
const RIGHT: i64 = WIDTH - 330;
/// Height of the readings.
const READINGS: i64 = 380;
/// Height of the ranges.
const RANGES: i64 = 190;
/// Radius of a point.
const POINT: i64 = 8;
/// Half the height of the shape of a point that a rule fired on.
const FIRED: i64 = 19;
/// Between the frame of a panel and its outermost points.
const GROUND: i64 = 30;

/// A series as it is drawn; numbers are decimal text in its unit.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Chart {
    /// Identifier, the only one of its kind on the page.
    pub id: String,
    /// What is read.
    pub name: String,
    /// Its unit; empty for a count.
    pub unit: String,
    /// Number of the first point in the series.
    pub first: u64,
    /// The points, in the order in which they were read.
    pub points: Vec<Point>,
    /// Lines of the readings; none while there are too few for limits.
    pub lines: Option<Lines>,
    /// Lines of the ranges; they have no lower limit.
    pub range_lines: Option<Lines>,
}

/// A point of a series.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Point {
    /// The reading.
    pub value: String,
    /// How far it lies from the one before; none for the first.
    pub range: Option<String>,
    /// Rules that fired on the reading, in short.
    pub rules: Vec<String>,
    /// Rules that fired on the range, in short.
    pub range_rules: Vec<String>,
}

/// Centre line and limits.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lines {
    /// Upper limit.
    pub upper: String,
    /// Centre line.
    pub centre: String,
    /// Lower limit; empty when there is none.
    pub lower: String,
}

/// Draws a series as SVG text; none when it has no points or a number cannot be read.
pub fn chart(chart: &Chart, language: Language) -> Option<String> {
    let values: Option<Vec<i64>> = chart.points.iter().map(|p| decimal::read(&p.value)).collect();
    let ranges: Option<Vec<Option<i64>>> = chart.points.iter().map(range_of).collect();
    let marks = chart.points.iter().map(|point| point.rules.as_slice()).collect();
    let values = values?.into_iter().map(Some).collect();
    let top = LINE + 4;
    let frame = Frame { top, height: READINGS, from_zero: false };
    let readings = Panel::new(values, marks, chart.lines.as_ref(), &frame)?;
    let marks = chart.points.iter().map(|point| point.range_rules.as_slice()).collect();
    let frame = Frame { top: readings.bottom + 2 * LINE, height: RANGES, from_zero: true };
    let ranges = Panel::new(ranges?, marks, chart.range_lines.as_ref(), &frame);
    Some(drawn(chart, &readings, ranges.as_ref(), language))
}

/// The range of a point; an outer none when it cannot be read.
fn range_of(point: &Point) -> Option<Option<i64>> {
    point.range.as_deref().map_or(Some(None), |text| decimal::read(text).map(Some))
}

fn drawn(chart: &Chart, readings: &Panel, ranges: Option<&Panel>, language: Language) -> String {
    let last = ranges.map_or(readings.bottom, |panel| panel.bottom);
    let height = last + 12 + 2 * LINE;
    let (id, mut out) = (&chart.id, String::new());
    let title = language.text("charts-title", &[("name", (&chart.name).into())]);
    put(
        &mut out,
        format_args!(
            "<svg class=\"drawing chart\" xmlns=\"http://www.w3.org/2000/svg\" \
             viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" \
             aria-labelledby=\"{id}-title {id}-desc\" font-size=\"{TEXT}\">\n\
             <title id=\"{id}-title\">{}</title>\n<desc id=\"{id}-desc\">{}</desc>\n",
            escape(&title),
            escape(&described(chart, language)),
        ),
    );
    row_name(&mut out, LINE / 2, &with_unit(language.word("charts-readings"), &chart.unit));
    panel(&mut out, readings, language);
    if let Some(ranges) = ranges {
        let name = with_unit(language.word("charts-ranges"), &chart.unit);
        row_name(&mut out, ranges.names - LINE + 8, &name);
        panel(&mut out, ranges, language);
    }
    numbers(&mut out, chart, last);
    out.push_str("</svg>\n");
    out
}

fn with_unit(name: &str, unit: &str) -> String {
    if unit.is_empty() { name.to_owned() } else { format!("{name}, {unit}") }
}

/// One of the two rows of points with its scale and lines.
struct Panel<'a> {
    /// Where the names of the rules begin, which stand above the panel.
    names: i64,
    top: i64,
    bottom: i64,
    axis: Axis,
    /// A place for each point; none where there is no value.
    places: Vec<(i64, Option<i64>)>,
    marks: Vec<&'a [String]>,
    named: Vec<Named>,
    lines: Vec<(&'static str, &'static str, &'a str, i64)>,
}

/// Where a panel stands, and whether its scale begins at zero.
struct Frame {
    top: i64,
    height: i64,
    from_zero: bool,
}

impl<'a> Panel<'a> {
    /// None when it has no values or a line cannot be read.
    fn new(
        values: Vec<Option<i64>>,
        marks: Vec<&'a [String]>,
        lines: Option<&'a Lines>,
        &Frame { top, height, from_zero }: &Frame,
    ) -> Option<Panel<'a>> {
        values.iter().flatten().next()?;
        let lines = lines.map_or(Some(Vec::new()), read_lines)?;
        let all = values.iter().flatten().chain(lines.iter().map(|(.., value)| value));
        let zero = from_zero.then_some(0);
        let all: Vec<i64> = all.copied().chain(zero).collect();
        let ends = (*all.iter().min()?, *all.iter().max()?);
        let count = values.len();
        let named = named(&marks);
        let levels = named.iter().map(|one| one.level + 1).max().unwrap_or(0);
        let (names, top) = (top, top + levels * LINE);
        let bottom = top + height;
        let axis = Axis::new(ends, (bottom - GROUND, top + GROUND));
        let place = |(index, value): (i64, Option<i64>)| {
            (across(index, count), value.map(|value| axis.y(value)))
        };
        let places = (0..).zip(values).map(place).collect();
        Some(Panel { names, top, bottom, places, axis, marks, named, lines })
    }
}

type Read<'a> = Vec<(&'static str, &'static str, &'a str, i64)>;

/// Class, key of the name, text and value of each line, the uppermost first.
fn read_lines(lines: &Lines) -> Option<Read<'_>> {
    [
        ("limit", "charts-upper", &lines.upper),
        ("centre", "charts-centre", &lines.centre),
        ("limit", "charts-lower", &lines.lower),
    ]
    .into_iter()
    .filter(|(.., text)| !text.is_empty())
    .map(|(class, key, text)| Some((class, key, text.as_str(), decimal::read(text)?)))
    .collect()
}

/// Where a point stands from left to right.
fn across(index: i64, count: usize) -> i64 {
    let gaps = i64::try_from(count).unwrap_or(i64::MAX).saturating_sub(1).max(1);
    let room = RIGHT - LEFT - 2 * GROUND;
    match count {
        1 => i64::midpoint(LEFT, RIGHT),
        _ => LEFT + GROUND + index * room / gaps,
    }
}

fn panel(out: &mut String, panel: &Panel, language: Language) {
    rect(out, "web", (LEFT, panel.top), (RIGHT - LEFT, panel.bottom - panel.top));
    for (y, value) in panel.axis.ticks() {
        line(out, "tick", (LEFT - 14, y), (LEFT, y));
        side(out, "end", (LEFT - 24, y + TEXT / 3), &words::number(language, &value));
    }
    for ((class, key, text, value), at) in panel.lines.iter().zip(apart(panel)) {
        let y = panel.axis.y(*value);
        line(out, class, (LEFT, y), (RIGHT, y));
        line(out, "leader", (RIGHT, y), (RIGHT + 22, at));
        let name = format!("{} {}", language.word(key), words::number(language, text));
        side(out, "start", (RIGHT + 30, at + TEXT / 3), &name);
    }
    run(out, panel);
    points(out, panel);
}

/// The name of a rule, above the first of the points that fired alike one after the other.
struct Named {
    /// Place of the point among all.
    index: usize,
    x: i64,
    /// Line it stands in, 0 is the nearest to the panel.
    level: i64,
    text: String,
}

/// From right to left, each into the nearest line that is free: so no line from a name to its point
/// runs through another name.
fn named(marks: &[&[String]]) -> Vec<Named> {
    let mut levels = Levels::default();
    let is_first =
        |index: usize| index.checked_sub(1).and_then(|i| marks.get(i)) != marks.get(index);
    let rules = marks.iter().enumerate().rev().filter(|(_, rules)| !rules.is_empty());
    let named = rules.filter(|(index, _)| is_first(*index)).map(|(index, rules)| {
        let (text, at) = (rules.join(", "), i64::try_from(index).unwrap_or(0));
        let x = across(at, marks.len());
        Named { index, x, level: levels.place(-x - labels::width(&text), -x), text }
    });
    named.collect()
}

/// Where the names of the lines stand: beside their line, and never on each other.
fn apart(panel: &Panel) -> Vec<i64> {
    let mut from = panel.top - LINE;
    let mut places: Vec<i64> = Vec::new();
    for (.., value) in &panel.lines {
        from = panel.axis.y(*value).max(from + LINE);
        places.push(from);
    }
    // What was pushed below the panel moves up again, the lowest first.
    let mut to = panel.bottom + LINE;
    for place in places.iter_mut().rev() {
        to = (*place).min(to - LINE);
        *place = to;
    }
    places
}

/// The line through the points.
fn run(out: &mut String, panel: &Panel) {
    let points = panel.places.iter().filter_map(|(x, y)| Some(format!("{x} {}", (*y)?)));
    let points: Vec<String> = points.collect();
    if points.len() > 1 {
        put(out, format_args!("<path class=\"run\" d=\"M{}\"/>\n", points.join(" ")));
    }
}

/// Each point, and above the panel the names of the rules that fired.
fn points(out: &mut String, panel: &Panel) {
    for named in &panel.named {
        let Some((x, Some(y))) = panel.places.get(named.index) else { continue };
        let from = panel.top - named.level * LINE;
        line(out, "leader", (*x, from - LINE + 8), (*x, y - FIRED));
        side(out, "start", (named.x + 8, from - 12), &named.text);
    }
    for ((x, y), rules) in panel.places.iter().zip(&panel.marks) {
        match y {
            Some(y) if rules.is_empty() => {
                put(out, format_args!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{POINT}\"/>\n"));
            }
            Some(y) => fired(out, *x, *y),
            None => {}
        }
    }
}

/// A diamond around the point: the shape of a point that a rule fired on.
fn fired(out: &mut String, x: i64, y: i64) {
    put(
        out,
        format_args!(
            "<path class=\"fired\" d=\"M{} {y} {x} {} {} {y} {x} {}z\"/>\n\
             <circle cx=\"{x}\" cy=\"{y}\" r=\"{}\"/>\n",
            x - FIRED,
            y - FIRED,
            x + FIRED,
            y + FIRED,
            POINT / 2,
        ),
    );
}

/// Numbers of the points beneath the panels: round ones, as close as they have room.
fn numbers(out: &mut String, chart: &Chart, bottom: i64) {
    let count = chart.points.len();
    let last = chart.first.saturating_add(u64::try_from(count).unwrap_or(0));
    let wide = |every: &u64| {
        let gap = across(i64::try_from(*every).unwrap_or(1), count) - across(0, count);
        count == 1 || gap >= labels::width(&last.to_string())
    };
    let every = [1, 5, 10, 20, 50, 100, 200].into_iter().find(wide).unwrap_or(500);
    for (number, index) in (chart.first..last).zip(0..) {
        if number % every == 0 {
            let x = across(index, count);
            line(out, "tick", (x, bottom), (x, bottom + 14));
            side(out, "middle", (x, bottom + 14 + LINE - 8), &number.to_string());
        }
    }
}

/// What the drawing shows, in words: how many points, the lines, and each point that fired.
fn described(chart: &Chart, language: Language) -> String {
    let mut sentences =
        vec![language.text("charts-has-points", &[("count", chart.points.len().into())])];
    match &chart.lines {
        Some(lines) => sentences.push(lined(chart, lines, "charts-has-lines", language)),
        None => sentences.push(language.word("charts-has-no-lines").to_owned()),
    }
    if let Some(lines) = &chart.range_lines {
        sentences.push(lined(chart, lines, "charts-has-range-lines", language));
    }
    sentences.push(fired_words(chart, language));
    sentences.join(" ")
}

fn lined(chart: &Chart, lines: &Lines, key: &str, language: Language) -> String {
    let number = |text: &str| words::quantity(language, text, &chart.unit);
    let parts = [
        ("centre", number(&lines.centre).into()),
        ("upper", number(&lines.upper).into()),
        ("lower", number(&lines.lower).into()),
    ];
    language.text(key, &parts)
}

/// Each point that a rule fired on, with the rules; of very many the first.
fn fired_words(chart: &Chart, language: Language) -> String {
    const MOST: usize = 12;
    let rows = (chart.first..).zip(&chart.points);
    let told: Vec<String> = rows
        .filter(|(_, point)| !point.rules.is_empty() || !point.range_rules.is_empty())
        .map(|(number, point)| {
            let rules: Vec<&str> =
                point.rules.iter().chain(&point.range_rules).map(String::as_str).collect();
            format!("{number} ({})", rules.join(", "))
        })
        .collect();
    let (shown, left) = told.split_at(told.len().min(MOST));
    match (shown.is_empty(), left.len()) {
        (true, _) => language.word("charts-none-fired").to_owned(),
        (false, 0) => language.text("charts-fired-at", &[("points", shown.join(", ").into())]),
        (false, more) => {
            let parts = [("points", shown.join(", ").into()), ("count", more.into())];
            language.text("charts-fired-at-more", &parts)
        }
    }
}

#[cfg(test)]
mod tests;
