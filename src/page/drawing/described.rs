//! What a drawing shows, in words, for who does not see it.

use crate::packet::model::RailKind;

use super::{Drawn, Sheet, fixed, signed};

/// The name of the drawing.
pub(super) fn title(sheet: &Sheet) -> String {
    sheet.language.text("drawing-title", &[("rail", (&sheet.rail.name).into())])
}

/// What stands on the rail, what happens to it, and where its ends are.
pub(super) fn text(sheet: &Sheet) -> String {
    let sentences = [Some(counted(sheet)), moving(sheet), outermost(sheet), web(sheet)];
    let unit = sheet.rail.unit.as_str();
    let unit = if unit == "in" { sheet.word("drawing-inches") } else { unit };
    let unit = sheet.language.text("drawing-unit", &[("unit", unit.into())]);
    sentences.into_iter().flatten().chain([unit]).collect::<Vec<_>>().join(" ")
}

/// `9 knife holders; 2 of them parked; 6 lanes; 7 moves.`
fn counted(sheet: &Sheet) -> String {
    let (rail, language) = (sheet.rail, sheet.language);
    let parked = rail.holders.iter().filter(|holder| holder.parked).count();
    let several =
        |key, count: usize| (count > 0).then(|| language.text(key, &[("count", count.into())]));
    let names: Vec<&str> = rail.obstacles.iter().map(|one| one.name.as_str()).collect();
    let holders = match rail.kind {
        RailKind::Knives => "drawing-has-knives",
        RailKind::Guides => "drawing-has-guides",
    };
    let pieces = [
        Some(language.text(holders, &[("count", rail.holders.len().into())])),
        several("drawing-has-parked", parked),
        several("drawing-has-lanes", rail.lanes.len()),
        Some(language.text("drawing-has-moves", &[("count", rail.moves.len().into())])),
        several("drawing-has-off", fixed::count(&rail.moves, "off")),
        several("drawing-has-fitted", fixed::count(&rail.moves, "fit")),
        (!names.is_empty())
            .then(|| language.text("drawing-has-fixed", &[("names", names.join(", ").into())])),
    ];
    pieces.into_iter().flatten().collect::<Vec<_>>().join("; ") + "."
}

/// Numbers of the holders that are moved, with their new places.
fn moving(sheet: &Sheet) -> Option<String> {
    let moved = sheet.holders.iter().filter(|drawn| drawn.moved || drawn.fitted);
    let shown = |drawn: &Drawn| {
        format!("{} ({})", drawn.holder.number, super::target(drawn.holder, sheet.language))
    };
    let holders: Vec<String> = moved.map(shown).collect();
    let parts = [("holders", holders.join(", ").into())];
    (!holders.is_empty()).then(|| sheet.language.text("drawing-moving", &parts))
}

fn outermost(sheet: &Sheet) -> Option<String> {
    let mut used = sheet.holders.iter().filter(|drawn| !drawn.holder.parked);
    let first = used.next()?;
    between(sheet, "drawing-outermost", &first.holder.new, &used.next_back()?.holder.new)
}

fn web(sheet: &Sheet) -> Option<String> {
    let web = sheet.rail.web.as_ref()?;
    between(sheet, "drawing-web", &web.left, &web.right)
}

fn between(sheet: &Sheet, key: &str, left: &str, right: &str) -> Option<String> {
    let place = |text: &str| signed(text, sheet.language).into();
    Some(sheet.language.text(key, &[("left", place(left)), ("right", place(right))]))
}
