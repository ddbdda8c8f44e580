//! A log as static files that anybody can fetch and check (C2SP tlog-tiles).
//!
//! A tile has up to 256 hashes of one level, a bundle up to 256 entries. A tile that is not full
//! has its width in its name and is replaced by a wider one. Must never depend on anything but the
//! log: the same log gives the same files.

/// How many hashes a full tile has.
pub const WIDTH: u64 = 256;
/// How many levels of the tree one level of tiles spans.
pub const HEIGHT: u32 = 8;
/// Most bytes of an entry in a bundle: its length has two bytes.
pub const MOST_ENTRY: usize = 65_535;

/// A tile of hashes: which nodes of the tree it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tile {
    /// Its level; 0 has the leaves.
    pub level: u32,
    /// Its number on that level.
    pub number: u64,
    /// How many hashes it has.
    pub width: u64,
}

impl Tile {
    /// Its path below the log.
    pub fn path(&self) -> String {
        format!("tile/{}/{}", self.level, file(self.number, self.width))
    }

    /// The nodes it has: level in the tree, and numbers on that level.
    pub fn nodes(&self) -> (u32, std::ops::Range<u64>) {
        let first = self.number * WIDTH;
        (self.level * HEIGHT, first..first + self.width)
    }
}

/// Path of the bundle with the entries of a tile of level 0.
pub fn bundle_path(number: u64, width: u64) -> String {
    format!("tile/entries/{}", file(number, width))
}

/// Every tile of a log of so many leaves, level by level.
pub fn tiles(leaves: u64) -> impl Iterator<Item = Tile> {
    let levels = (0..).map(move |level| (level, leaves.checked_shr(level * HEIGHT).unwrap_or(0)));
    levels.take_while(|(_, nodes)| *nodes > 0).flat_map(|(level, nodes)| {
        let widths = (0..nodes.div_ceil(WIDTH)).map(move |n| (nodes - n * WIDTH).min(WIDTH));
        (0..).zip(widths).map(move |(number, width)| Tile { level, number, width })
    })
}

/// Adds an entry to a bundle: its length in two bytes, then its pieces. False, and nothing is
/// added, when it is too long.
pub fn bundle(bytes: &mut Vec<u8>, pieces: &[&[u8]]) -> bool {
    let length: usize = pieces.iter().map(|piece| piece.len()).sum();
    let Ok(length) = u16::try_from(length) else { return false };
    bytes.extend(length.to_be_bytes());
    pieces.iter().for_each(|piece| bytes.extend_from_slice(piece));
    true
}

/// `x001/x234/067`, and `.p/5` behind it when the tile is not full.
fn file(number: u64, width: u64) -> String {
    let mut path = format!("{:03}", number % 1000);
    let mut rest = number / 1000;
    while rest > 0 {
        path = format!("x{:03}/{path}", rest % 1000);
        rest /= 1000;
    }
    if width < WIDTH { format!("{path}.p/{width}") } else { path }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::{MOST_ENTRY, Tile, bundle, bundle_path, tiles};
    use crate::log::tree::{Growing, Hash, leaf, node, root};

    #[track_caller]
    fn check(level: u32, number: u64, width: u64, expected: &str) {
        assert_eq!(Tile { level, number, width }.path(), expected);
    }

    /// The example of the C2SP tlog-tiles specification, and the ends of its ranges.
    #[test]
    fn paths_are_the_published_ones() {
        check(0, 1_234_067, 256, "tile/0/x001/x234/067");
        check(0, 0, 256, "tile/0/000");
        check(1, 999, 256, "tile/1/999");
        check(1, 1000, 256, "tile/1/x001/000");
        check(0, 273, 112, "tile/0/273.p/112");
        check(2, 1_000_000, 1, "tile/2/x001/x000/000.p/1");
        assert_eq!(bundle_path(1_234_067, 256), "tile/entries/x001/x234/067");
        assert_eq!(bundle_path(0, 7), "tile/entries/000.p/7");
    }

    /// A log of 70,000 leaves, as the specification counts its tiles.
    #[test]
    fn a_log_has_these_tiles() {
        let paths = |leaves| tiles(leaves).map(|tile| tile.path()).collect::<Vec<_>>();
        assert!(paths(0).is_empty());
        assert_eq!(paths(1), ["tile/0/000.p/1"]);
        assert_eq!(paths(256), ["tile/0/000", "tile/1/000.p/1"]);
        assert_eq!(paths(257), ["tile/0/000", "tile/0/001.p/1", "tile/1/000.p/1"]);
        let many = paths(70_000);
        assert_eq!(many.len(), 274 + 2 + 1);
        assert_eq!(
            many[272..],
            ["tile/0/272", "tile/0/273.p/112", "tile/1/000", "tile/1/001.p/17", "tile/2/000.p/1"]
        );
    }

    /// Who has only the tiles computes the same root.
    #[test]
    fn tiles_hold_the_whole_tree() {
        for leaves in [1_u64, 255, 256, 257, 70_000] {
            let (mut growing, mut kept) = (Growing::default(), Vec::new());
            for n in 0..leaves {
                kept.extend(growing.push(leaf(&[&n.to_be_bytes()])));
            }
            let mut files: BTreeMap<(u32, u64), Hash> = BTreeMap::new();
            for tile in tiles(leaves) {
                let (level, nodes) = tile.nodes();
                for index in nodes {
                    let place = crate::log::tree::place(level, index);
                    files.insert((level, index), kept[place as usize]);
                }
            }
            // Nodes between the levels of tiles are computed from those below.
            fn at(files: &BTreeMap<(u32, u64), Hash>, level: u32, index: u64) -> Hash {
                files.get(&(level, index)).copied().unwrap_or_else(|| {
                    let (left, right) = (2 * index, 2 * index + 1);
                    node(&at(files, level - 1, left), &at(files, level - 1, right))
                })
            }
            let places: BTreeMap<u64, (u32, u64)> = (0..64 - leaves.leading_zeros())
                .flat_map(|level| (0..leaves >> level).map(move |index| (level, index)))
                .map(|(level, index)| (crate::log::tree::place(level, index), (level, index)))
                .collect();
            let read = |place: u64| {
                let (level, index) = places[&place];
                Ok::<_, std::convert::Infallible>(at(&files, level, index))
            };
            assert_eq!(root(leaves, read).unwrap(), growing.root(), "{leaves} leaves");
        }
    }

    #[test]
    fn entries_stand_in_a_bundle_with_their_length() {
        let mut bytes = Vec::new();
        assert!(bundle(&mut bytes, &[b"ab", b"c"]) && bundle(&mut bytes, &[]));
        assert_eq!(bytes, b"\0\x03abc\0\0");
        assert!(bundle(&mut bytes, &[&[7; MOST_ENTRY]]));
        let length = bytes.len();
        assert!(!bundle(&mut bytes, &[&[7; MOST_ENTRY], b"x"]));
        assert_eq!(bytes.len(), length);
    }
}
