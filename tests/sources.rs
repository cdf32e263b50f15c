//! The source lists themselves: sorted, without doubles, each line with its reason.

const READINGS: &str = include_str!("../crates/lexicon-compiler/data/readings.tsv");
const EXCEPTIONS: &str = include_str!("../crates/lexicon-compiler/data/exceptions.tsv");
const COMMONNESS: &str = include_str!("../crates/lexicon-compiler/data/commonness.tsv");
const CATALOGUE: &str = include_str!("../crates/phonics/data/catalogue.tsv");

fn lines(list: &str) -> Vec<Vec<&str>> {
    list.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect()).collect()
}

#[test]
fn reviewed_lists_are_sorted_and_without_doubles() {
    for (name, list) in [("readings", READINGS), ("exceptions", EXCEPTIONS), ("commonness", COMMONNESS)] {
        let words: Vec<&str> = lines(list).iter().map(|columns| columns[0]).collect();
        assert!(words.len() > 20, "{name}");
        let wrong = words.windows(2).find(|pair| pair[0] > pair[1] || name != "exceptions" && pair[0] == pair[1]);
        assert_eq!(wrong, None, "{name}");
    }
}

#[test]
fn every_mended_reading_has_a_reason() {
    for columns in lines(READINGS) {
        assert_eq!(columns.len(), 4, "{columns:?}");
        assert!(columns[3].len() > 4, "{columns:?}");
    }
}

#[test]
fn the_catalogue_is_laid_out_for_reading() {
    for line in CATALOGUE.lines() {
        assert!(!line.ends_with([' ', '\t']) && !line.is_empty(), "{line:?}");
        if !line.starts_with('#') {
            assert!((4..=6).contains(&line.split('\t').count()), "{line}");
        }
    }
}

/// Each exception says what the word is falsely made of, with a reason of its own kind.
#[test]
fn every_exception_has_a_reason() {
    for columns in lines(EXCEPTIONS) {
        let [word, claim, of, reason] = columns[..] else { panic!("{columns:?}") };
        assert!(
            ["not-ending", "not-beginning", "not-compound", "compound", "ending"].contains(&claim),
            "{word}: {claim}"
        );
        assert_eq!(of.split(' ').count(), 2, "{word}: {of}");
        assert!(reason.split(' ').count() > 2, "{word}: {reason}");
    }
}
