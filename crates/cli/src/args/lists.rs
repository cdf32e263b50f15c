//! What was typed about the lists for a lesson.

use std::path::PathBuf;

use clap::ValueEnum;

use super::{Config, TextOrJson, Told};

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
    #[arg(long, value_parser = shape)]
    pub(crate) shape: Option<untaught_lists::Shape>,
    /// Only words that can be sounded out from just this lesson on.
    #[arg(long)]
    pub(crate) new: bool,
    /// How many words at most.
    #[arg(long, value_name = "N", default_value_t = 60)]
    pub(crate) limit: usize,
    /// How to report.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
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
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
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
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
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
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
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

impl From<Where> for untaught_lists::Position {
    fn from(place: Where) -> untaught_lists::Position {
        match place {
            Where::Start => untaught_lists::Position::Start,
            Where::Middle => untaught_lists::Position::Middle,
            Where::End => untaught_lists::Position::End,
        }
    }
}

/// A shape. What is wrong with one quotes it.
fn shape(text: &str) -> Result<untaught_lists::Shape, String> {
    untaught_lists::Shape::parse(text).map_err(|wrong| crate::output::one_line(&wrong).into_owned())
}

/// A number, or two with a hyphen between.
fn range(text: &str) -> Result<(usize, usize), String> {
    let (low, high) = text.split_once('-').unwrap_or((text, text));
    match (low.trim().parse(), high.trim().parse()) {
        (Ok(low), Ok(high)) if low > 0 && low <= high => Ok((low, high)),
        _ => Err("this is a number such as 3, or two such as 3-4".to_owned()),
    }
}
