//! How few minutes of stop any order can have, proven.
//!
//! Think of what is on the machine now as one more job, number 0, to which the last job of the night
//! goes back for nothing. Then in every order each job is followed by exactly one and follows exactly
//! one. The cheapest way to give each job another that follows it, whether or not that makes one round
//! of all of them, is the assignment problem. Every order is one such way, so none costs less.
//!
//! That alone says little when jobs fall into groups that cost nothing among themselves: each group may
//! then go round by itself. So a second bound is put on top (additive bounding, Fischetti and Toth
//! 1992). The assignment gives each row and each column a price such that what is left of every cost is
//! not negative, and the prices together are the cost of the assignment. Every order costs the prices
//! and what is left on its way; and its way, without the step back, is a tree that leads from job 0 to
//! all others. So it costs at least the prices and the cheapest such tree in what is left (Chu and Liu
//! 1965, Edmonds 1967).

use super::Jobs;

/// Costs from row to column; none where nothing leads there. Wide enough for any sum of minutes.
type Costs = Vec<Vec<Option<i128>>>;

/// Minutes of stop below which no order comes; none when there is no order at all. Without unwanted
/// changeovers, unless they are let in.
pub(super) fn stop(jobs: &Jobs, lets_unwanted_in: bool) -> Option<u64> {
    let (assigned, left) = assignment(&costs(jobs, lets_unwanted_in))?;
    u64::try_from(assigned + tree(left)?).ok()
}

/// What is on the machine as row 0, each job after it; column 0 is the way back.
fn costs(jobs: &Jobs, lets_unwanted_in: bool) -> Costs {
    let count = jobs.len();
    let cost = |before: Option<usize>, job: usize| {
        let change = jobs.change(before, job).filter(|_| before != Some(job))?;
        (lets_unwanted_in || !change.is_unwanted).then_some(i128::from(change.stop))
    };
    let row = |before: Option<usize>| {
        let back = before.map(|_| 0);
        std::iter::once(back).chain((0..count).map(|job| cost(before, job))).collect()
    };
    std::iter::once(row(None)).chain((0..count).map(|job| row(Some(job)))).collect()
}

/// The cost of the cheapest assignment, and what its prices leave of each cost; none when there is none.
///
/// The Hungarian method in whole numbers (Kuhn 1955, Munkres 1957), one row after the other.
fn assignment(costs: &Costs) -> Option<(i128, Costs)> {
    let count = costs.len();
    let mut prices =
        Prices { costs, rows: vec![0; count], columns: vec![0; count], taken: vec![None; count] };
    (0..count).try_for_each(|row| prices.take(row))?;
    let rest = |row: usize| (0..count).map(|column| prices.left(row, column)).collect();
    let rest = (0..count).map(rest).collect();
    Some((prices.rows.iter().chain(&prices.columns).sum(), rest))
}

/// Prices of rows and columns, such that no cost is less than its two prices, and as much as them where
/// a row has its column.
struct Prices<'a> {
    costs: &'a Costs,
    rows: Vec<i128>,
    columns: Vec<i128>,
    /// The row that has each column.
    taken: Vec<Option<usize>>,
}

/// Columns that a row could come to, by passing rows on from column to column.
struct Reach {
    /// What the cheapest chain to each column costs, of those that were seen.
    cost: Vec<Option<i128>>,
    /// The column before it on this chain; none for the row itself.
    before: Vec<Option<usize>>,
    /// Whether no cheaper chain can be found.
    is_settled: Vec<bool>,
}

impl Prices<'_> {
    /// What the prices leave of a cost: never negative.
    fn left(&self, row: usize, column: usize) -> Option<i128> {
        Some(self.costs[row][column]? - self.rows[row] - self.columns[column])
    }

    /// Gives a row a column: by the cheapest chain to a free one, on which each row passes its column on.
    fn take(&mut self, row: usize) -> Option<()> {
        let count = self.costs.len();
        let mut reach = Reach {
            cost: vec![None; count],
            before: vec![None; count],
            is_settled: vec![false; count],
        };
        let (mut at, mut so_far, mut before) = (row, 0, None);
        let (free, most) = loop {
            for column in (0..count).filter(|column| !reach.is_settled[*column]) {
                let Some(left) = self.left(at, column) else { continue };
                if reach.cost[column].is_none_or(|own| so_far + left < own) {
                    reach.cost[column] = Some(so_far + left);
                    reach.before[column] = before;
                }
            }
            let open = (0..count).filter(|column| !reach.is_settled[*column]);
            let seen = open.filter_map(|column| Some((reach.cost[column]?, column)));
            let (cost, column) = seen.min()?;
            let Some(owner) = self.taken[column] else { break (column, cost) };
            reach.is_settled[column] = true;
            (at, so_far, before) = (owner, cost, Some(column));
        };
        self.price(row, &reach, most);
        self.pass_on(row, &reach, free);
        Some(())
    }

    /// Changes the prices so that nothing is left on the chain, and less than nothing nowhere: a column
    /// that is cheaper to reach than the free one gives up the difference, and its row takes it.
    fn price(&mut self, row: usize, reach: &Reach, most: i128) {
        self.rows[row] += most;
        for column in (0..self.costs.len()).filter(|column| reach.is_settled[*column]) {
            let less = most - reach.cost[column].unwrap_or(most);
            self.columns[column] -= less;
            if let Some(owner) = self.taken[column] {
                self.rows[owner] += less;
            }
        }
    }

    fn pass_on(&mut self, row: usize, reach: &Reach, free: usize) {
        let mut at = free;
        while let Some(before) = reach.before[at] {
            self.taken[at] = self.taken[before];
            at = before;
        }
        self.taken[at] = Some(row);
    }
}

/// The cost of the cheapest tree from job 0 to all others; none when one cannot be reached.
///
/// Each but the first takes the cheapest way to it. Where that makes a ring, the ring becomes one place:
/// a way into it replaces the one that its end had taken, so it costs that much less.
fn tree(mut costs: Costs) -> Option<i128> {
    let mut total = 0;
    loop {
        let count = costs.len();
        let into = |to: usize| {
            let ways = (0..count).filter(|from| *from != to);
            ways.filter_map(|from| Some((costs[from][to]?, from))).min()
        };
        let cheapest: Vec<(i128, usize)> = (1..count).map(into).collect::<Option<_>>()?;
        total += cheapest.iter().map(|(cost, _)| cost).sum::<i128>();
        let before: Vec<usize> = cheapest.iter().map(|(_, from)| *from).collect();
        let (places, place) = places(&before);
        if places == count {
            return Some(total);
        }
        let mut fewer: Costs = vec![vec![None; places]; places];
        for from in 0..count {
            for to in (1..count).filter(|to| place[*to] != place[from]) {
                let cost = costs[from][to].map(|cost| cost - cheapest[to - 1].0);
                let own = &mut fewer[place[from]][place[to]];
                *own = [*own, cost].into_iter().flatten().min();
            }
        }
        costs = fewer;
    }
}

/// How many places there are when each ring is one, and the place of each job; job 0 keeps its own.
/// `before` has for each job but the first the one it comes from.
fn places(before: &[usize]) -> (usize, Vec<usize>) {
    let count = before.len() + 1;
    let up = |job: usize| before[job - 1];
    let mut place: Vec<Option<usize>> = vec![None; count];
    // In which walk each job was met first.
    let mut met: Vec<Option<usize>> = vec![None; count];
    let mut places = 1;
    place[0] = Some(0);
    met[0] = Some(0);
    for start in 1..count {
        let mut at = start;
        while met[at].is_none() {
            met[at] = Some(start);
            at = up(at);
        }
        if met[at] == Some(start) {
            while place[at].is_none() {
                place[at] = Some(places);
                at = up(at);
            }
            places += 1;
        }
    }
    let mut alone = |own: Option<usize>| {
        own.unwrap_or_else(|| {
            places += 1;
            places - 1
        })
    };
    let place = place.into_iter().map(&mut alone).collect();
    (places, place)
}
