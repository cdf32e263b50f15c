//! `untaught pack`: the whole lesson on paper. What holds for its story holds for the lists.

mod html;
mod markdown;

use std::path::Path;

use serde::Serialize;
use serde_json::Value;
use untaught::{Focus, Pattern, Report, Status};
use untaught_materials::{Lacking, Pack, PackWanted, pack};

use super::At;
use crate::analysis::{Checked, Detail, check};
use crate::args::{PackArgs, PackFormat};
use crate::output::{self, Failure, Outcome, Sink, remark, spare_the_stories};
use crate::texts::{Least, Settings, Typed, Worker, read};

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
    spare_the_stories(args.output.as_deref(), args.story.as_deref())?;
    let (at, story, patterns) = match args.story.as_deref() {
        Some(path) => with_story(args, path)?,
        None => alone(args)?,
    };
    let focus = (!patterns.is_empty()).then(|| (Focus::of(at.scope, &patterns), patterns));
    let made = pack(at.judge(), &PackWanted { lesson: at.place, focus, class: at.class, seed: args.seed });
    let mut sink = Sink::open(args.output.as_deref(), false)?;
    match args.format {
        PackFormat::Json => {
            let root = Root {
                format: 1,
                scope: at.scope.title(),
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

/// The lesson of a story, the story checked at it, and the patterns that it is to practise: all as `check` would have them.
fn with_story(args: &PackArgs, path: &Path) -> Result<(At, Option<Story>, Vec<Pattern>), Failure> {
    let settings = Settings::new(&args.told, &args.config)?;
    let source = read(path, "-").map_err(Failure::Message)?;
    if let Some(note) = source.note() {
        remark(&note);
    }
    let typed = Typed { told: &args.told, focus: &args.focus, least: Least::default() };
    let plan = settings.plan(typed, &source)?;
    let detail = Detail { every_word: true, ..Detail::default() };
    let checked = check(source, plan, detail, &mut Worker::default(), &settings).map_err(Failure::Message)?;
    let plan = &checked.plan;
    let patterns = plan.patterns(settings.reader).map_err(Failure::Message)?;
    let at = At { reader: settings.reader, scope: plan.scope, place: plan.lesson, class: super::class(args.rarer) };
    Ok((at, Some(Story(checked)), patterns))
}

/// A pack without a story: there is nothing to be told beforehand, and no folder whose settings could count.
fn alone(args: &PackArgs) -> Result<(At, Option<Story>, Vec<Pattern>), Failure> {
    if !args.told.names.is_empty() || !args.told.story_words.is_empty() || args.config.config.is_some() {
        return Err(Failure::Message("--names, --story-words and --config go with a story".to_owned()));
    }
    let at = At::of(args.told.scope.as_deref(), args.told.lesson.as_deref(), args.rarer)?;
    let patterns = at.patterns(&args.focus)?;
    Ok((at, None, patterns))
}

/// The story of the lesson, checked at it.
struct Story(Checked);

impl Story {
    fn text(&self) -> &str {
        self.0.text()
    }

    fn report(&self) -> &Report {
        &self.0.report
    }

    /// The title that the story gives itself.
    fn title(&self) -> Option<&str> {
        self.0.plan.title.as_deref()
    }

    /// The text in stretches, each with whether it is a word that practises what the lesson does.
    fn pieces(&self) -> Vec<(&str, bool)> {
        let (mut pieces, mut from) = (Vec::new(), self.0.plan.start);
        for word in self.report().words.iter().filter(|word| self.report().focus.types.contains(&word.type_number)) {
            pieces.push((&self.text()[from..word.span.start], false));
            pieces.push((&self.text()[word.span.clone()], true));
            from = word.span.end;
        }
        pieces.push((&self.text()[from..], false));
        pieces
    }

    /// The words that the child has to be told: what the story declares, and what has not been taught.
    fn told(&self) -> Vec<&str> {
        let told = self.report().distinct.iter().enumerate();
        let told = told.filter(|(_, word)| matches!(word.status, Status::Story | Status::Untaught));
        told.map(|(number, word)| {
            // A name keeps its capital.
            let first = self.report().words.iter().find(|at| at.type_number == number && word.capitals == word.count);
            first.filter(|_| word.declared).map_or(word.verdict.word.text.as_str(), |at| &self.text()[at.span.clone()])
        })
        .collect()
    }

    fn json(&self) -> Result<Value, Failure> {
        let counts = &self.report().tokens;
        let untaught: Vec<&str> = self.report().findings.iter().map(untaught::Finding::word).collect();
        Ok(serde_json::json!({
            "title": self.title(),
            "text": self.text()[self.0.plan.start..].trim(),
            "words": counts.words,
            "percent": {
                "decodable": untaught::messages::rounded(counts.percent_decodable()),
                "readable": untaught::messages::rounded(counts.percent_readable()),
            },
            "focus": self.report().focus.tokens,
            "told": self.told(),
            "untaught": untaught,
        }))
    }
}
