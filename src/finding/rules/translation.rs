//! Rules of texts in several languages.

use crate::finding::{Findings, Place};
use crate::language::Language;

/// Rules of a procedure's translation.
impl Findings {
    /// A step of a translation has one block of texts.
    pub fn texts_blocks(&mut self, at: &Place, count: usize) {
        self.error("texts-block", at, &[("count", count.to_string().into())]);
    }

    /// A translation of a procedure that is not there.
    pub fn translation_of_nothing(&mut self, at: &Place, id: &str) {
        self.error("translation-of-nothing", at, &[("id", id.into())]);
    }

    /// A step of a translation stands where the source has another.
    pub fn translation_out_of_step(&mut self, at: &Place, id: &str, of: &str, wanted: &str) {
        let parts = [("id", id.into()), ("of", of.into()), ("wanted", wanted.into())];
        self.error("translation-out-of-step", at, &parts);
    }

    /// A step that a translation leaves out.
    pub fn translation_lacks_step(&mut self, at: &Place, id: &str, slug: &str) {
        self.error("translation-lacks-step", at, &[("id", id.into()), ("slug", slug.into())]);
    }

    /// A step that only the translation has.
    pub fn translation_has_more(&mut self, at: &Place, id: &str, title: &str) {
        self.error("translation-has-more", at, &[("id", id.into()), ("title", title.into())]);
    }

    /// More or fewer texts than the source has.
    pub fn translation_texts_differ(
        &mut self,
        at: &Place,
        title: &str,
        key: &str,
        [source, own]: [usize; 2],
    ) {
        let parts = [
            ("title", title.into()),
            ("key", key.into()),
            ("source", source.to_string().into()),
            ("own", own.to_string().into()),
        ];
        self.error("translation-texts-differ", at, &parts);
    }

    /// A value that the source shows and the translation does not.
    pub fn translation_lacks_value(&mut self, at: &Place, title: &str, name: &str) {
        self.error(
            "translation-lacks-value",
            at,
            &[("title", title.into()), ("name", name.into())],
        );
    }

    /// A value that only the translation shows.
    pub fn translation_adds_value(&mut self, at: &Place, title: &str, name: &str) {
        self.error("translation-adds-value", at, &[("title", title.into()), ("name", name.into())]);
    }

    /// A translation of another revision than the one in force.
    pub fn translation_is_old(&mut self, at: &Place, id: &str, from: &str, revision: &str) {
        let parts = [("id", id.into()), ("from", from.into()), ("revision", revision.into())];
        self.warning("translation-is-old", at, &parts);
    }

    /// A procedure that a job wants in a language it does not have.
    pub fn procedure_not_translated(&mut self, at: &Place, id: &str, language: Language) {
        let folder = language.texts().tag();
        let parts = [("id", id.into()), ("tag", language.tag().into()), ("folder", folder.into())];
        self.warning("procedure-not-translated", at, &parts);
    }
}

/// Rules of texts in YAML.
impl Findings {
    /// A text in a language that the plant does not write.
    pub fn language_not_of_plant(&mut self, at: &Place, language: Language) {
        self.error("language-not-of-plant", at, &[("tag", language.tag().into())]);
    }

    /// A text that lacks the language every text has.
    pub fn text_without_main(&mut self, at: &Place, main: Language) {
        self.error("text-without-main", at, &[("tag", main.tag().into())]);
    }

    /// Texts of a file that a job wants in a language they do not have.
    pub fn text_not_translated(&mut self, at: &Place, count: usize, language: Language) {
        let parts = [("count", count.into()), ("tag", language.tag().into())];
        self.warning("text-not-translated", at, &parts);
    }
}
