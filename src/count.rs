//! A number and a thing, in plain English.

/// `1 job`, `2 jobs`; of several words the last one takes the ending.
pub fn count(number: usize, thing: &str) -> String {
    match (number, thing.strip_suffix('y')) {
        (1, _) => format!("1 {thing}"),
        (_, Some(stem)) => format!("{number} {stem}ies"),
        (_, None) => format!("{number} {thing}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::count;

    #[test]
    fn one_thing_has_no_ending() {
        let said = [count(1, "job"), count(2, "job"), count(0, "missing entry")];
        assert_eq!(said, ["1 job", "2 jobs", "0 missing entries"]);
    }
}
