//! Where used: what is used nowhere, what is likely the same, and a list for each kind of thing.
//!
//! The lists are paged and each thing shows its first uses only, so that a page stays small whatever the
//! size of the plant; `where-used` prints all of them.

use serde::Serialize;

use super::start::first;
use super::{Frame, Link, Page};
use crate::page::paths;

/// Things on one page of a list.
const A_PAGE: usize = 50;
/// Places and jobs that are shown of a thing.
pub const USES_SHOWN: usize = 12;
/// Things used nowhere, and questions, that the first page shows.
pub const UNUSED_SHOWN: usize = 200;

/// A place where a thing stands or is used.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct UseSpot {
    /// Who: machine, recipe, step.
    pub who: Link,
    /// File and line.
    pub place: String,
    /// What else the reader must know of it; mostly empty.
    pub note: String,
}

/// Places or jobs, and how many more there are.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct First<T> {
    /// The first of them.
    pub list: Vec<T>,
    /// How many more there are.
    pub more: usize,
}

impl<T> Default for First<T> {
    fn default() -> Self {
        First { list: Vec::new(), more: 0 }
    }
}

/// A thing with what uses it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct UsedThing {
    /// Identifier, or the name by which steps call it.
    pub id: String,
    /// Names for people.
    pub names: Vec<String>,
    /// Where it stands.
    pub stands: First<UseSpot>,
    /// What uses it.
    pub uses: First<UseSpot>,
    /// Open jobs that use it.
    pub jobs: First<Link>,
}

/// The things of one kind.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct UsesKind {
    /// The kind as a heading.
    pub name: String,
    /// The kind in links.
    pub slug: String,
    /// Its things.
    pub things: Vec<UsedThing>,
}

/// A thing that is used nowhere.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct UnusedLine {
    /// Kind and identifier.
    pub what: String,
    /// Its name for people; may be empty.
    pub name: String,
    /// File and line.
    pub place: String,
}

/// Everything that is used, and what is not.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct UsesView {
    /// Frame.
    pub frame: Frame,
    /// What the plant wrote and nothing uses.
    pub unused: Vec<UnusedLine>,
    /// What ships with the program and nothing here uses.
    pub shipped: Vec<String>,
    /// Names that are likely the same thing, a group a line.
    pub same: Vec<String>,
    /// Everything by kind.
    pub kinds: Vec<UsesKind>,
}

/// What the first page shows.
#[derive(Serialize)]
struct Start<'a> {
    frame: &'a Frame,
    unused: &'a [UnusedLine],
    more_unused: usize,
    same: &'a [String],
    more_same: usize,
    shipped: &'a [String],
    kinds: Vec<Counted>,
}

/// A kind, its list, and how many things it has.
#[derive(Serialize)]
struct Counted {
    link: Link,
    count: usize,
}

/// One page of a list.
#[derive(Serialize)]
struct Listed<'a> {
    frame: &'a Frame,
    things: &'a [UsedThing],
    pages: Vec<Link>,
    here: String,
}

/// All pages: the first for [`paths::USES`], the lists for [`paths::uses`].
pub fn uses_pages(view: &UsesView) -> Vec<(String, String)> {
    let lists = view.kinds.iter().flat_map(|kind| list_pages(&view.frame, kind));
    [(paths::USES.to_owned(), start_html(view))].into_iter().chain(lists).collect()
}

fn start_html(view: &UsesView) -> String {
    let (unused, more_unused) = first(&view.unused, UNUSED_SHOWN);
    let (same, more_same) = first(&view.same, UNUSED_SHOWN);
    let counted = |kind: &UsesKind| Counted {
        link: Link::new(&kind.name, paths::uses(&kind.slug, 1)),
        count: kind.things.len(),
    };
    let kinds = view.kinds.iter().map(counted).collect();
    let (frame, shipped) = (&view.frame, view.shipped.as_slice());
    let start = Start { frame, unused, more_unused, same, more_same, shipped, kinds };
    let title = frame.language.word("uses-title");
    Page::new(frame, &start, title, paths::USES).html("uses.html")
}

fn list_pages(frame: &Frame, kind: &UsesKind) -> Vec<(String, String)> {
    let count = kind.things.len().div_ceil(A_PAGE);
    let link = |number: usize| Link::new(number.to_string(), paths::uses(&kind.slug, number));
    let pages = || if count > 1 { (1..=count).map(link).collect() } else { Vec::new() };
    let page = |(number, things): (usize, &[UsedThing])| {
        let here = paths::uses(&kind.slug, number);
        let listed = Listed { frame, things, pages: pages(), here: here.clone() };
        let title = match number {
            1 => kind.name.clone(),
            _ => format!("{} ({number}/{count})", kind.name),
        };
        let page = Page::new(frame, &listed, &title, paths::USES).under("uses-title");
        (here, page.html("uses-list.html"))
    };
    (1..).zip(kind.things.chunks(A_PAGE)).map(page).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thing(number: usize) -> UsedThing {
        let spot = |at: usize| UseSpot {
            who: Link::new(
                "holder-exchange, step \"Slide each holder to its mark on the rail\"",
                paths::procedure("holder-exchange"),
            ),
            place: format!("instructions/holder-exchange.md:{at}"),
            note: String::new(),
        };
        let spots = || First { list: (0..USES_SHOWN).map(spot).collect(), more: 4800 };
        let job = |at: usize| Link::new(format!("SM-{at:04}"), paths::job(&format!("SM-{at:04}")));
        UsedThing {
            id: format!("thing-{number:05}"),
            names: vec!["Rail caliper 400 mm".to_owned()],
            stands: spots(),
            uses: spots(),
            jobs: First { list: (0..USES_SHOWN).map(job).collect(), more: 900 },
        }
    }

    #[test]
    fn ten_thousand_things_are_on_pages_that_stay_small() {
        let things: Vec<UsedThing> = (0..10_000).map(thing).collect();
        let kind = UsesKind { name: "Tools".into(), slug: "tool".into(), things };
        let line = UnusedLine { what: "tool x".repeat(9), ..UnusedLine::default() };
        let view = UsesView {
            unused: vec![line; 5000],
            same: vec!["tool: \"a\", \"b\"".to_owned(); 5000],
            kinds: vec![kind],
            ..UsesView::default()
        };
        let pages = uses_pages(&view);
        assert_eq!(pages.len(), 1 + 10_000_usize.div_ceil(A_PAGE));
        for (path, page) in &pages {
            assert!(page.len() < 300_000, "{path}: {}", page.len());
            assert!(!page.contains("<script"));
        }
        assert!(pages[0].1.contains("uses-tool.html") && pages[1].1.contains("uses-tool-2.html"));
    }
}
