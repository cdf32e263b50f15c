//! What holds for each text: what was typed, what it says itself, what the settings of its folder say, in that order.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use untaught::{FrontMatter, LessonIndex, Pattern, Reader, Scope, fold_word, front_matter, tokens};
use untaught_config::{Origin, Project, Sourced, TextSettings};

use super::source::Source;
use crate::args::{CheckArgs, Config, Texts, Told};
use crate::input;
use crate::output::{Failure, Message, path_line};

/// In place of a name: whatever looks like one counts.
const ALLOW: &str = "allow";

/// Scopes and settings files, each read once. They last as long as the program, so that all threads share them.
pub(crate) struct Settings {
    pub(crate) reader: &'static Reader,
    given: Option<&'static Project>,
    search: bool,
    /// By folder: its settings, or why they cannot be used.
    projects: Mutex<HashMap<PathBuf, Result<Option<&'static Project>, Message>>>,
    scopes: Mutex<HashMap<String, Result<&'static Scope, Message>>>,
}

/// Where something that holds for a text was said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) enum Said {
    CommandLine,
    FrontMatter,
    Settings(String),
    Default,
}

impl std::fmt::Display for Said {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Said::CommandLine => f.write_str("command line"),
            Said::FrontMatter => f.write_str("front matter"),
            Said::Settings(place) => f.write_str(place),
            Said::Default => f.write_str("nothing else was said"),
        }
    }
}

/// The percentages a text must reach.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Thresholds {
    pub(crate) decodable: Option<f64>,
    pub(crate) readable: f64,
    pub(crate) focus: Option<f64>,
}

/// What was typed about the texts.
#[derive(Clone, Copy)]
pub(crate) struct Typed<'a> {
    pub(crate) told: &'a Told,
    /// Patterns to practise.
    pub(crate) focus: &'a [String],
    pub(crate) least: Least,
}

/// Percentages that were typed.
#[derive(Clone, Copy, Default)]
pub(crate) struct Least {
    decodable: Option<f64>,
    readable: Option<f64>,
    focus: Option<f64>,
}

impl Texts {
    pub(crate) fn typed(&self) -> Typed<'_> {
        let least = Least { decodable: self.min_decodable, readable: self.min_readable, focus: None };
        Typed { told: &self.told, focus: &[], least }
    }
}

impl CheckArgs {
    pub(crate) fn typed(&self) -> Typed<'_> {
        let typed = self.texts.typed();
        Typed { focus: &self.focus, least: Least { focus: self.min_focus, ..typed.least }, ..typed }
    }
}

/// What holds for one text.
pub(crate) struct Plan {
    pub(crate) scope: &'static Scope,
    pub(crate) scope_name: (String, Said),
    pub(crate) lesson: LessonIndex,
    pub(crate) lesson_said: Said,
    pub(crate) title: Option<String>,
    /// As written, with where it was said.
    pub(crate) names: Vec<(String, Said)>,
    pub(crate) story_words: Vec<(String, Said)>,
    pub(crate) focus: Vec<(String, Said)>,
    pub(crate) allow_names: bool,
    pub(crate) thresholds: Thresholds,
    pub(crate) thresholds_said: [Said; 3],
    /// Where the story begins in the text, in bytes.
    pub(crate) start: usize,
}

impl Plan {
    /// The patterns to practise, if any were said.
    pub(crate) fn patterns(&self, reader: &Reader) -> Result<Vec<Pattern>, String> {
        self.focus.iter().map(|(text, _)| Pattern::parse(text, reader)).collect()
    }

    /// The words told beforehand, folded. *Old Tom* and *merry-go-round* are judged word by word, and so declared.
    pub(crate) fn declared(&self) -> Vec<String> {
        self.told(|_| true)
    }

    /// Those of them that were told for this text alone, which should have them; what holds for a folder need not be in every text.
    pub(crate) fn declared_here(&self) -> Vec<String> {
        self.told(|said| !matches!(said, Said::Settings(_)))
    }

    fn told(&self, by: impl Fn(&Said) -> bool) -> Vec<String> {
        let written = self.story_words.iter().chain(&self.names).filter(|(_, said)| by(said));
        written.flat_map(|(text, _)| tokens(text).map(|token| fold_word(&text[token.span]))).collect()
    }
}

impl Settings {
    /// Reads the settings and the scope that were named on the command line, so that these are right even if no text is.
    pub(crate) fn new(told: &Told, config: &Config) -> Result<Settings, Failure> {
        let reader: &'static Reader = Box::leak(Box::default());
        let mut settings = Settings {
            reader,
            given: None,
            search: !config.no_config && config.config.is_none(),
            projects: Mutex::default(),
            scopes: Mutex::default(),
        };
        if let Some(path) = &config.config {
            settings.given = Some(open(path)?);
        }
        if let Some(name) = &told.scope {
            let scope = settings.scope(name)?;
            if let Some(id) = &told.lesson {
                scope.index_of(id)?;
            }
        }
        Ok(settings)
    }

    /// The settings that count for a text.
    fn project(&self, text: &Path) -> Result<Option<&'static Project>, Message> {
        if self.given.is_some() || !self.search {
            return Ok(self.given);
        }
        let folder = text.parent().unwrap_or(Path::new("")).to_owned();
        let mut known = self.projects.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(found) = known.get(&folder) {
            return found.clone();
        }
        let found = untaught_config::find(&folder).map(|path| {
            // Two folders share the settings above them.
            let same = known.values().filter_map(|found| found.as_ref().ok().copied().flatten());
            let same = same.into_iter().find(|project| project.path == path);
            same.map_or_else(|| open(&path), Ok)
        });
        let found = found.transpose();
        known.insert(folder, found.clone());
        found
    }

    /// Whether the settings leave a text out.
    pub(crate) fn excludes(&self, text: &Path) -> bool {
        self.project(text).ok().flatten().is_some_and(|project| project.excludes(text))
    }

    fn scope(&self, name: &str) -> Result<&'static Scope, Message> {
        let mut known = self.scopes.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(found) = known.get(name) {
            return found.clone();
        }
        let read = input::scope(Some(name), self.reader).map_err(|failure| match failure {
            Failure::Message(message) => message.into(),
            Failure::Faults(message) => message,
            Failure::ClosedPipe => "the scope file cannot be read".to_owned().into(),
        });
        let found = read.map(|scope| &*Box::leak(Box::new(scope)));
        known.insert(name.to_owned(), found.clone());
        found
    }

    /// What holds for a text that came in as a record, which may name its lesson.
    pub(crate) fn plan_record(&self, typed: Typed<'_>, lesson: Option<&str>, source: &Source) -> Result<Plan, Message> {
        let mut plan = self.plan(typed, source)?;
        if let (Some(id), true) = (lesson, typed.told.lesson.is_none()) {
            plan.lesson = plan.scope.index_of(id)?;
            plan.lesson_said = Said::FrontMatter;
        }
        Ok(plan)
    }

    /// What holds for a text.
    pub(crate) fn plan(&self, typed: Typed<'_>, source: &Source) -> Result<Plan, Message> {
        let Typed { told, focus, least } = typed;
        let name = &*source.name;
        let (front, start) = front_matter(source.document.text())
            .map_err(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message))?;
        let place = source.path.as_deref().unwrap_or(Path::new(""));
        let project = self.project(place)?;
        let set = project.map(|project| project.for_text(place)).unwrap_or_default();
        let from = |sourced: &Origin| said(project, sourced);
        let scope_name = match (&told.scope, &front.scope, &set.scope) {
            (Some(given), ..) => (given.clone(), Said::CommandLine),
            (None, Some(named), _) => (beside(place, named), Said::FrontMatter),
            (None, None, Some(set)) => (set.value.clone(), from(&set.origin)),
            (None, None, None) => (input::DEFAULT_SCOPE.to_owned(), Said::Default),
        };
        let scope = self.scope(&scope_name.0).map_err(|message| match &scope_name.1 {
            Said::CommandLine | Said::Default => message,
            Said::FrontMatter => message.at(&at_key(name, &front, "scope")),
            Said::Settings(place) => message.at(place),
        })?;
        let (lesson, lesson_said) = match (&told.lesson, &front.lesson, &set.lesson) {
            (Some(id), ..) => (scope.index_of(id)?, Said::CommandLine),
            (None, Some(id), _) => {
                let lesson = scope.index_of(id);
                let at = || at_key(name, &front, "lesson");
                (lesson.map_err(|unknown| format!("{}: {unknown}", at()))?, Said::FrontMatter)
            }
            (None, None, Some(id)) => {
                let from = from(&id.origin);
                (scope.index_of(&id.value).map_err(|message| format!("{name}: {message} ({from})"))?, from)
            }
            (None, None, None) => (scope.last(), Said::Default),
        };
        let typed = |words: &[String]| -> Vec<(String, Said)> {
            words.iter().filter(|word| *word != ALLOW).map(|word| (word.clone(), Said::CommandLine)).collect()
        };
        let in_front = |words: &[String]| -> Vec<(String, Said)> {
            words.iter().map(|word| (word.clone(), Said::FrontMatter)).collect()
        };
        let in_settings = |words: &[Sourced<String>]| -> Vec<(String, Said)> {
            words.iter().map(|word| (word.value.clone(), from(&word.origin))).collect()
        };
        let all = |typed_words: &[String], front: &[String], set: &[Sourced<String>]| {
            [typed(typed_words), in_front(front), in_settings(set)].concat()
        };
        // Words told beforehand add up; of the patterns to practise, the nearest list counts.
        let focus = [typed(focus), in_front(&front.focus), in_settings(&set.focus)];
        let focus = focus.into_iter().find(|list| !list.is_empty()).unwrap_or_default();
        let (thresholds, thresholds_said) = thresholds(least, &set, &from);
        Ok(Plan {
            scope,
            scope_name,
            lesson,
            lesson_said,
            title: front.title.clone(),
            names: all(&told.names, &front.names, &set.names),
            story_words: all(&told.story_words, &front.story_words, &set.story_words),
            focus,
            allow_names: told.names.iter().any(|name| name == ALLOW),
            thresholds,
            thresholds_said,
            start,
        })
    }
}

fn thresholds(least: Least, set: &TextSettings, from: &dyn Fn(&Origin) -> Said) -> (Thresholds, [Said; 3]) {
    let choose = |typed: Option<f64>, set: &Option<Sourced<f64>>| match (typed, set) {
        (Some(value), _) => (Some(value), Said::CommandLine),
        (None, Some(set)) => (Some(set.value), from(&set.origin)),
        (None, None) => (None, Said::Default),
    };
    let (decodable, of_decodable) = choose(least.decodable, &set.min_decodable);
    let (readable, of_readable) = choose(least.readable, &set.min_readable);
    let (focus, of_focus) = choose(least.focus, &set.min_focus);
    let thresholds = Thresholds { decodable, readable: readable.unwrap_or(100.0), focus };
    (thresholds, [of_decodable, of_readable, of_focus])
}

fn said(project: Option<&Project>, origin: &Origin) -> Said {
    let path = project.map(|project| shown(&project.path)).unwrap_or_default();
    Said::Settings(match origin {
        Origin::Line(line) => format!("{path}:{line}"),
        Origin::Name => format!("the file's name, by {path}"),
    })
}

/// A path from here, if it lies here.
fn shown(path: &Path) -> String {
    let here = std::env::current_dir().unwrap_or_default();
    path_line(path.strip_prefix(&here).unwrap_or(path))
}

/// Where a key stands, for a sentence.
fn at_key(name: &str, front: &FrontMatter, key: &str) -> String {
    let at = front.position(key);
    format!("{name}:{}:{}: in the front matter", at.line, at.column)
}

/// A scope that a text names: one that comes with the program, or a path from the text's folder.
fn beside(text: &Path, named: &str) -> String {
    let embedded = Scope::all_embedded().any(|(known, _)| known == named);
    match text.parent() {
        Some(folder) if !embedded => folder.join(named).display().to_string(),
        _ => named.to_owned(),
    }
}

/// Reads a settings file, which lasts as long as the program.
fn open(path: &Path) -> Result<&'static Project, Message> {
    let text = input::text(path, "settings")?;
    let project = Project::parse(&text, path)
        .map_err(|faults| Message::faults("the settings file cannot be used", &shown(path), &faults))?;
    Ok(Box::leak(Box::new(project)))
}
