//! Search: one plain list of all pages by kind, with the words by which people look for them.
//!
//! The list is read and searched without any script; `assets/search.js` only hides what does not
//! match. Must never grow with the years without bound: the oldest jobs are left to the lists of jobs.

use serde::Serialize;

use super::{Frame, Link, Page};
use crate::page::paths;

/// Bytes that the jobs may take, about; with everything else the page stays below 300 kB.
const JOB_BYTES: usize = 180_000;

/// The list of all pages.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SearchView {
    /// Frame.
    pub frame: Frame,
    /// Pages by kind.
    pub groups: Vec<SearchGroup>,
}

/// Pages of one kind.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SearchGroup {
    /// The kind.
    pub name: String,
    /// The pages.
    pub entries: Vec<SearchEntry>,
    /// How many more there are.
    pub left: usize,
}

/// A page, and the words by which it is found.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SearchEntry {
    /// The page.
    pub link: Link,
    /// Identifiers, names, orders, titles.
    pub words: String,
    /// Other pages of the same thing.
    pub also: Vec<Link>,
}

impl SearchEntry {
    /// About the bytes it takes on the page.
    fn size(&self) -> usize {
        const MARKUP: usize = 60;
        let link = |link: &Link| MARKUP + link.text.len() + link.href.len();
        link(&self.link) + MARKUP + self.words.len() + self.also.iter().map(link).sum::<usize>()
    }
}

impl SearchGroup {
    /// A group with everything.
    pub fn new(name: &str, entries: Vec<SearchEntry>) -> SearchGroup {
        SearchGroup { name: name.to_owned(), entries, left: 0 }
    }

    /// A group of jobs, the latest first: so many as the page has room for.
    pub fn of_jobs(name: &str, mut entries: Vec<SearchEntry>) -> SearchGroup {
        let all = entries.len();
        let mut bytes = 0;
        let fits = |entry: &SearchEntry| {
            bytes += entry.size();
            bytes <= JOB_BYTES
        };
        let count = entries.iter().map(fits).take_while(|fits| *fits).count();
        entries.truncate(count);
        SearchGroup { name: name.to_owned(), entries, left: all - count }
    }
}

/// The search page, for [`paths::SEARCH`].
pub fn search_html(view: &SearchView) -> String {
    let title = view.frame.language.word("search-title");
    Page::new(&view.frame, view, title, paths::SEARCH).html("search.html")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_has_room_for_so_many_jobs_and_says_how_many_it_leaves_out() {
        let entry = |number: usize| SearchEntry {
            link: Link::new(format!("J-{number}"), paths::job(&format!("J-{number}"))),
            words: "Sea salt, 23 mm sachet & more <b> ".repeat(4),
            also: Vec::new(),
        };
        let jobs = SearchGroup::of_jobs("Jobs", (0..2000).map(entry).collect());
        assert!(jobs.entries.len() > 300 && jobs.entries.len() + jobs.left == 2000);
        let page = search_html(&SearchView { groups: vec![jobs.clone()], ..SearchView::default() });
        assert!(page.len() < 250_000, "{}", page.len());
        assert!(page.contains(&format!("{} older jobs", jobs.left)));
    }

    #[test]
    fn the_script_is_small_and_the_only_one() {
        let page = search_html(&SearchView::default());
        assert_eq!(page.matches("<script").count(), 1);
        assert!(page.contains("<script src=\"assets/search.js\" defer></script>"));
        assert!(page.contains("script-src 'self'"));
        assert!(crate::page::SEARCH_JS.len() < 3_000);
    }
}
