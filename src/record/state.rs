//! Where a job stands: the entries folded over the packet, nothing else.
//!
//! The latest reading of a blank counts, all are kept. A signature covers what stood before it: a
//! step whose reading is corrected has to be signed again. Must never look at files, clocks or
//! people; whether an entry may come next is asked in [`super::rules`].

use std::collections::{BTreeMap, BTreeSet};

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::entry::{Entry, Kind, Verdict};
use super::time;
use crate::language::Words;
use crate::packet::Packet;
use crate::packet::model::{Meaning, PersonalLock, Reading, Sign, Stage, Step};

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
    /// Handed over to production with a deviation that somebody accepted.
    ReleasedWithDeviation,
    /// Stopped for good, and not handed over.
    Abandoned,
    /// Closed because the packet was issued anew.
    Superseded,
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
            State::Abandoned => "entries-state-abandoned",
            State::Superseded => "entries-state-superseded",
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
    /// Nobody has accepted a deviation that somebody raised.
    Answer {
        /// The step.
        step: String,
        /// `seq` of the entry that raised it.
        seq: u64,
        /// Whether somebody may accept it at all.
        may_be_accepted: bool,
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
            Missing::Answer { step, seq, may_be_accepted } => {
                let key = match may_be_accepted {
                    true => "entries-missing-answer",
                    false => "entries-missing-mending",
                };
                Words::new(key, &[("entry", seq.to_string().into()), ("step", step.into())])
            }
        }
    }

    /// The step it belongs to.
    pub fn step(&self) -> &str {
        match self {
            Missing::Reading { step, .. }
            | Missing::Signature { step, .. }
            | Missing::Acceptance { step, .. }
            | Missing::Remeasuring { step, .. }
            | Missing::Answer { step, .. } => step,
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

/// A deviation that somebody raised.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Raised {
    pub(crate) step: String,
    pub(crate) concerns: Option<u64>,
}

/// What was stated and by whom, for who wants to take it back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Stated {
    pub(crate) kind: Kind,
    pub(crate) by: String,
    /// Place of the step.
    pub(crate) step: usize,
    pub(crate) row: Option<String>,
}

/// A packet with its entries so far, ready to be asked.
#[derive(Clone)]
pub(crate) struct Ledger<'p> {
    pub(crate) packet: &'p Packet,
    pub(crate) issued: Option<DateTime<FixedOffset>>,
    steps: BTreeMap<&'p str, usize>,
    blanks: BTreeMap<&'p str, (usize, &'p Reading)>,
    pub(crate) latest: BTreeMap<&'p str, Latest>,
    pub(crate) readings: BTreeMap<u64, Noted>,
    pub(crate) accepted: BTreeMap<u64, u64>,
    pub(crate) raised: BTreeMap<u64, Raised>,
    /// Blanks whose reading was taken back, with the entry that did.
    emptied: BTreeMap<&'p str, u64>,
    /// What may be taken back, and has not been; of readings the latest.
    pub(crate) stated: BTreeMap<u64, Stated>,
    /// What was taken back, with the entry that did.
    pub(crate) withdrawn: BTreeMap<u64, u64>,
    signed: BTreeMap<(usize, Meaning), Vec<Signed>>,
    locks: Vec<(usize, PersonalLock)>,
    /// The entry that closed the record.
    pub(crate) closed: Option<(u64, Kind)>,
    pub(crate) last: Option<DateTime<FixedOffset>>,
    /// The greatest version of an entry so far.
    pub(crate) version: u32,
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
            emptied: BTreeMap::new(),
            accepted: BTreeMap::new(),
            raised: BTreeMap::new(),
            stated: BTreeMap::new(),
            withdrawn: BTreeMap::new(),
            signed: BTreeMap::new(),
            locks: packet.personal_locks(),
            closed: None,
            last: None,
            version: 0,
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
        self.version = self.version.max(entry.v);
        match entry.kind {
            Kind::Reading => self.take_reading(entry),
            Kind::DeviationAccepted => self.take_acceptance(entry),
            Kind::DeviationRaised => {
                let raised = Raised { step: entry.step.clone(), concerns: entry.concerns };
                self.raised.insert(entry.seq, raised);
            }
            Kind::Performed | Kind::Verified | Kind::Released => self.take_signature(entry, key),
            Kind::Withdrawn => self.take_back(entry),
            Kind::Abandoned | Kind::Superseded => {}
        }
        if entry.kind.can_be_taken_back()
            && let Some((step, _)) = self.step(&entry.step)
        {
            let (kind, by, row) = (entry.kind, entry.by.clone(), entry.row.clone());
            self.stated.insert(entry.seq, Stated { kind, by, step, row });
        }
        if entry.kind.closes() && self.closed.is_none() && self.step(&entry.step).is_some() {
            self.closed = Some((entry.seq, entry.kind));
        }
    }

    /// An acceptance of a raised deviation answers for the reading it is about, too, and the other way
    /// round.
    fn take_acceptance(&mut self, entry: &Entry) {
        let Some(target) = entry.accepts else { return };
        let about = self.raised.get(&target).and_then(|raised| raised.concerns);
        let raised = self.raised.iter().filter(|(_, raised)| raised.concerns == Some(target));
        let all = raised.map(|(seq, _)| *seq).chain(about).chain([target]);
        for accepted in all.collect::<Vec<u64>>() {
            self.accepted.entry(accepted).or_insert(entry.seq);
        }
    }

    /// A signature that is taken back does not count any more, nor does a check of what it said.
    fn take_back(&mut self, entry: &Entry) {
        let Some(target) = entry.withdraws else { return };
        let Some(stated) = self.stated.remove(&target) else { return };
        self.withdrawn.insert(target, entry.seq);
        self.raised.remove(&target);
        self.accepted.retain(|_, seq| *seq != target);
        // The blank is empty again, and who signed for it signs again after its next reading.
        let blanks = self.latest.iter().filter(|(_, latest)| latest.seq == target);
        for blank in blanks.map(|(blank, _)| *blank).collect::<Vec<_>>() {
            self.latest.remove(blank);
            self.emptied.insert(blank, entry.seq);
        }
        let shares_row = |signed: &Signed| {
            signed.row.is_none() || stated.row.is_none() || signed.row == stated.row
        };
        let checks_it = |signed: &Signed| signed.seq > target && shares_row(signed);
        let is_done = stated.kind == Kind::Performed;
        for meaning in [Meaning::Performed, Meaning::Verified] {
            let Some(all) = self.signed.get_mut(&(stated.step, meaning)) else { continue };
            let lapses = |signed: &Signed| {
                signed.seq == target
                    || (is_done && meaning == Meaning::Verified && checks_it(signed))
            };
            all.retain(|signed| !lapses(signed));
        }
    }

    fn take_reading(&mut self, entry: &Entry) {
        let Some(taken) = &entry.reading else { return };
        let Some((&blank, _)) = self.blanks.get_key_value(taken.blank.as_str()) else { return };
        let before = self.latest.insert(blank, Latest { seq: entry.seq, verdict: taken.verdict });
        if let Some(before) = before {
            self.stated.remove(&before.seq);
        }
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
    }

    /// Whether the packet has steps with which personal locks go on.
    pub(crate) fn knows_locks(&self) -> bool {
        self.locks.iter().any(|(_, lock)| *lock == PersonalLock::On)
    }

    /// Whether a person has a personal lock on: put on, and not taken off since.
    pub(crate) fn has_lock_on(&self, person: &str) -> bool {
        let last = |wanted: PersonalLock| {
            let steps = self.locks.iter().filter(|(_, lock)| *lock == wanted);
            let signed = steps.flat_map(|(index, _)| self.signed_so(*index, Meaning::Performed));
            signed.filter(|signed| signed.by == person).map(|signed| signed.seq).max()
        };
        last(PersonalLock::On) > last(PersonalLock::Off)
    }

    /// Everybody who has a personal lock on.
    pub(crate) fn locks_on(&self) -> BTreeSet<&str> {
        let on = self.locks.iter().filter(|(_, lock)| *lock == PersonalLock::On);
        let signed = on.flat_map(|(index, _)| self.signed_so(*index, Meaning::Performed));
        signed.map(|signed| signed.by.as_str()).filter(|person| self.has_lock_on(person)).collect()
    }

    /// Whether a source is isolated or locked, and not all of the energy is given back.
    pub(crate) fn is_locked_out(&self) -> bool {
        let of = |stages: [Stage; 2]| {
            let steps = self.packet.steps.iter().enumerate();
            steps.filter(move |(_, step)| step.stays.is_none() && stages.contains(&step.stage))
        };
        let is_touched = |index| self.signed_so(index, Meaning::Performed).next().is_some();
        let mut back = of([Stage::Unlock, Stage::Restart]).peekable();
        let is_back =
            back.peek().is_some() && back.all(|(index, _)| self.is_performed(index, None));
        !is_back && of([Stage::Isolate, Stage::Lock]).any(|(index, _)| is_touched(index))
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

    /// Whether a signature came after every reading of its row, and after each that was taken back.
    fn covers(&self, index: usize, signed: &Signed) -> bool {
        Some(signed.seq) > self.latest_in(index, signed.row.as_deref())
    }

    /// `seq` of the latest reading of a step, or of one row of it, or of the word that took one back.
    fn latest_in(&self, index: usize, row: Option<&str>) -> Option<u64> {
        let step = self.packet.steps.get(index)?;
        let read = |blank: &str| self.latest.get(blank).map(|latest| latest.seq);
        let seq = |blank: &str| read(blank).max(self.emptied.get(blank).copied());
        blanks(step, row).filter_map(|blank| seq(&blank.id)).max()
    }

    /// Why an entry cannot be taken back that is not among what may be.
    pub(crate) fn why_not_back(&self, target: u64) -> &'static str {
        if self.withdrawn.contains_key(&target) {
            return "entries-withdraw-again";
        }
        match self.readings.contains_key(&target) {
            true => "entries-withdraw-corrected",
            false => "entries-withdraw-nothing",
        }
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
        for (index, step) in self.packet.steps.iter().enumerate() {
            missing.extend(self.answers_of(step));
            if step.stays.is_some() {
                continue;
            }
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

    /// The deviations raised in a step that nobody has accepted. One about a reading lapses when the
    /// reading is corrected, and says nothing more while the reading itself waits.
    fn answers_of(&self, step: &Step) -> Vec<Missing> {
        let waits = |(seq, raised): &(&u64, &Raised)| {
            let about = raised.concerns.and_then(|about| Some((about, self.readings.get(&about)?)));
            let is_open = !self.accepted.contains_key(*seq);
            let is_of_reading = about.is_none_or(|(about, noted)| {
                let latest = self.latest.get(noted.blank.as_str());
                latest.is_some_and(|latest| latest.seq == about)
                    && self.accepted.contains_key(&about)
            });
            is_open && raised.step == step.id && is_of_reading
        };
        let may_be_accepted = self.packet.accepts(step).is_some();
        let open = self.raised.iter().filter(waits);
        open.map(|(seq, _)| Missing::Answer { step: step.id.clone(), seq: *seq, may_be_accepted })
            .collect()
    }

    /// Whether a deviation was accepted that still stands.
    fn has_deviation(&self) -> bool {
        let is_outside = |latest: &Latest| latest.verdict != Verdict::Within;
        let stands = |(seq, raised): (&u64, &Raised)| {
            raised.concerns.is_none() && self.accepted.contains_key(seq)
        };
        self.latest.values().any(is_outside) || self.raised.iter().any(stands)
    }

    /// What is missing until `released` may be signed.
    pub(crate) fn missing_for_release(&self) -> Vec<Missing> {
        let mut missing = self.missing();
        missing.retain(|m| !m.is_signature(Meaning::Released));
        missing
    }

    /// The state and its reasons.
    pub(crate) fn standing(&self) -> Standing {
        let closed = self.closed.map(|(_, kind)| kind);
        if let Some(state) = match closed {
            Some(Kind::Abandoned) => Some(State::Abandoned),
            Some(Kind::Superseded) => Some(State::Superseded),
            _ => None,
        } {
            return Standing { state, missing: Vec::new() };
        }
        let missing = self.missing();
        let undone = |m: &Missing| {
            matches!(m, Missing::Reading { .. }) || m.is_signature(Meaning::Performed)
        };
        let state = if missing.iter().any(undone) {
            State::Open
        } else if missing.iter().any(|m| m.is_signature(Meaning::Verified)) {
            State::Performed
        } else if !missing.is_empty() || closed.is_none() {
            State::Verified
        } else if self.has_deviation() {
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
