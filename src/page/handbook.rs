//! The handbook: chapters in Markdown, a page for each command and one for each rule of a finding.
//!
//! The chapters stand in `site/handbook/`, in English, and read well in any viewer: a link names the
//! file (`signing.md#keys`), and becomes the page. What the program knows itself is not written down
//! a second time: commands come from their help, rules from the texts of the findings. Must never
//! need a plant: the handbook is the same everywhere.

mod keys;
mod markup;
mod rules;

use std::collections::BTreeSet;

use serde::Serialize;
use serde_json::Value;

use super::site::{Link, SearchEntry, SearchGroup};
use super::{PAGES_CSS, SEARCH_JS, SITE_CSS, render};
use crate::language::Language;
use keys::Keys;
use markup::{Chapter, Section};
pub use rules::rule_names;
use rules::{Rule, rules};

/// What the handbook's pages add to those of a site.
pub(crate) const HANDBOOK_CSS: &str = include_str!("../../site/assets/handbook.css");

/// The folder of the handbook in a site.
pub const FOLDER: &str = "handbook";
/// Its first page, from its root.
pub const START: &str = "index.html";

const COMMANDS: &str = "commands.html";
const RULES: &str = "findings/index.html";
const KEYS: &str = "keys/index.html";
const SEARCH: &str = "search.html";

macro_rules! chapters {
    ($($name:literal)*) => {
        [$(($name, include_str!(concat!("../../site/handbook/", $name, ".md")))),*]
    };
}

/// A part of the handbook: its name, and its chapters in the order in which they are read.
type Part = (&'static str, &'static [(&'static str, &'static str)]);

const PARTS: [Part; 6] = [
    ("Begin", &chapters!["first-plant" "limits"]),
    (
        "Write",
        &chapters!["files" "quantities" "layouts" "instruments" "procedures" "reuse" "edit" "import" "redline" "writing" "languages"],
    ),
    ("Keep safe", &chapters!["safety" "lockout" "groups" "hazards"]),
    ("Plan the shift", &chapters!["shift" "order-of-jobs" "stop" "crew"]),
    ("Print, fill in, sign", &chapters!["paper" "tablet" "signing" "approvals"]),
    ("Prove and look up", &chapters!["proof" "history" "troubleshooting" "words"]),
];

/// Chapters about what can hurt people: each begins with who comes before this program.
pub const SAFETY: [&str; 8] =
    ["first-plant", "limits", "safety", "lockout", "groups", "hazards", "stop", "crew"];

/// A command and its help.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Command {
    /// Its name.
    pub name: String,
    /// What it does, in one sentence.
    pub does: String,
    /// Its help, as the terminal shows it.
    pub help: String,
}

/// What the program knows of itself.
#[derive(Debug, Default)]
pub struct Known {
    /// Every command.
    pub commands: Vec<Command>,
    /// Every file people write: name and JSON Schema.
    pub schemas: Vec<(&'static str, Value)>,
}

/// What a template of the handbook gets.
#[derive(Serialize)]
struct Page<V> {
    v: V,
    /// From this page to the handbook's root.
    root: &'static str,
    /// From the handbook's root to the plant's site around it; empty when it stands alone.
    home: &'static str,
    title: String,
    section: &'static str,
    /// Whether the title is a name of the program's own: a rule.
    is_code: bool,
    /// Whether the page begins with who comes before this program.
    is_safety: bool,
}

/// Every file of the handbook: path from its root, contents. `home` is the way from there to the
/// start page of a site around it, and empty when there is none.
pub fn files(known: &Known, home: &'static str) -> Vec<(String, String)> {
    let keys = known.schemas.iter().map(|(name, schema)| keys::read(name, schema)).collect();
    let book = Book { home, commands: &known.commands, rules: rules(), keys };
    let mut files = vec![
        (START.to_owned(), book.start()),
        (COMMANDS.to_owned(), book.commands()),
        (RULES.to_owned(), book.rule_list()),
        (KEYS.to_owned(), book.key_list()),
        (SEARCH.to_owned(), book.search()),
    ];
    let chapters = all();
    files.extend(chapters.iter().enumerate().map(|(index, (name, text))| {
        let before = index.checked_sub(1).and_then(|before| chapters.get(before));
        (page_of(name), book.chapter(name, text, before, chapters.get(index + 1)))
    }));
    files.extend(book.rules.iter().map(|rule| (rule.page(), book.rule(rule))));
    files.extend(book.keys.iter().map(|keys| (keys.page(), book.keys_of(keys))));
    let assets = [
        ("assets/site.css", SITE_CSS),
        ("assets/pages.css", PAGES_CSS),
        ("assets/handbook.css", HANDBOOK_CSS),
        ("assets/search.js", SEARCH_JS),
    ];
    files.extend(assets.map(|(path, text)| (path.to_owned(), text.to_owned())));
    files
}

/// The chapters in their order: name and text.
fn all() -> Vec<(&'static str, &'static str)> {
    PARTS.iter().flat_map(|(_, chapters)| chapters.iter().copied()).collect()
}

fn page_of(chapter: &str) -> String {
    format!("{chapter}.html")
}

struct Book<'a> {
    home: &'static str,
    commands: &'a [Command],
    rules: Vec<Rule>,
    keys: Vec<Keys>,
}

impl Book<'_> {
    fn page<V: Serialize>(&self, title: &str, section: &'static str, v: V) -> Page<V> {
        let root = if section.contains('/') { "../" } else { "" };
        let title = title.to_owned();
        Page { v, root, home: self.home, title, section, is_code: false, is_safety: false }
    }

    fn read(&self, text: &str) -> Chapter {
        markup::read(text, &self.rules.iter().map(|rule| &*rule.name).collect())
    }

    fn start(&self) -> String {
        let view = ContentsView { parts: PARTS.iter().map(|part| self.contents(part)).collect() };
        show("handbook-start.html", &self.page("Handbook", START, view))
    }

    fn contents(&self, (name, chapters): &Part) -> Contents {
        let chapters = chapters.iter().map(|(name, text)| {
            let chapter = self.read(text);
            Entry { link: Link::new(chapter.title, page_of(name)), about: chapter.about }
        });
        Contents { name, chapters: chapters.collect() }
    }

    fn chapter(
        &self,
        name: &str,
        text: &str,
        before: Option<&(&str, &str)>,
        after: Option<&(&str, &str)>,
    ) -> String {
        let beside = |beside: Option<&(&str, &str)>| match beside {
            Some((name, text)) => Link::new(self.read(text).title, page_of(name)),
            None => Link::default(),
        };
        let chapter = self.read(text);
        let title = chapter.title.clone();
        let view = ChapterView { chapter, before: beside(before), after: beside(after) };
        let mut page = self.page(&title, "", view);
        page.is_safety = SAFETY.contains(&name);
        show("handbook-chapter.html", &page)
    }

    fn commands(&self) -> String {
        show("handbook-commands.html", &self.page("Commands", COMMANDS, self.commands))
    }

    fn rule_list(&self) -> String {
        let topics: BTreeSet<&str> = self.rules.iter().map(|rule| &*rule.topic).collect();
        let of = |topic| self.rules.iter().filter(move |rule| rule.topic == topic);
        let view: Vec<RuleTopic> =
            topics.into_iter().map(|topic| (topic, of(topic).collect())).collect();
        show("handbook-rules.html", &self.page("Findings", RULES, view))
    }

    fn rule(&self, rule: &Rule) -> String {
        let named =
            all().into_iter().filter(|(_, text)| text.contains(&format!("`{}`", rule.name)));
        let named = named.map(|(name, text)| Link::new(self.read(text).title, page_of(name)));
        let view = RuleView { rule, named: named.collect() };
        let mut page = self.page(&rule.name, RULES, view);
        page.is_code = true;
        show("handbook-rule.html", &page)
    }

    fn key_list(&self) -> String {
        show("handbook-files.html", &self.page("Keys of every file", KEYS, &self.keys))
    }

    fn keys_of(&self, keys: &Keys) -> String {
        let mut page = self.page(&keys.file, KEYS, keys);
        page.is_code = true;
        show("handbook-keys.html", &page)
    }

    fn search(&self) -> String {
        let group = |name: &str, entries| SearchGroup::new(name, entries);
        let chapters = all().into_iter().flat_map(|(name, text)| self.places(name, text));
        let commands = self.commands.iter().map(|command| {
            let link = Link::new(&*command.name, format!("{COMMANDS}#{}", command.name));
            SearchEntry { link, words: command.does.clone(), also: Vec::new() }
        });
        let rules = self.rules.iter().map(|rule| {
            let link = Link::new(&*rule.name, rule.page());
            SearchEntry { link, words: rule.message.clone(), also: Vec::new() }
        });
        let keys = self.keys.iter().flat_map(Keys::places);
        let groups = vec![
            group("Chapters", chapters.collect()),
            group("Keys", keys.collect()),
            group("Commands", commands.collect()),
            group("Findings", rules.collect()),
        ];
        show("handbook-search.html", &self.page("Search", SEARCH, groups))
    }

    /// A chapter and its sections, each with the words by which it is found.
    fn places(&self, name: &str, text: &str) -> Vec<SearchEntry> {
        let chapter = self.read(text);
        let page = page_of(name);
        let whole = SearchEntry {
            link: Link::new(&*chapter.title, &*page),
            words: chapter.about,
            also: Vec::new(),
        };
        let sections = chapter.sections.into_iter().map(|Section { id, title, words }| {
            let link = Link::new(format!("{}: {title}", chapter.title), format!("{page}#{id}"));
            SearchEntry { link, words, also: Vec::new() }
        });
        std::iter::once(whole).chain(sections).collect()
    }
}

/// Rules that stand in one file of texts.
type RuleTopic<'a> = (&'a str, Vec<&'a Rule>);

#[derive(Serialize)]
struct ContentsView {
    parts: Vec<Contents>,
}

#[derive(Serialize)]
struct Contents {
    name: &'static str,
    chapters: Vec<Entry>,
}

#[derive(Serialize)]
struct Entry {
    link: Link,
    about: String,
}

#[derive(Serialize)]
struct ChapterView {
    chapter: Chapter,
    before: Link,
    after: Link,
}

#[derive(Serialize)]
struct RuleView<'a> {
    rule: &'a Rule,
    /// The chapters that speak of it.
    named: Vec<Link>,
}

fn show<V: Serialize>(template: &str, page: &Page<V>) -> String {
    render(Language::English, template, page)
}

#[cfg(test)]
mod tests {
    use super::{Known, SAFETY, all, files};

    #[test]
    #[allow(clippy::disallowed_methods, reason = "the test reads the folder of the chapters")]
    fn every_chapter_that_was_written_is_in_the_handbook() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/site/handbook");
        let names = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name());
        let names = names.filter_map(|name| name.to_str()?.strip_suffix(".md").map(str::to_owned));
        let mut written: Vec<String> = names.collect();
        let mut listed: Vec<String> = all().iter().map(|(name, _)| (*name).to_owned()).collect();
        written.sort();
        listed.sort();
        assert_eq!(written, listed);
    }

    #[test]
    fn chapters_about_danger_begin_with_who_comes_first() {
        let files = files(&Known::default(), "");
        for name in SAFETY {
            let page = files.iter().find(|(path, _)| *path == format!("{name}.html"));
            let (_, html) = page.unwrap_or_else(|| panic!("{name} is a chapter"));
            let (head, _) = html.split_once("<h2").unwrap();
            assert!(head.contains("come first"), "{name}");
        }
    }
}
