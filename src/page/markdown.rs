//! Markdown of a step to HTML, with values put in.
//!
//! A procedure is text from a person, not trusted markup: raw HTML is shown as text, pictures are
//! shown as their words, and a link survives only when it leads to an ordinary address.

use std::collections::BTreeMap;

use pulldown_cmark::{
    Alignment, CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, TextMergeStream, html,
};

use super::words;
use crate::language::Language;

/// How many levels a heading inside a step goes down: the step's own title is an `h3`.
const HEADING_SHIFT: usize = 3;

/// Turns Markdown into HTML that is safe to put into a page.
///
/// `{{ name }}` in text (not in code) becomes the value of that name; a name without a value stays
/// as it was written. Numbers of values follow the language, the text around them stays.
pub fn to_html(text: &str, values: &BTreeMap<String, String>, language: Language) -> String {
    let events = TextMergeStream::new(Parser::new_ext(text, Options::ENABLE_TABLES));
    let mut tame = Tame::default();
    let safe =
        events.flat_map(|event| tame.event(event)).flat_map(|event| fill(event, values, language));
    let mut page = String::new();
    html::push_html(&mut page, safe);
    page
}

/// Takes out of the stream what a page must not have.
#[derive(Default)]
struct Tame {
    /// Whether each open link was kept, innermost last; its end must follow its start.
    links: Vec<bool>,
}

impl Tame {
    fn event<'a>(&mut self, event: Event<'a>) -> Option<Event<'a>> {
        match event {
            Event::Html(raw) | Event::InlineHtml(raw) => Some(Event::Text(raw)),
            Event::Start(tag) => self.start(tag).map(Event::Start),
            Event::End(tag) => self.end(tag).map(Event::End),
            other => Some(other),
        }
    }

    fn start<'a>(&mut self, tag: Tag<'a>) -> Option<Tag<'a>> {
        match tag {
            Tag::Link { ref dest_url, .. } => {
                let kept = is_ordinary(dest_url);
                self.links.push(kept);
                kept.then_some(tag)
            }
            Tag::Image { .. } => None,
            Tag::HtmlBlock => Some(Tag::Paragraph),
            Tag::Heading { level, .. } => {
                Some(Tag::Heading { level: lower(level), id: None, classes: vec![], attrs: vec![] })
            }
            Tag::Table(columns) => Some(Tag::Table(vec![Alignment::None; columns.len()])),
            other => Some(other),
        }
    }

    fn end(&mut self, tag: TagEnd) -> Option<TagEnd> {
        match tag {
            TagEnd::Link => self.links.pop().unwrap_or(false).then_some(tag),
            TagEnd::Image => None,
            TagEnd::HtmlBlock => Some(TagEnd::Paragraph),
            TagEnd::Heading(level) => Some(TagEnd::Heading(lower(level))),
            other => Some(other),
        }
    }
}

/// Web and mail addresses, and places in this site; never a scheme that runs something.
fn is_ordinary(address: &str) -> bool {
    let clean = address.bytes().all(|byte| byte > b' ' && byte != b'\\' && byte != 0x7f);
    let scheme = address.split(['/', '?', '#']).next().unwrap_or("");
    let known = match scheme.split_once(':') {
        Some((scheme, _)) => {
            ["http", "https", "mailto"].iter().any(|known| scheme.eq_ignore_ascii_case(known))
        }
        None => !address.starts_with("//"),
    };
    clean && known && !address.is_empty()
}

fn lower(level: HeadingLevel) -> HeadingLevel {
    HeadingLevel::try_from(level as usize + HEADING_SHIFT).unwrap_or(HeadingLevel::H6)
}

/// Splits a text at its `{{ name }}` and puts the values between the pieces.
fn fill<'a>(
    event: Event<'a>,
    values: &BTreeMap<String, String>,
    language: Language,
) -> Vec<Event<'a>> {
    let Event::Text(text) = event else { return vec![event] };
    let mut pieces = Vec::new();
    let mut plain = String::new();
    let mut rest: &str = &text;
    while let Some((before, name, after)) = next_name(rest) {
        plain.push_str(before);
        match values.get(name.trim()) {
            Some(value) => {
                pieces.push(Event::Text(CowStr::from(std::mem::take(&mut plain))));
                pieces.push(Event::InlineHtml(CowStr::from("<span class=\"value\">")));
                pieces.push(Event::Text(CowStr::from(words::value(language, value))));
                pieces.push(Event::InlineHtml(CowStr::from("</span>")));
            }
            None => plain.push_str(&format!("{{{{{name}}}}}")),
        }
        rest = after;
    }
    plain.push_str(rest);
    pieces.push(Event::Text(CowStr::from(plain)));
    pieces
}

fn next_name(text: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = text.split_once("{{")?;
    let (name, after) = rest.split_once("}}")?;
    Some((before, name, after))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::to_html;
    use crate::language::Language;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let values = [("strip", "56.0 mm"), ("evil", "<b onclick=\"x()\">&amp;"), ("low", "-2")];
        let values: BTreeMap<String, String> =
            values.iter().map(|(name, value)| ((*name).into(), (*value).into())).collect();
        assert_eq!(to_html(text, &values, Language::English).trim_end(), expected, "{text}");
    }

    #[test]
    fn values_stand_where_their_names_stood() {
        check(
            "Set **{{ strip }}** and {{strip}}.",
            "<p>Set <strong><span class=\"value\">56.0\u{a0}mm</span></strong> and \
             <span class=\"value\">56.0\u{a0}mm</span>.</p>",
        );
        check("{{ low }}", "<p><span class=\"value\">\u{2212}2</span></p>");
    }

    #[test]
    fn a_value_is_text_and_never_markup() {
        check(
            "{{ evil }}",
            "<p><span class=\"value\">&lt;b onclick=\"x()\"&gt;&amp;amp;</span></p>",
        );
        check(
            "[{{ evil }}](a.html)",
            concat!(
                "<p><a href=\"a.html\"><span class=\"value\">",
                "&lt;b onclick=\"x()\"&gt;&amp;amp;</span></a></p>"
            ),
        );
    }

    #[test]
    fn names_in_code_and_unknown_names_stay() {
        check("`{{ strip }}`", "<p><code>{{ strip }}</code></p>");
        check("{{ other }} {{ strip", "<p>{{ other }} {{ strip</p>");
        check("}} {{", "<p>}} {{</p>");
    }

    #[test]
    fn raw_html_is_shown_not_obeyed() {
        check("a <b onclick=x>b</b>", "<p>a &lt;b onclick=x&gt;b&lt;/b&gt;</p>");
        check("<script>alert(1)</script>", "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>");
        check(
            "<!-- {{ evil }} -->",
            "<p>&lt;!-- <span class=\"value\">&lt;b onclick=\"x()\"&gt;&amp;amp;</span> --&gt;</p>",
        );
        check("<style>*{display:none}", "<p>&lt;style&gt;*{display:none}</p>");
    }

    #[test]
    fn links_lead_to_ordinary_places_only() {
        check("[a](https://example.org/x)", "<p><a href=\"https://example.org/x\">a</a></p>");
        check("[a](MAILTO:a@example.org)", "<p><a href=\"MAILTO:a@example.org\">a</a></p>");
        check("[a](../b.html#c)", "<p><a href=\"../b.html#c\">a</a></p>");
        check("[a](#c:d)", "<p><a href=\"#c:d\">a</a></p>");
        for address in [
            "javascript:alert(1)",
            "JaVaScRiPt:alert(1)",
            "java&#10;script:alert(1)",
            "&#1;javascript:alert(1)",
            "data:text/html,x",
            "vbscript:x",
            "file:///etc/passwd",
            "//example.org/x",
            "\\\\\\\\example.org",
            "<java script:alert(1)>",
            "",
        ] {
            check(&format!("[a]({address})"), "<p>a</p>");
        }
        check("<javascript:alert(1)>", "<p>javascript:alert(1)</p>");
        check("[![a](b.png)](javascript:x)", "<p>a</p>");
    }

    #[test]
    fn pictures_are_their_words() {
        check("![a plan](https://example.org/a.png)", "<p>a plan</p>");
        check("![a [b](c.html)](d.png)", "<p>a <a href=\"c.html\">b</a></p>");
    }

    #[test]
    fn headings_go_below_the_step_and_tables_have_no_style() {
        check("# A", "<h4>A</h4>");
        check("##### A", "<h6>A</h6>");
        check(
            "|a|b|\n|:-:|-:|\n|1|2|",
            concat!(
                "<table><thead><tr><th>a</th><th>b</th></tr></thead><tbody>\n",
                "<tr><td>1</td><td>2</td></tr>\n</tbody></table>"
            ),
        );
    }

    #[test]
    fn a_title_cannot_leave_its_attribute() {
        check(
            "[a](b.html 'x\" onfocus=\"y')",
            "<p><a href=\"b.html\" title=\"x&quot; onfocus=&quot;y\">a</a></p>",
        );
    }
}
