//! The critical path: when work can begin and must begin that waits for other work and for nobody.
//!
//! Values in, values out. Knows no person and no place: what they add is in [`super::crew`]. Times
//! are whole minutes from the start; those too long for a `u32` are given as its greatest value.

use std::collections::BTreeSet;

/// Something that takes time and waits for others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Activity {
    /// How long it takes.
    pub minutes: u32,
    /// Those that end before it begins, by their places in the list.
    pub after: Vec<usize>,
}

/// When an activity can and when it must begin and end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Times {
    /// When everything it waits for has ended at the earliest.
    pub early_start: u32,
    /// Early start and its minutes.
    pub early_end: u32,
    /// When it begins at the latest so that the whole ends no later.
    pub late_start: u32,
    /// When it ends at the latest so that the whole ends no later.
    pub late_end: u32,
    /// How late it may begin before the whole ends later: late start less early start.
    pub total_float: u32,
    /// How late it may begin before anything else does: the least early start of those that wait
    /// for it, or the end of the whole, less its early end.
    pub free_float: u32,
}

impl Times {
    /// Whether a minute more of it is a minute more of the whole.
    pub fn is_critical(&self) -> bool {
        self.total_float == 0
    }
}

/// The times of all activities, for a crew that is never short of people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Network {
    /// How long the whole takes.
    pub minutes: u32,
    /// Those of each activity, in the order of the list.
    pub times: Vec<Times>,
}

/// Activities of which none can ever begin.
///
/// Each waits for the next and the last for the first; or it is one that waits for something that
/// is not in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Circle {
    /// Their places in the list.
    pub activities: Vec<usize>,
}

/// Works out when each activity can and must begin.
///
/// Forwards `early start = max(early end of those before)`, backwards
/// `late end = min(late start of those after)`, both with the minutes of the activity between.
///
/// Source: the critical path method as in any textbook; checked below against two published
/// examples.
///
/// # Errors
/// [`Circle`] when activities wait for each other.
pub fn network(activities: &[Activity]) -> Result<Network, Circle> {
    let order = in_order(activities)?;
    let length = |place: usize| u64::from(activities[place].minutes);
    let mut starts = vec![0; activities.len()];
    for &place in &order {
        let ends = activities[place].after.iter().map(|&before| starts[before] + length(before));
        starts[place] = ends.max().unwrap_or(0);
    }
    let whole = order.iter().map(|&place| starts[place] + length(place)).max().unwrap_or(0);
    let (mut late_ends, mut next_starts) = (vec![whole; order.len()], vec![whole; order.len()]);
    for &place in order.iter().rev() {
        for &before in &activities[place].after {
            late_ends[before] = late_ends[before].min(late_ends[place] - length(place));
            next_starts[before] = next_starts[before].min(starts[place]);
        }
    }
    let times = |place: usize| {
        let (start, late_end, length) = (starts[place], late_ends[place], length(place));
        Times {
            early_start: at_most(start),
            early_end: at_most(start + length),
            late_start: at_most(late_end - length),
            late_end: at_most(late_end),
            total_float: at_most(late_end - length - start),
            free_float: at_most(next_starts[place] - start - length),
        }
    };
    Ok(Network { minutes: at_most(whole), times: (0..order.len()).map(times).collect() })
}

/// A time as it is given.
fn at_most(minutes: u64) -> u32 {
    u32::try_from(minutes).unwrap_or(u32::MAX)
}

/// Places of all activities so that each comes after those it waits for; of those that could come
/// next, the one that stands first in the list.
pub(super) fn in_order(activities: &[Activity]) -> Result<Vec<usize>, Circle> {
    let mut waiting = vec![0; activities.len()];
    let mut next = vec![Vec::new(); activities.len()];
    for (place, activity) in activities.iter().enumerate() {
        for &before in &activity.after {
            let Some(followers) = next.get_mut(before) else {
                return Err(Circle { activities: vec![place] });
            };
            followers.push(place);
            waiting[place] += 1;
        }
    }
    let mut ready: BTreeSet<usize> = (0..waiting.len()).filter(|&i| waiting[i] == 0).collect();
    let mut order = Vec::with_capacity(activities.len());
    while let Some(place) = ready.pop_first() {
        order.push(place);
        for &follower in &next[place] {
            waiting[follower] -= 1;
            if waiting[follower] == 0 {
                ready.insert(follower);
            }
        }
    }
    match waiting.iter().position(|&count| count > 0) {
        None => Ok(order),
        Some(stuck) => Err(circle(activities, &waiting, stuck)),
    }
}

/// The circle that holds up an activity: each that is held up waits for another that is.
fn circle(activities: &[Activity], waiting: &[usize], stuck: usize) -> Circle {
    let mut way = vec![stuck];
    let mut last = stuck;
    while let Some(&before) = activities[last].after.iter().find(|&&before| waiting[before] > 0) {
        if let Some(first) = way.iter().position(|&place| place == before) {
            return Circle { activities: way.split_off(first) };
        }
        way.push(before);
        last = before;
    }
    Circle { activities: way }
}

#[cfg(test)]
mod tests {
    use super::{Activity, Circle, Network, network};

    /// Activities as people write them: `D 3 B` is D, takes 3 minutes, waits for B.
    fn activities(table: &str) -> (Vec<String>, Vec<Activity>) {
        let lines = || table.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
        let names: Vec<String> = lines().map(|words| words[0].to_owned()).collect();
        let place = |name: &&str| names.iter().position(|known| known == name).unwrap();
        let activity = |words: Vec<&str>| Activity {
            minutes: words[1].parse().unwrap(),
            after: words[2..].iter().map(place).collect(),
        };
        let activities = lines().map(activity).collect();
        (names, activities)
    }

    /// The whole, and of each activity early start, late start, total and free float.
    #[track_caller]
    fn check(table: &str, minutes: u32, expected: &[(&str, [u32; 4])]) {
        let (names, activities) = activities(table);
        let network = network(&activities).unwrap();
        assert_eq!(network.minutes, minutes);
        assert_eq!(expected.len(), activities.len());
        for (name, expected) in expected {
            let place = names.iter().position(|known| known == name).unwrap();
            let (times, length) = (network.times[place], activities[place].minutes);
            let found = [times.early_start, times.late_start, times.total_float, times.free_float];
            assert_eq!(found, *expected, "{name}");
            let ends = [times.early_end, times.late_end];
            assert_eq!(ends, [expected[0] + length, expected[1] + length], "{name}");
            assert_eq!(times.is_critical(), expected[2] == 0, "{name}");
        }
    }

    /// Source: a university's course sheet on critical paths; critical are A, B, D, E and G.
    #[test]
    fn the_first_published_example() {
        let table = "A 6\nB 2 A\nC 2 A\nD 3 B\nF 2 C\nE 4 D F\nG 1 E";
        let expected = [
            ("A", [0, 0, 0, 0]),
            ("B", [6, 6, 0, 0]),
            ("C", [6, 7, 1, 0]),
            ("D", [8, 8, 0, 0]),
            ("F", [8, 9, 1, 1]),
            ("E", [11, 11, 0, 0]),
            ("G", [15, 15, 0, 0]),
        ];
        check(table, 16, &expected);
    }

    /// Source: lecture slides on critical paths, for the starts; critical are A, C, F, G and H. Free
    /// floats: computed here.
    #[test]
    fn the_second_published_example() {
        let table = "A 4\nB 3 A\nC 5 A\nD 2 A\nE 5 B C\nF 6 C D\nG 4 E F\nH 3 G";
        let expected = [
            ("A", [0, 0, 0, 0]),
            ("B", [4, 7, 3, 2]),
            ("C", [4, 4, 0, 0]),
            ("D", [4, 7, 3, 3]),
            ("E", [9, 10, 1, 1]),
            ("F", [9, 9, 0, 0]),
            ("G", [15, 15, 0, 0]),
            ("H", [19, 19, 0, 0]),
        ];
        check(table, 22, &expected);
    }

    /// Computed here: a changeover in minutes.
    #[test]
    fn a_changeover() {
        let table = "lock 2\nguards 3 lock\nold-film 4 guards\nknives 12 guards\nrails 8 guards\n\
                     new-film 6 old-film knives\ntorque 4 knives rails\ncheck 5 new-film torque\n\
                     unlock 1 check";
        let expected = [
            ("lock", [0, 0, 0, 0]),
            ("guards", [2, 2, 0, 0]),
            ("old-film", [5, 13, 8, 8]),
            ("knives", [5, 5, 0, 0]),
            ("rails", [5, 11, 6, 4]),
            ("new-film", [17, 17, 0, 0]),
            ("torque", [17, 19, 2, 2]),
            ("check", [23, 23, 0, 0]),
            ("unlock", [28, 28, 0, 0]),
        ];
        check(table, 29, &expected);
    }

    #[test]
    fn several_ends_and_none() {
        check("A 3\nB 5\nC 0 A", 5, &[("A", [0, 2, 2, 0]), ("B", [0; 4]), ("C", [3, 5, 2, 2])]);
        assert_eq!(network(&[]), Ok(Network { minutes: 0, times: Vec::new() }));
    }

    #[test]
    fn circles_are_refused() {
        #[track_caller]
        fn refused(after: &[&[usize]], circle: &[usize]) {
            let activity = |after: &&[usize]| Activity { minutes: 1, after: after.to_vec() };
            let activities: Vec<Activity> = after.iter().map(activity).collect();
            assert_eq!(network(&activities), Err(Circle { activities: circle.to_vec() }));
        }
        refused(&[&[0]], &[0]);
        refused(&[&[], &[0, 2], &[3], &[1]], &[1, 2, 3]);
        refused(&[&[1], &[2], &[1]], &[1, 2]);
        refused(&[&[], &[7]], &[1]);
    }

    #[test]
    fn times_too_long_are_the_greatest() {
        let chain = |place: usize| Activity { minutes: u32::MAX, after: (0..place).collect() };
        let activities: Vec<Activity> = (0..4).map(chain).collect();
        let network = network(&activities).unwrap();
        assert_eq!((network.minutes, network.times[0].early_end), (u32::MAX, u32::MAX));
        assert_eq!((network.times[3].early_start, network.times[3].total_float), (u32::MAX, 0));
    }
}
