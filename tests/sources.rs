//! The source lists themselves: sorted, without doubles, each line with its reason.

const READINGS: &str = include_str!("../crates/lexicon-compiler/data/readings.tsv");
const NOT_BASES: &str = include_str!("../crates/lexicon-compiler/data/not-bases.tsv");
const COMMONNESS: &str = include_str!("../crates/lexicon-compiler/data/commonness.tsv");
const CATALOGUE: &str = include_str!("../crates/phonics/data/catalogue.tsv");

fn lines(list: &str) -> Vec<Vec<&str>> {
    list.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect()).collect()
}

#[test]
fn reviewed_lists_are_sorted_and_without_doubles() {
    for (name, list) in [("readings", READINGS), ("not-bases", NOT_BASES), ("commonness", COMMONNESS)] {
        let words: Vec<&str> = lines(list).iter().map(|columns| columns[0]).collect();
        assert!(words.len() > 20, "{name}");
        let wrong = words.windows(2).find(|pair| pair[0] > pair[1] || name != "not-bases" && pair[0] == pair[1]);
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

#[test]
fn lookalikes_are_sorted_and_without_doubles() {
    let words: Vec<&str> = include_str!("../crates/core/data/lookalikes.txt").lines().collect();
    assert!(words.len() > 100);
    assert_eq!(words.windows(2).find(|pair| pair[0] >= pair[1]), None);
    assert!(words.iter().all(|word| word.bytes().all(|b| b.is_ascii_lowercase())));
}
