//! The text of a recipe with other values in it: comments, order and everything else stay as they are.

use crate::finding::place::MarkedText;

/// A value to be put in: the way to its field, and what stands there from now on, as YAML.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Edit {
    pub(super) path: Vec<String>,
    pub(super) yaml: String,
}

impl Edit {
    /// A text at a field.
    pub(super) fn text(path: &[&str], text: &str) -> Edit {
        Edit { path: path.iter().map(|key| (*key).to_owned()).collect(), yaml: scalar(text) }
    }

    /// A list of texts at a field.
    pub(super) fn list(path: &[&str], texts: &[String]) -> Edit {
        let yaml = texts.iter().map(|text| scalar(text)).collect::<Vec<_>>().join(", ");
        Edit { yaml: format!("[{yaml}]"), ..Edit::text(path, "") }
    }
}

/// The text with every edit made. All fields must be there: one that is not stays away, which the
/// caller notices when it reads the text again.
pub(super) fn edited<'e>(text: &str, edits: &'e [Edit]) -> String {
    let marked = MarkedText::of(text);
    let place = |edit: &'e Edit| Some((marked.value(&edit.path)?, edit.yaml.as_str()));
    let mut places: Vec<_> = edits.iter().filter_map(place).collect();
    places.sort_by_key(|(range, _)| range.start);
    let (mut edited, mut from) = (String::new(), 0);
    for (range, yaml) in places {
        edited += text.get(from..range.start).unwrap_or_default();
        edited += yaml;
        from = range.end.max(from);
    }
    edited + text.get(from..).unwrap_or_default()
}

/// A text as a YAML scalar: bare where nothing in it could be taken for anything else.
fn scalar(text: &str) -> String {
    let is_plain = |c: char| c.is_alphanumeric() || " .-_/±°µ·²³".contains(c);
    let has_letter = text.chars().any(char::is_alphabetic);
    let is_word = |word: &str| text.eq_ignore_ascii_case(word);
    let is_taken =
        ["y", "n", "yes", "no", "on", "off", "true", "false", "null"].into_iter().any(is_word);
    let starts = text.starts_with(|c: char| c.is_alphanumeric() || c == '±');
    let is_number = text.len() < 10
        && text.chars().all(|c| c.is_ascii_digit())
        && (text == "0" || !text.starts_with('0'));
    // `1e5`, `0x1f` and `2026-01-05` are more than texts to a reader of YAML.
    let is_unit = text.contains(' ') || !text.starts_with(|c: char| c.is_ascii_digit());
    let is_bare = starts && text.trim() == text && text.chars().all(is_plain) && !is_taken;
    match is_bare && (is_number || (has_letter && is_unit)) {
        true => text.to_owned(),
        false => quoted(text),
    }
}

fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            _ => quoted.push(c),
        }
    }
    quoted + "\""
}

#[cfg(test)]
mod tests {
    use super::{Edit, edited, scalar};

    const YAML: &str = "# The pattern\nid: a  # as the file\nname: { en: A, es: B }\ninputs: { w: 28 mm, h: \"3 mm\" }\nsettings:\n  t:\n    formula: 142 °C\nmachines: [one]\n";

    #[test]
    fn values_are_put_in_and_all_else_stays() {
        let edits = [
            Edit::text(&["settings", "t", "formula"], "150.5 °C"),
            Edit::text(&["id"], "b-2"),
            Edit::text(&["name"], "Lime: \"large\""),
            Edit::text(&["inputs", "h"], "-4 mm"),
            Edit::text(&["inputs", "w"], "30 mm"),
            Edit::list(&["machines"], &["two".to_owned(), "3".to_owned()]),
        ];
        let expected = "# The pattern\nid: b-2  # as the file\nname: \"Lime: \\\"large\\\"\"\ninputs: { w: 30 mm, h: \"-4 mm\" }\nsettings:\n  t:\n    formula: 150.5 °C\nmachines: [two, 3]\n";
        assert_eq!(edited(YAML, &edits), expected);
    }

    /// Whatever stands in a cell comes out of the YAML as it went in.
    #[test]
    fn no_text_turns_into_anything_else() {
        let texts = [
            "no",
            "NO",
            "0012",
            "1e5",
            "0x1f",
            "1_000",
            "2026-01-05",
            "12:30",
            "- a",
            "a: b",
            "a #b",
            "#a",
            "[a]",
            "{a}",
            "*a",
            "&a",
            "!a",
            "|",
            ">",
            "%a",
            "@a",
            "`a`",
            "'a'",
            "\"a\"",
            "a\\b",
            "ü ñ",
            "±0.5 mm",
            "5",
            "0",
            "",
            " a ",
            "~",
            "null",
            "1.50",
            ".5",
            "=1+2",
            "a, b",
            "28 mm",
            "012 mm",
            "1 1/2 in",
            "a\u{1f600}",
            "?",
            "-",
            "---",
            "...",
            "<<",
            "12,5",
        ];
        for text in texts {
            let yaml = format!("k: {}\nl: [{}]\n", scalar(text), scalar(text));
            let read: serde_yaml::Value = serde_yaml::from_str(&yaml).unwrap();
            let same = |value: &serde_yaml::Value| match value {
                serde_yaml::Value::Number(number) => number.to_string() == text,
                value => value.as_str() == Some(text),
            };
            assert!(same(&read["k"]) && same(&read["l"][0]), "{yaml}");
        }
    }
}
