//! A piece of YAML as names, lists and texts, each text as it was written.
//!
//! Comments, quotes and the way brackets are set say nothing and are gone. Must never read a number
//! as a number: `1.10` and `1.1` are two texts.

use saphyr::{MarkedYaml, Scalar, YamlData};

use crate::finding::place::MarkedText;

/// Names, lists and texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Tree {
    Text(String),
    List(Vec<Tree>),
    Map(Vec<(String, Tree)>),
}

impl Tree {
    /// Reads a piece of YAML; nothing at all is an empty map.
    pub(super) fn of(yaml: &str) -> Tree {
        let marked = MarkedText::of(yaml);
        marked.top.as_ref().map_or(Tree::Map(Vec::new()), |top| read(&marked, top))
    }

    /// The thing of a name.
    pub(super) fn get(&self, name: &str) -> Option<&Tree> {
        let Tree::Map(map) = self else { return None };
        map.iter().find(|(key, _)| key == name).map(|(_, value)| value)
    }

    /// A text; none for anything else.
    pub(super) fn text(&self) -> Option<&str> {
        match self {
            Tree::Text(text) => Some(text),
            _ => None,
        }
    }

    /// All of it in one line: `low: 3, high: 5`.
    pub(super) fn line(&self) -> String {
        let inner = |tree: &Tree| match tree {
            Tree::Text(text) => text.clone(),
            Tree::List(_) => format!("[{}]", tree.line()),
            Tree::Map(_) => format!("({})", tree.line()),
        };
        match self {
            Tree::Text(text) => text.clone(),
            Tree::List(list) => list.iter().map(inner).collect::<Vec<_>>().join(", "),
            Tree::Map(map) => {
                let named = map.iter().map(|(name, tree)| format!("{name}: {}", inner(tree)));
                named.collect::<Vec<_>>().join(", ")
            }
        }
    }
}

fn read(marked: &MarkedText, node: &MarkedYaml) -> Tree {
    match &node.data {
        YamlData::Sequence(list) => {
            Tree::List(list.iter().map(|item| read(marked, item)).collect())
        }
        YamlData::Mapping(map) => {
            let named = map.iter().map(|(key, value)| (scalar(marked, key), read(marked, value)));
            Tree::Map(named.collect())
        }
        YamlData::Tagged(_, inner) => read(marked, inner),
        _ => Tree::Text(scalar(marked, node)),
    }
}

fn scalar(marked: &MarkedText, node: &MarkedYaml) -> String {
    match &node.data {
        YamlData::Value(Scalar::String(text)) => text.trim_end().to_owned(),
        YamlData::Value(Scalar::Null) => String::new(),
        _ => marked.text(node).to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::Tree;

    #[track_caller]
    fn check(yaml: &str, expected: &str) {
        assert_eq!(Tree::of(yaml).line(), expected, "{yaml}");
    }

    #[test]
    fn texts_stay_as_they_were_written() {
        check("a: 1.10\nb: \"x: y\" # why\nc: [1, true, ~]", "a: 1.10, b: x: y, c: [1, true, ]");
        check("a: >\n  one\n  two\n", "a: one two");
        check("", "");
        check("z:\n  - { a: 1 }\n  - [x, y]", "z: [(a: 1), [x, y]]");
    }
}
