//! How a pattern is introduced: what to say, how the mouth makes the sound, where the spelling stands in words.

use serde::Serialize;
use untaught::{Focus, Pattern, Scope};
use untaught_phonics::{CorrespondenceId, spelled_in};

/// Lines of a sound and a text.
const SOUNDS: &str = include_str!("../data/teaching/sounds.tsv");
/// Lines of a spelling, a sound and a text.
const PATTERNS: &str = include_str!("../data/teaching/patterns.tsv");

/// How one sound of a pattern is introduced.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Introduction {
    /// The pattern.
    pub pattern: String,
    /// The letters to write.
    pub letters: String,
    /// The key word.
    pub key: String,
    /// What the teacher says.
    pub say: String,
    /// How the mouth makes the sound.
    pub mouth: Option<&'static str>,
    /// Where the spelling stands, and when it is used instead of its rivals.
    pub place: Option<&'static str>,
}

/// Introductions for the patterns of a lesson: one for each sound that a spelling is taught with.
#[must_use]
pub fn introductions(scope: &Scope, patterns: &[Pattern]) -> Vec<Introduction> {
    patterns.iter().flat_map(|pattern| of_pattern(scope, pattern)).collect()
}

fn of_pattern(scope: &Scope, pattern: &Pattern) -> Vec<Introduction> {
    let key_of = |label: &str| label.split_once(" as in ").map(|(_, key)| key.to_owned());
    match pattern {
        Pattern::One(id, label) => vec![of_sound(scope, *id, label, key_of(label))],
        Pattern::Bare(spelling) => {
            let focus = Focus::of(scope, std::slice::from_ref(pattern));
            let taught = spelled_in(spelling, scope.accent()).filter(|id| focus.teaches(*id));
            taught.map(|id| of_sound(scope, id, spelling, None)).collect()
        }
        Pattern::Chunk(chunk) => {
            let letters = chunk.label.split(" as in ").next().unwrap_or_default().to_owned();
            let (key, say) = match key_of(&chunk.label) {
                Some(key) => (key.clone(), format!("These letters come together: {letters}, as in {key}.")),
                None => (String::new(), format!("This comes at one end of a word: {letters}.")),
            };
            vec![Introduction { pattern: chunk.label.clone(), letters, key, say, mouth: None, place: None }]
        }
        Pattern::Skill(_) => Vec::new(),
    }
}

fn of_sound(scope: &Scope, id: CorrespondenceId, label: &str, key: Option<String>) -> Introduction {
    let part = id.get();
    let key = key.unwrap_or_else(|| part.key.to_owned());
    let letters = part.spelling.to_owned();
    let say = match letters.chars().filter(|c| c.is_alphabetic()).count() {
        _ if part.is_split() => {
            let vowel = letters.chars().next().unwrap_or_default();
            format!("The e at the end is silent and works on the {vowel}: {key}.")
        }
        1 => format!("This letter is for the sound that you hear in {key}."),
        _ => format!("These letters work together. They are for one sound, the one that you hear in {key}."),
    };
    let sound = scope.accent().heard(part.sound).get().name;
    let mouth = texts(SOUNDS).find_map(|line| line.split_once('\t').filter(|(name, _)| *name == sound));
    let place = texts(PATTERNS).find_map(|line| {
        let (spelling, rest) = line.split_once('\t')?;
        let (sound, text) = rest.split_once('\t')?;
        (spelling == part.spelling && sound == part.sound.get().name).then_some(text)
    });
    Introduction { pattern: label.to_owned(), letters, key, say, mouth: mouth.map(|(_, text)| text), place }
}

fn texts(table: &'static str) -> impl Iterator<Item = &'static str> {
    table.lines().filter(|line| !line.starts_with('#'))
}

#[cfg(test)]
mod tests {
    use untaught::Reader;
    use untaught_phonics::{Grade, SoundId};

    use super::*;

    /// Every pattern of every scope that comes with the program is introduced, and every line of the tables is for something.
    #[test]
    fn all_that_is_taught_can_be_introduced() {
        let reader = Reader::default();
        let (mut made, mut placed, mut shown) = (0, 0, 0);
        for (name, _) in Scope::all_embedded() {
            let scope = Scope::embedded(name, &reader).unwrap();
            for lesson in scope.lessons() {
                for pattern in &lesson.patterns {
                    let introduced = introductions(&scope, std::slice::from_ref(pattern));
                    assert!(!introduced.is_empty(), "{name}: {pattern:?}");
                    for one in introduced {
                        made += 1;
                        placed += usize::from(one.place.is_some());
                        shown += usize::from(one.mouth.is_some());
                        assert!(!one.say.is_empty() && !one.letters.is_empty(), "{one:?}");
                    }
                }
            }
        }
        assert!(made > 350 && placed * 10 > made * 6 && shown * 10 > made * 7, "{made} {placed} {shown}");
        for line in texts(SOUNDS) {
            assert!(line.split_once('\t').is_some_and(|(name, _)| SoundId::named(name).is_some()), "{line}");
        }
        for line in texts(PATTERNS) {
            let fields: Vec<&str> = line.split('\t').collect();
            let [spelling, sound, text] = fields[..] else { panic!("{line}") };
            let id = SoundId::named(sound).and_then(|sound| CorrespondenceId::find(spelling, sound));
            assert!(id.is_some_and(|id| matches!(id.get().grade, Grade::Everyday | Grade::Common)), "{line}");
            assert!(text.ends_with('.') && text.len() < 160, "{line}");
        }
    }
}
