//! The schemas of the files people write: what each is for, and where it lies.

use serde::Serialize;

use super::{Frame, Link, Page};
use crate::page::paths;

/// The schemas.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SchemasView {
    /// Frame.
    pub frame: Frame,
    /// Each schema.
    pub schemas: Vec<SchemaLine>,
}

/// One schema.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct SchemaLine {
    /// Name, and the schema's own file.
    pub link: Link,
    /// The file that is written.
    pub file: String,
    /// What it is for.
    pub about: String,
}

/// The list of schemas, for [`paths::SCHEMAS`].
pub fn schemas_html(view: &SchemasView) -> String {
    let title = view.frame.language.word("schemas-title");
    Page::new(&view.frame, view, title, paths::PROCEDURES)
        .under("frame-procedures")
        .html("schemas.html")
}
