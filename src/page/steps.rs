//! The tablet's page: one step at a time, filled in at the machine.
//!
//! [`StepsView`] is what the page says and what its script has to know: every blank with its limits as
//! they stand in the packet, every signature that is asked for. Must never judge: the script judges
//! what is typed, and the desk judges again when it goes on record.

use serde::Serialize;

use super::packet::{
    BlankView, ConsideredView, HazardView, JobLines, MachineLines, PacketView, RecipeLine, StepView,
};
use super::render;
use super::site::Fact;
use crate::language::Language;
use crate::packet::model::{
    Exception, Guard, Meaning, Packet, Reading, Row, Sign, Stage, Step, Table,
};
use crate::quantity::fraction_of;

/// What the page needs that is not in the packet.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Desk {
    /// Who works here.
    pub people: Vec<PersonLine>,
    /// Namespace of signatures.
    pub namespace: String,
    /// Number of the last entry on record; 0 without a record.
    pub seq: u64,
    /// What the next entry's `prev` has to be.
    pub prev: String,
    /// How far its record is, in words; may be empty.
    pub state: String,
    /// Whether the plant's files have changed since the packet was first signed.
    pub is_outdated: bool,
}

/// Somebody who can be picked.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct PersonLine {
    /// The principal in the list of signers.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Roles held on the day of the job.
    pub roles: Vec<String>,
}

/// Everything the page says.
#[derive(Debug, Clone, Serialize)]
pub struct StepsView<'a> {
    #[serde(skip)]
    language: Language,
    /// Sign before the decimals.
    pub decimal: char,
    /// Name of the plant.
    pub plant: &'a str,
    /// The plant's own caution; may be empty.
    pub note: &'a str,
    /// The job.
    pub job: &'a JobLines,
    /// When the packet was issued, RFC 3339.
    pub issued: &'a str,
    /// The machine.
    pub machine: &'a MachineLines,
    /// Recipe on the machine now.
    pub from: &'a RecipeLine,
    /// Recipe wanted.
    pub to: &'a RecipeLine,
    /// What was considered and is not needed.
    pub considered: &'a [ConsideredView],
    /// SHA-256 of the packet.
    pub digest: &'a str,
    /// Its first 16 digits.
    pub short_digest: &'a str,
    /// Drawings of the safety signs that the page shows, as markup.
    pub symbols: &'a str,
    /// Errors of the check that the plant answers for.
    pub exceptions: &'a [Exception],
    /// Messages that stand before no step, or before all.
    pub hazards: &'a [HazardView],
    /// Path of the packet from the site's root.
    pub packet: String,
    /// Path of the job's page from the site's root.
    pub page: String,
    /// Path of its record; empty when there is none.
    pub record: String,
    /// What is not in the packet.
    pub desk: &'a Desk,
    /// The steps in order.
    pub steps: Vec<FillStep<'a>>,
}

/// A step to fill in.
#[derive(Debug, Clone, Serialize)]
pub struct FillStep<'a> {
    /// As worded on every page.
    pub says: &'a StepView,
    /// Identifier.
    pub id: &'a str,
    /// Part in the lockout.
    pub stage: Stage,
    /// What the reader must know of its procedure's translation; mostly empty.
    pub flag: &'a str,
    /// Whether each row is signed by one person in person, when the checks are ticked.
    pub is_personal: bool,
    /// Uncertainties of its measurements; may be empty.
    pub guards: String,
    /// Number of the first thing to tick at its end: those to tick before it begins come first.
    pub first_check: usize,
    /// Rows.
    pub rows: Vec<FillRow<'a>>,
    /// Blanks that stand in no row.
    pub blanks: Vec<FillBlank<'a>>,
    /// Signatures of the whole step.
    pub signs: Vec<FillSign<'a>>,
}

/// A row to fill in.
#[derive(Debug, Clone, Serialize)]
pub struct FillRow<'a> {
    /// Number on the sheet; empty where rows are not signed.
    pub number: &'a str,
    /// Name of the row where it is signed by itself; else empty.
    pub id: &'a str,
    /// What its cells say, by the heads of their columns.
    pub cells: Vec<Fact>,
    /// Its blanks.
    pub blanks: Vec<FillBlank<'a>>,
    /// Its signatures.
    pub signs: Vec<FillSign<'a>>,
}

/// A blank to fill in. A limit that does not exist is empty.
#[derive(Debug, Clone, Serialize)]
pub struct FillBlank<'a> {
    /// As worded on every page.
    pub says: &'a BlankView,
    /// Name of its field on the page.
    pub field: String,
    /// Identifier in the packet.
    pub id: &'a str,
    /// Least value that passes.
    pub low: &'a str,
    /// Greatest value that passes.
    pub high: &'a str,
    /// Least value that is surely within.
    pub guard_low: &'a str,
    /// Greatest value that is surely within.
    pub guard_high: &'a str,
    /// Below this it is surely outside.
    pub outer_low: &'a str,
    /// Above this it is surely outside.
    pub outer_high: &'a str,
    /// Identifier of the instrument; may be empty.
    pub instrument: &'a str,
    /// The denominator of its marks; 0 when it is not marked in fractions.
    pub marks: u32,
    /// Whether digits and a decimal sign are all that is typed.
    pub is_plain: bool,
    /// Whether nobody may accept it outside its limits.
    pub is_never_accepted: bool,
    /// Which of the step's texts says what to do when it is outside, from 0; empty when there is none.
    pub outside: String,
}

/// A signature to give.
#[derive(Debug, Clone, Serialize)]
pub struct FillSign<'a> {
    /// What it means.
    pub meaning: Meaning,
    /// The role it needs.
    pub role: &'a str,
    /// The only person who may give it; empty when everybody with the role may.
    pub by: &'a str,
    /// Name of that person.
    pub name: &'a str,
    /// Everybody who has a personal lock on at some time, where who checks inside needs one; else empty.
    pub crew: String,
}

impl<'a> StepsView<'a> {
    /// What the page of a packet says; `p` is the same packet as worded.
    pub fn new(
        packet: &'a Packet,
        p: &'a PacketView,
        line: &super::site::JobLine,
        desk: &'a Desk,
    ) -> StepsView<'a> {
        StepsView {
            language: packet.language,
            decimal: packet.language.decimal_sign(),
            plant: &p.plant,
            note: &p.note,
            job: &p.job,
            issued: &packet.job.issued,
            machine: &p.machine,
            from: &p.from,
            to: &p.to,
            considered: &p.considered,
            digest: &p.digest,
            short_digest: &p.short_digest,
            symbols: &p.symbols,
            exceptions: &p.exceptions,
            hazards: &p.hazards,
            packet: super::paths::packet(&line.id),
            page: line.page.clone(),
            record: line.record.clone(),
            desk,
            steps: packet
                .steps
                .iter()
                .zip(&p.steps)
                .map(|(step, says)| fill_step(packet, step, says))
                .collect(),
        }
    }
}

/// The tablet's page of a packet, for [`super::paths::steps`].
pub fn steps_html(view: &StepsView) -> String {
    render(view.language, "steps.html", view)
}

fn fill_step<'a>(packet: &'a Packet, step: &'a Step, says: &'a StepView) -> FillStep<'a> {
    let blank = |reading: &'a Reading| fill_blank(step, says, reading);
    let in_rows = |reading: &&Reading| step.rows().any(|row| row.readings.contains(&reading.id));
    let rows = step.table.iter().flat_map(|table| fill_rows(packet, step, says, table));
    let loose = step.readings.iter().filter(|reading| !in_rows(reading));
    FillStep {
        says,
        id: &step.id,
        stage: step.stage,
        flag: flag(packet, step),
        is_personal: step.signs.iter().any(|sign| sign.by.is_some()),
        guards: says.guards.join("; "),
        first_check: step.first.len(),
        rows: rows.collect(),
        blanks: loose.filter_map(blank).collect(),
        signs: signs(packet, step, None),
    }
}

fn flag<'a>(packet: &'a Packet, step: &Step) -> &'a str {
    let known = packet.procedures.iter().find(|procedure| procedure.id == step.procedure);
    known.map_or("", |procedure| &procedure.flag)
}

fn fill_rows<'a>(
    packet: &'a Packet,
    step: &'a Step,
    says: &'a StepView,
    table: &'a Table,
) -> Vec<FillRow<'a>> {
    let worded = says.tables.iter().flat_map(|table| &table.rows);
    let row = |(row, worded): (&'a Row, &'a super::packet::RowView)| {
        let own = step.readings.iter().filter(|reading| row.readings.contains(&reading.id));
        let cells = table.columns.iter().zip(&worded.cells);
        FillRow {
            number: &worded.number,
            id: &row.id,
            cells: cells.map(|(name, value)| Fact::new(name, value)).collect(),
            blanks: own.filter_map(|reading| fill_blank(step, says, reading)).collect(),
            signs: match row.id.as_str() {
                "" => Vec::new(),
                id => signs(packet, step, Some(id)),
            },
        }
    };
    table.rows.iter().zip(worded).map(row).collect()
}

/// The blank with its words; every reading of a step has some.
fn fill_blank<'a>(
    step: &'a Step,
    says: &'a StepView,
    reading: &'a Reading,
) -> Option<FillBlank<'a>> {
    let code = step.short_name(&reading.id);
    let rows = says.tables.iter().flat_map(|table| &table.rows);
    let mut worded = says.blanks.iter().chain(rows.flat_map(|row| &row.blanks));
    let place = step.readings.iter().position(|own| own.id == reading.id)?;
    let guard = |side: fn(&Guard) -> &Option<String>| {
        reading.guard.as_ref().map_or("", |guard| text(side(guard)))
    };
    let outside = says.outside.iter().position(|words| *words == reading.outside);
    let instrument = reading.instrument.as_ref();
    let marks = instrument.and_then(|instrument| fraction_of(&instrument.resolution)).unwrap_or(0);
    let may_be_negative =
        [&reading.low, &reading.high].iter().any(|end| text(end).starts_with('-'));
    Some(FillBlank {
        says: worded.find(|blank| blank.code == code)?,
        field: format!("blank-{}-{}", step.number, place + 1),
        id: &reading.id,
        low: text(&reading.low),
        high: text(&reading.high),
        guard_low: guard(|guard| &guard.low),
        guard_high: guard(|guard| &guard.high),
        outer_low: guard(|guard| &guard.outer_low),
        outer_high: guard(|guard| &guard.outer_high),
        instrument: instrument.map_or("", |instrument| &instrument.id),
        marks,
        is_plain: marks == 0 && !may_be_negative,
        is_never_accepted: step.is_never_accepted(reading),
        outside: outside.map_or(String::new(), |at| at.to_string()),
    })
}

fn text(limit: &Option<String>) -> &str {
    limit.as_deref().unwrap_or("")
}

/// The signatures of a row, or of the step as a whole.
fn signs<'a>(packet: &'a Packet, step: &'a Step, row: Option<&str>) -> Vec<FillSign<'a>> {
    let own = step.signs.iter().filter(|sign| sign.row.as_deref() == row);
    own.map(|sign| fill_sign(packet, step, sign)).collect()
}

fn fill_sign<'a>(packet: &'a Packet, step: &Step, sign: &'a Sign) -> FillSign<'a> {
    let by = sign.by.as_deref().unwrap_or("");
    let crew = match sign.meaning {
        Meaning::Verified if step.reaches_in() => locks_on(packet),
        _ => String::new(),
    };
    FillSign { meaning: sign.meaning, role: &sign.role, by, name: name_of(packet, by), crew }
}

/// Everybody who signs a personal lock, where the packet has steps for it.
fn locks_on(packet: &Packet) -> String {
    let group = packet.job.lockout.as_ref().filter(|_| !packet.personal_locks().is_empty());
    let people = group.map(|group| group.people().into_iter().collect::<Vec<_>>());
    people.unwrap_or_default().join(" ")
}

/// The name of one who works under the lockout; the identifier where it has none.
fn name_of<'a>(packet: &'a Packet, id: &'a str) -> &'a str {
    let group = packet.job.lockout.iter();
    let mut members = group.flat_map(|group| {
        let changed = group.shift_change.iter();
        let arriving = changed.flat_map(|change| change.crew.iter().chain(&change.primary));
        group.crew.iter().chain(&group.primary).chain(&group.coordinator).chain(arriving)
    });
    members.find(|member| member.id == id).map_or(id, |member| &member.name)
}

#[cfg(test)]
mod tests {
    use super::{Desk, PersonLine, StepsView, steps_html};
    use crate::language::Language;
    use crate::packet::model::{Meaning, Packet, Sign};
    use crate::page::packet::PacketView;
    use crate::page::sample;
    use crate::page::site::JobLine;
    use crate::record::fixture;

    fn page(packet: &Packet, desk: &Desk) -> String {
        let worded = PacketView::new(packet, &sample::digest(), &sample::issue());
        steps_html(&StepsView::new(packet, &worded, &JobLine::default(), desk))
    }

    #[test]
    fn the_policy_lets_only_the_sites_own_script_in() {
        let page = page(&sample::packet(), &Desk::default());
        assert!(page.contains("style-src 'self'; script-src 'self'; base-uri 'none'"), "{page}");
        assert!(!page.contains(" style=") && !page.contains("unsafe"), "{page}");
        let scripts: Vec<&str> = page.split("<script ").skip(1).collect();
        assert!(!scripts.is_empty());
        for script in scripts {
            assert!(script.starts_with("src=\"../assets/"), "{script:.60}");
            assert!(script.split('>').nth(1) == Some("</script"), "{script:.60}");
        }
    }

    #[test]
    fn every_blank_and_signature_of_the_packet_can_be_filled_in() {
        for packet in [sample::packet(), fixture::packet()] {
            let page = page(&packet, &Desk::default());
            for step in packet.steps.iter().filter(|step| step.stays.is_none()) {
                for reading in &step.readings {
                    let field = format!("data-blank=\"{}\"", reading.id);
                    assert_eq!(page.matches(&field).count(), 1, "{}", reading.id);
                }
            }
            let asked = packet.steps.iter().filter(|step| step.stays.is_none());
            let asked = asked.flat_map(|step| &step.signs);
            let here = asked.filter(|sign| sign.meaning != Meaning::Released).count();
            assert_eq!(page.matches("data-sign=").count(), here);
            assert!(page.contains("signed at the desk, not here"));
        }
    }

    #[test]
    fn a_zero_says_that_nobody_may_accept_it() {
        let packet = fixture::packet();
        let desk = Desk::default();
        let worded = PacketView::new(&packet, &fixture::digest(), &sample::issue());
        let view = StepsView::new(&packet, &worded, &JobLine::default(), &desk);
        let zero = fixture::VERIFY_READING;
        let blanks = view.steps.iter().flat_map(|step| {
            step.blanks.iter().chain(step.rows.iter().flat_map(|row| &row.blanks))
        });
        let found: Vec<_> = blanks.filter(|blank| blank.id == zero).collect();
        assert_eq!(found.len(), 1);
        assert!(found[0].is_never_accepted);
        assert_eq!(found[0].high, "0");
    }

    #[test]
    fn a_row_is_signed_where_it_stands_and_a_step_once() {
        let packet = fixture::packet();
        let desk = Desk::default();
        let worded = PacketView::new(&packet, &fixture::digest(), &sample::issue());
        let view = StepsView::new(&packet, &worded, &JobLine::default(), &desk);
        for (step, shown) in packet.steps.iter().zip(&view.steps) {
            let of = |row: Option<&str>| -> Vec<&Sign> {
                step.signs.iter().filter(|sign| sign.row.as_deref() == row).collect()
            };
            assert_eq!(shown.signs.len(), of(None).len(), "{}", step.id);
            for row in shown.rows.iter().filter(|row| !row.id.is_empty()) {
                assert_eq!(row.signs.len(), of(Some(row.id)).len(), "{}", step.id);
            }
        }
    }

    #[test]
    fn texts_of_a_plant_are_never_markup() {
        let attack = "<script>x</script>\"'";
        let mut packet = sample::packet();
        packet.job.order = attack.to_owned();
        packet.plant.note = attack.to_owned();
        for step in &mut packet.steps {
            step.title = attack.to_owned();
            step.checks = vec![attack.to_owned()];
            step.readings.iter_mut().for_each(|reading| reading.label = attack.to_owned());
            step.readings.iter_mut().for_each(|reading| reading.outside = attack.to_owned());
        }
        let roles = vec![attack.to_owned()];
        let person = PersonLine { id: attack.to_owned(), name: attack.to_owned(), roles };
        let desk = Desk { people: vec![person], ..Desk::default() };
        let page = page(&packet, &desk);
        assert!(page.contains("&lt;script&gt;x"), "{page}");
        assert!(!page.contains("<script>") && !page.contains("\"'\""), "{page}");
    }

    #[test]
    fn the_page_speaks_the_language_of_its_packet() {
        let mut packet = sample::packet();
        packet.language = Language::German;
        let page = page(&packet, &Desk::default());
        assert!(page.contains("<html lang=\"de\">") && page.contains("data-decimal=\",\""));
        let (first, last) = (1, packet.steps.len());
        assert!(page.contains(&format!("Schritt {first} von {last}")), "{page}");
    }
}
