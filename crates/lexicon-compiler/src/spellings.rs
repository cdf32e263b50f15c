//! British spellings of words that the dictionary has in American spelling: *colour* is read like *color*.

use crate::commonness::Commonness;
use crate::dictionary::Words;

/// Adds the words of the list `data/spellings.tsv`, each with the readings of its American word.
///
/// # Errors
/// A sentence with the line of the first mistake.
pub(crate) fn add(words: &mut Words, commonness: &mut Commonness, list: &str) -> Result<(), String> {
    let lines = (1..).zip(list.lines()).filter(|(_, line)| !line.starts_with('#'));
    for (number, line) in lines {
        let (british, american, class, only) = match line.split('\t').collect::<Vec<_>>()[..] {
            [british, american, class] => (british, american, class, false),
            [british, american, class, "american"] => (british, american, class, true),
            _ => return Err(format!("{number}: word, American word and class expected")),
        };
        let class = class.parse().map_err(|_| format!("{number}: {class} is not a class"))?;
        let readings = words.get(american).ok_or_else(|| format!("{number}: the dictionary has no word {american}"))?;
        words.insert(british.to_owned(), readings.clone());
        commonness.add_british(british, class).map_err(|error| format!("{number}: {error}"))?;
        if only {
            commonness.mark_american(american);
        }
    }
    Ok(())
}
