//! Places: kept as file and field path or byte range, turned into lines and columns only when shown.
//!
//! The typed reading of YAML knows no positions of values; this module finds them afterwards with a
//! marking parser. It must never fail: a path that is not there is answered with its nearest parent.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use saphyr::{LoadableYamlNode, MarkedYaml, Scalar, YamlData};

/// A place in a file of the plant.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Place {
    /// Path inside the plant, with `/`.
    pub file: Arc<str>,
    /// Where in the file.
    pub spot: Spot,
}

/// Where in a file.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Spot {
    /// The file as a whole.
    File,
    /// A byte range.
    Bytes(Range<usize>),
    /// A field of YAML.
    Field {
        /// Byte range of the YAML inside the file; none when the whole file is YAML.
        block: Option<Range<usize>>,
        /// Keys and list numbers from the top.
        path: Vec<Arc<str>>,
        /// Which part of the field.
        part: Part,
    },
}

/// Which part of a field.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Part {
    /// Its value.
    Value,
    /// Its key.
    Key,
    /// Bytes inside its value as text.
    Within(Range<usize>),
}

impl Place {
    /// The file as a whole.
    pub fn file(file: &Arc<str>) -> Place {
        Place { file: file.clone(), spot: Spot::File }
    }

    /// A byte range of a file.
    pub fn bytes(file: &Arc<str>, range: Range<usize>) -> Place {
        Place { file: file.clone(), spot: Spot::Bytes(range) }
    }

    /// The top of a file that is YAML.
    pub fn top(file: &Arc<str>) -> Place {
        let spot = Spot::Field { block: None, path: Vec::new(), part: Part::Value };
        Place { file: file.clone(), spot }
    }

    /// The top of a block of YAML inside a file.
    pub fn block(file: &Arc<str>, block: Range<usize>) -> Place {
        let spot = Spot::Field { block: Some(block), path: Vec::new(), part: Part::Value };
        Place { file: file.clone(), spot }
    }

    /// The value of a field below this one.
    #[must_use]
    pub fn at(&self, key: &str) -> Place {
        let mut place = self.clone();
        if let Spot::Field { path, part, .. } = &mut place.spot {
            path.push(key.into());
            *part = Part::Value;
        }
        place
    }

    /// An item of a list below this field.
    #[must_use]
    pub fn item(&self, index: usize) -> Place {
        self.at(&index.to_string())
    }

    /// The key of this field.
    #[must_use]
    pub fn key(&self) -> Place {
        self.part(Part::Key)
    }

    /// Bytes inside the value of this field.
    #[must_use]
    pub fn within(&self, range: Range<usize>) -> Place {
        self.part(Part::Within(range))
    }

    fn part(&self, new: Part) -> Place {
        let mut place = self.clone();
        if let Spot::Field { part, .. } = &mut place.spot {
            *part = new;
        }
        place
    }

    /// The bytes of this place in the file's text; an empty range at 0 for the whole file.
    pub fn locate(&self, text: &str) -> Range<usize> {
        self.locate_with(text, &mut Marks::new())
    }

    /// The same, with what was made out for places of the same file before.
    pub(crate) fn locate_with<'t>(&self, text: &'t str, marks: &mut Marks<'t>) -> Range<usize> {
        let range = match &self.spot {
            Spot::File => 0..0,
            Spot::Bytes(range) => range.clone(),
            Spot::Field { block, path, part } => {
                let block = block.clone().unwrap_or(0..text.len());
                let key = (self.file.clone(), block.start, block.end);
                let marked = marks
                    .entry(key)
                    .or_insert_with(|| MarkedText::of(text.get(block.clone()).unwrap_or_default()));
                let found = marked.locate(path, part);
                block.start + found.start..block.start + found.end
            }
        };
        clamp(text, range)
    }
}

/// Pieces of YAML made out so far, by file and bytes.
pub(crate) type Marks<'t> = BTreeMap<(Arc<str>, usize, usize), MarkedText<'t>>;

/// A range that lies inside the text, on letters.
fn clamp(text: &str, range: Range<usize>) -> Range<usize> {
    let floor = |mut at: usize| {
        at = at.min(text.len());
        while !text.is_char_boundary(at) {
            at -= 1;
        }
        at
    };
    let start = floor(range.start);
    start..floor(range.end.max(start))
}

/// The bytes of a field in a piece of YAML, or of the nearest parent that is there.
pub fn locate_field<S: AsRef<str>>(yaml: &str, path: &[S], part: &Part) -> Range<usize> {
    MarkedText::of(yaml).locate(path, part)
}

/// A piece of YAML with the places of its values, made out once for many questions.
pub(crate) struct MarkedText<'a> {
    yaml: &'a str,
    pub(crate) top: Option<MarkedYaml<'a>>,
    /// Bytes of the letters, where a letter may have more than one.
    letters: Option<Vec<usize>>,
}

impl<'a> MarkedText<'a> {
    pub(crate) fn of(yaml: &'a str) -> MarkedText<'a> {
        let top =
            MarkedYaml::load_from_str(yaml).ok().and_then(|documents| documents.into_iter().next());
        let letters = (!yaml.is_ascii()).then(|| yaml.char_indices().map(|(at, _)| at).collect());
        MarkedText { yaml, top, letters }
    }

    /// The bytes of a field, or of the nearest parent that is there.
    pub(crate) fn locate<S: AsRef<str>>(&self, path: &[S], part: &Part) -> Range<usize> {
        let Some(top) = &self.top else { return 0..0 };
        let (mut key, mut node) = (None, top);
        for segment in path {
            match step_down(node, segment.as_ref()) {
                Some((its_key, value)) => (key, node) = (its_key, value),
                None => return self.span(lacking(key, node)),
            }
        }
        match (part, key) {
            (Part::Key, Some(key)) => self.span(key),
            (Part::Within(inner), _) => within(self.yaml, self.span(node), inner),
            // A list or a mapping as a whole is shown at its name: nobody looks for a fault in all of
            // its lines.
            (Part::Value, Some(key)) if holds_something(node) => self.span(key),
            (Part::Value, None) if !self.text(node).starts_with(['{', '[']) => {
                self.span(first(node))
            }
            _ => self.span(node),
        }
    }

    /// The bytes of a field's whole value; none when it is not there.
    pub(crate) fn value<S: AsRef<str>>(&self, path: &[S]) -> Option<Range<usize>> {
        let mut node = self.top.as_ref()?;
        for segment in path {
            (_, node) = step_down(node, segment.as_ref())?;
        }
        Some(self.span(node))
    }

    /// A node as it is written.
    pub(crate) fn text(&self, node: &Marked) -> &'a str {
        self.yaml.get(self.span(node)).unwrap_or_default()
    }

    /// Bytes of a node; the parser counts letters.
    pub(crate) fn span(&self, node: &Marked) -> Range<usize> {
        let byte = |letter: usize| match &self.letters {
            Some(letters) => letters.get(letter).copied().unwrap_or(self.yaml.len()),
            None => letter.min(self.yaml.len()),
        };
        let start = byte(node.span.start.index());
        let end = byte(node.span.end.index()).max(start);
        let text = self.yaml.get(start..end).unwrap_or_default();
        // The parser ends a list or mapping in brackets before its closing bracket.
        let rest = self.yaml.get(end..).unwrap_or_default();
        let first = text.split_whitespace().find(|word| !word.starts_with(['&', '!']));
        let first = first.unwrap_or_default();
        let closed = |open, close| first.starts_with(open) && rest.starts_with(close);
        match closed('{', '}') || closed('[', ']') {
            true => start..end + 1,
            false => start..start + text.trim_end().len(),
        }
    }
}

/// Where somebody looks who is told that something lacks in a node: at its key, or at its first.
fn lacking<'n, 'i>(key: Option<&'n Marked<'i>>, node: &'n Marked<'i>) -> &'n Marked<'i> {
    match key {
        Some(key) if !matches!(node.data, YamlData::Value(Scalar::String(_))) => key,
        _ => first(node),
    }
}

/// Whether a node is a list or a mapping, and not an empty one.
fn holds_something(node: &Marked) -> bool {
    !std::ptr::eq(first(node), node)
}

/// The first key of a mapping, the first item of a list; of anything else itself.
fn first<'n, 'i>(node: &'n Marked<'i>) -> &'n Marked<'i> {
    let next = match &node.data {
        YamlData::Mapping(map) => map.iter().next().map(|(key, _)| key),
        YamlData::Sequence(list) => list.first(),
        _ => None,
    };
    next.unwrap_or(node)
}

/// A field that can be taken out of a piece of YAML.
pub(crate) struct FieldEntry {
    /// The bytes of its key and its value.
    pub(crate) range: Range<usize>,
    /// Whether it is all there is of a mapping without braces, which would be no mapping any more.
    pub(crate) holds_mapping: bool,
}

/// A field by its path; none for an item of a list, whose place the items after it need.
pub(crate) fn field_entry(yaml: &str, path: &[String]) -> Option<FieldEntry> {
    let marked = MarkedText::of(yaml);
    let (last, above) = path.split_last()?;
    let mut parent = marked.top.as_ref()?;
    for segment in above {
        (_, parent) = step_down(parent, segment)?;
    }
    let (key, value) = step_down(parent, last)?;
    let key = marked.span(key?);
    // The place of a value that was left empty does not reach over the colon.
    let rest = yaml.get(key.end..)?;
    let colon = rest.find(':').filter(|at| rest[..*at].trim_start().is_empty());
    let end = colon.filter(|_| value.data.is_null()).map_or(key.end, |at| key.end + at + 1);
    let range = key.start..marked.span(value).end.max(end);
    let braces = yaml.get(marked.span(parent))?.starts_with('{');
    let holds_mapping = !braces && parent.data.as_mapping()?.len() == 1;
    Some(FieldEntry { range, holds_mapping })
}

type Marked<'a> = MarkedYaml<'a>;

fn step_down<'n, 'i>(
    node: &'n Marked<'i>,
    segment: &str,
) -> Option<(Option<&'n Marked<'i>>, &'n Marked<'i>)> {
    match &node.data {
        YamlData::Mapping(map) => map
            .iter()
            .find(|(key, _)| is_called(key, segment))
            .map(|(key, value)| (Some(key), value)),
        YamlData::Sequence(list) => {
            list.get(segment.parse::<usize>().ok()?).map(|value| (None, value))
        }
        _ => None,
    }
}

fn is_called(node: &Marked, name: &str) -> bool {
    match &node.data {
        YamlData::Value(Scalar::String(text)) => text == name,
        YamlData::Value(Scalar::Integer(number)) => number.to_string() == name,
        YamlData::Value(Scalar::Boolean(truth)) => truth.to_string() == name,
        YamlData::Representation(text, ..) => text == name,
        _ => false,
    }
}

/// A part of a scalar: quotes are stepped over; when it is folded or escaped, the whole is meant.
fn within(yaml: &str, value: Range<usize>, inner: &Range<usize>) -> Range<usize> {
    let text = yaml.get(value.clone()).unwrap_or_default();
    let quote = usize::from(text.starts_with(['"', '\'']));
    let start = value.start + quote + inner.start;
    let end = value.start + quote + inner.end;
    let plain = !text.starts_with(['|', '>']) && !text.contains('\\') && !text.contains('\n');
    if plain && end <= value.end { start..end.max(start) } else { value }
}

#[cfg(test)]
mod tests {
    use super::{Part, locate_field};

    const YAML: &str = "# head\nname: Übung\nrails:\n  knife_rail: { left_end: 300 mm, zone: \"a b\" }\nsteps:\n  - text: one\n  - text: two\n";

    #[track_caller]
    fn check(path: &[&str], part: &Part, expected: &str) {
        let path: Vec<String> = path.iter().map(|s| (*s).to_owned()).collect();
        assert_eq!(&YAML[locate_field(YAML, &path, part)], expected);
    }

    #[test]
    fn a_field_is_found_by_its_path() {
        check(&["name"], &Part::Value, "Übung");
        check(&["name"], &Part::Key, "name");
        check(&["rails", "knife_rail", "left_end"], &Part::Value, "300 mm");
        check(&["rails", "knife_rail", "left_end"], &Part::Within(4..6), "mm");
        check(&["rails", "knife_rail", "zone"], &Part::Within(2..3), "b");
        check(&["steps", "1", "text"], &Part::Value, "two");
    }

    #[test]
    fn a_list_or_a_mapping_is_shown_at_its_key_or_its_first() {
        check(&["rails", "knife_rail"], &Part::Value, "knife_rail");
        check(&["rails"], &Part::Value, "rails");
        check(&["steps"], &Part::Value, "steps");
        check(&["steps", "1"], &Part::Value, "text");
        check(&[], &Part::Value, "name");
    }

    #[test]
    fn a_missing_field_is_answered_with_its_parent() {
        check(&["rails", "knife_rail", "right_end"], &Part::Value, "knife_rail");
        check(&["steps", "7"], &Part::Value, "steps");
    }

    #[test]
    fn broken_yaml_is_answered_with_its_top() {
        assert_eq!(locate_field("a: [", &["a".to_owned()], &Part::Value), 0..0);
    }
}
