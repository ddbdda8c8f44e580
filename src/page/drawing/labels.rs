//! Labels that would overlap are moved to further lines.

/// Size of text: 3.4 mm, 9.6 pt on the narrowest page.
pub(super) const TEXT: i64 = 34;
/// Height of a line of labels.
pub(super) const LINE: i64 = 44;
/// Widest digit of common faces (0.64 of the size of the text), with a little room.
const GLYPH: i64 = 22;

/// A text that belongs to a place.
pub(super) struct Label {
    /// The place it belongs to.
    pub at: i64,
    /// Where its middle stands; beside the place only at the edges of the sheet.
    pub x: i64,
    /// Line it stands in, 0 is the nearest to the place.
    pub level: i64,
    /// The text.
    pub text: String,
}

/// How wide a text is drawn at most, with the gap to its neighbour.
pub(super) fn width(text: &str) -> i64 {
    i64::try_from(text.chars().count()).unwrap_or(0) * GLYPH + GLYPH
}

/// Height of all lines.
pub(super) fn height(labels: &[Label]) -> i64 {
    labels.iter().map(|label| label.level + 1).max().unwrap_or(0) * LINE
}

/// Lines of labels, each with the place where its last label ends.
#[derive(Default)]
pub(crate) struct Levels(Vec<i64>);

impl Levels {
    /// The first line where a label touches no other; labels come from left to right.
    pub fn place(&mut self, start: i64, end: i64) -> i64 {
        let free = self.0.iter().position(|taken| *taken <= start);
        let level = free.unwrap_or(self.0.len());
        match self.0.get_mut(level) {
            Some(taken) => *taken = end,
            None => self.0.push(end),
        }
        i64::try_from(level).unwrap_or(0)
    }
}

/// Puts each label, from left to right, into the first line where it touches no other.
pub(super) fn stagger(wanted: impl Iterator<Item = (i64, String)>, sheet: i64) -> Vec<Label> {
    let mut wanted: Vec<(i64, String)> = wanted.collect();
    wanted.sort();
    let mut levels = Levels::default();
    let mut labels = Vec::new();
    for (at, text) in wanted {
        let half = width(&text) / 2;
        let x = at.min(sheet - half).max(half);
        labels.push(Label { at, x, level: levels.place(x - half, x + half), text });
    }
    labels
}

#[cfg(test)]
mod tests {
    use super::{stagger, width};

    #[track_caller]
    fn check(places: &[i64], expected: &[i64]) {
        let labels = stagger(places.iter().map(|place| (*place, "+190.0".to_owned())), 1860);
        let levels: Vec<i64> = labels.iter().map(|label| label.level).collect();
        assert_eq!(levels, expected);
        for (index, one) in labels.iter().enumerate() {
            for two in &labels[index + 1..] {
                let apart = (one.x - two.x).abs() >= width("+190.0");
                assert!(one.level != two.level || apart, "{} touches {}", one.x, two.x);
            }
        }
    }

    #[test]
    fn far_labels_share_a_line() {
        check(&[200, 400, 600], &[0, 0, 0]);
    }

    #[test]
    fn near_labels_alternate() {
        check(&[200, 306, 412, 518], &[0, 1, 0, 1]);
        check(&[200, 256, 312, 368, 424], &[0, 1, 2, 0, 1]);
    }

    #[test]
    fn labels_at_the_edge_stay_on_the_sheet() {
        check(&[0, 1860], &[0, 0]);
    }
}
