//! Compact forms of a packet: checklist, kit list, lockout sheet, sheet of settings and moves.
//!
//! A form repeats a part of a [`PacketView`], in its words, under the packet's digest. Must never say
//! anything that is not in the packet, nor let itself be taken for the full instruction.

mod brief;
pub(super) use brief::ranges;
mod checklist;
mod held;
mod kit;
mod lockout;
mod moves;

use std::sync::LazyLock;

use serde::Serialize;

use super::packet::{PacketView, css_text, style};
use super::{PACKET_CSS, SITE_CSS, paths, render};
use crate::language::Language;
use crate::packet::model::Packet;

/// What the forms add to a packet's style.
pub(super) const FORM_CSS: &str = include_str!("../../../site/assets/form.css");

/// A paper that shows a part of a packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Every step by its title, to tick.
    Checklist,
    /// What to fetch before the stop.
    Kit,
    /// Sources, locks, proofs of zero, release.
    Lockout,
    /// Settings that change, rails and their moves.
    Moves,
}

impl Form {
    /// Every form, in the order in which they are used.
    pub const ALL: [Form; 4] = [Form::Kit, Form::Lockout, Form::Moves, Form::Checklist];

    /// Its name on the sheet and in links.
    pub fn name(self, language: Language) -> &'static str {
        match self {
            Form::Checklist => language.word("forms-checklist"),
            Form::Kit => language.word("forms-kit"),
            Form::Lockout => language.word("forms-lockout"),
            Form::Moves => language.word("forms-moves"),
        }
    }

    /// Its page for a job.
    pub fn path(self, job: &str) -> String {
        match self {
            Form::Checklist => paths::checklist(job),
            Form::Kit => paths::kit(job),
            Form::Lockout => paths::lockout(job),
            Form::Moves => paths::moves(job),
        }
    }

    /// The page, complete and self-contained. `view` is that of `packet`.
    pub fn html(self, packet: &Packet, view: &PacketView) -> String {
        match self {
            Form::Checklist => {
                self.page("form-checklist.html", packet, view, checklist::sheet(packet, view))
            }
            Form::Kit => self.page("form-kit.html", packet, view, kit::places(packet)),
            Form::Lockout => {
                self.page("form-lockout.html", packet, view, lockout::parts(packet, view))
            }
            Form::Moves => self.page("form-moves.html", packet, view, moves::sheet(packet, view)),
        }
    }

    fn page<X: Serialize>(
        self,
        template: &str,
        packet: &Packet,
        view: &PacketView,
        extra: X,
    ) -> String {
        let title = self.name(packet.language);
        let foot = running_foot(packet.language, title, view);
        let page = render(packet.language, template, &Page { p: view, title, extra });
        let [site, packet, form] = &*SHEETS;
        style::put(&page, &[site, packet, form, &style::Sheet::read(&foot)])
    }
}

/// The style of a form, taken apart once.
static SHEETS: LazyLock<[style::Sheet; 3]> =
    LazyLock::new(|| [SITE_CSS, PACKET_CSS, FORM_CSS].map(style::Sheet::read));

/// What a template of a form gets.
#[derive(Serialize)]
struct Page<'a, X> {
    p: &'a PacketView,
    title: &'a str,
    extra: X,
}

/// The foot of each printed sheet: which packet, which form of which job, how far it is, which sheet.
///
/// Source: CSS Paged Media Level 3, section 5 (margin boxes) and 7 (page counters); from memory.
fn running_foot(language: Language, title: &str, view: &PacketView) -> String {
    let packet = language.text("forms-foot-packet", &[("digest", (&view.short_digest).into())]);
    let job = format!("{title} {} - {}", view.job.id, view.issue.state);
    let page = language.text(
        "forms-foot-page",
        &[("page", "\" counter(page) \"".into()), ("pages", "\" counter(pages) \"".into())],
    );
    format!(
        "@page {{\n\
         @bottom-left {{ content: \"{}\"; }}\n\
         @bottom-center {{ content: \"{}\"; }}\n\
         @bottom-right {{ content: \"{page}\"; }}\n\
         }}",
        css_text(&packet),
        css_text(&job),
    )
}

#[cfg(test)]
mod tests;
