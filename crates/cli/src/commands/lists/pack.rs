//! `untaught pack`: the whole lesson on paper. The settings of its story count for the lists too.

mod html;
mod markdown;

use std::collections::HashSet;
use std::path::Path;

use serde::Serialize;
use serde_json::Value;
use unicode_segmentation::UnicodeSegmentation as _;
use untaught::{Focus, Pattern, Report, Status, Type, fold_word};
use untaught_lists::{Pack, PackRequest, StoryQuestion, pack, questions};

use super::ListLesson;
use crate::analysis::{CheckedText, Detail, check};
use crate::args::{PackArgs, PackFormat};
use crate::output::{self, Failure, Outcome, Sink, remark, spare_the_stories};
use crate::settings::RunSettings;
use crate::texts::{Worker, read};

/// A pack with its story.
#[derive(Serialize)]
struct PackReport<'a> {
    #[serde(flatten)]
    pack: &'a Pack,
    story: Option<Value>,
}

pub(crate) fn run(args: &PackArgs) -> Result<Outcome, Failure> {
    spare_the_stories(args.output.as_deref(), args.story.as_deref())?;
    let (at, story, patterns) = match args.story.as_deref() {
        Some(path) => with_story(args, path)?,
        None => alone(args)?,
    };
    let focus = (!patterns.is_empty()).then(|| (Focus::of(at.scope, &patterns), patterns));
    let made = pack(at.judge(), &PackRequest { lesson: at.lesson, focus, vocabulary: at.vocabulary, seed: args.seed });
    let mut sink = Sink::open(args.output.as_deref(), false)?;
    match args.format {
        PackFormat::Json => {
            let root = PackReport { pack: &made, story: story.as_ref().map(PackStory::json).transpose()? };
            sink.write(&output::json_bytes(&root)?)?;
            sink.write(b"\n")?;
        }
        PackFormat::Html => sink.write(
            html::pack(
                &made,
                story.as_ref(),
                &html::PackLook { parts: &args.parts, ipa: args.ipa, sentence_lines: args.sentence_lines },
            )?
            .as_bytes(),
        )?,
        PackFormat::Markdown => sink.write(markdown::pack(&made, story.as_ref()).as_bytes())?,
    }
    sink.close()?;
    Ok(Outcome::Met)
}

/// The lesson of a story, the story checked at it, and the patterns that it practises: all as `check` has them.
fn with_story(args: &PackArgs, path: &Path) -> Result<(ListLesson, Option<PackStory>, Vec<Pattern>), Failure> {
    let settings = RunSettings::new(args.settings(), &args.config)?;
    let source = read(path, "-").map_err(Failure::Message)?;
    if let Some(note) = source.note() {
        remark(&note);
    }
    let plan = source.plan(&settings)?;
    let detail = Detail { every_word: true, ..Detail::default() };
    let checked = check(source, plan, detail, &mut Worker::default(), &settings)?;
    let plan = &checked.plan;
    let patterns = plan.patterns(settings.reader, &checked.source.name)?;
    let at = ListLesson {
        reader: settings.reader,
        scope: plan.scope,
        lesson: plan.lesson,
        vocabulary: super::vocabulary(&args.vocabulary),
    };
    Ok((at, Some(PackStory(checked)), patterns))
}

/// A pack without a story: it has no names and story words.
fn alone(args: &PackArgs) -> Result<(ListLesson, Option<PackStory>, Vec<Pattern>), Failure> {
    if !args.settings.names.is_empty() || !args.settings.story_words.is_empty() {
        return Err(Failure::Message("--names and --story-words need a story".to_owned()));
    }
    let at = ListLesson::of(&RunSettings::new(args.settings(), &args.config)?, &args.vocabulary)?;
    let patterns = at.patterns(&args.focus)?;
    Ok((at, None, patterns))
}

/// The story of the lesson, checked at it.
struct PackStory(CheckedText);

impl PackStory {
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
        // Where each word stands first.
        let mut first = vec![None; self.report().distinct.len()];
        for word in &self.report().words {
            if let Some(first @ None) = first.get_mut(word.type_number) {
                *first = Some(&self.text()[word.span.clone()]);
            }
        }
        let told = self.report().distinct.iter().zip(first);
        let told = told.filter(|(word, _)| matches!(word.status, Status::Story | Status::Untaught));
        told.map(|(word, first)| {
            // A name keeps its capital.
            let is_name = word.declared && word.capitals == word.count;
            first.filter(|_| is_name).unwrap_or(word.verdict.word.text.as_str())
        })
        .collect()
    }

    /// Questions to ask after it.
    fn questions(&self) -> Vec<StoryQuestion> {
        let story = self.text()[self.0.plan.start..].replace("\r\n", "\n");
        let paragraphs: Vec<String> = story.split("\n\n").map(|paragraph| paragraph.replace('\n', " ")).collect();
        let sentences: Vec<&str> = paragraphs.iter().flat_map(|text| text.split_sentence_bounds()).collect();
        let report = self.report();
        let found = |word: &Type, number: usize| {
            let mut findings = report.findings.iter();
            word.capitals == word.count
                && (word.declared
                    || word.inner_capitals > 0
                    || findings.any(|finding| finding.type_number == number && finding.likely_name))
        };
        let names: HashSet<&str> = (0..)
            .zip(&report.distinct)
            .filter(|(number, word)| found(word, *number))
            .map(|(_, word)| word.verdict.word.text.as_str())
            .collect();
        questions(&sentences, |word| names.contains(fold_word(word).as_str()))
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
            "questions": self.questions(),
        }))
    }
}
