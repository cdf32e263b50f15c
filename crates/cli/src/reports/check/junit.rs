//! JUnit XML: a suite for each text, with one case that passes, or a case that fails for each threshold it does not reach.

use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};
use untaught::json::ErrorReport;

use super::format::{Format, RunTotals};
use super::sentences;
use crate::analysis::{CheckedText, Shortfall};
use crate::output::{one_line, safe};

pub(super) struct Junit;

impl Format for Junit {
    fn head(&self) -> String {
        let mut out = Writer::new(Vec::new());
        let _ = out.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)));
        format!("{}\n<testsuites name=\"untaught\">\n", String::from_utf8_lossy(&out.into_inner()))
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let short = &checked.shortfalls;
        let cases: Vec<TestCase> = if short.is_empty() {
            vec![TestCase { name: "thresholds".to_owned(), problem: None }]
        } else {
            let words: Vec<String> =
                checked.report.findings.iter().map(|finding| sentences::untaught(checked, finding)).collect();
            let case = |short: &Shortfall| TestCase {
                name: short.what.name().to_owned(),
                problem: Some(("failure", sentences::shortfall(checked, short), words.join("\n"))),
            };
            short.iter().map(case).collect()
        };
        suite(&checked.source.name, &cases)
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let mut out = Vec::new();
        for ErrorReport { file, message } in &totals.errors {
            let problem = Some(("error", message.clone(), String::new()));
            out.extend(suite(file, &[TestCase { name: "check".to_owned(), problem }])?);
        }
        out.extend(b"</testsuites>\n");
        Ok(out)
    }
}

/// One test: its problem is a kind (`failure`, `error`), a message and more.
struct TestCase {
    name: String,
    problem: Option<(&'static str, String, String)>,
}

fn suite(file: &str, cases: &[TestCase]) -> io::Result<Vec<u8>> {
    let mut out = Writer::new_with_indent(Vec::new(), b' ', 2);
    let count = |kind: &str| cases.iter().filter(|case| case.problem.as_ref().is_some_and(|p| p.0 == kind)).count();
    let file = text(&one_line(file));
    let mut start = BytesStart::new("testsuite");
    start.push_attribute(("name", file.as_str()));
    for (key, n) in [("tests", cases.len()), ("failures", count("failure")), ("errors", count("error"))] {
        start.push_attribute((key, n.to_string().as_str()));
    }
    out.write_event(Event::Start(start))?;
    for case in cases {
        let mut start = BytesStart::new("testcase");
        start.push_attribute(("name", text(&case.name).as_str()));
        start.push_attribute(("classname", file.as_str()));
        let Some((kind, message, more)) = &case.problem else {
            out.write_event(Event::Empty(start))?;
            continue;
        };
        out.write_event(Event::Start(start))?;
        let mut problem = BytesStart::new(*kind);
        problem.push_attribute(("message", text(message).as_str()));
        problem.push_attribute(("type", "untaught"));
        out.write_event(Event::Start(problem))?;
        out.write_event(Event::Text(BytesText::new(&text(more))))?;
        out.write_event(Event::End(BytesEnd::new(*kind)))?;
        out.write_event(Event::End(BytesEnd::new("testcase")))?;
    }
    out.write_event(Event::End(BytesEnd::new("testsuite")))?;
    let mut out = out.into_inner();
    out.push(b'\n');
    Ok(out)
}

/// XML cannot hold control characters, even escaped: they are shown as their codes.
fn text(text: &str) -> String {
    safe(text).to_string().replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}")
}
