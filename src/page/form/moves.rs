//! The sheet of settings and moves: what is set and moved at the machine, with blanks for positions.

use serde::Serialize;

use super::brief::{self, Signalled};
use crate::language::Language;
use crate::packet::model::{Change, Packet, RailLayout, Reading, Step};
use crate::page::packet::{BlankView, MoveView, PacketView, RailView, SettingView, StepView};

/// The sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(super) struct Sheet<'a> {
    /// Settings that change or are new.
    changing: Vec<&'a SettingView>,
    /// Settings that stay.
    staying: Vec<&'a SettingView>,
    /// Rails.
    rails: Vec<Rail<'a>>,
}

/// A rail with the blanks of its positions.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Rail<'a> {
    rail: &'a RailView,
    /// Energy that the steps in its zone need; empty when it does not matter.
    needs: Vec<&'a str>,
    /// Steps in its zone; may be empty.
    numbers: String,
    /// Hazards of these steps, by name.
    hazards: Vec<Signalled>,
    /// Steps that have blanks for its positions: one column each.
    columns: Vec<u32>,
    rows: Vec<Row<'a>>,
}

/// A move, or a holder that stays, with a blank a column.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
struct Row<'a> {
    holder: &'a MoveView,
    /// Limits of its blanks, which are those of the holder; empty when nobody measures it.
    limits: String,
    blanks: Vec<Option<&'a BlankView>>,
}

/// A step with its words.
type Worded<'a> = (&'a Step, &'a StepView);

/// The sheet of a packet.
pub(super) fn sheet<'a>(packet: &'a Packet, view: &'a PacketView) -> Sheet<'a> {
    let steps: Vec<Worded> = packet.steps.iter().zip(&view.steps).collect();
    let (changing, staying): (Vec<_>, Vec<_>) = packet
        .settings
        .iter()
        .zip(&view.settings)
        .partition(|(setting, _)| setting.change != Change::Keep);
    Sheet {
        changing: changing.into_iter().map(|(_, view)| view).collect(),
        staying: staying.into_iter().map(|(_, view)| view).collect(),
        rails: packet
            .rails
            .iter()
            .zip(&view.rails)
            .map(|pair| rail(packet.language, pair, &steps))
            .collect(),
    }
}

fn rail<'a>(
    language: Language,
    (layout, rail): (&'a RailLayout, &'a RailView),
    steps: &[Worded<'a>],
) -> Rail<'a> {
    let is_here = |(step, _): &&Worded| {
        step.stays.is_none() && step.zone.as_deref() == Some(layout.zone.as_str())
    };
    let here: Vec<Worded> = steps.iter().filter(is_here).copied().collect();
    let numbers: Vec<u32> = here.iter().map(|(step, _)| step.number).collect();
    let mut needs: Vec<&str> = here.iter().map(|(_, view)| view.needs.as_str()).collect();
    needs.retain(|words| !words.is_empty());
    needs.dedup();
    let measuring: Vec<Worded> = here
        .iter()
        .filter(|(step, _)| {
            step.readings.iter().any(|reading| holder(layout, step, reading).is_some())
        })
        .copied()
        .collect();
    Rail {
        rail,
        needs,
        numbers: brief::ranges(&numbers),
        hazards: brief::hazards(here.iter().map(|(_, view)| *view)),
        columns: measuring.iter().map(|(step, _)| step.number).collect(),
        rows: rail.moves.iter().map(|line| row(language, layout, line, &measuring)).collect(),
    }
}

fn row<'a>(
    language: Language,
    layout: &RailLayout,
    line: &'a MoveView,
    measuring: &[Worded<'a>],
) -> Row<'a> {
    let reading = |step: &'a Step| {
        let is_of = |reading: &&Reading| holder(layout, step, reading) == Some(&line.holder);
        step.readings.iter().find(is_of)
    };
    let blank = |(step, view): &Worded<'a>| brief::find(view, &step.short_name(&reading(step)?.id));
    let measured = measuring.iter().find_map(|(step, _)| reading(step));
    Row {
        holder: line,
        limits: measured.map_or(String::new(), |one| brief::limits(language, one)),
        blanks: measuring.iter().map(blank).collect(),
    }
}

/// The number of the holder whose position a reading is: its row begins with the number, and the
/// rail's name begins its label.
fn holder<'a>(layout: &RailLayout, step: &'a Step, reading: &Reading) -> Option<&'a String> {
    let row = step.rows().find(|row| row.readings.contains(&reading.id))?;
    let number = row.cells.first()?;
    let stands = |number: &str| {
        let mut holders = layout.holders.iter();
        holders.any(|one| {
            one.number.to_string() == number && Some(&one.new) == reading.target.as_ref()
        })
    };
    (reading.label.starts_with(&layout.name) && stands(number)).then_some(number)
}
