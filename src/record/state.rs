//! Where a job stands: the entries folded over the packet, nothing else.
//!
//! The latest reading of a blank counts, all are kept. A signature covers what stood before it: a
//! step whose reading is corrected has to be signed again. Must never look at files, clocks or
//! people; whether an entry may come next is asked in [`super::rules`].

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::entry::{Entry, Kind, Verdict};
use super::time;
use crate::language::Words;
use crate::packet::Packet;
use crate::packet::model::{Meaning, Reading, Sign, Step};

/// How far a job has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// Steps or readings are missing.
    Open,
    /// Every step is done and every reading is in.
    Performed,
    /// Also checked by a second person wherever the packet asks for it.
    Verified,
    /// Handed over to production, every reading within its limits.
    Released,
    /// Handed over to production with a reading that somebody accepted outside its limits.
    ReleasedWithDeviation,
}

impl State {
    /// The state in words.
    pub fn told(self) -> Words {
        Words::of(match self {
            State::Open => "state-open",
            State::Performed => "state-performed",
            State::Verified => "state-verified",
            State::Released => "state-released",
            State::ReleasedWithDeviation => "state-released-with-deviation",
        })
    }
}

/// Something a job still lacks.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Missing {
    /// A blank without a reading.
    Reading {
        /// The step.
        step: String,
        /// The blank.
        blank: String,
    },
    /// A signature.
    Signature {
        /// The step.
        step: String,
        /// What it means, as in an entry's `kind`.
        meaning: &'static str,
        /// The role it needs.
        role: String,
        /// The row of the step it stands in.
        #[serde(skip_serializing_if = "Option::is_none")]
        row: Option<String>,
    },
    /// Nobody has accepted a reading outside its limits, or too close to them to tell.
    Acceptance {
        /// The step.
        step: String,
        /// The blank.
        blank: String,
        /// `seq` of the reading.
        seq: u64,
        /// Outside, or too close to tell.
        verdict: Verdict,
    },
    /// A zero is not proved, 29 CFR 1910.147(d)(6), or another reading that nobody may accept.
    Remeasuring {
        /// The step.
        step: String,
        /// The blank.
        blank: String,
        /// `seq` of the reading.
        seq: u64,
        /// Outside, or too close to tell.
        verdict: Verdict,
    },
}

impl Missing {
    /// What is missing, for people.
    pub fn words(&self) -> Words {
        match self {
            Missing::Reading { blank, .. } => {
                Words::new("missing-reading", &[("blank", blank.into())])
            }
            Missing::Signature { step, meaning, role, row } => {
                let step = of_row(step, row.as_deref());
                let kind = Kind::of_word(meaning).map_or((*meaning).into(), Kind::words);
                let parts = [("step", step.into()), ("kind", kind.into()), ("role", role.into())];
                Words::new("missing-signature", &parts)
            }
            Missing::Acceptance { blank, seq, verdict, .. } => {
                of_reading("missing-acceptance", *seq, blank, *verdict)
            }
            Missing::Remeasuring { blank, seq, verdict, .. } => {
                of_reading("missing-remeasuring", *seq, blank, *verdict)
            }
        }
    }

    /// The step it belongs to.
    pub fn step(&self) -> &str {
        match self {
            Missing::Reading { step, .. }
            | Missing::Signature { step, .. }
            | Missing::Acceptance { step, .. }
            | Missing::Remeasuring { step, .. } => step,
        }
    }

    fn is_signature(&self, wanted: Meaning) -> bool {
        let word = Kind::from(wanted).word();
        matches!(self, Missing::Signature { meaning, .. } if *meaning == word)
    }
}

fn of_reading(key: &'static str, seq: u64, blank: &str, verdict: Verdict) -> Words {
    let parts = [
        ("entry", seq.to_string().into()),
        ("blank", blank.into()),
        ("verdict", verdict.words_of_limits().into()),
    ];
    Words::new(key, &parts)
}

/// A step, or one row of it: `lockout.lock`, `lockout.lock/mains`.
pub(crate) fn of_row(step: &str, row: Option<&str>) -> String {
    row.map_or(step.to_owned(), |row| format!("{step}/{row}"))
}

/// State of a record with the reasons.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Standing {
    /// How far it has come.
    pub state: State,
    /// What is missing until it is released, in the order of the packet.
    pub missing: Vec<Missing>,
}

/// State of a record from its packet and the entries that count.
pub fn standing<'e>(packet: &Packet, entries: impl IntoIterator<Item = &'e Entry>) -> Standing {
    let mut ledger = Ledger::new(packet);
    for entry in entries {
        ledger.take(entry, "");
    }
    ledger.standing()
}

/// The latest reading of a blank.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Latest {
    pub(crate) seq: u64,
    pub(crate) verdict: Verdict,
}

/// A signature on a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Signed {
    pub(crate) seq: u64,
    pub(crate) by: String,
    pub(crate) key: String,
    pub(crate) role: String,
    pub(crate) row: Option<String>,
}

impl Signed {
    /// Whether it is what a step asks for.
    fn is(&self, sign: &Sign) -> bool {
        self.role == sign.role
            && self.row == sign.row
            && sign.by.as_ref().is_none_or(|by| *by == self.by)
    }
}

/// What a later entry may point at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Noted {
    pub(crate) blank: String,
    pub(crate) verdict: Verdict,
}

/// A packet with its entries so far, ready to be asked.
pub(crate) struct Ledger<'p> {
    pub(crate) packet: &'p Packet,
    pub(crate) issued: Option<DateTime<FixedOffset>>,
    steps: BTreeMap<&'p str, usize>,
    blanks: BTreeMap<&'p str, (usize, &'p Reading)>,
    pub(crate) latest: BTreeMap<&'p str, Latest>,
    pub(crate) readings: BTreeMap<u64, Noted>,
    pub(crate) accepted: BTreeMap<u64, u64>,
    signed: BTreeMap<(usize, Meaning), Vec<Signed>>,
    pub(crate) released: Option<u64>,
    pub(crate) last: Option<DateTime<FixedOffset>>,
}

impl<'p> Ledger<'p> {
    /// A packet without entries.
    pub(crate) fn new(packet: &'p Packet) -> Self {
        let steps = packet.steps.iter().enumerate();
        let blanks = steps
            .clone()
            .flat_map(|(i, step)| step.readings.iter().map(move |r| (r.id.as_str(), (i, r))));
        Ledger {
            packet,
            issued: time::parse(&packet.job.issued).ok(),
            steps: steps.clone().map(|(i, step)| (step.id.as_str(), i)).collect(),
            blanks: blanks.collect(),
            latest: BTreeMap::new(),
            readings: BTreeMap::new(),
            accepted: BTreeMap::new(),
            signed: BTreeMap::new(),
            released: None,
            last: None,
        }
    }

    /// The step with an identifier, and its place.
    pub(crate) fn step(&self, id: &str) -> Option<(usize, &'p Step)> {
        let index = *self.steps.get(id)?;
        Some((index, self.packet.steps.get(index)?))
    }

    /// The blank with an identifier, and its step.
    pub(crate) fn blank(&self, id: &str) -> Option<(usize, &'p Reading)> {
        self.blanks.get(id).copied()
    }

    /// Identifiers of all blanks.
    pub(crate) fn blank_ids(&self) -> impl Iterator<Item = &'p str> {
        self.blanks.keys().copied()
    }

    /// Takes an entry in; it is not asked whether it may come.
    pub(crate) fn take(&mut self, entry: &Entry, key: &str) {
        if let Ok(at) = time::parse(&entry.at) {
            self.last = self.last.max(Some(at));
        }
        match entry.kind {
            Kind::Reading => self.take_reading(entry),
            Kind::DeviationAccepted => {
                if let Some(target) = entry.accepts {
                    self.accepted.entry(target).or_insert(entry.seq);
                }
            }
            Kind::Performed | Kind::Verified | Kind::Released => self.take_signature(entry, key),
        }
    }

    fn take_reading(&mut self, entry: &Entry) {
        let Some(taken) = &entry.reading else { return };
        let Some((&blank, _)) = self.blanks.get_key_value(taken.blank.as_str()) else { return };
        self.latest.insert(blank, Latest { seq: entry.seq, verdict: taken.verdict });
        let noted = Noted { blank: taken.blank.clone(), verdict: taken.verdict };
        self.readings.insert(entry.seq, noted);
    }

    fn take_signature(&mut self, entry: &Entry, key: &str) {
        let (Some((index, _)), Some(meaning)) = (self.step(&entry.step), entry.kind.gives()) else {
            return;
        };
        let signed = Signed {
            seq: entry.seq,
            by: entry.by.clone(),
            key: key.to_owned(),
            role: entry.role.clone(),
            row: entry.row.clone(),
        };
        self.signed.entry((index, meaning)).or_default().push(signed);
        if meaning == Meaning::Released && self.released.is_none() {
            self.released = Some(entry.seq);
        }
    }

    /// Signatures of one meaning on a step that cover the readings of their row as they stand.
    pub(crate) fn signatures(
        &self,
        index: usize,
        meaning: Meaning,
    ) -> impl Iterator<Item = &Signed> {
        self.signed_so(index, meaning).filter(move |signed| self.covers(index, signed))
    }

    fn signed_so(&self, index: usize, meaning: Meaning) -> impl Iterator<Item = &Signed> {
        self.signed.get(&(index, meaning)).map(Vec::as_slice).unwrap_or_default().iter()
    }

    /// Whether a signature came after every reading of its row.
    fn covers(&self, index: usize, signed: &Signed) -> bool {
        Some(signed.seq) > self.latest_in(index, signed.row.as_deref())
    }

    /// `seq` of the latest reading of a step, or of one row of it.
    fn latest_in(&self, index: usize, row: Option<&str>) -> Option<u64> {
        let step = self.packet.steps.get(index)?;
        let seq = |blank: &str| self.latest.get(blank).map(|latest| latest.seq);
        blanks(step, row).filter_map(|blank| seq(&blank.id)).max()
    }

    /// Blanks of a step, or of one row of it, without a reading.
    pub(crate) fn open_blanks(&self, step: &'p Step, row: Option<&str>) -> Vec<&'p str> {
        let ids = blanks(step, row).map(|blank| blank.id.as_str());
        ids.filter(|id| !self.latest.contains_key(id)).collect()
    }

    /// Whether every `performed` that a step, or one row of it, asks for is there.
    pub(crate) fn is_performed(&self, index: usize, row: Option<&str>) -> bool {
        self.lacks(index, Meaning::Performed, row).next().is_none()
    }

    /// The signatures that a step, or one row of it, asks for up to a meaning and that are not there.
    pub(crate) fn lacks<'r>(
        &'r self,
        index: usize,
        up_to: Meaning,
        row: Option<&'r str>,
    ) -> impl Iterator<Item = &'p Sign> + 'r {
        let step = self.packet.steps.get(index);
        let asked = step.map(|step| step.signs.as_slice()).unwrap_or_default().iter();
        asked
            .filter(move |sign| sign.meaning <= up_to)
            .filter(move |sign| row.is_none() || sign.row.as_deref() == row)
            .filter(move |sign| !self.has(index, sign))
    }

    /// Whether a signature that a step asks for is there.
    pub(crate) fn has(&self, index: usize, sign: &Sign) -> bool {
        let mut all = self.signed_so(index, sign.meaning);
        all.any(|signed| signed.is(sign) && self.covers(index, signed))
    }

    /// What is missing until the machine is released, in the order of the packet.
    pub(crate) fn missing(&self) -> Vec<Missing> {
        let mut missing = Vec::new();
        let needed = |(_, step): &(usize, &Step)| step.stays.is_none();
        for (index, step) in self.packet.steps.iter().enumerate().filter(needed) {
            for reading in &step.readings {
                missing.extend(self.missing_of(step, reading));
            }
            for sign in &step.signs {
                if !self.has(index, sign) {
                    let meaning = Kind::from(sign.meaning).word();
                    let (step, role, row) = (step.id.clone(), sign.role.clone(), sign.row.clone());
                    missing.push(Missing::Signature { step, meaning, role, row });
                }
            }
        }
        missing
    }

    fn missing_of(&self, step: &Step, reading: &Reading) -> Option<Missing> {
        let is_final = step.is_never_accepted(reading);
        let (step, blank) = (step.id.clone(), reading.id.clone());
        match self.latest.get(reading.id.as_str()) {
            None => Some(Missing::Reading { step, blank }),
            Some(Latest { seq, verdict: verdict @ (Verdict::Outside | Verdict::TooClose) })
                if !self.accepted.contains_key(seq) =>
            {
                let (seq, verdict) = (*seq, *verdict);
                Some(match is_final {
                    true => Missing::Remeasuring { step, blank, seq, verdict },
                    false => Missing::Acceptance { step, blank, seq, verdict },
                })
            }
            Some(_) => None,
        }
    }

    /// What is missing until `released` may be signed.
    pub(crate) fn missing_for_release(&self) -> Vec<Missing> {
        let mut missing = self.missing();
        missing.retain(|m| !m.is_signature(Meaning::Released));
        missing
    }

    /// The state and its reasons.
    pub(crate) fn standing(&self) -> Standing {
        let missing = self.missing();
        let undone = |m: &Missing| {
            matches!(m, Missing::Reading { .. }) || m.is_signature(Meaning::Performed)
        };
        let state = if missing.iter().any(undone) {
            State::Open
        } else if missing.iter().any(|m| m.is_signature(Meaning::Verified)) {
            State::Performed
        } else if !missing.is_empty() || self.released.is_none() {
            State::Verified
        } else if self.latest.values().any(|latest| latest.verdict != Verdict::Within) {
            State::ReleasedWithDeviation
        } else {
            State::Released
        };
        Standing { state, missing }
    }
}

/// The blanks of a step, or of one row of it.
fn blanks<'p>(step: &'p Step, row: Option<&str>) -> impl Iterator<Item = &'p Reading> {
    step.readings.iter().filter(move |blank| step.holds(row, &blank.id))
}

#[cfg(test)]
mod tests {
    use super::standing;
    use crate::record::entry::{Entry, Verdict};
    use crate::record::fixture;

    /// What is said of the good record's reading 7 under a verdict, while nobody has accepted it.
    #[track_caller]
    fn check(verdict: Verdict, expected: Option<&str>) {
        let mut entries: Vec<_> = fixture::past(9).into_iter().map(|past| past.entry).collect();
        entries[6].reading.as_mut().unwrap().verdict = verdict;
        let missing = standing(&fixture::packet(), &entries).missing;
        let words: Vec<String> = missing.iter().map(|one| one.words().to_string()).collect();
        let of_reading = words.iter().find(|words| words.starts_with("entry 7 "));
        assert_eq!(of_reading.map(String::as_str), expected, "{words:?}");
    }

    #[test]
    fn a_zero_that_is_not_proved_waits_for_nobody_to_accept_it() {
        let mut entries: Vec<_> = fixture::past(9).into_iter().map(|past| past.entry).collect();
        let is_zero = |entry: &&mut Entry| {
            entry.reading.as_ref().is_some_and(|reading| reading.blank == fixture::VERIFY_READING)
        };
        let zero = entries.iter_mut().find(is_zero).unwrap();
        zero.reading.as_mut().unwrap().verdict = Verdict::Outside;
        let missing = standing(&fixture::packet(), &entries).missing;
        let words: Vec<String> = missing.iter().map(|one| one.words().to_string()).collect();
        let expected = "is outside its limits, and nobody may accept that";
        assert!(words.iter().any(|words| words.ends_with(expected)), "{words:?}");
    }

    #[test]
    fn a_reading_too_close_to_tell_is_not_called_outside() {
        check(Verdict::Within, None);
        check(
            Verdict::Outside,
            Some(
                "entry 7 (knives.set/position-3) is outside its limits and nobody has accepted that",
            ),
        );
        check(
            Verdict::TooClose,
            Some(
                "entry 7 (knives.set/position-3) is not surely within its limits (too close to \
                 tell) and nobody has accepted that",
            ),
        );
    }
}
