//! Rules of texts in several languages.

use crate::finding::{Findings, Place};
use crate::language::Language;

/// Rules of a procedure's translation.
impl Findings {
    /// A step of a translation has one block of texts.
    pub fn texts_blocks(&mut self, at: &Place, count: usize) {
        let message =
            format!("a translated step has one block marked `texts`, this one has {count}");
        let way_out = "end the step with ```texts, `of:` and the heading of the source, ```";
        self.error("texts-block", at, message, way_out.to_owned());
    }

    /// A translation of a procedure that is not there.
    pub fn translation_of_nothing(&mut self, at: &Place, id: &str) {
        let message = format!("there is no procedure `{id}` to translate");
        let way_out = "name the file after the procedure, and write its id into `of`".to_owned();
        self.error("translation-of-nothing", at, message, way_out);
    }

    /// A step of a translation stands where the source has another.
    pub fn translation_out_of_step(&mut self, at: &Place, id: &str, of: &str, wanted: &str) {
        let message = format!("this is `{of}`, but here `{id}` has the step `{wanted}`");
        let way_out = format!("translate each step of `{id}` in its order; here: `of: {wanted}`");
        self.error("translation-out-of-step", at, message, way_out);
    }

    /// A step that a translation leaves out.
    pub fn translation_lacks_step(&mut self, at: &Place, id: &str, slug: &str) {
        let message = format!("the step `{slug}` of `{id}` is not translated");
        let way_out = format!("write it behind this one, with `of: {slug}` in its block of texts");
        self.error("translation-lacks-step", at, message, way_out);
    }

    /// A step that only the translation has.
    pub fn translation_has_more(&mut self, at: &Place, id: &str, title: &str) {
        let message = format!("`{id}` has no step for `{title}`");
        let way_out = "take the step out, or write it into the source first".to_owned();
        self.error("translation-has-more", at, message, way_out);
    }

    /// More or fewer texts than the source has.
    pub fn translation_texts_differ(
        &mut self,
        at: &Place,
        title: &str,
        key: &str,
        [source, own]: [usize; 2],
    ) {
        let message = format!("`{title}`: `{key}` has {own} here and {source} in the source");
        let way_out = "translate each text of the source, in its order, and add none".to_owned();
        self.error("translation-texts-differ", at, message, way_out);
    }

    /// A value that the source shows and the translation does not.
    pub fn translation_lacks_value(&mut self, at: &Place, title: &str, name: &str) {
        let message = format!("`{title}` lacks the value {{{{ {name} }}}} of the source");
        let way_out = format!("put {{{{ {name} }}}} where the number or the name belongs");
        self.error("translation-lacks-value", at, message, way_out);
    }

    /// A value that only the translation shows.
    pub fn translation_adds_value(&mut self, at: &Place, title: &str, name: &str) {
        let message = format!("`{title}` shows {{{{ {name} }}}}, which the source does not");
        let way_out = "take it out, or write it into the source first".to_owned();
        self.error("translation-adds-value", at, message, way_out);
    }

    /// A translation of another revision than the one in force.
    pub fn translation_is_old(&mut self, at: &Place, id: &str, from: &str, revision: &str) {
        let message =
            format!("this translates revision {from} of `{id}`, which is at revision {revision}");
        let way_out = format!(
            "compare it with the source, mend it, and write `translates: {revision}`; until then \
             the packet says that it is old"
        );
        self.warning("translation-is-old", at, message, way_out);
    }

    /// A procedure that a job wants in a language it does not have.
    pub fn procedure_not_translated(&mut self, at: &Place, id: &str, language: Language) {
        let tag = language.tag();
        let message = format!("`{id}` is not translated into `{tag}`, which a job asks for");
        let way_out = format!(
            "write instructions/{}/{id}.md; until then its steps stand in the packet as they are",
            language.texts().tag()
        );
        self.warning("procedure-not-translated", at, message, way_out);
    }
}

/// Rules of texts in YAML.
impl Findings {
    /// A text in a language that the plant does not write.
    pub fn language_not_of_plant(&mut self, at: &Place, language: Language) {
        let tag = language.tag();
        let message = format!("`{tag}` is not a language that this plant writes");
        let way_out = format!("add `{tag}` to `languages` in plant.yaml, or take the text out");
        self.error("language-not-of-plant", at, message, way_out);
    }

    /// A text that lacks the language every text has.
    pub fn text_without_main(&mut self, at: &Place, main: Language) {
        let tag = main.tag();
        let message = format!("this text lacks the main language of the plant, `{tag}`");
        let way_out = format!("add `{tag}: ...`: it is shown where a language is missing");
        self.error("text-without-main", at, message, way_out);
    }

    /// Texts of a file that a job wants in a language they do not have.
    pub fn text_not_translated(&mut self, at: &Place, count: usize, language: Language) {
        let tag = language.tag();
        let message = match count {
            1 => format!("this text is not translated into `{tag}`, which a job asks for"),
            _ => format!(
                "{count} texts of this file are not translated into `{tag}`, which a job asks for; \
                 this is the first"
            ),
        };
        let way_out = format!("write `{tag}: ...` beside the other language of each text");
        self.warning("text-not-translated", at, message, way_out);
    }
}
