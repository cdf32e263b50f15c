//! Lists words that are decodable at a lesson and practise what it teaches.

use untaught::{Focus, Judge, Reader, Scope};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).ok_or("there is no such scope")?;
    let judge = Judge::new(&reader, &scope);
    let lesson = scope.index_of("15")?;

    // The patterns of the lesson; `Focus::of` takes any others.
    let focus = Focus::of_lesson(&scope, lesson);
    println!("words with {}:", focus.labels.join(", "));

    // Size classes say how common words are; 10 has the commonest. `candidates` quickly skips most words with untaught parts;
    // `decodable` decides.
    let words = judge.candidates(lesson, 10).filter_map(|candidate| judge.decodable(candidate, lesson));
    let practise = words.filter(|found| focus.is_in(&reader, &found.word.text, &found.word.readings[0]));
    let bank: Vec<String> = practise.map(|found| found.word.text).collect();
    println!("{}", bank.join(" "));
    assert!(bank.iter().any(|word| word == "ship"));

    // These words come straight from the dictionary and may not suit children; the crate `untaught-lists` keeps only those
    // that do.
    Ok(())
}
