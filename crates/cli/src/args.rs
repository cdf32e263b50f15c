//! What was typed.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

/// Says which words of a story a child cannot yet be expected to read, by a phonics scope and sequence, and why.
#[derive(Debug, Parser)]
#[command(name = "untaught", version, max_term_width = 100, disable_help_subcommand = true, color = clap::ColorChoice::Never)]
pub(crate) struct Args {
    /// Colour of the text output.
    #[arg(long, global = true, value_enum, default_value_t = Color::Auto)]
    pub(crate) color: Color,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Check stories at a lesson: percent decodable, and the untaught words with the reason.
    Check(Check),
    /// Show how words are cut into spellings and sounds, what they need, and when they can be read.
    Explain(Explain),
    /// List the catalogue: every spelling with its sounds and key words.
    Patterns(Patterns),
    /// Check a scope file and show its lessons.
    Scope(ScopeArgs),
}

#[derive(Debug, clap::Args)]
pub(crate) struct Check {
    /// Stories; `-` or nothing is what is pasted or piped in.
    #[arg(value_name = "FILE")]
    pub(crate) files: Vec<PathBuf>,
    /// Scope file, or the name of one that comes with the program.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Id of the lesson; the story's front matter counts if it names one, else the last lesson.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// Report every running word, not only the untaught ones (json).
    #[arg(long)]
    pub(crate) every_word: bool,
    /// Words told to the child beforehand, separated by commas.
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub(crate) story_words: Vec<String>,
    /// Names told to the child beforehand, separated by commas; `allow` counts every word that looks like a name as one.
    #[arg(long, value_name = "NAMES|allow", value_delimiter = ',')]
    pub(crate) names: Vec<String>,
    /// A pattern whose practice to count, such as `igh` or `ea as in bread`; may be given several times. Else those of the lesson.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    /// Add published measures of decodability, with their sources (text; json always has them).
    #[arg(long)]
    pub(crate) measures: bool,
    /// A story with fewer percent decodable falls short (exit code 1).
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_decodable: Option<f64>,
    /// A story with fewer percent readable falls short (exit code 1).
    #[arg(long, value_name = "PERCENT", value_parser = percent, default_value = "100")]
    pub(crate) min_readable: f64,
    /// What to call the text on standard input.
    #[arg(long, value_name = "NAME", default_value = "-")]
    pub(crate) stdin_name: String,
    /// Print nothing about texts that meet their thresholds.
    #[arg(long, short)]
    pub(crate) quiet: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Explain {
    /// Words.
    #[arg(value_name = "WORD", required = true)]
    pub(crate) words: Vec<String>,
    /// Scope file, or the name of one that comes with the program.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Patterns {
    /// Only these spellings.
    #[arg(value_name = "SPELLING")]
    pub(crate) spellings: Vec<String>,
    /// Also those of single words and of names.
    #[arg(long)]
    pub(crate) all: bool,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ScopeArgs {
    /// Scope file, or the name of one that comes with the program.
    #[arg(value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum Color {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    Always,
    Never,
}

impl Color {
    pub(crate) fn apply(self) {
        match self {
            Color::Auto => {}
            Color::Always => anstream::ColorChoice::Always.write_global(),
            Color::Never => anstream::ColorChoice::Never.write_global(),
        }
    }
}

fn percent(text: &str) -> Result<f64, String> {
    match text.trim_end_matches('%').trim().parse::<f64>() {
        Ok(value) if (0.0..=100.0).contains(&value) => Ok(value),
        _ => Err("a percentage is a number from 0 to 100".to_owned()),
    }
}
