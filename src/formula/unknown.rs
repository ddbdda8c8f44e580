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
    let table = nearest(&shown, tables.keys()).map(|(distance, known)| (distance, known.as_str()));
    let nearest = function.into_iter().chain(table).min().map(|(_, known)| known.to_owned());
    Wrong::UnknownFunction { name: shown, nearest }
}

/// The known name most like one that is unknown; not looked for among very many.
fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a String>) -> Option<(usize, &'a String)> {
    let known: Vec<&String> = known.take(501).collect();
    if known.len() > 500 {
        return None;
    }
    let known = known.into_iter();
    let distances = known.map(|known| (strsim::osa_distance(name, known), known));
    distances.min().filter(|(distance, _)| distance * 3 <= name.len().max(3))
}
