//! The page that shows what the pages are made of: colours, type, states, messages, signs, blanks.
//!
//! For people who change the style sheets, and for those who print a page to see what their printer
//! makes of it. Must never show a message that could be taken for one of the plant's own.

use serde::Serialize;

use super::{Fact, Frame, Page, State, Tone};
use crate::language::Language;
use crate::packet::model::Signal;
use crate::page::packet::{BlankView, HazardView, SignsView};
use crate::page::{paths, symbol, words};
use crate::trade::signs::SIGNS;

/// Names of the tokens at the head of the style sheet, by what they are.
const COLOURS: [&str; 10] =
    ["paper", "panel", "ink", "muted", "line", "rule", "link", "good", "care", "bad"];
const SIZES: [&str; 6] = ["h1", "h2", "h3", "text", "small", "tiny"];
const SPACES: [&str; 8] = ["s1", "s2", "s3", "s4", "s6", "s8", "touch", "glove"];
const WEIGHTS: [&str; 3] = ["thin", "thick", "heavy"];

#[derive(Serialize)]
struct LegendView<'a> {
    frame: &'a Frame,
    symbols: String,
    colours: [&'static str; 10],
    sizes: [&'static str; 6],
    spaces: [&'static str; 8],
    weights: [&'static str; 3],
    states: Vec<State>,
    stamps: [&'static str; 2],
    facts: Vec<Fact>,
    hazards: Vec<HazardView>,
    signs: Vec<SignsView>,
    blank: BlankView,
}

/// The page of the parts, for [`paths::PARTS`].
pub fn legend_html(frame: &Frame) -> String {
    let language = frame.language;
    let signs = SIGNS
        .iter()
        .map(|sign| SignsView { ids: vec![sign.id], names: symbol::name(sign, language) });
    let view = LegendView {
        frame,
        symbols: symbol::definitions(SIGNS.iter().map(|sign| sign.id)),
        colours: COLOURS,
        sizes: SIZES,
        spaces: SPACES,
        weights: WEIGHTS,
        states: states(language),
        stamps: [language.word("packet-mark-draft"), language.word("packet-mark-outdated")],
        facts: vec![Fact::new(language.word("site-id"), "pouch-6"), Fact::new("web", "380 mm")],
        hazards: messages(language),
        signs: signs.collect(),
        blank: blank(),
    };
    Page::new(frame, &view, language.word("parts-title"), paths::PARTS).html("legend.html")
}

/// One state of each tone.
fn states(language: Language) -> Vec<State> {
    let state = |word: &str, tone| State { word: word.to_owned(), tone };
    vec![
        state(language.word("site-state-open"), Tone::Open),
        state(language.word("site-state-released"), Tone::Good),
        state(language.word("site-state-deviation"), Tone::Care),
        state(language.word("site-state-bad"), Tone::Bad),
    ]
}

/// One message of each signal word.
fn messages(language: Language) -> Vec<HazardView> {
    let message = |signal: Signal, word, hazard, consequence, avoid, sign| HazardView {
        class: words::signal_class(signal).to_owned(),
        word: language.word(word).to_owned(),
        alert: signal != Signal::Notice,
        hazard: language.word(hazard).to_owned(),
        consequence: language.word(consequence).to_owned(),
        avoid: language.word(avoid).to_owned(),
        signs: signs(sign, language),
        lang: String::new(),
        brief: false,
    };
    vec![
        message(
            Signal::Danger,
            "signal-danger",
            "parts-will-kill",
            "parts-will-kill-what",
            "parts-avoid",
            "W019",
        ),
        message(
            Signal::Warning,
            "signal-warning",
            "parts-could-kill",
            "parts-could-kill-what",
            "parts-avoid",
            "W018",
        ),
        message(
            Signal::Caution,
            "signal-caution",
            "parts-could-hurt",
            "parts-could-hurt-what",
            "parts-avoid-edge",
            "W022",
        ),
        message(
            Signal::Notice,
            "signal-notice",
            "parts-damage",
            "parts-damage-what",
            "parts-avoid-damage",
            "",
        ),
    ]
}

/// The sign with this identifier; none for an empty one.
fn signs(id: &str, language: Language) -> SignsView {
    let found = SIGNS.iter().find(|sign| sign.id == id);
    SignsView {
        ids: found.map(|sign| sign.id).into_iter().collect(),
        names: found.map(|sign| symbol::name(sign, language)).unwrap_or_default(),
    }
}

fn blank() -> BlankView {
    BlankView {
        code: "17/strip".to_owned(),
        label: String::new(),
        lang: String::new(),
        unit: "mm".to_owned(),
        limits: "55.5 \u{2013} 56.5\u{a0}mm".to_owned(),
        also_limits: String::new(),
        guard: String::new(),
        target: "56.0\u{a0}mm".to_owned(),
        instrument: String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::{LEGEND_CSS, SITE_CSS};

    #[test]
    fn every_token_of_the_style_sheet_is_shown() {
        let page = legend_html(&Frame::default());
        let head = SITE_CSS.split('}').next().unwrap();
        let named = head.lines().filter_map(|line| line.trim().strip_prefix("--"));
        let names: Vec<&str> = named.filter_map(|line| line.split(':').next()).collect();
        assert!(names.len() > 20, "{names:?}");
        for name in names {
            assert!(page.contains(&format!("<code>--{name}</code>")), "{name} is not shown");
            assert!(LEGEND_CSS.contains(&format!("var(--{name})")), "{name} is not used");
        }
    }

    #[test]
    fn every_signal_word_sign_and_mark_is_shown() {
        let page = legend_html(&Frame::default());
        for words in ["DANGER", "WARNING", "CAUTION", "NOTICE"] {
            assert!(page.contains(&format!(">{words}</")), "{words}");
        }
        assert_eq!(page.matches("class=\"shows\"").count(), SIGNS.len() + 3);
        let (_, marks) = page.split_once("class=\"watermark\"").unwrap();
        for key in ["packet-mark-draft", "packet-mark-outdated"] {
            let word = Language::English.word(key);
            assert!(marks.contains(&format!("<p>{word}</p>")), "{word}");
        }
    }
}
