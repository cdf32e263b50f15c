//! Arguments about stories: which to read, their settings, and the output format.

use std::path::PathBuf;

use clap::ValueEnum;

/// The settings of a story given on the command line.
#[derive(Debug, clap::Args)]
pub(crate) struct SettingsArgs {
    /// Scope file, or the name of a scope that comes with the program; by default from the story, its folder's settings, or `starter`.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Lesson id; by default from the story's front matter, then the folder's settings, else the last lesson.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    /// Words the teacher will pre-teach, separated by commas.
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub(crate) story_words: Vec<String>,
    /// Names the teacher will pre-teach, separated by commas; `allow` accepts every word that looks like a name.
    #[arg(long, value_name = "NAMES|allow", value_delimiter = ',')]
    pub(crate) names: Vec<String>,
}

/// Where to look for a folder's settings.
#[derive(Clone, Debug, clap::Args)]
pub(crate) struct ConfigArgs {
    /// Settings file; by default the nearest `untaught.yaml` in or above the story's folder (without a story, the current folder).
    #[arg(long, value_name = "FILE", conflicts_with = "no_config")]
    pub(crate) config: Option<PathBuf>,
    /// Ignore settings files.
    #[arg(long)]
    pub(crate) no_config: bool,
}

/// The texts and their settings.
#[derive(Debug, clap::Args)]
pub(crate) struct TextsArgs {
    /// Stories, or folders of stories; with no file, or with `-`, the story is read from standard input.
    #[arg(value_name = "FILE|FOLDER")]
    pub(crate) files: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) settings: SettingsArgs,
    /// Fail (exit 1) below this percentage of decodable words.
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_decodable: Option<f64>,
    /// Fail (exit 1) below this percentage of readable words; 100 unless the folder's settings say otherwise.
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_readable: Option<f64>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// Apply the settings' `exclude` to files named on the command line too (for commit hooks, which name every file).
    #[arg(long)]
    pub(crate) force_exclude: bool,
    /// File name to use for standard input; its extension and folder are treated as a real file's.
    #[arg(long, value_name = "NAME", default_value = "-")]
    pub(crate) stdin_name: String,
    /// Number of stories to work on at once; by default, the number of processors.
    #[arg(long, short, value_name = "N", value_parser = clap::value_parser!(u16).range(1..))]
    pub(crate) jobs: Option<u16>,
    /// Write the report to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct CheckArgs {
    #[command(flatten)]
    pub(crate) texts: TextsArgs,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = CheckFormat::Text)]
    pub(crate) format: CheckFormat,
    /// Report every word in the text, not only the untaught ones (json, jsonl).
    #[arg(long)]
    pub(crate) every_word: bool,
    /// For each untaught word, suggest words with a similar meaning that can be read at the lesson (text, json, jsonl).
    #[arg(long)]
    pub(crate) suggest: bool,
    /// Add a plan: the fewest words to pre-teach or change until the text reaches the required percentage (text, json, jsonl).
    #[arg(long)]
    pub(crate) plan: bool,
    /// Compare with an older draft: what is better, and what is new (text, json).
    #[arg(long, value_name = "FILE", conflicts_with_all = ["suggest", "plan", "every_word", "show_config"])]
    pub(crate) against: Option<PathBuf>,
    /// Pattern whose practice to count, such as `igh` or `ea as in bread`; repeatable; by default, the lesson's patterns.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    /// Fail (exit 1) if fewer than this percentage of words practise the focus patterns.
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_focus: Option<f64>,
    /// Add published measures of decodability, with their sources (text; always in json).
    #[arg(long)]
    pub(crate) measures: bool,
    /// Add a row with the totals (csv).
    #[arg(long)]
    pub(crate) totals: bool,
    /// Leave out stories that meet their thresholds.
    #[arg(long, short)]
    pub(crate) quiet: bool,
    /// Stop at the first story that fails or cannot be checked.
    #[arg(long)]
    pub(crate) fail_fast: bool,
    /// Exit with 0 even if a story falls below a threshold; still with 2 if something cannot be checked.
    #[arg(long)]
    pub(crate) exit_zero: bool,
    /// Exit with 2 if a record cannot be checked, instead of 1 (jsonl).
    #[arg(long)]
    pub(crate) strict: bool,
    /// Show each story's effective settings and where each comes from, without checking anything.
    #[arg(long)]
    pub(crate) show_config: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PlaceArgs {
    #[command(flatten)]
    pub(crate) texts: TextsArgs,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = PlaceFormat::Text)]
    pub(crate) format: PlaceFormat,
    /// Name everything that is in the way, not only the three most frequent needs.
    #[arg(long)]
    pub(crate) all_obstacles: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ShelfArgs {
    #[command(flatten)]
    pub(crate) texts: TextsArgs,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = ShelfFormat::Text)]
    pub(crate) format: ShelfFormat,
    /// Suggest an order: by the first lesson at which each can be read, then by how much is new (also the row order of csv).
    #[arg(long)]
    pub(crate) order: bool,
    /// List a pattern or a sight word as coming too little if the whole shelf has it fewer times than this.
    #[arg(long, value_name = "TIMES", default_value_t = 10)]
    pub(crate) enough: usize,
    #[command(flatten)]
    pub(crate) against: AgainstArgs,
    /// Show lists in full after the summary: each reader's practice and new words, words, patterns, lessons (text).
    #[arg(long, value_enum, value_name = "LIST", value_delimiter = ',')]
    pub(crate) show: Vec<ShelfList>,
}

/// A scope to compare with.
#[derive(Debug, clap::Args)]
pub(crate) struct AgainstArgs {
    /// Compare with another scope, such as an older draft: a scope file or the name of a scope that comes with the program.
    #[arg(long, value_name = "FILE|NAME")]
    pub(crate) against: Option<String>,
    /// Which lessons correspond where their ids differ: pairs `OTHER=THIS`, separated by commas, of an id in the other scope and one
    /// in this; or `order`, the first to the first, the second to the second.
    #[arg(long, value_name = "PAIRS|order", value_delimiter = ',', requires = "against")]
    pub(crate) map_lessons: Vec<String>,
}

/// The formats of `check`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum CheckFormat {
    /// For people.
    Text,
    /// A web page to read or print: every story with its words marked.
    Html,
    /// One line per untaught word: `file:line:column: word: reason`, for editors and terminals.
    Lines,
    /// One JSON object, for programs.
    Json,
    /// One JSON object per line and text; standard input may also be JSON lines: `{"id": …, "text": …, "lesson": …}`.
    Jsonl,
    /// A table with one row per text.
    Csv,
    /// A table with one row per untaught word and text.
    CsvWords,
    /// SARIF 2.1.0, for tools that show findings next to the text.
    Sarif,
    /// JUnit XML, for systems that show test results.
    Junit,
    /// GitHub workflow commands, shown next to the text.
    Github,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PlaceFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// A table with one row per text.
    Csv,
    /// A web page with the curves drawn.
    Html,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum ShelfFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// A table of readers and patterns.
    Csv,
    /// A table of words: when each is met, how often, and after how many readers again.
    CsvWords,
    /// A table of patterns: practice before, at and after the lesson, and gaps.
    CsvPatterns,
    /// A table of the scope's lessons with their readers.
    CsvLessons,
    /// One spreadsheet with these tables as sheets.
    Xlsx,
    /// A web page to read or print, with plots.
    Html,
}

/// What the text report of a shelf shows in full.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum ShelfList {
    /// What each reader practises, and its new words.
    Readers,
    /// Each word with its repetitions, first and last reader and longest gap.
    Words,
    /// Each pattern before, at and after its lesson.
    Patterns,
    /// Each lesson with its readers.
    Lessons,
    /// All of these.
    All,
}

fn percent(text: &str) -> Result<f64, String> {
    match text.trim_end_matches('%').trim().parse::<f64>() {
        Ok(value) if (0.0..=100.0).contains(&value) => Ok(value),
        _ => Err("a percentage is a number from 0 to 100".to_owned()),
    }
}
