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
    /// Say at which lesson each story can first be read, and what stands in its way.
    Place(Place),
    /// Look at a folder of readers as one shelf: what each practises, what is practised too little, which sit too early or late.
    Shelf(Shelf),
    /// List words for a lesson: those that can be sounded out by then and practise its pattern.
    Words(Words),
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
    Explain(Explain),
    /// List the catalogue: every spelling with its sounds and key words.
    Patterns(Patterns),
    /// Check a scope file and show its lessons.
    Scope(ScopeArgs),
    /// Serve an editor: speak the Language Server Protocol on standard input and output.
    Editor(Editor),
    /// Write the completions of a shell.
    Completions(Completions),
    /// Write the manual page.
    Man,
}

/// What holds for a story, as far as it is typed.
#[derive(Debug, clap::Args)]
pub(crate) struct Told {
    /// Scope file, or the name of one that comes with the program.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Id of the lesson; else the story's front matter counts, then the folder's settings, then the last lesson.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    /// Words told to the child beforehand, separated by commas.
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub(crate) story_words: Vec<String>,
    /// Names told to the child beforehand, separated by commas; `allow` counts every word that looks like a name as one.
    #[arg(long, value_name = "NAMES|allow", value_delimiter = ',')]
    pub(crate) names: Vec<String>,
}

/// Where the settings of a folder are looked for.
#[derive(Debug, clap::Args)]
pub(crate) struct Config {
    /// Settings file; else each story's own folder and those above it are searched for `untaught.yaml`.
    #[arg(long, value_name = "FILE", conflicts_with = "no_config")]
    pub(crate) config: Option<PathBuf>,
    /// Use no settings file.
    #[arg(long)]
    pub(crate) no_config: bool,
}

/// The texts and what holds for them.
#[derive(Debug, clap::Args)]
pub(crate) struct Texts {
    /// Stories, and folders of stories; `-` or nothing is what is pasted or piped in.
    #[arg(value_name = "FILE|FOLDER")]
    pub(crate) files: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) told: Told,
    /// A story with fewer percent decodable falls short (exit code 1).
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_decodable: Option<f64>,
    /// A story with fewer percent readable falls short (exit code 1); 100 unless the folder's settings say otherwise.
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
    pub(crate) min_readable: Option<f64>,
    #[command(flatten)]
    pub(crate) config: Config,
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
pub(crate) struct Check {
    #[command(flatten)]
    pub(crate) texts: Texts,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Report::Text)]
    pub(crate) format: Report,
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
    /// Show what holds for each story and where it comes from, and check nothing.
    #[arg(long)]
    pub(crate) show_config: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Place {
    #[command(flatten)]
    pub(crate) texts: Texts,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = PlaceFormat::Text)]
    pub(crate) format: PlaceFormat,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Shelf {
    #[command(flatten)]
    pub(crate) texts: Texts,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = ShelfFormat::Text)]
    pub(crate) format: ShelfFormat,
    /// Propose an order: by the lesson at which each can first be read, then by how much is new.
    #[arg(long)]
    pub(crate) order: bool,
    /// A pattern practised fewer times than this over the whole shelf is listed as practised too little.
    #[arg(long, value_name = "TIMES", default_value_t = 10)]
    pub(crate) enough: usize,
}

/// The lesson that lists are made for.
#[derive(Debug, clap::Args)]
pub(crate) struct ForLesson {
    /// Scope file, or the name of one that comes with the program.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Id of the lesson; else the last.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    /// Take rarer words too (some 37,000 candidates instead of 34,000).
    #[arg(long)]
    pub(crate) rarer: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Words {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// A pattern to practise, such as `igh` or `ea as in bread`; else those of the lesson.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    /// Whatever the lesson teaches: all words that can be sounded out by then.
    #[arg(long, conflicts_with_all = ["focus", "position"])]
    pub(crate) all: bool,
    /// Where in the word the pattern stands.
    #[arg(long, value_enum)]
    pub(crate) position: Option<Where>,
    /// Number of sounds, such as 3 or 3-4.
    #[arg(long, value_name = "N|N-M", value_parser = range)]
    pub(crate) sounds: Option<(usize, usize)>,
    /// Number of syllables, such as 1 or 1-2.
    #[arg(long, value_name = "N|N-M", value_parser = range)]
    pub(crate) syllables: Option<(usize, usize)>,
    /// Shape of the word, such as CVC or CCVC.
    #[arg(long, value_parser = untaught_materials::Shape::parse)]
    pub(crate) shape: Option<untaught_materials::Shape>,
    /// Only words that can be sounded out from just this lesson on.
    #[arg(long)]
    pub(crate) new: bool,
    /// How many words at most.
    #[arg(long, value_name = "N", default_value_t = 60)]
    pub(crate) limit: usize,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ChainArgs {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// How many steps; 8 unless said, or as few as possible from one word to another.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub(crate) steps: Option<u8>,
    /// The first word.
    #[arg(long, value_name = "WORD")]
    pub(crate) from: Option<String>,
    /// The last word.
    #[arg(long, value_name = "WORD")]
    pub(crate) to: Option<String>,
    /// Only such changes, separated by commas: swap, add, drop; first, middle, last sound.
    #[arg(long, value_name = "CHANGE", value_delimiter = ',', value_parser = ["swap", "add", "drop", "first", "middle", "last"])]
    pub(crate) change: Vec<String>,
    /// Draws another chain.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct BoxesArgs {
    /// Words.
    #[arg(value_name = "WORD", required_unless_present = "blank")]
    pub(crate) words: Vec<String>,
    /// Empty boxes for the board, so many in a row.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=12))]
    pub(crate) blank: Option<u8>,
    /// How to draw.
    #[arg(long, short, value_enum, default_value_t = BoxFormat::Text)]
    pub(crate) format: BoxFormat,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ContrastArgs {
    /// A sound: a spelling with its key word (`sh`, `i as in sit`), or IPA between slashes.
    #[arg(value_name = "PATTERN|/IPA/")]
    pub(crate) sound: String,
    /// Where in the words the sound stands.
    #[arg(long, value_enum)]
    pub(crate) position: Option<Where>,
    /// How many words with the sound, and as many without.
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u8).range(1..=30))]
    pub(crate) count: u8,
    /// Draws another list.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct DictationArgs {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// How many new words, and as many to review.
    #[arg(long, value_name = "N", default_value_t = 6)]
    pub(crate) words: usize,
    /// How many sentences.
    #[arg(long, value_name = "N", default_value_t = 3)]
    pub(crate) sentences: usize,
    /// Draws another list.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PackArgs {
    /// The story of the lesson; `-` is what is pasted or piped in.
    #[arg(value_name = "FILE")]
    pub(crate) story: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) told: Told,
    /// A pattern to practise, such as `igh` or `ea as in bread`; may be given several times. Else what the story or its folder's
    /// settings say, else those of the lesson.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    #[command(flatten)]
    pub(crate) config: Config,
    /// Take rarer words too (some 37,000 candidates instead of 34,000).
    #[arg(long)]
    pub(crate) rarer: bool,
    /// Draws other lists; the same number makes the same pack again.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// How to write it.
    #[arg(long, short, value_enum, default_value_t = PackFormat::Markdown)]
    pub(crate) format: PackFormat,
    /// Write it to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
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

#[derive(Debug, clap::Args)]
pub(crate) struct Editor {
    /// Said by many clients; there is no other way here.
    #[arg(long, hide = true)]
    pub(crate) stdio: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct Completions {
    /// The shell.
    #[arg(value_enum)]
    pub(crate) shell: clap_complete::Shell,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

/// The formats of `check`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum Report {
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

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum BoxFormat {
    /// Letters and lines.
    Text,
    /// One drawing for each word, a line each.
    Svg,
    /// For programs.
    Json,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PackFormat {
    /// Text that any word processor or site takes.
    Markdown,
    /// A page to print.
    Html,
    /// For programs.
    Json,
}

/// Where in a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum Where {
    Start,
    Middle,
    End,
}

impl Where {
    pub(crate) fn position(self) -> untaught_materials::Position {
        match self {
            Where::Start => untaught_materials::Position::Start,
            Where::Middle => untaught_materials::Position::Middle,
            Where::End => untaught_materials::Position::End,
        }
    }
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

/// A number, or two with a hyphen between.
fn range(text: &str) -> Result<(usize, usize), String> {
    let (low, high) = text.split_once('-').unwrap_or((text, text));
    match (low.trim().parse(), high.trim().parse()) {
        (Ok(low), Ok(high)) if low > 0 && low <= high => Ok((low, high)),
        _ => Err("this is a number such as 3, or two such as 3-4".to_owned()),
    }
}

fn percent(text: &str) -> Result<f64, String> {
    match text.trim_end_matches('%').trim().parse::<f64>() {
        Ok(value) if (0.0..=100.0).contains(&value) => Ok(value),
        _ => Err("a percentage is a number from 0 to 100".to_owned()),
    }
}
