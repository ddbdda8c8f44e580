//! A time to wait that a text says: `Wait 10 minutes after the disconnect is off.`

use crate::quantity::Measure;

/// The longest time that a sentence with the word "wait" names; none when no sentence does.
pub(super) fn waits(text: &str) -> Option<Measure> {
    let text = text.to_lowercase().replace('-', " ");
    let words: Vec<&str> = text.split_whitespace().collect();
    let sentences = words.split_inclusive(|word| word.ends_with(['.', ';', '!', '?']));
    let waiting = sentences.filter(|words| words.iter().any(|word| word.starts_with("wait")));
    let times = waiting.flat_map(|words| words.windows(2)).filter_map(time);
    times.max_by_key(|time| time.quantity.amount)
}

/// `["10", "minutes."]` is ten minutes.
fn time(pair: &[&str]) -> Option<Measure> {
    let [number, unit] = pair else { return None };
    let unit = match unit.trim_end_matches(|c: char| !c.is_alphabetic()) {
        "s" | "second" | "seconds" => "s",
        "min" | "minute" | "minutes" => "min",
        "h" | "hour" | "hours" => "h",
        _ => return None,
    };
    Measure::parse(&format!("{number} {unit}")).ok()
}

#[cfg(test)]
mod tests {
    use super::waits;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let found = waits(text).map_or(String::new(), |time| time.shortest(3));
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn a_time_to_wait_is_found() {
        check("Wait 5 minutes after the disconnect is off.", "5 min");
        check("Push in the pin. Wait 2.5 min.", "2.5 min");
        check("After a 10-minute wait, open the drain.", "10 min");
        check("Wait 30 seconds; wait 1 hour.", "1 h");
    }

    #[test]
    fn other_times_and_other_waits_are_left_alone() {
        check("Let water run for 5 minutes.", "");
        check("Wait until the arm rests on pin P2. Let water run for 5 minutes.", "");
        check("Wait for the lamp H2.", "");
        check("", "");
    }
}
