//! Where a plan falls into pieces that can be planned one after the other.
//!
//! A cut parts the works so that each one behind it waits for all those before it, as at a lockout.
//! Everything behind begins when everything before has ended. To end the front sooner never does
//! harm to the rest, which could still begin when it would have: so the best plan is the best plan
//! of the first piece, then the best of the next that begins no sooner than the first has ended, and
//! so on.

use super::problem::Problem;

/// With more works than this no cut is looked for: it takes room in proportion to their square.
const MOST_WORKS: usize = 4096;

/// The works of each piece, in the order of the pieces.
///
/// In the order of how many works each one waits for, directly or not, a cut can only lie between
/// neighbours; it lies there when all behind wait for as many in common as stand before. Those in
/// common cannot stand behind, because nothing waits for itself.
pub(super) fn pieces(problem: &Problem) -> Vec<Vec<usize>> {
    let count = problem.works.len();
    if count > MOST_WORKS {
        return vec![(0..count).collect()];
    }
    let waits_for = all_before(problem);
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by_key(|&work| waits_for[work].count());
    let mut common = Set { bits: vec![u64::MAX; count.div_ceil(64)] };
    let mut pieces = Vec::new();
    let mut end = count;
    for at in (0..count).rev() {
        common.keep(&waits_for[order[at]]);
        if common.count() == at {
            let mut piece = order[at..end].to_vec();
            piece.sort_unstable();
            pieces.push(piece);
            end = at;
        }
    }
    pieces.reverse();
    pieces
}

/// Works, a bit for each.
#[derive(Clone)]
struct Set {
    bits: Vec<u64>,
}

impl Set {
    fn count(&self) -> usize {
        self.bits.iter().map(|bits| bits.count_ones() as usize).sum()
    }

    fn keep(&mut self, other: &Set) {
        self.bits.iter_mut().zip(&other.bits).for_each(|(bits, other)| *bits &= other);
    }

    fn add(&mut self, other: &Set) {
        self.bits.iter_mut().zip(&other.bits).for_each(|(bits, other)| *bits |= other);
    }
}

/// What each work waits for, directly or not.
fn all_before(problem: &Problem) -> Vec<Set> {
    let none = Set { bits: vec![0; problem.works.len().div_ceil(64)] };
    let mut sets: Vec<Set> = Vec::with_capacity(problem.works.len());
    for work in &problem.works {
        let mut set = none.clone();
        for &before in &work.after {
            set.add(&sets[before]);
            set.bits[before / 64] |= 1 << (before % 64);
        }
        sets.push(set);
    }
    sets
}
