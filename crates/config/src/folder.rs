//! Settings of a folder: a settings file that was read, and what it sets for one text.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use globset::{GlobBuilder, GlobMatcher};
use regex::{Regex, RegexBuilder};
use untaught::yaml::{self, Fault, Outline, Position};

use crate::bounds::{LONGEST_GLOB, MACHINE, too_much};
use crate::effective::{EffectiveSettings, Origin, ScopeReference, Sourced};
use crate::file::{Globs, Keys, SettingsFile};
use crate::layer::{Layer, all};
use crate::paths::{absolute, clean};

/// The settings of a folder and of all below it.
#[derive(Debug)]
pub struct FolderSettings {
    /// The settings file, as it was named.
    path: Arc<Path>,
    /// Its folder, from which paths and globs count.
    folder: PathBuf,
    exclude: Vec<FilePattern>,
    folder_wide: Layer,
    lesson_from_name: Option<LessonFromName>,
    /// In the order of the file.
    rules: Vec<FolderRule>,
}

/// A regular expression that finds the lesson in the name of a text.
#[derive(Debug)]
struct LessonFromName {
    regex: Regex,
    position: Position,
}

/// Settings for the texts that some glob fits.
#[derive(Debug)]
struct FolderRule {
    files: Vec<FilePattern>,
    layer: Layer,
}

/// A glob that counts from the folder of the settings; without a slash it fits a name in any folder.
#[derive(Debug)]
struct FilePattern {
    matcher: GlobMatcher,
    name_only: bool,
}

impl FilePattern {
    fn new(glob: &str) -> Result<FilePattern, String> {
        if glob.len() > LONGEST_GLOB {
            return Err(format!("this glob is longer than {LONGEST_GLOB} characters"));
        }
        let name_only = !glob.contains('/');
        let glob = glob.strip_prefix("./").unwrap_or(glob);
        let made = GlobBuilder::new(glob).literal_separator(true).backslash_escape(false).build();
        let matcher = made.map_err(|error| format!("this glob is not valid: {}", error.kind()))?.compile_matcher();
        Ok(FilePattern { matcher, name_only })
    }

    fn fits(&self, relative: &Path) -> bool {
        match relative.file_name() {
            Some(name) if self.name_only => self.matcher.is_match(name),
            _ => self.matcher.is_match(relative),
        }
    }
}

impl FolderSettings {
    /// Reads a settings file. A relative path counts from the current folder.
    ///
    /// # Errors
    /// Everything that is wrong with the file; nothing is half-read.
    pub fn parse(text: &str, path: &Path) -> Result<FolderSettings, Vec<Fault>> {
        let (file, outline): (SettingsFile, Outline) = yaml::read(text).map_err(|fault| vec![fault])?;
        if let Some(fault) = too_much(&file, &outline) {
            return Err(vec![fault]);
        }
        let mut faults = Vec::new();
        if file.format != 1 {
            let message = format!("this program reads settings of format 1, but the file has format {}", file.format);
            faults.push(Fault::new(outline.position(&["format"]), &message));
        }
        let folder = clean(&absolute(path.parent().unwrap_or(Path::new(""))));
        let path: Arc<Path> = path.into();
        let exclude = file_patterns(&file.exclude, &["exclude"], &outline, &mut faults);
        let layer = |keys: &Keys<'_>, at: &[&str], faults: &mut Vec<Fault>| {
            let position = |key: &[&str]| outline.position(&[at, key].concat());
            for (key, value) in THRESHOLDS.into_iter().zip(keys.thresholds) {
                if value.is_some_and(|value| !(0.0..=100.0).contains(&value)) {
                    faults.push(Fault::new(position(&[key]), "a percentage is a number from 0 to 100"));
                }
            }
            layer(keys, &folder, &|key| Origin::Settings { path: Arc::clone(&path), position: position(key) })
        };
        let mut folder_wide = layer(&file.keys(), &[], &mut faults);
        let given = |(word, cutting): (&String, &String)| {
            let position = outline.position(&["pronounce", word]);
            Sourced::new((word.clone(), cutting.clone()), Origin::Settings { path: Arc::clone(&path), position })
        };
        folder_wide.pronounce = file.pronounce.iter().map(given).collect();
        let mut rules = Vec::new();
        for (number, rule) in file.texts.iter().enumerate() {
            let number = number.to_string();
            let at = ["texts", &number];
            let files = file_patterns(&rule.files, &[at[0], at[1], "files"], &outline, &mut faults);
            if rule.files.0.is_empty() {
                let position = outline.position(&[at[0], at[1], "files"]);
                faults.push(Fault::new(position, "this rule cannot match any file"));
            }
            rules.push(FolderRule { files, layer: layer(&rule.keys(), &at, &mut faults) });
        }
        let position = outline.position(&["lesson-from-name"]);
        let lesson_from_name = file.lesson_from_name.as_deref().map(lesson_regex).transpose();
        let lesson_from_name = lesson_from_name.unwrap_or_else(|message| {
            faults.push(Fault::new(position, &message));
            None
        });
        if !faults.is_empty() {
            faults.sort_by_key(|fault| fault.position);
            return Err(faults);
        }
        let lesson_from_name = lesson_from_name.map(|regex| LessonFromName { regex, position });
        Ok(FolderSettings { path, folder, exclude, folder_wide, lesson_from_name, rules })
    }

    /// The path of a text from the folder of the settings; none for one that is elsewhere.
    fn relative(&self, text: &Path) -> Option<PathBuf> {
        clean(text).strip_prefix(&self.folder).ok().map(Path::to_path_buf)
    }

    /// Whether a text, given by its absolute path, is to be left out unless it is named itself.
    #[must_use]
    pub fn excludes(&self, text: &Path) -> bool {
        let relative = self.relative(text);
        relative.is_some_and(|relative| {
            // A folder is left out with everything in it.
            relative.ancestors().any(|part| self.exclude.iter().any(|pattern| pattern.fits(part)))
        })
    }

    /// Puts these settings on top of the ones below: the folder-wide ones, then what the name of the text says, then each rule that
    /// fits it.
    pub(crate) fn over(&self, text: Option<&Path>, below: &mut EffectiveSettings) {
        self.folder_wide.over(below);
        let Some(relative) = text.and_then(|text| self.relative(text)) else { return };
        let name = relative.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if let Some(LessonFromName { regex, position }) = &self.lesson_from_name
            && let Some(id) = regex.captures(&name).and_then(|found| found.get(1))
        {
            // 07 is lesson 7.
            let id = id.as_str();
            let bare = id.trim_start_matches('0');
            let id = if bare.is_empty() { id } else { bare };
            let origin = Origin::FileName { path: Arc::clone(&self.path), position: *position };
            Layer::lesson(id, origin).over(below);
        }
        for rule in &self.rules {
            if rule.files.iter().any(|pattern| pattern.fits(&relative)) {
                rule.layer.over(below);
            }
        }
    }
}

const THRESHOLDS: [&str; 3] = ["min-decodable", "min-readable", "min-focus"];

/// What the whole file or one rule sets; `origin` takes the path of a value from there.
fn layer(keys: &Keys<'_>, folder: &Path, origin: &dyn Fn(&[&str]) -> Origin) -> Layer {
    let list = |written: &[String], key: &str| all(written, |number| origin(&[key, &number.to_string()]));
    let [min_decodable, min_readable, min_focus] =
        [0, 1, 2].map(|number| keys.thresholds[number].map(|value| Sourced::new(value, origin(&[THRESHOLDS[number]]))));
    Layer {
        scope: keys.scope.map(|named| Sourced::new(ScopeReference::new(named, Some(folder)), origin(&["scope"]))),
        lesson: keys.lesson.map(|id| Sourced::new(id.to_owned(), origin(&["lesson"]))),
        names: list(keys.names, "names"),
        story_words: list(keys.story_words, "story-words"),
        focus: list(keys.focus, "focus"),
        allow_names: None,
        min_decodable,
        min_readable,
        min_focus,
        pronounce: Vec::new(),
    }
}

fn file_patterns(globs: &Globs, at: &[&str], outline: &Outline, faults: &mut Vec<Fault>) -> Vec<FilePattern> {
    let mut patterns = Vec::new();
    for (number, glob) in globs.0.iter().enumerate() {
        match FilePattern::new(glob) {
            Ok(pattern) => patterns.push(pattern),
            Err(message) => {
                let position = outline.position(&[at, &[&number.to_string()]].concat());
                faults.push(Fault::new(position, &message));
            }
        }
    }
    patterns
}

fn lesson_regex(text: &str) -> Result<Regex, String> {
    if text.len() > LONGEST_GLOB {
        return Err(format!("this regular expression is longer than {LONGEST_GLOB} characters"));
    }
    match RegexBuilder::new(text).size_limit(MACHINE).build() {
        Ok(regex) if regex.captures_len() == 2 => Ok(regex),
        Ok(_) => Err("this needs one group in brackets, around the lesson's id: \"lesson-([0-9]+)\"".to_owned()),
        Err(regex::Error::CompiledTooBig(_)) => Err("this regular expression becomes too large".to_owned()),
        Err(error) => {
            let error = error.to_string();
            let last = error.lines().last().unwrap_or_default().trim_start_matches("error: ");
            Err(format!("this regular expression is not valid: {last}"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Layers, resolve};

    fn settings(text: &str) -> FolderSettings {
        FolderSettings::parse(text, Path::new("/shelf/untaught.yaml")).unwrap()
    }

    fn origin(line: usize, column: usize) -> Origin {
        Origin::Settings { path: Path::new("/shelf/untaught.yaml").into(), position: Position { line, column } }
    }

    #[test]
    fn later_rules_override_and_words_add_up() {
        let folder = settings(
            "format: 1\nscope: scopes/first.yaml\nlesson-from-name: \"^([0-9]+)\"\nnames: [Rob]\nmin-readable: 95\n\
             texts:\n- files: \"week-2/**\"\n  lesson: 12\n  names: [Ross]\n- files: [\"*-long.md\"]\n  min-readable: 90\n",
        );
        let of =
            |text: &str| resolve(&Layers { text: Some(Path::new(text)), folder: Some(&folder), ..Layers::default() });
        let found = of("/shelf/week-2/03-long.md");
        assert_eq!(found.scope.value, ScopeReference::File("/shelf/scopes/first.yaml".into()));
        assert_eq!(found.scope.origin, origin(2, 8));
        assert_eq!(found.lesson, Some(Sourced::new("12".to_owned(), origin(8, 11))));
        let names: Vec<(&str, &Origin)> = found.names.iter().map(|name| (name.value.as_str(), &name.origin)).collect();
        assert_eq!(names, [("Ross", &origin(9, 11)), ("Rob", &origin(4, 9))]);
        assert_eq!(found.min_readable, Sourced::new(90.0, origin(11, 17)));
        let by_name = of("/shelf/03 the kite.txt").lesson.unwrap();
        assert_eq!(by_name.value, "3");
        assert!(matches!(by_name.origin, Origin::FileName { position: Position { line: 3, column: 19 }, .. }));
        assert_eq!(of("/other/03.txt").lesson, None);
        assert_eq!(of("/shelf/../other/03.txt").lesson, None);
    }

    #[test]
    fn pronunciations_are_folder_wide_and_a_mistake_has_its_place() {
        let folder = settings("format: 1\npronounce:\n  Dov: d·o·v\n  Pim: p·i\n");
        let of = Layers { text: Some(Path::new("/shelf/kite.txt")), folder: Some(&folder), ..Layers::default() };
        let settings = resolve(&of);
        let given = |word: &str, cutting: &str| (word.to_owned(), cutting.to_owned());
        assert_eq!(settings.pronunciations(), [given("Dov", "d·o·v"), given("Pim", "p·i")]);
        let scope = untaught::Scope::embedded("starter", &untaught::Reader::default()).unwrap();
        let problem = settings.pronouncing(&scope).unwrap_err();
        assert_eq!(problem, Sourced::new("`p·i` spells pi, not pim".to_owned(), origin(4, 8)));
    }

    #[test]
    fn a_settings_file_named_from_its_own_folder_is_like_any_other() {
        let file = "format: 1\ntexts:\n- files: week-1/*\n  lesson: 4\n";
        let folder = FolderSettings::parse(file, Path::new("untaught.yaml")).unwrap();
        let text = absolute(Path::new("week-1/kite.txt"));
        let found = resolve(&Layers { text: Some(&text), folder: Some(&folder), ..Layers::default() });
        assert_eq!(found.lesson.map(|lesson| lesson.value).as_deref(), Some("4"));
    }

    #[test]
    fn what_a_glob_leaves_out_is_left_out_with_all_in_it() {
        let settings = settings("format: 1\nexclude: [drafts, \"old/*.txt\", \"*.bak.txt\"]\n");
        for (path, excluded) in [
            ("/shelf/drafts/one/two.txt", true),
            ("/shelf/a/drafts/two.txt", true),
            ("/shelf/old/a.txt", true),
            ("/shelf/new/old/a.txt", false),
            ("/shelf/x/a.bak.txt", true),
            ("/shelf/a.txt", false),
        ] {
            assert_eq!(settings.excludes(Path::new(path)), excluded, "{path}");
        }
    }

    #[test]
    fn faults_have_places_and_say_what_was_meant() {
        let fault = |text: &str| {
            let faults = FolderSettings::parse(text, Path::new("untaught.yaml")).unwrap_err();
            faults.iter().map(ToString::to_string).collect::<Vec<_>>().join(" / ")
        };
        assert!(
            fault("format: 1\nmin-readble: 9\n")
                .contains("line 2, column 1: unknown key `min-readble`; did you mean `min-readable`?")
        );
        assert!(fault("format: 1\nmin-readable: 900\n").contains("line 2, column 15: a percentage"));
        assert!(fault("format: 1\ntexts:\n- files: \"a[\"\n").contains("line 3"));
        assert!(fault("format: 1\nlesson-from-name: \"x\"\n").contains("one group in brackets"));
        // What is within the bounds is made into machines that are within theirs.
        for glob in ["{".repeat(250) + &"}".repeat(250), "[!a-z]".repeat(83), "*a".repeat(250), "{a,b,c}".repeat(71)] {
            let made = FolderSettings::parse(&format!("format: 1\nexclude: \"{glob}\"\n"), Path::new("untaught.yaml"));
            let faults = made.map_or_else(|faults| faults, |_| Vec::new());
            assert!(faults.iter().all(|fault| fault.message.starts_with("this glob is not valid")), "{faults:?}");
        }
        let long = "ab".repeat(1 << 19);
        for (text, said) in [
            ("texts:\n".to_owned() + &"- files: a\n".repeat(1_001), "at most 1,000 rules, not 1,001"),
            (format!("exclude: [{}]", "a, ".repeat(2_001)), "at most 2,000 globs, not 2,001"),
            (format!("exclude: \"{}\"", "*a".repeat(1 << 19)), "this glob is longer than 500 characters"),
            (format!("exclude: \"{}\"", "{".repeat(300)), "this glob is not valid"),
            (format!("names: [{}]", "a, ".repeat(10_001)), "at most 10,000 names and story words, not 10,001"),
            (format!("names: [{long}]"), "is too long: an entry has at most 100 characters"),
            (format!("focus: [{}]", "sh, ".repeat(101)), "this list has 101 entries; it may have 100"),
            (format!("scope: {long}"), "line 2, column 8: the scope is too long"),
            (format!("lesson: {long}"), "line 2, column 9: the lesson is too long"),
            (format!("texts:\n- {{files: a, lesson: {long}}}"), "line 3, column 22: the lesson is too long"),
            (format!("lesson-from-name: \"({long})\""), "this regular expression is longer than 500 characters"),
            ("lesson-from-name: \"((?:a{1000}){1000})\"".to_owned(), "this regular expression becomes too large"),
        ] {
            let fault = fault(&format!("format: 1\n{text}\n"));
            assert!(fault.contains(said) && fault.len() < 300, "{said}: {}", &fault[..fault.len().min(300)]);
        }
        assert!(fault("format: 1\nlesson-from-name: \"(\"\n").contains("line 2"));
        assert!(fault("format: 2\n").contains("format 1"));
        assert!(fault("").contains("format"));
    }
}
