//! Finds the first lesson at which a story can be read, and what must be taught to read it earlier.

use untaught::{Judge, LessonIndex, Options, Reader, Scope, check, curve, messages, obstacles};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).ok_or("there is no such scope")?;
    let story = "The ship is at the dock. The night is dim, and the fog is thick.";

    // One check is enough for all lessons: it finds the earliest lesson of every word.
    let report = check(story, &scope, &reader, &Options::at(LessonIndex::FIRST));
    let curve = curve(&report, &scope);
    for (index, lesson) in scope.indexed_lessons().step_by(10) {
        println!("lesson {}: {} readable", lesson.id, messages::percent(curve.percent_readable(index)));
    }

    // At least 0 % decodable and 100 % readable.
    let first = curve.first(0.0, 100.0).ok_or("no lesson of this scope is late enough")?;
    println!("readable from lesson {}", scope.id(first));
    assert_eq!(scope.id(first), "33");

    // Find what would help most at the lesson before.
    let before = first.back(1).unwrap_or(first);
    for obstacle in obstacles(&report, &Judge::new(&reader, &scope), before) {
        println!("{} would make {} more words readable", obstacle.label(&scope), obstacle.words);
    }
    Ok(())
}
