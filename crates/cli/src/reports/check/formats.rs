//! The formats of `check` by their names.

use super::format::Format;
use super::{csv, github, html, json, jsonl, junit, lines, sarif, text};
use crate::args::{CheckArgs, CheckFormat};

/// The format that was asked for.
pub(crate) fn chosen(args: &CheckArgs) -> Box<dyn Format + '_> {
    let (every_word, suggest, plan) = (args.every_word, args.suggest || args.plan, args.plan);
    match args.format {
        CheckFormat::Text => Box::new(text::Text { suggest, plan, quiet: args.quiet, measures: args.measures }),
        CheckFormat::Html => Box::new(html::Html),
        CheckFormat::Json => Box::new(json::Json { every_word, suggest, plan }),
        CheckFormat::Jsonl => Box::new(jsonl::Jsonl { every_word, suggest, plan }),
        CheckFormat::Csv => Box::new(csv::TextRows { totals: args.totals }),
        CheckFormat::CsvWords => Box::new(csv::WordRows),
        CheckFormat::Sarif => Box::new(sarif::Sarif),
        CheckFormat::Junit => Box::new(junit::Junit),
        CheckFormat::Lines => Box::new(lines::WordLines),
        CheckFormat::Github => Box::new(github::Github),
    }
}
