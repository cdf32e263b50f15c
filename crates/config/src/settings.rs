//! Settings made of a file, and what they say of one text.

use std::path::{Path, PathBuf};

use globset::{GlobBuilder, GlobMatcher};
use regex::Regex;
use untaught::yaml::{self, Fault, Outline, Position};

use crate::file::{Globs, SettingsFile};

/// The settings of a folder and of all below it.
#[derive(Debug)]
pub struct Project {
    /// The settings file.
    pub path: PathBuf,
    /// Its folder, from which paths and globs count.
    folder: PathBuf,
    file: SettingsFile,
    exclude: Vec<Pattern>,
    /// The globs of each rule, in the order of the file.
    rules: Vec<Vec<Pattern>>,
    lesson_from_name: Option<Regex>,
    outline: Outline,
}

/// A glob that counts from the folder of the settings; without a slash it fits a name in any folder.
#[derive(Debug)]
struct Pattern {
    matcher: GlobMatcher,
    name_only: bool,
}

impl Pattern {
    fn new(glob: &str) -> Result<Pattern, String> {
        let name_only = !glob.contains('/');
        let glob = glob.strip_prefix("./").unwrap_or(glob);
        let made = GlobBuilder::new(glob).literal_separator(true).backslash_escape(false).build();
        let matcher = made.map_err(|error| format!("this glob cannot be read: {}", error.kind()))?.compile_matcher();
        Ok(Pattern { matcher, name_only })
    }

    fn fits(&self, relative: &Path) -> bool {
        match relative.file_name() {
            Some(name) if self.name_only => self.matcher.is_match(name),
            _ => self.matcher.is_match(relative),
        }
    }
}

/// Where a setting comes from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Origin {
    /// A line of the settings file.
    Line(usize),
    /// The name of the text, by `lesson-from-name`.
    Name,
}

/// A setting with where it comes from.
#[derive(Clone, PartialEq, Debug)]
pub struct Sourced<T> {
    /// The setting.
    pub value: T,
    /// Where it comes from.
    pub origin: Origin,
}

/// What the settings say of one text. A later rule that fits overrides an earlier one; words add up.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct TextSettings {
    /// The scope: the name of one that comes with the program, or a path that already counts from the folder of the settings.
    pub scope: Option<Sourced<String>>,
    /// The id of the lesson.
    pub lesson: Option<Sourced<String>>,
    /// Names told beforehand.
    pub names: Vec<Sourced<String>>,
    /// Other words told beforehand.
    pub story_words: Vec<Sourced<String>>,
    /// The patterns to practise.
    pub focus: Vec<Sourced<String>>,
    /// Least percent decodable.
    pub min_decodable: Option<Sourced<f64>>,
    /// Least percent readable.
    pub min_readable: Option<Sourced<f64>>,
    /// Least percent of running words that practise the focus patterns.
    pub min_focus: Option<Sourced<f64>>,
}

impl Project {
    /// Reads a settings file that lies at a path.
    ///
    /// # Errors
    /// Everything that is wrong with it; nothing is half-read.
    pub fn parse(text: &str, path: &Path) -> Result<Project, Vec<Fault>> {
        let (file, outline): (SettingsFile, Outline) = yaml::read(text).map_err(|fault| vec![fault])?;
        let mut faults = Vec::new();
        let mut fault = |place: Position, message: &str| faults.push(Fault::new(place, message));
        if file.format != 1 {
            let message = format!("this program reads settings of format 1, and the file says format {}", file.format);
            fault(outline.position(&["format"]), &message);
        }
        let mut globs = |globs: &Globs, at: &[&str]| -> Vec<Pattern> {
            let read = globs.0.iter().enumerate().filter_map(|(number, glob)| {
                let number = number.to_string();
                let place = outline.position(&[at, &[&number]].concat());
                Pattern::new(glob).map_err(|message| fault(place, &message)).ok()
            });
            read.collect()
        };
        let exclude = globs(&file.exclude, &["exclude"]);
        let rules: Vec<Vec<Pattern>> = (0..)
            .zip(&file.texts)
            .map(|(number, rule)| globs(&rule.files, &["texts", &i32::to_string(&number), "files"]))
            .collect();
        let mut thresholds = vec![(Vec::new(), [file.min_decodable, file.min_readable, file.min_focus])];
        for (number, rule) in file.texts.iter().enumerate() {
            if rule.files.0.is_empty() {
                fault(outline.position(&["texts", &number.to_string(), "files"]), "this rule fits no file");
            }
            let at = vec!["texts".to_owned(), number.to_string()];
            thresholds.push((at, [rule.min_decodable, rule.min_readable, rule.min_focus]));
        }
        for (at, values) in thresholds {
            for (key, value) in ["min-decodable", "min-readable", "min-focus"].into_iter().zip(values) {
                if value.is_some_and(|value| !(0.0..=100.0).contains(&value)) {
                    let path: Vec<&str> = at.iter().map(String::as_str).chain([key]).collect();
                    fault(outline.position(&path), "a percentage is a number from 0 to 100");
                }
            }
        }
        let lesson_from_name = file.lesson_from_name.as_deref().and_then(|text| {
            let place = outline.position(&["lesson-from-name"]);
            match Regex::new(text) {
                Ok(regex) if regex.captures_len() == 2 => Some(regex),
                Ok(_) => {
                    fault(place, "this needs one pair of brackets, around the lesson's id: \"lesson-([0-9]+)\"");
                    None
                }
                Err(error) => {
                    let error = error.to_string();
                    let last = error.lines().last().unwrap_or_default().trim_start_matches("error: ");
                    fault(place, &format!("this regular expression cannot be read: {last}"));
                    None
                }
            }
        });
        if !faults.is_empty() {
            faults.sort_by_key(|fault| fault.position);
            return Err(faults);
        }
        let folder = path.parent().map(Path::to_path_buf).unwrap_or_default();
        let folder = std::path::absolute(&folder).unwrap_or(folder);
        Ok(Project { path: path.to_owned(), folder, file, exclude, rules, lesson_from_name, outline })
    }

    /// The path of a text from the folder of the settings; none for one that lies elsewhere.
    fn relative(&self, text: &Path) -> Option<PathBuf> {
        let text = std::path::absolute(text).ok()?;
        text.strip_prefix(&self.folder).ok().map(Path::to_path_buf)
    }

    /// Whether a text is left out, unless it is named itself.
    #[must_use]
    pub fn excludes(&self, text: &Path) -> bool {
        let relative = self.relative(text);
        relative.is_some_and(|relative| {
            // What lies in a folder that is left out is left out.
            relative.ancestors().any(|part| self.exclude.iter().any(|pattern| pattern.fits(part)))
        })
    }

    /// What the settings say of a text, which need not exist.
    #[must_use]
    pub fn for_text(&self, text: &Path) -> TextSettings {
        let mut settings = TextSettings::default();
        let file = &self.file;
        let all = Layer {
            scope: &file.scope,
            lesson: file.lesson.as_ref().map(|id| &id.0),
            words: [&file.names, &file.story_words, &file.focus],
            thresholds: [file.min_decodable, file.min_readable, file.min_focus],
            path: &[],
        };
        self.lay(&mut settings, &all);
        let Some(relative) = self.relative(text) else { return settings };
        let name = relative.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let found = self.lesson_from_name.as_ref().and_then(|regex| regex.captures(&name)?.get(1));
        if let Some(id) = found {
            // 07 is lesson 7.
            let id = id.as_str();
            let bare = id.trim_start_matches('0');
            let id = if bare.is_empty() { id } else { bare };
            settings.lesson = Some(Sourced { value: id.to_owned(), origin: Origin::Name });
        }
        for (number, (rule, patterns)) in file.texts.iter().zip(&self.rules).enumerate() {
            if !patterns.iter().any(|pattern| pattern.fits(&relative)) {
                continue;
            }
            let layer = Layer {
                scope: &rule.scope,
                lesson: rule.lesson.as_ref().map(|id| &id.0),
                words: [&rule.names, &rule.story_words, &rule.focus],
                thresholds: [rule.min_decodable, rule.min_readable, rule.min_focus],
                path: &["texts", &number.to_string()],
            };
            self.lay(&mut settings, &layer);
        }
        settings
    }

    fn lay(&self, settings: &mut TextSettings, layer: &Layer<'_>) {
        let origin = |key: &str| Origin::Line(self.outline.position(&[layer.path, &[key]].concat()).line);
        if let Some(scope) = layer.scope {
            let is_name = untaught::Scope::all_embedded().any(|(name, _)| name == scope);
            let value = if is_name { scope.clone() } else { self.folder.join(scope).display().to_string() };
            settings.scope = Some(Sourced { value, origin: origin("scope") });
        }
        if let Some(lesson) = layer.lesson {
            settings.lesson = Some(Sourced { value: lesson.clone(), origin: origin("lesson") });
        }
        let lists = [&mut settings.names, &mut settings.story_words, &mut settings.focus];
        for ((list, words), key) in lists.into_iter().zip(layer.words).zip(["names", "story-words", "focus"]) {
            if key == "focus" && !words.is_empty() {
                list.clear();
            }
            list.extend(words.iter().map(|word| Sourced { value: word.clone(), origin: origin(key) }));
        }
        let thresholds = [&mut settings.min_decodable, &mut settings.min_readable, &mut settings.min_focus];
        let keys = ["min-decodable", "min-readable", "min-focus"];
        for ((setting, value), key) in thresholds.into_iter().zip(layer.thresholds).zip(keys) {
            if let Some(value) = value {
                *setting = Some(Sourced { value, origin: origin(key) });
            }
        }
    }
}

/// What the whole file or one rule says.
struct Layer<'f> {
    scope: &'f Option<String>,
    lesson: Option<&'f String>,
    words: [&'f Vec<String>; 3],
    thresholds: [Option<f64>; 3],
    path: &'f [&'f str],
}

#[cfg(test)]
mod tests {
    use super::*;

    fn project(text: &str) -> Project {
        Project::parse(text, Path::new("/shelf/untaught.yaml")).unwrap()
    }

    #[test]
    fn later_rules_override_and_words_add_up() {
        let project = project(
            "format: 1\nscope: scopes/first.yaml\nlesson-from-name: \"^([0-9]+)\"\nnames: [Rob]\nmin-readable: 95\n\
             texts:\n- files: \"week-2/**\"\n  lesson: 12\n  names: [Ross]\n- files: [\"*-long.md\"]\n  min-readable: 90\n",
        );
        let settings = project.for_text(Path::new("/shelf/week-2/03-long.md"));
        assert_eq!(settings.scope.as_ref().unwrap().value, "/shelf/scopes/first.yaml");
        assert_eq!(settings.lesson, Some(Sourced { value: "12".to_owned(), origin: Origin::Line(8) }));
        let names: Vec<&str> = settings.names.iter().map(|name| name.value.as_str()).collect();
        assert_eq!(names, ["Rob", "Ross"]);
        assert_eq!(settings.min_readable, Some(Sourced { value: 90.0, origin: Origin::Line(11) }));
        let settings = project.for_text(Path::new("/shelf/03 the kite.txt"));
        assert_eq!(settings.lesson, Some(Sourced { value: "3".to_owned(), origin: Origin::Name }));
        assert_eq!(project.for_text(Path::new("/other/03.txt")).lesson, None);
    }

    #[test]
    fn what_a_glob_leaves_out_is_left_out_with_all_in_it() {
        let project = project("format: 1\nexclude: [drafts, \"old/*.txt\", \"*.bak.txt\"]\n");
        for (path, excluded) in [
            ("/shelf/drafts/one/two.txt", true),
            ("/shelf/a/drafts/two.txt", true),
            ("/shelf/old/a.txt", true),
            ("/shelf/new/old/a.txt", false),
            ("/shelf/x/a.bak.txt", true),
            ("/shelf/a.txt", false),
        ] {
            assert_eq!(project.excludes(Path::new(path)), excluded, "{path}");
        }
    }

    #[test]
    fn faults_have_places_and_say_what_was_meant() {
        let fault = |text: &str| {
            let faults = Project::parse(text, Path::new("untaught.yaml")).unwrap_err();
            faults.iter().map(ToString::to_string).collect::<Vec<_>>().join(" / ")
        };
        assert!(
            fault("format: 1\nmin-readble: 9\n")
                .contains("line 2, column 1: unknown key `min-readble`; did you mean `min-readable`?")
        );
        assert!(fault("format: 1\nmin-readable: 900\n").contains("line 2, column 15: a percentage"));
        assert!(fault("format: 1\ntexts:\n- files: \"a[\"\n").contains("line 3"));
        assert!(fault("format: 1\nlesson-from-name: \"x\"\n").contains("one pair of brackets"));
        assert!(fault("format: 1\nlesson-from-name: \"(\"\n").contains("line 2"));
        assert!(fault("format: 2\n").contains("format 1"));
        assert!(fault("").contains("format"));
    }
}
