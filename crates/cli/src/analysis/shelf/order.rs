//! An order for a shelf: what can be read first, and among that what brings the fewest new words.

use std::collections::{BTreeSet, HashMap, HashSet};

use super::Book;

/// An order for the shelf: by the lesson at which each can first be read; among those of one lesson the one with the fewest words
/// that are new by then goes first. What never can be read comes last. Where both are the same, the order of the shelf is kept.
pub(super) fn proposed_order(books: &[Book]) -> Vec<usize> {
    let first = |number: usize| (books[number].fit.first.is_none(), books[number].fit.first);
    let mut numbers: Vec<usize> = (0..books.len()).collect();
    numbers.sort_by_key(|number| first(*number));
    let mut seen = HashSet::new();
    let mut order = Vec::with_capacity(books.len());
    for lesson in numbers.chunk_by(|one, next| first(*one) == first(*next)) {
        least_new_first(books, lesson, &mut seen, &mut order);
    }
    order
}

/// Puts the books of a lesson, numbers in the order of the shelf, behind the others; `seen` are the words met so far.
///
/// Each book keeps the count of its new words, which falls when one of them is met for the first time. To count anew for each place
/// would take as many rounds as there are books.
fn least_new_first(books: &[Book], lesson: &[usize], seen: &mut HashSet<u32>, order: &mut Vec<usize>) {
    // The books that have each new word.
    let mut having: HashMap<u32, Vec<u32>> = HashMap::new();
    let mut new = Vec::with_capacity(lesson.len());
    for (at, number) in (0..).zip(lesson) {
        let words = books[*number].uses.iter().map(|word| word.word).filter(|word| !seen.contains(word));
        new.push(words.map(|word| having.entry(word).or_default().push(at)).count());
    }
    let mut queue: BTreeSet<(usize, u32)> = new.iter().copied().zip(0..).collect();
    while let Some((_, next)) = queue.pop_first() {
        let number = lesson[next as usize];
        order.push(number);
        for word in &books[number].uses {
            seen.insert(word.word);
            for at in having.remove(&word.word).unwrap_or_default() {
                let count = &mut new[at as usize];
                // Books that have their place are no longer in the queue.
                if queue.remove(&(*count, at)) {
                    *count -= 1;
                    queue.insert((*count, at));
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::test_runner::Config;
    use untaught::{LessonIndex, Status};

    use super::super::book::{Fit, WordUse};
    use super::super::new_words;
    use super::*;

    fn book(name: &str, first: Option<usize>, words: &[u8]) -> Book {
        let one = |letter: &u8| WordUse { word: u32::from(*letter), times: 1, status: Status::Decodable };
        Book {
            name: name.to_owned(),
            title: None,
            fit: Fit { first: first.and_then(LessonIndex::new), ..Fit::default() },
            refit: None,
            words: words.len(),
            decodable: words.len(),
            readable: words.len(),
            uses: words.iter().map(one).collect(),
        }
    }

    #[test]
    fn a_proposed_order_goes_by_lesson_then_by_what_is_new() {
        let books = [
            book("never", None, b"n"),
            book("long", Some(3), b"abcde"),
            book("early", Some(1), b"ab"),
            book("short", Some(3), b"abf"),
            book("after short", Some(3), b"fghi"),
        ];
        let order: Vec<&str> = proposed_order(&books).into_iter().map(|number| books[number].name.as_str()).collect();
        assert_eq!(order, ["early", "short", "long", "after short", "never"]);
        assert_eq!(new_words(&books, [2, 1])[1], (1, b"cde".iter().map(|letter| u32::from(*letter)).collect()));
    }

    /// The definition: for each place, of the books of the earliest lesson left, the first with the fewest new words.
    fn order_by_definition(books: &[Book]) -> Vec<usize> {
        let mut left: Vec<usize> = (0..books.len()).collect();
        let mut seen: HashSet<u32> = HashSet::new();
        let mut order = Vec::new();
        while !left.is_empty() {
            let key = |number: &usize| {
                let book = &books[*number];
                let new = book.uses.iter().filter(|word| !seen.contains(&word.word)).count();
                (book.fit.first.is_none(), book.fit.first, new, *number)
            };
            let Some(next) = left.iter().copied().min_by_key(key) else { break };
            left.retain(|number| *number != next);
            seen.extend(books[next].uses.iter().map(|word| word.word));
            order.push(next);
        }
        order
    }

    proptest! {
        #![proptest_config(Config { cases: 512, failure_persistence: None, ..Config::default() })]

        #[test]
        fn a_proposed_order_is_the_one_defined(
            shelf in proptest::collection::vec((proptest::option::of(0..3_usize), proptest::collection::vec(0..12_u8, 0..9)), 0..24)
        ) {
            let books: Vec<Book> = shelf.iter().map(|(first, words)| book("", *first, words)).collect();
            prop_assert_eq!(proposed_order(&books), order_by_definition(&books));
        }
    }
}
