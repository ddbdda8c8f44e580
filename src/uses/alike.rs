//! Names that are likely the same thing: they differ only in case, spaces or one letter.
//!
//! Numbers and single letters must agree, for a key of 5 mm is none of 6 mm and axis A is not axis B.
//! Linear in the length of all names: two names a letter apart share one of their shortened forms, so
//! no name is compared with every other. Must never decide: what it finds is a question to a person.

use std::collections::{BTreeMap, BTreeSet};

use super::{Index, Kind};

/// Names of one kind that are likely the same.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Alike<'i> {
    /// What they are.
    pub kind: Kind,
    /// The names as they are written.
    pub names: BTreeSet<&'i str>,
}

/// Letters of a name from which on one of them may be a slip.
const SHORTEST: usize = 5;
/// Letters up to which a name is compared letter by letter; a longer one only by case and spaces.
const LONGEST: usize = 80;

/// Groups of names that are likely the same thing, kind by kind.
pub fn alike<'i>(index: &'i Index) -> Vec<Alike<'i>> {
    Kind::ALL.into_iter().flat_map(|kind| of_kind(index, kind)).collect()
}

fn of_kind<'i>(index: &'i Index, kind: Kind) -> Vec<Alike<'i>> {
    let mut names: BTreeSet<&str> = BTreeSet::new();
    // What only ships is the program's own affair.
    let mut own: BTreeSet<&str> = BTreeSet::new();
    for (id, thing) in index.of(kind) {
        let named = thing.names.iter().copied().filter(|name| !is_only_case(id, name));
        let named: Vec<&str> = [id].into_iter().chain(named).collect();
        if thing.is_own() {
            own.extend(&named);
        }
        names.extend(named);
    }
    let groups = groups(&names).into_iter().filter(|names| !names.is_disjoint(&own));
    groups.map(|names| Alike { kind, names }).filter(|one| !is_one_thing(index, one)).collect()
}

/// An identifier and the name of the same thing may well be the same word.
fn is_only_case(id: &str, name: &str) -> bool {
    plain(id) == plain(name)
}

/// Whether all of these are the identifier and the names of a single thing whose names agree.
fn is_one_thing(index: &Index, one: &Alike) -> bool {
    index.of(one.kind).any(|(id, thing)| {
        let rest = one.names.iter().filter(|name| **name != id);
        one.names.contains(id)
            && rest.clone().count() < 2
            && rest.clone().all(|name| thing.names.contains(name))
    })
}

/// Names that are a letter or less apart, put together.
fn groups<'n>(names: &BTreeSet<&'n str>) -> Vec<BTreeSet<&'n str>> {
    let mut by_plain: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    for name in names {
        by_plain.entry(plain(name)).or_default().insert(name);
    }
    // Of every shortened form, the plain names that have it.
    let mut by_form: BTreeMap<String, Vec<&String>> = BTreeMap::new();
    for name in by_plain.keys() {
        let numbers = numbers(name);
        for form in forms(name) {
            by_form.entry(format!("{numbers}|{form}")).or_default().push(name);
        }
    }
    let mut leader: BTreeMap<&String, &String> = BTreeMap::new();
    for sharing in by_form.values() {
        let Some((first, others)) = sharing.split_first() else { continue };
        for other in others.iter().filter(|other| are_near(first, other)) {
            let (one, two) = (leads(&leader, first), leads(&leader, other));
            if one != two {
                leader.insert(two, one);
            }
        }
    }
    let mut together: BTreeMap<&String, BTreeSet<&str>> = BTreeMap::new();
    for (name, written) in &by_plain {
        together.entry(leads(&leader, name)).or_default().extend(written);
    }
    together.into_values().filter(|names| names.len() > 1).collect()
}

fn leads<'n>(leader: &BTreeMap<&'n String, &'n String>, name: &'n String) -> &'n String {
    let mut name = name;
    while let Some(next) = leader.get(name) {
        name = next;
    }
    name
}

/// The name itself and the name without each one of its letters.
fn forms(name: &str) -> Vec<String> {
    let letters: Vec<char> = name.chars().collect();
    let mut forms = vec![name.to_owned()];
    if (SHORTEST..=LONGEST).contains(&letters.len()) {
        let without = |left: usize| {
            letters.iter().enumerate().filter(|(at, _)| *at != left).map(|(_, c)| *c).collect()
        };
        forms.extend((0..letters.len()).map(without));
    }
    forms
}

/// Whether two plain names are a letter apart, with the same numbers.
fn are_near(one: &str, two: &str) -> bool {
    numbers(one) == numbers(two)
        && (one == two || strsim::damerau_levenshtein(one, two) == 1)
        && !is_other_word(one, two)
}

/// Words of one letter stand for different things: axis A and axis B.
fn is_other_word(one: &str, two: &str) -> bool {
    let singles =
        |name: &str| name.split(' ').filter(|word| word.chars().count() == 1).collect::<String>();
    one.split(' ').count() == two.split(' ').count() && singles(one) != singles(two)
}

fn numbers(name: &str) -> String {
    let has_digit = |word: &&str| word.contains(|c: char| c.is_ascii_digit());
    name.split(' ').filter(has_digit).collect::<Vec<_>>().join(" ")
}

/// A name without case, with one space between words, between a number and its unit, and none else.
pub(super) fn plain(name: &str) -> String {
    let mut plain = String::new();
    let mut last = ' ';
    for c in name.chars().flat_map(char::to_lowercase) {
        let is_letter = c.is_alphanumeric() || "%°µ".contains(c);
        let turns = last.is_ascii_digit() != c.is_ascii_digit() && last != ' ';
        if is_letter {
            if turns && last != '.' {
                plain.push(' ');
            }
            plain.push(c);
            last = c;
        } else if matches!(c, '.' | ',' | '/') && last.is_ascii_digit() {
            plain.push('.');
            last = '.';
        } else if last != ' ' {
            plain.push(' ');
            last = ' ';
        }
    }
    plain
        .split(' ')
        .map(|word| word.trim_matches('.'))
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{groups, plain};

    #[test]
    fn case_spaces_and_signs_do_not_count() {
        let same = ["Hex key 5 mm", "hex key 5mm", "Hex-key  5 mm.", "hex_key 5 MM"];
        for name in same {
            assert_eq!(plain(name), "hex key 5 mm", "{name}");
        }
        assert_eq!(plain("hex key 2.5 mm"), "hex key 2.5 mm");
        assert_eq!(plain("M6x20"), "m 6 x 20");
    }

    #[track_caller]
    fn check(names: &[&str], expected: &[&[&str]]) {
        let names: BTreeSet<&str> = names.iter().copied().collect();
        let found: Vec<Vec<&str>> =
            groups(&names).into_iter().map(|group| group.into_iter().collect()).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn a_slip_is_asked_about_and_another_size_is_not() {
        check(&["Hex key 5 mm", "hex key 5mm"], &[&["Hex key 5 mm", "hex key 5mm"]]);
        check(&["Torque wrench", "Torqe wrench"], &[&["Torqe wrench", "Torque wrench"]]);
        check(&["Torque wrench", "Toruqe wrench"], &[&["Torque wrench", "Toruqe wrench"]]);
        check(&["hex key 5 mm", "hex key 6 mm"], &[]);
        check(&["hex key 2.5 mm", "hex key 25 mm"], &[]);
        check(&["axis A stop", "axis B stop"], &[]);
        check(&["air", "oil", "arm"], &[]);
        check(&["steel rule", "steel rules", "scale loupe"], &[&["steel rule", "steel rules"]]);
    }

    /// Each name is looked up, none is compared with all: ten times the names take about ten times as
    /// many forms.
    #[test]
    fn many_names_are_grouped_without_comparing_all() {
        let names: Vec<String> = (0..20_000).map(|n| format!("change part {n:05}")).collect();
        let names: BTreeSet<&str> = names.iter().map(String::as_str).collect();
        assert!(groups(&names).is_empty());
    }
}
