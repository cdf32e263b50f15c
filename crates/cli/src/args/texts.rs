//! What was typed about stories: which, their settings, how to report.

use std::path::PathBuf;

use clap::ValueEnum;

/// Settings of a story.
#[derive(Debug, clap::Args)]
pub(crate) struct SettingsArgs {
    /// Scope file, or the name of one that comes with the program.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Id of the lesson; else that of the story's front matter, else of the folder's settings, else the last.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    /// Words told to the child beforehand, separated by commas.
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub(crate) story_words: Vec<String>,
    /// Names told to the child beforehand, separated by commas; `allow` counts every word that looks like a name as one.
    #[arg(long, value_name = "NAMES|allow", value_delimiter = ',')]
    pub(crate) names: Vec<String>,
}

/// Which settings file is used.
#[derive(Debug, clap::Args)]
pub(crate) struct ConfigArgs {
    /// Settings file; else the nearest `untaught.yaml` in or above the story's folder (without a story, the current folder).
    #[arg(long, value_name = "FILE", conflicts_with = "no_config")]
    pub(crate) config: Option<PathBuf>,
    /// Use no settings file.
    #[arg(long)]
    pub(crate) no_config: bool,
}

/// The texts and their settings.
#[derive(Debug, clap::Args)]
pub(crate) struct TextsArgs {
    /// Stories, and folders of stories; `-` or nothing is what is pasted or piped in.
    #[arg(value_name = "FILE|FOLDER")]
    pub(crate) files: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) settings: SettingsArgs,
    /// A story with fewer percent decodable falls short (exit code 1).
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_decodable: Option<f64>,
    /// A story with fewer percent readable falls short (exit code 1); 100 unless the folder's settings say otherwise.
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_readable: Option<f64>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// Leave out what the settings exclude even where it is named (for hooks, which name every file).
    #[arg(long)]
    pub(crate) force_exclude: bool,
    /// What to call the text on standard input; its ending and folder count as a file's would.
    #[arg(long, value_name = "NAME", default_value = "-")]
    pub(crate) stdin_name: String,
    /// How many stories to work on at once; as many as there are processors unless said.
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
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = CheckFormat::Text)]
    pub(crate) format: CheckFormat,
    /// Report every running word, not only the untaught ones (json, jsonl).
    #[arg(long)]
    pub(crate) every_word: bool,
    /// For each untaught word, offer words of like meaning that can be read at the lesson (text, json, jsonl).
    #[arg(long)]
    pub(crate) suggest: bool,
    /// A pattern whose practice to count, such as `igh` or `ea as in bread`; may be given several times. Else those of the lesson.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    /// A story in which fewer percent of the words practise its focus patterns falls short (exit code 1).
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_focus: Option<f64>,
    /// Add published measures of decodability, with their sources (text; json always has them).
    #[arg(long)]
    pub(crate) measures: bool,
    /// Print nothing about texts that meet their thresholds.
    #[arg(long, short)]
    pub(crate) quiet: bool,
    /// Stop at the first story that falls short or cannot be checked.
    #[arg(long)]
    pub(crate) fail_fast: bool,
    /// Show each story's effective settings and where each comes from, and check nothing.
    #[arg(long)]
    pub(crate) show_config: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PlaceArgs {
    #[command(flatten)]
    pub(crate) texts: TextsArgs,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = PlaceFormat::Text)]
    pub(crate) format: PlaceFormat,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ShelfArgs {
    #[command(flatten)]
    pub(crate) texts: TextsArgs,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = ShelfFormat::Text)]
    pub(crate) format: ShelfFormat,
    /// Propose an order: by the lesson at which each can first be read, then by how much is new. The rows of csv come in it.
    #[arg(long)]
    pub(crate) order: bool,
    /// A pattern practised fewer times than this over the whole shelf is listed as practised too little.
    #[arg(long, value_name = "TIMES", default_value_t = 10)]
    pub(crate) enough: usize,
}

/// The formats of `check`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum CheckFormat {
    /// For people.
    Text,
    /// One page for people: every story with its words marked, to look at or to print.
    Html,
    /// One object for programs.
    Json,
    /// One object a line for each text; texts may come in so as well, as `{"id": …, "text": …, "lesson": …}` a line.
    Jsonl,
    /// A table with a row for each text.
    Csv,
    /// A table with a row for each untaught word of each text.
    CsvWords,
    /// SARIF 2.1.0, for tools that show findings beside the text.
    Sarif,
    /// JUnit XML, for systems that show tests.
    Junit,
    /// Workflow commands that GitHub shows beside the text.
    Github,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PlaceFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// A table with a row for each text.
    Csv,
    /// One page for people, with the curves drawn.
    Html,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum ShelfFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// The table of readers and patterns.
    Csv,
    /// One page for people, to look at or to print.
    Html,
}

fn percent(text: &str) -> Result<f64, String> {
    match text.trim_end_matches('%').trim().parse::<f64>() {
        Ok(value) if (0.0..=100.0).contains(&value) => Ok(value),
        _ => Err("a percentage is a number from 0 to 100".to_owned()),
    }
}
