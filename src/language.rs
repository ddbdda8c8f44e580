//! The texts of the program in several languages, with plural rules (Project Fluent).
//!
//! Texts stand in `language/<language>/<topic>.ftl`, one topic a file; a test holds the languages to the
//! same keys and the same variables. English is the source. Must never guess: a key that does not
//! exist is a fault of the program, and shows as the key itself.
//!
//! What people wrote (names, orders, procedures) is never translated here.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use fluent_syntax::ast::{Entry, Pattern};
use include_dir::{Dir, include_dir};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use unic_langid::LanguageIdentifier;

/// A language with its way to write numbers, by its BCP 47 tag.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
pub enum Language {
    /// English, decimal point.
    #[default]
    #[serde(rename = "en")]
    English,
    /// Spanish, decimal comma.
    #[serde(rename = "es")]
    Spanish,
    /// Spanish of Latin America: the texts of Spanish, decimal point.
    #[serde(rename = "es-419")]
    LatinSpanish,
    /// German, decimal comma.
    #[serde(rename = "de")]
    German,
}

/// A value put into a text. A count chooses the plural; all else is text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Part<'a> {
    /// Text as it is.
    Text(Cow<'a, str>),
    /// A whole number of things.
    Count(usize),
    /// A text of its own, in the language of the text it is put into.
    Words(Words),
}

/// A text without a language yet: whoever shows it says which.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words(Box<Wording>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Wording {
    key: &'static str,
    is_way_out: bool,
    parts: Vec<(&'static str, Part<'static>)>,
}

impl Words {
    /// A text with what is put into it.
    pub fn new(key: &'static str, parts: &[(&'static str, Part)]) -> Words {
        let parts = parts.iter().map(|(name, part)| (*name, part.kept())).collect();
        Words(Box::new(Wording { key, is_way_out: false, parts }))
    }

    /// A text without variables.
    pub fn of(key: &'static str) -> Words {
        Words::new(key, &[])
    }

    /// Words of others, such as a library's: the same in every language.
    pub fn foreign(text: impl Into<String>) -> Words {
        Words::new("words-foreign", &[("text", text.into().into())])
    }

    /// The key of the text.
    pub fn key(&self) -> &'static str {
        self.0.key
    }

    /// The remedy that stands beside the text.
    #[must_use]
    pub fn way_out(&self) -> Words {
        Words(Box::new(Wording { is_way_out: true, ..(*self.0).clone() }))
    }

    /// The text in a language.
    pub fn shown(&self, language: Language) -> String {
        let Wording { key, is_way_out, parts } = &*self.0;
        match is_way_out {
            true => language.text(&format!("{key}.way-out"), parts),
            false => language.text(key, parts),
        }
    }
}

/// So that the cause of an error can be one of our own texts.
impl std::error::Error for Words {}

/// Text that is the same in every language: names, numbers, times.
impl From<&str> for Words {
    fn from(text: &str) -> Words {
        Words::foreign(text)
    }
}

impl From<String> for Words {
    fn from(text: String) -> Words {
        Words::foreign(text)
    }
}

/// English, the source language.
impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.shown(Language::English))
    }
}

impl Part<'_> {
    /// The same, kept for later.
    fn kept(&self) -> Part<'static> {
        match self {
            Part::Text(text) => Part::Text(Cow::Owned(text.clone().into_owned())),
            Part::Count(count) => Part::Count(*count),
            Part::Words(words) => Part::Words(words.clone()),
        }
    }
}

impl From<Words> for Part<'_> {
    fn from(words: Words) -> Self {
        Part::Words(words)
    }
}

impl From<&Words> for Part<'_> {
    fn from(words: &Words) -> Self {
        Part::Words(words.clone())
    }
}

impl<'a> From<&'a str> for Part<'a> {
    fn from(text: &'a str) -> Self {
        Part::Text(Cow::Borrowed(text))
    }
}

impl<'a> From<&'a String> for Part<'a> {
    fn from(text: &'a String) -> Self {
        Part::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Part<'_> {
    fn from(text: String) -> Self {
        Part::Text(Cow::Owned(text))
    }
}

impl From<usize> for Part<'_> {
    fn from(count: usize) -> Self {
        Part::Count(count)
    }
}

impl From<u32> for Part<'_> {
    fn from(count: u32) -> Self {
        Part::Count(usize::try_from(count).unwrap_or(usize::MAX))
    }
}

impl Language {
    /// Every language.
    pub const ALL: [Language; 4] =
        [Language::English, Language::Spanish, Language::LatinSpanish, Language::German];

    /// Its BCP 47 tag.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
            Language::LatinSpanish => "es-419",
            Language::German => "de",
        }
    }

    /// The language of a tag.
    pub fn of_tag(tag: &str) -> Option<Language> {
        Language::ALL.into_iter().find(|language| language.tag() == tag)
    }

    /// The language whose texts it has: a region has no texts of its own.
    pub fn texts(self) -> Language {
        match self {
            Language::LatinSpanish => Language::Spanish,
            other => other,
        }
    }

    /// The decimal sign (CLDR).
    pub fn decimal_sign(self) -> char {
        match self {
            Language::English | Language::LatinSpanish => '.',
            Language::Spanish | Language::German => ',',
        }
    }

    /// The numbers of a text with the decimal sign of the language. Only for texts in which each point
    /// between digits is a decimal sign: measures, limits, positions.
    pub fn decimals(self, text: &str) -> String {
        let sign = self.decimal_sign();
        let is_digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let mut said = String::with_capacity(text.len());
        let mut letters = text.chars().peekable();
        let mut before = None;
        while let Some(letter) = letters.next() {
            let is_sign = letter == '.' && is_digit(before) && is_digit(letters.peek().copied());
            said.push(if is_sign { sign } else { letter });
            before = Some(letter);
        }
        said
    }

    /// True for the source language, which a packet need not name.
    pub fn is_english(&self) -> bool {
        *self == Language::English
    }

    /// A text without variables.
    pub fn word(self, key: &'static str) -> &'static str {
        self.plain(key).unwrap_or(key)
    }

    /// The text of a key that has no variables; none when it has, or when there is no such key.
    pub(crate) fn plain(self, key: &str) -> Option<&'static str> {
        texts(self).plain.get(key).map(String::as_str)
    }

    /// A text whose variables are shown as they are `named`, for who explains the text itself.
    pub(crate) fn opened(self, key: &str, named: impl Fn(&str) -> String) -> String {
        let texts = texts(self);
        let Some(pattern) = texts.pattern(key) else { return key.to_owned() };
        // A variable without a value is written as `{$name}`.
        let text = texts.bundle.format_pattern(pattern, None, &mut Vec::new());
        let mut pieces = text.split("{$");
        let mut shown = pieces.next().unwrap_or_default().to_owned();
        for piece in pieces {
            let (name, rest) = piece.split_once('}').unwrap_or((piece, ""));
            shown += &named(name);
            shown += rest;
        }
        shown
    }

    /// A text with its variables put in. Attributes are named `key.attribute`.
    pub fn text(self, key: &str, parts: &[(&str, Part)]) -> String {
        let texts = texts(self);
        if let Some(plain) = texts.plain.get(key) {
            return plain.clone();
        }
        let mut args = FluentArgs::with_capacity(parts.len());
        for (name, part) in parts {
            match part {
                Part::Text(text) => args.set(*name, FluentValue::String(Cow::Borrowed(&**text))),
                Part::Count(count) => args.set(*name, FluentValue::from(*count)),
                Part::Words(words) => args.set(*name, FluentValue::from(words.shown(self))),
            }
        }
        let Some(pattern) = texts.pattern(key) else { return key.to_owned() };
        texts.bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()
    }
}

/// The texts of one language.
struct Texts {
    bundle: FluentBundle<FluentResource>,
    /// Texts without variables, formatted once: most are, and pages have thousands of them.
    plain: BTreeMap<String, String>,
}

impl Texts {
    fn pattern(&self, key: &str) -> Option<&Pattern<&str>> {
        match key.split_once('.') {
            None => self.bundle.get_message(key)?.value(),
            Some((key, attribute)) => {
                Some(self.bundle.get_message(key)?.get_attribute(attribute)?.value())
            }
        }
    }
}

/// The texts of a language, read when the first of them is asked for.
fn texts(language: Language) -> &'static Texts {
    static ENGLISH: LazyLock<Texts> = LazyLock::new(|| read(Language::English));
    static SPANISH: LazyLock<Texts> = LazyLock::new(|| read(Language::Spanish));
    static GERMAN: LazyLock<Texts> = LazyLock::new(|| read(Language::German));
    match language.texts() {
        Language::English => &ENGLISH,
        Language::Spanish | Language::LatinSpanish => &SPANISH,
        Language::German => &GERMAN,
    }
}

static FILES: Dir = include_dir!("$CARGO_MANIFEST_DIR/src/language");

/// Reads the texts of a language. They are part of the program: that they can be read is tested.
fn read(language: Language) -> Texts {
    let tag: LanguageIdentifier = language.tag().parse().expect("a tag of the table");
    let mut bundle = FluentBundle::new_concurrent(vec![tag]);
    // Marks around each variable would show as boxes in terminals and in printed digests.
    bundle.set_use_isolating(false);
    let mut keys = Vec::new();
    for (name, text) in files(language) {
        let resource = match FluentResource::try_new(text.to_owned()) {
            Ok(resource) => resource,
            Err((_, errors)) => panic!("{name}: {errors:?}"),
        };
        keys.extend(resource.entries().flat_map(keys_of));
        if let Err(errors) = bundle.add_resource(resource) {
            panic!("{name}: {errors:?}");
        }
    }
    let mut texts = Texts { bundle, plain: BTreeMap::new() };
    for key in keys {
        let Some(pattern) = texts.pattern(&key) else { continue };
        let mut errors = Vec::new();
        let text = texts.bundle.format_pattern(pattern, None, &mut errors).into_owned();
        if errors.is_empty() {
            texts.plain.insert(key, text);
        }
    }
    texts
}

/// Messages that have a remedy beside them, as topic and key, in the order in which they stand.
pub(crate) fn remedies() -> Vec<(&'static str, &'static str)> {
    let topic = |path: &'static str| path.rsplit('/').next()?.strip_suffix(".ftl");
    let mut found: Vec<_> = files(Language::English)
        .filter_map(|(path, text)| Some((topic(path)?, text)))
        .flat_map(|(topic, text)| remedied(text).into_iter().map(move |key| (topic, key)))
        .collect();
    found.sort_by_key(|(topic, _)| *topic);
    found
}

/// The keys of the messages of a text that have a remedy.
fn remedied(text: &'static str) -> Vec<&'static str> {
    let resource = fluent_syntax::parser::parse(text).unwrap_or_else(|(read, _)| read);
    let key = |entry| match entry {
        Entry::Message(message) => {
            let has = message.attributes.iter().any(|one| one.id.name == "way-out");
            has.then_some(message.id.name)
        }
        _ => None,
    };
    resource.body.into_iter().filter_map(key).collect()
}

/// The files of a language: path and text.
fn files(language: Language) -> impl Iterator<Item = (&'static str, &'static str)> {
    let folder = FILES.get_dir(language.tag()).into_iter().flat_map(Dir::files);
    folder.map(|file| {
        let name = file.path().to_str().unwrap_or_default();
        (name, file.contents_utf8().expect("texts are UTF-8"))
    })
}

/// The keys of a message: its own, and `key.attribute` for each attribute.
fn keys_of(entry: &Entry<&str>) -> Vec<String> {
    let Entry::Message(message) = entry else { return Vec::new() };
    let key = message.id.name;
    let attributes = message.attributes.iter().map(|one| format!("{key}.{}", one.id.name));
    message.value.iter().map(|_| key.to_owned()).chain(attributes).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};
    use std::path::Path;

    use super::{Language, files};

    /// Languages that have texts of their own.
    const WRITTEN: [Language; 3] = [Language::English, Language::Spanish, Language::German];

    /// The variables of each key, read from the text: a second look, by other means than the library.
    fn variables(language: Language) -> BTreeMap<String, BTreeSet<String>> {
        let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        let mut key = String::new();
        let mut own = String::new();
        for (name, text) in files(language) {
            for line in text.lines().filter(|line| !line.starts_with('#')) {
                if let Some((head, _)) = line.split_once('=').filter(|_| !line.starts_with(' ')) {
                    own = head.trim().to_owned();
                    key = own.clone();
                    assert!(!found.contains_key(&key), "{name}: {key} stands twice");
                    found.entry(key.clone()).or_default();
                } else if let Some((head, _)) = line
                    .trim_start()
                    .strip_prefix('.')
                    .filter(|_| line.starts_with(' '))
                    .and_then(|line| line.split_once('='))
                {
                    key = format!("{own}.{}", head.trim());
                    found.entry(key.clone()).or_default();
                }
                for part in line.split('$').skip(1) {
                    let is_name = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
                    let end = part.find(|c| !is_name(c)).unwrap_or(part.len());
                    found.entry(key.clone()).or_default().insert(part[..end].to_owned());
                }
            }
        }
        found
    }

    #[test]
    fn every_language_has_the_same_texts_with_the_same_variables() {
        let english = variables(Language::English);
        assert!(english.len() > 5, "{}", english.len());
        for language in WRITTEN {
            let own = variables(language);
            let keys = |map: &BTreeMap<String, BTreeSet<String>>| -> BTreeSet<String> {
                map.keys().cloned().collect()
            };
            let (ours, theirs) = (keys(&english), keys(&own));
            let lacking: Vec<_> = ours.symmetric_difference(&theirs).collect();
            assert!(lacking.is_empty(), "{}: {lacking:?}", language.tag());
            for (key, names) in &english {
                assert_eq!(names, &own[key], "{}: {key}", language.tag());
            }
        }
    }

    #[test]
    fn every_text_can_be_read_and_none_is_empty() {
        for language in WRITTEN {
            for key in variables(language).keys() {
                let text = language.text(key, &[]);
                assert!(!text.is_empty() && text != *key, "{}: {key}", language.tag());
            }
        }
    }

    /// The text of every source and template, without spaces.
    #[allow(clippy::disallowed_methods, reason = "the test reads the sources")]
    fn sources() -> Vec<String> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut texts = Vec::new();
        let mut folders = vec![root.join("src"), root.join("site")];
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                match path.extension().and_then(|name| name.to_str()) {
                    _ if path.is_dir() => folders.push(path),
                    Some("rs" | "html") => {
                        let text = std::fs::read_to_string(&path).unwrap();
                        texts.push(text.split_whitespace().collect());
                    }
                    _ => {}
                }
            }
        }
        texts
    }

    fn is_key(word: &str) -> bool {
        let may_stand = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-.".contains(c);
        word.contains('-')
            && word.starts_with(|c: char| c.is_ascii_lowercase())
            && word.chars().all(may_stand)
    }

    /// What stands in quotes after one of the ways to name a key.
    fn named(text: &str) -> impl Iterator<Item = &str> {
        let ways = [
            "word(\"",
            "text(\"",
            "t(key=\"",
            "th(key=\"",
            "Words::of(\"",
            "Words::new(\"",
            "Refusal::new(\"",
            "Failure::at(\"",
            "FileError::new(\"",
            "self.error(\"",
            "self.warning(\"",
        ];
        let after = move |way: &'static str| text.split(way).skip(1);
        let keys = ways.into_iter().flat_map(after).filter_map(|part| part.split('"').next());
        keys.filter(|key| is_key(key))
    }

    #[test]
    fn every_key_that_is_named_exists() {
        let english = variables(Language::English);
        let sources = sources();
        let used: BTreeSet<&str> = sources.iter().flat_map(|text| named(text)).collect();
        let lacking: Vec<_> = used.iter().filter(|key| !english.contains_key(**key)).collect();
        assert!(lacking.is_empty(), "{lacking:?}");
        assert!(used.contains("locks-on"));
    }

    /// Beginnings of keys that are put together from parts when they are used.
    const PUT_TOGETHER: [&str; 3] = ["language-", "signs-", "rules-why-"];

    /// A remedy and a reason belong to their message; every other text has its key in quotes somewhere.
    #[test]
    fn every_text_is_used() {
        let sources = sources();
        let words: BTreeSet<&str> = sources.iter().flat_map(|text| text.split('"')).collect();
        let is_used = |key: &str| {
            let key = key.strip_suffix(".way-out").unwrap_or(key);
            let key = key.strip_suffix(".why").unwrap_or(key);
            words.contains(key) || PUT_TOGETHER.iter().any(|start| key.starts_with(start))
        };
        let english = variables(Language::English);
        let unused: Vec<_> = english.keys().filter(|key| !is_used(key)).collect();
        assert!(unused.is_empty(), "{unused:?}");
    }

    #[test]
    fn decimals_follow_the_language() {
        let text = "-28.0 mm (2.205 in)...";
        assert_eq!(Language::English.decimals(text), text);
        assert_eq!(Language::LatinSpanish.decimals(text), text);
        assert_eq!(Language::Spanish.decimals(text), "-28,0 mm (2,205 in)...");
        assert_eq!(Language::German.decimals("fertig. 5"), "fertig. 5");
    }

    #[test]
    fn plurals_follow_the_language() {
        let steps =
            |language: Language, n: usize| language.text("count-steps", &[("count", n.into())]);
        assert_eq!(steps(Language::English, 1), "1 step");
        assert_eq!(steps(Language::English, 2), "2 steps");
        assert_eq!(steps(Language::Spanish, 1), "1 paso");
        assert_eq!(steps(Language::LatinSpanish, 3), "3 pasos");
        assert_eq!(steps(Language::German, 0), "0 Schritte");
    }

    #[test]
    fn what_is_put_in_is_never_read_as_a_pattern() {
        let shown = Language::English
            .text("count-of", &[("what", "{ $x } \u{202e}".into()), ("count", 2usize.into())]);
        assert_eq!(shown, "{ $x } \u{202e}: 2");
    }
}
