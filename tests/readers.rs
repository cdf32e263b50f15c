//! The invented readers: each is readable at its own lesson by the program's own check.

use std::fs;
use std::path::Path;

use untaught::{Options, Reader, Scope, check, fold_word, front_matter};

#[test]
fn every_reader_is_readable_at_its_lesson() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scope-files/readers");
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let mut lessons = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.display();
        let text = fs::read_to_string(&path).unwrap();
        let (front, start) = front_matter(&text).unwrap();
        let lesson = scope.index_of(&front.lesson.unwrap_or_else(|| panic!("{name} names no lesson"))).unwrap();
        let declared: Vec<String> = front.names.iter().chain(&front.story_words).map(|word| fold_word(word)).collect();
        let options = Options { declared, start: Some(start), ..Options::at(lesson) };
        let report = check(&text, &scope, &reader, &options);
        assert!(report.tokens.words >= 40, "{name} has {} words", report.tokens.words);
        let untaught: Vec<&str> = report.findings.iter().map(untaught::Finding::word).collect();
        assert!(untaught.is_empty(), "{name} at lesson {}: {untaught:?}", scope.id(lesson));
        // Written for its lesson: it could not stand five lessons earlier.
        if let Some(before) = lesson.back(5) {
            let earlier = check(&text, &scope, &reader, &Options { lesson: before, ..options });
            assert!(earlier.tokens.untaught > 0, "{name} fits lesson {} too", scope.id(before));
        }
        lessons.push(lesson.get() + 1);
    }
    lessons.sort_unstable();
    let every_five: Vec<usize> = (1..=12).map(|n| 5 * n).collect();
    assert_eq!(lessons, every_five);
}
