//! The words that are decodable at a lesson: a filter over the dictionary.

use std::ops::RangeInclusive;

use untaught_lexicon::Entry;
use untaught_phonics::{CorrespondenceId, spelled};

use crate::{Judge, LessonIndex, Word};

/// An ordinary word in the dictionary that is decodable at a lesson.
#[derive(Debug)]
pub struct Decodable {
    /// The word; its first reading is the one that becomes decodable first.
    pub word: Word,
    /// The first lesson at which it is decodable.
    pub first: LessonIndex,
    /// The base word, if this word is an inflected form.
    pub base: Option<String>,
    /// How common it is: a size class from 10 (commonest) to 50 (rarest).
    pub class: u8,
}

/// A word that may be decodable but has not been judged yet.
#[derive(Clone, Copy, Debug)]
pub struct Candidate {
    entry: Entry,
    class: u8,
    /// Whether the scope reads words as they are packed: in General American, without further distinctions.
    as_packed: bool,
}

impl Candidate {
    /// The word.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.entry.word()
    }

    /// Whether one of its readings contains a correspondence that `wanted` accepts; perhaps true of others where the scope reads words in another way than they are packed.
    #[must_use]
    pub fn has(self, wanted: impl Fn(CorrespondenceId) -> bool) -> bool {
        // Of other readings only the spellings are packed.
        if !self.as_packed {
            return true;
        }
        let is_it = |part: untaught_lexicon::PackedPart| match part {
            untaught_lexicon::PackedPart::Known { id, .. } => wanted(id),
            untaught_lexicon::PackedPart::Odd(_) => false,
        };
        self.entry.readings().any(|reading| reading.parts().any(is_it))
    }

    /// Whether one of its readings has a number of syllables in this range.
    #[must_use]
    pub fn has_syllables(self, wanted: &RangeInclusive<usize>) -> bool {
        let vowel = |part: &untaught_lexicon::PackedPart| match part {
            untaught_lexicon::PackedPart::Known { id, .. } => id.get().sound.get().kind.is_vowel(),
            untaught_lexicon::PackedPart::Odd(_) => true,
        };
        self.entry.readings().any(|reading| wanted.contains(&reading.parts().filter(vowel).count().max(1)))
    }
}

impl Judge<'_> {
    /// Returns the ordinary words up to a size class whose parts may all have been taught by a lesson, in alphabetical order: all
    /// decodable words, and a few others. Cost: a pass over the dictionary.
    pub fn candidates(&self, at: LessonIndex, class: u8) -> impl Iterator<Item = Candidate> {
        let sieve = self.sieve(at);
        let british = self.scope().accent().is_british();
        let passes = move |entry: &Entry| {
            if british && untaught_lexicon::accents::has(entry.word()) {
                return true;
            }
            entry.readings().any(|reading| {
                reading.parts().all(|part| match part {
                    untaught_lexicon::PackedPart::Known { id, .. } => sieve[id.index()],
                    untaught_lexicon::PackedPart::Odd(_) => false,
                })
            })
        };
        let accent = self.scope().accent();
        let entries = self.reader().lexicon.entries().filter(move |entry| entry.is_spelled_in(accent));
        let entries = entries.filter_map(|entry| Some((entry, entry.commonness()?)));
        let found = entries.filter(move |(entry, common)| *common <= class && passes(entry));
        let as_packed = self.reads_as_packed();
        found.map(move |(entry, class)| Candidate { entry, class, as_packed })
    }

    /// Judges a candidate; returns it if it is decodable at the lesson. Cost: a judgement.
    #[must_use]
    pub fn decodable(&self, candidate: Candidate, at: LessonIndex) -> Option<Decodable> {
        let Candidate { entry, class, .. } = candidate;
        let (word, earliest) = self.sound_out(self.reader().word_of(&entry));
        let first = earliest.first()?.lesson().filter(|first| *first <= at)?;
        let base = self.reader().inflected_of(&word.text, &word.readings[0]);
        Some(Decodable { word, first, base, class })
    }

    fn reads_as_packed(&self) -> bool {
        !self.scope().accent().is_british() && !self.scope().keeps_weak_r()
    }

    /// For each correspondence, whether something taught by the lesson may cover it somewhere. May accept too many, never
    /// too few.
    fn sieve(&self, at: LessonIndex) -> Vec<bool> {
        let table = self.scope().table();
        let in_chunks: Vec<CorrespondenceId> = table.ids_of_chunks(at).collect();
        let may = |id: CorrespondenceId| {
            let lesson = table.lesson(id).min(table.weak(id)).min(table.after_split(id)).min(table.e_dropped(id));
            // A y that a suffix changed to i.
            lesson.by(at) || in_chunks.contains(&id) || matches!(id.get().spelling, "i" | "ie")
        };
        if self.reads_as_packed() {
            return CorrespondenceId::all().map(may).collect();
        }
        // The American cut of the dictionary has the same spellings, except for an r or l that belongs elsewhere: *hurry*, *walk*.
        let opened = |spelling: &str| matches!(spelling, "urr" | "orr" | "irr" | "arr" | "or" | "our" | "lk" | "ld");
        let spelling = |id: CorrespondenceId| {
            let spelling = id.get().spelling;
            opened(spelling) || spelled(spelling).any(may)
        };
        CorrespondenceId::all().map(spelling).collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::{Judge, LessonIndex, Reader, Scope};

    /// The sieve never rejects a word that the judge accepts.
    #[test]
    fn the_words_of_a_lesson_are_those_the_judge_accepts() {
        let reader = Reader::default();
        for (name, _) in Scope::all_embedded() {
            let scope = Scope::embedded(name, &reader).unwrap();
            let judge = Judge::new(&reader, &scope);
            let last = scope.last().get();
            for at in [last / 4, last / 2, last].map(|at| LessonIndex::new(at).unwrap()) {
                let found = judge.candidates(at, 20).filter_map(|candidate| judge.decodable(candidate, at));
                let found: Vec<String> = found.map(|found| found.word.text).collect();
                let judged = judge
                    .reader()
                    .common(20)
                    .filter(|(word, _)| judge.judge(word).first_decodable().is_some_and(|first| first <= at));
                let judged: Vec<&str> = judged.map(|(word, _)| word).collect();
                assert_eq!(found, judged, "{name} at {at:?}");
            }
        }
    }
}
