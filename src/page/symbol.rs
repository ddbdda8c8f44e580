//! Safety signs as we draw them: shapes and colours of ISO 3864, glyphs of our own.
//!
//! A page defines each sign it shows once ([`definitions`]) and uses it by its identifier. A sign
//! without a glyph of its own shows the general one of its kind: its name stands beside it for those
//! who listen, and the message says the rest. Drawn for 9 mm on paper and for black-and-white
//! printers: no line below 0.35 mm, shape and glyph carry the meaning.
//!
//! Must never hold a drawing of the standard: those are copyrighted.

use std::collections::BTreeSet;
use std::fmt::Write;

use crate::language::Language;
use crate::trade::signs::{self, Kind, SafetySign};

/// What is drawn inside the frame, in a square of 48 units.
struct Glyph {
    id: &'static str,
    /// Areas; where two of them overlap is a hole (`fill-rule` of the style sheet).
    solid: &'static str,
    /// Lines in the colour of the areas.
    line: &'static str,
    /// Lines in the colour of the field, on top.
    cut: &'static str,
}

const fn glyph(
    id: &'static str,
    solid: &'static str,
    line: &'static str,
    cut: &'static str,
) -> Glyph {
    Glyph { id, solid, line, cut }
}

/// The alert symbol of a signal word, and the three frames.
const FRAMES: &str = "\
<symbol id=\"alert\" viewBox=\"0 0 24 22\"><path class=\"alert-field\" d=\"M12 1.2 23.2 20.8H.8z\"/>\
<path class=\"alert-mark\" d=\"M10.7 7h2.6l-.5 7.4h-1.6zM10.7 16h2.6v2.6h-2.6z\"/></symbol>\
<path id=\"W\" fill=\"#f9a800\" stroke=\"#000\" stroke-width=\"3\" stroke-linejoin=\"round\" d=\"M24 4 46 42H2z\"/>\
<circle id=\"M\" fill=\"#005387\" cx=\"24\" cy=\"24\" r=\"23\"/>\
<circle id=\"P\" fill=\"#fff\" cx=\"24\" cy=\"24\" r=\"21\"/>\
<g id=\"no\" fill=\"none\"><path stroke=\"#fff\" stroke-width=\"7\" d=\"M10 10l28 28\"/><path stroke=\"#9b2423\" stroke-width=\"4.4\" d=\"M24 3.2a20.8 20.8 0 1 1 0 41.6 20.8 20.8 0 1 1 0-41.6zM9.3 9.3l29.4 29.4\"/></g>";

const GLYPHS: &[Glyph] = &[
    glyph("W001", "M21.6 16h4.8l-1 14h-2.8zM21.7 32.5h4.6v4.6h-4.6z", "", ""),
    // A beam from a bright point.
    glyph(
        "W004",
        "M17 26.2a4 4 0 1 1 0 8 4 4 0 1 1 0-8z",
        "M17 30.2h20M19.4 22.4l1.4-4M23.4 25.4l4-3.4M19.4 38l.4 1M23.4 35l3 2.6M12 35.4l-.6.8",
        "",
    ),
    // A magnet.
    glyph(
        "W006",
        "M15.6 38.6V27.4a8.4 8.4 0 0 1 16.8 0v11.2h-5.6V27.4a2.8 2.8 0 0 0-5.6 0v11.2z",
        "",
        "M14 33.6h8M26 33.6h8",
    ),
    // Somebody who trips over a block.
    glyph(
        "W007",
        "M28.6 32h6.4v6.4h-6.4zM27 16.6a2.8 2.8 0 1 1 0 5.6 2.8 2.8 0 1 1 0-5.6z",
        "M24 22.6 19.6 29l6.8 3.6M19.6 29l-2.4 5.4-4.4 3.4M23.6 23.6l6 3.2",
        "",
    ),
    // Somebody whose feet slip away.
    glyph(
        "W011",
        "M20.6 16.2a2.8 2.8 0 1 1 0 5.6 2.8 2.8 0 1 1 0-5.6z",
        "M21.8 22.4 24 29.4l6.6-.6 3.6 4M24 29.4l-3.4 3.4 2.4 3M22.4 24.2l-5.4 3M22.4 24.2l6.2-1.6M27 38.2q2-2.2 4 0t4 0",
        "",
    ),
    glyph("W012", "M27.5 13.5 16.5 29h6.6l-3.4 10.4L32 25.4h-7.2z", "", ""),
    // A load on a hook above a head.
    glyph(
        "W015",
        "M16.8 22h14.4v6.6H16.8zM24 30.2a2.6 2.6 0 1 1 0 5.2 2.6 2.6 0 1 1 0-5.2zM17 39.6q1-3.6 7-3.6t7 3.6z",
        "M24 12.6v4.6M18.4 21.6l5.6-4.4 5.6 4.4",
        "",
    ),
    // Heat that rises from a plate.
    glyph(
        "W017",
        "M11 35.4h26v3.4H11z",
        "M16.6 32.4q-2.6-2 0-4t0-4M24 32.4q-3.2-3.2 0-6.4t0-6.4M31.4 32.4q-2.6-2 0-4t0-4",
        "",
    ),
    // A wheel that turns by itself.
    glyph(
        "W018",
        "M24 27.4a2.6 2.6 0 1 1 0 5.2 2.6 2.6 0 1 1 0-5.2zM34.2 26.2 28.6 28.2 32.7 31z",
        "M30.9 34.1A8 8 0 1 1 31.2 26.6M24 27v6M21 30h6M21.9 27.9l4.2 4.2M26.1 27.9l-4.2 4.2",
        "",
    ),
    // A weight that comes down on somebody.
    glyph(
        "W019",
        "M20 17h8l3.2 9H16.8zM24 28.4a2.7 2.7 0 1 1 0 5.4 2.7 2.7 0 1 1 0-5.4zM14.6 39.6q1-5 9.4-5t9.4 5z",
        "M22.4 15.6a1.9 1.9 0 0 1 3.2 0",
        "",
    ),
    glyph(
        "W021",
        "M24.6 13.4c.6 5.4 7 8 7 14.4 0 4.6-3.4 7.4-7.4 7.4s-7.6-3-7.6-7.2c0-3.8 2.4-5.2 2.8-8.6 1.6 1 2.4 2.6 2.4 4.4 2.2-2.4 3.2-6 2.8-10.4z",
        "M14 38.6h20",
        "M24.4 32.6q-3-2.6 0-6",
    ),
    // A knife with its edge up, and a drop.
    glyph(
        "W022",
        "M9.4 37q7.6-8 19.6-8v9.8H14q-3-.2-4.6-1.8zM30.2 31.2h5.8q2.4 2.6 1.8 5.4h-7.6zM24 14c2.2 3.4 3.8 5.4 3.8 7.6a3.8 3.8 0 0 1-7.6 0c0-2.2 1.6-4.2 3.8-7.6z",
        "",
        "",
    ),
    // Drops that eat a surface.
    glyph(
        "W023",
        "M11 39.4v-5.6h6.4l1.8 3 2.2-2 2.6 3 2.4-3 2 1.6 2.2-2.6H37v5.6zM19.8 25q3.8 5 0 6-3.8-1 0-6zM28.2 23q3.8 5 0 6-3.8-1 0-6z",
        "M20.4 18.6 27.6 15.6M22 22.2l7.4-3.2",
        "",
    ),
    // A press that comes down on a hand.
    glyph(
        "W024",
        "M18.8 19.6h10.4v3.4H18.8zM22.6 12.4h2.8v3h2.4L24 19.4l-3.8-4h2.4zM11 36.2h26v3.2H11zM36.4 27.4l-7.6 1.8-4.8-3q-1.8-.6-2.2 1.2l3.2 3.2-10 .2q-2.2.2-2.2 1.8t2.2 1.8h21.4z",
        "",
        "",
    ),
    // A hand drawn in between two rolls.
    glyph(
        "W025",
        "M20.4 14h7.2v8.6l-2.2 7h-2.8l-2.2-7zM16.4 30.4a1.8 1.8 0 1 1 0 3.6 1.8 1.8 0 1 1 0-3.6zM31.6 30.4a1.8 1.8 0 1 1 0 3.6 1.8 1.8 0 1 1 0-3.6z",
        "M16.4 26.2a6 6 0 1 1 0 12 6 6 0 1 1 0-12zM31.6 26.2a6 6 0 1 1 0 12 6 6 0 1 1 0-12z",
        "",
    ),
    // Light in all directions.
    glyph(
        "W027",
        "M24 25.6a4.6 4.6 0 1 1 0 9.2 4.6 4.6 0 1 1 0-9.2z",
        "M24 22.4v-5.2M24 38v1M16.2 30.2h-4M31.8 30.2h4M18.6 24.8l-2.4-2.4M29.4 24.8l2.4-2.4M18.6 35.6l-2.6 2.6M29.4 35.6l2.6 2.6",
        "",
    ),
    glyph(
        "W029",
        "M19.4 39.4V26q0-4 2.8-5v-3.4h3.6V21q2.8 1 2.8 5v13.4z",
        "M20.4 16.6h7.2",
        "M22.6 27v9",
    ),
    glyph("M001", "M20.6 9h6.8l-1.6 19h-3.6zM20.8 32h6.4v6.4h-6.4z", "", ""),
    // A book.
    glyph(
        "M002",
        "M8 14q8-3 16 1 8-4 16-1v20q-8-3-16 1-8-4-16-1z",
        "",
        "M24 15v20M12 20q4-1 8 .6M12 26q4-1 8 .6M28 20.6q4-1.6 8-.6M28 26.6q4-1.6 8-.6",
    ),
    glyph(
        "M003",
        "M24 13.6a10 10.6 0 1 1 0 21.2 10 10.6 0 1 1 0-21.2zM7.4 19.6H12v11H7.4zM36 19.6h4.6v11H36zM15 38q9-3.6 18 0v4.4H15z",
        "M9.8 19a14.4 13 0 0 1 28.4 0",
        "",
    ),
    glyph(
        "M004",
        "M24 7.6A13.4 15 0 1 1 24 38.8 13.4 15 0 1 1 24 7.6zM12.6 19.2h9.8v6.4q-5 3.4-9.8-1zM25.6 19.2h9.8v5.4q-4.8 4.4-9.8 1z",
        "",
        "M10 18.2h28",
    ),
    // The plug and its socket, apart.
    glyph("M006", "M13.4 16h21.2v8.4q0 7-7 8h-7.2q-7-1-7-8z", "M18.6 16V9M29.4 16V9M24 32v8.6", ""),
    glyph(
        "M008",
        "M15 8.6h11.4v13.2l8.8 4.6q4 2.2 4 7H15zM15 35.6h24.2v3.6H15z",
        "",
        "M26.6 14h-5M26.6 18.6h-5",
    ),
    glyph(
        "M009",
        "M14.2 22h19.6v9.4l-3 4H17.2l-3-4zM16.4 37.4h15.2v4.2H16.4z",
        "M16.2 23v-8M21.4 23V11M26.6 23V11M31.8 23v-8M33 31l5-6",
        "",
    ),
    glyph(
        "M010",
        "M17.4 8.6 24 12l6.6-3.4 9 6-3.8 14.6-4-1V39.6H16.2V28.2l-4 1L8.4 14.6z",
        "",
        "M24 13v26M16.2 20v8M31.8 20v8",
    ),
    // Hands under a tap.
    glyph(
        "M011",
        "M8 31.4q9-5.6 15-1 6-3 17 .6l-4 5.6q-13 5-24 .6z",
        "M11 13h10.6q5 0 5 5M17 13V8.6M13.4 8.6h7.2M26.6 22.4v3.6",
        "M14 34.4q6-2 9.4-.6",
    ),
    glyph(
        "M013",
        "M11.6 10.6q12.4-5 24.8 0v4.6q-12.4-4.4-24.8 0zM24 17.6a7 8 0 1 1 0 16 7 8 0 1 1 0-16z",
        "M13.4 17v14.4q10.6 9.6 21.2 0V17",
        "",
    ),
    glyph(
        "M014",
        "M11.4 24.4a12.6 13.4 0 0 1 25.2 0zM7.4 25.8h33.2v3.4H7.4zM14.4 30.8h19.2q-.6 9.8-9.6 10.4-9-.6-9.6-10.4z",
        "",
        "M20 12v8M28 12v8",
    ),
    glyph(
        "M016",
        "M24 7a13 15.6 0 1 1 0 31.2 13 15.6 0 1 1 0-31.2zM16.4 18h5v3h-5zM26.6 18h5v3h-5z",
        "",
        "M10.8 22.6l6 3.6M37.2 22.6l-6 3.6M16.6 25.8q7.4-3.4 14.8 0v6.6q-7.4 6.4-14.8 0zM18.4 30.4h11.2",
    ),
    // A padlock.
    glyph(
        "M028",
        "M12.6 21.6h22.8v17.2H12.6zM24 26.4a3 3 0 0 1 1.4 5.6v3h-2.8v-3a3 3 0 0 1 1.4-5.6z",
        "M16.8 21v-4.4a7.2 7.2 0 0 1 14.4 0V21",
        "",
    ),
    glyph("P001", "", "", ""),
    // A hand.
    glyph(
        "P010",
        "M14.2 22h19.6v9.4l-3 5.6H17.2l-3-5.6z",
        "M16.2 23v-7M21.4 23V12M26.6 23V12M31.8 23v-7M33 31l4.4-5.4",
        "",
    ),
    // A glove with its cuff.
    glyph(
        "P028",
        "M14.2 21h19.6v8.4l-3 4H17.2l-3-4zM16.4 35.4h15.2v4.2H16.4z",
        "M16.2 22v-7M21.4 22V11.6M26.6 22V11.6M31.8 22v-7M33 29l4.4-5.4",
        "",
    ),
];

/// What a page defines so that it can use these signs, and the alert symbol.
pub fn definitions<'a>(ids: impl IntoIterator<Item = &'a str>) -> String {
    let known: BTreeSet<&str> =
        ids.into_iter().filter_map(signs::find).map(|sign| sign.id).collect();
    let mut text = String::from(FRAMES);
    for sign in known.iter().filter_map(|id| signs::find(id)) {
        symbol(&mut text, sign);
    }
    text
}

/// The name of a sign for those who listen: what it means and its identifier.
pub fn name(sign: &SafetySign, language: Language) -> String {
    let key = format!("signs-{}", sign.id.to_lowercase());
    format!("{} ({})", language.text(&key, &[]), sign.id)
}

fn symbol(text: &mut String, sign: &SafetySign) {
    let (frame, field, ink, over) = match sign.kind() {
        Kind::Warning => ("W", "#f9a800", "#000", ""),
        Kind::Mandatory => ("M", "#005387", "#fff", ""),
        Kind::Prohibition => ("P", "#fff", "#000", "<use href=\"#no\"/>"),
    };
    let Glyph { solid, line, cut, .. } = drawn(sign);
    let width = if frame == "W" { "2.6" } else { "4" };
    let put = |d: &str, look: &str| match d {
        "" => String::new(),
        d => format!("<path {look} d=\"{d}\"/>"),
    };
    let paths = [
        put(solid, &format!("fill=\"{ink}\"")),
        put(line, &format!("fill=\"none\" stroke=\"{ink}\" stroke-width=\"{width}\"")),
        put(cut, &format!("fill=\"none\" stroke=\"{field}\" stroke-width=\"2\"")),
    ];
    let _infallible = write!(
        text,
        "<symbol id=\"{}\" viewBox=\"0 0 48 48\"><use href=\"#{frame}\"/>{}{over}</symbol>",
        sign.id,
        paths.concat(),
    );
}

/// The glyph of a sign, or the general one of its kind.
fn drawn(sign: &SafetySign) -> &'static Glyph {
    let general = match sign.kind() {
        Kind::Warning => "W001",
        Kind::Mandatory => "M001",
        Kind::Prohibition => "P001",
    };
    let of = |id: &str| GLYPHS.iter().find(|glyph| glyph.id == id);
    of(sign.id).or_else(|| of(general)).unwrap_or(&EMPTY)
}

const EMPTY: Glyph = glyph("", "", "", "");

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::{GLYPHS, definitions, name};
    use crate::language::Language;
    use crate::plant::load;
    use crate::trade::signs::{self, SIGNS};

    #[test]
    fn each_sign_of_the_catalogue_and_its_gear_has_a_glyph_of_its_own() {
        let mut seen = 0;
        // The shipped catalogue and that of the demo plant, in each language.
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
        let plant = load::load(&folder).unwrap().plant.unwrap();
        for edition in plant.editions.values().chain([&plant]) {
            for (id, entry) in &edition.hazards {
                let entry = &entry.body;
                let worn = entry.gear.iter().map(|item| signs::for_gear(item).unwrap().id);
                for sign in entry.signs.iter().map(String::as_str).chain(worn) {
                    assert!(GLYPHS.iter().any(|glyph| glyph.id == sign), "{id}: {sign}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 60, "{seen} signs");
    }

    #[test]
    fn every_glyph_is_of_a_sign_in_the_table_and_stands_once() {
        for (index, glyph) in GLYPHS.iter().enumerate() {
            assert!(signs::find(glyph.id).is_some(), "{}", glyph.id);
            assert!(GLYPHS[index + 1..].iter().all(|other| other.id != glyph.id), "{}", glyph.id);
        }
    }

    #[test]
    fn a_sign_is_defined_once_with_its_frame_and_nobody_else_is() {
        let text = definitions(["W022", "M009", "W022", "P028", "W999", "\"><script>"]);
        for id in ["alert", "W", "M", "P", "no", "W022", "M009", "P028"] {
            assert_eq!(text.matches(&format!("id=\"{id}\"")).count(), 1, "{id}");
        }
        assert!(!text.contains("W999") && !text.contains("script"));
    }

    #[test]
    fn each_sign_of_the_table_draws_something_of_its_kind() {
        for sign in SIGNS {
            let text = definitions([sign.id]);
            let symbol = text.split_once(&format!("<symbol id=\"{}\"", sign.id)).unwrap().1;
            assert!(symbol.contains(&format!("<use href=\"#{}\"/>", &sign.id[..1])), "{}", sign.id);
            assert!(symbol.len() > 60, "{}", sign.id);
        }
    }

    #[test]
    fn each_sign_has_a_name_in_each_language() {
        for sign in SIGNS {
            assert_eq!(
                name(sign, Language::English),
                format!("{} ({})", sign.title, sign.id),
                "the name of the table"
            );
            for language in [Language::Spanish, Language::German] {
                let own = name(sign, language);
                assert!(!own.starts_with("signs-") && !own.starts_with(sign.title), "{own}");
            }
        }
    }
}
