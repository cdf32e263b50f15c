//! Random choices. The same seed makes the same choices on every machine, in the program and on a page: the generator's own shuffle
//! depends on the size of the machine's words.

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

    /// A list that was printed with a seed can be made again with it.
    #[test]
    fn a_seed_makes_the_same_choices_everywhere() {
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
