//! `untaught scope NEW --against OLD`: what moves between two scopes, and with readers, which of them then fall short.

use std::path::Path;

use untaught::{Scope, compare};

use crate::analysis::{Detail, Fit, OtherScope, check, lesson_map, refit};
use crate::args::{ScopeArgs, ScopeFormat, SettingsArgs, TextsArgs};
use crate::output::{Failure, Message, Outcome, Sink, remark};
use crate::reports::comparison::{self, ComparedReader, Comparison};
use crate::settings::RunSettings;
use crate::texts::{Worker, each, gather, read};

pub(super) fn run(
    args: &ScopeArgs,
    new: &'static Scope,
    written: &str,
    settings: &RunSettings,
) -> Result<Outcome, Failure> {
    if args.format == ScopeFormat::Yaml {
        return Err(Failure::Message("--against needs --format text or json".to_owned()));
    }
    let old = settings.scope_typed(written)?;
    let map = lesson_map(&args.against.map_lessons, old, new)?;
    let (mut readers, mut errors) = (Vec::new(), Vec::new());
    if !args.readers.is_empty() {
        // The readers were written for the old scope: their lessons are its lessons.
        let texts = texts(args, written);
        let settings = RunSettings::new(texts.settings(), &args.config)?;
        let found = gather(&texts, &settings)?;
        let work = |worker: &mut Worker, path: &Path, _: &mut Vec<u8>| -> Result<_, Message> {
            let source = read(path, "-")?;
            let plan = source.plan(&settings)?;
            let checked = check(source, plan, Detail::COUNTS, worker, &settings)?;
            let plan = &checked.plan;
            let first = plan.first_readable(&untaught::curve(&checked.report, plan.scope));
            let scope = args.scope.as_ref().map(|written| settings.scope_typed_for(written, plan)).transpose()?;
            let other = OtherScope { scope: scope.unwrap_or(new), map: map.clone() };
            Ok(ComparedReader {
                old: Fit::of(&checked.report, plan.set_lesson(), first),
                new: refit(&checked, &other, worker, &settings),
                least: plan.settings.min_readable.value,
                note: checked.source.note(),
                title: checked.plan.title,
                name: checked.source.name,
            })
        };
        each(found, None, work, |result| {
            match result {
                Ok((reader, _)) => {
                    if let Some(note) = &reader.note {
                        remark(note);
                    }
                    readers.push(reader);
                }
                Err(error) => errors.push(error),
            }
            Ok(true)
        })?;
        readers.sort_by_key(|reader: &ComparedReader| (reader.old.meant_for.is_none(), reader.old.meant_for));
    }
    let comparison = Comparison {
        old,
        new,
        names: comparison::names([old, new], [written, args.scope.as_deref().unwrap_or("the folder’s")]),
        found: compare(old, new, &map, settings.reader),
        readers: (!args.readers.is_empty()).then_some(readers),
        errors,
        map,
    };
    let mut sink = Sink::open(None, args.format == ScopeFormat::Text)?;
    match args.format {
        ScopeFormat::Json => sink.write_json(&comparison::json(&comparison))?,
        ScopeFormat::Text | ScopeFormat::Yaml => sink.write(comparison::text(&comparison).as_bytes())?,
    }
    sink.close()?;
    Ok(Outcome::of(comparison.errors.len(), comparison.falling_short().count()))
}

/// The readers, by the old scope.
fn texts(args: &ScopeArgs, scope: &str) -> TextsArgs {
    TextsArgs {
        files: args.readers.clone(),
        settings: SettingsArgs {
            scope: Some(scope.to_owned()),
            lesson: None,
            story_words: Vec::new(),
            names: Vec::new(),
        },
        min_decodable: None,
        min_readable: None,
        config: args.config.clone(),
        force_exclude: false,
        stdin_name: "-".to_owned(),
        jobs: None,
        output: None,
    }
}
