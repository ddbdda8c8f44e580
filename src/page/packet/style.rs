//! The style of a page that is one file: only the rules it needs, without comments and indentation.
//!
//! A rule is left out when it names a class that stands nowhere on the page, so that the style sheets
//! of the whole site can be handed in. Reads style sheets of this program only: comments, rules and
//! one level of `@media` around them.

use std::collections::BTreeSet;

use crate::page::proof;

/// A style sheet taken apart, its blanks gone: each page only chooses.
pub(crate) struct Sheet(Vec<Rule>);

enum Rule {
    /// Kept on every page.
    Page(String),
    /// `@media` with the rules inside.
    Media(String, Sheet),
    /// Selectors and what they set.
    Plain(Vec<Selector>, String),
}

/// A selector with the classes that must stand on a page for it to find anything.
struct Selector {
    text: String,
    needs: Vec<String>,
}

/// Puts style sheets into a page that has an empty `<style>` and an empty `style-src ''`.
///
/// Both stand before any text that people wrote, which cannot hold either: it is escaped.
pub(crate) fn put(page: &str, sheets: &[&Sheet]) -> String {
    let classes = classes(page);
    let mut lean = String::new();
    for sheet in sheets {
        sheet.choose(&classes, &mut lean);
    }
    let hash = format!("style-src '{}'", proof::style_hash(&lean));
    let page = page.replacen("style-src ''", &hash, 1);
    page.replacen("<style></style>", &format!("<style>{lean}</style>"), 1)
}

/// Every class that an element of the page has.
fn classes(page: &str) -> BTreeSet<&str> {
    let lists = page.split("class=\"").skip(1).filter_map(|rest| rest.split('"').next());
    // One by one: collecting would sort thousands of names of which a hundred differ.
    let mut classes = BTreeSet::new();
    for class in lists.flat_map(str::split_ascii_whitespace) {
        classes.insert(class);
    }
    classes
}

impl Sheet {
    /// Takes a style sheet apart.
    pub(crate) fn read(text: &str) -> Sheet {
        let plain = without_comments(text);
        Sheet(rules(&plain).into_iter().map(|(head, body)| Rule::read(head, body)).collect())
    }

    /// Adds the rules for these classes only.
    fn choose(&self, classes: &BTreeSet<&str>, out: &mut String) {
        for rule in &self.0 {
            rule.choose(classes, out);
        }
    }
}

impl Rule {
    fn read(head: &str, body: &str) -> Rule {
        if head.starts_with("@page") {
            Rule::Page(tight(&format!("{head}{{{}}}", body.trim())))
        } else if head.starts_with('@') {
            Rule::Media(tight(head), Sheet::read(body))
        } else {
            let selectors = head.split(',').map(|one| Selector::read(tight(one.trim())));
            Rule::Plain(selectors.collect(), tight(body.trim()))
        }
    }

    fn choose(&self, classes: &BTreeSet<&str>, out: &mut String) {
        match self {
            Rule::Page(whole) => out.push_str(whole),
            Rule::Media(head, sheet) => {
                let mut inner = String::new();
                sheet.choose(classes, &mut inner);
                if !inner.is_empty() {
                    out.extend([head, "{", &inner, "}"]);
                }
            }
            Rule::Plain(selectors, body) => {
                let mut between = "";
                for selector in selectors.iter().filter(|one| one.finds(classes)) {
                    out.extend([between, &selector.text]);
                    between = ",";
                }
                if !between.is_empty() {
                    out.extend(["{", body, "}"]);
                }
            }
        }
    }
}

impl Selector {
    fn read(text: String) -> Selector {
        let is_name = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        let mut parts = text.split(":not(");
        let first = parts.next().unwrap_or_default();
        // What must not be there need not be there.
        let rest = parts.filter_map(|part| part.split_once(')')).map(|(_, after)| after);
        let needs = std::iter::once(first)
            .chain(rest)
            .flat_map(|part| part.split('.').skip(1))
            .map(|rest| rest.split(|c| !is_name(c)).next().unwrap_or_default().to_owned())
            .collect();
        Selector { text, needs }
    }

    fn finds(&self, classes: &BTreeSet<&str>) -> bool {
        self.needs.iter().all(|name| classes.contains(name.as_str()))
    }
}

/// Each rule as what stands before its braces and what stands inside.
fn rules(sheet: &str) -> Vec<(&str, &str)> {
    let mut rules = Vec::new();
    let mut rest = sheet;
    while let Some((head, after)) = rest.split_once('{') {
        let end = closing(after);
        let (body, after) = after.split_at(end);
        rules.push((head.trim(), body));
        rest = after.strip_prefix('}').unwrap_or(after);
    }
    rules
}

/// Where the brace stands that closes what is open already.
fn closing(text: &str) -> usize {
    let mut depth = 1_usize;
    for (at, c) in text.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return at;
        }
    }
    text.len()
}

fn without_comments(sheet: &str) -> String {
    let mut pieces = sheet.split("/*");
    let first = pieces.next().unwrap_or_default().to_owned();
    pieces.fold(first, |out, piece| out + piece.split_once("*/").map_or("", |(_, after)| after))
}

/// Without blanks that mean nothing; what stands in quotes stays.
fn tight(text: &str) -> String {
    let pieces = text.split('"').enumerate().map(|(index, piece)| match index % 2 {
        0 => tight_plain(piece),
        _ => piece.to_owned(),
    });
    pieces.collect::<Vec<String>>().join("\"")
}

fn tight_plain(text: &str) -> String {
    let lead = text.starts_with(char::is_whitespace);
    let trail = text.ends_with(char::is_whitespace);
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut out = words.join(" ");
    for (long, short) in [
        ("; ", ";"),
        (": ", ":"),
        (", ", ","),
        (" {", "{"),
        ("{ ", "{"),
        (" }", "}"),
        (";}", "}"),
        ("} ", "}"),
        (" > ", ">"),
    ] {
        out = out.replace(long, short);
    }
    // Beside a quoted text a blank may part two values.
    let out = out.trim_end_matches(';');
    format!("{}{out}{}", if lead { " " } else { "" }, if trail { " " } else { "" })
}

#[cfg(test)]
mod tests {
    use super::{Sheet, classes, put};

    #[track_caller]
    fn check(sheet: &str, expected: &str) {
        let page = "<p class=\"a b\"></p><i class=\"c-d\"></i>";
        let mut lean = String::new();
        Sheet::read(sheet).choose(&classes(page), &mut lean);
        assert_eq!(lean, expected, "{sheet}");
    }

    #[test]
    fn a_rule_stays_when_all_its_classes_are_on_the_page() {
        check(".a { x: y; }", ".a{x:y}");
        check(".a .c-d > p, .a .z { x: y; }", ".a .c-d>p{x:y}");
        check(".z { x: y; } p:not(.z) { x: y; }", "p:not(.z){x:y}");
        check(".c { x: y; }", "");
        check(".a:not(.z).z { x: y; }", "");
    }

    #[test]
    fn rules_within_media_are_looked_at_too() {
        check("@media print { .a { x: y; } .z { x: y; } }", "@media print{.a{x:y}}");
        check("@media (min-width: 48rem) { .z { x: y; } }", "");
        check("@media print { @page { margin: 1mm; } }", "@media print{@page{margin:1mm}}");
    }

    #[test]
    fn comments_and_blanks_go_and_quoted_texts_stay() {
        check("/* a { } */ .a { b: calc(1px + 2px);\n  c: d e; }", ".a{b:calc(1px + 2px);c:d e}");
        check(".a::before { content: \"a: b; \"; }", ".a::before{content: \"a: b; \"}");
        check(".a { font: 1pt Arial, \"B C\", D; }", ".a{font:1pt Arial, \"B C\",D}");
    }

    #[test]
    fn the_policy_of_the_page_allows_this_style_alone() {
        let page = put(
            "style-src '' <style></style> <b class=\"a\"> <style></style>",
            &[&Sheet::read(".a{x:y}")],
        );
        assert!(page.contains("<style>.a{x:y}</style> <b class=\"a\"> <style></style>"), "{page}");
        assert!(page.starts_with("style-src 'sha256-"), "{page}");
    }
}
