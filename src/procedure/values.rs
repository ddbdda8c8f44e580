//! Values in text: `{{ name }}`, the only thing a text may put in. No loops, no conditions.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::formula::is_name;

/// What stands between double braces in a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Braces {
    /// A name where a value belongs.
    Name {
        /// The name, `knife_rail.hex_key`.
        name: String,
        /// Bytes from the first to the last brace.
        range: Range<usize>,
        /// Bytes of the name alone.
        inner: Range<usize>,
    },
    /// Braces that hold no name.
    Bad {
        /// Bytes of the fault.
        range: Range<usize>,
        /// What is wrong, as a text.
        why: &'static str,
    },
}

/// Finds all double braces of a text, in order.
pub fn braces(text: &str) -> Vec<Braces> {
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(at) = next_opening(text, from) {
        let inner_start = at + 2;
        if text[at..].starts_with("{%") {
            let why = "braces-with-percent";
            found.push(Braces::Bad { range: at..inner_start, why });
            from = inner_start;
            continue;
        }
        let Some(length) = text[inner_start..].find("}}") else {
            found.push(Braces::Bad { range: at..inner_start, why: "braces-unclosed" });
            break;
        };
        let range = at..inner_start + length + 2;
        let between = &text[inner_start..inner_start + length];
        let name = between.trim();
        let start = inner_start + between.len() - between.trim_start().len();
        found.push(if name.split('.').all(is_name) {
            let inner = start..start + name.len();
            Braces::Name { name: name.to_owned(), range: range.clone(), inner }
        } else {
            let why = "braces-without-name";
            Braces::Bad { range: range.clone(), why }
        });
        from = range.end;
    }
    found
}

fn next_opening(text: &str, from: usize) -> Option<usize> {
    // In one pass: to look for each of the two to the end would take the square of the length.
    let opens = |pair: &[u8]| pair[0] == b'{' && matches!(pair[1], b'{' | b'%');
    text.as_bytes().get(from..)?.windows(2).position(opens).map(|at| from + at)
}

/// The text with every name replaced by its value; a name without a value stays as it stands.
pub fn fill(text: &str, values: &BTreeMap<String, String>) -> String {
    let mut filled = String::new();
    let mut from = 0;
    for brace in braces(text) {
        let Braces::Name { name, range, .. } = brace else { continue };
        let Some(value) = values.get(&name) else { continue };
        filled += &text[from..range.start];
        filled += value;
        from = range.end;
    }
    filled + &text[from..]
}

/// The text with other names between its braces.
pub fn rename(text: &str, name_of: impl Fn(&str) -> String) -> String {
    let mut renamed = String::new();
    let mut from = 0;
    for brace in braces(text) {
        let Braces::Name { name, range, .. } = brace else { continue };
        let new = name_of(&name);
        if new != name {
            renamed += &text[from..range.start];
            renamed += &format!("{{{{ {new} }}}}");
            from = range.end;
        }
    }
    renamed + &text[from..]
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::{Braces, braces, fill, rename};

    #[test]
    fn a_name_is_exchanged_and_nothing_else() {
        let new = |name: &str| name.replace("rail", "rear");
        assert_eq!(
            rename("rail {{rail.key}} {{ a }} ü {{ 1", new),
            "rail {{ rear.key }} {{ a }} ü {{ 1"
        );
    }

    #[test]
    fn names_are_found_with_their_place() {
        let text = "to {{ strip }} and {{knife_rail.hex_key}}";
        let found = braces(text);
        let expected = [("strip", "{{ strip }}"), ("knife_rail.hex_key", "{{knife_rail.hex_key}}")];
        assert_eq!(found.len(), expected.len());
        for (brace, (name, written)) in found.iter().zip(expected) {
            let Braces::Name { name: found, range, inner } = brace else { panic!("{brace:?}") };
            assert_eq!((found.as_str(), &text[range.clone()]), (name, written));
            assert_eq!(&text[inner.clone()], name);
        }
    }

    #[test]
    fn anything_but_a_name_is_refused() {
        for text in ["{{ a + b }}", "{{ }}", "{{ A }}", "{{ a..b }}", "{{ open", "{% if x %}"] {
            assert!(matches!(braces(text)[0], Braces::Bad { .. }), "{text}");
        }
    }

    #[test]
    fn a_value_is_put_in_as_it_is() {
        let values = BTreeMap::from([("a".to_owned(), "{{ b }}".to_owned())]);
        assert_eq!(fill("x {{ a }} {{ c }} ü", &values), "x {{ b }} {{ c }} ü");
    }
}
