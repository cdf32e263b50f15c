//! Compiles the pronouncing dictionary into the packed lexicon.
//!
//! The steps, a module each: read the `dictionary` and how common its words are (`commonness`); fix pronunciations that a
//! teacher would not use, by rule and by the reviewed list (`mend`); find out what each word is made of (`formation`, with a
//! reviewed list of `exceptions`), and so where it is joined (`seams`); cut every reading into spellings and sounds (`cut`);
//! keep the cutting of base words in the words made of them (`inherit`); and pack the result
//! (`pack`). Everything is deterministic: the same sources give the same bytes.

mod commonness;
mod cut;
mod cut_lexicon;
mod dictionary;
mod exceptions;
mod formation;
mod inherit;
mod mend;
mod pack;
mod seams;

/// The source lists: the dictionary and the reviewed files beside it.
#[derive(Clone, Copy, Debug)]
pub struct Sources<'a> {
    /// The CMU Pronouncing Dictionary.
    pub dictionary: &'a str,
    /// Pronunciations fixed by hand: word, action, pronunciations, reason.
    pub readings: &'a str,
    /// Size class of each common word.
    pub commonness: &'a str,
    /// Words that only look made of others: word, claim, made of, reason.
    pub exceptions: &'a str,
}

impl Sources<'static> {
    /// The lists this crate comes with.
    #[must_use]
    pub fn embedded() -> Sources<'static> {
        Sources {
            dictionary: include_str!("../data/cmudict.dict"),
            readings: include_str!("../data/readings.tsv"),
            commonness: include_str!("../data/commonness.tsv"),
            exceptions: include_str!("../data/exceptions.tsv"),
        }
    }
}

/// Compiles the sources into the bytes that `untaught-lexicon` embeds. Cost: some 20 seconds of CPU in an optimised build.
///
/// # Errors
/// A sentence with the file and line of the first mistake in a source list.
pub fn compile(sources: &Sources<'_>) -> Result<Vec<u8>, String> {
    let Read { words, commonness, exceptions } = read(sources)?;
    let formations = formation::recognise(&words, &commonness, &exceptions);
    let lexicon = cut::cut_all(&words, &commonness, &formations);
    Ok(pack::pack(&lexicon))
}

/// The lines of the list of exceptions that deny what no rule would claim, and so can go: `corner: corn -er`.
///
/// # Errors
/// As [`compile`].
pub fn idle_exceptions(sources: &Sources<'_>) -> Result<Vec<String>, String> {
    let Read { words, commonness, exceptions } = read(sources)?;
    Ok(formation::idle(&words, &commonness, &exceptions))
}

/// The sources as they are read, the dictionary fixed.
struct Read {
    words: dictionary::Words,
    commonness: commonness::Commonness,
    exceptions: exceptions::Exceptions,
}

fn read(sources: &Sources<'_>) -> Result<Read, String> {
    let commonness = commonness::read(sources.commonness).map_err(|error| format!("data/commonness.tsv:{error}"))?;
    let exceptions = exceptions::read(sources.exceptions).map_err(|error| format!("data/exceptions.tsv:{error}"))?;
    let mut words = dictionary::read(sources.dictionary);
    mend::by_rule(&mut words, &commonness);
    mend::by_review(&mut words, sources.readings).map_err(|error| format!("data/readings.tsv:{error}"))?;
    mend::follow_bases(&mut words, &commonness);
    Ok(Read { words, commonness, exceptions })
}
