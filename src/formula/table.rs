//! Tables: values that somebody tried out or looked up, used like a function of one value.
//!
//! Must never extrapolate: what lies outside the rows has no value.

use std::fmt;

use super::wrong::{Missed, Wrong};
use crate::language::Words;
use crate::quantity::{Dimension, Measure, NoQuantity};

/// How a table is read between its rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reads {
    /// Only a row with precisely this value counts.
    Exactly,
    /// The first row that is not below the value.
    NextUp,
    /// The last row that is not above the value.
    NextDown,
    /// A straight line between the rows on both sides.
    Between,
}

/// What is looked up, and what is read there.
type Row = (Measure, Measure);

/// Rows of two columns: what is looked up, and what is read there.
///
/// [`Table::new`] makes one; what it refuses leads to misses here, never to a panic.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// How it is read between its rows.
    pub reads: Reads,
    /// Its rows; the first column rises from row to row.
    pub rows: Vec<(Measure, Measure)>,
}

/// Why rows are no table. Rows count from 0, columns are 1 and 2.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadTable {
    /// There is no row.
    NoRows,
    /// The kind of quantity changes within a column.
    Kind {
        /// The first row with another kind.
        row: usize,
        /// The column.
        column: usize,
        /// The kind in the first row.
        first: Dimension,
        /// The kind in this row.
        here: Dimension,
    },
    /// The first column is not above that of the row before.
    NotRising {
        /// The row.
        row: usize,
    },
}

impl BadTable {
    /// What is wrong, and what to do about it.
    pub fn words(&self) -> Words {
        match self {
            BadTable::NoRows => Words::of("table-no-rows"),
            BadTable::Kind { row, column, first, here } => {
                let parts = [
                    ("column", (*column).into()),
                    ("first", first.words().into()),
                    ("row", (row + 1).into()),
                    ("here", here.words().into()),
                ];
                Words::new("table-kinds-differ", &parts)
            }
            BadTable::NotRising { row } => {
                let parts = [("row", (row + 1).into()), ("before", (*row).into())];
                Words::new("table-not-rising", &parts)
            }
        }
    }
}

impl fmt::Display for BadTable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.words().fmt(f)
    }
}

impl std::error::Error for BadTable {}

impl Table {
    /// A table of these rows.
    ///
    /// # Errors
    /// [`BadTable`] with the first row that is wrong.
    pub fn new(reads: Reads, rows: Vec<(Measure, Measure)>) -> Result<Table, BadTable> {
        let first = rows.first().ok_or(BadTable::NoRows)?;
        for (row, here) in rows.iter().enumerate() {
            same_kind(row, 1, first.0, here.0)?;
            same_kind(row, 2, first.1, here.1)?;
            let before = row.checked_sub(1).and_then(|before| rows.get(before));
            if before.is_some_and(|before| before.0.quantity.amount >= here.0.quantity.amount) {
                return Err(BadTable::NotRising { row });
            }
        }
        Ok(Table { reads, rows })
    }

    /// What the table, whose name is `called`, says for `x`.
    ///
    /// Between two rows: `y0 + (x - x0) / (x1 - x0) * (y1 - y0)`, in the unit of `y0`.
    ///
    /// # Errors
    /// [`Wrong::OffTable`], [`Wrong::NotInTable`], [`Wrong::Unlike`] when the first column is of
    /// another kind, [`Wrong::Quantity`] when the numbers overflow.
    pub fn at(&self, called: &str, x: Measure) -> Result<Measure, Wrong> {
        let (Some((first, _)), Some((last, _))) = (self.rows.first(), self.rows.last()) else {
            return Err(Wrong::NoValue);
        };
        let (left, right) = (x.quantity.dimension, first.quantity.dimension);
        if left != right {
            return Err(Wrong::Unlike { done: "formula-compared-in-table", left, right });
        }
        let missed = |low: &Measure, high: &Measure| {
            Box::new(Missed { table: called.to_owned(), value: x, low: *low, high: *high })
        };
        let (below, above) = self.around(x);
        match (self.reads, below, above) {
            (_, _, Some((key, value))) if key.quantity == x.quantity => Ok(*value),
            (Reads::NextUp, _, Some((_, value))) => Ok(*value),
            (Reads::NextDown, Some((_, value)), _) => Ok(*value),
            (Reads::Between, Some(low), Some(high)) => {
                between(low, high, x).map_err(Wrong::Quantity)
            }
            (Reads::Exactly, Some((low, _)), Some((high, _))) => {
                Err(Wrong::NotInTable(missed(low, high)))
            }
            _ => Err(Wrong::OffTable(missed(first, last))),
        }
    }

    /// The last row below `x`, and the first that is not.
    fn around(&self, x: Measure) -> (Option<&Row>, Option<&Row>) {
        let is_below = |row: &Row| row.0.quantity.amount < x.quantity.amount;
        let (below, above) = self.rows.split_at(self.rows.partition_point(is_below));
        (below.last(), above.first())
    }
}

fn same_kind(row: usize, column: usize, first: Measure, here: Measure) -> Result<(), BadTable> {
    let (first, here) = (first.quantity.dimension, here.quantity.dimension);
    if first == here { Ok(()) } else { Err(BadTable::Kind { row, column, first, here }) }
}

/// The straight line through two rows, worked out with differences: a temperature stays a point.
fn between((x0, y0): &Row, (x1, y1): &Row, x: Measure) -> Result<Measure, NoQuantity> {
    let way = x.quantity.sub(x0.quantity)?.div(x1.quantity.sub(x0.quantity)?)?;
    let rise = y1.quantity.sub(y0.quantity)?.mul(way)?;
    Ok(Measure { quantity: y0.quantity.add(rise)?, unit: y0.unit.or(y1.unit) })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Reads, Table};
    use crate::quantity::Measure;

    /// Rows written `20 µm: 0.3 s`, separated by semicolons.
    fn rows(text: &str) -> Vec<(Measure, Measure)> {
        let rows = text.split(';').filter_map(|row| row.split_once(':'));
        rows.map(|(x, y)| (Measure::parse(x).unwrap(), Measure::parse(y).unwrap())).collect()
    }

    const ALL: [Reads; 4] = [Reads::Exactly, Reads::NextUp, Reads::NextDown, Reads::Between];

    /// What each way of reading says of `x`: exactly, next up, next down, between.
    #[track_caller]
    fn check(text: &str, x: &str, expected: [&str; 4]) {
        let said = ALL.map(|reads| {
            let table = Table::new(reads, rows(text)).unwrap();
            match table.at("dwell", Measure::parse(x).unwrap()) {
                Ok(measure) => measure.to_string(),
                Err(wrong) => format!("{wrong}; {}", wrong.words().way_out()),
            }
        });
        assert_eq!(said, expected);
    }

    const DWELL: &str = "20 µm: 0.3 s; 25 µm: 0.4 s; 30 µm: 0.7 s";

    #[test]
    fn a_row_with_this_value_counts_whichever_way_it_is_read() {
        check(DWELL, "20 µm", ["0.3 s"; 4]);
        check(DWELL, "0.025 mm", ["0.4 s"; 4]);
        check(DWELL, "30 µm", ["0.7 s"; 4]);
        check("3: 1 mm", "3", ["1 mm"; 4]);
        check("1 in: 2", "25.4 mm", ["2"; 4]);
    }

    #[test]
    fn between_the_rows_each_way_has_its_own_answer() {
        let none = "`dwell` has no row for 22 µm; the nearest are 20 µm and 25 µm; \
                    add a row for it";
        check(DWELL, "22 µm", [none, "0.4 s", "0.3 s", "0.34 s"]);
        let none = "`dwell` has no row for 0.029 mm; the nearest are 25 µm and 30 µm; \
                    add a row for it";
        check(DWELL, "0.029 mm", [none, "0.7 s", "0.4 s", "0.64 s"]);
    }

    #[test]
    fn nothing_is_extrapolated() {
        let above = "35 µm lies outside the table `dwell`, which runs from 20 µm to 30 µm; \
                     add a row for it: nothing is worked out past the last row";
        check(DWELL, "35 µm", [above, above, "0.7 s", above]);
        let below = "15 µm lies outside the table `dwell`, which runs from 20 µm to 30 µm; \
                     add a row for it: nothing is worked out past the last row";
        check(DWELL, "15 µm", [below, "0.3 s", below, below]);
    }

    #[test]
    fn another_kind_of_value_is_refused() {
        let unlike = "mass and length cannot be compared in this table; \
                      check the units; both must measure the same kind of thing";
        check(DWELL, "22 g", [unlike; 4]);
        let plain = "plain number and length cannot be compared in this table; \
                     a unit may be missing: write it at the number, or where the name is given";
        check(DWELL, "22", [plain; 4]);
    }

    /// NIST SP 811 B.8: the line runs through points on the scale, in either unit.
    #[test]
    fn temperatures_are_read_between_as_points() {
        let jaws = "20 µm: 120 °C; 30 µm: 302 °F";
        let none = "`dwell` has no row for 25 µm; the nearest are 20 µm and 30 µm; \
                    add a row for it";
        check(jaws, "25 µm", [none, "302 °F", "120 °C", "135 °C"]);
        let shrink = "20 °C: 0.1 %; 220 °C: 0.5 %";
        let none = "`dwell` has no row for 248 °F; the nearest are 20 °C and 220 °C; \
                    add a row for it";
        check(shrink, "248 °F", [none, "0.5 %", "0.1 %", "0.3 %"]);
    }

    #[track_caller]
    fn check_bad(text: &str, says: &str, way_out: &str) {
        let bad = Table::new(Reads::Between, rows(text)).unwrap_err();
        let shown = (bad.to_string(), bad.words().way_out().to_string());
        assert_eq!((shown.0.as_str(), shown.1.as_str()), (says, way_out));
    }

    #[test]
    fn rows_that_are_no_table_are_refused() {
        check_bad("", "the table has no rows", "write at least one row");
        let kinds = "write units of one kind down each column";
        check_bad(
            "1 mm: 1 s; 2: 2 s",
            "column 1 begins with length, but row 2 has plain number",
            kinds,
        );
        check_bad(
            "1 mm: 1 °C; 2 mm: 2 K",
            "column 2 begins with temperature, but row 2 has temperature difference",
            kinds,
        );
        let order = "order the rows from the lowest value up, each value once";
        check_bad("1: 1; 3: 2; 2: 3", "row 3 is not above row 2 in column 1", order);
        check_bad("1 in: 1; 25.4 mm: 2", "row 2 is not above row 1 in column 1", order);
    }

    #[test]
    fn a_table_without_rows_has_no_value() {
        let table = Table { reads: Reads::NextUp, rows: Vec::new() };
        assert!(table.at("dwell", Measure::parse("1").unwrap()).is_err());
    }

    proptest! {
        /// The line stays between the rows on both sides, and the three other ways agree with it.
        #[test]
        fn every_way_of_reading_stays_between_the_two_rows(
            heights in prop::collection::vec(-1000_i64..1000, 2..20),
            x in -50_i64..2050,
        ) {
            let rows: Vec<_> = heights.iter().enumerate().map(|(place, height)| {
                let text = format!("{} mm", 100 * place);
                (Measure::parse(&text).unwrap(), Measure::parse(&height.to_string()).unwrap())
            }).collect();
            let last = 100 * (i64::try_from(heights.len()).unwrap() - 1);
            let x_measure = Measure::parse(&format!("{x} mm")).unwrap();
            let read = |reads| Table::new(reads, rows.clone()).unwrap().at("t", x_measure);
            prop_assert_eq!(read(Reads::Between).is_ok(), (0..=last).contains(&x));
            prop_assert_eq!(read(Reads::NextUp).is_ok(), x <= last);
            prop_assert_eq!(read(Reads::NextDown).is_ok(), x >= 0);
            prop_assert_eq!(read(Reads::Exactly).is_ok(), (0..=last).contains(&x) && x % 100 == 0);
            if let Ok(line) = read(Reads::Between) {
                let (up, down) = (read(Reads::NextUp).unwrap(), read(Reads::NextDown).unwrap());
                let amounts = [up, down].map(|measure| measure.quantity.amount);
                let low = amounts[0].min(amounts[1]);
                let high = amounts[0].max(amounts[1]);
                prop_assert!((low..=high).contains(&line.quantity.amount));
            }
        }
    }
}
