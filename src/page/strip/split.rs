//! A strip is longer than a sheet: where it is cut into segments, and where these overlap.
//!
//! Lengths are thousandths of a millimetre from the datum. Must never make an overlap shorter than
//! [`OVERLAP`]: marks in it stand on both segments, and register marks in its middle join them.

/// Longest segment: with its margins inside 250 mm, which A4 and Letter hold in landscape.
pub(super) const LONGEST: i64 = 247_000;
/// What two neighbours share.
pub(super) const OVERLAP: i64 = 20_000;
/// Paper beyond each end of the rail.
pub(super) const BEYOND: i64 = 6_000;
/// How far a register mark keeps away from marks where it can; its letter stands on the right.
const CLEAR: std::ops::Range<i64> = -4_000..8_000;
/// The most a join is moved for that.
const SHIFT: i64 = 6_000;
/// Joins stand on whole millimetres.
const STEP: i64 = 1_000;

/// One piece of paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Segment {
    /// Which one, from 0 at the left.
    pub index: usize,
    /// Its left cut.
    pub left: i64,
    /// Its right cut.
    pub right: i64,
    /// Where it is joined to its neighbours: which join, from 0, and the middle of the overlap.
    pub joins: Vec<(usize, i64)>,
}

impl Segment {
    /// Its length.
    pub fn length(&self) -> i64 {
        self.right - self.left
    }

    /// Whether a place stands on it.
    pub fn holds(&self, at: i64) -> bool {
        (self.left..=self.right).contains(&at)
    }

    /// The place on it that is nearest to a place.
    pub fn within(&self, at: i64) -> i64 {
        at.clamp(self.left, self.right)
    }
}

/// Cuts a strip for a rail into as few segments of about the same length as sheets hold.
pub(super) fn split((left, right): (i64, i64), marks: &[i64]) -> Vec<Segment> {
    let (start, end) = (left - BEYOND, right + BEYOND);
    let joins: Vec<i64> =
        even(start, end).into_iter().map(|ideal| clear_of(ideal, marks)).collect();
    let lefts = std::iter::once(start).chain(joins.iter().map(|join| join - OVERLAP / 2));
    let rights = joins.iter().map(|join| join + OVERLAP / 2).chain([end]);
    lefts
        .zip(rights)
        .enumerate()
        .map(|(index, (left, right))| {
            let own = joins.iter().copied().enumerate();
            let own = own.filter(|(_, join)| (left..=right).contains(join));
            Segment { index, left, right, joins: own.collect() }
        })
        .collect()
}

/// Middles of the overlaps when all segments have the same length.
fn even(start: i64, end: i64) -> Vec<i64> {
    let total = end - start;
    if total <= LONGEST {
        return Vec::new();
    }
    // Each join may still be moved, and stands on a whole millimetre.
    let room = LONGEST - 2 * (SHIFT + STEP) - OVERLAP;
    let count = (total - OVERLAP + room - 1) / room;
    let step = (total - OVERLAP) / count;
    (1..count).map(|index| start + OVERLAP / 2 + index * step).collect()
}

/// The whole millimetre nearest to an ideal join whose register mark touches no mark; the ideal one
/// when there is none near.
fn clear_of(ideal: i64, marks: &[i64]) -> i64 {
    let whole = ideal.div_euclid(STEP) * STEP;
    let near = (0..=SHIFT / STEP).flat_map(|steps| [whole + steps * STEP, whole - steps * STEP]);
    let is_clear = |join: &i64| marks.iter().all(|mark| !CLEAR.contains(&(mark - join)));
    near.into_iter().find(is_clear).unwrap_or(whole)
}

#[cfg(test)]
mod tests {
    use super::{LONGEST, OVERLAP, split};

    #[track_caller]
    fn check(ends: (i64, i64), marks: &[i64], expected: usize) {
        let segments = split(ends, marks);
        assert_eq!(segments.len(), expected);
        assert!(segments[0].left < ends.0 && segments[expected - 1].right > ends.1);
        for segment in &segments {
            assert!(segment.length() <= LONGEST, "{segment:?}");
        }
        for pair in segments.windows(2) {
            let (one, two) = (&pair[0], &pair[1]);
            assert!(one.right - two.left >= OVERLAP, "{one:?} {two:?}");
            assert_eq!(one.joins.last(), two.joins.first(), "the same mark on both");
            assert_eq!(one.joins.last().unwrap().1 - two.left, OVERLAP / 2);
        }
    }

    #[test]
    fn a_short_rail_is_one_segment() {
        check((-90_000, 90_000), &[], 1);
        check((-117_500, 117_500), &[], 1);
    }

    #[test]
    fn a_long_rail_is_cut_into_segments_that_overlap() {
        check((-117_501, 117_500), &[], 2);
        check((-300_000, 300_000), &[], 3);
        check((-320_000, 320_000), &[0], 3);
        check((-4_000_000, 4_000_000), &[], 38);
        check((-10_000, 600_000), &[], 3);
    }

    #[test]
    fn a_register_mark_keeps_away_from_marks_where_it_can() {
        let plain = split((-300_000, 300_000), &[]);
        let join = plain[0].joins[0].1;
        let moved = split((-300_000, 300_000), &[join + 1_000]);
        assert!(!super::CLEAR.contains(&(join + 1_000 - moved[0].joins[0].1)));
        check((-300_000, 300_000), &[join + 1_000], 3);
        let crowded: Vec<i64> = (-300..300).map(|mark| mark * 1_000).collect();
        check((-300_000, 300_000), &crowded, 3);
        assert_eq!(split((-300_000, 300_000), &crowded)[0].joins[0].1, join);
    }
}
