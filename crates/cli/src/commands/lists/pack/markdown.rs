//! A pack as Markdown.

use std::fmt::Write as _;

use untaught_lists::{OralWord, Pack};

use super::PackStory;
use untaught::messages::percent as shown;

pub(super) fn pack(pack: &Pack, story: Option<&PackStory>) -> String {
    let mut out = String::new();
    let _ = write(&mut out, pack, story);
    out
}

fn write(out: &mut String, pack: &Pack, story: Option<&PackStory>) -> std::fmt::Result {
    let title = if pack.title.is_empty() { String::new() } else { format!(": {}", pack.title) };
    writeln!(out, "# Lesson {}{title}\n", pack.lesson)?;
    let practised = if pack.patterns.is_empty() { "what has been taught".to_owned() } else { pack.patterns.join(", ") };
    writeln!(out, "{}. Practises {practised}.\n", pack.scope)?;
    if !pack.introduce.is_empty() {
        writeln!(out, "## New\n")?;
        for one in &pack.introduce {
            let texts = [one.mouth, one.place].into_iter().flatten().map(|text| format!(" {text}"));
            writeln!(out, "- **{}**: “{}”{}", one.pattern, one.say, texts.collect::<String>())?;
        }
        writeln!(out)?;
    }
    writeln!(out, "## Sight words\n")?;
    for (heading, words) in [("New", &pack.sight_new), ("Review", &pack.sight_review)] {
        if !words.is_empty() {
            writeln!(out, "- {heading}: {}", words.join(" · "))?;
        }
    }
    if pack.sight_new.is_empty() && pack.sight_review.is_empty() {
        writeln!(out, "None yet.")?;
    }
    for made in pack.listening.iter().chain(&pack.listening_more) {
        writeln!(out, "\n## Listening list\n\nWhich words have {}?\n", made.plain_heading())?;
        for (number, item) in made.items.iter().enumerate() {
            writeln!(out, "{}. {}", number + 1, item.word)?;
        }
        let yes: Vec<String> =
            (1..).zip(&made.items).filter(|(_, item)| item.has).map(|(n, _)| n.to_string()).collect();
        writeln!(out, "\nKey: {}.", yes.join(", "))?;
    }
    if !pack.oral.blend.is_empty() {
        writeln!(out, "\n## Sounds to put together, words to take apart\n")?;
        let said = |word: &OralWord| format!("{} ({})", word.sounds.join("-"), word.word);
        writeln!(out, "- Say the sounds: {}", pack.oral.blend.iter().map(said).collect::<Vec<_>>().join(", "))?;
        let said = |word: &OralWord| format!("{} ({})", word.word, word.sounds.join("-"));
        writeln!(out, "- Say the word: {}", pack.oral.segment.iter().map(said).collect::<Vec<_>>().join(", "))?;
    }
    if let Some(words) = &pack.blending {
        writeln!(out, "\n## Sound boxes\n\n```text")?;
        for boxes in words {
            write!(out, "{}", boxes.text())?;
        }
        writeln!(out, "```")?;
    }
    if let Some(chain) = &pack.chain {
        writeln!(out, "\n## Word chain\n\n1. {}", chain.words[0])?;
        for (number, (word, step)) in chain.words[1..].iter().zip(&chain.steps).enumerate() {
            writeln!(out, "{}. {word} ({step})", number + 2)?;
        }
    }
    if let Some(chain) = &pack.chain {
        writeln!(out, "\nTiles: {}", chain.tiles.join(" · "))?;
    }
    if let Some(sort) = &pack.sort {
        let words: Vec<&str> = sort.words.iter().map(|word| word.word.as_str()).collect();
        writeln!(out, "\n## Word sort\n\n{}\n", words.join(" · "))?;
        for (number, column) in sort.columns.iter().enumerate() {
            let own = sort.words.iter().filter(|word| word.column == Some(number)).map(|word| word.word.as_str());
            writeln!(out, "- {column}: {}", own.collect::<Vec<_>>().join(", "))?;
        }
        let none: Vec<&str> =
            sort.words.iter().filter(|word| word.column.is_none()).map(|word| word.word.as_str()).collect();
        if !none.is_empty() {
            writeln!(out, "- none of them: {}", none.join(", "))?;
        }
    }
    if let Some(words) = &pack.nonsense {
        let words: Vec<&str> = words.iter().map(|word| word.word.as_str()).collect();
        writeln!(out, "\n## Nonsense words\n\n{}", words.join(" · "))?;
    }
    if let Some(made) = &pack.dictation {
        writeln!(out, "\n## Dictation\n")?;
        for (heading, words) in made.lists() {
            writeln!(out, "- {heading}: {}", words.join(", "))?;
        }
        if !made.sentences.is_empty() {
            writeln!(out)?;
        }
        for (number, sentence) in made.sentences.iter().enumerate() {
            writeln!(out, "{}. {sentence}", number + 1)?;
        }
    }
    if let Some(story) = story {
        self::story(out, story)?;
    }
    if !pack.lacking.is_empty() {
        writeln!(out, "\n## Not in this pack\n")?;
        for list in &pack.lacking {
            writeln!(out, "- {}: {}.", list.heading(), list.why)?;
        }
    }
    writeln!(out, "\n---\n\nTo make the same lists again, use seed {}. The teacher decides.", pack.seed)
}

/// The story with its focus words in bold, and its check.
fn story(out: &mut String, story: &PackStory) -> std::fmt::Result {
    let report = story.report();
    writeln!(out, "\n## Story{}\n", story.title().map_or(String::new(), |title| format!(": {title}")))?;
    let mut marked = String::new();
    for (text, focus) in story.pieces() {
        let text = escaped(text);
        marked += &if focus { format!("**{text}**") } else { text };
    }
    writeln!(out, "{}\n", marked.trim())?;
    let counts = &report.tokens;
    let own = !story.0.plan.settings.focus.is_empty();
    writeln!(
        out,
        "{} of {} words decodable ({}), {} readable ({}); {} practise {}.",
        counts.decodable,
        counts.words,
        shown(counts.percent_decodable()),
        counts.words - counts.untaught,
        shown(counts.percent_readable()),
        report.focus.tokens,
        if own { report.focus.labels.join(", ") } else { "the lesson's patterns".to_owned() }
    )?;
    let told = story.told();
    if !told.is_empty() {
        writeln!(out, "\nPre-teach: {}.", told.join(", "))?;
    }
    let questions = story.questions();
    if !questions.is_empty() {
        writeln!(out, "\nAsk afterwards:\n")?;
        for (number, question) in questions.iter().enumerate() {
            writeln!(out, "{}. {} ({})", number + 1, escaped(&question.ask), escaped(&question.answer))?;
        }
    }
    Ok(())
}

fn escaped(text: &str) -> String {
    let text = crate::output::safe(text).to_string();
    text.replace('*', "\\*").replace('_', "\\_").replace('<', "&lt;").replace('#', "\\#")
}
