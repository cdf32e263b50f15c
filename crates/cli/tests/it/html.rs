//! Pages for people: they show the story as it is, say of it what the report for programs says, and nothing of a text acts in them.

use std::collections::HashSet;
use std::fs;

use crate::support::page::Page;
use crate::support::{folder_with, untaught};
use proptest::prelude::*;
use proptest::test_runner::Config;
use serde_json::Value;
use tempfile::TempDir;

/// All that the pages are made of.
const ELEMENTS: [&str; 50] = [
    "a",
    "article",
    "aside",
    "bdi",
    "body",
    "br",
    "circle",
    "dd",
    "defs",
    "desc",
    "div",
    "dl",
    "dt",
    "figcaption",
    "figure",
    "footer",
    "g",
    "h1",
    "h2",
    "h3",
    "head",
    "header",
    "html",
    "li",
    "line",
    "main",
    "meta",
    "nav",
    "ol",
    "p",
    "path",
    "pattern",
    "polyline",
    "rect",
    "section",
    "small",
    "span",
    "strong",
    "style",
    "svg",
    "table",
    "tbody",
    "td",
    "text",
    "tfoot",
    "th",
    "thead",
    "title",
    "tr",
    "ul",
];

/// The page of a run; whatever it says, it is a sound one.
fn page(folder: &TempDir, args: &[&str]) -> Page {
    let done = untaught(args.iter().chain(&["--format", "html"])).within(folder.path()).done();
    assert!(done.code.is_some_and(|code| code <= 2), "{done:?}");
    let page = Page::read(done.out());
    let mut ids = HashSet::new();
    for element in &page.elements {
        assert!(ELEMENTS.contains(&element.name.as_str()), "{element:?}");
        for (name, value) in &element.attributes {
            assert!(
                !name.starts_with("on") && !["src", "style", "srcdoc", "action"].contains(&name.as_str()),
                "{element:?}"
            );
            assert!(name != "id" || ids.insert(value.clone()), "twice: {value}");
        }
    }
    for link in page.elements.iter().filter_map(|element| element.attributes.get("href")) {
        assert!(link.strip_prefix('#').is_some_and(|id| ids.contains(id)), "{link}");
    }
    let policy = page.all("meta", "").find(|meta| meta.attributes.contains_key("http-equiv")).expect("a policy");
    assert!(policy.attributes["content"].starts_with("default-src 'none'; style-src 'unsafe-inline'"), "{policy:?}");
    page
}

fn json(folder: &TempDir, args: &[&str]) -> Value {
    untaught(args.iter().chain(&["--format", "json"])).within(folder.path()).done().json()
}

/// A text as the page shows it: without empty lines around it, its control characters as codes.
fn shown(text: &str) -> String {
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let lines: Vec<&str> = text.split('\n').map(|line| if line.trim().is_empty() { "" } else { line }).collect();
    let turns =
        |c: char| matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let code = |c: char| match c {
        '\n' | '\t' => c.to_string(),
        _ if c.is_control() || turns(c) => c.escape_unicode().to_string(),
        _ => c.to_string(),
    };
    lines.join("\n").trim_matches('\n').chars().map(code).collect()
}

fn story_of(page: &Page) -> String {
    page.all("div", "story").map(|story| story.text.trim_matches('\n').to_owned()).collect()
}

proptest! {
    #![proptest_config(Config::with_cases(64))]

    #[test]
    fn the_story_stands_in_the_page_letter_for_letter(
        pieces in prop::collection::vec(prop_oneof![
            Just("\n"), Just("\n\n"), Just("\r\n"), Just("\r"), Just("  "), Just("\t"), Just("night "), Just("Sam sat. "), Just("the"),
            Just("wind-up "), Just("don\u{2019}t "), Just("<script>alert(1)</script>"), Just("</style>"), Just("\"><img onerror=x>"),
            Just("&amp;"), Just("{{ 7 * 7 }}"), Just("{% raw %}"), Just("\u{202e}"), Just("\u{200f}"), Just("\u{7}"), Just("\u{1b}[31m"),
            Just("\u{1f469}\u{200d}\u{1f467}"), Just("\u{5e9}\u{5dc}"), Just("mail@ship.com "), Just("10 "), Just("Zob "), Just("-->"),
        ], 0..40)
    ) {
        let text = pieces.concat();
        let folder = folder_with("story.txt", &text);
        let page = page(&folder, &["check", "story.txt", "-l", "18"]);
        prop_assert_eq!(story_of(&page), shown(&text));
    }
}

#[test]
fn front_matter_is_not_shown() {
    let folder = folder_with("story.txt", "---\ntitle: At Night\nlesson: \"18\"\n---\n\nSam sat.\n\nThe night.\n");
    let page = page(&folder, &["check", "story.txt"]);
    assert_eq!(story_of(&page), "Sam sat.\n\nThe night.");
    assert_eq!(page.all("h2", "").next().unwrap().text, "At Night");
}

const HOSTILE: &str = "---\ntitle: \"<script>alert(1)</script> </title>\"\nlesson: \"18\"\nnames: ['<b>Zob']\n---\n\
    Sam </style><script>alert(1)</script> \"><img src=x onerror=alert(1)> the night wind.\n";

#[test]
fn nothing_of_a_text_acts() {
    let folder = folder_with("story.txt", HOSTILE);
    fs::write(folder.path().join("empty.txt"), "").unwrap();
    fs::write(folder.path().join("bad.txt"), "---\nlesson: <script>\n---\nA cat.\n").unwrap();
    if cfg!(unix) {
        fs::write(folder.path().join("\"onload='x' <b>&amp;.txt"), "Sam sat.\n").unwrap();
    }
    for command in ["check", "place", "shelf"] {
        let page = page(&folder, &[command, "."]);
        assert_eq!(page.all("script", "").count() + page.all("img", "").count() + page.all("b", "").count(), 0);
        let main = &page.all("main", "").next().unwrap().text;
        assert!(main.contains("<script>alert(1)</script> </title>"), "{command}");
        assert!(main.contains("has no lesson <script>"), "{command}");
        assert!(!cfg!(unix) || main.contains("\"onload='x' <b>&amp;.txt"), "{command}");
    }
}

const STORY: &str =
    "Sam sat in the night wind. “The splendid night!” said Zob.\n\nThe ship, the shop: Zob's crew had 10 fish.\n";

#[test]
fn every_untaught_word_is_marked_and_its_reason_given() {
    let folder = folder_with("story.txt", STORY);
    let args = ["check", "story.txt", "-l", "18"];
    let (page, json) = (page(&folder, &args), json(&folder, &args));
    let text = &json["texts"][0];
    let story = page.all("div", "story").next().unwrap();
    let marked: Vec<_> = page.within(story).filter(|word| word.has("u")).collect();
    assert_eq!(Some(marked.len() as u64), text["counts"]["untaught"].as_u64());
    for finding in text["findings"].as_array().unwrap() {
        let word = finding["word"].as_str().unwrap();
        let marked: Vec<_> = marked.iter().filter(|mark| mark.text.to_lowercase() == word).collect();
        assert_eq!(Some(marked.len() as u64), finding["count"].as_u64(), "{word}");
        for mark in marked {
            let row = page.by_id(&mark.attributes["href"][1..]).expect("a reason");
            let cells: Vec<&str> =
                page.within(row).filter(|cell| cell.name == "td").map(|cell| cell.text.as_str()).collect();
            assert_eq!(cells[0], finding["count"].to_string());
            for place in finding["places"].as_array().unwrap() {
                let line = place["line"].to_string();
                assert!(cells[1].split(", ").any(|one| one == line), "{word}: {cells:?}");
            }
            let of = |key: &str, none: &str| -> Vec<String> {
                let needs = finding["needs"].as_array().unwrap().iter();
                needs.map(|need| need[key].as_str().unwrap_or(none).to_owned()).collect()
            };
            // The first stands in the row's heading.
            let patterns = page.within(row).filter(|cell| cell.name == "bdi").skip(1);
            let patterns: Vec<String> = patterns.map(|pattern| pattern.text.clone()).collect();
            let lessons = page.within(row).filter(|cell| cell.has("when"));
            let lessons: Vec<String> = lessons.map(|when| when.text.replace("lesson ", "")).collect();
            assert_eq!((&patterns, lessons), (&of("pattern", ""), of("lesson", "never taught")), "{word}");
            assert!(patterns.iter().all(|pattern| mark.attributes["title"].contains(pattern)), "{word}: {mark:?}");
        }
    }
}

#[test]
fn the_counts_are_those_of_the_report_for_programs() {
    let folder = folder_with("a.txt", STORY);
    fs::write(folder.path().join("b.txt"), "Sam sat at the tap.\n").unwrap();
    fs::write(folder.path().join("c.txt"), "1 2 3\n").unwrap();
    let args = ["check", ".", "-l", "18", "--names", "Zob"];
    let (page, json) = (page(&folder, &args), json(&folder, &args));
    let texts = json["texts"].as_array().unwrap();
    let index = page.all("nav", "index").next().unwrap();
    let table = page.within(index).find(|element| element.name == "table").unwrap();
    let rows = page.rows(table);
    let tables: Vec<_> = page.all("table", "counts").map(|table| page.rows(table)).collect();
    assert_eq!((rows.len(), tables.len()), (4, 2));
    for (row, text) in rows[1..].iter().zip(texts) {
        let counts = &text["counts"];
        assert_eq!(row[1], "18");
        assert_eq!([row[4], row[5]], [&counts["words"].to_string(), &counts["untaught"].to_string()]);
        assert_eq!(row[6].ends_with("met"), text["met"].as_bool().unwrap());
    }
    for (rows, text) in tables.iter().zip(texts) {
        for (column, counts) in [(1, &text["counts"]), (3, &text["types"]["counts"])] {
            for (row, key) in
                [(1, "decodable"), (2, "sight"), (3, "story"), (5, "untaught"), (6, "words"), (7, "uncounted")]
            {
                assert_eq!(rows[row][column], counts[key].to_string(), "{key}");
            }
        }
    }
}

#[test]
fn a_curve_has_a_point_for_each_lesson_and_words_for_those_who_do_not_see_it() {
    let folder = folder_with("a.txt", format!("---\nlesson: \"18\"\n---\n{STORY}"));
    let args = ["place", "a.txt", "--min-readable", "90"];
    let (page, json) = (page(&folder, &args), json(&folder, &args));
    let lessons = json["texts"][0]["curve"].as_array().unwrap().len();
    let lines: Vec<_> = page.all("polyline", "").collect();
    assert_eq!(lines.len(), 2);
    for line in lines {
        assert_eq!(line.attributes["points"].split(' ').count(), lessons);
    }
    let drawing = page.all("svg", "chart").next().unwrap();
    assert_eq!(drawing.attributes["role"], "img");
    for id in drawing.attributes["aria-labelledby"].split(' ') {
        assert!(!page.by_id(id).unwrap().text.is_empty());
    }
    let main = &page.all("main", "").next().unwrap().text;
    assert!(main.contains("meant for lesson 18") && main.contains("required: 90 % readable"), "{main}");
}

#[test]
fn the_shelf_counts_what_each_reader_practises() {
    let folder = folder_with("a.txt", "---\nlesson: \"2\"\n---\nSam sat at a tap. Pip sat in a tin.\n");
    fs::write(folder.path().join("b.txt"), format!("---\nlesson: \"18\"\n---\n{STORY}")).unwrap();
    let args = ["shelf", ".", "--order"];
    let (page, json) = (page(&folder, &args), json(&folder, &args));
    let matrix = page.all("section", "matrix").next().unwrap();
    let rows = page.rows(page.within(matrix).find(|element| element.name == "table").unwrap());
    assert_eq!(rows.len(), 4);
    for (row, reader) in rows[1..].iter().zip(json["readers"].as_array().unwrap()) {
        let mut counts: Vec<(String, String)> = Vec::new();
        for one in reader["practises"].as_array().unwrap() {
            counts.push((one["pattern"].as_str().unwrap().to_owned(), one["words"].to_string()));
        }
        let named =
            |head: &str| head.rsplit_once(" lesson ").map_or(head.to_owned(), |(pattern, _)| pattern.to_owned());
        let cells = rows[0].iter().zip(row).skip(1).filter(|(_, n)| !["", "0"].contains(n));
        let found: Vec<(String, String)> = cells.map(|(head, n)| (named(head), (*n).to_owned())).collect();
        assert_eq!(found, counts);
    }
}
