//! Which item of one list is which of another: the same name, or so much alike that it was renamed.
//!
//! Both directions give the same pairs, and the same items as moved. Time grows with the length times
//! its logarithm, but for the few that have no name in common.

/// What is known of an item.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Item {
    /// Its name, once in a list.
    pub(super) name: String,
    /// Its words.
    pub(super) words: Vec<String>,
}

/// Two items that are the same one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pair {
    pub(super) before: usize,
    pub(super) after: usize,
    /// Whether it stands in another place among the others.
    pub(super) moved: bool,
}

/// From how many words in a hundred in common on a renamed item is the same one.
const ALIKE: usize = 60;

/// Among more items without a partner none is looked for: comparing takes time.
const MOST_COMPARED: usize = 200;

/// The pairs of two lists, in the order of the second.
pub(super) fn align(before: &[Item], after: &[Item]) -> Vec<Pair> {
    if before > after {
        let mut pairs = align(after, before);
        for pair in &mut pairs {
            (pair.before, pair.after) = (pair.after, pair.before);
        }
        pairs.sort_by_key(|pair| pair.after);
        return pairs;
    }
    let mut pairs = same_names(before, after);
    pairs.extend(renamed(before, after, &pairs));
    pairs.sort_by_key(|pair| pair.after);
    let places: Vec<usize> = pairs.iter().map(|pair| pair.before).collect();
    let stays = longest_rising(&places);
    for (pair, stays) in pairs.iter_mut().zip(stays) {
        pair.moved = !stays;
    }
    pairs
}

fn same_names(before: &[Item], after: &[Item]) -> Vec<Pair> {
    let places = before.iter().enumerate().map(|(at, item)| (item.name.as_str(), at));
    let places: std::collections::BTreeMap<&str, usize> = places.collect();
    let pair = |(after, item): (usize, &Item)| {
        let before = *places.get(item.name.as_str())?;
        Some(Pair { before, after, moved: false })
    };
    after.iter().enumerate().filter_map(pair).collect()
}

/// Pairs among what has no partner, the most alike first.
fn renamed(before: &[Item], after: &[Item], pairs: &[Pair]) -> Vec<Pair> {
    let mut taken_before: std::collections::BTreeSet<usize> =
        pairs.iter().map(|pair| pair.before).collect();
    let mut taken_after: std::collections::BTreeSet<usize> =
        pairs.iter().map(|pair| pair.after).collect();
    let free = |list: &'_ [Item], taken: &std::collections::BTreeSet<usize>| {
        (0..list.len()).filter(|at| !taken.contains(at)).collect::<Vec<_>>()
    };
    let (old, new) = (free(before, &taken_before), free(after, &taken_after));
    if old.len() > MOST_COMPARED || new.len() > MOST_COMPARED {
        return Vec::new();
    }
    let mut candidates = Vec::new();
    for &one in &old {
        for &two in &new {
            let (Some(own), Some(other)) = (before.get(one), after.get(two)) else { continue };
            let share = alike(&own.words, &other.words);
            if share >= ALIKE {
                candidates.push((usize::MAX - share, one, two));
            }
        }
    }
    candidates.sort_unstable();
    let mut found = Vec::new();
    for (_, one, two) in candidates {
        if !taken_before.contains(&one) && !taken_after.contains(&two) {
            taken_before.insert(one);
            taken_after.insert(two);
            found.push(Pair { before: one, after: two, moved: false });
        }
    }
    found
}

/// How many words in a hundred two texts have in common, in whatever order.
pub(super) fn alike(one: &[String], two: &[String]) -> usize {
    let sorted = |words: &[String]| {
        let mut words: Vec<String> = words.iter().map(|word| word.to_lowercase()).collect();
        words.sort_unstable();
        words
    };
    let (one, two) = (sorted(one), sorted(two));
    let (mut at, mut common) = (0, 0_usize);
    for word in &one {
        while two.get(at).is_some_and(|other| other < word) {
            at += 1;
        }
        if two.get(at) == Some(word) {
            (at, common) = (at + 1, common + 1);
        }
    }
    (200_usize * common).checked_div(one.len() + two.len()).unwrap_or(0)
}

/// Which numbers of a list belong to one of its longest rising rows.
fn longest_rising(list: &[usize]) -> Vec<bool> {
    // Ends of the best row of each length so far, and who stands before each number in its row.
    let mut ends: Vec<usize> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(list.len());
    for (at, number) in list.iter().enumerate() {
        let length = ends.partition_point(|end| list.get(*end).is_some_and(|last| last < number));
        before.push(length.checked_sub(1).and_then(|last| ends.get(last).copied()));
        match ends.get_mut(length) {
            Some(end) => *end = at,
            None => ends.push(at),
        }
    }
    let mut stays = vec![false; list.len()];
    let mut next = ends.last().copied();
    while let Some(at) = next {
        if let Some(stay) = stays.get_mut(at) {
            *stay = true;
        }
        next = before.get(at).copied().flatten();
    }
    stays
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Item, align};

    fn items(text: &str) -> Vec<Item> {
        let item = |text: &str| {
            let (name, words) = text.split_once(':').unwrap_or((text, text));
            let words = words.split(' ').map(str::to_owned).collect();
            Item { name: name.to_owned(), words }
        };
        text.split_terminator(';').map(item).collect()
    }

    #[track_caller]
    fn check(before: &str, after: &str, expected: &str) {
        let (before, after) = (items(before), items(after));
        let said: Vec<String> = align(&before, &after)
            .iter()
            .map(|pair| {
                let sign = if pair.moved { "~" } else { "" };
                format!("{sign}{}={}", before[pair.before].name, after[pair.after].name)
            })
            .collect();
        assert_eq!(said.join(" "), expected);
    }

    #[test]
    fn items_keep_their_names_or_their_words() {
        check("a;b;c", "a;x;c", "a=a c=c");
        check("a;b;c", "c;a;b", "~c=c a=a b=b");
        check("a;b:one two three", "n:one two four three;a", "~b=n a=a");
        check("", "a", "");
    }

    proptest! {
        #[test]
        fn both_ways_give_the_same_pairs(
            one in proptest::collection::vec("[a-f]", 0..7),
            two in proptest::collection::vec("[a-f]", 0..7),
        ) {
            let list = |names: Vec<String>| {
                let mut names = names;
                let mut seen = std::collections::BTreeSet::new();
                names.retain(|name| seen.insert(name.clone()));
                items(&(names.join(";") + ";"))
            };
            let (one, two) = (list(one), list(two));
            let mut back: Vec<_> =
                align(&two, &one).iter().map(|p| (p.after, p.before, p.moved)).collect();
            back.sort_by_key(|pair| pair.1);
            let there: Vec<_> =
                align(&one, &two).iter().map(|p| (p.before, p.after, p.moved)).collect();
            prop_assert_eq!(there, back);
        }
    }
}
