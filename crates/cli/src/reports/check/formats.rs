//! The formats of `check` by their names.

use super::format::Format;
use super::{csv, github, html, json, jsonl, junit, lines, sarif, text};
use crate::args::{CheckArgs, CheckFormat};

/// The format that was asked for.
pub(crate) fn chosen(args: &CheckArgs) -> Box<dyn Format + '_> {
    let (every_word, suggest) = (args.every_word, args.suggest);
    match args.format {
        CheckFormat::Text => Box::new(text::Text { suggest, quiet: args.quiet, measures: args.measures }),
        CheckFormat::Html => Box::new(html::Html),
        CheckFormat::Json => Box::new(json::Json { every_word, suggest }),
        CheckFormat::Jsonl => Box::new(jsonl::Jsonl { every_word, suggest }),
        CheckFormat::Csv => Box::new(csv::TextRows),
        CheckFormat::CsvWords => Box::new(csv::WordRows),
        CheckFormat::Sarif => Box::new(sarif::Sarif),
        CheckFormat::Junit => Box::new(junit::Junit),
        CheckFormat::Lines => Box::new(lines::WordLines),
        CheckFormat::Github => Box::new(github::Github),
    }
}
