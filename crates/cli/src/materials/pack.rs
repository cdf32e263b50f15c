//! `untaught pack`: the whole lesson on paper.

mod html;
mod markdown;

use serde::Serialize;
use serde_json::Value;
use untaught::Status;
use untaught_materials::{Lacking, Pack, PackWanted, pack};

use super::At;
use crate::Outcome;
use crate::args::{PackArgs, PackFormat};
use crate::output::{self, Failure, Sink};

#[derive(Serialize)]
struct Root<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    title: &'a str,
    seed: u64,
    patterns: &'a [String],
    sight_new: &'a [String],
    sight_review: &'a [String],
    listening: Option<super::contrast::Out>,
    blending: Option<Vec<super::boxes::Out>>,
    chain: Option<super::chain::Out>,
    dictation: Option<super::dictation::Out>,
    /// Lists that cannot be made, and why.
    lacking: Vec<Lack<'a>>,
    story: Option<Value>,
}

#[derive(Serialize)]
struct Lack<'a> {
    list: &'static str,
    why: &'a str,
}

/// The lists that a pack lacks.
fn lacking(pack: &Pack) -> Vec<(&'static str, &str)> {
    fn why<T>(list: &Result<T, Lacking>) -> Option<&str> {
        list.as_ref().err().map(|lacking| lacking.0.as_str())
    }
    let lists = [
        ("listening", why(&pack.listening)),
        ("blending", why(&pack.blending)),
        ("chain", why(&pack.chain)),
        ("dictation", why(&pack.dictation)),
    ];
    lists.into_iter().filter_map(|(list, why)| Some((list, why?))).collect()
}

pub(crate) fn run(args: &PackArgs) -> Result<Outcome, Failure> {
    let at = At::new(&args.lesson)?;
    let story = args.story.as_deref().map(|path| story(path, &at)).transpose()?;
    let made = pack(at.judge(), &PackWanted { lesson: at.place, focus: None, class: at.class, seed: args.seed });
    let mut sink = Sink::open(args.output.as_deref(), false)?;
    match args.format {
        PackFormat::Json => {
            let root = Root {
                format: 1,
                scope: &at.scope.title,
                lesson: at.id(at.place),
                title: at.scope.lesson(at.place).map_or("", |lesson| &lesson.title),
                seed: args.seed,
                patterns: &made.patterns,
                sight_new: &made.sight_new,
                sight_review: &made.sight_review,
                listening: made.listening.as_ref().ok().map(super::contrast::Out::of),
                blending: made.blending.as_ref().ok().map(|all| all.iter().map(super::boxes::Out::of).collect()),
                chain: made.chain.as_ref().ok().map(super::chain::Out::of),
                dictation: made.dictation.as_ref().ok().map(super::dictation::Out::of),
                lacking: lacking(&made).into_iter().map(|(list, why)| Lack { list, why }).collect(),
                story: story.as_ref().map(Story::json).transpose()?,
            };
            sink.write(&output::json_bytes(&root)?)?;
            sink.write(b"\n")?;
        }
        PackFormat::Html => sink.write(html::pack(&at, &made, story.as_ref(), args.seed)?.as_bytes())?,
        PackFormat::Markdown => {
            sink.write(markdown::pack(&at, &made, story.as_ref(), args.seed).as_bytes())?;
        }
    }
    sink.close()?;
    Ok(Outcome::Met)
}

/// The story of the lesson, checked at it.
struct Story {
    text: String,
    report: untaught::Report,
    /// Where it begins in the text, after the front matter.
    start: usize,
    title: Option<String>,
}

fn story(path: &std::path::Path, at: &At) -> Result<Story, Failure> {
    let bytes = crate::input::bytes(path).map_err(Failure::Message)?;
    let name = path.display().to_string();
    let read = untaught_documents::Kind::of(&name, &bytes).and_then(|kind| untaught_documents::read(kind, bytes));
    let document = read.map_err(|problem| Failure::Message(format!("{name} {problem}")))?;
    let text = document.text().to_owned();
    let (front, start) = untaught::front_matter(&text).map_err(|fault| {
        Failure::Message(format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message))
    })?;
    let declared = front.names.iter().chain(&front.story_words);
    let declared = declared.flat_map(|words| untaught::tokens(words).map(|t| untaught::fold_word(&words[t.span])));
    let options =
        untaught::Options { declared: declared.collect(), every_word: true, start, ..untaught::Options::at(at.place) };
    let report = untaught::check(&text, &at.scope, &at.reader, &options);
    Ok(Story { text, report, start, title: front.title })
}

impl Story {
    /// The text in stretches, each with whether it is a word that practises what the lesson does.
    fn pieces(&self) -> Vec<(&str, bool)> {
        let (mut pieces, mut from) = (Vec::new(), self.start);
        for word in self.report.words.iter().filter(|word| self.report.focus.types.contains(&word.type_number)) {
            pieces.push((&self.text[from..word.span.start], false));
            pieces.push((&self.text[word.span.clone()], true));
            from = word.span.end;
        }
        pieces.push((&self.text[from..], false));
        pieces
    }

    /// The words that the child has to be told: what the story declares, and what has not been taught.
    fn told(&self) -> Vec<&str> {
        let told = self.report.distinct.iter().enumerate();
        let told = told.filter(|(_, word)| matches!(word.status, Status::Story | Status::Untaught));
        told.map(|(number, word)| {
            // A name keeps its capital.
            let first = self.report.words.iter().find(|at| at.type_number == number && word.capitals == word.count);
            first.filter(|_| word.declared).map_or(word.verdict.word.text.as_str(), |at| &self.text[at.span.clone()])
        })
        .collect()
    }

    fn json(&self) -> Result<Value, Failure> {
        let counts = &self.report.tokens;
        let untaught: Vec<&str> = self.report.findings.iter().map(|finding| finding.word.as_str()).collect();
        Ok(serde_json::json!({
            "title": self.title,
            "text": self.text[self.start..].trim(),
            "words": counts.words,
            "percent": {
                "decodable": crate::check::rounded(counts.percent_decodable()),
                "readable": crate::check::rounded(counts.percent_readable()),
            },
            "focus": self.report.focus.tokens,
            "told": self.told(),
            "untaught": untaught,
        }))
    }
}
