//! The log of a machine: the checkpoint to keep, what it proves and what not.
//!
//! Must never call a log good or bad itself: findings come from the audit.

use serde::Serialize;

use super::{Fact, FindingView, Frame, Link, Page};
use crate::page::paths;

/// The log of a machine.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct LogView {
    /// Frame.
    pub frame: Frame,
    /// Identifier of the machine.
    pub id: String,
    /// Its name and page.
    pub machine: Link,
    /// The newest checkpoint's short form; empty when nobody has signed one.
    pub short: String,
    /// How many entries, who signed when, over which root.
    pub facts: Vec<Fact>,
    /// Files of the log beside the page.
    pub files: Vec<LogFile>,
    /// What the audit found.
    pub findings: Vec<FindingView>,
}

/// A file of a log.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct LogFile {
    /// Name, and path from the site's root where there is one such file.
    pub link: Link,
    /// What it is.
    pub what: String,
}

/// The log of a machine, for [`paths::log`]; its files are expected at [`paths::log_file`].
pub fn log_html(view: &LogView) -> String {
    let title = view.frame.language.text("log-title", &[("machine", (&view.id).into())]);
    Page::new(&view.frame, view, &title, paths::RECORDS).under("frame-records").html("log.html")
}
