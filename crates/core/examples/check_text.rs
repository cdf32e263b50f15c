//! Checks a story at a lesson: which words are untaught, why, and the report for programs.

use untaught::json::{CheckReport, TextDetails, TextReport};
use untaught::{Lines, Options, Reader, Scope, check, messages};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    // A reader knows how English words are pronounced and spelled. One reader works for all texts and scopes.
    let reader = Reader::default();
    // A scope says what each lesson teaches. This one is built in; `Scope::parse` reads your own.
    let scope = Scope::embedded("starter", &reader).ok_or("there is no such scope")?;

    let story = "Biscuit can run.\nOh, Biscuit is a happy pup at night!";
    // Names and story words are words that the child already knows.
    let options = Options { declared: vec!["Biscuit".to_owned()], ..Options::at(scope.index_of("22")?) };
    let report = check(story, &scope, &reader, &options);

    println!("{} of words are readable", messages::percent(report.tokens.percent_readable()));
    for finding in &report.findings {
        println!("{}", messages::untaught(finding, &scope, report.lesson));
    }
    let untaught: Vec<&str> = report.findings.iter().map(untaught::Finding::word).collect();
    assert_eq!(untaught, ["oh", "happy", "night"]);

    // The same as JSON, with lines and columns, like the output of `untaught check --format json`.
    let lines = Lines::new(story);
    let text = TextReport::new(&report, &scope, TextDetails { file: "pup.txt", ..TextDetails::new(story, &lines) });
    println!("{}", serde_json::to_string_pretty(&CheckReport::new(vec![text]))?);
    Ok(())
}
