//! The order of colours with the least cleaner, exactly.

use crate::error::{Result, out_of_range};

/// Sixteen colours are 65 536 sets; one more doubles time and memory.
pub const MOST_COLOURS: usize = 16;

/// An order and what its changes cost together.
#[derive(Debug, Clone, PartialEq)]
pub struct BestOrder {
    /// Indices in the order to use.
    pub order: Vec<usize>,
    /// Sum of the costs.
    pub cost: f64,
}

/// The cheapest path through all colours, where `cost[a][b]` is the change from `a` to `b`; from `start` if given.
///
/// Dynamic programming over sets (Held and Karp): exact, `n² 2ⁿ` steps. Of equal paths, one is returned, always the same.
///
/// # Errors
/// A [`crate::error::RangeError`] for no colour, more than 16, a table that is not square, a cost that is negative or not
/// a number, or a start outside the table.
///
/// ```
/// use mistcoat::rinse::best_order;
/// let cost = vec![vec![0.0, 9.0, 1.0], vec![1.0, 0.0, 9.0], vec![9.0, 2.0, 0.0]];
/// let best = best_order(&cost, None)?;
/// assert_eq!((best.order, best.cost), (vec![1, 0, 2], 2.0));
/// # Ok::<(), mistcoat::Error>(())
/// ```
pub fn best_order(cost: &[Vec<f64>], start: Option<usize>) -> Result<BestOrder> {
    let n = cost.len();
    check(cost, start)?;
    let sets = 1_usize << n;
    // Cheapest way to have used `set`, ending with `last`; and the colour before it.
    let mut cheapest = vec![f64::INFINITY; sets * n];
    let mut before = vec![usize::MAX; sets * n];
    for first in 0..n {
        if start.is_none_or(|s| s == first) {
            cheapest[(1 << first) * n + first] = 0.0;
        }
    }
    for set in 1..sets {
        for last in (0..n).filter(|last| set & (1 << last) != 0) {
            let so_far = cheapest[set * n + last];
            if so_far.is_infinite() {
                continue;
            }
            for next in (0..n).filter(|next| set & (1 << next) == 0) {
                let there = (set | (1 << next)) * n + next;
                let total = so_far + cost[last][next];
                if total < cheapest[there] {
                    cheapest[there] = total;
                    before[there] = last;
                }
            }
        }
    }
    let mut set = sets - 1;
    let mut last = 0;
    for candidate in 1..n {
        if cheapest[set * n + candidate] < cheapest[set * n + last] {
            last = candidate;
        }
    }
    let total = cheapest[set * n + last];
    let mut order = vec![last];
    while order.len() < n {
        let previous = before[set * n + last];
        set &= !(1 << last);
        last = previous;
        order.push(last);
    }
    order.reverse();
    Ok(BestOrder { order, cost: total })
}

/// The largest sum of sixteen stays a number.
const MOST_COST: f64 = 1e300;

fn check(cost: &[Vec<f64>], start: Option<usize>) -> Result<()> {
    let n = cost.len();
    if !(1..=MOST_COLOURS).contains(&n) {
        let remedy = "split the session: rinse fully between two groups and order each group by itself";
        return Err(out_of_range("number of colours", n.to_string(), "1 to 16", remedy));
    }
    for (a, row) in cost.iter().enumerate() {
        if row.len() != n {
            let found = format!("{} costs in row {a}", row.len());
            return Err(out_of_range("table of costs", found, format!("{n} in each row"), "make it square"));
        }
        for (b, c) in row.iter().enumerate() {
            if a != b && !(0.0..=MOST_COST).contains(c) {
                let what = format!("cost from {a} to {b}");
                return Err(out_of_range(what, c.to_string(), "0 or above, and finite", "check the table"));
            }
        }
    }
    match start {
        Some(s) if s >= n => {
            Err(out_of_range("first colour", s.to_string(), format!("0 to {}", n - 1), "count from 0"))
        }
        _ => Ok(()),
    }
}
