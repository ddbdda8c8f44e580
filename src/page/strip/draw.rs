//! A segment of a strip as SVG at full size.
//!
//! One user unit is a thousandth of a millimetre, and `x` counts from the datum: the number in a
//! path is the position itself. What is done with a holder is told by a shape and a word, never by
//! colour. Must never draw a mark anywhere else than at its place, or a text across a mark's line at
//! the upper edge, where the tip is laid on.

use std::fmt::Write as _;

use crate::language::Language;
use crate::page::drawing::{Levels, letter, signed};
use crate::page::escaped;

use super::rail::{Mark, Ruled, Way};
use super::split::{BEYOND, Segment};

/// Paper kept free of the cut on each side: half of its line would be lost at the edge of a drawing.
const PAD: i64 = 1_000;
/// Room above the strip for the scissors.
const GAP: i64 = 3_400;
/// Lower end of the line of a mark.
const MARK: i64 = 8_000;
/// Middle of the shapes.
const SHAPE: i64 = 10_300;
/// Half of a shape's height and width.
const SIZE: i64 = 1_900;
/// Lower edge of the shapes.
const BELOW_SHAPES: i64 = 13_000;
/// Height of the band of lanes.
const LANES: i64 = 5_000;
/// Height of the band of the web's edges.
const WEB: i64 = 4_600;
/// Height of a label.
const LABEL: i64 = 12_200;
/// Room for a register mark and its letter at the end of a segment.
const REGISTER: i64 = 18_000;
/// Height of a line of small text.
const LINE: i64 = 3_900;
/// Numbers of holders: 12 pt.
const LARGE: i64 = 4_300;
/// Positions: 10 pt.
const MIDDLE: i64 = 3_550;
/// All other text: 9 pt and a little more.
const SMALL: i64 = 3_250;
/// Sizes of the lines of a label.
const SIZES: [i64; 3] = [MIDDLE, SMALL, SMALL];

/// The segments of one rail with everything that they share.
pub(super) struct Plan<'a> {
    pub ruled: &'a Ruled<'a>,
    pub segments: &'a [Segment],
    pub language: Language,
    /// What a cut-off segment is known by: job, rail, digest.
    pub identity: &'a str,
    /// The datum, in the plant's words.
    pub datum: &'a str,
    /// Name of the rail in the page.
    pub anchor: &'a str,
}

/// A text beneath its mark.
struct Label {
    at: i64,
    x: i64,
    level: i64,
    head: String,
    lines: Vec<String>,
}

/// Upper edges of the rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rows {
    lanes: i64,
    web: i64,
    labels: i64,
    foot: i64,
    /// Height of the strip.
    pub height: i64,
}

impl Rows {
    /// Height of the drawing in thousandths of a millimetre.
    pub fn drawn(self) -> i64 {
        self.height + GAP + PAD
    }
}

impl Plan<'_> {
    /// Rows that hold what every segment has to say, so that all are of one height.
    pub fn rows(&self) -> Rows {
        let lanes = BELOW_SHAPES;
        let web = if self.ruled.lanes.is_empty() { lanes } else { lanes + LANES };
        let labels = if self.ruled.web.is_none() { web } else { web + WEB };
        let levels = self.segments.iter().flat_map(|segment| self.labels(segment));
        let levels = levels.map(|label| label.level + 1).max().unwrap_or(1);
        let foot = labels + levels * LABEL + 600;
        let lines = self.segments.iter().map(|segment| self.foot(segment).len()).max();
        let lines = i64::try_from(lines.unwrap_or(1)).unwrap_or(1);
        Rows { lanes, web, labels, foot, height: foot + lines * LINE + 700 }
    }

    /// One segment.
    pub fn svg(&self, segment: &Segment, rows: Rows) -> String {
        let mut out = String::new();
        self.open(&mut out, segment, rows);
        self.cut(&mut out, segment, rows);
        self.blocks(&mut out, segment);
        self.leaders(&mut out, segment, rows);
        self.datum(&mut out, segment, rows);
        self.lanes(&mut out, segment, rows);
        self.web(&mut out, segment, rows);
        self.ends(&mut out, segment, rows);
        self.write_foot(&mut out, segment, rows);
        self.write_labels(&mut out, segment, rows);
        for mark in self.marks(segment) {
            shape(&mut out, mark);
        }
        for (index, at) in &segment.joins {
            register(&mut out, *at, MARK - 3_300, &letter(*index));
            register(&mut out, *at, rows.height - 3_600, &letter(*index));
        }
        out.push_str("</svg>\n");
        out
    }

    fn marks(&self, segment: &Segment) -> impl Iterator<Item = &Mark> {
        self.ruled.marks.iter().filter(|mark| segment.holds(mark.at))
    }

    fn open(&self, out: &mut String, segment: &Segment, rows: Rows) {
        let id = format!("{}-{}", self.anchor, segment.index + 1);
        let (width, height) = (segment.length() + 2 * PAD, rows.drawn());
        let _ = write!(
            out,
            "<svg class=\"strip-segment\" width=\"{}\" height=\"{}\" \
             viewBox=\"{} {} {width} {height}\" role=\"img\" aria-labelledby=\"{id}-title {id}-desc\">\n\
             <title id=\"{id}-title\">{}</title>\n<desc id=\"{id}-desc\">{}</desc>\n",
            millimetres(width),
            millimetres(height),
            segment.left - PAD,
            -GAP,
            escaped(&format!("{}: {}", self.identity, self.which(segment))),
            escaped(&self.described(segment)),
        );
    }

    /// `segment 2 of 3`.
    fn which(&self, segment: &Segment) -> String {
        let (number, of) = (segment.index + 1, self.segments.len());
        self.language.text("strip-segment", &[("number", number.into()), ("of", of.into())])
    }

    /// Marks and edges of a segment in words.
    fn described(&self, segment: &Segment) -> String {
        let marks = self.marks(segment).map(|mark| {
            let number = if mark.number.is_empty() { "\u{2013}" } else { &mark.number };
            format!("{number}: {}, {}", self.shown(&mark.position), self.word(mark.way))
        });
        let edges = self.edges().into_iter().filter(|(at, ..)| segment.holds(*at));
        let edges = edges.map(|(_, name, position)| format!("{name}: {position}"));
        let datum = segment.holds(0).then(|| format!("{}: 0", self.language.word("strip-datum")));
        let all: Vec<String> = datum.into_iter().chain(marks).chain(edges).collect();
        all.join("; ") + "."
    }

    /// Edges of web and rail: place, name, position.
    fn edges(&self) -> Vec<(i64, &'static str, String)> {
        let rail = self.ruled.rail;
        let mut edges = Vec::new();
        if let (Some((left, right)), Some(web)) = (self.ruled.web, &rail.web) {
            let name = self.language.word("strip-web-edge");
            edges.extend([(left, name, &web.left), (right, name, &web.right)]);
        }
        let (name, (left, right)) = (self.language.word("strip-rail-end"), self.ruled.ends);
        edges.extend([(left, name, &rail.left_end), (right, name, &rail.right_end)]);
        edges.into_iter().map(|(at, name, text)| (at, name, self.shown(text))).collect()
    }

    fn shown(&self, position: &str) -> String {
        format!("{} {}", signed(position, self.language), self.ruled.rail.unit)
    }

    fn word(&self, way: Way) -> &'static str {
        self.language.word(match way {
            Way::Stays => "strip-stays",
            Way::Moves => "strip-moves",
            Way::Parked => "strip-parked",
            Way::ParkedByMiddle => "strip-parked-middle",
            Way::Fitted => "strip-fitted",
            Way::Off => "strip-off",
        })
    }

    /// The cut, dashed, with scissors.
    fn cut(&self, out: &mut String, segment: &Segment, rows: Rows) {
        let Segment { left, right, .. } = *segment;
        path(out, "cut", &format!("M{left} 0H{right}V{}H{left}z", rows.height));
        let (x, y) = (left + 1_000, -1_700);
        let blades = format!(
            "M{x} {}L{} {}M{x} {}L{} {}",
            y + 700,
            x + 5_000,
            y - 900,
            y - 700,
            x + 5_000,
            y + 900
        );
        path(out, "leader", &blades);
        for y in [y - 900, y + 900] {
            circle(out, (x - 300, y), 800);
        }
        text(out, SMALL, "start", (x + 6_500, y + 1_100), self.language.word("strip-cut"));
    }

    /// Fixed things on the rail, hatched; their names stand in labels.
    fn blocks(&self, out: &mut String, segment: &Segment) {
        for (_, (left, right)) in &self.ruled.blocks {
            let (left, right) = (segment.within(*left), segment.within(*right));
            rect(out, "hatched", (left, right), (0, SHAPE + SIZE));
        }
    }

    fn lanes(&self, out: &mut String, segment: &Segment, rows: Rows) {
        for (number, (left, right)) in &self.ruled.lanes {
            let (left, right) = (segment.within(*left), segment.within(*right));
            rect(out, "lane", (left, right), (rows.lanes, LANES));
            let words = self.language.text("strip-lane", &[("number", number.to_string().into())]);
            let number = number.to_string();
            let fitting =
                [words, number].into_iter().find(|text| width(text, SMALL) < right - left);
            if let Some(words) = fitting {
                let y = rows.lanes + LANES / 2 + 1_150;
                backed(out, SMALL, ((left + right) / 2, y), &words);
            }
        }
    }

    /// A heavy line as wide as the web, its edges marked and named.
    fn web(&self, out: &mut String, segment: &Segment, rows: Rows) {
        let Some((left, right)) = self.ruled.web else { return };
        let y = rows.web + WEB / 2;
        let (from, to) = (segment.within(left), segment.within(right));
        path(out, "web", &format!("M{from} {y}H{to}"));
        let name = self.language.word("strip-web-edge");
        for ((at, _, position), anchor) in self.edges().iter().zip(["start", "end"]) {
            if segment.holds(*at) {
                path(out, "edge", &format!("M{at} {}V{}", rows.web, rows.web + WEB));
                let words = format!("{name} {position}");
                let long = width(&words, SMALL);
                let first = if anchor == "start" { at + 1_200 } else { at - 1_200 - long };
                let first = first.clamp(segment.left + 500, segment.right - 500 - long);
                rect(out, "patch", (first, first + long), (rows.web + 300, WEB - 600));
                text(out, SMALL, "middle", (first + long / 2, y + 1_150), &words);
            }
        }
    }

    /// Ends of the rail: the strip goes on a little beyond, so that a cut is never taken for one.
    ///
    /// They are named upright on that paper, where no mark can stand.
    fn ends(&self, out: &mut String, segment: &Segment, rows: Rows) {
        let name = self.language.word("strip-rail-end");
        let (left, right) = self.ruled.ends;
        let texts = self.edges().into_iter().rev().map(|(.., shown)| shown);
        for ((at, base), shown) in
            [(right, right + 4_500), (left, left - 1_600)].into_iter().zip(texts)
        {
            if segment.holds(at) {
                path(out, "end", &format!("M{at} 0V{}", rows.labels));
                let words = format!("{name} {shown}");
                let y = width(&words, SMALL) / 2 + 800;
                let _ = writeln!(
                    out,
                    "<text transform=\"translate({base} {y}) rotate(-90)\" font-size=\"{SMALL}\" \
                     text-anchor=\"middle\">{}</text>",
                    escaped(&words),
                );
            }
        }
    }

    /// The centre datum: a chain line over the whole height, under a hollow triangle at the edge.
    fn datum(&self, out: &mut String, segment: &Segment, rows: Rows) {
        if segment.holds(0) {
            path(out, "datum", &format!("M0 0V{}", rows.height));
            path(out, "leader", "M-3000 0H3000L0 5200z");
        }
    }

    /// What a segment says at its foot: what it is, then the datum.
    fn foot(&self, segment: &Segment) -> Vec<String> {
        let sides = ["strip-left", "strip-right"].map(|key| width(&self.side(key), SMALL));
        let long = segment.length() - 2 * REGISTER;
        let between = long - 2 * sides[0].max(sides[1]);
        let mut lines = wrapped(&format!("{}, {}", self.identity, self.which(segment)), between);
        if segment.holds(0) {
            let words = [("datum", self.datum.into())];
            lines.extend(wrapped(&self.language.text("strip-datum-of", &words), long));
        }
        lines
    }

    fn side(&self, key: &'static str) -> String {
        match key {
            "strip-left" => format!("\u{2190} {}", self.language.word("strip-left")),
            _ => format!("{} \u{2192}", self.language.word("strip-right")),
        }
    }

    fn write_foot(&self, out: &mut String, segment: &Segment, rows: Rows) {
        let y = |index: i64| rows.foot + index * LINE + 2_900;
        // Left and right stand at both ends of each segment, the register marks further out.
        let joined = |end: i64| segment.joins.iter().any(|(_, at)| (at - end).abs() < 15_000);
        let room = |end: i64| if joined(end) { REGISTER } else { BEYOND + 1_500 };
        let left = segment.left + room(segment.left);
        text(out, SMALL, "start", (left, y(0)), &self.side("strip-left"));
        let right = segment.right - room(segment.right);
        text(out, SMALL, "end", (right, y(0)), &self.side("strip-right"));
        let middle = (segment.left + segment.right) / 2;
        for (index, line) in (0..).zip(self.foot(segment)) {
            backed(out, SMALL, (middle, y(index)), &line);
        }
    }

    /// Labels of the marks and of what stands fixed on the rail.
    fn labels(&self, segment: &Segment) -> Vec<Label> {
        let marks = self.marks(segment).map(|mark| {
            let lines = vec![self.shown(&mark.position), self.word(mark.way).to_owned()];
            (mark.at, mark.number.clone(), lines)
        });
        let blocks = self.ruled.blocks.iter().filter_map(|(name, (left, right))| {
            let (left, right) = (segment.within(*left), segment.within(*right));
            (left < right).then(|| ((left + right) / 2, String::new(), in_three_lines(name)))
        });
        let mut wanted: Vec<_> = marks.chain(blocks).collect();
        wanted.sort();
        let mut levels = Levels::default();
        wanted
            .into_iter()
            .map(|(at, head, lines)| {
                let own = lines.iter().zip(SIZES).map(|(line, size)| width(line, size));
                let half = own.chain([width(&head, LARGE)]).max().unwrap_or(0) / 2 + 700;
                let x = at.min(segment.right - half).max(segment.left + half);
                Label { at, x, level: levels.place(x - half, x + half), head, lines }
            })
            .collect()
    }

    fn leaders(&self, out: &mut String, segment: &Segment, rows: Rows) {
        for label in self.labels(segment) {
            let end = rows.labels + label.level * LABEL + 400;
            path(out, "leader", &format!("M{} {}V{end}", label.at, SHAPE + SIZE));
        }
    }

    fn write_labels(&self, out: &mut String, segment: &Segment, rows: Rows) {
        for label in self.labels(segment) {
            let mut y = rows.labels + label.level * LABEL;
            if !label.head.is_empty() {
                y += LARGE;
                backed(out, LARGE, (label.x, y), &label.head);
            }
            for (line, size) in label.lines.iter().zip(SIZES) {
                y += LINE;
                backed(out, size, (label.x, y), line);
            }
        }
    }
}

/// The line of a mark, and beneath it the shape that says what is done.
fn shape(out: &mut String, mark: &Mark) {
    let (x, y) = (mark.at, SHAPE);
    let (left, right, top, low) = (x - SIZE, x + SIZE, y - SIZE, y + SIZE);
    let look = if mark.way == Way::Off { "mark off" } else { "mark" };
    path(out, look, &format!("M{x} 0V{MARK}"));
    match mark.way {
        Way::Moves => path(out, "filled", &format!("M{x} {top}L{right} {low}H{left}z")),
        Way::Stays => circle(out, (x, y), SIZE),
        Way::Parked | Way::ParkedByMiddle => {
            let square = format!("M{left} {top}H{right}V{low}H{left}z");
            let slants =
                format!("M{left} {y}L{x} {top}M{left} {low}L{right} {top}M{x} {low}L{right} {y}");
            path(out, "outline", &format!("{square}{slants}"));
        }
        Way::Fitted => path(out, "stroke", &format!("M{x} {top}V{low}M{left} {y}H{right}")),
        Way::Off => {
            path(out, "stroke", &format!("M{left} {top}L{right} {low}M{right} {top}L{left} {low}"))
        }
    }
}

/// A cross in a circle with its letter: laid on its twin, it joins two segments.
fn register(out: &mut String, x: i64, y: i64, name: &str) {
    const ARM: i64 = 2_600;
    circle(out, (x, y), 1_600);
    path(out, "leader", &format!("M{} {y}H{}", x - ARM, x + ARM));
    path(out, "leader", &format!("M{x} {}V{}", y - ARM, y + ARM));
    backed(out, LARGE, (x + 5_200, y + 1_500), name);
}

/// The bar that is measured before a strip is used: exactly 100 mm between its outer ticks.
pub(super) fn bar(label: &str) -> String {
    let mut out = format!(
        "<svg class=\"strip-bar\" width=\"106mm\" height=\"9mm\" viewBox=\"-3000 0 106000 9000\" \
         role=\"img\" aria-label=\"{}\">\n",
        escaped(label)
    );
    path(&mut out, "check", "M0 0V5000");
    path(&mut out, "check", "M100000 0V5000");
    path(&mut out, "web", "M0 2500H100000");
    for tick in 1..10 {
        path(&mut out, "leader", &format!("M{} 1500V3500", tick * 10_000));
    }
    for (x, words) in [(0, "0"), (50_000, "50"), (100_000, "100")] {
        text(&mut out, SMALL, "middle", (x, 8_400), words);
    }
    out.push_str("</svg>\n");
    out
}

/// A length for an attribute: `213.333mm`.
fn millimetres(micron: i64) -> String {
    format!("{}.{:03}mm", micron / 1_000, micron % 1_000)
}

/// How wide a text is drawn at most: digits and small letters of common faces stay below 0.58 of
/// their size on average.
fn width(text: &str, size: i64) -> i64 {
    i64::try_from(text.chars().count()).unwrap_or(0) * size * 29 / 50
}

/// A text in as few lines as fit into `long`, each about as long as the others.
fn wrapped(text: &str, long: i64) -> Vec<String> {
    const STEP: i64 = 2_000;
    let mut lines = lines_of(text, long);
    let mut shorter = long - STEP;
    while lines.len() > 1 && shorter > 0 {
        match lines_of(text, shorter) {
            even if even.len() == lines.len() => lines = even,
            _ => break,
        }
        shorter -= STEP;
    }
    lines
}

/// A text in lines that are no longer than `long`, as far as its words allow.
fn lines_of(text: &str, long: i64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width(line, SMALL) + width(word, SMALL) + SMALL <= long => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A name in at most three lines; what is too long for any strip is cut off.
fn in_three_lines(name: &str) -> Vec<String> {
    const MOST: usize = 90;
    let mut short: String = name.chars().take(MOST).collect();
    if short.len() < name.len() {
        short.push('\u{2026}');
    }
    let mut long = 24_000;
    loop {
        let lines = lines_of(&short, long);
        if lines.len() <= 3 {
            return lines;
        }
        long += 4_000;
    }
}

fn path(out: &mut String, class: &str, data: &str) {
    let _ = writeln!(out, "<path class=\"{class}\" d=\"{data}\"/>");
}

fn circle(out: &mut String, (x, y): (i64, i64), radius: i64) {
    let _ = writeln!(out, "<circle class=\"outline\" cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"/>");
}

/// The page defines the hatching once; a style sheet names nothing that would have to be fetched.
fn rect(out: &mut String, class: &str, (left, right): (i64, i64), (top, height): (i64, i64)) {
    let fill = if class == "hatched" { " fill=\"url(#strip-hatch)\"" } else { "" };
    if left < right {
        let _ = writeln!(
            out,
            "<rect class=\"{class}\"{fill} x=\"{left}\" y=\"{top}\" width=\"{}\" height=\"{height}\"/>",
            right - left,
        );
    }
}

/// A text on a patch of paper, so that no line runs through it.
fn backed(out: &mut String, size: i64, (x, y): (i64, i64), words: &str) {
    if words.is_empty() {
        return;
    }
    let half = width(words, size) / 2;
    rect(out, "patch", (x - half, x + half), (y - size * 4 / 5, size));
    text(out, size, "middle", (x, y), words);
}

fn text(out: &mut String, size: i64, anchor: &str, (x, y): (i64, i64), words: &str) {
    let weight = if size == LARGE { " font-weight=\"700\"" } else { "" };
    let _ = writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\"{weight}>{}</text>",
        escaped(words),
    );
}
