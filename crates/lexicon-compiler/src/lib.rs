//! Compiles the pronouncing dictionary into the packed lexicon.
//!
//! Each step has a module: read the `dictionary` and how common its words are (`commonness`); fix pronunciations that a
//! teacher would not use, by rule and with a reviewed list (`fixes`); find what each word is made of (`formation`, with
//! a reviewed list of `exceptions`) and where its pieces meet (`seams`); cut every reading into spellings and sounds
//! (`cut`); reuse the cut of base words in the words made of them (`inherit`); and pack the result (`pack`). The steps
//! are deterministic: the same sources give the same bytes.

mod accents;
mod commonness;
mod cut;
mod cut_lexicon;
mod dictionary;
mod exceptions;
mod fixes;
mod formation;
mod inherit;
mod pack;
mod seams;
mod spellings;

/// The source lists: the dictionary and the reviewed files.
#[derive(Clone, Copy, Debug)]
pub struct Sources<'a> {
    /// The CMU Pronouncing Dictionary.
    pub dictionary: &'a str,
    /// Pronunciations fixed by hand: word, action, pronunciations, reason.
    pub readings: &'a str,
    /// Size class of each common word.
    pub commonness: &'a str,
    /// Words that only look as if they were made of others: word, claim, made of, reason.
    pub exceptions: &'a str,
    /// British spellings: word, American word, size class.
    pub spellings: &'a str,
    /// Readings of British accents that no rule gives: word, accents, change, reason.
    pub british: &'a str,
}

/// The packed files that `untaught-lexicon` embeds.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Packed {
    /// The dictionary: `data/lexicon.bin`.
    pub lexicon: Vec<u8>,
    /// The reviewed readings of British accents: `data/accents.bin`.
    pub accents: Vec<u8>,
}

impl Sources<'static> {
    /// Returns the lists included in this crate.
    #[must_use]
    pub fn embedded() -> Sources<'static> {
        Sources {
            dictionary: include_str!("../data/cmudict.dict"),
            readings: include_str!("../data/readings.tsv"),
            commonness: include_str!("../data/commonness.tsv"),
            exceptions: include_str!("../data/exceptions.tsv"),
            spellings: include_str!("../data/spellings.tsv"),
            british: include_str!("../data/british.tsv"),
        }
    }
}

/// Compiles the sources into the files that `untaught-lexicon` embeds. Cost: about 20 seconds of CPU time in an optimised build.
///
/// # Errors
/// If a source list has a mistake: a sentence with the file and line of the first.
pub fn compile(sources: &Sources<'_>) -> Result<Packed, String> {
    let Read { words, commonness, exceptions } = read(sources)?;
    let formations = formation::recognise(&words, &commonness, &exceptions);
    let lexicon = cut::cut_all(&words, &commonness, &formations);
    let accents = accents::pack(&lexicon, sources.british).map_err(|error| format!("data/british.tsv:{error}"))?;
    Ok(Packed { lexicon: pack::pack(&lexicon), accents })
}

/// Returns the exceptions that no rule needs and that can be deleted: `corner: corn -er`.
///
/// # Errors
/// As [`compile`].
pub fn idle_exceptions(sources: &Sources<'_>) -> Result<Vec<String>, String> {
    let Read { words, commonness, exceptions } = read(sources)?;
    Ok(formation::idle(&words, &commonness, &exceptions))
}

/// The parsed sources, with the pronunciations fixed.
struct Read {
    words: dictionary::Words,
    commonness: commonness::Commonness,
    exceptions: exceptions::Exceptions,
}

fn read(sources: &Sources<'_>) -> Result<Read, String> {
    let mut commonness =
        commonness::read(sources.commonness).map_err(|error| format!("data/commonness.tsv:{error}"))?;
    let exceptions = exceptions::read(sources.exceptions).map_err(|error| format!("data/exceptions.tsv:{error}"))?;
    let mut words = dictionary::read(sources.dictionary);
    fixes::by_rule(&mut words, &commonness);
    fixes::by_review(&mut words, sources.readings).map_err(|error| format!("data/readings.tsv:{error}"))?;
    spellings::add(&mut words, &mut commonness, sources.spellings)
        .map_err(|error| format!("data/spellings.tsv:{error}"))?;
    fixes::follow_bases(&mut words, &commonness);
    Ok(Read { words, commonness, exceptions })
}
