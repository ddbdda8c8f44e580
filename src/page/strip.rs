//! Marking strips: the places of each rail at full size, to print, cut out and lay on the rail.
//!
//! A sheet of paper stretches, and a printer scales as it likes: each sheet carries a bar of 100 mm
//! that is measured before the strip is used, and says that the reading counts. Must never be the
//! only place of a number, and must never be shown without that bar.

mod draw;
mod rail;
mod split;

use std::sync::LazyLock;

use serde::Serialize;

use crate::language::Language;
use crate::packet::model::{Packet, RailKind, RailLayout};

use super::packet::{PacketIssue, cautions, stamps, style};
use super::{SITE_CSS, drawing, render, words};
use draw::{Plan, bar};
use rail::{MOST_MARKS, MOST_METRES, NoStrip, Ruled};
use split::split;

/// What strips add to the style of the site.
pub(super) const STRIP_CSS: &str = include_str!("../../site/assets/strip.css");

/// Height inside the margins of the lower of the two sheets, A4 in landscape: 210 mm less 18 mm.
const SHEET: i64 = 191_000;
/// Width inside the margins of the narrower one, Letter in landscape.
const ACROSS: i64 = 259_000;
/// Width of the notes beside the bar.
const NOTES: i64 = 144_000;
/// Height of a line of the notes, 9 pt.
const NOTE_LINE: i64 = 3_800;
/// Height of the bar with what stands under it.
const BAR: i64 = 19_000;

/// The strips of a packet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct StripView {
    job: String,
    machine: String,
    digest: String,
    short_digest: String,
    state: String,
    /// What stands across each sheet.
    stamps: Vec<&'static str>,
    /// The same as sentences.
    cautions: Vec<String>,
    program: String,
    /// Length of the bar as people read it: `100.0`.
    length: String,
    /// The bar of 100 mm, SVG.
    bar: String,
    sheets: Vec<SheetView>,
}

/// One sheet of paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct SheetView {
    number: usize,
    rail: String,
    /// Segments on this sheet, in words; empty when the rail has no strip.
    segments: String,
    /// Where marks stand, and what is read.
    notes: Vec<String>,
    /// Segments, SVG.
    drawings: Vec<String>,
    /// Why there is no strip, in words; empty when there is one.
    problem: String,
}

/// The style of a strip, taken apart once.
static SHEETS: LazyLock<[style::Sheet; 2]> =
    LazyLock::new(|| [SITE_CSS, STRIP_CSS].map(style::Sheet::read));

/// What the template gets.
#[derive(Serialize)]
struct Page<'a> {
    p: &'a StripView,
}

/// Whether a packet has a rail with something to mark.
pub fn has_strips(packet: &Packet) -> bool {
    packet.rails.iter().any(has_positions)
}

/// Makes the page of a packet's marking strips, complete and self-contained.
///
/// A packet without a rail gives a page that says so.
pub fn strip_html(packet: &Packet, digest: &str, issue: &PacketIssue) -> String {
    let view = StripView::new(packet, digest, issue);
    let page = render(packet.language, "strip.html", &Page { p: &view });
    let [site, strip] = &*SHEETS;
    style::put(&page, &[site, strip])
}

fn has_positions(rail: &RailLayout) -> bool {
    !rail.holders.is_empty() || rail.moves.iter().any(|step| step.direction == "off")
}

impl StripView {
    fn new(packet: &Packet, digest: &str, issue: &PacketIssue) -> StripView {
        let rails = packet.rails.iter().filter(|rail| has_positions(rail));
        let sheets = rails.flat_map(|rail| sheets(packet, rail, digest, issue));
        StripView {
            job: packet.job.id.clone(),
            machine: packet.machine.name.clone(),
            digest: digest.to_owned(),
            short_digest: words::short_digest(digest),
            state: issue.state.clone(),
            stamps: stamps(packet, issue, packet.language),
            cautions: cautions(packet, issue, packet.language),
            program: issue.program.clone(),
            length: format!("100{}0", packet.language.decimal_sign()),
            bar: bar(packet.language.word("strip-bar")),
            sheets: sheets.zip(1..).map(|(sheet, number)| SheetView { number, ..sheet }).collect(),
        }
    }
}

/// The sheets of one rail: its segments, or the reason why it has none.
fn sheets(packet: &Packet, rail: &RailLayout, digest: &str, issue: &PacketIssue) -> Vec<SheetView> {
    let language = packet.language;
    let sheet = SheetView {
        number: 0,
        rail: match rail.bar.as_str() {
            "" => rail.name.clone(),
            bar => format!("{}, {bar}", rail.name),
        },
        segments: String::new(),
        notes: Vec::new(),
        drawings: Vec::new(),
        problem: String::new(),
    };
    match segments(packet, rail, digest, issue, &sheet.rail) {
        Err(why) => vec![SheetView { problem: problem(why, language), ..sheet }],
        Ok(strip) => {
            let of = strip.drawings.len();
            let chunks = strip.drawings.chunks(strip.on_a_sheet).enumerate();
            let sheet_of = |(index, drawings): (usize, &[String])| {
                let first = index * strip.on_a_sheet + 1;
                SheetView {
                    segments: counted(language, first, first + drawings.len() - 1, of),
                    notes: strip.notes.clone(),
                    drawings: drawings.to_vec(),
                    ..sheet.clone()
                }
            };
            chunks.map(sheet_of).collect()
        }
    }
}

/// `segments 1 to 3 of 3`.
fn counted(language: Language, first: usize, last: usize, of: usize) -> String {
    if first == last {
        return language.text("strip-segment", &[("number", first.into()), ("of", of.into())]);
    }
    let parts = [("first", first.into()), ("last", last.into()), ("of", of.into())];
    language.text("strip-segments", &parts)
}

/// The strip of one rail.
struct Strip {
    drawings: Vec<String>,
    on_a_sheet: usize,
    notes: Vec<String>,
}

fn segments(
    packet: &Packet,
    rail: &RailLayout,
    digest: &str,
    issue: &PacketIssue,
    name: &str,
) -> Result<Strip, NoStrip> {
    let ruled = Ruled::read(rail)?;
    let marks: Vec<i64> = ruled.marks.iter().map(|mark| mark.at).collect();
    let segments = split(ruled.ends, &marks);
    let digest = words::short_digest(digest);
    let parts =
        [("job", (&packet.job.id).into()), ("rail", name.into()), ("digest", (&digest).into())];
    let plan = Plan {
        ruled: &ruled,
        segments: &segments,
        language: packet.language,
        identity: &packet.language.text("strip-identity", &parts),
        datum: &packet.machine.datum,
        anchor: &drawing::anchor(&rail.id),
    };
    let (rows, notes) = (plan.rows(), notes(packet, &ruled));
    let title = format!("{name} {}", issue.state);
    let on_a_sheet = (SHEET - head(&title, &notes)) / rows.drawn();
    match usize::try_from(on_a_sheet) {
        Ok(0) | Err(_) => Err(NoStrip::TooClose),
        Ok(on_a_sheet) => Ok(Strip {
            drawings: segments.iter().map(|segment| plan.svg(segment, rows)).collect(),
            on_a_sheet,
            notes,
        }),
    }
}

/// Height of what stands above the segments: no segment may end on a sheet without its bar.
fn head(title: &str, notes: &[String]) -> i64 {
    const TITLE_LINE: i64 = 6_000;
    /// A letter of 9 pt, with room for wider faces.
    const LETTER: i64 = 1_550;
    /// Letters of job, segments, page and digest beside the title.
    const BESIDE: i64 = 80;
    let letters = |text: &str| i64::try_from(text.chars().count()).unwrap_or(0);
    let title = (letters(title) + BESIDE) * LETTER * 6 / 5 / ACROSS + 1;
    let notes: i64 = notes.iter().map(|note| letters(note) * LETTER / NOTES + 1).sum();
    title * TITLE_LINE + TITLE_LINE / 2 + BAR.max(notes * NOTE_LINE)
}

/// What somebody has to know who lays the strip on.
fn notes(packet: &Packet, ruled: &Ruled) -> Vec<String> {
    let (language, rail) = (packet.language, ruled.rail);
    let mut notes = vec![match rail.kind {
        RailKind::Knives => language.word("strip-at-tip"),
        RailKind::Guides => language.word("strip-at-face"),
    }];
    if ruled.has_middles() {
        notes.push(language.word("strip-at-middle"));
    }
    let mut notes: Vec<String> = notes.into_iter().map(str::to_owned).collect();
    let instrument =
        packet.instruments.iter().find(|one| Some(&one.id) == rail.instrument.as_ref());
    notes.push(match instrument {
        Some(instrument) => {
            language.text("strip-counts", &[("instrument", (&instrument.name).into())])
        }
        None => language.word("strip-counts-any").to_owned(),
    });
    notes.push(language.text("strip-lay", &[("datum", (&packet.machine.datum).into())]));
    notes.push(language.word("strip-join").to_owned());
    notes.push(language.word("strip-first").to_owned());
    notes
}

fn problem(why: NoStrip, language: Language) -> String {
    match why {
        NoStrip::Unreadable => language.word("strip-unreadable").to_owned(),
        NoStrip::TooMany(count) => {
            let parts =
                [("count", count.to_string().into()), ("most", MOST_MARKS.to_string().into())];
            language.text("strip-too-many", &parts)
        }
        NoStrip::TooLong => {
            language.text("strip-too-long", &[("most", MOST_METRES.to_string().into())])
        }
        NoStrip::TooClose => language.word("strip-too-close").to_owned(),
    }
}

#[cfg(test)]
mod tests;
