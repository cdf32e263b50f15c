//! Arguments of the commands that make lists for a lesson.

use std::path::PathBuf;

use clap::ValueEnum;

use untaught::Accent;

use super::{ConfigArgs, SettingsArgs, TextOrJson, accent};

/// The lesson to make lists for.
#[derive(Debug, clap::Args)]
pub(crate) struct ForLesson {
    /// Scope file, or the name of a scope that comes with the program; by default from the folder's settings, else `starter`.
    #[arg(long, short, value_name = "FILE|NAME")]
    pub(crate) scope: Option<String>,
    /// Lesson id; by default from the folder's settings, else the last lesson.
    #[arg(long, short, value_name = "ID")]
    pub(crate) lesson: Option<String>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    #[command(flatten)]
    pub(crate) vocabulary: VocabularyArgs,
}

/// Words that lists do not have by default.
#[derive(Debug, clap::Args)]
pub(crate) struct VocabularyArgs {
    /// Include words that the children of the scope are too young to know.
    #[arg(long)]
    pub(crate) older: bool,
    /// Include rarer words too, whatever age knows them.
    #[arg(long)]
    pub(crate) rarer: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct WordsArgs {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// Pattern to practise, such as `igh` or `ea as in bread`; repeatable; by default, the lesson's patterns.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    /// List every word that can be sounded out by then, whether or not it practises the lesson's patterns.
    #[arg(long, conflicts_with_all = ["focus", "position"])]
    pub(crate) all: bool,
    /// Where in the word the pattern must be.
    #[arg(long, value_enum)]
    pub(crate) position: Option<PositionArg>,
    /// Number of sounds, such as 3 or 3-4.
    #[arg(long, value_name = "N|N-M", value_parser = range)]
    pub(crate) sounds: Option<(usize, usize)>,
    /// Number of syllables, such as 1 or 1-2.
    #[arg(long, value_name = "N|N-M", value_parser = range)]
    pub(crate) syllables: Option<(usize, usize)>,
    /// Consonants and vowels, by sound: CVC or CCVC, for example.
    #[arg(long, value_parser = shape)]
    pub(crate) shape: Option<untaught_lists::Shape>,
    /// Only words that cannot be sounded out before this lesson.
    #[arg(long)]
    pub(crate) new: bool,
    /// Nonsense words instead: readable at the lesson, and no words at all.
    #[arg(long, conflicts_with_all = ["all", "position", "sounds", "syllables", "shape", "new"])]
    pub(crate) nonsense: bool,
    /// With --nonsense: selects other words; the same number always gives the same ones.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Maximum number of words.
    #[arg(long, value_name = "N", default_value_t = 60)]
    pub(crate) limit: usize,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = ListFormat::Text)]
    pub(crate) format: ListFormat,
    /// Write the list to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ChainArgs {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// Number of steps; 8 by default, or as few as possible with both --from and --to.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=40))]
    pub(crate) steps: Option<u8>,
    /// First word.
    #[arg(long, value_name = "WORD")]
    pub(crate) from: Option<String>,
    /// Last word.
    #[arg(long, value_name = "WORD")]
    pub(crate) to: Option<String>,
    /// Allow only these changes, separated by commas: `swap`, `add` or `drop` a sound; the `first`, `middle` or `last` sound.
    #[arg(long, value_name = "CHANGE", value_delimiter = ',', value_parser = ["swap", "add", "drop", "first", "middle", "last"])]
    pub(crate) change: Vec<String>,
    /// Also allow steps that spell the other sounds in another way, such as pail, pay.
    #[arg(long)]
    pub(crate) respell: bool,
    /// Selects another chain; the same number always gives the same one.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = ListFormat::Text)]
    pub(crate) format: ListFormat,
    /// Write the list to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct BoxesArgs {
    /// Words to draw.
    #[arg(value_name = "WORD", required_unless_present = "blank")]
    pub(crate) words: Vec<String>,
    /// Accent: general-american, southern-british or northern-english.
    #[arg(long, value_name = "NAME", value_parser = accent, default_value = "general-american")]
    pub(crate) accent: Accent,
    /// Draw a row of this many empty boxes, before any words.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=12))]
    pub(crate) blank: Option<u8>,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = BoxFormat::Text)]
    pub(crate) format: BoxFormat,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ContrastArgs {
    /// Sound to listen for: a pattern (`sh`, `i as in sit`), or IPA between slashes.
    #[arg(value_name = "PATTERN|/IPA/")]
    pub(crate) sound: String,
    /// Accent: general-american, southern-british or northern-english.
    #[arg(long, value_name = "NAME", value_parser = accent, default_value = "general-american")]
    pub(crate) accent: Accent,
    /// Where in the words the sound must be.
    #[arg(long, value_enum)]
    pub(crate) position: Option<PositionArg>,
    /// Number of words with the sound; as many without it are added.
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u8).range(1..=30))]
    pub(crate) count: u8,
    /// Selects other words; the same number always gives the same list.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = TextOrJson::Text)]
    pub(crate) format: TextOrJson,
}

#[derive(Debug, clap::Args)]
pub(crate) struct DictationArgs {
    #[command(flatten)]
    pub(crate) lesson: ForLesson,
    /// Number of new words; as many review words are added.
    #[arg(long, value_name = "N", default_value_t = 6)]
    pub(crate) words: usize,
    /// Number of sentences.
    #[arg(long, value_name = "N", default_value_t = 3)]
    pub(crate) sentences: usize,
    /// Selects other words; the same number always gives the same list.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = ListFormat::Text)]
    pub(crate) format: ListFormat,
    /// Write the list to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub(crate) struct PackArgs {
    /// Story for the lesson; `-` reads it from standard input.
    #[arg(value_name = "FILE")]
    pub(crate) story: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) settings: SettingsArgs,
    /// Pattern to practise, such as `igh` or `ea as in bread`; repeatable; by default from the story or its folder's settings,
    /// else the lesson's patterns.
    #[arg(long, value_name = "PATTERN")]
    pub(crate) focus: Vec<String>,
    #[command(flatten)]
    pub(crate) config: ConfigArgs,
    #[command(flatten)]
    pub(crate) vocabulary: VocabularyArgs,
    /// Selects other words; the same number always gives the same pack.
    #[arg(long, value_name = "NUMBER", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Output format.
    #[arg(long, short, value_enum, default_value_t = PackFormat::Markdown)]
    pub(crate) format: PackFormat,
    /// Only these parts, separated by commas (html).
    #[arg(long, value_enum, value_delimiter = ',', value_name = "PART")]
    pub(crate) parts: Vec<PackPart>,
    /// Also show sounds in IPA (html).
    #[arg(long)]
    pub(crate) ipa: bool,
    /// Give each sentence of the child's copy of the story a line of its own (html).
    #[arg(long)]
    pub(crate) sentence_lines: bool,
    /// Write the pack to a file instead of standard output.
    #[arg(long, short, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum ListFormat {
    /// For people.
    Text,
    /// For programs.
    Json,
    /// For spreadsheets.
    Csv,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum BoxFormat {
    /// Letters and lines.
    Text,
    /// One SVG drawing per line, one for each word.
    Svg,
    /// For programs.
    Json,
}

/// A part of a pack.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PackPart {
    /// How to introduce what is new.
    Introduce,
    /// Sight words.
    Sight,
    /// Words to listen to.
    Listening,
    /// Sounds to put together, words to take apart.
    Oral,
    /// Words in sound boxes.
    Blending,
    /// The word chain.
    Chain,
    /// The word sort.
    Sort,
    /// Nonsense words.
    Nonsense,
    /// Words and sentences to spell.
    Dictation,
    /// The story, marked for the teacher.
    Story,
    /// The story for the child.
    Child,
    /// A page to read at home.
    Home,
    /// A page to write on.
    Writing,
    /// Cards and tiles to cut out.
    Cards,
}

impl PackPart {
    /// Every part with the name by which it is typed and by which the template knows it.
    pub(crate) fn all() -> impl Iterator<Item = (PackPart, String)> {
        let named = |part: &PackPart| Some((*part, part.to_possible_value()?.get_name().to_owned()));
        PackPart::value_variants().iter().filter_map(named)
    }
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PackFormat {
    /// Markdown, for word processors and websites.
    Markdown,
    /// A web page to print.
    Html,
    /// For programs.
    Json,
}

/// Where in a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub(crate) enum PositionArg {
    Start,
    Middle,
    End,
}

impl From<PositionArg> for untaught_lists::WordPosition {
    fn from(position: PositionArg) -> untaught_lists::WordPosition {
        match position {
            PositionArg::Start => untaught_lists::WordPosition::Start,
            PositionArg::Middle => untaught_lists::WordPosition::Middle,
            PositionArg::End => untaught_lists::WordPosition::End,
        }
    }
}

/// Parses a shape. A message about a mistake quotes it.
fn shape(text: &str) -> Result<untaught_lists::Shape, String> {
    untaught_lists::Shape::parse(text).map_err(|wrong| crate::output::one_line(&wrong).into_owned())
}

/// Parses a number or a range such as `3-4`.
fn range(text: &str) -> Result<(usize, usize), String> {
    let (low, high) = text.split_once('-').unwrap_or((text, text));
    match (low.trim().parse(), high.trim().parse()) {
        (Ok(low), Ok(high)) if low > 0 && low <= high => Ok((low, high)),
        _ => Err("give a number such as 3, or a range such as 3-4".to_owned()),
    }
}
