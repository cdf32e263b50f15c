//! Work shared among threads, with the same result as on one.

use std::num::NonZero;
use std::panic::resume_unwind;
use std::thread::{self, Builder};

/// Fewer items than these are not worth a thread.
const ENOUGH: usize = 1000;

/// More threads than these hardly help.
const MOST: usize = 4;

/// What a function gives for each item, in the order of the items.
pub(crate) fn filter_map<T: Sync, R: Send>(items: &[T], look: impl Fn(&T) -> Option<R> + Sync) -> Vec<R> {
    let all = |share: &[T]| share.iter().filter_map(&look).collect::<Vec<R>>();
    if items.len() < ENOUGH {
        return all(items);
    }
    let threads = thread::available_parallelism().map_or(1, NonZero::get).min(MOST);
    let mut shares = items.chunks(items.len().div_ceil(threads));
    // The first share is worked on here.
    let first = shares.next().unwrap_or_default();
    thread::scope(|scope| {
        let all = &all;
        let others: Vec<_> =
            shares.map(|share| (share, Builder::new().spawn_scoped(scope, move || all(share)))).collect();
        let mut found = all(first);
        for (share, thread) in others {
            // Where no thread can be had, the work is done here.
            let rest = thread.map_or_else(|_| Ok(all(share)), |thread| thread.join());
            found.extend(rest.unwrap_or_else(|panic| resume_unwind(panic)));
        }
        found
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shares_are_put_together_in_order() {
        for count in [0, 1, ENOUGH - 1, ENOUGH, ENOUGH + 1, 10 * ENOUGH + 7] {
            let numbers: Vec<usize> = (0..count).collect();
            let odd = |number: &usize| (number % 2 == 1).then_some(number * 3);
            assert_eq!(filter_map(&numbers, odd), numbers.iter().filter_map(odd).collect::<Vec<_>>(), "{count}");
        }
    }
}
