//! The tree over a log's leaves (RFC 6962 §2.1, the same in RFC 9162 §2.1): root and proofs.
//!
//! Hashes are asked for by their number in the order in which they came to be: a leaf, then every
//! node that it completed, from below. So a log of any length grows by writing at its end, and an
//! append or a proof reads no more hashes than the tree is high, squared at the worst. Must never
//! hold the leaves.

use sha2::{Digest, Sha256};

/// A SHA-256 digest.
pub type Hash = [u8; 32];

/// Most leaves of a log: more than anybody signs, and small enough to count with.
pub const MOST_LEAVES: u64 = 1 << 48;

/// The hash of a leaf: SHA-256 over a zero byte and its data, here in pieces.
pub fn leaf(pieces: &[&[u8]]) -> Hash {
    let mut hash = Sha256::new_with_prefix([0]);
    for piece in pieces {
        hash.update(piece);
    }
    hash.finalize().into()
}

/// The hash over two subtrees.
pub fn node(left: &Hash, right: &Hash) -> Hash {
    Sha256::new_with_prefix([1]).chain_update(left).chain_update(right).finalize().into()
}

/// How many hashes the log keeps for so many leaves: a leaf each, and every complete node.
pub fn kept_hashes(leaves: u64) -> u64 {
    2 * leaves - u64::from(leaves.count_ones())
}

/// How many leaves are whole when so many hashes are kept; hashes beyond theirs are a torn end.
pub fn leaves_of(hashes: u64) -> u64 {
    // A log of n leaves keeps 2n hashes less the ones of n, so n lies in the upper half's first
    // few: at most as many steps as a number has digits.
    let mut leaves = hashes / 2;
    while kept_hashes(leaves + 1) <= hashes {
        leaves += 1;
    }
    leaves
}

/// Number of the hash over leaves `index << level` up to `(index + 1) << level`.
pub fn place(level: u32, index: u64) -> u64 {
    let last = ((index + 1) << level) - 1;
    kept_hashes(last) + u64::from(level)
}

/// The hashes to keep for the next leaf: its own, and each node that it completes.
///
/// # Errors
/// Those of `read`.
pub fn grow<E>(
    leaves: u64,
    leaf: Hash,
    mut read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Vec<Hash>, E> {
    let (mut hashes, mut last) = (vec![leaf], leaf);
    for level in 0..leaves.trailing_ones() {
        last = node(&read(place(level, (leaves >> level) - 1))?, &last);
        hashes.push(last);
    }
    Ok(hashes)
}

/// The root over the first leaves; that of none is the SHA-256 of nothing.
///
/// # Errors
/// Those of `read`.
pub fn root<E>(leaves: u64, read: impl FnMut(u64) -> Result<Hash, E>) -> Result<Hash, E> {
    Span { from: 0, to: leaves }.hash(read)
}

/// Leaves next to each other that a proof takes as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Span {
    from: u64,
    to: u64,
}

impl Span {
    /// Where RFC 6962 parts it: the largest power of two below its length.
    fn parted(self) -> (Span, Span) {
        let half = (self.to - self.from).next_power_of_two() / 2;
        let middle = self.from + half;
        (Span { to: middle, ..self }, Span { from: middle, ..self })
    }

    /// Its hash, from the complete nodes that it is made of.
    fn hash<E>(self, mut read: impl FnMut(u64) -> Result<Hash, E>) -> Result<Hash, E> {
        let (mut from, mut nodes) = (self.from, Vec::new());
        while from < self.to {
            let level = (self.to - from).ilog2();
            nodes.push(read(place(level, from >> level))?);
            from += 1 << level;
        }
        let whole = nodes.into_iter().rev().reduce(|right, left| node(&left, &right));
        Ok(whole.unwrap_or_else(|| Sha256::digest([]).into()))
    }
}

fn hashes<E>(
    spans: Vec<Span>,
    mut read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Vec<Hash>, E> {
    spans.into_iter().rev().map(|span| span.hash(&mut read)).collect()
}

/// The proof that a leaf is in a log of so many leaves (RFC 6962 §2.1.1), from below.
///
/// # Errors
/// Those of `read`.
pub fn prove_leaf<E>(
    index: u64,
    leaves: u64,
    read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Vec<Hash>, E> {
    let (mut own, mut others) = (Span { from: 0, to: leaves }, Vec::new());
    while own.to - own.from > 1 && index < leaves {
        let (left, right) = own.parted();
        let (inside, beside) = if index < left.to { (left, right) } else { (right, left) };
        others.push(beside);
        own = inside;
    }
    hashes(others, read)
}

/// The proof that a log of so many leaves only added to one of `old` (RFC 6962 §2.1.2).
///
/// # Errors
/// Those of `read`.
pub fn prove_growth<E>(
    old: u64,
    leaves: u64,
    read: impl FnMut(u64) -> Result<Hash, E>,
) -> Result<Vec<Hash>, E> {
    if old == 0 || old >= leaves {
        return Ok(Vec::new());
    }
    let (mut own, mut others) = (Span { from: 0, to: leaves }, Vec::new());
    while old != own.to {
        let (left, right) = own.parted();
        let (inside, beside) = if old <= left.to { (left, right) } else { (right, left) };
        others.push(beside);
        own = inside;
    }
    // The old root itself is known to whoever checks.
    if own.from > 0 {
        others.push(own);
    }
    hashes(others, read)
}

/// Whether a proof shows that a leaf is in the log of this root (RFC 9162 §2.1.3.2).
pub fn proves_leaf(leaf: &Hash, index: u64, leaves: u64, proof: &[Hash], root: &Hash) -> bool {
    if index >= leaves {
        return false;
    }
    let (mut low, mut high, mut own) = (index, leaves - 1, *leaf);
    for hash in proof {
        if high == 0 {
            return false;
        }
        own = match climbs_right(&mut low, &mut high) {
            true => node(hash, &own),
            false => node(&own, hash),
        };
    }
    high == 0 && own == *root
}

/// Whether a proof shows that the log of `root` only added to that of `old_root` (RFC 9162
/// §2.1.4.2). Every log grew from the empty one.
pub fn proves_growth(old: u64, old_root: &Hash, leaves: u64, root: &Hash, proof: &[Hash]) -> bool {
    if old == 0 || old >= leaves {
        let empty: Hash = Sha256::digest([]).into();
        let fits = if old == 0 { *old_root == empty } else { old_root == root && old == leaves };
        return fits && proof.is_empty();
    }
    let (mut low, mut high) = (old - 1, leaves - 1);
    let complete = low.trailing_ones();
    (low, high) = (low >> complete, high >> complete);
    // An old log that is one complete node is where the proof begins.
    let mut proof = proof.iter();
    let Some(first) = (if old.is_power_of_two() { Some(old_root) } else { proof.next() }) else {
        return false;
    };
    let (mut was, mut is) = (*first, *first);
    for hash in proof {
        if high == 0 {
            return false;
        }
        if climbs_right(&mut low, &mut high) {
            (was, is) = (node(hash, &was), node(hash, &is));
        } else {
            is = node(&is, hash);
        }
    }
    high == 0 && was == *old_root && is == *root
}

/// Climbs one hash of a proof: whether that hash stands to the left.
fn climbs_right(low: &mut u64, high: &mut u64) -> bool {
    let right = *low & 1 == 1 || low == high;
    if right {
        // Where the last node has no right neighbour it climbs as it is.
        while *low & 1 == 0 && *low != 0 {
            (*low, *high) = (*low >> 1, *high >> 1);
        }
    }
    (*low, *high) = (*low >> 1, *high >> 1);
    right
}

/// The root of leaves that come one after the other, in the memory of one branch.
#[derive(Debug, Clone, Default)]
pub struct Growing {
    leaves: u64,
    /// Complete nodes, the largest first.
    nodes: Vec<Hash>,
}

impl Growing {
    /// Takes the next leaf; gives what a log keeps for it, as [`grow`] does.
    pub fn push(&mut self, leaf: Hash) -> Vec<Hash> {
        let (mut kept, mut last) = (vec![leaf], leaf);
        for _ in 0..self.leaves.trailing_ones() {
            let Some(left) = self.nodes.pop() else { break };
            last = node(&left, &last);
            kept.push(last);
        }
        self.nodes.push(last);
        self.leaves += 1;
        kept
    }

    /// How many leaves came.
    pub fn leaves(&self) -> u64 {
        self.leaves
    }

    /// The root over them.
    pub fn root(&self) -> Hash {
        let whole = self.nodes.iter().rev().copied().reduce(|right, left| node(&left, &right));
        whole.unwrap_or_else(|| Sha256::digest([]).into())
    }
}

#[cfg(test)]
mod tests;
