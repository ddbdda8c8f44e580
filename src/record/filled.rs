//! The file in which a page keeps what was typed on it: its form, and what one person typed of it.
//!
//! Nothing is trusted because a page says so. Here only the form is read; whether something may go on
//! record is asked in [`mod@super::compose`] and by the audit. Must never repair, and never pass over a
//! key it does not know. The form is written down in `FORMAT.md`.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::compose::{self, Past, Value};
use super::entry::{Entry, Kind, is_digest, is_identifier, is_plain, shown};
use super::rules::{self, Refusal};
use super::state::{Ledger, of_row};
use super::time;
use crate::language::{Part, Words};
use crate::packet::Packet;
use crate::packet::model::{Meaning, Step};

/// Most bytes of such a file.
pub const MOST_BYTES: usize = 4 << 20;
/// Most things typed and entries signed, together.
pub const MOST_ITEMS: usize = 5_000;
/// The form that is read.
const FORM: u32 = 1;
/// Most bytes of one text that was typed.
const MOST_TEXT: usize = 1_000;
/// Most faults that are told.
const MOST_FAULTS: usize = 20;
/// What stands before the initials of somebody who is not named.
pub(crate) const INITIALS: &str = "initials:";

/// What was typed on a page, and what was signed there.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filled {
    /// The form of the file, 1.
    pub filled: u32,
    /// The job.
    pub job: String,
    /// SHA-256 of the packet the page shows, lower-case hex.
    pub packet: String,
    /// When the file was saved, by the clock of the device.
    pub saved: String,
    /// What the page noticed about that clock.
    pub clock: Clock,
    /// Everything typed, in order.
    pub typed: Vec<Typed>,
    /// Entries that were signed in the browser, in order.
    #[serde(default)]
    pub signed: Vec<Pair>,
}

/// What a page noticed about the clock of its device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Clock {
    /// Nothing odd.
    Ok,
    /// It was wrong, or ran backwards.
    Doubtful,
}

/// One thing typed; which fields it has follows from what it is.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Typed {
    /// What it is.
    pub is: What,
    /// The step.
    pub step: String,
    /// The blank of a reading.
    #[serde(default)]
    pub blank: Option<String>,
    /// The value of a reading, with a point.
    #[serde(default)]
    pub value: Option<String>,
    /// Which check of the step was ticked, from 0.
    #[serde(default)]
    pub check: Option<u32>,
    /// Whether the tick was set or taken away.
    #[serde(default)]
    pub on: Option<bool>,
    /// The row of a signature.
    #[serde(default)]
    pub row: Option<String>,
    /// The signature that is taken back.
    #[serde(default)]
    pub what: Option<What>,
    /// Who: an identifier of `people.yaml`, or `initials:XY`.
    pub by: String,
    /// When, by the clock of the device.
    pub at: String,
}

/// What was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// A value in a blank.
    Reading,
    /// A check of a step; no part of a record.
    Tick,
    /// A step or row was done.
    Performed,
    /// A step or row was checked by a second person.
    Verified,
    /// A signature that does not count any more.
    TakenBack,
}

/// An entry and its signature as texts, byte for byte as they go on record.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pair {
    /// The entry.
    pub entry: String,
    /// Its signature file.
    pub signature: String,
}

/// What is wrong with the form of the file, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormFault {
    /// Path inside the JSON, `typed[3].value`; `.` for the file as a whole.
    pub path: String,
    /// What is wrong.
    pub words: Words,
}

impl FormFault {
    fn new(path: impl Into<String>, words: impl Into<Words>) -> Self {
        FormFault { path: path.into(), words: words.into() }
    }
}

/// Reads the file.
///
/// # Errors
/// What is wrong with its form: the first fault of its JSON, or every fault of its fields.
pub fn read(bytes: &[u8]) -> Result<Filled, Vec<FormFault>> {
    if bytes.len() > MOST_BYTES {
        let words = Words::new("filled-too-large", &[("most", MOST_BYTES.to_string().into())]);
        return Err(vec![FormFault::new(".", words)]);
    }
    let mut json = serde_json::Deserializer::from_slice(bytes);
    let filled: Filled = serde_path_to_error::deserialize(&mut json).map_err(|error| {
        let words = shown(&error.inner().to_string());
        vec![FormFault::new(shown(&error.path().to_string()), words)]
    })?;
    if let Err(error) = json.end() {
        return Err(vec![FormFault::new(".", shown(&error.to_string()))]);
    }
    let mut faults = not_objects(bytes);
    faults.extend(frame_faults(&filled));
    for (index, typed) in filled.typed.iter().enumerate() {
        let own = typed_faults(typed).into_iter();
        faults.extend(
            own.map(|(field, words)| FormFault::new(format!("typed[{index}].{field}"), words)),
        );
    }
    faults.truncate(MOST_FAULTS);
    if faults.is_empty() { Ok(filled) } else { Err(faults) }
}

/// What stands as a bare list where an object belongs; the reader would take its values in order.
fn not_objects(bytes: &[u8]) -> Vec<FormFault> {
    let whole: serde_json::Value = serde_json::from_slice(bytes).unwrap_or_default();
    let items = ["typed", "signed"].into_iter().flat_map(|name| {
        let list = whole.get(name).and_then(serde_json::Value::as_array).into_iter().flatten();
        list.enumerate().map(move |(index, item)| (format!("{name}[{index}]"), item))
    });
    let all = [(".".to_owned(), &whole)].into_iter().chain(items);
    all.filter(|(_, item)| !item.is_object())
        .map(|(path, _)| FormFault::new(path, Words::of("filled-no-object")))
        .collect()
}

fn frame_faults(filled: &Filled) -> Vec<FormFault> {
    let mut faults = Vec::new();
    if filled.filled != FORM {
        let (form, read) = (filled.filled.to_string().into(), FORM.to_string().into());
        let words = Words::new("filled-other-form", &[("form", form), ("read", read)]);
        faults.push(FormFault::new("filled", words));
    }
    if !is_identifier(&filled.job) {
        faults.push(FormFault::new("job", Words::of("filled-no-identifier")));
    }
    if !is_digest(&filled.packet) {
        faults.push(FormFault::new("packet", Words::of("filled-no-digest")));
    }
    if let Err(bad) = time::parse(&filled.saved) {
        faults.push(FormFault::new("saved", bad.words()));
    }
    let items = filled.typed.len() + filled.signed.len();
    if items > MOST_ITEMS {
        let (items, most) = (items.to_string().into(), MOST_ITEMS.to_string().into());
        let words = Words::new("filled-too-many", &[("items", items), ("most", most)]);
        faults.push(FormFault::new(".", words));
    }
    faults
}

fn typed_faults(typed: &Typed) -> Vec<(&'static str, Words)> {
    let mut faults = Vec::new();
    let (is_reading, is_tick) = (typed.is == What::Reading, typed.is == What::Tick);
    let is_back = typed.is == What::TakenBack;
    for (field, is_there, may, must) in [
        ("blank", typed.blank.is_some(), is_reading, is_reading),
        ("value", typed.value.is_some(), is_reading, is_reading),
        ("check", typed.check.is_some(), is_tick, is_tick),
        ("on", typed.on.is_some(), is_tick, is_tick),
        ("what", typed.what.is_some(), is_back, is_back),
        ("row", typed.row.is_some(), !is_reading && !is_tick, false),
    ] {
        if is_there && !may {
            faults.push((field, Words::of("filled-field-foreign")));
        } else if !is_there && must {
            faults.push((field, Words::of("filled-field-missing")));
        }
    }
    if typed.what.is_some_and(|what| what.meaning().is_none()) {
        faults.push(("what", Words::of("filled-no-signature")));
    }
    let texts = [
        ("step", Some(&typed.step)),
        ("blank", typed.blank.as_ref()),
        ("value", typed.value.as_ref()),
        ("row", typed.row.as_ref()),
        ("by", Some(&typed.by)),
    ];
    for (field, text) in texts.into_iter().filter_map(|(field, text)| Some((field, text?))) {
        if text.is_empty() || text.len() > MOST_TEXT || !is_plain(text) {
            faults.push((field, Words::of("filled-bad-text")));
        }
    }
    if typed.row.as_ref().is_some_and(|row| !is_identifier(row)) {
        faults.push(("row", Words::of("filled-no-identifier")));
    }
    let initials = typed.by.strip_prefix(INITIALS);
    if !initials.map_or_else(|| is_identifier(&typed.by), |initials| !initials.is_empty()) {
        faults.push(("by", Words::of("filled-nobody")));
    }
    if let Err(bad) = time::parse(&typed.at) {
        faults.push(("at", bad.words()));
    }
    faults
}

impl What {
    /// The signature it stands for.
    fn meaning(self) -> Option<Meaning> {
        match self {
            What::Performed => Some(Meaning::Performed),
            What::Verified => Some(Meaning::Verified),
            What::Reading | What::Tick | What::TakenBack => None,
        }
    }
}

/// Of what was typed, the part of one person that is not on record yet.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Share {
    /// Values for blanks.
    pub readings: Vec<Value>,
    /// Steps done, or rows of them.
    pub performed: Vec<String>,
    /// Steps checked, or rows of them.
    pub verified: Vec<String>,
    /// What stands on record already, for people.
    pub on_record: Vec<Words>,
    /// What others typed and is not on record, by who typed it.
    pub left: Vec<Left>,
}

/// What somebody else typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Left {
    /// Who.
    pub by: String,
    /// How many readings.
    pub readings: usize,
    /// How many signatures.
    pub signatures: usize,
}

impl Share {
    /// Whether there is nothing to sign.
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty() && self.performed.is_empty() && self.verified.is_empty()
    }
}

/// The part of what was typed that `by` has to sign. `corrected` are the blanks that are corrected in
/// the same breath: what the file says of them does not count.
///
/// # Errors
/// Every reason why a part of it cannot be asked for.
pub fn share(
    filled: &Filled,
    packet: &Packet,
    past: &[Past],
    by: &str,
    corrected: &[String],
) -> Result<Share, Vec<Refusal>> {
    let mut ledger = Ledger::new(packet);
    past.iter().for_each(|past| ledger.take(&past.entry, &past.key));
    let mut sorting = Sorting { ledger, past, by, share: Share::default(), refusals: Vec::new() };
    for typed in standing(filled) {
        match (&typed.blank, &typed.value, typed.is.meaning()) {
            (Some(blank), Some(value), _) if !corrected.contains(blank) => {
                sorting.reading(typed, blank, value);
            }
            (_, _, Some(meaning)) => sorting.signature(typed, meaning),
            _ => {}
        }
    }
    match sorting.refusals.is_empty() {
        true => Ok(sorting.share),
        false => Err(sorting.refusals),
    }
}

/// A blank, or a signature on a step or a row of it.
type Spot<'a> = (Option<What>, &'a str, Option<&'a str>);

/// What stands on the page in the end: of a blank or a signature the last that was typed.
fn standing(filled: &Filled) -> Vec<&Typed> {
    let mut last: BTreeMap<Spot, (usize, &Typed)> = BTreeMap::new();
    for (index, typed) in filled.typed.iter().enumerate() {
        let row = typed.row.as_deref();
        match (typed.is, typed.blank.as_deref()) {
            (What::Reading, Some(blank)) => {
                last.insert((None, blank, None), (index, typed));
            }
            (What::TakenBack, _) => {
                last.remove(&(typed.what, typed.step.as_str(), row));
            }
            (What::Performed | What::Verified, _) => {
                last.insert((Some(typed.is), &typed.step, row), (index, typed));
            }
            (What::Reading | What::Tick, _) => {}
        }
    }
    let mut standing: Vec<_> = last.into_values().collect();
    standing.sort_by_key(|(index, _)| *index);
    standing.into_iter().map(|(_, typed)| typed).collect()
}

/// Sorts what was typed into what is signed now, what is on record, and what is left.
struct Sorting<'a> {
    ledger: Ledger<'a>,
    past: &'a [Past],
    by: &'a str,
    share: Share,
    refusals: Vec<Refusal>,
}

impl Sorting<'_> {
    fn reading(&mut self, typed: &Typed, id: &str, value: &str) {
        let found = self.ledger.blank(id);
        let recorded = self.ledger.latest.get(id).and_then(|latest| self.entry(latest.seq));
        let recorded = recorded.and_then(|entry| Some((entry.seq, entry.reading.as_ref()?)));
        let is_same = |recorded: &str| {
            found.is_some_and(|(_, blank)| compose::is_same_value(blank, value, recorded))
        };
        match recorded {
            Some((seq, taken)) if is_same(&taken.value) => {
                let value = format!("{} {}", taken.value, taken.unit);
                let parts = [("blank", id.into()), ("value", value.trim_end().into())];
                return self.is_on_record(typed, "filled-reading", parts, seq);
            }
            _ if typed.by != self.by => return self.leave(typed),
            Some((seq, taken)) => {
                self.refusals.push(differs_from_record(id, value, &taken.value, seq));
                return;
            }
            None => {}
        }
        let step = found.and_then(|(index, _)| self.ledger.packet.steps.get(index));
        match (found, step) {
            (Some((_, blank)), Some(step)) if step.id != typed.step => {
                let step = self.ledger.step(&typed.step).map_or(step, |(_, own)| own);
                self.refusals.push(rules::blank_elsewhere(blank, step));
            }
            (Some(_), Some(_)) => {
                // The page keeps a point; people type, and `compose` reads, what the language writes.
                let sign = self.ledger.packet.language.decimal_sign();
                let (blank, text) =
                    (id.to_owned(), value.replace('.', sign.encode_utf8(&mut [0; 4])));
                self.share.readings.push(Value { blank, text, ..Value::default() });
            }
            _ => self.refusals.push(rules::unknown_blank(&self.ledger, id)),
        }
    }

    fn signature(&mut self, typed: &Typed, meaning: Meaning) {
        let row = typed.row.as_deref();
        let named = of_row(&typed.step, row);
        let found = self.ledger.step(&typed.step);
        let recorded = found.and_then(|(index, _)| {
            let mut all = self.ledger.signatures(index, meaning);
            all.find(|signed| signed.row.as_deref() == row).map(|signed| signed.seq)
        });
        if let Some(seq) = recorded {
            let kind = Kind::from(meaning).words();
            let parts = [("step", (&named).into()), ("kind", kind.into())];
            return self.is_on_record(typed, "filled-signature", parts, seq);
        }
        if typed.by != self.by {
            return self.leave(typed);
        }
        let Some((_, step)) = found else {
            self.refusals.push(rules::unknown_step(&self.ledger, &typed.step));
            return;
        };
        // A bare step would stand for each of its rows, and nobody ticked those.
        if let Some(refusal) = row_missing(step, meaning, row) {
            return self.refusals.push(refusal);
        }
        match meaning {
            Meaning::Verified => self.share.verified.push(named),
            _ => self.share.performed.push(named),
        }
    }

    fn entry(&self, seq: u64) -> Option<&Entry> {
        self.past.iter().map(|past| &past.entry).find(|entry| entry.seq == seq)
    }

    fn is_on_record(
        &mut self,
        typed: &Typed,
        key: &'static str,
        [one, other]: [(&'static str, Part); 2],
        seq: u64,
    ) {
        if typed.by == self.by {
            let parts = [one, other, ("entry", seq.to_string().into())];
            self.share.on_record.push(Words::new(key, &parts));
        }
    }

    fn leave(&mut self, typed: &Typed) {
        let index = match self.share.left.iter().position(|left| left.by == typed.by) {
            Some(index) => index,
            None => {
                self.share.left.push(Left { by: typed.by.clone(), readings: 0, signatures: 0 });
                self.share.left.len() - 1
            }
        };
        if let Some(left) = self.share.left.get_mut(index) {
            match typed.is {
                What::Reading => left.readings += 1,
                _ => left.signatures += 1,
            }
        }
    }
}

fn row_missing(step: &Step, meaning: Meaning, row: Option<&str>) -> Option<Refusal> {
    let asked: Vec<_> = step.signs.iter().filter(|sign| sign.meaning == meaning).collect();
    let is_by_row = !asked.is_empty() && asked.iter().all(|sign| sign.row.is_some());
    (row.is_none() && is_by_row).then(|| rules::other_row(step, meaning.into(), None, &asked))
}

fn differs_from_record(blank: &str, typed: &str, recorded: &str, seq: u64) -> Refusal {
    let parts = [("blank", blank.into()), ("entry", seq.to_string().into())];
    Refusal::new("refusal-reading-differs", &parts).with(recorded, shown(typed))
}

#[cfg(test)]
mod tests {
    use super::{Left, MOST_BYTES, Share, read, share};
    use crate::record::compose::{Past, Value};
    use crate::record::fixture::{self, VERIFY_READING};

    const DOER: &str = "a.doer@plant.example";
    const LEAD: &str = "b.checker@plant.example";

    fn file(typed: &[String]) -> String {
        let packet = fixture::digest();
        let typed = typed.join(",");
        format!(
            r#"{{"filled":1,"job":"J-2041","packet":"{packet}","saved":"2026-11-26T22:12:00+01:00","clock":"ok","typed":[{typed}]}}"#
        )
    }

    fn item(is: &str, step: &str, by: &str, more: &str) -> String {
        format!(
            r#"{{"is":"{is}","step":"{step}","by":"{by}","at":"2026-11-26T22:10:00+01:00"{more}}}"#
        )
    }

    fn reading(blank: &str, value: &str, by: &str) -> String {
        let step = blank.split('/').next().unwrap();
        item("reading", step, by, &format!(r#","blank":"{blank}","value":"{value}""#))
    }

    /// Wants the faults of a file: path, and a piece of the words.
    #[track_caller]
    fn check(text: &str, expected: &[(&str, &str)]) {
        let faults = read(text.as_bytes()).err().unwrap_or_default();
        assert_eq!(faults.len(), expected.len(), "{faults:?}");
        for (fault, (path, words)) in faults.iter().zip(expected) {
            assert!(fault.path == *path && fault.words.to_string().contains(words), "{fault:?}");
        }
    }

    #[test]
    fn the_form_is_read_and_every_fault_has_its_place() {
        let good = file(&[
            reading(VERIFY_READING, "0", DOER),
            item("tick", "lockout.tell", DOER, r#","check":0,"on":true"#),
            item("performed", "lockout.tell", "initials:AD", r#","row":"mains""#),
            item("taken-back", "lockout.tell", DOER, r#","what":"verified""#),
        ]);
        check(&good, &[]);
        check(&good.replace(r#""filled":1"#, r#""filled":2"#), &[("filled", "reads form 1")]);
        check(
            &good.replace(r#""clock":"ok""#, r#""clock":"fine""#),
            &[("clock", "unknown variant")],
        );
        check(
            &good.replace(r#""saved":"2026-11-26T22"#, r#""saved":"2026-11-26 22"#),
            &[("saved", "")],
        );
        check(&good.replace(r#""job":"J-2041","#, ""), &[(".", "missing field `job`")]);
        check(&good.replace(r#""on":true"#, r#""off":true"#), &[("typed[1].off", "unknown field")]);
        check(&good.replace(r#","check":0"#, ""), &[("typed[1].check", "is missing")]);
        check(
            &good.replace(r#""what":"verified""#, r#""what":"tick""#),
            &[("typed[3].what", "neither")],
        );
        check(
            &good.replace(r#""value":"0""#, r#""value":0"#),
            &[("typed[0].value", "invalid type")],
        );
        check(&good.replace("initials:AD", "Ada Doer"), &[("typed[2].by", "neither")]);
        check(
            &good.replace(r#""row":"mains""#, r#""row":"ma ins","value":"1""#),
            &[("typed[2].value", "does not belong"), ("typed[2].row", "identifier")],
        );
        let long = good.replace(r#""value":"0""#, &format!(r#""value":"{}""#, "0".repeat(1_001)));
        check(&long, &[("typed[0].value", "too long")]);
        check(&good.replace("initials:AD", "initials:"), &[("typed[2].by", "neither")]);
        check(&format!("{good}{good}"), &[(".", "trailing characters")]);
        check(&good.replace("\"typed\":[", "\"typed\":[[[["), &[("typed[0][0]", "expected value")]);
        let bare = r#"[1,"J-2041","{d}","2026-11-26T22:12:00+01:00","ok",[],[]]"#;
        check(&bare.replace("{d}", &fixture::digest()), &[(".", "no object")]);
        let bare = r#""typed":[["tick","a",null,null,0,true,null,null,"x","2026-11-26T22:10:00Z"]"#;
        check(&file(&[]).replace("\"typed\":[", bare), &[("typed[0]", "no object")]);
        check("", &[(".", "EOF")]);
    }

    #[test]
    fn what_is_too_much_is_refused_before_it_is_read() {
        let many = vec![item("tick", "a", DOER, r#","check":0,"on":true"#); 5_001];
        check(&file(&many), &[(".", "at most 5000")]);
        assert!(read(file(&many[..5_000]).as_bytes()).is_ok());
        let long = vec![b' '; MOST_BYTES + 1];
        assert_eq!(read(&long).unwrap_err()[0].words.to_string(), "has more than 4194304 bytes");
        let deep = "[".repeat(100_000);
        check(
            &file(&[]).replace("\"typed\":[", &format!("\"typed\":{deep}")),
            &[("typed[0][0]", "")],
        );
        check(&deep, &[("[0]", "invalid type")]);
        let wrong = vec![item("tick", "a", DOER, ""); 5_000];
        assert_eq!(read(file(&wrong).as_bytes()).unwrap_err().len(), 20);
    }

    /// What the doer has to sign of a file after the first entries of the good record.
    #[track_caller]
    fn check_share(after: u64, typed: &[String], expected: Result<Share, &[&str]>) {
        let filled = read(file(typed).as_bytes()).unwrap();
        let past: Vec<Past> = fixture::past(after);
        let found = share(&filled, &fixture::packet(), &past, DOER, &[]);
        let found = found.map_err(|all| all.iter().map(|one| one.code).collect::<Vec<_>>());
        assert_eq!(found, expected.map_err(<[&str]>::to_vec));
    }

    fn values(all: &[(&str, &str)]) -> Share {
        let value = |(blank, text): &(&str, &str)| Value {
            blank: (*blank).to_owned(),
            text: (*text).to_owned(),
            ..Value::default()
        };
        Share { readings: all.iter().map(value).collect(), ..Share::default() }
    }

    #[test]
    fn of_two_that_were_typed_the_later_counts_whoever_typed_it() {
        let (first, second) =
            (reading(VERIFY_READING, "12", DOER), reading(VERIFY_READING, "0", DOER));
        check_share(2, &[first.clone(), second.clone()], Ok(values(&[(VERIFY_READING, "0")])));
        check_share(2, &[second.clone(), first], Ok(values(&[(VERIFY_READING, "12")])));
        let left = vec![Left { by: LEAD.to_owned(), readings: 1, signatures: 0 }];
        let theirs = reading(VERIFY_READING, "3", LEAD);
        check_share(2, &[second, theirs], Ok(Share { left, ..Share::default() }));
    }

    #[test]
    fn a_signature_that_was_taken_back_is_not_asked_for() {
        let done = item("performed", "lockout.tell", DOER, "");
        let back = item("taken-back", "lockout.tell", DOER, r#","what":"performed""#);
        let performed = vec!["lockout.tell".to_owned()];
        let signed = Share { performed, ..Share::default() };
        check_share(0, std::slice::from_ref(&done), Ok(signed.clone()));
        check_share(0, &[done.clone(), back.clone()], Ok(Share::default()));
        check_share(0, &[done.clone(), back, done], Ok(signed));
    }

    #[test]
    fn what_is_on_record_is_told_and_what_differs_is_refused() {
        let typed =
            [reading(VERIFY_READING, "0.0", DOER), item("performed", "lockout.tell", DOER, "")];
        let filled = read(file(&typed).as_bytes()).unwrap();
        let share = share(&filled, &fixture::packet(), &fixture::past(3), DOER, &[]).unwrap();
        let told: Vec<String> = share.on_record.iter().map(ToString::to_string).collect();
        let reading_told = format!("{VERIFY_READING} = 0 V (entry 3)");
        assert_eq!(told, [&reading_told, "lockout.tell performed (entry 1)"]);
        assert_eq!(Share { on_record: Vec::new(), ..share }, Share::default());
        check_share(3, &[reading(VERIFY_READING, "1", DOER)], Err(&["reading-differs"]));
        check_share(0, &[reading("lockout.prove/none", "1", DOER)], Err(&["blank-unknown"]));
        check_share(0, &[item("verified", "none", DOER, "")], Err(&["step-unknown"]));
        let elsewhere = reading(VERIFY_READING, "0", DOER)
            .replace(r#""step":"lockout.prove""#, r#""step":"lockout.tell""#);
        check_share(2, &[elsewhere], Err(&["blank-elsewhere"]));
    }

    #[test]
    fn a_bare_step_does_not_stand_for_its_rows() {
        let filled = file(&[item("performed", "lockout.isolate", DOER, "")]);
        let filled = read(filled.as_bytes()).unwrap();
        let refusals = share(&filled, &fixture::by_row(), &[], DOER, &[]).unwrap_err();
        assert_eq!(refusals[0].code, "row-missing");
    }
}
