//! Focus: how much a text practises some patterns and skills.

use std::ops::RangeInclusive;

use untaught_phonics::formation::AffixId;
use untaught_phonics::{CorrespondenceId, Formation, Grade, Part, Reading, spelled};

use crate::judge::demands;
use crate::{Chunk, Lesson, LessonIndex, Pattern, Reader, Scope, Skill};

/// Patterns and skills to look for in readings.
#[derive(Clone, Debug)]
pub struct Focus {
    /// Their names.
    pub labels: Vec<String>,
    singles: Vec<CorrespondenceId>,
    chunks: Vec<Chunk>,
    skills: Vec<Skill>,
    /// Suffixes that the scope names: the s of *chews* practises -s, not `s as in is`.
    endings: Vec<AffixId>,
}

impl Focus {
    /// Returns the patterns and skills that a lesson itself teaches.
    #[must_use]
    pub fn of_lesson(scope: &Scope, lesson: LessonIndex) -> Focus {
        Focus::of(scope, &scope.lesson(lesson).map(Lesson::taught).unwrap_or_default())
    }

    /// Returns the patterns and skills that a lesson practises: those it teaches or, if there are none, those it reviews.
    #[must_use]
    pub fn practised_at(scope: &Scope, lesson: LessonIndex) -> Focus {
        let lesson = scope.lesson(lesson);
        let taught = lesson.map(Lesson::taught).unwrap_or_default();
        let reviewed = lesson.map_or(&[][..], |lesson| &lesson.review_patterns);
        Focus::of(scope, if taught.is_empty() { reviewed } else { &taught })
    }

    /// Resolves patterns in a scope: a bare spelling means the sounds that the scope teaches for it.
    #[must_use]
    pub fn of(scope: &Scope, patterns: &[Pattern]) -> Focus {
        let mut focus = Focus {
            labels: patterns.iter().map(Pattern::label).collect(),
            singles: Vec::new(),
            chunks: Vec::new(),
            skills: Vec::new(),
            endings: scope.table().affixes().map(|(_, affix, _)| affix).collect(),
        };
        for pattern in patterns {
            match pattern {
                Pattern::One(id, _) => focus.singles.push(*id),
                Pattern::Chunk(chunk) => focus.chunks.push(chunk.clone()),
                Pattern::Skill(skill) => focus.skills.push(*skill),
                Pattern::Bare(spelling) => {
                    let everyday = spelled(spelling).filter(|id| id.get().grade == Grade::Everyday);
                    let taught_here = |id: &CorrespondenceId| !scope.names(*id);
                    focus.singles.extend(everyday.filter(taught_here));
                }
            }
        }
        focus
    }

    /// The single correspondences among the patterns.
    pub(crate) fn singles(&self) -> &[CorrespondenceId] {
        &self.singles
    }

    /// Whether a correspondence is a focus pattern itself.
    #[must_use]
    pub fn teaches(&self, id: CorrespondenceId) -> bool {
        self.singles.contains(&id)
    }

    /// Whether a correspondence is a focus pattern or begins one, or may be in a word that needs a focus skill. A reading without such a
    /// correspondence practises nothing.
    #[must_use]
    pub fn touches(&self, id: CorrespondenceId) -> bool {
        !self.skills.is_empty()
            || self.teaches(id)
            || self.chunks.iter().any(|chunk| chunk.runs.iter().any(|run| run.first() == Some(&id)))
    }

    /// Whether there are no patterns and no skills.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.singles.is_empty() && self.chunks.is_empty() && self.skills.is_empty()
    }

    /// Finds the patterns in a reading of a word: the index range of the parts of each match.
    #[must_use]
    pub fn stretches(&self, reader: &Reader, word: &str, reading: &Reading) -> Vec<RangeInclusive<usize>> {
        let parts = &reading.parts;
        let mut found: Vec<RangeInclusive<usize>> =
            (0..self.stem(reading)).filter(|at| self.is_single(&parts[*at])).map(|at| at..=at).collect();
        for chunk in self.chunks.iter().filter(|chunk| is_in(chunk, reader, word, reading)) {
            for run in &chunk.runs {
                let fits = |at: &usize| begins(&parts[*at..], run);
                found.extend((0..parts.len()).filter(fits).map(|at| at..=at + run.len() - 1));
            }
        }
        found
    }

    /// Whether a reading of a word practises one of the patterns or needs one of the skills. A suffix or prefix counts only if the word is formed with it.
    #[must_use]
    pub fn is_in(&self, reader: &Reader, word: &str, reading: &Reading) -> bool {
        reading.parts[..self.stem(reading)].iter().any(|part| self.is_single(part))
            || self.chunks.iter().any(|chunk| is_in(chunk, reader, word, reading))
            || self.skills.iter().any(|skill| demands(reader, word, reading, *skill))
    }

    fn is_single(&self, part: &Part) -> bool {
        part.id().is_some_and(|id| self.singles.contains(&id))
    }

    /// The number of parts before a suffix that the scope names.
    fn stem(&self, reading: &Reading) -> usize {
        let ending = match reading.made {
            Some(Formation::Affixed { affix, .. }) if self.endings.contains(&affix) => affix,
            _ => return reading.parts.len(),
        };
        let letters = ending.get().letters().trim_start_matches('\'');
        let mut tail = String::new();
        for (at, part) in reading.parts.iter().enumerate().rev() {
            tail.insert_str(0, part.letters());
            if tail == letters {
                return at;
            }
        }
        reading.parts.len()
    }
}

fn begins(parts: &[Part], run: &[CorrespondenceId]) -> bool {
    parts.len() >= run.len() && parts.iter().zip(run).all(|(part, id)| part.id() == Some(*id))
}

fn is_in(chunk: &Chunk, reader: &Reader, word: &str, reading: &Reading) -> bool {
    let parts = &reading.parts;
    let spelled = chunk.runs.iter().any(|run| {
        let last = parts.len().checked_sub(run.len());
        last.is_some_and(|last| match (chunk.start, chunk.end) {
            (true, _) => begins(parts, run),
            (_, true) => last > 0 && begins(&parts[last..], run),
            _ => (0..=last).any(|at| begins(&parts[at..], run)),
        })
    });
    let has = |affix| reader.has_affix(word, reading, affix);
    spelled && chunk.affix.is_none_or(has) || chunk.end && leaves_its_e(chunk, parts) && chunk.affix.is_some_and(has)
}

/// Whether the last part is what is left of an ending whose e belongs to the vowel before: the `d` of *cried* and *scared*.
fn leaves_its_e(chunk: &Chunk, parts: &[Part]) -> bool {
    let Some(last) = parts.last().and_then(Part::id) else { return false };
    chunk.runs.iter().any(|run| match run[..] {
        [only] => {
            let (spelling, sound) = (only.get().spelling, only.get().sound);
            spelling.strip_prefix('e') == Some(last.get().spelling) && sound == last.get().sound
        }
        _ => false,
    })
}
