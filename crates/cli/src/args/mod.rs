//! What was typed.

mod lists;
mod texts;

use clap::{Parser, Subcommand, ValueEnum};

pub(crate) use lists::{
    BoxFormat, BoxesArgs, ChainArgs, ContrastArgs, DictationArgs, ForLesson, PackArgs, PackFormat, WordsArgs,
};
pub(crate) use texts::{
    CheckArgs, CheckFormat, ConfigArgs, PlaceArgs, PlaceFormat, SettingsArgs, ShelfArgs, ShelfFormat, TextsArgs,
};

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
    Check(CheckArgs),
    /// Say at which lesson each story can first be read, and what stands in its way.
    Place(PlaceArgs),
    /// Look at a folder of readers as one shelf: what each practises, what is practised too little, which sit too early or late.
    Shelf(ShelfArgs),
    /// List words for a lesson: those that can be sounded out by then and practise its pattern.
    Words(WordsArgs),
    /// Make a chain of words, each one sound apart from the one before.
    Chain(ChainArgs),
    /// Draw the sound boxes of words: one box a sound.
    Boxes(BoxesArgs),
    /// Make a listening list: words with a sound, and words with one close to it.
    Contrast(ContrastArgs),
    /// List words and sentences to spell at a lesson.
    Dictation(DictationArgs),
    /// Make the whole lesson on paper: all its lists, and its story with the check.
    Pack(PackArgs),
    /// Show how words are cut into spellings and sounds, what they need, and when they can be read.
    Explain(ExplainArgs),
    /// List the catalogue: every spelling with its sounds and key words.
    Patterns(PatternsArgs),
    /// Check a scope file and show its lessons.
    Scope(ScopeArgs),
    /// Serve the page to paste a story into, to this computer alone, and open it in the browser.
    Page(PageArgs),
    /// Serve an editor: speak the Language Server Protocol on standard input and output.
    Editor(EditorArgs),
    /// Write the completions of a shell.
    Completions(CompletionsArgs),
    /// Write the manual page.
    Man,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ExplainArgs {
    /// Words.
    #[arg(value_name = "WORD", required = true)]
    pub(crate) words: Vec<String>,
    /// Scope file, or the name of one that comes with the program; else that of the folder's settings.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PatternsArgs {
    /// Only these spellings.
    #[arg(value_name = "SPELLING")]
    pub(crate) spellings: Vec<String>,
    /// Also those of single words and of names.
    #[arg(long)]
    pub(crate) all: bool,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ScopeArgs {
    /// Scope file, or the name of one that comes with the program; else that of the folder's settings.
    #[arg(value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PageArgs {
    /// Port to serve it at; a free one if not given.
    #[arg(long, value_name = "PORT", default_value_t = 0, hide_default_value = true)]
    pub(crate) port: u16,
    /// Only print the address.
    #[arg(long)]
    pub(crate) no_browser: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct EditorArgs {
    /// Said by many clients; there is no other way here.
    #[arg(long, hide = true)]
    pub(crate) stdio: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    pub(crate) shell: clap_complete::Shell,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum TextOrJson {
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
