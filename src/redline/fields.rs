//! What differs between two pieces of YAML, field by field.
//!
//! From one to the other and back gives the same fields with their sides exchanged.

use std::collections::BTreeMap;

use super::What;
use super::tree::Tree;

/// A field that differs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Field {
    /// Names from the top.
    pub(super) path: Vec<String>,
    pub(super) what: What,
    pub(super) before: String,
    pub(super) after: String,
}

/// Keys by which the maps of a list are told apart, the first that all of them have.
const NAMES: [&str; 10] =
    ["id", "name", "item", "part", "firm", "key", "of", "width", "rule", "role"];

/// Maps whose order says something: energy sources stand in the order of isolation.
const ORDERED: [&str; 1] = ["energy"];

/// Every field that differs between two maps; keys in `without` are left out.
pub(super) fn compare(before: &Tree, after: &Tree, without: &[&str]) -> Vec<Field> {
    let mut fields = Fields { path: Vec::new(), list: Vec::new() };
    match (before, after) {
        (Tree::Map(one), Tree::Map(two)) => {
            let kept = |map: &[(String, Tree)]| {
                let kept = map.iter().filter(|(name, _)| !without.contains(&name.as_str()));
                kept.cloned().collect::<Vec<_>>()
            };
            fields.maps(&kept(one), &kept(two));
        }
        _ => fields.both(before, after),
    }
    fields.list
}

struct Fields {
    path: Vec<String>,
    list: Vec<Field>,
}

impl Fields {
    fn add(&mut self, what: What, before: String, after: String) {
        self.list.push(Field { path: self.path.clone(), what, before, after });
    }

    fn below(&mut self, name: &str, before: Option<&Tree>, after: Option<&Tree>) {
        self.path.push(name.to_owned());
        match (before, after) {
            (Some(before), Some(after)) => self.both(before, after),
            (Some(gone), None) => self.add(What::Removed, gone.line(), String::new()),
            (None, Some(new)) => self.add(What::Added, String::new(), new.line()),
            (None, None) => {}
        }
        self.path.pop();
    }

    fn both(&mut self, before: &Tree, after: &Tree) {
        match (before, after) {
            (one, two) if one == two => {}
            (Tree::Map(one), Tree::Map(two)) => self.maps(one, two),
            (Tree::List(one), Tree::List(two)) => self.lists(one, two),
            (one, two) => self.add(What::Changed, one.line(), two.line()),
        }
    }

    fn maps(&mut self, before: &[(String, Tree)], after: &[(String, Tree)]) {
        let (one, two) = (index(before), index(after));
        for (name, tree) in before {
            self.below(name, Some(tree), two.get(name.as_str()).copied());
        }
        for (name, tree) in after.iter().filter(|(name, _)| !one.contains_key(name.as_str())) {
            self.below(name, None, Some(tree));
        }
        if self.path.len() == 1 && self.path.first().is_some_and(|top| ORDERED.contains(&&**top)) {
            let names = |map: &[(String, Tree)]| map.iter().map(|(name, _)| name.clone()).collect();
            self.order(names(before), names(after));
        }
    }

    fn lists(&mut self, before: &[Tree], after: &[Tree]) {
        match names(before, after) {
            Some(key) => {
                let named = |list: &[Tree]| {
                    let name = |tree: &Tree| tree.get(key).and_then(Tree::text).map(str::to_owned);
                    let named = list.iter().filter_map(|tree| Some((name(tree)?, tree.clone())));
                    named.collect::<Vec<_>>()
                };
                let (one, two) = (named(before), named(after));
                self.maps(&one, &two);
                let names = |list: &[(String, Tree)]| list.iter().map(|(n, _)| n.clone()).collect();
                self.order(names(&one), names(&two));
            }
            None => self.items(before, after),
        }
    }

    /// Items without names: those that only one of the lists has, or another order of the same.
    fn items(&mut self, before: &[Tree], after: &[Tree]) {
        let lines = |list: &[Tree]| list.iter().map(Tree::line).collect::<Vec<_>>();
        let (one, two) = (lines(before), lines(after));
        let (gone, new) = (without(&one, &two), without(&two, &one));
        for item in gone {
            self.add(What::Removed, item, String::new());
        }
        for item in new {
            self.add(What::Added, String::new(), item);
        }
        self.order(one, two);
    }

    /// Says when what both lists have stands in another order.
    fn order(&mut self, before: Vec<String>, after: Vec<String>) {
        let (gone, new) = (without(&before, &after), without(&after, &before));
        let (one, two) = (without(&before, &gone), without(&after, &new));
        if one != two {
            self.add(What::Moved, one.join(", "), two.join(", "));
        }
    }
}

fn index(map: &[(String, Tree)]) -> BTreeMap<&str, &Tree> {
    map.iter().map(|(name, tree)| (name.as_str(), tree)).collect()
}

/// The key by which the maps of both lists are told apart; none when there is no such key.
fn names(before: &[Tree], after: &[Tree]) -> Option<&'static str> {
    let tells = |list: &[Tree], key: &str| {
        let names: Vec<&str> =
            list.iter().filter_map(|tree| tree.get(key).and_then(Tree::text)).collect();
        let mut once = names.clone();
        once.sort_unstable();
        once.dedup();
        names.len() == list.len() && once.len() == list.len()
    };
    NAMES.into_iter().find(|key| tells(before, key) && tells(after, key))
}

/// The items of a list that another does not have; one that stands twice is taken twice.
fn without(list: &[String], other: &[String]) -> Vec<String> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for item in other {
        *counts.entry(item).or_default() += 1;
    }
    let mut lacks = |item: &str| match counts.get_mut(item).filter(|count| **count > 0) {
        Some(count) => {
            *count -= 1;
            false
        }
        None => true,
    };
    list.iter().filter(|item| lacks(item)).cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::super::What;
    use super::super::tree::Tree;
    use super::compare;

    /// Wants these fields one way, and the same fields with their sides exchanged the other way.
    #[track_caller]
    fn check(before: &str, after: &str, expected: &[&str]) {
        let (one, two) = (Tree::of(before), Tree::of(after));
        let said = |before: &Tree, after: &Tree, back: bool| {
            let fields = compare(before, after, &["skip"]);
            let mut said: Vec<String> = fields
                .into_iter()
                .map(|field| {
                    let (mut sides, mut what) = ([field.before, field.after], field.what);
                    if back {
                        sides.reverse();
                        what = what.back();
                    }
                    let sign = match what {
                        What::Added => "+",
                        What::Removed => "-",
                        What::Moved => "~",
                        _ => "",
                    };
                    format!("{sign}{} {}|{}", field.path.join("."), sides[0], sides[1])
                })
                .collect();
            said.sort();
            said
        };
        assert_eq!(said(&one, &two, false), expected, "{before} -> {after}");
        assert_eq!(said(&two, &one, true), expected, "{after} -> {before}, back");
    }

    #[test]
    fn what_is_written_in_another_way_is_the_same() {
        check("a: [x, y]\nb: 1", "b: \"1\"\na:\n  - x # why\n  - y", &[]);
        check("a: 1\nskip: 1", "a: 1\nskip: 2", &[]);
    }

    #[test]
    fn fields_are_named_by_their_path() {
        check("a: { b: 1, c: 2 }", "a: { b: 3 }\nd: x", &["+d |x", "-a.c 2|", "a.b 1|3"]);
        check("a: { b: 1 }", "a: x", &["a b: 1|x"]);
        check("a: 1.10", "a: 1.1", &["a 1.10|1.1"]);
    }

    #[test]
    fn lists_are_told_apart_by_names_or_items() {
        check("a: [x, y, x]", "a: [y, x]", &["-a x|"]);
        check("a: [x, y]", "a: [y, z]", &["+a |z", "-a x|"]);
        check(
            "a: [{ name: p, at: 1 }, { name: q, at: 2 }]",
            "a: [{ name: q, at: 3 }, { name: p, at: 1 }]",
            &["a.q.at 2|3", "~a p, q|q, p"],
        );
        check("a: [[1, 2], [3, 4]]", "a: [[1, 2], [3, 5]]", &["+a |3, 5", "-a 3, 4|"]);
    }

    #[test]
    fn only_the_order_of_sources_counts() {
        check("a: { b: 1, c: 2 }", "a: { c: 2, b: 1 }", &[]);
        check("energy: { b: 1, c: 2 }", "energy: { c: 2, b: 1 }", &["~energy b, c|c, b"]);
    }
}
