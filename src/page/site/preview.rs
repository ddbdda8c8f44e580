//! What a preview adds to a site: a bar with the findings, the page of all of them, and the script
//! that shows a page again after an edit.
//!
//! Must never change what a page says: the bar stands before it, and a policy only lets the page's own
//! server be asked for changes.

use serde::Serialize;

use super::{Frame, Page};
use crate::language::Language;
use crate::page::{escaped, render};

/// The page of all findings, from the site's root.
pub const FINDINGS: &str = "preview/findings.html";
/// The script, from the site's root.
pub const SCRIPT: &str = "preview/preview.js";
/// The style sheet of the bar, from the site's root.
pub const STYLE: &str = "preview/preview.css";

/// Waits for changes and shows the page again at the step that was edited.
pub const PREVIEW_JS: &str = include_str!("../../../site/assets/preview.js");

/// The bar.
pub const PREVIEW_CSS: &str = include_str!("../../../site/assets/preview.css");

/// What a page says of the findings.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Bar {
    /// Language of its words.
    #[serde(skip)]
    pub language: Language,
    /// How many errors and warnings, in words; empty when nothing was found.
    pub counts: String,
    /// File, line and column of the first one.
    pub place: String,
    /// What is wrong there.
    pub message: String,
    /// Whether the pages are those of an earlier state, because the files have an error.
    pub is_old: bool,
}

/// All findings.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct AllFindings {
    /// Frame.
    pub frame: Frame,
    /// Every finding with its line and caret, as `check` prints it.
    pub text: String,
    /// Whether the other pages are those of an earlier state.
    pub is_old: bool,
    /// Whether there are no other pages.
    pub is_alone: bool,
}

/// The page of all findings, for [`FINDINGS`].
pub fn findings_html(view: &AllFindings) -> String {
    let title = view.frame.language.word("preview-title");
    Page::new(&view.frame, view, title, FINDINGS).html("preview.html")
}

/// The bar; empty when there is nothing to say.
fn bar_html(bar: &Bar) -> String {
    match bar.counts.is_empty() {
        true => String::new(),
        false => render(bar.language, "preview-bar.html", bar),
    }
}

/// A page of the site as the preview shows it: with the bar, and the script that waits for a state
/// after the one with this number. `at` is the place where the page differs from the state before it;
/// mostly empty.
pub fn dressed(html: &str, bar: &Bar, number: i64, at: &str) -> String {
    let html = permit(html);
    let script = format!(
        "<link rel=\"stylesheet\" href=\"/{STYLE}\">\n<script src=\"/{SCRIPT}\" data-now=\"{number}\" data-at=\"{}\" defer></script>\n",
        escaped(at)
    );
    let Some((head, body)) = html.split_once("</head>") else { return html };
    let Some(end) = body.find("<body").and_then(|at| Some(at + body.get(at..)?.find('>')? + 1))
    else {
        return html;
    };
    let (open, rest) = body.split_at(end);
    [head, &script, "</head>", open, "\n", &bar_html(bar), rest].concat()
}

/// Where a page states its policy.
const POLICY: &str = "http-equiv=\"Content-Security-Policy\" content=\"";

/// Lets a page use the preview's own script and style, and ask its own server.
fn permit(html: &str) -> String {
    let Some((before, rest)) = html.split_once(POLICY) else { return html.to_owned() };
    let Some((policy, after)) = rest.split_once('"') else { return html.to_owned() };
    let mut rules: Vec<String> = policy.split("; ").map(str::to_owned).collect();
    for name in ["style-src", "script-src", "connect-src"] {
        match rules.iter_mut().find(|rule| rule.starts_with(name)) {
            Some(rule) if rule.contains("'self'") => {}
            Some(rule) => *rule += " 'self'",
            None => rules.push(format!("{name} 'self'")),
        }
    }
    [before, POLICY, &rules.join("; "), "\"", after].concat()
}

#[cfg(test)]
mod tests {
    use super::{AllFindings, Bar, dressed, findings_html, permit};
    use crate::language::Language;

    fn page(policy: &str) -> String {
        format!(
            "<head><meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\"></head><body class=\"a\">x"
        )
    }

    #[test]
    fn a_policy_opens_for_the_own_server_only() {
        for (before, after) in [
            (
                "default-src 'none'; style-src 'sha256-a='; base-uri 'none'",
                "default-src 'none'; style-src 'sha256-a=' 'self'; base-uri 'none'; script-src 'self'; connect-src 'self'",
            ),
            (
                "default-src 'none'; style-src 'self'; script-src 'self'",
                "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'",
            ),
        ] {
            assert_eq!(permit(&page(before)), page(after));
        }
        assert_eq!(permit("<svg></svg>"), "<svg></svg>");
    }

    #[test]
    fn the_bar_stands_before_the_page_and_escapes_what_it_says() {
        let plain = dressed(&page("default-src 'none'"), &Bar::default(), 7, "step-3");
        assert!(plain.contains(
            "data-now=\"7\" data-at=\"step-3\" defer></script>\n</head><body class=\"a\">\nx"
        ));
        let bar = Bar {
            counts: "1 error".to_owned(),
            place: "jobs/J-1.yaml:3:4".to_owned(),
            message: "<b> is no recipe".to_owned(),
            is_old: true,
            ..Bar::default()
        };
        let shown = dressed(&page("default-src 'none'"), &bar, 7, "");
        assert!(shown.contains("&lt;b&gt; is no recipe") && shown.contains("1 error"));
        assert!(shown.contains(Language::English.word("preview-old")));
        assert!(shown.ends_with('x') && !plain.contains("<aside"));
    }

    #[test]
    fn all_findings_stand_on_their_page_in_each_language() {
        for language in Language::ALL {
            let frame = super::Frame { language, ..super::Frame::default() };
            let text = "error[a]: <i>\n --> plant.yaml:1:1\n".to_owned();
            let html = findings_html(&AllFindings { frame, text, ..AllFindings::default() });
            assert!(html.contains("error[a]: &lt;i&gt;"));
            assert!(html.contains("../assets/site.css"));
        }
    }
}
