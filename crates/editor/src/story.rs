//! A story as it was checked, with every place counted in the open text.

use std::ops::Range;

use untaught::{Checker, Focus, Options, Report, Type};
use untaught_documents::{Document, Kind};

use crate::buffer::Buffer;
use crate::plan::{Note, Plan, Sources, plan};
use crate::shared_files::{READER, SharedFiles};
use crate::word_diagnostics::REMEMBERED;

/// What a check found.
#[derive(Debug)]
pub(crate) struct CheckedStory {
    edition: u64,
    pub(crate) plan: Plan,
    /// What keeps it from being checked as it should be.
    pub(crate) notes: Vec<Note>,
    /// None where the story cannot be checked.
    pub(crate) report: Option<Report>,
    /// Every counted word in order: where it stands in the open text, and the number of its type.
    pub(crate) words: Vec<(Range<usize>, usize)>,
    /// By type: which finding it has.
    pub(crate) finding_of: Vec<Option<usize>>,
}

impl CheckedStory {
    /// The type of the word at an offset of the open text, or just before it.
    pub(crate) fn word_at(&self, offset: usize) -> Option<(Range<usize>, &Type)> {
        let after = self.words.partition_point(|(span, _)| span.start <= offset);
        let (span, number) = self.words.get(after.checked_sub(1)?)?;
        let word = self.report.as_ref()?.distinct.get(*number)?;
        (offset <= span.end).then(|| (span.clone(), word))
    }
}

/// What became of a story that was to be checked.
pub(crate) enum StoryCheck {
    /// The settings leave it out.
    Excluded,
    /// Nothing has changed since it was last checked.
    Unchanged,
    /// It was checked.
    Checked(Box<CheckedStory>),
}

/// Checks an open story, unless nothing has changed since it was last checked.
/// Cost: one pass over the text; words that were judged before are not judged again.
pub(crate) fn check(
    buffer: &Buffer,
    last: Option<&CheckedStory>,
    kind: Kind,
    files: &mut SharedFiles,
    from: &Sources<'_>,
) -> StoryCheck {
    let document = match kind {
        Kind::Markdown => untaught_documents::read(kind, buffer.text.clone().into_bytes()).ok(),
        _ => None,
    };
    let text = document.as_ref().map_or(buffer.text.as_str(), Document::text);
    let Some(plan) = plan(buffer, text, files, from) else { return StoryCheck::Excluded };
    if last.is_some_and(|story| story.edition == buffer.edition && story.plan == plan) {
        return StoryCheck::Unchanged;
    }
    let mut story = CheckedStory {
        edition: buffer.edition,
        notes: plan.notes.clone(),
        plan,
        report: None,
        words: Vec::new(),
        finding_of: Vec::new(),
    };
    let plan = &story.plan;
    let Some(loaded) = plan.scope.clone() else { return StoryCheck::Checked(Box::new(story)) };
    let focus = plan.settings.patterns(&READER).unwrap_or_else(|problem| {
        let message = format!("the focus of this story is not valid: {}", problem.value);
        story.notes.push(Note::of(&problem.origin, message));
        Vec::new()
    });
    let options = Options {
        lesson: plan.lesson,
        declared: plan.settings.declared(),
        every_word: true,
        places: 0,
        allow_names: plan.settings.allow_names.value,
        focus: (!focus.is_empty()).then(|| Focus::of(&loaded.scope, &focus)),
        start: Some(plan.start),
    };
    let mut checker = Checker::remembering(&loaded.scope, &READER, loaded.memory.take());
    let report = checker.check(text, &options);
    // Each beginning of a word that is typed is judged: what is remembered of them must not pile up.
    let memory = checker.into_memory();
    if memory.len() <= REMEMBERED.max(2 * report.distinct.len()) {
        loaded.memory.replace(memory);
    }
    let spans = report.words.iter().map(|word| (word.span.clone(), word.type_number));
    story.words = match &document {
        Some(document) => spans.map(|(span, number)| (source(document, &span), number)).collect(),
        None => spans.collect(),
    };
    story.finding_of = vec![None; report.distinct.len()];
    for (number, finding) in report.findings.iter().enumerate() {
        story.finding_of[finding.type_number] = Some(number);
    }
    story.report = Some(report);
    StoryCheck::Checked(Box::new(story))
}

/// Where a word of the extracted text stands in the open one. Its end lies after its last letter, not at the beginning of what
/// follows it, which may be far away.
fn source(document: &Document, span: &Range<usize>) -> Range<usize> {
    let word = &document.text()[span.clone()];
    let last = word.char_indices().next_back().map_or(0, |(at, _)| at);
    let (start, last_at) = (document.to_source(span.start), document.to_source(span.start + last));
    let rest = &document.source()[last_at..];
    let end = match rest.chars().next() {
        // A letter that was written as an entity ends with its semicolon.
        Some('&') => rest.find(';').map_or(1, |at| at + 1),
        Some(c) => c.len_utf8(),
        None => 0,
    };
    start..(last_at + end).max(start)
}
