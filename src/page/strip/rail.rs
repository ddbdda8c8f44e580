//! The places of a rail in whole thousandths of a millimetre: where each mark of the strip stands.
//!
//! Every place is converted from the packet's own text with exact numbers and rounded once, at the
//! end: an inch is 25.4 mm here and nothing near it. Must never move a mark to make room for a text.

use crate::packet::model::{Edges, Holder, Move, RailKind, RailLayout};
use crate::quantity::{Dimension, Number, Unit, decimals_in};

/// More marks on one rail than this are not drawn: nobody lays out hundreds of them by hand.
pub(super) const MOST_MARKS: usize = 200;
/// A longer rail gets no strip, in metres.
pub(super) const MOST_METRES: usize = 8;

/// A rail as it is drawn on paper. All places are thousandths of a millimetre from the datum.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Ruled<'a> {
    pub rail: &'a RailLayout,
    pub ends: (i64, i64),
    pub marks: Vec<Mark>,
    pub lanes: Vec<(u32, (i64, i64))>,
    pub web: Option<(i64, i64)>,
    pub blocks: Vec<(&'a str, (i64, i64))>,
}

/// What the strip marks for one holder.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Mark {
    /// Its place.
    pub at: i64,
    /// What is done with the holder.
    pub way: Way,
    /// Number of the holder; empty for one that is taken off.
    pub number: String,
    /// The position as it is set, in the rail's unit: a decimal, or a fraction.
    pub position: String,
}

/// What is done with a holder; each has a shape and a word of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// It stays where it is.
    Stays,
    /// It is brought here.
    Moves,
    /// It is a spare, parked with its tip here.
    Parked,
    /// It is a spare, parked with its middle here: its tip is covered, nobody measures to it.
    ParkedByMiddle,
    /// It comes new on the rail.
    Fitted,
    /// It is taken off the rail; here it stands before.
    Off,
}

/// Why a rail gets no strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NoStrip {
    /// Its numbers cannot be read, or its ends are no length.
    Unreadable,
    /// It has more marks than are drawn.
    TooMany(usize),
    /// It is longer than strips are made.
    TooLong,
    /// Its marks stand so close that their labels do not fit on a sheet.
    TooClose,
}

impl<'a> Ruled<'a> {
    /// Reads a rail.
    pub fn read(rail: &'a RailLayout) -> Result<Ruled<'a>, NoStrip> {
        let count = rail.holders.len().max(rail.moves.len()).max(rail.lanes.len());
        let count = count.max(rail.obstacles.len());
        if count > MOST_MARKS {
            return Err(NoStrip::TooMany(count));
        }
        let unit = Unit::find(&rail.unit).filter(|unit| unit.dimension == Dimension::LENGTH);
        let ruled = Ruler { unit: unit.ok_or(NoStrip::Unreadable)? }.rail(rail);
        let ruled = ruled.ok_or(NoStrip::Unreadable)?;
        let (left, right) = ruled.ends;
        let most = i64::try_from(MOST_METRES * 1_000_000).unwrap_or(i64::MAX);
        match right.checked_sub(left) {
            Some(length) if length <= 0 => Err(NoStrip::Unreadable),
            Some(length) if length <= most => Ok(ruled),
            _ => Err(NoStrip::TooLong),
        }
    }

    /// Whether a mark stands at the middle of a holder and not at its tip.
    pub fn has_middles(&self) -> bool {
        self.marks.iter().any(|mark| mark.way == Way::ParkedByMiddle)
    }
}

/// Reads lengths of one unit.
struct Ruler {
    unit: &'static Unit,
}

impl Ruler {
    fn rail<'a>(&self, rail: &'a RailLayout) -> Option<Ruled<'a>> {
        let holders = rail.holders.iter().map(|holder| self.holder(rail, holder));
        let off = rail.moves.iter().filter(|step| step.direction == "off");
        let off = off.filter_map(|step| step.from.as_deref()).map(|from| self.off(from));
        let lanes = rail.lanes.iter().map(|lane| Some((lane.number, self.edges(&lane.edges)?)));
        let blocks = rail.obstacles.iter();
        let blocks = blocks.map(|block| Some((block.name.as_str(), self.edges(&block.edges)?)));
        Some(Ruled {
            rail,
            ends: (self.read(&rail.left_end)?, self.read(&rail.right_end)?),
            marks: holders.chain(off).collect::<Option<_>>()?,
            lanes: lanes.collect::<Option<_>>()?,
            web: match &rail.web {
                Some(edges) => Some(self.edges(edges)?),
                None => None,
            },
            blocks: blocks.collect::<Option<_>>()?,
        })
    }

    fn holder(&self, rail: &RailLayout, holder: &Holder) -> Option<Mark> {
        let number = holder.number.to_string();
        // A spare that is parked is set by its middle when its tip is off it: the packet's rows say
        // the same.
        if holder.parked && rail.kind == RailKind::Knives && !rail.tip_offset.is_empty() {
            let middle = number_of(&holder.new)?.sub(number_of(&rail.tip_offset)?).ok()?;
            let position = middle.decimal(decimals_in(&holder.new));
            return Some(Mark {
                at: self.place(middle)?,
                way: Way::ParkedByMiddle,
                number,
                position,
            });
        }
        let way = match rail.moves.iter().find(|step| step.holder == Some(holder.number)) {
            _ if holder.parked => Way::Parked,
            Some(Move { direction, .. }) if direction == "fit" => Way::Fitted,
            Some(_) => Way::Moves,
            None => Way::Stays,
        };
        let shown = if holder.fraction.is_empty() { &holder.new } else { &holder.fraction };
        Some(Mark { at: self.read(&holder.new)?, way, number, position: shown.clone() })
    }

    fn off(&self, from: &str) -> Option<Mark> {
        let (number, position) = (String::new(), from.to_owned());
        Some(Mark { at: self.read(from)?, way: Way::Off, number, position })
    }

    fn edges(&self, edges: &Edges) -> Option<(i64, i64)> {
        Some((self.read(&edges.left)?, self.read(&edges.right)?))
    }

    fn read(&self, text: &str) -> Option<i64> {
        self.place(number_of(text)?)
    }

    /// A number of the rail's unit in thousandths of a millimetre, rounded here and nowhere else.
    fn place(&self, number: Number) -> Option<i64> {
        let micron = number.mul(self.unit.factor).ok()?.mul(Number::from(1000_u32)).ok()?;
        micron.decimal(0).parse().ok()
    }
}

fn number_of(text: &str) -> Option<Number> {
    Number::parse(text).ok()
}

#[cfg(test)]
mod tests {
    use super::{NoStrip, Ruled, Way};
    use crate::packet::model::RailLayout;
    use crate::page::sample;

    #[track_caller]
    fn check(rail: &RailLayout, expected: &[(i64, Way, &str, &str)]) {
        let ruled = Ruled::read(rail).unwrap();
        let found: Vec<_> = ruled
            .marks
            .iter()
            .map(|mark| (mark.at, mark.way, mark.number.as_str(), mark.position.as_str()))
            .collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn inches_are_exactly_25_4_mm() {
        check(
            &sample::perforating_rail(),
            &[
                (-114_300, Way::Moves, "1", "-4 1/2"),
                (-57_150, Way::Stays, "2", "-2 1/4"),
                (0, Way::Fitted, "3", "0"),
                (57_150, Way::Moves, "4", "2 1/4"),
                (114_300, Way::Moves, "5", "4 1/2"),
                (203_200, Way::Off, "", "8"),
                (279_400, Way::Off, "", "11"),
            ],
        );
    }

    #[test]
    fn a_place_is_rounded_once_and_to_the_nearest() {
        let mut rail = sample::perforating_rail();
        rail.holders.truncate(2);
        rail.moves.clear();
        // 7/64 in is 2.778125 mm; a third of an inch in six places is 8.4666582 mm.
        rail.holders[0].new = "0.109375".into();
        rail.holders[1].new = "0.333333".into();
        let places: Vec<i64> = Ruled::read(&rail).unwrap().marks.iter().map(|m| m.at).collect();
        assert_eq!(places, [2_778, 8_467]);
    }

    #[test]
    fn a_parked_knife_with_its_tip_off_the_middle_is_marked_by_its_middle() {
        let mut rail = sample::knife_rail();
        rail.tip_offset = "4".into();
        let ruled = Ruled::read(&rail).unwrap();
        assert_eq!((ruled.marks[0].at, ruled.marks[0].way), (-266_000, Way::ParkedByMiddle));
        assert_eq!(ruled.marks[0].position, "-266.0");
        assert_eq!((ruled.marks[1].at, ruled.marks[1].way), (-168_000, Way::Moves));
        assert!(ruled.has_middles());
        rail.tip_offset.clear();
        assert_eq!(Ruled::read(&rail).unwrap().marks[0].way, Way::Parked);
    }

    #[test]
    fn what_cannot_be_drawn_says_why() {
        let fails = |change: fn(&mut RailLayout)| {
            let mut rail = sample::perforating_rail();
            change(&mut rail);
            Ruled::read(&rail).err()
        };
        assert_eq!(fails(|_| {}), None);
        assert_eq!(fails(|rail| rail.unit = "kg".into()), Some(NoStrip::Unreadable));
        assert_eq!(fails(|rail| rail.left_end = "left".into()), Some(NoStrip::Unreadable));
        assert_eq!(fails(|rail| rail.right_end = "-12".into()), Some(NoStrip::Unreadable));
        assert_eq!(fails(|rail| rail.holders[0].new = "1e9".into()), Some(NoStrip::Unreadable));
        assert_eq!(fails(|rail| rail.right_end = "9999999999".into()), Some(NoStrip::TooLong));
        let many = |rail: &mut RailLayout| {
            rail.holders = vec![rail.holders[0].clone(); 10_000];
        };
        assert_eq!(fails(many), Some(NoStrip::TooMany(10_000)));
    }
}
