use std::cell::Cell;
use std::convert::Infallible;

use proptest::prelude::*;

use super::{
    Growing, Hash, grow, kept_hashes, leaf, leaves_of, node, place, prove_growth, prove_leaf,
    proves_growth, proves_leaf, root,
};
use crate::canonical::{hex, sha256_hex};
use crate::record::fixture::unhex;

/// The eight test leaves, roots over the first n of them and hashes of the last, as published with
/// several implementations of RFC 6962.
const LEAVES: [&str; 8] = [
    "",
    "00",
    "10",
    "2021",
    "3031",
    "40414243",
    "5051525354555657",
    "606162636465666768696a6b6c6d6e6f",
];
const ROOTS: [&str; 9] = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
];
const LEAF_HASHES: [&str; 8] = [
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
    "0298d122906dcfc10892cb53a73992fc5b9f493ea4c9badb27b791b4127a7fe7",
    "07506a85fd9dd2f120eb694f86011e5bb4662e5c415a62917033d4a9624487e7",
    "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
    "4271a26be0d8a84f0bd54c8c302e7cb3a3b5d1fa6780a40bcce2873477dab658",
    "b08693ec2e721597130641e8211e7eedccb4c26413963eee6c1e2ed16ffb1a5f",
    "46f6ffadd3d06a09ff3c5860d2755c8b9819db7df44251788c7d8e3180de8eb1",
];

/// RFC 6962 §2.1 to §2.1.2 word by word: the second implementation.
mod plain {
    use super::super::{Hash, node};
    use sha2::{Digest, Sha256};

    fn below(n: usize) -> usize {
        (0..).map(|bit| 1 << bit).take_while(|k| *k < n).last().unwrap()
    }

    pub fn root(leaves: &[Hash]) -> Hash {
        match leaves {
            [] => Sha256::digest([]).into(),
            [one] => *one,
            many => {
                let (left, right) = many.split_at(below(many.len()));
                node(&root(left), &root(right))
            }
        }
    }

    pub fn path(m: usize, leaves: &[Hash]) -> Vec<Hash> {
        if leaves.len() == 1 {
            return Vec::new();
        }
        let k = below(leaves.len());
        let (left, right) = leaves.split_at(k);
        let (mut path, last) = match m < k {
            true => (path(m, left), root(right)),
            false => (path(m - k, right), root(left)),
        };
        path.push(last);
        path
    }

    pub fn growth(m: usize, leaves: &[Hash], is_whole: bool) -> Vec<Hash> {
        if m == leaves.len() {
            return if is_whole { Vec::new() } else { vec![root(leaves)] };
        }
        let k = below(leaves.len());
        let (left, right) = leaves.split_at(k);
        let (mut proof, last) = match m <= k {
            true => (growth(m, left, is_whole), root(right)),
            false => (growth(m - k, right, false), root(left)),
        };
        proof.push(last);
        proof
    }
}

/// A log in memory that counts what is read of it.
#[derive(Default)]
struct Kept {
    leaves: Vec<Hash>,
    hashes: Vec<Hash>,
    reads: Cell<usize>,
}

impl Kept {
    fn of(leaves: impl IntoIterator<Item = Hash>) -> Kept {
        let mut kept = Kept::default();
        for leaf in leaves {
            let grown = grow(kept.len(), leaf, |place| kept.read(place)).unwrap();
            kept.hashes.extend(grown);
            kept.leaves.push(leaf);
        }
        kept.reads.set(0);
        kept
    }

    fn published() -> Kept {
        Kept::of(LEAVES.map(|data| leaf(&[&unhex(data)])))
    }

    fn numbered(count: u64) -> Kept {
        Kept::of((0..count).map(|n| leaf(&[&n.to_be_bytes()])))
    }

    fn len(&self) -> u64 {
        self.leaves.len() as u64
    }

    fn read(&self, place: u64) -> Result<Hash, Infallible> {
        self.reads.set(self.reads.get() + 1);
        Ok(self.hashes[usize::try_from(place).unwrap()])
    }

    fn root(&self, leaves: u64) -> Hash {
        root(leaves, |place| self.read(place)).unwrap()
    }

    fn leaf_proof(&self, index: u64, leaves: u64) -> Vec<Hash> {
        prove_leaf(index, leaves, |place| self.read(place)).unwrap()
    }

    fn growth_proof(&self, old: u64, leaves: u64) -> Vec<Hash> {
        prove_growth(old, leaves, |place| self.read(place)).unwrap()
    }
}

#[test]
fn leaves_and_roots_are_the_published_ones() {
    let kept = Kept::published();
    for (own, published) in kept.leaves.iter().zip(LEAF_HASHES) {
        assert_eq!(hex(own), published);
    }
    let mut growing = Growing::default();
    for (n, published) in (0u64..).zip(ROOTS) {
        assert_eq!(hex(&kept.root(n)), published, "{n} leaves");
        assert_eq!(hex(&growing.root()), published, "{n} leaves, one by one");
        if let Some(leaf) = kept.leaves.get(usize::try_from(n).unwrap()) {
            growing.push(*leaf);
        }
    }
}

/// The first eight digits of published hashes and roots stand for them.
#[track_caller]
fn check(proof: &[Hash], published: &[&str]) {
    let own: Vec<String> = proof.iter().map(|hash| hex(hash)[..8].to_owned()).collect();
    assert_eq!(own, published);
}

#[test]
fn proofs_are_the_published_ones() {
    let kept = Kept::published();
    check(&kept.leaf_proof(0, 8), &["96a296d2", "5f083f0a", "6b47aaf2"]);
    check(&kept.leaf_proof(5, 8), &["bc1a0643", "ca854ea1", "d37ee418"]);
    check(&kept.leaf_proof(2, 3), &["fac54203"]);
    check(&kept.leaf_proof(1, 5), &["6e340b9c", "5f083f0a", "bc1a0643"]);
    check(&kept.growth_proof(1, 8), &["96a296d2", "5f083f0a", "6b47aaf2"]);
    check(&kept.growth_proof(6, 8), &["0ebc5d34", "ca854ea1", "d37ee418"]);
    check(&kept.growth_proof(2, 5), &["5f083f0a", "bc1a0643"]);
    check(&kept.growth_proof(4, 8), &["6b47aaf2"]);
    check(&kept.growth_proof(3, 7), &["0298d122", "07506a85", "fac54203", "837dbb15"]);
}

/// Every proof of a log, against the plain definition, and every way in which it can be altered.
fn check_all(kept: &Kept) {
    for leaves in 1..=kept.len() {
        let some = &kept.leaves[..usize::try_from(leaves).unwrap()];
        let own = kept.root(leaves);
        assert_eq!(own, plain::root(some));
        for (index, leaf) in (0..).zip(some) {
            let proof = kept.leaf_proof(index, leaves);
            assert_eq!(proof, plain::path(usize::try_from(index).unwrap(), some));
            assert!(proves_leaf(leaf, index, leaves, &proof, &own));
            leaf_proof_holds_nothing_else(leaf, index, leaves, &proof, &own);
        }
        for old in 0..=leaves {
            let proof = kept.growth_proof(old, leaves);
            let old_root = kept.root(old);
            if old > 0 {
                assert_eq!(proof, plain::growth(usize::try_from(old).unwrap(), some, true));
            }
            assert!(proves_growth(old, &old_root, leaves, &own, &proof), "{old} of {leaves}");
            growth_proof_holds_nothing_else(old, &old_root, leaves, &own, &proof);
        }
    }
}

fn flipped(hash: &Hash) -> Hash {
    let mut other = *hash;
    other[7] ^= 1;
    other
}

/// A proof with one hash changed, dropped, doubled, or one too many.
fn altered(proof: &[Hash]) -> Vec<Vec<Hash>> {
    let mut all = Vec::new();
    for at in 0..proof.len() {
        let mut changed = proof.to_vec();
        changed[at] = flipped(&changed[at]);
        let (mut dropped, mut doubled) = (proof.to_vec(), proof.to_vec());
        dropped.remove(at);
        doubled.insert(at, proof[at]);
        all.extend([changed, dropped, doubled]);
    }
    all.push([proof, &[[0; 32]]].concat());
    all.push([&[[0; 32]], proof].concat());
    all
}

fn leaf_proof_holds_nothing_else(
    leaf: &Hash,
    index: u64,
    leaves: u64,
    proof: &[Hash],
    root: &Hash,
) {
    assert!(!proves_leaf(&flipped(leaf), index, leaves, proof, root));
    assert!(!proves_leaf(leaf, index, leaves, proof, &flipped(root)));
    for other in (0..=leaves + 1).filter(|other| *other != index) {
        assert!(!proves_leaf(leaf, other, leaves, proof, root));
    }
    for altered in altered(proof) {
        assert!(!proves_leaf(leaf, index, leaves, &altered, root));
    }
}

fn growth_proof_holds_nothing_else(
    old: u64,
    old_root: &Hash,
    leaves: u64,
    root: &Hash,
    proof: &[Hash],
) {
    assert!(!proves_growth(old, &flipped(old_root), leaves, root, proof));
    if old > 0 {
        assert!(!proves_growth(old, old_root, leaves, &flipped(root), proof));
        assert!(!proves_growth(old, old_root, old - 1, root, proof), "a cut log");
    }
    for altered in altered(proof) {
        assert!(!proves_growth(old, old_root, leaves, root, &altered));
    }
}

/// All 36 proofs of leaves and 44 of growth for logs of up to eight leaves.
#[test]
fn every_proof_of_a_small_log_holds_and_nothing_beside_it() {
    check_all(&Kept::published());
}

#[test]
fn every_proof_of_a_longer_log_holds_and_nothing_beside_it() {
    check_all(&Kept::numbered(40));
}

#[test]
fn hashes_are_numbered_as_they_come_to_be() {
    let kept = Kept::numbered(300);
    for leaves in 0..300 {
        let hashes = kept_hashes(leaves);
        assert_eq!(leaves_of(hashes), leaves);
        assert_eq!(place(0, leaves), hashes, "the next leaf comes next");
        for torn in hashes..kept_hashes(leaves + 1) {
            assert_eq!(leaves_of(torn), leaves);
        }
    }
    for level in 0..8 {
        for index in 0..300 >> level {
            let hash = kept.read(place(level, index)).unwrap();
            let (from, to) = (index << level, (index + 1) << level);
            let leaves = from as usize..to as usize;
            assert_eq!(hash, plain::root(&kept.leaves[leaves]), "level {level}, {index}");
        }
    }
}

#[test]
fn leaves_one_by_one_give_what_a_log_keeps() {
    let (kept, mut growing) = (Kept::numbered(100), Growing::default());
    let hashes: Vec<Hash> = kept.leaves.iter().flat_map(|leaf| growing.push(*leaf)).collect();
    assert_eq!(hashes, kept.hashes);
    assert_eq!((growing.leaves(), growing.root()), (100, kept.root(100)));
}

#[test]
fn a_leaf_is_no_node_and_the_empty_log_no_leaf() {
    let (left, right) = (leaf(&[b"left"]), leaf(&[b"right"]));
    assert_ne!(leaf(&[&left, &right]), node(&left, &right));
    assert_eq!(hex(&Growing::default().root()), sha256_hex(b""));
    assert!(!proves_leaf(&Growing::default().root(), 0, 0, &[], &Growing::default().root()));
}

/// A root or a proof of a million leaves, read from numbered places that are made as they are asked.
#[test]
fn a_proof_reads_in_the_height_of_the_tree() {
    let reads = Cell::new(0_u32);
    let read = |place: u64| {
        reads.set(reads.get() + 1);
        Ok::<Hash, Infallible>(leaf(&[&place.to_be_bytes()]))
    };
    let count = |work: &dyn Fn()| {
        reads.set(0);
        work();
        reads.get()
    };
    for leaves in [1_000_000_u64, 1_048_575, 1_048_577] {
        let height = u64::BITS - leaves.leading_zeros();
        assert!(count(&|| _ = root(leaves, read)) <= height);
        assert!(count(&|| _ = grow(leaves, [0; 32], read)) <= height);
        for at in [1, 65_537, 500_000, leaves - 1] {
            assert!(count(&|| _ = prove_leaf(at, leaves, read)) <= 2 * height);
            assert!(count(&|| _ = prove_growth(at, leaves, read)) <= 2 * height);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn proofs_of_any_log_hold(leaves in 1_u64..10_000, at in any::<u64>(), old in any::<u64>()) {
        let kept = Kept::numbered(leaves);
        let (at, old, own) = (at % leaves, old % (leaves + 1), kept.root(leaves));
        prop_assert_eq!(own, plain::root(&kept.leaves));
        let proof = kept.leaf_proof(at, leaves);
        let index = usize::try_from(at).unwrap();
        prop_assert_eq!(&proof, &plain::path(index, &kept.leaves));
        prop_assert!(proves_leaf(&kept.leaves[index], at, leaves, &proof, &own));
        let growth = kept.growth_proof(old, leaves);
        prop_assert!(proves_growth(old, &kept.root(old), leaves, &own, &growth));
        for altered in altered(&growth) {
            prop_assert!(!proves_growth(old, &kept.root(old), leaves, &own, &altered));
        }
    }

    #[test]
    fn no_proof_makes_it_stop_or_panic(
        old in any::<u64>(), leaves in any::<u64>(), index in any::<u64>(),
        proof in prop::collection::vec(any::<[u8; 32]>(), 0..70),
    ) {
        prop_assert!(!proves_leaf(&[1; 32], index, leaves, &proof, &[2; 32]));
        prop_assert!(!proves_growth(old, &[1; 32], leaves, &[2; 32], &proof));
    }
}
