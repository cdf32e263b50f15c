//! Where questions are answered.

use serde::{Deserialize, Serialize};
use untaught::yaml::first;
use untaught::{Reader, Scope};

use crate::ask::{AnyQuestion, QuestionKind, ScopeQuestion, ScopeSource, StoryQuestion, TextQuestion, WordQuestion};
use crate::known_scope::KnownScope;
use crate::refusal::{FaultAnswer, Refusal};
use crate::{catalogue, draft, lists, mark, plan, report, scopes, story, word};

/// Answers the page's questions, and remembers the scopes it was asked about and the words it judged against them.
#[derive(Debug, Default)]
pub struct Desk {
    reader: Reader,
    /// Scopes that were asked about, the latest last.
    known: Vec<KnownScope>,
}

/// Scopes that are remembered.
const REMEMBERED: usize = 4;

/// Faults of a scope file that are shown; the others are counted.
const FAULTS: usize = 20;

impl Desk {
    /// Answers a question, both as JSON. Never fails: what cannot be answered gets `problem`, a sentence, or `faults`, what is wrong
    /// with the scope file and where.
    #[must_use]
    pub fn answer(&mut self, question: &str) -> String {
        self.reply(question).unwrap_or_else(|refused| json(&refused).unwrap_or_default())
    }

    fn reply(&mut self, question: &str) -> Result<String, Refusal> {
        match read::<AnyQuestion>(question)?.ask {
            QuestionKind::Scopes => json(&scopes::all()),
            QuestionKind::Scope => {
                let (_, known) = self.scope(&read::<ScopeQuestion>(question)?.scope)?;
                json(&scopes::lessons(&known.scope))
            }
            QuestionKind::Mark => {
                let asked: StoryQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&mark::mark(reader, known, &asked)?)
            }
            QuestionKind::Report => {
                let asked: StoryQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&report::report(reader, known, &asked)?)
            }
            QuestionKind::Plan => {
                let asked: plan::PlanQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.story.scope)?;
                json(&plan::plan(reader, known, &asked)?)
            }
            QuestionKind::Word => {
                let asked: WordQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&word::about(reader, &known.scope, &asked)?)
            }
            QuestionKind::Open => json(&story::open(&read::<TextQuestion>(question)?.text)),
            QuestionKind::File => json(&story::open_file(&read(question)?)?),
            QuestionKind::Save => json(&story::save(&read(question)?)),
            QuestionKind::Words => {
                let asked: lists::WordsQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&lists::words(reader, &known.scope, &asked)?)
            }
            QuestionKind::Chain => {
                let asked: lists::ChainQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&lists::chain(reader, &known.scope, &asked)?)
            }
            QuestionKind::Boxes => {
                let asked: lists::BoxesQuestion = read(question)?;
                let reader = match &asked.scope {
                    Some(scope) => self.scope(scope)?.0,
                    None => &self.reader,
                };
                json(&lists::boxes(reader, &asked.text))
            }
            QuestionKind::Contrast => {
                let asked: lists::ContrastQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&lists::contrast(reader, &known.scope, &asked)?)
            }
            QuestionKind::Dictation => {
                let asked: lists::ListQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&lists::dictation(reader, &known.scope, &asked)?)
            }
            QuestionKind::Pack => {
                let asked: lists::ListQuestion = read(question)?;
                let (reader, known) = self.scope(&asked.scope)?;
                json(&lists::pack(reader, &known.scope, &asked))
            }
            QuestionKind::DraftChoices => json(&draft::choices()),
            QuestionKind::BeginDraft => json(&draft::begin(&read(question)?)?),
            QuestionKind::Draft => json(&draft::check(&self.reader, &read::<draft::DraftQuestion>(question)?.draft)),
            QuestionKind::Lines => json(&draft::lessons_in(&read(question)?, &self.reader)?),
            QuestionKind::Catalogue => json(&catalogue::search(&self.reader, &read(question)?)),
        }
    }

    /// A scope, compiled if it is not remembered.
    fn scope(&mut self, source: &ScopeSource) -> Result<(&Reader, &mut KnownScope), Refusal> {
        let at = self.known.iter().position(|known| known.source == *source);
        let known = match at {
            Some(at) => self.known.remove(at),
            None => {
                let scope = match source {
                    ScopeSource::Name(name) => Scope::embedded(name, &self.reader)
                        .ok_or_else(|| format!("this page has no scope called {name}"))?,
                    ScopeSource::Text(text) => Scope::parse(text, &self.reader).map_err(|faults| {
                        Refusal::Faults(first(&faults, FAULTS).iter().map(FaultAnswer::from).collect())
                    })?,
                };
                KnownScope::new(source.clone(), scope)
            }
        };
        if self.known.len() >= REMEMBERED {
            self.known.remove(0);
        }
        self.known.push(known);
        let last = self.known.len() - 1;
        let known = &mut self.known[last];
        Ok((self.reader.for_scope(&known.scope), known))
    }
}

/// Reads a question, or as much of it as its kind asks for.
fn read<'q, T: Deserialize<'q>>(question: &'q str) -> Result<T, Refusal> {
    serde_json::from_str(question)
        .map_err(|error| Refusal::Problem(format!("the page sent a question that cannot be answered: {error}")))
}

fn json<T: Serialize>(value: &T) -> Result<String, Refusal> {
    serde_json::to_string(value).map_err(|error| Refusal::Problem(format!("an answer could not be written: {error}")))
}
