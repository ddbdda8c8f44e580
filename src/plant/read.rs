//! From the text of one YAML file to a typed shape, with every fault of the file and not only the
//! first: a faulty field is noted, blanked out of a copy of the text, and the reading begins again.

use std::cell::Cell;
use std::ops::Range;
use std::sync::Arc;

use serde::Deserializer;
use serde::de::{
    self, DeserializeOwned, DeserializeSeed, EnumAccess, MapAccess, SeqAccess, VariantAccess as _,
    Visitor,
};
use serde_path_to_error::{Path, Segment};

use crate::finding::place::{FieldEntry, field_entry};
use crate::finding::{Findings, Place};
use crate::language::Words;

/// How many faults of one file are reported before the reading gives up.
const MOST_FAULTS: usize = 50;

/// How many bytes are read again for the next fault before the reading gives up.
const MOST_REREAD: usize = 2 << 20;

/// How deep brackets may stand inside each other; the parser takes the square of it in time.
const DEEPEST: usize = 500;

/// Reads a file that is YAML as a whole; none when its shape cannot be made out.
pub fn yaml_file<T: DeserializeOwned>(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
) -> Option<T> {
    read(findings, &Place::top(file), text, text, Before::NOTHING)
}

/// Reads a file whose texts were put into one language; `text` is what was written.
pub(super) fn yaml_in_one_language<T: DeserializeOwned>(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    resolved: &str,
) -> Option<T> {
    read(findings, &Place::top(file), text, resolved, Before::NOTHING)
}

/// Reads a block of YAML inside a file.
pub fn yaml_block<T: DeserializeOwned>(
    findings: &mut Findings,
    file: &Arc<str>,
    text: &str,
    block: Range<usize>,
) -> Option<T> {
    let (before, yaml) = (text.get(..block.start)?, text.get(block.clone())?);
    let before = Before { bytes: before.len(), lines: before.matches('\n').count() };
    read(findings, &Place::block(file, block), yaml, yaml, before)
}

/// What stands in the file before a piece of YAML.
#[derive(Clone, Copy)]
struct Before {
    bytes: usize,
    lines: usize,
}

impl Before {
    const NOTHING: Before = Before { bytes: 0, lines: 0 };
}

/// Reads YAML; faults of the text are found in what was `written`, those of a field by its path.
fn read<T: DeserializeOwned>(
    findings: &mut Findings,
    top: &Place,
    written: &str,
    yaml: &str,
    before: Before,
) -> Option<T> {
    let offset = before.bytes;
    if let Some(at) = too_deep(yaml) {
        let words = Words::new("yaml-too-deep", &[("most", DEEPEST.into())]);
        findings.not_yaml(&Place::bytes(&top.file, offset + at..offset + at + 1), &words);
        return None;
    }
    if let Some(words) = grows(yaml) {
        let at = offset + yaml.find('*').unwrap_or(0);
        findings.not_yaml(&Place::bytes(&top.file, at..at + 1), &words);
        return None;
    }
    let first = match parse::<T>(yaml) {
        Ok(value) => return Some(value),
        Err(error) => error,
    };
    // Text that is no YAML at all has one fault, whatever the typed reading stumbled over.
    if let Err(error) = serde_yaml::from_str::<serde_yaml::Value>(written) {
        Fault::of_text(&error, written, before.lines).report(findings, top, offset);
        return None;
    }
    let mut rest = yaml.to_owned();
    let mut fault = Fault::of_field(first);
    let mut gone = Vec::new();
    for _ in 0..(MOST_REREAD / yaml.len().max(1)).clamp(2, MOST_FAULTS) {
        if !fault.follows_from(&gone) {
            fault.report(findings, top, offset);
        }
        let without = fault.blanked_out_of(&rest)?;
        rest = without.yaml;
        gone.push(without.path);
        fault = Fault::of_field(parse::<T>(&rest).err()?);
    }
    None
}

/// Where brackets stand too deep inside each other. Brackets in texts are counted too: nobody opens
/// that many without closing them.
fn too_deep(yaml: &str) -> Option<usize> {
    let mut depth = 0_usize;
    yaml.bytes().position(|byte| {
        match byte {
            b'[' | b'{' => depth += 1,
            b']' | b'}' => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth > DEEPEST
    })
}

/// Why a text stands for more values than it has letters: aliases that repeat what is long.
fn grows(yaml: &str) -> Option<Words> {
    if !yaml.contains('*') {
        return None;
    }
    let left = Cell::new(yaml.len() + 16);
    let read = Values(&left).deserialize(serde_yaml::Deserializer::from_str(yaml));
    let grown = left.get() == 0;
    read.err().filter(|_| grown).map(|_| Words::of("yaml-grows"))
}

/// Visits every value, aliases written out, until none is left to visit.
struct Values<'a>(&'a Cell<usize>);

impl Values<'_> {
    fn one<E: de::Error>(&self) -> Result<(), E> {
        self.0.set(self.0.get().saturating_sub(1));
        if self.0.get() == 0 { Err(E::custom("too many values")) } else { Ok(()) }
    }
}

impl<'de> DeserializeSeed<'de> for Values<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Values<'_> {
    type Value = ();

    fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        f.write_str("a value")
    }

    fn visit_bool<E: de::Error>(self, _: bool) -> Result<(), E> {
        self.one()
    }

    fn visit_i64<E: de::Error>(self, _: i64) -> Result<(), E> {
        self.one()
    }

    fn visit_u64<E: de::Error>(self, _: u64) -> Result<(), E> {
        self.one()
    }

    fn visit_i128<E: de::Error>(self, _: i128) -> Result<(), E> {
        self.one()
    }

    fn visit_u128<E: de::Error>(self, _: u128) -> Result<(), E> {
        self.one()
    }

    #[allow(clippy::disallowed_types, reason = "the reader hands it over; it is not looked at")]
    fn visit_f64<E: de::Error>(self, _: f64) -> Result<(), E> {
        self.one()
    }

    fn visit_str<E: de::Error>(self, _: &str) -> Result<(), E> {
        self.one()
    }

    fn visit_unit<E: de::Error>(self) -> Result<(), E> {
        self.one()
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        self.one()?;
        while list.next_element_seed(Values(self.0))?.is_some() {}
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        self.one()?;
        while map.next_key_seed(Values(self.0))?.is_some() {
            map.next_value_seed(Values(self.0))?;
        }
        Ok(())
    }

    fn visit_enum<A: EnumAccess<'de>>(self, tagged: A) -> Result<(), A::Error> {
        self.one()?;
        let (_, value) = tagged.variant::<String>()?;
        value.newtype_variant_seed(self)
    }
}

type PathError = serde_path_to_error::Error<serde_yaml::Error>;

fn parse<T: DeserializeOwned>(yaml: &str) -> Result<T, PathError> {
    // An empty block means an empty mapping: every key of a step may be left out.
    let yaml = if yaml.trim().is_empty() { "{}" } else { yaml };
    serde_path_to_error::deserialize(serde_yaml::Deserializer::from_str(yaml))
}

/// What is wrong with a field, taken from the reader's own words.
#[derive(Debug, PartialEq, Eq)]
enum Kind {
    Unknown { key: String, known: Vec<String> },
    Missing(String),
    Twice { key: String, at: usize },
    Variant { value: String, known: Vec<String> },
    Type { found: String, expected: String },
    Syntax { message: String, at: usize },
}

struct Fault {
    path: Vec<String>,
    kind: Kind,
}

impl Fault {
    /// What the typed reading stumbled over.
    fn of_field(error: PathError) -> Fault {
        let mut path = field_path(error.path());
        let inner = error.into_inner();
        let at = inner.location().map_or(0, |place| place.index());
        let kind = kind_of(&inner.to_string(), at);
        if let Kind::Unknown { key, .. } = &kind
            && path.last() != Some(key)
        {
            path.push(key.clone());
        }
        Fault { path, kind }
    }

    /// What is wrong with the YAML as YAML.
    fn of_text(error: &serde_yaml::Error, yaml: &str, lines_before: usize) -> Fault {
        let at = error.location().map_or(0, |place| place.index()).min(yaml.len());
        let kind = match kind_of(&error.to_string(), at) {
            Kind::Twice { key, .. } => {
                let at = second_place(yaml, at, &key);
                Kind::Twice { key, at }
            }
            _ => Kind::Syntax { message: in_file(&error.to_string(), lines_before), at },
        };
        Fault { path: Vec::new(), kind }
    }

    fn report(&self, findings: &mut Findings, top: &Place, offset: usize) {
        let at = self.path.iter().fold(top.clone(), |place, key| place.at(key));
        match &self.kind {
            Kind::Unknown { key, known } => findings.unknown_key(&at.key(), key, known),
            Kind::Missing(key) => findings.missing_key(&at, key),
            Kind::Twice { key, at } => {
                let spot = offset + at;
                findings.key_twice(&Place::bytes(&top.file, spot..spot + key.len()), key);
            }
            Kind::Variant { value, known } => findings.unknown_word(&at, value, known),
            Kind::Type { found, expected } => findings.wrong_shape(&at, found, expected),
            Kind::Syntax { message, at } => {
                let place = Place::bytes(&top.file, offset + at..offset + at + 1);
                findings.not_yaml(&place, &Words::foreign(message));
            }
        }
    }

    /// Whether it is there only because fields were blanked out: then it was reported already.
    fn follows_from(&self, gone: &[Vec<String>]) -> bool {
        gone.iter().any(|path| match self.kind {
            Kind::Unknown { .. } => false,
            Kind::Missing(_) => path.split_last().is_some_and(|(_, above)| above == self.path),
            _ => path.starts_with(&self.path),
        })
    }

    /// The text without the faulty field, or without what it stands in where the text would be no
    /// YAML any more; none when there is nothing to take away.
    fn blanked_out_of(&self, yaml: &str) -> Option<Without> {
        if matches!(self.kind, Kind::Twice { .. } | Kind::Syntax { .. }) {
            return None;
        }
        let paths = (1..=self.path.len()).rev().filter_map(|depth| self.path.get(..depth));
        paths
            .filter_map(|path| Some(Without { yaml: without(yaml, path)?, path: path.to_vec() }))
            .find(|without| serde_yaml::from_str::<serde_yaml::Value>(&without.yaml).is_ok())
    }
}

/// A text out of which a field was blanked, and the field.
struct Without {
    yaml: String,
    path: Vec<String>,
}

/// A text of the same length and lines without one of its fields.
fn without(yaml: &str, path: &[String]) -> Option<String> {
    let FieldEntry { mut range, holds_mapping } = field_entry(yaml, path)?;
    // In `{ a: 1, b: 2 }` the comma goes too.
    let rest = yaml.get(range.end..)?;
    if rest.trim_start().starts_with(',') {
        range.end += rest.find(',')? + 1;
    }
    let text = yaml.get(range.clone()).filter(|text| !text.is_empty())?;
    let blank: String = text.chars().map(|c| if c == '\n' { c } else { ' ' }).collect();
    let blank = match blank.strip_prefix("  ").filter(|_| holds_mapping) {
        Some(rest) => format!("{{}}{rest}"),
        None => blank,
    };
    Some(format!("{}{blank}{}", yaml.get(..range.start)?, yaml.get(range.end..)?))
}

/// The reader's words with lines of the file; the first place is where the caret stands.
fn in_file(message: &str, lines_before: usize) -> String {
    let mut pieces = message.split(" at line ");
    let mut said = pieces.next().unwrap_or_default().to_owned();
    for (index, piece) in pieces.enumerate() {
        let (line, rest) = piece.split_once(" column ").unwrap_or((piece, ""));
        let column = rest.bytes().take_while(u8::is_ascii_digit).count();
        let (column, rest) = rest.split_at(column);
        if index > 0 {
            let line = line.parse::<usize>().unwrap_or(0) + lines_before;
            said += &format!(" at line {line} column {column}");
        }
        said += rest;
    }
    said
}

/// Where a key stands for the second time; the reader only says where its mapping begins.
fn second_place(yaml: &str, from: usize, key: &str) -> usize {
    let mut at = from;
    let mut seen = 0;
    for line in yaml.get(from..).unwrap_or_default().split_inclusive('\n') {
        let text = line.trim_start();
        if text.strip_prefix(key).is_some_and(|rest| rest.trim_start().starts_with(':')) {
            seen += 1;
            if seen == 2 {
                return at + line.len() - text.len();
            }
        }
        at += line.len();
    }
    from
}

fn field_path(path: &Path) -> Vec<String> {
    path.iter()
        .filter_map(|segment| match segment {
            Segment::Map { key } => Some(key.clone()),
            Segment::Seq { index } => Some(index.to_string()),
            Segment::Enum { .. } | Segment::Unknown => None,
        })
        .collect()
}

fn kind_of(message: &str, at: usize) -> Kind {
    let quoted = |from: &str| -> Vec<String> {
        from.split('`').skip(1).step_by(2).map(str::to_owned).collect()
    };
    let after = |start: &str| message.find(start).map(|at| &message[at..]);
    if let Some(rest) = after("unknown field `") {
        let mut words = quoted(rest).into_iter();
        Kind::Unknown { key: words.next().unwrap_or_default(), known: words.collect() }
    } else if let Some(rest) = after("unknown variant `") {
        let mut words = quoted(rest).into_iter();
        Kind::Variant { value: words.next().unwrap_or_default(), known: words.collect() }
    } else if let Some(rest) = after("missing field `") {
        Kind::Missing(quoted(rest).into_iter().next().unwrap_or_default())
    } else if let Some(rest) = after("duplicate field `").or_else(|| after("duplicate entry")) {
        let key = rest.split(['`', '"']).nth(1).unwrap_or_default().to_owned();
        Kind::Twice { key, at }
    } else if let Some(rest) = after("invalid type: ").or_else(|| after("invalid value: ")) {
        let words = rest.split_once(": ").map_or(rest, |(_, words)| words);
        let words = words.split(" at line ").next().unwrap_or(words);
        let (found, expected) =
            words.split_once(", expected ").unwrap_or((words, "something else"));
        Kind::Type { found: found.to_owned(), expected: expected.to_owned() }
    } else {
        Kind::Syntax { message: message.to_owned(), at }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::yaml_file;
    use crate::finding::Findings;
    use crate::finding::show::{Texts, located};
    use crate::language::Language;
    use crate::plant::shape::{JobFile, RecipeFile, StockFile};

    const JOB: &str = "id: J-1\nmachine: m\nfrom: a\nto: b\norder: x\ndate: 2026-01-01\nissued: 2026-01-01T00:00:00Z\nissued_by: p\n";

    #[track_caller]
    fn check<T: serde::de::DeserializeOwned>(text: &str, expected: &[(&str, usize, usize)]) {
        let file: Arc<str> = "f.yaml".into();
        let mut findings = Findings::default();
        let read: Option<T> = yaml_file(&mut findings, &file, text);
        assert_eq!(read.is_some(), expected.is_empty());
        let texts = Texts::from([(file, text.into())]);
        let found: Vec<_> = located(&findings, &texts, Language::English)
            .iter()
            .map(|f| (f.rule, f.line, f.column))
            .collect();
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn a_good_file_is_read() {
        check::<JobFile>(JOB, &[]);
    }

    #[test]
    fn every_fault_of_a_file_is_found() {
        let text = JOB.replace("to: b", "too: b\nshift: [1]\nordre: y");
        check::<JobFile>(
            &text,
            &[("unknown-key", 4, 1), ("wrong-shape", 5, 1), ("unknown-key", 6, 1)],
        );
    }

    #[test]
    fn a_missing_field_is_found() {
        check::<JobFile>(&JOB.replace("to: b\n", ""), &[("missing-key", 1, 1)]);
    }

    #[test]
    fn faults_inside_braces_are_found() {
        let recipe = "id: r\nname: n\nrevision: 1\ndate: d\nauthor: a\nreason: r\nmachines: [m]\nsettings:\n  s: { nam: x, name: y, formula: 1, uni: mm }\nlayouts:\n  k: { tolerance: 1, guides: { opening: 1, open: 2 } }\n";
        check::<RecipeFile>(
            recipe,
            &[("unknown-key", 9, 8), ("unknown-key", 9, 37), ("unknown-key", 11, 44)],
        );
    }

    /// A film, and beside the films a key that no stock has.
    fn stock(foreign: &str) -> String {
        format!("{foreign}films:\n  f: {{ name: n, thickness: 1, rolls: [], grammmage: 2 }}\n")
    }

    #[test]
    fn an_unknown_key_with_values_inside_is_one_fault() {
        let all = [
            "foil: { number: 1, of: 2 }\n",
            "foil: { number: { x: [1, 2] }, of: 2 } # why\n",
            "foil: [1, { of: 2 }]\n",
            "foil: {\n  number: 1,\n  of: 2\n  }\n",
            "foil:\n  number: 1\n  of:\n    - 2\n    - { a: b }\n\n# films\n",
            "foil:\n- 2\n- a: b\n  c: \"d\n\n    e\"\n",
            "foil: |\n  a: b\n\n  c\n",
            "foil: >-\n  a: b\n",
            "foil: \"ä } ]\"\n",
            "foil:\n",
            "foil: []\n",
            "foil: {}\n",
            "\"foil\": &x !t { a: 1 }\n",
        ];
        for foreign in all {
            let line = foreign.matches('\n').count() + 2;
            let found = [("unknown-key", 1, 1), ("unknown-key", line, 42)];
            check::<StockFile>(&stock(foreign), &found);
        }
    }

    #[test]
    fn what_was_blanked_out_makes_no_fault_of_its_own() {
        // All there is of a mapping, of a list's item, of the file.
        check::<StockFile>(
            "films:\n  f:\n    nam: n\n  g:\n    thicknes: {\n      a: 1 }\n",
            &[("unknown-key", 3, 5), ("unknown-key", 5, 5)],
        );
        check::<StockFile>(
            "films:\n  f:\n    name: n\n    thickness: 1\n    rolls:\n    - widht: 1\nfoil: 1\n",
            &[("unknown-key", 6, 7), ("unknown-key", 7, 1)],
        );
        check::<StockFile>("# films\nfilm:\n  f: 1\n", &[("unknown-key", 2, 1)]);
        // An item of a list in another shape: the list goes, what stands after it is still read.
        check::<StockFile>(
            "films:\n  f:\n    name: n\n    rolls:\n    - 5\n    - 6\n    typo: 1\n",
            &[("wrong-shape", 5, 7), ("unknown-key", 7, 5)],
        );
        // Beside the knives instead of among them.
        let recipe = "id: r\nname: n\nrevision: 1\ndate: d\nauthor: a\nreason: r\nmachines: [m]\nlayouts:\n  k:\n    knives: { lanes: 2, strip: 1, edge_cuts: true }\n    bar: { number: 1, of: 2 }\n    tolerance: 1\npart: [{ item: 1 }, 2]\n";
        check::<RecipeFile>(recipe, &[("unknown-key", 11, 5), ("unknown-key", 13, 1)]);
        // A value that others repeat cannot go alone; nothing is said of that.
        check::<StockFile>("foil: &x { a: 1 }\nfilms: { f: *x }\n", &[("unknown-key", 1, 1)]);
    }

    #[test]
    fn a_missing_key_hides_no_other_fault() {
        check::<StockFile>(
            "films:\n  f: { name: n, rolls: [] }\n  g: { nam: n, rolls: [] }\nfoil: 1\n",
            &[("missing-key", 2, 3), ("unknown-key", 3, 8), ("unknown-key", 4, 1)],
        );
    }

    #[test]
    fn a_key_that_stands_twice_is_found() {
        check::<JobFile>(&format!("{JOB}to: c\n"), &[("key-twice", 9, 1)]);
    }

    #[test]
    fn places_in_the_words_of_the_reader_are_lines_of_the_file() {
        let said = "did not find `]` at line 3 column 7, while parsing a list at line 2 column 11";
        let expected = "did not find `]`, while parsing a list at line 12 column 11";
        assert_eq!(super::in_file(said, 10), expected);
        assert_eq!(super::in_file("no place", 10), "no place");
    }

    #[test]
    fn broken_yaml_is_one_finding() {
        check::<JobFile>("id: [1\nmachine: x", &[("not-yaml", 2, 8)]);
    }

    #[test]
    fn decimals_keep_their_digits() {
        let text = JOB.replace("order: x", "order: 12.50");
        let job: JobFile = yaml_file(&mut Findings::default(), &"f".into(), &text).unwrap();
        assert_eq!(job.order, "12.50");
    }

    #[test]
    fn an_alias_bomb_is_refused() {
        let mut text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n".to_owned();
        for n in 1..12 {
            let list = vec![format!("*a{}", n - 1); 10].join(", ");
            text += &format!("a{n}: &a{n} [{list}]\n");
        }
        let mut findings = Findings::default();
        let read: Option<JobFile> = yaml_file(&mut findings, &"f".into(), &text);
        assert!(read.is_none() && findings.has_errors());
    }
}
