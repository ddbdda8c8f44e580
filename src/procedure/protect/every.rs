//! The walk against the naive rule, step by step, on every sequence of steps up to a length.
//!
//! All words at once would be too many: there are 37 of them without a test block, and 37^6 is over two
//! thousand million. So some sets are run through whole, and each says what it leaves to the others.

use super::naive::{broken, broken_at_the_end};
use super::tests::{BLOCK, GOOD, source, step, with_block, zones};
use super::{Machine, Walk};
use crate::packet::model::Step;

/// What is done to the sources, and who reaches in: one source after the other, each zone.
///
/// Left to [`TELLING`]: what is told and looked at; isolation by itself does not need it. Left to
/// [`AFTER`]: the second of two symmetric ways (lock, relieve, verify one source alone).
const HOLDING: [&str; 10] = [
    "isolate air",
    "isolate mains",
    "lock",
    "relieve",
    "try-out",
    "verify",
    "in",
    "in @web",
    "unlock mains",
    "run",
];

/// What is told, looked at, stopped and started, around a lockout that acts on all sources.
///
/// Left to [`HOLDING`]: lock, relieve, try-out, verify and reaching in, which ask for none of it.
const TELLING: [&str; 10] = [
    "notify",
    "prepare",
    "shutdown",
    "isolate",
    "unlock",
    "inspect",
    "clear-people",
    "notify-after",
    "restart",
    "run",
];

/// Every word, two of them at each place of two changeovers in a row.
const AFTER: [&str; 37] = [
    "notify",
    "prepare",
    "shutdown",
    "shutdown powered",
    "isolate",
    "isolate air",
    "isolate mains",
    "isolate powered",
    "lock",
    "lock air",
    "lock mains",
    "relieve",
    "relieve air",
    "relieve mains",
    "relieve @web",
    "try-out",
    "try-out isolated @web",
    "verify",
    "verify air",
    "verify mains",
    "in",
    "in @web",
    "in @nowhere",
    "reach",
    "reach @nowhere",
    "run",
    "run @web",
    "work",
    "work isolated",
    "inspect",
    "inspect isolated @web",
    "clear-people",
    "unlock",
    "unlock air",
    "unlock nothing",
    "notify-after",
    "restart",
];

/// A test block on the mains: its beginning, its locks, power, who reaches in, and another source.
///
/// Left to [`APPLYING`]: going back to zero energy. Left to [`AFTER`]: everything told.
const TESTING: [&str; 9] = [
    "inspect block",
    "clear-people block",
    "unlock mains block",
    "unlock air block",
    "test",
    "test outside",
    "run block",
    "in",
    "in @web block",
];

/// The second half of a test block on the mains: zero energy again, for both sources or one.
///
/// Left to [`TESTING`]: the first half.
const APPLYING: [&str; 9] = [
    "test",
    "shutdown block",
    "isolate mains block",
    "lock mains block",
    "relieve mains block",
    "try-out block",
    "verify mains block",
    "isolate air",
    "in @web",
];

/// Every word that only a block has, and minor servicing, two of them at each place of a changeover with a block.
const IN_BLOCK: [&str; 38] = [
    "notify block",
    "shutdown",
    "shutdown block",
    "shutdown test block",
    "isolate block",
    "isolate mains block",
    "isolate mains",
    "lock block",
    "lock mains block",
    "relieve mains block",
    "try-out block",
    "try-out test block",
    "verify mains block",
    "verify mains",
    "in",
    "in @web",
    "in @web block",
    "inspect",
    "inspect block",
    "inspect isolated @web block",
    "clear-people",
    "clear-people block",
    "unlock",
    "unlock block",
    "unlock mains block",
    "unlock nothing block",
    "notify-after block",
    "restart",
    "restart block",
    "restart test block",
    "service",
    "service @web",
    "service @web block",
    "service isolated @web",
    "test",
    "test @web",
    "test outside",
    "work",
];

/// How many sequences were looked at, and in how many the last step leaves everybody protected.
#[derive(Debug, Default, PartialEq, Eq)]
struct Counts {
    sequences: usize,
    protected: usize,
}

struct Every<'a> {
    words: &'a [(&'a str, Step)],
    machine: Machine<'a>,
    counts: Counts,
}

impl<'a> Every<'a> {
    /// Appends each word to the steps that are done, and compares what both say about it.
    fn append(&mut self, walk: &Walk<'a>, done: &mut Vec<&'a Step>, most: usize) {
        let words = self.words;
        for (word, step) in words {
            let mut walk = walk.clone();
            walk.step(0, step);
            let naive = broken(done, step, self.machine);
            self.compare(&mut walk, &naive, word, done);
            self.counts.sequences += 1;
            self.counts.protected += usize::from(naive.is_empty());
            done.push(step);
            walk.end(0);
            let naive = broken_at_the_end(done, self.machine);
            self.compare(&mut walk, &naive, "(the end)", done);
            if most > 1 {
                self.append(&walk, done, most - 1);
            }
            done.pop();
        }
    }

    fn compare(&self, walk: &mut Walk, naive: &[&str], word: &str, done: &[&Step]) {
        let found = std::mem::take(&mut walk.found);
        let agree = naive.is_empty() == found.is_empty();
        assert!(agree, "{word} breaks {naive:?}, the walk found {found:?}, after{}", words(done));
    }
}

/// Steps in short, for a message.
fn words(done: &[&Step]) -> String {
    let words = |s: &&Step| format!("\n{:?} {:?} {:?} {:?}", s.stage, s.needs, s.zone, s.sources);
    done.iter().map(words).collect()
}

/// Runs every sequence of up to `most` words after each of some beginnings.
#[track_caller]
fn check(words: &[&str], inching: &[&str], beginnings: &[&[&str]], most: usize, expected: Counts) {
    let inching: Vec<String> = inching.iter().map(|id| (*id).to_owned()).collect();
    let words: Vec<(&str, Step)> = words.iter().map(|words| (*words, step(words))).collect();
    let (sources, zones) = ([source("air"), source("mains")], zones());
    let machine = Machine { sources: &sources, zones: &zones, inching: &inching };
    let mut counts = Counts::default();
    for beginning in beginnings {
        let begun: Vec<Step> = beginning.iter().map(|words| step(words)).collect();
        let mut walk = Walk::new(machine);
        begun.iter().for_each(|step| walk.step(0, step));
        assert_eq!(walk.found, [], "{beginning:?}");
        let mut every = Every { words: &words, machine, counts };
        every.append(&walk, &mut begun.iter().collect(), most);
        counts = every.counts;
    }
    assert_eq!(counts, expected);
}

#[test]
fn every_six_steps_of_holding_sources() {
    // 10 + 10^2 + ... + 10^6
    check(&HOLDING, &[], &[&[]], 6, Counts { sequences: 1_111_110, protected: 39_604 });
}

#[test]
fn every_six_steps_of_telling_people() {
    check(&TELLING, &[], &[&[]], 6, Counts { sequences: 1_111_110, protected: 567_128 });
}

#[test]
fn any_two_steps_at_each_place_of_two_changeovers() {
    let good: Vec<&str> = GOOD.split(',').collect();
    let twice = [good.as_slice(), good.as_slice()].concat();
    let beginnings: Vec<&[&str]> = (0..=twice.len()).map(|length| &twice[..length]).collect();
    // 31 places, 37 + 37^2 sequences at each
    check(&AFTER, &[], &beginnings, 2, Counts { sequences: 43_586, protected: 15_430 });
}

/// A changeover up to a word, as words.
fn up_to<'a>(all: &'a str, word: &str) -> Vec<&'a str> {
    all.split(',').take_while(|at| *at != word).collect()
}

#[test]
fn every_six_steps_of_a_test_block() {
    // 9 + 9^2 + ... + 9^6
    let begun = up_to(GOOD, "in");
    check(&TESTING, &["mains"], &[&begun], 6, Counts { sequences: 597_870, protected: 133_849 });
}

#[test]
fn every_six_steps_back_to_zero_energy() {
    let all = with_block(BLOCK);
    let begun = up_to(&all, "shutdown block");
    check(&APPLYING, &["mains"], &[&begun], 6, Counts { sequences: 597_870, protected: 111_470 });
}

#[test]
fn any_two_steps_at_each_place_of_a_changeover_with_a_block() {
    let all = with_block(BLOCK);
    let all: Vec<&str> = all.split(',').collect();
    let beginnings: Vec<&[&str]> = (0..=all.len()).map(|length| &all[..length]).collect();
    check(&IN_BLOCK, &["mains"], &beginnings, 2, Counts { sequences: 41_496, protected: 8_688 });
    let begun: Vec<&[&str]> = vec![&[]];
    // A machine that names no source for it has no block.
    check(&IN_BLOCK, &[], &begun, 2, Counts { sequences: 1_482, protected: 119 });
}
