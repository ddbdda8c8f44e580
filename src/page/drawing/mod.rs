//! A rail drawn to scale: where each holder stood, where it shall stand, and the web beneath.
//!
//! One user unit is a tenth of a millimetre on the narrowest printed page (A4 less its margins), so
//! sizes in here are sizes on paper. Lines, dashes and patterns carry the meaning; colour is left
//! to the style sheet and carries none. No style attribute and no script, so that a strict content
//! policy holds. All numbers of a drawing stand in a table beside it too.

mod alone;
pub mod bars;
mod chart;
mod described;
mod fixed;
mod labels;
mod scale;

use std::fmt::Write;

use crate::language::Language;
use crate::packet::model::{Holder, Lane, RailKind, RailLayout};

use super::decimal;
pub use alone::file;
pub use chart::{Chart, Lines, Point, chart};
pub(crate) use fixed::letter;
use fixed::{Block, Removed};
pub(crate) use labels::Levels;
use labels::{LINE, Label, TEXT};
use scale::Scale;

/// Width of the drawing: A4 portrait, 210 mm, less 12 mm of margin on each side.
const WIDTH: i64 = 1860;
/// Height of a holder at its new place.
const HOLDER: i64 = 84;
/// Height of a holder's ghost at its old place.
const GHOST: i64 = 60;
/// Height of the band between ghost and holder, where the arrows run.
const ARROWS: i64 = 130;
/// Height of the web.
const WEB: i64 = 90;
/// Least drawn width of a holder that has room for its number.
const ROOM_FOR_NUMBER: i64 = 44;

/// Draws a rail as SVG text; none when its numbers cannot be read or it has no length.
///
/// From top to bottom: old positions and ghosts, arrows, holders and fixed things on the rail, the
/// web with its lanes (or the opening between two guides), new positions, scale with the datum.
pub fn svg(rail: &RailLayout, language: Language) -> Option<String> {
    let sheet = Sheet::read(rail, language)?;
    let rows = Rows::of(&sheet);
    let mut out = String::new();
    let viewed = format!("viewBox=\"0 0 {WIDTH} {}\"", rows.height);
    open(&mut out, &sheet, &viewed);
    draw(&mut out, &sheet, &rows);
    Some(out)
}

/// Everything after the opening tag of a drawing and its style.
fn draw(out: &mut String, sheet: &Sheet, rows: &Rows) {
    head(out, sheet.rail);
    datum(out, sheet, rows);
    before(out, sheet, rows);
    arrows(out, sheet, rows);
    after(out, sheet, rows);
    match sheet.rail.kind {
        RailKind::Knives => web(out, sheet, rows),
        RailKind::Guides => opening(out, sheet, rows),
    }
    targets(out, sheet, rows);
    axis(out, sheet, rows);
    out.push_str("</svg>\n");
}

/// The rail with its numbers read and its labels placed.
struct Sheet<'a> {
    rail: &'a RailLayout,
    language: Language,
    scale: Scale,
    holders: Vec<Drawn<'a>>,
    lanes: Vec<(&'a Lane, i64, i64)>,
    web: Option<(i64, i64)>,
    blocks: Vec<Block<'a>>,
    removed: Vec<Removed<'a>>,
    /// How far right of the middle of its body a holder's mark stands.
    tip: i64,
    old_labels: Vec<Label>,
    new_labels: Vec<Label>,
    /// Whether every holder is wide enough for its number; else numbers stand in the labels.
    numbered: bool,
}

/// A holder with its places in drawing units.
struct Drawn<'a> {
    holder: &'a Holder,
    old: Option<i64>,
    new: i64,
    moved: bool,
    fitted: bool,
}

impl<'a> Sheet<'a> {
    fn read(rail: &'a RailLayout, language: Language) -> Option<Sheet<'a>> {
        let scale = Scale::new(decimal::read(&rail.left_end)?, decimal::read(&rail.right_end)?)?;
        let holders: Option<Vec<Drawn>> =
            rail.holders.iter().map(|holder| Drawn::read(rail, holder, &scale)).collect();
        let lanes: Option<Vec<_>> = rail
            .lanes
            .iter()
            .map(|lane| Some((lane, scale.read(&lane.edges.left)?, scale.read(&lane.edges.right)?)))
            .collect();
        let web = match &rail.web {
            Some(edges) => Some((scale.read(&edges.left)?, scale.read(&edges.right)?)),
            None => None,
        };
        let holders = holders?;
        let numbered = scale.length(decimal::read(&rail.holder_width)?) >= ROOM_FOR_NUMBER;
        let removed = fixed::removed(rail, &scale)?;
        let tip = match rail.tip_offset.as_str() {
            "" => 0,
            offset => scale.length(decimal::read(offset)?),
        };
        let blocks = fixed::blocks(rail, &scale)?;
        let (old_labels, new_labels) = label(&holders, &removed, numbered, language);
        Some(Sheet {
            rail,
            language,
            scale,
            holders,
            lanes: lanes?,
            web,
            blocks,
            removed,
            tip,
            old_labels,
            new_labels,
            numbered,
        })
    }

    /// Left and right edge of the body of a holder whose mark stands at a place: a guide's lies
    /// outwards of its face, a knife's on both sides of its middle.
    fn body(&self, mark: i64) -> (i64, i64) {
        match self.rail.kind {
            RailKind::Guides if mark < self.scale.x(0) => (mark - 2 * self.half(), mark),
            RailKind::Guides => (mark, mark + 2 * self.half()),
            RailKind::Knives => (mark - self.tip - self.half(), mark - self.tip + self.half()),
        }
    }

    /// The middle of such a body.
    fn middle(&self, mark: i64) -> i64 {
        let (left, right) = self.body(mark);
        (left + right) / 2
    }

    fn word(&self, key: &'static str) -> &'static str {
        self.language.word(key)
    }

    /// Half of a holder's drawn width; a hair's breadth at least.
    fn half(&self) -> i64 {
        decimal::read(&self.rail.holder_width)
            .map_or(4, |width| self.scale.length(width) / 2)
            .max(4)
    }
}

impl<'a> Drawn<'a> {
    fn read(rail: &RailLayout, holder: &'a Holder, scale: &Scale) -> Option<Drawn<'a>> {
        let new = decimal::read(&holder.new)?;
        let old = match &holder.old {
            Some(old) => Some(decimal::read(old)?),
            None => None,
        };
        let moved = old.is_some_and(|old| old != new);
        let fitted = fixed::is_fitted(rail, holder.number);
        Some(Drawn { holder, old: old.map(|old| scale.x(old)), new: scale.x(new), moved, fitted })
    }
}

/// Positions in print, with their sign; the holder's number first where it has no room elsewhere.
fn label(
    holders: &[Drawn],
    removed: &[Removed],
    numbered: bool,
    language: Language,
) -> (Vec<Label>, Vec<Label>) {
    let prefix = |drawn: &Drawn| match numbered {
        true => String::new(),
        false => format!("{}: ", drawn.holder.number),
    };
    let old = holders.iter().filter(|drawn| drawn.moved).filter_map(|drawn| {
        let position = drawn.holder.old.as_deref()?;
        Some((drawn.old?, format!("{}{}", prefix(drawn), signed(position, language))))
    });
    let new = holders.iter().map(|drawn| {
        let place = format!("{}{}", prefix(drawn), target(drawn.holder, language));
        match drawn.holder.parked {
            true => (drawn.new, format!("{place} {}", language.word("drawing-parked"))),
            false => (drawn.new, place),
        }
    });
    let old = old.chain(fixed::labels_of(removed, language));
    (labels::stagger(old, WIDTH), labels::stagger(new, WIDTH))
}

/// The new position as it is set: the fraction where there is one.
fn target(holder: &Holder, language: Language) -> String {
    signed(if holder.fraction.is_empty() { &holder.new } else { &holder.fraction }, language)
}

/// A position with a sign on both sides of the datum, as the language writes numbers: `+28.0`,
/// `−28.0`, `+2 7/32`, `0.0`.
pub(crate) fn signed(position: &str, language: Language) -> String {
    let negative = position.starts_with(['-', '\u{2212}']);
    let digits = position.trim_start_matches(['-', '\u{2212}', '+']);
    let digits = digits.replace('.', &language.decimal_sign().to_string());
    match (digits.contains(|digit| ('1'..='9').contains(&digit)), negative) {
        (false, _) => digits,
        (true, true) => format!("\u{2212}{digits}"),
        (true, false) => format!("+{digits}"),
    }
}

/// Upper edge of each row, in drawing units.
struct Rows {
    ghosts: Option<i64>,
    rail: i64,
    web: i64,
    labels: i64,
    axis: i64,
    height: i64,
}

impl Rows {
    fn of(sheet: &Sheet) -> Rows {
        let knows_old = sheet.holders.iter().any(|drawn| drawn.old.is_some() || drawn.fitted);
        let knows_old = knows_old || !sheet.removed.is_empty();
        let ghosts = knows_old.then(|| 12 + labels::height(&sheet.old_labels));
        let rail = ghosts.map_or(12, |top| top + GHOST + ARROWS);
        let web = rail + HOLDER + 16;
        let labels = web + WEB + 16;
        let axis = labels + labels::height(&sheet.new_labels) + 16;
        Rows { ghosts, rail, web, labels, axis, height: axis + 30 + 2 * LINE + 6 }
    }
}

/// The opening tag, and the names by which it is read out.
fn open(out: &mut String, sheet: &Sheet, viewed: &str) {
    let id = anchor(&sheet.rail.id);
    put(
        out,
        format_args!(
            "<svg class=\"drawing\" xmlns=\"http://www.w3.org/2000/svg\" {viewed} role=\"img\" \
             aria-labelledby=\"{id}-title {id}-desc\" font-size=\"{TEXT}\">\n\
             <title id=\"{id}-title\">{}</title>\n<desc id=\"{id}-desc\">{}</desc>\n",
            escape(&described::title(sheet)),
            escape(&described::text(sheet)),
        ),
    );
}

fn head(out: &mut String, rail: &RailLayout) {
    let id = anchor(&rail.id);
    put(
        out,
        format_args!(
            "<defs><marker id=\"{id}-tip\" viewBox=\"0 0 10 10\" refX=\"9\" refY=\"5\" \
         markerWidth=\"22\" markerHeight=\"22\" markerUnits=\"userSpaceOnUse\" \
         orient=\"auto-start-reverse\"><path class=\"tip\" d=\"M0 1 10 5 0 9z\"/></marker>\n\
         <pattern id=\"{id}-parked\" width=\"14\" height=\"14\" patternUnits=\"userSpaceOnUse\">\
         <path class=\"hatch\" d=\"M-2 2 2-2M0 14 14 0M12 16 16 12\"/></pattern>\n\
         <pattern id=\"{id}-trim\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\">\
         <circle class=\"dot\" cx=\"6\" cy=\"6\" r=\"2\"/></pattern>"
        ),
    );
    fixed::pattern(out, rail);
    out.push_str("</defs>\n");
}

fn datum(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let x = sheet.scale.x(0);
    line(out, "datum", (x, 4), (x, rows.axis));
}

fn before(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let Some(top) = rows.ghosts else { return };
    row_name(out, top + GHOST / 2, sheet.word("drawing-old"));
    for label in &sheet.old_labels {
        line(out, "leader", (label.at, top - 6 - label.level * LINE), (label.at, top));
        text(out, label.x, top - 14 - label.level * LINE, &label.text);
    }
    for drawn in &sheet.holders {
        let Some(x) = drawn.old else { continue };
        let (left, right) = sheet.body(x);
        rect(out, "ghost", (left, top), (right - left, GHOST));
        number_in(out, sheet, drawn, (sheet.middle(x), top + GHOST / 2));
    }
    fixed::ghosts(out, sheet, top);
}

fn arrows(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let Some(top) = rows.ghosts else { return };
    let id = anchor(&sheet.rail.id);
    for drawn in &sheet.holders {
        let (start, end) = (top + GHOST + 4, rows.rail - 4);
        match drawn.old {
            Some(old) if drawn.moved => put(
                out,
                format_args!(
                    "<path class=\"move\" d=\"M{old} {start} {} {end}\" marker-end=\"url(#{id}-tip)\"/>\n",
                    drawn.new,
                ),
            ),
            Some(old) => line(out, "same", (old, start), (drawn.new, end)),
            None if drawn.fitted => fixed::fitted(out, sheet, drawn.new, end),
            None => {}
        }
    }
}

fn after(out: &mut String, sheet: &Sheet, rows: &Rows) {
    row_name(out, rows.rail + HOLDER / 2, sheet.word("drawing-new"));
    let (left, right) = sheet.scale.ends();
    rect(out, "rail", (left, rows.rail + HOLDER / 2 - 12), (right - left, 24));
    fixed::obstacles(out, sheet, rows);
    let id = anchor(&sheet.rail.id);
    for drawn in &sheet.holders {
        let (left, right) = sheet.body(drawn.new);
        rect(out, "holder", (left, rows.rail), (right - left, HOLDER));
        if drawn.holder.parked {
            put(
                out,
                format_args!(
                    "<rect x=\"{left}\" y=\"{}\" width=\"{}\" height=\"{HOLDER}\" \
                 fill=\"url(#{id}-parked)\"/>\n",
                    rows.rail,
                    right - left,
                ),
            );
        }
        number_in(out, sheet, drawn, (sheet.middle(drawn.new), rows.rail + HOLDER / 2));
    }
}

fn web(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let Some((left, right)) = sheet.web else { return };
    row_name(out, rows.web + WEB / 2, sheet.word("drawing-lanes"));
    rect(out, "web", (left, rows.web), (right - left, WEB));
    trim(out, sheet, rows, (left, right));
    let narrow = sheet.lanes.iter().map(|(_, left, right)| right - left).min().unwrap_or(1).max(1);
    let every = labels::width("00").div_euclid(narrow) + 1;
    for ((lane, left, right), index) in sheet.lanes.iter().zip(0_i64..) {
        rect(out, "lane", (*left, rows.web), (right - left, WEB));
        if index % every == 0 {
            middle(out, (left + right) / 2, rows.web + WEB / 2, &lane.number.to_string());
        }
    }
    for drawn in sheet.holders.iter().filter(|drawn| !drawn.holder.parked) {
        let (top, end) = (rows.rail + HOLDER, rows.web + WEB + 8);
        line(out, "knife", (drawn.new, top), (drawn.new, end));
    }
}

/// Dots where the web goes into no lane: at both edges, and between lanes that do not touch.
fn trim(out: &mut String, sheet: &Sheet, rows: &Rows, (left, right): (i64, i64)) {
    let (Some(first), Some(last)) = (sheet.lanes.first(), sheet.lanes.last()) else { return };
    let id = anchor(&sheet.rail.id);
    let between = sheet.lanes.windows(2).map(|pair| (pair[0].2, pair[1].1));
    for (start, end) in [(left, first.1), (last.2, right)].into_iter().chain(between) {
        if end > start {
            put(
                out,
                format_args!(
                    "<rect x=\"{start}\" y=\"{}\" width=\"{}\" height=\"{WEB}\" \
                 fill=\"url(#{id}-trim)\"/>\n",
                    rows.web,
                    end - start,
                ),
            );
        }
    }
}

/// The free width between two guides, dimensioned.
fn opening(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let placed: Vec<&Drawn> = sheet.holders.iter().filter(|drawn| !drawn.holder.parked).collect();
    let [one, two] = placed[..] else { return };
    let places = (decimal::read(&one.holder.new), decimal::read(&two.holder.new));
    let (Some(left), Some(right)) = places else { return };
    let (id, y) = (anchor(&sheet.rail.id), rows.web + WEB / 2);
    row_name(out, y, sheet.word("drawing-opening"));
    for x in [one.new, two.new] {
        line(out, "knife", (x, rows.rail + HOLDER), (x, rows.web + WEB + 8));
    }
    put(
        out,
        format_args!(
            "<path class=\"dimension\" d=\"M{} {y} {} {y}\" marker-start=\"url(#{id}-tip)\" \
         marker-end=\"url(#{id}-tip)\"/>\n",
            one.new, two.new,
        ),
    );
    let width = decimal::write((right - left).abs());
    let width = width.replace('.', &sheet.language.decimal_sign().to_string());
    let width = format!("{width}\u{a0}{}", sheet.rail.unit);
    backed(out, (one.new + two.new) / 2, y, &width);
}

fn targets(out: &mut String, sheet: &Sheet, rows: &Rows) {
    for label in &sheet.new_labels {
        let line_top = rows.labels + label.level * LINE;
        line(out, "leader", (label.at, rows.rail + HOLDER), (label.at, line_top));
    }
    for label in &sheet.new_labels {
        backed(out, label.x, rows.labels + label.level * LINE + LINE / 2, &label.text);
    }
}

fn axis(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let (left, right) = sheet.scale.ends();
    line(out, "axis", (left, rows.axis), (right, rows.axis));
    row_name(out, rows.axis + 4, &sheet.rail.unit);
    for tick in sheet.scale.ticks() {
        let length = if tick.label.is_some() { 22 } else { 12 };
        line(out, "axis", (tick.x, rows.axis), (tick.x, rows.axis + length));
        if let Some(value) = &tick.label {
            text(out, tick.x, rows.axis + 24 + LINE - 12, &signed(value, sheet.language));
        }
    }
    let below = rows.axis + 24 + 2 * LINE - 8;
    let sides = [
        format!("\u{2190} {}", sheet.word("drawing-left")),
        format!("{} \u{2192}", sheet.word("drawing-right")),
    ];
    side(out, "start", (left, below), &sides[0]);
    side(out, "end", (right, below), &sides[1]);
    // A datum near an end of the rail is named beside the words that stand there.
    let name = sheet.word("drawing-datum");
    let half = labels::width(name) / 2;
    let from = left + labels::width(&sides[0]) + half;
    let to = right - labels::width(&sides[1]) - half;
    text(out, sheet.scale.x(0).min(to).max(from), below, name);
}

fn row_name(out: &mut String, y: i64, name: &str) {
    put(
        out,
        format_args!(
            "<text class=\"row\" x=\"0\" y=\"{y}\" dominant-baseline=\"central\">{}</text>\n",
            escape(name),
        ),
    );
}

fn number_in(out: &mut String, sheet: &Sheet, drawn: &Drawn, (x, y): (i64, i64)) {
    if sheet.numbered {
        backed(out, x, y, &drawn.holder.number.to_string());
    }
}

/// A text in the middle of its place, on a patch of paper so that no line runs through it.
fn backed(out: &mut String, x: i64, y: i64, content: &str) {
    let width = labels::width(content) - 14;
    rect(out, "patch", (x - width / 2, y - LINE / 2 + 3), (width, LINE - 6));
    middle(out, x, y, content);
}

fn middle(out: &mut String, x: i64, y: i64, content: &str) {
    put(
        out,
        format_args!(
            "<text x=\"{x}\" y=\"{y}\" text-anchor=\"middle\" dominant-baseline=\"central\">{}</text>\n",
            escape(content),
        ),
    );
}

fn text(out: &mut String, x: i64, y: i64, content: &str) {
    side(out, "middle", (x, y), content);
}

fn side(out: &mut String, anchor: &str, (x, y): (i64, i64), content: &str) {
    put(
        out,
        format_args!(
            "<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\">{}</text>\n",
            escape(content),
        ),
    );
}

fn rect(out: &mut String, class: &str, (x, y): (i64, i64), (width, height): (i64, i64)) {
    put(
        out,
        format_args!(
            "<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{}\" height=\"{height}\"/>\n",
            width.max(0),
        ),
    );
}

fn line(out: &mut String, class: &str, (x1, y1): (i64, i64), (x2, y2): (i64, i64)) {
    put(out, format_args!("<path class=\"{class}\" d=\"M{x1} {y1} {x2} {y2}\"/>\n"));
}

fn put(out: &mut String, piece: std::fmt::Arguments) {
    out.write_fmt(piece).expect("a string takes everything");
}

/// An identifier for the page from an identifier of the plant.
pub(crate) fn anchor(id: &str) -> String {
    let safe = id.chars().map(|c| if c.is_ascii_alphanumeric() || c == '_' { c } else { '-' });
    format!("rail-{}", safe.collect::<String>())
}

fn escape(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '&' => "&amp;".to_owned(),
            '<' => "&lt;".to_owned(),
            '>' => "&gt;".to_owned(),
            '"' => "&quot;".to_owned(),
            '\'' => "&#39;".to_owned(),
            c if c.is_control() => " ".to_owned(),
            c => c.to_string(),
        })
        .collect()
}

#[cfg(test)]
mod tests;
