//! A drawing as a file of its own, to zoom and to print.
//!
//! The look is that of the pages: the tokens and the rules of drawings are taken from the site's
//! style sheet, so that they stand in one place. Must never name a file, a script or an address.

use std::sync::LazyLock;

use crate::language::Language;
use crate::packet::model::RailLayout;
use crate::page::SITE_CSS;

use super::{Rows, Sheet, WIDTH, draw, open, put};

/// What the page gives a drawing otherwise: ground, letters, digits of one width.
const GROUND: &str = "\
.drawing { background: var(--paper); color: var(--ink); fill: currentColor; \
font-family: Arial, \"Liberation Sans\", Helvetica, sans-serif; font-variant-numeric: tabular-nums; }\n";

static STYLE: LazyLock<String> = LazyLock::new(|| {
    let rules = blocks(SITE_CSS).into_iter().filter(|block| is_needed(block));
    GROUND.to_owned() + &rules.collect::<Vec<&str>>().join("\n") + "\n"
});

/// Free ground around the drawing: 2 mm.
const GROUND_AROUND: i64 = 20;

/// Draws a rail as an SVG document; none when its numbers cannot be read or it has no length.
///
/// As wide as A4 inside margins of 10 mm; a browser scales it without loss.
pub fn file(rail: &RailLayout, language: Language) -> Option<String> {
    let sheet = Sheet::read(rail, language)?;
    let rows = Rows::of(&sheet);
    let (width, height) = (WIDTH + 2 * GROUND_AROUND, rows.height + 2 * GROUND_AROUND);
    let viewed = format!(
        "xml:lang=\"{}\" width=\"{}mm\" height=\"{}.{}mm\" \
         viewBox=\"-{GROUND_AROUND} -{GROUND_AROUND} {width} {height}\"",
        language.tag(),
        width / 10,
        height / 10,
        height % 10
    );
    let mut out = String::new();
    open(&mut out, &sheet, &viewed);
    put(&mut out, format_args!("<style>\n{}</style>\n", *STYLE));
    draw(&mut out, &sheet, &rows);
    Some(out)
}

/// Tokens, light and dark, and what stands inside a drawing; the drawing's own box is the document.
fn is_needed(block: &str) -> bool {
    let dark = "@media screen and (prefers-color-scheme: dark)";
    block.starts_with(":root")
        || block.starts_with(".drawing ") && !block.starts_with(".drawing {")
        || block.starts_with(dark) && block.contains(":root")
}

/// A style sheet in its outermost blocks, comments left out.
fn blocks(css: &str) -> Vec<&str> {
    let mut blocks = Vec::new();
    let mut rest = css.trim_start();
    while !rest.is_empty() {
        let end = match rest.strip_prefix("/*") {
            Some(comment) => comment.find("*/").map(|at| at + 4),
            None => block_end(rest),
        };
        let (block, after) = rest.split_at(end.unwrap_or(rest.len()));
        blocks.push(block);
        rest = after.trim_start();
    }
    blocks
}

/// Where the first block of a style sheet ends.
fn block_end(css: &str) -> Option<usize> {
    let mut depth = 0_usize;
    for (at, letter) in css.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth <= 1 => return Some(at + 1),
            '}' => depth -= 1,
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::{STYLE, blocks, file};
    use crate::language::Language;
    use crate::page::drawing::svg;
    use crate::page::sample;

    #[test]
    fn a_style_sheet_is_parted_where_blocks_end() {
        let css = "/* a { */\n:root { --a: 1; }\n@media x { :root { --a: 2; } .b { c: d; } }\n.e{}";
        let expected = [
            "/* a { */",
            ":root { --a: 1; }",
            "@media x { :root { --a: 2; } .b { c: d; } }",
            ".e{}",
        ];
        assert_eq!(blocks(css), expected);
    }

    #[test]
    fn the_style_has_every_class_and_token_that_a_drawing_uses() {
        let rails = [sample::knife_rail(), sample::guide_rail(), sample::perforating_rail()];
        let drawings = rails.map(|rail| svg(&rail, Language::English).unwrap()).concat();
        let mut classes = 0;
        for class in drawings.split("class=\"").skip(1) {
            let class = class.split('"').next().unwrap();
            let plain = ["drawing", "dimension"].contains(&class);
            assert!(plain || STYLE.contains(&format!(".{class}")), "{class}");
            classes += 1;
        }
        assert!(classes > 100);
        for token in STYLE.split("var(").skip(1) {
            let token = token.split(')').next().unwrap();
            assert!(STYLE.matches(&format!("{token}:")).count() >= 2, "{token}, light and dark");
        }
        assert!(!STYLE.contains("min-width") && STYLE.len() < 4_000, "{}", *STYLE);
    }

    #[test]
    fn a_file_is_a_document_of_its_own() {
        let file = file(&sample::perforating_rail(), Language::German).unwrap();
        assert!(file.starts_with("<svg ") && file.contains(" width=\"190mm\" height=\""));
        assert!(file.contains("xml:lang=\"de\"") && file.contains("alte und neue Pl\u{e4}tze"));
        for word in ["<script", "href", "@import", "url(http", "style=", "://fonts"] {
            assert!(!file.contains(word), "{word}");
        }
        assert_eq!(file.matches("http").count(), 1, "the name of SVG alone");
    }
}
