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

mod decimal;
pub mod drawing;
pub mod markdown;
pub mod packet;
pub mod paths;
pub mod proof;
#[cfg(test)]
mod sample;
pub mod site;
pub mod symbol;
pub mod words;

use std::sync::LazyLock;

use serde::Serialize;
use tera::{Context, Tera};

/// The style sheet of the site, and the first half of a packet's.
pub const SITE_CSS: &str = include_str!("../../site/assets/site.css");

/// What a packet's style adds: the sheet as printed.
pub(crate) const PACKET_CSS: &str = include_str!("../../site/assets/packet.css");

/// What tags and placards add.
const SHEET_CSS: &str = include_str!("../../site/assets/sheet.css");

/// Files every site needs beside its pages: path from the site's root, content.
pub fn assets() -> [(&'static str, &'static str); 2] {
    [("assets/site.css", SITE_CSS), ("assets/sheet.css", SHEET_CSS)]
}

const TEMPLATES: [(&str, &str); 16] = [
    ("parts.html", include_str!("../../site/templates/parts.html")),
    ("body.html", include_str!("../../site/templates/body.html")),
    ("frame.html", include_str!("../../site/templates/frame.html")),
    ("sheet.html", include_str!("../../site/templates/sheet.html")),
    ("tags.html", include_str!("../../site/templates/tags.html")),
    ("placard.html", include_str!("../../site/templates/placard.html")),
    ("packet.html", include_str!("../../site/templates/packet.html")),
    ("start.html", include_str!("../../site/templates/start.html")),
    ("jobs.html", include_str!("../../site/templates/jobs.html")),
    ("job.html", include_str!("../../site/templates/job.html")),
    ("machines.html", include_str!("../../site/templates/machines.html")),
    ("machine.html", include_str!("../../site/templates/machine.html")),
    ("procedures.html", include_str!("../../site/templates/procedures.html")),
    ("procedure.html", include_str!("../../site/templates/procedure.html")),
    ("records.html", include_str!("../../site/templates/records.html")),
    ("record.html", include_str!("../../site/templates/record.html")),
];

/// Compiled once: a site has many thousand pages, and reading the templates is the slow part.
static ENGINE: LazyLock<Tera> = LazyLock::new(|| {
    let mut engine = Tera::default();
    engine.add_raw_templates(TEMPLATES).expect("the program's own templates are read by a test");
    engine
});

/// Fills a template. Views have no optional fields a template could miss, so this cannot fail for
/// any input: each template is rendered by a test.
fn render<V: Serialize>(template: &str, view: &V) -> String {
    let context = Context::from_serialize(view).expect("a view is a struct of plain data");
    engine_render(template, &context)
}

fn engine_render(template: &str, context: &Context) -> String {
    match ENGINE.render(template, context) {
        Ok(page) => page,
        Err(error) => panic!("template {template} does not fit its view: {error}"),
    }
}

#[cfg(test)]
mod tests {
    use super::{ENGINE, SITE_CSS, TEMPLATES};

    #[test]
    fn every_template_is_read() {
        for (name, _) in TEMPLATES {
            assert!(ENGINE.contains_template(name), "{name}");
        }
    }

    #[test]
    fn style_sheets_fetch_nothing() {
        for css in [SITE_CSS, super::PACKET_CSS, super::SHEET_CSS] {
            for word in ["url(", "@import", "</", "http"] {
                assert!(!css.contains(word), "a style sheet has {word}");
            }
        }
    }
}
