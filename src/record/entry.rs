//! One signed statement, and the only bytes it may have.
//!
//! An entry is one line: RFC 8785 canonical JSON and a line feed, at most 65,535 bytes. Measured
//! values are decimal text, times are RFC 3339 with offset. [`read`] refuses everything the writer
//! would not have written, each kind of fault as its own [`EntryFault`], and still gives back what
//! could be made out. Must never repair: no normalisation, no trimming, no default for a field.

use std::str::Utf8Error;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::decimal::Decimal;
use super::time::{self, BadTime};
use crate::canonical;
use crate::language::Words;
use crate::packet::model::Meaning;

/// Most bytes of an entry, line feed included: a two-byte length must be able to hold it.
pub const MOST_BYTES: usize = 65_535;
/// Version of the format that is written. Version 1 has no `row`, version 2 no [`Kind`] that came
/// with version 3; both are read still.
pub const VERSION: u32 = 3;
/// `prev` of the first entry.
pub const NO_PREVIOUS: &str = "0000000000000000000000000000000000000000000000000000000000000000";
/// Greatest whole number that travels as a JSON number (RFC 7493 §2.2, from memory).
const MOST_WHOLE: u64 = (1 << 53) - 1;

/// A signed statement of one person about one step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// `seq` of the outside reading, or of the raised deviation, that is accepted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accepts: Option<u64>,
    /// When, RFC 3339 with offset, whole seconds.
    pub at: String,
    /// SHA-256 of the packet that comes in the place of this one; since version 3.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub becomes: Option<String>,
    /// Who: the principal in the list of allowed signers.
    pub by: String,
    /// `seq` of the reading a raised deviation is about; since version 3.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub concerns: Option<u64>,
    /// `seq` of the earlier reading of the same blank that this one corrects.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub corrects: Option<u64>,
    /// The job.
    pub job: String,
    /// What is stated.
    pub kind: Kind,
    /// What became of locks and energy when a record is closed halfway; since version 3.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub locks: Option<String>,
    /// The machine.
    pub machine: String,
    /// The statement in words: [`Kind::meaning`].
    pub meaning: String,
    /// Printed name of the signer.
    pub name: String,
    /// Why; needed by every kind that takes something back, raises, accepts or closes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// True when who checked stayed outside the guard; since version 3.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub outside: bool,
    /// SHA-256 of the packet, lower-case hex.
    pub packet: String,
    /// SHA-256 over the entry before this one and its signature; 64 zeros in the first.
    pub prev: String,
    /// The reading, when this is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reading: Option<Taken>,
    /// The role signed in.
    pub role: String,
    /// The row of the step that is signed: an energy source or a person; since version 2.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<String>,
    /// Number in the record, from 1.
    pub seq: u64,
    /// Identifier of the step.
    pub step: String,
    /// Version of this format, 1 to [`VERSION`].
    pub v: u32,
    /// `seq` of the signature that is taken back; since version 3.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub withdraws: Option<u64>,
}

/// What an entry states. The last four came with version 3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A measured value.
    Reading,
    /// A step was done.
    Performed,
    /// A step was checked by a second person.
    Verified,
    /// A reading outside its limits, or a raised deviation, is accepted.
    DeviationAccepted,
    /// The machine is handed over to production.
    Released,
    /// Something is not as it should be.
    DeviationRaised,
    /// A signature is taken back.
    Withdrawn,
    /// The job is stopped for good.
    Abandoned,
    /// The packet was issued anew.
    Superseded,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 9] = [
        Kind::Reading,
        Kind::Performed,
        Kind::Verified,
        Kind::DeviationAccepted,
        Kind::Released,
        Kind::DeviationRaised,
        Kind::Withdrawn,
        Kind::Abandoned,
        Kind::Superseded,
    ];

    /// The statement the signer makes; it stands in the signed record (21 CFR 11.50(a)(3)).
    pub fn meaning(self) -> &'static str {
        match self {
            Kind::Reading => "I read this value at the machine.",
            Kind::Performed => "I did this step as it is written.",
            Kind::Verified => "I saw that another person did this step, and that it is right.",
            Kind::DeviationAccepted => "I accept this deviation for the reason given.",
            Kind::Released => "I hand the machine over to production.",
            Kind::DeviationRaised => "I report that this is not as it should be.",
            Kind::Withdrawn => "I take this signature back for the reason given.",
            Kind::Abandoned => "I stop this job for good, and do not hand the machine over.",
            Kind::Superseded => "I close this record, because its packet was issued anew.",
        }
    }

    /// The statement as entries of a version make it.
    pub fn meaning_in(self, v: u32) -> &'static str {
        match self {
            Kind::DeviationAccepted if v < 3 => {
                "I accept this reading although it lies outside its limits, for the reason given."
            }
            _ => self.meaning(),
        }
    }

    /// The first version of the format that has the kind.
    fn since(self) -> u32 {
        if self > Kind::Released { 3 } else { 1 }
    }

    /// The kind as it stands in an entry.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Reading => "reading",
            Kind::Performed => "performed",
            Kind::Verified => "verified",
            Kind::DeviationAccepted => "deviation-accepted",
            Kind::Released => "released",
            Kind::DeviationRaised => "deviation-raised",
            Kind::Withdrawn => "withdrawn",
            Kind::Abandoned => "abandoned",
            Kind::Superseded => "superseded",
        }
    }

    /// The kind for people.
    pub fn words(self) -> Words {
        Words::of(match self {
            Kind::Reading => "kind-reading",
            Kind::Performed => "kind-performed",
            Kind::Verified => "kind-verified",
            Kind::DeviationAccepted => "kind-deviation-accepted",
            Kind::Released => "kind-released",
            Kind::DeviationRaised => "entries-kind-raised",
            Kind::Withdrawn => "entries-kind-withdrawn",
            Kind::Abandoned => "entries-kind-abandoned",
            Kind::Superseded => "entries-kind-superseded",
        })
    }

    /// The kind that is written so in an entry.
    pub fn of_word(word: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// The signature a step asks for that this kind gives; none for those that no step asks for.
    pub fn gives(self) -> Option<Meaning> {
        match self {
            Kind::Performed => Some(Meaning::Performed),
            Kind::Verified => Some(Meaning::Verified),
            Kind::Released => Some(Meaning::Released),
            _ => None,
        }
    }

    /// Whether it may be taken back; what closes a record stands, and so does a word taken back.
    pub fn can_be_taken_back(self) -> bool {
        !self.closes() && self != Kind::Withdrawn
    }

    /// Whether nothing may come after it.
    pub fn closes(self) -> bool {
        matches!(self, Kind::Released | Kind::Abandoned | Kind::Superseded)
    }
}

impl From<Meaning> for Kind {
    fn from(meaning: Meaning) -> Self {
        match meaning {
            Meaning::Performed => Kind::Performed,
            Meaning::Verified => Kind::Verified,
            Meaning::Released => Kind::Released,
        }
    }
}

/// A value put into a blank.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Taken {
    /// Identifier of the blank.
    pub blank: String,
    /// Greatest value that passes, as in the packet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<String>,
    /// Identifier of the instrument.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
    /// Least value that passes, as in the packet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<String>,
    /// Unit symbol; empty for a count.
    pub unit: String,
    /// The value, decimal text with the digits the instrument showed.
    pub value: String,
    /// The judgement.
    pub verdict: Verdict,
}

/// Judgement of a reading; a reading on a limit is within.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Between the limits; with a guard band, surely so.
    Within,
    /// Below or above; with a guard band, surely so.
    Outside,
    /// With a guard band: so near a limit that the instrument cannot tell.
    TooClose,
}

impl Verdict {
    /// The verdict for programs.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Within => "within",
            Verdict::Outside => "outside",
            Verdict::TooClose => "too close to tell",
        }
    }

    /// The word as printed.
    pub fn words(self) -> Words {
        Words::of(match self {
            Verdict::Within => "verdict-within",
            Verdict::Outside => "verdict-outside",
            Verdict::TooClose => "verdict-too-close",
        })
    }

    /// What the verdict says of a reading and its limits, as the end of a sentence.
    pub fn words_of_limits(self) -> Words {
        Words::of(match self {
            Verdict::Within => "verdict-is-within",
            Verdict::Outside => "verdict-is-outside",
            Verdict::TooClose => "verdict-is-too-close",
        })
    }
}

/// Why bytes are no entry, or not the bytes of this entry.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EntryFault {
    /// Longer than [`MOST_BYTES`].
    TooLong,
    /// Not UTF-8, from this byte on.
    NotUtf8(usize),
    /// A byte order mark, a carriage return, or no line feed or more than one at the end.
    ForeignBytes(&'static str),
    /// Not JSON; what the reader said.
    NotJson(String),
    /// A name stands twice in an object.
    DuplicateKey(String),
    /// A field this format does not have.
    UnknownField(String),
    /// A field is missing.
    MissingField(String),
    /// A number, text or word where something else belongs; what the reader said.
    WrongType(String),
    /// The same meaning in other bytes; the first byte that differs.
    NotCanonical(usize),
    /// A version this program does not read.
    Version(u32),
    /// A whole number that is zero where counting begins at 1, or too great for JSON.
    NumberRange(&'static str, u64),
    /// A time that is none.
    Time(BadTime, String),
    /// An identifier with letters it may not have.
    Identifier(&'static str, String),
    /// A text with control or direction characters, or an empty one.
    Text(&'static str, String),
    /// A digest that is not 64 lower-case hex digits.
    Digest(&'static str, String),
    /// A value or limit that is not plain decimal text.
    Decimal(&'static str, String),
    /// The words do not state what the kind states.
    Meaning(String),
    /// A kind that this version of the format does not have.
    LaterKind(Kind),
    /// A field the kind needs is not there.
    Needs(&'static str),
    /// A field that does not belong to the kind is there.
    NotFor(&'static str),
}

/// What could be made out of an entry's bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadEntry {
    /// The entry; none when it is not even an object of this form.
    pub entry: Option<Entry>,
    /// Everything that is wrong with it.
    pub faults: Vec<EntryFault>,
}

/// Reads an entry and collects every fault.
pub fn read(bytes: &[u8]) -> ReadEntry {
    let (entry, mut faults) = line::<Entry>(bytes);
    faults.extend(entry.iter().flat_map(self::faults));
    ReadEntry { entry, faults }
}

/// Reads one line of canonical JSON, and what is wrong with its bytes.
///
/// The fields of `T` are declared in the order of RFC 8785 and hold text and whole numbers only.
pub(crate) fn line<T: Serialize + DeserializeOwned>(bytes: &[u8]) -> (Option<T>, Vec<EntryFault>) {
    if bytes.len() > MOST_BYTES {
        return (None, vec![EntryFault::TooLong]);
    }
    let text = std::str::from_utf8(bytes);
    let mut faults = Vec::from_iter(foreign_bytes(bytes, text));
    // What was found to be text as a whole need not be looked at again, name by name.
    let read = text.map_or_else(|_| serde_json::from_slice::<T>(bytes), serde_json::from_str);
    let value = match read {
        Ok(value) => value,
        Err(error) => {
            // A byte order mark or bad UTF-8 has been named already; its echo adds nothing.
            if faults.is_empty() {
                faults.push(classify(&error));
            }
            return (None, faults);
        }
    };
    if faults.is_empty() {
        faults.extend(other_bytes(&value, bytes));
    }
    (Some(value), faults)
}

/// Reads an entry.
///
/// # Errors
/// The first of its faults.
pub fn parse(bytes: &[u8]) -> Result<Entry, EntryFault> {
    let ReadEntry { entry, faults } = read(bytes);
    match (faults.into_iter().next(), entry) {
        (Some(fault), _) => Err(fault),
        (None, Some(entry)) => Ok(entry),
        (None, None) => Err(EntryFault::NotJson(String::new())),
    }
}

impl Entry {
    /// The bytes that are digested and signed.
    ///
    /// # Errors
    /// Never for an entry; the error is that of the writer underneath.
    pub fn bytes(&self) -> Result<Vec<u8>, serde_json::Error> {
        // The fields stand in canonical order and hold text, `true` and small integers only, so the plain
        // writer gives the canonical bytes, ten times faster; a test compares the two.
        let mut bytes = serde_json::to_vec(self)?;
        bytes.push(b'\n');
        Ok(bytes)
    }
}

/// Faults of the fields, whatever bytes they came in.
pub fn faults(entry: &Entry) -> Vec<EntryFault> {
    let mut found = Vec::new();
    if !(1..=VERSION).contains(&entry.v) {
        found.push(EntryFault::Version(entry.v));
    }
    if let Err(bad) = time::parse(&entry.at) {
        found.push(EntryFault::Time(bad, entry.at.clone()));
    }
    let numbers = [
        ("seq", Some(entry.seq)),
        ("accepts", entry.accepts),
        ("concerns", entry.concerns),
        ("corrects", entry.corrects),
        ("withdraws", entry.withdraws),
    ];
    for (field, number) in numbers {
        if let Some(number) = number.filter(|n| *n == 0 || *n > MOST_WHOLE) {
            found.push(EntryFault::NumberRange(field, number));
        }
    }
    for (field, text) in [("by", &entry.by), ("job", &entry.job), ("machine", &entry.machine)] {
        if !is_identifier(text) {
            found.push(EntryFault::Identifier(field, text.clone()));
        }
    }
    if let Some(row) = entry.row.as_ref().filter(|row| !is_identifier(row)) {
        found.push(EntryFault::Identifier("row", row.clone()));
    }
    let becomes = entry.becomes.as_ref().map(|digest| ("becomes", digest));
    let digests = [("packet", &entry.packet), ("prev", &entry.prev)];
    for (field, text) in digests.into_iter().chain(becomes) {
        if !is_digest(text) {
            found.push(EntryFault::Digest(field, text.clone()));
        }
    }
    let texts = [("name", &entry.name), ("role", &entry.role), ("step", &entry.step)];
    let note = entry.note.as_ref().map(|note| ("note", note));
    let locks = entry.locks.as_ref().map(|locks| ("locks", locks));
    for (field, text) in texts.into_iter().chain(note).chain(locks) {
        if text.is_empty() || !is_plain(text) {
            found.push(EntryFault::Text(field, text.clone()));
        }
    }
    if entry.meaning != entry.kind.meaning_in(entry.v) {
        found.push(EntryFault::Meaning(entry.meaning.clone()));
    }
    found.extend(kind_faults(entry));
    if let Some(taken) = &entry.reading {
        found.extend(taken_faults(taken));
    }
    found
}

/// Fields that belong to a kind, and only to it.
fn kind_faults(entry: &Entry) -> Vec<EntryFault> {
    let mut found = Vec::new();
    let mut belongs = |field, is_there: bool, may: bool, must: bool| {
        if is_there && !may {
            found.push(EntryFault::NotFor(field));
        } else if !is_there && must {
            found.push(EntryFault::Needs(field));
        }
    };
    let is = |kind: Kind| entry.kind == kind;
    let is_signature = is(Kind::Performed) || is(Kind::Verified);
    let is_closed_early = is(Kind::Abandoned) || is(Kind::Superseded);
    let says_why = entry.kind.since() > 1 || is(Kind::DeviationAccepted);
    belongs("reading", entry.reading.is_some(), is(Kind::Reading), is(Kind::Reading));
    let accepts = is(Kind::DeviationAccepted);
    belongs("accepts", entry.accepts.is_some(), accepts, accepts);
    belongs("becomes", entry.becomes.is_some(), is(Kind::Superseded), is(Kind::Superseded));
    belongs("concerns", entry.concerns.is_some(), is(Kind::DeviationRaised), false);
    belongs("corrects", entry.corrects.is_some(), is(Kind::Reading), false);
    belongs("locks", entry.locks.is_some(), is_closed_early, false);
    belongs("note", entry.note.is_some(), true, says_why || entry.corrects.is_some());
    belongs("outside", entry.outside, entry.v > 2 && is(Kind::Verified), false);
    let has_row = entry.v > 1 && (is_signature || is(Kind::Withdrawn));
    belongs("row", entry.row.is_some(), has_row, false);
    belongs("withdraws", entry.withdraws.is_some(), is(Kind::Withdrawn), is(Kind::Withdrawn));
    if entry.v < entry.kind.since() {
        found.push(EntryFault::LaterKind(entry.kind));
    }
    found
}

fn taken_faults(taken: &Taken) -> Vec<EntryFault> {
    let mut found = Vec::new();
    let decimals =
        [("value", Some(&taken.value)), ("low", taken.low.as_ref()), ("high", taken.high.as_ref())];
    for (field, text) in decimals {
        if let Some(text) = text.filter(|text| Decimal::parse(text).is_none()) {
            found.push(EntryFault::Decimal(field, text.chars().take(40).collect()));
        }
    }
    if taken.blank.is_empty() || !is_plain(&taken.blank) {
        found.push(EntryFault::Text("blank", taken.blank.clone()));
    }
    if !is_plain(&taken.unit) {
        found.push(EntryFault::Text("unit", taken.unit.clone()));
    }
    if let Some(instrument) = taken.instrument.as_ref().filter(|id| !is_identifier(id)) {
        found.push(EntryFault::Identifier("instrument", instrument.clone()));
    }
    found
}

/// ASCII letters, digits and `. _ @ + -`.
pub(crate) fn is_identifier(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_alphanumeric() || b"._@+-".contains(&b))
}

pub(crate) fn is_digest(text: &str) -> bool {
    text.len() == 64 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
}

/// No control character, and none that is invisible or turns the direction of what follows.
pub(crate) fn is_plain(text: &str) -> bool {
    let is_odd = |byte: u8| !matches!(byte, b' '..=b'~');
    !text.bytes().any(is_odd)
        || text.chars().all(|c| {
            !c.is_control()
                && !matches!(c,
                '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}'
                | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
        })
}

fn foreign_bytes(bytes: &[u8], text: Result<&str, Utf8Error>) -> Option<EntryFault> {
    if bytes.starts_with(b"\xef\xbb\xbf") {
        return Some(EntryFault::ForeignBytes("a byte order mark at the start"));
    }
    if let Err(error) = text {
        return Some(EntryFault::NotUtf8(error.valid_up_to()));
    }
    if bytes.contains(&b'\r') {
        return Some(EntryFault::ForeignBytes("a carriage return"));
    }
    match bytes {
        [.., b'\n', b'\n'] => Some(EntryFault::ForeignBytes("more than one line feed at the end")),
        [.., b'\n'] => None,
        _ => Some(EntryFault::ForeignBytes("no line feed at the end")),
    }
}

fn other_bytes<T: Serialize>(value: &T, bytes: &[u8]) -> Option<EntryFault> {
    if is_plain_print(value, bytes) {
        return None;
    }
    match canonical::line(value) {
        Ok(own) if own == bytes => None,
        Ok(own) => Some(EntryFault::NotCanonical(first_difference(&own, bytes))),
        Err(error) => Some(EntryFault::NotJson(error.to_string())),
    }
}

/// Whether bytes are what the ordinary JSON writer prints, and a line feed.
///
/// The fields of an entry are declared in the order of RFC 8785 and hold text, `true` and whole numbers
/// only, so both writers print the same (numbers beyond 2^53 apart, which [`faults`] refuses). The
/// general one costs a fifth of a signature check, this one a twentieth; a test compares the two.
fn is_plain_print<T: Serialize>(value: &T, bytes: &[u8]) -> bool {
    let mut own = Vec::with_capacity(bytes.len() + 1);
    serde_json::to_writer(&mut own, value).is_ok() && {
        own.push(b'\n');
        own == bytes
    }
}

/// Index of the first byte that differs; the shorter length when one begins the other.
pub(crate) fn first_difference(left: &[u8], right: &[u8]) -> usize {
    left.iter().zip(right).take_while(|(l, r)| l == r).count()
}

/// The reader's message begins with its kind; a test holds the five beginnings in place.
fn classify(error: &serde_json::Error) -> EntryFault {
    let text = error.to_string();
    let quoted = || text.split('`').nth(1).unwrap_or_default().to_owned();
    if text.starts_with("duplicate field") {
        EntryFault::DuplicateKey(quoted())
    } else if text.starts_with("unknown field") {
        EntryFault::UnknownField(quoted())
    } else if text.starts_with("missing field") {
        EntryFault::MissingField(quoted())
    } else if ["invalid type", "invalid value", "unknown variant", "invalid length"]
        .iter()
        .any(|kind| text.starts_with(kind))
    {
        EntryFault::WrongType(text)
    } else {
        EntryFault::NotJson(text)
    }
}

impl EntryFault {
    /// Short name of the rule.
    pub fn code(&self) -> &'static str {
        match self {
            EntryFault::TooLong => "entry-too-long",
            EntryFault::NotUtf8(_) | EntryFault::ForeignBytes(_) => "foreign-bytes",
            EntryFault::NotJson(_) => "not-json",
            EntryFault::DuplicateKey(_) => "duplicate-key",
            EntryFault::UnknownField(_) => "unknown-field",
            EntryFault::MissingField(_) | EntryFault::Needs(_) => "missing-field",
            EntryFault::NotFor(_) => "needless-field",
            EntryFault::WrongType(_) => "wrong-type",
            EntryFault::NotCanonical(_) => "not-canonical",
            EntryFault::Version(_) => "version-unknown",
            EntryFault::NumberRange(..) => "number-range",
            EntryFault::Time(..) => "time-form",
            EntryFault::Identifier(..) => "identifier-form",
            EntryFault::Text(..) => "text-form",
            EntryFault::Digest(..) => "digest-form",
            EntryFault::Decimal(..) => "decimal-form",
            EntryFault::Meaning(_) => "meaning-differs",
            EntryFault::LaterKind(_) => "kind-later",
        }
    }

    /// What is wrong, for people; letters that look alike are shown by number.
    pub fn words(&self) -> Words {
        let number = |key, number: String| Words::new(key, &[("number", number.into())]);
        let said = |key, said: &str| Words::new(key, &[("said", said.into())]);
        let field = |key, field: &str| Words::new(key, &[("field", field.into())]);
        let value = |key, field: &str, text: &str| {
            Words::new(key, &[("text", shown(text).into()), ("field", field.into())])
        };
        match self {
            EntryFault::TooLong => number("fault-too-long", MOST_BYTES.to_string()),
            EntryFault::NotUtf8(at) => number("fault-not-utf8", at.to_string()),
            EntryFault::ForeignBytes(what) => said("fault-foreign-bytes", what),
            EntryFault::NotJson(what) => said("fault-not-json", what),
            EntryFault::DuplicateKey(key) => field("fault-duplicate-key", key),
            EntryFault::UnknownField(key) => field("fault-unknown-field", key),
            EntryFault::MissingField(key) => field("fault-missing-field", key),
            EntryFault::Needs(key) => field("fault-needs-field", key),
            EntryFault::NotFor(key) => field("fault-field-not-for-kind", key),
            EntryFault::WrongType(what) => said("fault-wrong-type", what),
            EntryFault::NotCanonical(at) => number("fault-not-canonical", at.to_string()),
            EntryFault::Version(v) => {
                let parts =
                    [("version", v.to_string().into()), ("most", VERSION.to_string().into())];
                Words::new("fault-version", &parts)
            }
            EntryFault::NumberRange(name, n) => {
                let parts = [("number", n.to_string().into()), ("field", (*name).into())];
                Words::new("fault-number-range", &parts)
            }
            EntryFault::Time(bad, text) => {
                let parts = [("text", shown(text).into()), ("why", bad.words().into())];
                Words::new("fault-time", &parts)
            }
            EntryFault::Identifier(name, text) => value("fault-identifier", name, text),
            EntryFault::Text(name, text) => value("fault-text", name, text),
            EntryFault::Digest(name, text) => value("fault-digest", name, text),
            EntryFault::Decimal(name, text) => value("fault-decimal", name, text),
            EntryFault::Meaning(text) => said("fault-meaning", &shown(text)),
            EntryFault::LaterKind(kind) => {
                Words::new("entries-fault-later-kind", &[("kind", kind.words().into())])
            }
        }
    }
}

/// A text in which every letter beyond ASCII and every control character shows its number.
pub(crate) fn shown(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            ' '..='~' => c.to_string(),
            other => format!("<U+{:04X}>", u32::from(other)),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{
        Entry, EntryFault, Kind, MOST_BYTES, MOST_WHOLE, Taken, VERSION, Verdict, is_plain_print,
        parse, shown,
    };
    use crate::record::fixture;
    use crate::record::time::BadTime;

    fn good() -> String {
        let mut entry = fixture::reading_entry();
        entry.note = Some("Ünïcode \"quoted\" \\ note".to_owned());
        String::from_utf8(entry.bytes().unwrap()).unwrap()
    }

    /// An entry with any text in any field.
    fn entry_of(texts: Vec<String>, numbers: [u64; 5], some: bool) -> Entry {
        let mut texts = texts.into_iter();
        let mut text = || texts.next().unwrap_or_default();
        let [accepts, concerns, corrects, seq, withdraws] = numbers;
        Entry {
            accepts: some.then_some(accepts),
            at: text(),
            becomes: some.then(&mut text),
            by: text(),
            concerns: some.then_some(concerns),
            corrects: some.then_some(corrects),
            job: text(),
            kind: Kind::Reading,
            locks: some.then(&mut text),
            machine: text(),
            meaning: text(),
            name: text(),
            note: some.then(&mut text),
            outside: some,
            packet: text(),
            prev: text(),
            reading: Some(Taken {
                blank: text(),
                high: some.then(&mut text),
                instrument: some.then(&mut text),
                low: some.then(&mut text),
                unit: text(),
                value: text(),
                verdict: Verdict::Within,
            }),
            role: text(),
            row: some.then(&mut text),
            seq,
            step: text(),
            v: VERSION,
            withdraws: some.then_some(withdraws),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// The plain writer against RFC 8785 by the library, on any text in any field.
        #[test]
        fn bytes_are_canonical(
            texts in prop::collection::vec(any::<String>(), 20),
            numbers in prop::array::uniform5(0..MOST_WHOLE),
            some in any::<bool>(),
        ) {
            let entry = entry_of(texts, numbers, some);
            let mut canonical = serde_json_canonicalizer::to_vec(&entry).unwrap();
            canonical.push(b'\n');
            prop_assert_eq!(entry.bytes().unwrap(), canonical);
        }
    }

    /// Replaces one piece of a good entry and wants the fault.
    #[track_caller]
    fn check(piece: &str, other: &str, expected: EntryFault) {
        let good = good();
        assert!(good.contains(piece), "{piece} is not in {good}");
        let bytes = good.replacen(piece, other, 1);
        assert_eq!(parse(bytes.as_bytes()), Err(expected), "{bytes}");
    }

    fn text(t: &str) -> String {
        t.to_owned()
    }

    #[test]
    fn a_good_entry_reads_back_byte_for_byte() {
        let good = good();
        assert_eq!(parse(good.as_bytes()).unwrap().bytes().unwrap(), good.as_bytes());
    }

    #[test]
    fn every_kind_states_its_own_sentence_and_word() {
        for kind in Kind::ALL {
            let word = serde_json::to_string(&kind).unwrap();
            assert_eq!(word, format!("\"{}\"", kind.word()));
            assert_eq!(Kind::ALL.iter().filter(|k| k.meaning() == kind.meaning()).count(), 1);
            if let Some(meaning) = kind.gives() {
                assert_eq!(Kind::from(meaning), kind);
            }
        }
    }

    #[test]
    fn other_bytes_of_the_same_meaning_are_refused() {
        check("{\"at\":", "{ \"at\":", EntryFault::NotCanonical(1));
        check("\"v\":3}\n", "\"v\":3} \n", EntryFault::NotCanonical(good().len() - 1));
        check("Ü", "\\u00dc", EntryFault::NotCanonical(good().find('Ü').unwrap()));
        let good = good();
        let at = &good[1..good.find(",\"by\"").unwrap()];
        let moved =
            good.replace(&format!("{at},"), "").replace("\"v\":3}", &format!("\"v\":3,{at}}}"));
        assert_eq!(parse(moved.as_bytes()), Err(EntryFault::NotCanonical(2)));
        let null = good.replace("\"by\":", "\"accepts\":null,\"by\":");
        assert!(matches!(parse(null.as_bytes()), Err(EntryFault::NotCanonical(_))));
    }

    #[test]
    fn foreign_bytes_are_named() {
        check(
            "{\"at\"",
            "\u{feff}{\"at\"",
            EntryFault::ForeignBytes("a byte order mark at the start"),
        );
        check("}\n", "}\r\n", EntryFault::ForeignBytes("a carriage return"));
        check("3}\n", "3}\n\n", EntryFault::ForeignBytes("more than one line feed at the end"));
        check("3}\n", "3}", EntryFault::ForeignBytes("no line feed at the end"));
        let mut bytes = good().into_bytes();
        bytes[10] = 0xff;
        assert_eq!(parse(&bytes), Err(EntryFault::NotUtf8(10)));
        assert!(matches!(parse(b""), Err(EntryFault::ForeignBytes(_))));
        assert!(matches!(parse(b"\n"), Err(EntryFault::NotJson(_))));
        check(
            "\"v\":3}\n",
            "\"v\":3}{}\n",
            EntryFault::NotJson(text(&format!(
                "trailing characters at line 1 column {}",
                good().len()
            ))),
        );
    }

    #[test]
    fn objects_of_another_form_are_refused() {
        let value = "\"value\":\"56.2\"";
        check(value, &format!("{value},{value}"), EntryFault::DuplicateKey(text("value")));
        check("\"v\":3", "\"v\":3,\"v\":3", EntryFault::DuplicateKey(text("v")));
        check("\"v\":3", "\"v\":3,\"x\":2", EntryFault::UnknownField(text("x")));
        check(",\"v\":3", "", EntryFault::MissingField(text("v")));
        for other in ["1.0", "1e0", "-0", "18446744073709551616", "\"1\"", "null", "true"] {
            let bytes = good().replacen("\"seq\":1,", &format!("\"seq\":{other},"), 1);
            assert!(matches!(parse(bytes.as_bytes()), Err(EntryFault::WrongType(_))), "{other}");
        }
        let number = good().replacen("\"56.2\"", "56.2", 1);
        assert!(matches!(parse(number.as_bytes()), Err(EntryFault::WrongType(_))));
        let kind = good().replacen("\"kind\":\"reading\"", "\"kind\":\"done\"", 1);
        assert!(matches!(parse(kind.as_bytes()), Err(EntryFault::WrongType(_))));
        let deep = format!("{}\n", "[".repeat(60_000));
        assert!(parse(deep.as_bytes()).is_err());
    }

    #[test]
    fn numbers_stay_in_range() {
        check("\"seq\":1,", "\"seq\":0,", EntryFault::NumberRange("seq", 0));
        let big = 9_007_199_254_740_993;
        check("\"seq\":1,", &format!("\"seq\":{big},"), EntryFault::NumberRange("seq", big));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        /// Every character, in every kind of field.
        #[test]
        fn the_plain_print_is_the_canonical_one(
            texts in prop::collection::vec(any::<String>(), 20),
            numbers in prop::array::uniform5(0..=MOST_WHOLE),
            some in any::<bool>(),
        ) {
            let entry = entry_of(texts, numbers, some);
            prop_assert!(is_plain_print(&entry, &entry.bytes().unwrap()));
        }
    }

    #[test]
    fn fields_are_checked_one_by_one() {
        check(
            "+01:00",
            "-00:00",
            EntryFault::Time(BadTime::UnknownOffset, text("2026-11-26T22:10:00-00:00")),
        );
        check("T22:10:00+01:00", "", EntryFault::Time(BadTime::Form, text("2026-11-26")));
        check(
            "\"by\":\"a.",
            "\"by\":\"а.",
            EntryFault::Identifier("by", text("а.doer@plant.example")),
        );
        check("\"name\":\"Ada Doer\"", "\"name\":\"\"", EntryFault::Text("name", text("")));
        check(
            "Ünï",
            "Ün\u{202e}ï",
            EntryFault::Text("note", text("Ün\u{202e}ïcode \"quoted\" \\ note")),
        );
        check(
            "Ünï",
            "Ün\\u0007ï",
            EntryFault::Text("note", text("Ün\u{7}ïcode \"quoted\" \\ note")),
        );
        check(
            "\"prev\":\"0",
            "\"prev\":\"A",
            EntryFault::Digest("prev", format!("A{}", "0".repeat(63))),
        );
        check("\"56.2\"", "\"5.62e1\"", EntryFault::Decimal("value", text("5.62e1")));
        check("\"56.2\"", "\"+56.2\"", EntryFault::Decimal("value", text("+56.2")));
        check(
            "I read this",
            "I saw this",
            EntryFault::Meaning(text("I saw this value at the machine.")),
        );
        check("\"v\":3", "\"v\":4", EntryFault::Version(4));
        check("\"v\":3", "\"v\":0", EntryFault::Version(0));
    }

    #[test]
    fn fields_belong_to_kinds() {
        let kind = |kind: Kind, change: fn(&mut Entry)| {
            let mut entry = fixture::reading_entry();
            entry.kind = kind;
            entry.meaning = kind.meaning().to_owned();
            entry.reading = entry.reading.filter(|_| kind == Kind::Reading);
            change(&mut entry);
            parse(&entry.bytes().unwrap()).map(|_| ())
        };
        assert_eq!(kind(Kind::Reading, |_| ()), Ok(()));
        assert_eq!(kind(Kind::Reading, |e| e.reading = None), Err(EntryFault::Needs("reading")));
        assert_eq!(
            kind(Kind::Reading, |e| e.accepts = Some(1)),
            Err(EntryFault::NotFor("accepts"))
        );
        assert_eq!(kind(Kind::Reading, |e| e.corrects = Some(1)), Err(EntryFault::Needs("note")));
        assert_eq!(
            kind(Kind::Performed, |e| e.corrects = Some(1)),
            Err(EntryFault::NotFor("corrects"))
        );
        assert_eq!(kind(Kind::Performed, |_| ()), Ok(()));
        let of_row = |e: &mut Entry| e.row = Some("mains".to_owned());
        assert_eq!(kind(Kind::Performed, of_row), Ok(()));
        assert_eq!(kind(Kind::Reading, of_row), Err(EntryFault::NotFor("row")));
        let first_version = |e: &mut Entry| (e.row, e.v) = (Some("mains".to_owned()), 1);
        assert_eq!(kind(Kind::Performed, first_version), Err(EntryFault::NotFor("row")));
        let outside = |e: &mut Entry| e.outside = true;
        assert_eq!(kind(Kind::Verified, outside), Ok(()));
        assert_eq!(kind(Kind::Performed, outside), Err(EntryFault::NotFor("outside")));
        let outside_before = |e: &mut Entry| (e.outside, e.v) = (true, 2);
        assert_eq!(kind(Kind::Verified, outside_before), Err(EntryFault::NotFor("outside")));
        assert_eq!(kind(Kind::Performed, |e| e.v = 1), Ok(()));
        let empty = |e: &mut Entry| e.row = Some(String::new());
        assert_eq!(kind(Kind::Performed, empty), Err(EntryFault::Identifier("row", text(""))));
        assert_eq!(
            kind(Kind::DeviationAccepted, |e| e.accepts = Some(1)),
            Err(EntryFault::Needs("note"))
        );
        assert_eq!(
            kind(Kind::DeviationAccepted, |e| e.note = Some("w".to_owned())),
            Err(EntryFault::Needs("accepts"))
        );
        for late in [Kind::DeviationRaised, Kind::Withdrawn, Kind::Abandoned, Kind::Superseded] {
            assert!(matches!(kind(late, |_| ()), Err(EntryFault::Needs(_))), "{late:?}");
        }
        let why = |e: &mut Entry| e.note = Some("w".to_owned());
        assert_eq!(kind(Kind::DeviationRaised, why), Ok(()));
        assert_eq!(kind(Kind::Abandoned, why), Ok(()));
        assert_eq!(kind(Kind::Withdrawn, why), Err(EntryFault::Needs("withdraws")));
        assert_eq!(kind(Kind::Superseded, why), Err(EntryFault::Needs("becomes")));
        let before = |e: &mut Entry| (e.note, e.v) = (Some("w".to_owned()), 2);
        assert_eq!(kind(Kind::Abandoned, before), Err(EntryFault::LaterKind(Kind::Abandoned)));
        let locks = |e: &mut Entry| (e.note, e.locks) = (Some("w".into()), Some("off".into()));
        assert_eq!(kind(Kind::Abandoned, locks), Ok(()));
        assert_eq!(kind(Kind::DeviationRaised, locks), Err(EntryFault::NotFor("locks")));
        let becomes = |e: &mut Entry| (e.note, e.becomes) = (Some("w".into()), Some("1".into()));
        assert_eq!(
            kind(Kind::Superseded, becomes),
            Err(EntryFault::Digest("becomes", "1".to_owned()))
        );
    }

    #[test]
    fn length_is_bounded() {
        let mut entry = fixture::reading_entry();
        entry.note = Some(String::new());
        let room = MOST_BYTES - entry.bytes().unwrap().len();
        entry.note = Some("n".repeat(room));
        assert_eq!(parse(&entry.bytes().unwrap()).unwrap(), entry);
        entry.note = Some("n".repeat(room + 1));
        assert_eq!(parse(&entry.bytes().unwrap()), Err(EntryFault::TooLong));
    }

    #[test]
    fn look_alike_letters_are_shown_by_number() {
        assert_eq!(shown("аda"), "<U+0430>da");
    }
}
