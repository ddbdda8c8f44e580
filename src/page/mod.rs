//! Pages: a packet, a record or a plant in, HTML text out.
//!
//! Three layers, each testable alone: *views* hold everything a page says, already computed and
//! worded ([`packet::PacketView`], [`site`]); *templates* only repeat and choose; [`markdown`] and
//! [`drawing`] make the two pieces that are markup already. Everything else is escaped by the
//! template engine.
//!
//! Must never read or write a file, ask for the time, or judge anything: templates and style sheets
//! are part of the program, and where a page ends up is up to the caller ([`paths`] only names the
//! place).

pub mod auditor;
mod decimal;
pub mod drawing;
pub mod form;
pub mod handbook;
pub mod kit;
pub mod markdown;
pub mod packet;
pub mod paths;
pub mod plan;
pub mod proof;
pub mod qr;
pub mod redline;
#[cfg(test)]
mod sample;
pub mod site;
pub mod steps;
pub mod stop;
pub mod strip;
pub mod symbol;
pub mod words;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Serialize;
use tera::{Context, Function, Kwargs, State, Tera, Value};

use crate::language::{Language, Part};

/// The style sheet of the site, and the first half of a packet's.
pub const SITE_CSS: &str = include_str!("../../site/assets/site.css");

/// What a packet's style adds: the sheet as printed.
pub(crate) const PACKET_CSS: &str = include_str!("../../site/assets/packet.css");

/// What the pages around the packets add: frame, cards, lists.
const PAGES_CSS: &str = include_str!("../../site/assets/pages.css");

/// What tags and placards add.
const SHEET_CSS: &str = include_str!("../../site/assets/sheet.css");

/// What the page of the parts adds.
pub(crate) const LEGEND_CSS: &str = include_str!("../../site/assets/legend.css");

/// What the pages of changes add.
const REDLINE_CSS: &str = include_str!("../../site/assets/redline.css");

/// What the tablet's page adds.
const STEPS_CSS: &str = include_str!("../../site/assets/steps.css");

/// Hides what a search does not match.
pub(crate) const SEARCH_JS: &str = include_str!("../../site/assets/search.js");

/// What fills in the tablet's page.
const STEPS_JS: &str = include_str!("../../site/assets/steps.js");

/// Signs on a tablet what was typed on a page.
const SIGN_JS: &str = include_str!("../../site/assets/sign.js");

/// Files every site needs beside its pages: path from the site's root, content.
pub fn assets() -> impl Iterator<Item = (&'static str, &'static str)> {
    [
        ("assets/site.css", SITE_CSS),
        ("assets/pages.css", PAGES_CSS),
        ("assets/sheet.css", SHEET_CSS),
        ("assets/legend.css", LEGEND_CSS),
        ("assets/redline.css", REDLINE_CSS),
        ("assets/search.js", SEARCH_JS),
        ("assets/steps.css", STEPS_CSS),
        ("assets/steps.js", STEPS_JS),
        ("assets/sign.js", SIGN_JS),
    ]
    .into_iter()
}

const TEMPLATES: &[(&str, &str)] = &[
    ("preview.html", include_str!("../../site/templates/preview.html")),
    ("preview-bar.html", include_str!("../../site/templates/preview-bar.html")),
    ("uses.html", include_str!("../../site/templates/uses.html")),
    ("uses-list.html", include_str!("../../site/templates/uses-list.html")),
    ("lists.html", include_str!("../../site/templates/lists.html")),
    ("history-parts.html", include_str!("../../site/templates/history-parts.html")),
    ("history.html", include_str!("../../site/templates/history.html")),
    ("history-machine.html", include_str!("../../site/templates/history-machine.html")),
    ("search.html", include_str!("../../site/templates/search.html")),
    ("legend.html", include_str!("../../site/templates/legend.html")),
    ("parts.html", include_str!("../../site/templates/parts.html")),
    ("body.html", include_str!("../../site/templates/body.html")),
    ("frame.html", include_str!("../../site/templates/frame.html")),
    ("head.html", include_str!("../../site/templates/head.html")),
    ("alone.html", include_str!("../../site/templates/alone.html")),
    ("sheet.html", include_str!("../../site/templates/sheet.html")),
    ("tags.html", include_str!("../../site/templates/tags.html")),
    ("placard.html", include_str!("../../site/templates/placard.html")),
    ("packet.html", include_str!("../../site/templates/packet.html")),
    ("strip.html", include_str!("../../site/templates/strip.html")),
    ("start.html", include_str!("../../site/templates/start.html")),
    ("jobs.html", include_str!("../../site/templates/jobs.html")),
    ("job.html", include_str!("../../site/templates/job.html")),
    ("plan-stop.html", include_str!("../../site/templates/plan-stop.html")),
    ("plan-parts.html", include_str!("../../site/templates/plan-parts.html")),
    ("plan.html", include_str!("../../site/templates/plan.html")),
    ("shift-timeline.html", include_str!("../../site/templates/shift-timeline.html")),
    ("shifts.html", include_str!("../../site/templates/shifts.html")),
    ("shift.html", include_str!("../../site/templates/shift.html")),
    ("shift-order.html", include_str!("../../site/templates/shift-order.html")),
    ("shift-kit.html", include_str!("../../site/templates/shift-kit.html")),
    ("steps.html", include_str!("../../site/templates/steps.html")),
    ("machines.html", include_str!("../../site/templates/machines.html")),
    ("machine.html", include_str!("../../site/templates/machine.html")),
    ("procedures.html", include_str!("../../site/templates/procedures.html")),
    ("procedure.html", include_str!("../../site/templates/procedure.html")),
    ("schemas.html", include_str!("../../site/templates/schemas.html")),
    ("register.html", include_str!("../../site/templates/register.html")),
    ("records.html", include_str!("../../site/templates/records.html")),
    ("audit.html", include_str!("../../site/templates/audit.html")),
    ("record.html", include_str!("../../site/templates/record.html")),
    ("log.html", include_str!("../../site/templates/log.html")),
    ("form.html", include_str!("../../site/templates/form.html")),
    ("form-checklist.html", include_str!("../../site/templates/form-checklist.html")),
    ("form-kit.html", include_str!("../../site/templates/form-kit.html")),
    ("form-lockout.html", include_str!("../../site/templates/form-lockout.html")),
    ("form-moves.html", include_str!("../../site/templates/form-moves.html")),
    ("redline-parts.html", include_str!("../../site/templates/redline-parts.html")),
    ("redline-alone.html", include_str!("../../site/templates/redline-alone.html")),
    ("redline.html", include_str!("../../site/templates/redline.html")),
    ("redline-text.html", include_str!("../../site/templates/redline-text.html")),
    ("handbook.html", include_str!("../../site/templates/handbook.html")),
    ("handbook-start.html", include_str!("../../site/templates/handbook-start.html")),
    ("handbook-chapter.html", include_str!("../../site/templates/handbook-chapter.html")),
    ("handbook-commands.html", include_str!("../../site/templates/handbook-commands.html")),
    ("handbook-rules.html", include_str!("../../site/templates/handbook-rules.html")),
    ("handbook-rule.html", include_str!("../../site/templates/handbook-rule.html")),
    ("handbook-files.html", include_str!("../../site/templates/handbook-files.html")),
    ("handbook-keys.html", include_str!("../../site/templates/handbook-keys.html")),
    ("handbook-search.html", include_str!("../../site/templates/handbook-search.html")),
    ("sign-words.html", include_str!("../../site/templates/sign-words.html")),
];

/// Compiled once a language: a site has many thousand pages, and reading the templates is the slow part.
static ENGINES: LazyLock<BTreeMap<Language, Tera>> =
    LazyLock::new(|| Language::ALL.into_iter().map(|one| (one, engine(one))).collect());

fn engine(language: Language) -> Tera {
    let mut engine = Tera::default();
    engine.register_function("t", move |given: Kwargs, _: &State| {
        said(language, &given, |text| Cow::Borrowed(text))
    });
    engine.register_function("th", Marked(language));
    let templates = TEMPLATES.iter().copied().chain(alone());
    let templates = templates.map(|(name, template)| (name, worded(language, template)));
    engine.add_raw_templates(templates).expect("the program's own templates are read by a test");
    engine
}

/// Pages of a record and a shift in a frame of their own: the same words, without the site around them.
fn alone() -> [(&'static str, &'static str); 2] {
    static PAGES: LazyLock<[String; 2]> = LazyLock::new(|| {
        [
            include_str!("../../site/templates/record.html"),
            include_str!("../../site/templates/shift.html"),
        ]
        .map(|page| without_sheets(&page.replacen("frame.html", "alone.html", 1)))
    });
    let [record, shift] = &*PAGES;
    [(site::RECORD_ALONE, record), (site::SHIFT_ALONE, shift)]
}

/// A template without the style sheets that it links to: a page that is one file has them inside.
fn without_sheets(template: &str) -> String {
    const END: &str = "{%- endblock style %}";
    match template.split_once("{% block style %}") {
        Some((before, after)) => {
            before.to_owned() + after.split_once(END).map_or(after, |(_, rest)| rest)
        }
        None => template.to_owned(),
    }
}

/// A template with its texts without variables written in: pages have thousands of them, and a call
/// for each is the slower half of rendering.
fn worded(language: Language, template: &str) -> String {
    let mut pieces = template.split("{{ t");
    let mut out = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        match written(language, piece) {
            Some((text, rest)) => out.extend([text.as_str(), rest]),
            None => out.extend(["{{ t", piece]),
        }
    }
    out
}

/// What stands after `{{ t`, when it is such a text: its words, and what follows it.
fn written(language: Language, piece: &str) -> Option<(String, &str)> {
    let (call, rest) = piece.split_once(" }}")?;
    let (name, key) = call.split_once("(key=\"")?;
    let text = language.plain(key.strip_suffix("\")")?)?;
    let is_one = !text.contains(['{', '}']);
    let text = match name {
        "" => escaped(text),
        "h" => text.to_owned(),
        _ => return None,
    };
    is_one.then_some((text, rest))
}

/// `t(key="...", name=value)`: a text of the program, escaped by the template like any other.
/// `lang=...` is the tag of another language than the page's; an empty one is the page's.
fn said(language: Language, given: &Kwargs, put: Put) -> Result<String, tera::Error> {
    let key: &str = given.must_get("key")?;
    let other = given.get::<&str>("lang")?.and_then(Language::of_tag);
    let named = given.iter().filter_map(|(name, value)| Some((name.as_str()?, value)));
    let parts: Vec<(&str, Part)> = named
        .filter(|(name, _)| !["key", "lang"].contains(name))
        .map(|(name, value)| (name, part(value, put)))
        .collect();
    Ok(other.unwrap_or(language).text(key, &parts))
}

/// How a text is put into another.
type Put = fn(&str) -> Cow<'_, str>;

/// A value of a template: a whole number is a count, all else is text.
fn part(value: &Value, put: Put) -> Part<'_> {
    if let Some(count) = value.as_u64().and_then(|count| usize::try_from(count).ok()) {
        return Part::Count(count);
    }
    match value.as_str() {
        Some(text) => Part::Text(put(text)),
        None => Part::Text(put(&value.to_string()).into_owned().into()),
    }
}

/// `th(key="...", name=value)`: a text of ours that holds markup; what is put in is escaped.
struct Marked(Language);

impl Function<Result<String, tera::Error>> for Marked {
    fn call(&self, given: Kwargs, _: &State) -> Result<String, tera::Error> {
        said(self.0, &given, |text| Cow::Owned(escaped(text)))
    }

    fn is_safe(&self) -> bool {
        true
    }
}

/// Text for a place in markup where no template escapes it.
fn escaped(text: &str) -> String {
    let mut out = Vec::with_capacity(text.len());
    tera::escape_html(text, &mut out).expect("writing to memory");
    String::from_utf8(out).expect("escaping keeps UTF-8")
}

/// Fills a template. Views have no optional fields a template could miss, so this cannot fail for
/// any input: each template is rendered by a test.
fn render<V: Serialize>(language: Language, template: &str, view: &V) -> String {
    let context = Context::from_serialize(view).expect("a view is a struct of plain data");
    match ENGINES[&language].render(template, &context) {
        Ok(page) => page,
        Err(error) => panic!("template {template} does not fit its view: {error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::handbook::HANDBOOK_CSS;
    use super::{ENGINES, TEMPLATES};
    use crate::language::Language;

    #[test]
    fn every_template_is_read() {
        for language in Language::ALL {
            for (name, _) in TEMPLATES {
                assert!(ENGINES[&language].contains_template(name), "{name}");
            }
        }
    }

    #[test]
    fn texts_without_variables_are_written_into_templates() {
        let worded = |template: &str| super::worded(Language::German, template);
        let text = Language::German.word("packet-first");
        assert_eq!(worded(r#"<h2>{{ t(key="packet-first") }}</h2>"#), format!("<h2>{text}</h2>"));
        for kept in [
            r#"{{ t(key="packet-title", job=p.job.id, machine=p.machine.name) }}"#,
            r#"{{ t(key="packet-first", lang=s.lang) }} {{ title }} {{ th(key=s.key) }}"#,
            r#"{% if t(key="packet-first") %}"#,
            &format!("{{{{ t(key={:?}) }}}}", "no-such-text"),
        ] {
            assert_eq!(worded(kept), kept);
        }
    }

    #[test]
    fn style_sheets_fetch_nothing() {
        let sheets = super::assets().filter(|(path, _)| path.ends_with(".css"));
        let inlined =
            [super::PACKET_CSS, super::form::FORM_CSS, super::strip::STRIP_CSS, HANDBOOK_CSS];
        for css in sheets.map(|(_, css)| css).chain(inlined) {
            for word in ["url(", "@import", "</", "http"] {
                assert!(!css.contains(word), "a style sheet has {word}");
            }
        }
    }
}
