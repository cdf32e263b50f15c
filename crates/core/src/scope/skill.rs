//! Skills: demands a word makes beyond its spellings.

/// A skill. Each restricts only once a scope names it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
#[non_exhaustive]
pub enum Skill {
    /// Two or more consonant sounds before the first vowel: *stop*.
    InitialBlends,
    /// Two or more consonant sounds after the last vowel, an ending apart: *lamp*, but not *cats*.
    FinalBlends,
    /// Two syllables.
    TwoSyllableWords,
    /// Three syllables or more.
    LongerWords,
    /// Two words written as one: *sunset*.
    CompoundWords,
    /// Words shortened with an apostrophe: *can't*.
    Contractions,
    /// *Sam's*, *the dogs'*.
    Possessives,
    /// A vowel letter in an unstressed syllable that is not heard as its short sound: *about*.
    Schwa,
}

impl Skill {
    /// Every skill.
    pub const ALL: [Skill; 8] = [
        Skill::InitialBlends,
        Skill::FinalBlends,
        Skill::TwoSyllableWords,
        Skill::LongerWords,
        Skill::CompoundWords,
        Skill::Contractions,
        Skill::Possessives,
        Skill::Schwa,
    ];

    /// Its name in scope files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Skill::InitialBlends => "initial-blends",
            Skill::FinalBlends => "final-blends",
            Skill::TwoSyllableWords => "two-syllable-words",
            Skill::LongerWords => "longer-words",
            Skill::CompoundWords => "compound-words",
            Skill::Contractions => "contractions",
            Skill::Possessives => "possessives",
            Skill::Schwa => "schwa",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Skill::InitialBlends => "consonants together at the start",
            Skill::FinalBlends => "consonants together at the end",
            Skill::TwoSyllableWords => "two syllables",
            Skill::LongerWords => "three or more syllables",
            Skill::CompoundWords => "compound words",
            Skill::Contractions => "contractions",
            Skill::Possessives => "possessives",
            Skill::Schwa => "schwa in an unstressed syllable",
        }
    }

    /// The skill of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Skill> {
        Skill::ALL.into_iter().find(|skill| skill.name() == name)
    }
}
