//! What is drawn by lot. The same seed draws the same on every machine, in the program and on a page: the generator's own shuffle counts
//! in the machine's words, which differ.

use fastrand::Rng;

/// Puts a list in another order.
pub(crate) fn shuffle<T>(list: &mut [T], rng: &mut Rng) {
    for at in 1..list.len() {
        list.swap(at, draw_below(at + 1, rng));
    }
}

/// One of a list; none of an empty one.
pub(crate) fn choice<'a, T>(list: &'a [T], rng: &mut Rng) -> Option<&'a T> {
    if list.is_empty() { None } else { list.get(draw_below(list.len(), rng)) }
}

fn draw_below(count: usize, rng: &mut Rng) -> usize {
    rng.u64(0..count as u64) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a seed, once and for all: what was printed with it can be made again.
    #[test]
    fn a_seed_draws_the_same_everywhere() {
        let mut rng = Rng::with_seed(7);
        let mut list: Vec<u8> = (0..10).collect();
        shuffle(&mut list, &mut rng);
        let mut sorted = list.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..10).collect::<Vec<u8>>());
        let mut again: Vec<u8> = (0..10).collect();
        Rng::with_seed(7).shuffle(&mut again);
        // On a machine of 64 bits the generator's own shuffle is the same.
        assert!(cfg!(not(target_pointer_width = "64")) || again == list);
        assert_eq!(choice::<u8>(&[], &mut rng), None);
        assert_eq!(choice(&[3], &mut rng), Some(&3));
    }
}
