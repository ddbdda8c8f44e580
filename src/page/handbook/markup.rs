//! A chapter's Markdown to HTML, with places to link to and a picture of each example's file.
//!
//! The text is the program's own, so what it says is trusted; what it shows (code) is escaped all the
//! same.

use std::collections::BTreeSet;

use pulldown_cmark::{CodeBlockKind, CowStr, Event, Options, Parser, Tag, TagEnd, html};
use serde::Serialize;

use crate::page::escaped;

/// A chapter as its page shows it.
#[derive(Debug, Default, Serialize)]
pub(super) struct Chapter {
    /// Its heading.
    pub title: String,
    /// Its first paragraph, as plain text.
    pub about: String,
    /// Its sections.
    pub sections: Vec<Section>,
    /// All below the heading, as HTML.
    pub html: String,
}

/// A place in a chapter.
#[derive(Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct Section {
    /// What a link to it ends with.
    pub id: String,
    /// Its heading.
    pub title: String,
    /// What stands in it as code, each once: the names people look for.
    pub words: String,
}

/// Reads a chapter. Code that is the name of a rule leads to the rule's page.
pub(super) fn read(text: &str, rules: &BTreeSet<&str>) -> Chapter {
    let (title, body) = text.trim_start().split_once('\n').unwrap_or((text, ""));
    let mut reader = Reader {
        rules,
        about: String::new(),
        has_about: false,
        sections: Vec::new(),
        in_link: false,
    };
    let events = Parser::new_ext(body, Options::ENABLE_TABLES).collect::<Vec<_>>();
    let mut shown = Vec::new();
    let mut events = events.into_iter().peekable();
    while let Some(event) = events.next() {
        match event {
            Event::Start(Tag::Heading { level, .. }) => {
                let inside = until(&mut events, |end| matches!(end, TagEnd::Heading(_)));
                shown.extend(reader.heading(level as usize, inside));
            }
            Event::Start(Tag::CodeBlock(kind)) => {
                let inside = until(&mut events, |end| *end == TagEnd::CodeBlock);
                shown.push(example(&kind, &plain(&inside)));
            }
            other => shown.extend(reader.event(other)),
        }
    }
    let mut page = String::new();
    html::push_html(&mut page, shown.into_iter());
    let sections = reader.sections.into_iter().map(Open::closed).collect();
    Chapter {
        title: title.trim_start_matches(['#', ' ']).to_owned(),
        about: reader.about,
        sections,
        html: page,
    }
}

/// The events up to an end, which is taken too.
fn until<'a>(
    events: &mut impl Iterator<Item = Event<'a>>,
    is_end: impl Fn(&TagEnd) -> bool,
) -> Vec<Event<'a>> {
    events.take_while(|event| !matches!(event, Event::End(end) if is_end(end))).collect()
}

/// The words of events, without their marks.
fn plain(events: &[Event]) -> String {
    let words = events.iter().map(|event| match event {
        Event::Text(text) | Event::Code(text) => text,
        Event::SoftBreak | Event::HardBreak => " ",
        _ => "",
    });
    words.collect()
}

/// What a link to a heading ends with: small letters, and a hyphen for all that is no letter or digit.
fn id_of(title: &str) -> String {
    let words = title.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

struct Reader<'r> {
    rules: &'r BTreeSet<&'r str>,
    about: String,
    has_about: bool,
    sections: Vec<Open>,
    in_link: bool,
}

/// A section that is still being read.
struct Open {
    id: String,
    title: String,
    words: Vec<String>,
}

impl Open {
    fn closed(self) -> Section {
        Section { id: self.id, title: self.title, words: self.words.join(", ") }
    }
}

impl Reader<'_> {
    fn heading<'a>(&mut self, level: usize, inside: Vec<Event<'a>>) -> Vec<Event<'a>> {
        let title = plain(&inside);
        let id = id_of(&title);
        let start = format!("<h{level} id=\"{}\">", escaped(&id));
        if level == 2 {
            self.sections.push(Open { id, title, words: Vec::new() });
        }
        let mut shown = vec![Event::Html(start.into())];
        shown.extend(inside);
        shown.push(Event::Html(format!("</h{level}>\n").into()));
        shown
    }

    fn event<'a>(&mut self, event: Event<'a>) -> Vec<Event<'a>> {
        match event {
            Event::Code(code) => self.code(code),
            Event::Text(text) => {
                self.tell(&text);
                vec![Event::Text(text)]
            }
            Event::SoftBreak => {
                self.tell(" ");
                vec![Event::SoftBreak]
            }
            Event::End(TagEnd::Paragraph) => {
                self.has_about = true;
                vec![Event::End(TagEnd::Paragraph)]
            }
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                self.in_link = true;
                let dest_url = address(&dest_url).into();
                vec![Event::Start(Tag::Link { link_type, dest_url, title, id })]
            }
            Event::End(TagEnd::Link) => {
                self.in_link = false;
                vec![Event::End(TagEnd::Link)]
            }
            other => vec![other],
        }
    }

    /// Adds to the first paragraph while it lasts.
    fn tell(&mut self, text: &str) {
        if !self.has_about {
            self.about += text;
        }
    }

    fn code<'a>(&mut self, code: CowStr<'a>) -> Vec<Event<'a>> {
        self.tell(&code);
        if let Some(section) = self.sections.last_mut()
            && !section.words.iter().any(|word| **word == *code)
        {
            section.words.push(code.to_string());
        }
        if self.in_link || !self.rules.contains(&*code) {
            return vec![Event::Code(code)];
        }
        let page = format!("<a href=\"findings/{code}.html\"><code>{code}</code></a>");
        vec![Event::InlineHtml(page.into())]
    }
}

/// The address of a page: a chapter's file becomes its page.
fn address(written: &str) -> String {
    match written.split_once(".md") {
        Some((chapter, place)) if !written.contains("://") => format!("{chapter}.html{place}"),
        _ => written.to_owned(),
    }
}

/// An example: the file it belongs to above it, commands told from what they answer.
fn example<'a>(kind: &CodeBlockKind, text: &str) -> Event<'a> {
    let info = match kind {
        CodeBlockKind::Fenced(info) => info.to_string(),
        CodeBlockKind::Indented => String::new(),
    };
    let lines = text.lines().scan(false, |goes_on, line| Some(line_of(&info, line, goes_on)));
    let shown = lines.collect::<Vec<_>>().join("\n");
    let caption = match info.split_once(' ') {
        Some((_, file)) => format!("<figcaption><code>{}</code></figcaption>", escaped(file)),
        None => String::new(),
    };
    Event::Html(format!("<figure class=\"example\">{caption}<pre>{shown}</pre></figure>\n").into())
}

/// A sentence as HTML: what stands between backticks as code, names apart from words.
pub(super) fn marked(text: &str) -> String {
    let pieces = escaped(text).replace('‹', "<i>‹").replace('›', "›</i>");
    let pieces = pieces.split('`').enumerate().map(|(index, piece)| match index % 2 {
        0 => piece.to_owned(),
        _ => format!("<code>{piece}</code>"),
    });
    pieces.collect()
}

/// A line of an example; in a session, what is typed stands out.
fn line_of(info: &str, line: &str, goes_on: &mut bool) -> String {
    let is_typed = info == "console" && (*goes_on || line.starts_with("$ "));
    *goes_on = is_typed && line.ends_with('\\');
    match is_typed {
        true => format!("<b>{}</b>", escaped(line)),
        false => escaped(line),
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{Section, read};

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let rules = BTreeSet::from(["unknown-key"]);
        assert_eq!(read(&format!("# Title\n\n{text}"), &rules).html.trim_end(), expected, "{text}");
    }

    #[test]
    fn names_and_code_of_a_sentence_are_told_from_its_words() {
        let html = super::marked("write `‹film›`, <not> ‹day›");
        assert_eq!(html, "write <code><i>‹film›</i></code>, &lt;not&gt; <i>‹day›</i>");
    }

    #[test]
    fn headings_are_places_and_links_lead_to_pages() {
        check("## Keys & people", "<h2 id=\"keys-people\">Keys &amp; people</h2>");
        check("[a](signing.md#keys)", "<p><a href=\"signing.html#keys\">a</a></p>");
        check("[a](https://e.example/a.md)", "<p><a href=\"https://e.example/a.md\">a</a></p>");
    }

    #[test]
    fn the_name_of_a_rule_leads_to_its_page() {
        let linked = "<a href=\"findings/unknown-key.html\"><code>unknown-key</code></a>";
        check("`unknown-key` `key`", &format!("<p>{linked} <code>key</code></p>"));
        check("[`unknown-key`](a.md)", "<p><a href=\"a.html\"><code>unknown-key</code></a></p>");
    }

    #[test]
    fn an_example_names_its_file_and_shows_what_is_typed() {
        check(
            "```console\n$ a \\\n  b\n<c>\n```",
            "<figure class=\"example\"><pre><b>$ a \\</b>\n<b>  b</b>\n&lt;c&gt;</pre></figure>",
        );
        check(
            "```yaml p/plant.yaml\na: 1\n```",
            concat!(
                "<figure class=\"example\"><figcaption><code>p/plant.yaml</code></figcaption>",
                "<pre>a: 1</pre></figure>"
            ),
        );
    }

    #[test]
    fn a_section_is_found_by_what_stands_in_it_as_code() {
        let chapter =
            read("# T\n\nFirst `a`.\n\nSecond.\n\n## One\n`b` and `b`, `c`", &BTreeSet::new());
        assert_eq!((&*chapter.title, &*chapter.about), ("T", "First a."));
        let one = Section { id: "one".into(), title: "One".into(), words: "b, c".into() };
        assert_eq!(chapter.sections, [one]);
    }
}
