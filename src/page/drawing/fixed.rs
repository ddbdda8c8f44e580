//! What no holder can pass, and holders that come on or off the rail.
//!
//! Each has a shape of its own, so that nothing is told by colour: crossed lines for what stands
//! fixed, a cross for what is taken off, a plus for what is fitted.

use crate::language::Language;
use crate::packet::model::{Move, RailLayout};
use crate::page::decimal;

use super::labels::LINE;
use super::scale::Scale;
use super::{GHOST, HOLDER, Rows, Sheet, anchor, backed, labels, line, put, rect, signed};

/// A fixed thing with its edges in drawing units.
pub(super) struct Block<'a> {
    name: &'a str,
    letter: String,
    left: i64,
    right: i64,
}

/// A holder that is taken off, at its old place.
pub(super) struct Removed<'a> {
    /// Its old position as written.
    from: &'a str,
    /// The place of its mark.
    pub x: i64,
}

/// Letter of a fixed thing: A to Z, then numbers.
pub(crate) fn letter(index: usize) -> String {
    let letter = u8::try_from(index).ok().filter(|index| *index < 26).map(|index| b'A' + index);
    letter.map_or_else(|| (index + 1).to_string(), |letter| char::from(letter).to_string())
}

/// The fixed things of a rail; none when an edge cannot be read.
pub(super) fn blocks<'a>(rail: &'a RailLayout, scale: &Scale) -> Option<Vec<Block<'a>>> {
    let block = |(index, obstacle): (usize, &'a crate::packet::model::Obstacle)| {
        Some(Block {
            name: &obstacle.name,
            letter: letter(index),
            left: scale.read(&obstacle.edges.left)?,
            right: scale.read(&obstacle.edges.right)?,
        })
    };
    rail.obstacles.iter().enumerate().map(block).collect()
}

/// The holders that are taken off; none when a place cannot be read.
pub(super) fn removed<'a>(rail: &'a RailLayout, scale: &Scale) -> Option<Vec<Removed<'a>>> {
    let off = rail.moves.iter().filter(|step| step.direction == "off");
    off.filter_map(|step| step.from.as_deref())
        .map(|from| Some(Removed { from, x: scale.x(decimal::read(from)?) }))
        .collect()
}

/// Labels of the holders that are taken off.
pub(super) fn labels_of(removed: &[Removed], language: Language) -> Vec<(i64, String)> {
    let off = language.word("drawing-off");
    removed.iter().map(|gone| (gone.x, format!("{} {off}", signed(gone.from, language)))).collect()
}

/// Whether a holder comes new on the rail.
pub(super) fn is_fitted(rail: &RailLayout, number: u32) -> bool {
    rail.moves.iter().any(|step| step.direction == "fit" && step.holder == Some(number))
}

/// How many moves go in a direction.
pub(super) fn count(moves: &[Move], direction: &str) -> usize {
    moves.iter().filter(|step| step.direction == direction).count()
}

/// The fill of fixed things; nothing for a rail that has none.
pub(super) fn pattern(out: &mut String, rail: &RailLayout) {
    if rail.obstacles.is_empty() {
        return;
    }
    let id = anchor(&rail.id);
    put(
        out,
        format_args!(
            "<pattern id=\"{id}-fixed\" width=\"16\" height=\"16\" \
             patternUnits=\"userSpaceOnUse\"><path class=\"hatch\" d=\"M0 0 16 16M16 0 0 16\"/>\
             </pattern>\n"
        ),
    );
}

/// Fixed things on the rail, by name where there is room and by letter elsewhere.
pub(super) fn obstacles(out: &mut String, sheet: &Sheet, rows: &Rows) {
    let id = anchor(&sheet.rail.id);
    for block in &sheet.blocks {
        let (x, width) = (block.left, (block.right - block.left).max(0));
        put(
            out,
            format_args!(
                "<rect class=\"fixed\" x=\"{x}\" y=\"{}\" width=\"{width}\" height=\"{HOLDER}\" \
                 fill=\"url(#{id}-fixed)\"/>\n",
                rows.rail,
            ),
        );
        let fits = labels::width(block.name) <= width;
        let text = if fits { block.name } else { &block.letter };
        backed(out, x + width / 2, rows.rail + HOLDER / 2, text);
    }
}

/// Ghosts with a cross where holders are taken off.
pub(super) fn ghosts(out: &mut String, sheet: &Sheet, top: i64) {
    for gone in &sheet.removed {
        let (left, right) = sheet.body(gone.x);
        rect(out, "ghost", (left, top), (right - left, GHOST));
        line(out, "cross", (left, top), (right, top + GHOST));
        line(out, "cross", (left, top + GHOST), (right, top));
    }
}

/// An arrow onto the rail, with a plus above it, where a holder is fitted.
pub(super) fn fitted(out: &mut String, sheet: &Sheet, x: i64, end: i64) {
    const LENGTH: i64 = 50;
    let id = anchor(&sheet.rail.id);
    backed(out, x, end - LENGTH - LINE / 2, "+");
    put(
        out,
        format_args!(
            "<path class=\"move\" d=\"M{x} {} {x} {end}\" marker-end=\"url(#{id}-tip)\"/>\n",
            end - LENGTH,
        ),
    );
}
