//! Settings once the layers are resolved: each value with its origin.

use std::fmt;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use untaught::yaml::Position;
use untaught::{Pattern, Reader, Scope, fold_word, tokens};

/// The scope where none is set.
pub const DEFAULT_SCOPE: &str = "starter";

/// Where a value was set.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Origin {
    /// On the command line.
    CommandLine,
    /// In the record that the text came in.
    Record,
    /// In the text's front matter.
    FrontMatter {
        /// The value in the text.
        position: Position,
    },
    /// By the name of the text, from which `lesson-from-name` takes the lesson.
    FileName {
        /// The settings file.
        path: Arc<Path>,
        /// The value of `lesson-from-name` in it.
        position: Position,
    },
    /// In a settings file.
    Settings {
        /// The settings file.
        path: Arc<Path>,
        /// The value in it.
        position: Position,
    },
    /// In the editor.
    Editor,
    /// Nowhere.
    Default,
}

/// A value with its origin.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Where it was set.
    pub origin: Origin,
}

impl<T> Sourced<T> {
    /// A value with its origin.
    pub fn new(value: T, origin: Origin) -> Sourced<T> {
        Sourced { value, origin }
    }
}

/// Names a scope.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub enum ScopeReference {
    /// A scope that comes with the program, by its name.
    BuiltIn(String),
    /// A scope file.
    File(PathBuf),
}

impl ScopeReference {
    /// Reads what was written. A path counts from a folder if one is given, else from the current one.
    #[must_use]
    pub fn new(written: &str, folder: Option<&Path>) -> ScopeReference {
        if Scope::all_embedded().any(|(name, _)| name == written) {
            return ScopeReference::BuiltIn(written.to_owned());
        }
        ScopeReference::File(folder.map_or_else(|| PathBuf::from(written), |folder| folder.join(written)))
    }
}

impl fmt::Display for ScopeReference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ScopeReference::BuiltIn(name) => f.write_str(name),
            ScopeReference::File(path) => path.display().fmt(f),
        }
    }
}

/// The settings of one text, or of a command that is about no text.
#[derive(Clone, PartialEq, Debug)]
pub struct EffectiveSettings {
    /// The scope.
    pub scope: Sourced<ScopeReference>,
    /// The id of the lesson; none for the last of the scope.
    pub lesson: Option<Sourced<String>>,
    /// Names taught to the child beforehand, as written.
    pub names: Vec<Sourced<String>>,
    /// Other words taught beforehand, as written.
    pub story_words: Vec<Sourced<String>>,
    /// Patterns whose practice is counted, as written; empty for those of the lesson.
    pub focus: Vec<Sourced<String>>,
    /// Whether every word that looks like a name counts as one.
    pub allow_names: Sourced<bool>,
    /// Least percent decodable.
    pub min_decodable: Option<Sourced<f64>>,
    /// Least percent readable.
    pub min_readable: Sourced<f64>,
    /// Least percent of running words that practise the focus.
    pub min_focus: Option<Sourced<f64>>,
    /// How names and local words are read: each word with its cutting, as written.
    pub pronounce: Vec<Sourced<(String, String)>>,
}

impl Default for EffectiveSettings {
    fn default() -> EffectiveSettings {
        EffectiveSettings {
            scope: Sourced::new(ScopeReference::BuiltIn(DEFAULT_SCOPE.to_owned()), Origin::Default),
            lesson: None,
            names: Vec::new(),
            story_words: Vec::new(),
            focus: Vec::new(),
            allow_names: Sourced::new(false, Origin::Default),
            min_decodable: None,
            min_readable: Sourced::new(100.0, Origin::Default),
            min_focus: None,
            pronounce: Vec::new(),
        }
    }
}

impl EffectiveSettings {
    /// The story words and names, folded. *Old Tom* and *merry-go-round* are judged word by word, and so declared.
    #[must_use]
    pub fn declared(&self) -> Vec<String> {
        self.declared_where(|_| true)
    }

    /// Those that were set for this text alone, which should contain them; a folder's words need not be in every text.
    #[must_use]
    pub fn declared_for_text(&self) -> Vec<String> {
        self.declared_where(|origin| !matches!(origin, Origin::Settings { .. } | Origin::Editor))
    }

    fn declared_where(&self, keep: impl Fn(&Origin) -> bool) -> Vec<String> {
        let written = self.story_words.iter().chain(&self.names).filter(|word| keep(&word.origin));
        written.flat_map(|word| tokens(&word.value).map(|token| fold_word(&word.value[token.span]))).collect()
    }

    /// The words with a pronunciation of their own and their cuttings, which tell one such scope from another.
    #[must_use]
    pub fn pronunciations(&self) -> Vec<(String, String)> {
        self.pronounce.iter().map(|given| given.value.clone()).collect()
    }

    /// The scope, with these pronunciations.
    ///
    /// # Errors
    /// What is wrong with the first that cannot be read, and where it was set.
    pub fn pronouncing(&self, scope: &Scope) -> Result<Scope, Sourced<String>> {
        let given = self.pronounce.iter().map(|given| (given.value.0.as_str(), given.value.1.as_str()));
        scope
            .pronouncing(given)
            .map_err(|(number, problem)| Sourced::new(problem, self.pronounce[number].origin.clone()))
    }

    /// The focus as patterns.
    ///
    /// # Errors
    /// What is wrong with the first that cannot be read, and where it was set.
    pub fn patterns(&self, reader: &Reader) -> Result<Vec<Pattern>, Sourced<String>> {
        let read = |written: &Sourced<String>| {
            Pattern::parse(&written.value, reader).map_err(|problem| Sourced::new(problem, written.origin.clone()))
        };
        self.focus.iter().map(read).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_declared_one_by_one_and_a_folder_s_apart() {
        let folder = Origin::Settings { path: Path::new("/shelf/untaught.yaml").into(), position: Position::START };
        let settings = EffectiveSettings {
            names: vec![Sourced::new("Old Tom".to_owned(), Origin::CommandLine)],
            story_words: vec![Sourced::new("merry-go-round".to_owned(), folder)],
            ..EffectiveSettings::default()
        };
        assert_eq!(settings.declared(), ["merry", "go", "round", "old", "tom"]);
        assert_eq!(settings.declared_for_text(), ["old", "tom"]);
    }

    #[test]
    fn a_pattern_that_cannot_be_read_says_where_it_was_set() {
        let focus = ["sh", "qq"].map(|written| Sourced::new(written.to_owned(), Origin::CommandLine));
        let settings = EffectiveSettings { focus: focus.into(), ..EffectiveSettings::default() };
        let problem = settings.patterns(&Reader::default()).unwrap_err();
        assert!(problem.value.contains("`qq`") && problem.origin == Origin::CommandLine, "{problem:?}");
    }
}
