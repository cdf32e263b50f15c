//! `untaught shelf`: a folder of readers as one sequence.

use std::io::{self, IsTerminal as _};
use std::path::Path;

use untaught::Scope;

use crate::analysis::{Book, BookDraft, Detail, OtherScope, Shelf, Vocabulary, check, lesson_map, refit};
use crate::args::{ShelfArgs, ShelfFormat};
use crate::output::{Failure, Outcome, Sink, complain_about, goes_to_stdout, remark};
use crate::reports::comparison::names;
use crate::reports::shelf as report;
use crate::settings::RunSettings;
use crate::texts::{Worker, each, gather, read};

pub(crate) fn run(args: &ShelfArgs) -> Result<Outcome, Failure> {
    if args.format == ShelfFormat::Xlsx && goes_to_stdout(args.texts.output.as_deref()) && io::stdout().is_terminal() {
        return Err(Failure::Message(
            "a spreadsheet is not for a terminal; name a file: --output series.xlsx".to_owned(),
        ));
    }
    let settings = RunSettings::new(args.texts.settings(), &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    let other = args.against.against.as_deref().map(|written| settings.scope_typed(written)).transpose()?;
    let mut errors = Vec::new();
    let mut books: Vec<Book> = Vec::new();
    // Of the scope of the first text.
    let mut shelf: Option<(&'static Scope, Vocabulary)> = None;
    let work = |worker: &mut Worker, path: &Path, _: &mut Vec<u8>| {
        let source = read(path, &args.texts.stdin_name)?;
        let plan = source.plan(&settings)?;
        let checked = check(source, plan, Detail::COUNTS, worker, &settings)?;
        let (scope, note) = (checked.plan.scope, checked.source.note());
        let refit = match args.against.against.as_deref() {
            Some(written) => {
                let other = settings.scope_typed_for(written, &checked.plan)?;
                let map = lesson_map(&args.against.map_lessons, other, scope)?.reversed();
                Some(refit(&checked, &OtherScope { scope: other, map }, worker, &settings))
            }
            None => None,
        };
        Ok((BookDraft::new(checked, refit), scope, note))
    };
    each(found, args.texts.jobs, work, |result| {
        let (draft, scope, note) = match result {
            Ok((read, _)) => read,
            Err(error) => {
                errors.push(error);
                return Ok(true);
            }
        };
        if let Some(note) = note {
            remark(&note);
        }
        let (first, vocabulary) = shelf.get_or_insert_with(|| (scope, Vocabulary::new(scope, settings.reader)));
        if std::ptr::eq(*first, scope) {
            books.push(draft.numbered(vocabulary));
        } else {
            let message = format!(
                "{} uses a different scope ({}) from the first text ({}); report on each scope separately",
                draft.name,
                scope.title(),
                first.title()
            );
            errors.push(complain_about(draft.name, message));
        }
        Ok(true)
    })?;
    let other = other.zip(args.against.against.as_deref()).map(|(other, named)| {
        let own = shelf.as_ref().map_or(other, |(scope, _)| scope);
        let [name, _] = names([other, own], [named, ""]);
        (other, name)
    });
    let shelf = Shelf::new(shelf, other, books, args.enough, args.order);
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == ShelfFormat::Text)?;
    report::write(&mut sink, args.format, &shelf, &args.show, &errors)?;
    sink.close()?;
    Ok(Outcome::of(errors.len(), shelf.misplaced().count()))
}
