//! The command line.

mod help;
mod lists;
mod texts;

use std::path::PathBuf;
use std::sync::LazyLock;

use clap::{Parser, Subcommand, ValueEnum};
use untaught::{Accent, DataVersions};

pub(crate) use lists::{
    BoxFormat, BoxesArgs, ChainArgs, ContrastArgs, DictationArgs, ForLesson, ListFormat, PackArgs, PackFormat,
    PackPart, VocabularyArgs, WordsArgs,
};
pub(crate) use texts::{
    AgainstArgs, CheckArgs, CheckFormat, ConfigArgs, PlaceArgs, PlaceFormat, SettingsArgs, ShelfArgs, ShelfFormat,
    ShelfList, TextsArgs,
};

/// What `--version` prints, where `-V` prints the version alone: everything on which verdicts depend.
static LONG_VERSION: LazyLock<String> = LazyLock::new(|| {
    let data = DataVersions::current();
    format!(
        "{}\nscope files: format {}\ncatalogue: {:08x}, {} correspondences\ndictionary: {:08x}, {} words",
        env!("CARGO_PKG_VERSION"),
        data.scope_format,
        data.catalogue,
        data.correspondences,
        data.dictionary,
        untaught::messages::thousands(data.words),
    )
});

/// Find the words in a story that a child has not been taught to read yet, by a phonics scope and sequence, and say why.
#[derive(Debug, Parser)]
#[command(name = "untaught", version, long_version = LONG_VERSION.as_str(), max_term_width = 100, disable_help_subcommand = true, color = clap::ColorChoice::Never)]
pub(crate) struct Args {
    /// When to colour text output.
    #[arg(long, global = true, value_enum, default_value_t = Color::Auto)]
    pub(crate) color: Color,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Check stories at a lesson: percent decodable, and the untaught words with the reason.
    #[command(after_help = help::CHECK)]
    Check(CheckArgs),
    /// Find the first lesson at which each story can be read, and what makes it hard before then.
    #[command(after_help = help::PLACE)]
    Place(PlaceArgs),
    /// Report on a folder of readers as one series: what each practises, what needs more practice, which come too early or too late.
    #[command(after_help = help::SHELF)]
    Shelf(ShelfArgs),
    /// List words for a lesson: words that can be sounded out by then and practise its patterns.
    #[command(after_help = help::WORDS)]
    Words(WordsArgs),
    /// Make a word chain: one sound changes from each word to the next.
    #[command(after_help = help::CHAIN)]
    Chain(ChainArgs),
    /// Draw words in sound boxes, one box for each sound.
    #[command(after_help = help::BOXES)]
    Boxes(BoxesArgs),
    /// Make a listening list: words with a sound, and words with a similar sound.
    #[command(after_help = help::CONTRAST)]
    Contrast(ContrastArgs),
    /// List words and sentences to spell at a lesson.
    #[command(after_help = help::DICTATION)]
    Dictation(DictationArgs),
    /// Make a whole lesson to print: all its lists, and its story with a check.
    #[command(after_help = help::PACK)]
    Pack(PackArgs),
    /// Show how words are split into spellings and sounds, what they need, and when they can be read.
    #[command(after_help = help::EXPLAIN)]
    Explain(ExplainArgs),
    /// List the patterns a scope file can teach: every spelling with its sounds and key words.
    #[command(after_help = help::PATTERNS)]
    Patterns(PatternsArgs),
    /// Check a scope file and show its lessons.
    #[command(after_help = help::SCOPE)]
    Scope(ScopeArgs),
    /// Begin a folder of readers: write a scope file to change, a settings file, and schemas with which an editor completes them.
    #[command(after_help = help::INIT)]
    Init(InitArgs),
    /// Open a page in the browser for checking pasted stories; it is served to this computer only.
    #[command(after_help = help::PAGE)]
    Page(PageArgs),
    /// Run as a language server: underline untaught words in an editor (LSP over standard input and output).
    #[command(after_help = help::EDITOR)]
    Editor(EditorArgs),
    /// Print shell completions.
    Completions(CompletionsArgs),
    /// Print the manual page.
    Man,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ExplainArgs {
    /// Words to explain.
    #[arg(value_name = "WORD", required = true)]
    pub(crate) words: Vec<String>,
    /// Scope file, or the name of a scope that comes with the program; by default from the folder's settings, else `starter`.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Read the words in this accent, against the default scope: general-american, southern-british or northern-english.
    #[arg(long, value_name = "NAME", value_parser = accent, conflicts_with_all = ["scope", "config"])]
    pub(crate) accent: Option<Accent>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PatternsArgs {
    /// Only these spellings.
    #[arg(value_name = "SPELLING")]
    pub(crate) spellings: Vec<String>,
    /// Accent: general-american, southern-british or northern-english.
    #[arg(long, value_name = "NAME", value_parser = accent, default_value = "general-american")]
    pub(crate) accent: Accent,
    /// Include spellings that only one word has, or only names.
    #[arg(long)]
    pub(crate) all: bool,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ScopeArgs {
    /// Scope file, or the name of a scope that comes with the program; by default from the folder's settings, else `starter`.
    #[arg(value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// With --against: readers to compare under both scopes, files or folders.
    #[arg(value_name = "READERS", requires = "against")]
    pub(crate) readers: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) against: AgainstArgs,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = ScopeFormat::Text)]
    pub(crate) format: ScopeFormat,
}

#[derive(Debug, clap::Args)]
pub(crate) struct InitArgs {
    /// Folder to begin in; it is made if it is not there yet.
    #[arg(value_name = "FOLDER", default_value = ".")]
    pub(crate) folder: PathBuf,
    /// Scope that comes with the program, to start from.
    #[arg(long, short, value_name = "NAME", default_value = "starter")]
    pub(crate) scope: String,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum ScopeFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// The scope file itself: a start for your own.
    Yaml,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PageArgs {
    /// Port to serve the page on; by default 47365, where the browser finds remembered stories again, or any free port.
    #[arg(long, value_name = "PORT", default_value_t = 0, hide_default_value = true)]
    pub(crate) port: u16,
    /// Print the address without opening a browser.
    #[arg(long)]
    pub(crate) no_browser: bool,
    /// Write the page to a file that opens with a double click, where the program came with it; nothing is served.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["port", "no_browser"])]
    pub(crate) save: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct EditorArgs {
    /// Passed by many clients; standard input and output are always used.
    #[arg(long, hide = true)]
    pub(crate) stdio: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct CompletionsArgs {
    /// Shell to complete for.
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
    /// If output goes to a terminal and NO_COLOR is not set.
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

/// Parses the name of an accent.
fn accent(text: &str) -> Result<Accent, String> {
    Accent::named(text).ok_or_else(|| {
        let names = Accent::ALL.map(Accent::name);
        format!("there is no such accent; the accents are {}", names.join(", "))
    })
}
