//! A pack as Markdown.

use std::fmt::Write as _;

use untaught_materials::Pack;

use super::{At, Story, lacking};
use crate::check::shown;

pub(super) fn pack(at: &At, pack: &Pack, story: Option<&Story>, seed: u64) -> String {
    let mut out = String::new();
    let _ = write(&mut out, at, pack, story, seed);
    out
}

fn write(out: &mut String, at: &At, pack: &Pack, story: Option<&Story>, seed: u64) -> std::fmt::Result {
    let title = at.scope.lesson(at.place).map_or("", |lesson| lesson.title.as_str());
    let title = if title.is_empty() { String::new() } else { format!(": {title}") };
    writeln!(out, "# Lesson {}{title}\n", at.id(at.place))?;
    writeln!(
        out,
        "{}. Practises {}.\n",
        at.scope.title(),
        if pack.patterns.is_empty() { "what is known".to_owned() } else { pack.patterns.join(", ") }
    )?;
    writeln!(out, "## Words to know\n")?;
    for (name, words) in [("New", &pack.sight_new), ("Again", &pack.sight_review)] {
        if !words.is_empty() {
            writeln!(out, "- {name}: {}", words.join(" · "))?;
        }
    }
    if pack.sight_new.is_empty() && pack.sight_review.is_empty() {
        writeln!(out, "None yet.")?;
    }
    if let Ok(made) = &pack.listening {
        writeln!(out, "\n## Listen\n\nWhich words have {}?\n", made.heading())?;
        for (number, item) in made.items.iter().enumerate() {
            writeln!(out, "{}. {}", number + 1, item.word)?;
        }
        let yes: Vec<String> =
            (1..).zip(&made.items).filter(|(_, item)| item.has).map(|(n, _)| n.to_string()).collect();
        writeln!(out, "\nKey: {}.", yes.join(", "))?;
    }
    if let Ok(words) = &pack.blending {
        writeln!(out, "\n## Blend\n\n```text")?;
        for boxes in words {
            write!(out, "{}", boxes.text())?;
        }
        writeln!(out, "```")?;
    }
    if let Ok(chain) = &pack.chain {
        writeln!(out, "\n## Change one sound\n\n1. {}", chain.words[0].word)?;
        for (number, (word, step)) in chain.words[1..].iter().zip(&chain.steps).enumerate() {
            writeln!(out, "{}. {} ({step})", number + 2, word.word)?;
        }
    }
    if let Ok(made) = &pack.dictation {
        writeln!(out, "\n## Spell\n")?;
        for (name, words) in [("New", &made.new), ("Again", &made.review), ("Known whole", &made.sight)] {
            if !words.is_empty() {
                writeln!(out, "- {name}: {}", words.join(", "))?;
            }
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
    let missing = lacking(pack);
    if !missing.is_empty() {
        writeln!(out, "\n## Not in this pack\n")?;
        for (list, why) in missing {
            writeln!(out, "- {list}: {why}.")?;
        }
    }
    writeln!(out, "\n---\n\nMade with seed {seed}; the same seed makes the same lists. The teacher decides.")
}

/// The story with its focus words in bold, and its check.
fn story(out: &mut String, story: &Story) -> std::fmt::Result {
    let report = story.report();
    writeln!(out, "\n## Read{}\n", story.title().map_or(String::new(), |title| format!(": {title}")))?;
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
        writeln!(out, "\nTo be told beforehand: {}.", told.join(", "))?;
    }
    Ok(())
}

fn escaped(text: &str) -> String {
    let text = crate::output::safe(text).to_string();
    text.replace('*', "\\*").replace('_', "\\_").replace('<', "&lt;").replace('#', "\\#")
}
