//! What to say of a name that nobody knows: what is wrong, and the known name most like it.

use std::collections::BTreeMap;

use super::parse::FUNCTIONS;
use super::table::Table;
use super::wrong::Wrong;

/// Something is used as a value and has none.
pub(super) fn unknown_name<'a>(
    name: &str,
    known: impl Iterator<Item = &'a String>,
    tables: &BTreeMap<String, Table>,
) -> Wrong {
    if tables.contains_key(name) {
        return Wrong::NoArguments(name.to_owned());
    }
    let nearest = nearest(name, known).map(|(_, nearest)| nearest.clone());
    Wrong::UnknownName { name: name.to_owned(), nearest }
}

/// Something is used as a function and is neither function nor table.
pub(super) fn unknown_function(name: &str, tables: &BTreeMap<String, Table>) -> Wrong {
    let shown: String = name.chars().take(40).collect();
    let distances =
        FUNCTIONS.iter().map(|(known, ..)| (strsim::osa_distance(&shown, known), *known));
    let function = distances.min().filter(|(distance, known)| distance * 2 <= known.len());
    let table = nearest(name, tables.keys()).map(|(distance, known)| (distance, known.as_str()));
    let nearest = function.into_iter().chain(table).min().map(|(_, known)| known.to_owned());
    Wrong::UnknownFunction { name: shown, nearest }
}

/// Longest name to which a known one is looked for: nobody mistypes a longer one by a letter or two.
const LONGEST: usize = 40;

/// The known name most like one that is unknown; not looked for among very many, nor for a long one.
///
/// Lengths are those in bytes, as names have ASCII letters only. Two names are at least as far apart
/// as their lengths, so what is too far off by its length is not compared: that takes the product of
/// both lengths.
fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a String>) -> Option<(usize, &'a String)> {
    let known: Vec<&String> = known.take(501).collect();
    if known.len() > 500 || name.len() > LONGEST {
        return None;
    }
    let most = name.len().max(3) / 3;
    let alike = known.into_iter().filter(|known| known.len().abs_diff(name.len()) <= most);
    let distances = alike.map(|known| (strsim::osa_distance(name, known), known));
    distances.min().filter(|(distance, _)| *distance <= most)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[track_caller]
    fn check(name: &str, known: &[&str], expected: Option<(usize, &str)>) {
        let known: Vec<String> = known.iter().map(|known| (*known).to_owned()).collect();
        let found = nearest(name, known.iter());
        assert_eq!(found.map(|(distance, known)| (distance, known.as_str())), expected, "{name}");
    }

    #[test]
    fn a_third_of_the_letters_may_differ() {
        check("flatt", &["fin", "flat"], Some((1, "flat")));
        check("flta", &["flat"], Some((1, "flat")));
        check("fo", &["f", "fooo"], Some((1, "f")));
        check("abcdef", &["abcd"], Some((2, "abcd")));
        check("abcdef", &["abcdefgh"], Some((2, "abcdefgh")));
        check("abcdef", &["abcxyz"], None);
        check("abcdef", &["abc", "abcdefghi"], None);
        check("anything", &[], None);
    }

    /// To compare names of a thousand letters once took most of the time of a run.
    #[test]
    fn long_names_are_not_compared() {
        let name = |letters: usize| "x".repeat(letters);
        check(&name(40), &[&name(41), &name(1000)], Some((1, &name(41))));
        check(&name(41), &[&name(40)], None);
    }
}
