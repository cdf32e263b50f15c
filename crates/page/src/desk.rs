//! Where questions are answered.

use serde::{Deserialize, Serialize};
use untaught::yaml::first;
use untaught::{Fault, Reader, Scope};

use crate::ask::{AboutWord, Ask, Kind, OfScope, OfText, Source, Story};
use crate::{lists, mark, report, scopes, story, word};

/// Answers the page's questions, and remembers the scopes it was asked about and the words it judged against them.
#[derive(Debug, Default)]
pub struct Desk {
    reader: Reader,
    /// The latest last.
    kept: Vec<Kept>,
}

/// A scope that was asked about.
#[derive(Debug)]
pub(crate) struct Kept {
    source: Source,
    pub(crate) scope: Scope,
    pub(crate) memory: untaught::Memory,
}

/// Scopes remembered.
const KEPT: usize = 4;

/// Faults of a scope file that are shown; the others are counted.
const FAULTS: usize = 20;

/// Why there is no answer.
#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Refused {
    /// A sentence.
    Problem(String),
    /// What is wrong with a scope file, and where.
    Faults(Vec<FaultOut>),
}

#[derive(Debug, Serialize)]
pub(crate) struct FaultOut {
    line: usize,
    column: usize,
    message: String,
}

impl From<&Fault> for FaultOut {
    fn from(fault: &Fault) -> FaultOut {
        let Fault { position, message } = fault.clone();
        FaultOut { line: position.line, column: position.column, message }
    }
}

impl From<String> for Refused {
    fn from(problem: String) -> Refused {
        Refused::Problem(problem)
    }
}

impl Desk {
    /// Answers a question, both as JSON. Never fails: what cannot be answered gets `problem`, a sentence, or `faults`, what is wrong
    /// with the scope file and where.
    #[must_use]
    pub fn answer(&mut self, question: &str) -> String {
        self.reply(question).unwrap_or_else(|refused| json(&refused).unwrap_or_default())
    }

    fn reply(&mut self, question: &str) -> Result<String, Refused> {
        match read::<Ask>(question)?.ask {
            Kind::Scopes => json(&scopes::all()),
            Kind::Scope => {
                let (_, kept) = self.scope(&read::<OfScope>(question)?.scope)?;
                json(&scopes::lessons(&kept.scope))
            }
            Kind::Mark => {
                let asked: Story = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&mark::mark(reader, kept, &asked)?)
            }
            Kind::Report => {
                let asked: Story = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&report::report(reader, kept, &asked)?)
            }
            Kind::Word => {
                let asked: AboutWord = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&word::about(reader, &kept.scope, &asked)?)
            }
            Kind::Open => json(&story::open(&read::<OfText>(question)?.text)),
            Kind::Save => json(&story::save(&read(question)?)),
            Kind::Words => {
                let asked: lists::Words = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&lists::words(reader, &kept.scope, &asked)?)
            }
            Kind::Chain => {
                let asked: lists::Chain = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&lists::chain(reader, &kept.scope, &asked)?)
            }
            Kind::Boxes => json(&lists::boxes(&self.reader, &read::<OfText>(question)?.text)),
            Kind::Contrast => {
                let asked: lists::Contrast = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&lists::contrast(reader, &kept.scope, &asked)?)
            }
            Kind::Dictation => {
                let asked: lists::Drawn = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&lists::dictation(reader, &kept.scope, &asked)?)
            }
            Kind::Pack => {
                let asked: lists::Drawn = read(question)?;
                let (reader, kept) = self.scope(&asked.scope)?;
                json(&lists::pack(reader, &kept.scope, &asked))
            }
        }
    }

    /// A scope, compiled if it is not remembered.
    fn scope(&mut self, source: &Source) -> Result<(&Reader, &mut Kept), Refused> {
        let known = self.kept.iter().position(|kept| kept.source == *source);
        let kept = match known {
            Some(at) => self.kept.remove(at),
            None => {
                let scope = match source {
                    Source::Name(name) => Scope::embedded(name, &self.reader)
                        .ok_or_else(|| format!("no scope called {name} comes with this page"))?,
                    Source::Text(text) => Scope::parse(text, &self.reader).map_err(|faults| {
                        Refused::Faults(first(&faults, FAULTS).iter().map(FaultOut::from).collect())
                    })?,
                };
                Kept { source: source.clone(), scope, memory: untaught::Memory::default() }
            }
        };
        if self.kept.len() >= KEPT {
            self.kept.remove(0);
        }
        self.kept.push(kept);
        let last = self.kept.len() - 1;
        Ok((&self.reader, &mut self.kept[last]))
    }
}

/// Reads a question, or as much of it as its kind asks for.
fn read<'q, T: Deserialize<'q>>(question: &'q str) -> Result<T, Refused> {
    serde_json::from_str(question)
        .map_err(|error| Refused::Problem(format!("the page asked what cannot be answered: {error}")))
}

fn json<T: Serialize>(value: &T) -> Result<String, Refused> {
    serde_json::to_string(value).map_err(|error| Refused::Problem(format!("an answer could not be written: {error}")))
}
