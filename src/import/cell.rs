//! One cell understood: a text, a day, a quantity, a tolerance. What is not understood says why.

use super::mapping::{ColumnEntry, Mapping};
use super::table::Cell;
use crate::language::Words;
use crate::plant::machine;
use crate::quantity::{Allowed, Measure, Number, Rounding, Unit};

/// The word of a mapping for numbers without a unit.
pub(super) const NO_UNIT: &str = "none";

/// A cell with what its column says of it.
pub(super) struct Reader<'a> {
    pub(super) mapping: &'a Mapping,
    pub(super) column: &'a ColumnEntry,
}

/// What was understood, and what is to be said of it all the same.
pub(super) struct Read {
    pub(super) text: String,
    pub(super) note: Option<Words>,
}

impl Reader<'_> {
    /// A text: a name, an identifier, a revision.
    pub(super) fn text(&self, cell: &Cell) -> Result<String, Words> {
        let text = match cell {
            Cell::Text(text) => text.trim(),
            Cell::Number(text) => text.as_str(),
            other => return Err(not_there(other)),
        };
        if text.is_empty() {
            return Err(not_there(&Cell::Empty));
        }
        if text.chars().any(char::is_control) {
            return Err(Words::of("import-control"));
        }
        self.named(text)
    }

    /// What is meant by a text, where the mapping says so.
    fn named(&self, text: &str) -> Result<String, Words> {
        let named = &self.column.named;
        match named.get(text) {
            Some(meant) => Ok(meant.clone()),
            None if named.is_empty() => Ok(text.to_owned()),
            None => Err(Words::new("import-not-named", &[("text", text.into())])),
        }
    }

    /// Several texts of one cell.
    pub(super) fn texts(&self, cell: &Cell) -> Result<Vec<String>, Words> {
        let Some(apart) = self.column.apart.as_deref().filter(|apart| !apart.is_empty()) else {
            return Ok(vec![self.text(cell)?]);
        };
        let parts = cell.shown().split(apart).map(|part| Cell::Text(part.trim().to_owned()));
        parts.filter(|part| !part.is_empty()).map(|part| self.text(&part)).collect()
    }

    /// A day, as `YYYY-MM-DD`.
    pub(super) fn day(&self, cell: &Cell) -> Result<String, Words> {
        let form = self.mapping.dates.as_deref().unwrap_or("YYYY-MM-DD");
        match cell {
            Cell::Day(day) => Ok(day.clone()),
            Cell::Text(text) => day_of(text.trim(), form).ok_or_else(|| {
                Words::new("import-not-a-day", &[("text", text.into()), ("form", form.into())])
            }),
            Cell::Number(text) => {
                Err(Words::new("import-not-a-day", &[("text", text.into()), ("form", form.into())]))
            }
            other => Err(not_there(other)),
        }
    }

    /// A quantity, as recipes write it: `28.5 mm`.
    pub(super) fn quantity(&self, cell: &Cell) -> Result<Read, Words> {
        let (read, unit) = match cell {
            Cell::Number(text) => (self.rounded(text)?, ""),
            Cell::Text(text) => {
                let (number, unit) = parted(text.trim());
                (self.number(number)?, unit)
            }
            other => return Err(not_there(other)),
        };
        let unit = self.unit(unit)?;
        let text = if unit.is_empty() { read.text } else { format!("{} {unit}", read.text) };
        match Measure::parse(&text) {
            Ok(_) => Ok(Read { text, note: read.note }),
            Err(_) => Err(not_understood(&text)),
        }
    }

    /// A tolerance: `5` and `±5` are both sides, `+0.3/-0.1` are two, all else is written as in recipes.
    pub(super) fn tolerance(&self, cell: &Cell) -> Result<Read, Words> {
        let written = match cell {
            Cell::Text(text) => text.trim(),
            Cell::Number(text) if !text.starts_with('-') => text.as_str(),
            other => return Err(not_there(other)),
        };
        let (text, note) = match written.strip_prefix('±').or(written.strip_prefix("+/-")) {
            Some(both) => self.both(both)?,
            None if written.starts_with('+') => self.two(written)?,
            None if written.starts_with(|c: char| c.is_ascii_digit())
                && !written.contains(" to ") =>
            {
                self.both(written)?
            }
            None => (written.to_owned(), None),
        };
        match Allowed::parse(&text) {
            Ok(_) => Ok(Read { text, note }),
            Err(_) => Err(not_understood(written)),
        }
    }

    fn both(&self, text: &str) -> Result<(String, Option<Words>), Words> {
        let Read { text, note } = self.quantity(&Cell::Text(text.to_owned()))?;
        Ok((format!("±{text}"), note))
    }

    fn two(&self, text: &str) -> Result<(String, Option<Words>), Words> {
        let (above, below) = text.split_once('/').ok_or_else(|| not_understood(text))?;
        let (below, unit) = parted(below.trim());
        let above = self.number(above.trim().trim_start_matches('+'))?;
        let below = self.number(below.trim_start_matches(['-', '\u{2212}']))?;
        let unit = self.unit(unit)?;
        let text = format!("+{}/-{} {unit}", above.text, below.text);
        Ok((text.trim_end().to_owned(), above.note.or(below.note)))
    }

    /// The unit of a number: that of its column, or the one it brings along. Never none by itself.
    fn unit(&self, own: &str) -> Result<String, Words> {
        let column = self.column.unit.as_deref();
        match (column, own) {
            (Some(NO_UNIT), "") => Ok(String::new()),
            (Some(unit), "") => Ok(unit.to_owned()),
            (None, "") => Err(Words::of("import-no-unit")),
            (None, own) if Unit::find(own).is_some() => Ok(own.to_owned()),
            (None, own) => Err(Words::new("import-unknown-unit", &[("unit", own.into())])),
            (Some(unit), own) if same_unit(unit, own) => Ok(unit.to_owned()),
            (Some(unit), own) => {
                let parts = [("own", own.into()), ("unit", unit.into())];
                Err(Words::new("import-other-unit", &parts))
            }
        }
    }

    /// A number that is text, with a decimal point and no other sign in it.
    fn number(&self, text: &str) -> Result<Read, Words> {
        let text = text.trim().replace('\u{2212}', "-");
        // A fraction is exact as it stands: 2 1/4.
        if text.contains('/') {
            let is_number = Number::parse(&text).is_ok();
            return if is_number {
                Ok(Read { text, note: None })
            } else {
                Err(not_understood(&text))
            };
        }
        let sign = self.mapping.decimal.letter();
        let (whole, decimals) = text.split_once(sign).unwrap_or((&text, ""));
        let whole = self.without_thousands(whole).ok_or_else(|| wrong_sign(&text, sign))?;
        let is_digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
        let digits = whole.strip_prefix(['-', '+']).unwrap_or(&whole);
        if digits.is_empty() || !is_digits(digits) || !is_digits(decimals) {
            return Err(wrong_sign(&text, sign));
        }
        let whole = whole.strip_prefix('+').unwrap_or(&whole);
        let is_whole = decimals.is_empty();
        self.rounded(&if is_whole { whole.to_owned() } else { format!("{whole}.{decimals}") })
    }

    /// The digits before the decimal sign; none when thousands are parted otherwise than by three.
    fn without_thousands(&self, whole: &str) -> Option<String> {
        let Some(apart) = self.mapping.thousands.as_deref().filter(|sign| !sign.is_empty()) else {
            return Some(whole.to_owned());
        };
        let mut groups = whole.split(apart);
        let first = groups.next()?;
        let is_three = |group: &str| group.len() == 3;
        let is_right = groups.clone().all(is_three)
            && (groups.clone().next().is_none() || (1..=4).contains(&first.len()));
        is_right.then(|| groups.fold(first.to_owned(), |all, group| all + group))
    }

    /// A decimal with no more decimals than its column allows; rounded only where it says so.
    fn rounded(&self, text: &str) -> Result<Read, Words> {
        let most = self.column.decimals.unwrap_or(self.mapping.decimals);
        let written =
            text.split_once('.').map_or(0, |(_, decimals)| decimals.trim_end_matches('0').len());
        if written <= most as usize {
            let text = match text.split_once('.') {
                Some(_) => text.trim_end_matches('0').trim_end_matches('.'),
                None => text,
            };
            return Ok(Read { text: text.to_owned(), note: None });
        }
        if !self.column.round {
            let parts = [
                ("text", text.into()),
                ("decimals", written.into()),
                ("most", (most as usize).into()),
            ];
            return Err(Words::new("import-too-exact", &parts));
        }
        let taken = rounded(text, most).ok_or_else(|| not_understood(text))?;
        let parts = [("text", text.into()), ("taken", taken.as_str().into())];
        Ok(Read { note: Some(Words::new("import-rounded", &parts)), text: taken })
    }
}

/// A decimal rounded to the nearer, from the middle to the even one (ISO 80000-1, rule A).
fn rounded(text: &str, places: u32) -> Option<String> {
    // A number holds 18 digits; what a binary one has beyond them is below any rounding.
    let (whole, decimals) = text.split_once('.')?;
    let kept: String = decimals.chars().take(18_usize.saturating_sub(whole.len())).collect();
    let number = Number::parse(&format!("{whole}.{kept}")).ok()?;
    let step = Number::last_place(places).ok()?;
    Some(number.round_to_step(step, Rounding::HalfEven).ok()?.shortest(places))
}

/// A number and the unit behind it, which may be one over another: `60 1/min`.
fn parted(text: &str) -> (&str, &str) {
    let begins = |c: char| c.is_alphabetic() || "%°µ".contains(c);
    let at = text.find(begins).unwrap_or(text.len());
    let before = text.get(..at).unwrap_or_default();
    let number = before.strip_suffix(" 1/").unwrap_or(before);
    (number.trim_end(), text.get(number.len()..).unwrap_or_default().trim())
}

fn same_unit(one: &str, two: &str) -> bool {
    let found = [one, two].map(Unit::find);
    matches!(found, [Some(one), Some(two)] if std::ptr::eq(one, two))
}

fn not_there(cell: &Cell) -> Words {
    match cell {
        Cell::Merged => Words::of("import-merged"),
        Cell::Day(day) => Words::new("import-is-a-day", &[("day", day.into())]),
        Cell::Time => Words::of("import-is-a-time"),
        Cell::Truth => Words::of("import-is-a-truth"),
        Cell::Error(error) => Words::new("import-is-an-error", &[("error", error.into())]),
        Cell::Empty => Words::of("import-empty"),
        Cell::Text(text) | Cell::Number(text) => not_understood(text),
    }
}

fn not_understood(text: &str) -> Words {
    Words::new("import-not-understood", &[("text", text.into())])
}

fn wrong_sign(text: &str, sign: char) -> Words {
    let parts = [("text", text.into()), ("sign", sign.to_string().into())];
    Words::new("import-no-number", &parts)
}

/// A day by its form: `DD.MM.YYYY`, each part as long as it is written.
fn day_of(text: &str, form: &str) -> Option<String> {
    let text: Vec<char> = text.chars().collect();
    let form: Vec<char> = form.chars().collect();
    if text.len() != form.len() {
        return None;
    }
    let part = |letter: char| -> String {
        form.iter().zip(&text).filter(|(form, _)| **form == letter).map(|(_, c)| *c).collect()
    };
    let others = form.iter().zip(&text).filter(|(form, _)| !"YMD".contains(**form));
    let are_same = others.into_iter().all(|(form, c)| form == c);
    let day = format!("{}-{}-{}", part('Y'), part('M'), part('D'));
    (are_same && machine::day_of(&day).is_some()).then_some(day)
}

#[cfg(test)]
mod tests {
    use super::{Read, Reader, day_of, rounded};
    use crate::import::mapping::{ColumnEntry, Mapping};
    use crate::import::table::Cell;
    use crate::language::Words;

    /// A mapping with one column, by what is said of it and of the numbers.
    fn with<T>(say: &str, column: &str, run: impl FnOnce(&Reader) -> T) -> T {
        let text =
            format!("{{ pattern: a, {say} columns: {{ C: {{ is: input, of: w, {column} }} }} }}");
        let mapping: Mapping = serde_yaml::from_str(&text).unwrap();
        let column: ColumnEntry = mapping.columns.get("C").unwrap().clone();
        run(&Reader { mapping: &mapping, column: &column })
    }

    #[track_caller]
    fn check(say: &str, column: &str, cell: &Cell, expected: Result<&str, &str>) {
        let read = with(say, column, |reader| reader.quantity(cell));
        let told = |words: Words| words.key();
        let read = read.map(|read| read.text).map_err(told);
        assert_eq!(read.as_deref().map_err(|key| *key), expected, "{cell:?}");
    }

    fn text(text: &str) -> Cell {
        Cell::Text(text.to_owned())
    }

    fn number(text: &str) -> Cell {
        Cell::Number(text.to_owned())
    }

    #[test]
    fn a_number_gets_its_unit_from_the_column_or_brings_the_same() {
        check("", "unit: mm", &text("28.5"), Ok("28.5 mm"));
        check("", "unit: mm", &number("28.5"), Ok("28.5 mm"));
        check("", "unit: mm", &text(" 28.50mm "), Ok("28.5 mm"));
        check("", "unit: mm", &text("2.8 cm"), Err("import-other-unit"));
        check("", "unit: none", &number("5"), Ok("5"));
        check("", "", &number("5"), Err("import-no-unit"));
        check("", "", &text("5 kg"), Ok("5 kg"));
        check("", "", &text("5 kgs"), Err("import-unknown-unit"));
        check("", "unit: °C", &text("-5"), Ok("-5 °C"));
        check("", "unit: in", &text("2 1/4"), Ok("2 1/4 in"));
        check("", "", &text("2 1/4 in"), Ok("2 1/4 in"));
        check("", "", &text("60 1/min"), Ok("60 1/min"));
    }

    #[test]
    fn a_decimal_sign_is_the_one_of_the_mapping_and_no_other() {
        check("decimal: ',',", "unit: mm", &text("28,5"), Ok("28.5 mm"));
        check("decimal: ',',", "unit: mm", &text("28.5"), Err("import-no-number"));
        check("", "unit: mm", &text("28,5"), Err("import-no-number"));
        check("decimal: ',', thousands: '.',", "unit: g", &text("1.250,5"), Ok("1250.5 g"));
        check("decimal: ',', thousands: '.',", "unit: g", &text("1.25"), Err("import-no-number"));
        check("decimal: ',', thousands: '.',", "unit: g", &text("1.25,5"), Err("import-no-number"));
        check("", "unit: mm", &text("1e5"), Err("import-other-unit"));
        check("", "unit: mm", &text("=1+2"), Err("import-no-number"));
        check("", "unit: mm", &text("--"), Err("import-no-number"));
    }

    #[test]
    fn more_decimals_than_the_column_allows_are_refused_or_rounded_as_it_says() {
        let long = number("0.30000000000000004");
        check("", "unit: mm", &long, Err("import-too-exact"));
        check("", "unit: mm, round: true", &long, Ok("0.3 mm"));
        check("", "unit: mm, decimals: 1", &text("28.25"), Err("import-too-exact"));
        check("", "unit: mm, decimals: 1, round: true", &text("28.25"), Ok("28.2 mm"));
        check("", "unit: mm, decimals: 1, round: true", &text("28.35"), Ok("28.4 mm"));
        check("decimals: 0,", "unit: mm", &text("28.0"), Ok("28 mm"));
        assert_eq!(rounded("0.0000000000000000000049", 3).as_deref(), Some("0"));
    }

    #[test]
    fn what_is_no_number_says_what_it_is() {
        check("", "unit: mm", &Cell::Day("2026-04-03".to_owned()), Err("import-is-a-day"));
        check("", "unit: mm", &Cell::Error("#DIV/0!".to_owned()), Err("import-is-an-error"));
        check("", "unit: mm", &Cell::Empty, Err("import-empty"));
        check("", "unit: mm", &Cell::Merged, Err("import-merged"));
        check("", "unit: mm", &Cell::Truth, Err("import-is-a-truth"));
        check("", "unit: mm", &Cell::Time, Err("import-is-a-time"));
    }

    #[track_caller]
    fn check_tolerance(cell: &str, expected: Result<&str, &str>) {
        let read = with("", "unit: mm", |reader| reader.tolerance(&text(cell)));
        let read = read.map(|Read { text, .. }| text).map_err(|words| words.key());
        assert_eq!(read.as_deref().map_err(|key| *key), expected, "{cell}");
    }

    #[test]
    fn tolerances_are_written_as_recipes_write_them() {
        check_tolerance("0.5", Ok("±0.5 mm"));
        check_tolerance("± 0.5", Ok("±0.5 mm"));
        check_tolerance("+/-0.5 mm", Ok("±0.5 mm"));
        check_tolerance("+0.3/-0.1", Ok("+0.3/-0.1 mm"));
        check_tolerance("ISO 2768-1 m", Ok("ISO 2768-1 m"));
        check_tolerance("about 3", Err("import-not-understood"));
        check_tolerance("0.5 °C", Err("import-other-unit"));
    }

    #[test]
    fn a_day_has_the_form_of_the_mapping() {
        let check = |text, form, expected: Option<&str>| {
            assert_eq!(day_of(text, form).as_deref(), expected, "{text} {form}");
        };
        check("03.04.2026", "DD.MM.YYYY", Some("2026-04-03"));
        check("3.4.2026", "DD.MM.YYYY", None);
        check("03/04/2026", "DD.MM.YYYY", None);
        check("31.02.2026", "DD.MM.YYYY", None);
        check("04/03/2026", "MM/DD/YYYY", Some("2026-04-03"));
        check("2026-04-03", "YYYY-MM-DD", Some("2026-04-03"));
        check("dd.mm.yyyy", "DD.MM.YYYY", None);
    }
}
