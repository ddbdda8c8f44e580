//! The walk against the naive rule, step by step, on every sequence of steps up to a length.
//!
//! All words at once would be too many: there are 37 of them, and 37^6 is over two thousand million.
//! So three sets are run through whole, and each says what it leaves to the others.

use super::Walk;
use super::naive::{Machine, broken, broken_at_the_end};
use super::tests::{GOOD, source, step, zones};
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
fn check(words: &[&str], beginnings: &[&[&str]], most: usize, expected: Counts) {
    let words: Vec<(&str, Step)> = words.iter().map(|words| (*words, step(words))).collect();
    let (sources, zones) = ([source("air"), source("mains")], zones());
    let machine = Machine { sources: &sources, zones: &zones };
    let mut counts = Counts::default();
    for beginning in beginnings {
        let begun: Vec<Step> = beginning.iter().map(|words| step(words)).collect();
        let mut walk = Walk::new(&sources, &zones);
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
    check(&HOLDING, &[&[]], 6, Counts { sequences: 1_111_110, protected: 39_604 });
}

#[test]
fn every_six_steps_of_telling_people() {
    check(&TELLING, &[&[]], 6, Counts { sequences: 1_111_110, protected: 567_128 });
}

#[test]
fn any_two_steps_at_each_place_of_two_changeovers() {
    let good: Vec<&str> = GOOD.split(',').collect();
    let twice = [good.as_slice(), good.as_slice()].concat();
    let beginnings: Vec<&[&str]> = (0..=twice.len()).map(|length| &twice[..length]).collect();
    // 31 places, 37 + 37^2 sequences at each
    check(&AFTER, &beginnings, 2, Counts { sequences: 43_586, protected: 15_430 });
}
